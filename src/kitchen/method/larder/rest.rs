//! What is left of an ingredient, said without its name: "the rest", "the other half", "the other 2", "the second tin".

use super::{Larder, Mention, Part};
use crate::kitchen::words::Words;
use crate::measure::{Kind as Sign, Number, Unit};

const PARTS: [&str; 5] = ["half", "third", "thirds", "quarter", "quarters"];

impl Larder<'_> {
    /// Of what was divided last. "The other side" and "the second batch" are none.
    pub(super) fn rest_of_the_divided(&self, w: &Words, from: usize, at: usize, to: usize) -> Option<Mention> {
        let the = at.checked_sub(1).filter(|before| *before >= from && w.is(*before, "the"))?;
        let (food, end) = match () {
            () if w.is(at, "rest") && !w.is(at + 1, "of") => (self.divided_last(&|_| true)?, at + 1),
            () if ["other", "remaining"].iter().any(|word| w.is(at, word)) => {
                let end = self.a_part(w, at + 1, to)?;
                (self.divided_last(&|index| self.fits(w, index, at + 1..end))?, end)
            }
            () if ["second", "third", "last"].iter().any(|word| w.is(at, word)) => {
                (self.divided_last(&|index| self.is_counted_in(w, index, at + 1))?, at + 2)
            }
            () => return None,
        };
        // "The other half of the onions" says of what.
        if end > to || w.is(end, "of") || w.is(end, "time") || self.named_at(w, end, to).is_some() {
            return None;
        }
        let one_of = |at: usize| (w.is(at, "second") || w.is(at, "third")).then(|| self.count_of(food)).flatten();
        let part = one_of(at).filter(|count| *count > 2.0).map_or(Part::Rest, |count| Part::Share(Number::over(1, count as i64)));
        Some(Mention { start: the, end, foods: vec![food], part: Some(part), group: false })
    }

    fn divided_last(&self, fits: &dyn Fn(usize) -> bool) -> Option<usize> {
        self.divided.iter().rev().copied().find(|index| self.is_divided(*index) && fits(*index))
    }

    /// The "half", "two thirds", "2", "tin" after "the other", and the place after it.
    fn a_part(&self, w: &Words, at: usize, to: usize) -> Option<usize> {
        let said = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
        if at < to && said(at, &PARTS) {
            return Some(at + 1);
        }
        if said(at, &["two", "three"]) && said(at + 1, &PARTS) {
            return Some(at + 2);
        }
        let counted = self.named.iter().any(|named| matches!(named.unit_word(), Some(word) if w.key_at(at) == word));
        if counted {
            return Some(at + 1);
        }
        let read = w.amount(at).ok().flatten()?;
        (read.end <= to && w.kind(at) != Some(Sign::Open)).then_some(read.end)
    }

    /// Is it counted so: "the other 2" of what comes in pieces, "the other tin" of tins?
    fn fits(&self, w: &Words, index: usize, said: std::ops::Range<usize>) -> bool {
        if PARTS.iter().any(|word| w.is(said.end - 1, word)) {
            return true;
        }
        let number = w.amount(said.start).ok().flatten().filter(|read| read.end == said.end);
        match number {
            Some(read) => self.share_of(index, &read.amount.high, read.amount.unit).is_some_and(|share| share == *self.left(index)),
            None => self.is_counted_in(w, index, said.start),
        }
    }

    /// How many tins there are.
    fn count_of(&self, index: usize) -> Option<f64> {
        let amount = &self.named[index].item.as_ref()?.amount;
        let count = amount.high.to_f64();
        (matches!(amount.unit, Unit::Word(_)) && count.fract() == 0.0).then_some(count)
    }

    fn is_counted_in(&self, w: &Words, index: usize, at: usize) -> bool {
        self.named[index].unit_word().is_some_and(|word| w.key_at(at) == word)
    }
}

impl super::Named {
    /// The "tin" of "2 tins chopped tomatoes".
    fn unit_word(&self) -> Option<&str> {
        match self.item.as_ref()?.amount.unit {
            Unit::Word(word) => Some(word.singular()),
            _ => None,
        }
    }
}
