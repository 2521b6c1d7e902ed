//! When no plan holds every rule: which rules give way, in which order, by how little, and which of them clash.
//!
//! First `within` of recipes gives way; then the hours of people; then, with the hours kept again, safety; last of all both. What gives way
//! beyond the recipes is told as [`Impossible`].

use std::collections::BTreeMap;

use pumpkin_solver::core::predicates::Predicate;
use pumpkin_solver::core::variables::{AffineView, DomainId, TransformableVariable};

use super::super::{Impossible, LinkWhy, Problem, Setting};
use super::board::Seat;
use super::branch::Steps;
use super::construct::Plan;
use super::exact::Exact;
use super::model::{FAR, Model, Rules};
use super::search::{Answer, Searcher};

/// Rules in the order in which they give way.
pub(super) const GIVING_WAY: [Rules; 4] = [
    Rules { within: false, safety: true, hours: true },
    Rules { within: false, safety: true, hours: false },
    Rules { within: false, safety: false, hours: true },
    Rules::NONE,
];

/// A `within` that the rules in force leave out: (link, job before, job after, most minutes from start to start).
type Soft = (usize, usize, usize, i64);

fn soft(problem: &Problem, model: &Model) -> Vec<Soft> {
    let open = model.arcs.iter().filter(|arc| arc.most.is_none());
    let limit = |arc: &super::model::Arc| problem.links[arc.link].within.map(|within| model.minutes[arc.before] + within);
    open.filter_map(|arc| Some((arc.link, arc.before, arc.after, limit(arc)?))).collect()
}

/// (link, minutes over) for each `within` that the plan overruns.
pub(super) fn overruns(problem: &Problem, model: &Model, seats: &[Seat]) -> Vec<(usize, i64)> {
    let over = |arc: &super::model::Arc| {
        let within = problem.links[arc.link].within?;
        let over = seats[arc.after].start - seats[arc.before].start - model.minutes[arc.before] - within;
        (over > 0).then_some((arc.link, over))
    };
    model.arcs.iter().filter_map(over).collect()
}

/// A job that starts too late after several others counts once, with the worst.
fn total_over(problem: &Problem, model: &Model, seats: &[Seat]) -> i64 {
    let mut worst: BTreeMap<usize, i64> = BTreeMap::new();
    for (link, over) in overruns(problem, model, seats) {
        let of_job = worst.entry(problem.links[link].after).or_default();
        *of_job = over.max(*of_job);
    }
    worst.values().sum()
}

/// Long enough for any plan worth looking at: everything one after another.
fn horizon(model: &Model, known: i64) -> i64 {
    let rest: i64 = model.arcs.iter().map(|arc| arc.least.max(0)).chain(model.minutes.iter().copied()).sum();
    let warm_ups: i64 = (0..model.count()).map(|job| 2 * model.warm_up_of(job)).sum();
    (known + rest + warm_ups).min(FAR)
}

/// Of all plans the one that overruns the rules left out by the fewest minutes, then finishes first, then idles least;
/// with the least finish not ruled out.
pub(super) fn least_overrun(problem: &Problem, model: &Model, known: Plan, steps: &mut Steps, mut idle_steps: Steps) -> (Plan, i64) {
    let soft = soft(problem, model);
    let most = total_over(problem, model, &known.seats);
    // A longer plan is of use only where it overruns less.
    let limit = if most > 0 { horizon(model, known.finish) } else { known.finish };
    let Some(mut exact) = Exact::new(model, 0, limit) else { return (known, 0) };
    let over = post_overrun(&mut exact, &soft, most);
    let finish = exact.finish;
    let mut searcher = Searcher::new(exact, Some(&known.seats));
    if !matches!(searcher.ask(&[], steps, u64::MAX), Answer::Plan(_)) {
        return (known, 0);
    }
    let value = |seats: &[Seat]| total_over(problem, model, seats);
    let mut half = Steps { left: steps.left / 2 };
    let (better, _) = searcher.minimise(over, value, (0, most), &mut half);
    let known = better.map_or(known, |seats| Plan::of(model, seats));
    let most = total_over(problem, model, &known.seats);
    searcher.exact.at_most(vec![over.scaled(1)], most);
    let value = |seats: &[Seat]| Plan::of(model, seats.to_vec()).finish;
    let least = super::bound::bound(model).clamp(0, known.finish);
    let (better, bound) = searcher.minimise(finish, value, (least, known.finish), &mut half);
    let known = better.map_or(known, |seats| Plan::of(model, seats));
    let held = |exact: &mut Exact| {
        post_overrun(exact, &soft, most);
    };
    (super::idle::least_idle(model, known, &mut idle_steps, held), bound)
}

/// The sum over the jobs of the minutes by which each overruns its soft limits at worst, held at `most`.
fn post_overrun(exact: &mut Exact, soft: &[Soft], most: i64) -> DomainId {
    let mut worst: BTreeMap<usize, DomainId> = BTreeMap::new();
    for &(_, before, after, limit) in soft {
        let over = *worst.entry(after).or_insert_with(|| exact.solver.new_bounded_integer(0, most as i32));
        exact.at_most(vec![exact.starts[after].scaled(1), exact.starts[before].scaled(-1), over.scaled(-1)], limit);
    }
    exact.others.extend(worst.values());
    let mut terms: Vec<AffineView<DomainId>> = worst.values().map(|over| over.scaled(1)).collect();
    let sum = exact.solver.new_bounded_integer(0, most as i32);
    exact.others.push(sum);
    terms.push(sum.scaled(-1));
    exact.at_most(terms, 0);
    sum
}

/// A smallest set of links whose `within`, of a recipe or of safety, cannot all be kept, by leaving out one after another; as far as the
/// steps reach. With it: whether people's hours are what stands in the way, so that without them all could be kept.
pub(super) fn clash(problem: &Problem, hours: bool, plan: &Plan, steps: &mut Steps) -> (Vec<usize>, bool) {
    let model = super::ready(problem, Rules { hours, ..Rules::NONE });
    let clash = clashing(problem, &model, None, plan.finish, steps);
    if !hours || clash.is_empty() {
        return (clash, false);
    }
    let any_time = super::ready(problem, Rules::NONE);
    let still = clashing(problem, &any_time, Some(&clash), plan.finish, steps);
    (clash, still.is_empty())
}

/// Of the limits (or of `only` these of them) a smallest set that cannot be kept; empty where all can, or the steps do not reach.
fn clashing(problem: &Problem, model: &Model, only: Option<&[usize]>, finish: i64, steps: &mut Steps) -> Vec<usize> {
    let soft = soft(problem, model).into_iter().filter(|soft| only.is_none_or(|only| only.contains(&soft.0)));
    let Some(mut exact) = Exact::new(model, 0, horizon(model, finish)) else { return Vec::new() };
    let guards: Vec<(usize, Predicate)> = soft
        .map(|(link, before, after, limit)| {
            let literal = exact.literal();
            exact.at_most_if(vec![exact.starts[after].scaled(1), exact.starts[before].scaled(-1)], limit, literal);
            (link, literal.get_true_predicate())
        })
        .collect();
    let mut searcher = Searcher::new(exact, None);
    let share = steps.left / (guards.len() as u64 + 2);
    let all: Vec<Predicate> = guards.iter().map(|guard| guard.1).collect();
    if !matches!(searcher.ask(&all, steps, share), Answer::None) {
        return Vec::new();
    }
    let mut kept = guards;
    let mut place = kept.len();
    while place > 0 {
        place -= 1;
        let rest: Vec<Predicate> = kept.iter().enumerate().filter(|(index, _)| *index != place).map(|(_, guard)| guard.1).collect();
        if matches!(searcher.ask(&rest, steps, share), Answer::None) {
            kept.remove(place);
        }
    }
    kept.into_iter().map(|(link, _)| link).collect()
}

/// Everything one after another: the plan of steps that together take years.
pub(super) fn in_a_row(model: &Model) -> Vec<Seat> {
    let mut seats: Vec<Option<Seat>> = vec![None; model.count()];
    let mut free = 0;
    for job in super::lag::order(model) {
        let gap = model.into[job].iter().map(|&arc| model.arcs[arc].least).max().unwrap_or(0);
        let start = free + gap.max(0) + model.warm_up_of(job);
        free = start + model.minutes[job];
        let first = |task: &Option<super::model::Task>| task.as_ref().and_then(|task| task.people.first().copied());
        let settings = model.loads[job].iter().map(|load| load.settings.first().copied()).collect();
        seats[job] = Some(Seat { start, hands: first(&model.hands[job]), out: first(&model.outs[job]), settings });
    }
    seats.into_iter().flatten().collect()
}

/// Which rules beyond the recipes' the plan breaks.
pub(super) fn broken(problem: &Problem, model: &Model, seats: &[Seat], settings: &[Setting]) -> Vec<Impossible> {
    let mut broken = model.impossible.clone();
    let strict = Model::new(problem, Rules::ALL);
    let watched = |start: i64, end: i64| strict.presence.iter().any(|&(from, until)| from <= start && end <= until);
    for (job, seat) in seats.iter().enumerate() {
        let there = |task: &Option<super::model::Task>, person: Option<usize>| match (task, person) {
            (Some(task), Some(person)) => {
                let (from, until) = strict.hours[person];
                from <= seat.start + task.offset && seat.start + task.offset + task.minutes <= until
            }
            _ => true,
        };
        let attended = model.loads[job].is_empty() || watched(seat.start, seat.start + model.minutes[job]);
        if !attended || !there(&model.hands[job], seat.hands) || !there(&model.outs[job], seat.out) {
            broken.push(Impossible::Absent { job });
        }
    }
    let unwatched = settings.iter().enumerate().filter(|(_, setting)| !watched(setting.start, setting.ready));
    broken.extend(unwatched.map(|(setting, _)| Impossible::Unwatched { setting }));
    let safety = overruns(problem, model, seats).into_iter().filter(|(link, _)| problem.links[*link].why != LinkWhy::Within);
    broken.extend(safety.map(|(link, minutes)| Impossible::Safety { link, minutes }));
    broken.sort();
    broken.dedup();
    broken
}
