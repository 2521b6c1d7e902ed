//! What sets or makes heat: "heat the oil", "bring to the boil", "turn the oven down", "continue to simmer".

use super::super::clauses::verb_at;
use super::super::places::Kind;
use super::super::verbs::{Verb, Way, inflected};
use super::reading::{HOB, OVEN, Reading};
use super::{Act, On, Takes};
use crate::kitchen::words::Words;

/// Minutes until a rice cooker switches itself off, where nobody wrote them. Common practice, no source.
const RICE: i64 = 25;

/// What is kept warm for so long ripens: nobody holds a dish for the table half a day. Common practice, no source.
const RIPENS_FROM: f64 = 240.0;

/// Degrees of an oven that bakes. Common practice, no source.
const LEAST_BAKING: f64 = 100.0;
/// What is heated on the hob to so many degrees.
const LIQUIDS: [&str; 9] = ["oil", "fat", "milk", "water", "syrup", "sugar", "jam", "cream", "stock"];

impl Reading<'_> {
    /// "Heat the oven to 190 °C" is no step; oil and pans are heated by hand, soup waits.
    pub(super) fn heating(&self, verb: &Verb, act: &mut Act) {
        if verb.word == "bring" || self.says(&["boil"]) && self.says(&["to"]) && act.time.is_none() {
            return self.bringing(act);
        }
        let near = self.named.at_token <= self.clause.verb_end + 3;
        let set = matches!(self.named.at, Some(On::Kind(Kind::Oven | Kind::Grill | Kind::Slow | Kind::Pressure | Kind::Steamer)));
        // "Heat it in the oven for 5 minutes": that is done in it.
        let from = self.named.at_token.saturating_sub(2).max(self.clause.verb_end);
        let inside = set && (from..=self.named.at_token).any(|at| ["in", "under"].iter().any(|word| self.w.is(at, word)));
        if set && inside && act.time.is_some() {
            return self.wait(act, self.named.at, 0);
        }
        // "Heat the oil in the pressure cooker": it is a pan by then.
        if inside && self.named.at == Some(On::Kind(Kind::Pressure)) {
            (act.takes, act.need, act.place) = (Takes::Hands(None), self.named.at, Some(self.named.at));
            return;
        }
        if set && near || verb.word.starts_with("pre") {
            act.sets = true;
            act.takes = Takes::Preheat;
            act.heats = kind_of(self.named.at).or(Some(Kind::Oven));
            return;
        }
        // "Put the pot into the oven and heat to 230 °C."
        if act.heat.oven.is_some_and(|oven| oven.0 >= LEAST_BAKING) && act.time.is_none() && self.named.at.is_none() && !self.named.pan {
            let of_the_oven = self.so.place == Some(OVEN) && !self.says(&LIQUIDS);
            if of_the_oven {
                (act.sets, act.takes, act.heats) = (true, Takes::Preheat, Some(Kind::Oven));
                return;
            }
        }
        // "Reheat at 180 °C for 25 minutes": only an oven has degrees, unless it is a fat or a liquid that is heated.
        if act.heat.oven.is_some() && act.time.is_some() && self.named.at.is_none() && !self.named.pan && !self.says(&LIQUIDS) {
            return self.wait(act, Some(OVEN), 0);
        }
        // "Heat 1 minute more" goes on where it was.
        let more = act.time.is_some_and(|time| time.further) || self.clause.goes_on();
        let on = if more || self.so.labelled == Some(On::Kind(Kind::Microwave)) { self.heated(HOB) } else { self.named.at.unwrap_or(HOB) };
        if act.time.is_some() {
            return self.wait(act, Some(on), 0);
        }
        if matches!(on, On::Kind(Kind::Microwave | Kind::Oven)) {
            return self.wait(act, Some(on), 3);
        }
        act.takes = Takes::Hands(None);
        act.need = Some(on);
        act.place = Some(Some(on));
    }

    pub(super) fn bringing(&self, act: &mut Act) {
        if self.says(&["room"]) {
            return self.standing(Some(30), act);
        }
        if !self.says(&["boil", "simmer", "boiling", "bubble", "pressure"]) {
            act.takes = Takes::Hands(None);
            // "Bring the milk to 85 °C and hold it there for 10 minutes."
            if act.heat.oven.is_some() && self.named.at.is_none() {
                (act.need, act.place) = (Some(HOB), Some(Some(HOB)));
                if act.time.is_some() {
                    self.wait(act, Some(HOB), 0);
                }
            }
            return;
        }
        let pressed = self.named.at == Some(On::Kind(Kind::Pressure));
        let on = self.named.at.filter(|_| pressed || !self.says(&["heat"])).unwrap_or(HOB);
        if act.time.is_some() {
            return self.wait(act, Some(on), 0);
        }
        act.takes = Takes::Boil;
        act.need = Some(on);
        act.place = Some(Some(on));
    }

    /// "Turn the oven down to 160 °C", "reduce the heat", "set the slow cooker to low", "continue for 10 minutes".
    pub(super) fn setting(&self, verb: &Verb, act: &mut Act) {
        // "Keep aside for 30 minutes"; "keep in the fridge for 3 days" is none.
        let aside = ["aside", "covered", "chilled", "refrigerated", "undisturbed", "fridge", "refrigerator"];
        if verb.word == "keep" && self.says(&aside) && self.minutes(act).is_some_and(|minutes| minutes < 1440.0) {
            return self.wait(act, None, 0);
        }
        // "Hot hold above 63 °C, at most 2 hours."
        if verb.word.starts_with("hot") || verb.word.starts_with("hold") {
            act.heat.oven = None;
            return;
        }
        if verb.word == "keep" && self.says(&["warm", "hot"]) && self.gerund().is_none() {
            // "Stir in the yoghurt and keep warm for 8 hours": what ripens, not what waits for the table.
            let ripens = self.minutes(act).is_some_and(|minutes| (RIPENS_FROM..1440.0).contains(&minutes));
            if ripens && self.named.at.is_none() {
                self.wait(act, None, 0);
            }
            return;
        }
        // "Start the pasta off in a pan of salted water."
        let off = verb.word == "start" && (act.off || self.says(&["off"]));
        if off && (self.named.pan || self.named.at == Some(HOB)) && self.gerund().is_none() && act.time.is_none() {
            act.off = false;
            return self.wait(act, Some(HOB), 10);
        }
        if matches!(verb.word, "continue" | "carry on" | "go on" | "keep" | "start" | "begin") && act.heat.oven.is_none() {
            return self.going_on(verb, act);
        }
        // "Set in a hot oven for 15 minutes."
        let puts = ["in", "into", "over", "under"].iter().any(|word| self.w.is(self.clause.verb_end, word));
        if verb.word == "set" && act.time.is_some() && puts {
            return self.putting(act);
        }
        // "Lower the eggs into the water."
        if verb.word == "lower" && self.says(&["into"]) && !self.is_setting_of_heat() {
            return self.putting(act);
        }
        if act.heat.oven.is_some() || self.is_setting_of_heat() {
            act.sets = act.heat.oven.is_some();
            if !act.off && (act.sets || self.named.at == Some(On::Kind(Kind::Oven))) {
                act.place = Some(Some(On::Kind(Kind::Oven)));
            }
            // "Reduce the oven to 160 °C for 20 minutes" waits too.
            if act.time.is_some() && verb.word != "set" {
                let on = if act.sets { self.named.at.unwrap_or(OVEN) } else { self.heated(HOB) };
                self.wait(act, Some(on), 0);
            }
            act.turned_down = !act.off;
            self.sets_the_hob(act);
            act.heats = kind_of(act.place.flatten().or(self.named.at)).filter(|_| act.time.is_none() && !act.off);
            return;
        }
        if verb.word == "reduce" && (self.says(&["half", "third", "thirds"]) || act.time.is_some()) {
            return self.wait(act, Some(self.heated(HOB)), 10);
        }
        if act.time.is_some() && verb.word != "repeat" && verb.word != "keep" {
            // "Put it into the rice cooker and switch on for 25 minutes", "set to low for 8 hours".
            let runs = self.so.cooker.map(On::Kind).filter(|on| self.so.place == Some(*on) && !self.says(&["aside"]));
            let runs = runs.or(self.so.labelled.filter(|_| matches!(verb.word, "switch" | "press start")));
            let where_it_is = self.so.place.filter(|_| self.says(&["timer", "clock"])).or(runs);
            return self.wait(act, self.named.at.or(where_it_is).filter(|_| !act.off), 0);
        }
        // "Tip it into the rice cooker and switch on": it knows by itself when it is done.
        let rice = On::Kind(Kind::Rice);
        let on = (self.clause.verb_end..self.clause.end.min(self.clause.verb_end + 4)).any(|at| self.w.is(at, "on"));
        if verb.word == "switch" && on && (self.named.at == Some(rice) || self.named.at.is_none() && self.so.place == Some(rice)) {
            return self.wait(act, Some(rice), RICE);
        }
        act.place = self.named.at.map(Some);
        if verb.word == "repeat" {
            act.takes = Takes::Hands(self.worked(act));
        }
    }

    /// "Continue to cook for 10 minutes", "keep simmering for 5", "start by frying the onion".
    pub(super) fn going_on(&self, verb: &Verb, act: &mut Act) {
        let inner = self.inner().or_else(|| self.gerund());
        let begins = matches!(verb.word, "start" | "begin");
        match inner.map(|(verb, _)| verb.way) {
            _ if act.time.is_none() && !begins => {}
            Some(Way::HandsOn(kind)) => {
                let on = self.named.at.or(self.so.place.filter(|_| !begins)).unwrap_or(On::Kind(kind));
                act.takes = Takes::Hands(self.worked(act));
                act.need = Some(on);
                act.place = Some(Some(on));
            }
            Some(Way::Hands) => act.takes = Takes::Hands(self.worked(act)),
            Some(Way::Wait(kind, usual)) => {
                let usual_place = On::Kind(kind);
                let on = if begins { self.named.at.unwrap_or(usual_place) } else { self.heated(usual_place) };
                self.wait(act, Some(on), usual);
            }
            Some(Way::Stand(usual)) => self.standing(Some(usual), act),
            _ if begins || verb.word == "keep" => {}
            _ => self.wait(act, Some(self.heated(HOB)), 0),
        }
    }

    /// The verb of "keep simmering", "by frying", "at a gentle simmer".
    pub(super) fn gerund(&self) -> Option<(&'static Verb, usize)> {
        (self.clause.verb_end..self.object_end().min(self.clause.verb_end + 5)).find_map(|at| {
            let simmer = self.w.is(at, "simmer") || self.w.is(at, "boil");
            simmer.then(|| verb_at(self.w, at)).flatten().or_else(|| Some((gerund_of(self.w, at)?, at + 1)))
        })
    }

    pub(super) fn is_setting_of_heat(&self) -> bool {
        const HEATS: [&str; 7] = ["heat", "temperature", "flame", "oven", "hob", "grill", "gas"];
        let end = (self.clause.verb_end + 5).min(self.clause.end);
        let names = (self.clause.verb_end..end).any(|at| HEATS.iter().any(|word| self.w.is(at, word)));
        // "Turn down and simmer", "turn to the lowest setting".
        let next = |words: &[&str]| words.iter().any(|word| self.w.is(self.clause.verb_end, word));
        let turn = self.clause.verb.is_some_and(|verb| verb.word == "turn");
        let alone = self.clause.end <= self.clause.verb_end + 2;
        names || turn && (next(&["down", "up"]) && alone || next(&["to"]) && self.says(&["low", "lowest", "high", "setting", "simmer"]))
    }
}

pub(super) fn kind_of(on: Option<On>) -> Option<Kind> {
    if let On::Kind(kind) = on? { Some(kind) } else { None }
}

/// The verb of "simmering", "frying", "baking".
fn gerund_of(w: &Words, at: usize) -> Option<&'static Verb> {
    inflected(&w.at(at)?.text.to_lowercase(), "ing")
}
