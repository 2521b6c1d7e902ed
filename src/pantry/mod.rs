//! Lots, and netting: first expired, first out.

mod dates;
mod netting;
mod shelf;
mod staples;

pub use dates::{LotDates, after_days, lot_dates};
pub use netting::{Netted, last_day, net};
pub use shelf::{Shelf, Taken};
pub use staples::TopUp;

#[cfg(test)]
mod tests;
