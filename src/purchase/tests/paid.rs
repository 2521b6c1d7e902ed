//! What stays of what was bought, and until when it is good; prices seen long ago.

use pretty_assertions::assert_eq;

use super::*;
use crate::kitchen::Warning;
use crate::purchase::{Stay, old_prices};

fn stays(street: &Street) -> Vec<(f64, Option<Date>)> {
    street.basket().paid.iter().flat_map(|paid| &paid.stays).map(|stay| (stay.amount, stay.until)).collect()
}

#[test]
fn what_is_left_keeps_from_the_trip_as_long_as_where_it_is_put_away() {
    let mut street = Street::new();
    street.about("onion").keeps.cupboard = Some(fact(Days(30)));
    street.about("onion").keeps.fridge = Some(fact(Days(60)));
    street.pack(QUAY, "onion", 1000.0, 129);
    street.needs("onion", &[(2, 830.0)]);
    // Saturday 28 November and 30 days in the cupboard, where onions are kept: 28 December.
    assert_eq!(street.line().left_until, Some(date(2026, 12, 28)));
    assert_eq!(stays(&street), [(170.0, Some(date(2026, 12, 28)))]);
    // An apple: 21 days in the cupboard, 28 in the fridge, where it goes: 26 December.
    street.about("onion").keeps.cupboard = Some(fact(Days(21)));
    street.about("onion").keeps.fridge = Some(fact(Days(28)));
    assert_eq!(street.line().left_until, Some(date(2026, 12, 26)));
}

#[test]
fn an_opened_pack_is_good_from_its_first_use_and_each_window_has_its_own_day() {
    let mut street = Street::new();
    street.opened("yoghurt", 3);
    street.about("yoghurt").keeps.fridge = Some(fact(Days(10)));
    street.pack(QUAY, "yoghurt", 500.0, 149);
    street.needs("yoghurt", &[(1, 400.0), (7, 300.0)]);
    // Opened on the 1st: the 4th. Opened on the 7th: the 10th, but from the trip it keeps 10 days only, to the 8th.
    assert_eq!(stays(&street), [(100.0, Some(on(4))), (200.0, Some(on(8)))]);
    assert_eq!(street.line().left_until, Some(on(4)), "the first of them");
}

#[test]
fn a_pack_that_fills_up_an_offer_is_not_opened() {
    let mut street = Street::new();
    street.opened("beans", 3);
    street.about("beans").keeps.cupboard = Some(fact(Days(365)));
    street.offer(QUAY, "beans", 400.0, 90, 3, 170);
    street.needs("beans", &[(1, 700.0)]);
    // Two at 1.80 or three at 1.70: 100 g stay in an opened tin to the 4th, 400 g in a closed one for a year.
    assert_eq!(street.said(), "3 x 400 g (1 offer) = 1.70, left 500, short 0");
    assert_eq!(stays(&street), [(400.0, Some(date(2027, 11, 28))), (100.0, Some(on(4)))]);
}

#[test]
fn a_top_up_stays_on_the_shelf_and_is_no_left_over() {
    let mut street = Street::new();
    street.pack(QUAY, "flour", 1000.0, 80);
    street.needs_uses("flour", Dimension::Mass, vec![a_use(1, 300.0), top_up(500.0)]);
    let stay = |amount, top_up| Stay { amount, until: None, top_up };
    assert_eq!(street.basket().paid[0].stays, [stay(200.0, false), stay(500.0, true)]);
    assert_eq!((street.line().left, street.line().left_until), (Quantity::grams(200.0), None));
}

#[test]
fn pieces_are_rounded_over_the_trip_so_no_more_stays_than_the_line_says() {
    let mut street = Street::new();
    street.opened("lemon", 1);
    street.sell(QUAY, "lemon", Quantity::pieces(1.0), Some(45), None, None);
    street.needs_uses("lemon", Dimension::Count, vec![a_use(1, 0.4), a_use(5, 0.4)]);
    // 0.8 lemons are one over the trip; each window opens one: two bought, one left, half of it from each.
    assert_eq!(street.line().left, Quantity::pieces(1.0));
    assert_eq!(stays(&street), [(0.5, Some(on(2))), (0.5, Some(on(6)))]);
}

#[test]
fn prices_seen_more_than_ninety_days_ago_are_remarked_on_once_with_the_foods() {
    let mut street = Street::new();
    for (food, seen) in
        [("onion", Some(date(2026, 8, 30))), ("carrot", Some(date(2026, 8, 29))), ("leek", None), ("salt", Some(date(2020, 1, 1)))]
    {
        street.pack(QUAY, food, 1000.0, 100);
        street.kitchen.packs.last_mut().unwrap().seen = seen;
        street.pack(MILL, food, 1000.0, 100);
        street.kitchen.packs.last_mut().unwrap().seen = seen;
    }
    for food in ["onion", "carrot", "leek"] {
        street.needs(food, &[(1, 800.0)]);
    }
    // 90 days before 28 November is 30 August; nobody needs salt.
    let text = "shops.toml: prices seen more than 90 days ago: carrot.".to_owned();
    assert_eq!(old_prices(&street.kitchen, &street.needs, SATURDAY), Some(Warning::Note { at: None, text }));
    assert_eq!(old_prices(&street.kitchen, &street.needs, date(2026, 11, 27)), None);
}
