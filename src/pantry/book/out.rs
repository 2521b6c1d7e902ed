//! Taking from the shelf what a line names, whatever is past and whatever is not: first expired, first out.

use super::bench::{Bench, Missing};
use super::booking::Change;
use crate::foods::{FoodId, Item, as_purchased, convert, own_dimension};
use crate::kitchen::{Kitchen, LotOf, RecipeId};
use crate::measure::{Dimension, Quantity};
use crate::pantry::{cheapest, worth};
use crate::plan::in_makes;

/// Why nothing could be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotTaken {
    /// No lot of it is on the shelf.
    NoLot,
    /// Its lots are in measures that cannot be compared with the one that was asked for.
    NotComparable,
}

/// Takes `item` of a food; what is missing is in the dimension given beside it.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_food(kitchen: &Kitchen, bench: &mut Bench, food: FoodId, item: &Item) -> Result<(Missing, Dimension), NotTaken> {
    let is_it = |lot: usize| kitchen.lots[lot].of == LotOf::Food(food);
    if !bench.any_left(is_it) {
        return Err(NotTaken::NoLot);
    }
    let facts = &kitchen.foods[food];
    let spoons = kitchen.rules.spoons;
    let own = own_dimension(facts, item, spoons).map(|own| own.dimension());
    for dimension in own.into_iter().chain([Dimension::Mass, Dimension::Volume, Dimension::Count]) {
        let Ok(wanted) = as_purchased(facts, item, &dimension, spoons) else { continue };
        let rate = |lot: usize| if is_it(lot) { food_rate(kitchen, lot, food, &dimension) } else { None };
        if bench.any_left(|lot| rate(lot).is_some()) {
            return Ok((bench.take(wanted.base(), rate), dimension));
        }
    }
    Err(NotTaken::NotComparable)
}

/// Takes an amount of a cooked recipe; what is missing is in the unit of its `makes`.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_recipe(kitchen: &Kitchen, bench: &mut Bench, recipe: RecipeId, amount: &Quantity) -> Result<(Missing, Dimension), NotTaken> {
    let cooked = &kitchen.recipes[recipe.0];
    let is_it = |lot: usize| kitchen.lots[lot].of == LotOf::Recipe(recipe);
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
