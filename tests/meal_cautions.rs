//! What is made or added at a meal asks for the same care as in a session: on the week card, in `day`, in `prep` and on the phone.

use lopdf::Document;
use pretty_assertions::assert_eq;
use serde_json::Value;

use crate::kitchen::{Kitchen, OVEN_HOB_AND_COOKER, json, kitchen, supper};

/// Of each row of the table that applies: what it is about, and a few of its words.
const SAID: [(&str, &str); 8] = [
    ("poultry", "Poultry: cook until the inside reaches 74 °C (165 °F)."),
    ("raw food", "wash hands, board and knife after them"),
    ("kidney beans", "boil hard in fresh water for at least 30 minutes"),
    ("rice", "Cool cooked rice at once"),
    ("the cooker", "Pressure cooker: fill it no more than two thirds"),
    ("knives", "Knives: sharp blade"),
    ("honey", "Honey is not for infants under 12 months."),
    ("an unknown food", "Allergens not known: zub. Read the labels."),
];

/// Beans that are made at Monday's supper, with a food that is added as it is.
fn beans() -> Kitchen {
    kitchen()
        .household(OVEN_HOB_AND_COOKER)
        .foods("[[food]]\nname = \"zub\"\n")
        .recipe(
            "beans",
            "name = \"Beans\"\nmakes = \"1 portion\"\nmade = \"at the meal\"\ningredients = \"\"\"\n100 g dried kidney beans\n\
             100 g chicken thighs, diced\n50 g white rice\n1 tsp honey\n\"\"\"\n[[step]]\ntext = \"Soak {dried kidney beans}.\"\n\
             ahead = \"12 h\"\n[[step]]\ntext = \"Cook all.\"\non = \"pressure cooker\"\nhands = \"5 min\"\nwait = \"30 min\"\ninside = \"74 °C\"\n",
        )
        .meals(&supper("2026-11-30", "\"1 portion recipe:beans\", \"20 g zub\""))
}

fn joined(cautions: &Value) -> String {
    let texts: Vec<&str> = cautions.as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    texts.join("\n")
}

#[track_caller]
fn assert_said(where_: &str, text: &str) {
    let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
    let text = letters(text);
    for (what, words) in SAID {
        assert!(text.contains(&letters(words)), "{where_} says nothing of {what}: {text}");
    }
}

#[test]
fn a_dish_made_at_the_meal_has_its_cautions_wherever_it_is_told() {
    let kitchen = beans();
    let day = ["--format", "json", "day", "2026-11-30"];
    let cautions = json(&kitchen.run(&day))["cautions"].clone();
    assert_said("the JSON of day", &joined(&cautions));
    assert_eq!(
        cautions.as_array().and_then(|all| all.last()).and_then(Value::as_str).map(|last| last.starts_with("Where local food rules")),
        Some(true)
    );
    assert_said("day", &kitchen.done(&["day", "2026-11-30"]));
    kitchen.done(&["print", "--only", "phone"]);
    assert_said("the phone", &kitchen.text("sheets/list-2026-11-30.html"));
    kitchen.done(&["print", "--only", "week"]);
    let card = Document::load(kitchen.path().join("sheets/week-card-2026-11-30.pdf")).expect("a PDF that can be read");
    let pages: Vec<u32> = card.get_pages().keys().copied().collect();
    assert_said("the week card", &card.extract_text(&pages).expect("text"));
}

#[test]
fn prep_tells_of_a_dish_at_the_meal_whose_soaking_it_names() {
    let kitchen = beans();
    let prep = kitchen.prep();
    assert!(prep["before"][0]["text"].as_str().is_some_and(|text| text.starts_with("Soak")), "{prep:#}");
    assert_said("the JSON of prep", &joined(&prep["cautions"]));
    assert_said("prep", &kitchen.done(&["prep"]));
}

#[test]
fn a_meal_of_what_was_cooked_before_says_nothing_more() {
    let cooked = beans().recipe(
        "beans",
        "name = \"Beans\"\nmakes = \"1 portion\"\nkeeps = { fridge = \"3 days\" }\ningredients = \"100 g chicken thighs\"\n[[step]]\n\
         text = \"Cook.\"\non = \"hob\"\nhands = \"5 min\"\ninside = \"74 °C\"\n",
    );
    let kitchen = cooked.meals(&supper("2026-11-30", "\"1 portion recipe:beans\""));
    assert_eq!(joined(&json(&kitchen.run(&["--format", "json", "day", "2026-11-30"]))["cautions"]), "");
    assert_eq!(joined(&kitchen.prep()["cautions"]), "");
    assert!(joined(&kitchen.prep()["sessions"][0]["cautions"]).contains("Poultry: cook until"));
}
