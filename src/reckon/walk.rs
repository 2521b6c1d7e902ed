//! The weeks one after another: whoever reckons many of them plans each once a shelf, not once for every week after it.
//!
//! Week after week takes off the shelf what it uses, and two weeks that are reckoned have most of the way to them in common. A place on the
//! way is known by the place before it, the week that was passed, and which of its spare lots are still there. It holds for one household,
//! one book and one day.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use jiff::civil::Date;

use super::another::{Another, Step};
use crate::kitchen::Lot;

/// Where one stands on the way, by number.
type Stand = usize;

/// Which place was left, past which week, with which of its spare lots.
type Passed = (Stand, usize, Vec<usize>);

/// What one week takes; `None` where nothing of it is to come.
type Taken = Rc<Option<Step>>;

type Shelf = Rc<Vec<Lot>>;

/// What was reckoned on the way.
#[derive(Debug, Default)]
pub struct Walk {
    weeks: RefCell<HashMap<usize, Rc<Another>>>,
    steps: RefCell<HashMap<(Stand, usize), Taken>>,
    stands: RefCell<HashMap<Passed, (Stand, Shelf)>>,
    spans: RefCell<HashMap<usize, (Date, Date)>>,
}

impl Walk {
    /// The household's own shelf.
    pub(super) const START: Stand = 0;

    /// A week beside the one that is reckoned, by its place among all.
    pub(super) fn week(&self, place: usize, read: impl FnOnce() -> Another) -> Rc<Another> {
        if let Some(known) = self.weeks.borrow().get(&place) {
            return known.clone();
        }
        let read = Rc::new(read());
        self.weeks.borrow_mut().insert(place, read.clone());
        read
    }

    /// The first and the last day of a week, by its place among all.
    pub(super) fn span(&self, place: usize, read: impl FnOnce() -> (Date, Date)) -> (Date, Date) {
        *self.spans.borrow_mut().entry(place).or_insert_with(read)
    }

    /// What a week takes off the shelf from there; from `None`, nobody else comes by.
    pub(super) fn step(&self, at: Option<Stand>, week: usize, taken: impl FnOnce() -> Option<Step>) -> Taken {
        let Some(at) = at else { return Rc::new(taken()) };
        if let Some(known) = self.steps.borrow().get(&(at, week)) {
            return known.clone();
        }
        let step = Rc::new(taken());
        self.steps.borrow_mut().insert((at, week), step.clone());
        step
    }

    /// Past a week, of whose spare lots these are kept: where one stands then, and the shelf there.
    pub(super) fn go(
        &self,
        at: Option<Stand>,
        week: usize,
        kept: Vec<usize>,
        shelf: impl FnOnce(&[usize]) -> Vec<Lot>,
    ) -> (Option<Stand>, Shelf) {
        let Some(at) = at else { return (None, Rc::new(shelf(&kept))) };
        let mut stands = self.stands.borrow_mut();
        let next = stands.len() + 1;
        let lots = |kept: &[usize]| Rc::new(shelf(kept));
        let (stand, lots) = match stands.get(&(at, week, kept.clone())) {
            Some(known) => known.clone(),
            None => stands.entry((at, week, kept.clone())).or_insert((next, lots(&kept))).clone(),
        };
        (Some(stand), lots)
    }
}
