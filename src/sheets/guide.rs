//! The prep guide: one page a session, read in a kitchen by someone who has never seen the tool. It is made to fit by a stated order of measures.
//!
//! A guide that does not fit one page is first set smaller and closer, then printed one page a person where several
//! work; only then does it take further pages.

use itertools::Itertools;
use jiff::civil::DateTime;

use crate::kitchen::Names;
use crate::prep::{Before, Care, PersonId, SessionPlan, presence};

use super::beside::{Beside, groups, told_first};
use super::chart::{Look, chart};
use super::flow::{Block, Cursor, pour, pour_evenly, under_headings};
use super::frame::{GRID, GUTTER, Head, across, columns, columns_apart, finished, headed, number_pages};
use super::page::{BLACK, MARGIN, Page};
use super::parts::heading;
use super::scale::style;
use super::steps::{Steps, Type};
use super::text::{Setter, Span, plain, soft, strong};
use super::wording::{day, duration, full_day};
use super::{Settings, Sheet};
use crate::words::{Clock, clock, clock_after};

/// What stands above the steps of a single page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Order {
    /// What is fetched and cut, as it is read.
    AheadFirst,
    /// The chart alone; all lists follow the steps, which takes a little less room.
    StepsFirst,
}

/// Every measure with what comes first above the steps; only then the tightest with all lists below.
fn orders<'m>(measures: impl Iterator<Item = &'m Measure> + Clone) -> Vec<(Measure, Order)> {
    let tight = measures.clone().filter(|measure| measure.kind.brief).map(|measure| (*measure, Order::StepsFirst));
    measures.map(|measure| (*measure, Order::AheadFirst)).chain(tight).collect()
}

/// One way of setting the page: the type, and the height of a row of the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Measure {
    kind: Type,
    row: f32,
}

const fn measure(body: [f32; 2], note: [f32; 2], small: [f32; 2], run_in: bool, gap: f32, row: f32) -> Measure {
    let (body, note, small) = (style(body[0], body[1]), style(note[0], note[1]), style(small[0], small[1]));
    Measure { kind: Type { body, note, small, run_in, gap, brief: row < 13.0 }, row }
}

/// What is tried in turn until a session fits its page: text run in, smaller type down to 9 pt, tighter leading, then a lower chart.
const MEASURES: [Measure; 9] = [
    measure([11.0, 14.0], [9.5, 12.0], [9.5, 12.0], false, 4.0, 13.0),
    measure([11.0, 14.0], [9.5, 12.0], [9.5, 12.0], true, 4.0, 13.0),
    measure([10.0, 13.0], [9.5, 12.0], [7.5, 9.5], true, 4.0, 13.0),
    measure([9.5, 12.0], [9.5, 12.0], [7.5, 9.5], true, 3.0, 13.0),
    measure([9.0, 11.0], [9.0, 11.0], [7.5, 9.0], true, 2.5, 13.0),
    measure([9.0, 10.5], [9.0, 10.5], [7.5, 8.5], true, 1.5, 13.0),
    measure([9.0, 10.5], [9.0, 10.5], [7.5, 8.5], true, 1.5, 10.0),
    measure([9.0, 10.0], [9.0, 10.0], [7.5, 8.25], true, 1.0, 9.0),
    measure([9.0, 9.75], [9.0, 9.5], [7.5, 8.0], true, 0.5, 9.0),
];

/// The page of one person alone is read from a board: it is set larger where there is room for it.
const ROOMIER: [Measure; 2] =
    [measure([14.0, 18.0], [9.5, 12.0], [9.5, 12.0], false, 6.0, 16.0), measure([12.5, 16.0], [9.5, 12.0], [9.5, 12.0], false, 5.0, 14.0)];

/// Large print is not made to fit: it takes the pages it needs, set a little closer where that spares one.
const LARGE: [Measure; 2] = [
    measure([16.0, 20.0], [14.0, 18.0], [14.0, 17.0], false, 8.0, 20.0),
    measure([16.0, 19.0], [14.0, 17.0], [14.0, 16.0], false, 6.0, 18.0),
];

/// Where nothing fits one page, the steps are read from several, in the type of the first of this many measures that needs fewest.
const ROOMY: usize = 3;

/// Below the chart at least this much must be free for the steps to begin on the same page.
const LEAST_BELOW: f32 = 120.0;

/// Space between two columns of small type.
const NARROW_GUTTER: f32 = 15.0;

/// A session by more people than this is not printed one page a person.
const MOST_PEOPLE: usize = 6;

/// The guide of one session. `before` is what must be done ahead of it.
pub fn prep_guide(week: &str, session: &SessionPlan, before: &[Before], names: Names, settings: Settings) -> Sheet {
    let guide = Guide::new(week, session, before, names, settings, None);
    let mut setter = Setter::default();
    let mut pages = guide.fitted(&mut setter);
    number_pages(&mut setter, &mut pages, &guide.title(), settings);
    let mut warnings = Vec::new();
    if pages.len() > 1 && !settings.size.is_large() {
        let (on, at) = (day(session.start.date()), clock(session.start));
        warnings.push(format!("the prep guide of {on} {at} needs {} pages", pages.len()).replace('\u{a0}', " "));
    }
    finished(setter, guide.stem(), guide.title().replace('\u{a0}', " "), pages, warnings)
}

/// What the guide of a session is called, or that of one person in it: `prep-guide-2026-11-29-1400-noor`.
pub fn guide_stem(start: DateTime, person: Option<&str>) -> String {
    let plain_letters = |name: &str| name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect::<String>();
    let whose = person.map(|name| format!("-{}", plain_letters(&name.to_lowercase()))).unwrap_or_default();
    format!("prep-guide-{}{whose}", start.strftime("%Y-%m-%d-%H%M"))
}

/// What one person of a session does, with what to wait for and whom to tell; `None` where nobody of that name has anything to do.
pub fn person_guide(week: &str, session: &SessionPlan, before: &[Before], names: Names, settings: Settings, person: &str) -> Option<Sheet> {
    let person = people(session).into_iter().find(|id| session.person(*id).name.to_lowercase() == person.to_lowercase())?;
    let guide = Guide::new(week, session, before, names, settings, Some(person));
    let mut setter = Setter::default();
    let mut pages = guide.single(&mut setter).map_or_else(|| guide.several(&mut setter), |page| vec![page]);
    number_pages(&mut setter, &mut pages, &guide.title(), settings);
    Some(finished(setter, guide.stem(), guide.title().replace('\u{a0}', " "), pages, Vec::new()))
}

/// Everybody who has something to do, in the household's order.
fn people(session: &SessionPlan) -> Vec<PersonId> {
    session.tasks.iter().flat_map(|task| task.person.into_iter().chain(task.out_person)).unique().sorted().collect()
}

struct Guide<'a> {
    week: &'a str,
    session: &'a SessionPlan,
    before: &'a [Before],
    names: Names<'a>,
    settings: Settings,
    whose: Option<PersonId>,
}

impl<'a> Guide<'a> {
    fn new(
        week: &'a str,
        session: &'a SessionPlan,
        before: &'a [Before],
        names: Names<'a>,
        settings: Settings,
        whose: Option<PersonId>,
    ) -> Guide<'a> {
        Guide { week, session, before, names, settings, whose }
    }

    /// ", for Jo" or ", Jo" on the page of one person, by the word given.
    fn for_whom(&self, word: &str) -> String {
        self.whose.map_or_else(String::new, |id| format!("{word}{}", self.session.person(id).name))
    }

    /// Without breaking spaces in its dates.
    fn title(&self) -> String {
        let whose = self.for_whom(", for ");
        format!("Prep guide, {}, {}{whose}", self.week, full_day(self.session.start.date()))
    }

    fn stem(&self) -> String {
        guide_stem(self.session.start, self.whose.map(|id| self.session.person(id).name.as_str()))
    }

    /// One page; else one page a person; else several.
    fn fitted(&self, setter: &mut Setter) -> Vec<Page> {
        if let Some(page) = self.single(setter) {
            return vec![page];
        }
        let people = people(self.session);
        let each_alone = (2..=MOST_PEOPLE).contains(&people.len()).then(|| self.page_a_person(&people, setter)).flatten();
        each_alone.unwrap_or_else(|| self.several(setter))
    }

    /// All in the first measure in which everybody's page has room, so that the sheet has one scale of type.
    fn page_a_person(&self, people: &[PersonId], setter: &mut Setter) -> Option<Vec<Page>> {
        let theirs = |person: &PersonId| Guide::new(self.week, self.session, self.before, self.names, self.settings, Some(*person));
        let guides: Vec<Guide> = people.iter().map(theirs).collect();
        let tried = orders(self.measures().iter());
        tried.into_iter().find_map(|(measure, order)| guides.iter().map(|guide| guide.on_one_page(setter, measure, order)).collect())
    }

    fn measures(&self) -> &'static [Measure] {
        if self.is_large() { &[] } else { &MEASURES }
    }

    /// The page in the first measure in which everything has room on it.
    fn single(&self, setter: &mut Setter) -> Option<Page> {
        let roomier = if self.whose.is_some() && !self.is_large() { &ROOMIER[..] } else { &[] };
        let tried = orders(roomier.iter().chain(self.measures()));
        tried.into_iter().find_map(|(measure, order)| self.on_one_page(setter, measure, order))
    }

    /// The chart, what is done before the steps in three columns, the steps in two, and the rest in three.
    fn on_one_page(&self, setter: &mut Setter, measure: Measure, order: Order) -> Option<Page> {
        let (mut page, top) = headed(setter, self.settings, &self.tight_head(measure), self.names.household);
        let lanes = self.lanes(setter, measure, page.width - 2.0 * MARGIN);
        let charted = pour(&lanes, Cursor::default(), &columns(self.settings, &page, top, 1).0, Some(&mut page));
        let lists = self.beside(measure.kind);
        let (three, narrow) = columns_apart(self.settings, &page, charted.lowest + 1.5 * GRID, 3, self.gutter(measure));
        let first = if order == Order::AheadFirst { lists.ahead() } else { Vec::new() };
        let ahead = groups(setter, first, narrow);
        let begun = pour_evenly(&ahead, Cursor::default(), &three, &mut page);
        let top = if ahead.is_empty() { charted.lowest + 0.5 * GRID } else { begun.lowest + 1.5 * GRID };
        if !ahead.is_empty() {
            page.rules.push(across(MARGIN, page.width - MARGIN, top, BLACK));
        }
        let (two, width) = columns_apart(self.settings, &page, top + GRID, 2, self.gutter(measure));
        let steps = self.steps(measure.kind, width).blocks(setter);
        let stepped = pour_evenly(&steps, Cursor::default(), &two, &mut page);
        let under = stepped.lowest + 1.5 * GRID;
        let (three, width) = columns_apart(self.settings, &page, under + GRID, 3, self.gutter(measure));
        let after = if order == Order::AheadFirst { lists.afterwards() } else { [lists.ahead(), lists.afterwards()].concat() };
        let lists: Vec<Block> = groups(setter, after, width);
        page.rules.push(across(MARGIN, page.width - MARGIN, under, BLACK));
        let listed = pour_evenly(&lists, Cursor::default(), &three, &mut page);
        let whole = charted.until.block == lanes.len()
            && begun.until.block == ahead.len()
            && stepped.until.block == steps.len()
            && listed.until.block == lists.len();
        (whole && page.runs.iter().all(|run| run.bounds().is_inside(&page.inside_margins(), 0.1))).then_some(page)
    }

    fn several(&self, setter: &mut Setter) -> Vec<Page> {
        let measures = if self.is_large() { &LARGE[..] } else { &MEASURES[..ROOMY] };
        measures.iter().map(|measure| self.on_pages(setter, *measure)).min_by_key(Vec::len).unwrap_or_default()
    }

    fn is_large(&self) -> bool {
        self.settings.size.is_large()
    }

    fn gutter(&self, measure: Measure) -> f32 {
        if measure.kind.is_tight() { NARROW_GUTTER } else { GUTTER }
    }

    fn lanes(&self, setter: &mut Setter, measure: Measure, width: f32) -> Vec<Block> {
        let (size, units) = (self.settings.size, self.settings.units);
        let look = Look { row: measure.row, size, width, units, clock: Clock::Of(self.session.start) };
        let mut blocks = chart(setter, self.session, self.names, look);
        let whose = self.for_whom(", ");
        let name = format!("{}, {}{whose}", day(self.session.start.date()), clock(self.session.start));
        if let Some(first) = blocks.first_mut() {
            first.bookmark = Some(name);
        }
        blocks
    }

    fn steps(&self, kind: Type, width: f32) -> Steps<'a> {
        Steps { session: self.session, kind, width, names: self.names, units: self.settings.units, whose: self.whose }
    }

    fn beside(&self, kind: Type) -> Beside<'a> {
        Beside { session: self.session, before: self.before, kind, names: self.names, units: self.settings.units, whose: self.whose }
    }

    fn head(&self, continued: bool) -> Head {
        let session = self.session;
        let more = if continued { ", continued" } else { "" };
        let whose = self.for_whom(", ");
        let begins = clock_after(session.start, session.begins());
        let title = format!("{}, {begins} to {}{whose}{more}", full_day(self.session.start.date()), clock(session.ends()));
        let mut under = Vec::new();
        if !continued {
            let mut facts = vec![strong(session.people.iter().map(presence).join("; "))];
            facts.extend((!session.people.is_empty()).then(|| soft("  ·  ")));
            let rest = session.ends_with_a_meal().then(|| format!("the rest done at\u{a0}{}, in ", clock(session.finish)));
            let told = if session.is_all_served() {
                "all served hot".to_owned()
            } else {
                rest.unwrap_or_default() + &duration((session.minutes - session.begins()).max(0))
            };
            facts.push(plain(told));
            facts.extend(session.finish_by.map(|by| strong(format!(", to be finished by\u{a0}{}", clock(by)))));
            let served = session.served_text();
            facts.extend((!served.is_empty()).then(|| strong(served.replace(" at ", " at\u{a0}"))));
            under.push(facts);
            under.extend(self.warned());
            let unknown = session.cautions.iter().filter(|care| matches!(care, Care::Unknown(_)));
            under.extend(unknown.map(|care| vec![strong(care.text(self.names))]));
            // Why, and what to clean, is said below; who it is must not be overlooked.
            let guarded = session.cautions.iter().filter_map(|care| if let Care::CrossContact(one) = care { Some(one) } else { None });
            under.extend(guarded.map(|one| vec![strong(one.warning(self.names))]));
        }
        Head { over: format!("Prep guide, {}", self.week), title, under }
    }

    /// What is to be known before anything else: that it ends too late, who stays longer, and what would mend it best.
    fn warned(&self) -> Option<Vec<Span>> {
        let told = told_first(self.session, self.whose).into_iter().map(|one| one.text(self.names)).join(" ");
        (!told.is_empty()).then(|| vec![strong(told)])
    }

    /// Where room is short, the foot of the page alone says which week's guide it is.
    fn tight_head(&self, measure: Measure) -> Head {
        let head = self.head(false);
        if measure.kind.brief { Head { over: String::new(), ..head } } else { head }
    }

    /// As many pages as it takes: what comes first, the steps, what comes after, in two columns.
    fn on_pages(&self, setter: &mut Setter, measure: Measure) -> Vec<Page> {
        let (mut page, mut top) = headed(setter, self.settings, &self.head(false), self.names.household);
        let mut pages = Vec::new();
        let lanes = self.lanes(setter, measure, page.width - 2.0 * MARGIN);
        let mut from = Cursor::default();
        loop {
            let poured = pour(&lanes, from, &columns(self.settings, &page, top, 1).0, Some(&mut page));
            from = poured.until;
            top = poured.lowest + 3.0 * GRID;
            if from.block >= lanes.len() {
                break;
            }
            pages.push(page);
            (page, top) = headed(setter, self.settings, &self.head(true), self.names.household);
        }
        // Large lines want the width of the page.
        let count = if self.is_large() { 1 } else { 2 };
        let (two, narrow) = columns(self.settings, &page, top, count);
        let blocks = self.in_a_row(setter, measure.kind, narrow);
        if two[0].bottom - top < LEAST_BELOW {
            pages.push(page);
            (page, top) = headed(setter, self.settings, &self.head(true), self.names.household);
        }
        let mut from = Cursor::default();
        loop {
            let two = columns(self.settings, &page, top, count).0;
            from = pour_evenly(&blocks, from, &two, &mut page).until;
            pages.push(page);
            if from.block >= blocks.len() {
                return pages;
            }
            (page, top) = headed(setter, self.settings, &self.head(true), self.names.household);
        }
    }

    /// In the order in which a kitchen needs them.
    fn in_a_row(&self, setter: &mut Setter, kind: Type, width: f32) -> Vec<Block> {
        let lists = self.beside(kind);
        let mut blocks = groups(setter, lists.ahead(), width);
        under_headings(&mut blocks);
        blocks.push(heading(setter, "Steps", kind.note, width));
        blocks.extend(self.steps(kind, width).blocks(setter));
        blocks.extend(groups(setter, lists.afterwards(), width));
        blocks
    }
}
