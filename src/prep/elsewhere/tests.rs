use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::RecipeId;
use crate::measure::{Celsius, Minutes};
use crate::prep::tasks::session_work;
use crate::prep::testing::*;

const OVEN: ApplianceId = ApplianceId(0);
const HOB: ApplianceId = ApplianceId(1);
const SECOND: ApplianceId = ApplianceId(2);

fn roast(elsewhere: Option<Elsewhere>) -> Step {
    let temperature = Some(Celsius(200.0));
    Step { on: vec![OVEN], wait: Minutes(40), temperature, elsewhere, scales: false, ..step("Roast the roots.") }
}

fn to(on: ApplianceId) -> Elsewhere {
    Elsewhere { on, wait: None, temperature: None, takes: None }
}

fn household(steps: Vec<Step>) -> (Kitchen, Week, Makings) {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true), appliance("hob", 4, false), appliance("small oven", 1, true)];
    kitchen.recipes = vec![recipe("roots", "Roast roots", 4.0, steps)];
    let mut week = week();
    week.sessions[0].without = vec![OVEN];
    let made = makings(vec![making(&kitchen, 0, 1.0)]);
    (kitchen, week, made)
}

#[test]
fn a_step_goes_to_its_or_on_with_what_differs_there() {
    let there = |elsewhere| {
        let (kitchen, week, made) = household(vec![roast(Some(elsewhere))]);
        assert_eq!(out_of_order(&kitchen, &week, &made), []);
        let job = session_work(&kitchen, &week, 0, &made).problem.jobs.swap_remove(0);
        (job.machines, job.wait, job.temperature)
    };
    // The hob has no temperature; all else is as in the oven.
    assert_eq!(there(to(HOB)), (vec![(1, 1)], 40, None));
    let differs = Elsewhere { wait: Some(Minutes(25)), takes: Some(2.0), ..to(HOB) };
    assert_eq!(there(differs), (vec![(1, 2)], 25, None));
    assert_eq!(there(to(SECOND)), (vec![(2, 1)], 40, Some(200.0)));
    assert_eq!(there(Elsewhere { temperature: Some(Celsius(190.0)), ..to(SECOND) }), (vec![(2, 1)], 40, Some(190.0)));
}

#[test]
fn each_step_that_cannot_go_elsewhere_is_a_mistake_all_at_once() {
    let named = Step { id: Some("crisp".into()), ..roast(None) };
    let (kitchen, week, made) = household(vec![step("Peel."), roast(None), named, roast(Some(to(HOB)))]);
    let causes: Vec<String> = out_of_order(&kitchen, &week, &made).into_iter().map(|mistake| mistake.cause).collect();
    let out = "the oven is out of order, and step";
    assert_eq!(causes, [format!("{out} 2 of Roast roots needs it"), format!("{out} 3 (\"crisp\") of Roast roots needs it")]);
}

#[test]
fn an_or_on_that_is_out_of_order_too_is_of_no_help() {
    let (kitchen, mut week, made) = household(vec![roast(Some(to(HOB)))]);
    week.sessions[0].without = vec![OVEN, HOB];
    let mistake = &out_of_order(&kitchen, &week, &made)[0];
    assert_eq!(mistake.cause, "the oven and hob are out of order, and step 1 of Roast roots needs one of them");
    assert!(mistake.remedy.starts_with("Give the step another or_on"), "it has one: {}", mistake.remedy);
}

#[test]
fn of_several_appliances_the_one_out_of_order_is_replaced() {
    let both = Step { on: vec![HOB, OVEN], ..roast(Some(to(SECOND))) };
    let (kitchen, week, _) = household(vec![both]);
    assert_eq!(as_found(&kitchen, &week.sessions[0]).recipes[RecipeId(0)].steps[0].on, [HOB, SECOND]);
}

#[test]
fn what_is_done_ahead_is_not_done_in_the_session() {
    let (kitchen, week, made) = household(vec![Step { ahead: Some(Minutes(720)), ..roast(None) }]);
    assert_eq!(out_of_order(&kitchen, &week, &made), []);
}
