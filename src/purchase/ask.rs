//! One need as it is asked of a shop: its total, its windows, the measure in which packs are compared.
//!
//! Knows a need and its food; no price, no other need.

use itertools::Itertools;
use jiff::ToSpan;
use jiff::civil::Date;

use super::cover::Target;
use super::tins::Tins;
use crate::foods::{Food, convert};
use crate::kitchen::{Pack, PackKind};
use crate::measure::{Dimension, Number, TOLERANCE, Word, steps_up, word_named};
use crate::plan::{Need, NeedUse, Stated};

/// Far beyond any larder; keeps sums within 64 bits.
const MOST: i64 = 100_000_000_000_000_000;

/// What a window is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WindowFor {
    /// Uses from this day on.
    Day(Date),
    /// Nothing but uses "to taste", from this day on: any one pack or loose step.
    Taste(Date),
    /// A staple's top-up.
    Shelf,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Window {
    pub what: WindowFor,
    /// Base units.
    pub amount: Number,
}

/// One need that a shop can be asked for.
#[derive(Debug, Clone)]
pub(super) struct Ask<'a> {
    pub need: &'a Need,
    pub food: &'a Food,
    /// What has to be bought for something.
    wanted: Vec<Wanted<'a>>,
    /// Base units, pieces rounded up to whole ones.
    pub total: Number,
    pub tins: Tins,
    /// The drained share, where every line is stated as drained: packs are then compared in drained grams.
    pub drained: Option<Number>,
    /// How many of the smallest unit make one base unit.
    fine: i64,
}

/// A use, with its amount in the tins that are bought for it.
#[derive(Debug, Clone)]
struct Wanted<'a> {
    part: &'a NeedUse,
    /// Base units.
    amount: Number,
}

/// Does anything of this use have to be bought?
pub(super) fn is_wanted(part: &NeedUse) -> bool {
    part.to_taste || part.amount > 0
}

impl<'a> Ask<'a> {
    /// `packs` are those that are sold anywhere. `None` where nothing has to be bought.
    pub fn of<'p>(need: &'a Need, food: &'a Food, packs: impl Iterator<Item = &'p Pack>) -> Option<Self> {
        let wanted: Vec<&NeedUse> = need.uses.iter().filter(|part| is_wanted(part)).collect();
        if wanted.is_empty() {
            return None;
        }
        let exact: Number = need.uses.iter().filter(|part| !part.to_taste).map(|part| &part.amount).sum();
        let total = if need.dimension == Dimension::Count { steps_up(&exact, &Number::ONE) } else { exact };
        let all_drained = need.dimension == Dimension::Mass && wanted.iter().all(|part| part.stated == Stated::Drained);
        let share = food.drained.as_ref().map(|fact| Number::from(fact.value)).filter(Number::is_positive);
        let drained = if all_drained { share } else { None };
        // Fine enough for steps of one millilitre of dried herbs; coarser for large amounts, so that sums stay whole numbers of 64 bits.
        let fine = match &total {
            total if *total < 200_000 => 100_000_000_000,
            total if *total < 1_000_000 => 1_000_000_000,
            _ => 1_000,
        };
        let lines = in_tins(&wanted, food, &need.dimension);
        let tins = if lines.is_empty() { Tins::default() } else { Tins::of(&lines, &singles(food, packs, &need.dimension)) };
        let amounts = wanted.iter().map(|part| part.amount.clone());
        let amounts =
            if lines.is_empty() { amounts.collect() } else { lines.iter().map(|(amount, size)| tins.asked(amount, size)).collect_vec() };
        let wanted = wanted.into_iter().zip(amounts).map(|(part, amount)| Wanted { part, amount }).collect();
        Some(Ask { need, food, wanted, total, tins, drained, fine })
    }

    /// Base units as purchased to the unit in which packs are compared.
    pub fn units(&self, base: &Number) -> i64 {
        match &self.drained {
            Some(share) => self.plain_units(&(base * share)),
            None => self.plain_units(base),
        }
    }

    /// `count` times `one`, with `one` rounded: what it comes to is in proportion to `count`.
    pub fn units_each(&self, one: &Number, count: &Number) -> i64 {
        whole(&(count * self.units(one)))
    }

    /// Base units that are already drained where packs are compared drained.
    pub fn plain_units(&self, base: &Number) -> i64 {
        whole(&(base * self.fine))
    }

    /// The way back, in base units as purchased.
    pub fn base(&self, units: i64) -> f64 {
        units as f64 / self.fine as f64 / self.drained.as_ref().map_or(1.0, Number::to_f64)
    }

    /// The windows at a shop that sells the food loose, or in packs only.
    pub fn windows(&self, loose: bool) -> Vec<Window> {
        let opened = self.food.keeps.opened.as_ref().map(|fact| fact.value.0).filter(|_| !loose);
        let mut windows: Vec<Window> = Vec::new();
        let mut uses: Vec<&Wanted> = self.wanted.iter().filter(|one| !one.part.top_up).collect();
        uses.sort_by_key(|one| one.part.on);
        let top_up: Number = self.need.uses.iter().filter(|part| part.top_up).map(|part| &part.amount).sum();
        for Wanted { part, amount } in uses.iter().filter(|one| !one.part.to_taste) {
            match windows.last_mut() {
                Some(window) if reaches(window.what, opened, part.on) => window.amount += amount,
                _ => windows.push(Window { what: WindowFor::Day(part.on), amount: amount.clone() }),
            }
        }
        match windows.last_mut() {
            Some(window) if opened.is_none() => window.amount = self.total.clone(),
            _ if top_up > 0 => windows.push(Window { what: WindowFor::Shelf, amount: top_up }),
            _ => {}
        }
        if let [window] = windows.as_mut_slice() {
            window.amount = self.total.clone();
        }
        // Whatever is bought covers what is to taste.
        if let ([], Some(first)) = (windows.as_slice(), uses.first()) {
            windows.push(Window { what: WindowFor::Taste(first.part.on), amount: Number::ZERO });
        }
        windows
    }

    /// All of it as one window, from its first use on.
    pub fn one_window(&self) -> Window {
        let first = self.wanted.iter().filter(|one| !one.part.top_up).map(|one| one.part.on).min();
        Window { what: first.map_or(WindowFor::Shelf, WindowFor::Day), amount: self.total.clone() }
    }

    /// How many packs a need takes that no pack can be compared with: one for each container that its lines ask for, else one.
    pub fn containers(&self) -> i64 {
        let Dimension::Word(asked) = &self.need.dimension else { return 1 };
        let word = asked.split(' ').next().and_then(word_named);
        let is_sold_in = |word: Word| word.is_container() || matches!(word, Word::Bunch | Word::Head);
        match word.filter(|word| is_sold_in(*word)) {
            Some(_) => self.total.ceil().to_i64().unwrap_or(1).max(1),
            None => 1,
        }
    }

    /// What each window must reach at a shop. `None` where all of it may stay unmet.
    pub fn targets(&self, windows: &[Window], loose: bool, short_by: f64) -> Option<Vec<Target>> {
        let may_fall_short = windows.len() == 1 && !loose && self.need.dimension != Dimension::Count;
        let slack = if may_fall_short { self.units(&(&self.need.demand * Number::from(short_by))) } else { 0 };
        windows.iter().map(|window| self.target(window, slack)).collect()
    }

    fn target(&self, window: &Window, slack: i64) -> Option<Target> {
        if let WindowFor::Taste(_) = window.what {
            return Some(Target { need: 0, least: 1, noise: 0 });
        }
        let need = self.units(&window.amount).max(1);
        let noise = (need as f64 * TOLERANCE).ceil() as i64;
        let least = need - slack - noise;
        let may_be_nothing = slack > 0 && least <= 0 && !self.need.uses.iter().any(|part| part.to_taste);
        (!may_be_nothing).then_some(Target { need, least: least.max(1), noise })
    }
}

fn whole(units: &Number) -> i64 {
    let far = if units.is_positive() { MOST } else { -MOST };
    units.round().to_i64().filter(|units| units.abs() <= MOST).unwrap_or(far)
}

fn reaches(what: WindowFor, opened: Option<i64>, on: Date) -> bool {
    match (what, opened) {
        (_, None) => true,
        (WindowFor::Day(first), Some(days)) => first.saturating_add(days.days()) >= on,
        (WindowFor::Taste(_) | WindowFor::Shelf, _) => false,
    }
}

/// Amounts, each with the size of the tins that its line states, in base units of the need; empty where a line states none.
fn in_tins<'a>(uses: &[&'a NeedUse], food: &Food, dimension: &Dimension) -> Vec<(&'a Number, Number)> {
    if *dimension == Dimension::Count {
        return Vec::new();
    }
    let line = |part: &&'a NeedUse| match &part.stated {
        Stated::Tin { size } => convert(food, size, dimension).ok().map(|size| (&part.amount, size.exact().clone())),
        Stated::Plain | Stated::Drained => None,
    };
    uses.iter().map(line).collect::<Option<Vec<_>>>().unwrap_or_default()
}

/// What the single packs hold that are sold, as far as they can be compared.
fn singles<'p>(food: &Food, packs: impl Iterator<Item = &'p Pack>, dimension: &Dimension) -> Vec<Number> {
    let single = |pack: &Pack| match &pack.kind {
        PackKind::Sized { single, .. } => convert(food, single, dimension).ok().map(|single| single.exact().clone()),
        PackKind::Loose { .. } => None,
    };
    packs.filter_map(single).collect()
}
