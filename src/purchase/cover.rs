//! The exact cover of one need at one shop: which packs, offers and loose amount.
//!
//! Knows sizes and prices only, no food, no date, no shop.
//!
//! **Amounts** are whole numbers of a very small unit (of a need below 200 kg, 10⁻¹¹ of a gram, millilitre or piece), so that sums are
//! exact; only the comparison with the need allows for floating noise ([`Target::noise`]).
//!
//! **Method.** A label is the best way to reach one exact total: price, then fewest packs, then larger packs. Labels are settled
//! from the smallest total upwards, each extended by every item (a pack, or all packs of an offer at once); of two labels at one
//! total the better stays. One item, the *bulk* item (the lowest price per amount, of equals the largest), is never a step of the
//! search: each label is closed by the least number of it that covers the rest. Where the shop sells loose, the loose amount
//! closes a label instead.
//!
//! **Why that is exact.** What is closed is always the least that covers, because more of it costs more and leaves more. A label
//! is dropped only where (a) an earlier label with some bulk items added reaches the very same total and is no worse, so that every
//! plan through the dropped label has a twin through the other; or (b) its price so far and the rest at the lowest price per amount
//! already exceed a plan in hand (under `least-left` only once a plan leaves nothing).
//!
//! **Bound.** By (a) there are at most `s / g` chains of labels, `s` the size of the bulk item and `g` the greatest common divisor
//! of all sizes, whatever the need: a need of 100 kg settles no more labels than one of a few kilograms. By (b) sizes that have no
//! useful common divisor stay few, as what lies between the lowest price per amount and a whole plan is less than one bulk pack.
//! Beyond [`MOST_LABELS`] settled labels the best plan so far is given, marked as not proven.

use std::cmp::Ordering;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, HashMap};

use crate::kitchen::Choose;

/// Far beyond what shops sell: reached only by many packs with sizes that share no divisor, under `least-left`.
const MOST_LABELS: usize = 400_000;

/// One thing that can be taken once more: a single pack, or all packs of an offer together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Item {
    /// What it counts as, all packs of it together. Positive.
    pub size: i64,
    /// Minor units for all packs of it.
    pub price: i64,
    pub packs: i64,
    /// Index of the pack, larger packs first.
    pub pack: usize,
}

/// Goods sold by weight or by the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Loose {
    /// What one step counts as.
    pub step: i64,
    /// Ten-thousandths of a minor unit for `per`.
    pub minor_e4: i64,
    /// One step, and what the price is for, both in the measure of the price.
    pub priced_step: i64,
    pub per: i64,
}

impl Loose {
    /// The price of a whole line, rounded half up to the minor unit once.
    pub fn price(&self, steps: i64) -> i64 {
        let whole = self.per as i128 * 10_000;
        let exact = (self.minor_e4 as i128 * self.priced_step as i128).checked_mul(2 * steps as i128);
        exact.map_or(i64::MAX, |twice| clamp(twice.saturating_add(whole).div_euclid(2 * whole)))
    }

    /// Minor units for one unit of what it counts as.
    pub fn rate(&self) -> f64 {
        self.minor_e4 as f64 / 1e4 * self.priced_step as f64 / self.per as f64 / self.step as f64
    }
}

/// What must be covered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Target {
    pub need: i64,
    /// The least total that will do, slack and noise taken off; at least 1, so that something is bought.
    pub least: i64,
    /// Totals this near the need count as the need.
    pub noise: i64,
}

impl Target {
    pub fn left(&self, total: i64) -> i64 {
        let left = total.saturating_sub(self.need);
        if left > self.noise { left } else { 0 }
    }

    pub fn short(&self, total: i64) -> i64 {
        let short = self.need.saturating_sub(total);
        if short > self.noise { short } else { 0 }
    }
}

/// A plan that covers a target.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cover {
    /// Of each pack, how many.
    pub counts: Vec<i64>,
    /// Loose steps.
    pub steps: i64,
    /// Minor units.
    pub price: i64,
    pub left: i64,
    pub short: i64,
    /// A loose amount counts as one.
    pub packs: i64,
    pub proven: bool,
}

impl Cover {
    /// The order in which plans are preferred, the best first.
    pub fn compare(&self, other: &Cover, rule: Choose) -> Ordering {
        self.score(rule).cmp(&other.score(rule)).then_with(|| other.counts.cmp(&self.counts))
    }

    fn score(&self, rule: Choose) -> [i64; 4] {
        score(rule, self.price, self.left, self.short, self.packs)
    }
}

/// Of equal plans, less short wins before fewer packs.
fn score(rule: Choose, price: i64, left: i64, short: i64, packs: i64) -> [i64; 4] {
    match rule {
        Choose::Cheapest => [price, left, short, packs],
        Choose::LeastLeft => [left, price, short, packs],
    }
}

/// The best plan that takes any number of each item and of the loose goods; `None` where there is nothing to take.
pub(super) fn cover(packs: usize, items: &[Item], loose: Option<&Loose>, target: Target, rule: Choose) -> Option<Cover> {
    let items = useful(items, rule);
    let bulk = if loose.is_some() { None } else { Some(take_bulk(&items)?) };
    let steps: Vec<Item> = items.iter().copied().enumerate().filter(|(index, _)| Some(*index) != bulk).map(|(_, item)| item).collect();
    let bulk = bulk.map(|index| items[index]);
    let rate = items.iter().map(|item| item.price as f64 / item.size as f64).chain(loose.map(Loose::rate)).fold(f64::INFINITY, f64::min);
    let search = Search { packs, steps, bulk, loose, target, rule, rate, nodes: Vec::new(), best: None, ceiling: i64::MAX };
    search.run()
}

/// Leaves out what can never be part of a best plan: replaced by so many of another, it would cost less and cover as much.
fn useful(items: &[Item], rule: Choose) -> Vec<Item> {
    let beaten = |loser: &Item, winner: &Item| match rule {
        Choose::Cheapest => winner.price.saturating_mul(div_up(loser.size, winner.size)) < loser.price,
        Choose::LeastLeft => winner.size == loser.size && winner.price < loser.price,
    };
    items.iter().filter(|item| !items.iter().any(|other| beaten(item, other))).copied().collect()
}

/// The item of the lowest price per amount, of equals the largest, of those the first.
fn take_bulk(items: &[Item]) -> Option<usize> {
    let dearer = |a: &Item, b: &Item| (a.price as i128 * b.size as i128).cmp(&(b.price as i128 * a.size as i128));
    (0..items.len()).min_by(|&a, &b| dearer(&items[a], &items[b]).then(items[b].size.cmp(&items[a].size)).then(a.cmp(&b)))
}

/// The best way found to one exact total.
#[derive(Debug, Clone, Copy)]
struct Label {
    price: i64,
    packs: i64,
    /// [`mark`] of everything taken: of two labels with one mark the counts are the same, and need not be compared.
    mark: u64,
    /// Index into [`Search::nodes`] plus one; 0 for nothing taken.
    node: u32,
}

/// A number that adds up: of equal sums the counts are equal, chance of one in 2⁶⁴ aside (the odd constant is that of SplitMix64).
fn mark(pack: usize, count: i64) -> u64 {
    let mixed = (pack as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    (mixed ^ (mixed >> 29)).wrapping_mul(0xBF58_476D_1CE4_E5B9).wrapping_mul(count as u64)
}

/// A label closed by so many bulk items or loose steps.
#[derive(Debug, Clone, Copy)]
struct Closed {
    label: Label,
    bulk: i64,
    steps: i64,
    score: [i64; 4],
    left: i64,
    short: i64,
    price: i64,
    packs: i64,
}

struct Search<'a> {
    packs: usize,
    /// Every item but the bulk item.
    steps: Vec<Item>,
    bulk: Option<Item>,
    loose: Option<&'a Loose>,
    target: Target,
    rule: Choose,
    /// The lowest price of one unit of amount.
    rate: f64,
    /// The item added last, and the node before.
    nodes: Vec<(u32, u32)>,
    best: Option<Closed>,
    /// No cheapest plan costs more than this.
    ceiling: i64,
}

impl Search<'_> {
    fn run(mut self) -> Option<Cover> {
        let mut open: BTreeMap<i64, Label> = BTreeMap::new();
        let mut settled: HashMap<i64, (i64, Label)> = HashMap::new();
        open.insert(0, Label { price: 0, packs: 0, mark: 0, node: 0 });
        self.ceiling = self.one_item_beside_bulk();
        let mut count = 0;
        while let Some((total, label)) = open.pop_first() {
            count += 1;
            if count > MOST_LABELS {
                break;
            }
            if self.is_hopeless(total, label.price) || self.is_matched(&mut settled, total, label) {
                continue;
            }
            self.close(total, label);
            for index in 0..self.steps.len() {
                self.extend(&mut open, total, label, index);
            }
        }
        let best = self.best?;
        let counts = self.closed_counts(&best);
        let Closed { steps, price, left, short, packs, .. } = best;
        Some(Cover { counts, steps, price, left, short, packs, proven: count <= MOST_LABELS })
    }

    /// The least price of a plan of bulk items and one other: a quick first ceiling.
    fn one_item_beside_bulk(&self) -> i64 {
        let Some(bulk) = self.bulk else { return i64::MAX };
        let price = |item: &Item| {
            let times = div_up((self.target.least - item.size).max(0), bulk.size);
            item.price.saturating_add(bulk.price.saturating_mul(times))
        };
        self.steps.iter().map(price).min().unwrap_or(i64::MAX)
    }

    /// Even the rest at the lowest price per amount would cost more than a plan in hand.
    fn is_hopeless(&self, total: i64, price: i64) -> bool {
        let ceiling = match (&self.best, self.rule) {
            (_, Choose::Cheapest) => self.ceiling,
            (Some(best), Choose::LeastLeft) if best.left == 0 => best.price,
            (_, Choose::LeastLeft) => return false,
        };
        let rest = (self.target.least - total).max(0) as f64;
        let rounding = if self.loose.is_some() { 0.5 } else { 0.0 };
        let least = rest * self.rate * (1.0 - 1e-9) - rounding;
        let floor = least.max(0.0) as i64;
        price.saturating_add(floor + i64::from(least > floor as f64)) > ceiling
    }

    /// An earlier label with bulk items added reaches the same total and is no worse.
    fn is_matched(&self, settled: &mut HashMap<i64, (i64, Label)>, total: i64, label: Label) -> bool {
        let Some(bulk) = self.bulk else { return false };
        let residue = total % bulk.size;
        if let Some(&(earlier, twin)) = settled.get(&residue) {
            let times = (total - earlier) / bulk.size;
            let price = twin.price.saturating_add(bulk.price.saturating_mul(times));
            let packs = twin.packs.saturating_add(bulk.packs.saturating_mul(times));
            let same = twin.mark.wrapping_add(mark(bulk.pack, bulk.packs.saturating_mul(times))) == label.mark;
            let order = (price, packs).cmp(&(label.price, label.packs)).then_with(|| match same {
                true => Ordering::Equal,
                false => self.counts(label.node).cmp(&self.counts_with(twin.node, &bulk, times)),
            });
            if order.is_le() {
                return true;
            }
        }
        settled.insert(residue, (total, label));
        false
    }

    fn extend(&mut self, open: &mut BTreeMap<i64, Label>, total: i64, label: Label, index: usize) {
        let item = self.steps[index];
        // Once covered, only what costs nothing and still fits can make a plan better.
        if total >= self.target.least && (item.price > 0 || total.saturating_add(item.size) > self.target.need + self.target.noise) {
            return;
        }
        let sum = total.saturating_add(item.size);
        if self.is_hopeless(sum, label.price.saturating_add(item.price)) {
            return;
        }
        let (price, packs) = (label.price.saturating_add(item.price), label.packs + item.packs);
        let mark = label.mark.wrapping_add(mark(item.pack, item.packs));
        let entry = open.entry(sum);
        if let Entry::Occupied(there) = &entry {
            let there = there.get();
            let order = (price, packs).cmp(&(there.price, there.packs)).then_with(|| match mark == there.mark {
                true => Ordering::Equal,
                false => self.counts(there.node).cmp(&self.counts_with(label.node, &item, 1)),
            });
            if order.is_ge() {
                return;
            }
        }
        self.nodes.push((index as u32, label.node));
        let label = Label { price, packs, mark, node: self.nodes.len() as u32 };
        *entry.or_insert(label) = label;
    }

    /// Covers what a label leaves open, and keeps the plan if it is the best so far.
    fn close(&mut self, total: i64, label: Label) {
        let rest = (self.target.least - total).max(0);
        match (self.bulk, self.loose) {
            (Some(bulk), _) => {
                let least = div_up(rest, bulk.size);
                self.keep(total, label, least, 0);
                let fits = (self.target.need + self.target.noise - total).div_euclid(bulk.size);
                if bulk.price == 0 && fits > least {
                    self.keep(total, label, fits, 0);
                }
            }
            (None, Some(loose)) => self.keep(total, label, 0, div_up(rest, loose.step)),
            (None, None) => {}
        }
    }

    fn keep(&mut self, total: i64, label: Label, bulk: i64, steps: i64) {
        let mut sum = total;
        let mut price = label.price;
        let mut packs = label.packs;
        if let Some(item) = self.bulk {
            sum = sum.saturating_add(item.size.saturating_mul(bulk));
            price = price.saturating_add(item.price.saturating_mul(bulk));
            packs = packs.saturating_add(item.packs.saturating_mul(bulk));
        }
        if let Some(loose) = self.loose {
            sum = sum.saturating_add(loose.step.saturating_mul(steps));
            price = price.saturating_add(loose.price(steps));
            packs += i64::from(steps > 0);
        }
        let (left, short) = (self.target.left(sum), self.target.short(sum));
        let score = score(self.rule, price, left, short, packs);
        let new = Closed { label, bulk, steps, score, left, short, price, packs };
        let better = match &self.best {
            None => true,
            Some(best) => score.cmp(&best.score).then_with(|| self.closed_counts(best).cmp(&self.closed_counts(&new))).is_lt(),
        };
        self.ceiling = self.ceiling.min(price);
        if better {
            self.best = Some(new);
        }
    }

    fn closed_counts(&self, closed: &Closed) -> Vec<i64> {
        match &self.bulk {
            Some(bulk) => self.counts_with(closed.label.node, bulk, closed.bulk),
            None => self.counts(closed.label.node),
        }
    }

    fn counts_with(&self, node: u32, item: &Item, times: i64) -> Vec<i64> {
        let mut counts = self.counts(node);
        counts[item.pack] += item.packs.saturating_mul(times);
        counts
    }

    fn counts(&self, mut node: u32) -> Vec<i64> {
        let mut counts = vec![0; self.packs];
        while node > 0 {
            let (item, before) = self.nodes[node as usize - 1];
            let item = self.steps[item as usize];
            counts[item.pack] += item.packs;
            node = before;
        }
        counts
    }
}

pub(super) fn div_up(amount: i64, by: i64) -> i64 {
    amount.div_euclid(by) + i64::from(amount.rem_euclid(by) > 0)
}

fn clamp(value: i128) -> i64 {
    value.clamp(i64::MIN as i128, i64::MAX as i128) as i64
}
