//! What a kitchen and its parts are called: all that text, paper and JSON need of it to print an id. With its currency.

use super::{Appliance, ApplianceId, ApplianceKind, Kitchen, Recipe, RecipeId, Shop, ShopId, Ware};
use crate::foods::{Food, FoodId, Foods};
use crate::measure::{Currency, Money};

/// The names of one kitchen's parts.
#[derive(Debug, Clone, Copy)]
pub struct Names<'k> {
    pub household: &'k str,
    pub currency: &'k Currency,
    recipes: &'k [Recipe],
    foods: &'k Foods,
    shops: &'k [Shop],
    appliances: &'k [Appliance],
}

impl Kitchen {
    pub fn names(&self) -> Names<'_> {
        Names {
            household: &self.household.name,
            currency: &self.household.currency,
            recipes: &self.recipes,
            foods: &self.foods,
            shops: &self.shops,
            appliances: &self.appliances,
        }
    }
}

impl<'k> Names<'k> {
    /// "White-bean mash".
    pub fn recipe(self, id: RecipeId) -> &'k str {
        &self.recipes[id].name
    }

    /// What is printed with the dish: what its method says is done at the table, "Serve with bread.", and its notes.
    pub fn with_the_dish(self, id: RecipeId) -> impl Iterator<Item = &'k String> {
        let recipe = &self.recipes[id];
        recipe.at_table.iter().chain(&recipe.notes)
    }

    /// The stem of a recipe's file, as JSON names it.
    pub fn recipe_file(self, id: RecipeId) -> &'k str {
        &self.recipes[id].id
    }

    pub fn food(self, id: FoodId) -> &'k str {
        &self.foods[id].name
    }

    /// What is known of it.
    pub fn facts(self, id: FoodId) -> &'k Food {
        &self.foods[id]
    }

    pub fn foods(self, ids: &[FoodId]) -> Vec<&'k str> {
        ids.iter().map(|id| self.food(*id)).collect()
    }

    pub fn shop(self, id: ShopId) -> &'k str {
        &self.shops[id].name
    }

    pub fn appliance(self, id: ApplianceId) -> &'k str {
        &self.appliances[id].name
    }

    /// Given, or guessed from its name.
    pub fn appliance_kind(self, id: ApplianceId) -> Option<ApplianceKind> {
        self.appliances[id].kind
    }

    /// The food's name, or the recipe's.
    pub fn ware(self, ware: Ware) -> &'k str {
        match ware {
            Ware::Food(food) => self.food(food),
            Ware::Recipe(recipe) => self.recipe(recipe),
        }
    }

    /// A decimal number without the currency: "23.48".
    pub fn money(self, money: Money) -> String {
        money.decimal(self.currency)
    }
}
