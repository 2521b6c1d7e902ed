//! Which ingredients a step handles, and where a recipe begins.

use crate::foods::Foods;
use crate::kitchen::{Piece, Recipe, RecipeId, Step, Wanted};

/// The first step that falls in the session; a recipe done wholly ahead begins with its first step.
pub(super) fn first_step(recipe: &Recipe) -> Option<usize> {
    recipe.steps.iter().position(|step| step.ahead.is_none()).or(if recipe.steps.is_empty() { None } else { Some(0) })
}

/// The ingredients that `{…}` of the step name, by their index.
pub(super) fn named_in(step: &Step) -> impl Iterator<Item = usize> + '_ {
    step.text.iter().filter_map(|piece| match piece {
        Piece::Ingredient { index, .. } => Some(*index),
        Piece::Words(_) => None,
    })
}

/// The ingredients that no step names, and nothing that is done at the table.
pub(super) fn unnamed(recipe: &Recipe) -> Vec<usize> {
    let named: Vec<usize> = recipe.steps.iter().flat_map(named_in).chain(recipe.served.iter().copied()).collect();
    (0..recipe.ingredients.len()).filter(|index| !named.contains(index)).collect()
}

/// What the last step keeps for the table.
pub(super) fn kept_for_the_table(recipe: &Recipe, step: usize) -> &[usize] {
    if step + 1 == recipe.steps.len() { &recipe.served } else { &[] }
}

/// The ingredients a step handles: those it names, in the first step those that no step names, in the last those for the table.
pub(super) fn handled(recipe: &Recipe, step: usize) -> Vec<usize> {
    let mut handled: Vec<usize> = named_in(&recipe.steps[step]).collect();
    if first_step(recipe) == Some(step) {
        handled.extend(unnamed(recipe));
    }
    handled.extend(kept_for_the_table(recipe, step));
    handled
}

/// Does the step handle raw meat, poultry, fish or egg? What the line asks for cooked is not raw.
pub(super) fn handles_raw(foods: &Foods, recipe: &Recipe, step: usize) -> bool {
    handled(recipe, step).into_iter().filter_map(|index| recipe.ingredients.get(index)).any(|ingredient| match &ingredient.wanted {
        Wanted::Food { food, item } => foods[*food].raw_kind(item.as_ref()).is_some(),
        Wanted::Recipe { .. } => false,
    })
}

/// The first step in the session that names the component, else the first step in the session.
pub(super) fn step_using(recipe: &Recipe, component: RecipeId) -> Option<usize> {
    let names = |step: &Step| {
        named_in(step).any(|index| {
            recipe.ingredients.get(index).is_some_and(|i| matches!(i.wanted, Wanted::Recipe { recipe, .. } if recipe == component))
        })
    };
    let named = recipe.steps.iter().position(|step| step.ahead.is_none() && names(step));
    named.or_else(|| recipe.steps.iter().position(|step| step.ahead.is_none()))
}
