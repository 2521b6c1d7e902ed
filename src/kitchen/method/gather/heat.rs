//! How hot the oven is for what follows, and what a sentence about its heat says beside that.

use super::super::act::{Act, Takes};
use super::super::clauses::Clause;
use super::super::clock::times;
use super::super::text::said;
use super::super::whereabouts::Whereabouts;
use super::Gather;
use super::draft::Draft;
use crate::kitchen::words::Words;
use crate::measure::{Celsius, Kind as Sign};

impl Gather<'_, '_> {
    /// "Prove for 20 minutes while you heat the oven to 200 °C": no step, and what follows is as hot.
    pub(super) fn heat_beside(&mut self, w: &Words, clause: &Clause, paragraph: usize) {
        let mut whereabouts = std::mem::replace(&mut self.whereabouts, Whereabouts::new(0, Vec::new()));
        let mut dishes = std::mem::take(&mut self.dishes);
        let read = self.act(w, clause, paragraph, self.so, (&mut whereabouts, &mut dishes));
        (self.whereabouts, self.dishes) = (whereabouts, dishes);
        if let (Takes::Preheat, Some(celsius)) = (read.takes, read.heat.oven) {
            self.set_oven(celsius, &read);
        }
    }

    /// What follows in the oven is as hot.
    pub(in super::super) fn set_oven(&mut self, celsius: Celsius, read: &Act) {
        self.oven = Some((celsius, read.heat.guessed));
        self.so.oven = Some((celsius, if read.heat.by.is_some() { self.so.oven.is_some_and(|(_, f)| f) } else { read.heat.fahrenheit }));
    }

    /// "Heat the oven with a baking stone inside": more than how hot it is stays in the words.
    pub(super) fn keep_what_more_is_said(&mut self, w: &Words, clause: &Clause, draft: &mut Draft) {
        #[rustfmt::skip]
        const SAID: [&str; 60] = [
            "heat", "preheat", "pre", "the", "your", "an", "a", "oven", "grill", "to", "at", "on", "in", "of", "up", "and", "or", "then", "first", "now", "start", "by",
            "meanwhile", "meantime", "while", "whilst", "when", "you", "are", "ready", "bake", "cook", "temperature", "degrees", "degree", "c", "f", "celsius", "fahrenheit",
            "centigrade", "fan", "gas", "mark", "no", "convection", "conventional", "electric", "high", "medium", "hot", "very", "moderate", "low", "cool", "slow",
            "turn", "set", "get", "broiler", "for",
        ];
        let times = times(w, clause.start, clause.end);
        let more = (clause.start..clause.end).any(|at| {
            let word = w.at(at).filter(|token| token.kind == Sign::Word && token.text.len() > 1 && !token.text.ends_with("ly"));
            word.is_some() && !SAID.iter().any(|said| w.is(at, said)) && !times.iter().any(|time| (time.start..time.end).contains(&at))
        });
        if more && !draft.is_empty() {
            draft.add(clause.start, clause.end);
        } else if more {
            let words = said(w, clause.start, clause.end);
            self.lead = if self.lead.is_empty() { words } else { format!("{} {words}", self.lead) };
        }
    }
}
