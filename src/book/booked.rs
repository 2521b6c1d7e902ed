//! What the book says is done: trips, sessions, meals, count sheets.

use std::collections::BTreeSet;

use jiff::civil::{Date, DateTime};

use super::chain::Book;
use super::purchases::{Purchase, purchases};
use super::record::{LotRecord, records};
use super::sum::{covered, sum, with_paid};
use crate::kitchen::{CountForm, Kitchen, Meal};
use crate::measure::Money;
use crate::store::sha256;

/// What has been booked and not taken back.
#[derive(Debug, Clone, Default)]
pub struct Booked {
    covers: BTreeSet<String>,
    /// The lots that the book adds up to.
    lots: Vec<LotRecord>,
    purchases: Vec<Purchase>,
}

impl Booked {
    pub fn by(book: &Book) -> Booked {
        Booked { covers: covered(&book.bookings), lots: sum(&book.bookings), purchases: purchases(&book.bookings) }
    }

    pub fn has_trip(&self, on: Date) -> bool {
        self.covers.contains(&trip_key(on))
    }

    pub fn has_session(&self, start: DateTime) -> bool {
        self.covers.contains(&session_key(start))
    }

    pub fn has_meal(&self, meal: &Meal) -> bool {
        self.covers.contains(&meal_key(meal))
    }

    /// What was paid for what was bought from one day to another.
    pub fn paid_between(&self, first: Date, last: Date) -> Money {
        self.purchases.iter().filter(|purchase| first <= purchase.on && purchase.on <= last).map(|purchase| purchase.paid).sum()
    }

    pub fn has_count(&self, form: &CountForm) -> bool {
        self.covers.contains(&count_key(form))
    }

    /// Says of the kitchen's lots what was paid for them, where the book knows it.
    pub fn tell_prices(&self, kitchen: &mut Kitchen) {
        let known = with_paid(records(kitchen), &self.lots);
        for (lot, known) in kitchen.lots.iter_mut().zip(known) {
            lot.paid = known.unit_price();
        }
    }
}

/// How the book names a trip.
pub fn trip_key(on: Date) -> String {
    format!("trip {on}")
}

/// How the book names a session.
pub fn session_key(start: DateTime) -> String {
    format!("session {}", start.strftime("%Y-%m-%dT%H:%M"))
}

/// How the book names a meal.
pub fn meal_key(meal: &Meal) -> String {
    format!("meal {} {}", meal.at_time, meal.name.as_deref().unwrap_or(&meal.label))
}

/// How the book names a count sheet: the same sheet is not booked twice.
pub fn count_key(form: &CountForm) -> String {
    format!("count {}", &sha256(form.text.as_bytes())[..16])
}
