//! What was paid for what was bought, by day.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::booking::{Booking, Verb};
use super::record::{LotRecord, Paid};
use super::sum::standing;
use crate::measure::Money;
use crate::shelf::rounded;

/// What one booking of goods in cost, the way to the shops too.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Purchase {
    pub on: Date,
    /// The key of the trip, or of one of its lines; `None` of what was bought beside the plan.
    pub trip: Option<String>,
    pub paid: Money,
    /// Of a trip: what was paid for how much of each food, by its name; of two lines the first.
    pub prices: Vec<(String, Paid)>,
}

/// Every purchase that stands.
pub fn purchases(bookings: &[Booking]) -> Vec<Purchase> {
    standing(bookings).into_iter().filter(|booking| booking.verb == Verb::Receive).map(purchase).collect()
}

pub(super) fn purchase(booking: &Booking) -> Purchase {
    let gained = booking.changes.iter().filter(|change| change.from.is_none()).filter_map(|change| change.to.as_ref());
    let gained = gained.filter(|lot| is_bought(lot));
    purchase_of(booking.on, &booking.covers, &booking.fares, &gained.collect::<Vec<_>>())
}

/// What is left of a pack that was opened at once was bought with the pack.
pub(super) fn is_bought(lot: &LotRecord) -> bool {
    lot.opened.is_none()
}

/// Of a booking of that day, with what it is of and the lots it put down: of the trip's day, else of the day since when they lie there.
pub(super) fn purchase_of(booked_on: Date, covers: &[String], fares: &BTreeMap<String, i64>, gained: &[&LotRecord]) -> Purchase {
    let day_of = |key: &String| ["trip ", "line "].iter().find_map(|kind| key.strip_prefix(kind)?.get(..10)?.parse().ok());
    let key = covers.iter().find(|key| day_of(key).is_some());
    let trip = key.and_then(day_of);
    let on = trip.or_else(|| gained.iter().filter_map(|lot| lot.since).max()).unwrap_or(booked_on);
    let fares: Money = fares.values().copied().map(Money).sum();
    let mut prices: Vec<(String, Paid)> = Vec::new();
    for lot in gained.iter().filter(|_| trip.is_some()) {
        if let (Some(food), Some(paid)) = (&lot.food, &lot.paid)
            && prices.last().is_none_or(|(last, _)| last != food)
        {
            prices.push((food.clone(), paid.clone()));
        }
    }
    Purchase { on, trip: key.cloned(), paid: rounded(gained.iter().filter_map(|lot| paid(lot)).sum()) + fares, prices }
}

/// Minor units of money.
fn paid(lot: &LotRecord) -> Option<f64> {
    Some(lot.rate_paid()? * lot.amount.number.to_f64())
}
