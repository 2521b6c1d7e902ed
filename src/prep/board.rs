//! Words of the board: what a line's preparation asks for there, and what is taken by feel. Knows no line and no step.

use crate::measure::Word;

/// Words that mean work with a knife, a peeler, a grater or the hands on the board. The field's usual terms: common practice, no source.
#[rustfmt::skip]
const CUTS: [&str; 45] = [
    "diced", "chopped", "sliced", "grated", "peeled", "crushed", "minced", "shredded", "cubed", "halved", "quartered", "wedges", "wedge",
    "zested", "juiced", "torn", "picked", "trimmed", "julienned", "julienne", "cored", "deseeded", "seeded", "stoned", "pitted", "topped",
    "scrubbed", "stripped", "shaved", "snipped", "cut", "rings", "strips", "matchsticks", "chunks", "cubes", "slices", "sticks", "florets",
    "spiralised", "bruised", "zest", "juice", "batons", "crumbled",
];

/// Does a line's preparation ask for work on the board?
pub(super) fn is_cut(prep: &str) -> bool {
    prep.split(|c: char| !c.is_alphanumeric()).any(|word| CUTS.contains(&word.to_lowercase().as_str()))
}

/// Words of which half a one can be fetched.
pub fn is_loose(word: Word) -> bool {
    LOOSE.contains(&word)
}

const LOOSE: [Word; 6] = [Word::Handful, Word::Pinch, Word::Dash, Word::Drizzle, Word::Dollop, Word::Knob];

/// As [`is_loose`], of the word in print.
pub(super) fn is_loose_in_print(word: &str) -> bool {
    LOOSE.iter().any(|loose| loose.singular() == word)
}
