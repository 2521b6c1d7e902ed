//! Type and layout: plain rectangles, rules and runs of text, and one small file that turns a page into PDF.
//!
//! A sheet is laid out as [`Page`]s, in points, before any PDF call is made, so that it can be tested as plain data. Nothing here knows a rule
//! of the computation: what to buy, when to cook and what to warn of is given.
//!
//! | file | what it does |
//! | --- | --- |
//! | `face` | glyphs and their widths; stand-ins for characters without a shape |
//! | `page` | rectangles, rules, runs of text |
//! | `scale` | the type scale, in ordinary and large print |
//! | `text` | paragraphs into lines |
//! | `flow` | blocks of lines into columns and pages |
//! | `frame` | the head and foot of a page |
//! | `parts` | headings, hanging paragraphs, words and figures on one line |
//! | `wording` | dates, amounts and packs as a person reads them |
//! | `shopping`, `notes` | the shopping list, and what stands after it |
//! | `guide`, `steps`, `beside`, `chart` | the prep guide, its steps, the lists beside them, its chart over time |
//! | `recipes` | recipes as they are cooked from |
//! | `handout` | a week for people with other kitchens |
//! | `week_card` | the meals by day |
//! | `count` | the lots of a shelf, with blanks for what is found |
//! | `labels` | what is stuck on the boxes |
//! | `pdf`, `outline` | pages into bytes, with their bookmarks |

mod beside;
mod cares;
mod chart;
mod count;
mod face;
mod flow;
mod frame;
mod guide;
mod handout;
mod labels;
mod mark;
mod notes;
mod outline;
mod page;
mod parts;
mod pdf;
mod recipes;
mod scale;
mod shopping;
mod steps;
mod text;
mod week_card;
mod wording;

#[cfg(test)]
mod tests;

pub use count::count_sheet;
pub use face::Weight;
pub use guide::{guide_stem, person_guide, prep_guide};
pub use handout::{Author, handout_sheet};
pub use labels::{LabelGrid, label_sheet};
pub use mark::{mark, mark_of};
pub use page::{Bookmark, Bounds, HAIRLINE, Item, Link, MARGIN, Page, Rect, Rule, TextRun};
pub use pdf::to_pdf;
pub use recipes::{Told, recipe_sheet};
pub use scale::Size;
pub use shopping::shopping_list;
pub use week_card::week_card_sheet;

use crate::kitchen::{Paper, Under};
use crate::measure::Units;

/// The paper, and how amounts are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Settings {
    pub paper: Paper,
    pub units: Units,
    pub size: Size,
    /// A fold line down the middle of the shopping list, so that each half is held in one hand.
    pub fold: bool,
    /// What stands under the shopping list.
    pub under: Under,
}

/// A sheet ready to be written.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its file's name without an ending: `shopping-list-2026-11-30`.
    pub file_stem: String,
    pub title: String,
    /// Who made it, where somebody says so.
    pub author: Option<String>,
    pub pages: Vec<Page>,
    /// What did not fit, and which characters could not be printed.
    pub warnings: Vec<String>,
    /// The plan that it belongs to.
    pub mark: Option<String>,
}
