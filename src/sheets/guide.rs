//! The prep guide: one page a session, read in a kitchen by someone who has never seen the tool. It is made to fit by a stated order of measures.

use jiff::civil::DateTime;

use crate::foods::Place;
use crate::measure::{Quantity, Units};
use crate::prep::{Before, BoxNote, Fetch, SessionPlan};

use super::chart::chart;
use super::flow::{Block, Cursor, pour, pour_evenly};
use super::frame::{GRID, Head, columns, finished, headed, number_pages};
use super::page::{MARGIN, Page};
use super::parts::{hanging, heading};
use super::steps::{Steps, Type, marks};
use super::text::{Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, clock, day, duration, full_day, moment, place, spoken};
use super::{Settings, Sheet};

/// One way of setting the page: the type, and the height of a row of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Measure {
    kind: Type,
    row: f32,
}

const fn measure(body: [f32; 2], note: [f32; 2], run_in: bool, row: f32) -> Measure {
    let (body, note) = (Style { size: body[0], leading: body[1] }, Style { size: note[0], leading: note[1] });
    Measure { kind: Type { body, note, run_in }, row }
}

/// What is tried in turn until a session fits its page: text run in, smaller type down to 9 pt, tighter leading, then a lower chart.
const MEASURES: [Measure; 6] = [
    measure([11.0, 14.0], [9.5, 12.0], false, 13.0),
    measure([11.0, 14.0], [9.5, 12.0], true, 13.0),
    measure([10.0, 13.0], [9.5, 12.0], true, 13.0),
    measure([9.5, 12.0], [9.5, 12.0], true, 13.0),
    measure([9.0, 11.0], [9.0, 11.0], true, 13.0),
    measure([9.0, 11.0], [9.0, 11.0], true, 10.0),
];

/// Where nothing fits one page, the steps are read from several, in the type of the first of this many measures that needs fewest.
const ROOMY: usize = 3;

/// Below the chart at least this much must be free for the steps to begin on the same page.
const LEAST_BELOW: f32 = 120.0;

/// The guide of one session. `before` is what must be done ahead of it.
pub fn prep_guide(week: &str, session: &SessionPlan, before: &[Before], household: &str, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let start = session.start.parse::<DateTime>().unwrap_or_default();
    let guide = Guide { week, session, before, household, settings, start };
    let mut pages = guide.fitted(&mut setter);
    let title = format!("Prep guide, {week}, {}", full_day(start.date()));
    number_pages(&mut setter, &mut pages, &title);
    let mut warnings = Vec::new();
    if pages.len() > 1 {
        warnings
            .push(format!("the prep guide of {} {} needs {} pages", day(start.date()), clock(start), pages.len()).replace('\u{a0}', " "));
    }
    let stem = format!("prep-guide-{}", start.strftime("%Y-%m-%d-%H%M"));
    finished(setter, stem, title.replace('\u{a0}', " "), pages, warnings)
}

struct Guide<'a> {
    week: &'a str,
    session: &'a SessionPlan,
    before: &'a [Before],
    household: &'a str,
    settings: Settings,
    start: DateTime,
}

impl Guide<'_> {
    fn fitted(&self, setter: &mut Setter) -> Vec<Page> {
        let mut fewest: Option<Vec<Page>> = None;
        for (index, measure) in MEASURES.into_iter().enumerate() {
            let pages = self.laid_out(setter, measure);
            if pages.len() == 1 {
                return pages;
            }
            if index < ROOMY && fewest.as_ref().is_none_or(|best| pages.len() < best.len()) {
                fewest = Some(pages);
            }
        }
        fewest.unwrap_or_default()
    }

    fn head(&self, continued: bool) -> Head {
        let session = self.session;
        let finish = session.finish.parse::<DateTime>().unwrap_or(self.start);
        let more = if continued { ", continued" } else { "" };
        let title = format!("{}, {} to {}{more}", full_day(self.start.date()), clock(self.start), clock(finish));
        let mut under = Vec::new();
        if !continued {
            if !session.people.is_empty() {
                under.push(vec![strong(session.people.join("; "))]);
            }
            let mut facts = vec![plain(duration(session.minutes))];
            facts.extend(session.finish_by.iter().map(|by| strong(format!(", to be finished by\u{a0}{by}"))));
            facts.push(soft(if session.proven {
                "; no shorter plan exists".to_owned()
            } else {
                format!("; a shorter plan may exist, none under {}", duration(session.bound_minutes))
            }));
            under.push(facts);
        }
        Head { over: format!("Prep guide, {}", self.week), title, under }
    }

    fn laid_out(&self, setter: &mut Setter, measure: Measure) -> Vec<Page> {
        let units = self.settings.units;
        let (mut page, mut top) = headed(setter, self.settings, &self.head(false), self.household);
        let mut pages = Vec::new();
        let width = page.width - 2.0 * MARGIN;
        let marks = marks(self.session);
        let lanes = chart(setter, self.session, &marks, self.start, measure.row, width, units);
        let mut from = Cursor::default();
        loop {
            let poured = pour(&lanes, from, &columns(&page, top, 1).0, Some(&mut page));
            from = poured.until;
            top = poured.lowest + 3.0 * GRID;
            if from.block >= lanes.len() {
                break;
            }
            pages.push(page);
            (page, top) = headed(setter, self.settings, &self.head(true), self.household);
        }
        let (two, narrow) = columns(&page, top, 2);
        let blocks = self.blocks(setter, measure.kind, narrow);
        if two[0].bottom - top < LEAST_BELOW {
            pages.push(page);
            (page, top) = headed(setter, self.settings, &self.head(true), self.household);
        }
        let mut from = Cursor::default();
        loop {
            let two = columns(&page, top, 2).0;
            from = pour_evenly(&blocks, from, &two, &mut page).until;
            pages.push(page);
            if from.block >= blocks.len() {
                return pages;
            }
            (page, top) = headed(setter, self.settings, &self.head(true), self.household);
        }
    }

    /// In the order in which a kitchen needs them.
    fn blocks(&self, setter: &mut Setter, kind: Type, width: f32) -> Vec<Block> {
        let session = self.session;
        let units = self.settings.units;
        let dated = |note: &Before| vec![strong(moment(&note.at)), plain(format!("  {}", note.text))];
        let sentences = |texts: &[String]| texts.iter().map(|text| vec![plain(text)]).collect::<Vec<_>>();
        let ahead = vec![
            ("Before the session", self.before.iter().map(dated).collect()),
            ("Fetch", fetched(&session.fetch, units)),
            ("Cut", self.cuts()),
        ];
        let afterwards = vec![
            ("What this makes", self.batches()),
            ("Boxes", session.boxes.iter().map(|note| self.boxed(note)).collect()),
            ("Take care", sentences(&session.cautions)),
            ("Good to know", sentences(&session.advice)),
        ];
        let mut blocks = groups(setter, ahead, kind.note, width);
        blocks.push(heading(setter, "Steps", kind.note, width));
        blocks.extend(Steps { session, start: self.start, kind, width, units }.blocks(setter));
        blocks.extend(groups(setter, afterwards, kind.note, width));
        blocks
    }

    /// The name of a recipe as the tasks print it.
    fn dish(&self, id: &str) -> String {
        let known = self.session.tasks.iter().find(|task| task.recipe.as_deref() == Some(id)).and_then(|task| task.dish.clone());
        known.unwrap_or_else(|| spoken(id))
    }

    fn cuts(&self) -> Vec<Vec<Span>> {
        let units = self.settings.units;
        let cut = |cut: &crate::prep::Cut| {
            vec![strong(cut.food.as_str()), plain(format!(", {}, {}, for step\u{a0}{}", amount(&cut.amount, units), cut.cut, cut.step))]
        };
        self.session.cuts.iter().map(cut).collect()
    }

    fn batches(&self) -> Vec<Vec<Span>> {
        let makes = |batch: &crate::prep::Batch| {
            let times = amount(&crate::measure::Quantity::pieces(batch.batches), self.settings.units);
            let word = if batch.batches <= 1.0 { "batch" } else { "batches" };
            let much = format!(", {}", amount(&batch.makes, self.settings.units));
            vec![strong(self.dish(&batch.recipe)), plain(much), soft(format!(" ({times}\u{a0}{word})"))]
        };
        self.session.batches.iter().map(makes).collect()
    }

    fn boxed(&self, note: &BoxNote) -> Vec<Span> {
        let portions = note.amount.clone().unwrap_or(Quantity::portions(note.portions));
        let portions = amount(&portions, self.settings.units);
        let mut spans = vec![strong(self.dish(&note.recipe)), plain(format!(", {portions}, {}", place(note.place)))];
        spans.extend(note.boxes.iter().map(|boxes| plain(format!(", {boxes}"))));
        spans.push(strong(format!(", use by {}", day(note.use_by))));
        if !note.what_for.is_empty() {
            spans.push(soft(format!(", for {}", note.what_for.join(", "))));
        }
        spans.extend(note.allergens.iter().map(|allergens| plain(format!(". {}", contains(allergens)))));
        spans
    }
}

/// "Contains: milk; allergens not known: vegetable stock".
fn contains(allergens: &str) -> String {
    if allergens.starts_with("not known") { format!("Allergens {allergens}") } else { format!("Contains {allergens}") }
}

/// Paragraphs under headings; a heading with nothing under it is left out.
fn groups(setter: &mut Setter, groups: Vec<(&str, Vec<Vec<Span>>)>, style: Style, width: f32) -> Vec<Block> {
    let mut blocks = Vec::new();
    for (title, notes) in groups.into_iter().filter(|(_, notes)| !notes.is_empty()) {
        blocks.push(heading(setter, title, style, width));
        blocks.extend(notes.iter().map(|spans| Block::of(hanging(setter, spans, style, width))));
    }
    blocks
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
