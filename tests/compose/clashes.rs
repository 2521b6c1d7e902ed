//! Nothing is allowed: the smallest set of wishes that clash, and what would loosen each.

use pretty_assertions::assert_eq;
use serde_json::{Value, json};

use super::{open, stall};
use crate::kitchen::{Kitchen, stderr};

#[track_caller]
fn clash(kitchen: &Kitchen) -> Value {
    let output = kitchen.run(&["--format", "json", "compose"]);
    assert_eq!(output.status.code(), Some(1), "{}", stderr(&output));
    serde_json::from_slice::<Value>(&output.stdout).expect("JSON")["clash"].clone()
}

fn with(compose: &str, meals: &str) -> Kitchen {
    stall().week(&format!("from = 2026-11-30\n[compose]\n{compose}\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\npeople = [\"cook\"]\n{meals}"))
}

#[test]
fn a_budget_that_is_too_small_says_what_would_do() {
    let kitchen = with("spend_at_most = \"1.00\"", &open("2026-12-01", ""));
    assert_eq!(clash(&kitchen), json!([{ "key": "spend_at_most", "now": "1.00", "would_do": "1.50" }]));
}

#[test]
fn two_wishes_that_clash_are_named_together() {
    // One dish cooked, and never the same again: two suppers need a second dish or side; the sides give another plate, so one side is banned.
    let kitchen =
        with("recipes_at_most = 1\nsame_again_after = \"5 days\"\nnot = [\"fenk\"]", &(open("2026-12-01", "") + &open("2026-12-02", "")));
    let keys: Vec<String> = clash(&kitchen).as_array().unwrap().iter().map(|one| one["key"].as_str().unwrap().to_owned()).collect();
    assert_eq!(keys, ["recipes_at_most", "same_again_after", "not"]);
}

#[test]
fn a_taste_that_nothing_meets_is_named() {
    let soft = super::FOODS.to_owned() + "[[food]]\nname = \"moss\"\nis = [\"soft\"]\n";
    let kitchen = with("beside = { crunchy = \"soft\" }\nnot = [\"fenk\"]", &open("2026-12-01", "")).foods(&soft);
    let keys: Vec<String> = clash(&kitchen).as_array().unwrap().iter().map(|one| one["key"].as_str().unwrap().to_owned()).collect();
    assert_eq!(keys, ["not", "beside"]);
}

#[test]
fn a_meal_that_no_pattern_fills_is_named() {
    let kitchen = stall()
        .meals("[[meal]]\non = 2026-12-01\nat = \"lunch\"\nopen = true\n")
        .file("meals.toml", "[[pattern]]\nname = \"Plate\"\nat = [\"supper\"]\neach = [\"1 portion any:grain\"]\n");
    assert_eq!(clash(&kitchen)[0]["key"], "pattern");
}

#[test]
fn an_afternoon_that_is_too_short_says_by_when_it_would_end() {
    // Ten minutes of hands, two of washing and boxing on top: the guide's own least finish.
    let week = |finish: &str| {
        format!(
            "from = 2026-11-30\n[[trip]]\non = 2026-11-28\n[[session]]\nstart = 2026-11-29T14:00\nfinish_by = \"{finish}\"\npeople = [\"cook\"]\n{}",
            open("2026-12-01", "")
        )
    };
    let kitchen = stall().week(&week("14:05"));
    let told = clash(&kitchen);
    assert_eq!((&told[0]["key"], &told[0]["of"], &told[0]["now"]), (&json!("finish_by"), &json!("Sun 29 Nov 14:00"), &json!("14:05")));
    // What would do, does; a minute less does not.
    let would_do = told[0]["would_do"].as_str().unwrap();
    assert_eq!(super::composed(&stall().week(&week(would_do)), &[])["proven"], true);
    let minute: u32 = would_do[3..].parse().unwrap();
    clash(&stall().week(&week(&format!("14:{:02}", minute - 1))));
}

#[test]
fn the_key_of_a_wish_is_as_it_is_written_and_whose_it_is_stands_beside_it() {
    let once = super::PLATE.to_owned() + "at_most = 1\n";
    let kitchen = stall().file("meals.toml", &once).meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    assert_eq!(clash(&kitchen), json!([{ "key": "at_most", "of": "Plate", "now": "1", "would_do": "2" }]));
    let said = stderr(&kitchen.run(&["compose"]));
    assert!(said.contains("at_most of Plate: 1; would do: 2"), "{said}");
}

#[test]
fn a_place_that_nothing_fits_in_such_an_amount_is_named() {
    // The sauce is made by weight, and nobody said what a portion of it is.
    let sauce = "name = \"Lubb sauce\"\nmakes = \"400 g\"\nkeeps = { fridge = \"5 days\" }\nfits = [\"sauce\"]\ningredients = \"100 g lubb\"\n\
                 [[step]]\ntext = \"Stir.\"\nhands = \"5 min\"\n";
    let dipped = |amount: &str| {
        let pattern = format!("[[pattern]]\nname = \"Dipped\"\neach = [\"1 portion any:grain\", \"{amount} any:sauce\"]\n");
        stall().recipe("lubb-sauce", sauce).file("meals.toml", &pattern).meals(&open("2026-12-01", ""))
    };
    let told = clash(&dipped("1 portion"));
    assert_eq!(told[0]["key"], "pattern");
    let would_do = told[0]["would_do"].as_str().unwrap();
    assert!(would_do.contains("another amount in \"1 portion any:sauce\""), "{would_do}");
    assert_eq!(super::each(&super::composed(&dipped("40 g"), &[])), [["1 portion recipe:spelk-pot", "40 g recipe:lubb-sauce"]]);
}

#[test]
fn what_is_not_proven_is_not_told_as_a_clash() {
    let wide: String =
        (0..9).map(|day| open(&format!("2026-12-{:02}", 1 + day % 6), "").replace("supper", ["supper", "lunch"][day / 6])).collect();
    let kitchen = with("spend_at_most = \"1.00\"\none_at_most = 9\nsame_again_after = \"1 day\"", &wide);
    let output = kitchen.run(&["--format", "json", "compose", "--effort", "low"]);
    assert_eq!(output.status.code(), Some(1));
    let told: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let said = stderr(&output);
    assert_eq!(told["proven"], said.contains("no week is allowed: these wishes clash"));
    assert_eq!(told["proven"] == false, said.contains("does not prove that there is none"));
}

#[test]
fn a_clash_names_the_file_and_line_of_each_wish_and_says_where_nothing_is_written() {
    let kitchen = with("spend_at_most = \"1.00\"", &open("2026-12-01", ""));
    let said = stderr(&kitchen.run(&["compose"]));
    assert!(said.contains("weeks/week.toml:3:17: spend_at_most: 1.00; would do: 1.50"), "{said}");
    let once = super::PLATE.to_owned() + "at_most = 1\n";
    let kitchen = stall().file("meals.toml", &once).meals(&(open("2026-12-01", "") + &open("2026-12-03", "")));
    let said = stderr(&kitchen.run(&["compose"]));
    assert!(said.contains("meals.toml:4:11: at_most of Plate: 1; would do: 2"), "{said}");
}

#[test]
fn what_is_named_in_not_and_in_use_is_told_to_be_taken_out_of_it() {
    let kitchen = with("use = [\"fenk\"]\nnot = [\"fenk\"]", &open("2026-12-01", ""));
    let told = clash(&kitchen);
    assert_eq!(told[0]["would_do"], "take fenk out of use");
    let kitchen = with("not = [\"recipe:spelk-pot\", \"recipe:brack-pot\"]", &open("2026-12-01", ""));
    assert_eq!(clash(&kitchen)[0]["would_do"], "take recipe:brack-pot out of not");
}

#[test]
fn a_key_that_is_missing_is_named_with_its_file() {
    // What a portion of either pot weighs is written nowhere: 40 g of them are nothing.
    let kitchen = |makes: &str| {
        let pot = |name: &str, of: &str| super::dish(name, of, "").replace("makes = \"1 portion\"", &format!("makes = \"{makes}\""));
        stall()
            .recipe("spelk-pot", &pot("Spelk pot", "spelk"))
            .recipe("brack-pot", &pot("Brack pot", "brack"))
            .file("meals.toml", "[[pattern]]\nname = \"Plate\"\neach = [\"40 g any:grain\"]\n")
            .meals(&open("2026-12-01", ""))
    };
    let would_do = |makes: &str| clash(&kitchen(makes))[0]["would_do"].as_str().expect("a text").to_owned();
    assert!(
        would_do("1 portion").starts_with("portion = \"…\", what one portion weighs, in recipes/brack-pot.toml or recipes/spelk-pot.toml")
    );
    // Pieces have no weight, whatever a portion has.
    assert!(
        would_do("4 pieces")
            .starts_with("another amount in \"40 g any:grain\", as recipes/brack-pot.toml or recipes/spelk-pot.toml makes it")
    );
}

#[test]
fn a_word_of_a_wish_that_nobody_bears_is_a_mistake_with_its_place() {
    let said = |compose: &str| {
        let output = with(compose, &open("2026-12-01", "")).run(&["compose"]);
        assert_eq!(output.status.code(), Some(1));
        stderr(&output)
    };
    let beside = said("beside = { crunchi = \"soft\" }");
    assert!(beside.contains("weeks/week.toml:3:12: beside: no recipe and no food is \"crunchi\""), "{beside}");
    assert!(beside.contains("Did you mean \"crunchy\"?"), "{beside}");
    // Whatever is crunchy would be forbidden without a word.
    let wanted = said("beside = { crunchy = \"moist\" }");
    assert!(wanted.contains("weeks/week.toml:3:22: beside: no recipe and no food is \"moist\""), "{wanted}");
    let often = said("one_at_most = { grian = 1, else = 3 }");
    assert!(often.contains("weeks/week.toml:3:17: one_at_most: no recipe and no food fits \"grian\""), "{often}");
    assert!(often.contains("Did you mean \"grain\"?"), "{often}");
    let used = said("use = [\"recipe:spelk-pit\"]");
    assert!(used.contains("Did you mean \"recipe:spelk-pot\"?"), "{used}");
    let strange = said("use = [\"recipe:ee\"]");
    assert!(strange.contains("\"recipe:ee\" is no recipe") && !strange.contains("eel"), "{strange}");
}

#[test]
fn a_wish_that_is_ahead_of_the_recipes_is_told_and_forbids_nothing() {
    let kitchen = with("beside = { rich = \"sharp\" }", &open("2026-12-01", ""));
    let output = kitchen.run(&["compose"]);
    assert_eq!(output.status.code(), Some(0));
    assert!(stderr(&output).contains("beside: no recipe and no food is \"rich\": this holds nothing yet."), "{}", stderr(&output));
}

#[test]
fn what_somebody_is_sure_of_must_be_something() {
    let sure = |word: &str| {
        let eater = format!("[household]\nname = \"Row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Ana\"\nsure = [\"{word}\"]\n");
        stall().file("kitchen.toml", &eater).meals(&open("2026-12-01", "")).run(&["compose"])
    };
    let said = stderr(&sure("spelkk"));
    assert!(said.contains("sure: \"spelkk\" is no food") && said.contains("Did you mean \"spelk\"?"), "{said}");
    assert_eq!(sure("spelk").status.code(), Some(0));
}

#[test]
fn a_pattern_with_more_places_of_a_word_than_fit_is_a_mistake_with_its_place() {
    let three = "[[pattern]]\nname = \"Heap\"\neach = [\"1 portion any:grain\", \"1 portion any:grain\", \"50 g any:grain\"]\n";
    let output = stall().file("meals.toml", three).meals(&open("2026-12-01", "")).run(&["check"]);
    assert_eq!(output.status.code(), Some(1));
    let said = crate::kitchen::stderr(&output);
    assert!(
        said.contains("meals.toml:3:56: the pattern \"Heap\" has 3 places for any:grain, each for something else, and only 2 fit"),
        "{said}"
    );
}

#[test]
fn what_is_avoided_by_its_kind_or_allergen_is_told_by_a_food_that_use_can_name() {
    for (word, told, foods) in [("sesame", "fenk", ""), ("vegetable", "lubb", "kind = \"vegetable\"\n"), ("lubb", "lubb", "")] {
        let household = format!(
            "[household]\nname = \"Row\"\ncurrency = \"EUR\"\n[rules]\nboxing = \"0 min\"\n[[eater]]\nname = \"Al\"\navoid = [\"{word}\"]\n"
        );
        let foods = super::FOODS.replace("name = \"lubb\"\n", &format!("name = \"lubb\"\n{foods}"));
        let not = if told == "fenk" { "lubb" } else { "fenk" };
        let kitchen = with(&format!("not = [\"{not}\"]"), &open("2026-12-01", "")).foods(&foods).file("kitchen.toml", &household);
        let clash = clash(&kitchen);
        let avoided = clash.as_array().unwrap().iter().find(|one| one["key"] == "avoid").unwrap_or_else(|| panic!("{clash}"));
        assert_eq!(avoided["would_do"], format!("use = [\"{told}\"], or something else that fits"), "{word}");
        // Written so, it is taken.
        let week = kitchen.text("weeks/week.toml").replace("[compose]\n", &format!("[compose]\nuse = [\"{told}\"]\n"));
        let kitchen = kitchen.week(&week);
        assert_eq!(kitchen.run(&["compose"]).status.code(), Some(0), "{word}: {}", stderr(&kitchen.run(&["compose"])));
    }
}

#[test]
fn where_nothing_else_can_be_proposed_json_says_what_clashes() {
    let kitchen = with("not = [\"fenk\", \"recipe:brack-pot\"]", &open("2026-12-01", ""));
    let clash = |more: &[&str]| {
        let output = kitchen.run(&[&["--format", "json", "compose"], more].concat());
        assert_eq!(output.status.code(), Some(1), "{}", stderr(&output));
        let told: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        told["clash"][0].clone()
    };
    assert_eq!(clash(&["--another"]), json!({ "key": "--another", "now": "two meals otherwise", "would_do": "fewer of --another" }));
    let refilled = clash(&["--refill", "tue supper"]);
    assert_eq!((&refilled["key"], &refilled["of"]), (&json!("--refill"), &json!("Tue supper")));
}
