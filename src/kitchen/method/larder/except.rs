//! What a method leaves out: "everything except the feta", "all but 2 tbsp of the oil".

use super::{ADJECTIVES, Larder, Mention, Named, Part, is_state};
use crate::kitchen::words::Words;
use crate::measure::{Kind as Sign, Number};

/// What stands after "except".
pub(super) struct Excepted {
    pub foods: Vec<usize>,
    /// Every word of it was understood.
    pub clear: bool,
    pub end: usize,
}

/// What leaves something out. "But" does so only before a food: "add the rest but keep stirring".
const EXCEPT: [&[&str]; 12] = [
    &["except", "for"],
    &["except"],
    &["excepting"],
    &["excluding"],
    &["apart", "from"],
    &["aside", "from"],
    &["other", "than"],
    &["with", "the", "exception", "of"],
    &["without"],
    &["but", "not"],
    &["but"],
    &["bar"],
];

impl Larder<'_> {
    /// "Except the feta", "but not the olives or the capers", "apart from the dressing ingredients": what is not meant.
    pub(super) fn excepted(&self, w: &Words, at: usize, to: usize, after_all: bool) -> Option<Excepted> {
        let at = if matches!(w.kind(at), Some(Sign::Comma | Sign::Open)) { at + 1 } else { at };
        let fits = |phrase: &&&[&str]| phrase.iter().enumerate().all(|(index, word)| w.is(at + index, word));
        let only_of_all = |phrase: &&&[&str]| matches!(phrase, ["but"] | ["bar"]);
        let phrase = EXCEPT.iter().find(fits).filter(|phrase| after_all || !only_of_all(phrase))?;
        let mut excepted = Excepted { foods: Vec::new(), clear: false, end: at + phrase.len() };
        let mut next = excepted.end;
        while next < to {
            let joint = matches!(w.kind(next), Some(Sign::Comma | Sign::And))
                || ["and", "or", "nor", "the", "your", "any", "a", "of", "few", "little", "pinch", "handful"]
                    .iter()
                    .any(|word| w.is(next, word));
            let described = is_state(w, next) || ADJECTIVES.contains(&w.key_at(next)) && self.one(w, next, next, to).is_none();
            if joint || described {
                next += 1;
                continue;
            }
            let heading = |named: &Named| {
                let heading = named.heading.as_ref()?;
                (!w.key_at(next).is_empty() && heading.split(' ').any(|word| word == w.key_at(next))).then_some(())
            };
            let under: Vec<usize> = (0..self.named.len()).filter(|index| heading(&self.named[*index]).is_some()).collect();
            if let Some(one) = self.one(w, next, next, to) {
                excepted.foods.extend(one.foods);
                next = one.end.max(next + 1);
            } else if !under.is_empty() {
                excepted.foods.extend(under);
                next += 1 + usize::from(w.key_at(next + 1) == "ingredient");
            } else if let Some((_, end)) = w.food(next, self.foods).filter(|(_, end)| *end <= to) {
                next = end;
            } else {
                break;
            }
            (excepted.clear, excepted.end) = (true, next);
        }
        let loose = matches!(phrase, ["but"] | ["bar"] | ["without"]);
        (excepted.clear || !loose).then_some(excepted)
    }

    /// "All but 2 tbsp of the oil", "all but a little of the butter": the most of one.
    pub(super) fn all_but(&self, w: &Words, at: usize, to: usize) -> Option<Mention> {
        if !w.is(at, "all") || !(w.is(at + 1, "but") || w.is(at + 1, "except")) {
            return None;
        }
        let (place, end) = (at + 2..to.min(at + 8)).find_map(|place| self.named_at(w, place, to).map(|(_, end)| (place, end)))?;
        let one = self.one(w, at + 2, place, to)?;
        let few = (at + 2..place).any(|at| ["little", "handful", "pinch", "few", "splash", "sprinkling"].iter().any(|word| w.is(at, word)));
        let part = match one.part {
            Some(Part::Amount(number, unit)) => Part::AllBut(number, unit),
            Some(Part::Share(share)) if share == Number::HALF => Part::Share(share),
            _ if few => Part::Share(Number::over(3, 4)),
            _ => return None,
        };
        Some(Mention { start: at, end: one.end.max(end), foods: one.foods, part: Some(part), group: false })
    }
}
