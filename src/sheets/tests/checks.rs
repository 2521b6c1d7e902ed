//! What holds for every page of every sheet.

use std::collections::BTreeSet;

use crate::sheets::face::printable;
use crate::sheets::{Bounds, Page, Rect, Settings, Sheet, Size, TextRun, Weight};

/// Letters of a text as a sheet prints them, without the spaces at which lines may break.
pub fn letters(text: &str) -> String {
    printable(text, &mut BTreeSet::new()).chars().filter(|c| *c != ' ' && *c != '\u{a0}').collect()
}

/// The letters of all runs that `chosen` takes, in the order of reading, the foot of the page left out.
pub fn letters_of(sheet: &Sheet, chosen: impl Fn(&TextRun) -> bool) -> String {
    let foot = |page: &Page, run: &TextRun| run.baseline > page.height - crate::sheets::MARGIN - 3.0;
    let runs = sheet.pages.iter().flat_map(|page| page.runs.iter().filter(move |run| !foot(page, run)));
    runs.filter(|run| chosen(run)).map(|run| letters(&run.text)).collect()
}

pub fn semi_bold_of(size: f32) -> impl Fn(&TextRun) -> bool {
    move |run| run.weight == Weight::SemiBold && run.size == size
}

fn rect_bounds(rect: &Rect) -> Bounds {
    Bounds { left: rect.x, top: rect.y, right: rect.x + rect.width, bottom: rect.y + rect.height }
}

/// A hair of slack for the noise of adding widths up.
const SLACK: f32 = 0.2;

fn check_apart(boxes: &mut [(Bounds, String)], sheet: &Sheet, page: usize) {
    boxes.sort_by(|a, b| a.0.top.total_cmp(&b.0.top));
    for (index, (one, text)) in boxes.iter().enumerate() {
        let reach = boxes[index + 1..].iter().take_while(|(other, _)| other.top < one.bottom);
        for (other, other_text) in reach {
            assert!(
                !one.overlaps(other, SLACK),
                "{} page {}: {text:?} at {one:?} overlaps {other_text:?} at {other:?}",
                sheet.title,
                page + 1
            );
        }
    }
}

/// No run of text overlaps another, no rectangle another, no run a box to tick.
pub fn nothing_overlaps(sheet: &Sheet) {
    for (number, page) in sheet.pages.iter().enumerate() {
        let texts = page.runs.iter().map(|run| (run.bounds(), run.text.clone()));
        let ticks = page.rects.iter().filter(|rect| rect.fill.is_none()).map(|rect| (rect_bounds(rect), "a box to tick".to_owned()));
        check_apart(&mut texts.chain(ticks).collect::<Vec<_>>(), sheet, number);
        let rects = page.rects.iter().map(|rect| (rect_bounds(rect), "rectangle".to_owned()));
        check_apart(&mut rects.collect::<Vec<_>>(), sheet, number);
    }
}

pub fn nothing_leaves_the_margins(sheet: &Sheet) {
    for page in &sheet.pages {
        let margins = page.inside_margins();
        for run in &page.runs {
            assert!(run.bounds().is_inside(&margins, SLACK), "{:?} at {:?} leaves the margins {margins:?}", run.text, run.bounds());
        }
        for rect in &page.rects {
            assert!(rect_bounds(rect).is_inside(&margins, SLACK), "{rect:?} leaves the margins");
        }
        for rule in &page.rules {
            let bounds = Bounds { left: rule.x0, top: rule.y0, right: rule.x1, bottom: rule.y1 };
            assert!(bounds.is_inside(&margins, SLACK), "{rule:?} leaves the margins");
        }
    }
}

/// At most four sizes, none under the chart's.
pub fn the_type_scale_is_kept(sheet: &Sheet) {
    let sizes: BTreeSet<String> = sheet.pages.iter().flat_map(|page| &page.runs).map(|run| run.size.to_string()).collect();
    assert!(sizes.len() <= 4, "{} is set in {sizes:?}", sheet.title);
    assert!(sheet.pages.iter().flat_map(|page| &page.runs).all(|run| run.size >= 7.5));
}

pub fn every_page_is_numbered_and_names_its_week(sheet: &Sheet, week: &str) {
    let count = sheet.pages.len();
    assert!(count > 0);
    for (index, page) in sheet.pages.iter().enumerate() {
        let number = format!("page {} of {count}", index + 1);
        assert!(page.runs.iter().any(|run| run.text == number), "{number} is missing");
        let all: String = page.runs.iter().map(|run| letters(&run.text)).collect();
        let named: String = letters(week).chars().take(20).collect();
        assert!(all.contains(&named), "{number} does not name {week}");
    }
}

/// As `is_sound`, in the print that was asked for: large print has nothing under 14 pt, and nothing crosses a fold.
pub fn is_sound_in(sheet: &Sheet, week: &str, settings: Settings) {
    is_sound(sheet, week);
    for page in &sheet.pages {
        let least = if settings.size == Size::Large { 14.0 } else { 7.5 };
        assert!(page.runs.iter().all(|run| run.size >= least), "{} has type under {least}", sheet.title);
        let middle = page.width / 2.0;
        let folded = page.rules.iter().any(|rule| rule.x0 == middle && rule.x1 == middle && rule.grey > 0.0);
        let crosses = |run: &&TextRun| run.bounds().left < middle && run.bounds().right > middle;
        assert!(!folded || !page.runs.iter().any(|run| crosses(&run)), "{} has words across its fold", sheet.title);
    }
}

pub fn is_sound(sheet: &Sheet, week: &str) {
    nothing_overlaps(sheet);
    nothing_leaves_the_margins(sheet);
    the_type_scale_is_kept(sheet);
    every_page_is_numbered_and_names_its_week(sheet, week);
}
