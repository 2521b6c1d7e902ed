//! What is done ahead with food that is bought only later: beans to be soaked on the eve of the day they are bought on.

use itertools::Itertools;
use jiff::civil::{Date, DateTime};

use super::ahead::starts;
use super::cuts::first_handled;
use super::{Errand, Moment, PrepPlan};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, RecipeId, Wanted, Warning, Week};
use crate::plan::{MadeAt, Making, Makings, Need};
use crate::words::{clock, day};

/// One food of a step done ahead that no trip brings in time. The step counts from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct BoughtLater {
    pub recipe: RecipeId,
    pub step: usize,
    /// When the step begins, as far as it is known before the session is planned.
    pub at: DateTime,
    pub food: FoodId,
    /// The day of the trip that brings it.
    pub on: Date,
}

/// No shop is open before this hour: what is put in water at two in the night has been bought the day before. Common practice, no source.
const SHOPS_OPEN: i8 = 7;

/// Dishes of which something is done ahead before that time, as far as it is known before their sessions are planned.
pub fn begun_before(kitchen: &Kitchen, week: &Week, makings: &Makings, time: DateTime) -> Vec<RecipeId> {
    let is_before = |making: &&Making| {
        let base = match making.at {
            MadeAt::Session(index) => week.sessions.get(index).map(|session| session.start),
            MadeAt::Meal(index) => week.meals.get(index).map(|meal| meal.at_time),
        };
        base.is_some_and(|base| starts(kitchen, making, base, &|_| vec![0]).iter().any(|(_, at)| *at < time))
    };
    makings.makings.iter().filter(is_before).map(|making| making.recipe).collect()
}

/// What steps done ahead need and `needs` has on a later trip, in the order of the makings.
pub fn bought_later(kitchen: &Kitchen, week: &Week, makings: &Makings, needs: &[Need]) -> Vec<BoughtLater> {
    let mut late = Vec::new();
    for making in &makings.makings {
        let base = match making.at {
            MadeAt::Session(index) => week.sessions.get(index).map(|session| session.start),
            MadeAt::Meal(index) => week.meals.get(index).map(|meal| meal.at_time),
        };
        let Some(base) = base else { continue };
        let recipe = &kitchen.recipes[making.recipe];
        for (step, at) in starts(kitchen, making, base, &|_| vec![0]) {
            for (_, line, _) in first_handled(recipe, step) {
                let Wanted::Food { food, .. } = line.wanted else { continue };
                let mine = |need: &&Need| need.food == food && need.uses.iter().any(|one| one.on == making.on && one.line == line.text);
                let trips = needs.iter().filter(mine).filter_map(|need| week.trips.get(need.trip));
                let later = |on: &Date| *on > at.date() || *on == at.date() && at.hour() < SHOPS_OPEN;
                late.extend(trips.map(|trip| trip.on).filter(later).max().map(|on| BoughtLater {
                    recipe: making.recipe,
                    step,
                    at,
                    food,
                    on,
                }));
            }
        }
    }
    late
}

/// At the step, with what would mend it.
pub fn warned_of_bought_later(kitchen: &Kitchen, late: &[BoughtLater]) -> Vec<Warning> {
    let told = |one: &BoughtLater| {
        let (food, at) = (kitchen.names().food(one.food), format!("{} {}", day(one.at.date()), clock(one.at)));
        let text = format!(
            "{food}: wanted for this step on {at}, but bought only on {}. Buy it before then, on a trip of that day or an earlier one, or make \
             the dish later.",
            day(one.on)
        );
        Warning::Note { at: Some(kitchen.recipes[one.recipe].steps[one.step].at.clone()), text }
    };
    late.iter().map(told).collect()
}

impl PrepPlan {
    /// Marks the errands that nothing is at home for yet.
    pub fn mark_bought_later(&mut self, late: &[BoughtLater]) {
        for note in &mut self.before {
            let (Moment::At(at), Errand::Step { recipe, step, bought, .. }) = (note.at, &mut note.errand) else { continue };
            let is_it = |one: &&BoughtLater| {
                let apart = one.at.duration_since(at).as_hours().abs();
                (one.recipe, one.step) == (*recipe, *step) && apart < 24 && one.on >= at.date()
            };
            *bought = late.iter().filter(is_it).map(|one| (one.food, one.on)).unique().collect();
        }
    }
}
