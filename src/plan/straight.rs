//! What is eaten straight from the pot on the day of its session, and what is boxed because its meal comes too late.

use jiff::ToSpan;
use jiff::civil::DateTime;

use super::boxes::{boxed, boxes};
use super::making::{Kept, MadeAt, Making, Makings, Use, User};
use crate::foods::safety::CHILLED_WITHIN;
use crate::kitchen::{Recipe, Week};

/// Until when a meal is served straight from the pot, where all else is done by `done`: two hours more, or as long as it is kept hot.
pub(super) fn warm_until(recipe: &Recipe, done: DateTime) -> DateTime {
    let most = recipe.hold_hot.map_or(CHILLED_WITHIN.value, |hot| hot.max(CHILLED_WITHIN.value));
    done.saturating_add(most.0.minutes())
}

/// The meals that a making of a session serves straight from the pot, by time.
pub fn straight_meals(week: &Week, makings: &Makings, making: &Making) -> Vec<DateTime> {
    if !matches!(making.at, MadeAt::Session(_)) {
        return Vec::new();
    }
    let mut meals: Vec<DateTime> = making.uses.iter().filter_map(|use_| straight_meal(week, makings, use_)).collect();
    meals.sort_unstable();
    meals.dedup();
    meals
}

fn straight_meal(week: &Week, makings: &Makings, use_: &Use) -> Option<DateTime> {
    let meal = match use_.by {
        User::Meal(meal) => meal,
        User::Making(dish) => match makings.makings.get(dish)?.at {
            MadeAt::Meal(meal) => meal,
            MadeAt::Session(_) => return None,
        },
    };
    (use_.kept == Kept::Straight).then(|| week.meals.get(meal).map(|meal| meal.at_time)).flatten()
}

/// Boxes what a making would serve straight from the pot too late after `done`, when the rest of its session is.
pub fn served_after(recipes: &[Recipe], week: &Week, makings: &mut Makings, index: usize, done: DateTime) {
    let recipe = &recipes[makings.makings[index].recipe];
    let late = |use_: &Use| straight_meal(week, makings, use_).is_some_and(|at| at > warm_until(recipe, done));
    let late: Vec<bool> = makings.makings[index].uses.iter().map(late).collect();
    let making = &mut makings.makings[index];
    making.uses.iter_mut().zip(late).filter(|(_, late)| *late).for_each(|(use_, _)| use_.kept = boxed(recipe));
    making.boxes = boxes(recipe, making.on, &making.uses, making.spare.as_ref());
}
