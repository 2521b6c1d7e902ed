//! A household's wishes for one week: what its `[compose]` says, then that of kitchen.toml, then its taste, then the defaults.

use crate::kitchen::{Beside, Floors, Kitchen, OneAtMost, Prefer, Spot, Taste, Ware, Week, WishTable};
use crate::measure::Money;

/// What `use` and `not` name, with their places in the file.
type Named = Vec<(Ware, Spot)>;

const RECIPES_AT_MOST: u32 = 10;
const SAME_AGAIN_AFTER: i64 = 2;
const ONE_AT_MOST: u32 = 5;
const VARIETY_MAY_COST: f64 = 0.02;

#[derive(Debug, Clone)]
pub struct Wishes {
    pub recipes_at_most: u32,
    /// Days.
    pub same_again_after: i64,
    /// Days.
    pub not_again: Option<i64>,
    pub one_at_most: OneAtMost,
    pub variety_may_cost: f64,
    pub spend_at_most: Option<Money>,
    pub each_day: Floors,
    pub beside: Vec<Beside>,
    pub wanted: Vec<Ware>,
    pub unwanted: Vec<Ware>,
    pub prefer: [Prefer; 3],
    /// Of two weeks of one work, the one of fewer minutes.
    pub minutes_count: bool,
}

impl Wishes {
    pub fn of(kitchen: &Kitchen, week: &Week) -> Wishes {
        let (own, all) = (&week.wishes, &kitchen.together.wishes);
        let taste = own.taste.or(all.taste).unwrap_or_default();
        let one_at_most = first(own, all, |table| table.one_at_most.clone());
        let mut one_at_most = one_at_most.unwrap_or_default();
        one_at_most.otherwise.get_or_insert(ONE_AT_MOST);
        let usual = match taste {
            Taste::Varied | Taste::Cheap => [Prefer::Cost, Prefer::Variety, Prefer::Work],
            Taste::Easy => [Prefer::Work, Prefer::Cost, Prefer::Variety],
        };
        let may_cost = if taste == Taste::Cheap { 0.0 } else { VARIETY_MAY_COST };
        let wares = |pick: fn(&WishTable) -> &Option<Named>| {
            let named = pick(own).as_ref().or(pick(all).as_ref());
            named.map(|named| named.iter().map(|(ware, _)| *ware).collect()).unwrap_or_default()
        };
        Wishes {
            recipes_at_most: first(own, all, |table| table.recipes_at_most).unwrap_or(RECIPES_AT_MOST),
            same_again_after: first(own, all, |table| table.same_again_after).map_or(SAME_AGAIN_AFTER, |days| days.0),
            not_again: first(own, all, |table| table.not_again).map(|days| days.0),
            one_at_most,
            variety_may_cost: first(own, all, |table| table.variety_may_cost).unwrap_or(may_cost),
            spend_at_most: first(own, all, |table| table.spend_at_most),
            each_day: first(own, all, |table| table.each_day).unwrap_or_default(),
            beside: first(own, all, |table| table.beside.clone()).unwrap_or_default(),
            wanted: wares(|table| &table.wanted),
            unwanted: wares(|table| &table.unwanted),
            prefer: kitchen.rules.prefer.unwrap_or(usual),
            minutes_count: taste == Taste::Easy,
        }
    }

    /// How often one recipe may take a place.
    pub fn times(&self, place: &str) -> u32 {
        self.one_at_most.by_place.get(place).copied().or(self.one_at_most.otherwise).unwrap_or(ONE_AT_MOST)
    }

    /// Does variety choose among weeks that cost about the same? Only where cost comes first.
    pub fn slack(&self) -> f64 {
        if self.prefer[0] == Prefer::Cost { self.variety_may_cost } else { 0.0 }
    }
}

fn first<T>(own: &WishTable, all: &WishTable, pick: impl Fn(&WishTable) -> Option<T>) -> Option<T> {
    pick(own).or_else(|| pick(all))
}
