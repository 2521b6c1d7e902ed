//! Where a portion without something is taken out of a dish: before the first step that names what it is to lack.
//!
//! Only what is done by then can be taken out: a portion that the rest's later heat would still have to cook is refused, never boxed raw.

use std::collections::BTreeSet;

use super::guarded::Guarded;
use super::making::{Apart, Making};
use super::servings::{goes_into, lines_within, servings};
use crate::foods::Kind;
use crate::foods::safety::least_inside;
use crate::kitchen::{Ingredient, Kitchen, Meal, Mistake, Piece, Recipe, RecipeId, Step, Swap, Ware, Warning, Week, Who, heats_in_words};
use crate::words::in_a_sentence;

/// Why no portion can be taken out of a dish before this goes in. Steps count from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotOut {
    WithTheFirstStep(Ware),
    AheadOfTheSession(Ware),
    NamedByNoStep(Ware),
    /// It goes in with the step `into`, and the portion would miss the heat of the step `heat`; `raw` where no step before heats it.
    NotDone {
        ware: Ware,
        into: usize,
        heat: usize,
        raw: bool,
    },
}

/// The first step (counted from 0) of the recipe that brings in any of these, itself or inside a component. What goes on only at the table
/// is in no step: it is left off the plate.
///
/// `None` where the recipe has no steps, or uses none of them.
///
/// # Errors
/// What cannot be kept out, and why.
pub fn taken_out_before(kitchen: &Kitchen, recipe: &Recipe, without: &[Ware]) -> Result<Option<usize>, NotOut> {
    if recipe.steps.is_empty() {
        return Ok(None);
    }
    let mut earliest: Option<(usize, Ware)> = None;
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| lacks(&kitchen.recipes, line.ware(), without)) {
        if recipe.served.contains(&index) {
            continue;
        }
        let ware = line.ware();
        let step = first_named(recipe, index).ok_or(NotOut::NamedByNoStep(ware))?;
        if recipe.steps[step].ahead.is_some() {
            return Err(NotOut::AheadOfTheSession(ware));
        }
        if step == 0 {
            return Err(NotOut::WithTheFirstStep(ware));
        }
        earliest = earliest.filter(|(known, _)| *known <= step).or(Some((step, ware)));
    }
    let Some((into, ware)) = earliest else { return Ok(None) };
    match heat_missed(kitchen, recipe, without, into) {
        Some((heat, raw)) => Err(NotOut::NotDone { ware, into, heat, raw }),
        None => Ok(Some(into)),
    }
}

/// The step (counted from 0) before which one of a making's portions is taken out of the rest; `None` where nothing of it need be: what
/// nobody gets is in no rest.
pub fn set_aside_before(kitchen: &Kitchen, making: &Making, apart: &Apart) -> Option<usize> {
    let in_the_rest: Vec<Ware> = apart.without.iter().filter(|ware| !making.is_without(**ware)).copied().collect();
    taken_out_before(kitchen, &kitchen.recipes[making.recipe], &in_the_rest).ok().flatten()
}

/// What goes into the rest after the portion was taken out, and is not what it is to lack: it is due its part of that. True where that part
/// is itself set aside for it, of a component.
pub fn goes_in_later(kitchen: &Kitchen, recipe: &Recipe, without: &[Ware], before: usize) -> Vec<(Ware, bool)> {
    let later = |index: &usize| first_named(recipe, *index).is_some_and(|step| step >= before) && !recipe.served.contains(index);
    let wares = (0..recipe.ingredients.len()).filter(later).map(|index| recipe.ingredients[index].ware());
    wares.filter(|ware| !without.contains(ware)).map(|ware| (ware, lacks(&kitchen.recipes, ware, without))).collect()
}

/// Does a portion taken out before that step go into the cold by itself? What comes after it has heat of its own, or takes so long that
/// the portion would stand out meanwhile.
pub fn is_chilled_alone(kitchen: &Kitchen, recipe: &Recipe, before: usize) -> bool {
    let rest = recipe.steps.get(before..).unwrap_or_default();
    let minutes: i64 = rest.iter().map(|step| step.hands.0 + step.waits(&kitchen.appliances) + step.gap.map_or(0, |gap| gap.0)).sum();
    minutes > STANDS || rest.iter().any(|step| is_heated(kitchen, step))
}

/// Minutes that a portion stands covered beside the rest before it is chilled alone: half of the two hours. Our own choice.
const STANDS: i64 = 60;

fn first_named(recipe: &Recipe, line: usize) -> Option<usize> {
    let names = |piece: &Piece| matches!(piece, Piece::Ingredient { index, .. } if *index == line);
    recipe.steps.iter().position(|step| step.text.iter().any(names))
}

/// The first step with heat that a portion taken out before step `into` would miss and still needs, and whether nothing has heated it yet.
///
/// It needs none where an earlier step brought all that is in it to the temperature at which it is done, and the later heat takes in
/// nothing else. What has to soak up water to be done has no such temperature.
fn heat_missed(kitchen: &Kitchen, recipe: &Recipe, without: &[Ware], into: usize) -> Option<(usize, bool)> {
    let hot = |step: &usize| is_heated(kitchen, &recipe.steps[*step]);
    let heat = (into..recipe.steps.len()).find(hot)?;
    let last_heat = (into..recipe.steps.len()).rfind(hot)?;
    let done_in = (0..into).rev().find(|step| recipe.steps[*step].inside.is_some());
    let is_done = |(index, line): (usize, &Ingredient)| {
        // What no step names is in all of them.
        let named = first_named(recipe, index).unwrap_or_default();
        let by_then = || done_in.is_some_and(|done_in| named <= done_in);
        let done = || kinds(kitchen, line).all(|kind| is_done_at(kind, done_in.map(|step| &recipe.steps[step])));
        named > last_heat || by_then() && done()
    };
    let in_it = recipe.ingredients.iter().enumerate();
    let mut in_it = in_it.filter(|(index, line)| !recipe.served.contains(index) && !without.contains(&line.ware()));
    let raw = !(0..into).any(|step| is_heated(kitchen, &recipe.steps[step]));
    (!in_it.all(is_done)).then_some((heat, raw))
}

fn is_done_at(kind: Kind, step: Option<&Step>) -> bool {
    let inside = step.and_then(|step| step.inside);
    match least_inside(kind) {
        Some(least) => inside.is_some_and(|inside| inside.0 >= least.0),
        None => !matches!(kind, Kind::Grain | Kind::Pulse),
    }
}

/// The kinds of what a line asks for, of a component those of all that is in it.
fn kinds<'k>(kitchen: &'k Kitchen, line: &'k Ingredient) -> impl Iterator<Item = Kind> + 'k {
    let within = match line.ware() {
        Ware::Recipe(part) => Some(lines_within(&kitchen.recipes, part)),
        Ware::Food(_) => None,
    };
    let foods = std::iter::once(line).chain(within.into_iter().flatten());
    foods.filter_map(|line| if let Ware::Food(food) = line.ware() { kitchen.foods[food].kind } else { None })
}

/// On anything that heats, at a temperature, or so by its words: the household may not have named its hob.
fn is_heated(kitchen: &Kitchen, step: &Step) -> bool {
    step.is_on_heat(&kitchen.appliances) || step.temperature.is_some() || step.inside.is_some() || heats_in_words(&step.text)
}

/// Is it one of these, or a dish that one of these goes into?
fn lacks(recipes: &[Recipe], ware: Ware, without: &[Ware]) -> bool {
    without.contains(&ware) || without.iter().any(|one| matches!(ware, Ware::Recipe(dish) if goes_into(recipes, dish, *one)))
}

/// Adds a mistake for every dish out of which an eater's portion can no longer be taken.
pub(super) fn guard_portions(kitchen: &Kitchen, week: &Week, guarded: &mut Guarded) {
    for meal in &week.meals {
        for serving in servings(meal) {
            let Ware::Recipe(dish) = serving.line.ware() else { continue };
            for (place, _) in &serving.to {
                let without = &meal.diners[*place].without;
                if let Some((dish, why)) = too_late(kitchen, dish, without, &mut BTreeSet::new()) {
                    let name = &meal.diners[*place].name;
                    guarded.mistakes.push(Mistake { at: serving.line.at.clone(), ..cannot(kitchen, meal, name, dish, why) });
                }
            }
        }
    }
}

/// The first dish, from the outermost inwards, that a portion can no longer be taken out of.
///
/// `seen` are dishes that were asked before.
fn too_late(kitchen: &Kitchen, dish: RecipeId, without: &[Ware], seen: &mut BTreeSet<RecipeId>) -> Option<(RecipeId, NotOut)> {
    if !seen.insert(dish) {
        return None;
    }
    let recipe = &kitchen.recipes[dish];
    if let Err(why) = taken_out_before(kitchen, recipe, without) {
        return Some((dish, why));
    }
    recipe.ingredients.iter().find_map(|line| match line.ware() {
        part if without.contains(&part) => None,
        Ware::Recipe(part) => too_late(kitchen, part, without, seen),
        Ware::Food(_) => None,
    })
}

/// Told of every standing exchange that a dish is too late for: inside a dish nothing takes the place of what is left out.
pub(super) fn exchanges_inside_dishes(kitchen: &Kitchen, week: &Week) -> Vec<Warning> {
    let mut told = Vec::new();
    let names = kitchen.names();
    for meal in &week.meals {
        for serving in servings(meal) {
            let Ware::Recipe(dish) = serving.line.ware() else { continue };
            for diner in serving.to.iter().map(|(place, _)| &meal.diners[*place]) {
                let Who::Eater(eater) = diner.who else { continue };
                let inside = |swap: &&Swap| diner.without.contains(&swap.from) && goes_into(&kitchen.recipes, dish, swap.from);
                for (swap, to) in kitchen.household.named[eater].swap.iter().filter(inside).filter_map(|swap| Some((swap, swap.to?))) {
                    let (name, from, to) = (&diner.name, names.ware(swap.from), names.ware(to));
                    let text = format!(
                        "{}, {name}: {} > {from}: left out for {name}, and {to} does not take its place, for a swap reaches into no dish. \
                         Give {name} something else with instead in the meal, or add the {to} there.",
                        meal.label, kitchen.recipes[dish].name
                    );
                    told.push(Warning::Note { at: Some(serving.line.at.clone()), text });
                }
            }
        }
    }
    told
}

fn cannot(kitchen: &Kitchen, meal: &Meal, name: &str, dish: RecipeId, why: NotOut) -> Mistake {
    let (recipe, names) = (&kitchen.recipes[dish], kitchen.names());
    let (NotOut::WithTheFirstStep(ware) | NotOut::AheadOfTheSession(ware) | NotOut::NamedByNoStep(ware) | NotOut::NotDone { ware, .. }) =
        why;
    let what = in_a_sentence(names.ware(ware));
    let none = "no portion can be taken out before it, for";
    let (cause, mend) = match why {
        NotOut::WithTheFirstStep(_) => (format!("{none} it goes in with the first step"), "a later step"),
        NotOut::AheadOfTheSession(_) => (format!("{none} it goes in ahead of the session"), "a later step"),
        NotOut::NamedByNoStep(_) => (format!("{none} no step names it"), "the step that adds it"),
        NotOut::NotDone { into, heat, raw, .. } => {
            let left = if raw { "would stay raw" } else { "would miss the rest of its heat" };
            let when = match heat == into {
                true => format!("step {} cooks it together with the {what}", heat + 1),
                false => format!("step {} cooks it, and the {what} goes in before that, with step {}", heat + 1, into + 1),
            };
            (format!("{name}'s portion {left}: {when}"), "a step after the last heat")
        }
    };
    Mistake {
        at: meal.at.clone(),
        cause: format!("{}, {name}: {} > {what}: {cause}", meal.label, recipe.name),
        remedy: format!("Give {name} something else, with instead in the meal, or name {what} in {mend} of {}.", recipe.at.file),
    }
}
