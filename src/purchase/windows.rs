//! Everything one line buys at one shop: several windows, each covered on its own, priced together.
//!
//! Knows sizes and prices only, no food, no date, no shop.
//!
//! Windows share offers and nothing else, which [`Joint`] weighs: the packs of all windows are chosen together, so that the price of
//! the line is the least. Loose goods are never opened, so they have one window.

use super::cover::{Cover, Item, Loose, Target, cover};
use super::joint::Joint;
use crate::kitchen::Choose;

/// One size in which the shop sells the food.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Sized {
    /// What it counts as. Positive.
    pub size: i64,
    /// Minor units.
    pub price: i64,
    /// Any `.0` of it for `.1` minor units.
    pub offer: Option<(i64, i64)>,
}

impl Sized {
    /// What filling up the offer saves; `None` where it saves nothing.
    pub fn saving(&self) -> Option<(i64, i64)> {
        let (buy, pay) = self.offer?;
        let saving = self.price.saturating_mul(buy).saturating_sub(pay);
        (buy > 0 && saving > 0).then_some((buy, saving))
    }

    /// How often the offer is used among `count` packs.
    pub fn offers_in(&self, count: i64) -> i64 {
        self.saving().map_or(0, |(buy, _)| count / buy)
    }

    /// The price of `count` packs.
    pub fn price_of(&self, count: i64) -> i64 {
        let saved = self.saving().map_or(0, |(buy, saving)| saving.saturating_mul(count / buy));
        self.price.saturating_mul(count).saturating_sub(saved)
    }
}

/// What one shop sells of one food: larger packs first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Shelf {
    pub sized: Vec<Sized>,
    pub loose: Option<Loose>,
}

/// What one line buys at one shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Bought {
    /// All windows together; `steps` holds every loose step.
    pub whole: Cover,
    /// Of each window in the order asked, the count of each pack; loose steps are not told apart.
    pub windows: Vec<Vec<i64>>,
}

/// The best plan for all targets together; `None` where the shelf is empty. Loose goods serve one target alone.
pub(super) fn buy(shelf: &Shelf, targets: &[Target], rule: Choose) -> Option<Bought> {
    if let [target] = targets {
        let whole = cover(shelf.sized.len(), &shelf.items(), shelf.loose.as_ref(), *target, rule)?;
        let windows = vec![whole.counts.clone()];
        return Some(Bought { whole, windows });
    }
    Joint::new(shelf, rule).buy(targets)
}

impl Shelf {
    fn items(&self) -> Vec<Item> {
        let both = |(pack, sized)| [Some(single(pack, sized)), whole_offer(pack, sized)];
        self.sized.iter().enumerate().flat_map(both).flatten().collect()
    }
}

pub(super) fn single(pack: usize, sized: &Sized) -> Item {
    Item { size: sized.size, price: sized.price, packs: 1, pack }
}

pub(super) fn whole_offer(pack: usize, sized: &Sized) -> Option<Item> {
    let (buy, saving) = sized.saving()?;
    let price = sized.price.saturating_mul(buy) - saving;
    Some(Item { size: sized.size.saturating_mul(buy), price, packs: buy, pack })
}
