//! Is a food heated once it is in? And an egg until it is firm? Read off the steps, their appliances, temperatures, times and words.
//!
//! Knows no eater.

use super::plate::Found;
use crate::foods::Kind;
use crate::foods::safety::least_inside;
use crate::kitchen::{Appliance, Piece, Recipe, Step, Ware};
use crate::measure::Minutes;

/// Is it heated once it is in: by a step of its dish that names it or comes later, or so by a dish that its dish goes into?
pub(super) fn is_heated(appliances: &[Appliance], recipes: &[Recipe], found: &Found<'_>) -> bool {
    heated_by(recipes, found, |step, _| heats(appliances, step))
}

/// As [`is_heated`], until egg is firm.
pub(super) fn is_firm(appliances: &[Appliance], recipes: &[Recipe], found: &Found<'_>) -> bool {
    heated_by(recipes, found, |step, words| {
        heats(appliances, step) && !leaves_it_soft(step) && words.is_none_or(|words| after_it_went_in(step, &words))
    })
}

/// Does `heats` say so of a step that names the food, which gets the words from there on, or of a later one?
fn heated_by(recipes: &[Recipe], found: &Found<'_>, heats: impl Fn(&Step, Option<String>) -> bool) -> bool {
    let inside = found.dishes.iter().skip(1).map(|part| Ware::Recipe(*part)).chain([Ware::Food(found.food)]);
    found.dishes.iter().zip(inside).any(|(dish, ware)| {
        let recipe = &recipes[*dish];
        let is_it = |piece: &Piece| {
            matches!(piece, Piece::Ingredient { index, .. } if recipe.ingredients.get(*index).is_some_and(|line| line.ware() == ware))
        };
        let first = recipe.steps.iter().position(|step| step.text.iter().any(is_it)).unwrap_or(0);
        recipe.steps.iter().skip(first).any(|step| heats(step, from_its_sentence(step, is_it)))
    })
}

fn heats(appliances: &[Appliance], step: &Step) -> bool {
    step.on.iter().any(|id| appliances[*id].heats()) || step.temperature.is_some() || step.inside.is_some()
}

/// What is done with heat, as a sentence says it; not what also is a thing, a colour or no heat at all: toast, brown, set. Common
/// practice, no source.
const HEATING: [&str; 20] = [
    "boil",
    "poach",
    "simmer",
    "fry",
    "sauté",
    "scramble",
    "bake",
    "roast",
    "grill",
    "steam",
    "cook",
    "heat",
    "melt",
    "braise",
    "stew",
    "griddle",
    "microwave",
    "thicken",
    "reduce",
    "blanch",
];

/// Words of an egg that is not firm.
const SOFT: [&str; 9] =
    ["runny", "soft-boil", "soft boil", "softly", "soft yolk", "yolk is soft", "yolks are soft", "barely set", "still soft"];

/// In less boiling, simmering or poaching than this the yolk of an egg stays soft. Common practice, no source.
const FIRM_AFTER: Minutes = Minutes(7);

/// What ends a sentence, or what is done with heat before something is stirred in.
const ENDS: [&str; 8] = [".", ";", "!", " then ", " and whisk", " and beat", " and fold", " and stir"];

/// The words of a step from the sentence on that first names the food; `None` where it does not.
fn from_its_sentence(step: &Step, is_it: impl Fn(&Piece) -> bool) -> Option<String> {
    const HERE: char = '\u{1}';
    let said = |piece: &Piece| match piece {
        Piece::Words(words) => words.to_lowercase(),
        piece if is_it(piece) => HERE.to_string(),
        Piece::Ingredient { .. } => "·".to_owned(),
    };
    let text: String = step.text.iter().map(said).collect();
    let here = text.find(HERE)?;
    let start = ENDS.iter().filter_map(|end| text[..here].rfind(end).map(|at| at + end.len())).max().unwrap_or(0);
    Some(text[start..].to_owned())
}

/// Does the heat of a step come once the food is in? What a step does not say in words it does to all that it names.
fn after_it_went_in(step: &Step, from_it_on: &str) -> bool {
    let names_heat = |text: &str| {
        // "Cooked cream", "toasted nuts": done before.
        let mut words = text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.ends_with("ed"));
        text.contains('°') || words.any(|word| HEATING.iter().any(|verb| is_form_of(word, verb)))
    };
    let whole: String =
        step.text.iter().filter_map(|piece| if let Piece::Words(words) = piece { Some(words.to_lowercase()) } else { None }).collect();
    names_heat(from_it_on) || !names_heat(&whole)
}

/// "fries", "frying" and "fried" of "fry".
fn is_form_of(word: &str, verb: &str) -> bool {
    let stem = verb.trim_end_matches(['e', 'y']);
    let of_y = |rest: &str| verb.ends_with('y') && ["y", "ies", "ied", "ying"].contains(&rest);
    let ending = |rest: &str| ["", "e", "s", "es", "ed", "ing", "ting"].contains(&rest) || of_y(rest);
    word.strip_prefix(stem).is_some_and(ending)
}

/// By its words, its temperature inside, or its time.
fn leaves_it_soft(step: &Step) -> bool {
    let text: String =
        step.text.iter().map(|piece| if let Piece::Words(words) = piece { words.to_lowercase() } else { "egg".to_owned() }).collect();
    let by_words = SOFT.iter().any(|soft| text.contains(soft));
    let written = step.inside.filter(|_| !step.estimated.inside);
    let too_cool = written.zip(least_inside(Kind::RawEgg)).is_some_and(|(inside, least)| inside.0 < least.0);
    // "Boil the eggs for 4 minutes" is of the eggs alone; of a soup nobody knows.
    let boils = ["boil", "simmer", "poach"].iter().any(|verb| text.trim_start().starts_with(verb));
    let names_egg = text.contains("egg");
    let minutes = step.hands.0 + step.wait.0;
    let too_short = boils && names_egg && written.is_none() && minutes < FIRM_AFTER.0;
    by_words || too_cool || too_short
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_verb_is_known_in_its_forms() {
        for (word, verb) in [("fries", "fry"), ("frying", "fry"), ("baked", "bake"), ("baking", "bake"), ("sets", "set"), ("boil", "boil")]
        {
            assert!(is_form_of(word, verb), "{word}");
        }
        assert!(!is_form_of("setback", "set") && !is_form_of("frypan", "fry") && !is_form_of("cooker", "cook"));
    }
}
