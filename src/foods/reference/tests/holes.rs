//! What the table does not know, counted by kind of fact: the count may fall, and never grows.

use pretty_assertions::assert_eq;

use super::*;

/// Kinds that nobody measures by the cup or spoon.
const NEVER_POURED: [&str; 13] = [
    "raw poultry",
    "raw meat",
    "raw minced meat",
    "raw fish",
    "raw seafood",
    "raw egg",
    "cooked meat",
    "cooked fish",
    "cooked egg",
    "bread",
    "household",
    "herb",
    "water",
];

/// Kinds that people count, one by one or by the bunch, slice, tin, handful.
const COUNTED: [&str; 11] =
    ["vegetable", "fruit", "herb", "bread", "raw egg", "cooked egg", "raw poultry", "raw meat", "raw fish", "raw seafood", "household"];

/// Sections whose goods come in a pack, which somebody opens.
const PACKED: [&str; 10] =
    ["Tins", "Chilled", "Dairy", "Oils and sauces", "Drinks", "Bread", "Grains and pulses", "Nuts and seeds", "Baking", "Spices"];

/// What nobody counts of these: minced and diced meat, tripe, salt cod, roe.
const MOST_UNWEIGHED: usize = 15;

/// What nobody has a cup of: sheets, pastry, cubes, pods, tea bags, pies.
const MOST_UNCUPPED: usize = 61;

/// Bran, flakes and cereals are eaten as they are; popcorn is popped; lupin beans need days of soaking first.
const MOST_UNCOOKED: usize = 15;

fn is(food: &Food, kinds: &[&str]) -> bool {
    food.kind.is_some_and(|kind| kinds.contains(&kind.name()))
}

fn nutrient(food: &Food, of: impl Fn(&Nutrients) -> Option<f64>) -> bool {
    food.nutrients.as_ref().and_then(|fact| of(&fact.value)).is_some()
}

/// Is it eaten, so that facts of food are asked of it?
fn eaten(food: &Food) -> bool {
    !is(food, &["household"])
}

fn holes(lacks: impl Fn(&Food) -> bool) -> Vec<String> {
    rows().into_iter().filter(|food| lacks(food)).map(|food| food.name).collect()
}

/// Every food has these; a food that is added without one is named here.
#[test]
fn every_food_has_energy_protein_fibre_and_allergens_and_keeps_for_some_time() {
    assert_eq!(holes(|food| !nutrient(food, |per| per.kcal)), [""; 0]);
    assert_eq!(holes(|food| !nutrient(food, |per| per.protein_g)), [""; 0]);
    assert_eq!(holes(|food| !nutrient(food, |per| per.fibre_g)), [""; 0]);
    assert_eq!(holes(|food| food.allergens.is_none() && food.contains.is_none()), [""; 0]);
    let never_off = |food: &Food| food.name == "water" || !eaten(food);
    assert_eq!(
        holes(
            |food| !never_off(food) && [Place::Cupboard, Place::Fridge, Place::Freezer].iter().all(|place| food.keeps.at(*place).is_none())
        ),
        [""; 0]
    );
}

#[test]
fn what_comes_in_a_pack_says_how_long_it_keeps_once_opened() {
    let packed = |food: &Food| {
        let section = food.section.as_deref().unwrap_or_default();
        PACKED.contains(&section) || section != "Frozen" && is(food, &["ready to eat", "cooked meat", "cooked fish"])
    };
    assert_eq!(holes(|food| packed(food) && !is(food, &["water"]) && food.keeps.opened.is_none()), [""; 0]);
}

#[test]
fn what_is_counted_has_the_weight_of_one_or_of_a_kitchen_word() {
    let unweighed = holes(|food| is(food, &COUNTED) && food.each.is_none() && food.words.is_empty());
    assert!(unweighed.len() <= MOST_UNWEIGHED, "{}: {unweighed:?}", unweighed.len());
}

#[test]
fn what_is_poured_has_the_weight_of_a_cup() {
    let uncupped = holes(|food| !is(food, &NEVER_POURED) && food.cup.is_none());
    assert!(uncupped.len() <= MOST_UNCUPPED, "{}: {uncupped:?}", uncupped.len());
    // All of them are weighed by the piece.
    let foods = reference();
    for name in uncupped {
        let food = find(&foods, &name);
        assert!(food.each.is_some() || !food.words.is_empty(), "{name} has neither a cup nor the weight of one");
    }
}

#[test]
fn what_is_cooked_by_itself_says_how() {
    let uncooked =
        holes(|food| is(food, &["grain", "pulse"]) && food.section.as_deref() == Some("Grains and pulses") && food.cooks.is_none());
    assert!(uncooked.len() <= MOST_UNCOOKED, "{}: {uncooked:?}", uncooked.len());
}
