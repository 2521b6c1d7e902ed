//! Minutes that steps take by themselves.

use crate::kitchen::{Appliance, Recipe, Step};
use crate::measure::{Minutes, whole_up};

/// Hands-on minutes of a step for so many batches in one round, at that pace: in proportion, unless they are fixed.
pub fn hands_for(step: &Step, batches: f64, pace: f64) -> i64 {
    let hands = step.hands.0 as f64;
    paced(if step.scales { hands * batches } else { hands }, pace)
}

/// Hands-on minutes in whole minutes, rounded up.
pub fn paced(minutes: f64, pace: f64) -> i64 {
    whole_up(minutes * pace, 1.0) as i64
}

/// Minutes of a dish that one cook makes at a meal: its steps one after another, and before them what an oven takes to warm up.
pub fn one_after_another(recipe: &Recipe, appliances: &[Appliance], batches: f64, pace: f64) -> Minutes {
    let steps = || recipe.steps.iter().filter(|step| step.ahead.is_none());
    let heated = steps().filter(|step| step.temperature.is_some()).flat_map(|step| &step.on).map(|id| &appliances[*id]);
    let warm_up = heated.filter(|appliance| appliance.heat).map(|appliance| appliance.warm_up.0).max().unwrap_or(0);
    Minutes(warm_up + steps().map(|step| hands_for(step, batches, pace) + step.waits(appliances)).sum::<i64>())
}
