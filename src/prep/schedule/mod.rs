//! The plan of least finish: a first plan by rules of priority, bounds by sums, and a constraint solver for what lies between.
//!
//! # The question
//!
//! A job is hands, then at once its wait, then at once out; it holds its machines from start to end, and one person each for hands and
//! for out. The finish is the last end of anything; it is to be least. Among the plans of least finish the *idle minutes* are to be least:
//! for each job and the next job of its making, in the jobs' order, the minutes from the end of the one to the start of the other
//! (nothing where they overlap), summed up.
//!
//! # Ovens
//!
//! The loads of a machine with heat fall into runs, one after another; within a run the highest and the lowest temperature differ by at
//! most `near` and the lowest is set. Said per load: it stands in one of the settings at most `near` below what it wants, and two loads in
//! different settings lie a warm-up apart. That is the same thing: runs in one setting, one after the other, are one run, and loads that
//! overlap in a chain must all share a setting. Two loads that never overlap may so share a lower setting and save the warm-up between
//! them. A load without a temperature may stand in any run, or in the cold oven, but not in one that warms up. When everybody leaves, the
//! oven is off: the next load needs a warm-up again.
//!
//! # The answer
//!
//! `proven` is set only where a bound or the solver says that no plan is shorter. Effort is counted in jobs placed and solver steps, never
//! by the clock, so the same question has the same answer on every machine.

mod board;
mod bound;
mod branch;
mod construct;
mod exact;
mod hands;
mod idle;
mod improve;
mod lag;
mod model;
mod order;
mod relax;
mod reseat;
mod rooms;
mod search;
mod settings;

use self::board::Board;
use self::branch::Steps;
use self::construct::Plan;
use self::model::{FAR, Model, Rules};
use super::{LinkWhy, Placed, Problem, Schedule};

/// How long the search for the proof may go on, counted in solver decisions, never by the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Effort {
    Low,
    #[default]
    Normal,
    High,
}

impl Effort {
    fn limits(self) -> Limits {
        match self {
            Effort::Low => Limits { placed: 2_000, finish: 40_000, moved: 1_000, idle: 7_000 },
            Effort::Normal => Limits { placed: 60_000, finish: 2_500_000, moved: 300_000, idle: 500_000 },
            Effort::High => Limits { placed: 600_000, finish: 300_000_000, moved: 600_000, idle: 10_000_000 },
        }
    }
}

/// The part of the solver's work that goes into a plan which cannot hold every rule.
const RELAXED: u64 = 10;

/// How much work each part of the search may take.
#[derive(Debug, Clone, Copy)]
struct Limits {
    /// Jobs placed by rules of priority.
    placed: u64,
    /// The solver's work for the least finish, in steps times jobs.
    finish: u64,
    /// Jobs placed anew for fewer idle minutes.
    moved: u64,
    /// The solver's work for the least idle minutes, in steps times jobs.
    idle: u64,
}

impl Limits {
    /// A step costs about as much as there are jobs, and from some fifty jobs on as much as there are pairs of them.
    fn finish_steps(self, jobs: usize) -> Steps {
        let jobs = jobs as u64;
        Steps { left: self.finish / jobs.max(1) * 50 / jobs.max(50) }
    }

    /// Proofs that come at all come early in small sessions, and hardly ever in large ones.
    fn idle_steps(self, jobs: usize) -> Steps {
        let jobs = jobs as u64;
        Steps { left: self.idle / jobs.max(1) * 10 / jobs.max(10) }
    }
}

/// The plan of least finish, and of the least idle minutes within makings among those.
///
/// Where no plan holds every rule, the one that overruns `within` of recipes by the fewest minutes, marked in `overrun` and `clash`; where
/// even that is not to be had, a plan that breaks the rules named in `impossible`. There is always a plan.
pub fn schedule(problem: &Problem, effort: Effort) -> Schedule {
    let limits = effort.limits();
    let mut steps = limits.finish_steps(problem.jobs.len());
    let strict = ready(problem, Rules::ALL);
    if let Some(plan) = improve::construct(&strict, bound::bound(&strict), limits.placed) {
        return finished(problem, &strict, plan, &mut steps, limits);
    }
    for rules in relax::GIVING_WAY {
        let model = ready(problem, rules);
        let Some(plan) = improve::construct(&model, bound::bound(&model), limits.placed / 4) else { continue };
        // Plans of great length: a step takes many times as long as in a plan that holds every rule.
        let (mut part, idle) = (Steps { left: steps.left / RELAXED }, Steps { left: limits.idle_steps(model.count()).left / RELAXED });
        let (plan, bound) = relax::least_overrun(problem, &model, plan, &mut part, idle);
        let kept = rules.hours && model.impossible.is_empty() && relax::overruns(problem, &model, &plan.seats).is_empty();
        if kept {
            return finished(problem, &strict, plan, &mut steps, limits);
        }
        let (clash, clash_with_hours) = relax::clash(problem, rules.hours, &plan, &mut Steps { left: steps.left / RELAXED });
        let told = told(problem, &model, &plan, bound);
        // Where the steps do not reach, what is overrun is all that is known.
        let clash = if clash.is_empty() { told.overrun.iter().map(|(link, _)| *link).collect() } else { clash };
        return Schedule { clash, clash_with_hours, ..told };
    }
    let model = ready(problem, Rules::NONE);
    told(problem, &model, &Plan::of(&model, relax::in_a_row(&model)), 0)
}

fn ready(problem: &Problem, rules: Rules) -> Model {
    let mut model = Model::new(problem, rules);
    let blank = model.clone();
    let board = Board::new(&blank);
    model.settle(|job, from| board.earliest(job, from, FAR));
    model
}

/// A plan that holds every rule, improved as far as the limits reach.
fn finished(problem: &Problem, model: &Model, plan: Plan, steps: &mut Steps, limits: Limits) -> Schedule {
    let (mut plan, bound) = earliest(model, plan, steps);
    plan = improve::close_up(model, plan);
    plan = reseat::reseat(model, plan, limits.moved);
    plan = idle::least_idle(model, plan, &mut limits.idle_steps(model.count()), |_| {});
    told(problem, model, &plan, bound)
}

/// The plan of least finish as far as the steps reach, and the least finish that is not ruled out.
fn earliest(model: &Model, plan: Plan, steps: &mut Steps) -> (Plan, i64) {
    let bound = bound::bound(model).min(plan.finish);
    if bound < plan.finish { search::least_finish(model, plan, bound, steps) } else { (plan, bound) }
}

/// The finish and its bound alone, in minutes: as [`schedule`] without the search for few idle minutes.
pub fn least_finish(problem: &Problem, effort: Effort) -> (i64, i64) {
    let limits = effort.limits();
    let strict = ready(problem, Rules::ALL);
    match improve::construct(&strict, bound::bound(&strict), limits.placed) {
        Some(plan) => {
            let (plan, bound) = earliest(&strict, plan, &mut limits.finish_steps(problem.jobs.len()));
            (plan.finish, bound)
        }
        None => {
            let plan = schedule(problem, effort);
            (plan.finish, plan.bound)
        }
    }
}

fn told(problem: &Problem, model: &Model, plan: &Plan, bound: i64) -> Schedule {
    let (set_to, settings) = settings::settings(problem, model, &plan.seats);
    let placed =
        plan.seats.iter().zip(set_to).map(|(seat, set_to)| Placed { start: seat.start, person: seat.hands, out_person: seat.out, set_to });
    let mut overrun = relax::overruns(problem, model, &plan.seats);
    overrun.retain(|(link, _)| problem.links[*link].why == LinkWhy::Within);
    overrun.sort_unstable();
    let impossible = relax::broken(problem, model, &plan.seats, &settings);
    Schedule {
        placed: placed.collect(),
        settings,
        finish: plan.finish,
        bound,
        proven: bound == plan.finish,
        overrun,
        clash: Vec::new(),
        clash_with_hours: false,
        impossible,
    }
}
