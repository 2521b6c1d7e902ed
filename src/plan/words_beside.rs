//! Foods that words name: in a step, in the preparation or the remark of a line, in a note.
//!
//! A name counts where a cook would take the food by it. It does not where it is what is done ("butter a tin", "roll out"), a tool ("milk
//! pan", "egg wash brush"), a likeness ("the size of a walnut", "like breadcrumbs"), or denied ("without almonds", "nut-free").
//!
//! Knows words and foods; knows neither eaters nor amounts.

use crate::foods::{FoodId, Foods};
use crate::kitchen::Words;
use crate::measure::Kind;

/// What denies a food that it stands before, at most two words off: "without any nuts".
const NONE: [&str; 11] = ["no", "without", "not", "minus", "free", "omit", "never", "nor", "avoid", "excluding", "vegan"];
/// As [`NONE`], in several words.
const NONE_OF: [&[&str]; 7] = [
    &["instead", "of"],
    &["in", "place", "of"],
    &["rather", "than"],
    &["leave", "out"],
    &["do", "not"],
    &["don't", "add"],
    &["don't", "use"],
];
/// What may stand between: "without any nuts", "no added butter".
const BETWEEN: [&str; 8] = ["any", "the", "added", "more", "all", "use", "add", "extra"];

/// After a food, with or without a hyphen: it is not the food.
const OTHERWISE: [&str; 12] =
    ["free", "sized", "size", "coloured", "colored", "shaped", "thin", "thick", "like", "brown", "flavoured", "flavored"];

/// After a food: a thing of the kitchen that is called after it. Singular.
const TOOLS: [&str; 37] = [
    "brush",
    "pan",
    "tin",
    "dish",
    "bowl",
    "cup",
    "glass",
    "plate",
    "board",
    "knife",
    "fork",
    "spoon",
    "tray",
    "sheet",
    "stone",
    "oven",
    "maker",
    "machine",
    "cutter",
    "mould",
    "mold",
    "iron",
    "griddle",
    "grater",
    "slicer",
    "poacher",
    "timer",
    "kettle",
    "pot",
    "cloth",
    "muslin",
    "thermometer",
    "jug",
    "jar",
    "bottle",
    "basket",
    "peel",
];

/// Names of foods that are, at the head of a clause, what is done. Singular.
const VERBS: [&str; 12] = ["butter", "cream", "roll", "wrap", "toast", "char", "fish", "bread", "skate", "port", "shell", "egg"];
/// After one of [`VERBS`] in the midst of a clause: it is done to something.
const DONE_TO: [&str; 22] = [
    "the",
    "a",
    "an",
    "it",
    "them",
    "each",
    "both",
    "all",
    "every",
    "these",
    "those",
    "your",
    "this",
    "one",
    "two",
    "another",
    "up",
    "out",
    "around",
    "tightly",
    "lightly",
    "generously",
];
/// Before one of [`VERBS`]: what follows is done.
const DOING: [&str; 14] =
    ["and", "then", "to", "or", "lightly", "generously", "well", "carefully", "now", "next", "gently", "thickly", "thinly", "dry"];

/// Single words that mean something else in running text, though lines know them as foods: "fry til golden".
const ANOTHER: [&str; 2] = ["til", "danish"];

/// What likens: a food after it, in the same breath, only shows how something looks or how large it is.
const LIKENING: [&str; 10] =
    ["size", "consistency", "texture", "thickness", "resembling", "resemble", "colour", "color", "shape", "resembles"];
/// Before "like": it likens. "Nuts like almonds" does not.
const LOOKS: [&str; 12] = ["look", "looks", "looking", "until", "is", "be", "becomes", "become", "feels", "more", "just", "mixture"];
/// So many words reach from what likens to the food.
const BREATH: usize = 5;

/// Each known food that a text names, once, with the words that name it.
pub(super) fn foods_in(text: &str, foods: &Foods) -> Vec<(FoodId, String)> {
    let w = Words::of(text);
    let mut found: Vec<(FoodId, String)> = Vec::new();
    let mut at = 0;
    let mut denied = None;
    while at < w.len() {
        let Some((food, end)) = w.food(at, foods).or_else(|| done_with(&w, at, foods)) else {
            at += 1;
            continue;
        };
        let goes_on = denied == Some(at.saturating_sub(1)) && ["or", "nor"].iter().any(|word| w.is(at.saturating_sub(1), word));
        let is_denied = goes_on || is_denied(&w, at);
        if is_denied {
            denied = Some(end);
        }
        let is_other = is_denied || is_otherwise(&w, end) || is_done(&w, at, end) || is_likeness(&w, at) || is_another(&w, at, end);
        if !is_other && found.iter().all(|(known, _)| *known != food) {
            found.push((food, w.text(at..end).to_owned()));
        }
        at = end;
    }
    found
}

/// What is "buttered", "floured" or "breaded" has that food on it.
fn done_with(w: &Words<'_>, at: usize, foods: &Foods) -> Option<(FoodId, usize)> {
    const DONE_WITH: [(&str, &str); 5] =
        [("buttered", "butter"), ("cheesy", "cheese"), ("breaded", "breadcrumbs"), ("crumbed", "breadcrumbs"), ("floured", "flour")];
    let (_, food) = DONE_WITH.iter().find(|(word, _)| w.is(at, word))?;
    Some((foods.find_known(&crate::foods::key_of(food))?, at + 1))
}

fn is_one_of(w: &Words<'_>, at: usize, words: &[&str]) -> bool {
    words.iter().any(|word| w.is(at, word))
}

/// Where the words before `at` begin that are said in one breath with it, at most `most` of them.
fn breath(w: &Words<'_>, at: usize, most: usize) -> usize {
    let parts = |place: usize| !matches!(w.kind(place), Some(Kind::Word | Kind::Number | Kind::Fraction)) && !w.is_hyphen(place);
    (at.saturating_sub(most)..at).rev().find(|place| parts(*place)).map_or(at.saturating_sub(most), |place| place + 1)
}

fn is_denied(w: &Words<'_>, at: usize) -> bool {
    let first = breath(w, at, BREATH);
    let mut before = at;
    while before > first && is_one_of(w, before - 1, &BETWEEN) {
        before -= 1;
    }
    let phrase =
        |words: &&[&str]| before >= first + words.len() && words.iter().enumerate().all(|(i, word)| w.is(before - words.len() + i, word));
    before > first && is_one_of(w, before - 1, &NONE) || NONE_OF.iter().any(phrase)
}

fn is_otherwise(w: &Words<'_>, end: usize) -> bool {
    let after = end + usize::from(w.is_hyphen(end));
    // Without a hyphen "brown" is what is done next, and "like" names another.
    let joined = after > end;
    let other = OTHERWISE.iter().any(|word| w.is(after, word) && (joined || !["brown", "like"].contains(word)));
    let tool = end + usize::from(w.is(end, "wash"));
    other || TOOLS.contains(&w.key_at(tool))
}

/// Is the name what is done, not what it is done to?
fn is_done(w: &Words<'_>, at: usize, end: usize) -> bool {
    if end != at + 1 || !VERBS.contains(&w.key_at(at)) || w.key_at(at).len() != w.text(at..end).len() {
        return false;
    }
    let is_word = |place: usize| w.kind(place) == Some(Kind::Word);
    let head = at == 0 || !is_word(at - 1) && w.kind(at - 1) != Some(Kind::Number) && w.kind(at - 1) != Some(Kind::Comma);
    let does_to = is_one_of(w, end, &DONE_TO) || w.kind(end) == Some(Kind::Number);
    let and_another = w.is(end, "and") && is_one_of(w, end + 2, &DONE_TO);
    let fished = w.is(at, "fish") && (end..end + 5).any(|place| w.is(place, "out"));
    if head {
        // "Butter, sugar and flour go in" names it; "Cream together" does it.
        return is_word(end) && !w.is(end, "and") || and_another || fished;
    }
    let comma = w.kind(at - 1) == Some(Kind::Comma);
    (comma || is_one_of(w, at - 1, &DOING)) && (does_to || and_another || fished)
}

fn is_likeness(w: &Words<'_>, at: usize) -> bool {
    let first = breath(w, at, BREATH);
    let likened = |place: usize| {
        is_one_of(w, place, &LIKENING)
            || w.is(place, "like") && place > 0 && is_one_of(w, place - 1, &LOOKS)
            || w.is(place, "as") && place > first + 1 && w.is(place - 2, "as")
    };
    (first..at).any(likened)
}

fn is_another(w: &Words<'_>, at: usize, end: usize) -> bool {
    end == at + 1 && ANOTHER.contains(&w.key_at(at)) && w.key_at(end) != "seed"
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    /// What the texts name, each written down before the first run.
    const NAMED: [(&str, &[&str]); 69] = [
        // In lines.
        ("with chopped almonds", &["almonds"]),
        ("or 10 g walnuts", &["walnuts"]),
        ("rolled in sesame seeds and salt", &["sesame seeds", "salt"]),
        ("without almonds", &[]),
        ("in walnut-sized pieces", &[]),
        ("finely diced", &[]),
        ("or almonds if liked", &["almonds"]),
        ("nut-free", &[]),
        ("tossed in flour", &["flour"]),
        ("brushed with beaten egg", &["egg"]),
        // In steps: foods.
        ("Scatter over chopped walnuts.", &["walnuts"]),
        ("Stir in the cream and serve.", &["cream"]),
        ("Whisk sugar and cream until smooth.", &["sugar", "cream"]),
        ("Beat the butter and cream together.", &["butter", "cream"]),
        ("Butter, sugar and milk go in.", &["Butter", "sugar", "milk"]),
        ("Fry in butter until golden.", &["butter"]),
        ("Melt butter in a pan.", &["butter"]),
        ("Brush with egg wash.", &["egg"]),
        ("Brush the tops with egg or milk.", &["egg", "milk"]),
        ("Flour the board.", &["Flour"]),
        ("Dust with flour and shake.", &["flour"]),
        ("Top with toast.", &["toast"]),
        ("Serve with crusty bread and butter.", &["crusty bread", "butter"]),
        ("Add a handful of nuts, such as walnuts or pecans.", &["nuts", "walnuts", "pecans"]),
        ("Use nuts like almonds.", &["nuts", "almonds"]),
        ("Add the cod, skin side up.", &["cod"]),
        ("Scatter over parmesan and til seeds.", &["parmesan", "til"]),
        ("Add milk, whisk and simmer.", &["milk"]),
        ("Finish with a splash of soy sauce.", &["soy sauce"]),
        ("Stir in peanut butter.", &["peanut butter"]),
        ("A spoonful of mustard or tahini is good here.", &["mustard", "tahini"]),
        ("Thicken with cornflour, or 1 tbsp flour.", &["cornflour", "flour"]),
        // What is done.
        ("Butter a tin.", &[]),
        ("Butter two tins and line them.", &[]),
        ("Grease and butter the dish.", &[]),
        ("Lightly butter the dish.", &[]),
        ("Line the tin, butter it and chill.", &[]),
        ("Butter generously.", &[]),
        ("Cream until light.", &[]),
        ("Roll out thinly.", &[]),
        ("Roll the dough, wrap it and chill.", &[]),
        ("Wrap tightly.", &[]),
        ("Toast until golden.", &[]),
        ("Dry and toast the pan.", &[]),
        ("Char the peppers.", &["peppers"]),
        ("Fish out the bay leaf.", &["bay leaf"]),
        ("Fry til golden.", &[]),
        // Other foods, and words that only begin like one.
        ("Drain the butter beans.", &["butter beans"]),
        ("Add the coconut and the nutmeg.", &["coconut", "nutmeg"]),
        ("Pour in the coconut milk.", &["coconut milk"]),
        ("Slice the butternut squash.", &["butternut squash"]),
        ("Add the cream of tartar.", &["cream of tartar"]),
        ("Peel the eggplant.", &["eggplant"]),
        // Tools.
        ("Use an egg wash brush.", &[]),
        ("Heat in a milk pan.", &[]),
        ("Spread with a butter knife.", &[]),
        ("Bake in a muffin tin on a pizza stone.", &[]),
        ("Serve with buttered toast.", &["buttered", "toast"]),
        ("white beans, buttered", &["white beans", "buttered"]),
        ("Pour into a buttered dish.", &[]),
        // Likenesses.
        ("Cut into pieces the size of a walnut.", &[]),
        ("Rub in until it looks like breadcrumbs.", &[]),
        ("Rub in until the mixture resembles fine breadcrumbs.", &[]),
        ("Thin to the consistency of double cream.", &[]),
        ("It should be as thick as cream.", &[]),
        // Denied.
        ("No need for butter or cream here.", &["butter", "cream"]),
        ("Cook without any butter or cream.", &[]),
        ("Use oil instead of butter.", &["oil"]),
        ("Do not add cheese.", &[]),
    ];

    #[test]
    fn the_foods_that_words_name_are_found_and_those_that_they_only_seem_to_name_are_not() {
        let foods = Foods::reference();
        let named = |text: &str| foods_in(text, &foods).into_iter().map(|(_, words)| words).collect::<Vec<String>>();
        let wrong: Vec<String> = NAMED
            .iter()
            .filter(|(text, meant)| named(text) != *meant)
            .map(|(text, meant)| format!("{text}: {:?}, not {meant:?}", named(text)))
            .collect();
        assert_eq!(wrong, Vec::<String>::new());
    }
}
