//! What stands beside the steps of a prep guide: what to do before, what to fetch and cut, what it makes, what to take care of.

use itertools::Itertools;

use crate::foods::Place;
use crate::kitchen::{Names, Ware};
use crate::measure::{Quantity, Units};
use crate::plan::Contains;
use crate::prep::{Advice, Batch, Before, Begun, BoxNote, Care, CutTogether, Fetched, Hands, PersonId, SessionPlan, Shares, by_food};

use super::cares::{by_source, run_in};
use super::flow::Block;
use super::parts::{hanging, heading};
use super::steps::{Type, warned_of};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, day, moment};
use crate::words::{first_words, place, sentence};

/// A heading, the paragraphs under it, and their type.
#[derive(Clone)]
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
    /// The person whose lists alone are wanted.
    pub whose: Option<PersonId>,
}

impl<'a> Beside<'a> {
    /// What is read before the first step.
    pub fn ahead(&self) -> Vec<Group> {
        let dated = |note: &Before| vec![strong(moment(note.at)), plain(format!("  {}", note.errand.text(self.names, self.units)))];
        vec![
            self.group("Before the session", self.before.iter().filter(|_| self.is_lead()).map(dated).collect()),
            self.group("Get out", self.get_out()),
            self.group("Fetch", self.fetched()),
            self.group("Cut, and for which step", self.run_in(self.cuts())),
        ]
    }

    pub fn afterwards(&self) -> Vec<Group> {
        let small = |group: Group| Group { style: self.kind.small, ..group };
        // Where room is short, what is boxed is told where it is boxed.
        let boxed = |batch: &&Batch| self.session.tasks.iter().any(|task| task.is_box() && task.recipe() == Some(batch.recipe));
        let batches = self.session.batches.iter().filter(|batch| !self.kind.brief || !boxed(batch));
        vec![
            self.group("What this makes", self.run_in(batches.map(|batch| self.makes(batch)).collect())),
            self.group("Boxes", self.boxes()),
            if self.kind.brief {
                small(self.group("Hands", self.run_in(self.hands())))
            } else {
                self.group("Hands", self.run_in(self.hands()))
            },
            self.group("Good to know", self.advice()),
            small(self.group("Take care", self.run_in(self.cautions()))),
        ]
    }

    /// What the head of the guide has not told.
    fn advice(&self) -> Vec<Vec<Span>> {
        let first = told_first(self.session, self.whose);
        let all = of_whom(self.session, self.whose).filter(|one| !first.iter().any(|told| std::ptr::eq(*told, *one)));
        all.map(|advice| vec![plain(advice.text(self.names))]).collect()
    }

    fn group(&self, title: &'static str, notes: Vec<Vec<Span>>) -> Group {
        Group { title, notes, kind: self.kind, style: self.kind.note }
    }

    /// In small type short notes stand in one paragraph.
    fn run_in(&self, notes: Vec<Vec<Span>>) -> Vec<Vec<Span>> {
        if !self.kind.is_tight() || notes.is_empty() {
            return notes;
        }
        vec![run_in(notes)]
    }

    /// Does the one person of the page begin the session? Then what nobody's step names is theirs.
    fn is_lead(&self) -> bool {
        leads(self.session, self.whose)
    }

    fn get_out(&self) -> Vec<Vec<Span>> {
        let words = self.session.get_out(self.whose).words(self.names);
        if words.is_empty() { Vec::new() } else { vec![vec![plain(format!("{}.", sentence(&words.join(", "))))]] }
    }

    /// One paragraph a food and stretch of work, its cuts in the order of the steps.
    fn cuts(&self) -> Vec<Vec<Span>> {
        let mine = |cut: &CutTogether| self.whose.is_none_or(|whose| cut.person == Some(whose));
        self.session.cuts_together().iter().filter(|cut| mine(cut)).map(|cut| vec![plain(cut.words(self.units))]).collect()
    }

    /// Everybody's hands-on minutes and pauses, and how the plan fares with slower hands.
    fn hands(&self) -> Vec<Vec<Span>> {
        let mine = |hands: &Hands| self.whose.is_none_or(|whose| hands.person == whose);
        let hands = self.session.hands().into_iter().filter(mine).map(|hands| hands.text(self.session));
        hands.chain(self.session.slower_text(self.names).map(|text| sentence(&text))).map(|text| vec![plain(text)]).collect()
    }

    fn makes(&self, batch: &Batch) -> Vec<Span> {
        let times = amount(&Quantity::pieces(batch.batches), self.units);
        let word = if batch.batches <= 1.0 { "batch" } else { "batches" };
        let name = self.names.recipe(batch.recipe);
        let name = if self.kind.is_tight() { first_words(name) } else { name.to_owned() };
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
        spans.extend(note.eater.iter().map(|eater| strong(format!(", for {eater} alone"))));
        spans.extend(note.boxes.iter().map(|boxes| plain(format!(", {boxes}"))));
        spans.push(strong(format!(", use by {}", day(note.use_by))));
        if !note.what_for.is_empty() {
            spans.push(soft(format!(", for {}", note.what_for.join(", "))));
        }
        spans.extend(contains(&note.contains).map(|allergens| plain(format!(". {allergens}."))));
        spans.extend(note.beware.as_ref().and_then(|_| warned_of(note)));
        spans
    }
    /// What is not known for an eater stands at the head of the guide.
    fn cautions(&self) -> Vec<Vec<Span>> {
        let theirs = self.whose.and_then(|whose| self.session.theirs.get(whose.0));
        by_source(
            theirs.unwrap_or(&self.session.cautions).iter().filter(|one| !matches!(one, Care::Unknown(_))),
            self.names,
            self.kind.brief,
        )
    }

    /// What to fetch, a paragraph a place; what lies in several stands under the first, with the whole amount before its parts.
    fn fetched(&self) -> Vec<Vec<Span>> {
        let places =
            [(Some(Place::Cupboard), "Cupboard"), (Some(Place::Fridge), "Fridge"), (Some(Place::Freezer), "Freezer"), (None, "Bought")];
        let foods = by_food(&self.session.fetch);
        let is_begun = |one: &Fetched| one.begun(&self.session.begun).is_some_and(Begun::is_all);
        let paragraph = |(from, name): (Option<Place>, &str)| {
            let mut spans = vec![strong(format!("{name}: "))];
            for one in foods.iter().filter(|one| one.from[0].place == from && !is_begun(one)) {
                let Some(share) = self.share_of(one.of) else { continue };
                let gap = if spans.len() > 1 { "; " } else { "" };
                let words = one.words(&self.session.said, &share, self.names, self.units);
                let parts = if one.from.len() > 1 { format!(": {}", one.places(&self.session.said, self.units)) } else { String::new() };
                let since = one.since(&self.session.begun, self.units).map(|since| format!(", {since}")).unwrap_or_default();
                spans.push(plain(format!("{gap}{words}{parts}{since}")));
                spans.extend((one.from.len() == 1 && one.from[0].look_first).then(|| strong(" (look at it first)")));
            }
            (spans.len() > 1).then_some(spans)
        };
        let since = |one: &Fetched| Some((self.share_of(one.of)?, one.since(&self.session.begun, self.units)?));
        let mut begun = foods.iter().filter(|one| is_begun(one)).filter_map(|one| {
            let (share, since) = since(one)?;
            Some(format!("{}, {since}", one.words(&self.session.said, &share, self.names, self.units)))
        });
        let begun = begun.join("; ");
        let begun = (!begun.is_empty()).then(|| vec![strong("In hand: "), plain(begun)]);
        places.into_iter().filter_map(paragraph).chain(begun).collect()
    }

    /// How much of a food the person of the page handles, beside the others; `None` where it is nothing.
    fn share_of(&self, ware: Ware) -> Option<Shares> {
        let Some(whose) = self.whose else { return Some(Shares::whole()) };
        let mut all = vec![0.0; self.session.people.len()];
        // What nobody's hands take up is whoever's who begins.
        let first = self.session.tasks.iter().find_map(|task| task.person.or(task.out_person));
        let mut known = false;
        for task in &self.session.tasks {
            for (_, share) in task.uses().iter().filter(|(of, _)| *of == ware) {
                known = true;
                if let Some(person) = task.person.or(first) {
                    all[person.0] += share;
                }
            }
        }
        match known {
            true => Some(Shares { all, whose: whose.0 }).filter(|shares| shares.mine() > 0.0),
            false => self.is_lead().then(Shares::whole),
        }
    }
}

/// "Contains milk; not known: vegetable stock", "Allergens not known: vegetable stock".
fn contains(contains: &Contains) -> Option<String> {
    let head = if contains.allergens.is_empty() { "Allergens" } else { "Contains" };
    contains.words().map(|words| format!("{head} {words}"))
}

fn leads(session: &SessionPlan, whose: Option<PersonId>) -> bool {
    let first = session.tasks.iter().find_map(|task| task.person.or(task.out_person));
    whose.is_none_or(|whose| first == Some(whose))
}

/// The advice of a page: all of it for everybody and for whoever begins, else what touches the one person's own work.
fn of_whom(session: &SessionPlan, whose: Option<PersonId>) -> impl Iterator<Item = &Advice> {
    let all = leads(session, whose);
    session.advice.iter().filter(move |one| all || whose.is_some_and(|whose| one.touches(session, whose)))
}

/// What is to be known before anything else: that it ends too late, who stays longer, and what would mend it best. It is told once, at the
/// head of the page.
pub fn told_first(session: &SessionPlan, whose: Option<PersonId>) -> Vec<&Advice> {
    let first =
        |one: &&Advice| matches!(one, Advice::Late { .. } | Advice::Stays { .. } | Advice::LateMeal { .. } | Advice::StoodTooLong { .. });
    let mends = |one: &&Advice| matches!(one, Advice::Remedy { over, .. } if *over <= 0);
    let grave: Vec<&Advice> = of_whom(session, whose).filter(first).collect();
    let mending = of_whom(session, whose).filter(mends).take(if grave.is_empty() { 0 } else { 2 });
    grave.iter().copied().chain(mending).collect()
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
        for spans in &group.notes {
            let lines = hanging(setter, spans, group.style, width);
            // Where room is short, a paragraph may be parted anywhere.
            if group.kind.is_tight() {
                blocks.extend(lines.into_iter().map(|line| Block::of(vec![line])));
            } else {
                blocks.push(Block::of(lines));
            }
        }
    }
    blocks
}
