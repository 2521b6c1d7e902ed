//! One conversion, with the facts used.

use schemars::JsonSchema;
use serde::Serialize;

use crate::foods::UsedFact;

#[derive(JsonSchema, Serialize)]
pub(super) struct Answer<'a> {
    /// As typed.
    from: &'a str,
    to: Converted<'a>,
    chain: Vec<Used<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Converted<'a> {
    amount: f64,
    unit: &'a str,
}

#[derive(JsonSchema, Serialize)]
struct Used<'a> {
    fact: &'a str,
    value: &'a str,
    source: &'a str,
}

/// `from` as typed is so many of `unit`, by these facts in the order of their use.
pub fn convert<'a>(from: &'a str, amount: f64, unit: &'a str, chain: &'a [UsedFact]) -> impl Serialize + 'a {
    let used = |used: &'a UsedFact| Used { fact: &used.fact, value: &used.value, source: &used.source };
    Answer { from, to: Converted { amount, unit }, chain: chain.iter().map(used).collect() }
}
