//! Recipes from what people have: a saved web page, a JSON-LD file, plain text. Nothing is fetched and nothing is written here.
//!
//! ```text
//! bytes ─ decode ─> text ─┬─ page ──> JSON-LD blocks ─ json_ld ─┐
//!                         │        └─ microdata ────────────────┼─> Adopted ─ file ─> text of recipes/<id>.toml
//!                         ├─ json_ld ───────────────────────────┤
//!                         └─ plain (headings, blank lines) ──────┘
//! ```
//!
//! What a page says in JSON-LD is taken before its microdata. A block that is broken or cut off is passed over: never half a recipe.
//! Knows no household: whether a line reads as an ingredient is asked of the caller. Which words are verbs the reading of methods knows.

mod decode;
mod depth;
mod file;
mod html;
mod json_ld;
mod microdata;
mod names;
mod plain;
mod row;
mod several;
mod tidy;
mod yields;

pub use crate::kitchen::Keeping;
pub use file::{INGREDIENTS, id_of, recipe_file};

/// A recipe as its page has it: every text on one line, without markup.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Adopted {
    pub name: String,
    /// As `makes` is written: "4 portions"; `None` where the page does not say.
    pub makes: Option<String>,
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

/// All recipes of a page, a JSON-LD file or a text. `is_ingredient` says whether a line reads as an ingredient with an amount.
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
pub fn adopt(bytes: &[u8], is_ingredient: &dyn Fn(&str) -> bool) -> Result<Vec<Adopted>, NotAdopted> {
    if bytes.len() > MOST_BYTES {
        return Err(NotAdopted::TooLarge);
    }
    let text = decode::text(bytes);
    let start = text.trim_start();
    let found = if start.starts_with(['{', '[']) {
        json_ld::recipes([start])
    } else if html::is_page(start) {
        html::recipes(&text)
    } else if text.lines().nth(MOST_LINES).is_some() {
        return Err(NotAdopted::TooLong);
    } else {
        plain::recipes(&text, is_ingredient).ok_or(NotAdopted::Several)?
    };
    let mut found = found;
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

/// Is a letter of it lost?
fn is_garbled(recipe: &Adopted) -> bool {
    let texts = std::iter::once(&recipe.name).chain(&recipe.ingredients).chain(&recipe.method);
    texts.into_iter().any(|text| text.contains(char::REPLACEMENT_CHARACTER))
}

#[cfg(test)]
mod tests;
