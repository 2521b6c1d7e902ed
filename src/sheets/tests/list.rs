//! The shopping list.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::checks::{is_sound, letters, letters_of, semi_bold_of};
use super::sample::{A4, HOUSEHOLD, LETTER, WEEK, before, g, line, list, sized};
use crate::purchase::{FromPantry, Section, ShoppingList};
use crate::sheets::{Settings, Sheet, Weight, shopping_list};

fn printed(list: &ShoppingList, settings: Settings) -> Sheet {
    shopping_list(list, &before(), HOUSEHOLD, settings)
}

/// The sample's trip with `count` lines in its first section.
pub fn long(count: usize) -> ShoppingList {
    let mut list = list();
    let lines =
        (1..=count).map(|n| line(&format!("thing number {n}"), g(100.0), vec![sized(2, "400 g", "1.00")], &["Leek and potato soup"]));
    list.trips[0].shops[0].sections = vec![Section { section: "Vegetables".into(), lines: lines.collect() }];
    list
}

#[test]
fn a_usual_week_is_one_page_of_a4() {
    let sheet = printed(&list(), A4);
    is_sound(&sheet, WEEK);
    assert_eq!(sheet.pages.len(), 1);
    assert_eq!(sheet.file_stem, "shopping-list-2026-11-30");
    assert_eq!(sheet.warnings, Vec::<String>::new());
}

#[test]
fn every_line_stands_on_the_page_with_its_packs_and_its_need() {
    let sheet = printed(&list(), A4);
    let names = letters_of(&sheet, semi_bold_of(13.0));
    let all = letters_of(&sheet, |_| true);
    for line in list().trips.iter().flat_map(|trip| &trip.shops).flat_map(|shop| &shop.sections).flat_map(|section| &section.lines) {
        assert!(names.contains(&letters(&line.food)), "{} is missing", line.food);
        assert!(
            line.what_for.iter().filter(|what| *what != "staple").all(|what| all.contains(&letters(what))),
            "{:?} is missing",
            line.what_for
        );
    }
    for said in ["3 × 400 g", "800 g loose", "1 × 500 g + 2 × 250 g", "need 830 g, about 8", "20 g short", "1 × 3 pieces"] {
        assert!(all.contains(&letters(said)), "{said} is missing");
    }
}

#[test]
fn an_offer_is_told_and_fresh_goods_say_how_long_they_must_last() {
    let all = letters_of(&printed(&list(), A4), |run| run.weight == Weight::SemiBold);
    assert!(all.contains(&letters("take 3 for 2.00")));
    assert!(all.contains(&letters("until at least Wed 2 Dec")));
}

#[test]
fn goods_without_a_shop_stand_in_a_group_of_their_own_in_their_own_words() {
    let all = letters_of(&printed(&list(), A4), |_| true);
    let group = all.find(&letters("No shop known")).expect("the group");
    assert!(all[group..].contains("rosemary"));
    assert!(all[group..].contains(&letters("flaky salt, to taste")));
    assert!(!all.contains("also:"));
}

#[test]
fn what_is_at_home_what_runs_out_and_what_it_costs_stand_after_the_trip() {
    let all = letters_of(&printed(&list(), A4), |_| true);
    for said in [
        "Look before you go",
        "olive oil, flour",
        "Cupboard: 350 g pearl barley (look at it first)",
        "Freezer: 3 portions Red pepper sauce",
        "feta, 100 g, fridge: use up by Mon 30 Nov",
        "Sat 28 Nov, Mill stores, of it",
        "39.60 EUR",
        "Move 3 portions of pearl barley",
        "spinach: bought 5 days",
        "Sun 29 Nov, 02:00 Soak 300 g dried white beans",
        "White bean mash, ½ portion, made Sun 29 Nov, eat by Wed 2 Dec",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing");
    }
}

#[test]
fn what_one_place_gives_on_several_days_is_told_once() {
    // 350 g on Sunday and 150 g on Tuesday: 500 g.
    let mut list = list();
    let later = FromPantry { amount: g(150.0), on: date(2026, 12, 1), look_first: false, ..list.from_pantry[0].clone() };
    list.from_pantry.push(later);
    assert!(letters_of(&printed(&list, A4), |_| true).contains(&letters("Cupboard: 500 g pearl barley (look at it first)")));
}

#[test]
fn warnings_on_paper_leave_out_the_file_and_its_line() {
    let all = letters_of(&printed(&list(), A4), |_| true);
    assert!(all.contains(&letters("\"flaky salt\" is not a known food")));
    assert!(!all.contains("flatbreads.toml"));
}

#[test]
fn a_list_of_120_lines_takes_three_or_four_pages_and_drops_none() {
    for settings in [A4, LETTER] {
        let sheet = printed(&long(120), settings);
        is_sound(&sheet, WEEK);
        assert!((3..=4).contains(&sheet.pages.len()), "{} pages", sheet.pages.len());
        let names = letters_of(&sheet, semi_bold_of(13.0));
        assert!((1..=120).all(|n| names.contains(&letters(&format!("thing number {n}")))));
    }
}

#[test]
fn every_trip_begins_a_page_of_its_own() {
    let mut two = list();
    let mut later = two.trips[0].clone();
    later.on = date(2026, 12, 2);
    two.trips.push(later);
    let sheet = printed(&two, A4);
    is_sound(&sheet, WEEK);
    let title = |page: usize| sheet.pages[page].runs.iter().find(|run| run.size == 20.0).map(|run| run.text.as_str());
    assert_eq!(title(0), Some("Sat 28 Nov 2026"));
    assert_eq!(title(1), Some("Wed 2 Dec 2026"));
}

#[test]
fn a_week_without_anything_to_buy_still_says_so() {
    let mut empty = list();
    empty.trips[0].shops.clear();
    let sheet = printed(&empty, A4);
    is_sound(&sheet, WEEK);
    assert!(letters_of(&sheet, |_| true).contains("Nothingtobuy."));
    empty.trips.clear();
    is_sound(&printed(&empty, A4), WEEK);
}

#[test]
fn an_amount_is_never_parted_from_its_unit() {
    for count in 1..40 {
        let mut list = long(1);
        list.trips[0].shops[0].sections[0].lines[0].own_words = vec![format!("{} 830 g", "x".repeat(count))];
        let sheet = printed(&list, A4);
        let runs: Vec<_> = sheet.pages.iter().flat_map(|page| &page.runs).collect();
        assert!(runs.iter().any(|run| run.text.contains("830 g")), "after {count} letters");
    }
}

#[test]
fn a_character_without_a_shape_is_replaced_and_named_in_a_warning() {
    let mut list = list();
    list.trips[0].shops[0].sections[0].lines[0].food = "Ζαφορά, укроп, 米 and 🌶️".into();
    let sheet = printed(&list, A4);
    assert_eq!(sheet.warnings, ["the sheet's type has no shape for 米 (U+7C73), 🌶 (U+1F336): □ is printed instead"]);
    assert!(letters_of(&sheet, semi_bold_of(13.0)).contains(&letters("Ζαφορά, укроп, □ and □")));
}
