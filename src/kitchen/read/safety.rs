//! Warnings about recipes of raw meat, poultry, fish and egg. They never stop the work, and local rules come first.

use super::source::Findings;
use crate::foods::Foods;
use crate::kitchen::{Recipe, Wanted};

/// Least inside temperatures in °C by kind of food. USDA FSIS, "Safe Minimum Internal Temperature Chart" (165, 160, 145, 145, 145 and 160 °F),
/// from memory.
const INSIDE: [(&str, f64); 6] =
    [("raw poultry", 74.0), ("raw minced meat", 71.0), ("raw meat", 63.0), ("raw fish", 63.0), ("raw seafood", 63.0), ("raw egg", 71.0)];

/// A temperature typed in °F comes out a fraction of a degree beside the rounded figure.
const ROUNDING: f64 = 0.25;

/// Left-overs of meat, poultry and fish keep 3 to 4 days in the fridge. USDA FSIS, "Leftovers and Food Safety", from memory.
const MOST_FRIDGE_DAYS: i64 = 4;

/// The kind of a raw food and its least inside temperature.
fn raw_kinds<'a>(recipe: &Recipe, foods: &'a Foods) -> Vec<(&'static str, f64, &'a str)> {
    let mut kinds: Vec<(&'static str, f64, &str)> = Vec::new();
    for line in &recipe.ingredients {
        let Wanted::Food { food, .. } = &line.wanted else { continue };
        let food = &foods[*food];
        let row = INSIDE.iter().find(|(kind, _)| food.kind.as_deref() == Some(kind));
        if let Some((kind, inside)) = row.filter(|(kind, _)| kinds.iter().all(|(seen, ..)| seen != kind)) {
            kinds.push((kind, *inside, &food.name));
        }
    }
    kinds
}

pub(super) fn warn(recipe: &Recipe, foods: &Foods, found: &Findings) {
    let kinds = raw_kinds(recipe, foods);
    let meat = kinds.iter().find(|(kind, ..)| *kind != "raw egg");
    if let (Some((kind, _, food)), Some(fridge)) = (meat, recipe.fridge)
        && fridge.0 > MOST_FRIDGE_DAYS
    {
        let days = fridge.0;
        let kind = kind.trim_start_matches("raw ");
        let text = format!(
            "\"{}\" claims {days} days in the fridge, but cooked {kind} ({food}) keeps 3 to 4 days there (USDA FSIS). Local rules come first.",
            recipe.name
        );
        found.note(recipe.at.clone(), text);
    }
    let reached = recipe.steps.iter().filter_map(|step| step.inside).map(|inside| inside.0).fold(f64::MIN, f64::max);
    for (kind, inside, food) in kinds {
        if reached < inside - ROUNDING {
            let text = format!(
                "no step of \"{}\" reaches {inside} °C inside, as {kind} ({food}) should (USDA FSIS). Add inside = \"{inside} °C\" to the step \
                 that cooks it. Local rules come first.",
                recipe.name
            );
            found.note(recipe.at.clone(), text);
        }
    }
}
