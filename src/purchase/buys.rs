//! What a week's trips buy, as booking needs it: from the list as it is reckoned now, or as it was printed.

use std::collections::BTreeMap;

use jiff::civil::Date;

use sha2::{Digest, Sha256};

use super::list::{ShoppingList, TripList};
use super::list_line::{ListLine, Packed};
use crate::foods::FoodId;
use crate::kitchen::{Names, ShopId, Trip};
use crate::measure::{Money, Quantity, Units, show};

#[derive(Debug, Clone, PartialEq)]
pub struct WeekBuys {
    /// The name of the week.
    pub week: String,
    pub from: Date,
    pub trips: Vec<TripBuys>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct TripBuys {
    pub on: Date,
    /// Which trip of its day it is, as [`Trip::nth`].
    pub nth: usize,
    /// The shops that are visited.
    pub shops: Vec<ShopId>,
    /// In the order of the list.
    pub lines: Vec<Buy>,
    /// Foods that were printed and are not known any more, by name.
    pub unknown: Vec<String>,
}

/// By which a phone knows printed trips, each by its day and its number.
pub type TripHashes = BTreeMap<(Date, usize), String>;

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct Buy {
    pub food: FoodId,
    pub from: Seller,
    pub need: Quantity,
    /// None where nobody is known to sell it.
    pub packs: Vec<Packed>,
    /// The packs in the order in which the week opens them, where several sizes are opened more than once; else empty.
    pub opened: Vec<Packed>,
    /// `None` where no price is known.
    pub cost: Option<Money>,
    pub beside: Beside,
}

/// What else the list says of a line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Beside {
    /// `None` where it was not told; so with the amounts.
    pub section: Option<String>,
    pub left: Option<Quantity>,
    pub left_until: Option<Date>,
    pub short: Option<Quantity>,
    pub last_used: Option<Date>,
    /// Names of recipes and meals, and "staple" where it was read from a print.
    pub what_for: Vec<String>,
    pub top_up: bool,
}

/// Where something is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seller {
    Shop(ShopId),
    /// No shop is named.
    Anywhere,
    /// A shop was printed that is not known any more.
    Unknown,
}

impl From<&ShoppingList> for WeekBuys {
    fn from(list: &ShoppingList) -> WeekBuys {
        WeekBuys { week: list.week.clone(), from: list.from, trips: list.trips.iter().map(TripBuys::from).collect() }
    }
}

impl From<&TripList> for TripBuys {
    fn from(trip: &TripList) -> TripBuys {
        let lines = trip.shops.iter().flat_map(|visit| {
            let from = visit.at.map_or(Seller::Anywhere, |stop| Seller::Shop(stop.shop));
            visit.sections.iter().flat_map(move |section| section.lines.iter().map(move |line| Buy::of(line, &section.section, from)))
        });
        let shops = trip.shops.iter().filter_map(|visit| visit.at).map(|stop| stop.shop);
        TripBuys { on: trip.on, nth: trip.nth, shops: shops.collect(), lines: lines.collect(), unknown: Vec::new() }
    }
}

impl TripBuys {
    /// Does it stand in the week's file?
    pub fn is_planned(&self) -> bool {
        self.nth < Trip::OWN
    }

    /// Twelve hexadecimal digits of what is bought where on which day. Prices do not count: booking a trip may change them, and the
    /// list is the same.
    pub fn hash(&self, names: Names) -> String {
        let mut said = format!("{}\n", self.on);
        for line in &self.lines {
            let from = match line.from {
                Seller::Shop(shop) => names.shop(shop),
                Seller::Anywhere | Seller::Unknown => "",
            };
            let packs = line.packs.iter().map(|pack| match pack {
                Packed::Packs { count, label, .. } => format!("{count} x {label}"),
                Packed::Loose(amount) => show(amount, Units::Metric),
            });
            let bought: Vec<String> = packs.collect();
            let need = if bought.is_empty() { show(&line.need, Units::Metric) } else { String::new() };
            said.push_str(&format!("{from}\t{}\t{}{need}\n", names.food(line.food), bought.join("+")));
        }
        Sha256::digest(said.as_bytes()).iter().take(6).map(|byte| format!("{byte:02x}")).collect()
    }
}

impl Buy {
    fn of(line: &ListLine, section: &str, from: Seller) -> Buy {
        let packs: Vec<Packed> = line.packs.iter().map(|pack| pack.what.clone()).collect();
        let opened = as_opened(line, &packs);
        Buy { food: line.food, from, need: line.need.clone(), packs, opened, cost: line.cost, beside: Beside::of(line, section) }
    }
}

/// The packs of a line in the order of its windows, what is over last; empty where that is no matter.
fn as_opened(line: &ListLine, packs: &[Packed]) -> Vec<Packed> {
    let Some(windows) = line.windows.as_ref().filter(|windows| windows.several) else { return Vec::new() };
    let all = windows.openings.iter().flat_map(|opening| &opening.packs).chain(&windows.over);
    in_order(packs, all.map(|pack| (pack.count, pack.label.as_str())))
}

/// Packs of a line in an order told by their labels; empty where it does not tell all of them.
pub fn in_order<'l>(packs: &[Packed], told: impl Iterator<Item = (u32, &'l str)>) -> Vec<Packed> {
    let mut order: Vec<Packed> = Vec::new();
    for (more, named) in told {
        let like = packs.iter().find_map(|pack| match pack {
            Packed::Packs { size, single, label, .. } if label == named => Some((size, single)),
            _ => None,
        });
        match (order.last_mut(), like) {
            (_, None) => return Vec::new(),
            (Some(Packed::Packs { count, label, .. }), _) if label == named => *count = count.saturating_add(more),
            (_, Some((size, single))) => {
                order.push(Packed::Packs { count: more, size: size.clone(), single: single.clone(), label: named.to_owned() });
            }
        }
    }
    let total = |packs: &[Packed], named: &str| -> u64 {
        let count = |pack: &Packed| match pack {
            Packed::Packs { count, label, .. } if label == named => u64::from(*count),
            _ => 0,
        };
        packs.iter().map(count).sum()
    };
    let is_told = |pack: &Packed| match pack {
        Packed::Packs { label, .. } => total(packs, label) == total(&order, label),
        Packed::Loose(_) => false,
    };
    if packs.iter().all(is_told) { order } else { Vec::new() }
}

impl Beside {
    fn of(line: &ListLine, section: &str) -> Beside {
        Beside {
            section: Some(section.to_owned()),
            left: Some(line.left.clone()),
            left_until: line.left_until,
            short: Some(line.short.clone()),
            last_used: line.last_used,
            what_for: line.what_for.clone(),
            top_up: line.top_up,
        }
    }
}
