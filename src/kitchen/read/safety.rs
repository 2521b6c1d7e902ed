//! Warnings about recipes of raw meat, poultry, fish and egg. They never stop the work, and local rules come first.

use super::source::Findings;
use crate::foods::safety::{LEFTOVERS_KEEP, least_inside};
use crate::foods::{Foods, Kind};
use crate::kitchen::{Recipe, Wanted};
use crate::measure::Celsius;

/// A temperature typed in °F comes out a fraction of a degree beside the rounded figure.
const ROUNDING: f64 = 0.25;

/// The kinds of raw food in a recipe, each once, with its least inside temperature and the first food of it.
fn raw_kinds<'a>(recipe: &Recipe, foods: &'a Foods) -> Vec<(Kind, Celsius, &'a str)> {
    let mut kinds: Vec<(Kind, Celsius, &str)> = Vec::new();
    for line in &recipe.ingredients {
        let Wanted::Food { food, .. } = &line.wanted else { continue };
        let food = &foods[*food];
        let Some(kind) = food.kind.filter(|kind| kinds.iter().all(|(seen, ..)| seen != kind)) else { continue };
        kinds.extend(least_inside(kind).map(|inside| (kind, inside, food.name.as_str())));
    }
    kinds
}

pub(super) fn warn(recipe: &Recipe, foods: &Foods, found: &Findings) {
    let kinds = raw_kinds(recipe, foods);
    let (least, most) = LEFTOVERS_KEEP.value;
    let meat = kinds.iter().find(|(kind, ..)| kind.is_raw_flesh());
    if let (Some((kind, _, food)), Some(fridge)) = (meat, recipe.fridge)
        && fridge > most
    {
        let text = format!(
            "\"{}\" claims {} days in the fridge, but cooked {} ({food}) keeps {} to {} days there (USDA FSIS). Local rules come first.",
            recipe.name,
            fridge.0,
            kind.name_once_cooked(),
            least.0,
            most.0
        );
        found.note(recipe.at.clone(), text);
    }
    let reached = recipe.steps.iter().filter_map(|step| step.inside).map(|inside| inside.0).fold(f64::MIN, f64::max);
    for (kind, Celsius(inside), food) in kinds {
        if reached < inside - ROUNDING {
            let text = format!(
                "no step of \"{}\" reaches {inside} °C inside, as {} ({food}) should (USDA FSIS). Add inside = \"{inside} °C\" to the step \
                 that cooks it. Local rules come first.",
                recipe.name,
                kind.name()
            );
            found.note(recipe.at.clone(), text);
        }
    }
}
