use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Food, FoodId};
use crate::kitchen::fixture::{empty_kitchen, recipe};
use crate::kitchen::{RecipeId, Ware};
use crate::measure::Money;

/// One food, onion, and one recipe, a mash.
fn kitchen() -> Kitchen {
    let mut kitchen = empty_kitchen();
    kitchen.foods = [Food { name: "onion".to_owned(), ..Food::default() }].into_iter().collect();
    kitchen.recipes = vec![recipe("mash")];
    kitchen.recipes[0].name = "White-bean mash".to_owned();
    kitchen
}

fn onions() -> ListLine {
    let what = Packed::Packs { count: 1, size: Quantity::grams(1000.0), label: "1000 g".to_owned() };
    ListLine {
        food: FoodId(0),
        need: Quantity::grams(830.0),
        packs: vec![PackLine { what, offer: None, cost: Money(129) }],
        cost: Some(Money(129)),
        left: Quantity::grams(170.0),
        left_until: None,
        short: Quantity::grams(0.0),
        demand: Quantity::grams(830.0),
        last_used: Some(date(2026, 12, 2)),
        what_for: vec!["White-bean mash".to_owned()],
        top_up: false,
        asked: None,
        about: None,
        fresh: false,
        own_words: Vec::new(),
        windows: None,
        optional: false,
        instead: Vec::new(),
        without: None,
        beware: None,
    }
}

#[test]
fn the_line_reads_as_the_contract_shows_it() {
    let kitchen = kitchen();
    let json = serde_json::to_string(&Line::of(&onions(), kitchen.names())).expect("JSON");
    assert_eq!(
        json,
        r#"{"food":"onion","need":{"amount":830.0,"unit":"g"},"packs":[{"size":"1000 g","count":1,"offer":null,"cost":"1.29"}],"#
            .to_owned()
            + r#""cost":"1.29","left":{"amount":170.0,"unit":"g"},"left_until":null,"short":{"amount":0.0,"unit":"g"},"last_used":"2026-12-02","for":["White-bean mash"]}"#
    );
}

#[test]
fn an_optional_line_and_an_offer_to_do_without_say_so() {
    let kitchen = kitchen();
    let without = purchase::Without { short: Quantity::grams(3.5), share: 0.04, saves: Money(165) };
    let line = ListLine { optional: true, without: Some(without), ..onions() };
    let json = serde_json::to_string(&Line::of(&line, kitchen.names())).expect("JSON");
    let end = r#""optional":true,"without":{"short":{"amount":3.5,"unit":"g"},"share":0.04,"saves":"1.65"}}"#;
    assert!(json.ends_with(end), "{json}");
}

#[test]
fn a_line_that_fills_up_the_shelf_is_for_staple_once() {
    let kitchen = kitchen();
    let both = ListLine { top_up: true, ..onions() };
    let named_alike = ListLine { what_for: vec!["staple".to_owned()], ..both.clone() };
    assert_eq!(Line::of(&both, kitchen.names()).what_for, ["White-bean mash", "staple"]);
    assert_eq!(Line::of(&named_alike, kitchen.names()).what_for, ["staple"]);
}

#[test]
fn a_lot_is_named_by_the_one_key_that_fits() {
    let kitchen = kitchen();
    let lot = |of| Expiring {
        of,
        whose: None,
        amount: Quantity::portions(2.0),
        place: Place::Fridge,
        until: Some(date(2026, 12, 1)),
        past: false,
    };
    let json = |of| serde_json::to_string(&Lot::of(&lot(of), kitchen.names())).expect("JSON");
    let rest = r#""amount":{"amount":2.0,"unit":"portion"},"place":"fridge","until":"2026-12-01"}"#;
    assert_eq!(json(Ware::Food(FoodId(0))), format!(r#"{{"food":"onion",{rest}"#));
    assert_eq!(json(Ware::Recipe(RecipeId(0))), format!(r#"{{"recipe":"mash",{rest}"#));
}
