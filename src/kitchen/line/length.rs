//! Pieces told by their length: "2 cm piece of ginger", "1 (2-inch) piece", "2 x 5cm/2in pieces", "8-inch tortilla".

use super::measure::{bracket_at, names_a_food};
use crate::foods::Foods;
use crate::measure::{Unit, Word, number, skip_space, times, unit_at};

/// How many of what, and where the text goes on.
pub(super) struct Long {
    /// The number before the length counts: "2 x 5 cm pieces".
    pub counted: bool,
    pub unit: Unit,
    pub said: String,
    pub end: usize,
}

/// What `text` says with a length after the number that stands from `start` to `at`; `None` where it names no length.
pub(super) fn length(text: &str, start: usize, at: usize, foods: &Foods) -> Option<Long> {
    let after_times = times(text, at).unwrap_or(at);
    let (from, end) = match length_from(text, at) {
        Some(end) => (start, end),
        None => (after_times, length_at(text, after_times)?),
    };
    let counted = from != start;
    let (unit, end) = match unit_at(text, end) {
        Some((unit @ Unit::Word(_), after)) if !names_a_food(text, skip_space(text, end), after, foods) => (unit, after),
        Some((Unit::Piece, after)) => (Unit::Word(Word::Knob), after),
        // "2 cm ginger" is a knob; a 10-inch tortilla is a tortilla.
        _ if counted || is_adjective(&text[from..end]) => (Unit::Piece, end),
        _ => (Unit::Word(Word::Knob), end),
    };
    let said = text[from..end].trim().replace(['(', ')'], "");
    Some(Long { counted, unit, said, end })
}

/// "8-inch", but not "2-3 cm".
fn is_adjective(said: &str) -> bool {
    said.chars().zip(said.chars().skip(1)).any(|(dash, letter)| dash == '-' && letter.is_alphabetic())
}

/// A number with a unit of length, or a bracket of such, and where the text goes on.
pub(super) fn length_at(text: &str, at: usize) -> Option<usize> {
    if let Ok(Some((inner, after))) = bracket_at(text, at) {
        let end = number(inner).ok()??.end;
        return (length_from(inner, end)? == inner.len()).then_some(after);
    }
    let end = number(&text[at..]).ok()??.end;
    length_from(text, at + end)
}

/// Where the text goes on after `cm`, `-inch`, `in/5 cm`: a unit of length, or two that say the same.
fn length_from(text: &str, at: usize) -> Option<usize> {
    let mut from = skip_space(text, at);
    if let Some(dash) = text[from..].chars().next().filter(|c| matches!(c, '-' | '‐' | '‑' | '–')) {
        from += dash.len_utf8();
    }
    let (word, end) = text[from..]
        .find(|c: char| !c.is_alphabetic())
        .map_or((&text[from..], text.len()), |length| (&text[from..from + length], from + length));
    let length = match word {
        "cm" | "mm" | "inch" | "inches" => true,
        // "In" alone may be the word.
        "in" => text[end..].starts_with(['/', '.', ')']) || end == text.len() || unit_at(text, end).is_some(),
        _ => text[from..].starts_with(['"', '”', '″']),
    };
    if !length {
        return None;
    }
    let end = if word.is_empty() { from + text[from..].chars().next().map_or(0, char::len_utf8) } else { end };
    let end = if text[end..].starts_with('.') { end + 1 } else { end };
    let again = skip_space(text, end);
    if text[again..].starts_with('/')
        && let Ok(Some(second)) = number(&text[again + 1..])
        && let Some(end) = length_from(text, again + 1 + second.end)
    {
        return Some(end);
    }
    Some(end)
}
