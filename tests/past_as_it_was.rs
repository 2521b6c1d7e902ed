//! What is past, neither booked nor printed, was as the week would have planned it then: what was booked since changes nothing of it. What
//! is booked stays done, whatever the files call it by now.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, assert_amount, draws, json as read, kitchen, line_with_trip, supper};

const MASH: &str = "name = \"Moon mash\"\nmakes = \"4 portions\"\nbatches = \"any\"\nkeeps = { fridge = \"6 days\" }\n\
                    ingredients = [\"400 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"6 min\"\n";

/// Bluegrain in packs of 100 g at 1.00.
const SHOP: &str = "[[shop]]\nname = \"Stall\"\n[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n";

const FOODS: &str = "[[food]]\nname = \"bluegrain\"\nallergens = []\nkeeps = { cupboard = \"300 days\" }\nsource = \"weighed at home\"\n";

fn at_home(lots: &str, week: &str) -> Kitchen {
    kitchen().foods(FOODS).shops(SHOP).recipe("mash", MASH).pantry(lots).week(week)
}

fn week(trip: &str, session: &str, meals: &str) -> String {
    format!("from = 2026-11-30\n[[trip]]\non = {trip}\n[[session]]\nstart = \"{session}T14:00\"\npeople = [\"cook\"]\n{meals}")
}

fn list_on(kitchen: &Kitchen, today: &str, more: &[&str]) -> Value {
    read(&kitchen.run_on(today, &[&["--format", "json", "list", "--all"], more].concat()))
}

/// What a trip, by its place among all, bought: its state and its cost.
fn trip(list: &Value, place: usize) -> (Option<&str>, Option<&str>) {
    (list["trips"][place]["state"].as_str(), list["trips"][place]["cost"].as_str())
}

/// 300 g at home. Saturday the fifth needs 200 g for its session and 100 g beside: the trip of 28 November buys nothing.
fn enough_at_home() -> Kitchen {
    let meals = supper("2026-12-05", "\"100 g bluegrain\"") + &supper("2026-12-06", "\"2 portions recipe:mash\"");
    at_home("[[lot]]\nfood = \"bluegrain\"\namount = \"300 g\"\nplace = \"cupboard\"\n", &week("2026-11-28", "2026-12-05", &meals))
}

#[test]
fn what_was_thrown_away_since_was_not_bought_again_on_a_trip_of_before() {
    let kitchen = enough_at_home();
    assert_eq!(trip(&list_on(&kitchen, "2026-12-01", &[]), 0), (Some("taken as done"), Some("0.00")));
    kitchen.done_on("2026-12-01", &["waste", "100 g bluegrain", "--why", "moths"]);
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!(trip(&list, 0), (Some("taken as done"), Some("0.00")));
    // 300 g are needed and 200 g are there: 100 g are still to get.
    let (on, line) = line_with_trip(&list, "bluegrain");
    assert_eq!(on, "2026-12-05");
    assert_amount(&line["need"], 100.0, "g");
    // What is eaten beside the plan, likewise: 200 g.
    kitchen.done_on("2026-12-01", &["issue", "--also", "100 g bluegrain"]);
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!(trip(&list, 0), (Some("taken as done"), Some("0.00")));
    assert_amount(&line_with_trip(&list, "bluegrain").1["need"], 200.0, "g");
}

#[test]
fn a_box_thrown_away_runs_short_and_was_not_cooked_in_a_session_of_before() {
    // Two portions at home serve Monday and Tuesday; Sunday's session made the third, of 100 g at home: nothing was bought.
    let mash = "\"1 portion recipe:mash\"";
    let meals = supper("2026-11-30", mash) + &supper("2026-12-01", mash) + &supper("2026-12-02", mash);
    let lots = "[[lot]]\nfood = \"bluegrain\"\namount = \"100 g\"\nplace = \"cupboard\"\n\
                [[lot]]\nrecipe = \"mash\"\namount = \"2 portions\"\nplace = \"fridge\"\nmade = 2026-11-27\n";
    let kitchen = at_home(lots, &week("2026-11-28", "2026-11-29", &meals));
    let before = list_on(&kitchen, "2026-11-30", &[]);
    assert_eq!((trip(&before, 0).1, &before["short"]), (Some("0.00"), &json!([])));
    kitchen.done_on("2026-11-30", &["waste", "2 portions recipe:mash", "--why", "fell"]);
    let list = list_on(&kitchen, "2026-11-30", &[]);
    assert_eq!(trip(&list, 0), (Some("taken as done"), Some("0.00")));
    let short: Vec<_> = list["short"].as_array().expect("meals").iter().map(|short| (&short["on"], &short["amount"]["amount"])).collect();
    assert_eq!(short, [(&json!("2026-12-01"), &json!(1.0)), (&json!("2026-12-02"), &json!(1.0))]);
}

#[test]
fn goods_of_next_weeks_trip_were_not_cooked_the_week_before() {
    // This week buys 200 g for Sunday's mash and 100 g for a late supper; next week 200 g for its own.
    let this = week(
        "2026-11-28",
        "2026-11-29",
        &(supper("2026-11-30", "\"2 portions recipe:mash\"") + &supper("2026-12-12", "\"100 g bluegrain\"")),
    );
    let next = week("2026-12-05", "2026-12-06", &supper("2026-12-07", "\"2 portions recipe:mash\""));
    let kitchen = at_home("", &this).file("weeks/next.toml", &next.replacen("2026-11-30", "2026-12-07", 1));
    let of_next = |kitchen: &Kitchen| list_on(kitchen, "2026-12-05", &["--week", "next"]);
    assert_eq!(trip(&of_next(&kitchen), 0), (Some("open"), Some("2.00")));
    kitchen.done_on("2026-12-05", &["--week", "next", "receive"]);
    let list = of_next(&kitchen);
    assert_eq!(list["trips"].as_array().map(Vec::len), Some(1));
    assert_eq!(trip(&list, 0).0, Some("done"));
    assert_eq!(draws(&list, "bluegrain"), [("2026-12-06".to_owned(), "cupboard".to_owned(), 200.0)]);
    // And it is booked so: three packs.
    kitchen.done_on("2026-12-05", &["--week", "week", "receive"]);
    assert_eq!(trip(&list_on(&kitchen, "2026-12-05", &["--week", "week"]), 0).0, Some("done"));
    let pantry = kitchen.text("pantry.toml");
    assert!(pantry.contains("2 x 100 g") && pantry.contains("3 x 100 g"), "{pantry}");
}

#[test]
fn what_was_bought_beside_the_plan_does_not_take_a_past_purchase_back() {
    let meals = supper("2026-11-30", "\"2 portions recipe:mash\"") + &supper("2026-12-03", "\"200 g bluegrain\"");
    let kitchen = at_home("", &week("2026-11-28", "2026-11-29", &meals));
    assert_eq!(trip(&list_on(&kitchen, "2026-12-02", &[]), 0), (Some("taken as done"), Some("4.00")));
    kitchen.done_on("2026-12-02", &["receive", "--also", "200 g bluegrain at 2.00", "--on", "2026-12-02"]);
    assert_eq!(trip(&list_on(&kitchen, "2026-12-02", &[]), 0), (Some("taken as done"), Some("4.00")));
}

/// Four portions of mash are made on Sunday; Monday's two are booked.
fn monday_is_eaten() -> Kitchen {
    let two = "\"2 portions recipe:mash\"";
    let meals = supper("2026-11-30", two).replace("each =", "name = \"First\"\neach =") + &supper("2026-12-02", two);
    let kitchen = at_home("", &week("2026-11-28", "2026-11-29", &meals));
    kitchen.done_on("2026-11-28", &["receive"]);
    kitchen.done_on("2026-11-29", &["issue"]);
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    kitchen
}

#[test]
fn a_booked_meal_that_is_called_otherwise_by_now_is_not_eaten_again() {
    for called in ["name = \"Premier\"\n", ""] {
        let kitchen = monday_is_eaten();
        let text = kitchen.text("weeks/week.toml").replace("name = \"First\"\n", called);
        std::fs::write(kitchen.path().join("weeks/week.toml"), &text).expect("a week");
        let list = list_on(&kitchen, "2026-12-01", &[]);
        assert_eq!((&list["short"], draws(&list, "mash").len()), (&json!([]), 1), "{called}");
        assert!(list["warnings"].to_string().contains("First, Mon 30 Nov 18:30, is booked"), "{}", list["warnings"]);
    }
}

#[test]
fn booked_meals_stay_booked_where_supper_is_at_another_hour_by_now() {
    let kitchen = monday_is_eaten();
    let household = kitchen.text("kitchen.toml");
    std::fs::write(
        kitchen.path().join("kitchen.toml"),
        household.replacen("[household]\n", "[household]\nmealtimes = { supper = \"19:00\" }\n", 1),
    )
    .expect("a household");
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!((&list["short"], draws(&list, "mash").len()), (&json!([]), 1));
    assert_eq!(list["warnings"], json!([]));
}

#[test]
fn a_booked_meal_that_is_renamed_takes_nothing_of_an_unprinted_trip_back() {
    // 150 g at home; Monday's 100 g are booked, Wednesday's 100 g want 50 g more, which Saturday's trip is taken to have bought.
    let meals = supper("2026-11-30", "\"100 g bluegrain\"").replace("each =", "name = \"Plates\"\neach =")
        + &supper("2026-12-02", "\"100 g bluegrain\"");
    let lot = "[[lot]]\nfood = \"bluegrain\"\namount = \"150 g\"\nplace = \"cupboard\"\n";
    let kitchen = at_home(lot, &week("2026-11-28", "2026-11-29", &meals));
    kitchen.done_on("2026-11-30", &["issue", "--meal", "mon supper"]);
    let bought = |kitchen: &Kitchen| {
        let list = list_on(kitchen, "2026-12-01", &[]);
        (list["trips"].as_array().map(Vec::len), list["trips"][0]["cost"].clone())
    };
    assert_eq!(bought(&kitchen), (Some(1), json!("1.00")));
    let renamed = kitchen.text("weeks/week.toml").replace("Plates", "Cold plates");
    std::fs::write(kitchen.path().join("weeks/week.toml"), renamed).expect("a week");
    assert_eq!(bought(&kitchen), (Some(1), json!("1.00")));
}

/// Without a print, or with one: a trip on Saturday for Monday's mash, its day then changed to another.
fn moved_to(kitchen: Kitchen, day: &str) -> Kitchen {
    let week = kitchen.text("weeks/week.toml").replace("on = 2026-11-28", &format!("on = {day}"));
    kitchen.file("weeks/week.toml", &week)
}

fn two_mashes() -> Kitchen {
    let meals = supper("2026-11-30", "\"2 portions recipe:mash\"") + &supper("2026-12-01", "\"2 portions recipe:mash\"");
    at_home("", &week("2026-11-28", "2026-11-29", &meals))
}

#[test]
fn a_booked_trip_whose_day_is_changed_is_done_all_the_same_and_told() {
    for (day, said_day) in [("2026-11-27", "Fri 27 Nov"), ("2026-11-29", "Sun 29 Nov")] {
        for print in [false, true] {
            let kitchen = two_mashes();
            if print {
                kitchen.done_on("2026-11-27", &["print", "--only", "list"]);
            }
            kitchen.done_on("2026-11-28", &["receive"]);
            let kitchen = moved_to(kitchen, day);
            let list = list_on(&kitchen, "2026-11-29", &[]);
            let trips = list["trips"].as_array().expect("trips");
            assert_eq!((trips.len(), trip(&list, 0)), (1, (Some("done"), Some("4.00"))), "{day} {print} {list:#}");
            let warnings: Vec<&str> = list["warnings"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
            let told = format!(
                "weeks/week.toml:2:1: the trip of Sat 28 Nov is booked and was moved to {said_day}, which is done with it. If that is another, \
                 write a [[trip]] with on = 2026-11-28 into weeks/week.toml beside it."
            );
            assert_eq!(warnings, [told], "{day} {print}");
            assert_eq!(kitchen.run_on("2026-11-29", &["receive"]).status.code(), Some(2), "it is booked");
        }
    }
}

#[test]
fn a_trip_before_a_session_that_is_moved_moves_with_it() {
    // No trip is written: it is that of the day before the first session.
    let meals = supper("2026-12-01", "\"4 portions recipe:mash\"");
    let plain = |start: &str| format!("from = 2026-11-30\n[[session]]\nstart = \"{start}T14:00\"\npeople = [\"cook\"]\n{meals}");
    let kitchen = at_home("", &plain("2026-11-29"));
    kitchen.done_on("2026-11-28", &["receive"]);
    let kitchen = kitchen.file("weeks/week.toml", &plain("2026-11-30"));
    let list = list_on(&kitchen, "2026-11-28", &[]);
    assert_eq!((list["trips"].as_array().map(Vec::len), trip(&list, 0)), (Some(1), (Some("done"), Some("4.00"))), "{list:#}");
}

#[test]
fn a_trip_that_stood_beside_the_booked_one_is_another() {
    // Saturday is booked and taken out of the file; Wednesday stood there all along, and is still to be made.
    let meals = supper("2026-11-30", "\"4 portions recipe:mash\"") + &supper("2026-12-03", "\"100 g bluegrain\"");
    let both = week("2026-11-28", "2026-11-29", &meals).replace("[[session]]", "[[trip]]\non = 2026-11-30\n[[session]]");
    let kitchen = at_home("", &both);
    kitchen.done_on("2026-11-28", &["receive"]);
    let kitchen = kitchen.file("weeks/week.toml", &both.replacen("[[trip]]\non = 2026-11-28\n", "", 1));
    let list = list_on(&kitchen, "2026-11-28", &[]);
    assert_eq!(trip(&list, 0).0, Some("open"), "{list:#}");
}

#[test]
fn a_trip_that_is_printed_and_then_moved_is_booked_as_printed_at_its_new_day() {
    let kitchen = two_mashes();
    kitchen.done_on("2026-11-27", &["print", "--only", "list"]);
    let kitchen = moved_to(kitchen, "2026-11-29");
    let said = kitchen.done_on("2026-11-29", &["receive"]);
    assert!(said.contains("bought Sun 29 Nov: 1 lot"), "{said}");
    let list = list_on(&kitchen, "2026-11-29", &[]);
    assert_eq!((list["trips"].as_array().map(Vec::len), trip(&list, 0)), (Some(1), (Some("done"), Some("4.00"))));

    // The sheet that was copied from the old list books it, too; and of two lines the other stays open.
    let kitchen = two_mashes();
    kitchen.done_on("2026-11-27", &["print", "--only", "list"]);
    kitchen.done_on("2026-11-27", &["receive", "--sheet", &kitchen.path().join("goods.toml").display().to_string()]);
    let kitchen = moved_to(kitchen, "2026-11-29");
    let said = kitchen.done_on("2026-11-29", &["receive", &kitchen.path().join("goods.toml").display().to_string()]);
    assert!(said.contains("bought Sun 29 Nov: 1 lot"), "{said}");
    assert_eq!(trip(&list_on(&kitchen, "2026-11-29", &[]), 0), (Some("done"), Some("4.00")));
}

#[test]
fn a_trip_that_is_past_and_was_moved_since_its_print_was_done_as_it_was_printed() {
    // Printed for 4 portions; on Monday 2 guests more come, which the print did not know.
    let kitchen = two_mashes();
    kitchen.done_on("2026-11-27", &["print"]);
    let kitchen = moved_to(kitchen, "2026-11-27");
    let list = list_on(&kitchen, "2026-11-30", &[]);
    assert_eq!(trip(&list, 0), (Some("taken as done"), Some("4.00")));
    let said = list["warnings"][0].as_str().unwrap_or_default().to_owned();
    assert!(said.contains("taken as done: the trip of Fri 27 Nov") && !said.contains("Not printed"), "{said}");
}

#[test]
fn what_is_taken_as_done_says_what_of_it_stands_on_no_print() {
    let warned = |kitchen: &Kitchen| list_on(kitchen, "2026-11-30", &[])["warnings"][0].as_str().unwrap_or_default().to_owned();
    let kitchen = two_mashes();
    let both = "Not printed, and so taken as the week stands now: the trip of Sat 28 Nov, the session of Sun 29 Nov 14:00. To book:";
    assert!(warned(&kitchen).contains(both), "{}", warned(&kitchen));
    kitchen.done_on("2026-11-28", &["receive"]);
    assert!(warned(&kitchen).contains("Not printed, and so taken as the week stands now: the session of Sun 29 Nov 14:00. To book:"));
}

#[test]
fn a_booked_meal_that_is_at_a_clock_time_by_now_is_not_eaten_again() {
    let kitchen = monday_is_eaten();
    let text = kitchen.text("weeks/week.toml").replace("name = \"First\"\n", "").replacen("at = \"supper\"", "at = \"19:00\"", 1);
    std::fs::write(kitchen.path().join("weeks/week.toml"), &text).expect("a week");
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!((&list["short"], draws(&list, "mash").len()), (&json!([]), 1));
    assert!(list["warnings"].to_string().contains("First, Mon 30 Nov 18:30, is booked"), "{}", list["warnings"]);
}
