//! A trip that is no longer open, as its print told it: what was to be bought, and where. What was left over of it is on the shelf.

use super::buys::{Buy, Seller, TripBuys};
use super::list::{Section, ShopVisit, Stop, TripList};
use super::list_line::{ListLine, PackLine};
use crate::foods::{FoodId, Foods};
use crate::kitchen::{Kitchen, Pack, ShopId, Trip};
use crate::measure::{Money, Quantity};
use crate::plan::State;

impl TripList {
    /// A trip of which nobody knows what it bought.
    pub fn untold(trip: &Trip, state: State) -> TripList {
        TripList {
            on: trip.on,
            cost: Money::ZERO,
            planned: trip.planned,
            nth: trip.nth,
            before: None,
            state: Some(state),
            shops: Vec::new(),
            not_booked: Vec::new(),
        }
    }

    /// As it was printed: shops in their order, lines by section.
    pub fn told(kitchen: &Kitchen, buys: &TripBuys, state: State) -> TripList {
        TripList::told_with(kitchen, buys, state, |shop| kitchen.shops[shop].trip)
    }

    /// The same, where it is known what the way to each shop cost. What no shop is named for stands last.
    pub fn told_with(kitchen: &Kitchen, buys: &TripBuys, state: State, fare: impl Fn(ShopId) -> Money) -> TripList {
        let mut sellers: Vec<Option<ShopId>> = Vec::new();
        for line in &buys.lines {
            let at = shop_of(line);
            if !sellers.contains(&at) {
                sellers.push(at);
            }
        }
        sellers.sort_by_key(Option::is_none);
        let visits: Vec<ShopVisit> = sellers.into_iter().map(|at| visit(kitchen, buys, at, &fare)).collect();
        let cost = visits.iter().map(|visit| visit.at.map_or(Money::ZERO, |stop| stop.cost)).sum();
        TripList {
            on: buys.on,
            cost,
            planned: buys.is_planned(),
            nth: buys.nth,
            before: None,
            state: Some(state),
            shops: visits,
            not_booked: Vec::new(),
        }
    }
}

fn shop_of(line: &Buy) -> Option<ShopId> {
    if let Seller::Shop(shop) = line.from { Some(shop) } else { None }
}

fn visit(kitchen: &Kitchen, buys: &TripBuys, at: Option<ShopId>, fare: &impl Fn(ShopId) -> Money) -> ShopVisit {
    let mut sections: Vec<Section> = Vec::new();
    let mut cost = Money::ZERO;
    for buy in buys.lines.iter().filter(|line| shop_of(line) == at) {
        cost += buy.cost.unwrap_or(Money::ZERO);
        let name = buy.beside.section.clone().unwrap_or_else(|| section_of(&kitchen.foods, &kitchen.packs, buy.food));
        match sections.iter_mut().find(|section| section.section == name) {
            Some(section) => section.lines.push(line(buy)),
            None => sections.push(Section { section: name, lines: vec![line(buy)] }),
        }
    }
    let fare = at.map_or(Money::ZERO, fare);
    ShopVisit { at: at.map(|shop| Stop { shop, fare, cost: cost + fare }), sections }
}

fn section_of(foods: &Foods, packs: &[Pack], food: FoodId) -> String {
    let of_pack = packs.iter().find(|pack| pack.food == food).and_then(|pack| pack.section.clone());
    of_pack.or_else(|| foods[food].section.clone()).unwrap_or_else(|| "Other".to_owned())
}

fn line(buy: &Buy) -> ListLine {
    let nothing = || Quantity::of(&buy.need.dimension(), 0);
    let beside = buy.beside.clone();
    // The print tells what a line cost, not each pack of it: the first stands for all.
    let cost_of = |index: usize| if index == 0 { buy.cost.unwrap_or(Money::ZERO) } else { Money::ZERO };
    let packs = buy.packs.iter().enumerate().map(|(index, what)| PackLine { what: what.clone(), offer: None, cost: cost_of(index) });
    ListLine {
        food: buy.food,
        need: buy.need.clone(),
        packs: packs.collect(),
        cost: buy.cost,
        left: beside.left.unwrap_or_else(nothing),
        left_until: beside.left_until,
        short: beside.short.unwrap_or_else(nothing),
        demand: buy.need.clone(),
        last_used: beside.last_used,
        what_for: beside.what_for,
        top_up: beside.top_up,
        asked: None,
        about: None,
        fresh: false,
        own_words: Vec::new(),
        windows: None,
        beware: None,
        optional: false,
        instead: Vec::new(),
        without: None,
    }
}
