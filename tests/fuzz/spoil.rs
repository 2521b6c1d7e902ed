//! What happens to a text: letters lost, doubled, exchanged, cut off; words put in that mean something to some reader.

use proptest::prelude::*;
use proptest::sample::Index;

/// Words and figures at which readers have stumbled, or might.
const WORDS: [&str; 40] = [
    "0",
    "-1",
    "1e308",
    "1e-320",
    "nan",
    "inf",
    "9999999999999999999",
    "0x10",
    "1/0",
    "1/2",
    "½",
    "⅞",
    "2026-02-30",
    "9999-12-31",
    "-9999-01-01",
    "25:61",
    "\"",
    "'",
    "\"\"\"",
    "[",
    "]",
    "{",
    "}",
    "[[",
    "]]",
    "=",
    "#",
    "\\",
    "\\u0000",
    "\u{0}",
    "\u{1b}[31m",
    "\u{202e}",
    "\u{feff}",
    "é",
    "🥕",
    "\r\n",
    "recipe:",
    "%",
    "<",
    "ſ",
];

/// Values that a key may be given.
const VALUES: [&str; 28] = [
    "0",
    "-1",
    "1",
    "0.5",
    "1e9",
    "nan",
    "inf",
    "true",
    "[]",
    "{}",
    "\"\"",
    "\"0\"",
    "\"1 portion\"",
    "\"10000 portions\"",
    "\"0.01 portions\"",
    "\"1 min\"",
    "\"365 days\"",
    "\"0 min\"",
    "\"1 g\"",
    "\"1 kg\"",
    "\"1/3\"",
    "\"any\"",
    "\"whole\"",
    "\"oven\"",
    "\"hob\"",
    "2026-11-30",
    "2026-12-31",
    "[\"recipe:pearl-barley\", \"1 carrot\"]",
];

#[derive(Debug, Clone)]
enum Act {
    Cut(Index),
    Lose(Index, usize),
    Double(Index, usize),
    Put(Index, usize),
    Byte(Index, u8),
    Repeat(Index, usize),
}

/// A few acts, one after another.
#[derive(Debug, Clone)]
pub struct Spoilt(Vec<Act>);

pub fn spoilt() -> impl Strategy<Value = Spoilt> {
    let act = prop_oneof![
        1 => any::<Index>().prop_map(Act::Cut),
        3 => (any::<Index>(), 1usize..40).prop_map(|(at, many)| Act::Lose(at, many)),
        2 => (any::<Index>(), 1usize..80).prop_map(|(at, many)| Act::Double(at, many)),
        6 => (any::<Index>(), 0..WORDS.len()).prop_map(|(at, word)| Act::Put(at, word)),
        2 => (any::<Index>(), any::<u8>()).prop_map(|(at, byte)| Act::Byte(at, byte)),
        1 => (any::<Index>(), 2usize..200).prop_map(|(at, times)| Act::Repeat(at, times)),
    ];
    prop::collection::vec(act, 1..6).prop_map(Spoilt)
}

impl Spoilt {
    pub fn of(&self, text: &[u8]) -> Vec<u8> {
        let mut text = text.to_vec();
        for act in &self.0 {
            let at = |index: &Index| index.index(text.len() + 1);
            match act {
                Act::Cut(index) => text.truncate(at(index)),
                Act::Lose(index, many) => {
                    let from = at(index);
                    text.drain(from..(from + many).min(text.len()));
                }
                Act::Double(index, many) => {
                    let from = at(index);
                    let part = text[from..(from + many).min(text.len())].to_vec();
                    text.splice(from..from, part);
                }
                Act::Put(index, word) => {
                    let from = at(index);
                    text.splice(from..from, WORDS[*word].bytes());
                }
                Act::Byte(index, byte) => {
                    if !text.is_empty() {
                        let place = index.index(text.len());
                        text[place] = *byte;
                    }
                }
                Act::Repeat(index, times) => {
                    if !text.is_empty() {
                        let place = index.index(text.len());
                        let part = vec![text[place]; *times];
                        text.splice(place..place, part);
                    }
                }
            }
        }
        text
    }
}

/// The file with one line's value exchanged: it stays TOML, and says something else.
pub fn with_another_value(text: &str, line: Index, value: Index) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let keyed: Vec<usize> = (0..lines.len()).filter(|at| lines[*at].contains(" = ") && !lines[*at].contains("\"\"\"")).collect();
    if !keyed.is_empty() {
        let at = *line.get(&keyed);
        if let Some((key, _)) = lines[at].clone().split_once(" = ") {
            lines[at] = format!("{key} = {}", value.get(&VALUES));
        }
    }
    lines.join("\n") + "\n"
}
