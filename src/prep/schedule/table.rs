//! A plan on the table, bettered by taking a few makings off and setting them again, each as close together as it fits.
//!
//! One engine for every aim: what is kept is told by the cost of the whole plan. No solver: a move costs microseconds, so thousands of
//! them are tried. Work is counted in jobs set, so the same question has the same answer on every machine.

use super::board::{Board, Seat};
use super::close::Closer;
use super::cost::Plan;
use super::doers::by_doers;
use super::draw::Draw;
use super::lag::order;
use super::model::Model;
use super::orders::Orders;

/// So many places are tried for a making before the best of them is taken.
const PLACES: usize = 24;

/// Jobs with where they stand.
pub(super) type Seats = Vec<(usize, Seat)>;

pub(super) struct Table<'a> {
    pub model: &'a Model,
    pub board: Board<'a>,
    /// The jobs of each making that are not fixed, each after all it waits for; of long makings, in pieces.
    pub makings: Vec<Vec<usize>>,
    /// The piece that each job is of.
    pub piece: Vec<usize>,
    /// The last minute at which what counts may end, and that for anything else.
    pub limit: i64,
    pub horizon: i64,
    pub draw: Draw,
    /// Whether the jobs of each are in the order in which their idle minutes are counted.
    in_order: Vec<bool>,
    pub closer: Closer,
    /// Jobs set so far.
    pub set: u64,
}

impl<'a> Table<'a> {
    pub fn new(model: &'a Model, seats: &[Seat], (limit, horizon): (i64, i64), seed: u64) -> Table<'a> {
        let mut board = Board::new(model);
        seats.iter().enumerate().for_each(|(job, seat)| board.seat(job, seat.clone()));
        let makings = makings(model);
        let mut piece = vec![0; model.count()];
        makings.iter().enumerate().for_each(|(place, jobs)| jobs.iter().for_each(|&job| piece[job] = place));
        let follow = |pair: &[usize]| board.before[pair[1]] == Some(pair[0]);
        let in_order = makings.iter().map(|jobs| jobs.windows(2).all(follow)).collect();
        let (draw, closer) = (Draw::new(seed), Closer::default());
        Table { model, board, makings, piece, limit, horizon: horizon.max(limit), draw, in_order, closer, set: 0 }
    }

    pub fn seats(&self) -> Option<Vec<Seat>> {
        self.board.seats.iter().cloned().collect()
    }

    /// The earliest and the latest start that the limit and the jobs on the table allow.
    pub fn window(&self, job: usize) -> (i64, i64) {
        let model = self.model;
        let start = |other: usize| self.board.seats[other].as_ref().map(|seat| seat.start);
        let (mut low, mut high) = (model.heads[job], self.last(job));
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

    /// The measure of effort.
    pub fn work(&self) -> u64 {
        self.set + self.board.work()
    }

    /// The latest start that the limit allows.
    pub fn last(&self, job: usize) -> i64 {
        self.model.last(job, self.limit).min(self.horizon - self.model.minutes[job])
    }

    pub fn take_off(&mut self, making: usize) -> Seats {
        let Table { board, makings, .. } = self;
        makings[making].iter().filter_map(|&job| board.take_off(job).map(|seat| (job, seat))).collect()
    }

    pub fn set_early(&mut self, job: usize, from: i64) -> bool {
        self.set += 1;
        let (low, high) = self.window(job);
        let found = if low > high { None } else { self.board.earliest(job, from.max(low), high) };
        found.map(|start| self.board.put(job, start)).is_some()
    }

    pub fn set_late(&mut self, job: usize, until: i64) -> bool {
        self.set += 1;
        let (low, high) = self.window(job);
        let found = if low > high { None } else { self.board.latest(job, low, until.min(high)) };
        found.map(|start| self.board.put(job, start)).is_some()
    }

    /// Sets the jobs from `anchor` on, each as early as it fits; then, last first, each as late.
    fn set_from(&mut self, jobs: &[usize], anchor: i64) -> bool {
        for &job in jobs {
            if !self.set_early(job, anchor) {
                return false;
            }
        }
        for &job in jobs.iter().rev().skip(1) {
            let Some(seat) = self.board.take_off(job) else { continue };
            if !self.set_late(job, self.close_to_next(job, seat.start)) || self.start(job) < seat.start {
                self.board.take_off(job);
                self.board.seat(job, seat);
            }
        }
        true
    }

    /// The start at which the job would end when the next of its making begins; `start` where that is sooner.
    fn close_to_next(&self, job: usize, start: i64) -> i64 {
        let next = self.board.next[job].and_then(|next| self.board.seats[next].as_ref());
        next.map_or(start, |next| start.max(next.start - self.model.minutes[job]))
    }

    /// Sets the jobs up to `anchor`, last first, each as late as it fits; then each as early.
    fn set_until(&mut self, jobs: &[usize], anchor: i64) -> bool {
        for &job in jobs.iter().rev() {
            if !self.set_late(job, anchor) {
                return false;
            }
        }
        for &job in jobs.iter().skip(1) {
            let Some(seat) = self.board.take_off(job) else { continue };
            let last = self.board.before[job].and_then(|before| self.board.seats[before].as_ref().map(|seat| (before, seat.start)));
            let from = last.map_or(seat.start, |(before, start)| seat.start.min(start + self.model.minutes[before]));
            if !self.set_early(job, from) || self.start(job) > seat.start {
                self.board.take_off(job);
                self.board.seat(job, seat);
            }
        }
        true
    }

    /// When the job ends, if it is on the table.
    pub fn ends(&self, job: usize) -> Option<i64> {
        self.board.seats[job].as_ref().map(|seat| seat.start + self.model.minutes[job])
    }

    /// Sets the jobs where they stand idle least; nothing of them where there is no such place, or they stand in each other's way there.
    fn set_closest(&mut self, jobs: &[usize]) -> bool {
        let Some(starts) = self.closest(jobs) else { return false };
        for (&job, start) in jobs.iter().zip(starts) {
            let (low, high) = self.window(job);
            if start < low || start > high || !self.board.fits(job, start) {
                self.take_jobs(jobs);
                return false;
            }
            self.board.put(job, start);
        }
        true
    }

    pub fn start(&self, job: usize) -> i64 {
        self.board.seats[job].as_ref().map_or(0, |seat| seat.start)
    }

    /// Minutes idle within the jobs, and their last end.
    fn measure(&self, jobs: &[usize]) -> (i64, i64) {
        let minutes = &self.model.minutes;
        let gap = |&job: &usize| {
            let Some(next) = self.board.next[job].filter(|&next| self.board.seats[next].is_some()) else { return 0 };
            (self.start(next) - self.start(job) - minutes[job]).max(0)
        };
        let idle = jobs.iter().map(gap).sum();
        (idle, jobs.iter().map(|&job| self.start(job) + minutes[job]).max().unwrap_or(0))
    }

    fn take_jobs(&mut self, jobs: &[usize]) -> Seats {
        jobs.iter().filter_map(|&job| self.board.take_off(job).map(|seat| (job, seat))).collect()
    }

    /// Sets the making where it stands idle least, of the places from some minute on; `tight`: until one is found at which nothing is
    /// idle. Leaves nothing of it on the table where it does not fit.
    pub fn set_making(&mut self, making: usize, anywhere: bool) -> bool {
        let jobs = std::mem::take(&mut self.makings[making]);
        let done = self.set_jobs(&jobs, anywhere);
        self.makings[making] = jobs;
        done
    }

    pub fn set_jobs(&mut self, jobs: &[usize], anywhere: bool) -> bool {
        let Some(&first) = jobs.first() else { return true };
        self.board.coolest = self.draw.below(2) == 0;
        if anywhere && self.in_order[self.piece[first]] && self.set_closest(jobs) {
            return true;
        }
        let (low, high) = self.window(first);
        if low > high {
            return false;
        }
        let begin = if anywhere { low + self.draw.below((high - low + 1) as usize) as i64 } else { low };
        let mut best: Option<((i64, i64), Seats)> = None;
        let mut anchor = begin;
        let end = begin + self.draw.below(60) as i64;
        if anywhere && self.draw.below(2) == 0 && self.set_until(jobs, end) {
            best = Some((self.measure(jobs), self.take_jobs(jobs)));
        } else {
            self.take_jobs(jobs);
        }
        for _ in 0..PLACES {
            if best.as_ref().is_some_and(|(known, _)| known.0 == 0) || anchor > high {
                break;
            }
            let done = self.set_from(jobs, anchor);
            let (measure, next) = (self.measure(jobs), self.start(first) + 1);
            let seats = self.take_jobs(jobs);
            if !done {
                break;
            }
            if best.as_ref().is_none_or(|(known, _)| measure < *known) {
                best = Some((measure, seats));
            }
            anchor = next.max(anchor + 1);
        }
        if best.is_none() && begin > low {
            if self.set_from(jobs, low) {
                return true;
            }
            self.take_jobs(jobs);
        }
        let found = best.is_some();
        best.into_iter().flat_map(|(_, seats)| seats).for_each(|(job, seat)| self.board.seat(job, seat));
        found
    }
}

/// As many jobs of one making are moved together.
const PIECE: usize = 12;

fn makings(model: &Model) -> Vec<Vec<usize>> {
    let mut makings = vec![Vec::new(); model.making.iter().max().map_or(0, |most| most + 1)];
    order(model).into_iter().filter(|&job| !model.fixed[job]).for_each(|job| makings[model.making[job]].push(job));
    makings.iter().flat_map(|jobs| jobs.chunks(PIECE)).map(<[usize]>::to_vec).collect()
}

/// Minutes by which a plan may stand idle more than the one before it, at first; none at the end.
pub(super) const SLACK: usize = 40;

/// Of a hundred moves, so many push apart what stays on the table.
const SPREAD: usize = 40;

/// Idle minutes above those of the plan from which on its gaps are not closed.
const NEARLY: i64 = 30;

/// Work that a move takes, at most, on the whole: in sessions that last for days the moves are fewer.
const WORK_A_MOVE: u64 = 300;

/// So many plans as good as the best are remembered.
const EQUALS: usize = 8;

/// The best of [`better_ones`].
pub(super) fn better(model: &Model, plan: Plan, limit: i64, seed: u64, moves: usize) -> Plan {
    better_ones(model, plan.clone(), limit, seed, moves).into_iter().next().unwrap_or(plan)
}

/// The plan bettered in the order of its cost, by so many moves, and others as good, at least one; what counts ends by `limit`. On the way,
/// plans that stand idle a little longer are gone through.
pub(super) fn better_ones(model: &Model, plan: Plan, limit: i64, seed: u64, moves: usize) -> Vec<Plan> {
    let last = plan.seats.iter().zip(&model.minutes).map(|(seat, minutes)| seat.start + minutes).max().unwrap_or(0);
    let orders = Orders::new(model, &plan.seats, (limit, last.max(limit)), seed);
    let table = Table::new(model, &plan.seats, (limit, last), seed);
    let mut mover = Mover { table, orders, best: vec![plan.clone()], plan };
    if mover.table.makings.iter().all(Vec::is_empty) {
        return mover.best;
    }
    for left in (1..=moves).rev() {
        if mover.table.work() > moves as u64 * WORK_A_MOVE {
            break;
        }
        let most = SLACK * left / moves * left / moves;
        let draw = &mut mover.table.draw;
        let slack = draw.below(1 + most);
        let slack = draw.below(1 + slack);
        mover.try_move(slack as i64);
    }
    let given: Vec<Plan> = mover.best.into_iter().map(|plan| by_doers(model, plan)).collect();
    let least = given.iter().map(|plan| plan.cost).min().unwrap_or_default();
    let mut best: Vec<Plan> = Vec::new();
    for plan in given.into_iter().filter(|plan| plan.cost == least) {
        if !best.contains(&plan) {
            best.push(plan);
        }
    }
    best
}

struct Mover<'a> {
    table: Table<'a>,
    /// Closes gaps between makings; `None` where limits may be broken.
    orders: Option<Orders<'a>>,
    plan: Plan,
    /// All of one cost.
    best: Vec<Plan>,
}

impl Mover<'_> {
    /// A few makings set anew, the others pushed apart now and then to let them in; kept where the plan is hardly worse.
    fn try_move(&mut self, slack: i64) {
        let makings = self.some_makings();
        let mut off: Seats = Vec::new();
        makings.iter().for_each(|&making| off.extend(self.table.take_off(making)));
        let spread = self.table.draw.below(100) < SPREAD && self.spread(&off);
        let set = makings.iter().all(|&making| self.table.set_making(making, true));
        let seats = if set { self.table.seats() } else { None };
        if let Some((plan, closed)) = seats.map(|seats| self.closed(Plan::of(self.table.model, seats), spread))
            && self.is_good(&plan, slack)
        {
            if closed {
                self.lay(&plan);
            }
            self.plan = plan;
            return self.remember();
        }
        if spread {
            let plan = self.plan.clone();
            return self.lay(&plan);
        }
        let jobs: Vec<usize> = makings.iter().flat_map(|&making| self.table.makings[making].clone()).collect();
        self.table.take_jobs(&jobs);
        off.into_iter().for_each(|(job, seat)| self.table.board.seat(job, seat));
    }

    fn is_good(&self, plan: &Plan, slack: i64) -> bool {
        let mut allowed = self.plan.cost;
        if slack > 0 {
            allowed.idle += slack;
            (allowed.hand_overs, allowed.finish) = (i64::MAX, allowed.finish.max(self.table.limit));
        }
        plan.cost <= allowed && plan.finish <= self.table.limit
    }

    /// The plan with the gaps closed that its order leaves, where that may make it good; and whether that moved anything.
    fn closed(&mut self, plan: Plan, spread: bool) -> (Plan, bool) {
        let near = plan.finish <= self.table.limit && (spread || plan.cost.idle <= self.plan.cost.idle + NEARLY);
        let closed = self.orders.as_mut().filter(|_| near).and_then(|orders| orders.closed(&plan.seats));
        match closed {
            Some(seats) => (Plan::of(self.table.model, seats), true),
            None => (plan, false),
        }
    }

    /// Pushes what is on the table apart around the place of a job that was taken off, or of any.
    fn spread(&mut self, off: &Seats) -> bool {
        let Table { draw, board, .. } = &mut self.table;
        let (Some(orders), false) = (&mut self.orders, off.is_empty()) else { return false };
        let taken = draw.below(2) == 0;
        let around = if taken { off[draw.below(off.len())].1.start } else { self.plan.seats[draw.below(self.plan.seats.len())].start };
        if !orders.spread(&board.seats, around) {
            return false;
        }
        for (job, &start) in orders.starts.iter().enumerate().take(self.plan.seats.len()) {
            if let Some(seat) = board.take_off(job) {
                board.seat(job, Seat { start, ..seat });
            }
        }
        true
    }

    /// Lays the whole plan on the table.
    fn lay(&mut self, plan: &Plan) {
        self.table.board.clear();
        plan.seats.iter().enumerate().for_each(|(job, seat)| self.table.board.seat(job, seat.clone()));
    }

    fn remember(&mut self) {
        let cost = self.best[0].cost;
        if self.plan.cost < cost {
            self.best.clear();
        }
        if self.plan.cost <= cost && self.best.len() < EQUALS && !self.best.contains(&self.plan) {
            self.best.push(self.plan.clone());
        }
    }

    /// A few makings, in the order in which they are to be set: any, or the longest first.
    fn some_makings(&mut self) -> Vec<usize> {
        let mut chosen = if self.table.draw.below(2) == 0 { self.on_one_machine() } else { self.around_a_gap() };
        let Table { model, draw, makings, .. } = &mut self.table;
        chosen.retain(|&one| !makings[one].is_empty());
        for place in (1..chosen.len()).rev() {
            chosen.swap(place, draw.below(place + 1));
        }
        if draw.below(2) == 0 {
            let minutes = |&making: &usize| makings[making].iter().map(|&job| model.minutes[job]).sum::<i64>();
            chosen.sort_by_key(|making| -minutes(making));
        }
        chosen
    }

    /// Makings whose loads follow one another on a machine: they may change places.
    fn on_one_machine(&mut self) -> Vec<usize> {
        let Table { draw, piece, board, model, .. } = &mut self.table;
        let job = draw.below(model.count());
        let Some(load) = model.loads[job].first() else { return self.around_a_gap() };
        let mut holds: Vec<(i64, usize)> = board.held[load.machine].iter().map(|hold| (hold.start, piece[hold.job])).collect();
        holds.sort_unstable();
        let mut chosen = vec![piece[job]];
        let (many, first) = (2 + draw.below(MOST_OTHERS), draw.below(holds.len().max(1)));
        for (_, other) in holds.into_iter().skip(first) {
            if chosen.len() < many && !chosen.contains(&other) {
                chosen.push(other);
            }
        }
        chosen
    }

    /// One, mostly one that stands idle, and a few others: what is in its way, or of the same hour, or any.
    fn around_a_gap(&mut self) -> Vec<usize> {
        let model = self.table.model;
        let seats = &self.plan.seats;
        let waits = |pair: &&(usize, usize)| seats[pair.1].start > seats[pair.0].start + model.minutes[pair.0];
        let idle: Vec<(usize, usize)> = model.pairs.iter().filter(waits).copied().collect();
        let Table { draw, piece, board, .. } = &mut self.table;
        let gap = if idle.is_empty() || draw.below(4) == 0 { None } else { Some(idle[draw.below(idle.len())]) };
        let job = gap.map_or_else(|| draw.below(seats.len()), |pair| pair.0);
        let mut chosen = vec![piece[job]];
        let near: Vec<usize> = (0..seats.len()).filter(|&other| (seats[other].start - seats[job].start).abs() < NEAR).collect();
        for _ in 0..draw.below(MOST_OTHERS) {
            let others = match (draw.below(4), gap) {
                (0, _) => vec![draw.below(seats.len())],
                (2 | 3, Some((job, next))) => {
                    let minutes = seats[next].start - seats[job].start - model.minutes[job];
                    let by = draw.below(minutes as usize) as i64;
                    if draw.below(2) == 0 {
                        board.in_the_way(next, seats[next].start - 1 - by)
                    } else {
                        board.in_the_way(job, seats[job].start + 1 + by)
                    }
                }
                _ => Vec::new(),
            };
            let others = if others.is_empty() { &near } else { &others };
            let other = piece[others[draw.below(others.len())]];
            if !chosen.contains(&other) {
                chosen.push(other);
            }
        }
        chosen
    }
}

/// Fewer others than this are moved with one.
const MOST_OTHERS: usize = 6;

/// Minutes between starts of the same hour.
const NEAR: i64 = 45;
