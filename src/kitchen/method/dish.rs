//! Which foods are together by now: what is at hand, and what was set aside or begun beside it.
//!
//! Knows what a clause names and its verb; knows neither appliances nor times.

use super::act::{Act, On};
use super::places::Kind;
use super::verbs::{Rate, Verb, Way};
use super::whereabouts::{About, JOINS};

/// What is filled and cooks whole: all that was put into it is together there.
const VESSELS: [Kind; 3] = [Kind::Slow, Kind::Pressure, Kind::Rice];

#[derive(Default)]
pub(super) struct Dishes {
    at_hand: Vec<usize>,
    others: Vec<Vec<usize>>,
    /// What was at hand when "meanwhile" began something else.
    main: Option<Vec<usize>>,
    /// What was put into a cooker.
    vessels: Vec<(Kind, usize)>,
}

impl Dishes {
    /// The foods that are together in what is done now.
    pub fn at_hand(&self) -> &[usize] {
        &self.at_hand
    }

    /// The foods that were put into the cooker in which something is done.
    pub fn inside(&self, on: Option<On>) -> impl Iterator<Item = usize> + '_ {
        self.vessels.iter().filter(move |(kind, _)| on == Some(On::Kind(*kind))).map(|(_, food)| *food)
    }

    /// "Meanwhile": something else begins.
    pub fn turn_to_another(&mut self) {
        let before = std::mem::take(&mut self.at_hand);
        match &mut self.main {
            None => self.main = Some(before),
            Some(_) => self.others.push(before),
        }
    }

    /// Was it at hand when "meanwhile" began something else?
    pub fn is_main(&self, food: usize) -> bool {
        self.main.as_ref().is_some_and(|main| main.contains(&food))
    }

    /// A paragraph ends, and with it what was done meanwhile.
    pub fn turn_back(&mut self) {
        if let Some(main) = self.main.take() {
            let beside = std::mem::replace(&mut self.at_hand, main);
            self.others.push(beside);
        }
    }

    /// What a clause brings together or begins, and the cooker it is put into.
    pub fn take(&mut self, one: &About, read: &Act) {
        if one.other {
            // Plates, the gravy: beside what is at hand.
            let before = std::mem::take(&mut self.at_hand);
            return self.others.push(before);
        }
        self.bring_together(one);
        let vessel = |on: On| VESSELS.into_iter().find(|kind| on == On::Kind(*kind));
        let puts = one.clause.verb.is_some_and(|verb| verb.way == Way::Put);
        // "Pressure cook the chickpeas" puts them into it, too.
        let cooks = read.need.is_some() && read.need == read.place.flatten();
        if let Some(kind) = read.place.flatten().and_then(vessel).filter(|_| (puts || cooks) && !read.off) {
            self.vessels.extend(self.at_hand.iter().map(|food| (kind, *food)));
        }
        // "Take it out of the cooker."
        if read.off && (one.clause.start..one.clause.end).any(|at| one.w.is(at, "cooker")) {
            self.vessels.clear();
        }
    }

    fn bring_together(&mut self, one: &About) {
        let (w, clause) = (one.w, one.clause);
        let says = |words: &[&str]| (clause.verb_at..clause.end).any(|at| words.iter().any(|word| w.is(at, word)));
        let verb = clause.verb.map_or("", |verb| verb.word);
        let foods: Vec<usize> = one.foods.iter().map(|(food, _)| *food).collect();
        if foods.is_empty() {
            if says(&["aside", "plate", "board"]) && ["set aside", "remove", "lift", "transfer", "take", "move", "put"].contains(&verb) {
                let aside = std::mem::take(&mut self.at_hand);
                self.others.push(aside);
            } else if JOINS.contains(&verb) && says(&["everything", "all"]) {
                let all = std::mem::take(&mut self.others).into_iter().flatten();
                self.at_hand.extend(all.chain(self.main.take().unwrap_or_default()));
            }
            return;
        }
        let has = |dish: &[usize]| foods.iter().any(|food| dish.contains(food));
        let in_hand = has(&self.at_hand);
        if self.main.as_deref().is_some_and(has) {
            self.others.extend(self.main.take());
        }
        let (found, others): (Vec<_>, Vec<_>) = std::mem::take(&mut self.others).into_iter().partition(|dish| has(dish));
        self.others = others;
        let known = !found.is_empty();
        let together = found.into_iter().flatten().chain(foods.iter().copied()).collect::<Vec<usize>>();
        // "Fry in the oil", "toss with the honey", "mix in the flour": beside what is at hand.
        let beside = |at: usize| {
            const BESIDE: [&str; 5] = ["in", "into", "with", "through", "over"];
            (at.saturating_sub(3).max(clause.verb_end)..at).any(|at| BESIDE.iter().any(|word| w.is(at, word)))
        };
        let brought = clause.brings_from(w);
        // "Heat the oil" makes ready for what is at hand.
        let brings = JOINS.contains(&verb)
            || one.fats && ["heat", "warm", "melt"].contains(&verb)
            || one.foods.iter().all(|(_, at)| *at >= brought)
            || w.is(clause.verb_end, "in")
            || one.foods.iter().all(|(_, at)| beside(*at));
        if brings || in_hand || self.at_hand.is_empty() {
            self.at_hand.extend(together);
        } else if clause.verb.is_some_and(is_of_the_board) && !known {
            self.others.push(together);
        } else {
            let before = std::mem::replace(&mut self.at_hand, together);
            self.others.push(before);
        }
    }
}

/// Cuts and peels: makes ready for later.
fn is_of_the_board(verb: &Verb) -> bool {
    matches!(verb.rate, Rate::Cut(_) | Rate::Peel | Rate::Piece(_) | Rate::Pick)
}
