//! Who does what, once it is known when.
//!
//! A stretch of one making's steps is given to one person, as long as that betters the plan: fewer hand-overs, then more of the
//! helpers' minutes, then fewer turns. Starts and settings stay. Whoever is in the way takes over what was left for it, or leaves
//! it to anybody else who is free.

use super::board::{Board, Seat};
use super::cost::Plan;
use super::model::Model;

/// Gifts tried times jobs: enough for a few rounds over all stretches of a session of a hundred tasks.
const TRIED: usize = 400_000;

/// The plan with its tasks given to the people who make it best, as far as single gifts reach.
pub(super) fn by_doers(model: &Model, plan: Plan) -> Plan {
    if model.hours.len() < 2 || !model.tasks().any(|task| task.people.len() > 1) {
        return plan;
    }
    let mut makings = vec![Vec::new(); model.making.iter().max().map_or(0, |most| most + 1)];
    (0..model.count()).filter(|&job| !model.fixed[job]).for_each(|job| makings[model.making[job]].push(job));
    let mut board = Board::new(model);
    plan.seats.iter().enumerate().for_each(|(job, seat)| board.seat(job, seat.clone()));
    let mut giver = Giver { board, plan, left: TRIED / model.count().max(1) };
    while makings.iter().any(|jobs| giver.betters(jobs)) {}
    giver.plan
}

struct Giver<'a> {
    board: Board<'a>,
    plan: Plan,
    /// Gifts that may still be tried.
    left: usize,
}

impl Giver<'_> {
    /// Whether one gift of a stretch of these jobs betters the plan; it is kept then.
    fn betters(&mut self, jobs: &[usize]) -> bool {
        for from in 0..jobs.len() {
            for until in from + 1..=jobs.len() {
                for person in 0..self.board.model.hours.len() {
                    if self.left == 0 {
                        return false;
                    }
                    if self.try_gift(&jobs[from..until], person) {
                        return true;
                    }
                }
            }
        }
        false
    }

    fn try_gift(&mut self, jobs: &[usize], person: usize) -> bool {
        let theirs =
            |&job: &usize| self.board.seats[job].as_ref().is_none_or(|seat| seat.hands == Some(person) && seat.out == Some(person));
        if jobs.iter().all(theirs) {
            return false;
        }
        self.left -= 1;
        let mut before = Vec::new();
        if self.give(jobs, person, &mut before) {
            let seats: Option<Vec<Seat>> = self.board.seats.iter().cloned().collect();
            let plan = seats.map(|seats| Plan::of(self.board.model, seats)).filter(|plan| plan.cost < self.plan.cost);
            if let Some(plan) = plan {
                self.plan = plan;
                return true;
            }
        }
        for (job, seat) in before.into_iter().rev() {
            self.board.take_off(job);
            self.board.seat(job, seat);
        }
        false
    }

    /// Gives the person all of the jobs that they may do. `before` holds where each moved job stood, in the order of moving; where it
    /// fails, some of them are off the board.
    fn give(&mut self, jobs: &[usize], person: usize, before: &mut Vec<(usize, Seat)>) -> bool {
        for &job in jobs {
            let Some(seat) = self.board.take_off(job) else { return false };
            before.push((job, seat.clone()));
            let mut given = seat.clone();
            for out in [false, true] {
                let Some(minutes) = self.minutes_of(job, out, person) else { continue };
                let was = if out { seat.out } else { seat.hands };
                *(if out { &mut given.out } else { &mut given.hands }) = Some(person);
                for other in self.in_the_way(person, minutes) {
                    if !self.move_away(other, (person, was), minutes, before) {
                        return false;
                    }
                }
            }
            // What was moved away may have come to whoever does the job's other part.
            let clashes = |(out, doer): (bool, Option<usize>)| {
                let minutes = doer.and_then(|doer| self.minutes_of(job, out, doer).map(|minutes| (doer, minutes)));
                minutes.is_some_and(|(doer, minutes)| !self.in_the_way(doer, minutes).is_empty())
            };
            if [(false, given.hands), (true, given.out)].into_iter().any(clashes) {
                return false;
            }
            self.board.seat(job, given);
        }
        true
    }

    /// From when until when the task takes the person's hands; `None` where there is none, or they may not do it then.
    fn minutes_of(&self, job: usize, out: bool, person: usize) -> Option<(i64, i64)> {
        let model = self.board.model;
        let task = if out { &model.outs[job] } else { &model.hands[job] }.as_ref().filter(|task| task.people.contains(&person))?;
        let at = self.plan.seats[job].start + task.offset;
        let (from, until) = model.hours[person];
        (at >= from && at + task.minutes <= until).then_some((at, at + task.minutes))
    }

    fn in_the_way(&self, person: usize, (from, until): (i64, i64)) -> Vec<usize> {
        self.board.busy[person].iter().filter(|stretch| stretch.0 < until && stretch.1 > from).map(|stretch| stretch.2).collect()
    }

    /// Has somebody else do what the person does of the job in those minutes: whoever was to do the other thing first.
    fn move_away(
        &mut self,
        job: usize,
        (person, first): (usize, Option<usize>),
        (from, until): (i64, i64),
        before: &mut Vec<(usize, Seat)>,
    ) -> bool {
        if self.board.model.fixed[job] {
            return false;
        }
        let Some(seat) = self.board.take_off(job) else { return false };
        before.push((job, seat.clone()));
        let mut moved = seat.clone();
        for (out, doer) in [(false, seat.hands), (true, seat.out)] {
            let overlaps = |&(at, end): &(i64, i64)| at < until && end > from;
            if doer != Some(person) || self.minutes_of(job, out, person).filter(overlaps).is_none() {
                continue;
            }
            let others = first.into_iter().chain(0..self.board.model.hours.len()).filter(|&other| other != person);
            let free = |&other: &usize| self.minutes_of(job, out, other).is_some_and(|minutes| self.in_the_way(other, minutes).is_empty());
            let Some(other) = others.into_iter().find(free) else { return false };
            *(if out { &mut moved.out } else { &mut moved.hands }) = Some(other);
        }
        self.board.seat(job, moved);
        true
    }
}
