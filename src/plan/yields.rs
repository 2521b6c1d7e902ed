//! What a recipe yields, in the unit of its `makes`.

use crate::kitchen::{BatchCut, Recipe};
use crate::measure::{Quantity, whole_up};

/// `amount` of a recipe in the unit of its `makes`; `None` where the recipe does not say what a portion weighs.
pub fn in_makes(recipe: &Recipe, amount: &Quantity) -> Option<f64> {
    match (&recipe.makes, amount) {
        (Quantity::Portions(_), Quantity::Mass(_)) => recipe.portion.map(|portion| amount.base() / portion),
        (Quantity::Mass(_), Quantity::Portions(portions)) => recipe.portion.map(|portion| portions.to_f64() * portion),
        (makes, amount) => (makes.dimension() == amount.dimension()).then(|| amount.base()),
    }
}

/// The batches that yield at least `needed` (in the unit of `makes`), cut as the recipe allows.
pub fn batches_for(recipe: &Recipe, needed: f64) -> f64 {
    let batches = needed / recipe.makes.base();
    match recipe.batches {
        BatchCut::Whole => whole_up(batches, 1.0),
        BatchCut::Halves => whole_up(batches, 0.5) / 2.0,
        BatchCut::Any => batches,
    }
}
