//! All conversions of an amount of a food: mass, volume, count, pack, form, as purchased, dry, drained.

use super::{Food, Item, MissingFact};
use crate::measure::{Dimension, Quantity, Spoons};

/// `item` as purchased, in `to` (grams, millilitres or pieces), for the upper end of a range.
pub fn as_purchased(food: &Food, item: &Item, to: &Dimension, spoons: Spoons) -> Result<Quantity, MissingFact> {
    let _ = (food, item, to, spoons);
    todo!()
}

/// `item` as purchased in the line's own dimension, where no fact beyond the line is needed: `None` otherwise.
pub fn own_dimension(food: &Food, item: &Item, spoons: Spoons) -> Option<Quantity> {
    let _ = (food, item, spoons);
    todo!()
}

/// A plain amount of a food as purchased (a lot, a pack, a par) in another dimension.
pub fn convert(food: &Food, amount: &Quantity, to: &Dimension) -> Result<Quantity, MissingFact> {
    let _ = (food, amount, to);
    todo!()
}
