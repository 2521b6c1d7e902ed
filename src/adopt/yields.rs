//! What a page says a recipe makes, as `makes` is written.

use crate::measure::{Dimension, Spoons, read_quantity};

/// Words for eaters' helpings, in the singular.
const PORTIONS: [&str; 8] = ["serving", "portion", "person", "people", "guest", "serve", "adult", "helping"];

/// "Serves 4–6" is 4 portions, "24 biscuits" are pieces, "1.5 kg" and "1 litre" stay; `None` where no number is said.
pub(super) fn makes(said: &str) -> Option<String> {
    let said = said.trim();
    let start = said.find(|c: char| c.is_ascii_digit())?;
    let number: String = said[start..].chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    let number = number.trim_end_matches('.');
    let after = &said[start + number.len()..];
    let rest = after_the_range(after).trim_start_matches([' ', '-', '–', ')']);
    let word: String = rest.chars().take_while(|c| c.is_alphabetic()).collect::<String>().to_lowercase();
    let before = said[..start].to_lowercase();
    let measure = read_quantity(&format!("{number} {word}"), Spoons::Us).ok().map(|amount| amount.dimension());
    if number.parse::<f64>().is_ok_and(|number| number <= 0.0) {
        return None;
    }
    if matches!(measure, Some(Dimension::Mass | Dimension::Volume)) && after.starts_with([' ', 'g', 'k', 'm', 'l']) {
        return Some(format!("{number} {word}"));
    }
    let is_portion = |word: &str| PORTIONS.iter().any(|known| word == *known || word.strip_suffix('s') == Some(known));
    let said_before = before.split(|c: char| !c.is_alphabetic()).any(|word| is_portion(word) || word == "for");
    if word.is_empty() || is_portion(&word) || said_before {
        return Some(counted(number, "portion"));
    }
    let outside = rest.split('(').next().unwrap_or_default();
    let further = outside.split(|c: char| !c.is_alphabetic()).any(|word| is_portion(&word.to_lowercase()));
    Some(counted(number, if further { "portion" } else { "piece" }))
}

/// "–6 people" after "4": of a range the lower end is made.
fn after_the_range(after: &str) -> &str {
    let trimmed = after.trim_start();
    let rest = ["-", "–", "—", "to ", "or "].iter().find_map(|dash| trimmed.strip_prefix(dash)).map(str::trim_start);
    match rest.filter(|rest| rest.starts_with(|c: char| c.is_ascii_digit())) {
        Some(rest) => rest.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.'),
        None => after,
    }
}

fn counted(number: &str, word: &str) -> String {
    format!("{number} {word}{}", if number == "1" { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_yield_is_portions_pieces_or_an_amount() {
        let read = |said| makes(said).unwrap_or_default();
        for (said, meant) in [
            ("Serves 4–6", "4 portions"),
            ("4", "4 portions"),
            ("4 servings", "4 portions"),
            ("Makes 24 biscuits", "24 pieces"),
            ("24 biscuits", "24 pieces"),
            ("1 loaf", "1 piece"),
            ("1 loaf (8 servings)", "1 piece"),
            ("4 generous servings", "4 portions"),
            ("1.5 kg", "1.5 kg"),
            ("about 1 litre", "1 litre"),
            ("500g", "500 g"),
            ("for 2 people", "2 portions"),
            ("6 to 8 people", "6 portions"),
            ("plenty", ""),
            ("0", ""),
        ] {
            assert_eq!(read(said), meant, "{said}");
        }
    }
}
