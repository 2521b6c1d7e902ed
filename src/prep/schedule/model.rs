//! The problem made ready for planning: hands-on tasks, loads of machines, earliest starts, shortest ways to the end.
//!
//! It knows which rules are in force ([`Rules`]) and nothing of how a plan is found.

use super::super::{Impossible, LinkWhy, Problem};

/// A minute that no plan reaches: about two years.
pub(super) const FAR: i64 = 1_000_000;

/// Temperatures closer than this are the same: far below what a dial shows, far above rounding of converted degrees.
const SAME_DEGREES: f64 = 1e-6;

/// Which rules a plan must keep. Room, temperature, order and one thing at a time are always kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rules {
    /// `within` of recipes.
    pub within: bool,
    /// `within` of safety.
    pub safety: bool,
    /// The hours of people.
    pub hours: bool,
}

impl Rules {
    pub const ALL: Rules = Rules { within: true, safety: true, hours: true };
    pub const NONE: Rules = Rules { within: false, safety: false, hours: false };
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
    pub warm_up: i64,
}

/// `start(after) - start(before) >= least`, and `<= most`.
#[derive(Debug, Clone)]
pub(super) struct Arc {
    pub link: usize,
    pub before: usize,
    pub after: usize,
    pub least: i64,
    pub most: Option<i64>,
}

#[derive(Debug, Clone)]
pub(super) struct Model {
    pub minutes: Vec<i64>,
    pub loads: Vec<Vec<Load>>,
    pub hands: Vec<Option<Task>>,
    pub outs: Vec<Option<Task>>,
    /// One a machine.
    pub room: Vec<i64>,
    pub ovens: Vec<Oven>,
    /// One a person: present from, until.
    pub hours: Vec<(i64, i64)>,
    /// When anybody is present: disjoint, ascending, merged where they touch.
    pub presence: Vec<(i64, i64)>,
    pub arcs: Vec<Arc>,
    /// Arcs by the job they lead to, and from.
    pub into: Vec<Vec<usize>>,
    pub from: Vec<Vec<usize>>,
    /// One a job.
    pub making: Vec<usize>,
    /// (job, next job of the same making): the idle minutes between them count.
    pub pairs: Vec<(usize, usize)>,
    /// Earliest start and least minutes from a job's start to the finish, as far as links and hours tell; `None` where they contradict.
    pub heads: Vec<i64>,
    pub tails: Vec<i64>,
    pub contradiction: bool,
    pub impossible: Vec<Impossible>,
}

impl Model {
    pub fn new(problem: &Problem, rules: Rules) -> Model {
        let count = problem.jobs.len();
        let mut model = Model {
            minutes: problem.jobs.iter().map(|job| job.minutes().max(0)).collect(),
            loads: vec![Vec::new(); count],
            hands: vec![None; count],
            outs: vec![None; count],
            room: problem.machines.iter().map(|machine| machine.room).collect(),
            ovens: vec![Oven::default(); problem.machines.len()],
            hours: hours(problem, rules),
            presence: Vec::new(),
            arcs: Vec::new(),
            into: vec![Vec::new(); count],
            from: vec![Vec::new(); count],
            making: problem.jobs.iter().map(|job| job.making).collect(),
            pairs: pairs(problem),
            heads: vec![0; count],
            tails: vec![0; count],
            contradiction: false,
            impossible: Vec::new(),
        };
        model.presence = if rules.hours { merged(&model.hours) } else { vec![(0, FAR)] };
        model.read_ovens(problem);
        model.read_loads(problem);
        model.read_tasks(problem);
        model.read_links(problem, rules);
        model
    }

    pub fn count(&self) -> usize {
        self.minutes.len()
    }

    /// Every hands-on stretch.
    pub fn tasks(&self) -> impl Iterator<Item = &Task> {
        self.hands.iter().chain(&self.outs).flatten()
    }

    /// Minutes that somebody must be present before the job starts: the warm-up it may need.
    pub fn warm_up_of(&self, job: usize) -> i64 {
        self.loads[job].iter().filter(|load| load.hot()).map(|load| self.ovens[load.machine].warm_up).max().unwrap_or(0)
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
            self.ovens[index] = Oven { degrees, warm_up: heat.warm_up.max(0) };
        }
    }

    fn read_loads(&mut self, problem: &Problem) {
        for (index, job) in problem.jobs.iter().enumerate().filter(|(_, job)| job.minutes() > 0) {
            for &(machine, take) in &job.machines {
                if take > self.room[machine] {
                    self.impossible.push(Impossible::Room { job: index, machine });
                }
                let take = take.min(self.room[machine]).max(0);
                let settings = self.settings_for(problem, machine, job.temperature);
                self.loads[index].push(Load { machine, take, settings });
            }
        }
    }

    /// The settings in which a load of this temperature may stand: those at most `near` below it, warmest first.
    fn settings_for(&self, problem: &Problem, machine: usize, temperature: Option<f64>) -> Vec<usize> {
        let degrees = &self.ovens[machine].degrees;
        let near = problem.machines[machine].heat.as_ref().map_or(0.0, |heat| heat.near.max(0.0));
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
            let task = |offset, minutes| Task { job: index, offset, minutes, people: people.clone() };
            self.hands[index] = (job.hands > 0).then(|| task(0, job.hands));
            self.outs[index] = (job.out > 0).then(|| task(job.hands + job.wait, job.out));
        }
    }

    fn read_links(&mut self, problem: &Problem, rules: Rules) {
        let circles = super::order::closing(problem);
        self.impossible.extend(circles.iter().map(|&link| Impossible::Circle { link }));
        for (index, link) in problem.links.iter().enumerate().filter(|(index, _)| !circles.contains(index)) {
            let minutes = self.minutes[link.before];
            let kept = match link.why {
                LinkWhy::Within => rules.within,
                LinkWhy::Safety => rules.safety,
                LinkWhy::Order => true,
            };
            let most = link.within.filter(|_| kept).map(|within| minutes + within);
            self.into[link.after].push(self.arcs.len());
            self.from[link.before].push(self.arcs.len());
            self.arcs.push(Arc { link: index, before: link.before, after: link.after, least: minutes + link.gap, most });
        }
    }

    /// Tightens heads and tails until they agree with every arc; a circle that never settles is a contradiction.
    pub fn settle(&mut self, earliest: impl Fn(usize, i64) -> Option<i64>) {
        self.tails.clone_from(&self.minutes);
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
        let before = (self.heads.clone(), self.tails.clone());
        for job in 0..self.count() {
            match earliest(job, self.heads[job]) {
                Some(start) => self.heads[job] = start,
                None => self.contradiction = true,
            }
        }
        for arc in &self.arcs {
            self.heads[arc.after] = self.heads[arc.after].max(self.heads[arc.before] + arc.least);
            self.tails[arc.before] = self.tails[arc.before].max(self.tails[arc.after] + arc.least);
            if let Some(most) = arc.most {
                self.heads[arc.before] = self.heads[arc.before].max(self.heads[arc.after] - most);
                self.tails[arc.after] = self.tails[arc.after].max(self.tails[arc.before] - most);
            }
        }
        before != (self.heads.clone(), self.tails.clone())
    }
}

fn hours(problem: &Problem, rules: Rules) -> Vec<(i64, i64)> {
    let window = |from: i64, until: Option<i64>| if rules.hours { (from.max(0), until.unwrap_or(FAR).min(FAR)) } else { (0, FAR) };
    problem.people.iter().map(|worker| window(worker.from, worker.until)).collect()
}

fn merged(hours: &[(i64, i64)]) -> Vec<(i64, i64)> {
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
    let next = |job: usize| (job + 1..problem.jobs.len()).find(|&other| problem.jobs[other].making == problem.jobs[job].making);
    (0..problem.jobs.len()).filter_map(|job| Some((job, next(job)?))).collect()
}
