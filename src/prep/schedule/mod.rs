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
mod changes;
mod close;
mod construct;
mod cost;
mod cut;
mod doers;
mod draw;
mod eject;
mod exact;
mod hands;
mod lag;
mod lists;
mod model;
mod open;
mod order;
mod orders;
mod pool;
mod relax;
mod rooms;
mod search;
mod settings;
mod slower;
mod table;

use self::board::Board;
use self::branch::Steps;
use self::cost::Plan;
use self::model::{FAR, Kind, Model, Rules};
use self::orders::Orders;
use self::search::Goal;
pub use self::slower::{Slower, slower, slower_ends};
use super::{Placed, Problem, Schedule};
use crate::progress;

/// How long the search for the proof may go on, counted in jobs set and solver decisions, never by the clock.
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
            Effort::Low => Limits { placed: 500, lists: 20, set: 4_000, finish: 40_000, steps: 4_000, moves: 1, idle: 7_000 },
            Effort::Normal => {
                Limits { placed: 10_000, lists: 200, set: 150_000, finish: 10_000_000, steps: 80_000, moves: 8, idle: 40_000 }
            }
            Effort::High => Limits {
                placed: 100_000,
                lists: 2_000,
                set: 3_000_000,
                finish: 300_000_000,
                steps: 24_000_000,
                moves: 80,
                idle: 10_000_000,
            },
        }
    }
}

/// How much work each part of the search may take.
#[derive(Debug, Clone, Copy)]
struct Limits {
    /// Jobs placed by rules of priority.
    placed: u64,
    /// Jobs set from lists, for a shorter finish, times the square of the jobs.
    lists: u64,
    /// Jobs set where they push others off, for a shorter finish.
    set: u64,
    /// The solver's work for the least finish, in steps times jobs.
    finish: u64,
    /// The most solver steps for it: what a step costs follows the length of the session as well, and is counted as it comes.
    steps: u64,
    /// Moves, for all that comes after the finish: so many quarters of the square of the jobs.
    moves: usize,
    /// The solver's work for the least idle minutes, in steps times jobs.
    idle: u64,
}

impl Limits {
    /// A step costs about as much as there are jobs, and from some fifty jobs on as much as there are pairs of them; with ovens, more, and
    /// far more where people are told as so many pairs of hands.
    fn finish_steps(self, model: &Model) -> Steps {
        let jobs = model.count() as u64;
        let warm = model.loads.iter().flatten().filter(|load| !load.settings.is_empty()).count() as u64;
        let size = (jobs * jobs.max(50) / 50).max(model.arcs.len() as u64 / 2) + warm * warm / 4;
        let hands = exact::only_hands(model) && model.tasks().any(|task| task.people.len() > 1);
        let named_late = if by_lists(model) { UNLIKE } else { 1 };
        Steps { left: (self.finish / (size * if hands { 8 } else { 1 }).max(1)).min(self.steps) / named_late }
    }

    /// As many makings as there are may each get in the way of each other; in large sessions there is no time for that, and each move
    /// there takes longer, in proportion to the jobs.
    fn moves(self, jobs: usize) -> usize {
        let work = jobs * jobs * jobs / 4;
        self.moves * work.min(MOVED) / jobs.max(1)
    }

    /// A few moves before the solver is asked: the more jobs, the more there is to gain.
    fn first_set(self, jobs: usize) -> u64 {
        (self.set / 3).min(20 * (jobs * jobs) as u64)
    }

    /// In very large sessions there is no time for as many lists a job.
    fn lists(self, jobs: usize) -> u64 {
        self.lists * (jobs * jobs).min(LIST) as u64
    }

    /// Groups of jobs moved together, for changes of order; each takes longer, in proportion to the jobs.
    fn cuts(self, jobs: usize) -> u64 {
        (self.moves * (3 * jobs * jobs).min(CUT / jobs.max(1))) as u64
    }

    /// Proofs that come at all come early in small sessions, and hardly ever in large ones.
    fn idle_steps(self, jobs: usize) -> Steps {
        let jobs = jobs as u64;
        Steps { left: self.idle / jobs.max(1) * 10 / jobs.max(10) }
    }
}

/// Moves times jobs, for one unit of [`Limits::moves`]: enough for all moves in sessions of 60 jobs.
const MOVED: usize = 60_000;

/// Groups times jobs, for one unit of [`Limits::moves`].
const CUT: usize = 100_000;

/// The solver gets so much less, and lists more, of large sessions whose people are not alike: it sees only as many hands as there are, and
/// seldom gains anything there.
const UNLIKE: u64 = 4;

/// Jobs set from lists after the solver, in units of [`Limits::lists`]; where people are not alike.
const LISTS_AFTER: u64 = 4;
const LISTS_UNLIKE: u64 = 8;

/// For one unit of [`Limits::lists`]: enough for sessions of seventy jobs.
const LIST: usize = 5_000;

/// Sessions of more jobs are not told to the solver.
const SOLVED: usize = 160;

/// Sessions of more jobs are not told to the solver for the sake of idle minutes: it hardly ever betters what moves have found.
const SOLVED_IDLE: usize = 14;

/// Sessions of so many jobs get a second round of moves for fewer idle minutes: with fifty it found next to nothing more, and the published
/// shops of a hundred have no time for it.
const LARGE: std::ops::RangeInclusive<usize> = 61..=99;

/// The best plan: it breaks the fewest minutes of limits, finishes first, stands idle least, and so on by [`super::Aim`].
///
/// Where no plan keeps every limit, or none was found that does, `overrun`, `hurried`, `stays`, `unheld` and `clash` tell what is broken;
/// where there is no plan even so, `impossible`. There is always a plan.
pub fn schedule(problem: &Problem, effort: Effort) -> Schedule {
    let limits = effort.limits();
    let strict = ready(problem, Rules::ALL);
    let (first, none) = first_plan(&strict, limits);
    if let Some(plan) = first {
        let (plan, bound) = earliest(&strict, plan, limits);
        let plans = closed_up(&strict, plan, limits);
        return sturdiest(problem, &strict, &plans, bound);
    }
    for kind in [Kind::Hold, Kind::Gap, Kind::Within, Kind::Until, Kind::Safety] {
        let model = ready(problem, Rules::above(kind));
        if model.contradiction && kind != Kind::Safety {
            continue;
        }
        // Often one limit alone is in the way.
        let alone = ready(problem, Rules::but(kind));
        let plan = if alone.contradiction { None } else { construct::construct(&alone, bound::bound(&alone), limits.placed) };
        let plan = plan.map(|plan| Plan::of(&model, plan.seats));
        let plan = plan.or_else(|| construct::construct(&model, bound::bound(&model), limits.placed));
        let Some(plan) = plan else { continue };
        return relaxed(problem, &model, plan, kind, none, limits);
    }
    let model = ready(problem, Rules::NONE);
    told(problem, &model, &Plan::of(&model, relax::in_a_row(&model)), 0)
}

/// A plan that keeps every limit, if one is found; and whether it is proven that there is none.
fn first_plan(strict: &Model, limits: Limits) -> (Option<Plan>, bool) {
    if strict.contradiction {
        return (None, true);
    }
    let bound = bound::bound(strict);
    if let Some(plan) = construct::construct(strict, bound, limits.placed) {
        return (Some(plan), false);
    }
    let horizon = relax::horizon(strict, bound);
    if let Some(plan) = eject::from_nothing(strict, horizon, 5 * limits.set) {
        return (Some(plan), false);
    }
    if strict.count() > SOLVED {
        return (None, false);
    }
    search::any(strict, horizon, &mut limits.finish_steps(strict))
}

/// A plan that breaks limits from `kind` down, each by as little as is found.
fn relaxed(problem: &Problem, model: &Model, plan: Plan, kind: Kind, none: bool, limits: Limits) -> Schedule {
    // A longer plan may break less.
    let roomy = |plan: &Plan| (2 * plan.finish + 60).min(relax::horizon(model, plan.finish));
    let limit = roomy(&plan);
    let mut plan = table::better(model, plan, limit, 5, limits.moves(model.count()));
    let mut bound = bound::bound(model).min(plan.finish);
    let goals = Kind::ALL.into_iter().filter(|&other| other >= kind).map(Goal::Broken).chain([Goal::Finish, Goal::Idle]);
    let share = limits.finish_steps(model).left / 16;
    let mut goals: Vec<(Goal, Steps)> = goals.map(|goal| (goal, Steps { left: share })).collect();
    if model.count() <= SOLVED {
        let horizon = relax::horizon(model, plan.finish);
        let found = search::least(model, plan, &mut goals, (bound, horizon), horizon);
        plan = found.plan;
        let proven = goals.iter().zip(&found.least).all(|((goal, _), least)| goal.value(&plan) <= *least || *goal == Goal::Idle);
        if let (true, Some(finish)) = (proven, found.least.get(goals.len() - 2)) {
            bound = *finish;
        }
    }
    let limit = roomy(&plan);
    plan = table::better(model, plan, limit, 6, limits.moves(model.count()));
    plan = sooner(problem, model, plan, limits);
    let hours = plan.cost.broken[Kind::Until as usize] == 0;
    let mut told = told(problem, model, &plan, bound.min(plan.finish));
    let mut steps = Steps { left: limits.finish_steps(model).left / 10 };
    let (clash, with_hours) = relax::clash(problem, hours, &plan, &mut steps);
    told.none_keeps_all = none;
    // Without a clash that is proven, what is broken is named where it is proven that no plan keeps every limit; with it the hours that are
    // overrun as well.
    let known = !clash.is_empty();
    told.clash = if !known && none { relax::broken_limits(&told) } else { clash };
    told.clash_with_hours = with_hours || (!known && !hours && !told.clash.is_empty());
    told
}

/// The plan made shorter with what it breaks allowed to it, and nothing else.
fn sooner(problem: &Problem, model: &Model, plan: Plan, limits: Limits) -> Plan {
    let loose = ready(&relax::loosened(problem, model, &plan.seats), Rules::ALL);
    if loose.contradiction {
        return plan;
    }
    let known = Plan::of(&loose, plan.seats.clone());
    let first = construct::construct(&loose, bound::bound(&loose), limits.placed).filter(|first| first.cost < known.cost).unwrap_or(known);
    let (shorter, _) = earliest(&loose, first, limits);
    let shorter = closed_up(&loose, shorter, limits).into_iter().map(|plan| Plan::of(model, plan.seats)).next();
    shorter.filter(|shorter| shorter.cost < plan.cost).unwrap_or(plan)
}

fn ready(problem: &Problem, rules: Rules) -> Model {
    let mut model = Model::new(problem, rules);
    let blank = model.clone();
    let board = Board::new(&blank);
    model.settle(|job, from| board.earliest(job, from, FAR));
    model
}

/// The plan with fewer idle minutes and all that comes after, as far as the limits reach, and others as good.
fn closed_up(model: &Model, plan: Plan, limits: Limits) -> Vec<Plan> {
    let limit = model.counting(plan.finish);
    let moves = limits.moves(model.count());
    let mut plans = table::better_ones(model, by_hands(model, plan, limit, limits), limit, 3, moves * 2 / 5);
    let plan = &plans[0];
    if plan.cost.idle > 0 && model.count() <= SOLVED_IDLE {
        let mut goals = [(Goal::Idle, limits.idle_steps(model.count()))];
        let horizon = last_end(model, plan).max(limit);
        let found = search::least(model, plan.clone(), &mut goals, (0, limit), horizon).plan;
        if found.cost.idle < plan.cost.idle {
            plans = table::better_ones(model, found, limit, 4, moves / 2);
        }
    }
    plans
}

/// Percent by which hands may be slower: how far up a plan breaks no limit tells how sturdy it is.
const STEADY: [i64; 8] = [5, 10, 15, 20, 30, 50, 75, 100];

/// Of plans as good, the one whose limits break latest as hands get slower; of those the first.
fn sturdiest(problem: &Problem, model: &Model, plans: &[Plan], bound: i64) -> Schedule {
    let told: Vec<Schedule> = plans.iter().map(|plan| told(problem, model, plan, bound)).collect();
    let steady = |plan: &Schedule| STEADY.into_iter().take_while(|&percent| slower(problem, plan, percent).breaks.is_empty()).count();
    let one_alone = told.len() == 1;
    told.into_iter().min_by_key(|plan| if one_alone { 0 } else { STEADY.len() - steady(plan) }).unwrap_or_default()
}

/// The plan with fewer idle minutes, people told as so many pairs of hands where they are alike: by moves, then by changes of order.
fn by_hands(model: &Model, plan: Plan, limit: i64, limits: Limits) -> Plan {
    let Some(pooled) = pool::pooled(model) else { return fewer_idle(model, plan, limit, limits) };
    let found = fewer_idle(&pooled, pool::unnamed(&pooled, &plan), limit, limits);
    pool::named(model, &found).filter(|found| found.cost < plan.cost).unwrap_or(plan)
}

fn fewer_idle(model: &Model, plan: Plan, limit: i64, limits: Limits) -> Plan {
    let moves = limits.moves(model.count());
    let mut plan = table::better(model, plan, limit, 2, moves * 2 / 5);
    if plan.cost.idle > 0 && LARGE.contains(&model.count()) {
        plan = table::better(model, plan, limit, 8, moves * 6 / 5);
    }
    let window = (limit, last_end(model, &plan).max(limit));
    match Orders::new(model, &plan.seats, window, 7) {
        Some(mut orders) if plan.cost.idle > 0 => orders.search(plan, limits.cuts(model.count()), table::SLACK),
        _ => plan,
    }
}

fn last_end(model: &Model, plan: &Plan) -> i64 {
    plan.seats.iter().zip(&model.minutes).map(|(seat, minutes)| seat.start + minutes).max().unwrap_or(0)
}

/// The plan of least finish as far as the limits reach, and the least finish that is not ruled out: a few moves and lists, then the
/// solver, which goes on from what it learned; more of both for what is too large for it or too hard.
fn earliest(model: &Model, plan: Plan, limits: Limits) -> (Plan, i64) {
    let mut bound = bound::bound(model).min(plan.finish);
    progress::reached(plan.finish, bound);
    let mut plan = eject::shorten(model, plan, bound, limits.first_set(model.count()));
    if model.count() >= construct::LISTED {
        plan = lists::shorten(model, plan, bound, limits.lists(model.count()));
    }
    if bound < plan.finish && model.count() <= SOLVED {
        let horizon = relax::horizon(model, plan.finish);
        let mut goals = [(Goal::Finish, limits.finish_steps(model))];
        let finish = plan.finish;
        let found = search::least(model, plan, &mut goals, (bound, finish), horizon);
        bound = found.least.first().copied().unwrap_or(bound).max(bound);
        plan = found.plan;
    }
    progress::reached(plan.finish, bound);
    let shares = if by_lists(model) { LISTS_UNLIKE } else { LISTS_AFTER };
    let plan = lists::shorten(model, plan, bound, shares * limits.lists(model.count()));
    progress::reached(plan.finish, bound);
    (eject::shorten(model, plan, bound, limits.set), bound)
}

/// Whether lists find more than the solver does.
fn by_lists(model: &Model) -> bool {
    exact::only_hands(model) && !pool::alike(model)
}

/// The finish and its bound alone, in minutes: as [`schedule`] without the search for what comes after.
pub fn least_finish(problem: &Problem, effort: Effort) -> (i64, i64) {
    let limits = effort.limits();
    let strict = ready(problem, Rules::ALL);
    match first_plan(&strict, limits).0 {
        Some(plan) => {
            let (plan, bound) = earliest(&strict, plan, limits);
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
    let person = |job: usize, seat: Option<usize>, out: bool| {
        let fixed = problem.jobs[job].fixed.and_then(|fixed| if out { fixed.out_person } else { fixed.person });
        seat.or(fixed)
    };
    let placed = plan.seats.iter().zip(set_to).enumerate().map(|(job, (seat, set_to))| Placed {
        start: seat.start,
        person: person(job, seat.hands, false),
        out_person: person(job, seat.out, true),
        set_to,
    });
    let mut told = Schedule { placed: placed.collect(), finish: plan.finish, bound, proven: bound == plan.finish, ..Schedule::default() };
    relax::tell(problem, model, &plan.seats, &settings, &mut told);
    told.settings = settings;
    told
}

#[cfg(test)]
mod tests;
