//! Salt and pepper that a recipe gives no amount of, where no step speaks of them.

use crate::foods::Foods;
use crate::kitchen::{Ingredient, Piece, Recipe, Wanted};
use crate::words::{ended, in_a_sentence, listed, sentence};

/// What a cook does with salt and pepper that the line gives no amount of.
pub(super) fn seasons(foods: &Foods, one: &Ingredient) -> Option<&'static str> {
    const SEASONINGS: [(&str, &str); 3] = [("salt", "salt"), ("sea salt", "salt"), ("black pepper", "pepper")];
    let Wanted::Food { food, item: None, .. } = &one.wanted else { return None };
    SEASONINGS.iter().find(|row| row.0 == foods[*food].name).map(|row| row.1)
}

/// Do the steps speak of it in their own words: "salt lightly", "season"?
pub(super) fn says(recipe: &Recipe, verb: &str) -> bool {
    let words = recipe
        .steps
        .iter()
        .flat_map(|step| &step.text)
        .filter_map(|piece| if let Piece::Words(words) = piece { Some(words) } else { None });
    let is_said = |word: &str| word.eq_ignore_ascii_case(verb) || word.eq_ignore_ascii_case("season");
    words.flat_map(|words| words.split(|letter: char| !letter.is_alphabetic())).any(is_said)
}

/// "Salt and turn 1 kg chicken thighs"; where the first thing done is no moment for it, "Drain and rinse 500 g beans. Season with salt."
pub(super) fn seasoned(verbs: &[&str], said: &str) -> String {
    let first = said.split_whitespace().next().unwrap_or_default().trim_end_matches(',').to_lowercase();
    match verbs {
        [] => said.to_owned(),
        _ if said.is_empty() => format!("{}.", sentence(&listed(verbs))),
        _ if SEASONED_WITH.contains(&first.as_str()) => format!("{} and {}", sentence(&verbs.join(", ")), in_a_sentence(said)),
        _ => format!("{} Season with {}.", ended(said), listed(verbs)),
    }
}

/// What is done to food in the same moment as it is salted: common practice, no source.
#[rustfmt::skip]
const SEASONED_WITH: [&str; 26] = [
    "turn", "toss", "mix", "stir", "rub", "brown", "fry", "sear", "sauté", "soften", "sweat", "simmer", "boil", "cook", "steam", "poach", "stew", "braise", "roast", "bake", "grill",
    "mash", "whisk", "beat", "combine", "fold",
];
