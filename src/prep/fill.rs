//! How much of a making a pressure cooker takes at once: two thirds of what it holds, half with foods that swell.
//!
//! A pressure cooker's `holds` is what one load of it holds. Where it is known, a step on it takes at least as many
//! loads as its foods need at two thirds, or half with pulses or grains (common practice): the foods that the step
//! names, or all of the recipe where it names none, by their cup weights, water included. What has no known volume is
//! not counted; the limit stands at the step.

use super::names::named_in;
use crate::foods::{Foods, Item, Kind, as_purchased};
use crate::kitchen::{Appliance, ApplianceKind, Ingredient, Kitchen, Piece, Recipe, Rules, Step, Wanted};
use crate::measure::{Amount, Dimension, whole_up};

/// Common practice, no source.
pub(super) const FULL: f64 = 2.0 / 3.0;
pub(super) const FULL_WITH_SWELLING: f64 = 0.5;

pub(super) fn is_pressure_cooker(appliance: &Appliance) -> bool {
    appliance.kind == Some(ApplianceKind::Pressure)
}

/// The loads that a step needs so that no pressure cooker is filled over its limit; 0 where its size or no volume is known.
///
/// What goes in is what the step names, or all of the recipe where it names nothing, water included, each as the volume of its weight as
/// purchased. What has no known volume adds nothing: the guide prints the limit at the step.
pub(super) fn loads_needed(kitchen: &Kitchen, recipe: &Recipe, step: &Step, batches: f64) -> i64 {
    let cookers = step.on.iter().map(|id| &kitchen.appliances[*id]).filter(|one| is_pressure_cooker(one));
    let Some(litres) = cookers.filter_map(|cooker| cooker.holds).filter(|litres| *litres > 0.0).min_by(f64::total_cmp) else { return 0 };
    let inside = inside(recipe, step);
    let swells = inside.iter().any(|(one, _)| swells(&kitchen.foods, one));
    let millilitres: f64 = inside.into_iter().filter_map(|(one, share)| volume(&kitchen.foods, &kitchen.rules, one, share)).sum();
    let limit = litres * 1000.0 * if swells { FULL_WITH_SWELLING } else { FULL };
    whole_up(millilitres * batches, limit) as i64
}

fn inside<'a>(recipe: &'a Recipe, step: &'a Step) -> Vec<(&'a Ingredient, Option<&'a Amount>)> {
    if named_in(step).next().is_none() {
        return recipe.ingredients.iter().map(|one| (one, None)).collect();
    }
    let named = step.text.iter().filter_map(|piece| match piece {
        Piece::Ingredient { index, share } => recipe.ingredients.get(*index).map(|one| (one, share.as_ref())),
        Piece::Words(_) => None,
    });
    named.collect()
}

fn swells(foods: &Foods, one: &Ingredient) -> bool {
    let Wanted::Food { food, .. } = &one.wanted else { return false };
    foods[*food].kind.is_some_and(Kind::swells)
}

/// Millilitres of one batch's ingredient, or of the step's share of it.
fn volume(foods: &Foods, rules: &Rules, one: &Ingredient, share: Option<&Amount>) -> Option<f64> {
    let Wanted::Food { food, item: Some(item) } = &one.wanted else { return None };
    let item = match share {
        Some(share) => Item { amount: share.clone(), plus: vec![], ..item.clone() },
        None => item.clone(),
    };
    as_purchased(&foods[*food], &item, &Dimension::Volume, rules.spoons).ok().map(|volume| volume.base())
}
