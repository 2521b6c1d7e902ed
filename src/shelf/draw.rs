//! What is left of each lot while it is drawn on: by a plan, or by a booking.
//!
//! First expired is first out. A lot without any date stands behind what goes off before a week's last day, and ahead of what keeps longer.
//! Closed packs are opened one at a time: what is left of one is a lot of its own from then on.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::dates::{LotDates, lot_dates};
use super::opened::once_opened;
use crate::kitchen::much::no_more_than;
use crate::kitchen::{Kitchen, Lot, Ware};
use crate::measure::{Number, Quantity, is_nothing_of};

/// When something is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// From what is good on that day.
    On(Date),
    /// On that day, past its dates or not.
    Anyway(Date),
}

impl From<Date> for When {
    fn from(day: Date) -> When {
        When::On(day)
    }
}

impl When {
    pub fn day(self) -> Date {
        let (When::On(day) | When::Anyway(day)) = self;
        day
    }
}

/// Which of closed packs and opened rests goes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum First {
    /// What is open already.
    #[default]
    Opened,
    /// What speaks of tins, packs or jars takes closed ones.
    Closed,
}

/// The lots of the kitchen as they are used up.
#[derive(Debug, Clone)]
pub struct Shelf<'k> {
    kitchen: &'k Kitchen,
    /// Each with what is left of it: those of the kitchen in their order, then what is left of packs opened meanwhile.
    lots: Vec<Lot>,
    dates: Vec<LotDates>,
    /// Of what is left of a pack, the lot the pack was one of.
    pack_of: Vec<Option<usize>>,
    by_ware: BTreeMap<Ware, Vec<usize>>,
    undated: Option<Date>,
}

/// What one draw took from one lot, in the unit the draw was asked in.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// As the lots lay when the day began: of what was opened that day, the lot the pack was one of.
    pub lot: usize,
    pub amount: Number,
    /// The same in the lot's own base unit.
    pub own: Number,
    pub look_first: bool,
}

impl<'k> Shelf<'k> {
    pub fn new(kitchen: &'k Kitchen) -> Self {
        let dates: Vec<LotDates> = kitchen.lots.iter().map(|lot| lot_dates(&kitchen.foods, &kitchen.recipes, lot)).collect();
        let mut by_ware: BTreeMap<Ware, Vec<usize>> = BTreeMap::new();
        for (index, lot) in kitchen.lots.iter().enumerate() {
            by_ware.entry(lot.of).or_default().push(index);
        }
        let lots = kitchen.lots.clone();
        Shelf { kitchen, pack_of: vec![None; lots.len()], lots, dates, by_ware, undated: None }
    }

    /// Lots without any date rank as if theirs were `last_day`, that of a week's last meal.
    pub fn until(mut self, last_day: Date) -> Self {
        self.rank_undated(last_day);
        self
    }

    /// As [`Shelf::until`], from now on.
    pub fn rank_undated(&mut self, last_day: Date) {
        self.undated = Some(last_day);
    }

    /// Takes up to `wanted` in the order of [`Shelf::drawable`]. `rate` says how many of the asked unit one base unit of a lot is; a lot
    /// for which it says nothing is passed over. A draw that would leave only a [rest](crate::measure::Dimension::rest) of a lot takes
    /// that, too.
    pub fn draw(
        &mut self,
        of: Ware,
        when: impl Into<When>,
        first: First,
        wanted: &Number,
        rate: impl Fn(&Lot) -> Option<Number>,
    ) -> Vec<Taken> {
        let when = when.into();
        let lots = self.drawable(of, when, first);
        self.draw_in_order(lots, when, wanted, rate)
    }

    /// As [`Shelf::draw`], from what was set aside for that eater without these.
    pub fn draw_own(
        &mut self,
        of: Ware,
        when: impl Into<When>,
        (eater, without): (&str, &[Ware]),
        wanted: &Number,
        rate: impl Fn(&Lot) -> Option<Number>,
    ) -> Vec<Taken> {
        let when = when.into();
        let lots = self.drawable_own(of, when, (eater, without));
        self.draw_in_order(lots, when, wanted, rate)
    }

    fn draw_in_order(&mut self, lots: Vec<usize>, when: When, wanted: &Number, rate: impl Fn(&Lot) -> Option<Number>) -> Vec<Taken> {
        let mut missing = wanted.clone();
        let mut taken = Vec::new();
        for lot in lots {
            if is_nothing_of(&missing, wanted) {
                break;
            }
            let Some(rate) = rate(&self.lots[lot]).filter(Number::is_positive) else { continue };
            let look_first = matches!(when, When::On(day) if self.dates[lot].wants_a_look_on(day));
            let own = &missing / &rate;
            let own = match when {
                When::Anyway(_) if self.is_shown_as(lot, &own) => self.lots[lot].amount.exact().clone(),
                _ => own,
            };
            let own = self.take(lot, &own, when.day());
            let amount = &own * &rate;
            missing -= &amount;
            taken.push(Taken { lot: self.lot_of_the_morning(lot, when.day()), amount, own, look_first });
        }
        taken
    }

    /// Is so much, in its base unit, what a person is told that a loose lot holds? They mean all of it then.
    fn is_shown_as(&self, lot: usize, own: &Number) -> bool {
        let Lot { amount, pack, .. } = &self.lots[lot];
        let units = self.kitchen.print.units;
        let (names, of) = (self.kitchen.names(), self.lots[lot].of);
        let own = Quantity::of(&amount.dimension(), own);
        pack.is_none() && own.exact() < amount.exact() && no_more_than(names, of, &own, units) == no_more_than(names, of, amount, units)
    }

    /// Takes so much of one lot, in its base unit.
    pub fn draw_from(&mut self, lot: usize, wanted: &Number, day: Date) {
        let _ = self.take(lot, wanted, day);
    }

    /// Takes so much of a lot, in its base unit, and gives how much that was: less where there is less, and more where only a rest would stay.
    fn take(&mut self, lot: usize, wanted: &Number, day: Date) -> Number {
        let Lot { amount, pack, .. } = &self.lots[lot];
        let (dimension, have) = (amount.dimension(), amount.exact().clone());
        let (left, opened) = match pack {
            _ if &have - wanted < dimension.rest() => (Number::ZERO, Number::ZERO),
            None => (&have - wanted, Number::ZERO),
            Some(pack) => whole_packs(&have, pack.exact(), wanted, &dimension.rest()),
        };
        let taken = have - &left - &opened;
        self.lots[lot].amount = Quantity::of(&dimension, left);
        if opened.is_positive() {
            self.open(lot, Quantity::of(&dimension, opened), day);
        }
        taken
    }

    /// Lays a lot behind all others.
    pub fn put(&mut self, lot: Lot) {
        self.by_ware.entry(lot.of).or_default().push(self.lots.len());
        self.dates.push(lot_dates(&self.kitchen.foods, &self.kitchen.recipes, &lot));
        self.lots.push(lot);
        self.pack_of.push(None);
    }

    /// What is left of one pack lies beside the closed ones from then on.
    fn open(&mut self, lot: usize, rest: Quantity, day: Date) {
        let opened = once_opened(&self.kitchen.foods, &self.lots[lot], rest, day);
        let index = self.lots.len();
        self.dates.push(lot_dates(&self.kitchen.foods, &self.kitchen.recipes, &opened));
        self.by_ware.entry(opened.of).or_default().push(index);
        self.lots.push(opened);
        self.pack_of.push(Some(lot));
    }

    fn lot_of_the_morning(&self, lot: usize, day: Date) -> usize {
        self.pack_of[lot].filter(|_| self.lots[lot].opened >= Some(day)).unwrap_or(lot)
    }

    /// Lots of which something is left and that may be drawn then, first expired first. What is cooked on a day serves from that day on.
    ///
    /// Where closed packs go first, all of them do; else what is open goes ahead of them, whatever its date. What is one eater's alone is
    /// nobody else's: it comes only where it is thrown away or eaten beside the plan, and then last.
    pub fn drawable(&self, of: Ware, when: impl Into<When>, first: First) -> Vec<usize> {
        let when = when.into();
        let mut lots = self.good_lots(of, when, first, |lot| lot.whose.is_none());
        if let When::Anyway(_) = when {
            lots.extend(self.good_lots(of, when, first, |lot| lot.whose.is_some()));
        }
        lots
    }

    /// As [`Shelf::drawable`], of what was set aside for that eater without these.
    pub fn drawable_own(&self, of: Ware, when: impl Into<When>, (eater, without): (&str, &[Ware])) -> Vec<usize> {
        let is_theirs = |lot: &Lot| lot.whose.as_ref().is_some_and(|whose| whose.serves(eater, without));
        self.good_lots(of, when.into(), First::Opened, is_theirs)
    }

    fn good_lots(&self, of: Ware, when: When, first: First, is_meant: impl Fn(&Lot) -> bool) -> Vec<usize> {
        let lots = self.by_ware.get(&of).map(Vec::as_slice).unwrap_or_default();
        let is_good = |lot: usize| match when {
            When::On(day) => self.lots[lot].made.is_none_or(|made| made <= day) && self.dates[lot].may_be_drawn_on(day),
            When::Anyway(_) => true,
        };
        let mut drawable: Vec<usize> =
            lots.iter().copied().filter(|&lot| self.has_left(lot) && is_good(lot) && is_meant(&self.lots[lot])).collect();
        drawable.sort_by_key(|&lot| (self.ranks_by(lot).is_none(), self.ranks_by(lot), lot));
        let is_closed = |lot: usize| self.lots[lot].pack.is_some();
        match first {
            First::Closed => drawable.sort_by_key(|&lot| !is_closed(lot)),
            First::Opened => {
                let closed = drawable.iter().position(|&lot| is_closed(lot)).unwrap_or(drawable.len());
                // Loose lots keep their rank.
                let is_open = |lot: usize| !is_closed(lot) && self.lots[lot].opened.is_some();
                drawable[closed..].sort_by_key(|&lot| !is_open(lot));
            }
        }
        // What came later was hardly eaten before: only where nothing else is left.
        drawable.sort_by_key(|&lot| self.came_later(lot, when.day()));
        drawable
    }

    /// The date by which it ranks.
    fn ranks_by(&self, lot: usize) -> Option<Date> {
        self.dates[lot].earliest.or(self.undated)
    }

    fn came_later(&self, lot: usize, day: Date) -> bool {
        self.lots[lot].since.is_some_and(|since| since > day)
    }

    pub fn has_left(&self, lot: usize) -> bool {
        let whole = self.kitchen.lots.get(lot).map_or(&self.lots[lot].amount, |lot| &lot.amount);
        !is_nothing_of(self.lots[lot].amount.exact(), whole.exact())
    }

    /// What is left of a lot, in its own unit.
    pub fn left(&self, lot: usize) -> &Quantity {
        &self.lots[lot].amount
    }

    /// All lots with what is left of each: those of the kitchen in their order, then what is left of packs opened meanwhile.
    pub fn lots(&self) -> &[Lot] {
        &self.lots
    }

    /// What is left of packs of this lot that were opened meanwhile.
    pub fn opened_of(&self, lot: usize) -> impl Iterator<Item = usize> {
        self.pack_of.iter().enumerate().filter(move |(_, pack_of)| **pack_of == Some(lot)).map(|(index, _)| index)
    }

    pub fn dates(&self, lot: usize) -> LotDates {
        self.dates[lot]
    }
}

/// How much of closed packs stays closed once `wanted` is taken of them, and what is left of the one that is opened for it.
fn whole_packs(have: &Number, size: &Number, wanted: &Number, rest: &Number) -> (Number, Number) {
    let packs = wanted / size;
    let near = packs.round();
    if is_nothing_of(&(&packs - &near).abs(), &near) {
        return (have - near * size, Number::ZERO);
    }
    let begun = packs.ceil() * size;
    let opened = &begun - wanted;
    (have - begun, if opened < *rest { Number::ZERO } else { opened })
}
