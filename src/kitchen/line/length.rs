//! Pieces told by their length: "2 cm piece of ginger", "1 (2-inch) piece", "2 x 5cm/2in pieces", "8-inch tortilla".

use super::Reader;
use crate::kitchen::words::Words;
use crate::measure::{Kind, Number, Unit, Word, is_length_word};

/// How many of what, and the place after it.
pub(super) struct Long {
    /// The number before the length counts: "2 x 5 cm pieces".
    pub counted: bool,
    pub unit: Unit,
    /// Centimetres, where the text says them in numbers.
    pub long: Option<Number>,
    pub said: String,
    pub end: usize,
}

/// What a centimetre of it weighs, about as thick as a thumb. USDA SR 11216: 5 slices of ginger an inch across weigh 11 g, so a centimetre of it
/// about 5 g; the others are common practice, no source.
const GRAMS_A_CENTIMETRE: [(&str, i64); 3] = [("ginger", 5), ("fresh turmeric", 4), ("galangal", 5)];
const CENTIMETRES_AN_INCH: (i64, i64) = (254, 100);

/// What so much of a root weighs that is sold by its length, in grams; `None` for any other food.
pub(super) fn grams_of(food: &str, long: &Number) -> Option<Number> {
    let (_, grams) = GRAMS_A_CENTIMETRE.iter().find(|(name, _)| *name == food)?;
    Some(long * &Number::from(*grams))
}

impl Reader<'_> {
    /// What the text says with a length after the number that stands from `start` to `at`; `None` where it names no length.
    pub(super) fn length(&self, start: usize, at: usize) -> Option<Long> {
        let w = self.w;
        let after_times = w.times(at).unwrap_or(at);
        let (from, end) = match length_from(w, at) {
            Some(end) => (start, end),
            None => (after_times, self.length_at(after_times)?),
        };
        // "5cm (2in) piece"
        let end = if self.bracket(end).is_some_and(is_length) { end + 1 } else { end };
        let counted = from != start;
        let is_adjective = (from..end).any(|at| w.is_hyphen(at) && w.kind(at + 1) == Some(Kind::Word));
        let (unit, end) = match w.unit(end) {
            Some((unit @ Unit::Word(_), after)) if self.names(end).is_none_or(|name| name <= after && after < self.end) => (unit, after),
            Some((Unit::Piece, after)) => (Unit::Word(Word::Knob), after),
            // "2 cm ginger" is a knob; a 10-inch tortilla is a tortilla.
            _ if counted || is_adjective => (Unit::Piece, end),
            _ => (Unit::Word(Word::Knob), end),
        };
        let long = self.centimetres(if counted { after_times } else { start });
        Some(Long { counted, unit, long, said: self.said(from, end), end })
    }

    /// The number at a place and its unit of length, in centimetres; of a range the larger.
    fn centimetres(&self, at: usize) -> Option<Number> {
        let inner = self.bracket(at);
        let (w, at) = inner.map_or((self.w, at), |inner| (inner, 0));
        let read = w.number(at).ok()??;
        let unit = read.end + usize::from(w.kind(read.end) == Some(Kind::Dash));
        let number = read.number.high;
        match w.at(unit)?.text.to_lowercase().as_str() {
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Some(number),
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => number.checked_div(&Number::from(10)),
            "in" | "inch" | "inches" | "\"" | "”" | "″" => Some(&number * &Number::over(CENTIMETRES_AN_INCH.0, CENTIMETRES_AN_INCH.1)),
            _ => None,
        }
    }

    /// As typed, with what stands in brackets but without the brackets.
    fn said(&self, from: usize, end: usize) -> String {
        let parts = (from..end).map(|at| {
            let text = match self.bracket(at) {
                Some(inner) => inner.plain(0..inner.len()),
                None => self.w.plain(at..at + 1),
            };
            if at > from && self.w.at(at).is_some_and(|token| token.spaced) { format!(" {text}") } else { text }
        });
        parts.collect()
    }

    /// The place after a number with a unit of length, or after a bracket of such.
    pub(super) fn length_at(&self, at: usize) -> Option<usize> {
        if let Some(inner) = self.bracket(at) {
            return is_length(inner).then_some(at + 1);
        }
        let end = self.w.number(at).ok()??.end;
        length_from(self.w, end)
    }
}

fn is_length(words: &Words) -> bool {
    words.number(0).ok().flatten().and_then(|number| length_from(words, number.end)) == Some(words.len())
}

/// The place after `cm`, `-inch`, `in/5 cm`: a unit of length, or two that say the same.
fn length_from(words: &Words, at: usize) -> Option<usize> {
    let dashed = words.at(at).is_some_and(|token| token.kind == Kind::Dash && !token.spaced);
    let from = at + usize::from(dashed);
    let token = words.at(from)?;
    let mut end = from + 1;
    // "In" alone may be the word.
    let may_be_inches = || {
        let next = words.at(end);
        next.is_none_or(|next| matches!(next.kind, Kind::Slash | Kind::Stop)) || words.unit(end).is_some()
    };
    if !(token.kind == Kind::Word && is_length_word(token.text) || token.kind == Kind::Quote || token.is("in") && may_be_inches()) {
        return None;
    }
    end += usize::from(words.at(end).is_some_and(|stop| stop.kind == Kind::Stop && !stop.spaced));
    if words.kind(end) == Some(Kind::Slash)
        && let Ok(Some(second)) = words.number(end + 1)
        && let Some(end) = length_from(words, second.end)
    {
        return Some(end);
    }
    Some(end)
}
