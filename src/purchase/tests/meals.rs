//! What one eater gets of a meal: sums small enough to check by hand.

use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Item, Nutrients, State};
use crate::kitchen::fixture::{at, recipe};
use crate::kitchen::{Ingredient, Meal, Recipe, RecipeId, Wanted};
use crate::measure::{Amount, Unit};
use crate::purchase::{Figure, Lacking, MealNote, meals};

fn grams(street: &mut Street, grams: f64, food: &str, state: State) -> Ingredient {
    let item = Item { amount: Amount::new(grams, Unit::Gram), size: None, grade: None, state, plus: vec![], boned: false };
    let food = street.food(food);
    line(Wanted::Food { food, item: Some(item) })
}

fn line(wanted: Wanted) -> Ingredient {
    Ingredient::of("a line".into(), wanted, Spot::default())
}

fn supper(eaters: f64, each: Vec<Ingredient>, shared: Vec<Ingredient>) -> Meal {
    Meal {
        text: None,
        at_time: at("2026-12-01T18:30"),
        label: "Tue supper".into(),
        word: "supper".into(),
        name: None,
        eaters,
        diners: vec![],
        each,
        shared,
        skip: false,
        pattern: None,
        open: None,
        asked: Default::default(),
        at: Spot::default(),
    }
}

fn nutrients(kcal: f64, protein_g: f64, fibre_g: f64) -> Option<Fact<Nutrients>> {
    fact_of(Nutrients { kcal: Some(kcal), protein_g: Some(protein_g), fibre_g: Some(fibre_g), ..Nutrients::default() })
}

fn fact_of<T>(value: T) -> Option<Fact<T>> {
    Some(fact(value))
}

/// The only meal, with the week's needs bought.
fn reckoned(street: &Street) -> MealNote {
    meals(&street.kitchen, &street.week, &street.basket().paid, &[]).remove(0)
}

/// Bluegrain: 200 kcal, 10 g protein, 4 g fibre in 100 g, 80 % edible; 3.00 for 500 g.
fn a_street() -> Street {
    let mut street = Street::new();
    street.about("bluegrain").nutrients = nutrients(200.0, 10.0, 4.0);
    street.about("bluegrain").edible = fact_of(0.8);
    street.pack(QUAY, "bluegrain", 500.0, 300);
    street
}

#[test]
fn an_eater_gets_the_edible_part_and_pays_that_share_of_the_packs() {
    // 100 g as purchased are 80 g to eat: 160 kcal, 8 g, 3.2 g. One pack of 500 g for 3.00 was bought: 100 g of it are 0.60.
    let mut street = a_street();
    let each = grams(&mut street, 100.0, "bluegrain", State::AsPurchased);
    street.week.meals = vec![supper(2.0, vec![each], vec![])];
    street.needs("bluegrain", &[(1, 200.0)]);
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.protein_g, meal.per_eater.fibre_g), (Some(160.0), Some(8.0), Some(3.2)));
    assert_eq!((meal.per_eater.cost, meal.at, meal.missing.len()), (Some(Money(60)), at("2026-12-01T18:30"), 0));
}

#[test]
fn trimmed_grams_are_eaten_whole_and_paid_with_their_peel() {
    // 80 g trimmed are 100 g as purchased: 160 kcal, 0.60.
    let mut street = a_street();
    let each = grams(&mut street, 80.0, "bluegrain", State::Prepared("diced".into()));
    street.week.meals = vec![supper(1.0, vec![each], vec![])];
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.cost), (Some(160.0), Some(Money(60))));
}

#[test]
fn what_is_shared_is_parted_among_the_eaters() {
    // 500 g for the table of 2.5 eaters: 200 g each, 160 g to eat, 320 kcal, 1.20.
    let mut street = a_street();
    let shared = grams(&mut street, 500.0, "bluegrain", State::AsPurchased);
    street.week.meals = vec![supper(2.5, vec![], vec![shared])];
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.cost), (Some(320.0), Some(Money(120))));
}

#[test]
fn a_portion_of_a_recipe_is_its_share_of_the_batch_and_of_its_components() {
    // The stew makes 4 portions of 300 g bluegrain and 2 portions of a mash that makes 4 of 200 g: (300 + 100) ÷ 4 = 100 g a portion.
    let mut street = a_street();
    let (stew_line, mash_line) =
        (grams(&mut street, 300.0, "bluegrain", State::AsPurchased), grams(&mut street, 200.0, "bluegrain", State::AsPurchased));
    let portions = |id, n| line(Wanted::Recipe { recipe: RecipeId(id), amount: Quantity::portions(n), most: Quantity::portions(n) });
    let four = Quantity::portions(4.0);
    street.kitchen.recipes = vec![
        Recipe { makes: four.clone(), ingredients: vec![stew_line, portions(1, 2.0)], ..recipe("stew") },
        Recipe { makes: four, ingredients: vec![mash_line], ..recipe("mash") },
    ];
    street.week.meals = vec![supper(3.0, vec![portions(0, 1.0)], vec![])];
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.cost), (Some(160.0), Some(Money(60))));
}

#[test]
fn what_is_bought_costs_what_was_paid_offers_and_all() {
    // Two packs on offer for 4.00 hold 1000 g: 100 g are 0.40, though one pack alone would make them 0.60.
    let mut street = Street::new();
    street.about("bluegrain").nutrients = nutrients(200.0, 10.0, 4.0);
    street.offer(QUAY, "bluegrain", 500.0, 300, 2, 400);
    let each = grams(&mut street, 100.0, "bluegrain", State::AsPurchased);
    street.week.meals = vec![supper(8.0, vec![each], vec![])];
    street.needs("bluegrain", &[(1, 800.0)]);
    assert_eq!(reckoned(&street).per_eater.cost, Some(Money(40)));
}

#[test]
fn what_the_list_does_not_buy_costs_the_cheapest_unit_price_of_its_packs() {
    // 3.00 for 500 g is 0.60 for 100 g; 0.50 for 100 g at the mill is cheaper; nothing is bought, the pantry has it.
    let mut street = a_street();
    street.pack(MILL, "bluegrain", 100.0, 50);
    let each = grams(&mut street, 100.0, "bluegrain", State::AsPurchased);
    street.week.meals = vec![supper(1.0, vec![each], vec![])];
    assert_eq!(reckoned(&street).per_eater.cost, Some(Money(50)));
}

#[test]
fn a_sum_without_one_food_s_figure_is_at_least_that_and_the_food_is_named() {
    let mut street = a_street();
    street.about("moonleaf").nutrients = fact_of(Nutrients { kcal: Some(20.0), protein_g: Some(1.0), ..Nutrients::default() });
    let each = vec![grams(&mut street, 100.0, "bluegrain", State::AsPurchased), grams(&mut street, 50.0, "moonleaf", State::AsPurchased)];
    street.week.meals = vec![supper(1.0, each, vec![])];
    // 160 + 10 kcal; no fibre figure and no pack of moonleaf: 80 g bluegrain to eat have 3.2 g, 100 g of it cost 0.60.
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.fibre_g, meal.per_eater.cost), (Some(170.0), Some(3.2), Some(Money(60))));
    let is_partial = |figure: Figure| meal.per_eater.is_partial(figure, &meal.missing);
    assert!(meal.is_at_least() && is_partial(Figure::Fibre) && is_partial(Figure::Price));
    assert!(!is_partial(Figure::Energy));
    let figures = vec![Figure::Fibre, Figure::Price];
    assert_eq!(meal.missing, [Lacking { food: street.food("moonleaf"), figures }]);
}

#[test]
fn a_figure_of_which_nothing_is_known_is_no_sum() {
    let mut street = Street::new();
    street.about("moonleaf").nutrients = fact_of(Nutrients { kcal: Some(20.0), ..Nutrients::default() });
    let each = vec![grams(&mut street, 50.0, "moonleaf", State::AsPurchased)];
    street.week.meals = vec![supper(1.0, each, vec![])];
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.kcal, meal.per_eater.fibre_g, meal.per_eater.cost), (Some(10.0), None, None));
    assert!(!meal.is_at_least(), "no figure is a part of a sum");
}

#[test]
fn foods_that_are_always_there_cost_nothing() {
    let mut street = a_street();
    let water = street.food("water");
    street.about("water").nutrients = nutrients(0.0, 0.0, 0.0);
    street.kitchen.rules.always = vec![water];
    let each = vec![grams(&mut street, 100.0, "bluegrain", State::AsPurchased), grams(&mut street, 300.0, "water", State::AsPurchased)];
    street.week.meals = vec![supper(1.0, each, vec![])];
    let meal = reckoned(&street);
    assert_eq!((meal.per_eater.cost, meal.missing.len()), (Some(Money(60)), 0));
}
