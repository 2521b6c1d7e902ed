//! One file as text: where a byte stands as line and column, and the syntax errors of its TOML.
//!
//! A byte order mark is a mistake, named as such, rather than skipped.

use std::cell::{Cell, RefCell};

use toml::de::DeTable;

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

    /// The file as a whole.
    pub fn whole(&self) -> Spot {
        Spot { file: self.file.clone(), line: 1, column: 1 }
    }

    fn line_of(&self, byte: usize) -> &str {
        let line = self.starts.partition_point(|start| *start <= byte).max(1);
        let end = self.starts.get(line).copied().unwrap_or(self.text.len());
        self.text.get(self.starts[line - 1]..end).unwrap_or("")
    }

    /// The file's table, or `None` with every syntax error said: what a broken file seems to hold would only mislead.
    pub fn parse(&self, found: &Findings) -> Option<DeTable<'_>> {
        let (table, errors) = DeTable::parse_recoverable(&self.text);
        let mut named_lines = Vec::new();
        for error in &errors {
            let byte = error.span().map_or(0, |span| span.start.min(self.text.len()));
            let spot = self.spot(byte);
            // One stray quote breaks the rest of its line several times over.
            if named_lines.contains(&spot.line) {
                continue;
            }
            named_lines.push(spot.line);
            let (spot, cause, remedy) = self.syntax_error(byte, spot, error.message());
            found.mistake(spot, cause, remedy);
        }
        errors.is_empty().then(|| table.into_inner())
    }

    fn syntax_error(&self, byte: usize, spot: Spot, message: &str) -> (Spot, String, String) {
        let line = self.line_of(byte);
        if let Some((at, quote)) = line.char_indices().find(|(_, c)| CURLY_QUOTES.contains(c)) {
            let column = line[..at].chars().count() as u32 + 1;
            let cause = format!("{quote} is a curly quote, which TOML does not read");
            return (Spot { column, ..spot }, cause, "Write straight quotes: \" or '.".to_owned());
        }
        if let Some((at, _)) = line.char_indices().find(|(_, c)| NO_BREAK_SPACES.contains(c)) {
            let column = line[..at].chars().count() as u32 + 1;
            return (
                Spot { column, ..spot },
                "this is a no-break space, which TOML does not read".to_owned(),
                "Type a plain space.".to_owned(),
            );
        }
        let cause = match in_plain_words(message) {
            Some(words) => format!("this is not valid TOML: {words}"),
            None => format!("this is not valid TOML: {}", message.replace('\n', " ")),
        };
        (spot, cause, syntax_remedy(line, message).to_owned())
    }
}

/// What word processors and telephones put in place of a straight quote.
const CURLY_QUOTES: [char; 8] = ['“', '”', '„', '‟', '‘', '’', '‚', '‛'];

/// What comes along with text copied from a web page.
const NO_BREAK_SPACES: [char; 3] = ['\u{a0}', '\u{202f}', '\u{2007}'];

/// What the parser's commonest messages mean to a household; its other messages speak for themselves.
static MEANINGS: [(&str, &str); 6] = [
    ("invalid basic string", "a text is not closed on its line"),
    ("missing opening quote", "a text lacks its opening quote"),
    ("invalid boolean", "a text without quotes"),
    ("string values must be quoted", "a text without quotes"),
    ("duplicate key", "the same key or heading is written twice"),
    ("unexpected key or value", "something follows where the line should end"),
];

fn in_plain_words(message: &str) -> Option<&'static str> {
    MEANINGS.iter().find(|(said, _)| message.starts_with(said)).map(|(_, words)| *words)
}

/// "2026-02-30", "2026-11-3" or "30/11/2026" without quotes.
fn like_a_date(value: &str) -> bool {
    let value = value.split(['#', 'T', ' ']).next().unwrap_or("");
    let digits = value.bytes().filter(u8::is_ascii_digit).count();
    digits >= 3 && value.matches(['-', '/']).count() == 2 && value.chars().all(|c| c.is_ascii_digit() || "-/".contains(c))
}

fn syntax_remedy(line: &str, message: &str) -> &'static str {
    let value = line.split_once('=').map_or("", |(_, value)| value.trim());
    let starts_with_digit = value.starts_with(|c: char| c.is_ascii_digit());
    if message.contains("duplicate key") {
        "Write each key once under its heading, and each heading without a second pair of brackets once."
    } else if message.starts_with("invalid basic string") || message.starts_with("missing opening quote") {
        "Put a straight quote before and after the text, as in \"350 g\"; text over several lines stands between \"\"\" and \"\"\"."
    } else if like_a_date(value) {
        "Write a date of the calendar as year-month-day, two digits for month and day: 2026-11-30."
    } else if starts_with_digit && value.contains(':') {
        "Write a time with two digits for the hour, 07:30, or in quotes, \"7:30\"."
    } else if starts_with_digit {
        "Put an amount with its unit in quotes, as in \"350 g\"; write a plain number with a full stop, as in 0.5."
    } else if value.starts_with(|c: char| c.is_alphabetic()) {
        "Put text in straight quotes, as in name = \"Boatyard Row\"."
    } else if message.starts_with("string values must be quoted") {
        "Put text in straight quotes, and a list in square brackets: [\"cook\", \"Jo\"]."
    } else if line.contains('=') {
        "Write key = value, with text in straight quotes and every quote and bracket closed."
    } else {
        "Write key = value, a heading such as [rules] or [[step]], or begin a remark with #."
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

    #[track_caller]
    fn said_of(text: &str) -> String {
        let source = Source::new("a.toml".into(), text.into());
        let found = Findings::default();
        assert!(source.parse(&found).is_none(), "{text} was read");
        found.into_parts().0.iter().map(|mistake| mistake.to_string()).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn a_quote_left_open_is_said_in_plain_words_with_its_remedy() {
        for text in ["name = \"Mash\n", "hands = 6 min\"\n"] {
            let said = said_of(text);
            assert!(said.contains("quote") && said.contains("Put a straight quote before and after the text"), "{said}");
        }
        assert!(said_of("name = Test\n").contains("a text without quotes. Put text in straight quotes"));
        assert!(said_of("people = (\"cook\")\n").contains("a list in square brackets"));
    }

    #[test]
    fn a_date_that_is_none_is_told_how_dates_are_written() {
        for text in ["on = 2026-02-30\n", "on = 2026-11-3\n", "on = 30/11/2026\n", "start = 2026-02-30T14:00\n"] {
            assert!(said_of(text).contains("Write a date of the calendar as year-month-day"), "{}", said_of(text));
        }
        assert!(!said_of("size = 6 - 7\n").contains("a date"));
    }

    #[test]
    fn a_no_break_space_is_named_as_such() {
        assert_eq!(said_of("eaters\u{a0}= 2\n"), "a.toml:1:7: this is a no-break space, which TOML does not read. Type a plain space.");
    }

    #[test]
    fn several_broken_lines_are_all_said() {
        let source = Source::new("a.toml".into(), "name = “Mash”\nmakes = \"2 portions\"\nkeeps = soon\n".into());
        let found = Findings::default();
        assert!(source.parse(&found).is_none());
        let said: Vec<String> = found.into_parts().0.iter().map(|m| m.to_string()).collect();
        assert_eq!(said[0], "a.toml:1:8: “ is a curly quote, which TOML does not read. Write straight quotes: \" or '.");
        assert!(said[1].starts_with("a.toml:3:9: this is not valid TOML: "), "{said:?}");
    }
}
