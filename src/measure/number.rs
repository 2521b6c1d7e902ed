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

use super::ReadError;

/// A plain number has both ends the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Number {
    pub low: f64,
    pub high: f64,
}

/// A number at the start of a text, and where the text goes on after it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Read {
    pub number: Number,
    pub end: usize,
    /// Written with letters: "a", "two", "half a".
    pub in_words: bool,
}

/// More than any kitchen holds, and small enough that no sum overflows.
const MOST: f64 = 1e9;

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
    let mut read = Read { number: Number { low: first.value, high: first.value }, end: first.end, in_words: first.in_words };
    if let Some((after, by_dash)) = range_mark(text, first.end, between.is_some())
        && let Some(second) = single(text, after)?
        && !(second.in_words && text[after..second.end].eq_ignore_ascii_case("a"))
    {
        read.end = second.end;
        let mixed = by_dash && second.is_fraction && !first.is_fraction && second.value < 1.0 && first.value.fract() == 0.0;
        if mixed {
            read.number = Number { low: first.value + second.value, high: first.value + second.value };
        } else if second.value < first.value {
            return Err(error("the range runs downwards", "write the smaller number first: 2-3"));
        } else {
            read.number.high = second.value;
        }
    }
    if between.is_some() && read.end == first.end {
        return Ok(None);
    }
    if read.number.high < 1.0 {
        read.end = past_article(text, read.end);
    }
    if read.number.low <= 0.0 {
        return Err(error("the amount is zero", "write an amount above zero"));
    }
    if read.number.high > MOST {
        return Err(error("the amount is too large", "write a kitchen's amount"));
    }
    Ok(Some(read))
}

struct Single {
    value: f64,
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
        if below == 0.0 {
            return Err(error("the fraction divides by zero", "write 1/2, 1/3 ..."));
        }
        return Ok(Some(Single { value: whole / below, end, is_fraction: true, in_words: false }));
    }
    if let Some((part, end)) = fraction_after(text, end)? {
        return Ok(Some(Single { value: whole + part, end, is_fraction: false, in_words: false }));
    }
    let (value, end) = match word_at(text, end) {
        Some(("dozen", after)) => (whole * 12.0, after),
        _ => (whole, end),
    };
    Ok(Some(Single { value, end, is_fraction: false, in_words: false }))
}

/// Digits with a decimal point or comma.
fn decimal(text: &str, at: usize) -> Result<(f64, usize), ReadError> {
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
    let plain = written.replace(',', ".");
    plain.parse().map(|value| (value, end)).map_err(|_| error(&format!("\"{written}\" is no number"), "write 2, 1.5 or 1/2"))
}

/// `/4` or `⁄4` after a numerator.
fn slash(text: &str, at: usize) -> Result<Option<(f64, usize)>, ReadError> {
    let Some(mark) = text[at..].chars().next().filter(|c| matches!(c, '/' | '⁄' | '∕')) else { return Ok(None) };
    let from = at + mark.len_utf8();
    let end = from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
    Ok(text[from..end].parse::<f64>().ok().map(|below| (below, end)))
}

/// The `½`, ` 1/2` or ` and a half` of `1½`.
fn fraction_after(text: &str, at: usize) -> Result<Option<(f64, usize)>, ReadError> {
    let from = skip_space(text, at);
    let Some(first) = text[from..].chars().next() else { return Ok(None) };
    if let Some(value) = vulgar(first) {
        return Ok(Some((value, from + first.len_utf8())));
    }
    if first.is_ascii_digit() && from > at {
        let end = from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
        if let Some((below, after)) = slash(text, end)?
            && let Ok(above) = text[from..end].parse::<f64>()
            && below > above
            && above > 0.0
        {
            return Ok(Some((above / below, after)));
        }
    }
    if let Some(("and", after)) = word_at(text, at)
        && let Some(("a", after)) = word_at(text, after)
        && let Some(("half", after)) = word_at(text, after)
    {
        return Ok(Some((0.5, after)));
    }
    Ok(None)
}

#[rustfmt::skip]
const WORDS: [(&str, f64); 15] = [
    ("a", 1.0), ("an", 1.0), ("one", 1.0), ("two", 2.0), ("three", 3.0), ("four", 4.0), ("five", 5.0), ("six", 6.0),
    ("seven", 7.0), ("eight", 8.0), ("nine", 9.0), ("ten", 10.0), ("eleven", 11.0), ("twelve", 12.0), ("dozen", 12.0),
];

const SHARES: [(&str, f64); 8] = [
    ("three quarters", 0.75),
    ("three-quarters", 0.75),
    ("two thirds", 2.0 / 3.0),
    ("two-thirds", 2.0 / 3.0),
    ("a third", 1.0 / 3.0),
    ("one third", 1.0 / 3.0),
    ("one-third", 1.0 / 3.0),
    ("one half", 0.5),
];

/// "Three-quarters", with the "of" or "of a" that may follow.
fn share(text: &str, at: usize) -> Option<(f64, usize)> {
    let begins = |name: &str| text[at..].get(..name.len()).is_some_and(|start| start.eq_ignore_ascii_case(name));
    let (name, value) = SHARES.iter().find(|row| begins(row.0))?;
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
    Some((*value, end))
}

fn words(text: &str, at: usize) -> Option<Single> {
    if let Some((value, end)) = share(text, at) {
        return Some(Single { value, end, is_fraction: true, in_words: true });
    }
    let (word, after) = lower_word_at(text, at)?;
    let found = |value, end, is_fraction| Some(Single { value, end, is_fraction, in_words: true });
    if word == "half" || word == "quarter" {
        let share = if word == "half" { 0.5 } else { 0.25 };
        let mut end = after;
        for skipped in ["of", "a", "an", "the"] {
            if let Some((next, beyond)) = lower_word_at(text, end)
                && next == skipped
            {
                end = beyond;
            }
        }
        return match lower_word_at(text, end) {
            Some((next, end)) if next == "dozen" => found(share * 12.0, end, false),
            _ => found(share, end, true),
        };
    }
    let value = WORDS.iter().find(|row| row.0 == word)?.1;
    if let Some((next, beyond)) = lower_word_at(text, after) {
        match next.as_str() {
            "dozen" => return found(value * 12.0, beyond, false),
            "couple" if word == "a" => {
                let of = lower_word_at(text, beyond).filter(|(of, _)| of == "of").map_or(beyond, |(_, of)| of);
                return found(2.0, of, false);
            }
            "half" if word == "a" => return found(0.5, beyond, true),
            "quarter" if word == "a" => return found(0.25, beyond, true),
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

fn vulgar(sign: char) -> Option<f64> {
    VULGAR.iter().find(|row| row.0 == sign).map(|row| f64::from(row.1) / f64::from(row.2))
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

    fn ends(text: &str) -> Option<(f64, f64, &str)> {
        number(text).expect("reads").map(|read| (read.number.low, read.number.high, &text[read.end..]))
    }

    #[test]
    fn every_way_of_writing_a_number_is_read() {
        let third = 1.0 / 3.0;
        for (text, low, high, rest) in [
            ("2", 2.0, 2.0, ""),
            ("1.5 kg", 1.5, 1.5, " kg"),
            ("1,5 kg", 1.5, 1.5, " kg"),
            ("0,125 l", 0.125, 0.125, " l"),
            (".5 l", 0.5, 0.5, " l"),
            ("1/2 cup", 0.5, 0.5, " cup"),
            ("1⁄2 cup", 0.5, 0.5, " cup"),
            ("1 1/2 cups", 1.5, 1.5, " cups"),
            ("1-1/2 cups", 1.5, 1.5, " cups"),
            ("1½ cups", 1.5, 1.5, " cups"),
            ("1 ½ cups", 1.5, 1.5, " cups"),
            ("⅓ cup", third, third, " cup"),
            ("2-3 tbsp", 2.0, 3.0, " tbsp"),
            ("2 – 3 tbsp", 2.0, 3.0, " tbsp"),
            ("½-1 tsp", 0.5, 1.0, " tsp"),
            ("1-2½", 1.0, 2.5, ""),
            ("2 to 3 onions", 2.0, 3.0, " onions"),
            ("2 or 3 onions", 2.0, 3.0, " onions"),
            ("two to three onions", 2.0, 3.0, " onions"),
            ("14-ounce", 14.0, 14.0, "-ounce"),
            ("a lemon", 1.0, 1.0, " lemon"),
            ("half a lemon", 0.5, 0.5, " lemon"),
            ("Half an onion", 0.5, 0.5, " onion"),
            ("half onion", 0.5, 0.5, " onion"),
            ("a dozen eggs", 12.0, 12.0, " eggs"),
            ("half a dozen eggs", 6.0, 6.0, " eggs"),
            ("2 dozen eggs", 24.0, 24.0, " eggs"),
            ("a couple of eggs", 2.0, 2.0, " eggs"),
            ("one and a half lemons", 1.5, 1.5, " lemons"),
            ("about 4 eggs", 4.0, 4.0, " eggs"),
            ("approx. 4 eggs", 4.0, 4.0, " eggs"),
            ("~4 eggs", 4.0, 4.0, " eggs"),
            ("twelve", 12.0, 12.0, ""),
            ("three-quarters of a cup", 0.75, 0.75, " cup"),
            ("two thirds cup", 2.0 / 3.0, 2.0 / 3.0, " cup"),
            ("½ a lemon", 0.5, 0.5, " lemon"),
            ("1/2 of a lemon", 0.5, 0.5, " lemon"),
            ("½ avocado", 0.5, 0.5, " avocado"),
            ("between 2 and 3 onions", 2.0, 3.0, " onions"),
            ("between two and three onions", 2.0, 3.0, " onions"),
            ("1 400 g tin", 1.0, 1.0, " 400 g tin"),
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
