//! Of the plans that finish as early as possible, one with few idle minutes between the steps of a making.
//!
//! The whole question goes to the solver first, which settles small sessions, and for a short while. Large ones are bettered piece by piece: all jobs but those of
//! a few makings, or of a stretch of time, stay where they are, and the solver looks for better places for the rest.

use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};
use pumpkin_solver::core::variables::{AffineView, DomainId, TransformableVariable};

use super::board::Seat;
use super::branch::Steps;
use super::construct::Plan;
use super::exact::Exact;
use super::improve::Draw;
use super::model::Model;
use super::search::{Answer, Searcher};

/// Steps for one piece, beyond those that hold the other jobs in place.
const PIECE: u64 = 300;

/// So many pieces in a row without a better plan are enough.
const IN_VAIN: usize = 600;

/// Sessions of so many jobs are worth trying whole.
const SMALL: usize = 24;

/// Of the plans that finish as early as this one and keep what `held` posts besides, that of least idle minutes.
pub(super) fn least_idle(model: &Model, known: Plan, steps: &mut Steps, held: impl Fn(&mut Exact)) -> Plan {
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
    let mut whole = Steps { left: if model.count() <= SMALL { steps.left / 2 } else { steps.left / 10 } };
    steps.left -= whole.left;
    let (better, floor) = searcher.minimise(idle, value, (floor, known.idle), &mut whole);
    let known = better.map_or(known, |seats| Plan::of(model, seats));
    if floor < known.idle { by_pieces(model, &mut searcher, idle, known, steps) } else { known }
}

fn by_pieces(model: &Model, searcher: &mut Searcher, idle: DomainId, known: Plan, steps: &mut Steps) -> Plan {
    let mut best = known;
    let mut draw = Draw::new(1);
    let mut in_vain = 0;
    while steps.left > 1 && in_vain < IN_VAIN && best.idle > 0 {
        let loose = if in_vain % 2 == 0 { some_makings(model, &best, &mut draw) } else { a_while(model, &best, &mut draw) };
        let fixed = (0..model.count()).filter(|&job| !loose[job]);
        let mut assumed: Vec<Predicate> =
            fixed.map(|job| searcher.exact.starts[job].equality_predicate(best.seats[job].start as i32)).collect();
        let share = PIECE + assumed.len() as u64;
        assumed.push(idle.upper_bound_predicate(best.idle as i32 - 1));
        in_vain += 1;
        if let Answer::Plan(seats) = searcher.ask(&assumed, steps, share) {
            best = Plan::of(model, seats);
            in_vain = 0;
        }
    }
    best
}

/// The jobs of two or three makings, one of them a making that stands idle.
fn some_makings(model: &Model, plan: &Plan, draw: &mut Draw) -> Vec<bool> {
    let waits = |pair: &&(usize, usize)| plan.seats[pair.1].start > plan.seats[pair.0].start + model.minutes[pair.0];
    let idle: Vec<&(usize, usize)> = model.pairs.iter().filter(waits).collect();
    let mut loose = vec![false; model.count()];
    let mut free = |job: usize| {
        let making = model.making[job];
        (0..model.count()).filter(|&other| model.making[other] == making).for_each(|other| loose[other] = true);
    };
    if let Some(pair) = idle.get(draw.below(idle.len())) {
        free(pair.0);
    }
    for _ in 0..=draw.below(3) {
        free(draw.below(model.count()));
    }
    loose
}

/// The jobs that start within some stretch of the plan.
fn a_while(model: &Model, plan: &Plan, draw: &mut Draw) -> Vec<bool> {
    let mut order: Vec<usize> = (0..model.count()).collect();
    order.sort_by_key(|&job| (plan.seats[job].start, job));
    let length = 4 + draw.below(8);
    let first = draw.below(order.len());
    let mut loose = vec![false; model.count()];
    order.iter().skip(first).take(length).for_each(|&job| loose[job] = true);
    loose
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
