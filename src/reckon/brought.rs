//! A trip that was booked, as the book has it: its foods, amounts, packs, money and shops. The book does not know what was needed, for what
//! and until when: that is said as it was printed, and so is the section.

use std::collections::BTreeMap;

use crate::book::{Booked, Brought, LotRecord, as_lot};
use crate::foods::{FoodId, convert};
use crate::kitchen::{Kitchen, Lot, ShopId, Trip, Ware};
use crate::measure::{Money, Number, Quantity, Units, show};
use crate::plan::State;
use crate::purchase::{Beside, Buy, Packed, Seller, TripBuys, TripList};
use crate::shelf::worth;

/// What it brought and what was paid for it; `None` where the book does not say it any more.
pub(super) fn as_booked(kitchen: &Kitchen, trip: &Trip, booked: &Booked, printed: Option<&TripBuys>) -> Option<TripList> {
    let brought = booked.brought(trip.on, trip.nth);
    let goods = goods(kitchen, &brought);
    if goods.is_empty() {
        return None;
    }
    let listed: &[Buy] = printed.map_or(&[], |printed| &printed.lines);
    let mut places: Vec<Option<usize>> = Vec::new();
    for bought in &goods {
        let free = |place: &usize| !places.contains(&Some(*place));
        let beside_the_list = || goods.iter().any(|other| other.food == bought.food && other.shop.is_some());
        let is_it = |line: &Buy| match bought.shop {
            Some(shop) => line.from == Seller::Shop(shop),
            // Older books do not say the shop.
            None => !beside_the_list(),
        };
        places.push((0..listed.len()).filter(free).find(|place| listed[*place].food == bought.food && is_it(&listed[*place])));
    }
    let mut lines: Vec<(Option<usize>, Buy)> = places
        .iter()
        .zip(&goods)
        .map(|(place, bought)| {
            (*place, place.map_or_else(|| bought.unlisted(printed.is_some()), |place| bought.as_listed(kitchen, &listed[place])))
        })
        .collect();
    // A line that was left unbought as a whole brought nothing.
    let is_left = |line: &Buy| line.packs.is_empty() && (line.cost.is_some() || line.need.is_zero());
    let missing = (0..listed.len()).filter(|place| !places.contains(&Some(*place)));
    let (left, not_booked): (Vec<usize>, Vec<usize>) = missing.partition(|place| is_left(&listed[*place]));
    lines.extend(left.into_iter().map(|place| (Some(place), listed[place].clone())));
    lines.sort_by_key(|(place, _)| place.unwrap_or(usize::MAX));
    let not_booked = not_booked.into_iter().map(|place| listed[place].food).collect();
    let fares = fares(kitchen, &brought);
    let paid = lines.iter().filter_map(|(_, line)| line.cost).sum::<Money>() + fares.values().copied().sum();
    let lines = lines.into_iter().map(|(_, line)| line).collect();
    let buys = TripBuys { on: trip.on, nth: trip.nth, shops: Vec::new(), lines, unknown: Vec::new() };
    let told = TripList::told_with(kitchen, &buys, State::Done, |shop| fares.get(&shop).copied().unwrap_or(Money::ZERO));
    Some(TripList { cost: paid, not_booked, ..told })
}

/// What it cost to get to the shops, of those that the kitchen still knows.
fn fares(kitchen: &Kitchen, brought: &Brought) -> BTreeMap<ShopId, Money> {
    let mut fares = BTreeMap::new();
    for (shop, fare) in &brought.fares {
        if let Some(shop) = shop_called(kitchen, shop) {
            *fares.entry(shop).or_insert(Money::ZERO) += Money(*fare);
        }
    }
    fares
}

fn shop_called(kitchen: &Kitchen, name: &str) -> Option<ShopId> {
    kitchen.shops.iter().position(|shop| shop.name == name).map(ShopId)
}

/// What was bought of one food in one shop.
struct Bought {
    food: FoodId,
    shop: Option<ShopId>,
    lots: Vec<(Lot, Option<f64>)>,
}

fn goods(kitchen: &Kitchen, brought: &Brought) -> Vec<Bought> {
    let mut goods: Vec<Bought> = Vec::new();
    let known = |record: &LotRecord| {
        let lot = as_lot(kitchen, record)?;
        let Ware::Food(food) = lot.of else { return None };
        Some((food, (lot, record.rate_paid())))
    };
    for (record, shop) in &brought.lots {
        let Some((food, lot)) = known(record) else { continue };
        let shop = shop.and_then(|shop| shop_called(kitchen, shop));
        match goods.iter_mut().find(|bought| (bought.food, bought.shop) == (food, shop)) {
            Some(bought) => bought.lots.push(lot),
            None => goods.push(Bought { food, shop, lots: vec![lot] }),
        }
    }
    goods
}

impl Bought {
    /// Of something that no list named: where there was a list, nobody needed it.
    fn unlisted(&self, is_beside: bool) -> Buy {
        let amount = self.amount().unwrap_or_else(|| self.lots[0].0.amount.clone());
        let nothing = Quantity::of(&amount.dimension(), 0);
        let (need, left) = if is_beside { (nothing, Some(amount)) } else { (amount, None) };
        Buy {
            food: self.food,
            from: self.shop.map_or(Seller::Anywhere, Seller::Shop),
            need,
            packs: self.packs(),
            cost: self.cost(),
            beside: Beside { left, ..Beside::default() },
            opened: Vec::new(),
        }
    }

    /// Of a line of the list; where the packs are those of the list, in its words.
    fn as_listed(&self, kitchen: &Kitchen, line: &Buy) -> Buy {
        let cost = self.cost();
        if self.is_as_listed(line) {
            return Buy { cost, ..line.clone() };
        }
        let (left, short) = self.left_and_short(kitchen, line).unzip();
        let left_until = line.beside.left_until.filter(|_| left.as_ref().is_some_and(|left| !left.is_zero()));
        let beside = Beside { left, short, left_until, ..line.beside.clone() };
        Buy { packs: self.packs(), cost, beside, opened: Vec::new(), ..line.clone() }
    }

    /// As much, in packs of the same sizes?
    fn is_as_listed(&self, line: &Buy) -> bool {
        let listed = |packed: &Packed| match packed {
            Packed::Packs { single, .. } => (Some(single.clone()), packed.amount()),
            Packed::Loose(amount) => (None, amount.clone()),
        };
        let as_needed = || vec![(None, line.need.clone())];
        let listed: Vec<_> = if line.packs.is_empty() { as_needed() } else { line.packs.iter().map(listed).collect() };
        let brought: Vec<_> = self.lots.iter().map(|(lot, _)| (lot.pack.clone(), lot.amount.clone())).collect();
        let of_size = |all: &[(Option<Quantity>, Quantity)], size: &Option<Quantity>| -> Option<Quantity> {
            added(all.iter().filter(|(other, _)| are_one_size(other.as_ref(), size.as_ref())).map(|(_, amount)| amount.clone()))
        };
        let sizes = listed.iter().chain(&brought).map(|(size, _)| size);
        sizes.into_iter().all(|size| of_size(&listed, size).zip(of_size(&brought, size)).is_some_and(|(a, b)| are_alike(&a, &b)))
    }

    /// What was over or short as printed, and what was bought more or less.
    fn left_and_short(&self, kitchen: &Kitchen, line: &Buy) -> Option<(Quantity, Quantity)> {
        let own = line.need.dimension();
        let stated = |amount: Quantity| match amount.dimension() == own {
            true => Some(amount),
            false => convert(&kitchen.foods[self.food], &amount, &own).ok(),
        };
        let listed = added(line.packs.iter().map(Packed::amount)).unwrap_or_else(|| line.need.clone());
        let (listed, brought) = (stated(listed)?, stated(self.amount()?)?);
        let printed = |amount: &Option<Quantity>| amount.clone().and_then(stated).map(|amount| amount.exact().clone()).unwrap_or_default();
        let over = printed(&line.beside.left) - printed(&line.beside.short) + brought.exact() - listed.exact();
        let or_nothing = |amount: Number| Quantity::of(&own, amount.max(Number::ZERO));
        Some((or_nothing(over.clone()), or_nothing(Number::ZERO - over)))
    }

    fn amount(&self) -> Option<Quantity> {
        added(self.lots.iter().map(|(lot, _)| lot.amount.clone()))
    }

    fn packs(&self) -> Vec<Packed> {
        let mut packs: Vec<Packed> = Vec::new();
        for (lot, _) in &self.lots {
            let next = packed(lot);
            let same = packs.iter_mut().find_map(|known| match (known, &next) {
                (Packed::Packs { count, label, .. }, Packed::Packs { label: other, count: more, .. }) if label == other => {
                    Some((count, *more))
                }
                _ => None,
            });
            match same {
                Some((count, more)) => *count = count.saturating_add(more),
                None => packs.push(next),
            }
        }
        packs
    }

    fn cost(&self) -> Option<Money> {
        self.lots.iter().map(|(lot, rate)| rate.map(|rate| worth(&lot.amount, rate))).sum()
    }
}

fn packed(lot: &Lot) -> Packed {
    let in_packs = |pack: &Quantity| {
        let count = u32::try_from(lot.amount.ratio(pack)?.to_i64()?).ok()?;
        Some(Packed::Packs { count, size: pack.clone(), single: pack.clone(), label: show(pack, Units::Metric) })
    };
    lot.pack.as_ref().and_then(in_packs).unwrap_or_else(|| Packed::Loose(lot.amount.clone()))
}

fn added(amounts: impl Iterator<Item = Quantity>) -> Option<Quantity> {
    let mut amounts = amounts;
    let first = amounts.next()?;
    amounts.try_fold(first, |sum, next| sum.plus(&next))
}

fn are_one_size(a: Option<&Quantity>, b: Option<&Quantity>) -> bool {
    match (a, b) {
        (Some(a), Some(b)) => are_alike(a, b),
        (a, b) => a.is_none() && b.is_none(),
    }
}

/// To the thousandth to which a need is booked.
fn are_alike(a: &Quantity, b: &Quantity) -> bool {
    a.dimension() == b.dimension() && (a.base() - b.base()).abs() <= 0.001 + 1e-9 * a.base()
}
