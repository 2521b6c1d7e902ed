//! Foods that are only named in the words beside a line: in its preparation or its remark.
//!
//! Knows words and foods; knows neither eaters nor amounts.

use crate::foods::{FoodId, Foods};
use crate::kitchen::Words;

/// Each known food that a text names, once, with the words that name it. "Nut-free", "without almonds" and "walnut-sized" name none.
pub(super) fn foods_in(text: &str, foods: &Foods) -> Vec<(FoodId, String)> {
    const NONE: [&str; 4] = ["no", "without", "not", "minus"];
    const OTHERWISE: [&str; 5] = ["free", "sized", "size", "coloured", "shaped"];
    let w = Words::of(text);
    let mut found: Vec<(FoodId, String)> = Vec::new();
    let mut at = 0;
    while at < w.len() {
        let Some((food, end)) = w.food(at, foods) else {
            at += 1;
            continue;
        };
        let is = |place: usize, words: &[&str]| words.iter().any(|word| w.is(place, word));
        let is_absent = at > 0 && is(at - 1, &NONE);
        let is_no_food = is(end + usize::from(w.is_hyphen(end)), &OTHERWISE);
        if !is_absent && !is_no_food && found.iter().all(|(known, _)| *known != food) {
            found.push((food, w.text(at..end).to_owned()));
        }
        at = end;
    }
    found
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn the_foods_that_words_name_are_found_and_those_that_they_deny_are_not() {
        let foods = Foods::reference();
        let named = |text: &str| foods_in(text, &foods).into_iter().map(|(_, words)| words).collect::<Vec<String>>();
        for (text, meant) in [
            ("with chopped almonds", vec!["almonds"]),
            ("or 10 g walnuts", vec!["walnuts"]),
            ("rolled in sesame seeds and salt", vec!["sesame seeds", "salt"]),
            ("without almonds", vec![]),
            ("in walnut-sized pieces", vec![]),
            ("finely diced", vec![]),
        ] {
            assert_eq!(named(text), meant, "{text}");
        }
    }
}
