//! Several windows of packs with offers, bought together.
//!
//! Knows sizes and prices only, no food, no date, no shop.
//!
//! **Method.** Windows meet only in offers: three for 2.00 may be two for Sunday and one for Friday. Of a pack with an offer of
//! `k`, a window takes some whole offers and fewer than `k` single packs. For every choice of single packs of a window the rest is
//! covered exactly ([`cover`]) by whole offers and by packs without offers. Windows are then added one by one, keeping for every
//! number of single packs modulo `k` the best sum; a `k`-th single pack turns its singles into one more offer. At the end an offer
//! begun may be filled up with packs that nobody needs, where that costs less.
//!
//! **Why that is exact.** Price, left and number of packs are sums over the windows once the singles modulo `k` are known, and a sum
//! of preferred plans is preferred. Single packs of which one could be left out are not tried: all they can do is fill up an
//! offer, which the end does. A plan or a sum is dropped only where even its *hopeful price*, each single pack at its share of the
//! offer, with the hopeful price of all other windows, exceeds what the windows cost when each is covered for itself; a pack only
//! where another would cost less at its plain price, whatever the offers.
//!
//! **Bound.** There are at most as many sums as the product of the `k` of all offers worth looking at: a handful in a shop.

use std::collections::BTreeMap;

use super::cover::{Cover, Item, Loose, Target, cover, div_up};
use super::windows::{Bought, Shelf, Sized, single, whole_offer};
use crate::kitchen::Choose;

/// Half a minor unit that a loose line may gain by rounding, and more than the noise of adding shares of offers.
const ROUNDING: f64 = 0.5 + 1e-6;

/// A pack with an offer that saves something.
#[derive(Debug, Clone, Copy)]
struct Offered {
    pack: usize,
    buy: i64,
    /// What a whole offer costs less than its packs.
    saving: i64,
}

pub(super) struct Joint<'a> {
    shelf: &'a Shelf,
    offered: Vec<Offered>,
    /// Whole offers, and the packs without.
    items: Vec<Item>,
    rule: Choose,
}

/// One window's plan with its single packs of offers told apart.
struct Entry {
    /// Of each pack with an offer.
    singles: Vec<i64>,
    plan: Cover,
}

impl<'a> Joint<'a> {
    pub fn new(shelf: &'a Shelf, rule: Choose) -> Self {
        let kept: Vec<(usize, &Sized)> = shelf.sized.iter().enumerate().filter(|(pack, _)| !is_beaten(shelf, *pack, rule)).collect();
        let saving = |&(pack, sized): &(usize, &Sized)| sized.saving().map(|(buy, saving)| Offered { pack, buy, saving });
        let offered = kept.iter().filter_map(saving).collect();
        let items = kept.iter().map(|&(pack, sized)| whole_offer(pack, sized).unwrap_or_else(|| single(pack, sized))).collect();
        Joint { shelf, offered, items, rule }
    }

    pub fn buy(&self, targets: &[Target]) -> Option<Bought> {
        let ceiling = self.ceiling(targets)? as f64 + ROUNDING;
        let hopes: Vec<f64> = targets.iter().map(|target| self.hope(target.least)).collect();
        let spare = ceiling - hopes.iter().sum::<f64>();
        let mut entries: Vec<Vec<Entry>> =
            targets.iter().zip(&hopes).map(|(target, hope)| self.worth_keeping(self.entries(target, hope + spare))).collect();
        let hopes: Vec<f64> = entries.iter().map(|entries| self.least_hopeful(entries)).collect();
        let spare = ceiling - hopes.iter().sum::<f64>();
        for (entries, hope) in entries.iter_mut().zip(&hopes) {
            entries.retain(|entry| self.hopeful(entry.plan.price, &entry.singles) <= hope + spare);
        }
        let start = Bought { whole: nothing(self.shelf.sized.len()), windows: Vec::new() };
        let mut sums = BTreeMap::from([(vec![0; self.offered.len()], start)]);
        for (window, entries) in entries.iter().enumerate() {
            sums = self.with_window(&sums, entries, ceiling - hopes[window + 1..].iter().sum::<f64>());
        }
        let filled = sums.into_iter().map(|(begun, sum)| self.filled_up(&begun, sum));
        filled.min_by(|a, b| a.whole.compare(&b.whole, self.rule))
    }

    /// What the windows cost when each is covered for itself and the packs are then paid together.
    fn ceiling(&self, targets: &[Target]) -> Option<i64> {
        let singles = self.offered.iter().map(|offer| single(offer.pack, &self.shelf.sized[offer.pack]));
        let items: Vec<Item> = self.items.iter().copied().chain(singles).collect();
        let goods = |counts: &[i64]| -> i64 {
            self.shelf.sized.iter().zip(counts).map(|(sized, count)| sized.price_of(*count)).fold(0, i64::saturating_add)
        };
        let mut all = nothing(self.shelf.sized.len());
        let mut saved_apart = 0;
        for target in targets {
            let alone = cover(self.shelf.sized.len(), &items, self.loose_for(target), *target, self.rule)?;
            saved_apart = goods(&alone.counts).saturating_add(saved_apart);
            all = plus(&all, &alone);
        }
        Some(all.price.saturating_sub(saved_apart).saturating_add(goods(&all.counts)))
    }

    fn loose_for(&self, target: &Target) -> Option<&Loose> {
        self.shelf.loose.as_ref().filter(|_| target.need > 0)
    }

    /// No plan pays less for so much: the lowest price per amount of any pack or offer.
    fn hope(&self, amount: i64) -> f64 {
        let packs = self.items.iter().map(|item| item.price as f64 / item.size as f64);
        let rate = packs.chain(self.shelf.loose.as_ref().map(Loose::rate)).fold(f64::INFINITY, f64::min);
        (amount.max(0) as f64 * rate - ROUNDING).max(0.0)
    }

    /// A price with each single pack at its share of the offer.
    fn hopeful(&self, price: i64, singles: &[i64]) -> f64 {
        let share = |(count, offer): (&i64, &Offered)| *count as f64 * offer.saving as f64 / offer.buy as f64;
        price as f64 - singles.iter().zip(&self.offered).map(share).sum::<f64>()
    }

    fn least_hopeful(&self, entries: &[Entry]) -> f64 {
        entries.iter().map(|entry| self.hopeful(entry.plan.price, &entry.singles)).fold(f64::INFINITY, f64::min)
    }

    fn with_window(&self, sums: &BTreeMap<Vec<i64>, Bought>, entries: &[Entry], ceiling: f64) -> BTreeMap<Vec<i64>, Bought> {
        let mut next: BTreeMap<Vec<i64>, Bought> = BTreeMap::new();
        for (begun, sum) in sums {
            for entry in entries {
                let (begun, whole) = self.added(begun, &sum.whole, entry);
                let hopeless = self.hopeful(whole.price, &begun) > ceiling;
                if hopeless || next.get(&begun).is_some_and(|there| there.whole.compare(&whole, self.rule).is_le()) {
                    continue;
                }
                let windows = sum.windows.iter().cloned().chain([entry.plan.counts.clone()]).collect();
                next.insert(begun, Bought { whole, windows });
            }
        }
        next
    }

    fn added(&self, begun: &[i64], sum: &Cover, entry: &Entry) -> (Vec<i64>, Cover) {
        let mut whole = plus(sum, &entry.plan);
        let mut begun: Vec<i64> = begun.iter().zip(&entry.singles).map(|(a, b)| a + b).collect();
        for (count, offer) in begun.iter_mut().zip(&self.offered) {
            if *count >= offer.buy {
                *count -= offer.buy;
                whole.price -= offer.saving;
            }
        }
        (begun, whole)
    }

    /// Fills up offers already begun where the packs that nobody needs make the whole cheaper.
    fn filled_up(&self, begun: &[i64], mut sum: Bought) -> Bought {
        if self.rule == Choose::LeastLeft {
            return sum;
        }
        for (&count, offer) in begun.iter().zip(&self.offered) {
            let sized = &self.shelf.sized[offer.pack];
            let more = offer.buy - count;
            let change = sized.price.saturating_mul(more) - offer.saving;
            if count > 0 && change < 0 {
                sum.whole.price += change;
                sum.whole.counts[offer.pack] += more;
                sum.whole.packs += more;
                sum.whole.left = sum.whole.left.saturating_add(sized.size.saturating_mul(more));
            }
        }
        sum
    }

    /// The plans of one window whose hopeful price is within the ceiling.
    fn entries(&self, target: &Target, ceiling: f64) -> Vec<Entry> {
        let mut found = Vec::new();
        let mut singles = vec![0; self.offered.len()];
        loop {
            let hope = self.hopeful(self.price(&singles), &singles) + self.hope(target.least - self.total(&singles));
            if hope <= ceiling
                && let Some(plan) = self.with_singles(&singles, target)
            {
                found.push(Entry { singles: singles.clone(), plan });
            }
            if !self.next_singles(&mut singles, target) {
                break;
            }
        }
        found
    }

    /// The next choice of single packs, skipping those that go on after the target is covered.
    fn next_singles(&self, singles: &mut [i64], target: &Target) -> bool {
        for place in 0..singles.len() {
            if singles[place] + 1 < self.offered[place].buy && self.total(singles) < target.least {
                singles[place] += 1;
                return true;
            }
            singles[place] = 0;
        }
        false
    }

    fn total(&self, singles: &[i64]) -> i64 {
        let sizes = singles.iter().zip(&self.offered).map(|(count, offer)| self.shelf.sized[offer.pack].size.saturating_mul(*count));
        sizes.fold(0, i64::saturating_add)
    }

    fn price(&self, singles: &[i64]) -> i64 {
        let prices = singles.iter().zip(&self.offered).map(|(count, offer)| self.shelf.sized[offer.pack].price.saturating_mul(*count));
        prices.fold(0, i64::saturating_add)
    }

    /// `None` where one of the singles could be left out, or nothing can cover the rest.
    fn with_singles(&self, singles: &[i64], target: &Target) -> Option<Cover> {
        let mut base = nothing(self.shelf.sized.len());
        for (&count, offer) in singles.iter().zip(&self.offered) {
            base.counts[offer.pack] = count;
            base.packs += count;
        }
        base.price = self.price(singles);
        let total = self.total(singles);
        if total < target.least {
            let rest = Target { need: target.need - total, least: target.least - total, ..*target };
            return Some(plus(&base, &cover(self.shelf.sized.len(), &self.items, self.loose_for(target), rest, self.rule)?));
        }
        let spared = |offer: &Offered| total - self.shelf.sized[offer.pack].size >= target.least;
        if singles.iter().zip(&self.offered).any(|(count, offer)| *count > 0 && spared(offer)) {
            return None;
        }
        base.left = target.left(total);
        base.short = target.short(total);
        Some(base)
    }

    /// Under `least-left` a window leaves its least, whatever it costs.
    fn worth_keeping(&self, mut found: Vec<Entry>) -> Vec<Entry> {
        if self.rule == Choose::LeastLeft {
            let least = found.iter().map(|entry| entry.plan.left).min().unwrap_or(0);
            found.retain(|entry| entry.plan.left == least);
        }
        found
    }
}

/// So many of another pack at its plain price cover as much and cost less than this one at its best.
fn is_beaten(shelf: &Shelf, pack: usize, rule: Choose) -> bool {
    if rule == Choose::LeastLeft {
        return false;
    }
    let loser = &shelf.sized[pack];
    let buy = loser.saving().map_or(1, |(buy, _)| buy);
    let instead = |winner: &Sized| winner.price.saturating_mul(div_up(loser.size, winner.size)).saturating_mul(buy);
    shelf.sized.iter().any(|winner| instead(winner) < loser.price_of(buy))
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
