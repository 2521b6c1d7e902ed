//! From a schedule to the tasks of the guide, by the clock.

use super::boxes::box_task;
use super::cautions::is_pressure_cooker;
use super::fill::{FULL, FULL_WITH_SWELLING};
use super::names::handles_raw;
use super::tasks::{Origin, Part, Work};
use super::text::{again_text, first_word, making_text, preparations};
use super::{AsideTask, Doing, Note, PersonId, Schedule, Setting, StepTask, Task};
use crate::kitchen::{Appliance, ApplianceId, Kitchen, Recipe};
use crate::measure::{Celsius, Quantity};
use crate::plan::{Making, Makings};
use std::collections::BTreeMap;

/// The tasks in time order; at one time an appliance is set first, then recipes in the order of their makings. The second figure of
/// a pair is the job, or `None` for a setting. A task's number on paper is its place here, from 1.
pub(super) fn tasks(kitchen: &Kitchen, makings: &Makings, work: &Work, schedule: &Schedule) -> Vec<(Task, Option<usize>)> {
    let set = schedule.settings.iter().map(|setting| (set_task(setting), None));
    let planned = |job: &usize| !matches!(work.origins[*job].part, Part::Ahead { .. });
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

fn set_task(setting: &Setting) -> Task {
    Task {
        what: Doing::Set,
        start_minute: setting.start,
        hands_minutes: 0,
        out_minutes: 0,
        end_minute: setting.ready,
        person: None,
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
        return Task { what: Doing::Aside(aside_task(kitchen, making, of)), ..task };
    }
    let Part::Step { step, round, rounds, takes } = part else { return Task { what: Doing::Box(box_task(making)), ..task } };
    let recipe = &kitchen.recipes[making.recipe];
    let text = if round == 0 { making_text(kitchen, making, step) } else { again_text(kitchen, recipe, step) };
    let on = recipe.steps[step].on.clone();
    Task {
        what: Doing::Step(StepTask { recipe: making.recipe, step, round, rounds, text, verb: first_word(recipe, step) }),
        takes: (!on.is_empty()).then_some(takes as u32),
        on,
        notes: notes(kitchen, recipe, step, (round, rounds)),
        ..task
    }
}

fn aside_task(kitchen: &Kitchen, making: &Making, of: usize) -> AsideTask {
    let apart = &making.apart[of];
    let amount = Quantity::of(&kitchen.recipes[making.recipe].makes.dimension(), apart.amount.clone());
    AsideTask { recipe: making.recipe, eater: apart.who.clone(), amount, without: apart.without.clone() }
}

/// What stands in small print under the step.
fn notes(kitchen: &Kitchen, recipe: &Recipe, step: usize, (round, rounds): (usize, usize)) -> Vec<Note> {
    let mut notes = Vec::new();
    if round == 0 && rounds > 1 {
        notes.push(Note::AllRounds(rounds));
    }
    if round == 0 {
        notes.extend(preparations(kitchen, recipe, step));
    }
    notes.extend(recipe.steps[step].inside.map(Note::Inside));
    if handles_raw(kitchen, recipe, step) {
        notes.push(Note::Wash);
    }
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
