//! Sixty paragraphs of our own, of the dishes of Boatyard Row, in the manners in which books, cards and pages print a method. Each reading was
//! written down before the paragraph was run; what was then read wrongly (8 of the 60), and has been mended:
//!
//! - "Let stand 10 minutes before serving" had no wait: taken for "30 minutes before serving".
//! - "Stir in the pressure cooker over a medium heat for 2 minutes" stood on no appliance.
//! - "The night before, cover with water and leave to soak": a second wait of half an hour after the night.
//! - "The cumin" was not the cumin seeds.
//! - "Leave to steam" under a plate was put on the hob.
//! - "While the peppers steam, chop the onion" had the hands for chopping the peppers too.
//! - "7 minutes for soft yolks, 10 for hard": 7 planned and nothing told; now the longer, and told.
//! - "Oven: 350 °F." without a verb set no oven.
//!
//! A reading is one line a step: `appliance [hN | hN+ | e] [wN] [cN] [iN] [aN] [=|+] [: places]`. `hN` are hands that the text gives, `hN+`
//! in part, `e` says that they are estimated, `wN` minutes of the wait (absent: none), `cN` degrees Celsius, `iN` an inside temperature that the text gives, `aN` minutes ahead.
//! `=` comes after what the step before came after, `+` after both. The places are those of the ingredients whose amounts belong to the step.

use serde_json::Value;

use crate::kitchen::{appliances, json as answer, kitchen};

mod again;
mod four_kitchens;
mod further;
mod of_others;
mod paragraphs;

/// One step as a reading writes it.
fn told(step: &Value, number: usize, foods: &[&str], wanted: &str) -> String {
    let is_estimated = |key: &str| step["estimated"].as_array().unwrap().iter().any(|one| one == key);
    let minutes = |key: &str| step[key].as_i64().unwrap();
    let mut line = step["appliance"].as_str().unwrap_or("-").to_owned();
    let hands = minutes("hands_minutes");
    if hands > 0 && !is_estimated("hands_minutes") {
        line += &format!(" h{hands}");
    }
    let in_part = wanted.split(' ').find_map(|word| word.strip_prefix('h')?.strip_suffix('+')?.parse::<i64>().ok());
    if let Some(least) = in_part.filter(|least| hands >= *least && is_estimated("hands_minutes")) {
        line += &format!(" h{least}+");
    }
    if hands > 0 && is_estimated("hands_minutes") && wanted.split(' ').any(|word| word == "e") {
        line += " e";
    }
    if minutes("wait_minutes") > 0 {
        line += &format!(" w{}", minutes("wait_minutes"));
    }
    if let Some(celsius) = step["at_celsius"].as_f64() {
        line += &format!(" c{celsius:.0}");
    }
    if let Some(celsius) = step["inside_celsius"].as_f64().filter(|_| !is_estimated("inside_celsius")) {
        line += &format!(" i{celsius:.0}");
    }
    if minutes("ahead_minutes") > 0 {
        line += &format!(" a{}", minutes("ahead_minutes"));
    }
    let after = step["after"].as_array().unwrap();
    match after.as_slice() {
        [] if number == 1 => {}
        [one] if one.as_str().and_then(|one| one.parse().ok()) == Some(number - 1) => {}
        [_, _, ..] => line += " +",
        _ => line += " =",
    }
    let named: Vec<String> = step["foods"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|food| foods.iter().position(|one| food == one))
        .map(|place| (place + 1).to_string())
        .collect();
    if !named.is_empty() {
        let mut named = named;
        named.sort();
        line += &format!(" : {}", named.join(" "));
    }
    line
}

#[test]
fn a_method_reads_as_a_cook_reads_it() {
    let mut wrong = Vec::new();
    let mut paragraphs = 0;
    for (name, ingredients, method) in
        paragraphs::RECIPES.iter().chain(further::RECIPES).chain(again::RECIPES).chain(four_kitchens::RECIPES).chain(of_others::RECIPES)
    {
        paragraphs += method.len();
        let quoted = |texts: Vec<&str>| texts.iter().map(|text| format!("{text:?}")).collect::<Vec<_>>().join(", ");
        let recipe = format!(
            "name = \"{name}\"\nmakes = \"4 portions\"\ningredients = [{}]\nmethod = [{}]\n",
            quoted(ingredients.to_vec()),
            quoted(method.iter().map(|(text, _)| *text).collect())
        );
        let kitchen = kitchen().household(&appliances(&["microwave", "slow cooker", "rice cooker", "grill"])).recipe("dish", &recipe);
        let card = answer(&kitchen.run(&["--format", "json", "recipe", "dish"]));
        let foods: Vec<&str> = card["ingredients"].as_array().unwrap().iter().map(|one| one["food"].as_str().unwrap()).collect();
        let steps = card["steps"].as_array().unwrap();
        let wanted: Vec<&str> = method.iter().flat_map(|(_, reading)| reading.iter().copied()).collect();
        let found: Vec<String> =
            steps.iter().enumerate().map(|(index, step)| told(step, index + 1, &foods, wanted.get(index).unwrap_or(&""))).collect();
        if found != wanted {
            let texts: Vec<&str> = steps.iter().map(|step| step["text"].as_str().unwrap()).collect();
            wrong.push(format!("{name}\n  found  {found:#?}\n  wanted {wanted:#?}\n  texts {texts:#?}"));
        }
    }
    assert!(paragraphs >= 420, "{paragraphs}");
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), paragraphs, wrong.join("\n"));
}
