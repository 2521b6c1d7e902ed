//! Which of the times of a clause is planned, and whether it is that of one round.

use super::super::clauses::Clause;
use super::super::clock::Time;
use super::super::verbs::{Way, inflected};
use super::Round;
use crate::kitchen::words::Words;

/// "Fry 4 at a time", "one at a time", "in batches", "5 minutes per batch".
pub(super) fn round(w: &Words, clause: &Clause, time: &Time) -> Option<Round> {
    let all = || clause.start..clause.end;
    let of_time = |at: usize| w.is(at, "at") && w.is(at + 1, "a") && w.is(at + 2, "time");
    let at_once = all().filter(|at| *at > clause.start && of_time(*at)).find_map(|at| {
        let read = w.number(at - 1).ok().flatten().filter(|read| read.end == at);
        read.map(|read| read.number.high.to_f64())
    });
    let needed = |at: usize| w.is(at + 2, "if") || w.is(at + 3, "if");
    let batches = all().any(|at| w.is(at, "in") && (w.is(at + 1, "batches") || w.is(at + 2, "batches")) && !needed(at));
    // "Fry for 8 minutes (do this in two batches)": of one or of all, nobody knows; told.
    let open = |at: usize| w.kind(at) == Some(crate::measure::Kind::Open);
    let in_brackets = |at: usize| (clause.start..at).any(|from| open(from) && w.closing(from).is_some_and(|close| close > at));
    let counted = all().find_map(|at| {
        let read =
            w.number(at + 1).ok().flatten().filter(|read| w.is(at, "in") && w.is(read.end, "batches") && w.is(at + 1 + 1, "batches"));
        read.map(|read| read.number.high.to_f64()).filter(|_| !needed(at) && !in_brackets(at))
    });
    const AFTER_ANOTHER: [&[&str]; 4] =
        [&["one", "by", "one"], &["one", "after", "another"], &["one", "after", "the", "other"], &["after", "the", "other"]];
    // "Cook each for a minute a side", "make 12 pancakes, cooking each".
    let cooks = |at: usize| {
        let gerund = || inflected(&w.at(at)?.text.to_lowercase(), "ing");
        let verb = clause.verb.filter(|_| at + 1 == clause.verb_end).or_else(gerund);
        verb.is_some_and(|verb| matches!(verb.way, Way::Wait(..) | Way::HandsOn(_)))
    };
    let each = (clause.verb_end.saturating_sub(1)..clause.end).any(|at| cooks(at) && w.is(at + 1, "each"));
    let in_turn = each || all().any(|at| AFTER_ANOTHER.iter().any(|words| words.iter().enumerate().all(|(i, word)| w.is(at + i, word))));
    // "In two batches, about 10 minutes in all."
    if all().any(|at| w.is(at, "altogether") || w.is(at, "total") || w.is(at, "in") && (w.is(at + 1, "all") || w.is(at + 1, "total"))) {
        return None;
    }
    let uncounted = (batches || in_turn || time.by_batch).then_some(Round::Uncounted);
    let one_by_one = || (in_turn && !each).then_some(Round::AtOnce(1.0));
    at_once.map(Round::AtOnce).or(counted.map(Round::Rounds)).or_else(one_by_one).or(uncounted)
}

/// "30 minutes covered and 15 uncovered" are one after the other.
pub(super) fn in_turn(w: &Words, clause: &Clause, mut all: Vec<Time>) -> Vec<Time> {
    let says = |word: &str| (clause.start..clause.end).any(|at| w.is(at, word));
    if let ([first, second], true) = (all.as_mut_slice(), says("covered") && says("uncovered"))
        && !second.or
    {
        (first.low, first.high) = (first.low + second.low, first.high + second.high);
        all.truncate(1);
    }
    all
}

/// The first time of a clause; of several that are no choice, the longest.
pub(super) fn planned(all: &[Time]) -> (Option<Time>, bool, bool) {
    let Some(first) = all.first().copied() else { return (None, false, false) };
    // "For 5 minutes before adding the garlic for another minute": one after the other.
    let more: Vec<&Time> = all[1..].iter().filter(|time| time.further && !time.or).collect();
    let first = more.iter().fold(first, |sum, time| Time { low: sum.low + time.low, high: sum.high + time.high, ..sum });
    let others: Vec<&Time> = all[1..].iter().filter(|time| !time.or && !time.further).collect();
    let longest = others.iter().fold(first, |longest, time| if time.high > longest.high { **time } else { longest });
    let doubtful = others.iter().any(|time| (time.high - first.high).abs() > 1e-9);
    // "20 minutes per 500 g plus 30 minutes" goes by weight, whichever is planned.
    let longest = Time { by_weight: all.iter().any(|time| time.by_weight), ..longest };
    (Some(longest), all.iter().any(|time| time.or), doubtful)
}
