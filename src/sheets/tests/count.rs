//! The count sheet.

use jiff::civil::{Date, date};
use pretty_assertions::assert_eq;

use super::checks::{is_sound, letters, letters_of, semi_bold_of};
use super::sample::{A4, HOUSEHOLD, LETTER};
use crate::book::{CountLine, CountPlace, Exact, LotRecord};
use crate::foods::Place;
use crate::measure::{Dimension, Quantity, Units, show};
use crate::sheets::{Sheet, count_sheet};

const ON: Date = date(2026, 12, 5);

fn line(name: &str, grams: f64, until: Option<Date>) -> CountLine {
    let lot = LotRecord {
        food: Some(name.to_owned()),
        recipe: None,
        eater: None,
        without: Vec::new(),
        amount: Exact::of(&Quantity::of(&Dimension::Mass, grams)),
        pack: None,
        place: Place::Cupboard,
        best_before: None,
        use_by: until,
        opened: None,
        since: None,
        made: None,
        paid: None,
    };
    let said = show(&lot.amount.quantity(), Units::Metric);
    CountLine { name: name.to_owned(), said, is_about: false, lot, index: 0, until, estimate: false }
}

fn shelf(lots: usize) -> Vec<CountPlace> {
    let lines = (1..=lots).map(|number| line(&format!("thing number {number}"), 350.0, Some(date(2026, 12, 9)))).collect();
    let long = "a cake of pearl barley, white beans and rosemary with roast beetroot and carrots, twice baked";
    vec![
        CountPlace { place: Place::Cupboard, lines },
        CountPlace { place: Place::Fridge, lines: vec![line("feta", 150.0, Some(date(2026, 12, 1))), line(long, 1200.0, None)] },
    ]
}

/// Every lot has its name, and a blank of its own on the same page.
fn has_a_blank_each(sheet: &Sheet, lots: usize) {
    let blanks = sheet.pages.iter().flat_map(|page| &page.rules).filter(|rule| ((rule.x1 - rule.x0) - 84.0).abs() < 0.1).count();
    assert_eq!(blanks, lots + 4, "four more for what is not on the sheet");
}

#[test]
fn a_usual_shelf_is_one_page_with_a_blank_in_each_line() {
    let sheet = count_sheet(&shelf(20), HOUSEHOLD, ON, A4);
    is_sound(&sheet, "Count sheet");
    assert_eq!((sheet.pages.len(), sheet.file_stem.as_str()), (1, "count-2026-12-05"));
    has_a_blank_each(&sheet, 22);
    let all = letters_of(&sheet, |_| true);
    for said in ["Cupboard", "Fridge", "thing number 20", "350 g", "until Wed 9 Dec", "Not on this sheet"] {
        assert!(all.contains(&letters(said)), "{said} is missing");
    }
}

#[test]
fn a_large_shelf_goes_over_pages_and_drops_no_lot() {
    for settings in [A4, LETTER] {
        let sheet = count_sheet(&shelf(300), HOUSEHOLD, ON, settings);
        is_sound(&sheet, "Count sheet");
        assert!(sheet.pages.len() > 3);
        has_a_blank_each(&sheet, 302);
        let names = letters_of(&sheet, semi_bold_of(13.0));
        for number in 1..=300 {
            assert!(names.contains(&letters(&format!("thing number {number}"))), "{number} is missing");
        }
    }
}
