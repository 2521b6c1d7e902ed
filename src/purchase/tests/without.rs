//! The offer to do without the last of a line.

use pretty_assertions::assert_eq;

use super::*;
use crate::foods::Keeping;

/// Packs of 80 g at 1.65 and of nothing else.
fn packs_of_80() -> Street {
    let mut street = Street::new();
    street.pack(QUAY, "feta", 80.0, 165);
    street
}

fn offered(street: &Street) -> Option<(f64, f64, i64)> {
    street.line().without.map(|without| (without.short.base(), without.share, without.saves.0))
}

#[test]
fn the_last_tenth_that_costs_a_pack_is_offered() {
    // 83.5 g take two packs, 3.30; without the last 3.5 g (3.5 ÷ 83.5 = 4.19 %) one does, 1.65 less.
    let mut street = packs_of_80();
    street.needs("feta", &[(1, 83.5)]);
    assert_eq!((street.said().as_str(), offered(&street)), ("2 x 80 g = 3.30, left 76.5, short 0", Some((3.5, 0.04, 165))));
}

#[test]
fn more_than_a_tenth_is_not() {
    // One pack of 80 g would leave 10 g of 90 g short: 11 %. Of 88 g, 8 g are 9 %.
    let mut street = packs_of_80();
    street.needs("feta", &[(1, 90.0)]);
    assert_eq!(offered(&street), None);
    let mut street = packs_of_80();
    street.needs("feta", &[(1, 88.0)]);
    assert_eq!(offered(&street), Some((8.0, 0.09, 165)));
}

#[test]
fn what_short_by_leaves_out_already_is_not_offered_again() {
    // 81 g: one pack is 1 g short, within 2 %.
    let mut street = packs_of_80();
    street.needs("feta", &[(1, 81.0)]);
    assert_eq!((street.said().as_str(), offered(&street)), ("1 x 80 g = 1.65, left 0, short 1", None));
}

#[test]
fn the_tenth_is_of_the_demand_before_the_pantry() {
    // 100 g are wanted, 95 g are at home: the 5 g that are left are a pack of 1.65, and 5 % of the demand.
    let mut street = packs_of_80();
    street.needs("feta", &[(1, 5.0)]);
    street.needs[0].demand = 100.into();
    assert_eq!(offered(&street), Some((5.0, 0.05, 165)));
}

#[test]
fn counted_loose_and_several_windows_are_not_offered() {
    let mut counted = Street::new();
    counted.sell(QUAY, "egg", Quantity::pieces(10.0), Some(300), None, None);
    counted.needs_uses("egg", Dimension::Count, vec![a_use(1, 11.0)]);
    assert_eq!(offered(&counted), None);
    let mut loose = packs_of_80();
    loose.loose(QUAY, "feta", 4000, 10.0);
    loose.needs("feta", &[(1, 83.5)]);
    assert_eq!(offered(&loose), None);
    let mut twice = packs_of_80();
    twice.about("feta").keeps = Keeping { opened: Some(fact(Days(1))), ..Keeping::default() };
    twice.needs("feta", &[(1, 83.5), (5, 40.0)]);
    assert_eq!(offered(&twice), None);
}
