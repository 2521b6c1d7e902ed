//! Finer rules of the list that only show when two of them meet: one tiny kitchen each.

mod kitchen;

use kitchen::{Kitchen, assert_amount, draws, kitchen, line, packs, sizes, supper};
use pretty_assertions::assert_eq;
use serde_json::{Value, json};

const BLUEGRAIN: &str = "[[food]]\nname = \"bluegrain\"\n";
const STALL: &str = "[[shop]]\nname = \"Stall\"\n";

fn pack(food: &str, size: &str, price: &str) -> String {
    format!("[[pack]]\nshop = \"Stall\"\nfood = \"{food}\"\nsize = \"{size}\"\nprice = {price}\n")
}

fn loose(price: &str, step: &str) -> String {
    format!("[[pack]]\nshop = \"Stall\"\nfood = \"bluegrain\"\nloose = true\nprice = \"{price}\"\nstep = \"{step}\"\n")
}

fn wants(amount: &str, shops: &str) -> Kitchen {
    kitchen().foods(BLUEGRAIN).shops(&format!("{STALL}{shops}")).meals(&supper("2026-11-30", &format!("\"{amount} bluegrain\"")))
}

/// Two lines of one supper in tins; packs of tinned bluegrain, each at 1.00 a 100 g so that price says how much was bought.
fn tins(lines: &str, shops: &str) -> Value {
    let kitchen = kitchen()
        .rules("short_by = \"0%\"")
        .foods("[[food]]\nname = \"tinned bluegrain\"\n")
        .shops(&format!("{STALL}{shops}"))
        .meals(&supper("2026-11-30", lines));
    line(&kitchen.list(), "tinned bluegrain")
}

#[test]
fn a_pack_counts_as_the_nearest_of_several_tins_that_lines_state() {
    // 400 + 800 g in tins: 390 counts as 400 and 780 as 800, nothing left; by weight a third pack would be needed.
    let line = tins(
        "\"1 tin (400 g) bluegrain\", \"1 tin (800 g) bluegrain\"",
        &(pack("tinned bluegrain", "390 g", "1.00") + &pack("tinned bluegrain", "780 g", "1.50")),
    );
    assert_amount(&line["need"], 1200.0, "g");
    assert_eq!((packs(&line), line["cost"].as_str()), (sizes(&[("780 g", 1), ("390 g", 1)]), Some("2.50")));
    assert_amount(&line["left"], 0.0, "g");
}

#[test]
fn a_tin_of_millilitres_is_held_against_packs_of_grams_by_the_foods_weight() {
    // A cup weighs 473.1765 g, so 1 ml is 2 g and the tin of 200 ml is one of 400 g; the pack of 390 g is within 10 % of it.
    let kitchen = kitchen()
        .rules("short_by = \"0%\"")
        .foods("[[food]]\nname = \"tinned bluegrain\"\ncup = \"473.176473 g\"\n")
        .shops(&format!("{STALL}{}", pack("tinned bluegrain", "390 g", "1.00")))
        .meals(&supper("2026-11-30", "\"1 tin (200 ml) bluegrain\""));
    assert_eq!(packs(&line(&kitchen.list(), "tinned bluegrain")), sizes(&[("390 g", 1)]));
}

#[test]
fn of_two_loose_prices_the_one_that_costs_less_for_the_need_is_taken() {
    // 1100 g: 1.10 by the gram, 1.20 in steps of 500 g at a lower price a kilogram. 1000 g: 1.00 and 0.80.
    let both = loose("1.00 / kg", "1 g") + &loose("0.80 / kg", "500 g");
    let fine = line(&wants("1100 g", &both).list(), "bluegrain");
    assert_eq!((packs(&fine), fine["cost"].as_str()), (sizes(&[("loose", 1)]), Some("1.10")));
    assert_amount(&fine["packs"][0]["amount"], 1100.0, "g");
    assert_eq!(line(&wants("1000 g", &both).list(), "bluegrain")["cost"], "0.80");
}

#[test]
fn pieces_left_of_several_windows_are_told_to_the_piece() {
    // Opened it keeps no day: a third of a piece on each of two days. 2/3 are rounded up to 1; two pieces are opened, 1 is left.
    let kitchen = kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\nkeeps = { opened = \"0 days\" }\n")
        .shops(&format!("{STALL}{}", pack("bluegrain", "1", "0.50")))
        .meals(&(supper("2026-11-30", "\"1/3 bluegrain\"") + &supper("2026-12-01", "\"1/3 bluegrain\"")));
    let line = line(&kitchen.list(), "bluegrain");
    assert_amount(&line["need"], 1.0, "each");
    assert_eq!(packs(&line), sizes(&[("1", 2)]));
    assert_eq!(line["left"], json!({"amount": 1.0, "unit": "each"}));
}

fn stew(makes: &str, more: &str) -> String {
    format!(
        "name = \"Stew\"\nmakes = \"{makes}\"\nbatches = \"any\"\n{more}ingredients = \"400 g bluegrain\"\n[[step]]\ntext = \"Stir.\"\n"
    )
}

#[test]
fn a_cooked_lot_that_cannot_be_compared_is_not_drawn_and_said() {
    // Nobody says what a portion weighs: 100 g of stew serve none of the 3 portions, and all 300 g of bluegrain are bought.
    let kitchen = kitchen()
        .foods(BLUEGRAIN)
        .recipe("stew", &stew("4 portions", "keeps = { fridge = \"3 days\" }\n"))
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"100 g\"\nplace = \"fridge\"\nmade = 2026-11-28\n")
        .meals(&supper("2026-11-30", "\"3 portions recipe:stew\""));
    let list = kitchen.list();
    assert_amount(&line(&list, "bluegrain")["need"], 300.0, "g");
    assert_eq!(draws(&list, "stew"), []);
    let warnings = list["warnings"].to_string();
    assert!(warnings.contains("pantry.toml:1") && warnings.contains("cannot be compared"), "{warnings}");
}

#[test]
fn at_one_time_the_dish_of_the_earlier_meal_is_served_from_the_shelf_first() {
    // Two suppers at one time want 2 portions of stew each, the first as part of a dish made at the meal; 2 portions are at home.
    // File order gives them to the first, and the second makes its own 2 portions: 200 g on the same day.
    let plate = "name = \"Plate\"\nmakes = \"1 portion\"\nmade = \"at the meal\"\ningredients = \"2 portions recipe:stew\"\n[[step]]\ntext = \"Serve.\"\n";
    let meal = |name: &str, each: &str| format!("{}name = \"{name}\"\n", supper("2026-11-30", each));
    let kitchen = kitchen()
        .foods(BLUEGRAIN)
        .recipe("stew", &stew("4 portions", "made = \"at the meal\"\n"))
        .recipe("plate", plate)
        .pantry("[[lot]]\nrecipe = \"stew\"\namount = \"2 portions\"\nplace = \"fridge\"\n")
        .meals(&(meal("First", "\"1 portion recipe:plate\"") + &meal("Second", "\"2 portions recipe:stew\"")));
    let drawn = kitchen.list()["from_pantry"].clone();
    assert_eq!(drawn[0]["for"], json!(["Plate"]), "{drawn}");
}
