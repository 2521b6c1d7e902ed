//! When to begin at the stove, so that what is made at a meal is ready for it.

use jiff::ToSpan;
use jiff::civil::DateTime;

use super::cooked::cooked;
use super::heating::heatings;
use super::least::hands_at_the_meal;
use crate::kitchen::{Kitchen, Week};
use crate::plan::{MadeAt, Making, Makings};

/// `None` where nothing is made or cooked at the meal. Hands are one cook's, one dish after the other; waiting goes on side by side, so that the
/// longest counts, with the oven that is heated first. Nobody is told to begin too late.
pub fn begin_by(kitchen: &Kitchen, week: &Week, makings: &Makings, meal: usize) -> Option<DateTime> {
    let here: Vec<&Making> = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(meal)).collect();
    let steps = |making: &Making| kitchen.recipes[making.recipe].steps.iter().filter(|step| step.ahead.is_none());
    let hands: i64 = here.iter().map(|making| hands_at_the_meal(kitchen, making)).sum();
    let heating = |making: &Making| heatings(kitchen, making).iter().map(|one| one.waited).max();
    let waits = |making: &Making| steps(making).map(|step| step.waits(&kitchen.appliances)).sum::<i64>();
    let longest = here.iter().map(|making| waits(making) + heating(making).unwrap_or(0)).max();
    let made = longest.and_then(|longest| week.meals[meal].at_time.checked_sub((hands + longest).minutes()).ok());
    made.into_iter().chain(cooked(kitchen, &week.meals[meal]).into_iter().map(|cook| cook.start)).min()
}
