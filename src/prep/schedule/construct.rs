//! A first plan: jobs placed one after another by a rule of priority, each as early as it fits.
//!
//! Where a job misses the latest start that a link allows it, the job before it is put off and the plan begun again.

use super::board::{Board, Seat};
use super::model::{FAR, Model};

/// A plan that keeps the model's rules.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Plan {
    pub seats: Vec<Seat>,
    pub finish: i64,
    pub idle: i64,
}

impl Plan {
    pub fn of(model: &Model, seats: Vec<Seat>) -> Plan {
        let end = |job: usize| seats[job].start + model.minutes[job];
        let finish = (0..seats.len()).map(end).max().unwrap_or(0);
        let idle = model.pairs.iter().map(|&(job, next)| (seats[next].start - end(job)).max(0)).sum();
        Plan { seats, finish, idle }
    }

    /// Less is better.
    pub fn cost(&self) -> (i64, i64) {
        (self.finish, self.idle)
    }
}

/// How often a plan is begun again because a job came too late.
const AGAIN: usize = 60;

pub(super) struct Builder<'a> {
    board: Board<'a>,
    /// Jobs placed so far over all plans: the measure of effort.
    pub placed: u64,
}

enum Attempt {
    Done,
    /// Some job was put off: begin again.
    PutOff,
    Dead,
}

impl<'a> Builder<'a> {
    pub fn new(model: &'a Model) -> Builder<'a> {
        Builder { board: Board::new(model), placed: 0 }
    }

    /// The plan in which, of the jobs that may come next, the one of highest priority is placed first.
    pub fn build(&mut self, priority: &[i64]) -> Option<Plan> {
        let model = self.board.model;
        if model.contradiction {
            return None;
        }
        let mut floor = model.heads.clone();
        for _ in 0..AGAIN {
            match self.attempt(priority, &mut floor) {
                Attempt::Done => {
                    let seats = self.board.seats.iter().cloned().collect::<Option<Vec<Seat>>>()?;
                    return Some(Plan::of(model, seats));
                }
                Attempt::PutOff => {}
                Attempt::Dead => return None,
            }
        }
        None
    }

    fn attempt(&mut self, priority: &[i64], floor: &mut [i64]) -> Attempt {
        let model = self.board.model;
        self.board.clear();
        let mut waiting: Vec<usize> = model.into.iter().map(Vec::len).collect();
        let mut open: Vec<usize> = (0..model.count()).filter(|&job| waiting[job] == 0).collect();
        while let Some(job) = take_next(&mut open, |job| (self.deadline(job), -priority[job], job)) {
            let (first, last) = (self.release(job, floor[job]), self.deadline(job));
            self.placed += 1;
            match self.board.earliest(job, first, last.min(FAR)) {
                Some(start) => self.board.put(job, start),
                None => return self.put_off(job, first, floor),
            }
            for &arc in &model.from[job] {
                let after = model.arcs[arc].after;
                waiting[after] -= 1;
                if waiting[after] == 0 {
                    open.push(after);
                }
            }
        }
        Attempt::Done
    }

    fn start_of(&self, job: usize) -> i64 {
        self.board.seats[job].as_ref().map_or(0, |seat| seat.start)
    }

    fn release(&self, job: usize, floor: i64) -> i64 {
        let model = self.board.model;
        let least = model.into[job].iter().map(|&arc| self.start_of(model.arcs[arc].before) + model.arcs[arc].least).max();
        least.unwrap_or(0).max(floor)
    }

    /// The latest start that the jobs before it allow; [`i64::MAX`] where none does.
    fn deadline(&self, job: usize) -> i64 {
        let model = self.board.model;
        let last = |&arc: &usize| model.arcs[arc].most.map(|most| self.start_of(model.arcs[arc].before) + most);
        model.into[job].iter().filter_map(last).min().unwrap_or(i64::MAX)
    }

    /// Puts off the jobs that would have the late one start too early.
    fn put_off(&self, job: usize, first: i64, floor: &mut [i64]) -> Attempt {
        let model = self.board.model;
        let Some(start) = self.board.earliest(job, first, FAR) else { return Attempt::Dead };
        for arc in model.into[job].iter().map(|&arc| &model.arcs[arc]) {
            if let Some(most) = arc.most {
                floor[arc.before] = floor[arc.before].max(start - most);
            }
        }
        Attempt::PutOff
    }
}

/// Takes out the job that comes first by `key`.
fn take_next<K: Ord>(open: &mut Vec<usize>, key: impl Fn(usize) -> K) -> Option<usize> {
    let place = (0..open.len()).min_by_key(|&place| key(open[place]))?;
    Some(open.swap_remove(place))
}

/// The rules of priority, each a number a job, higher first.
pub(super) fn rules(model: &Model) -> Vec<Vec<i64>> {
    let hands = |job: usize| model.hands[job].as_ref().map_or(0, |task| task.minutes);
    let each = |rule: &dyn Fn(usize) -> i64| (0..model.count()).map(rule).collect::<Vec<i64>>();
    vec![
        each(&|job| model.tails[job]),
        each(&|job| model.tails[job] - hands(job)),
        each(&|job| model.tails[job] - model.heads[job]),
        each(&|job| model.tails[job] - model.minutes[job]),
        each(&|job| -model.heads[job]),
        each(&|job| model.minutes[job]),
        each(&|job| -(job as i64)),
    ]
}
