//! From the settings that loads stand in to the runs of an oven: what it is set to, and when it is brought there.
//!
//! A run is a longest row of loads, by start, in one setting with somebody present from the first to the last: when everybody leaves, the
//! oven is off, and warms up again. A run is set to the lowest temperature that a load of it wants, and warms up right before its first
//! load.

use super::super::{Problem, Setting};
use super::board::Seat;
use super::model::{COLD, Model};

struct Run {
    setting: usize,
    start: i64,
    stretch: usize,
    jobs: Vec<usize>,
}

/// What each job's machine with heat is set to, and the settings by time.
pub(super) fn settings(problem: &Problem, model: &Model, seats: &[Seat]) -> (Vec<Option<f64>>, Vec<Setting>) {
    let mut set_to = vec![None; seats.len()];
    let mut settings = Vec::new();
    for machine in 0..model.ovens.len() {
        let mut last: Option<(f64, usize)> = None;
        for run in runs(model, machine, seats) {
            let wanted = run.jobs.iter().filter_map(|&job| problem.jobs[job].temperature);
            let Some(celsius) = wanted.min_by(f64::total_cmp) else { continue };
            for &job in run.jobs.iter().filter(|&&job| problem.jobs[job].temperature.is_some()) {
                set_to[job] = set_to[job].or(Some(celsius));
            }
            if last != Some((celsius, run.stretch)) {
                let sooner = i64::from(sooner(model, seats, machine, run.start - model.ovens[machine].warm_up));
                let ready = run.start - sooner;
                settings.push(Setting { machine, celsius, start: ready - model.ovens[machine].warm_up, ready });
            }
            last = Some((celsius, run.stretch));
        }
    }
    settings.sort_by_key(|setting| (setting.start, setting.machine));
    (set_to, settings)
}

/// Whether the machine is better set the minute before: it is empty then, somebody is there, and somebody has their hands free.
fn sooner(model: &Model, seats: &[Seat], machine: usize, start: i64) -> bool {
    let before = start - 1;
    let present = |minute: i64| model.presence.iter().any(|&(from, until)| from <= minute && minute < until);
    let holds = |job: usize| model.loads[job].iter().any(|load| load.machine == machine);
    let stands = |job: usize| seats[job].start <= before && before < seats[job].start + model.minutes[job];
    let may = before >= model.now && present(before) && present(start) && !(0..seats.len()).any(|job| holds(job) && stands(job));
    may && someone(model, start) && !someone_free(model, seats, start) && someone_free(model, seats, before)
}

fn there(model: &Model, minute: i64) -> impl Iterator<Item = usize> {
    (0..model.hours.len()).filter(move |&person| model.hours[person].0 <= minute && minute < model.until[person])
}

fn someone(model: &Model, minute: i64) -> bool {
    there(model, minute).next().is_some()
}

/// Whether somebody who is there has nothing in hand, or is between two things.
fn someone_free(model: &Model, seats: &[Seat], minute: i64) -> bool {
    let within = |person: usize, task: &super::model::Task, who: Option<usize>| {
        let at = seats[task.job].start + task.offset;
        who == Some(person) && at < minute && minute < at + task.minutes
    };
    let busy = |person: usize| {
        let hands = model.hands.iter().flatten().any(|task| within(person, task, seats[task.job].hands));
        hands || model.outs.iter().flatten().any(|task| within(person, task, seats[task.job].out))
    };
    there(model, minute).any(|person| !busy(person))
}

fn runs(model: &Model, machine: usize, seats: &[Seat]) -> Vec<Run> {
    let mut loads: Vec<(i64, usize, usize)> = Vec::new();
    for (job, seat) in seats.iter().enumerate() {
        for (load, setting) in model.loads[job].iter().zip(&seat.settings) {
            if let Some(setting) = setting.filter(|&setting| load.machine == machine && setting != COLD) {
                loads.push((seat.start, job, setting));
            }
        }
    }
    loads.sort_unstable();
    let stretch = |start: i64| model.presence.iter().filter(|(from, _)| *from <= start).count();
    let mut runs: Vec<Run> = Vec::new();
    for (start, job, setting) in loads {
        match runs.last_mut() {
            Some(run) if run.setting == setting && run.stretch == stretch(start) => run.jobs.push(job),
            _ => runs.push(Run { setting, start, stretch: stretch(start), jobs: vec![job] }),
        }
    }
    runs
}
