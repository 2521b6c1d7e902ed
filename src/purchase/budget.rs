//! A week beside what the household means to spend, and what would save money, as plain data. It must not know how a change is tried.

use crate::foods::FoodId;
use crate::kitchen::{BatchCut, RecipeId, ShopId};
use crate::measure::Money;

/// The week beside what the household means to spend on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Budget {
    pub limit: Money,
    /// Of all trips of the week, the past ones too.
    pub cost: Money,
    /// The single changes that save most, at most three; none within the budget.
    pub changes: Vec<Saving>,
    /// In a large week: changes that were not tried, the least of them by what is paid for their foods.
    pub untried: usize,
    /// What the week would cost with all of them.
    pub together: Option<Money>,
}

impl Budget {
    /// Nothing within the budget.
    pub fn over(&self) -> Money {
        (self.cost - self.limit).max(Money::ZERO)
    }

    pub fn is_over(&self) -> bool {
        self.over() > Money::ZERO
    }
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saving {
    pub by: SaveBy,
    pub saves: Money,
    /// What the week would then cost.
    pub cost: Money,
}

/// One thing that could be done otherwise, to save money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveBy {
    CheapestPacks(FoodId),
    LeavingOutShop(ShopId),
    /// `to` is how its batches would then be cut.
    FinerBatches {
        recipe: RecipeId,
        to: BatchCut,
    },
    /// The line as typed, and the label of its meal.
    LeavingOutLine {
        line: String,
        for_each: bool,
        meal: String,
    },
}
