//! What stands beside the steps of a prep guide: what to do before, what to fetch and cut, what it makes, what to take care of.

use itertools::Itertools;

use crate::foods::{FoodId, Place};
use crate::kitchen::Names;
use crate::measure::{Quantity, Units};
use crate::plan::Contains;
use crate::prep::{Batch, Before, BoxNote, Care, Cut, Fetch, Fetched, SessionPlan, by_food};

use super::flow::Block;
use super::parts::{hanging, heading};
use super::steps::{Type, warned_of};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, day, moment};
use crate::words::{brief, place};

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
    pub names: Names<'a>,
    pub units: Units,
}

impl Beside<'_> {
    /// What is read before the first step.
    pub fn ahead(&self) -> Vec<Group> {
        let dated = |note: &Before| vec![strong(moment(note.at)), plain(format!("  {}", note.errand.text(self.names, self.units)))];
        vec![
            self.group("Before the session", self.before.iter().map(dated).collect()),
            self.group("Fetch", self.fetched()),
            self.group("Cut, and for which step", self.run_in(self.cuts())),
        ]
    }

    pub fn afterwards(&self) -> Vec<Group> {
        let small = |group: Group| Group { style: self.kind.small, ..group };
        vec![
            self.group("What this makes", self.run_in(self.session.batches.iter().map(|batch| self.makes(batch)).collect())),
            self.group("Boxes", self.boxes()),
            self.group("Good to know", self.session.advice.iter().map(|advice| vec![plain(advice.text(self.names))]).collect()),
            small(self.group("Take care", self.cautions())),
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

    /// One paragraph a food, its cuts in the order of the steps.
    fn cuts(&self) -> Vec<Vec<Span>> {
        let foods = self.session.cuts.iter().sorted_by_key(|cut| cut.step).map(|cut| cut.food).unique();
        let paragraph = |food: FoodId| {
            let cuts: Vec<&Cut> = self.session.cuts.iter().filter(|cut| cut.food == food).sorted_by_key(|cut| cut.step).collect();
            let mut spans = vec![strong(self.names.food(food))];
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
        let name = self.names.recipe(batch.recipe);
        let name = if self.kind.is_tight() { brief(name) } else { name.to_owned() };
        vec![strong(name), plain(format!(", {}", amount(&batch.makes, self.units))), soft(format!(" ({times}\u{a0}{word})"))]
    }

    /// The boxes that no task of the session fills; the others stand with their task.
    fn boxes(&self) -> Vec<Vec<Span>> {
        let has_task = |note: &&BoxNote| self.session.tasks.iter().any(|task| task.is_box() && task.recipe() == Some(note.recipe));
        self.session.boxes.iter().filter(|note| !has_task(note)).map(|note| self.boxed(note)).collect()
    }

    fn boxed(&self, note: &BoxNote) -> Vec<Span> {
        let portions = amount(&note.amount, self.units);
        let mut spans = vec![strong(self.names.recipe(note.recipe)), plain(format!(", {portions}, {}", place(note.place)))];
        spans.extend(note.boxes.iter().map(|boxes| plain(format!(", {boxes}"))));
        spans.push(strong(format!(", use by {}", day(note.use_by))));
        if !note.what_for.is_empty() {
            spans.push(soft(format!(", for {}", note.what_for.join(", "))));
        }
        spans.extend(contains(&note.contains).map(|allergens| plain(format!(". {allergens}."))));
        spans.extend(note.beware.as_ref().and_then(|_| warned_of(note)));
        spans
    }
    /// Cautions of one source together, the source named once behind them; last those without.
    fn cautions(&self) -> Vec<Vec<Span>> {
        let all = &self.session.cautions;
        let mut notes: Vec<Vec<Span>> = Vec::new();
        for source in all.iter().filter_map(Care::source).unique() {
            let together = all.iter().filter(|one| one.source() == Some(source)).map(|one| one.text(self.names)).join(" ");
            notes.push(vec![plain(together), soft(format!(" ({source})"))]);
        }
        // What is not known for an eater stands at the head of the guide.
        let plain_ones = all.iter().filter(|one| one.source().is_none() && !matches!(one, Care::Unknown(_)));
        notes.extend(plain_ones.map(|one| vec![plain(one.text(self.names))]));
        notes
    }

    /// What to fetch, a paragraph a place; what lies in several stands under the first, with the whole amount before its parts.
    fn fetched(&self) -> Vec<Vec<Span>> {
        let places =
            [(Some(Place::Cupboard), "Cupboard"), (Some(Place::Fridge), "Fridge"), (Some(Place::Freezer), "Freezer"), (None, "Bought")];
        let foods = by_food(&self.session.fetch);
        let paragraph = |(from, name): (Option<Place>, &str)| {
            let mut spans = vec![strong(format!("{name}: "))];
            for one in foods.iter().filter(|one| one.from[0].place == from) {
                let what = self.names.ware(one.of);
                let much = if one.amount.is_zero() { String::new() } else { format!("{} ", amount(&one.amount, self.units)) };
                let gap = if spans.len() > 1 { "; " } else { "" };
                spans.push(plain(format!("{gap}{much}{what}{}", self.parts(one))));
                spans.extend(one.from.iter().any(|part| part.look_first).then(|| strong(" (look at it first)")));
            }
            (spans.len() > 1).then_some(spans)
        };
        places.into_iter().filter_map(paragraph).collect()
    }

    /// ": 500 g fridge, the rest from the shopping"; nothing where it lies in one place.
    fn parts(&self, fetched: &Fetched) -> String {
        let [parts @ .., last] = fetched.from.as_slice() else { return String::new() };
        if parts.is_empty() {
            return String::new();
        }
        let at = |one: &Fetch| one.place.map_or("from the shopping", place);
        let said = parts.iter().map(|one| format!("{} {}", amount(&one.amount, self.units), at(one)));
        format!(": {}, the rest {}", said.collect::<Vec<_>>().join(", "), at(last))
    }
}

/// "Contains milk; not known: vegetable stock", "Allergens not known: vegetable stock".
fn contains(contains: &Contains) -> Option<String> {
    let head = if contains.allergens.is_empty() { "Allergens" } else { "Contains" };
    contains.words().map(|words| format!("{head} {words}"))
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
