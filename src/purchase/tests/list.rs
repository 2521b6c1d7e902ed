//! Trips, shops, sections and lines.

use pretty_assertions::assert_eq;

use super::*;
use crate::foods::Measured;

#[test]
fn every_trip_is_listed_even_an_empty_one() {
    let mut street = Street::new();
    street.week.trips.push(Trip { on: on(2), shops: None, planned: true, nth: 0, settled: Vec::new(), at: Spot::default() });
    street.pack(QUAY, "onion", 1000.0, 129);
    street.needs("onion", &[(3, 800.0)]);
    street.needs[0].trip = 1;
    let basket = street.basket();
    assert_eq!(basket.trips.iter().map(|trip| (trip.cost, trip.shops.len())).collect::<Vec<_>>(), [(Money(0), 0), (Money(129), 1)]);
}

#[test]
fn sections_stand_in_walking_order_and_unknown_ones_after_them() {
    let mut street = Street::new();
    for (food, section) in [("zander", None), ("milk", Some("Dairy")), ("apple", Some("Vegetables")), ("soap", Some("Household"))] {
        street.about(food).section = section.map(str::to_owned);
        street.pack(QUAY, food, 500.0, 100);
        street.needs(food, &[(1, 400.0)]);
    }
    street.pack(QUAY, "aubergine", 500.0, 100);
    street.kitchen.packs.last_mut().unwrap().section = Some("Vegetables".into());
    street.needs("aubergine", &[(1, 400.0)]);
    let basket = street.basket();
    let sections: Vec<(String, Vec<String>)> = basket.trips[0].shops[0]
        .sections
        .iter()
        .map(|section| (section.section.clone(), section.lines.iter().map(|line| street.name(line).to_owned()).collect()))
        .collect();
    let expected =
        [("Vegetables", vec!["apple", "aubergine"]), ("Dairy", vec!["milk"]), ("Household", vec!["soap"]), ("Other", vec!["zander"])];
    let expected = expected.map(|(name, foods)| (name.to_owned(), foods.into_iter().map(str::to_owned).collect::<Vec<_>>()));
    assert_eq!(sections, expected);
}

#[test]
fn a_need_that_the_pantry_served_has_no_line() {
    let mut street = Street::new();
    street.pack(QUAY, "onion", 1000.0, 129);
    street.needs("onion", &[(1, 0.0)]);
    let basket = street.basket();
    assert_eq!((basket.trips[0].shops.len(), basket.cost, basket.no_price), (0, Money(0), vec![]));
}

/// Two uses of rosemary by a kitchen word whose weight nobody knows.
fn rosemary(word: &str) -> Street {
    let mut street = Street::new();
    let part = NeedUse { line: format!("1 {word} rosemary"), ..a_use(1, 1.0) };
    street.needs_uses("rosemary", Dimension::Word(word.into()), vec![part.clone(), part]);
    street.needs[0].own_words = true;
    street
}

#[test]
fn a_need_that_no_pack_can_be_compared_with_is_one_pack() {
    let mut street = rosemary("sprig");
    street.pack(QUAY, "rosemary", 20.0, 99);
    let line = street.line();
    assert_eq!((line.need.clone(), line.own_words.clone()), (Quantity::words(2.0, "sprig"), vec!["1 sprig rosemary".to_owned()]));
    assert_eq!(said(&line), "1 x 20 g = 0.99, left 0, short 0");
    assert_eq!(street.basket().no_price, []);
    street.kitchen.packs.clear();
    assert_eq!(street.basket().no_price, [street.food("rosemary")]);
    assert_eq!(street.basket().trips[0].shops[0].at, None);
}

#[test]
fn one_pack_is_bought_for_each_container_that_is_asked_for() {
    let mut street = rosemary("bunch");
    street.pack(QUAY, "rosemary", 20.0, 99);
    street.pack(MILL, "rosemary", 30.0, 120);
    assert_eq!(street.said(), "2 x 20 g = 1.98, left 0, short 0");
}

#[test]
fn a_container_that_a_shop_sells_and_one_that_is_asked_for_are_the_same() {
    let mut street = rosemary("bunch");
    street.sell(QUAY, "rosemary", Quantity::words(1.0, "bunch"), Some(80), None, None);
    street.pack(MILL, "rosemary", 30.0, 20);
    assert_eq!(street.said(), "2 x 1 bunch = 1.60, left 0, short 0");
}

#[test]
fn what_a_line_is_for_stands_once_and_in_order() {
    let mut street = Street::new();
    street.pack(QUAY, "onion", 1000.0, 129);
    let part = |day, what: &str| NeedUse { what_for: what.into(), ..a_use(day, 100.0) };
    street.needs_uses("onion", Dimension::Mass, vec![part(1, "Soup"), part(2, "Braise"), part(3, "Soup")]);
    let line = street.line();
    assert_eq!(line.what_for, ["Soup", "Braise"]);
    assert_eq!(line.last_used, Some(on(3)));
}

#[test]
fn the_paper_is_told_about_how_many_pieces_and_what_is_fresh() {
    let mut street = Street::new();
    street.about("carrot").each = Some(fact(Measured::Single(61.0)));
    street.about("carrot").keeps.fridge = Some(fact(Days(20)));
    street.loose(QUAY, "carrot", 140, 100.0);
    street.needs("carrot", &[(1, 430.0)]);
    let line = street.line();
    // 500 g bought: 500 / 61 = 8.2.
    assert_eq!((line.about, line.fresh), (Some(8), true));
}
