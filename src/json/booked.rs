//! Bookings, each as its line of the book has it.

use serde::Serialize;

use crate::book::Booking;

#[derive(Serialize)]
struct Booked<'a> {
    booked: &'a [Booking],
    missing: &'a [String],
}

/// `missing` is what was to be taken and is not on the shelf, in words.
pub fn booked<'a>(booked: &'a [Booking], missing: &'a [String]) -> impl Serialize + 'a {
    Booked { booked, missing }
}
