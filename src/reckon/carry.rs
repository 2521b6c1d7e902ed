//! Next week begins where this one ends: what the other weeks have yet to take off the shelf is taken first.
//!
//! Another week's uses count from today up to the first trip of the week that is reckoned, and to its own end where it began
//! earlier: the last suppers of this week come off the shelf that next week's list looks at, even when the shopping is done before.
//! What is booked is off the shelf already, and what lies before today is taken as done. What its sessions will have to spare by then
//! lies on the shelf like any cooked lot; what its trips will leave over is not counted before it is there.
//!
//! Another week's uses are netted first from today up to the first trip, and to that week's end where it began earlier:
//! its last suppers come off the same shelf although the shopping for the next is done before. Its sessions' spare is a
//! lot by then; what its trips will leave over is not, before it is received. Uses before today are taken as done and
//! off the shelf, because `pantry.toml` says what is there now.

use std::borrow::Cow;

use jiff::civil::Date;

use super::lived::Lived;
use crate::foods::Place;
use crate::kitchen::{Kitchen, Lot, Recipe, Ware, Warning, Week};
use crate::measure::{Number, Quantity, is_nothing_of};
use crate::pantry::{self, Netted};
use crate::plan::{self, Makings};
use crate::purchase::Reserved;

/// A kitchen whose shelf is as the other weeks leave it.
#[derive(Debug, Clone)]
pub(super) struct Carried<'k> {
    pub kitchen: Cow<'k, Kitchen>,
    /// What was taken, one entry a week and lot.
    pub reserved: Vec<Reserved>,
    pub warnings: Vec<Warning>,
}

/// Takes off the shelf what is open of `others` and used before `lived` does.
pub(super) fn carry<'k>(kitchen: Cow<'k, Kitchen>, others: &[Lived], lived: &Lived, today: Date) -> Carried<'k> {
    let (first, _) = plan::span(&lived.week);
    let trip = lived.week.trips.iter().map(|trip| trip.on).min().unwrap_or(first);
    let mut carried = Carried { kitchen, reserved: Vec::new(), warnings: Vec::new() };
    let mut others: Vec<&Lived> = others.iter().collect();
    others.sort_by_key(|other| plan::span(&other.week).0);
    for other in others {
        let until = if plan::span(&other.week).0 < first { Date::MAX } else { trip };
        let has_begun = other.standing.has_begun();
        carried.take(&Uses { week: &other.open(), has_begun, from: today, until }, first);
    }
    carried
}

/// The uses of a week that are still to come, up to a day that is not counted any more.
struct Uses<'w> {
    week: &'w Week,
    from: Date,
    until: Date,
    has_begun: bool,
}

impl Uses<'_> {
    fn counts_on(&self, day: Date) -> bool {
        self.from <= day && day < self.until
    }

    /// The week with the meals that are still to come.
    fn rest(&self) -> Week {
        let mut rest = self.week.clone();
        rest.meals.retain(|meal| self.counts_on(meal.at_time.date()));
        rest
    }
}

impl Carried<'_> {
    fn take(&mut self, uses: &Uses, first: Date) {
        let rest = uses.rest();
        if rest.meals.is_empty() {
            return;
        }
        let planned = if uses.has_begun { Ok(plan::plan_begun(&self.kitchen, &rest)) } else { plan::plan(&self.kitchen, &rest) };
        let Ok(mut makings) = planned else {
            let text = format!("{} has a meal that cannot be made, so what it takes off the shelf is not counted here.", rest.name);
            self.warnings.push(Warning::Note { at: Some(rest.at.clone()), text });
            return;
        };
        let mut demanded = plan::demand(&self.kitchen, &rest, &makings);
        demanded.demand.retain(|demand| uses.counts_on(demand.on));
        makings.cooked_draws.retain(|draw| uses.counts_on(draw.on));
        let netted = pantry::net(&self.kitchen, &rest, &makings, &demanded);
        self.reserved.extend(reserved(&self.kitchen.lots, &rest, &netted));
        let kitchen = self.kitchen.to_mut();
        kitchen.lots = netted.lots;
        kitchen.lots.retain(|lot| !lot.amount.is_zero());
        let spare = spare(&kitchen.recipes, &rest, &makings, uses, first);
        kitchen.lots.extend(spare);
    }
}

/// What was taken out of each lot, in the lot's own measure; packs opened meanwhile count as of their lot.
fn reserved(lots: &[Lot], week: &Week, netted: &Netted) -> Vec<Reserved> {
    let mut reserved = Vec::new();
    for (index, lot) in lots.iter().enumerate() {
        let is_of = |other: usize| other == index || netted.pack_of.get(&other) == Some(&index);
        let left = netted.lots.iter().enumerate().filter(|(other, _)| is_of(*other)).map(|(_, lot)| lot.amount.exact()).sum::<Number>();
        let taken = lot.amount.exact() - left;
        if is_nothing_of(&taken, lot.amount.exact()) {
            continue;
        }
        let taken = Quantity::of(&lot.amount.dimension(), taken);
        let mine = || netted.draws.iter().filter(|draw| is_of(draw.lot));
        let mut what_for: Vec<String> = Vec::new();
        for what in mine().flat_map(|draw| &draw.what_for) {
            if !what_for.contains(what) {
                what_for.push(what.clone());
            }
        }
        reserved.push(Reserved {
            week: week.name.clone(),
            of: lot.of,
            amount: taken,
            place: lot.place,
            last_used: mine().map(|draw| draw.on).max().unwrap_or(week.from),
            what_for,
        });
    }
    reserved
}

/// What the sessions to come leave to spare before the week that is reckoned begins, and is still good then.
fn spare(recipes: &[Recipe], week: &Week, makings: &Makings, uses: &Uses, first: Date) -> Vec<Lot> {
    let to_come = makings.makings.iter().filter(|making| uses.counts_on(making.on) && making.on < first);
    let spare = to_come.filter_map(|making| making.spare.as_ref()).filter(|spare| spare.eat_by >= first);
    spare
        .map(|spare| Lot {
            of: Ware::Recipe(spare.recipe),
            amount: spare.amount.clone(),
            pack: None,
            place: if spare.frozen { Place::Freezer } else { recipes[spare.recipe].reach().1 },
            best_before: None,
            use_by: None,
            opened: None,
            since: None,
            made: Some(spare.made_on),
            paid: None,
            at: week.at.clone(),
        })
        .collect()
}
