use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::Step;
use crate::measure::Minutes;
use crate::prep::tasks::session_work;
use crate::prep::testing::*;
use crate::words::duration;

/// Advice on the first session, in its sentences.
fn told(kitchen: &Kitchen, week: &Week, makings: &Makings, plan: &Schedule, replanned: i64) -> Vec<String> {
    let work = session_work(kitchen, week, 0, makings);
    let advice = advice((kitchen, week, makings), (0, None), &work, plan, |_| replanned);
    advice.iter().map(|one| one.text(kitchen.names())).collect()
}

fn two_steps() -> (Kitchen, Makings) {
    let mut kitchen = kitchen();
    let carve = Step { within: Some(Minutes(30)), who: Some("baker".into()), ..step("Carve.") };
    kitchen.recipes = vec![recipe("roast", "Roast roots", 4.0, vec![Step { hands: Minutes(10), ..step("Roast.") }, carve])];
    let list = makings(vec![making(&kitchen, 0, 1.0)]);
    (kitchen, list)
}

#[test]
fn a_plan_that_keeps_every_rule_in_time_needs_no_advice() {
    let (mut kitchen, makings) = two_steps();
    kitchen.recipes[0].steps[1].who = None;
    assert_eq!(told(&kitchen, &week(), &makings, &planned(10), 0), Vec::<String>::new());
}

#[test]
fn a_broken_rule_and_a_missing_role_are_told_by_recipe_and_step() {
    let (kitchen, makings) = two_steps();
    let plan = Schedule { overrun: vec![(0, 12)], clash: vec![Limit::Within { link: 0 }], none_keeps_all: true, ..planned(10) };
    let expected = [
        "No plan keeps every rule: Roast roots, step 2 starts 12 min too late (within 30 min of Roast roots, step 1).",
        "This rule cannot be kept, given the times of the steps: Roast roots, step 2 within 30 min of Roast roots, step 1.",
        "Roast roots, step 2: nobody in this session has the role \"baker\"; it is planned for anybody.",
    ];
    assert_eq!(told(&kitchen, &week(), &makings, &plan, 0), expected);
}

#[test]
fn that_no_plan_keeps_every_rule_is_only_said_where_it_is_proven() {
    let (kitchen, makings) = two_steps();
    let plan = |none_keeps_all| Schedule { overrun: vec![(0, 12)], clash: vec![Limit::Within { link: 0 }], none_keeps_all, ..planned(10) };
    let said = |proven| told(&kitchen, &week(), &makings, &plan(proven), 0).swap_remove(0);
    let late = "Roast roots, step 2 starts 12 min too late (within 30 min of Roast roots, step 1).";
    assert_eq!(said(true), format!("No plan keeps every rule: {late}"));
    assert_eq!(said(false), format!("No plan was found that keeps every rule: {late}"));
}

#[test]
fn whoever_stays_longer_is_told_and_until_when() {
    let (mut kitchen, makings) = two_steps();
    kitchen.recipes[0].steps[1].who = None;
    let mut week = week();
    week.sessions[0].people[0].until = Some(date(2026, 11, 29).at(16, 0, 0, 0));
    let plan = Schedule { stays: vec![(0, 5)], ..planned(10) };
    assert_eq!(told(&kitchen, &week, &makings, &plan, 0), ["cook stays 5 min longer, until 16:05."]);
}

#[test]
fn without_a_proof_no_plan_was_found() {
    let (mut kitchen, makings) = two_steps();
    kitchen.recipes[0].steps[1].who = None;
    let plan = Schedule { overrun: vec![(0, 12)], ..planned(10) };
    assert!(told(&kitchen, &week(), &makings, &plan, 0)[0].starts_with("No plan was found that keeps every rule: Roast roots"));
}

#[test]
fn a_safety_limit_that_no_plan_keeps_is_said_first() {
    let (kitchen, makings) = two_steps();
    let plan = Schedule { impossible: vec![Impossible::Safety { link: 0, minutes: 25 }], ..planned(10) };
    let said = told(&kitchen, &week(), &makings, &plan, 0);
    assert!(
        said[0].starts_with("Not safe as planned: Roast roots, step 2 starts 55 min after the end of Roast roots, step 1, and 30 min is"),
        "{said:?}"
    );
}

#[test]
fn a_late_finish_says_by_how_much_and_what_binds() {
    // 14:00 + 250 min = 18:10; 17:30 was wanted.
    let (mut kitchen, makings) = two_steps();
    kitchen.recipes[0].steps[1].who = None;
    let mut week = week();
    week.sessions[0].finish_by = Some(date(2026, 11, 29).at(17, 30, 0, 0));
    let expected = [
        "This session ends at 18:10, 40 min after 17:30.",
        "What binds is the longest chain of steps, up to Roast roots, step 1: 10 min.",
        "With one more person it would end at 17:00, in time.",
    ];
    assert_eq!(told(&kitchen, &week, &makings, &planned(250), 180), expected);
}

#[test]
fn durations_are_read_as_a_clock_is() {
    assert_eq!([45, 70, 120].map(duration), ["45 min", "1 h 10 min", "2 h"]);
}

#[test]
fn only_skills_that_nobody_has_are_named() {
    let (mut kitchen, makings) = two_steps();
    kitchen.appliances = vec![appliance("hob", 4, false)];
    let carve = &mut kitchen.recipes[0].steps[1];
    (carve.who, carve.skill, carve.on) = (None, Some("knife".into()), vec![ApplianceId(0)]);
    let said = |may: &[&[&str]]| {
        let mut week = week();
        let person = |may: &&[&str]| Person { may: Some(may.iter().map(|one| (*one).to_owned()).collect()), ..person("Jo", "helper") };
        week.sessions[0].people = may.iter().map(person).collect();
        told(&kitchen, &week, &makings, &planned(10), 0).pop().unwrap_or_default()
    };
    let nobody = |what: &str| format!("Roast roots, step 2: nobody in this session has {what}; it is planned for anybody.");
    assert_eq!(said(&[&["heat"]]), nobody("the skill \"knife\""));
    assert_eq!(said(&[&["heat"], &["knife"]]), nobody("the skill \"knife\" and the skill \"heat\" together"));
}
