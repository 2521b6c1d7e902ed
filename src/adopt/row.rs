//! A line of a text as it was meant: without the marks of a mail, of Markdown or of a list; and whether it goes on from the one before it.

use super::tidy;
use crate::words::bullet;

/// A line, and what its marks said of it.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Row {
    pub text: String,
    /// "## To serve", "**For the dressing**": it stands above what follows.
    pub is_title: bool,
    /// It had the mark of a list.
    pub is_entry: bool,
}

/// No sentence ends with them.
const OPEN: [&str; 26] = [
    "for", "to", "at", "of", "about", "around", "until", "and", "or", "with", "the", "a", "an", "in", "on", "into", "from", "by", "over",
    "than", "plus", "as", "is", "are", "your", "then",
];

impl Row {
    pub fn of(line: &str) -> Row {
        // A text has no markup: "<" is a letter in it.
        let plain = tidy::line(&line.replace('&', "&amp;").replace('<', "&lt;"));
        let mut text = plain.as_str();
        while let Some(quoted) = text.strip_prefix('>') {
            text = quoted.trim_start();
        }
        let bare = text.trim_start_matches('#');
        let is_heading = bare.len() < text.len() && bare.starts_with(' ');
        text = if is_heading { bare.trim_start() } else { text };
        let bullet = bullet(text);
        text = text[bullet..].trim_start();
        let is_bold = |mark: &str| text.len() > 4 && text.starts_with(mark) && text.trim_end_matches(':').ends_with(mark);
        let is_title = is_heading || (bullet == 0 && (is_bold("**") || is_bold("__")));
        let whole = text.replace("**", "").replace("__", "");
        let slanted = |mark: char| whole.strip_prefix(mark)?.strip_suffix(mark).filter(|inner| !inner.is_empty() && !inner.contains(mark));
        let text = slanted('*').or_else(|| slanted('_')).unwrap_or(&whole).trim().to_owned();
        Row { text, is_title, is_entry: bullet > 0 }
    }
}

/// Does a line of a method go on in the next one? `low`: whoever wrote it begins sentences with small letters.
pub(super) fn goes_on(before: &str, next: &Row, low: bool) -> bool {
    if !can_go_on(before, next) {
        return false;
    }
    let is_small = !low && next.text.starts_with(|c: char| c.is_lowercase());
    is_small || is_open(before) || before.ends_with(',')
}

/// Nothing says that the line before has ended, or that this one begins something.
pub(super) fn can_go_on(before: &str, next: &Row) -> bool {
    !(next.is_entry || next.is_title || before.ends_with(['.', '!', '?', ':']) || is_numbered(&next.text))
}

/// Does a line of a list go on in the next one, which does not read as an ingredient by itself unless `is_listed`?
pub(super) fn entry_goes_on(before: &Row, next: &Row, is_listed: bool) -> bool {
    if next.is_entry || next.is_title || before.text.ends_with(':') {
        return false;
    }
    let starts = |words: &[&str]| words.iter().any(|word| next.text.starts_with(word));
    let is_small = next.text.starts_with(|c: char| c.is_lowercase());
    let is_rest = starts(&["(", "and ", "or "]) || is_small && (before.text.ends_with(',') || before.is_entry);
    is_open(&before.text) || (!is_listed && is_rest)
}

/// A bracket is open, or the last word asks for another.
fn is_open(line: &str) -> bool {
    let last = line.rsplit(' ').next().unwrap_or_default().to_lowercase();
    line.matches('(').count() > line.matches(')').count() || OPEN.contains(&last.as_str())
}

/// "2. Chop": a step of its own.
pub(super) fn is_numbered(line: &str) -> bool {
    without_number(line).is_some()
}

/// What stands behind the "2." or "2)" of a line.
pub(super) fn without_number(line: &str) -> Option<&str> {
    let rest = line.trim_start_matches(|c: char| c.is_ascii_digit());
    let rest = rest.strip_prefix(['.', ')']).filter(|_| rest.len() < line.len())?;
    rest.strip_prefix(' ').map(str::trim_start)
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn marks_of_mail_and_markdown_are_gone() {
        for (line, text, is_title, is_entry) in [
            ("*For 2*", "For 2", false, false),
            ("### To serve", "To serve", true, false),
            ("* **100 g** plain flour", "100 g plain flour", false, true),
            ("> - 2 leeks", "2 leeks", false, true),
            ("**For the dressing**", "For the dressing", true, false),
            ("2 tbsp oil*", "2 tbsp oil*", false, false),
            ("#1 soup", "#1 soup", false, false),
        ] {
            assert_eq!(Row::of(line), Row { text: text.to_owned(), is_title, is_entry }, "{line}");
        }
    }

    #[test]
    fn a_line_that_plainly_goes_on_is_one_with_the_next() {
        let on = |before: &str, next: &str| goes_on(before, &Row::of(next), false);
        assert!(on("Heat the oven to", "200C. Bake the fish for"));
        assert!(on("Bake the fish for", "15 minutes. Chop"));
        assert!(on("15 minutes. Chop", "the dill and stir it in."));
        assert!(on("Add the leeks (", "washed) and fry."));
        assert!(!on("Chop the dill.", "stir it in."));
        assert!(!on("Chop the leeks", "Fry them"));
        assert!(!on("Chop the leeks,", "2. Fry them"));
        assert!(!goes_on("chop the leeks", &Row::of("fry them"), true));
        let entry = |before: &str, next: &str, listed: bool| entry_goes_on(&Row::of(before), &Row::of(next), listed);
        assert!(entry("1 kg chicken thighs", "(skin on)", false));
        assert!(entry("1 tin white beans, drained and", "rinsed", false));
        assert!(!entry("1 red cabbage", "salt", false));
        assert!(!entry("1 red cabbage", "or 2 apples", true));
    }
}
