//! One ingredient line, as a cookery book prints it.
//!
//! ```text
//! line      = whole-of | recipe-line | food-line | turned
//! food-line = [amount] [grade] {state | adjective} food [{state}] ["or" other] {"," part} {"(" remark ")"}
//! amount    = number {qualifier} [unit] ["(" size ")"] ["of"]
//!           | number ("x" | "(" | " ") size [")"] [container]          2 x 400 g, 1 (14-ounce) can, 1 400 g tin
//!           | number measure container                                 400 g tin: one of them; 200 g piece
//!           | amount ["plus"] number measure                           1 lb 4 oz
//!           | measure ("/" measure | "(" measure ")")                  400g/14oz: the first is meant, the second a remark
//!           | [number "x"] number length ["/" number length] [word]    2 cm piece, 5cm/2in piece: a knob, its length a remark
//!           | {qualifier} word ["of"]                                  pinch of salt, heaped tbsp sugar, thumb-sized piece of ginger
//!           | ("a few" | "some" | "a little" | …) [word] ["of"]        as "to taste", in its own words
//! turned    = food ("," | "-" | "(")? amount                           plain flour 200 g; flour (200 g); eggs, 2
//! part      = "plus" amount {word}   adds to the amount
//!           | "to taste"
//!           | preparation
//! whole-of  = ("juice" | "zest" | …) "of" food-line                    that many lemons, prepared so
//! recipe-line = amount "recipe:" id {"," part}
//! ```
//!
//! Order carries meaning: a form before the food says in what state the amount is measured (`300 g diced onion` is onion after
//! trimming), after the comma it says what to do with what was bought. The longest known food name wins before any word is split off.
//! A word after the food that counts it is its unit: `4 garlic cloves`.
//!
//! Nothing is guessed: a line that reads in no way is a [`LineError`]; a food that nobody knows keeps its own words.

mod food;
mod length;
mod measure;
mod print;
mod resolve;
mod turned;
mod unnumbered;
mod words;

use crate::foods::{Foods, Item};
use crate::measure::Amount;

/// What a line says, before recipe names are resolved.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    pub of: LineOf,
    /// After the comma: "diced", "rinsed".
    pub prep: Option<String>,
    /// In brackets, where it is not a size; also how it is bought ("boneless") and what could be taken instead ("or shallots").
    pub remark: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum LineOf {
    /// `food` is the known food's name, or the line's own words for an unknown one. `item` is `None` for "salt, to taste".
    Food { food: String, item: Option<Item> },
    /// `200 g recipe:herb-yoghurt`, `1 portion recipe:pearl-barley`.
    Recipe { id: String, amount: Amount },
}

/// A line that cannot be read: what is wrong, what would mend it, and where in the line (byte offset).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineError {
    pub cause: String,
    pub remedy: String,
    pub offset: usize,
}

impl LineError {
    fn new(cause: impl Into<String>, remedy: impl Into<String>, offset: usize) -> Self {
        LineError { cause: cause.into(), remedy: remedy.into(), offset }
    }
}

/// Reads one line.
///
/// ```
/// use spence::foods::Foods;
/// use spence::kitchen::{LineOf, read_line};
/// let line = read_line("2 cloves garlic, peeled", &Foods::default()).unwrap();
/// assert_eq!(line.prep.as_deref(), Some("peeled"));
/// let LineOf::Food { food, .. } = line.of else { unreachable!() };
/// assert_eq!(food, "garlic");
/// ```
///
/// Fails on an empty line, an amount without a food, an amount that is zero, negative or in two units, an open bracket, and
/// `recipe:` without an id.
pub fn read_line(text: &str, foods: &Foods) -> Result<Line, LineError> {
    let start = text.len() - text.trim_start().len();
    let start = start + bullet(&text[start..]);
    if text[start..].trim().is_empty() {
        return Err(LineError::new("the line is empty", "write an amount and a food", 0));
    }
    if let Some((phrase, rest)) = words::whole_of(&text[start..]) {
        let mut line =
            read_line(&text[start + rest..], foods).map_err(|error| LineError { offset: error.offset + start + rest, ..error })?;
        line.prep = Some(match line.prep {
            Some(prep) => format!("{phrase}, {prep}"),
            None => phrase,
        });
        return Ok(line);
    }
    let measure = measure::read(text, start, foods)?;
    if measure.amount.is_none()
        && measure.vague.is_none()
        && let Some(turned) = turned::amount_first(&text[start..], foods)
    {
        return read_line(&turned, foods).map_err(|error| LineError { offset: start, ..error });
    }
    let parts = food::split(text, measure.end)?;
    if let Some(recipe) = food::recipe(text, &parts)? {
        return food::recipe_line(recipe, measure, &parts, start);
    }
    food::food_line(text, start, measure, parts, foods)
}

/// Does the line say some amount, but not which: "a few sprigs rosemary"?
pub(crate) fn says_vaguely(text: &str) -> bool {
    words::vague(text[bullet(text)..].trim_start()).is_some()
}

/// The length of the "- " or "• " before a pasted line.
fn bullet(text: &str) -> usize {
    ["- ", "– ", "— ", "* ", "• ", "•", "· ", "☐ ", "□ ", "[ ] "]
        .iter()
        .find(|bullet| text.starts_with(**bullet))
        .map_or(0, |bullet| bullet.len())
}

#[cfg(test)]
mod tests;
