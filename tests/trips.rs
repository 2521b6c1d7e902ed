//! Which trip buys what, flags, what is past, and which week is meant.

use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, assert_amount, json, kitchen, line, line_with_trip, lines, shop_of, stderr, supper};

/// Trips on Saturday 28 November and Wednesday 2 December.
const TWO_TRIPS: &str = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-02\n";

/// A last meal of another food, so that every trip has a meal after it.
fn last_meal() -> String {
    supper("2026-12-06", "\"1 g moonroot\"")
}

const STALL_AND_CORNER: &str = "[[shop]]\nname = \"Stall\"\n[[shop]]\nname = \"Corner\"\n";

fn food(keeps: &str) -> String {
    format!("[[food]]\nname = \"bluegrain\"\nkeeps = {{ {keeps} }}\n[[food]]\nname = \"moonroot\"\n")
}

fn pack(shop: &str) -> String {
    format!("[[pack]]\nshop = \"{shop}\"\nfood = \"bluegrain\"\nsize = \"100 g\"\nprice = 1.00\n")
}

fn two_trips(keeps: &str, day: &str) -> Kitchen {
    kitchen().foods(&food(keeps)).week(&format!("{TWO_TRIPS}{}{}", supper(day, "\"100 g bluegrain\""), last_meal()))
}

#[track_caller]
fn bought_on(kitchen: &Kitchen, expected: &str, flagged: bool) -> Value {
    let list = kitchen.list();
    assert_eq!(line_with_trip(&list, "bluegrain").0, expected);
    let flags = list["flags"].as_array().expect("a list").iter().filter(|flag| flag["food"] == "bluegrain").count();
    assert_eq!(flags > 0, flagged, "{:#}", list["flags"]);
    list
}

#[test]
fn without_any_trip_there_is_one_on_the_day_before_the_first_session_or_meal() {
    let meal = kitchen().foods(&food("")).week(&format!("from = 2026-11-30\n{}", supper("2026-12-01", "\"100 g bluegrain\"")));
    bought_on(&meal, "2026-11-30", false);
    let session = kitchen().foods(&food("")).week(&format!(
        "from = 2026-11-30\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{}",
        supper("2026-12-01", "\"100 g bluegrain\"")
    ));
    bought_on(&session, "2026-11-28", false);
}

#[test]
fn a_food_is_bought_on_the_earliest_trip_from_which_it_keeps() {
    // Bought on the 28th and keeping 3 days it may be eaten until 1 December; on the 3rd it is of Wednesday's trip.
    bought_on(&two_trips("fridge = \"3 days\"", "2026-12-01"), "2026-11-28", false);
    bought_on(&two_trips("fridge = \"3 days\"", "2026-12-03"), "2026-12-02", false);
}

#[test]
fn a_trip_comes_before_the_meals_of_its_own_date() {
    bought_on(&two_trips("fridge = \"0 days\"", "2026-12-02"), "2026-12-02", false);
}

#[test]
fn the_longer_of_cupboard_and_fridge_counts() {
    // 28 November + 5 days = 3 December.
    bought_on(&two_trips("cupboard = \"5 days\", fridge = \"2 days\"", "2026-12-03"), "2026-11-28", false);
    bought_on(&two_trips("cupboard = \"2 days\", fridge = \"5 days\"", "2026-12-03"), "2026-11-28", false);
}

#[test]
fn a_food_whose_keeping_is_not_known_keeps_for_ever() {
    bought_on(&two_trips("", "2026-12-03"), "2026-11-28", false);
}

#[test]
fn a_food_that_keeps_in_the_freezer_alone_keeps_for_ever() {
    bought_on(&two_trips("freezer = \"1 day\"", "2026-12-03"), "2026-11-28", false);
}

#[test]
fn a_trip_whose_shops_do_not_sell_the_food_is_passed_over() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Corner\"]\n[[trip]]\non = 2026-12-02\nshops = [\"Stall\"]\n"
        .to_owned()
        + &supper("2026-12-03", "\"100 g bluegrain\"");
    let kitchen = kitchen().foods(&food("fridge = \"9 days\"")).shops(&(STALL_AND_CORNER.to_owned() + &pack("Stall"))).week(&week);
    let list = bought_on(&kitchen, "2026-12-02", false);
    assert_eq!(shop_of(&list, "bluegrain"), "Stall");
}

#[test]
fn where_no_trip_keeps_it_the_latest_before_its_day_buys_it_and_both_figures_are_said() {
    // Latest trip on or before Saturday 5 December: the 2nd, 3 days before; it keeps 1 day.
    let list = bought_on(&two_trips("fridge = \"1 day\"", "2026-12-05"), "2026-12-02", true);
    let text = list["flags"][0]["text"].as_str().unwrap_or_default();
    assert!(text.contains("3 days") && text.contains("1 day"), "{text}");
}

#[test]
fn of_trips_that_do_not_keep_it_only_those_that_sell_it_count() {
    // Keeps 1 day, wanted on the 3rd: Wednesday would keep it but sells none; Saturday's sells it, 5 days before.
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Stall\"]\n[[trip]]\non = 2026-12-02\nshops = [\"Corner\"]\n"
        .to_owned()
        + &supper("2026-12-03", "\"100 g bluegrain\"");
    let kitchen = kitchen().foods(&food("fridge = \"1 day\"")).shops(&(STALL_AND_CORNER.to_owned() + &pack("Stall"))).week(&week);
    let list = bought_on(&kitchen, "2026-11-28", true);
    let text = list["flags"][0]["text"].as_str().unwrap_or_default();
    assert!(text.contains("5 days") && text.contains("1 day"), "{text}");
}

#[test]
fn where_nobody_sells_it_the_rule_is_applied_without_selling() {
    // Both trips go to shops that sell something else: by its 3 days it is of Wednesday's trip, under no shop.
    let kitchen = two_trips("fridge = \"3 days\"", "2026-12-03").shops(STALL_AND_CORNER);
    let list = bought_on(&kitchen, "2026-12-02", false);
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
}

#[test]
fn what_is_wanted_before_any_trip_is_of_the_first_and_flagged() {
    // A meal on Friday 27 November, the day before the first trip; the week is kept open by a session that day.
    let week = format!(
        "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-27T10:00\npeople = [\"cook\"]\n{}{}",
        supper("2026-11-27", "\"100 g bluegrain\""),
        last_meal()
    );
    bought_on(&kitchen().foods(&food("fridge = \"3 days\"")).week(&week), "2026-11-28", true);
}

#[test]
fn a_pack_without_a_price_counts_as_sold() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Corner\"]\n[[trip]]\non = 2026-12-02\nshops = [\"Stall\"]\n"
        .to_owned()
        + &supper("2026-12-03", "\"100 g bluegrain\"");
    let shops = STALL_AND_CORNER.to_owned() + &pack("Stall").replace("price = 1.00\n", "");
    bought_on(&kitchen().foods(&food("")).shops(&shops).week(&week), "2026-12-02", false);
}

#[test]
fn what_the_pantry_serves_is_not_bought_on_any_trip() {
    // 150 at home: the first meal's 100 and half of the second's; of Wednesday's trip 50 are left to buy.
    let meals = supper("2026-11-30", "\"100 g bluegrain\"") + &supper("2026-12-03", "\"100 g bluegrain\"");
    let list = kitchen()
        .foods(&food("fridge = \"3 days\""))
        .pantry("[[lot]]\nfood = \"bluegrain\"\namount = \"150 g\"\nplace = \"cupboard\"\n")
        .week(&format!("{TWO_TRIPS}{meals}"))
        .list();
    let (on, bought) = line_with_trip(&list, "bluegrain");
    assert_eq!(on, "2026-12-02");
    assert_amount(&bought["need"], 50.0, "g");
}

#[test]
fn every_trip_is_listed_and_shops_only_where_something_is_bought() {
    let week = format!("{TWO_TRIPS}{}", supper("2026-12-03", "\"100 g bluegrain\""));
    let shops = STALL_AND_CORNER.to_owned() + &pack("Stall");
    let list = kitchen().foods(&food("fridge = \"3 days\"")).shops(&shops).week(&week).list();
    let trips = list["trips"].as_array().expect("a list");
    assert_eq!(trips.len(), 2);
    assert_eq!(
        (trips[0]["on"].as_str(), trips[0]["shops"].as_array().map(Vec::len), trips[0]["cost"].as_str()),
        (Some("2026-11-28"), Some(0), Some("0.00"))
    );
    assert_eq!(trips[1]["shops"].as_array().map(Vec::len), Some(1));
    assert_eq!(trips[1]["shops"][0]["shop"], "Stall");
}

// What is past.

fn on_two_trips() -> Kitchen {
    let meals = supper("2026-11-29", "\"100 g bluegrain\"") + &supper("2026-12-03", "\"70 g bluegrain\"");
    kitchen().foods(&food("fridge = \"3 days\"")).week(&format!("{TWO_TRIPS}{meals}"))
}

#[test]
fn a_trip_before_today_is_taken_as_done_and_one_warning_says_so() {
    let kitchen = on_two_trips();
    let list = kitchen.list_on("2026-11-30");
    let trips: Vec<&Value> = list["trips"].as_array().expect("a list").iter().map(|trip| &trip["on"]).collect();
    assert_eq!(trips, ["2026-12-02"]);
    assert_amount(&line(&list, "bluegrain")["need"], 70.0, "g");
    assert_eq!(list["warnings"].as_array().map(Vec::len), Some(1));
}

#[test]
fn all_shows_every_trip() {
    let list = json(&on_two_trips().run_on("2026-11-30", &["--format", "json", "list", "--all"]));
    assert_eq!(list["trips"].as_array().map(Vec::len), Some(2));
    assert_eq!(lines(&list).len(), 2);
}

#[test]
fn a_trip_of_today_is_not_past() {
    let list = on_two_trips().list_on("2026-11-28");
    assert_eq!(list["trips"].as_array().map(Vec::len), Some(2));
    assert_eq!(list["warnings"].as_array().map(Vec::len), Some(0));
}

#[test]
fn a_week_wholly_past_has_no_open_trip() {
    let list = on_two_trips().list_on("2027-03-01");
    assert_eq!(list["trips"].as_array().map(Vec::len), Some(0));
}

// Which week.

fn week(name: &str, trip: &str, meal: &str) -> String {
    format!("name = \"{name}\"\nfrom = {trip}\n[[trip]]\non = {trip}\n{}", supper(meal, "\"100 g bluegrain\""))
}

/// One week of 28 November to 5 December, one of 12 to 19 December.
fn two_weeks() -> Kitchen {
    kitchen()
        .foods(&food(""))
        .week(&week("First", "2026-11-28", "2026-12-05"))
        .file("weeks/second.toml", &week("Second", "2026-12-12", "2026-12-19"))
}

#[test]
fn the_week_that_contains_today_or_the_next_or_the_latest_is_meant() {
    let kitchen = two_weeks();
    for (today, expected) in [
        ("2026-11-28", "First"),
        ("2026-12-05", "First"),
        ("2026-12-19", "Second"),
        ("2026-11-01", "First"),
        ("2026-12-08", "Second"),
        ("2027-01-01", "Second"),
    ] {
        assert_eq!(kitchen.list_on(today)["week"], expected, "{today}");
    }
}

#[test]
fn of_two_weeks_that_contain_today_the_one_whose_next_trip_comes_sooner_is_meant() {
    // On 3 December both run; First's trip is past, Second's next is on the 4th, Third's on the 6th.
    let trips = |name: &str, first: &str, next: &str| {
        format!(
            "name = \"{name}\"\nfrom = {first}\n[[trip]]\non = {first}\n[[trip]]\non = {next}\n{}",
            supper("2026-12-08", "\"100 g bluegrain\"")
        )
    };
    let kitchen = kitchen()
        .foods(&food(""))
        .week(&trips("Later", "2026-11-28", "2026-12-06"))
        .file("weeks/x.toml", &trips("Sooner", "2026-11-29", "2026-12-04"));
    assert_eq!(kitchen.list_on("2026-12-03")["week"], "Sooner");
}

#[test]
fn a_week_can_be_named() {
    let kitchen = two_weeks();
    let second = kitchen.path().join("weeks/second.toml");
    let list = json(&kitchen.run(&["--week", second.to_str().expect("UTF-8"), "--format", "json", "list"]));
    assert_eq!((list["week"].as_str(), list["from"].as_str()), (Some("Second"), Some("2026-12-12")));
}

#[test]
fn a_warning_goes_to_standard_error_and_changes_the_status_only_under_strict() {
    let kitchen = on_two_trips();
    let plain = kitchen.run_on("2026-11-30", &["--format", "json", "list"]);
    assert_eq!(plain.status.code(), Some(0));
    assert!(!stderr(&plain).is_empty());
    assert_eq!(kitchen.run_on("2026-11-30", &["--strict", "list"]).status.code(), Some(1));
}

#[test]
fn a_trip_comes_before_the_sessions_of_its_own_date() {
    // Trip and session on Sunday: what keeps 0 days is bought that day.
    let week = format!(
        "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-11-29\n[[session]]\nstart = 2026-11-29T09:00\npeople = [\"cook\"]\n{}",
        supper("2026-11-29", "\"1 portion recipe:stew\"")
    );
    let kitchen = kitchen()
        .foods(&food("fridge = \"0 days\""))
        .recipe("stew", "name = \"Moon stew\"\nmakes = \"1 portion\"\ningredients = [\"100 g bluegrain\"]\n[[step]]\ntext = \"Stir.\"\nhands = \"5 min\"\n")
        .week(&week);
    bought_on(&kitchen, "2026-11-29", false);
}
