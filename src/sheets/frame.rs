//! The head and the foot of every page: household, week, what the page is, "page n of m".

use super::flow::Column;
use super::page::{BLACK, HAIRLINE, Item, MARGIN, Page, Rule, TextRun};
use super::text::{Line, Setter, Span, plain, soft, strong, width_of};
use super::{Settings, Sheet};

/// The grid that baselines keep, in points.
pub const GRID: f32 = 4.0;

/// Space between two columns.
pub const GUTTER: f32 = 24.0;

/// Space between two columns with a fold between them: a margin for each half.
const FOLDED: f32 = 2.0 * MARGIN;

impl Settings {
    /// The foot of a page with the space kept free above it.
    pub(super) fn foot(self) -> f32 {
        if self.size.is_large() { 22.0 } else { 16.0 }
    }

    /// Space between two columns of the list.
    pub(super) fn gutter(self) -> f32 {
        if self.fold { FOLDED } else { GUTTER }
    }

    /// The width of what must not cross the fold.
    fn unfolded(self, page: &Page) -> f32 {
        let whole = page.width - 2.0 * MARGIN;
        if self.fold { (whole - FOLDED) / 2.0 } else { whole }
    }
}

/// What the head of a page says.
pub struct Head {
    /// Small, above the title: "Shopping list, First week of advent".
    pub over: String,
    pub title: String,
    /// Below it, each on lines of its own.
    pub under: Vec<Vec<Span>>,
}

/// An empty page with its head; the height at which the rest begins.
pub fn headed(setter: &mut Setter, settings: Settings, head: &Head, household: &str) -> (Page, f32) {
    let mut page = Page::of(settings.paper);
    let scale = settings.size.scale();
    let width = settings.unfolded(&page);
    let mut y = MARGIN;
    let place = |page: &mut Page, lines: Vec<Line>, x: f32, y: &mut f32| {
        for line in lines {
            line.items.iter().for_each(|item| page.put(item.moved(x, *y)));
            *y += line.height;
        }
    };
    let mut right_y = y;
    let name = setter.one_line(&[soft(household)], scale.note, if settings.fold { width } else { width / 3.0 });
    let right = page.width - MARGIN - width_of(&name);
    place(&mut page, vec![name], right, &mut right_y);
    let title_width = if head.over.is_empty() { width * 2.0 / 3.0 } else { width };
    let over = if head.over.is_empty() {
        Vec::new()
    } else {
        setter.at_most(2, &[soft(head.over.as_str())], scale.note, if settings.fold { width } else { width * 2.0 / 3.0 - GUTTER })
    };
    place(&mut page, over, MARGIN, &mut y);
    let title = setter.at_most(2, &[strong(head.title.as_str())], scale.title, title_width);
    place(&mut page, title, MARGIN, &mut y);
    for spans in &head.under {
        // What somebody must not eat is never cut short, however long: down to the middle of the page there is room for it.
        let room = ((page.height / 2.0 - y) / scale.note.leading).max(0.0) as usize;
        let lines = setter.at_most(room.max(3), spans, scale.note, width);
        place(&mut page, lines, MARGIN, &mut y);
    }
    y += GRID;
    page.rules.push(across(MARGIN, page.width - MARGIN, y, BLACK));
    if settings.fold {
        fold_line(&mut page);
    }
    (page, y + 2.0 * GRID)
}

/// Dashes down the middle of a page.
fn fold_line(page: &mut Page) {
    const DASH: f32 = 6.0;
    let (x, bottom) = (page.width / 2.0, page.height - MARGIN);
    let mut y = MARGIN;
    while y < bottom {
        page.rules.push(Rule { x0: x, y0: y, x1: x, y1: (y + DASH).min(bottom), thickness: HAIRLINE, grey: 0.5 });
        y += 2.0 * DASH;
    }
}

/// A hairline across.
pub fn across(from: f32, to: f32, y: f32, grey: f32) -> Rule {
    Rule { x0: from, y0: y, x1: to, y1: y, thickness: HAIRLINE, grey }
}

/// Columns of equal width below `top`, and that width.
pub fn columns(settings: Settings, page: &Page, top: f32, count: usize) -> (Vec<Column>, f32) {
    columns_apart(settings, page, top, count, GUTTER)
}

/// Columns with that much space between them.
pub fn columns_apart(settings: Settings, page: &Page, top: f32, count: usize, gutter: f32) -> (Vec<Column>, f32) {
    let whole = page.width - 2.0 * MARGIN;
    let width = (whole - gutter * (count as f32 - 1.0)) / count as f32;
    let bottom = page.height - MARGIN - settings.foot();
    let column = |index: usize| Column { x: MARGIN + index as f32 * (width + gutter), top, bottom };
    ((0..count).map(column).collect(), width)
}

/// Writes the foot of every page, now that their number is known.
pub fn number_pages(setter: &mut Setter, pages: &mut [Page], what: &str, settings: Settings) {
    let count = pages.len();
    let note = settings.size.scale().note;
    for (index, page) in pages.iter_mut().enumerate() {
        let baseline = page.height - MARGIN - 0.21 * note.size;
        let number = setter.one_line(&[plain(format!("page {} of {count}", index + 1))], note, 160.0);
        let right = page.width - MARGIN - width_of(&number);
        let room = if settings.fold { settings.unfolded(page) } else { right - MARGIN - GUTTER };
        let left = setter.one_line(&[soft(what)], note, room);
        for (line, x) in [(left, MARGIN), (number, right)] {
            for item in line.items {
                if let Item::Text(run) = item {
                    page.runs.push(TextRun { x: run.x + x, baseline, ..run });
                }
            }
        }
    }
}

/// A sheet of these pages, with a warning for what could not be printed.
pub fn finished(setter: Setter, file_stem: String, title: String, pages: Vec<Page>, mut warnings: Vec<String>) -> Sheet {
    warnings.extend(super::face::warnings_of(&setter.missing));
    Sheet { file_stem, title, author: None, pages, warnings, mark: None }
}
