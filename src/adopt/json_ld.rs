//! schema.org/Recipe in JSON-LD, alone, in a list, in a graph, or inside anything else.
//!
//! Property names are those of schema.org: `recipeIngredient` (and `ingredients`, which it replaced), `recipeInstructions` with
//! `HowToStep`, `HowToSection` and `ItemList`, `recipeYield`, `prepTime`, `cookTime`, `totalTime`, `author`, `url`, `headline`.

use jiff::SignedDuration;
use serde_json::{Map, Value};

use super::keeping::keeping;
use super::tidy::{line, lines};
use super::yields::makes;
use super::{Adopted, Source};

type Thing = Map<String, Value>;

/// Every recipe of a block; none where the block is broken.
pub(super) fn recipes(block: &str) -> Vec<Adopted> {
    let mut found = Vec::new();
    match serde_json::from_str::<Value>(block) {
        Ok(value) => collect(&value, &mut found),
        // Line ends inside a text are no JSON, but pages have them.
        Err(_) => {
            if let Ok(value) = serde_json::from_str::<Value>(&block.replace(['\n', '\r', '\t'], " ")) {
                collect(&value, &mut found);
            }
        }
    }
    found
}

fn collect(value: &Value, found: &mut Vec<Adopted>) {
    match value {
        Value::Array(values) => values.iter().for_each(|value| collect(value, found)),
        Value::Object(thing) => match is_recipe(thing).then(|| recipe(thing)).flatten() {
            Some(recipe) => found.push(recipe),
            None => thing.values().for_each(|value| collect(value, found)),
        },
        _ => (),
    }
}

fn is_recipe(thing: &Thing) -> bool {
    thing.get("@type").is_some_and(|kind| texts(kind).iter().any(|kind| kind.rsplit(['/', ':', '#']).next() == Some("Recipe")))
}

/// A recipe that only has a name (on a page that lists recipes) is none.
fn recipe(thing: &Thing) -> Option<Adopted> {
    let get = |name: &str| thing.get(name).filter(|value| !value.is_null());
    let ingredients = ingredients(get("recipeIngredient").or_else(|| get("ingredients"))?);
    let name = get("name").or_else(|| get("headline")).map(|name| line(&texts(name).join(" "))).filter(|name| !name.is_empty());
    if ingredients.is_empty() {
        return None;
    }
    let mut method = Vec::new();
    if let Some(said) = get("recipeInstructions") {
        paragraphs(said, &mut method);
    }
    let described = get("description").map(|said| texts(said).join("\n")).unwrap_or_default();
    let described = lines(&described);
    let name = name.unwrap_or_default();
    let keeps = keeping(described.iter().chain(&method).map(String::as_str), &name);
    let yields = get("recipeYield").or_else(|| get("yield")).map(yields).unwrap_or_default();
    Some(Adopted {
        name,
        makes: yields.iter().find_map(|said| makes(said)),
        ingredients,
        method,
        source: source(thing),
        times: times(thing),
        keeps,
    })
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
        Value::Object(thing) => {
            let unit = thing.get("unitText").and_then(Value::as_str).unwrap_or_default();
            texts(value).into_iter().map(|number| format!("{number} {unit}")).collect()
        }
        _ => texts(value),
    };
    said = said.iter().map(|said| line(said)).collect();
    said.sort_by_key(|said| std::cmp::Reverse(said.chars().count()));
    said
}

/// A list, or one text of several lines, or one in which a comma stands before each number.
fn ingredients(value: &Value) -> Vec<String> {
    let said: Vec<String> = texts(value).iter().flat_map(|text| lines(text)).collect();
    match (said.as_slice(), value) {
        ([one], Value::String(_)) => apart(one),
        _ => said,
    }
}

fn apart(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = vec![String::new()];
    let letters: Vec<char> = text.chars().collect();
    for (index, letter) in letters.iter().enumerate() {
        let next = letters[index + 1..].iter().find(|c| !c.is_whitespace());
        let begins_a_line = next.is_some_and(|c| c.is_ascii_digit() || "½⅓⅔¼¾⅛".contains(*c));
        if *letter == ';' || (*letter == ',' && begins_a_line && letters.get(index + 1) == Some(&' ')) {
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            part.push(*letter);
        }
    }
    parts.iter().map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
}

fn paragraphs(value: &Value, method: &mut Vec<String>) {
    match value {
        Value::String(text) => method.extend(lines(text)),
        Value::Array(values) => values.iter().for_each(|value| paragraphs(value, method)),
        Value::Object(thing) => {
            let inner = thing.get("itemListElement").or_else(|| thing.get("steps")).or_else(|| thing.get("item"));
            let name = || thing.get("name").map(|name| line(&texts(name).join(" "))).filter(|name| !name.is_empty());
            match (inner, thing.get("text")) {
                (Some(inner), _) => {
                    method.extend(name().map(|name| format!("{}:", name.trim_end_matches(':'))));
                    paragraphs(inner, method);
                }
                (None, Some(text)) => paragraphs(text, method),
                (None, None) => method.extend(name()),
            }
        }
        _ => (),
    }
}

fn source(thing: &Thing) -> Source {
    let joined = |name: &str| thing.get(name).map(|value| line(&texts(value).join(", "))).filter(|text| !text.is_empty());
    let address = |name: &str| joined(name).filter(|address| address.starts_with("http"));
    Source {
        author: joined("author"),
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
pub(super) fn minutes(text: &str) -> Option<i64> {
    const WEEK: i64 = 7 * 24 * 60;
    let span: jiff::Span = text.trim().parse().ok()?;
    let duration: SignedDuration = span.to_duration(jiff::civil::date(2024, 1, 1)).ok()?;
    Some(duration.as_secs().div_euclid(60)).filter(|minutes| (1..=WEEK).contains(minutes))
}
