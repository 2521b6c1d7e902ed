//! Meals that run short, alike in `list` and in `prep`.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Theirs;
use super::shape::OnDate;
use crate::kitchen::Kitchen;
use crate::measure::Quantity;
use crate::plan::ShortMeal;
use crate::telling::short as words;

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(super) struct Short {
    #[schemars(with = "OnDate")]
    on: Date,
    /// "supper", or `19:15`.
    at: String,
    meal: String,
    /// Its id.
    recipe: String,
    #[serde(flatten)]
    whose: Theirs,
    /// What is missing.
    amount: Quantity,
    remedies: Vec<String>,
}

pub(super) fn short(short: &[ShortMeal], kitchen: &Kitchen) -> Vec<Short> {
    let names = kitchen.names();
    let entry = |short: &ShortMeal| Short {
        on: short.at.date(),
        at: short.word.clone(),
        meal: short.meal.clone(),
        recipe: names.recipe_file(short.recipe).to_owned(),
        whose: Theirs::of(short.whose.as_ref(), names),
        amount: short.amount.clone(),
        remedies: words::remedies(short),
    };
    short.iter().map(entry).collect()
}
