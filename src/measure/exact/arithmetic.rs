//! Adding, multiplying, comparing: small fractions in 128 bits on the way, big ones where that is not enough.

use std::cmp::Ordering;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, MulAssign, Neg, Rem, Sub, SubAssign};

use num_rational::BigRational;
use num_traits::{Num, One, Signed, Zero};

use super::Held::Small;
use super::Number;

fn sum(a: &Number, b: &Number) -> Number {
    match (&a.0, &b.0) {
        (Small { above: a, below: 1 }, Small { above: c, below: 1 }) => Number::from_parts(i128::from(*a) + i128::from(*c), 1),
        (Small { above: a, below: b }, Small { above: c, below: d }) if b == d => {
            Number::from_parts(i128::from(*a) + i128::from(*c), (*b).into())
        }
        // Two products of 63 bits each, and their sum, fit 128 bits.
        (Small { above: a, below: b }, Small { above: c, below: d }) => {
            let cross = i128::from(*a) * i128::from(*d) + i128::from(*c) * i128::from(*b);
            Number::from_parts(cross, i128::from(*b) * i128::from(*d))
        }
        _ => Number::from_big(a.to_big() + b.to_big()),
    }
}

fn product(a: &Number, b: &Number) -> Number {
    match (&a.0, &b.0) {
        (Small { above: a, below: b }, Small { above: c, below: d }) => {
            Number::from_parts(i128::from(*a) * i128::from(*c), i128::from(*b) * i128::from(*d))
        }
        _ => Number::from_big(a.to_big() * b.to_big()),
    }
}

/// Panics where `b` is zero, as whole numbers do.
fn quotient(a: &Number, b: &Number) -> Number {
    match (&a.0, &b.0) {
        (Small { above: a, below: b }, Small { above: c, below: d }) => {
            let sign = i128::from(c.signum());
            Number::from_parts(i128::from(*a) * i128::from(*d) * sign, i128::from(*b) * i128::from(*c) * sign)
        }
        _ => Number::from_big(a.to_big() / b.to_big()),
    }
}

fn difference(a: &Number, b: &Number) -> Number {
    sum(a, &-b)
}

/// What is left of `a` after whole times `b`.
fn remainder(a: &Number, b: &Number) -> Number {
    difference(a, &product(b, &quotient(a, b).trunc()))
}

impl Number {
    fn trunc(&self) -> Number {
        if self.is_negative() { self.ceil() } else { self.floor() }
    }
}

impl Neg for &Number {
    type Output = Number;
    fn neg(self) -> Number {
        match &self.0 {
            Small { above, below } if *above != i64::MIN => Number(Small { above: -above, below: *below }),
            _ => Number::from_big(-self.to_big()),
        }
    }
}

impl Neg for Number {
    type Output = Number;
    fn neg(self) -> Number {
        -&self
    }
}

/// The operator for every pairing of owned and borrowed, and with whole numbers.
macro_rules! operator {
    ($Trait:ident, $name:ident, $function:ident) => {
        operator!($Trait, $name, $function, Number, Number, |a, b| (&a, &b));
        operator!($Trait, $name, $function, &Number, Number, |a, b| (a, &b));
        operator!($Trait, $name, $function, Number, &Number, |a, b| (&a, b));
        operator!($Trait, $name, $function, &Number, &Number, |a, b| (a, b));
        operator!($Trait, $name, $function, Number, i64, |a, b| (&a, &Number::whole(b)));
        operator!($Trait, $name, $function, &Number, i64, |a, b| (a, &Number::whole(b)));
    };
    ($Trait:ident, $name:ident, $function:ident, $left:ty, $right:ty, |$a:ident, $b:ident| ($first:expr, $second:expr)) => {
        impl $Trait<$right> for $left {
            type Output = Number;
            fn $name(self, $b: $right) -> Number {
                let $a = self;
                $function($first, $second)
            }
        }
    };
}

operator!(Add, add, sum);
operator!(Sub, sub, difference);
operator!(Mul, mul, product);
operator!(Div, div, quotient);
operator!(Rem, rem, remainder);

impl AddAssign for Number {
    fn add_assign(&mut self, other: Number) {
        *self = sum(self, &other);
    }
}

impl AddAssign<&Number> for Number {
    fn add_assign(&mut self, other: &Number) {
        *self = sum(self, other);
    }
}

impl SubAssign for Number {
    fn sub_assign(&mut self, other: Number) {
        *self = difference(self, &other);
    }
}

impl SubAssign<&Number> for Number {
    fn sub_assign(&mut self, other: &Number) {
        *self = difference(self, other);
    }
}

impl MulAssign for Number {
    fn mul_assign(&mut self, other: Number) {
        *self = product(self, &other);
    }
}

impl Sum for Number {
    fn sum<I: Iterator<Item = Number>>(numbers: I) -> Number {
        numbers.fold(Number::ZERO, |sum, next| sum + next)
    }
}

impl<'n> Sum<&'n Number> for Number {
    fn sum<I: Iterator<Item = &'n Number>>(numbers: I) -> Number {
        numbers.fold(Number::ZERO, |sum, next| sum + next)
    }
}

impl Ord for Number {
    fn cmp(&self, other: &Number) -> Ordering {
        match (&self.0, &other.0) {
            (Small { above: a, below: b }, Small { above: c, below: d }) => {
                (i128::from(*a) * i128::from(*d)).cmp(&(i128::from(*c) * i128::from(*b)))
            }
            _ => self.to_big().cmp(&other.to_big()),
        }
    }
}

impl PartialOrd for Number {
    fn partial_cmp(&self, other: &Number) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq<i64> for Number {
    fn eq(&self, other: &i64) -> bool {
        *self == Number::whole(*other)
    }
}

impl PartialOrd<i64> for Number {
    fn partial_cmp(&self, other: &i64) -> Option<Ordering> {
        Some(self.cmp(&Number::whole(*other)))
    }
}

impl Zero for Number {
    fn zero() -> Self {
        Number::ZERO
    }
    fn is_zero(&self) -> bool {
        Number::is_zero(self)
    }
}

impl One for Number {
    fn one() -> Self {
        Number::ONE
    }
}

impl Num for Number {
    type FromStrRadixErr = num_rational::ParseRatioError;
    fn from_str_radix(text: &str, radix: u32) -> Result<Self, Self::FromStrRadixErr> {
        BigRational::from_str_radix(text, radix).map(Number::from_big)
    }
}
