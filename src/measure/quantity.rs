//! An amount without its unit of typing: a mass, a volume, a count, portions, or a count of a kitchen word.

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::exact::{Mass, Number, Volume, mass, to_digits, volume};

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

/// As [`whole_up`], of exact amounts; `step` lies above zero. What reaches beyond a whole step by a billionth of it does not count.
pub fn steps_up(amount: &Number, step: &Number) -> Number {
    let steps = amount / step;
    let nearest = steps.round();
    if (&steps - &nearest).abs() * BILLION <= nearest.abs() { nearest } else { steps.ceil() }
}

/// One over [`TOLERANCE`].
const BILLION: i64 = 1_000_000_000;

/// Is `amount` no more than the tolerance of `whole`? The exact twin of [`TOLERANCE`].
pub fn is_nothing_of(amount: &Number, whole: &Number) -> bool {
    *amount <= Number::ZERO || amount * BILLION <= *whole
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

impl Dimension {
    /// The dimension of a [`symbol`](Dimension::symbol).
    pub fn of_symbol(symbol: &str) -> Self {
        match symbol {
            "g" => Dimension::Mass,
            "ml" => Dimension::Volume,
            "each" => Dimension::Count,
            "portion" => Dimension::Portion,
            word => Dimension::Word(word.to_owned()),
        }
    }

    /// Less than this of a lot is nobody's: who draws all but that draws it, too. 1 g, 1 ml, a twentieth of a piece or portion.
    pub fn rest(&self) -> Number {
        match self {
            Dimension::Mass | Dimension::Volume => Number::ONE,
            Dimension::Count | Dimension::Portion | Dimension::Word(_) => Number::over(1, 20),
        }
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

/// An exact amount of one dimension. Amounts of different dimensions never mix: those of mass and volume are uom's, and do not add up.
#[derive(Debug, Clone, PartialEq)]
pub enum Quantity {
    Mass(Mass),
    Volume(Volume),
    /// Pieces.
    Count(Number),
    /// Portions of a recipe.
    Portions(Number),
    /// A number of a kitchen word (its singular) whose weight is not known.
    Words(Number, String),
}

/// A float is taken as the shortest decimal that reads as it: 0.1 is a tenth.
impl Quantity {
    pub fn grams(grams: impl Into<Number>) -> Self {
        Quantity::Mass(mass(grams))
    }

    pub fn millilitres(millilitres: impl Into<Number>) -> Self {
        Quantity::Volume(volume(millilitres))
    }

    pub fn pieces(pieces: impl Into<Number>) -> Self {
        Quantity::Count(pieces.into())
    }

    pub fn portions(portions: impl Into<Number>) -> Self {
        Quantity::Portions(portions.into())
    }

    /// So many of a kitchen word, by its singular.
    pub fn words(number: impl Into<Number>, word: impl Into<String>) -> Self {
        Quantity::Words(number.into(), word.into())
    }

    /// `base` in grams, millilitres, pieces, portions or words.
    pub fn of(dimension: &Dimension, base: impl Into<Number>) -> Self {
        match dimension {
            Dimension::Mass => Self::grams(base),
            Dimension::Volume => Self::millilitres(base),
            Dimension::Count => Self::pieces(base),
            Dimension::Portion => Self::portions(base),
            Dimension::Word(word) => Self::words(base, word.clone()),
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

    /// Grams, millilitres, pieces, portions or words, exactly.
    pub fn exact(&self) -> &Number {
        match self {
            Quantity::Mass(mass) => &mass.value,
            Quantity::Volume(volume) => &volume.value,
            Quantity::Count(n) | Quantity::Portions(n) | Quantity::Words(n, _) => n,
        }
    }

    /// As [`Quantity::exact`], as the nearest float: for the eye, and for what is no amount, such as money or a likeness.
    pub fn base(&self) -> f64 {
        self.exact().to_f64()
    }

    pub fn scaled(&self, factor: impl Into<Number>) -> Self {
        let factor = factor.into();
        match self {
            Quantity::Mass(one) => Quantity::Mass(mass(&one.value * factor)),
            Quantity::Volume(one) => Quantity::Volume(volume(&one.value * factor)),
            Quantity::Count(n) => Quantity::Count(n * factor),
            Quantity::Portions(n) => Quantity::Portions(n * factor),
            Quantity::Words(n, word) => Quantity::Words(n * factor, word.clone()),
        }
    }

    /// The sum, or `None` where the dimensions differ.
    pub fn plus(&self, other: &Quantity) -> Option<Self> {
        match (self, other) {
            (Quantity::Mass(a), Quantity::Mass(b)) => Some(Quantity::Mass(a.clone() + b.clone())),
            (Quantity::Volume(a), Quantity::Volume(b)) => Some(Quantity::Volume(a.clone() + b.clone())),
            (Quantity::Count(a), Quantity::Count(b)) => Some(Quantity::Count(a + b)),
            (Quantity::Portions(a), Quantity::Portions(b)) => Some(Quantity::Portions(a + b)),
            (Quantity::Words(a, word), Quantity::Words(b, same)) if word == same => Some(Quantity::Words(a + b, word.clone())),
            _ => None,
        }
    }

    /// The difference, or `None` where the dimensions differ.
    pub fn minus(&self, other: &Quantity) -> Option<Self> {
        self.plus(&other.scaled(-1))
    }

    /// How many times `other` it is; `None` where the dimensions differ, or `other` is zero.
    pub fn ratio(&self, other: &Quantity) -> Option<Number> {
        (self.dimension() == other.dimension()).then(|| self.exact().checked_div(other.exact())).flatten()
    }

    /// The least whole number of `step`s that covers it; `None` as for [`Quantity::ratio`].
    pub fn steps_of(&self, step: &Quantity) -> Option<Number> {
        self.ratio(step).map(|steps| steps_up(&steps, &Number::ONE))
    }

    pub fn is_zero(&self) -> bool {
        self.exact().is_zero()
    }
}

/// `None` where the dimensions differ.
impl PartialOrd for Quantity {
    fn partial_cmp(&self, other: &Quantity) -> Option<std::cmp::Ordering> {
        (self.dimension() == other.dimension()).then(|| self.exact().cmp(other.exact()))
    }
}

/// Rounds to twelve significant digits: far finer than any scale, coarser than floating noise.
///
/// A sum of nothing is minus zero in floating point; it is plain zero here, and reads so in JSON.
pub(crate) fn tidy(value: f64) -> f64 {
    to_digits(value, 12)
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
        Ok(Quantity::of(&Dimension::of_symbol(&unit), Number::from_ten_digits(amount)))
    }
}
