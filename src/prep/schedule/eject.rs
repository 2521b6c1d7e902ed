//! A plan that ends by a minute asked for: makings that do not fit push others off the table, until all are on it.
//!
//! What cannot be set is put where it pushes off what was hardest to set least often (ejection search, after Y. Nagata and O. Bräysy, A
//! powerful route minimization heuristic for the vehicle routing problem with time windows, 2009, from memory). Between pushes some makings
//! change places.

use super::board::Seat;
use super::cost::Plan;
use super::model::Model;
use super::table::Table;
use crate::progress;

/// Places looked at before others are pushed off.
const TRIES: usize = 6;

/// Makings that change places after a push.
const STIRRED: usize = 3;

/// The work is spent in so many rounds, each from the best plan with other draws.
const ROUNDS: u64 = 10;

/// The plan shortened towards `bound` within so much work.
pub(super) fn shorten(model: &Model, plan: Plan, bound: i64, most_work: u64) -> Plan {
    let mut plan = plan;
    let (mut work, mut seed) = (0, 1);
    let mut step = ((plan.finish - bound) / 2).max(1);
    while plan.finish > bound && work < most_work {
        let target = (plan.finish - step).max(bound);
        let given = (most_work / ROUNDS).min(most_work - work);
        let (found, spent) = fit(model, Some(&plan.seats), target, seed, given);
        (work, seed) = (work + spent.max(1), seed + 1);
        match found {
            Some(seats) => {
                plan = Plan::of(model, seats);
                progress::reached(plan.finish, bound);
                step = step.min(((plan.finish - bound) / 2).max(1));
            }
            None => step = (step / 2).max(1),
        }
    }
    plan
}

/// Any plan that keeps the model's rules and ends by `limit`, from scratch.
pub(super) fn from_nothing(model: &Model, limit: i64, most_work: u64) -> Option<Plan> {
    fit(model, None, limit, 3, most_work).0.map(|seats| Plan::of(model, seats))
}

/// Seats of a plan that ends by `limit`, and the work spent.
fn fit(model: &Model, known: Option<&[Seat]>, limit: i64, seed: u64, most_work: u64) -> (Option<Vec<Seat>>, u64) {
    if (0..model.count()).any(|job| model.heads[job] > model.last(job, limit)) {
        return (None, 0);
    }
    let last = known.map_or(limit, |seats| seats.iter().zip(&model.minutes).map(|(seat, minutes)| seat.start + minutes).max().unwrap_or(0));
    let mut table = Table::new(model, known.unwrap_or(&[]), (limit, last), seed);
    let mut pool = Pool { waiting: Vec::new(), failed: vec![1; table.makings.len()] };
    if known.is_none() {
        (0..model.count()).filter(|&job| model.fixed[job]).for_each(|job| table.board.put(job, model.heads[job]));
    }
    for making in 0..table.makings.len() {
        let late = |&job: &usize| table.board.seats[job].as_ref().is_none_or(|seat| seat.start > table.last(job));
        if table.makings[making].iter().any(late) {
            table.take_off(making);
            pool.waiting.push(making);
        }
    }
    if known.is_none() {
        pool.waiting.reverse();
    }
    while let Some(making) = pool.waiting.pop() {
        let anywhere = table.draw.below(2) == 0;
        if table.set_making(making, anywhere) {
            continue;
        }
        if table.work() > most_work || !push(&mut table, making, &mut pool) {
            return (None, table.work());
        }
        stir(&mut table);
    }
    (table.seats(), table.work())
}

struct Pool {
    /// Makings that are off the table; the last is set next.
    waiting: Vec<usize>,
    /// How often each could not be set.
    failed: Vec<u64>,
}

/// One way to set a making: what it pushes off.
struct Push {
    cost: u64,
    seats: Vec<(usize, Seat)>,
    off: Vec<usize>,
}

/// Sets the making where it pushes off least. False where it cannot be set even so.
fn push(table: &mut Table, making: usize, pool: &mut Pool) -> bool {
    pool.failed[making] += 1;
    let mut best: Option<Push> = None;
    for _ in 0..TRIES {
        let (push, undo) = try_push(table, making, pool);
        table.take_off(making);
        undo.into_iter().for_each(|(job, seat)| table.board.seat(job, seat));
        if let Some(push) = push
            && best.as_ref().is_none_or(|best| push.cost < best.cost)
        {
            best = Some(push);
        }
    }
    let Some(best) = best else { return false };
    for &other in &best.off {
        table.take_off(other);
    }
    best.seats.into_iter().for_each(|(job, seat)| table.board.seat(job, seat));
    pool.waiting.extend(best.off);
    true
}

/// Sets the making from some minute on, pushing off what stands in its way; and what was pushed off.
fn try_push(table: &mut Table, making: usize, pool: &Pool) -> (Option<Push>, Vec<(usize, Seat)>) {
    let jobs = table.makings[making].clone();
    table.board.coolest = table.draw.below(2) == 0;
    let mut undo: Vec<(usize, Seat)> = Vec::new();
    let mut off: Vec<usize> = Vec::new();
    let (low, high) = (table.model.heads[jobs[0]], table.last(jobs[0]));
    let mut anchor = low + table.draw.below((high - low + 1).max(1) as usize) as i64;
    for &job in &jobs {
        table.set += 1;
        let Some(start) = make_room(table, making, job, anchor, pool, &mut undo, &mut off) else { return (None, undo) };
        table.board.put(job, start);
        anchor = start;
    }
    let seats = jobs.iter().filter_map(|&job| table.board.seats[job].clone().map(|seat| (job, seat))).collect();
    (Some(Push { cost: off.iter().map(|&one| pool.failed[one]).sum(), seats, off }), undo)
}

/// A start at which the job fits once others are off.
fn make_room(
    table: &mut Table,
    making: usize,
    job: usize,
    anchor: i64,
    pool: &Pool,
    undo: &mut Vec<(usize, Seat)>,
    off: &mut Vec<usize>,
) -> Option<i64> {
    let mut window = table.window(job);
    if window.0 > window.1 {
        let model = table.model;
        let linked =
            model.into[job].iter().map(|&arc| model.arcs[arc].before).chain(model.from[job].iter().map(|&arc| model.arcs[arc].after));
        let linked: Vec<usize> = linked.map(|other| table.piece[other]).filter(|&other| other != making).collect();
        for other in linked {
            remove(table, other, undo, off);
        }
        window = table.window(job);
    }
    let (low, high) = window;
    let mut start = anchor.clamp(low, high.max(low));
    while low <= high && start <= high {
        if table.board.fits(job, start) {
            return Some(start);
        }
        let mut rivals = table.board.in_the_way(job, start);
        rivals.retain(|&other| table.piece[other] != making && !table.model.fixed[other]);
        let Some(rival) = rivals.into_iter().min_by_key(|&other| (pool.failed[table.piece[other]], table.piece[other])) else {
            start = table.board.earliest(job, start + 1, high)?;
            continue;
        };
        remove(table, table.piece[rival], undo, off);
    }
    None
}

fn remove(table: &mut Table, making: usize, undo: &mut Vec<(usize, Seat)>, off: &mut Vec<usize>) {
    let seats = table.take_off(making);
    if !seats.is_empty() {
        undo.extend(seats);
        off.push(making);
    }
}

/// A few makings on the table change places.
fn stir(table: &mut Table) {
    for _ in 0..STIRRED {
        let making = table.draw.below(table.makings.len());
        let seats = table.take_off(making);
        if seats.is_empty() || seats.len() < table.makings[making].len() {
            seats.into_iter().for_each(|(job, seat)| table.board.seat(job, seat));
        } else if !table.set_making(making, true) {
            seats.into_iter().for_each(|(job, seat)| table.board.seat(job, seat));
        }
    }
}
