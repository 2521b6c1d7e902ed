use jiff::civil::date;
use pretty_assertions::assert_eq;

use super::*;
use crate::foods::{Food, FoodId};
use crate::kitchen::fixture::{empty_kitchen, recipe};
use crate::kitchen::{RecipeId, Ware};

/// One food, onion, and one recipe, a mash.
fn kitchen() -> Kitchen {
    let mut kitchen = empty_kitchen();
    kitchen.foods = [Food { name: "onion".to_owned(), ..Food::default() }].into_iter().collect();
    kitchen.recipes = vec![recipe("mash")];
    kitchen.recipes[0].name = "White-bean mash".to_owned();
    kitchen
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
        lies_past: false,
    };
    let json = |of| serde_json::to_string(&Lot::of(&lot(of), kitchen.names())).expect("JSON");
    let rest = r#""amount":{"amount":2.0,"unit":"portion"},"place":"fridge","until":"2026-12-01"}"#;
    assert_eq!(json(Ware::Food(FoodId(0))), format!(r#"{{"food":"onion",{rest}"#));
    assert_eq!(json(Ware::Recipe(RecipeId(0))), format!(r#"{{"recipe":"mash",{rest}"#));
}
