//! What is known of a food.

use schemars::JsonSchema;
use serde::Serialize;

use crate::foods::{FoodId, Foods, Kind};

#[derive(JsonSchema, Serialize)]
pub(super) struct Card<'a> {
    food: &'a str,
    also: Vec<&'a str>,
    kind: Option<&'a str>,
    section: Option<&'a str>,
    facts: Vec<Fact>,
}

#[derive(JsonSchema, Serialize)]
struct Fact {
    fact: String,
    /// "not known" where it is not.
    value: String,
    source: Option<String>,
}

/// Lines of a card that are keys of their own.
const KEYS: [&str; 4] = ["name", "also", "kind", "section"];

pub fn food(foods: &Foods, id: FoodId) -> impl Serialize + '_ {
    let food = &foods[id];
    let facts = foods.card(id).into_iter().filter(|line| !KEYS.contains(&line.0.as_str()));
    let facts = facts.map(|(fact, value, source)| Fact { fact, value, source: Some(source).filter(|source| !source.is_empty()) });
    Card {
        food: &food.name,
        also: foods.other_names(id),
        kind: food.kind.map(Kind::name),
        section: food.section.as_deref(),
        facts: facts.collect(),
    }
}
