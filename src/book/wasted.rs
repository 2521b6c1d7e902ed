//! What was thrown away, by month and food, in money.

use std::collections::BTreeMap;

use serde::Serialize;

use super::booking::{Booking, Verb};
use super::sum::standing;
use crate::measure::{Currency, Money};

#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Wasted {
    /// By month; within it foods by name, then cooked recipes.
    pub waste: Vec<WasteRow>,
    pub value: String,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WasteRow {
    /// `2026-12`.
    pub month: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub food: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recipe: Option<String>,
    /// `None` where no price was known of any of it.
    pub value: Option<String>,
}

/// Bookings that were taken back do not count.
pub fn wasted(bookings: &[Booking], currency: &Currency) -> Wasted {
    let mut rows: BTreeMap<(String, bool, String), Option<i64>> = BTreeMap::new();
    for booking in standing(bookings).into_iter().filter(|booking| booking.verb == Verb::Waste) {
        for change in &booking.changes {
            let Some(lot) = &change.from else { continue };
            let key = (booking.on.strftime("%Y-%m").to_string(), lot.recipe.is_some(), lot.name().to_owned());
            let row = rows.entry(key).or_default();
            if let Some(worth) = change.worth {
                *row = Some(row.unwrap_or_default() + worth);
            }
        }
    }
    let total: i64 = rows.values().flatten().sum();
    let row = |((month, cooked, name), value): ((String, bool, String), Option<i64>)| WasteRow {
        month,
        food: (!cooked).then(|| name.clone()),
        recipe: cooked.then_some(name),
        value: value.map(|minor| Money(minor).decimal(currency)),
    };
    Wasted { waste: rows.into_iter().map(row).collect(), value: Money(total).decimal(currency) }
}
