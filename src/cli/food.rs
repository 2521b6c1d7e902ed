//! `food NAME`: what is known of a food, and from where.

use std::fmt::Write;

use serde::Serialize;

use super::known::{self, Known};
use super::outcome::{Done, Failure, json, say};
use super::wrap::columns;
use super::{Cli, Format};
use crate::foods::{FoodId, Foods, Kind};

/// What `--format json` writes.
#[derive(Serialize)]
struct Card<'f> {
    food: &'f str,
    also: &'f [String],
    kind: Option<&'f str>,
    section: Option<&'f str>,
    facts: Vec<CardFact>,
}

#[derive(Serialize)]
struct CardFact {
    fact: String,
    /// "not known" where it is not.
    value: String,
    source: Option<String>,
}

/// What the weights of a card are of.
const LEGEND: &str = "\nA cup is a US cup in the form named; each, slice, bunch and the like are one as purchased; nutrients are of what is eaten.\n\
                      What you know better goes into foods.toml.\n";

/// Lines of a card that the JSON has as keys of their own.
const KEYS: [&str; 4] = ["name", "also", "kind", "section"];

pub fn run(cli: &Cli, name: &str) -> Done {
    let Known { foods, .. } = known::read(cli)?;
    if name.trim().is_empty() {
        return Err(Failure::Usage("no food is named. Write: spence food onion".to_owned()));
    }
    let id = foods.find(name).ok_or_else(|| known::unknown(name, &foods))?;
    match cli.format {
        Format::Json => say(&json(&card(&foods, id))?),
        Format::Text => say(&text(&foods, id)),
    }
}

fn card(foods: &Foods, id: FoodId) -> Card<'_> {
    let food = &foods[id];
    let facts = foods.card(id).into_iter().filter(|line| !KEYS.contains(&line.0.as_str()));
    let facts = facts.map(|(fact, value, source)| CardFact { fact, value, source: Some(source).filter(|source| !source.is_empty()) });
    Card { food: &food.name, also: &food.also, kind: food.kind.map(Kind::name), section: food.section.as_deref(), facts: facts.collect() }
}

fn text(foods: &Foods, id: FoodId) -> String {
    let food = &foods[id];
    let mut out = format!("{}\n", food.name);
    if !food.also.is_empty() {
        let _ = writeln!(out, "  also {}", food.also.join(", "));
    }
    let rows: Vec<Vec<String>> = foods
        .card(id)
        .into_iter()
        .filter(|line| line.0 != "name" && line.0 != "also")
        .map(|(fact, value, source)| vec![fact, value, source])
        .collect();
    out.push_str(&columns(&rows, 2));
    out.push_str(LEGEND);
    out
}
