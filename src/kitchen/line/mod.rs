//! Ingredient lines, as a cookery book prints them.
//!
//! ```text
//! line      = heading | [words ":"] line | whole-of | recipe-line | food-line | turned
//! heading   = "for the" {word} [":"] | {word} ":"
//! food-line = [measure] foods {bracket} {separator part}
//! measure   = [qualifier] number {qualifier} [unit] {again} ["each"] ["of"] ["–"]
//!           | number ("x" | "(" | " " | "-") size [")"] container     2 x 400 g, 1 (14-ounce) can, 1 400 g tin, 2 - 10 oz cans
//!           | number measure container                                400 g tin: one of them; 200 g piece
//!           | [number "x"] number length ["/" number length] [word]   2 cm piece, 5cm/2in piece: a knob, its length a remark
//!           | {qualifier} unit ["of"]                                 pinch of salt, heaped tbsp sugar, thumb-sized piece of ginger
//!           | ("a few" | "some" | "a little" | …) [unit] ["of"]       as "to taste", in its own words
//! again     = "/" size | "(" size ")" | ["plus"] measure              1 lb 4 oz; a weight beside a volume or a count is the amount
//!           | [","] measure                                           500 g 1 lb 2 oz: two systems say one amount
//! foods     = food {("," | "and" | "&") food} | food {("or" | "/") food}
//! food      = {form | way | grade | origin} name [unit] [part]
//! turned    = food {part} (separator | "(") measure {part}            plain flour 200 g; eggs, 2; Tomatoes (chopped) - 3 medium
//! part      = "plus" measure [food] | measure food | "or" … | size ["each" | "total"] | "to taste" | preparation
//! whole-of  = ("juice" | "zest" | "yolk" | …) ("of" | "from") food-line    that many lemons, prepared so
//! separator = "," | ";" | ":" | a dash with a space beside it
//! ```
//!
//! A line is cut once ([`Words`]) and read in every way that the grammar allows: with a word as a unit or as a part of the food's name, with
//! its amount first or after the food, as one food or as several. The reading is kept that leaves the fewest words unexplained, and of those
//! the one with the most words in a known food's name ([`candidate::Candidate`]).
//!
//! Order carries meaning: a form before the food says in what state the amount is measured (`300 g diced onion` is onion after
//! trimming), after the comma it says what to do with what was bought.
//!
//! Nothing is guessed silently: a line that reads in no way is a [`LineError`]; a food that nobody knows keeps its own words; what was
//! taken although it could mean something else is a doubt, which is told.

mod beside;
mod candidate;
mod food;
mod foods;
mod length;
mod measure;
mod net;
mod parts;
mod print;
mod pulses;
mod recipe;
mod spelling;
mod turned;
mod vocabulary;

use self::candidate::Candidate;
use crate::foods::{Foods, Item};
use crate::kitchen::words::Words;
use crate::measure::{Amount, Kind, Spoons};

/// What one ingredient of a line is, before recipe names are resolved.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    pub of: LineOf,
    /// After the comma: "diced", "rinsed".
    pub prep: Option<String>,
    /// In brackets, where it is not a size; also how it is bought ("boneless") and what a weight took the place of ("½ cup").
    pub remark: Option<String>,
    /// What could be taken instead: "2 shallots", "soy milk".
    pub instead: Option<String>,
    /// "(optional)", "for garnish", "to serve": bought, and marked.
    pub optional: bool,
    /// What was taken although the line could mean something else, or was not used: whole sentences without the full stop.
    pub doubts: Vec<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum LineOf {
    /// `food` is the known food's name, or the line's own words for an unknown one. `item` is `None` for "salt, to taste".
    Food { food: String, item: Option<Item> },
    /// `200 g recipe:herb-yoghurt`, `1 portion recipe:pearl-barley`.
    Recipe { id: String, amount: Amount },
}

/// What a typed line is.
#[derive(Debug, Clone, PartialEq)]
pub enum LineRead {
    /// "For the dressing:" stands over ingredients and is none.
    Heading(String),
    /// One ingredient, or several: "salt and pepper".
    Ingredients(Vec<Line>),
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

/// Reads one line of one ingredient.
///
/// ```
/// use spence::foods::Foods;
/// use spence::kitchen::{LineOf, read_line};
/// use spence::measure::Spoons;
/// let line = read_line("2 cloves garlic, peeled", &Foods::default(), Spoons::Us).unwrap();
/// assert_eq!(line.prep.as_deref(), Some("peeled"));
/// let LineOf::Food { food, .. } = line.of else { unreachable!() };
/// assert_eq!(food, "garlic");
/// ```
///
/// Fails as [`read_ingredients`] does, and on a heading or several foods.
pub fn read_line(text: &str, foods: &Foods, spoons: Spoons) -> Result<Line, LineError> {
    match read_ingredients(text, foods, spoons)? {
        LineRead::Heading(heading) => {
            Err(LineError::new(format!("\"{heading}\" is a heading, and names no food"), "write an amount and a food", 0))
        }
        LineRead::Ingredients(mut lines) if lines.len() == 1 => Ok(lines.remove(0)),
        LineRead::Ingredients(lines) => {
            let names: Vec<String> = lines.iter().map(|line| line.of.to_string()).collect();
            Err(LineError::new(format!("the line names several foods: {}", names.join(", ")), "write one of them", 0))
        }
    }
}

/// Reads one line in the best of all ways. `spoons` says whose pints the size of one container is in; amounts keep their units.
///
/// Fails on an empty line, an amount without a food, an amount that is zero, negative or in two units, a bracket without its fellow, and
/// `recipe:` without an id.
pub fn read_ingredients(text: &str, foods: &Foods, spoons: Spoons) -> Result<LineRead, LineError> {
    let start = text.len() - text.trim_start().len();
    let start = start + bullet(&text[start..]);
    let shifted = |error: LineError| LineError { offset: error.offset + start, ..error };
    let uneven = |bracket: crate::kitchen::words::UnevenBracket| match bracket.opened {
        true => LineError::new("a bracket is not closed", "close it with \")\"", bracket.byte),
        false => LineError::new("a bracket is closed that was not opened", "open it with \"(\", or leave it out", bracket.byte),
    };
    let (words, inside) = Words::of(&text[start..]).fold_brackets().map_err(uneven).map_err(shifted)?;
    let reader = Reader { w: &words, inside: &inside, foods, spoons, end: without_marks(&words) };
    if reader.end == 0 {
        return Err(LineError::new("the line is empty", "write an amount and a food", 0));
    }
    if let Some(heading) = reader.heading() {
        return Ok(LineRead::Heading(heading));
    }
    if let Some(under) = reader.under_a_word() {
        return Ok(LineRead::Ingredients(under));
    }
    let from = reader.after_heading();
    let best = reader.best(from);
    // A slip of the pen, where nobody knows the food as it is written.
    if best.as_ref().map_or(true, |best| best.unexplained > 0)
        && let Some((mended, told)) = spelling::respelt(text)
        && let Ok(LineRead::Ingredients(mut lines)) = read_ingredients(&mended, foods, spoons)
    {
        lines.iter_mut().take(1).for_each(|line| line.doubts.extend(told.clone()));
        return Ok(LineRead::Ingredients(lines));
    }
    let mut lines = reader.all(from, best).map_err(shifted)?;
    let bought: Vec<String> = lines.iter().map(|line| line.of.to_string()).collect();
    lines.iter_mut().for_each(|line| line.tell_what_is_left(&bought, foods));
    Ok(LineRead::Ingredients(lines))
}

/// Footnote signs and full stops at the end of a line say nothing.
fn without_marks(words: &Words) -> usize {
    let says = |at: &usize| !matches!(words.kind(at - 1), Some(Kind::Times | Kind::Stop | Kind::Other));
    (1..=words.len()).rev().find(says).unwrap_or(0)
}

/// The length of the "- " or "• " before a pasted line.
fn bullet(text: &str) -> usize {
    let marked = crate::words::bullet(text);
    if marked > 0 {
        return marked;
    }
    // "1. 2 eggs" is the first of a list; "2.5 kg" is none.
    let digits = text.len() - text.trim_start_matches(|letter: char| letter.is_ascii_digit()).len();
    let numbered = text[digits..].strip_prefix(". ").or_else(|| text[digits..].strip_prefix(") "));
    let counts = |rest: &str| rest.starts_with(char::is_numeric);
    if (1..=2).contains(&digits) && numbered.is_some_and(counts) { digits + 2 } else { 0 }
}

/// One line that is being read: its words, with each bracket as one of them, and what stands in the brackets.
#[derive(Clone, Copy)]
struct Reader<'a> {
    w: &'a Words<'a>,
    inside: &'a [(usize, Words<'a>)],
    foods: &'a Foods,
    spoons: Spoons,
    /// The place after the last word that is read.
    end: usize,
}

impl<'a> Reader<'a> {
    /// What stands in the bracket at a place.
    fn bracket(&self, at: usize) -> Option<&'a Words<'a>> {
        self.inside.iter().find(|(place, _)| *place == at).map(|(_, words)| words)
    }

    /// "For the dressing:", "Sauce:", "For the dressing".
    fn heading(&self) -> Option<String> {
        let w = self.w;
        let colon = w.kind(self.end - 1) == Some(Kind::Colon);
        let for_the = w.is(0, "for") && w.is(1, "the") && self.end > 2;
        let end = self.end - usize::from(colon);
        let is_plain = || (0..end).all(|at| !matches!(w.kind(at), Some(Kind::Number | Kind::Fraction | Kind::Comma | Kind::Colon)));
        (end > 0 && (colon || for_the) && is_plain()).then(|| w.plain(0..end))
    }

    /// Past the "For the dressing:" that stands before an ingredient.
    fn after_heading(&self) -> usize {
        let w = self.w;
        let colon = (0..self.end).find(|at| w.kind(*at) == Some(Kind::Colon)).filter(|_| w.is(0, "for"));
        colon.map_or(0, |colon| colon + 1)
    }
}

impl Reader<'_> {
    /// The ingredients from `start` on, of which `best` is the reading of all words in one, with those at the end of which no amount is said.
    fn all(&self, start: usize, best: Result<Candidate, LineError>) -> Result<Vec<Line>, LineError> {
        let last = self.foods_at_the_end(start);
        let Some(first) = last.first() else { return best.map(|best| best.lines) };
        let mut lines = Reader { end: first.start - 1, ..*self }.best(start)?.lines;
        for range in last {
            lines.extend(Reader { end: range.end, ..*self }.best(range.start)?.lines);
        }
        Ok(lines)
    }

    /// "Garnish: chopped parsley", "Optional: 50 g walnuts": ingredients under a word that stands for no food.
    fn under_a_word(&self) -> Option<Vec<Line>> {
        const HEADINGS: [&str; 12] =
            ["sauce", "dressing", "icing", "filling", "topping", "marinade", "frosting", "glaze", "crust", "base", "garnish", "seasoning"];
        let w = self.w;
        let colon = (1..self.end.min(5)).find(|at| w.kind(*at) == Some(Kind::Colon))?;
        let is_word = |at: usize| w.kind(at) == Some(Kind::Word);
        // "recipe:pearl-barley" and "any:grain" are no headings.
        if ["recipe", "any"].iter().any(|word| w.is(colon - 1, word)) {
            return None;
        }
        let names_a_food = (0..colon).any(|at| self.names(at).is_some()) && !HEADINGS.contains(&w.key(0..colon));
        if colon + 1 >= self.end || names_a_food || !(0..colon).all(is_word) {
            return None;
        }
        let mut best = self.best(colon + 1).ok().filter(|best| best.unexplained == 0 && best.named > 0)?;
        let optional = vocabulary::says_optional(w, 0..colon) || w.is(0, "serving") || w.is(0, "serve");
        best.lines.iter_mut().for_each(|line| line.optional |= optional);
        Some(best.lines)
    }
}

/// Adds to a list that is told with commas.
fn join(parts: Vec<String>) -> Option<String> {
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

#[cfg(test)]
mod tests;
