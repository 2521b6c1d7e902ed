//! What things are called: for whoever says an answer, which holds ids, in words.

use super::{Kitchen, RecipeId, Shop, ShopId, Ware};
use crate::foods::{FoodId, Foods};
use crate::measure::{Currency, Money};

use super::Recipe;

/// The names of a kitchen, and its currency.
#[derive(Debug, Clone, Copy)]
pub struct Names<'k> {
    pub household: &'k str,
    pub currency: &'k Currency,
    foods: &'k Foods,
    recipes: &'k [Recipe],
    shops: &'k [Shop],
}

impl Kitchen {
    pub fn names(&self) -> Names<'_> {
        Names {
            household: &self.household.name,
            currency: &self.household.currency,
            foods: &self.foods,
            recipes: &self.recipes,
            shops: &self.shops,
        }
    }
}

impl<'k> Names<'k> {
    pub fn food(&self, id: FoodId) -> &'k str {
        &self.foods[id].name
    }

    pub fn foods(&self, ids: &[FoodId]) -> Vec<&'k str> {
        ids.iter().map(|id| self.food(*id)).collect()
    }

    pub fn recipe(&self, id: RecipeId) -> &'k str {
        &self.recipes[id].name
    }

    /// The stem of its file, as JSON and the household's files write it.
    pub fn recipe_id(&self, id: RecipeId) -> &'k str {
        &self.recipes[id].id
    }

    pub fn shop(&self, id: ShopId) -> &'k str {
        &self.shops[id].name
    }

    /// The food's name, or the recipe's.
    pub fn ware(&self, of: Ware) -> &'k str {
        match of {
            Ware::Food(food) => self.food(food),
            Ware::Recipe(recipe) => self.recipe(recipe),
        }
    }

    /// A decimal number without the currency: "23.48".
    pub fn money(&self, money: Money) -> String {
        money.decimal(self.currency)
    }
}
