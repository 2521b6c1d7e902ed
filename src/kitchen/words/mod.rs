//! What people write in a kitchen's files, cut once into words: ingredient lines stand on it, and the methods of recipes can.
//!
//! [`Words`] holds the tokens of a text with the key of every word (singular, lower case, "canned" as "tinned"), so that names and phrases
//! are found without looking at a letter twice. [`Phrases`] is a table of phrases that are found the same way.
//!
//! ```
//! use spence::foods::Foods;
//! use spence::kitchen::Words;
//! let (foods, words) = (Foods::reference(), Words::of("Fry the spring onions in 2 tbsp olive oil for 10 min."));
//! let (onions, end) = words.food(2, &foods).unwrap();
//! assert_eq!((foods[onions].name.as_str(), words.text(2..end)), ("spring onion", "spring onions"));
//! let oil = words.amount(5).unwrap().unwrap();
//! assert_eq!((oil.amount.to_string(), words.text(oil.end..oil.end + 2)), ("2 tbsp".to_owned(), "olive oil"));
//! ```
//!
//! Nothing here knows what a line or a step is, or what any phrase means.

mod phrases;

use std::ops::Range;

pub use phrases::Phrases;

use crate::foods::{FoodId, Foods, push_word};
use crate::measure::{AmountRead, Kind, NumberRead, ReadError, Token, Unit, amount_at, cut, number_at, times_at, unit_from};

/// A text cut into tokens. Places in it are indices of tokens, from 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Words<'t> {
    typed: &'t str,
    tokens: Vec<Token<'t>>,
    /// The keys of all words, parted by single spaces.
    keys: String,
    /// Where the key of each token stands in `keys`; empty for a sign.
    spans: Vec<Range<u32>>,
}

impl<'t> Words<'t> {
    /// Cuts a text.
    pub fn of(typed: &'t str) -> Self {
        let tokens = cut(typed);
        let mut keys = String::with_capacity(typed.len() + 4);
        let spans = tokens.iter().map(|token| push_key(&mut keys, token)).collect();
        Words { typed, tokens, keys, spans }
    }

    pub fn len(&self) -> usize {
        self.tokens.len()
    }

    pub fn is_empty(&self) -> bool {
        self.tokens.is_empty()
    }

    pub fn tokens(&self) -> &[Token<'t>] {
        &self.tokens
    }

    /// The token at a place; `None` after the last.
    pub fn at(&self, at: usize) -> Option<&Token<'t>> {
        self.tokens.get(at)
    }

    pub fn kind(&self, at: usize) -> Option<Kind> {
        self.tokens.get(at).map(|token| token.kind)
    }

    /// Is it this word, in any letter case?
    pub fn is(&self, at: usize, word: &str) -> bool {
        self.tokens.get(at).is_some_and(|token| token.is(word))
    }

    /// A dash with neither a space before nor after it: the one in "self-raising".
    pub fn is_hyphen(&self, at: usize) -> bool {
        self.kind(at) == Some(Kind::Dash) && !self.tokens[at].spaced && self.tokens.get(at + 1).is_some_and(|next| !next.spaced)
    }

    /// The byte of the text at which the token begins; its end after the last.
    pub fn byte(&self, at: usize) -> usize {
        self.tokens.get(at).map_or(self.typed.len(), |token| token.start)
    }

    /// As typed; nothing for an empty range.
    pub fn text(&self, range: Range<usize>) -> &'t str {
        match self.tokens.get(range.clone()) {
            Some([first, .., last]) => &self.typed[first.start..last.end()],
            Some([one]) => one.text,
            _ => "",
        }
    }

    /// As typed between two bytes.
    pub fn between(&self, from: usize, to: usize) -> &'t str {
        self.typed.get(from..to).unwrap_or("")
    }

    /// As typed, with single spaces and without folded brackets.
    pub fn plain(&self, range: Range<usize>) -> String {
        let mut plain = String::new();
        for token in self.tokens.get(range).unwrap_or_default().iter().filter(|token| token.kind != Kind::Open) {
            if token.spaced && !plain.is_empty() {
                plain.push(' ');
            }
            plain.push_str(token.text);
        }
        plain
    }

    /// The words of a range as a food's name has them: singular, lower case, without hyphens, parted by single spaces.
    pub fn key(&self, range: Range<usize>) -> &str {
        let mut spans = self.spans.get(range).unwrap_or_default().iter().filter(|span| !span.is_empty());
        let Some(first) = spans.next() else { return "" };
        let last = spans.next_back().unwrap_or(first);
        &self.keys[first.start as usize..last.end as usize]
    }

    /// The key of one token: nothing for a sign.
    pub fn key_at(&self, at: usize) -> &str {
        self.spans.get(at).map_or("", |span| &self.keys[span.start as usize..span.end as usize])
    }

    /// A part of the text, with places of its own.
    pub fn part(&self, range: Range<usize>) -> Words<'t> {
        let tokens = self.tokens.get(range.clone()).unwrap_or_default().to_vec();
        let spans = self.spans.get(range).unwrap_or_default().to_vec();
        Words { typed: self.typed, tokens, keys: self.keys.clone(), spans }
    }

    /// The text with each bracket as one token of the kind [`Kind::Open`], and beside it what stands in the brackets, by their places.
    ///
    /// Fails at the byte of a bracket that is never closed or never opened.
    pub fn fold_brackets(self) -> Result<(Words<'t>, Vec<(usize, Words<'t>)>), UnevenBracket> {
        if !self.tokens.iter().any(|token| matches!(token.kind, Kind::Open | Kind::Close)) {
            return Ok((self, Vec::new()));
        }
        let mut folded = Words { typed: self.typed, tokens: Vec::new(), keys: String::new(), spans: Vec::new() };
        let mut inside = Vec::new();
        let mut at = 0;
        while let Some(token) = self.tokens.get(at) {
            let mut token = *token;
            if token.kind == Kind::Close {
                return Err(UnevenBracket { opened: false, byte: token.start });
            }
            if token.kind == Kind::Open {
                let Some(close) = self.closing(at) else { return Err(UnevenBracket { opened: true, byte: token.start }) };
                inside.push((folded.tokens.len(), self.part(at + 1..close)));
                token.text = &self.typed[token.start..self.tokens[close].end()];
                folded.spans.push(0..0);
                at = close;
            } else {
                let span = push_key(&mut folded.keys, &token);
                folded.spans.push(span);
            }
            folded.tokens.push(token);
            at += 1;
        }
        Ok((folded, inside))
    }

    /// The bracket that closes the one at `at`.
    pub fn closing(&self, at: usize) -> Option<usize> {
        let mut depth = 0usize;
        for (place, token) in self.tokens.iter().enumerate().skip(at) {
            match token.kind {
                Kind::Open => depth += 1,
                Kind::Close => depth = depth.saturating_sub(1),
                _ => {}
            }
            if depth == 0 {
                return (place > at).then_some(place);
            }
        }
        None
    }

    /// The number that begins here; see [`crate::measure::number_at`].
    pub fn number(&self, at: usize) -> Result<Option<NumberRead>, ReadError> {
        number_at(&self.tokens, at)
    }

    /// The amount that begins here, with its unit where it has one; see [`crate::measure::amount_at`].
    pub fn amount(&self, at: usize) -> Result<Option<AmountRead>, ReadError> {
        amount_at(&self.tokens, at)
    }

    /// The unit that begins here, and the place after it.
    pub fn unit(&self, at: usize) -> Option<(Unit, usize)> {
        unit_from(&self.tokens, at)
    }

    /// Past the "x" of `2 x 400 g`, where a number follows it.
    pub fn times(&self, at: usize) -> Option<usize> {
        times_at(&self.tokens, at)
    }

    /// The longest name of a known food that begins here, and the place after it.
    pub fn food(&self, at: usize, foods: &Foods) -> Option<(FoodId, usize)> {
        let mut ends = (at + 1..=self.phrase_end(at, LONGEST_NAME)).rev().filter(|end| !self.key_at(end - 1).is_empty());
        ends.find_map(|end| Some((foods.find_known(self.key(at..end))?, end)))
    }

    /// The food of which these words are a name, all of them.
    pub fn food_in(&self, range: Range<usize>, foods: &Foods) -> Option<FoodId> {
        foods.find_known(self.key(range))
    }

    /// The place after the last token that one phrase from `at` on can hold: words, numbers, "&" and the hyphens between them.
    fn phrase_end(&self, at: usize, most: usize) -> usize {
        let mut end = at;
        let mut words = 0;
        while words < most && end < self.len() && (!self.key_at(end).is_empty() || end > at && self.is_hyphen(end)) {
            words += usize::from(!self.key_at(end).is_empty());
            end += 1;
        }
        end
    }
}

/// A bracket without its fellow, and the byte at which it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct UnevenBracket {
    /// False where it closes what was never opened.
    pub opened: bool,
    pub byte: usize,
}

/// Words in the longest name that is looked for.
const LONGEST_NAME: usize = 8;

fn push_key(keys: &mut String, token: &Token) -> Range<u32> {
    let before = keys.len();
    if token.kind == Kind::Percent {
        // "2% milk" may be a name.
        keys.push('%');
        return before as u32..keys.len() as u32;
    }
    match token.kind {
        Kind::Word => push_word(keys, token.text),
        Kind::And => push_word(keys, "and"),
        Kind::Number | Kind::Fraction => push_word(keys, token.text),
        _ => {}
    }
    let start = before + usize::from(before > 0 && keys.len() > before);
    start as u32..keys.len() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn a_key_is_what_names_are_known_by() {
        let words = Words::of("2 Self-Raising Flours, crème-fraîche & olives");
        assert_eq!(words.key(1..5), "self raising flour");
        assert_eq!(words.text(1..5), "Self-Raising Flours");
        assert_eq!(words.key(6..words.len()), "creme fraiche and olive");
        assert_eq!(Words::of("2 % milk").key(0..3), "2% milk");
        assert_eq!(words.key(5..6), "");
        assert_eq!(words.key(9..9), "");
    }

    #[test]
    fn brackets_know_where_they_close() {
        let words = Words::of("a (b (c) d) e (f");
        assert_eq!(words.closing(1), Some(7));
        assert_eq!(words.closing(3), Some(5));
        assert_eq!(words.closing(9), None);
    }

    #[test]
    fn a_folded_text_has_its_brackets_beside_it() {
        let (folded, inside) = Words::of("coriander (dhania) powder").fold_brackets().expect("even");
        assert_eq!(folded.key(0..folded.len()), "coriander powder");
        assert_eq!(inside.iter().map(|(at, words)| (*at, words.key(0..words.len()))).collect::<Vec<_>>(), [(1, "dhania")]);
        assert_eq!(Words::of("a (b").fold_brackets(), Err(UnevenBracket { opened: true, byte: 2 }));
        assert_eq!(Words::of("a) b").fold_brackets(), Err(UnevenBracket { opened: false, byte: 1 }));
    }

    #[test]
    fn a_name_ends_at_the_first_sign() {
        let mut foods = Foods::default();
        foods.intern_unknown("nothing");
        foods.lay_over(crate::foods::Food { name: "tomato purée".into(), ..Default::default() });
        foods.lay_over(crate::foods::Food { name: "tomato".into(), ..Default::default() });
        let named = |text: &str| Words::of(text).food(0, &foods).map(|(id, end)| (foods[id].name.clone(), end));
        assert_eq!(named("tomato puree"), Some(("tomato purée".to_owned(), 2)));
        assert_eq!(named("Tomatoes, puree"), Some(("tomato".to_owned(), 1)));
        assert_eq!(named("tomato-purée"), Some(("tomato purée".to_owned(), 3)));
        assert_eq!(named("nothing"), None);
    }
}
