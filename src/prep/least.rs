//! What a plan that is only weighed needs to know of cooking: the least finish of a session, and the time at a meal. No guide is made.

use super::boxes::aside_minutes;
use super::schedule::{Effort, least_finish};
use super::tasks::session_work;
use crate::kitchen::{Kitchen, Step, Week};
use crate::plan::{MadeAt, Making, Makings, hands_for};

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

/// The minutes of what is made at a meal; nothing where nothing is. Hands are one cook's, one dish after the other; waits go on side by
/// side, so that the longest counts, with what an oven takes to warm up before it.
pub fn at_the_meal(kitchen: &Kitchen, makings: &Makings, meal: usize) -> AtTheMeal {
    let here = || makings.makings.iter().filter(|making| making.at == MadeAt::Meal(meal));
    let steps = |making: &Making| kitchen.recipes[making.recipe].steps.iter().filter(|step| step.ahead.is_none());
    let of = |making: &Making, step| hands_for(step, making.batches.to_f64(), kitchen.rules.pace);
    let hands = |making: &Making| -> i64 { steps(making).map(|step| of(making, step)).sum::<i64>() + aside_minutes(kitchen, making) };
    let hands: i64 = here().map(hands).sum();
    let wait = here().map(|making| steps(making).map(|step| step.wait.0).sum::<i64>()).max().unwrap_or(0);
    let heats = |step: &Step| step.on.iter().map(|on| &kitchen.appliances[*on]).filter(|one| one.heat).map(|one| one.warm_up.0).max();
    let warm_up = here().flat_map(steps).filter_map(heats).max().unwrap_or(0);
    AtTheMeal { hands, ready_in: hands + wait + warm_up }
}
