//! `per_100g` of a food: energy and nutrients of 100 g of what is eaten of it, as a packet prints them.

use toml::de::DeValue;

use super::shapes::{self, Read};
use super::table::Table;
use crate::foods::Nutrients;
use crate::measure::ReadError;

/// Pure fat has 900 kcal (EU 1169/2011, Annex XIV: 9 kcal/g); published tables round up to 902.
const MOST_KCAL: f64 = 902.0;

/// The table under `key`, each figure by itself: what it leaves out is not known.
pub(super) fn read(table: &Table<'_>, key: &str) -> Option<Nutrients> {
    let per = table.one(key, "[food.per_100g]")?;
    let grams = |key: &str| per.optional(key, within_100g);
    let nutrients = Nutrients {
        kcal: per.optional("kcal", kcal),
        protein_g: grams("protein"),
        carbohydrate_g: grams("carbohydrate"),
        fat_g: grams("fat"),
        fibre_g: grams("fibre"),
        sodium_mg: grams("sodium").map(|grams| grams * 1000.0),
    };
    // Fibre is left out: some tables count it as carbohydrate.
    let sum: f64 = [nutrients.protein_g, nutrients.carbohydrate_g, nutrients.fat_g].into_iter().flatten().sum();
    if sum > 101.0 {
        let cause = format!("{key}: protein, carbohydrate and fat weigh {sum:.1} g, more than the 100 g they are in");
        table.mistake(key, cause, "Write the figures for 100 g.");
    }
    (nutrients != Nutrients::default()).then_some(nutrients)
}

fn kcal(value: &DeValue<'_>) -> Read<f64> {
    let remedy = "Write kilocalories in 100 g as a number: kcal = 402.";
    let wrong = |cause: String| ReadError { cause, remedy: remedy.to_owned() };
    let typed = shapes::text_or_digits(value).map_err(|error| wrong(error.cause))?;
    let digits = typed.strip_suffix("kcal").unwrap_or(&typed).trim();
    match digits.parse::<f64>() {
        Ok(kcal) if (0.0..=MOST_KCAL).contains(&kcal) => Ok(kcal),
        Ok(_) => Err(wrong(format!("no food has {digits} kcal in 100 g"))),
        Err(_) => Err(wrong(format!("\"{typed}\" is not a number of kilocalories"))),
    }
}

/// Grams, nought included: "25 g", "620 mg", 0.
fn within_100g(value: &DeValue<'_>) -> Read<f64> {
    let remedy = "Write a weight like \"25 g\" or \"620 mg\".";
    let nought = shapes::text_or_digits(value).is_ok_and(|typed| {
        let number = typed.trim_end_matches(|c: char| c.is_alphabetic()).trim_end();
        number.parse::<f64>() == Ok(0.0)
    });
    let grams = if nought { 0.0 } else { shapes::grams(value).map_err(|error| ReadError { remedy: remedy.to_owned(), ..error })? };
    if grams <= 100.0 {
        return Ok(grams);
    }
    Err(ReadError { cause: format!("{grams} g do not go into 100 g"), remedy: remedy.to_owned() })
}
