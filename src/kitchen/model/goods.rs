//! Shops and what they sell; lots on the shelf.

use jiff::civil::Date;

use crate::foods::{FoodId, Place};
use crate::measure::{Money, Quantity, UnitPrice};

use super::super::warning::Spot;
use super::RecipeId;

/// The index of a shop in [`Kitchen::shops`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ShopId(pub usize);

#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    pub name: String,
    pub sections: Vec<String>,
    pub trip: Money,
    pub at: Spot,
}

/// Any `buy` for `pay`, again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offer {
    pub buy: u32,
    pub pay: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub enum PackKind {
    Sized {
        size: Quantity,
        /// What one closed pack in it holds: 400 g of "4 x 400 g", else all of it.
        single: Quantity,
        /// The size as typed: "400 g", "6".
        label: String,
        /// Grams.
        drained: Option<f64>,
        price: Option<Money>,
        offer: Option<Offer>,
    },
    Loose {
        price: Option<UnitPrice>,
        step: Quantity,
    },
}

#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    pub shop: ShopId,
    pub food: FoodId,
    pub kind: PackKind,
    pub section: Option<String>,
    pub seen: Option<Date>,
    pub at: Spot,
}

impl Pack {
    /// How many closed packs are in it: four in "4 x 400 g", else one.
    pub fn singles(&self) -> i64 {
        match &self.kind {
            PackKind::Sized { size, single, .. } if !single.is_zero() => {
                (size.exact() / single.exact()).round().to_i64().unwrap_or(1).max(1)
            }
            PackKind::Sized { .. } | PackKind::Loose { .. } => 1,
        }
    }
}

/// What one trip pays for a food.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekPrice {
    pub food: FoodId,
    /// All that it buys.
    pub buys: Quantity,
    pub cost: Money,
}

/// A food, or a dish that was cooked: what a shelf holds, and what is drawn from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ware {
    Food(FoodId),
    Recipe(RecipeId),
}

/// Of what was cooked: whose it is alone, and what it lacks of what the recipe has.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Whose {
    pub eater: String,
    pub without: Vec<Ware>,
}

impl Whose {
    /// May it be served to that eater, who is to be without these?
    pub fn serves(&self, eater: &str, without: &[Ware]) -> bool {
        self.eater == eater && without.iter().all(|ware| self.without.contains(ware))
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    pub of: Ware,
    /// `None` of what is everybody's.
    pub whose: Option<Whose>,
    /// All of it, in packs or not.
    pub amount: Quantity,
    /// The size of one of the closed packs that it lies in; `None` of what is open or loose.
    pub pack: Option<Quantity>,
    pub place: Place,
    pub best_before: Option<Date>,
    pub use_by: Option<Date>,
    pub opened: Option<Date>,
    pub since: Option<Date>,
    pub made: Option<Date>,
    /// What was paid, where that is known: the book says it, pantry.toml does not.
    pub paid: Option<UnitPrice>,
    pub at: Spot,
}
