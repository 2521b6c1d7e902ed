//! What goes into which box, where it is kept and until when.

use super::BoxNote;
use crate::foods::Place;
use crate::kitchen::{Kitchen, Recipe};
use crate::measure::{Quantity, Units, show, whole_up};
use crate::plan::{Boxed, Making, Move, recipe_contains};
use crate::words;
use crate::words::{in_a_sentence, listed, plural};

/// The boxes of one making.
pub(super) fn boxes(kitchen: &Kitchen, making: &Making) -> Vec<BoxNote> {
    let recipe = &kitchen.recipes[making.recipe];
    let contains = recipe_contains(kitchen, making.recipe);
    let (allergens, beware) = (contains.words(), contains.beware(&kitchen.household.avoid));
    let note = |boxed: &Boxed| BoxNote {
        recipe: recipe.id.clone(),
        portions: portions(recipe, &boxed.amount).unwrap_or_else(|| boxed.amount.base()),
        amount: portions(recipe, &boxed.amount).is_none().then(|| boxed.amount.clone()),
        place: boxed.place,
        use_by: boxed.use_by,
        what_for: boxed.what_for.clone(),
        boxes: containers(recipe, &boxed.amount),
        allergens: allergens.clone(),
        beware: beware.clone(),
    };
    making.boxes.iter().map(note).collect()
}

/// "Box and chill white-bean mash: 3 portions to the fridge and 2 portions to the freezer". What goes to one place is added up: the boxes
/// of a making are all in the unit of its recipe.
pub(super) fn box_text(kitchen: &Kitchen, making: &Making) -> String {
    let recipe = &kitchen.recipes[making.recipe];
    let mut places: Vec<(Place, Quantity)> = Vec::new();
    for boxed in &making.boxes {
        match places.iter_mut().find(|(place, _)| *place == boxed.place) {
            Some((_, amount)) => *amount = amount.plus(&boxed.amount).unwrap_or_else(|| amount.clone()),
            None => places.push((boxed.place, boxed.amount.clone())),
        }
    }
    let part = |(place, amount): &(Place, Quantity)| format!("{} to the {}", counted(amount, kitchen.print.units), words::place(*place));
    let verb = if making.boxes.iter().all(|boxed| boxed.place == Place::Cupboard) { "Box" } else { "Box and chill" };
    format!("{verb} {}: {}", in_a_sentence(&recipe.name), listed(&places.iter().map(part).collect::<Vec<_>>()))
}

/// "Move 3 portions of pearl barley from the freezer to the fridge".
pub fn move_text(kitchen: &Kitchen, moved: &Move) -> String {
    let name = in_a_sentence(&kitchen.recipes[moved.recipe].name);
    format!("Move {} of {name} from the freezer to the fridge", counted(&moved.amount, kitchen.print.units))
}

/// "3 portions", "600 g", "12 pieces".
pub(super) fn counted(amount: &Quantity, units: Units) -> String {
    match amount {
        Quantity::Count(n) => format!("{} {}", show(amount, units), if *n > 1.0 { "pieces" } else { "piece" }),
        _ => show(amount, units),
    }
}

/// `None` where the recipe does not say what a portion weighs.
pub(super) fn portions(recipe: &Recipe, amount: &Quantity) -> Option<f64> {
    match amount {
        Quantity::Portions(n) => Some(*n),
        Quantity::Mass(_) => recipe.portion.filter(|grams| *grams > 0.0).map(|grams| amount.base() / grams),
        _ => None,
    }
}

/// The share of an amount that one of the recipe's boxes holds, over 1 where it holds more; `None` where the two cannot be compared.
pub(super) fn filled(recipe: &Recipe, amount: &Quantity) -> Option<f64> {
    let holds = &recipe.boxed.as_ref()?.holds;
    let (have, holds) = if amount.dimension() == holds.dimension() {
        (amount.base(), holds.base())
    } else {
        (portions(recipe, amount)?, portions(recipe, holds)?)
    };
    (have > 0.0 && holds > 0.0).then(|| holds / have)
}

/// "2 flat tubs", where the recipe has a box and its size can be compared.
fn containers(recipe: &Recipe, amount: &Quantity) -> Option<String> {
    let kind = recipe.boxed.as_ref()?;
    let count = whole_up(1.0, filled(recipe, amount)?);
    Some(if count > 1.0 { format!("{count} {}", plural(&kind.name)) } else { format!("{count} {}", kind.name) })
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::{Allergen, Fact, FoodId};
    use crate::kitchen::{BoxKind, RecipeId};
    use crate::prep::testing::*;

    fn boxed(amount: Quantity, place: Place) -> Boxed {
        Boxed { amount, place, use_by: date(2026, 12, 2), what_for: vec!["Mon supper".into()] }
    }

    fn mash(makes: Quantity) -> Recipe {
        Recipe {
            makes,
            portion: Some(200.0),
            boxed: Some(BoxKind { name: "flat tub".into(), holds: Quantity::portions(4.0) }),
            ..recipe("mash", "White-bean mash", 6.0, vec![])
        }
    }

    #[test]
    fn five_portions_need_two_tubs_of_four() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::portions(6.0))];
        let making = Making { boxes: vec![boxed(Quantity::portions(5.0), Place::Fridge)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((note.portions, note.boxes.as_deref()), (5.0, Some("2 flat tubs")));
    }

    #[test]
    fn grams_are_boxed_in_portions_where_a_portion_s_weight_is_known() {
        // 800 g at 200 g a portion are 4: one tub.
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::grams(1000.0))];
        let making = Making { boxes: vec![boxed(Quantity::grams(800.0), Place::Fridge)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((note.portions, note.boxes.as_deref()), (4.0, Some("1 flat tub")));
    }

    #[test]
    fn pieces_without_portions_are_boxed_in_pieces() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::pieces(12.0))];
        let making = Making { boxes: vec![boxed(Quantity::pieces(8.0), Place::Cupboard)], ..making(&kitchen, 0, 1.0) };
        let note = &boxes(&kitchen, &making)[0];
        assert_eq!((note.portions, note.amount.clone(), note.boxes.clone()), (8.0, Some(Quantity::pieces(8.0)), None));
        assert_eq!(box_text(&kitchen, &making), "Box white-bean mash: 8 pieces to the cupboard");
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
            boxes(kitchen, &Making { boxes: vec![boxed(Quantity::portions(3.0), Place::Fridge)], ..made })[0].allergens.clone()
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
        assert_eq!(box_text(&kitchen, &making), "Box and chill white-bean mash: 3 portions to the fridge and 2 portions to the freezer");
    }

    #[test]
    fn a_move_says_how_much_of_what() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![recipe("barley", "Pearl barley", 6.0, vec![])];
        let moved = Move { on: date(2026, 12, 2), recipe: RecipeId(0), amount: Quantity::portions(3.0), what_for: vec![] };
        assert_eq!(move_text(&kitchen, &moved), "Move 3 portions of pearl barley from the freezer to the fridge");
    }
}
