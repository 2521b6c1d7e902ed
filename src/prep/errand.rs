//! What is done before a session or a meal, as typed data. It must not know the session that it is done for.

use jiff::civil::{Date, DateTime};

use crate::foods::FoodId;
use crate::kitchen::{RecipeId, Whose};
use crate::measure::Quantity;

/// Something to be done on a day, or at a time of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Before {
    pub at: Moment,
    pub errand: Errand,
}

/// What has only a day comes first on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Moment {
    On(Date),
    At(DateTime),
}

impl Moment {
    pub fn date(self) -> Date {
        match self {
            Moment::On(date) => date,
            Moment::At(at) => at.date(),
        }
    }

    fn key(self) -> (Date, Option<DateTime>) {
        (self.date(), if let Moment::At(at) = self { Some(at) } else { None })
    }
}

impl Ord for Moment {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.key().cmp(&other.key())
    }
}

impl PartialOrd for Moment {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

#[derive(Debug, Clone, PartialEq)]
pub enum Errand {
    /// A step done ahead: soaking, marinating. The step counts from 0; the text has the amounts of this making.
    /// `bought`: foods of it that are bought only on that later day.
    Step { recipe: RecipeId, step: usize, text: String, bought: Vec<(FoodId, Date)> },
    /// Out of the freezer, to thaw in the fridge.
    Thaw { food: FoodId, amount: Quantity },
    /// Portions from the freezer to the fridge; `late` where they ought to have been moved before.
    Move { recipe: RecipeId, whose: Option<Whose>, amount: Quantity, late: bool },
}
