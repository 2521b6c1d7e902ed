//! A shelf while one booking is being made: lots are taken from, first expired first, and new ones put beside them.

use jiff::civil::Date;

use super::booking::Change;
use super::record::{Exact, LotRecord, as_lot};
use crate::kitchen::{Kitchen, Lot, Ware};
use crate::measure::{Number, is_nothing_of};
use crate::shelf::Shelf;

/// What was asked for and is not on the shelf, in the unit it was asked in.
#[derive(Debug, Clone, PartialEq)]
pub struct Missing(pub Number);

#[derive(Debug, Clone)]
pub struct Bench<'k> {
    before: Vec<LotRecord>,
    kitchen: &'k Kitchen,
    shelf: Shelf<'k>,
    added: Vec<LotRecord>,
}

impl<'k> Bench<'k> {
    /// `before` are the kitchen's lots, in their order.
    pub fn new(kitchen: &'k Kitchen, before: Vec<LotRecord>) -> Bench<'k> {
        Bench { before, kitchen, shelf: Shelf::new(kitchen), added: Vec::new() }
    }

    /// Takes `wanted` from the lots of `of` that may be drawn on `day`, without a day from all of them. `rate` says how many of the asked
    /// unit one base unit of a lot is.
    pub fn take(&mut self, of: Ware, day: Option<Date>, wanted: &Number, rate: impl Fn(usize) -> Option<Number>) -> Missing {
        let taken = self.shelf.draw(of, day, wanted, &rate);
        let missing = wanted - taken.iter().map(|taken| &taken.amount).sum::<Number>();
        Missing(if is_nothing_of(&missing, wanted) { Number::ZERO } else { missing })
    }

    /// The lots of `of` that may be drawn on `day` and of which something is left.
    pub fn drawable(&self, of: Ware, day: Option<Date>) -> Vec<usize> {
        self.shelf.drawable(of, day)
    }

    pub fn put(&mut self, lot: LotRecord) {
        self.added.push(lot);
    }

    /// The lots as they lie afterwards: those from before in their order, then the new ones.
    pub fn into_lots(self) -> Vec<Lot> {
        let mut lots = Vec::new();
        for (index, lot) in self.kitchen.lots.iter().enumerate().filter(|(index, _)| self.shelf.has_left(*index)) {
            lots.push(Lot { amount: self.shelf.left(index), ..lot.clone() });
        }
        lots.extend(self.added.iter().filter_map(|record| as_lot(self.kitchen, record)));
        lots
    }

    /// One change a lot that was touched, then the new lots.
    pub fn finish(self) -> Vec<Change> {
        let mut changes = Vec::new();
        for (index, lot) in self.before.into_iter().enumerate() {
            let left = self.shelf.left(index);
            if left == self.kitchen.lots[index].amount {
                continue;
            }
            let left = Exact::of(&left);
            let to = left.number.is_positive().then(|| LotRecord { amount: left, ..lot.clone() });
            changes.push(Change::new(Some(lot), to));
        }
        changes.extend(self.added.into_iter().map(|lot| Change::new(None, Some(lot))));
        changes
    }
}
