//! A typed number kept exactly: two thirds are two over three.

/// A number of at least zero, as one whole number over another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fraction {
    above: u128,
    /// Never zero.
    below: u128,
}

/// The largest whole number below which a float holds every one.
const EXACT: u128 = 1 << 53;

impl Fraction {
    /// `None` over zero.
    pub fn new(above: u128, below: u128) -> Option<Self> {
        (below > 0).then_some(Fraction { above, below })
    }

    pub(crate) const fn whole(number: u32) -> Self {
        Fraction { above: number as u128, below: 1 }
    }

    /// Digits with a point or comma; `None` where they are more than any kitchen writes.
    pub(crate) fn decimal(digits: &str) -> Option<Self> {
        let mut number = Fraction { above: 0, below: 1 };
        let mut after_point = false;
        for digit in digits.bytes() {
            if !digit.is_ascii_digit() {
                after_point = true;
                continue;
            }
            number.above = number.above.checked_mul(10)?.checked_add(u128::from(digit - b'0'))?;
            if after_point {
                number.below = number.below.checked_mul(10)?;
            }
        }
        Some(number)
    }

    /// What stands above and below the line.
    pub fn parts(self) -> (u128, u128) {
        (self.above, self.below)
    }

    pub(crate) fn is_whole(self) -> bool {
        self.above.is_multiple_of(self.below)
    }

    pub(crate) fn is_zero(self) -> bool {
        self.above == 0
    }

    pub(crate) fn plus(self, other: Fraction) -> Option<Self> {
        let above = self.above.checked_mul(other.below)?.checked_add(other.above.checked_mul(self.below)?)?;
        Some(Fraction { above, below: self.below.checked_mul(other.below)? })
    }

    pub(crate) fn times(self, other: Fraction) -> Option<Self> {
        Some(Fraction { above: self.above.checked_mul(other.above)?, below: self.below.checked_mul(other.below)? })
    }

    pub(crate) fn over(self, other: Fraction) -> Option<Self> {
        self.times(Fraction::new(other.below, other.above)?)
    }

    /// The float nearest to it.
    pub fn value(self) -> f64 {
        // Ten to the 22nd is the largest power of ten that a float holds exactly.
        if self.above < EXACT && (self.below < EXACT || self.below.ilog10() <= 22 && self.is_decimal()) {
            return self.above as f64 / self.below as f64;
        }
        // More digits than a float holds: the text of a decimal is read as any float is.
        if self.is_decimal() {
            return format!("{}e-{}", self.above, self.below.ilog10()).parse().unwrap_or(f64::INFINITY);
        }
        self.above as f64 / self.below as f64
    }

    fn is_decimal(self) -> bool {
        10u128.pow(self.below.ilog10()) == self.below
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        self.value().partial_cmp(&other.value())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_thirds_are_one() {
        let third = Fraction::new(1, 3).expect("a third");
        let sum = third.plus(third).and_then(|two| two.plus(third)).expect("small");
        assert!(sum.is_whole() && sum.value() == 1.0);
    }

    proptest! {
        #[test]
        fn a_decimal_is_the_float_that_its_digits_name(value in 1e-6..1e9f64) {
            let fraction = Fraction::decimal(&value.to_string()).expect("few digits");
            prop_assert_eq!(fraction.value(), value);
        }
    }
}
