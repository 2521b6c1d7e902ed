//! Where a clause happens that does not name its appliance in so many words.

use super::super::places::Kind;
use super::reading::{HOB, OVEN, Reading};
use super::{Act, On, Ware};
use crate::kitchen::method::whereabouts::Own;

impl Reading<'_> {
    /// The appliance that is named, else the one that the clause's own food was last put on or into.
    pub(super) fn heated(&self, usual: On) -> On {
        match self.named.at {
            Some(on) => on,
            None if self.named.pan => HOB,
            None if usual == HOB && self.so.labelled.is_some() => self.so.labelled.unwrap_or(usual),
            None => match self.so.own {
                Own::On(on) => on,
                // "Set the pressure cooker to sauté. Cook the onion": that is done in it.
                Own::Nowhere => self.set_for_it().unwrap_or(usual),
                Own::InWare | Own::Unsaid => self.so.place.unwrap_or(usual),
            },
        }
    }

    /// "Cook", "braise": on the hob or in the oven, as it comes. By what the clause names, by where its own food is, by the ovenware that the
    /// food is in, by the appliance that was heated and that nothing else uses; else the hob.
    pub(super) fn cooked(&self, act: &mut Act) -> On {
        if let Some(on) = self.named.at {
            return on;
        }
        // "Cook on full power", "on 100 % power".
        if self.says(&["power"]) {
            return On::Kind(Kind::Microwave);
        }
        if self.is_surely_of_the_hob() {
            return HOB;
        }
        if let Some(on) = self.so.labelled.filter(|_| !self.named.pan).or_else(|| self.of_ware()) {
            return on;
        }
        if self.named.pan || self.is_for_the_hob() {
            return self.heated(HOB);
        }
        let so = &self.so;
        let spare = so.spare.filter(|on| so.laid_out || *on != so.place.unwrap_or(*on) && so.ready);
        match (so.own, spare) {
            (Own::InWare, _) => so.hot.unwrap_or(OVEN),
            (Own::On(on), Some(spare)) if on != spare => {
                act.moved = true;
                spare
            }
            (Own::On(on), _) => on,
            (Own::Nowhere, _) => self.set_for_it().or(so.spare).unwrap_or(HOB),
            (Own::Unsaid, Some(spare)) if so.place.is_some_and(|on| on != spare) => {
                act.moved = !so.ready;
                spare
            }
            (Own::Unsaid, _) => so.place.or(so.spare).unwrap_or(HOB),
        }
    }

    /// Ovenware that the clause names: "cook in a roasting tin", "in the dish" where an oven is heated.
    pub(super) fn of_ware(&self) -> Option<On> {
        match self.named.ware? {
            Ware::Surely => Some(self.so.hot.unwrap_or(OVEN)),
            // A casserole that stands on the hob stays there.
            Ware::Perhaps if self.so.place == Some(HOB) => None,
            Ware::Perhaps => self.so.hot,
        }
    }

    /// A cooker that was set just now is set for what is done next; an oven needs its time.
    fn set_for_it(&self) -> Option<On> {
        self.so.place.filter(|on| self.so.ready && !matches!(on, On::Kind(Kind::Oven | Kind::Grill)))
    }

    /// "Cook, in batches, in a flameproof casserole", "cook, stirring", "cook until browned": an oven that is heated by then waits for what
    /// comes after.
    fn is_surely_of_the_hob(&self) -> bool {
        let (w, clause) = (self.w, self.clause);
        let elsewhere = self.so.labelled.is_some() || self.so.place.is_some_and(|on| on != HOB && on != OVEN);
        let browned = (clause.verb_end..clause.end).any(|at| w.is(at, "until") && (w.is(at + 1, "browned") || w.is(at + 1, "brown")))
            && !self.says(&["top", "bubbling"])
            && self.so.own != Own::InWare;
        let in_it = matches!(self.so.own, Own::On(on) if on != HOB) || self.so.place == Some(OVEN);
        let stirred = self.is_stirred() && !in_it;
        !elsewhere && (self.says(&["flameproof", "batches"]) || stirred || browned && !in_it)
    }

    /// "In the butter", "in boiling water", "stirring": what nobody does in an oven.
    pub(super) fn is_for_the_hob(&self) -> bool {
        let (w, clause) = (self.w, self.clause);
        let stirred = self.says(&["stirring", "whisking", "tossing", "shaking", "al", "fry", "frying", "sizzle"]);
        let fat = |at: usize| ["butter", "oil", "ghee", "fat", "water"].iter().any(|word| w.is(at, word));
        stirred || (clause.verb_end..clause.end).any(|at| w.is(at, "in") && (at + 1..(at + 4).min(clause.end)).any(fat))
    }
}
