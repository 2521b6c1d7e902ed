//! The text of a step: the clauses of a paragraph as sentences, with each first mention of a food as a piece.
//!
//! Nothing of the text is dropped but what joins clauses: the amount of a food takes the place of its name.

use super::gather::Placed;
use crate::kitchen::Piece;
use crate::kitchen::words::Words;

/// Past the "and", "then" and commas that join a clause to the one before it.
fn past_joints(w: &Words, start: usize, end: usize) -> usize {
    use crate::measure::Kind as Sign;
    let joint = |at: usize| {
        matches!(w.kind(at), Some(Sign::Comma | Sign::Semicolon | Sign::Colon | Sign::And | Sign::Dash))
            || ["and", "then", "but"].iter().any(|word| w.is(at, word))
    };
    (start..end).find(|at| !joint(*at)).unwrap_or(end)
}

fn before_joints(w: &Words, start: usize, end: usize) -> usize {
    use crate::measure::Kind as Sign;
    let joint = |at: usize| matches!(w.kind(at), Some(Sign::Comma | Sign::Semicolon | Sign::Colon | Sign::And)) || w.is(at, "and");
    (start..end).rev().find(|at| !joint(*at)).map_or(start, |at| at + 1)
}

/// "With 1 kg pork shoulder and 200 ml stock: " before what is done to them.
pub(super) fn with(foods: &[usize]) -> Vec<Piece> {
    let mut text = vec![Piece::Words("With ".to_owned())];
    for (place, food) in foods.iter().enumerate() {
        if place > 0 {
            text.push(Piece::Words(if place + 1 == foods.len() { " and ".to_owned() } else { ", ".to_owned() }));
        }
        text.push(Piece::Ingredient { index: *food, share: None });
    }
    text.push(Piece::Words(": ".to_owned()));
    text
}

/// Words of a clause as a sentence.
pub(super) fn said(w: &Words, start: usize, end: usize) -> String {
    pieces(w, &[(start, end)], &[]).into_iter().map(|piece| if let Piece::Words(words) = piece { words } else { String::new() }).collect()
}

/// The text of a step: its clauses as sentences, each first mention of a food as a piece.
pub(super) fn pieces(w: &Words, spans: &[(usize, usize)], placed: &[Placed]) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    let mut words = String::new();
    for (start, end) in spans {
        let (start, end) = (past_joints(w, *start, *end), before_joints(w, *start, *end));
        if start >= end {
            continue;
        }
        if !words.is_empty() || !out.is_empty() {
            words.push(' ');
        }
        let mut byte = w.byte(start);
        let first = std::cell::Cell::new(true);
        let push = |words: &mut String, text: &str| {
            for letter in text.chars() {
                let letter = match letter {
                    '{' => '(',
                    '}' => ')',
                    other => other,
                };
                if first.get() && letter.is_alphabetic() {
                    words.extend(letter.to_uppercase());
                } else {
                    words.push(letter);
                }
                first.set(first.get() && !letter.is_alphanumeric());
            }
        };
        for placed in placed.iter().filter(|placed| placed.start >= start && placed.end <= end) {
            let (from, to) = (w.byte(placed.start), w.at(placed.end - 1).map_or(byte, |token| token.end()));
            if from < byte {
                continue;
            }
            push(&mut words, w.between(byte, from));
            if placed.group {
                push(&mut words, w.between(from, to));
                words.push_str(" (");
            } else if let Some(part) = placed.part {
                push(&mut words, &format!("the {part} of "));
            }
            for (index, (food, share)) in placed.foods.iter().enumerate() {
                if index > 0 {
                    words.push_str("; ");
                }
                if !words.is_empty() {
                    out.push(Piece::Words(std::mem::take(&mut words)));
                }
                out.push(Piece::Ingredient { index: *food, share: share.clone() });
            }
            first.set(false);
            if placed.group {
                words.push(')');
            }
            byte = to;
        }
        let last = w.at(end - 1).map_or(byte, |token| token.end());
        push(&mut words, w.between(byte, last.max(byte)));
        if !words.ends_with(['.', '!', '?']) {
            words.push('.');
        }
    }
    if !words.is_empty() {
        out.push(Piece::Words(words));
    }
    out
}
