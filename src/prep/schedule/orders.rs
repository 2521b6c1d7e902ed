//! The least idle minutes while everything keeps its order, and a search from order to order.
//!
//! While it is settled what comes after what on each machine and in each pair of hands, every rule says that one start lies so many minutes
//! after another, at least. The idle minutes are then least where no group of jobs gains by moving together, earlier or later (Murota,
//! Discrete Convex Analysis, 2003, steepest descent, from memory); the group that gains most is the smallest cut of a network (Picard,
//! Maximal closure of a graph, 1976, from memory). What the cut carries names the orders that stand in the way of more: two neighbours of
//! those change places, and so on.

use super::board::Seat;
use super::cost::{Plan, idle};
use super::cut::{Net, UNNAMED};
use super::draw::Draw;
use super::model::{COLD, FAR, Model, Rules};

/// What a rule costs that cannot be broken.
const NEVER: i64 = 1_000_000;

/// What a minute costs by which an order is not kept while it is changed: more than all that a minute can bring.
const BROKEN: i64 = 60;

/// So many swaps are tried before the chains are drawn anew.
const TRIES: usize = 4;

/// `start(after) - start(before) >= least`; the job beyond the last is the session's beginning.
#[derive(Debug, Clone, Copy)]
struct Apart {
    before: usize,
    after: usize,
    least: i64,
    /// Where it is an order that may change: the two stretches, and the minutes between them.
    order: Option<(usize, usize, i64)>,
}

/// Part of a job: from so many minutes after its start, for so long.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    job: usize,
    offset: i64,
    minutes: i64,
}

/// A stretch that takes room.
struct Hold {
    start: i64,
    stretch: Stretch,
    take: i64,
    setting: Option<usize>,
}

pub(super) struct Orders<'a> {
    model: &'a Model,
    /// One a job, and that of the session's beginning: 0.
    pub starts: Vec<i64>,
    /// Rules of every order, and then those of the order that is looked at.
    apart: Vec<Apart>,
    lasting: usize,
    stretches: Vec<Stretch>,
    /// Whether the chains hold all that takes room.
    whole: bool,
    net: Net,
    weights: Vec<i64>,
    /// The rules that stand in the way of fewer idle minutes: places in `apart`.
    tight: Vec<usize>,
    draw: Draw,
    cuts: u64,
}

impl<'a> Orders<'a> {
    /// `None` where limits may be broken: then the idle minutes are not the first aim.
    pub fn new(model: &'a Model, seats: &[Seat], (limit, horizon): (i64, i64), seed: u64) -> Option<Orders<'a>> {
        if model.rules != Rules::ALL {
            return None;
        }
        let apart = lasting(model, limit, horizon);
        Some(Orders {
            model,
            starts: seats.iter().map(|seat| seat.start).chain([0]).collect(),
            lasting: apart.len(),
            apart,
            stretches: Vec::new(),
            whole: true,
            net: Net::default(),
            weights: Vec::new(),
            tight: Vec::new(),
            draw: Draw::new(seed),
            cuts: 0,
        })
    }

    /// The plan with the least idle minutes that its own order allows, where they are fewer.
    pub fn closed(&mut self, seats: &[Seat]) -> Option<Vec<Seat>> {
        self.starts.iter_mut().zip(seats).for_each(|(start, seat)| *start = seat.start);
        self.chain(|job| Some(&seats[job]));
        let done = self.whole && self.settle() && self.idle() < idle(self.model, seats);
        done.then(|| self.seats(seats))
    }

    /// The plan with fewer idle minutes, by changes of order, as far as so many cuts reach; on the way, orders that cost up to `slack`
    /// minutes more are gone through.
    pub fn search(&mut self, plan: Plan, cuts: u64, slack: usize) -> Plan {
        self.starts.iter_mut().zip(&plan.seats).for_each(|(start, seat)| *start = seat.start);
        let mut best = (plan.cost.idle, self.starts.clone());
        let mut now = best.clone();
        let (mut orders, mut many, mut tries) = (Vec::new(), 0, TRIES);
        self.cuts = 0;
        while self.cuts < cuts {
            if tries >= TRIES {
                tries = 0;
                self.chain(|job| Some(&plan.seats[job]));
                if !self.whole || !self.settle() {
                    break;
                }
                now = (self.idle(), self.starts.clone());
                if now.0 < best.0 {
                    best.clone_from(&now);
                }
                (many, orders) = (self.apart.len(), self.changeable());
                if orders.is_empty() && now.0 <= best.0 {
                    break;
                }
                if orders.is_empty() {
                    (self.starts, tries) = (best.1.clone(), TRIES);
                    continue;
                }
            }
            tries += 1;
            let place = orders[self.draw.below(orders.len())];
            let turned = self.swap(place);
            let kept = self.settle();
            let left = cuts.saturating_sub(self.cuts) as usize;
            let most = slack * left / cuts as usize * left / cuts as usize;
            let most = self.draw.below(1 + most);
            if kept && self.idle() <= now.0 + self.draw.below(1 + most) as i64 {
                tries = TRIES;
                continue;
            }
            self.starts.clone_from(&now.1);
            self.apart.truncate(many);
            turned.into_iter().for_each(|(place, least)| self.apart[place].least = least);
        }
        self.starts = best.1;
        Plan::of(self.model, self.seats(&plan.seats))
    }

    /// The jobs on the table pushed apart around a minute: what starts before it as early, the rest as late as their order allows. False
    /// where the table holds more than there is room for.
    pub fn spread(&mut self, seats: &[Option<Seat>], around: i64) -> bool {
        self.starts.iter_mut().zip(seats).for_each(|(start, seat)| *start = seat.as_ref().map_or(0, |seat| seat.start));
        self.chain(|job| seats[job].as_ref());
        let beginning = seats.len();
        let there = |job: usize| job == beginning || seats[job].is_some();
        let late: Vec<bool> = (0..seats.len()).map(|job| there(job) && self.starts[job] >= around).collect();
        let kept: Vec<Apart> = self.apart.iter().filter(|apart| there(apart.before) && there(apart.after)).copied().collect();
        let mut starts = self.starts.clone();
        (0..seats.len()).filter(|&job| late[job]).for_each(|job| starts[job] = FAR);
        let mut changed = self.whole;
        while changed {
            changed = false;
            for apart in kept.iter().rev().filter(|apart| apart.before != beginning) {
                let last = starts[apart.after] - apart.least;
                changed |= starts[apart.before] > last;
                starts[apart.before] = starts[apart.before].min(last);
            }
        }
        (0..seats.len()).filter(|&job| there(job) && !late[job]).for_each(|job| starts[job] = -FAR);
        changed = self.whole;
        while changed {
            changed = false;
            for apart in kept.iter().filter(|apart| apart.after != beginning) {
                let first = starts[apart.before] + apart.least;
                changed |= starts[apart.after] < first;
                starts[apart.after] = starts[apart.after].max(first);
            }
        }
        self.starts = starts;
        self.whole
    }

    fn seats(&self, seats: &[Seat]) -> Vec<Seat> {
        seats.iter().zip(&self.starts).map(|(seat, &start)| Seat { start, ..seat.clone() }).collect()
    }

    fn idle(&self) -> i64 {
        self.model.pairs.iter().map(|&pair| self.gap(pair).max(0)).sum()
    }

    /// Minutes from the end of the one to the start of the other.
    fn gap(&self, (job, next): (usize, usize)) -> i64 {
        self.starts[next] - self.starts[job] - self.model.minutes[job]
    }

    /// Minutes above the least between the two.
    fn slack(&self, apart: &Apart) -> i64 {
        self.starts[apart.after] - self.starts[apart.before] - apart.least
    }

    /// Reads what comes after what from the starts.
    fn chain<'b>(&mut self, seat: impl Fn(usize) -> Option<&'b Seat>) {
        let model = self.model;
        self.apart.truncate(self.lasting);
        self.stretches.clear();
        self.whole = true;
        let machines = model.room.len();
        let mut holds: Vec<Vec<Hold>> = (0..machines + model.hours.len()).map(|_| Vec::new()).collect();
        for job in 0..model.count() {
            let Some(seat) = seat(job) else { continue };
            let start = self.starts[job];
            for (load, &setting) in model.loads[job].iter().zip(&seat.settings) {
                let stretch = Stretch { job, offset: load.offset, minutes: load.minutes };
                holds[load.machine].push(Hold { start: start + load.offset, stretch, take: load.take, setting });
                self.keep_attended(job, setting.filter(|&setting| setting != COLD).map_or(0, |_| model.ovens[load.machine].warm_up));
            }
            for (task, person) in [(&model.hands[job], seat.hands), (&model.outs[job], seat.out)] {
                if let (Some(task), Some(person)) = (task, person) {
                    let stretch = Stretch { job, offset: task.offset, minutes: task.minutes };
                    holds[machines + person].push(Hold { start: start + task.offset, stretch, take: 1, setting: None });
                    let (from, until) = model.hours[person];
                    self.keep_between(job, from - task.offset, until - task.offset - task.minutes);
                }
            }
        }
        for (machine, holds) in holds.into_iter().enumerate() {
            let (room, warm_up) = if machine < machines { (model.room[machine], model.ovens[machine].warm_up) } else { (1, 0) };
            self.chain_one(holds, room, warm_up);
        }
    }

    fn keep_between(&mut self, job: usize, first: i64, last: i64) {
        let beginning = self.model.count();
        if !self.model.fixed[job] {
            self.apart.push(Apart { before: beginning, after: job, least: first, order: None });
            self.apart.push(Apart { before: job, after: beginning, least: -last, order: None });
        }
    }

    /// What must be watched stays in the hours in which it lies, with its warm-up.
    fn keep_attended(&mut self, job: usize, warm_up: i64) {
        if !self.model.watched[job] && warm_up == 0 {
            return;
        }
        let start = self.starts[job];
        let hours = self.model.presence.iter().find(|(from, until)| from + warm_up <= start && start + self.model.minutes[job] <= *until);
        if let Some(&(from, until)) = hours {
            self.keep_between(job, from + warm_up, until - self.model.minutes[job]);
        }
    }

    /// The stretches in one room: each after those whose places it takes; those in other settings a warm-up apart.
    fn chain_one(&mut self, mut holds: Vec<Hold>, room: i64, warm_up: i64) {
        holds.sort_unstable_by_key(|hold| (hold.start, hold.stretch.minutes, hold.stretch.job));
        let first = self.stretches.len();
        self.stretches.extend(holds.iter().map(|hold| hold.stretch));
        // By place: until when it is taken, and by which stretch.
        let mut places: Vec<(i64, Option<usize>)> = vec![(i64::MIN, None); room.max(0) as usize];
        for (at, hold) in holds.iter().enumerate() {
            let mut free: Vec<usize> = (0..places.len()).filter(|&place| places[place].0 <= hold.start).collect();
            if self.draw.below(3) == 0 {
                (1..free.len()).rev().for_each(|place| free.swap(place, self.draw.below(place + 1)));
            } else {
                free.sort_by_key(|&place| std::cmp::Reverse(places[place]));
            }
            free.truncate(hold.take.max(0) as usize);
            self.whole &= free.len() as i64 == hold.take.max(0);
            let mut before: Vec<usize> = free.iter().filter_map(|&place| places[place].1).collect();
            before.dedup();
            before.into_iter().for_each(|before| self.order(before, first + at, 0));
            free.into_iter().for_each(|place| places[place] = (hold.start + hold.stretch.minutes, Some(first + at)));
            let other = |before: &Hold| before.setting.is_some() && hold.setting.is_some() && before.setting != hold.setting;
            for before in (0..at).filter(|&before| other(&holds[before])) {
                self.order(first + before, first + at, warm_up);
            }
        }
    }

    /// The second stretch starts so long after the end of the first.
    fn order(&mut self, first: usize, second: usize, minutes: i64) {
        let (one, other) = (self.stretches[first], self.stretches[second]);
        if one.job != other.job && !(self.model.fixed[one.job] && self.model.fixed[other.job]) {
            let least = one.offset + one.minutes + minutes - other.offset;
            self.apart.push(Apart { before: one.job, after: other.job, least, order: Some((first, second, minutes)) });
        }
    }

    /// Turns two neighbours round; returns the rules that hold no longer, with what they were. What came before the first now also comes
    /// before the second, and what came after the second after the first.
    fn swap(&mut self, place: usize) -> Vec<(usize, i64)> {
        let Some((first, second, _)) = self.apart[place].order else { return Vec::new() };
        let mut turned = Vec::new();
        for place in 0..self.apart.len() {
            match self.apart[place].order {
                Some((before, after, minutes)) if before == first && after == second => {
                    turned.push((place, self.apart[place].least));
                    self.apart[place].least = -NEVER;
                    self.order(second, first, minutes);
                }
                Some((before, after, 0)) if after == first => self.order(before, second, 0),
                Some((before, after, 0)) if before == second => self.order(first, after, 0),
                _ => {}
            }
        }
        turned
    }

    /// The orders among the rules in the way.
    fn changeable(&self) -> Vec<usize> {
        self.tight.iter().copied().filter(|&place| self.apart[place].order.is_some()).collect()
    }

    /// Moves groups of jobs until none gains; false where some order cannot be kept.
    fn settle(&mut self) -> bool {
        let (mut earlier, mut still) = (false, 0);
        self.tight.clear();
        while still < 2 {
            if self.move_group(earlier) {
                still = 0;
                self.tight.clear();
            } else {
                still += 1;
                earlier = !earlier;
            }
        }
        self.apart.iter().all(|apart| self.slack(apart) >= 0)
    }

    /// Moves the group of jobs that gains most, later or earlier, as far as it gains; false where none does.
    fn move_group(&mut self, earlier: bool) -> bool {
        self.cuts += 1;
        let beginning = self.model.count();
        let (source, sink) = (beginning + 1, beginning + 2);
        self.weigh();
        let gain: i64 = self.weights.iter().filter(|weight| **weight > 0).sum();
        for job in 0..=beginning {
            match self.weights[job] {
                weight if weight > 0 => self.net.edge(source, job, weight, UNNAMED),
                weight if weight < 0 => self.net.edge(job, sink, -weight, UNNAMED),
                _ => {}
            }
        }
        // To move some jobs earlier is to move the beginning and all others later.
        let (from, to) = if earlier { (source, beginning) } else { (beginning, sink) };
        self.net.edge(from, to, FAR * NEVER, UNNAMED);
        if gain <= self.net.fill(source, sink) {
            self.tight.extend(self.net.carrying());
            return false;
        }
        self.shift();
        true
    }

    /// What a minute later brings by each job, and draws what it costs to move one without the other.
    fn weigh(&mut self) {
        let Orders { model, starts, apart, net, weights, .. } = self;
        net.clear(model.count() + 3);
        weights.clear();
        weights.resize(starts.len(), 0);
        for &(job, next) in &model.pairs {
            match starts[next] - starts[job] - model.minutes[job] {
                gap if gap > 0 => (weights[job], weights[next]) = (weights[job] + 1, weights[next] - 1),
                0 => net.edge(next, job, 1, UNNAMED),
                _ => {}
            }
        }
        for (place, apart) in apart.iter().enumerate() {
            let Apart { before, after, least, order } = *apart;
            match starts[after] - starts[before] - least {
                slack if slack < 0 => (weights[before], weights[after]) = (weights[before] - BROKEN, weights[after] + BROKEN),
                0 => net.edge(before, after, if order.is_some() { BROKEN } else { NEVER }, place),
                _ => {}
            }
        }
    }

    /// Moves the group inside the cut until something else comes in the way, or nothing more is gained.
    fn shift(&mut self) {
        let leaves = |one: usize, other: usize| self.net.inside(one) && !self.net.inside(other);
        let pairs = self.model.pairs.iter().filter_map(|&(job, next)| match self.gap((job, next)) {
            gap if gap > 0 => leaves(job, next).then_some(gap),
            gap => (gap < 0 && leaves(next, job)).then_some(-gap),
        });
        let apart = self.apart.iter().filter_map(|apart| match self.slack(apart) {
            slack if slack > 0 => leaves(apart.before, apart.after).then_some(slack),
            slack => (slack < 0 && leaves(apart.after, apart.before)).then_some(-slack),
        });
        let minutes = pairs.chain(apart).min().unwrap_or(0);
        (0..self.starts.len()).filter(|&job| self.net.inside(job)).for_each(|job| self.starts[job] += minutes);
        let beginning = self.starts[self.model.count()];
        self.starts.iter_mut().for_each(|start| *start -= beginning);
    }
}

/// The rules of every order: links, hours, the last minute of what counts and of anything.
fn lasting(model: &Model, limit: i64, horizon: i64) -> Vec<Apart> {
    let mut rules = Vec::new();
    let mut rule = |before, after, least| rules.push(Apart { before, after, least, order: None });
    for arc in &model.arcs {
        rule(arc.before, arc.after, arc.least);
        if let Some(most) = arc.most {
            rule(arc.after, arc.before, -most);
        }
    }
    for job in 0..model.count() {
        rule(model.count(), job, model.heads[job]);
        rule(job, model.count(), model.minutes[job] - horizon.max(model.heads[job] + model.minutes[job]));
        rule(job, model.count(), -model.last(job, limit));
    }
    rules
}
