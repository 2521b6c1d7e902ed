//! What hands do: on the board, or at the hob.

use super::super::clauses::{MOMENTS, is_before_time, rests};
use super::super::clock::{every, times};
use super::super::places::Kind;
use super::super::verbs::{Verb, Way, inflected};
use super::reading::{HOB, OVEN, Reading};
use super::setting::kind_of;
use super::{Act, On, Takes, Ware};
use crate::kitchen::method::whereabouts::Own;
use crate::measure::Kind as Sign;

/// More minutes of one thing are a wait, unless it is [`LONG_WORK`]. Common practice, no source.
const MOST_WORK: f64 = 45.0;
const LONG_WORK: [&str; 10] = ["knead", "stir", "whisk", "beat", "chop", "peel", "pick", "shell", "make", "work"];

/// What goes on by itself for so long and longer: nobody holds the sieve. Common practice, no source.
const SETTLES_FROM: f64 = 20.0;
const SETTLES: [&str; 8] = ["drain", "strain", "press", "dry", "salt", "sieve", "weigh", "squash"];

/// Work of a moment: with so many minutes and more it stands. Common practice, no source.
const BRIEF_FROM: f64 = 10.0;
const BRIEF: [&str; 10] = ["sprinkle", "scatter", "season", "drizzle", "dust", "dot", "spray", "prick", "pierce", "pour"];

/// What is fried or browned is never left, with a lid on or without.
fn is_never_left(verb: &Verb) -> bool {
    verb.word.ends_with("fry") || matches!(verb.word, "brown" | "caramelise" | "caramelize" | "char" | "sear" | "deglaze")
}

impl Reading<'_> {
    /// What its time is for: "to cool for 20 minutes", "to prove".
    fn is_left_to_itself(&self, act: &Act) -> bool {
        const STANDS: [&str; 10] = ["cool", "prove", "rise", "chill", "rest", "stand", "set", "dry", "proof", "harden"];
        let (w, from) = (self.w, self.clause.verb_end);
        let to = act.time.filter(|time| !time.day_before).map_or(from, |time| time.start);
        (from..to).any(|at| w.is(at, "to") && STANDS.iter().any(|word| w.is(at + 1, word)))
    }

    /// What is heated for the time that is given: ", boiling it for 3 minutes".
    fn does_besides(&self, act: &Act) -> Option<(&'static Verb, Kind)> {
        let (w, time) = (self.w, act.time.filter(|time| !time.day_before && !time.overnight && !act.off)?);
        (self.clause.verb_end + 1..time.start).find_map(|at| {
            let comma = w.kind(at - 1) == Some(Sign::Comma);
            let verb = inflected(&w.at(at).filter(|_| comma)?.text.to_lowercase(), "ing")?;
            match verb.way {
                Way::Wait(kind, _) | Way::HandsOn(kind) => Some((verb, kind)),
                _ => None,
            }
        })
    }

    /// In or under what it names, for a time: "in the oven", not "over a low heat".
    fn works_by_itself(&self, on: On, act: &Act) -> bool {
        let (w, clause) = (self.w, self.clause);
        let closed = matches!(on, On::Kind(Kind::Oven | Kind::Grill | Kind::Microwave | Kind::Slow | Kind::Rice | Kind::Steamer));
        let at = self.named.at_token;
        let inside = (at.saturating_sub(3).max(clause.verb_end)..=at).any(|at| ["in", "into", "under"].iter().any(|word| w.is(at, word)));
        closed && inside && !act.off && self.worked(act).is_some()
    }

    /// "Turn, another 20 minutes", "brush with oil, then a further 10": the time is of what goes on, where it is.
    fn goes_on_after(&self, verb: &Verb, act: &Act) -> Option<On> {
        let (w, clause) = (self.w, self.clause);
        let time = act.time.filter(|_| MOMENTS.contains(&verb.word) && self.named.at.is_none() && !act.off && !rests(w, clause))?;
        let before = (clause.start..time.start).rev().find(|at| w.is(*at, "then") || !is_before_time(w, *at))?;
        let parted = matches!(w.kind(before), Some(Sign::Comma | Sign::Semicolon)) || w.is(before, "then");
        // On the hob "stir for 2 minutes, then 5" is stirring; "stir, then 5 minutes more" is none.
        let sentence = (0..clause.start).rev().find(|at| w.kind(*at) == Some(Sign::Stop)).map_or(0, |stop| stop + 1);
        let goes_on = (clause.goes_on() || time.further) && times(w, sentence, clause.start).is_empty();
        self.so.place.filter(|on| parted && (*on != HOB || goes_on))
    }

    /// "Drain in the fridge for 2 hours", "strain overnight".
    fn settles(&self, verb: &Verb, act: &Act) -> bool {
        let overnight = act.time.is_some_and(|time| time.overnight && self.w.is(time.start, "overnight"));
        let long = self.worked(act).is_some_and(|minutes| minutes >= SETTLES_FROM);
        SETTLES.contains(&verb.word) && (long || overnight) && !act.off && self.named.at.is_none_or(|on| on == HOB) && !self.says(&["heat"])
    }

    /// Is it a sentence that only says what is made, with another behind it in its paragraph that says how?
    fn says_what_is_made_next(&self, verb: &Verb, act: &Act) -> bool {
        const DISHES: [&str; 18] = [
            "sauce", "dressing", "topping", "filling", "pastry", "dough", "batter", "mash", "salad", "salsa", "gravy", "custard", "icing",
            "crumble", "stuffing", "marinade", "glaze", "base",
        ];
        let (w, clause) = (self.w, self.clause);
        let last = clause.end.saturating_sub(1);
        let stops = w.kind(clause.end).is_some_and(|sign| sign == Sign::Stop || sign == Sign::Colon) && clause.end + 1 < w.len();
        let short = clause.end <= clause.verb_end + 4;
        verb.word == "make" && act.time.is_none() && stops && short && DISHES.iter().any(|word| w.key_at(last) == *word)
    }

    /// "Stir occasionally.", "Turn once or twice.": how something cooks, and no work of its own.
    fn only_tells_how(&self, verb: &Verb, act: &Act) -> bool {
        #[rustfmt::skip]
        const HOW: [&str; 26] = [
            "occasionally", "from", "time", "to", "now", "and", "then", "again", "once", "or", "twice", "halfway", "through", "every", "so", "often", "sometimes", "regularly",
            "frequently", "the", "cooking", "a", "few", "times", "during", "it",
        ];
        let (w, clause) = (self.w, self.clause);
        // "Stir once so that it does not stick."
        let why = |at: &usize| w.is(*at, "so") && !w.is(at + 1, "often") || w.is(*at, "to") && w.is(at + 1, "prevent");
        let end = (clause.verb_end..clause.end).find(why).unwrap_or(clause.end);
        let words = (clause.verb_end..end).filter(|at| w.kind(*at) == Some(Sign::Word));
        let all = words.clone().all(|at| HOW.iter().any(|word| w.is(at, word)));
        // "Stir it" is work.
        let says = words.count() > 1 || self.says(&["once", "occasionally", "sometimes", "regularly", "frequently", "halfway"]);
        MOMENTS.contains(&verb.word) && act.time.is_none() && all && says && self.so.place.is_some()
    }

    pub(super) fn hands(&self, verb: &Verb, act: &mut Act) {
        if self.only_tells_how(verb, act) {
            return;
        }
        if act.off {
            act.place = Some(None);
        }
        // "Turn onto a rack" is work.
        let off = act.off && !self.says(&["rack", "onto", "out"]);
        let heat_is_object = verb.word == "turn" && (off || self.is_setting_of_heat() || act.heat.oven.is_some());
        if heat_is_object {
            act.sets = act.heat.oven.is_some();
            if act.sets && !act.off {
                act.place = Some(Some(On::Kind(Kind::Oven)));
            }
            act.turned_down = !act.off;
            self.sets_the_hob(act);
            act.heats = kind_of(act.place.flatten().or(self.named.at)).filter(|_| act.time.is_none() && !act.off);
            if act.time.is_some() && !act.off {
                let on = if act.sets { OVEN } else { self.heated(HOB) };
                self.wait(act, Some(on), 0);
            }
            return;
        }
        // "Meanwhile, make the white sauce. Melt the butter …": what is made is told next.
        if self.says_what_is_made_next(verb, act) {
            return;
        }
        // "Make a sauce with the butter and milk, boiling it for 3 minutes."
        if let Some((verb, kind)) = self.does_besides(act) {
            let on = self.named.at.unwrap_or(On::Kind(kind));
            if matches!(verb.way, Way::Wait(..)) && !self.is_stirred() {
                return self.wait(act, Some(on), 0);
            }
            (act.takes, act.need, act.place) = (Takes::Hands(self.worked(act)), Some(on), Some(Some(on)));
            return;
        }
        // "Turn out on a rack to cool, 20 minutes", "shape into rolls to prove for 40".
        if self.is_left_to_itself(act) && !act.off {
            return self.standing(None, act);
        }
        // "Fold every 30 minutes for 2 hours": a wait with few hands.
        let turns = every(self.w, self.clause.start, self.clause.end).zip(self.worked(act)).map(|(each, all)| (all / each).floor());
        if let Some(turns) = turns.filter(|turns| *turns >= 1.0) {
            let stays = matches!(verb.word, "stir" | "whisk" | "turn" | "baste" | "toss" | "shake" | "flip" | "skim" | "brush" | "glaze");
            self.wait(act, self.named.at.or(self.so.place.filter(|_| stays && !act.off)), 0);
            act.turns = turns;
            return;
        }
        // "Dry the slices in the oven for 6 hours."
        if let Some(on) = self.named.at.filter(|on| self.works_by_itself(*on, act)) {
            return self.wait(act, Some(on), 0);
        }
        if let Some(on) = self.goes_on_after(verb, act) {
            return if on == HOB { self.goes_on_where_it_was(act) } else { self.wait(act, Some(on), 0) };
        }
        if self.settles(verb, act) {
            // "Keep the oven at 50 °C and dry for 8 hours."
            let aired = self.says(&["rack", "towel", "cloth", "paper", "air", "sun", "fridge"]) || self.named.at.is_some();
            let heated = self.so.place.or(self.so.hot.filter(|_| self.so.ready));
            let in_the_oven = heated.filter(|on| *on == OVEN && verb.word == "dry" && !aired);
            return self.wait(act, in_the_oven, 0);
        }
        // "Wrap in a towel for 5 minutes", "salt in a colander for 20": a moment's work, and a wait.
        if matches!(verb.word, "wrap" | "salt") && self.worked(act).is_some() && self.named.at.is_none() {
            return self.wait(act, None, 0);
        }
        // "Give it another 10 minutes"; "give it a stir" is work.
        const WORK: [&str; 10] = ["stir", "whisk", "blitz", "mix", "shake", "toss", "knead", "beat", "whizz", "rub"];
        if verb.word == "give" && act.time.is_some() && !self.says(&WORK) {
            // "Give the beef a good 10 minutes in the hot oil."
            if self.named.at.is_none() && act.heat.oven.is_none() && self.is_for_the_hob() {
                (act.takes, act.need, act.place) = (Takes::Hands(self.worked(act)), Some(HOB), Some(Some(HOB)));
                return;
            }
            return self.wait(act, self.named.at.or(act.heat.oven.map(|_| OVEN)).or(self.so.place), 0);
        }
        // "Sprinkle with salt for 30 minutes": a moment's work, and a wait; told.
        if BRIEF.contains(&verb.word)
            && !self.is_stirred()
            && self.worked(act).is_some_and(|minutes| minutes >= BRIEF_FROM)
            && self.named.at.is_none()
        {
            act.unknown = true;
            return self.wait(act, None, 0);
        }
        // Nor in an oven that it names.
        if let Some(on) = self.named.at.filter(|on| *on != HOB && !act.off && self.worked(act).is_some_and(|minutes| minutes >= MOST_WORK))
        {
            act.unknown = true;
            return self.wait(act, Some(on), 0);
        }
        // So long nobody works: "coat and leave", and told.
        if self.worked(act).is_some_and(|minutes| minutes >= MOST_WORK) && !LONG_WORK.contains(&verb.word) && self.named.at.is_none() {
            act.unknown = true;
            return self.wait(act, None, 0);
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
    pub(super) fn still_on_the_hob(&self, verb: &Verb, act: &Act) -> Option<On> {
        const REACHES: [&str; 8] = ["boils", "boil", "boiling", "thickens", "thickened", "thick", "bubbling", "simmering"];
        let until = (self.object_end()..self.clause.end).any(|at| REACHES.iter().any(|word| self.w.is(at, word)));
        let stirs = matches!(verb.word, "stir" | "whisk" | "turn");
        let away = act.off || self.says(&["bowl", "board", "plate", "jug", "blender", "processor"]);
        self.so.place.filter(|on| *on == HOB && stirs && !away && (until || verb.word == "stir" && act.time.is_some()))
    }

    pub(super) fn hands_on(&self, verb: &Verb, kind: Kind, act: &mut Act) {
        if verb.word == "sweat" && self.sweats_off_the_heat() {
            return self.standing(Some(10), act);
        }
        let named = self.named.at.filter(|on| *on != HOB);
        let still_in_oven = self.named.at.is_none()
            && !self.named.pan
            && verb.state
            && act.time.is_some()
            && self.so.own != Own::Nowhere
            && matches!(self.so.place, Some(On::Kind(Kind::Oven | Kind::Grill)));
        // "Toast the almonds on a baking tray for 8 minutes", where the oven is heated.
        let on_a_tray = self.of_ware().filter(|_| {
            (self.named.ware == Some(Ware::Surely) || self.says(&["tray", "trays"]))
                && verb.state
                && self.so.hot.is_some()
                && act.time.is_some()
                && !self.named.pan
        });
        // "MICROWAVE: melt the butter for 1 minute."
        let microwave = self.so.labelled.filter(|on| *on == On::Kind(Kind::Microwave) && !self.named.pan);
        if let Some(on) = named.or(microwave).or(self.so.place.filter(|_| still_in_oven)).or(on_a_tray) {
            return self.wait(act, Some(on), 5);
        }
        // "Heat the oven to 200 °C. Crisp for 10 minutes": nothing else is for the oven; told.
        let spare = self.so.spare.filter(|on| *on != HOB && self.so.ready && verb.state && act.time.is_some());
        if let Some(on) =
            spare.filter(|_| self.named.at.is_none() && !self.named.pan && self.so.own == Own::Unsaid && !self.is_for_the_hob())
        {
            act.moved = true;
            return self.wait(act, Some(on), 5);
        }
        let gentle = matches!(verb.word, "sweat" | "soften");
        // Over a medium heat it would brown if nobody stirred.
        let long = self.minutes(act).is_some_and(|minutes| minutes > 5.0) && !self.is_over_more_than_low_heat();
        // "Sauté, covered, for 10 minutes"; "fry for 5 minutes, then for 10 minutes over a low heat, covered".
        let covered = self.is_covered();
        let left = covered && (!is_never_left(verb) || self.clause.goes_on());
        act.covered = covered && !left && act.time.is_some();
        if (gentle && long || left) && !self.is_stirred() {
            return self.wait(act, Some(On::Kind(kind)), 8);
        }
        // "Set the pressure cooker to sauté. Melt the butter …".
        let open_cooker = self.so.place.filter(|on| *on == On::Kind(Kind::Pressure) && !self.so.pressed && !self.named.pan);
        let on = self.named.at.is_none().then_some(open_cooker).flatten().unwrap_or(On::Kind(kind));
        act.takes = Takes::Hands(self.worked(act));
        act.need = Some(on);
        act.place = Some(Some(on));
    }

    /// "Lower the heat" when what stood on the hob was lifted out: the pan is there still.
    pub(super) fn sets_the_hob(&self, act: &mut Act) {
        let on_it = self.named.at.is_none_or(|on| on == HOB) && self.so.place.is_none() && self.so.was.is_none_or(|on| on == HOB);
        if on_it && !act.off && !act.sets && !self.so.switched_off && self.says(&["heat", "flame", "gas", "ring", "hob"]) {
            act.place = Some(Some(HOB));
        }
    }

    /// "Over a medium heat", "medium-high".
    fn is_over_more_than_low_heat(&self) -> bool {
        let low = self.says(&["low", "gentle", "gently", "slowly"]);
        self.says(&["medium", "moderate", "high"]) && self.says(&["heat", "flame", "hob"]) && !low
    }

    pub(super) fn is_covered(&self) -> bool {
        let lid = self.says(&["lid"]) && self.says(&["on", "with"]);
        self.says(&["covered"]) || lid
    }

    /// "Stirring constantly"; "stirring now and then" is none.
    pub(super) fn is_stirred(&self) -> bool {
        let (w, clause) = (self.w, self.clause);
        const SELDOM: [&str; 14] = [
            "towards",
            "toward",
            "end",
            "intervals",
            "occasionally",
            "now",
            "once",
            "twice",
            "sometimes",
            "halfway",
            "from",
            "half",
            "every",
            "between",
        ];
        let begins = (clause.start..clause.end).find(|at| ["stirring", "whisking", "beating"].iter().any(|word| w.is(*at, word)));
        begins.is_some_and(|at| {
            let seldom = (at + 1..clause.end.min(at + 5)).any(|place| SELDOM.iter().any(|word| w.is(place, word)));
            !(seldom || at > 0 && (SELDOM.iter().any(|word| w.is(at - 1, word)) || w.is(at - 1, "without")))
        })
    }
}
