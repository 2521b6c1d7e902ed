//! One dish made in one of several ways, each under the name of its appliance: "MICROWAVE: …", "Conventional: …", "In the slow cooker: …".
//!
//! ```text
//! way   = label (":" | " – ") {sentence}                to the end of its paragraph, or to the next label
//! label = ["in" | "on" | "for" …] ["the"] (appliance | "conventional" …) ["method" | "version" …]
//! ```
//!
//! The first way is planned in its appliance; the others stand with the notes, and that is told. "On the hob: brown the meat. In the
//! oven: braise it" are two parts of one way: both are done. A label alone names the appliance of its paragraph.
//!
//! Knows labels and appliances; knows no step.

use super::Paragraph;
use super::clauses::{sentences, verb_at};
use super::clock::times;
use super::places::{Kind, PLACES, Place};
use super::verbs::Way;
use crate::kitchen::Spot;
use crate::kitchen::words::{Phrases, Words};
use crate::measure::Kind as Sign;
use std::sync::LazyLock;

static PHRASES: LazyLock<Phrases<Place>> = LazyLock::new(|| Phrases::of(PLACES.iter().copied()));

const BEFORE: [&str; 12] = ["in", "on", "for", "with", "using", "by", "to", "the", "a", "an", "your", "under"];
const AFTER: [&str; 9] = ["method", "version", "directions", "instructions", "way", "cooking", "option", "style", "use"];
/// As it was done before there were others.
const USUAL: [&str; 4] = ["conventional", "conventionally", "traditional", "traditionally"];
/// They cook a dish whole: what is done in one of them is not done on the hob as well.
const WHOLE: [Kind; 4] = [Kind::Slow, Kind::Pressure, Kind::Rice, Kind::Microwave];

/// The label of a way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Label {
    /// `None`: "conventional".
    pub kind: Option<Kind>,
    /// The token after the colon.
    pub end: usize,
    /// Without "in" or "on" before it.
    bare: bool,
}

/// The label with which a sentence from `start` to `end` opens, where something is done in it.
pub(super) fn label(w: &Words, start: usize, end: usize) -> Option<Label> {
    let spaced = |at: usize| w.at(at).is_some_and(|token| token.spaced);
    let dash = |at: usize| w.kind(at) == Some(Sign::Dash) && spaced(at) && spaced(at + 1);
    let sign = (start + 1..end.min(start + 7)).find(|at| w.kind(*at) == Some(Sign::Colon) || dash(*at))?;
    let says = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
    let first = (start..sign).find(|at| !says(*at, &BEFORE))?;
    let last = (first..sign).rfind(|at| !says(*at, &AFTER))? + 1;
    let usual = last == first + 1 && says(first, &USUAL);
    let kind = match PHRASES.find(w, first..last) {
        Some((Place::At(kind), past)) if past == last => Some(kind),
        _ if usual => None,
        _ => return None,
    };
    let done = (sign + 1..end).any(|at| verb_at(w, at).is_some_and(|(verb, _)| !matches!(verb.way, Way::Heat | Way::Set)));
    done.then_some(Label { kind, end: sign + 1, bare: first == start })
}

/// One way: its label, and the sentences from `from` in a paragraph.
struct One {
    label: Label,
    paragraph: usize,
    from: usize,
    to: usize,
    name: String,
    timed: bool,
    /// Does it cook the dish by itself, or only brown it?
    cooks: bool,
}

/// A method with the first of several ways alone, the others, and what is told of them.
pub(super) fn first_way(paragraphs: Vec<Paragraph>) -> (Vec<Paragraph>, Vec<String>, Vec<(Spot, String)>) {
    let ways = ways(&paragraphs);
    let mut left_out: Vec<&One> = Vec::new();
    let mut doubts = Vec::new();
    let mut first = 0;
    for index in 1..ways.len() {
        let (kept, other) = (&ways[first], &ways[index]);
        let next = other.paragraph == ways[index - 1].paragraph || other.paragraph == ways[index - 1].paragraph + 1 && other.from == 0;
        if !next || !is_another(kept, other) {
            first = index;
            continue;
        }
        left_out.push(other);
        let text = format!("\"{}\" is planned; \"{}\" is another way to do it, and stays with the notes", kept.name, other.name);
        doubts.push((paragraphs[other.paragraph].at.clone(), text));
    }
    let notes = left_out.iter().map(|one| paragraphs[one.paragraph].text[one.from..one.to].trim().to_owned()).collect();
    let mut method = Vec::new();
    for (number, paragraph) in paragraphs.iter().enumerate() {
        let mut text = String::new();
        let mut byte = 0;
        for one in left_out.iter().filter(|one| one.paragraph == number) {
            text.push_str(&paragraph.text[byte..one.from]);
            byte = one.to;
        }
        text.push_str(&paragraph.text[byte..]);
        if byte == 0 || text.chars().any(char::is_alphabetic) {
            method.push(Paragraph { text, at: paragraph.at.clone() });
        }
    }
    (method, notes, doubts)
}

fn ways(paragraphs: &[Paragraph]) -> Vec<One> {
    let mut ways: Vec<One> = Vec::new();
    for (number, paragraph) in paragraphs.iter().enumerate() {
        let w = Words::of(&paragraph.text);
        let found = sentences(&w);
        let labels: Vec<(usize, Label)> = found.iter().filter_map(|(start, end)| Some((*start, label(&w, *start, *end)?))).collect();
        for (index, (start, label)) in labels.iter().enumerate() {
            let next = labels.get(index + 1).map(|(next, _)| *next);
            ways.push(One {
                label: *label,
                paragraph: number,
                // Numbering before the first sentence goes with it.
                from: if *start == found[0].0 { 0 } else { w.byte(*start) },
                to: next.map_or(paragraph.text.len(), |next| w.byte(next)),
                name: w.text(*start..label.end - 1).to_owned(),
                timed: !times(&w, label.end, next.unwrap_or(w.len())).is_empty(),
                cooks: (label.end..next.unwrap_or(w.len()))
                    .any(|at| verb_at(&w, at).is_some_and(|(verb, _)| matches!(verb.way, Way::Wait(..)))),
            });
        }
    }
    ways
}

/// Is the other a way in place of the first, and no part that comes after it?
fn is_another(first: &One, other: &One) -> bool {
    let whole = |one: &One| one.label.kind.is_none_or(|kind| WHOLE.contains(&kind));
    let apart = first.label.bare && other.label.bare || whole(first) || whole(other);
    first.label.kind != other.label.kind && apart && first.timed && other.timed && (first.cooks || !other.cooks)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{read, told};
    use pretty_assertions::assert_eq;

    const POTATOES: [&str; 2] = ["4 potatoes", "200 g soured cream"];

    #[test]
    fn of_several_ways_under_the_names_of_appliances_the_first_is_planned_there_and_the_others_are_told() {
        let method = [
            "MICROWAVE: Prick potatoes, place on paper towel, cook on HIGH 10-12 minutes, turning once. Stand 5 minutes.",
            "CONVENTIONAL: Bake potatoes in moderately hot oven 1 hour.",
            "Top with the soured cream.",
        ];
        let found = read(&POTATOES, &method);
        assert_eq!(told(&found), ["microwave w12", "- w5", "-"]);
        assert_eq!(found.notes, [method[1]]);
        assert_eq!(found.doubts[0].1, "\"MICROWAVE\" is planned; \"CONVENTIONAL\" is another way to do it, and stays with the notes");
        let beans = ["300 g dried white beans", "1 onion"];
        for (method, meant) in [
            (&["Pressure cooker: Cook the beans with the onion for 25 minutes.", "Hob: Simmer for 1½ hours."][..], "pressure cooker w25"),
            (&["On the hob: simmer the beans with the onion for 90 minutes. In the slow cooker: cook for 8 hours."], "hob w90"),
            (
                &[
                    "Slow cooker method: put the beans in with the onion and cook on low for 8 hours.",
                    "Stovetop method: simmer for 90 minutes.",
                ],
                "slow cooker w480",
            ),
        ] {
            let found = read(&beans, method);
            assert_eq!((told(&found), found.notes.len(), found.doubts.len()), (vec![meant.to_owned()], 1, 1), "{method:?}");
        }
    }

    #[test]
    fn parts_of_one_way_are_all_done() {
        let beef = ["500 g beef shin", "500 ml beef stock"];
        let parts =
            read(&beef, &["On the hob: simmer the beef in the stock for 20 minutes.", "In the oven: braise at 150 °C for 2 hours."]);
        assert_eq!(told(&parts), ["hob w20", "oven w120 c150"]);
        assert_eq!((parts.notes.len(), parts.doubts.len()), (0, 0));
        // One label names the place, and an oven's degrees are no label.
        let alone = read(&beef, &["Pressure cooker: put in the beef and the stock and cook for 40 minutes."]);
        assert_eq!(told(&alone), ["pressure cooker w40"]);
        assert_eq!(told(&read(&["4 potatoes"], &["Oven: 180 °C. Bake the potatoes for 1 hour."])), ["oven w60 c180"]);
    }
}
