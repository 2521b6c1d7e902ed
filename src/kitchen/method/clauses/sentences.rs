//! A paragraph cut into sentences, without their numbering.

use super::verb_at;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// Past "1.", "2)", "(3)", "a)", "Step 3:", "STEP TWO:", "Step 4 –", "4 Fry" and bullets, at the beginning of a sentence.
pub(super) fn past_numbering(w: &Words, from: usize, end: usize) -> usize {
    let mut at = from;
    while at < end && matches!(w.kind(at), Some(Sign::Dash | Sign::Other | Sign::Times)) {
        at += 1;
    }
    let step = w.is(at, "step");
    let open = usize::from(w.kind(at) == Some(Sign::Open));
    let number = at + usize::from(step) + open;
    let counted = w.number(number).ok().flatten().filter(|read| read.end == number + 1).is_some();
    let figure = w.kind(number) == Some(Sign::Number);
    // "a)", "(ii)".
    let letter = w.at(number).is_some_and(|token| {
        let low = token.text.to_lowercase();
        token.kind == Sign::Word && (low.len() == 1 || low.chars().all(|letter| matches!(letter, 'i' | 'v' | 'x')))
    });
    match w.kind(number + 1) {
        Some(Sign::Close) if figure || letter => number + 2,
        Some(Sign::Stop | Sign::Colon) if figure || step && counted => number + 2,
        Some(Sign::Dash) if step && counted => number + 2,
        _ if step && counted => number + 1,
        // "4 Fry for 5 minutes": a verb with a capital, and no food that is counted.
        _ if figure && open == 0 && from == 0 && is_capital(w, number + 1) && verb_at(w, number + 1).is_some() => number + 1,
        _ if open == 1 || step => from,
        _ => at,
    }
}

pub(super) fn is_capital(w: &Words, at: usize) -> bool {
    w.at(at).is_some_and(|token| token.text.starts_with(char::is_uppercase))
}

/// The stop of "1 hr. 15 min.", "approx. 60 min".
fn is_abbreviated(w: &Words, at: usize) -> bool {
    let before = |words: &[&str]| at > 0 && words.iter().any(|word| w.is(at - 1, word));
    let minutes = w.kind(at + 1) == Some(Sign::Number) && ["min", "mins", "minutes"].iter().any(|word| w.is(at + 2, word));
    before(&["hr", "hrs"]) && minutes || before(&["approx", "ca"]) && w.kind(at + 1) == Some(Sign::Number)
}

/// The token ranges of sentences, without their stops.
pub(in super::super) fn sentences(w: &Words) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let first = past_numbering(w, 0, w.len());
    let mut start = first;
    let mut depth = 0usize;
    for at in first..w.len() {
        match w.kind(at) {
            Some(Sign::Open) => depth += 1,
            Some(Sign::Close) => depth = depth.saturating_sub(1),
            _ => {}
        }
        let exclaimed = w.at(at).is_some_and(|token| token.text == "!" || token.text == "?");
        let stop = w.kind(at) == Some(Sign::Stop)
            && w.at(at + 1).is_none_or(|next| next.spaced && !next.text.starts_with(|c: char| c.is_lowercase()));
        // "Gas No. 6."
        let number = at > 0 && w.is(at - 1, "no") && w.kind(at + 1) == Some(Sign::Number);
        let number = number || is_abbreviated(w, at);
        if depth == 0 && !number && (exclaimed || stop) {
            found.push((start, at));
            // "Chop the onions. 2. Fry them."
            start = past_numbering(w, at + 1, w.len());
        }
    }
    found.push((start, w.len()));
    found.retain(|(start, end)| start < end);
    found
}
