//! Search for the plan of least finish, and for the proof that there is none shorter, within a number of solver steps.

use pumpkin_solver::conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::results::{SatisfactionResultUnderAssumptions, Solution};
use pumpkin_solver::core::variables::DomainId;

use super::board::Seat;
use super::branch::{Guide, Steps, Stop};
use super::construct::Plan;
use super::exact::Exact;
use super::model::Model;

/// What the solver says to "is there a plan under these assumptions?".
pub(super) enum Answer {
    Plan(Vec<Seat>),
    None,
    /// The steps ran out.
    Unknown,
}

/// A solver with its search: asked again and again, it keeps what it learned.
pub(super) struct Searcher<'a> {
    pub exact: Exact<'a>,
    guide: Guide,
    resolver: ResolutionResolver,
    /// No plan at all, whatever is assumed: the solver must not be asked again.
    hopeless: bool,
}

impl<'a> Searcher<'a> {
    /// `known` is a plan to begin from, if there is one.
    pub fn new(exact: Exact<'a>, known: Option<&[Seat]>) -> Searcher<'a> {
        let known = known.map_or(Vec::new(), |seats| exact.known_values(seats));
        let guide = Guide::new(known, exact.starts.clone(), exact.others.clone());
        Searcher { exact, guide, resolver: ResolutionResolver::default(), hopeless: false }
    }

    /// Takes at most `share` of the steps left.
    pub fn ask(&mut self, assumptions: &[Predicate], steps: &mut Steps, share: u64) -> Answer {
        if self.hopeless || self.exact.solver.is_inconsistent() {
            return Answer::None;
        }
        let given = share.min(steps.left);
        self.guide.decided.set(false);
        let mut part = Stop { left: given, decided: self.guide.decided.clone(), seen: self.guide.seen.clone() };
        let solver = &mut self.exact.solver;
        let solution: Option<Solution> = match solver.satisfy_under_assumptions(&mut self.guide, &mut part, &mut self.resolver, assumptions)
        {
            SatisfactionResultUnderAssumptions::Satisfiable(found) => Some(found.solution().into()),
            SatisfactionResultUnderAssumptions::Unknown(_) => {
                steps.left -= given;
                return Answer::Unknown;
            }
            SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_) => None,
            SatisfactionResultUnderAssumptions::Unsatisfiable(_) => {
                self.hopeless = true;
                None
            }
        };
        steps.left -= given - part.left;
        solution.map_or(Answer::None, |solution| Answer::Plan(self.exact.read(solution.as_reference())))
    }

    /// From a value known to be reached downwards, then from `least` upwards, until both meet or the steps are spent.
    /// Returns the best plan found, if any was better, and the least value not ruled out.
    pub fn minimise(
        &mut self,
        of: DomainId,
        value: impl Fn(&[Seat]) -> i64,
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
        }
        (best, range.0)
    }
}

/// The plan of least finish that can be found, and the least finish that is not ruled out.
pub(super) fn least_finish(model: &Model, known: Plan, least: i64, steps: &mut Steps) -> (Plan, i64) {
    let Some(exact) = Exact::new(model, least, known.finish) else { return (known, least) };
    let finish = exact.finish;
    let mut searcher = Searcher::new(exact, Some(&known.seats));
    if !matches!(searcher.ask(&[], steps, u64::MAX), Answer::Plan(_)) {
        return (known, least);
    }
    let value = |seats: &[Seat]| Plan::of(model, seats.to_vec()).finish;
    let (better, bound) = searcher.minimise(finish, value, (least, known.finish), steps);
    (better.map_or(known, |seats| Plan::of(model, seats)), bound)
}
