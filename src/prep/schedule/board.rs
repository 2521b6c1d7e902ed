//! A plan in the making: who is busy, what is full, which setting an oven stands at; where the next job fits.
//!
//! It places one job at a time and knows nothing of which comes first.

use std::cell::Cell;

use super::model::{COLD, FAR, Load, Model, Task};

/// So many loads and stretches are looked at in the time in which a job is set.
const LOOKED: u64 = 100;

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
pub(super) struct Hold {
    pub job: usize,
    pub start: i64,
    pub end: i64,
    pub take: i64,
    pub setting: Option<usize>,
}

#[derive(Debug, Clone)]
pub(super) struct Board<'a> {
    pub model: &'a Model,
    pub seats: Vec<Option<Seat>>,
    /// One a person: (start, end, job), ascending.
    pub busy: Vec<Vec<(i64, i64, usize)>>,
    pub held: Vec<Vec<Hold>>,
    /// How much each may do: of two people free, the one who may do less is asked.
    versatility: Vec<usize>,
    /// The job before each in its making.
    pub before: Vec<Option<usize>>,
    /// The job after each in its making.
    pub next: Vec<Option<usize>>,
    /// Whether a load is put into the coolest setting that goes, rather than the warmest.
    pub coolest: bool,
    /// One a job: who alone is asked for its hands, where that is somebody who may.
    pub asked: Vec<Option<usize>>,
    /// Loads and stretches looked at: the measure of work.
    looked: Cell<u64>,
}

impl<'a> Board<'a> {
    pub fn new(model: &'a Model) -> Board<'a> {
        let mut versatility = vec![0; model.hours.len()];
        model.tasks().for_each(|task| task.people.iter().for_each(|&person| versatility[person] += 1));
        let mut before = vec![None; model.count()];
        let mut after = vec![None; model.count()];
        model.pairs.iter().for_each(|&(job, next)| (before[next], after[job]) = (Some(job), Some(next)));
        Board {
            model,
            seats: vec![None; model.count()],
            busy: vec![Vec::new(); model.hours.len()],
            held: vec![Vec::new(); model.room.len()],
            versatility,
            before,
            next: after,
            coolest: false,
            asked: vec![None; model.count()],
            looked: Cell::new(0),
        }
    }

    /// Work done so far, in jobs set on a table with little on it.
    pub fn work(&self) -> u64 {
        self.looked.get() / LOOKED
    }

    pub fn look(&self, at: usize) {
        self.looked.set(self.looked.get() + at as u64);
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
        let mut start = latest;
        while start >= from {
            match self.last_start(job, start) {
                None => return Some(start),
                Some(sooner) => start = sooner,
            }
        }
        None
    }

    /// Whether the job fits at `start`.
    pub fn fits(&self, job: usize, start: i64) -> bool {
        self.next_start(job, start).is_none()
    }

    /// Jobs that stand where the job would have to stand at `start`: those of them that would have to go.
    pub fn in_the_way(&self, job: usize, start: i64) -> Vec<usize> {
        let mut found: Vec<usize> = Vec::new();
        for load in &self.model.loads[job] {
            let start = start + load.offset;
            let end = start + load.minutes;
            let warm_up = self.model.ovens[load.machine].warm_up;
            let full = self.roomy(load, start, end) > start;
            let unset = self.setting(load, start, end).is_err();
            for hold in &self.held[load.machine] {
                let beside = hold.start < end && hold.end > start;
                let near = hold.start < end + warm_up && hold.end + warm_up > start;
                if full && beside || unset && near && hold.setting.is_some_and(|setting| Some(&setting) != load.settings.first()) {
                    found.push(hold.job);
                }
            }
        }
        for task in [&self.model.hands[job], &self.model.outs[job]].into_iter().flatten() {
            let (at, until) = (start + task.offset, start + task.offset + task.minutes);
            if task.people.iter().any(|&person| self.free_from(person, at, task.minutes) == at) {
                continue;
            }
            for &person in &task.people {
                found.extend(self.busy[person].iter().filter(|stretch| stretch.0 < until && stretch.1 > at).map(|stretch| stretch.2));
            }
        }
        found
    }

    /// `None` where the job fits at `start`; else a later minute before which it cannot start.
    fn next_start(&self, job: usize, start: i64) -> Option<i64> {
        let mut next = start;
        if self.model.watched[job] {
            next = next.max(self.attended(start, self.model.warm_up_of(job), self.model.minutes[job]));
        }
        for load in &self.model.loads[job] {
            let from = start + load.offset;
            let end = from + load.minutes;
            next = next.max(self.roomy(load, from, end) - load.offset);
            next = next.max(self.setting(load, from, end).err().unwrap_or(from) - load.offset);
        }
        for task in [&self.model.hands[job], &self.model.outs[job]].into_iter().flatten() {
            let at = start + task.offset;
            let free = self.askable(task).iter().map(|&person| self.free_from(person, at, task.minutes)).min().unwrap_or(FAR);
            next = next.max(free - task.offset);
        }
        (next > start).then_some(next)
    }

    /// `None` where the job fits at `start`; else an earlier minute after which it cannot start.
    fn last_start(&self, job: usize, start: i64) -> Option<i64> {
        let minutes = self.model.minutes[job];
        let mut last = start;
        if self.model.watched[job] {
            last = last.min(self.attended_by(start, self.model.warm_up_of(job), minutes));
        }
        for load in &self.model.loads[job] {
            let from = start + load.offset;
            let end = from + load.minutes;
            last = last.min(self.roomy_until(load, from, end) - load.minutes - load.offset);
            if self.setting(load, from, end).is_err() {
                last = last.min(self.set_until(load, from, end) - load.minutes - load.offset);
            }
        }
        for task in [&self.model.hands[job], &self.model.outs[job]].into_iter().flatten() {
            let at = start + task.offset;
            let free = self.askable(task).iter().map(|&person| self.free_by(person, at, task.minutes)).max().unwrap_or(-FAR);
            last = last.min(free - task.offset);
        }
        (last < start).then_some(last)
    }

    /// The last start up to `start` at which somebody is present from a warm-up before it to the end.
    fn attended_by(&self, start: i64, warm_up: i64, minutes: i64) -> i64 {
        let in_stretch = |&(from, until): &(i64, i64)| {
            let last = start.min(until - minutes);
            (last >= from + warm_up).then_some(last)
        };
        self.model.presence.iter().filter_map(in_stretch).max().unwrap_or(-FAR)
    }

    /// The last end up to `end` before which there may be room.
    fn roomy_until(&self, load: &Load, start: i64, end: i64) -> i64 {
        let room = self.model.room[load.machine];
        let holds = &self.held[load.machine];
        let mut last = end;
        self.look(holds.len());
        for hold in holds.iter().filter(|hold| hold.start < end && hold.end > start) {
            if hold.take + load.take > room {
                last = last.min(hold.start);
                continue;
            }
            self.look(holds.len());
            let moment = hold.start.max(start);
            let there = |other: &&Hold| other.start <= moment && other.end > moment;
            let taken: i64 = holds.iter().filter(there).map(|other| other.take).sum();
            if taken + load.take > room {
                last = last.min(holds.iter().filter(there).map(|other| other.start).max().unwrap_or(end));
            }
        }
        last
    }

    /// The last end before which one of its settings might go with the loads around it.
    fn set_until(&self, load: &Load, start: i64, end: i64) -> i64 {
        let warm_up = self.model.ovens[load.machine].warm_up;
        let of_setting = |&setting: &usize| {
            let clash = |hold: &&Hold| {
                hold.setting.is_some_and(|other| other != setting) && hold.start < end + warm_up && hold.end + warm_up > start
            };
            match self.held[load.machine].iter().filter(clash).map(|hold| hold.start - warm_up).min() {
                Some(sooner) => sooner,
                None => self.attended_by(start, warm_up, end - start) + end - start,
            }
        };
        load.settings.iter().map(of_setting).max().unwrap_or(end)
    }

    /// The last minute up to `at` on at which the person is present and idle for so long.
    fn free_by(&self, person: usize, at: i64, minutes: i64) -> i64 {
        let (from, until) = self.model.hours[person];
        let mut free = at.min(until - minutes);
        self.look(self.busy[person].len() / 2);
        for &(start, end, _) in self.busy[person].iter().rev() {
            if end <= free {
                break;
            }
            if start < free + minutes {
                free = start - minutes;
            }
        }
        if free >= from { free } else { -FAR }
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
        self.look(holds.len());
        for hold in holds.iter().filter(beside) {
            if hold.take + load.take > room {
                next = next.max(hold.end);
                continue;
            }
            self.look(holds.len());
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
        self.look(self.held[load.machine].len() * load.settings.len());
        let mut soonest = 2 * FAR;
        let many = load.settings.len();
        for place in 0..many {
            let setting = load.settings[if self.coolest { many - 1 - place } else { place }];
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
        self.look(self.busy[person].len() / 2);
        for &(start, end, _) in &self.busy[person] {
            if start >= free + minutes {
                break;
            }
            free = free.max(end);
        }
        if free + minutes <= until { free } else { 2 * FAR }
    }

    /// Who may be asked to do the task.
    fn askable<'b>(&'b self, task: &'b Task) -> &'b [usize] {
        let place = self.asked[task.job].filter(|_| task.offset == 0).and_then(|asked| task.people.iter().position(|&one| one == asked));
        place.map_or(&task.people, |place| &task.people[place..=place])
    }

    /// Of those who are free: who need not stay for it, who did the step before, a helper, who may do least, who has least to do.
    fn pick(&self, task: &Option<Task>, start: i64, before: Option<usize>) -> Option<usize> {
        let task = task.as_ref()?;
        let at = start + task.offset;
        let free = self.askable(task).iter().copied().filter(|&person| self.free_from(person, at, task.minutes) == at);
        let stays = |person: usize| (at + task.minutes - self.model.until[person]).max(0);
        free.min_by_key(|&person| {
            let helps = self.model.helper[person];
            (
                stays(person),
                before.is_some_and(|before| before != person),
                !helps,
                self.versatility[person],
                self.busy[person].len(),
                person,
            )
        })
    }

    /// Who did the last hands-on step of the making before this job.
    fn doer_before(&self, job: usize) -> Option<usize> {
        let mut job = job;
        while let Some(before) = self.before[job] {
            if let Some(person) = self.seats[before].as_ref().and_then(|seat| seat.hands) {
                return Some(person);
            }
            job = before;
        }
        None
    }

    /// Places the job at a start at which it fits.
    pub fn put(&mut self, job: usize, start: i64) {
        let loads = &self.model.loads[job];
        let setting = |load: &Load| self.setting(load, start + load.offset, start + load.offset + load.minutes).ok().flatten();
        let settings = loads.iter().map(setting).collect();
        let hands = self.pick(&self.model.hands[job], start, self.doer_before(job));
        let out = self.pick(&self.model.outs[job], start, hands);
        self.seat(job, Seat { start, hands, out, settings });
    }

    /// Places the job as told, unchecked.
    pub fn seat(&mut self, job: usize, seat: Seat) {
        let start = seat.start;
        for (load, &setting) in self.model.loads[job].iter().zip(&seat.settings) {
            let start = start + load.offset;
            let end = start + load.minutes;
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
        let seat = self.seats[job].take()?;
        self.model.loads[job].iter().for_each(|load| self.held[load.machine].retain(|hold| hold.job != job));
        [seat.hands, seat.out].into_iter().flatten().for_each(|person| self.busy[person].retain(|stretch| stretch.2 != job));
        Some(seat)
    }
}
