//! Next week begins where this one ends: what another week has yet to take off the shelf is taken first.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, assert_amount, batches, draws, has_line, json, kitchen, line, stderr, stdout, supper};

const GRAIN: &str = "[[lot]]\nfood = \"bluegrain\"\namount = \"500 g\"\nplace = \"cupboard\"\n";

const STEW: &str = "name = \"Moon stew\"\nmakes = \"4 portions\"\nbatches = \"whole\"\nkeeps = { fridge = \"3 days\", freezer = \"2 months\" }\n\
                    ingredients = \"\"\"\n400 g bluegrain\n\"\"\"\n[[step]]\ntext = \"Cook {bluegrain}.\"\nhands = \"5 min\"\n";

/// The trip of this week is on 28 November and its session on the 29th; next week's on 5 and 6 December.
fn two_weeks(pantry: &str, this: &str, next: &str) -> Kitchen {
    let next = format!("from = 2026-12-07\n[[trip]]\non = 2026-12-05\n[[session]]\nstart = 2026-12-06T14:00\npeople = [\"cook\"]\n{next}");
    kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\nallergens = []\nsource = \"weighed at home\"\n")
        .recipe("stew", STEW)
        .pantry(pantry)
        .meals(this)
        .file("weeks/next.toml", &next)
}

fn next_list(kitchen: &Kitchen, today: &str) -> serde_json::Value {
    json(&kitchen.run_on(today, &["--week", "next.toml", "--format", "json", "list"]))
}

fn grain_meals() -> Kitchen {
    let this = [supper("2026-11-30", "\"200 g bluegrain\""), supper("2026-12-02", "\"100 g bluegrain\"")].concat();
    two_weeks(GRAIN, &this, &supper("2026-12-07", "\"300 g bluegrain\""))
}

#[test]
fn what_this_week_has_yet_to_use_is_taken_first() {
    // 500 g less this week's 200 g and 100 g leave 200 g; 300 g are wanted: 100 g to buy.
    let list = next_list(&grain_meals(), "2026-11-27");
    assert_amount(&line(&list, "bluegrain")["need"], 100.0, "g");
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-07".to_owned(), "cupboard".to_owned(), 200.0)]);
    let reserved = &list["reserved"];
    assert_eq!(reserved.as_array().map(Vec::len), Some(1));
    assert_amount(&reserved[0]["amount"], 300.0, "g");
    assert_eq!((reserved[0]["last_used"].as_str(), reserved[0]["for"].as_array().map(Vec::len)), (Some("2026-12-02"), Some(2)));
}

#[test]
fn what_lies_before_today_is_off_the_shelf_already() {
    // On 1 December Monday's 200 g are taken as eaten: 500 g less Wednesday's 100 g cover the 300 g.
    let list = next_list(&grain_meals(), "2026-12-01");
    assert!(!has_line(&list, "bluegrain"));
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-07".to_owned(), "cupboard".to_owned(), 300.0)]);
}

#[test]
fn what_is_booked_is_not_taken_a_second_time() {
    // Monday's 200 g are booked beforehand: 300 g lie there, less Wednesday's 100 g: 200 g, and 100 g to buy.
    let kitchen = grain_meals();
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    assert_amount(&line(&next_list(&kitchen, "2026-11-30"), "bluegrain")["need"], 100.0, "g");
}

#[test]
fn a_week_does_not_take_from_itself_nor_a_later_one_from_an_earlier() {
    // This week's list on its own: 300 g of 500 g, nothing to buy, and nothing kept for next week.
    let list = grain_meals().list();
    assert!(!has_line(&list, "bluegrain"));
    assert_eq!(list["reserved"].as_array().map(Vec::len), Some(0));
}

#[test]
fn the_last_suppers_of_this_week_are_kept_although_next_week_s_trip_comes_before() {
    // The trip of 5 December comes before Sunday's supper: its 400 g are kept, 100 g are left, 200 g to buy.
    let kitchen = two_weeks(GRAIN, &supper("2026-12-06", "\"400 g bluegrain\""), &supper("2026-12-07", "\"300 g bluegrain\""));
    assert_amount(&line(&next_list(&kitchen, "2026-12-05"), "bluegrain")["need"], 200.0, "g");
}

#[test]
fn cooked_lots_that_this_week_leaves_are_used_before_anything_is_cooked() {
    // Three cooked portions lie in the freezer. This week eats one of them; of next week's three, two are there and one is cooked:
    // a whole batch of 400 g.
    let pantry = "[[lot]]\nrecipe = \"stew\"\namount = \"3 portions\"\nplace = \"freezer\"\nmade = 2026-11-20\n";
    let portions = |day: &str, number: u32| supper(day, &format!("\"{number} portions recipe:stew\""));
    let kitchen = two_weeks(pantry, &portions("2026-12-01", 1), &portions("2026-12-07", 3));
    let list = next_list(&kitchen, "2026-11-27");
    assert_amount(&line(&list, "bluegrain")["need"], 400.0, "g");
    assert_eq!(draws(&list, "stew"), [("2026-12-07".to_owned(), "freezer".to_owned(), 2.0)]);
    // Without this week's supper there are enough.
    let kitchen = two_weeks(pantry, "", &portions("2026-12-07", 3));
    let prep = json(&kitchen.run(&["--week", "next.toml", "--format", "json", "prep"]));
    assert_eq!(batches(&prep, 0, "stew"), 0.0);
}

#[test]
fn what_a_session_to_come_takes_and_leaves_to_spare_counts_too() {
    // Sunday's session makes a batch of four for one portion: 400 g of the 500 g go, three portions are frozen. Next week's three
    // portions are those, and its 150 g of grain find 100 g.
    let this = supper("2026-11-30", "\"1 portion recipe:stew\"");
    let next = supper("2026-12-07", "\"3 portions recipe:stew\", \"150 g bluegrain\"");
    let kitchen = two_weeks(GRAIN, &this, &next);
    let list = next_list(&kitchen, "2026-11-27");
    assert_amount(&line(&list, "bluegrain")["need"], 50.0, "g");
    assert_eq!(draws(&list, "stew"), [("2026-12-07".to_owned(), "freezer".to_owned(), 3.0)]);
    // Booked, the same lies on the shelf itself.
    kitchen.done_on("2026-11-29", &["issue"]);
    let list = next_list(&kitchen, "2026-11-30");
    assert_amount(&line(&list, "bluegrain")["need"], 50.0, "g");
}

#[test]
fn the_last_supper_of_this_week_is_booked_when_the_next_has_begun() {
    let kitchen = two_weeks(GRAIN, &supper("2026-12-06", "\"400 g bluegrain\""), &supper("2026-12-07", "\"300 g bluegrain\""));
    for arguments in [["issue", "--meal", "sun supper"], ["issue", "--until", "2026-12-06"]] {
        let output = kitchen.run_on("2026-12-06", &arguments);
        assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
        assert!(stdout(&output).contains("Sun supper"), "{}", stdout(&output));
        kitchen.done(&["undo"]);
    }
}

#[test]
fn what_list_calls_a_mistake_so_does_check() {
    // Monday's supper eats the one portion in the freezer; the next is needed for a lunch before next week's session cooks any.
    let frozen = "[[lot]]\nrecipe = \"stew\"\namount = \"1 portion\"\nplace = \"freezer\"\nmade = 2026-11-20\n";
    let lunch = "[[meal]]\non = 2026-12-06\nat = \"lunch\"\neach = [\"1 portion recipe:stew\"]\n";
    let kitchen = two_weeks(frozen, &supper("2026-11-30", "\"1 portion recipe:stew\""), lunch);
    let said = |arguments: &[&str]| {
        let output = kitchen.run_on("2026-11-27", arguments);
        (output.status.code(), stderr(&output))
    };
    let (status, list) = said(&["list", "--week", "next.toml"]);
    assert_eq!(status, Some(1), "{list}");
    assert!(list.contains("no session is ready before Sun lunch"), "{list}");
    assert_eq!(said(&["check"]), (status, list));
}

/// Twelve weeks of the sample's first, each seven days after the one before. What is to spare keeps for weeks in the freezer.
fn twelve_weeks() -> Kitchen {
    let kitchen = crate::kitchen::sample();
    std::fs::remove_file(kitchen.path().join("weeks/2026-12-07.toml")).expect("a file");
    let first = kitchen.text("weeks/2026-11-30.toml");
    let later = |text: &str, weeks: i64| {
        let mut out = String::new();
        let mut rest = text;
        while let Some(at) = rest.find("2026-1") {
            let day: jiff::civil::Date = rest[at..at + 10].parse().expect("a date");
            out.push_str(&rest[..at]);
            out.push_str(&day.saturating_add(jiff::Span::new().days(7 * weeks)).to_string());
            rest = &rest[at + 10..];
        }
        (out + rest).replace("First week of advent", &format!("Week {weeks}"))
    };
    (0..12).fold(kitchen, |kitchen, weeks| kitchen.file(&format!("weeks/w{weeks:02}.toml"), &later(&first, weeks)))
}

#[test]
fn a_walk_from_week_to_week_says_of_each_what_is_said_of_it_alone() {
    let kitchen = twelve_weeks();
    std::fs::remove_file(kitchen.path().join("weeks/2026-11-30.toml")).expect("a file");
    let loaded = spence::kitchen::load(kitchen.path()).expect("a kitchen without mistakes");
    let booked = spence::book::Booked::default();
    // Before the first week; amid the third, whose past is taken as done.
    for today in [jiff::civil::date(2026, 11, 27), jiff::civil::date(2026, 12, 16)] {
        let walk = spence::Walk::default();
        let said = |week: usize, walk: &spence::Walk| {
            let reckoned = spence::reckon_beside(walk, &loaded, &booked, &[], week, today).expect("a week that can be planned");
            format!("{:?}{:?}{:?}", reckoned.basket, reckoned.reserved, reckoned.netted)
        };
        // The last first, then all: no order changes anything.
        for week in [11].into_iter().chain(0..12) {
            assert!(said(week, &walk) == said(week, &spence::Walk::default()), "week {week} on {today}");
        }
    }
}

#[test]
fn a_week_that_is_over_and_was_not_booked_to_its_end_is_told_with_the_command_that_books_it() {
    // Of two suppers the first is booked; next week would count on the 100 g of the second.
    let kitchen = grain_meals();
    let warnings = |today: &str| {
        let list = next_list(&kitchen, today);
        list["warnings"].as_array().expect("warnings").iter().filter_map(|one| one.as_str().map(str::to_owned)).collect::<Vec<_>>()
    };
    // Nobody who books nothing is told.
    assert!(warnings("2026-12-07").iter().all(|said| !said.contains("is over")), "{:?}", warnings("2026-12-07"));
    kitchen.done_on("2026-11-28", &["receive", "--also", "1 lemon"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    let said = "Week of 30 Nov 2026 is over, and not booked to its end: the session of Sun 29 Nov 14:00, Wed supper. \
                To book: spence --week weeks/week.toml issue; spence --week weeks/week.toml issue --until 2026-12-02.";
    assert_eq!(warnings("2026-12-07").iter().filter(|one| one.contains("is over")).collect::<Vec<_>>(), [said]);
    // While it runs, it is not over.
    assert!(warnings("2026-12-02").iter().all(|said| !said.contains("is over")));
    kitchen.done_on("2026-12-07", &["--week", "weeks/week.toml", "issue"]);
    kitchen.done_on("2026-12-07", &["--week", "weeks/week.toml", "issue", "--until", "2026-12-02"]);
    assert!(warnings("2026-12-07").iter().all(|said| !said.contains("is over")));
}

#[test]
fn meals_up_to_a_day_are_booked_over_all_weeks() {
    // 500 g less 200 g, 100 g and 300 g of next week's Monday leave none of the shelf's.
    let kitchen = grain_meals();
    let output = kitchen.done_on("2026-12-07", &["issue", "--until", "2026-12-07"]);
    assert!(output.contains("Mon supper") && output.contains("Wed supper"), "{output}");
    let again = kitchen.run_on("2026-12-07", &["issue", "--until", "2026-12-07"]);
    assert_eq!(stderr(&again), "error: there is no meal up to Mon 7 Dec left to book.\n");
}

#[test]
fn of_the_sample_s_second_week_each_composed_supper_can_be_filled_anew_once_it_is_written() {
    let kitchen = crate::kitchen::sample();
    let compose = |arguments: &[&str]| kitchen.run_on("2026-11-28", &[&["--week", "2026-12-07.toml", "compose"], arguments].concat());
    assert_eq!(stderr(&compose(&["--write"])).matches("error").count(), 0);
    for meal in ["tue supper", "wed supper", "fri supper"] {
        let anew = compose(&["--refill", meal]);
        assert_eq!(anew.status.code(), Some(0), "{meal}: {}", stderr(&anew));
    }
}
