//! When what is done ahead begins: as long before as its recipe says, moved to keep `gap` and `within`, and never with hands at night;
//! of two that follow one another the first is over when the second begins.
//!
//! Minutes count from the start of the session, or from the meal that a dish is made at.

use jiff::Span;
use jiff::civil::{DateTime, Time};

use super::fill::loads_needed;
use super::follows::directly_before;
use super::names::handles_raw;
use super::rounds::rounds;
use crate::kitchen::{Kitchen, Recipe, Step};
use crate::plan::Making;

/// What would have hands from ten in the evening to seven in the morning begins at eight of the evening before.
const NIGHT: (i64, i64) = (22 * 60, 7 * 60);
const EVENING: Time = Time::constant(20, 0, 0, 0);

/// Each step of the making that is done ahead, with its start; in the recipe's order. `planned` tells when the rounds of another step
/// begin.
pub(super) fn starts(kitchen: &Kitchen, making: &Making, base: DateTime, planned: &dyn Fn(usize) -> Vec<i64>) -> Vec<(usize, DateTime)> {
    minutes(kitchen, making, Some(base), planned).into_iter().filter_map(|(step, minute)| Some((step, at(base, minute)?))).collect()
}

/// As [`starts`], in minutes; without a `base` nobody knows when it is night.
pub(super) fn minutes(
    kitchen: &Kitchen,
    making: &Making,
    base: Option<DateTime>,
    planned: &dyn Fn(usize) -> Vec<i64>,
) -> Vec<(usize, i64)> {
    let recipe = &kitchen.recipes[making.recipe];
    let mut ahead = Ahead { kitchen, making, recipe, base, planned, placed: vec![None; recipe.steps.len()] };
    let steps = (0..recipe.steps.len()).filter(|step| recipe.steps[*step].ahead.is_some());
    steps.map(|step| (step, ahead.place(step))).collect()
}

struct Ahead<'a> {
    kitchen: &'a Kitchen,
    making: &'a Making,
    recipe: &'a Recipe,
    base: Option<DateTime>,
    planned: &'a dyn Fn(usize) -> Vec<i64>,
    placed: Vec<Option<i64>>,
}

impl Ahead<'_> {
    /// Its start, once those that come after it stand.
    fn place(&mut self, step: usize) -> i64 {
        if let Some(at) = self.placed[step] {
            return at;
        }
        let asked = &self.recipe.steps[step];
        let usual = -asked.ahead.map_or(0, |ahead| ahead.0);
        let hands = self.hands(step);
        let (first, last) = self.window(step, hands + asked.waits(&self.kitchen.appliances));
        let mut at = usual.min(last).max(first);
        // Its hands are done when the session begins, unless its recipe has them later.
        if at > usual {
            at = at.min((-hands).max(usual));
        }
        let evening = self.evening_before(at, hands).filter(|evening| *evening >= first);
        let at = evening.unwrap_or(at);
        self.placed[step] = Some(at);
        at
    }

    /// The earliest start by `within`, and the latest by `gap`, of what comes after it. Of several rounds `gap` counts to the first and
    /// `within` to the last.
    fn window(&mut self, step: usize, minutes: i64) -> (i64, i64) {
        let (mut first, mut last) = (i64::MIN, i64::MAX);
        for later in (0..self.recipe.steps.len()).filter(|later| directly_before(self.recipe, *later).contains(&step)) {
            let asked: &Step = &self.recipe.steps[later];
            let starts = if asked.ahead.is_some() { vec![self.place(later)] } else { (self.planned)(later) };
            let (Some(from), Some(to)) = (starts.iter().min().copied(), starts.iter().max().copied()) else { continue };
            if let Some(gap) = asked.gap {
                last = last.min(from.saturating_sub(gap.0).saturating_sub(minutes));
            } else if asked.ahead.is_some() {
                last = last.min(from.saturating_sub(minutes));
            }
            if let Some(within) = asked.within {
                first = first.max(to.saturating_sub(within.0).saturating_sub(minutes));
            }
        }
        (first, last)
    }

    fn hands(&self, step: usize) -> i64 {
        let (kitchen, recipe) = (self.kitchen, self.recipe);
        let (asked, batches) = (&recipe.steps[step], self.making.batches.to_f64());
        let wash = if handles_raw(&kitchen.foods, recipe, step) { kitchen.rules.wash.0 } else { 0 };
        rounds(kitchen, asked, batches, loads_needed(kitchen, recipe, asked, batches), wash).iter().map(|round| round.hands).sum()
    }

    /// Eight o'clock of the evening before, for hands that would fall into the night.
    fn evening_before(&self, start: i64, hands: i64) -> Option<i64> {
        let begins = at(self.base?, start)?;
        let minute = i64::from(begins.hour()) * 60 + i64::from(begins.minute());
        let before_dawn = minute < NIGHT.1;
        let at_night = before_dawn || minute >= NIGHT.0 || minute + hands > NIGHT.0;
        if hands == 0 || !at_night {
            return None;
        }
        let day = if before_dawn { begins.date().yesterday().ok()? } else { begins.date() };
        Some(start - begins.duration_since(day.to_datetime(EVENING)).as_secs().div_euclid(60))
    }
}

/// `None` where the clock runs out of years.
fn at(base: DateTime, minutes: i64) -> Option<DateTime> {
    base.checked_add(Span::new().try_minutes(minutes).ok()?).ok()
}

#[cfg(test)]
mod tests;
