//! `prep`: the plan of the sessions, as text or JSON.

use std::fmt::Write;

use super::outcome::{Done, json, say};
use super::setting::Setting;
use super::words::{columns, day, place};
use super::{Cli, Format};
use crate::measure::{Quantity, Units, show};
use crate::prep::{Effort, PrepPlan, SessionPlan, Task};

pub fn run(cli: &Cli, effort: Effort) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    reckoned.warn(cli)?;
    let plan = reckoned.reckoning.prep(reckoned.kitchen, reckoned.week, effort);
    match cli.format {
        Format::Json => say(&json(&plan)?),
        Format::Text => say(&text(&plan, &reckoned.kitchen.household.name, reckoned.kitchen.print.units)),
    }
}

/// The sessions by the clock, each with what to fetch, cut and box.
fn text(plan: &PrepPlan, household: &str, units: Units) -> String {
    let mut out = format!("{household}: {}\n", plan.week);
    titled(&mut out, "Before", plan.before.iter().map(|note| vec![note.at.replace('T', " "), note.text.clone()]).collect());
    for session in &plan.sessions {
        write_session(&mut out, session, units);
    }
    titled(&mut out, "From freezer to fridge", plan.moves.iter().map(|note| vec![note.at.clone(), note.text.clone()]).collect());
    out
}

fn write_session(out: &mut String, session: &SessionPlan, units: Units) {
    let proof =
        if session.proven { "no shorter plan exists".to_owned() } else { format!("no plan is shorter than {} min", session.bound_minutes) };
    let start = session.start.replace('T', " ");
    let _ = writeln!(out, "\n{start} to {}: {} min, {proof}", clock(&session.start, session.minutes), session.minutes);
    if !session.people.is_empty() {
        let _ = writeln!(out, "  {}", session.people.join("; "));
    }
    let tasks = session.tasks.iter().enumerate().map(|(index, task)| row(index + 1, task, &session.start));
    out.push_str(&columns(&tasks.collect::<Vec<_>>(), 2));
    let name = |food: &Option<String>, recipe: &Option<String>| food.clone().or_else(|| recipe.clone()).unwrap_or_default();
    let fetch = session.fetch.iter().map(|item| {
        let from = item.place.map_or("bought", place);
        let look = if item.look_first { "look at it first" } else { "" };
        vec![name(&item.food, &item.recipe), show(&item.amount, units), from.into(), look.into()]
    });
    titled(out, "  Fetch", fetch.collect());
    let cuts =
        session.cuts.iter().map(|cut| vec![cut.food.clone(), show(&cut.amount, units), cut.cut.clone(), format!("step {}", cut.step)]);
    titled(out, "  Cut", cuts.collect());
    let boxes = session.boxes.iter().map(|box_| {
        let portions = box_.amount.clone().unwrap_or(Quantity::portions(box_.portions));
        let portions = show(&portions, units);
        let allergens = box_.allergens.as_ref().map(|allergens| format!("allergens: {allergens}")).unwrap_or_default();
        let until = format!("use by {}", day(box_.use_by));
        vec![box_.recipe.clone(), portions, place(box_.place).into(), until, box_.what_for.join(", "), allergens]
    });
    titled(out, "  Boxes", boxes.collect());
    titled(out, "  Advice", session.advice.iter().map(|line| vec![line.clone()]).collect());
    titled(out, "  Mind", session.cautions.iter().map(|line| vec![line.clone()]).collect());
}

fn row(number: usize, task: &Task, start: &str) -> Vec<String> {
    let people = [&task.person, &task.out_person].into_iter().flatten().cloned().collect::<std::collections::BTreeSet<_>>();
    let who = people.into_iter().collect::<Vec<_>>().join(", ");
    let until = clock(start, task.end_minute);
    let place = task.appliance.clone().unwrap_or_default();
    let dish = task.dish.as_deref().map(|dish| format!("{dish}: ")).unwrap_or_default();
    vec![number.to_string(), format!("{} to {until}", clock(start, task.start_minute)), who, place, format!("{dish}{}", task.text)]
}

/// The time of day `minutes` after `start`.
fn clock(start: &str, minutes: i64) -> String {
    use jiff::ToSpan;
    use jiff::civil::DateTime;
    let start: Result<DateTime, _> = start.parse();
    start.map_or_else(|_| format!("+{minutes} min"), |start| start.saturating_add(minutes.minutes()).strftime("%H:%M").to_string())
}

fn titled(out: &mut String, title: &str, rows: Vec<Vec<String>>) {
    if !rows.is_empty() {
        let _ = write!(out, "\n{title}\n{}", columns(&rows, 4));
    }
}
