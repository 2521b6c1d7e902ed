//! A shelf while one booking is being made: lots are taken from, first expired first, and new ones put beside them.

use jiff::civil::Date;

use super::booking::Change;
use super::record::{Exact, LotRecord};
use crate::kitchen::{Kitchen, Ware};
use crate::shelf::Shelf;

/// Less than this many thousandths are the dust of thirds: whoever takes the rest takes them, too.
const DUST: i64 = 2;

/// What was asked for and is not on the shelf, in the unit it was asked in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Missing(pub f64);

#[derive(Debug, Clone)]
pub struct Bench<'k> {
    before: Vec<LotRecord>,
    shelf: Shelf<'k>,
    added: Vec<LotRecord>,
}

impl<'k> Bench<'k> {
    /// `before` are the kitchen's lots, in their order.
    pub fn new(kitchen: &'k Kitchen, before: Vec<LotRecord>) -> Bench<'k> {
        Bench { before, shelf: Shelf::new(kitchen), added: Vec::new() }
    }

    /// Takes `wanted` from the lots of `of` that may be drawn on `day`, without a day from all of them. `rate` says how many of the asked
    /// unit one base unit of a lot is.
    pub fn take(&mut self, of: Ware, day: Option<Date>, wanted: f64, rate: impl Fn(usize) -> Option<f64>) -> Missing {
        let taken = self.shelf.draw(of, day, wanted, &rate);
        let missing = wanted - taken.iter().map(|taken| taken.amount).sum::<f64>();
        // Lots are booked in whole thousandths: half of one is lost in rounding, two in dust.
        let coarsest = taken.iter().filter_map(|taken| rate(taken.lot)).fold(1.0, f64::max);
        Missing(if missing <= 0.003 * coarsest { 0.0 } else { missing })
    }

    /// The lots of `of` that may be drawn on `day` and of which something is left.
    pub fn drawable(&self, of: Ware, day: Option<Date>) -> Vec<usize> {
        self.shelf.drawable(of, day)
    }

    pub fn put(&mut self, lot: LotRecord) {
        self.added.push(lot);
    }

    /// One change a lot that was touched, then the new lots.
    pub fn finish(self) -> Vec<Change> {
        let mut changes = Vec::new();
        for (index, lot) in self.before.into_iter().enumerate() {
            let left = if self.shelf.has_left(index) {
                Exact::of(&self.shelf.left(index))
            } else {
                Exact { thousandths: 0, ..lot.amount.clone() }
            };
            if left == lot.amount {
                continue;
            }
            let to = (left.thousandths >= DUST).then(|| LotRecord { amount: left, ..lot.clone() });
            changes.push(Change::new(Some(lot), to));
        }
        changes.extend(self.added.into_iter().map(|lot| Change::new(None, Some(lot))));
        changes
    }
}
