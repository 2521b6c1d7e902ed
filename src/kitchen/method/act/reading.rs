//! How one clause fills its time: by its verb, or by what stands in the place of one.

use super::super::clauses::{Clause, verb_at};
use super::super::clock::{every, times};
use super::super::places::Kind;
use super::super::verbs::{Verb, Way, inflected};
use super::{Act, Named, On, So, Takes};
use crate::kitchen::method::whereabouts::Own;
use crate::kitchen::words::Words;

/// One clause, where it happens, and what those before it left.
pub(super) struct Reading<'a> {
    pub(super) w: &'a Words<'a>,
    pub(super) clause: &'a Clause,
    pub(super) named: &'a Named,
    pub(super) so: So,
}

/// Minutes until the pressure is down by itself, where nobody wrote them. Common practice, no source.
const NATURAL_RELEASE: f64 = 15.0;
const HOB: On = On::Kind(Kind::Hob);
const OVEN: On = On::Kind(Kind::Oven);

impl Reading<'_> {
    pub(super) fn says(&self, words: &[&str]) -> bool {
        (self.clause.start..self.clause.end).any(|at| words.iter().any(|word| self.w.is(at, word)))
    }

    /// "Scatter with parsley to serve", "to serve, top with the yoghurt".
    fn is_for_the_table(&self, verb: &Verb) -> bool {
        const LAST: [&str; 9] = ["scatter", "sprinkle", "drizzle", "top", "dollop", "dust", "finish", "dot", "decorate"];
        let (w, end) = (self.w, self.clause.end);
        if self.clause.to_serve {
            return matches!(verb.way, Way::Hands | Way::Put) && self.named.at.is_none();
        }
        LAST.contains(&verb.word) && end >= 2 && w.is(end - 1, "serve") && w.is(end - 2, "to")
    }

    /// Before "until": what is done, not what is waited for.
    fn object_end(&self) -> usize {
        let clause = self.clause;
        (clause.verb_end..clause.end).find(|at| ["until", "till"].iter().any(|word| self.w.is(*at, word))).unwrap_or(clause.end)
    }

    pub(super) fn fill(&self, act: &mut Act) {
        if self.is_release(act) {
            return;
        }
        let Some(verb) = self.clause.verb else { return self.without_verb(act) };
        match verb.way {
            Way::Serve => act.takes = Takes::Serve,
            _ if act.time.is_none() && self.is_for_the_table(verb) => act.takes = Takes::Serve,
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

    /// Minutes of hands. "The night before, stir the oats" says when.
    fn worked(&self, act: &Act) -> Option<f64> {
        act.time.filter(|time| !time.overnight && !time.day_before).map(|time| time.high)
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
        let pressure = self.says(&["release", "pressure"]) && self.says(&["natural", "naturally", "itself", "own"]);
        if !pressure {
            return false;
        }
        // "Cook for 25 minutes, then natural release 15 minutes" has its verb from before.
        let own_verb = self.clause.verb_end > self.clause.verb_at;
        let waits = self.clause.verb.is_some_and(|verb| matches!(verb.way, Way::Wait(..)));
        if waits && own_verb {
            return false;
        }
        act.takes =
            Takes::Release { minutes: self.minutes(act).unwrap_or(NATURAL_RELEASE), written: act.time.is_some_and(|time| !time.vague) };
        true
    }

    fn without_verb(&self, act: &mut Act) {
        // "Oven: 180 °C."
        if self.named.at == Some(On::Kind(Kind::Oven)) && act.heat.oven.is_some() && act.time.is_none() {
            act.sets = true;
            act.takes = Takes::Preheat;
            act.heats = Some(Kind::Oven);
            return;
        }
        // "Then 40 minutes at 170 °C."
        if act.time.is_some() && act.heat.oven.is_some() {
            act.sets = true;
            act.unknown = self.named.at.is_none();
            return self.wait(act, Some(self.named.at.unwrap_or(OVEN)), 0);
        }
        if act.time.is_some_and(|time| time.said_for || time.overnight || self.named.at.is_some())
            && !self.says(&["it", "they", "this", "you", "keeps", "will"])
        {
            act.unknown = true;
            self.wait(act, self.named.at.or(self.so.place).filter(|_| !act.off), 0);
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
            act.heats = kind_of(self.named.at).or(Some(Kind::Oven));
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
            if act.sets || self.named.at == Some(On::Kind(Kind::Oven)) {
                act.place = Some(Some(On::Kind(Kind::Oven)));
            }
            // "Reduce the oven to 160 °C for 20 minutes" waits too.
            if act.time.is_some() && verb.word != "set" {
                let on = if act.sets { self.named.at.unwrap_or(OVEN) } else { self.heated(HOB) };
                self.wait(act, Some(on), 0);
            }
            act.turned_down = !act.off;
            act.heats = kind_of(act.place.flatten().or(self.named.at)).filter(|_| act.time.is_none() && !act.off);
            return;
        }
        if verb.word == "reduce" && (self.says(&["half", "third", "thirds"]) || act.time.is_some()) {
            return self.wait(act, Some(self.heated(HOB)), 10);
        }
        if act.time.is_some() && verb.word != "repeat" && verb.word != "keep" {
            let where_it_is = self.so.place.filter(|_| self.says(&["timer", "clock"]));
            return self.wait(act, self.named.at.or(where_it_is).filter(|_| !act.off), 0);
        }
        act.place = self.named.at.map(Some);
        if verb.word == "repeat" {
            act.takes = Takes::Hands(self.worked(act));
        }
    }

    /// "Continue to cook for 10 minutes", "keep simmering for 5", "start by frying the onion".
    fn going_on(&self, verb: &Verb, act: &mut Act) {
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
    fn gerund(&self) -> Option<(&'static Verb, usize)> {
        (self.clause.verb_end..self.object_end().min(self.clause.verb_end + 5)).find_map(|at| {
            let simmer = self.w.is(at, "simmer") || self.w.is(at, "boil");
            simmer.then(|| verb_at(self.w, at)).flatten().or_else(|| Some((gerund_of(self.w, at)?, at + 1)))
        })
    }

    fn is_setting_of_heat(&self) -> bool {
        const HEATS: [&str; 7] = ["heat", "temperature", "flame", "oven", "hob", "grill", "gas"];
        let end = (self.clause.verb_end + 5).min(self.clause.end);
        let names = (self.clause.verb_end..end).any(|at| HEATS.iter().any(|word| self.w.is(at, word)));
        // "Turn down and simmer", "turn to the lowest setting".
        let next = |words: &[&str]| words.iter().any(|word| self.w.is(self.clause.verb_end, word));
        let turn = self.clause.verb.is_some_and(|verb| verb.word == "turn");
        let alone = self.clause.end <= self.clause.verb_end + 2;
        names || turn && (next(&["down", "up"]) && alone || next(&["to"]) && self.says(&["low", "lowest", "high", "setting", "simmer"]))
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
        // "Get your oven going at 190 °C."
        if self.named.at == Some(OVEN)
            && act.heat.oven.is_some()
            && act.time.is_none()
            && self.clause.verb.is_some_and(|verb| verb.word == "get")
        {
            act.sets = true;
            act.takes = Takes::Preheat;
            act.heats = Some(Kind::Oven);
            return;
        }
        if act.time.is_some_and(|time| !time.day_before) {
            let ware = || self.of_ware().filter(|_| self.so.hot.is_some());
            let on =
                self.named.at.or(self.named.pan.then_some(HOB)).or(act.heat.oven.map(|_| OVEN)).or_else(ware).or_else(|| self.put_on());
            if on == Some(HOB) && self.is_stirred() {
                act.takes = Takes::Hands(self.worked(act));
                act.need = on;
                return;
            }
            let cold = self.says(&["fridge", "freezer", "refrigerator", "aside", "place"]) && self.named.at.is_none();
            let on = if cold { None } else { on.or(self.so.place.filter(|_| self.so.turned_down)) };
            return self.wait(act, on, 0);
        }
        act.takes = Takes::Hands(None);
        // "Pop a pan over a medium heat."
        act.need = self.named.at.filter(|on| *on == HOB);
        act.place = match (self.named.at, self.named.pan) {
            (Some(on), _) => Some(Some(on)),
            (None, true) => Some(Some(HOB)),
            _ if self.says(&["bowl", "board", "plate", "rack", "fridge", "jar", "blender", "processor"]) => Some(None),
            _ => None,
        };
    }

    /// "Put the potatoes on to boil": where that is done. What is added joins what is there already.
    fn put_on(&self) -> Option<On> {
        let to_do = (self.clause.verb_end..self.object_end()).find_map(|at| {
            let (verb, _) = verb_at(self.w, at + 1).filter(|_| self.w.is(at, "to"))?;
            if let Way::Wait(kind, _) = verb.way { Some(On::Kind(kind)) } else { None }
        });
        const JOINS: [&str; 7] = ["add", "return", "slide", "tip", "drop", "nestle", "throw"];
        let joins = self.clause.verb.is_some_and(|verb| JOINS.contains(&verb.word)) || self.w.is(self.clause.verb_end, "back");
        to_do.or(self.so.place.filter(|_| joins))
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
            act.turned_down = !act.off;
            act.heats = kind_of(act.place.flatten().or(self.named.at)).filter(|_| act.time.is_none() && !act.off);
            if act.time.is_some() && !act.off {
                let on = if act.sets { OVEN } else { self.heated(HOB) };
                self.wait(act, Some(on), 0);
            }
            return;
        }
        // "Fold every 30 minutes for 2 hours": a wait with few hands.
        let turns = every(self.w, self.clause.start, self.clause.end).zip(self.worked(act)).map(|(each, all)| (all / each).floor());
        if let Some(turns) = turns.filter(|turns| *turns >= 1.0) {
            let stays = matches!(verb.word, "stir" | "whisk" | "turn" | "baste" | "toss" | "shake" | "flip" | "skim" | "brush" | "glaze");
            self.wait(act, self.named.at.or(self.so.place.filter(|_| stays && !act.off)), 0);
            act.turns = turns;
            return;
        }
        // "Give it another 10 minutes"; "give it a stir" is work.
        const WORK: [&str; 10] = ["stir", "whisk", "blitz", "mix", "shake", "toss", "knead", "beat", "whizz", "rub"];
        if verb.word == "give" && act.time.is_some() && !self.says(&WORK) {
            return self.wait(act, self.named.at.or(self.so.place), 0);
        }
        // "Mix in a microwave bowl for 2 minutes" is rare; "melt", "toast" and "brown" in the oven are in hands_on.
        let heated = |on: On| on == HOB || on == On::Kind(Kind::Pressure) && self.says(&["heat", "sauté", "saute"]);
        let hot = self.named.at.filter(|on| heated(*on)).or_else(|| self.still_on_the_hob(verb, act));
        act.takes = Takes::Hands(self.worked(act));
        act.need = hot;
        act.place = self.named.at.map(Some).or(self.named.pan.then_some(Some(HOB)));
        if act.place.is_none() && self.says(&["bowl", "board", "blender", "processor", "dish", "tin"]) {
            act.place = Some(None);
        }
    }

    /// "Stir until it boils", "stir for 2 minutes" in what stands on the hob.
    fn still_on_the_hob(&self, verb: &Verb, act: &Act) -> Option<On> {
        const REACHES: [&str; 8] = ["boils", "boil", "boiling", "thickens", "thickened", "thick", "bubbling", "simmering"];
        let until = (self.object_end()..self.clause.end).any(|at| REACHES.iter().any(|word| self.w.is(at, word)));
        let stirs = matches!(verb.word, "stir" | "whisk" | "turn");
        let away = act.off || self.says(&["bowl", "board", "plate", "jug", "blender", "processor"]);
        self.so.place.filter(|on| *on == HOB && stirs && !away && (until || verb.word == "stir" && act.time.is_some()))
    }

    fn hands_on(&self, verb: &Verb, kind: Kind, act: &mut Act) {
        let named = self.named.at.filter(|on| *on != HOB);
        let still_in_oven = self.named.at.is_none()
            && !self.named.pan
            && verb.state
            && act.time.is_some()
            && self.so.own != Own::Nowhere
            && matches!(self.so.place, Some(On::Kind(Kind::Oven | Kind::Grill)));
        // "Toast the almonds on a baking tray for 8 minutes", where the oven is heated.
        let on_a_tray = self.of_ware().filter(|_| verb.state && self.so.hot.is_some() && act.time.is_some() && !self.named.pan);
        if let Some(on) = named.or(self.so.place.filter(|_| still_in_oven)).or(on_a_tray) {
            return self.wait(act, Some(on), 5);
        }
        let gentle = matches!(verb.word, "sweat" | "soften");
        let long = self.minutes(act).is_some_and(|minutes| minutes > 5.0);
        if (gentle && (long || self.is_covered()) || self.is_covered() && verb.state && verb.word != "brown") && !self.is_stirred() {
            return self.wait(act, Some(On::Kind(kind)), 8);
        }
        // "Set the pressure cooker to sauté. Melt the butter …".
        let open_cooker = self.so.place.filter(|on| *on == On::Kind(Kind::Pressure) && !self.so.pressed && !self.named.pan);
        let on = self.named.at.is_none().then_some(open_cooker).flatten().unwrap_or(On::Kind(kind));
        act.takes = Takes::Hands(self.worked(act));
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
        const SELDOM: [&str; 11] =
            ["intervals", "occasionally", "now", "once", "twice", "sometimes", "halfway", "from", "half", "every", "between"];
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
            act.takes = Takes::Hands(self.worked(act));
            act.need = Some(HOB);
            act.place = Some(Some(HOB));
            return;
        }
        let on = match self.named.at {
            Some(on) if !fixed || on != HOB => on,
            _ if fixed => On::Kind(kind),
            None if self.is_slow(act) => On::Kind(Kind::Slow),
            // "Cook at 220 °C": only an oven has degrees.
            None if matches!(verb.word, "cook" | "braise") && !self.named.pan && act.heat.oven.is_some() => OVEN,
            _ if matches!(verb.word, "cook" | "braise") => self.cooked(act),
            _ if verb.word == "steam" => self.heated(HOB),
            _ => HOB,
        };
        if on == HOB && self.is_stirred() {
            act.takes = Takes::Hands(self.worked(act));
            act.need = Some(on);
            act.place = Some(Some(on));
            return;
        }
        self.wait(act, Some(on), usual);
        if on == On::Kind(Kind::Pressure) && self.says(&["natural", "naturally"]) {
            self.add_release(act);
        }
    }

    /// "Cook at high pressure for 12 minutes with 10 minutes natural release": both are the cooker's.
    fn add_release(&self, act: &mut Act) {
        let both = times(self.w, self.clause.verb_end, self.clause.end);
        let (minutes, written) = match both.as_slice() {
            [first, second] => (first.high + second.high, true),
            _ => (self.minutes(act).unwrap_or(0.0) + NATURAL_RELEASE, false),
        };
        act.takes = Takes::Wait { minutes, written };
        act.doubtful &= both.len() != 2;
    }

    /// "Cook on low for 6 to 8 hours" where no appliance is named.
    fn is_slow(&self, act: &Act) -> bool {
        let long = act.time.is_some_and(|time| time.high >= 180.0);
        long && !self.named.pan
            && self.says(&["low", "high"])
            && !self.says(&["heat", "oven"])
            && (self.so.slow || self.so.place.is_none_or(|on| on == On::Kind(Kind::Slow)))
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
        // "Let the oven come to 200 °C."
        if self.named.at == Some(OVEN) && act.heat.oven.is_some() && act.time.is_none() {
            act.sets = true;
            act.place = Some(Some(OVEN));
            act.heats = Some(Kind::Oven);
            return;
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
                let cold = self.says(&["room", "fridge", "freezer", "refrigerator", "stand", "rest", "sit"]);
                let on =
                    self.named.at.filter(|_| !act.off && !self.says(&["room"])).or(self.so.place.filter(|_| self.so.turned_down && !cold));
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

fn kind_of(on: Option<On>) -> Option<Kind> {
    if let On::Kind(kind) = on? { Some(kind) } else { None }
}

/// The verb of "simmering", "frying", "baking".
fn gerund_of(w: &Words, at: usize) -> Option<&'static Verb> {
    inflected(&w.at(at)?.text.to_lowercase(), "ing")
}
