//! What stands behind a food and is bought beside it, although no comma parts it or no amount is said of it: "1 onion, thyme and 50 g
//! walnuts", "400 g carrots (plus 50 g walnuts)", "1 whole egg plus 1 white".

use std::ops::Range;

use super::candidate::Candidate;
use super::foods::Resolved;
use super::parts::Gathered;
use super::vocabulary::{Class, class, opens_preparation};
use super::{Line, LineOf, Reader};
use crate::foods::{Item, State, key_of};
use crate::kitchen::words::Words;
use crate::measure::{Amount, Kind, Unit};

impl<'a> Reader<'a> {
    /// Two parts that an "and" joins, of which one is an amount and a food: "thyme and 50 g walnuts", "peeled and 1 leek", "50 g walnuts and a
    /// splash". `None` where there is none; else the place from which on the line speaks of another food, where it does.
    pub(super) fn parted(&self, gathered: &mut Gathered, range: Range<usize>, resolved: &Resolved) -> Option<Option<usize>> {
        let is_new = |other: &Candidate| other.lines.iter().all(|line| is_new(line, resolved));
        for at in (range.start + 1..range.end).filter(|at| self.joins(*at)) {
            let before = Reader { end: at, ..*self };
            if let Some(second) = self.another(at + 1).filter(is_new) {
                match before.unmeasured(range.start).filter(is_new) {
                    Some(first) => gathered.extra.extend(first.lines),
                    None if self.says_what_is_done(range.start..at) => gathered.prep.push(self.w.plain(range.start..at)),
                    None => continue,
                }
                gathered.extra.extend(second.lines);
                return Some(Some(range.start));
            }
            let Some(first) = before.another(range.start).filter(is_new) else { continue };
            gathered.extra.extend(first.lines);
            let rest = Reader { end: range.end, ..*self };
            match rest.unmeasured(at + 1).filter(is_new) {
                Some(second) => gathered.extra.extend(second.lines),
                None => gathered.doubts.push(format!("\"{}\" was not used", self.w.plain(at + 1..range.end))),
            }
            return Some(None);
        }
        None
    }

    /// A known food of which no amount is said: "thyme", "some thyme".
    fn unmeasured(&self, at: usize) -> Option<Candidate> {
        let to_taste = |line: &Line| matches!(&line.of, LineOf::Food { item: None, .. });
        self.best(at).ok().filter(|best| best.unexplained == 0 && best.named > 0 && best.lines.iter().all(to_taste))
    }

    /// Does a range speak of what is done to the food before it, and name no other?
    fn says_what_is_done(&self, range: Range<usize>) -> bool {
        let done = matches!(class(self.w, range.clone()), Some((Class::Form | Class::Adverb | Class::Cooked | Class::Drained, _)));
        (done || opens_preparation(self.w, range.start)) && range.clone().all(|at| self.names(at).is_none())
    }

    /// "(plus 50 g walnuts)"
    pub(super) fn added_in_bracket(&self, inner: &'a Words<'a>, resolved: &Resolved) -> Option<Vec<Line>> {
        let adds = inner.is(0, "plus") || inner.is(0, "and") || inner.kind(0) == Some(Kind::Plus);
        let within = Reader { w: inner, inside: &[], end: inner.len(), ..*self };
        let added = adds.then(|| within.another(1)).flatten()?;
        added.lines.iter().all(|line| is_new(line, resolved)).then_some(added.lines)
    }

    /// The white of "1 whole egg plus 1 white", whose "1" is `amount`.
    pub(super) fn part_of_an_egg(&self, amount: &Amount, rest: Range<usize>, resolved: &Resolved) -> Option<Line> {
        let part = self.w.key_at(rest.start);
        let [found] = resolved.founds.as_slice() else { return None };
        if amount.unit != Unit::Piece || !["white", "yolk"].contains(&part) || rest.is_empty() {
            return None;
        }
        let id = self.foods.find_known(&format!("{} {part}", key_of(&found.food)))?;
        let item = Item { amount: amount.clone(), size: None, grade: None, state: State::AsPurchased, plus: Vec::new(), boned: false };
        let of = LineOf::Food { food: self.foods[id].name.clone(), item: Some(item) };
        let prep = Some(self.w.plain(rest.start + 1..rest.end)).filter(|prep| !prep.is_empty());
        Some(Line { of, prep, remark: None, instead: None, optional: false, for_one: None, doubts: Vec::new() })
    }
}

/// Is it another food than those before it, and no part of one? "3 eggs, yolks and 2 whites apart" are three eggs.
fn is_new(line: &Line, resolved: &Resolved) -> bool {
    let other = key_of(&line.of.to_string());
    let shares_a_word = |food: &str| key_of(food).split(' ').any(|word| other.split(' ').any(|own| own == word));
    !resolved.founds.iter().any(|found| shares_a_word(&found.food))
}
