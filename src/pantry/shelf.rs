//! What is left of each lot while a plan draws on it.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::{LotDates, lot_dates};
use crate::kitchen::{Kitchen, Ware};
use crate::measure::{Quantity, TOLERANCE};

/// The pantry as a plan uses it up.
#[derive(Debug, Clone)]
pub struct Shelf<'k> {
    kitchen: &'k Kitchen,
    dates: Vec<LotDates>,
    /// In each lot's own base unit.
    left: Vec<f64>,
    /// Lots of one food or recipe, first expired first.
    order: BTreeMap<Ware, Vec<usize>>,
}

/// What one draw took from one lot, in the unit the draw was asked in.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    pub lot: usize,
    pub amount: f64,
    pub look_first: bool,
}

impl<'k> Shelf<'k> {
    pub fn new(kitchen: &'k Kitchen) -> Self {
        let dates: Vec<LotDates> = kitchen.lots.iter().map(|lot| lot_dates(kitchen, lot)).collect();
        let mut order: BTreeMap<Ware, Vec<usize>> = BTreeMap::new();
        for (index, lot) in kitchen.lots.iter().enumerate() {
            order.entry(lot.of).or_default().push(index);
        }
        for lots in order.values_mut() {
            lots.sort_by_key(|&lot| (dates[lot].earliest.is_none(), dates[lot].earliest, lot));
        }
        Shelf { kitchen, left: kitchen.lots.iter().map(|lot| lot.amount.base()).collect(), dates, order }
    }

    /// Takes up to `wanted` on `day`, first expired first. `rate` says how many of the asked unit one base unit of a lot is;
    /// a lot for which it says nothing is passed over.
    pub fn draw(&mut self, of: Ware, day: Date, wanted: f64, rate: impl Fn(usize) -> Option<f64>) -> Vec<Taken> {
        let mut missing = wanted;
        let mut taken = Vec::new();
        for lot in self.drawable(of, day) {
            if missing <= TOLERANCE * wanted {
                break;
            }
            let Some(rate) = rate(lot).filter(|rate| *rate > 0.0) else { continue };
            let available = self.left[lot] * rate;
            let amount = if available <= missing * (1.0 + TOLERANCE) { available } else { missing };
            self.left[lot] = if amount == available { 0.0 } else { self.left[lot] - amount / rate };
            missing -= amount;
            taken.push(Taken { lot, amount, look_first: self.dates[lot].wants_a_look_on(day) });
        }
        taken
    }

    /// Lots of which something is left and that may be drawn on `day`, first expired first. What is cooked on a day serves from
    /// that day on.
    pub fn drawable(&self, of: Ware, day: Date) -> Vec<usize> {
        let lots = self.order.get(&of).map(Vec::as_slice).unwrap_or_default();
        let is_made = |lot: usize| self.kitchen.lots[lot].made.is_none_or(|made| made <= day);
        lots.iter().copied().filter(|&lot| self.has_left(lot) && is_made(lot) && self.dates[lot].may_be_drawn_on(day)).collect()
    }

    pub fn has_left(&self, lot: usize) -> bool {
        self.left[lot] > TOLERANCE * self.kitchen.lots[lot].amount.base()
    }

    /// What is left of a lot, in its own unit.
    pub fn left(&self, lot: usize) -> Quantity {
        Quantity::of(&self.kitchen.lots[lot].amount.dimension(), self.left[lot])
    }

    /// Lots of which something is left and whose earliest date lies before `day`, in file order.
    pub fn expiring_before(&self, day: Date) -> Vec<(usize, Date)> {
        let dated = self.dates.iter().enumerate().filter_map(|(lot, dates)| Some((lot, dates.earliest?)));
        dated.filter(|(lot, until)| *until < day && self.has_left(*lot)).collect()
    }
}
