use jiff::ToSpan;
use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::{ApplianceId, RecipeId, Week};
use crate::measure::{Celsius, Minutes, Unit};
use crate::plan::Making;
use crate::prep::testing::*;

fn work(kitchen: &Kitchen, week: &Week, list: Vec<Making>) -> Work {
    session_work(kitchen, week, 0, &makings(list))
}

fn boxed(making: Making) -> Making {
    let boxes = two_in_the_fridge();
    Making { boxes, ..making }
}

#[test]
fn a_roast_too_big_for_the_oven_becomes_one_job_a_round() {
    // 3 batches of 1 tray in an oven for 2: loads of 2 and 1, each 5 min + 40 min + 1 min out.
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true)];
    let roast = Step {
        hands: Minutes(5),
        wait: Minutes(40),
        scales: false,
        on: vec![ApplianceId(0)],
        temperature: Some(Celsius(190.0)),
        ..step("Roast.")
    };
    kitchen.recipes = vec![recipe("beetroot", "Roast beetroot", 4.0, vec![roast])];
    let work = work(&kitchen, &week(), vec![making(&kitchen, 0, 3.0)]);
    let seen: Vec<_> = work.problem.jobs.iter().map(|j| (j.hands, j.wait, j.out, j.machines.clone(), j.temperature)).collect();
    assert_eq!(seen, [(5, 40, 1, vec![(0, 2)], Some(190.0)), (5, 40, 1, vec![(0, 1)], Some(190.0))]);
    assert_eq!(work.problem.links, []);
}

#[test]
fn a_step_that_leaves_nothing_standing_takes_nothing_out() {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true)];
    kitchen.recipes =
        vec![recipe("wipe", "Wipe", 4.0, vec![Step { hands: Minutes(5), on: vec![ApplianceId(0)], ..step("Wipe the oven.") }])];
    assert_eq!(work(&kitchen, &week(), vec![making(&kitchen, 0, 1.0)]).problem.jobs[0].out, 0);
}

#[test]
fn washing_up_is_added_where_raw_meat_is_handled_and_only_there() {
    // 10 min x 2 batches + 3 min of washing; the second step names nothing raw: 4 x 2.
    let mut kitchen = kitchen();
    let thighs = food(&mut kitchen, "chicken thighs", "raw poultry");
    let olives = food(&mut kitchen, "olives", "vegetable");
    let brown = Step { text: vec![words("Brown "), named(0)], hands: Minutes(10), ..step("") };
    let add = Step { text: vec![words("Add "), named(1)], hands: Minutes(4), ..step("") };
    let mut braise = recipe("braise", "Braise", 4.0, vec![brown, add]);
    braise.ingredients = vec![
        ingredient("8 chicken thighs", thighs, Some(item(8.0, Unit::Piece)), None),
        ingredient("100 g olives", olives, Some(item(100.0, Unit::Gram)), None),
    ];
    kitchen.recipes = vec![braise];
    let hands: Vec<i64> = work(&kitchen, &week(), vec![making(&kitchen, 0, 2.0)]).problem.jobs.iter().map(|j| j.hands).collect();
    assert_eq!(hands, [23, 8]);
}

#[test]
fn raw_food_that_no_step_names_is_handled_in_the_first_step() {
    let mut kitchen = kitchen();
    let thighs = food(&mut kitchen, "chicken thighs", "raw poultry");
    let mut braise = recipe("braise", "Braise", 4.0, vec![Step { hands: Minutes(10), ..step("Brown.") }, step("Wait.")]);
    braise.ingredients = vec![ingredient("8 chicken thighs", thighs, Some(item(8.0, Unit::Piece)), None)];
    kitchen.recipes = vec![braise];
    let hands: Vec<i64> = work(&kitchen, &week(), vec![making(&kitchen, 0, 1.0)]).problem.jobs.iter().map(|j| j.hands).collect();
    assert_eq!(hands, [13, 0]);
}

#[test]
fn what_is_kept_is_boxed_at_the_household_s_pace() {
    // 3 min x 1.2 = 3.6 -> 4.
    let mut kitchen = kitchen();
    kitchen.rules.pace = 1.2;
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Toss.")])];
    let work = work(&kitchen, &week(), vec![boxed(making(&kitchen, 0, 1.0)), making(&kitchen, 0, 1.0)]);
    let boxes: Vec<_> = work.problem.jobs.iter().filter(|j| j.kind == JobKind::Box).map(|j| (j.making, j.hands)).collect();
    assert_eq!(boxes, [(0, 4)]);
}

#[test]
fn boxing_in_no_time_leaves_the_task_out() {
    let mut kitchen = kitchen();
    kitchen.rules.boxing = Minutes(0);
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Toss.")])];
    let jobs = work(&kitchen, &week(), vec![boxed(making(&kitchen, 0, 1.0))]).problem.jobs;
    assert!(jobs.iter().all(|j| j.kind == JobKind::Step));
}

#[test]
fn roles_and_skills_choose_the_hands() {
    let mut kitchen = kitchen();
    let steps = vec![
        Step { who: Some("cook".into()), ..step("Season.") },
        Step { skill: Some("wash".into()), ..step("Wash.") },
        Step { skill: Some("knife".into()), ..step("Chop.") },
        Step { who: Some("baker".into()), ..step("Bake.") },
    ];
    kitchen.recipes = vec![recipe("plate", "Plate", 4.0, steps)];
    let mut week = week();
    let mut jo = person("Jo", "helper");
    jo.from = Some(sunday() + 60.minutes());
    jo.until = Some(sunday() + 120.minutes());
    jo.may = Some(vec!["wash".into(), "mix".into()]);
    week.sessions[0].people.push(jo);
    let work = work(&kitchen, &week, vec![making(&kitchen, 0, 1.0)]);
    let people: Vec<_> = work.problem.jobs.iter().map(|j| j.people.clone()).collect();
    assert_eq!(people, [vec![0], vec![0, 1], vec![0], vec![0, 1]]);
    assert_eq!(work.unfit, [Unfit { making: 0, step: 3 }]);
    assert_eq!(
        work.problem.people,
        [Worker { from: 0, until: None, ..Worker::default() }, Worker { from: 60, until: Some(120), helper: true }]
    );
}

#[test]
fn a_session_without_people_is_done_by_one_cook() {
    let mut kitchen = kitchen();
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Toss.")])];
    let mut week = week();
    week.sessions[0].people.clear();
    assert_eq!(work(&kitchen, &week, vec![making(&kitchen, 0, 1.0)]).people[0].name, "cook");
}

#[test]
fn only_the_makings_of_the_session_are_its_jobs() {
    let mut kitchen = kitchen();
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Toss.")])];
    let other = Making { at: MadeAt::Session(1), recipe: RecipeId(0), ..making(&kitchen, 0, 1.0) };
    assert_eq!(work(&kitchen, &week(), vec![other, making(&kitchen, 0, 1.0)]).chosen, [1]);
}

#[test]
fn only_what_heats_must_be_watched() {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true), appliance("fridge", 1, false)];
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Shred.")])];
    let work = work(&kitchen, &week(), vec![making(&kitchen, 0, 1.0)]);
    assert_eq!(work.problem.machines.iter().map(|machine| machine.watched).collect::<Vec<_>>(), [true, false]);
}

#[test]
fn washing_up_comes_after_all_work_the_meal_s_too() {
    // What is served straight from the pot counts to no finish, and neither does what waits for it.
    let mut kitchen = kitchen();
    kitchen.rules.wash_up = Minutes(15);
    kitchen.recipes = vec![recipe("slaw", "Slaw", 4.0, vec![step("Toss.")]), recipe("fish", "Fish", 4.0, vec![step("Fry.")])];
    let made = || vec![making(&kitchen, 0, 1.0), making(&kitchen, 1, 1.0)];
    let washed = |work: &Work| {
        let before: Vec<usize> = work.problem.links.iter().filter(|link| link.after == 2).map(|link| link.before).collect();
        (before, work.problem.jobs[2].hands, work.problem.jobs[2].uncounted)
    };
    let mut work = work(&kitchen, &week(), made());
    assert_eq!(washed(&work), (vec![0, 1], 15, false));
    work.problem.jobs.pop();
    work.origins.pop();
    work.problem.links.clear();
    work.problem.jobs[1].uncounted = true;
    add_wash_up(&kitchen.rules, &mut work);
    assert_eq!(washed(&work), (vec![0, 1], 15, true));
}
