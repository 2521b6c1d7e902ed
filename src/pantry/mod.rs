//! Lots, and netting: first expired, first out.

pub mod book;
mod dates;
mod netting;
mod shelf;
mod staples;
mod stock;
mod worth;

pub use dates::{LotDates, after_days, lot_dates};
pub use netting::{Netted, last_day, net};
pub use shelf::{Shelf, Taken};
pub use staples::TopUp;
pub use stock::{Stock, StockLot, StockPlace, goes_off, stock};
pub use worth::{cheapest, worth};

#[cfg(test)]
mod tests;
