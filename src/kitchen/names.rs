//! What a kitchen and its parts are called: all that text and paper need of it to print an id.

use super::{Appliance, ApplianceId, Kitchen, Recipe, RecipeId, Ware};
use crate::foods::{FoodId, Foods};

/// The names of one kitchen's parts.
#[derive(Debug, Clone, Copy)]
pub struct Names<'k> {
    pub household: &'k str,
    recipes: &'k [Recipe],
    foods: &'k Foods,
    appliances: &'k [Appliance],
}

impl Kitchen {
    pub fn names(&self) -> Names<'_> {
        Names { household: &self.household.name, recipes: &self.recipes, foods: &self.foods, appliances: &self.appliances }
    }
}

impl<'k> Names<'k> {
    /// "White-bean mash".
    pub fn recipe(self, id: RecipeId) -> &'k str {
        &self.recipes[id].name
    }

    /// The stem of a recipe's file, as JSON names it.
    pub fn recipe_file(self, id: RecipeId) -> &'k str {
        &self.recipes[id].id
    }

    pub fn food(self, id: FoodId) -> &'k str {
        &self.foods[id].name
    }

    pub fn appliance(self, id: ApplianceId) -> &'k str {
        &self.appliances[id].name
    }

    pub fn ware(self, ware: Ware) -> &'k str {
        match ware {
            Ware::Food(food) => self.food(food),
            Ware::Recipe(recipe) => self.recipe(recipe),
        }
    }
}
