use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Fact, Food, Keeping};
use crate::kitchen::fixture::{date, empty_kitchen, spot};
use crate::kitchen::{Pack, PackKind, Shop, ShopId, Trip};
use crate::measure::{Money, Quantity};
use crate::plan::MadeAt;

/// Trips on Saturday 28 November (both shops) and Wednesday 2 December (the first shop).
fn week() -> Week {
    Week {
        name: "Test week".to_owned(),
        from: date("2026-11-30"),
        trips: vec![
            Trip { on: date("2026-11-28"), shops: None, planned: true, nth: 0, settled: Vec::new(), at: spot(1) },
            Trip { on: date("2026-12-02"), shops: Some(vec![ShopId(0)]), planned: true, nth: 0, settled: Vec::new(), at: spot(2) },
        ],
        sessions: Vec::new(),
        meals: Vec::new(),
        left_out: Default::default(),
        wishes: Default::default(),
        at: spot(1),
    }
}

/// Spinach that keeps `days` in the fridge, sold by `shops`.
fn kitchen(days: Option<i64>, shops: &[usize]) -> Kitchen {
    let mut kitchen = empty_kitchen();
    let fridge = days.map(|days| Fact { value: Days(days), source: "test".to_owned() });
    let keeps = Keeping { fridge, ..Keeping::default() };
    kitchen.foods.all.push(Food { name: "spinach".to_owned(), keeps, ..Food::default() });
    for name in ["Quay market", "Mill stores"] {
        kitchen.shops.push(Shop { name: name.to_owned(), sections: Vec::new(), trip: Money::ZERO, at: spot(1) });
    }
    for &shop in shops {
        let kind = PackKind::Sized {
            size: Quantity::grams(100.0),
            single: Quantity::grams(100.0),
            label: "100 g".to_owned(),
            drained: None,
            price: None,
            offer: None,
        };
        kitchen.packs.push(Pack { shop: ShopId(shop), food: FoodId(0), kind, section: None, seen: None, at: spot(1) });
    }
    kitchen
}

fn assigned(kitchen: &Kitchen, on: &str) -> (usize, Option<Untimely>) {
    let demand = Demand {
        food: FoodId(0),
        on: date(on),
        amount: Quantity::grams(50.0),
        to_taste: false,
        stated: Stated::Plain,
        asked: None,
        tin: None,
        what_for: "Frittata".to_owned(),
        dish: None,
        line: "50 g spinach".to_owned(),
        at: spot(1),
        by: MadeAt::Meal(0),
        own_words: false,
        optional: false,
        instead: None,
    };
    let week = week();
    let assigned = assign(&kitchen.foods, &week, &Sold::new(kitchen, &week), &demand).expect("a trip");
    (assigned.trip, assigned.flag)
}

#[test]
fn a_food_is_bought_on_the_earliest_trip_from_which_it_keeps() {
    assert_eq!(assigned(&kitchen(Some(3), &[0]), "2026-12-01"), (0, None), "Saturday + 3 = Tuesday");
    assert_eq!(assigned(&kitchen(Some(3), &[0]), "2026-12-02"), (1, None), "a trip comes before the meals of its day");
    assert_eq!(assigned(&kitchen(None, &[0]), "2026-12-05"), (0, None), "not known keeps for ever");
}

#[test]
fn only_trips_whose_shops_sell_it_count() {
    assert_eq!(
        assigned(&kitchen(Some(3), &[1]), "2026-12-03"),
        (0, Some(Untimely::TooEarly { before: Days(5), keeps: Days(3) })),
        "only Saturday goes to Mill stores"
    );
    assert_eq!(assigned(&kitchen(Some(3), &[]), "2026-12-03"), (1, None), "sold by nobody: the rule is applied without selling");
}

#[test]
fn what_does_not_keep_from_any_trip_is_bought_on_the_latest_and_flagged_with_both_figures() {
    assert_eq!(assigned(&kitchen(Some(1), &[0]), "2026-12-06"), (1, Some(Untimely::TooEarly { before: Days(4), keeps: Days(1) })));
}

#[test]
fn what_is_needed_before_any_trip_is_bought_on_the_first_and_flagged() {
    assert_eq!(
        assigned(&kitchen(None, &[0]), "2026-11-27"),
        (0, Some(Untimely::TooLate { needed: date("2026-11-27"), bought: date("2026-11-28") }))
    );
}
