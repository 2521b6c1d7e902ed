//! A plan carried out by slower hands, in its own order: when it would end, and which limits would break.
//!
//! Everybody does the same things in the same order, every appliance takes its loads in the same order, and nothing starts sooner than
//! planned. A load whose turn to be taken out has not come stays in. Waits, gaps and warm-ups are as long as ever.

use super::super::{Limit, LinkWhy, Problem, Schedule};
use super::model::length;

/// What comes of it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Slower {
    /// The minute at which the last thing that counts is done.
    pub finish: i64,
    /// Limits broken, with all the minutes by which they are; in the order of [`Limit`]. Whoever stays only to watch does so as planned.
    pub breaks: Vec<(Limit, i64)>,
    /// Loads that stay in longer than their wait: (job, minutes).
    pub left_in: Vec<(usize, i64)>,
}

/// A hundredth of a minute is the unit of the reckoning, so that a tenth more of 3 min is 3.3 min.
const UNIT: i64 = 100;

/// The plan with all hands-on minutes of what is not yet under way so many percent longer.
pub fn slower(problem: &Problem, plan: &Schedule, percent: i64) -> Slower {
    let mut run = Run::new(problem, plan, percent);
    run.settle();
    let counted = (0..problem.jobs.len()).filter(|&job| !problem.jobs[job].uncounted);
    let finish = counted.map(|job| whole(run.end(job))).max().unwrap_or(0);
    let left_in =
        (0..problem.jobs.len()).map(|job| (job, whole(run.out[job] - run.start[job] - run.hands[job] - problem.jobs[job].wait * UNIT)));
    Slower { finish, breaks: run.breaks(), left_in: left_in.filter(|(_, minutes)| *minutes > 0).collect() }
}

/// The minute at which each job then ends.
pub fn slower_ends(problem: &Problem, plan: &Schedule, percent: i64) -> Vec<i64> {
    let mut run = Run::new(problem, plan, percent);
    run.settle();
    (0..problem.jobs.len()).map(|job| whole(run.end(job))).collect()
}

fn whole(units: i64) -> i64 {
    (units + UNIT - 1).div_euclid(UNIT)
}

/// A start, or the minute at which a load is taken out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Point {
    Start(usize),
    Out(usize),
}

/// A stretch of work as planned: from, its point, its minutes.
type Stint = (i64, Point);

struct Run<'a> {
    problem: &'a Problem,
    plan: &'a Schedule,
    /// One a job, in hundredths of a minute.
    hands: Vec<i64>,
    outs: Vec<i64>,
    start: Vec<i64>,
    out: Vec<i64>,
    /// The second comes so long after the end of the first.
    after: Vec<(Point, Point, i64)>,
}

impl<'a> Run<'a> {
    fn new(problem: &'a Problem, plan: &'a Schedule, percent: i64) -> Run<'a> {
        let slow = |job: usize, minutes: i64| minutes * if problem.jobs[job].fixed.is_some() { UNIT } else { UNIT + percent };
        let jobs = problem.jobs.iter().enumerate();
        let mut run = Run {
            problem,
            plan,
            hands: jobs.clone().map(|(job, facts)| slow(job, facts.hands)).collect(),
            outs: jobs.clone().map(|(job, facts)| slow(job, facts.out)).collect(),
            start: plan.placed.iter().map(|placed| placed.start * UNIT).collect(),
            out: jobs.map(|(job, facts)| (plan.placed[job].start + facts.hands + facts.wait) * UNIT).collect(),
            after: Vec::new(),
        };
        run.order_people();
        run.order_machines();
        for (index, link) in problem.links.iter().enumerate() {
            let short = plan.hurried.iter().find(|(hurried, _)| *hurried == index).map_or(0, |(_, minutes)| *minutes);
            run.after.push((Point::Out(link.before), Point::Start(link.after), (link.gap - short).max(0) * UNIT));
        }
        run
    }

    fn order_people(&mut self) {
        let mut stints: Vec<Vec<Stint>> = vec![Vec::new(); self.problem.people.len()];
        for (job, (facts, placed)) in self.problem.jobs.iter().zip(&self.plan.placed).enumerate() {
            if let Some(person) = placed.person {
                stints[person].push((placed.start, Point::Start(job)));
            }
            if let Some(person) = placed.out_person {
                stints[person].push((placed.start + facts.hands + facts.wait, Point::Out(job)));
            }
        }
        for mut row in stints {
            row.sort_by_key(|stint| stint.0);
            self.after.extend(row.windows(2).map(|pair| (pair[0].1, pair[1].1, 0)));
        }
    }

    /// A load waits for those that must have left before it as planned, and for the warm-up between two temperatures.
    fn order_machines(&mut self) {
        let Run { problem, plan, .. } = *self;
        let begin = |job: usize| plan.placed[job].start;
        let end = |job: usize| begin(job) + length(&problem.jobs[job]);
        for (machine, facts) in problem.machines.iter().enumerate() {
            let take = |job: usize| problem.jobs[job].machines.iter().find(|(at, _)| *at == machine).map(|(_, take)| *take);
            let loads: Vec<(usize, i64)> = (0..problem.jobs.len()).filter_map(|job| Some((job, take(job)?))).collect();
            for &(job, mine) in loads.iter().filter(|(job, _)| end(*job) > begin(*job)) {
                let beside = loads.iter().filter(|(other, _)| *other != job && begin(*other) <= begin(job) && end(*other) > begin(job));
                let taken: i64 = beside.map(|(_, take)| *take).sum();
                for &(other, theirs) in loads.iter().filter(|(other, _)| *other != job && end(*other) <= begin(job)) {
                    let (hot, anew) = (plan.placed[job].set_to, plan.placed[other].set_to);
                    let warm_up = facts.heat.as_ref().filter(|_| hot.is_some() && anew.is_some() && hot != anew).map(|heat| heat.warm_up);
                    if taken + mine + theirs > facts.room || warm_up.is_some() {
                        self.after.push((Point::Out(other), Point::Start(job), warm_up.unwrap_or(0) * UNIT));
                    }
                }
            }
        }
    }

    fn end(&self, job: usize) -> i64 {
        self.out[job] + self.outs[job]
    }

    /// When the work that begins at the point is done.
    fn done(&self, point: Point) -> i64 {
        match point {
            Point::Start(job) => self.start[job] + self.hands[job],
            Point::Out(job) => self.end(job),
        }
    }

    /// When the wait of the job is over.
    fn waited(&self, job: usize) -> i64 {
        self.start[job] + self.hands[job] + self.problem.jobs[job].wait * UNIT
    }

    /// What is past when the plan begins.
    fn stands(&self, point: Point) -> bool {
        match point {
            Point::Start(job) => self.problem.jobs[job].fixed.is_some(),
            Point::Out(job) => {
                self.problem.jobs[job].fixed.is_some_and(|one| one.start + self.problem.jobs[job].minutes() <= self.problem.now)
            }
        }
    }

    /// Puts off what must wait until nothing must.
    fn settle(&mut self) {
        let to_come: Vec<(Point, Point, i64)> = self.after.iter().copied().filter(|(_, second, _)| !self.stands(*second)).collect();
        self.after = to_come;
        // In the order of the plan one round settles nearly all.
        let (start, out) = (self.start.clone(), self.out.clone());
        self.after.sort_by_key(|(_, second, _)| match *second {
            Point::Start(job) => start[job],
            Point::Out(job) => out[job],
        });
        for _ in 0..=self.after.len() + self.start.len() {
            let mut moved = false;
            for &(first, second, gap) in &self.after {
                if let Point::Out(job) = first {
                    self.out[job] = self.out[job].max(self.waited(job));
                }
                let ready = self.done(first) + gap;
                let place = match second {
                    Point::Start(job) => &mut self.start[job],
                    Point::Out(job) => &mut self.out[job],
                };
                moved |= *place < ready;
                *place = (*place).max(ready);
            }
            for job in 0..self.start.len() {
                let ready = self.waited(job);
                moved |= self.out[job] < ready;
                self.out[job] = self.out[job].max(ready);
            }
            if !moved {
                return;
            }
        }
    }

    fn breaks(&self) -> Vec<(Limit, i64)> {
        let mut broken = Vec::new();
        let to_come = |after: usize| self.problem.jobs[after].fixed.is_none();
        for (index, link) in self.problem.links.iter().enumerate().filter(|(_, link)| to_come(link.after)) {
            let between = self.start[link.after] - self.end(link.before);
            if let Some(within) = link.within {
                let safety = link.why == LinkWhy::Safety;
                let limit = if safety { Limit::Safety { link: index } } else { Limit::Within { link: index } };
                broken.push((limit, between - within * UNIT));
            }
            if self.plan.hurried.iter().any(|(hurried, _)| *hurried == index) {
                broken.push((Limit::Gap { link: index }, link.gap * UNIT - between));
            }
        }
        for (job, facts) in self.problem.jobs.iter().enumerate().filter(|(job, _)| to_come(*job)) {
            let Some(serve) = facts.serve else { continue };
            let end = self.end(job);
            broken.push((Limit::Hold { job }, ((serve.at - serve.hold) * UNIT - end).max(end - serve.at * UNIT)));
        }
        for (person, worker) in self.problem.people.iter().enumerate() {
            let stays = self.plan.stays.iter().find(|(who, _)| *who == person).map_or(0, |(_, minutes)| *minutes);
            let Some(until) = worker.until else { continue };
            broken.push((Limit::Until { person }, (self.last_stint(person) - until * UNIT).max(stays * UNIT)));
        }
        broken.retain(|(_, over)| *over > 0);
        broken.sort_unstable();
        broken.into_iter().map(|(limit, over)| (limit, whole(over))).collect()
    }

    /// When the person has done their last.
    fn last_stint(&self, person: usize) -> i64 {
        let jobs = self.plan.placed.iter().enumerate();
        let ends = jobs.flat_map(|(job, placed)| {
            let hands = (placed.person == Some(person)).then(|| self.done(Point::Start(job)));
            let out = (placed.out_person == Some(person)).then(|| self.done(Point::Out(job)));
            [hands, out].into_iter().flatten()
        });
        ends.max().unwrap_or(i64::MIN / 2)
    }
}
