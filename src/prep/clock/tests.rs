use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::Step;
use crate::measure::{Minutes, Units};
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
    let work = session_work(&kitchen, &week(), 0, &makings);
    tasks(&kitchen, &makings, &work, &schedule).into_iter().map(|(task, _)| task).collect()
}

#[test]
fn tasks_go_by_the_clock_and_an_appliance_is_set_first() {
    let (kitchen, ..) = kitchen_and_plan();
    let names = kitchen.names();
    let seen: Vec<_> = planned_tasks().iter().map(|t| (t.start_minute, t.end_minute, t.text(names, Units::Metric))).collect();
    let expected = [
        (0, 10, "Set the oven to 190 °C (375 °F)"),
        (0, 10, "Toss."),
        // 5 of hands + 40 of wait + 1 to take it out.
        (10, 56, "Round 1 of 2: two thirds of it. Roast the beetroot."),
        (56, 102, "Round 2 of 2: a third of it. Roast the beetroot."),
    ];
    assert_eq!(seen, expected.map(|(start, end, text)| (start, end, text.to_owned())));
}

#[test]
fn a_task_says_its_round_its_room_and_what_it_holds() {
    let tasks = planned_tasks();
    let step = |t: &Task| t.step().map(|step| (step.step, step.round, step.rounds));
    let seen: Vec<_> = tasks.iter().map(|t| (step(t), t.takes, t.on.as_slice(), t.at)).collect();
    let (oven, trays, hot) = (ApplianceId(0), ApplianceId(1), Some(Celsius(190.0)));
    let expected = [
        (None, None, &[oven][..], hot),
        (Some((0, 0, 1)), None, &[], None),
        (Some((0, 0, 2)), Some(2), &[oven, trays], hot),
        (Some((0, 1, 2)), Some(1), &[oven, trays], hot),
    ];
    assert_eq!(seen, expected);
    let cook = Some(PersonId(0));
    assert_eq!((tasks[0].person, tasks[2].person, tasks[2].out_person), (cook, cook, cook));
}

#[test]
fn a_bar_of_the_chart_has_a_few_words() {
    let (kitchen, ..) = kitchen_and_plan();
    let shorts: Vec<String> = planned_tasks().iter().map(|t| t.short(kitchen.names(), Units::Metric)).collect();
    assert_eq!(shorts, ["Oven 190 °C", "Slaw: toss", "Roast beetroot: roast", "Roast beetroot: roast"]);
}

/// The small print of the first step of the first recipe.
fn said(kitchen: &Kitchen) -> Vec<String> {
    let notes = notes(kitchen, &kitchen.recipes[0], 0, 0);
    notes.iter().map(|note| note.text(kitchen.names(), Units::Metric)).collect()
}

#[test]
fn small_print_says_the_inside_temperature_and_the_washing() {
    let mut kitchen = kitchen();
    let thighs = food(&mut kitchen, "chicken thighs", "raw poultry");
    let braise = Step { text: vec![words("Braise "), named(0)], inside: Some(Celsius(74.0)), ..step("") };
    let mut dish = recipe("braise", "Braise", 4.0, vec![braise]);
    dish.ingredients = vec![ingredient("chicken thighs", thighs, None, None)];
    kitchen.recipes = vec![dish];
    assert_eq!(said(&kitchen), ["Until the inside reaches 74 °C (165 °F)", "Wash hands, board and knife"]);
}

#[test]
fn a_pressure_cooker_of_known_size_says_how_full_it_may_be() {
    // 6 l: two thirds are 4 l, half is 3 l.
    let mut kitchen = kitchen();
    kitchen.appliances = vec![Appliance { holds: Some(6.0), ..appliance("pressure cooker", 1, false) }];
    kitchen.recipes = vec![recipe("barley", "Pearl barley", 4.0, vec![Step { on: vec![ApplianceId(0)], ..step("Cook.") }])];
    assert_eq!(said(&kitchen), ["Fill the pressure cooker to 4 l at most, to 3 l with foods that swell"]);
}
