//! Better plans by small changes: other priorities for a shorter finish, later and earlier starts for fewer idle minutes.

use super::board::Board;
use super::construct::{Builder, Plan, rules};
use super::model::Model;

/// A fixed sequence of numbers that look random: every run draws the same (splitmix64, Steele, Lea and Flood 2014).
pub(super) struct Draw(u64);

impl Draw {
    pub fn new(seed: u64) -> Draw {
        Draw(seed)
    }

    /// From 0 to `count - 1`; 0 where there is nothing to choose.
    pub fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((mixed ^ (mixed >> 31)) % count.max(1) as u64) as usize
    }
}

/// The best plan of the rules of priority, improved until it finishes at `bound` or so many jobs have been placed.
pub(super) fn construct(model: &Model, bound: i64, most_placed: u64) -> Option<Plan> {
    let mut builder = Builder::new(model);
    let mut best: Option<(Plan, Vec<i64>)> = None;
    let mut spare = None;
    for rule in rules(model) {
        if let Some(plan) = builder.build(&rule) {
            if best.as_ref().is_none_or(|(known, _)| plan.cost() < known.cost()) {
                best = Some((plan, rule));
            }
        } else {
            spare = spare.or(Some(rule));
        }
        if best.as_ref().is_some_and(|(plan, _)| plan.finish <= bound) {
            break;
        }
    }
    let mut draw = Draw::new(0);
    let ranks = ranks(best.as_ref().map(|(_, rule)| rule).or(spare.as_ref())?);
    let mut known = (best.map(|(plan, _)| plan), ranks);
    while builder.placed < most_placed && known.0.as_ref().is_none_or(|plan| plan.finish > bound) && model.count() > 1 {
        step(&mut builder, &mut known, &mut draw);
    }
    known.0
}

/// Priorities as a row of different numbers.
fn ranks(priority: &[i64]) -> Vec<i64> {
    let mut order: Vec<usize> = (0..priority.len()).collect();
    order.sort_by_key(|&job| (priority[job], std::cmp::Reverse(job)));
    let mut ranks = vec![0; priority.len()];
    order.into_iter().enumerate().for_each(|(rank, job)| ranks[job] = rank as i64);
    ranks
}

/// Swaps a few priorities and keeps the change where the plan is no worse.
fn step(builder: &mut Builder, known: &mut (Option<Plan>, Vec<i64>), draw: &mut Draw) {
    let mut ranks = known.1.clone();
    for _ in 0..=draw.below(3) {
        let (one, other) = (draw.below(ranks.len()), draw.below(ranks.len()));
        ranks.swap(one, other);
    }
    builder.placed += 1;
    let plan = builder.build(&ranks);
    match (&plan, &known.0) {
        (Some(new), Some(old)) if new.cost() > old.cost() => {}
        (None, Some(_)) => {}
        _ => *known = (plan, ranks),
    }
}

/// The plan with its jobs moved, one by one, to where they leave fewer idle minutes; the finish stays or shrinks.
pub(super) fn close_up(model: &Model, plan: Plan) -> Plan {
    let mut best = plan;
    for later_first in [true, false, true, false] {
        let moved = sweep(model, &best, later_first);
        if moved.cost() < best.cost() {
            best = moved;
        }
    }
    best
}

/// Moves each job towards the next of its making, last job first, or towards the one before, first job first.
fn sweep(model: &Model, plan: &Plan, later: bool) -> Plan {
    let mut board = Board::new(model);
    plan.seats.iter().enumerate().for_each(|(job, seat)| board.seat(job, seat.clone()));
    let mut order: Vec<usize> = (0..model.count()).collect();
    order.sort_by_key(|&job| (plan.seats[job].start, job));
    if later {
        order.reverse();
    }
    for job in order {
        shift(&mut board, job, plan.finish, later);
    }
    let seats = board.seats.into_iter().flatten().collect();
    Plan::of(model, seats)
}

fn shift(board: &mut Board, job: usize, finish: i64, later: bool) {
    let model = board.model;
    let start = |board: &Board, other: usize| board.seats[other].as_ref().map_or(0, |seat| seat.start);
    let now = start(board, job);
    let next = model.pairs.iter().find(|pair| pair.0 == job).map(|pair| start(board, pair.1));
    let last = model.pairs.iter().find(|pair| pair.1 == job).map(|pair| start(board, pair.0) + model.minutes[pair.0]);
    let (mut low, mut high) = (model.heads[job], finish - model.tails[job]);
    for arc in model.into[job].iter().map(|&arc| &model.arcs[arc]) {
        low = low.max(start(board, arc.before) + arc.least);
        high = arc.most.map_or(high, |most| high.min(start(board, arc.before) + most));
    }
    for arc in model.from[job].iter().map(|&arc| &model.arcs[arc]) {
        high = high.min(start(board, arc.after) - arc.least);
        low = arc.most.map_or(low, |most| low.max(start(board, arc.after) - most));
    }
    let goal = if later { next.map(|next| next - model.minutes[job]) } else { last };
    let Some(goal) = goal.map(|goal| goal.clamp(low.min(now), high.max(now))) else { return };
    let Some(seat) = board.take_off(job) else { return };
    let found = if later && goal > now {
        board.latest(job, now + 1, goal)
    } else if !later && goal < now {
        board.earliest(job, goal, now - 1)
    } else {
        None
    };
    match found {
        Some(at) => board.put(job, at),
        None => board.seat(job, seat),
    }
}
