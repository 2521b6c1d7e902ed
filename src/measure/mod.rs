//! Mass, volume and count; units and their names; reading and printing amounts; money; minutes, days and degrees.
//!
//! Nothing in this room knows a food.

mod money;
mod print;
mod quantity;
mod read;
mod time;
mod unit;

pub use money::{Currency, Money, UnitPrice};
pub use print::{Units, show};
pub(crate) use quantity::tidy;
pub use quantity::{Dimension, Quantity, TOLERANCE, at_least, whole_up};
pub use read::{
    ReadError, read_amount, read_celsius, read_days, read_kelvin, read_minutes, read_money, read_quantity, read_share, read_unit_price,
};
pub use time::{Celsius, Days, Minutes};
pub use unit::{Amount, Spoons, Unit, Word};
