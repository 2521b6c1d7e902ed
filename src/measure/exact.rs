//! The one number of all amounts: exact, so that three thirds are one.
//!
//! Chosen by measurement: a third of a cup of chopped onion into grams as purchased takes `num_rational::BigRational` 10 µs, for it keeps
//! every number on the heap, and this type 0.1 µs; ten thousand lines are to be read in 30 ms. A [`Number`] is a fraction of two whole
//! numbers of 64 bits in lowest terms, and a `BigRational` only where that is too small: it never rounds and never overflows. uom stores
//! it in its masses, volumes and densities, with the gram and the millilitre as base units, so that no factor comes between.

mod arithmetic;
mod system;

use std::fmt;

use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};

pub use system::{Density, KitchenUnits, Mass, Volume, mass, volume};

/// An exact number.
///
/// ```
/// use spence::measure::Number;
/// let third = Number::over(1, 3);
/// assert_eq!(&third + &third + &third, Number::ONE);
/// assert_eq!(Number::from(0.1), Number::over(1, 10));
/// assert_eq!(Number::over(7, 3).to_string(), "2 1/3");
/// ```
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct Number(Held);

/// In lowest terms, and small wherever it fits: equal numbers are held alike.
#[derive(Clone, PartialEq, Eq, Hash)]
enum Held {
    /// `below` is above zero.
    Small {
        above: i64,
        below: i64,
    },
    Big(Box<BigRational>),
}

use Held::{Big, Small};

/// The whole numbers below it are all exact in a float.
const EXACT_IN_A_FLOAT: u64 = 1 << 53;

impl Number {
    pub const ZERO: Number = Number::whole(0);
    pub const ONE: Number = Number::whole(1);
    pub const HALF: Number = Number::over(1, 2);

    pub const fn whole(number: i64) -> Self {
        Number(Small { above: number, below: 1 })
    }

    /// `above` / `below`; `below` must lie above zero.
    pub const fn over(above: i64, below: i64) -> Self {
        assert!(below > 0, "a fraction divides by a whole number above zero");
        let (mut common, mut rest) = (above.unsigned_abs(), below.unsigned_abs());
        while rest != 0 {
            (common, rest) = (rest, common % rest);
        }
        // What divides `below` fits as it does.
        Number(Small { above: above / common as i64, below: below / common as i64 })
    }

    /// As [`Number::over`], of numbers that a person typed: `None` where it would divide by zero.
    pub fn ratio(above: u128, below: u128) -> Option<Self> {
        (below != 0).then(|| Self::from_big(BigRational::new(above.into(), below.into())))
    }

    /// `2`, `1.5`, `1,5`, `.5`: digits with at most one point or comma.
    ///
    /// ```
    /// use spence::measure::Number;
    /// assert_eq!(Number::from_decimal_text("1,25"), Some(Number::over(5, 4)));
    /// assert_eq!(Number::from_decimal_text("1e3"), None);
    /// ```
    pub fn from_decimal_text(digits: &str) -> Option<Self> {
        let (whole, part) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
        let plain = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.len() + part.len() == 0 || !plain(whole) || !plain(part) {
            return None;
        }
        Some(decimal(&format!("{whole}{part}"), -(part.len() as i32)))
    }

    /// As it prints: `350`, `1.25`, `1/3`, `2 1/3`. `None` where it is no number, or negative.
    ///
    /// ```
    /// use spence::measure::Number;
    /// assert_eq!(Number::from_text("2 1/3"), Some(Number::over(7, 3)));
    /// assert_eq!(Number::from_text("1/0"), None);
    /// ```
    pub fn from_text(text: &str) -> Option<Self> {
        let (whole, part) = match text.split_once(' ') {
            Some((whole, part)) => (Self::from_decimal_text(whole)?, part),
            None => (Number::ZERO, text),
        };
        let part = match part.split_once('/') {
            Some((above, below)) => Self::from_decimal_text(above)?.checked_div(&Self::from_decimal_text(below)?)?,
            None => Self::from_decimal_text(part)?,
        };
        Some(whole + part)
    }

    /// What JSON wrote to ten digits: 0.3333333333 was a third. A fraction of a thousandth part at the finest that is written so, where one
    /// is; else the decimal. Fewer digits are a decimal always.
    pub(crate) fn from_ten_digits(value: f64) -> Self {
        let plain = Number::from(value);
        let is_cut = to_digits(value, 8) != value && !plain.below_at_most(1000);
        let found = if is_cut { simplest(value) } else { None };
        found.unwrap_or(plain)
    }

    fn below_at_most(&self, most: i64) -> bool {
        matches!(&self.0, Small { below, .. } if *below <= most)
    }

    /// The number itself where its fraction is one that a person can read, of a thousandth part at the finest; else the next thousandth above.
    pub fn to_readable(&self) -> Number {
        if self.below_at_most(1000) { self.clone() } else { (self * 1000).ceil() / 1000 }
    }

    pub(crate) fn from_parts(above: i128, below: i128) -> Self {
        if let (Ok(above), Ok(below)) = (i64::try_from(above), i64::try_from(below)) {
            let common = above.unsigned_abs().gcd(&below.unsigned_abs());
            return match i64::try_from(common) {
                Ok(1) => Number(Small { above, below }),
                Ok(common) => Number(Small { above: above / common, below: below / common }),
                Err(_) => Self::from_big(BigRational::new(above.into(), below.into())),
            };
        }
        let common = above.unsigned_abs().gcd(&below.unsigned_abs()) as i128;
        match (i64::try_from(above / common), i64::try_from(below / common)) {
            (Ok(above), Ok(below)) => Number(Small { above, below }),
            _ => Self::from_big(BigRational::new(above.into(), below.into())),
        }
    }

    /// `big` is in lowest terms.
    fn from_big(big: BigRational) -> Self {
        match (big.numer().to_i64(), big.denom().to_i64()) {
            (Some(above), Some(below)) => Number(Small { above, below }),
            _ => Number(Big(Box::new(big))),
        }
    }

    fn to_big(&self) -> BigRational {
        match &self.0 {
            Small { above, below } => BigRational::new_raw((*above).into(), (*below).into()),
            Big(big) => (**big).clone(),
        }
    }

    /// The float nearest to it.
    pub fn to_f64(&self) -> f64 {
        match &self.0 {
            Small { above, below } if above.unsigned_abs() < EXACT_IN_A_FLOAT && below.unsigned_abs() < EXACT_IN_A_FLOAT => {
                *above as f64 / *below as f64
            }
            _ => self.to_big().to_f64().unwrap_or(f64::INFINITY),
        }
    }

    pub fn is_zero(&self) -> bool {
        matches!(self.0, Small { above: 0, .. })
    }

    pub fn is_positive(&self) -> bool {
        match &self.0 {
            Small { above, .. } => *above > 0,
            Big(big) => big.is_positive(),
        }
    }

    pub fn is_whole(&self) -> bool {
        match &self.0 {
            Small { below, .. } => *below == 1,
            Big(big) => big.is_integer(),
        }
    }

    pub fn abs(&self) -> Number {
        if *self < Number::ZERO { -self } else { self.clone() }
    }

    /// The least whole number that is not below it.
    pub fn ceil(&self) -> Number {
        -(-self).floor()
    }

    /// The largest whole number that is not above it.
    pub fn floor(&self) -> Number {
        match &self.0 {
            Small { above, below } => Number::whole(above.div_euclid(*below)),
            Big(big) => Self::from_big(big.floor()),
        }
    }

    /// The nearest whole number, halves upwards.
    pub fn round(&self) -> Number {
        (self + Number::HALF).floor()
    }

    /// As a whole number, where it is one of at most 64 bits.
    pub fn to_i64(&self) -> Option<i64> {
        match &self.0 {
            Small { above, below: 1 } => Some(*above),
            _ => None,
        }
    }

    /// `None` where `by` is zero.
    pub fn checked_div(&self, by: &Number) -> Option<Number> {
        (!by.is_zero()).then(|| self / by)
    }

    /// Its digits, where it is a decimal.
    pub(crate) fn decimal_text(&self) -> Option<String> {
        let big = self.to_big();
        let (mut rest, mut places) = (big.denom().clone(), 0u32);
        for prime in [2u32, 5] {
            let mut times = 0;
            while (&rest % prime).is_zero() {
                rest /= prime;
                times += 1;
            }
            places = places.max(times);
        }
        if !rest.is_one() {
            return None;
        }
        let ten = BigInt::from(10u32).pow(places);
        let scaled = (big.numer().abs() * &ten) / big.denom();
        let (whole, part) = scaled.div_rem(&ten);
        let sign = if self.is_negative() { "-" } else { "" };
        let part = if places == 0 { String::new() } else { format!(".{part:0>width$}", part = part.to_string(), width = places as usize) };
        Some(format!("{sign}{whole}{part}"))
    }

    fn is_negative(&self) -> bool {
        *self < Number::ZERO
    }
}

/// `digits` × 10^`exponent`.
fn decimal(digits: &str, exponent: i32) -> Number {
    let ten = |places: i32| BigInt::from(10u32).pow(places.unsigned_abs());
    // Nineteen digits may not fit 64 bits; eighteen do, over or times ten to the eighteenth.
    if digits.len() <= 18 && exponent.abs() <= 18 {
        let above = digits.parse::<i64>().unwrap_or_default();
        let power = 10i64.pow(exponent.unsigned_abs());
        return if exponent < 0 {
            Number::from_parts(above.into(), power.into())
        } else {
            Number::from_parts(i128::from(above) * i128::from(power), 1)
        };
    }
    let above = digits.parse::<BigInt>().unwrap_or_default();
    let big = if exponent < 0 { BigRational::new(above, ten(exponent)) } else { (above * ten(exponent)).into() };
    Number::from_big(big)
}

/// Rounds to so many significant digits.
pub(crate) fn to_digits(value: f64, digits: i32) -> f64 {
    if value == 0.0 {
        return 0.0;
    }
    if !value.is_finite() {
        return value;
    }
    let magnitude = value.abs().log10().floor() as i32;
    let factor = 10f64.powi(digits - 1 - magnitude);
    (value * factor).round() / factor
}

/// Half of the last of ten digits, as a share, with some room for the float.
const TENTH_DIGIT: f64 = 5.01e-10;

/// The simplest fraction that ten digits write so: its continued fraction, cut where it comes near enough.
fn simplest(value: f64) -> Option<Number> {
    let (mut above, mut below) = ((1i64, value.floor() as i64), (0i64, 1i64));
    let mut rest = value - value.floor();
    while (above.1 as f64 / below.1 as f64 - value).abs() > value.abs() * TENTH_DIGIT {
        let inverse = 1.0 / rest;
        let next = inverse.floor() as i64;
        rest = inverse - inverse.floor();
        above = (above.1, next.checked_mul(above.1)?.checked_add(above.0)?);
        below = (below.1, next.checked_mul(below.1)?.checked_add(below.0)?);
        if below.1 > 1000 {
            return None;
        }
    }
    Some(Number::over(above.1, below.1))
}

/// The shortest decimal that reads as this float: 0.1 is a tenth. What is no number is zero.
impl From<f64> for Number {
    fn from(value: f64) -> Self {
        for (places, power) in [1i64, 10, 100, 1000, 10_000].into_iter().enumerate() {
            let scaled = value * power as f64;
            let is_short = scaled.abs() < 1e14 && scaled.round() / power as f64 == value;
            if is_short {
                return if places == 0 { Number::whole(scaled as i64) } else { Number::from_parts(scaled.round() as i128, power.into()) };
            }
        }
        if !value.is_finite() {
            return Number::ZERO;
        }
        let text = format!("{:e}", value.abs());
        let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let exponent = exponent.parse::<i32>().unwrap_or_default() - part.len() as i32;
        let number = decimal(&format!("{whole}{part}"), exponent);
        if value < 0.0 { -number } else { number }
    }
}

impl From<i64> for Number {
    fn from(value: i64) -> Self {
        Number::whole(value)
    }
}

impl From<i32> for Number {
    fn from(value: i32) -> Self {
        Number::whole(value.into())
    }
}

impl From<u32> for Number {
    fn from(value: u32) -> Self {
        Number::whole(value.into())
    }
}

impl From<&Number> for Number {
    fn from(value: &Number) -> Self {
        value.clone()
    }
}

impl Default for Number {
    fn default() -> Self {
        Number::ZERO
    }
}

/// `350`, `1.25`, `1/3`, `2 1/3`: exactly, and read back unchanged.
impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(text) = self.decimal_text() {
            return f.write_str(&text);
        }
        let big = self.to_big();
        let (whole, part) = (big.trunc(), big.fract().abs());
        match whole.is_zero() {
            true => write!(f, "{}{part}", if self.is_negative() { "-" } else { "" }),
            false => write!(f, "{} {part}", whole.numer()),
        }
    }
}

impl fmt::Debug for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

#[cfg(test)]
mod tests;
