//! What the week leaves behind: what is left over, which recipes would use it up, and what the money was spent on.
//!
//! Knows what was paid and what stays; not how packs were chosen.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;

use super::Basket;
use super::list::{Leaves, Leftover, Worth};
use super::paid::Paid;
use super::recipes::{InHand, recipe_uses};
use crate::foods::{FoodId, convert};
use crate::kitchen::{Kitchen, PackKind, Ware, Week};
use crate::measure::{Currency, Dimension, Money, Quantity, tidy};
use crate::pantry::{Netted, last_day, lot_dates};

/// What is left counts as kept where it is good for so many days after the week's last.
const A_WEEK: i64 = 7;

/// What the trips `shown` leave behind; their cost is `cost`. Lots that may no longer be drawn on `first_day` are of no use.
pub(super) fn leaves(
    kitchen: &Kitchen,
    week: &Week,
    netted: &Netted,
    basket: &Basket,
    shown: &dyn Fn(usize) -> bool,
    cost: Money,
    first_day: Date,
) -> Leaves {
    let paid: Vec<&Paid> = basket.paid.iter().filter(|paid| shown(paid.trip)).collect();
    let prices = Prices { kitchen, paid: &basket.paid };
    let left = left_over(&paid);
    let mut in_hand: Vec<InHand> = left.iter().map(Left::in_hand).collect();
    in_hand.extend(expiring(kitchen, netted, &prices, first_day));
    in_hand.sort_by_key(|lot| (lot.until.is_none(), lot.until));
    let currency = &kitchen.household.currency;
    Leaves {
        leftovers: left.iter().map(|left| left.said(kitchen, currency)).collect(),
        uses: recipe_uses(kitchen, in_hand),
        worth: worth(&paid, cost, last_day(week), currency),
    }
}

/// One food's left-overs that are good until one day.
struct Left {
    food: FoodId,
    dimension: Dimension,
    until: Option<Date>,
    amount: f64,
    /// Minor units, not rounded.
    value: f64,
}

impl Left {
    fn said(&self, kitchen: &Kitchen, currency: &Currency) -> Leftover {
        Leftover {
            food: kitchen.foods[self.food].name.clone(),
            amount: Quantity::of(&self.dimension, tidy(self.amount)),
            value: rounded(self.value).decimal(currency),
            until: self.until,
        }
    }

    fn in_hand(&self) -> InHand {
        let rate = self.value / self.amount;
        InHand { food: self.food, dimension: self.dimension.clone(), left: self.amount, rate, until: self.until }
    }
}

/// What goes off first stands first; what keeps for ever last.
fn left_over(paid: &[&Paid]) -> Vec<Left> {
    let mut left: Vec<Left> = Vec::new();
    for paid in paid {
        for stay in paid.stays.iter().filter(|stay| !stay.top_up) {
            let same = |left: &&mut Left| (left.food, &left.dimension, left.until) == (paid.food, &paid.dimension, stay.until);
            let (amount, value) = (stay.amount, paid.share(stay.amount));
            match left.iter_mut().find(same) {
                Some(there) => {
                    there.amount += amount;
                    there.value += value;
                }
                None => left.push(Left { food: paid.food, dimension: paid.dimension.clone(), until: stay.until, amount, value }),
            }
        }
    }
    left.sort_by_key(|left| (left.until.is_none(), left.until));
    left
}

fn expiring(kitchen: &Kitchen, netted: &Netted, prices: &Prices, first_day: Date) -> Vec<InHand> {
    let in_hand = |(lot, amount, until): &(usize, Quantity, Date)| {
        let lot = &kitchen.lots[*lot];
        let Ware::Food(food) = lot.of else { return None };
        if !lot_dates(kitchen, lot).may_be_drawn_on(first_day) {
            return None;
        }
        let dimension = amount.dimension();
        let rate = prices.rate(food, &dimension).unwrap_or(0.0);
        Some(InHand { food, dimension, left: amount.base(), rate, until: Some(*until) })
    };
    netted.expiring.iter().filter_map(in_hand).collect()
}

/// What a lot is worth: nobody wrote down what was paid for it.
struct Prices<'a> {
    kitchen: &'a Kitchen,
    paid: &'a [Paid],
}

impl Prices<'_> {
    /// Minor units for one base unit: as this week's list pays, else the lowest price in any shop.
    fn rate(&self, food: FoodId, dimension: &Dimension) -> Option<f64> {
        let paid = self.paid.iter().find(|paid| paid.food == food && paid.bought > 0.0);
        if let Some(rate) =
            paid.and_then(|paid| self.per_unit(food, dimension, &Quantity::of(&paid.dimension, paid.bought), paid.cost.0 as f64))
        {
            return Some(rate);
        }
        let packs = self.kitchen.packs.iter().filter(|pack| pack.food == food);
        let rates = packs.filter_map(|pack| match &pack.kind {
            PackKind::Sized { size, price, .. } => self.per_unit(food, dimension, size, price.as_ref()?.0 as f64),
            PackKind::Loose { price, .. } => {
                let price = price.as_ref()?;
                self.per_unit(food, dimension, &price.per, price.minor_e4 as f64 / 1e4)
            }
        });
        rates.min_by(f64::total_cmp)
    }

    fn per_unit(&self, food: FoodId, dimension: &Dimension, amount: &Quantity, minor: f64) -> Option<f64> {
        let amount = convert(&self.kitchen.foods[food], amount, dimension).ok()?.base();
        (amount > 0.0).then(|| minor / amount)
    }
}

/// Each amount that stays is rounded to the minor unit; what is used is the rest, so that the three add up to the cost.
fn worth(paid: &[&Paid], cost: Money, last_day: Date, currency: &Currency) -> Worth {
    let keeps_until = last_day.saturating_add(A_WEEK.days());
    let mut sums: BTreeMap<bool, f64> = BTreeMap::new();
    for paid in paid {
        for stay in &paid.stays {
            let keeps = stay.until.is_none_or(|until| until >= keeps_until);
            *sums.entry(keeps).or_default() += paid.share(stay.amount);
        }
    }
    let sum = |keeps: bool| rounded(sums.get(&keeps).copied().unwrap_or(0.0));
    let keeps = sum(true).min(cost);
    let spoils = sum(false).min(cost - keeps);
    let used = cost - keeps - spoils;
    Worth { used: used.decimal(currency), keeps: keeps.decimal(currency), spoils: spoils.decimal(currency) }
}

/// Half up; the noise of adding shares is taken off first.
pub(super) fn rounded(minor: f64) -> Money {
    Money((tidy(minor) + 0.5).floor() as i64)
}
