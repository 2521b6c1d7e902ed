//! The ways in which a line can be read, and the best of them.

use super::food::Head;
use super::measure::Measure;
use super::parts::Parts;
use super::vocabulary::Class;
use super::{Line, LineError, Reader, vocabulary};
use crate::foods::key_of;
use crate::measure::{Kind, Unit};

/// One reading of a line.
#[derive(Debug)]
pub(super) struct Candidate {
    pub lines: Vec<Line>,
    /// Words that are neither part of a known name nor describe it.
    pub unexplained: usize,
    /// Words in the names of known foods.
    pub named: usize,
}

impl Candidate {
    fn is_better_than(&self, other: &Candidate) -> bool {
        (self.unexplained, other.named) < (other.unexplained, self.named)
    }
}

impl<'a> Reader<'a> {
    /// The line from `start` on, in the best reading.
    pub(super) fn best(&self, start: usize) -> Result<Candidate, LineError> {
        if let Some((phrase, after)) = self.whole_of(start) {
            let mut best = self.best(after)?;
            // "Juice of 2 limes, 1 tsp honey": nobody juices the honey.
            let kind = |line: &Line| self.foods.find_known(&key_of(&line.of.to_string())).and_then(|id| self.foods[id].kind);
            let first = best.lines.first().and_then(kind);
            for line in best.lines.iter_mut().filter(|line| kind(line) == first) {
                line.prep = Some(line.prep.take().map_or_else(|| phrase.clone(), |prep| format!("{phrase}, {prep}")));
            }
            return Ok(best);
        }
        // "(optional) 2 tbsp chopped nuts"
        if let Some(inner) = self.bracket(start)
            && vocabulary::says_optional(inner, 0..inner.len())
            && start + 1 < self.end
        {
            let mut best = self.best(start + 1)?;
            best.lines.iter_mut().for_each(|line| line.optional = true);
            return Ok(best);
        }
        if let Some(after) = vocabulary::quanto_basta(self.w, start).filter(|after| *after < self.end) {
            return self.best(after);
        }
        self.no_number(start)?;
        let measure = self.measure(start, false);
        let (has_amount, unit_at) = match &measure {
            Ok(measure) => (measure.amount.is_some() || measure.vague.is_some(), measure.unit_at),
            Err(_) => (true, None),
        };
        let mut best = measure.and_then(|measure| self.straight(measure, start));
        let mut also = |other: Result<Candidate, LineError>| {
            if let Ok(other) = other
                && best.as_ref().map_or(true, |best| other.is_better_than(best))
            {
                best = Ok(other);
            }
        };
        if has_amount && self.names(start).is_some() {
            also(self.straight(Measure { end: start, ..Measure::default() }, start));
        }
        // "2 cloves" is the spice; "1 clove crushed garlic" is not.
        let ends = |end: usize, at: usize| end == self.separator(at) || self.ends(end);
        let may_name = |at: usize| self.names(at).is_some_and(|end| end > at + 1 || ends(end, at));
        if unit_at.is_some_and(may_name) {
            also(self.measure(start, true).and_then(|measure| self.straight(measure, start)));
        }
        if has_amount && self.vague_or_one(start) {
            also(self.number_alone(start));
        }
        if !has_amount && let Some(turned) = self.turned(start) {
            also(self.food_first(turned, start));
        }
        best
    }

    /// The measure first, then the foods.
    fn straight(&self, measure: Measure, start: usize) -> Result<Candidate, LineError> {
        if let Some(at) = self.recipes(start).next() {
            let line = self.recipe_line(measure, start, at)?;
            return Ok(Candidate { lines: vec![line], unexplained: 0, named: 1 });
        }
        if let Some(either) = self.a_tin_or_so_much(&measure, start) {
            return Ok(either);
        }
        let mut from = measure.end;
        // "2 cans (14.5 oz), diced tomatoes"
        while from < self.end && self.is_separator(from) && measure.amount.is_some() {
            from += 1;
        }
        let mut to = self.separator(from);
        // "boneless, skinless chicken thighs": the comma stands between two words about the food.
        while to < self.end && to > from && self.describes_only(from, to) {
            to = self.separator(to + 1);
        }
        let head = Head::of(self.w, from..to);
        self.check(&measure, &head, start)?;
        let parts = Parts::after(self, to, &measure);
        self.foods(measure, head, parts, start)
    }

    /// "1 tin or 250 g cooked chickpeas": the tin, and what would do as well.
    fn a_tin_or_so_much(&self, measure: &Measure, start: usize) -> Option<Candidate> {
        let w = self.w;
        if !super::food::is_tin(measure.amount.as_ref().map(|amount| amount.unit)) || !w.is(measure.end, "or") {
            return None;
        }
        let other = self.measure(measure.end + 1, false).ok().filter(|other| other.unit_given && other.amount.is_some())?;
        let to = self.separator(other.end);
        let head = Head::of(w, other.end..to);
        head.places.first()?;
        let instead = w.plain(measure.end + 1..head.end);
        let parts = Parts::after(self, to, &other);
        let mut best = self.foods(Measure { end: other.end, ..measure.clone() }, head, parts, start).ok()?;
        let line = best.lines.first_mut()?;
        line.instead = Some(line.instead.take().map_or_else(|| instead.clone(), |more| format!("{instead} or {more}")));
        Some(best)
    }

    /// The food first, then the measure.
    fn food_first(&self, turned: super::turned::Turned, start: usize) -> Result<Candidate, LineError> {
        let super::turned::Turned { measure, head_end, rest } = turned;
        let first = self.separator(start).min(head_end);
        let head = Head::of(self.w, start..first);
        let mut parts = Parts::between(self, first, head_end);
        let after = Parts::after(self, rest, &measure);
        parts.ranges.extend(after.ranges);
        parts.brackets.extend(after.brackets);
        self.foods(measure, head, parts, start)
    }

    /// "A little gem lettuce" is one of that name, although "a little" says no amount.
    fn vague_or_one(&self, start: usize) -> bool {
        vocabulary::vague(self.w, start).is_some_and(|(_, may_name)| may_name) && self.names(start + 1).is_some()
    }

    fn number_alone(&self, start: usize) -> Result<Candidate, LineError> {
        let number = self.w.number(start).ok().flatten().map(|read| read.number);
        let amount = number.map(|number| crate::measure::amount_of(&number, Unit::Piece));
        self.straight(Measure { amount, end: start + 1, ..Measure::default() }, start)
    }

    /// The "juice of", "finely grated zest and juice of" or "yolks of" before an amount, and the place after it.
    pub(super) fn whole_of(&self, start: usize) -> Option<(String, usize)> {
        let w = self.w;
        let mut at = start + usize::from(w.is(start, "the"));
        let from = at;
        let mut part = false;
        while at < self.end {
            if PARTS.contains(&w.key_at(at)) {
                part = true;
                at += 1;
            } else if part && (w.is(at, "of") || w.is(at, "from") || w.at(at).is_some_and(|token| token.is_number())) {
                let after = at + usize::from(!w.tokens()[at].is_number());
                let numbered = w.number(after).is_ok_and(|number| number.is_some());
                return numbered.then(|| (lower_first(&w.plain(from..at)), after));
            } else if matches!(vocabulary::class_of(w, at), Some(Class::Form | Class::Adverb | Class::And)) {
                at += 1;
            } else {
                return None;
            }
        }
        None
    }

    fn describes_only(&self, from: usize, to: usize) -> bool {
        let w = self.w;
        if w.food_in(from..to, self.foods).is_some() {
            return false;
        }
        let mut at = from;
        while at < to {
            match vocabulary::class(w, at..to) {
                _ if w.key_at(at).is_empty() => at += 1,
                Some((Class::Part, _)) | None => return false,
                Some((_, after)) => at = after,
            }
        }
        true
    }

    /// "nan g flour" begins with no number.
    fn no_number(&self, start: usize) -> Result<(), LineError> {
        let w = self.w;
        let is_none = ["nan", "inf", "infinity"].iter().any(|word| w.is(start, word));
        if is_none && matches!(w.unit(start + 1), Some((unit, _)) if unit.is_measured()) {
            let cause = format!("\"{}\" is no number", w.text(start..start + 1));
            return Err(LineError::new(cause, "write the amount in digits: 200 g flour", w.byte(start)));
        }
        Ok(())
    }

    fn check(&self, measure: &Measure, head: &Head, start: usize) -> Result<(), LineError> {
        let w = self.w;
        let Some(first) = head.places.first().copied() else { return Err(self.no_food(start, measure.end)) };
        if measure.amount.is_none() && measure.vague.is_none() {
            self.unit_alone(head, first)?;
        }
        if measure.amount.is_some() && ["to", "or", "and", "x"].iter().any(|word| w.is(first, word)) {
            let cause = format!("\"{}\" follows the amount", w.text(first..first + 1));
            return Err(LineError::new(cause, "write one amount, then the food", w.byte(first)));
        }
        if measure.amount.as_ref().is_some_and(|amount| amount.unit == Unit::Portion) {
            let remedy = format!("write recipe: before the id of a recipe, or weigh \"{}\"", w.plain(first..head.end));
            return Err(LineError::new("a portion is of a recipe, and this is a food", remedy, w.byte(start)));
        }
        Ok(())
    }

    /// A line without an amount is "to taste", and so must not hide one: `g flour`.
    fn unit_alone(&self, head: &Head, first: usize) -> Result<(), LineError> {
        let w = self.w;
        if let Some((unit, end)) = w.unit(first)
            && unit.is_measured()
            && w.kind(first) == Some(Kind::Word)
            && head.places.len() > 1
            && head.places[1] >= end
            && self.names(first).is_none_or(|name| name <= end)
        {
            let cause = format!("\"{}\" has no number before it", w.plain(first..end));
            return Err(LineError::new(cause, "write the amount first: 200 g flour", w.byte(first)));
        }
        Ok(())
    }

    pub(super) fn no_food(&self, start: usize, at: usize) -> LineError {
        let at = at.min(self.end);
        let offset = if at >= self.w.len() { self.w.tokens().last().map_or(0, |last| last.end()) } else { self.w.byte(at) };
        let cause = format!("\"{}\" names no food", self.w.text(start..self.end));
        LineError::new(cause, "write the food after the amount", offset)
    }
}

/// What a line may ask of so many whole ones, by its key: "the juice of", "the whites of".
const PARTS: [&str; 11] = ["juice", "zest", "rind", "peel", "white", "yolk", "flesh", "pulp", "seed", "leaf", "kernel"];

fn lower_first(phrase: &str) -> String {
    let mut letters = phrase.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
