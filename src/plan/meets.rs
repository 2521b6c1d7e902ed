//! Whether a food is what somebody shuns: for certain, perhaps, or not known.

use crate::foods::{Allergen, Fact, Food, FoodId, Foods, Kind, Kinship};
use crate::kitchen::Shunned;

/// How a food meets a word.
pub(super) enum Meets {
    /// It is what the word names, a form of it, or bears it: "sesame".
    Is(String),
    /// It bears the group that the word's food belongs to, without saying of what: "nuts".
    MayBe(String),
    /// It usually, or with some makers, has what the word names in it.
    MayHold,
    /// Both are forms of the food of that name.
    Near(String),
    /// It is made of food of that kind, or may hold it.
    MadeOfKind,
    NotKnown,
    Nothing,
}

/// Has it this allergen for certain?
pub(super) fn bears(food: &Food, allergen: Allergen) -> bool {
    let of = |fact: &Option<Fact<Vec<Allergen>>>| fact.as_ref().is_some_and(|fact| fact.value.contains(&allergen));
    of(&food.allergens) || of(&food.contains)
}

/// The one place where a food is held against a word of `allergic` or `avoid`.
pub(super) fn meets(foods: &Foods, shunned: &Shunned, id: FoodId) -> Meets {
    let food = &foods[id];
    if let Some(allergen) = shunned.allergen.filter(|one| bears(food, *one)) {
        return Meets::Is(allergen.name().to_owned());
    }
    let kinship = kinship(foods, shunned, id);
    if shunned.food == Some(id) || (shunned.kind.is_some() && shunned.kind == food.kind) || kinship == Kinship::Form {
        return Meets::Is(shunned.word.clone());
    }
    if let Some(group) = shunned.group.iter().find(|one| shunned.food.is_some() && bears(food, **one)) {
        return Meets::MayBe(group.name().to_owned());
    }
    if food.unknown || (food.allergens.is_none() && (shunned.allergen.is_some() || !shunned.group.is_empty())) {
        return Meets::NotKnown;
    }
    match kinship {
        Kinship::MayHold => Meets::MayHold,
        Kinship::Near(both) => Meets::Near(foods[both].name.clone()),
        Kinship::Form | Kinship::None => {
            let kind = shunned.kind.filter(|_| shunned.allergen.is_none());
            if kind.is_some_and(|kind| foods.is_made_of_kind(id, kind)) { Meets::MadeOfKind } else { Meets::Nothing }
        }
    }
}

/// What is said of its allergens is said of a food; a name tells no more of it.
fn kinship(foods: &Foods, shunned: &Shunned, id: FoodId) -> Kinship {
    let asked = shunned.food.filter(|_| shunned.allergen.is_none() && foods[id].kind != Some(Kind::Household));
    asked.map_or(Kinship::None, |asked| foods.kinship(id, asked, shunned.by_own_name))
}

/// Has it usually, or with some makers, what the word names in it, whatever else is not known of it?
pub(super) fn may_hold(foods: &Foods, shunned: &Shunned, id: FoodId) -> bool {
    kinship(foods, shunned, id) == Kinship::MayHold
}
