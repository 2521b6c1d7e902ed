//! How one clause fills its time: by its verb, or by what stands in the place of one.

use super::super::clauses::{Clause, verb_at};
use super::super::clock::{Time, checked_at, times};
use super::super::places::Kind;
use super::super::verbs::{Verb, Way, inflected, verb as known};
use super::{Act, Named, On, So, Takes};
use crate::kitchen::method::whereabouts::Own;
use crate::kitchen::words::Words;
use crate::measure::Celsius;

/// One clause, where it happens, and what those before it left.
pub(super) struct Reading<'a> {
    pub(super) w: &'a Words<'a>,
    pub(super) clause: &'a Clause,
    pub(super) named: &'a Named,
    pub(super) so: So,
}

/// Degrees in an oven with its light on, and in one that was switched off and cools: nothing bakes in either. Common practice, no source.
const PROVING: f64 = 30.0;
const SWITCHED_OFF: f64 = 50.0;

/// Minutes until the pressure is down by itself, where nobody wrote them. Common practice, no source.
const NATURAL_RELEASE: f64 = 15.0;
pub(super) const HOB: On = On::Kind(Kind::Hob);
pub(super) const OVEN: On = On::Kind(Kind::Oven);

impl Reading<'_> {
    pub(super) fn says(&self, words: &[&str]) -> bool {
        (self.clause.start..self.clause.end).any(|at| words.iter().any(|word| self.w.is(at, word)))
    }

    /// "Scatter with parsley to serve", "to serve, top with the yoghurt".
    pub(super) fn is_for_the_table(&self, verb: &Verb) -> bool {
        const LAST: [&str; 13] = [
            "scatter", "sprinkle", "drizzle", "top", "dollop", "dust", "finish", "dot", "decorate", "crumble", "spoon", "swirl", "squeeze",
        ];
        let (w, end) = (self.w, self.clause.end);
        if self.clause.to_serve {
            return matches!(verb.way, Way::Hands | Way::Put) && self.named.at.is_none();
        }
        LAST.contains(&verb.word) && end >= 2 && w.is(end - 1, "serve") && w.is(end - 2, "to")
    }

    /// "Bring to the table in its tin."
    fn goes_to_the_table(&self, verb: &Verb) -> bool {
        let (w, from) = (self.w, self.clause.verb_end);
        let table = |at: usize| w.is(at, "to") && (w.is(at + 1, "table") || w.is(at + 1, "the") && w.is(at + 2, "table"));
        matches!(verb.word, "bring" | "take" | "put") && (from..self.clause.end.min(from + 5)).any(table)
    }

    /// Before "until": what is done, not what is waited for.
    pub(super) fn object_end(&self) -> usize {
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
            _ if act.time.is_none() && self.goes_to_the_table(verb) => act.takes = Takes::Serve,
            _ if act.time.is_none() && self.is_for_the_table(verb) => act.takes = Takes::Serve,
            Way::Heat => self.heating(verb, act),
            Way::Set => self.setting(verb, act),
            Way::Put if verb.word == "seal" && self.seals_meat(act) => self.hands_on(known("sear").unwrap_or(verb), Kind::Hob, act),
            Way::Put if verb.word == "use" && self.used_for().is_some() => self.using(act),
            Way::Put => self.putting(act),
            Way::Hands => self.hands(verb, act),
            Way::HandsOn(kind) => self.hands_on(verb, kind, act),
            Way::Wait(kind, usual) => self.waiting(verb, kind, usual, act),
            // "Refrigerate up to 5 days": how long it may be kept.
            Way::Stand(_)
                if act.time.is_none() && self.says(&["up"]) && self.says(&["day", "days", "week", "weeks", "month", "months"]) => {}
            Way::Stand(usual) => self.standing_as(verb.word, usual, act),
            Way::Leave => self.leaving(act),
        }
    }

    /// "Seal on all sides", "seal the beef in hot oil for 5 minutes"; "seal the bag" is none.
    fn seals_meat(&self, act: &Act) -> bool {
        let closes =
            self.says(&["lid", "bag", "edge", "edges", "jar", "jars", "container", "packet", "parcel", "foil", "cooker", "overnight"]);
        !closes
            && (self.says(&["sides", "over", "oil", "butter", "heat"]) || self.named.pan || act.time.is_some_and(|time| time.high <= 15.0))
    }

    /// "Use half of the oil for frying the onions": what it is used for.
    fn used_for(&self) -> Option<&'static Verb> {
        (self.clause.verb_end..self.object_end()).find_map(|at| {
            let gerund = || inflected(&self.w.at(at + 1)?.text.to_lowercase(), "ing");
            let verb =
                if self.w.is(at, "for") { gerund() } else { verb_at(self.w, at + 1).filter(|_| self.w.is(at, "to")).map(|(verb, _)| verb) };
            verb.filter(|verb| matches!(verb.way, Way::HandsOn(_) | Way::Wait(..)))
        })
    }

    fn using(&self, act: &mut Act) {
        let Some(verb) = self.used_for() else { return };
        match verb.way {
            Way::HandsOn(kind) => self.hands_on(verb, kind, act),
            Way::Wait(kind, usual) => self.waiting(verb, kind, usual, act),
            _ => {}
        }
    }

    pub(super) fn minutes(&self, act: &Act) -> Option<f64> {
        act.time.map(|time| time.high)
    }

    /// Minutes of hands. "The night before, stir the oats" says when.
    pub(super) fn worked(&self, act: &Act) -> Option<f64> {
        act.time.filter(|time| !time.overnight && !time.day_before).map(|time| time.high)
    }

    pub(super) fn wait(&self, act: &mut Act, on: Option<On>, usual: i64) {
        let written = act.time.is_some_and(|time| !time.vague);
        let checked = || checked_at(self.w, self.clause.verb_end, self.clause.end).filter(|_| on.is_some()).unwrap_or(0.0);
        let minutes = self.minutes(act).unwrap_or_else(|| checked().max(usual as f64));
        act.takes = Takes::Wait { minutes, written };
        act.need = on;
        act.place = Some(on);
    }

    /// "Natural release for 10 minutes", "let the pressure release naturally"; a quick one takes nothing.
    pub(super) fn is_release(&self, act: &mut Act) -> bool {
        let falls = ["release", "pressure", "depressurise", "depressurize", "depressurising"];
        let pressure = self.says(&falls) && self.says(&["natural", "naturally", "itself", "own"]) || self.says(&["npr"]);
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

    pub(super) fn putting(&self, act: &mut Act) {
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
            && self.clause.verb.is_some_and(|verb| matches!(verb.word, "get" | "whack" | "stick" | "pop" | "put"))
            && (self.clause.verb.is_some_and(|verb| verb.word == "get") || self.named.at_token <= self.clause.verb_end + 1)
        {
            act.sets = true;
            act.takes = Takes::Preheat;
            act.heats = Some(Kind::Oven);
            return;
        }
        // "Stand in the pan for 5 minutes."
        if act.time.is_some() && self.clause.verb.is_some_and(|verb| verb.word == "stand in") {
            return self.standing(None, act);
        }
        if act.time.is_some_and(|time| !time.day_before) {
            let ware = || self.of_ware().filter(|_| self.so.hot.is_some());
            let on =
                self.named.at.or(self.named.pan.then_some(HOB)).or(act.heat.oven.map(|_| OVEN)).or_else(ware).or_else(|| self.put_on());
            // "Add the oil drop by drop, whisking all the while; this takes 10 minutes."
            if self.is_stirred() && on.is_none_or(|on| on == HOB) {
                let done = self.says(&["tender", "absorbed", "boils"]);
                act.takes = Takes::Hands(self.worked(act));
                act.need = on.or(self.so.place.filter(|on| *on == HOB)).or(done.then_some(HOB));
                act.place = act.need.map(Some);
                return;
            }
            // "Put it in a tin, cover with foil and forget about it for 5 hours", where the oven is heated.
            let covered = self.clause.verb.is_some_and(|verb| verb.word == "cover") && self.so.own == Own::InWare;
            let stands = self.says(&["rest", "stand", "cool", "chill", "leave", "marinate", "soak"]);
            let on = on.or(self.so.hot.filter(|_| covered && !stands));
            let cold = self.says(&["fridge", "freezer", "refrigerator", "aside", "place"]) && self.named.at.is_none();
            // "Take out the beans, 5 minutes more."
            let goes_on = self.so.turned_down || self.clause.goes_on() || act.time.is_some_and(|time| time.further);
            let on = if cold { None } else { on.or(self.so.place.filter(|_| goes_on)) };
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
    pub(super) fn put_on(&self) -> Option<On> {
        let to_do = (self.clause.verb_end..self.object_end()).find_map(|at| {
            let (verb, _) = verb_at(self.w, at + 1).filter(|_| self.w.is(at, "to"))?;
            if let Way::Wait(kind, _) = verb.way { Some(On::Kind(kind)) } else { None }
        });
        const JOINS: [&str; 8] = ["add", "return", "slide", "tip", "drop", "nestle", "throw", "uncover"];
        let joins = self.clause.verb.is_some_and(|verb| JOINS.contains(&verb.word)) || self.w.is(self.clause.verb_end, "back");
        // "Take it out, brush with oil and return for 5 minutes."
        let back = self.so.was.filter(|_| self.so.place.is_none() && self.clause.verb.is_some_and(|verb| verb.word == "return"));
        to_do.or(self.so.place.filter(|_| joins)).or(back)
    }

    pub(super) fn waiting(&self, verb: &Verb, kind: Kind, usual: i64, act: &mut Act) {
        let fixed =
            !matches!(verb.word, "cook" | "braise" | "steam" | "simmer" | "boil" | "bubble" | "stew" | "poach" | "blanch" | "parboil");
        if verb.word == "steam" && self.steams_off_the_heat() {
            return self.standing(Some(5), act);
        }
        let there = self.so.place.filter(|_| self.clause.goes_on() && !self.named.pan && act.heat.oven.is_none());
        let in_pan = self.named.in_pan || self.named.at.or(there) == Some(HOB);
        let dry_pan = matches!(verb.word, "roast" | "bake") && in_pan && act.heat.oven.is_none();
        if dry_pan && self.named.at != Some(On::Kind(Kind::Oven)) {
            act.takes = Takes::Hands(self.worked(act));
            act.need = Some(HOB);
            act.place = Some(Some(HOB));
            return;
        }
        let on = match self.named.at {
            Some(on) if !fixed || on != HOB => on,
            None if there.is_some() => there.unwrap_or(HOB),
            _ if fixed => On::Kind(kind),
            None if self.is_slow(act) => On::Kind(Kind::Slow),
            // "Cook at 220 °C": only an oven has degrees.
            None if matches!(verb.word, "cook" | "braise") && !self.named.pan && act.heat.oven.is_some() => OVEN,
            _ if matches!(verb.word, "cook" | "braise") => self.cooked(act),
            _ if verb.word == "steam" => self.heated(HOB),
            // "In the microwave: poach the fish": a pan of it stands on no hob.
            None if !self.named.pan => self.so.labelled.filter(|on| matches!(on, On::Kind(Kind::Microwave | Kind::Oven))).unwrap_or(HOB),
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
    pub(super) fn add_release(&self, act: &mut Act) {
        let all = times(self.w, self.clause.verb_end, self.clause.end);
        let release = all.iter().skip(1).position(|time| self.is_of_release(time)).map(|after_first| after_first + 1);
        let cooks = |index: &usize| Some(*index) != release && !all[*index].or;
        let cooked = (0..all.len()).filter(cooks).map(|index| all[index].high).fold(0.0, f64::max);
        // "20 minutes for medium ones, 30 minutes for large": the longest.
        let choice = (0..all.len()).filter(cooks).any(|index| (all[index].high - cooked).abs() > 1e-9);
        let minutes = cooked + release.map_or(NATURAL_RELEASE, |index| all[index].high);
        act.takes = Takes::Wait { minutes, written: release.is_some() && !choice };
        act.doubtful = choice;
    }

    /// "10 minutes natural release", "natural release for 10 minutes".
    fn is_of_release(&self, time: &Time) -> bool {
        let natural = |at: usize| ["natural", "naturally"].iter().any(|word| self.w.is(at, word));
        let sign = |at: usize| self.w.kind(at) != Some(crate::measure::Kind::Word);
        let next = (time.end..self.clause.end).take_while(|at| !sign(*at) && !self.w.is(*at, "for")).take(4).any(natural);
        next || (self.clause.verb_end..time.start).any(natural)
    }

    /// The cooker that the food is in, where it is left on.
    fn runs_on(&self) -> Option<On> {
        let (w, clause) = (self.w, self.clause);
        let on = (clause.verb_end..clause.end)
            .any(|at| w.is(at, "on") && ["low", "high", "medium", "warm"].iter().any(|word| w.is(at + 1, word)));
        self.so.cooker.map(On::Kind).filter(|cooker| on && self.named.at.is_none() && self.so.place == Some(*cooker))
    }

    /// "Cook on low for 6 to 8 hours" where no appliance is named.
    pub(super) fn is_slow(&self, act: &Act) -> bool {
        let long = act.time.is_some_and(|time| time.high >= 180.0);
        long && !self.named.pan
            && self.says(&["low", "high"])
            && !self.says(&["heat", "oven"])
            && (self.so.slow || self.so.place.is_none_or(|on| on == On::Kind(Kind::Slow)))
    }

    /// "Leave to cool", "cool slightly", "rest" without a time are words; on a rack or in cold water it cools for half an hour.
    pub(super) fn standing_as(&self, word: &str, usual: i64, act: &mut Act) {
        if act.time.is_none() && matches!(word, "cool" | "rest") && !self.says(&["rack", "water", "fridge"]) {
            act.takes = Takes::Stand;
            act.place = Some(None);
            return;
        }
        self.standing(Some(usual), act);
    }

    pub(super) fn standing(&self, usual: Option<i64>, act: &mut Act) {
        if act.time.is_none() && usual.is_none() {
            return;
        }
        act.until_needed = act.time.is_none() && self.stands_until_needed();
        // "Prove in a warm oven", "leave to cool in the oven with the door ajar": nothing else bakes in it meanwhile.
        let on = self.in_the_oven(act);
        self.wait(act, on, usual.unwrap_or(0));
    }

    /// "Chill until wanted", "until ready to serve".
    fn stands_until_needed(&self) -> bool {
        const NEEDED: [&str; 7] = ["needed", "wanted", "required", "serving", "using", "use", "ready"];
        let (w, end) = (self.w, self.clause.end);
        let until = |at: &usize| w.is(*at, "until") || w.is(*at, "till");
        (self.clause.verb_end..end)
            .find(until)
            .is_some_and(|at| (at + 1..end.min(at + 4)).any(|at| NEEDED.iter().any(|word| w.is(at, word))))
    }

    /// The oven in which something stands, and how warm it is then: as said, as for dough, or as an oven that was switched off.
    fn in_the_oven(&self, act: &mut Act) -> Option<On> {
        let (w, clause) = (self.w, self.clause);
        let at = self.named.at_token;
        let named = self.named.at == Some(OVEN)
            && (at.saturating_sub(4).max(clause.start)..at).any(|at| w.is(at, "in") || w.is(at, "inside"))
            && !self.says(&["while", "when", "before", "from", "near", "above", "beside", "next"]);
        let left_in_it = self.so.was == Some(OVEN)
            && self.so.place.is_none()
            && self.so.switched_off
            && (self.says(&["inside", "ajar"])
                || (clause.verb_end..clause.end).any(|at| w.is(at, "in") && (w.is(at + 1, "it") || w.is(at + 1, "there"))));
        if !(named || left_in_it) || act.off && !self.says(&["off"]) && !left_in_it {
            return None;
        }
        if act.heat.oven.is_none() {
            let dough = self.says(&["prove", "rise", "proof", "light", "proving", "rising", "double"]);
            act.heat.oven = Some(Celsius(if dough { PROVING } else { SWITCHED_OFF }));
            act.heat.guessed = true;
            act.assumed = !dough;
        }
        act.off = false;
        act.stands_in_it = true;
        Some(OVEN)
    }

    /// The verb inside "let it cool", "leave to prove", "continue to cook".
    pub(super) fn inner(&self) -> Option<(&'static Verb, usize)> {
        (self.clause.verb_end..self.object_end()).find_map(|at| {
            let (verb, end) = verb_at(self.w, at)?;
            matches!(verb.way, Way::Stand(_) | Way::Wait(..) | Way::HandsOn(_) | Way::Leave).then_some((verb, end))
        })
    }

    /// "Leave it ticking over for 15 minutes", "let it sit bubbling".
    fn goes_on_by_itself(&self) -> Option<(&'static Verb, usize)> {
        (self.clause.verb_end..self.object_end()).find_map(|at| {
            let verb = inflected(&self.w.at(at)?.text.to_lowercase(), "ing")?;
            matches!(verb.way, Way::Wait(..)).then_some((verb, at + 1))
        })
    }

    /// Does it stand to become so, on no heat?
    fn stands_to(&self, word: &str) -> bool {
        if !["soften", "melt", "thicken", "wilt", "crisp"].contains(&word) {
            return false;
        }
        const COLD: [&str; 9] = ["fridge", "freezer", "refrigerator", "room", "cold", "aside", "place", "overnight", "counter"];
        let hot = self.named.at.is_some() || self.named.pan || self.is_for_the_hob();
        let on_heat = self.so.place.is_some() && self.so.own != Own::Nowhere;
        self.says(&COLD) || !hot && !on_heat
    }

    pub(super) fn leaving(&self, act: &mut Act) {
        if act.off {
            return self.standing(None, act);
        }
        // "Allow 45 minutes at 190 °C."
        let waits_at = act.heat.oven.is_some() && act.time.is_some() && self.named.at.is_none_or(|on| on == OVEN);
        if waits_at && self.clause.verb.is_some_and(|verb| verb.word == "allow") && self.inner().is_none() {
            return self.wait(act, Some(OVEN), 0);
        }
        // "Let the oven come to 200 °C."
        if self.named.at == Some(OVEN) && act.heat.oven.is_some() && act.time.is_none() {
            act.sets = true;
            act.place = Some(Some(OVEN));
            act.heats = Some(Kind::Oven);
            return;
        }
        let own = self.clause.verb.is_some_and(|verb| !matches!(verb.word, "leave" | "let" | "allow" | "set aside"));
        let inner = if own { None } else { self.inner().or_else(|| self.goes_on_by_itself()) };
        match inner.map(|(verb, _)| verb.way) {
            Some(Way::Stand(usual)) => self.standing_as(inner.map_or("", |(verb, _)| verb.word), usual, act),
            // In their own steam: drained potatoes, charred peppers under a plate.
            Some(Way::Wait(..)) if inner.is_some_and(|(verb, _)| verb.word == "steam") && self.named.at.is_none() && !self.named.pan => {
                self.standing(Some(5), act);
            }
            Some(Way::Wait(kind, usual)) => self.wait(act, Some(self.heated(On::Kind(kind))), usual),
            Some(Way::HandsOn(_)) if inner.is_some_and(|(verb, _)| verb.word == "sweat") && self.sweats_off_the_heat() => {
                self.standing(Some(10), act);
            }
            // "Sprinkle with the salt and leave for 30 minutes to soften": what it is for, not what is done.
            Some(Way::HandsOn(_)) if act.time.is_some() && self.stands_to(inner.map_or("", |(verb, _)| verb.word)) => {
                self.standing(None, act);
            }
            Some(Way::HandsOn(kind)) if act.time.is_some() => self.wait(act, Some(self.heated(On::Kind(kind))), 5),
            // "Put the lid on and leave on low for 8 hours."
            _ if act.time.is_some() && self.runs_on().is_some() => self.wait(act, self.runs_on(), 0),
            _ if act.time.is_some() && self.in_the_oven(&mut { *act }).is_some() => self.standing(None, act),
            _ if act.time.is_some() => {
                let cold = self.says(&["room", "fridge", "freezer", "refrigerator", "stand", "rest", "sit", "cool", "alone"]);
                // "Let them blip away for 15 minutes" in what stands on the hob: planned there, and told.
                let lets = self.clause.verb.is_some_and(|verb| verb.word == "let") && self.so.place == Some(HOB) && self.named.at.is_none();
                if lets && !cold && !act.off && inner.is_none() {
                    act.unknown = true;
                    return self.wait(act, Some(HOB), 0);
                }
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
