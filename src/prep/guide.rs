//! The prep plan as typed data: its sessions, what is done in each by the clock, what is done before. It must not know how a plan is found.

use jiff::Span;
use jiff::civil::DateTime;

use super::advised::Advice;
use super::beside::{Begun, BoxNote, Cut, Fetch, Said};
use super::care::Care;
use super::doing::{Doing, PersonId, Task};
use super::errand::{Before, Moment};
use super::turnover::{Batch, Put, Taken, Turnover};
use crate::kitchen::Person;
use crate::plan::ShortMeal;
use crate::words::{clock, duration, listed};

#[derive(Debug, Clone, PartialEq)]
pub struct PrepPlan {
    /// The week's name.
    pub week: String,
    pub sessions: Vec<SessionPlan>,
    /// What is done before a session or a meal, by the clock.
    pub before: Vec<Before>,
    /// Portions that go from the freezer to the fridge.
    pub moves: Vec<Before>,
    /// Meals that nothing can serve any more.
    pub short: Vec<ShortMeal>,
    /// What to take care of at the meals for whose dishes something is done before.
    pub cautions: Vec<Care>,
}

impl PrepPlan {
    /// What is to be done ahead of one session: after the start of the session before it, or from the beginning.
    pub fn before_session(&self, index: usize) -> Vec<Before> {
        let Some(until) = self.sessions.get(index).map(|session| Moment::At(session.start)) else { return Vec::new() };
        let after = index.checked_sub(1).map(|earlier| Moment::At(self.sessions[earlier].start));
        self.before.iter().filter(|note| after.is_none_or(|after| note.at > after) && note.at <= until).cloned().collect()
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct SessionPlan {
    pub start: DateTime,
    /// When it is wanted to be finished.
    pub finish_by: Option<DateTime>,
    /// When what comes straight from the pot is served, by the clock.
    pub served: Vec<DateTime>,
    pub finish: DateTime,
    pub minutes: i64,
    /// No plan is shorter than this.
    pub bound_minutes: i64,
    pub proven: bool,
    pub people: Vec<Person>,
    pub batches: Vec<Batch>,
    /// By the clock.
    pub tasks: Vec<Task>,
    pub fetch: Vec<Fetch>,
    pub cuts: Vec<Cut>,
    pub boxes: Vec<BoxNote>,
    /// What single eaters get straight from the pot without something that goes into the rest: in no box, and yet theirs alone.
    pub set_aside: Vec<Put>,
    pub cautions: Vec<Care>,
    /// One a person: those that touch what they do.
    pub theirs: Vec<Vec<Care>>,
    /// The gravest first.
    pub advice: Vec<Advice>,
    /// How the plan fares with slower hands, a tenth and a fifth.
    pub slower: Vec<Slowed>,
    /// Where it was planned while it was under way.
    pub rest: Option<Rest>,
    /// How the session's lines speak of the foods that are fetched.
    pub said: Vec<Said>,
    /// What a step done ahead has taken already.
    pub begun: Vec<Begun>,
}

impl SessionPlan {
    /// The meal that the session ends with, where something is served straight from the pot, or its last step where that comes too late for
    /// it; else its finish.
    pub fn ends(&self) -> DateTime {
        let steps = self.tasks.iter().filter(|task| task.step().is_some()).map(|task| task.end_minute).max();
        let last = steps.and_then(|end| self.start.checked_add(Span::new().try_minutes(end).ok()?).ok());
        let last = last.filter(|_| !self.served.is_empty());
        self.served.iter().copied().chain([self.finish]).chain(last).max().unwrap_or(self.finish)
    }

    /// The same plan by a clock that starts with its first task: nobody waits for what is served hours later.
    pub fn from_its_first_task(mut self) -> SessionPlan {
        let first = self.tasks.iter().map(|task| task.start_minute).min().unwrap_or(0);
        let Some(start) = Span::new().try_minutes(first).ok().and_then(|span| self.start.checked_add(span).ok()) else { return self };
        self.start = start;
        self.finish = self.finish.max(start);
        (self.minutes, self.bound_minutes) = ((self.minutes - first).max(0), (self.bound_minutes - first).max(0));
        for task in &mut self.tasks {
            (task.start_minute, task.end_minute) = (task.start_minute - first, task.end_minute - first);
            let boxing = match &mut task.what {
                Doing::Box(boxing) => Some(boxing),
                Doing::Aside(aside) => aside.chilled.as_mut(),
                Doing::Set | Doing::Step(_) | Doing::WashUp => None,
            };
            if let Some(by) = boxing.and_then(|boxing| boxing.by.as_mut()) {
                *by -= first;
            }
        }
        self
    }

    /// Whether all of it is served hot: then there is no rest whose end could be told.
    pub fn is_all_served(&self) -> bool {
        self.minutes == 0 && self.ends_with_a_meal()
    }

    /// ", served at 18:30", or how much later than that.
    pub fn served_text(&self) -> String {
        let late = |one: &Advice| if let Advice::LateMeal { over, .. } = one { Some(*over) } else { None };
        let at = listed(&self.served.iter().map(|at| clock(*at)).collect::<Vec<_>>());
        match self.advice.iter().find_map(late) {
            _ if self.served.is_empty() => String::new(),
            Some(over) => format!(", for the meal at {at}, {} late", duration(over)),
            None => format!(", served at {at}"),
        }
    }

    /// Under way, with nothing left to do.
    pub fn is_done(&self) -> bool {
        self.advice.contains(&Advice::AllDone)
    }

    /// Whether work goes on after the finish, for a meal.
    pub fn ends_with_a_meal(&self) -> bool {
        self.ends() > self.finish
    }

    pub fn person(&self, id: PersonId) -> &Person {
        &self.people[id.0]
    }

    /// The mark of every task.
    pub fn marks(&self) -> Vec<Mark> {
        if let Some(rest) = self.rest.as_ref().filter(|rest| rest.marks.len() == self.tasks.len()) {
            return rest.marks.clone();
        }
        let (mut steps, mut boxes) = (0, 0);
        let mark = |task: &Task| match task.what {
            Doing::Set => Mark::None,
            Doing::Step(_) => {
                steps += 1;
                Mark::Number(steps)
            }
            Doing::Box(_) | Doing::Aside(_) | Doing::WashUp => {
                boxes += 1;
                Mark::Letter(boxes)
            }
        };
        self.tasks.iter().map(mark).collect()
    }
}

/// What a plan made under way knows beside its tasks.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    pub from: i64,
    /// One a task: those of the guide that hung in the kitchen.
    pub marks: Vec<Mark>,
    /// One a task: whether it is under way, its hands done.
    pub runs: Vec<bool>,
    pub done: Vec<(Mark, Task)>,
    /// What was fetched for what is done.
    pub fetched: Vec<Fetch>,
    /// What stood in its box by then.
    pub boxed: Vec<BoxNote>,
}

/// The plan carried out in its own order with all hands-on times longer.
#[derive(Debug, Clone, PartialEq)]
pub struct Slowed {
    pub percent: i64,
    pub finish: DateTime,
    /// Minutes past `finish_by`, 0 where it is kept or not asked for.
    pub late: i64,
    /// Limits that break then, by all that they are overrun.
    pub breaks: Vec<Advice>,
}

/// How chart and steps name a task: steps are counted from 1, all else is lettered from A, but setting an appliance has none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    None,
    Number(u32),
    Letter(u32),
}

/// All that it takes and leaves, with what is done already where it is under way.
impl From<&SessionPlan> for Turnover {
    fn from(session: &SessionPlan) -> Turnover {
        let rest = session.rest.iter();
        let fetch = rest.clone().flat_map(|rest| &rest.fetched).chain(&session.fetch);
        let fetch = fetch.map(|one| Taken { of: Ok(one.of), amount: one.amount.clone(), place: one.place });
        let put = |one: &BoxNote| Put::from(one.clone());
        let boxes = rest.flat_map(|rest| &rest.boxed).chain(&session.boxes).map(put).chain(session.set_aside.iter().cloned());
        Turnover { start: session.start, batches: session.batches.clone(), fetch: fetch.collect(), boxes: boxes.collect() }
    }
}
