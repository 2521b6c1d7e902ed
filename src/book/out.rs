//! Taking from the shelf, first expired, first out: what a line names, or an amount that a plan names.

use jiff::civil::Date;

use super::bench::{Bench, Took};
use super::booking::Change;
use super::record::{LotRecord, as_lot};
use crate::foods::{FoodId, Foods, Item, as_purchased, convert, own_dimension};
use crate::kitchen::{Kitchen, Lot, Recipe, RecipeId, Rules, Ware, Whose};
use crate::measure::{Dimension, Number, Quantity};
use crate::plan::tin_of;
use crate::shelf::{First, Prices, When, counts_packs, food_rate, worth};

/// Why nothing could be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotTaken {
    /// No lot of it is on the shelf.
    NoLot,
    /// Its lots are in measures that cannot be compared with the one that was asked for.
    NotComparable,
}

/// What was taken, and in which dimension it was asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct TookOf {
    pub taken: Quantity,
    pub missing: Quantity,
    /// Minor units of money; `None` where no price of some of it is known.
    pub cost: Option<f64>,
}

/// Takes `item` of a food from the lots that may be drawn, one [`When`] after the other.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_food(foods: &Foods, rules: &Rules, bench: &mut Bench, food: FoodId, item: &Item, whens: &[When]) -> Result<TookOf, NotTaken> {
    let facts = &foods[food];
    let spoons = rules.spoons;
    let counted = item.amount.most(spoons);
    let asked = Asked {
        tin: tin_of(facts, item),
        own: own_dimension(facts, item, spoons).or(counts_packs(&counted.dimension()).then_some(counted)),
    };
    take_in(foods, bench, food, &asked, whens, |dimension| as_purchased(facts, item, dimension, spoons).ok())
}

/// Takes an amount of a food as purchased, on a day, from lots that may still be drawn then. `tin` is the size of one, where tins are
/// counted.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_amount(
    foods: &Foods,
    bench: &mut Bench,
    food: FoodId,
    (amount, tin): (&Quantity, Option<&Quantity>),
    on: Date,
) -> Result<TookOf, NotTaken> {
    let asked = Asked { tin: tin.cloned(), own: Some(amount.clone()) };
    take_in(foods, bench, food, &asked, &[When::On(on)], |dimension| convert(&foods[food], amount, dimension).ok())
}

struct Asked {
    /// In its own dimension, where it has one.
    own: Option<Quantity>,
    /// The size of one of the tins it counts.
    tin: Option<Quantity>,
}

/// In the first dimension in which both the amount and some lot can be stated.
fn take_in(
    foods: &Foods,
    bench: &mut Bench,
    food: FoodId,
    asked: &Asked,
    whens: &[When],
    stated_in: impl Fn(&Dimension) -> Option<Quantity>,
) -> Result<TookOf, NotTaken> {
    let lots: Vec<&Lot> = whens.iter().flat_map(|when| bench.drawable(Ware::Food(food), *when)).collect();
    if lots.is_empty() {
        return Err(NotTaken::NoLot);
    }
    let own = asked.own.as_ref().map(Quantity::dimension);
    let first = if asked.tin.is_some() || own.as_ref().is_some_and(counts_packs) { First::Closed } else { First::Opened };
    for dimension in own.into_iter().chain([Dimension::Mass, Dimension::Volume, Dimension::Count]) {
        let wanted = asked.own.clone().filter(|own| own.dimension() == dimension).or_else(|| stated_in(&dimension));
        let Some(wanted) = wanted else { continue };
        let rate = |lot: &Lot| food_rate(foods, lot, food, &dimension, asked.tin.as_ref());
        if lots.iter().any(|lot| rate(lot).is_some()) {
            let Took { missing, cost } =
                take_in_turn(whens, wanted.exact(), |when, left| bench.take(Ware::Food(food), when, first, left, rate));
            let taken = Quantity::of(&dimension, wanted.exact() - &missing);
            return Ok(TookOf { taken, missing: Quantity::of(&dimension, missing), cost });
        }
    }
    Err(NotTaken::NotComparable)
}

/// Takes what may be drawn first, then what else may be drawn of what is still missing.
fn take_in_turn(whens: &[When], wanted: &Number, mut take: impl FnMut(When, &Number) -> Took) -> Took {
    let mut all = Took { missing: wanted.clone(), cost: Some(0.0) };
    for when in whens {
        if !all.missing.is_zero() {
            let Took { missing, cost } = take(*when, &all.missing);
            all = Took { missing, cost: all.cost.zip(cost).map(|(before, more)| before + more) };
        }
    }
    all
}

/// Takes an amount of a cooked recipe; what is missing is in the unit of its `makes`.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_recipe(recipes: &[Recipe], bench: &mut Bench, recipe: RecipeId, amount: &Quantity, whens: &[When]) -> Result<TookOf, NotTaken> {
    take_recipe_of(recipes, bench, (recipe, None), amount, whens)
}

/// As [`take_recipe`], where somebody is named from what was set aside for them alone.
///
/// # Errors
/// Where there is nothing that could be taken.
pub fn take_recipe_of(
    recipes: &[Recipe],
    bench: &mut Bench,
    (recipe, whose): (RecipeId, Option<&Whose>),
    amount: &Quantity,
    whens: &[When],
) -> Result<TookOf, NotTaken> {
    let cooked = &recipes[recipe];
    let of = Ware::Recipe(recipe);
    let drawable = |when: &When| whose.map_or_else(|| bench.drawable(of, *when), |whose| bench.drawable_own(of, *when, whose));
    let lots: Vec<&Lot> = whens.iter().flat_map(drawable).collect();
    if lots.is_empty() {
        return Err(NotTaken::NoLot);
    }
    let rate = |lot: &Lot| cooked.in_makes(&Quantity::of(&lot.amount.dimension(), 1));
    let comparable = lots.iter().any(|lot| rate(lot).is_some());
    let wanted = cooked.in_makes(amount).filter(|_| comparable).ok_or(NotTaken::NotComparable)?;
    let take = |when, left: &Number| match whose {
        None => bench.take(of, when, First::Opened, left, rate),
        Some(whose) => bench.take_own(of, when, whose, left, rate),
    };
    let Took { missing, cost } = take_in_turn(whens, &wanted, take);
    let makes = cooked.makes.dimension();
    Ok(TookOf { taken: Quantity::of(&makes, &wanted - &missing), missing: Quantity::of(&makes, missing), cost })
}

/// What changes of lots took away, in minor units of money, each by what was paid, else by the cheapest known price. What is left of a
/// pack that was opened for it follows the pack's lot, and is taken off there.
pub fn worth_taken(kitchen: &Kitchen, prices: &Prices, changes: &mut [Change]) {
    for index in 0..changes.len() {
        let Some(from) = changes[index].from.clone() else { continue };
        let opened = changes[index + 1..].iter().take_while(|change| change.from.is_none()).filter_map(|change| change.to.as_ref());
        let left: Number = changes[index].to.iter().chain(opened).map(|lot| &lot.amount.number).sum();
        let taken = Quantity::of(&from.amount.dimension, &from.amount.number - left);
        changes[index].worth = unit_price(kitchen, prices, &from).map(|rate| worth(&taken, rate).0);
    }
}

/// Minor units of money for one base unit of a lot.
pub(super) fn unit_price(kitchen: &Kitchen, prices: &Prices, lot: &LotRecord) -> Option<f64> {
    as_lot(kitchen, lot).map_or_else(|| lot.rate_paid(), |lot| prices.of_lot(&lot))
}
