//! What is stuck on the boxes: labels in a grid on plain paper, to be cut along the marks. What is told of a box is given.
//!
//! Box labels are part of a default print: a cook with full boxes before them expects them, they are a file of their
//! own that nobody has to put on paper, and they carry the use-by day and the allergens. A week without boxes has none.
//! 3x8 on a page by default (63 mm by 34 mm), 2x5 in large print. A recipe with a `box` has one label a box, fullest
//! first; else what is kept together has one. A label whose words have no room sends one to the guide for its
//! allergens, with a warning, rather than cutting them short.

use std::str::FromStr;

use crate::foods::Place;
use crate::kitchen::{Names, Paper};
use crate::prep::{Label, SessionLabels};

use super::frame::{Head, across, finished, headed, number_pages};
use super::page::{BLACK, Bookmark, Bounds, HAIRLINE, Page, Rule};
use super::scale::{Size, style};
use super::text::{Line, Setter, Span, Style, plain, soft, strong};
use super::wording::{day, full_day, long_day, tied};
use super::{Settings, Sheet};
use crate::words::{clock, sentence};

/// How many labels stand beside and below each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LabelGrid {
    pub columns: usize,
    pub rows: usize,
}

/// Below this a label cannot say what it must: width and height in points.
const LEAST: (f32, f32) = (108.0, 60.0);
const LEAST_LARGE: (f32, f32) = (180.0, 120.0);

/// Paper left blank around the text, where the scissors go.
const PAD: (f32, f32) = (8.0, 6.0);

/// Half the length of a cutting mark.
const MARK: f32 = 5.0;

/// One way of setting a label: its dish, and the rest.
type Measure = (Style, Style);

/// What is tried in turn until a label holds all its words.
const MEASURES: [Measure; 6] = [
    (style(13.0, 15.5), style(11.0, 13.0)),
    (style(13.0, 15.5), style(9.5, 11.5)),
    (style(11.0, 13.0), style(9.5, 11.5)),
    (style(9.5, 11.5), style(9.5, 11.0)),
    (style(9.5, 11.0), style(8.0, 9.5)),
    (style(8.0, 9.5), style(8.0, 9.0)),
];

const LARGE: [Measure; 4] = [
    (style(20.0, 24.0), style(16.0, 19.5)),
    (style(20.0, 24.0), style(14.0, 17.5)),
    (style(16.0, 19.5), style(14.0, 17.0)),
    (style(14.0, 17.0), style(14.0, 16.5)),
];

impl FromStr for LabelGrid {
    type Err = String;

    /// "3x8": columns by rows.
    fn from_str(text: &str) -> Result<LabelGrid, String> {
        let number = |part: &str| part.trim().parse::<usize>().ok().filter(|number| *number > 0);
        let parts = text.split_once(['x', 'X', '×']).and_then(|(columns, rows)| Some((number(columns)?, number(rows)?)));
        let (columns, rows) = parts.ok_or("write columns x rows, both at least 1, as in 3x8")?;
        Ok(LabelGrid { columns, rows })
    }
}

impl LabelGrid {
    /// 63 mm by 34 mm on A4; in large print 95 mm by 54 mm.
    pub fn usual(size: Size) -> LabelGrid {
        match size {
            Size::Normal => LabelGrid { columns: 3, rows: 8 },
            Size::Large => LabelGrid { columns: 2, rows: 5 },
        }
    }

    /// # Errors
    /// Labels too small to be read: how small they would be, and how many fit.
    pub fn check(self, settings: Settings) -> Result<(), String> {
        let (whole, least) = (whole(&Page::of(settings.paper), settings), least(settings.size));
        let most = LabelGrid { columns: fitting(whole.right - whole.left, least.0), rows: fitting(whole.bottom - whole.top, least.1) };
        if self.columns <= most.columns && self.rows <= most.rows {
            return Ok(());
        }
        let paper = match settings.paper {
            Paper::A4 => "A4",
            Paper::Letter => "letter",
        };
        let print = if settings.size.is_large() { " in large print" } else { "" };
        let LabelGrid { columns, rows } = self;
        Err(format!("{columns}x{rows} labels on {paper} are too small to be read{print}: at most {}x{} fit", most.columns, most.rows))
    }

    fn cell(self, page: &Page, settings: Settings, index: usize) -> Bounds {
        let whole = whole(page, settings);
        let (width, height) = ((whole.right - whole.left) / self.columns as f32, (whole.bottom - whole.top) / self.rows as f32);
        let (left, top) = (whole.left + (index % self.columns) as f32 * width, whole.top + (index / self.columns) as f32 * height);
        Bounds { left, top, right: left + width, bottom: top + height }
    }
}

fn least(size: Size) -> (f32, f32) {
    match size {
        Size::Normal => LEAST,
        Size::Large => LEAST_LARGE,
    }
}

fn fitting(room: f32, least: f32) -> usize {
    (room / least) as usize
}

/// The part of a page that the labels share, above its foot.
fn whole(page: &Page, settings: Settings) -> Bounds {
    let inside = page.inside_margins();
    Bounds { bottom: inside.bottom - settings.foot(), ..inside }
}

/// The labels of a week, session by session. The grid must have been checked.
pub fn label_sheet(
    sessions: &[SessionLabels],
    (week, from): (&str, jiff::civil::Date),
    names: Names,
    grid: LabelGrid,
    settings: Settings,
) -> Sheet {
    let settings = Settings { fold: false, ..settings };
    let mut setter = Setter::default();
    let title = format!("Box labels, {week}");
    let mut warnings = Vec::new();
    let all: Vec<(&SessionLabels, &Label)> = sessions.iter().flat_map(|one| one.labels.iter().map(move |label| (one, label))).collect();
    let mut pages: Vec<Page> = Vec::new();
    let mut named = None;
    for on_page in all.chunks(grid.columns * grid.rows) {
        let mut page = Page::of(settings.paper);
        for (index, (session, label)) in on_page.iter().enumerate() {
            let cell = grid.cell(&page, settings, index);
            if named != Some(session.start) {
                named = Some(session.start);
                let title = format!("{}, {}", full_day(session.start.date()), clock(session.start)).replace('\u{a0}', " ");
                page.bookmarks.push(Bookmark { title, y: cell.top });
            }
            warnings.extend(put_label(&mut setter, &mut page, &Words::of(label, names, settings), cell, settings.size));
        }
        cutting_marks(&mut page, (grid, settings), on_page.len());
        pages.push(page);
    }
    if pages.is_empty() {
        let head = Head { over: title.clone(), title: "No boxes to label".to_owned(), under: Vec::new() };
        pages.push(headed(&mut setter, settings, &head, names.household).0);
    }
    number_pages(&mut setter, &mut pages, &title, settings);
    warnings.dedup();
    finished(setter, format!("labels-{from}"), title, pages, warnings)
}

/// A label in the largest type in which all of it has room; a warning where something had to be left out.
fn put_label(setter: &mut Setter, page: &mut Page, label: &Words, cell: Bounds, size: Size) -> Option<String> {
    let (width, height) = (cell.right - cell.left - 2.0 * PAD.0, cell.bottom - cell.top - 2.0 * PAD.1);
    let measures = if size.is_large() { &LARGE[..] } else { &MEASURES[..] };
    let fits = |lines: &Vec<Line>| lines.iter().map(|line| line.height).sum::<f32>() <= height + 0.01;
    // Its meal's name tells one box from another: smaller type rather than without it.
    let all = measures.iter().map(|measure| (*measure, Much::All));
    let ways = all.chain(measures.iter().map(|measure| (*measure, Much::Needed)));
    let full = ways.map(|(measure, much)| set(setter, label, measure, width, much)).find(fits);
    let smallest = measures[measures.len() - 1];
    let (lines, warning) = match full {
        Some(lines) => (lines, None),
        None => {
            let words =
                format!("the label of {} has no room for all its words: see the prep guide, or print fewer labels a page", label.dish);
            (set(setter, label, smallest, width, Much::Least), Some(words))
        }
    };
    let mut y = cell.top + PAD.1;
    for line in lines {
        if y + line.height > cell.bottom - PAD.1 + 0.01 {
            break;
        }
        line.items.iter().for_each(|item| page.put(item.moved(cell.left + PAD.0, y)));
        y += line.height;
    }
    warning
}

/// What stands on a label.
struct Words<'l> {
    label: &'l Label,
    dish: &'l str,
    amount: String,
    heating: String,
    allergens: String,
    eater: Option<String>,
}

impl<'l> Words<'l> {
    fn of(label: &'l Label, names: Names<'l>, settings: Settings) -> Words<'l> {
        Words {
            label,
            dish: names.recipe(label.recipe),
            amount: tied(&label.amount_text(settings.units)),
            heating: label.heating_text(settings.units),
            allergens: label.allergens_text(),
            eater: label.eater_text(names),
        }
    }
}

/// How much a label says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Much {
    /// Its meals, too.
    All,
    Needed,
    /// Where there is no room, the dish is cut short and its allergens give way to a word that sends one to the guide.
    Least,
}

fn set(setter: &mut Setter, words: &Words, (dish, note): Measure, width: f32, much: Much) -> Vec<Line> {
    let label = words.label;
    let whole = much != Much::Least;
    let mut lines = setter.at_most(if whole { usize::MAX } else { 1 }, &[strong(words.dish)], dish, width);
    let mut say = |spans: &[Span], most: usize| lines.extend(setter.at_most(most, spans, note, width));
    let most = if whole { usize::MAX } else { 2 };
    words.eater.iter().for_each(|eater| say(&[strong(eater.as_str())], most));
    say(&use_by(label), most);
    if !whole {
        say(&[strong("Allergens: see the prep guide")], 2);
    }
    say(&[plain(words.heating.as_str())], most);
    say(&[plain(words.amount.as_str()), soft(format!("  ·  made {}", day(label.made_on)))], most);
    if whole {
        say(&[soft("Allergens: "), plain(words.allergens.as_str())], most);
        label.beware.iter().for_each(|beware| say(&[strong(format!("{}.", sentence(&beware.to_string())))], most));
    }
    if much == Much::All && !label.what_for.is_empty() {
        say(&[soft(format!("For {}", label.what_for.join(", ")))], most);
    }
    lines
}

/// "Use by Wed 2 Dec", "Frozen: use by Thu 28 Jan 2027".
fn use_by(label: &Label) -> [Span; 1] {
    let by = long_day(label.use_by, label.made_on);
    [strong(if label.place == Place::Freezer { format!("Frozen: use by {by}") } else { format!("Use by {by}") })]
}

/// Crosses at the corners of the labels, within the grid.
fn cutting_marks(page: &mut Page, (grid, settings): (LabelGrid, Settings), count: usize) {
    let whole = whole(page, settings);
    let first = grid.cell(page, settings, 0);
    let (width, height) = (first.right - first.left, first.bottom - first.top);
    let rows = count.div_ceil(grid.columns);
    for (column, row) in (0..=grid.columns).flat_map(|column| (0..=rows).map(move |row| (column, row))) {
        let (x, y) = (whole.left + column as f32 * width, whole.top + row as f32 * height);
        page.rules.push(across((x - MARK).max(whole.left), (x + MARK).min(whole.right), y, BLACK));
        let (y0, y1) = ((y - MARK).max(whole.top), (y + MARK).min(whole.bottom));
        page.rules.push(Rule { x0: x, y0, x1: x, y1, thickness: HAIRLINE, grey: BLACK });
    }
}
