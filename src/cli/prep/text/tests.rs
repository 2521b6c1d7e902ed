//! What `prep` shows in a terminal.

use pretty_assertions::assert_eq;
use proptest::prelude::*;

use jiff::civil::date;

use super::*;
use crate::kitchen::fixture::{empty_kitchen, recipe};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Person, Recipe, RecipeId, Spot};
use crate::measure::{Celsius, Minutes, Quantity};
use crate::prep::Task;
use crate::prep::{Advice, BoxTask, Care, Cut, Doing, Kept, StepTask};

const OVEN: ApplianceId = ApplianceId(0);

fn appliance(name: &str) -> Appliance {
    let (name, at) = (name.to_owned(), Spot::default());
    Appliance {
        name,
        room: 2,
        heat: true,
        near: 10.0,
        warm_up: Minutes(10),
        out: Minutes(1),
        comes_up: Minutes(0),
        holds: None,
        kind: None,
        fan: false,
        at,
    }
}

/// An oven, roast roots and beetroot.
fn kitchen() -> Kitchen {
    let mut kitchen = empty_kitchen();
    kitchen.appliances = vec![appliance("oven")];
    kitchen.recipes = vec![Recipe { name: "Roast roots".into(), ..recipe("roast-roots") }];
    kitchen.foods.intern_unknown("beetroot");
    kitchen
}

fn step(text: &str) -> Doing {
    Doing::Step(StepTask {
        recipe: RecipeId(0),
        step: 0,
        round: 0,
        rounds: 1,
        text: text.into(),
        part: None,
        verb: String::new(),
        uses: vec![],
    })
}

fn task(what: Doing, minutes: [i64; 4]) -> Task {
    let [start_minute, hands_minutes, out_minutes, end_minute] = minutes;
    let person = (hands_minutes > 0).then_some(PersonId(0));
    let out_person = (out_minutes > 0).then_some(PersonId(0));
    let (on, takes, at) = (vec![], None, None);
    Task { what, start_minute, hands_minutes, out_minutes, end_minute, person, out_person, on, takes, at, notes: vec![], after: vec![] }
}

fn person(name: &str) -> Person {
    Person { name: name.into(), role: name.into(), from: None, until: None, may: None }
}

/// The oven warms up for 10 min while the cook peels; the roots roast from 10 to 26; boxing takes 3 min.
fn roast() -> PrepPlan {
    let boxing = BoxTask {
        recipe: RecipeId(0),
        into: vec![Kept { amount: Quantity::portions(4.0), place: crate::foods::Place::Fridge }],
        by: None,
        stood: None,
    };
    let tasks = vec![
        Task { on: vec![OVEN], at: Some(Celsius(200.0)), ..task(Doing::Set, [0, 0, 0, 10]) },
        task(step("Peel and cut the roots."), [0, 8, 0, 8]),
        Task { on: vec![OVEN], ..task(step("Roast them until they are brown at the edges."), [10, 0, 1, 26]) },
        task(Doing::Box(boxing), [26, 3, 0, 29]),
    ];
    let start = date(2026, 11, 29).at(14, 0, 0, 0);
    let food = crate::foods::FoodId(0);
    let session = SessionPlan {
        start,
        finish_by: None,
        served: vec![],
        finish: start.with().minute(29).build().expect("a time"),
        minutes: 29,
        bound_minutes: 29,
        proven: true,
        people: vec![person("cook")],
        batches: vec![],
        tasks,
        fetch: vec![],
        cuts: vec![Cut {
            food,
            name: "beetroot".into(),
            amount: Quantity::grams(600.0),
            counted: None,
            cut: "peeled, cut in wedges".into(),
            step: 1,
        }],
        boxes: vec![],
        set_aside: vec![],
        theirs: vec![],
        cautions: vec![Care::Rule {
            text: "Hot trays, pots and steam: dry oven gloves.",
            figures: vec![],
            source: "common practice, no source",
        }],
        advice: vec![],
        slower: vec![],
        rest: None,
        said: vec![],
        begun: vec![],
    };
    PrepPlan {
        week: "First week of advent".into(),
        sessions: vec![session],
        before: vec![],
        moves: vec![],
        short: vec![],
        cautions: vec![],
    }
}

#[test]
fn a_session_is_a_chart_by_the_clock_then_its_steps_as_the_guide_numbers_them() {
    let shown = "\
Boatyard Row: First week of advent

Sun 29 Nov 14:00 to 14:29: 29 min, no shorter plan exists
cook

       cook     oven
14:00  1        ~
14:05  |        ~
14:10           2
14:15           |
14:20           |
14:25  2 out,A  |

A number or letter: the step or box begins. |: it goes on. ~: warming up.

  ~  14:00, 10 min on its own; oven; 200 °C
     Set the oven to 200 °C (390 °F)
     Until 14:10.
  1  14:00, 8 min; cook; Roast roots
     Peel and cut the roots.
  2  14:10, 15 min on its own; Roast roots; oven
     Roast them until they are brown at the edges.
     Out at 14:25 (cook).
  A  14:26, 3 min; cook; Roast roots
     Box and chill roast roots: 4 portions to the fridge
     ☐ in the fridge by 14:29

Get out
  - the oven

Cut, and for which step
  - 600 g beetroot: peeled, cut in wedges for 1

Hands
  - cook: 12 min hands-on, free 14:08 to 14:25

Mind
  - Hot trays, pots and steam: dry oven gloves. (common practice, no source)
";
    assert_eq!(text(&roast(), &[], kitchen().names(), Units::Metric, 80), shown);
}

proptest! {
    #[test]
    fn no_line_is_wider_than_the_terminal(width in 40usize..140, words in "[a-z ]{0,200}", more in 0usize..12) {
        let (mut plan, mut kitchen) = (roast(), kitchen());
        let session = &mut plan.sessions[0];
        session.tasks[1].what = step(&words);
        session.advice = vec![Advice::AtOnce { people: vec![words.clone()], appliances: vec![], session: session.start }];
        for number in 1..=more {
            let name = format!("appliance number {number}");
            kitchen.appliances.push(appliance(&name));
            session.people.push(person(&name));
            let busy = Task { person: Some(PersonId(number)), on: vec![ApplianceId(number)], ..task(step(&words), [0, 5, 0, 40]) };
            session.tasks.push(busy);
        }
        for line in text(&plan, &[], kitchen.names(), Units::Metric, width).lines() {
            prop_assert!(line.chars().count() <= width, "{line}");
        }
    }
}
