//! What to take care of as paragraphs: of one source together, the source named once behind them; last those without.

use itertools::Itertools;

use super::text::{Span, plain, soft};
use crate::kitchen::Names;
use crate::prep::Care;

/// `brief`: of a source its publisher alone, where room is short.
pub fn by_source<'a>(cares: impl Iterator<Item = &'a Care> + Clone, names: Names, brief: bool) -> Vec<Vec<Span>> {
    let source_of = |one: &Care| one.source().map(|source| if brief { source.split(',').next().unwrap_or(source) } else { source });
    let mut notes: Vec<Vec<Span>> = Vec::new();
    for source in cares.clone().filter_map(source_of).unique() {
        let together = cares.clone().filter(|one| source_of(one) == Some(source)).map(|one| one.text(names)).join(" ");
        notes.push(vec![plain(together), soft(format!(" ({source})"))]);
    }
    notes.extend(cares.filter(|one| one.source().is_none()).map(|one| vec![plain(one.text(names))]));
    notes
}

/// Short notes in one paragraph.
pub fn run_in(notes: Vec<Vec<Span>>) -> Vec<Span> {
    notes.into_iter().enumerate().flat_map(|(at, note)| (at > 0).then(|| soft("  ·  ")).into_iter().chain(note)).collect()
}
