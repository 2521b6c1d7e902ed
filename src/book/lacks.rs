//! What a booking should have taken and the shelf did not hold, remembered until what it came from is booked: a meal that is booked before
//! its session, a session before its trip.

use jiff::civil::DateTime;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::record::{Exact, LotRecord, as_lot};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Lot, Ware, Whose};
use crate::measure::Quantity;

/// So much of one food or dish that a session or a meal should have taken.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct Lack {
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub recipe: Option<String>,
    /// Whose it was alone.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub eater: Option<String>,
    /// What that lacks: foods by their names, recipes as `recipe:id`.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub without: Vec<String>,
    pub amount: Exact,
    /// When the session begins, or the meal.
    #[schemars(with = "String")]
    pub at: DateTime,
}

impl Lack {
    pub(super) fn of(kitchen: &Kitchen, ware: Ware, whose: Option<&Whose>, amount: &Quantity, at: DateTime) -> Lack {
        let (food, recipe) = match ware {
            Ware::Food(food) => (Some(kitchen.foods[food].name.clone()), None),
            Ware::Recipe(recipe) => (None, Some(kitchen.recipes[recipe].id.clone())),
        };
        let without = whose.iter().flat_map(|whose| &whose.without);
        Lack {
            food,
            recipe,
            eater: whose.map(|whose| whose.eater.clone()),
            without: without.map(|ware| ware.as_written(&kitchen.foods, |recipe| &kitchen.recipes[recipe].id)).collect(),
            amount: Exact::of(amount),
            at,
        }
    }

    /// The food or the dish, and whose it was; `None` where nobody knows it any more.
    pub fn ware(&self, kitchen: &Kitchen) -> Option<(Ware, Option<Whose>)> {
        let Lack { food, recipe, eater, without, amount, .. } = self.clone();
        let record = LotRecord {
            food,
            recipe,
            eater,
            without,
            amount,
            pack: None,
            place: Place::Fridge,
            best_before: None,
            use_by: None,
            opened: None,
            since: None,
            made: None,
            paid: None,
        };
        as_lot(kitchen, &record).map(|Lot { of, whose, .. }| (of, whose))
    }

    /// Is it of the same food or dish, for the same meal or session?
    fn is_of(&self, other: &Lack) -> bool {
        let key = |lack: &Lack| (lack.food.clone(), lack.recipe.clone(), lack.eater.clone(), lack.without.clone(), lack.at);
        key(self) == key(other) && self.amount.dimension == other.amount.dimension
    }
}

/// What of `lacked` is not made good.
pub(super) fn outstanding<'l>(lacked: impl Iterator<Item = &'l Lack>, made_good: impl Iterator<Item = &'l Lack>) -> Vec<Lack> {
    let mut lacks: Vec<Lack> = lacked.cloned().collect();
    for made in made_good {
        let mut left = made.amount.number.clone();
        for lack in lacks.iter_mut().filter(|lack| lack.is_of(made)) {
            let off = left.clone().min(lack.amount.number.clone());
            lack.amount.number = &lack.amount.number - &off;
            left -= off;
        }
    }
    lacks.retain(|lack| lack.amount.number.is_positive());
    lacks
}
