//! From the makings of one session to a problem for the scheduler, remembering what each job is.

use jiff::civil::DateTime;

use super::boxes::ASIDE_MINUTES;
use super::boxes::boxed_with_the_rest;
use super::elsewhere::as_found;
use super::fill::loads_needed;
use super::links::{last_of, link_all};
use super::names::handles_raw;
use super::rounds::rounds;
use super::theirs::{Brings, put_theirs_first};
use super::{Aim, Heat, Job, JobKind, Link, LinkWhy, Machine, Problem, Serve, Worker};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Person, Recipe, Rules, Session, Step, Week};
use crate::plan::{MadeAt, Making, Makings, User, paced, set_aside_before, straight_meals};

/// What a job of the problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Origin {
    /// Index into [`Makings::makings`].
    pub making: usize,
    pub part: Part,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// Step, round and takes; step and round count from 0.
    Step {
        step: usize,
        round: usize,
        rounds: usize,
        takes: i64,
    },
    Box,
    /// Of the whole session; its making is that of no recipe.
    WashUp,
    /// An oven that was set before the plan begins, until it is hot.
    Hot,
    /// A step done ahead, as far as the session waits for it: over when the session begins.
    Ahead {
        step: usize,
    },
    /// The place in [`Making::apart`], and the step that it comes before.
    Aside {
        of: usize,
        before: usize,
    },
}

/// A step that nobody in the session may do; everybody is planned for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Unfit {
    pub making: usize,
    pub step: usize,
}

/// What goes straight from the pot to its meals.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ServedHot {
    /// Its last job, and the others that nothing of it comes after.
    pub last: usize,
    pub others: Vec<usize>,
    /// By time.
    pub meals: Vec<DateTime>,
    /// In minutes: the most from the end of its last job to a meal.
    pub hold: i64,
}

/// What a meal of the session's own day eats, and not straight from the pot.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ReadyFor {
    /// The jobs that nothing of it but its boxing comes after.
    pub jobs: Vec<usize>,
    /// The first that eats it.
    pub meal: DateTime,
}

/// One session's question to the scheduler.
#[derive(Debug, Clone)]
pub(super) struct Work {
    pub problem: Problem,
    /// One a job.
    pub origins: Vec<Origin>,
    /// The session's makings: indices into [`Makings::makings`].
    pub chosen: Vec<usize>,
    /// The workers' names and roles.
    pub people: Vec<Person>,
    pub unfit: Vec<Unfit>,
    /// The jobs that bring what an eater is allergic to.
    pub brings: Vec<Brings>,
    pub served: Vec<ServedHot>,
    pub ready: Vec<ReadyFor>,
}

impl Work {
    /// The question as it is asked. All rounds of a step but the last fill the appliance, so they follow one another in any plan: the
    /// fullest first. Those links stand after all others.
    pub fn asked(&self) -> Problem {
        let mut problem = self.problem.clone();
        let rounds = self.origins.windows(2).enumerate().filter(|(_, pair)| match (pair[0].part, pair[1].part) {
            (Part::Step { step: before, .. }, Part::Step { step: after, .. }) => pair[0].making == pair[1].making && before == after,
            _ => false,
        });
        let follow = |(before, _): (usize, &[Origin])| Link { before, after: before + 1, gap: 0, within: None, why: LinkWhy::Order };
        problem.links.extend(rounds.map(follow));
        problem
    }
}

/// The jobs, people, appliances and links of session `index`.
pub(super) fn session_work(kitchen: &Kitchen, week: &Week, index: usize, makings: &Makings) -> Work {
    let session = &week.sessions[index];
    let found = as_found(kitchen, session);
    let kitchen = &*found;
    let people = people_of(session);
    let workers = people.iter().map(|person| worker(person, session)).collect();
    let problem = Problem { people: workers, machines: machines(kitchen), aim: aim(session), ..Problem::default() };
    let chosen: Vec<usize> = makings.makings.iter().enumerate().filter(|(_, m)| m.at == MadeAt::Session(index)).map(|(i, _)| i).collect();
    let mut work =
        Work { problem, origins: Vec::new(), chosen, people, unfit: Vec::new(), brings: Vec::new(), served: Vec::new(), ready: Vec::new() };
    for number in 0..work.chosen.len() {
        add_making(kitchen, makings, number, &mut work);
    }
    link_all(kitchen, makings, &mut work);
    serve_all(&kitchen.recipes, week, session, makings, &mut work);
    ready_for_meals(&kitchen.recipes, week, session, makings, &mut work);
    put_theirs_first(kitchen, week, makings, &mut work);
    add_wash_up(&kitchen.rules, &mut work);
    work
}

/// What goes straight from the pot to a meal ends with it, not with the session: its last step at most its `hold` before the meal, the
/// others by then. Where it serves several, it is ready for the first, and as late as the last of them wants.
fn serve_all(recipes: &[Recipe], week: &Week, session: &Session, makings: &Makings, work: &mut Work) {
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
fn ready_for_meals(recipes: &[Recipe], week: &Week, session: &Session, makings: &Makings, work: &mut Work) {
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

/// A calm session keeps the last tenth of its time free.
fn aim(session: &Session) -> Aim {
    match (session.aim, session.finish_by) {
        (crate::kitchen::Aim::Calm, Some(by)) => {
            let minutes = by.duration_since(session.start).as_secs().div_euclid(60);
            Aim::Calm { by: minutes - minutes / 10 }
        }
        _ => Aim::Soonest,
    }
}

/// A session without people is done by one cook.
fn people_of(session: &Session) -> Vec<Person> {
    if !session.people.is_empty() {
        return session.people.clone();
    }
    vec![Person { name: "cook".into(), role: "cook".into(), from: None, until: None, may: None }]
}

fn worker(person: &Person, session: &Session) -> Worker {
    let minutes = |at: jiff::civil::DateTime| at.duration_since(session.start).as_secs().div_euclid(60);
    Worker { from: person.from.map_or(0, |from| minutes(from).max(0)), until: person.until.map(minutes), helper: person.may.is_some() }
}

fn machines(kitchen: &Kitchen) -> Vec<Machine> {
    let heat = |near, warm_up| Heat { near, warm_up };
    kitchen
        .appliances
        .iter()
        // Only what heats must be watched: a fridge or a cellar runs while nobody is there.
        .map(|a| Machine { room: i64::from(a.room).max(1), heat: a.heat.then(|| heat(a.near, a.warm_up.0)), watched: a.heats() })
        .collect()
}

fn add_making(kitchen: &Kitchen, makings: &Makings, number: usize, work: &mut Work) {
    let index = work.chosen[number];
    let making = &makings.makings[index];
    let recipe = &kitchen.recipes[making.recipe];
    for (position, step) in recipe.steps.iter().enumerate().filter(|(_, step)| step.ahead.is_none()) {
        let people = fit_people(&work.people, step, &kitchen.appliances).unwrap_or_else(|| {
            work.unfit.push(Unfit { making: index, step: position });
            (0..work.people.len()).collect()
        });
        let wash = if handles_raw(&kitchen.foods, recipe, position) { kitchen.rules.wash.0 } else { 0 };
        let rounds = rounds(kitchen, step, making.batches.to_f64(), loads_needed(kitchen, recipe, step, making.batches.to_f64()), wash);
        for (round, load) in rounds.iter().enumerate() {
            let takes = load.takes;
            work.origins.push(Origin { making: index, part: Part::Step { step: position, round, rounds: rounds.len(), takes } });
            work.problem.jobs.push(step_job(&kitchen.appliances, step, number, load.hands, takes, people.clone()));
        }
    }
    for (of, apart) in making.apart.iter().enumerate() {
        if let Some(before) = set_aside_before(kitchen, making, apart) {
            work.origins.push(Origin { making: index, part: Part::Aside { of, before } });
            work.problem.jobs.push(aside_job(number, work.people.len()));
        }
    }
    if let Some(hands) = boxing(kitchen, making) {
        work.origins.push(Origin { making: index, part: Part::Box });
        work.problem.jobs.push(box_job(number, hands, work.people.len()));
    }
}

fn step_job(appliances: &[Appliance], step: &Step, making: usize, hands: i64, takes: i64, people: Vec<usize>) -> Job {
    let heated = step.on.iter().any(|id| appliances[*id].heat);
    Job {
        kind: JobKind::Step,
        making,
        hands,
        wait: step.waits(appliances),
        out: out_of(appliances, step),
        machines: held(&step.on).into_iter().map(|id| (id.0, takes)).collect(),
        temperature: step.temperature.filter(|_| heated).map(|t| t.0),
        people,
        ..Job::default()
    }
}

/// Each appliance once, whatever the list repeats.
fn held(on: &[ApplianceId]) -> Vec<ApplianceId> {
    let mut held: Vec<ApplianceId> = Vec::with_capacity(on.len());
    for id in on {
        if !held.contains(id) {
            held.push(*id);
        }
    }
    held
}

/// A load is taken out when its wait ends; a step without a wait leaves nothing standing. Of several appliances the slowest counts.
fn out_of(appliances: &[Appliance], step: &Step) -> i64 {
    if step.wait.0 == 0 {
        return 0;
    }
    step.on.iter().map(|id| appliances[*id].out.0).max().unwrap_or(0)
}

/// The hands-on minutes of the box task, or `None` where there is none.
fn boxing(kitchen: &Kitchen, making: &Making) -> Option<i64> {
    let rules = &kitchen.rules;
    let is_any = boxed_with_the_rest(kitchen, making).next().is_some();
    (is_any && rules.boxing.0 > 0).then(|| paced(rules.boxing.0 as f64, rules.pace))
}

fn box_job(making: usize, hands: i64, people: usize) -> Job {
    Job {
        kind: JobKind::Box,
        making,
        hands,
        wait: 0,
        out: 0,
        machines: vec![],
        temperature: None,
        people: (0..people).collect(),
        ..Job::default()
    }
}

/// A minute of anybody's hands.
fn aside_job(making: usize, people: usize) -> Job {
    Job { kind: JobKind::Step, making, hands: ASIDE_MINUTES, people: (0..people).collect(), ..Job::default() }
}

/// Once at the end of a session, after everything. It counts to the finish, unless it waits for a dish that is served straight from the pot: what is done beside the meal
/// the finish leaves out.
fn add_wash_up(rules: &Rules, work: &mut Work) {
    let problem = &mut work.problem;
    if rules.wash_up.0 == 0 || problem.jobs.is_empty() {
        return;
    }
    let after = problem.jobs.len();
    let served_only = problem.jobs.iter().all(|job| job.uncounted);
    let uncounted = !served_only && problem.jobs.iter().any(|job| job.uncounted && job.fixed.is_none());
    let followed = |job: usize| problem.links.iter().any(|link| link.before == job);
    let last: Vec<usize> = (0..after).filter(|&job| !followed(job)).collect();
    problem.links.extend(last.into_iter().map(|before| Link { before, after, gap: 0, within: None, why: LinkWhy::Order }));
    work.origins.push(Origin { making: usize::MAX, part: Part::WashUp });
    let hands = paced(rules.wash_up.0 as f64, rules.pace);
    let people = (0..work.people.len()).collect();
    problem.jobs.push(Job { making: work.chosen.len(), hands, people, uncounted, ..Job::default() });
}

/// Who has the role and the skills that the step asks for; `None` where nobody has.
fn fit_people(people: &[Person], step: &Step, appliances: &[Appliance]) -> Option<Vec<usize>> {
    let can = |person: &Person| person.can_do(step, appliances);
    let fit: Vec<usize> = people.iter().enumerate().filter(|(_, person)| can(person)).map(|(i, _)| i).collect();
    (!fit.is_empty()).then_some(fit)
}

#[cfg(test)]
mod tests;
