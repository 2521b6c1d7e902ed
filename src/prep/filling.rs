//! What goes into which box after a dish is made: a place and a date each, whatever it is for.

use itertools::Itertools;
use jiff::civil::Date;

use super::{BoxNote, Boxes, Doing, SessionPlan, Task};
use crate::foods::Place;
use crate::measure::Quantity;

/// All of a dish that goes to one place and is good until one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Filling<'a> {
    pub place: Place,
    pub use_by: Date,
    /// One a use; never empty.
    pub notes: Vec<&'a BoxNote>,
}

impl SessionPlan {
    /// What a boxing fills, or a portion that is chilled by itself; what needs no chill first.
    pub fn fillings(&self, task: &Task) -> Vec<Filling<'_>> {
        let alone = |note: &BoxNote| self.tasks.iter().any(|other| matches!(&other.what, Doing::Aside(aside) if aside.fills(note)));
        let fills = |note: &&BoxNote| match &task.what {
            Doing::Box(boxing) => boxing.recipe == note.recipe && !alone(note),
            Doing::Aside(aside) => aside.fills(note),
            Doing::Set | Doing::Step(_) | Doing::WashUp => false,
        };
        let mine = || self.boxes.iter().filter(fills);
        let kept = mine().map(|note| (note.place, note.use_by)).unique();
        let filling = |(place, use_by)| Filling {
            place,
            use_by,
            notes: mine().filter(|note| (note.place, note.use_by) == (place, use_by)).collect(),
        };
        kept.map(filling).sorted_by_key(|filling| filling.place != Place::Cupboard).collect()
    }
}

impl Filling<'_> {
    /// "2½ portions and 1 portion" are 3½; `None` where they do not add up.
    pub fn amount(&self) -> Option<Quantity> {
        let mut amounts = self.notes.iter().map(|note| note.amount.clone());
        let first = amounts.next()?;
        amounts.try_fold(first, |sum, more| sum.plus(&more))
    }

    /// "2 deep tubs" and "1 deep tub" are "3 deep tubs": the boxes of a dish are of one kind.
    pub fn boxes(&self) -> Option<Boxes> {
        let mut boxes = self.notes.iter().filter_map(|note| note.boxes.as_ref());
        let first = boxes.next()?.clone();
        let count = first.count + boxes.map(|more| more.count).sum::<usize>();
        Some(Boxes { count, ..first })
    }

    /// The meals that it is for, each once.
    pub fn what_for(&self) -> Vec<&str> {
        self.notes.iter().flat_map(|note| &note.what_for).map(String::as_str).unique().collect()
    }

    /// What of it is for nothing yet.
    pub fn spare(&self) -> impl Iterator<Item = &Quantity> {
        self.notes.iter().filter(|note| note.what_for.is_empty()).map(|note| &note.amount)
    }

    /// What of it is one eater's, in a box of their own.
    pub fn own(&self) -> impl Iterator<Item = (&str, &Quantity)> {
        self.notes.iter().filter_map(|note| note.eater.as_deref().map(|eater| (eater, &note.amount)))
    }
}

/// "Box." where nothing of it is cold, "Box and chill." where all of it is; of what is parted the first words, and those before what is cold.
pub fn boxing_words(places: &[Place]) -> (&'static str, Option<&'static str>) {
    let warm = places.iter().filter(|place| **place == Place::Cupboard).count();
    match warm {
        0 => ("Box and chill", None),
        _ if warm == places.len() => ("Box", None),
        _ => ("Box", Some("chill the rest")),
    }
}
