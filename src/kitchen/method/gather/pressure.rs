//! The pressure cooker stays closed after it has cooked under pressure, until something says that it is opened or released: a wait
//! until then is the cooker's, and nothing else is put into it.

use super::super::act::{Act, On, Takes};
use super::super::clauses::Clause;
use super::super::dish::Dishes;
use super::super::places::Kind;
use super::super::whereabouts::{About, JOINS};
use super::{Branch, Gather};
use crate::kitchen::words::Words;

const PRESSURE: On = On::Kind(Kind::Pressure);

/// Verbs of what stands as it is. What is soaked, chilled or left to rise is something else.
const STAYS: [&str; 14] =
    ["leave", "let", "allow", "wait", "stand", "rest", "sit", "cool", "keep", "set aside", "remove", "take", "turn", "switch"];

const OPENED: [&str; 11] =
    ["open", "opening", "opened", "unlock", "release", "released", "releasing", "vent", "quick", "uncover", "uncovered"];

fn says(w: &Words, clause: &Clause, words: &[&str]) -> bool {
    (clause.start..clause.end).any(|at| words.iter().any(|word| w.is(at, word)))
}

/// "Open the lid", "quick release", "once the pressure is down", "take the beans out of the cooker".
fn opens(w: &Words, clause: &Clause) -> bool {
    let lid = says(w, clause, &["lid"]) && says(w, clause, &["remove", "lift", "off", "unlock", "without"]) && !says(w, clause, &["on"]);
    let down = says(w, clause, &["pressure"]) && says(w, clause, &["dropped", "gone", "down", "fallen", "once", "reduce", "out"]);
    let cooker = says(w, clause, &["cooker"]) && says(w, clause, &["from", "of"]);
    lid || down || cooker || says(w, clause, &OPENED)
}

impl Gather<'_, '_> {
    /// A wait on nothing that follows pressure waits in the cooker.
    pub(super) fn stays_under_pressure(&self, one: &About, dishes: &Dishes, read: &mut Act) {
        let (w, clause) = (one.w, one.clause);
        if !self.closed || self.branch != Branch::None || clause.meanwhile {
            return;
        }
        let inside = |food: &usize| dishes.inside(Some(PRESSURE)).any(|other| other == *food);
        // After "fry the onion" what rests is the onion.
        let at_hand = !one.foods.is_empty() || !self.works_elsewhere;
        let of_it = at_hand && one.foods.iter().all(|(food, _)| inside(food)) || says(w, clause, &["pressure"]);
        let moved = says(w, clause, &["fridge", "freezer", "refrigerator", "rack", "plate", "bowl", "board", "room", "opened"]);
        let stays = clause.verb.is_none_or(|verb| STAYS.contains(&verb.word));
        let cooker = says(w, clause, &["cooker"]) && says(w, clause, &["from", "of"]);
        // "Quick release, then leave to stand."
        let opened = (clause.start..clause.verb_at).any(|at| OPENED.iter().any(|word| w.is(at, word)));
        if !of_it || moved || !stays || cooker || opened {
            return;
        }
        match read.takes {
            Takes::Wait { minutes, written } if read.need.is_none() => {
                read.takes = Takes::Release { minutes, written };
                (read.held, read.off, read.place) = (true, false, None);
            }
            // "Take off the heat": it is no less closed for it.
            Takes::Hands(None) if read.off && !opens(w, clause) && says(w, clause, &["heat", "hob", "stove", "ring", "flame"]) => {
                (read.takes, read.off, read.place, read.need) = (Takes::Words, false, None, None);
            }
            _ => {}
        }
    }

    /// Notes what a clause says of the lid.
    pub(super) fn opens_or_closes(&mut self, w: &Words, clause: &Clause, read: &Act) {
        let worked = read.need.is_some() || matches!(read.takes, Takes::Hands(Some(_)));
        self.works_elsewhere = if read.need == Some(PRESSURE) || read.held { false } else { self.works_elsewhere || worked };
        if read.need == Some(PRESSURE) && matches!(read.takes, Takes::Wait { .. }) {
            self.closed = !opens(w, clause);
            return;
        }
        if !self.closed {
            return;
        }
        let released = matches!(read.takes, Takes::Release { .. }) && !read.held;
        if released || opens(w, clause) {
            self.closed = false;
            return;
        }
        // What is in it is handled, so somebody has opened it.
        let beside = clause.meanwhile || self.branch != Branch::None;
        let works = matches!(read.takes, Takes::Hands(_) | Takes::Boil) || matches!(read.takes, Takes::Wait { .. }) && read.need.is_some();
        let names_other = !self.larder.mentions(w, clause.verb_end, clause.end).is_empty();
        let joins = clause.verb.is_some_and(|verb| JOINS.contains(&verb.word));
        self.closed &= beside || !works || names_other && !joins;
    }
}
