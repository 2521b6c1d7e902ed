//! What is on the shelf, and what was thrown away.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::OnDate;
use super::{Of, Theirs};
use crate::book::{Named, WasteRow, Wasted};
use crate::foods::Place;
use crate::kitchen::Names;
use crate::measure::Quantity;
use crate::pantry::{LiesOtherwise, Stock, StockLot, StockPlace};

#[derive(JsonSchema, Serialize)]
pub(super) struct Shelf<'a> {
    places: Vec<Shelved<'a>>,
    value: String,
    /// Where something is not booked and taken as done: what lies otherwise then.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    taken_as_done: Vec<Otherwise<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Otherwise<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    /// With what is taken as done.
    amount: &'a Quantity,
    booked: &'a Quantity,
    place: Place,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
}

#[derive(JsonSchema, Serialize)]
struct Shelved<'a> {
    place: Place,
    lots: Vec<Lot<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Lot<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: &'a Quantity,
    /// The size of one, where it lies in closed packs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pack: Option<&'a Quantity>,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
    estimate: bool,
    value: Option<String>,
}

/// `otherwise` is what lies there with what is taken as done, and is not as booked.
pub fn stock<'a>(stock: &'a Stock, otherwise: &'a [LiesOtherwise], names: Names<'a>) -> impl Serialize + 'a {
    let lot = |lot: &'a StockLot| Lot {
        of: Of::ware(lot.of, names),
        whose: Theirs::of(lot.whose.as_ref(), names),
        amount: &lot.amount,
        pack: lot.pack.as_ref(),
        until: lot.until,
        estimate: lot.estimate,
        value: lot.value.map(|value| names.money(value)),
    };
    let shelved = |shelf: &'a StockPlace| Shelved { place: shelf.place, lots: shelf.lots.iter().map(lot).collect() };
    let row = |row: &'a LiesOtherwise| Otherwise {
        of: Of::ware(row.of, names),
        whose: Theirs::of(row.whose.as_ref(), names),
        amount: &row.taken,
        booked: &row.booked,
        place: row.place,
        until: row.until,
    };
    let taken_as_done = otherwise.iter().map(row).collect();
    Shelf { places: stock.places.iter().map(shelved).collect(), value: names.money(stock.value), taken_as_done }
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Waste<'a> {
    waste: Vec<Row<'a>>,
    value: String,
}

#[derive(JsonSchema, Serialize)]
struct Row<'a> {
    /// `2026-12`.
    month: String,
    #[serde(flatten)]
    of: Of<'a>,
    amount: &'a Quantity,
    value: Option<String>,
}

pub fn wasted<'a>(wasted: &'a Wasted, names: Names<'a>) -> impl Serialize + 'a {
    let row = |row: &'a WasteRow| Row {
        month: row.month.strftime("%Y-%m").to_string(),
        of: Of::named(&row.of),
        amount: &row.amount,
        value: row.value.map(|value| names.money(value)),
    };
    Waste { waste: wasted.rows.iter().map(row).collect(), value: names.money(wasted.value) }
}

impl<'a> Of<'a> {
    pub(super) fn named(of: &'a Named) -> Of<'a> {
        match of {
            Named::Food(name) => Of::Food(name),
            Named::Recipe(id) => Of::Recipe(id),
        }
    }
}
