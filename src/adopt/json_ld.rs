//! schema.org/Recipe in JSON-LD, alone, in a list, in a graph, or inside anything else.
//!
//! Property names are those of schema.org: `recipeIngredient` (and `ingredients`, which it replaced), `recipeInstructions` (and `step`) with
//! `HowToStep`, `HowToSection` and `ItemList`, `recipeYield`, `prepTime`, `cookTime`, `totalTime`, `author`, `url`, `headline`.

mod list;
mod method;
mod terms;

use std::collections::HashMap;

use jiff::SignedDuration;
use serde_json::{Map, Value};

use self::list::Listed;
use self::method::Told;
use super::tidy::{line, lines};
use super::yields::makes;
use super::{Adopted, Source};
use crate::kitchen::keeping;

pub(super) type Thing = Map<String, Value>;

/// Every recipe of the blocks of a page; a block that is broken is left out. One block may point at what stands in another.
pub(super) fn recipes<'b>(blocks: impl IntoIterator<Item = &'b str>) -> Vec<Adopted> {
    let values: Vec<Value> = blocks.into_iter().filter_map(value).collect();
    let things = Things::of(&values);
    let mut found = Vec::new();
    values.iter().for_each(|value| collect(value, &things, &mut found));
    found
}

/// Line ends inside a text are no JSON, but pages have them.
fn value(block: &str) -> Option<Value> {
    serde_json::from_str(block).or_else(|_| serde_json::from_str(&block.replace(['\n', '\r', '\t'], " "))).ok().map(terms::plain)
}

fn collect(value: &Value, things: &Things, found: &mut Vec<Adopted>) {
    match value {
        Value::Array(values) => values.iter().for_each(|value| collect(value, things, found)),
        Value::Object(thing) => {
            found.extend(is_recipe(thing).then(|| recipe(&things.whole(thing))).flatten());
            // A recipe may have others as its parts.
            thing.values().for_each(|value| collect(value, things, found));
        }
        _ => (),
    }
}

/// What a page says of each `@id`: other things name it by that alone.
struct Things<'v> {
    by_id: HashMap<&'v str, &'v Value>,
}

/// No recipe points at more things than this, nor from one to the next so often.
const MOST_THINGS: usize = 10_000;
const MOST_DEEP: usize = 12;

impl<'v> Things<'v> {
    fn of(values: &'v [Value]) -> Self {
        let mut by_id = HashMap::new();
        let mut open: Vec<&Value> = values.iter().collect();
        while let Some(value) = open.pop() {
            match value {
                Value::Array(values) => open.extend(values),
                Value::Object(thing) => {
                    if let Some(id) = id_of(thing).filter(|_| !is_reference(thing)) {
                        by_id.entry(id).or_insert(value);
                    }
                    open.extend(thing.values());
                }
                _ => (),
            }
        }
        Things { by_id }
    }

    /// A recipe with what it points at in its place.
    fn whole(&self, recipe: &Thing) -> Thing {
        const POINTS: [&str; 8] =
            ["author", "recipeInstructions", "step", "steps", "recipeIngredient", "ingredients", "supply", "recipeYield"];
        let mut left = MOST_THINGS;
        let whole = |(key, value): (&String, &Value)| {
            let value = if POINTS.contains(&key.as_str()) { self.filled(value, MOST_DEEP, &mut left) } else { value.clone() };
            (key.clone(), value)
        };
        recipe.iter().map(whole).collect()
    }

    fn filled(&self, value: &Value, deep: usize, left: &mut usize) -> Value {
        if deep == 0 || *left == 0 {
            return value.clone();
        }
        *left -= 1;
        match value {
            Value::Array(values) => Value::Array(values.iter().map(|value| self.filled(value, deep, left)).collect()),
            Value::Object(thing) if is_reference(thing) => match id_of(thing).and_then(|id| self.by_id.get(id)) {
                Some(meant) => self.filled(meant, deep - 1, left),
                None => value.clone(),
            },
            Value::Object(thing) => {
                Value::Object(thing.iter().map(|(key, value)| (key.clone(), self.filled(value, deep - 1, left))).collect())
            }
            other => other.clone(),
        }
    }
}

fn id_of(thing: &Thing) -> Option<&str> {
    thing.get("@id").and_then(Value::as_str)
}

/// `{"@id": "#a"}`: it says what is meant, and nothing of it.
fn is_reference(thing: &Thing) -> bool {
    thing.contains_key("@id") && thing.keys().all(|key| key == "@id" || key == "@type")
}

fn is_recipe(thing: &Thing) -> bool {
    thing.get("@type").is_some_and(|kind| texts(kind).iter().any(|kind| kind.rsplit(['/', ':', '#']).next() == Some("Recipe")))
}

/// A recipe that only has a name (on a page that lists recipes) is none.
pub(super) fn recipe(thing: &Thing) -> Option<Adopted> {
    let get = |name: &str| thing.get(name).filter(|value| !value.is_null());
    let listed = ["recipeIngredient", "ingredients", "supply"].iter().filter_map(|key| Some(Listed::of(get(key)?)));
    let listed = listed.into_iter().find(|listed| !listed.lines.is_empty())?;
    let told = ["recipeInstructions", "step", "steps"].iter().filter_map(|key| Some(Told::of(get(key)?)));
    let told = told.into_iter().find(|told| !told.paragraphs.is_empty() || !told.lost.is_empty()).unwrap_or_default();
    let name = ["name", "headline"].iter().find_map(|key| get(key).and_then(first)).unwrap_or_default();
    let described = get("description").map(|said| texts(said).join("\n")).unwrap_or_default();
    let described = lines(&described);
    let yields = get("recipeYield").or_else(|| get("yield")).map(yields).unwrap_or_default();
    let made = yields.iter().find_map(|said| makes(said));
    // Whatever else stands in a second list: to add it could double the food.
    let beside = ["ingredients", "supply"].iter().filter_map(|key| get(key)).flat_map(|other| list::beside(other, &listed.lines)).collect();
    Some(Adopted {
        keeps: keeping(described.iter().chain(&told.paragraphs).map(String::as_str), &name),
        name,
        makes: made.clone(),
        yields: yields.into_iter().next().filter(|_| made.is_none()),
        ingredients: listed.lines,
        method: told.paragraphs,
        source: source(thing),
        times: times(thing),
        unplaced: beside,
        lost: listed.lost.into_iter().chain(told.lost).collect(),
        ..Adopted::default()
    })
}

/// The first text of a value that says something, on one line.
fn first(value: &Value) -> Option<String> {
    texts(value).iter().map(|text| line(text)).find(|text| !text.is_empty())
}

/// The texts of a value: itself, of a list each, of a thing its name.
fn texts(value: &Value) -> Vec<String> {
    match value {
        Value::String(text) => vec![text.clone()],
        Value::Number(number) => vec![number.to_string()],
        Value::Array(values) => values.iter().flat_map(texts).collect(),
        Value::Object(thing) => {
            ["name", "text", "@value", "value", "@id"].iter().find_map(|key| thing.get(*key)).map(texts).unwrap_or_default()
        }
        _ => Vec::new(),
    }
}

/// Longer texts first: "4 servings" says more than "4".
fn yields(value: &Value) -> Vec<String> {
    let mut said: Vec<String> = match value {
        Value::Array(values) => values.iter().flat_map(yields).collect(),
        Value::Object(thing) => list::measured(thing).map_or_else(|| texts(value), |said| vec![said]),
        _ => texts(value),
    };
    said = said.iter().map(|said| line(said)).filter(|said| !said.is_empty()).collect();
    said.sort_by_key(|said| std::cmp::Reverse(said.chars().count()));
    said
}

/// By their `position`, where each has one.
fn in_order(values: &[Value]) -> Vec<&Value> {
    let position = |value: &Value| match value.get("position")? {
        Value::Number(number) => number.as_i64(),
        Value::String(text) => text.trim().parse().ok(),
        _ => None,
    };
    let mut placed: Vec<&Value> = values.iter().collect();
    if placed.iter().all(|value| position(value).is_some()) {
        placed.sort_by_key(|value| position(value));
    }
    placed
}

fn source(thing: &Thing) -> Source {
    let named = |value: &Value| value.as_object().is_none_or(|thing| !is_reference(thing));
    let author = thing.get("author").map(|value| match value {
        Value::Array(all) => all.iter().filter(|one| named(one)).flat_map(texts).collect(),
        one if named(one) => texts(one),
        _ => Vec::new(),
    });
    let joined = |name: &str| thing.get(name).map(|value| line(&texts(value).join(", "))).filter(|text| !text.is_empty());
    let address = |name: &str| joined(name).filter(|address| address.starts_with("http"));
    Source {
        author: author.map(|names| line(&names.join(", "))).filter(|text| !text.is_empty()),
        title: joined("headline"),
        address: joined("url").or_else(|| address("mainEntityOfPage")).or_else(|| address("@id")),
    }
}

fn times(thing: &Thing) -> Vec<(&'static str, i64)> {
    let minutes = |name: &str| thing.get(name).and_then(|value| minutes(texts(value).first()?));
    let said = [("preparation", "prepTime"), ("cooking", "cookTime"), ("in all", "totalTime")];
    said.iter().filter_map(|(word, name)| Some((*word, minutes(name)?))).collect()
}

/// Whole minutes of an ISO 8601 duration; nothing for none, or for more than a week.
fn minutes(text: &str) -> Option<i64> {
    const WEEK: i64 = 7 * 24 * 60;
    let span: jiff::Span = text.trim().parse().ok()?;
    let duration: SignedDuration = span.to_duration(jiff::civil::date(2024, 1, 1)).ok()?;
    Some(duration.as_secs().div_euclid(60)).filter(|minutes| (1..=WEEK).contains(minutes))
}
