//! The words that terminal, sheets, files and messages share: dates, clock times, durations, degrees, plurals, places, lists, capital letters.
//!
//! Plain spaces throughout; whoever sets type ties what must stay together. Knows no rule of the kitchen.

mod bullets;
pub mod marks;
mod proper;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

use crate::foods::Place;
use crate::measure::{Celsius, Units};

pub use bullets::bullet;
pub use proper::in_a_sentence;

/// "Sat 28 Nov".
pub fn day(date: Date) -> String {
    date.strftime("%a %-d %b").to_string()
}

/// "Sat 28 Nov 2026".
pub fn day_year(date: Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// "Sat 28 Nov", with the year where it is another than that of `near`.
pub fn day_near(date: Date, near: Date) -> String {
    if date.year() == near.year() { day(date) } else { day_year(date) }
}

/// "14:00".
pub fn clock(at: DateTime) -> String {
    at.strftime("%H:%M").to_string()
}

/// "Sat 28 Nov 14:00".
pub fn day_clock(at: DateTime) -> String {
    format!("{} {}", day(at.date()), clock(at))
}

/// "14:00", so many minutes after a start.
pub fn clock_after(start: DateTime, minutes: i64) -> String {
    clock(start.checked_add(minutes.minutes()).unwrap_or(start))
}

/// The clock by which a session is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Clock {
    /// That of the day on which it begins.
    Of(DateTime),
    /// 0:00 is its beginning.
    FromZero,
}

impl Clock {
    /// "14:35"; "0:35".
    pub fn after(self, minutes: i64) -> String {
        match self {
            Clock::Of(start) => clock_after(start, minutes),
            Clock::FromZero => format!("{}:{:02}", minutes / 60, minutes % 60),
        }
    }

    /// Minutes from the full hour of midnight, or of the beginning, to the start.
    pub fn past(self) -> i64 {
        match self {
            Clock::Of(start) => i64::from(start.hour()) * 60 + i64::from(start.minute()),
            Clock::FromZero => 0,
        }
    }
}

/// "45 min", "1 h 10 min", "2 h".
pub fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, rest) => format!("{rest} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, rest) => format!("{hours} h {rest} min"),
    }
}

/// "1 lot", "3 lots".
pub fn counted(count: usize, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {}", plural(one)) }
}

/// "190 °C (375 °F)"; the other way round where sheets print US units. Fahrenheit to the nearest five, as dials and charts have it.
pub fn degrees(celsius: Celsius, units: Units) -> String {
    let metric = format!("{} °C", celsius.0.round());
    let us = format!("{} °F", fahrenheit(celsius.0));
    match units {
        Units::Metric => format!("{metric} ({us})"),
        Units::Us => format!("{us} ({metric})"),
    }
}

/// "180 °C", or "355 °F".
pub fn temperature(heat: Celsius, units: Units) -> String {
    match units {
        Units::Metric => format!("{:.0} °C", heat.0),
        Units::Us => format!("{:.0} °F", fahrenheit(heat.0)),
    }
}

/// To the nearest five degrees that an oven's dial shows (common practice, no source).
fn fahrenheit(celsius: f64) -> f64 {
    ((celsius * 9.0 / 5.0 + 32.0) / 5.0).round() * 5.0
}

pub fn place(place: Place) -> &'static str {
    match place {
        Place::Cupboard => "cupboard",
        Place::Fridge => "fridge",
        Place::Freezer => "freezer",
    }
}

/// Words that no shortened name ends with.
pub const JOINING: [&str; 6] = ["and", "with", "of", "in", "on", "for"];

/// A name of at most `most` letters; a longer one by its first whole words that have room before an ellipsis.
fn shortened(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let mut kept: Vec<&str> = Vec::new();
    let mut room = most.saturating_sub(1);
    for word in name.split_whitespace() {
        let taken = word.chars().count() + usize::from(!kept.is_empty());
        if taken > room {
            break;
        }
        room -= taken;
        kept.push(word);
    }
    while kept.last().is_some_and(|word| JOINING.contains(word)) {
        kept.pop();
    }
    if kept.is_empty() { name.chars().take(most.saturating_sub(1)).chain(['…']).collect() } else { format!("{}…", kept.join(" ")) }
}

/// A dish's name where room is short: "Chicken thighs braised…".
pub fn brief(dish: &str) -> String {
    shortened(dish, 28)
}

/// A dish's name in few words that still make sense: "Chicken thighs"; "White-bean mash" for "White-bean and rosemary mash".
pub fn first_words(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().collect();
    match words.as_slice() {
        // What comes after the second of a pair is the dish itself.
        [first, "and", _, dish, ..] if !JOINING.contains(dish) => format!("{first} {dish}"),
        [_, "and", _] if name.chars().count() <= 16 => words.join(" "),
        [first, second, ..] if JOINING.contains(second) => (*first).to_owned(),
        [first, second, ..] => format!("{first} {second}"),
        _ => words.join(" "),
    }
}

/// "a", "a and b", "a, b and c".
pub fn listed<S: AsRef<str>>(words: &[S]) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [most @ .., last] => format!("{} and {}", most.iter().map(AsRef::as_ref).collect::<Vec<_>>().join(", "), last.as_ref()),
    }
}

/// By which the sheets of one print are known: "plan 0f3a55c1".
pub fn plan_mark(mark: &str) -> String {
    format!("plan {mark}")
}

/// With a full stop, where nothing else ends it.
pub fn ended(text: &str) -> String {
    let text = text.trim();
    let stop = if text.is_empty() || text.ends_with(['.', '!', '?', ':', '…']) { "" } else { "." };
    format!("{text}{stop}")
}

/// With a capital at its start.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The usual English plural of a name's last word; a name that is one already stays.
pub fn plural(name: &str) -> String {
    const IRREGULAR: [(&str, &str); 5] =
        [("potato", "potatoes"), ("tomato", "tomatoes"), ("leaf", "leaves"), ("loaf", "loaves"), ("mango", "mangoes")];
    if let Some((one, many)) = IRREGULAR.iter().find(|(one, _)| name.to_lowercase().ends_with(one)) {
        return format!("{}{many}", &name[..name.len() - one.len()]);
    }
    let vowel_before_y = ["ay", "ey", "oy", "uy"].iter().any(|end| name.ends_with(end));
    match name {
        _ if ["ch", "sh", "x", "ss"].iter().any(|end| name.ends_with(end)) => format!("{name}es"),
        _ if name.ends_with('s') || name.is_empty() => name.to_owned(),
        _ if name.ends_with('y') && !vowel_before_y => format!("{}ies", &name[..name.len() - 1]),
        _ => format!("{name}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_are_read_as_a_clock_is() {
        assert_eq!([45, 60, 70].map(duration), ["45 min", "1 h", "1 h 10 min"]);
    }

    #[test]
    fn lists_end_with_and() {
        assert_eq!(
            [listed::<&str>(&[]), listed(&["a"]), listed(&["a", "b"]), listed(&["a", "b", "c"])],
            ["", "a", "a and b", "a, b and c"]
        );
    }

    #[test]
    fn a_long_name_keeps_the_whole_words_that_have_room() {
        let long = "Chicken thighs braised with tomatoes and olives";
        assert_eq!([shortened(long, 28), shortened(long, 60)], ["Chicken thighs braised…", long]);
        assert_eq!([shortened("Pneumonoultramicroscopic", 8), shortened("Soup", 4)], ["Pneumon…", "Soup"]);
    }

    #[test]
    fn a_dish_in_few_words_is_still_that_dish() {
        for (name, few) in [
            ("White-bean and rosemary mash", "White-bean mash"),
            ("Chicken thighs braised with tomatoes and olives", "Chicken thighs"),
            ("Roast beetroot and carrots", "Roast beetroot"),
            ("Leek and potato soup", "Leek soup"),
            ("Fish and chips", "Fish and chips"),
            ("Soup of the day", "Soup"),
            ("Frittata", "Frittata"),
        ] {
            assert_eq!(first_words(name), few);
        }
    }
}
