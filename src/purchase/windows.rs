//! Everything one line buys at one shop: several windows, each covered on its own, priced together.
//!
//! Knows sizes and prices only, no food, no date, no shop.
//!
//! **Method.** Windows meet only in offers: three for 2.00 may be two for Sunday and one for Friday. Of a pack with an offer of
//! `k`, a window takes some whole offers and fewer than `k` single packs. For every choice of single packs of a window the rest is
//! covered exactly ([`cover`](super::cover)) by whole offers and by packs without offers. Windows are then added one by one, keeping
//! for every number of single packs modulo `k` the best sum; a `k`-th single pack turns its singles into one more offer. At the end
//! an offer begun may be filled up with packs that nobody needs, where that costs less.
//!
//! **Why that is exact.** Price, left and number of packs are sums over the windows once the singles modulo `k` are known, and a sum
//! of preferred plans is preferred. Single packs of which one could be left out are not tried: all they can do is fill up an
//! offer, which the end does. A window's plan is dropped where it costs more than the window's cheapest plus all that its singles
//! could save elsewhere (one offer of each pack).

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::cover::{Cover, Item, Loose, Target, cover};
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
    fn saving(&self) -> Option<(i64, i64)> {
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
        self.price.saturating_mul(count) - saved
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
    let packs_only = jointly(shelf, targets, rule);
    let with_step = shelf.loose.as_ref().and_then(|loose| with_steps_for_taste(shelf, loose, targets, rule));
    [packs_only, with_step].into_iter().flatten().min_by(|a, b| a.whole.compare(&b.whole, rule))
}

impl Shelf {
    fn items(&self) -> Vec<Item> {
        self.sized.iter().enumerate().flat_map(|(pack, sized)| [Some(single(pack, sized)), whole_offer(pack, sized)]).flatten().collect()
    }
}

fn single(pack: usize, sized: &Sized) -> Item {
    Item { size: sized.size, price: sized.price, packs: 1, pack }
}

fn whole_offer(pack: usize, sized: &Sized) -> Option<Item> {
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

/// One window's plan with its single packs of offers told apart.
struct Entry {
    /// Single packs of each pack with an offer.
    singles: Vec<i64>,
    plan: Cover,
}

fn jointly(shelf: &Shelf, targets: &[Target], rule: Choose) -> Option<Bought> {
    let offered: Vec<(usize, i64, i64)> =
        shelf.sized.iter().enumerate().filter_map(|(pack, sized)| sized.saving().map(|(buy, saving)| (pack, buy, saving))).collect();
    let start = Bought { whole: nothing(shelf.sized.len()), windows: Vec::new() };
    let mut sums = BTreeMap::from([(vec![0; offered.len()], start)]);
    for target in targets {
        let entries = entries(shelf, &offered, target, rule);
        let mut next: BTreeMap<Vec<i64>, Bought> = BTreeMap::new();
        for (begun, sum) in &sums {
            for entry in &entries {
                let (begun, sum) = added(begun, sum, entry, &offered);
                match next.get_mut(&begun) {
                    Some(there) if there.whole.compare(&sum.whole, rule) == Ordering::Greater => *there = sum,
                    Some(_) => {}
                    None => {
                        next.insert(begun, sum);
                    }
                }
            }
        }
        sums = next;
    }
    let filled = sums.into_iter().map(|(begun, sum)| filled_up(shelf, &offered, &begun, sum, rule));
    filled.min_by(|a, b| a.whole.compare(&b.whole, rule))
}

fn nothing(packs: usize) -> Cover {
    Cover { counts: vec![0; packs], steps: 0, price: 0, left: 0, short: 0, packs: 0, proven: true }
}

fn plus(a: &Cover, b: &Cover) -> Cover {
    Cover {
        counts: a.counts.iter().zip(&b.counts).map(|(a, b)| a + b).collect(),
        steps: a.steps + b.steps,
        price: a.price.saturating_add(b.price),
        left: a.left.saturating_add(b.left),
        short: a.short.saturating_add(b.short),
        packs: a.packs + b.packs,
        proven: a.proven && b.proven,
    }
}

fn added(begun: &[i64], sum: &Bought, entry: &Entry, offered: &[(usize, i64, i64)]) -> (Vec<i64>, Bought) {
    let mut whole = plus(&sum.whole, &entry.plan);
    let mut begun: Vec<i64> = begun.iter().zip(&entry.singles).map(|(a, b)| a + b).collect();
    for (count, &(_, buy, saving)) in begun.iter_mut().zip(offered) {
        if *count >= buy {
            *count -= buy;
            whole.price -= saving;
        }
    }
    let windows = sum.windows.iter().cloned().chain([entry.plan.counts.clone()]).collect();
    (begun, Bought { whole, windows })
}

/// Fills up offers already begun where the packs that nobody needs make the whole cheaper.
fn filled_up(shelf: &Shelf, offered: &[(usize, i64, i64)], begun: &[i64], mut sum: Bought, rule: Choose) -> Bought {
    if rule == Choose::LeastLeft {
        return sum;
    }
    for (&count, &(pack, buy, saving)) in begun.iter().zip(offered) {
        let more = buy - count;
        let change = shelf.sized[pack].price.saturating_mul(more) - saving;
        if count > 0 && change < 0 {
            sum.whole.price += change;
            sum.whole.counts[pack] += more;
            sum.whole.packs += more;
            sum.whole.left = sum.whole.left.saturating_add(shelf.sized[pack].size.saturating_mul(more));
        }
    }
    sum
}

fn entries(shelf: &Shelf, offered: &[(usize, i64, i64)], target: &Target, rule: Choose) -> Vec<Entry> {
    let items: Vec<Item> =
        shelf.sized.iter().enumerate().filter_map(|(pack, sized)| whole_offer(pack, sized).or_else(|| Some(single(pack, sized)))).collect();
    let loose = shelf.loose.as_ref().filter(|_| target.need > 0);
    let mut found = Vec::new();
    let mut singles = vec![0; offered.len()];
    loop {
        if let Some(plan) = with_singles(shelf, offered, &singles, &items, loose, target, rule) {
            found.push(Entry { singles: singles.clone(), plan });
        }
        if !next_singles(shelf, offered, &mut singles, target) {
            break;
        }
    }
    worth_keeping(found, offered, rule)
}

/// The next choice of single packs, skipping those that go on after the target is covered.
fn next_singles(shelf: &Shelf, offered: &[(usize, i64, i64)], singles: &mut [i64], target: &Target) -> bool {
    for place in 0..singles.len() {
        let base: i64 = base_of(shelf, offered, singles);
        if base < target.least && singles[place] + 1 < offered[place].1 {
            singles[place] += 1;
            return true;
        }
        singles[place] = 0;
    }
    false
}

fn base_of(shelf: &Shelf, offered: &[(usize, i64, i64)], singles: &[i64]) -> i64 {
    singles.iter().zip(offered).map(|(count, (pack, ..))| shelf.sized[*pack].size.saturating_mul(*count)).fold(0, i64::saturating_add)
}

fn with_singles(
    shelf: &Shelf,
    offered: &[(usize, i64, i64)],
    singles: &[i64],
    items: &[Item],
    loose: Option<&Loose>,
    target: &Target,
    rule: Choose,
) -> Option<Cover> {
    let mut base = nothing(shelf.sized.len());
    for (&count, &(pack, ..)) in singles.iter().zip(offered) {
        base.counts[pack] = count;
        base.packs += count;
        base.price = base.price.saturating_add(shelf.sized[pack].price.saturating_mul(count));
    }
    let total = base_of(shelf, offered, singles);
    if total >= target.least {
        let spared = |pack: usize| total - shelf.sized[pack].size >= target.least;
        if singles.iter().zip(offered).any(|(count, (pack, ..))| *count > 0 && spared(*pack)) {
            return None;
        }
        base.left = target.left(total);
        base.short = target.short(total);
        return Some(base);
    }
    let rest = Target { need: target.need - total, least: target.least - total, ..*target };
    Some(plus(&base, &cover(shelf.sized.len(), items, loose, rest, rule)?))
}

fn worth_keeping(found: Vec<Entry>, offered: &[(usize, i64, i64)], rule: Choose) -> Vec<Entry> {
    let least_left = found.iter().map(|entry| entry.plan.left).min().unwrap_or(0);
    let kept: Vec<Entry> = found.into_iter().filter(|entry| rule == Choose::Cheapest || entry.plan.left == least_left).collect();
    let least_price = kept.iter().map(|entry| entry.plan.price).min().unwrap_or(0);
    let could_save = |entry: &Entry| {
        entry.singles.iter().zip(offered).filter(|(count, _)| **count > 0).map(|(_, offer)| offer.2).fold(0, i64::saturating_add)
    };
    kept.into_iter().filter(|entry| entry.plan.price.saturating_sub(could_save(entry)) <= least_price).collect()
}
