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
    /// How many closed packs are in it: four in a "4 x 400 g".
    pub singles: i64,
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
    if let Some(single) = shelf.single() {
        return buy_singles(shelf, single, targets, rule);
    }
    Joint::new(shelf, rule).buy(targets)
}

/// A pack of several may serve several windows, each of which opens closed packs of its own: where all are of one size, they are counted.
/// The windows take what is bought in turn.
fn buy_singles(shelf: &Shelf, single: i64, targets: &[Target], rule: Choose) -> Option<Bought> {
    let opens = |target: &Target| (target.least.max(1) + single - 1) / single;
    let asked = targets.iter().map(opens).fold(0, i64::saturating_add).saturating_mul(single);
    let all = Target { need: asked, least: asked, noise: 0 };
    let bought = cover(shelf.sized.len(), &shelf.items(), None, all, rule)?;
    let mut closed: Vec<i64> = bought.counts.clone();
    let mut held = 0;
    let mut windows = Vec::new();
    for target in targets {
        let mut counts = vec![0; closed.len()];
        held -= opens(target) * single;
        // Smaller ones first: a pack of several is left whole where it can be.
        for pack in (0..closed.len()).rev() {
            while held < 0 && closed[pack] > 0 {
                held += shelf.sized[pack].size;
                closed[pack] -= 1;
                counts[pack] += 1;
            }
        }
        windows.push(counts);
    }
    let total: i64 =
        shelf.sized.iter().zip(&bought.counts).map(|(sized, count)| sized.size.saturating_mul(*count)).fold(0, i64::saturating_add);
    let need: i64 = targets.iter().map(|target| target.need).fold(0, i64::saturating_add);
    let whole = Cover { left: (total - need).max(0), short: (need - total).max(0), ..bought };
    Some(Bought { whole, windows })
}

impl Shelf {
    /// What each closed pack holds, where some come several in one and all hold the same.
    fn single(&self) -> Option<i64> {
        let several = self.loose.is_none() && self.sized.iter().any(|sized| sized.singles > 1);
        let whole = |sized: &Sized| (sized.size % sized.singles == 0).then_some(sized.size / sized.singles);
        let first = self.sized.first().and_then(whole).filter(|single| several && *single > 0)?;
        self.sized.iter().all(|sized| whole(sized) == Some(first)).then_some(first)
    }

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
