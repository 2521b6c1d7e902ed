//! What a plan that is only weighed needs to know of cooking: the least finish of a session, and the time at a meal. No guide is made.

use super::boxes::ASIDE_MINUTES;
use super::names::handles_raw;
use super::schedule::{Effort, least_finish};
use super::tasks::session_work;
use crate::kitchen::{Kitchen, Step, Week};
use crate::plan::{MadeAt, Making, Makings, hands_for, set_aside_before};

/// The least finish of a session and the minutes below which no plan can finish, as [`super::prep()`] plans it.
pub fn session_minutes(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize, effort: Effort) -> (i64, i64) {
    let work = session_work(kitchen, week, index, makings);
    least_finish(&work.asked(), effort)
}

/// Minutes that a meal asks for when it is eaten.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct AtTheMeal {
    /// Hands on what is made then.
    pub hands: i64,
    /// Hands, with the longest wait and the longest warm-up, side by side.
    pub ready_in: i64,
}

/// Hands on what is made at a meal, as a session would plan them: the steps, washing after what is raw, and what is taken out for single eaters.
pub(super) fn hands_at_the_meal(kitchen: &Kitchen, making: &Making) -> i64 {
    let recipe = &kitchen.recipes[making.recipe];
    let of = |(place, step): (usize, &Step)| {
        let wash = if handles_raw(&kitchen.foods, recipe, place) { kitchen.rules.wash.0 } else { 0 };
        hands_for(step, making.batches.to_f64(), kitchen.rules.pace) + wash
    };
    let steps: i64 = recipe.steps.iter().enumerate().filter(|(_, step)| step.ahead.is_none()).map(of).sum();
    let asides = making.apart.iter().filter(|apart| set_aside_before(kitchen, making, apart).is_some()).count();
    steps + ASIDE_MINUTES * asides as i64
}

/// The minutes of what is made at a meal; nothing where nothing is. Hands are one cook's, one dish after the other; waits go on side by
/// side, so that the longest counts, with what an oven takes to warm up before it.
pub fn at_the_meal(kitchen: &Kitchen, makings: &Makings, meal: usize) -> AtTheMeal {
    let here = || makings.makings.iter().filter(|making| making.at == MadeAt::Meal(meal));
    let steps = |making: &Making| kitchen.recipes[making.recipe].steps.iter().filter(|step| step.ahead.is_none());
    let hands: i64 = here().map(|making| hands_at_the_meal(kitchen, making)).sum();
    let wait = here().map(|making| steps(making).map(|step| step.wait.0).sum::<i64>()).max().unwrap_or(0);
    let heats = |step: &Step| step.on.iter().map(|on| &kitchen.appliances[*on]).filter(|one| one.heat).map(|one| one.warm_up.0).max();
    let warm_up = here().flat_map(steps).filter_map(heats).max().unwrap_or(0);
    AtTheMeal { hands, ready_in: hands + wait + warm_up }
}
