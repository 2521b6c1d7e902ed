//! What one clause asks for: its place, its hands, its wait, its heat.

use std::sync::LazyLock;

use super::clauses::{Clause, verb_at};
use super::clock::{Time, times};
use super::degrees::{Heat, heat};
use super::places::{Kind, PLACES, Place};
use super::verbs::{Verb, Way};
use crate::kitchen::ApplianceId;
use crate::kitchen::words::{Phrases, Words};

/// Where a clause happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    Kind(Kind),
    /// An appliance without a kind, by its name.
    Own(ApplianceId),
}

/// How a clause fills its time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Takes {
    /// Nothing: words, or what only sets something.
    Words,
    /// The oven is set: no step, and no words are kept.
    Preheat,
    /// At the table.
    Serve,
    /// Minutes of hands that the text gives, or the verb's own rate.
    Hands(Option<f64>),
    /// Minutes that the text gives, or the table's.
    Wait { minutes: f64, written: bool },
    /// Bring to the boil: a minute of hands, and a wait by the amount.
    Boil,
    /// Added to the wait of the pressure cooker before it.
    Release { minutes: f64, written: bool },
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Act {
    pub takes: Takes,
    pub need: Option<On>,
    /// Where the food is afterwards; `None`: as before.
    pub place: Option<Option<On>>,
    /// Taken from the heat.
    pub off: bool,
    pub heat: Heat,
    /// Sets the oven for what follows.
    pub sets: bool,
    pub time: Option<Time>,
    /// The text gives another time as well: "4 hours or overnight".
    pub or: bool,
    /// Two times that do not go together: the longer one is planned.
    pub doubtful: bool,
    /// A verb that the table does not have.
    pub unknown: bool,
}

/// What the clauses before have left.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct So {
    pub place: Option<On>,
    pub fan: bool,
}

static PHRASES: LazyLock<Phrases<Place>> = LazyLock::new(|| Phrases::of(PLACES.iter().copied()));

/// The places that a clause names, the verb itself left out.
struct Named {
    at: Option<On>,
    /// The token at which that place is named.
    at_token: usize,
    pan: bool,
    off: bool,
}

fn places(w: &Words, clause: &Clause, own: &[(ApplianceId, Vec<String>)]) -> Named {
    let mut named = Named { at: None, at_token: clause.end, pan: false, off: false };
    let mut at = clause.start;
    while at < clause.end {
        if clause.verb.is_some() && at >= clause.verb_at && at < clause.verb_end && clause.verb.is_some_and(|verb| verb.word != "turn") {
            at += 1;
            continue;
        }
        if let Some((id, words)) = own.iter().find(|(_, words)| words.iter().enumerate().all(|(index, word)| w.key_at(at + index) == word))
        {
            (named.at, named.at_token) = (Some(On::Own(*id)), at);
            at += words.len();
            continue;
        }
        let Some((place, end)) = PHRASES.find(w, at..clause.end) else {
            at += 1;
            continue;
        };
        match place {
            // A pan in the oven is in the oven; a hob is named by its heat beside other places.
            Place::At(kind) if named.at.is_none() || named.at == Some(On::Kind(Kind::Hob)) => {
                (named.at, named.at_token) = (Some(On::Kind(kind)), at)
            }
            Place::Pan => named.pan = true,
            Place::Off => named.off = true,
            _ => {}
        }
        at = end;
    }
    named
}

/// Reads one clause.
pub(super) fn act(w: &Words, clause: &Clause, so: So, own: &[(ApplianceId, Vec<String>)]) -> Act {
    let named = places(w, clause, own);
    let verb = clause.verb;
    let word = verb.map_or("", |verb| verb.word);
    let bare = named.at == Some(On::Kind(Kind::Oven)) || ["bake", "roast", "preheat", "pre-heat"].contains(&word);
    let heat = heat(w, clause.start, clause.end, so.fan, bare);
    let all = times(w, if verb.is_some() { clause.verb_end } else { clause.start }, clause.end);
    let (time, or, doubtful) = planned(&all);
    // "The day before, soak the beans".
    let early = times(w, clause.start, clause.verb_at).into_iter().find(|time| time.day_before || time.overnight);
    let time = time.or(early.filter(|_| verb.is_some()));
    let mut act =
        Act { takes: Takes::Words, need: None, place: None, off: named.off, heat, sets: false, time, or, doubtful, unknown: false };
    let reader = Reading { w, clause, named: &named, so };
    reader.fill(&mut act);
    act
}

/// The first time of a clause; of several that are no choice, the longest.
fn planned(all: &[Time]) -> (Option<Time>, bool, bool) {
    let Some(first) = all.first().copied() else { return (None, false, false) };
    let others: Vec<&Time> = all[1..].iter().filter(|time| !time.or).collect();
    let longest = others.iter().fold(first, |longest, time| if time.high > longest.high { **time } else { longest });
    let doubtful = others.iter().any(|time| (time.high - first.high).abs() > 1e-9);
    (Some(longest), all.iter().any(|time| time.or), doubtful)
}

struct Reading<'a> {
    w: &'a Words<'a>,
    clause: &'a Clause,
    named: &'a Named,
    so: So,
}

const HOB: On = On::Kind(Kind::Hob);

impl Reading<'_> {
    fn says(&self, words: &[&str]) -> bool {
        (self.clause.start..self.clause.end).any(|at| words.iter().any(|word| self.w.is(at, word)))
    }

    /// Before "until": what is done, not what is waited for.
    fn object_end(&self) -> usize {
        let clause = self.clause;
        (clause.verb_end..clause.end).find(|at| ["until", "till"].iter().any(|word| self.w.is(*at, word))).unwrap_or(clause.end)
    }

    fn fill(&self, act: &mut Act) {
        if self.is_release(act) {
            return;
        }
        let Some(verb) = self.clause.verb else { return self.without_verb(act) };
        match verb.way {
            Way::Serve => act.takes = Takes::Serve,
            Way::Heat => self.heating(verb, act),
            Way::Set => self.setting(verb, act),
            Way::Put => self.putting(act),
            Way::Hands => self.hands(verb, act),
            Way::HandsOn(kind) => self.hands_on(verb, kind, act),
            Way::Wait(kind, usual) => self.waiting(verb, kind, usual, act),
            Way::Stand(usual) => self.standing(Some(usual), act),
            Way::Leave => self.leaving(act),
        }
    }

    fn minutes(&self, act: &Act) -> Option<f64> {
        act.time.map(|time| time.high)
    }

    fn wait(&self, act: &mut Act, on: Option<On>, usual: i64) {
        let written = act.time.is_some_and(|time| !time.vague);
        let minutes = self.minutes(act).unwrap_or(usual as f64);
        act.takes = Takes::Wait { minutes, written };
        act.need = on;
        act.place = Some(on);
    }

    /// "Natural release for 10 minutes", "let the pressure release naturally"; a quick one takes nothing.
    fn is_release(&self, act: &mut Act) -> bool {
        let pressure = self.says(&["release", "pressure"]) && self.says(&["natural", "naturally", "itself"]);
        if !pressure || !self.says(&["release", "drop", "fall", "come"]) && !self.says(&["release"]) {
            return false;
        }
        let waits = self.clause.verb.is_some_and(|verb| matches!(verb.way, Way::Wait(..)));
        if waits {
            return false;
        }
        act.takes = Takes::Release { minutes: self.minutes(act).unwrap_or(15.0), written: act.time.is_some_and(|time| !time.vague) };
        true
    }

    fn without_verb(&self, act: &mut Act) {
        // "Oven: 180 °C."
        if self.named.at == Some(On::Kind(Kind::Oven)) && act.heat.oven.is_some() && act.time.is_none() {
            act.sets = true;
            act.takes = Takes::Preheat;
            return;
        }
        if act.time.is_some_and(|time| time.said_for || time.overnight) && !self.says(&["it", "they", "this", "you", "keeps", "will"]) {
            act.unknown = true;
            self.wait(act, self.named.at.or(self.so.place), 0);
        }
    }

    /// "Heat the oven to 190 °C" is no step; oil and pans are heated by hand, soup waits.
    fn heating(&self, verb: &Verb, act: &mut Act) {
        if verb.word == "bring" || self.says(&["boil"]) && self.says(&["to"]) && act.time.is_none() {
            return self.bringing(act);
        }
        let near = self.named.at_token <= self.clause.verb_end + 3;
        let set = matches!(self.named.at, Some(On::Kind(Kind::Oven | Kind::Grill | Kind::Slow | Kind::Pressure | Kind::Steamer)));
        if set && near || verb.word.starts_with("pre") {
            act.sets = true;
            act.takes = Takes::Preheat;
            return;
        }
        let on = self.named.at.unwrap_or(HOB);
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

    fn bringing(&self, act: &mut Act) {
        if self.says(&["room"]) {
            return self.standing(Some(30), act);
        }
        if !self.says(&["boil", "simmer", "boiling", "bubble", "pressure"]) {
            act.takes = Takes::Hands(None);
            return;
        }
        let on = self.named.at.filter(|_| !self.says(&["heat"])).unwrap_or(HOB);
        if act.time.is_some() {
            return self.wait(act, Some(on), 0);
        }
        act.takes = Takes::Boil;
        act.need = Some(on);
        act.place = Some(Some(on));
    }

    /// "Turn the oven down to 160 °C", "reduce the heat", "set the slow cooker to low", "continue for 10 minutes".
    fn setting(&self, verb: &Verb, act: &mut Act) {
        if verb.word == "continue" {
            let inner = self.inner();
            return match inner.map(|(verb, _)| verb.way) {
                Some(Way::HandsOn(_)) if act.time.is_some() => {
                    act.takes = Takes::Hands(self.minutes(act));
                    act.need = Some(self.named.at.or(self.so.place).unwrap_or(HOB));
                }
                _ if act.time.is_some() => self.wait(act, Some(self.heated(HOB)), 0),
                _ => {}
            };
        }
        if act.heat.oven.is_some() || self.is_setting_of_heat() {
            act.sets = act.heat.oven.is_some();
            if act.sets || self.named.at == Some(On::Kind(Kind::Oven)) {
                act.place = Some(Some(On::Kind(Kind::Oven)));
            }
            // "Reduce the oven to 160 °C for 20 minutes" waits too.
            if act.time.is_some() && verb.word != "set" {
                self.wait(act, Some(self.heated(HOB)), 0);
            }
            return;
        }
        if verb.word == "reduce" && (self.says(&["half", "third", "thirds"]) || act.time.is_some()) {
            return self.wait(act, Some(self.heated(HOB)), 10);
        }
        if act.time.is_some() && verb.word != "repeat" && verb.word != "keep" {
            return self.standing(None, act);
        }
        act.place = self.named.at.map(Some);
        if verb.word == "repeat" {
            act.takes = Takes::Hands(self.minutes(act));
        }
    }

    fn is_setting_of_heat(&self) -> bool {
        let end = (self.clause.verb_end + 5).min(self.clause.end);
        (self.clause.verb_end..end)
            .any(|at| ["heat", "temperature", "flame", "oven", "hob", "grill", "gas"].iter().any(|word| self.w.is(at, word)))
    }

    /// The appliance that is named, else the one that the food was last put on or into.
    fn heated(&self, usual: On) -> On {
        match self.named.at {
            Some(on) => on,
            None if self.named.pan => HOB,
            None => self.so.place.unwrap_or(usual),
        }
    }

    fn putting(&self, act: &mut Act) {
        let back_to_boil = self.says(&["boil", "simmer"])
            && (self.clause.verb_end..self.clause.end).any(|at| self.w.is(at, "to"))
            && self.clause.verb.is_some_and(|verb| verb.word == "return");
        if back_to_boil {
            return self.bringing(act);
        }
        if act.off {
            act.takes = Takes::Hands(None);
            act.place = Some(None);
            if act.time.is_some() {
                self.wait(act, None, 0);
            }
            return;
        }
        if act.time.is_some_and(|time| !time.day_before) {
            let on = self.named.at.or(self.named.pan.then_some(HOB));
            let cold = self.says(&["fridge", "freezer", "refrigerator", "aside", "place"]) && self.named.at.is_none();
            let on = if cold { None } else { on };
            return self.wait(act, on, 0);
        }
        act.takes = Takes::Hands(None);
        act.place = match (self.named.at, self.named.pan) {
            (Some(on), _) => Some(Some(on)),
            (None, true) => Some(Some(HOB)),
            _ if self.says(&["bowl", "board", "plate", "rack", "fridge", "jar", "blender", "processor"]) => Some(None),
            _ => None,
        };
    }

    fn hands(&self, verb: &Verb, act: &mut Act) {
        if act.off {
            act.place = Some(None);
        }
        let heat_is_object = verb.word == "turn" && (act.off || self.is_setting_of_heat() || act.heat.oven.is_some());
        if heat_is_object {
            act.sets = act.heat.oven.is_some();
            if act.sets && !act.off {
                act.place = Some(Some(On::Kind(Kind::Oven)));
            }
            return;
        }
        // "Mix in a microwave bowl for 2 minutes" is rare; "melt", "toast" and "brown" in the oven are in hands_on.
        let heated = |on: On| on == HOB || on == On::Kind(Kind::Pressure) && self.says(&["heat", "sauté", "saute"]);
        let hot = self.named.at.filter(|on| heated(*on));
        act.takes = Takes::Hands(self.minutes(act));
        act.need = hot;
        act.place = self.named.at.map(Some).or(self.named.pan.then_some(Some(HOB)));
        if act.place.is_none() && self.says(&["bowl", "board", "blender", "processor", "dish", "tin"]) {
            act.place = Some(None);
        }
    }

    fn hands_on(&self, verb: &Verb, kind: Kind, act: &mut Act) {
        let named = self.named.at.filter(|on| *on != HOB);
        let still_in_oven = self.named.at.is_none()
            && !self.named.pan
            && verb.state
            && act.time.is_some()
            && matches!(self.so.place, Some(On::Kind(Kind::Oven | Kind::Grill)));
        if let Some(on) = named.or(self.so.place.filter(|_| still_in_oven)) {
            return self.wait(act, Some(on), 5);
        }
        let gentle = matches!(verb.word, "sweat" | "soften");
        let long = self.minutes(act).is_some_and(|minutes| minutes > 5.0);
        if (gentle && (long || self.is_covered()) || self.is_covered() && verb.state && verb.word != "brown") && !self.is_stirred() {
            return self.wait(act, Some(On::Kind(kind)), 8);
        }
        let on = On::Kind(kind);
        act.takes = Takes::Hands(self.minutes(act));
        act.need = Some(on);
        act.place = Some(Some(on));
    }

    fn is_covered(&self) -> bool {
        let lid = self.says(&["lid"]) && self.says(&["on", "with"]);
        self.says(&["covered"]) || lid
    }

    /// "Stirring constantly"; "stirring now and then" is none.
    fn is_stirred(&self) -> bool {
        let (w, clause) = (self.w, self.clause);
        const SELDOM: [&str; 10] = ["occasionally", "now", "once", "twice", "sometimes", "halfway", "from", "half", "every", "between"];
        let begins = (clause.start..clause.end).find(|at| ["stirring", "whisking", "beating"].iter().any(|word| w.is(*at, word)));
        begins.is_some_and(|at| {
            let seldom = (at + 1..clause.end.min(at + 5)).any(|place| SELDOM.iter().any(|word| w.is(place, word)));
            !(seldom || at > 0 && (SELDOM.iter().any(|word| w.is(at - 1, word)) || w.is(at - 1, "without")))
        })
    }

    fn waiting(&self, verb: &Verb, kind: Kind, usual: i64, act: &mut Act) {
        let fixed =
            !matches!(verb.word, "cook" | "braise" | "steam" | "simmer" | "boil" | "bubble" | "stew" | "poach" | "blanch" | "parboil");
        let dry_pan = matches!(verb.word, "roast" | "bake") && (self.named.pan || self.named.at == Some(HOB)) && act.heat.oven.is_none();
        if dry_pan && self.named.at != Some(On::Kind(Kind::Oven)) {
            act.takes = Takes::Hands(self.minutes(act));
            act.need = Some(HOB);
            act.place = Some(Some(HOB));
            return;
        }
        let on = match self.named.at {
            Some(on) if !fixed || on != HOB => on,
            _ if fixed => On::Kind(kind),
            None if self.is_slow(act) => On::Kind(Kind::Slow),
            _ if matches!(verb.word, "cook" | "braise" | "steam") => self.heated(HOB),
            _ => HOB,
        };
        if on == HOB && self.is_stirred() {
            act.takes = Takes::Hands(self.minutes(act));
            act.need = Some(on);
            act.place = Some(Some(on));
            return;
        }
        self.wait(act, Some(on), usual);
    }

    /// "Cook on low for 6 to 8 hours" where no appliance is named.
    fn is_slow(&self, act: &Act) -> bool {
        let long = act.time.is_some_and(|time| time.high >= 180.0);
        long && !self.named.pan
            && self.says(&["low", "high"])
            && !self.says(&["heat", "oven"])
            && self.so.place.is_none_or(|on| on == On::Kind(Kind::Slow))
    }

    fn standing(&self, usual: Option<i64>, act: &mut Act) {
        if act.time.is_none() && usual.is_none() {
            return;
        }
        self.wait(act, None, usual.unwrap_or(0));
    }

    /// The verb inside "let it cool", "leave to prove", "continue to cook".
    fn inner(&self) -> Option<(&'static Verb, usize)> {
        (self.clause.verb_end..self.object_end()).find_map(|at| {
            let (verb, end) = verb_at(self.w, at)?;
            matches!(verb.way, Way::Stand(_) | Way::Wait(..) | Way::HandsOn(_) | Way::Leave).then_some((verb, end))
        })
    }

    fn leaving(&self, act: &mut Act) {
        if act.off {
            return self.standing(None, act);
        }
        let own = self.clause.verb.is_some_and(|verb| !matches!(verb.word, "leave" | "let" | "allow" | "set aside"));
        let inner = if own { None } else { self.inner() };
        match inner.map(|(verb, _)| verb.way) {
            Some(Way::Stand(usual)) => self.standing(Some(usual), act),
            // In their own steam: drained potatoes, charred peppers under a plate.
            Some(Way::Wait(..)) if inner.is_some_and(|(verb, _)| verb.word == "steam") && self.named.at.is_none() && !self.named.pan => {
                self.standing(Some(5), act);
            }
            Some(Way::Wait(kind, usual)) => self.wait(act, Some(self.heated(On::Kind(kind))), usual),
            Some(Way::HandsOn(kind)) if act.time.is_some() => self.wait(act, Some(self.heated(On::Kind(kind))), 5),
            _ if act.time.is_some() => {
                let on = self.named.at.filter(|_| !act.off && !self.says(&["room"]));
                self.wait(act, on, 0);
            }
            _ => {
                if self.clause.verb.is_some_and(|verb| verb.word == "set aside") {
                    act.place = Some(None);
                }
            }
        }
    }
}
