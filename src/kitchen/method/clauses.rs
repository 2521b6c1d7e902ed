//! A paragraph cut into sentences, and sentences into clauses: at ";", at "then", and at "and" or "," before a verb of action.
//!
//! Knows words and verbs, and asks the caller whether a food begins at a place; knows neither times nor appliances.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::degrees::heat;
use super::verbs::{VERBS, Verb, Way, inflected};
use super::whereabouts::JOINS;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

mod cuts;
mod head;
mod marks;
mod sentences;

pub(super) use self::cuts::{MOMENTS, is_before_time, rests};
use self::cuts::{cuts, joined};
use self::head::head;
use self::marks::{hang_on, is_meanwhile, may_be_left_out, only_checks, suppose, tells_how_long, turns_meanwhile};
pub(super) use self::sentences::sentences;

/// Tokens of a paragraph that tell of one action.
#[derive(Clone, Copy)]
pub(super) struct Clause {
    pub start: usize,
    pub end: usize,
    pub verb: Option<&'static Verb>,
    /// Where the verb stands, and the token after it.
    pub verb_at: usize,
    pub verb_end: usize,
    /// Of the paragraph, from 0.
    pub sentence: usize,
    /// "Meanwhile", "while ...": beside the step before it.
    pub meanwhile: bool,
    /// Only for those who do it another way: "if using dried beans, …".
    pub supposed: bool,
    /// Whoever cooks may leave it out: "if you like, …", "optional: …".
    pub optional: bool,
    /// Done only where something turned out so: "if the sauce is thin", "unless they are soft".
    pub conditional: bool,
    /// In a sentence that begins with "to serve".
    pub to_serve: bool,
}

impl Clause {
    /// Its verb stands before it, in another clause: "simmer for 10 minutes, then for 5 more".
    pub fn goes_on(&self) -> bool {
        self.verb.is_some() && self.verb_at == self.verb_end
    }

    /// "While the peppers cool, chop the onion": what it begins with goes on beside what it says.
    pub fn opens_beside(&self, w: &Words) -> bool {
        ["while", "whilst", "when", "once", "as"].iter().any(|word| w.is(self.start, word))
    }

    /// "Do not boil for more than 5 minutes", "there is no need to soak for 8 hours". "Do not lift the lid for 10 minutes" is a wait.
    pub fn is_forbidden(&self, w: &Words) -> bool {
        let at = (self.start..self.end).find(|at| !["and", "but", "just", "please"].iter().any(|word| w.is(*at, word)));
        let Some(at) = at.filter(|at| w.kind(*at) == Some(Sign::Word)) else { return false };
        let is = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
        let there = at + 2 * usize::from(w.is(at, "there") && is(at + 1, &["is", "was"]));
        let no_need = w.is(there, "no") && w.is(there + 1, "need")
            || is(at, &["you", "they", "it"]) && is(at + 1, &["need", "do", "does"]) && w.is(at + 2, "not");
        let after = match () {
            () if is(at, &["do", "does", "should", "must"]) && w.is(at + 1, "not") => at + 2,
            () if is(at, &["don't", "don’t", "never"]) => at + 1,
            () => return no_need,
        };
        // "Do not cook from frozen; roast …": the clause goes on with what is done.
        if self.verb.is_some() && self.verb_at > after {
            return false;
        }
        let beyond = (after..self.end)
            .any(|at| is(at, &["more", "longer", "over", "beyond"]) && (is(at + 1, &["than"]) || is(at, &["over", "beyond"])));
        let cooks = verb_at(w, after).is_some_and(|(verb, _)| matches!(verb.way, Way::Wait(..) | Way::HandsOn(_) | Way::Stand(_)));
        cooks || beyond
    }

    /// Before "keeping them warm in a low oven": what is done with what is ready, beside it all.
    pub fn own_end(&self, w: &Words) -> usize {
        let kept = |at: usize| w.is(at, "keeping") && (at + 1..(at + 5).min(self.end)).any(|at| w.is(at, "warm") || w.is(at, "hot"));
        (self.verb_end..self.end).find(|at| kept(*at)).unwrap_or(self.end)
    }

    /// "Cook for 3 hours, adding the carrots for the last": where what is brought to it begins.
    pub fn brings_from(&self, w: &Words) -> usize {
        let brings = |at: usize| {
            let word = w.at(at).filter(|token| token.kind == Sign::Word).map(|token| token.text.to_lowercase());
            at > self.verb_end && word.and_then(|word| inflected(&word, "ing")).is_some_and(|verb| JOINS.contains(&verb.word))
        };
        (self.verb_end..self.end).find(|at| brings(*at)).unwrap_or(self.end)
    }
}

/// A verb's words, and the verb.
type Phrase = (Vec<&'static str>, &'static Verb);

static BY_FIRST: LazyLock<HashMap<&'static str, Vec<Phrase>>> = LazyLock::new(|| {
    let mut by_first: HashMap<&str, Vec<(Vec<&str>, &Verb)>> = HashMap::new();
    for verb in VERBS {
        let words: Vec<&str> = verb.word.split([' ', '-']).collect();
        by_first.entry(words[0]).or_default().push((words, verb));
    }
    for rows in by_first.values_mut() {
        rows.sort_by_key(|(words, _)| std::cmp::Reverse(words.len()));
    }
    by_first
});

/// Verbs that are parts of food or of its kitchen, too.
const NOUNS_TOO: [&str; 8] = ["skin", "bone", "string", "portion", "scale", "label", "push", "load"];

/// The verb that begins at a place, and the place after it.
pub(super) fn verb_at(w: &Words, at: usize) -> Option<(&'static Verb, usize)> {
    let first = w.at(at).filter(|token| token.kind == Sign::Word)?.text.to_lowercase();
    let rows = BY_FIRST.get(first.as_str())?;
    rows.iter().find_map(|(words, verb)| {
        let mut end = at + 1;
        for word in &words[1..] {
            if w.is_hyphen(end) {
                end += 1;
            }
            if w.at(end).is_none_or(|token| token.text.to_lowercase() != *word) {
                return None;
            }
            end += 1;
        }
        // "Core 75 °C", "core temp must reach 75 °C" is how hot it is inside.
        let is_core = |at: usize| ["temp", "temps", "temperature"].iter().any(|word| w.is(at, word));
        let is_figure = verb.word == "core" && (is_core(end) || heat(w, end, (end + 4).min(w.len()), false, true).oven.is_some());
        // "Skin on", "skin and all", "bone in", "round the edges": how it is, and no work.
        let says = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
        let is_how = NOUNS_TOO.contains(&verb.word)
            && (says(end, &["on", "off", "up", "down", "in", "out", "about", "side"])
                || w.is(end + 1, "all")
                || w.is(end + 1, "bone") && w.is(end, "and") && at > 0)
            || verb.word == "round" && says(end, &["the", "a", "it", "them"])
            || verb.word == "thin" && !says(end, &["with", "the", "it", "to", "down", "out"]);
        // "Roast-in-the-bag", "brown-skinned": no verb.
        // "Cut side down", "brown side up": how it lies.
        (!is_figure && !is_how && !w.is_hyphen(end) && !["of", "side", "sides"].iter().any(|word| w.is(end, word))).then_some((*verb, end))
    })
}

/// What is known of foods' names at a place.
pub(super) struct Names<'a> {
    /// The name of a food begins there.
    pub begins: &'a dyn Fn(usize) -> bool,
    /// The whole name of an ingredient stands there, in several words: "brown sugar".
    pub whole: &'a dyn Fn(usize) -> bool,
}

/// Cuts a paragraph.
pub(super) fn clauses(w: &Words, names: &Names) -> Vec<Clause> {
    let mut all: Vec<Clause> = Vec::new();
    for (number, (start, end)) in sentences(w).into_iter().enumerate() {
        let cuts = cuts(w, start, end, names.begins);
        let to_serve =
            w.is(start, "to") && w.is(start + 1, "serve") || w.is(start, "at") && w.is(start + 1, "the") && w.is(start + 2, "table");
        let mut found: Vec<Clause> = Vec::new();
        for (index, from) in cuts.iter().enumerate() {
            let to = cuts.get(index + 1).copied().unwrap_or(end);
            let head = head(w, *from, to, index == 0, names);
            let (verb, verb_at, verb_end) = head.map_or((None, *from, *from), |(verb, at, after)| (Some(verb), at, after));
            found.push(Clause {
                start: *from,
                end: to,
                verb,
                verb_at,
                verb_end,
                sentence: number,
                meanwhile: false,
                supposed: false,
                optional: false,
                conditional: false,
                to_serve,
            });
        }
        let mut found = joined(w, found);
        for (index, clause) in found.iter_mut().enumerate() {
            clause.meanwhile = if index == 0 { is_meanwhile(w, start, end) } else { turns_meanwhile(w, clause) };
        }
        suppose(w, start, &mut found);
        may_be_left_out(w, start, end, &mut found);
        hang_on(w, &mut found);
        for clause in found {
            match all.last_mut() {
                // "If using dried beans, soak them and boil for 1 hour": the boiling hangs on it too.
                Some(before) if clause.supposed && before.supposed && before.sentence == clause.sentence => before.end = clause.end,
                Some(before) if tells_how_long(w, &clause, before) || only_checks(w, &clause, before) => before.end = clause.end,
                _ => all.push(clause),
            }
        }
    }
    all
}

#[cfg(test)]
mod tests;
