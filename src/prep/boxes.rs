//! What goes into which box, where it is kept and until when.
//!
//! What goes into which box stands with the step that boxes it, not in a list of its own, unless boxing takes no time
//! and so has no step. A name longer than a few words gives way to the recipe's id in the heads of the steps.

use super::{AsideTask, BoxNote, BoxTask, Boxes, Errand, Kept, Put};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Recipe, RecipeId, Whose};
use crate::measure::{Number, Quantity, Units, show, whole_up};
use crate::plan::{self, Boxed, Making, Move, User, goes_in_later, is_chilled_alone, recipe_contains_without, set_aside_before};
use crate::shelf::after_days;

/// The boxes of one making.
pub(super) fn boxes(kitchen: &Kitchen, making: &Making) -> Vec<BoxNote> {
    let recipe = &kitchen.recipes[making.recipe];
    let note = |boxed: &Boxed| {
        let contains = recipe_contains_without(kitchen, making.recipe, &boxed.without);
        BoxNote {
            recipe: making.recipe,
            amount: portions(recipe, &boxed.amount).map_or_else(|| boxed.amount.clone(), Quantity::portions),
            place: boxed.place,
            use_by: boxed.use_by,
            what_for: boxed.what_for.clone(),
            eater: boxed.eater.clone(),
            without: boxed.without.clone(),
            boxes: containers(recipe, boxed),
            beware: contains.beware(&kitchen.household.avoid),
            contains,
        }
    };
    making.boxes.iter().map(note).collect()
}

/// What goes where, of some of a making's boxes. What goes to one place is added up: they are all in the unit of its recipe.
pub(super) fn box_task_of<'b>(recipe: RecipeId, boxes: impl Iterator<Item = &'b Boxed>) -> BoxTask {
    let mut into: Vec<Kept> = Vec::new();
    for boxed in boxes {
        match into.iter_mut().find(|kept| kept.place == boxed.place) {
            Some(kept) => kept.amount = kept.amount.plus(&boxed.amount).unwrap_or_else(|| kept.amount.clone()),
            None => into.push(Kept { amount: boxed.amount.clone(), place: boxed.place }),
        }
    }
    BoxTask { recipe, into, by: None, stood: None }
}

/// What is taken out for one eater, and into which box where the rest is cooked on.
pub(super) fn aside_task(kitchen: &Kitchen, making: &Making, of: usize) -> AsideTask {
    let (apart, recipe) = (&making.apart[of], &kitchen.recipes[making.recipe]);
    let amount = Quantity::of(&recipe.makes.dimension(), apart.amount.clone());
    let before = set_aside_before(kitchen, making, apart);
    let later = before.map(|before| goes_in_later(kitchen, recipe, &apart.without, before)).unwrap_or_default();
    let mut chilled =
        chilled_alone(kitchen, making, of).then(|| box_task_of(making.recipe, making.boxes.iter().filter(|one| one.is_of(apart))));
    let mut eaten_at_once = false;
    if let Some(boxing) = chilled.as_mut().filter(|boxing| boxing.into.is_empty()) {
        boxing.into.push(Kept { amount: amount.clone(), place: Place::Fridge });
        eaten_at_once = true;
    }
    AsideTask { recipe: making.recipe, eater: apart.who.clone(), amount, without: apart.without.clone(), later, chilled, eaten_at_once }
}

/// Minutes of hands for one of them.
pub(super) const ASIDE_MINUTES: i64 = 1;

/// Does what is set aside go into the cold by itself, before the rest is done?
pub(super) fn chilled_alone(kitchen: &Kitchen, making: &Making, of: usize) -> bool {
    let before = set_aside_before(kitchen, making, &making.apart[of]);
    before.is_some_and(|before| is_chilled_alone(kitchen, &kitchen.recipes[making.recipe], before))
}

/// The boxes of a making that no portion fills by itself before.
pub(super) fn boxed_with_the_rest<'m>(kitchen: &'m Kitchen, making: &'m Making) -> impl Iterator<Item = &'m Boxed> {
    let alone: Vec<usize> = (0..making.apart.len()).filter(|of| chilled_alone(kitchen, making, *of)).collect();
    making.boxes.iter().filter(move |boxed| !alone.iter().any(|of| boxed.is_of(&making.apart[*of])))
}

pub(super) fn rest_boxed(kitchen: &Kitchen, making: &Making) -> BoxTask {
    box_task_of(making.recipe, boxed_with_the_rest(kitchen, making))
}

/// What single eaters are served of a making straight from the pot, without something that goes into the rest.
pub(super) fn served_apart(kitchen: &Kitchen, making: &Making) -> Vec<Put> {
    let use_by = after_days(making.on, kitchen.recipes[making.recipe].fridge.unwrap_or_default());
    let straight = making.uses.iter().filter(|one| one.kept == plan::Kept::Straight && matches!(one.by, User::Meal(_)));
    let put = |(whose, amount): (Option<Whose>, Quantity)| {
        let Whose { eater, without } = whose?;
        Some(Put { recipe: making.recipe, eater: Some(eater), without, amount, place: Place::Fridge, use_by })
    };
    straight.flat_map(|one| one.by_whom()).filter_map(put).collect()
}

pub(super) fn errand(moved: &Move) -> Errand {
    Errand::Move { recipe: moved.recipe, whose: moved.whose.clone(), amount: moved.amount.clone(), late: moved.late }
}

/// "3 portions", "600 g", "12 pieces".
pub(super) fn counted(amount: &Quantity, units: Units) -> String {
    match amount {
        Quantity::Count(n) => {
            let shown = show(amount, units);
            let many = *n > 1 && shown != "1";
            format!("{shown} {}", if many { "pieces" } else { "piece" })
        }
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
fn containers(recipe: &Recipe, boxed: &Boxed) -> Option<Boxes> {
    let kind = recipe.boxed.as_ref()?.name.clone();
    let of = |one: &OneBox| filled(recipe, &one.amount).map(|share| whole_up(1.0, share) as usize);
    let count = in_boxes(recipe, boxed).iter().map(of).sum::<Option<usize>>()?;
    Some(Boxes { count, kind })
}

/// More boxes than this of one dish are told on one label: nobody fills so many by hand.
const MOST_BOXES: f64 = 24.0;

/// What goes into one box, or into several that nobody tells apart.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct OneBox {
    pub amount: Quantity,
    pub what_for: Vec<String>,
}

/// One box a meal where a meal's share fits one; what fits none is filled box by box, the fullest first. Without a box in the recipe, all
/// of it together.
pub(super) fn in_boxes(recipe: &Recipe, boxed: &Boxed) -> Vec<OneBox> {
    let dimension = boxed.amount.dimension();
    let of = |part: &Number| Quantity::of(&dimension, part.clone());
    let fits = |amount: &Quantity| filled(recipe, amount).is_some_and(|share| share >= 1.0 - 1e-9);
    let (own, rest): (Vec<usize>, Vec<usize>) = (0..boxed.parts.len()).partition(|part| fits(&of(&boxed.parts[*part])));
    if own.is_empty() {
        return filled_up(recipe, &boxed.amount, &boxed.what_for);
    }
    let mut boxes: Vec<OneBox> =
        own.iter().map(|part| OneBox { amount: of(&boxed.parts[*part]), what_for: vec![boxed.what_for[*part].clone()] }).collect();
    if !rest.is_empty() {
        let left: Number = rest.iter().map(|part| &boxed.parts[*part]).sum();
        let what_for: Vec<String> = rest.iter().map(|part| boxed.what_for[*part].clone()).collect();
        boxes.extend(filled_up(recipe, &of(&left), &what_for));
    }
    boxes
}

/// An amount in boxes of which each holds a share of it, the fullest first.
fn filled_up(recipe: &Recipe, amount: &Quantity, what_for: &[String]) -> Vec<OneBox> {
    let one = |amount: Quantity| OneBox { amount, what_for: what_for.to_vec() };
    let share = filled(recipe, amount);
    let count = share.map_or(1.0, |share| whole_up(1.0, share));
    let Some(share) = share.filter(|_| count > 1.0 && count <= MOST_BOXES) else { return vec![one(amount.clone())] };
    let full = count as usize - 1;
    let mut parts = vec![one(amount.scaled(share)); full];
    parts.push(one(amount.scaled(1.0 - share * full as f64)));
    parts
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
        let parts = vec![amount.exact().clone()];
        let what_for = vec!["Mon supper".into()];
        Boxed { amount, place, use_by: date(2026, 12, 2), what_for, parts, eater: None, without: vec![] }
    }

    #[test]
    fn what_is_kept_for_a_meal_is_one_box_where_it_fits_and_a_large_meal_fills_several() {
        // Tubs of four: 2½ for Monday and 2½ for Wednesday are two tubs, not 4 and 1; 6 for Friday are 4 and 2.
        let recipe = mash(Quantity::portions(11.0));
        let part = |n: f64| Quantity::portions(n).exact().clone();
        let kept = Boxed {
            what_for: ["Mon supper", "Wed lunch", "Fri supper"].map(String::from).to_vec(),
            parts: vec![part(2.5), part(2.5), part(6.0)],
            ..boxed(Quantity::portions(11.0), Place::Fridge)
        };
        let told: Vec<String> = in_boxes(&recipe, &kept)
            .iter()
            .map(|one| format!("{} {}", counted(&one.amount, Units::Metric), one.what_for.join(", ")))
            .collect();
        assert_eq!(told, ["2½ portions Mon supper", "2½ portions Wed lunch", "4 portions Fri supper", "2 portions Fri supper"]);
        assert_eq!(containers(&recipe, &kept).map(|boxes| boxes.count), Some(4));
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
        assert_eq!(
            box_task_of(making.recipe, making.boxes.iter()).text(kitchen.names(), kitchen.print.units),
            "Box white-bean mash: 8 pieces to the cupboard"
        );
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
            box_task_of(making.recipe, making.boxes.iter()).text(kitchen.names(), kitchen.print.units),
            "Box and chill white-bean mash: 3 portions to the fridge and 2 portions to the freezer"
        );
    }

    #[test]
    fn what_stays_in_the_cupboard_is_boxed_with_no_chill() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![mash(Quantity::portions(6.0))];
        let text = |boxes: Vec<Boxed>| {
            let making = Making { boxes, ..making(&kitchen, 0, 1.0) };
            box_task_of(making.recipe, making.boxes.iter()).text(kitchen.names(), kitchen.print.units)
        };
        let (three, two) = (boxed(Quantity::portions(3.0), Place::Cupboard), boxed(Quantity::portions(2.0), Place::Freezer));
        assert_eq!(text(vec![three.clone()]), "Box white-bean mash: 3 portions to the cupboard");
        assert_eq!(text(vec![two, three]), "Box white-bean mash: 3 portions to the cupboard; chill the rest: 2 portions to the freezer");
    }

    #[test]
    fn a_move_says_how_much_of_what() {
        let mut kitchen = kitchen();
        kitchen.recipes = vec![recipe("barley", "Pearl barley", 6.0, vec![])];
        let moved = Move {
            on: date(2026, 12, 2),
            recipe: RecipeId(0),
            whose: None,
            amount: Quantity::portions(3.0),
            what_for: vec![],
            late: false,
        };
        assert_eq!(
            errand(&moved).text(kitchen.names(), kitchen.print.units),
            "Move 3 portions of pearl barley from the freezer to the fridge"
        );
    }
}
