//! What a count found otherwise than booked.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::Of;
use super::shape::OnDate;
use crate::book::{Booking, Difference, Differences};
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
    place: Place,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
    booked: &'a Quantity,
    counted: &'a Quantity,
    difference: &'a Quantity,
    value: Option<String>,
}

/// `counted` lots were counted; `booked` is what was written into the book.
pub fn count<'a>(counted: usize, found: &'a Differences, booked: &'a [Booking], names: Names<'a>) -> impl Serialize + 'a {
    let row = |row: &'a Difference| Row {
        of: Of::named(&row.of),
        place: row.place,
        until: row.until,
        booked: &row.booked,
        counted: &row.counted,
        difference: &row.difference,
        value: row.value.map(|value| names.money(value)),
    };
    Count { counted, differences: found.rows.iter().map(row).collect(), value: names.money(found.value), booked }
}
