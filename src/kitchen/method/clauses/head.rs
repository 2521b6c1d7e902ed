//! The verb of a clause: at its head, or after what stands in front of it.

use super::marks::is_while_you;
use super::{Names, verb_at};
use crate::kitchen::method::clock::time_at;
use crate::kitchen::method::verbs::{Verb, Way};
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

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
pub(super) const DETERMINERS: [&str; 18] = [
    "the", "a", "an", "it", "them", "your", "each", "this", "these", "some", "two", "both", "lightly", "thin", "thinly", "thick", "out", "flat",
];

/// After a state such as "until soft and": what makes "brown" a verb again.
pub(super) const AFTER_STATE: [&str; 15] =
    ["the", "a", "an", "it", "them", "your", "for", "over", "gently", "slowly", "another", "uncovered", "covered", "very", "briefly"];

pub(super) fn skips(w: &Words, at: usize) -> bool {
    let adverb =
        w.at(at).is_some_and(|token| token.kind == Sign::Word && token.text.len() > 4 && token.text.ends_with("ly") && !token.is("jelly"));
    adverb || BEFORE_A_VERB.iter().any(|word| w.is(at, word)) && (!w.is(at, "once") || w.is(at + 1, "again"))
}

/// The verb of a clause, and the place after it.
pub(super) fn head(w: &Words, start: usize, end: usize, opens: bool, names: &Names) -> Option<(&'static Verb, usize, usize)> {
    let is_food = names.begins;
    let mut at = start;
    loop {
        while at < end && (matches!(w.kind(at), Some(Sign::Comma | Sign::And | Sign::Colon | Sign::Semicolon | Sign::Dash)) || skips(w, at))
        {
            at += 1;
        }
        // "Next day boil for 10 minutes", "the following morning stir in the milk".
        let the = usize::from(w.is(at, "the"));
        let day = |at: usize| ["day", "morning", "evening"].iter().any(|word| w.is(at, word));
        let next = |at: usize| w.is(at, "next") || w.is(at, "following");
        if at > start && next(at - 1) && day(at) || next(at + the) && day(at + the + 1) {
            at += if next(at + the) { the + 2 } else { 1 };
            continue;
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
    if at > 0 && !opens && w.is(at, "or") && (w.kind(at + 1) == Some(Sign::Comma) || verb_at(w, at + 1).is_some()) {
        return head(w, at + 1, end, false, names);
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
        // "When it clicks off leave 10 minutes."
        let timed = matches!(verb.way, Way::Leave | Way::Stand(_)) && time_at(w, after, end).is_some();
        let object = OBJECTS.iter().any(|word| w.is(after, word)) || is_food(after) || timed;
        (!named && object).then_some((verb, place, after))
    })
}
