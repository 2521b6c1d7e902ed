//! The plan of the sessions as text for a terminal of some width: a chart, the numbered steps, then what to fetch, cut and box.

use super::super::wrap::{table, wrap};
use super::chart::chart;
use super::{clock, moment};
use crate::measure::{Quantity, Units, show};
use crate::prep::{Before, PrepPlan, SessionPlan, Task, TaskKind};
use crate::sheets::{marks, temperature};
use crate::words::{day, place};

/// The plan in lines of at most `width` characters. Steps and boxes bear the marks of the printed guide.
pub fn text(plan: &PrepPlan, household: &str, units: Units, width: usize) -> String {
    let mut out = wrap("", &format!("{household}: {}", plan.week), width);
    let notes = |notes: &[Before]| notes.iter().map(|note| vec![moment(&note.at), note.text.clone()]).collect::<Vec<_>>();
    titled(&mut out, "Before", &notes(&plan.before), width);
    for session in &plan.sessions {
        write_session(&mut out, session, units, width);
    }
    titled(&mut out, "From freezer to fridge", &notes(&plan.moves), width);
    out
}

fn write_session(out: &mut String, session: &SessionPlan, units: Units, width: usize) {
    out.push('\n');
    out.push_str(&wrap("", &headline(session), width));
    out.push_str(&wrap("", &session.people.join("; "), width));
    listed(out, "", &session.advice, width);
    if session.tasks.is_empty() {
        return;
    }
    let marks = marks(session);
    out.push('\n');
    out.push_str(&chart(session, &marks, width));
    out.push_str(&wrap("", "A number or letter: the step or box begins. |: it goes on. ~: warming up.", width));
    out.push('\n');
    for (task, mark) in session.tasks.iter().zip(&marks) {
        write_task(out, task, mark, (&session.start, units), width);
    }
    titled(out, "Fetch", &fetch(session, units), width);
    titled(out, "Cut", &cuts(session, units), width);
    titled(out, "Boxes", &boxes(session, units), width);
    listed(out, "Mind", &session.cautions, width);
}

fn headline(session: &SessionPlan) -> String {
    let proof = match session.bound_minutes {
        _ if session.proven => "no shorter plan exists".to_owned(),
        ..=0 => "a shorter plan may exist".to_owned(),
        bound => format!("no plan is shorter than {bound} min"),
    };
    let by = session.finish_by.as_ref().map_or_else(String::new, |by| format!(", to finish by {by}"));
    let same_day = session.start.get(..10) == session.finish.get(..10);
    let finish = if same_day { clock(&session.start, session.minutes) } else { moment(&session.finish) };
    format!("{} to {finish}{by}: {} min, {proof}", moment(&session.start), session.minutes)
}

/// A line with when, who and where; below it what to do and what to mind.
fn write_task(out: &mut String, task: &Task, mark: &str, (start, units): (&str, Units), width: usize) {
    let indent = " ".repeat(5);
    let mut head = format!("{} to {}", clock(start, task.start_minute), clock(start, task.end_minute));
    let places: Vec<&str> = task.appliance.iter().chain(&task.also).map(String::as_str).collect();
    let heat = task.at_celsius.map(|celsius| temperature(celsius, units).replace('\u{a0}', " "));
    for part in [task.person.clone(), task.dish.clone(), (!places.is_empty()).then(|| places.join(" and ")), heat].into_iter().flatten() {
        head.push_str("; ");
        head.push_str(&part);
    }
    out.push_str(&wrap(&format!("{mark:>3}  "), &head, width));
    out.push_str(&wrap(&indent, &task.text, width));
    let waits_until = task.end_minute - task.out_minutes;
    if task.out_minutes > 0 {
        let by = task.out_person.as_ref().map_or_else(String::new, |person| format!(" ({person})"));
        out.push_str(&wrap(&indent, &format!("Out at {}{by}.", clock(start, waits_until)), width));
    } else if task.kind == TaskKind::Step && waits_until > task.start_minute + task.hands_minutes {
        out.push_str(&wrap(&indent, &format!("Until {}.", clock(start, waits_until)), width));
    }
    task.notes.iter().for_each(|note| out.push_str(&wrap("     - ", note, width)));
}

fn fetch(session: &SessionPlan, units: Units) -> Vec<Vec<String>> {
    let row = |item: &crate::prep::Fetch| {
        let name = item.food.clone().or_else(|| item.recipe.clone()).unwrap_or_default();
        let look = if item.look_first { ", look at it first" } else { "" };
        let much = if item.amount.is_zero() { "to taste".to_owned() } else { show(&item.amount, units) };
        vec![name, much, format!("{}{look}", item.place.map_or("bought", place))]
    };
    session.fetch.iter().map(row).collect()
}

fn cuts(session: &SessionPlan, units: Units) -> Vec<Vec<String>> {
    session.cuts.iter().map(|cut| vec![cut.food.clone(), show(&cut.amount, units), format!("{}, step {}", cut.cut, cut.step)]).collect()
}

fn boxes(session: &SessionPlan, units: Units) -> Vec<Vec<String>> {
    let row = |boxed: &crate::prep::BoxNote| {
        let portions = boxed.amount.clone().unwrap_or(Quantity::portions(boxed.portions));
        let into = boxed.boxes.as_ref().map_or_else(String::new, |boxes| format!("in {boxes}, "));
        let until = format!("{into}{}, use by {}", place(boxed.place), day(boxed.use_by));
        let what_for = if boxed.what_for.is_empty() { String::new() } else { format!(", for {}", boxed.what_for.join(", ")) };
        let allergens = boxed.allergens.as_ref().map_or_else(String::new, |allergens| format!("; allergens: {allergens}"));
        vec![boxed.recipe.clone(), show(&portions, units), until + &what_for + &allergens]
    };
    session.boxes.iter().map(row).collect()
}

fn titled(out: &mut String, title: &str, rows: &[Vec<String>], width: usize) {
    if !rows.is_empty() {
        out.push_str(&format!("\n{title}\n{}", table(rows, 2, width)));
    }
}

fn listed(out: &mut String, title: &str, texts: &[String], width: usize) {
    if !texts.is_empty() {
        out.push_str(&if title.is_empty() { "\n".to_owned() } else { format!("\n{title}\n") });
        texts.iter().for_each(|text| out.push_str(&wrap("  - ", text, width)));
    }
}

#[cfg(test)]
mod tests;
