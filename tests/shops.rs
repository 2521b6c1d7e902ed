//! Which shop buys what, what a visit costs, and foods without a price.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, assert_amount, kitchen, line, packs, shop_of, sizes, supper};

fn shop(name: &str, trip: &str) -> String {
    format!("[[shop]]\nname = \"{name}\"\ntrip = \"{trip}\"\n")
}

fn sells(shop: &str, food: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"{shop}\"\nfood = \"{food}\"\nsize = \"100 g\"\nprice = {price}\n")
}

fn two_shops(shops: &str, foods: &[&str]) -> Kitchen {
    let known: String = foods.iter().map(|food| format!("[[food]]\nname = \"{food}\"\n")).collect();
    let each: Vec<String> = foods.iter().map(|food| format!("\"100 g {food}\"")).collect();
    kitchen().foods(&known).shops(shops).meals(&supper("2026-11-30", &each.join(", ")))
}

#[test]
fn a_second_shop_is_visited_only_where_it_saves_more_than_its_trip() {
    // 1.00 here against 0.60 + 0.50 there: here. With two foods 2.00 against 1.20 + 0.50: there.
    let shops = shop("Near", "0.00")
        + &shop("Far", "0.50")
        + &sells("Near", "bluegrain", "1.00")
        + &sells("Far", "bluegrain", "0.60")
        + &sells("Near", "moonroot", "1.00")
        + &sells("Far", "moonroot", "0.60");
    let one = two_shops(&shops, &["bluegrain"]).list();
    assert_eq!((shop_of(&one, "bluegrain"), one["cost"].as_str()), (json!("Near"), Some("1.00")));
    let two = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    assert_eq!((shop_of(&two, "bluegrain"), shop_of(&two, "moonroot")), (json!("Far"), json!("Far")));
    let visit = &two["trips"][0]["shops"][0];
    assert_eq!((visit["trip_cost"].as_str(), visit["cost"].as_str()), (Some("0.50"), Some("1.70")));
    assert_eq!((two["trips"][0]["cost"].as_str(), two["cost"].as_str()), (Some("1.70"), Some("1.70")));
}

#[test]
fn of_equal_costs_the_fewest_shops_are_visited() {
    // Bluegrain is 1.00 in both; moonroot only at Second: one shop will do.
    let shops = shop("First", "0.00")
        + &shop("Second", "0.00")
        + &sells("First", "bluegrain", "1.00")
        + &sells("Second", "bluegrain", "1.00")
        + &sells("Second", "moonroot", "1.00");
    let list = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    assert_eq!((shop_of(&list, "bluegrain"), shop_of(&list, "moonroot")), (json!("Second"), json!("Second")));
}

#[test]
fn of_equal_shops_the_first_in_the_file_is_visited() {
    let shops =
        shop("First", "0.00") + &shop("Second", "0.00") + &sells("Second", "bluegrain", "1.00") + &sells("First", "bluegrain", "1.00");
    assert_eq!(shop_of(&two_shops(&shops, &["bluegrain"]).list(), "bluegrain"), "First");
}

#[test]
fn one_food_is_bought_in_one_shop_a_trip() {
    // 300 g of packs of 200 g at 1.00 in Near and of 100 g at 0.60 in Far: one of each would be 1.60, Near alone 2.00, Far alone 1.80.
    let shops = shop("Near", "0.00")
        + &shop("Far", "0.00")
        + &sells("Near", "bluegrain", "1.00").replace("100 g", "200 g")
        + &sells("Far", "bluegrain", "0.60");
    let list = two_shops(&shops, &["bluegrain"]).meals(&supper("2026-11-30", "\"300 g bluegrain\"")).list();
    let line = line(&list, "bluegrain");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("100 g", 3)]), Some("1.80")));
}

#[test]
fn a_trip_goes_only_to_its_shops() {
    let shops =
        shop("First", "0.00") + &shop("Second", "0.00") + &sells("First", "bluegrain", "0.50") + &sells("Second", "bluegrain", "1.00");
    let week =
        format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Second\"]\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    assert_eq!(shop_of(&two_shops(&shops, &["bluegrain"]).week(&week).list(), "bluegrain"), "Second");
}

#[test]
fn a_food_with_unpriced_packs_alone_is_listed_with_its_plain_need_under_no_shop() {
    let shops =
        shop("First", "0.00") + &sells("First", "bluegrain", "1.00").replace("price = 1.00\n", "") + &sells("First", "moonroot", "1.00");
    let list = two_shops(&shops, &["bluegrain", "moonroot"]).list();
    let line = line(&list, "bluegrain");
    assert_amount(&line["need"], 100.0, "g");
    assert_eq!((line["packs"].clone(), line["cost"].clone()), (json!([]), Value::Null));
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
    assert!(list["no_price"].as_array().is_some_and(|foods| foods.contains(&json!("bluegrain"))));
    // It never blocks the rest.
    assert_eq!(list["cost"], "1.00");
    // Shop null stands last, with no costs.
    let visits = list["trips"][0]["shops"].as_array().expect("a list");
    assert_eq!((visits[0]["shop"].as_str(), visits[1]["shop"].clone()), (Some("First"), Value::Null));
    assert_eq!((visits[1]["cost"].clone(), visits[1]["trip_cost"].clone()), (Value::Null, Value::Null));
}

#[test]
fn an_unpriced_pack_is_ignored_where_a_priced_one_is_there() {
    let shops = shop("First", "0.00")
        + &sells("First", "bluegrain", "1.00").replace("price = 1.00\n", "").replace("100 g", "300 g")
        + &sells("First", "bluegrain", "1.00");
    let line = line(&two_shops(&shops, &["bluegrain"]).meals(&supper("2026-11-30", "\"300 g bluegrain\"")).list(), "bluegrain");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("100 g", 3)]), Some("3.00")));
}

#[test]
fn sections_stand_in_walking_order_and_a_pack_may_name_its_own() {
    let shops = "[[shop]]\nname = \"First\"\nsections = [\"Cellar\", \"Attic\"]\n".to_owned()
        + &sells("First", "bluegrain", "1.00")
        + "section = \"Attic\"\n"
        + &sells("First", "moonroot", "1.00");
    let kitchen = two_shops(&shops, &["bluegrain", "moonroot"])
        .foods("[[food]]\nname = \"bluegrain\"\nsection = \"Cellar\"\n[[food]]\nname = \"moonroot\"\nsection = \"Cellar\"\n");
    let list = kitchen.list();
    let sections = list["trips"][0]["shops"][0]["sections"].as_array().expect("a list");
    let names: Vec<(&str, &str)> = sections
        .iter()
        .map(|section| (section["section"].as_str().unwrap_or("?"), section["lines"][0]["food"].as_str().unwrap_or("?")))
        .collect();
    assert_eq!(names, [("Cellar", "moonroot"), ("Attic", "bluegrain")]);
}

#[test]
fn money_is_read_from_its_digits() {
    // 0.1 + 0.2 as binary fractions would be 0.30000000000000004.
    let shops = shop("First", "0.00") + &sells("First", "bluegrain", "0.10") + &sells("First", "moonroot", "0.20");
    assert_eq!(two_shops(&shops, &["bluegrain", "moonroot"]).list()["cost"], "0.30");
}

#[test]
fn between_shops_money_counts_whatever_is_chosen_within_one() {
    // Least left would be 400 g at 3.00 in Near; 500 g at 1.00 in Far is cheaper.
    let shops = shop("Near", "0.00")
        + &shop("Far", "0.00")
        + &sells("Near", "bluegrain", "3.00").replace("100 g", "400 g")
        + &sells("Far", "bluegrain", "1.00").replace("100 g", "500 g");
    let list =
        two_shops(&shops, &["bluegrain"]).rules("choose = \"least-left\"").meals(&supper("2026-11-30", "\"350 g bluegrain\"")).list();
    assert_eq!(shop_of(&list, "bluegrain"), "Far");
}

#[test]
fn of_two_visited_shops_at_one_price_the_one_that_leaves_less_is_taken() {
    // Both are visited for what only they sell; bluegrain is 1.00 in both, 500 g here and 400 g there, for 350 g.
    let shops = shop("First", "0.00")
        + &shop("Second", "0.00")
        + &sells("First", "moonroot", "1.00")
        + &sells("Second", "starroot", "1.00")
        + &sells("First", "bluegrain", "1.00").replace("100 g", "500 g")
        + &sells("Second", "bluegrain", "1.00").replace("100 g", "400 g");
    let kitchen = two_shops(&shops, &["bluegrain", "moonroot", "starroot"])
        .meals(&supper("2026-11-30", "\"350 g bluegrain\", \"100 g moonroot\", \"100 g starroot\""));
    assert_eq!(shop_of(&kitchen.list(), "bluegrain"), "Second");
}

#[test]
fn a_food_sold_only_where_the_trip_does_not_go_stands_under_no_shop() {
    let shops = shop("First", "0.00") + &shop("Second", "0.00") + &sells("First", "bluegrain", "0.50");
    let week =
        format!("from = 2026-11-30\n[[trip]]\non = 2026-11-28\nshops = [\"Second\"]\n{}", supper("2026-11-30", "\"100 g bluegrain\""));
    let list = two_shops(&shops, &["bluegrain"]).week(&week).list();
    assert_eq!(shop_of(&list, "bluegrain"), Value::Null);
    assert_eq!((line(&list, "bluegrain")["packs"].clone(), list["cost"].as_str()), (json!([]), Some("0.00")));
}

#[test]
fn a_currency_without_a_minor_unit_has_no_decimals() {
    // 70 g at 150 yen a kilogram are 10.5, rounded half up to 11.
    let household = "[household]\nname = \"Test row\"\neaters = 1\ncurrency = \"JPY\"\n";
    let shops = "[[shop]]\nname = \"First\"\n[[pack]]\nshop = \"First\"\nfood = \"bluegrain\"\nloose = true\nprice = \"150 / kg\"\n";
    let list = two_shops(shops, &["bluegrain"]).file("kitchen.toml", household).meals(&supper("2026-11-30", "\"70 g bluegrain\"")).list();
    assert_eq!((list["cost"].as_str(), list["currency"].as_str()), (Some("11"), Some("JPY")));
}
