//! The shopping list: read at arm's length, with a trolley in the other hand. A page or more for every trip.

use itertools::Itertools;

use crate::kitchen::Names;
use crate::measure::Units;
use crate::prep::Before;
use crate::purchase::{ListLine, ShopVisit, ShoppingList, TripList};

use super::flow::{Block, Column, Cursor, pour, pour_evenly};
use super::frame::{GRID, Head, across, columns, columns_apart, finished, headed, number_pages};
use super::notes;
use super::page::{BLACK, Item, Page, Rect, Weight};
use super::parts::{opposite, underlined};
use super::scale::{Scale, Size};
use super::text::{Line, Setter, Span, Style, plain, soft, strong};
use super::wording::{amount, day, full_day, need, offer, pack};
use super::{Settings, Sheet};
use crate::words::listed;

/// The type, and how close lines stand.
#[derive(Debug, Clone, Copy)]
struct Spacing {
    scale: Scale,
    /// Names and packs.
    entry: Style,
    /// Above the name of a section.
    section: f32,
    /// Below a line's last word.
    below: f32,
}

impl Spacing {
    fn wide(size: Size) -> Spacing {
        let scale = size.scale();
        Spacing { scale, entry: scale.entry, section: 2.0 * GRID, below: GRID }
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
        Spacing { scale: Scale { note, ..close.scale }, entry: Style { size: 12.0, leading: 14.0 }, section: GRID, below: 2.0 }
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
    let household = names.household;
    let mut setter = Setter::default();
    let title = format!("Shopping list, {}", list.week);
    let mut pages: Vec<Page> = Vec::new();
    let mut rest_of_page = None;
    for trip in &list.trips {
        let (trip_pages, lowest) = trip_pages(&mut setter, list, trip, household, settings);
        pages.extend(trip_pages);
        rest_of_page = Some(lowest);
    }
    let all_notes =
        |setter: &mut Setter, width: f32| notes::blocks(setter, list, before, names, width, (settings.units, settings.size.scale().note));
    add_notes(&mut setter, &mut pages, rest_of_page, &title, household, settings, &all_notes);
    number_pages(&mut setter, &mut pages, &title, settings);
    finished(setter, format!("shopping-list-{}", list.from), title, pages, Vec::new())
}

fn head(list: &ShoppingList, trip: &TripList, continued: bool) -> Head {
    let shops: Vec<String> = trip.shops.iter().filter_map(|visit| visit.shop.clone()).collect();
    let title = if continued { format!("{}, continued", full_day(trip.on)) } else { full_day(trip.on) };
    let under = if shops.is_empty() { Vec::new() } else { vec![vec![plain(listed(&shops))]] };
    Head { over: format!("Shopping list, {}", list.week), title, under }
}

/// A trip of so many lines takes fewer pages set close; there is no need to try.
const MANY: usize = 300;

fn count_lines(trip: &TripList) -> usize {
    trip.shops.iter().flat_map(|visit| &visit.sections).map(|section| section.lines.len()).sum()
}

/// The pages of one trip, and the lowest point that the last of them reaches; set closer where that saves a page, and a little
/// smaller where all of it then stands on one.
fn trip_pages(setter: &mut Setter, list: &ShoppingList, trip: &TripList, household: &str, settings: Settings) -> (Vec<Page>, f32) {
    if count_lines(trip) > MANY {
        return spaced_pages(setter, (list, trip), household, settings, Spacing::close(settings.size));
    }
    let wide = spaced_pages(setter, (list, trip), household, settings, Spacing::wide(settings.size));
    if wide.0.len() == 1 {
        return wide;
    }
    let close = spaced_pages(setter, (list, trip), household, settings, Spacing::close(settings.size));
    if close.0.len() == 2 && !settings.size.is_large() {
        let small = spaced_pages(setter, (list, trip), household, settings, Spacing::small(settings.size));
        if small.0.len() == 1 {
            return small;
        }
    }
    if close.0.len() < wide.0.len() { close } else { wide }
}

fn spaced_pages(
    setter: &mut Setter,
    (list, trip): (&ShoppingList, &TripList),
    household: &str,
    settings: Settings,
    spacing: Spacing,
) -> (Vec<Page>, f32) {
    let (first, top) = headed(setter, settings, &head(list, trip, false), household);
    let (single, wide) = columns(settings, &first, top, 1);
    let large = settings.size.is_large();
    let (mut page, mut top) = (first, top);
    let mut pages = Vec::new();
    let room = (single[0].bottom - top) / 2.0;
    if !settings.fold && !large && count_lines(trip) as f32 * spacing.entry.leading <= room {
        let blocks = trip_blocks(setter, list, trip, wide.min(LONGEST), settings.units, spacing);
        let height: f32 = blocks.iter().map(|block| block.space + block.height()).sum();
        if height <= room {
            let poured = pour(&blocks, Cursor::default(), &single, Some(&mut page));
            return (vec![page], poured.lowest);
        }
    }
    let count = if large && !settings.fold { 1 } else { 2 };
    let (mut two, narrow) = columns_apart(settings, &page, top, count, settings.gutter());
    let blocks = trip_blocks(setter, list, trip, narrow, settings.units, spacing);
    let mut from = Cursor::default();
    loop {
        let poured = pour_evenly(&blocks, from, &two, &mut page);
        pages.push(page);
        if poured.until.block == blocks.len() {
            return (pages, poured.lowest);
        }
        from = poured.until;
        (page, top) = headed(setter, settings, &head(list, trip, true), household);
        two = columns_apart(settings, &page, top, count, settings.gutter()).0;
    }
}

type MakeBlocks<'a> = dyn Fn(&mut Setter, f32) -> Vec<Block> + 'a;

/// What stands after the trips: below the last of them where all of it has room, else on pages of its own.
fn add_notes(
    setter: &mut Setter,
    pages: &mut Vec<Page>,
    rest: Option<f32>,
    over: &str,
    household: &str,
    settings: Settings,
    blocks: &MakeBlocks,
) {
    if let (Some(rest), Some(page)) = (rest, pages.last_mut()) {
        let top = rest + 4.0 * GRID;
        for count in counts(settings) {
            let (narrow, width) = columns_apart(settings, page, top + 3.0 * GRID, *count, settings.gutter());
            let blocks = blocks(setter, width);
            if narrow[0].bottom > narrow[0].top && fits_in(&blocks, &narrow) {
                page.rules.push(across(narrow[0].x, page.width - narrow[0].x, top, BLACK));
                pour_evenly(&blocks, Cursor::default(), &narrow, page);
                return;
            }
        }
    }
    let count = counts(settings)[0];
    let (_, width) = columns_apart(settings, &Page::of(settings.paper), 0.0, count, settings.gutter());
    let blocks = blocks(setter, width);
    let head = Head { over: over.to_owned(), title: "At home, and what else to know".to_owned(), under: Vec::new() };
    let mut from = Cursor::default();
    while from.block < blocks.len() {
        let (mut page, top) = headed(setter, settings, &head, household);
        let (two, _) = columns_apart(settings, &page, top, count, settings.gutter());
        from = pour_evenly(&blocks, from, &two, &mut page).until;
        pages.push(page);
    }
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

fn trip_blocks(setter: &mut Setter, list: &ShoppingList, trip: &TripList, width: f32, units: Units, spacing: Spacing) -> Vec<Block> {
    let mut blocks = Vec::new();
    if trip.shops.iter().all(|visit| visit.sections.iter().all(|section| section.lines.is_empty())) {
        blocks.push(Block::of(setter.paragraph(&[plain("Nothing to buy.")], spacing.entry, width)));
    }
    for visit in &trip.shops {
        let name = visit.shop.as_deref().unwrap_or(NO_SHOP);
        blocks.push(shop_heading(setter, list, visit, spacing.entry, width).marked(format!("{}: {name}", day(trip.on))));
        for section in &visit.sections {
            let heading = blocks.len();
            blocks.push(section_heading(setter, &section.section, width, spacing));
            blocks.extend(section.lines.iter().map(|line| entry(setter, line, width, units, spacing).under(heading)));
        }
    }
    blocks
}

/// The heading of what no shop is known for.
const NO_SHOP: &str = "No shop known, or no price";

fn shop_heading(setter: &mut Setter, list: &ShoppingList, visit: &ShopVisit, style: Style, width: f32) -> Block {
    let name = visit.shop.as_deref().unwrap_or(NO_SHOP);
    let cost = visit.cost.as_ref().map(|cost| vec![plain(format!("{cost}\u{a0}{}", list.currency))]).unwrap_or_default();
    let lines = opposite(setter, &[strong(name)], &cost, style, width);
    Block::of(underlined(lines, width)).spaced(4.0 * GRID).heading()
}

fn section_heading(setter: &mut Setter, name: &str, width: f32, spacing: Spacing) -> Block {
    Block::of(setter.at_most(2, &[Span { weight: Weight::SemiBold, ..soft(name) }], spacing.scale.note, width))
        .spaced(spacing.section)
        .heading()
}

/// One thing to buy: a box to tick, its name, its packs, and below them what is good to know in the aisle.
fn entry(setter: &mut Setter, line: &ListLine, width: f32, units: Units, spacing: Spacing) -> Block {
    let inner = width - spacing.indent();
    let packs: Vec<String> = line.packs.iter().map(|one| pack(one, units)).collect();
    let packs = match (packs.is_empty(), need(line, units)) {
        (true, Some(need)) => need,
        (true, None) => String::new(),
        (false, _) => packs.join(" + "),
    };
    let mut lines = opposite(setter, &[strong(line.food.as_str())], &[plain(packs)], spacing.entry, inner);
    let details = details(line, units);
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
fn details(line: &ListLine, units: Units) -> Vec<Span> {
    let mut parts: Vec<Span> = line.beware.iter().map(|words| strong(words.as_str())).collect();
    let bought = !line.packs.is_empty();
    if bought {
        parts.extend(need(line, units).map(|need| plain(format!("need {need}"))));
    }
    parts.extend(line.packs.iter().filter_map(offer).map(strong));
    parts.extend(line.windows.as_ref().map(plain));
    if let (true, Some(date)) = (line.fresh, line.last_used) {
        parts.push(strong(format!("until at least {}", day(date))));
    }
    if !line.short.is_zero() {
        parts.push(plain(format!("{} short", amount(&line.short, units))));
    }
    let alone = !bought && line.need.is_zero();
    parts.extend(line.own_words.iter().map(|words| plain(if alone { words.clone() } else { in_own_words(words) })));
    let (top_up, what_for): (Vec<&String>, Vec<&String>) = line.what_for.iter().partition(|what| *what == "staple");
    if !what_for.is_empty() {
        parts.push(soft(format!("for {}", what_for.into_iter().join(", "))));
    }
    parts.extend((!top_up.is_empty()).then(|| soft("to fill up the shelf")));
    parts.into_iter().enumerate().flat_map(|(index, part)| (index > 0).then(|| soft("  ·  ")).into_iter().chain([part])).collect()
}

/// "to taste", or the line as it was typed.
fn in_own_words(words: &str) -> String {
    if words.trim_end().ends_with("to taste") { "to taste".to_owned() } else { format!("“{words}”") }
}
