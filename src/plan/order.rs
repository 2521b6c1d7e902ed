//! In which order a plan is made, dishes before the components that go into them, and in which it is told. It must not know amounts.

use super::making::{Making, Makings, User};
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

/// Sessions and meals in order, components beside the dishes they go into.
pub fn in_session_order(mut made: Makings) -> Makings {
    let mut order: Vec<usize> = (0..made.makings.len()).collect();
    order.sort_by_key(|&index| (made.makings[index].at, made.makings[index].recipe));
    let mut new_index = vec![0; order.len()];
    for (new, &old) in order.iter().enumerate() {
        new_index[old] = new;
    }
    let mut makings: Vec<Making> = order.iter().map(|&old| made.makings[old].clone()).collect();
    for use_ in makings.iter_mut().flat_map(|making| &mut making.uses) {
        if let User::Making(index) = &mut use_.by {
            *index = new_index[*index];
        }
    }
    made.makings = makings;
    made.short.sort_by_key(|short| (short.at, short.recipe));
    made.moves.sort_by_key(|move_| (move_.on, move_.recipe));
    made.cooked_draws.sort_by_key(|draw| (draw.on, draw.lot));
    made
}
