//! What people write and read is the language of kitchens and shops: lines, the list and its remarks.

use serde_json::{Value, json};

use crate::kitchen::stall::{BLUEGRAIN, STALL, bought, pack, wants};
use crate::kitchen::{Kitchen, kitchen, line, lines, stderr, supper};

/// Two suppers, each of one line of bluegrain.
fn two_suppers(first: &str, second: &str) -> Kitchen {
    let meals = supper("2026-11-30", &format!("{first:?}")) + &supper("2026-12-01", &format!("{second:?}"));
    kitchen().foods(BLUEGRAIN).shops(&format!("{STALL}{}", pack("500 g", "2.00"))).meals(&meals)
}

#[test]
fn a_pint_is_the_households_own() {
    // 8 pints: 231 cubic inches of 2.54 cm are 3785.411784 ml; an imperial gallon is 4546.09 ml.
    let shop = format!("{STALL}{}", pack("1 l", "1.00"));
    let week = |rules: &str| kitchen().rules(rules).foods(BLUEGRAIN).shops(&shop).meals(&supper("2026-11-30", "\"8 pints bluegrain\""));
    let need = |rules: &str| bought(&week(rules))["need"].clone();
    assert_eq!(need("pints = \"us\""), json!({ "amount": 3785.411784, "unit": "ml" }));
    assert_eq!(need("pints = \"imperial\""), json!({ "amount": 4546.09, "unit": "ml" }));
    assert_eq!(need("spoons = \"metric\"\npints = \"imperial\""), json!({ "amount": 4546.09, "unit": "ml" }));
    assert_eq!(need(""), json!({ "amount": 3785.411784, "unit": "ml" }));
}

#[test]
fn the_size_of_a_container_is_in_the_household_s_own_pints() {
    // An imperial pint is 568.26125 ml, one of the US 473.176473 ml; an imperial fluid ounce 28.4130625 ml.
    let need = |rules: &str, line: &str| {
        let shop = format!("{STALL}{}", pack("1 l", "1.00"));
        let week = kitchen().rules(rules).foods(BLUEGRAIN).shops(&shop).meals(&supper("2026-11-30", &format!("\"{line}\"")));
        bought(&week)["need"].clone()
    };
    let ml = |amount: f64| json!({ "amount": amount, "unit": "ml" });
    let imperial = "pints = \"imperial\"";
    assert_eq!(need(imperial, "2 tubs (1 pint) bluegrain"), ml(1136.5225));
    assert_eq!(need(imperial, "1 (1 pint) tub bluegrain"), ml(568.26125));
    assert_eq!(need(imperial, "2 x 1 pint bluegrain"), ml(1136.5225));
    assert_eq!(need(imperial, "1 pint tub bluegrain"), ml(568.26125));
    assert_eq!(need(imperial, "1 tub of 10 fl oz bluegrain"), ml(284.130625));
    assert_eq!(need(imperial, "2 tubs bluegrain (1 pint each)"), ml(1136.5225));
    assert_eq!(need("pints = \"us\"", "1 (1 pint) tub bluegrain"), ml(473.176473));
}

#[test]
fn a_pint_of_a_household_that_does_not_say_which_is_told_with_the_other() {
    let shop = format!("{STALL}{}", pack("1 l", "1.00"));
    let said = |rules: &str, line: &str| {
        let kitchen = kitchen().rules(rules).foods(BLUEGRAIN).shops(&shop).meals(&supper("2026-11-30", &format!("\"{line}\"")));
        stderr(&kitchen.run(&["list"]))
    };
    let told = said("", "1 pint bluegrain");
    assert!(told.contains("\"1 pint bluegrain\" is taken in US measure, 473 ml; in imperial it would be 568 ml"), "{told}");
    assert!(told.contains("pints = \"us\" or \"imperial\" under [rules]"), "{told}");
    let told = said("", "1 (1 pint) tub bluegrain");
    assert!(told.contains("tub bluegrain\" is taken in US measure, 473 ml; in imperial it would be 568 ml"), "{told}");
    for quiet in [said("pints = \"us\"", "1 pint bluegrain"), said("", "1 cup bluegrain"), said("", "500 ml bluegrain")] {
        assert!(!quiet.contains("imperial"), "{quiet}");
    }
}

#[test]
fn a_line_is_optional_where_all_its_uses_are() {
    let line = bought(&two_suppers("100 g bluegrain (optional)", "100 g bluegrain, to serve"));
    assert_eq!(line["optional"], json!(true));
    let line = bought(&two_suppers("100 g bluegrain (optional)", "100 g bluegrain"));
    assert_eq!(line.get("optional"), None);
}

#[test]
fn the_last_of_a_line_that_costs_a_pack_is_offered() {
    // 83.5 g take two packs of 80 g; 3.5 ÷ 83.5 is 4 %.
    let line = bought(&wants("83.5 g", &pack("80 g", "1.65")));
    assert_eq!(line["cost"], "3.30");
    assert_eq!(line["without"], json!({ "short": { "amount": 3.5, "unit": "g" }, "share": 0.04, "saves": "1.65" }));
    let text = wants("83.5 g", &pack("80 g", "1.65")).done(&["list"]);
    assert!(text.contains("the last 3.5 g (4 %) cost 1.65"), "{text}");
    assert_eq!(bought(&wants("90 g", &pack("80 g", "1.65"))).get("without"), None);
}

#[test]
fn a_meal_is_at_least_what_is_known_of_it() {
    let foods =
        "[[food]]\nname = \"bluegrain\"\nper_100g = { kcal = 200, protein = \"10 g\", fibre = \"4 g\" }\n[[food]]\nname = \"moonleaf\"\n";
    let kitchen = kitchen().foods(foods).meals(&supper("2026-11-30", "\"100 g bluegrain\", \"5 g moonleaf\""));
    let list: Value = kitchen.list();
    let meal = &list["meals"][0];
    assert_eq!(meal["per_eater"], json!({ "kcal": 200.0, "protein_g": 10.0, "fibre_g": 4.0, "cost": null, "at_least": true }));
    assert_eq!(meal["missing"][1], "moonleaf: energy, protein, fibre, price");
    let text = kitchen.done(&["list"]);
    assert!(
        text.contains("at least 200 kcal") && text.contains("without bluegrain (price), moonleaf (energy, protein, fibre, price)"),
        "{text}"
    );
    assert_eq!(lines(&list).len(), 2);
    assert_eq!(line(&list, "moonleaf")["cost"], Value::Null);
}

/// A dish of `count` rolls, which are never cut, that makes two portions; a supper of `portions` of it for one.
fn rolls(count: &str, batches: &str, portions: &str) -> Kitchen {
    let dish = format!(
        "name = \"Filled rolls\"\nmakes = \"2 portions\"\n{batches}ingredients = [\"{count} bluegrain\"]\nkeeps = {{ fridge = \"3 days\" }}\n"
    );
    kitchen()
        .foods("[[food]]\nname = \"bluegrain\"\ncut = false\n")
        .shops(&format!("{STALL}{}", pack("1", "0.50")))
        .recipe("rolls", &dish)
        .meals(&supper("2026-11-30", &format!("\"{portions} portions recipe:rolls\"")))
}

fn batches_and_need(kitchen: &Kitchen) -> (f64, f64) {
    let makings = kitchen.prep()["sessions"][0]["batches"].clone();
    let need = bought(kitchen)["need"]["amount"].as_f64().expect("a need");
    (makings[0]["batches"].as_f64().expect("batches"), need)
}

#[test]
fn a_batch_is_raised_until_nothing_is_split_that_is_never_cut() {
    // 3 portions are 1.5 batches: 3 rolls of 2 each, but 4.5 of 3 each, so two batches.
    assert_eq!(batches_and_need(&rolls("2", "", "3")), (1.5, 3.0));
    assert_eq!(batches_and_need(&rolls("3", "", "3")), (2.0, 6.0));
    // With any batches 4.5 rolls are 5; where one whole batch splits one, it does not count: 1.5 × 2.5 = 3.75, bought as 4.
    assert_eq!(batches_and_need(&rolls("3", "batches = \"any\"\n", "3")), (1.5, 5.0));
    assert_eq!(batches_and_need(&rolls("2.5", "", "3")), (1.5, 4.0));
}

#[test]
fn each_meal_takes_whole_ones_of_what_is_never_cut() {
    // Half a roll at each of two suppers is one at each, and two lines of one supper are one sum.
    let week = |cut: &str, first: &str| {
        kitchen()
            .foods(&format!("[[food]]\nname = \"bluegrain\"\n{cut}"))
            .shops(&format!("{STALL}{}", pack("1", "0.50")))
            .meals(&(supper("2026-11-30", first) + &supper("2026-12-01", "\"½ bluegrain\"")))
    };
    let need = |cut: &str, first: &str| bought(&week(cut, first))["need"]["amount"].clone();
    assert_eq!(need("cut = false\n", "\"½ bluegrain\""), 2.0);
    assert_eq!(need("cut = false\n", "\"½ bluegrain\", \"½ bluegrain\""), 2.0);
    assert_eq!(need("", "\"½ bluegrain\""), 1.0);
}

#[test]
fn a_tin_that_is_counted_is_used_whole_and_a_weight_takes_what_it_says() {
    let foods = "[[food]]\nname = \"bluegrain\"\n";
    let shop = format!("{STALL}{}", pack("400 g", "1.00"));
    let need = |line: &str| {
        let week = supper("2026-11-30", line) + &supper("2026-12-01", line);
        bought(&kitchen().foods(foods).shops(&shop).meals(&week))["need"]["amount"].clone()
    };
    assert_eq!(need("\"½ tin (400 g) bluegrain\""), 800.0);
    assert_eq!(need("\"200 g bluegrain\""), 400.0);
}
