//! A JSON Schema (2020-12) of what each verb writes with `--format json`, derived from the very types that write it.

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde_json::{Map, Value, json};

use super::{adopted, booked, check, compose, convert, count, day, files, food, keys, list, prep, recipe, stock};

/// What a verb writes, one of several where its flags ask for something else.
type Row = (&'static str, &'static [fn(&mut SchemaGenerator) -> Schema]);

fn of<T: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    generator.subschema_for::<T>()
}

/// Every verb that has an answer, in the order of the manual. The others (`completions`, `man`) write texts for other programs.
const ROWS: &[Row] = &[
    ("start", &[of::<files::KitchenFiles>]),
    ("adopt", &[of::<adopted::Adopted>]),
    ("check", &[of::<check::Checked>]),
    ("list", &[of::<list::List>]),
    ("prep", &[of::<prep::Prep>]),
    ("compose", &[of::<compose::Proposed>, of::<compose::Clashed>, of::<compose::Nothing>, of::<compose::Counted>]),
    ("print", &[of::<files::WeekFiles>, of::<files::Files>]),
    ("handout", &[of::<files::WeekFiles>]),
    ("stock", &[of::<stock::Shelf>, of::<stock::Waste>]),
    ("receive", &[of::<booked::Booked>, of::<files::Files>]),
    ("issue", &[of::<booked::Booked>]),
    ("count", &[of::<count::Count>, of::<files::Files>]),
    ("look", &[of::<count::Look>]),
    ("waste", &[of::<booked::Booked>]),
    ("book", &[of::<booked::Shown>]),
    ("undo", &[of::<booked::Booked>]),
    ("day", &[of::<day::Day>]),
    ("skip", &[of::<booked::Changed>]),
    ("exchange", &[of::<booked::Changed>]),
    ("food", &[of::<food::Card>]),
    ("recipe", &[of::<recipe::Card>]),
    ("keys", &[of::<Vec<keys::WrittenKey>>, of::<files::Files>]),
    ("convert", &[of::<convert::Answer>]),
];

/// Each verb and the schema of its output.
///
/// ```
/// let schemas = spence::json::output_schemas();
/// let (_, day) = schemas.iter().find(|(verb, _)| *verb == "day").expect("day has an answer");
/// assert_eq!(day["title"], "spence day --format json");
/// ```
pub fn output_schemas() -> Vec<(&'static str, Value)> {
    ROWS.iter().map(|(verb, shapes)| (*verb, schema(verb, shapes))).collect()
}

fn schema(verb: &str, shapes: &[fn(&mut SchemaGenerator) -> Schema]) -> Value {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut told: Vec<Value> = shapes.iter().map(|shape| shape(&mut generator).to_value()).collect();
    let mut definitions = Value::Object(generator.take_definitions(true));
    close(&mut definitions);
    let mut whole = Map::new();
    whole.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
    whole.insert("title".to_owned(), json!(format!("spence {verb} --format json")));
    match (told.pop(), told.is_empty()) {
        (Some(Value::Object(one)), true) => whole.extend(one),
        (Some(last), _) => {
            told.push(last);
            whole.insert("anyOf".to_owned(), Value::Array(told));
        }
        (None, _) => {}
    }
    whole.insert("$defs".to_owned(), definitions);
    Value::Object(whole)
}

/// An answer has no keys but those that are told: where keys are spread over parts, those of all parts count.
fn close(definitions: &mut Value) {
    let Value::Object(definitions) = definitions else { return };
    for definition in definitions.values_mut().filter_map(Value::as_object_mut) {
        if definition.contains_key("properties") && !definition.contains_key("additionalProperties") {
            definition.insert("unevaluatedProperties".to_owned(), json!(false));
        }
    }
}
