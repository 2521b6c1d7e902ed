//! The count sheet: every lot of a place, with a blank to write what is found.

use jiff::civil::Date;

use crate::book::{CountLine, CountPlace};

use super::flow::{Block, Cursor, pour_evenly};
use super::frame::{GRID, Head, across, columns, finished, headed, number_pages};
use super::page::{BLACK, Item, Page};
use super::parts::heading;
use super::scale::Scale;
use super::text::{Line, Setter, Span, plain, soft, strong};
use super::wording::{day, full_day, tied};
use super::{Settings, Sheet};
use crate::words::{place, sentence};

/// The blank at the end of a line: room for "2 × 400 g" by hand.
const BLANK: f32 = 84.0;

/// Lines without a name at the end, for what is not on the sheet.
const NOT_LISTED: usize = 4;

/// Air below a line; less of it where that saves a page.
const AIR: [f32; 2] = [1.5 * GRID, 0.5 * GRID];

/// The count sheet of a shelf: place by place, two columns a page.
pub fn count_sheet(places: &[CountPlace], household: &str, on: Date, settings: Settings) -> Sheet {
    let mut setter = Setter::default();
    let title = format!("Count sheet, {}", full_day(on));
    let ways = AIR.map(|air| laid_out(&mut setter, places, household, on, settings, air));
    let mut pages = ways.into_iter().min_by_key(Vec::len).unwrap_or_default();
    number_pages(&mut setter, &mut pages, &title, settings);
    finished(setter, format!("count-{on}"), title, pages, Vec::new())
}

fn laid_out(setter: &mut Setter, places: &[CountPlace], household: &str, on: Date, settings: Settings, air: f32) -> Vec<Page> {
    let under = vec![vec![soft("Write what you find. 0 where all of it is gone; a line left blank stays as it is booked.")]];
    let head = Head { over: "Count sheet".to_owned(), title: full_day(on), under };
    let (mut page, mut top) = headed(setter, settings, &head, household);
    let width = columns(settings, &page, top, 2).1;
    let blocks = blocks(setter, places, on, width, settings, air);
    let mut pages: Vec<Page> = Vec::new();
    let mut from = Cursor::default();
    loop {
        let two = columns(settings, &page, top, 2).0;
        from = pour_evenly(&blocks, from, &two, &mut page).until;
        pages.push(page);
        if from.block >= blocks.len() {
            return pages;
        }
        let head = Head { over: head.over.clone(), title: format!("{}, continued", full_day(on)), under: Vec::new() };
        (page, top) = headed(setter, settings, &head, household);
    }
}

fn blocks(setter: &mut Setter, places: &[CountPlace], on: Date, width: f32, settings: Settings, air: f32) -> Vec<Block> {
    let scale = settings.size.scale();
    let mut blocks = Vec::new();
    for shelf in places {
        let title = blocks.len();
        blocks.push(heading(setter, &sentence(place(shelf.place)), scale.entry, width));
        blocks.extend(shelf.lines.iter().map(|line| entry(setter, line, on, width, settings, air).under(title)));
    }
    let title = blocks.len();
    blocks.push(heading(setter, "Not on this sheet", scale.entry, width));
    blocks.extend((0..NOT_LISTED).map(|_| free_line(scale, width, air).under(title)));
    blocks
}

/// The name and a blank; below the name what is booked and until when it is good.
fn entry(setter: &mut Setter, line: &CountLine, on: Date, width: f32, settings: Settings, air: f32) -> Block {
    let scale = settings.size.scale();
    let words = width - BLANK - 3.0 * GRID;
    let mut lines = setter.paragraph(&[strong(line.name.as_str())], scale.entry, words);
    let mut details: Vec<Span> = vec![plain(format!("{}{}", if line.is_about { "about\u{a0}" } else { "" }, tied(&line.said)))];
    if let Some(until) = line.until {
        let about = if line.estimate { "about\u{a0}" } else { "" };
        let when = if until.year() == on.year() { day(until) } else { full_day(until) };
        let until = format!("{about}{when}");
        details.push(soft("  ·  until\u{a0}"));
        details.push(if until_is_past(line, on) { strong(until) } else { soft(until) });
    }
    lines.extend(setter.paragraph(&details, scale.note, words));
    closed(lines, width, air)
}

/// "350 g", of closed packs "3 × 400 g".
fn until_is_past(line: &CountLine, on: Date) -> bool {
    line.until.is_some_and(|until| until < on)
}

/// A blank for a name and one for an amount.
fn free_line(scale: Scale, width: f32, air: f32) -> Block {
    let mut lines = vec![Line::empty(scale.entry.leading + scale.note.leading)];
    let height = lines[0].height;
    lines[0].items.push(Item::Rule(across(0.0, width - BLANK - 3.0 * GRID, height, BLACK)));
    closed(lines, width, air)
}

/// With the blank at the right, on the foot of the last line, and some air below.
fn closed(mut lines: Vec<Line>, width: f32, air: f32) -> Block {
    if let Some(last) = lines.last_mut() {
        last.items.push(Item::Rule(across(width - BLANK, width, last.height, BLACK)));
        last.height += air;
    }
    Block::of(lines)
}
