//! Mass, volume and count; units and their names; reading and printing amounts; money; minutes, days and degrees.
//!
//! Nothing in this room knows a food.

mod amount;
mod exact;
mod money;
mod number;
mod print;
mod quantity;
mod read;
mod read_error;
mod time;
mod tokens;
mod unit;

pub use amount::{AmountRead, amount as amount_at, times as times_at, unit as unit_from};
pub use exact::{Density, KitchenUnits, Mass, Number, Volume, mass, volume};
pub use money::{Currency, Money, UnitPrice};
pub use number::{Ends, NumberRead, number as number_at};
pub use print::{Units, plural_word, show, show_at_most, show_in_spoons};
pub use quantity::{Dimension, Quantity, TOLERANCE, at_least, is_nothing_of, steps_up, whole_up};
pub use read::{
    InPacks, read_amount, read_celsius, read_days, read_in_packs, read_kelvin, read_minutes, read_money, read_quantity, read_share,
    read_unit, read_unit_price, single_of,
};
pub use read_error::ReadError;
pub use time::{Celsius, Days, Minutes};
pub use tokens::{Kind, Token, cut};
pub use unit::{Amount, Pints, Spoons, US_CUP_ML, Unit, Word, word_named};

pub(crate) use amount::{amount_of, upper_end};
pub(crate) use exact::to_digits;
pub(crate) use number::{is_length_word, skip_about};
pub(crate) use print::exact_number;
pub(crate) use quantity::tidy;
pub(crate) use unit::unit_like;

#[cfg(test)]
mod tests;
