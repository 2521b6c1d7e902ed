//! Where one clause ends and the next begins, and which of them are one.

use super::head::{AFTER_STATE, DETERMINERS, skips};
use super::marks::is_while_you;
use super::{Clause, verb_at};
use crate::kitchen::method::clock::{Time, times};
use crate::kitchen::method::degrees::heat;
use crate::kitchen::method::verbs::{Verb, Way};
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// Where the clauses of one sentence begin.
pub(super) fn cuts(w: &Words, start: usize, end: usize, is_food: &dyn Fn(usize) -> bool) -> Vec<usize> {
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
        // "For 6 minutes or, in an oven, bake for 25": another way.
        if !when && opens_another_way(w, cuts.last().copied().unwrap_or(start), at) && (at + 1..end).any(|at| verb_at(w, at).is_some()) {
            cuts.push(at);
            at = (at + 1..end).find_map(|at| verb_at(w, at)).map_or(at + 1, |(_, after)| after);
            continue;
        }
        if !(comma || dash || and || then) || (when && !comma) || and && seldom(at + 1) {
            at += 1;
            continue;
        }
        // "At 200 °C for 10 minutes and at 160 °C for another 30."
        let from = cuts.last().copied().unwrap_or(start);
        if at > from && is_timed_heat(w, from, at) && is_timed_heat(w, at + 1, next_stop(w, at + 1, end)) {
            cuts.push(at);
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
            let from = cuts.last().copied().unwrap_or(start);
            let apposition = comma && (is_apposition(w, next, after, end) || serves(w, from) && is_cut_so(w, next, after));
            !(state || food || apposition || is_part_of_a_fruit(w, next, is_food))
        });
        if takes || says_then {
            cuts.push(at);
            until = false;
            at = verb.map_or(next, |(_, after)| after).max(at + 1);
            continue;
        }
        // "Baste, a further 20 minutes."
        if opens_with_time(w, at, end).is_some_and(|time| time.further) {
            cuts.push(at);
        }
        at += 1;
    }
    cuts.dedup();
    cuts
}

/// "In the zest, juice and oil": no verbs, for nothing follows that is juiced. "Zest and juice the lemon", "juice 2 limes" are.
fn is_part_of_a_fruit(w: &Words, at: usize, is_food: &dyn Fn(usize) -> bool) -> bool {
    const PARTS: [&str; 2] = ["juice", "zest"];
    let part = |at: usize| PARTS.iter().any(|word| w.is(at, word));
    let joins = |at: &usize| part(*at) || matches!(w.kind(*at), Some(Sign::Comma | Sign::And)) || w.is(*at, "and");
    let after = at + (at..w.len()).take_while(joins).count();
    let object = DETERMINERS.iter().any(|word| w.is(after, word)) || w.at(after).is_some_and(|token| token.is_number());
    part(at) && !object && !(after == at + 1 && is_food(after))
}

/// "For 6 minutes or, in an oven, bake for 25", "for 20 minutes, or bake for 40": after a time, "or" and what is done otherwise.
pub(super) fn opens_another_way(w: &Words, from: usize, at: usize) -> bool {
    if !w.is(at, "or") {
        return false;
    }
    let cooks = verb_at(w, at + 1).is_some_and(|(verb, _)| matches!(verb.way, Way::Wait(..)));
    (w.kind(at + 1) == Some(Sign::Comma) || cooks) && !times(w, from, at).is_empty()
}

/// "…; if not soft, simmer for another 10 minutes."
fn opens_with_if(w: &Words, from: usize) -> bool {
    let at = from + usize::from(w.kind(from) == Some(Sign::Comma)) + usize::from(w.is(from, "and") || w.is(from, "but"));
    ["if", "unless"].iter().any(|word| w.is(at, word))
}

/// "5 minutes before the end": a time that nobody waits for, and no verb.
fn is_mark_in_time(w: &Words, from: usize, to: usize) -> bool {
    let first = (from..to).find(|at| w.kind(*at) == Some(Sign::Number) || w.is(*at, "about"));
    let first = first.filter(|first| (from..*first).all(|at| w.kind(at) != Some(Sign::Word) || w.is(at, "and")));
    let before_the_end = |at: usize| w.is(at, "before") && w.is(at + 1, "the") && w.is(at + 2, "end");
    first.is_some_and(|first| (first..to).any(before_the_end)) && times(w, from, to).is_empty()
}

/// Do the words give both a time and the heat of an oven, and no verb?
fn is_timed_heat(w: &Words, from: usize, to: usize) -> bool {
    heat(w, from, to, false, true).oven.is_some() && !times(w, from, to).is_empty()
}

/// Where the next sign stands that parts clauses.
fn next_stop(w: &Words, from: usize, end: usize) -> usize {
    (from..end).find(|at| matches!(w.kind(*at), Some(Sign::Comma | Sign::Semicolon | Sign::Colon)) || w.is(*at, "then")).unwrap_or(end)
}

/// "Cut into wedges": what was cut stands before it.
fn is_cut_so(w: &Words, verb: usize, after: usize) -> bool {
    w.is(verb, "cut") && ["into", "in", "lengthways", "lengthwise", "crossways", "thinly", "thickly"].iter().any(|word| w.is(after, word))
}

/// "Serve with the lemon, cut into wedges."
fn serves(w: &Words, from: usize) -> bool {
    let first = (from..w.len()).find(|at| w.kind(*at) == Some(Sign::Word) && !skips(w, *at));
    first.and_then(|at| verb_at(w, at)).is_some_and(|(verb, _)| verb.way == Way::Serve)
}

/// "Roast the carrots, cut into batons, for 30 minutes": how they are by now.
fn is_apposition(w: &Words, verb: usize, after: usize, end: usize) -> bool {
    const GOES_ON: [&str; 8] = ["for", "at", "in", "on", "over", "under", "until", "with"];
    let cut = is_cut_so(w, verb, after);
    let comma = (after..end).find(|at| w.kind(*at) == Some(Sign::Comma));
    cut && comma.is_some_and(|comma| GOES_ON.iter().any(|word| w.is(comma + 1, word)))
}

/// A clause without a verb belongs to the one after it where it opens the sentence, else to the one before it. What "then" leads keeps the
/// verb before it where a time is given: "fry for 2 minutes, then for 3 more".
pub(super) fn joined(w: &Words, found: Vec<Clause>) -> Vec<Clause> {
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
        let timed = !times(w, clause.start, clause.end).is_empty();
        let goes_on = timed && (then || opens_with_time(w, clause.start, clause.end).is_some()) && !rests(w, &clause);
        if let Some(verb) = cooks_before(w, &kept).filter(|_| goes_on) {
            kept.push(Clause { verb: Some(verb), verb_at: clause.start, verb_end: clause.start, ..clause });
            continue;
        }
        let heated = |clause: &Clause| is_timed_heat(w, clause.start, clause.end);
        match kept.last_mut() {
            Some(before) if then && timed || heated(&clause) && heated(before) => {
                let verb = before.verb;
                kept.push(Clause { verb, verb_at: clause.start, verb_end: clause.start, ..clause });
            }
            // "Simmer for 15 minutes; 5 minutes before the end, add the peas": it says when.
            Some(_) if index + 1 < count && (is_mark_in_time(w, clause.start, clause.end) || opens_with_if(w, clause.start)) => {
                lead = Some(clause.start)
            }
            Some(before) => before.end = clause.end,
            // "Full power, 3 minutes; stand 2 minutes" tells two things.
            // So does "everything goes in the slow cooker for 8 hours while you do something else".
            None if index + 1 < count && !(timed && (w.kind(clause.end - 1) == Some(Sign::Semicolon) || is_while_you(w, clause.end))) => {
                lead = Some(clause.start);
            }
            None => kept.push(clause),
        }
    }
    kept
}

/// The work of a moment on what cooks: what cooks goes on after it.
#[rustfmt::skip]
pub(in super::super) const MOMENTS: [&str; 29] = [
    "turn", "flip", "baste", "brush", "glaze", "prick", "pierce", "spoon", "stir", "shake", "toss", "swirl", "season", "sprinkle", "scatter", "drizzle",
    "dot", "dust", "pour", "spray", "skim", "check", "test", "taste", "give", "fork", "loosen", "press", "unwrap",
];

/// What a time says that is not of the cooking before it: it rests, or it is all the time there is.
const RESTS: [&str; 14] = [
    "rest",
    "resting",
    "stand",
    "standing",
    "cool",
    "cooling",
    "rack",
    "fridge",
    "freezer",
    "aside",
    "board",
    "all",
    "total",
    "altogether",
];

pub(in super::super) fn rests(w: &Words, clause: &Clause) -> bool {
    (clause.start..clause.end).any(|at| RESTS.iter().any(|word| w.is(at, word)))
}

/// The time that words begin with: ", then a further 20 minutes".
fn opens_with_time(w: &Words, from: usize, to: usize) -> Option<Time> {
    let before = |at: &usize| matches!(w.kind(*at), Some(Sign::Comma | Sign::And | Sign::Semicolon | Sign::Dash)) || is_before_time(w, *at);
    let first = from + (from..to).take_while(before).count();
    times(w, from, to).into_iter().next().filter(|time| time.start <= first)
}

/// A word between a sign and the time that it begins with.
pub(in super::super) fn is_before_time(w: &Words, at: usize) -> bool {
    ["and", "then", "for", "a", "further", "about", "another"].iter().any(|word| w.is(at, word))
}

/// "Roast for 25 minutes, baste, then a further 20 minutes": the verb of what cooked before a moment's work.
fn cooks_before(w: &Words, kept: &[Clause]) -> Option<&'static Verb> {
    const BROUGHT: [&str; 4] = ["add", "return", "cover", "uncover"];
    let timed = |clause: &Clause| !times(w, clause.verb_end, clause.end).is_empty();
    let is = |clause: &Clause, verbs: &[&str]| clause.verb.is_some_and(|verb| verbs.contains(&verb.word));
    let away = |clause: &Clause| (clause.start..clause.end).any(|at| w.is(at, "off") || w.is(at, "out"));
    let moment = |clause: &Clause| is(clause, &MOMENTS) && !timed(clause) && !away(clause);
    kept.last().filter(|last| moment(last))?;
    let before = kept.iter().rev().find(|clause| !moment(clause) && (timed(clause) || !is(clause, &BROUGHT)))?;
    before.verb.filter(|_| timed(before))
}
