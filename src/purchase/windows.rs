//! Everything one line buys at one shop: several windows, each covered on its own, priced together.
//!
//! Knows sizes and prices only, no food, no date, no shop.
//!
//! Windows meet only in offers, which [`Joint`] weighs; a need to taste may also be met by one more step of the line's loose goods.
//!
//! Windows share offers and nothing else: the packs of all windows are chosen together, so that the price of the line
//! is the least. "To taste" on several days is one pack, or one for every window that an opened pack does not reach.

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

/// The best plan for all targets together; `None` where the shelf is empty. With loose goods at most one target is more than
/// "any one pack or step" (a `need` of 0).
pub(super) fn buy(shelf: &Shelf, targets: &[Target], rule: Choose) -> Option<Bought> {
    if let [target] = targets {
        let whole = cover(shelf.sized.len(), &shelf.items(), shelf.loose.as_ref(), *target, rule)?;
        let windows = vec![whole.counts.clone()];
        return Some(Bought { whole, windows });
    }
    let packs_only = Joint::new(shelf, rule).buy(targets);
    let with_step = shelf.loose.as_ref().and_then(|loose| with_steps_for_taste(shelf, loose, targets, rule));
    [packs_only, with_step].into_iter().flatten().min_by(|a, b| a.whole.compare(&b.whole, rule))
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

/// Every "any one pack or step" is served by a loose step of its own; what is left is one target.
fn with_steps_for_taste(shelf: &Shelf, loose: &Loose, targets: &[Target], rule: Choose) -> Option<Bought> {
    let tastes = targets.iter().filter(|target| target.need == 0).count() as i64;
    let demand = *targets.iter().find(|target| target.need > 0)?;
    if tastes == 0 {
        return None;
    }
    let mut whole = cover(shelf.sized.len(), &shelf.items(), Some(loose), Target { steps_before: tastes, ..demand }, rule)?;
    whole.steps += tastes;
    whole.left = whole.left.saturating_add(loose.step.saturating_mul(tastes));
    let none = vec![0; shelf.sized.len()];
    let windows = targets.iter().map(|target| if target.need > 0 { whole.counts.clone() } else { none.clone() }).collect();
    Some(Bought { whole, windows })
}
