//! By which a phone knows a trip: what was ticked stays while the trip is booked in parts, and starts fresh where the list has changed.

use super::booked::Booked;
use super::next::open_lines;
use crate::foods::FoodId;
use crate::kitchen::Kitchen;
use crate::purchase::{Packed, TripBuys, TripHashes, WeekBuys};

/// The hash of each trip of a list that is about to be printed: that of the print before where the list says the same, or where some of
/// the trip is booked since and its open lines are as they were; else its own.
pub fn trip_hashes(kitchen: &Kitchen, list: &WeekBuys, before: Option<(&WeekBuys, &TripHashes)>, booked: &Booked) -> TripHashes {
    let kept = |trip: &TripBuys| {
        let (week, hashes) = before?;
        let printed = week.trips.iter().find(|told| (told.on, told.nth) == (trip.on, trip.nth))?;
        let open = open_lines(&kitchen.foods, printed, booked);
        let is_booked_in_part = open.lines.len() < printed.lines.len() && bought(&open) == bought(trip);
        let own = printed.hash(kitchen.names());
        let is_same = own == trip.hash(kitchen.names());
        (is_same || is_booked_in_part).then(|| hashes.get(&(trip.on, trip.nth)).cloned().unwrap_or(own))
    };
    list.trips.iter().map(|trip| ((trip.on, trip.nth), kept(trip).unwrap_or_else(|| trip.hash(kitchen.names())))).collect()
}

/// Foods and packs, in no order. The shop does not count: what is in the basket is got, wherever its rest is cheapest now.
fn bought(trip: &TripBuys) -> Vec<(FoodId, Vec<Packed>)> {
    let mut lines: Vec<_> = trip.lines.iter().map(|line| (line.food, line.packs.clone())).collect();
    lines.sort_by_key(|(food, packs)| (*food, format!("{packs:?}")));
    lines
}
