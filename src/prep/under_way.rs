//! A session that is under way: what is done stands, what runs goes on, and the rest is planned from a minute on.
//!
//! What is said to be done has had its hands. It runs on for as long as its plan has it wait: a pot that was put on stays on until its time
//! is over, or until something is done that could not begin before. What is not said to be done has not begun, whatever the plan had of it;
//! so nothing is done whose forerunners are not.

use std::collections::BTreeSet;
use std::fmt;
use std::str::FromStr;

use itertools::Itertools;
use jiff::civil::DateTime;

use super::tasks::{Origin, Part, Work, session_work};
use super::{BoxNote, Doing, Fetch, Fixed, Job, Link, Mark, Rest, Said, SessionPlan, Shares, Task};
use crate::kitchen::{ApplianceId, Kitchen, RecipeId, Ware, Week};
use crate::measure::Celsius;
use crate::plan::{Kept, Makings, User};

/// The session of `start` from minute `now` of it on, as a guide told it and as far as it is done.
#[derive(Debug, Clone, PartialEq)]
pub struct UnderWay {
    pub start: DateTime,
    pub now: i64,
    pub told: Vec<Told>,
    /// As the guide told them. They bear no mark; one whose time is past has been made.
    pub heats: Vec<SetHeat>,
    pub done: BTreeSet<Mark>,
}

/// An appliance brought to its temperature, in minutes from the session's start.
#[derive(Debug, Clone, PartialEq)]
pub struct SetHeat {
    pub on: ApplianceId,
    pub at: Celsius,
    pub start: i64,
    pub ready: i64,
}

/// A task as a guide told it.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    pub mark: Mark,
    pub deed: Deed,
    pub start: i64,
    pub person: Option<String>,
    pub at: Option<Celsius>,
    /// Done already when that guide was printed, or under way.
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

/// Marks that are said to be done, and the marks of what none of them could begin without and that is not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unmarked {
    pub done: Vec<Mark>,
    pub before: Vec<Mark>,
}

impl SessionPlan {
    /// What is set on its guide, and when.
    pub fn heats(&self) -> Vec<SetHeat> {
        let set = |task: &Task| Some(SetHeat { on: *task.on.first()?, at: task.at?, start: task.start_minute, ready: task.end_minute });
        self.tasks.iter().filter(|task| task.is_set()).filter_map(set).collect()
    }

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

/// What is said to be done although something before it is not, by what is missing.
pub fn unmarked(kitchen: &Kitchen, week: &Week, makings: &Makings, under_way: &UnderWay) -> Vec<Unmarked> {
    let Some(index) = week.sessions.iter().position(|session| session.start == under_way.start) else { return Vec::new() };
    let work = session_work(kitchen, week, index, makings);
    let told: Vec<Option<&Told>> = (0..work.origins.len()).map(|job| told_of(&work, makings, under_way, job)).collect();
    let needed: Vec<Link> = work.asked().links.into_iter().filter(|link| is_needed(&work, makings, link)).collect();
    let mut lacking: Vec<Unmarked> = Vec::new();
    for (job, one) in told.iter().enumerate().filter_map(|(job, one)| Some((job, (*one)?))).filter(|(_, one)| under_way.has_done(one)) {
        let open = forerunners(&needed, job).into_iter().filter_map(|other| told[other]).filter(|other| !under_way.has_done(other));
        let before: Vec<Mark> = open.map(|other| other.mark).collect::<BTreeSet<_>>().into_iter().collect();
        match lacking.iter_mut().find(|known| known.before == before) {
            _ if before.is_empty() => {}
            Some(known) => known.done.push(one.mark),
            None => lacking.push(Unmarked { done: vec![one.mark], before }),
        }
    }
    lacking.iter_mut().for_each(|one| one.done.sort_unstable());
    lacking.sort_by_key(|one| one.done.first().copied());
    lacking
}

impl UnderWay {
    fn has_done(&self, told: &Told) -> bool {
        told.done || self.done.contains(&told.mark)
    }
}

fn told_of<'u>(work: &Work, makings: &Makings, under_way: &'u UnderWay, job: usize) -> Option<&'u Told> {
    under_way.told.iter().find(|told| does(work, makings, job, &told.deed))
}

/// Whether the one is made of what the other leaves, or ends the session: else it might be done first, whatever its recipe wants.
fn is_needed(work: &Work, makings: &Makings, link: &Link) -> bool {
    let (before, after) = (work.origins[link.before], work.origins[link.after]);
    let goes_in = |making: usize| makings.makings.get(making).is_some_and(|one| goes_straight_into(one, after.making));
    before.making == after.making || after.part == Part::WashUp || goes_in(before.making)
}

fn goes_straight_into(making: &crate::plan::Making, dish: usize) -> bool {
    making.uses.iter().any(|one| one.kept == Kept::Straight && one.by == User::Making(dish))
}

/// All that comes before the job, by way of any others.
fn forerunners(links: &[Link], job: usize) -> BTreeSet<usize> {
    let (mut found, mut open) = (BTreeSet::new(), vec![job]);
    while let Some(after) = open.pop() {
        let before = links.iter().filter(|link| link.after == after).map(|link| link.before);
        open.extend(before.filter(|before| found.insert(*before)));
    }
    found
}

/// Lets what is done stand, and begins the plan at its minute. The mark of every job.
pub(super) fn stand(work: &mut Work, makings: &Makings, under_way: &UnderWay) -> Vec<Mark> {
    work.problem.now = under_way.now;
    let (mut numbers, mut letters) = (0, 0);
    for told in &under_way.told {
        match told.mark {
            Mark::Number(number) => numbers = numbers.max(number),
            Mark::Letter(letter) => letters = letters.max(letter),
            Mark::None => {}
        }
    }
    let mut marks = Vec::with_capacity(work.origins.len());
    let mut done: Vec<(usize, &Told)> = Vec::new();
    for job in 0..work.origins.len() {
        let Some(told) = told_of(work, makings, under_way, job) else {
            // New since that guide was printed: it comes after all its marks.
            marks.push(match work.origins[job].part {
                Part::Ahead { .. } | Part::Hot => Mark::None,
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
        if under_way.has_done(told) {
            done.push((job, told));
        }
    }
    stand_all(work, done, under_way.now);
    let hot = hot(work, under_way);
    marks.extend(hot.iter().map(|_| Mark::None));
    for heat in hot {
        let machine = heat.on.0;
        let fixed = Fixed { start: heat.start, set_to: Some(heat.at.0), ..Fixed::default() };
        let job = Job {
            making: work.chosen.len() + 1 + work.problem.jobs.len(),
            wait: heat.ready - heat.start,
            machines: vec![(machine, work.problem.machines[machine].room)],
            temperature: Some(heat.at.0),
            uncounted: true,
            fixed: Some(fixed),
            ..Job::default()
        };
        work.problem.jobs.push(job);
        work.origins.push(Origin { making: work.chosen.first().copied().unwrap_or_default(), part: Part::Hot });
    }
    marks
}

/// The last setting of each appliance that is past, where nothing that was on it since tells how hot it is, and nothing stands in it yet.
fn hot(work: &Work, under_way: &UnderWay) -> Vec<SetHeat> {
    let mut hot: Vec<SetHeat> = Vec::new();
    let past =
        under_way.heats.iter().filter(|one| one.start < under_way.now && one.ready > one.start && one.on.0 < work.problem.machines.len());
    for one in past.sorted_by_key(|one| one.start) {
        hot.retain(|earlier| earlier.on != one.on);
        hot.push(one.clone());
    }
    let over = |job: &Job| job.fixed.map(|fixed| fixed.start + job.minutes());
    let since = |one: &SetHeat, job: &Job| {
        job.machines.iter().any(|(machine, _)| *machine == one.on.0) && over(job).is_some_and(|over| over > one.start)
    };
    hot.retain(|one| work.problem.machines[one.on.0].heat.is_some() && !work.problem.jobs.iter().any(|job| since(one, job)));
    hot
}

/// What is done stands as it was told, but ends before whatever done came after it or took its place on an appliance: quicker hands than
/// were planned have been at work, or a pot came off sooner.
fn stand_all(work: &mut Work, mut done: Vec<(usize, &Told)>, now: i64) {
    let links = work.asked().links;
    done.sort_by_key(|(job, told)| std::cmp::Reverse((told.start, *job)));
    let mut later: Vec<(usize, &Told)> = Vec::new();
    for (job, told) in done {
        let jobs = &work.problem.jobs;
        let follows = |other: usize| links.iter().any(|link| (link.before, link.after) == (job, other));
        let comes_after = |(other, then): &&(usize, &Told)| follows(*other) || crowds(work, (job, told), (*other, then));
        let until = later.iter().filter(comes_after).filter_map(|(other, _)| Some(jobs[*other].fixed?.start)).min();
        let person = told.person.as_ref().and_then(|name| work.people.iter().position(|person| person.name == *name));
        let set_to = heat_of(work, job, told).map(|at| at.0);
        stood(&mut work.problem.jobs[job], told.start, (now, until), (person, set_to));
        later.push((job, told));
    }
    // What stands by itself has stood since then, whatever the plan has of it.
    let jobs = &work.problem.jobs;
    for link in work.problem.links.iter_mut().filter(|link| jobs[link.before].fixed.is_some()) {
        let stands = jobs[link.after].hands == 0 && jobs[link.after].machines.is_empty();
        link.within = link.within.filter(|within| *within > 0 || !stands);
    }
    // Whatever its recipe wants before it: it is done.
    work.problem.links.retain(|link| jobs[link.after].fixed.is_none() || jobs[link.before].fixed.is_some());
}

/// Whether two loads cannot be on one appliance at the same time.
fn crowds(work: &Work, (job, told): (usize, &Told), (other, then): (usize, &Told)) -> bool {
    let takes =
        |job: usize, machine: usize| work.problem.jobs[job].machines.iter().find(|(one, _)| *one == machine).map(|(_, takes)| *takes);
    (0..work.problem.machines.len()).any(|machine| {
        let both = takes(job, machine).zip(takes(other, machine));
        both.is_some_and(|(one, two)| {
            one + two > work.problem.machines[machine].room || heat_of(work, job, told) != heat_of(work, other, then)
        })
    })
}

/// What its appliance was set to for it, where that is one for all loads.
fn heat_of(work: &Work, job: usize, told: &Told) -> Option<Celsius> {
    told.at.filter(|_| work.problem.jobs[job].temperature.is_some())
}

/// A job whose hands are done: it began when it was told to, or as late as hands that are done allow. It is over `until` then, where that
/// is said, and without a wait it is over `now`.
fn stood(job: &mut Job, told: i64, (now, until): (i64, Option<i64>), (person, set_to): (Option<usize>, Option<f64>)) {
    let latest = until.unwrap_or(now);
    let start = told.min(latest - job.hands).clamp(0, latest.max(0));
    job.hands = job.hands.min(latest - start);
    let left = latest - start - job.hands;
    if until.is_some() {
        job.wait = job.wait.min(left);
    }
    if until.is_some() || job.wait == 0 {
        job.out = job.out.min(left - job.wait);
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
    let stands = |job: usize| work.problem.jobs[job].fixed.is_some();
    let over = |(task, job): &(Task, Option<usize>)| match job {
        Some(job) => stands(*job) && task.end_minute <= now,
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
    let runs = left.iter().map(|(_, job)| job.is_some_and(stands)).collect();
    (left, Rest { from: now, marks, runs, done, fetched: Vec::new(), boxed: Vec::new() })
}

/// Parts what is fetched for what is still to be begun from what is in use already, and the boxes that are still to be filled from those
/// that are. The shares of the steps that are left are then of what is left.
/// What no step of the session handles was handled ahead of it.
pub(super) fn part(
    tasks: &mut [(Task, Option<usize>)],
    rest: &mut Rest,
    (fetch, said): (&mut Vec<Fetch>, &mut [Said]),
    boxes: &mut Vec<BoxNote>,
) {
    let all = || rest.done.iter().map(|(_, task)| task).chain(tasks.iter().map(|(task, _)| task));
    let handled: Vec<Ware> = all().flat_map(|task| task.uses().iter().map(|(of, _)| *of)).collect();
    let mut used: Vec<(Ware, f64)> = rest.done.iter().flat_map(|(_, task)| task.uses().iter().copied()).collect();
    for ((task, _), _) in tasks.iter_mut().zip(&rest.runs).filter(|(_, runs)| **runs) {
        if let Doing::Step(step) = &mut task.what {
            used.append(&mut step.uses);
        }
    }
    let share = |of: Ware| {
        if handled.contains(&of) { used.iter().filter(|(one, _)| *one == of).map(|(_, share)| share).sum::<f64>() } else { 1.0 }
    };
    for (task, _) in tasks.iter_mut() {
        if let Doing::Step(step) = &mut task.what {
            step.uses.iter_mut().for_each(|(of, part)| *part = (*part / (1.0 - share(*of)).max(NEARLY)).min(1.0));
        }
    }
    // The words of the lines are of all that they ask for.
    for said in said.iter_mut().filter(|said| share(said.of) > NEARLY) {
        said.words = None;
        let left = (1.0 - share(said.of)).max(0.0);
        said.counted = said.counted.take().map(|count| Shares { all: vec![1.0 - left, left], whose: 1 }.of(&count));
        said.poured = said.poured.take().map(|(poured, spoons)| (poured.scaled(left), spoons));
    }
    (*fetch, rest.fetched) = parted(fetch, share);
    let left = |note: &BoxNote| {
        let of = |task: &Task| task.recipe() == Some(note.recipe);
        let begun = rest.done.iter().any(|(_, task)| of(task));
        // Where boxing takes no time, the last step ends in the box.
        !begun || tasks.iter().any(|(task, _)| of(task)) && !rest.done.iter().any(|(_, task)| of(task) && task.is_box())
    };
    let (still, boxed) = std::mem::take(boxes).into_iter().partition(left);
    (*boxes, rest.boxed) = (still, boxed);
}

/// Less than this share of a food is nothing.
const NEARLY: f64 = 1e-6;

/// What is left of each, and what is used: the places that come first are emptied first.
fn parted(fetch: &[Fetch], share: impl Fn(Ware) -> f64) -> (Vec<Fetch>, Vec<Fetch>) {
    let (mut left, mut used) = (Vec::new(), Vec::new());
    for (index, one) in fetch.iter().enumerate() {
        let alike = |other: &&Fetch| other.of == one.of && other.amount.dimension() == one.amount.dimension();
        let whole: f64 = fetch.iter().filter(alike).map(|other| other.amount.base()).sum();
        let before: f64 = fetch[..index].iter().filter(alike).map(|other| other.amount.base()).sum();
        let (share, mine) = (share(one.of), one.amount.base());
        let taken = if mine > 0.0 { ((share * whole - before) / mine).clamp(0.0, 1.0) } else { share };
        let part = |share: f64| Fetch { amount: one.amount.scaled(share), ..one.clone() };
        match taken {
            _ if taken <= NEARLY => left.push(one.clone()),
            _ if taken >= 1.0 - NEARLY => used.push(one.clone()),
            // To taste: there is no half of it.
            _ if mine <= 0.0 => left.push(one.clone()),
            _ => {
                used.push(part(taken));
                left.push(part(1.0 - taken));
            }
        }
    }
    (left, used)
}

#[cfg(test)]
mod tests;
