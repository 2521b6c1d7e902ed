//! How long something takes, in the words of a clause.
//!
//! ```text
//! time  = number ["-"] unit {["and"] number unit} ["and a half"] ["or two"] [sides]
//!       | number unit (dash | "to" | "or") number unit          45 mins–1 hr
//!       | ("a few" | "several") unit | "overnight" | "the day before"
//!       | number ":" number ["hours"]                           1:30 hours, or 1:30 and no more, marked
//!       | number "x" number unit | number "'"                  2 x 10 minutes, 40'
//!       | ("for" | "another" | "further") number                 the unit of the time before it
//!       | "the same time" | "half as long again"                 the time before it, or half of it, marked
//!       | ("two days" | …) ("before" | "ahead" | "in advance") ","
//! unit  = second | minute | hour | day, in any spelling
//! sides = ("a" | "per" | "each" | "on each" | "either") "side"  twice as long
//! ```
//!
//! Of a range both ends are kept; seconds round up to a minute.

use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

mod figures;
mod no_wait;

pub(super) use self::figures::time_at;
use self::figures::{FILLERS, MOST_HOURS, ends, number, plain, unit};
use self::no_wait::is_no_wait;

/// Minutes, with what they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Time {
    pub low: f64,
    pub high: f64,
    /// "A few minutes": a number that nobody wrote.
    pub vague: bool,
    pub overnight: bool,
    /// So long for each weight: "20 minutes per 500 g".
    pub by_weight: bool,
    /// So long for each batch: "5 minutes per batch".
    pub by_batch: bool,
    /// "The day before".
    pub day_before: bool,
    pub start: usize,
    pub end: usize,
    /// Follows "or" or "and up to": another way to read the time before it.
    pub or: bool,
    /// Has "for" or the like right before it.
    pub said_for: bool,
    /// "Another 5 minutes", "5 minutes more": after what was said before.
    pub further: bool,
}

/// All times of the words from `from` to `to` that are waits or work; "after 10 minutes" and its likes are none.
pub(super) fn times(w: &Words, from: usize, to: usize) -> Vec<Time> {
    let mut found: Vec<Time> = Vec::new();
    let mut at = from;
    while at < to {
        let another = found.last().and_then(|before| without_unit(w, at, to, before));
        let Some(mut time) = another.or_else(|| time_at(w, at, to)).or_else(|| unit_unsaid(w, at, to)).or_else(|| as_long_again(w, at, to))
        else {
            at += 1;
            continue;
        };
        at = time.end;
        if is_no_wait(w, from, time.start, time.end) {
            continue;
        }
        // "3 minutes on the first side and 2 on the other".
        if let Some(before) = found.last_mut().filter(|_| is_of_other_side(w, time.end)) {
            (before.low, before.high, before.end) = (before.low + time.low, before.high + time.high, time.end);
            continue;
        }
        let before = |back: usize, word: &str| time.start >= from + back && w.is(time.start - back, word);
        let choice = (1..=4).any(|back| ["or", "ideally", "preferably", "even", "better"].iter().any(|word| before(back, word)))
            || (1..=3).any(|back| ["maximum", "max", "most"].iter().any(|word| before(back, word)))
            || w.is(time.start, "up")
            || before(2, "up") && before(1, "to");
        time.or = choice && !found.is_empty();
        time.said_for = (1..=4).any(|back| before(back, "for"));
        const FURTHER: [&str; 6] = ["another", "further", "more", "extra", "additional", "longer"];
        time.further = (time.start..(time.end + 1).min(to)).any(|at| FURTHER.iter().any(|word| w.is(at, word))) || before(1, "further");
        found.push(time);
    }
    found
}

/// Minutes from one turn to the next: the 30 of "every 30 minutes".
pub(super) fn every(w: &Words, from: usize, to: usize) -> Option<f64> {
    let at = (from..to).find(|at| w.is(*at, "every"))?;
    // "Every hour".
    let one = unit(w, at + 1).filter(|_| at + 1 < to);
    one.or_else(|| time_at(w, at + 1, to).map(|time| time.high)).filter(|minutes| *minutes > 0.0)
}

/// The "10" of "7 minutes for soft yolks, 10 for hard": a number that has the unit of the time before it.
fn without_unit(w: &Words, at: usize, to: usize, before: &Time) -> Option<Time> {
    let parts = at > before.end && (matches!(w.kind(at - 1), Some(Sign::Comma | Sign::And)) || w.is(at - 1, "and") || w.is(at - 1, "or"));
    let said = |place: usize| unit(w, place).filter(|_| w.at(place).is_some_and(|token| token.text.len() > 1));
    let one = (before.start..before.end).rev().find_map(said).or_else(|| (0..before.start).rev().find_map(said));
    let one = one.filter(|_| parts && w.kind(at) == Some(Sign::Number))?;
    let (low, high, end) = number(w, at)?;
    let goes_on = end < to && (w.is(end, "for") || w.is(end, "if") || is_of_other_side(w, end));
    goes_on.then_some(Time { low: low * one, high: high * one, start: at, end, or: false, said_for: false, ..*before })
}

/// The "10" of "turn and cook for another 10": the unit is that of the last time before it in the paragraph.
fn unit_unsaid(w: &Words, at: usize, to: usize) -> Option<Time> {
    const AFTER_THEN: [&str; 5] = ["without", "uncovered", "covered", "with", "more"];
    let then = |end: usize| w.is(at - 1, "then") && AFTER_THEN.iter().any(|word| w.is(end, word));
    // "Start checking at 25 minutes, it may need 35."
    let may = |place: usize| place > 0 && ["may", "might", "can", "could", "will"].iter().any(|word| w.is(place - 1, word));
    let needs = |place: usize| may(place) && (w.is(place, "need") || w.is(place, "take"));
    let said = |place: usize| ["for", "another", "further"].iter().any(|word| w.is(place, word)) || needs(place);
    if at == 0 || !said(at - 1) && !w.is(at, "another") && !w.is(at - 1, "then") {
        return None;
    }
    let (low, high, end) = number(w, at)?;
    // "Bake for 15 minutes, then 5 without the beans."
    if w.is(at - 1, "then") && !then(end) {
        return None;
    }
    let counted = w.kind(end - 1) == Some(Sign::Number) || !w.is(at - 1, "for") && end > at + usize::from(w.is(at, "another"));
    if !ends(w, end, to) || !counted || ["a", "an"].iter().any(|word| w.is(end - 1, word)) {
        return None;
    }
    let said_for = w.is(at - 1, "for");
    let one = (1..at).rev().find_map(|place| unit(w, place).filter(|_| w.at(place).is_some_and(|token| token.text.len() > 1)));
    // "For one hour and then another half": of an hour, and of nothing else.
    if w.is(end - 1, "half") && one != Some(60.0) {
        return None;
    }
    // Without a time before it in the paragraph, "a further 10" is taken for minutes, and marked.
    let vague = one.is_none();
    let one = one.or_else(|| (!said_for).then_some(1.0))?;
    // "Simmer for 1 hour, then for 30": nobody means thirty hours.
    let (one, vague) = if one == 60.0 && high > MOST_HOURS * 2.0 { (1.0, true) } else { (one, vague) };
    Some(Time { said_for, vague, ..plain(low * one, high * one, at, end) })
}

/// "Turn and roast for the same time": the last time before it in the paragraph. "At the same time" is none.
fn as_long_again(w: &Words, at: usize, to: usize) -> Option<Time> {
    const SPANS: [&[&str]; 4] = [
        &["the", "same", "time"],
        &["the", "same", "length", "of", "time"],
        &["the", "same", "amount", "of", "time"],
        &["as", "long", "again"],
    ];
    let says = |words: &&&[&str]| words.iter().enumerate().all(|(index, word)| w.is(at + index, word));
    // "Then half as long again."
    let half = w.is(at, "half") && ["as", "long", "again"].iter().enumerate().all(|(index, word)| w.is(at + 1 + index, word));
    let end = at + if half { 4 } else { SPANS.iter().find(says)?.len() };
    if at == 0 || end > to || ["at", "half", "twice", "double"].iter().any(|word| w.is(at - 1, word)) {
        return None;
    }
    let mut last = None;
    let mut place = 0;
    while place < at {
        let read = time_at(w, place, at);
        place = read.map_or(place + 1, |time| time.end.max(place + 1));
        last = read.filter(|time| !is_no_wait(w, 0, time.start, time.end)).or(last);
    }
    let part = if half { 0.5 } else { 1.0 };
    last.map(|before| {
        let (low, high, vague) = (before.low * part, before.high * part, before.vague || half);
        Time { low, high, vague, start: at, end, or: false, said_for: true, further: half, ..before }
    })
}

/// "On the other", "on the second side": adds to the time of the first.
fn is_of_other_side(w: &Words, at: usize) -> bool {
    let at = if w.is(at, "on") || w.is(at, "for") { at + 1 } else { at };
    w.is(at, "the") && (w.is(at + 1, "other") || w.is(at + 1, "second"))
}

/// "Start checking after 20 minutes": it takes no less.
pub(super) fn checked_at(w: &Words, from: usize, to: usize) -> Option<f64> {
    let checks = |at: &usize| ["check", "checking", "test", "testing"].iter().any(|word| w.is(*at, word));
    let check = (from..to).find(checks)?;
    let early = |at: &usize| ["at", "after", "from"].iter().any(|word| w.is(*at, word));
    let at = (check + 1..to.min(check + 4)).find(early)?;
    time_at(w, at + 1, to).map(|time| time.high)
}

/// "After 20 minutes' simmering": what was to be done until then.
pub(super) fn after_so_long(w: &Words, from: usize, to: usize) -> Option<Time> {
    let at = (from..to).find(|at| w.is(*at, "after"))?;
    let time = time_at(w, at + 1, to)?;
    let apart = |at: &usize| w.is(*at, "of") || w.at(*at).is_some_and(|token| ["'", "’"].contains(&token.text));
    let next = time.end + (time.end..to).take_while(apart).count();
    let done = w.at(next).and_then(|token| super::verbs::inflected(&token.text.to_lowercase(), "ing"));
    done.filter(|verb| matches!(verb.way, super::verbs::Way::Wait(..) | super::verbs::Way::HandsOn(_))).map(|_| time)
}

/// Where a number of minutes or hours stands that [`times`] does not read, and the place after its unit: "a 40-minute wonder".
pub(super) fn unread(w: &Words, from: usize, to: usize) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut at = from;
    while at < to {
        if let Some(time) = time_at(w, at, to) {
            at = time.end.max(at + 1);
            continue;
        }
        let read = w.number(at).ok().flatten().filter(|_| w.kind(at) == Some(Sign::Number));
        let unit_near = |end: usize| {
            let passed =
                |place: &usize| w.is_hyphen(*place) || FILLERS.iter().chain(&["or", "so", "long", "solid"]).any(|word| w.is(*place, word));
            let place = end + (end..to).take_while(passed).count();
            let long = w.at(place).is_some_and(|token| token.text.len() > 1);
            (place < to && long && unit(w, place).is_some_and(|one| one >= 1.0)).then_some(place)
        };
        match read.and_then(|read| unit_near(read.end)) {
            Some(place) => {
                found.push((at, place + 1));
                at = place + 1;
            }
            None => at += 1,
        }
    }
    found
}

#[cfg(test)]
mod tests;
