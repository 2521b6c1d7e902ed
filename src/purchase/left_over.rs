//! What a week leaves behind and where its money goes, as plain data. It must not know the trips, nor how it is reckoned.

use jiff::civil::Date;

use crate::foods::FoodId;
use crate::kitchen::RecipeId;
use crate::measure::{Money, Quantity};

/// What the trips on the list leave behind once the week is over.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Leaves {
    /// What goes off first stands first.
    pub leftovers: Vec<Leftover>,
    /// The recipes of which one batch would use up the most, by value; at most five.
    pub uses: Vec<RecipeUse>,
    pub worth: Worth,
}

/// Bought beyond the need.
#[derive(Debug, Clone, PartialEq)]
pub struct Leftover {
    pub food: FoodId,
    pub amount: Quantity,
    /// Its share of what was paid.
    pub value: Money,
    /// The last day it is good; `None` where no keeping time is known.
    pub until: Option<Date>,
}

/// What one batch of a recipe would use of left-overs and expiring lots, and what else it would need.
#[derive(Debug, Clone, PartialEq)]
pub struct RecipeUse {
    pub recipe: RecipeId,
    pub value: Money,
    pub uses: Vec<FoodAmount>,
    pub needs: Vec<FoodAmount>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct FoodAmount {
    pub food: FoodId,
    /// `None`: to taste, or not to be reckoned.
    pub amount: Option<Quantity>,
}

/// Where the money of the list goes; the three add up to its cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Worth {
    /// With the fares, and with what rounding leaves over.
    pub used: Money,
    /// Left, and good for at least seven days after the week's last.
    pub keeps: Money,
    /// Left, and not good for so long.
    pub spoils: Money,
}
