//! A JSON Schema (2020-12) for each file, so that an editor checks a file while it is typed.
//!
//! TOML editors read a file as JSON; dates and times without quotes become texts on the way. Where a key is read in several ways
//! ("0.89" or 0.89), the schema allows each of them. What only the reader can know (is this recipe there?) is left to it.

use serde_json::{Map, Value, json};

use super::{Default, File, Heading, Key, LETTERS, Range, Shape};
use crate::foods::Allergen;

/// The schema of a file.
///
/// ```
/// let recipe = spence::kitchen::keys::file("recipe").expect("a recipe is a file");
/// let schema = spence::kitchen::keys::schema(recipe);
/// assert_eq!(schema["properties"]["name"]["type"], "string");
/// assert_eq!(schema["required"], serde_json::json!(["name", "makes", "ingredients"]));
/// ```
pub fn schema(file: &File) -> Value {
    let mut whole = object(file, &file.headings[0]);
    let head = [
        ("$schema", json!("https://json-schema.org/draft/2020-12/schema")),
        ("title", json!(file.path)),
        ("description", json!(format!("{} of a kitchen", file.path))),
    ];
    let mut ordered = Map::new();
    ordered.extend(head.map(|(name, value)| (name.to_owned(), value)));
    ordered.append(&mut whole);
    Value::Object(ordered)
}

fn object(file: &File, heading: &Heading) -> Map<String, Value> {
    let properties: Map<String, Value> = heading.keys.iter().map(|key| (key.name.to_owned(), property(file, key))).collect();
    let required: Vec<&str> = heading.keys.iter().filter(|key| key.default == Default::Required).map(|key| key.name).collect();
    let mut object = Map::new();
    object.insert("type".to_owned(), json!("object"));
    object.insert("properties".to_owned(), Value::Object(properties));
    if !required.is_empty() {
        object.insert("required".to_owned(), json!(required));
    }
    let others = heading.open.as_ref().map_or(json!(false), |open| property(file, open));
    object.insert("additionalProperties".to_owned(), others);
    object
}

/// What stands behind a key, with its meaning and, where it is a plain value, its default.
fn property(file: &File, key: &Key) -> Value {
    let mut property = value(file, key.shape);
    if let Some(range) = key.range() {
        bound(&mut property, range);
    }
    if let Value::Object(property) = &mut property {
        property.insert("description".to_owned(), json!(key.said()));
        if let Default::Is(typed) = key.default
            && let Some(plain) = plain(typed)
        {
            property.insert("default".to_owned(), plain);
        }
    }
    property
}

/// The ends of a range where the value may be a plain number; those of a text are the reader's to check.
fn bound(property: &mut Value, range: Range) {
    let Some((least, most)) = range.numbers() else { return };
    let number = property.get_mut("anyOf").and_then(|ways| ways.get_mut(0)).and_then(Value::as_object_mut);
    if let Some(number) = number {
        number.remove("exclusiveMinimum");
        number.insert("minimum".to_owned(), json!(least));
        number.insert("maximum".to_owned(), json!(most));
    }
}

/// A default that is written as a value, and not in words.
fn plain(typed: &str) -> Option<Value> {
    let table: toml::Table = format!("value = {typed}").parse().ok()?;
    serde_json::to_value(table.get("value")?).ok()
}

fn value(file: &File, shape: Shape) -> Value {
    let table = |name: &str| Value::Object(object(file, file.heading(name)));
    let list = |each: Value| json!({ "type": "array", "items": each });
    match shape {
        Shape::Name => name(),
        Shape::Text
        | Shape::Duration
        | Shape::Days
        | Shape::Temperature
        | Shape::Degrees
        | Shape::Weight
        | Shape::Volume
        | Shape::WeightOrVolume => text(),
        Shape::TextOrBlank => json!({ "type": "string" }),
        Shape::Date => json!({ "type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$" }),
        Shape::Time => json!({ "type": "string", "pattern": r"^\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?$" }),
        Shape::Moment => json!({ "type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}[Tt ]\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?$" }),
        Shape::TrueFalse => json!({ "type": "boolean" }),
        Shape::Number => json!({ "anyOf": [{ "type": "number", "exclusiveMinimum": 0 }, text()] }),
        Shape::NumberOrZero => json!({ "anyOf": [{ "type": "number", "minimum": 0 }, text()] }),
        Shape::WholeNumber => json!({ "anyOf": [{ "type": "integer", "minimum": 0 }, text()] }),
        Shape::Share => json!({ "anyOf": [{ "type": "number", "minimum": 0, "maximum": 1 }, text()] }),
        Shape::Amount | Shape::Money => json!({ "anyOf": [{ "type": "number", "minimum": 0 }, text()] }),
        Shape::OneOf(words) => json!({ "type": "string", "enum": words }),
        Shape::Texts => json!({ "anyOf": [text(), list(text())] }),
        Shape::Names => json!({ "anyOf": [name(), list(name())] }),
        Shape::Lines(heading) => json!({ "anyOf": [text(), list(json!({ "anyOf": [text(), table(heading)] }))] }),
        Shape::TextsOr(heading) => json!({ "anyOf": [text(), list(json!({ "anyOf": [text(), table(heading)] }))] }),
        Shape::TextOr(heading) => json!({ "anyOf": [text(), table(heading)] }),
        Shape::WeightOrTable => json!({ "anyOf": [text(), { "type": "object", "additionalProperties": text() }] }),
        Shape::Allergens => {
            let words: Vec<&str> = Allergen::ALL.iter().map(|(_, name)| *name).collect();
            json!({ "anyOf": [text(), list(json!({ "type": "string", "examples": words }))] })
        }
        Shape::NumberOr(heading) => json!({ "anyOf": [{ "type": "integer", "minimum": 0 }, text(), list(table(heading))] }),
        Shape::NumberOrNamed => {
            let whole = value(file, Shape::WholeNumber);
            json!({ "anyOf": [whole, { "type": "object", "additionalProperties": whole }] })
        }
        Shape::Table(heading) => table(heading),
        Shape::Tables(heading) => list(table(heading)),
        Shape::Named(each) => json!({ "type": "object", "additionalProperties": value(file, *each) }),
    }
}

fn text() -> Value {
    json!({ "type": "string", "minLength": 1 })
}

/// As the reader wants it: not too long, and nothing in it that cannot be seen.
fn name() -> Value {
    json!({ "type": "string", "minLength": 1, "maxLength": LETTERS, "pattern": SEEN })
}

/// The letters of [`is_unseen`](crate::words::marks::is_unseen), none of them.
const SEEN: &str = r"^[^\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]*$";
