//! What stands above a list: the name, how much it makes, how long it takes, where it is from, each by its word or by its place.

use super::line::{is_short, is_yield};
use super::yields::makes;
use super::{Adopted, Source};
use crate::measure::read_minutes;

/// Words before a time, and what takes so long.
#[rustfmt::skip]
const TIMES: [(&str, &str); 15] = [
    ("preparation time", "preparation"), ("prep time", "preparation"), ("preparation", "preparation"), ("prep", "preparation"), ("hands-on time", "preparation"),
    ("cooking time", "cooking"), ("cook time", "cooking"), ("cooking", "cooking"), ("cook", "cooking"), ("baking time", "cooking"),
    ("total time", "in all"), ("total", "in all"), ("ready in", "in all"), ("takes", "in all"), ("time", "in all"),
];
/// Words before a name, an author, a source.
const NAMES: [&str; 4] = ["title", "name", "recipe", "recipe name"];
const AUTHORS: [&str; 3] = ["author", "by", "written by"];
const SOURCES: [&str; 2] = ["source", "from"];
/// Words before what is no step, wherever it stands.
const NO_STEP: [&str; 8] =
    ["allergens", "nutrition", "nutrition per serving", "nutrition per portion", "calories", "per serving", "per portion", "tags"];

/// "Title: Barley salad" under the word "title": what stands behind it.
pub(super) fn label<'l>(line: &'l str, word: &str) -> Option<&'l str> {
    let (said, rest) = line.split_once(':')?;
    let rest = rest.trim();
    (said.trim().eq_ignore_ascii_case(word) && !rest.is_empty() && !rest.starts_with("//")).then_some(rest)
}

/// "Prep time: 15 minutes", "Ready in 40 min": what takes how many minutes.
fn time(line: &str) -> Option<(&'static str, i64)> {
    let low = line.trim().trim_matches(['(', ')', '.']).to_lowercase();
    let (word, rest) = TIMES.iter().filter_map(|(word, what)| Some((*what, low.strip_prefix(word)?))).next()?;
    let rest = rest.trim_start_matches([':', ' ', '-', '–', '—']);
    let rest = rest.trim_start_matches("about ").trim_start_matches("approx. ").replace(" and ", " ");
    let minutes = read_minutes(&rest).ok()?.0;
    (rest.starts_with(|c: char| c.is_ascii_digit()) && minutes > 0).then_some((word, minutes))
}

pub(super) fn is_time(line: &str) -> bool {
    time(line).is_some()
}

/// Takes a line that says how long something takes.
pub(super) fn take_time(line: &str, recipe: &mut Adopted) -> bool {
    let Some((what, minutes)) = time(line).filter(|(what, _)| recipe.times.iter().all(|(known, _)| known != what)) else { return false };
    recipe.times.push((what, minutes));
    true
}

/// "Allergens: fish, milk", "Nutrition per serving: 240 kcal": nothing that is done.
pub(super) fn is_no_step(line: &str) -> bool {
    NO_STEP.iter().any(|word| label(line, word).is_some())
}

/// "Source: https://…", "Source: A neighbour", or an address alone on its line.
pub(super) fn is_source(line: &str, source: &mut Source) -> bool {
    let said = line.to_lowercase();
    let told = if said.starts_with("http://") || said.starts_with("https://") {
        (!line.contains(' ')).then_some(line)
    } else {
        said.starts_with("source:").then(|| line["source:".len()..].trim()).filter(|rest| !rest.is_empty())
    };
    let Some(told) = told else { return false };
    let place = if told.starts_with("http") { &mut source.address } else { &mut source.title };
    if place.is_some() {
        return false;
    }
    *place = Some(told.to_owned());
    true
}

/// The first line is the name; what follows says how much it makes, how long it takes and where it is from.
pub(super) fn head(line: &str, recipe: &mut Adopted) {
    // "(for 4)"
    let line = line.strip_prefix('(').and_then(|line| line.strip_suffix(')')).unwrap_or(line);
    let said = line.to_lowercase();
    let labelled = |words: &[&str]| words.iter().find_map(|word| label(line, word)).map(str::to_owned);
    let after = |word: &str| {
        said.starts_with(word).then(|| line[word.len()..].trim_start_matches([':', ' ']).to_owned()).filter(|rest| !rest.is_empty())
    };
    if is_source(line, &mut recipe.source) {
        return;
    }
    if let Some(name) = labelled(&NAMES) {
        match recipe.name.is_empty() {
            true => recipe.name = name,
            false => recipe.unplaced.push(line.to_owned()),
        }
    } else if let Some(title) =
        labelled(&SOURCES).or_else(|| after("source").or_else(|| after("from ")).filter(|_| !recipe.name.is_empty()))
    {
        let place = if title.starts_with("http") { &mut recipe.source.address } else { &mut recipe.source.title };
        *place = Some(title);
    } else if let Some(author) = labelled(&AUTHORS).or_else(|| after("by ")) {
        recipe.source.author = Some(author);
    } else if says_how_much(line, recipe) && recipe.makes.is_none() && makes(line).is_some() {
        recipe.makes = makes(line);
    } else if !take_time(line, recipe) {
        match recipe.name.is_empty() {
            true => recipe.name = line.to_owned(),
            false => recipe.unplaced.push(line.to_owned()),
        }
    }
}

fn says_how_much(line: &str, recipe: &Adopted) -> bool {
    let said = line.to_lowercase();
    let says = ["serves", "makes", "yield", "for ", "servings", "portions"].iter().any(|word| said.starts_with(word))
        || ["servings", "portions", "people"].iter().any(|word| said.ends_with(word))
        || said.trim_start_matches("about ").starts_with(|c: char| c.is_ascii_digit()) && is_short(line)
        || is_yield(line);
    // "For two: leek soup" is a name.
    says && (!recipe.name.is_empty() || is_yield(line) || said.contains(|c: char| c.is_ascii_digit()))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn each_line_of_a_head_has_its_place() {
        let mut recipe = Adopted::default();
        for line in [
            "Title: Barley salad",
            "Servings: 4",
            "Author: Ada",
            "Source: https://example.org/barley",
            "Prep time: 15 minutes",
            "Cook: 1 h 10 min",
            "Ready in 1 hour and 25 minutes",
            "Good cold.",
        ] {
            head(line, &mut recipe);
        }
        assert_eq!((recipe.name.as_str(), recipe.makes.as_deref()), ("Barley salad", Some("4 portions")));
        assert_eq!(recipe.times, [("preparation", 15), ("cooking", 70), ("in all", 85)]);
        assert_eq!((recipe.source.author.as_deref(), recipe.source.address.as_deref()), (Some("Ada"), Some("https://example.org/barley")));
        assert_eq!(recipe.unplaced, ["Good cold."]);
    }
}
