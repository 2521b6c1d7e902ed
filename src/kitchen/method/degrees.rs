//! How hot, in the words of a clause: °C, °F, gas marks, the words for ovens, fan figures, and the inside of the food.

use super::places::{GAS, OVENS};
use crate::kitchen::words::Words;
use crate::measure::{Celsius, Kind as Sign};

/// Degrees that stand without a letter are Fahrenheit from here up.
const FAHRENHEIT_FROM: f64 = 250.0;
/// By how much a fan oven is set lower. Common practice, no source.
const FAN: f64 = 20.0;
/// Food that is still moist gets no hotter inside.
const MOST_INSIDE: f64 = 105.0;

#[derive(Debug, Clone, Copy, PartialEq)]
struct Figure {
    celsius: f64,
    fan: bool,
    inside: bool,
    /// From a word for an oven, or the middle of a range: nobody wrote the figure.
    guessed: bool,
    fahrenheit: bool,
    at: usize,
}

/// What one clause says of heat.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Heat {
    pub oven: Option<Celsius>,
    /// The oven's figure was reckoned: a fan figure for an oven without, or the other way, or an oven word.
    pub guessed: bool,
    pub inside: Option<Celsius>,
    /// Where the first figure of the oven stands.
    pub at: usize,
    /// The figure of the oven was typed in Fahrenheit.
    pub fahrenheit: bool,
    /// Hotter or cooler by so much: "by 20 °C", "two marks down".
    pub by: Option<By>,
}

/// A difference from the degrees before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum By {
    /// Degrees, and whether the letter is F; without a letter they are as those before.
    Degrees(f64, Option<bool>),
    /// Marks of a gas oven.
    Marks(f64),
}

impl By {
    /// What an oven of `before` has then: `fahrenheit` is how that was typed.
    pub fn from(self, before: Celsius, fahrenheit: bool, hotter: bool) -> Celsius {
        let sign = if hotter { 1.0 } else { -1.0 };
        let tenth = |celsius: f64| Celsius((celsius * 10.0).round() / 10.0);
        match self {
            By::Degrees(degrees, letter) => {
                // From the figure as it was typed, so that nothing is lost twice by rounding.
                let typed = (before.0 * 9.0 / 5.0 + 32.0).round();
                match letter.unwrap_or(fahrenheit) {
                    true => tenth((typed + sign * degrees - 32.0) * 5.0 / 9.0),
                    false => tenth(before.0 + sign * degrees),
                }
            }
            By::Marks(marks) => {
                let near = |row: &(f64, f64)| (row.1 - before.0).abs();
                let at = (0..GAS.len()).min_by(|a, b| near(&GAS[*a]).total_cmp(&near(&GAS[*b]))).unwrap_or(0) as f64;
                Celsius(GAS[(at + sign * marks).clamp(0.0, GAS.len() as f64 - 1.0) as usize].1)
            }
        }
    }
}

/// Reads the words from `from` to `to`. `fan`: the oven has one. `bare`: a number after "at" or "to" is degrees.
pub(super) fn heat(w: &Words, from: usize, to: usize, fan: bool, bare: bool) -> Heat {
    if !(from..to).any(|at| may_say(w, at)) {
        return Heat { at: to, ..Heat::default() };
    }
    let by = (from..to).find_map(|at| by(w, from, at, to));
    let figures = figures(w, from, to, bare);
    let inside = figures.iter().find(|figure| figure.inside).map(|figure| Celsius(figure.celsius));
    let of_oven: Vec<&Figure> = figures.iter().filter(|figure| !figure.inside).collect();
    let own = of_oven.iter().find(|figure| figure.fan == fan);
    let other = of_oven.first();
    let (celsius, guessed) = match (own, other) {
        (Some(own), _) => (Some(own.celsius), own.guessed),
        // One figure that does not say: what the book's oven has nobody knows, so it is as in an oven without a fan.
        (None, Some(other)) if fan => (Some(other.celsius - FAN), true),
        (None, Some(other)) => (Some(other.celsius + FAN), true),
        _ => (None, false),
    };
    Heat {
        oven: celsius.map(Celsius),
        guessed,
        inside,
        at: of_oven.first().map_or(to, |figure| figure.at),
        fahrenheit: of_oven.first().is_some_and(|figure| figure.fahrenheit),
        by: by.map(|(by, _)| by).filter(|_| celsius.is_none()),
    }
}

/// Nearly all clauses say nothing of heat: none that has neither a figure nor one of the words for degrees, marks and ovens.
fn may_say(w: &Words, at: usize) -> bool {
    const WORDS: [&str; 8] = ["oven", "one", "degree", "degrees", "deg", "mark", "marks", "gas"];
    w.at(at).is_some_and(|token| token.is_number() || WORDS.iter().any(|word| token.is(word)))
}

/// "By 20 °C", "by 20 degrees", "20 degrees lower", "by two gas marks", "down two marks", and the place after it.
fn by(w: &Words, from: usize, at: usize, to: usize) -> Option<(By, usize)> {
    const COMPARED: [&str; 8] = ["lower", "higher", "less", "more", "cooler", "hotter", "down", "up"];
    let is = |at: usize, words: &[&str]| at < to && words.iter().any(|word| w.is(at, word));
    if w.at(at).is_some_and(|token| token.is_number()) && at > from && w.at(at - 1).is_some_and(|token| token.is_number()) {
        return None;
    }
    let read = w.number(at).ok()??;
    let number = read.number.high.to_f64();
    let nearly = usize::from(at > from && is(at - 1, &["about", "around", "another"]));
    let said_by = at > from + nearly && is(at - 1 - nearly, &["by"]);
    let turned = at > from + nearly && is(at - 1 - nearly, &["down", "up"]);
    let gas = read.end + usize::from(is(read.end, &["gas"]));
    if is(gas, &["mark", "marks"]) && (said_by || turned || is(gas + 1, &COMPARED)) && !is(gas, &["gas"]) {
        return Some((By::Marks(number), gas + 1));
    }
    let mut end = read.end;
    let sign = end < to && (w.kind(end) == Some(Sign::Degree) || is(end, &["degrees", "degree", "deg"]));
    end += usize::from(sign);
    let letter = match () {
        () if is(end, &["c", "celsius", "centigrade", "℃"]) => Some(false),
        () if is(end, &["f", "fahrenheit", "℉"]) => Some(true),
        () => None,
    };
    end += usize::from(letter.is_some());
    let compared = is(end, &COMPARED) && !is(end, &["down", "up"]);
    ((sign || letter.is_some()) && (said_by || compared)).then_some((By::Degrees(number, letter), end))
}

fn figures(w: &Words, from: usize, to: usize, bare: bool) -> Vec<Figure> {
    let mut figures: Vec<Figure> = Vec::new();
    let mut at = from;
    // Past the figure before this one, and past the fan that it is of.
    let mut claimed = from;
    while at < to {
        // "Turn the oven down by 20 °C" is no oven of 20 °C.
        if let Some((_, end)) = by(w, from, at, to) {
            at = end;
            continue;
        }
        if let Some((celsius, end)) = gas(w, at, to) {
            figures.push(Figure { celsius, fan: false, inside: false, guessed: false, fahrenheit: false, at });
            at = end;
            continue;
        }
        let Some(Read { celsius, ranged, bare_letter, fahrenheit: typed_so, end }) = degrees(
            w,
            at,
            to,
            bare && at > from && (["at", "to", "on"].iter().any(|word| w.is(at - 1, word)) || is_alone_in_brackets(w, at)),
        ) else {
            at += 1;
            continue;
        };
        let of_fan = fan_of(w, claimed, at, end, to);
        let fan = of_fan.is_some();
        claimed = of_fan.unwrap_or(end).max(end);
        // Food never gets hotter inside than this: "registers 165°" is Fahrenheit.
        let said_inside = is_of_inside(w, from, at, end, to);
        let fahrenheit = bare_letter && celsius < FAHRENHEIT_FROM && !w.is(at.wrapping_sub(1), "at");
        let celsius =
            if said_inside && fahrenheit && celsius > MOST_INSIDE { ((celsius - 32.0) * 50.0 / 9.0).round() / 10.0 } else { celsius };
        let inside = said_inside && celsius <= MOST_INSIDE;
        figures.push(Figure { celsius, fan, inside, guessed: ranged, fahrenheit: typed_so, at });
        at = end;
    }
    if figures.iter().all(|figure| figure.inside) {
        figures.extend(oven_word(w, from, to));
    }
    figures
}

/// "180C fan", "fan 180C", "180C (fan)", "in a fan oven at 180C", "160C for fan-assisted ovens": the place after the figure and the word that
/// makes it a fan's. `claimed` is past the figure before it.
fn fan_of(w: &Words, claimed: usize, start: usize, end: usize, to: usize) -> Option<usize> {
    let fan = |at: usize| {
        (w.is(at, "fan") || w.is(at, "convection")) && !["no", "non", "without"].iter().any(|word| w.is(at.wrapping_sub(1), word))
    };
    let signs = |at: usize| matches!(w.kind(at), Some(Sign::Slash | Sign::Semicolon | Sign::Close));
    let before = (claimed.max(start.saturating_sub(8))..start).rev().take_while(|at| !signs(*at)).any(fan);
    let inside = w.kind(end) == Some(Sign::Open) && fan(end + 1) && w.kind(end + 2) == Some(Sign::Close);
    // "180 °C with fan, 200 °C without".
    let beside = ["in", "for", "with", "using"].iter().any(|word| w.is(end, word));
    let oven = beside.then(|| (end + 1..(end + 4).min(to)).take_while(|at| w.kind(*at) == Some(Sign::Word)).find(|at| fan(*at))).flatten();
    match () {
        () if before => Some(end),
        () if fan(end) => Some(end + 1),
        () if inside => Some(end + 3),
        () => oven.map(|at| at + 1),
    }
}

/// "Until the inside reaches 74 °C", "165 °F in the thickest part": does the clause from `from` to `to` say it of the figure from `start` to `end`?
fn is_of_inside(w: &Words, from: usize, start: usize, end: usize, to: usize) -> bool {
    const WORDS: [&str; 11] =
        ["inside", "internal", "internally", "thickest", "centre", "center", "middle", "core", "thermometer", "registers", "probe"];
    const REACHES: [&str; 6] = ["reaches", "reached", "reach", "registers", "reads", "hits"];
    // What is heated so and is no food to be done: the middle of an oven, frying oil, milk for a custard.
    const OTHERS: [&str; 9] = ["oven", "oil", "milk", "water", "syrup", "sugar", "jam", "fat", "grill"];
    // "Roast to 75C" is no oven: what is done so reaches it.
    const DONE_TO: [&str; 10] = ["roast", "bake", "cook", "grill", "braise", "roasted", "baked", "cooked", "reheat", "reheated"];
    let is = |at: usize, words: &[&str]| words.iter().any(|word| w.is(at, word));
    let of_oven = |at: usize| w.is(at + 1, "of") && (is(at + 2, &["oven"]) || is(at + 3, &["oven"])) || is(at + 1, &["shelf", "rack"]);
    let says = |at: usize| is(at, &WORDS) && !of_oven(at);
    let condition = (from..start).rev().find(|at| is(*at, &["until", "till", "when", "once", "if"]));
    let until = condition.unwrap_or(from);
    let of_others = (until..start).any(|at| is(at, &OTHERS)) || is(end, &["oven"]);
    let before_it = |back: usize, words: &[&str]| start >= from + back && is(start - back, words);
    let before = (until..start).any(says);
    let after = (end..to.min(end + 6)).take_while(|at| !is(*at, &["until", "till", "for"]) && w.kind(*at) != Some(Sign::Comma)).any(says);
    let reaches = (start.saturating_sub(4).max(from)..start).any(|at| is(at, &REACHES)) && !of_others;
    // "Until the temperature of the meat is 75C", "until the juices run clear (75C)"; "until dry, at 90C" is the oven's.
    let set = before_it(1, &["at", "in", "a", "an"]) && !before_it(2, &["is", "are"]);
    // "Heat the milk and butter until warm (50C)": nothing is done by then.
    let warmed = (from..until).any(|at| is(at, &["heat", "warm", "melt", "scald"]));
    let waited_for = condition.is_some() && !set && !warmed;
    let has = |word: &str| (from..start).any(|at| is(at, &[word]));
    // "The temperature of the meat should be 75C."
    let ought = before_it(1, &["be", "is"]) && (has("temperature") || before_it(2, &["should", "must", "to"]));
    let done_to = before_it(1, &["to"]) && (from..start).any(|at| is(at, &DONE_TO)) && !has("temperature") && !has("down") && !has("up");
    before || after || reaches || (waited_for || ought || done_to) && !of_others && !has("preheat") && !has("preheated")
}

fn gas(w: &Words, at: usize, to: usize) -> Option<(f64, usize)> {
    let mark = match (w.is(at, "gas"), w.is(at + 1, "mark")) {
        // "Gas No. 6"; "Regulo 7", as British books of the 1930s to 50s print it.
        (true, _) if w.is(at + 1, "no") => at + 2 + usize::from(w.kind(at + 2) == Some(Sign::Stop)),
        (false, _) if w.is(at, "regulo") || w.is(at, "gm") => at + 1 + usize::from(w.is(at + 1, "mark")),
        (true, true) => at + 2,
        (true, false) => at + 1,
        (false, _) if w.is(at, "mark") => at + 1,
        _ => return None,
    };
    if mark >= to {
        return None;
    }
    let read = w.number(mark).ok()??;
    // "Gas mark 4-5": the first. "Gas 5/190C": no fraction.
    let alone = w.at(mark).filter(|_| w.kind(mark + 1) == Some(Sign::Slash)).and_then(|token| token.text.parse::<f64>().ok());
    let celsius = |number: f64| GAS.iter().find(|(known, _)| *known == number).map(|(_, celsius)| *celsius);
    if let Some(celsius) = celsius(read.number.low.to_f64()) {
        return Some((celsius, read.end));
    }
    Some((celsius(alone?)?, mark + 1))
}

struct Read {
    celsius: f64,
    /// The upper end of a range.
    ranged: bool,
    /// Without C or F, and so taken for one of them.
    bare_letter: bool,
    fahrenheit: bool,
    end: usize,
}

/// A number with its letter, "degrees" or the sign; or any likely number where `bare`.
fn degrees(w: &Words, at: usize, to: usize, bare: bool) -> Option<Read> {
    if w.kind(at) != Some(Sign::Number) || at > 0 && w.at(at - 1).is_some_and(|before| before.is_number()) {
        return None;
    }
    // "In a falling oven, 200 to 160 °C": the first.
    if let Some(falls) = w.at(at)?.text.parse::<f64>().ok().and_then(|first| falling(w, first, at + 1, to)) {
        return Some(falls);
    }
    let read = w.number(at).ok()??;
    let (low, high, mut end) = (read.number.low.to_f64(), read.number.high.to_f64(), read.end);
    let mut marked = false;
    if w.is_hyphen(end) && (w.is(end + 1, "degrees") || w.is(end + 1, "degree")) {
        end += 1;
    }
    if end < to && (w.kind(end) == Some(Sign::Degree) || w.is(end, "degrees") || w.is(end, "degree") || w.is(end, "deg")) {
        marked = true;
        end += 1;
    }
    let letter = w.at(end).filter(|token| end < to && token.kind == Sign::Word).map(|token| token.text.to_lowercase());
    let mut bare_letter = false;
    let fahrenheit = match letter.as_deref() {
        Some("c" | "celsius" | "centigrade") => {
            end += 1;
            false
        }
        Some("f" | "fahrenheit") => {
            end += 1;
            true
        }
        _ if w.at(end).is_some_and(|token| token.text == "℃" || token.text == "℉") => {
            end += 1;
            w.at(end - 1).is_some_and(|token| token.text == "℉")
        }
        // "160°–180°C" is read with the letter of its upper end.
        _ if marked && w.kind(end) == Some(Sign::Dash) => {
            return Some(Read { ranged: true, ..degrees(w, end + 1, to, false)? });
        }
        _ if marked => {
            bare_letter = true;
            low >= FAHRENHEIT_FROM
        }
        _ if bare && (60.0..=550.0).contains(&low) && super::clock::time_at(w, at, to).is_none() && w.unit(end).is_none() => {
            low >= FAHRENHEIT_FROM
        }
        _ => return None,
    };
    let celsius = |degrees: f64| if fahrenheit { (degrees - 32.0) * 5.0 / 9.0 } else { degrees };
    // One decimal is more than any oven knows.
    Some(Read { celsius: (celsius(high) * 10.0).round() / 10.0, ranged: low < high, bare_letter, fahrenheit, end })
}

/// "In the preheated oven (200)".
fn is_alone_in_brackets(w: &Words, at: usize) -> bool {
    w.kind(at - 1) == Some(Sign::Open) && w.kind(at + 1) == Some(Sign::Close)
}

/// "200 to 160 °C": it begins at the first.
fn falling(w: &Words, first: f64, end: usize, to: usize) -> Option<Read> {
    let mark = w.is(end, "to") || w.kind(end) == Some(Sign::Dash);
    let last = w.number(end + 1).ok().flatten().filter(|read| mark && read.number.high.to_f64() < first && first >= 60.0)?;
    let sign = w.kind(last.end) == Some(Sign::Degree) || ["c", "f", "degrees"].iter().any(|word| w.is(last.end, word));
    let then = degrees(w, end + 1, to, false).filter(|_| sign)?;
    let fahrenheit = w.is(then.end - 1, "f") || then.bare_letter && first >= FAHRENHEIT_FROM;
    let celsius = if fahrenheit { ((first - 32.0) * 50.0 / 9.0).round() / 10.0 } else { first };
    Some(Read { celsius, ranged: true, ..then })
}

/// "Reduce to moderate", "turn the oven to low": the table's word without its "oven", after "to". "Turn out onto a rack to cool" is none.
pub(super) fn turned_to(w: &Words, from: usize, to: usize) -> Option<Celsius> {
    const BETWEEN: [&str; 10] = ["the", "your", "oven", "heat", "temperature", "it", "down", "up", "back", "right"];
    let mark = (from..to).find(|at| !BETWEEN.iter().any(|word| w.is(*at, word))).filter(|at| w.is(*at, "to"))?;
    let said_of_it = (from..mark).any(|at| ["oven", "heat", "temperature"].iter().any(|word| w.is(at, word)));
    Some(mark + 1).filter(|at| said_of_it || !w.is(*at, "cool")).and_then(|at| {
        let fits = |phrase: &str| {
            let words: Vec<&str> = phrase.strip_suffix(" oven").unwrap_or_default().split(' ').collect();
            at + words.len() <= to && words.iter().enumerate().all(|(index, word)| w.is(at + index, word))
        };
        let longest = OVENS.iter().filter(|(_, phrase)| fits(phrase)).max_by_key(|(_, phrase)| phrase.len());
        longest.map(|(celsius, _)| Celsius(*celsius))
    })
}

fn oven_word(w: &Words, from: usize, to: usize) -> Option<Figure> {
    let said = |at: usize| {
        let fits = |phrase: &str| {
            let words: Vec<&str> = phrase.split(' ').collect();
            at + words.len() <= to && words.iter().enumerate().all(|(index, word)| w.is(at + index, word))
        };
        OVENS.iter().find(|(_, phrase)| fits(phrase)).map(|(celsius, _)| *celsius)
    };
    (from..to).find_map(|at| Some(Figure { celsius: said(at)?, fan: false, inside: false, guessed: true, fahrenheit: false, at }))
}

#[cfg(test)]
mod tests;
