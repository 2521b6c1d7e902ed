//! What a meal adds that is cooked by itself at the meal: its raw amount, how, how long and from when.
//!
//! A line that weighs it cooked says so ("300 g cooked brown rice"), or its words do ("2 eggs, boiled"), or the meal's own
//! ("Jacket potatoes"). How a food is cooked is known of the food; nothing is guessed where it is not.

use jiff::ToSpan;
use jiff::civil::DateTime;

use super::line_words::amount_and_food;
use crate::foods::{Cooks, Food, Foods, State, as_purchased};
use crate::kitchen::{Ingredient, Kitchen, Meal, Wanted};
use crate::measure::{Dimension, show};
use crate::plan::taken_lines;
use crate::words::{clock, duration};

/// One food that is cooked by itself for a meal.
#[derive(Debug, Clone, PartialEq)]
pub struct CardCook {
    /// Its place among the foods that the meal adds.
    pub fresh: usize,
    /// "105 g brown rice", "2½ large potatoes (925 g)".
    pub raw: String,
    pub cooks: Cooks,
    /// So that it is done when the meal begins.
    pub start: DateTime,
}

impl CardCook {
    /// "boil 105 g brown rice, 30 min, start 18:00".
    pub fn text(&self) -> String {
        format!("{}, start {}", self.how_long(), clock(self.start))
    }

    /// "boil 105 g brown rice, 30 min".
    pub fn how_long(&self) -> String {
        let (Cooks { how, minutes }, raw) = (&self.cooks, &self.raw);
        let time = duration(minutes.0);
        if how.contains(' ') { format!("{raw}: {how}, {time}") } else { format!("{how} {raw}, {time}") }
    }
}

/// Words that say a food is cooked, and what its way of cooking is called.
const SAID: [(&str, &str); 8] = [
    ("jacket", "bake"),
    ("baked", "bake"),
    ("boiled", "boil"),
    ("steamed", "steam"),
    ("poached", "poach"),
    ("hard-boiled", "boil"),
    ("soft-boiled", "boil"),
    ("cooked", ""),
];

/// Everything of the meal that is cooked by itself, in the order of its lines.
pub(super) fn cooked(kitchen: &Kitchen, meal: &Meal) -> Vec<CardCook> {
    let foods = taken_lines(&kitchen.foods, meal).into_iter().filter(|(line, _)| matches!(line.wanted, Wanted::Food { .. }));
    let of = |(fresh, (line, times)): (usize, (&Ingredient, crate::measure::Number))| {
        let (raw, cooks) = raw_and_way(kitchen, meal, line, times.to_f64())?;
        let start = meal.at_time.checked_sub(cooks.minutes.0.minutes()).ok()?;
        Some(CardCook { fresh, raw, cooks: cooks.clone(), start })
    };
    foods.enumerate().filter_map(of).collect()
}

fn raw_and_way<'k>(kitchen: &'k Kitchen, meal: &Meal, line: &Ingredient, times: f64) -> Option<(String, &'k Cooks)> {
    let Wanted::Food { food, item: Some(item) } = &line.wanted else { return None };
    let food = &kitchen.foods[*food];
    if item.state == State::Cooked {
        let cooks = &food.cooks.as_ref()?.value;
        let raw = as_purchased(food, &item.scaled(times), &Dimension::Mass, kitchen.rules.spoons).ok()?;
        return Some((format!("{} {}", show(&raw, kitchen.print.units), food.name), cooks));
    }
    let cooks = said_to_be_cooked(&kitchen.foods, meal, line, food)?;
    Some((amount_and_food(kitchen, line, None, times), cooks))
}

/// The way of cooking that the line's own words ask for, or the meal's: "boiled" after the comma, "Jacket potatoes".
fn said_to_be_cooked<'k>(foods: &'k Foods, meal: &Meal, line: &Ingredient, food: &'k Food) -> Option<&'k Cooks> {
    let words = line.prep.as_deref().unwrap_or_default().to_lowercase();
    let heard = |said: &str| words.split(|c: char| !c.is_alphabetic() && c != '-').any(|word| word == said);
    let of_meal = [&meal.name, &meal.text].into_iter().flatten().map(|text| text.to_lowercase()).collect::<Vec<_>>();
    let named = |said: &str| of_meal.iter().any(|text| text.contains(&format!("{said} {}", food.name)));
    SAID.iter().filter(|(said, _)| heard(said) || named(said)).find_map(|(said, way)| {
        // "Jacket potato" and "baking potato" may be known with a time of their own.
        let also = [format!("{said} {}", food.name), format!("{} {}", way.replace("bake", "baking"), food.name)];
        let also = also.iter().filter_map(|name| foods.find(name)).map(|id| &foods[id]);
        let ways = std::iter::once(food).chain(also).filter_map(|food| food.cooks.as_ref().map(|cooks| &cooks.value));
        ways.into_iter().find(|cooks| cooks.how.contains(way))
    })
}
