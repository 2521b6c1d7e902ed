//! What was paid for one food on one trip, and what of it stays once the week is over.
//!
//! Knows a need and what was bought for it; no other need, no recipe.
//!
//! Left-overs keep from the trip, as long as they do where they are put away; a pack that had to be opened keeps its opened days
//! from the first use of its window, whichever ends first. What is left *keeps* where it is good seven days after the
//! week's last; no known keeping time keeps. A staple's top-up is no left-over, but counts among what keeps or spoils.
//! Fares, and what rounding leaves over, count as used.

use jiff::civil::Date;

use super::ask::{Ask, Window, WindowFor};
use super::choose::AtShop;
use crate::foods::{FoodId, Place};
use crate::measure::{Days, Dimension, Money, Number, tidy};
use crate::shelf::after_days;

/// One food of one trip. Amounts are in base units of `dimension`, as purchased.
#[derive(Debug, Clone, PartialEq)]
pub struct Paid {
    pub food: FoodId,
    /// Index into the week's trips.
    pub trip: usize,
    pub dimension: Dimension,
    /// Everything that was bought.
    pub bought: f64,
    pub cost: Money,
    pub stays: Vec<Stay>,
}

/// An amount that nothing in the week uses.
#[derive(Debug, Clone, PartialEq)]
pub struct Stay {
    pub amount: f64,
    /// The last day it is good; `None` where no keeping time is known.
    pub until: Option<Date>,
    /// A staple's top-up: it stays on the shelf, and is no left-over.
    pub top_up: bool,
}

impl Paid {
    pub(super) fn of(trip: usize, ask: &Ask, there: &AtShop, came: Came) -> Paid {
        let whole = &there.bought.whole;
        Paid {
            food: ask.need.food,
            trip,
            dimension: ask.need.dimension.clone(),
            bought: ask.total.to_f64() + tidy(ask.base(there.left)) - ask.base(whole.short),
            cost: Money(whole.price),
            stays: stays(ask, there, came),
        }
    }

    /// What an amount of it cost, not rounded, in minor units.
    pub fn share(&self, amount: f64) -> f64 {
        if self.bought > 0.0 { self.cost.0 as f64 * (amount / self.bought).min(1.0) } else { 0.0 }
    }
}

/// When goods come into the house, and where they are put away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Came {
    pub on: Date,
    pub to: Place,
}

/// What stays of what was bought. A pack that is still closed keeps from the trip, an opened one from the first use
/// of its window too, whichever ends first.
pub(super) fn stays(ask: &Ask, there: &AtShop, came: Came) -> Vec<Stay> {
    let keeps = &ask.food.keeps;
    let closed = keeps.at(came.to).map(|days| after_days(came.on, days));
    let opened = keeps.opened.as_ref().map(|fact| fact.value);
    let mut stays = Vec::new();
    let all_left = tidy(ask.base(there.left));
    if there.bought.whole.steps > 0 {
        stays.push(Stay { amount: all_left, until: closed, top_up: false });
    } else {
        for (window, counts) in there.windows.iter().zip(&there.bought.windows) {
            let (whole, rest) = whole_packs(ask, there, counts, left_in(ask, there, window, counts));
            stays.push(Stay { amount: whole, until: closed, top_up: false });
            stays.push(Stay { amount: rest, until: opened_until(window, opened, closed), top_up: false });
        }
        stays.push(Stay { amount: ask.base(unasked(there)), until: closed, top_up: false });
        // Pieces are rounded over the trip, not per window: what the line says is left is what counts.
        let sum: f64 = stays.iter().map(|stay| stay.amount).sum();
        stays.iter_mut().filter(|_| sum > 0.0).for_each(|stay| stay.amount *= all_left / sum);
    }
    let top_up: Number = ask.need.uses.iter().filter(|part| part.top_up).map(|part| &part.amount).sum();
    stays.push(Stay { amount: top_up.to_f64(), until: closed, top_up: true });
    stays.retain(|stay| stay.amount > 0.0);
    stays
}

fn held(there: &AtShop, counts: &[i64]) -> i64 {
    there.stocked.shelf.sized.iter().zip(counts).map(|(sized, count)| sized.size.saturating_mul(*count)).fold(0, i64::saturating_add)
}

fn left_in(ask: &Ask, there: &AtShop, window: &Window, counts: &[i64]) -> i64 {
    let need = if let WindowFor::Taste(_) = window.what { 0 } else { ask.units(&window.amount) };
    (held(there, counts) - need).max(0)
}

/// Packs bought to fill up an offer, for no window.
fn unasked(there: &AtShop) -> i64 {
    let asked: i64 = there.bought.windows.iter().map(|counts| held(there, counts)).fold(0, i64::saturating_add);
    (held(there, &there.bought.whole.counts) - asked).max(0)
}

/// What is left in packs that need not be opened, and what is left in an opened one.
fn whole_packs(ask: &Ask, there: &AtShop, counts: &[i64], left: i64) -> (f64, f64) {
    let mut rest = left;
    for (sized, count) in there.stocked.shelf.sized.iter().zip(counts) {
        let single = (sized.size / sized.singles).max(1);
        rest -= single * (rest / single).min(count.saturating_mul(sized.singles));
    }
    (ask.base(left - rest), ask.base(rest))
}

fn opened_until(window: &Window, opened: Option<Days>, closed: Option<Date>) -> Option<Date> {
    let first = match window.what {
        WindowFor::Day(first) | WindowFor::Taste(first) => Some(first),
        WindowFor::Shelf => None,
    };
    let opened = first.zip(opened).map(|(first, days)| after_days(first, days));
    [opened, closed].into_iter().flatten().min()
}
