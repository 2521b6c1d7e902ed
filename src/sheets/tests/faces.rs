//! Which characters have a shape, and what is said of those that have none.

use std::collections::BTreeSet;

use pretty_assertions::assert_eq;

use crate::sheets::face::{printable, warnings_of};

fn missing(text: &str) -> BTreeSet<char> {
    let mut missing = BTreeSet::new();
    printable(text, &mut missing);
    missing
}

#[test]
fn every_letter_of_latin_greek_and_cyrillic_alphabets_has_a_shape() {
    // The blocks of the Unicode Standard: Basic Latin to Latin Extended-A, Greek, Cyrillic; letters alone.
    for code in (0x20..=0x17f).chain(0x386..=0x3ce).chain(0x400..=0x45f).chain(0x490..=0x491) {
        let Some(c) = char::from_u32(code).filter(|c| c.is_alphabetic()) else { continue };
        assert_eq!(missing(&c.to_string()), BTreeSet::new(), "{c} U+{code:04X}");
    }
    assert_eq!(missing("½ ¼ ⅜ × ° – … “ ” ’ · € £ ² ≤"), BTreeSet::new());
}

#[test]
fn a_letter_and_its_accent_typed_apart_are_printed_as_one() {
    let mut missing = BTreeSet::new();
    assert_eq!(printable("cre\u{300}me bru\u{302}le\u{301}e", &mut missing), "crème brûlée");
    assert_eq!(missing, BTreeSet::new());
}

#[test]
fn joiners_and_selectors_leave_no_trace() {
    let mut missing = BTreeSet::new();
    assert_eq!(printable("soft\u{ad}ly \u{200e}and\u{feff}\u{fe0f}\u{e0067}", &mut missing), "softly and");
    assert_eq!(missing, BTreeSet::new());
}

#[test]
fn each_kind_of_writing_without_shapes_is_told_apart() {
    let warnings = warnings_of(&missing("שלום 白 ツ 한 🌶"));
    assert_eq!(warnings.len(), 3);
    assert!(warnings[0].starts_with("right-to-left writing cannot be printed;"), "{}", warnings[0]);
    assert!(warnings[0].contains("ו (U+05D5), ל (U+05DC), ם (U+05DD), ש (U+05E9): □"), "{}", warnings[0]);
    assert!(warnings[1].starts_with("Chinese, Japanese and Korean cannot be printed;"), "{}", warnings[1]);
    assert!(warnings[1].contains("ツ (U+30C4), 白 (U+767D), 한 (U+D55C)"), "{}", warnings[1]);
    assert_eq!(warnings[2], "the sheet's type has no shape for 🌶 (U+1F336): □ is printed instead");
    assert_eq!(warnings_of(&BTreeSet::new()), Vec::<String>::new());
}

#[test]
fn of_many_characters_twelve_are_named() {
    let warnings = warnings_of(&('\u{4e00}'..'\u{4e10}').collect());
    assert!(warnings[0].contains("and 4 more"), "{}", warnings[0]);
}
