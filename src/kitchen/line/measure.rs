//! The amount at the start of a line, with its unit and the size of one.

use super::LineError;
use super::words::{self, Class};
use crate::foods::{Foods, Grade, key_of};
use crate::measure::{Amount, Prefix, Quantity, ReadError, Spoons, Unit, Word, number, prefix, skip_space, times, unit_at, upper_end};

/// How much, before any word about what.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Measure {
    /// `None`: the line begins with the food.
    pub amount: Option<Amount>,
    pub unit_given: bool,
    pub size: Option<Quantity>,
    pub grade: Option<Grade>,
    pub plus: Vec<Amount>,
    /// "heaped", "level", and the other measure of "200 g / 7 oz".
    pub remark: Option<String>,
    /// Where the words about the food begin.
    pub end: usize,
}

pub(super) fn read(text: &str, start: usize, foods: &Foods) -> Result<Measure, LineError> {
    let at = |offset: usize| move |error: ReadError| LineError::new(error.cause, error.remedy, offset);
    let Some(read) = number(&text[start..]).map_err(at(start))? else { return Ok(without_number(text, start, foods)) };
    let after_number = start + read.end;
    if (read.in_words || text[after_number..].starts_with('-')) && begins_known(text, start, foods) {
        return Ok(Measure { end: start, ..Measure::default() });
    }
    if let Some(word) = word_at(text, after_number).map(|(word, _)| word)
        && words::is_vague(word)
    {
        return Err(LineError::new(format!("\"a {word}\" is no number"), "write how many", start));
    }
    let mut reader =
        Reader { text, foods, low: read.number.low, high: read.number.high, measure: Measure { end: after_number, ..Measure::default() } };
    reader.size_before_unit()?;
    reader.unit()?;
    reader.size_after_unit()?;
    reader.second_measure()?;
    reader.second_unit()?;
    Ok(reader.finish())
}

/// "Pinch of salt" is one pinch; anything else begins with the food.
fn without_number(text: &str, start: usize, foods: &Foods) -> Measure {
    let none = Measure { end: start, ..Measure::default() };
    let mut at = start;
    let mut grade = None;
    if let Some((word, end)) = word_at(text, at)
        && let Some(Class::Grade(found)) = words::class(word)
    {
        (at, grade) = (end, Some(found));
    }
    let Some((unit @ Unit::Word(word), end)) = unit_at(text, at) else { return none };
    let of = word_at(text, end).filter(|(of, _)| *of == "of");
    let loose = matches!(word, Word::Pinch | Word::Dash | Word::Drop | Word::Splash | Word::Drizzle | Word::Handful | Word::Knob);
    if !(of.is_some() || loose || matches!(word, Word::Bunch | Word::Sprig)) || begins_known(text, start, foods) {
        return none;
    }
    let end = of.map_or(end, |(_, end)| end);
    if text[end..].trim().is_empty() {
        return none;
    }
    Measure { amount: Some(Amount::new(1.0, unit)), unit_given: true, grade, end, ..Measure::default() }
}

/// Do the words up to the first comma or bracket name a known food?
fn begins_known(text: &str, start: usize, foods: &Foods) -> bool {
    let end = text[start..].find([',', '(', ';']).map_or(text.len(), |length| start + length);
    foods.find_known(&key_of(&text[start..end])).is_some()
}

/// The run of letters (and hyphens) after any space.
fn word_at(text: &str, at: usize) -> Option<(&str, usize)> {
    let from = skip_space(text, at);
    let end = text[from..].find(|c: char| !c.is_alphanumeric() && c != '-').map_or(text.len(), |length| from + length);
    (end > from).then(|| (&text[from..end], end))
}

/// An amount that a size can be: a mass or a volume with its unit.
fn size_in(text: &str) -> Option<(Quantity, usize)> {
    let Prefix { amount, unit_given, end } = prefix(text).ok()??;
    (unit_given && amount.unit.is_measured()).then(|| (size_of(&amount), end))
}

/// In grams or millilitres; the noise of the unit's factor is taken off, so that a printed size reads as the same.
fn size_of(amount: &Amount) -> Quantity {
    let size = amount.most(Spoons::Us);
    Quantity::of(&size.dimension(), size.base())
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

struct Reader<'a> {
    text: &'a str,
    foods: &'a Foods,
    low: f64,
    high: f64,
    measure: Measure,
}

impl Reader<'_> {
    /// `x 400 g`, `(14-ounce)` or ` 400 g` right after the number.
    fn size_before_unit(&mut self) -> Result<(), LineError> {
        let at = self.measure.end;
        if let Some(after) = times(self.text, at) {
            let one = prefix(&self.text[after..]).map_err(|error| LineError::new(error.cause, error.remedy, after))?;
            match one {
                Some(Prefix { amount, unit_given: true, end }) if amount.unit.is_measured() => {
                    self.measure.size = Some(size_of(&amount));
                    self.measure.end = after + end;
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
            && let Some((Unit::Word(_), _)) = unit_at(self.text, at + end)
        {
            self.measure.size = Some(size);
            self.measure.end = at + end;
        }
        Ok(())
    }

    /// The unit, and before it "heaped" or "large".
    fn unit(&mut self) -> Result<(), LineError> {
        let mut at = self.measure.end;
        let mut grade = None;
        let mut qualifiers = Vec::new();
        while let Some((word, end)) = word_at(self.text, at).filter(|(word, _)| words::is_qualifier(word)) {
            match words::class(word) {
                Some(Class::Grade(found)) => grade = Some(found),
                _ => qualifiers.push(word),
            }
            at = end;
        }
        let Some((unit, end)) = unit_at(self.text, at) else { return self.count() };
        if matches!(unit, Unit::Word(_)) && self.names_a_food(at, end) {
            return self.count();
        }
        let first = Amount { low: self.low, high: self.high, unit };
        let range = upper_end(self.text, end, &first).map_err(|error| LineError::new(error.cause, error.remedy, at))?;
        let (amount, end) = range.unwrap_or((first, end));
        self.measure.amount = Some(amount);
        self.measure.unit_given = true;
        self.measure.grade = grade;
        self.measure.end = end;
        let qualifiers: Vec<_> = qualifiers.into_iter().filter(|word| *word != "level").collect();
        self.remark((!qualifiers.is_empty()).then(|| qualifiers.join(" ")));
        if !unit.is_measured() || self.measure.size.is_some() {
            return Ok(());
        }
        // "400 g tin": one tin of 400 g.
        if let Some((container @ Unit::Word(word), end)) = unit_at(self.text, end)
            && word.is_container()
            && !self.names_a_food(self.measure.end, end)
        {
            let size = size_of(&Amount { low: self.low, high: self.high, unit });
            self.measure.size = Some(size);
            self.measure.amount = Some(Amount::new(1.0, container));
            self.measure.end = end;
        }
        Ok(())
    }

    fn count(&mut self) -> Result<(), LineError> {
        self.measure.amount = Some(Amount { low: self.low, high: self.high, unit: Unit::Piece });
        Ok(())
    }

    /// Is the unit's word itself (the) food, or the first word of one: "2 cloves" of the spice, "2 bay leaves"?
    fn names_a_food(&self, at: usize, unit_end: usize) -> bool {
        let end = self.text[at..].find([',', '(', ';']).map_or(self.text.len(), |length| at + length);
        let words = &self.text[at..end.max(unit_end)];
        self.foods.find_known(&key_of(words)).is_some()
    }

    /// `(400 g)` or `of 400 g` after the unit.
    fn size_after_unit(&mut self) -> Result<(), LineError> {
        let Some(Amount { unit: unit @ (Unit::Word(_) | Unit::Piece), .. }) = self.measure.amount else { return Ok(()) };
        let at = self.measure.end;
        if let Some((inner, after)) = bracket_at(self.text, at)? {
            if self.measure.size.is_none()
                && let Some((size, rest, each)) = bracket_size(inner)
                && (each || unit != Unit::Piece || self.measure.unit_given)
            {
                self.measure.size = Some(size);
                self.measure.end = after;
                self.remark(rest);
            }
        } else if self.measure.size.is_none()
            && matches!(unit, Unit::Word(word) if word.is_container())
            && let Some((mark, after)) = word_at(self.text, at).filter(|(mark, _)| matches!(*mark, "of" | "à" | "at"))
            && let Some((size, end)) = size_in(&self.text[after..])
        {
            let _ = mark;
            self.measure.size = Some(size);
            self.measure.end = after + end;
        }
        Ok(())
    }

    /// `4 oz` after `1 lb`, `plus 2 tbsp` after `1 cup`; `/ 7 oz` after `200 g` says the same again.
    fn second_measure(&mut self) -> Result<(), LineError> {
        let Some(Amount { unit, .. }) = self.measure.amount.filter_measured() else { return Ok(()) };
        let from = skip_space(self.text, self.measure.end);
        let rest = &self.text[from..];
        let again = rest.starts_with(['/', '|']);
        let mark = if again || rest.starts_with('+') { 1 } else { 0 };
        let mark = if rest.starts_with("plus ") || rest.starts_with("and ") { rest.find(' ').unwrap_or(0) } else { mark };
        let Ok(Some(Prefix { amount, unit_given: true, end })) = prefix(&rest[mark..]) else { return Ok(()) };
        let same = amount.most(Spoons::Us).dimension() == unit_dimension(unit);
        if again && amount.unit.is_measured() {
            let said = rest[mark..mark + end].trim().to_owned();
            self.remark(Some(said));
        } else if same {
            self.measure.plus.push(amount);
        } else {
            return Ok(());
        }
        self.measure.end = from + mark + end;
        Ok(())
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
