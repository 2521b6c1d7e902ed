//! A good week: whole weeks that the guess holds for cheap, bettered by changing a meal at a time, and shaken.

use std::collections::{BTreeMap, BTreeSet};

use super::proof::ROUND;
use super::{Chosen, Search, nearer, with};
use crate::compose::at_once::in_two;
use crate::compose::bound::Bound;
use crate::compose::guess::Guess;
use crate::compose::value::{Value, as_good_as};
use crate::compose::ways::recipes;
use crate::compose::wish::Wish;
use crate::kitchen::{PatternId, RecipeId};

/// A week that was guessed at is bettered so many times; of those that are best, so many are looked into.
const PASSES: usize = 4;
const STARTS: usize = 4;

/// After so many rounds without gain the search goes on from elsewhere.
const PATIENCE: usize = 5;

/// So many options of one meal are looked at, those that add least.
const NEAR: usize = 6;

/// So many weeks are shaken at once; to guess at one of them costs about as much as to reckon so many.
const SHAKEN: usize = 4;
const GUESSED: usize = 16;

/// So many fillings are ranked in the time of one unit of work; up to so many of one meal that is part of the work of a week.
const RANKED: usize = 60;
const RANKED_ALONG: usize = 2_000;

/// A week is bettered where it costs no more than the best by one in so many.
const PROMISING: i64 = 12;

/// So many exchanges of one meal with another are looked at.
const EXCHANGES: usize = 2;

/// Weeks that are tried in one round of the first search.
const FEW_AT_ONCE: usize = 8;

/// A week with what it is worth.
type Hill = (Chosen, Value);

impl Search<'_, '_, '_> {
    /// A good week, from one that was found before if there is one; `None` where none that is allowed was found.
    pub(super) fn descend(&mut self, bound: &Bound, guess: &Guess, before: Option<Chosen>) -> Option<Hill> {
        let mut dice = 0x5EED_u64;
        let mut starts = self.laid(guess, &mut dice);
        starts.truncate(FEW_AT_ONCE);
        starts.extend(before);
        if starts.is_empty() {
            starts.push(self.first(bound));
        }
        self.judge(&starts);
        starts.sort_by(|one, other| nearer(self.table, &self.known[one], &self.known[other], 0));
        starts.truncate(STARTS);
        starts.reverse();
        let mut last = starts.last().cloned().unwrap_or_else(|| vec![None; self.options.len()]);
        let mut best: Option<Hill> = None;
        let mut hills: Vec<Hill> = Vec::new();
        while let Some(start) = starts.pop().filter(|_| self.left > 0) {
            last = self.settle(start, bound, guess, i64::MAX);
            let mut hill = None;
            self.keep_if_better(&last, &mut hill);
            self.keep_if_better(&last, &mut best);
            hills.extend(hill);
        }
        if best.is_none() {
            // Where nothing allowed was found, to be allowed is all that is sought, with half of what is left.
            let half = self.left / 2;
            self.left -= half;
            let nearest = self.nearest();
            let mended = self.mended(nearest, guess, &mut dice);
            self.left += half;
            if let Some(week) = mended {
                last = self.settle(week.clone(), bound, guess, i64::MAX);
                for week in [&week, &last] {
                    self.keep_if_better(week, &mut best);
                }
                hills.extend(best.clone());
            }
        }
        self.wander(last, (best, hills), (bound, guess), &mut dice)
    }

    /// From hill to hill, and between two of them from the best again, for another may be the higher one once it is climbed.
    fn wander(
        &mut self,
        mut last: Chosen,
        (mut best, hills): (Option<Hill>, Vec<Hill>),
        (bound, guess): (&Bound, &Guess),
        dice: &mut u64,
    ) -> Option<Hill> {
        let mut here = best.clone();
        let (mut round, mut stalled, mut moves) = (0, 0, 0);
        while self.left > 0 {
            let before = self.left;
            if stalled >= PATIENCE && !hills.is_empty() {
                here = if moves % 2 == 0 { Some(hills[(moves / 2) % hills.len()].clone()) } else { best.clone() };
                (moves, stalled) = (moves + 1, 0);
            }
            round += 1;
            let from = here.as_ref().or(best.as_ref()).map_or(&last, |(week, _)| week).clone();
            let start = self.nearest_shaken(&from, guess, round, dice);
            let least = here.as_ref().map_or(i64::MAX, |(_, value)| value.net);
            last = if self.is_promising(&start, least) { self.settle(start, bound, guess, least) } else { start };
            self.keep_if_better(&last, &mut best);
            stalled = if self.keep_if_better(&last, &mut here) { 0 } else { stalled + 1 };
            // A week that was seen before costs nothing, and must not keep the search from ending.
            if self.left == before {
                self.left = self.left.saturating_sub(self.unit());
            }
        }
        best
    }

    /// Is a week worth bettering? Not where even much bettered it would be dearer than the best.
    fn is_promising(&self, week: &Chosen, least: i64) -> bool {
        let judged = &self.known[week];
        let dearest = least.saturating_add(least.abs() / PROMISING);
        least == i64::MAX || !judged.is_allowed() || judged.value.is_some_and(|value| value.net <= dearest)
    }

    /// Takes a week that is allowed, its sessions too, where it is better; whether it was taken.
    fn keep_if_better(&self, week: &Chosen, best: &mut Option<Hill>) -> bool {
        let judged = &self.known[week];
        let Some(value) = judged.value.filter(|_| judged.is_allowed() && self.confirmed.contains(week)) else { return false };
        let least = best.as_ref().map_or(value.net, |(_, known)| known.net.min(value.net));
        let as_good = as_good_as(least, &self.table.wishes);
        let is_better = best.as_ref().is_none_or(|(_, known)| value.compare(known, &self.table.wishes, as_good).is_lt());
        if is_better {
            *best = Some((week.clone(), value));
        }
        is_better
    }

    /// What it takes to guess at one week: of many fillings, as long as it takes to rank them twice.
    pub(super) fn guessed(&self) -> usize {
        let all: usize = self.options.iter().map(Vec::len).sum();
        (GUESSED * self.unit()).max(2 * all / RANKED)
    }

    /// Of a few weeks near a good one, each shaken in another way, the nearest to what is wanted.
    fn nearest_shaken(&mut self, from: &Chosen, guess: &Guess, round: usize, dice: &mut u64) -> Chosen {
        let seeds: Vec<(usize, u64)> = (0..SHAKEN).map(|number| (SHAKEN * round + number, throw(dice, usize::MAX) as u64)).collect();
        let shaken = in_two(&seeds, |(number, seed)| self.shaken(from, guess, *number, &mut seed.clone()));
        self.left = self.left.saturating_sub(SHAKEN * self.guessed());
        self.judge(&shaken);
        let nearest = shaken.iter().min_by(|one, other| nearer(self.table, &self.known[*one], &self.known[*other], 0));
        nearest.unwrap_or(from).clone()
    }

    /// Meal by meal what adds least by the guess, of what the rules allow beside the others, until nothing changes.
    pub(super) fn refilled(&self, mut now: Chosen, guess: &Guess, banned: &BTreeSet<RecipeId>) -> Chosen {
        for _ in 0..PASSES {
            let before = now.clone();
            for gap in 0..now.len() {
                let mut banned = banned.clone();
                let cooked = self.cooking.all(guess.recipes(&with(&now, gap, None)));
                // Where nothing more may be cooked, what is cooked already has to do.
                if cooked.len() >= self.most_cooked() {
                    let all = (0..self.table.kitchen().recipes.len()).map(RecipeId);
                    banned.extend(all.filter(|recipe| self.cooking.is_new(*recipe, &cooked)));
                }
                let ranked = self.free(&now, guess, gap, banned);
                let allowed = |option: &Option<u32>| self.fits(&with(&now, gap, *option), guess);
                if let Some(option) = ranked.into_iter().take(ROUND).find(allowed) {
                    now[gap] = option;
                }
            }
            if now == before {
                break;
            }
        }
        now
    }

    /// The options of a meal as the guess ranks them, without patterns and recipes that the other meals have as often as may be.
    fn free(&self, now: &Chosen, guess: &Guess, gap: usize, mut banned: BTreeSet<RecipeId>) -> Vec<Option<u32>> {
        let (table, patterns) = (self.table, &self.table.kitchen().together.patterns);
        let others = with(now, gap, None);
        let plates = table.plates(&others);
        let mut of_pattern = vec![0; patterns.len()];
        let mut of_recipe = vec![0; table.kitchen().recipes.len()];
        for plate in &plates {
            plate.pattern.iter().for_each(|pattern| of_pattern[pattern.0] += 1);
            recipes(plate.wares).for_each(|recipe| of_recipe[recipe.0] += 1);
        }
        // A lifted wish may be broken.
        let is_lifted = |wish: &Wish| table.is_loose(wish);
        if table.wishes.one_at_most.by_place.is_empty() && !is_lifted(&Wish::OneAtMost(None)) {
            let most = table.wishes.times("");
            banned.extend((0..of_recipe.len()).filter(|recipe| of_recipe[*recipe] >= most).map(RecipeId));
        }
        let is_full = |id: PatternId| !is_lifted(&Wish::AtMost(id)) && patterns[id].at_most.is_some_and(|most| of_pattern[id.0] >= most);
        let full: Vec<bool> = (0..patterns.len()).map(|pattern| is_full(PatternId(pattern))).collect();
        let pattern = |way: u32| table.ways.forms[table.ways.all[way as usize].form].pattern;
        let mut ranked = guess.ranked(&self.options[gap], now, gap, &banned);
        ranked.retain(|option| !option.and_then(pattern).is_some_and(|pattern| full[pattern.0]));
        ranked
    }

    /// Another week near a good one: without one or two of its recipes, or with three meals given something else, then bettered by the
    /// guess.
    fn shaken(&self, from: &Chosen, guess: &Guess, number: usize, dice: &mut u64) -> Chosen {
        let mut now = from.clone();
        let recipes = guess.recipes(from);
        let mut banned = BTreeSet::new();
        if number % 4 < 3 && !recipes.is_empty() {
            for _ in 0..1 + number % 2 {
                banned.insert(recipes[throw(dice, recipes.len())]);
            }
        } else {
            for _ in 0..now.len().min(3) {
                let gap = throw(dice, now.len());
                now[gap] = self.options[gap][throw(dice, self.options[gap].len())];
            }
        }
        self.refilled(now, guess, &banned)
    }

    /// Meal by meal, the option of each pattern that seems cheapest, tried in turn.
    fn first(&mut self, bound: &Bound) -> Chosen {
        let mut now: Chosen = vec![None; self.options.len()];
        for gap in 0..self.options.len() {
            let tries: Vec<Chosen> = self.seeming(bound, gap).into_iter().map(|option| with(&now, gap, option)).collect();
            self.judge(&tries);
            let nearest = tries.iter().min_by(|one, other| nearer(self.table, &self.known[*one], &self.known[*other], 0));
            now = nearest.cloned().unwrap_or(now);
        }
        now
    }

    /// Of each form, the option that adds least to the bound.
    fn seeming(&self, bound: &Bound, gap: usize) -> Vec<Option<u32>> {
        let mut best: BTreeMap<Option<usize>, (f64, Option<u32>)> = BTreeMap::new();
        for (option, add) in self.options[gap].iter().zip(bound.adds[gap].iter()) {
            let form = option.map(|way| self.table.ways.all[way as usize].form);
            let entry = best.entry(form).or_insert((*add, *option));
            if *add < entry.0 {
                *entry = (*add, *option);
            }
        }
        best.into_values().map(|(_, option)| option).collect()
    }

    /// Changes one meal at a time, and exchanges two, for as long as it gets better.
    fn settle(&mut self, mut now: Chosen, bound: &Bound, guess: &Guess, least: i64) -> Chosen {
        let as_good = if least == i64::MAX { 0 } else { as_good_as(least, &self.table.wishes) };
        let mut unchanged = 0;
        let mut gap = 0;
        while self.left > 0 {
            // Sessions are planned where it matters: of what would be taken.
            if unchanged == self.options.len() {
                if self.confirmed.contains(&now) || !self.known[&now].is_allowed() || self.confirm(&now) != Some(false) {
                    break;
                }
                unchanged = 0;
            }
            match self.better(&now, (bound, guess), gap, as_good) {
                Some(better) => {
                    now = better;
                    unchanged = 0;
                }
                None => unchanged += 1,
            }
            gap = (gap + 1) % self.options.len();
        }
        now
    }

    /// A nearer week that differs in one meal, or in two that are exchanged: what seems cheapest is tried first, a few at a time.
    fn better(&mut self, now: &Chosen, (bound, guess): (&Bound, &Guess), gap: usize, as_good: i64) -> Option<Chosen> {
        self.left = self.left.saturating_sub(self.ranked_for(gap));
        let near = self.near(now, bound, guess, gap);
        let mut weeks: Vec<Chosen> = near.into_iter().map(|option| with(now, gap, option)).collect();
        weeks.extend(self.exchanges(now, guess, gap));
        for few in weeks.chunks(FEW_AT_ONCE) {
            self.judge(few);
            let best = few.iter().min_by(|one, other| nearer(self.table, &self.known[*one], &self.known[*other], as_good))?;
            if nearer(self.table, &self.known[best], &self.known[now], as_good).is_lt() {
                return Some(best.clone());
            }
        }
        None
    }

    /// What it takes to rank the options of one meal, beyond what is part of the work of a week.
    pub(super) fn ranked_for(&self, gap: usize) -> usize {
        self.options[gap].len().saturating_sub(RANKED_ALONG) / RANKED
    }

    /// The options that add least beside what the other meals eat, and of every form the one that seems cheapest.
    fn near(&self, now: &Chosen, bound: &Bound, guess: &Guess, gap: usize) -> Vec<Option<u32>> {
        let ranked = self.free(now, guess, gap, BTreeSet::new());
        let fits = |option: &Option<u32>| *option != now[gap] && self.fits(&with(now, gap, *option), guess);
        let mut near: Vec<Option<u32>> = ranked.into_iter().take(ROUND).filter(fits).take(NEAR).collect();
        if near.is_empty() {
            near = self.seeming(bound, gap);
            near.retain(|option| *option != now[gap]);
        }
        near
    }

    /// Weeks in which the meal and a later one are exchanged, those that the guess holds for cheapest.
    fn exchanges(&self, now: &Chosen, guess: &Guess, gap: usize) -> Vec<Chosen> {
        let mut weeks = Vec::new();
        for other in (gap + 1)..now.len() {
            if now[gap] != now[other] && self.options[gap].contains(&now[other]) && self.options[other].contains(&now[gap]) {
                let mut week = now.clone();
                week.swap(gap, other);
                weeks.push((guess.cost(&week), week));
            }
        }
        weeks.sort_by(|one, other| one.0.total_cmp(&other.0));
        weeks.truncate(EXCHANGES);
        weeks.into_iter().map(|(_, week)| week).collect()
    }
}

/// The next of a fixed sequence of numbers below `sides` (splitmix64, Steele, Lea and Flood 2014).
pub(super) fn throw(dice: &mut u64, sides: usize) -> usize {
    *dice = dice.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut mixed = *dice;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((mixed ^ (mixed >> 31)) % sides.max(1) as u64) as usize
}
