//! `food NAME`: what is known of a food, and from where.

use std::fmt::Write;

use super::known::{self, Known};
use super::outcome::{Done, Failure, json, say};
use super::wrap::columns;
use super::{Cli, Format};
use crate::foods::{FoodId, Foods};

/// What the weights of a card are of.
const LEGEND: &str = "\nA cup is a US cup in the form named; each, slice, bunch and the like are one as purchased; nutrients are of what is eaten.\n\
                      What you know better goes into foods.toml.\n";

pub fn run(cli: &Cli, name: &str) -> Done {
    let Known { foods, .. } = known::read(cli)?;
    if name.trim().is_empty() {
        return Err(Failure::Usage("no food is named. Write: spence food onion".to_owned()));
    }
    let id = foods.find(name).ok_or_else(|| known::unknown(name, &foods))?;
    match cli.format {
        Format::Json => say(&json(&crate::json::food(&foods, id))?),
        Format::Text => say(&text(&foods, id)),
    }
}

fn text(foods: &Foods, id: FoodId) -> String {
    let food = &foods[id];
    let mut out = format!("{}\n", food.name);
    let also = foods.other_names(id);
    if !also.is_empty() {
        let _ = writeln!(out, "  also {}", also.join(", "));
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
