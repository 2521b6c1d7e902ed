use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, Food, FoodId, Keeping, Place};
use crate::kitchen::fixture::{date, empty_kitchen, lot, recipe, spot};
use crate::kitchen::{Kitchen, Lot, Offer, Pack, PackKind, RecipeId, ShopId, Ware};
use crate::measure::{Days, Dimension, Money, Quantity};

const FETA: Ware = Ware::Food(FoodId(0));

fn days(days: i64) -> Option<Fact<Days>> {
    Some(Fact { value: Days(days), source: "test".to_owned() })
}

/// Feta keeps 10 days in the cupboard (as if), 20 in the fridge, 100 in the freezer, 5 once opened.
fn kitchen(lots: Vec<Lot>) -> Kitchen {
    let mut kitchen = empty_kitchen();
    let keeps = Keeping { cupboard: days(10), fridge: days(20), freezer: days(100), opened: days(5) };
    kitchen.foods.all.push(Food { name: "feta".to_owned(), keeps, ..Food::default() });
    kitchen.lots = lots;
    kitchen
}

fn feta(grams: f64, place: Place, change: impl FnOnce(&mut Lot)) -> Lot {
    let mut feta = lot(Ware::Food(FoodId(0)), Quantity::grams(grams), place);
    change(&mut feta);
    feta
}

fn dates_of(lot: Lot) -> LotDates {
    let kitchen = kitchen(vec![lot]);
    lot_dates(&kitchen.foods, &kitchen.recipes, &kitchen.lots[0])
}

#[test]
fn the_earliest_of_use_by_best_before_and_opened_counts() {
    let dates = dates_of(feta(1.0, Place::Fridge, |lot| {
        lot.use_by = Some(date("2026-12-10"));
        lot.best_before = Some(date("2026-12-08"));
        lot.opened = Some(date("2026-12-01"));
    }));
    assert_eq!(dates.earliest, Some(date("2026-12-06")), "opened on the 1st, 5 days");
    assert_eq!(dates.last_draw, dates.earliest);
}

#[test]
fn since_counts_only_where_nothing_else_is_known() {
    let since = |lot: &mut Lot| lot.since = Some(date("2026-11-01"));
    assert_eq!(dates_of(feta(1.0, Place::Fridge, since)).earliest, Some(date("2026-11-21")));
    let dated = dates_of(feta(1.0, Place::Fridge, |lot| {
        since(lot);
        lot.best_before = Some(date("2026-12-24"));
    }));
    assert_eq!(dated.earliest, Some(date("2026-12-24")));
}

#[test]
fn past_its_best_a_lot_is_drawn_from_cupboard_and_freezer_but_not_from_the_fridge() {
    for (place, drawn) in [(Place::Cupboard, true), (Place::Freezer, true), (Place::Fridge, false)] {
        let dates = dates_of(feta(1.0, place, |lot| lot.best_before = Some(date("2026-11-30"))));
        assert!(dates.may_be_drawn_on(date("2026-11-30")), "the day itself is still good");
        assert_eq!(dates.may_be_drawn_on(date("2026-12-01")), drawn, "{place:?}");
        assert_eq!(dates.wants_a_look_on(date("2026-12-01")), drawn, "{place:?}");
    }
}

#[test]
fn use_by_and_opened_keeping_end_a_lot_in_every_place() {
    for place in [Place::Cupboard, Place::Fridge, Place::Freezer] {
        let dates = dates_of(feta(1.0, place, |lot| lot.use_by = Some(date("2026-11-30"))));
        assert!(!dates.may_be_drawn_on(date("2026-12-01")), "{place:?}");
        let opened = dates_of(feta(1.0, place, |lot| lot.opened = Some(date("2026-11-25"))));
        assert!(!opened.may_be_drawn_on(date("2026-12-01")), "{place:?}: opened on the 25th, 5 days");
    }
}

#[test]
fn cooked_portions_keep_what_their_recipe_keeps_in_that_place() {
    let mut kitchen = empty_kitchen();
    let mut barley = recipe("pearl-barley");
    barley.fridge = Some(Days(3));
    kitchen.recipes.push(barley);
    let mut cooked = lot(Ware::Recipe(RecipeId(0)), Quantity::portions(2.0), Place::Fridge);
    cooked.made = Some(date("2026-11-29"));
    cooked.use_by = Some(date("2026-12-05"));
    assert_eq!(lot_dates(&kitchen.foods, &kitchen.recipes, &cooked).earliest, Some(date("2026-12-02")));
    kitchen.recipes[0].fridge = None;
    assert_eq!(
        lot_dates(&kitchen.foods, &kitchen.recipes, &cooked).earliest,
        Some(date("2026-11-29")),
        "without a keeping it is for the day it was made"
    );
}

#[test]
fn first_expired_is_first_out_and_undated_lots_come_last_in_file_order() {
    let kitchen = kitchen(vec![
        feta(100.0, Place::Freezer, |_| ()),
        feta(100.0, Place::Fridge, |lot| lot.use_by = Some(date("2026-12-09"))),
        feta(100.0, Place::Freezer, |_| ()),
        feta(100.0, Place::Fridge, |lot| lot.use_by = Some(date("2026-12-03"))),
    ]);
    let mut shelf = Shelf::new(&kitchen);
    let taken = shelf.draw(FETA, date("2026-12-01"), First::Opened, &350.into(), |_| Some(1.into()));
    assert_eq!(
        taken.iter().map(|taken| (taken.lot, taken.amount.to_f64())).collect::<Vec<_>>(),
        [(3, 100.0), (1, 100.0), (0, 100.0), (2, 50.0)]
    );
    assert_eq!(*shelf.left(2), Quantity::grams(50.0));
}

#[test]
fn a_draw_that_would_leave_less_than_a_gram_takes_the_rest_which_counts_as_used() {
    let kitchen = kitchen(vec![feta(100.0, Place::Fridge, |_| ()), feta(100.0, Place::Fridge, |_| ())]);
    let mut shelf = Shelf::new(&kitchen);
    // 100 g less 99 g is 1 g and stays; less 99.5 g it is half a gram, which goes with it.
    let mut draw =
        |grams: f64| shelf.draw(FETA, date("2026-12-01"), First::Opened, &grams.into(), |_| Some(1.into())).remove(0).amount.to_f64();
    assert_eq!((draw(99.0), draw(1.0), draw(99.5)), (99.0, 1.0, 100.0));
}

#[test]
fn a_lot_drawn_in_thirds_is_empty_after_three() {
    let kitchen = kitchen(vec![feta(1000.0, Place::Fridge, |_| ())]);
    let mut shelf = Shelf::new(&kitchen);
    for _ in 0..3 {
        let third = crate::measure::Number::over(1000, 3);
        let taken = shelf.draw(FETA, date("2026-12-01"), First::Opened, &third, |_| Some(1.into()));
        assert_eq!(taken.iter().map(|taken| &taken.amount).collect::<Vec<_>>(), [&third]);
    }
    assert!(!shelf.has_left(0));
    assert!(shelf.draw(FETA, date("2026-12-01"), First::Opened, &1.into(), |_| Some(1.into())).is_empty());
}

#[test]
fn without_a_day_what_is_past_its_dates_or_not_made_yet_is_drawn_too() {
    let kitchen = kitchen(vec![
        feta(100.0, Place::Fridge, |lot| lot.use_by = Some(date("2026-11-01"))),
        feta(100.0, Place::Fridge, |lot| lot.made = Some(date("2026-12-24"))),
        feta(100.0, Place::Fridge, |lot| lot.use_by = Some(date("2026-12-09"))),
    ]);
    let shelf = Shelf::new(&kitchen);
    assert_eq!(shelf.drawable(FETA, date("2026-12-01"), First::Opened), [2]);
    assert_eq!(
        shelf.drawable(FETA, When::Anyway(date("2026-12-01")), First::Opened),
        [0, 2, 1],
        "feta that was made keeps 20 days in the fridge"
    );
}

/// 200 g for 2.40 and three of them for 6.00: 1.20 and 1.00 a 100 g.
fn shop() -> Kitchen {
    let mut kitchen = kitchen(Vec::new());
    let offer = Some(Offer { buy: 3, pay: Money(600) });
    let kind = PackKind::Sized {
        size: Quantity::grams(200.0),
        single: Quantity::grams(200.0),
        label: "200 g".to_owned(),
        drained: None,
        price: Some(Money(240)),
        offer,
    };
    kitchen.packs = vec![Pack { shop: ShopId(0), food: FoodId(0), kind, section: None, seen: None, at: spot(1) }];
    kitchen
}

#[test]
fn a_unit_is_worth_what_was_paid_else_what_the_list_pays_else_the_cheapest_with_offers() {
    let kitchen = shop();
    let gram = |prices: &Prices, paid| prices.of_one(FoodId(0), &Dimension::Mass, paid);
    let known = Prices::new(&kitchen);
    assert_eq!(gram(&known, None), Some(1.0), "three for 6.00");
    // The list's first trip pays 2.20 for 200 g, its second 1.80.
    let line = |minor| (FoodId(0), Quantity::grams(200.0), Money(minor));
    let listed = Prices::new(&kitchen).with_list([line(220), line(180)]);
    assert_eq!(gram(&listed, None), Some(1.1));
    assert_eq!(gram(&listed, Some(1.5)), Some(1.5));
    assert_eq!(known.of_one(FoodId(0), &Dimension::Count, None), None, "nobody knows what a piece weighs");
}

#[test]
fn an_amount_is_priced_in_the_measure_of_the_pack() {
    let kitchen = shop();
    let grams = |dimension: &Dimension| (*dimension == Dimension::Mass).then_some(50.0);
    assert_eq!(Prices::new(&kitchen).cheapest(FoodId(0), grams), Some(50.0));
    assert_eq!(Prices::new(&kitchen).cheapest(FoodId(0), |_| None), None);
}

#[test]
fn half_a_minor_unit_is_rounded_up_once_its_noise_is_off() {
    assert_eq!([rounded(10.5), rounded(10.499_999_999_999_9), rounded(10.49)], [Money(11), Money(11), Money(10)]);
    assert_eq!(worth(&Quantity::grams(15.0), 0.7), Money(11));
}

#[test]
fn what_came_after_a_day_serves_it_last_and_is_not_opened_before_it_came() {
    // The pack of Wednesday goes off first; on Monday it was not there. Monday's 150 g take the 100 g that were, and 50 g of the pack.
    let kitchen = kitchen(vec![
        feta(200.0, Place::Fridge, |lot| {
            lot.pack = Some(Quantity::grams(200.0));
            lot.since = Some(date("2026-12-02"));
        }),
        feta(100.0, Place::Cupboard, |lot| lot.best_before = Some(date("2027-02-01"))),
    ]);
    let mut shelf = Shelf::new(&kitchen);
    assert_eq!(shelf.drawable(FETA, date("2026-11-30"), First::Opened), [1, 0]);
    assert_eq!(shelf.drawable(FETA, date("2026-12-02"), First::Opened), [0, 1]);
    shelf.draw(FETA, date("2026-11-30"), First::Opened, &150.into(), |_| Some(1.into()));
    assert_eq!(shelf.lots()[2].opened, Some(date("2026-12-02")));
}

#[test]
fn a_pack_from_the_cupboard_that_is_opened_into_the_fridge_keeps_the_date_it_had() {
    // In the cupboard since 28 Nov it would keep 30 days; a day in the fridge is for what was never a closed pack.
    let mut kitchen = kitchen(Vec::new());
    kitchen.foods.all[0].keeps = Keeping { cupboard: days(30), fridge: days(1), freezer: None, opened: days(4) };
    let opened = feta(460.0, Place::Fridge, |lot| {
        lot.since = Some(date("2026-11-28"));
        lot.opened = Some(date("2026-11-30"));
    });
    assert_eq!(lot_dates(&kitchen.foods, &kitchen.recipes, &opened).earliest, Some(date("2026-12-04")), "4 days once opened");
}

#[test]
fn a_carton_of_what_keeps_closed_for_nobody_knows_how_long_goes_off_by_its_opening_alone() {
    // In the cupboard it had no date. Opened on 7 Dec it is good for 7 days, whatever seven days in the fridge since 28 Nov would be.
    let mut kitchen = kitchen(vec![feta(2000.0, Place::Cupboard, |lot| {
        lot.pack = Some(Quantity::grams(1000.0));
        lot.since = Some(date("2026-11-28"));
    })]);
    kitchen.foods.all[0].keeps = Keeping { cupboard: None, fridge: days(7), freezer: None, opened: days(7) };
    let mut shelf = Shelf::new(&kitchen);
    let taken = shelf.draw(FETA, date("2026-12-07"), First::Opened, &100.into(), |_| Some(1.into()));
    assert_eq!(taken.len(), 1);
    let opened = shelf.opened_of(0).next().expect("opened");
    assert_eq!((shelf.lots()[opened].place, shelf.dates(opened).earliest), (Place::Fridge, Some(date("2026-12-14"))));
    // One that stood in the fridge keeps the date it had there.
    kitchen.lots[0].place = Place::Fridge;
    let mut shelf = Shelf::new(&kitchen);
    shelf.draw(FETA, date("2026-12-04"), First::Opened, &100.into(), |_| Some(1.into()));
    let opened = shelf.opened_of(0).next().expect("opened");
    assert_eq!(shelf.dates(opened).earliest, Some(date("2026-12-05")), "since 28 Nov, 7 days");
}

#[test]
fn who_throws_away_what_the_shelf_is_said_to_hold_throws_away_all_of_it() {
    // 543.75 g are told as 540 g; of 540 g asked for by a plan 3.75 g stay.
    let kitchen = kitchen(vec![feta(543.75, Place::Fridge, |_| ())]);
    let left = |when: When, grams: i64| {
        let mut shelf = Shelf::new(&kitchen);
        shelf.draw(FETA, when, First::Opened, &grams.into(), |_| Some(1.into()));
        shelf.left(0).base()
    };
    let day = date("2026-11-29");
    assert_eq!(left(When::Anyway(day), 540), 0.0);
    assert_eq!(left(When::Anyway(day), 530), 13.75);
    assert_eq!(left(When::On(day), 540), 3.75);
}
