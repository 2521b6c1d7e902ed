//! Whether the words of a step heat what is in it, whatever appliance it names: "Scatter with sesame and bake until brown".

use super::verbs::{Way, verb};
use crate::kitchen::Piece;

/// Does a clause of a step begin with a verb of heat, or put it where it is hot?
pub fn heats_in_words(text: &[Piece]) -> bool {
    let said: String = text.iter().map(|piece| if let Piece::Words(words) = piece { words.as_str() } else { "it" }).collect();
    let said = said.to_lowercase();
    const PLACES: [&str; 7] =
        ["in the oven", "to the oven", "into the oven", "under the grill", "on the hob", "in the microwave", "on the heat"];
    PLACES.iter().any(|place| said.contains(place)) || clauses(&said).any(begins_with_heat)
}

fn clauses(said: &str) -> impl Iterator<Item = &str> {
    said.split(['.', ',', ';', ':', '!', '(']).flat_map(|part| part.split(" and ")).flat_map(|part| part.split(" then ")).map(str::trim)
}

/// "Bake for an hour", "then gently simmer", "slow cook".
fn begins_with_heat(clause: &str) -> bool {
    const BEFORE: [&str; 7] = ["then", "and", "gently", "slowly", "now", "quickly", "carefully"];
    let mut words = clause.split_whitespace().skip_while(|word| BEFORE.contains(word));
    let Some(first) = words.next() else { return false };
    let two = words.next().map(|second| format!("{first} {second}")).unwrap_or_default();
    [first, two.as_str()]
        .into_iter()
        .filter_map(verb)
        .any(|verb| matches!(verb.way, Way::HandsOn(_) | Way::Wait(..) | Way::Heat) && !matches!(verb.word, "preheat" | "pre-heat"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_heats_by_its_verb_or_its_place_and_not_by_what_was_done_before() {
        let heats = |words: &str| heats_in_words(&[Piece::Words(words.to_owned())]);
        for words in ["Scatter with the seeds and bake until brown.", "Fry.", "Stir in, then simmer.", "Put in the oven.", "Slow cook it."]
        {
            assert!(heats(words), "{words}");
        }
        for words in
            ["Take out of the oven.", "Stir in the toasted seeds.", "Preheat the oven.", "Mash with the tahini.", "Serve with roast beef."]
        {
            assert!(!heats(words), "{words}");
        }
    }
}
