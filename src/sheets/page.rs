//! A page as plain data, in points from its top left corner; it must not know what it says or how a PDF is written.

use crate::kitchen::Paper;

use super::face::{Weight, typeface};

/// How dark ink is: 0 is black, 1 is the paper.
pub type Grey = f32;

pub const BLACK: Grey = 0.0;
/// For what is read second; still dark enough for a cheap printer.
pub const SOFT: Grey = 0.3;

/// Text on one baseline.
#[derive(Debug, Clone, PartialEq)]
pub struct TextRun {
    pub x: f32,
    pub baseline: f32,
    pub size: f32,
    pub weight: Weight,
    pub grey: Grey,
    pub text: String,
}

/// A straight line, along or across the page.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    pub x0: f32,
    pub y0: f32,
    pub x1: f32,
    pub y1: f32,
    pub thickness: f32,
    pub grey: Grey,
}

/// A rectangle, filled, outlined, or both.
#[derive(Debug, Clone, PartialEq)]
pub struct Rect {
    pub x: f32,
    pub y: f32,
    pub width: f32,
    pub height: f32,
    pub fill: Option<Grey>,
    /// Thickness of a black outline.
    pub outline: Option<f32>,
}

/// A part of the page that leads to another when it is touched on a screen.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    pub x: f32,
    pub y: f32,
    pub width: f32,
    pub height: f32,
    /// The place of the page among the sheet's, and the height on it.
    pub to: (usize, f32),
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    Text(TextRun),
    Rule(Rule),
    Rect(Rect),
    Link(Link),
}

/// One page. Rules lie under rectangles, rectangles under text.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Page {
    pub width: f32,
    pub height: f32,
    pub rects: Vec<Rect>,
    pub rules: Vec<Rule>,
    pub runs: Vec<TextRun>,
    /// What a reader on a screen can jump to, in the order of the page.
    pub bookmarks: Vec<Bookmark>,
    pub links: Vec<Link>,
}

/// A shop, a day or a session by which a page can be found.
#[derive(Debug, Clone, PartialEq)]
pub struct Bookmark {
    pub title: String,
    /// The height at which it begins.
    pub y: f32,
}

/// The box that something takes up: left, top, right, bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    pub left: f32,
    pub top: f32,
    pub right: f32,
    pub bottom: f32,
}

impl Bounds {
    /// Do two boxes share more than a hair of `slack` points in both directions?
    pub fn overlaps(&self, other: &Bounds, slack: f32) -> bool {
        self.left + slack < other.right
            && other.left + slack < self.right
            && self.top + slack < other.bottom
            && other.top + slack < self.bottom
    }

    pub fn is_inside(&self, outer: &Bounds, slack: f32) -> bool {
        self.left >= outer.left - slack
            && self.right <= outer.right + slack
            && self.top >= outer.top - slack
            && self.bottom <= outer.bottom + slack
    }
}

impl TextRun {
    /// Points from the first to the last glyph's edge.
    pub fn width(&self) -> f32 {
        typeface(self.weight).width(&self.text, self.size)
    }

    /// From the height of a capital to the foot of a descender.
    pub fn bounds(&self) -> Bounds {
        Bounds {
            left: self.x,
            top: self.baseline - 0.66 * self.size,
            right: self.x + self.width(),
            bottom: self.baseline + 0.2 * self.size,
        }
    }
}

impl Item {
    pub(super) fn moved(&self, dx: f32, dy: f32) -> Item {
        match self {
            Item::Text(run) => Item::Text(TextRun { x: run.x + dx, baseline: run.baseline + dy, ..run.clone() }),
            Item::Rule(r) => Item::Rule(Rule { x0: r.x0 + dx, y0: r.y0 + dy, x1: r.x1 + dx, y1: r.y1 + dy, ..r.clone() }),
            Item::Rect(r) => Item::Rect(Rect { x: r.x + dx, y: r.y + dy, ..r.clone() }),
            Item::Link(l) => Item::Link(Link { x: l.x + dx, y: l.y + dy, ..l.clone() }),
        }
    }
}

impl Page {
    /// An empty page.
    pub fn of(paper: Paper) -> Page {
        let (width, height) = match paper {
            // ISO 216: 210 mm by 297 mm.
            Paper::A4 => (595.28, 841.89),
            // ANSI A: 8.5 in by 11 in.
            Paper::Letter => (612.0, 792.0),
        };
        Page { width, height, ..Page::default() }
    }

    /// The part of the page that home printers reach.
    pub fn inside_margins(&self) -> Bounds {
        Bounds { left: MARGIN, top: MARGIN, right: self.width - MARGIN, bottom: self.height - MARGIN }
    }

    pub(super) fn put(&mut self, item: Item) {
        match item {
            Item::Text(run) => self.runs.push(run),
            Item::Rule(rule) => self.rules.push(rule),
            Item::Rect(rect) => self.rects.push(rect),
            Item::Link(link) => self.links.push(link),
        }
    }
}

/// Ten millimetres: every household printer prints up to it (common practice, no source).
pub const MARGIN: f32 = 28.35;

/// The thickness of a hairline that a cheap printer still prints.
pub const HAIRLINE: f32 = 0.4;
