//! Components: recipes that go into other recipes, and where they are made.

use pretty_assertions::assert_eq;

use crate::kitchen::{Kitchen, TWO_SESSIONS, assert_amount, batches, draws, kitchen, line, supper};

const SAUCE: &str = "name = \"Star sauce\"\nmakes = \"200 g\"\nkeeps = { fridge = \"FRIDGE\" }\ningredients = \"\"\"\n40 g starroot\n\"\"\"\n[[step]]\ntext = \"Stir {starroot}.\"\nhands = \"5 min\"\n";

/// A dish that takes 100 g of the sauce a batch of one portion and keeps one day.
fn dish(name: &str) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"1 portion\"\nkeeps = {{ fridge = \"1 day\" }}\ningredients = \"\"\"\n100 g recipe:sauce\n\"\"\"\n[[step]]\ntext = \"Warm it.\"\nhands = \"5 min\"\n"
    )
}

fn with_sauce(fridge: &str, meals: &str) -> Kitchen {
    kitchen()
        .foods("[[food]]\nname = \"starroot\"\n")
        .recipe("sauce", &SAUCE.replace("FRIDGE", fridge))
        .recipe("first-dish", &dish("First dish"))
        .recipe("second-dish", &dish("Second dish"))
        .week(&format!("{TWO_SESSIONS}{meals}"))
}

fn both_dishes() -> String {
    supper("2026-11-30", "\"1 portion recipe:first-dish\"") + &supper("2026-12-03", "\"1 portion recipe:second-dish\"")
}

#[test]
fn a_component_is_made_in_the_session_that_uses_it() {
    // Each dish takes 100 of 200 g: half a batch in either session, because Sunday's keeps to Tuesday only.
    let prep = with_sauce("2 days", &both_dishes()).prep();
    assert_eq!((batches(&prep, 0, "sauce"), batches(&prep, 1, "sauce")), (0.5, 0.5));
}

#[test]
fn a_component_serves_a_later_session_within_its_fridge_days() {
    // Sunday + 3 days = Wednesday: 200 g at once, one batch.
    let kitchen = with_sauce("3 days", &both_dishes());
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "sauce"), batches(&prep, 1, "sauce")), (1.0, 0.0));
    assert_amount(&line(&kitchen.list(), "starroot")["need"], 40.0, "g");
}

#[test]
fn a_component_eaten_by_itself_is_one_making_with_the_dishes_part() {
    // 100 g in the dish and 100 g on Tuesday's table: one batch.
    let meals = supper("2026-11-30", "\"1 portion recipe:first-dish\"") + &supper("2026-12-01", "\"100 g recipe:sauce\"");
    assert_eq!(batches(&with_sauce("3 days", &meals).prep(), 0, "sauce"), 1.0);
}

#[test]
fn a_component_grows_with_the_dishs_rounded_batches() {
    // 1.25 portions of a dish for 1, in halves: 1.5 batches take 150 g of sauce, which is 0.75 batch, up to 1.
    let prep = with_sauce("3 days", &supper("2026-11-30", "\"1.25 portions recipe:first-dish\"")).prep();
    assert_eq!((batches(&prep, 0, "first-dish"), batches(&prep, 0, "sauce")), (1.5, 1.0));
}

#[test]
fn components_of_a_dish_made_at_the_meal_are_used_at_the_meals_time() {
    // Sauce from Wednesday's session is too late for Wednesday's supper, so it is made on Sunday and keeps 3 days.
    let fresh = dish("Fresh dish").replace("keeps", "made = \"at the meal\"\nkeeps");
    let kitchen = with_sauce("3 days", &supper("2026-12-02", "\"1 portion recipe:fresh\"")).recipe("fresh", &fresh);
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "sauce"), batches(&prep, 1, "sauce")), (0.5, 0.0));
}

#[test]
fn a_dish_made_at_the_meal_cannot_go_into_a_dish_of_a_session() {
    let fresh_sauce = SAUCE.replace("FRIDGE", "3 days").replace("makes", "made = \"at the meal\"\nmakes");
    let kitchen = with_sauce("3 days", &supper("2026-11-30", "\"1 portion recipe:first-dish\"")).recipe("sauce", &fresh_sauce);
    kitchen.refusal();
}

#[test]
fn a_component_of_a_dish_made_at_the_meal_may_come_out_of_the_freezer() {
    // Friday's dish takes the sauce of Wednesday, which keeps 1 day in the fridge: frozen, and moved on Thursday the 3rd.
    let fresh = dish("Fresh dish").replace("keeps", "made = \"at the meal\"\nkeeps");
    let sauce = SAUCE.replace("\"FRIDGE\"", "\"1 day\", freezer = \"1 month\"");
    let kitchen = with_sauce("1 day", &supper("2026-12-04", "\"1 portion recipe:fresh\"")).recipe("fresh", &fresh).recipe("sauce", &sauce);
    let prep = kitchen.prep();
    assert_eq!((batches(&prep, 0, "sauce"), batches(&prep, 1, "sauce")), (0.0, 0.5));
    let list = kitchen.list();
    assert_eq!(list["moves"].as_array().map(Vec::len), Some(1));
    assert_eq!(list["moves"][0]["at"], "2026-12-03");
}

#[test]
fn a_cooked_component_at_home_serves_before_one_is_made() {
    // The dish takes 100 g, of which 60 g are in the fridge: 40 of 200 g are made, to the half: 100 g, so 60 g are spare.
    let kitchen = with_sauce("3 days", &supper("2026-11-30", "\"1 portion recipe:first-dish\""))
        .pantry("[[lot]]\nrecipe = \"sauce\"\namount = \"60 g\"\nplace = \"fridge\"\nmade = 2026-11-28\n");
    let list = kitchen.list();
    assert_eq!(draws(&list, "sauce"), [("2026-11-29".to_owned(), "fridge".to_owned(), 60.0)]);
    assert_amount(&list["spare"][0]["amount"], 60.0, "g");
}

#[test]
fn a_cooked_component_at_home_is_fetched_and_booked_once() {
    // The dish takes 100 g of the 150 g in the fridge; 50 g stay.
    let kitchen = with_sauce("3 days", &supper("2026-11-30", "\"1 portion recipe:first-dish\""))
        .pantry("[[lot]]\nrecipe = \"sauce\"\namount = \"150 g\"\nplace = \"fridge\"\nmade = 2026-11-28\n");
    let fetch = kitchen.prep()["sessions"][0]["fetch"].clone();
    assert_eq!((&fetch[0]["recipe"], &fetch[0]["amount"]["amount"]), (&serde_json::json!("sauce"), &serde_json::json!(100.0)));
    kitchen.done_on("2026-11-29", &["issue"]);
    assert!(kitchen.text("pantry.toml").contains("amount = \"50 g\""), "{}", kitchen.text("pantry.toml"));
}
