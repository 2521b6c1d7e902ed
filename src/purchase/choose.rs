//! From needs to trips, shops, sections and lines.

use super::TripList;
use crate::kitchen::{Kitchen, Warning, Week};
use crate::measure::Money;
use crate::plan::Need;

/// What is bought where.
#[derive(Debug, Clone, PartialEq)]
pub struct Basket {
    /// One a trip of the week, in date order, also where there is nothing to buy.
    pub trips: Vec<TripList>,
    pub cost: Money,
    /// Foods bought without a price, or sold by nobody, in alphabetical order.
    pub no_price: Vec<String>,
    pub warnings: Vec<Warning>,
}

/// The exact choice of packs and shops for every trip.
pub fn choose(kitchen: &Kitchen, week: &Week, needs: &[Need]) -> Basket {
    let _ = (kitchen, week, needs);
    todo!()
}
