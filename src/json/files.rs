//! Which files were written.

use std::path::Path;

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::OnDate;

#[derive(JsonSchema, Serialize)]
pub(super) struct Files {
    files: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
pub(super) struct WeekFiles<'a> {
    week: &'a str,
    #[schemars(with = "OnDate")]
    from: Date,
    files: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
pub(super) struct KitchenFiles {
    kitchen: String,
    files: Vec<String>,
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

pub fn files<'p>(paths: impl Iterator<Item = &'p Path>) -> impl Serialize {
    Files { files: paths.map(shown).collect() }
}

/// The sheets of a week.
pub fn week_files<'p>(week: &str, from: Date, paths: impl Iterator<Item = &'p Path>) -> impl Serialize {
    WeekFiles { week, from, files: paths.map(shown).collect() }
}

/// A new kitchen.
pub fn kitchen_files<'p>(folder: &Path, paths: impl Iterator<Item = &'p Path>) -> impl Serialize {
    KitchenFiles { kitchen: shown(folder), files: paths.map(shown).collect() }
}
