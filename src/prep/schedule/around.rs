//! Fewer idle minutes by asking the solver for parts of a plan: a few makings are free, all others stay about where they are.
//!
//! One solver for all parts, so that what it learns of one helps with the next (large neighbourhood search, after P. Shaw, Using constraint
//! programming and local search methods to solve vehicle routing problems, 1998, from memory).

use pumpkin_solver::core::predicates::{Predicate, PredicateConstructor};

use super::board::Seat;
use super::branch::Steps;
use super::cost::Plan;
use super::draw::Draw;
use super::exact::Exact;
use super::model::Model;
use super::search::{Answer, Searcher};

/// So many makings are free, at least and at most.
const FREE: (usize, usize) = (3, 7);

/// So many minutes the others may move, either way.
const SHIFT: [i64; 4] = [0, 0, 5, 20];

/// Steps for one part.
const SHARE: u64 = 150;

/// Steps that it takes to put a question at all.
const ASKING: u64 = 40;

/// The plan with fewer idle minutes, what counts done by `limit`, anything by `horizon`, as far as the steps reach.
pub(super) fn closer(model: &Model, plan: Plan, (limit, horizon): (i64, i64), steps: &mut Steps) -> Plan {
    let Some(mut exact) = Exact::new(model, 0, limit, horizon) else { return plan };
    let (idle, floor) = exact.idle(plan.cost.idle);
    let mut searcher = Searcher::new(exact, Some(&plan.seats));
    let mut parts = Parts::new(model, plan);
    if !matches!(searcher.ask(&[], steps, u64::MAX), Answer::Plan(_)) {
        return parts.plan;
    }
    while parts.plan.cost.idle > floor && steps.left > ASKING + 1 {
        steps.left -= ASKING;
        let mut asked = vec![idle.upper_bound_predicate((parts.plan.cost.idle - 1) as i32)];
        asked.extend(parts.held(&searcher.exact));
        let share = SHARE.min(steps.left);
        if let Answer::Plan(seats) = searcher.ask(&asked, steps, share) {
            parts.take(seats);
        }
    }
    parts.plan
}

/// The plan that is bettered, part by part.
struct Parts<'a> {
    model: &'a Model,
    plan: Plan,
    draw: Draw,
    /// By making.
    jobs: Vec<Vec<usize>>,
}

impl Parts<'_> {
    fn new(model: &Model, plan: Plan) -> Parts<'_> {
        let mut jobs = vec![Vec::new(); model.making.iter().max().map_or(0, |most| most + 1)];
        (0..model.count()).for_each(|job| jobs[model.making[job]].push(job));
        Parts { model, plan, draw: Draw::new(1), jobs }
    }

    fn take(&mut self, seats: Vec<Seat>) {
        let plan = Plan::of(self.model, seats);
        if plan.cost < self.plan.cost {
            self.plan = plan;
        }
    }

    /// That all makings but a few stay about where they are.
    fn held(&mut self, exact: &Exact) -> Vec<Predicate> {
        let free = self.some_makings();
        let shift = SHIFT[self.draw.below(SHIFT.len())];
        let held = (0..self.model.count()).filter(|&job| !free.contains(&self.model.making[job]) && !self.model.fixed[job]);
        let about = |job: usize| {
            let (start, seat) = (exact.starts[job], &self.plan.seats[job]);
            [start.lower_bound_predicate((seat.start - shift) as i32), start.upper_bound_predicate((seat.start + shift) as i32)]
        };
        held.flat_map(about).collect()
    }

    fn some_makings(&mut self) -> Vec<usize> {
        let many = FREE.0 + self.draw.below(FREE.1 - FREE.0 + 1);
        let first = self.an_idle_making();
        let mut free = vec![first];
        let near = match self.draw.below(3) {
            0 => self.on_a_machine_of(first),
            _ => self.by_hour_of(first),
        };
        for making in near {
            if free.len() < many && !free.contains(&making) {
                free.push(making);
            }
        }
        free
    }

    /// One that stands idle; now and then any.
    fn an_idle_making(&mut self) -> usize {
        let (model, seats) = (self.model, &self.plan.seats);
        let waits = |pair: &&(usize, usize)| seats[pair.1].start > seats[pair.0].start + model.minutes[pair.0];
        let idle: Vec<usize> = model.pairs.iter().filter(waits).map(|pair| model.making[pair.0]).collect();
        if idle.is_empty() || self.draw.below(4) == 0 {
            return model.making[self.draw.below(model.count())];
        }
        idle[self.draw.below(idle.len())]
    }

    /// Makings with loads on one of its machines, nearest in time first.
    fn on_a_machine_of(&mut self, making: usize) -> Vec<usize> {
        let model = self.model;
        let loads: Vec<(usize, usize)> =
            self.jobs[making].iter().flat_map(|&job| model.loads[job].iter().map(move |load| (job, load.machine))).collect();
        if loads.is_empty() {
            return self.by_hour_of(making);
        }
        let (job, machine) = loads[self.draw.below(loads.len())];
        let there = |other: &usize| model.loads[*other].iter().any(|load| load.machine == machine);
        self.nearest(job, (0..model.count()).filter(there).collect())
    }

    /// Makings at work about the time at which it stands idle, or at any time of it.
    fn by_hour_of(&mut self, making: usize) -> Vec<usize> {
        let jobs = &self.jobs[making];
        let job = jobs[self.draw.below(jobs.len())];
        self.nearest(job, (0..self.model.count()).collect())
    }

    /// The makings of jobs, by the minutes between theirs and this one; some are passed over.
    fn nearest(&mut self, job: usize, mut jobs: Vec<usize>) -> Vec<usize> {
        let seats = &self.plan.seats;
        let at = seats[job].start + self.model.minutes[job] / 2;
        jobs.sort_by_key(|&other| ((seats[other].start + self.model.minutes[other] / 2 - at).abs(), other));
        let draw = &mut self.draw;
        jobs.into_iter().filter(|_| draw.below(3) > 0).map(|job| self.model.making[job]).collect()
    }
}
