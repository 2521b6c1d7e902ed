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
                let start = run.start - model.ovens[machine].warm_up;
                settings.push(Setting { machine, celsius, start, ready: run.start });
            }
            last = Some((celsius, run.stretch));
        }
    }
    settings.sort_by_key(|setting| (setting.start, setting.machine));
    (set_to, settings)
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
