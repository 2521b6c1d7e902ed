//! Reading what people type: amounts, durations, temperatures, shares and prices.

use super::{Amount, Celsius, Currency, Days, Minutes, Money, Quantity, Spoons, UnitPrice};

/// Why a text cannot be read, and what would mend it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    pub cause: String,
    pub remedy: String,
}

/// A whole text that is one amount: `350 g`, `2-3 tbsp`, `1½ cups`, `6` (pieces), `1 bunch`, `3 portions`.
pub fn read_amount(text: &str) -> Result<Amount, ReadError> {
    let _ = text;
    todo!()
}

/// As [`read_amount`], for one plain positive quantity: no range. Kitchen words become [`Quantity::Words`].
pub fn read_quantity(text: &str, spoons: Spoons) -> Result<Quantity, ReadError> {
    let _ = (text, spoons);
    todo!()
}

/// "45 min", "1 h 10 min", "0 min".
pub fn read_minutes(text: &str) -> Result<Minutes, ReadError> {
    let _ = text;
    todo!()
}

/// "3 days", "2 weeks", "2 months" (a month is 30 days).
pub fn read_days(text: &str) -> Result<Days, ReadError> {
    let _ = text;
    todo!()
}

/// "190 °C", "375 F".
pub fn read_celsius(text: &str) -> Result<Celsius, ReadError> {
    let _ = text;
    todo!()
}

/// "10 °C" or "18 F" as a difference in kelvin.
pub fn read_kelvin(text: &str) -> Result<f64, ReadError> {
    let _ = text;
    todo!()
}

/// "2%" or "90 %" as 0.02, 0.9.
pub fn read_share(text: &str) -> Result<f64, ReadError> {
    let _ = text;
    todo!()
}

/// The digits of a price: "0.89", "1", "23.50". More digits than the currency's minor unit has are an error.
pub fn read_money(digits: &str, currency: &Currency) -> Result<Money, ReadError> {
    let _ = (digits, currency);
    todo!()
}

/// "1.40 / kg", "0.35 / each", "2.10 / 100 g".
pub fn read_unit_price(text: &str, currency: &Currency) -> Result<UnitPrice, ReadError> {
    let _ = (text, currency);
    todo!()
}
