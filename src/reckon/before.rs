//! What comes before a week that is reckoned: its own past, and what the other weeks have yet to take off the shelf.

use std::borrow::Cow;
use std::rc::Rc;

use jiff::civil::Date;

use super::another::Another;
use super::carry::{Carried, carry};
use super::lived::{AsPrinted, Lived};
use super::past;
use super::stages::Begun;
use super::walk::Walk;
use crate::book::Booked;
use crate::kitchen::{Kitchen, Loaded, Lot, Warning, Week};
use crate::plan;
use crate::purchase::Reserved;

/// What every week of a household is reckoned from.
pub(super) struct Household<'k, 'b> {
    pub walk: &'b Walk,
    pub loaded: &'k Loaded,
    pub booked: &'b Booked,
    /// The weeks' last prints, by their places.
    pub prints: &'b [Option<AsPrinted<'b>>],
    pub today: Date,
}

/// A week as it stands today, and the kitchen as everything before it leaves it.
pub(super) struct Before<'k, 'w, 'b> {
    pub lived: Lived<'w, 'b>,
    /// The places of the weeks that overlap it: what they are taken to have bought and eaten is on its shelf, too.
    pub overlapping: Vec<usize>,
    pub kitchen: Cow<'k, Kitchen>,
    /// What other weeks take off the shelf first.
    pub reserved: Vec<Reserved>,
    pub warnings: Vec<Warning>,
    /// Once something of the week is past or booked.
    pub begun: Option<Begun>,
}

impl<'k, 'b> Household<'k, 'b> {
    /// What comes before `week`, which stands in the place of the one in the file.
    pub fn before<'w>(&self, place: usize, week: &'w Week) -> Before<'k, 'w, 'b>
    where
        'k: 'w,
    {
        let kitchen = &self.loaded.kitchen;
        let lived = Lived::of(kitchen, week, self.booked, self.print(place), self.today);
        let (others, span) = (self.others(place, plan::span(week)), plan::span(&lived.week));
        let overlapping: Vec<usize> = others.iter().filter(|other| other.overlaps(span)).map(|other| other.place).collect();
        let beside = overlapping.iter().map(|other| self.lived(*other));
        let mut together: Vec<Lived<'w, 'b>> = std::iter::once(lived).chain(beside).collect();
        let (shelf, week_prices) = past::live_through(kitchen, &mut together);
        let lived = together.swap_remove(0);
        let Carried { kitchen: mut left, reserved, warnings } = carry(self.walk, shelf, &others, &lived, self.today);
        if left.week_prices != week_prices {
            left.to_mut().week_prices = week_prices;
        }
        let begun = lived.standing.has_begun().then(|| Begun { today: self.today, done: lived.demand_of_what_is_done(kitchen) });
        Before { lived, overlapping, kitchen: left, reserved, warnings, begun }
    }

    /// The shelf as all that is taken as done left it, of a week and of those that overlap it.
    pub fn shelf_as_taken(&self, place: usize) -> Vec<Lot> {
        let span = self.span(place);
        let others = self.others(place, span).into_iter().filter(|other| other.overlaps(span)).map(|other| other.place);
        let mut together: Vec<Lived> = std::iter::once(place).chain(others).map(|week| self.lived(week)).collect();
        past::live_through(&self.loaded.kitchen, &mut together).0.into_owned().lots
    }

    fn print(&self, place: usize) -> Option<AsPrinted<'b>> {
        self.prints.get(place).copied().flatten()
    }

    pub fn lived(&self, place: usize) -> Lived<'k, 'b> {
        Lived::of(&self.loaded.kitchen, &self.loaded.weeks[place].1, self.booked, self.print(place), self.today)
    }

    /// The first and the last day of a week of the household.
    pub fn span(&self, place: usize) -> (Date, Date) {
        self.walk.span(place, || plan::span(&self.loaded.weeks[place].1))
    }

    /// The other weeks that may bear on one of that span.
    fn others(&self, place: usize, span: (Date, Date)) -> Vec<Rc<Another>> {
        let bear = (0..self.loaded.weeks.len()).filter(|&other| other != place && touches(self.span(other), span, self.today));
        bear.map(|other| self.walk.week(other, || Another::of(other, &self.lived(other)))).collect()
    }
}

/// May another week bear on this one: does it overlap it, or has it, from an earlier day on, something yet to come?
fn touches((from, until): (Date, Date), (first, last): (Date, Date), today: Date) -> bool {
    (first <= until && from <= last) || (from <= first && today <= until)
}
