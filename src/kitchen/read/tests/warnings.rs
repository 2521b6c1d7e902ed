use super::*;
use pretty_assertions::assert_eq;

#[test]
fn an_unknown_food_keeps_its_name_and_is_warned_of() {
    let recipe = "name = \"Dish\"\nmakes = \"2 portions\"\ningredients = \"200 g gnomeberries\"\n";
    let said = warnings(&[("recipes/dish.toml", recipe)]);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].starts_with("recipes/dish.toml:3:16: \"gnomeberr"), "{said:?}");
}

/// `kind` of an invented food, so that the reference's own words do not matter.
fn cooked(kind: &str, head: &str, lines: &str) -> Vec<String> {
    let foods = format!("[[food]]\nname = \"gnome thigh\"\nkind = \"{kind}\"\n");
    let recipe = format!(
        "name = \"Braise\"\nmakes = \"2 portions\"\n{head}\ningredients = \"500 g gnome thigh\"\n[[step]]\ntext = \"Braise {{gnome thigh}}.\"\n{lines}\n"
    );
    warnings(&[("foods.toml", &foods), ("recipes/braise.toml", &recipe)])
}

#[test]
fn cooked_meat_that_claims_more_than_four_days_is_warned_of() {
    let said = cooked("raw meat", "keeps = { fridge = \"5 days\" }", "inside = \"63 °C\"");
    assert_eq!(
        said,
        [
            "recipes/braise.toml:1:1: \"Braise\" claims 5 days in the fridge, but cooked meat (gnome thigh) keeps 3 to 4 days there (USDA FSIS). Local \
          rules come first."
        ]
    );
    assert_eq!(cooked("raw meat", "keeps = { fridge = \"4 days\" }", "inside = \"63 °C\""), Vec::<String>::new());
}

// USDA FSIS, "Safe Minimum Internal Temperature Chart", from memory: 165, 160, 145, 145, 160 °F.
#[test]
fn raw_food_that_no_step_heats_through_is_warned_of() {
    for (kind, fahrenheit) in [("raw poultry", 165), ("raw minced meat", 160), ("raw meat", 145), ("raw fish", 145), ("raw egg", 160)] {
        assert_eq!(cooked(kind, "", &format!("inside = \"{fahrenheit} F\"")), Vec::<String>::new(), "{kind}");
        let said = cooked(kind, "", &format!("inside = \"{} F\"", fahrenheit - 3));
        assert!(said.len() == 1 && said[0].contains("no step of \"Braise\" reaches"), "{kind}: {said:?}");
        assert_eq!(cooked(kind, "", "").len(), 1);
    }
}

#[test]
fn a_hot_appliance_without_a_temperature_is_warned_of() {
    let said = warnings(&[("recipes/dish.toml", &step("on = \"oven\""))]);
    assert_eq!(said, ["recipes/dish.toml:3:1: this step uses the oven without a temperature. Add temperature = \"180 °C\"."]);
}

#[test]
fn some_and_a_few_are_noted_and_kept() {
    let recipe = "name = \"Dish\"\nmakes = \"2 portions\"\ningredients = \"a few sprigs rosemary\"\n";
    let loaded = loaded(&[("recipes/dish.toml", recipe)]);
    assert_eq!(loaded.kitchen.recipes[0].ingredients.len(), 1);
    let said: Vec<String> = loaded.warnings.iter().map(|warning| warning.to_string()).collect();
    let wanted = "recipes/dish.toml:3:16: how much \"a few sprigs rosemary\" is cannot be reckoned: it is listed to taste, in its own \
                  words. Write a number to have it bought by amount.";
    assert_eq!(said, [wanted]);
}

#[test]
fn what_counts_only_for_one_shared_temperature_is_warned_of_elsewhere() {
    let said = |key: &str| warnings(&[("kitchen.toml", &format!("{HOUSEHOLD}\n[[appliance]]\nname = \"big pan\"\n{key}\n"))]);
    for (key, line) in [("warm_up", "warm_up = \"5 min\""), ("near", "near = \"5 °C\"")] {
        let said = said(line);
        let counts = format!("{key} counts only for an appliance with heat = true.");
        assert!(said.len() == 1 && said[0].ends_with(&counts), "{said:?}");
    }
}

#[test]
fn a_trip_after_the_last_meal_is_told_to_come_too_late() {
    let week = "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[trip]]\non = 2026-12-05\n[[meal]]\non = 2026-12-03\nat = \"supper\"\neach = [\"100 g carrots\"]\n";
    let said = warnings(&[("weeks/one.toml", week)]);
    let late = "this trip on 2026-12-05 comes after the last meal, on 2026-12-03: what it buys comes too late for all of them.";
    assert_eq!(said, [format!("weeks/one.toml:4:1: {late}")]);
}
