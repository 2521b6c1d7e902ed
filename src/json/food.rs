//! What is known of a food.

use serde::Serialize;

use crate::foods::{FoodId, Foods, Kind};

#[derive(Serialize)]
struct Card<'a> {
    food: &'a str,
    also: &'a [String],
    kind: Option<&'a str>,
    section: Option<&'a str>,
    facts: Vec<Fact>,
}

#[derive(Serialize)]
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
    Card { food: &food.name, also: &food.also, kind: food.kind.map(Kind::name), section: food.section.as_deref(), facts: facts.collect() }
}
