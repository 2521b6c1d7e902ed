//! How good a plan is: the limits it breaks, when it ends, how long things stand about, who hands over to whom.
//!
//! A turn is somebody's coming back to a making that they left for another.

use super::board::Seat;
use super::model::{FAR, KINDS, Kind, Model, merged};

/// Less is better, in the order of the fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Cost {
    /// Minutes by which limits are broken, by [`Kind`].
    pub broken: [i64; KINDS],
    /// Of a calm plan only what lies beyond its time.
    pub finish: i64,
    pub idle: i64,
    pub hand_overs: i64,
    /// Minutes of helpers, below zero.
    pub unhelped: i64,
    pub turns: i64,
}

/// A whole plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Plan {
    pub seats: Vec<Seat>,
    pub finish: i64,
    pub cost: Cost,
}

impl Plan {
    pub fn of(model: &Model, seats: Vec<Seat>) -> Plan {
        let finish = finish(model, &seats);
        let cost = cost(model, &seats, finish);
        Plan { seats, finish, cost }
    }
}

pub(super) fn finish(model: &Model, seats: &[Seat]) -> i64 {
    let ends = seats.iter().enumerate().filter(|(job, _)| model.counted[*job]).map(|(job, seat)| seat.start + model.minutes[job]);
    ends.max().unwrap_or(0)
}

fn cost(model: &Model, seats: &[Seat], finish: i64) -> Cost {
    let (hand_overs, unhelped, turns) = by_name(model, seats);
    Cost { broken: broken(model, seats), finish: model.counting(finish), idle: idle(model, seats), hand_overs, unhelped, turns }
}

pub(super) fn idle(model: &Model, seats: &[Seat]) -> i64 {
    model.pairs.iter().map(|&(job, next)| (seats[next].start - seats[job].start - model.minutes[job]).max(0)).sum()
}

pub(super) fn broken(model: &Model, seats: &[Seat]) -> [i64; KINDS] {
    let mut broken = [0; KINDS];
    if !model.checks.is_empty() {
        let mut worst = vec![[0; KINDS]; seats.len()];
        for (place, minutes) in overs(model, seats) {
            let check = &model.checks[place];
            let known = &mut worst[check.after][check.kind as usize];
            *known = minutes.max(*known);
        }
        worst.iter().for_each(|of_job| (0..KINDS).for_each(|kind| broken[kind] += of_job[kind]));
    }
    if model.until.iter().any(|&until| until < FAR) {
        broken[Kind::Until as usize] = stays(model, seats).iter().sum();
    }
    broken
}

/// (place among the checks, minutes) for each limit that is broken, but those of people.
pub(super) fn overs(model: &Model, seats: &[Seat]) -> Vec<(usize, i64)> {
    let over = |(place, check): (usize, &super::model::Check)| {
        let from = check.before.map_or(0, |before| seats[before].start);
        let over = check.sign * (seats[check.after].start - from) - check.most;
        (over > 0 && !model.fixed[check.after]).then_some((place, over))
    };
    model.checks.iter().enumerate().filter_map(over).collect()
}

/// By how many minutes each stays longer than meant: for what they do, and for what must be watched.
pub(super) fn stays(model: &Model, seats: &[Seat]) -> Vec<i64> {
    let mut leave = model.until.clone();
    for (seat, (hands, outs)) in seats.iter().zip(model.hands.iter().zip(&model.outs)) {
        for (task, person) in [(hands, seat.hands), (outs, seat.out)] {
            if let (Some(task), Some(person)) = (task, person) {
                leave[person] = leave[person].max(seat.start + task.offset + task.minutes);
            }
        }
    }
    let watched = (0..seats.len()).filter(|&job| model.watched[job] && !model.fixed[job]);
    let mut watched: Vec<(i64, i64)> =
        watched.map(|job| (seats[job].start - model.warm_up_of(job), seats[job].start + model.minutes[job])).collect();
    watched.sort_unstable();
    for (from, until) in watched {
        watch(model, &mut leave, from, until);
    }
    leave.iter().zip(&model.until).map(|(leave, until)| leave - until).collect()
}

/// Whoever leaves last before a stretch that nobody watches stays for it.
fn watch(model: &Model, leave: &mut [i64], from: i64, until: i64) {
    let mut at = from;
    while at < until {
        let there: Vec<usize> = (0..leave.len()).filter(|&person| model.hours[person].0 <= at).collect();
        let Some(&last) = there.iter().max_by_key(|&&person| (leave[person], std::cmp::Reverse(person))) else { return };
        if leave[last] <= at {
            let comes = model.hours.iter().map(|hours| hours.0).filter(|&comes| comes > at).min().unwrap_or(FAR);
            leave[last] = until.min(comes);
        }
        at = leave[last];
    }
}

/// When somebody is there, with everybody staying as long as the plan has them.
pub(super) fn presence(model: &Model, stays: &[i64]) -> Vec<(i64, i64)> {
    let hours = (0..stays.len()).map(|person| (model.hours[person].0, model.until[person] + stays[person]));
    merged(&hours.collect::<Vec<_>>())
}

/// Hand-overs, minutes of helpers (below zero), and turns: how often somebody comes back to a making that they left for another.
fn by_name(model: &Model, seats: &[Seat]) -> (i64, i64, i64) {
    if model.hours.len() < 2 && seats.len() < 2 {
        return (0, 0, 0);
    }
    let mut last: Vec<Option<usize>> = vec![None; model.making.iter().max().map_or(0, |most| most + 1)];
    let mut hand_overs = 0;
    let mut unhelped = 0;
    let mut stints: Vec<Vec<(i64, usize)>> = vec![Vec::new(); model.hours.len()];
    for (job, seat) in seats.iter().enumerate() {
        let making = model.making[job];
        if let Some(person) = seat.hands {
            hand_overs += i64::from(last[making].replace(person).is_some_and(|before| before != person));
        }
        for (task, person) in [(&model.hands[job], seat.hands), (&model.outs[job], seat.out)] {
            if let (Some(task), Some(person)) = (task, person) {
                unhelped -= if model.helper[person] { task.minutes } else { 0 };
                stints[person].push((seat.start + task.offset, making));
            }
        }
    }
    (hand_overs, unhelped, stints.into_iter().map(turns).sum())
}

fn turns(mut stints: Vec<(i64, usize)>) -> i64 {
    stints.sort_unstable();
    stints.dedup_by_key(|stint| stint.1);
    let mut makings: Vec<usize> = stints.iter().map(|stint| stint.1).collect();
    makings.sort_unstable();
    makings.dedup();
    (stints.len() - makings.len()) as i64
}
