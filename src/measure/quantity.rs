//! An amount without its unit of typing: a mass, a volume, a count, portions, or a count of a kitchen word.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::f64::{Mass, Volume};
use uom::si::mass::gram;
use uom::si::volume::milliliter;

/// Amounts are compared with this share of the larger of the two before anything is rounded up.
pub const TOLERANCE: f64 = 1e-9;

/// Is `have` at least `need`, floating noise aside?
pub fn at_least(have: f64, need: f64) -> bool {
    have >= need - TOLERANCE * need.abs()
}

/// The least whole number of `step`s that covers `amount`, floating noise aside.
///
/// ```
/// use spence::measure::whole_up;
/// assert_eq!(whole_up(0.1 + 0.2, 0.1), 3.0);
/// assert_eq!(whole_up(301.0, 100.0), 4.0);
/// ```
pub fn whole_up(amount: f64, step: f64) -> f64 {
    let steps = amount / step;
    let nearest = steps.round();
    if (steps - nearest).abs() <= TOLERANCE * nearest.abs().max(TOLERANCE) { nearest } else { steps.ceil() }
}

/// What an amount is an amount of.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Dimension {
    /// Grams.
    Mass,
    /// Millilitres.
    Volume,
    /// Pieces.
    Count,
    /// Portions of a recipe.
    Portion,
    /// A kitchen word for which no weight is known: sprig, bunch, tin ...
    Word(String),
}

impl Dimension {
    /// The unit in which JSON states this dimension: `g`, `ml`, `each`, `portion`, or the word itself.
    pub fn symbol(&self) -> &str {
        match self {
            Dimension::Mass => "g",
            Dimension::Volume => "ml",
            Dimension::Count => "each",
            Dimension::Portion => "portion",
            Dimension::Word(word) => word,
        }
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// An amount of one dimension. Amounts of different dimensions never mix.
#[derive(Debug, Clone, PartialEq)]
pub enum Quantity {
    Mass(Mass),
    Volume(Volume),
    /// Pieces.
    Count(f64),
    /// Portions of a recipe.
    Portions(f64),
    /// A number of a kitchen word (its singular) whose weight is not known.
    Words(f64, String),
}

impl Quantity {
    pub fn grams(grams: f64) -> Self {
        Quantity::Mass(Mass::new::<gram>(grams))
    }

    pub fn millilitres(millilitres: f64) -> Self {
        Quantity::Volume(Volume::new::<milliliter>(millilitres))
    }

    pub fn pieces(pieces: f64) -> Self {
        Quantity::Count(pieces)
    }

    pub fn portions(portions: f64) -> Self {
        Quantity::Portions(portions)
    }

    /// `base` in grams, millilitres, pieces, portions or words.
    pub fn of(dimension: &Dimension, base: f64) -> Self {
        match dimension {
            Dimension::Mass => Self::grams(base),
            Dimension::Volume => Self::millilitres(base),
            Dimension::Count => Self::Count(base),
            Dimension::Portion => Self::Portions(base),
            Dimension::Word(word) => Self::Words(base, word.clone()),
        }
    }

    pub fn dimension(&self) -> Dimension {
        match self {
            Quantity::Mass(_) => Dimension::Mass,
            Quantity::Volume(_) => Dimension::Volume,
            Quantity::Count(_) => Dimension::Count,
            Quantity::Portions(_) => Dimension::Portion,
            Quantity::Words(_, word) => Dimension::Word(word.clone()),
        }
    }

    /// Grams, millilitres, pieces, portions or words.
    pub fn base(&self) -> f64 {
        match self {
            // uom stores kilograms and cubic metres; the noise of its factor is taken off again.
            Quantity::Mass(mass) => tidy(mass.get::<gram>()),
            Quantity::Volume(volume) => tidy(volume.get::<milliliter>()),
            Quantity::Count(n) | Quantity::Portions(n) | Quantity::Words(n, _) => *n,
        }
    }

    pub fn scaled(&self, factor: f64) -> Self {
        Self::of(&self.dimension(), self.base() * factor)
    }

    /// The sum, or `None` where the dimensions differ.
    pub fn plus(&self, other: &Quantity) -> Option<Self> {
        (self.dimension() == other.dimension()).then(|| Self::of(&self.dimension(), self.base() + other.base()))
    }

    pub fn is_zero(&self) -> bool {
        self.base().abs() <= f64::EPSILON
    }
}

/// Rounds to twelve significant digits: far finer than any scale, coarser than floating noise.
///
/// A sum of nothing is minus zero in floating point; it is plain zero here, and reads so in JSON.
pub(crate) fn tidy(value: f64) -> f64 {
    to_digits(value, 12)
}

/// A sum of amounts that were [`tidy`] one by one: ten digits, so that three thirds of a kilogram are a kilogram.
pub(crate) fn tidy_sum(value: f64) -> f64 {
    to_digits(value, 10)
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

/// As JSON writes an amount: to ten significant digits, since sums of many lines carry more noise than one; thousandths are always kept.
fn written(amount: f64) -> f64 {
    let thousandths = (amount * 1000.0).round() / 1000.0;
    if (amount - thousandths).abs() <= 1e-10 * amount.abs() { thousandths } else { to_digits(amount, 10) }
}

/// JSON: `{"amount": 830.0, "unit": "g"}`.
#[derive(Serialize, Deserialize)]
struct Written {
    amount: f64,
    unit: String,
}

impl Serialize for Quantity {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Written { amount: written(self.base()), unit: self.dimension().symbol().to_owned() }.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Quantity {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let Written { amount, unit } = Written::deserialize(deserializer)?;
        let dimension = match unit.as_str() {
            "g" => Dimension::Mass,
            "ml" => Dimension::Volume,
            "each" => Dimension::Count,
            "portion" => Dimension::Portion,
            _ => Dimension::Word(unit),
        };
        Ok(Quantity::of(&dimension, amount))
    }
}
