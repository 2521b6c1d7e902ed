//! The problem made ready for planning: hands-on tasks, loads of machines, earliest and latest starts, shortest ways to the end.
//!
//! It knows which rules are in force ([`Rules`]) and nothing of how a plan is found.
//!
//! Limits give way in the order of `Kind` (`schedule/model.rs`), each sum of minutes before the next. Where a limit is
//! broken, "no plan keeps every rule" is told only with `none_keeps_all`; the plan is then made as short as the minutes
//! broken allow.

use super::super::{Impossible, Job, LinkWhy, Problem};

/// A minute that no plan reaches: about two years.
pub(super) const FAR: i64 = 1_000_000;

/// The way to the finish of a job whose end does not count to it.
const NO_WAY: i64 = -FAR * 100;

/// Temperatures closer than this are the same: far below what a dial shows, far above rounding of converted degrees.
const SAME_DEGREES: f64 = 1e-6;

/// The limits that may be broken where no plan keeps them all, the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Safety,
    Until,
    Within,
    Gap,
    Hold,
}

/// How many kinds of limits there are.
pub(super) const KINDS: usize = 5;

impl Kind {
    pub const ALL: [Kind; KINDS] = [Kind::Safety, Kind::Until, Kind::Within, Kind::Gap, Kind::Hold];
}

/// Which kinds of limits a plan must keep. Room, temperature, order, the hours at which people come, and one thing at a time are always kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rules([bool; KINDS]);

impl Rules {
    pub const ALL: Rules = Rules([true; KINDS]);
    pub const NONE: Rules = Rules([false; KINDS]);
    /// All but those of recipes, of safety and of what is served.
    pub const HOURS: Rules = Rules([false, true, false, false, false]);

    /// All graver than this kind.
    pub fn above(kind: Kind) -> Rules {
        Rules(Kind::ALL.map(|other| other < kind))
    }

    /// All but this kind.
    pub fn but(kind: Kind) -> Rules {
        Rules(Kind::ALL.map(|other| other != kind))
    }

    pub fn keep(self, kind: Kind) -> bool {
        self.0[kind as usize]
    }
}

/// A limit on a start, or on the time between two: broken by `sign * (start(after) - start(before)) - most` minutes where that is above
/// zero. Of one kind, a job's worst counts.
#[derive(Debug, Clone)]
pub(super) struct Check {
    pub kind: Kind,
    /// The link, or the job for [`Kind::Hold`].
    pub of: usize,
    pub before: Option<usize>,
    pub after: usize,
    pub sign: i64,
    pub most: i64,
}

/// A stretch that needs a person, `offset` minutes after its job's start.
#[derive(Debug, Clone)]
pub(super) struct Task {
    pub job: usize,
    pub offset: i64,
    pub minutes: i64,
    pub people: Vec<usize>,
}

/// What a job takes of a machine.
#[derive(Debug, Clone)]
pub(super) struct Load {
    pub machine: usize,
    pub take: i64,
    /// Settings (indices into [`Oven::degrees`], or [`COLD`]) it may stand in; empty on a machine without temperatures.
    pub settings: Vec<usize>,
    /// From so many minutes after its job's start, for so long.
    pub offset: i64,
    pub minutes: i64,
}

impl Load {
    /// Whether the machine must be warm for it wherever it is planned.
    pub fn hot(&self) -> bool {
        !self.settings.is_empty() && !self.settings.contains(&COLD)
    }
}

/// The setting of a load without a temperature that stands in the machine while it is off.
pub(super) const COLD: usize = usize::MAX;

#[derive(Debug, Clone, Default)]
pub(super) struct Oven {
    /// Distinct temperatures asked of it, ascending.
    pub degrees: Vec<f64>,
    pub near: f64,
    pub warm_up: i64,
}

/// `start(after) - start(before) >= least`, and `<= most`.
#[derive(Debug, Clone)]
pub(super) struct Arc {
    pub before: usize,
    pub after: usize,
    pub least: i64,
    pub most: Option<i64>,
}

#[derive(Debug, Clone)]
pub(super) struct Model {
    pub rules: Rules,
    pub minutes: Vec<i64>,
    pub loads: Vec<Vec<Load>>,
    pub hands: Vec<Option<Task>>,
    pub outs: Vec<Option<Task>>,
    /// One a machine.
    pub room: Vec<i64>,
    pub ovens: Vec<Oven>,
    /// One a person: present from, until; nobody leaves where `until` may be broken.
    pub hours: Vec<(i64, i64)>,
    /// When each means to leave.
    pub until: Vec<i64>,
    pub helper: Vec<bool>,
    /// When anybody is present: disjoint, ascending, merged where they touch.
    pub presence: Vec<(i64, i64)>,
    /// Whether somebody must be present while the job runs.
    pub watched: Vec<bool>,
    pub arcs: Vec<Arc>,
    /// Arcs by the job they lead to, and from.
    pub into: Vec<Vec<usize>>,
    pub from: Vec<Vec<usize>>,
    /// One a job.
    pub making: Vec<usize>,
    /// (job, next job of the same making): the idle minutes between them count.
    pub pairs: Vec<(usize, usize)>,
    pub checks: Vec<Check>,
    /// Earliest start, latest start, and least minutes from a job's start to the finish, as far as links and hours tell.
    pub heads: Vec<i64>,
    pub lasts: Vec<i64>,
    pub tails: Vec<i64>,
    /// Whether the job's end counts to the finish.
    pub counted: Vec<bool>,
    pub fixed: Vec<bool>,
    pub now: i64,
    /// Calm: a finish up to here is as good as any.
    pub calm: Option<i64>,
    pub contradiction: bool,
    pub impossible: Vec<Impossible>,
}

impl Model {
    pub fn new(problem: &Problem, rules: Rules) -> Model {
        let count = problem.jobs.len();
        let mut model = Model {
            rules,
            minutes: problem.jobs.iter().map(length).collect(),
            loads: vec![Vec::new(); count],
            hands: vec![None; count],
            outs: vec![None; count],
            room: problem.machines.iter().map(|machine| machine.room).collect(),
            ovens: vec![Oven::default(); problem.machines.len()],
            hours: hours(problem, rules),
            until: problem.people.iter().map(|worker| worker.until.unwrap_or(FAR).min(FAR)).collect(),
            helper: problem.people.iter().map(|worker| worker.helper).collect(),
            presence: Vec::new(),
            watched: vec![false; count],
            arcs: Vec::new(),
            into: vec![Vec::new(); count],
            from: vec![Vec::new(); count],
            making: problem.jobs.iter().map(|job| job.making).collect(),
            pairs: pairs(problem),
            checks: Vec::new(),
            heads: vec![problem.now.max(0); count],
            lasts: vec![FAR; count],
            tails: vec![0; count],
            counted: problem.jobs.iter().map(|job| !job.uncounted).collect(),
            fixed: problem.jobs.iter().map(|job| job.fixed.is_some()).collect(),
            now: problem.now.max(0),
            calm: if let super::super::Aim::Calm { by } = problem.aim { Some(by) } else { None },
            contradiction: false,
            impossible: Vec::new(),
        };
        model.presence = if problem.people.is_empty() { vec![(0, FAR)] } else { merged(&model.hours) };
        model.read_ovens(problem);
        model.read_loads(problem);
        model.read_tasks(problem);
        model.read_links(problem);
        model.read_served(problem);
        model.read_fixed(problem);
        model
    }

    pub fn count(&self) -> usize {
        self.minutes.len()
    }

    /// Every hands-on stretch.
    pub fn tasks(&self) -> impl Iterator<Item = &Task> {
        self.hands.iter().chain(&self.outs).flatten()
    }

    /// Minutes that the machine must have been on before the job starts: the warm-up it may need.
    pub fn warm_up_of(&self, job: usize) -> i64 {
        self.loads[job].iter().filter(|load| load.hot()).map(|load| self.ovens[load.machine].warm_up).max().unwrap_or(0)
    }

    /// The latest start of the job in a plan that finishes by `limit`.
    pub fn last(&self, job: usize, limit: i64) -> i64 {
        if self.tails[job] > NO_WAY / 2 { self.lasts[job].min(limit - self.tails[job]) } else { self.lasts[job] }
    }

    /// Whether the finish waits for the job.
    pub fn leads_to_finish(&self, job: usize) -> bool {
        self.tails[job] > NO_WAY / 2
    }

    /// The finish as far as it counts: calm plans have time up to a minute.
    pub fn counting(&self, finish: i64) -> i64 {
        self.calm.map_or(finish, |by| finish.max(by))
    }

    fn read_ovens(&mut self, problem: &Problem) {
        for (index, machine) in problem.machines.iter().enumerate() {
            let Some(heat) = &machine.heat else { continue };
            let mut degrees: Vec<f64> = problem
                .jobs
                .iter()
                .filter(|job| job.minutes() > 0 && job.machines.iter().any(|(at, _)| *at == index))
                .filter_map(|job| job.temperature)
                .collect();
            degrees.sort_by(f64::total_cmp);
            degrees.dedup_by(|a, b| (*a - *b).abs() < SAME_DEGREES);
            self.ovens[index] = Oven { degrees, near: heat.near.max(0.0), warm_up: heat.warm_up.max(0) };
        }
    }

    fn read_loads(&mut self, problem: &Problem) {
        for (index, job) in problem.jobs.iter().enumerate().filter(|(_, job)| job.minutes() > 0) {
            for &(machine, take) in &job.machines {
                if take > self.room[machine] {
                    self.impossible.push(Impossible::Room { job: index, machine });
                }
                let take = take.min(self.room[machine]).max(0);
                let mut settings = self.settings_for(machine, job.temperature);
                if let Some(stands) = job.fixed.and_then(|fixed| fixed.set_to) {
                    let same = |&setting: &usize| setting != COLD && (self.ovens[machine].degrees[setting] - stands).abs() < SAME_DEGREES;
                    if let Some(setting) = settings.iter().copied().find(same) {
                        settings = vec![setting];
                    }
                }
                self.watched[index] |= problem.machines[machine].watched;
                self.loads[index].push(Load { machine, take, settings, offset: 0, minutes: self.minutes[index] });
            }
        }
    }

    /// The settings in which a load of this temperature may stand: those at most `near` below it, warmest first.
    fn settings_for(&self, machine: usize, temperature: Option<f64>) -> Vec<usize> {
        let Oven { degrees, near, .. } = &self.ovens[machine];
        match temperature {
            _ if degrees.is_empty() => Vec::new(),
            None => std::iter::once(COLD).chain(0..degrees.len()).collect(),
            Some(wanted) => {
                let fits = |set: f64| set < wanted + SAME_DEGREES && wanted - set < near + SAME_DEGREES;
                (0..degrees.len()).rev().filter(|&index| fits(degrees[index])).collect()
            }
        }
    }

    fn read_tasks(&mut self, problem: &Problem) {
        for (index, job) in problem.jobs.iter().enumerate() {
            if job.hands + job.out <= 0 {
                continue;
            }
            let mut people: Vec<usize> = job.people.clone();
            people.sort_unstable();
            people.dedup();
            if people.is_empty() {
                self.impossible.push(Impossible::Nobody { job: index });
                continue;
            }
            let task = |offset, minutes, who: Option<usize>| {
                let over = job.fixed.is_some_and(|fixed| fixed.start + offset + minutes <= self.now);
                let people = who.map_or_else(|| people.clone(), |who| vec![who]);
                (minutes > 0 && !over).then_some(Task { job: index, offset, minutes, people })
            };
            self.hands[index] = task(0, job.hands, job.fixed.and_then(|fixed| fixed.person));
            self.outs[index] = task(job.hands + job.wait, job.out, job.fixed.and_then(|fixed| fixed.out_person));
        }
    }

    fn read_links(&mut self, problem: &Problem) {
        let circles = super::order::closing(problem);
        self.impossible.extend(circles.iter().map(|&link| Impossible::Circle { link }));
        for (index, link) in problem.links.iter().enumerate().filter(|(index, _)| circles.binary_search(index).is_err()) {
            if self.fixed[link.before] && self.fixed[link.after] {
                continue;
            }
            let minutes = length(&problem.jobs[link.before]);
            let kind = if link.why == LinkWhy::Safety { Kind::Safety } else { Kind::Within };
            let gap = link.gap.clamp(0, FAR);
            let hard_gap = link.why == LinkWhy::Safety || self.rules.keep(Kind::Gap);
            let check = |kind, sign, most| Check { kind, of: index, before: Some(link.before), after: link.after, sign, most };
            self.checks.extend(link.within.map(|within| check(kind, 1, minutes + within.min(FAR))));
            if gap > 0 && link.why != LinkWhy::Safety {
                self.checks.push(check(Kind::Gap, -1, -(minutes + gap)));
            }
            let most = link.within.filter(|_| self.rules.keep(kind)).map(|within| minutes + within.min(FAR));
            self.into[link.after].push(self.arcs.len());
            self.from[link.before].push(self.arcs.len());
            let least = minutes + if hard_gap { gap } else { 0 };
            self.arcs.push(Arc { before: link.before, after: link.after, least, most });
        }
    }

    fn read_served(&mut self, problem: &Problem) {
        for (index, job) in problem.jobs.iter().enumerate() {
            let Some(serve) = job.serve else { continue };
            let (first, last) = (serve.at - serve.hold.max(0) - length(job), serve.at - length(job));
            if self.rules.keep(Kind::Hold) {
                self.heads[index] = self.heads[index].max(first);
                self.lasts[index] = self.lasts[index].min(last);
            }
            let check = |sign, most| Check { kind: Kind::Hold, of: index, before: None, after: index, sign, most };
            self.checks.extend([check(1, last), check(-1, -first)]);
        }
    }

    /// What is under way stands where it stands; an oven stays as its last load found it, or is cold.
    fn read_fixed(&mut self, problem: &Problem) {
        for (index, job) in problem.jobs.iter().enumerate() {
            if let Some(fixed) = job.fixed {
                (self.heads[index], self.lasts[index]) = (fixed.start, fixed.start);
            }
        }
        if self.now == 0 {
            return;
        }
        for machine in 0..self.ovens.len() {
            let hot = |job: usize| self.loads[job].iter().any(|load| load.machine == machine && load.hot());
            let last = (0..self.count()).filter(|&job| self.fixed[job] && hot(job)).max_by_key(|&job| self.heads[job] + self.minutes[job]);
            if let Some(last) = last {
                self.minutes[last] = self.minutes[last].max(self.now - self.heads[last]);
                let minutes = self.minutes[last];
                self.loads[last].iter_mut().for_each(|load| load.minutes = minutes);
                continue;
            }
            for job in (0..self.count()).filter(|&job| !self.fixed[job] && hot(job)) {
                self.heads[job] = self.heads[job].max(self.now + self.ovens[machine].warm_up);
            }
        }
    }

    /// Tightens heads, lasts and tails until they agree with every arc; a circle that never settles is a contradiction.
    pub fn settle(&mut self, earliest: impl Fn(usize, i64) -> Option<i64>) {
        for job in 0..self.count() {
            self.tails[job] = if self.counted[job] { self.minutes[job] } else { NO_WAY };
        }
        let mut changed = true;
        for _ in 0..=self.count() + 1 {
            changed = self.settle_once(&earliest);
            if !changed || self.contradiction {
                break;
            }
        }
        self.contradiction |= changed;
    }

    fn settle_once(&mut self, earliest: &impl Fn(usize, i64) -> Option<i64>) -> bool {
        let mut changed = false;
        for job in (0..self.count()).filter(|&job| !self.fixed[job]) {
            match earliest(job, self.heads[job]) {
                Some(start) => changed |= raise(&mut self.heads[job], start),
                None => self.contradiction = true,
            }
        }
        for place in 0..self.arcs.len() {
            let Arc { before, after, least, most } = self.arcs[place];
            let (fixed, other) = (self.fixed[before], self.fixed[after]);
            let (first, second) = (self.heads[before], self.heads[after]);
            changed |= !other && raise(&mut self.heads[after], first + least);
            changed |= most.is_some_and(|most| !fixed && raise(&mut self.heads[before], second - most));
            let (first, second) = (self.lasts[before], self.lasts[after]);
            changed |= !fixed && lower(&mut self.lasts[before], second - least);
            changed |= most.is_some_and(|most| !other && lower(&mut self.lasts[after], first + most));
            let (first, second) = (self.tails[before], self.tails[after]);
            changed |= second > NO_WAY / 2 && raise(&mut self.tails[before], second + least);
            changed |= most.is_some_and(|most| first > NO_WAY / 2 && raise(&mut self.tails[after], first - most));
        }
        self.contradiction |= (0..self.count()).any(|job| self.heads[job] > self.lasts[job]);
        changed
    }
}

fn raise(value: &mut i64, least: i64) -> bool {
    let below = *value < least;
    *value = (*value).max(least);
    below
}

fn lower(value: &mut i64, most: i64) -> bool {
    let above = *value > most;
    *value = (*value).min(most);
    above
}

pub(super) fn length(job: &Job) -> i64 {
    job.minutes().max(0)
}

fn hours(problem: &Problem, rules: Rules) -> Vec<(i64, i64)> {
    let kept = rules.keep(Kind::Until);
    let until = |until: Option<i64>| if kept { until.unwrap_or(FAR).min(FAR) } else { FAR };
    problem.people.iter().map(|worker| (worker.from.max(0), until(worker.until))).collect()
}

pub(super) fn merged(hours: &[(i64, i64)]) -> Vec<(i64, i64)> {
    let mut sorted: Vec<(i64, i64)> = hours.iter().copied().filter(|(from, until)| from < until).collect();
    sorted.sort_unstable();
    let mut merged: Vec<(i64, i64)> = Vec::new();
    for (from, until) in sorted {
        match merged.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(until),
            _ => merged.push((from, until)),
        }
    }
    merged
}

/// Each job with the next job of its making, in the jobs' order.
fn pairs(problem: &Problem) -> Vec<(usize, usize)> {
    let mut last: std::collections::BTreeMap<usize, usize> = std::collections::BTreeMap::new();
    let pair = |(job, facts): (usize, &Job)| last.insert(facts.making, job).map(|before| (before, job));
    let mut pairs: Vec<(usize, usize)> = problem.jobs.iter().enumerate().filter_map(pair).collect();
    pairs.sort_unstable();
    pairs
}
