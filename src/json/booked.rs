//! Bookings, each as its line of the book has it.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::OnDate;
use crate::book::{Booking, Entry, Verb};
use crate::kitchen::Meal;

#[derive(JsonSchema, Serialize)]
pub(super) struct Booked<'a> {
    booked: &'a [Booking],
    missing: &'a [String],
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Shown<'a> {
    bookings: Vec<Row<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Row<'a> {
    number: u64,
    #[schemars(with = "OnDate")]
    on: Date,
    verb: Verb,
    what: &'a str,
    why: Option<&'a str>,
}

/// The bookings that stand, in the order given.
pub fn book<'a>(bookings: &'a [Entry]) -> impl Serialize + 'a {
    let row = |booking: &'a Entry| Row {
        number: booking.number,
        on: booking.on,
        verb: booking.verb,
        what: &booking.what,
        why: booking.why.as_deref(),
    };
    Shown { bookings: bookings.iter().map(row).collect() }
}

#[derive(JsonSchema, Serialize)]
pub(super) struct Changed<'a> {
    changed: Vec<ChangedMeal<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct ChangedMeal<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    at: &'a str,
    meal: &'a str,
    file: &'a str,
}

/// The meals of week files that were changed.
pub fn changed_meals<'a>(meals: &[&'a Meal]) -> impl Serialize + 'a {
    let row = |meal: &&'a Meal| ChangedMeal {
        on: meal.at_time.date(),
        at: &meal.word,
        meal: meal.name.as_deref().unwrap_or(&meal.label),
        file: &meal.at.file,
    };
    Changed { changed: meals.iter().map(row).collect() }
}

/// `missing` is what was to be taken and is not on the shelf, in words.
pub fn booked<'a>(booked: &'a [Booking], missing: &'a [String]) -> impl Serialize + 'a {
    Booked { booked, missing }
}
