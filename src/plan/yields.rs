//! What a recipe yields, in the unit of its `makes`.

use super::pieces::half_splits;
use crate::foods::Foods;
use crate::kitchen::{BatchCut, Recipe};
use crate::measure::{Number, Quantity, steps_up};

/// How often a recipe is made as it is written. Never an amount: [`Batches::make`] says what they come to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Batches(Number);

impl Batches {
    pub fn new(times: impl Into<Number>) -> Self {
        Batches(times.into())
    }

    /// The fewest that yield at least `needed` (in the unit of `makes`), cut as the recipe allows: never so that an egg, a tin or
    /// another thing that is only taken whole would be split, unless batches of any size are allowed.
    pub fn to_yield(recipe: &Recipe, foods: &Foods, needed: &Number) -> Self {
        let batches = needed / recipe.makes.exact();
        Batches(match recipe.batches {
            BatchCut::Whole => steps_up(&batches, &Number::ONE),
            BatchCut::Halves if half_splits(recipe, foods) => steps_up(&batches, &Number::ONE),
            BatchCut::Halves => steps_up(&batches, &Number::HALF) / 2,
            BatchCut::Any => batches,
        })
    }

    /// What they yield, in the unit of `makes`.
    pub fn make(&self, recipe: &Recipe) -> Quantity {
        recipe.makes.scaled(&self.0)
    }

    pub fn number(&self) -> &Number {
        &self.0
    }

    pub fn to_f64(&self) -> f64 {
        self.0.to_f64()
    }
}

/// As [`Recipe::in_makes`].
pub fn in_makes(recipe: &Recipe, amount: &Quantity) -> Option<Number> {
    recipe.in_makes(amount)
}

/// In the unit of `makes`: what is left of a making below this is nobody's spare. `None` where the recipe does not say what a portion is.
pub(super) fn half_a_portion(recipe: &Recipe) -> Option<Number> {
    in_makes(recipe, &Quantity::portions(Number::HALF))
}
