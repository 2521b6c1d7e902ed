//! An independent reading of the rules: every way in which a plan could be wrong, minute by minute, sharing no code with the planner.

use spence::prep::{Job, Placed, Problem, Schedule};

/// Every rule that the plan breaks, in words; empty where it holds them all but the overruns that it admits.
pub fn faults(problem: &Problem, plan: &Schedule) -> Vec<String> {
    let mut faults = Vec::new();
    if plan.placed.len() != problem.jobs.len() {
        return vec![format!("{} jobs are placed of {}", plan.placed.len(), problem.jobs.len())];
    }
    let end = plan.placed.iter().zip(&problem.jobs).map(|(placed, job)| placed.start + length(job)).max().unwrap_or(0);
    if end != plan.finish {
        faults.push(format!("the last end is {end}, the finish {}", plan.finish));
    }
    if plan.bound > plan.finish || plan.proven != (plan.bound == plan.finish) {
        faults.push(format!("bound {} and finish {} do not go with proven {}", plan.bound, plan.finish, plan.proven));
    }
    check_people(problem, plan, &mut faults);
    check_minutes(problem, plan, end, &mut faults);
    check_heat(problem, plan, &mut faults);
    check_links(problem, plan, &mut faults);
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
        if start < worker.from || worker.until.is_some_and(|until| end > until) {
            faults.push(format!("person {person} is not there for job {job} at {start}"));
        }
        for &(other, from, until, second) in &chores[place + 1..] {
            if other == person && from < end && start < until {
                faults.push(format!("person {person} does jobs {job} and {second} at once"));
            }
        }
    }
}

fn there(problem: &Problem, minute: i64) -> bool {
    problem.people.iter().any(|worker| worker.from <= minute && worker.until.is_none_or(|until| minute < until))
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
            if (warming || !taken.is_empty()) && !there(problem, minute) {
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
        if between < link.gap {
            faults.push(format!("link {index} leaves {between} of {}", link.gap));
        }
        let over = link.within.map_or(0, |within| (between - within).max(0));
        let admitted = plan.overrun.iter().find(|(link, _)| *link == index).map_or(0, |(_, minutes)| *minutes);
        if over != admitted {
            faults.push(format!("link {index} is overrun by {over}, the plan says {admitted}"));
        }
    }
}

/// Minutes by which limits are overrun: a job that starts too late after several others counts once, with the worst.
pub fn overrun(problem: &Problem, plan: &Schedule) -> i64 {
    let of_job = |job: usize| plan.overrun.iter().filter(|(link, _)| problem.links[*link].after == job).map(|(_, minutes)| *minutes).max();
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
