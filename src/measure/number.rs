//! Reading a number as cooks write it, on the tokens of a text: digits, fractions, ranges and small number words.
//!
//! ```text
//! number   = [about] single [range single] | "between" single "and" single
//! range    = dash | "to" | "or"
//! single   = whole [["&" | "+" | "and" ["a"] | dash] part] | part | words
//! whole    = "2" | "1.5" | "1,5"
//! part     = "1/2" | "½" | "half" | "third" | "quarter"       a part may be "of a" thing: "½ a lemon", "1/2 of a lemon"
//! words    = "a" | "an" | "one" … "twelve" | "half [a]" | "a couple of" | ["half"] "a dozen" | "2 dozen" | "three quarters"
//! about    = "about" | "approx." | "c." | "~" | …
//! ```

use super::Number;
use super::read_error::{ReadError, error};
use super::tokens::{Kind, Token, VULGAR};
use super::unit::unit_named;

/// A plain number has both ends the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Ends {
    pub low: Number,
    pub high: Number,
}

/// A number that begins at some token, and the token after it.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberRead {
    pub number: Ends,
    pub end: usize,
    /// Written with letters: "a", "two", "half a".
    pub in_words: bool,
    /// The dash of a range, and the token after its first number: "2 - 10 oz" may be two of ten ounces.
    pub dash: Option<usize>,
}

/// More than any kitchen holds, and small enough that no sum overflows.
const MOST: Number = Number::whole(1_000_000_000);

/// The number that begins at `at`; `None` where none stands there.
///
/// Fails on zero, a negative number, a range that runs downwards, `1,000` and `1.000`, and on more than a thousand million.
pub fn number(tokens: &[Token], at: usize) -> Result<Option<NumberRead>, ReadError> {
    let start = skip_about(tokens, at);
    if let [first, second, ..] = tokens.get(start..).unwrap_or_default()
        && first.kind == Kind::Dash
        && second.is_number()
        && !second.spaced
    {
        return Err(error("the amount is negative", "write an amount above zero"));
    }
    let between = tokens.get(start).is_some_and(|token| token.is("between"));
    let Some(first) = single(tokens, start + usize::from(between))? else { return Ok(None) };
    let mut read = NumberRead {
        number: Ends { low: first.value.clone(), high: first.value.clone() },
        end: first.end,
        in_words: first.in_words,
        dash: None,
    };
    if let Some((after, by_dash)) = range_mark(tokens, first.end, between)
        && let Some(second) = single(tokens, after)?
        && !(second.in_words && tokens[after].is("a") && second.end == after + 1)
    {
        if second.value < first.value {
            return Err(error("the range runs downwards", "write the smaller number first: 2-3"));
        }
        read.end = second.end;
        read.number.high = second.value;
        read.dash = by_dash.then_some(first.end);
    }
    if between && read.end == first.end {
        return Ok(None);
    }
    if read.number.high < Number::whole(1) {
        read.end = past_article(tokens, read.end);
    }
    if read.number.low.is_zero() {
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
    in_words: bool,
}

fn single(tokens: &[Token], at: usize) -> Result<Option<Single>, ReadError> {
    if let Some((value, end)) = part(tokens, at)? {
        return Ok(Some(Single { value, end, in_words: false }));
    }
    let Some(first) = tokens.get(at) else { return Ok(None) };
    if first.kind != Kind::Number {
        return Ok(words(tokens, at));
    }
    let whole = decimal(first)?;
    let found = |value: Option<Number>, end| match value {
        Some(value) => Ok(Some(Single { value, end, in_words: false })),
        None => Err(error("the amount is too large", "write a kitchen's amount")),
    };
    if whole.is_whole()
        && let Some((more, end)) = part_after(tokens, at + 1)?
    {
        return found(Some(whole + more), end);
    }
    if is_word(tokens, at + 1, "dozen") {
        return found(Some(whole * Number::whole(12)), at + 2);
    }
    found(Some(whole), at + 1)
}

fn decimal(token: &Token) -> Result<Number, ReadError> {
    let written = token.text;
    if let Some((whole, places)) = written.split_once(',')
        && places.len() == 3
        && !matches!(whole, "0" | "")
    {
        let (thousands, point) = (format!("{whole}{places}"), format!("{whole}.{places}"));
        let small = point.trim_end_matches('0').trim_end_matches('.');
        let cause = format!("\"{written}\" can be read as thousands, {thousands}, or as {small}");
        return Err(error(&cause, &format!("write {thousands} or {small}")));
    }
    if written.split_once('.').is_some_and(|(whole, places)| places == "000" && !matches!(whole, "0" | "")) {
        let cause = format!("\"{written}\" can be read as thousands or as \"{}\"", written.trim_end_matches(".000"));
        return Err(error(&cause, "write 1000 without a point, or 1"));
    }
    Number::from_decimal_text(&written.replace(',', ".")).ok_or_else(|| error("the amount is too large", "write a kitchen's amount"))
}

/// `½`, `1/2`: a fraction alone.
fn part(tokens: &[Token], at: usize) -> Result<Option<(Number, usize)>, ReadError> {
    let Some(first) = tokens.get(at) else { return Ok(None) };
    match first.kind {
        Kind::Fraction => Ok(vulgar(first).map(|value| (value, at + 1))),
        Kind::Number => {
            let [slash, below, ..] = tokens.get(at + 1..).unwrap_or_default() else { return Ok(None) };
            let is_fraction = slash.kind == Kind::Slash && below.kind == Kind::Number && !slash.spaced && !below.spaced;
            if !is_fraction || slash.text == "|" || below.text.contains(['.', ',']) {
                return Ok(None);
            }
            let Some(value) = decimal(first)?.checked_div(&decimal(below)?) else {
                return Err(error("the fraction divides by zero", "write 1/2, 1/3 ..."));
            };
            Ok(Some((value, at + 3)))
        }
        _ => Ok(None),
    }
}

/// The part after a whole number: `½`, ` 1/2`, `-1/2`, `& 1/2`, `+ 3/4`, `and a half`, `and a 1/2`.
fn part_after(tokens: &[Token], at: usize) -> Result<Option<(Number, usize)>, ReadError> {
    let mut from = at;
    if is_word(tokens, at, "and") || tokens.get(at).is_some_and(|token| matches!(token.kind, Kind::And | Kind::Plus | Kind::Dash)) {
        from += 1;
    }
    let joined = from > at;
    let article = joined && is_word(tokens, from, "a");
    let from = from + usize::from(article);
    if joined && let Some(value) = tokens.get(from).and_then(share_word).filter(|_| article) {
        return Ok(Some((value, from + 1)));
    }
    // "1 11/2" is two numbers, and "11/2" glued to nothing else its own.
    let Some((value, end)) = part(tokens, from)? else { return Ok(None) };
    Ok((value < Number::whole(1) && !value.is_zero()).then_some((value, end)))
}

#[rustfmt::skip]
const WORDS: [(&str, u32); 15] = [
    ("a", 1), ("an", 1), ("one", 1), ("two", 2), ("three", 3), ("four", 4), ("five", 5), ("six", 6),
    ("seven", 7), ("eight", 8), ("nine", 9), ("ten", 10), ("eleven", 11), ("twelve", 12), ("dozen", 12),
];

fn share_word(token: &Token) -> Option<Number> {
    let shares = [("half", 2_u128), ("third", 3), ("quarter", 4), ("fifth", 5), ("eighth", 8)];
    let below =
        shares.iter().find(|row| token.is(row.0) || token.text.strip_suffix('s').is_some_and(|one| one.eq_ignore_ascii_case(row.0)))?.1;
    Number::ratio(1, below)
}

fn words(tokens: &[Token], at: usize) -> Option<Single> {
    let first = tokens.get(at).filter(|token| token.kind == Kind::Word && token.text.len() <= 8)?;
    let found = |value, end| Some(Single { value, end, in_words: true });
    if (first.is("half") || first.is("quarter")) && stands_free(tokens, at) {
        let share = share_word(first)?;
        let end = past(tokens, at + 1, &["of", "a", "an", "the"]);
        return if is_word(tokens, end, "dozen") { found(share * Number::whole(12), end + 1) } else { found(share, end) };
    }
    let value = Number::from(i64::from(WORDS.iter().find(|row| first.is(row.0))?.1));
    // "three quarters", "two-thirds", "a third"
    let next = at + 1;
    let dashed = tokens.get(next).is_some_and(|dash| dash.kind == Kind::Dash && !dash.spaced);
    let share_at = next + usize::from(dashed);
    if let Some(share) = tokens.get(share_at).filter(|token| !token.is("fifth")).and_then(share_word)
        && stands_free(tokens, share_at)
    {
        return found(value * share, past(tokens, share_at + 1, &["of", "a", "an", "the"]));
    }
    if !stands_free(tokens, at) {
        return None;
    }
    if is_word(tokens, next, "dozen") {
        return found(value * Number::whole(12), next + 1);
    }
    if first.is("a") && is_word(tokens, next, "couple") {
        return found(Number::whole(2), past(tokens, next + 1, &["of"]));
    }
    if let Ok(Some((more, end))) = part_after(tokens, next) {
        return found(value + more, end);
    }
    found(value, next)
}

/// "Half-fat", "two-grain" and "a/b" are words of their own; "14-ounce" and "one-inch" are not.
fn stands_free(tokens: &[Token], at: usize) -> bool {
    let [dash, word, ..] = tokens.get(at + 1..).unwrap_or_default() else { return true };
    let glued = matches!(dash.kind, Kind::Dash | Kind::Slash) && !dash.spaced && !word.spaced && word.kind == Kind::Word;
    !glued || unit_named(word.text).is_some() || is_length_word(word.text)
}

pub(crate) fn is_length_word(word: &str) -> bool {
    ["cm", "mm", "inch", "inches"].iter().any(|length| word.eq_ignore_ascii_case(length))
}

fn past(tokens: &[Token], at: usize, skipped: &[&str]) -> usize {
    skipped.iter().fold(at, |at, word| at + usize::from(is_word(tokens, at, word)))
}

/// Past the "a" or "of a" of "½ a lemon".
fn past_article(tokens: &[Token], at: usize) -> usize {
    let after = past(tokens, at, &["of"]);
    if is_word(tokens, after, "a") || is_word(tokens, after, "an") { after + 1 } else { at }
}

/// After a range's dash, "to" or "or" (between: "and").
fn range_mark(tokens: &[Token], at: usize, between: bool) -> Option<(usize, bool)> {
    let mark = tokens.get(at)?;
    if mark.kind == Kind::Dash {
        return Some((at + 1, true));
    }
    (mark.is("to") || mark.is("or") || between && mark.is("and")).then_some((at + 1, false))
}

/// Past "about", "approx.", "c.", "~".
pub(crate) fn skip_about(tokens: &[Token], at: usize) -> usize {
    let Some(first) = tokens.get(at) else { return at };
    if matches!(first.text, "~" | "≈") {
        return at + 1;
    }
    let stop = tokens.get(at + 1).is_some_and(|stop| stop.kind == Kind::Stop && !stop.spaced);
    let after = at + 1 + usize::from(stop);
    const ABOUT: [&str; 10] = ["about", "approx", "approximately", "appr", "roughly", "around", "circa", "ca", "nearly", "almost"];
    let number_follows = || tokens.get(after).is_some_and(Token::is_number);
    let about = ABOUT.iter().any(|word| first.is(word)) || first.is("c") && stop && number_follows();
    let up_to = first.is("up") && is_word(tokens, at + 1, "to");
    match (about, up_to) {
        (true, _) => after,
        (_, true) => at + 2,
        _ => at,
    }
}

fn is_word(tokens: &[Token], at: usize, word: &str) -> bool {
    tokens.get(at).is_some_and(|token| token.is(word))
}

fn vulgar(token: &Token) -> Option<Number> {
    let sign = token.text.chars().next()?;
    let (_, above, below) = VULGAR.iter().find(|row| row.0 == sign)?;
    Number::ratio(u128::from(*above), u128::from(*below))
}

#[cfg(test)]
mod tests {
    use super::super::tokens::cut;
    use super::*;
    use pretty_assertions::assert_eq;

    fn ends(text: &str) -> Option<(f64, f64, &str)> {
        let tokens = cut(text);
        let read = number(&tokens, 0).expect("reads")?;
        let after = tokens.get(read.end).map_or("", |token| &text[token.start..]);
        Some((read.number.low.to_f64(), read.number.high.to_f64(), after))
    }

    #[test]
    fn every_way_of_writing_a_number_is_read() {
        let third = 1.0 / 3.0;
        for (text, low, high, rest) in [
            ("2", 2.0, 2.0, ""),
            ("1.5 kg", 1.5, 1.5, "kg"),
            ("1,5 kg", 1.5, 1.5, "kg"),
            ("0,125 l", 0.125, 0.125, "l"),
            (".5 l", 0.5, 0.5, "l"),
            ("1/2 cup", 0.5, 0.5, "cup"),
            ("1⁄2 cup", 0.5, 0.5, "cup"),
            ("1 1/2 cups", 1.5, 1.5, "cups"),
            ("1-1/2 cups", 1.5, 1.5, "cups"),
            ("1 & 1/2 cups", 1.5, 1.5, "cups"),
            ("1 + 3/4 cups", 1.75, 1.75, "cups"),
            ("1 and 1/2 cups", 1.5, 1.5, "cups"),
            ("1 and a half cups", 1.5, 1.5, "cups"),
            ("1 and a 1/2 large bananas", 1.5, 1.5, "large bananas"),
            ("1½ cups", 1.5, 1.5, "cups"),
            ("1 ½ cups", 1.5, 1.5, "cups"),
            ("⅓ cup", third, third, "cup"),
            ("2-3 tbsp", 2.0, 3.0, "tbsp"),
            ("2 – 3 tbsp", 2.0, 3.0, "tbsp"),
            ("½-1 tsp", 0.5, 1.0, "tsp"),
            ("1-2½", 1.0, 2.5, ""),
            ("2-1/2 to 3 pounds", 2.5, 3.0, "pounds"),
            ("3 1/2 - 4 c. flour", 3.5, 4.0, "c. flour"),
            ("2 to 3 onions", 2.0, 3.0, "onions"),
            ("2 or 3 onions", 2.0, 3.0, "onions"),
            ("two to three onions", 2.0, 3.0, "onions"),
            ("14-ounce", 14.0, 14.0, "-ounce"),
            ("one-inch piece", 1.0, 1.0, "-inch piece"),
            ("a lemon", 1.0, 1.0, "lemon"),
            ("half a lemon", 0.5, 0.5, "lemon"),
            ("Half an onion", 0.5, 0.5, "onion"),
            ("half onion", 0.5, 0.5, "onion"),
            ("half of the dough", 0.5, 0.5, "dough"),
            ("a dozen eggs", 12.0, 12.0, "eggs"),
            ("half a dozen eggs", 6.0, 6.0, "eggs"),
            ("2 dozen eggs", 24.0, 24.0, "eggs"),
            ("a couple of eggs", 2.0, 2.0, "eggs"),
            ("one and a half lemons", 1.5, 1.5, "lemons"),
            ("about 4 eggs", 4.0, 4.0, "eggs"),
            ("approx. 4 eggs", 4.0, 4.0, "eggs"),
            ("appr. 200g", 200.0, 200.0, "g"),
            ("c. 200 g", 200.0, 200.0, "g"),
            ("up to 4 eggs", 4.0, 4.0, "eggs"),
            ("~4 eggs", 4.0, 4.0, "eggs"),
            ("twelve", 12.0, 12.0, ""),
            ("three-quarters of a cup", 0.75, 0.75, "cup"),
            ("two thirds cup", 2.0 / 3.0, 2.0 / 3.0, "cup"),
            ("a third of a cup", third, third, "cup"),
            ("½ a lemon", 0.5, 0.5, "lemon"),
            ("1/2 of a lemon", 0.5, 0.5, "lemon"),
            ("½ avocado", 0.5, 0.5, "avocado"),
            ("between 2 and 3 onions", 2.0, 3.0, "onions"),
            ("between two and three onions", 2.0, 3.0, "onions"),
            ("1 400 g tin", 1.0, 1.0, "400 g tin"),
            ("2 11/2", 2.0, 2.0, "11/2"),
        ] {
            assert_eq!(ends(text), Some((low, high, rest)), "{text}");
        }
    }

    #[test]
    fn a_word_that_only_begins_like_a_number_is_none() {
        for text in ["almonds", "tender greens", "half-fat milk", "half-and-half", "salt", "", "onion", "two-grain bread", "nan g"] {
            assert_eq!(ends(text), None, "{text}");
        }
    }

    #[test]
    fn a_number_that_is_none_or_two_is_refused() {
        for text in ["0 g", "-2 g", "1/0 cup", "3-2", "1,000 g", "0.0", "99999999999 g"] {
            assert!(number(&cut(text), 0).is_err(), "{text}");
        }
    }

    #[test]
    fn a_comma_before_three_digits_says_both_numbers_it_can_mean() {
        let said = |text: &str| number(&cut(text), 0).map(|_| ()).expect_err("it can mean two");
        assert_eq!(said("1,500 g"), error("\"1,500\" can be read as thousands, 1500, or as 1.5", "write 1500 or 1.5"));
        assert_eq!(said("2,000 g"), error("\"2,000\" can be read as thousands, 2000, or as 2", "write 2000 or 2"));
    }

    #[test]
    fn two_thirds_are_two_over_three() {
        let read = number(&cut("2/3 cup"), 0).expect("reads").expect("a number");
        assert_eq!(read.number.low, Number::over(2, 3));
    }
}
