//! Several shops, trips and fares.

use pretty_assertions::assert_eq;

use super::*;
use crate::purchase::shops::{Choice, visit, visit_within};

/// The shops visited, each with what is paid there.
fn shops(basket: &Basket) -> Vec<Option<(ShopId, Money)>> {
    basket.trips[0].shops.iter().map(|visit| visit.at.map(|stop| (stop.shop, stop.cost))).collect()
}

fn at(shop: usize, minor: i64) -> Option<(ShopId, Money)> {
    Some((ShopId(shop), Money(minor)))
}

#[test]
fn each_food_is_bought_where_it_is_cheaper() {
    let mut street = Street::new();
    for (shop, onion, flour) in [(QUAY, 129, 90), (MILL, 140, 70)] {
        street.pack(shop, "onion", 1000.0, onion);
        street.pack(shop, "flour", 1000.0, flour);
    }
    street.needs("onion", &[(1, 800.0)]);
    street.needs("flour", &[(1, 800.0)]);
    let basket = street.basket();
    assert_eq!(shops(&basket), [at(QUAY, 129), at(MILL, 70)]);
    assert_eq!(basket.cost, Money(199));
}

#[test]
fn a_fare_that_saves_less_than_it_costs_is_not_paid() {
    let mut street = Street::new();
    street.kitchen.shops[MILL].trip = Money(20);
    for (shop, onion, flour) in [(QUAY, 129, 90), (MILL, 140, 70)] {
        street.pack(shop, "onion", 1000.0, onion);
        street.pack(shop, "flour", 1000.0, flour);
    }
    street.needs("onion", &[(1, 800.0)]);
    street.needs("flour", &[(1, 800.0)]);
    // Both: 1.29 + 0.70 + 0.20 = 2.19; Quay market alone 1.29 + 0.90 = 2.19: at one price the fewest shops.
    assert_eq!(shops(&street.basket()), [at(QUAY, 219)]);
}

#[test]
fn a_shops_cost_is_goods_and_fare() {
    let mut street = Street::new();
    street.kitchen.shops[MILL].trip = Money(150);
    street.pack(MILL, "onion", 1000.0, 140);
    street.needs("onion", &[(1, 800.0)]);
    let basket = street.basket();
    assert_eq!(shops(&basket), [at(MILL, 290)]);
    assert_eq!((basket.trips[0].cost, basket.trips[0].shops[0].at.map(|stop| stop.fare)), (Money(290), Some(Money(150))));
}

#[test]
fn at_one_price_less_left_then_fewer_packs_then_file_order() {
    let mut street = Street::new();
    // Something that only each of them sells, so that both are visited anyhow.
    street.pack(QUAY, "egg noodles", 250.0, 100);
    street.pack(MILL, "rye bread", 500.0, 100);
    street.needs("egg noodles", &[(1, 250.0)]);
    street.needs("rye bread", &[(1, 500.0)]);
    street.pack(QUAY, "leek", 600.0, 100);
    street.pack(MILL, "leek", 500.0, 100);
    street.needs("leek", &[(1, 500.0)]);
    street.pack(QUAY, "rice", 250.0, 50);
    street.pack(MILL, "rice", 500.0, 100);
    street.needs("rice", &[(1, 500.0)]);
    street.pack(QUAY, "beetroot", 500.0, 100);
    street.pack(MILL, "beetroot", 500.0, 100);
    street.needs("beetroot", &[(1, 500.0)]);
    let basket = street.basket();
    let foods = |shop: usize| -> Vec<&str> {
        basket.trips[0].shops[shop].sections.iter().flat_map(|section| &section.lines).map(|line| street.name(line)).collect()
    };
    assert_eq!(foods(QUAY), ["beetroot", "egg noodles"]);
    assert_eq!(foods(MILL), ["leek", "rice", "rye bread"]);
}

#[test]
fn between_shops_money_counts_even_where_least_left_is_chosen() {
    let mut street = Street::new();
    street.kitchen.rules.choose = Choose::LeastLeft;
    street.pack(QUAY, "cream", 200.0, 95);
    street.pack(MILL, "cream", 500.0, 100);
    street.needs("cream", &[(1, 390.0)]);
    assert_eq!(shops(&street.basket()), [at(MILL, 100)]);
}

#[test]
fn only_the_shops_of_the_trip_are_visited() {
    let mut street = Street::new();
    street.week.trips[0].shops = Some(vec![ShopId(MILL)]);
    street.pack(QUAY, "onion", 1000.0, 100);
    street.pack(MILL, "onion", 1000.0, 140);
    street.needs("onion", &[(1, 800.0)]);
    assert_eq!(shops(&street.basket()), [at(MILL, 140)]);
}

#[test]
fn an_unpriced_pack_is_ignored_beside_a_priced_one_in_another_shop() {
    let mut street = Street::new();
    street.sell(QUAY, "onion", Quantity::grams(1000.0), None, None, None);
    street.pack(MILL, "onion", 1000.0, 140);
    street.needs("onion", &[(1, 800.0)]);
    let basket = street.basket();
    assert_eq!(shops(&basket), [at(MILL, 140)]);
    assert_eq!(basket.no_price, []);
}

#[test]
fn a_food_without_a_price_or_without_a_seller_is_listed_plainly_and_last() {
    let mut street = Street::new();
    street.sell(QUAY, "rosemary", Quantity::grams(20.0), None, None, None);
    street.pack(QUAY, "onion", 1000.0, 129);
    for food in ["rosemary", "onion", "bay leaf"] {
        street.needs(food, &[(1, 8.0)]);
    }
    let basket = street.basket();
    assert_eq!(shops(&basket), [at(QUAY, 129), None]);
    assert_eq!(basket.no_price, [street.food("bay leaf"), street.food("rosemary")]);
    let lines = &basket.trips[0].shops[1].sections[0].lines;
    assert_eq!(lines.iter().map(|line| street.name(line)).collect::<Vec<_>>(), ["bay leaf", "rosemary"]);
    assert!(lines.iter().all(|line| line.packs.is_empty() && line.cost.is_none() && line.need == Quantity::grams(8.0)));
}

#[test]
fn twelve_shops_are_searched_to_the_end() {
    let mut street = Street::new();
    let shop = street.kitchen.shops[QUAY].clone();
    street.kitchen.shops = (0..12).map(|index| Shop { name: format!("Stall {index:02}"), trip: Money(30), ..shop.clone() }).collect();
    for food in 0..24 {
        let name = format!("food {food:02}");
        for stall in 0..12 {
            street.pack(stall, &name, 500.0, 100 + ((food * 7 + stall as i64 * 5) % 12) * 4);
        }
        street.needs(&name, &[(1, 400.0)]);
    }
    let basket = street.basket();
    assert_eq!(basket.warnings, vec![]);
    // By brute force over all 4095 sets of stalls.
    let cost = |set: u32| -> i64 {
        let stalls: Vec<i64> = (0..12).filter(|stall| set & (1 << stall) != 0).collect();
        let goods = (0..24).map(|food| stalls.iter().map(|stall| 100 + ((food * 7 + stall * 5) % 12) * 4).min().unwrap());
        goods.sum::<i64>() + 30 * stalls.len() as i64
    };
    assert_eq!(Some(basket.cost.0), (1..4096).map(cost).min());
}

#[test]
fn a_search_cut_short_says_how_much_cheaper_another_round_could_be() {
    let choice = |shop| Choice { shop, price: 100, left: 0, packs: 1 };
    let (fares, foods) = ([30, 30], [vec![choice(0), choice(1)]]);
    // The first shop alone: 100 + 30. Without it the goods cost 100 at least; that branch, the fifth, is left open.
    let cut_short = visit_within(&fares, &foods, 4);
    assert_eq!((cut_short.chosen, cut_short.gap), (vec![0], 30));
    let finished = visit(&fares, &foods);
    assert_eq!((finished.chosen, finished.gap), (vec![0], 0));
}

#[test]
fn a_search_that_ends_before_it_finds_a_round_takes_the_one_it_began_with() {
    // Forty shops and foods, each food in four of them at one price: every round that is worth its fares is found late.
    let (fares, prices) = (vec![20; 40], 100);
    let sold = |food: usize| [1, 8, 15, 22].map(|step| Choice { shop: (food * 3 + step) % 40, price: prices, left: 0, packs: 1 }).to_vec();
    let foods: Vec<Vec<Choice>> = (0..40).map(sold).collect();
    let round = visit_within(&fares, &foods, 1);
    let shops: std::collections::BTreeSet<usize> = round.chosen.iter().zip(&foods).map(|(at, sold)| sold[*at].shop).collect();
    assert!((10..40).contains(&shops.len()), "four shops a food: ten at least, and fewer than all: {shops:?}");
    // Goods alone cost 40 x 1.00 wherever they are bought: only fares could be saved.
    assert_eq!(round.gap, 20 * shops.len() as i64);
}
