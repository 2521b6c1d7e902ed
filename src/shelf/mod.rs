//! What lies on the shelf: until when a lot is good, how lots are drawn, first expired first out, and what a unit of a food is worth.
//!
//! Netting and the book draw by the same code and price by the same figures. Knows no plan and no book.

mod dates;
mod draw;
mod home;
mod opened;
mod price;

pub use dates::{LotDates, after_days, lot_dates};
pub use draw::{First, Shelf, Taken, When};
pub use home::home;
pub use opened::{counts_packs, food_rate, is_near_a_tin, once_opened};
pub use price::{Prices, rounded, worth};

#[cfg(test)]
mod tests;
