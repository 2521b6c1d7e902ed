//! A session that is under way: `--at` and `--done`.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::one_session::stew;
use crate::kitchen::{Kitchen, json, stderr, stdout};

/// Chopping for 10 min, then 5 at the pot and 60 on its own; grating for 20, whenever. One cook from 14:00: chop 0 to 10, pot 10 to 75, grate
/// 15 to 35.
fn afternoon() -> Kitchen {
    let step = |text: &str, keys: &str| format!("[[step]]\ntext = \"{text}\"\nscales = false\n{keys}\n");
    let steps = [
        step("Chop {bluegrain}.", "hands = \"10 min\""),
        step("Simmer.", "hands = \"5 min\"\nwait = \"60 min\""),
        step("Grate.", "hands = \"20 min\"\nafter = []"),
    ];
    stew("", "2", &steps.concat())
}

const SUNDAY: &str = "2026-11-29";

/// Of the rest: (mark, start, end) by the clock, and the finish.
fn rest(kitchen: &Kitchen, at: &str, done: &str) -> (Vec<(String, i64, i64)>, i64) {
    let prep = json(&kitchen.run_on(SUNDAY, &["prep", "--format", "json", "--at", at, "--done", done]));
    let session = &prep["sessions"][0];
    let minute = |task: &Value, key: &str| task[key].as_i64().expect("a minute");
    let told =
        |task: &Value| (task["mark"].as_str().unwrap_or_default().to_owned(), minute(task, "start_minute"), minute(task, "end_minute"));
    (session["tasks"].as_array().expect("tasks").iter().map(told).collect(), session["minutes"].as_i64().expect("minutes"))
}

fn marked(tasks: &[(&str, i64, i64)]) -> Vec<(String, i64, i64)> {
    tasks.iter().map(|(mark, start, end)| ((*mark).to_owned(), *start, *end)).collect()
}

#[test]
fn the_rest_is_planned_from_then_on_and_what_runs_runs_on() {
    let kitchen = afternoon();
    // The pot is on until 75; grating from 50 to 70.
    assert_eq!(rest(&kitchen, "14:50", "1,2"), (marked(&[("2", 10, 75), ("3", 50, 70)]), 75));
    assert_eq!(rest(&kitchen, "14:50", "1-3"), (marked(&[("2", 10, 75)]), 75));
    // The pot is not on yet: 5 and 60 from 50, grating after the 5.
    assert_eq!(rest(&kitchen, "14:50", "1"), (marked(&[("2", 50, 115), ("3", 55, 75)]), 115));
    // Nothing done.
    assert_eq!(rest(&kitchen, "14:50", ""), (marked(&[("1", 50, 60), ("2", 60, 125), ("3", 65, 85)]), 125));
}

#[test]
fn unknown_marks_and_a_time_without_a_session_are_wrong_command_lines() {
    let kitchen = afternoon();
    let refused = |today: &str, arguments: &[&str]| {
        let output = kitchen.run_on(today, arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        stderr(&output)
    };
    let unknown = refused(SUNDAY, &["prep", "--at", "14:50", "--done", "1-4, B"]);
    assert!(unknown.contains("--done: the guide of Sun 29 Nov 14:00 has no 4, B. It has 1 to 3."), "{unknown}");
    let unread = refused(SUNDAY, &["prep", "--at", "14:50", "--done", "1-, é"]);
    assert!(unread.contains("cannot read \"1-\", \"é\""), "{unread}");
    let early = refused(SUNDAY, &["prep", "--at", "13:50"]);
    assert!(early.contains("--at: today's session begins at 14:00."), "{early}");
    let other_day = refused("2026-11-28", &["prep", "--at", "14:50"]);
    assert!(other_day.contains("no session of today is open; the next is on Sun 29 Nov 14:00."), "{other_day}");
    refused(SUNDAY, &["prep", "--done", "1"]);
    let sheets = refused(SUNDAY, &["print", "--at", "14:50"]);
    assert!(sheets.contains("add --only guide"), "{sheets}");
}

#[test]
fn a_guide_printed_under_way_keeps_the_numbers_and_knows_what_was_done() {
    let kitchen = afternoon();
    let output = kitchen.run_on(SUNDAY, &["print", "--only", "guide", "--at", "14:50", "--done", "1,2"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let plan: Value = serde_json::from_str(&kitchen.text("sheets/plan-2026-11-30.json")).expect("JSON");
    let session = &plan["prep"]["sessions"][0];
    assert_eq!((session["from"].as_str(), session["done"][0]["mark"].as_str()), (Some("2026-11-29T14:50"), Some("1")));
    // Ten minutes later: what was done is known, and 3 is still the grating; the pot was not said again and runs on all the same.
    assert_eq!(rest(&kitchen, "15:00", "2,3"), (marked(&[("2", 10, 75)]), 75));
    let text = stdout(&kitchen.run_on(SUNDAY, &["prep", "--at", "15:00", "--done", "2"]));
    assert!(text.contains("Planned anew from 15:00"), "{text}");
}
