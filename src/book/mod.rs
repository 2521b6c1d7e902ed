//! The book: what went into and out of the pantry, one booking after the other. Pure: texts in, texts out.
//!
//! ```text
//! book = { booking "\n" }                 one JSON object a line, each with the SHA-256 of the line before and of itself
//! booking = changes of lots               from a lot to what is left of it, to nothing, or from nothing to a new lot
//! shelf = the sum of all changes          a bag of lots: their order in pantry.toml is the household's own
//! ```

mod bench;
mod booking;
mod chain;
mod count;
mod count_sheet;
mod edit;
mod goods_form;
mod issue;
mod out;
mod receive;
mod record;
mod seen;
mod sum;
mod wasted;

pub use bench::{Bench, Missing};
pub use booking::{Booking, Change, FileChange, Verb};
pub use chain::{Book, Broken, sha256};
pub use count::{Difference, Differences, count, count_key, differences};
pub use count_sheet::{CountLine, CountPlace, count_form, count_lines};
pub use edit::edit_lots;
pub use goods_form::{fill, goods_form};
pub use issue::{issue_meal, issue_session, meal_key, session_key};
pub use out::{NotTaken, take_amount, take_food, take_recipe, worth_taken};
pub use receive::{Exceptions, Goods, except, goods_of, put_all, receive, trip_key};
pub use record::{Exact, LotRecord, Paid, as_lot, records};
pub use seen::seen_prices;
pub use sum::{covered, difference, last_standing, reversed, standing, sum, with_paid};
pub use wasted::{WasteRow, Wasted, wasted};

#[cfg(test)]
mod tests;
