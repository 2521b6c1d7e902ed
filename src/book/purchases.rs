//! What was paid for what was bought, by day.

use jiff::civil::Date;

use super::booking::{Booking, Verb};
use super::record::LotRecord;
use super::sum::standing;
use crate::measure::Money;
use crate::shelf::rounded;

/// What one booking of goods in cost; without the fare, which no booking says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Purchase {
    pub on: Date,
    pub paid: Money,
}

/// Every purchase that stands.
pub fn purchases(bookings: &[Booking]) -> Vec<Purchase> {
    standing(bookings).into_iter().filter(|booking| booking.verb == Verb::Receive).map(purchase).collect()
}

fn purchase(booking: &Booking) -> Purchase {
    let trip = booking.covers.iter().find_map(|key| key.strip_prefix("trip ")?.get(..10)?.parse().ok());
    let new = || booking.changes.iter().filter(|change| change.from.is_none()).filter_map(|change| change.to.as_ref());
    let on = trip.or_else(|| new().filter_map(|lot| lot.since).max()).unwrap_or(booking.on);
    Purchase { on, paid: rounded(new().filter_map(paid).sum()) }
}

/// Minor units of money.
fn paid(lot: &LotRecord) -> Option<f64> {
    Some(lot.rate_paid()? * lot.amount.number.to_f64())
}
