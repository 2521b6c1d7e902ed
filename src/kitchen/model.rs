//! The household as plain data, every reference already resolved to an index.

mod goods;
mod household;
mod recipe;
mod week;

use std::ops::{Index, IndexMut};

use super::together::{Pattern, PatternId, Together};
use crate::foods::Foods;

pub use goods::*;
pub use household::*;
pub use recipe::*;
pub use week::*;

/// Everything the household's files say, the weeks left out.
#[derive(Debug, Clone)]
pub struct Kitchen {
    pub household: Household,
    pub print: Print,
    pub rules: Rules,
    pub appliances: Vec<Appliance>,
    pub staples: Vec<Staple>,
    /// In order of their ids.
    pub recipes: Vec<Recipe>,
    pub foods: Foods,
    pub shops: Vec<Shop>,
    pub packs: Vec<Pack>,
    pub lots: Vec<Lot>,
    /// What the week that is meant pays for foods, the earliest trip first: as the book and its list say, no file.
    pub week_prices: Vec<WeekPrice>,
    pub together: Together,
}

/// The parts of a kitchen are found by their own ids alone.
macro_rules! found_by {
    ($($id:ty => $part:ty),* $(,)?) => { $(
        impl Index<$id> for [$part] {
            type Output = $part;
            fn index(&self, id: $id) -> &$part {
                &self[id.0]
            }
        }
        impl Index<$id> for Vec<$part> {
            type Output = $part;
            fn index(&self, id: $id) -> &$part {
                &self[id.0]
            }
        }
        impl IndexMut<$id> for Vec<$part> {
            fn index_mut(&mut self, id: $id) -> &mut $part {
                &mut self[id.0]
            }
        }
    )* };
}

found_by! { ApplianceId => Appliance, PatternId => Pattern, RecipeId => Recipe, ShopId => Shop }
