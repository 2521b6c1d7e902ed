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

#[test]
fn a_booked_meal_that_is_at_a_clock_time_by_now_is_not_eaten_again() {
    let kitchen = monday_is_eaten();
    let text = kitchen.text("weeks/week.toml").replace("name = \"First\"\n", "").replacen("at = \"supper\"", "at = \"19:00\"", 1);
    std::fs::write(kitchen.path().join("weeks/week.toml"), &text).expect("a week");
    let list = list_on(&kitchen, "2026-12-01", &[]);
    assert_eq!((&list["short"], draws(&list, "mash").len()), (&json!([]), 1));
    assert!(list["warnings"].to_string().contains("First, Mon 30 Nov 18:30, is booked"), "{}", list["warnings"]);
}
