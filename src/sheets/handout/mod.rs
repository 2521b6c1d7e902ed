//! The handout: one sheet of a week for people with other kitchens. It knows what is told and in which order, and no rule.
//!
//! | file | what it lays out |
//! | --- | --- |
//! | `cover` | title, note, contents with page numbers that are links |
//! | `before` | the list of an empty shelf, and what to have ready |
//! | `cooking` | a day of cooking by a clock that starts at 0:00 |
//! | `eating` | which component goes into which meal, and each meal by its parts |
//! | `closing` | cautions, allergens of every dish, sources |

mod before;
mod closing;
mod cooking;
mod cover;
mod eating;

use crate::handout::Handout;
use crate::kitchen::Names;
use crate::measure::{Number, Quantity, Units, show};

use super::flow::{Block, Cursor, pour, pour_evenly};
use super::frame::{Head, columns, finished, headed, number_pages};
use super::page::Page;
use super::parts::{hanging, heading};
use super::recipes;
use super::scale::{Size, style};
use super::steps::Type;
use super::text::{Setter, Span, Style, strong};
use super::{Settings, Sheet};

/// What the author says of a handout.
#[derive(Debug, Clone, Default)]
pub struct Author<'a> {
    /// Where none is given, the week's name.
    pub title: Option<&'a str>,
    pub by: Option<&'a str>,
    /// Paragraphs, an empty line apart.
    pub note: &'a str,
}

/// A week that has no name to be told by.
const UNNAMED: &str = "A week of meals";

const NORMAL: Type =
    Type { body: style(11.0, 14.0), note: style(9.5, 12.0), small: style(9.5, 12.0), run_in: false, gap: 4.0, brief: false };
const LARGE: Type =
    Type { body: style(16.0, 20.0), note: style(14.0, 18.0), small: style(14.0, 18.0), run_in: false, gap: 8.0, brief: false };

/// What all pages have in common.
struct Book<'a> {
    told: &'a Handout,
    names: Names<'a>,
    settings: Settings,
    title: String,
    kind: Type,
}

/// One part of the handout, by the name under which the contents have it.
struct Part {
    name: String,
    pages: Vec<Page>,
    /// Whether the contents name what its bookmarks name.
    in_detail: bool,
}

/// The sheet of a handout.
pub fn handout_sheet(told: &Handout, author: &Author, settings: Settings) -> Sheet {
    let kind = if settings.size == Size::Large { LARGE } else { NORMAL };
    let title = author.title.or(told.week.as_deref()).unwrap_or(UNNAMED).to_owned();
    let book = Book { told, names: told.kitchen.names(), settings, title, kind };
    let mut setter = Setter::default();
    let parts = book.parts(&mut setter);
    let mut pages = cover::cover(&book, &mut setter, author, &parts);
    pages.extend(parts.into_iter().flat_map(|part| part.pages));
    let by = author.by.map_or_else(String::new, |by| format!(", by {by}"));
    let foot = format!("{}{by}", book.title);
    number_pages(&mut setter, &mut pages, &foot, settings);
    let sheet = finished(setter, format!("handout-{}", told.from), book.title, pages, Vec::new());
    Sheet { author: author.by.map(str::to_owned), ..sheet }
}

impl Book<'_> {
    /// In the reader's order.
    fn parts(&self, setter: &mut Setter) -> Vec<Part> {
        let whole = |name: &str, pages| Part { name: name.to_owned(), pages, in_detail: false };
        let mut parts = vec![whole("Before you begin", self.before(setter))];
        parts.extend(self.cooking(setter));
        parts.push(whole("Day by day", self.eating(setter)));
        if !self.told.recipes.is_empty() {
            parts.push(Part { name: "Recipes".to_owned(), pages: self.recipes(setter), in_detail: true });
        }
        parts.push(whole("Cautions and sources", self.closing(setter)));
        for part in &mut parts {
            mark_first(part);
        }
        parts
    }

    fn recipes(&self, setter: &mut Setter) -> Vec<Page> {
        let kind = recipes::Type { body: self.kind.body, note: self.kind.note };
        recipes::one_after_another(setter, &self.told.recipes, &self.title, self.names, self.settings, kind)
    }

    fn head(&self, title: &str, under: Vec<Vec<Span>>) -> Head {
        Head { over: self.title.clone(), title: title.to_owned(), under }
    }

    fn units(&self) -> Units {
        self.settings.units
    }

    fn is_large(&self) -> bool {
        self.settings.size.is_large()
    }

    /// Large lines want the width of the page.
    fn count(&self) -> usize {
        if self.is_large() { 1 } else { 2 }
    }

    /// The width of one of so many columns.
    fn width(&self, count: usize) -> f32 {
        columns(self.settings, &Page::of(self.settings.paper), 0.0, count).1
    }

    /// Blocks over as many pages as it takes, the first of which has begun.
    fn on_pages(&self, setter: &mut Setter, (mut page, mut top): (Page, f32), title: &str, blocks: &[Block], count: usize) -> Vec<Page> {
        let again = self.head(&format!("{title}, continued"), Vec::new());
        let (mut pages, mut from) = (Vec::new(), Cursor::default());
        loop {
            let room = columns(self.settings, &page, top, count).0;
            let poured = if count > 1 { pour_evenly(blocks, from, &room, &mut page) } else { pour(blocks, from, &room, Some(&mut page)) };
            from = poured.until;
            pages.push(page);
            if from.block >= blocks.len() {
                return pages;
            }
            (page, top) = headed(setter, self.settings, &again, "");
        }
    }

    /// Paragraphs under a heading; nothing where there are none.
    fn group(&self, setter: &mut Setter, title: &str, notes: &[Vec<Span>], style: Style, width: f32) -> Vec<Block> {
        if notes.is_empty() {
            return Vec::new();
        }
        let mut blocks = vec![heading(setter, title, style, width)];
        blocks.extend(notes.iter().map(|spans| Block::of(hanging(setter, spans, style, width))));
        blocks
    }
}

/// Its first page is found by the part's own name.
fn mark_first(part: &mut Part) {
    if let Some(first) = part.pages.first_mut() {
        first.bookmarks.insert(0, super::page::Bookmark { title: part.name.clone(), y: 0.0 });
    }
}

/// "2½ people", "1 person"; a child's share is a part of one.
fn people(number: &Number, units: Units) -> String {
    format!("{} {}", show(&Quantity::pieces(number.clone()), units), if *number <= 1 { "person" } else { "people" })
}

/// A strong word and what follows it.
fn led(word: &str, rest: impl Into<String>) -> Vec<Span> {
    vec![strong(format!("{word} ")), super::text::plain(rest)]
}
