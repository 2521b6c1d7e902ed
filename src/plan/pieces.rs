//! What is counted and never cut: eggs, tins, slices, rolls. A meal or a making takes whole ones.
//!
//! What is only taken whole is a counting word (tin, slice) of any food, and pieces, rashers, sheets, fillets, balls
//! and cubes of a food with `cut = false`; `cut = true` frees a food's tins and slices.

use std::collections::BTreeMap;

use crate::foods::{Food, FoodId, Foods, Item};
use crate::kitchen::{Recipe, Wanted};
use crate::measure::{Number, Unit, Word};

/// What adds up to whole pieces: one food by one unit.
pub(super) type Counted = (FoodId, Unit);

/// Does this line count what is only taken whole? A weight takes what it says.
pub(super) fn counts_whole(food: &Food, item: &Item) -> bool {
    let cut = food.cut.as_ref().map(|fact| fact.value);
    match item.amount.unit {
        Unit::Word(Word::Tin | Word::Slice) => cut != Some(true),
        Unit::Piece | Unit::Word(Word::Rasher | Word::Sheet | Word::Fillet | Word::Ball | Word::Cube) => cut == Some(false),
        _ => false,
    }
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
