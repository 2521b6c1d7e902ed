//! The key under which a name is found: lower case, without accents, hyphens and plurals, "canned" as "tinned".
//!
//! A key is never printed; it only has to be the same for every way of writing one name.

use std::borrow::Cow;

/// As [`key_of`]; most names of the reference are their own key.
pub(crate) fn key_in(name: &str) -> Cow<'_, str> {
    if is_key(name.as_bytes()) { Cow::Borrowed(name) } else { Cow::Owned(key_of(name)) }
}

/// Surely its own key: small letters and digits, single spaces, no word that may have another singular.
fn is_key(name: &[u8]) -> bool {
    let mut start = 0;
    for at in 0..=name.len() {
        match name.get(at) {
            Some(b'a'..=b'z' | b'0'..=b'9') => {}
            None | Some(b' ') => {
                let word = &name[start..at];
                let changes = match word.last() {
                    None | Some(b's') => true,
                    Some(b'e') => word.ends_with(b"ie") || CHANGING.contains(&word),
                    Some(_) => CHANGING.contains(&word),
                };
                if changes {
                    return false;
                }
                start = at + 1;
            }
            Some(_) => return false,
        }
    }
    true
}

/// The key of a whole name.
///
/// `Chopped Tomatoes` and `chopped tomato` have one key.
pub(crate) fn key_of(name: &str) -> String {
    let mut key = String::with_capacity(name.len());
    for word in name.split_whitespace() {
        push_word(&mut key, word);
    }
    key
}

/// Appends one typed word (which a hyphen may make two) to a key.
pub(crate) fn push_word(key: &mut String, word: &str) {
    let hyphens: &[char] = if word.is_ascii() { &['-'] } else { &['-', '‐', '‑'] };
    for part in word.split(hyphens).filter(|part| !part.is_empty()) {
        if !key.is_empty() {
            key.push(' ');
        }
        let start = key.len();
        for letter in part.chars() {
            push_letter(key, letter);
        }
        singularise(key, start);
        if &key[start..] == "canned" {
            key.replace_range(start.., "tinned");
        }
    }
}

fn push_letter(key: &mut String, letter: char) {
    if letter.is_ascii() {
        if letter != '\'' {
            key.push(letter.to_ascii_lowercase());
        }
        return;
    }
    for lower in letter.to_lowercase() {
        match lower {
            'à' | 'á' | 'â' | 'ã' | 'å' => key.push('a'),
            'ç' => key.push('c'),
            'è' | 'é' | 'ê' | 'ë' => key.push('e'),
            'ì' | 'í' | 'î' | 'ï' => key.push('i'),
            'ñ' => key.push('n'),
            'ò' | 'ó' | 'ô' | 'õ' => key.push('o'),
            'ù' | 'ú' | 'û' => key.push('u'),
            'œ' => key.push_str("oe"),
            'æ' => key.push_str("ae"),
            '’' | '‘' => {}
            other => key.push(other),
        }
    }
}

/// Ends in -s and is no plural, or has a plural of its own kind.
const IRREGULAR: [(&str, &str); 24] = [
    ("leaves", "leaf"),
    ("loaves", "loaf"),
    ("halves", "half"),
    ("calves", "calf"),
    ("knives", "knife"),
    ("chillies", "chilli"),
    ("chilies", "chili"),
    ("chiles", "chili"),
    ("chile", "chili"),
    ("quiches", "quiche"),
    ("brioches", "brioche"),
    ("molasses", "molasses"),
    ("gas", "gas"),
    ("swiss", "swiss"),
    ("roes", "roe"),
    ("roe", "roe"),
    ("aloe", "aloe"),
    ("yoghurt", "yogurt"),
    ("yoghurts", "yogurt"),
    ("geese", "goose"),
    ("feet", "foot"),
    ("haggis", "haggis"),
    ("cos", "cos"),
    ("as", "as"),
];

/// Words that end neither in -s nor in -ie and are not their own key.
const CHANGING: [&[u8]; 5] = [b"chile", b"geese", b"feet", b"yoghurt", b"canned"];

/// The last letters of words that may have another singular: every plural above, and "-ie".
const LAST: [char; 3] = ['s', 'e', 't'];

/// Makes the word that begins at `start` singular, in place.
fn singularise(key: &mut String, start: usize) {
    let word = &key[start..];
    if !word.ends_with(LAST) {
        return;
    }
    if let Some((_, singular)) = IRREGULAR.iter().find(|row| row.0 == word) {
        key.replace_range(start.., singular);
        return;
    }
    // "cookie" and "cookies" must meet "cherry" and "cherries": all of them end in -y.
    let stem = |cut: usize| start + word.len() - cut;
    let (keep, add) = if word.len() < 3 || ["ss", "us", "is"].iter().any(|end| word.ends_with(end)) {
        return;
    } else if word.ends_with("ies") {
        (stem(3), "y")
    } else if word.ends_with("ie") {
        (stem(2), "y")
    } else if ["oes", "ches", "shes", "xes", "sses"].iter().any(|end| word.ends_with(end)) {
        (stem(2), "")
    } else if word.ends_with('s') {
        (stem(1), "")
    } else {
        return;
    };
    key.truncate(keep);
    key.push_str(add);
}

#[cfg(test)]
mod tests {
    use super::*;
    use pretty_assertions::assert_eq;

    #[test]
    fn singular_and_plural_meet_in_one_key() {
        for (one, many) in [
            ("tomato", "Tomatoes"),
            ("potato", "potatoes"),
            ("bay leaf", "bay leaves"),
            ("loaf", "loaves"),
            ("tomato half", "tomato halves"),
            ("radish", "radishes"),
            ("cherry", "cherries"),
            ("anchovy", "anchovies"),
            ("cookie", "cookies"),
            ("pie", "pies"),
            ("egg", "eggs"),
            ("olive", "olives"),
            ("chive", "chives"),
            ("peach", "peaches"),
            ("cheese", "cheeses"),
            ("chilli", "chillies"),
            ("quiche", "quiches"),
            ("Brussels sprout", "brussel sprouts"),
            ("crème fraîche", "creme fraiche"),
            ("self-raising flour", "self raising flour"),
            ("tinned tomato", "canned tomatoes"),
            ("chicken thigh", "chicken thighs"),
        ] {
            assert_eq!(key_of(one), key_of(many), "{one} / {many}");
        }
    }

    #[test]
    fn a_name_that_is_its_own_key_is_not_written_anew() {
        assert!(IRREGULAR.iter().all(|(plural, _)| plural.ends_with(LAST)));
        for word in IRREGULAR.iter().flat_map(|row| [row.0, row.1]).chain(["canned", "cookie", "cheese", "oat", "white"]) {
            assert_eq!(key_in(word), key_of(word));
        }
        for name in
            ["onion", "red onion", "Onion", "onions", "canned", "crème", "self-raising flour", "baker's oat", "a  b", " a", "", "7up"]
        {
            assert_eq!(key_in(name), key_of(name));
        }
        assert!(matches!(key_in("red onion"), Cow::Borrowed(_)));
    }

    #[test]
    fn a_name_that_only_looks_like_a_plural_is_left_alone() {
        for name in ["hummus", "couscous", "asparagus", "molasses", "watercress", "haggis", "bass"] {
            assert_eq!(key_of(name), name);
        }
    }
}
