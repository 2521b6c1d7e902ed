//! The keys of the household's files.

use schemars::JsonSchema;
use serde::Serialize;

use crate::kitchen::keys::{File, Heading, Key, Range};

#[derive(JsonSchema, Serialize)]
pub(super) struct WrittenKey {
    file: &'static str,
    heading: &'static str,
    key: &'static str,
    #[serde(rename = "type")]
    shape: String,
    default: &'static str,
    /// Between what a figure may lie.
    range: Option<String>,
    meaning: &'static str,
    example: &'static str,
}

pub fn keys(keys: impl Iterator<Item = (&'static File, &'static Heading, &'static Key)>) -> impl Serialize {
    let row = |(file, heading, key): (&'static File, &'static Heading, &'static Key)| WrittenKey {
        file: file.name,
        heading: heading.name,
        key: key.name,
        shape: key.shape.words(),
        default: key.default.words(),
        range: key.range().map(Range::words),
        meaning: key.meaning,
        example: key.example,
    };
    keys.map(row).collect::<Vec<_>>()
}
