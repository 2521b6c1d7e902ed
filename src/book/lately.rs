//! The shelf as it lay on a day not long ago: what was booked since is taken back.
//!
//! For whoever asks what a week would have planned then. The last bookings are remembered while the book is read, no more than
//! [`DAYS`] back from the last of them and no more than [`BOOKINGS`]: who asks further back gets what those lead to.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use jiff::civil::Date;

use super::booking::{Booking, Change, Cooked, Verb};
use super::lacks::{Lack, outstanding};
use super::purchases::is_bought;
use super::record::{Exact, LotRecord, as_lot, records};
use crate::kitchen::{Kitchen, Lot};
use crate::measure::Number;

/// Longer than any week that still bears on today.
const DAYS: i32 = 60;

/// More than a household books in that time.
const BOOKINGS: usize = 500;

/// One of the last bookings.
#[derive(Debug, Clone)]
pub(super) struct Lately {
    pub number: u64,
    pub on: Date,
    pub verb: Verb,
    pub takes_back: Option<u64>,
    /// The trips, sessions and meals that are booked with it.
    pub covers: Vec<String>,
    pub changes: Vec<Moved>,
    /// What it cost to get to the shops, in minor units of money.
    pub fares: BTreeMap<String, i64>,
    /// Of a session: what it made.
    pub cooked: Vec<Cooked>,
    /// What it should have taken, and what it took that others should have.
    pub lacked: Vec<Lack>,
    pub made_good: Vec<Lack>,
}

/// A lot before and after, and the shop that it was bought in.
#[derive(Debug, Clone)]
pub(super) struct Moved {
    pub from: Option<LotRecord>,
    pub to: Option<LotRecord>,
    pub shop: Option<String>,
}

impl Moved {
    /// A lot that was not there before.
    fn is_new(&self) -> Option<&LotRecord> {
        self.to.as_ref().filter(|_| self.from.is_none())
    }
}

/// What bookings of one trip brought.
#[derive(Debug, Clone, Default)]
pub struct Brought<'b> {
    /// Each with the shop that it was bought in, where the book says it.
    pub lots: Vec<(&'b LotRecord, Option<&'b str>)>,
    /// What the way to the shops cost, in minor units of money.
    pub fares: Vec<(&'b str, i64)>,
}

/// What a session took off the shelf and put on it.
#[derive(Debug, Clone)]
pub struct CookedThen<'b> {
    /// Lots as they lay before, each with what was taken of it.
    pub took: Vec<(&'b LotRecord, Number)>,
    pub put: Vec<&'b LotRecord>,
    /// Empty where the book does not say it.
    pub cooked: &'b [Cooked],
}

/// Of what is given in order of time, each with its day, the last.
#[derive(Debug, Clone, Default)]
pub(super) struct Window(VecDeque<(Date, Vec<u8>)>);

impl Window {
    pub fn push(&mut self, on: Date, line: &[u8]) {
        // A book has many lines: where the old ones lay, the new ones are put.
        let mut place = drop_old(&mut self.0, on, |(day, _)| *day).map(|(_, place)| place).unwrap_or_default();
        place.clear();
        place.extend_from_slice(line);
        self.0.push_back((on, place));
    }

    pub fn lines(&self) -> impl Iterator<Item = &[u8]> {
        self.0.iter().map(|(_, line)| line.as_slice())
    }
}

/// Gives the last that was dropped.
fn drop_old<T>(all: &mut VecDeque<T>, on: Date, day: impl Fn(&T) -> Date) -> Option<T> {
    let mut dropped = None;
    while all.len() >= BOOKINGS || all.front().is_some_and(|one| (on - day(one)).get_days() > DAYS) {
        dropped = all.pop_front();
    }
    dropped
}

/// The last bookings, the latest last.
#[derive(Debug, Clone, Default)]
pub(super) struct LastBookings(VecDeque<Lately>);

impl LastBookings {
    pub fn of(bookings: &[Booking]) -> LastBookings {
        let mut last = LastBookings::default();
        bookings.iter().for_each(|booking| last.push(Lately::of(booking)));
        last
    }

    pub fn push(&mut self, booking: Lately) {
        drop(drop_old(&mut self.0, booking.on, |other| other.on));
        self.0.push_back(booking);
    }

    /// Did a booking put this lot on the shelf with these dates, and not a person by hand?
    pub fn have_put(&self, lot: &LotRecord) -> bool {
        let booked = self.0.iter().filter(|booking| !matches!(booking.verb, Verb::Opening | Verb::HandEdit));
        booked.flat_map(|booking| &booking.changes).any(|moved| moved.to.as_ref().is_some_and(|to| to.same_but_amount(lot)))
    }

    /// What bookings of something by its key put on the shelf, of those that stand.
    pub fn brought(&self, is_it: impl Fn(&str) -> bool) -> Brought<'_> {
        let mut brought = Brought::default();
        for booking in self.standing(is_it) {
            let lots = booking.changes.iter().filter_map(|moved| Some((moved.is_new()?, moved.shop.as_deref())));
            let lots = lots.filter(|(lot, _)| is_bought(lot));
            brought.lots.extend(lots);
            brought.fares.extend(booking.fares.iter().map(|(shop, fare)| (shop.as_str(), *fare)));
        }
        brought
    }

    /// What the booking of something by its key took and put, where it stands: what was opened for it is no more than put back.
    pub fn cooked(&self, is_it: impl Fn(&str) -> bool) -> Option<CookedThen<'_>> {
        let booking = self.standing(is_it).pop()?;
        let mut cooked = CookedThen { took: Vec::new(), put: Vec::new(), cooked: &booking.cooked };
        for moved in &booking.changes {
            match (&moved.from, &moved.to) {
                // What was lacked before is taken off the boxes at once.
                (Some(from), _) if cooked.put.contains(&from) => (),
                (Some(from), to) => {
                    let left = to.as_ref().map_or(Number::ZERO, |to| to.amount.number.clone());
                    cooked.took.push((from, &from.amount.number - left));
                }
                (None, Some(to)) if to.recipe.is_some() => cooked.put.push(to),
                (None, Some(opened)) => {
                    if let Some((_, taken)) = cooked.took.last_mut().filter(|(from, _)| from.food == opened.food) {
                        *taken = &*taken - &opened.amount.number;
                    }
                }
                (None, None) => (),
            }
        }
        Some(cooked)
    }

    /// The bookings of something by its key that stand, the latest last.
    fn standing(&self, is_it: impl Fn(&str) -> bool) -> Vec<&Lately> {
        let mut standing = self.all_standing();
        standing.retain(|booking| booking.covers.iter().any(|key| is_it(key)));
        standing
    }

    fn all_standing(&self) -> Vec<&Lately> {
        let mut gone: BTreeSet<u64> = BTreeSet::new();
        let mut standing = Vec::new();
        for booking in self.0.iter().rev() {
            if !gone.contains(&booking.number) {
                gone.extend(booking.takes_back);
                standing.push(booking);
            }
        }
        standing.reverse();
        standing
    }

    /// What sessions and meals should have taken and no shelf has given yet.
    pub fn lacks(&self) -> Vec<Lack> {
        let standing = self.all_standing();
        let lacked = standing.iter().flat_map(|booking| &booking.lacked);
        outstanding(lacked, standing.iter().flat_map(|booking| &booking.made_good))
    }

    /// The kitchen's lots without what was booked after a day, but for bookings of something that `is_kept`. What lay there when the book
    /// was begun and what a person typed since lay there before, as far as anybody knows.
    pub fn lots_on(&self, day: Date, kitchen: &Kitchen, is_kept: impl Fn(&str) -> bool) -> Vec<Lot> {
        let of_kept = |booking: &Lately| booking.covers.iter().any(|key| is_kept(key));
        let mut left_alone: BTreeSet<u64> = BTreeSet::new();
        let mut back = Vec::new();
        for booking in &self.0 {
            let is_typed = matches!(booking.verb, Verb::Opening | Verb::HandEdit);
            let of_left_alone = booking.takes_back.is_some_and(|taken| left_alone.contains(&taken) || taken < self.0[0].number);
            if is_typed || of_kept(booking) || of_left_alone {
                left_alone.insert(booking.number);
            } else if booking.on > day {
                back.push(booking);
            }
        }
        let mut shelf = Then { lots: records(kitchen), came_back: Vec::new() };
        let changes = back.into_iter().rev().flat_map(|booking| booking.changes.iter().rev());
        changes.for_each(|Moved { from, to, .. }| shelf.take_back(from.as_ref(), to.as_ref()));
        shelf.into_lots(kitchen)
    }
}

impl Lately {
    pub fn of(booking: &Booking) -> Lately {
        let Booking { number, on, verb, takes_back, .. } = *booking;
        let moved = |change: &Change| Moved { from: change.from.clone(), to: change.to.clone(), shop: change.shop.clone() };
        let changes = booking.changes.iter().map(moved).collect();
        let (covers, fares, cooked) = (booking.covers.clone(), booking.fares.clone(), booking.cooked.clone());
        let (lacked, made_good) = (booking.lacked.clone(), booking.made_good.clone());
        Lately { number, on, verb, takes_back, covers, changes, fares, cooked, lacked, made_good }
    }
}

/// A shelf on its way back.
struct Then {
    /// Those of today, in their order.
    lots: Vec<LotRecord>,
    came_back: Vec<LotRecord>,
}

impl Then {
    /// What was taken from a lot since, and stays so, is missing from it then as well.
    fn take_back(&mut self, from: Option<&LotRecord>, to: Option<&LotRecord>) {
        match (from, to) {
            (Some(from), Some(to)) if from.same_but_amount(to) => {
                let more = &from.amount.number - &to.amount.number;
                if more.is_positive() {
                    self.add(from, more);
                } else {
                    self.lessen(to, Number::ZERO - more);
                }
            }
            (Some(from), Some(to)) => {
                let missing = self.lessen(to, to.amount.number.clone());
                self.add(from, (&from.amount.number - missing).max(Number::ZERO));
            }
            (Some(from), None) => self.add(from, from.amount.number.clone()),
            (None, Some(to)) => drop(self.lessen(to, to.amount.number.clone())),
            (None, None) => (),
        }
    }

    fn add(&mut self, lot: &LotRecord, more: Number) {
        match self.lots.iter_mut().chain(&mut self.came_back).find(|other| other.same_but_amount(lot)) {
            Some(known) => known.amount.number = &known.amount.number + more,
            None => self.came_back.push(LotRecord { amount: Exact { number: more, ..lot.amount.clone() }, ..lot.clone() }),
        }
    }

    /// Gives how much was not there any more.
    fn lessen(&mut self, lot: &LotRecord, mut less: Number) -> Number {
        for other in self.lots.iter_mut().chain(&mut self.came_back).filter(|other| other.same_but_amount(lot)) {
            let taken = less.clone().min(other.amount.number.clone());
            other.amount.number = &other.amount.number - &taken;
            less -= taken;
        }
        less
    }

    fn into_lots(self, kitchen: &Kitchen) -> Vec<Lot> {
        let known = kitchen.lots.iter().zip(records(kitchen)).zip(self.lots);
        let left = known.map(|((lot, before), now)| match before.amount == now.amount {
            true => lot.clone(),
            false => Lot { amount: now.amount.quantity(), ..lot.clone() },
        });
        let back = self.came_back.iter().filter_map(|record| as_lot(kitchen, record));
        left.chain(back).filter(|lot| !lot.amount.is_zero()).collect()
    }
}
