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
    let mut lines =
        table.lines().enumerate().map(|(index, line)| (index + 1, line)).filter(|(_, line)| !line.is_empty() && !line.starts_with('#'));
    let (line, header) = lines.next().unwrap_or_default();
    if !header.split('\t').eq(COLUMNS) {
        return Err(Fault { line, what: format!("the columns are not {}", COLUMNS.join(", ")) });
    }
    let rows: Vec<(usize, &'static str)> = lines.collect();
    Ok(Foods { all: Rows::written(&rows), names: names_of(&rows), ..Foods::default() })
}

/// Names before synonyms, so that a food's own name is never taken by another's `also`.
fn names_of(rows: &[(usize, &'static str)]) -> Names {
    let cell = |place: usize| {
        let cells = rows.iter().map(move |(_, row)| row.split('\t').nth(place).unwrap_or_default());
        cells.zip(0..).map(|(cell, index)| (cell, FoodId(index)))
    };
    let own = cell(0).map(|(name, id)| (key_in(name), id));
    let also = cell(1).flat_map(|(names, id)| parts(names, ';').map(move |name| (key_in(name), id)));
    Names::written(own.chain(also))
}

#[cfg(test)]
mod tests;
