//! The steps of a session by the clock, and the numbers that chart and steps share.

use itertools::Itertools;
use jiff::civil::DateTime;

use crate::measure::{Quantity, Units};
use crate::prep::{BoxNote, SessionPlan, Task, TaskKind};

use super::flow::Block;
use super::text::{Line, Setter, Span, Style, plain, soft, strong, width_of};
use super::wording::{TIE, amount, brief_dish, day, temperature};
use crate::words::{clock_after, place, sentence};

/// The type of a guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Type {
    /// The steps.
    pub body: Style,
    /// The lists.
    pub note: Style,
    /// The cautions.
    pub small: Style,
    /// Whether a step's text begins on the line of its time and dish, and its notes on the line where the text ends.
    pub run_in: bool,
    /// Space between two steps.
    pub gap: f32,
}

impl Type {
    /// Set small to save room: then lists run in one paragraph, and headings take less.
    pub fn is_tight(&self) -> bool {
        self.small.size < self.note.size
    }
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

/// What all steps of a page have in common.
pub struct Steps<'a> {
    pub session: &'a SessionPlan,
    pub start: DateTime,
    pub kind: Type,
    pub width: f32,
    pub units: Units,
    /// The person whose steps alone are wanted, with what they wait for and whom they tell.
    pub whose: Option<&'a str>,
}

impl Steps<'_> {
    /// A block a task, in the order of the clock.
    pub fn blocks(&self, setter: &mut Setter) -> Vec<Block> {
        let marks = marks(self.session);
        let tasks = self.session.tasks.iter().zip(&marks).enumerate();
        // What needs nobody's hands stands with whoever begins.
        let first = self.session.tasks.iter().find_map(|task| task.person.as_deref().or(task.out_person.as_deref()));
        let mut blocks: Vec<(i64, Block)> = Vec::new();
        for (index, (task, mark)) in tasks {
            let theirs = |person: &Option<String>| self.whose.is_none_or(|whose| person.as_deref() == Some(whose));
            let nobody_s = task.person.is_none() && self.whose.is_none_or(|whose| Some(whose) == first);
            if nobody_s || theirs(&task.person) {
                blocks.push((task.start_minute, self.step(setter, task, mark, self.with_others(index, &marks))));
            } else if task.out_minutes > 0 && theirs(&task.out_person) {
                blocks.push((task.end_minute - task.out_minutes, self.taken_out(setter, task, mark)));
            }
        }
        blocks.sort_by_key(|(minute, _)| *minute);
        blocks.into_iter().map(|(_, block)| block).collect()
    }

    fn step(&self, setter: &mut Setter, task: &Task, mark: &str, with_others: Vec<Span>) -> Block {
        let Type { body, note, run_in, .. } = self.kind;
        let room = self.width - self.indent();
        let (head, mut text) = (self.head(task), self.text(task));
        text.extend(with_others);
        let notes: Vec<&String> = task.notes.iter().filter(|words| !self.is_said_before(task, words)).collect();
        let mut lines = if run_in {
            text.extend(notes.iter().map(|words| plain(format!(" {}", ended(words)))));
            setter.paragraph(&[head, vec![plain("  ")], text].concat(), body, room)
        } else {
            let head = setter.paragraph(&head, body, room);
            [head, setter.paragraph(&text, body, room)].concat()
        };
        for words in notes.iter().filter(|_| !run_in) {
            lines.extend(setter.paragraph(&[plain(words.as_str())], note, room));
        }
        self.numbered(setter, lines, mark)
    }

    /// Where type is small, what an earlier step has told of the same appliance is not told again.
    fn is_said_before(&self, task: &Task, words: &str) -> bool {
        let earlier = self.session.tasks.iter().take_while(|other| !std::ptr::eq(*other, task));
        let told = |other: &Task| other.notes.iter().any(|note| note == words) && other.appliance == task.appliance;
        self.kind.is_tight() && self.whose.is_none() && task.appliance.is_some() && earlier.into_iter().any(told)
    }

    /// A load that somebody else put in.
    fn taken_out(&self, setter: &mut Setter, task: &Task, mark: &str) -> Block {
        let at = clock_after(self.start, task.end_minute - task.out_minutes);
        let place = task.appliance.as_ref().map_or_else(String::new, |name| format!(" out of the {name}"));
        let spans = [strong(at), soft(format!("  {}", dish(task))), plain(format!("  Take it{place}."))];
        let lines = setter.paragraph(&spans, self.kind.body, self.width - self.indent());
        self.numbered(setter, lines, mark)
    }

    fn numbered(&self, setter: &mut Setter, lines: Vec<Line>, mark: &str) -> Block {
        let indent = self.indent();
        let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(indent)).collect();
        let number = setter.one_line(&[strong(mark)], self.kind.body, indent);
        let shift = (indent - 0.6 * self.kind.body.size - width_of(&number)).max(0.0);
        if let Some(first) = lines.first_mut() {
            first.items.extend(number.moved(shift).items);
        }
        Block::of(lines).spaced(self.kind.gap)
    }

    /// Where the text of a step begins, right of its number.
    fn indent(&self) -> f32 {
        2.0 * self.kind.body.size
    }

    /// "14:35  Jo  White-bean mash". What is set, boxed or done by the one person of the page needs less.
    fn head(&self, task: &Task) -> Vec<Span> {
        let mut spans = vec![strong(clock_after(self.start, task.start_minute))];
        if self.whose.is_none() {
            spans.extend(task.person.iter().map(|person| strong(format!("  {person}"))));
        }
        if task.kind == TaskKind::Step {
            spans.push(soft(format!("  {}", dish(task))));
        }
        spans
    }

    /// What to do, then where, how hot and until when, or into which box.
    fn text(&self, task: &Task) -> Vec<Span> {
        let mut spans = vec![plain(ended(&task.text))];
        let more = if task.kind == TaskKind::Box { self.boxed(task) } else { facts(task, self.start, self.units) };
        if !more.is_empty() {
            spans.push(plain(" "));
            spans.extend(more);
        }
        spans
    }

    /// "2 deep tubs, use by Wed 2 Dec, for Mon supper"; places are told apart where there are several.
    fn boxed(&self, task: &Task) -> Vec<Span> {
        let mine: Vec<&BoxNote> = self.session.boxes.iter().filter(|note| Some(&note.recipe) == task.recipe.as_ref()).collect();
        let kept: Vec<_> = mine.iter().map(|note| (note.place, note.use_by)).unique().collect();
        let mut spans = Vec::new();
        for (index, (at, use_by)) in kept.iter().enumerate() {
            let notes: Vec<&&BoxNote> = mine.iter().filter(|note| (note.place, note.use_by) == (*at, *use_by)).collect();
            let place = (kept.len() > 1).then(|| format!("{}:", place(*at)));
            let words = place.into_iter().chain(boxes_together(&notes).map(|boxes| format!("{boxes},"))).join(" ");
            let gap = if index > 0 { " " } else { "" };
            spans.push(soft(format!("{gap}{} ", sentence(&words))));
            spans.push(strong(format!("{} {}", if words.is_empty() { "Use by" } else { "use by" }, day(*use_by))));
            let what_for = notes.iter().flat_map(|note| &note.what_for).join(", ");
            let spare = notes.iter().filter(|note| note.what_for.is_empty()).map(|note| self.spare(note));
            let purposes = (!what_for.is_empty()).then(|| format!("for {what_for}")).into_iter().chain(spare).join("; ");
            spans.push(soft(if purposes.is_empty() { ".".to_owned() } else { format!(", {purposes}.") }));
        }
        spans.extend(mine.first().and_then(|note| warned_of(note)));
        spans
    }

    fn spare(&self, note: &BoxNote) -> String {
        let much = note.amount.clone().unwrap_or(Quantity::portions(note.portions));
        format!("{} to spare", amount(&much, self.units))
    }

    /// On a page for one person: which steps of others come first, and who waits for this one.
    fn with_others(&self, index: usize, marks: &[String]) -> Vec<Span> {
        let Some(whose) = self.whose else { return Vec::new() };
        let tasks = &self.session.tasks;
        let other = |task: &Task| task.person.as_deref().filter(|person| *person != whose).map(str::to_owned);
        let before = tasks[index].after.iter().filter(|one| **one < tasks.len()).sorted();
        let waits = before.filter_map(|one| other(&tasks[*one]).map(|who| (who, marks[*one].as_str())));
        let told = tasks.iter().enumerate().filter(|(_, task)| task.after.contains(&index));
        let told = told.filter_map(|(one, task)| other(task).map(|who| (who, marks[one].as_str())));
        let together = |pairs: Vec<(String, &str)>| {
            let people: Vec<String> = pairs.iter().map(|(who, _)| who.clone()).unique().collect();
            people.into_iter().map(|who| (pairs.iter().filter(|(one, _)| *one == who).map(|(_, mark)| *mark).join(", "), who)).collect()
        };
        let waits: Vec<(String, String)> = together(waits.collect());
        let waits = waits.iter().map(|(marks, who)| format!("{marks}{TIE}({who})")).join(", ");
        let told: Vec<(String, String)> = together(told.collect());
        let told = told.iter().map(|(marks, who)| format!("{who}{TIE}({marks})")).join(", ");
        let mut spans = Vec::new();
        spans.extend((!waits.is_empty()).then(|| strong(format!(" Wait for {waits}."))));
        spans.extend((!told.is_empty()).then(|| strong(format!(" Then tell {told}."))));
        spans
    }
}

/// " Contains sesame." of what the household avoids; else " Allergens not known: vegetable stock."
pub fn warned_of(note: &BoxNote) -> Option<Span> {
    let unknown = || note.allergens.as_deref().and_then(|words| words.split_once("not known: ")).map(|(_, unknown)| unknown);
    match &note.beware {
        Some(beware) => Some(strong(format!(" {}.", sentence(beware)))),
        None => unknown().map(|unknown| soft(format!(" Allergens not known: {unknown}."))),
    }
}

fn dish(task: &Task) -> String {
    brief_dish(task.dish.as_deref().unwrap_or_default(), task.recipe.as_deref())
}

/// With a full stop, where nothing else ends it.
fn ended(text: &str) -> String {
    let text = text.trim();
    let stop = if text.is_empty() || text.ends_with(['.', '!', '?', ':', '…']) { "" } else { "." };
    format!("{text}{stop}")
}

/// "2 deep tubs" and "1 deep tub" are "3 deep tubs"; unlike ones are listed.
fn boxes_together(notes: &[&&BoxNote]) -> Option<String> {
    let boxes: Vec<&str> = notes.iter().filter_map(|note| note.boxes.as_deref()).collect();
    let counted = |text: &&str| text.split_once(' ').and_then(|(count, kind)| Some((count.parse::<u32>().ok()?, kind.to_owned())));
    let parts: Option<Vec<(u32, String)>> = boxes.iter().map(counted).collect();
    match parts {
        _ if boxes.is_empty() => None,
        Some(parts) if parts.iter().map(|(_, kind)| kind.trim_end_matches('s')).all_equal() => {
            let kind = parts.iter().map(|(_, kind)| kind.as_str()).max_by_key(|kind| kind.len()).unwrap_or_default();
            let total: u32 = parts.iter().map(|(count, _)| count).sum();
            let plural = if total > 1 && !kind.ends_with('s') { "s" } else { "" };
            Some(format!("{total}{TIE}{kind}{plural}"))
        }
        _ => Some(boxes.join(" and ")),
    }
}

/// "Oven (2 places), 180 °C, out at 15:33 (Jo).", "Hob, until 15:01."
fn facts(task: &Task, start: DateTime, units: Units) -> Vec<Span> {
    let mut places: Vec<String> = task.appliance.iter().chain(&task.also).cloned().collect();
    if let (Some(first), Some(takes)) = (places.first_mut(), task.takes.filter(|takes| *takes > 1)) {
        first.push_str(&format!(" ({takes}{TIE}places)"));
    }
    if let (Some(first), Some(celsius)) = (places.first_mut(), task.at_celsius) {
        first.push_str(&format!(", {}", temperature(celsius, units)));
    }
    let waits_until = task.end_minute - task.out_minutes;
    let by = task.out_person.as_ref().map_or_else(String::new, |person| format!(" ({person})"));
    let until = if task.out_minutes > 0 {
        Some(format!("out at {}{by}", clock_after(start, waits_until)))
    } else if task.kind == TaskKind::Set {
        Some(format!("ready at {}", clock_after(start, waits_until)))
    } else {
        (waits_until > task.start_minute + task.hands_minutes).then(|| format!("until {}", clock_after(start, waits_until)))
    };
    let where_ = if task.kind == TaskKind::Set { String::new() } else { sentence(&places.join("; ")) };
    match (where_.is_empty(), until) {
        (true, None) => Vec::new(),
        (true, Some(until)) => vec![strong(format!("{}.", sentence(&until)))],
        (false, None) => vec![soft(format!("{where_}."))],
        (false, Some(until)) => vec![soft(format!("{where_}, ")), strong(format!("{until}."))],
    }
}
