//! Search for the best plan, and for the proof that there is no better one, within a number of solver steps.

use pumpkin_solver::conflict_resolvers::resolvers::ResolutionResolver;
use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::results::{SatisfactionResultUnderAssumptions, Solution};
use pumpkin_solver::core::variables::{AffineView, DomainId, TransformableVariable};

use super::board::Seat;
use super::branch::{Guide, Steps};
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
}

impl<'a> Searcher<'a> {
    /// `known` is a plan to begin from, if there is one.
    pub fn new(exact: Exact<'a>, known: Option<&[Seat]>) -> Searcher<'a> {
        let known = known.map_or(Vec::new(), |seats| exact.known_values(seats));
        let guide = Guide::new(known, exact.starts.clone(), exact.others.clone());
        Searcher { exact, guide, resolver: ResolutionResolver::default() }
    }

    /// Takes at most `share` of the steps left.
    pub fn ask(&mut self, assumptions: &[Predicate], steps: &mut Steps, share: u64) -> Answer {
        if self.exact.solver.is_inconsistent() {
            return Answer::None;
        }
        let mut part = Steps { left: share.min(steps.left) };
        let given = part.left;
        let solver = &mut self.exact.solver;
        let solution: Option<Solution> =
            match solver.satisfy_under_assumptions(&mut self.guide, &mut part, &mut self.resolver, assumptions) {
                SatisfactionResultUnderAssumptions::Satisfiable(found) => Some(found.solution().into()),
                SatisfactionResultUnderAssumptions::Unknown(_) => {
                    steps.left -= given;
                    return Answer::Unknown;
                }
                SatisfactionResultUnderAssumptions::UnsatisfiableUnderAssumptions(_)
                | SatisfactionResultUnderAssumptions::Unsatisfiable(_) => None,
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

/// Of the plans that finish as early as this one, that of least idle minutes between the steps of a making.
pub(super) fn least_idle(model: &Model, known: Plan, steps: &mut Steps) -> Plan {
    least_idle_of(model, known, steps, |_| {})
}

/// The same, among the plans that keep what `held` posts besides.
pub(super) fn least_idle_of(model: &Model, known: Plan, steps: &mut Steps, held: impl Fn(&mut Exact)) -> Plan {
    let Some(mut exact) = Exact::new(model, 0, known.finish) else { return known };
    held(&mut exact);
    let (idle, floor) = post_idle(&mut exact, known.idle);
    if floor >= known.idle || exact.solver.is_inconsistent() {
        return known;
    }
    let mut searcher = Searcher::new(exact, Some(&known.seats));
    if !matches!(searcher.ask(&[], steps, u64::MAX), Answer::Plan(_)) {
        return known;
    }
    let value = |seats: &[Seat]| Plan::of(model, seats.to_vec()).idle;
    let (better, _) = searcher.minimise(idle, value, (floor, known.idle), steps);
    better.map_or(known, |seats| Plan::of(model, seats))
}

/// The sum of idle minutes, and a minimum for it. Where links keep a making's jobs in order the sum telescopes to few starts.
fn post_idle(exact: &mut Exact, most: i64) -> (DomainId, i64) {
    let model = exact.model;
    let mut weights = vec![0; model.count()];
    let mut terms: Vec<AffineView<DomainId>> = Vec::new();
    let (mut minutes, mut floor) = (0, 0);
    for &(job, next) in &model.pairs {
        let lag = exact.lags.least(job, next);
        floor += lag.map_or(0, |lag| (lag - model.minutes[job]).max(0));
        if lag.is_some_and(|lag| lag >= model.minutes[job]) {
            weights[next] += 1;
            weights[job] -= 1;
            minutes += model.minutes[job];
        } else {
            let gap = exact.solver.new_bounded_integer(0, most as i32);
            exact.others.push(gap);
            exact.at_most(vec![exact.starts[next].scaled(1), exact.starts[job].scaled(-1), gap.scaled(-1)], model.minutes[job]);
            terms.push(gap.scaled(1));
        }
    }
    let weighted = weights.iter().enumerate().filter(|(_, weight)| **weight != 0);
    terms.extend(weighted.map(|(job, &weight)| exact.starts[job].scaled(weight)));
    let idle = exact.solver.new_bounded_integer(floor.min(most) as i32, most as i32);
    exact.others.push(idle);
    terms.push(idle.scaled(-1));
    exact.at_most(terms, minutes);
    (idle, floor)
}
