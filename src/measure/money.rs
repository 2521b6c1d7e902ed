//! Money in minor units, read from its digits and never through a binary fraction.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Sub};

use super::Quantity;

/// An ISO 4217 currency: its code and the number of digits of its minor unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Currency {
    pub code: String,
    pub digits: u32,
}

/// An amount of money in minor units (cents) of the household's one currency. Sums do not run over: what is beyond the type stays at
/// its end, and is known by [`Money::is_beyond_counting`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(pub i64);

impl Money {
    pub const ZERO: Money = Money(0);

    /// No household's sum comes near a thousand billion of anything; beyond it a sum says nothing.
    pub fn is_beyond_counting(self) -> bool {
        self.0.unsigned_abs() >= MOST_COUNTED
    }

    /// As a decimal string without a symbol: `23.48`.
    pub fn decimal(self, currency: &Currency) -> String {
        let unit = 10u64.pow(currency.digits);
        let sign = if self.0 < 0 { "-" } else { "" };
        let minor = self.0.unsigned_abs();
        if currency.digits == 0 {
            return format!("{sign}{minor}");
        }
        format!("{sign}{}.{:0width$}", minor / unit, minor % unit, width = currency.digits as usize)
    }
}

/// Ten to the fifteenth: small enough that a binary fraction still tells two neighbours apart.
const MOST_COUNTED: u64 = 1_000_000_000_000_000;

impl Add for Money {
    type Output = Money;
    fn add(self, other: Money) -> Money {
        Money(self.0.saturating_add(other.0))
    }
}

impl Sub for Money {
    type Output = Money;
    fn sub(self, other: Money) -> Money {
        Money(self.0.saturating_sub(other.0))
    }
}

impl AddAssign for Money {
    fn add_assign(&mut self, other: Money) {
        *self = *self + other;
    }
}

impl Mul<i64> for Money {
    type Output = Money;
    fn mul(self, times: i64) -> Money {
        Money(self.0.saturating_mul(times))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(iter: I) -> Money {
        iter.fold(Money::ZERO, Add::add)
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.code)
    }
}

/// The price of a loose food: `1.40 / kg`. Kept exact to a ten-thousandth of a minor unit.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitPrice {
    /// Ten-thousandths of a minor unit for `per`.
    pub minor_e4: i64,
    /// What that price buys: one kilogram, one litre, one piece.
    pub per: Quantity,
}
