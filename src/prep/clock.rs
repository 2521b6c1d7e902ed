//! From a schedule to the tasks of the guide, by the clock.

use super::boxes::box_text;
use super::cautions::is_pressure_cooker;
use super::fill::{FULL, FULL_WITH_SWELLING};
use super::names::handles_raw;
use super::tasks::{Origin, Part, Work};
use super::text::{again_text, preparations, step_text};
use super::{Schedule, Setting, Task, TaskKind};
use crate::kitchen::{Appliance, Kitchen, Piece, Recipe, Step};
use crate::measure::{Celsius, Quantity, Units, show};
use crate::plan::{Making, Makings};
use crate::words::{degrees, duration, in_a_sentence, sentence};
use std::collections::BTreeMap;

/// The tasks in time order; at one time an appliance is set first, then recipes in the order of their makings. The second figure of
/// a pair is the job, or `None` for a setting. A task's number on paper is its place here, from 1.
pub(super) fn tasks(kitchen: &Kitchen, makings: &Makings, work: &Work, schedule: &Schedule) -> Vec<(Task, Option<usize>)> {
    let set = schedule.settings.iter().map(|setting| (set_task(kitchen, setting), None));
    let jobs = (0..work.origins.len()).map(|job| (job_task(kitchen, makings, work, schedule, job), Some(job)));
    let mut tasks: Vec<(Task, Option<usize>)> = set.chain(jobs).collect();
    tasks.sort_by_key(|(task, job)| (task.start_minute, job.is_some(), *job));
    let places: Vec<Option<usize>> = tasks.iter().map(|(_, job)| *job).collect();
    let place = |job: usize| places.iter().position(|one| *one == Some(job));
    for (job, over) in late(work, schedule) {
        if let Some(place) = place(job) {
            tasks[place].0.notes.push(format!("Starts {} later than the recipe allows", duration(over)));
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

fn set_task(kitchen: &Kitchen, setting: &Setting) -> Task {
    let name = &kitchen.appliances[setting.machine].name;
    let heat = degrees(Celsius(setting.celsius), kitchen.print.units);
    Task {
        kind: TaskKind::Set,
        recipe: None,
        step: None,
        round: None,
        start_minute: setting.start,
        hands_minutes: 0,
        out_minutes: 0,
        end_minute: setting.ready,
        person: None,
        out_person: None,
        appliance: Some(name.clone()),
        also: vec![],
        takes: None,
        at_celsius: Some(tidy_celsius(setting.celsius)),
        text: format!("Set the {name} to {heat}"),
        dish: None,
        short: format!("{} {} °C", sentence(name), setting.celsius.round()),
        notes: vec![],
        after: vec![],
    }
}

fn job_task(kitchen: &Kitchen, makings: &Makings, work: &Work, schedule: &Schedule, job: usize) -> Task {
    let Origin { making, part } = work.origins[job];
    let making = &makings.makings[making];
    let recipe = &kitchen.recipes[making.recipe];
    let (asked, placed) = (&work.problem.jobs[job], &schedule.placed[job]);
    let name = |person: Option<usize>| person.and_then(|p| work.people.get(p)).map(|p| p.name.clone());
    let blank = Task {
        kind: TaskKind::Box,
        recipe: Some(recipe.id.clone()),
        step: None,
        round: None,
        start_minute: placed.start,
        hands_minutes: asked.hands,
        out_minutes: asked.out,
        end_minute: placed.start + asked.minutes(),
        person: name(placed.person),
        out_person: name(placed.out_person),
        appliance: None,
        also: vec![],
        takes: None,
        at_celsius: placed.set_to.map(tidy_celsius),
        text: String::new(),
        dish: Some(recipe.name.clone()),
        short: String::new(),
        notes: vec![],
        after: vec![],
    };
    match part {
        Part::Box => Task { text: box_text(kitchen, making), short: format!("{}: box", short_name(&recipe.name)), ..blank },
        Part::Step { step, round, rounds, takes } => step_task(kitchen, recipe, making, step, (round, rounds), takes, blank),
    }
}

fn step_task(kitchen: &Kitchen, recipe: &Recipe, making: &Making, step: usize, round: (usize, usize), takes: i64, blank: Task) -> Task {
    let asked = &recipe.steps[step];
    let mut appliances = asked.on.iter().map(|id| kitchen.appliances[*id].name.clone());
    let appliance = appliances.next();
    let text = match round {
        (0, _) => step_text(kitchen, making.recipe, step, making.batches),
        (round, rounds) => format!("Round {} of {rounds}: {}", round + 1, again_text(kitchen, recipe, step)),
    };
    Task {
        kind: TaskKind::Step,
        step: Some(step as u32 + 1),
        round: Some(round.0 as u32 + 1),
        takes: appliance.is_some().then_some(takes as u32),
        appliance,
        also: appliances.collect(),
        text,
        short: short(recipe, asked),
        notes: notes(kitchen, recipe, step, round),
        ..blank
    }
}

/// What stands in small print under the step.
fn notes(kitchen: &Kitchen, recipe: &Recipe, step: usize, (round, rounds): (usize, usize)) -> Vec<String> {
    let mut notes = Vec::new();
    if round == 0 && rounds > 1 {
        notes.push(format!("Round 1 of {rounds}; the amounts are for all rounds"));
    }
    if round == 0 {
        notes.extend(preparations(kitchen, recipe, step));
    }
    if let Some(inside) = recipe.steps[step].inside {
        notes.push(format!("Until the inside reaches {}", degrees(inside, kitchen.print.units)));
    }
    if handles_raw(kitchen, recipe, step) {
        notes.push("Wash hands, board and knife".into());
    }
    let cookers = recipe.steps[step].on.iter().map(|id| &kitchen.appliances[*id]).filter(|one| is_pressure_cooker(one));
    notes.extend(cookers.filter_map(|cooker| fill_limit(cooker, kitchen.print.units)));
    notes
}

/// How full a pressure cooker of known size may be: common practice, no source.
fn fill_limit(cooker: &Appliance, units: Units) -> Option<String> {
    let litres = cooker.holds?;
    let part = |share: f64| show(&Quantity::millilitres(litres * 1000.0 * share), units);
    Some(format!("Fill the {} to {} at most, to {} with foods that swell", cooker.name, part(FULL), part(FULL_WITH_SWELLING)))
}

/// "Pearl barley: simmer": the recipe's first words and the verb that a step's text begins with.
fn short(recipe: &Recipe, step: &Step) -> String {
    let name = short_name(&recipe.name);
    let verb = match step.text.first() {
        Some(Piece::Words(words)) => words.split_whitespace().next().unwrap_or_default(),
        _ => "",
    };
    let verb = verb.trim_end_matches(|c: char| !c.is_alphanumeric());
    if verb.is_empty() { name } else { format!("{name}: {}", in_a_sentence(verb)) }
}

/// At most two words of a recipe's name, none of them a joining word at the end.
fn short_name(name: &str) -> String {
    const JOINING: [&str; 6] = ["and", "with", "of", "in", "on", "for"];
    let mut words: Vec<&str> = name.split_whitespace().take(2).collect();
    if words.len() == 2 && JOINING.contains(&words[1]) {
        words.pop();
    }
    words.join(" ")
}

/// A temperature typed in Fahrenheit is not written with fifteen digits.
fn tidy_celsius(celsius: f64) -> f64 {
    (celsius * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests;
