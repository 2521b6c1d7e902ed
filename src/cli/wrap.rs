//! Lines no wider than a terminal: words wrapped with a hanging indent, rows as columns of which the last is wrapped.

use std::fmt::Write;
use std::io::IsTerminal;

use itertools::Itertools;
use terminal_size::{Width, terminal_size_of};
use textwrap::core::display_width;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

/// How wide the terminal is: what COLUMNS says, else what it says itself. `None` where the output goes elsewhere, so that a pipe gets
/// the same bytes everywhere.
pub fn terminal_width() -> Option<usize> {
    let out = std::io::stdout();
    let asked = || std::env::var("COLUMNS").ok()?.trim().parse().ok();
    let told = || terminal_size_of(&out).map(|(Width(width), _)| usize::from(width));
    if out.is_terminal() { asked().or_else(told) } else { None }
}

/// Rows as left-aligned columns, each line indented, without blanks at its end. Where a row would run over the edge of a
/// terminal, the last cells of all go beneath their rows.
pub fn columns(rows: &[Vec<String>], indent: usize) -> String {
    columns_within(rows, indent, terminal_width().unwrap_or(usize::MAX))
}

/// Rows under a title; nothing where there are none.
pub fn titled(out: &mut String, title: &str, rows: Vec<Vec<String>>) {
    if !rows.is_empty() {
        let _ = write!(out, "\n{title}\n{}", columns(&rows, 2));
    }
}

fn columns_within(rows: &[Vec<String>], indent: usize, width: usize) -> String {
    let widths = widths(rows, rows.iter().map(Vec::len).max().unwrap_or_default());
    let beside = |cells: &[String]| {
        let cells: String = cells.iter().zip(&widths).map(|(cell, width)| padded(cell, *width)).collect();
        format!("{}{cells}", " ".repeat(indent)).trim_end().to_owned()
    };
    let beneath = rows.iter().any(|row| display_width(&beside(row)) > width);
    let set = |row: &Vec<String>| match row.split_last() {
        Some((last, first)) if beneath && !first.is_empty() && !last.is_empty() => {
            beside(first) + "\n" + &wrap(&" ".repeat(indent + BENEATH), last, width)
        }
        _ => beside(row) + "\n",
    };
    rows.iter().map(set).collect()
}

/// Rows as columns; where they would run over the edge of a terminal, only the first `beside` cells of a row stand beside each other, and
/// each further one is wrapped beneath them.
pub fn stacked(rows: &[Vec<String>], indent: usize, beside: usize) -> String {
    stacked_within(rows, indent, beside, terminal_width().unwrap_or(usize::MAX))
}

fn stacked_within(rows: &[Vec<String>], indent: usize, beside: usize, width: usize) -> String {
    let whole = columns_within(rows, indent, usize::MAX);
    if whole.lines().all(|line| display_width(line) <= width) {
        return whole;
    }
    let set = |row: &Vec<String>| {
        let (first, beneath) = row.split_at(beside.min(row.len()));
        let beneath = beneath.iter().filter(|cell| !cell.is_empty()).map(|cell| wrap(&" ".repeat(indent + BENEATH), cell, width));
        (first.to_vec(), beneath.collect::<String>())
    };
    let (first, beneath): (Vec<Vec<String>>, Vec<String>) = rows.iter().map(set).unzip();
    let first = columns_within(&first, indent, usize::MAX);
    first.lines().zip(beneath).map(|(first, beneath)| format!("{first}\n{beneath}")).collect()
}

/// A line of words, wrapped at the edge of a terminal.
pub fn line(text: &str) -> String {
    terminal_width().map_or_else(|| format!("{text}\n"), |width| wrap("", text, width))
}

/// How much further than its row a cell beneath it is indented.
const BENEATH: usize = 6;

/// Columns that the last cell of a row needs to stand beside the others; with fewer the row is wrapped as one text.
const LEAST: usize = 24;

/// The words of `text`, the first line after `first`, the others indented as far. A word that fits on no line is broken.
pub fn wrap(first: &str, text: &str, width: usize) -> String {
    let indent = display_width(first);
    let options = Options::new(width.saturating_sub(indent).max(1))
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    let words = text.split_whitespace().join(" ");
    let blank = " ".repeat(indent);
    let set = |(place, line)| format!("{}{line}", if place == 0 { first } else { &blank }).trim_end().to_owned() + "\n";
    textwrap::wrap(&words, options).into_iter().enumerate().map(set).collect()
}

/// With blanks up to a width, and two to part it from the next column.
fn padded(cell: &str, width: usize) -> String {
    format!("{cell}{}", " ".repeat(width.saturating_sub(display_width(cell)) + 2))
}

/// The width of the widest cell of each of the first `count` columns.
fn widths(rows: &[Vec<String>], count: usize) -> Vec<usize> {
    let widest = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| display_width(cell)).max().unwrap_or_default();
    (0..count).map(widest).collect()
}

/// Rows in columns, each line indented, the last column wrapped; a row whose columns leave it no room is wrapped as one text.
pub fn table(rows: &[Vec<String>], indent: usize, width: usize) -> String {
    let count = rows.iter().map(Vec::len).max().unwrap_or_default().saturating_sub(1);
    let widths = widths(rows, count);
    let taken: usize = indent + widths.iter().map(|width| width + 2).sum::<usize>();
    let columns = |row: &Vec<String>| {
        if taken + LEAST > width {
            let filled: Vec<&str> = row.iter().map(|cell| cell.trim()).filter(|cell| !cell.is_empty()).collect();
            return wrap(&" ".repeat(indent), &filled.join(", "), width);
        }
        let cell = |(column, width): (usize, &usize)| padded(row.get(column).map_or("", |cell| cell), *width);
        let first: String = widths.iter().enumerate().map(cell).collect();
        wrap(&format!("{}{first}", " ".repeat(indent)), row.get(count).map_or("", |cell| cell), width)
    };
    rows.iter().map(columns).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn later_lines_hang_under_the_first_word() {
        assert_eq!(wrap(" 1  ", "Warm the oil with the garlic", 16), " 1  Warm the oil\n    with the\n    garlic\n");
    }

    #[test]
    fn a_word_wider_than_the_line_is_broken() {
        assert_eq!(wrap("- ", "abcdefgh", 6), "- abcd\n  efgh\n");
    }

    #[test]
    fn the_last_column_is_wrapped_under_itself() {
        // Columns: indent 2, "leek" and "300 g" with 2 each; 26 are left for the last.
        let rows = vec![vec!["leek".into(), "300 g".into(), "in the fridge, look at it first".into()]];
        assert_eq!(table(&rows, 2, 41), "  leek  300 g  in the fridge, look at it\n               first\n");
    }

    #[test]
    fn where_a_row_runs_over_the_edge_last_cells_go_beneath() {
        let rows = vec![vec!["leek".into(), "300 g".into(), "for Leek soup".into()], vec!["egg".into(), "6".into(), "for staple".into()]];
        // Indent 2, 4 + 2, 5 + 2, then 13: 28 columns.
        assert_eq!(columns_within(&rows, 2, 28), "  leek  300 g  for Leek soup\n  egg   6      for staple\n");
        assert_eq!(columns_within(&rows, 2, 26), "  leek  300 g\n        for Leek soup\n  egg   6\n        for staple\n");
    }

    #[test]
    fn where_rows_run_over_the_edge_all_but_the_first_cells_are_wrapped_beneath() {
        let rows = vec![
            vec!["Tue".into(), "Plate".into(), "1 portion pearl barley, 1 apple".into(), "uses 1 apple".into()],
            vec!["Wed".into(), "Soup".into(), "1 leek".into(), String::new()],
        ];
        let stacked = "  Tue  Plate\n        1 portion pearl\n        barley, 1 apple\n        uses 1 apple\n  Wed  Soup\n        1 leek\n";
        assert_eq!(stacked_within(&rows, 2, 2, 24), stacked);
        assert_eq!(stacked_within(&rows, 2, 2, 80), columns_within(&rows, 2, 80));
    }

    #[test]
    fn a_row_without_room_for_its_last_column_is_wrapped_whole() {
        let rows = vec![vec!["a very long name of a food".into(), "300 g".into(), "in the fridge".into()]];
        assert_eq!(table(&rows, 2, 40), "  a very long name of a food, 300 g, in\n  the fridge\n");
    }

    proptest! {
        #[test]
        fn nothing_is_wider_than_the_terminal(cells in proptest::collection::vec("[a-zé ]{0,60}", 1..6), width in 40usize..120) {
            for line in table(std::slice::from_ref(&cells), 4, width).lines().chain(wrap("  12  ", &cells.join(" "), width).lines()) {
                prop_assert!(display_width(line) <= width, "{line}");
            }
        }
    }
}
