//! A paragraph cut into sentences, and sentences into clauses: at ";", at "then", and at "and" or "," before a verb of action.
//!
//! Knows words and verbs, and asks the caller whether a food begins at a place; knows neither times nor appliances.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::verbs::{VERBS, Verb, inflected};
use super::whereabouts::JOINS;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

mod sentences;

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
    /// In a sentence that begins with "to serve".
    pub to_serve: bool,
}

impl Clause {
    /// "While the peppers cool, chop the onion": what it begins with goes on beside what it says.
    pub fn opens_beside(&self, w: &Words) -> bool {
        ["while", "whilst", "when", "once", "as"].iter().any(|word| w.is(self.start, word))
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
        // "Roast-in-the-bag", "brown-skinned": no verb.
        // "Cut side down", "brown side up": how it lies.
        (!w.is_hyphen(end) && !["of", "side", "sides"].iter().any(|word| w.is(end, word))).then_some((*verb, end))
    })
}

const BEFORE_A_VERB: [&str; 17] = [
    "and",
    "but",
    "then",
    "now",
    "next",
    "finally",
    "lastly",
    "first",
    "firstly",
    "again",
    "also",
    "please",
    "meanwhile",
    "just",
    "once",
    "well",
    "otherwise",
];
const FRONTED: [&str; 24] = [
    "in",
    "on",
    "over",
    "using",
    "with",
    "for",
    "at",
    "from",
    "to",
    "into",
    "when",
    "while",
    "whilst",
    "after",
    "as",
    "if",
    "before",
    "by",
    "until",
    "during",
    "once",
    "meanwhile",
    "working",
    "without",
];
const OBJECTS: [&str; 20] = [
    "the",
    "a",
    "an",
    "it",
    "them",
    "your",
    "each",
    "all",
    "both",
    "together",
    "everything",
    "this",
    "these",
    "some",
    "half",
    "any",
    "in",
    "over",
    "well",
    "for",
];
/// What makes a food's name a verb: "butter the tin".
#[rustfmt::skip]
const DETERMINERS: [&str; 18] = [
    "the", "a", "an", "it", "them", "your", "each", "this", "these", "some", "two", "both", "lightly", "thin", "thinly", "thick", "out", "flat",
];
/// After a state such as "until soft and": what makes "brown" a verb again.
const AFTER_STATE: [&str; 15] =
    ["the", "a", "an", "it", "them", "your", "for", "over", "gently", "slowly", "another", "uncovered", "covered", "very", "briefly"];

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
                to_serve,
            });
        }
        let mut found = joined(w, found);
        for (index, clause) in found.iter_mut().enumerate() {
            clause.meanwhile = if index == 0 { is_meanwhile(w, start, end) } else { turns_meanwhile(w, clause) };
        }
        suppose(w, start, &mut found);
        may_be_left_out(w, start, end, &mut found);
        for clause in found {
            match all.last_mut() {
                // "If using dried beans, soak them and boil for 1 hour": the boiling hangs on it too.
                Some(before) if clause.supposed && before.supposed && before.sentence == clause.sentence => before.end = clause.end,
                Some(before) if tells_how_long(w, &clause, before) => before.end = clause.end,
                _ => all.push(clause),
            }
        }
    }
    all
}

/// Marks what is only done by those who do it another way: all of the sentence after "if using …", until "otherwise"; or the one clause
/// whose time is followed by it: "soak overnight if using dried beans".
fn suppose(w: &Words, start: usize, found: &mut [Clause]) {
    let is_word = |at: &usize| w.kind(*at) == Some(Sign::Word) && !["and", "or", "but"].iter().any(|word| w.is(*at, word));
    let mut supposed = (start..start + 3).find(is_word).is_some_and(|at| is_other_way(w, at));
    for clause in found {
        const ELSE: [&str; 3] = ["otherwise", "else", "if"];
        let turns = (clause.start..clause.end.min(clause.start + 3))
            .any(|at| at > start + 1 && ELSE.iter().any(|word| w.is(at, word)) && !is_other_way(w, at));
        supposed &= !turns;
        let times = super::clock::times(w, clause.verb_end, clause.end);
        let after_time = matches!(times.as_slice(), [time] if is_other_way(w, time.end) && w.kind(time.end + 2) == Some(Sign::Word)
            && !w.is(time.end + 1, "you"));
        clause.supposed = supposed || after_time;
    }
}

/// Marks what may be left out: all of a sentence that opens with "if you like", "optional:" or "alternatively", or the one clause that ends so.
fn may_be_left_out(w: &Words, start: usize, end: usize, found: &mut [Clause]) {
    let first = (start..end).find(|at| w.kind(*at) == Some(Sign::Word)).unwrap_or(start);
    let another = ["alternatively", "alternately", "optionally"].iter().any(|word| w.is(first, word));
    let labelled = w.is(first, "optional") && matches!(w.kind(first + 1), Some(Sign::Colon | Sign::Dash | Sign::Close | Sign::Comma));
    let or = w.is(first, "or") && verb_at(w, first + 1).is_some();
    let liked = if_liked(w, first).is_some_and(|after| w.kind(after) == Some(Sign::Comma));
    let all = another || labelled || or || liked;
    for clause in found {
        clause.optional = all || ends_as_liked(w, clause);
    }
}

/// "If you like", "if desired", and the place after it.
fn if_liked(w: &Words, at: usize) -> Option<usize> {
    const LIKES: [&str; 5] = ["like", "wish", "prefer", "want", "fancy"];
    const LIKED: [&str; 4] = ["liked", "desired", "wished", "wanted"];
    let is = |place: usize, words: &[&str]| words.iter().any(|word| w.is(place, word));
    match () {
        () if !w.is(at, "if") => None,
        () if w.is(at + 1, "you") && is(at + 2, &LIKES) => Some(at + 3),
        () if is(at + 1, &LIKED) => Some(at + 2),
        () => None,
    }
}

/// "Grill for 3 minutes, if you like"; "with the lid on, if you like" and "or longer, if you like" say it of how it is done.
fn ends_as_liked(w: &Words, clause: &Clause) -> bool {
    const OF_HOW: [&str; 8] = ["or", "with", "without", "more", "longer", "less", "covered", "uncovered"];
    let said = |at: usize| if_liked(w, at).is_some_and(|after| after == clause.end);
    let bracket = |at: usize| w.kind(at) == Some(Sign::Open) && w.is(at + 1, "optional") && at + 3 == clause.end;
    let at = (clause.verb_end..clause.end).find(|at| said(*at) || bracket(*at));
    at.is_some_and(|at| {
        let how =
            |place: usize| OF_HOW.iter().any(|word| w.is(place, word)) || w.at(place).is_some_and(|token| token.text.ends_with("ing"));
        !(clause.verb_end..at).any(how)
    })
}

/// "If using", "if you are making", "if you have a steamer": one way of several, and "if you have time" is none.
fn is_other_way(w: &Words, at: usize) -> bool {
    const DOES: [&str; 8] = ["use", "have", "make", "cook", "bake", "own", "freeze", "choose"];
    let gerund = |at: usize| {
        let text = w.at(at).filter(|token| token.kind == Sign::Word).map(|token| token.text.to_lowercase());
        text.is_some_and(|text| text.len() > 4 && text.ends_with("ing") && !text.ends_with("thing"))
    };
    let of = at + 1 + usize::from(w.is(at + 1, "not"));
    let are = w.is(of, "you") && w.is(of + 1, "are");
    let you_are = are || w.is(of, "you're") || w.is(of, "you’re");
    let does = w.is(of, "you") && DOES.iter().any(|word| w.is(of + 1, word)) && !(of + 2..of + 5).any(|at| w.is(at, "time"));
    w.is(at, "if") && (gerund(of) || you_are && gerund(of + 1 + usize::from(are)) || does)
}

/// "This will take about 10 minutes": the time of the clause before it, where that has none.
fn tells_how_long(w: &Words, clause: &Clause, before: &Clause) -> bool {
    const BETWEEN: [&str; 8] = ["will", "should", "can", "may", "might", "usually", "only", "ought"];
    let begins = ["this", "it", "that", "they", "which"].iter().any(|word| w.is(clause.start, word));
    let mut at = clause.start + 1;
    while BETWEEN.iter().any(|word| w.is(at, word)) || w.is(at, "to") {
        at += 1;
    }
    let takes = ["take", "takes", "need", "needs"].iter().any(|word| w.is(at, word));
    let own = |clause: &Clause| !super::clock::times(w, clause.start, clause.end).is_empty();
    begins && takes && clause.verb.is_none() && before.verb.is_some() && own(clause) && !own(before)
}

/// "…, meanwhile fry the onion", "… while you fry the onion": beside what the sentence began with.
fn turns_meanwhile(w: &Words, clause: &Clause) -> bool {
    let words = (clause.start..clause.end).find(|at| w.kind(*at) == Some(Sign::Word) && !w.is(*at, "and") && !w.is(*at, "but"));
    words
        .is_some_and(|at| w.is(at, "meanwhile") || w.is(at, "in") && w.is(at + 1, "the") && w.is(at + 2, "meantime") || is_while_you(w, at))
}

fn is_while_you(w: &Words, at: usize) -> bool {
    (w.is(at, "while") || w.is(at, "whilst")) && w.is(at + 1, "you")
}

/// Where the clauses of one sentence begin.
fn cuts(w: &Words, start: usize, end: usize, is_food: &dyn Fn(usize) -> bool) -> Vec<usize> {
    let mut cuts = vec![start];
    // What the sentence is inside of: nothing, "until ...", or "when ..." before its comma.
    let mut until = false;
    let mut when = ["when", "once", "if", "as", "while", "whilst", "after"].iter().any(|word| w.is(start, word));
    let mut depth = 0usize;
    // "Cook and stir" is one verb.
    let mut at = verb_at(w, start).map_or(start, |(_, after)| after - 1);
    while at < end {
        match w.kind(at) {
            Some(Sign::Open) => depth += 1,
            Some(Sign::Close) => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > 0 || at == start {
            at += 1;
            continue;
        }
        // "Simmer 1:15."
        let within_figure = w.kind(at) == Some(Sign::Colon)
            && w.kind(at - 1) == Some(Sign::Number)
            && w.at(at + 1).is_some_and(|next| next.kind == Sign::Number && !next.spaced);
        if matches!(w.kind(at), Some(Sign::Semicolon | Sign::Colon)) && !within_figure {
            cuts.push(at + 1);
            (until, when) = (false, false);
            at += 1;
            continue;
        }
        if ["until", "till", "so"].iter().any(|word| w.is(at, word)) {
            until = true;
        }
        if let (true, Some((_, after))) = (is_while_you(w, at), verb_at(w, at + 2)) {
            cuts.push(at);
            until = false;
            at = after;
            continue;
        }
        let comma = w.kind(at) == Some(Sign::Comma);
        let dash =
            w.kind(at) == Some(Sign::Dash) && w.at(at).is_some_and(|token| token.spaced) && w.at(at + 1).is_some_and(|next| next.spaced);
        let and = w.kind(at) == Some(Sign::And) || w.is(at, "and") || w.is(at, "but");
        // "Stirring now and then" tells how, not what next.
        let seldom =
            |place: usize| (w.is(place, "then") || w.is(place, "again")) && place >= 2 && w.is(place - 1, "and") && w.is(place - 2, "now");
        let then = w.is(at, "then") && !seldom(at);
        if comma || dash {
            when = false;
        }
        if !(comma || dash || and || then) || (when && !comma) || and && seldom(at + 1) {
            at += 1;
            continue;
        }
        let mut next = at + 1;
        let mut says_then = then;
        while next < end && (w.kind(next) == Some(Sign::Comma) || skips(w, next)) {
            says_then |= w.is(next, "then");
            next += 1;
        }
        let verb = verb_at(w, next).filter(|_| next < end);
        let takes = verb.is_some_and(|(verb, after)| {
            let object = |words: &[&str]| words.iter().any(|word| w.is(after, word));
            let state = until && verb.state && !says_then && !object(&AFTER_STATE);
            let food =
                is_food(next) && !DETERMINERS.iter().any(|word| w.is(after, word)) && !w.at(after).is_some_and(|token| token.is_number());
            let apposition = comma && is_apposition(w, next, after, end);
            !(state || food || apposition)
        });
        if takes || says_then {
            cuts.push(at);
            until = false;
            at = verb.map_or(next, |(_, after)| after).max(at + 1);
            continue;
        }
        at += 1;
    }
    cuts.dedup();
    cuts
}

/// "Roast the carrots, cut into batons, for 30 minutes": how they are by now.
fn is_apposition(w: &Words, verb: usize, after: usize, end: usize) -> bool {
    const GOES_ON: [&str; 8] = ["for", "at", "in", "on", "over", "under", "until", "with"];
    let cut = w.is(verb, "cut")
        && ["into", "in", "lengthways", "lengthwise", "crossways", "thinly", "thickly"].iter().any(|word| w.is(after, word));
    let comma = (after..end).find(|at| w.kind(*at) == Some(Sign::Comma));
    cut && comma.is_some_and(|comma| GOES_ON.iter().any(|word| w.is(comma + 1, word)))
}

fn skips(w: &Words, at: usize) -> bool {
    let adverb =
        w.at(at).is_some_and(|token| token.kind == Sign::Word && token.text.len() > 4 && token.text.ends_with("ly") && !token.is("jelly"));
    adverb || BEFORE_A_VERB.iter().any(|word| w.is(at, word)) && (!w.is(at, "once") || w.is(at + 1, "again"))
}

/// The verb of a clause, and the place after it.
fn head(w: &Words, start: usize, end: usize, opens: bool, names: &Names) -> Option<(&'static Verb, usize, usize)> {
    let is_food = names.begins;
    let mut at = start;
    loop {
        while at < end && (matches!(w.kind(at), Some(Sign::Comma | Sign::And | Sign::Colon | Sign::Semicolon | Sign::Dash)) || skips(w, at))
        {
            at += 1;
        }
        // "In the meantime", "at the same time".
        if w.is(at, "in") && w.is(at + 1, "the") && (w.is(at + 2, "meantime") || w.is(at + 2, "meanwhile")) {
            at += 3;
            continue;
        }
        if at > start && is_while_you(w, at) || at == start && !opens && is_while_you(w, at) {
            at += 2;
            continue;
        }
        break;
    }
    if at >= end {
        return None;
    }
    if let Some((verb, after)) = verb_at(w, at) {
        // "Mince is fried for 10 minutes", "brown sugar goes on top".
        let is_told_of = ["is", "are", "goes", "go", "should", "must", "will"].iter().any(|word| w.is(after, word));
        if is_told_of && is_food(at) || opens && (names.whole)(at) {
            return None;
        }
        // "Flour, baking powder and salt in a bowl" lists foods; "peel, core and slice" does not.
        let lists = w.kind(after) == Some(Sign::Comma) && is_food(after + 1) && verb_at(w, after + 1).is_none();
        let is_name = (!opens || lists) && is_food(at) && !DETERMINERS.iter().any(|word| w.is(after, word));
        return (!is_name).then_some((verb, at, after));
    }
    if !FRONTED.iter().any(|word| w.is(at, word)) {
        return None;
    }
    let comma = (at..end).find(|place| w.kind(*place) == Some(Sign::Comma));
    if let Some(found) = comma.and_then(|comma| head(w, comma + 1, end, false, names)) {
        return Some(found);
    }
    const BEFORE: [&str; 9] = ["the", "a", "an", "your", "to", "and", "of", "or", "in"];
    (at + 2..end).find_map(|place| {
        let (verb, after) = verb_at(w, place)?;
        let named = BEFORE.iter().any(|word| w.is(place - 1, word)) || is_food(place);
        let object = OBJECTS.iter().any(|word| w.is(after, word)) || is_food(after);
        (!named && object).then_some((verb, place, after))
    })
}

/// "Meanwhile", "while the pasta cooks", "in the meantime", at the beginning of a sentence.
fn is_meanwhile(w: &Words, start: usize, end: usize) -> bool {
    let at =
        (start..end.min(start + 2)).find(|at| !matches!(w.kind(*at), Some(Sign::And | Sign::Comma)) && !w.is(*at, "and")).unwrap_or(start);
    let is = |words: &[&str]| words.iter().enumerate().all(|(index, word)| w.is(at + index, word));
    is(&["meanwhile"])
        || is(&["while"])
        || is(&["whilst"])
        || is(&["in", "the", "meantime"])
        || is(&["at", "the", "same", "time"])
        || (at..end.min(at + 4)).any(|place| w.is(place, "meanwhile"))
}

/// A clause without a verb belongs to the one after it where it opens the sentence, else to the one before it. What "then" leads keeps the
/// verb before it where a time is given: "fry for 2 minutes, then for 3 more".
fn joined(w: &Words, found: Vec<Clause>) -> Vec<Clause> {
    let mut kept: Vec<Clause> = Vec::new();
    let mut lead: Option<usize> = None;
    let count = found.len();
    for (index, mut clause) in found.into_iter().enumerate() {
        if let Some(start) = lead.take() {
            clause.start = start;
        }
        if clause.verb.is_some() {
            kept.push(clause);
            continue;
        }
        let then = (clause.start..clause.end.min(clause.start + 3)).any(|at| w.is(at, "then"));
        let timed = !super::clock::times(w, clause.start, clause.end).is_empty();
        match kept.last_mut() {
            Some(before) if then && timed => {
                let verb = before.verb;
                kept.push(Clause { verb, verb_at: clause.start, verb_end: clause.start, ..clause });
            }
            Some(before) => before.end = clause.end,
            // "Full power, 3 minutes; stand 2 minutes" tells two things.
            None if index + 1 < count && !(timed && w.kind(clause.end - 1) == Some(Sign::Semicolon)) => lead = Some(clause.start),
            None => kept.push(clause),
        }
    }
    kept
}

#[cfg(test)]
mod tests;
