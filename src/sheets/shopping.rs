//! The shopping list: read at arm's length, with a trolley in the other hand. A page or more for every trip.
//!
//! The fold of the list runs down the page between its columns, so that each half is a strip that reads from top to
//! bottom; heads and feet keep to one half.

use crate::kitchen::Names;
use crate::measure::Units;
use crate::prep::Before;
use crate::purchase::{ListLine, ShopVisit, ShoppingList, Stop, TripList};

use super::face::Weight;
use super::flow::{Block, Column, Cursor, pour, pour_evenly, under_headings};
use super::frame::{GRID, Head, across, columns, columns_apart, finished, headed, number_pages};
use super::notes::Notes;
use super::page::{BLACK, Item, Page, Rect};
use super::parts::{opposite, underlined};
use super::scale::{Scale, Size};
use super::text::{Line, Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, bought, day, full_day, need, offer};
use super::{Settings, Sheet};
use crate::kitchen::not_known;
use crate::plan::{ShortMeal, State};
use crate::telling::list::{OPTIONAL, RESTOCK, beware, instead, named, not_booked, windows, without};
use crate::telling::short::{at_the_head, still_to_get};
use crate::words::listed;

/// The type, and how close lines stand.
#[derive(Debug, Clone, Copy)]
struct Spacing {
    scale: Scale,
    /// Names and packs.
    entry: Style,
    /// Above the name of a section.
    section: f32,
    /// Above the name of a shop.
    shop: f32,
    /// Below a line's last word.
    below: f32,
    /// Is it told what each line is for?
    purposes: bool,
}

impl Spacing {
    fn wide(size: Size) -> Spacing {
        let scale = size.scale();
        Spacing { scale, entry: scale.entry, section: 2.0 * GRID, shop: 4.0 * GRID, below: GRID, purposes: true }
    }

    /// For a trip that would otherwise begin another page.
    fn close(size: Size) -> Spacing {
        let wide = Spacing::wide(size);
        let entry = Style { leading: wide.entry.leading - 1.0, ..wide.entry };
        Spacing { entry, section: GRID, below: 2.5, ..wide }
    }

    /// Smaller, for a trip that then has room on one page.
    fn small(size: Size) -> Spacing {
        let close = Spacing::close(size);
        let note = Style { leading: close.scale.note.leading - 1.0, ..close.scale.note };
        Spacing { scale: Scale { note, ..close.scale }, entry: Style { size: 12.0, leading: 14.0 }, below: 2.0, ..close }
    }

    /// As small as it gets, each with what it is for and then without: the aisle can do without that, and the week card has it.
    fn least(size: Size) -> [Spacing; 2] {
        let close = Spacing::close(size);
        let scale = Scale { note: Style { size: 8.5, leading: 10.0 }, ..close.scale };
        let entry = Style { size: 11.0, leading: 12.0 };
        [true, false].map(|purposes| Spacing { scale, entry, section: 2.0, shop: 2.0 * GRID, below: 1.0, purposes })
    }

    /// The side of the box to tick.
    fn tick(&self) -> f32 {
        (0.77 * self.entry.size).round()
    }

    /// Where the name begins.
    fn indent(&self) -> f32 {
        self.tick() + 2.0 * GRID
    }
}

/// Lines of one column are no longer than this, so that the eye finds the packs of a name.
const LONGEST: f32 = 400.0;

/// The shopping list of a week. `before` is what must be done ahead of the sessions: soaking, defrosting.
pub fn shopping_list(list: &ShoppingList, before: &[Before], names: Names, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let title = format!("Shopping list, {}", list.week);
    let mut pages: Vec<Page> = Vec::new();
    let mut rest_of_page = None;
    let not_known = not_known(&list.warnings);
    for (index, trip) in list.trips.iter().enumerate() {
        let short = if index == 0 { list.short.as_slice() } else { &[] };
        let (trip_pages, lowest) =
            TripSheet { over: &title, trip, short, not_known: if index == 0 { &not_known } else { &[] }, names, settings }
                .pages(&mut setter);
        pages.extend(trip_pages);
        rest_of_page = Some(lowest);
    }
    let style = settings.size.scale().note;
    let notes = Notes { list, before, names, units: settings.units, under: settings.under, style };
    add_notes(&mut setter, &mut pages, rest_of_page, &title, &notes, settings);
    number_pages(&mut setter, &mut pages, &title, settings);
    finished(setter, format!("shopping-list-{}", list.from), title, pages, Vec::new())
}

/// A trip of so many lines takes fewer pages set close; there is no need to try.
const MANY: usize = 300;

/// One trip, and how it is set.
#[derive(Clone, Copy)]
struct TripSheet<'a> {
    over: &'a str,
    trip: &'a TripList,
    /// What runs short stands first on the list.
    short: &'a [ShortMeal],
    /// What is not known for an allergic eater: before everything else.
    not_known: &'a [String],
    names: Names<'a>,
    settings: Settings,
}

impl TripSheet<'_> {
    fn head(&self, continued: bool) -> Head {
        let on = if self.trip.planned { full_day(self.trip.on) } else { still_to_get(self.trip.before.as_ref()) };
        let shops: Vec<&str> = self.trip.shops.iter().filter_map(|visit| visit.at).map(|stop| self.names.shop(stop.shop)).collect();
        let state = self.trip.closed().map(|state| format!(", {}", state.words())).unwrap_or_default();
        let title = if continued { format!("{on}{state}, continued") } else { format!("{on}{state}") };
        let mut under = if shops.is_empty() { Vec::new() } else { vec![vec![plain(listed(&shops))]] };
        if !continued {
            under.extend(not_booked(self.trip, self.names).map(|text| vec![plain(text)]));
            under.splice(0..0, short_lines(self.short, self.names, self.settings.units));
            under.splice(0..0, self.not_known.iter().map(|text| vec![strong(text)]));
        }
        Head { over: self.over.to_owned(), title, under }
    }

    /// The pages, and the lowest point that the last of them reaches; set closer where that saves a page, and a little smaller
    /// where all of it then stands on one.
    fn pages(&self, setter: &mut Setter) -> (Vec<Page>, f32) {
        let size = self.settings.size;
        if self.trip.lines().count() > MANY {
            return self.spaced_pages(setter, Spacing::close(size));
        }
        let wide = self.spaced_pages(setter, Spacing::wide(size));
        if wide.0.len() == 1 {
            return wide;
        }
        let close = self.spaced_pages(setter, Spacing::close(size));
        if close.0.len() == 2 && !size.is_large() {
            for spacing in std::iter::once(Spacing::small(size)).chain(Spacing::least(size)) {
                let small = self.spaced_pages(setter, spacing);
                if small.0.len() == 1 {
                    return small;
                }
            }
        }
        if close.0.len() < wide.0.len() { close } else { wide }
    }

    fn spaced_pages(&self, setter: &mut Setter, spacing: Spacing) -> (Vec<Page>, f32) {
        let (settings, household) = (self.settings, self.names.household);
        let (first, top) = headed(setter, settings, &self.head(false), household);
        let (single, wide) = columns(settings, &first, top, 1);
        let large = settings.size.is_large();
        let (mut page, mut top) = (first, top);
        let mut pages = Vec::new();
        let room = (single[0].bottom - top) / 2.0;
        if !settings.fold && !large && self.trip.lines().count() as f32 * spacing.entry.leading <= room {
            let (blocks, _) = self.blocks(setter, wide.min(LONGEST), spacing);
            let height: f32 = blocks.iter().map(|block| block.space + block.height()).sum();
            if height <= room {
                let poured = pour(&blocks, Cursor::default(), &single, Some(&mut page));
                return (vec![page], poured.lowest);
            }
        }
        let count = if large && !settings.fold { 1 } else { 2 };
        let (mut two, narrow) = columns_apart(settings, &page, top, count, settings.gutter());
        let (mut blocks, mut shops) = self.blocks(setter, narrow, spacing);
        loop {
            let poured = pour_evenly(&blocks, Cursor::default(), &two, &mut page);
            pages.push(page);
            if poured.until.block == blocks.len() {
                return (pages, poured.lowest);
            }
            (blocks, shops) = rest_of(blocks, shops, poured.until);
            (page, top) = headed(setter, settings, &self.head(true), household);
            two = columns_apart(settings, &page, top, count, settings.gutter()).0;
        }
    }

    /// With the heading of each shop, and what it says where the shop goes on over the page.
    fn blocks(&self, setter: &mut Setter, width: f32, spacing: Spacing) -> (Vec<Block>, Vec<GoesOn>) {
        let (mut blocks, mut shops) = (Vec::new(), Vec::new());
        if self.trip.lines().next().is_none() {
            blocks.push(Block::of(setter.paragraph(&[plain("Nothing to buy.")], spacing.entry, width)));
        }
        for visit in &self.trip.shops {
            let again = format!("{}, continued", visit.at.map_or(self.no_shop(), |stop| self.names.shop(stop.shop)));
            let again = opposite(setter, &[strong(again)], &[], spacing.entry, width);
            shops.push(GoesOn { at: blocks.len(), again: Block::of(underlined(again, width)).heading() });
            blocks.push(self.shop_heading(setter, visit, spacing, width));
            for section in &visit.sections {
                let heading = blocks.len();
                blocks.push(section_heading(setter, &section.section, width, spacing));
                blocks.extend(section.lines.iter().map(|line| self.entry(setter, line, width, spacing).under(heading)));
            }
        }
        (blocks, shops)
    }

    fn no_shop(&self) -> &'static str {
        if self.trip.closed() == Some(State::Done) { "Wherever it was bought" } else { NO_SHOP }
    }

    fn shop_heading(&self, setter: &mut Setter, visit: &ShopVisit, spacing: Spacing, width: f32) -> Block {
        let name = visit.at.map_or(self.no_shop(), |stop| self.names.shop(stop.shop));
        let cost = |stop: Stop| vec![plain(format!("{}\u{a0}{}", self.names.money(stop.cost), self.names.currency))];
        let lines = opposite(setter, &[strong(name)], &visit.at.map(cost).unwrap_or_default(), spacing.entry, width);
        let heading = Block::of(underlined(lines, width)).spaced(spacing.shop).heading();
        heading.marked(format!("{}: {name}", day(self.trip.on)))
    }

    /// One thing to buy: a box to tick, its name, its packs, and below them what is good to know in the aisle.
    fn entry(&self, setter: &mut Setter, line: &ListLine, width: f32, spacing: Spacing) -> Block {
        let units = self.settings.units;
        let inner = width - spacing.indent();
        let packs = if line.packs.is_empty() { need(line, self.names, units).unwrap_or_default() } else { bought(line, units) };
        let name = named(line, self.names, units);
        let mut lines = opposite(setter, &[strong(name)], &[plain(packs)], spacing.entry, inner);
        let details = self.details(line, units, spacing.purposes);
        if !details.is_empty() {
            lines.extend(setter.paragraph(&details, spacing.scale.note, inner));
        }
        let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(spacing.indent())).collect();
        if let Some(first) = lines.first_mut() {
            let side = spacing.tick();
            let top = (spacing.entry.leading - side) / 2.0;
            let tick = Rect { x: 0.0, y: top, width: side, height: side, fill: None, outline: Some(0.8) };
            first.items.push(Item::Rect(tick));
        }
        if let Some(last) = lines.last_mut() {
            last.height += spacing.below;
            last.items.push(Item::Rule(across(spacing.indent(), width, last.height - 2.0, 0.75)));
        }
        Block::of(lines)
    }

    /// Need, offer, last day, what for, and the rest, parted by dots.
    fn details(&self, line: &ListLine, units: Units, purposes: bool) -> Vec<Span> {
        let mut parts: Vec<Span> = line.beware.iter().map(|held| strong(beware(held))).collect();
        let bought = !line.packs.is_empty();
        if bought {
            parts.extend(need(line, self.names, units).map(|need| plain(format!("need {need}"))));
        }
        parts.extend(line.packs.iter().filter_map(|pack| pack.offer.as_ref()).map(|taken| strong(offer(taken, self.names.currency))));
        parts.extend(line.windows.as_ref().map(|opened| plain(windows(opened))));
        parts.extend(line.optional.then(|| plain(OPTIONAL)));
        parts.extend(instead(line).map(plain));
        parts.extend(line.without.as_ref().map(|last| plain(without(last, self.names, units))));
        if let (true, Some(date)) = (line.fresh, line.last_used) {
            parts.push(strong(format!("must last to {}", day(date))));
        }
        if line.is_short_of_note() {
            parts.push(plain(format!("{} short", amount(&line.short, units))));
        }
        let alone = !bought && line.need.is_zero();
        parts.extend(line.own_words.iter().map(|words| plain(if alone { words.clone() } else { in_own_words(words) })));
        if purposes && !line.what_for.is_empty() {
            parts.push(soft(format!("for {}", line.what_for.join(", "))));
        }
        parts.extend(line.top_up.then(|| soft(RESTOCK)));
        parts.into_iter().enumerate().flat_map(|(index, part)| (index > 0).then(|| soft("  ·  ")).into_iter().chain([part])).collect()
    }
}

/// The heading of a shop among the blocks, and what it says at the head of another page.
#[derive(Debug, Clone)]
struct GoesOn {
    at: usize,
    again: Block,
}

/// What is left to pour on the next page: under the shop that goes on, and under the section that does, both said again.
fn rest_of(mut blocks: Vec<Block>, shops: Vec<GoesOn>, from: Cursor) -> (Vec<Block>, Vec<GoesOn>) {
    let mut rest = blocks.split_off(from.block);
    let mut ahead: Vec<Block> = Vec::new();
    let (before, mut still): (Vec<GoesOn>, Vec<GoesOn>) = shops.into_iter().partition(|shop| shop.at < from.block);
    if !still.iter().any(|shop| shop.at == from.block)
        && let Some(shop) = before.into_iter().next_back()
    {
        ahead.push(shop.again.clone());
        still.insert(0, GoesOn { at: from.block, ..shop });
    }
    let section = rest.first().and_then(|block| block.under).filter(|section| *section < from.block);
    ahead.extend(section.map(|section| Block { bookmark: None, ..blocks[section].clone() }));
    let more = ahead.len();
    for block in &mut rest {
        block.under = block.under.map(|heading| if heading < from.block { more.saturating_sub(1) } else { heading - from.block + more });
    }
    if let Some(first) = rest.first_mut() {
        first.lines.drain(..from.line);
    }
    let is_said_again = |shop: &GoesOn| more > 0 && shop.at == from.block;
    still.iter_mut().for_each(|shop| shop.at = if is_said_again(shop) { 0 } else { shop.at - from.block + more });
    (ahead.into_iter().chain(rest).collect(), still)
}

/// A line a meal that nothing can serve, with what could be done.
pub(super) fn short_lines(short: &[ShortMeal], names: Names, units: Units) -> Vec<Vec<Span>> {
    let line = |meal: &ShortMeal| {
        let (what, remedies) = at_the_head(meal, names, units);
        vec![strong(format!("{what} ")), plain(remedies)]
    };
    short.iter().map(line).collect()
}

/// What stands after the trips: below the last of them where all of it has room, else on a page of its own, a little smaller where that
/// keeps it to one; else on several.
fn add_notes(setter: &mut Setter, pages: &mut Vec<Page>, rest: Option<f32>, over: &str, notes: &Notes, settings: Settings) {
    if let (Some(rest), Some(page)) = (rest, pages.last_mut()) {
        let top = rest + 4.0 * GRID;
        for count in counts(settings) {
            let (narrow, width) = columns_apart(settings, page, top + 3.0 * GRID, *count, settings.gutter());
            let blocks = notes.blocks(setter, width);
            if narrow[0].bottom > narrow[0].top && fits_in(&blocks, &narrow) {
                page.rules.push(across(narrow[0].x, page.width - narrow[0].x, top, BLACK));
                pour_evenly(&blocks, Cursor::default(), &narrow, page);
                return;
            }
        }
    }
    let short = if notes.list.trips.is_empty() { notes.list.short.as_slice() } else { &[] };
    let under = short_lines(short, notes.names, notes.units);
    let mut head = Head { over: over.to_owned(), title: "At home, and what else to know".to_owned(), under };
    let (count, blocks) = on_one_page(setter, &head, notes, settings);
    let mut from = Cursor::default();
    while from.block < blocks.len() || pages.is_empty() {
        let (mut page, top) = headed(setter, settings, &head, notes.names.household);
        let (two, _) = columns_apart(settings, &page, top, count, settings.gutter());
        from = pour_evenly(&blocks, from, &two, &mut page).until;
        pages.push(page);
        head.title = "At home, and what else to know, continued".to_owned();
    }
}

/// The notes for pages of their own: in how many columns, and set smaller where all of them then stand on one.
fn on_one_page(setter: &mut Setter, head: &Head, notes: &Notes, settings: Settings) -> (usize, Vec<Block>) {
    const SMALLER: Style = Style { size: 8.5, leading: 10.0 };
    let usual = notes.style;
    let styles = if settings.size.is_large() { vec![usual] } else { vec![usual, SMALLER] };
    let tried = styles.into_iter().flat_map(|style| counts(settings).iter().map(move |count| (style, *count)));
    let mut set = |style: Style, count: usize| {
        let (page, top) = headed(setter, settings, head, notes.names.household);
        let (columns, width) = columns_apart(settings, &page, top, count, settings.gutter());
        let mut blocks = Notes { style, ..*notes }.blocks(setter, width);
        under_headings(&mut blocks);
        (columns, blocks)
    };
    for (style, count) in tried {
        let (columns, blocks) = set(style, count);
        if fits_in(&blocks, &columns) {
            return (count, blocks);
        }
    }
    let count = counts(settings)[0];
    (count, set(usual, count).1)
}

/// In how many columns the notes are tried.
fn counts(settings: Settings) -> &'static [usize] {
    match (settings.fold, settings.size) {
        (true, _) => &[2],
        (false, Size::Normal) => &[2, 3],
        (false, Size::Large) => &[1],
    }
}

fn fits_in(blocks: &[Block], columns: &[Column]) -> bool {
    let poured = pour(blocks, Cursor::default(), columns, None);
    poured.until.block == blocks.len() && columns.iter().all(|column| poured.lowest <= column.bottom + 0.01)
}

/// The heading of what no shop is known for.
const NO_SHOP: &str = "No shop known, or no price";

fn section_heading(setter: &mut Setter, name: &str, width: f32, spacing: Spacing) -> Block {
    Block::of(setter.at_most(2, &[Span { weight: Weight::SemiBold, ..soft(name) }], spacing.scale.note, width))
        .spaced(spacing.section)
        .heading()
}

/// "to taste", or the line as it was typed.
fn in_own_words(words: &str) -> String {
    if words.trim_end().ends_with("to taste") { "to taste".to_owned() } else { format!("“{words}”") }
}
