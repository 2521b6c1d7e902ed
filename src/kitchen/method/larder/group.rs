//! Several ingredients named at once: "all ingredients", "the vegetables", "the dressing ingredients", "the first three ingredients".

use super::{Larder, Mention, Named};
use crate::foods::Kind;
use crate::kitchen::words::Words;
use crate::measure::Kind as Sign;

impl Named {
    /// "Butter, for frying", "parsley, to serve": no part of what is mixed.
    fn is_kept_back(&self) -> bool {
        const FOR: [&str; 8] = ["frying", "greasing", "brushing", "dusting", "serving", "sprinkling", "drizzling", "garnish"];
        let words: Vec<&str> = self.typed.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
        words.windows(2).any(|pair| pair[0] == "for" && FOR.contains(&pair[1]) || pair == ["to", "serve"] || pair == ["to", "garnish"])
            || words.windows(3).any(|three| three[..2] == ["for", "the"] && ["tin", "pan", "tray", "dish", "table"].contains(&three[2]))
    }
}

impl Larder<'_> {
    /// "All ingredients", "everything", "the vegetables", "the dressing ingredients": those that are left.
    pub(super) fn group(&self, w: &Words, from: usize, at: usize, to: usize) -> Option<Mention> {
        if let Some(rest) = self.rest_of_the_list(w, from, at, to) {
            return Some(rest);
        }
        let mut start = at;
        let mut end = at;
        let alone = at == from && w.is(at, "all") && ["in", "into", "together"].iter().any(|word| w.is(at + 1, word));
        while end < to && !alone && ["all", "the", "of", "remaining", "rest", "other", "your"].iter().any(|word| w.is(end, word)) {
            end += 1;
        }
        // "All but the parsley", "all except the feta".
        let of_all = end > start && w.is(start, "all") && self.excepted(w, end, to, true).is_some();
        if end >= to || start < from {
            return None;
        }
        if let Some(counted) = self.counted(w, start, end) {
            return Some(counted);
        }
        if let Some(several) = self.several(w, start, end, to) {
            return Some(several);
        }
        let last = w.key_at(end);
        let fits: Box<dyn Fn(&Named) -> bool> = match last {
            _ if of_all => Box::new(|_| true),
            "everything" if at <= from + 1 => Box::new(|_| true),
            // "Put all in a big pan."
            _ if alone => Box::new(|_| true),
            "vegetable" | "veg" => Box::new(|named| named.kind == Some(Kind::Vegetable) && named.head != "garlic"),
            "herb" => Box::new(|named| named.kind == Some(Kind::Herb)),
            "spice" => Box::new(|named| named.kind == Some(Kind::Spice)),
            "fruit" => Box::new(|named| named.kind == Some(Kind::Fruit)),
            "ingredient" => Box::new(|_| true),
            "dry" if w.key_at(end + 1) == "ingredient" => {
                end += 1;
                Box::new(|named| {
                    // Raising agents by any name.
                    let raises = named.kind.is_none() && ["soda", "powder"].contains(&named.head.as_str());
                    (raises || matches!(named.kind, Some(Kind::Baking | Kind::Grain | Kind::Spice | Kind::Sweetener)))
                        && named.head != "honey"
                        && named.head != "syrup"
                })
            }
            "wet" if w.key_at(end + 1) == "ingredient" => {
                end += 1;
                Box::new(|named| matches!(named.kind, Some(Kind::Dairy | Kind::RawEgg | Kind::Oil | Kind::Water | Kind::Drink)))
            }
            other if w.key_at(end + 1) == "ingredient" => {
                let other = other.to_owned();
                end += 1;
                let under = move |named: &Named| named.heading.as_ref().is_some_and(|heading| heading.split(' ').any(|word| word == other));
                if !self.named.iter().any(&under) {
                    return None;
                }
                Box::new(under)
            }
            _ => return None,
        };
        // "Everything" is not what nothing but serving names.
        let meant_now = |index: &usize| !self.named[*index].is_kept_back() && !self.at_table[*index];
        let all: Vec<usize> = (0..self.named.len()).filter(|index| fits(&self.named[*index]) && meant_now(index)).collect();
        // "The dry ingredients", "the spices" said again: what is used; what another clause names stays for that.
        let of_a_kind = matches!(last, "herb" | "spice" | "dry" | "wet");
        let rest = (start..end).any(|at| ["all", "remaining", "rest", "other"].iter().any(|word| w.is(at, word)));
        let again = of_a_kind && !rest && all.iter().any(|index| !self.left[*index].is_positive());
        let meant = |index: &usize| !again || !self.by_name[*index] && self.named[*index].head != "salt";
        let fitting: Vec<usize> = all.iter().copied().filter(|index| self.left[*index].is_positive() && meant(index)).collect();
        let spent = again || !all.is_empty() && w.key_at(end) == "ingredient" || matches!(last, "dry" | "wet");
        if fitting.is_empty() && !spent {
            return None;
        }
        if start > from && w.is(start - 1, "all") {
            start -= 1;
        }
        let end = if of_all { end } else { end + 1 };
        let end = if w.is(end, "else") { end + 1 } else { end };
        Some(match self.excepted(w, end, to, true) {
            Some(excepted) => {
                let foods =
                    if excepted.clear { fitting.into_iter().filter(|food| !excepted.foods.contains(food)).collect() } else { Vec::new() };
                Mention { start, end: excepted.end, foods, part: None, group: true }
            }
            None => Mention { start, end, foods: fitting, part: None, group: true },
        })
    }

    /// "Both the flours", "the peppers" of a red and a yellow one: all that are called so, where no single one goes by the word.
    fn several(&self, w: &Words, start: usize, at: usize, to: usize) -> Option<Mention> {
        /// Of these nobody has two of one line.
        const STUFFS: [&str; 5] = ["flour", "sugar", "oil", "cheese", "vinegar"];
        let key = w.key_at(at);
        let typed = w.at(at).map(|token| token.text.to_lowercase())?;
        let plural = !key.is_empty() && typed != key && typed.ends_with('s');
        // "The peppers" are never the pepper.
        let own = |index: &usize| self.named[*index].head == key && self.named[*index].kind != Some(Kind::Spice);
        let own: Vec<usize> = (0..self.named.len()).filter(own).collect();
        let alone = || STUFFS.contains(&key) || self.named_at(w, at, to).is_none();
        if !plural || own.len() < 2 || !alone() {
            return None;
        }
        let foods: Vec<usize> = own.into_iter().filter(|index| self.left[*index].is_positive()).collect();
        (!foods.is_empty()).then_some(Mention { start, end: at + 1, foods, part: None, group: true })
    }

    /// "Blend with the rest", "add everything else": what no step has taken yet, and no clause names by its own name.
    fn rest_of_the_list(&self, w: &Words, from: usize, at: usize, to: usize) -> Option<Mention> {
        const PHRASES: [&[&str]; 6] =
            [&["the", "rest"], &["rest"], &["everything", "else"], &["all", "else"], &["all", "the", "rest"], &["the", "others"]];
        let said = |phrase: &&&[&str]| phrase.iter().enumerate().all(|(index, word)| w.is(at + index, word));
        let end = at + PHRASES.iter().find(said)?.len();
        let stops = end >= to || matches!(w.kind(end), Some(Sign::Comma | Sign::Semicolon | Sign::Stop | Sign::And)) || w.is(end, "and");
        // "Leave to rest", "and rest" are the verb; "cook the rest" goes on with what is made.
        let joins = at > 0 && ["with", "in", "add", "into", "the"].iter().any(|word| w.is(at - 1, word));
        let else_ = w.is(end - 1, "else");
        if at < from || !stops || !(joins || else_) || !self.divided.is_empty() && !else_ {
            return None;
        }
        let meant = |index: &usize| {
            self.left[*index].is_positive() && !self.by_name[*index] && !self.named[*index].is_kept_back() && !self.at_table[*index]
        };
        let foods: Vec<usize> = (0..self.named.len()).filter(meant).collect();
        (!foods.is_empty()).then_some(Mention { start: at, end, foods, part: None, group: true })
    }

    /// "First three ingredients", "next 4 ingredients": by their order in the list.
    fn counted(&self, w: &Words, start: usize, at: usize) -> Option<Mention> {
        let next = w.is(at, "next");
        let read = w.number(at + 1).ok()?.filter(|read| (next || w.is(at, "first")) && w.key_at(read.end) == "ingredient")?;
        let count = read.number.high.to_f64() as usize;
        let open = |index: &usize| !next || self.left[*index].is_positive();
        let foods: Vec<usize> = (0..self.named.len()).filter(open).take(count).filter(|index| self.left[*index].is_positive()).collect();
        (!foods.is_empty()).then_some(Mention { start, end: read.end + 1, foods, part: None, group: true })
    }
}
