//! What was thrown away, by month and food, in money.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::booking::{Booking, Verb};
use super::record::Named;
use super::sum::standing;
use crate::measure::Money;

#[derive(Debug, Clone, PartialEq)]
pub struct Wasted {
    /// By month; within it foods by name, then cooked recipes.
    pub rows: Vec<WasteRow>,
    pub value: Money,
}

#[derive(Debug, Clone, PartialEq)]
pub struct WasteRow {
    /// Its first day.
    pub month: Date,
    pub of: Named,
    /// `None` where no price was known of any of it.
    pub value: Option<Money>,
}

/// Bookings that were taken back do not count.
pub fn wasted(bookings: &[Booking]) -> Wasted {
    let mut rows: BTreeMap<(Date, Named), Option<Money>> = BTreeMap::new();
    for booking in standing(bookings).into_iter().filter(|booking| booking.verb == Verb::Waste) {
        for change in &booking.changes {
            let Some(lot) = &change.from else { continue };
            let row = rows.entry((booking.on.first_of_month(), lot.named())).or_default();
            if let Some(worth) = change.worth {
                *row = Some(row.unwrap_or_default() + Money(worth));
            }
        }
    }
    let value = rows.values().flatten().copied().sum();
    let rows = rows.into_iter().map(|((month, of), value)| WasteRow { month, of, value });
    Wasted { rows: rows.collect(), value }
}
