//! What a day asks for.

use jiff::civil::{Date, DateTime};
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::{AtTime, OnDate, minute};
use crate::kitchen::Names;
use crate::measure::{Quantity, Units};
use crate::pantry::StockLot;
use crate::prep::{CardCook, CardDay, CardMeal};
use crate::words;

#[derive(JsonSchema, Serialize)]
pub(super) struct Day<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    meals: Vec<Meal<'a>>,
    tonight: Vec<String>,
    goes_off: Vec<GoesOff<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Meal<'a> {
    meal: &'a str,
    name: Option<&'a str>,
    #[schemars(with = "Option<AtTime>")]
    begin_by: Option<String>,
    take_out: Vec<TakeOut<'a>>,
    text: Option<&'a str>,
    add: &'a [String],
    /// What of it is cooked by itself: raw amount, minutes, and when to start.
    cook: Vec<String>,
    make: Vec<Make<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct TakeOut<'a> {
    recipe: &'a str,
    amounts: &'a [Quantity],
    place: Option<&'static str>,
    r#box: Option<&'a str>,
    then: Option<String>,
}

#[derive(JsonSchema, Serialize)]
struct Make<'a> {
    recipe: &'a str,
    steps: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct GoesOff<'a> {
    of: &'a str,
    amount: &'a Quantity,
    place: &'static str,
}

/// `goes_off`: what it is, how much, and where it lies.
pub fn day<'a>(
    on: Date,
    days: &'a [(CardDay, Vec<Option<DateTime>>)],
    goes_off: &[(&'a StockLot, &'static str)],
    names: Names<'a>,
    units: Units,
) -> impl Serialize + 'a {
    let meals = days.iter().flat_map(|(day, begins)| day.meals.iter().zip(begins));
    let tonight = days.iter().flat_map(|(day, _)| &day.tonight).map(|errand| errand.text(names, units)).collect();
    let goes_off = goes_off.iter().map(|(lot, place)| GoesOff { of: names.ware(lot.of), amount: &lot.amount, place }).collect();
    Day { on, meals: meals.map(|(meal, begin)| of_meal(meal, *begin, names, units)).collect(), tonight, goes_off }
}

fn of_meal<'a>(meal: &'a CardMeal, begin_by: Option<DateTime>, names: Names<'a>, units: Units) -> Meal<'a> {
    let take_out = meal.dishes.iter().map(|dish| TakeOut {
        recipe: names.recipe_file(dish.recipe),
        amounts: &dish.amounts,
        place: dish.place.map(words::place),
        r#box: dish.boxed.as_deref(),
        then: dish.then.text(names, units),
    });
    let make = meal.made.iter().map(|making| Make {
        recipe: names.recipe_file(making.recipe),
        steps: making.steps.iter().map(|step| step.text(names, units)).collect(),
    });
    Meal {
        meal: &meal.label,
        name: meal.name.as_deref(),
        begin_by: begin_by.map(minute),
        take_out: take_out.collect(),
        text: meal.text.as_deref(),
        add: &meal.fresh,
        cook: meal.cook.iter().map(CardCook::text).collect(),
        make: make.collect(),
    }
}
