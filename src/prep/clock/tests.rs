use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::ApplianceId;
use crate::measure::Minutes;
use crate::prep::Placed;
use crate::prep::tasks::session_work;
use crate::prep::testing::*;

/// Beetroot on three trays in an oven for two, and a slaw.
fn kitchen_and_plan() -> (Kitchen, Makings, Schedule) {
    let mut kitchen = kitchen();
    kitchen.appliances = vec![appliance("oven", 2, true), appliance("trays", 4, false)];
    let roast = Step {
        hands: Minutes(5),
        wait: Minutes(40),
        scales: false,
        on: vec![ApplianceId(0), ApplianceId(1)],
        temperature: Some(Celsius(190.0)),
        ..step("Roast the beetroot.")
    };
    let toss = Step { hands: Minutes(10), ..step("Toss.") };
    kitchen.recipes = vec![recipe("beetroot", "Roast beetroot and carrots", 4.0, vec![roast]), recipe("slaw", "Slaw", 4.0, vec![toss])];
    let makings = makings(vec![making(&kitchen, 0, 3.0), making(&kitchen, 1, 1.0)]);
    let roast_at = |start| Placed { start, person: Some(0), out_person: Some(0), set_to: Some(190.0) };
    let schedule = Schedule {
        placed: vec![roast_at(10), roast_at(56), Placed { start: 0, person: Some(0), out_person: None, set_to: None }],
        settings: vec![Setting { machine: 0, celsius: 190.0, start: 0, ready: 10 }],
        ..planned(102)
    };
    (kitchen, makings, schedule)
}

fn planned_tasks() -> Vec<Task> {
    let (kitchen, makings, schedule) = kitchen_and_plan();
    let work = session_work(&kitchen, &week().sessions[0], 0, &makings);
    tasks(&kitchen, &makings, &work, &schedule).into_iter().map(|(task, _)| task).collect()
}

#[test]
fn tasks_go_by_the_clock_and_an_appliance_is_set_first() {
    let seen: Vec<_> = planned_tasks().into_iter().map(|t| (t.kind, t.start_minute, t.end_minute, t.text)).collect();
    let expected = [
        (TaskKind::Set, 0, 10, "Set the oven to 190 °C (375 °F)"),
        (TaskKind::Step, 0, 10, "Toss."),
        // 5 of hands + 40 of wait + 1 to take it out.
        (TaskKind::Step, 10, 56, "Roast the beetroot."),
        (TaskKind::Step, 56, 102, "Load 2 of 2: Roast the beetroot."),
    ];
    assert_eq!(seen, expected.map(|(kind, start, end, text)| (kind, start, end, text.to_owned())));
}

#[test]
fn a_task_says_its_round_its_room_and_what_it_holds() {
    let tasks = planned_tasks();
    let seen: Vec<_> = tasks.iter().map(|t| (t.step, t.round, t.takes, t.appliance.as_deref(), t.at_celsius)).collect();
    let expected = [
        (None, None, None, Some("oven"), Some(190.0)),
        (Some(1), Some(1), None, None, None),
        (Some(1), Some(1), Some(2), Some("oven"), Some(190.0)),
        (Some(1), Some(2), Some(1), Some("oven"), Some(190.0)),
    ];
    assert_eq!(seen, expected);
    assert_eq!(tasks[2].also, ["trays"]);
    assert_eq!(
        (tasks[0].person.as_deref(), tasks[2].person.as_deref(), tasks[2].out_person.as_deref()),
        (None, Some("cook"), Some("cook"))
    );
}

#[test]
fn a_bar_of_the_chart_has_a_few_words() {
    let shorts: Vec<String> = planned_tasks().into_iter().map(|t| t.short).collect();
    assert_eq!(shorts, ["Oven 190 °C", "Slaw: toss", "Roast beetroot: roast", "Roast beetroot: roast"]);
}

#[test]
fn small_print_says_the_inside_temperature_and_the_washing() {
    let mut kitchen = kitchen();
    let thighs = food(&mut kitchen, "chicken thighs", "raw poultry");
    let braise = Step { text: vec![words("Braise "), named(0)], inside: Some(Celsius(74.0)), ..step("") };
    let mut dish = recipe("braise", "Braise", 4.0, vec![braise]);
    dish.ingredients = vec![ingredient("chicken thighs", thighs, None, None)];
    kitchen.recipes = vec![dish];
    assert_eq!(notes(&kitchen, &kitchen.recipes[0], 0, (0, 1)), ["Until the inside reaches 74 °C (165 °F)", "Wash hands, board and knife"]);
}
