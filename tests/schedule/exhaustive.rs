//! Tiny sessions tried out completely: every start of every job, every choice of people, every way of cutting an oven's loads into runs.

use spence::prep::{Job, Link, LinkWhy, Problem};

/// (minutes by which safety, `until`, `within`, `gap` and `hold` are broken; finish; idle minutes): less is better, in this order.
pub type Cost = ([i64; 5], i64, i64);

/// The least cost of any plan in which everything ends by `horizon`; `None` where order, room, heat or hours leave no plan.
pub fn least(problem: &Problem, horizon: i64, below: Cost) -> Option<Cost> {
    let mut best = Best { problem, horizon, below, found: None };
    best.search(&mut Vec::new());
    best.found
}

struct Best<'a> {
    problem: &'a Problem,
    horizon: i64,
    below: Cost,
    found: Option<Cost>,
}

fn length(job: &Job) -> i64 {
    job.hands + job.wait + job.out
}

impl Best<'_> {
    fn search(&mut self, starts: &mut Vec<i64>) {
        let jobs = &self.problem.jobs;
        if starts.len() == jobs.len() {
            let cost = cost(self.problem, starts);
            if let Some(cost) = with_stays(self.problem, starts, cost, self.below) {
                self.below = cost;
                self.found = Some(cost);
            }
            return;
        }
        for start in 0..=self.horizon - length(&jobs[starts.len()]) {
            starts.push(start);
            if linked(self.problem, starts) && cost(self.problem, starts) < self.below {
                self.search(starts);
            }
            starts.pop();
        }
    }
}

fn between(problem: &Problem, starts: &[i64], before: usize, after: usize) -> i64 {
    starts[after] - starts[before] - length(&problem.jobs[before])
}

/// Order, and cooling before the box, between the jobs placed so far.
fn linked(problem: &Problem, starts: &[i64]) -> bool {
    problem.links.iter().filter(|link| link.before.max(link.after) < starts.len()).all(|link| {
        let gap = if link.why == LinkWhy::Safety { link.gap } else { 0 };
        gap <= between(problem, starts, link.before, link.after)
    })
}

/// Of the jobs placed so far, with nobody staying longer than meant.
fn cost(problem: &Problem, starts: &[i64]) -> Cost {
    let of = |job: usize| problem.links.iter().filter(move |link| link.after == job && link.before < starts.len());
    let late = |link: &Link| link.within.map_or(0, |most| (between(problem, starts, link.before, link.after) - most).max(0));
    let soon = |link: &Link| (link.gap - between(problem, starts, link.before, link.after)).max(0);
    let worst = |safety: bool, over: &dyn Fn(&Link) -> i64| -> i64 {
        let job = |job: usize| of(job).filter(|link| (link.why == LinkWhy::Safety) == safety).map(over).max().unwrap_or(0);
        (0..starts.len()).map(job).sum()
    };
    let unheld = |(start, job): (&i64, &Job)| {
        let end = start + length(job);
        job.serve.map_or(0, |serve| (serve.at - serve.hold - end).max(end - serve.at).max(0))
    };
    let hold = starts.iter().zip(&problem.jobs).map(unheld).sum();
    let counted = starts.iter().zip(&problem.jobs).filter(|(_, job)| !job.uncounted);
    let finish = counted.map(|(start, job)| start + length(job)).max().unwrap_or(0);
    let mut idle = 0;
    for job in 0..starts.len() {
        if let Some(next) = (job + 1..starts.len()).find(|&next| problem.jobs[next].making == problem.jobs[job].making) {
            idle += between(problem, starts, job, next).max(0);
        }
    }
    ([worst(true, &late), 0, worst(false, &late), worst(false, &soon), hold], finish, idle)
}

/// The cost with people staying longer by as few minutes in all as make the plan possible; `None` where it is not below `below`.
fn with_stays(problem: &Problem, starts: &[i64], cost: Cost, below: Cost) -> Option<Cost> {
    let mut anytime = problem.clone();
    anytime.people.iter_mut().for_each(|worker| worker.until = None);
    if cost >= below || !possible(&anytime, starts) {
        return None;
    }
    for total in 0.. {
        let mut cost = cost;
        cost.0[1] = total;
        if cost >= below {
            return None;
        }
        if stay(problem, starts, 0, total) {
            return Some(cost);
        }
    }
    None
}

/// Whether the plan is possible with the people from `person` on staying so many minutes between them.
fn stay(problem: &Problem, starts: &[i64], person: usize, total: i64) -> bool {
    if person == problem.people.len() {
        return total == 0 && possible(problem, starts);
    }
    let most = if problem.people[person].until.is_some() { total } else { 0 };
    (0..=most).any(|minutes| {
        let mut longer = problem.clone();
        longer.people[person].until = problem.people[person].until.map(|until| until + minutes);
        stay(&longer, starts, person + 1, total - minutes)
    })
}

fn possible(problem: &Problem, starts: &[i64]) -> bool {
    rooms(problem, starts)
        && (0..problem.machines.len()).all(|machine| heat(problem, starts, machine))
        && people(problem, &chores(problem, starts), &mut Vec::new())
}

fn present(problem: &Problem, from: i64, until: i64) -> bool {
    (from..until).all(|minute| problem.people.iter().any(|worker| worker.from <= minute && worker.until.is_none_or(|until| minute < until)))
}

fn rooms(problem: &Problem, starts: &[i64]) -> bool {
    let end = |job: usize| starts[job] + length(&problem.jobs[job]);
    let watched = |job: usize| problem.jobs[job].machines.iter().any(|(machine, _)| problem.machines[*machine].watched);
    let attended = |job: usize| !watched(job) || present(problem, starts[job], end(job));
    let room = |machine: usize, minute: i64| {
        let inside = (0..starts.len()).filter(|&job| starts[job] <= minute && minute < end(job));
        let taken: i64 = inside.flat_map(|job| &problem.jobs[job].machines).filter(|(at, _)| *at == machine).map(|(_, take)| take).sum();
        taken <= problem.machines[machine].room
    };
    (0..starts.len()).all(attended) && (0..starts.len()).all(|job| (0..problem.machines.len()).all(|machine| room(machine, starts[job])))
}

/// (job, start, end) of everything hands-on.
fn chores(problem: &Problem, starts: &[i64]) -> Vec<(usize, i64, i64)> {
    let mut chores = Vec::new();
    for (index, job) in problem.jobs.iter().enumerate() {
        let out = starts[index] + job.hands + job.wait;
        for (start, minutes) in [(starts[index], job.hands), (out, job.out)] {
            if minutes > 0 {
                chores.push((index, start, start + minutes));
            }
        }
    }
    chores
}

fn people(problem: &Problem, chores: &[(usize, i64, i64)], done: &mut Vec<usize>) -> bool {
    let Some(&(job, start, end)) = chores.get(done.len()) else { return true };
    problem.jobs[job].people.iter().any(|&person| {
        let worker = &problem.people[person];
        let there = worker.from <= start && worker.until.is_none_or(|until| end <= until);
        let busy = done.iter().zip(chores).any(|(&who, &(_, from, until))| who == person && from < end && start < until);
        if !there || busy {
            return false;
        }
        done.push(person);
        let possible = people(problem, chores, done);
        done.pop();
        possible
    })
}

/// Whether some of the loads can each be the first of a run so that every run has its warm-up and keeps its temperature.
fn heat(problem: &Problem, starts: &[i64], machine: usize) -> bool {
    let Some(facts) = &problem.machines[machine].heat else { return true };
    let holds = |job: &Job| length(job) > 0 && job.machines.iter().any(|(at, _)| *at == machine);
    let loads: Vec<usize> = (0..starts.len()).filter(|&job| holds(&problem.jobs[job])).collect();
    let mut hot: Vec<usize> = loads.iter().copied().filter(|&job| problem.jobs[job].temperature.is_some()).collect();
    hot.sort_by_key(|&job| starts[job]);
    let end = |job: usize| starts[job] + length(&problem.jobs[job]);
    (0..1_u32 << hot.len()).any(|first| {
        let mut run: Vec<usize> = Vec::new();
        hot.iter().enumerate().all(|(place, &job)| {
            let start = starts[job];
            if first >> place & 1 == 1 {
                run = vec![job];
                // Loads without a temperature may stand in the warm oven between its warm-up and the run's first load of its own.
                let warms = |from: i64| {
                    let warm = from + facts.warm_up;
                    let empty = loads.iter().all(|&other| end(other) <= from || starts[other] >= warm);
                    let done = hot[..place].iter().all(|&other| end(other) <= from);
                    empty && done && present(problem, from, start)
                };
                return (0..=start - facts.warm_up).any(warms);
            }
            run.push(job);
            let wanted = |&job: &usize| problem.jobs[job].temperature.unwrap_or_default();
            let (low, high) = run.iter().map(wanted).fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
            run.len() > 1 && high - low <= facts.near + 1e-6 && present(problem, starts[run[0]], start)
        })
    })
}
