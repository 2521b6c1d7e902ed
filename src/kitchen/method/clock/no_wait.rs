//! Times that nobody waits for: "after 10 minutes", "every 5 minutes", "30 minutes before serving".

use super::figures::unit;
use crate::kitchen::words::Words;

/// "For the first 15 minutes at 220 °C and the remaining 45 at 180": the first time of its clause, and another comes after it.
fn is_followed_up(w: &Words, from: usize, start: usize, end: usize) -> bool {
    const NEXT: [&str; 6] = ["remaining", "then", "another", "rest", "further", "afterwards"];
    const REACH: usize = 16;
    let first = (from..start).all(|at| unit(w, at).is_none_or(|_| w.at(at).is_some_and(|token| token.text.len() == 1)));
    first && (end..end + REACH).any(|at| NEXT.iter().any(|word| w.is(at, word)))
}

/// "After 10 minutes", "every 5 minutes", "for the last 10 minutes", "30 minutes before serving", "keeps 3 days": a mark in time, no wait.
pub(super) fn is_no_wait(w: &Words, from: usize, start: usize, end: usize) -> bool {
    let before = |back: usize| start.checked_sub(back).filter(|at| *at >= from);
    let said = |back: usize, words: &[&str]| before(back).is_some_and(|at| words.iter().any(|word| w.is(at, word)));
    // "The last 10 minutes" are a mark in time, "a final 10 minutes" a wait.
    let one = |back: usize| said(back, &["a", "one", "another", "its", "their"]);
    let inside_filler =
        (start..end).any(|at| w.is(at, "last") || w.is(at, "final")) && !["a", "one", "another"].iter().any(|word| w.is(start, word));
    let for_it = (1..=3).any(|back| said(back, &["for"]));
    let nearly = ["about", "around", "approximately", "roughly"];
    let after = said(1, &["after", "every", "within", "keep", "keeps", "by"])
        || said(1, &["last", "final"]) && !one(2)
        || said(1, &["first"]) && !one(2) && !is_followed_up(w, from, start, end)
        || said(1, &["than"]) && !said(2, &["less", "more", "longer", "fewer"])
        || said(2, &["after", "every", "within"]) && said(1, &nearly);
    // "Start checking at 25 minutes", "check after 20".
    let checks = (1..=3).any(|back| said(back, &["check", "checking", "test", "testing"])) && said(1, &["at", "from"]);
    let after = after || checks;
    let keeps = (from..start).any(|at| w.is(at, "keep") || w.is(at, "keeps") || w.is(at, "store")) && !for_it;
    // "Refrigerate for up to 3 days" says how long it keeps; "marinate for up to 2 days" is a wait.
    let days = (start..end).any(|at| w.is(at, "day") || w.is(at, "days"));
    let up_to = w.is(start, "up") || (1..=3).any(|back| before(back).is_some_and(|at| w.is(at, "up") && w.is(at + 1, "to")));
    let steeps = ["marinate", "soak", "cure", "brine", "salt", "ferment", "steep"];
    let keeps = keeps || days && up_to && !(from.saturating_sub(2)..start).any(|at| steeps.iter().any(|word| w.is(at, word)));
    // "Let stand 10 minutes before serving" is a wait; "take out 30 minutes before serving" is none.
    const WAITS: [&str; 9] = ["stand", "rest", "sit", "cool", "chill", "marinate", "soak", "refrigerate", "wait"];
    let waits = (1..=3).any(|back| start.checked_sub(back).is_some_and(|at| WAITS.iter().any(|word| w.is(at, word))));
    // "Cook 10 minutes before adding the peas" is one, too: what follows is done after it.
    const MEALS: [&str; 8] = ["serving", "eating", "using", "cooking", "baking", "roasting", "grilling", "frying"];
    let goes_on = w.at(end + 1).is_some_and(|next| next.text.ends_with("ing")) && !MEALS.iter().any(|word| w.is(end + 1, word));
    let then_before = w.is(end, "before") && !for_it && !waits && !goes_on
        || w.is(end, "from") && w.is(end + 1, "the") && w.is(end + 2, "end")
        || w.is(end, "ahead")
        || w.is(end, "in") && w.is(end + 1, "advance");
    // "For a minute less than the packet says."
    let less = ["less", "shorter"].iter().any(|word| w.is(end, word)) && w.is(end + 1, "than");
    let older = less || ["old", "later", "beforehand", "earlier"].iter().any(|word| w.is(end, word));
    after || inside_filler || keeps || then_before || older
}
