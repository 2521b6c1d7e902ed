//! What is peeled and cut before the cooking starts: each food with its cuts, amounts and the steps that use it.

use super::Cut;
use super::board::is_cut;
use super::line_words::{handy, plural_in_line};
use super::names::{handled, named_in};
use super::ready::REST;
use super::tasks::{Part, Work};
use super::{PersonId, SessionPlan, Task};
use crate::foods::{Food, FoodId, Foods, Item, State, as_purchased};
use crate::kitchen::{Ingredient, Kitchen, Piece, Recipe, Rules, Wanted};
use crate::measure::{Amount, Dimension, Quantity, Spoons, Unit, Units, show};
use crate::plan::Makings;
use crate::words::plural;

/// Each food's cuts together, the foods in the order in which they are first needed. `tasks` are by the clock; a step's number is its
/// place among those that are steps, from 1.
pub(super) fn cuts(kitchen: &Kitchen, makings: &Makings, work: &Work, tasks: &[(Task, Option<usize>)]) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    let steps =
        tasks.iter().filter_map(|(_, job)| job.map(|job| work.origins[job])).filter(|origin| matches!(origin.part, Part::Step { .. }));
    for (place, origin) in steps.enumerate() {
        let Part::Step { step, round: 0, .. } = origin.part else { continue };
        let making = &makings.makings[origin.making];
        let recipe = &kitchen.recipes[making.recipe];
        let taken = making.taken(&kitchen.foods, recipe);
        for (index, one, share) in first_handled(recipe, step) {
            let Some((food, cut)) = asked(one) else { continue };
            let times = taken[index].to_f64();
            let amount = on_the_board(&kitchen.foods, &kitchen.rules, one, share, times);
            let counted = counted(&kitchen.foods, one, share, times);
            let is_one = matches!(&counted, Some(Quantity::Count(number)) if *number <= 1);
            // "1 onion", where half of "2 onions" is cooked.
            let name = if is_one { kitchen.foods[food].name.clone() } else { plural_in_line(&kitchen.foods[food], one) };
            add(&mut cuts, Cut { food, name, amount, counted, cut, step: place as u32 + 1 });
        }
    }
    let order: Vec<FoodId> = cuts.iter().map(|cut| cut.food).collect();
    cuts.sort_by_key(|cut| (order.iter().position(|food| *food == cut.food), cut.cut.clone(), cut.step));
    cuts
}

/// The ingredients that a step is the first to handle, with its share of each.
pub(super) fn first_handled(recipe: &Recipe, step: usize) -> Vec<(usize, &Ingredient, Option<&Amount>)> {
    let named: Vec<usize> = named_in(&recipe.steps[step]).collect();
    let shared = recipe.steps[step].text.iter().filter_map(|piece| match piece {
        Piece::Ingredient { index, share } => Some((*index, share.as_ref())),
        Piece::Words(_) => None,
    });
    let rest = handled(recipe, step).into_iter().filter(|index| !named.contains(index)).map(|index| (index, None));
    let first_named = |index: usize| recipe.steps[..step].iter().any(|earlier| named_in(earlier).any(|i| i == index));
    shared
        .chain(rest)
        // What an earlier step has named whole is cut already.
        .filter(|(index, share)| share.is_some() || !first_named(*index))
        .filter_map(|(index, share)| recipe.ingredients.get(index).map(|one| (index, one, share)))
        .collect()
}

/// The food and its cut, where the line asks for one.
fn asked(one: &Ingredient) -> Option<(FoodId, String)> {
    let Wanted::Food { food, item } = &one.wanted else { return None };
    let form = item.as_ref().and_then(|item| if let State::Prepared(form) = &item.state { Some(form.as_str()) } else { None });
    let asked: Vec<&str> = [form, one.prep.as_deref()].into_iter().flatten().filter(|word| is_cut(word)).collect();
    (!asked.is_empty()).then(|| (*food, asked.join(", ")))
}

/// The number of pieces, cloves or sprigs, where the line counts them.
fn counted(foods: &Foods, one: &Ingredient, share: Option<&Amount>, batches: f64) -> Option<Quantity> {
    let Wanted::Food { food, item: Some(item) } = &one.wanted else { return None };
    let amount = share.unwrap_or(&item.amount);
    let counts = matches!(amount.unit, Unit::Piece | Unit::Word(_)) && item.size.is_none() && item.plus.is_empty();
    counts.then(|| handy(one, &foods[*food], amount.scaled(batches)).most(Spoons::default()))
}

/// What one person cuts of one food in one stretch, for however many steps.
#[derive(Debug, Clone, PartialEq)]
pub struct CutTogether<'a> {
    pub person: Option<PersonId>,
    /// "500 g onions", all together.
    pub whole: Quantity,
    /// In the order of their steps.
    pub cuts: Vec<&'a Cut>,
}

/// Work of one person without a pause: the person, and how many pauses they had before.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Stretch {
    person: PersonId,
    pauses: usize,
}

impl SessionPlan {
    /// The cuts of each food that one person makes with no pause between, together; the foods in the order of their first steps.
    pub fn cuts_together(&self) -> Vec<CutTogether<'_>> {
        let mut together: Vec<(Option<Stretch>, Vec<&Cut>)> = Vec::new();
        let mut cuts: Vec<&Cut> = self.cuts.iter().collect();
        cuts.sort_by_key(|cut| cut.step);
        for cut in cuts {
            let stretch = self.stretch_of(cut.step);
            match together.iter_mut().find(|(at, known)| *at == stretch && known[0].food == cut.food) {
                Some((_, known)) => known.push(cut),
                None => together.push((stretch, vec![cut])),
            }
        }
        together
            .into_iter()
            .map(|(stretch, cuts)| CutTogether { person: stretch.map(|stretch| stretch.person), whole: all_of(&cuts), cuts })
            .collect()
    }

    /// Who does a step, by its number on the guide, and in which stretch of theirs.
    fn stretch_of(&self, step: u32) -> Option<Stretch> {
        let (task, _) = self.tasks.iter().enumerate().filter(|(_, task)| task.step().is_some()).nth(step.checked_sub(1)? as usize)?;
        let person = self.tasks[task].person?;
        let work = self.work_of(person);
        let at = work.iter().position(|(.., index)| *index == task)?;
        let pauses = work[..=at].windows(2).filter(|pair| pair[1].0 - pair[0].1 > REST).count();
        Some(Stretch { person, pauses })
    }
}

/// Their sum as they are counted, else by weight; the first where they do not add up.
fn all_of(cuts: &[&Cut]) -> Quantity {
    let sum = |amounts: Option<Vec<&Quantity>>| {
        let mut amounts = amounts?.into_iter();
        let first = amounts.next()?.clone();
        amounts.try_fold(first, |sum, more| sum.plus(more))
    };
    let counted = sum(cuts.iter().map(|cut| cut.counted.as_ref()).collect());
    counted.or_else(|| sum(Some(cuts.iter().map(|cut| &cut.amount).collect()))).unwrap_or_else(|| cuts[0].amount.clone())
}

impl CutTogether<'_> {
    /// "500 g onions: 200 g sliced for 4, 300 g diced for 9", "1 kg beetroot: cut in wedges for 2", "1 lemon: zest and juice for 1".
    pub fn words(&self, units: Units) -> String {
        let one_each = self.cuts.iter().all(|cut| cut.counted.is_some());
        let much = |cut: &Cut| show(cut.counted.as_ref().filter(|_| one_each).unwrap_or(&cut.amount), units);
        let alone = self.cuts.len() == 1;
        let part =
            |cut: &&Cut| format!("{}{} for\u{a0}{}", if alone { String::new() } else { format!("{} ", much(cut)) }, cut.cut, cut.step);
        let parts: Vec<String> = self.cuts.iter().map(part).collect();
        let many = matches!(&self.whole, Quantity::Count(number) if *number > 1);
        let name = &self.cuts[0].name;
        let name = if many { plural(name) } else { name.clone() };
        format!("{} {name}: {}", show(&self.whole, units), parts.join(", "))
    }
}

/// In grams where the facts allow: the weight in the state that the line names, which is what lies on the board.
fn on_the_board(foods: &Foods, rules: &Rules, one: &Ingredient, share: Option<&Amount>, batches: f64) -> Quantity {
    let Wanted::Food { food, item: Some(item) } = &one.wanted else { return Quantity::pieces(0) };
    let item = match share {
        Some(share) => Item { amount: share.clone(), plus: vec![], ..item.clone() },
        None => item.clone(),
    };
    let food = &foods[*food];
    let spoons = rules.spoons;
    let stated = item.amount.most(spoons);
    if stated.dimension() == Dimension::Mass && item.plus.is_empty() {
        return stated.scaled(batches);
    }
    match as_purchased(food, &item, &Dimension::Mass, spoons) {
        Ok(grams) => grams.scaled(batches * state_over_purchased(food, &item)),
        Err(_) => stated.scaled(batches),
    }
}

/// Weight in the state of the line / weight as purchased.
fn state_over_purchased(food: &Food, item: &Item) -> f64 {
    let fact = match item.state {
        State::AsPurchased => None,
        State::Prepared(_) => return food.eaten_share(item),
        State::Cooked => food.cooked.as_ref(),
        State::Drained => food.drained.as_ref(),
    };
    fact.map_or(1.0, |fact| fact.value)
}

fn add(cuts: &mut Vec<Cut>, next: Cut) {
    let same = |cut: &&mut Cut| cut.food == next.food && cut.cut == next.cut && cut.step == next.step;
    match cuts.iter_mut().find(same).and_then(|cut| cut.amount.plus(&next.amount).map(|sum| (cut, sum))) {
        Some((cut, sum)) => {
            cut.amount = sum;
            cut.counted = cut.counted.as_ref().zip(next.counted.as_ref()).and_then(|(one, more)| one.plus(more));
        }
        None => cuts.push(next),
    }
}

#[cfg(test)]
mod tests;
