//! What meals of the session's own day ask of its plan: what they eat is ready when they begin.

use jiff::civil::DateTime;

use super::Serve;
use super::links::last_of;
use super::tasks::{ReadyFor, ServedHot, Work};
use crate::kitchen::{Recipe, Session, Week};
use crate::plan::{MadeAt, Making, Makings, User, straight_meals};

/// What goes straight from the pot to a meal ends with it, not with the session: its last step at most its `hold` before the meal, the
/// others by then. Where it serves several, it is ready for the first, and as late as the last of them wants.
pub(super) fn serve_all(recipes: &[Recipe], week: &Week, session: &Session, makings: &Makings, work: &mut Work) {
    for number in 0..work.chosen.len() {
        let making = &makings.makings[work.chosen[number]];
        let meals = straight_meals(week, makings, making);
        let minute = |meal: DateTime| minute_of(session, meal);
        let Some((at, last_at)) = meals.first().zip(meals.last()).map(|(first, last)| (minute(*first), minute(*last))) else { continue };
        let hold = recipes[making.recipe].holds().0;
        let (last, others) = last_of(recipes, makings, number, work);
        let jobs = &mut work.problem.jobs;
        others.iter().for_each(|&job| jobs[job].serve = Some(Serve { at, hold: at.max(0) }));
        if let Some(last) = last {
            jobs[last].serve = Some(Serve { at, hold: (hold - (last_at - at)).max(0) });
            work.served.push(ServedHot { last, others, meals, hold });
        }
        jobs.iter_mut().filter(|job| job.making == number).for_each(|job| job.uncounted = true);
    }
}

/// What a meal of that day eats cold, or warmed up again, is ready by then, boxing aside.
pub(super) fn ready_for_meals(recipes: &[Recipe], week: &Week, session: &Session, makings: &Makings, work: &mut Work) {
    for number in 0..work.chosen.len() {
        let making = &makings.makings[work.chosen[number]];
        if !straight_meals(week, makings, making).is_empty() {
            continue;
        }
        let Some(meal) = first_meal_of_the_day(week, session, makings, making) else { continue };
        let (last, mut jobs) = last_of(recipes, makings, number, work);
        jobs.extend(last);
        let at = minute_of(session, meal);
        jobs.iter().for_each(|&job| work.problem.jobs[job].serve = Some(Serve { at, hold: at }));
        work.ready.push(ReadyFor { jobs, meal });
    }
}

/// The first meal on the day of the session, and after its start, that eats the making or makes a dish of it.
fn first_meal_of_the_day(week: &Week, session: &Session, makings: &Makings, making: &Making) -> Option<DateTime> {
    let meals = making.uses.iter().filter_map(|one| match one.by {
        User::Meal(meal) => Some(meal),
        User::Making(dish) => match makings.makings.get(dish)?.at {
            MadeAt::Meal(meal) => Some(meal),
            MadeAt::Session(_) => None,
        },
    });
    let times = meals.filter_map(|meal| week.meals.get(meal)).map(|meal| meal.at_time);
    times.filter(|at| at.date() == session.start.date() && *at > session.start).min()
}

fn minute_of(session: &Session, at: DateTime) -> i64 {
    at.duration_since(session.start).as_secs().div_euclid(60)
}

#[cfg(test)]
mod tests;
