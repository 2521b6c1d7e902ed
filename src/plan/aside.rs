//! Where a portion without something is taken out of a dish: before the first step that names what it is to lack.

use std::collections::BTreeSet;

use super::guarded::Guarded;
use super::servings::{goes_into, servings};
use crate::kitchen::{Kitchen, Meal, Mistake, Piece, Recipe, RecipeId, Swap, Ware, Warning, Week, Who};

/// The first step (counted from 0) of the recipe that brings in any of these, itself or inside a component.
///
/// `None` where the recipe has no steps, or uses none of them.
///
/// # Errors
/// What cannot be kept out: it enters with the first step, ahead of the session, or with no step that names it.
pub fn taken_out_before(kitchen: &Kitchen, recipe: &Recipe, without: &[Ware]) -> Result<Option<usize>, Ware> {
    if recipe.steps.is_empty() {
        return Ok(None);
    }
    let mut earliest: Option<usize> = None;
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| lacks(&kitchen.recipes, line.ware(), without)) {
        let names = |step: &crate::kitchen::Step| {
            step.text.iter().any(|piece| matches!(piece, Piece::Ingredient { index: named, .. } if *named == index))
        };
        let step = recipe.steps.iter().position(names).filter(|step| *step > 0 && recipe.steps[*step].ahead.is_none());
        let step = step.ok_or(line.ware())?;
        earliest = Some(earliest.map_or(step, |known| known.min(step)));
    }
    Ok(earliest)
}

/// Is it one of these, or a dish that one of these goes into?
fn lacks(recipes: &[Recipe], ware: Ware, without: &[Ware]) -> bool {
    without.contains(&ware) || without.iter().any(|one| matches!(ware, Ware::Recipe(dish) if goes_into(recipes, dish, *one)))
}

/// Adds a mistake for every dish out of which an eater's portion can no longer be taken.
pub(super) fn guard_portions(kitchen: &Kitchen, week: &Week, guarded: &mut Guarded) {
    for meal in &week.meals {
        for serving in servings(meal) {
            let Ware::Recipe(dish) = serving.line.ware() else { continue };
            for (place, _) in &serving.to {
                let without = &meal.diners[*place].without;
                if let Some((dish, ware)) = too_late(kitchen, dish, without, &mut BTreeSet::new()) {
                    let name = &meal.diners[*place].name;
                    guarded.mistakes.push(Mistake { at: serving.line.at.clone(), ..cannot(kitchen, meal, name, dish, ware) });
                }
            }
        }
    }
}

/// The first dish, from the outermost inwards, that a portion can no longer be taken out of.
///
/// `seen` are dishes that were asked before.
fn too_late(kitchen: &Kitchen, dish: RecipeId, without: &[Ware], seen: &mut BTreeSet<RecipeId>) -> Option<(RecipeId, Ware)> {
    if !seen.insert(dish) {
        return None;
    }
    let recipe = &kitchen.recipes[dish];
    if let Err(ware) = taken_out_before(kitchen, recipe, without) {
        return Some((dish, ware));
    }
    recipe.ingredients.iter().find_map(|line| match line.ware() {
        part if without.contains(&part) => None,
        Ware::Recipe(part) => too_late(kitchen, part, without, seen),
        Ware::Food(_) => None,
    })
}

/// Told of every standing exchange that a dish is too late for: inside a dish nothing takes the place of what is left away.
pub(super) fn exchanges_inside_dishes(kitchen: &Kitchen, week: &Week) -> Vec<Warning> {
    let mut told = Vec::new();
    let names = kitchen.names();
    for meal in &week.meals {
        for serving in servings(meal) {
            let Ware::Recipe(dish) = serving.line.ware() else { continue };
            for diner in serving.to.iter().map(|(place, _)| &meal.diners[*place]) {
                let Who::Eater(eater) = diner.who else { continue };
                let inside = |swap: &&Swap| diner.without.contains(&swap.from) && goes_into(&kitchen.recipes, dish, swap.from);
                for (swap, to) in kitchen.household.named[eater].swap.iter().filter(inside).filter_map(|swap| Some((swap, swap.to?))) {
                    let (name, from, to) = (&diner.name, names.ware(swap.from), names.ware(to));
                    let text = format!(
                        "{}, {name}: {} > {from}: left away for {name}, and {to} does not take its place, for a swap reaches into no dish. \
                         Give {name} something else with instead in the meal, or add the {to} there.",
                        meal.label, kitchen.recipes[dish].name
                    );
                    told.push(Warning::Note { at: Some(serving.line.at.clone()), text });
                }
            }
        }
    }
    told
}

fn cannot(kitchen: &Kitchen, meal: &Meal, name: &str, dish: RecipeId, ware: Ware) -> Mistake {
    let (recipe, names) = (&kitchen.recipes[dish], kitchen.names());
    let what = names.ware(ware);
    Mistake {
        at: meal.at.clone(),
        cause: format!(
            "{}, {name}: {} > {what}: no portion can be taken out before it, for it goes in with the first step, \
             ahead of the session, or no step names it",
            meal.label, recipe.name
        ),
        remedy: format!("Give {name} something else, with instead in the meal, or name {what} in a later step of {}.", recipe.at.file),
    }
}
