//! How much of a food is meant, by the words before its name: "half the", "the rest of the", "2 tbsp of the", "what is left of the".

use super::{Larder, Part};
use crate::kitchen::words::Words;
use crate::measure::Number;

impl Larder<'_> {
    /// "Half the", "the rest of the", "2 tbsp of the", "most of the" before a name, and where it begins.
    pub(super) fn share_before(w: &Words, from: usize, at: usize) -> (usize, Option<Part>) {
        let is = |place: Option<usize>, word: &str| place.is_some_and(|place| place >= from && w.is(place, word));
        let back = |steps: usize| at.checked_sub(steps);
        let other = is(back(1), "other") && is(back(2), "the");
        if is(back(1), "remaining") || is(back(1), "rest") || other {
            let the = usize::from(is(back(2), "the"));
            return (at - 1 - the, Some(Part::Rest));
        }
        let the = ["the", "your", "this"].iter().any(|word| is(back(1), word));
        let start = at - usize::from(the);
        let before = |steps: usize| start.checked_sub(steps);
        if is(before(1), "half") {
            return (start - 1, Some(Part::Share(Number::HALF)));
        }
        if is(before(1), "of") {
            for (word, part) in [
                ("half", Part::Share(Number::HALF)),
                ("third", Part::Share(Number::over(1, 3))),
                ("quarter", Part::Share(Number::over(1, 4))),
                ("most", Part::Share(Number::over(3, 4))),
                ("some", Part::Share(Number::HALF)),
                ("rest", Part::Rest),
                ("remainder", Part::Rest),
                ("last", Part::Rest),
            ] {
                if is(before(2), word) {
                    let article = is(before(3), "the") || is(before(3), "a") || is(before(3), "one");
                    return (start - 2 - usize::from(article), Some(part));
                }
            }
        }
        // "What is left of the sugar".
        if is(before(1), "of") && is(before(2), "left") && is(before(3), "is") && is(before(4), "what") {
            return (start - 4, Some(Part::Rest));
        }
        // "2 tbsp of the oil", "2 tbsp oil", "2 eggs".
        for first in (from..start).rev().take(5) {
            let Ok(Some(read)) = w.amount(first) else { continue };
            let reaches = read.end == start || read.end + 1 == start && w.is(read.end, "of");
            let number = w.at(first).is_some_and(|token| {
                token.is_number() || ["a", "an", "one", "two", "three", "four", "five", "six"].iter().any(|word| token.is(word))
            });
            let earlier = first > from && w.at(first - 1).is_some_and(|token| token.is_number());
            // "Fry one onion" of two.
            let counted = read.end == start && ["one", "two", "three", "four", "five", "six"].iter().any(|word| w.is(first, word));
            if reaches && number && !earlier && (read.unit_given || counted || w.at(first).is_some_and(|token| token.is_number())) {
                return (first, Some(Part::Amount(read.amount.high, read.amount.unit)));
            }
        }
        (start, None)
    }
}
