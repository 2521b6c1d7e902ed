//! What to take care of at a meal: of the dishes that are made there, and of the foods that are added there. The rows are those of a
//! session's guide; who only eats what was cooked before has read them there.

use itertools::Itertools;

use super::care::Care;
use super::cautions::cautions_of;
use super::{Before, Errand};
use crate::kitchen::{Ingredient, Kitchen, Wanted, Week};
use crate::plan::{MadeAt, Making, Makings, cross_contacts, guard, taken_lines};

/// Over what a page says of it.
pub const AT_THE_MEAL: &str = "Take care with what is made at the meal";

/// The cautions of these meals, each once; last of all, whose rules come first.
pub fn meal_cautions(kitchen: &Kitchen, week: &Week, makings: &Makings, meals: &[usize]) -> Vec<Care> {
    let here = |making: &&Making| meals.iter().any(|meal| making.at == MadeAt::Meal(*meal));
    let made: Vec<&Making> = makings.makings.iter().filter(here).collect();
    let lines = meals.iter().flat_map(|meal| taken_lines(&kitchen.foods, &week.meals[*meal]));
    let added: Vec<&Ingredient> = lines.map(|(line, _)| line).filter(|line| matches!(line.wanted, Wanted::Food { .. })).collect();
    let of_eaters = meals.iter().flat_map(|meal| for_eaters(kitchen, week, makings, *meal)).unique_by(|care| care.text(kitchen.names()));
    of_eaters.chain(cautions_of(kitchen, &made, &added)).collect()
}

/// The cautions of the meals for whose dishes something is done before.
pub(super) fn of_what_is_begun(kitchen: &Kitchen, week: &Week, makings: &Makings, before: &[Before]) -> Vec<Care> {
    let is_begun = |making: &Making| before.iter().any(|one| matches!(one.errand, Errand::Step { recipe, .. } if recipe == making.recipe));
    let here = |meal: &usize| makings.makings.iter().any(|making| making.at == MadeAt::Meal(*meal) && is_begun(making));
    meal_cautions(kitchen, week, makings, &(0..week.meals.len()).filter(here).collect::<Vec<_>>())
}

/// What the cook of one meal minds for single eaters: whose food could be touched by what, and what is not for a small child. What it may
/// choke on and what nobody knows stand with the meal already.
fn for_eaters(kitchen: &Kitchen, week: &Week, makings: &Makings, meal: usize) -> Vec<Care> {
    let alone = Week { meals: vec![week.meals[meal].clone()], ..week.clone() };
    let made: Vec<&Making> = makings.makings.iter().filter(|one| one.at == MadeAt::Meal(meal)).collect();
    let is_made = |dish| made.iter().any(|making| making.recipe == dish);
    let contacts = cross_contacts(kitchen, &alone, &made).into_iter().map(Care::CrossContact);
    let children = guard(kitchen, &alone).cautions.into_iter();
    let children = children.filter(|one| !one.choking && one.dish.is_none_or(is_made));
    contacts.chain(children.map(|one| Care::Child(one.text))).collect()
}
