//! Reading a number as cooks write it: digits, fractions, ranges and small number words.
//!
//! ```text
//! number   = [about] single [ (dash | "to" | "or") single ] | "between" single "and" single
//! single   = digits [fraction] | fraction | words
//! digits   = "2" | "1.5" | "1,5"
//! fraction = "1/2" | "½" | " 1/2" | "-1/2"
//!            a fraction may be "of a" thing: "½ a lemon", "1/2 of a lemon"
//! words    = "a" | "an" | "one" … "twelve" | "half [a]" | "a couple of" | ["half"] "a dozen" | "2 dozen"
//! ```

use super::{Number, ReadError};

/// A plain number has both ends the same.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ends {
    pub low: Number,
    pub high: Number,
}

/// A number at the start of a text, and where the text goes on after it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Read {
    pub number: Ends,
    pub end: usize,
    /// Written with letters: "a", "two", "half a".
    pub in_words: bool,
}

/// More than any kitchen holds, and small enough that no sum overflows.
const MOST: Number = Number::whole(1_000_000_000);

pub(crate) const DASHES: [char; 8] = ['-', '‐', '‑', '‒', '–', '—', '―', '−'];

/// Reads a number at the start of `text`; `None` where none stands there.
pub(crate) fn number(text: &str) -> Result<Option<Read>, ReadError> {
    let start = skip_about(text, skip_space(text, 0));
    let rest = &text[start..];
    if let Some(dash) = rest.chars().next().filter(|c| DASHES.contains(c))
        && rest[dash.len_utf8()..].starts_with(|c: char| c.is_ascii_digit() || vulgar(c).is_some())
    {
        return Err(error("the amount is negative", "write an amount above zero"));
    }
    let between = lower_word_at(text, start).filter(|(word, _)| word == "between").map(|(_, end)| end);
    let Some(first) = single(text, between.unwrap_or(start))? else { return Ok(None) };
    let mut read = Read { number: Ends { low: first.value.clone(), high: first.value.clone() }, end: first.end, in_words: first.in_words };
    if let Some((after, by_dash)) = range_mark(text, first.end, between.is_some())
        && let Some(second) = single(text, after)?
        && !(second.in_words && text[after..second.end].eq_ignore_ascii_case("a"))
    {
        read.end = second.end;
        let mixed = by_dash && second.is_fraction && !first.is_fraction && second.value < 1 && first.value.is_whole();
        if mixed {
            let sum = first.value + second.value;
            read.number = Ends { low: sum.clone(), high: sum };
        } else if second.value < first.value {
            return Err(error("the range runs downwards", "write the smaller number first: 2-3"));
        } else {
            read.number.high = second.value;
        }
    }
    if between.is_some() && read.end == first.end {
        return Ok(None);
    }
    if read.number.high < 1 {
        read.end = past_article(text, read.end);
    }
    if read.number.low <= 0 {
        return Err(error("the amount is zero", "write an amount above zero"));
    }
    if read.number.high > MOST {
        return Err(error("the amount is too large", "write a kitchen's amount"));
    }
    Ok(Some(read))
}

struct Single {
    value: Number,
    end: usize,
    is_fraction: bool,
    in_words: bool,
}

fn single(text: &str, at: usize) -> Result<Option<Single>, ReadError> {
    let at = skip_space(text, at);
    let Some(first) = text[at..].chars().next() else { return Ok(None) };
    if let Some(value) = vulgar(first) {
        return Ok(Some(Single { value, end: at + first.len_utf8(), is_fraction: true, in_words: false }));
    }
    let begins_with_point = first == '.' && text[at + 1..].starts_with(|c: char| c.is_ascii_digit());
    if !first.is_ascii_digit() && !begins_with_point {
        return Ok(words(text, at));
    }
    let (whole, end) = decimal(text, at)?;
    if let Some((below, end)) = slash(text, end)? {
        if below.is_zero() {
            return Err(error("the fraction divides by zero", "write 1/2, 1/3 ..."));
        }
        return Ok(Some(Single { value: whole / below, end, is_fraction: true, in_words: false }));
    }
    if let Some((part, end)) = fraction_after(text, end)? {
        return Ok(Some(Single { value: whole + part, end, is_fraction: false, in_words: false }));
    }
    let (value, end) = match word_at(text, end) {
        Some(("dozen", after)) => (whole * 12, after),
        _ => (whole, end),
    };
    Ok(Some(Single { value, end, is_fraction: false, in_words: false }))
}

/// Digits with a decimal point or comma.
fn decimal(text: &str, at: usize) -> Result<(Number, usize), ReadError> {
    let digits = |from: usize| from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
    let mut end = digits(at);
    let mut point = None;
    if text[end..].starts_with(['.', ',']) && text[end + 1..].starts_with(|c: char| c.is_ascii_digit()) {
        point = Some(end);
        end = digits(end + 1);
    }
    let written = &text[at..end];
    if let Some(point) = point
        && text[point..].starts_with(',')
        && end - point == 4
        && !matches!(&text[at..point], "0" | "")
    {
        let cause = format!("\"{written}\" can be read as one thousand or as one");
        return Err(error(&cause, "write 1000 without a comma, or 1.5 with a point"));
    }
    let value = Number::from_decimal_text(written);
    value.map(|value| (value, end)).ok_or_else(|| error(&format!("\"{written}\" is no number"), "write 2, 1.5 or 1/2"))
}

/// `/4` or `⁄4` after a numerator.
fn slash(text: &str, at: usize) -> Result<Option<(Number, usize)>, ReadError> {
    let Some(mark) = text[at..].chars().next().filter(|c| matches!(c, '/' | '⁄' | '∕')) else { return Ok(None) };
    let from = at + mark.len_utf8();
    let end = from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
    Ok(Number::from_decimal_text(&text[from..end]).map(|below| (below, end)))
}

/// The `½`, ` 1/2` or ` and a half` of `1½`.
fn fraction_after(text: &str, at: usize) -> Result<Option<(Number, usize)>, ReadError> {
    let from = skip_space(text, at);
    let Some(first) = text[from..].chars().next() else { return Ok(None) };
    if let Some(value) = vulgar(first) {
        return Ok(Some((value, from + first.len_utf8())));
    }
    if first.is_ascii_digit() && from > at {
        let end = from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
        if let Some((below, after)) = slash(text, end)?
            && let Some(above) = Number::from_decimal_text(&text[from..end])
            && below > above
            && above > 0
        {
            return Ok(Some((above / below, after)));
        }
    }
    if let Some(("and", after)) = word_at(text, at)
        && let Some(("a", after)) = word_at(text, after)
        && let Some(("half", after)) = word_at(text, after)
    {
        return Ok(Some((Number::HALF, after)));
    }
    Ok(None)
}

#[rustfmt::skip]
const WORDS: [(&str, i64); 15] = [
    ("a", 1), ("an", 1), ("one", 1), ("two", 2), ("three", 3), ("four", 4), ("five", 5), ("six", 6),
    ("seven", 7), ("eight", 8), ("nine", 9), ("ten", 10), ("eleven", 11), ("twelve", 12), ("dozen", 12),
];

const SHARES: [(&str, Number); 8] = [
    ("three quarters", Number::over(3, 4)),
    ("three-quarters", Number::over(3, 4)),
    ("two thirds", Number::over(2, 3)),
    ("two-thirds", Number::over(2, 3)),
    ("a third", Number::over(1, 3)),
    ("one third", Number::over(1, 3)),
    ("one-third", Number::over(1, 3)),
    ("one half", Number::HALF),
];

/// "Three-quarters", with the "of" or "of a" that may follow.
fn share(text: &str, at: usize) -> Option<(Number, usize)> {
    let begins = |name: &str| text[at..].get(..name.len()).is_some_and(|start| start.eq_ignore_ascii_case(name));
    let (name, value) = SHARES.into_iter().find(|row| begins(row.0))?;
    let mut end = at + name.len();
    if text[end..].starts_with(|c: char| !c.is_whitespace()) {
        return None;
    }
    for skipped in ["of", "a", "an"] {
        if let Some((next, beyond)) = lower_word_at(text, end)
            && next == skipped
        {
            end = beyond;
        }
    }
    Some((value, end))
}

fn words(text: &str, at: usize) -> Option<Single> {
    if let Some((value, end)) = share(text, at) {
        return Some(Single { value, end, is_fraction: true, in_words: true });
    }
    let (word, after) = lower_word_at(text, at)?;
    let found = |value, end, is_fraction| Some(Single { value, end, is_fraction, in_words: true });
    if word == "half" || word == "quarter" {
        let share = if word == "half" { Number::HALF } else { Number::over(1, 4) };
        let mut end = after;
        for skipped in ["of", "a", "an", "the"] {
            if let Some((next, beyond)) = lower_word_at(text, end)
                && next == skipped
            {
                end = beyond;
            }
        }
        return match lower_word_at(text, end) {
            Some((next, end)) if next == "dozen" => found(share * 12, end, false),
            _ => found(share, end, true),
        };
    }
    let value = Number::whole(WORDS.iter().find(|row| row.0 == word)?.1);
    if let Some((next, beyond)) = lower_word_at(text, after) {
        match next.as_str() {
            "dozen" => return found(value * 12, beyond, false),
            "couple" if word == "a" => {
                let of = lower_word_at(text, beyond).filter(|(of, _)| of == "of").map_or(beyond, |(_, of)| of);
                return found(Number::whole(2), of, false);
            }
            "half" if word == "a" => return found(Number::HALF, beyond, true),
            "quarter" if word == "a" => return found(Number::over(1, 4), beyond, true),
            _ => {}
        }
    }
    if let Ok(Some((half, end))) = fraction_after(text, after) {
        return found(value + half, end, false);
    }
    found(value, after, false)
}

/// Past the "a" or "of a" of "½ a lemon".
fn past_article(text: &str, at: usize) -> usize {
    let after = lower_word_at(text, at).filter(|(of, _)| of == "of").map_or(at, |(_, end)| end);
    lower_word_at(text, after).filter(|(word, _)| matches!(word.as_str(), "a" | "an")).map_or(at, |(_, end)| end)
}

/// After a range's dash, "to" or "or" (between: "and"), where a number follows it.
fn range_mark(text: &str, at: usize, between: bool) -> Option<(usize, bool)> {
    let from = skip_space(text, at);
    let (after, by_dash) = match text[from..].chars().next() {
        Some(dash) if DASHES.contains(&dash) => (from + dash.len_utf8(), true),
        _ => match word_at(text, at)? {
            ("to" | "or", after) => (after, false),
            ("and", after) if between => (after, false),
            _ => return None,
        },
    };
    Some((after, by_dash))
}

/// Past "about", "approx.", "~".
fn skip_about(text: &str, at: usize) -> usize {
    if let Some(rest) = text[at..].strip_prefix(['~', '≈']) {
        return skip_space(text, text.len() - rest.len());
    }
    let Some((word, mut end)) = lower_word_at(text, at) else { return at };
    if text[end..].starts_with('.') {
        end += 1;
    }
    match word.as_str() {
        "about" | "approx" | "approximately" | "roughly" | "around" | "circa" | "ca" => skip_space(text, end),
        _ => at,
    }
}

fn lower_word_at(text: &str, at: usize) -> Option<(String, usize)> {
    let (word, end) = word_at(text, at)?;
    (word.len() <= 16).then(|| (word.to_ascii_lowercase(), end))
}

/// The letters after any space, where space, a bracket or the end follows them.
fn word_at(text: &str, at: usize) -> Option<(&str, usize)> {
    let from = skip_space(text, at);
    let end = text[from..].find(|c: char| !c.is_alphabetic()).map_or(text.len(), |length| from + length);
    let bounded = text[end..].chars().next().is_none_or(|c| c.is_whitespace() || matches!(c, '(' | ',' | '.'));
    (end > from && bounded).then(|| (&text[from..end], end))
}

pub(crate) fn skip_space(text: &str, at: usize) -> usize {
    text.len() - text[at..].trim_start().len()
}

#[rustfmt::skip]
pub(crate) const VULGAR: [(char, u8, u8); 18] = [
    ('½', 1, 2), ('⅓', 1, 3), ('⅔', 2, 3), ('¼', 1, 4), ('¾', 3, 4), ('⅕', 1, 5), ('⅖', 2, 5), ('⅗', 3, 5), ('⅘', 4, 5),
    ('⅙', 1, 6), ('⅚', 5, 6), ('⅐', 1, 7), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8), ('⅑', 1, 9), ('⅒', 1, 10),
];

fn vulgar(sign: char) -> Option<Number> {
    VULGAR.iter().find(|row| row.0 == sign).map(|row| Number::over(row.1.into(), row.2.into()))
}

pub(crate) fn is_vulgar(sign: char) -> bool {
    vulgar(sign).is_some()
}

pub(super) fn error(cause: &str, remedy: &str) -> ReadError {
    ReadError { cause: cause.to_owned(), remedy: remedy.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    fn ends(text: &str) -> Option<(Number, Number, &str)> {
        number(text).expect("reads").map(|read| (read.number.low, read.number.high, &text[read.end..]))
    }

    #[test]
    fn every_way_of_writing_a_number_is_read() {
        let third = Number::over(1, 3);
        for (text, low, high, rest) in [
            ("2", Number::from(2.0), Number::from(2.0), ""),
            ("1.5 kg", Number::from(1.5), Number::from(1.5), " kg"),
            ("1,5 kg", Number::from(1.5), Number::from(1.5), " kg"),
            ("0,125 l", Number::from(0.125), Number::from(0.125), " l"),
            (".5 l", Number::from(0.5), Number::from(0.5), " l"),
            ("1/2 cup", Number::from(0.5), Number::from(0.5), " cup"),
            ("1⁄2 cup", Number::from(0.5), Number::from(0.5), " cup"),
            ("1 1/2 cups", Number::from(1.5), Number::from(1.5), " cups"),
            ("1-1/2 cups", Number::from(1.5), Number::from(1.5), " cups"),
            ("1½ cups", Number::from(1.5), Number::from(1.5), " cups"),
            ("1 ½ cups", Number::from(1.5), Number::from(1.5), " cups"),
            ("⅓ cup", third.clone(), third.clone(), " cup"),
            ("2-3 tbsp", Number::from(2.0), Number::from(3.0), " tbsp"),
            ("2 – 3 tbsp", Number::from(2.0), Number::from(3.0), " tbsp"),
            ("½-1 tsp", Number::from(0.5), Number::from(1.0), " tsp"),
            ("1-2½", Number::from(1.0), Number::from(2.5), ""),
            ("2 to 3 onions", Number::from(2.0), Number::from(3.0), " onions"),
            ("2 or 3 onions", Number::from(2.0), Number::from(3.0), " onions"),
            ("two to three onions", Number::from(2.0), Number::from(3.0), " onions"),
            ("14-ounce", Number::from(14.0), Number::from(14.0), "-ounce"),
            ("a lemon", Number::from(1.0), Number::from(1.0), " lemon"),
            ("half a lemon", Number::from(0.5), Number::from(0.5), " lemon"),
            ("Half an onion", Number::from(0.5), Number::from(0.5), " onion"),
            ("half onion", Number::from(0.5), Number::from(0.5), " onion"),
            ("a dozen eggs", Number::from(12.0), Number::from(12.0), " eggs"),
            ("half a dozen eggs", Number::from(6.0), Number::from(6.0), " eggs"),
            ("2 dozen eggs", Number::from(24.0), Number::from(24.0), " eggs"),
            ("a couple of eggs", Number::from(2.0), Number::from(2.0), " eggs"),
            ("one and a half lemons", Number::from(1.5), Number::from(1.5), " lemons"),
            ("about 4 eggs", Number::from(4.0), Number::from(4.0), " eggs"),
            ("approx. 4 eggs", Number::from(4.0), Number::from(4.0), " eggs"),
            ("~4 eggs", Number::from(4.0), Number::from(4.0), " eggs"),
            ("twelve", Number::from(12.0), Number::from(12.0), ""),
            ("three-quarters of a cup", Number::from(0.75), Number::from(0.75), " cup"),
            ("two thirds cup", Number::over(2, 3), Number::over(2, 3), " cup"),
            ("½ a lemon", Number::from(0.5), Number::from(0.5), " lemon"),
            ("1/2 of a lemon", Number::from(0.5), Number::from(0.5), " lemon"),
            ("½ avocado", Number::from(0.5), Number::from(0.5), " avocado"),
            ("between 2 and 3 onions", Number::from(2.0), Number::from(3.0), " onions"),
            ("between two and three onions", Number::from(2.0), Number::from(3.0), " onions"),
            ("1 400 g tin", Number::from(1.0), Number::from(1.0), " 400 g tin"),
        ] {
            assert_eq!(ends(text), Some((low, high, rest)), "{text}");
        }
    }

    #[test]
    fn a_word_that_only_begins_like_a_number_is_none() {
        for text in ["almonds", "tender greens", "half-fat milk", "salt", "", "onion"] {
            assert_eq!(ends(text), None, "{text}");
        }
    }

    #[test]
    fn a_number_that_is_none_or_two_is_refused() {
        for text in ["0 g", "-2 g", "1/0 cup", "3-2", "1,000 g", "0.0", "99999999999 g"] {
            assert!(number(text).is_err(), "{text}");
        }
    }
}
