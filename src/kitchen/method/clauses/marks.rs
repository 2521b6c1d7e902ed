//! What marks a clause: it goes on beside another, may be left out, is done only another way, or tells how long the one before it takes.

use super::{Clause, verb_at};
use crate::kitchen::method::clock::times;
use crate::kitchen::method::verbs::Way;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// Marks what is only done by those who do it another way: all of the sentence after "if using …", until "otherwise"; or the one clause
/// whose time is followed by it: "soak overnight if using dried beans".
pub(super) fn suppose(w: &Words, start: usize, found: &mut [Clause]) {
    let is_word = |at: &usize| w.kind(*at) == Some(Sign::Word) && !["and", "or", "but"].iter().any(|word| w.is(*at, word));
    let mut supposed = (start..start + 3).find(is_word).is_some_and(|at| is_other_way(w, at));
    for clause in found {
        const ELSE: [&str; 3] = ["otherwise", "else", "if"];
        let turns = (clause.start..clause.end.min(clause.start + 3))
            .any(|at| at > start + 1 && ELSE.iter().any(|word| w.is(at, word)) && !is_other_way(w, at));
        supposed &= !turns;
        let times = times(w, clause.verb_end, clause.end);
        let after_time = matches!(times.as_slice(), [time] if is_other_way(w, time.end) && w.kind(time.end + 2) == Some(Sign::Word)
            && !w.is(time.end + 1, "you"));
        clause.supposed = supposed || after_time;
    }
}

/// Marks what may be left out: all of a sentence that opens with "if you like", "optional:" or "alternatively", or the one clause that ends so.
pub(super) fn may_be_left_out(w: &Words, start: usize, end: usize, found: &mut [Clause]) {
    let first = (start..end).find(|at| w.kind(*at) == Some(Sign::Word)).unwrap_or(start);
    let another = ["alternatively", "alternately", "optionally"].iter().any(|word| w.is(first, word));
    let labelled = w.is(first, "optional") && matches!(w.kind(first + 1), Some(Sign::Colon | Sign::Dash | Sign::Close | Sign::Comma));
    let or = w.is(first, "or") && verb_at(w, first + 1).is_some();
    let liked = if_liked(w, first).is_some_and(|after| w.kind(after) == Some(Sign::Comma));
    let all = another || labelled || or || liked;
    for clause in found {
        let or = clause.start > start && w.is(clause.start, "or") && clause.verb.is_some();
        clause.optional = all || or || ends_as_liked(w, clause);
    }
}

/// Marks what is done only where something turned out so, and what follows it in its sentence: "if the sauce is thin, simmer for 10 minutes
/// more".
pub(super) fn hang_on(w: &Words, found: &mut [Clause]) {
    #[rustfmt::skip]
    const AFTER_IF: [&str; 18] = [
        "the", "it", "they", "not", "still", "any", "your", "that", "this", "these", "needed", "necessary", "there", "too", "a", "some", "required", "frozen",
    ];
    let mut hangs = false;
    for clause in found {
        let first = (clause.start..clause.end)
            .find(|at| w.kind(*at) == Some(Sign::Word) && !["and", "but", "or"].iter().any(|word| w.is(*at, word)));
        let opens = first.is_some_and(|at| {
            w.is(at, "unless") || w.is(at, "if") && AFTER_IF.iter().any(|word| w.is(at + 1, word)) && clause.verb.is_some()
        });
        hangs |= opens;
        hangs &= !(clause.start..clause.end.min(clause.start + 3)).any(|at| w.is(at, "otherwise"));
        clause.conditional = hangs;
    }
}

/// "If you like", "if desired", and the place after it.
fn if_liked(w: &Words, at: usize) -> Option<usize> {
    const LIKES: [&str; 5] = ["like", "wish", "prefer", "want", "fancy"];
    const LIKED: [&str; 4] = ["liked", "desired", "wished", "wanted"];
    let is = |place: usize, words: &[&str]| words.iter().any(|word| w.is(place, word));
    match () {
        () if !w.is(at, "if") => None,
        () if w.is(at + 1, "you") && is(at + 2, &LIKES) => Some(at + 3),
        () if is(at + 1, &LIKED) => Some(at + 2),
        () => None,
    }
}

/// "Grill for 3 minutes, if you like"; "with the lid on, if you like" and "or longer, if you like" say it of how it is done.
fn ends_as_liked(w: &Words, clause: &Clause) -> bool {
    const OF_HOW: [&str; 8] = ["or", "with", "without", "more", "longer", "less", "covered", "uncovered"];
    let said = |at: usize| if_liked(w, at).is_some_and(|after| after == clause.end);
    let bracket = |at: usize| w.kind(at) == Some(Sign::Open) && w.is(at + 1, "optional") && at + 3 == clause.end;
    let at = (clause.verb_end..clause.end).find(|at| said(*at) || bracket(*at));
    at.is_some_and(|at| {
        let how =
            |place: usize| OF_HOW.iter().any(|word| w.is(place, word)) || w.at(place).is_some_and(|token| token.text.ends_with("ing"));
        !(clause.verb_end..at).any(how)
    })
}

/// "If using", "if you are making", "if you have a steamer": one way of several, and "if you have time" is none.
fn is_other_way(w: &Words, at: usize) -> bool {
    const DOES: [&str; 8] = ["use", "have", "make", "cook", "bake", "own", "freeze", "choose"];
    let gerund = |at: usize| {
        let text = w.at(at).filter(|token| token.kind == Sign::Word).map(|token| token.text.to_lowercase());
        text.is_some_and(|text| text.len() > 4 && text.ends_with("ing") && !text.ends_with("thing"))
    };
    let of = at + 1 + usize::from(w.is(at + 1, "not"));
    let are = w.is(of, "you") && w.is(of + 1, "are");
    let you_are = are || w.is(of, "you're") || w.is(of, "you’re");
    let does = w.is(of, "you") && DOES.iter().any(|word| w.is(of + 1, word)) && !(of + 2..of + 5).any(|at| w.is(at, "time"));
    w.is(at, "if") && (gerund(of) || you_are && gerund(of + 1 + usize::from(are)) || does)
}

/// "This will take about 10 minutes": the time of the clause before it, where that has none.
pub(super) fn tells_how_long(w: &Words, clause: &Clause, before: &Clause) -> bool {
    const BETWEEN: [&str; 8] = ["will", "should", "can", "may", "might", "usually", "only", "ought"];
    let begins = ["this", "it", "that", "they", "which"].iter().any(|word| w.is(clause.start, word));
    let mut at = clause.start + 1;
    while BETWEEN.iter().any(|word| w.is(at, word)) || w.is(at, "to") {
        at += 1;
    }
    let takes = ["take", "takes", "need", "needs"].iter().any(|word| w.is(at, word));
    let own = |clause: &Clause| !times(w, clause.start, clause.end).is_empty();
    begins && takes && clause.verb.is_none() && before.verb.is_some() && own(clause) && !own(before)
}

/// "Start checking at 25 minutes, it may need 35": says of the clause before it how long that takes.
pub(super) fn only_checks(w: &Words, clause: &Clause, before: &Clause) -> bool {
    let checks = |at: usize| ["checking", "testing"].iter().any(|word| w.is(at, word));
    let verb = clause.verb.is_some_and(|verb| matches!(verb.word, "start" | "begin")) && checks(clause.verb_end);
    let waits = before.verb.is_some_and(|verb| matches!(verb.way, Way::Wait(..)));
    verb && waits && before.sentence == clause.sentence && times(w, before.start, before.end).is_empty()
}

/// "…, meanwhile fry the onion", "… while you fry the onion": beside what the sentence began with.
pub(super) fn turns_meanwhile(w: &Words, clause: &Clause) -> bool {
    let words = (clause.start..clause.end).find(|at| w.kind(*at) == Some(Sign::Word) && !w.is(*at, "and") && !w.is(*at, "but"));
    words
        .is_some_and(|at| w.is(at, "meanwhile") || w.is(at, "in") && w.is(at + 1, "the") && w.is(at + 2, "meantime") || is_while_you(w, at))
}

pub(super) fn is_while_you(w: &Words, at: usize) -> bool {
    (w.is(at, "while") || w.is(at, "whilst")) && w.is(at + 1, "you")
}

/// "Meanwhile", "while the pasta cooks", "in the meantime", at the beginning of a sentence.
pub(super) fn is_meanwhile(w: &Words, start: usize, end: usize) -> bool {
    let at =
        (start..end.min(start + 2)).find(|at| !matches!(w.kind(*at), Some(Sign::And | Sign::Comma)) && !w.is(*at, "and")).unwrap_or(start);
    let is = |words: &[&str]| words.iter().enumerate().all(|(index, word)| w.is(at + index, word));
    is(&["meanwhile"])
        || is(&["while"])
        || is(&["whilst"])
        || is(&["in", "the", "meantime"])
        || is(&["at", "the", "same", "time"])
        || (at..end.min(at + 4)).any(|place| w.is(place, "meanwhile"))
}
