//! What bookings add up to, and what differs from it.

use std::collections::BTreeSet;

use super::bag::Sum;
use super::booking::{Booking, Change, Verb};
use super::record::LotRecord;

/// The lots that all bookings leave, in the order of their booking.
pub fn sum(bookings: &[Booking]) -> Vec<LotRecord> {
    let mut lots = Sum::default();
    for change in bookings.iter().flat_map(|booking| &booking.changes) {
        lots.change(change.from.clone(), change.to.clone());
    }
    lots.lots()
}

/// The changes that lead from one shelf to the other. A lot that only lost or gained is one change; it keeps what was paid for it.
pub fn difference(before: &[LotRecord], after: &[LotRecord]) -> Vec<Change> {
    let mut gone = before.to_vec();
    let mut new: Vec<LotRecord> = Vec::new();
    for lot in after {
        match gone.iter().position(|old| old.on_paper() == lot.on_paper()) {
            Some(at) => drop(gone.remove(at)),
            None => new.push(lot.clone()),
        }
    }
    let mut changes = Vec::new();
    for lot in new {
        let same = gone.iter().position(|old| old.same_but_amount(&lot));
        let from = same.map(|at| gone.remove(at));
        let paid = from.as_ref().and_then(|from| from.paid.clone());
        changes.push(Change::new(from, Some(LotRecord { paid, ..lot })));
    }
    changes.extend(gone.into_iter().map(|lot| Change::new(Some(lot), None)));
    changes
}

/// The shelf of pantry.toml, with what the book knows was paid for each lot.
pub fn with_paid(shelf: Vec<LotRecord>, booked: &[LotRecord]) -> Vec<LotRecord> {
    let mut booked = booked.to_vec();
    let is_it = |known: &LotRecord, lot: &LotRecord| known.on_paper() == *lot;
    let was_rounded = |known: &LotRecord, lot: &LotRecord| known.same_but_amount(lot) && known.amount.is_rounded_from(&lot.amount);
    let known = |lot: LotRecord| match booked
        .iter()
        .position(|known| is_it(known, &lot))
        .or_else(|| booked.iter().position(|known| was_rounded(known, &lot)))
    {
        Some(at) => booked.remove(at),
        None => lot,
    };
    shelf.into_iter().map(known).collect()
}

/// The changes that take a booking back.
pub fn reversed(booking: &Booking) -> Vec<Change> {
    let back = |change: &Change| Change { from: change.to.clone(), to: change.from.clone(), worth: None, ..change.clone() };
    booking.changes.iter().rev().map(back).collect()
}

/// The last booking that has not been taken back; the opening stands for ever.
pub fn last_standing(bookings: &[Booking]) -> Option<&Booking> {
    standing(bookings).into_iter().next_back().filter(|booking| booking.verb != Verb::Opening)
}

/// All bookings that have not been taken back, those that take back left out.
pub fn standing(bookings: &[Booking]) -> Vec<&Booking> {
    let mut standing: Vec<&Booking> = Vec::new();
    for booking in bookings {
        match booking.takes_back {
            // What took another back is taken back itself: the other stands again.
            Some(number) => match bookings.iter().find(|other| other.number == number).and_then(|other| other.takes_back) {
                Some(again) => standing.extend(bookings.iter().find(|other| other.number == again)),
                None => standing.retain(|other| other.number != number),
            },
            None => standing.push(booking),
        }
    }
    standing
}

/// The trips, sessions and meals that are booked.
pub fn covered(bookings: &[Booking]) -> BTreeSet<String> {
    standing(bookings).into_iter().flat_map(|booking| booking.covers.iter().cloned()).collect()
}
