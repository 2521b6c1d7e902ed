//! From a schedule to the tasks of the guide, by the clock.

use super::boxes::{aside_task, rest_boxed};
use super::fill::{FULL, FULL_WITH_SWELLING, is_pressure_cooker};
use super::names::handles_raw;
use super::pieces::are_there_by;
use super::tasks::{Origin, Part, ServedHot, Work};
use super::text::{first_word, making_text, preparations, there_before};
use super::theirs::told_at;
use super::uses::first_uses;
use super::{BoxTask, Doing, LinkWhy, Note, PartOf, PersonId, Problem, Schedule, Setting, StepTask, Stood, Task};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Recipe};
use crate::measure::{Celsius, Minutes, Number, Quantity};
use crate::plan::{Kept, Making, Makings, Use, User};
use std::collections::BTreeMap;

/// The tasks in time order; at one time an appliance is set first, then recipes in the order of their makings. The second figure of
/// a pair is the job, or `None` for a setting. A task's number on paper is its place here, from 1.
pub(super) fn tasks(kitchen: &Kitchen, makings: &Makings, work: &Work, schedule: &Schedule) -> Vec<(Task, Option<usize>)> {
    let set = schedule.settings.iter().map(|setting| (set_task(setting, who_sets(work, schedule, setting.start)), None));
    let planned = |job: &usize| !matches!(work.origins[*job].part, Part::Ahead { .. } | Part::Hot);
    let jobs = (0..work.origins.len()).filter(planned).map(|job| (job_task(kitchen, makings, work, schedule, job), Some(job)));
    let mut tasks: Vec<(Task, Option<usize>)> = set.chain(jobs).collect();
    tasks.sort_by_key(|(task, job)| (task.start_minute, job.is_some(), *job));
    let places: Vec<Option<usize>> = tasks.iter().map(|(_, job)| *job).collect();
    let place = |job: usize| places.iter().position(|one| *one == Some(job));
    for (job, over) in late(work, schedule) {
        if let Some(place) = place(job) {
            tasks[place].0.notes.push(Note::Late(over));
        }
    }
    for (task, job) in &mut tasks {
        let Some(job) = job.filter(|_| task.person.is_none() && task.hands_minutes == 0 && task.step().is_some()) else { continue };
        task.person = who_sees_to(work, schedule, job);
    }
    for link in &work.problem.links {
        if let (Some(before), Some(after)) = (place(link.before), place(link.after)) {
            let known = &mut tasks[after].0.after;
            if !known.contains(&before) {
                known.push(before);
            }
        }
    }
    tasks
}

/// Jobs that no plan could start as soon after others as their recipe wants, with the minutes by which they are late at worst.
fn late(work: &Work, schedule: &Schedule) -> BTreeMap<usize, i64> {
    let mut late: BTreeMap<usize, i64> = BTreeMap::new();
    for (link, over) in &schedule.overrun {
        let known = late.entry(work.problem.links[*link].after).or_default();
        *known = (*known).max(*over);
    }
    late
}

fn set_task(setting: &Setting, person: Option<PersonId>) -> Task {
    Task {
        what: Doing::Set,
        start_minute: setting.start,
        hands_minutes: 0,
        out_minutes: 0,
        end_minute: setting.ready,
        person,
        out_person: None,
        on: vec![ApplianceId(setting.machine)],
        takes: None,
        at: Some(tidy(setting.celsius)),
        notes: vec![],
        after: vec![],
    }
}

fn job_task(kitchen: &Kitchen, makings: &Makings, work: &Work, schedule: &Schedule, job: usize) -> Task {
    let Origin { making, part } = work.origins[job];
    let (asked, placed) = (&work.problem.jobs[job], &schedule.placed[job]);
    let task = Task {
        what: Doing::WashUp,
        start_minute: placed.start,
        hands_minutes: asked.hands,
        out_minutes: asked.out,
        end_minute: placed.start + asked.minutes(),
        person: placed.person.map(PersonId),
        out_person: placed.out_person.map(PersonId),
        on: vec![],
        takes: None,
        at: placed.set_to.map(tidy),
        notes: vec![],
        after: vec![],
    };
    if part == Part::WashUp {
        return task;
    }
    let making = &makings.makings[making];
    if let Part::Aside { of, .. } = part {
        let mut aside = aside_task(kitchen, making, of);
        if let Some(chilled) = &mut aside.chilled {
            (chilled.by, chilled.stood) = (chilled_by(work, schedule, job), spoilt(&work.problem, job));
        }
        return Task { what: Doing::Aside(aside), ..task };
    }
    let Part::Step { step, round, rounds, takes } = part else {
        let notes = kept_back(makings, work, schedule, job);
        let task = Task { notes, ..task };
        return Task {
            what: Doing::Box(BoxTask {
                by: chilled_by(work, schedule, job),
                stood: spoilt(&work.problem, job),
                ..rest_boxed(kitchen, making)
            }),
            ..task
        };
    };
    let recipe = &kitchen.recipes[making.recipe];
    let share = share_of_round(work, job);
    let text = making_text(kitchen, making, step, &share);
    let uses = first_uses(kitchen, making, step, &share);
    let part = (rounds > 1).then(|| PartOf {
        there: there_before(kitchen, making, step, &share),
        pieces: pieces_of_round(recipe, making, step, &share),
        share,
    });
    let on = recipe.steps[step].on.clone();
    Task {
        what: Doing::Step(StepTask { recipe: making.recipe, step, round, rounds, text, part, verb: first_word(recipe, step), uses }),
        takes: (!on.is_empty()).then_some(takes as u32),
        // As hot as the recipe says, whether or not the appliance shares one temperature between its loads.
        at: task.at.or(recipe.steps[step].temperature.filter(|_| !on.is_empty())),
        on,
        notes: [told_at(work, schedule, job), notes(kitchen, recipe, step, round), for_the_table(recipe, work, schedule, job)].concat(),
        ..task
    }
}

/// Which part of its step a job is, by the room that each round takes.
fn share_of_round(work: &Work, job: usize) -> Number {
    let Origin { making, part: Part::Step { step, takes, .. } } = work.origins[job] else { return Number::ONE };
    let room = |origin: &Origin| match origin.part {
        Part::Step { step: of, takes, .. } if origin.making == making && of == step => takes,
        _ => 0,
    };
    let all: i64 = work.origins.iter().map(room).sum();
    if all == 0 { Number::ONE } else { Number::over(takes, all) }
}

/// Of biscuits on two trays of three: 16 of 24.
fn pieces_of_round(recipe: &Recipe, making: &Making, step: usize, share: &Number) -> Option<(Number, Number)> {
    let Quantity::Count(all) = &making.makes else { return None };
    let part = all * share;
    (are_there_by(recipe, step) && all.is_whole() && part.is_whole()).then(|| (part, all.clone()))
}

/// What of a boxed making goes into dishes whose steps that take it begin after the boxing.
fn kept_back(makings: &Makings, work: &Work, schedule: &Schedule, boxing: usize) -> Vec<Note> {
    let (number, making) = (work.problem.jobs[boxing].making, work.origins[boxing].making);
    let taken = |dish: usize| {
        let links = work.problem.links.iter().filter(|link| work.problem.jobs[link.before].making == number);
        let into = links.filter(|link| work.origins[link.after].making == dish);
        into.map(|link| schedule.placed[link.after].start).max()
    };
    let begun = schedule.placed[boxing].start;
    let straight = makings.makings[making].uses.iter().filter(|one| one.kept == Kept::Straight);
    let note = |one: &Use| {
        let User::Making(dish) = one.by else { return None };
        let later = taken(dish).is_some_and(|start| start >= begun);
        later.then(|| Note::KeepBack { amount: one.amount.clone(), dish: makings.makings[dish].recipe })
    };
    straight.filter_map(note).collect()
}

/// The minute by which what leaves the heat is in its box and cold: the earliest of its loads counts.
fn chilled_by(work: &Work, schedule: &Schedule, boxing: usize) -> Option<i64> {
    let hot = work.problem.links.iter().filter(|link| link.after == boxing && link.why == LinkWhy::Safety);
    hot.filter_map(|link| Some(schedule.placed[link.before].start + work.problem.jobs[link.before].minutes() + link.within?)).min()
}

/// Of a session under way: how long the loads of a boxing have stood, where the time of every one of them is over.
fn spoilt(problem: &Problem, boxing: usize) -> Option<Stood> {
    let safe = (0..problem.links.len()).filter(|link| problem.links[*link].after == boxing && problem.links[*link].why == LinkWhy::Safety);
    let loads: Option<Vec<Stood>> = safe.map(|link| stood(problem, link)).collect();
    loads?.into_iter().max_by_key(|load| load.minutes - load.limit)
}

/// How long the first of a link has stood by now, where that is longer than the link allows and the second has not begun.
pub(super) fn stood(problem: &Problem, link: usize) -> Option<Stood> {
    let link = &problem.links[link];
    let before = &problem.jobs[link.before];
    let (fixed, limit) = before.fixed.zip(link.within)?;
    let minutes = problem.now - (fixed.start + before.minutes());
    (minutes > limit && problem.jobs[link.after].fixed.is_none()).then_some(Stood { minutes, limit })
}

/// A step that takes nobody's time: what rises or cools by itself is its forerunner's; what goes into the heat is put there by whoever
/// made it ready, where their hands are free then, else by somebody who may and whose are.
fn who_sees_to(work: &Work, schedule: &Schedule, job: usize) -> Option<PersonId> {
    let (problem, minute) = (&work.problem, schedule.placed[job].start);
    let before = problem.links.iter().filter(|link| link.after == job && problem.jobs[link.before].making == problem.jobs[job].making);
    let before = before.max_by_key(|link| schedule.placed[link.before].start).map(|link| link.before);
    let before = before.and_then(|before| schedule.placed[before].out_person.or(schedule.placed[before].person));
    let hands = |person: usize| stretches(work, schedule, person).any(|(from, until)| from < minute && minute < until);
    let there = |person: &&usize| {
        let worker = &problem.people[**person];
        worker.from <= minute && worker.until.is_none_or(|until| minute <= until)
    };
    if problem.jobs[job].machines.is_empty() {
        return before.filter(|person| there(&person)).map(PersonId);
    }
    let may = problem.jobs[job].people.iter().filter(there);
    may.min_by_key(|person| (hands(**person), before != Some(**person), **person)).copied().map(PersonId)
}

/// When a person's hands are at work: from and until.
fn stretches<'w>(work: &'w Work, schedule: &'w Schedule, person: usize) -> impl Iterator<Item = (i64, i64)> + 'w {
    let jobs = work.problem.jobs.iter().zip(&schedule.placed);
    jobs.flat_map(move |(job, placed)| {
        let out = placed.start + job.hands + job.wait;
        let hands = (placed.person == Some(person)).then_some((placed.start, placed.start + job.hands));
        let taken_out = (placed.out_person == Some(person)).then_some((out, out + job.out));
        hands.into_iter().chain(taken_out)
    })
}

/// Setting an appliance takes nobody's time: whoever is free does it, else whoever is between two tasks, else whoever is there. Who may
/// work with heat comes first.
fn who_sets(work: &Work, schedule: &Schedule, minute: i64) -> Option<PersonId> {
    let hands = |person: usize| stretches(work, schedule, person);
    let there = |person: &usize| {
        let worker = &work.problem.people[*person];
        worker.from <= minute && worker.until.is_none_or(|until| minute < until)
    };
    let rank = |person: usize| {
        let within = hands(person).any(|(from, until)| from < minute && minute < until);
        let beside = hands(person).any(|(from, until)| until > from && (from == minute || until == minute));
        let may = work.people.get(person).is_some_and(|person| person.may.as_ref().is_none_or(|may| may.iter().any(|one| one == "heat")));
        (!may, within, beside, person)
    };
    (0..work.problem.people.len()).filter(there).min_by_key(|person| rank(*person)).map(PersonId)
}

/// What is kept hot for its meals says so where it leaves the heat for them; everything else when it is served, unless it is late.
fn for_the_table(recipe: &Recipe, work: &Work, schedule: &Schedule, job: usize) -> Vec<Note> {
    let ends_with = |served: &&ServedHot| served.last == job || served.others.contains(&job);
    let Some(served) = work.served.iter().find(ends_with) else { return Vec::new() };
    if recipe.hold_hot.is_some() {
        return served.meals.last().map(|meal| Note::KeepHot(*meal)).into_iter().collect();
    }
    let end = schedule.placed[job].start + work.problem.jobs[job].minutes();
    let in_time = work.problem.jobs[job].serve.is_some_and(|serve| end <= serve.at);
    served.meals.iter().filter(|_| served.last == job && in_time).map(|meal| Note::ServeAt(*meal)).collect()
}

/// What stands in small print under the step.
fn notes(kitchen: &Kitchen, recipe: &Recipe, step: usize, round: usize) -> Vec<Note> {
    let mut notes = Vec::new();
    if round == 0 {
        notes.extend(preparations(&kitchen.foods, &kitchen.recipes, recipe, step));
    }
    notes.extend(recipe.steps[step].inside.map(Note::Inside));
    if handles_raw(&kitchen.foods, recipe, step) {
        notes.push(Note::Wash);
    }
    let step_of = &recipe.steps[step];
    let comes_up = step_of.waits(&kitchen.appliances) - step_of.wait.0;
    notes.extend((comes_up > 0).then_some(Note::ComesUp(Minutes(comes_up))));
    let cookers = recipe.steps[step].on.iter().filter(|id| is_pressure_cooker(&kitchen.appliances[**id]));
    notes.extend(cookers.filter_map(|cooker| fill_limit(&kitchen.appliances[*cooker], *cooker)));
    notes
}

/// How full a pressure cooker of known size may be: common practice, no source.
fn fill_limit(appliance: &Appliance, cooker: ApplianceId) -> Option<Note> {
    let litres = appliance.holds?;
    let part = |share: f64| Quantity::millilitres(litres * 1000.0 * share);
    Some(Note::Fill { cooker, most: part(FULL), swelling: part(FULL_WITH_SWELLING) })
}

/// A temperature typed in Fahrenheit is not written with fifteen digits.
fn tidy(celsius: f64) -> Celsius {
    Celsius((celsius * 100.0).round() / 100.0)
}

#[cfg(test)]
mod tests;
