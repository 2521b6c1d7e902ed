//! The readers of tokens for callers that still go by bytes. It goes when they do.

use super::tokens::cut;
use super::{Amount, ReadError, Unit, amount as on_tokens, number as numbers};

#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Prefix {
    pub amount: Amount,
    pub unit_given: bool,
    pub end: usize,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Number {
    pub low: f64,
    pub high: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Read {
    pub number: Number,
    pub end: usize,
    pub in_words: bool,
}

fn byte(tokens: &[super::Token], end: usize) -> usize {
    end.checked_sub(1).and_then(|last| tokens.get(last)).map_or(0, super::Token::end)
}

pub(crate) fn number(text: &str) -> Result<Option<Read>, ReadError> {
    let tokens = cut(text);
    let read = numbers::number(&tokens, 0)?;
    Ok(read.map(|read| Read {
        number: Number { low: read.number.low.value(), high: read.number.high.value() },
        end: byte(&tokens, read.end),
        in_words: read.in_words,
    }))
}

pub(crate) fn prefix(text: &str) -> Result<Option<Prefix>, ReadError> {
    let tokens = cut(text);
    let read = on_tokens::amount(&tokens, 0)?;
    Ok(read.map(|read| Prefix { end: byte(&tokens, read.end), amount: read.amount, unit_given: read.unit_given }))
}

pub(crate) fn unit_at(text: &str, at: usize) -> Option<(Unit, usize)> {
    let tokens = cut(&text[at..]);
    let (unit, end) = on_tokens::unit(&tokens, 0)?;
    Some((unit, at + byte(&tokens, end)))
}

pub(crate) fn times(text: &str, at: usize) -> Option<usize> {
    let tokens = cut(&text[at..]);
    let is_times = |token: &super::Token| matches!(token.text, "x" | "X" | "×" | "✕" | "*");
    let letters = tokens.first()?;
    if !is_times(letters) && letters.text.starts_with(['x', 'X']) && letters.text.len() > 1 {
        return text[at..].find(|c: char| c.is_ascii_digit()).map(|digit| at + digit);
    }
    (is_times(letters) && tokens.get(1)?.is_number()).then(|| at + tokens[1].start)
}

pub(crate) fn upper_end(text: &str, at: usize, first: &Amount) -> Result<Option<(Amount, usize)>, ReadError> {
    let tokens = cut(&text[at..]);
    let low = super::fraction::Fraction::decimal(&first.low.to_string()).filter(|_| !first.is_range());
    let Some(low) = low else { return Ok(None) };
    let range = on_tokens::upper_end(&tokens, 0, &numbers::Number { low, high: low }, first.unit)?;
    Ok(range.map(|(amount, end)| (amount, at + byte(&tokens, end))))
}

pub(crate) fn skip_space(text: &str, at: usize) -> usize {
    text.len() - text[at..].trim_start().len()
}
