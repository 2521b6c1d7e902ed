//! What goes into which box, where it is kept and until when.
//!
//! What goes into which box stands with the step that boxes it, not in a list of its own, unless boxing takes no time
//! and so has no step. A name longer than a few words gives way to the recipe's id in the heads of the steps.

use super::{BoxNote, BoxTask, Boxes, Errand, Kept};
use crate::kitchen::{Kitchen, Recipe};
use crate::measure::{Number, Quantity, Units, show, whole_up};
use crate::plan::{Boxed, Making, Move, recipe_contains};

/// The boxes of one making.
pub(super) fn boxes(kitchen: &Kitchen, making: &Making) -> Vec<BoxNote> {
    let recipe = &kitchen.recipes[making.recipe];
    let contains = recipe_contains(kitchen, making.recipe);
    let beware = contains.beware(&kitchen.household.avoid);
    let note = |boxed: &Boxed| BoxNote {
        recipe: making.recipe,
        amount: portions(recipe, &boxed.amount).map_or_else(|| boxed.amount.clone(), Quantity::portions),
        place: boxed.place,
        use_by: boxed.use_by,
        what_for: boxed.what_for.clone(),
        boxes: containers(recipe, &boxed.amount),
        contains: contains.clone(),
        beware: beware.clone(),
    };
    making.boxes.iter().map(note).collect()
}

/// What goes where. What goes to one place is added up: the boxes of a making are all in the unit of its recipe.
pub(super) fn box_task(making: &Making) -> BoxTask {
    let mut into: Vec<Kept> = Vec::new();
    for boxed in &making.boxes {
        match into.iter_mut().find(|kept| kept.place == boxed.place) {
            Some(kept) => kept.amount = kept.amount.plus(&boxed.amount).unwrap_or_else(|| kept.amount.clone()),
            None => into.push(Kept { amount: boxed.amount.clone(), place: boxed.place }),
        }
    }
    BoxTask { recipe: making.recipe, into, by: None }
}

pub(super) fn errand(moved: &Move) -> Errand {
    Errand::Move { recipe: moved.recipe, amount: moved.amount.clone() }
}

/// "3 portions", "600 g", "12 pieces".
pub(super) fn counted(amount: &Quantity, units: Units) -> String {
    match amount {
        Quantity::Count(n) => format!("{} {}", show(amount, units), if *n > 1 { "pieces" } else { "piece" }),
        _ => show(amount, units),
    }
}

/// `None` where the recipe does not say what a portion weighs.
pub(super) fn portions(recipe: &Recipe, amount: &Quantity) -> Option<Number> {
    match amount {
        Quantity::Portions(n) => Some(n.clone()),
        Quantity::Mass(_) => recipe.portion.as_ref().and_then(|grams| amount.exact().checked_div(grams)),
        _ => None,
    }
}

/// The share of an amount that one of the recipe's boxes holds, over 1 where it holds more; `None` where the two cannot be compared.
pub(super) fn filled(recipe: &Recipe, amount: &Quantity) -> Option<f64> {
    let holds = &recipe.boxed.as_ref()?.holds;
    let (have, holds) = if amount.dimension() == holds.dimension() {
        (amount.base(), holds.base())
    } else {
        (portions(recipe, amount)?.to_f64(), portions(recipe, holds)?.to_f64())
    };
    (have > 0.0 && holds > 0.0).then(|| holds / have)
}

/// Where the recipe has a box and its size can be compared.
fn containers(recipe: &Recipe, amount: &Quantity) -> Option<Boxes> {
    let kind = recipe.boxed.as_ref()?.name.clone();
    Some(Boxes { count: whole_up(1.0, filled(recipe, amount)?) as usize, kind })
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Allergen, Fact, FoodId, Place};
    use crate::kitchen::{BoxKind, RecipeId};
    use crate::prep::testing::*;

    fn boxed(amount: Quantity, place: Place) -> Boxed {
        Boxed { amount, place, use_by: date(2026, 12, 2), what_for: vec!["Mon supper".into()] }
    }

    fn said(note: &BoxNote) -> Option<String> {
        note.boxes.as_ref().map(ToString::to_string)
    }

    fn mash(makes: Quantity) -> Recipe {
        Recipe {
            makes,
            portion: Some(200.into()),
            boxed: Some(BoxKind { name: "flat tub".into(), holds: Quantity::portions(4.0), holds_at: Default::default() }),
            ..recipe("mash", "White-bean mash", 6.0, vec![])
        }
    }

    #[test]
    fn five_portions_need_two_tubs_of_four() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::portions(6.0))];
        let making = Making { boxes: vec![boxed(Quantity::portions(5.0), Place::Fridge)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((&note.amount, said(note).as_deref()), (&Quantity::portions(5.0), Some("2 flat tubs")));
    }

    #[test]
    fn grams_are_boxed_in_portions_where_a_portion_s_weight_is_known() {
        // 800 g at 200 g a portion are 4: one tub.
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::grams(1000.0))];
        let making = Making { boxes: vec![boxed(Quantity::grams(800.0), Place::Fridge)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((&note.amount, said(note).as_deref()), (&Quantity::portions(4.0), Some("1 flat tub")));
    }

    #[test]
    fn pieces_without_portions_are_boxed_in_pieces() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::pieces(12.0))];
        let making = Making { boxes: vec![boxed(Quantity::pieces(8.0), Place::Cupboard)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((&note.amount, said(note)), (&Quantity::pieces(8.0), None));
        assert_eq!(box_task(&making).text(kitchen.names(), kitchen.print.units), "Box white-bean mash: 8 pieces to the cupboard");
    }

    #[test]
    fn a_box_says_what_it_contains_and_what_is_not_known() {
        let mut kitchen = kitchen();
        let (milk, stock) = (food(&mut kitchen, "milk", "dairy"), food(&mut kitchen, "vegetable stock", "sauce"));
        kitchen.foods.all[milk.0 as usize].allergens = Some(Fact { value: vec![Allergen::Milk], source: "from memory".into() });
        let lines = |ids: &[FoodId]| ids.iter().map(|id| ingredient("a food", *id, None, None)).collect();
        let words = |kitchen: &mut Kitchen, ids: &[FoodId]| {
            kitchen.recipes = vec![Recipe { ingredients: lines(ids), ..mash(Quantity::portions(6.0)) }];
            let made = making(kitchen, 0, 1.0);
            boxes(kitchen, &Making { boxes: vec![boxed(Quantity::portions(3.0), Place::Fridge)], ..made })[0].contains.words()
        };
        assert_eq!(words(&mut kitchen, &[milk, stock]).as_deref(), Some("milk; not known: vegetable stock"));
        assert_eq!(words(&mut kitchen, &[milk]).as_deref(), Some("milk"));
        assert_eq!(words(&mut kitchen, &[stock]).as_deref(), Some("not known: vegetable stock"));
        assert_eq!(words(&mut kitchen, &[]), None);
    }

    #[test]
    fn a_box_task_says_what_goes_where() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::portions(6.0))];
        let list = vec![boxed(Quantity::portions(3.0), Place::Fridge), boxed(Quantity::portions(2.0), Place::Freezer)];
        let making = Making { boxes: list, ..making(&kitchen, 0, 1.0) };
        assert_eq!(
            box_task(&making).text(kitchen.names(), kitchen.print.units),
            "Box and chill white-bean mash: 3 portions to the fridge and 2 portions to the freezer"
        );
    }

    #[test]
    fn a_move_says_how_much_of_what() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![recipe("barley", "Pearl barley", 6.0, vec![])];
        let moved = Move { on: date(2026, 12, 2), recipe: RecipeId(0), amount: Quantity::portions(3.0), what_for: vec![] };
        assert_eq!(
            errand(&moved).text(kitchen.names(), kitchen.print.units),
            "Move 3 portions of pearl barley from the freezer to the fridge"
        );
    }
}
