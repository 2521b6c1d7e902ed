//! A shelf while one booking is being made: lots are taken from, first expired first, and new ones put beside them.

use jiff::civil::Date;

use super::booking::Change;
use super::record::{Exact, LotRecord, as_lot, exactly};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Lot, Ware, Whose};
use crate::measure::{Money, Number, Quantity, is_nothing_of};
use crate::shelf::{First, Prices, Shelf, Taken, When};

/// What a draw came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Took {
    /// What was asked for and is not on the shelf, in the unit it was asked in.
    pub missing: Number,
    /// What was taken cost that much, in minor units of money; `None` where no price of some of it is known.
    pub cost: Option<f64>,
}

#[derive(Debug, Clone)]
pub struct Bench<'k> {
    before: Vec<LotRecord>,
    kitchen: &'k Kitchen,
    prices: Prices<'k>,
    shelf: Shelf<'k>,
    added: Vec<LotRecord>,
    /// Of what was put down: what was taken of it at once, and what is left.
    taken_at_once: Option<(Vec<Change>, Vec<Lot>)>,
}

impl<'k> Bench<'k> {
    /// `before` are the kitchen's lots, in their order.
    pub fn new(kitchen: &'k Kitchen, before: Vec<LotRecord>) -> Bench<'k> {
        Bench { before, kitchen, prices: Prices::new(kitchen), shelf: Shelf::new(kitchen), added: Vec::new(), taken_at_once: None }
    }

    /// From now on lots without a date rank as a week does that ends on that day.
    pub fn rank_undated(&mut self, last_day: Date) {
        self.shelf.rank_undated(last_day);
    }

    /// Takes `wanted` from the lots of `of`. `rate` says how many of the asked unit one base unit of a lot is.
    pub fn take(&mut self, of: Ware, when: When, first: First, wanted: &Number, rate: impl Fn(&Lot) -> Option<Number>) -> Took {
        let taken = self.shelf.draw(of, when, first, wanted, &rate);
        self.took(wanted, &taken)
    }

    /// As [`Bench::take`], from what was set aside for a single eater.
    pub fn take_own(&mut self, of: Ware, when: When, whose: &Whose, wanted: &Number, rate: impl Fn(&Lot) -> Option<Number>) -> Took {
        let taken = self.shelf.draw_own(of, when, (&whose.eater, &whose.without), wanted, &rate);
        self.took(wanted, &taken)
    }

    fn took(&self, wanted: &Number, taken: &[Taken]) -> Took {
        let missing = wanted - taken.iter().map(|taken| &taken.amount).sum::<Number>();
        let cost = taken.iter().map(|taken| Some(self.prices.of_lot(&self.shelf.lots()[taken.lot])? * taken.own.to_f64())).sum();
        Took { missing: if is_nothing_of(&missing, wanted) { Number::ZERO } else { missing }, cost }
    }

    pub fn prices(&self) -> &Prices<'k> {
        &self.prices
    }

    /// The lots of `of` that may be drawn then and of which something is left.
    pub fn drawable(&self, of: Ware, when: When) -> Vec<&Lot> {
        self.shelf.drawable(of, when, First::Opened).into_iter().map(|lot| &self.shelf.lots()[lot]).collect()
    }

    /// The same of what was set aside for a single eater.
    pub fn drawable_own(&self, of: Ware, when: When, whose: &Whose) -> Vec<&Lot> {
        let lots = self.shelf.drawable_own(of, when, (&whose.eater, &whose.without));
        lots.into_iter().map(|lot| &self.shelf.lots()[lot]).collect()
    }

    /// From now on what nobody knows to have been paid costs what a list pays, too.
    pub fn pay_as_listed(&mut self, lines: impl IntoIterator<Item = (FoodId, Quantity, Money)>) {
        self.prices = self.prices.clone().with_list(lines);
    }

    /// What was put down so far lies on the shelf, to be taken.
    pub fn lay_down(&mut self) {
        let added = std::mem::take(&mut self.added);
        added.iter().filter_map(|record| as_lot(self.kitchen, record)).for_each(|lot| self.shelf.put(lot));
    }

    pub fn put(&mut self, lot: LotRecord) {
        self.added.push(lot);
    }

    /// What was put down so far.
    pub(super) fn added(&self) -> &[LotRecord] {
        &self.added
    }

    /// Of what was put down these changes were made at once, and those lots are left.
    pub(super) fn take_of_added(&mut self, changes: Vec<Change>, left: Vec<Lot>) {
        self.taken_at_once = Some((changes, left));
    }

    /// The lots as they lie afterwards: those from before in their order, then what is left of opened packs, then the new ones.
    pub fn into_lots(self) -> Vec<Lot> {
        let shelf = &self.shelf;
        let left = shelf.lots().iter().enumerate().filter(|(index, _)| shelf.has_left(*index)).map(|(_, lot)| lot.clone());
        let added = || self.added.iter().filter_map(|record| as_lot(self.kitchen, record)).collect();
        left.chain(self.taken_at_once.map_or_else(added, |(_, left)| left)).collect()
    }

    /// One change a lot that was touched, each with what is left of packs that were opened, then the new lots.
    pub fn finish(self) -> Vec<Change> {
        let mut changes = Vec::new();
        for (index, lot) in self.before.into_iter().enumerate() {
            let left = self.shelf.left(index);
            if *left == self.kitchen.lots[index].amount {
                continue;
            }
            let (left, _) = exactly(left, self.kitchen.lots[index].pack.as_ref());
            let to = left.number.is_positive().then(|| LotRecord { amount: left, ..lot.clone() });
            let opened = self.shelf.opened_of(index).filter(|&opened| self.shelf.has_left(opened)).map(|opened| {
                let Lot { amount, place, opened, since, .. } = &self.shelf.lots()[opened];
                let (amount, place, opened, since) = (Exact::of(amount), *place, *opened, *since);
                Change::new(None, Some(LotRecord { amount, pack: None, place, opened, since, ..lot.clone() }))
            });
            let opened: Vec<Change> = opened.collect();
            changes.push(Change::new(Some(lot), to));
            changes.extend(opened);
        }
        changes.extend(self.added.into_iter().map(|lot| Change::new(None, Some(lot))));
        changes.extend(self.taken_at_once.into_iter().flat_map(|(changes, _)| changes));
        changes
    }
}
