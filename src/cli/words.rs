//! Dates, amounts and columns as a terminal shows them.

use jiff::civil::Date;

use crate::foods::Place;

/// "Sat 28 Nov".
pub fn day(date: Date) -> String {
    date.strftime("%a %-d %b").to_string()
}

/// "Sat 28 Nov 2026".
pub fn day_year(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// "Sat 28 Nov", with the year where it is another than that of `from`.
pub fn day_after(date: Date, from: Date) -> String {
    if date.year() == from.year() { day(date) } else { day_year(date) }
}

pub fn place(place: Place) -> &'static str {
    match place {
        Place::Cupboard => "cupboard",
        Place::Fridge => "fridge",
        Place::Freezer => "freezer",
    }
}

/// Rows as left-aligned columns, each line indented, without blanks at its end.
pub fn columns(rows: &[Vec<String>], indent: usize) -> String {
    let count = rows.iter().map(Vec::len).max().unwrap_or_default();
    let width = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or_default();
    let widths: Vec<usize> = (0..count).map(width).collect();
    let mut text = String::new();
    for row in rows {
        let mut line = " ".repeat(indent);
        for (cell, width) in row.iter().zip(&widths) {
            let pad = width - cell.chars().count();
            line.push_str(cell);
            line.push_str(&" ".repeat(pad + 2));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
