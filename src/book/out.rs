//! Taking from the shelf, first expired, first out: what a line names, or an amount that a plan names.

use jiff::civil::Date;

use super::bench::{Bench, Missing};
use super::booking::Change;
use super::record::LotRecord;
use crate::foods::{FoodId, Item, as_purchased, convert, own_dimension};
use crate::kitchen::{Kitchen, RecipeId, Ware};
use crate::measure::{Dimension, Number, Quantity};
use crate::plan::in_makes;
use crate::shelf::{Prices, food_rate, worth};

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
    let lots = bench.drawable(Ware::Food(food), on);
    if lots.is_empty() {
        return Err(NotTaken::NoLot);
    }
    for dimension in own.into_iter().chain([Dimension::Mass, Dimension::Volume, Dimension::Count]) {
        let Some(wanted) = wanted(&dimension) else { continue };
        let rate = |lot: usize| food_rate(kitchen, lot, food, &dimension);
        if lots.iter().any(|&lot| rate(lot).is_some()) {
            return Ok((bench.take(Ware::Food(food), on, wanted.exact(), rate), dimension));
        }
    }
    Err(NotTaken::NotComparable)
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
    let lots = bench.drawable(Ware::Recipe(recipe), on);
    if lots.is_empty() {
        return Err(NotTaken::NoLot);
    }
    let rate = |lot: usize| in_makes(cooked, &Quantity::of(&kitchen.lots[lot].amount.dimension(), 1));
    let comparable = lots.iter().any(|&lot| rate(lot).is_some());
    let wanted = in_makes(cooked, amount).filter(|_| comparable).ok_or(NotTaken::NotComparable)?;
    Ok((bench.take(Ware::Recipe(recipe), on, &wanted, rate), cooked.makes.dimension()))
}

/// What a change took away, in minor units of money: by what was paid, else by the cheapest known price.
pub fn worth_taken(kitchen: &Kitchen, prices: &Prices, change: &Change) -> Option<i64> {
    let from = change.from.as_ref()?;
    let left = change.to.as_ref().map_or(Number::ZERO, |to| to.amount.number.clone());
    let taken = Quantity::of(&from.amount.dimension, &from.amount.number - left);
    unit_price(kitchen, prices, from).map(|rate| worth(&taken, rate).0)
}

/// Minor units of money for one base unit of a lot.
pub(super) fn unit_price(kitchen: &Kitchen, prices: &Prices, lot: &LotRecord) -> Option<f64> {
    let paid = lot.rate_paid();
    match lot.food.as_deref().and_then(|name| kitchen.foods.find(name)) {
        Some(food) => prices.of_one(food, &lot.amount.dimension, paid),
        None => paid,
    }
}
