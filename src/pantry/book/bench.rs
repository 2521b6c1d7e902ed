//! A shelf while one booking is being made: lots are taken from, first expired first, and new ones put beside them.

use super::booking::Change;
use super::record::{Exact, LotRecord};
use crate::kitchen::Kitchen;
use crate::measure::TOLERANCE;
use crate::pantry::lot_dates;

/// Less than this many thousandths are the dust of thirds: whoever takes the rest takes them, too.
const DUST: i64 = 2;

/// What was asked for and is not on the shelf, in the unit it was asked in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Missing(pub f64);

#[derive(Debug, Clone)]
pub struct Bench {
    before: Vec<LotRecord>,
    left: Vec<i64>,
    added: Vec<LotRecord>,
    /// Lots by their earliest date, the undated last.
    order: Vec<usize>,
}

impl Bench {
    /// `shelf` is that of the kitchen's lots, in their order.
    pub fn new(kitchen: &Kitchen, shelf: Vec<LotRecord>) -> Bench {
        let dates: Vec<_> = kitchen.lots.iter().map(|lot| lot_dates(kitchen, lot).earliest).collect();
        let mut order: Vec<usize> = (0..shelf.len().min(dates.len())).collect();
        order.sort_by_key(|&lot| (dates[lot].is_none(), dates[lot], lot));
        Bench { left: shelf.iter().map(|lot| lot.amount.thousandths).collect(), before: shelf, added: Vec::new(), order }
    }

    /// Takes `wanted` from the lots for which `rate` says how many of the asked unit one base unit of the lot is.
    pub fn take(&mut self, wanted: f64, rate: impl Fn(usize) -> Option<f64>) -> Missing {
        let mut missing = wanted;
        let mut coarsest: f64 = 1.0;
        for &lot in &self.order {
            if missing <= TOLERANCE * wanted {
                break;
            }
            let Some(rate) = rate(lot).filter(|rate| *rate > 0.0 && self.left[lot] > 0) else { continue };
            let asked = (missing / rate * 1000.0).round() as i64;
            let taken = if self.left[lot] - asked < DUST { self.left[lot] } else { asked };
            self.left[lot] -= taken;
            coarsest = coarsest.max(rate);
            missing -= taken as f64 / 1000.0 * rate;
        }
        // Half a thousandth of a lot's own unit is lost in rounding, two in dust.
        Missing(if missing <= 0.003 * coarsest { 0.0 } else { missing })
    }

    /// Is anything left of any lot for which `chosen` holds?
    pub fn any_left(&self, chosen: impl Fn(usize) -> bool) -> bool {
        (0..self.left.len()).any(|lot| self.left[lot] > 0 && chosen(lot))
    }

    pub fn put(&mut self, lot: LotRecord) {
        self.added.push(lot);
    }

    /// One change a lot that was touched, then the new lots.
    pub fn finish(self) -> Vec<Change> {
        let mut changes = Vec::new();
        for (lot, left) in self.before.into_iter().zip(self.left) {
            if left == lot.amount.thousandths {
                continue;
            }
            let amount = Exact { thousandths: left, dimension: lot.amount.dimension.clone() };
            let to = (left > 0).then(|| LotRecord { amount, ..lot.clone() });
            changes.push(Change::new(Some(lot), to));
        }
        changes.extend(self.added.into_iter().map(|lot| Change::new(None, Some(lot))));
        changes
    }
}
