//! `recipe NAME --format jsonld`: schema.org/Recipe, and what that format cannot hold.

use super::outcome::{Done, Failure, notice, say};
use crate::kitchen::{Kitchen, RecipeId};
use crate::measure::Number;

pub fn run(kitchen: &Kitchen, id: RecipeId, batches: &Number) -> Done {
    let recipe = &kitchen.recipes[id];
    let lost = crate::json::not_in_a_page(recipe);
    if !lost.is_empty() {
        notice(&format!("schema.org/Recipe has no place for: {}.", lost.join(", ")));
    }
    let page = crate::json::recipe_page(kitchen, id, batches);
    say(&crate::json::text(&page).map_err(|error| Failure::Machine(format!("cannot write JSON: {error}.")))?)
}
