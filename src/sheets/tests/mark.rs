//! The mark of a print.

use super::sample::A4;
use crate::sheets::face::Weight;
use crate::sheets::page::{MARGIN, Page, SOFT, TextRun};
use crate::sheets::{Sheet, mark, mark_of, to_pdf};

fn sheet(runs: &[(f32, f32, &str)]) -> Sheet {
    let mut page = Page::of(A4.paper);
    for (x, up, text) in runs {
        let baseline = page.height - MARGIN - up;
        page.runs.push(TextRun { x: *x, baseline, size: 8.0, weight: Weight::Regular, grey: SOFT, text: (*text).to_owned() });
    }
    Sheet { file_stem: "list".to_owned(), title: "List".to_owned(), author: None, pages: vec![page], warnings: vec![], mark: None }
}

#[test]
fn the_mark_stands_beside_the_page_number_and_is_read_back_from_the_pdf() {
    let mut sheet = sheet(&[(MARGIN, 1.7, "Shopping list"), (500.0, 1.7, "page 1 of 1"), (100.0, 300.0, "2 onions")]);
    mark(&mut sheet, "0f3a55c1", A4);
    let run = &sheet.pages[0].runs[3];
    assert_eq!(run.text, "plan 0f3a55c1");
    assert!(run.bounds().right <= 490.0 && run.x > 400.0, "{run:?}");
    assert_eq!(mark_of(&to_pdf(&sheet)).as_deref(), Some("0f3a55c1"));
}

#[test]
fn beside_a_long_title_it_stands_below_the_page_number() {
    let long = "Shopping list of a household with a very long name and a week with a name as long, which fills the foot of its page up to the number";
    let mut sheet = sheet(&[(MARGIN, 1.7, long), (500.0, 1.7, "page 1 of 1")]);
    mark(&mut sheet, "0f3a55c1", A4);
    let page = &sheet.pages[0];
    assert!(page.runs[2].baseline > page.runs[1].baseline && page.runs[2].baseline < page.height - 14.0, "{:?}", page.runs[2]);
}

#[test]
fn a_sheet_without_a_foot_and_one_without_a_mark_are_left_as_they_are() {
    let mut labels = sheet(&[(100.0, 300.0, "Stew")]);
    mark(&mut labels, "0f3a55c1", A4);
    assert_eq!(labels.pages[0].runs.len(), 1);
    assert_eq!(mark_of(&to_pdf(&sheet(&[(100.0, 300.0, "Stew")]))), None);
}
