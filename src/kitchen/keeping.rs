//! How long a dish keeps, where its page plainly says it: "keeps 3 days in the fridge", "freezes for 2 months", "store in
//! an airtight container for up to a week".
//!
//! ```text
//! sentence = clause {("," | ";" | "or" | "and" | "but") clause}
//! clause   = [place] keep-verb [place] time [place]      a time without a place takes the one said before it
//! ```
//!
//! Of a range, and of two figures for one place, the lower counts. A box without a place is taken for the fridge, where no
//! dish keeps less; more than a week without a place says nothing, nor does "a cool, dry place". What holds on a condition
//! ("if covered in oil", "without the dressing", "in a sterilised jar") is not plain. What speaks of a part of the dish ("the dressing keeps a week"), of a step ("marinate for up to 2
//! days") or says no ("does not freeze well") says nothing of the dish. Never a guess: what is not understood is left out.

use crate::foods::Place;

/// Until when a dish is good, and in which words its page says so.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Keeping {
    /// Each place once, with a time as `keeps` is written: "3 days".
    pub places: Vec<(Place, String)>,
    /// The sentences, word for word.
    pub words: Vec<String>,
}

impl Keeping {
    /// `"Keeps 3 days in the fridge." "Freezes well for 2 months."`, on one line.
    pub fn said(&self) -> String {
        let quoted: Vec<String> = self.words.iter().map(|words| format!("\"{words}\"")).collect();
        quoted.join(" ")
    }
}

/// Words that mean a place where dishes are kept.
#[rustfmt::skip]
const PLACES: [(&str, Place); 14] = [
    ("fridge", Place::Fridge), ("refrigerator", Place::Fridge), ("refrigerated", Place::Fridge), ("refrigerate", Place::Fridge), ("chilled", Place::Fridge),
    ("freezer", Place::Freezer), ("freeze", Place::Freezer), ("freezes", Place::Freezer), ("frozen", Place::Freezer),
    ("cupboard", Place::Cupboard), ("larder", Place::Cupboard), ("pantry", Place::Cupboard), ("room", Place::Cupboard), ("tin", Place::Cupboard),
];
/// Words that keep, whatever the place.
const KEEPS: [&str; 8] = ["keep", "keeps", "store", "stored", "stores", "kept", "last", "lasts"];
/// Words that keep and say where: a place and a verb in one.
const KEEPS_THERE: [&str; 4] = ["freeze", "freezes", "frozen", "refrigerate"];
/// A sentence with one of these speaks of something else, or says no.
#[rustfmt::skip]
const OTHERWISE: [&str; 36] = [
    "not", "don't", "doesn't", "never", "won't", "cannot", "can't", "marinate", "marinade", "dough", "batter", "least", "before", "until", "overnight",
    "soak", "data", "prove", "unopened", "uncooked", "raw", "if", "when", "unless", "only", "without", "provided", "undressed", "unbaked", "unfilled", "vacuum",
    "sterilised", "sterilized", "sterile", "canned", "cellar",
];
/// What may be kept and means the whole dish.
#[rustfmt::skip]
const THE_DISH: [&str; 17] = [
    "it", "they", "this", "these", "them", "leftovers", "dish", "everything", "rest", "remainder", "portions", "recipe", "meal", "any", "all", "remaining",
    "what",
];
/// Words between what is kept and the verb, or before a verb that commands.
#[rustfmt::skip]
const PASSED: [&str; 29] = [
    "will", "can", "may", "should", "be", "also", "well", "then", "to", "happily", "easily", "happy", "cooled", "cooked", "once", "cold", "covered", "and", "or",
    "you", "is", "are", "best", "for", "storage", "storing", "freezing", "note", "tip",
];

/// Words that head what follows them.
const LABELS: [&str; 3] = ["storage", "storing", "keeping"];
/// In days.
const MOST_WITHOUT_A_PLACE: u32 = 7;

/// What sentences say of how long the dish of that name keeps.
pub fn keeping<'t>(texts: impl IntoIterator<Item = &'t str>, name: &str) -> Keeping {
    let mut found: Vec<(Place, u32, String)> = Vec::new();
    let mut words = Vec::new();
    // Most of a page says nothing of days: that is seen before a sentence is taken apart.
    let says_when = |sentence: &&str| ["day", "week", "month"].iter().any(|unit| sentence.contains(unit));
    for sentence in texts.into_iter().flat_map(sentences).filter(says_when) {
        let said = of_a_sentence(sentence, name);
        if !said.is_empty() && !words.contains(&sentence.to_owned()) {
            words.push(sentence.to_owned());
        }
        for (place, days, time) in said {
            match found.iter_mut().find(|(known, ..)| *known == place) {
                Some(known) if days < known.1 => *known = (place, days, time),
                Some(_) => {}
                None => found.push((place, days, time)),
            }
        }
    }
    found.sort_by_key(|(place, ..)| ORDER.iter().position(|known| known == place));
    Keeping { places: found.into_iter().map(|(place, _, time)| (place, time)).collect(), words }
}

const ORDER: [Place; 3] = [Place::Cupboard, Place::Fridge, Place::Freezer];

/// No sentence that says how long a dish keeps is longer.
const LONGEST: usize = 300;

fn sentences(text: &str) -> impl Iterator<Item = &str> {
    let ends =
        |at: &(usize, char)| matches!(at.1, '.' | '!' | '?' | '\n') && text[at.0 + 1..].chars().next().is_none_or(char::is_whitespace);
    let mut from = 0;
    let mut parts: Vec<&str> = Vec::new();
    for (at, _) in text.char_indices().filter(ends) {
        parts.push(&text[from..=at]);
        from = at + 1;
    }
    parts.push(&text[from..]);
    parts.into_iter().map(str::trim).filter(|part| !part.is_empty() && part.len() <= LONGEST)
}

fn of_a_sentence(sentence: &str, name: &str) -> Vec<(Place, u32, String)> {
    let lower = sentence.to_lowercase().replace('’', "'");
    let keeps = |word: &str| KEEPS.contains(&word) || KEEPS_THERE.contains(&word);
    let mut words = words_of(&lower);
    // "Storage: 3 days in the fridge".
    if LABELS.contains(&words.first().map_or("", String::as_str)) && words.get(1).is_some_and(|next| next == ",") {
        words[0] = "keeps".to_owned();
    }
    let cool_place = words.windows(2).any(|two| two[1] == "place" && ["cool", "dry", "dark", "cold", "safe"].contains(&two[0].as_str()));
    if cool_place {
        return Vec::new();
    }
    let has_time = words.iter().any(|word| unit(word).is_some());
    if !has_time || !words.iter().any(|word| keeps(word)) || words.iter().any(|word| OTHERWISE.contains(&word.as_str())) {
        return Vec::new();
    }
    let verb_of = |clause: &[String]| clause.iter().position(|word| keeps(word));
    let mut found = Vec::new();
    let mut place = None;
    let mut kept = false;
    let clauses = clauses(&words);
    for (index, clause) in clauses.iter().enumerate() {
        if let Some(verb) = verb_of(clause) {
            kept = is_of_the_dish(clause, verb, name);
            place = None;
        }
        // "Keeps 2 months (in the freezer)".
        let next = || clauses.get(index + 1).filter(|next| time_of(next).is_none() && verb_of(next).is_none());
        place = place_of(clause).or(place).or_else(|| place_of(next()?));
        let Some((days, time)) = time_of(clause).filter(|_| kept) else { continue };
        // "Store in a box for up to a week": in the fridge no dish keeps less. For longer the place must be said.
        if place.is_none() && days > MOST_WITHOUT_A_PLACE {
            continue;
        }
        found.push((place.unwrap_or(Place::Fridge), days, time));
    }
    found
}

/// Letters, digits and fractions; a comma and the like is a word of its own.
fn words_of(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut open = false;
    for letter in text.chars() {
        if letter.is_alphanumeric() || letter == '\'' {
            match words.last_mut().filter(|_| open) {
                Some(word) if word.ends_with(|c: char| c.is_ascii_digit()) == letter.is_ascii_digit() => word.push(letter),
                _ => words.push(letter.to_string()),
            }
            open = true;
        } else {
            open = false;
            if matches!(letter, ',' | ';' | '(' | ')' | ':') {
                words.push(",".to_owned());
            } else if matches!(letter, '-' | '–' | '—') {
                words.push("-".to_owned());
            }
        }
    }
    words
}

/// Parted at commas and at "or", "and", "but"; "3 or 4 days" stays whole.
fn clauses(words: &[String]) -> Vec<&[String]> {
    let parts = |at: usize| {
        let joint = matches!(words[at].as_str(), "," | "or" | "and" | "but");
        joint && !(at > 0 && count(&words[at - 1]).is_some() && words.get(at + 1).is_some_and(|next| count(next).is_some()))
    };
    let mut from = 0;
    let mut clauses = Vec::new();
    for at in (0..words.len()).filter(|at| parts(*at)) {
        clauses.push(&words[from..at]);
        from = at + 1;
    }
    clauses.push(&words[from..]);
    clauses.retain(|clause| !clause.is_empty());
    clauses
}

/// Does the verb speak of the dish, not of a part of it or of anybody's data?
fn is_of_the_dish(clause: &[String], verb: usize, name: &str) -> bool {
    let name = words_of(&name.to_lowercase());
    let means_it = |word: &str| {
        let one = |word: &str| word.strip_suffix('s').unwrap_or(word).to_owned();
        THE_DISH.contains(&word) || name.iter().any(|known| one(known) == one(word))
    };
    let before = clause[..verb].iter().rev().find(|word| !PASSED.contains(&word.as_str()) && count(word).is_none());
    if let Some(subject) = before {
        return means_it(subject) || place_of(std::slice::from_ref(subject)).is_some();
    }
    // "Store the dressing": what stands after an article, up to where it goes.
    let after = &clause[verb + 1..];
    let end = after.iter().position(|word| ["in", "for", "up", "at", "covered"].contains(&word.as_str())).unwrap_or(after.len());
    let is_object =
        |word: &String| !PASSED.contains(&word.as_str()) && word != "the" && count(word).is_none() && unit(word).is_none() && word != "-";
    let object: Vec<&String> = after[..end].iter().filter(|word| is_object(word)).collect();
    object.is_empty() || object.iter().any(|word| means_it(word))
}

fn place_of(words: &[String]) -> Option<Place> {
    let known = |word: &String| PLACES.iter().find(|(known, _)| word == known).map(|(_, place)| *place);
    words.iter().find_map(known)
}

/// Days of a unit, and its name.
fn unit(word: &str) -> Option<(u32, &'static str)> {
    match word.strip_suffix('s').unwrap_or(word) {
        "day" => Some((1, "day")),
        "week" => Some((7, "week")),
        "month" => Some((30, "month")),
        _ => None,
    }
}

fn count(word: &str) -> Option<u32> {
    const NUMBERS: [&str; 12] = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    match word {
        "a" | "couple" => Some(if word == "a" { 1 } else { 2 }),
        _ => word.parse().ok().or_else(|| Some(NUMBERS.iter().position(|known| *known == word)? as u32 + 1)),
    }
    .filter(|number| (1..=100).contains(number))
}

/// "3 days", "3-4 days", "a week", "up to two weeks", "a couple of days": the lower of a range, in days and as it is written.
fn time_of(clause: &[String]) -> Option<(u32, String)> {
    let at = clause.iter().position(|word| unit(word).is_some())?;
    let (days, name) = unit(&clause[at])?;
    let passed = |word: &&String| matches!(word.as_str(), "-" | "to" | "or" | "of");
    let numbers: Vec<u32> =
        clause[..at].iter().rev().take_while(|word| passed(word) || count(word).is_some()).filter_map(|word| count(word)).collect();
    // "A couple of days" is two, and not one.
    let couple = clause[..at].iter().any(|word| word == "couple");
    let number = if couple { 2 } else { *numbers.iter().min()? };
    Some((days * number, crate::words::counted(number as usize, name)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Vec<String> {
        keeping([text], "Leek and potato soup").places.into_iter().map(|(place, time)| format!("{place:?} {time}")).collect()
    }

    #[test]
    fn what_is_plainly_said_is_taken() {
        for (said, meant) in [
            ("Keeps 3 days (in the fridge).", vec!["Fridge 3 days"]),
            ("Keeps 2 months (in the freezer).", vec!["Freezer 2 months"]),
            ("Keeps 3 days, freezes well.", vec!["Fridge 3 days"]),
            ("Keeps 3 days.", vec!["Fridge 3 days"]),
            ("It will keep in the fridge for 3 to 4 days.", vec!["Fridge 3 days"]),
            ("Freezes for 2 months.", vec!["Freezer 2 months"]),
            ("Store in an airtight container for up to a week.", vec!["Fridge 1 week"]),
            ("Store in an airtight tin for up to a week.", vec!["Cupboard 1 week"]),
            ("Store at room temperature for up to 3 days.", vec!["Cupboard 3 days"]),
            ("Keeps for 3 days in the fridge or 2 months in the freezer.", vec!["Fridge 3 days", "Freezer 2 months"]),
            ("Refrigerate for up to 4 days or freeze for up to 3 months.", vec!["Fridge 4 days", "Freezer 3 months"]),
            ("In the fridge it keeps 3 or 4 days, in the freezer two months.", vec!["Fridge 3 days", "Freezer 2 months"]),
            ("Leftovers keep, covered, in the fridge, for a couple of days.", vec!["Fridge 2 days"]),
            ("The soup can be frozen for up to 1 month.", vec!["Freezer 1 month"]),
            ("Storage: keeps in the fridge for 3-4 days.", vec!["Fridge 3 days"]),
            ("Once cooled, the soup keeps for five days in the fridge.", vec!["Fridge 5 days"]),
            ("Keep leftovers in the fridge for 2 days.", vec!["Fridge 2 days"]),
            ("Storage: 4 days in the fridge, 3 months in the freezer.", vec!["Fridge 4 days", "Freezer 3 months"]),
            ("To store: In a jar, 5 days in the fridge.", vec!["Fridge 5 days"]),
            ("Keeping: in the freezer, 2 months.", vec!["Freezer 2 months"]),
            ("Keeps covered for 2 weeks in the fridge.", vec!["Fridge 2 weeks"]),
        ] {
            assert_eq!(read(said), meant, "{said}");
        }
    }

    #[test]
    fn what_speaks_of_something_else_is_not() {
        for said in [
            "The dressing keeps for a week in the fridge.",
            "Store the croutons in a tin for up to 3 days.",
            "Marinate in the fridge for up to 2 days.",
            "Cover and chill for at least 30 minutes or up to 1 day.",
            "It does not keep for more than 2 days.",
            "Don't freeze for more than a month.",
            "We keep your data for 30 days.",
            "We store cookies for up to 12 months.",
            "Refrigerate the dough for up to 3 days.",
            "It took me 3 days to keep calm.",
            "Freezes well.",
            "Simmer for 20 minutes.",
            "Keeps 2 weeks in the fridge if covered in oil.",
            "Keeps 3 weeks in the fridge when vacuum-packed.",
            "Keeps in a sterilised jar for 6 months.",
            "Keeps up to a week if you leave out the yoghurt.",
            "Keeps 5 days in the fridge without the dressing.",
            "Keeps 5 days undressed in the fridge.",
            "Store in a cool, dry place for up to 2 months.",
            "Keeps 2 weeks in a cool place.",
            "Store in an airtight container for up to 2 weeks.",
            "It keeps for 2 weeks.",
            "Unless frozen it keeps 3 days.",
        ] {
            assert_eq!(read(said), Vec::<String>::new(), "{said}");
        }
    }

    #[test]
    fn of_two_figures_for_one_place_the_lower_counts() {
        let kept = keeping(["Keeps for 5 days in the fridge. Eat soon!", "Leftovers keep 3 days in the fridge."], "Slaw");
        assert_eq!(kept.places, [(Place::Fridge, "3 days".to_owned())]);
        assert_eq!(kept.words, ["Keeps for 5 days in the fridge.", "Leftovers keep 3 days in the fridge."]);
    }
}
