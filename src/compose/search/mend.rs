//! A week that is allowed, where bettering cheap ones found none: from several starts a meal is changed at a time, to what breaks the least
//! and by the least. What stays broken weighs more with each step that gains nothing, so that the search leaves a place from which every
//! single change breaks something else (the breakout method; Morris 1993, from memory).

use std::collections::BTreeMap;

use super::shake::throw;
use super::{Chosen, Search, TINY, with};
use crate::compose::far::far_from;
use crate::compose::guess::Guess;
use crate::compose::rules;
use crate::compose::wish::{Broken, Wish, add};
use crate::kitchen::Ware;

/// So many weeks are mended, one after the other.
const STARTS: usize = 6;

/// So many fillings of one meal are weighed by the rules alone: those that the guess holds for cheapest, and others at random; of a food or
/// dish that must appear, so many of those that hold it.
const RANKED: usize = 24;
const THROWN: usize = 24;
const HOLDING: usize = 8;

/// Of those, so many are reckoned.
const LOOKED_AT: usize = 6;

/// So many meals are looked at for one step, of weeks that are not tiny.
const MEALS: usize = 3;

/// What a meal was changed from does not come back for so many steps.
const RESTS: usize = 4;

/// By how much each wish counts more than at first.
type Weights = BTreeMap<Wish, i64>;

impl Search<'_, '_, '_> {
    /// A week that is allowed, its sessions too, from these starts or others.
    pub(super) fn mended(&mut self, mut starts: Vec<Chosen>, guess: &Guess, dice: &mut u64) -> Option<Chosen> {
        starts.truncate(STARTS / 2);
        let laid = self.laid(guess, dice);
        starts.extend(laid.into_iter().take(STARTS / 2));
        // Whatever cannot be laid by the rules is thrown, and mended.
        while starts.len() < STARTS {
            starts.push(self.options.iter().map(|options| options[throw(dice, options.len())]).collect());
        }
        self.look_into(&starts);
        starts.sort_by_cached_key(|week| self.weight(&self.known[week].broken, &Weights::new()));
        let share = self.left / starts.len();
        for (number, start) in (1..).zip(&starts) {
            let until = (starts.len() - number) * share;
            if let Some(week) = self.mend(start.clone(), guess, dice, until) {
                return Some(week);
            }
        }
        None
    }

    fn weight(&self, broken: &[Broken], weights: &Weights) -> i64 {
        broken.iter().map(|one| far_from(self.table, one) * (1 + weights.get(&one.wish).copied().unwrap_or(0))).sum()
    }

    /// Until so much effort is left.
    fn mend(&mut self, mut now: Chosen, guess: &Guess, dice: &mut u64, until: usize) -> Option<Chosen> {
        let mut weights = Weights::new();
        let mut rests: BTreeMap<(usize, Option<u32>), usize> = BTreeMap::new();
        let mut least = i64::MAX;
        for step in 1.. {
            if self.left <= until {
                return None;
            }
            let before = self.left;
            let mut near: Vec<(usize, Chosen)> = Vec::new();
            for gap in self.meals_to_change(dice) {
                near.extend(self.lighter(&now, guess, gap, &weights, dice).into_iter().map(|week| (gap, week)));
            }
            let weeks: Vec<Chosen> = std::iter::once(&now).chain(near.iter().map(|(_, week)| week)).cloned().collect();
            self.look_into(&weeks);
            // Sessions take longest: of what breaks nothing else.
            for week in &weeks {
                if self.known[week].is_allowed() && self.confirm(week)? {
                    return Some(week.clone());
                }
            }
            let here = self.weight(&self.known[&now].broken, &weights);
            least = least.min(here);
            let weighed = near.into_iter().map(|(gap, week)| (self.weight(&self.known[&week].broken, &weights), gap, week));
            let may_come = |(weight, gap, week): &(i64, usize, Chosen)| {
                *weight < least || rests.get(&(*gap, week[*gap])).is_none_or(|until| *until < step)
            };
            let best = weighed.filter(may_come).min_by_key(|(weight, ..)| *weight);
            if best.as_ref().is_none_or(|(weight, ..)| *weight >= here) {
                self.known[&now].broken.iter().for_each(|one| *weights.entry(one.wish.clone()).or_default() += 1);
            }
            if let Some((_, gap, week)) = best {
                rests.insert((gap, now[gap]), step + RESTS + throw(dice, RESTS));
                now = week;
            }
            // What was looked into before costs nothing, and must not keep the search from ending.
            if self.left == before {
                self.left = self.left.saturating_sub(self.unit());
            }
        }
        None
    }

    fn meals_to_change(&self, dice: &mut u64) -> Vec<usize> {
        let all = self.options.len();
        if all <= TINY {
            return (0..all).collect();
        }
        let mut meals: Vec<usize> = (0..MEALS).map(|_| throw(dice, all)).collect();
        meals.sort_unstable();
        meals.dedup();
        meals
    }

    /// Weeks with another filling of one meal, those that by the rules alone break the least.
    fn lighter(&mut self, now: &Chosen, guess: &Guess, gap: usize, weights: &Weights, dice: &mut u64) -> Vec<Chosen> {
        let options = &self.options[gap];
        let ranked = guess.ranked(options, now, gap, &Default::default());
        self.left = self.left.saturating_sub(self.ranked_for(gap));
        let holds = |option: &Option<u32>, ware: Ware| {
            option.is_some_and(|way| rules::holds(self.table.kitchen(), &self.table.ways.all[way as usize].wares, ware))
        };
        let mut some: Vec<Option<u32>> = ranked.iter().copied().take(RANKED).collect();
        for one in &self.known[now].broken {
            if let Wish::Use(ware) = one.wish {
                some.extend(ranked.iter().copied().filter(|option| holds(option, ware)).take(HOLDING));
            }
        }
        some.extend((0..THROWN).map(|_| options[throw(dice, options.len())]));
        let mut weighed: Vec<(i64, usize, Chosen)> = Vec::new();
        for (place, option) in some.into_iter().enumerate().filter(|(_, option)| *option != now[gap]) {
            let week = with(now, gap, option);
            if weighed.iter().all(|(.., other)| *other != week) {
                weighed.push((self.weight(&self.by_the_rules(&week, guess), weights), place, week));
            }
        }
        weighed.sort_by_key(|(weight, place, _)| (*weight, *place));
        weighed.into_iter().take(LOOKED_AT).map(|(.., week)| week).collect()
    }

    /// What a week breaks, as far as that is known before it is reckoned.
    fn by_the_rules(&self, week: &Chosen, guess: &Guess) -> Vec<Broken> {
        let mut broken = rules::of_meals(self.table, week);
        let cooked = self.cooking.all(guess.recipes(week)).len();
        if cooked > self.table.wishes.recipes_at_most as usize {
            add(&mut broken, Wish::RecipesAtMost, cooked as f64);
        }
        broken.retain(|one| !self.table.is_loose(&one.wish));
        broken
    }
}
