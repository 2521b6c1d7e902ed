//! What a plan breaks, told by links and people; where no plan keeps every limit, which of them clash.
//!
//! A gap that cools before a box (a link of safety) is never broken; the `gap` of a recipe is.
//!
//! A step too late after several others overruns its `within` once, by the worst of them. The clash is a smallest set
//! of limits, of recipes, of safety and of what is served, that cannot be kept beside the order and lengths of the
//! steps; people's hours are named with it where without them it could.

use std::collections::BTreeMap;

use pumpkin_solver::core::predicates::Predicate;
use pumpkin_solver::core::variables::TransformableVariable;

use super::super::{Impossible, Limit, Problem, Schedule, Setting};
use super::board::Seat;
use super::branch::Steps;
use super::cost::{Plan, overs, presence, stays};
use super::exact::Exact;
use super::model::{Check, FAR, Kind, Model, Rules};
use super::search::{Answer, Searcher};

/// Long enough for any plan worth looking at: everything one after another.
pub(super) fn horizon(model: &Model, known: i64) -> i64 {
    let gaps: i64 = (0..model.count()).map(|job| model.into[job].iter().map(|&arc| gap(model, arc)).max().unwrap_or(0)).sum();
    let rest: i64 = gaps + model.minutes.iter().sum::<i64>();
    let warm_ups: i64 = (0..model.count()).map(|job| 2 * model.warm_up_of(job)).sum();
    let soft = model.checks.iter().filter(|check| check.kind == Kind::Gap && !model.rules.keep(Kind::Gap));
    let soft: i64 = soft.map(|check| -check.most).sum();
    let served = model.checks.iter().filter(|check| check.kind == Kind::Hold).map(|check| check.most).max().unwrap_or(0);
    let heads = model.heads.iter().max().copied().unwrap_or(0);
    (known.max(heads).max(served) + rest + soft + warm_ups).min(FAR)
}

fn gap(model: &Model, arc: usize) -> i64 {
    (model.arcs[arc].least - model.minutes[model.arcs[arc].before]).max(0)
}

/// The problem with each limit that the plan breaks loosened by as much.
pub(super) fn loosened(problem: &Problem, model: &Model, seats: &[Seat]) -> Problem {
    let mut loose = problem.clone();
    for (place, minutes) in overs(model, seats) {
        let check = &model.checks[place];
        match check.kind {
            Kind::Within | Kind::Safety => loose.links[check.of].within = loose.links[check.of].within.map(|within| within + minutes),
            Kind::Gap => loose.links[check.of].gap -= minutes,
            Kind::Hold => {
                if let Some(serve) = &mut loose.jobs[check.of].serve {
                    (serve.at, serve.hold) = (serve.at + minutes * i64::from(check.sign > 0), serve.hold + minutes);
                }
            }
            Kind::Until => {}
        }
    }
    for (worker, stays) in loose.people.iter_mut().zip(stays(model, seats)) {
        worker.until = worker.until.map(|until| until + stays);
    }
    loose
}

/// Fills in what the plan breaks.
pub(super) fn tell(problem: &Problem, model: &Model, seats: &[Seat], settings: &[Setting], told: &mut Schedule) {
    for (place, minutes) in overs(model, seats) {
        let check = &model.checks[place];
        match check.kind {
            Kind::Within => told.overrun.push((check.of, minutes)),
            Kind::Gap => told.hurried.push((check.of, minutes)),
            Kind::Hold => told.unheld.push((check.of, minutes)),
            Kind::Safety => told.impossible.push(Impossible::Safety { link: check.of, minutes }),
            Kind::Until => {}
        }
    }
    let stays = stays(model, seats);
    told.stays = stays.iter().copied().enumerate().filter(|(_, minutes)| *minutes > 0).collect();
    told.impossible.extend(model.impossible.iter().cloned());
    let there = presence(model, &stays);
    let watched = |start: i64, end: i64| there.iter().any(|&(from, until)| from <= start && end <= until);
    for (job, seat) in seats.iter().enumerate().filter(|(job, _)| model.watched[*job] && !model.fixed[*job]) {
        if !watched(seat.start, seat.start + model.minutes[job]) {
            told.impossible.push(Impossible::Absent { job });
        }
    }
    for (index, setting) in settings.iter().enumerate() {
        let asked = problem.machines[setting.machine].watched && setting.start >= problem.now;
        if asked && !watched(setting.start, setting.ready) {
            told.impossible.push(Impossible::Unwatched { setting: index });
        }
    }
    told.impossible.sort();
    [&mut told.overrun, &mut told.hurried, &mut told.unheld].into_iter().for_each(|list| list.sort_unstable());
}

/// The limits of links and of what is served that the plan breaks.
pub(super) fn broken_limits(told: &Schedule) -> Vec<Limit> {
    let links = |broken: &[(usize, i64)], limit: fn(usize) -> Limit| broken.iter().map(|(of, _)| limit(*of)).collect::<Vec<_>>();
    let overrun = links(&told.overrun, |link| Limit::Within { link });
    let hurried = links(&told.hurried, |link| Limit::Gap { link });
    let unheld = links(&told.unheld, |job| Limit::Hold { job });
    [overrun, hurried, unheld].concat()
}

/// A smallest set of limits of links and of what is served that cannot all be kept, by leaving out one after another; as far as the steps
/// reach. With it: whether people's hours are what stands in the way, so that without them all could be kept.
pub(super) fn clash(problem: &Problem, hours: bool, plan: &Plan, steps: &mut Steps) -> (Vec<Limit>, bool) {
    let model = super::ready(problem, if hours { Rules::HOURS } else { Rules::NONE });
    let clash = clashing(&model, None, plan.finish, steps);
    if !hours || clash.is_empty() {
        return (clash, false);
    }
    let any_time = super::ready(problem, Rules::NONE);
    let still = clashing(&any_time, Some(&clash), plan.finish, steps);
    (clash, still.is_empty())
}

/// More limits than this are not looked through.
const MOST_LIMITS: usize = 40;

/// Of the limits (or of `only` these of them) a smallest set that cannot be kept; empty where all can, or the steps do not reach.
fn clashing(model: &Model, only: Option<&[Limit]>, finish: i64, steps: &mut Steps) -> Vec<Limit> {
    let mut soft: BTreeMap<Limit, Vec<&Check>> = BTreeMap::new();
    for check in model.checks.iter().filter(|check| !model.fixed[check.after]) {
        let limit = limit_of(check);
        if only.is_none_or(|only| only.contains(&limit)) {
            soft.entry(limit).or_default().push(check);
        }
    }
    if soft.len() > MOST_LIMITS {
        return Vec::new();
    }
    let horizon = horizon(model, finish);
    let Some(mut exact) = Exact::new(model, 0, horizon, horizon) else { return Vec::new() };
    let guards: Vec<(Limit, Predicate)> = soft
        .into_iter()
        .map(|(limit, checks)| {
            let literal = exact.literal();
            for check in checks {
                let sign = check.sign as i32;
                let before = check.before.map(|before| exact.starts[before].scaled(-sign));
                let terms = std::iter::once(exact.starts[check.after].scaled(sign)).chain(before).collect();
                exact.at_most_if(terms, check.most, literal);
            }
            (limit, literal.get_true_predicate())
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
    kept.into_iter().map(|(limit, _)| limit).collect()
}

fn limit_of(check: &Check) -> Limit {
    match check.kind {
        Kind::Safety => Limit::Safety { link: check.of },
        Kind::Until => Limit::Until { person: check.of },
        Kind::Within => Limit::Within { link: check.of },
        Kind::Gap => Limit::Gap { link: check.of },
        Kind::Hold => Limit::Hold { job: check.of },
    }
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
