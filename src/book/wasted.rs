//! What was thrown away, by month and food, in amounts and in money.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::booking::{Booking, Verb};
use super::record::Named;
use super::sum::standing;
use crate::measure::{Dimension, Money, Number, Quantity};

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
    /// A food in two measures has two rows.
    pub amount: Quantity,
    /// `None` where no price was known of any of it.
    pub value: Option<Money>,
}

/// Bookings that were taken back do not count.
pub fn wasted(bookings: &[Booking]) -> Wasted {
    let mut waste = WasteSum::default();
    standing(bookings).into_iter().filter(|booking| booking.verb == Verb::Waste).for_each(|booking| waste.add(booking));
    waste.into_rows()
}

/// Waste as it is added up.
#[derive(Debug, Default)]
struct WasteSum {
    rows: BTreeMap<(Date, Named, Dimension), (Number, Option<Money>)>,
}

impl WasteSum {
    fn add(&mut self, booking: &Booking) {
        // What is left of a pack that was opened for it comes back as a lot of its own.
        for change in &booking.changes {
            let Some(lot) = change.from.as_ref().or(change.to.as_ref()) else { continue };
            let month = booking.on.first_of_month();
            let (amount, value) = self.rows.entry((month, lot.named(), lot.amount.dimension.clone())).or_default();
            *amount += &change.from.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
            *amount -= &change.to.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
            if let Some(worth) = change.worth {
                *value = Some(value.unwrap_or_default() + Money(worth));
            }
        }
    }

    fn into_rows(self) -> Wasted {
        let value = self.rows.values().filter_map(|(_, value)| *value).sum();
        let row = |((month, of, dimension), (amount, value))| WasteRow { month, of, amount: Quantity::of(&dimension, amount), value };
        Wasted { rows: self.rows.into_iter().map(row).collect(), value }
    }
}
