//! The amount at the start of a line, with its unit and the size of one.

use super::LineError;
use super::length::{Long, length, length_at};
use super::unnumbered::{Qualified, likened, qualified, told, vague, without_number};
use crate::foods::{Foods, Grade, key_of};
use crate::measure::{
    Amount, Number, Prefix, Quantity, ReadError, Spoons, Unit, Word, is_vulgar, number, prefix, skip_space, times, unit_at, upper_end,
};

/// How much, before any word about what.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Measure {
    /// `None`: the line begins with the food.
    pub amount: Option<Amount>,
    pub unit_given: bool,
    pub size: Option<Quantity>,
    pub grade: Option<Grade>,
    pub plus: Vec<Amount>,
    /// "a few sprigs": some amount, but nobody can say which.
    pub vague: Option<String>,
    /// "heaped", "level", and the other measure of "200 g / 7 oz".
    pub remark: Option<String>,
    /// Where the words about the food begin.
    pub end: usize,
}

pub(super) fn read(text: &str, start: usize, foods: &Foods) -> Result<Measure, LineError> {
    if let Some(vague) = vague(text, start, foods) {
        return Ok(vague);
    }
    let at = |offset: usize| move |error: ReadError| LineError::new(error.cause, error.remedy, offset);
    let Some(read) = number(&text[start..]).map_err(at(start))? else { return Ok(without_number(text, start, foods)) };
    let after_number = start + read.end;
    if (read.in_words || text[after_number..].starts_with('-')) && begins_known(text, start, foods) {
        return Ok(Measure { end: start, ..Measure::default() });
    }
    let mut reader = Reader {
        text,
        start,
        foods,
        low: read.number.low,
        high: read.number.high,
        measure: Measure { end: after_number, ..Measure::default() },
    };
    reader.size_before_unit()?;
    reader.unit()?;
    reader.size_after_unit()?;
    reader.second_measure()?;
    reader.second_unit()?;
    Ok(reader.finish())
}

/// Do the words up to the first comma or bracket name a known food?
pub(super) fn begins_known(text: &str, start: usize, foods: &Foods) -> bool {
    let end = text[start..].find([',', '(', ';']).map_or(text.len(), |length| start + length);
    foods.find_known(&key_of(&text[start..end])).is_some()
}

/// The run of letters (and hyphens) after any space.
pub(super) fn word_at(text: &str, at: usize) -> Option<(&str, usize)> {
    let from = skip_space(text, at);
    let end = text[from..].find(|c: char| !c.is_alphanumeric() && c != '-').map_or(text.len(), |length| from + length);
    (end > from).then(|| (&text[from..end], end))
}

/// An amount that a size can be: a mass or a volume with its unit.
fn size_in(text: &str) -> Option<(Quantity, usize)> {
    let Prefix { amount, unit_given, end } = prefix(text).ok()??;
    (unit_given && amount.unit.is_measured()).then(|| (size_of(&amount), end))
}

/// In grams or millilitres.
fn size_of(amount: &Amount) -> Quantity {
    amount.most(Spoons::Us)
}

/// The size in a bracket: `400 g`, `about 400 g each`, `400 g, 240 g drained`. With what it says beside the size, and whether "each".
pub(super) fn bracket_size(inner: &str) -> Option<(Quantity, Option<String>, bool)> {
    let trimmed = inner.trim();
    let (body, before) = match trimmed.strip_prefix("each ") {
        Some(body) => (body, true),
        None => (trimmed, false),
    };
    let (size, end) = size_in(body)?;
    let rest = body[end..].trim();
    let (rest, after) = match rest.strip_prefix("each") {
        Some(rest) => (rest.trim(), true),
        None => (rest, false),
    };
    let rest = match rest.chars().next() {
        None => None,
        Some(',' | ';' | '/' | '|') => Some(rest[1..].trim().to_owned()).filter(|rest| !rest.is_empty()),
        Some(_) => return None,
    };
    Some((size, rest, before || after))
}

/// A bracket that opens here: what is in it, and where the text goes on.
pub(super) fn bracket_at(text: &str, at: usize) -> Result<Option<(&str, usize)>, LineError> {
    let from = skip_space(text, at);
    if !text[from..].starts_with('(') {
        return Ok(None);
    }
    let mut depth = 0usize;
    for (offset, sign) in text[from..].char_indices() {
        match sign {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Ok(Some((&text[from + 1..from + offset], from + offset + 1)));
        }
    }
    Err(LineError::new("a bracket is not closed", "close it with \")\"", from))
}

/// What "/14oz" or "(14 oz)" says again of the measure before it, and where the text goes on.
fn said_again(text: &str, at: usize) -> Result<(Option<String>, usize), LineError> {
    let mut said = None;
    let mut end = at;
    loop {
        let from = skip_space(text, end);
        if text[from..].starts_with(['/', '|'])
            && let Some((_, length)) = size_in(&text[from + 1..])
        {
            join(&mut said, Some(text[from + 1..from + 1 + length].trim().to_owned()));
            end = from + 1 + length;
        } else if let Some((inner, after)) = bracket_at(text, from)?
            && let Some((_, None, false)) = bracket_size(inner)
        {
            join(&mut said, Some(inner.trim().to_owned()));
            end = after;
        } else {
            return Ok((said, end));
        }
    }
}

fn is_container(unit: Unit) -> bool {
    matches!(unit, Unit::Word(word) if word.is_container())
}

/// Things of which a line may say what one weighs: "200 g block feta", "30 g bunch dill".
fn is_one_thing(unit: Unit) -> bool {
    use Word::*;
    is_container(unit)
        || unit == Unit::Piece
        || matches!(unit, Unit::Word(Block | Ball | Loaf | Bunch | Head | Bulb | Fillet | Chunk | Lump | Knob | Glass | Sheet))
}

/// Is the unit's word itself (the) food, or the first word of one: "2 cloves" of the spice, "2 bay leaves"?
pub(super) fn names_a_food(text: &str, at: usize, unit_end: usize, foods: &Foods) -> bool {
    let end = text[at..].find([',', '(', ';']).map_or(text.len(), |length| at + length);
    // "2 cloves (5 g each) garlic": the food stands after the bracket.
    let goes_on =
        bracket_at(text, end).ok().flatten().is_some_and(|(_, after)| text[after..].trim_start().starts_with(char::is_alphanumeric));
    !goes_on && foods.find_known(&key_of(&text[at..end.max(unit_end)])).is_some()
}

struct Reader<'a> {
    text: &'a str,
    start: usize,
    foods: &'a Foods,
    low: Number,
    high: Number,
    measure: Measure,
}

impl Reader<'_> {
    /// `x 400 g`, `(14-ounce)` or ` 400 g` right after the number.
    fn size_before_unit(&mut self) -> Result<(), LineError> {
        // "1 x tin" is one tin.
        if let Some((_, after)) = word_at(self.text, self.measure.end).filter(|(word, _)| matches!(*word, "x" | "X"))
            && unit_at(self.text, after).is_some()
        {
            self.measure.end = after;
        }
        let at = self.measure.end;
        if let Some(after) = times(self.text, at)
            && length_at(self.text, after).is_none()
        {
            let one = prefix(&self.text[after..]).map_err(|error| LineError::new(error.cause, error.remedy, after))?;
            match one {
                Some(Prefix { amount, unit_given: true, end }) if amount.unit.is_measured() => {
                    self.measure.size = Some(size_of(&amount));
                    self.measure.end = after + end;
                    self.said_again()?;
                }
                _ => return Err(LineError::new("what stands after \"x\" is no weight or volume", "write 2 x 400 g", after)),
            }
        } else if let Some((inner, after)) = bracket_at(self.text, at)? {
            if let Some((size, rest, _)) = bracket_size(inner) {
                self.measure.size = Some(size);
                self.measure.end = after;
                self.remark(rest);
            }
        } else if self.text[skip_space(self.text, at)..].starts_with(|c: char| c.is_ascii_digit())
            && let Some((size, end)) = size_in(&self.text[at..])
            && let (said, end) = said_again(self.text, at + end)?
            && let Some((Unit::Word(_) | Unit::Piece, _)) = unit_at(self.text, end)
        {
            self.measure.size = Some(size);
            self.measure.end = end;
            self.remark(said);
        }
        Ok(())
    }

    /// The unit, and before it "heaped" or "large".
    fn unit(&mut self) -> Result<(), LineError> {
        let Qualified { at, grade, qualifiers } = qualified(self.text, self.measure.end);
        let Some((unit, end)) = unit_at(self.text, at) else { return self.count() };
        let unit = likened(unit, &qualifiers);
        if matches!(unit, Unit::Word(_)) && self.names_a_food(at, end) {
            return self.count();
        }
        if unit.is_measured() && self.measure.size.is_some() {
            let second = self.text[skip_space(self.text, at)..end].trim();
            return Err(LineError::new(format!("a second unit, \"{second}\", follows the first"), "write one unit", at));
        }
        let first = Amount::between(&self.low, &self.high, unit);
        let range = upper_end(self.text, end, &first).map_err(|error| LineError::new(error.cause, error.remedy, at))?;
        let (amount, end) = range.unwrap_or((first, end));
        self.measure.amount = Some(amount);
        self.measure.unit_given = true;
        self.measure.grade = grade;
        self.measure.end = end;
        self.remark(told(&qualifiers));
        if unit.is_measured() && self.measure.size.is_none() {
            self.said_again()?;
            self.measured_container();
        }
        Ok(())
    }

    /// "400 g tin" is one tin of 400 g, "200 g piece of parmesan" one piece of that weight.
    fn measured_container(&mut self) {
        let Some(measured) = self.measure.amount.clone() else { return };
        let at = self.measure.end;
        if let Some((container, end)) = unit_at(self.text, at)
            && is_one_thing(container)
            && !self.names_a_food(at, end)
        {
            self.measure.size = Some(size_of(&measured));
            self.measure.amount = Some(Amount::new(1, container));
            self.measure.end = end;
        }
    }

    /// "/14oz" and "(14 oz)" after "400 g" say it again.
    fn said_again(&mut self) -> Result<(), LineError> {
        let (said, end) = said_again(self.text, self.measure.end)?;
        self.remark(said);
        self.measure.end = end;
        Ok(())
    }

    fn count(&mut self) -> Result<(), LineError> {
        if let Some(Long { counted, unit, said, end }) = length(self.text, self.start, self.measure.end, self.foods) {
            if let Some((unit, after)) = unit_at(self.text, qualified(self.text, end).at).filter(|(unit, _)| unit.is_measured()) {
                let cause = format!("a length and a measure, \"{said}\" and \"{}\", stand in one line", unit.singular());
                return Err(LineError::new(cause, "write one of them", after));
            }
            self.measure.amount = Some(if counted { Amount::between(&self.low, &self.high, unit) } else { Amount::new(1, unit) });
            self.measure.unit_given = unit != Unit::Piece;
            self.measure.end = end;
            self.remark(Some(said));
            return Ok(());
        }
        self.one_number()?;
        self.measure.amount = Some(Amount::between(&self.low, &self.high, Unit::Piece));
        Ok(())
    }

    /// A number without a unit: nothing that looks like more of it may follow, so that "1..5" and "1 1" are not read by half.
    fn one_number(&mut self) -> Result<(), LineError> {
        let at = self.measure.end;
        if self.measure.size.is_some() {
            return Ok(());
        }
        let rest = &self.text[at..];
        let word = rest.split_whitespace().next().unwrap_or("");
        let is_digit = |c: char| c.is_ascii_digit() || is_vulgar(c);
        let glued = !rest.starts_with(char::is_whitespace) && !word.starts_with(['-', ',', '(']) && word.contains(is_digit);
        let second = word.contains(is_digit) && word.chars().all(|c| is_digit(c) || ".,/".contains(c));
        if (glued || second) && !begins_known(self.text, at, self.foods) {
            let cause = format!("\"{word}\" follows the number and is no unit");
            return Err(LineError::new(cause, "write one number, then its unit or the food", skip_space(self.text, at)));
        }
        if matches!(word, "x" | "X" | "×") {
            self.measure.end = skip_space(self.text, at) + word.len();
        }
        Ok(())
    }

    fn names_a_food(&self, at: usize, unit_end: usize) -> bool {
        names_a_food(self.text, at, unit_end, self.foods)
    }

    /// `(400 g)` or `of 400 g` after the unit.
    fn size_after_unit(&mut self) -> Result<(), LineError> {
        let Some(Amount { unit: unit @ (Unit::Word(_) | Unit::Piece), .. }) = self.measure.amount else { return Ok(()) };
        let at = self.measure.end;
        if let Some((inner, after)) = bracket_at(self.text, at)? {
            if self.measure.size.is_none()
                && let Some((size, rest, each)) = bracket_size(inner)
                && (each || is_container(unit) || self.low == 1 && self.high == 1)
            {
                self.measure.size = Some(size);
                self.measure.end = after;
                self.remark(rest);
            }
        } else if self.measure.size.is_none()
            && is_container(unit)
            && let Some((_, after)) = word_at(self.text, at).filter(|(mark, _)| matches!(*mark, "of" | "à" | "at"))
            && let Some((size, end)) = size_in(&self.text[after..])
        {
            self.measure.size = Some(size);
            self.measure.end = after + end;
        }
        Ok(())
    }

    /// `4 oz` after `1 lb`, `plus 2 tbsp` after `1 cup`; and what says the sum again.
    fn second_measure(&mut self) -> Result<(), LineError> {
        let Some(Amount { unit, .. }) = self.measure.amount.filter_measured() else { return Ok(()) };
        let from = skip_space(self.text, self.measure.end);
        let rest = &self.text[from..];
        if rest.starts_with("minus ") {
            return Err(LineError::new("an amount less another is no one amount", "write what is left as one: 15 tbsp", from));
        }
        let mark = if rest.starts_with('+') { 1 } else { 0 };
        let mark = if rest.starts_with("plus ") || rest.starts_with("and ") { rest.find(' ').unwrap_or(0) } else { mark };
        let Ok(Some(Prefix { amount, unit_given: true, end })) = prefix(&rest[mark..]) else { return Ok(()) };
        if amount.most(Spoons::Us).dimension() != unit_dimension(unit) {
            return Ok(());
        }
        self.measure.plus.push(amount);
        self.measure.end = from + mark + end;
        self.said_again()
    }

    /// "2 cups g flour" has two units.
    fn second_unit(&self) -> Result<(), LineError> {
        let Some(_) = self.measure.amount.filter_measured() else { return Ok(()) };
        let at = skip_space(self.text, self.measure.end);
        match unit_at(self.text, at) {
            Some((unit, end)) if unit.is_measured() && end < self.text.len() && !self.names_a_food(at, end) => {
                let second = self.text[at..end].trim();
                Err(LineError::new(format!("a second unit, \"{second}\", follows the first"), "write one unit", at))
            }
            _ => Ok(()),
        }
    }

    fn remark(&mut self, more: Option<String>) {
        join(&mut self.measure.remark, more);
    }

    fn finish(mut self) -> Measure {
        if let Some((_, end)) = word_at(self.text, self.measure.end).filter(|(word, _)| *word == "of") {
            self.measure.end = end;
        }
        self.measure
    }
}

trait Measured {
    fn filter_measured(&self) -> Option<Amount>;
}

impl Measured for Option<Amount> {
    /// The amount, where it is of a unit that weighs or pours.
    fn filter_measured(&self) -> Option<Amount> {
        self.clone().filter(|amount| amount.unit.is_measured())
    }
}

fn unit_dimension(unit: Unit) -> crate::measure::Dimension {
    Amount::new(1.0, unit).most(Spoons::Us).dimension()
}

/// Adds to a list that is told with commas.
pub(super) fn join(list: &mut Option<String>, more: Option<String>) {
    *list = match (list.take(), more) {
        (Some(first), Some(second)) => Some(format!("{first}, {second}")),
        (first, second) => first.or(second),
    };
}
