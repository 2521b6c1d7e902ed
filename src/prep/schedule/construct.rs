//! A first plan: jobs placed one after another by a rule of priority, each as early as it fits.
//!
//! Where a job misses the latest start that a link allows it, the job before it is put off and the plan begun again.

use super::board::{Board, Seat};
use super::cost::Plan;
use super::draw::Draw;
use super::model::{FAR, Model};

/// How often a plan is begun again because a job came too late.
const AGAIN: usize = 60;

/// In sessions of fewer jobs no lists are tried before the solver, and the longest way to the end comes first.
pub(super) const LISTED: usize = 28;

/// So many jobs that may come next are looked at in the time in which one is set; so few that it does not matter.
const LOOKED: u64 = 20;
const FEW: usize = 40;

/// Places in a list between two minutes.
pub(super) const SCALE: i64 = 16;

pub(super) struct Builder<'a> {
    pub board: Board<'a>,
    placed: u64,
    /// No plan is begun again once so much work is done.
    most: u64,
    /// Jobs looked at for what comes next.
    looked: u64,
    /// Whether the list alone tells what comes first, but for what must follow soon on what is placed.
    listed: bool,
}

enum Attempt {
    Done,
    /// Some job was put off: begin again.
    PutOff,
    Dead,
}

impl<'a> Builder<'a> {
    pub fn new(model: &'a Model, most: u64) -> Builder<'a> {
        Builder { board: Board::new(model), placed: 0, most, looked: 0, listed: false }
    }

    pub fn by_list(model: &'a Model, most: u64) -> Builder<'a> {
        Builder { listed: true, ..Builder::new(model, most) }
    }

    /// Jobs placed so far over all plans: the measure of effort.
    pub fn work(&self) -> u64 {
        self.placed + self.looked / LOOKED + self.board.work()
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
                Attempt::PutOff if self.work() > self.most => return None,
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
        for job in (0..model.count()).filter(|&job| model.fixed[job]) {
            self.board.put(job, model.heads[job]);
            model.from[job].iter().for_each(|&arc| waiting[model.arcs[arc].after] -= 1);
        }
        let mut open: Vec<usize> = (0..model.count()).filter(|&job| waiting[job] == 0 && !model.fixed[job]).collect();
        while let Some(job) = take_next(&mut open, |job| self.turn(job, priority[job])) {
            let (first, last) = (self.release(job, floor[job]), self.deadline(job));
            self.placed += 1;
            self.looked += open.len().saturating_sub(FEW) as u64;
            let mut start = self.board.earliest(job, first, last);
            if start.is_none() && self.board.asked[job].take().is_some() {
                start = self.board.earliest(job, first, last);
            }
            match start {
                Some(start) => self.board.put(job, start),
                None => return self.put_off(job, first, floor),
            }
            for &arc in &model.from[job] {
                let after = model.arcs[arc].after;
                waiting[after] -= 1;
                if waiting[after] == 0 && !model.fixed[after] {
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

    /// The latest start that the jobs before it, and its own limits, allow.
    fn deadline(&self, job: usize) -> i64 {
        self.followed_by(job).min(self.board.model.lasts[job])
    }

    /// The latest start that the jobs before it allow.
    fn followed_by(&self, job: usize) -> i64 {
        let model = self.board.model;
        let last = |&arc: &usize| model.arcs[arc].most.map(|most| self.start_of(model.arcs[arc].before) + most);
        model.into[job].iter().filter_map(last).min().unwrap_or(FAR)
    }

    /// What comes first of the jobs that may come next. A list goes by its minutes, but for what must follow sooner on what is placed.
    fn turn(&self, job: usize, priority: i64) -> (i64, i64, usize) {
        if self.listed {
            return ((-priority).min(self.followed_by(job) * SCALE), 0, job);
        }
        // Without hours the latest starts only tell the longest way to the end, which does best while there is little to set.
        let last = self.deadline(job);
        let counts = last < FAR / 2 || self.board.model.count() < LISTED;
        (if counts { last } else { FAR }, -priority, job)
    }

    /// Puts off the jobs that would have the late one start too early.
    fn put_off(&self, job: usize, first: i64, floor: &mut [i64]) -> Attempt {
        let model = self.board.model;
        let Some(start) = self.board.earliest(job, first, FAR) else { return Attempt::Dead };
        if start > model.lasts[job] {
            return Attempt::Dead;
        }
        let mut moved = false;
        for arc in model.into[job].iter().map(|&arc| &model.arcs[arc]) {
            if let Some(most) = arc.most {
                moved |= floor[arc.before] < start - most;
                floor[arc.before] = floor[arc.before].max(start - most);
            }
        }
        if moved { Attempt::PutOff } else { Attempt::Dead }
    }
}

/// Takes out the job that comes first by `key`.
fn take_next<K: Ord>(open: &mut Vec<usize>, key: impl Fn(usize) -> K) -> Option<usize> {
    let place = (0..open.len()).min_by_key(|&place| key(open[place]))?;
    Some(open.swap_remove(place))
}

/// The rules of priority, each a number a job, higher first.
fn rules(model: &Model) -> Vec<Vec<i64>> {
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

/// The best plan of the rules of priority, improved by other priorities until it finishes at `bound` or so many jobs have been placed.
pub(super) fn construct(model: &Model, bound: i64, most_placed: u64) -> Option<Plan> {
    let mut builder = Builder::new(model, most_placed);
    let mut best: Option<(Plan, Vec<i64>)> = None;
    let mut spare = None;
    for rule in rules(model) {
        if let Some(plan) = builder.build(&rule) {
            if best.as_ref().is_none_or(|(known, _)| plan.cost < known.cost) {
                best = Some((plan, rule));
            }
        } else {
            spare = spare.or(Some(rule));
        }
        if best.as_ref().is_some_and(|(plan, _)| plan.finish <= bound) || builder.work() > most_placed {
            break;
        }
    }
    let mut draw = Draw::new(0);
    let ranks = ranks(best.as_ref().map(|(_, rule)| rule).or(spare.as_ref())?);
    let mut known = (best.map(|(plan, _)| plan), ranks);
    while builder.work() < most_placed && known.0.as_ref().is_none_or(|plan| plan.finish > bound) && model.count() > 1 {
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
        (Some(new), Some(old)) if new.cost > old.cost => {}
        (None, Some(_)) => {}
        _ => *known = (plan, ranks),
    }
}
