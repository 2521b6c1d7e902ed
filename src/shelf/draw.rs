//! What is left of each lot while it is drawn on: by a plan, or by a booking.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::dates::{LotDates, lot_dates};
use crate::foods::{FoodId, convert};
use crate::kitchen::{Kitchen, Ware};
use crate::measure::{Dimension, Number, Quantity, is_nothing_of};

/// The lots of the kitchen as they are used up.
#[derive(Debug, Clone)]
pub struct Shelf<'k> {
    kitchen: &'k Kitchen,
    dates: Vec<LotDates>,
    /// In each lot's own base unit.
    left: Vec<Number>,
    /// Lots of one food or recipe, first expired first.
    order: BTreeMap<Ware, Vec<usize>>,
}

/// What one draw took from one lot, in the unit the draw was asked in.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    pub lot: usize,
    pub amount: Number,
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
        Shelf { kitchen, left: kitchen.lots.iter().map(|lot| lot.amount.exact().clone()).collect(), dates, order }
    }

    /// Takes up to `wanted` on `day`, first expired first; without a day from any lot, past its dates or not. `rate` says how many of
    /// the asked unit one base unit of a lot is; a lot for which it says nothing is passed over. A draw that would leave only a
    /// [rest](Dimension::rest) of a lot takes that, too.
    pub fn draw(&mut self, of: Ware, day: impl Into<Option<Date>>, wanted: &Number, rate: impl Fn(usize) -> Option<Number>) -> Vec<Taken> {
        let day = day.into();
        let mut missing = wanted.clone();
        let mut taken = Vec::new();
        for lot in self.drawable(of, day) {
            if is_nothing_of(&missing, wanted) {
                break;
            }
            let Some(rate) = rate(lot).filter(Number::is_positive) else { continue };
            let rest = &self.left[lot] - &missing / &rate;
            let takes_all = rest < self.kitchen.lots[lot].amount.dimension().rest();
            let amount = if takes_all { &self.left[lot] * &rate } else { missing.clone() };
            self.left[lot] = if takes_all { Number::ZERO } else { rest };
            missing -= &amount;
            taken.push(Taken { lot, amount, look_first: day.is_some_and(|day| self.dates[lot].wants_a_look_on(day)) });
        }
        taken
    }

    /// Lots of which something is left and that may be drawn on `day`, first expired first; without a day all that are left. What is
    /// cooked on a day serves from that day on.
    pub fn drawable(&self, of: Ware, day: impl Into<Option<Date>>) -> Vec<usize> {
        let day = day.into();
        let lots = self.order.get(&of).map(Vec::as_slice).unwrap_or_default();
        let is_made = |lot: usize, day: Date| self.kitchen.lots[lot].made.is_none_or(|made| made <= day);
        let is_good = |lot: usize| day.is_none_or(|day| is_made(lot, day) && self.dates[lot].may_be_drawn_on(day));
        lots.iter().copied().filter(|&lot| self.has_left(lot) && is_good(lot)).collect()
    }

    pub fn has_left(&self, lot: usize) -> bool {
        !is_nothing_of(&self.left[lot], self.kitchen.lots[lot].amount.exact())
    }

    /// What is left of a lot, in its own unit.
    pub fn left(&self, lot: usize) -> Quantity {
        Quantity::of(&self.kitchen.lots[lot].amount.dimension(), &self.left[lot])
    }

    /// Lots of which something is left and whose earliest date lies before `day`, in file order.
    pub fn expiring_before(&self, day: Date) -> Vec<(usize, Date)> {
        let dated = self.dates.iter().enumerate().filter_map(|(lot, dates)| Some((lot, dates.earliest?)));
        dated.filter(|(lot, until)| *until < day && self.has_left(*lot)).collect()
    }
}

/// How many units of `dimension` one base unit of a food's lot is; `None` where the two cannot be compared.
pub fn food_rate(kitchen: &Kitchen, lot: usize, food: FoodId, dimension: &Dimension) -> Option<Number> {
    let own = kitchen.lots[lot].amount.dimension();
    if own == *dimension {
        return Some(Number::ONE);
    }
    convert(&kitchen.foods[food], &Quantity::of(&own, 1), dimension).ok().map(|one| one.exact().clone())
}
