//! What a meal of the session's own day eats is ready before it.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use crate::kitchen::{ApplianceId, Kitchen, Meal, Spot, Step, Week};
use crate::measure::{Minutes, Quantity};
use crate::plan::{Kept, Making, Makings, Use, User};
use crate::prep::testing::*;
use crate::prep::{Effort, SessionPlan, prep};

/// A stew of 60 min on the hob, and a slaw of so many minutes of hands that supper at 16:00 eats from its box; the session begins at 14:00.
fn stew_and_slaw(minutes: i64) -> (Kitchen, Week, Makings) {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("hob", 1, false)];
    let stew = Step { hands: Minutes(70), wait: Minutes(20), on: vec![ApplianceId(0)], ..step("Stew.") };
    let shred = Step { hands: Minutes(minutes), ..step("Shred.") };
    let mix = Step { hands: Minutes(10), ..step("Mix.") };
    kitchen.recipes = vec![recipe("stew", "Stew", 4.0, vec![stew]), recipe("slaw", "Slaw", 4.0, vec![shred, mix])];
    let mut week = week();
    let at_time = date(2026, 11, 29).at(16, 0, 0, 0);
    week.sessions[0].finish_by = Some(at_time);
    week.meals = vec![Meal {
        text: None,
        at_time,
        label: "Sun supper".into(),
        word: "supper".into(),
        name: None,
        eaters: 3.0,
        diners: vec![],
        each: vec![],
        shared: vec![],
        skip: false,
        pattern: None,
        open: None,
        asked: Default::default(),
        at: Spot::default(),
    }];
    let eaten = Use {
        by: User::Meal(0),
        on: at_time.date(),
        amount: Quantity::portions(2.0),
        kept: Kept::Fridge,
        own: vec![],
        label: "Sun supper".into(),
    };
    let slaw = Making { uses: vec![eaten], boxes: two_in_the_fridge(), ..making(&kitchen, 1, 1.0) };
    let list = makings(vec![making(&kitchen, 0, 1.0), making(&kitchen, 0, 1.0), slaw]);
    (kitchen, week, list)
}

fn planned((kitchen, week, makings): &(Kitchen, Week, Makings)) -> SessionPlan {
    prep(kitchen, week, makings, &[], &[], Effort::Normal).sessions.remove(0)
}

/// The minute at which the slaw is mixed.
fn mixed(plan: &SessionPlan) -> Option<i64> {
    plan.tasks.iter().find(|task| task.step().is_some_and(|step| step.recipe.0 == 1 && step.step == 1)).map(|task| task.end_minute)
}

#[test]
fn a_cold_dish_is_ready_before_the_meal_of_that_day_that_eats_it() {
    // Two pots of 70 + 20 + 1 min follow one another on the only ring: 182 min and more, an hour past the meal at minute 120.
    let asked = stew_and_slaw(20);
    let plan = planned(&asked);
    assert!(plan.minutes > 180);
    assert!(mixed(&plan).is_some_and(|minute| minute <= 120), "{:?}", mixed(&plan));
    assert!(!plan.advice.iter().any(|one| one.text(asked.0.names()).contains("late for the meal")), "{:?}", plan.advice);
}

#[test]
fn what_no_plan_has_ready_for_its_meal_is_told() {
    // 125 + 10 min of hands: 135 at the earliest, 15 min after 16:00.
    let asked = stew_and_slaw(125);
    let plan = planned(&asked);
    assert_eq!(mixed(&plan), Some(135));
    let told: Vec<String> = plan.advice.iter().map(|one| one.text(asked.0.names())).collect();
    assert_eq!(told[0], "Slaw, step 2 is done at 16:15, 15 min late for the meal at 16:00.");
}
