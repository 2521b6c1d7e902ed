//! What is taken out for one eater: when, and into which box where the rest is cooked on.

use super::boxes::box_task_of;
use super::{AsideTask, BoxTask, Kept, Put};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Whose};
use crate::measure::Quantity;
use crate::plan::{self, Boxed, Making, User, goes_in_later, is_chilled_alone, taken_out_before};
use crate::shelf::after_days;

pub(super) fn aside_task(kitchen: &Kitchen, making: &Making, of: usize) -> AsideTask {
    let (apart, recipe) = (&making.apart[of], &kitchen.recipes[making.recipe]);
    let amount = Quantity::of(&recipe.makes.dimension(), apart.amount.clone());
    let before = taken_out_before(kitchen, recipe, &apart.without).ok().flatten();
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

/// Does what is set aside go into the cold by itself, before the rest is done?
pub(super) fn chilled_alone(kitchen: &Kitchen, making: &Making, of: usize) -> bool {
    let recipe = &kitchen.recipes[making.recipe];
    let before = taken_out_before(kitchen, recipe, &making.apart[of].without);
    matches!(before, Ok(Some(before)) if is_chilled_alone(kitchen, recipe, before))
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
