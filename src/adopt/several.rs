//! Several recipes in one text, told apart by their lists and their yields. What cannot be told apart is not taken.

use std::ops::Range;

use super::Reads;
use super::line::{Part, heading, is_yield, listed};
use super::row::{Row, is_numbered};
use super::yields::makes;

/// The lines of each recipe, in order; `None` where there are several and nothing says where one ends.
pub(super) fn apart(rows: &[Row], reads: &dyn Fn(&str) -> Reads) -> Option<Vec<Range<usize>>> {
    let lists: Vec<usize> = (0..rows.len()).filter(|at| heading(&rows[*at].text) == Some(Part::Ingredients)).collect();
    let anchors = if lists.len() > 1 { lists } else { yields(rows, reads) };
    let mut starts: Vec<usize> = Vec::new();
    for (index, at) in anchors.iter().enumerate() {
        let from = if index == 0 { 0 } else { anchors[index - 1] + 1 };
        let title = title_before(rows, from..*at, reads);
        match title {
            // Without a name of its own the first one begins with the text.
            _ if index == 0 => starts.extend(if anchors.len() > 1 { title.or(Some(0)) } else { Some(0) }),
            Some(title) => starts.push(title),
            // A list of tools above the list of foods.
            None if !rows[from..*at].iter().any(|row| heading(&row.text) == Some(Part::Method)) && is_list(rows, *at) => (),
            None => return None,
        }
    }
    if starts.len() < 2 {
        return Some(std::iter::once(0..rows.len()).collect());
    }
    let ends = starts.iter().skip(1).copied().chain([rows.len()]);
    Some(starts.iter().copied().zip(ends).map(|(from, to)| from..to).collect())
}

fn is_list(rows: &[Row], at: usize) -> bool {
    heading(&rows[at].text) == Some(Part::Ingredients)
}

/// Yields that each have a list of their own after them.
fn yields(rows: &[Row], reads: &dyn Fn(&str) -> Reads) -> Vec<usize> {
    let all: Vec<usize> = (0..rows.len()).filter(|at| is_yield(&rows[*at].text)).collect();
    let foods = |lines: Range<usize>| rows[lines].iter().filter(|row| begins_with_a_number(&row.text) && listed(&row.text, reads)).count();
    let ends = all.iter().skip(1).copied().chain([rows.len()]);
    all.iter().copied().zip(ends).filter(|(from, to)| foods(*from..*to) > 0).map(|(from, _)| from).collect()
}

fn begins_with_a_number(line: &str) -> bool {
    line.starts_with(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾⅛".contains(c)) && !is_numbered(line) && !is_yield(line)
}

/// The line that names what comes next: above a list or a yield, the last heading, or the first line of a block of its own.
fn title_before(rows: &[Row], lines: Range<usize>, reads: &dyn Fn(&str) -> Reads) -> Option<usize> {
    let mut end = lines.end;
    while end > lines.start {
        // The block of lines without a gap that ends here.
        while end > lines.start && rows[end - 1].text.is_empty() {
            end -= 1;
        }
        let start = (lines.start..end).rev().find(|at| rows[*at].text.is_empty()).map_or(lines.start, |gap| gap + 1);
        if start >= end {
            return None;
        }
        if let Some(title) = (start..end).rev().find(|at| rows[*at].is_title && heading(&rows[*at].text).is_none()) {
            return Some(title);
        }
        let says_more = |at: &usize| is_yield(&rows[*at].text) && makes(&rows[*at].text).is_some();
        if (start..end).all(|at| says_more(&at)) {
            end = start;
            continue;
        }
        return Some(start).filter(|at| is_name(&rows[*at], reads));
    }
    None
}

/// Short, no sentence, no line of a list.
fn is_name(row: &Row, reads: &dyn Fn(&str) -> Reads) -> bool {
    const LONGEST: usize = 70;
    let text = row.text.as_str();
    let ends = text.ends_with(['.', '!', '?', ':', ',']);
    let other = row.is_entry || heading(text).is_some() || is_numbered(text) || is_yield(text) || begins_with_a_number(text);
    !other && !ends && text.chars().count() <= LONGEST && !listed(text, reads)
}
