//! Food that keeps only so long once opened.

use pretty_assertions::assert_eq;

use super::*;
use crate::telling::list::windows;

fn opened(line: &ListLine) -> Option<String> {
    line.windows.as_ref().map(windows)
}

#[test]
fn each_window_is_covered_on_its_own() {
    let mut street = Street::new();
    street.opened("coconut milk", 3);
    street.pack(QUAY, "coconut milk", 400.0, 150);
    // Opened on the 1st it serves until the 4th; the 5th needs a tin of its own.
    street.needs("coconut milk", &[(1, 100.0), (4, 100.0), (5, 100.0)]);
    let line = street.line();
    assert_eq!(said(&line), "2 x 400 g = 3.00, left 500, short 0");
    assert_eq!(opened(&line).as_deref(), Some("one for Tuesday, one for Saturday"));
    assert_eq!(line.need, Quantity::grams(300.0));
}

#[test]
fn several_windows_have_no_slack() {
    let mut street = Street::new();
    street.opened("coconut milk", 1);
    street.pack(QUAY, "coconut milk", 400.0, 150);
    street.needs("coconut milk", &[(1, 401.0), (5, 100.0)]);
    assert_eq!(street.said(), "3 x 400 g = 4.50, left 699, short 0");
}

#[test]
fn one_window_keeps_its_slack() {
    let mut street = Street::new();
    street.opened("coconut milk", 3);
    street.pack(QUAY, "coconut milk", 400.0, 150);
    street.needs("coconut milk", &[(1, 201.0), (3, 200.0)]);
    let line = street.line();
    assert_eq!(said(&line), "1 x 400 g = 1.50, left 0, short 1");
    assert_eq!(line.windows, None);
}

#[test]
fn an_offer_counts_over_all_windows_together() {
    let mut street = Street::new();
    street.opened("coconut milk", 1);
    street.offer(QUAY, "coconut milk", 200.0, 90, 3, 200);
    street.pack(QUAY, "coconut milk", 400.0, 150);
    // Alone, 400 g is cheapest as one 400 (1.50 < 1.80) and 100 g as one 200 (0.90): 2.40. Together three 200s are 2.00.
    street.needs("coconut milk", &[(1, 400.0), (5, 100.0)]);
    let line = street.line();
    assert_eq!(said(&line), "3 x 200 g (1 offer) = 2.00, left 100, short 0");
    assert_eq!(opened(&line).as_deref(), Some("two for Tuesday, one for Saturday"));
}

#[test]
fn an_offer_over_windows_is_filled_up_where_that_is_cheaper() {
    let mut street = Street::new();
    street.opened("coconut milk", 1);
    street.offer(QUAY, "coconut milk", 200.0, 120, 3, 200);
    street.needs("coconut milk", &[(1, 150.0), (5, 150.0)]);
    // Two are 2.40, three are 2.00.
    let line = street.line();
    assert_eq!(said(&line), "3 x 200 g (1 offer) = 2.00, left 300, short 0");
    assert_eq!(opened(&line).as_deref(), Some("one for Tuesday, one for Saturday, one over"));
}

#[test]
fn loose_goods_have_no_windows() {
    let mut street = Street::new();
    street.opened("feta", 1);
    street.loose(QUAY, "feta", 1000, 10.0);
    street.needs("feta", &[(1, 55.0), (5, 55.0)]);
    // 110 g in one: 1.10. Two windows would be 60 + 60.
    assert_eq!(street.said(), "loose 110 g = 1.10, left 0, short 0");
}

#[test]
fn without_a_keeping_time_demand_and_top_up_are_one_cover() {
    let mut street = Street::new();
    street.pack(QUAY, "oat milk", 1000.0, 179);
    street.needs_uses("oat milk", Dimension::Mass, vec![a_use(3, 300.0), top_up(600.0)]);
    let line = street.line();
    assert_eq!(said(&line), "1 x 1000 g = 1.79, left 100, short 0");
    assert_eq!((line.what_for.as_slice(), line.top_up), (&["White-bean mash".to_owned()][..], true));
    assert_eq!(line.last_used, Some(on(3)));
}

#[test]
fn the_top_up_of_a_food_that_is_opened_is_a_window_of_its_own() {
    let mut street = Street::new();
    street.opened("oat milk", 4);
    street.pack(QUAY, "oat milk", 1000.0, 179);
    street.needs_uses("oat milk", Dimension::Mass, vec![a_use(3, 300.0), top_up(600.0)]);
    let line = street.line();
    assert_eq!(said(&line), "2 x 1000 g = 3.58, left 1100, short 0");
    assert_eq!(opened(&line).as_deref(), Some("one for Thursday, one for the shelf"));
}

#[test]
fn a_pure_top_up_is_last_used_never() {
    let mut street = Street::new();
    street.pack(QUAY, "oat milk", 1000.0, 179);
    street.needs_uses("oat milk", Dimension::Mass, vec![top_up(600.0)]);
    let line = street.line();
    assert_eq!((line.last_used, line.what_for.len(), line.top_up), (None, 0, true));
}

#[test]
fn to_taste_is_any_one_pack_and_its_need_shows_nothing() {
    let mut street = Street::new();
    street.pack(QUAY, "salt", 500.0, 45);
    street.pack(QUAY, "salt", 1000.0, 60);
    street.needs_uses("salt", Dimension::Mass, vec![to_taste(1), to_taste(2)]);
    let line = street.line();
    assert_eq!(said(&line), "1 x 500 g = 0.45, left 500, short 0");
    assert_eq!(line.need, Quantity::grams(0.0));
    assert_eq!(line.own_words, ["to taste"]);
}

#[test]
fn to_taste_is_covered_by_whatever_is_bought() {
    let mut street = Street::new();
    street.offer(QUAY, "salt", 500.0, 45, 2, 80);
    street.needs_uses("salt", Dimension::Mass, vec![a_use(1, 300.0), to_taste(2)]);
    let line = street.line();
    assert_eq!(said(&line), "1 x 500 g = 0.45, left 200, short 0");
    assert_eq!(line.need, Quantity::grams(300.0));
}

#[test]
fn to_taste_is_covered_in_whichever_window_it_falls() {
    let mut street = Street::new();
    street.opened("salt", 3);
    street.pack(QUAY, "salt", 100.0, 90);
    street.needs_uses("salt", Dimension::Mass, vec![a_use(1, 100.0), to_taste(7)]);
    assert_eq!(street.said(), "1 x 100 g = 0.90, left 0, short 0");
}

#[test]
fn several_times_to_taste_is_one_pack_however_long_an_opened_one_keeps() {
    let mut street = Street::new();
    street.opened("salt", 3);
    street.pack(QUAY, "salt", 100.0, 90);
    street.needs_uses("salt", Dimension::Mass, vec![to_taste(1), to_taste(7)]);
    assert_eq!(street.said(), "1 x 100 g = 0.90, left 100, short 0");
}

#[test]
fn to_taste_adds_no_loose_step() {
    let mut street = Street::new();
    street.loose(QUAY, "salt", 145, 50.0);
    street.pack(QUAY, "salt", 500.0, 45);
    street.needs_uses("salt", Dimension::Mass, vec![a_use(1, 160.0), to_taste(2)]);
    // 200 g: 0.2 x 1.45 = 0.29; the pack is 0.45.
    assert_eq!(street.said(), "loose 200 g = 0.29, left 40, short 0");
}

#[test]
fn to_taste_leaves_the_need_its_two_per_cent() {
    let mut street = Street::new();
    street.pack(QUAY, "salt", 100.0, 90);
    street.needs_uses("salt", Dimension::Mass, vec![a_use(1, 101.0), to_taste(2)]);
    // 101 g may be short by 2.02 g.
    assert_eq!(street.said(), "1 x 100 g = 0.90, left 0, short 1");
}

#[test]
fn where_the_need_alone_would_buy_nothing_to_taste_buys_a_pack() {
    let mut street = Street::new();
    street.pack(QUAY, "salt", 100.0, 90);
    street.needs_uses("salt", Dimension::Mass, vec![a_use(1, 1.0), to_taste(2)]);
    street.needs[0].demand = crate::measure::Number::from(101.0);
    assert_eq!(street.said(), "1 x 100 g = 0.90, left 99, short 0");
}

#[test]
fn pieces_are_not_rounded_in_each_window() {
    let mut street = Street::new();
    street.opened("lemon", 1);
    street.sell(QUAY, "lemon", Quantity::pieces(1.0), Some(40), None, None);
    street.needs_uses("lemon", Dimension::Count, vec![a_use(1, 0.5), a_use(5, 0.6)]);
    let line = street.line();
    // 1.1 pieces are 2, one for each window.
    assert_eq!(line.need, Quantity::pieces(2.0));
    assert_eq!(said(&line), "2 x 1 each = 0.80, left 0, short 0");
}

#[test]
fn many_offers_over_many_windows_are_weighed_at_once() {
    let mut street = Street::new();
    street.opened("coconut milk", 1);
    for (index, grams) in [100.0, 150.0, 200.0, 250.0, 330.0, 400.0, 500.0, 750.0].into_iter().enumerate() {
        let minor = grams as i64 / 2 + 10 * index as i64;
        street.offer(QUAY, "coconut milk", grams, minor, 4, minor * 3);
    }
    let uses: Vec<(i8, f64)> = (0..7).map(|index| (1 + 3 * index, 370.0 + 110.0 * f64::from(index))).collect();
    street.needs("coconut milk", &uses);
    let begun = std::time::Instant::now();
    assert!(street.line().cost.is_some());
    assert!(begun.elapsed() < std::time::Duration::from_secs(5));
}
