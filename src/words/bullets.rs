//! Marks before the lines of a list, in texts that people paste.

/// Longer ones first where they begin alike.
#[rustfmt::skip]
const BULLETS: [&str; 26] = [
    "- [ ] ", "- [x] ", "- [X] ", "* [ ] ", "* [x] ", "* [X] ", "[ ] ", "[x] ", "[X] ", "- ", "– ", "— ", "* ", "• ", "•", "· ", "☐ ", "□ ", "▢ ", "▢",
    "☑ ", "✓ ", "✔ ", "† ", "‡ ", "‣ ",
];

/// The length of the mark that a line begins with, the blank after it included; 0 where there is none.
///
/// ```
/// assert_eq!(spence::words::bullet("- 2 onions"), 2);
/// assert_eq!(spence::words::bullet("2 onions"), 0);
/// ```
pub fn bullet(line: &str) -> usize {
    BULLETS.iter().find(|bullet| line.starts_with(**bullet)).map_or(0, |bullet| bullet.len())
}
