//! What `prep` shows in a terminal.

use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::*;
use crate::prep::Cut;

fn task(kind: TaskKind, minutes: (i64, i64, i64, i64), person: Option<&str>, appliance: Option<&str>, text: &str) -> Task {
    let (start_minute, hands_minutes, out_minutes, end_minute) = minutes;
    Task {
        kind,
        recipe: None,
        step: None,
        round: None,
        start_minute,
        hands_minutes,
        out_minutes,
        end_minute,
        person: person.map(Into::into),
        out_person: person.filter(|_| out_minutes > 0).map(Into::into),
        appliance: appliance.map(Into::into),
        also: vec![],
        takes: None,
        at_celsius: None,
        text: text.into(),
        dish: (kind != TaskKind::Set).then(|| "Roast roots".into()),
        short: String::new(),
        notes: vec![],
        after: vec![],
    }
}

/// The oven warms up for 10 min while the cook peels; the roots roast from 10 to 26; boxing takes 3 min.
fn roast() -> PrepPlan {
    let tasks = vec![
        task(TaskKind::Set, (0, 0, 0, 10), None, Some("oven"), "Set the oven to 200 °C"),
        task(TaskKind::Step, (0, 8, 0, 8), Some("cook"), None, "Peel and cut the roots."),
        Task {
            person: None,
            ..task(TaskKind::Step, (10, 0, 1, 26), Some("cook"), Some("oven"), "Roast them until they are brown at the edges.")
        },
        task(TaskKind::Box, (26, 3, 0, 29), Some("cook"), None, "Box and chill roast roots: 4 portions to the fridge"),
    ];
    let session = SessionPlan {
        start: "2026-11-29T14:00".into(),
        finish: "2026-11-29T14:29".into(),
        minutes: 29,
        bound_minutes: 29,
        proven: true,
        batches: vec![],
        tasks,
        fetch: vec![],
        cuts: vec![Cut { food: "beetroot".into(), amount: Quantity::grams(600.0), cut: "peeled, cut in wedges".into(), step: 1 }],
        boxes: vec![],
        cautions: vec!["Hot trays, pots and steam: dry oven gloves.".into()],
        advice: vec![],
        people: vec!["cook".into()],
        finish_by: None,
    };
    PrepPlan { week: "First week of advent".into(), sessions: vec![session], before: vec![], moves: vec![] }
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

     14:00 to 14:10; oven
     Set the oven to 200 °C
  1  14:00 to 14:08; cook; Roast roots
     Peel and cut the roots.
  2  14:10 to 14:26; Roast roots; oven
     Roast them until they are brown at the edges.
     Out at 14:25 (cook).
  A  14:26 to 14:29; cook; Roast roots
     Box and chill roast roots: 4 portions to the fridge

Cut
  beetroot  600 g  peeled, cut in wedges, step 1

Mind
  - Hot trays, pots and steam: dry oven gloves.
";
    assert_eq!(text(&roast(), "Boatyard Row", Units::Metric, 80), shown);
}

proptest! {
    #[test]
    fn no_line_is_wider_than_the_terminal(width in 40usize..140, words in "[a-z ]{0,200}", more in 0usize..12) {
        let mut plan = roast();
        plan.sessions[0].tasks[1].text = words.clone();
        plan.sessions[0].advice = vec![words.clone()];
        for appliance in 0..more {
            let name = format!("appliance number {appliance}");
            plan.sessions[0].tasks.push(task(TaskKind::Step, (0, 5, 0, 40), Some(&name), Some(&name), &words));
        }
        for line in text(&plan, "Boatyard Row", Units::Metric, width).lines() {
            prop_assert!(line.chars().count() <= width, "{line}");
        }
    }
}
