//! What a count found otherwise than booked.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::OnDate;
use super::{Of, Theirs};
use crate::book::{Booking, CountLine, Difference, Differences, Exact};
use crate::foods::Place;
use crate::kitchen::Names;
use crate::measure::Quantity;

#[derive(JsonSchema, Serialize)]
pub(super) struct Count<'a> {
    /// How many lots.
    counted: usize,
    differences: Vec<Row<'a>>,
    value: String,
    booked: &'a [Booking],
}

#[derive(JsonSchema, Serialize)]
struct Row<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    place: Place,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
    booked: &'a Quantity,
    counted: &'a Quantity,
    difference: &'a Quantity,
    value: Option<String>,
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Look<'a> {
    /// In the order of the shelf.
    asked: Vec<Asked<'a>>,
    #[serde(flatten)]
    count: Count<'a>,
}

#[derive(JsonSchema, Serialize)]
struct Asked<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: Quantity,
    /// The size of one, where it lies in closed packs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pack: Option<Quantity>,
    place: Place,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
}

/// What was asked for, and what the answers came to.
pub fn look<'a>(
    asked: &[&'a CountLine],
    counted: usize,
    found: &'a Differences,
    booked: &'a [Booking],
    names: Names<'a>,
) -> impl Serialize + 'a {
    let row = |line: &&'a CountLine| Asked {
        of: match (&line.lot.food, &line.lot.recipe) {
            (Some(food), _) => Of::Food(food),
            (None, recipe) => Of::Recipe(recipe.as_deref().unwrap_or_default()),
        },
        whose: Theirs { eater: line.lot.eater.clone(), without: line.lot.without.clone() },
        amount: line.lot.amount.quantity(),
        pack: line.lot.pack.as_ref().map(Exact::quantity),
        place: line.lot.place,
        until: line.until,
    };
    Look { asked: asked.iter().map(row).collect(), count: counts(counted, found, booked, names) }
}

/// `counted` lots were counted; `booked` is what was written into the book.
pub fn count<'a>(counted: usize, found: &'a Differences, booked: &'a [Booking], names: Names<'a>) -> impl Serialize + 'a {
    counts(counted, found, booked, names)
}

fn counts<'a>(counted: usize, found: &'a Differences, booked: &'a [Booking], names: Names<'a>) -> Count<'a> {
    let row = |row: &'a Difference| Row {
        of: Of::named(&row.of),
        whose: Theirs::of(row.whose.as_ref(), names),
        place: row.place,
        until: row.until,
        booked: &row.booked,
        counted: &row.counted,
        difference: &row.difference,
        value: row.value.map(|value| names.money(value)),
    };
    Count { counted, differences: found.rows.iter().map(row).collect(), value: names.money(found.value), booked }
}
