//! What a pack counts as.

use pretty_assertions::assert_eq;

use super::*;

fn stated(amount: f64, stated: Stated) -> NeedUse {
    NeedUse { stated, ..a_use(1, amount) }
}

#[test]
fn a_tin_within_ten_per_cent_counts_as_the_size_of_the_line() {
    let mut street = Street::new();
    street.pack(QUAY, "tinned white beans", 380.0, 89);
    street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(800.0, Stated::Tin { size: Quantity::grams(400.0) })]);
    // Two tins of 380 count as 800.
    assert_eq!(street.said(), "2 x 380 g = 1.78, left 0, short 0");
}

#[test]
fn exactly_ten_per_cent_is_within_and_more_is_not() {
    for (grams, said) in [(360.0, "2 x 360 g = 1.78, left 0, short 0"), (359.0, "3 x 359 g = 2.67, left 277, short 0")] {
        let mut street = Street::new();
        street.pack(QUAY, "tinned white beans", grams, 89);
        street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(800.0, Stated::Tin { size: Quantity::grams(400.0) })]);
        assert_eq!(street.said(), said);
    }
}

#[test]
fn one_plain_line_makes_tins_count_by_weight() {
    let mut street = Street::new();
    street.pack(QUAY, "tinned white beans", 380.0, 89);
    let uses = vec![stated(800.0, Stated::Tin { size: Quantity::grams(400.0) }), a_use(2, 40.0)];
    street.needs_uses("tinned white beans", Dimension::Mass, uses);
    // 840 less 16.8 is 823.2: 2 x 380 = 760 will not do; 3 x 380 - 840 = 300.
    assert_eq!(street.said(), "3 x 380 g = 2.67, left 300, short 0");
}

#[test]
fn a_drained_need_counts_what_is_drained_in_the_pack() {
    let mut street = Street::new();
    street.about("tinned white beans").drained = Some(fact(0.6));
    street.sell(QUAY, "tinned white beans", Quantity::grams(400.0), Some(89), None, Some(250.0));
    // 250 g drained are 250 / 0.6 = 416.67 g as purchased; one tin drains 250 g.
    street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(250.0 / 0.6, Stated::Drained)]);
    assert_eq!(street.said(), "1 x 400 g = 0.89, left 0, short 0");
}

#[test]
fn what_is_left_of_a_drained_pack_is_told_as_purchased() {
    let mut street = Street::new();
    street.about("tinned white beans").drained = Some(fact(0.6));
    street.sell(QUAY, "tinned white beans", Quantity::grams(400.0), Some(89), None, Some(240.0));
    street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(300.0 / 0.6, Stated::Drained)]);
    // 500 g as purchased; two tins drain 480 g, which is 480 / 0.6 = 800 g; 300 left.
    assert_eq!(street.said(), "2 x 400 g = 1.78, left 300, short 0");
}

#[test]
fn a_top_up_makes_drained_tins_count_as_purchased() {
    let mut street = Street::new();
    street.about("tinned white beans").drained = Some(fact(0.6));
    street.sell(QUAY, "tinned white beans", Quantity::grams(400.0), Some(89), None, Some(250.0));
    street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(410.0, Stated::Drained), top_up(10.0)]);
    // 420 less 8.4 is 411.6 > 400.
    assert_eq!(street.said(), "2 x 400 g = 1.78, left 380, short 0");
}
