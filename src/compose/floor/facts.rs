//! What is known of each food before a way is chosen: what the shelf holds of it, whether what is left keeps, in which packs it is sold.
//!
//! Amounts are told in minor units at the food's least unit price.

use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;

use super::super::bound::{Reckoner, sized_lines};
use super::super::table::Table;
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, PackKind, ShopId, Ware};
use crate::measure::Dimension;
use crate::pantry::last_day;
use crate::shelf::after_days;

/// What is left counts as kept where it is good for so many days after the week's last.
const A_WEEK: i64 = 7;

/// So many packs are weighed against each other; of more, the least unit price counts.
const MOST_PACKS: f64 = 24.0;

/// So many sums of packs are held of one food.
const MOST_SUMS: usize = 200;

/// Which foods are counted by use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// All that the shelf holds nothing of.
    Most,
    /// Of those, what keeps.
    Keeping,
}

pub const SIDES: [Side; 2] = [Side::Most, Side::Keeping];

#[derive(Debug, Clone, Default)]
pub struct FoodFacts {
    pub on_shelf: f64,
    /// What is left of it after the week is worth something.
    pub keeps: bool,
    /// A pack may count as the size that a line states, a tenth larger than it is.
    pub sized: f64,
    /// The most that open meals can ask for, at the least unit price.
    pub most: f64,
    pub sold: Option<Sold>,
}

/// How a food is sold that is sold in packs of one dimension alone.
#[derive(Debug, Clone)]
pub struct Sold {
    pub dimension: Dimension,
    /// Sizes at the least unit price, and prices.
    packs: Vec<(f64, f64)>,
    /// Who sells each of them.
    shops: Vec<ShopId>,
    /// The least unit price: minor units for one unit of the dimension.
    pub unit: f64,
}

impl FoodFacts {
    pub fn by_use(&self, side: Side) -> bool {
        self.on_shelf <= 0.0 && (side == Side::Most || self.keeps)
    }

    /// How much packs hold and what they cost: of any number of packs up to [`MOST_PACKS`], those that nothing as cheap holds more than.
    /// Empty where packs cannot be compared.
    pub fn packs_by_size(&self, of: Option<ShopId>) -> Vec<(f64, f64)> {
        let Some(Sold { packs: all, shops, .. }) = &self.sold else { return Vec::new() };
        let here = all.iter().zip(shops).filter(|(_, shop)| of.is_none_or(|of| of == **shop));
        let mut packs: Vec<(f64, f64)> = here.map(|(pack, _)| *pack).collect();
        // What a shop does not sell is bought all the same, elsewhere.
        if packs.is_empty() {
            packs.extend(all);
        }
        let mut front = vec![(0.0, 0.0)];
        for _ in 0..MOST_PACKS as usize {
            let more: Vec<(f64, f64)> =
                front.iter().flat_map(|(held, price)| packs.iter().map(move |(size, more)| (held + size, price + more))).collect();
            front.extend(more);
            front.sort_by(|one: &(f64, f64), other| other.0.total_cmp(&one.0).then(one.1.total_cmp(&other.1)));
            let mut least = f64::MAX;
            front.retain(|(_, price)| {
                let is_cheaper = *price < least - 1e-9;
                least = least.min(*price);
                is_cheaper
            });
            front.reverse();
            front.truncate(MOST_SUMS);
        }
        front
    }

    /// The least price of packs that hold so much, all in minor units at the least unit price.
    pub fn covered(&self, must: f64) -> f64 {
        let Some(Sold { packs, .. }) = self.sold.as_ref().filter(|_| !self.keeps && must > 1e-6) else { return must };
        let smallest = packs.iter().map(|(size, _)| *size).fold(f64::MAX, f64::min);
        if packs.is_empty() || must / smallest > MOST_PACKS {
            return must;
        }
        cover(packs, must)
    }
}

/// Packs that may be taken any number of times, until they hold what must be held.
fn cover(packs: &[(f64, f64)], must: f64) -> f64 {
    let mut known: Vec<(f64, f64)> = vec![(0.0, 0.0)];
    let mut best = f64::MAX;
    // Every sum of packs that is still too small, each at its least price: few, because the packs are.
    while let Some((held, price)) = known.pop() {
        for (size, more) in packs {
            let (held, price) = (held + size, price + more);
            if price >= best {
                continue;
            }
            if held >= must - 1e-6 {
                best = price;
            } else if known.len() < 4_000 {
                known.push((held, price));
            } else {
                return must;
            }
        }
    }
    best.min(f64::MAX)
}

pub fn facts(table: &Table, reckoner: &Reckoner) -> BTreeMap<FoodId, FoodFacts> {
    let kitchen = table.kitchen();
    let tins = sized_lines(table);
    let whole = &table.trials.whole;
    let last = last_day(whole);
    let last_trip = whole.trips.iter().map(|trip| trip.on).max().unwrap_or(last);
    // A week that has begun may get a trip of its own on any day.
    let from = if table.trials.has_begun() { last } else { last_trip };
    let keeps_until = last.saturating_add(A_WEEK.days());
    let mut foods: BTreeMap<FoodId, FoodFacts> = BTreeMap::new();
    let sold: BTreeSet<FoodId> = kitchen.packs.iter().map(|pack| pack.food).collect();
    for food in sold {
        let known = &kitchen.foods[food];
        let keeps = [&known.keeps.cupboard, &known.keeps.fridge].into_iter().flatten().map(|fact| fact.value).max();
        let is_staple = kitchen.staples.iter().any(|staple| staple.food == food);
        let keeps = is_staple || keeps.is_none_or(|days| after_days(from, days) >= keeps_until);
        let sized = if tins.contains(&food) { 0.9 } else { 1.0 };
        foods.insert(food, FoodFacts { keeps, sized, sold: sold_in_packs(kitchen, food), ..FoodFacts::default() });
    }
    for lot in &kitchen.lots {
        if let Ware::Food(food) = lot.of {
            foods.entry(food).or_default().on_shelf += reckoner.least_price_of(food, &lot.amount).max(f64::MIN_POSITIVE);
        }
    }
    foods
}

/// `None` where it is sold in other ways as well.
fn sold_in_packs(kitchen: &Kitchen, food: FoodId) -> Option<Sold> {
    let (mut packs, mut shops) = (Vec::new(), Vec::new());
    let mut dimension = None;
    for pack in kitchen.packs.iter().filter(|pack| pack.food == food) {
        let PackKind::Sized { size, price, offer, drained: None, .. } = &pack.kind else { return None };
        if *dimension.get_or_insert_with(|| size.dimension()) != size.dimension() {
            return None;
        }
        packs.extend(price.map(|price| (size.base(), price.0 as f64)));
        packs.extend(offer.map(|offer| (size.base() * f64::from(offer.buy), offer.pay.0 as f64)));
        shops.resize(packs.len(), pack.shop);
    }
    let unit = packs.iter().filter(|(size, _)| *size > 0.0).map(|(size, price)| price / size).min_by(f64::total_cmp)?;
    packs.iter_mut().for_each(|(size, _)| *size *= unit);
    (unit > 0.0).then_some(Sold { dimension: dimension?, packs, shops, unit })
}
