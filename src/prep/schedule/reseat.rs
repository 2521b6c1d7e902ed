//! Fewer idle minutes by moving makings: a few are taken off the plan and set again, each as close together as it fits.
//!
//! No solver: a move costs microseconds, so thousands of them are tried. What stays idle is then the solver's to better or to prove.

use super::board::{Board, Seat};
use super::construct::Plan;
use super::improve::Draw;
use super::lag::order;
use super::model::Model;

/// So many moves in a row without fewer idle minutes are enough.
const IN_VAIN: usize = 1_500;

/// The plan with fewer idle minutes, where moves find any within so many jobs placed; it finishes no later.
pub(super) fn reseat(model: &Model, plan: Plan, most_placed: u64) -> Plan {
    let mut mover = Mover::new(model, plan);
    let mut in_vain = 0;
    while mover.placed < most_placed && in_vain < IN_VAIN && mover.plan.idle > 0 {
        let before = mover.plan.idle;
        mover.try_move();
        in_vain = if mover.plan.idle < before { 0 } else { in_vain + 1 };
    }
    mover.plan
}

struct Mover<'a> {
    board: Board<'a>,
    plan: Plan,
    /// The jobs of each making, each after all it waits for.
    makings: Vec<Vec<usize>>,
    draw: Draw,
    placed: u64,
}

impl<'a> Mover<'a> {
    fn new(model: &'a Model, plan: Plan) -> Mover<'a> {
        let mut board = Board::new(model);
        plan.seats.iter().enumerate().for_each(|(job, seat)| board.seat(job, seat.clone()));
        let mut makings = vec![Vec::new(); model.making.iter().max().map_or(0, |most| most + 1)];
        order(model).into_iter().for_each(|job| makings[model.making[job]].push(job));
        Mover { board, plan, makings, draw: Draw::new(2), placed: 0 }
    }

    /// One to four makings set anew; kept where no more minutes are idle.
    fn try_move(&mut self) {
        let makings = self.some_makings();
        let mut off: Vec<(usize, Seat)> = Vec::new();
        for &job in makings.iter().flat_map(|&making| &self.makings[making]) {
            off.extend(self.board.take_off(job).map(|seat| (job, seat)));
        }
        if makings.iter().all(|&making| self.set(making)) {
            let seats: Option<Vec<Seat>> = self.board.seats.iter().cloned().collect();
            let plan = seats.map(|seats| Plan::of(self.board.model, seats));
            if let Some(plan) = plan.filter(|plan| plan.cost() <= self.plan.cost()) {
                self.plan = plan;
                return;
            }
        }
        off.iter().for_each(|(job, _)| drop(self.board.take_off(*job)));
        off.into_iter().for_each(|(job, seat)| self.board.seat(job, seat));
    }

    /// One that stands idle, and up to three others, in the order in which they are to be set.
    fn some_makings(&mut self) -> Vec<usize> {
        let model = self.board.model;
        let seats = &self.plan.seats;
        let waits = |pair: &&(usize, usize)| seats[pair.1].start > seats[pair.0].start + model.minutes[pair.0];
        let idle: Vec<usize> = model.pairs.iter().filter(waits).map(|pair| model.making[pair.0]).collect();
        let mut chosen = vec![idle[self.draw.below(idle.len())]];
        for _ in 0..self.draw.below(4) {
            let making = model.making[self.draw.below(model.count())];
            if !chosen.contains(&making) {
                let place = self.draw.below(chosen.len() + 1);
                chosen.insert(place, making);
            }
        }
        chosen
    }

    /// Sets the making from some minute on, each job as early as it fits, or up to some minute, each as late.
    fn set(&mut self, making: usize) -> bool {
        let later = self.draw.below(2) == 0;
        let anchor = self.draw.below(self.plan.finish.max(1) as usize) as i64;
        let mut jobs = self.makings[making].clone();
        if later {
            jobs.reverse();
        }
        jobs.into_iter().all(|job| {
            self.placed += 1;
            let (low, high) = self.window(job);
            if low > high {
                return false;
            }
            let goal = anchor.clamp(low, high);
            let found = if later { self.board.latest(job, low, goal) } else { self.board.earliest(job, goal, high) };
            found.map(|start| self.board.put(job, start)).is_some()
        })
    }

    /// The earliest and the latest start that the finish and the jobs on the board allow.
    fn window(&self, job: usize) -> (i64, i64) {
        let model = self.board.model;
        let start = |other: usize| self.board.seats[other].as_ref().map(|seat| seat.start);
        let (mut low, mut high) = (model.heads[job], self.plan.finish - model.tails[job]);
        for arc in model.into[job].iter().map(|&arc| &model.arcs[arc]) {
            let Some(before) = start(arc.before) else { continue };
            low = low.max(before + arc.least);
            high = arc.most.map_or(high, |most| high.min(before + most));
        }
        for arc in model.from[job].iter().map(|&arc| &model.arcs[arc]) {
            let Some(after) = start(arc.after) else { continue };
            high = high.min(after - arc.least);
            low = arc.most.map_or(low, |most| low.max(after - most));
        }
        (low, high)
    }
}
