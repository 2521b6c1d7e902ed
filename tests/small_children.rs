//! Each rule for small children, by hand: the food, the age, and what it takes to be told no more.

use crate::kitchen::{Kitchen, kitchen, stderr};

/// Pim alone, at supper on Monday 30 November 2026.
fn pim(born: &str, each: &str, foods: &str) -> Kitchen {
    let household = format!(
        "[household]\nname = \"Test row\"\ncurrency = \"EUR\"\n[[eater]]\nname = \"Pim\"\nborn = {born}\n[[appliance]]\nname = \"hob\"\n"
    );
    kitchen()
        .file("kitchen.toml", &household)
        .foods(foods)
        .meals(&format!("[[meal]]\nday = \"mon\"\nat = \"supper\"\neach = [\"{each}\"]\n"))
}

const UNDER_ONE: &str = "2026-02-20";
const ONE: &str = "2025-11-30";
const THREE: &str = "2022-12-01";
const FOUR: &str = "2022-11-30";

#[track_caller]
fn cautioned(kitchen: &Kitchen, words: &str, sources: &[&str]) {
    let output = kitchen.run(&["check"]);
    let said = stderr(&output);
    assert_eq!(output.status.code(), Some(0), "{said}");
    let line = said.lines().find(|line| line.contains(words)).unwrap_or_else(|| panic!("no \"{words}\" in {said}"));
    assert!(line.contains("Pim") && line.contains("Ask the child's doctor."), "{line}");
    sources.iter().for_each(|source| assert!(line.contains(source), "{source} in {line}"));
}

#[track_caller]
fn silent(kitchen: &Kitchen, words: &str) {
    let output = kitchen.run(&["check"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    assert!(!stderr(&output).contains(words), "{}", stderr(&output));
}

#[test]
fn honey_is_refused_under_twelve_months_also_inside_dishes() {
    let inside = pim(UNDER_ONE, "1 portion recipe:oat-cake", "")
        .recipe("oat-cake", "name = \"Oat cake\"\nmakes = \"1 portion\"\ningredients = [\"5 g honey\"]\nkeeps = { fridge = \"3 days\" }\n");
    let said = inside.refusal();
    for words in ["Mon supper, Pim: Oat cake > honey: is never given before 12 months", "CDC", "instead", "without = { Pim = [\"honey\"] }"]
    {
        assert!(said.contains(words), "{words} in {said}");
    }
    silent(&pim(ONE, "5 g honey", ""), "honey");
}

#[test]
fn whole_nuts_are_a_caution_up_to_four() {
    cautioned(&pim(UNDER_ONE, "10 g walnuts", ""), "no whole nuts", &["CDC", "AAP"]);
    cautioned(&pim(THREE, "10 g walnuts", ""), "under 4 years: no whole nuts", &["CDC", "AAP"]);
    silent(&pim(FOUR, "10 g walnuts", ""), "whole nuts");
    silent(&pim(THREE, "10 g ground almonds", ""), "whole nuts");
    silent(&pim(THREE, "10 g ground walnuts", ""), "whole nuts");
}

#[test]
fn nut_butter_by_the_spoon_and_cheese_in_pieces_are_a_caution_under_four() {
    cautioned(&pim(THREE, "10 g peanut butter", ""), "spread it thinly", &["CDC", "AAP"]);
    cautioned(&pim(THREE, "10 g almond butter", ""), "spread it thinly", &["CDC", "AAP"]);
    silent(&pim(THREE, "10 g butter", ""), "spread it thinly");
    silent(&pim(FOUR, "10 g peanut butter", ""), "spread it thinly");
    cautioned(&pim(THREE, "30 g cheddar, cubed", ""), "slice it thinly", &["CDC", "AAP"]);
    cautioned(&pim(THREE, "30 g diced feta", ""), "slice it thinly", &["CDC", "AAP"]);
    silent(&pim(THREE, "30 g cheddar, grated", ""), "slice it thinly");
    silent(&pim(THREE, "30 g butter, cubed", ""), "slice it thinly");
}

#[test]
fn a_day_of_birth_after_the_meal_guards_as_the_youngest() {
    let said = pim("2027-02-20", "5 g honey", "").refusal();
    assert!(said.contains("honey: is never given before 12 months"), "{said}");
    cautioned(&pim("2027-02-20", "1 tsp salt", ""), "born after that day, on 2027-02-20", &["WHO"]);
}

#[test]
fn raw_egg_is_a_caution_under_one_until_a_step_heats_it() {
    cautioned(&pim(UNDER_ONE, "1 egg", ""), "cook egg until firm", &["CDC"]);
    let dish = |step: &str| {
        format!(
            "name = \"Egg dish\"\nmakes = \"1 portion\"\ningredients = [\"1 egg\"]\nkeeps = {{ fridge = \"3 days\" }}\n[[step]]\ntext = \"Do it to {{egg}}.\"\nhands = \"2 min\"\n{step}"
        )
    };
    cautioned(&pim(UNDER_ONE, "1 portion recipe:egg-dish", "").recipe("egg-dish", &dish("")), "cook egg until firm", &["CDC"]);
    silent(&pim(UNDER_ONE, "1 portion recipe:egg-dish", "").recipe("egg-dish", &dish("on = \"hob\"\ninside = \"71 °C\"\n")), "until firm");
    // A mixer heats nothing, and neither does a pan that was hot before the egg came.
    let mixer = "[[appliance]]\nname = \"mixer\"\n";
    let beaten = pim(UNDER_ONE, "1 portion recipe:egg-dish", "").recipe("egg-dish", &dish("on = \"mixer\"\n"));
    let household = std::fs::read_to_string(beaten.path().join("kitchen.toml")).unwrap();
    cautioned(&beaten.file("kitchen.toml", &format!("{household}{mixer}")), "cook egg until firm", &["CDC"]);
    let late = "name = \"Egg dish\"\nmakes = \"1 portion\"\ningredients = [\"1 egg\", \"50 g rolled oats\"]\nkeeps = { fridge = \"3 days\" }\n\
                [[step]]\ntext = \"Toast {rolled oats}.\"\nhands = \"2 min\"\non = \"hob\"\n[[step]]\ntext = \"Stir in {egg}.\"\nhands = \"1 min\"\n";
    cautioned(&pim(UNDER_ONE, "1 portion recipe:egg-dish", "").recipe("egg-dish", late), "cook egg until firm", &["CDC"]);
    silent(&pim(ONE, "1 egg", ""), "until firm");
}

#[test]
fn added_salt_and_sugar_are_cautions_under_one() {
    cautioned(&pim(UNDER_ONE, "1 g salt", ""), "is not added to what an infant eats", &["WHO", "CDC"]);
    cautioned(&pim(UNDER_ONE, "10 g caster sugar", ""), "added sugar", &["WHO", "CDC"]);
    cautioned(&pim(UNDER_ONE, "10 g maple syrup", ""), "added sugar", &["WHO", "CDC"]);
    silent(&pim(ONE, "1 g salt", ""), "is not added");
    silent(&pim(ONE, "10 g caster sugar", ""), "added sugar");
}

#[test]
fn what_a_small_child_can_choke_on_is_a_caution_up_to_four() {
    for (each, words) in [
        ("50 g grapes", "quarter it"),
        ("50 g cherry tomatoes", "quarter it"),
        ("50 g blueberries", "quarter it"),
        ("50 g carrots", "raw and in pieces"),
        ("50 g celery", "raw and in pieces"),
        ("1 apple", "raw and in pieces"),
        ("1 sausage", "lengthwise"),
        ("50 g radishes", "raw and in pieces"),
        ("20 g sultanas", "choking hazard under 4 years"),
        ("20 g popcorn", "choking hazard under 4 years"),
        ("20 g raisins", "choking hazard under 4 years"),
    ] {
        cautioned(&pim(THREE, each, ""), words, &["CDC", "AAP"]);
        silent(&pim(FOUR, each, ""), "choking");
    }
    silent(&pim(THREE, "50 g carrots, grated", ""), "raw and in pieces");
    silent(&pim(THREE, "50 g grapes, quartered", ""), "quarter it");
}

#[test]
fn one_whose_birth_is_written_after_the_meal_is_guarded_as_the_youngest_and_that_is_told() {
    cautioned(&pim("2026-12-24", "50 g grapes", ""), "born after that day, on 2026-12-24: see born", &["CDC", "AAP"]);
}

/// A dish of these for Pim, with a method of one paragraph.
fn dish(born: &str, ingredients: &str, method: &str) -> Kitchen {
    let recipe = format!(
        "name = \"Small dish\"\nmakes = \"4 portions\"\nbatches = \"any\"\ningredients = [{ingredients}]\nkeeps = {{ fridge = \"3 days\" }}\nmethod = [\"{method}\"]\n"
    );
    pim(born, "1 portion recipe:small-dish", "").recipe("small-dish", &recipe)
}

#[test]
fn honey_that_only_words_name_is_a_caution_under_one() {
    let oats = |born| dish(born, "\"100 g rolled oats\"", "Mix. Drizzle with honey.");
    cautioned(&oats(UNDER_ONE), "name honey, which is not among the ingredients", &["CDC"]);
    silent(&oats(ONE), "honey");
    cautioned(&dish(UNDER_ONE, "\"100 g rolled oats\"", "Mix and scatter with walnuts."), "name walnuts", &["CDC", "AAP"]);
    cautioned(&dish(UNDER_ONE, "\"100 g rolled oats\"", "Mix and add a pinch of salt."), "name salt", &["WHO"]);
    cautioned(&pim(UNDER_ONE, "50 g rolled oats, with honey", ""), "names honey", &["CDC"]);
}

#[test]
fn what_may_have_honey_in_it_is_a_caution_under_one() {
    for each in ["20 g honey mustard dressing", "20 g honeycomb", "20 g honey nut cornflakes", "20 g granola"] {
        cautioned(&pim(UNDER_ONE, each, ""), "may have honey in it", &["CDC"]);
        silent(&pim(ONE, each, ""), "honey in it");
    }
    silent(&pim(UNDER_ONE, "50 g honeydew melon", ""), "honey in it");
}

#[test]
fn an_egg_is_firm_only_where_the_heat_comes_after_it_and_lasts() {
    let eggs = "\"3 eggs\", \"200 g dark chocolate\"";
    let mousse = "Melt the chocolate for 5 minutes. Whisk the eggs and fold in. Chill for 2 hours.";
    cautioned(&dish(UNDER_ONE, eggs, mousse), "cook egg until firm", &["CDC"]);
    for cold in ["chill until set.", "set aside.", "fold into cooked cream, and chill for 2 hours."] {
        let mousse = format!("Melt the chocolate for 5 minutes, then whisk in the eggs and {cold}");
        cautioned(&dish(UNDER_ONE, eggs, &mousse), "cook egg until firm", &["CDC"]);
    }
    for soft in ["Boil the eggs for 4 minutes.", "Poach the eggs for 3 minutes, until the yolk is still runny."] {
        cautioned(&dish(UNDER_ONE, "\"3 eggs\"", soft), "cook egg until firm", &["CDC"]);
    }
    for firm in ["Boil the eggs for 10 minutes.", "Beat the eggs. Bake at 180 °C for 25 minutes.", "Whisk the eggs and fry for 4 minutes."]
    {
        silent(&dish(UNDER_ONE, "\"3 eggs\"", firm), "until firm");
    }
}

#[test]
fn nuts_in_bits_and_seeds_are_a_caution_up_to_four() {
    for each in ["20 g chopped walnuts", "20 g flaked almonds", "20 g pumpkin seeds"] {
        cautioned(&pim(THREE, each, ""), "choking hazard under 4 years", &["CDC", "AAP"]);
        cautioned(&pim(UNDER_ONE, each, ""), "choking hazard", &["CDC", "AAP"]);
        silent(&pim(FOUR, each, ""), "choking");
    }
    silent(&pim(THREE, "20 g ground almonds", ""), "choking");
    silent(&pim(THREE, "20 g tahini", ""), "choking");
}

#[test]
fn salty_food_is_a_caution_under_one() {
    for each in ["10 ml soy sauce", "1 stock cube", "100 g bacon", "20 g olives"] {
        cautioned(&pim(UNDER_ONE, each, ""), "is rich in salt", &["NHS"]);
        silent(&pim(ONE, each, ""), "rich in salt");
    }
    silent(&pim(UNDER_ONE, "50 g wholemeal bread", ""), "rich in salt");
    // What is low in salt has some; what has none added has none.
    let stock = |name: &str| format!("[[food]]\nname = \"{name}\"\nkind = \"stock\"\nallergens = []\n");
    cautioned(&pim(UNDER_ONE, "50 ml low-salt stock", &stock("low-salt stock")), "is rich in salt", &["NHS"]);
    silent(&pim(UNDER_ONE, "50 ml salt-free stock", &stock("salt-free stock")), "rich in salt");
    silent(&pim(UNDER_ONE, "50 ml no-added-salt stock", &stock("no-added-salt stock")), "rich in salt");
}
