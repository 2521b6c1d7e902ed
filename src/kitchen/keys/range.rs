//! Between what the figure behind a key may lie. What is outside is no figure of a kitchen but a slip of the hand, and would end in
//! sums that are infinite or no number at all.

use super::Shape;

/// Both ends as they would be typed behind the key, and both allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Range {
    pub least: &'static str,
    pub most: &'static str,
}

const fn range(least: &'static str, most: &'static str) -> Option<Range> {
    Some(Range { least, most })
}

impl Shape {
    /// Of every figure of this shape whose key has no range of its own.
    pub(super) fn range(&self) -> Option<Range> {
        match self {
            Shape::Number => range("0.001", "1000000"),
            Shape::NumberOrZero => range("0", "1000000"),
            Shape::WholeNumber | Shape::NumberOr(_) => range("0", "1000"),
            Shape::Share => range("0%", "100%"),
            // A grain of salt, and more than a lorry carries.
            Shape::Weight | Shape::WeightOrVolume => range("0.0001 g", "100000 kg"),
            Shape::Volume => range("0.001 ml", "100000 l"),
            Shape::Money => range("0", "10000000"),
            Shape::Duration => range("0 min", "365 days"),
            Shape::Days => range("0 days", "36500 days"),
            Shape::Temperature => range("-60 °C", "1000 °C"),
            Shape::Degrees => range("0 °C", "500 °C"),
            _ => None,
        }
    }
}

impl Range {
    /// In the words of `spence keys`.
    pub fn words(self) -> String {
        format!("from {} to {}", self.least, self.most)
    }

    /// The number at each end, where an end is a plain number or a share: for a schema.
    pub(super) fn numbers(self) -> Option<(f64, f64)> {
        let number = |typed: &str| match typed.strip_suffix('%') {
            Some(percent) => percent.parse::<f64>().ok().map(|percent| percent / 100.0),
            None => typed.parse().ok(),
        };
        Some((number(self.least)?, number(self.most)?))
    }
}
