//! What a plan that is only weighed needs to know of cooking: the least finish of a session, and the time at a meal. No guide is made.

use jiff::ToSpan;
use jiff::civil::DateTime;

use super::boxes::ASIDE_MINUTES;
use super::names::handles_raw;
use super::problem::{Aim, Job};
use super::schedule::{Effort, least_finish, schedule};
use super::tasks::{Work, session_work};
use super::together::ending_together;
use crate::kitchen::{Kitchen, Step, Week};
use crate::plan::{MadeAt, Making, Makings, hands_for, set_aside_before};

/// The least finish of a session and the minutes below which no plan can finish, as [`super::prep()`] plans it.
pub fn session_minutes(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize, effort: Effort) -> (i64, i64) {
    let work = session_work(kitchen, week, index, makings);
    least_finish(&work.asked(), effort)
}

/// How long a session takes, as its guide tells it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hours {
    pub start: DateTime,
    /// To its finish, which leaves out what is served straight from the pot.
    pub minutes: i64,
    /// What is served straight from the pot, where anything is.
    pub served: Option<ServedWork>,
}

/// The work on what is served straight from the pot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ServedWork {
    /// The meals.
    pub at: Vec<DateTime>,
    /// Minutes of hands.
    pub hands: i64,
    /// When it begins, in a session that makes nothing else.
    pub from: Option<DateTime>,
}

/// How long a session takes whose least finish is known: with work on what is served hot, and, where it is calm, as long as its plan takes.
pub fn hours(kitchen: &Kitchen, week: &Week, makings: &Makings, (index, least): (usize, i64), effort: Effort) -> Hours {
    let start = week.sessions[index].start;
    let work = session_work(kitchen, week, index, makings);
    let all_served = !work.problem.jobs.is_empty() && work.problem.jobs.iter().all(|job| job.uncounted);
    let planned = (all_served || work.problem.aim != Aim::Soonest).then(|| ending_together(&work, schedule(&work.asked(), effort), effort));
    let first = planned.as_ref().and_then(|planned| planned.placed.iter().map(|placed| placed.start).min());
    let from = first.filter(|_| all_served).map(|minute| start.saturating_add(minute.minutes()));
    let minutes = planned.map_or(least, |planned| planned.finish);
    Hours { start, minutes, served: served_work(&work, start, from) }
}

fn served_work(work: &Work, start: DateTime, from: Option<DateTime>) -> Option<ServedWork> {
    let jobs = || work.problem.jobs.iter();
    let at: std::collections::BTreeSet<i64> = jobs().filter_map(|job| job.serve).map(|serve| serve.at).collect();
    let hands = jobs().filter(|job| job.uncounted).map(|job: &Job| job.hands + job.out).sum();
    let at: Vec<DateTime> = at.into_iter().map(|minute| start.saturating_add(minute.minutes())).collect();
    (!at.is_empty()).then_some(ServedWork { at, hands, from })
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
