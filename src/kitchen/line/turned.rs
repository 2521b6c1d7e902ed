//! Lines that name the food first and its amount after it: "plain flour 200 g", "eggs, 2", "Tomatoes (finely chopped) - 3 medium".

use super::Reader;
use super::measure::Measure;
use super::vocabulary::{Class, class};
use crate::measure::{Kind, Unit, skip_about};

/// A line whose amount follows the food.
pub(super) struct Turned {
    pub measure: Measure,
    /// The place after the words before the amount.
    pub head_end: usize,
    /// The places of parts that stand between the food and the amount, and after it.
    pub rest: usize,
}

impl Reader<'_> {
    /// The amount after the food that begins at `start`; `None` where the line hides none.
    pub(super) fn turned(&self, start: usize) -> Option<Turned> {
        ((start + 1)..self.end).find_map(|at| self.turned_at(start, at))
    }

    fn turned_at(&self, start: usize, at: usize) -> Option<Turned> {
        let w = self.w;
        if let Some(inner) = self.bracket(at) {
            return self.in_bracket(start, at, inner.len());
        }
        let number_at = skip_about(w.tokens(), at);
        let separated = self.is_separator(at - 1);
        let in_digits = w.at(number_at).is_some_and(|token| token.is_number());
        // "Coriander leaves a handful chopped"
        let in_words = || w.is(at, "a") && self.begins_in_words(at);
        let begins = match separated {
            true => in_digits || self.begins_in_words(at),
            false => number_at == at && (in_digits || in_words()) && self.is_after_food(start, at),
        };
        if !begins || w.kind(number_at + 1) == Some(Kind::Percent) {
            return None;
        }
        let mut measure = self.measure(at, false).ok()?;
        if measure.amount.is_none() && measure.vague.is_none() || matches!(&measure.amount, Some(amount) if amount.unit == Unit::Portion) {
            return None;
        }
        let mut rest = measure.end;
        while let Some((Class::Grade(grade), end)) = class(w, rest..self.end) {
            measure.grade = Some(grade);
            rest = end;
        }
        let ends = rest >= self.end || self.is_separator(rest) || w.kind(rest) == Some(Kind::Open);
        let weighed = measure.unit_given && measure.amount.as_ref().is_some_and(|amount| amount.unit.is_measured() || separated);
        let in_words = w.kind(rest) == Some(Kind::Word);
        if !(ends || in_words && (weighed && self.names(rest).is_none() || self.is_worked_on(rest))) {
            return None;
        }
        let head_end = if separated { at - 1 } else { at };
        Some(Turned { measure, head_end, rest })
    }

    /// "Green chillies - 2 slit": what follows the amount says what is done to the food, and names no other.
    fn is_worked_on(&self, at: usize) -> bool {
        let says = matches!(class(self.w, at..self.end), Some((Class::Form | Class::Adverb | Class::Cooked, _)));
        says && (at..self.separator(at)).all(|place| self.names(place).is_none())
    }

    /// "Flour (200 g)".
    fn in_bracket(&self, start: usize, at: usize, length: usize) -> Option<Turned> {
        let (_, inner) = self.inside.iter().find(|(place, _)| *place == at)?;
        let within = Reader { w: inner, inside: &[], end: length, ..*self };
        let measure = within.measure(0, false).ok().filter(|measure| measure.amount.is_some() && measure.end == length)?;
        let counted = measure.unit_given || inner.len() == 1;
        let follows_food = (start..at).any(|place| !self.w.key_at(place).is_empty());
        let length_alone = measure.amount.as_ref().is_some_and(|amount| amount.unit == Unit::Portion);
        let measure = Measure { end: at + 1, ..measure };
        (counted && follows_food && !length_alone).then_some(Turned { measure, head_end: at, rest: at + 1 })
    }

    /// "Asafoetida – a pinch", "Curry leaves – a few".
    fn begins_in_words(&self, at: usize) -> bool {
        let measure = self.measure(at, false).ok();
        measure.is_some_and(|measure| measure.vague.is_some() || measure.amount.is_some() && measure.unit_given)
    }

    /// Do the words from `start` to `at` name a known food, all of them?
    fn is_after_food(&self, start: usize, at: usize) -> bool {
        let head = super::food::Head::of(self.w, start..at);
        !head.places.is_empty() && self.known(&head, None).is_some_and(|found| found.trailing.is_empty())
    }

    pub(super) fn is_separator(&self, at: usize) -> bool {
        let w = self.w;
        let next_spaced = || w.at(at + 1).is_none_or(|next| next.spaced);
        match w.at(at) {
            Some(token) => match token.kind {
                Kind::Comma | Kind::Semicolon | Kind::Colon => true,
                Kind::Dash => token.spaced || next_spaced(),
                // The end of a sentence, but not of "St." or of a unit.
                Kind::Stop => at > 0 && next_spaced() && at + 1 < self.end && w.tokens()[at - 1].text.len() > 3 && w.unit(at - 1).is_none(),
                _ => false,
            },
            None => false,
        }
    }

    /// The place of the first separator from `from` on, or the end.
    pub(super) fn separator(&self, from: usize) -> usize {
        (from..self.end).find(|at| self.is_separator(*at)).unwrap_or(self.end)
    }
}
