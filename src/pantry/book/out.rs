//! Taking from the shelf, first expired, first out: what a line names, or an amount that a plan names.

use super::bench::{Bench, Missing};
use super::booking::Change;
use crate::foods::{FoodId, Item, as_purchased, convert, own_dimension};
use crate::kitchen::{Kitchen, RecipeId, Ware};
use crate::measure::{Dimension, Quantity};
use crate::pantry::{cheapest, lot_dates, worth};
use crate::plan::in_makes;
use jiff::civil::Date;

/// Why nothing could be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotTaken {
    /// No lot of it is on the shelf.
    NoLot,
    /// Its lots are in measures that cannot be compared with the one that was asked for.
    NotComparable,
}

/// Takes `item` of a food, past its dates or not; what is missing is in the dimension given beside it.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_food(kitchen: &Kitchen, bench: &mut Bench, food: FoodId, item: &Item) -> Result<(Missing, Dimension), NotTaken> {
    let facts = &kitchen.foods[food];
    let spoons = kitchen.rules.spoons;
    let own = own_dimension(facts, item, spoons).map(|own| own.dimension());
    take_in(kitchen, bench, food, own, None, |dimension| as_purchased(facts, item, dimension, spoons).ok())
}

/// Takes an amount of a food as purchased, on a day, from lots that may still be drawn then.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_amount(
    kitchen: &Kitchen,
    bench: &mut Bench,
    food: FoodId,
    amount: &Quantity,
    on: Date,
) -> Result<(Missing, Dimension), NotTaken> {
    let own = Some(amount.dimension());
    let in_dimension = |dimension: &Dimension| {
        if amount.dimension() == *dimension { Some(amount.clone()) } else { convert(&kitchen.foods[food], amount, dimension).ok() }
    };
    take_in(kitchen, bench, food, own, Some(on), in_dimension)
}

/// In the first dimension in which both the amount and some lot can be stated.
fn take_in(
    kitchen: &Kitchen,
    bench: &mut Bench,
    food: FoodId,
    own: Option<Dimension>,
    on: Option<Date>,
    wanted: impl Fn(&Dimension) -> Option<Quantity>,
) -> Result<(Missing, Dimension), NotTaken> {
    let is_it = |lot: usize| kitchen.lots[lot].of == Ware::Food(food) && good_on(kitchen, lot, on);
    if !bench.any_left(is_it) {
        return Err(NotTaken::NoLot);
    }
    for dimension in own.into_iter().chain([Dimension::Mass, Dimension::Volume, Dimension::Count]) {
        let Some(wanted) = wanted(&dimension) else { continue };
        let rate = |lot: usize| if is_it(lot) { food_rate(kitchen, lot, food, &dimension) } else { None };
        if bench.any_left(|lot| rate(lot).is_some()) {
            return Ok((bench.take(wanted.base(), rate), dimension));
        }
    }
    Err(NotTaken::NotComparable)
}

/// May the lot still be drawn on that day? Without a day it may.
fn good_on(kitchen: &Kitchen, lot: usize, on: Option<Date>) -> bool {
    on.is_none_or(|day| lot_dates(kitchen, &kitchen.lots[lot]).may_be_drawn_on(day))
}

/// Takes an amount of a cooked recipe, with a day from lots that may still be drawn then; what is missing is in the unit of its `makes`.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_recipe(
    kitchen: &Kitchen,
    bench: &mut Bench,
    recipe: RecipeId,
    amount: &Quantity,
    on: Option<Date>,
) -> Result<(Missing, Dimension), NotTaken> {
    let cooked = &kitchen.recipes[recipe];
    let is_it = |lot: usize| kitchen.lots[lot].of == Ware::Recipe(recipe) && good_on(kitchen, lot, on);
    if !bench.any_left(is_it) {
        return Err(NotTaken::NoLot);
    }
    let rate = |lot: usize| {
        let one = Quantity::of(&kitchen.lots[lot].amount.dimension(), 1.0);
        if is_it(lot) { in_makes(cooked, &one) } else { None }
    };
    let wanted = in_makes(cooked, amount).filter(|_| bench.any_left(|lot| rate(lot).is_some())).ok_or(NotTaken::NotComparable)?;
    Ok((bench.take(wanted, rate), cooked.makes.dimension()))
}

fn food_rate(kitchen: &Kitchen, lot: usize, food: FoodId, dimension: &Dimension) -> Option<f64> {
    let own = kitchen.lots[lot].amount.dimension();
    if own == *dimension {
        return Some(1.0);
    }
    convert(&kitchen.foods[food], &Quantity::of(&own, 1.0), dimension).ok().map(|one| one.base())
}

/// What a change took away, in minor units of money: by what was paid, else by the cheapest known price.
pub fn worth_taken(kitchen: &Kitchen, change: &Change) -> Option<i64> {
    let from = change.from.as_ref()?;
    let left = change.to.as_ref().map_or(0, |to| to.amount.thousandths);
    let taken = Quantity::of(&from.amount.dimension, (from.amount.thousandths - left) as f64 / 1000.0);
    let by_price = || cheapest(kitchen, kitchen.foods.find(from.food.as_deref()?)?, &from.amount.dimension);
    from.rate_paid().or_else(by_price).map(|rate| worth(&taken, rate).0)
}
