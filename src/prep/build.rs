//! From makings to tasks, and from a schedule to what the guide says.

use jiff::Span;
use jiff::civil::DateTime;

use super::advice::{Teller, advice, minutes_over};
use super::before::{before, moves};
use super::boxes::boxes;
use super::cautions::{cautions, for_eaters};
use super::clock::tasks;
use super::cuts::cuts;
use super::elsewhere::as_found;
use super::fetch::fetch;
use super::schedule::{least_finish, slower};
use super::tasks::{Work, session_work};
use super::uses::{said, shared_out};
use super::{Batch, BoxNote, Effort, Fetch, PrepPlan, Put, Schedule, SessionPlan, Slowed, Taken, Turnover, schedule};
use crate::kitchen::{Kitchen, Session, Week};
use crate::plan::{Demand, Draw, MadeAt, Making, Makings};
use crate::progress::{self, At};

/// The plan of every session of the week.
pub fn prep(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], draws: &[Draw], effort: Effort) -> PrepPlan {
    let plan = |index| session_plan(kitchen, week, makings, demand, draws, (index, effort));
    let mut sessions: Vec<SessionPlan> = (0..week.sessions.len()).map(plan).collect();
    super::at_once::tell(kitchen, &mut sessions);
    PrepPlan {
        week: week.name.clone(),
        before: before(kitchen, week, makings, draws, &sessions),
        sessions,
        moves: moves(makings),
        short: makings.short.clone(),
    }
}

fn session_plan(
    kitchen: &Kitchen,
    week: &Week,
    makings: &Makings,
    demand: &[Demand],
    draws: &[Draw],
    (index, effort): (usize, Effort),
) -> SessionPlan {
    let session = &week.sessions[index];
    let found = as_found(kitchen, session);
    let kitchen = &*found;
    let work = session_work(kitchen, week, index, makings);
    progress::at(At::Session { start: session.start, number: index + 1, of: week.sessions.len() });
    let planned = schedule(&work.asked(), effort);
    progress::at(At::Advice { start: session.start });
    let mut timed = tasks(kitchen, makings, &work, &planned);
    shared_out(timed.iter_mut().map(|(task, _)| task));
    let made = || work.chosen.iter().map(|making| &makings.makings[*making]);
    SessionPlan {
        start: session.start,
        finish_by: session.finish_by,
        finish: at_minute(session.start, planned.finish),
        minutes: planned.finish,
        bound_minutes: planned.bound,
        proven: planned.proven,
        batches: made().map(batch).collect(),
        cuts: cuts(kitchen, makings, &work, &timed),
        tasks: timed.into_iter().map(|(task, _)| task).collect(),
        fetch: fetch(kitchen, makings, demand, draws, index),
        boxes: made().flat_map(|making| boxes(kitchen, making)).collect(),
        cautions: [for_eaters(kitchen, week, makings, &work.chosen), cautions(kitchen, makings, &work.chosen)].concat(),
        advice: advice((kitchen, week, makings), index, &work, &planned, |problem| least_finish(problem, Effort::Low).0),
        slower: SLOWER.map(|percent| slowed((kitchen, makings), session, &work, &planned, percent)).into(),
        said: said(kitchen, made()),
        people: work.people,
    }
}

/// What a session takes and gives, without its schedule.
pub fn turnover(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], draws: &[Draw], index: usize) -> Turnover {
    let made = || makings.makings.iter().filter(|making| making.at == MadeAt::Session(index));
    let taken = |one: Fetch| Taken { of: Ok(one.of), amount: one.amount };
    let put = |one: BoxNote| Put { recipe: one.recipe, amount: one.amount, place: one.place, use_by: one.use_by };
    Turnover {
        start: week.sessions[index].start,
        batches: made().map(batch).collect(),
        fetch: fetch(kitchen, makings, demand, draws, index).into_iter().map(taken).collect(),
        boxes: made().flat_map(|making| boxes(kitchen, making)).map(put).collect(),
    }
}

fn batch(making: &Making) -> Batch {
    Batch { recipe: making.recipe, batches: making.batches.to_f64(), makes: making.makes.clone() }
}

/// By how much hands may be slower than a household thinks, in percent.
const SLOWER: [i64; 2] = [10, 20];

fn slowed((kitchen, makings): (&Kitchen, &Makings), session: &Session, work: &Work, planned: &Schedule, percent: i64) -> Slowed {
    let run = slower(&work.problem, planned, percent);
    let late = minutes_over(session, run.finish).unwrap_or(0).max(0);
    let breaks = Teller { kitchen, makings, work }.breaks(&run.breaks, planned, session.start);
    Slowed { percent, finish: at_minute(session.start, run.finish), late, breaks }
}

/// The start itself where the clock runs out of years.
fn at_minute(start: DateTime, minutes: i64) -> DateTime {
    Span::new().try_minutes(minutes).and_then(|span| start.checked_add(span)).unwrap_or(start)
}

#[cfg(test)]
mod tests;
