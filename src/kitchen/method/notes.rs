//! Notes of a method: tips, what keeps how long, other ways to make the dish. They are printed with the dish and take no time.
//!
//! A paragraph or a sentence that opens with a label and a colon or a dash is a note ("Cook's tip: …", "To freeze – …"), and so is
//! what stands under such a heading until the next heading. A tip in the midst of a paragraph is its one sentence: what is
//! done comes after it. So does it where a paragraph opens with a tip and others of the method follow; below the method such a
//! paragraph is a note throughout, and work in it that has a time is told. Of how the dish keeps and how else it is made, the rest of the paragraph tells. "For the dressing:" and
//! "Step 2:" are no notes. Where the recipe has `keeps`, the sentence of how long the dish keeps is one.
//!
//! Knows labels; knows no step.

use std::ops::Range;

use super::Paragraph;
use super::clauses::{sentences, verb_at};
use super::clock::times;
use crate::foods::Foods;
use crate::kitchen::words::Words;
use crate::kitchen::{Spot, keeping};
use crate::measure::Kind as Sign;

/// A method without its notes, and the notes as they were typed, in their order.
pub(super) struct Parted {
    pub method: Vec<Paragraph>,
    pub notes: Vec<String>,
    /// What is taken for a note although it reads as work, without the full stop.
    pub doubts: Vec<(Spot, String)>,
}

/// More words than this are no label.
const MOST_WORDS: usize = 6;
/// Labels that the sentence goes with.
const TIPS: [&str; 9] = ["tip", "tips", "hint", "hints", "note", "notes", "trick", "tricks", "nb"];
/// Labels that the rest of the paragraph goes with.
#[rustfmt::skip]
const OTHER_WAYS: [&str; 23] = [
    "variation", "variations", "variant", "variants", "version", "versions", "alternative", "alternatives", "substitution", "substitutions", "substitute",
    "substitutes", "swap", "swaps", "suggestion", "suggestions", "storage", "storing", "freezing", "reheating", "keeping", "leftover", "leftovers",
];
/// "Fridge: 3 days."
const PLACES: [&str; 2] = ["fridge", "freezer"];
/// Verbs that a label may begin with: "make ahead", "get ahead".
const PLANS: [&str; 7] = ["make", "get", "do", "plan", "prepare", "freeze", "store"];
const DETERMINERS: [&str; 7] = ["the", "a", "an", "your", "it", "them", "this"];
/// What else a heading may be of: "Cooks' tips", "Recipe notes".
#[rustfmt::skip]
const IN_HEADINGS: [&str; 26] = [
    "cook", "cooks", "chef", "chefs", "kitchen", "recipe", "top", "quick", "handy", "final", "extra", "serving", "general", "other", "some", "few", "useful",
    "and", "or", "to", "for", "how", "in", "ahead", "advance", "time",
];
/// After "to": what is done with a dish that is made.
const LATER: [&str; 6] = ["freeze", "store", "reheat", "keep", "vary", "refrigerate"];
/// What may follow a label's first word: "tips for freezing", "note 2".
const AFTER_FIRST: [&str; 6] = ["for", "on", "about", "and", "or", "to"];
/// Headings that a method goes on with.
const METHODS: [&str; 8] = ["method", "directions", "instructions", "preparation", "procedure", "steps", "to serve", "to finish"];

/// How far a note reaches that opens in the midst of a paragraph.
#[derive(Clone, Copy, PartialEq)]
enum Reach {
    Sentence,
    Rest,
}

struct Label {
    reach: Reach,
    name: Range<usize>,
    /// Nothing but a colon stands after it in its sentence.
    alone: bool,
}

/// Parts the notes from what is done.
pub(super) fn parted(paragraphs: &[Paragraph], foods: &Foods, kept: Option<&str>) -> Parted {
    let mut parted = Parted { method: Vec::new(), notes: Vec::new(), doubts: Vec::new() };
    let mut under: Option<String> = None;
    let mut unused: Option<String> = None;
    let last = paragraphs.iter().rposition(|paragraph| !opens_with_a_label(paragraph, foods));
    for (number, paragraph) in paragraphs.iter().enumerate() {
        let w = Words::of(&paragraph.text);
        let found = sentences(&w);
        let label = found.first().and_then(|(start, end)| label(&w, *start, *end, foods));
        match label {
            Some(label) if found.len() == 1 && label.alone => {
                parted.notes.extend(unused.take());
                let name = w.text(label.name).to_owned();
                (under, unused) = (Some(name.clone()), Some(name));
                continue;
            }
            Some(label) => {
                unused = None;
                let work = found.iter().skip(1).position(|(start, end)| is_work(&w, *start, *end)).map(|index| index + 1);
                // Where nothing else is the method, a note ends with its sentence, whatever it tells of.
                let ends = last.is_none() || label.reach == Reach::Sentence && last.is_some_and(|last| number < last);
                match work.filter(|_| under.is_none()) {
                    Some(work) if ends => parted.take_from(paragraph, &w, found[work].0),
                    _ => {
                        if label.reach == Reach::Sentence && is_timed_work(&w, &found[1..]) {
                            let text = "a paragraph that opens with a tip is taken for a note; begin a new one where the method goes on";
                            parted.doubts.push((paragraph.at.clone(), text.to_owned()));
                        }
                        parted.notes.push(paragraph.text.trim().to_owned());
                    }
                }
                continue;
            }
            None => {}
        }
        under = under.filter(|_| !is_heading(&w));
        match &under {
            Some(heading) => {
                unused = None;
                parted.notes.push(format!("{heading}: {}", paragraph.text.trim()));
            }
            None => parted.take(paragraph, &w, &found, foods, kept),
        }
    }
    parted.notes.extend(unused);
    parted
}

/// Does a paragraph open with the label of a note?
fn opens_with_a_label(paragraph: &Paragraph, foods: &Foods) -> bool {
    let w = Words::of(&paragraph.text);
    sentences(&w).first().is_some_and(|(start, end)| label(&w, *start, *end, foods).is_some())
}

/// Does a sentence say what is done now? "Freeze what is left" is done later.
fn is_work(w: &Words, start: usize, end: usize) -> bool {
    const NOT_NOW: [&str; 12] =
        ["freeze", "thaw", "defrost", "reheat", "refrigerate", "store", "keep", "use", "try", "make", "let", "serve"];
    let said = (start..end).find(|at| w.kind(*at) == Some(Sign::Word)).and_then(|at| verb_at(w, at));
    said.is_some_and(|(verb, _)| !NOT_NOW.contains(&verb.word))
}

/// Does one of the sentences say something that is done now, and how long it takes?
fn is_timed_work(w: &Words, found: &[(usize, usize)]) -> bool {
    let work = found.iter().position(|(start, end)| is_work(w, *start, *end));
    work.is_some_and(|work| found[work..].iter().any(|(start, end)| !times(w, *start, *end).is_empty()))
}

impl Parted {
    /// A paragraph that opens with a tip: what is done begins at `from`.
    fn take_from(&mut self, paragraph: &Paragraph, w: &Words, from: usize) {
        self.notes.push(w.between(0, w.byte(from)).trim().to_owned());
        let text = w.between(w.byte(from), paragraph.text.len()).trim().to_owned();
        self.method.push(Paragraph { text, at: paragraph.at.clone() });
    }

    /// A paragraph of the method, without the notes in it.
    fn take(&mut self, paragraph: &Paragraph, w: &Words, found: &[(usize, usize)], foods: &Foods, kept: Option<&str>) {
        let notes = notes_within(w, found, foods, kept);
        if notes.is_empty() {
            return self.method.push(paragraph.clone());
        }
        let mut left = String::new();
        let mut byte = 0;
        for note in notes {
            let (from, to) = (w.byte(note.start), w.byte(note.end));
            left.push_str(w.between(byte, from.max(byte)));
            let after: Vec<(usize, usize)> =
                found.iter().copied().filter(|(start, _)| note.clone().skip(1).any(|at| at == *start)).collect();
            if is_timed_work(w, &after) {
                let text = format!(
                    "\"{}\" is taken for a note, and its time is not planned; begin a new paragraph where the method goes on",
                    w.between(from, to).trim()
                );
                self.doubts.push((paragraph.at.clone(), text));
            }
            // A dish for beside it that is cooked, too.
            if goes_with(w, note.start) && !times(w, note.start, note.end).is_empty() {
                let text = format!("\"{}\" is taken for a tip, and its time is not planned", w.between(from, to).trim());
                self.doubts.push((paragraph.at.clone(), text));
            }
            self.notes.push(w.between(from, to).trim().trim_start_matches(['(', '[']).trim_end_matches([')', ']']).to_owned());
            byte = to;
        }
        left.push_str(w.between(byte, paragraph.text.len()));
        if left.chars().any(char::is_alphabetic) {
            self.method.push(Paragraph { text: left.trim().to_owned(), at: paragraph.at.clone() });
        }
    }
}

/// The tokens of the notes inside a paragraph that opens with none.
fn notes_within(w: &Words, found: &[(usize, usize)], foods: &Foods, kept: Option<&str>) -> Vec<Range<usize>> {
    let mut notes: Vec<Range<usize>> = Vec::new();
    let end_of = |index: usize| found.get(index + 1).map_or(w.len(), |(next, _)| *next);
    let mut index = 0;
    while let Some((start, end)) = found.get(index).copied() {
        let label = label(w, start, end, foods).filter(|_| index > 0);
        index += 1;
        match label {
            Some(label) if label.reach == Reach::Rest => {
                notes.push(start..w.len());
                break;
            }
            Some(label) => {
                // "Tip. It keeps."
                index += usize::from(label.alone);
                notes.push(start..end_of(index - 1));
            }
            None if kept.is_some_and(|dish| says_how_long(w, start, end_of(index - 1), dish)) => {
                // "Keeps for 3 days. Reheat in the microwave for 2 minutes": when it is eaten then.
                let reheats = found.get(index).is_some_and(|(next, _)| index > 1 && (w.is(*next, "reheat") || w.is(*next, "defrost")));
                index += usize::from(reheats);
                notes.push(start..end_of(index - 1));
            }
            None if is_sum_of_times(w, start, end) || goes_with(w, start) => notes.push(start..end_of(index - 1)),
            None => notes.extend(brackets(w, start, end_of(index - 1), foods)),
        }
    }
    notes
}

/// "Keeps for 3 days in the fridge": where the recipe has `keeps`, it says nothing that is done or planned. "Cool and freeze for up to 2
/// months" is work.
fn says_how_long(w: &Words, start: usize, end: usize, dish: &str) -> bool {
    const KEEPS: [&str; 4] = ["keep", "store", "freeze", "refrigerate"];
    let first = (start..end).find(|at| w.kind(*at) == Some(Sign::Word)).and_then(|at| verb_at(w, at));
    first.is_none_or(|(verb, _)| KEEPS.contains(&verb.word)) && !keeping([w.text(start..end)], dish).places.is_empty()
}

/// "Prep 20 min, cook 40 min", "Total time: 1 hour": figures of the whole, and nothing that is done.
fn is_sum_of_times(w: &Words, start: usize, end: usize) -> bool {
    const OF_WHAT: [&str; 12] =
        ["prep", "preparation", "total", "active", "cook", "cooking", "time", "resting", "standing", "ready", "hands", "on"];
    let opens = ["prep", "preparation", "total", "active"].iter().any(|word| w.is(start, word));
    let named =
        opens || ["cook", "cooking", "ready"].iter().any(|word| w.is(start, word)) && (w.is(start + 1, "time") || w.is(start + 1, "in"));
    let found = times(w, start, end);
    let in_a_time = |at: usize| found.iter().any(|time| (time.start..time.end).contains(&at));
    let plain = |at: usize| {
        w.kind(at) != Some(Sign::Word) || in_a_time(at) || ["in", "about", "and", "plus"].iter().chain(&OF_WHAT).any(|word| w.is(at, word))
    };
    named && !found.is_empty() && (start..end).all(plain)
}

/// "Good with boiled potatoes", "Delicious with a green salad": what else is on the plate.
fn goes_with(w: &Words, start: usize) -> bool {
    const PRAISED: [&str; 10] = ["good", "nice", "lovely", "delicious", "excellent", "great", "goes", "perfect", "wonderful", "tasty"];
    let with = start + 1 + usize::from(["well", "very", "nicely"].iter().any(|word| w.is(start + 1, word)));
    PRAISED.iter().any(|word| w.is(start, word)) && w.is(with, "with")
}

/// "(Tip: it keeps for 3 days.)"
fn brackets(w: &Words, start: usize, end: usize, foods: &Foods) -> Vec<Range<usize>> {
    let opens = (start..end).filter(|at| w.kind(*at) == Some(Sign::Open));
    let note = |open: usize| {
        let close = w.closing(open)?;
        let label = label(w, open + 1, close, foods).filter(|label| !label.alone);
        label.map(|_| open..close + 1)
    };
    let mut past = start;
    opens
        .filter_map(note)
        .filter(|note| {
            let apart = note.start >= past;
            past = past.max(note.end);
            apart
        })
        .collect()
}

/// The label with which the sentence from `start` to `end` opens.
fn label(w: &Words, start: usize, end: usize, foods: &Foods) -> Option<Label> {
    let is_mark = |at: usize| matches!(w.kind(at), Some(Sign::Other | Sign::Times | Sign::Dash | Sign::Quote));
    let first = (start..end).find(|at| !is_mark(*at))?;
    let is_sign = |at: usize| {
        let spaced = |at: usize| w.at(at).is_some_and(|token| token.spaced);
        let dash = w.kind(at) == Some(Sign::Dash) && (spaced(at) && spaced(at + 1) || w.is(at, "—"));
        w.kind(at) == Some(Sign::Colon) || dash
    };
    // "To freeze, wrap it well."
    let comma = || (first..end).find(|at| w.kind(*at) == Some(Sign::Comma)).filter(|at| is_for_later(w, first, *at));
    let sign = (first..end).find(|at| is_sign(*at)).or_else(comma).unwrap_or(end);
    let within = |at: usize| {
        let plain = matches!(w.kind(at), Some(Sign::Word | Sign::Number | Sign::And | Sign::Slash));
        plain || is_mark(at)
    };
    let last = (first..sign).rfind(|at| !is_mark(*at))?;
    let name = first..last + 1;
    if !(first..sign).all(within) {
        return None;
    }
    let rest = (sign + 1..end).any(|at| !is_mark(at));
    let reach = reach(w, name.clone(), !rest, foods)?;
    Some(Label { reach, name, alone: !rest })
}

/// "To freeze", "to make ahead": no other work is done to an end that lies after the meal.
fn is_for_later(w: &Words, first: usize, end: usize) -> bool {
    let later = end <= first + 4 && LATER.iter().any(|word| w.is(first + 1, word));
    w.is(first, "to") && (later || w.is(first + 1, "make") && w.is(end - 1, "ahead"))
}

/// Is it the label of a note, and how far does that go?
fn reach(w: &Words, name: Range<usize>, alone: bool, foods: &Foods) -> Option<Reach> {
    let places: Vec<usize> = name.filter(|at| w.kind(*at) == Some(Sign::Word)).collect();
    let words: Vec<String> = places.iter().filter_map(|at| Some(w.at(*at)?.text.to_lowercase())).collect();
    if words.is_empty() || words.len() > MOST_WORDS {
        return None;
    }
    let says = |list: &[&str], word: &String| list.contains(&word.as_str());
    let (first, last) = (&words[0], &words[words.len() - 1]);
    // "Trim the tips", "soak beans ahead": something to do.
    let done = verb_at(w, places[0]).is_some() && !says(&TIPS, first) && (words.len() > 2 || !says(&PLANS, first));
    let pointed = words.iter().any(|word| says(&DETERMINERS, word)) && !says(&["to", "for"], first);
    let is_known = |word: &String| {
        let owner = word.ends_with("'s") || word.ends_with("’s");
        owner || says(&IN_HEADINGS, word) || says(&TIPS, word) || says(&OTHER_WAYS, word) || says(&LATER, word) || says(&PLANS, word)
    };
    if done || pointed || alone && !words.iter().all(is_known) {
        return None;
    }
    // "Asparagus tips: boil for 3 minutes."
    let of_food = last == "tips" && places[..places.len() - 1].iter().any(|at| w.food(*at, foods).is_some());
    let opens = words.len() == 1 || says(&AFTER_FIRST, &words[1]);
    if says(&TIPS, last) && !of_food || says(&TIPS, first) && opens {
        return Some(Reach::Sentence);
    }
    let ahead = words.iter().any(|word| word == "ahead");
    let early = words.windows(2).any(|pair| pair[0] == "in" && pair[1] == "advance");
    let to = words.iter().position(|word| word == "to").filter(|to| *to == 0 || first == "how");
    let later = to.and_then(|to| words.get(to + 1)).is_some_and(|word| says(&LATER, word));
    let other_way = says(&OTHER_WAYS, last) && !says(&PLACES, last) || (says(&OTHER_WAYS, first) || says(&PLACES, first)) && opens;
    (ahead || early || later || other_way).then_some(Reach::Rest)
}

/// A line that heads what follows it: "For the dressing:", "Method", "Step 3".
fn is_heading(w: &Words) -> bool {
    let words: Vec<usize> = (0..w.len()).filter(|at| w.kind(*at) == Some(Sign::Word)).collect();
    let Some((first, last)) = words.first().zip(words.last()) else { return false };
    let colon = w.kind(w.len() - 1) == Some(Sign::Colon);
    let named = METHODS.contains(&w.text(*first..last + 1).to_lowercase().as_str());
    let marked = w.at(0).is_some_and(|token| token.text == "#");
    let step = w.is(*first, "step") && w.kind(first + 1) == Some(Sign::Number);
    let short = words.len() <= MOST_WORDS && w.kind(w.len() - 1) != Some(Sign::Stop);
    named || step || short && (colon || marked || w.is(*first, "for") && w.is(first + 1, "the"))
}

#[cfg(test)]
mod tests;
