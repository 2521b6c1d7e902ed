//! A clause without a verb: "Oven: 180 °C", "200 °C, 25 minutes", "Off heat 10 min", "Another 20 minutes", "Stock in".

use super::super::places::Kind;
use super::reading::{HOB, OVEN, Reading};
use super::{Act, On, Takes};
use crate::measure::Kind as Sign;

/// What stands beside a place or a time in the words of a card, and says of nothing what is done with it.
#[rustfmt::skip]
const BESIDE: [&str; 45] = [
    "at", "for", "in", "into", "on", "onto", "under", "over", "off", "out", "of", "to", "the", "a", "an", "then", "and", "about", "around", "approx", "back", "another", "more",
    "again", "further", "longer", "lid", "with", "without", "covered", "uncovered", "heat", "flame", "low", "lowest", "medium", "high", "gentle", "very", "c", "f", "fan",
    "gas", "mark", "degrees",
];

/// Where something stands on no heat.
const COLD: [&str; 14] =
    ["iced", "ice", "cold", "water", "bath", "fridge", "freezer", "refrigerator", "rack", "room", "temperature", "wire", "cooling", "heat"];

impl Reading<'_> {
    pub(super) fn without_verb(&self, act: &mut Act) {
        // "Oven: 180 °C."
        if self.named.at == Some(On::Kind(Kind::Oven)) && act.heat.oven.is_some() && act.time.is_none() {
            act.sets = true;
            act.takes = Takes::Preheat;
            act.heats = Some(Kind::Oven);
            return;
        }
        // "Brown sugar and butter go in the pan."
        if self.says(&["go", "goes"]) && act.time.is_none() {
            act.place = self.named.at.or(self.named.pan.then_some(HOB)).map(Some);
        }
        // "Gammon and onion in the slow cooker. Low 8 hours."
        let cooker = |on: &On| matches!(on, On::Kind(Kind::Slow | Kind::Rice | Kind::Pressure));
        if let (Some(on), None) = (self.named.at.filter(|on| cooker(on) && !act.off), act.time) {
            act.place = Some(Some(on));
        }
        let first = (self.clause.start..self.clause.end).find(|at| self.w.kind(*at) == Some(Sign::Word));
        let low = first.is_some_and(|at| ["low", "high", "medium"].iter().any(|word| self.w.is(at, word)));
        let slow = On::Kind(Kind::Slow);
        if act.time.is_some() && low && (self.so.place == Some(slow) || self.so.labelled == Some(slow)) {
            return self.wait(act, Some(slow), 0);
        }
        // "Everything goes in the slow cooker for 8 hours."
        if let (true, true, Some(on)) = (self.says(&["go", "goes"]), act.time.is_some() && !act.off, self.named.at) {
            return self.wait(act, Some(on), 0);
        }
        // "Core temp must reach 75 °C for 30 seconds": how hot it is inside, and no wait.
        if act.heat.inside.is_some() && act.time.is_some_and(|time| time.high < 5.0) {
            act.time = None;
            return;
        }
        // "Rice, water, salt to boil."
        let last = self.clause.end.saturating_sub(1);
        let boils = self.w.is(last, "boil") && (self.w.is(last.wrapping_sub(1), "to") || self.w.is(last.wrapping_sub(2), "to"));
        if boils && act.time.is_none() {
            return self.bringing(act);
        }
        // "Potatoes and stock in."
        if act.time.is_none() && last > self.clause.start && self.w.is(last, "in") {
            act.takes = Takes::Hands(None);
            return;
        }
        // "Then 40 minutes at 170 °C."
        if act.time.is_some() && act.heat.oven.is_some() {
            act.sets = true;
            // "It goes in at gas mark 5 for 45 minutes."
            let goes_in = self.says(&["go", "goes"]) && self.says(&["in"]);
            act.unknown = self.named.at.is_none() && !goes_in && !self.is_of_place_and_time(act, &[]);
            return self.wait(act, Some(self.named.at.unwrap_or(OVEN)), 0);
        }
        if self.stays_for(act) {
            return;
        }
        if act.time.is_some_and(|time| time.said_for || time.overnight || self.named.at.is_some())
            && !self.says(&["it", "they", "this", "you", "keeps", "will"])
        {
            // "Back in the oven, 15 minutes."
            let goes_in =
                self.named.at.is_some() && ["back", "in", "into", "under", "return"].iter().any(|word| self.w.is(self.clause.start, word));
            act.unknown = !goes_in;
            self.wait(act, self.named.at.or(self.so.place).filter(|_| !act.off), 0);
        }
    }

    /// Says it no more than where, how hot and how long?
    fn is_of_place_and_time(&self, act: &Act, also: &[&str]) -> bool {
        let (w, clause) = (self.w, self.clause);
        let timed = |at: usize| act.time.is_some_and(|time| (time.start..time.end).contains(&at));
        let said = |at: usize| {
            let word = w.kind(at) == Some(Sign::Word);
            !word || timed(at) || BESIDE.iter().chain(also).any(|word| w.is(at, word)) || self.is_of_the_place(at)
        };
        let until = (clause.start..clause.end).find(|at| w.is(*at, "until") || w.is(*at, "till")).unwrap_or(clause.end);
        (clause.start..until).all(said)
    }

    /// A word of the appliance or of the ware that the clause names.
    fn is_of_the_place(&self, at: usize) -> bool {
        const WARE: [&str; 14] =
            ["oven", "hob", "grill", "microwave", "cooker", "pressure", "slow", "rice", "pan", "pot", "saucepan", "bowl", "dish", "tray"];
        WARE.iter().any(|word| self.w.is(at, word))
    }

    /// "Off heat 10 min", "into iced water 5 min", "lowest heat 12 min", "another 20 minutes": where it stands for how long.
    fn stays_for(&self, act: &mut Act) -> bool {
        if act.time.is_none_or(|time| time.day_before || time.overnight) {
            return false;
        }
        let cold = self.says(&["iced", "ice", "cold", "fridge", "freezer", "refrigerator", "rack", "room"]) || act.off;
        if cold && self.named.at.is_none_or(|on| act.off && on == HOB) && self.is_of_place_and_time(act, &COLD) {
            self.wait(act, None, 0);
            return true;
        }
        if !self.is_of_place_and_time(act, &[]) {
            return false;
        }
        match self.named.at.or(self.named.pan.then_some(HOB)) {
            Some(on) => self.wait(act, Some(on), 0),
            None if act.heat.oven.is_some() => return false,
            None if self.so.place.is_none() => return false,
            None => self.goes_on_where_it_was(act),
        }
        true
    }

    /// "Baste. Another 20 minutes.": as it was done before.
    pub(super) fn goes_on_where_it_was(&self, act: &mut Act) {
        if let (true, Some(on)) = (self.so.by_hand, self.so.place) {
            act.takes = Takes::Hands(self.worked(act));
            act.need = Some(on);
            act.place = Some(Some(on));
            return;
        }
        self.wait(act, self.so.place, 0);
    }
}
