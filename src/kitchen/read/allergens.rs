//! Allergens by the names people give them, mapped to the fourteen of Regulation (EU) No 1169/2011, Annex II.

use super::hint;
use super::table::Table;
use crate::foods::Allergen;

/// Common names; the first of each is the one shown in remedies. The list itself is Annex II of Regulation (EU) No 1169/2011; the further
/// names are the examples that Annex II gives, and common English for them.
static NAMES: [(Allergen, &[&str]); 14] = [
    (Allergen::Gluten, &["gluten", "cereals containing gluten", "cereals", "wheat", "rye", "barley", "oats", "spelt"]),
    (Allergen::Crustaceans, &["crustaceans", "crustacean", "shellfish", "prawns", "shrimp", "crab", "lobster"]),
    (Allergen::Egg, &["egg", "eggs"]),
    (Allergen::Fish, &["fish"]),
    (Allergen::Peanuts, &["peanuts", "peanut", "groundnuts"]),
    (Allergen::Soybeans, &["soybeans", "soybean", "soya", "soy", "soya beans"]),
    (Allergen::Milk, &["milk", "dairy", "lactose"]),
    (Allergen::Nuts, &["nuts", "nut", "tree nuts", "almonds", "hazelnuts", "walnuts", "cashews", "pecans", "pistachios"]),
    (Allergen::Celery, &["celery", "celeriac"]),
    (Allergen::Mustard, &["mustard"]),
    (Allergen::Sesame, &["sesame", "sesame seeds"]),
    (Allergen::Sulphites, &["sulphites", "sulphite", "sulfites", "sulphur dioxide", "sulphur dioxide and sulphites"]),
    (Allergen::Lupin, &["lupin", "lupine"]),
    (Allergen::Molluscs, &["molluscs", "mollusc", "mollusks", "mussels", "oysters", "squid"]),
];

/// The allergen of that name, in any letter case.
pub(super) fn named(typed: &str) -> Option<Allergen> {
    let typed = typed.trim().to_lowercase();
    NAMES.iter().find(|(_, names)| names.contains(&typed.as_str())).map(|(allergen, _)| *allergen)
}

/// As [`named`], and every allergen of a word that stands for several: in shops and at the doctor's shellfish are crustaceans and molluscs.
pub(super) fn all_named(typed: &str) -> Vec<Allergen> {
    match typed.trim().to_lowercase().as_str() {
        "shellfish" => vec![Allergen::Crustaceans, Allergen::Molluscs],
        word => named(word).into_iter().collect(),
    }
}

/// As [`named`], for a word that is the substance itself, as Annex II or [`Allergen::ALL`] names it; `None` for an example of it, such as
/// "walnuts": one who must not have walnuts may well have almonds.
pub(super) fn as_a_whole(typed: &str) -> Option<Allergen> {
    let typed = typed.trim().to_lowercase();
    named(&typed).filter(|_| !EXAMPLES.contains(&typed.as_str()))
}

/// Names of single foods among [`NAMES`].
const EXAMPLES: [&str; 21] = [
    "wheat",
    "rye",
    "barley",
    "oats",
    "spelt",
    "prawns",
    "shrimp",
    "crab",
    "lobster",
    "lactose",
    "almonds",
    "hazelnuts",
    "walnuts",
    "cashews",
    "pecans",
    "pistachios",
    "celeriac",
    "sesame seeds",
    "mussels",
    "oysters",
    "squid",
];

/// Every name, for remedies.
pub(super) fn names() -> impl Iterator<Item = &'static str> + Clone {
    NAMES.iter().flat_map(|(_, names)| names.iter().copied())
}

/// The allergens under `key`; `None` where the key is absent.
pub(super) fn read(table: &Table<'_>, key: &str) -> Option<Vec<Allergen>> {
    let typed = table.texts(key)?;
    let mut allergens = Vec::new();
    for (name, at) in typed {
        match all_named(&name).as_slice() {
            known @ [_, ..] => allergens.extend(known),
            [] => {
                let near = hint::nearest(&name, NAMES.iter().flat_map(|(_, names)| names.iter().copied()));
                let known: Vec<&str> = NAMES.iter().filter_map(|(_, names)| names.first().copied()).collect();
                let near = near.map(|near| format!("Did you mean \"{near}\"? ")).unwrap_or_default();
                let cause = format!("\"{name}\" is not an allergen of EU 1169/2011 Annex II");
                table.file.found.mistake(at, cause, format!("{near}Known: {}.", known.join(", ")));
            }
        }
    }
    allergens.sort();
    allergens.dedup();
    Some(allergens)
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn common_words_name_the_fourteen() {
        assert_eq!(named("Eggs"), Some(Allergen::Egg));
        assert_eq!(named("soya"), Some(Allergen::Soybeans));
        assert_eq!(named("tree nuts"), Some(Allergen::Nuts));
        assert_eq!(named("wheat"), Some(Allergen::Gluten));
        assert_eq!(named("strawberries"), None);
        assert_eq!(all_named("Shellfish"), [Allergen::Crustaceans, Allergen::Molluscs]);
        assert_eq!(all_named("crab"), [Allergen::Crustaceans]);
    }
}
