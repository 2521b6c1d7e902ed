//! `print --only calendar`: what stands in the file, and what the next print makes of it.

use std::fs;

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, kitchen, sample, stderr, supper};

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\ncup = \"160 g\"\nallergens = []\nsource = \"weighed at home\"\n";
const STEW: &str = "name = \"Moon stew\"\nmakes = \"2 portions\"\nkeeps = { fridge = \"3 days\" }\nserve = \"hot\"\ningredients = \"\"\"\n100 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Soak {bluegrain}\"\nhands = \"2 min\"\nahead = \"12 h\"\n[[step]]\ntext = \"Cook it.\"\nhands = \"5 min\"\n";

fn stew() -> Kitchen {
    kitchen().foods(FOODS).recipe("stew", STEW).meals(&supper("2026-11-30", "\"1 portion recipe:stew\""))
}

/// The content lines of the printed calendar, unfolded, an event a list.
fn events(kitchen: &Kitchen, arguments: &[&str]) -> Vec<Vec<String>> {
    let output = kitchen.run(&[&["print", "--only", "calendar"], arguments].concat());
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let text = fs::read_to_string(kitchen.path().join("sheets/week-2026-11-30.ics")).expect("a calendar");
    let whole = text.replace("\r\n ", "");
    let after = whole.split("BEGIN:VEVENT\r\n").skip(1);
    after.map(|event| event.split("\r\n").take_while(|line| *line != "END:VEVENT").map(str::to_owned).collect()).collect()
}

fn value<'e>(event: &'e [String], key: &str) -> &'e str {
    event.iter().find_map(|line| line.strip_prefix(key)?.strip_prefix([':', ';'])).unwrap_or("")
}

#[test]
fn trips_are_all_day_meals_at_their_time_and_what_is_done_at_night_in_the_evening_before() {
    // Soaking: 14:00 on Sunday less 12 h is 02:00, so 20:00 on Saturday.
    let events = events(&stew(), &[]);
    let told: Vec<_> = events.iter().map(|event| (value(event, "DTSTART"), value(event, "SUMMARY"))).collect();
    assert_eq!(
        told,
        [
            ("VALUE=DATE:20261128", "Shopping"),
            ("20261128T200000", "Soak 50 g bluegrain"),
            ("20261129T140000", "Batch cooking"),
            ("20261130T183000", "Mon supper"),
        ]
    );
    assert_eq!(value(&events[0], "DESCRIPTION"), "bluegrain: 50 g", "no price is known, so no sum is told");
    assert_eq!(value(&events[2], "DTEND"), "20261129T140300", "half of 5 min, rounded up");
    assert_eq!(value(&events[3], "DESCRIPTION"), "Take 1 portion of moon stew out of the fridge: heat to 74 °C (165 °F)");
}

#[test]
fn a_default_print_writes_no_calendar_and_forgets_no_event() {
    let kitchen = stew();
    let first = events(&kitchen, &[]);
    fs::remove_file(kitchen.path().join("sheets/week-2026-11-30.ics")).expect("it was there");
    assert_eq!(kitchen.run(&["print"]).status.code(), Some(0));
    assert!(!kitchen.path().join("sheets/week-2026-11-30.ics").exists());
    assert_eq!(events(&kitchen, &[]), first);
}

#[test]
fn an_event_that_moves_keeps_its_uid_and_what_falls_out_is_cancelled_once() {
    let kitchen = stew();
    let uid = |events: &[Vec<String>], start: &str| {
        let event = events.iter().find(|event| value(event, "DTSTART") == start).expect("an event");
        (value(event, "UID").to_owned(), value(event, "SEQUENCE").to_owned(), value(event, "STATUS").to_owned())
    };
    let first = events(&kitchen, &[]);
    let (session, sequence, _) = uid(&first, "20261129T140000");
    assert_eq!(sequence, "0");
    let week = fs::read_to_string(kitchen.path().join("weeks/week.toml")).expect("a week");
    let kitchen = kitchen.week(&week.replace("2026-11-29T14:00", "2026-11-29T15:00"));
    let moved = events(&kitchen, &[]);
    assert_eq!(uid(&moved, "20261129T150000"), (session, "1".to_owned(), "CONFIRMED".to_owned()));

    let (meal, _, _) = uid(&moved, "20261130T183000");
    let kitchen = kitchen.meals(&supper("2026-12-01", "\"100 g bluegrain\""));
    let gone = events(&kitchen, &[]);
    assert_eq!(uid(&gone, "20261130T183000"), (meal.clone(), "1".to_owned(), "CANCELLED".to_owned()));
    assert!(events(&kitchen, &[]).iter().all(|event| value(event, "UID") != meal));
}

#[test]
fn a_meal_that_is_skipped_is_cancelled_once_and_may_come_back() {
    let kitchen = stew();
    let meal = |events: &[Vec<String>]| {
        let told = events.iter().find(|event| value(event, "DTSTART") == "20261130T183000");
        told.map(|event| (value(event, "UID").to_owned(), value(event, "SEQUENCE").to_owned(), value(event, "STATUS").to_owned()))
    };
    let (uid, _, _) = meal(&events(&kitchen, &[])).expect("a meal");
    let week = kitchen.text("weeks/week.toml");
    assert_eq!(kitchen.run(&["skip", "mon supper"]).status.code(), Some(0));
    assert_eq!(meal(&events(&kitchen, &[])), Some((uid.clone(), "1".to_owned(), "CANCELLED".to_owned())));
    assert_eq!(meal(&events(&kitchen, &[])), None);
    let kitchen = kitchen.week(&week);
    assert_eq!(meal(&events(&kitchen, &[])), Some((uid, "2".to_owned(), "CONFIRMED".to_owned())));
}

#[test]
fn a_meal_that_was_booked_is_not_cancelled() {
    let kitchen = stew();
    let first = events(&kitchen, &[]);
    for verb in [&["receive"][..], &["issue"], &["issue", "--meal", "mon supper"]] {
        let output = kitchen.run(verb);
        assert_eq!(output.status.code(), Some(0), "{verb:?}: {}", stderr(&output));
    }
    let told = events(&kitchen, &[]);
    assert!(told.iter().all(|event| value(event, "STATUS") == "CONFIRMED" || value(event, "SUMMARY").starts_with("Soak")), "{told:?}");
    assert_eq!(value(told.last().expect("an event"), "UID"), value(first.last().expect("an event"), "UID"));
}

#[test]
fn times_are_those_of_the_zone_and_an_unknown_zone_is_a_mistake() {
    let zone = |name: &str| {
        stew().file("kitchen.toml", &format!("[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\nzone = \"{name}\"\n"))
    };
    let kitchen = zone("europe/lisbon");
    assert_eq!(value(&events(&kitchen, &[])[3], "DTSTART"), "TZID=Europe/Lisbon:20261130T183000");
    let text = fs::read_to_string(kitchen.path().join("sheets/week-2026-11-30.ics")).expect("a calendar");
    assert!(text.contains("BEGIN:VTIMEZONE\r\nTZID:Europe/Lisbon\r\nBEGIN:STANDARD\r\n"), "{text}");

    let output = zone("Europe/Lisbn").run(&["check"]);
    assert_eq!(output.status.code(), Some(1));
    let said = stderr(&output);
    assert!(
        said.contains("kitchen.toml:5:8: zone: \"Europe/Lisbn\" is no zone of the IANA tz database. Did you mean \"Europe/Lisbon\"?"),
        "{said}"
    );
}

#[test]
fn a_print_that_cannot_be_read_is_told_and_written_anew() {
    let kitchen = stew().file("sheets/plan-2026-11-30.json", "{");
    let output = kitchen.run(&["print", "--only", "calendar"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(stderr(&output).contains("may then hold events twice"), "{}", stderr(&output));
}

#[test]
fn a_zone_that_is_written_down_moves_every_event_and_says_so() {
    let household = |zone: &str| format!("[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\n{zone}");
    let kitchen = stew().file("kitchen.toml", &household(""));
    let told = |events: &[Vec<String>]| -> Vec<(String, String, String)> {
        let of = |event: &Vec<String>| [value(event, "UID"), value(event, "DTSTART"), value(event, "SEQUENCE")].map(str::to_owned);
        events.iter().map(|event| of(event).into()).collect()
    };
    let first = told(&events(&kitchen, &[]));
    let kitchen = kitchen.file("kitchen.toml", &household("zone = \"Europe/Lisbon\"\n"));
    let then = told(&events(&kitchen, &[]));
    for ((uid, start, sequence), (same, zoned, next)) in first.iter().zip(&then) {
        let is_day = start.starts_with("VALUE=DATE");
        assert_eq!((uid, sequence.as_str(), next.as_str()), (same, "0", if is_day { "0" } else { "1" }));
        assert_eq!(*zoned, if is_day { start.clone() } else { format!("TZID=Europe/Lisbon:{start}") });
    }
    assert_eq!(told(&events(&kitchen, &[])), then);
}

#[test]
fn a_session_over_the_change_to_summer_time_ends_by_the_clock_on_the_wall() {
    // 29 March 2026 in Lisbon: 01:00 becomes 02:00. 5 min of hands and 3 of boxing from 00:58: 01:06 is no time of that night, 02:06 is.
    let week = "name = \"Change\"\nfrom = 2026-03-28\n[[session]]\nstart = 2026-03-29T00:58\npeople = [\"cook\"]\n[[meal]]\non = 2026-03-29\nat = \"18:30\"\neach = \"2 portions recipe:stew\"\n";
    let kitchen =
        stew().week(week).file("kitchen.toml", "[household]\nname = \"Row\"\neaters = 1\ncurrency = \"EUR\"\nzone = \"Europe/Lisbon\"\n");
    let output = kitchen.run_on("2026-03-28", &["print", "--only", "calendar"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let text = fs::read_to_string(kitchen.path().join("sheets/week-2026-03-28.ics")).expect("a calendar");
    assert!(text.contains("DTSTART;TZID=Europe/Lisbon:20260329T005800\r\nDTEND;TZID=Europe/Lisbon:20260329T020600\r\n"), "{text}");
}

#[test]
fn a_meal_that_must_be_begun_earlier_says_so_in_its_summary() {
    let kitchen = sample();
    kitchen.done(&["print", "--only", "calendar"]);
    let calendar = kitchen.text("sheets/week-2026-11-30.ics").replace("\r\n ", "");
    // Rice takes half an hour before half past six; what is only taken out begins at its time.
    assert!(calendar.contains("SUMMARY:Sun supper: Braised chicken and rice\\, begin by 18:00\r\n"), "{calendar}");
    assert!(calendar.contains("SUMMARY:Mon supper: Braised chicken and barley\r\n"), "{calendar}");
    assert!(calendar.contains("SUMMARY:Take 500 g chicken thighs out of the freezer and let them thaw in the fridge\r\n"), "{calendar}");
}

#[test]
fn a_session_of_which_all_is_served_hot_tells_no_time_at_which_the_rest_is_done() {
    let week = format!(
        "from = 2026-11-30\n[[session]]\nstart = 2026-11-30T17:00\nfinish_by = \"18:00\"\npeople = [\"cook\"]\n{}",
        supper("2026-11-30", "\"1 portion recipe:stew\"")
    );
    let events = events(&stew().week(&week), &[]);
    let session = events.iter().find(|event| value(event, "SUMMARY") == "Batch cooking").expect("a session");
    let told = value(session, "DESCRIPTION");
    assert!(told.contains("All of it is served hot.") && told.contains("Served at 18:30.") && !told.contains("Done by"), "{told}");
}
