//! foods.toml: what this household knows better than the built-in reference.

use std::collections::{BTreeMap, BTreeSet};

use toml::de::DeValue;

use super::allergens;
use super::nutrients;
use super::plates::words as words_of;
use super::shapes::{self, Read};
use super::table::Table;
use crate::foods::{Cooks, Fact, Food, FoodId, Foods, Keeping, Measured, read_cooks};
use crate::kitchen::FittingFood;
use crate::measure::{Dimension, Quantity, ReadError, Spoons, Unit, read_amount, read_quantity};

/// Is this key of a food a kitchen word, such as clove or bunch?
pub(super) fn is_kitchen_word(heading: &str, key: &str) -> bool {
    heading == "[[food]]" && kitchen_word(key).is_some()
}

/// A kitchen word in its singular.
fn kitchen_word(key: &str) -> Option<String> {
    let plain = key.chars().all(char::is_alphabetic);
    match read_quantity(&format!("1 {key}"), Spoons::Us) {
        Ok(Quantity::Words(_, word)) if plain => Some(word),
        _ => None,
    }
}

/// Lays every `[[food]]` over the reference.
pub(super) fn read_foods(top: &Table<'_>, foods: &mut Foods) -> Vec<FittingFood> {
    let mut seen = BTreeSet::new();
    let mut also = Vec::new();
    let mut in_tins = BTreeSet::new();
    let mut fitting = Vec::new();
    for table in top.each("food", "[[food]]") {
        let Some(food) = read_food(&table) else { continue };
        if !seen.insert(food.name.to_lowercase()) {
            table.mistake("name", format!("\"{}\" is described twice", food.name), "Keep one entry for each food.");
        }
        let names = food.also.clone();
        let says_tins = food.drained.is_some() || ["tin", "jar"].iter().any(|word| food.words.contains_key(*word));
        let known = foods.len();
        let id = foods.lay_over(food);
        if says_tins || foods.len() > known {
            in_tins.insert(id);
        }
        also.push((id, names));
        fitting.push(read_fitting(&table, id));
    }
    foods.own_names(&also, &in_tins);
    fitting.retain(|food| !food.fits.is_empty() || !food.is.is_empty() || food.serving.is_some());
    fitting
}

/// What it is at table.
fn read_fitting(table: &Table<'_>, food: FoodId) -> FittingFood {
    let serving = table.optional("serving", |value| read_amount(&shapes::text_or_digits(value)?));
    if serving.as_ref().is_some_and(|serving| !serving.low.is_positive() || serving.unit == Unit::Portion) {
        table.mistake("serving", "serving: what one portion is, is no amount", "Write a weight, a volume or pieces: \"40 g\".");
    }
    FittingFood { food, fits: words_of(table, "fits"), is: words_of(table, "is"), serving, at: table.spot() }
}

fn read_food(table: &Table<'_>) -> Option<Food> {
    let name = table.required("name", "\"onion\"", shapes::text);
    let source = table.optional("source", shapes::text);
    let source = source.unwrap_or_else(|| format!("foods.toml:{}", table.spot().line));
    let share = |key: &str| table.optional(key, shapes::some_share).map(|value| Fact { value, source: source.clone() });
    let also = table.texts("also").unwrap_or_default();
    let (words, volumes) = words(table, &source);
    let food = Food {
        also: also.into_iter().map(|(name, _)| name).collect(),
        kind: table.optional("kind", shapes::kind),
        section: table.optional("section", shapes::text),
        cup: measured(table, "cup", &source),
        each: measured(table, "each", &source),
        words,
        volumes,
        edible: share("edible"),
        cooked: table.optional("cooked", shapes::positive).map(|value| Fact { value, source: source.clone() }),
        drained: share("drained"),
        cut: table.optional("cut", shapes::yes_no).map(|value| Fact { value, source: source.clone() }),
        cooks: table.optional("cooks", cooks).map(|value| Fact { value, source: source.clone() }),
        keeps: keeping(table, &source),
        thaw: table.optional("thaw", shapes::days).map(|value| Fact { value, source: source.clone() }),
        allergens: allergens::read(table, "allergens").map(|value| Fact { value, source: source.clone() }),
        contains: None,
        nutrients: nutrients::read(table, "per_100g").map(|value| Fact { value, source: source.clone() }),
        told: BTreeMap::new(),
        unknown: false,
        name: name?,
    };
    Some(food)
}

/// One weight, or a table of weights by form or size.
fn measured(table: &Table<'_>, key: &str, source: &str) -> Option<Fact<Measured>> {
    let value = table.optional(key, |value| match value {
        DeValue::Table(forms) => {
            let mut grams = BTreeMap::new();
            for (form, weight) in forms.iter() {
                let form = form.get_ref().trim().to_lowercase();
                let read = shapes::grams(weight.get_ref());
                grams.insert(form.clone(), read.map_err(|error| ReadError { cause: format!("{form}: {}", error.cause), ..error })?);
            }
            if grams.is_empty() { Err(no_weight()) } else { Ok(Measured::Table(grams)) }
        }
        _ => single(value),
    })?;
    Some(Fact { value, source: source.to_owned() })
}

fn single(value: &DeValue<'_>) -> Read<Measured> {
    shapes::grams(value).map(Measured::Single)
}

fn no_weight() -> ReadError {
    ReadError {
        cause: "the table has no weight in it".to_owned(),
        remedy: "Write a weight, or a table like { chopped = \"160 g\" }.".to_owned(),
    }
}

type Words = BTreeMap<String, Fact<f64>>;

/// Kitchen words by their weights, and by their volumes.
fn words(table: &Table<'_>, source: &str) -> (Words, Words) {
    let own = table.file.schema.heading("[[food]]");
    let (mut words, mut volumes) = (Words::new(), Words::new());
    for (key, _) in table.entries().filter(|(key, _)| !own.has(key)) {
        let Some(word) = kitchen_word(key) else { continue };
        if let Some(one) = table.optional(key, shapes::weight_or_volume) {
            let of_it = if one.dimension() == Dimension::Volume { &mut volumes } else { &mut words };
            of_it.insert(word, Fact { value: one.base(), source: source.to_owned() });
        }
    }
    (words, volumes)
}

/// "boil 30 min".
fn cooks(value: &DeValue<'_>) -> Read<Cooks> {
    read_cooks(&shapes::text(value)?)
}

fn keeping(table: &Table<'_>, source: &str) -> Keeping {
    let Some(keeps) = table.one("keeps", "[food.keeps]") else { return Keeping::default() };
    let days = |key: &str| keeps.optional(key, shapes::days).map(|value| Fact { value, source: source.to_owned() });
    Keeping { cupboard: days("cupboard"), fridge: days("fridge"), freezer: days("freezer"), opened: days("opened") }
}
