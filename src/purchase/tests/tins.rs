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
fn tins_of_two_stated_sizes_near_one_pack_are_as_many_packs() {
    let lines = |tins: &[(f64, f64)]| {
        let tin = |(count, size): &(f64, f64)| stated(count * size, Stated::Tin { size: Quantity::grams(*size) });
        tins.iter().map(tin).collect::<Vec<NeedUse>>()
    };
    for (packs, tins, said) in [
        // Two tins, 800 g.
        (&[400.0][..], &[(1.0, 410.0), (1.0, 390.0)][..], "2 x 400 g = 1.78, left 0, short 0"),
        (&[400.0], &[(1.0, 430.0), (1.0, 370.0)], "2 x 400 g = 1.78, left 0, short 0"),
        // 410 + 400 is 810, and two tins are two tins.
        (&[400.0], &[(1.0, 410.0), (1.0, 400.0)], "2 x 400 g = 1.78, left 0, short 0"),
        // Four tins, of 1,530 g in all.
        (&[400.0], &[(3.0, 365.0), (1.0, 435.0)], "4 x 400 g = 3.56, left 0, short 0"),
        // 800 g is near neither of the others: one of each pack, dearer by the gram or not.
        (&[400.0, 800.0], &[(1.0, 410.0), (1.0, 390.0), (1.0, 800.0)], "2 x 800 g = 1.78, left 0, short 0"),
        // Nothing is near both: a tin of 400 counts as that, and one of 340 is bought as it is.
        (&[400.0, 340.0], &[(1.0, 400.0), (1.0, 340.0)], "1 x 400 g, 1 x 340 g = 1.78, left 0, short 0"),
    ] {
        let mut street = Street::new();
        packs.iter().for_each(|grams| street.pack(QUAY, "tinned white beans", *grams, 89));
        street.needs_uses("tinned white beans", Dimension::Mass, lines(tins));
        assert_eq!(street.said(), said, "{packs:?} {tins:?}");
    }
}

#[test]
fn the_tins_of_a_multipack_count_one_by_one() {
    let mut street = Street::new();
    street.multipack(QUAY, "tinned white beans", 4, 390.0, 300);
    street.needs_uses("tinned white beans", Dimension::Mass, vec![stated(1600.0, Stated::Tin { size: Quantity::grams(400.0) })]);
    assert_eq!(street.said(), "1 x 4 x 390 g = 3.00, left 0, short 0");
}

#[test]
fn a_multipack_serves_several_windows() {
    let bought = |days: &[i8], is_single_sold: bool| {
        let mut street = Street::new();
        street.opened("yoghurt", 2);
        street.multipack(QUAY, "yoghurt", 4, 125.0, 200);
        if is_single_sold {
            street.pack(QUAY, "yoghurt", 125.0, 60);
        }
        street.needs("yoghurt", &days.iter().map(|day| (*day, 100.0)).collect::<Vec<_>>());
        street.said()
    };
    // Opened they keep two days: three windows of one pot each, and four pots are in one pack.
    assert_eq!(bought(&[1, 5, 9], false), "1 x 4 x 125 g = 2.00, left 200, short 0");
    // One by one they are cheaper: 3 times 60.
    assert_eq!(bought(&[1, 5, 9], true), "3 x 125 g = 1.80, left 75, short 0");
    // Five windows: a pack of four, and one alone.
    assert_eq!(bought(&[1, 5, 9, 13, 17], true), "1 x 4 x 125 g, 1 x 125 g = 2.60, left 125, short 0");
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
