//! How a place in a meal is written, `any:` and a word, and what is said of one where none can stand.

use super::source::Findings;
use crate::kitchen::Spot;

/// What stands before and after "any:".
pub(super) fn split(text: &str) -> Option<(&str, &str)> {
    let lower = text.to_ascii_lowercase();
    let at = lower.match_indices("any:").map(|(at, _)| at).find(|at| *at == 0 || lower[..*at].ends_with(|c: char| !c.is_alphanumeric()))?;
    Some((text.get(..at)?, text.get(at + 4..)?))
}

/// Where a place stands although none may.
pub(super) fn refuse(text: &str, at: Spot, found: &Findings) {
    let cause = format!("\"{text}\" is a place to be filled, and none can stand here");
    found.mistake(at, cause, "any: stands in each and shared of a pattern or of an open meal. Name a food or a recipe here.");
}
