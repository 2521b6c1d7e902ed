//! How long something takes, in the words of a clause.
//!
//! ```text
//! time  = number ["-"] unit {["and"] number unit} ["and a half"] ["or two"] [sides]
//!       | number unit (dash | "to" | "or") number unit          45 mins–1 hr
//!       | ("a few" | "several") unit | "overnight" | "the day before"
//!       | number ":" number ["hours"]                           1:30 hours, or 1:30 and no more, marked
//!       | number "x" number unit | number "'"                  2 x 10 minutes, 40'
//!       | ("for" | "another" | "further") number                 the unit of the time before it
//! unit  = second | minute | hour | day, in any spelling
//! sides = ("a" | "per" | "each" | "on each" | "either") "side"  twice as long
//! ```
//!
//! Of a range both ends are kept; seconds round up to a minute.

use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

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
const MOST_HOURS: f64 = 6.0;

/// Words between "a" or a number and its unit: "a further hour", "5 more minutes".
const FILLERS: [&str; 12] = ["further", "more", "good", "full", "additional", "extra", "whole", "last", "final", "other", "or so", "odd"];

/// All times of the words from `from` to `to` that are waits or work; "after 10 minutes" and its likes are none.
pub(super) fn times(w: &Words, from: usize, to: usize) -> Vec<Time> {
    let mut found: Vec<Time> = Vec::new();
    let mut at = from;
    while at < to {
        let another = found.last().and_then(|before| without_unit(w, at, to, before));
        let Some(mut time) = another.or_else(|| time_at(w, at, to)).or_else(|| unit_unsaid(w, at, to)) else {
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
    let one = unit(w, before.end.checked_sub(1)?).filter(|_| parts && w.kind(at) == Some(Sign::Number))?;
    let (low, high, end) = number(w, at)?;
    let goes_on = end < to && (w.is(end, "for") || w.is(end, "if") || is_of_other_side(w, end));
    goes_on.then_some(Time { low: low * one, high: high * one, start: at, end, or: false, said_for: false, ..*before })
}

/// The "10" of "turn and cook for another 10": the unit is that of the last time before it in the paragraph.
fn unit_unsaid(w: &Words, at: usize, to: usize) -> Option<Time> {
    const AFTER_THEN: [&str; 5] = ["without", "uncovered", "covered", "with", "more"];
    let then = |end: usize| w.is(at - 1, "then") && AFTER_THEN.iter().any(|word| w.is(end, word));
    let said = |place: usize| ["for", "another", "further"].iter().any(|word| w.is(place, word));
    if at == 0 || !said(at - 1) && !w.is(at, "another") && !w.is(at - 1, "then") {
        return None;
    }
    let (low, high, end) = number(w, at)?;
    // "Bake for 15 minutes, then 5 without the beans."
    if w.is(at - 1, "then") && !then(end) {
        return None;
    }
    let counted = w.kind(end - 1) == Some(Sign::Number) || !w.is(at - 1, "for") && end > at + usize::from(w.is(at, "another"));
    if !ends(w, end, to) || !counted || ["a", "an", "half"].iter().any(|word| w.is(end - 1, word)) {
        return None;
    }
    let said_for = w.is(at - 1, "for");
    let one = (1..at).rev().find_map(|place| unit(w, place).filter(|_| w.at(place).is_some_and(|token| token.text.len() > 1)));
    // Without a time before it in the paragraph, "a further 10" is taken for minutes, and marked.
    let vague = one.is_none();
    let one = one.or_else(|| (!said_for).then_some(1.0))?;
    // "Simmer for 1 hour, then for 30": nobody means thirty hours.
    let (one, vague) = if one == 60.0 && high > MOST_HOURS * 2.0 { (1.0, true) } else { (one, vague) };
    Some(Time { said_for, vague, ..plain(low * one, high * one, at, end) })
}

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
fn ends(w: &Words, at: usize, to: usize) -> bool {
    at >= to
        || matches!(w.kind(at), Some(Sign::Comma | Sign::Stop | Sign::Close | Sign::Semicolon | Sign::And))
        || GOES_ON.iter().any(|word| w.is(at, word))
}

/// "On the other", "on the second side": adds to the time of the first.
fn is_of_other_side(w: &Words, at: usize) -> bool {
    let at = if w.is(at, "on") || w.is(at, "for") { at + 1 } else { at };
    w.is(at, "the") && (w.is(at + 1, "other") || w.is(at + 1, "second"))
}

fn plain(low: f64, high: f64, start: usize, end: usize) -> Time {
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
fn unit(w: &Words, at: usize) -> Option<f64> {
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
fn number(w: &Words, at: usize) -> Option<(f64, f64, usize)> {
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
pub(super) fn time_at(w: &Words, at: usize, to: usize) -> Option<Time> {
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

/// What lasts: "a 40-minute bake".
const BY_NAME: [&str; 12] = ["rest", "bake", "simmer", "boil", "roast", "soak", "chill", "steam", "braise", "prove", "rise", "stand"];

/// Minutes at least and at most, and the place after the words.
type Span = (f64, f64, usize);

/// A number with its unit: "1 hour 15 minutes", "45 mins–1 hr", "2 minutes a side", "20 minutes per 500 g".
fn counted(w: &Words, at: usize, to: usize) -> Option<Time> {
    // "A" alone begins a time only where a unit follows; a glued dash makes an adjective: "5-minute eggs".
    let (low, high, end) = number(w, at)?;
    // "For 40-odd minutes."
    let end = end + usize::from(w.is_hyphen(end) && w.is(end + 1, "odd"));
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
    let digits = w.at(at).filter(|token| token.kind == Sign::Word)?.text.strip_prefix(['h', 'H'])?;
    digits.parse().ok().filter(|minutes| *minutes < 60.0)
}

fn past_stop(w: &Words, at: usize) -> usize {
    let abbreviated = w.kind(at) == Some(Sign::Stop) && w.at(at + 1).is_some_and(|next| next.text.starts_with(|c: char| c.is_lowercase()));
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

/// "For the first 15 minutes at 220 °C and the remaining 45 at 180": the first time of its clause, and another comes after it.
fn is_followed_up(w: &Words, from: usize, start: usize, end: usize) -> bool {
    const NEXT: [&str; 6] = ["remaining", "then", "another", "rest", "further", "afterwards"];
    const REACH: usize = 16;
    let first = (from..start).all(|at| unit(w, at).is_none_or(|_| w.at(at).is_some_and(|token| token.text.len() == 1)));
    first && (end..end + REACH).any(|at| NEXT.iter().any(|word| w.is(at, word)))
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

/// "After 10 minutes", "every 5 minutes", "for the last 10 minutes", "30 minutes before serving", "keeps 3 days": a mark in time, no wait.
fn is_no_wait(w: &Words, from: usize, start: usize, end: usize) -> bool {
    let before = |back: usize| start.checked_sub(back).filter(|at| *at >= from);
    let said = |back: usize, words: &[&str]| before(back).is_some_and(|at| words.iter().any(|word| w.is(at, word)));
    // "The last 10 minutes" are a mark in time, "a final 10 minutes" a wait.
    let one = |back: usize| said(back, &["a", "one", "another", "its", "their"]);
    let inside_filler =
        (start..end).any(|at| w.is(at, "last") || w.is(at, "final")) && !["a", "one", "another"].iter().any(|word| w.is(start, word));
    let for_it = (1..=3).any(|back| said(back, &["for"]));
    let nearly = ["about", "around", "approximately", "roughly"];
    let after = said(1, &["after", "every", "within", "keep", "keeps", "by"])
        || said(1, &["last", "final"]) && !one(2)
        || said(1, &["first"]) && !one(2) && !is_followed_up(w, from, start, end)
        || said(1, &["than"]) && !said(2, &["less", "more", "longer", "fewer"])
        || said(2, &["after", "every", "within"]) && said(1, &nearly);
    let keeps = (from..start).any(|at| w.is(at, "keep") || w.is(at, "keeps") || w.is(at, "store")) && !for_it;
    // "Refrigerate for up to 3 days" says how long it keeps; "marinate for up to 2 days" is a wait.
    let days = (start..end).any(|at| w.is(at, "day") || w.is(at, "days"));
    let up_to = w.is(start, "up") || (1..=3).any(|back| before(back).is_some_and(|at| w.is(at, "up") && w.is(at + 1, "to")));
    let steeps = ["marinate", "soak", "cure", "brine", "salt", "ferment", "steep"];
    let keeps = keeps || days && up_to && !(from.saturating_sub(2)..start).any(|at| steeps.iter().any(|word| w.is(at, word)));
    // "Let stand 10 minutes before serving" is a wait; "take out 30 minutes before serving" is none.
    const WAITS: [&str; 9] = ["stand", "rest", "sit", "cool", "chill", "marinate", "soak", "refrigerate", "wait"];
    let waits = (1..=3).any(|back| start.checked_sub(back).is_some_and(|at| WAITS.iter().any(|word| w.is(at, word))));
    // "Cook 10 minutes before adding the peas" is one, too: what follows is done after it.
    const MEALS: [&str; 8] = ["serving", "eating", "using", "cooking", "baking", "roasting", "grilling", "frying"];
    let goes_on = w.at(end + 1).is_some_and(|next| next.text.ends_with("ing")) && !MEALS.iter().any(|word| w.is(end + 1, word));
    let then_before = w.is(end, "before") && !for_it && !waits && !goes_on
        || w.is(end, "from") && w.is(end + 1, "the") && w.is(end + 2, "end")
        || w.is(end, "ahead")
        || w.is(end, "in") && w.is(end + 1, "advance");
    // "For a minute less than the packet says."
    let less = ["less", "shorter"].iter().any(|word| w.is(end, word)) && w.is(end + 1, "than");
    let older = less || ["old", "later", "beforehand", "earlier"].iter().any(|word| w.is(end, word));
    after || inside_filler || keeps || then_before || older
}

#[cfg(test)]
mod tests;
