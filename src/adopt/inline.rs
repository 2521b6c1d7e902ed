//! Headings and what stands below them on one line: "Ingredients: 1/2 red cabbage, 2 apples", "Method: Shred the cabbage."
//!
//! ```text
//! list   = heading (":" | " – ") food {("," | ";") food}
//! method = heading (":" | " – ") sentence
//! ```
//!
//! A part without an amount and without a known food goes on with the part before it: "1 onion, chopped".

use super::Reads;
use super::head::is_time;
use super::line::{Part, heading};
use crate::kitchen::method::opens_with_work;

/// No list on one line was wrapped more often.
const MOST_WRAPPED: usize = 30;
/// Words before a list that stand alone above none.
const LISTS: [&str; 4] = ["take", "needs", "needed", "ingredients needed"];
/// What may stand before a list without a sign.
const NEEDS: [&str; 3] = ["you will need ", "you'll need ", "you need "];
/// What is used of a food before it, and no food of its own then.
const PARTS: [&str; 8] = ["juice", "zest", "rind", "peel", "yolk", "yolks", "white", "whites"];

/// The lines of a text, with a heading, its list and its sentences each on lines of their own.
pub(super) fn apart(all: Vec<String>, reads: &dyn Fn(&str) -> Reads) -> Vec<String> {
    let mut lines = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let (part, rest) = headed(&all[at]).map_or((None, ""), |(part, rest)| (Some(part), rest));
        match part {
            Some(Part::Ingredients) => {
                let mut text = rest.to_owned();
                let mut to = at + 1;
                while to - at < MOST_WRAPPED && all.get(to).is_some_and(|next| goes_on(&text, next)) {
                    text.push(' ');
                    text.push_str(all[to].trim());
                    to += 1;
                }
                let foods = foods(&text, reads);
                let counted = foods.iter().filter(|food| reads(food).amount).count();
                if foods.len() > 1 && counted * 2 >= foods.len() {
                    lines.push("Ingredients".to_owned());
                    lines.extend(foods.iter().map(|food| format!("- {food}")));
                    // What follows is no part of the list.
                    lines.push(String::new());
                    at = to;
                    continue;
                }
                lines.push(all[at].clone());
            }
            Some(Part::Method) if opens_with_work(rest) || rest.ends_with(['.', '!']) => {
                lines.push("Method".to_owned());
                lines.push(rest.to_owned());
            }
            _ => lines.push(all[at].clone()),
        }
        at += 1;
    }
    lines
}

/// The part that a line heads, and what stands behind its heading.
fn headed(line: &str) -> Option<(Part, &str)> {
    let bare = line.trim().trim_start_matches(['#', '*', '_', '>', ' ']);
    if is_time(bare) {
        return None;
    }
    let low = bare.to_lowercase();
    if let Some(rest) = NEEDS.iter().find_map(|words| low.starts_with(words).then(|| bare.get(words.len()..)).flatten()) {
        return Some((Part::Ingredients, rest.trim()));
    }
    let (said, rest) = [":", " – ", " — ", " - "].iter().filter_map(|sign| bare.split_once(sign)).min_by_key(|(said, _)| said.len())?;
    let rest = rest.trim().trim_start_matches(['*', '_']).trim();
    let part = match heading(said) {
        Some(part) => part,
        None if LISTS.contains(&said.trim().to_lowercase().as_str()) => Part::Ingredients,
        None => return None,
    };
    (!rest.is_empty()).then_some((part, rest))
}

/// A list that was wrapped: it ends with a sign, or goes on in small letters.
fn goes_on(text: &str, next: &str) -> bool {
    let next = next.trim();
    let open = text.ends_with([',', ';']) || text.ends_with(" and");
    !next.is_empty() && heading(next).is_none() && headed(next).is_none() && (open || next.starts_with(|c: char| c.is_lowercase()))
}

/// The foods of a list on one line.
fn foods(text: &str, reads: &dyn Fn(&str) -> Reads) -> Vec<String> {
    let text = text.trim_end_matches(['.', ';', ',']);
    let by_semicolon = text.contains(';');
    let mut foods: Vec<String> = Vec::new();
    for part in split(text, if by_semicolon { ';' } else { ',' }) {
        let first = part.split(' ').next().unwrap_or_default().to_lowercase();
        let as_line = reads(&part);
        let begins = by_semicolon || as_line.amount || as_line.food && !PARTS.contains(&first.as_str());
        match foods.last_mut().filter(|_| !begins) {
            Some(last) => *last = format!("{last}, {part}"),
            None => foods.push(part),
        }
    }
    foods
}

/// Cut at a sign outside brackets that a blank follows: "1,5 kg" stays.
fn split(text: &str, sign: char) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut depth = 0_usize;
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        let blank = letters.peek().is_none_or(|next| next.is_whitespace());
        if letter == sign && depth == 0 && blank {
            parts.push(String::new());
        } else if let Some(part) = parts.last_mut() {
            part.push(letter);
        }
    }
    parts.iter().map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    fn read(text: &str) -> Vec<String> {
        let reads = |line: &str| {
            let amount = line.starts_with(|c: char| c.is_ascii_digit());
            Reads { amount, food: amount || line.contains("salt") || line.contains("juice") }
        };
        apart(text.lines().map(str::to_owned).collect(), &reads)
    }

    #[test]
    fn a_list_on_one_line_is_a_line_a_food() {
        for (text, meant) in [
            ("Ingredients: 1 red cabbage, 2 apples, salt to taste", &["- 1 red cabbage", "- 2 apples", "- salt to taste"][..]),
            (
                "Ingredients – 250 g barley; 1 onion, chopped; 50 g cheese (grated, to serve)",
                &["- 250 g barley", "- 1 onion, chopped", "- 50 g cheese (grated, to serve)"],
            ),
            ("**Ingredients:** 1 onion, finely chopped, 1 lemon, juice only", &["- 1 onion, finely chopped", "- 1 lemon, juice only"]),
            ("You will need 500 g tomatoes, 1,5 l stock,\n2 onions.", &["- 500 g tomatoes", "- 1,5 l stock", "- 2 onions"]),
        ] {
            let wanted: Vec<&str> = std::iter::once("Ingredients").chain(meant.iter().copied()).chain([""]).collect();
            assert_eq!(read(text), wanted, "{text}");
        }
    }

    #[test]
    fn a_method_behind_its_heading_stands_below_it_and_other_lines_stay() {
        assert_eq!(read("Method: Shred the cabbage."), ["Method", "Shred the cabbage."]);
        for line in ["Preparation: 10 minutes", "Ingredients", "Ingredients: see below", "Note: 2 eggs, 3 onions", "Directions: north"] {
            assert_eq!(read(line), [line]);
        }
    }
}
