//! The household's files: reading, checking, pointing at mistakes. Nothing is computed here.

#[cfg(test)]
pub(crate) mod fixture;
mod line;
mod model;
mod price_book;
mod read;
mod start;
mod warning;

pub use line::{Line, LineError, LineOf, read_line};
pub use model::*;
pub use price_book::{NotWritten, SeenPrice, write_prices};
pub use read::{Loaded, find_kitchen, load};
pub use start::starter;
pub use warning::{Mistake, Spot, Warning};
