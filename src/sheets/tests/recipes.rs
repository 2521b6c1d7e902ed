//! Recipe pages.

use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::checks::{is_sound_in, letters, letters_of};
use super::sample::{A4, LARGE, LETTER, dish, names};
use crate::foods::Allergen;
use crate::kitchen::{ApplianceId, Serve, Source};
use crate::measure::{Celsius, Days, Minutes, Quantity};
use crate::plan::Contains;
use crate::prep::{PageLine, PageSize, PageStep, RecipePage, SizeOf};
use crate::purchase::{Of, PerEater, PortionNote};
use crate::sheets::{Settings, Sheet, Told, recipe_sheet};

const TITLE: &str = "Recipes, First week of advent";

fn line(name: &str, amounts: [&str; 2]) -> PageLine {
    PageLine { name: name.into(), amounts: amounts.map(str::to_owned).to_vec() }
}

/// Barley for five portions on Sunday, beside a batch of four.
fn barley() -> Told {
    let step = |text: &str| PageStep {
        text: text.into(),
        hands: Minutes(5),
        wait: Minutes(0),
        ahead: None,
        on: vec![],
        takes: 1.0,
        at: None,
        inside: None,
    };
    let bake =
        PageStep { wait: Minutes(25), on: vec![ApplianceId(0)], at: Some(Celsius(190.0)), inside: Some(Celsius(74.0)), ..step("Bake it.") };
    let size = |what, portions: f64| PageSize { what, makes: Quantity::portions(portions) };
    let page = RecipePage {
        recipe: dish("Pearl barley"),
        sizes: vec![size(SizeOf::Session(date(2026, 11, 29).at(14, 0, 0, 0)), 5.0), size(SizeOf::Batch, 4.0)],
        lines: vec![line("pearl barley, rinsed", ["375 g", "300 g"]), line("salt", ["", ""])],
        steps: vec![step("Rinse 375 g pearl barley."), bake],
        cupboard: None,
        fridge: Some(Days(3)),
        freezer: Some(Days(60)),
        serve: Some(Serve::Hot),
        at_table: vec!["Serve with bread.".to_owned()],
        notes: vec!["Tip: rinse it twice.".to_owned()],
        contains: Contains { allergens: [Allergen::Gluten].into_iter().collect(), ..Contains::default() },
        only_named: vec![],
        beware: None,
        source: Source::default(),
    };
    let per = PerEater { kcal: Some(264.4), protein_g: Some(7.4), fibre_g: None, cost: None };
    (page, (Of::Portion, PortionNote { per, missing: vec![] }))
}

fn printed(recipes: &[Told], settings: Settings) -> Sheet {
    recipe_sheet(recipes, (TITLE, "recipes-2026-11-30".to_owned()), names(), settings)
}

#[test]
fn a_recipe_is_laid_out_soundly_on_a_page_of_its_own() {
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(&[barley(), barley()], settings);
        is_sound_in(&sheet, TITLE, settings);
        assert_eq!(sheet.pages.len(), 2);
    }
}

#[test]
fn amounts_stand_beside_those_of_one_batch_and_times_in_the_margin() {
    let all = letters_of(&printed(&[barley()], A4), |_| true);
    for said in [
        "Sun 29 Nov makes 5 portions; one batch makes 4 portions",
        "pearl barley, rinsed 375 g 300 g",
        "salt to taste to taste",
        "Keeps: fridge 3 days, freezer 60 days",
        "Serve: hot; what was chilled is heated to 74 °C (165 °F)",
        "At the table: Serve with bread.",
        "Tip: rinse it twice.",
        "Allergens: gluten",
        "A portion: 264 kcal, 7 g protein, ? g fibre",
    ] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
    for said in ["5 min hands-on", "25 min unattended", "190 °C (375 °F)", "inside 74 °C (165 °F)"] {
        assert!(all.contains(&letters(said)), "{said} is missing in {all}");
    }
}

#[test]
fn a_recipe_of_a_hundred_lines_goes_on_and_says_so() {
    let (page, per_portion) = barley();
    let long = RecipePage {
        lines: (0..100).map(|n| line(&format!("herb number {n}"), ["1 kg plus 20 g (330 g)", "2–3 cloves"])).collect(),
        ..page
    };
    for settings in [A4, LETTER, LARGE] {
        let sheet = printed(&[(long.clone(), per_portion.clone())], settings);
        is_sound_in(&sheet, TITLE, settings);
        assert!(sheet.pages.len() > 1);
        assert!(letters_of(&sheet, |_| true).contains(&letters("Pearl barley, continued")));
    }
}

#[test]
fn columns_of_many_sessions_stay_apart() {
    let (page, per_portion) = barley();
    let sizes: Vec<PageSize> = (0..6).map(|_| page.sizes[0].clone()).collect();
    let lines = vec![PageLine { name: "pearl barley".into(), amounts: vec!["1 kg plus 20 g (330 g)".to_owned(); 6] }];
    let wide = RecipePage { sizes, lines, ..page };
    for settings in [A4, LETTER, LARGE] {
        is_sound_in(&printed(&[(wide.clone(), per_portion.clone())], settings), TITLE, settings);
    }
}

#[test]
fn a_week_without_recipes_is_a_page() {
    is_sound_in(&printed(&[], A4), TITLE, A4);
}
