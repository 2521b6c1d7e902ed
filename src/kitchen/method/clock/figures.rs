//! One time as it is written: its number, its unit, and what adds to it: "1 hour and 15 minutes", "45 mins–1 hr", "2 minutes a side".
//!
//! Knows numbers and units; what a time is said of, [`super::times`] knows.

use super::Time;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// Number words that amounts do not have.
const TENS: [(&str, f64); 9] = [
    ("thirteen", 13.0),
    ("fourteen", 14.0),
    ("fifteen", 15.0),
    ("twenty", 20.0),
    ("thirty", 30.0),
    ("forty", 40.0),
    ("fifty", 50.0),
    ("sixty", 60.0),
    ("ninety", 90.0),
];

/// "7:30" is hardly so many hours on the hob.
pub(super) const MOST_HOURS: f64 = 6.0;

/// Words between "a" or a number and its unit: "a further hour", "5 more minutes".
pub(super) const FILLERS: [&str; 12] =
    ["further", "more", "good", "full", "additional", "extra", "whole", "last", "final", "other", "or so", "odd"];

/// What may follow a number whose unit was said before: "a further 10 without the lid", "1 hr 10 at 150 °C".
const GOES_ON: [&str; 17] = [
    "until",
    "till",
    "or",
    "more",
    "longer",
    "and",
    "then",
    "without",
    "with",
    "uncovered",
    "covered",
    "at",
    "in",
    "on",
    "over",
    "under",
    "off",
];

/// Nothing follows that the number could be of.
pub(super) fn ends(w: &Words, at: usize, to: usize) -> bool {
    at >= to
        || matches!(w.kind(at), Some(Sign::Comma | Sign::Stop | Sign::Close | Sign::Semicolon | Sign::And))
        || GOES_ON.iter().any(|word| w.is(at, word))
}

pub(super) fn plain(low: f64, high: f64, start: usize, end: usize) -> Time {
    Time {
        low,
        high,
        vague: false,
        overnight: false,
        by_weight: false,
        by_batch: false,
        day_before: false,
        start,
        end,
        or: false,
        said_for: false,
        further: false,
    }
}

/// Minutes of one unit word.
pub(super) fn unit(w: &Words, at: usize) -> Option<f64> {
    // "Simmer for 40'", "1h 20'".
    if is_prime(w, at) {
        return Some(1.0);
    }
    let word = w.at(at).filter(|token| token.kind == Sign::Word)?.text.to_lowercase();
    Some(match word.as_str() {
        "s" | "sec" | "secs" | "second" | "seconds" => 1.0 / 60.0,
        "min" | "mins" | "minute" | "minutes" | "m" => 1.0,
        "h" | "hr" | "hrs" | "hour" | "hours" => 60.0,
        "day" | "days" => 1440.0,
        _ => return None,
    })
}

/// The sign of minutes right after a number: "40'".
fn is_prime(w: &Words, at: usize) -> bool {
    w.at(at).is_some_and(|token| !token.spaced && ["'", "’", "′"].contains(&token.text)) && w.kind(at.wrapping_sub(1)) == Some(Sign::Number)
}

/// The number at a place, and the place after it.
pub(super) fn number(w: &Words, at: usize) -> Option<(f64, f64, usize)> {
    if let Some((ten, mut end)) = tens(w, at) {
        let mark = w.kind(end) == Some(Sign::Dash) || w.is(end, "to") || w.is(end, "or");
        if let (true, Some((high, after))) = (mark, tens(w, end + 1)) {
            end = after;
            return Some((ten, high, end));
        }
        return Some((ten, ten, end));
    }
    if w.is(at, "another") {
        return match number(w, at + 1) {
            Some(read) => Some(read),
            None => Some((1.0, 1.0, at + 1)),
        };
    }
    let read = w.number(at).ok()??;
    let (low, high) = (read.number.low.to_f64(), read.number.high.to_f64());
    // "One and three-quarter hours."
    let more = w.is(read.end, "and").then(|| part_of_an_hour(w, read.end + 1 + usize::from(w.is(read.end + 1, "a")))).flatten();
    if let Some((part, end)) = more.filter(|(_, end)| low == high && low.fract() == 0.0 && unit(w, *end) == Some(60.0)) {
        return Some((low + part, low + part, end));
    }
    // "20+ minutes".
    if w.kind(read.end) == Some(Sign::Plus) && unit(w, read.end + 1).is_some() {
        return Some((low, high, read.end + 1));
    }
    let mark = w.kind(read.end) == Some(Sign::Dash) || w.is(read.end, "to") || w.is(read.end, "or");
    match tens(w, read.end + 1) {
        Some((upper, end)) if mark && low == high && upper >= low => Some((low, upper, end)),
        _ => Some((low, high, read.end)),
    }
}

fn tens(w: &Words, at: usize) -> Option<(f64, usize)> {
    let ten = TENS.iter().find(|(word, _)| w.is(at, word)).map(|(_, ten)| *ten)?;
    let next = if w.is_hyphen(at + 1) { at + 2 } else { at + 1 };
    let ones = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    match ones.iter().position(|one| w.is(next, one)) {
        Some(one) if ten >= 20.0 => Some((ten + one as f64 + 1.0, next + 1)),
        _ => Some((ten, at + 1)),
    }
}

/// The time that begins at a place.
pub(in super::super) fn time_at(w: &Words, at: usize, to: usize) -> Option<Time> {
    in_words(w, at, to).or_else(|| so_many_times(w, at, to)).or_else(|| counted(w, at, to))
}

/// "Overnight", "the day before", "a few minutes", "half an hour", "1:30 hours".
fn in_words(w: &Words, at: usize, to: usize) -> Option<Time> {
    let plain = |low: f64, high: f64, end: usize| plain(low, high, at, end);
    if w.is(at, "overnight") || w.is(at, "night") && at > 0 && w.is(at - 1, "all") {
        return Some(Time { overnight: true, ..plain(480.0, 480.0, at + 1) });
    }
    if (w.is(at, "night") || w.is(at, "evening")) && w.is(at + 1, "before") {
        return Some(Time { overnight: true, ..plain(480.0, 480.0, at + 2) });
    }
    if w.is(at, "day") && w.is(at + 1, "before") {
        return Some(Time { day_before: true, ..plain(1440.0, 1440.0, at + 2) });
    }
    if let Some((days, end)) = days_before(w, at, to) {
        return Some(Time { day_before: true, ..plain(days * 1440.0, days * 1440.0, end) });
    }
    let few = (w.is(at, "few") || w.is(at, "several")).then_some(at + 1).filter(|next| *next < to);
    if let Some((next, one)) = few.and_then(|next| Some((next, unit(w, next)?))) {
        return Some(Time { vague: true, ..plain(5.0 * one, 5.0 * one, next + 1) });
    }
    if let Some(end) = half_hour(w, at, to) {
        return Some(plain(30.0, 30.0, end));
    }
    let (minutes, end) = by_the_clock(w, at, to)?;
    // Without "hours" it could be something else.
    Some(Time { vague: unit(w, end - 1).is_none(), ..plain(minutes, minutes, end) })
}

/// "Two days before, salt the beef"; "two days before serving" says when a thing is eaten.
fn days_before(w: &Words, at: usize, to: usize) -> Option<(f64, usize)> {
    let (_, days, after) = number(w, at)?;
    let days = (unit(w, after) == Some(1440.0) && after < to).then_some(days)?;
    let past = if w.is(after + 1, "in") && w.is(after + 2, "advance") { after + 3 } else { after + 2 };
    let early = past == after + 3 || ["before", "ahead", "beforehand", "earlier"].iter().any(|word| w.is(after + 1, word));
    let ends = w.kind(past) == Some(Sign::Comma) || w.kind(past) == Some(Sign::Colon);
    (early && ends).then_some((days, past))
}

/// What lasts: "a 40-minute bake".
const BY_NAME: [&str; 12] = ["rest", "bake", "simmer", "boil", "roast", "soak", "chill", "steam", "braise", "prove", "rise", "stand"];

/// Minutes at least and at most, and the place after the words.
type Span = (f64, f64, usize);

/// A number with its unit: "1 hour 15 minutes", "45 mins–1 hr", "2 minutes a side", "20 minutes per 500 g".
fn counted(w: &Words, at: usize, to: usize) -> Option<Time> {
    // "A" alone begins a time only where a unit follows; a glued dash makes an adjective: "5-minute eggs".
    let (low, high, end) = number(w, at)?;
    // "For 40-odd minutes."
    let end = if w.is_hyphen(end) && (w.is(end + 1, "odd") || w.is(end + 1, "ish")) { end + 2 } else { end };
    let hyphen = w.is_hyphen(end) && unit(w, end + 1).is_some();
    let mut end = (end + usize::from(hyphen)..to).find(|at| !FILLERS.iter().any(|filler| w.is(*at, filler)))?;
    if w.is(end, "of") && w.is(end + 1, "an") {
        end += 2;
    }
    if end >= to {
        return None;
    }
    if let Some(minutes) = hours_and_minutes(w, end) {
        return Some(plain(low * 60.0 + minutes, high * 60.0 + minutes, at, end + 1));
    }
    if let Some(seconds) = minutes_and_seconds(w, end) {
        return Some(plain(low + seconds / 60.0, high + seconds / 60.0, at, end + 1));
    }
    let one = unit(w, end)?;
    if let Some(minutes) = hours_with_minutes(w, at, end).filter(|_| one == 60.0) {
        return Some(Time { vague: true, ..plain(minutes, minutes, at, end + 1) });
    }
    // "A 5-minute egg" is none; "a 40-minute bake" is.
    if hyphen && w.kind(end + 1) == Some(Sign::Word) && !BY_NAME.iter().any(|word| w.is(end + 1, word)) {
        return None;
    }
    let span = or_two(w, (low * one, high * one, past_stop(w, end + 1)), one);
    if let Some(upper) = upper_end(w, span.2, to, span.0) {
        return Some(Time { start: at, low: span.0, ..upper });
    }
    let (low, high, end) = and_smaller(w, and_seconds(w, span, one, to), one, to);
    if let Some(upper) = upper_end(w, end, to, low) {
        return Some(Time { start: at, low, ..upper });
    }
    let (times, end) = sides(w, end);
    // "20 minutes per 500 g": nobody wrote how long it is in all.
    let by_weight = is_by_weight(w, end);
    let each = ["per", "a", "each"].iter().any(|word| w.is(end, word));
    let by_batch = each && ["batch", "round", "load"].iter().any(|word| w.is(end + 1, word));
    Some(Time { by_weight, by_batch, ..plain(low * times, high * times, at, end) })
}

/// "Per 500 g", "/500 g", "a pound", "for each kilo", "to the pound".
fn is_by_weight(w: &Words, end: usize) -> bool {
    let is = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
    let at = match () {
        () if w.is(end, "per") || w.kind(end) == Some(Sign::Slash) => end + 1,
        () if w.is(end, "for") && is(end + 1, &["each", "every"]) || w.is(end, "to") && w.is(end + 1, "the") => end + 2,
        () if is(end, &["a", "each", "every"]) => end + 1,
        () => return false,
    };
    let pound = is(at, &["pound", "lb", "kilo", "kg", "kilogram"]);
    let per = w.is(end, "per") || w.kind(end) == Some(Sign::Slash);
    pound || per && (w.amount(at).ok().flatten().is_some() || w.unit(at).is_some()) || is_weight(w, at)
}

fn is_weight(w: &Words, at: usize) -> bool {
    let amount = w.amount(at).ok().flatten().filter(|read| read.unit_given);
    amount.is_some_and(|read| read.amount.most(crate::measure::Spoons::Us).dimension() == crate::measure::Dimension::Mass)
}

/// "2.30 hours": more likely two and a half than 2.3; the longer is taken, and marked.
fn hours_with_minutes(w: &Words, at: usize, end: usize) -> Option<f64> {
    let (hours, minutes) = w.at(at).filter(|_| end == at + 1)?.text.split_once('.')?;
    let minutes = minutes.parse::<f64>().ok().filter(|_| ["15", "30", "45"].contains(&minutes))?;
    Some(hours.parse::<f64>().ok()? * 60.0 + minutes)
}

/// "A minute or two".
fn or_two(w: &Words, (low, high, end): Span, one: f64) -> Span {
    let second =
        number(w, end + 1).filter(|(_, second, after)| unit(w, *after).is_none() && (1.5..10.0).contains(second) && !w.is(*after, "until"));
    let said = w.is(end, "or") && low == high && one <= 60.0 && w.kind(end + 1) == Some(Sign::Word);
    match second.filter(|_| said) {
        Some((_, second, after)) => (low, second * one, after),
        None => (low, high, end),
    }
}

/// "7 minutes 30 seconds".
fn and_seconds(w: &Words, (low, high, end): Span, one: f64, to: usize) -> Span {
    let next = end + usize::from(w.is(end, "and"));
    let more = number(w, next).filter(|_| one == 1.0 && next < to);
    let Some((seconds, _, after)) = more else { return (low, high, end) };
    match unit(w, after).filter(|unit| *unit < 1.0) {
        Some(second) => (low + seconds * second, high + seconds * second, past_stop(w, after + 1)),
        None => (low, high, end),
    }
}

/// "1 hour 15 minutes", "1 hour and 15 minutes", "an hour and a half", "1 hr 30".
fn and_smaller(w: &Words, (low, high, end): Span, one: f64, to: usize) -> Span {
    let next = end + usize::from(w.is(end, "and"));
    if one < 60.0 || next >= to {
        return (low, high, end);
    }
    let part = part_of_an_hour(w, next + usize::from(w.is(next, "a"))).filter(|_| next > end);
    if let Some((part, after)) = part {
        return (low + one * part, high + one * part, after);
    }
    let Some((more_low, more, after)) = number(w, next) else { return (low, high, end) };
    match unit(w, after) {
        Some(smaller) if smaller < one && after < to => (low + more_low * smaller, high + more * smaller, past_stop(w, after + 1)),
        None if more == more_low && (5.0..60.0).contains(&more) && w.kind(next) == Some(Sign::Number) && ends(w, after, to) => {
            (low + more, high + more, after)
        }
        _ => (low, high, end),
    }
}

/// "45 mins–1 hr", "1 hour to 1 hour 15 minutes": the time after the mark.
fn upper_end(w: &Words, end: usize, to: usize, low: f64) -> Option<Time> {
    let mark = w.kind(end) == Some(Sign::Dash) || w.is(end, "to");
    time_at(w, end + 1, to).filter(|upper| mark && upper.high >= low && !upper.overnight)
}

/// "2 x 10 minutes": one after the other.
fn so_many_times(w: &Words, at: usize, to: usize) -> Option<Time> {
    let count = w.at(at).filter(|token| token.kind == Sign::Number)?.text.parse::<f64>().ok()?;
    let mark = w.kind(at + 1) == Some(Sign::Times) || w.is(at + 1, "x") || w.is(at + 1, "times");
    let one = time_at(w, at + 2, to).filter(|_| mark)?;
    Some(Time { low: one.low * count, high: one.high * count, start: at, ..one })
}

/// "A good half-hour", "half-hour", and the place after it.
fn half_hour(w: &Words, at: usize, to: usize) -> Option<usize> {
    let mut half = at;
    while half < to && half < at + 4 && (["a", "another"].iter().chain(&FILLERS).any(|word| w.is(half, word))) {
        half += 1;
    }
    // "Half-an-hour".
    let an = half + 1 + usize::from(w.is_hyphen(half + 1));
    let an_end = an + usize::from(an > half + 1 && w.is(an, "an"));
    let hour = an_end + usize::from(an_end > an && w.is_hyphen(an_end));
    let says = w.is(half, "half") && hour < to && (w.is(hour, "hour") || w.is(hour, "hr")) && (half > at || hour > half + 1);
    says.then_some(hour + 1)
}

/// The "1:30" of "1:30 hours" or of "simmer 1:30", and the place after it.
fn by_the_clock(w: &Words, at: usize, to: usize) -> Option<(f64, usize)> {
    let figure = |place: usize| w.at(place).filter(|token| token.kind == Sign::Number).and_then(|token| token.text.parse::<f64>().ok());
    let minutes = figure(at + 2).filter(|minutes| w.kind(at + 1) == Some(Sign::Colon) && *minutes < 60.0)?;
    let hours = figure(at)?;
    if unit(w, at + 3).is_some_and(|one| one == 60.0 && at + 3 < to) {
        return Some((hours * 60.0 + minutes, at + 4));
    }
    // "At 1:30" is a time of day, "1:1" a mixture.
    let glued = w.at(at + 1).is_some_and(|colon| !colon.spaced) && w.at(at + 2).is_some_and(|token| !token.spaced && token.text.len() == 2);
    let of_day = at > 0 && ["at", "by", "from", "until", "till", "ratio"].iter().any(|word| w.is(at - 1, word));
    (glued && !of_day && hours <= MOST_HOURS && ends(w, at + 3, to)).then_some((hours * 60.0 + minutes, at + 3))
}

/// The "half", "quarter" or "three quarters" of "an hour and a half", and the place after it.
fn part_of_an_hour(w: &Words, at: usize) -> Option<(f64, usize)> {
    let quarters = |at: usize| w.is(at, "quarter") || w.is(at, "quarters");
    match () {
        () if w.is(at, "half") => Some((0.5, at + 1)),
        () if w.is(at, "three") && quarters(at + 1) => Some((0.75, at + 2)),
        () if w.is(at, "three") && w.is_hyphen(at + 1) && quarters(at + 2) => Some((0.75, at + 3)),
        () if quarters(at) => Some((0.25, at + 1)),
        () => None,
    }
}

/// The "h30" of "1h30": its minutes.
fn hours_and_minutes(w: &Words, at: usize) -> Option<f64> {
    let text = w.at(at).filter(|token| token.kind == Sign::Word)?.text.to_lowercase();
    let digits = ["hrs", "hr", "h"].iter().find_map(|unit| text.strip_prefix(unit))?;
    let digits = ["mins", "min", "m"].iter().find_map(|unit| digits.strip_suffix(unit)).unwrap_or(digits);
    digits.parse().ok().filter(|minutes| *minutes < 60.0)
}

/// The "m30s" of "1m30s": its seconds.
fn minutes_and_seconds(w: &Words, at: usize) -> Option<f64> {
    let text = w.at(at).filter(|token| token.kind == Sign::Word)?.text.to_lowercase();
    let digits = text.strip_prefix("min").or_else(|| text.strip_prefix('m'))?.strip_suffix(['s'])?;
    digits.parse().ok().filter(|seconds| *seconds < 60.0)
}

fn past_stop(w: &Words, at: usize) -> usize {
    let timed = || number(w, at + 1).is_some_and(|(_, _, after)| unit(w, after).is_some());
    let abbreviated =
        w.kind(at) == Some(Sign::Stop) && (w.at(at + 1).is_some_and(|next| next.text.starts_with(|c: char| c.is_lowercase())) || timed());
    if abbreviated { at + 1 } else { at }
}

/// Twice the time where it is of each side.
fn sides(w: &Words, at: usize) -> (f64, usize) {
    let mut end = at + usize::from(w.at(at).is_some_and(|token| token.text == "/"));
    while ["on", "for", "a", "per", "each", "either", "every", "the", "both", "first"].iter().any(|word| w.is(end, word)) {
        end += 1;
    }
    let side = w.is(end, "side") || w.is(end, "sides");
    if side && end > at && !(at..end).any(|place| w.is(place, "first") || w.is(place, "the")) { (2.0, end + 1) } else { (1.0, at) }
}
