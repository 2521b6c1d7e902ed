//! What was thrown away, by month and food, in amounts and in money. Bookings that were taken back do not count.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::ledger::Entry;
use super::record::Named;
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
    /// `None` where the price of some of it was not known.
    pub value: Option<Money>,
}

/// Of the bookings that stand.
pub fn wasted(thrown_away: &[Entry]) -> Wasted {
    let mut waste = WasteSum::default();
    thrown_away.iter().for_each(|entry| waste.add(entry));
    waste.into_rows()
}

/// Waste as it is added up.
#[derive(Debug, Default)]
struct WasteSum {
    rows: BTreeMap<(Date, Named, Dimension), Sum>,
}

#[derive(Debug, Default)]
struct Sum {
    amount: Number,
    known: Money,
    is_partial: bool,
}

impl WasteSum {
    fn add(&mut self, entry: &Entry) {
        // What is left of a pack that was opened for it comes back as a lot of its own.
        for change in &entry.changes {
            let Some(lot) = change.from.as_ref().or(change.to.as_ref()) else { continue };
            let month = entry.on.first_of_month();
            let sum = self.rows.entry((month, lot.named(), lot.amount.dimension.clone())).or_default();
            sum.amount += &change.from.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
            sum.amount -= &change.to.as_ref().map_or(Number::ZERO, |lot| lot.amount.number.clone());
            sum.known += change.worth.map_or(Money::ZERO, Money);
            sum.is_partial |= change.from.is_some() && change.worth.is_none();
        }
    }

    fn into_rows(self) -> Wasted {
        let value = self.rows.values().map(|sum| sum.known).sum();
        let row = |((month, of, dimension), sum): ((Date, Named, Dimension), Sum)| {
            let value = (!sum.is_partial).then_some(sum.known);
            WasteRow { month, of, amount: Quantity::of(&dimension, sum.amount), value }
        };
        Wasted { rows: self.rows.into_iter().map(row).collect(), value }
    }
}
