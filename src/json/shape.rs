//! The shapes of plain values in a JSON Schema, where the type that is written has none of its own.

use jiff::civil::DateTime;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

use crate::book::Exact;
use crate::foods::{Allergen, Place};
use crate::measure::Quantity;

/// A shape without a name of its own in the schema's `$defs`.
macro_rules! shape {
    ($($type:ty, $name:literal, $schema:tt;)*) => { $(
        impl JsonSchema for $type {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> std::borrow::Cow<'static, str> {
                $name.into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!($schema)
            }
        }
    )* };
}

/// `2026-11-30`.
pub struct OnDate;

/// `2026-11-30T18:30`.
pub struct AtTime;

/// As answers write a time: `2026-11-30T18:30`.
pub(super) fn minute(at: DateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

shape! {
    OnDate, "Date", { "type": "string", "format": "date" };
    AtTime, "Time", { "type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$" };
    Place, "Place", { "type": "string", "enum": ["cupboard", "fridge", "freezer"] };
    Allergen, "Allergen", { "type": "string", "enum": Allergen::ALL.map(|(_, name)| name) };
    Quantity, "Amount", {
        "type": "object",
        "properties": { "amount": { "type": "number" }, "unit": { "type": "string" } },
        "required": ["amount", "unit"],
        "additionalProperties": false,
    };
    Exact, "ExactAmount", {
        "description": "A number, or a text where only a fraction is exact",
        "type": "object",
        "properties": { "amount": { "type": ["number", "string"] }, "unit": { "type": "string" } },
        "required": ["amount", "unit"],
        "additionalProperties": false,
    };
}
