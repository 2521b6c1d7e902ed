//! What the small words of a line mean.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use crate::foods::Grade;

/// What a word that stands before a food does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Class {
    /// Trimmed or worked on before it is measured: `diced`.
    Form,
    /// Says how: `finely`.
    Adverb,
    Cooked,
    Drained,
    /// Says how it is bought, never how it is trimmed: `boneless`.
    Way,
    Grade(Grade),
    /// Says nothing about what to buy, whatever the food: `ripe`.
    Plain,
    /// Dropped only before a food that is known: `cold` before water, but not of "cold brew".
    BeforeKnown,
    And,
}

#[rustfmt::skip]
const CLASSES: &[(Class, &[&str])] = &[
    (Class::Form, &[
        "chopped", "diced", "sliced", "grated", "shredded", "crushed", "mashed", "peeled", "trimmed", "halved", "quartered", "cubed",
        "julienned", "pitted", "stoned", "cored", "seeded", "deseeded", "de-seeded", "zested", "juiced", "squeezed", "melted", "softened",
        "beaten", "whisked", "sifted", "packed", "torn", "crumbled", "flaked", "cut", "roasted", "toasted", "fried", "grilled",
        "blanched", "soaked", "rinsed", "washed", "scrubbed", "topped", "tailed", "hulled", "husked", "skinned", "picked", "strained",
        "whipped", "pureed", "puréed", "riced", "spiralised", "spiralized", "shaved", "scored", "segmented", "wilted", "thawed",
        "defrosted", "slivered", "stemmed", "snipped", "bruised", "podded", "cooled",
    ]),
    (Class::Adverb, &["finely", "roughly", "coarsely", "thinly", "thickly", "freshly", "lightly", "well", "very", "loosely", "tightly", "firmly"]),
    (Class::Cooked, &["cooked", "boiled", "steamed", "hard-boiled", "soft-boiled", "hard-cooked"]),
    (Class::Drained, &["drained"]),
    (Class::Way, &[
        "boneless", "skinless", "shelled", "minced", "ground", "rolled", "skin-on", "bone-in", "lean", "unsmoked", "undyed", "low-sodium",
        "reduced-sodium", "low-salt", "reduced-salt", "low-fat", "reduced-fat", "half-fat", "full-fat", "light", "ready-made", "shop-bought", "store-bought",
        "homemade", "home-made",
    ]),
    (Class::Grade(Grade::Small), &["small", "little", "small-sized"]),
    (Class::Grade(Grade::Medium), &["medium", "medium-sized", "medium-size"]),
    (Class::Grade(Grade::Large), &["large", "big", "large-sized", "extra-large", "medium-large"]),
    (Class::Plain, &["fresh", "ripe", "good", "quality", "good-quality", "organic", "free-range", "nice"]),
    (Class::BeforeKnown, &[
        "extra-virgin", "extra", "virgin", "cold", "warm", "hot", "boiling", "lukewarm", "tepid", "iced", "chilled", "room-temperature",
        "firm", "new", "whole", "best", "fine", "plump", "thick", "thin", "long", "fat", "young", "unwaxed", "raw", "dry", "uncooked", "unpeeled", "plain", "unsalted",
        "salted", "day-old", "leftover", "free", "range", "of", "the", "your", "favourite", "favorite", "heaped", "level",
    ]),
    (Class::And, &["and", "&"]),
];

static BY_WORD: LazyLock<BTreeMap<&'static str, Class>> =
    LazyLock::new(|| CLASSES.iter().flat_map(|(class, words)| words.iter().map(|word| (*word, *class))).collect());

pub(super) fn class(word: &str) -> Option<Class> {
    BY_WORD.get(word).copied().or_else(|| {
        let has_capital = word.bytes().any(|b| b.is_ascii_uppercase());
        has_capital.then(|| BY_WORD.get(word.to_ascii_lowercase().as_str()).copied()).flatten()
    })
}

/// Words between the number and the unit: "2 heaped tbsp", "1 large bunch", "1 packed cup", "a thumb-sized piece".
pub(super) fn is_qualifier(word: &str) -> bool {
    const QUALIFIERS: [&str; 18] = [
        "heaped", "heaping", "level", "rounded", "scant", "generous", "good", "thick", "thin", "fat", "big", "whole", "packed", "lightly",
        "firmly", "tightly", "loosely", "full",
    ];
    let one_of = |known: &str| word.eq_ignore_ascii_case(known);
    matches!(class(word), Some(Class::Grade(_))) || QUALIFIERS.into_iter().any(one_of) || is_likened(word)
}

/// "Thumb-sized": as large as something else.
pub(super) fn is_likened(word: &str) -> bool {
    class(word).is_none() && ["-sized", "-size"].iter().any(|end| word.len() > end.len() && word.to_ascii_lowercase().ends_with(end))
}

/// A preparation begins here: "for frying", "to serve", "at room temperature".
pub(super) fn opens_preparation(word: &str) -> bool {
    ["for", "to", "at", "from", "cut", "until", "into", "per", "plus", "+", "preferably", "such"]
        .iter()
        .any(|known| word.eq_ignore_ascii_case(known))
}

/// "In brine" and the like, which an unknown food may have in its name.
pub(super) fn opens_preparation_of_a_known(word: &str) -> bool {
    opens_preparation(word)
        || ["in", "with", "without", "on", "as", "if", "mixed", "dissolved", "blended", "diluted", "made"]
            .iter()
            .any(|known| word.eq_ignore_ascii_case(known))
}

/// Words that say some amount, but not which: "a few", "some", "a little". Where the text goes on after them, and whether what
/// follows a "little" might be a food of that name.
pub(super) fn vague(text: &str) -> Option<(usize, bool)> {
    let mut words = text.split_inclusive(char::is_whitespace);
    let mut end = 0;
    let mut next = || {
        let word = words.next()?;
        end += word.len();
        Some((word.trim_end().to_ascii_lowercase(), end))
    };
    let (mut word, mut at) = next()?;
    let article = word == "a";
    if article {
        (word, at) = next()?;
        if word == "good" {
            (word, at) = next()?;
        }
    }
    let is_vague = match word.as_str() {
        "few" => true,
        "little" | "bit" | "lot" | "touch" | "hint" => article,
        "some" | "several" | "many" | "plenty" | "lots" => !article,
        _ => false,
    };
    let little = word == "little";
    is_vague.then(|| next().filter(|(of, _)| of == "of").map_or((at, little), |(_, after)| (after, false)))
}

/// The "juice of" or "finely grated zest and juice of" before a line, and where the line goes on.
pub(super) fn whole_of(text: &str) -> Option<(String, usize)> {
    let mut end = 0;
    let mut part = false;
    for word in text.split_inclusive(char::is_whitespace) {
        let plain = word.trim_end();
        let lower = plain.to_ascii_lowercase();
        end += word.len();
        match lower.as_str() {
            "the" => {}
            "juice" | "zest" | "rind" | "peel" => part = true,
            "of" if part => {
                let phrase = text[..end - word.len()].trim_end();
                let phrase = phrase.strip_prefix("the ").or_else(|| phrase.strip_prefix("The ")).unwrap_or(phrase);
                let rest = &text[end..];
                let numbered = crate::measure::number(rest).is_ok_and(|number| number.is_some());
                return numbered.then(|| (lower_first(phrase), end));
            }
            _ if matches!(class(&lower), Some(Class::Form | Class::Adverb | Class::And)) => {}
            _ => return None,
        }
    }
    None
}

fn lower_first(phrase: &str) -> String {
    let mut letters = phrase.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
