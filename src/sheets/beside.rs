//! What stands beside the steps of a prep guide: what to do before, what to fetch and cut, what it makes, what to take care of.

use itertools::Itertools;

use crate::foods::Place;
use crate::measure::{Quantity, Units};
use crate::prep::{Batch, Before, BoxNote, Cut, Fetch, SessionPlan, TaskKind};

use super::flow::Block;
use super::parts::{hanging, heading};
use super::steps::{Type, warned_of};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, brief_dish, day, moment, spoken};
use crate::words::place;

/// A heading, the paragraphs under it, and their type.
pub struct Group {
    title: &'static str,
    notes: Vec<Vec<Span>>,
    kind: Type,
    style: Style,
}

/// The lists of one session.
pub struct Beside<'a> {
    pub session: &'a SessionPlan,
    pub before: &'a [Before],
    pub kind: Type,
    pub units: Units,
}

impl Beside<'_> {
    /// What is read before the first step.
    pub fn ahead(&self) -> Vec<Group> {
        let dated = |note: &Before| vec![strong(moment(&note.at)), plain(format!("  {}", note.text))];
        vec![
            self.group("Before the session", self.before.iter().map(dated).collect()),
            self.group("Fetch", fetched(&self.session.fetch, self.units)),
            self.group("Cut, and for which step", self.run_in(self.cuts())),
        ]
    }

    pub fn afterwards(&self) -> Vec<Group> {
        let sentences = |texts: &[String]| texts.iter().map(|text| vec![plain(text)]).collect::<Vec<_>>();
        let small = |group: Group| Group { style: self.kind.small, ..group };
        vec![
            self.group("What this makes", self.run_in(self.session.batches.iter().map(|batch| self.makes(batch)).collect())),
            self.group("Boxes", self.boxes()),
            self.group("Good to know", sentences(&self.session.advice)),
            small(self.group("Take care", cautions(&self.session.cautions))),
        ]
    }

    fn group(&self, title: &'static str, notes: Vec<Vec<Span>>) -> Group {
        Group { title, notes, kind: self.kind, style: self.kind.note }
    }

    /// In small type short notes stand in one paragraph.
    fn run_in(&self, notes: Vec<Vec<Span>>) -> Vec<Vec<Span>> {
        if !self.kind.is_tight() || notes.is_empty() {
            return notes;
        }
        vec![notes.into_iter().enumerate().flat_map(|(at, note)| (at > 0).then(|| soft("  ·  ")).into_iter().chain(note)).collect()]
    }

    /// The name of a recipe as the tasks print it.
    fn dish(&self, id: &str) -> String {
        let known = self.session.tasks.iter().find(|task| task.recipe.as_deref() == Some(id)).and_then(|task| task.dish.clone());
        known.unwrap_or_else(|| spoken(id))
    }

    /// One paragraph a food, its cuts in the order of the steps.
    fn cuts(&self) -> Vec<Vec<Span>> {
        let foods = self.session.cuts.iter().sorted_by_key(|cut| cut.step).map(|cut| cut.food.as_str()).unique();
        let paragraph = |food: &str| {
            let cuts: Vec<&Cut> = self.session.cuts.iter().filter(|cut| cut.food == food).sorted_by_key(|cut| cut.step).collect();
            let mut spans = vec![strong(food)];
            for (index, cut) in cuts.into_iter().enumerate() {
                let gap = if index > 0 { "; " } else { ", " };
                spans.push(plain(format!("{gap}{}, {}\u{a0}", amount(&cut.amount, self.units), cut.cut)));
                spans.push(strong(format!("({})", cut.step)));
            }
            spans
        };
        foods.map(paragraph).collect()
    }

    fn makes(&self, batch: &Batch) -> Vec<Span> {
        let times = amount(&Quantity::pieces(batch.batches), self.units);
        let word = if batch.batches <= 1.0 { "batch" } else { "batches" };
        let name = self.dish(&batch.recipe);
        let brief = brief_dish(&name, Some(&batch.recipe));
        let full = if brief == name || self.kind.is_tight() { String::new() } else { format!(" ({name})") };
        let much = format!("{full}, {}", amount(&batch.makes, self.units));
        vec![strong(brief), plain(much), soft(format!(" ({times}\u{a0}{word})"))]
    }

    /// The boxes that no task of the session fills; the others stand with their task.
    fn boxes(&self) -> Vec<Vec<Span>> {
        let has_task = |note: &&BoxNote| {
            self.session.tasks.iter().any(|task| task.kind == TaskKind::Box && task.recipe.as_deref() == Some(&note.recipe))
        };
        self.session.boxes.iter().filter(|note| !has_task(note)).map(|note| self.boxed(note)).collect()
    }

    fn boxed(&self, note: &BoxNote) -> Vec<Span> {
        let portions = note.amount.clone().unwrap_or(Quantity::portions(note.portions));
        let portions = amount(&portions, self.units);
        let mut spans = vec![strong(self.dish(&note.recipe)), plain(format!(", {portions}, {}", place(note.place)))];
        spans.extend(note.boxes.iter().map(|boxes| plain(format!(", {boxes}"))));
        spans.push(strong(format!(", use by {}", day(note.use_by))));
        if !note.what_for.is_empty() {
            spans.push(soft(format!(", for {}", note.what_for.join(", "))));
        }
        spans.extend(note.allergens.iter().map(|allergens| plain(format!(". {}.", contains(allergens)))));
        spans.extend(note.beware.as_ref().and_then(|_| warned_of(note)));
        spans
    }
}

/// "Contains milk; not known: vegetable stock".
fn contains(allergens: &str) -> String {
    if allergens.starts_with("not known") { format!("Allergens {allergens}") } else { format!("Contains {allergens}") }
}

/// Paragraphs under headings; a heading with nothing under it is left out.
pub fn groups(setter: &mut Setter, groups: Vec<Group>, width: f32) -> Vec<Block> {
    let mut blocks = Vec::new();
    for group in groups.into_iter().filter(|group| !group.notes.is_empty()) {
        blocks.push(if group.kind.is_tight() {
            Block::of(vec![setter.one_line(&[strong(group.title)], group.kind.note, width)]).spaced(group.kind.gap + 2.0).heading()
        } else {
            heading(setter, group.title, group.kind.note, width)
        });
        blocks.extend(group.notes.iter().map(|spans| Block::of(hanging(setter, spans, group.style, width))));
    }
    blocks
}

/// Cautions of one source together, the source named once behind them.
fn cautions(cautions: &[String]) -> Vec<Vec<Span>> {
    let parted = |caution: &String| -> (String, String) {
        let source = caution.strip_suffix(')').and_then(|whole| whole.rsplit_once(". ("));
        source.map_or_else(|| (caution.clone(), String::new()), |(text, source)| (format!("{text}."), source.to_owned()))
    };
    let parted: Vec<(String, String)> = cautions.iter().map(parted).collect();
    let together = |source: &str| parted.iter().filter(|(_, other)| other == source).map(|(text, _)| text.as_str()).join(" ");
    let mut notes: Vec<Vec<Span>> = Vec::new();
    for source in parted.iter().map(|(_, source)| source.as_str()).unique().filter(|source| !source.is_empty()) {
        notes.push(vec![plain(together(source)), soft(format!(" ({source})"))]);
    }
    notes.extend(parted.iter().filter(|(_, source)| source.is_empty()).map(|(text, _)| vec![plain(text)]));
    notes
}

/// What to fetch, a paragraph a place.
fn fetched(fetch: &[Fetch], units: Units) -> Vec<Vec<Span>> {
    let places =
        [(Some(Place::Cupboard), "Cupboard"), (Some(Place::Fridge), "Fridge"), (Some(Place::Freezer), "Freezer"), (None, "Bought")];
    let paragraph = |(from, name): (Option<Place>, &str)| {
        let here: Vec<&Fetch> = fetch.iter().filter(|one| one.place == from).collect();
        if here.is_empty() {
            return None;
        }
        let mut spans = vec![strong(format!("{name}: "))];
        for (index, one) in here.iter().enumerate() {
            let what = one.food.clone().or_else(|| one.recipe.as_deref().map(spoken)).unwrap_or_default();
            let much = if one.amount.is_zero() { String::new() } else { format!("{} ", amount(&one.amount, units)) };
            let gap = if index > 0 { "; " } else { "" };
            spans.push(plain(format!("{gap}{much}{what}")));
            spans.extend(one.look_first.then(|| strong(" (look at it first)")));
        }
        Some(spans)
    };
    places.into_iter().filter_map(paragraph).collect()
}
