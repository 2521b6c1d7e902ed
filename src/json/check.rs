//! Every mistake and every warning of a kitchen.

use schemars::JsonSchema;
use serde::Serialize;

use crate::kitchen;
use crate::kitchen::Warning;

#[derive(JsonSchema, Serialize)]
pub(super) struct Checked<'a> {
    mistakes: Vec<Mistake<'a>>,
    warnings: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct Mistake<'a> {
    file: &'a str,
    line: u32,
    column: u32,
    cause: &'a str,
    remedy: &'a str,
}

pub fn check<'a>(mistakes: &'a [kitchen::Mistake], warnings: &[Warning]) -> impl Serialize + 'a {
    let mistakes = mistakes.iter().map(|mistake| Mistake {
        file: &mistake.at.file,
        line: mistake.at.line,
        column: mistake.at.column,
        cause: &mistake.cause,
        remedy: &mistake.remedy,
    });
    Checked { mistakes: mistakes.collect(), warnings: warnings.iter().map(Warning::to_string).collect() }
}
