//! The steps of a session by the clock, and the numbers that chart and steps share.

use jiff::civil::DateTime;

use crate::measure::Units;
use crate::prep::{SessionPlan, Task, TaskKind};

use super::flow::Block;
use super::frame::GRID;
use super::text::{Line, Setter, Span, Style, plain, soft, strong, width_of};
use super::wording::{TIE, clock_after, temperature};

/// Where the text of a step begins, right of its number.
const INDENT: f32 = 24.0;

/// The type of the steps, and of the notes below them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Type {
    pub body: Style,
    pub note: Style,
    /// Whether a step's text begins on the line of its time and dish.
    pub run_in: bool,
}

/// The mark of every task: steps are counted from 1, boxes are lettered from A, setting an appliance has none.
pub fn marks(session: &SessionPlan) -> Vec<String> {
    let (mut steps, mut boxes) = (0, 0);
    let mark = |task: &Task| match task.kind {
        TaskKind::Set => String::new(),
        TaskKind::Step => {
            steps += 1;
            steps.to_string()
        }
        TaskKind::Box => {
            boxes += 1;
            letters(boxes)
        }
    };
    session.tasks.iter().map(mark).collect()
}

/// A, B ... Z, AA, AB ...
fn letters(mut number: u32) -> String {
    let mut out = Vec::new();
    while number > 0 {
        number -= 1;
        out.push(char::from(b'A' + (number % 26) as u8));
        number /= 26;
    }
    out.iter().rev().collect()
}

/// A block a task, in the order of the clock.
pub fn blocks(setter: &mut Setter, session: &SessionPlan, start: DateTime, kind: Type, width: f32, units: Units) -> Vec<Block> {
    let marks = marks(session);
    let tasks = session.tasks.iter().zip(&marks);
    tasks.map(|(task, mark)| step(setter, session, task, mark, start, kind, width, units)).collect()
}

#[allow(clippy::too_many_arguments)]
fn step(
    setter: &mut Setter,
    session: &SessionPlan,
    task: &Task,
    mark: &str,
    start: DateTime,
    kind: Type,
    width: f32,
    units: Units,
) -> Block {
    let room = width - INDENT;
    let (head, text) = (head(session, task, start, units), text(task, start, units));
    let mut lines = if kind.run_in {
        setter.paragraph(&[head, vec![plain("  ")], text].concat(), kind.body, room)
    } else {
        let head = setter.paragraph(&head, kind.body, room);
        [head, setter.paragraph(&text, kind.body, room)].concat()
    };
    for note in &task.notes {
        lines.extend(setter.paragraph(&[plain(note)], kind.note, room));
    }
    let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(INDENT)).collect();
    let number = setter.one_line(&[strong(mark)], kind.body, INDENT);
    let shift = INDENT - 8.0 - width_of(&number);
    if let Some(first) = lines.first_mut() {
        first.items.extend(number.moved(shift).items);
    }
    Block::of(lines).spaced(GRID)
}

/// "14:35  Jo  White-bean mash".
fn head(session: &SessionPlan, task: &Task, start: DateTime, units: Units) -> Vec<Span> {
    let mut spans = vec![strong(clock_after(start, task.start_minute))];
    spans.extend(task.person.iter().map(|person| strong(format!("  {person}"))));
    spans.extend(task.dish.iter().map(|dish| soft(format!("  {dish}"))));
    if let (TaskKind::Set, Some(appliance)) = (task.kind, &task.appliance) {
        let warm = task.at_celsius.map_or_else(String::new, |celsius| format!(" to {}", temperature(celsius, units)));
        spans.push(soft(format!("  {appliance}{warm}")));
    }
    let same = |other: &&Task| other.kind == task.kind && other.recipe == task.recipe && other.step == task.step;
    if let Some(round) = task.round.filter(|_| task.recipe.is_some() && session.tasks.iter().filter(same).count() > 1) {
        spans.push(soft(format!(", round{TIE}{round}")));
    }
    spans
}

/// What to do, then where, how hot and until when.
fn text(task: &Task, start: DateTime, units: Units) -> Vec<Span> {
    let mut spans = vec![plain(task.text.trim())];
    let ends = task.text.trim().ends_with(['.', '!', '?', ':', '…']);
    let facts = facts(task, start, units);
    if !facts.is_empty() {
        let gap = if task.text.trim().is_empty() || ends { " " } else { ". " };
        spans.push(plain(gap));
        spans.extend(facts);
    }
    spans
}

fn facts(task: &Task, start: DateTime, units: Units) -> Vec<Span> {
    let mut places: Vec<String> = task.appliance.iter().chain(&task.also).cloned().collect();
    if let (Some(first), Some(takes)) = (places.first_mut(), task.takes.filter(|takes| *takes > 1)) {
        first.push_str(&format!(" ({takes}{TIE}places)"));
    }
    if let (Some(first), Some(celsius)) = (places.first_mut(), task.at_celsius) {
        first.push_str(&format!(", {}", temperature(celsius, units)));
    }
    let mut spans = Vec::new();
    if !places.is_empty() && task.kind != TaskKind::Set {
        spans.push(soft(format!("On: {}. ", places.join("; "))));
    }
    let waits_until = task.end_minute - task.out_minutes;
    let by = task.out_person.as_ref().map_or_else(String::new, |person| format!(" ({person})"));
    if task.out_minutes > 0 {
        spans.push(strong(format!("Out at {}{by}.", clock_after(start, waits_until))));
    } else if waits_until > task.start_minute + task.hands_minutes {
        let word = if task.kind == TaskKind::Set { "Ready at" } else { "Until" };
        spans.push(strong(format!("{word} {}.", clock_after(start, waits_until))));
    }
    spans
}
