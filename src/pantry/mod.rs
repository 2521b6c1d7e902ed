//! Demand against the shelf, staples, and what is in stock.

mod incomparable;
mod netting;
mod otherwise;
mod staples;
mod stock;

pub use netting::{Netted, last_day, net};
pub use otherwise::{LiesOtherwise, lies_otherwise};
pub use staples::TopUp;
pub use stock::{Stock, StockLot, StockPlace, goes_off, stock};
