//! People as so many pairs of hands: planned first, named afterwards.
//!
//! Between two people alike, a stretch of free hands may begin with the one and end with the other; a plan with names in it does not see
//! that. Where everybody who may do a task is like everybody else who may, hands are room of a machine, and names are given in the end:
//! as many people as hands are never too few (interval graphs are perfect; see `hands.rs`).

use std::collections::BTreeMap;

use super::board::Seat;
use super::cost::Plan;
use super::hands::{hand_out, is_pool};
use super::model::{FAR, Load, Model};

/// The model with hands as machines; `None` where people are not alike, where they may stay longer than they mean to, or where nobody has a
/// choice.
pub(super) fn pooled(model: &Model) -> Option<Model> {
    let groups: Vec<&[usize]> = model.tasks().map(|task| task.people.as_slice()).collect();
    let stays = model.hours.iter().zip(&model.until).any(|(hours, &until)| hours.1 > until);
    let choice = groups.iter().any(|people| people.len() > 1);
    if stays || !choice || !alike(model) {
        return None;
    }
    let mut pooled = model.clone();
    let mut machines: BTreeMap<&[usize], usize> = BTreeMap::new();
    for people in groups {
        machines.entry(people).or_insert_with(|| {
            pooled.room.push(people.len() as i64);
            pooled.ovens.push(super::model::Oven::default());
            pooled.room.len() - 1
        });
    }
    for task in model.tasks() {
        let machine = machines[task.people.as_slice()];
        let (from, until) = model.hours[task.people[0]];
        let load = Load { machine, take: 1, settings: Vec::new(), offset: task.offset, minutes: task.minutes };
        pooled.loads[task.job].push(load);
        let (head, last) = (from - task.offset, until.min(FAR) - task.offset - task.minutes);
        if !model.fixed[task.job] {
            pooled.heads[task.job] = pooled.heads[task.job].max(head);
            pooled.lasts[task.job] = pooled.lasts[task.job].min(last);
        }
    }
    pooled.hands.iter_mut().chain(&mut pooled.outs).for_each(|task| *task = None);
    Some(pooled)
}

/// Whether everybody who may do a task is like everybody else who may.
pub(super) fn alike(model: &Model) -> bool {
    model.tasks().all(|task| is_pool(model, &task.people))
}

/// A plan of the model, told of hands only.
pub(super) fn unnamed(pooled: &Model, plan: &Plan) -> Plan {
    let seat = |(seat, loads): (&Seat, &Vec<Load>)| {
        let mut seat = Seat { hands: None, out: None, ..seat.clone() };
        seat.settings.resize(loads.len(), None);
        seat
    };
    Plan::of(pooled, plan.seats.iter().zip(&pooled.loads).map(seat).collect())
}

/// The plan with a name to every task.
pub(super) fn named(model: &Model, plan: &Plan) -> Option<Plan> {
    let mut seats = plan.seats.clone();
    for (job, seat) in seats.iter_mut().enumerate() {
        seat.settings.truncate(model.loads[job].len());
        let only = |task: &Option<super::model::Task>| task.as_ref().filter(|task| task.people.len() == 1).map(|task| task.people[0]);
        (seat.hands, seat.out) = (only(&model.hands[job]), only(&model.outs[job]));
    }
    hand_out(model, &mut seats, false).then(|| Plan::of(model, seats))
}
