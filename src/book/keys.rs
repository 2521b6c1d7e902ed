//! How the book names what a booking is of: trips, their lines, sessions, meals, count sheets.

use jiff::civil::{Date, DateTime};

use crate::kitchen::{CountForm, Meal, Trip};
use crate::store::sha256;

/// How a key of the book begins that names one line of a trip.
pub(super) const LINE: &str = "line ";

/// How a key begins that names a trip.
pub(super) const TRIP: &str = "trip ";

/// How a key begins that names a meal.
pub(super) const MEAL: &str = "meal ";

/// How a key begins that names a session.
pub(super) const SESSION: &str = "session ";

/// How it goes on after the day of a trip of its own.
const OWN: &str = " of its own";

/// How many letters a day has.
const DATE: usize = "2026-11-28".len();

/// How the book names a trip: its day, and from the second of one day on its number.
pub fn trip_key(on: Date, nth: usize) -> String {
    format!("{TRIP}{on}{}", number(nth))
}

/// How the book names one line of a trip, where they are booked apart: the food, and from its second line on the line's number.
pub fn line_key((on, trip): (Date, usize), food: &str, nth: usize) -> String {
    format!("{LINE}{on}{} {food}{}", number(trip), number(nth))
}

/// What of a key names the food, where it is of a line of that trip; `None` of another trip, be it of the same day.
pub(super) fn food_of_line(key: &str, trip: (Date, usize)) -> Option<&str> {
    let rest = key.strip_prefix(&line_key(trip, "", 0))?;
    (!rest.starts_with('#') && !rest.starts_with(&OWN[1..])).then_some(rest)
}

/// Is a key of that trip, whole or one line of it?
pub fn is_of_trip(key: &str, trip: (Date, usize)) -> bool {
    key == trip_key(trip.0, trip.1) || food_of_line(key, trip).is_some()
}

/// The key that the same trip, or the same line of it, has once the trip stands elsewhere.
pub(super) fn with_trip(key: &str, then: (Date, usize), now: (Date, usize)) -> String {
    food_of_line(key, then).map_or_else(|| trip_key(now.0, now.1), |food| line_key(now, food, 0))
}

/// The trip of a week's file that a key is of, whole or one line of it; `None` of a trip of its own.
pub(super) fn trip_of(key: &str) -> Option<(Date, usize)> {
    let told = key.strip_prefix(TRIP).or_else(|| key.strip_prefix(LINE))?;
    let (on, rest) = told.split_at_checked(DATE)?;
    if rest.starts_with(OWN) {
        return None;
    }
    let nth = rest.strip_prefix(" #").map_or(Some(1), |rest| rest.split(' ').next()?.parse().ok())?;
    Some((on.parse().ok()?, usize::checked_sub(nth, 1)?))
}

fn number(nth: usize) -> String {
    match nth.checked_sub(Trip::OWN) {
        Some(nth) => format!("{OWN}{}", number(nth)),
        None if nth == 0 => String::new(),
        None => format!(" #{}", nth + 1),
    }
}

/// The trip of its own that a key names, what stands before its day taken off.
pub(super) fn own_trip(told: &str) -> Option<(Date, usize)> {
    let (on, rest) = told.split_at_checked(DATE)?;
    let number = rest.strip_prefix(OWN)?.strip_prefix(" #").map_or(Some(1), |number| number.parse().ok())?;
    Some((on.parse::<Date>().ok()?, Trip::OWN + number - 1))
}

/// How the book names a session.
pub fn session_key(start: DateTime) -> String {
    format!("{SESSION}{}", start.strftime("%Y-%m-%dT%H:%M"))
}

/// How the book names a meal.
pub fn meal_key(meal: &Meal) -> String {
    format!("{MEAL}{} {}", meal.at_time, meal.name.as_deref().unwrap_or(&meal.label))
}

/// How the book names a count sheet: the same sheet is not booked twice.
pub fn count_key(form: &CountForm) -> String {
    format!("count {}", &sha256(form.text.as_bytes())[..16])
}
