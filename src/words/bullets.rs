//! Marks before the lines of a list, in texts that people paste.

/// Longer ones first where they begin alike.
#[rustfmt::skip]
const BULLETS: [&str; 26] = [
    "- [ ] ", "- [x] ", "- [X] ", "* [ ] ", "* [x] ", "* [X] ", "[ ] ", "[x] ", "[X] ", "- ", "– ", "— ", "* ", "• ", "•", "· ", "☐ ", "□ ", "▢ ", "▢",
    "☑ ", "✓ ", "✔ ", "† ", "‡ ", "‣ ",
];

/// The length of the mark that a line begins with, the blank after it included; 0 where there is none.
pub fn bullet(line: &str) -> usize {
    BULLETS.iter().find(|bullet| line.starts_with(**bullet)).map_or(0, |bullet| bullet.len())
}

#[cfg(test)]
mod tests {
    use super::bullet;

    #[test]
    fn a_mark_is_as_long_as_it_and_the_blank_behind_it() {
        assert_eq!((bullet("- 2 onions"), bullet("- [x] 2 onions"), bullet("2 onions")), (2, 6, 0));
    }
}
