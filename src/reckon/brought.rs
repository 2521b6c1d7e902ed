//! A trip that was booked and never printed, as the book has it.

use crate::book::{Booked, LotRecord, as_lot};
use crate::kitchen::{Kitchen, Lot, Trip, Ware};
use crate::measure::{Money, Quantity, Units, show};
use crate::plan::State;
use crate::purchase::{Beside, Buy, Packed, Seller, TripBuys, TripList};
use crate::shelf::worth;

/// What it brought and what was paid for it, from nobody knows where; `None` where the book does not say it any more.
pub(super) fn as_booked(kitchen: &Kitchen, trip: &Trip, booked: &Booked, state: State) -> Option<TripList> {
    let (lots, fares): (Vec<&LotRecord>, Money) = booked.brought(trip.on, trip.nth);
    let lines: Vec<Buy> = lots.into_iter().filter_map(|record| bought(&as_lot(kitchen, record)?, record.rate_paid())).collect();
    if lines.is_empty() {
        return None;
    }
    let paid = lines.iter().filter_map(|line| line.cost).sum::<Money>();
    let buys = TripBuys { on: trip.on, nth: trip.nth, shops: Vec::new(), lines, unknown: Vec::new() };
    Some(TripList { cost: paid + fares, ..TripList::told(kitchen, &buys, state) })
}

/// `rate` is what was paid for one base unit, in minor units of money.
fn bought(lot: &Lot, rate: Option<f64>) -> Option<Buy> {
    let Ware::Food(food) = lot.of else { return None };
    let in_packs = |pack: &Quantity| {
        let count = u32::try_from(lot.amount.ratio(pack)?.to_i64()?).ok()?;
        Some(Packed::Packs { count, size: pack.clone(), single: pack.clone(), label: show(pack, Units::Metric) })
    };
    let packed = lot.pack.as_ref().and_then(in_packs).unwrap_or_else(|| Packed::Loose(lot.amount.clone()));
    let cost = rate.map(|rate| worth(&lot.amount, rate));
    Some(Buy {
        food,
        from: Seller::Anywhere,
        need: lot.amount.clone(),
        packs: vec![packed],
        cost,
        beside: Beside::default(),
        opened: Vec::new(),
    })
}
