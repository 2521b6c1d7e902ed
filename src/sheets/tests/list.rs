//! The shopping list.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::checks::{is_sound, is_sound_in, letters, letters_of, semi_bold_of};
use super::sample::{A4, FOLDED, LARGE, LETTER, WEEK, before, euros, food, g, kitchen, line, list, names, sized};
use crate::foods::Allergen;
use crate::foods::Place;
use crate::kitchen::{Spot, Ware, Warning};
use crate::purchase::{Beware, Budget, FromPantry, Leftover, Reserved, Section, ShoppingList};
use crate::sheets::{Settings, Sheet, Weight, shopping_list};

fn printed(list: &ShoppingList, settings: Settings) -> Sheet {
    shopping_list(list, &before(), names(), settings)
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
        let name = kitchen().names().food(line.food);
        assert!(names.contains(&letters(name)), "{name} is missing");
        assert!(line.what_for.iter().all(|what| all.contains(&letters(what))), "{:?} is missing", line.what_for);
    }
    for said in ["3 × 400 g", "800 g loose", "1 × 500 g + 2 × 250 g", "need 830 g, about 8", "45 g short", "1 × 3 pieces"] {
        assert!(all.contains(&letters(said)), "{said} is missing");
    }
}

#[test]
fn an_offer_is_told_and_fresh_goods_say_how_long_they_must_last() {
    let all = letters_of(&printed(&list(), A4), |run| run.weight == Weight::SemiBold);
    assert!(all.contains(&letters("take 3 for 2.00")));
    assert!(all.contains(&letters("must last to Wed 2 Dec")));
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
        "Freezer: 3 portions of red-pepper sauce",
        "feta, 100 g, fridge: use up by Mon 30 Nov",
        "Sat 28 Nov, Mill stores, of it",
        "39.60 EUR",
        "Move 3 portions of pearl barley",
        "spinach: bought 5 days",
        "Sun 29 Nov, 02:00 Soak 300 g dried white beans",
        "White-bean mash, ½ portion, made Sun 29 Nov, eat by Wed 2 Dec",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing");
    }
}

#[test]
fn what_one_place_gives_on_several_days_is_told_once() {
    // 350 g on Sunday and 150 g on Tuesday: 500 g.
    let mut list = list();
    let later = FromPantry { amount: g(150.0), lies: g(150.0), on: date(2026, 12, 1), look_first: false, ..list.from_pantry[0].clone() };
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
    list.trips[0].shops[0].sections[0].lines[0].food = food("Ζαφορά, укроп, 米 and 🌶️");
    let sheet = printed(&list, A4);
    let cjk = "Chinese, Japanese and Korean cannot be printed; write the name in Latin, Greek or Cyrillic letters. The sheet's type";
    assert_eq!(
        sheet.warnings,
        [
            format!("{cjk} has no shape for 米 (U+7C73): □ is printed instead"),
            "the sheet's type has no shape for 🌶 (U+1F336): □ is printed instead".to_owned()
        ]
    );
    assert!(letters_of(&sheet, semi_bold_of(13.0)).contains(&letters("Ζαφορά, укроп, □ and □")));
}

#[test]
fn what_is_left_in_the_packs_says_until_when_it_is_good() {
    let mut list = list();
    let left = |name: &str, until| Leftover { food: food(name), amount: g(55.0), value: euros("0.20"), until };
    list.leaves.leftovers = vec![
        Leftover { amount: g(4.0), ..left("saffron", None) },
        left("yoghurt", Some(date(2026, 12, 8))),
        left("flour", Some(date(2027, 6, 1))),
        left("honey", None),
    ];
    let all = letters_of(&printed(&list, A4), |_| true);
    let told = "Left in the packs, and good until yoghurt, 55 g Tue 8 Dec flour, 55 g Tue 1 Jun 2027 honey, 55 g not known";
    assert!(all.contains(&letters(told)), "{all}");
}

#[test]
fn what_other_weeks_take_first_is_told_once_a_food() {
    let mut list = list();
    let kept = |grams: f64, day| Reserved {
        week: "Last week of autumn".into(),
        of: Ware::Food(food("feta")),
        amount: g(grams),
        place: Place::Fridge,
        last_used: date(2026, 11, day),
        what_for: vec!["Thu supper".into()],
    };
    list.reserved = vec![kept(50.0, 27), kept(30.0, 26)];
    // 50 + 30 = 80 g.
    let all = letters_of(&printed(&list, A4), |_| true);
    assert!(all.contains(&letters("Kept for other weeks Last week of autumn: 80 g feta")), "{all}");
}

#[test]
fn a_budget_is_told_only_where_the_week_costs_more() {
    let told = |limit: &str, cost: &str| {
        let budget = Budget { limit: euros(limit), cost: euros(cost), changes: vec![], untried: 0, together: None };
        letters_of(&printed(&ShoppingList { budget: Some(budget), ..list() }, A4), |_| true)
    };
    // 39.60 - 35.00 = 4.60; with a past trip of 2.00 the week costs 41.60.
    assert!(told("35.00", "39.60").contains(&letters("Budget 35.00 4.60 EUR over")));
    assert!(told("35.00", "41.60").contains(&letters("With the trips that are past 41.60 Budget 35.00 6.60 EUR over")));
    assert!(!told("39.60", "39.60").contains("Budget"));
}

#[test]
fn what_the_household_avoids_is_pointed_out_at_its_line() {
    let mut list = list();
    list.trips[0].shops[0].sections[0].lines[0].beware = Some(Beware::MayContain(vec![Allergen::Sesame]));
    list.trips[0].shops[0].sections[0].lines[0].food = food("oatcake");
    let meal = "Mon supper may contain sesame: the allergens of oatcake are not known.";
    let may_contain = |what: &str| Warning::Avoided {
        at: Spot { file: "weeks/a.toml".into(), line: 3, column: 1 },
        food: what.into(),
        allergens: vec!["sesame".into()],
        unknown: Some("oatcake".into()),
    };
    list.warnings = vec![may_contain("oatcake"), may_contain("Mon supper")];
    let sheet = printed(&list, A4);
    let bold = letters_of(&sheet, |run| run.weight == Weight::SemiBold);
    assert!(bold.contains(&letters("may contain sesame: allergens not known")));
    // The meal's warning stays at the end; the food's is not said twice.
    let all = letters_of(&sheet, |_| true);
    assert!(all.contains(&letters(meal)) && !all.contains("Oatcakemay"), "{all}");
}

#[test]
fn large_print_has_nothing_under_fourteen_points_and_drops_no_line() {
    for settings in [LARGE, Settings { fold: true, ..LARGE }] {
        let sheet = printed(&long(150), settings);
        is_sound_in(&sheet, WEEK, settings);
        let names = letters_of(&sheet, semi_bold_of(18.0));
        assert!((1..=150).all(|n| names.contains(&letters(&format!("thing number {n}")))));
    }
}

#[test]
fn a_folded_list_has_a_line_down_its_middle_that_no_word_crosses() {
    for list in [list(), long(150), long(3)] {
        let sheet = printed(&list, FOLDED);
        is_sound_in(&sheet, WEEK, FOLDED);
        for page in &sheet.pages {
            let dashes: Vec<_> = page.rules.iter().filter(|rule| rule.x0 == page.width / 2.0).collect();
            assert!(dashes.len() > 50, "{} dashes", dashes.len());
        }
    }
    let middle = |page: &crate::sheets::Page| page.rules.iter().any(|rule| rule.x0 == page.width / 2.0);
    assert!(!printed(&list(), A4).pages.iter().any(middle));
}

#[test]
fn every_shop_of_every_trip_has_a_bookmark_on_its_page() {
    let sheet = printed(&list(), A4);
    let titles: Vec<_> = sheet.pages[0].bookmarks.iter().map(|mark| mark.title.as_str()).collect();
    assert_eq!(titles, ["Sat 28 Nov: Quay market", "Sat 28 Nov: Mill stores", "Sat 28 Nov: No shop known, or no price"]);
}

#[test]
fn what_is_past_before_the_first_trip_is_not_to_be_used_up() {
    // The first trip is on Saturday 28 November.
    let mut list = list();
    let lot = |place, past| crate::purchase::Expiring {
        place,
        past,
        lies_past: true,
        until: Some(date(2026, 11, 22)),
        ..list.expiring[0].clone()
    };
    list.expiring = vec![lot(Place::Fridge, true), lot(Place::Freezer, false)];
    let all = letters_of(&printed(&list, A4), |_| true);
    assert!(all.contains(&letters("feta, 100 g, fridge: past Sun 22 Nov; when in doubt, throw it out")), "{all}");
    assert!(all.contains(&letters("feta, 100 g, freezer: best before Sun 22 Nov; look at it first")), "{all}");
}

#[test]
fn what_is_good_until_the_evening_is_used_up_though_the_next_trip_comes_later() {
    // The next trip is on Saturday 28 November, and the feta is good until Friday, which is today: it is not past.
    let mut list = list();
    list.expiring =
        vec![crate::purchase::Expiring { place: Place::Fridge, until: Some(date(2026, 11, 27)), past: false, ..list.expiring[0].clone() }];
    let all = letters_of(&printed(&list, A4), |_| true);
    assert!(all.contains(&letters("feta, 100 g, fridge: use up by Fri 27 Nov")), "{all}");
}

#[test]
fn a_trip_a_little_too_long_for_its_page_is_set_smaller_rather_than_on_two() {
    let sizes = |count| {
        let sheet = printed(&long(count), A4);
        is_sound(&sheet, WEEK);
        let size = sheet.pages[0].runs.iter().find(|run| run.text == "thing number 1").map(|run| run.size);
        let of_trip = sheet.pages.iter().filter(|page| page.runs.iter().any(|run| run.text.starts_with("thing number"))).count();
        (size, of_trip)
    };
    assert_eq!(sizes(30), (Some(13.0), 1));
    let small = (30..60).map(sizes).find(|(size, _)| *size == Some(12.0));
    assert_eq!(small, Some((Some(12.0), 1)));
    assert_eq!(sizes(60).0, Some(13.0));
}

/// `count` lines of two shops as a household writes them: a section for every seven, each line with its need and a reason, most fresh.
fn ordinary(count: usize) -> ShoppingList {
    let mut list = list();
    let line = |n: usize| {
        let line = line(&format!("thing number {n}"), g(100.0 + n as f64), vec![sized(2, "400 g", "1.00")], &["Leek and potato soup"]);
        crate::purchase::ListLine { fresh: !n.is_multiple_of(3), last_used: Some(date(2026, 12, 2)), ..line }
    };
    let sections = |from: usize, until: usize| {
        let lines: Vec<_> = (from + 1..=until).map(line).collect();
        lines.chunks(7).enumerate().map(|(n, lines)| Section { section: format!("Section {n}"), lines: lines.to_vec() }).collect()
    };
    list.trips[0].shops.truncate(2);
    list.trips[0].shops[0].sections = sections(0, count / 2);
    list.trips[0].shops[1].sections = sections(count / 2, count);
    list
}

#[test]
fn fifty_lines_of_two_shops_fit_two_pages_with_what_to_know_on_the_second() {
    for settings in [A4, LETTER] {
        let sheet = printed(&ordinary(50), settings);
        is_sound(&sheet, WEEK);
        assert_eq!(sheet.pages.len(), 2);
        let on = |page: usize, said: &str| sheet.pages[page].runs.iter().any(|run| run.text.contains(said));
        assert!((1..=50).all(|n| on(0, &format!("thing number {n}"))) && on(1, "Look before you go"));
        assert!(on(0, "must last to"));
    }
}

#[test]
fn a_shop_that_goes_on_over_the_page_says_so_there() {
    for settings in [A4, LARGE] {
        let sheet = printed(&long(120), settings);
        is_sound(&sheet, WEEK);
        let shop = kitchen().names().shop(list().trips[0].shops[0].at.expect("a shop").shop).to_owned();
        let says = |page: &crate::sheets::page::Page, text: &str| page.runs.iter().any(|run| run.text.replace('\u{a0}', " ") == text);
        let entries = |page: &crate::sheets::page::Page| page.runs.iter().any(|run| run.text.starts_with("thing"));
        assert!(says(&sheet.pages[0], &shop), "{shop}");
        for page in sheet.pages.iter().skip(1).filter(|page| entries(page)) {
            assert!(says(page, &format!("{shop}, continued")) && says(page, "Vegetables"), "{shop}");
        }
    }
}
