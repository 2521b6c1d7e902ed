//! Dishes before the components that go into them.

use crate::kitchen::{Kitchen, RecipeId, Wanted};

/// Every recipe after all recipes that use it; among free ones in order of id. Circles have been refused when the files were read.
pub fn dishes_first(kitchen: &Kitchen) -> Vec<RecipeId> {
    let parts: Vec<Vec<usize>> = kitchen
        .recipes
        .iter()
        .map(|recipe| {
            let components = recipe.ingredients.iter().filter_map(|line| match line.wanted {
                Wanted::Recipe { recipe, .. } => Some(recipe.0),
                Wanted::Food { .. } => None,
            });
            components.collect()
        })
        .collect();
    let mut users = vec![0usize; parts.len()];
    for &part in parts.iter().flatten() {
        users[part] += 1;
    }
    let mut free: std::collections::BTreeSet<usize> = (0..parts.len()).filter(|&recipe| users[recipe] == 0).collect();
    let mut order = Vec::with_capacity(parts.len());
    while let Some(next) = free.pop_first() {
        order.push(RecipeId(next));
        for &part in &parts[next] {
            users[part] -= 1;
            if users[part] == 0 {
                free.insert(part);
            }
        }
    }
    order
}
