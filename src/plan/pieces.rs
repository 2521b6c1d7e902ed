//! What is counted and never cut: eggs, tins, slices, rolls. A meal or a making takes whole ones.
//!
//! What is only taken whole is a counting word (tin, slice) of any food, and pieces, rashers, sheets, fillets, balls
//! and cubes of a food with `cut = false`; `cut = true` frees a food's tins and slices.
//!
//! What is bought, booked, fetched and told to the cook is rounded here and nowhere else.

use std::collections::BTreeMap;

use crate::foods::{Food, FoodId, Foods, Item};
use crate::kitchen::{Ingredient, Recipe, Wanted};
use crate::measure::{Number, Unit, Word, steps_up};

/// What adds up to whole pieces: one food by one unit.
pub(super) type Counted = (FoodId, Unit);

/// Does this line count what is only taken whole? A weight takes what it says.
pub fn counts_whole(food: &Food, item: &Item) -> bool {
    let cut = food.cut.as_ref().map(|fact| fact.value);
    match item.amount.unit {
        Unit::Word(Word::Tin | Word::Slice) => cut != Some(true),
        Unit::Piece | Unit::Word(Word::Rasher | Word::Sheet | Word::Fillet | Word::Ball | Word::Cube) => cut == Some(false),
        _ => false,
    }
}

/// Rounds up to whole ones what is counted and never cut, once for all lines of one making or one meal: the last line of a food takes the
/// rest.
pub(super) fn take_whole<'i>(foods: &Foods, lines: impl IntoIterator<Item = (FoodId, &'i mut Item)>) {
    let mut last: BTreeMap<Counted, (Number, &'i mut Item)> = BTreeMap::new();
    for (food, item) in lines.into_iter().filter(|(food, item)| counts_whole(&foods[*food], item)) {
        let key = (food, item.amount.unit);
        let before = last.get(&key).map_or(Number::ZERO, |(sum, _)| sum.clone());
        last.insert(key, (before + &item.amount.high, item));
    }
    for (sum, item) in last.into_values() {
        let rest = steps_up(&sum, &Number::ONE) - &sum;
        if rest > 0 {
            item.amount.low += &rest;
            item.amount.high += rest;
        }
    }
}

/// How many times each line of one making or one meal is taken, where it is asked for `times` as often: a little more of what is taken
/// whole.
pub fn times_taken<'l>(foods: &Foods, lines: impl IntoIterator<Item = (&'l Ingredient, Number)>) -> Vec<Number> {
    let (mut all, items): (Vec<Number>, Vec<_>) = lines.into_iter().map(|(line, times)| (times.clone(), asked(line, &times))).unzip();
    let asked: Vec<Option<Number>> = items.iter().map(|item| Some(item.as_ref()?.1.amount.high.clone())).collect();
    let mut items = items;
    take_whole(foods, items.iter_mut().flatten().map(|(food, item)| (*food, item)));
    for ((times, asked), taken) in all.iter_mut().zip(asked).zip(&items) {
        if let (Some(asked), Some((_, item))) = (asked.filter(Number::is_positive), taken) {
            *times = &*times * &item.amount.high / asked;
        }
    }
    all
}

/// The food and the amount of a line, so many times.
fn asked(line: &Ingredient, times: &Number) -> Option<(FoodId, Item)> {
    let Wanted::Food { food, item: Some(item) } = &line.wanted else { return None };
    Some((*food, item.scaled(times)))
}

/// Of one batch, how many of each it counts and does not cut.
fn in_a_batch(recipe: &Recipe, foods: &Foods) -> BTreeMap<Counted, Number> {
    let mut counted: BTreeMap<Counted, Number> = BTreeMap::new();
    for line in &recipe.ingredients {
        let Wanted::Food { food, item: Some(item) } = &line.wanted else { continue };
        if counts_whole(&foods[*food], item) {
            *counted.entry((*food, item.amount.unit)).or_insert(Number::ZERO) += &item.amount.high;
        }
    }
    counted
}

/// Would half a batch split something that a whole one takes whole?
pub(super) fn half_splits(recipe: &Recipe, foods: &Foods) -> bool {
    let is_whole = |number: &Number| *number == number.round();
    in_a_batch(recipe, foods).values().any(|count| is_whole(count) && !is_whole(&(count / 2)))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::State;
    use crate::kitchen::Spot;
    use crate::measure::Amount;

    #[test]
    fn the_last_line_of_what_is_never_cut_takes_the_rest() {
        // Five eighths of a batch: 1¼ eggs and another ⅝ of one are 1⅞; so 2, and the second line has ¾ of one: 1.2 times a line of ⅝.
        // Five eighths of a tin is a whole one, 1.6 times as much. An onion is cut.
        let mut foods = Foods::default();
        let food = |foods: &mut Foods, name: &str, cut: Option<bool>| {
            let cut = cut.map(|cut| crate::foods::Fact { value: cut, source: Default::default() });
            foods.all.push(Food { name: name.into(), cut, ..Food::default() });
            FoodId(foods.all.len() as u32 - 1)
        };
        let (egg, tomato, onion) =
            (food(&mut foods, "egg", Some(false)), food(&mut foods, "tomato", None), food(&mut foods, "onion", None));
        let line = |food, number, unit| {
            let item =
                Item { amount: Amount::new(number, unit), size: None, grade: None, state: State::AsPurchased, boned: false, plus: vec![] };
            Ingredient::of(String::new(), Wanted::Food { food, item: Some(item) }, Spot::default())
        };
        let tin = Unit::Word(Word::Tin);
        let lines = [line(egg, 2, Unit::Piece), line(tomato, 1, tin), line(onion, 2, Unit::Piece), line(egg, 1, Unit::Piece)];
        let part = Number::over(5, 8);
        let taken = times_taken(&foods, lines.iter().map(|line| (line, part.clone())));
        assert_eq!(taken, [part.clone(), Number::ONE, part, Number::over(3, 4)]);
    }
}
