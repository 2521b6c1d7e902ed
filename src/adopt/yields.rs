//! What a page says a recipe makes, as `makes` is written.
//!
//! A yield is cut into numbers, words and marks. "serves 8" anywhere says portions; else the first number that is no size of a tin counts,
//! with what stands after it.

use crate::measure::{Dimension, Spoons, read_quantity};

/// Words for eaters' helpings, in the singular.
/// In the languages of pages that are sold abroad, too.
#[rustfmt::skip]
const PORTIONS: [&str; 18] = [
    "serving", "portion", "person", "people", "guest", "serve", "adult", "helping", "portionen", "personen", "personne", "persona", "porción", "porciones", "persone",
    "porzioni", "personer", "portioner",
];

/// What says portions of the number after it, wherever it stands.
const SERVES: [&str; 5] = ["serves", "serve", "serving", "feeds", "feed"];

/// May stand between those and the number.
const NEARLY: [&str; 10] = ["about", "around", "approximately", "approx", "up", "to", "at", "least", "roughly", "a"];

/// After a number: how wide it is, not how many.
const LENGTHS: [&str; 7] = ["cm", "mm", "inch", "inches", "in", "centimetre", "centimeter"];

/// Numbers in words; "twenty-four" is two of them.
const NUMBERS: [(&str, u32); 18] = [
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("fourteen", 14),
    ("fifteen", 15),
    ("sixteen", 16),
    ("eighteen", 18),
    ("twenty", 20),
    ("thirty", 30),
];

const FRACTIONS: &str = "½⅓⅔¼¾⅛⅜⅝⅞";

#[derive(Debug, Clone, PartialEq)]
enum Part {
    /// As it is written in `makes`.
    Number(String),
    /// In lower case.
    Word(String),
    Mark(char),
}

/// "Serves 4–6" is 4 portions, "24 biscuits" are pieces, "2 dozen" 24, "1.5 kg" and "1 litre" stay; `None` where no number is said.
///
/// ```
/// assert_eq!(spence::adopt::makes("Serves 4–6").as_deref(), Some("4 portions"));
/// ```
pub fn makes(said: &str) -> Option<String> {
    let parts = dozens(parts(said));
    let number_at = |at: usize| if let Some(Part::Number(number)) = parts.get(at) { Some(number.as_str()) } else { None };
    let word_at = |at: usize| if let Some(Part::Word(word)) = parts.get(at) { word.as_str() } else { "" };
    let served = |at: usize| {
        let beside = |at: &usize| matches!(parts[*at], Part::Mark(':' | '-' | '~' | '(')) || NEARLY.contains(&word_at(*at));
        let at = (at + 1..parts.len()).find(|at| !beside(at))?;
        number_at(at).filter(|number| !is_measure(number, word_at(at + 1)))
    };
    // "For 2 adults and 2 children".
    let with_children = |at: &usize| is_adult(word_at(at + 1)) && is_child(word_at(at + 4)) && word_at(at + 2) == "and";
    let both = |at: usize| number_at(at).zip(number_at(at + 3));
    if let Some((adults, children)) = (0..parts.len()).find(with_children).and_then(both)
        && let Some(all) =
            adults.parse::<u32>().ok().zip(children.parse().ok()).and_then(|(adults, more): (u32, u32)| adults.checked_add(more))
    {
        return counted(&all.to_string(), "portion");
    }
    if let Some(number) = (0..parts.len()).filter(|at| SERVES.contains(&word_at(*at))).find_map(served) {
        return counted(number, "portion");
    }
    let numbers: Vec<usize> = (0..parts.len()).filter(|at| number_at(*at).is_some()).collect();
    let is_size = |at: &usize| {
        let next = at + 1 + usize::from(parts.get(at + 1) == Some(&Part::Mark('-')));
        LENGTHS.contains(&word_at(next)) || matches!(parts.get(next), Some(Part::Mark('"' | '″' | '”')))
    };
    let Some(at) = numbers.iter().copied().find(|at| !is_size(at)) else {
        // "A 20 cm cake".
        return (!numbers.is_empty()).then(|| "1 piece".to_owned());
    };
    let number = number_at(at)?;
    let next = past_a_size(&parts, after_the_range(&parts, at));
    let word = word_at(next);
    if is_measure(number, word) {
        return is_some(number).then(|| format!("{number} {word}"));
    }
    let said_before = (0..at).any(|at| is_portion(word_at(at)) || word_at(at) == "for");
    let outside = parts.iter().enumerate().skip(next).take_while(|(_, part)| !matches!(part, Part::Mark('(' | ',')));
    let further = outside.into_iter().any(|(at, _)| is_portion(word_at(at)));
    // "One 900 g loaf": what follows is a size, of one thing.
    // "4 as a main".
    let of_a_thing = !word.is_empty() && word != "as" || matches!(parts.get(next), Some(Part::Number(_)));
    counted(number, if !of_a_thing || said_before || further { "portion" } else { "piece" })
}

fn is_adult(word: &str) -> bool {
    ["adult", "adults"].contains(&word)
}

fn is_child(word: &str) -> bool {
    ["child", "children", "kid", "kids", "toddler", "toddlers"].contains(&word)
}

/// A weight or a volume?
fn is_measure(number: &str, word: &str) -> bool {
    let measure = read_quantity(&format!("{number} {word}"), Spoons::Us).ok().filter(|_| !word.is_empty());
    matches!(measure.map(|amount| amount.dimension()), Some(Dimension::Mass | Dimension::Volume))
}

pub(super) fn is_portion(word: &str) -> bool {
    PORTIONS.iter().any(|known| word == *known || word.strip_suffix('s') == Some(known))
}

/// Numbers, words and marks, in order.
fn parts(said: &str) -> Vec<Part> {
    let letters: Vec<char> = said.chars().collect();
    let mut parts = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let letter = letters[at];
        let end =
            |from: usize, goes_on: &dyn Fn(char) -> bool| (from..letters.len()).find(|at| !goes_on(letters[*at])).unwrap_or(letters.len());
        if letter.is_ascii_digit() || FRACTIONS.contains(letter) {
            let to = number_end(&letters, at);
            parts.push(Part::Number(as_written(&letters[at..to])));
            at = to;
        } else if letter.is_alphabetic() {
            let to = end(at, &|c| c.is_alphabetic());
            let word = letters[at..to].iter().collect::<String>().to_lowercase();
            parts.push(number_in_words(&word).map_or(Part::Word(word), |number| Part::Number(number.to_string())));
            at = to;
        } else {
            let mark = if "–—".contains(letter) { '-' } else { letter };
            parts.extend((!mark.is_whitespace()).then_some(Part::Mark(mark)));
            at += 1;
        }
    }
    parts
}

/// The end of "1.5", "1,000", "1/2", "1 1/2", "1½", "1 ½".
fn number_end(letters: &[char], from: usize) -> usize {
    let is = |at: usize, wanted: &dyn Fn(char) -> bool| letters.get(at).is_some_and(|c| wanted(*c));
    let digit = |c: char| c.is_ascii_digit();
    let digits = |from: usize| (from..).find(|at| !is(*at, &digit)).unwrap_or(from);
    let mut to = digits(from);
    if is(to, &|c| ".,".contains(c)) && is(to + 1, &digit) {
        to = digits(to + 1);
    }
    let over = |to: usize| (is(to, &|c| c == '/') && is(to + 1, &digit)).then(|| digits(to + 1));
    if let Some(to) = over(to) {
        return to;
    }
    let next = to + usize::from(is(to, &|c| c == ' '));
    if is(next, &|c| FRACTIONS.contains(c)) {
        return next + 1;
    }
    let beside = digits(next);
    if next > to && beside > next { over(beside).unwrap_or(to) } else { to }
}

/// "1,000" is a thousand, "1,5" one and a half.
fn as_written(letters: &[char]) -> String {
    let text: String = letters.iter().collect();
    match text.split_once(',') {
        Some((thousands, rest)) if rest.len() == 3 => format!("{thousands}{rest}"),
        Some((whole, rest)) => format!("{whole}.{rest}"),
        None => text,
    }
}

fn number_in_words(word: &str) -> Option<u32> {
    NUMBERS.iter().find(|(known, _)| *known == word).map(|(_, number)| *number)
}

/// "2 dozen" is 24, "1–2 dozen" 12–24, "a dozen" 12, "half a dozen" 6; "twenty-four" one number.
fn dozens(parts: Vec<Part>) -> Vec<Part> {
    let is = |part: Option<&Part>, word: &str| matches!(part, Some(Part::Word(known)) if known == word);
    let mut told: Vec<Part> = Vec::new();
    for part in parts {
        if is(Some(&part), "dozen") || is(Some(&part), "dozens") {
            let half = is(told.last(), "half") || (is(told.last(), "a") && told.len() > 1 && is(told.get(told.len() - 2), "half"));
            match told.as_mut_slice() {
                [.., low @ Part::Number(_), Part::Mark('-'), high @ Part::Number(_)] => [low, high].into_iter().for_each(by_twelve),
                [.., number @ Part::Number(_)] => by_twelve(number),
                _ => told.push(Part::Number(if half { "6" } else { "12" }.to_owned())),
            }
            // A dozen of what nobody says are pieces.
            told.push(Part::Word("pieces".to_owned()));
            continue;
        }
        match (&part, told.as_slice()) {
            (Part::Number(ones), [.., Part::Number(tens), Part::Mark('-')]) if ["20", "30"].contains(&tens.as_str()) && ones.len() == 1 => {
                let sum = tens.parse::<u32>().ok().zip(ones.parse::<u32>().ok()).map(|(tens, ones)| (tens + ones).to_string());
                told.truncate(told.len() - 2);
                told.extend(sum.map(Part::Number));
            }
            _ => told.push(part),
        }
    }
    told
}

fn by_twelve(part: &mut Part) {
    if let Part::Number(number) = part {
        let dozens = read_quantity(number, Spoons::Us).map_or(0.0, |number| number.base());
        *number = (12.0 * dozens).round().to_string();
    }
}

/// The place after "4" or "4–6": of a range the lower end is made.
fn after_the_range(parts: &[Part], at: usize) -> usize {
    let dash = match parts.get(at + 1) {
        Some(Part::Mark('-')) => true,
        Some(Part::Word(word)) => word == "to" || word == "or",
        _ => false,
    };
    if dash && matches!(parts.get(at + 2), Some(Part::Number(_))) {
        return at + 3;
    }
    at + 1 + usize::from(parts.get(at + 1) == Some(&Part::Mark('-')))
}

/// "1 (9-inch) cake", "2 (450 g) loaves": past a bracket that says a size, where something stands after it.
fn past_a_size(parts: &[Part], at: usize) -> usize {
    let closes = || (at..parts.len()).find(|at| parts[*at] == Part::Mark(')'));
    let Some(end) = closes().filter(|_| parts.get(at) == Some(&Part::Mark('('))) else { return at };
    let word_at = |at: usize| if let Some(Part::Word(word)) = parts.get(at) { word.as_str() } else { "" };
    let is_size = |at: usize| match &parts[at] {
        Part::Word(word) => LENGTHS.contains(&word.as_str()),
        Part::Number(number) => is_measure(number, word_at(at + 1)),
        Part::Mark(mark) => ['"', '″', '”'].contains(mark),
    };
    if (at + 1..end).any(is_size) && !word_at(end + 1).is_empty() { end + 1 } else { at }
}

/// "Leek soup for four", "Slaw for 6 people": how many, where a name says it.
pub(super) fn of_a_name(name: &str) -> Option<String> {
    let said = &name[name.to_lowercase().rfind(" for ").filter(|_| name.is_ascii())? + " for ".len()..];
    let parts = parts(said);
    match parts.as_slice() {
        [Part::Number(number)] => counted(number, "portion"),
        [Part::Number(number), Part::Word(word)] if is_portion(word) => counted(number, "portion"),
        _ => None,
    }
}

fn is_some(number: &str) -> bool {
    read_quantity(number, Spoons::Us).is_ok_and(|number| number.base() > 0.0)
}

fn counted(number: &str, word: &str) -> Option<String> {
    is_some(number).then(|| format!("{number} {word}{}", if number == "1" { "" } else { "s" }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_yield_is_portions_pieces_or_an_amount() {
        let read = |said| makes(said).unwrap_or_default();
        for (said, meant) in [
            ("Serves 4–6", "4 portions"),
            ("4", "4 portions"),
            ("4 servings", "4 portions"),
            ("Makes 24 biscuits", "24 pieces"),
            ("24 biscuits", "24 pieces"),
            ("1 loaf", "1 piece"),
            ("1 loaf (8 servings)", "1 piece"),
            ("4 generous servings", "4 portions"),
            ("1.5 kg", "1.5 kg"),
            ("about 1 litre", "1 litre"),
            ("500g", "500 g"),
            ("for 2 people", "2 portions"),
            ("6 to 8 people", "6 portions"),
            ("for 2 adults and 2 children", "4 portions"),
            ("Serves 2 adults and 2 children", "4 portions"),
            ("4 as a main", "4 portions"),
            ("4 Portionen", "4 portions"),
            ("Für 4 Personen", "4 portions"),
            ("4 personnes", "4 portions"),
            ("para 4 personas", "4 portions"),
            ("4 persone", "4 portions"),
            ("plenty", ""),
            ("0", ""),
            ("One 23 cm cake (serves 8)", "8 portions"),
            ("A 20cm cake", "1 piece"),
            ("1 9-inch tart", "1 piece"),
            ("One 900 g loaf", "1 piece"),
            ("2 dozen", "24 pieces"),
            ("1½ dozen biscuits", "18 pieces"),
            ("half a dozen rolls", "6 pieces"),
            ("a dozen", "12 pieces"),
            ("Serves six", "6 portions"),
            ("Serves eight to ten", "8 portions"),
            ("Makes twenty-four", "24 portions"),
            ("Makes 2 dozen", "24 pieces"),
            ("Servings: 4", "4 portions"),
            ("Serves: about 4", "4 portions"),
            ("1½ litres", "1½ litres"),
            ("½ l", "½ l"),
            ("1 1/2 litres", "1 1/2 litres"),
            ("500-600 g", "500 g"),
            ("1,000 g", "1000 g"),
            ("20-24 biscuits", "20 pieces"),
            ("2 x 450 g loaves", "2 pieces"),
            ("1-2 dozen", "12 pieces"),
            ("4 serves, 300 g each", "4 portions"),
            ("1 loaf, serving size 100 g", "1 piece"),
            ("1 (9-inch) cake", "1 piece"),
            ("One (20 cm) tart", "1 piece"),
            ("2 (450 g) loaves", "2 pieces"),
            ("1 (9 x 5-inch) loaf", "1 piece"),
            ("4 (generous) servings", "4 portions"),
            ("4 (as a main course)", "4 portions"),
            ("4-6 servings", "4 portions"),
        ] {
            assert_eq!(read(said), meant, "{said}");
        }
        for (name, meant) in [
            ("Leek soup for four", Some("4 portions")),
            ("Slaw for 6 people", Some("6 portions")),
            ("Marinade for 2 chickens", None),
            ("Soup for the freezer", None),
        ] {
            assert_eq!(of_a_name(name).as_deref(), meant, "{name}");
        }
    }
}
