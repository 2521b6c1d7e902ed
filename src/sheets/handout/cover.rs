//! The first page: title, author, note, for how many, what is cooked, and contents with page numbers that are links.

use itertools::Itertools;

use crate::words::{in_a_sentence, listed, sentence};

use super::{Author, Book, Part, people};
use crate::sheets::flow::Block;
use crate::sheets::frame::{GRID, columns};
use crate::sheets::page::{Bookmark, Item, Link, Page};
use crate::sheets::parts::{heading, opposite};
use crate::sheets::text::{Line, Setter, plain, soft, strong};

/// Above the title.
const DROP: f32 = 64.0;

/// A line of the contents.
struct Entry {
    title: String,
    is_part: bool,
    /// The place of its page among those after the cover, and its height there.
    at: (usize, f32),
}

/// As many pages as it takes; their number moves what the contents name.
pub(super) fn cover(book: &Book, setter: &mut Setter, author: &Author, parts: &[Part]) -> Vec<Page> {
    let entries = entries(parts);
    let mut count = 1;
    loop {
        let pages = laid_out(book, setter, author, &entries, count);
        if pages.len() <= count {
            return pages;
        }
        count = pages.len();
    }
}

fn entries(parts: &[Part]) -> Vec<Entry> {
    let mut entries = Vec::new();
    let mut page = 0;
    for part in parts {
        entries.push(Entry { title: part.name.clone(), is_part: true, at: (page, 0.0) });
        for (offset, one) in part.pages.iter().enumerate().filter(|_| part.in_detail) {
            let marks = one.bookmarks.iter().filter(|mark| mark.title != part.name);
            entries.extend(marks.map(|mark| Entry { title: mark.title.clone(), is_part: false, at: (page + offset, 0.0) }));
        }
        page += part.pages.len();
    }
    entries
}

fn laid_out(book: &Book, setter: &mut Setter, author: &Author, entries: &[Entry], before: usize) -> Vec<Page> {
    let mut page = Page::of(book.settings.paper);
    page.bookmarks.push(Bookmark { title: book.title.clone(), y: 0.0 });
    let width = book.width(1);
    let mut blocks = about(book, setter, author, width);
    blocks.push(heading(setter, "Contents", book.kind.body, width).spaced(6.0 * GRID));
    blocks.extend(entries.iter().map(|entry| contents_line(book, setter, entry, before, width)));
    let top = columns(book.settings, &page, crate::sheets::page::MARGIN + DROP, 1).0[0].top;
    book.on_pages(setter, (page, top), &book.title, &blocks, 1)
}

fn about(book: &Book, setter: &mut Setter, author: &Author, width: f32) -> Vec<Block> {
    let body = book.kind.body;
    let title = book.settings.size.scale().title;
    let mut blocks = vec![Block::of(setter.paragraph(&[strong(book.title.as_str())], title, width))];
    blocks.extend(author.by.map(|by| Block::of(setter.paragraph(&[plain(format!("by {by}"))], body, width)).spaced(GRID)));
    blocks.push(Block::of(setter.paragraph(&[soft(for_how_many(book))], body, width)).spaced(3.0 * GRID));
    let cooked: Vec<String> = book.told.components.iter().map(|component| in_a_sentence(book.names.recipe(component.recipe))).collect();
    if !cooked.is_empty() {
        let text = format!("Cooked ahead, and put together differently every day: {}.", listed(&cooked));
        blocks.push(Block::of(setter.paragraph(&[plain(text)], body, width)).spaced(GRID));
    }
    let paragraphs = author.note.split("\n\n").map(|text| text.split_whitespace().join(" ")).filter(|text| !text.is_empty());
    blocks.extend(paragraphs.map(|text| Block::of(setter.paragraph(&[plain(text)], body, width)).spaced(3.0 * GRID)).collect::<Vec<_>>());
    blocks
}

/// "Each meal is reckoned for 2½ people; day 5 supper for 3½ people."
fn for_how_many(book: &Book) -> String {
    let [(most, _), others @ ..] = book.told.eaters.as_slice() else { return String::new() };
    let units = book.units();
    let other = |(number, slots): &(crate::measure::Number, Vec<crate::handout::Slot>)| {
        format!("; {} for {}", listed(&slots.iter().map(|slot| slot.words()).collect::<Vec<_>>()), people(number, units))
    };
    sentence(&format!("each meal is reckoned for {}{}.", people(most, units), others.iter().map(other).join("")))
}

fn contents_line(book: &Book, setter: &mut Setter, entry: &Entry, before: usize, width: f32) -> Block {
    let style = if entry.is_part { book.kind.body } else { book.kind.note };
    let indent = if entry.is_part { 0.0 } else { 4.0 * GRID };
    let words = if entry.is_part { strong(entry.title.as_str()) } else { plain(entry.title.as_str()) };
    let number = (before + entry.at.0 + 1).to_string();
    let lines = opposite(setter, &[words], &[plain(number)], style, width - indent);
    let mut lines: Vec<Line> = lines.into_iter().map(|line| line.moved(indent)).collect();
    let height = lines.iter().map(|line| line.height).sum();
    if let Some(first) = lines.first_mut() {
        first.items.push(Item::Link(Link { x: 0.0, y: 0.0, width, height, to: (before + entry.at.0, entry.at.1) }));
    }
    Block::of(lines).spaced(if entry.is_part { GRID } else { 0.0 })
}
