//! What of a making is kept, in which place, until when and for whom.

use jiff::civil::Date;

use super::making::{Apart, Boxed, Kept, Spare, Use};
use crate::foods::Place;
use crate::kitchen::Recipe;
use crate::measure::{Number, Quantity, is_nothing_of};
use crate::shelf::after_days;

/// How what is not eaten at once is kept.
pub(super) fn boxed(recipe: &Recipe) -> Kept {
    if recipe.reach().1 == Place::Cupboard { Kept::Cupboard } else { Kept::Fridge }
}

/// In order of place, what is everybody's first, the spare last.
pub(super) fn boxes(recipe: &Recipe, on: Date, uses: &[Use], spare: Option<&Spare>) -> Vec<Boxed> {
    let (days, place) = recipe.reach();
    let freezer = after_days(on, recipe.freezer.unwrap_or_default());
    let dimension = recipe.makes.dimension();
    let mut boxes = Vec::new();
    for (kept, place, use_by) in [(boxed(recipe), place, after_days(on, days)), (Kept::Freezer, Place::Freezer, freezer)] {
        let mut kept_here: Vec<Boxed> = Vec::new();
        for use_ in uses.iter().filter(|use_| use_.kept == kept) {
            for (whose, amount) in by_eater(use_) {
                let (eater, without) = whose.map_or((None, Vec::new()), |own| (Some(own.who.clone()), own.without.clone()));
                let same = |boxed: &&mut Boxed| boxed.eater == eater && boxed.without == without;
                if let Some(boxed) = kept_here.iter_mut().find(same) {
                    boxed.add(&use_.label, amount);
                    continue;
                }
                let none = Quantity::of(&dimension, Number::ZERO);
                let mut boxed = Boxed { amount: none, place, use_by, what_for: Vec::new(), parts: Vec::new(), eater, without };
                boxed.add(&use_.label, amount);
                kept_here.push(boxed);
            }
        }
        // What is everybody's stands first.
        kept_here.sort_by_key(|boxed| boxed.eater.is_some());
        boxes.extend(kept_here);
    }
    // What is good only today and of which nothing else is kept is for today's plates: it goes into no box.
    if let Some(spare) = spare.filter(|spare| spare.frozen || spare.eat_by > on || !boxes.is_empty()) {
        let place = if spare.frozen { Place::Freezer } else { place };
        boxes.push(Boxed {
            amount: spare.amount.clone(),
            place,
            use_by: spare.eat_by,
            what_for: Vec::new(),
            parts: Vec::new(),
            eater: None,
            without: Vec::new(),
        });
    }
    boxes
}

/// What of a use is everybody's, and what is whose.
fn by_eater(use_: &Use) -> Vec<(Option<&Apart>, Number)> {
    let own: Number = use_.own.iter().map(|own| &own.amount).sum();
    let rest = use_.amount.exact() - &own;
    let shared = (rest > 0 && !is_nothing_of(&rest, use_.amount.exact())).then_some((None, rest));
    shared.into_iter().chain(use_.own.iter().map(|own| (Some(own), own.amount.clone()))).collect()
}

impl Boxed {
    /// Is it this eater's part?
    pub fn is_of(&self, apart: &Apart) -> bool {
        self.eater.as_ref() == Some(&apart.who) && self.without == apart.without
    }

    fn add(&mut self, label: &str, amount: Number) {
        self.amount = Quantity::of(&self.amount.dimension(), self.amount.exact() + &amount);
        match self.what_for.iter().position(|known| known == label) {
            Some(known) => self.parts[known] += &amount,
            None => {
                self.what_for.push(label.to_owned());
                self.parts.push(amount);
            }
        }
    }
}
