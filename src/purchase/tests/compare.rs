//! The chosen round beside simpler ones.

use pretty_assertions::assert_eq;

use super::*;
use crate::purchase::{Round, compare};

const FLOUR: FoodId = FoodId(1);

fn round(shops: &[usize], minor: i64, lacks: &[FoodId]) -> Round {
    Round { shops: shops.iter().map(|shop| ShopId(*shop)).collect(), cost: Money(minor), lacks: lacks.to_vec() }
}

/// Onion 1.29 at Quay market, 1.40 at Mill stores; flour 0.70 at Mill stores alone; Mill stores costs 0.20 to reach.
fn a_street() -> Street {
    let mut street = Street::new();
    street.kitchen.shops[MILL].trip = Money(20);
    street.pack(QUAY, "onion", 1000.0, 129);
    street.pack(MILL, "onion", 1000.0, 140);
    street.pack(MILL, "flour", 1000.0, 70);
    street.needs("onion", &[(1, 800.0)]);
    street.needs("flour", &[(1, 800.0)]);
    street.needs("bay leaf", &[(1, 1.0)]);
    street
}

#[test]
fn each_shop_alone_says_what_it_lacks() {
    let street = a_street();
    let compared = compare(&street.kitchen, &street.week, &street.needs);
    // Both: 1.29 + 0.70 + 0.20 = 2.19; Mill stores alone: 1.40 + 0.70 + 0.20 = 2.30. Nobody sells bay leaf.
    assert_eq!(compared[0].chosen, round(&[QUAY, MILL], 219, &[]));
    assert_eq!(compared[0].single, [round(&[QUAY], 129, &[FLOUR]), round(&[MILL], 230, &[])]);
    assert_eq!(compared[0].pair, Some(round(&[QUAY, MILL], 219, &[])));
}

#[test]
fn the_chosen_round_costs_what_the_list_says() {
    let street = a_street();
    let compared = compare(&street.kitchen, &street.week, &street.needs);
    assert_eq!(compared[0].chosen.cost, street.basket().trips[0].cost);
}

#[test]
fn a_trip_with_nothing_to_buy_has_no_rounds() {
    let mut street = a_street();
    street.needs.clear();
    let compared = compare(&street.kitchen, &street.week, &street.needs);
    assert_eq!((compared[0].chosen.clone(), compared[0].single.len(), compared[0].pair.clone()), (round(&[], 0, &[]), 0, None));
}

#[test]
fn the_best_pair_lacks_the_least_before_it_is_cheap() {
    let mut street = a_street();
    let shop = street.kitchen.shops[QUAY].clone();
    street.kitchen.shops.push(Shop { name: "Ferry kiosk".into(), ..shop });
    street.pack(2, "onion", 1000.0, 10);
    let compared = compare(&street.kitchen, &street.week, &street.needs);
    // The kiosk with Quay market would be 0.10 and lack the flour; with Mill stores 0.10 + 0.70 + 0.20.
    assert_eq!(compared[0].pair, Some(round(&[MILL, 2], 100, &[])));
}
