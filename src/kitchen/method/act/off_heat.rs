//! "Sweat" and "steam" away from the heat: in a bowl, a bag or a colander, or under the lid when the pan is off. A wait on nothing.

use super::reading::Reading;
use crate::kitchen::method::whereabouts::Own;
use crate::measure::Kind as Sign;

/// What stands on no heat, whatever is in it.
const COLD: [&str; 5] = ["bag", "colander", "sieve", "cloth", "towel"];
/// What swells in a hot liquid that is poured over it.
const SWELLS: [&str; 4] = ["couscous", "bulgur", "bulghur", "bulgar"];
const FATS: [&str; 6] = ["butter", "oil", "ghee", "fat", "pan", "saucepan"];

impl Reading<'_> {
    /// In the clause, or before it in its sentence.
    fn sentence_says(&self, words: &[&str]) -> bool {
        let (w, clause) = (self.w, self.clause);
        let from = (0..clause.start).rev().find(|at| w.kind(*at) == Some(Sign::Stop)).map_or(0, |stop| stop + 1);
        (from..clause.end).any(|at| words.iter().any(|word| w.is(at, word)))
    }

    fn names_heat(&self) -> bool {
        let off = self.named.off;
        (self.named.pan || self.named.at.is_some()) && !off || self.sentence_says(&["simmering", "steamer", "basket"])
    }

    /// "Take off the heat and steam, lid on, for 10 minutes."
    fn is_covered_off_the_heat(&self) -> bool {
        let covered = self.sentence_says(&["cover", "covered", "lid", "cloth", "towel"]);
        let was_hot = self.so.was.is_some() && self.so.place.is_none() || self.named.off;
        covered && was_hot && !self.so.raw && self.so.own == Own::Unsaid
    }

    /// Charred peppers in a bowl, a salted aubergine in a colander; not leeks in butter.
    pub(super) fn sweats_off_the_heat(&self) -> bool {
        if self.names_heat() {
            return false;
        }
        let fat = self.sentence_says(&FATS);
        let in_a_bowl = self.sentence_says(&["bowl", "plate"]) && !fat;
        let left = self.clause.verb.is_some_and(|verb| verb.word != "sweat");
        let salted = self.sentence_says(&["salt", "salted"]) && left && self.so.place.is_none() && !fat;
        self.sentence_says(&COLD) || in_a_bowl || salted || self.is_covered_off_the_heat()
    }

    /// What is hot already, in its own steam; and couscous under what was poured over it. Raw fish in a bowl stands over water.
    pub(super) fn steams_off_the_heat(&self) -> bool {
        if self.names_heat() {
            return false;
        }
        let swells = self.sentence_says(&SWELLS) && self.sentence_says(&["pour"]);
        let hot = (self.so.was.is_some() || self.so.place.is_some()) && !self.so.raw && !self.sentence_says(&["water", "pan"]);
        let apart = self.sentence_says(&COLD) || self.sentence_says(&["bowl"]);
        swells || hot && apart || self.is_covered_off_the_heat()
    }
}
