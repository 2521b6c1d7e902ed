//! What can be done where a meal runs short.

use crate::kitchen::much::{made, much_of};
use crate::kitchen::{Names, Ware};
use crate::measure::Units;
use crate::plan::{Begins, ShortMeal};
use crate::purchase::Awaiting;
use crate::words::{clock, day, duration, ended, sentence};

/// The remedies, the best first, each in a few words. What should be in water by now is made by nobody any more.
pub fn remedies(short: &ShortMeal) -> Vec<String> {
    let leave_out = "leave it out, or eat less of it".to_owned();
    let begins = |begins: &Begins| format!("{} at {}", day(begins.at.date()), clock(begins.at));
    if let Some(begun) = short.begins.filter(|begun| begun.is_past) {
        return vec![format!("make something else: this had to be begun on {}", begins(&begun)), leave_out];
    }
    let mut remedies = vec![format!("cook it before: a session on {} or earlier", day(short.at.date()))];
    if short.takes.0 > 0 {
        let at = short.begins.map_or_else(String::new, |begun| format!(" (on {})", begins(&begun)));
        let ahead = if short.ahead.0 > 0 { format!(", begun {} before it{at}", duration(short.ahead.0)) } else { String::new() };
        remedies.push(format!("make it at the meal: {}{ahead}", duration(short.takes.0)));
    }
    remedies.push(leave_out);
    remedies
}

/// "Still to get, before Thu 3 Dec supper".
pub fn still_to_get(before: Option<&Awaiting>) -> String {
    before.map_or_else(|| "Still to get".to_owned(), |before| format!("Still to get, before {}", awaiting(before)))
}

/// "Thu 3 Dec supper", "Thu 3 Dec 14:00".
pub fn awaiting(what: &Awaiting) -> String {
    let word = what.meal.clone().unwrap_or_else(|| clock(what.at));
    format!("{} {word}", day(what.at.date()))
}

/// "Fri supper: 1.75 portions of white-bean mash", with the remedies after it.
pub fn lacks(short: &ShortMeal, names: Names, units: Units) -> String {
    let meal = if short.meal == short.label { String::new() } else { format!(" ({})", short.meal) };
    let when = format!("{} {}", day(short.at.date()), short.word);
    format!("{when}{meal}: {}", made(names, short.recipe, &short.amount, units))
}

/// What a meal lacks, with what can be done, for the meal itself:
/// "Short: 1¾ portions of white-bean mash. Make it at the meal: 20 min; leave it out, or eat less of it."
pub fn at_the_meal(short: &ShortMeal, names: Names, units: Units) -> String {
    let what = much_of(names, Ware::Recipe(short.recipe), &short.amount, units);
    format!("Short: {what}. {}", what_to_do(short))
}

/// The same at the head of a page, with the meal that it is about; what is missing and what can be done apart.
pub fn at_the_head(short: &ShortMeal, names: Names, units: Units) -> (String, String) {
    (format!("Short: {}.", lacks(short, names, units)), what_to_do(short))
}

fn what_to_do(short: &ShortMeal) -> String {
    ended(&sentence(&remedies(short).join("; ")))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::RecipeId;
    use crate::measure::{Minutes, Quantity};

    #[test]
    fn what_must_soak_is_begun_before_the_meal() {
        let at = jiff::civil::date(2026, 12, 2).at(18, 30, 0, 0);
        let (label, word, meal) = ("Wed supper".to_owned(), "supper".to_owned(), "Mash and roots".to_owned());
        let amount = Quantity::portions(2.5);
        let mut short =
            ShortMeal { at, label, word, meal, recipe: RecipeId(0), amount, takes: Minutes(83), ahead: Minutes(0), begins: None };
        assert_eq!(remedies(&short)[1], "make it at the meal: 1 h 23 min");
        short.ahead = Minutes(16 * 60);
        assert_eq!(remedies(&short)[1], "make it at the meal: 1 h 23 min, begun 16 h before it");
        let begins = Begins { at: jiff::civil::date(2026, 12, 1).at(20, 0, 0, 0), is_past: false };
        short.begins = Some(begins);
        assert_eq!(remedies(&short)[1], "make it at the meal: 1 h 23 min, begun 16 h before it (on Tue 1 Dec at 20:00)");
        short.begins = Some(Begins { is_past: true, ..begins });
        assert_eq!(
            remedies(&short),
            ["make something else: this had to be begun on Tue 1 Dec at 20:00", "leave it out, or eat less of it"]
        );
    }
}
