//! How long hands take where nobody wrote it: common practice, no source. To compare: 1 kg of beetroot peeled and cut in wedges takes
//! 12 minutes, diced 18 to 20; half a bunch of parsley picked takes 4.

use super::larder::Larder;
use super::verbs::{Rate, Verb};
use crate::foods::Kind;
use crate::kitchen::words::Words;

/// Minutes to peel one, by a word of the food's name.
#[rustfmt::skip]
const PEEL: [(&str, f64); 18] = [
    ("garlic", 0.3), ("ginger", 1.0), ("squash", 4.0), ("pumpkin", 5.0), ("swede", 3.0), ("celeriac", 4.0), ("beetroot", 0.7), ("carrot", 0.6),
    ("sweet potato", 0.9), ("potato", 0.7), ("parsnip", 0.7), ("onion", 0.6), ("shallot", 0.5), ("apple", 0.6), ("pear", 0.6), ("orange", 1.0),
    ("mango", 2.0), ("egg", 0.5),
];
const PEEL_ANY: f64 = 0.7;

/// How hard a food is to cut, next to a root.
#[rustfmt::skip]
const HARD: [(&str, f64); 14] = [
    ("beetroot", 1.0), ("carrot", 1.0), ("squash", 1.2), ("pumpkin", 1.2), ("swede", 1.2), ("celeriac", 1.2), ("parsnip", 1.0), ("turnip", 1.0),
    ("potato", 0.8), ("onion", 0.8), ("cabbage", 0.6), ("tomato", 0.6), ("mushroom", 0.6), ("leek", 0.6),
];

/// Into what it is cut, in minutes for each 100 g of a root.
#[rustfmt::skip]
const SHAPES: [(&str, f64); 17] = [
    ("wedge", 0.6), ("chunk", 0.6), ("half", 0.25), ("quarter", 0.35), ("slice", 0.7), ("baton", 0.9), ("stick", 0.9), ("strip", 0.9), ("dice", 1.3),
    ("cube", 0.9), ("round", 0.7), ("ribbon", 1.2), ("piece", 0.6), ("floret", 0.6), ("matchstick", 2.0), ("ring", 0.7), ("cross", 0.6),
];

/// Minutes of hands for one clause and the foods it is about. Finely is half as long again.
pub(super) fn hands(verb: &Verb, w: &Words, range: std::ops::Range<usize>, foods: &[usize], larder: &Larder) -> f64 {
    match verb.rate {
        Rate::Once(minutes) => minutes,
        Rate::ByWeight(each_kilo, least) => {
            let kilos: f64 = foods.iter().map(|food| larder.grams(*food) / 1000.0).sum();
            (kilos * each_kilo).max(least)
        }
        Rate::Piece(each) => foods.iter().map(|food| larder.pieces(*food) * each).sum::<f64>().max(0.5),
        Rate::Peel => foods.iter().map(|food| larder.pieces(*food) * peel(larder.name(*food))).sum::<f64>().max(0.5),
        Rate::Cut(usual) => {
            let shape =
                range.clone().find_map(|at| SHAPES.iter().find(|(word, _)| w.key_at(at) == *word)).map_or(usual, |(_, minutes)| *minutes);
            let fine = if range.clone().any(|at| w.is(at, "finely") || w.is(at, "thinly")) { 1.5 } else { 1.0 };
            foods.iter().map(|food| larder.grams(*food) / 100.0 * shape * fine * hardness(larder, *food)).sum::<f64>().max(1.0)
        }
        Rate::Pick => foods.iter().map(|food| larder.bunches(*food) * 8.0).sum::<f64>().max(1.0),
    }
}

/// "Wedges", "batons": what something is cut into.
pub(super) fn is_shape(key: &str) -> bool {
    SHAPES.iter().any(|(word, _)| *word == key)
}

fn peel(name: &str) -> f64 {
    PEEL.iter().find(|(word, _)| name.contains(word)).map_or(PEEL_ANY, |(_, minutes)| *minutes)
}

fn hardness(larder: &Larder, food: usize) -> f64 {
    let name = larder.name(food);
    if let Some((_, hard)) = HARD.iter().find(|(word, _)| name.contains(word)) {
        return *hard;
    }
    match larder.kind(food) {
        Some(Kind::Herb) => 2.5,
        Some(kind) if kind.is_raw_flesh() => 0.8,
        _ => 0.7,
    }
}

/// Minutes until it boils, by what is in the pot: 5, and 2 for each litre.
pub(super) fn to_the_boil(litres: f64) -> f64 {
    5.0 + 2.0 * litres
}

/// A wait of so many minutes before anything is heated is done ahead of the session.
pub(super) const LONG_WAIT: f64 = 240.0;

/// What one tray takes of what roasts in one layer, in grams. Common practice, no source.
pub(super) const TRAY: f64 = 1200.0;

/// Spreading it on a tray, for each tray.
pub(super) const FILL_A_TRAY: f64 = 1.0;
