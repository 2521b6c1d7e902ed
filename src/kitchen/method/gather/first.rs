//! One clause as it stands in its method; and the first reading of all of them, for what only later words say: which appliances are heated
//! and never used, and what the first heat is done to.

use super::super::Paragraph;
use super::super::act::{Act, So, Takes, act};
use super::super::clauses::{Clause, Names, clauses};
use super::super::dish::Dishes;
use super::super::headings::headings;
use super::super::larder::Mention;
use super::super::verbs::Way;
use super::super::whereabouts::{About, Whereabouts};
use super::Gather;
use super::objects::{Seen, served_beside};
use crate::kitchen::words::Words;

/// What a first reading says of the second.
pub(super) struct First {
    /// The clauses that heat what nothing after them uses.
    pub never_used: Vec<usize>,
    pub seen: Vec<Seen>,
    /// What is named by its own name, and not as one of several.
    pub by_name: Vec<usize>,
    /// Of it what nothing but serving names.
    pub at_table: Vec<usize>,
}

impl Gather<'_, '_> {
    /// Reads every clause once, whatever "cook" may mean.
    pub(super) fn first_reading(&self, paragraphs: &[Paragraph]) -> First {
        let mut whereabouts = Whereabouts::new(self.setting.ingredients.len(), Vec::new());
        let mut so = self.so;
        let mut seen = Vec::new();
        let (mut by_name, mut at_table): (Vec<usize>, Vec<usize>) = (Vec::new(), Vec::new());
        let headings = headings(paragraphs);
        for (number, paragraph) in paragraphs.iter().enumerate().filter(|(number, _)| !headings[*number]) {
            let w = Words::of(&paragraph.text);
            for clause in self.clauses(&w) {
                if clause.meanwhile {
                    whereabouts.turn_to_another();
                }
                let read = self.act(&w, &clause, number, so, (&mut whereabouts, &mut Dishes::default()));
                so.place = read.place.unwrap_or(so.place);
                so.slow |= read.slow;
                let named = self.larder.mentions(&w, clause.verb_end, clause.end).into_iter();
                let beside = if read.takes == Takes::Serve { served_beside(&w, &clause) } else { usize::MAX };
                let one = named.filter(|mention| mention.foods.len() == 1);
                let (with, own): (Vec<Mention>, Vec<Mention>) = one.partition(|mention| mention.start >= beside);
                by_name.extend(own.into_iter().flat_map(|mention| mention.foods));
                at_table.extend(with.into_iter().flat_map(|mention| mention.foods).filter(|food| !self.must_be_cooked(*food)));
                seen.push(self.seen_of(&w, &clause, read.takes, read.need.is_some()));
            }
        }
        at_table.retain(|food| !by_name.contains(food));
        by_name.extend(at_table.iter().copied());
        First { never_used: whereabouts.never_used(), seen, by_name, at_table }
    }

    pub(super) fn clauses(&self, w: &Words) -> Vec<Clause> {
        clauses(w, &Names { begins: &|at| self.larder.begins(w, at), whole: &|at| self.larder.is_named_whole(w, at) })
    }

    /// Reads one clause, and notes where it leaves its foods.
    pub(super) fn act(&self, w: &Words, clause: &Clause, paragraph: usize, so: So, noted: (&mut Whereabouts, &mut Dishes)) -> Act {
        if clause.supposed || clause.is_forbidden(w) {
            return act(w, clause, so, &self.own).supposed();
        }
        if clause.optional {
            let read = act(w, clause, so, &self.own);
            if read.is_work() {
                return Act { left_out: true, ..read.supposed() };
            }
        }
        let (whereabouts, dishes) = noted;
        let beside = clause.opens_beside(w);
        let from = if beside || clause.verb_at == clause.start { clause.verb_at } else { clause.start };
        let mut mentions = self.larder.mentions(w, from, clause.verb_at);
        mentions.extend(self.larder.mentions(w, clause.verb_end, clause.end));
        let foods: Vec<(usize, usize)> =
            mentions.iter().flat_map(|mention| mention.foods.iter().map(|food| (*food, mention.start))).collect();
        let boiled = |food: usize| {
            matches!(self.larder.kind(food), Some(crate::foods::Kind::Grain | crate::foods::Kind::Pulse | crate::foods::Kind::RawEgg))
        };
        let boils = foods.iter().all(|(food, _)| boiled(*food)) && !foods.is_empty();
        let fats = foods.iter().all(|(food, _)| self.is_fat(*food)) && !foods.is_empty();
        let about = About { w, clause, foods: &foods, boils, fats, other: foods.is_empty() && self.is_of_something_else(w, clause) };
        let so = whereabouts.before(&about, paragraph, so);
        let mut read = act(w, clause, so, &self.own);
        read.conditional = clause.conditional && read.time.is_some();
        if let (true, Takes::Wait { written, .. }) = (read.conditional, &mut read.takes) {
            *written = false;
        }
        self.stays_under_pressure(&about, dishes, &mut read);
        whereabouts.after(&about, &mut read, so.place);
        dishes.take(&about, &read);
        read.of_another = about.other;
        read
    }

    /// Oil, butter, dripping: heated for what is fried in it.
    pub(super) fn is_fat(&self, food: usize) -> bool {
        matches!(self.larder.kind(food), Some(crate::foods::Kind::Fat | crate::foods::Kind::Oil)) || self.larder.name(food) == "butter"
    }

    /// "Warm the plates", "toast the bread", "make the gravy": what is heated or made is none of the list.
    fn is_of_something_else(&self, w: &Words, clause: &Clause) -> bool {
        const BEFORE: [&str; 10] = ["the", "a", "an", "some", "your", "plenty", "of", "up", "serving", "dinner"];
        const BESIDE: [&str; 8] = ["plate", "platter", "gravy", "sauce", "dressing", "salsa", "topping", "dumpling"];
        let Some(verb) = clause.verb else { return false };
        let makes = verb.word == "make";
        let heats = matches!(verb.way, Way::Wait(..) | Way::HandsOn(_) | Way::Heat) || verb.word == "warm";
        let passed = |at: &usize| BEFORE.iter().any(|word| w.is(*at, word)) || w.at(*at).is_some_and(|token| token.text.ends_with("ly"));
        let passed = |at: &usize| passed(at) || w.number(*at).is_ok_and(|number| number.is_some());
        let at = clause.verb_end + (clause.verb_end..clause.end).take_while(passed).count();
        if at >= clause.end || !(heats || makes) {
            return false;
        }
        let beside = BESIDE.iter().any(|word| w.key_at(at) == *word);
        let food = || w.food(at, self.setting.foods).and_then(|(food, _)| self.setting.foods[food].kind);
        use crate::foods::Kind as Food;
        // "Heat some oil, fry for 5 minutes" goes on with what was cut before.
        let apart =
            |kind: Food| matches!(kind, Food::Bread | Food::Grain | Food::Pulse | Food::Vegetable | Food::Fruit | Food::Nut | Food::Seed);
        makes && beside
            || heats && (w.key_at(at) == "plate" || w.key_at(at) == "platter" || w.key_at(at) == "gravy" || food().is_some_and(apart))
    }
}
