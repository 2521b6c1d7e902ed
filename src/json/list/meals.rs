//! What the meals of a week give each eater, and its days.

use std::borrow::Cow;

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::super::shape::OnDate;
use crate::kitchen::Names;
use crate::purchase::{self, MealNote};
use crate::telling::list as words;

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(in crate::json) struct Meal<'a> {
    #[schemars(with = "OnDate")]
    pub(in crate::json) on: Date,
    /// `18:30`.
    pub(in crate::json) at: String,
    pub(in crate::json) name: Cow<'a, str>,
    /// What is to be done at it, in the household's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    text: Option<Cow<'a, str>>,
    per_eater: PerEater,
    eaters: Vec<Portion<'a>>,
    missing: Vec<String>,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct PerEater {
    kcal: Option<f64>,
    protein_g: Option<f64>,
    fibre_g: Option<f64>,
    cost: Option<String>,
    /// Some figure is the sum of what is known; what is not in it is in `missing`.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    at_least: bool,
}

impl<'a> Meal<'a> {
    pub(super) fn of(meal: &'a MealNote, names: Names<'a>) -> Meal<'a> {
        let purchase::PerEater { kcal, protein_g, fibre_g, cost } = meal.per_eater;
        let at_least = meal.is_at_least();
        Meal {
            on: meal.at.date(),
            at: crate::words::clock(meal.at),
            name: Cow::Borrowed(&meal.name),
            text: meal.text.as_deref().map(Cow::Borrowed),
            per_eater: PerEater { kcal, protein_g, fibre_g, cost: cost.map(|cost| names.money(cost)), at_least },
            eaters: meal.eaters.iter().map(Portion::of).collect(),
            missing: meal.missing.iter().map(|lacking| words::lacking(lacking, names)).collect(),
        }
    }
}

/// What one eater gets of a meal.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Portion<'a> {
    name: Cow<'a, str>,
    share: f64,
    kcal: f64,
    protein_g: f64,
    fibre_g: f64,
    at_least: bool,
}

impl<'a> Portion<'a> {
    pub(super) fn of(portion: &'a purchase::Portion) -> Portion<'a> {
        let purchase::Portion { share, kcal, protein_g, fibre_g, at_least, .. } = *portion;
        Portion { name: Cow::Borrowed(&portion.name), share, kcal, protein_g, fibre_g, at_least }
    }
}

/// What the planned meals of a day give one eater.
#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
pub(in crate::json) struct Day<'a> {
    #[schemars(with = "OnDate")]
    pub(in crate::json) on: Date,
    pub(in crate::json) name: Cow<'a, str>,
    kcal: f64,
    protein_g: f64,
    fibre_g: f64,
    at_least: bool,
    of: Wanted,
}

#[derive(Debug, Clone, JsonSchema, Serialize, Deserialize)]
struct Wanted {
    kcal: Option<f64>,
    protein_g: Option<f64>,
    fibre_g: Option<f64>,
}

impl<'a> Day<'a> {
    pub(super) fn of(day: &'a purchase::DayNote) -> Day<'a> {
        let Portion { name, kcal, protein_g, fibre_g, at_least, .. } = Portion::of(&day.got);
        let of = Wanted { kcal: day.of.kcal, protein_g: day.of.protein_g, fibre_g: day.of.fibre_g };
        Day { on: day.on, name, kcal, protein_g, fibre_g, at_least, of }
    }
}
