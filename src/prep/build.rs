//! From makings to tasks, and from a schedule to what the guide says.

use jiff::Span;
use jiff::civil::DateTime;

use super::advice::{Teller, advice, minutes_over};
use super::before::{before, begun, moves, stands_too_long};
use super::boxes::{boxes, served_apart};
use super::cautions::{cautions, cautions_of_one, for_eaters};
use super::clock::tasks;
use super::cuts::cuts;
use super::elsewhere::as_found;
use super::facts::Handled;
use super::fetch::fetch;
use super::meal_cautions::of_what_is_begun;
use super::schedule::{least_finish, slower, slower_ends};
use super::tasks::{Work, session_work};
use super::theirs::tell_who_is_not_first;
use super::together::ending_together;
use super::under_way::{UnderWay, part, rest, stand};
use super::uses::{said, shared_out};
use super::wash_up::washed_up_soonest;
use super::{
    Advice, Batch, Begun, BoxNote, Cut, Effort, Fetch, Mark, PersonId, PrepPlan, Put, Schedule, SessionPlan, Slowed, Taken, Task, Turnover,
    schedule,
};
use crate::kitchen::{Kitchen, Session, Week};
use crate::plan::{Demand, Draw, MadeAt, Making, Makings};
use crate::progress::{self, At};

/// The plan of every session of the week.
pub fn prep(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], draws: &[Draw], effort: Effort) -> PrepPlan {
    prep_under_way(kitchen, week, makings, demand, draws, (effort, None))
}

/// Which of a session's plan is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Telling {
    All,
    /// Neither what would help nor how it fares with slower hands; and a long plan is looked for with less effort.
    PlanAlone,
}

/// A plan of more jobs than this is long. Of many rounds of the same steps the first plans are already as short as those that a longer
/// search finds.
const LONG: usize = 28;

/// As [`prep`], the plans alone, for a page that tells nothing else of them: without advice, and without slower hands. A long session is
/// planned with [`Effort::Low`], unless [`Effort::High`] is asked for.
pub fn plans_alone(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], effort: Effort) -> Vec<SessionPlan> {
    let plan = |index: usize| session_plan(kitchen, week, makings, demand, &[], (index, effort, None, Telling::PlanAlone));
    (0..week.sessions.len()).map(plan).collect()
}

/// As [`prep`], with one session under way.
pub fn prep_under_way(
    kitchen: &Kitchen,
    week: &Week,
    makings: &Makings,
    demand: &[Demand],
    draws: &[Draw],
    (effort, under_way): (Effort, Option<&UnderWay>),
) -> PrepPlan {
    let plan = |index: usize| {
        let under_way = under_way.filter(|one| one.start == week.sessions[index].start);
        session_plan(kitchen, week, makings, demand, draws, (index, effort, under_way, Telling::All))
    };
    let mut sessions: Vec<SessionPlan> = (0..week.sessions.len()).map(plan).collect();
    super::at_once::tell(kitchen, &mut sessions);
    sessions.iter_mut().for_each(|session| super::at_once::tell_two_heats(kitchen, session));
    let begun: Vec<Vec<Begun>> = sessions.iter().enumerate().map(|(index, plan)| begun(kitchen, makings, index, plan)).collect();
    sessions.iter_mut().zip(begun).for_each(|(session, begun)| session.begun = begun);
    for (index, session) in sessions.iter_mut().enumerate().filter(|(_, session)| !session.is_done()) {
        let unsafe_ahead = stands_too_long(kitchen, makings, index, session);
        session.advice.splice(0..0, unsafe_ahead);
    }
    let before = before(kitchen, week, makings, draws, &sessions);
    PrepPlan {
        week: week.name.clone(),
        cautions: of_what_is_begun(kitchen, week, makings, &before),
        before,
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
    (index, effort, under_way, telling): (usize, Effort, Option<&UnderWay>, Telling),
) -> SessionPlan {
    let session = &week.sessions[index];
    let found = as_found(kitchen, session);
    let kitchen = &*found;
    let mut work = session_work(kitchen, week, index, makings);
    let marks = under_way.map(|under_way| stand(&mut work, makings, under_way));
    progress::at(At::Session { start: session.start, number: index + 1, of: week.sessions.len() });
    let is_long = work.problem.jobs.len() > LONG;
    let effort = if telling == Telling::PlanAlone && is_long && effort == Effort::Normal { Effort::Low } else { effort };
    let planned = washed_up_soonest(&work, ending_together(&work, schedule(&work.asked(), effort), effort));
    let whole = telling == Telling::All;
    if whole {
        progress::at(At::Advice { start: session.start });
    }
    let mut timed = tasks(kitchen, makings, &work, &planned);
    shared_out(timed.iter_mut().map(|(task, _)| task));
    let mut cuts = cuts(kitchen, makings, &work, &timed);
    let made = || work.chosen.iter().map(|making| &makings.makings[*making]);
    let mut fetch = fetch(kitchen, makings, demand, draws, (index, may_be_bought(week, index)));
    let mut boxes: Vec<BoxNote> = made().flat_map(|making| boxes(kitchen, making)).collect();
    let mut said = said(kitchen, made());
    let (mut left, mut done_by) = (None, None);
    if let Some((under_way, marks)) = under_way.zip(marks) {
        only_of_the_rest(&mut cuts, &work, &marks, (under_way.now, &timed));
        let (mut still, mut rest) = rest(&work, &marks, under_way.now, timed);
        part(&mut still, &mut rest, (&mut fetch, &mut said), &mut boxes);
        let spoilt = |note: &BoxNote| still.iter().any(|(task, _)| task.recipe() == Some(note.recipe) && task.stood().is_some());
        boxes.retain(|note| !spoilt(note));
        // Nothing is left to do: it was over when the last of it was.
        let over = still.is_empty().then(|| rest.done.iter().map(|(_, task)| task.end_minute).max()).flatten();
        done_by = over.map(|over| over.min(under_way.now));
        (timed, left) = (still, Some(rest));
    }
    let mut for_eaters = for_eaters(kitchen, week, makings, &work.chosen);
    tell_who_is_not_first(&mut for_eaters, &timed);
    let tasks: Vec<Task> = timed.into_iter().map(|(task, _)| task).collect();
    let of_one =
        |person| [for_eaters.clone(), cautions_of_one(kitchen, &handled_by(makings, &work.chosen, &tasks, PersonId(person)))].concat();
    let theirs = (0..work.people.len()).map(of_one).collect();
    SessionPlan {
        theirs,
        start: session.start,
        finish_by: session.finish_by,
        served: served(session, &work),
        finish: at_minute(session.start, done_by.unwrap_or(planned.finish)),
        minutes: done_by.unwrap_or(planned.finish),
        bound_minutes: done_by.unwrap_or(planned.bound),
        proven: planned.proven,
        batches: made().map(batch).collect(),
        cuts,
        tasks,
        fetch,
        boxes,
        set_aside: made().flat_map(|making| served_apart(kitchen, making)).collect(),
        cautions: [for_eaters, cautions(kitchen, makings, &work.chosen)].concat(),
        advice: if done_by.is_some() {
            vec![Advice::AllDone]
        } else if whole {
            advice((kitchen, week, makings), (index, under_way), &work, &planned, |problem| least_finish(problem, Effort::Low).0)
        } else {
            Vec::new()
        },
        slower: if whole && done_by.is_none() {
            SLOWER.map(|percent| slowed((kitchen, makings), session, &work, &planned, percent)).into()
        } else {
            Vec::new()
        },
        rest: left,
        said,
        begun: Vec::new(),
        people: work.people,
    }
}

/// What one person does of each making.
fn handled_by<'m>(makings: &'m Makings, chosen: &[usize], tasks: &[Task], person: PersonId) -> Vec<Handled<'m>> {
    let theirs = |task: &&Task| task.person == Some(person) || task.out_person == Some(person);
    let of_making = |index: &usize| {
        let making = &makings.makings[*index];
        let mine: Vec<&Task> = tasks.iter().filter(theirs).filter(|task| task.recipe() == Some(making.recipe)).collect();
        let steps = mine.iter().filter_map(|task| task.step()).map(|step| step.step).collect();
        let boxes = mine.iter().any(|task| task.is_box());
        (!mine.is_empty()).then_some(Handled { making, steps, boxes })
    };
    chosen.iter().filter_map(of_making).collect()
}

/// Cuts of steps that are done are left out; the others name their steps by the marks of the guide that hangs in the kitchen.
fn only_of_the_rest(cuts: &mut Vec<Cut>, work: &Work, marks: &[Mark], (now, timed): (i64, &[(Task, Option<usize>)])) {
    let steps: Vec<(&Task, usize)> =
        timed.iter().filter(|(task, _)| task.step().is_some()).filter_map(|(t, job)| Some((t, (*job)?))).collect();
    cuts.retain_mut(|cut| {
        let Some((task, job)) = (cut.step as usize).checked_sub(1).and_then(|place| steps.get(place)) else { return true };
        if let Mark::Number(number) = marks[*job] {
            cut.step = number;
        }
        // Hands that are done have cut it.
        work.problem.jobs[*job].fixed.is_none() || task.start_minute >= now
    });
}

/// Is a trip still to come before a session?
fn may_be_bought(week: &Week, session: usize) -> bool {
    week.trips.iter().any(|trip| trip.on <= week.sessions[session].start.date())
}

/// What a session takes and gives, without its schedule.
pub fn turnover(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], draws: &[Draw], index: usize) -> Turnover {
    let made = || makings.makings.iter().filter(|making| making.at == MadeAt::Session(index));
    let taken = |one: Fetch| Taken { of: Ok(one.of), amount: one.amount, place: one.place };
    Turnover {
        start: week.sessions[index].start,
        batches: made().map(batch).collect(),
        fetch: fetch(kitchen, makings, demand, draws, (index, true)).into_iter().map(taken).collect(),
        boxes: made().flat_map(|making| boxes(kitchen, making).into_iter().map(Put::from).chain(served_apart(kitchen, making))).collect(),
    }
}

fn batch(making: &Making) -> Batch {
    Batch { recipe: making.recipe, batches: making.batches.to_f64(), makes: making.makes.clone() }
}

/// The times of the meals that eat straight from the pot.
fn served(session: &Session, work: &Work) -> Vec<DateTime> {
    let straight = work.served.iter().flat_map(|served| served.others.iter().chain([&served.last]));
    let at: std::collections::BTreeSet<i64> = straight.filter_map(|job| work.problem.jobs[*job].serve).map(|serve| serve.at).collect();
    at.into_iter().map(|minute| at_minute(session.start, minute)).collect()
}

/// By how much hands may be slower than a household thinks, in percent.
const SLOWER: [i64; 2] = [10, 20];

fn slowed((kitchen, makings): (&Kitchen, &Makings), session: &Session, work: &Work, planned: &Schedule, percent: i64) -> Slowed {
    let run = slower(&work.problem, planned, percent);
    let late = minutes_over(session, run.finish).unwrap_or(0).max(0);
    let ends = slower_ends(&work.problem, planned, percent);
    let breaks = Teller { kitchen, makings, work }.breaks(&run.breaks, session.start, |job| ends[job]);
    Slowed { percent, finish: at_minute(session.start, run.finish), late, breaks }
}

/// The start itself where the clock runs out of years.
fn at_minute(start: DateTime, minutes: i64) -> DateTime {
    Span::new().try_minutes(minutes).and_then(|span| start.checked_add(span)).unwrap_or(start)
}

#[cfg(test)]
mod ready_for_meals;
#[cfg(test)]
mod tests;
