//! Whether a food is what somebody shuns: for certain, perhaps, or not known.

use crate::foods::{Allergen, Fact, Food, FoodId};
use crate::kitchen::Shunned;

/// How a food meets a word.
pub(super) enum Meets {
    /// It is what the word names, or bears it: "sesame".
    Is(String),
    /// It bears the group that the word's food belongs to, without saying of what: "nuts".
    MayBe(String),
    NotKnown,
    Nothing,
}

/// Has it this allergen for certain?
pub(super) fn bears(food: &Food, allergen: Allergen) -> bool {
    let of = |fact: &Option<Fact<Vec<Allergen>>>| fact.as_ref().is_some_and(|fact| fact.value.contains(&allergen));
    of(&food.allergens) || of(&food.contains)
}

pub(super) fn meets(shunned: &Shunned, id: FoodId, food: &Food) -> Meets {
    if let Some(allergen) = shunned.allergen.filter(|one| bears(food, *one)) {
        return Meets::Is(allergen.name().to_owned());
    }
    if shunned.food == Some(id) || (shunned.kind.is_some() && shunned.kind == food.kind) {
        return Meets::Is(shunned.word.clone());
    }
    if let Some(group) = shunned.group.iter().find(|one| shunned.food.is_some() && bears(food, **one)) {
        return Meets::MayBe(group.name().to_owned());
    }
    if food.unknown || (food.allergens.is_none() && (shunned.allergen.is_some() || !shunned.group.is_empty())) {
        return Meets::NotKnown;
    }
    Meets::Nothing
}
