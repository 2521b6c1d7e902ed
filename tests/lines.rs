//! What an ingredient line asks for, as purchased. Every sum is of one meal of one eater without any pack: needs are stated in grams.

use pretty_assertions::assert_eq;

use crate::kitchen::stall::{STALL, pack_of};
use crate::kitchen::{Kitchen, assert_amount, has_line, json, kitchen, line, lines, packs, sizes, stderr, supper};

const FOODS: &str = r#"
[[food]]
name = "moonroot"
cup = { chopped = "160 g", sliced = "115 g" }
each = { small = "78 g", medium = "122 g", large = "167 g" }
bunch = "100 g"
edible = "80%"

[[food]]
name = "bluegrain"
cup = "180 g"
each = "2 g"
cooked = 2.9

[[food]]
name = "tinned seabean"
drained = "60%"

[[food]]
name = "seabean"
cooked = 2.5
"#;

fn with_line(text: &str) -> Kitchen {
    kitchen().foods(FOODS).meals(&supper("2026-11-30", &format!("\"{text}\"")))
}

#[track_caller]
fn asks(text: &str, food: &str, grams: f64) {
    assert_amount(&line(&with_line(text).list(), food)["need"], grams, "g");
}

#[test]
fn after_the_comma_the_weight_is_as_purchased() {
    asks("300 g moonroots, diced", "moonroot", 300.0);
}

#[test]
fn before_the_food_a_form_means_after_trimming() {
    // 300 ÷ 0.8 = 375.
    asks("300 g diced moonroot", "moonroot", 375.0);
}

#[test]
fn a_food_without_a_yield_is_edible_whole() {
    asks("300 g diced bluegrain", "bluegrain", 300.0);
}

#[test]
fn a_cup_of_a_form_weighs_what_the_form_weighs_after_trimming() {
    // 160 ÷ 0.8 = 200.
    asks("1 cup chopped moonroot", "moonroot", 200.0);
}

#[test]
fn a_single_cup_weight_serves_every_form() {
    asks("2 cups bluegrain", "bluegrain", 360.0);
    asks("2 cups chopped bluegrain", "bluegrain", 360.0);
}

#[test]
fn a_cups_weight_is_of_a_us_cup_whatever_the_spoons() {
    // A metric cup of 250 ml holds 250 ÷ 236.5882 of a US cup (NIST SP 811, B.8): 180 × 250 ÷ 236.5882 = 190.2039...
    let list = with_line("1 cup bluegrain").rules("spoons = \"metric\"").list();
    assert_amount(&line(&list, "bluegrain")["need"], 180.0 * 250.0 / 236.5882, "g");
}

#[test]
fn a_container_may_be_told_by_its_volume() {
    // Two cartons of 500 ml of a food of which a US cup of 236.5882 ml weighs 120 g; and of one that nobody has weighed.
    let foods =
        "[[food]]\nname = \"zorkmilk\"\ncup = \"120 g\"\ncarton = \"500 ml\"\n[[food]]\nname = \"zorkjuice\"\ncarton = \"500 ml\"\n";
    let list = |line: &str| kitchen().foods(foods).meals(&supper("2026-11-30", &format!("\"{line}\""))).list();
    assert_amount(&line(&list("2 cartons zorkmilk"), "zorkmilk")["need"], 1000.0 / 236.5882 * 120.0, "g");
    assert_amount(&line(&list("2 cartons zorkjuice"), "zorkjuice")["need"], 1000.0, "ml");
}

#[test]
fn spoons_go_by_the_cup() {
    // NIST SP 811, B.8: a tablespoon is 14.786 76 ml of a cup of 236.5882 ml, one sixteenth: 180 ÷ 16 = 11.25, here to a hundred-thousandth.
    let need = line(&with_line("1 tbsp bluegrain").list(), "bluegrain")["need"]["amount"].as_f64().unwrap_or(0.0);
    assert!((need - 11.25).abs() < 1e-4, "{need}");
}

#[test]
fn cooked_is_divided_by_the_cooked_factor() {
    // 290 ÷ 2.9 = 100; two cups cooked weigh 2 × 180 = 360 where one weight serves every form: 360 ÷ 2.9.
    asks("290 g cooked bluegrain", "bluegrain", 100.0);
    asks("2 cups cooked bluegrain", "bluegrain", 360.0 / 2.9);
}

#[test]
fn drained_is_divided_by_the_drained_share() {
    // 240 ÷ 0.6 = 400.
    asks("240 g drained tinned seabeans", "tinned seabean", 400.0);
}

#[test]
fn a_line_in_tins_means_the_tinned_food_by_its_whole_weight() {
    asks("1 tin (400 g) seabeans, drained", "tinned seabean", 400.0);
    asks("2 tins (400 g) seabeans", "tinned seabean", 800.0);
}

#[test]
fn a_tin_of_a_food_that_the_household_names_is_bought_as_its_own_pack() {
    let foods = "[[food]]\nname = \"white beans\"\ntin = \"400 g\"\n";
    let beans = kitchen().foods(foods).shops(&format!("{STALL}{}", pack_of("white beans", "400 g", "0.90")));
    let list = beans.meals(&supper("2026-11-30", "\"1 tin (400 g) white beans, drained\"")).list();
    assert_eq!(packs(&line(&list, "white beans")), sizes(&[("400 g", 1)]));
}

#[test]
fn a_drained_line_of_a_food_that_only_its_tin_knows_means_the_tin() {
    asks("240 g drained seabeans", "tinned seabean", 400.0);
}

#[test]
fn pieces_have_the_weight_of_their_size() {
    asks("2 large moonroots", "moonroot", 334.0);
    asks("2 small moonroots", "moonroot", 156.0);
    asks("2 moonroots", "moonroot", 244.0);
    asks("3 large bluegrains", "bluegrain", 6.0);
}

#[test]
fn kitchen_words_have_the_weight_the_food_gives_them() {
    asks("1/2 bunch moonroots", "moonroot", 50.0);
}

#[test]
fn numbers_are_read_as_they_are_typed() {
    for (text, grams) in [
        ("1.5 kg bluegrain", 1500.0),
        ("1,5 kg bluegrain", 1500.0),
        ("1/2 kg bluegrain", 500.0),
        ("1 1/2 kg bluegrain", 1500.0),
        ("1½ kg bluegrain", 1500.0),
        ("2 x 400 g bluegrain", 800.0),
        ("a bunch moonroots", 100.0),
        ("half a bunch moonroots", 50.0),
        ("a dozen bluegrains", 24.0),
    ] {
        let food = if text.contains("moonroot") { "moonroot" } else { "bluegrain" };
        asks(text, food, grams);
    }
}

#[test]
fn units_are_read_in_their_usual_spellings() {
    // A pound is 453.592 4 g, an ounce 28.349 52 g (NIST SP 811, B.8).
    for (text, grams) in [
        ("2 grams bluegrain", 2.0),
        ("1 lb bluegrain", 453.5924),
        ("2 lbs bluegrain", 907.1848),
        ("1 pound bluegrain", 453.5924),
        ("1 oz bluegrain", 28.34952),
        ("500 mg bluegrain", 0.5),
    ] {
        let need = line(&with_line(text).list(), "bluegrain")["need"]["amount"].as_f64().unwrap_or(0.0);
        assert!((need - grams).abs() <= 1e-6 * grams, "{text}: {need}");
    }
}

#[test]
fn a_range_buys_for_its_upper_end() {
    asks("200-300 g bluegrain", "bluegrain", 300.0);
}

#[test]
fn a_part_that_begins_with_plus_adds_its_amount() {
    asks("400 g bluegrain, plus 50 g for dusting", "bluegrain", 450.0);
}

#[test]
fn a_remark_in_brackets_changes_nothing() {
    asks("300 g bluegrain (the good one)", "bluegrain", 300.0);
}

#[test]
fn other_ways_of_buying_are_never_trims() {
    asks("300 g boneless moonroot", "moonroot", 300.0);
}

#[test]
fn the_longest_known_name_wins_before_words_are_split_off() {
    let kitchen = with_line("300 g chopped moonroot").foods(&format!("{FOODS}[[food]]\nname = \"chopped moonroot\"\n"));
    let list = kitchen.list();
    assert_amount(&line(&list, "chopped moonroot")["need"], 300.0, "g");
    assert!(!has_line(&list, "moonroot"));
}

#[test]
fn another_name_of_a_food_means_the_food() {
    let kitchen = with_line("300 g skyroots").foods(&format!("{FOODS}[[food]]\nname = \"sunroot\"\nalso = [\"skyroot\"]\n"));
    assert_amount(&line(&kitchen.list(), "sunroot")["need"], 300.0, "g");
}

#[test]
fn a_missing_fact_leaves_the_line_in_its_own_words_and_names_the_key() {
    // "grated" is not in the table of cups, and nothing is guessed from the other forms.
    let kitchen = with_line("1 cup grated moonroot");
    let list = kitchen.list();
    assert!(has_line(&list, "moonroot"), "nothing is dropped");
    let said = stderr(&kitchen.run(&["list"]));
    assert!(said.contains("weeks/week.toml") && said.contains("cup") && said.contains("foods.toml"), "{said}");
    assert_eq!(kitchen.run(&["list"]).status.code(), Some(0));
    assert_eq!(kitchen.run(&["--strict", "list"]).status.code(), Some(1));
}

#[test]
fn a_form_or_size_that_the_table_lacks_is_a_missing_fact_even_alone() {
    // Nothing is converted: 1 cup stays 1 cup of its form, 3 pieces stay 3.
    let foods = "[[food]]\nname = \"icebulb\"\ncup = { chopped = \"160 g\" }\neach = { small = \"50 g\", large = \"90 g\" }\n";
    let own = [("1 cup grated icebulb", 1.0, "cup grated", "cup"), ("3 medium icebulbs", 3.0, "each", "medium")];
    for (text, amount, unit, key) in own {
        let kitchen = kitchen().foods(foods).meals(&supper("2026-11-30", &format!("\"{text}\"")));
        assert_amount(&line(&kitchen.list(), "icebulb")["need"], amount, unit);
        let said = stderr(&kitchen.run(&["list"]));
        assert!(said.contains(text) && said.contains(key) && said.contains("foods.toml"), "{said}");
    }
}

#[test]
fn a_cup_prepared_after_the_comma_is_weighed_in_that_form() {
    // 160 ÷ 0.8; diced is measured as chopped.
    asks("1 cup moonroot, chopped", "moonroot", 200.0);
    asks("1 cup moonroot, diced", "moonroot", 200.0);
}

#[test]
fn a_weight_beside_a_volume_or_a_count_is_the_amount() {
    asks("1 cup (150 g) bluegrain", "bluegrain", 150.0);
    asks("2 large moonroots (300 g)", "moonroot", 300.0);
    asks("2 moonroots (150 g each)", "moonroot", 300.0);
}

#[test]
fn several_foods_in_a_line_are_several_needs() {
    let list = with_line("100 g moonroot and 50 g bluegrain").list();
    assert_amount(&line(&list, "moonroot")["need"], 100.0, "g");
    assert_amount(&line(&list, "bluegrain")["need"], 50.0, "g");
}

#[test]
fn a_cooked_weight_without_its_factor_is_not_mistaken_for_grams_as_purchased() {
    // 50 g as purchased; 100 g cooked has no factor, and is neither 100 g nor a hundred lines.
    let foods = "[[food]]\nname = \"icebulb\"\n";
    let list = kitchen().foods(foods).meals(&supper("2026-11-30", "\"50 g icebulb\", \"100 g cooked icebulb\"")).list();
    let needs = lines(&list).iter().map(|(_, _, line)| line["need"].to_string()).collect::<Vec<_>>();
    assert_eq!(needs, [r#"{"amount":50.0,"unit":"g"}"#, r#"{"amount":100.0,"unit":"g cooked"}"#]);
}

#[test]
fn what_can_be_added_up_stands_beside_a_line_in_its_own_words() {
    let meals = supper("2026-11-30", "\"100 g moonroot\", \"1 handful moonroot\"");
    let list = kitchen().foods(FOODS).meals(&meals).list();
    let needs: Vec<(f64, String)> = lines(&list)
        .iter()
        .filter(|(_, _, line)| line["food"] == "moonroot")
        .map(|(_, _, line)| (line["need"]["amount"].as_f64().unwrap_or(f64::NAN), line["need"]["unit"].as_str().unwrap_or("?").to_owned()))
        .collect();
    assert!(needs.contains(&(100.0, "g".to_owned())), "{needs:?}");
}

#[test]
fn one_food_in_several_lines_is_added_up() {
    // 100 as purchased + 80 after trimming ÷ 0.8 = 200.
    let list = kitchen().foods(FOODS).meals(&supper("2026-11-30", "\"100 g moonroot, sliced\", \"80 g sliced moonroot\"")).list();
    assert_amount(&line(&list, "moonroot")["need"], 200.0, "g");
}

#[test]
fn an_amount_per_person_is_taken_for_all_portions_of_the_recipe() {
    let stew = |line: &str, makes: &str| {
        let recipe = format!("name = \"Stew\"\nmakes = \"{makes}\"\nkeeps = {{ fridge = \"3 days\" }}\ningredients = [\"{line}\"]\n");
        kitchen().foods(FOODS).recipe("stew", &recipe).meals("")
    };
    for (line, grams) in [("150 g bluegrain per person", 600.0), ("150 g bluegrain (per serving)", 600.0), ("150 g bluegrain", 150.0)] {
        let card = json(&stew(line, "4 portions").run(&["--format", "json", "recipe", "stew"]));
        assert_eq!(card["ingredients"][0]["amount"]["amount"].as_f64(), Some(grams), "{line}");
    }
    let told = |makes: &str| stderr(&stew("150 g bluegrain per person", makes).run(&["check"]));
    assert!(
        told("4 portions").contains("\"150 g bluegrain per person\" is what one gets: 600 g in all, for 4 portions."),
        "{}",
        told("4 portions")
    );
    assert!(told("2 kg").contains("so much is bought in all"), "{}", told("2 kg"));
}
