//! `recipe NAME`: the card, the reading of a method, the steps written in its place, the page.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use crate::kitchen::{Kitchen, OVEN_HOB_AND_COOKER, json as answer, kitchen, stderr};

const ROOTS: &str = r#"
# Sunday's tray.
name = "Roast beetroot and carrots"
makes = "4 portions"
keeps = { fridge = "3 days" }   # from our own fridge
source = { author = "A. Cook", title = "Suppers", address = "page 12" }
ingredients = """
500 g beetroot
400 g carrots
2 tbsp olive oil
1 tbsp honey
1 sprig rosemary
"""
method = """
Heat the oven to 190 °C. Peel the beetroot and carrots and cut them into wedges.
Turn them in the oil, honey and rosemary and roast in one layer for 45–50 minutes, until a knife goes in.
"""
"#;

fn with(id: &str, recipe: &str) -> Kitchen {
    kitchen().household(OVEN_HOB_AND_COOKER).recipe(id, recipe)
}

fn card(kitchen: &Kitchen, id: &str) -> Value {
    answer(&kitchen.run(&["--format", "json", "recipe", id]))
}

#[test]
fn the_card_is_the_contracts_own_example() {
    let card = card(&with("roast-roots", ROOTS), "roast-roots");
    assert_eq!(card["recipe"], "roast-roots");
    assert_eq!(card["makes"], json!({"amount": 4.0, "unit": "portion"}));
    assert_eq!(card["source"], json!({"author": "A. Cook", "title": "Suppers", "address": "page 12"}));
    assert_eq!(
        card["ingredients"][0],
        json!({"line": "500 g beetroot", "food": "beetroot", "recipe": null, "amount": {"amount": 500.0, "unit": "g"}, "form": null,
               "remark": null, "optional": false})
    );
    assert_eq!(
        card["steps"][0],
        json!({"step": 1, "id": null, "text": "Peel 500 g beetroot and 400 g carrots and cut them into wedges.", "hands_minutes": 12,
               "wait_minutes": 0, "appliance": null, "at_celsius": null, "inside_celsius": null, "skill": "knife", "after": [],
               "ahead_minutes": 0, "foods": ["beetroot", "carrot"], "takes": null, "estimated": ["hands_minutes"]})
    );
    let second = &card["steps"][1];
    assert_eq!((&second["hands_minutes"], &second["wait_minutes"], &second["at_celsius"]), (&json!(2), &json!(50), &json!(190.0)));
    assert_eq!((&second["takes"], &second["after"]), (&json!(1.0), &json!(["1"])));
    assert_eq!(second["foods"], json!(["olive oil", "honey", "rosemary"]));
    assert_eq!(second["estimated"], json!(["hands_minutes", "takes"]));
    assert_eq!((&card["keeps"]["fridge"], &card["keeps"]["freezer"]), (&json!(3), &Value::Null));
}

#[test]
fn a_recipe_is_found_by_its_name_too_and_scaled() {
    let kitchen = with("roast-roots", ROOTS);
    let card = answer(&kitchen.run(&["--format", "json", "recipe", "roast beetroot and carrots", "--for", "12 portions"]));
    assert_eq!(card["makes"]["amount"], 12.0);
    assert_eq!(card["ingredients"][0]["amount"]["amount"], 1500.0);
    let unknown = kitchen.run(&["recipe", "pancakes"]);
    assert_eq!(unknown.status.code(), Some(1));
    assert!(stderr(&unknown).contains("Known: roast-roots"), "{}", stderr(&unknown));
    assert_eq!(kitchen.run(&["recipe", "roast-roots", "--for", "3 kg"]).status.code(), Some(2));
}

#[test]
fn the_card_as_text_marks_what_was_estimated() {
    let text = with("roast-roots", ROOTS).done(&["recipe", "roast-roots"]);
    assert!(text.contains("About 12 min of hands"), "{text}");
    assert!(text.contains("About 2 min of hands, 50 min unattended, oven at 190 °C"), "{text}");
    assert!(text.contains("What stands behind \"about\" was estimated"), "{text}");
}

/// Steps without the marks of what was estimated, which nobody can write into a step.
fn plain_steps(card: &Value) -> Value {
    let mut steps = card["steps"].clone();
    for step in steps.as_array_mut().expect("steps") {
        step["estimated"] = json!([]);
    }
    steps
}

#[test]
fn what_steps_writes_reads_back_to_the_same_steps() {
    let dishes = [
        ROOTS.to_owned(),
        dish(
            &["450 g dried white beans", "2 cloves garlic", "4 tbsp olive oil"],
            &[
                "Soak the beans overnight in cold water.",
                "Drain and boil for an hour and a half. Meanwhile, warm half the oil with the garlic.",
                "Mash the beans with the garlic and the remaining oil.",
            ],
        ),
        dish(
            &["1 kg chicken thighs", "1 onion", "2 tins (400 g) chopped tomatoes"],
            &[
                "Brown the thighs for 8 minutes. Chop the onion, add it and soften for 5 minutes.",
                "Add the tomatoes, cover and braise in the oven at 350 °F for 45 minutes, until the inside reaches 165 °F.",
                "Rest for 10 minutes. Serve.",
            ],
        ),
        dish(
            &["255 g pearl barley", "700 ml vegetable stock", "salt and black pepper, to taste"],
            &[
                "Put everything into the pressure cooker and cook under pressure for 25 minutes; natural release for 10 minutes.",
                "Season with salt.",
            ],
        ),
    ];
    for text in dishes {
        let kitchen = with("dish", &text);
        let before = card(&kitchen, "dish");
        kitchen.done(&["recipe", "dish", "--steps"]);
        let written = kitchen.text("recipes/dish.toml");
        assert!(!written.contains("method"), "{written}");
        assert_eq!(plain_steps(&card(&kitchen, "dish")), plain_steps(&before), "{written}");
    }
}

fn dish(ingredients: &[&str], method: &[&str]) -> String {
    format!("name = \"Dish\"\nmakes = \"4 portions\"\ningredients = {ingredients:?}\nmethod = {method:?}\n")
}

#[test]
fn steps_are_written_beside_everything_else_as_it_was() {
    let kitchen = with("roast-roots", ROOTS);
    kitchen.done(&["recipe", "roast-roots", "--steps"]);
    let written = kitchen.text("recipes/roast-roots.toml");
    for line in ROOTS.lines().take_while(|line| !line.starts_with("method")) {
        assert!(written.contains(line), "{line} is lost in {written}");
    }
    assert!(written.contains("hands = \"12 min\"   # estimated"), "{written}");
    let again = kitchen.run(&["recipe", "roast-roots", "--steps"]);
    assert_eq!(again.status.code(), Some(1), "{}", stderr(&again));
    assert_eq!(kitchen.text("recipes/roast-roots.toml"), written);
}

#[test]
fn a_recipe_has_a_method_or_steps_and_a_method_says_something() {
    let both = dish(&["1 onion"], &["Chop the onion."]) + "[[step]]\ntext = \"Chop.\"\n";
    let refused = with("dish", &both).run(&["check"]);
    assert!(stderr(&refused).contains("a recipe has either method or [[step]]"), "{}", stderr(&refused));
    let refused = with("dish", &dish(&["1 onion"], &["  "])).run(&["check"]);
    assert!(stderr(&refused).contains("the method is empty"), "{}", stderr(&refused));
}

#[test]
fn an_appliance_has_the_kind_that_it_says() {
    let range = "[[appliance]]\nname = \"range\"\nkind = \"oven\"\nheat = true\nfan = true\n";
    let kitchen =
        kitchen().household(range).recipe("dish", &dish(&["500 g leeks"], &["Roast the leeks for 30 minutes at 200C/180C fan/gas 6."]));
    let step = card(&kitchen, "dish")["steps"][0].clone();
    assert_eq!((&step["appliance"], &step["at_celsius"]), (&json!("range"), &json!(180.0)));
}

#[test]
fn a_tray_may_be_counted_by_the_household() {
    let kitchen = with("dish", &("trays = 1.5\n".to_owned() + &dish(&["500 g leeks"], &["Roast the leeks at 200 °C for 30 minutes."])));
    let step = card(&kitchen, "dish")["steps"][0].clone();
    assert_eq!(step["takes"], 1.5);
    assert!(!step["estimated"].to_string().contains("takes"));
}

#[test]
fn a_page_of_a_recipe_is_adopted_as_it_was() {
    let kitchen = with("roast-roots", ROOTS);
    let output = kitchen.run(&["recipe", "roast-roots", "--format", "jsonld"]);
    assert!(stderr(&output).contains("how long it keeps (keeps)"), "{}", stderr(&output));
    let page: Value = answer(&output);
    assert_eq!(page["@type"], "Recipe");
    let other = kitchen_with_page(&page.to_string());
    other.done(&["adopt", "page.json"]);
    let again = answer(&other.run(&["--format", "jsonld", "recipe", "roast-beetroot-and-carrots"]));
    assert_eq!(again, page);
}

#[test]
fn a_page_for_more_portions_has_the_amounts_of_so_many() {
    let soup = "name = \"Soup\"\nmakes = \"4 portions\"\ningredients = \"\"\"\n3 leeks, sliced\n½ cup (110 g) lentils\nsalt, to taste\n\"\"\"\n\
                method = \"Boil the leeks and lentils for 20 minutes. Serve with bread.\"\n";
    let kitchen = with("soup", soup);
    let page = answer(&kitchen.run(&["recipe", "soup", "--for", "8 portions", "--format", "jsonld"]));
    assert_eq!(page["recipeYield"], "8 portions");
    assert_eq!(page["recipeIngredient"], serde_json::json!(["6 leeks, sliced", "220 g lentils", "salt, to taste"]));
    let said = page["recipeInstructions"][0]["text"].as_str().unwrap_or_default();
    assert!(said.contains("6 leeks") && said.contains("220 g"), "{said}");
    assert_eq!(
        page["recipeInstructions"].as_array().and_then(|all| all.last()).and_then(|last| last["text"].as_str()),
        Some("Serve with bread.")
    );
    let other = kitchen_with_page(&page.to_string());
    other.done(&["adopt", "page.json"]);
    assert_eq!(answer(&other.run(&["--format", "json", "recipe", "soup"]))["makes"]["amount"], 8.0);
}

fn kitchen_with_page(page: &str) -> Kitchen {
    kitchen().household(OVEN_HOB_AND_COOKER).file("page.json", page)
}

#[test]
fn a_page_is_for_a_recipe_alone() {
    let refused = with("roast-roots", ROOTS).run(&["--format", "jsonld", "list"]);
    assert_eq!(refused.status.code(), Some(2), "{}", stderr(&refused));
}

#[test]
fn a_page_keeps_the_shares_of_its_steps_and_the_unit_of_its_yield() {
    let mash = "name = \"White-bean mash\"\nmakes = \"1.5 kg\"\ningredients = \"\"\"\n400 g tinned white beans\n4 tbsp olive oil\n4 eggs\n\"\"\"\n\
                [[step]]\ntext = \"Warm {olive oil: 2 tbsp} and boil {eggs: 3}.\"\nhands = \"5 min\"\n\
                [[step]]\ntext = \"Mash {white beans} with {olive oil: 2 tbsp} and {eggs: 1}.\"\nhands = \"5 min\"\n";
    let page = answer(&with("mash", mash).run(&["recipe", "mash", "--format", "jsonld"]));
    assert_eq!(page["recipeYield"], "1.5 kg");
    assert_eq!(page["recipeInstructions"][0]["text"], "Warm 2 tbsp of the olive oil and boil 3 of the eggs.");
    assert_eq!(page["recipeInstructions"][1]["text"], "Mash the tinned white beans with 2 tbsp of the olive oil and 1 of the eggs.");
    // Adopted again, each step takes its own.
    let other = kitchen_with_page(&page.to_string());
    other.done(&["adopt", "page.json"]);
    let card = answer(&other.run(&["--format", "json", "recipe", "white-bean-mash"]));
    let texts: Vec<&str> = card["steps"].as_array().expect("steps").iter().filter_map(|step| step["text"].as_str()).collect();
    assert_eq!(texts.concat().matches("2 tbsp").count(), 2, "{texts:?}");
    assert_eq!(card["makes"]["amount"], 1500.0);
}

#[test]
fn a_card_says_once_that_a_line_is_optional() {
    let soup =
        "name = \"Soup\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n2 leeks\nparsley, optional\n\"\"\"\nmethod = \"Chop the leeks.\"\n";
    let said = with("soup", soup).done(&["recipe", "soup"]);
    assert_eq!(said.matches("; optional").count(), 1, "{said}");
    assert!(!said.contains("optional, optional"), "{said}");
}

#[test]
fn a_file_from_windows_keeps_the_ends_of_its_lines() {
    let text = "name = \"Dish\"\r\nmakes = \"4 portions\"\r\ningredients = \"\"\"\r\n500 g beetroot\r\n\"\"\"\r\nmethod = \"Roast the beetroot at 190 °C for 50 minutes.\"\r\n";
    let kitchen = with("dish", text);
    kitchen.done(&["recipe", "dish", "--steps"]);
    let written = kitchen.text("recipes/dish.toml");
    assert_eq!(written.matches("\r\n").count(), written.matches('\n').count(), "{written:?}");
}

#[test]
fn ingredients_and_steps_of_another_size_have_the_same_whole_pieces() {
    // 2½ batches of 3 eggs are 7½: eight; of a tin of 400 g three tins.
    let dish = "name = \"Bean bake\"\nmakes = \"2 portions\"\ningredients = \"\"\"\n3 eggs\n1 tin (400 g) white beans, drained\n\"\"\"\nmethod = \"Mix the eggs and beans.\"\n";
    let kitchen = with("bake", dish);
    let card = answer(&kitchen.run(&["--format", "json", "recipe", "bake", "--for", "5 portions"]));
    assert_eq!(card["ingredients"][0]["amount"]["amount"], 8.0);
    assert_eq!(card["ingredients"][1]["amount"]["amount"], 1200.0);
    let text = card["steps"][0]["text"].as_str().expect("words");
    assert!(text.contains("8 eggs") && text.contains("3 tins"), "{text}");
}

#[test]
fn lines_of_another_size_are_amounts_that_a_cook_can_measure() {
    // A third of a batch: 333.3 g, 66.7 g, 1 clove, 2 tsp, ⅓ lemon; and what it makes is what was asked for.
    let lines = ["1 kg carrots", "200 g onions", "3 cloves garlic", "2 tbsp olive oil", "1 lemon"];
    let dish =
        format!("name = \"Roots\"\nmakes = \"6 portions\"\ningredients = {lines:?}\nmethod = \"Roast everything for 40 minutes.\"\n");
    let kitchen = with("roots", &dish);
    let card = kitchen.done(&["recipe", "roots", "--for", "2 portions"]);
    for line in ["335 g carrots:", "67 g onions:", "1 clove garlic:", "⅔ tbsp olive oil:", "⅓ lemon:"] {
        assert!(card.contains(line), "no \"{line}\" in {card}");
    }
    let page: serde_json::Value =
        serde_json::from_str(&kitchen.done(&["--format", "jsonld", "recipe", "roots", "--for", "2 portions"])).expect("JSON");
    assert_eq!((&page["recipeYield"], &page["recipeIngredient"][0]), (&"2 portions".into(), &"335 g carrots".into()));
}
