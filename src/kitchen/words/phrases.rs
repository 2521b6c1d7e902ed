//! A table of phrases, each with what it means to whoever keeps the table.

use std::collections::HashMap;
use std::ops::Range;

use super::Words;
use crate::foods::key_of;

/// Phrases by their keys: number, hyphens and letter case do not matter.
#[derive(Debug, Clone)]
pub struct Phrases<T> {
    by_key: HashMap<String, T>,
    /// Words in the longest phrase that begins with this word.
    longest: HashMap<String, usize>,
}

impl<T: Copy> Phrases<T> {
    /// Of two rows with one phrase the first holds.
    pub fn of<'a>(rows: impl IntoIterator<Item = (T, &'a str)>) -> Self {
        let mut phrases = Phrases { by_key: HashMap::new(), longest: HashMap::new() };
        for (means, phrase) in rows {
            let key = key_of(phrase);
            let words = key.split(' ').count();
            let first = key.split(' ').next().unwrap_or("").to_owned();
            let longest = phrases.longest.entry(first).or_default();
            *longest = words.max(*longest);
            phrases.by_key.entry(key).or_insert(means);
        }
        phrases
    }

    /// The longest phrase that begins at the first place of the range and ends in it, and the place after it.
    pub fn find(&self, words: &Words, within: Range<usize>) -> Option<(T, usize)> {
        let most = *self.longest.get(words.key_at(within.start))?;
        if most == 1 {
            let means = self.by_key.get(words.key_at(within.start))?;
            return Some((*means, within.start + 1));
        }
        let end = words.phrase_end(within.start, most).min(within.end);
        let mut ends = (within.start + 1..=end).rev().filter(|end| !words.key_at(end - 1).is_empty());
        ends.find_map(|end| Some((*self.by_key.get(words.key(within.start..end))?, end)))
    }

    /// What a single key means.
    pub fn get(&self, key: &str) -> Option<T> {
        self.by_key.get(key).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn the_longest_phrase_is_found_however_it_is_written() {
        let phrases = Phrases::of([(1, "good"), (2, "good quality"), (3, "no need to soak"), (4, "leaf")]);
        let found = |text: &str| {
            let words = Words::of(text);
            phrases.find(&words, 0..words.len())
        };
        assert_eq!(found("Good-quality oil"), Some((2, 3)));
        assert_eq!(found("good oil"), Some((1, 1)));
        assert_eq!(found("no-need-to-soak"), Some((3, 7)));
        assert_eq!(found("leaves"), Some((4, 1)));
        assert_eq!(found("no"), None);
        assert_eq!(found("(good)"), None);
    }
}
