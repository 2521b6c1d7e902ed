//! An independent reading of the rules: every way in which a plan could be wrong, minute by minute, sharing no code with the planner.

use spence::prep::{Impossible, Job, LinkWhy, Placed, Problem, Schedule};

/// Every rule that the plan breaks, in words; empty where it holds them all but the overruns that it admits.
pub fn faults(problem: &Problem, plan: &Schedule) -> Vec<String> {
    let mut faults = Vec::new();
    if plan.placed.len() != problem.jobs.len() {
        return vec![format!("{} jobs are placed of {}", plan.placed.len(), problem.jobs.len())];
    }
    let ends = |counted: bool| plan.placed.iter().zip(&problem.jobs).filter(move |(_, job)| !counted || !job.uncounted);
    let last = |counted| ends(counted).map(|(placed, job)| placed.start + length(job)).max().unwrap_or(0);
    let end = last(true);
    if end != plan.finish {
        faults.push(format!("the last end is {end}, the finish {}", plan.finish));
    }
    if plan.bound > plan.finish || plan.proven != (plan.bound == plan.finish) {
        faults.push(format!("bound {} and finish {} do not go with proven {}", plan.bound, plan.finish, plan.proven));
    }
    check_people(problem, plan, &mut faults);
    check_minutes(problem, plan, last(false), &mut faults);
    check_heat(problem, plan, &mut faults);
    check_links(problem, plan, &mut faults);
    check_served(problem, plan, &mut faults);
    faults
}

fn length(job: &Job) -> i64 {
    job.hands + job.wait + job.out
}

/// (person, start, end, job) of everything hands-on.
fn chores(problem: &Problem, plan: &Schedule, faults: &mut Vec<String>) -> Vec<(usize, i64, i64, usize)> {
    let mut chores = Vec::new();
    for (index, (job, placed)) in problem.jobs.iter().zip(&plan.placed).enumerate() {
        if placed.start < 0 {
            faults.push(format!("job {index} starts at {}", placed.start));
        }
        let out_at = placed.start + job.hands + job.wait;
        for (person, start, minutes) in [(placed.person, placed.start, job.hands), (placed.out_person, out_at, job.out)] {
            match person {
                Some(person) if minutes > 0 => chores.push((person, start, start + minutes, index)),
                Some(_) => faults.push(format!("job {index} has a person and nothing to do")),
                None if minutes > 0 => faults.push(format!("job {index} has nobody")),
                None => {}
            }
        }
    }
    chores
}

fn check_people(problem: &Problem, plan: &Schedule, faults: &mut Vec<String>) {
    let chores = chores(problem, plan, faults);
    for (place, &(person, start, end, job)) in chores.iter().enumerate() {
        if !problem.jobs[job].people.contains(&person) {
            faults.push(format!("person {person} may not do job {job}"));
        }
        let worker = &problem.people[person];
        if start < worker.from || leaves(problem, plan, person).is_some_and(|until| end > until) {
            faults.push(format!("person {person} is not there for job {job} at {start}"));
        }
        for &(other, from, until, second) in &chores[place + 1..] {
            if other == person && from < end && start < until {
                faults.push(format!("person {person} does jobs {job} and {second} at once"));
            }
        }
    }
}

/// When a person leaves: as meant, and by so much later as the plan admits.
fn leaves(problem: &Problem, plan: &Schedule, person: usize) -> Option<i64> {
    let stays = plan.stays.iter().find(|(who, _)| *who == person).map_or(0, |(_, minutes)| *minutes);
    problem.people[person].until.map(|until| until + stays)
}

fn there(problem: &Problem, plan: &Schedule, minute: i64) -> bool {
    let here = |person: usize| problem.people[person].from <= minute && leaves(problem, plan, person).is_none_or(|until| minute < until);
    (0..problem.people.len()).any(here)
}

fn runs_at(job: &Job, placed: &Placed, minute: i64) -> bool {
    placed.start <= minute && minute < placed.start + length(job)
}

fn check_minutes(problem: &Problem, plan: &Schedule, end: i64, faults: &mut Vec<String>) {
    for minute in 0..end {
        for (machine, facts) in problem.machines.iter().enumerate() {
            let running = problem.jobs.iter().zip(&plan.placed).filter(|(job, placed)| runs_at(job, placed, minute));
            let takes = running.flat_map(|(job, _)| &job.machines).filter(|(at, _)| *at == machine);
            let taken: Vec<i64> = takes.map(|(_, take)| *take).collect();
            if taken.iter().sum::<i64>() > facts.room {
                faults.push(format!("machine {machine} holds {taken:?} at {minute}"));
            }
            let warming = plan.settings.iter().any(|set| set.machine == machine && set.start <= minute && minute < set.ready);
            if warming && !taken.is_empty() {
                faults.push(format!("machine {machine} holds something while it warms up at {minute}"));
            }
            if facts.watched && (warming || !taken.is_empty()) && !there(problem, plan, minute) {
                faults.push(format!("machine {machine} runs at {minute} and nobody is there"));
            }
        }
    }
}

fn check_heat(problem: &Problem, plan: &Schedule, faults: &mut Vec<String>) {
    for (machine, facts) in problem.machines.iter().enumerate() {
        let Some(heat) = &facts.heat else { continue };
        let mut sets: Vec<_> = plan.settings.iter().filter(|set| set.machine == machine).collect();
        sets.sort_by_key(|set| set.ready);
        for set in &sets {
            if set.ready - set.start != heat.warm_up || set.start < 0 {
                faults.push(format!("machine {machine} warms up from {} to {}", set.start, set.ready));
            }
        }
        for (index, (job, placed)) in problem.jobs.iter().zip(&plan.placed).enumerate() {
            let holds = length(job) > 0 && job.machines.iter().any(|(at, _)| *at == machine);
            let (true, Some(wanted)) = (holds, job.temperature) else { continue };
            let Some(run) = sets.iter().rposition(|set| set.ready <= placed.start) else {
                faults.push(format!("job {index} stands in machine {machine} before it is warm"));
                continue;
            };
            let set = sets[run].celsius;
            if set > wanted + 1e-6 || wanted - set > heat.near + 1e-6 {
                faults.push(format!("job {index} wants {wanted} and stands at {set}"));
            }
            if sets.get(run + 1).is_some_and(|next| next.start < placed.start + length(job)) {
                faults.push(format!("machine {machine} is set anew while job {index} is inside"));
            }
            if problem.jobs[index].machines.iter().filter(|(at, _)| problem.machines[*at].heat.is_some()).count() == 1
                && placed.set_to != Some(set)
            {
                faults.push(format!("job {index} is told {:?}, machine {machine} stands at {set}", placed.set_to));
            }
        }
    }
}

fn check_links(problem: &Problem, plan: &Schedule, faults: &mut Vec<String>) {
    for (index, link) in problem.links.iter().enumerate() {
        let between = plan.placed[link.after].start - plan.placed[link.before].start - length(&problem.jobs[link.before]);
        let hurried = admitted(&plan.hurried, index);
        if between < 0 || link.why == LinkWhy::Safety && hurried > 0 || (link.gap - between).max(0) != hurried {
            faults.push(format!("link {index} leaves {between} of {}, the plan says {hurried} too few", link.gap));
        }
        let over = link.within.map_or(0, |within| (between - within).max(0));
        let safety = |broken: &Impossible| if let Impossible::Safety { link, minutes } = broken { Some((*link, *minutes)) } else { None };
        let unsafe_by: Vec<(usize, i64)> = plan.impossible.iter().filter_map(safety).collect();
        let admitted = if link.why == LinkWhy::Safety { admitted(&unsafe_by, index) } else { admitted(&plan.overrun, index) };
        if over != admitted {
            faults.push(format!("link {index} is overrun by {over}, the plan says {admitted}"));
        }
    }
}

fn admitted(broken: &[(usize, i64)], index: usize) -> i64 {
    broken.iter().find(|(of, _)| *of == index).map_or(0, |(_, minutes)| *minutes)
}

fn check_served(problem: &Problem, plan: &Schedule, faults: &mut Vec<String>) {
    for (index, (job, placed)) in problem.jobs.iter().zip(&plan.placed).enumerate() {
        let Some(serve) = job.serve else { continue };
        let early = serve.at - serve.hold - placed.start - length(job);
        let late = placed.start + length(job) - serve.at;
        let admitted = admitted(&plan.unheld, index);
        if early.max(late).max(0) != admitted {
            faults.push(format!("job {index} ends {early} too early or {late} too late, the plan says {admitted}"));
        }
    }
}

/// Minutes by which limits of recipes, or of safety, are overrun: a job that starts too late after several others counts once, with the
/// worst.
pub fn overrun(problem: &Problem, plan: &Schedule, safety: bool) -> i64 {
    let broken: Vec<(usize, i64)> = if safety {
        let minutes = |broken: &Impossible| if let Impossible::Safety { link, minutes } = broken { Some((*link, *minutes)) } else { None };
        plan.impossible.iter().filter_map(minutes).collect()
    } else {
        plan.overrun.clone()
    };
    worst(problem, &broken)
}

/// Minutes by which jobs start sooner than their `gap` allows, by the worst of each.
pub fn hurried(problem: &Problem, plan: &Schedule) -> i64 {
    worst(problem, &plan.hurried)
}

fn worst(problem: &Problem, broken: &[(usize, i64)]) -> i64 {
    let of_job = |job: usize| broken.iter().filter(|(link, _)| problem.links[*link].after == job).map(|(_, minutes)| *minutes).max();
    (0..problem.jobs.len()).filter_map(of_job).sum()
}

/// Minutes between the end of each job and the start of the next of its making, summed up.
pub fn idle(problem: &Problem, plan: &Schedule) -> i64 {
    let mut last: std::collections::BTreeMap<usize, i64> = std::collections::BTreeMap::new();
    let mut idle = 0;
    for (job, placed) in problem.jobs.iter().zip(&plan.placed) {
        if let Some(end) = last.insert(job.making, placed.start + length(job)) {
            idle += (placed.start - end).max(0);
        }
    }
    idle
}
