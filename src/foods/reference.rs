//! The built-in reference, read from the table `reference.tsv` beside this file.
//!
//! Each figure of the table has its source; what is not known has no figure. Nothing here converts or looks up.
//!
//! Household goods have a row in the reference with no allergen and noughts for nutrients, so that no sum calls them
//! missing; `food` says neither.
//!
//! Ripe bananas and uncut squash have no fridge days in the reference although FSIS gives some: what a trip brings would go
//! there, where it keeps longer.
//!
//! A kitchen word's weight of "common practice" (a drizzle, a dollop, a handful) stands in the reference's row of the
//! food, never in the code; a pinch and a dash alone are shares of a teaspoon.

use memchr::{memchr, memchr_iter};

use super::names::key_in;
use super::rows::{Names, Rows};
use super::{FoodId, Foods};

pub(super) mod row;

use self::row::{COLUMNS, Fault, parts};

const TABLE: &str = include_str!("reference.tsv");

impl Foods {
    /// The built-in reference.
    ///
    /// # Panics
    ///
    /// Where the table inside the program is broken, which its tests rule out: no input of a person gets here.
    pub fn reference() -> Foods {
        written(TABLE).unwrap_or_else(|fault| fault.end())
    }
}

/// All rows of a table, each to be read when it is asked for; a name that two rows share belongs to the earlier.
fn written(table: &'static str) -> Result<Foods, Fault> {
    let mut lines = lines(table).zip(1..).map(|(text, line)| (line, text)).filter(|(_, text)| !text.is_empty() && !text.starts_with('#'));
    let (line, header) = lines.next().unwrap_or_default();
    if !header.split('\t').eq(COLUMNS) {
        return Err(Fault { line, what: format!("the columns are not {}", COLUMNS.join(", ")) });
    }
    let rows: Vec<(usize, &'static str)> = lines.collect();
    Ok(Foods { all: Rows::written(&rows), names: names_of(&rows), ..Foods::default() })
}

fn lines(table: &'static str) -> impl Iterator<Item = &'static str> {
    let mut start = 0;
    memchr_iter(b'\n', table.as_bytes()).chain([table.len()]).map(move |end| {
        let line = &table[start..end];
        start = end + 1;
        line
    })
}

/// Names before synonyms, so that a food's own name is never taken by another's `also`.
fn names_of(rows: &[(usize, &'static str)]) -> Names {
    let cells: Vec<(&str, &str)> = rows
        .iter()
        .map(|(_, row)| {
            let (name, rest) = cut_at_tab(row);
            (name, cut_at_tab(rest).0)
        })
        .collect();
    let own = cells.iter().zip(0..).map(|((name, _), index)| (key_in(name), FoodId(index)));
    let also = cells.iter().zip(0..).flat_map(|((_, names), index)| parts(names, ';').map(move |name| (key_in(name), FoodId(index))));
    Names::written(own.chain(also))
}

fn cut_at_tab(text: &'static str) -> (&'static str, &'static str) {
    memchr(b'\t', text.as_bytes()).map_or((text, ""), |at| (&text[..at], &text[at + 1..]))
}

#[cfg(test)]
mod tests;
