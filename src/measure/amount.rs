//! Reading a number with its unit, on the tokens of a text. See [`super::number`] for the grammar of numbers.
//!
//! ```text
//! amount   = number [unit]  |  number unit range-dash number unit  |  number "x" number unit
//! unit     = [dash] name ["."]  |  ("fl" | "fluid") ["."] ounce ["."]
//! ```

use super::number::{Ends, number};
use super::read_error::error;
use super::tokens::{Kind, Token};
use super::unit::{Base, unit_named};
use super::{Amount, Number, ReadError, Spoons, Unit};

/// An amount that begins at some token, and the token after it.
#[derive(Debug, Clone, PartialEq)]
pub struct AmountRead {
    pub amount: Amount,
    pub unit_given: bool,
    pub end: usize,
}

/// So much of a unit.
pub(crate) fn amount_of(number: &Ends, unit: Unit) -> Amount {
    Amount { low: number.low.clone(), high: number.high.clone(), unit }
}

/// The unit that begins at `at`, with the dash of "14-ounce" before it and the full stop after it.
///
/// "T-bone" begins with no unit.
pub fn unit(tokens: &[Token], at: usize) -> Option<(Unit, usize)> {
    let dashed = tokens.get(at).is_some_and(|token| token.kind == Kind::Dash && !token.spaced);
    let from = at + usize::from(dashed);
    let word = tokens.get(from).filter(|token| token.kind == Kind::Word && !(dashed && token.spaced))?;
    let end = past_stop(tokens, from + 1);
    if word.is("fl") || word.is("fluid") {
        let ounce = tokens.get(end)?;
        return (unit_named(ounce.text) == Some(Unit::Ounce)).then(|| (Unit::FluidOunce, past_stop(tokens, end + 1)));
    }
    unit_named(word.text).filter(|_| ends_word(tokens, end)).map(|unit| (unit, end))
}

/// "T-bone" does not begin with a unit.
fn ends_word(tokens: &[Token], at: usize) -> bool {
    let [dash, word, ..] = tokens.get(at..).unwrap_or_default() else { return true };
    let glued = dash.kind == Kind::Dash && !dash.spaced && !word.spaced;
    !glued || word.kind != Kind::Word
}

fn past_stop(tokens: &[Token], at: usize) -> usize {
    at + usize::from(tokens.get(at).is_some_and(|token| token.kind == Kind::Stop && !token.spaced))
}

/// Past the "x" of `2 x 400 g`, where a number follows it.
pub fn times(tokens: &[Token], at: usize) -> Option<usize> {
    let sign = tokens.get(at)?;
    let is_times = sign.kind == Kind::Times || sign.is("x");
    (is_times && tokens.get(at + 1).is_some_and(Token::is_number)).then_some(at + 1)
}

/// The number and its unit that begin at `at`; `None` where no number stands there.
///
/// Fails as [`number`] does.
pub fn amount(tokens: &[Token], at: usize) -> Result<Option<AmountRead>, ReadError> {
    let Some(read) = number(tokens, at)? else { return Ok(None) };
    if let Some(after) = times(tokens, read.end) {
        let Some(one) = plain_amount(tokens, after)? else { return Ok(None) };
        let Ends { low, high } = read.number;
        let amount = Amount { low: low * one.amount.low.clone(), high: high * one.amount.high.clone(), unit: one.amount.unit };
        return Ok(Some(AmountRead { amount, ..one }));
    }
    plain_amount(tokens, at)
}

fn plain_amount(tokens: &[Token], at: usize) -> Result<Option<AmountRead>, ReadError> {
    let Some(read) = number(tokens, at)? else { return Ok(None) };
    let Some((unit, end)) = unit(tokens, read.end) else {
        return Ok(Some(AmountRead { amount: amount_of(&read.number, Unit::Piece), unit_given: false, end: read.end }));
    };
    let (amount, end) = upper_end(tokens, end, &read.number, unit)?.unwrap_or_else(|| (amount_of(&read.number, unit), end));
    Ok(Some(AmountRead { amount, unit_given: true, end }))
}

/// The ` - 3 tbsp` of `2 tbsp - 3 tbsp`, in the unit of the upper end.
pub(crate) fn upper_end(tokens: &[Token], at: usize, first: &Ends, of: Unit) -> Result<Option<(Amount, usize)>, ReadError> {
    let Some(mark) = tokens.get(at) else { return Ok(None) };
    let is_mark = mark.kind == Kind::Dash || mark.is("to") || mark.is("or");
    if !is_mark || first.low != first.high || !tokens.get(at + 1).is_some_and(|token| token.kind == Kind::Number) {
        return Ok(None);
    }
    let Some(read) = number(tokens, at + 1)? else { return Ok(None) };
    let Some((unit, end)) = unit(tokens, read.end) else { return Ok(None) };
    let Some(ratio) = ratio(of, unit) else { return Ok(None) };
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
        (Base::Grams(a), Base::Grams(b)) | (Base::Millilitres(a), Base::Millilitres(b)) => a.checked_div(&b),
        _ => None,
    }
}
