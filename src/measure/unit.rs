//! Units and their names.

/// A unit a person can type.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Unit {
    Milligram,
    Gram,
    Kilogram,
    Ounce,
    Pound,
    Millilitre,
    Centilitre,
    Decilitre,
    Litre,
    Teaspoon,
    Tablespoon,
    FluidOunce,
    Cup,
    Pint,
    Quart,
    Gallon,
    Piece,
    Portion,
    Word(Word),
}

/// A kitchen word that needs a weight from the food, or a size in the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Word {
    Clove,
    Slice,
    Sprig,
    Bunch,
    Stick,
    Stalk,
    Head,
    Leaf,
    Pinch,
    Dash,
    Handful,
    Knob,
    Rasher,
    Fillet,
    Ear,
    Sheet,
    Cube,
    Tin,
    Jar,
    Packet,
    Bottle,
    Carton,
    Tub,
    Bag,
    Ball,
    Loaf,
}

/// Which spoons and cups a line means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Spoons {
    /// NIST SP 811, Appendix B.8.
    #[default]
    Us,
    /// 15 ml, 5 ml, 250 ml cup.
    Metric,
}

/// A typed amount: `2-3 tbsp` has a `low` of 2 and a `high` of 3; a plain number has both the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    pub low: f64,
    pub high: f64,
    pub unit: Unit,
}
