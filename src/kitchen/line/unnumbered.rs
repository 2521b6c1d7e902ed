//! Amounts that begin without a number, "pinch of salt" or "a few sprigs of thyme", and the words that qualify a unit.

use super::measure::{Measure, begins_known, join, word_at};
use super::words::{self, Class};
use crate::foods::{Foods, Grade};
use crate::measure::{Amount, Unit, Word, unit_at};

/// "A few sprigs of thyme": thyme, of which nobody can say how much.
pub(super) fn vague(text: &str, start: usize, foods: &Foods) -> Option<Measure> {
    let (after, may_name) = words::vague(&text[start..])?;
    let mut end = start + after;
    let article = start + text[start..].find(char::is_whitespace)?;
    // "A little gem lettuce" is one, "a little handful" a small one.
    let named = || begins_known(text, article, foods) || matches!(unit_at(text, end), Some((Unit::Word(_), _)));
    if begins_known(text, start, foods) || may_name && named() {
        return None;
    }
    if let Some((unit, unit_end)) = unit_at(text, qualified(text, end).at)
        && unit != Unit::Portion
        && !begins_known(text, end, foods)
    {
        end = word_at(text, unit_end).filter(|(of, _)| *of == "of").map_or(unit_end, |(_, of)| of);
    }
    if text[end..].trim().is_empty() {
        return None;
    }
    let said = text[start..end].trim();
    let said = said.strip_suffix(" of").unwrap_or(said).to_owned();
    Some(Measure { vague: Some(said), end, ..Measure::default() })
}

/// "Pinch of salt" is one pinch, "heaped tbsp sugar" one of those; anything else begins with the food.
pub(super) fn without_number(text: &str, start: usize, foods: &Foods) -> Measure {
    let none = Measure { end: start, ..Measure::default() };
    let Qualified { at, grade, qualifiers } = qualified(text, start);
    let Some((unit, end)) = unit_at(text, at) else { return none };
    let unit = likened(unit, &qualifiers);
    let of = word_at(text, end).filter(|(of, _)| *of == "of");
    let alone = match unit {
        Unit::Word(word) => LOOSE.contains(&word) || qualifiers.iter().any(|word| words::is_likened(word)),
        Unit::Teaspoon | Unit::Dessertspoon | Unit::Tablespoon | Unit::Cup => !qualifiers.is_empty(),
        _ => return none,
    };
    if !(of.is_some() || alone) || begins_known(text, start, foods) {
        return none;
    }
    let end = of.map_or(end, |(_, end)| end);
    if text[end..].trim().is_empty() {
        return none;
    }
    let mut measure = Measure { amount: Some(Amount::new(1.0, unit)), unit_given: true, grade, end, ..Measure::default() };
    join(&mut measure.remark, told(&qualifiers));
    measure
}

/// Words that make an amount of one without a number and without "of".
const LOOSE: [Word; 18] = {
    use Word::*;
    [Pinch, Dash, Drop, Splash, Drizzle, Handful, Knob, Bunch, Sprig, Dollop, Glug, Squeeze, Scoop, Ladle, Glass, Chunk, Pat, Twist]
};

/// Words like "large" and "heaped" at the start of a text.
pub(super) struct Qualified<'a> {
    pub at: usize,
    pub grade: Option<Grade>,
    pub qualifiers: Vec<&'a str>,
}

pub(super) fn qualified(text: &str, at: usize) -> Qualified<'_> {
    let mut found = Qualified { at, grade: None, qualifiers: Vec::new() };
    while let Some((word, end)) = word_at(text, found.at).filter(|(word, _)| words::is_qualifier(word)) {
        match words::class(word) {
            Some(Class::Grade(grade)) => found.grade = Some(grade),
            _ => found.qualifiers.push(word),
        }
        found.at = end;
    }
    found
}

/// What the qualifiers say; "level" says nothing.
pub(super) fn told(qualifiers: &[&str]) -> Option<String> {
    let told: Vec<&str> = qualifiers.iter().copied().filter(|word| *word != "level").collect();
    (!told.is_empty()).then(|| told.join(" "))
}

/// A "thumb-sized piece" is a knob.
pub(super) fn likened(unit: Unit, qualifiers: &[&str]) -> Unit {
    let is_likened = qualifiers.iter().any(|word| words::is_likened(word));
    if unit == Unit::Piece && is_likened { Unit::Word(Word::Knob) } else { unit }
}
