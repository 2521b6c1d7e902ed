//! What the week leaves behind: what is left over, which recipes would use it up, and what the money was spent on.
//!
//! Knows what was paid and what stays; not how packs were chosen.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;

use super::Basket;
use super::left_over::{Leaves, Leftover, Worth};
use super::paid::Paid;
use super::recipes::{InHand, recipe_uses};
use crate::foods::{FoodId, Foods};
use crate::kitchen::{Kitchen, Recipe, Ware, Week};
use crate::measure::{Dimension, Money, Quantity, tidy};
use crate::pantry::{Netted, last_day};
use crate::shelf::{Prices, lot_dates, rounded};

/// What is left counts as kept where it is good for so many days after the week's last.
const A_WEEK: i64 = 7;

/// What the trips leave behind; their cost is `cost`. Lots that may no longer be drawn on `first_day` are of no use.
pub(super) fn leaves(kitchen: &Kitchen, week: &Week, netted: &Netted, basket: &Basket, cost: Money, first_day: Date) -> Leaves {
    let paid: Vec<&Paid> = basket.paid.iter().collect();
    let prices = Prices::new(kitchen).with_list(listed(basket));
    let left = left_over(&paid);
    let mut in_hand: Vec<InHand> = left.iter().map(Left::in_hand).collect();
    in_hand.extend(expiring(&kitchen.foods, &kitchen.recipes, netted, &prices, first_day));
    in_hand.sort_by_key(|lot| (lot.until.is_none(), lot.until));
    Leaves {
        leftovers: left.iter().map(Left::over).collect(),
        uses: recipe_uses(kitchen, in_hand),
        worth: split(&paid, cost, last_day(week)),
    }
}

/// Where the money of a basket goes.
pub fn worth(week: &Week, basket: &Basket) -> Worth {
    split(&basket.paid.iter().collect::<Vec<_>>(), basket.cost, last_day(week))
}

/// What a basket pays: of each food how much it buys, and for how much.
pub fn listed(basket: &Basket) -> impl Iterator<Item = (FoodId, Quantity, Money)> {
    let bought = basket.paid.iter().filter(|paid| paid.bought > 0.0);
    bought.map(|paid| (paid.food, Quantity::of(&paid.dimension, paid.bought), paid.cost))
}

/// What a basket leaves over; what goes off first stands first.
pub fn leftovers(basket: &Basket) -> Vec<Leftover> {
    left_over(&basket.paid.iter().collect::<Vec<_>>()).iter().map(Left::over).collect()
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
    fn over(&self) -> Leftover {
        let amount = Quantity::of(&self.dimension, tidy(self.amount));
        Leftover { food: self.food, amount, value: rounded(self.value), until: self.until }
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

fn expiring(foods: &Foods, recipes: &[Recipe], netted: &Netted, prices: &Prices, first_day: Date) -> Vec<InHand> {
    let in_hand = |(lot, until): &(usize, Option<Date>)| {
        let lot = &netted.lots[*lot];
        let Ware::Food(food) = lot.of else { return None };
        if !lot_dates(foods, recipes, lot).may_be_drawn_on(first_day) {
            return None;
        }
        let rate = prices.of_lot(lot).unwrap_or(0.0);
        Some(InHand { food, dimension: lot.amount.dimension(), left: lot.amount.base(), rate, until: *until })
    };
    netted.expiring.iter().filter_map(in_hand).collect()
}

/// Each amount that stays is rounded to the minor unit; what is used is the rest, so that the three add up to the cost.
fn split(paid: &[&Paid], cost: Money, last_day: Date) -> Worth {
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
    Worth { used: cost - keeps - spoils, keeps, spoils }
}
