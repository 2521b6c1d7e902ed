//! Reading a number with its unit at the start of a text. See [`super::number`] for the grammar of numbers.
//!
//! ```text
//! amount   = number [unit]  |  number unit range-dash number unit  |  number "x" number unit
//! ```

use super::number::{self, Ends, error, skip_space};
use super::unit::{Base, unit_named};
use super::{Amount, Number, ReadError, Spoons, Unit};

/// An amount at the start of a text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Prefix {
    pub amount: Amount,
    pub unit_given: bool,
    pub end: usize,
}

/// A unit at the start of a text (after spaces, and after the dash of "14-ounce"), and where it ends.
pub(crate) fn unit(text: &str, at: usize) -> Option<(Unit, usize)> {
    let mut from = skip_space(text, at);
    if let Some(dash) = text[from..].chars().next().filter(|c| number::DASHES.contains(c)) {
        from += dash.len_utf8();
    }
    let (word, end) = letters(text, from)?;
    let end = skip_full_stop(text, end);
    if matches!(word, "fl" | "Fl" | "FL" | "fluid" | "Fluid") {
        let (ounce, after) = letters(text, skip_space(text, end))?;
        return (unit_named(ounce) == Some(Unit::Ounce)).then(|| (Unit::FluidOunce, skip_full_stop(text, after)));
    }
    unit_named(word).filter(|_| ends_word(&text[end..])).map(|unit| (unit, end))
}

/// "T-bone" and "l'orange" do not begin with a unit.
fn ends_word(rest: &str) -> bool {
    let mut letters = rest.chars();
    match letters.next() {
        Some(dash) if number::DASHES.contains(&dash) => !letters.next().is_some_and(char::is_alphabetic),
        Some(sign) => !(sign.is_alphanumeric() || matches!(sign, '\'' | '’')),
        None => true,
    }
}

fn letters(text: &str, from: usize) -> Option<(&str, usize)> {
    let end = text[from..].find(|c: char| !c.is_alphabetic()).map_or(text.len(), |length| from + length);
    (end > from).then(|| (&text[from..end], end))
}

fn skip_full_stop(text: &str, end: usize) -> usize {
    if text[end..].starts_with('.') { end + 1 } else { end }
}

/// Past the "x" of `2 x 400 g`, where a number follows it.
pub(crate) fn times(text: &str, at: usize) -> Option<usize> {
    let from = skip_space(text, at);
    let sign = text[from..].chars().next().filter(|c| matches!(c, 'x' | 'X' | '×' | '✕' | '*'))?;
    let after = skip_space(text, from + sign.len_utf8());
    text[after..].starts_with(|c: char| c.is_ascii_digit() || number::is_vulgar(c)).then_some(after)
}

/// A number and its unit at the start of `text`; `None` where it does not begin with a number.
pub(crate) fn prefix(text: &str) -> Result<Option<Prefix>, ReadError> {
    let Some(read) = number::number(text)? else { return Ok(None) };
    if let Some(after) = times(text, read.end) {
        let Some(one) = plain_prefix(&text[after..])? else { return Ok(None) };
        let Ends { low, high } = read.number;
        let amount = Amount { low: low * one.amount.low, high: high * one.amount.high, unit: one.amount.unit };
        return Ok(Some(Prefix { amount, unit_given: one.unit_given, end: after + one.end }));
    }
    plain_prefix(text)
}

fn plain_prefix(text: &str) -> Result<Option<Prefix>, ReadError> {
    let Some(read) = number::number(text)? else { return Ok(None) };
    let Ends { low, high } = read.number;
    let Some((unit, end)) = unit(text, read.end) else {
        return Ok(Some(Prefix { amount: Amount { low, high, unit: Unit::Piece }, unit_given: false, end: read.end }));
    };
    let first = Amount { low, high, unit };
    let (amount, end) = upper_end(text, end, &first)?.unwrap_or((first, end));
    Ok(Some(Prefix { amount, unit_given: true, end }))
}

/// The ` - 3 tbsp` of `2 tbsp - 3 tbsp`, in the unit of the upper end.
pub(crate) fn upper_end(text: &str, at: usize, first: &Amount) -> Result<Option<(Amount, usize)>, ReadError> {
    let from = skip_space(text, at);
    let mark = match text[from..].chars().next() {
        Some(dash) if number::DASHES.contains(&dash) => dash.len_utf8(),
        _ if text[from..].starts_with("to ") || text[from..].starts_with("or ") => 3,
        _ => return Ok(None),
    };
    let after = skip_space(text, from + mark);
    if first.is_range() || !text[after..].starts_with(|c: char| c.is_ascii_digit()) {
        return Ok(None);
    }
    let Some(read) = number::number(&text[after..])? else { return Ok(None) };
    let Some((unit, end)) = unit(text, after + read.end) else { return Ok(None) };
    let Some(ratio) = ratio(first.unit, unit) else { return Ok(None) };
    let low = &first.low * ratio;
    if low > read.number.high {
        return Err(error("the range runs downwards", "write the smaller amount first"));
    }
    Ok(Some((Amount { low, high: read.number.high, unit }, end)))
}

/// How many of `to` one `from` is, where both are masses or both volumes.
fn ratio(from: Unit, to: Unit) -> Option<Number> {
    match (from.base(Spoons::Us), to.base(Spoons::Us)) {
        _ if from == to => Some(Number::ONE),
        (Base::Grams(a), Base::Grams(b)) | (Base::Millilitres(a), Base::Millilitres(b)) => Some(a / b),
        _ => None,
    }
}
