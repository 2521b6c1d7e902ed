//! The labels of boxes.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::checks::{is_sound_in, letters, letters_of};
use super::sample::{A4, LARGE, LETTER, LONG_DISH, WEEK, dish, milk_and_stock, names};
use crate::foods::{Allergen, Place};
use crate::kitchen::Serve;
use crate::measure::Quantity;
use crate::plan::Contains;
use crate::prep::{Label, SessionLabels};
use crate::sheets::{LabelGrid, Settings, Sheet, label_sheet};

const USUAL: LabelGrid = LabelGrid { columns: 3, rows: 8 };

pub fn label() -> Label {
    Label {
        eater: None,
        without: vec![],
        not_known_for: vec![],
        named_for: vec![],
        recipe: dish("White-bean mash"),
        amount: Quantity::portions(4.0),
        place: Place::Fridge,
        made_on: date(2026, 11, 29),
        use_by: date(2026, 12, 2),
        keeps_uncooled: false,
        serve: Some(Serve::Hot),
        contains: milk_and_stock(),
        beware: milk_and_stock().beware(&[Allergen::Sesame]),
        what_for: vec!["Mon supper".into()],
    }
}

pub fn printed(labels: Vec<Label>, grid: LabelGrid, settings: Settings) -> Sheet {
    let session = SessionLabels { start: date(2026, 11, 29).at(14, 0, 0, 0), labels };
    let sheet = label_sheet(&[session], (WEEK, date(2026, 11, 30)), names(), grid, settings);
    is_sound_in(&sheet, WEEK, settings);
    sheet
}

#[test]
fn a_label_says_what_it_is_until_when_and_how_to_eat_it() {
    let sheet = printed(vec![label()], USUAL, A4);
    let all = letters_of(&sheet, |_| true);
    for said in [
        "White-bean mash",
        "4 portions · made Sun 29 Nov",
        "Use by Wed 2 Dec",
        "Heat to 74 °C (165 °F)",
        "Allergens: milk; not known: vegetable stock",
        "May contain sesame: the allergens of vegetable stock are not known.",
        "For Mon supper",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
    assert_eq!((sheet.file_stem.as_str(), sheet.warnings.len()), ("labels-2026-11-30", 0));
}

#[test]
fn a_frozen_box_says_so_with_the_year_and_a_dish_without_allergens_says_none() {
    let frozen = Label { place: Place::Freezer, use_by: date(2027, 1, 28), contains: Contains::default(), beware: None, ..label() };
    let all = letters_of(&printed(vec![frozen], USUAL, A4), |_| true);
    assert!(all.contains(&letters("Frozen: use by Thu 28 Jan 2027")), "{all}");
    assert!(all.contains(&letters("Allergens: none by recipe; read the packets")), "{all}");
}

#[test]
fn labels_beyond_a_page_go_on_the_next_and_each_keeps_to_its_place() {
    for settings in [A4, LETTER] {
        let sheet = printed((0..25).map(|_| label()).collect(), USUAL, settings);
        assert_eq!(sheet.pages.len(), 2);
        let all = letters_of(&sheet, |_| true);
        assert_eq!(all.matches(&letters("Use by Wed 2 Dec")).count(), 25);
        let page = &sheet.pages[0];
        // Three columns between the margins: nothing crosses where one ends.
        let margins = page.inside_margins();
        let width = (margins.right - margins.left) / 3.0;
        for edge in [margins.left + width, margins.left + 2.0 * width] {
            let foot = page.height - crate::sheets::MARGIN - 16.0;
            assert!(page.runs.iter().filter(|run| run.baseline < foot).all(|run| run.bounds().right < edge || run.bounds().left > edge));
        }
    }
}

#[test]
fn the_corners_of_every_label_are_marked_for_the_scissors() {
    // Four labels in rows of three fill two rows: 4 × 3 corners of two strokes each.
    assert_eq!(printed((0..4).map(|_| label()).collect(), USUAL, A4).pages[0].rules.len(), 24);
}

#[test]
fn a_long_name_is_set_smaller_and_keeps_every_letter() {
    let sheet = printed(vec![Label { recipe: dish(LONG_DISH), ..label() }], USUAL, A4);
    assert!(letters_of(&sheet, |_| true).contains(&letters(LONG_DISH)));
    assert_eq!(sheet.warnings, Vec::<String>::new());
}

#[test]
fn what_has_no_room_on_a_label_is_said_in_a_warning_and_allergens_send_one_to_the_guide() {
    let unknown = (0..60).map(|number| format!("stock number {number}")).collect();
    let many = Label { contains: Contains { unknown, ..milk_and_stock() }, ..label() };
    let sheet = printed(vec![many], USUAL, A4);
    let all = letters_of(&sheet, |_| true);
    assert!(all.contains(&letters("Use by Wed 2 Dec Allergens: see the prep guide")), "{all}");
    assert_eq!(
        sheet.warnings,
        ["the label of White-bean mash has no room for all its words: see the prep guide, or print fewer labels a page"]
    );
}

#[test]
fn large_labels_have_nothing_under_fourteen_points() {
    let sheet = printed(vec![label(); 11], LabelGrid::usual(LARGE.size), LARGE);
    assert_eq!((sheet.pages.len(), sheet.warnings.len()), (2, 0));
}

#[test]
fn a_session_has_a_bookmark_where_its_labels_begin() {
    let sheet = printed(vec![label(); 30], USUAL, A4);
    let titles: Vec<_> = sheet.pages.iter().map(|page| page.bookmarks.iter().map(|mark| mark.title.as_str()).collect::<Vec<_>>()).collect();
    assert_eq!(titles, [vec!["Sun 29 Nov 2026, 14:00"], vec![]]);
}

#[test]
fn a_week_without_boxes_says_so() {
    let sheet = label_sheet(&[], (WEEK, date(2026, 11, 30)), names(), USUAL, A4);
    is_sound_in(&sheet, WEEK, A4);
    assert!(letters_of(&sheet, |_| true).contains(&letters("No boxes to label")));
}

#[test]
fn a_grid_is_read_as_columns_by_rows() {
    for text in ["3x8", "3X8", "3×8", " 3 x 8 "] {
        assert_eq!(text.parse(), Ok(USUAL), "{text}");
    }
    for text in ["", "3", "0x8", "3x0", "-3x8", "3x8x2", "threex8", "99999999999999999999x1"] {
        assert_eq!(text.parse::<LabelGrid>(), Err("write columns x rows, both at least 1, as in 3x8".to_owned()), "{text}");
    }
}

#[test]
fn labels_too_small_to_be_read_are_refused_with_what_fits() {
    let check = |columns, rows, settings| LabelGrid { columns, rows }.check(settings);
    assert_eq!(check(3, 8, A4), Ok(()));
    assert_eq!(check(30, 90, A4), Err("30x90 labels on A4 are too small to be read: at most 4x12 fit".to_owned()));
    assert_eq!(check(3, 8, LARGE), Err("3x8 labels on A4 are too small to be read in large print: at most 2x6 fit".to_owned()));
    for settings in [A4, LETTER, LARGE, Settings { size: LARGE.size, ..LETTER }] {
        assert_eq!(LabelGrid::usual(settings.size).check(settings), Ok(()));
    }
}
