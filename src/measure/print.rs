//! Printing amounts as a cook reads them. Rounding for display never changes what is computed.
//!
//! An [`Amount`] prints as typed and is read back unchanged; [`show`] rounds.

use std::fmt;

use super::tokens::VULGAR;
use super::unit::{US_CUP_ML, Word, unit_named, word_named};
use super::{Amount, Number, Quantity, Spoons, Unit};

/// How sheets print amounts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    #[default]
    Metric,
    Us,
}

/// `1.2 kg`, `830 g`, `1⅓ cups`, `2½`, `3 portions`, `1 sprig`.
///
/// From 10 g or ml up, rounding moves an amount by 5 % at most, from 50 up by 2.5 % at most.
///
/// ```
/// use spence::measure::{Quantity, Units, show};
/// assert_eq!(show(&Quantity::grams(1187.3), Units::Metric), "1.2 kg");
/// assert_eq!(show(&Quantity::pieces(2.5), Units::Metric), "2½");
/// ```
pub fn show(quantity: &Quantity, units: Units) -> String {
    shown(quantity, units, Round::Nearest)
}

/// As [`show`], never more than there is: what a shelf is said to hold can be taken from it.
///
/// ```
/// use spence::measure::{Quantity, Units, show_at_most};
/// assert_eq!(show_at_most(&Quantity::grams(1187.3), Units::Metric), "1.15 kg");
/// assert_eq!(show_at_most(&Quantity::portions(0.66), Units::Metric), "⅝ portion");
/// ```
pub fn show_at_most(quantity: &Quantity, units: Units) -> String {
    shown(quantity, units, Round::Down)
}

#[derive(Clone, Copy, PartialEq)]
enum Round {
    Nearest,
    Down,
}

impl Round {
    /// Whole steps; the noise of a float is no part of one.
    fn whole(self, steps: f64) -> f64 {
        match self {
            Round::Nearest => steps.round(),
            Round::Down => (steps + 1e-9).floor(),
        }
    }
}

fn shown(quantity: &Quantity, units: Units, round: Round) -> String {
    match (quantity, units) {
        (Quantity::Mass(_), Units::Metric) => metric(quantity.base(), "g", "kg", round),
        (Quantity::Volume(_), Units::Metric) => metric(quantity.base(), "ml", "l", round),
        (Quantity::Mass(_), Units::Us) => us_mass(quantity.base(), round),
        (Quantity::Volume(_), Units::Us) => us_volume(quantity.base(), round),
        (Quantity::Count(n), _) => kitchen_number(n.to_f64(), EIGHTHS_AND_THIRDS, round),
        (Quantity::Portions(n), _) => named(n.to_f64(), "portion", "portions", round),
        (Quantity::Words(n, word), _) => match unit_named(word) {
            Some(unit) if unit != Unit::Piece => in_words(n.to_f64(), unit, round),
            _ => named(n.to_f64(), word, word, round),
        },
    }
}

/// Things that nobody parts in eighths; of more than one nobody takes quarters either. Singular.
const LOOSE: [&str; 9] = ["sprig", "leaf", "pinch", "handful", "stalk", "dash", "knob", "clove", "sheet"];

/// Sprigs, bunches, tins in a cook's fractions: "⅔ bunch", "1½ sprigs". What is rounded down stays as fine as it was.
fn in_words(n: f64, unit: Unit, round: Round) -> String {
    let parts = match round {
        Round::Down => return named(n, unit.singular(), unit.plural(), round),
        Round::Nearest if n < 0.1875 && !LOOSE.contains(&unit.singular()) => EIGHTHS_AND_THIRDS,
        Round::Nearest if n < 0.9 => QUARTERS_AND_THIRDS,
        Round::Nearest if n < 3.0 && !LOOSE.contains(&unit.singular()) => QUARTERS,
        Round::Nearest if n < 3.0 => HALVES_AND_THIRDS,
        Round::Nearest => HALVES,
    };
    named_us(n, unit, parts, round)
}

fn named(n: f64, singular: &str, plural: &str, round: Round) -> String {
    let number = kitchen_number(n, EIGHTHS_AND_THIRDS, round);
    let one = n <= 1.0 || number == "1";
    format!("{number} {}", if one { singular } else { plural })
}

/// From this many base units on, the step to which they are rounded.
const STEPS: [(f64, f64); 6] = [(10_000.0, 100.0), (1000.0, 50.0), (50.0, 5.0), (10.0, 1.0), (1.0, 0.5), (0.0, 0.1)];

fn metric(base: f64, small: &str, large: &str, round: Round) -> String {
    let step = STEPS.iter().find(|row| base >= row.0).map_or(0.1, |row| row.1);
    let mut rounded = round.whole(base / step) * step;
    if rounded == 0.0 && base > 0.0 {
        rounded = if round == Round::Down { base } else { step };
    }
    if rounded >= 1000.0 {
        return format!("{} {large}", decimal(rounded / 1000.0, 2));
    }
    format!("{} {small}", decimal(rounded, 1))
}

fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

fn us_mass(grams: f64, round: Round) -> String {
    let ounce = Amount::new(1, Unit::Ounce).most(Spoons::Us).base();
    let ounces = grams / ounce;
    if ounces < 0.125 {
        return metric(grams, "g", "kg", round);
    }
    if ounces < 15.75 {
        return format!("{} oz", kitchen_number(ounces, if ounces < 1.0 { EIGHTHS } else { QUARTERS }, round));
    }
    let whole = round.whole(ounces);
    let (pounds, left) = ((whole / 16.0).floor(), whole % 16.0);
    match (pounds, left) {
        (_, 0.0) => format!("{pounds} lb"),
        (0.0, _) => format!("{left} oz"),
        _ => format!("{pounds} lb {left} oz"),
    }
}

fn us_volume(millilitres: f64, round: Round) -> String {
    let cups = millilitres / US_CUP_ML.to_f64();
    if cups >= 8.0 {
        return named_us(cups / 4.0, Unit::Quart, QUARTERS, round);
    }
    // 3½ tbsp is the last step below a quarter of a cup.
    if cups >= 3.75 / 16.0 {
        return cups_and_spoons(cups, round);
    }
    if cups >= 0.96 / 16.0 {
        return named_us(cups * 16.0, Unit::Tablespoon, HALVES, round);
    }
    named_us(cups * 48.0, Unit::Teaspoon, EIGHTHS, round)
}

/// No cup holds an eighth: "2 cups and 2 tbsp", "¾ cup and 2 tbsp".
fn cups_and_spoons(cups: f64, round: Round) -> String {
    const ODD: [(&str, &str); 4] = [("⅛", ""), ("⅜", "¼"), ("⅝", "½"), ("⅞", "¾")];
    let shown = named_us(cups, Unit::Cup, EIGHTHS_AND_THIRDS, round);
    let even = ODD.iter().find(|(odd, _)| shown.contains(odd)).map(|(odd, even)| shown.replace(odd, even));
    match even {
        Some(even) if even == "1 cups" => format!("1 cup and 2 {}", Unit::Tablespoon.plural()),
        Some(even) if !even.starts_with(' ') => format!("{even} and 2 {}", Unit::Tablespoon.plural()),
        _ => shown,
    }
}

fn named_us(n: f64, unit: Unit, parts: &[(f64, &str)], round: Round) -> String {
    let number = kitchen_number(n, parts, round);
    let one = number == "1" || !number.starts_with(|c: char| c.is_ascii_digit());
    format!("{number} {}", if one { unit.singular() } else { unit.plural() })
}

/// A small volume as it is measured out: `2 tbsp`, `1½ tsp`. `None` above four tablespoons, and of what is no volume.
pub fn show_in_spoons(quantity: &Quantity, spoons: Spoons) -> Option<String> {
    let Quantity::Volume(_) = quantity else { return None };
    let of = |unit: Unit| quantity.base() / Amount::new(1, unit).most(spoons).base();
    let tablespoons = of(Unit::Tablespoon);
    if quantity.base() <= 0.0 || tablespoons > MOST_SPOONS {
        return None;
    }
    // Halves of a tablespoon where they are right enough; else teaspoons tell it better.
    let halves = (tablespoons * 2.0).round() / 2.0;
    let round = Round::Nearest;
    let whole = tablespoons.floor();
    let may_be_off = if whole >= 2.0 { 0.05 } else { NEAR_A_SPOON };
    let near = halves >= 1.0 && (tablespoons - halves).abs() <= may_be_off * tablespoons;
    // "2 tbsp and 2 tsp" rather than eight teaspoons.
    if !near && whole >= 2.0 {
        let rest = of(Unit::Teaspoon) * (1.0 - whole / tablespoons);
        let (whole, rest) = (named_us(whole, Unit::Tablespoon, HALVES, round), named_us(rest, Unit::Teaspoon, HALVES, round));
        return Some(format!("{whole} and {rest}"));
    }
    Some(if near {
        named_us(tablespoons, Unit::Tablespoon, HALVES, round)
    } else {
        let teaspoons = of(Unit::Teaspoon);
        let parts = if teaspoons >= 1.0 { QUARTERS } else { EIGHTHS };
        named_us(teaspoons, Unit::Teaspoon, parts, round)
    })
}

/// By how much of it an amount under two tablespoons may be off in halves of one: else it would be six teaspoons less a little.
const NEAR_A_SPOON: f64 = 0.07;

/// Tablespoons above which nobody measures by the spoon, and a little for rounding.
const MOST_SPOONS: f64 = 4.0 + 1e-9;

type Parts = &'static [(f64, &'static str)];
const HALVES: Parts = &[(0.0, ""), (0.5, "½"), (1.0, "")];
const QUARTERS: Parts = &[(0.0, ""), (0.25, "¼"), (0.5, "½"), (0.75, "¾"), (1.0, "")];
const HALVES_AND_THIRDS: Parts = &[(0.0, ""), (1.0 / 3.0, "⅓"), (0.5, "½"), (2.0 / 3.0, "⅔"), (1.0, "")];
const QUARTERS_AND_THIRDS: Parts = &[(0.0, ""), (0.25, "¼"), (1.0 / 3.0, "⅓"), (0.5, "½"), (2.0 / 3.0, "⅔"), (0.75, "¾"), (1.0, "")];
const EIGHTHS: Parts =
    &[(0.0, ""), (0.125, "⅛"), (0.25, "¼"), (0.375, "⅜"), (0.5, "½"), (0.625, "⅝"), (0.75, "¾"), (0.875, "⅞"), (1.0, "")];
#[rustfmt::skip]
const EIGHTHS_AND_THIRDS: Parts = &[
    (0.0, ""), (0.125, "⅛"), (0.25, "¼"), (1.0 / 3.0, "⅓"), (0.375, "⅜"), (0.5, "½"), (0.625, "⅝"), (2.0 / 3.0, "⅔"), (0.75, "¾"),
    (0.875, "⅞"), (1.0, ""),
];

/// The nearest of `parts`, or the next below; never nothing where there is something.
fn kitchen_number(n: f64, parts: &[(f64, &str)], round: Round) -> String {
    let whole = n.floor();
    let rest = n - whole;
    let mut best = (f64::INFINITY, 0.0, "");
    for (value, sign) in parts.iter().filter(|(value, _)| round == Round::Nearest || *value <= rest + 1e-9) {
        let off = (rest - value).abs();
        if off < best.0 - 1e-12 {
            best = (off, *value, sign);
        }
    }
    let (_, part, sign) = best;
    let whole = if part == 1.0 { whole + 1.0 } else { whole };
    match (whole == 0.0, sign.is_empty()) {
        (true, true) if n > 0.0 && round == Round::Down => decimal((n * 1000.0).floor() / 1000.0, 3),
        (true, true) if n > 0.0 => parts[1].1.to_owned(),
        (true, false) => sign.to_owned(),
        _ => format!("{whole}{sign}"),
    }
}

/// A number exactly as it is: with a vulgar fraction where one is usual, else as a decimal, else as `2 1/7`.
pub(crate) fn exact_number(n: &Number) -> String {
    let whole = n.floor();
    let part = n - &whole;
    let usual = VULGAR.into_iter().filter(|row| matches!(row.2, 2 | 3 | 4 | 8));
    match usual.into_iter().find(|row| part == Number::over(row.1.into(), row.2.into())) {
        Some((sign, ..)) if whole.is_zero() => sign.to_string(),
        Some((sign, ..)) => format!("{whole}{sign}"),
        None => n.to_string(),
    }
}

/// As a person types it: `2-3 tbsp`, `1½ cups`, `6`, `1 sprig`. [`read_amount`](super::read_amount) reads it back unchanged.
impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&exact_number(&self.low))?;
        if self.is_range() {
            // A spaced "to": "1-½" would be read as one and a half.
            write!(f, " to {}", exact_number(&self.high))?;
        }
        let name = if self.high <= 1 { self.unit.singular() } else { self.unit.plural() };
        if name.is_empty() { Ok(()) } else { write!(f, " {name}") }
    }
}

impl fmt::Display for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.singular())
    }
}

/// The plural of a kitchen word by its singular; the word itself where it is none.
pub fn plural_word(singular: &str) -> &str {
    word_named(singular).map_or(singular, |word| Unit::Word(word).plural())
}
