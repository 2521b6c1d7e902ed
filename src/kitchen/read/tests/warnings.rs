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
