//! A session that is under way: what is done stands, what runs goes on, and the rest is planned from a minute on.
//!
//! What is said to be done has had its hands. It runs on for as long as its plan has it wait: a pot that was put on stays on until its time
//! is over. What is not said to be done has not begun, whatever the plan had of it.

use std::collections::BTreeSet;
use std::fmt;
use std::str::FromStr;

use jiff::civil::DateTime;

use super::tasks::{Part, Work};
use super::{Doing, Fixed, Job, Mark, SessionPlan, Task};
use crate::kitchen::RecipeId;
use crate::measure::Celsius;
use crate::plan::Makings;

/// The session of `start` from minute `now` of it on, as a guide told it and as far as it is done.
#[derive(Debug, Clone, PartialEq)]
pub struct UnderWay {
    pub start: DateTime,
    pub now: i64,
    pub told: Vec<Told>,
    pub done: BTreeSet<Mark>,
}

/// A task as a guide told it.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    pub mark: Mark,
    pub deed: Deed,
    pub start: i64,
    pub person: Option<String>,
    pub at: Option<Celsius>,
    /// Done already when that guide was printed.
    pub done: bool,
}

/// What a task does, whatever the plan. Steps and rounds count from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Deed {
    Step { recipe: RecipeId, step: usize, round: usize },
    Box(RecipeId),
    Aside { recipe: RecipeId, eater: String },
    WashUp,
}

/// What a plan made under way knows beside its tasks.
#[derive(Debug, Clone, PartialEq)]
pub struct Rest {
    pub from: i64,
    /// One a task: those of the guide that hung in the kitchen.
    pub marks: Vec<Mark>,
    pub done: Vec<(Mark, Task)>,
}

impl SessionPlan {
    /// Its tasks as its guide tells them, but for settings.
    pub fn told(&self) -> Vec<Told> {
        let told = |(task, mark): (&Task, Mark)| {
            let deed = match &task.what {
                Doing::Set => return None,
                Doing::Step(step) => Deed::Step { recipe: step.recipe, step: step.step, round: step.round },
                Doing::Box(_) => Deed::Box(task.recipe()?),
                Doing::Aside(aside) => Deed::Aside { recipe: aside.recipe, eater: aside.eater.clone() },
                Doing::WashUp => Deed::WashUp,
            };
            let person = task.person.map(|id| self.person(id).name.clone());
            Some(Told { mark, deed, start: task.start_minute, person, at: task.at, done: false })
        };
        self.tasks.iter().zip(self.marks()).filter_map(told).collect()
    }
}

/// The marks that were said and that no task of the guide has, as they were said.
pub fn unknown_marks(told: &[Told], done: &BTreeSet<Mark>) -> Vec<Mark> {
    done.iter().copied().filter(|mark| told.iter().all(|one| one.mark != *mark)).collect()
}

/// Lets what is done stand, and begins the plan at its minute. The mark of every job.
pub(super) fn stand(work: &mut Work, makings: &Makings, under_way: &UnderWay) -> Vec<Mark> {
    let now = under_way.now;
    work.problem.now = now;
    let (mut numbers, mut letters) = (0, 0);
    for told in &under_way.told {
        match told.mark {
            Mark::Number(number) => numbers = numbers.max(number),
            Mark::Letter(letter) => letters = letters.max(letter),
            Mark::None => {}
        }
    }
    let mut marks = Vec::with_capacity(work.origins.len());
    for job in 0..work.origins.len() {
        let told = under_way.told.iter().find(|told| does(work, makings, job, &told.deed));
        let Some(told) = told else {
            // New since that guide was printed: it comes after all its marks.
            marks.push(match work.origins[job].part {
                Part::Ahead { .. } => Mark::None,
                Part::Step { .. } => {
                    numbers += 1;
                    Mark::Number(numbers)
                }
                Part::Box | Part::WashUp | Part::Aside { .. } => {
                    letters += 1;
                    Mark::Letter(letters)
                }
            });
            continue;
        };
        marks.push(told.mark);
        if told.done || under_way.done.contains(&told.mark) {
            let person = told.person.as_ref().and_then(|name| work.people.iter().position(|person| person.name == *name));
            let heat = told.at.map(|at| at.0);
            stood(&mut work.problem.jobs[job], told.start, now, (person, heat));
        }
    }
    marks
}

/// A job whose hands are done: it began when it was told to, or as late as hands that are done allow. Without a wait it is over.
fn stood(job: &mut Job, told: i64, now: i64, (person, set_to): (Option<usize>, Option<f64>)) {
    let start = told.min(now - job.hands).clamp(0, now);
    job.hands = job.hands.min(now - start);
    if job.wait == 0 {
        job.out = job.out.min(now - start - job.hands);
    }
    job.fixed = Some(Fixed { start, person, out_person: None, set_to });
}

fn does(work: &Work, makings: &Makings, job: usize, deed: &Deed) -> bool {
    let origin = work.origins[job];
    let of = |recipe: &RecipeId| makings.makings.get(origin.making).is_some_and(|making| making.recipe == *recipe);
    match (origin.part, deed) {
        (Part::Step { step, round, .. }, Deed::Step { recipe, step: told, round: told_round }) => {
            of(recipe) && step == *told && round == *told_round
        }
        (Part::Box, Deed::Box(recipe)) => of(recipe),
        (Part::Aside { of: place, .. }, Deed::Aside { recipe, eater }) => {
            of(recipe) && makings.makings[origin.making].apart.get(place).is_some_and(|apart| apart.who == *eater)
        }
        (Part::WashUp, Deed::WashUp) => true,
        _ => false,
    }
}

/// What comes of reading "12" or "AB" where it is neither.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoMark;

impl fmt::Display for NoMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("is neither a number nor a letter of the guide")
    }
}

/// "12", "a", "AB", as the guide has them.
impl FromStr for Mark {
    type Err = NoMark;

    fn from_str(text: &str) -> Result<Mark, NoMark> {
        if let Ok(number) = text.parse::<u32>() {
            return if number > 0 { Ok(Mark::Number(number)) } else { Err(NoMark) };
        }
        let mut letters: u32 = 0;
        for letter in text.chars() {
            let digit = letter.to_ascii_uppercase();
            if !digit.is_ascii_uppercase() {
                return Err(NoMark);
            }
            let more = letters.checked_mul(26).and_then(|sum| sum.checked_add(digit as u32 - 'A' as u32 + 1));
            letters = more.ok_or(NoMark)?;
        }
        if letters > 0 { Ok(Mark::Letter(letters)) } else { Err(NoMark) }
    }
}

/// The plan's tasks without what is done at minute `now`, and what is done; `job` of each pair is that of the problem.
pub(super) fn rest(work: &Work, marks: &[Mark], now: i64, tasks: Vec<(Task, Option<usize>)>) -> (Vec<(Task, Option<usize>)>, Rest) {
    let mark = |job: Option<usize>| job.map_or(Mark::None, |job| marks[job]);
    let over = |(task, job): &(Task, Option<usize>)| match job {
        Some(job) => work.problem.jobs[*job].fixed.is_some() && task.end_minute <= now,
        // An appliance that was set before.
        None => task.start_minute < now,
    };
    let mut kept = 0..;
    let places: Vec<Option<usize>> = tasks.iter().map(|task| if over(task) { None } else { kept.next() }).collect();
    let (mut left, mut done) = (Vec::new(), Vec::new());
    for ((mut task, job), place) in tasks.into_iter().zip(&places) {
        if place.is_none() {
            done.extend(job.map(|_| (mark(job), task)));
        } else {
            task.after = task.after.iter().filter_map(|place| places[*place]).collect();
            left.push((task, job));
        }
    }
    let marks = left.iter().map(|(_, job)| mark(*job)).collect();
    (left, Rest { from: now, marks, done })
}

#[cfg(test)]
mod tests;
