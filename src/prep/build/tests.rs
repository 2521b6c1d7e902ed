use jiff::civil::date;
use pretty_assertions::assert_eq;
use proptest::prelude::*;

use super::*;
use crate::foods::Place;
use crate::kitchen::{ApplianceId, RecipeId, Step};
use crate::measure::{Celsius, Minutes, Quantity};
use crate::plan::{Boxed, Making};
use crate::prep::testing::*;
use crate::prep::{Advice, Doing, Task, presence};

fn kind(task: &Task) -> &'static str {
    match task.what {
        Doing::Set => "set",
        Doing::Step(_) => "step",
        Doing::Aside(_) => "aside",
        Doing::Box(_) => "box",
        Doing::WashUp => "wash up",
    }
}

/// Beetroot: 5 min of hands, 40 min in the oven; half of it kept.
fn beetroot() -> (Kitchen, Makings) {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true)];
    let roast = Step {
        hands: Minutes(5),
        wait: Minutes(40),
        scales: false,
        on: vec![ApplianceId(0)],
        temperature: Some(Celsius(190.0)),
        ..step("Roast the beetroot.")
    };
    kitchen.recipes = vec![recipe("beetroot", "Roast beetroot", 4.0, vec![roast])];
    let kept = Boxed {
        amount: Quantity::portions(3.0),
        place: Place::Fridge,
        use_by: date(2026, 12, 2),
        what_for: vec!["Mon supper".into()],
        parts: vec![3.into()],
        eater: None,
        without: vec![],
    };
    let list = makings(vec![Making { boxes: vec![kept], ..making(&kitchen, 0, 1.5) }]);
    (kitchen, list)
}

#[test]
fn a_session_is_told_from_the_warm_up_to_the_last_box() {
    // 10 min of warm-up, 5 + 40 + 1 in the oven for two trays, 10 of cooling, 3 min of boxing: 69 min.
    let (kitchen, makings) = beetroot();
    let plan = prep(&kitchen, &week(), &makings, &[], &[], Effort::Normal);
    let session = &plan.sessions[0];
    let seen: Vec<_> = session.tasks.iter().map(|t| (kind(t), t.start_minute, t.end_minute)).collect();
    assert_eq!(seen, [("set", 0, 10), ("step", 10, 56), ("box", 66, 69)]);
    assert_eq!((session.minutes, session.proven), (69, true));
    assert_eq!((session.start, session.finish), (sunday(), date(2026, 11, 29).at(15, 9, 0, 0)));
    let batch = Batch { recipe: RecipeId(0), batches: 1.5, makes: Quantity::portions(6.0) };
    assert_eq!((&session.batches, session.boxes.len(), &session.boxes[0].amount), (&vec![batch], 1, &Quantity::portions(3.0)));
}

#[test]
fn a_session_with_nothing_to_make_takes_no_time() {
    let plan = prep(&kitchen(), &week(), &Makings::default(), &[], &[], Effort::Normal);
    let session = &plan.sessions[0];
    assert_eq!((session.minutes, session.tasks.len(), session.advice.len(), session.cautions.len()), (0, 0, 0, 0));
    assert_eq!(session.finish, session.start);
}

#[test]
fn an_overrun_of_finish_by_is_said() {
    let (kitchen, makings) = beetroot();
    let mut week = week();
    week.sessions[0].finish_by = Some(date(2026, 11, 29).at(14, 45, 0, 0));
    let plan = prep(&kitchen, &week, &makings, &[], &[], Effort::Normal);
    assert_eq!(plan.sessions[0].advice[0].text(kitchen.names()), "This session ends at 15:09, 24 min after 14:45.");
}

#[test]
fn people_are_told_with_their_roles_and_hours() {
    let mut jo = person("Jo", "helper");
    jo.from = Some(date(2026, 11, 29).at(15, 0, 0, 0));
    jo.until = Some(date(2026, 11, 29).at(16, 0, 0, 0));
    let mut week = week();
    week.sessions[0].people.push(jo);
    let plan = prep(&kitchen(), &week, &Makings::default(), &[], &[], Effort::Normal);
    let people: Vec<String> = plan.sessions[0].people.iter().map(presence).collect();
    assert_eq!(people, ["cook", "Jo (helper), 15:00 to 16:00"]);
}

#[test]
fn steps_that_wait_for_one_another_still_make_a_plan() {
    let mut kitchen = kitchen();
    let first = Step { hands: Minutes(5), after: Some(vec![crate::kitchen::After::Step(1)]), ..step("One.") };
    kitchen.recipes = vec![recipe("circle", "Circle", 4.0, vec![first, Step { hands: Minutes(5), ..step("Two.") }])];
    let list = makings(vec![making(&kitchen, 0, 1.0)]);
    let plan = prep(&kitchen, &week(), &list, &[], &[], Effort::Normal);
    assert!(matches!(plan.sessions[0].advice[0], Advice::Circle(_)), "{:?}", plan.sessions[0].advice);
}

/// Steps on the oven, on the hob or by hand, some free of the step before.
fn any_step() -> impl Strategy<Value = Step> {
    (0i64..20, 0i64..50, 0usize..3, any::<bool>(), 0.5f64..2.5).prop_map(|(hands, wait, on, free, takes)| Step {
        hands: Minutes(hands),
        wait: Minutes(wait),
        on: if on < 2 { vec![ApplianceId(on)] } else { vec![] },
        temperature: (on == 0).then_some(Celsius(180.0)),
        scales: on == 2,
        after: free.then(Vec::new),
        takes,
        ..step("Cook.")
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_plan_is_in_order_and_boxes_in_time(steps in prop::collection::vec(any_step(), 1..4), halves in 1u32..7) {
        let (mut kitchen, mut makings) = beetroot();
        kitchen.appliances.push(appliance("hob", 3, false));
        kitchen.recipes[0].steps = steps;
        makings.makings[0].batches = crate::plan::Batches::new(f64::from(halves) / 2.0);
        let plan = prep(&kitchen, &week(), &makings, &[], &[], Effort::Low);
        let session = &plan.sessions[0];
        let tasks = &session.tasks;
        prop_assert!(tasks.windows(2).all(|two| two[0].start_minute <= two[1].start_minute));
        prop_assert_eq!(tasks.iter().map(|t| t.end_minute).max(), Some(session.minutes));
        prop_assert!(tasks.iter().all(|t| t.end_minute >= t.start_minute + t.hands_minutes + t.out_minutes));
        let boxing = tasks.iter().find(|t| t.is_box()).map_or(0, |t| t.start_minute);
        let last = tasks.iter().filter(|t| t.step().is_some()).map(|t| t.end_minute).max();
        prop_assert!(last.is_some_and(|last| boxing >= last));
        // Three rounds of an hour cannot all be boxed within two hours: then, and only then, the plan says so.
        let hot = tasks.iter().filter(|t| !t.on.is_empty() && t.step().is_some()).map(|t| t.end_minute).max();
        let in_time = hot.is_none_or(|end| boxing - end <= 120);
        let said = session.advice.iter().any(|said| matches!(said, Advice::NotSafe { .. }));
        prop_assert!(in_time || said);
    }
}
