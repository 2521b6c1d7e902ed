//! What a step says: its text with the amounts of the making. How one line of it is said is another file's: `line_words`.

use super::cuts::first_handled;
use super::line_words::{plain_name, said_of_a_line};
use super::names::{first_step, handled, kept_for_the_table, named_in, unnamed};
use super::pieces::with_the_pieces;
use super::seasoning::{says, seasoned, seasons};
use super::{Note, There};
use crate::foods::{Foods, Item, State, as_purchased};
use crate::kitchen::{Ingredient, Kitchen, Piece, Recipe, RecipeId, Rules, Step, Wanted};
use crate::measure::{Amount, Dimension, Number, Quantity};
use crate::plan::{Making, counts_whole, times_taken};
use crate::words::{ended, listed};

/// The text of one step (counted from 0) for that many batches: `{food}` prints the scaled amount and the food, a share that share.
/// Ingredients that no step names lead the recipe's first step: "With 2 sprigs rosemary: …"; those that are only named at the table end the last one.
/// What is only taken whole, an egg or a tin, is whole.
pub fn step_text(kitchen: &Kitchen, recipe: RecipeId, step: usize, batches: &Number) -> String {
    let taken = taken_for(kitchen, &kitchen.recipes[recipe], batches);
    text_with(kitchen, recipe, step, &Taken { lines: &taken, share: &Number::ONE, batches })
}

/// As [`step_text`], for a making: what single eaters get without something lessens the amount of that alone.
/// `share` is of a round that takes a part of it.
pub fn making_text(kitchen: &Kitchen, making: &Making, step: usize, share: &Number) -> String {
    let recipe = &kitchen.recipes[making.recipe];
    let mut taken = making.taken(&kitchen.foods, recipe);
    for (line, times) in recipe.ingredients.iter().zip(&mut taken) {
        // What of a component is set aside for single eaters goes to theirs alone, not into the rest.
        if let Wanted::Recipe { recipe: part, .. } = line.wanted {
            *times -= making.times_set_aside(&kitchen.recipes, part).iter().map(|(_, times)| times).sum::<Number>();
        }
    }
    text_with(kitchen, making.recipe, step, &Taken { lines: &taken, share, batches: making.batches.number() })
}

/// How many times each line goes in, for that many batches.
pub(super) fn taken_for(kitchen: &Kitchen, recipe: &Recipe, batches: &Number) -> Vec<Number> {
    times_taken(&kitchen.foods, recipe.ingredients.iter().map(|one| (one, batches.clone())))
}

/// As a recipe is asked for by itself: one batch as its lines are written, any other size with whole pieces.
pub fn times_for(kitchen: &Kitchen, id: RecipeId, batches: &Number) -> Vec<Number> {
    let recipe = &kitchen.recipes[id];
    if *batches == Number::ONE { vec![Number::ONE; recipe.ingredients.len()] } else { taken_for(kitchen, recipe, batches) }
}

/// How many times each of a recipe's lines goes in, the share of a round that takes a part of it, and the batches that are made.
struct Taken<'t> {
    lines: &'t [Number],
    share: &'t Number,
    batches: &'t Number,
}

impl Taken<'_> {
    fn times(&self, index: usize) -> f64 {
        (&self.lines[index] * self.share).to_f64()
    }

    /// How many times a share of a line, `{eggs: 2}`, goes in at its place. The shares of what is only taken whole are whole, too, one
    /// after another; where one of them would come to nothing they are parted as they are written.
    fn share_times(&self, foods: &Foods, recipe: &Recipe, index: usize, at: (usize, usize)) -> f64 {
        let whole = || {
            let Wanted::Food { food, item: Some(item) } = &recipe.ingredients[index].wanted else { return None };
            if !counts_whole(&foods[*food], item) {
                return None;
            }
            let (mut written, mut told, mut here) = (Number::ZERO, Number::ZERO, None);
            for (place, share) in shares_of(recipe, index).filter(|(_, share)| share.unit == item.amount.unit) {
                written += &share.high * &self.lines[index];
                let part = written.round() - &told;
                if part <= 0 {
                    return None;
                }
                told += &part;
                if place == at {
                    here = Some((part / &share.high * self.share).to_f64());
                }
            }
            here
        };
        whole().unwrap_or_else(|| self.times(index))
    }
}

/// The shares of a line that the steps name, each with its step and its place there.
fn shares_of(recipe: &Recipe, line: usize) -> impl Iterator<Item = ((usize, usize), &Amount)> {
    let pieces = recipe.steps.iter().enumerate().flat_map(|(number, step)| step.text.iter().enumerate().map(move |piece| (number, piece)));
    pieces.filter_map(move |(step, (place, piece))| match piece {
        Piece::Ingredient { index, share: Some(share) } if *index == line => Some(((step, place), share)),
        _ => None,
    })
}

/// What lies on the board for one round of a step before that step adds anything, so that the cook can part it: what the steps before have
/// handled and this one does not name again. `None` where a weight is not known, and where several things have been soaked or cooked.
pub(super) fn there_before(kitchen: &Kitchen, making: &Making, step: usize, share: &Number) -> Option<There> {
    let recipe = &kitchen.recipes[making.recipe];
    let taken = making.taken(&kitchen.foods, recipe);
    let heats = |step: &Step| step.on.iter().any(|id| kitchen.appliances[*id].heats());
    let is_changed = recipe.steps[..step].iter().any(|earlier| earlier.ahead.is_some() || heats(earlier));
    let again: Vec<usize> = named_in(&recipe.steps[step]).collect();
    let is_weighed = |one: &Ingredient| !matches!(one.wanted, Wanted::Food { item: None, .. });
    let all = (0..step).flat_map(|step| first_handled(recipe, step)).filter(|(index, one, _)| is_weighed(one) && !again.contains(index));
    let there: Vec<(usize, &Ingredient, Option<&Amount>)> = all.collect();
    let (_, first, _) = there.first()?;
    let alone = there.iter().all(|(_, one, _)| one.ware() == first.ware());
    if is_changed && !alone {
        return None;
    }
    let grams = there
        .iter()
        .map(|(index, one, part)| Some(left_to_cook(&kitchen.foods, &kitchen.rules, one, *part)? * taken[*index].to_f64()))
        .sum::<Option<f64>>()?;
    let what = alone.then(|| plain_name(&kitchen.foods, &kitchen.recipes, first));
    (grams > 0.0).then(|| There { weight: Quantity::grams(grams * share.to_f64()), what, is_changed })
}

/// Grams of one line that go into the pot; none of what is to taste.
fn left_to_cook(foods: &Foods, rules: &Rules, one: &Ingredient, part: Option<&Amount>) -> Option<f64> {
    match &one.wanted {
        Wanted::Recipe { amount, .. } => (amount.dimension() == Dimension::Mass).then(|| amount.base()),
        Wanted::Food { item: None, .. } => Some(0.0),
        Wanted::Food { food, item: Some(item) } => {
            let food = &foods[*food];
            let item = Item { amount: part.unwrap_or(&item.amount).clone(), ..item.clone() };
            let value = |fact: &Option<crate::foods::Fact<f64>>| fact.as_ref().map_or(1.0, |fact| fact.value);
            let share = match &item.state {
                State::AsPurchased | State::Prepared(_) => food.eaten_share(&item),
                State::Cooked => value(&food.cooked),
                State::Drained => value(&food.drained),
            };
            let bought = as_purchased(food, &item, &Dimension::Mass, rules.spoons).ok()?;
            Some(bought.base() * share)
        }
    }
}

fn text_with(kitchen: &Kitchen, recipe: RecipeId, step: usize, taken: &Taken) -> String {
    let recipe = &kitchen.recipes[recipe];
    let Some(asked) = recipe.steps.get(step) else { return String::new() };
    let (mut said, mut typed) = (String::new(), String::new());
    let line = |index: usize, before: &str| {
        let said = |one| match taken.times(index) {
            // Everybody gets their portion without it.
            0.0 => format!("no {}", plain_name(&kitchen.foods, &kitchen.recipes, one)),
            times => said_of_a_line(kitchen, one, None, times, before),
        };
        recipe.ingredients.get(index).map_or_else(String::new, said)
    };
    for (place, piece) in asked.text.iter().enumerate() {
        said.push_str(&match piece {
            Piece::Words(words) => with_the_pieces(recipe, taken.batches, words),
            Piece::Ingredient { index, share: Some(share) } if *index < recipe.ingredients.len() => {
                let times = taken.share_times(&kitchen.foods, recipe, *index, (step, place));
                said_of_a_line(kitchen, &recipe.ingredients[*index], Some(share), times, &typed)
            }
            Piece::Ingredient { index, .. } => line(*index, &typed),
        });
        if let Piece::Words(words) = piece {
            typed.push_str(words);
        }
    }
    let kept: Vec<String> = kept_for_the_table(recipe, step).iter().map(|index| line(*index, "")).filter(|said| !said.is_empty()).collect();
    if !kept.is_empty() {
        said = format!("{} Keep {} for the table.", ended(said.trim()), listed(&kept));
    }
    let rest = unnamed(recipe);
    if first_step(recipe) != Some(step) || rest.is_empty() {
        return said.trim().to_owned();
    }
    let (seasonings, rest): (Vec<usize>, Vec<usize>) =
        rest.into_iter().partition(|index| seasons(&kitchen.foods, &recipe.ingredients[*index]).is_some());
    let seasonings = seasonings.into_iter().filter_map(|index| seasons(&kitchen.foods, &recipe.ingredients[index]));
    let seasonings = seasonings.filter(|verb| !says(recipe, verb));
    let seasonings: Vec<&str> = seasonings.collect();
    let said = seasoned(&seasonings, said.trim());
    if rest.is_empty() {
        return said;
    }
    let rest: Vec<String> = rest.into_iter().map(|index| line(index, "")).collect();
    format!("With {}: {said}", listed(&rest))
}

/// The word that a step's text begins with; empty where it begins with a food.
pub(super) fn first_word(recipe: &Recipe, step: usize) -> String {
    let Some(Piece::Words(words)) = recipe.steps[step].text.first() else { return String::new() };
    let word = words.split_whitespace().next().unwrap_or_default();
    word.trim_end_matches(|c: char| !c.is_alphanumeric()).to_owned()
}

/// What a line says after its comma that is no cut: "drained", "at room temperature". One note an ingredient.
pub(super) fn preparations(foods: &Foods, recipes: &[Recipe], recipe: &Recipe, step: usize) -> Vec<Note> {
    let said = |index: usize| {
        let one = recipe.ingredients.get(index)?;
        let how = one.prep.clone().filter(|prep| !super::board::is_cut(prep))?;
        Some(Note::Prepared { what: plain_name(foods, recipes, one), how })
    };
    handled(recipe, step).into_iter().filter_map(said).collect()
}

#[cfg(test)]
mod tests;
