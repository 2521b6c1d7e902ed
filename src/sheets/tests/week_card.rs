//! The week card.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::checks::{is_sound_in, letters, letters_of};
use super::sample::{A4, LARGE, LETTER, WEEK, dish, g, names};
use crate::foods::{Allergen, Place};
use crate::kitchen::{ApplianceId, Serve};
use crate::measure::{Celsius, Minutes, Quantity};
use crate::plan::Beware;
use crate::prep::{AT_THE_MEAL, CardDay, CardDish, CardMaking, CardMeal, CardStep, Care, Errand, Then, WeekCard};
use crate::sheets::{Settings, Sheet, Weight, week_card_sheet};

fn printed(card: &WeekCard, settings: Settings) -> Sheet {
    week_card_sheet(card, names(), settings)
}

fn out(name: &str, amount: Quantity, place: Option<Place>, then: Then) -> CardDish {
    CardDish { recipe: dish(name), whose: None, amounts: vec![amount], place, boxed: place.map(|_| "flat tub".into()), then }
}

fn meal(label: &str, dishes: Vec<CardDish>) -> CardMeal {
    CardMeal {
        short: Vec::new(),
        not_known: Vec::new(),
        label: label.into(),
        name: Some("Barley plates".into()),
        called: Some("Barley plates".into()),
        dishes,
        text: None,
        fresh: vec![],
        cook: vec![],
        made: vec![],
        otherwise: vec![],
        choking: vec![],
        beware: None,
    }
}

/// Sunday's move, Monday's supper out of the fridge, Tuesday's made at the meal.
pub fn card() -> WeekCard {
    let monday = vec![
        out("Pearl barley", Quantity::portions(2.5), Some(Place::Fridge), Then::Eaten(Some(Serve::Hot))),
        out("Herb yoghurt", g(100.0), Some(Place::Fridge), Then::Eaten(Some(Serve::Cold))),
        out("Frittata", Quantity::portions(2.0), None, Then::FromThePot),
    ];
    let step = |text: &str| CardStep { text: text.into(), on: None, at: None, wait: Minutes(0), inside: None };
    let bake = CardStep { on: Some(ApplianceId(0)), at: Some(Celsius(190.0)), wait: Minutes(18), ..step("Bake until it flakes.") };
    let fish = CardMaking { recipe: dish("Baked fish with dill"), steps: vec![step("Lay 440 g cod on 2 lemons."), bake] };
    let tuesday = CardMeal {
        fresh: vec!["75 g feta".into(), "1 lemon (60 g)".into()],
        made: vec![fish],
        beware: Some(Beware::Contains(vec![Allergen::Fish])),
        ..meal("Tue supper", vec![])
    };
    let barley = Errand::Move { recipe: dish("Pearl barley"), whose: None, amount: Quantity::portions(1.0), late: false };
    let day = |on, meals, tonight| CardDay { on, meals, tonight };
    WeekCard {
        short: vec![],
        not_known: vec![],
        cautions: vec![],
        week: WEEK.into(),
        from: date(2026, 11, 30),
        days: vec![
            day(date(2026, 11, 29), vec![], vec![barley]),
            day(date(2026, 11, 30), vec![meal("Mon supper", monday)], vec![]),
            day(date(2026, 12, 1), vec![tuesday], vec![]),
        ],
    }
}

/// A week of `meals` suppers, each with three dishes.
fn long(meals: usize) -> WeekCard {
    let supper = |n: usize| CardDay {
        on: date(2026, 12, 1),
        meals: vec![CardMeal { label: format!("Supper {n}"), ..card().days[1].meals[0].clone() }],
        tonight: vec![],
    };
    WeekCard { days: (1..=meals).map(supper).collect(), ..card() }
}

#[test]
fn the_card_is_laid_out_soundly_on_one_page_and_in_large_print() {
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(&card(), settings);
        is_sound_in(&sheet, WEEK, settings);
        assert_eq!((sheet.pages.len(), sheet.file_stem.as_str()), (1, "week-card-2026-11-30"));
    }
}

#[test]
fn every_meal_of_a_full_week_stands_on_the_card() {
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(&long(28), settings);
        is_sound_in(&sheet, WEEK, settings);
        let all = letters_of(&sheet, |_| true);
        assert!((1..=28).all(|n| all.contains(&letters(&format!("Supper {n}Barley plates")))));
        assert_eq!(all.matches(&letters("Pearl barley, 2½ portions")).count(), 28);
    }
}

#[test]
fn a_dish_says_where_it_is_and_whether_it_is_heated() {
    let all = letters_of(&printed(&card(), A4), |_| true);
    for said in [
        "Pearl barley, 2½ portions, flat tub in the fridge: heat",
        "What is heated: to 74 °C (165 °F), right through.",
        "Herb yoghurt, 100 g, flat tub in the fridge: cold",
        "Frittata, 2 portions, straight from the pot",
        "Add: 75 g feta; 1 lemon (60 g)",
        "Make: Baked fish with dill 1 Lay 440 g cod on 2 lemons. 2 Bake until it flakes.",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn the_evening_s_move_stands_under_its_day_before_the_next() {
    let all = letters_of(&printed(&card(), A4), |_| true);
    let at = |said: &str| all.find(&letters(said)).unwrap_or_else(|| panic!("{said} is missing in {all}"));
    assert!(at("Tonight: Move 1 portion of pearl barley") < at("Mon 30 Nov Mon supper"));
}

#[test]
fn what_the_household_avoids_stands_in_bold_under_its_meal() {
    assert!(letters_of(&printed(&card(), A4), |run| run.weight == Weight::SemiBold).contains(&letters("Contains fish.")));
}

#[test]
fn every_day_has_a_bookmark() {
    let titles: Vec<_> = printed(&card(), A4).pages[0].bookmarks.iter().map(|mark| mark.title.clone()).collect();
    assert_eq!(titles, ["Sun 29 Nov", "Mon 30 Nov", "Tue 1 Dec"]);
}

#[test]
fn a_week_without_meals_is_a_page() {
    is_sound_in(&printed(&WeekCard { days: vec![], ..card() }, A4), WEEK, A4);
}

#[test]
fn what_is_not_known_for_an_eater_stands_at_the_head_of_the_card() {
    let told = "Mon supper, Emil: relish: not known for Emil whether it has sesame: read the packet.";
    let all = letters_of(&printed(&WeekCard { not_known: vec![told.to_owned()], ..card() }, A4), |_| true);
    let at = |said: &str| all.find(&letters(said)).unwrap_or_else(|| panic!("{said} is missing in {all}"));
    assert!(at(told) < at("Sun 29 Nov Tonight"));
}

#[test]
fn what_is_not_known_is_never_cut_short_however_long() {
    let foods: Vec<String> = (1..=40).map(|number| format!("food number {number} (Dish {number})")).collect();
    let told = format!("Sesame not known for Emil: read the packet of {}.", foods.join(", "));
    let all = letters_of(&printed(&WeekCard { not_known: vec![told.clone()], ..card() }, A4), |_| true);
    assert!(all.contains(&letters(&told)), "{all}");
}

#[test]
fn what_to_take_care_of_at_the_meals_stands_below_them_with_its_source() {
    let care = Care::Rule { text: "Knives: sharp blade.", figures: vec![], source: "common practice, no source" };
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(&WeekCard { cautions: vec![care.clone(), Care::LocalRules], ..card() }, settings);
        is_sound_in(&sheet, WEEK, settings);
        let all = letters_of(&sheet, |_| true);
        let at = |said: &str| all.find(&letters(said)).unwrap_or_else(|| panic!("{said} is missing in {all}"));
        assert!(at("Make: Baked fish with dill") < at(AT_THE_MEAL));
        assert!(at(AT_THE_MEAL) < at("Knives: sharp blade. (common practice, no source)"));
    }
}
