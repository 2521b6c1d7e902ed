//! One food, one shop, one window.

use pretty_assertions::assert_eq;

use super::*;
use crate::purchase::OfferTaken;

#[test]
fn a_need_one_gram_over_a_tin_buys_one_tin_within_the_slack() {
    let mut street = Street::new();
    street.pack(QUAY, "tinned white beans", 400.0, 89);
    street.needs("tinned white beans", &[(1, 401.0)]);
    // 401 less 2 % of 401 is 392.98: one tin of 400 is enough, 1 g short.
    assert_eq!(street.said(), "1 x 400 g = 0.89, left 0, short 1");
}

#[test]
fn a_need_beyond_the_slack_buys_a_second_tin() {
    let mut street = Street::new();
    street.pack(QUAY, "tinned white beans", 400.0, 89);
    street.needs("tinned white beans", &[(1, 409.0)]);
    // 409 - 8.18 = 400.82 > 400; 2 x 0.89 = 1.78, 800 - 409 = 391 left.
    assert_eq!(street.said(), "2 x 400 g = 1.78, left 391, short 0");
}

#[test]
fn slack_is_taken_of_the_demand_before_the_pantry() {
    let mut street = Street::new();
    street.pack(QUAY, "pearl barley", 500.0, 140);
    street.needs("pearl barley", &[(1, 510.0)]);
    street.needs[0].demand = 860.into();
    // 350 g were on the shelf: 2 % of 860 is 17.2, and 510 - 17.2 = 492.8.
    assert_eq!(street.said(), "1 x 500 g = 1.40, left 0, short 10");
}

#[test]
fn where_slack_leaves_nothing_to_buy_the_line_stands_under_no_shop() {
    let mut street = Street::new();
    street.kitchen.shops[QUAY].trip = Money(250);
    street.pack(QUAY, "pearl barley", 500.0, 140);
    street.needs("pearl barley", &[(1, 7.0)]);
    street.needs[0].demand = 357.into();
    // 2 % of 357 is 7.14.
    let basket = street.basket();
    let visit = &basket.trips[0].shops[0];
    assert_eq!(visit.at, None);
    assert_eq!(street.said(), " = 0.00, left 0, short 7");
    assert_eq!((basket.cost, basket.no_price), (Money(0), vec![]));
}

#[test]
fn the_cheapest_set_may_mix_sizes() {
    let mut street = Street::new();
    street.pack(QUAY, "onion", 1000.0, 129);
    street.pack(QUAY, "onion", 250.0, 45);
    street.needs("onion", &[(1, 1230.0)]);
    // 1.29 + 0.45 = 1.74 against 2.58 and 5 x 0.45 = 2.25; 1250 - 1230 = 20.
    assert_eq!(street.said(), "1 x 1000 g, 1 x 250 g = 1.74, left 20, short 0");
}

#[test]
fn at_one_price_the_least_is_left() {
    let mut street = Street::new();
    street.pack(QUAY, "flour", 1000.0, 100);
    street.pack(QUAY, "flour", 800.0, 100);
    street.needs("flour", &[(1, 700.0)]);
    assert_eq!(street.said(), "1 x 800 g = 1.00, left 100, short 0");
}

#[test]
fn at_one_price_and_nothing_left_less_short_wins_before_fewer_packs() {
    let mut street = Street::new();
    street.pack(QUAY, "flour", 495.0, 100);
    street.pack(QUAY, "flour", 249.0, 50);
    street.needs("flour", &[(1, 500.0)]);
    // Both 1.00 and nothing left: 2 x 249 = 498 is 2 short, 1 x 495 is 5 short; the slack is 10.
    assert_eq!(street.said(), "2 x 249 g = 1.00, left 0, short 2");
}

#[test]
fn at_one_price_and_total_fewer_packs_win() {
    let mut street = Street::new();
    street.pack(QUAY, "flour", 500.0, 50);
    street.pack(QUAY, "flour", 1000.0, 100);
    street.needs("flour", &[(1, 1000.0)]);
    assert_eq!(street.said(), "1 x 1000 g = 1.00, left 0, short 0");
}

#[test]
fn of_as_many_packs_larger_ones_win() {
    let mut street = Street::new();
    street.pack(QUAY, "flour", 400.0, 40);
    street.pack(QUAY, "flour", 300.0, 30);
    street.pack(QUAY, "flour", 500.0, 50);
    street.needs("flour", &[(1, 800.0)]);
    // 500 + 300 or 400 + 400: 0.80, 800 g and two packs either way.
    assert_eq!(street.said(), "1 x 500 g, 1 x 300 g = 0.80, left 0, short 0");
}

#[test]
fn least_left_pays_more_to_leave_less() {
    let mut street = Street::new();
    street.kitchen.rules.choose = Choose::LeastLeft;
    street.pack(QUAY, "cream", 500.0, 100);
    street.pack(QUAY, "cream", 200.0, 95);
    street.needs("cream", &[(1, 390.0)]);
    // 2 x 200 leaves 10 and costs 1.90; 1 x 500 leaves 110 and costs 1.00.
    assert_eq!(street.said(), "2 x 200 g = 1.90, left 10, short 0");
}

#[test]
fn under_least_left_the_price_goes_before_being_less_short() {
    let mut street = Street::new();
    street.kitchen.rules.choose = Choose::LeastLeft;
    street.pack(QUAY, "cream", 500.0, 150);
    street.pack(QUAY, "cream", 495.0, 100);
    street.needs("cream", &[(1, 500.0)]);
    // Neither leaves anything; the slack of 10 g may be used to pay less.
    assert_eq!(street.said(), "1 x 495 g = 1.00, left 0, short 5");
}

#[test]
fn an_offer_is_used_again_and_again() {
    let mut street = Street::new();
    street.offer(QUAY, "tinned tomatoes", 400.0, 89, 3, 200);
    street.needs("tinned tomatoes", &[(1, 2800.0)]);
    // Seven tins: 2 x 2.00 + 0.89 = 4.89.
    assert_eq!(street.said(), "7 x 400 g (2 offer) = 4.89, left 0, short 0");
    let taken = OfferTaken { offer: Offer { buy: 3, pay: Money(200) }, times: 2 };
    assert_eq!(street.line().packs[0].offer, Some(taken));
}

#[test]
fn an_offer_is_filled_up_where_that_is_cheaper() {
    let mut street = Street::new();
    street.offer(QUAY, "tinned tomatoes", 400.0, 120, 3, 200);
    street.needs("tinned tomatoes", &[(1, 800.0)]);
    // Two are 2.40, three are 2.00.
    assert_eq!(street.said(), "3 x 400 g (1 offer) = 2.00, left 400, short 0");
}

#[test]
fn an_offer_dearer_than_its_packs_is_not_used() {
    let mut street = Street::new();
    street.offer(QUAY, "tinned tomatoes", 400.0, 60, 3, 200);
    street.needs("tinned tomatoes", &[(1, 1200.0)]);
    assert_eq!(street.said(), "3 x 400 g = 1.80, left 0, short 0");
}

#[test]
fn loose_goods_are_rounded_up_to_the_step_and_priced_once() {
    let mut street = Street::new();
    street.loose(QUAY, "carrot", 145, 50.0);
    street.needs("carrot", &[(1, 610.0)]);
    // 610 -> 650 g; 0.65 x 1.45 = 0.9425 -> 0.94. No slack for loose goods.
    assert_eq!(street.said(), "loose 650 g = 0.94, left 40, short 0");
    assert_eq!(street.line().packs[0].what, Packed::Loose(Quantity::grams(650.0)));
}

#[test]
fn half_a_cent_is_rounded_up() {
    let mut street = Street::new();
    street.loose(QUAY, "carrot", 150, 10.0);
    street.needs("carrot", &[(1, 230.0)]);
    // 0.23 x 1.50 = 0.345 -> 0.35.
    assert_eq!(street.said(), "loose 230 g = 0.35, left 0, short 0");
}

#[test]
fn a_pack_and_loose_goods_are_mixed_where_that_is_cheapest() {
    let mut street = Street::new();
    street.pack(QUAY, "carrot", 1000.0, 99);
    street.loose(QUAY, "carrot", 140, 100.0);
    street.needs("carrot", &[(1, 1250.0)]);
    // 0.99 + 0.3 x 1.40 = 0.42 -> 1.41; two bags 1.98; all loose 1.82. The shop sells loose, so no slack.
    assert_eq!(street.said(), "1 x 1000 g, loose 300 g = 1.41, left 50, short 0");
}

#[test]
fn floating_noise_never_buys_another_pack() {
    let mut street = Street::new();
    street.kitchen.rules.short_by = 0.0;
    street.pack(QUAY, "butter", 250.0, 219);
    // 0.1 + 0.2 kilograms of it and so on: 250.00000000000003.
    street.needs("butter", &[(1, (0.1 + 0.2) * 1000.0 - 50.0)]);
    assert_eq!(street.said(), "1 x 250 g = 2.19, left 0, short 0");
}

#[test]
fn odd_sizes_add_up_without_noise() {
    let mut street = Street::new();
    street.kitchen.rules.short_by = 0.0;
    // One ounce is 28.349523125 g (NIST SP 811, Appendix B.8: 2.834 952 E-02 kg; exact by the pound of 0.453 592 37 kg).
    street.pack(QUAY, "saffron", 28.349523125, 100);
    street.needs("saffron", &[(1, 453.59237)]);
    // Sixteen ounces to the pound.
    assert_eq!(street.said(), "16 x 28.349523125 g = 16.00, left 0, short 0");
}

#[test]
fn a_hundred_kilograms_of_a_gram_pack_and_an_ounce_pack_are_covered_exactly() {
    for choose in [Choose::Cheapest, Choose::LeastLeft] {
        let mut street = Street::new();
        street.kitchen.rules.short_by = 0.0;
        street.kitchen.rules.choose = choose;
        for (grams, minor) in [(1.0, 3), (28.349523125, 70), (100.0, 210), (250.0, 500), (400.0, 799), (1000.0, 1990)] {
            street.pack(QUAY, "spice", grams, minor);
        }
        street.needs("spice", &[(1, 100_001.0)]);
        // 100 kg at the best price is 100 x 19.90, and the gram is 0.03 more.
        assert_eq!(street.said(), "100 x 1000 g, 1 x 1 g = 1990.03, left 0, short 0");
    }
}

#[test]
fn pieces_are_rounded_up_over_the_trip_and_have_no_slack() {
    let mut street = Street::new();
    street.sell(QUAY, "egg", Quantity::pieces(6.0), Some(180), None, None);
    street.sell(QUAY, "egg", Quantity::pieces(1.0), Some(40), None, None);
    street.needs_uses("egg", Dimension::Count, vec![a_use(1, 3.5), a_use(2, 2.6)]);
    let line = street.line();
    // 6.1 pieces are 7: a box and one more, 1.80 + 0.40.
    assert_eq!(line.need, Quantity::pieces(7.0));
    assert_eq!(said(&line), "1 x 6 each, 1 x 1 each = 2.20, left 0, short 0");
}

#[test]
fn free_packs_cover_as_any_other() {
    let mut street = Street::new();
    street.pack(QUAY, "windfall apple", 300.0, 0);
    street.needs("windfall apple", &[(1, 700.0)]);
    assert_eq!(street.said(), "3 x 300 g = 0.00, left 200, short 0");
}

#[test]
fn a_large_need_of_small_packs_that_nothing_covers_exactly_is_searched_to_its_end() {
    let mut street = Street::new();
    street.kitchen.rules.short_by = 0.0;
    street.kitchen.rules.choose = Choose::LeastLeft;
    for (grams, minor) in [(7.0, 19), (30.0, 70), (111.0, 240), (250.0, 510), (1000.0, 1990)] {
        street.pack(QUAY, "spice", grams, minor);
    }
    street.needs("spice", &[(1, 99_999.5)]);
    // 100 kg of the largest leaves 0.5 g, and nothing leaves less, as every pack is whole grams.
    assert_eq!(street.said(), "100 x 1000 g = 1990.00, left 0.5, short 0");
    assert_eq!(street.basket().warnings, vec![]);
}

#[test]
fn sizes_that_share_no_divisor_are_given_up_in_time_and_say_so() {
    let mut street = Street::new();
    street.kitchen.rules.short_by = 0.0;
    street.kitchen.rules.choose = Choose::LeastLeft;
    for (grams, minor) in [(28.349523125, 70), (113.4, 240), (453.59237, 905), (1000.0, 1990)] {
        street.pack(QUAY, "spice", grams, minor);
    }
    street.needs("spice", &[(1, 99_990.0)]);
    let basket = street.basket();
    assert_eq!(basket.warnings.len(), 1);
    assert_eq!(basket.warnings[0].to_string(), "the packs of spice could not be searched to the end; the best found are listed");
    // A hundred large packs would leave 10 g.
    assert!(street.line().left.base() < 10.0);
    street.kitchen.rules.choose = Choose::Cheapest;
    assert_eq!(street.said(), "100 x 1000 g = 1990.00, left 10, short 0");
    assert_eq!(street.basket().warnings, vec![]);
}
