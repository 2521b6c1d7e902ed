use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, Place};
use crate::kitchen::{ApplianceId, ApplianceKind, Step};
use crate::measure::{Minutes, Quantity};
use crate::plan::Boxed;
use crate::prep::care::DEFERENCE;
use crate::prep::testing::*;

/// The cautions for one making of one recipe that uses one food.
fn about(name: &str, kind: &str, prep: Option<&str>, kept: bool) -> Vec<String> {
    let mut kitchen = kitchen();
    let id = food(&mut kitchen, name, kind);
    kitchen.foods.all[0].allergens = Some(Fact { value: vec![], source: "from memory".into() });
    kitchen.appliances = vec![appliance("pressure cooker", 1, false)];
    let mut dish = recipe("dish", "Dish", 4.0, vec![step("Cook.")]);
    dish.ingredients = vec![ingredient(name, id, None, prep)];
    if name == "chickpeas" {
        dish.steps = vec![Step { on: vec![ApplianceId(0)], ..step("Cook.") }];
    }
    kitchen.recipes = vec![dish];
    let mut one = making(&kitchen, 0, 1.0);
    if kept {
        one.boxes = vec![in_the_fridge(&one)];
    }
    said(&kitchen, &makings(vec![one]))
}

fn in_the_fridge(making: &Making) -> Boxed {
    let amount = Quantity::portions(1.0);
    Boxed { amount, place: Place::Fridge, use_by: making.on, what_for: vec![], parts: vec![], eater: None, without: vec![] }
}

fn said(kitchen: &Kitchen, makings: &Makings) -> Vec<String> {
    cautions(kitchen, makings, &[0]).iter().map(|one| one.with_source(kitchen.names())).collect()
}

fn says(cautions: &[String], words: &str) -> bool {
    cautions.iter().any(|caution| caution.contains(words))
}

// Figures: USDA FSIS, Safe Minimum Internal Temperature Chart, and Leftovers and Food Safety.
#[test]
fn each_kind_of_raw_food_has_its_inside_temperature() {
    assert!(says(&about("chicken thighs", "raw poultry", None, false), "74 °C (165 °F)"));
    assert!(says(&about("minced beef", "raw minced meat", None, false), "71 °C (160 °F)"));
    assert!(says(&about("pork loin", "raw meat", None, false), "63 °C (145 °F)"));
    assert!(says(&about("cod", "raw fish", None, false), "63 °C (145 °F)"));
    assert!(says(&about("eggs", "raw egg", None, false), "yolk and white are firm"));
}

#[test]
fn no_figure_is_left_out_of_a_caution_and_the_hours_are_those_of_the_table() {
    for caution in CAUTIONS {
        assert_eq!(caution.text.matches("{}").count(), (caution.figures)().len(), "{}", caution.text);
    }
    assert_eq!(CHILLED_WITHIN.value, Minutes(2 * 60), "\"within two hours\"");
    assert_eq!(GRAINS_CHILLED_WITHIN.value, Minutes(60), "\"within one hour\"");
}

#[test]
fn what_is_kept_is_chilled_within_two_hours_and_reheated() {
    let kept = about("leek", "vegetable", None, true);
    assert!(says(&kept, "within two hours") && says(&kept, "4 °C (40 °F)") && says(&kept, "74 °C (165 °F) throughout"));
    assert!(!says(&about("leek", "vegetable", None, false), "two hours"));
}

#[test]
fn dried_kidney_beans_are_boiled_hard_and_tinned_ones_are_not() {
    assert!(says(&about("dried kidney beans", "pulse", None, false), "boil hard"));
    assert!(!says(&about("tinned kidney beans", "pulse", None, false), "boil hard"));
}

#[test]
fn rice_is_cooled_at_once_and_rice_vinegar_need_not_be() {
    assert!(says(&about("brown rice", "grain", None, false), "rice at once"));
    assert!(!says(&about("rice vinegar", "sauce", None, false), "rice at once"));
}

/// A pot of one food, then `next`; kept or not.
fn pot_and(next: Step, name: &str, kind: &str, kept: bool) -> Vec<String> {
    let mut kitchen = kitchen();
    let id = food(&mut kitchen, name, kind);
    kitchen.appliances = vec![appliance("hob", 4, false)];
    kitchen.appliances[0].kind = Some(ApplianceKind::Hob);
    let mut dish = recipe("dish", "Dish", 4.0, vec![Step { on: vec![ApplianceId(0)], ..step("Simmer.") }, next]);
    dish.ingredients = vec![ingredient(name, id, None, None)];
    kitchen.recipes = vec![dish];
    let mut one = making(&kitchen, 0, 1.0);
    one.boxes = kept.then(|| in_the_fridge(&one)).into_iter().collect();
    said(&kitchen, &makings(vec![one]))
}

// UK Food Standards Agency, Cooling, reheating and freezing food: cooked rice within one hour. From memory.
#[test]
fn grains_that_are_kept_are_chilled_within_one_hour_by_their_source() {
    let one_hour = |said: &[String]| says(said, "within one hour of leaving the heat") && says(said, "UK Food Standards Agency");
    assert!(one_hour(&pot_and(step("Drain."), "pearl barley", "grain", true)));
    assert!(one_hour(&pot_and(step("Drain."), "brown rice", "grain", true)));
    assert!(!one_hour(&pot_and(step("Drain."), "pearl barley", "grain", false)), "eaten at once");
    assert!(!one_hour(&pot_and(step("Drain."), "leek", "vegetable", true)), "no grain");
    assert!(!one_hour(&about("oats", "grain", None, true)), "never hot");
}

#[test]
fn what_is_blended_hot_spits() {
    let spits = |next: Step| says(&pot_and(next, "leek", "vegetable", false), "spits in a blender");
    assert!(spits(step("Blend until smooth.")));
    assert!(!spits(step("Stir.")));
    assert!(!spits(Step { gap: Some(Minutes(60)), ..step("Blend until smooth.") }), "cooled for an hour");
}

#[test]
fn steam_knives_and_honey_have_their_cautions_where_they_occur() {
    assert!(says(&about("chickpeas", "pulse", None, false), "two thirds, half for foods that swell"));
    assert!(says(&about("onion", "vegetable", Some("finely diced"), false), "Knives"));
    assert!(says(&about("honey", "sweetener", None, false), "under 12 months"));
    assert!(about("honey", "sweetener", None, false).ends_with(&[DEFERENCE.to_owned()]));
    assert_eq!(about("salt", "spice", None, false), Vec::<String>::new());
}

#[test]
fn unknown_allergens_are_said() {
    let mut kitchen = kitchen();
    let id = food(&mut kitchen, "stock powder", "spice");
    let mut dish = recipe("dish", "Dish", 4.0, vec![step("Cook.")]);
    dish.ingredients = vec![ingredient("stock powder", id, None, None)];
    kitchen.recipes = vec![dish];
    let list = makings(vec![making(&kitchen, 0, 1.0)]);
    assert!(says(&said(&kitchen, &list), "Allergens not known: stock powder."));
}

#[test]
fn what_a_dish_contains_is_said_and_what_is_avoided_first() {
    let mut kitchen = kitchen();
    let id = food(&mut kitchen, "tahini", "sauce");
    kitchen.foods.all[0].allergens = Some(Fact { value: vec![Allergen::Sesame], source: "from memory".into() });
    let mut dish = recipe("dip", "Dip", 4.0, vec![step("Stir.")]);
    dish.ingredients = vec![ingredient("tahini", id, None, None)];
    kitchen.recipes = vec![dish];
    let list = makings(vec![making(&kitchen, 0, 1.0)]);
    assert!(says(&said(&kitchen, &list), "Allergens. Dip: sesame."));
    assert!(!says(&said(&kitchen, &list), "avoids"));
    kitchen.household.avoid = vec![Allergen::Sesame];
    assert_eq!(said(&kitchen, &list)[0], "This household avoids what is in here. Dip: sesame.");
}
