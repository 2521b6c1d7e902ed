//! The number of pieces that a recipe makes, where the text of its steps says it: "divide the dough into 8", "shape into 24 biscuits". A
//! making of another size says its own.

use crate::kitchen::{Piece, Recipe};
use crate::measure::{Number, Quantity};

/// What a number of pieces stands after.
const BEFORE: [&str; 6] = ["into", "form", "shape", "make", "makes", "about"];

/// What makes it a measure of something else: "into 8 cm squares", "into 8 mm slices".
const MEASURES: [&str; 16] =
    ["cm", "mm", "inch", "inches", "in", "g", "kg", "ml", "l", "min", "minutes", "minute", "hours", "tbsp", "tsp", "portions"];

const NUMBERS: [&str; 23] = [
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
    "twenty",
    "twenty-one",
    "twenty-two",
    "twenty-three",
    "twenty-four",
];

/// The whole number of pieces that one batch makes; `None` where it makes portions or a weight.
fn made_by_one(recipe: &Recipe) -> Option<&Number> {
    let Quantity::Count(number) = &recipe.makes else { return None };
    (*number >= 2 && number.is_whole()).then_some(number)
}

/// The words with the number of pieces of so many batches in place of that of one.
pub(super) fn with_the_pieces(recipe: &Recipe, batches: &Number, words: &str) -> String {
    let Some(one) = made_by_one(recipe) else { return words.to_owned() };
    let many = one * batches;
    if many == *one || !many.is_whole() {
        return words.to_owned();
    }
    let mut said = words.to_owned();
    // From the end, so that the places before stay as they are.
    for (from, until) in places(one, words).into_iter().rev() {
        said.replace_range(from..until, &many.to_string());
    }
    said
}

/// Whether the pieces are there by the end of a step: it, or one before it, says how many.
pub(super) fn are_there_by(recipe: &Recipe, step: usize) -> bool {
    let Some(one) = made_by_one(recipe) else { return false };
    let words = recipe.steps.iter().take(step + 1).flat_map(|step| &step.text);
    words.into_iter().any(|piece| matches!(piece, Piece::Words(words) if !places(one, words).is_empty()))
}

/// Where the number stands for its pieces, as places in the text.
fn places(one: &Number, text: &str) -> Vec<(usize, usize)> {
    let figure = one.to_string();
    let spelled = (one.to_f64() as usize).checked_sub(2).and_then(|place| NUMBERS.get(place));
    let mut words: Vec<(usize, &str)> = Vec::new();
    let mut from = None;
    for (place, letter) in text.char_indices().chain([(text.len(), ' ')]) {
        match (letter.is_whitespace(), from) {
            (true, Some(start)) => {
                words.push((start, &text[start..place]));
                from = None;
            }
            (false, None) => from = Some(place),
            _ => {}
        }
    }
    let bare = |word: &str| word.trim_end_matches([',', '.', ';', ':', ')']).to_lowercase();
    let is_it = |word: &str| bare(word) == figure || spelled.is_some_and(|spelled| bare(word) == *spelled);
    let stands = |at: usize| {
        let before = at.checked_sub(1).is_some_and(|before| BEFORE.contains(&words[before].1.to_lowercase().as_str()));
        let measure = words[at].1.len() == bare(words[at].1).len()
            && words
                .get(at + 1)
                .is_some_and(|(_, next)| MEASURES.contains(&bare(next).trim_start_matches('-')) || next.starts_with(['°', '×']));
        before && !measure
    };
    let found = words.iter().enumerate().filter(|(at, (_, word))| is_it(word) && stands(*at));
    found.map(|(_, (start, word))| (*start, start + bare(word).len())).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::prep::testing::{recipe, step};

    fn said(makes: i64, batches: f64, words: &str) -> String {
        let mut one = recipe("flatbreads", "Flatbreads", 4.0, vec![]);
        one.makes = Quantity::pieces(makes);
        with_the_pieces(&one, &Number::from(batches), words)
    }

    #[test]
    fn a_larger_making_says_its_own_number_of_pieces() {
        // 8 x 1.5.
        assert_eq!(said(8, 1.5, "Divide the dough into 8 and roll each thin."), "Divide the dough into 12 and roll each thin.");
        assert_eq!(said(8, 1.5, "Cut into eight."), "Cut into 12.");
        assert_eq!(said(24, 0.5, "Shape into 24 biscuits on two trays."), "Shape into 12 biscuits on two trays.");
        assert_eq!(said(8, 1.0, "Cut into eight."), "Cut into eight.");
    }

    #[test]
    fn a_number_of_something_else_stays() {
        for words in ["Bake for 8 minutes.", "Cut into 8 cm squares.", "Divide into 4.", "At 8 °C.", "Heat the oven to 80 °C."] {
            assert_eq!(said(8, 1.5, words), words);
        }
        // No half of a piece is said.
        assert_eq!(said(3, 1.5, "Divide into 3."), "Divide into 3.");
    }

    #[test]
    fn pieces_are_there_from_the_step_that_says_so() {
        let steps = vec![step("Mix."), step("Divide into 8."), step("Bake for 8 minutes.")];
        let mut one = recipe("flatbreads", "Flatbreads", 4.0, steps);
        one.makes = Quantity::pieces(8);
        assert_eq!((0..3).map(|step| are_there_by(&one, step)).collect::<Vec<_>>(), [false, true, true]);
    }
}
