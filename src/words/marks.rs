//! Letters that nobody sees, and that a terminal obeys: control characters, and the marks that turn the direction of a line. A name may
//! not hold them; where a text that holds them is shown, visible marks stand in their place.

use std::borrow::Cow;

/// A control character of ISO 646 or ISO 6429 (C0, DEL, C1), or a mark of direction: the embeddings, overrides and isolates of the
/// Unicode Bidirectional Algorithm (UAX #9, section 2) and its three lone marks.
pub fn is_unseen(letter: char) -> bool {
    letter.is_control() || matches!(letter, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// The text with a visible mark for each letter that nobody sees: "␛", "<U+202E>". Line ends and tabs stay.
pub fn visible(text: &str) -> Cow<'_, str> {
    marked(text, |letter| is_unseen(letter) && !matches!(letter, '\n' | '\t'))
}

/// As [`visible`], of what is to stay on one line: a message must not go on with lines that it did not write. Letters without any width are
/// marked, too: they part two words that look alike.
pub fn visible_line(text: &str) -> Cow<'_, str> {
    marked(text, |letter| is_unseen(letter) || has_no_width(letter))
}

/// Zero width space, word joiner, and the zero width no-break space that also marks the order of bytes. The joiners of scripts and of
/// pictures are none of them.
fn has_no_width(letter: char) -> bool {
    matches!(letter, '\u{200b}' | '\u{2060}' | '\u{feff}')
}

fn marked(text: &str, unseen: impl Fn(char) -> bool) -> Cow<'_, str> {
    if !text.chars().any(&unseen) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 8);
    for letter in text.chars() {
        if unseen(letter) { shown.push_str(&mark(letter)) } else { shown.push(letter) }
    }
    Cow::Owned(shown)
}

/// What is shown in the place of a letter that nobody sees: its picture from the Unicode block Control Pictures (U+2400 to U+2421), or
/// its number.
pub fn mark(letter: char) -> String {
    let picture = match letter as u32 {
        code @ 0..=0x1f => char::from_u32(0x2400 + code),
        0x7f => Some('\u{2421}'),
        _ => None,
    };
    picture.map_or_else(|| number(letter), String::from)
}

/// "U+202E" in angle brackets.
fn number(letter: char) -> String {
    format!("<U+{:04X}>", letter as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_terminal_gets_no_letter_that_it_would_obey() {
        for code in (0..0x20).chain(0x7f..0xa0).chain(0x202a..=0x202e).chain(0x2066..=0x2069).chain([0x61c, 0x200e, 0x200f]) {
            let letter = char::from_u32(code).unwrap();
            let shown = visible_line(&format!("a{letter}b")).into_owned();
            assert!(!shown.chars().any(is_unseen), "{code:x}: {shown:?}");
            assert!(shown.starts_with('a') && shown.ends_with('b') && shown.chars().count() > 2, "{code:x}: {shown:?}");
        }
    }

    #[test]
    fn what_is_seen_stays_as_it_is() {
        for text in ["crème fraîche", "½ cup\u{a0}flour", "茄子", "🫘", "a\tb\nc"] {
            assert_eq!(visible(text), text);
        }
        assert_eq!(visible_line("one\ntwo"), "one␊two");
        assert_eq!(visible("red\u{1b}[31m\nwine\u{202e}"), "red␛[31m\nwine<U+202E>");
    }
}
