//! Units, their names, and how much one of each is.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::{Number, Quantity};

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
    Dessertspoon,
    Tablespoon,
    FluidOunce,
    Cup,
    Pint,
    Quart,
    Gallon,
    Gill,
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
    Bulb,
    Drop,
    Splash,
    Drizzle,
    Strip,
    Wedge,
    Block,
    Box,
    Pot,
    Tube,
    Punnet,
    Dollop,
    Glug,
    Squeeze,
    Scoop,
    Ladle,
    Glass,
    Chunk,
    Lump,
    Pat,
    Square,
    Floret,
    Spear,
    Segment,
    Pod,
    Twist,
    Roll,
    Bar,
    Nest,
    Rack,
    Blade,
    Shaving,
    Sprinkle,
}

/// Which spoons and cups a line means, and which pints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Spoons {
    /// NIST SP 811, Appendix B.8.
    #[default]
    Us,
    /// 15 ml, 5 ml, 250 ml cup; pints are those of the US.
    Metric,
    /// US spoons and cups, imperial pints.
    UsByImperialPint,
    /// Metric spoons and cups, imperial pints.
    MetricByImperialPint,
}

/// Which pints, quarts, gallons and fluid ounces a line means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pints {
    #[default]
    Us,
    Imperial,
}

impl Spoons {
    /// The same spoons and cups beside these pints.
    pub fn with(self, pints: Pints) -> Spoons {
        match (self.are_metric(), pints) {
            (false, Pints::Us) => Spoons::Us,
            (true, Pints::Us) => Spoons::Metric,
            (false, Pints::Imperial) => Spoons::UsByImperialPint,
            (true, Pints::Imperial) => Spoons::MetricByImperialPint,
        }
    }

    pub fn pints(self) -> Pints {
        match self {
            Spoons::Us | Spoons::Metric => Pints::Us,
            Spoons::UsByImperialPint | Spoons::MetricByImperialPint => Pints::Imperial,
        }
    }

    pub(crate) fn are_metric(self) -> bool {
        matches!(self, Spoons::Metric | Spoons::MetricByImperialPint)
    }
}

/// A typed amount: `2-3 tbsp` has a `low` of 2 and a `high` of 3; a plain number has both the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    pub low: Number,
    pub high: Number,
    pub unit: Unit,
}

/// What a unit measures, and how much of it one is.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Base {
    Grams(Number),
    Millilitres(Number),
    Pieces,
    Portions,
    Word,
}

/// The US gallon is 231 cubic inches, the inch 2.54 cm, all exactly: 3.785 412 E-03 m³ in NIST SP 811 (2008), B.8. Over `parts`.
const fn gallon_over(parts: i64) -> Number {
    Number::over(231 * 254 * 254 * 254, 1_000_000 * parts)
}

/// The imperial gallon is 4.546 09 E-03 m³ exactly: NIST SP 811 (2008), B.8. Over `parts`.
const fn imperial_gallon_over(parts: i64) -> Number {
    Number::over(454_609, 100 * parts)
}

/// One US cup in millilitres, a sixteenth of a gallon: what every `cup` weight is the weight of.
pub const US_CUP_ML: Number = gallon_over(16);

/// One avoirdupois pound over `parts`: 4.535 923 7 E-01 kg exactly, NIST SP 811 (2008), B.8.
const fn pound_over(parts: i64) -> Number {
    Number::over(45_359_237, 100_000 * parts)
}

impl Unit {
    pub(crate) fn base(self, spoons: Spoons) -> Base {
        use Base::{Grams, Millilitres};
        let metric = spoons.are_metric();
        let imperial = spoons.pints() == Pints::Imperial;
        match self {
            Unit::Milligram => Grams(Number::over(1, 1000)),
            Unit::Gram => Grams(Number::ONE),
            Unit::Kilogram => Grams(Number::whole(1000)),
            Unit::Ounce => Grams(pound_over(16)),
            Unit::Pound => Grams(pound_over(1)),
            Unit::Millilitre => Millilitres(Number::ONE),
            Unit::Centilitre => Millilitres(Number::whole(10)),
            Unit::Decilitre => Millilitres(Number::whole(100)),
            Unit::Litre => Millilitres(Number::whole(1000)),
            Unit::Teaspoon if metric => Millilitres(Number::whole(5)),
            Unit::Dessertspoon if metric => Millilitres(Number::whole(10)),
            Unit::Tablespoon if metric => Millilitres(Number::whole(15)),
            Unit::Cup if metric => Millilitres(Number::whole(250)),
            Unit::Teaspoon => Millilitres(gallon_over(768)),
            // Two teaspoons, from memory: American tables do not have it.
            Unit::Dessertspoon => Millilitres(gallon_over(384)),
            Unit::Tablespoon => Millilitres(gallon_over(256)),
            Unit::FluidOunce if imperial => Millilitres(imperial_gallon_over(160)),
            Unit::Pint if imperial => Millilitres(imperial_gallon_over(8)),
            Unit::Quart if imperial => Millilitres(imperial_gallon_over(4)),
            Unit::Gallon if imperial => Millilitres(imperial_gallon_over(1)),
            Unit::Gill if imperial => Millilitres(imperial_gallon_over(32)),
            Unit::FluidOunce => Millilitres(gallon_over(128)),
            Unit::Cup => Millilitres(US_CUP_ML),
            Unit::Pint => Millilitres(gallon_over(8)),
            Unit::Quart => Millilitres(gallon_over(4)),
            Unit::Gallon => Millilitres(gallon_over(1)),
            Unit::Gill => Millilitres(gallon_over(32)),
            Unit::Piece => Base::Pieces,
            Unit::Portion => Base::Portions,
            Unit::Word(_) => Base::Word,
        }
    }

    /// Does a line have to say nothing more to be weighed or poured?
    pub(crate) fn is_measured(self) -> bool {
        matches!(self.base(Spoons::Us), Base::Grams(_) | Base::Millilitres(_))
    }

    /// Neither metric nor a word of the kitchen: what one is must be looked up.
    pub(crate) fn is_customary(self) -> bool {
        use Unit::*;
        matches!(self, Ounce | Pound | Teaspoon | Dessertspoon | Tablespoon | FluidOunce | Cup | Pint | Quart | Gallon | Gill)
    }

    /// Larger in an imperial kitchen than in an American one (a fluid ounce is smaller).
    pub fn depends_on_pints(self) -> bool {
        matches!(self, Unit::FluidOunce | Unit::Pint | Unit::Quart | Unit::Gallon | Unit::Gill)
    }

    /// `tbsp`, `cup`, `clove`; nothing for plain pieces.
    pub fn singular(self) -> &'static str {
        names_of(self).0
    }

    /// `tbsp`, `cups`, `cloves`.
    pub fn plural(self) -> &'static str {
        names_of(self).1
    }
}

impl Word {
    /// `clove`: the key under which a food's entry has the weight of one.
    pub fn singular(self) -> &'static str {
        Unit::Word(self).singular()
    }

    /// A thing that a shop sells closed: what a line says of its content is how it is bought.
    pub fn is_container(self) -> bool {
        use Word::*;
        matches!(self, Tin | Jar | Packet | Bottle | Carton | Tub | Bag | Box | Pot | Tube | Punnet)
    }
}

impl Amount {
    /// A plain number of a unit.
    pub fn new(number: impl Into<Number>, unit: Unit) -> Self {
        let number = number.into();
        Amount { low: number.clone(), high: number, unit }
    }

    /// A range of a unit.
    pub fn between(low: impl Into<Number>, high: impl Into<Number>, unit: Unit) -> Self {
        Amount { low: low.into(), high: high.into(), unit }
    }

    /// The upper end, which is what a range buys for.
    pub fn most(&self, spoons: Spoons) -> Quantity {
        quantity(&self.high, self.unit, spoons)
    }

    /// The lower end.
    pub fn least(&self, spoons: Spoons) -> Quantity {
        quantity(&self.low, self.unit, spoons)
    }

    pub fn is_range(&self) -> bool {
        self.low != self.high
    }

    pub fn scaled(&self, factor: impl Into<Number>) -> Self {
        let factor = factor.into();
        Amount { low: &self.low * &factor, high: &self.high * factor, unit: self.unit }
    }

    /// As a cook measures it: grams and millilitres as scales and jugs tell them, everything else in eighths and thirds. What is whole stays.
    ///
    /// ```
    /// use spence::measure::{Amount, Number, Unit};
    /// let said = |above, below, unit| Amount::new(Number::over(above, below), unit).as_measured().to_string();
    /// assert_eq!(said(1, 3, Unit::Kilogram), "335 g");
    /// assert_eq!(said(200, 3, Unit::Gram), "67 g");
    /// assert_eq!(said(3, 5, Unit::Tablespoon), "⅝ tbsp");
    /// assert_eq!(said(103, 1, Unit::Gram), "103 g");
    /// ```
    pub fn as_measured(&self) -> Amount {
        let (times, unit) = match self.unit {
            Unit::Kilogram => (1000, Unit::Gram),
            Unit::Litre => (1000, Unit::Millilitre),
            unit => (1, unit),
        };
        let is_plain = |n: &Number| (n * 4).is_whole();
        if is_plain(&self.low) && is_plain(&self.high) {
            return self.clone();
        }
        let near = |n: &Number| match unit {
            Unit::Gram | Unit::Millilitre => on_the_scales(&(n * times)),
            _ => in_parts(n),
        };
        Amount { low: near(&self.low), high: near(&self.high), unit }
    }
}

/// To five from a hundred on, to whole ones from ten on, else to tenths.
fn on_the_scales(n: &Number) -> Number {
    let steps = |a_unit: Number| (n * &a_unit).round() / a_unit;
    match n {
        n if n.is_whole() => n.clone(),
        n if *n >= 100 => steps(Number::over(1, 5)),
        n if *n >= 10 => n.round(),
        _ => steps(Number::whole(10)),
    }
}

/// The nearest of whole eighths and thirds; never nothing where there is something.
fn in_parts(n: &Number) -> Number {
    let nearest = |parts: i64| (n * parts).round() / parts;
    let off = |part: &Number| (n - part).abs();
    let (eighths, thirds) = (nearest(8), nearest(3));
    let best = if off(&thirds) < off(&eighths) { thirds } else { eighths };
    if best.is_zero() && n.is_positive() { Number::over(1, 8) } else { best }
}

fn quantity(number: &Number, unit: Unit, spoons: Spoons) -> Quantity {
    match unit.base(spoons) {
        Base::Grams(one) => Quantity::grams(number * one),
        Base::Millilitres(one) => Quantity::millilitres(number * one),
        Base::Pieces => Quantity::pieces(number),
        Base::Portions => Quantity::portions(number),
        Base::Word => Quantity::words(number, unit.singular()),
    }
}

fn names_of(unit: Unit) -> (&'static str, &'static str) {
    NAMES.iter().find(|row| row.0 == unit).map_or(("", ""), |row| (row.1, row.2))
}

/// Finds a unit by any of its spellings, without full stops. Only `T` and `t`, and the spoons of German books, `EL` and `TL`, care for letter case.
pub(crate) fn unit_named(word: &str) -> Option<Unit> {
    match word {
        "T" | "EL" => return Some(Unit::Tablespoon),
        "t" | "TL" => return Some(Unit::Teaspoon),
        _ => {}
    }
    if word.len() > LONGEST_NAME {
        return None;
    }
    let mut lower = [0u8; LONGEST_NAME];
    let lower = &mut lower[..word.len()];
    lower.copy_from_slice(word.as_bytes());
    lower.make_ascii_lowercase();
    std::str::from_utf8(lower).ok().and_then(|lower| BY_NAME.get(lower).copied())
}

/// The unit that a slip of one letter made into `word`, as it is spelt: "liter" for "litter".
pub(crate) fn unit_like(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase();
    let long = |name: &str| name.len() >= LEAST_MISTYPED;
    let near = |name: &&&str| long(name) && strsim::damerau_levenshtein(&word, name) == 1;
    BY_NAME.keys().find(near).filter(|_| long(&word) && unit_named(&word).is_none()).copied()
}

/// Shorter words are too many things with one letter changed.
const LEAST_MISTYPED: usize = 5;

const LONGEST_NAME: usize = 16;

static BY_NAME: LazyLock<BTreeMap<&'static str, Unit>> = LazyLock::new(|| {
    let mut by_name = BTreeMap::new();
    for (unit, singular, plural, others) in NAMES {
        for name in [singular, plural].into_iter().chain(*others) {
            by_name.insert(*name, *unit);
        }
    }
    by_name.remove("");
    by_name
});

type Names = (Unit, &'static str, &'static str, &'static [&'static str]);

/// Unit, singular and plural as printed, other spellings.
#[rustfmt::skip]
static NAMES: &[Names] = &[
    (Unit::Milligram,   "mg", "mg", &["milligram", "milligrams", "milligramme", "milligrammes"]),
    (Unit::Gram,        "g", "g", &["gram", "grams", "gramme", "grammes", "gr", "gm", "gms"]),
    (Unit::Kilogram,    "kg", "kg", &["kilogram", "kilograms", "kilogramme", "kilogrammes", "kilo", "kilos", "kgs"]),
    (Unit::Ounce,       "oz", "oz", &["ounce", "ounces", "ozs"]),
    (Unit::Pound,       "lb", "lb", &["lbs", "pound", "pounds"]),
    (Unit::Millilitre,  "ml", "ml", &["millilitre", "millilitres", "milliliter", "milliliters", "mls"]),
    (Unit::Centilitre,  "cl", "cl", &["centilitre", "centilitres", "centiliter", "centiliters"]),
    (Unit::Decilitre,   "dl", "dl", &["decilitre", "decilitres", "deciliter", "deciliters"]),
    (Unit::Litre,       "l", "l", &["litre", "litres", "liter", "liters", "ltr", "ltrs"]),
    (Unit::Teaspoon,    "tsp", "tsp", &["tsps", "teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls", "tspn", "teasp", "teasps"]),
    (Unit::Dessertspoon, "dsp", "dsp", &["dsps", "dstsp", "dessertspoon", "dessertspoons", "dessertspoonful", "dessertspoonfuls", "desertspoon", "desertspoons"]),
    (Unit::Tablespoon,  "tbsp", "tbsp", &["tbsps", "tbs", "tblsp", "tbl", "tbls", "tbspn", "tablespoon", "tablespoons", "tablespoonful", "tablespoonfuls", "tablesp", "tablesps"]),
    (Unit::FluidOunce,  "fl oz", "fl oz", &["floz", "fluid ounce", "fluid ounces"]),
    (Unit::Cup,         "cup", "cups", &["c", "cupful", "cupfuls"]),
    (Unit::Pint,        "pint", "pints", &["pt", "pts"]),
    (Unit::Quart,       "quart", "quarts", &["qt", "qts"]),
    (Unit::Gallon,      "gallon", "gallons", &["gal", "gals"]),
    (Unit::Gill,        "gill", "gills", &[]),
    (Unit::Piece,       "", "", &["piece", "pieces", "pc", "pcs", "nos", "each", "ea"]),
    (Unit::Portion,     "portion", "portions", &["serving", "servings", "helping", "helpings"]),
    (Unit::Word(Word::Clove),   "clove", "cloves", &[]),
    (Unit::Word(Word::Slice),   "slice", "slices", &[]),
    (Unit::Word(Word::Sprig),   "sprig", "sprigs", &["twig", "twigs"]),
    (Unit::Word(Word::Bunch),   "bunch", "bunches", &["bn", "bns"]),
    (Unit::Word(Word::Stick),   "stick", "sticks", &[]),
    (Unit::Word(Word::Stalk),   "stalk", "stalks", &["rib", "ribs", "stem", "stems"]),
    (Unit::Word(Word::Head),    "head", "heads", &["crown", "crowns"]),
    (Unit::Word(Word::Bulb),    "bulb", "bulbs", &[]),
    (Unit::Word(Word::Leaf),    "leaf", "leaves", &["leafs"]),
    (Unit::Word(Word::Pinch),   "pinch", "pinches", &[]),
    (Unit::Word(Word::Dash),    "dash", "dashes", &[]),
    (Unit::Word(Word::Drop),    "drop", "drops", &[]),
    (Unit::Word(Word::Splash),  "splash", "splashes", &[]),
    (Unit::Word(Word::Drizzle), "drizzle", "drizzles", &[]),
    (Unit::Word(Word::Handful), "handful", "handfuls", &["handsful"]),
    (Unit::Word(Word::Knob),    "knob", "knobs", &["thumb", "thumbs"]),
    (Unit::Word(Word::Rasher),  "rasher", "rashers", &[]),
    (Unit::Word(Word::Fillet),  "fillet", "fillets", &["filet", "filets"]),
    (Unit::Word(Word::Ear),     "ear", "ears", &["cob", "cobs"]),
    (Unit::Word(Word::Sheet),   "sheet", "sheets", &[]),
    (Unit::Word(Word::Cube),    "cube", "cubes", &[]),
    (Unit::Word(Word::Strip),   "strip", "strips", &[]),
    (Unit::Word(Word::Wedge),   "wedge", "wedges", &[]),
    (Unit::Word(Word::Block),   "block", "blocks", &[]),
    (Unit::Word(Word::Tin),     "tin", "tins", &["can", "cans"]),
    (Unit::Word(Word::Jar),     "jar", "jars", &[]),
    (Unit::Word(Word::Packet),  "packet", "packets", &["package", "packages", "pack", "packs", "pkg", "pkgs", "pkt", "pkts", "sachet", "sachets", "pouch", "pouches", "envelope", "envelopes"]),
    (Unit::Word(Word::Bottle),  "bottle", "bottles", &[]),
    (Unit::Word(Word::Carton),  "carton", "cartons", &[]),
    (Unit::Word(Word::Tub),     "tub", "tubs", &[]),
    (Unit::Word(Word::Bag),     "bag", "bags", &[]),
    (Unit::Word(Word::Box),     "box", "boxes", &[]),
    (Unit::Word(Word::Pot),     "pot", "pots", &[]),
    (Unit::Word(Word::Tube),    "tube", "tubes", &[]),
    (Unit::Word(Word::Punnet),  "punnet", "punnets", &[]),
    (Unit::Word(Word::Ball),    "ball", "balls", &[]),
    (Unit::Word(Word::Loaf),    "loaf", "loaves", &[]),
    (Unit::Word(Word::Dollop),  "dollop", "dollops", &[]),
    (Unit::Word(Word::Glug),    "glug", "glugs", &[]),
    (Unit::Word(Word::Squeeze), "squeeze", "squeezes", &[]),
    (Unit::Word(Word::Scoop),   "scoop", "scoops", &[]),
    (Unit::Word(Word::Ladle),   "ladle", "ladles", &["ladleful", "ladlefuls"]),
    (Unit::Word(Word::Glass),   "glass", "glasses", &["glassful", "glassfuls"]),
    (Unit::Word(Word::Chunk),   "chunk", "chunks", &[]),
    (Unit::Word(Word::Lump),    "lump", "lumps", &[]),
    (Unit::Word(Word::Pat),     "pat", "pats", &[]),
    (Unit::Word(Word::Square),  "square", "squares", &[]),
    (Unit::Word(Word::Floret),  "floret", "florets", &[]),
    (Unit::Word(Word::Spear),   "spear", "spears", &[]),
    (Unit::Word(Word::Segment), "segment", "segments", &[]),
    (Unit::Word(Word::Pod),     "pod", "pods", &[]),
    (Unit::Word(Word::Twist),   "twist", "twists", &["grind", "grinds", "grinding", "grindings", "grating", "gratings"]),
    (Unit::Word(Word::Roll),    "roll", "rolls", &[]),
    (Unit::Word(Word::Bar),     "bar", "bars", &[]),
    (Unit::Word(Word::Nest),    "nest", "nests", &[]),
    (Unit::Word(Word::Rack),    "rack", "racks", &[]),
    (Unit::Word(Word::Blade),   "blade", "blades", &[]),
    (Unit::Word(Word::Shaving), "shaving", "shavings", &[]),
    (Unit::Word(Word::Sprinkle), "sprinkle", "sprinkles", &["sprinkling", "sprinklings", "shake", "shakes", "scattering", "dusting"]),
];

/// The kitchen word of this singular: `clove`. For readers of foods.toml, where it is a key.
pub fn word_named(name: &str) -> Option<Word> {
    match unit_named(name) {
        Some(Unit::Word(word)) => Some(word),
        _ => None,
    }
}
