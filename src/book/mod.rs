//! The book: what went into and out of the pantry, one booking after the other. It reads what purchase and prep answered.
//!
//! ```text
//! book = { booking "\n" }                 one JSON object a line, each with the SHA-256 of the line before and of itself
//! booking = changes of lots               from a lot to what is left of it, to nothing, or from nothing to a new lot
//! shelf = the sum of all changes          a bag of lots: their order in pantry.toml is the household's own
//! ```
//!
//! Only `keeping` touches files, through the store; all else is pure: texts and plain data in and out. Knows no terminal.

mod bag;
mod bench;
mod booked;
mod booking;
mod bookings;
mod chain;
mod container;
mod count;
mod count_sheet;
mod edit;
mod goods;
mod goods_form;
mod hashes;
mod issue;
mod keeping;
mod keys;
mod lacks;
mod lately;
mod ledger;
mod made_good;
mod moved;
mod next;
mod out;
mod purchases;
mod read_back;
mod receive;
mod record;
mod seen;
mod sum;
mod typed;
mod wasted;
mod went_in;

pub use bench::{Bench, Took};
pub use booked::Booked;
pub use booking::{Booking, Change, Cooked, InWeek, Verb};
pub use bookings::{Draft, Eaten, NotWasted, bought, bought_beside, cooked, eaten, found, looked, taken_back, taking_back, thrown_away};
pub use chain::{Book, Broken};
pub use count::{Difference, Differences, count, differences, may_be_written_over};
pub use count_sheet::{CountLine, CountPlace, count_form, count_lines};
pub use edit::edit_lots;
pub use goods::{Goods, goods_of, open_goods};
pub use goods_form::{fill, goods_form, packs_of_goods};
pub use hashes::trip_hashes;
pub use issue::{Ate, Missing, eat, issue_meal, issue_session, made_in};
pub use keeping::{
    Keeping, NotBooked, Note, beside_the_book, cut_short_behind_pantry, cut_within_its_first_line, lost_booking, mend_if_cut_short,
    read_entries, read_ledger,
};
pub use keys::{count_key, is_of_trip, line_key, meal_key, session_key, trip_key};
pub use lacks::Lack;
pub use lately::{Brought, CookedThen};
pub use ledger::{Entry, Ledger, Whole};
pub use made_good::make_good;
pub use moved::{at_their_new_days, at_their_new_starts, printed_trips_moved};
pub use next::{
    As, FilledIn, NextTrip, NoTrip, OtherPacks, filled_in, is_called, meal_eaten, meal_to_come, meals_until, next_session, next_trip,
    open_lines, otherwise_than_printed, week_of_sheet,
};
pub use out::{NotTaken, TookOf, take_amount, take_food, take_recipe, worth_taken};
pub use purchases::{Purchase, purchases};
pub use receive::{Exceptions, beside_the_plan, except, put_all, receive};
pub use record::{Exact, LotRecord, Named, Paid, as_lot, records};
pub use seen::seen_prices;
pub use sum::{covered, difference, last_standing, reversed, standing, sum, with_paid};
pub use wasted::{WasteRow, Wasted, wasted};

#[cfg(test)]
mod tests;
