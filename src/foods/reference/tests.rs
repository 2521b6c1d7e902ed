//! The promises of the built-in table: that it can be read, holds no impossible figure, and agrees with what it names as its source.

use std::collections::{BTreeMap, BTreeSet};

use pretty_assertions::assert_eq;

use super::row::{ANNEX_II, COMMON, read_row};
use super::*;
use crate::foods::{Allergen, Fact, Food, Keeping, Kind, Measured, Nutrients, Place, key_of};
use crate::measure::{Days, US_CUP_ML};

mod holes;
mod names;

mod practice;

/// Every row read at once.
fn read(table: &str) -> Result<Vec<Food>, Fault> {
    written(table.to_owned().leak())?;
    let rows = table.lines().enumerate().filter(|(_, line)| !line.is_empty() && !line.starts_with('#')).skip(1);
    rows.map(|(index, row)| read_row(row).map_err(|what| Fault { line: index + 1, what })).collect()
}

fn rows() -> Vec<Food> {
    read(TABLE).unwrap()
}

fn reference() -> Foods {
    Foods::reference()
}

#[test]
fn what_is_read_when_it_is_asked_for_is_what_stands_in_the_table() {
    let (foods, rows) = (reference(), rows());
    assert_eq!(foods.len(), rows.len());
    for (index, row) in rows.iter().enumerate() {
        assert_eq!(foods.find(&row.name), Some(FoodId(index as u32)));
        assert_eq!(&foods[FoodId(index as u32)], row);
    }
}

fn find<'a>(foods: &'a Foods, name: &str) -> &'a Food {
    &foods[foods.find(name).unwrap_or_else(|| panic!("no {name}"))]
}

fn weights(measured: &Measured) -> Vec<f64> {
    match measured {
        Measured::Single(grams) => vec![*grams],
        Measured::Table(table) => table.values().copied().collect(),
    }
}

/// Grams of a cup, or of one, in the form or size; the single weight where `form` is empty.
fn grams(fact: &Option<Fact<Measured>>, form: &str) -> Option<f64> {
    match &fact.as_ref()?.value {
        Measured::Single(grams) => form.is_empty().then_some(*grams),
        Measured::Table(table) => table.get(form).copied(),
    }
}

/// Figures of the nutrients that may have a source of their own.
const NUTRIENTS: [&str; 5] = ["protein", "carbohydrate", "fat", "fibre", "sodium"];

/// Every source that the table states, once a figure.
fn sources(food: &Food) -> Vec<&str> {
    let Keeping { cupboard, fridge, freezer, opened } = &food.keeps;
    let days = [cupboard, fridge, freezer, opened, &food.thaw].into_iter().flatten().map(|fact| fact.source.as_str());
    let numbers = [&food.edible, &food.cooked, &food.drained].into_iter().flatten().map(|fact| fact.source.as_str());
    let weights = [&food.cup, &food.each].into_iter().flatten();
    let weights = weights.flat_map(|fact| weights_in(&fact.value).map(|_| fact.source.as_str()));
    let words = food.words.values().map(|fact| fact.source.as_str());
    // That nothing is certain is no figure.
    let certain = food.contains.iter().filter(|fact| !fact.value.is_empty());
    let allergens = food.allergens.iter().chain(certain).map(|fact| fact.source.as_str());
    let cooks = food.cooks.iter().map(|fact| fact.source.as_str());
    let single = NUTRIENTS.iter().filter_map(|name| food.told.get(*name)).map(String::as_str);
    // Six figures, but one row looked up: counted once, so that they do not drown the others.
    let nutrients = food.nutrients.iter().map(|fact| fact.source.as_str());
    days.chain(numbers).chain(weights).chain(words).chain(allergens).chain(cooks).chain(nutrients).chain(single).collect()
}

fn weights_in(measured: &Measured) -> impl Iterator<Item = f64> + use<> {
    weights(measured).into_iter()
}

fn is_published(source: &str) -> bool {
    let numbered = ["USDA SR ", "FSIS ", ANNEX_II].iter().any(|of| source.starts_with(of));
    numbered && !source.contains("from memory")
}

#[test]
fn the_reference_knows_the_foods_of_a_common_shelf() {
    assert!(reference().len() >= 1400);
}

#[test]
fn no_name_is_given_twice_in_either_number() {
    let mut first: BTreeMap<String, String> = BTreeMap::new();
    for food in rows() {
        for name in std::iter::once(&food.name).chain(&food.also) {
            let before = first.insert(key_of(name), food.name.clone());
            assert_eq!(before, None, "{name} of {}", food.name);
        }
    }
}

#[test]
fn every_food_has_a_kind_a_section_and_a_source() {
    for food in rows() {
        assert!(food.kind.is_some() && food.section.is_some(), "{}", food.name);
        let sources = sources(&food);
        assert!(!sources.is_empty(), "{}", food.name);
        assert!(sources.iter().all(|source| !source.is_empty()), "{}", food.name);
    }
}

#[test]
fn sections_are_few() {
    let sections: BTreeSet<String> = rows().into_iter().filter_map(|food| food.section).collect();
    let known = [
        "Baking",
        "Bread",
        "Chilled",
        "Dairy",
        "Drinks",
        "Eggs",
        "Fish",
        "Frozen",
        "Fruit",
        "Grains and pulses",
        "Herbs",
        "Household",
        "Meat",
        "Nuts and seeds",
        "Oils and sauces",
        "Spices",
        "Tins",
        "Vegetables",
    ];
    assert_eq!(sections.iter().map(String::as_str).collect::<Vec<_>>(), known);
}

#[test]
fn seven_figures_in_ten_are_published_and_every_other_says_that_it_is_not() {
    let foods = reference();
    let all: Vec<&str> = foods.all.iter().flat_map(sources).collect();
    let (published, other): (Vec<&str>, Vec<&str>) = all.iter().partition(|source| is_published(source));
    assert!(published.len() * 10 >= all.len() * 7, "{} of {}", published.len(), all.len());
    for source in other {
        assert!(source == COMMON || source.contains("from memory"), "{source}");
    }
}

#[test]
fn a_cup_weighs_what_food_can_weigh() {
    // From freeze-dried chives, 3.2 g (USDA SR 11615), to syrups; 0.013 to 2 g/ml.
    for food in rows() {
        for grams in food.cup.iter().flat_map(|fact| weights_in(&fact.value)) {
            assert!((0.013..=2.0).contains(&(grams / US_CUP_ML.to_f64())), "{}: {grams}", food.name);
        }
    }
}

#[test]
fn shares_lie_between_nothing_and_all() {
    for food in rows() {
        for fact in [&food.edible, &food.drained].into_iter().flatten() {
            assert!(fact.value > 0.0 && fact.value <= 1.0, "{}: {}", food.name, fact.value);
        }
    }
}

#[test]
fn grains_and_pulses_take_up_between_once_and_a_little_over_four_times_their_weight() {
    for food in rows() {
        if let Some(cooked) = &food.cooked {
            // Bulgur takes up the most: (100 - 9.00) / (100 - 77.76) = 4.09, USDA SR 20012, 20013.
            assert!((1.0..=4.1).contains(&cooked.value), "{}: {}", food.name, cooked.value);
        }
    }
}

#[test]
fn days_and_weights_are_more_than_nothing() {
    for food in rows() {
        let Keeping { cupboard, fridge, freezer, opened } = &food.keeps;
        for fact in [cupboard, fridge, freezer, opened, &food.thaw].into_iter().flatten() {
            assert!(fact.value.0 > 0, "{}", food.name);
        }
        let pieces = food.each.iter().flat_map(|fact| weights_in(&fact.value));
        for grams in pieces.chain(food.words.values().map(|fact| fact.value)) {
            assert!(grams > 0.0 && grams < 10_000.0, "{}: {grams}", food.name);
        }
    }
}

#[test]
fn sizes_grow_from_small_to_large() {
    for food in rows() {
        let sizes: Vec<f64> = ["small", "medium", "large"].iter().filter_map(|size| grams(&food.each, size)).collect();
        assert!(sizes.is_sorted(), "{}: {sizes:?}", food.name);
    }
}

#[test]
fn nutrients_fit_into_a_hundred_grams() {
    for food in rows() {
        let Some(Fact { value, .. }) = food.nutrients else { continue };
        let parts = [value.protein_g, value.carbohydrate_g, value.fat_g].into_iter().flatten();
        assert!(parts.sum::<f64>() <= 101.0, "{}", food.name);
        assert!(value.kcal.is_none_or(|kcal| (0.0..=905.0).contains(&kcal)), "{}", food.name);
    }
}

#[test]
fn cups_weigh_what_usda_weighed() {
    // USDA SR, household weights; the NDB number stands beside each.
    let foods = reference();
    for (name, form, cup, source) in [
        ("onion", "chopped", 160.0, "USDA SR 11282"),
        ("onion", "sliced", 115.0, "USDA SR 11282"),
        ("carrot", "grated", 110.0, "USDA SR 11124"),
        ("red cabbage", "shredded", 70.0, "USDA SR 11112"),
        ("apple", "sliced", 109.0, "USDA SR 09003"),
        ("banana", "mashed", 225.0, "USDA SR 09040"),
        ("mushroom", "whole", 96.0, "USDA SR 11260"),
        ("spinach", "", 30.0, "USDA SR 11457"),
        ("parsley", "chopped", 60.0, "USDA SR 11297"),
        ("feta", "", 150.0, "USDA SR 01019"),
        ("cheddar", "grated", 113.0, "USDA SR 01009"),
        ("milk", "", 244.0, "USDA SR 01211"),
        ("yoghurt", "", 245.0, "USDA SR 01116"),
        ("butter", "", 227.0, "USDA SR 01001"),
        ("plain flour", "", 125.0, "USDA SR 20481"),
        ("strong flour", "", 137.0, "USDA SR 20083"),
        ("wholemeal flour", "", 120.0, "USDA SR 20080"),
        ("sugar", "", 200.0, "USDA SR 19335"),
        ("brown sugar", "packed", 220.0, "USDA SR 19334"),
        ("honey", "", 339.0, "USDA SR 19296"),
        ("olive oil", "", 216.0, "USDA SR 04053"),
        ("salt", "", 292.0, "USDA SR 02047"),
        ("soy sauce", "", 255.0, "USDA SR 16123"),
        ("tinned white beans", "", 262.0, "USDA SR 16051"),
        ("almond", "ground", 95.0, "USDA SR 12061"),
        ("walnut", "chopped", 117.0, "USDA SR 12155"),
        // With a second number where the cooked or drained cup has a row of its own.
        ("pearl barley", "whole", 200.0, "USDA SR 20005, 20006"),
        ("pearl barley", "cooked", 157.0, "USDA SR 20005, 20006"),
        ("white rice", "cooked", 158.0, "USDA SR 20444, 20445"),
        ("dried white beans", "whole", 202.0, "USDA SR 16049, 16050"),
        ("tinned chickpeas", "drained", 152.0, "USDA SR 16058, 16359"),
        // A tablespoon of 7.8 g, sixteen to the cup.
        ("cinnamon", "", 125.0, "USDA SR 02010"),
    ] {
        let food = find(&foods, name);
        assert_eq!(grams(&food.cup, form), Some(cup), "{name}, {form}");
        assert_eq!(food.cup.as_ref().unwrap().source, source, "{name}");
    }
}

#[test]
fn one_piece_weighs_as_bought() {
    // USDA SR weighs the edible part; as bought that is it / (1 - refuse), to three figures.
    let foods = reference();
    for (name, size, edible, refuse, bought) in [
        ("onion", "medium", 110.0, 0.10, 122.0),     // 11282
        ("onion", "small", 70.0, 0.10, 77.8),        // 11282
        ("carrot", "medium", 61.0, 0.11, 68.5),      // 11124
        ("banana", "medium", 118.0, 0.36, 184.0),    // 09040
        ("orange", "medium", 131.0, 0.27, 179.0),    // 09200, fruit of 2-5/8 in
        ("apple", "medium", 182.0, 0.10, 202.0),     // 09003
        ("lemon", "medium", 58.0, 0.47, 109.0),      // 09150, fruit of 2-1/8 in
        ("sweetcorn", "medium", 102.0, 0.64, 283.0), // 11167, ear
        ("leek", "", 89.0, 0.56, 202.0),             // 11246
        ("mango", "", 336.0, 0.29, 473.0),           // 09176, fruit without refuse
        ("avocado", "", 201.0, 0.26, 272.0),         // 09037
        ("egg", "large", 50.0, 0.12, 56.8),          // 01123
    ] {
        let food = find(&foods, name);
        assert_eq!(grams(&food.each, size), Some(bought), "{name}");
        assert!((edible / (1.0 - refuse) - bought).abs() < bought * 0.005, "{name}");
        assert!((food.edible.as_ref().unwrap().value - (1.0 - refuse)).abs() < 1e-9, "{name}");
    }
    // A clove of 3 g without the 13 % of knob and skin, USDA SR 11215; a stick of butter has no refuse, USDA SR 01001.
    assert_eq!(find(&foods, "garlic").words["clove"].value, 3.45);
    assert_eq!(find(&foods, "butter").words["stick"].value, 113.0);
}

#[test]
fn what_is_cut_away_is_usdas_refuse() {
    let foods = reference();
    for (name, refuse) in [
        ("cauliflower", 0.61),   // 11135, leaf stalks, cores and trimmings
        ("broccoli", 0.39),      // 11090, leaves and tough stalks
        ("beetroot", 0.33),      // 11080, parings and part tops
        ("aubergine", 0.19),     // 11209, ends, parings and trimmings
        ("celery", 0.11),        // 11143
        ("red pepper", 0.18),    // 11821, stem ends, seeds and core
        ("pineapple", 0.49),     // 09266
        ("chicken thigh", 0.30), // 05091, bone
        ("garlic", 0.13),        // 11215
    ] {
        let edible = find(&foods, name).edible.as_ref().unwrap().value;
        assert!((edible - (1.0 - refuse)).abs() < 1e-9, "{name}: {edible}");
    }
    assert_eq!(find(&foods, "olive oil").edible, None);
}

#[test]
fn cooked_factors_come_from_the_water_in_both() {
    let foods = reference();
    for (name, dry, cooked, factor) in [
        ("pearl barley", 10.09, 68.80, 2.88),      // 20005, 20006
        ("white rice", 11.62, 68.44, 2.80),        // 20444, 20445
        ("brown rice", 10.37, 73.09, 3.33),        // 20036, 20037
        ("couscous", 8.56, 72.57, 3.33),           // 20028, 20029
        ("pasta", 9.90, 62.13, 2.38),              // 20499, 20400
        ("lentils", 10.40, 69.64, 2.95),           // 16069, 16070
        ("dried white beans", 11.32, 63.08, 2.40), // 16049, 16050
        ("dried chickpeas", 11.53, 60.21, 2.22),   // 16056, 16057
    ] {
        assert_eq!(find(&foods, name).cooked.as_ref().map(|fact| fact.value), Some(factor), "{name}");
        assert!(((100.0 - dry) / (100.0 - cooked) - factor).abs() <= 0.005, "{name}");
    }
}

#[test]
fn food_keeps_for_the_lower_figure_of_fsis() {
    // USDA FSIS storage data, version 128: chicken legs or thighs 1-2 days and 270-270; onions 30-30 and 60-60.
    let foods = reference();
    let days = |fact: &Option<Fact<Days>>| fact.as_ref().map(|fact| (fact.value.0, fact.source.clone()));
    let thigh = &find(&foods, "chicken thigh").keeps;
    assert_eq!(days(&thigh.fridge), Some((1, "FSIS 118".into())));
    assert_eq!(days(&thigh.freezer), Some((270, "FSIS 118".into())));
    assert_eq!(days(&thigh.cupboard), None);
    let onion = &find(&foods, "onion").keeps;
    assert_eq!((days(&onion.cupboard), days(&onion.fridge)), (Some((30, "FSIS 294".into())), Some((60, "FSIS 294".into()))));
    // Flour, white: 180-240 days opened in the cupboard, 365 in the fridge.
    assert_eq!(days(&find(&foods, "plain flour").keeps.opened), Some((180, "FSIS 222".into())));
    // Sold frozen, it keeps there alone: the fridge days of the row are those of thawed food.
    assert_eq!(days(&find(&foods, "frozen peas").keeps.fridge), None);
}

#[test]
fn allergens_are_known_where_they_do_not_depend_on_the_maker() {
    let foods = reference();
    let allergens = |name: &str| find(&foods, name).allergens.as_ref().map(|fact| fact.value.clone());
    assert_eq!(allergens("carrot"), Some(vec![]));
    assert_eq!(allergens("tahini"), Some(vec![Allergen::Sesame]));
    assert_eq!(allergens("celeriac"), Some(vec![Allergen::Celery]));
    assert_eq!(allergens("soy sauce"), Some(vec![Allergen::Gluten, Allergen::Soybeans]));
    assert_eq!(allergens("oat milk"), Some(vec![Allergen::Gluten]));
    assert_eq!(allergens("prawn"), Some(vec![Allergen::Crustaceans]));
    assert_eq!(allergens("stock cube"), None);
    assert_eq!(allergens("white bread"), None);
}

#[test]
fn american_names_find_british_foods() {
    let foods = reference();
    for (american, british) in [
        ("zucchini", "courgette"),
        ("eggplants", "aubergine"),
        ("cilantro", "coriander"),
        ("rutabaga", "swede"),
        ("scallions", "spring onion"),
        ("all-purpose flour", "plain flour"),
        ("canned white beans", "tinned white beans"),
        ("chopped tomatoes", "tinned chopped tomatoes"),
        ("cornstarch", "cornflour"),
        ("heavy cream", "double cream"),
        ("ground beef", "minced beef"),
        ("garbanzo beans", "dried chickpeas"),
        ("beets", "beetroot"),
        ("arugula", "rocket"),
        ("plain yogurt", "yoghurt"),
    ] {
        assert_eq!(find(&foods, american).name, british);
    }
}

#[test]
fn raw_meat_poultry_fish_and_egg_are_known_as_such() {
    let foods = reference();
    for (name, kind) in [
        ("chicken thigh", "raw poultry"),
        ("minced turkey", "raw poultry"),
        ("minced beef", "raw minced meat"),
        ("sausage", "raw minced meat"),
        ("pork shoulder", "raw meat"),
        ("bacon", "raw meat"),
        ("cod", "raw fish"),
        ("prawn", "raw seafood"),
        ("egg", "raw egg"),
        ("ham", "cooked meat"),
        ("cheddar", "dairy"),
    ] {
        assert_eq!(find(&foods, name).kind.map(Kind::name), Some(kind), "{name}");
    }
}

#[test]
fn a_broken_row_is_named_by_its_line() {
    let header = COLUMNS.join("\t");
    let row = |cup: &str| format!("{header}\nonion\t\tvegetable\tVegetables\t11282\t\t{cup}{}", "\t".repeat(19));
    assert_eq!(read(&row("chopped=160")).unwrap().len(), 1);
    assert_eq!(read(&row("chopped=lots")).unwrap_err(), Fault { line: 2, what: "\"lots\" is no number".into() });
    assert_eq!(read("# comment\nname\tcup").unwrap_err().line, 2);
    assert_eq!(read(&format!("{header}\nonion")).unwrap_err(), Fault { line: 2, what: "1 cells, not 26".into() });
}
