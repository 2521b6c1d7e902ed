//! The mark of a print: which plan a sheet belongs to. It stands in the foot of each page, for people, and in the PDF's keywords, for
//! whoever reads the file. What the mark is made from is not known here.

use super::face::Weight;
use super::page::{MARGIN, Page, SOFT, TextRun};
use super::{Settings, Sheet};
use crate::words::plan_mark;

/// Between the mark and what stands beside it.
const APART: f32 = 12.0;

/// Puts the mark into the foot of every page that has one.
pub fn mark(sheet: &mut Sheet, mark: &str, settings: Settings) {
    sheet.mark = Some(mark.to_owned());
    let size = settings.size.scale().note.size;
    sheet.pages.iter_mut().for_each(|page| mark_page(page, mark, size));
}

/// Left of the page's number; where a long title leaves no room there, below it.
fn mark_page(page: &mut Page, mark: &str, size: f32) {
    let foot = page.height - MARGIN - size;
    let in_foot = |run: &&TextRun| run.baseline > foot;
    let Some(number) = page.runs.iter().filter(in_foot).max_by(|a, b| a.x.total_cmp(&b.x)) else { return };
    let (right, baseline) = (number.x - APART, number.baseline);
    let taken = page.runs.iter().filter(in_foot).filter(|run| run.x < number.x).map(|run| run.bounds().right).fold(MARGIN, f32::max);
    let mut run = TextRun { x: 0.0, baseline, size, weight: Weight::Regular, grey: SOFT, text: plan_mark(mark) };
    run.x = right - run.width();
    if run.x < taken + APART {
        run.x = page.width - MARGIN - run.width();
        run.baseline += size + 1.0;
    }
    page.runs.push(run);
}

/// The mark in a PDF that was written with one.
pub fn mark_of(pdf: &[u8]) -> Option<String> {
    let before = b"/Keywords(plan ";
    let digits = pdf.windows(before.len()).position(|bytes| bytes == before).map(|at| &pdf[at + before.len()..])?;
    let end = digits.iter().take(MOST_DIGITS).position(|byte| *byte == b')')?;
    String::from_utf8(digits[..end].to_vec()).ok()
}

/// The keywords of the PDF.
pub(super) fn keywords(sheet: &Sheet) -> Option<String> {
    sheet.mark.as_deref().map(plan_mark)
}

const MOST_DIGITS: usize = 64;
