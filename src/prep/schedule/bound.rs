//! Minutes below which no plan can finish, from sums that need no search.
//!
//! - the longest way through the links, with its gaps, hands, waits and warm-up (already in heads and tails);
//! - for any set of loads of one machine: the earliest head, their work over the room, the shortest tail;
//! - for any set of hands-on tasks that only certain people may do: the same, over those people and their hours.

use std::collections::BTreeSet;

use super::model::{FAR, Model};

/// A stretch of work that cannot start before `head` nor leave less than `tail` minutes after it.
#[derive(Debug, Clone, Copy)]
struct Work {
    head: i64,
    minutes: i64,
    tail: i64,
}

/// The best of the bounds.
pub(super) fn bound(model: &Model) -> i64 {
    let way = (0..model.count()).map(|job| model.heads[job] + model.tails[job]).max().unwrap_or(0).max(0);
    let machines = (0..model.room.len()).map(|machine| of_machine(model, machine)).max().unwrap_or(0);
    way.max(machines).max(of_people(model))
}

fn of_machine(model: &Model, machine: usize) -> i64 {
    let loads = (0..model.count()).flat_map(|job| model.loads[job].iter().map(move |load| (job, load)));
    let works: Vec<Work> = loads
        .filter(|(job, load)| load.machine == machine && load.take > 0 && model.leads_to_finish(*job))
        .map(|(job, load)| Work {
            head: model.heads[job],
            minutes: model.minutes[job] * load.take,
            tail: model.tails[job] - model.minutes[job],
        })
        .collect();
    let room = model.room[machine].max(1);
    densest(&works, |head, work| head + (work + room - 1) / room).max(of_runs(model, machine))
}

/// Loads of an oven whose temperatures do not go together stand in different runs, with a warm-up between every two.
fn of_runs(model: &Model, machine: usize) -> i64 {
    let oven = &model.ovens[machine];
    let room = model.room[machine].max(1);
    let mut loads: Vec<(f64, Work)> = Vec::new();
    for job in (0..model.count()).filter(|&job| model.leads_to_finish(job)) {
        for load in model.loads[job].iter().filter(|load| load.machine == machine && load.hot() && load.take > 0) {
            // The warmest of its settings is what it wants.
            let wanted = load.settings.iter().map(|&setting| oven.degrees[setting]).fold(f64::MIN, f64::max);
            let tail = model.tails[job] - model.minutes[job];
            loads.push((wanted, Work { head: model.heads[job], minutes: model.minutes[job] * load.take, tail }));
        }
    }
    loads.sort_by(|a, b| a.0.total_cmp(&b.0));
    let heads: BTreeSet<i64> = loads.iter().map(|load| load.1.head).collect();
    let tails: BTreeSet<i64> = loads.iter().map(|load| load.1.tail).collect();
    let mut best = 0;
    for &head in heads.iter().take(MOST_EDGES) {
        for &tail in tails.iter().take(MOST_EDGES) {
            let (mut work, mut runs, mut from) = (0, 0, f64::MIN);
            for (wanted, load) in loads.iter().filter(|load| load.1.head >= head && load.1.tail >= tail) {
                work += load.minutes;
                if *wanted > from + oven.near + 1e-6 {
                    (runs, from) = (runs + 1, *wanted);
                }
            }
            if runs > 0 {
                best = best.max(head + (work + room - 1) / room + (runs - 1) * oven.warm_up + tail);
            }
        }
    }
    best
}

/// So many different heads and tails are looked at.
const MOST_EDGES: usize = 60;

fn of_people(model: &Model) -> i64 {
    let groups: BTreeSet<&[usize]> = model.tasks().map(|task| task.people.as_slice()).collect();
    let all: Vec<usize> = (0..model.hours.len()).collect();
    groups.into_iter().chain(std::iter::once(all.as_slice())).map(|group| of_group(model, group)).max().unwrap_or(0)
}

/// What only people of the group may do takes their time between them.
fn of_group(model: &Model, group: &[usize]) -> i64 {
    let works: Vec<Work> = model
        .tasks()
        .filter(|task| model.leads_to_finish(task.job) && task.people.iter().all(|person| group.contains(person)))
        .map(|task| Work {
            head: model.heads[task.job] + task.offset,
            minutes: task.minutes,
            tail: model.tails[task.job] - task.offset - task.minutes,
        })
        .collect();
    let hours: Vec<(i64, i64)> = group.iter().map(|&person| model.hours[person]).collect();
    densest(&works, |head, work| worked_off(&hours, head, work))
}

/// The minute at which the group, all at work from `head` on, has done so much.
fn worked_off(hours: &[(i64, i64)], head: i64, work: i64) -> i64 {
    let mut edges: Vec<i64> = hours.iter().flat_map(|&(from, until)| [from.max(head), until.max(head)]).collect();
    edges.push(head);
    edges.sort_unstable();
    let mut left = work;
    for (index, &edge) in edges.iter().enumerate() {
        let there = hours.iter().filter(|&&(from, until)| from <= edge && until > edge).count() as i64;
        let next = edges.get(index + 1).copied().unwrap_or(edge);
        if there * (next - edge) >= left {
            return edge + if there == 0 { 0 } else { (left + there - 1) / there };
        }
        left -= there * (next - edge);
    }
    FAR
}

/// The greatest of `done(least head, sum of work) + least tail` over sets with heads and tails above two thresholds.
fn densest(works: &[Work], done: impl Fn(i64, i64) -> i64) -> i64 {
    let heads: BTreeSet<i64> = works.iter().map(|work| work.head).collect();
    let mut by_tail: Vec<&Work> = works.iter().collect();
    by_tail.sort_by_key(|work| -work.tail);
    let mut best = 0;
    let every = 1 + heads.len() * works.len() / 200_000;
    for head in heads.into_iter().step_by(every) {
        let mut sum = 0;
        for work in by_tail.iter().filter(|work| work.head >= head) {
            sum += work.minutes;
            best = best.max(done(head, sum) + work.tail);
        }
    }
    best
}
