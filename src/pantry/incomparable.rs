//! Lots in a measure that nothing compares with what is asked for: each is told, with what would mend it.

use crate::foods::{FoodId, Foods, convert};
use crate::kitchen::{Kitchen, Lot, Recipe, Ware, Warning};
use crate::measure::{Dimension, Quantity, Units, show};
use crate::plan::{Demand, Makings, in_makes};
use crate::shelf::{First, Shelf, food_rate};

/// Lots of a food that would serve a demand, were they in a measure that can be compared with it, by their places on the shelf.
pub(super) fn incomparable(foods: &Foods, units: Units, shelf: &Shelf, demand: &Demand, dimension: &Dimension) -> Vec<(usize, Warning)> {
    let lots = shelf.drawable(Ware::Food(demand.food), demand.on, First::Opened).into_iter().map(|lot| (lot, &shelf.lots()[lot]));
    let foreign = lots.filter(|(_, lot)| food_rate(foods, lot, demand.food, dimension, demand.tin.as_ref()).is_none());
    foreign.map(|(place, lot)| (place, not_comparable(foods, units, lot, demand.food, dimension))).collect()
}

/// Cooked lots that would serve what is made, were they in a measure that can be compared with what the recipe makes.
pub(super) fn incomparable_cooked(kitchen: &Kitchen, shelf: &Shelf, makings: &Makings) -> Vec<Warning> {
    let mut warnings = Vec::new();
    for making in &makings.makings {
        let recipe = &kitchen.recipes[making.recipe];
        for lot in making.uses.iter().flat_map(|use_| shelf.drawable(Ware::Recipe(making.recipe), use_.on, First::Opened)) {
            let lot = &kitchen.lots[lot];
            if in_makes(recipe, &lot.amount).is_none() {
                warnings.push(cooked_not_comparable(recipe, lot, kitchen.print.units));
            }
        }
    }
    warnings
}

/// What a portion weighs brings grams and portions together, and nothing else: any other lot is stated as its recipe states what it makes.
fn cooked_not_comparable(recipe: &Recipe, lot: &Lot, units: Units) -> Warning {
    let made = recipe.makes.dimension();
    let wanted = match &made {
        Dimension::Portion => "portions",
        Dimension::Count => "pieces",
        own => own.symbol(),
    };
    let mend = if recipe.lacks_portion_for(&lot.amount.dimension()) {
        format!("Add portion = \"…\" to recipes/{}.toml", recipe.id)
    } else {
        format!("Write its amount in {wanted}, as the recipe makes it: amount = \"{}\"", show(&Quantity::of(&made, 2.0), Units::Metric))
    };
    Warning::LotNotComparable {
        at: lot.at.clone(),
        food: recipe.name.clone(),
        amount: show(&lot.amount, units),
        wanted: wanted.to_owned(),
        mend,
    }
}

pub(super) fn not_comparable(foods: &Foods, units: Units, lot: &Lot, food: FoodId, dimension: &Dimension) -> Warning {
    let facts = &foods[food];
    let mend = match convert(facts, &lot.amount, dimension) {
        Err(missing) => format!("Add {} under {} in foods.toml", missing.key, facts.name),
        Ok(_) => "Write its amount as the week asks for it".to_owned(),
    };
    Warning::LotNotComparable {
        at: lot.at.clone(),
        mend,
        food: facts.name.clone(),
        amount: show(&lot.amount, units),
        wanted: dimension.symbol().to_owned(),
    }
}
