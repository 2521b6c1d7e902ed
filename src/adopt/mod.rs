//! Recipes from what people have: a saved web page, a JSON-LD file, plain text. Nothing is fetched and nothing is written here.
//!
//! ```text
//! bytes ─ decode ─> text ─┬─ page ──> JSON-LD blocks ─ json_ld ─┐
//!                         │        ├─ microdata ─ json_ld ──────┼─> Adopted ─ file ─> text of recipes/<id>.toml
//!                         │        └─ words of page ─ plain ────┤
//!                         ├─ json_ld ───────────────────────────┤
//!                         └─ layout ─ plain (headings, blanks) ──┘
//! ```
//!
//! What a page says in JSON-LD is taken before its microdata, and that before its words. A block that is broken or cut off is passed over: never half a recipe.
//! Knows no household: whether a line reads as an ingredient is asked of the caller. Which words are verbs the reading of methods knows.

mod decode;
mod depth;
mod elements;
mod file;
mod head;
mod html;
mod inline;
mod json_ld;
mod layout;
mod line;
mod microdata;
mod names;
mod plain;
mod row;
mod several;
mod tidy;
mod words_of_page;
mod yields;

pub use crate::kitchen::Keeping;
pub use file::{INGREDIENTS, id_of, recipe_file};
pub use tidy::as_markup;
pub use yields::makes;

/// A recipe as its page has it: every text on one line, without markup.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Adopted {
    pub name: String,
    /// As `makes` is written: "4 portions"; `None` where the page does not say.
    pub makes: Option<String>,
    /// What the page says of it, word for word, where that is no number: "a crowd".
    pub yields: Option<String>,
    pub ingredients: Vec<String>,
    /// A paragraph an entry; the name of a part of the method ends with a colon.
    pub method: Vec<String>,
    pub source: Source,
    /// What takes how long, as the page says it: "preparation", "cooking", "in all", each in minutes.
    pub times: Vec<(&'static str, i64)>,
    /// Lines of the list that nobody can read as an ingredient: they stand beside it.
    pub unread: Vec<String>,
    /// Lines above the ingredients that have no place in a recipe.
    pub unplaced: Vec<String>,
    /// What the page has and nobody can read, a whole sentence each.
    pub lost: Vec<String>,
    /// Where the page plainly says it.
    pub keeps: Keeping,
}

/// Where a recipe comes from.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Source {
    pub author: Option<String>,
    pub title: Option<String>,
    pub address: Option<String>,
}

impl Source {
    pub fn is_empty(&self) -> bool {
        *self == Source::default()
    }
}

/// As what a line of a text reads.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Reads {
    /// As an ingredient with an amount.
    pub amount: bool,
    /// Its food is known, with an amount or without.
    pub food: bool,
}

/// Who knows no foods says of a line whether it is an ingredient.
impl From<bool> for Reads {
    fn from(is_ingredient: bool) -> Self {
        Reads { amount: is_ingredient, food: is_ingredient }
    }
}

/// Why nothing was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotAdopted {
    /// Neither schema.org/Recipe nor a list that reads as ingredients.
    NoRecipe,
    /// More bytes than [`MOST_BYTES`].
    TooLarge,
    /// More lines than [`MOST_LINES`].
    TooLong,
    /// Not in the encoding that it names, so that letters are lost.
    Garbled,
    /// A text of several recipes that cannot be told apart.
    Several,
}

/// No page that a person saves comes near this.
pub const MOST_BYTES: usize = 32_000_000;

/// No recipe has so many ingredients and steps, nor a text so many lines.
pub const MOST_LINES: usize = 5_000;

/// All recipes of a page, a JSON-LD file or a text. `reads` says of a line whether it reads as an ingredient.
///
/// # Errors
/// Where there is no recipe in it, or it is too large, or too long for one; where letters of it are lost; where a text holds several
/// recipes and does not say where one ends.
///
/// ```
/// let text = "Herb yoghurt\nServes 4\n\n250 g yoghurt\n1 bunch dill\n\nChop the dill. Stir it in.";
/// let found = spence::adopt::adopt(text.as_bytes(), &|line| line.starts_with(|c: char| c.is_ascii_digit())).unwrap();
/// assert_eq!((found[0].name.as_str(), found[0].makes.as_deref()), ("Herb yoghurt", Some("4 portions")));
/// assert_eq!(found[0].ingredients, ["250 g yoghurt", "1 bunch dill"]);
/// assert_eq!(found[0].method, ["Chop the dill. Stir it in."]);
/// ```
pub fn adopt<R: Into<Reads>>(bytes: &[u8], reads: &dyn Fn(&str) -> R) -> Result<Vec<Adopted>, NotAdopted> {
    let reads = |line: &str| reads(line).into();
    if bytes.len() > MOST_BYTES {
        return Err(NotAdopted::TooLarge);
    }
    let text = decode::text(bytes);
    let start = text.trim_start();
    let found = if start.starts_with(['{', '[']) {
        json_ld::recipes([start])
    } else if html::is_page(start) {
        html::recipes(&text, &reads)
    } else if text.lines().nth(MOST_LINES).is_some() {
        return Err(NotAdopted::TooLong);
    } else {
        plain::recipes(&text, &reads).ok_or(NotAdopted::Several)?
    };
    let mut found = once(found);
    found.iter_mut().for_each(names::tidied);
    found.iter_mut().for_each(|recipe| recipe.ingredients = tidy::with_their_amounts(std::mem::take(&mut recipe.ingredients)));
    if std::str::from_utf8(bytes).is_err() && found.iter().any(is_garbled) {
        return Err(NotAdopted::Garbled);
    }
    if found.iter().any(|recipe| recipe.ingredients.len() + recipe.method.len() > MOST_LINES) {
        return Err(NotAdopted::TooLong);
    }
    if found.is_empty() { Err(NotAdopted::NoRecipe) } else { Ok(found) }
}

/// A page sometimes says the same twice over.
fn once(found: Vec<Adopted>) -> Vec<Adopted> {
    let mut once: Vec<Adopted> = Vec::new();
    for recipe in found {
        if !once.iter().any(|known| known.name == recipe.name && known.ingredients == recipe.ingredients) {
            once.push(recipe);
        }
    }
    once
}

/// Is a letter of it lost?
fn is_garbled(recipe: &Adopted) -> bool {
    let texts = std::iter::once(&recipe.name).chain(&recipe.ingredients).chain(&recipe.method);
    texts.into_iter().any(|text| text.contains(char::REPLACEMENT_CHARACTER))
}

#[cfg(test)]
mod tests;
