use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, FoodId, Grade, Measured};
use crate::measure::Word;
use crate::prep::testing::*;
use crate::prep::{Fetch, Shares, by_food};

/// What is said of one food in a session that makes one batch of every line given.
fn said_of(name: &str, kind: &str, lines: Vec<(Item, Option<&str>)>) -> (Kitchen, Vec<Said>) {
    let mut kitchen = kitchen();
    let id = food(&mut kitchen, name, kind);
    let known = &mut kitchen.foods.all[id.0 as usize];
    known.each = Some(Fact { value: Measured::Single(300.0), source: "a test".into() });
    known.edible = Some(Fact { value: 0.9, source: "a test".into() });
    kitchen.recipes = vec![recipe("dish", "Dish", 4.0, vec![])];
    kitchen.recipes[0].ingredients = lines.into_iter().map(|(item, prep)| ingredient("a line", id, Some(item), prep)).collect();
    let made = making(&kitchen, 0, 1.0);
    let said = said(&kitchen, std::iter::once(&made));
    (kitchen, said)
}

fn words(name: &str, kind: &str, lines: Vec<(Item, Option<&str>)>) -> Option<String> {
    said_of(name, kind, lines).1[0].words.clone()
}

#[test]
fn nobody_fetches_a_part_of_a_clove() {
    // 3 + 1½ cloves.
    let cloves = |number| (item(number, Unit::Word(Word::Clove)), Some("crushed"));
    assert_eq!(words("garlic", "vegetable", vec![cloves(3.0), cloves(1.5)]).as_deref(), Some("5 cloves of garlic"));
    let handful = (item(0.5, Unit::Word(Word::Handful)), None);
    assert_eq!(words("mint", "herb", vec![handful]).as_deref(), Some("½ handful of mint"));
}

#[test]
fn what_is_cooked_whole_is_fetched_by_number_and_weight() {
    // 6 x 300 g; trimmed ones have their weight at the step.
    let large = Item { grade: Some(Grade::Large), ..item(6.0, Unit::Piece) };
    assert_eq!(words("potato", "vegetable", vec![(large, None)]).as_deref(), Some("6 large potatoes, 1.8 kg"));
    assert_eq!(words("potato", "vegetable", vec![(item(2.5, Unit::Piece), Some("diced"))]).as_deref(), Some("3 potatoes"));
    assert_eq!(words("lemon", "fruit", vec![(item(1.5, Unit::Piece), Some("juice"))]).as_deref(), Some("2 lemons"));
}

#[test]
fn tins_keep_their_size_and_spoons_are_spoons() {
    let tins = Item { size: Some(Quantity::grams(400.0)), ..item(2.0, Unit::Word(Word::Tin)) };
    assert_eq!(words("tinned chopped tomatoes", "vegetable", vec![(tins, None)]).as_deref(), Some("2 tins (400 g) chopped tomatoes"));
    let spoons = |number| (item(number, Unit::Tablespoon), None);
    assert_eq!(words("honey", "sweetener", vec![spoons(1.0), spoons(2.0)]).as_deref(), Some("3 tbsp honey"));
    // 5 US tablespoons of 14.787 ml are 73.9 ml of oil; flour is weighed, so its need in grams is told.
    assert_eq!(words("olive oil", "oil", vec![spoons(5.0)]).as_deref(), Some("75 ml olive oil"));
    assert_eq!(words("plain flour", "grain", vec![spoons(5.0)]), None);
}

#[test]
fn lines_in_several_measures_are_told_by_what_is_needed() {
    assert_eq!(words("onion", "vegetable", vec![(item(200.0, Unit::Gram), None), (item(1.0, Unit::Piece), None)]), None);
}

#[test]
fn what_lies_in_two_places_is_told_in_whole_and_then_by_place() {
    let at =
        |grams: f64, place| Fetch { of: Ware::Food(FoodId(0)), amount: Quantity::grams(grams), place, look_first: false, is_short: false };
    let (kitchen, said) = said_of("apple", "fruit", vec![(item(2.0, Unit::Piece), None)]);
    let units = Units::Metric;
    // 300 of 600 g are one of two apples; 250 g are no number of them.
    let places = |grams: f64| {
        let all = [at(grams, Some(crate::foods::Place::Fridge)), at(600.0 - grams, None)];
        let one = &by_food(&all)[0];
        format!("{}: {}", one.words(&said, &Shares::whole(), kitchen.names(), units), one.places(&said, units))
    };
    assert_eq!(places(300.0), "2 apples, 600 g: 1 fridge, the rest from the shopping");
    assert_eq!(places(250.0), "2 apples, 600 g: 250 g fridge, the rest from the shopping");
}

#[test]
fn a_person_who_handles_a_part_of_a_food_fetches_that_part() {
    let cloves = |number| (item(number, Unit::Word(Word::Clove)), Some("crushed"));
    let (kitchen, said) = said_of("garlic", "vegetable", vec![cloves(3.0), cloves(1.0)]);
    let all = [Fetch { of: Ware::Food(FoodId(0)), amount: Quantity::pieces(0.4), place: None, look_first: false, is_short: false }];
    let one = &by_food(&all)[0];
    // A quarter of four cloves.
    let quarter = Shares { all: vec![0.25, 0.75], whose: 0 };
    assert_eq!(one.words(&said, &quarter, kitchen.names(), Units::Metric), "1 clove of garlic");
}

#[test]
fn a_part_of_what_is_poured_is_told_by_the_spoon() {
    // 2 of 6 tbsp of oil: neither grams nor a part of 90 ml.
    let spoons = |number| (item(number, Unit::Tablespoon), None);
    let (kitchen, said) = said_of("olive oil", "oil", vec![spoons(2.0), spoons(4.0)]);
    let all = [Fetch { of: Ware::Food(FoodId(0)), amount: Quantity::grams(81.0), place: None, look_first: false, is_short: false }];
    let part = |whose| by_food(&all)[0].words(&said, &Shares { all: vec![2.0 / 6.0, 4.0 / 6.0], whose }, kitchen.names(), Units::Metric);
    assert_eq!([part(0), part(1)], ["2 tbsp olive oil", "4 tbsp olive oil"]);
}
