//! A plan in the making: who is busy, what is full, which setting an oven stands at; where the next job fits.
//!
//! It places one job at a time and knows nothing of which comes first.

use super::model::{COLD, FAR, Load, Model, Task};

/// Where a job stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Seat {
    pub start: i64,
    pub hands: Option<usize>,
    pub out: Option<usize>,
    /// One a load: the setting, where its machine has temperatures.
    pub settings: Vec<Option<usize>>,
}

#[derive(Debug, Clone, Copy)]
struct Hold {
    job: usize,
    start: i64,
    end: i64,
    take: i64,
    setting: Option<usize>,
}

#[derive(Debug, Clone)]
pub(super) struct Board<'a> {
    pub model: &'a Model,
    pub seats: Vec<Option<Seat>>,
    /// One a person: (start, end, job), ascending.
    busy: Vec<Vec<(i64, i64, usize)>>,
    held: Vec<Vec<Hold>>,
    /// People in the order in which they are asked: those who may do least first.
    versatility: Vec<usize>,
}

impl<'a> Board<'a> {
    pub fn new(model: &'a Model) -> Board<'a> {
        let mut versatility = vec![0; model.hours.len()];
        model.tasks().for_each(|task| task.people.iter().for_each(|&person| versatility[person] += 1));
        Board {
            model,
            seats: vec![None; model.count()],
            busy: vec![Vec::new(); model.hours.len()],
            held: vec![Vec::new(); model.room.len()],
            versatility,
        }
    }

    pub fn clear(&mut self) {
        self.seats.iter_mut().for_each(|seat| *seat = None);
        self.busy.iter_mut().for_each(Vec::clear);
        self.held.iter_mut().for_each(Vec::clear);
    }

    /// The first start at `from` or later, and at `latest` at most, at which the job fits beside what is placed.
    pub fn earliest(&self, job: usize, from: i64, latest: i64) -> Option<i64> {
        let mut start = from;
        while start <= latest {
            match self.next_start(job, start) {
                None => return Some(start),
                Some(later) => start = later,
            }
        }
        None
    }

    /// The last start at `from` or later and `latest` at most at which the job fits.
    pub fn latest(&self, job: usize, from: i64, latest: i64) -> Option<i64> {
        (from..=latest).rev().find(|&start| self.next_start(job, start).is_none())
    }

    /// `None` where the job fits at `start`; else a later minute before which it cannot start.
    fn next_start(&self, job: usize, start: i64) -> Option<i64> {
        let end = start + self.model.minutes[job];
        let mut next = start;
        if !self.model.loads[job].is_empty() {
            next = next.max(self.attended(start, self.model.warm_up_of(job), self.model.minutes[job]));
        }
        for load in &self.model.loads[job] {
            next = next.max(self.roomy(load, start, end));
            next = next.max(self.setting(load, start, end).err().unwrap_or(start));
        }
        for task in [&self.model.hands[job], &self.model.outs[job]].into_iter().flatten() {
            let at = start + task.offset;
            let free = task.people.iter().map(|&person| self.free_from(person, at, task.minutes)).min().unwrap_or(FAR);
            next = next.max(free - task.offset);
        }
        (next > start).then_some(next)
    }

    /// The first start from `start` on at which somebody is present from a warm-up before it to the end.
    fn attended(&self, start: i64, warm_up: i64, minutes: i64) -> i64 {
        let in_stretch = |&(from, until): &(i64, i64)| {
            let first = start.max(from + warm_up);
            (first + minutes <= until).then_some(first)
        };
        self.model.presence.iter().filter_map(in_stretch).min().unwrap_or(2 * FAR)
    }

    fn roomy(&self, load: &Load, start: i64, end: i64) -> i64 {
        let room = self.model.room[load.machine];
        let beside = |hold: &&Hold| hold.start < end && hold.end > start;
        let mut next = start;
        let holds = &self.held[load.machine];
        for hold in holds.iter().filter(beside) {
            if hold.take + load.take > room {
                next = next.max(hold.end);
                continue;
            }
            let moment = hold.start.max(start);
            let there = |other: &&Hold| other.start <= moment && other.end > moment;
            let taken: i64 = holds.iter().filter(there).map(|other| other.take).sum();
            if taken + load.take > room {
                let freed = holds.iter().filter(there).map(|other| other.end).min();
                next = next.max(freed.unwrap_or(start));
            }
        }
        next
    }

    /// The first of its settings that goes with the loads around it, or the minute from which one might.
    fn setting(&self, load: &Load, start: i64, end: i64) -> Result<Option<usize>, i64> {
        if load.settings.is_empty() {
            return Ok(None);
        }
        let warm_up = self.model.ovens[load.machine].warm_up;
        let mut soonest = 2 * FAR;
        for &setting in &load.settings {
            let clash = |hold: &&Hold| {
                hold.setting.is_some_and(|other| other != setting) && hold.start < end + warm_up && hold.end + warm_up > start
            };
            match self.held[load.machine].iter().filter(clash).map(|hold| hold.end + warm_up).max() {
                Some(later) => soonest = soonest.min(later),
                None if setting == COLD => return Ok(Some(setting)),
                // A load without a temperature of its own, in a warm oven, may be the one before which it warms up.
                None => match self.attended(start, warm_up, end - start) {
                    at if at == start => return Ok(Some(setting)),
                    later => soonest = soonest.min(later),
                },
            }
        }
        Err(soonest)
    }

    /// The first minute from `at` on at which the person is present and idle for so long.
    fn free_from(&self, person: usize, at: i64, minutes: i64) -> i64 {
        let (from, until) = self.model.hours[person];
        let mut free = at.max(from);
        for &(start, end, _) in &self.busy[person] {
            if start >= free + minutes {
                break;
            }
            free = free.max(end);
        }
        if free + minutes <= until { free } else { 2 * FAR }
    }

    fn pick(&self, task: &Option<Task>, start: i64) -> Option<usize> {
        let task = task.as_ref()?;
        let at = start + task.offset;
        let free = task.people.iter().copied().filter(|&person| self.free_from(person, at, task.minutes) == at);
        free.min_by_key(|&person| (self.versatility[person], self.busy[person].len(), person))
    }

    /// Places the job at a start at which it fits.
    pub fn put(&mut self, job: usize, start: i64) {
        let end = start + self.model.minutes[job];
        let loads = &self.model.loads[job];
        let settings = loads.iter().map(|load| self.setting(load, start, end).ok().flatten()).collect();
        let hands = self.pick(&self.model.hands[job], start);
        let out = self.pick(&self.model.outs[job], start);
        self.seat(job, Seat { start, hands, out, settings });
    }

    /// Places the job as told, unchecked.
    pub fn seat(&mut self, job: usize, seat: Seat) {
        let start = seat.start;
        let end = start + self.model.minutes[job];
        for (load, &setting) in self.model.loads[job].iter().zip(&seat.settings) {
            self.held[load.machine].push(Hold { job, start, end, take: load.take, setting });
        }
        for (task, person) in [(&self.model.hands[job], seat.hands), (&self.model.outs[job], seat.out)] {
            if let (Some(task), Some(person)) = (task, person) {
                let at = start + task.offset;
                let busy = &mut self.busy[person];
                let place = busy.partition_point(|stretch| stretch.0 < at);
                busy.insert(place, (at, at + task.minutes, job));
            }
        }
        self.seats[job] = Some(seat);
    }

    pub fn take_off(&mut self, job: usize) -> Option<Seat> {
        self.held.iter_mut().for_each(|holds| holds.retain(|hold| hold.job != job));
        self.busy.iter_mut().for_each(|busy| busy.retain(|stretch| stretch.2 != job));
        self.seats[job].take()
    }
}
