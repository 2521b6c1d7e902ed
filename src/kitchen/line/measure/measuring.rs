//! A measure read from left to right: sizes, units, brackets, and what says it again.

use super::super::beside::{self, Beside, beside, beside_at};
use super::super::vocabulary::{self, each};
use super::super::{LineError, Reader};
use super::{Measure, Qualified, as_knob, is_one_thing, size_of};
use crate::kitchen::words::Words;
use crate::measure::{Amount, Ends, Kind, Quantity, Spoons, Unit, amount_of, upper_end};

/// A measure as it is read, from left to right.
pub(super) struct Measuring<'r> {
    pub(super) reader: &'r Reader<'r>,
    pub(super) start: usize,
    pub(super) number: Ends,
    pub(super) as_count: bool,
    pub(super) measure: Measure,
}

impl<'r> Measuring<'r> {
    fn w(&self) -> &'r Words<'r> {
        self.reader.w
    }

    fn at(&self) -> usize {
        self.measure.end
    }

    fn size_of(&self, amount: &Amount) -> Quantity {
        size_of(amount, self.reader.spoons)
    }

    /// "2 - 10 oz cans" are two of ten ounces: a range of two to ten would be absurd, or the dash stands apart.
    pub(super) fn count_of_sizes(&mut self, dash: usize, at: usize) -> Result<(), LineError> {
        let w = self.w();
        let Some((unit, end)) = w.unit(self.at()).filter(|(unit, _)| unit.is_measured()) else { return Ok(()) };
        let Some((Unit::Word(word), _)) = w.unit(end) else { return Ok(()) };
        let apart = w.at(dash).is_some_and(|token| token.spaced);
        if !word.is_container() || !(apart || self.number.high >= &self.number.low * 3) {
            return Ok(());
        }
        let first = w.part(at..dash);
        if let Ok(Some(count)) = first.number(0) {
            self.measure.size =
                Some(self.size_of(&amount_of(&Ends { low: self.number.high.clone(), high: self.number.high.clone() }, unit)));
            self.number = count.number;
            self.measure.end = end;
        }
        Ok(())
    }

    /// `x 400 g`, `(14-ounce)`, `(14.5) oz` or ` 400 g` right after the number.
    pub(super) fn size_before_unit(&mut self) -> Result<(), LineError> {
        let w = self.w();
        if self.measure.size.is_some() {
            return Ok(());
        }
        // "1 x tin" is one tin.
        if w.is(self.at(), "x") && w.unit(self.at() + 1).is_some() {
            self.measure.end += 1;
        }
        let at = self.at();
        if let Some(after) = w.times(at)
            && self.reader.length_at(after).is_none()
        {
            return self.times_size(after);
        }
        if let Some(inner) = self.reader.bracket(at) {
            self.size_in_bracket(at, inner);
        } else if w.kind(at) == Some(Kind::Number)
            && let Ok(Some(one)) = w.amount(at)
            && one.unit_given
            && one.amount.unit.is_measured()
        {
            let (said, end) = self.said_again(one.end);
            // "A 1.5 kg chicken", "1 3½–4 lb whole chicken"; "1 1 kg flour" may be a slip.
            let ranged = one.amount.is_range() && self.number.high < one.amount.low;
            let in_words = (w.kind(at - 1) == Some(Kind::Word) || ranged) && w.kind(end) == Some(Kind::Word);
            let counts = matches!(w.unit(end), Some((Unit::Word(_) | Unit::Piece, _)));
            if counts || in_words {
                self.measure.size = Some(self.size_of(&one.amount));
                self.measure.remarks.extend(said);
                self.measure.end = end;
            }
            if !counts && in_words {
                self.measure.amount = Some(amount_of(&self.number, Unit::Piece));
            }
        }
        Ok(())
    }

    fn times_size(&mut self, after: usize) -> Result<(), LineError> {
        let one = self.w().amount(after).map_err(|error| self.reader.error(error, after))?;
        let Some(one) = one.filter(|one| one.unit_given && one.amount.unit.is_measured()) else {
            let byte = self.w().byte(after);
            return Err(LineError::new("what stands after \"x\" is no weight or volume", "write 2 x 400 g", byte));
        };
        self.measure.size = Some(self.size_of(&one.amount));
        let (said, end) = self.said_again(one.end);
        self.measure.remarks.extend(said);
        self.measure.end = end;
        Ok(())
    }

    fn size_in_bracket(&mut self, at: usize, inner: &Words) {
        let w = self.w();
        let inside = Qualifiers::all(inner);
        if let Ok(Some(number)) = inner.number(0)
            && number.end == inner.len()
            && let Some((unit, end)) = w.unit(at + 1).filter(|(unit, _)| unit.is_measured())
        {
            self.measure.size = Some(self.size_of(&amount_of(&number.number, unit)));
            self.measure.end = end;
        } else if inside {
            self.measure.remarks.push(inner.plain(0..inner.len()));
            self.measure.end = at + 1;
        } else if let Some(beside) = beside(inner) {
            let names_container = matches!(w.unit(at + 1), Some((Unit::Word(word), _)) if word.is_container());
            if (beside.about || beside.total) && !beside.each && !names_container && self.number.high > 1 {
                // "4-6 (about 800 g) chicken breasts" weigh that together.
                self.measure.amount = Some(amount_of(&self.number, Unit::Piece));
                self.measure.said = w.plain(self.start..at);
                self.measure.take(beside, inner.plain(0..inner.len()), self.reader.spoons);
            } else {
                self.measure.size = Some(self.size_of(&beside.whole(self.reader.spoons)));
                self.measure.remarks.extend(beside.rest);
            }
            self.measure.end = at + 1;
        }
    }

    /// The unit, and before it "heaped" or "large".
    pub(super) fn unit(&mut self) -> Result<(), LineError> {
        if self.measure.amount.is_some() {
            return Ok(());
        }
        let w = self.w();
        let Qualified { at, grade, told, likened } = self.reader.qualified(self.at());
        let Some((unit, end)) = w.unit(at) else { return self.count() };
        let unit = as_knob(unit, likened);
        if self.as_count && matches!(unit, Unit::Word(_) | Unit::Piece) {
            return self.count();
        }
        if unit.is_measured() && self.measure.size.is_some() {
            let byte = w.byte(at);
            return Err(LineError::new(format!("a second unit, \"{}\", follows the first", w.plain(at..end)), "write one unit", byte));
        }
        let range = upper_end(w.tokens(), end, &self.number, unit).map_err(|error| self.reader.error(error, at))?;
        let (amount, end) = range.unwrap_or_else(|| (amount_of(&self.number, unit), end));
        self.measure.amount = Some(amount);
        self.measure.unit_given = true;
        self.measure.unit_at = matches!(unit, Unit::Word(_) | Unit::Piece).then_some(at);
        self.measure.grade = grade.or(self.measure.grade);
        self.measure.end = end;
        self.measure.remarks.extend(told);
        self.measure.said = w.plain(self.start..end);
        if unit.is_measured() && self.measure.size.is_none() {
            self.measured_container();
        }
        Ok(())
    }

    /// "400 g tin" is one tin of 400 g, "200 g piece of parmesan" one piece of that weight.
    fn measured_container(&mut self) {
        let Some(measured) = self.measure.amount.clone() else { return };
        let (said, at) = self.said_again(self.at());
        if let Some((container, end)) = self.w().unit(at)
            && is_one_thing(container)
            && each(self.w(), at).is_none()
            && self.reader.names(at).is_none_or(|name| name <= end)
        {
            self.measure.size = Some(self.size_of(&measured));
            self.measure.amount = Some(Amount::new(1.0, container));
            self.measure.remarks.extend(said);
            self.measure.end = end;
        }
    }

    /// What "/14oz" or "(14 oz)" says again of the measure before it, and where the text goes on.
    fn said_again(&self, at: usize) -> (Option<String>, usize) {
        let w = self.w();
        let mut said: Option<String> = None;
        let mut end = at;
        loop {
            let (text, next) = match w.kind(end) {
                Some(Kind::Slash) => match w.amount(end + 1) {
                    Ok(Some(again)) if again.unit_given && again.amount.unit.is_measured() => (w.plain(end + 1..again.end), again.end),
                    _ => return (said, end),
                },
                Some(Kind::Open) => match self.reader.bracket(end).map(|inner| (inner, beside(inner))) {
                    Some((inner, Some(Beside { each: false, rest: None, .. }))) => (inner.plain(0..inner.len()), end + 1),
                    _ => return (said, end),
                },
                _ => return (said, end),
            };
            said = Some(said.map_or(text.clone(), |said| format!("{said}, {text}")));
            end = next;
        }
    }

    pub(super) fn count(&mut self) -> Result<(), LineError> {
        let at = self.at();
        let w = self.w();
        if let Some(long) = self.reader.length(self.start, at) {
            if let Some((unit, after)) = w.unit(self.reader.qualified(long.end).at).filter(|(unit, _)| unit.is_measured()) {
                let cause = format!("a length and a measure, \"{}\" and \"{}\", stand in one line", long.said, unit.singular());
                return Err(LineError::new(cause, "write one of them", w.tokens()[after - 1].end()));
            }
            self.measure.amount = Some(if long.counted { amount_of(&self.number, long.unit) } else { Amount::new(1.0, long.unit) });
            self.measure.unit_given = long.unit != Unit::Piece;
            self.measure.long = long.long;
            self.measure.end = long.end;
            self.measure.said = w.plain(self.start..long.end);
            self.measure.remarks.push(long.said);
            return Ok(());
        }
        self.one_number()?;
        self.measure.amount = Some(amount_of(&self.number, Unit::Piece));
        // "2 large potatoes": the grade belongs to the words about the food, and to what a weight in brackets takes the place of.
        let graded = self.reader.qualified(self.at());
        self.measure.said = w.plain(self.start..if graded.grade.is_some() { graded.at } else { self.at() });
        // "1 large or 2 small aubergines"
        if graded.grade.is_some()
            && w.is(graded.at, "or")
            && let Ok(Some(other)) = w.number(graded.at + 1)
            && let Qualified { at, grade: Some(_), .. } = self.reader.qualified(other.end)
        {
            self.measure.grade = graded.grade;
            self.measure.remarks.push(w.plain(graded.at..at));
            self.measure.end = at;
        }
        Ok(())
    }

    /// A number without a unit: nothing that looks like more of it may follow, so that "1..5" and "1 1" are not read by half.
    pub(super) fn one_number(&mut self) -> Result<(), LineError> {
        let w = self.w();
        let at = self.at();
        let Some(next) = w.at(at).filter(|_| self.measure.size.is_none()) else { return Ok(()) };
        let has_digit = next.text.bytes().any(|byte| byte.is_ascii_digit());
        let sign = matches!(next.kind, Kind::Stop | Kind::Slash | Kind::Number | Kind::Fraction | Kind::Times);
        let glued = !next.spaced && (sign || next.kind == Kind::Word && has_digit);
        let second = next.is_number() && w.kind(at + 1) != Some(Kind::Percent);
        let follows = w.at(at + 1).is_some_and(|after| !after.spaced && after.kind != Kind::Word);
        if (glued && (next.kind != Kind::Stop || follows) || second) && self.reader.names(at).is_none() {
            let mut end = at + 1;
            while w.at(end).is_some_and(|token| !token.spaced) {
                end += 1;
            }
            let cause = format!("\"{}\" follows the number and is no unit", w.plain(at..end));
            return Err(LineError::new(cause, "write one number, then its unit or the food", next.start));
        }
        if next.is("x") || next.kind == Kind::Times {
            self.measure.end += 1;
        }
        Ok(())
    }

    /// What is said again, sizes, and what is added, after the unit: `(400 g)`, `/14 oz`, `of 400 g`, ` 4 oz`, `plus 2 tbsp`, `each`.
    pub(super) fn again(&mut self) -> Result<(), LineError> {
        loop {
            let before = self.at();
            self.weight_again();
            self.size_after_of();
            self.second_measure()?;
            if self.at() == before {
                return Ok(());
            }
        }
    }

    fn weight_again(&mut self) {
        let w = self.w();
        let at = self.at();
        if w.kind(at) == Some(Kind::Slash)
            && self.measure.unit_given
            && let Ok(Some(again)) = w.amount(at + 1)
            && again.unit_given
            && matches!(again.amount.unit, Unit::Word(_))
        {
            // "50 g/½ stick butter"
            self.measure.remarks.push(w.plain(at + 1..again.end));
            self.measure.end = again.end;
        } else if w.kind(at) == Some(Kind::Slash)
            && let Some(beside) = beside_at(w, at + 1)
        {
            let end = beside.end;
            self.measure.take(beside, w.plain(at + 1..end), self.reader.spoons);
            self.measure.end = end;
        } else if let Some(inner) = self.reader.bracket(at)
            && (self.measure.unit_given || self.measure.size.is_some())
        {
            let text = inner.plain(0..inner.len());
            if let Some(beside) = beside(inner) {
                self.measure.take(beside, text, self.reader.spoons);
                self.measure.end = at + 1;
            } else if self.measure.unit_given && Qualifiers::all(inner) {
                self.measure.remarks.push(text);
                self.measure.end = at + 1;
            }
        }
    }

    /// `of 400 g` after a container.
    fn size_after_of(&mut self) {
        let w = self.w();
        let Some(Amount { unit: Unit::Word(word), .. }) = self.measure.amount else { return };
        let marked = ["of", "à", "at"].iter().any(|mark| w.is(self.at(), mark));
        if self.measure.size.is_none()
            && word.is_container()
            && marked
            && let Ok(Some(one)) = w.amount(self.at() + 1)
            && one.unit_given
            && one.amount.unit.is_measured()
        {
            self.measure.size = Some(self.size_of(&one.amount));
            self.measure.end = one.end;
        }
    }

    /// The "7 tbsp" of "½ cup less 1 tbsp", where it comes out even.
    fn less(&self, first: &Amount, at: usize) -> Option<Amount> {
        let second = self.w().amount(at).ok()??.amount;
        let base = |amount: &Amount| amount.most(self.reader.spoons).base();
        let one = base(&Amount::new(1.0, second.unit));
        let is_one_kind = first.most(self.reader.spoons).dimension() == second.most(self.reader.spoons).dimension();
        let left = (base(first) - base(&second)) / one;
        let even = (left * 4.0).round() / 4.0;
        (is_one_kind && left > 0.0 && (left - even).abs() < 0.01 * left).then(|| Amount::new(even, second.unit))
    }

    /// `4 oz` after `1 lb`, `plus 2 tbsp` after `1 cup`.
    fn second_measure(&mut self) -> Result<(), LineError> {
        let Some(first) = self.measure.amount.clone() else { return Ok(()) };
        let w = self.w();
        let at = self.at();
        let plus = w.kind(at) == Some(Kind::Plus) || w.is(at, "plus");
        // "1 stick plus 2 tablespoons butter"
        let counted = matches!(first.unit, Unit::Word(_)) && self.measure.size.is_none() && plus;
        if !first.unit.is_measured() && !counted {
            return Ok(());
        }
        if w.is(at, "minus") || w.is(at, "less") {
            let left = self.less(&first, at + 1).map(|left| format!(": {left}")).unwrap_or_default();
            return Err(LineError::new("an amount less another is no one amount", format!("write what is left as one{left}"), w.byte(at)));
        }
        let marked = plus || w.is(at, "and");
        if !marked && self.said_in_another_system(&first) {
            return Ok(());
        }
        let from = at + usize::from(marked);
        let Ok(Some(more)) = w.amount(from) else { return Ok(()) };
        let alike = || more.amount.most(Spoons::Us).dimension() == first.most(Spoons::Us).dimension();
        if more.unit_given && (counted && more.amount.unit.is_measured() || !counted && alike()) {
            self.measure.plus.push(more.amount);
            self.measure.end = more.end;
            self.measure.said = w.plain(self.start..more.end);
        }
        Ok(())
    }

    /// "500 g 1 lb 2 oz leeks", "25g, 1oz sugar", "300 g 1 1/2 cups barley": books of two columns print an amount twice.
    fn said_in_another_system(&mut self, first: &Amount) -> bool {
        let w = self.w();
        let comma = w.kind(self.at()) == Some(Kind::Comma);
        let from = self.at() + usize::from(comma);
        if !first.unit.is_measured() || !w.at(from).is_some_and(|token| token.is_number()) {
            return false;
        }
        let Some(beside) = beside_at(w, from).filter(|beside| beside.end < self.reader.end) else { return false };
        let whole = beside::sum(first, &self.measure.plus, self.reader.spoons);
        if !beside::says_again(&whole, first.unit, &beside, self.reader.spoons) {
            return false;
        }
        let end = beside.end;
        self.measure.take(beside, w.plain(from..end), self.reader.spoons);
        self.measure.end = end + usize::from(comma && w.kind(end) == Some(Kind::Comma));
        true
    }

    /// "2 cups g flour" has two units.
    pub(super) fn second_unit(&self) -> Result<(), LineError> {
        let w = self.w();
        let at = self.at();
        let Some(_) = self.measure.amount.as_ref().filter(|amount| amount.unit.is_measured()) else { return Ok(()) };
        match w.unit(at) {
            Some((unit, end)) if unit.is_measured() && end < self.reader.end && self.reader.names(at).is_none_or(|name| name < end) => {
                let cause = format!("a second unit, \"{}\", follows the first", w.plain(at..end));
                Err(LineError::new(cause, "write one unit", w.byte(at)))
            }
            _ => Ok(()),
        }
    }

    pub(super) fn finish(mut self) -> Measure {
        let w = self.w();
        // "1 each red and green pepper": the word was read as a unit.
        self.measure.each |= self.measure.unit_given && self.at() > 0 && each(w, self.at() - 1).is_some();
        if let Some(end) = each(w, self.at()).filter(|_| self.measure.amount.is_some()) {
            self.measure.each = true;
            self.measure.end = end;
            if w.kind(self.at()) == Some(Kind::Colon) {
                self.measure.end += 1;
            }
        }
        if w.is(self.at(), "of") {
            self.measure.end += 1;
        }
        // "1 clove – garlic"
        let dashed = w.at(self.at()).is_some_and(|token| token.kind == Kind::Dash && token.spaced);
        if dashed && self.measure.unit_given {
            self.measure.end += 1;
        }
        self.measure
    }
}

/// Words that only qualify a unit.
struct Qualifiers;

impl Qualifiers {
    fn all(inner: &Words) -> bool {
        let mut at = 0;
        while let Some(end) = vocabulary::qualifier(inner, at) {
            at = end;
        }
        at > 0 && at == inner.len()
    }
}
