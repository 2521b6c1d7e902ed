//! A text of the kitchen cut once into words, numbers and signs. What stands on the tokens (numbers, units, ingredient lines, the
//! methods of recipes) never looks at single letters again.
//!
//! ```text
//! word     = letters, with digits and apostrophes inside         onion, Baker's, B12
//! number   = digits [("." | ",") digits] | "." digits            2, 1.5, 1,5, .5
//! fraction = one sign of Unicode                                 ½, ⅔
//! sign     = one of the rest; a bracket knows where it closes
//! ```
//!
//! Nothing here knows a food, a unit, or what a number is a number of.

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Word,
    /// Digits, perhaps with a decimal point or comma.
    Number,
    /// One sign that is a fraction.
    Fraction,
    /// Any of the dashes.
    Dash,
    /// `/` and the fraction slashes.
    Slash,
    /// `×`, `*`, and the `x` between two numbers.
    Times,
    Comma,
    Semicolon,
    Colon,
    Stop,
    Plus,
    /// `&`.
    And,
    Percent,
    /// `"` and its likes: inches after a number.
    Quote,
    /// `°`.
    Degree,
    Open,
    Close,
    Other,
}

/// One token: its text, the byte at which it begins, and whether white space stands before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Token<'t> {
    pub kind: Kind,
    pub text: &'t str,
    pub start: usize,
    pub spaced: bool,
}

impl Token<'_> {
    /// The byte after it.
    pub fn end(&self) -> usize {
        self.start + self.text.len()
    }

    /// Is it this word, in any letter case?
    pub fn is(&self, word: &str) -> bool {
        self.kind == Kind::Word && self.text.eq_ignore_ascii_case(word)
    }

    /// A number or a fraction.
    pub fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number | Kind::Fraction)
    }
}

pub(crate) const DASHES: [char; 8] = ['-', '‐', '‑', '‒', '–', '—', '―', '−'];

/// The fractions of Unicode.
#[rustfmt::skip]
pub(crate) const VULGAR: [(char, u8, u8); 18] = [
    ('½', 1, 2), ('⅓', 1, 3), ('⅔', 2, 3), ('¼', 1, 4), ('¾', 3, 4), ('⅕', 1, 5), ('⅖', 2, 5), ('⅗', 3, 5), ('⅘', 4, 5),
    ('⅙', 1, 6), ('⅚', 5, 6), ('⅐', 1, 7), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8), ('⅑', 1, 9), ('⅒', 1, 10),
];

/// Cuts a text. Every byte that is not white space stands in exactly one token.
///
/// ```
/// use spence::measure::{Kind, cut};
/// let texts: Vec<&str> = cut("1½ cups self-raising flour").iter().map(|token| token.text).collect();
/// assert_eq!(texts, ["1", "½", "cups", "self", "-", "raising", "flour"]);
/// assert_eq!(cut("2x400g")[1].kind, Kind::Times);
/// ```
pub fn cut(text: &str) -> Vec<Token<'_>> {
    let mut tokens: Vec<Token> = Vec::with_capacity(text.len() / 4 + 4);
    let mut at = 0;
    let mut spaced = false;
    while let Some(sign) = text[at..].chars().next() {
        if sign.is_whitespace() {
            spaced = true;
            at += sign.len_utf8();
            continue;
        }
        let after_number = !spaced && tokens.last().is_some_and(Token::is_number);
        let (kind, length) = one(&text[at..], sign, after_number, tokens.last().filter(|_| !spaced));
        tokens.push(Token { kind, text: &text[at..at + length], start: at, spaced });
        spaced = false;
        at += length;
    }
    tokens
}

/// The kind and the length of the token that `rest` begins with. `before` is the token it is glued to.
fn one(rest: &str, sign: char, after_number: bool, before: Option<&Token>) -> (Kind, usize) {
    let next = rest[sign.len_utf8()..].chars().next();
    let next_is_digit = next.is_some_and(|next| next.is_ascii_digit());
    if sign.is_ascii_digit() {
        return (Kind::Number, digits(rest));
    }
    let follows_stop = before.is_some_and(|before| before.kind == Kind::Stop || before.is_number());
    if sign == '.' && next_is_digit && !follows_stop {
        return (Kind::Number, 1 + run_of_digits(&rest[1..]));
    }
    if matches!(sign, 'x' | 'X') && after_number && next.is_some_and(|next| next.is_ascii_digit() || is_vulgar(next)) {
        return (Kind::Times, 1);
    }
    // The masculine ordinal, which is a letter, is typed for the sign of degrees.
    if sign.is_alphabetic() && sign != 'º' {
        return (Kind::Word, letters(rest));
    }
    (kind_of(sign), sign.len_utf8())
}

fn kind_of(sign: char) -> Kind {
    match sign {
        ',' => Kind::Comma,
        ';' => Kind::Semicolon,
        ':' => Kind::Colon,
        '.' => Kind::Stop,
        '/' | '⁄' | '∕' | '|' => Kind::Slash,
        '×' | '✕' | '*' => Kind::Times,
        '+' => Kind::Plus,
        '&' => Kind::And,
        '%' => Kind::Percent,
        '"' | '”' | '“' | '″' => Kind::Quote,
        '°' | 'º' => Kind::Degree,
        '(' | '[' => Kind::Open,
        ')' | ']' => Kind::Close,
        _ if DASHES.contains(&sign) => Kind::Dash,
        _ if is_vulgar(sign) => Kind::Fraction,
        _ => Kind::Other,
    }
}

fn run_of_digits(rest: &str) -> usize {
    rest.bytes().take_while(u8::is_ascii_digit).count()
}

fn digits(rest: &str) -> usize {
    let whole = run_of_digits(rest);
    let part = rest[whole..].strip_prefix(['.', ',']).map_or(0, run_of_digits);
    if part == 0 { whole } else { whole + 1 + part }
}

/// Letters, digits after letters, marks on letters, and an apostrophe before a letter.
fn letters(rest: &str) -> usize {
    let mut signs = rest.char_indices().peekable();
    while let Some((at, sign)) = signs.next() {
        // A raised figure after a word is the mark of a footnote.
        let goes_on = sign.is_alphanumeric() && !is_vulgar(sign) && !is_raised(sign)
            || ('\u{300}'..='\u{36f}').contains(&sign)
            || matches!(sign, '\'' | '’') && signs.peek().is_some_and(|next| next.1.is_alphabetic());
        if !goes_on {
            return at;
        }
    }
    rest.len()
}

fn is_raised(sign: char) -> bool {
    matches!(sign, '¹' | '²' | '³' | '⁰' | '⁴'..='⁹')
}

pub(crate) fn is_vulgar(sign: char) -> bool {
    !sign.is_ascii() && VULGAR.iter().any(|row| row.0 == sign)
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    fn told(text: &str) -> String {
        cut(text).iter().map(|token| format!("{}{:?}", if token.spaced { " " } else { "" }, token.kind)).collect::<Vec<_>>().join("·")
    }

    #[test]
    fn a_line_is_cut_into_words_numbers_and_signs() {
        for (text, kinds) in [
            ("2 x 400g", "Number· Word· Number·Word"),
            ("2x400g", "Number·Times·Number·Word"),
            ("2×½", "Number·Times·Fraction"),
            ("1½ cups", "Number·Fraction· Word"),
            ("1,5 kg", "Number· Word"),
            ("1,2,3", "Number·Comma·Number"),
            (".5 l", "Number· Word"),
            ("1..5", "Number·Stop·Stop·Number"),
            ("tbsp. oil", "Word·Stop· Word"),
            ("l'orange", "Word"),
            ("B12 (20%)", "Word· Open·Number·Percent·Close"),
            ("1/2–1", "Number·Slash·Number·Dash·Number"),
            ("5\" piece", "Number·Quote· Word"),
            ("200 °C", "Number· Degree·Word"),
            ("a & b + c", "Word· And· Word· Plus· Word"),
            ("", ""),
        ] {
            assert_eq!(told(text), kinds, "{text}");
        }
    }

    proptest! {
        #[test]
        fn nothing_of_a_text_is_lost(text in "\\PC{0,40}") {
            let kept: String = cut(&text).iter().map(|token| token.text).collect();
            let all: String = text.chars().filter(|sign| !sign.is_whitespace()).collect();
            prop_assert_eq!(kept, all);
        }
    }
}
