//! One file as text: where a byte stands as line and column; and what is found wrong in any file.

use std::cell::{Cell, RefCell};

use crate::kitchen::{Mistake, NotLoaded, Spot, Warning};
use crate::measure::ReadError;

/// Mistakes and warnings as they are found, of all files.
#[derive(Debug, Default)]
pub(super) struct Findings {
    mistakes: RefCell<Vec<Mistake>>,
    warnings: RefCell<Vec<Warning>>,
    unreadable: Cell<bool>,
}

impl Findings {
    /// The two are printed one after the other, so the remedy is made a sentence and the cause is left without its full stop.
    pub fn mistake(&self, at: Spot, cause: impl Into<String>, remedy: impl Into<String>) {
        let (cause, remedy) = (cause.into(), sentence(&remedy.into()));
        let cause = cause.strip_suffix('.').map(str::to_owned).unwrap_or(cause);
        self.mistakes.borrow_mut().push(Mistake { at, cause, remedy });
    }

    /// A file that is there, and of which the machine gives no text.
    pub fn unreadable(&self, at: Spot, cause: impl Into<String>, remedy: impl Into<String>) {
        self.unreadable.set(true);
        self.mistake(at, cause, remedy);
    }

    pub fn wrong(&self, at: Spot, error: ReadError) {
        self.mistake(at, error.cause, error.remedy);
    }

    pub fn warn(&self, warning: Warning) {
        self.warnings.borrow_mut().push(warning);
    }

    pub fn note(&self, at: Spot, text: impl Into<String>) {
        self.warn(Warning::Note { at: Some(at), text: text.into() });
    }

    /// How many mistakes there are so far.
    pub fn count(&self) -> usize {
        self.mistakes.borrow().len()
    }

    /// The warnings, where there are no mistakes.
    pub fn finish(self) -> Result<Vec<Warning>, NotLoaded> {
        let unreadable = self.unreadable.get();
        let (mistakes, warnings) = self.into_parts();
        if mistakes.is_empty() { Ok(warnings) } else { Err(NotLoaded { mistakes, unreadable }) }
    }

    /// Mistakes in order of file and place, each once; warnings in the order they were found.
    pub fn into_parts(self) -> (Vec<Mistake>, Vec<Warning>) {
        let mut mistakes = self.mistakes.into_inner();
        mistakes.sort();
        mistakes.dedup();
        (mistakes, self.warnings.into_inner())
    }
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().map(|first| first.to_uppercase().collect()).unwrap_or_default();
    let end = if text.ends_with(['.', '?', '!']) || text.is_empty() { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

/// A file's text and the byte at which each of its lines begins.
#[derive(Debug)]
pub(super) struct Source {
    /// Relative to the kitchen folder, with forward slashes.
    pub file: String,
    pub text: String,
    starts: Vec<usize>,
}

impl Source {
    pub fn new(file: String, text: String) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Source { file, text, starts }
    }

    /// Line and column of a byte, counted in characters from 1.
    pub fn spot(&self, byte: usize) -> Spot {
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let start = self.starts[line - 1];
        let before = self.text.get(start..byte).unwrap_or("");
        Spot { file: self.file.clone(), line: line as u32, column: before.chars().count() as u32 + 1 }
    }

    /// Every line with the byte at which it begins.
    pub fn lines(&self) -> impl Iterator<Item = (usize, &str)> {
        self.starts.iter().map(|start| (*start, self.line_of(*start).trim_end()))
    }

    /// The file as a whole.
    pub fn whole(&self) -> Spot {
        Spot { file: self.file.clone(), line: 1, column: 1 }
    }

    /// The line in which a byte stands, with its end.
    pub fn line_of(&self, byte: usize) -> &str {
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let end = self.starts.get(line).copied().unwrap_or(self.text.len());
        self.text.get(self.starts[line - 1]..end).unwrap_or("")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn columns_count_characters_not_bytes() {
        let source = Source::new("a.toml".into(), "x = 1\né = \"ü\" b\n".into());
        let byte = source.text.find('b').unwrap();
        assert_eq!(source.spot(byte), Spot { file: "a.toml".into(), line: 2, column: 9 });
    }
}
