//! Goods out to the kitchen: a session, then the meals that eat it.

use std::fs;

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, draws, json, kitchen};

/// Two portions a batch of 100 g bluegrain each; three days in the fridge.
const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\nbatches = \"whole\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"\"\"\n\
                    200 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

/// Three suppers of one portion: two batches of two on Sunday, 400 g, and one portion to spare.
fn three_suppers(pantry: &str) -> Kitchen {
    let supper =
        |day: &str| format!("[[meal]]\non = 2026-{day}\nat = \"supper\"\neach = [\"1 portion recipe:stew\", \"10 g bluegrain\"]\n");
    kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n")
        .recipe("stew", STEW)
        .pantry(pantry)
        .meals(&[supper("11-30"), supper("12-01"), supper("12-02")].concat())
}

const GRAIN: &str = "[[lot]]\nfood = \"bluegrain\"\namount = \"1 kg\"\nplace = \"cupboard\"\n";

/// (name, amount) of every lot of a place.
fn lots(kitchen: &Kitchen, place: usize) -> Vec<(String, f64)> {
    let stock = json(&kitchen.run(&["--format", "json", "stock"]));
    let name = |lot: &Value| lot["food"].as_str().or(lot["recipe"].as_str()).unwrap_or("?").to_owned();
    let lots = stock["places"][place]["lots"].as_array().expect("lots");
    lots.iter().map(|lot| (name(lot), lot["amount"]["amount"].as_f64().unwrap_or(f64::NAN))).collect()
}

fn grain(grams: f64) -> Vec<(String, f64)> {
    vec![("bluegrain".to_owned(), grams)]
}

#[test]
fn a_session_takes_its_ingredients_and_leaves_cooked_portions() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    assert_eq!(lots(&kitchen, 0), grain(600.0), "1 kg less twice 200 g");
    // Three portions for the suppers and the spare one: two lots of the same day.
    assert_eq!(lots(&kitchen, 1).iter().map(|(_, portions)| portions).sum::<f64>(), 4.0);
    let pantry = fs::read_to_string(kitchen.path().join("pantry.toml")).expect("a file");
    assert!(pantry.contains("made = 2026-11-29") && pantry.contains("use_by = 2026-12-02"), "{pantry}");
    assert_eq!(kitchen.run(&["issue"]).status.code(), Some(2), "there is no other session");
}

#[test]
fn meals_eat_what_was_cooked_one_by_one_or_up_to_a_day() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    assert_eq!(lots(&kitchen, 1).iter().map(|(_, portions)| portions).sum::<f64>(), 3.0);
    assert_eq!(kitchen.run(&["issue", "--meal", "Mon supper"]).status.code(), Some(2), "it is booked already");
    kitchen.done_on("2026-12-02", &["issue", "--until", "2026-12-02"]);
    assert_eq!(lots(&kitchen, 1), [("stew".to_owned(), 1.0)]);
    assert_eq!(lots(&kitchen, 0), grain(570.0), "600 g less three times 10 g");
}

#[test]
fn what_was_eaten_is_not_planned_again() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--until", "2026-12-01"]);
    let prep = json(&kitchen.run(&["--format", "json", "prep"]));
    assert_eq!(prep["sessions"].as_array().map(Vec::len), Some(0), "Sunday is done: two portions are left and one is to be eaten");
    let list = json(&kitchen.run(&["--format", "json", "list"]));
    assert_eq!(draws(&list, "bluegrain").len(), 1, "Wednesday's 10 g alone");
}

#[test]
fn what_the_shelf_does_not_hold_is_reported_and_the_pot_is_booked_all_the_same() {
    let kitchen = three_suppers(&GRAIN.replace("1 kg", "300 g"));
    let said = kitchen.done_on("2026-11-29", &["issue"]);
    assert!(said.contains("Not on the shelf: 100 g bluegrain"), "{said}");
    assert_eq!(lots(&kitchen, 0), []);
    assert_eq!(lots(&kitchen, 1).iter().map(|(_, portions)| portions).sum::<f64>(), 4.0);
}

#[test]
fn where_the_week_has_changed_since_it_was_printed_the_cook_decides() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-27", &["print"]);
    let week = fs::read_to_string(kitchen.path().join("weeks/week.toml")).expect("a file");
    let kitchen = kitchen.week(&week.replace("1 portion recipe:stew", "2 portions recipe:stew"));
    let output = kitchen.run_on("2026-11-29", &["issue"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("the plan has changed since the session of Sun 29 Nov at 14:00 was printed"), "{said}");
    assert!(said.contains("Moon stew: printed 4 portions, now 6 portions") && said.contains("--replan"), "{said}");
    kitchen.done_on("2026-11-29", &["issue", "--anyway"]);
    assert_eq!(lots(&kitchen, 0), grain(600.0), "as printed: two batches, not three");
}

#[test]
fn what_is_eaten_from_the_pot_on_the_day_lies_in_the_fridge_until_the_meal_is_booked() {
    // Supper at 18:30 follows the session of 14:00 to 17:00: never boxed.
    let kitchen = three_suppers(GRAIN).meals("[[meal]]\non = 2026-11-29\nat = \"supper\"\neach = [\"2 portions recipe:stew\"]\n");
    kitchen.done_on("2026-11-29", &["issue"]);
    assert_eq!(lots(&kitchen, 1), [("stew".to_owned(), 2.0)]);
    kitchen.done_on("2026-11-29", &["issue", "--meal", "sun supper"]);
    assert_eq!(lots(&kitchen, 1), []);
}

#[test]
fn undo_takes_back_a_meal_and_then_the_session() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    kitchen.done_on("2026-11-30", &["undo"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    kitchen.done_on("2026-11-30", &["undo"]);
    kitchen.done_on("2026-11-30", &["undo"]);
    assert_eq!((lots(&kitchen, 0), lots(&kitchen, 1)), (grain(1000.0), vec![]));
    kitchen.done_on("2026-11-30", &["issue"]);
    assert_eq!(kitchen.run(&["--strict", "check", "--book"]).status.code(), Some(0));
}

#[test]
fn what_was_eaten_beside_the_plan_leaves_the_shelf() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--also", "1 portion recipe:stew", "--also", "50 g bluegrain"]);
    assert_eq!(lots(&kitchen, 0), grain(550.0), "600 g less 50 g");
    assert_eq!(lots(&kitchen, 1).iter().map(|(_, portions)| portions).sum::<f64>(), 3.0);
    assert!(kitchen.done(&["book"]).contains("Eaten: 1 portion moon stew, 50 g bluegrain beside the plan."));
    assert_eq!(kitchen.run(&["issue", "--also", "some salt"]).status.code(), Some(2));
}

#[test]
fn the_meal_meant_is_the_nearest_on_or_before_today_else_the_next() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    let other = kitchen.text("weeks/week.toml").replace("2026-11-30\n[[trip]]", "2026-12-07\n[[trip]]").replace("11-28", "12-05");
    let other = other.replace("11-29", "12-06").replace("11-30\n", "12-07\n").replace("12-01\n", "12-08\n").replace("12-02\n", "12-09\n");
    let kitchen = kitchen.file("weeks/zweite.toml", &other);
    // On Wednesday, Monday is past and Tuesday of next week is not meant.
    let said = kitchen.done_on("2026-12-02", &["issue", "--meal", "tue supper", "--meal", "mon supper"]);
    assert!(said.contains("eaten: Mon supper, Tue supper (Week of 30 Nov 2026)"), "{said}");
    let output = kitchen.run_on("2026-12-02", &["issue", "--meal", "fri tea"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("There are: wed supper, mon supper, tue supper."), "{said}");
}

#[test]
fn what_lies_in_two_places_is_the_same_session_once_the_shopping_is_done() {
    // 400 g for Sunday, 30 g beside the suppers. Printed: 100 g in the cupboard, the rest from the shopping. Bought: a kilogram.
    let shop = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"1 kg\"\nprice = 1.00\n";
    let kitchen = three_suppers(&GRAIN.replace("1 kg", "100 g")).shops(shop);
    kitchen.done(&["print"]);
    kitchen.done(&["receive"]);
    let said = kitchen.done(&["issue"]);
    assert!(said.contains("Booked: cooked Sun 29 Nov at 14:00"), "{said}");
}

/// The week's file with Sunday's session at another time.
fn moved(kitchen: Kitchen, start: &str) -> Kitchen {
    let text = kitchen.text("weeks/week.toml").replace("2026-11-29T14:00", start);
    kitchen.week(&text)
}

fn open_sessions(kitchen: &Kitchen, today: &str) -> usize {
    let prep = json(&kitchen.run_on(today, &["--format", "json", "prep"]));
    prep["sessions"].as_array().map_or(0, Vec::len)
}

#[test]
fn a_session_that_is_moved_within_its_day_once_it_is_booked_is_done_all_the_same() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let kitchen = moved(kitchen, "2026-11-29T16:30");
    assert_eq!(open_sessions(&kitchen, "2026-11-29"), 0);
    let list = kitchen.run_on("2026-11-29", &["list"]);
    let said = crate::kitchen::stderr(&list);
    assert!(said.contains("the session of Sun 29 Nov 14:00 is booked and was moved to Sun 29 Nov 16:30, which is done with it."), "{said}");
    let again = kitchen.run_on("2026-11-29", &["issue", "--anyway"]);
    assert_eq!(again.status.code(), Some(2), "every session is booked");
    assert_eq!(lots(&kitchen, 0), grain(600.0), "cooked once");
}

#[test]
fn a_session_that_is_moved_before_it_is_booked_is_booked_at_its_new_start_and_once() {
    // Printed for Sunday, cooked on Monday morning: its boxes keep three days from there.
    for flags in [&["issue"][..], &["issue", "--anyway"], &["issue", "--replan"]] {
        let kitchen = three_suppers(GRAIN);
        kitchen.done_on("2026-11-27", &["print"]);
        let kitchen = moved(kitchen, "2026-11-30T10:00");
        let said = kitchen.done_on("2026-11-30", flags);
        assert!(said.contains("Booked: cooked Mon 30 Nov at 10:00"), "{said}");
        assert_eq!((open_sessions(&kitchen, "2026-11-30"), lots(&kitchen, 0)), (0, grain(600.0)));
        assert!(kitchen.text("pantry.toml").contains("use_by = 2026-12-03"), "{}", kitchen.text("pantry.toml"));
        assert_eq!(kitchen.run_on("2026-11-30", &["issue", "--anyway"]).status.code(), Some(2));
        kitchen.done_on("2026-11-30", &["check", "--book"]);
    }
}

#[test]
fn a_session_that_is_moved_to_another_day_once_it_is_booked_is_done_and_told() {
    // By a day, and by four: beside a print, and without one.
    for (start, now) in [("2026-11-30T10:00", "Mon 30 Nov 10:00"), ("2026-12-03T10:00", "Thu 3 Dec 10:00")] {
        for first in [&["print"][..], &["check"]] {
            let kitchen = three_suppers(GRAIN);
            kitchen.done_on("2026-11-27", first);
            kitchen.done_on("2026-11-29", &["issue"]);
            let kitchen = moved(kitchen, start);
            assert_eq!(open_sessions(&kitchen, "2026-11-30"), 0);
            let said = crate::kitchen::stderr(&kitchen.run_on("2026-11-30", &["list"]));
            let line = format!(
                "warning: weeks/week.toml:5:1: the session of Sun 29 Nov 14:00 is booked and was moved to {now}, which is done with it. If that \
                 is another, write start = 2026-11-29T14:00 into weeks/week.toml again, as a session of its own."
            );
            assert!(said.lines().any(|said| said == line), "{said}");
            for flags in [&["issue"][..], &["issue", "--anyway"], &["issue", "--replan"]] {
                assert_eq!(kitchen.run_on("2026-12-03", flags).status.code(), Some(2), "booked once");
            }
            assert_eq!(lots(&kitchen, 0), grain(600.0), "cooked once");
            // Taken back, it is to be booked at its new start.
            kitchen.done_on("2026-12-03", &["undo"]);
            let said = kitchen.done_on("2026-12-03", &["issue", "--anyway"]);
            assert!(said.contains("Booked: cooked"), "{said}");
            // On Thursday the suppers are over: planned then, it cooks for nobody.
            let left = if first == ["check"] && start.starts_with("2026-12-03") { 1000.0 } else { 600.0 };
            assert_eq!(lots(&kitchen, 0), grain(left), "{now}, {first:?}: {said}");
        }
    }
}

#[test]
fn a_session_that_stood_beside_the_booked_one_is_never_taken_for_it() {
    // Sunday's is booked and then taken out of the file, as something done; Wednesday's stood there all along, and is moved by a day.
    let week = |sessions: &[&str]| {
        let sessions: String = sessions.iter().map(|start| format!("[[session]]\nstart = {start}\npeople = [\"cook\"]\n")).collect();
        format!("from = 2026-11-30\n{sessions}[[meal]]\non = 2026-12-03\nat = \"supper\"\neach = [\"1 portion recipe:stew\"]\n")
    };
    let kitchen = three_suppers(GRAIN).week(&week(&["2026-11-29T14:00", "2026-12-02T14:00"]));
    kitchen.done_on("2026-11-29", &["issue"]);
    for start in ["2026-12-02T14:00", "2026-12-01T14:00"] {
        fs::write(kitchen.path().join("weeks/week.toml"), week(&[start])).expect("written");
        let prep = json(&kitchen.run_on("2026-11-30", &["--format", "json", "prep"]));
        assert_eq!(prep["sessions"][0]["start"], start);
        let said = crate::kitchen::stderr(&kitchen.run_on("2026-11-30", &["list"]));
        assert!(!said.contains("moved"), "{said}");
    }
}

#[test]
fn a_session_that_is_written_after_the_print_is_booked_once_the_printed_ones_are() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-27", &["print"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    let week = kitchen.text("weeks/week.toml");
    let more = "[[session]]\nstart = 2026-12-04T16:00\npeople = [\"cook\"]\n[[meal]]\non = 2026-12-05\nat = \"supper\"\neach = [\"2 portions recipe:stew\"]\n";
    let kitchen = kitchen.week(&format!("{week}{more}"));
    let said = kitchen.done_on("2026-12-04", &["issue"]);
    assert!(said.contains("Booked: cooked Fri 4 Dec at 16:00"), "{said}");
    assert_eq!(kitchen.run_on("2026-12-04", &["issue"]).status.code(), Some(2));
}

#[test]
fn meals_of_days_to_come_are_booked_and_told() {
    let kitchen = three_suppers(GRAIN);
    kitchen.done_on("2026-11-29", &["issue"]);
    let strict = kitchen.run_on("2026-11-30", &["--strict", "issue", "--until", "2026-12-01"]);
    let told = "warning: Tue 1 Dec is yet to come: its meals are booked as eaten. Where that is not meant: spence undo.\n";
    assert_eq!((strict.status.code(), crate::kitchen::stderr(&strict).starts_with(told)), (Some(1), true));
    let said = kitchen.run_on("2026-11-30", &["issue", "--until", "2026-12-01"]);
    assert_eq!((said.status.code(), crate::kitchen::stderr(&said)), (Some(0), told.to_owned()));
    assert_eq!(crate::kitchen::stderr(&kitchen.run_on("2026-12-02", &["issue", "--until", "2026-12-02"])), "");
}

#[test]
fn a_week_without_a_session_says_so() {
    let kitchen = kitchen().week(&format!("from = 2026-11-30\n{}", crate::kitchen::supper("2026-11-30", "\"100 g bluegrain\"")));
    let said = crate::kitchen::stderr(&kitchen.run(&["issue"]));
    assert!(said.ends_with("Week of 30 Nov 2026 has no session. To book what was eaten: spence issue --until DATE.\n"), "{said}");
}
