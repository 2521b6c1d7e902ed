//! A file's tree, where it is TOML; where it is not, which line is wrong, in plain words, and what would mend it.
//!
//! The parser says where it stumbled; a person wants to know where the slip is. A text that was never closed is told where it begins, a
//! heading with one pair of brackets among those with two where it stands, and a recipe's plain text as what it is.

use jiff::civil::Date;
use toml::de::DeTable;

use super::source::{Findings, Source};
use crate::kitchen::Spot;

/// The file's table, or `None` with every syntax error said: what a broken file seems to hold would only mislead.
pub(super) fn parse<'s>(source: &'s Source, found: &Findings) -> Option<DeTable<'s>> {
    let (table, errors) = DeTable::parse_recoverable(&source.text);
    let errors_at = errors.iter().map(|error| (error.span().map_or(0, |span| span.start.min(source.text.len())), error.message()));
    tell(source, &errors_at.collect::<Vec<_>>(), found);
    errors.is_empty().then(|| table.into_inner())
}

/// Tells every error of the parser, given by its byte and its message; of one line the first.
fn tell(source: &Source, errors: &[(usize, &str)], found: &Findings) {
    if !errors.is_empty() && is_plain_recipe(source) {
        let remedy = "Rename it, so that it ends in .txt, and take it in with: spence adopt FILE.";
        found.mistake(source.whole(), "this reads like a recipe's text, not like TOML", remedy);
        return;
    }
    // What comes after a text that was left open was read as part of it, or the other way round.
    let open = left_open(source).filter(|open| errors.iter().any(|(byte, _)| *byte >= open.begins));
    let until = open.as_ref().map_or(usize::MAX, |open| open.begins);
    if let Some(open) = open {
        let cause = format!("the text that begins here with {} is never closed", open.quotes);
        found.mistake(source.spot(open.begins), cause, open.remedy());
    }
    let mut named_lines = Vec::new();
    for (byte, message) in errors.iter().filter(|(byte, _)| *byte < until) {
        let spot = source.spot(*byte);
        // One stray quote breaks the rest of its line several times over.
        if named_lines.contains(&spot.line) {
            continue;
        }
        named_lines.push(spot.line);
        let (spot, cause, remedy) = one_pair_of_brackets(source, *byte).unwrap_or_else(|| error(source, *byte, spot, message));
        found.mistake(spot, cause, remedy);
    }
}

/// Is it a file of recipes/ in which nothing is of TOML: no key, no heading?
fn is_plain_recipe(source: &Source) -> bool {
    let written = |line: &str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    source.file.starts_with("recipes/") && source.lines().filter(|(_, line)| written(line)).count() > 2 && is_prose(source)
}

/// Has it no key and no heading at all?
pub(super) fn is_prose(source: &Source) -> bool {
    !source.lines().any(|(_, line)| key_of(line).is_some() || heading_of(line).is_some())
}

/// "makes" of `makes = "4 portions"`.
fn key_of(line: &str) -> Option<&str> {
    let key = line.split_once('=')?.0.trim();
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "_-.".contains(letter);
    (!key.is_empty() && key.chars().all(plain)).then_some(key)
}

/// "meal" of `[[meal]]` and of `[meal]`, and how many brackets open it.
fn heading_of(line: &str) -> Option<(&str, usize)> {
    let line = line.trim().split('#').next().unwrap_or_default().trim_end();
    let brackets = if line.starts_with("[[") && line.ends_with("]]") { 2 } else { 1 };
    let name = line.get(brackets..line.len().checked_sub(brackets)?)?;
    let whole = line.starts_with('[') && line.ends_with(']');
    (whole && key_of(&format!("{name} =")).is_some()).then_some((name, brackets))
}

/// A text over several lines without its end.
struct LeftOpen {
    /// The byte at which its key begins.
    begins: usize,
    quotes: &'static str,
    /// The line that reads as the first after it, by its number and what begins there.
    before: Option<(u32, String)>,
}

impl LeftOpen {
    fn remedy(&self) -> String {
        let quotes = self.quotes;
        match &self.before {
            Some((line, what)) => format!("Write {quotes} on a line of its own after its last line; {what} begins at line {line}."),
            None => format!("Write {quotes} on a line of its own after its last line."),
        }
    }
}

/// The first text in three quotes that another one follows, or the end of the file, before it was closed.
fn left_open(source: &Source) -> Option<LeftOpen> {
    let mut open: Option<LeftOpen> = None;
    for (begins, line) in source.lines() {
        let key = key_of(line);
        let value = key.and_then(|_| line.split_once('=')).map_or("", |(_, value)| value.trim_start());
        let opening = ["\"\"\"", "'''"].into_iter().find(|quotes| value.starts_with(quotes) && value.matches(quotes).count() == 1);
        match (&mut open, opening) {
            (Some(text), None) if line.contains(text.quotes) => open = None,
            (Some(text), opening) => {
                let what = key.map(str::to_owned).or(heading_of(line).map(|_| line.trim().to_owned()));
                text.before = text.before.take().or(what.map(|what| (source.spot(begins).line, what)));
                if opening.is_some() {
                    return open;
                }
            }
            (None, Some(quotes)) => open = Some(LeftOpen { begins, quotes, before: None }),
            (None, None) => {}
        }
    }
    open
}

/// A heading that stands once as `[meal]` and else as `[[meal]]`: the parser stumbles over one, the slip is in the other.
fn one_pair_of_brackets(source: &Source, byte: usize) -> Option<(Spot, String, String)> {
    let (name, _) = heading_of(source.line_of(byte))?;
    let all = |brackets| source.lines().filter(move |(_, line)| heading_of(line) == Some((name, brackets)));
    let (slip, others) = (all(1).next()?, all(2).count());
    let cause = format!("[{name}] has one pair of brackets here, and two elsewhere in this file");
    (others > 0).then(|| (source.spot(slip.0), cause, format!("Write [[{name}]], which begins one more of several.")))
}

fn error(source: &Source, byte: usize, spot: Spot, message: &str) -> (Spot, String, String) {
    let line = source.line_of(byte);
    if let Some((at, quote)) = line.char_indices().find(|(_, c)| CURLY_QUOTES.contains(c)) {
        let column = line[..at].chars().count() as u32 + 1;
        let cause = format!("{quote} is a curly quote, which TOML does not read");
        return (Spot { column, ..spot }, cause, "Write straight quotes: \" or '.".to_owned());
    }
    if let Some((at, _)) = line.char_indices().find(|(_, c)| NO_BREAK_SPACES.contains(c)) {
        let column = line[..at].chars().count() as u32 + 1;
        let cause = "this is a no-break space, which TOML does not read".to_owned();
        return (Spot { column, ..spot }, cause, "Type a plain space.".to_owned());
    }
    let remedy = remedy(line, message);
    let cause = match in_plain_words(message) {
        _ if value_of(line).is_some_and(like_a_date) => "this is no date as TOML writes it".to_owned(),
        Some(words) => format!("this is not valid TOML: {words}"),
        None => format!("this is not valid TOML: {}", message.replace('\n', " ")),
    };
    (spot, cause, remedy)
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

/// What stands after the equals sign, without a remark.
fn value_of(line: &str) -> Option<&str> {
    line.split_once('=').map(|(_, value)| value.split('#').next().unwrap_or_default().trim())
}

/// "2026-02-30", "2026-11-3", "30/11/2026" or "30.11.2026" without quotes.
fn like_a_date(value: &str) -> bool {
    let value = value.split(['T', ' ']).next().unwrap_or("");
    let digits = value.bytes().filter(u8::is_ascii_digit).count();
    digits >= 3 && value.matches(DATE_MARKS).count() == 2 && value.chars().all(|c| c.is_ascii_digit() || DATE_MARKS.contains(&c))
}

const DATE_MARKS: [char; 3] = ['-', '/', '.'];

/// The day that was meant, where only one can be: 2026-11-30 of "30.11.2026", of "30/11/2026" and of "2026-11-30".
fn meant(value: &str) -> Option<Date> {
    let value = value.split(['T', ' ']).next()?;
    let parts: Vec<i16> = value.split(DATE_MARKS).map(str::parse).collect::<Result<_, _>>().ok()?;
    let &[first, second, third] = parts.as_slice() else { return None };
    let date = |year: i16, month: i16, day: i16| Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok();
    if first > 31 {
        return date(first, second, third);
    }
    let (day_first, month_first) = (date(third, second, first), date(third, first, second));
    // With slashes both ways are in use; with full stops and hyphens the day stands first.
    let both_ways = value.contains('/') && day_first != month_first;
    day_first.filter(|_| !both_ways || month_first.is_none()).or(month_first.filter(|_| day_first.is_none() && value.contains('/')))
}

fn remedy(line: &str, message: &str) -> String {
    let value = value_of(line).unwrap_or_default();
    match meant(value).filter(|_| like_a_date(value)) {
        Some(date) => format!("Write a date of the calendar as year-month-day, two digits for month and day: {date}."),
        None => usual_remedy(value, line, message).to_owned(),
    }
}

fn usual_remedy(value: &str, line: &str, message: &str) -> &'static str {
    let starts_with_digit = value.starts_with(|c: char| c.is_ascii_digit());
    if message.contains("duplicate key") {
        "Write each key once under its heading, and a heading in one pair of brackets once."
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

    #[track_caller]
    fn said_of(text: &str) -> String {
        let source = Source::new("a.toml".into(), text.into());
        let found = Findings::default();
        assert!(parse(&source, &found).is_none(), "{text} was read");
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
        assert!(parse(&source, &found).is_none());
        let said: Vec<String> = found.into_parts().0.iter().map(|m| m.to_string()).collect();
        assert_eq!(said[0], "a.toml:1:8: “ is a curly quote, which TOML does not read. Write straight quotes: \" or '.");
        assert!(said[1].starts_with("a.toml:3:9: this is not valid TOML: "), "{said:?}");
    }

    #[test]
    fn a_date_in_another_order_is_written_out_the_right_way() {
        for (typed, meant) in
            [("30.11.2026", "2026-11-30"), ("30/11/2026", "2026-11-30"), ("11/30/2026", "2026-11-30"), ("2026-11-3", "2026-11-03")]
        {
            let said = said_of(&format!("from = {typed}   # Monday\n"));
            assert!(said.ends_with(&format!("two digits for month and day: {meant}.")), "{said}");
        }
        // Which of the two is the month, nobody can tell.
        assert!(said_of("from = 05/06/2026\n").ends_with("two digits for month and day: 2026-11-30."));
    }

    #[test]
    fn one_pair_of_brackets_among_two_is_told_where_it_stands() {
        for text in ["[[meal]]\nat = 1\n[meal]\nat = 2\n[[meal]]\nat = 3\n", "\n\n[meal]\nat = 1\n[[meal]]\nat = 2\n[[meal]]\nat = 3\n"] {
            let said = "a.toml:3:1: [meal] has one pair of brackets here, and two elsewhere in this file. \
                        Write [[meal]], which begins one more of several.";
            assert_eq!(said_of(text), said);
        }
    }

    #[test]
    fn a_text_that_was_never_closed_is_told_where_it_begins() {
        let text = "name = \"Soup\"\ningredients = \"\"\"\n3 leeks\n1 l stock\n\n[[step]]\ntext = \"Boil.\"\n";
        let said = "a.toml:2:1: the text that begins here with \"\"\" is never closed. \
                    Write \"\"\" on a line of its own after its last line; [[step]] begins at line 6.";
        assert_eq!(said_of(text), said);
        let twice = "ingredients = \"\"\"\n3 leeks\nmethod = \"\"\"\nBoil them.\n\"\"\"\n";
        assert_eq!(said_of(twice).lines().count(), 1);
        assert!(
            said_of(twice).starts_with("a.toml:1:1: the text that begins here") && said_of(twice).ends_with("method begins at line 3.")
        );
    }

    #[test]
    fn a_recipe_s_plain_text_is_told_as_what_it_is() {
        let source = Source::new("recipes/soup.toml".into(), "Leek soup\nServes 4\n\n3 leeks\n1 l stock\n\nBoil.\n".into());
        let found = Findings::default();
        assert!(parse(&source, &found).is_none());
        let said: Vec<String> = found.into_parts().0.iter().map(|mistake| mistake.to_string()).collect();
        let one = "recipes/soup.toml:1:1: this reads like a recipe's text, not like TOML. \
                   Rename it, so that it ends in .txt, and take it in with: spence adopt FILE.";
        assert_eq!(said, [one]);
    }
}
