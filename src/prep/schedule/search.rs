//! Search for the best plan by one goal after another, and for the proof that there is none better, within a number of solver steps.
//!
//! Few idle minutes, hand-overs, helpers' minutes and turns are sought by one engine of moves (`schedule/table.rs`): a
//! few makings are taken off the plan and set again, and neighbours change places (`schedule/orders.rs`). The solver
//! settles the idle minutes of sessions up to fourteen tasks.

use std::cell::Cell;
use std::rc::Rc;

use pumpkin_solver::conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::results::{SatisfactionResultUnderAssumptions, Solution};
use pumpkin_solver::core::variables::{DomainId, TransformableVariable};

use super::board::Seat;
use super::branch::{Guide, Steps, Stop};
use super::changes;
use super::cost::Plan;
use super::exact::Exact;
use super::model::{Kind, Model};
use crate::progress;

/// What the solver says to "is there a plan under these assumptions?".
pub(super) enum Answer {
    Plan(Vec<Seat>),
    None,
    /// The steps ran out, or it would have had to remember too much.
    Unknown,
}

/// A solver with its search: asked again and again, it keeps what it learned.
pub(super) struct Searcher<'a> {
    pub exact: Exact<'a>,
    guide: Guide,
    resolver: ResolutionResolver,
    /// Changes of bounds that are not yet counted as steps.
    changes: Rc<Cell<u64>>,
    /// No plan at all, whatever is assumed: the solver must not be asked again.
    hopeless: bool,
}

impl<'a> Searcher<'a> {
    /// `known` is a plan to begin from, if there is one.
    pub fn new(mut exact: Exact<'a>, known: Option<&[Seat]>) -> Searcher<'a> {
        let known = known.map_or(Vec::new(), |seats| exact.known_values(seats));
        let guide = Guide::new(known, exact.starts.clone(), exact.others.clone());
        let changes = changes::counted(&mut exact.solver, &[&exact.starts[..], &exact.others[..]].concat());
        Searcher { exact, guide, resolver: ResolutionResolver::default(), changes, hopeless: false }
    }

    /// Takes at most `share` of the steps left.
    pub fn ask(&mut self, assumptions: &[Predicate], steps: &mut Steps, share: u64) -> Answer {
        if self.hopeless || self.exact.solver.is_inconsistent() {
            return Answer::None;
        }
        if self.exact.too_much() {
            return Answer::Unknown;
        }
        let given = share.min(steps.left).max(1);
        self.guide.decided.set(false);
        let (decided, seen, changes) = (self.guide.decided.clone(), self.guide.seen.clone(), self.changes.clone());
        // Every question is put from the beginning: all that is assumed and known is gone through once more.
        let asked = (self.exact.starts.len() as u64 / 2).min(given / 8);
        let asked = if assumptions.is_empty() { 0 } else { asked };
        let mut part = Stop { left: given - asked, decided, seen, changes };
        let solver = &mut self.exact.solver;
        let solution: Option<Solution> = match solver.satisfy_under_assumptions(&mut self.guide, &mut part, &mut self.resolver, assumptions)
        {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => Some(found.solution().into()),
            SatisfactionResultUnderAssumptions::Unknown(_) => {
                steps.left = steps.left.saturating_sub(given);
                return Answer::Unknown;
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_) => None,
            SatisfactionResultUnderAssumptions::Unsatisfiable(_) => {
                self.hopeless = true;
                None
            }
        };
        steps.left = steps.left.saturating_sub(given - part.left);
        let Some(solution) = solution else { return Answer::None };
        self.exact.read(solution.as_reference()).map_or(Answer::Unknown, Answer::Plan)
    }

    /// From a value known to be reached downwards, then from `least` upwards, until both meet or the steps are spent.
    /// `told` hears of each step. Returns the best plan found, if any was better, and the least value not ruled out.
    pub fn minimise(
        &mut self,
        of: DomainId,
        (value, told): (impl Fn(&[Seat]) -> i64, impl Fn((i64, i64))),
        mut range: (i64, i64),
        steps: &mut Steps,
    ) -> (Option<Vec<Seat>>, i64) {
        let mut best = None;
        let up_to = |most: i64| [of.upper_bound_predicate(most as i32)];
        let share = steps.left / 4 * 3;
        while range.0 < range.1 && steps.left > 1 {
            match self.ask(&up_to(range.1 - 1), steps, share) {
                Answer::Plan(seats) => {
                    range.1 = value(&seats).min(range.1 - 1);
                    best = Some(seats);
                }
                Answer::None => range.0 = range.1,
                Answer::Unknown => break,
            }
            told(range);
        }
        while range.0 < range.1 && steps.left > 1 {
            match self.ask(&up_to(range.0), steps, u64::MAX) {
                Answer::Plan(seats) => {
                    range.1 = range.0;
                    best = Some(seats);
                }
                Answer::None => range.0 += 1,
                Answer::Unknown => break,
            }
            told(range);
        }
        (best, range.0)
    }
}

/// What is to be least, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Goal {
    Broken(Kind),
    Finish,
    Idle,
}

impl Goal {
    pub fn value(self, plan: &Plan) -> i64 {
        match self {
            Goal::Broken(kind) => plan.cost.broken[kind as usize],
            Goal::Finish => plan.finish,
            Goal::Idle => plan.cost.idle,
        }
    }
}

/// Any plan that keeps the model's rules; and whether it is proven that there is none.
pub(super) fn any(model: &Model, horizon: i64, steps: &mut Steps) -> (Option<Plan>, bool) {
    let Some(exact) = Exact::new(model, 0, horizon, horizon) else { return (None, true) };
    match Searcher::new(exact, None).ask(&[], steps, u64::MAX) {
        Answer::Plan(seats) => (Some(Plan::of(model, seats)), false),
        Answer::None => (None, true),
        Answer::Unknown => (None, false),
    }
}

/// What came of a search: a plan, and for each goal the least value that is not ruled out.
pub(super) struct Found {
    pub plan: Plan,
    pub least: Vec<i64>,
}

/// The plan that is least by each goal in turn, from one known, as far as the steps of each reach. `horizon`: the last end of anything;
/// `finish`: the least finish that sums do not rule out, and the latest looked for.
pub(super) fn least(model: &Model, known: Plan, goals: &mut [(Goal, Steps)], finish: (i64, i64), horizon: i64) -> Found {
    let mut found = Found { plan: known, least: Vec::new() };
    let Some(exact) = Exact::new(model, finish.0, finish.1, horizon) else { return found };
    let mut searcher = Searcher::new(exact, Some(&found.plan.seats));
    for (place, (goal, steps)) in goals.iter_mut().enumerate() {
        let goal = *goal;
        let value = |plan: &Plan| goal.value(plan);
        let now = value(&found.plan);
        let (of, floor) = match goal {
            Goal::Broken(kind) => (searcher.exact.broken(kind, now), 0),
            Goal::Finish => (searcher.exact.finish, finish.0.min(now)),
            Goal::Idle => searcher.exact.idle(now),
        };
        if place == 0 && floor < now && !matches!(searcher.ask(&[], steps, u64::MAX), Answer::Plan(_)) {
            return found;
        }
        let seats_value = |seats: &[Seat]| value(&Plan::of(model, seats.to_vec()));
        let told = |range: (i64, i64)| {
            if goal == Goal::Finish {
                progress::reached(range.1, range.0);
            }
        };
        let (better, least) = searcher.minimise(of, (seats_value, told), (floor.min(now), now), steps);
        if let Some(seats) = better {
            found.plan = Plan::of(model, seats);
        }
        found.least.push(least);
        searcher.exact.at_most(vec![of.scaled(1)], value(&found.plan));
    }
    found
}
