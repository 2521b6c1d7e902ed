//! What one line of a plain text is, taken by itself: a heading, a line of a list, a sentence, a yield.

use super::Reads;
use super::row::is_numbered;
use super::yields::{is_portion, makes};
use crate::kitchen::method::opens_with_work;

/// Words that stand alone above the ingredients, or above the method.
#[rustfmt::skip]
const INGREDIENTS: [&str; 13] = [
    "amount ingredient", "amount ingredients", "quantity ingredient", "quantity ingredients",
    "ingredients", "you need", "you will need", "you'll need", "what you need", "what you will need", "what you'll need", "what goes in", "zutaten",
];
#[rustfmt::skip]
const METHOD: [&str; 14] = [
    "method", "directions", "instructions", "preparation", "procedure", "steps", "how to make it", "how to do it", "how to cook it", "to make", "what to do",
    "what you do", "how it is done", "zubereitung",
];

/// No line of a list is longer.
const LONGEST: usize = 160;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Part {
    Head,
    Ingredients,
    Method,
}

pub(super) fn heading(line: &str) -> Option<Part> {
    let word = line.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase().replace('’', "'");
    let rest = word.strip_prefix("ingredients").map(|rest| rest.trim_start_matches([' ', ':', '(', '-', ',']));
    // The digits of "Ingredients (for 4)" are trimmed away above.
    let for_so_many = rest.is_some_and(|rest| {
        !rest.is_empty() && line.to_lowercase().split_once(rest).is_some_and(|(_, end)| is_yield(&format!("{rest}{end}")))
    });
    if INGREDIENTS.contains(&word.as_str()) || for_so_many {
        Some(Part::Ingredients)
    } else if METHOD.contains(&word.as_str()) {
        Some(Part::Method)
    } else {
        None
    }
}

/// "For the dressing:" in a list.
pub(super) fn is_part_name(line: &str) -> bool {
    line.ends_with(':') && line.chars().count() < 60
}

/// "salt" and "a few sprigs of dill" in the middle of a list: no sentence.
pub(super) fn is_short(line: &str) -> bool {
    line.chars().count() <= 40 && !line.ends_with(['.', '!'])
}

/// "Chop the dill" and "In a pan, heat the oil.": something to do, or told in a sentence.
pub(super) fn is_sentence(line: &str) -> bool {
    line.ends_with(['.', '!']) || opens_with_work(line)
}

/// An ingredient with an amount, of a known food, and nothing to do with it.
pub(super) fn is_food(line: &str, reads: &dyn Fn(&str) -> Reads) -> bool {
    let as_line = reads(line);
    as_line.amount && as_line.food && listed(line, reads) && !opens_with_work(line)
}

/// Does the line stand in a list of ingredients? A numbered step does not, nor a sentence.
pub(super) fn listed(line: &str, reads: &dyn Fn(&str) -> Reads) -> bool {
    let to_taste = line.to_lowercase().ends_with("to taste");
    // "2 tbsp olive oil." ends a list; a sentence does not begin with an amount of a food.
    let stopped = line.strip_suffix('.').is_some_and(|said| {
        let as_line = reads(said);
        let begins = said.starts_with(|letter: char| letter.is_numeric());
        said.contains(". ") || !(begins && as_line.amount && as_line.food) || opens_with_work(said)
    });
    !is_numbered(line) && line.chars().count() <= LONGEST && !stopped && (to_taste || reads(line).amount)
}

/// "Serves 4", "Makes 24 biscuits", "For 2", alone on a line.
pub(super) fn is_yield(line: &str) -> bool {
    const SAYS: [&str; 7] = ["serves", "serving", "makes", "yield", "servings", "portions", "feeds"];
    let line = line.trim_matches(['(', ')', '.', ' ']);
    let said = line.to_lowercase();
    let first = said.split([' ', ':']).next().unwrap_or_default();
    const FOR: [&str; 7] = ["for ", "für ", "pour ", "para ", "per ", "för ", "voor "];
    let people = FOR.iter().find_map(|word| said.strip_prefix(word)).is_some_and(|rest| {
        let rest = rest.trim_start_matches("about ");
        let number = rest.rsplit_once(' ').filter(|(_, word)| is_portion(word)).map_or(rest, |(number, _)| number);
        !number.contains(' ') && makes(number).is_some()
    });
    (people || SAYS.contains(&first)) && is_short(line) && makes(line).is_some()
}
