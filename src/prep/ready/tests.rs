use pretty_assertions::assert_eq;

use super::*;
use crate::foods::Place;
use crate::kitchen::{ApplianceId, Kitchen};
use crate::measure::Quantity;
use crate::prep::testing::*;
use crate::prep::{BoxNote, BoxTask, Kept, Slowed, StepTask};

const CHEF: PersonId = PersonId(0);
const JO: PersonId = PersonId(1);

/// A step of `person` from `start` for `hands` minutes, which then waits and, where it is on the hob or in the oven, is taken out in a minute.
fn step(person: PersonId, start: i64, hands: i64, wait: i64, on: Option<usize>) -> Task {
    let out = i64::from(wait > 0 && on.is_some());
    let text = "Stir.".to_owned();
    Task {
        what: Doing::Step(StepTask {
            recipe: RecipeId(0),
            step: 0,
            round: 0,
            rounds: 1,
            text,
            part: None,
            verb: String::new(),
            uses: vec![],
        }),
        start_minute: start,
        hands_minutes: hands,
        out_minutes: out,
        end_minute: start + hands + wait + out,
        person: Some(person),
        out_person: (out > 0).then_some(person),
        on: on.map(ApplianceId).into_iter().collect(),
        takes: on.map(|_| 1),
        at: None,
        notes: vec![],
        after: vec![],
    }
}

fn boxing(start: i64, place: Place, by: Option<i64>) -> Task {
    let into = vec![Kept { amount: Quantity::portions(4.0), place }];
    Task { what: Doing::Box(BoxTask { recipe: RecipeId(0), into, by, stood: None }), ..step(CHEF, start, 3, 0, None) }
}

fn note(boxes: Option<Boxes>) -> BoxNote {
    BoxNote {
        eater: None,
        without: vec![],
        recipe: RecipeId(0),
        amount: Quantity::portions(4.0),
        place: Place::Fridge,
        use_by: sunday().date(),
        what_for: vec![],
        boxes,
        contains: Default::default(),
        beware: None,
    }
}

/// An oven, a hob and a pressure cooker; a cook, and Jo from 14:30 to 15:30.
fn session(tasks: Vec<Task>) -> (Kitchen, SessionPlan) {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true), appliance("hob", 4, false), appliance("pressure cooker", 1, false)];
    let kinds = [ApplianceKind::Oven, ApplianceKind::Hob, ApplianceKind::Pressure];
    kitchen.appliances.iter_mut().zip(kinds).for_each(|(one, kind)| one.kind = Some(kind));
    kitchen.recipes = vec![recipe("mash", "White-bean mash", 4.0, vec![])];
    let minutes = tasks.iter().map(|task| task.end_minute).max().unwrap_or(0);
    let at = |minutes: i64| sunday().saturating_add(jiff::Span::new().minutes(minutes));
    let jo = crate::kitchen::Person { from: Some(at(30)), until: Some(at(90)), ..person("Jo", "helper") };
    let session = SessionPlan {
        start: sunday(),
        finish_by: None,
        served: vec![],
        finish: at(minutes),
        minutes,
        bound_minutes: minutes,
        proven: true,
        people: vec![person("cook", "cook"), jo],
        batches: vec![],
        tasks,
        fetch: vec![],
        cuts: vec![],
        set_aside: vec![],
        boxes: vec![],
        theirs: vec![],
        cautions: vec![],
        advice: vec![],
        slower: vec![],
        rest: None,
        said: vec![],
        begun: vec![],
    };
    (kitchen, session)
}

#[test]
fn a_step_says_its_minutes_by_hand_and_on_its_own() {
    assert_eq!(step(CHEF, 0, 4, 45, Some(0)).timing(), ", 4 min, then 45 min on its own");
    assert_eq!(step(CHEF, 0, 70, 0, None).timing(), ", 1 h 10 min");
    assert_eq!(step(CHEF, 0, 0, 20, None).timing(), ", 20 min on its own");
}

#[test]
fn everybodys_minutes_and_long_pauses_are_told() {
    // The cook: 0 to 20, out of the oven from 64 to 65 (44 min later), 80 to 95 (15 min later). Jo: there from 30, works from 40 to 50.
    let tasks = vec![step(CHEF, 0, 20, 44, Some(0)), step(JO, 40, 10, 0, None), step(CHEF, 80, 15, 0, None)];
    let (_, session) = session(tasks);
    let said: Vec<String> = session.hands().iter().map(|hands| hands.text(&session)).collect();
    let cook = "cook: 36 min hands-on, free 14:20 to 15:04 and 15:05 to 15:20";
    // Ten minutes before her first step are no pause; the forty after it are.
    assert_eq!(said, [cook, "Jo: 10 min hands-on, free 14:50 to 15:30"]);
}

#[test]
fn boxes_pots_and_trays_are_set_ready_first() {
    let tubs = |count| Some(Boxes { count, kind: "flat tub".into() });
    // Two pots: what is softened until 15 waits in its own until the step at 30 takes it up, and the other pot is on from 20.
    let mut tasks = vec![step(CHEF, 0, 5, 10, Some(1)), step(CHEF, 20, 5, 0, Some(1)), step(CHEF, 30, 5, 0, Some(1))];
    tasks[2].after = vec![0, 1];
    tasks.extend([step(CHEF, 40, 5, 30, Some(0)), step(JO, 40, 5, 30, Some(2)), boxing(80, Place::Fridge, None)]);
    let (kitchen, mut session) = session(tasks);
    session.boxes = vec![note(tubs(2)), note(tubs(1))];
    let out = session.get_out(None).words(kitchen.names());
    assert_eq!(out, ["3 flat tubs", "2 pots or pans for the hob", "1 tray or dish for the oven", "the pressure cooker"]);
    assert_eq!(session.get_out(Some(JO)).words(kitchen.names()), ["the pressure cooker"]);
    session.boxes = vec![note(None)];
    assert_eq!(session.get_out(None).words(kitchen.names())[0], "a box for white-bean mash");
}

#[test]
fn a_box_is_cold_two_hours_after_the_heat_or_when_it_is_closed() {
    assert_eq!(boxing(80, Place::Fridge, Some(185)).cold_by(), Some(185));
    assert_eq!(boxing(80, Place::Freezer, None).cold_by(), Some(83));
    // Boxed from 80 to 83, and two hours were over at 42.
    assert_eq!(boxing(80, Place::Fridge, Some(42)).cold_by(), Some(83));
    assert_eq!(boxing(80, Place::Cupboard, None).cold_by(), None);
}

#[test]
fn slower_hands_are_told_in_one_line() {
    let (kitchen, mut session) = session(vec![step(CHEF, 0, 20, 0, None)]);
    let slowed = |percent, late, breaks| Slowed { percent, finish: sunday(), late, breaks };
    session.slower = vec![slowed(10, 0, vec![]), slowed(20, 0, vec![])];
    assert_eq!(session.slower_text(kitchen.names()).as_deref(), Some("a fifth slower: 14:00; nothing breaks"));
    let stays = crate::prep::Advice::Stays { person: "Jo".into(), minutes: 8, until: sunday() };
    session.slower = vec![slowed(20, 5, vec![stays])];
    let said = session.slower_text(kitchen.names());
    assert_eq!(said.as_deref(), Some("a fifth slower: 14:00, 5 min late; Jo stays 8 min longer, until 14:00"));
}

#[test]
fn cuts_of_one_food_in_one_stretch_are_told_as_one() {
    let cut = |grams: f64, cut: &str, step| crate::prep::Cut {
        food: crate::foods::FoodId(0),
        name: "onions".into(),
        amount: Quantity::grams(grams),
        counted: None,
        cut: cut.into(),
        step,
    };
    let told = |starts: [i64; 3]| {
        let (_, mut session) =
            session(vec![step(CHEF, starts[0], 5, 0, None), step(CHEF, starts[1], 5, 0, None), step(JO, starts[2], 5, 0, None)]);
        session.cuts = vec![cut(200.0, "sliced", 1), cut(300.0, "diced", 2), cut(50.0, "chopped", 3)];
        session.cuts_together().iter().map(|one| one.words(crate::measure::Units::Metric).replace('\u{a0}', " ")).collect::<Vec<_>>()
    };
    // Steps 1 and 2 are five minutes apart, step 3 is Jo's.
    assert_eq!(told([0, 10, 40]), ["500 g onions: 200 g sliced for 1, 300 g diced for 2", "50 g onions: chopped for 3"]);
    // Half an hour apart they are two pieces of work.
    assert_eq!(told([0, 35, 40]), ["200 g onions: sliced for 1", "300 g onions: diced for 2", "50 g onions: chopped for 3"]);
}

#[test]
fn a_pot_is_rinsed_for_the_next_round_and_one_is_enough_for_both() {
    // Two rounds of 5 + 20 + 1 on one ring, the next step right after the second.
    let round = |round: usize, start: i64| {
        let mut task = step(CHEF, start, 5, 20, Some(0));
        if let Doing::Step(step) = &mut task.what {
            (step.round, step.rounds) = (round, 2);
        }
        task
    };
    let serve = Task { after: vec![0, 1], ..step(CHEF, 52, 5, 0, None) };
    let (_, session) = session(vec![round(0, 0), round(1, 26), serve]);
    assert_eq!(session.get_out(None).on, [(ApplianceId(0), 1)]);
}
