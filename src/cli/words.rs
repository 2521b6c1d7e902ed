//! Dates and places as a terminal shows them.

use jiff::civil::Date;

use crate::foods::Place;

/// "Sat 28 Nov".
pub fn day(date: Date) -> String {
    date.strftime("%a %-d %b").to_string()
}

/// "Sat 28 Nov 2026".
pub fn day_year(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// "Sat 28 Nov", with the year where it is another than that of `from`.
pub fn day_after(date: Date, from: Date) -> String {
    if date.year() == from.year() { day(date) } else { day_year(date) }
}

pub fn place(place: Place) -> &'static str {
    match place {
        Place::Cupboard => "cupboard",
        Place::Fridge => "fridge",
        Place::Freezer => "freezer",
    }
}
