//! Lines that name the food first and its amount after it: "plain flour 200 g", "plain flour, 200 g", "flour (200 g)", "eggs, 2".

use crate::foods::{Foods, key_of};
use crate::measure::{Prefix, Unit, is_vulgar, prefix, unit_at};

/// The line with its amount first; `None` where it hides none.
pub(super) fn amount_first(text: &str, foods: &Foods) -> Option<String> {
    let (head, rest) = text.split_at(text.find([',', ';', '(']).unwrap_or(text.len()));
    let (head, rest) = at_dash(text).filter(|(before, _)| before.len() < head.len()).unwrap_or((head, rest));
    if head.trim().is_empty() {
        return None;
    }
    if foods.find_known(&key_of(head)).is_none()
        && let Some((food, amount)) = amount_at_end(head)
    {
        return Some(format!("{amount} {food}{rest}"));
    }
    if let Some(inner) = rest.strip_prefix('(') {
        let (inner, after) = inner.split_once(')')?;
        let (amount, left) = leading_amount(inner)?;
        return left.is_empty().then(|| format!("{amount} {}{after}", head.trim()));
    }
    let part = rest.get(rest.chars().next()?.len_utf8()..)?;
    let (part, after) = part.split_at(part.find([',', ';', '(']).unwrap_or(part.len()));
    let (amount, left) = leading_amount(part)?;
    let left = if left.is_empty() { String::new() } else { format!(", {left}") };
    Some(format!("{amount} {}{left}{after}", head.trim()))
}

/// Before and from a dash with spaces around it.
fn at_dash(text: &str) -> Option<(&str, &str)> {
    let at = [" - ", " – ", " — "].iter().filter_map(|dash| text.find(dash)).min()?;
    Some((&text[..at], &text[at + 1..]))
}

/// The last words of `head` that are an amount and nothing else, after at least one that is not.
fn amount_at_end(head: &str) -> Option<(&str, &str)> {
    let starts = head
        .char_indices()
        .filter(|(at, sign)| *at > 0 && (sign.is_ascii_digit() || is_vulgar(*sign)) && head[..*at].ends_with(char::is_whitespace));
    starts.map(|(at, _)| at).find_map(|at| {
        let (amount, left) = leading_amount(&head[at..])?;
        left.is_empty().then(|| (head[..at].trim(), amount))
    })
}

/// A whole amount in digits at the start of a part, and what follows it: a bare number must stand alone, and only what is weighed or poured
/// may go on in words.
fn leading_amount(part: &str) -> Option<(&str, &str)> {
    let part = part.trim();
    if !part.starts_with(|c: char| c.is_ascii_digit() || is_vulgar(c)) {
        return None;
    }
    let Prefix { amount, unit_given, mut end } = prefix(part).ok()??;
    if amount.unit == Unit::Portion {
        return None;
    }
    // "400 g tin", "2 x 400 g tins"
    if amount.unit.is_measured()
        && let Some((Unit::Word(word), after)) = unit_at(part, end)
        && word.is_container()
    {
        end = after;
    }
    let left = part[end..].trim();
    let weighed = unit_given && amount.unit.is_measured() && left.starts_with(char::is_alphabetic);
    (left.is_empty() || weighed).then(|| (part[..end].trim(), left))
}
