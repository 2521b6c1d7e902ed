//! Constraints of people: one hands-on thing at a time, within their hours.
//!
//! People who keep the same hours and may do the same tasks are a *pool*: which of them does a task need not be searched, since as many
//! tracks as people can always be coloured when never more tasks overlap. Other tasks get one literal a person.

use std::collections::BTreeSet;

use pumpkin_solver::core::predicates::PredicateConstructor;
use pumpkin_solver::core::variables::{Literal, TransformableVariable};

use super::board::Seat;
use super::exact::Exact;
use super::model::{FAR, Model, Task};

pub(super) fn post(exact: &mut Exact) {
    let tasks: Vec<Task> = exact.model.tasks().cloned().collect();
    for task in &tasks {
        post_hours(exact, task);
    }
    post_totals(exact, &tasks);
    if !exact.named {
        return post_alone(exact, &tasks);
    }
    let (pooled, chosen): (Vec<Task>, Vec<Task>) = tasks.into_iter().partition(|task| is_pool(exact.model, &task.people));
    post_alone(exact, &pooled);
    post_chosen(exact, &chosen);
}

/// Whether these people are alike, and share no task with anybody else.
pub(super) fn is_pool(model: &Model, people: &[usize]) -> bool {
    let hours = |person: usize| (model.hours[person], model.until[person]);
    let stays = !model.rules.keep(super::model::Kind::Until) && people.iter().any(|&person| model.until[person] < FAR);
    if stays && people.len() > 1 {
        return false;
    }
    let same_hours = people.iter().all(|&person| hours(person) == hours(people[0]));
    same_hours && model.tasks().all(|task| task.people == people || task.people.iter().all(|person| !people.contains(person)))
}

fn is_out(task: &Task, model: &Model) -> bool {
    task.offset > 0 || model.hands[task.job].is_none()
}

/// Somebody who may do it is there. With a choice of people this follows from the choice, and is said once more for all together.
fn post_hours(exact: &mut Exact, task: &Task) {
    let windows: Vec<(i64, i64)> = task.people.iter().map(|&person| window(exact.model, task, person)).collect();
    let first = windows.iter().map(|window| window.0).min().unwrap_or(0);
    let last = windows.iter().map(|window| window.1).max().unwrap_or(0);
    let start = exact.starts[task.job];
    exact.clause(vec![start.lower_bound_predicate(first.max(0) as i32)]);
    exact.clause(vec![start.upper_bound_predicate(last.max(-1) as i32)]);
}

/// Earliest and latest start of the task's job if this person does the task.
fn window(model: &Model, task: &Task, person: usize) -> (i64, i64) {
    let (from, until) = model.hours[person];
    (from - task.offset, until - task.offset - task.minutes)
}

/// What only certain people may do never overlaps more than they are.
fn post_totals(exact: &mut Exact, tasks: &[Task]) {
    let mut groups: BTreeSet<Vec<usize>> = tasks.iter().map(|task| task.people.clone()).collect();
    groups.insert((0..exact.model.hours.len()).collect());
    for group in groups.into_iter().filter(|group| group.len() > 1) {
        let loads: Vec<(usize, i64, i64, i64)> = tasks
            .iter()
            .filter(|task| task.people.iter().all(|person| group.contains(person)))
            .map(|task| (task.job, task.offset, task.minutes, 1))
            .collect();
        if loads.len() <= group.len() {
            continue;
        }
        let limit = exact.limit;
        let away = |&person: &usize| {
            let (from, until) = exact.model.hours[person];
            [(0, from.min(limit)), (until.clamp(0, limit), limit)]
        };
        let away: Vec<(i64, i64)> = group.iter().flat_map(away).collect();
        exact.cumulative(&loads, &away, group.len() as i64);
    }
}

/// Tasks that only one person can do come one after another; a pool of several is held by the totals.
fn post_alone(exact: &mut Exact, tasks: &[Task]) {
    for task in tasks.iter().filter(|task| task.people.len() == 1) {
        stay(exact, task, task.people[0], None);
    }
    for (index, one) in tasks.iter().enumerate().filter(|(_, task)| task.people.len() == 1) {
        for other in tasks[index + 1..].iter().filter(|other| other.people == one.people && other.job != one.job) {
            let (there, back) = distances(one, other);
            exact.one_after_the_other((one.job, other.job), there, back);
        }
    }
}

/// Minutes between the starts of the two tasks' jobs if the first task comes first, and if the second does.
fn distances(one: &Task, other: &Task) -> (i64, i64) {
    (one.offset + one.minutes - other.offset, other.offset + other.minutes - one.offset)
}

fn post_chosen(exact: &mut Exact, tasks: &[Task]) {
    let choices: Vec<Vec<(usize, Option<Literal>)>> = tasks.iter().map(|task| choice(exact, task)).collect();
    for (index, one) in tasks.iter().enumerate() {
        for (place, other) in tasks.iter().enumerate().skip(index + 1) {
            if one.job != other.job {
                post_rivals(exact, (one, &choices[index]), (other, &choices[place]));
            }
        }
    }
}

/// One literal a person who may do the task; exactly one is true, and it holds the task within the person's hours.
fn choice(exact: &mut Exact, task: &Task) -> Vec<(usize, Option<Literal>)> {
    if let [only] = task.people[..] {
        stay(exact, task, only, None);
        return vec![(only, None)];
    }
    let literals: Vec<(usize, Literal)> = match task.people[..] {
        [one, other] => {
            let literal = exact.literal();
            vec![(one, literal), (other, !literal)]
        }
        _ => task.people.iter().map(|&person| (person, exact.literal())).collect(),
    };
    if literals.len() > 2 {
        exact.clause(literals.iter().map(|(_, literal)| literal.get_true_predicate()).collect());
        for (index, (_, one)) in literals.iter().enumerate() {
            for (_, other) in &literals[index + 1..] {
                exact.clause(vec![one.get_false_predicate(), other.get_false_predicate()]);
            }
        }
    }
    let start = exact.starts[task.job];
    for &(person, literal) in &literals {
        stay(exact, task, person, Some(literal));
        let (first, last) = window(exact.model, task, person);
        if first > 0 {
            exact.clause(vec![literal.get_false_predicate(), start.lower_bound_predicate(first as i32)]);
        }
        if last < FAR - task.offset - task.minutes {
            exact.clause(vec![literal.get_false_predicate(), start.upper_bound_predicate(last.max(-1) as i32)]);
        }
    }
    exact.doers.insert((task.job, is_out(task, exact.model)), literals.clone());
    literals.into_iter().map(|(person, literal)| (person, Some(literal))).collect()
}

/// Whoever does the task stays until it is done.
fn stay(exact: &mut Exact, task: &Task, person: usize, literal: Option<Literal>) {
    let Some(stay) = exact.stays[person] else { return };
    let most = exact.model.until[person] - task.offset - task.minutes;
    let terms = vec![exact.starts[task.job].scaled(1), stay.scaled(-1)];
    match literal {
        Some(literal) => exact.at_most_if(terms, most, literal),
        None => exact.at_most(terms, most),
    }
}

type Choice<'a> = (&'a Task, &'a [(usize, Option<Literal>)]);

/// Two tasks done by one person come one after the other.
fn post_rivals(exact: &mut Exact, (one, mine): (&Task, &[(usize, Option<Literal>)]), (other, theirs): Choice) {
    let shared = |person: usize| theirs.iter().find(|(there, _)| *there == person);
    if mine.iter().all(|(person, _)| shared(*person).is_none()) {
        return;
    }
    let (there, back) = distances(one, other);
    if mine.len() == 1 && theirs.len() == 1 {
        return exact.one_after_the_other((one.job, other.job), there, back);
    }
    let orders = [exact.before(one.job, other.job, there), exact.before(other.job, one.job, back)];
    for (person, literal) in mine {
        if let Some((_, theirs)) = shared(*person) {
            let unless = [literal, theirs].into_iter().flatten().map(|literal| literal.get_false_predicate()).collect();
            exact.ordered_unless(orders, unless);
        }
    }
}

/// Gives each task that has nobody to somebody, in order of time: to whoever is free and may do least. False where somebody is missing.
pub(super) fn hand_out(model: &Model, seats: &mut [Seat], named: bool) -> bool {
    let mut tasks: Vec<&Task> = model.tasks().filter(|task| task.people.len() > 1).collect();
    let open = |task: &&Task| !named || is_pool(model, &task.people);
    tasks.retain(open);
    tasks.sort_by_key(|task| (seats[task.job].start + task.offset, task.people.len(), task.job));
    let mut may = vec![0; model.hours.len()];
    model.tasks().for_each(|task| task.people.iter().for_each(|&person| may[person] += 1));
    let mut busy: Vec<Vec<(i64, i64)>> = vec![Vec::new(); model.hours.len()];
    for task in model.tasks().filter(|task| task.people.len() == 1) {
        let at = seats[task.job].start + task.offset;
        busy[task.people[0]].push((at, at + task.minutes));
    }
    for task in tasks {
        let at = seats[task.job].start + task.offset;
        let until = at + task.minutes;
        let free = |person: usize| {
            let (from, leaves) = model.hours[person];
            from <= at && until <= leaves && busy[person].iter().all(|stretch| stretch.0 >= until || stretch.1 <= at)
        };
        let person = task.people.iter().copied().filter(|&person| free(person)).min_by_key(|&person| (may[person], person));
        let Some(person) = person else { return false };
        busy[person].push((at, until));
        if is_out(task, model) {
            seats[task.job].out = Some(person);
        } else {
            seats[task.job].hands = Some(person);
        }
    }
    true
}
