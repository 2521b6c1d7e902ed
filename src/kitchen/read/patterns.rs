//! meals.toml: ways to put a meal together.

use super::lines::Speech;
use super::names::Names;
use super::plates::{Asking, Places, enough_fit, read_plates};
use super::table::Table;
use super::{hint, shapes};
use crate::kitchen::{Household, Pattern};

/// Every `[[pattern]]`, in order of the file; `known` where the household's mealtimes could be read.
pub(super) fn read_patterns(
    top: &Table<'_>,
    (household, known): (&Household, bool),
    places: &Places<'_>,
    names: &mut Names,
    speech: &mut Speech<'_>,
) -> Vec<Pattern> {
    let mut patterns: Vec<Pattern> = Vec::new();
    for table in top.each("pattern", "[[pattern]]") {
        let name = table.required("name", "\"Plate\"", shapes::text).unwrap_or_default();
        if !name.is_empty() && !names.add(&name, patterns.len()) {
            table.mistake("name", format!("two patterns are named \"{name}\""), "Give each a name of its own.");
        }
        let mealtimes = read_mealtimes(&table, household, known);
        let asking = Asking { table: &table, whose: format!("the pattern \"{name}\"") };
        let each = read_plates(&asking, "each", places, speech);
        let shared = read_plates(&asking, "shared", places, speech);
        enough_fit(&asking, &[&each, &shared], places, speech);
        if !table.has("each") && !table.has("shared") {
            table.missing("each", "[\"1 portion any:grain\"]");
        }
        patterns.push(Pattern {
            name,
            mealtimes,
            each,
            shared,
            at_most: table.optional("at_most", shapes::whole(0)),
            minutes: table.optional("minutes", shapes::minutes),
            style: table.optional("style", shapes::text).map(|style| style.to_lowercase()),
            at: table.spot(),
            keys_at: table.keys_at(&["at_most", "minutes"]),
        });
    }
    patterns
}

fn read_mealtimes(table: &Table<'_>, household: &Household, known: bool) -> Option<Vec<String>> {
    let mut words = Vec::new();
    for (typed, at) in table.texts("at")? {
        let all = household.mealtimes.keys().map(String::as_str);
        match household.mealtimes.keys().find(|word| word.eq_ignore_ascii_case(&typed)) {
            Some(word) => words.push(word.clone()),
            None if known => {
                let remedy = hint::did_you_mean(&typed, all, "Add it to mealtimes in kitchen.toml.");
                table.file.found.mistake(at, format!("at: \"{typed}\" is no word of mealtimes"), remedy);
            }
            None => {}
        }
    }
    Some(words)
}
