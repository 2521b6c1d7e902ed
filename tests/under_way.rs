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

fn prep(kitchen: &Kitchen, more: &[&str]) -> Value {
    json(&kitchen.run_on(SUNDAY, &[&["prep", "--format", "json"], more].concat()))
}

/// Two dishes of chopping for 10 min, then 5 at the pot and 40 on its own, then stirring for 5, then a box; one ring each. One cook from
/// 14:00: 0 to 10, 10 to 56, 56 to 61 and from 66 on; 15 to 25, 25 to 71, 71 to 76 and from 81 on.
fn two_pots() -> Kitchen {
    use crate::kitchen::one_session::{does, stew_and_roast, then};
    let steps = does("hands = \"10 min\"") + &then("hands = \"5 min\"\nwait = \"40 min\"\non = \"hob\"") + &then("hands = \"5 min\"");
    let hob = "[[appliance]]\nname = \"hob\"\nroom = 2\n";
    stew_and_roast(hob, &steps, &steps).only_rules(hob)
}

#[test]
fn what_a_done_step_needs_is_done_or_the_command_line_says_what_to_mark() {
    let kitchen = two_pots();
    let refused = |done: &str| {
        let output = kitchen.run_on(SUNDAY, &["prep", "--at", "14:45", "--done", done]);
        assert_eq!(output.status.code(), Some(2), "{done}");
        stderr(&output).lines().last().unwrap_or_default().to_owned()
    };
    // 1 and 3 are chopping, 2 and 4 the pots, 5 and 6 the stirring, A and B the boxes.
    assert_eq!(refused("2-4"), "error: --done: 2 is marked done, but 1 before it is not. Mark it, too.");
    assert_eq!(refused("1,3,5"), "error: --done: 5 is marked done, but 2 before it is not. Mark it, too.");
    assert_eq!(refused("5,A"), "error: --done: 5 and A are marked done, but 1 and 2 before them are not. Mark them, too.");
}

#[test]
fn a_step_that_is_done_ends_the_wait_before_it_and_nothing_is_planned_before_now() {
    let kitchen = two_pots();
    // The first pot was to run until 55; it is off at 40, for the 5 of serving are done by 45.
    let (tasks, _) = rest(&kitchen, "14:45", "1-5");
    assert!(tasks.iter().all(|(mark, start, _)| mark == "4" || *start >= 45), "{tasks:?}");
    assert!(tasks.iter().all(|(mark, ..)| mark != "2"), "{tasks:?}");
}

#[test]
fn a_guide_printed_under_way_remembers_what_runs() {
    let kitchen = two_pots();
    let whole = rest(&kitchen, "15:00", "1-5");
    let output = kitchen.run_on(SUNDAY, &["print", "--only", "guide", "--at", "14:35", "--done", "1-4"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert_eq!(rest(&kitchen, "15:00", "5"), whole);
}

#[test]
fn a_guide_under_way_fetches_and_boxes_for_the_rest_and_the_book_still_knows_the_whole() {
    let kitchen = two_pots();
    let whole = prep(&kitchen, &[]);
    let late = prep(&kitchen, &["--at", "15:20", "--done", "1-6,A"]);
    let list = |prep: &Value, key: &str| prep["sessions"][0][key].as_array().map_or(0, Vec::len);
    assert_eq!((list(&whole, "boxes"), list(&whole, "fetched"), list(&whole, "boxed")), (2, 0, 0));
    assert_eq!((list(&late, "boxes"), list(&late, "boxed"), list(&late, "fetch")), (1, 1, 0));
    assert_eq!(late["sessions"][0]["fetched"], whole["sessions"][0]["fetch"]);
    let text = stdout(&kitchen.run_on(SUNDAY, &["prep", "--at", "15:20", "--done", "1-6,A"]));
    assert!(!text.contains("Fetch") && !text.contains("for the hob"), "{text}");
    assert!(text.contains("cook: 3 min hands-on\n"), "{text}");
}

#[test]
fn a_time_that_no_session_runs_at_is_told_with_what_to_say() {
    let kitchen = afternoon();
    let refused = |kitchen: &Kitchen, today: &str, at: &str| {
        let output = kitchen.run_on(today, &["prep", "--at", at]);
        assert_eq!(output.status.code(), Some(2), "{today} {at}");
        stderr(&output).lines().last().unwrap_or_default().to_owned()
    };
    let late = "error: --at: today's session began at 06:00, more than 12 hours before 23:30. Write a time of it.";
    let at_six = kitchen.week(&crate::kitchen::SATURDAY_AND_SUNDAY.replace("T14:00", "T06:00"));
    assert_eq!(refused(&at_six, SUNDAY, "23:30"), late);
    let at_night = at_six.week(&crate::kitchen::SATURDAY_AND_SUNDAY.replace("T14:00", "T23:00"));
    let night = "error: --at: the session that is under way began on Sun 29 Nov 23:00. Name that day: --today 2026-11-29 --at 00:15.";
    assert_eq!(refused(&at_night, "2026-11-30", "00:15"), night);
}

#[test]
fn a_guide_for_somebody_without_work_says_who_has_some() {
    let output = afternoon().run_on("2026-11-27", &["print", "--person", "Bob"]);
    assert_eq!(output.status.code(), Some(2));
    let said = stderr(&output);
    assert!(said.contains("nobody called Bob has anything to do in ") && said.trim_end().ends_with(". Cook has."), "{said}");
}

#[test]
fn a_print_that_was_cut_short_is_printed_again() {
    let kitchen = afternoon();
    let plan = "sheets/plan-2026-11-30.json";
    assert!(kitchen.run_on("2026-11-27", &["print"]).status.success());
    let whole = kitchen.text(plan);
    std::fs::write(kitchen.path().join(plan), &whole[..200]).expect("written");
    // The trip is past: what was printed is needed.
    let listed = kitchen.run_on(SUNDAY, &["list"]);
    assert_eq!(listed.status.code(), Some(1));
    assert!(stderr(&listed).contains("was cut short, and cannot be read. Print the week again."), "{}", stderr(&listed));
    let printed = kitchen.run_on(SUNDAY, &["print"]);
    assert_eq!(printed.status.code(), Some(0), "{}", stderr(&printed));
    assert!(stderr(&printed).contains("It is written anew: what is past is taken as planned, not as printed"), "{}", stderr(&printed));
    assert_eq!(kitchen.run_on(SUNDAY, &["list"]).status.code(), Some(0));
}

#[test]
fn a_print_that_something_was_booked_by_is_not_written_over() {
    let kitchen = afternoon();
    let plan = "sheets/plan-2026-11-30.json";
    assert!(kitchen.run_on("2026-11-27", &["print"]).status.success());
    assert!(kitchen.run_on("2026-11-28", &["receive"]).status.success());
    let whole = kitchen.text(plan);
    std::fs::write(kitchen.path().join(plan), &whole[..200]).expect("written");
    let printed = kitchen.run_on(SUNDAY, &["print"]);
    assert_eq!(printed.status.code(), Some(1));
    assert!(stderr(&printed).contains("Put a copy of it back; or take it away and print again"), "{}", stderr(&printed));
    std::fs::remove_file(kitchen.path().join(plan)).expect("taken away");
    assert_eq!(kitchen.run_on(SUNDAY, &["print"]).status.code(), Some(0));
}

const WARM_OVEN: &str = "[[appliance]]\nname = \"oven\"\nroom = 2\nheat = true\nwarm_up = \"10 min\"\n";

/// Chopping for 20 min, then 30 in the oven at 180 °C, taken out in one: the oven is set at 10 and hot at 20.
fn roast() -> Kitchen {
    let steps = [
        "[[step]]\ntext = \"Chop {bluegrain}.\"\nscales = false\nhands = \"20 min\"\n",
        "[[step]]\ntext = \"Roast.\"\nscales = false\nwait = \"30 min\"\non = \"oven\"\ntemperature = \"180 °C\"\n",
    ];
    stew(WARM_OVEN, "2", &steps.concat())
}

#[test]
fn an_oven_that_was_set_is_hot_and_is_not_set_again() {
    let kitchen = roast();
    let all = |at: &str, done: &str| rest(&kitchen, at, done);
    // Planned: set 10 to 20, chop 0 to 20, roast 20 to 51.
    assert_eq!(all("14:05", "1"), (marked(&[("", 5, 15), ("2", 15, 46)]), 46), "not set yet");
    assert_eq!(all("14:25", "1"), (marked(&[("2", 25, 56)]), 56), "hot since 20");
    // Chopped sooner than was planned: hot at 20.
    assert_eq!(all("14:15", "1"), (marked(&[("2", 20, 51)]), 51), "warming up");
    let printed = kitchen.run_on(SUNDAY, &["print", "--only", "guide"]);
    assert_eq!(printed.status.code(), Some(0), "{}", stderr(&printed));
    assert_eq!(all("14:25", "1"), (marked(&[("2", 25, 56)]), 56), "as printed");
}

#[test]
fn what_has_stood_out_too_long_is_not_boxed_any_more() {
    // On the hob until 31, one minute to take it off: 32. Boxed by 152; at 200 it has stood for 168 min.
    let step = "[[step]]\ntext = \"Simmer {bluegrain}.\"\nscales = false\nhands = \"1 min\"\nwait = \"30 min\"\non = \"hob\"\n";
    let kitchen = stew("", "2", step).only_rules("boxing = \"3 min\"\nwash = \"0 min\"\n[[appliance]]\nname = \"hob\"\nroom = 4\n");
    let at = |at: &str| json(&kitchen.run_on(SUNDAY, &["prep", "--format", "json", "--at", at, "--done", "1"]))["sessions"][0].clone();
    let late = at("17:20");
    let told = late["tasks"][0]["text"].as_str().expect("words");
    let expected = "Do not box moon stew: it has stood out 2 h 48 min, and 2 h is the most. Do not keep it: throw it out, or, where local rules \
                    allow it, eat it now, reheated to 74 °C (165 °F) throughout.";
    assert_eq!(told, expected);
    assert_eq!(late["boxes"].as_array().map(Vec::len), Some(0), "no use-by date");
    assert!(late["advice"].to_string().contains("Not safe any more: Moon stew, step 1 has stood out 2 h 48 min"), "{}", late["advice"]);
    let text = stdout(&kitchen.run_on(SUNDAY, &["prep", "--at", "17:20", "--done", "1"]));
    assert!(!text.contains("in the fridge by") && !text.contains("use by"), "{text}");
    // At 150 there are two minutes left.
    let early = at("16:30");
    assert_eq!(
        (early["boxes"].as_array().map(Vec::len), early["tasks"][0]["text"].as_str()),
        (Some(1), Some("Box and chill moon stew: 2 portions to the fridge"))
    );
}

#[test]
fn where_everything_is_done_nothing_ends_later_and_nothing_is_advised() {
    // The pot was off at 75: 15:15.
    let kitchen = afternoon();
    let prep = json(&kitchen.run_on(SUNDAY, &["prep", "--format", "json", "--at", "20:00", "--done", "1-3"]));
    let session = &prep["sessions"][0];
    assert_eq!((session["minutes"].as_i64(), session["finish"].as_str()), (Some(75), Some("2026-11-29T15:15")));
    assert_eq!(session["advice"], serde_json::json!(["All of it is done."]));
    let text = stdout(&kitchen.run_on(SUNDAY, &["prep", "--at", "20:00", "--done", "1-3"]));
    assert!(text.contains("Sun 29 Nov 14:00 to 15:15: all of it is done"), "{text}");
}
