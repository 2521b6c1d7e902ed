//! Lines of a method that head what follows them: "For the roots", "Marinate:", "Bake". They are words, and nothing that is done.
//!
//! Knows words and verbs; knows no step.

use super::Paragraph;
use super::clauses::verb_at;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

/// More words than this are no heading.
const MOST_WORDS: usize = 6;

/// What opens a line that says something of its own, whatever stands at its end.
const NO_HEADING: [&str; 5] = ["serve", "garnish", "meanwhile", "optional", "enjoy"];

/// Is the paragraph a heading? Without a colon it is where it stands above a sentence, and opens with "for" or is one bare verb.
pub(super) fn is_heading(paragraph: &Paragraph, next: Option<&Paragraph>) -> bool {
    let w = Words::of(&paragraph.text);
    let of = |wanted: Sign| (0..w.len()).filter(|at| w.kind(*at) == Some(wanted)).collect::<Vec<usize>>();
    let words = of(Sign::Word);
    let (Some(first), Some(last)) = (words.first(), w.len().checked_sub(1)) else { return false };
    let opens = |list: &[&str]| words.iter().take(2).any(|at| list.iter().any(|word| w.is(*at, word)));
    // "Step 2: the roots:"
    let figures = of(Sign::Number).into_iter().filter(|at| !(w.is(at.wrapping_sub(1), "step") || w.is(at.wrapping_sub(1), "part")));
    let [colons, stops] = [of(Sign::Colon), of(Sign::Stop)];
    if words.len() > MOST_WORDS || opens(&NO_HEADING) || figures.count() > 0 || !stops.is_empty() || !of(Sign::Semicolon).is_empty() {
        return false;
    }
    if !colons.is_empty() {
        return colons == [last];
    }
    let above = next.is_some_and(|next| next.text.trim_end().ends_with(['.', '!']));
    let ends = !paragraph.text.trim_end().ends_with(['!', '?', ',']);
    let part = w.is(*first, "for") && words.len() > 1 && !words.iter().any(|at| verb_at(&w, *at).is_some());
    let verb = w.len() == 1 && verb_at(&w, 0).is_some();
    above && ends && (part || verb)
}

/// For each paragraph, whether it is one.
pub(super) fn headings(paragraphs: &[Paragraph]) -> Vec<bool> {
    paragraphs.iter().enumerate().map(|(number, paragraph)| is_heading(paragraph, paragraphs.get(number + 1))).collect()
}

/// As it is printed before the step below it.
pub(super) fn printed(paragraph: &Paragraph) -> String {
    let text = paragraph.text.trim().trim_end_matches(':').trim_end().replace('{', "(").replace('}', ")");
    format!("{text}:")
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::super::tests::{read, told};
    use crate::kitchen::Piece;

    #[test]
    fn a_heading_is_words_and_no_step() {
        for heading in ["Bake", "Bake:", "For the roots", "For the roots:", "Roast the beetroot:", "Marinate:"] {
            let read =
                read(&["500 g beetroot", "2 tbsp olive oil"], &[heading, "Turn the beetroot in the oil.", "Roast at 200C for 50 minutes."]);
            assert_eq!(told(&read), ["-", "oven w50 c200"], "{heading}");
            let Some(Piece::Words(first)) = read.steps[0].text.first() else { panic!("{heading}") };
            assert!(first.starts_with(&format!("{}: ", heading.trim_end_matches(':'))), "{first}");
            assert_eq!(read.doubts, [], "{heading}");
        }
    }

    #[test]
    fn a_step_of_a_word_or_two_stays_a_step() {
        for (method, meant) in [
            (&["Bake.", "Leave to cool for 10 minutes."][..], &["oven w30", "- w10"][..]),
            (&["Mix the oil and the beetroot", "Bake"], &["-", "oven w30"]),
            (&["1. Bake", "2. Leave to cool for 10 minutes."], &["oven w30", "- w10"]),
            (&["Roast for 40 minutes:", "Leave to cool for 10 minutes."], &["oven w40", "- w10"]),
        ] {
            assert_eq!(told(&read(&["500 g beetroot", "2 tbsp olive oil"], method)), meant, "{method:?}");
        }
    }
}
