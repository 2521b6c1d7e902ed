//! What a line is of: a recipe, or a food with its state, its preparation and its remarks.

use super::measure::{Measure, bracket_at, bracket_size, join};
use super::resolve::{Found, resolve};
use super::words::{self, Class};
use super::{Line, LineError, LineOf};
use crate::foods::{Foods, Item, Measured, State, key_of};
use crate::measure::{Amount, Prefix, Quantity, ReadError, Spoons, Unit, Word as UnitWord, prefix, unit_at};

/// One typed word and where it begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Word<'a> {
    pub text: &'a str,
    pub start: usize,
}

/// The text after the amount, cut at its commas, without its brackets.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Parts<'a> {
    pub segments: Vec<Vec<Word<'a>>>,
    pub brackets: Vec<&'a str>,
    pub start: usize,
}

/// Cuts the text from `at` on.
pub(super) fn split(text: &str, at: usize) -> Result<Parts<'_>, LineError> {
    let mut parts = Parts { segments: vec![Vec::new()], start: at, ..Parts::default() };
    let mut word_start = None;
    let mut next = at;
    while let Some(sign) = text[next..].chars().next() {
        let after = next + sign.len_utf8();
        let comma = matches!(sign, ',' | ';') && !is_decimal_comma(text, next);
        if sign.is_whitespace() || sign == '(' || comma {
            end_word(text, &mut word_start, next, &mut parts);
        }
        match sign {
            ')' => return Err(LineError::new("a bracket is closed that was not opened", "open it with \"(\", or leave it out", next)),
            '(' => {
                let Some((inner, after)) = bracket_at(text, next)? else { break };
                parts.brackets.push(inner.trim());
                next = after;
                continue;
            }
            _ if comma => parts.segments.push(Vec::new()),
            _ if sign.is_whitespace() => {}
            _ => word_start = word_start.or(Some(next)),
        }
        next = after;
    }
    end_word(text, &mut word_start, text.len(), &mut parts);
    Ok(parts)
}

fn is_decimal_comma(text: &str, at: usize) -> bool {
    let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    let bytes = text.as_bytes();
    bytes[at] == b',' && at > 0 && digit(bytes.get(at - 1)) && digit(bytes.get(at + 1))
}

fn end_word<'a>(text: &'a str, start: &mut Option<usize>, end: usize, parts: &mut Parts<'a>) {
    let Some(start) = start.take() else { return };
    let word = &text[start..end];
    // A dash with spaces around it parts a line as a comma does.
    if matches!(word, "-" | "–" | "—") {
        parts.segments.push(Vec::new());
    } else if let Some(segment) = parts.segments.last_mut() {
        segment.push(Word { text: word.trim_end_matches(['.', ':', '!']), start });
    }
}

/// The id after `recipe:`.
pub(super) struct RecipeId<'a> {
    id: &'a str,
    /// Words of the first part that follow it.
    rest: &'a [Word<'a>],
}

/// Is this line of a recipe?
pub(super) fn recipe<'a>(text: &str, parts: &'a Parts<'a>) -> Result<Option<RecipeId<'a>>, LineError> {
    const MARK: &str = "recipe:";
    let Some(segment) = parts.segments.first() else { return Ok(None) };
    let is_recipe = |word: &Word| text[word.start..].get(..MARK.len()).is_some_and(|mark| mark.eq_ignore_ascii_case(MARK));
    let Some(index) = segment.iter().position(is_recipe) else { return Ok(None) };
    if let Some(second) = segment[index + 1..].iter().find(|word| is_recipe(word)) {
        return Err(LineError::new("a line is of one recipe", "write the second recipe on a line of its own", second.start));
    }
    let word = segment[index];
    let id = word.text.get(MARK.len()..).unwrap_or("");
    if id.is_empty() {
        return Err(LineError::new(
            "\"recipe:\" names no recipe",
            "write recipe: and the stem of its file: recipe:pearl-barley",
            word.start,
        ));
    }
    if index > 0 {
        let cause = format!("\"{}\" stands between the amount and the recipe", phrase(&segment[..index]));
        return Err(LineError::new(cause, "write the amount, then recipe:id, then a comma and the rest", segment[0].start));
    }
    Ok(Some(RecipeId { id, rest: &segment[1..] }))
}

pub(super) fn recipe_line(recipe: RecipeId, measure: Measure, parts: &Parts, start: usize) -> Result<Line, LineError> {
    let remedy = format!("write \"200 g recipe:{0}\", \"1 portion recipe:{0}\" or \"2 recipe:{0}\"", recipe.id);
    let Some(amount) = measure.amount else {
        return Err(LineError::new("a recipe needs an amount", remedy, start));
    };
    let amount = match (&measure.size, amount.unit) {
        (Some(size), _) => {
            let unit = if matches!(size, Quantity::Mass(_)) { Unit::Gram } else { Unit::Millilitre };
            Amount { unit, ..amount.scaled(size.exact()) }
        }
        (None, Unit::Word(word)) => {
            return Err(LineError::new(format!("a recipe is not measured by the {word}"), remedy, start));
        }
        (None, _) => amount,
    };
    if !measure.plus.is_empty() {
        return Err(LineError::new("a recipe's amount is one number", remedy, start));
    }
    let mut prep = (!recipe.rest.is_empty()).then(|| phrase(recipe.rest));
    for segment in parts.segments.iter().skip(1).filter(|segment| !segment.is_empty()) {
        join(&mut prep, Some(phrase(segment)));
    }
    let mut remark = measure.remark;
    for bracket in parts.brackets.iter().filter(|bracket| !bracket.is_empty()) {
        join(&mut remark, Some((*bracket).to_owned()));
    }
    Ok(Line { of: LineOf::Recipe { id: recipe.id.to_owned(), amount }, prep, remark })
}

pub(super) fn food_line(text: &str, start: usize, measure: Measure, parts: Parts, foods: &Foods) -> Result<Line, LineError> {
    let mut segments = parts.segments.into_iter();
    let mut head = segments.next().unwrap_or_default();
    let mut rest: Vec<Vec<Word>> = segments.collect();
    // "boneless, skinless chicken thighs": the comma stands between two words about the food.
    while !rest.is_empty() && !head.is_empty() && head.iter().all(|word| words::class(word.text).is_some()) && !is_known(&head, foods) {
        head.extend(rest.remove(0));
    }
    if head.is_empty() {
        return Err(no_food(text, start, parts.start));
    }
    if !measure.unit_given {
        unit_alone(&head, foods)?;
    }
    if measure.amount.is_some() && matches!(head[0].text, "to" | "or" | "and" | "x") {
        let cause = format!("\"{}\" follows the amount", head[0].text);
        return Err(LineError::new(cause, "write one amount, then the food", head[0].start));
    }
    if matches!(measure.amount, Some(Amount { unit: Unit::Portion, .. })) {
        let remedy = format!("write recipe: before the id of a recipe, or weigh \"{}\"", phrase(&head));
        return Err(LineError::new("a portion is of a recipe, and this is a food", remedy, start));
    }
    let stated = measure.amount.as_ref().map(|amount| (amount.unit, measure.unit_given));
    let Some(found) = resolve(&head, stated, foods) else {
        return Err(no_food(text, start, head[0].start));
    };
    let mut line = Gathered {
        plus: measure.plus.clone(),
        remark: measure.remark.clone(),
        prep: measure.vague.clone(),
        has_amount: measure.amount.is_some(),
        ..Gathered::default()
    };
    line.trailing(&found).map_err(|error| LineError::new(error.cause, error.remedy, head[0].start))?;
    for segment in rest.iter().filter(|segment| !segment.is_empty()) {
        line.part(&phrase(segment)).map_err(|error| LineError::new(error.cause, error.remedy, segment[0].start))?;
    }
    Ok(filled(line.finish(measure, found, &parts.brackets), foods))
}

/// "1 cup brown sugar, packed" and "1 cup (grated) parmesan" say how the cup is filled, wherever they stand: the form is the cup's where
/// the food knows what such a cup weighs. After a comma that holds for "packed" alone, since only a full cup can be; the others are done later.
fn filled(mut line: Line, foods: &Foods) -> Line {
    let LineOf::Food { food, item: Some(item) } = &mut line.of else { return line };
    let Some(Measured::Table(cups)) = foods.find_known(&key_of(food)).and_then(|id| foods[id].cup.as_ref()).map(|cup| &cup.value) else {
        return line;
    };
    let is_volume = item.amount.unit.is_measured() && matches!(item.amount.most(Spoons::Us), Quantity::Volume(_));
    if !is_volume || item.size.is_some() || item.state != State::AsPurchased {
        return line;
    }
    let form = |entry: &str| {
        let describes = entry.split(' ').all(|word| matches!(words::class(word), Some(Class::Form | Class::Adverb)));
        describes && entry.split(' ').next_back().is_some_and(|last| cups.contains_key(last))
    };
    let packed = |entry: &str| form(entry) && entry.ends_with("packed");
    for (told, fits) in [(&mut line.remark, &form as &dyn Fn(&str) -> bool), (&mut line.prep, &packed)] {
        let Some(entries) = told.as_deref() else { continue };
        let entries: Vec<&str> = entries.split(", ").collect();
        if let Some(at) = entries.iter().position(|entry| fits(entry)) {
            item.state = State::Prepared(entries[at].to_lowercase());
            let rest: Vec<&str> = entries.iter().enumerate().filter(|(index, _)| *index != at).map(|(_, entry)| *entry).collect();
            *told = (!rest.is_empty()).then(|| rest.join(", "));
            break;
        }
    }
    line
}

fn no_food(text: &str, start: usize, at: usize) -> LineError {
    let said = text[start..].trim();
    LineError::new(format!("\"{said}\" names no food"), "write the food after the amount", at.min(text.len()))
}

/// A line without an amount is "to taste", and so must not hide one: `g flour`.
fn unit_alone(head: &[Word], foods: &Foods) -> Result<(), LineError> {
    if let Some((unit, end)) = unit_at(head[0].text, 0)
        && unit.is_measured()
        && end == head[0].text.len()
        && head.len() > 1
        && !is_known(head, foods)
    {
        return Err(LineError::new(
            format!("\"{}\" has no number before it", head[0].text),
            "write the amount first: 200 g flour",
            head[0].start,
        ));
    }
    Ok(())
}

fn is_known(head: &[Word], foods: &Foods) -> bool {
    foods.find_known(&key_of(&phrase(head))).is_some()
}

pub(super) fn phrase(words: &[Word]) -> String {
    let mut phrase = String::new();
    for word in words {
        if !phrase.is_empty() {
            phrase.push(' ');
        }
        phrase.push_str(word.text);
    }
    phrase
}

/// What is told beside the amount and the food.
#[derive(Default)]
struct Gathered {
    prep: Option<String>,
    remark: Option<String>,
    plus: Vec<Amount>,
    /// Without an amount there is nothing to add a "plus" to.
    has_amount: bool,
    /// Parts that may tell the size of one.
    sizes: Vec<String>,
    to_taste: bool,
}

impl Gathered {
    fn trailing(&mut self, found: &Found) -> Result<(), ReadError> {
        join(&mut self.remark, found.remark.clone());
        join(&mut self.prep, found.prep.clone());
        found.trailing.as_ref().map_or(Ok(()), |part| self.part(part))
    }

    /// One part after a comma.
    fn part(&mut self, part: &str) -> Result<(), ReadError> {
        let lower = part.to_ascii_lowercase();
        if self.has_amount
            && let Some(after) = ["plus ", "+ ", "+"].iter().find_map(|mark| lower.starts_with(mark).then_some(mark.len()))
            && let Some(Prefix { amount, end, .. }) = prefix(&part[after..])?
            && amount.unit != Unit::Portion
        {
            self.plus.push(amount);
            let rest = part[after + end..].trim();
            join(&mut self.prep, (!rest.is_empty()).then(|| rest.to_owned()));
        } else if bracket_size(part).is_some_and(|(_, rest, _)| rest.is_none()) {
            // "4 cod loins, 140 g each" says it as a bracket would.
            self.sizes.push(part.to_owned());
        } else if lower == "or" || lower.starts_with("or ") && lower != "or to taste" {
            join(&mut self.remark, Some(part.to_owned()));
        } else if matches!(lower.as_str(), "to taste" | "or to taste") {
            self.to_taste = true;
        } else {
            join(&mut self.prep, Some(part.to_owned()));
        }
        Ok(())
    }

    fn finish(mut self, mut measure: Measure, found: Found, brackets: &[&str]) -> Line {
        let unit = found.unit.or(measure.amount.as_ref().map(|amount| amount.unit));
        let sizes = std::mem::take(&mut self.sizes);
        for bracket in brackets.iter().copied().chain(sizes.iter().map(String::as_str)).filter(|bracket| !bracket.is_empty()) {
            match bracket_size(bracket).filter(|(size, _, each)| measure.size.is_none() && takes_size(unit, &measure, size, *each)) {
                Some((size, rest, _)) => {
                    measure.size = Some(size);
                    join(&mut self.remark, rest);
                }
                None => join(&mut self.remark, Some(bracket.to_owned())),
            }
        }
        let item = match measure.amount {
            Some(amount) => {
                if self.to_taste {
                    join(&mut self.prep, Some("to taste".to_owned()));
                }
                let mut amount = Amount { unit: unit.unwrap_or(amount.unit), ..amount };
                // "2 x 400 g chopped tomatoes" are two tins.
                let bare = amount.unit == Unit::Piece && found.state == State::AsPurchased;
                if bare && measure.size.is_some() && found.food.starts_with("tinned ") {
                    amount.unit = Unit::Word(UnitWord::Tin);
                }
                let grade = found.grade.or(measure.grade);
                let state = found.state;
                Some(Item { amount, size: measure.size, grade, state, plus: self.plus })
            }
            None => {
                // Nothing is measured, so the form is something to do.
                if let State::Prepared(form) = &found.state {
                    join(&mut self.prep, Some(form.clone()));
                }
                None
            }
        };
        Line { of: LineOf::Food { food: found.food, item }, prep: self.prep, remark: self.remark }
    }
}

/// May a bracket after the food tell the size of one? Of one thing alone, what it weighs is that.
fn takes_size(unit: Option<Unit>, measure: &Measure, size: &Quantity, each: bool) -> bool {
    let one = measure.amount.as_ref().is_some_and(|amount| amount.low == 1 && amount.high == 1);
    match unit {
        Some(Unit::Word(word)) if word.is_container() => true,
        Some(Unit::Word(_) | Unit::Piece) => each || one && matches!(size, Quantity::Mass(_)),
        _ => false,
    }
}

/// The words of a part that say something of the food, by class.
pub(super) fn class_of(word: &Word) -> Option<Class> {
    words::class(word.text)
}
