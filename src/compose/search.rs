//! The search for the best week: a good one first (`shake`), one that is allowed where that finds none (`mend`), then, as far as the effort
//! reaches, every week that could still be as good, for the proof (`proof`).
//!
//! Effort is counted in weeks reckoned, never in seconds: the same files have the same answer on every machine. Two threads look at the
//! weeks of one round; what they find is taken in the round's order.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::at_once::judge_all;
use super::bound::Bound;
use super::far::far;
use super::floor::Floor;
use super::guess::Guess;
use super::table::{Judged, Look, Table};
use super::value::{Value, as_good_as};
use crate::prep::Effort;
use crate::progress::{self, At, Composing};

mod first;
mod mend;
mod proof;
mod shake;

use self::first::Cooking;
use self::proof::Proof;

/// A way for each open meal; `None`: it stays open.
pub type Chosen = Vec<Option<u32>>;

/// What the search found.
#[derive(Debug, Clone, Default)]
pub struct Found {
    pub best: Option<(Chosen, Value)>,
    /// The least net cost that is not ruled out, in minor units.
    pub bound: i64,
    /// Nothing better exists.
    pub proven: bool,
    /// Every week was looked at, or ruled out.
    pub complete: bool,
    /// Where nothing is allowed, weeks that break the least.
    pub nearest: Vec<Chosen>,
}

/// How much may be reckoned, in units of which a week costs a few: one for each of its meals and more.
///
/// A session's plan costs as much as it has work.
struct Limits {
    /// In the search for a good one.
    tries: usize,
    /// In the proof, of weeks, parts of weeks and plans.
    proof: usize,
    nodes: usize,
}

/// Of an effort, one part of so many.
fn limits(effort: Effort, part: usize) -> Limits {
    let Limits { tries, proof, nodes } = match effort {
        Effort::Low => Limits { tries: 10_000, proof: 30_000, nodes: 50_000 },
        Effort::Normal => Limits { tries: 200_000, proof: 200_000, nodes: 1_000_000 },
        Effort::High => Limits { tries: 1_000_000, proof: 4_000_000, nodes: 20_000_000 },
    };
    Limits { tries: tries / part, proof: proof / part, nodes: nodes / part }
}

fn below(effort: Effort) -> Option<Effort> {
    match effort {
        Effort::Low => None,
        Effort::Normal => Some(Effort::Low),
        Effort::High => Some(Effort::Normal),
    }
}

/// So many weeks are looked at one by one, without a first search.
const FEW: f64 = 60.0;

/// Weeks of so many open meals are proven as far as the effort goes, however many they are.
const TINY: usize = 5;

/// What a week costs beside its meals, in the units of [`Limits`].
const A_WEEK: usize = 3;

/// The best week whose meals take these options.
pub fn best(table: &Table, options: &[Vec<Option<u32>>], effort: Effort) -> Found {
    on_ground(table, options, effort, 1, None)
}

/// As [`best`], from a week that is known to be allowed.
pub fn best_from(table: &Table, options: &[Vec<Option<u32>>], known: Found, effort: Effort) -> Found {
    let found = on_ground(table, options, effort, 1, known.best.as_ref().map(|(week, _)| week.clone()));
    if found.best.is_some() { found } else { known }
}

/// So much less work goes into a search with a lifted wish.
const LIFTED: usize = 2;

/// A week that is allowed, sought with little effort; else those that came nearest. Options may be too many to be weighed all.
pub fn any(table: &Table, options: &[Vec<Option<u32>>]) -> Found {
    if options.iter().any(Vec::is_empty) {
        return Found::default();
    }
    let mut search = Search::new(table, options, Effort::Low);
    let guess = Floor::of(table, options).guess(options);
    search.left = limits(Effort::Low, 1).tries;
    let mut dice = 0x5EED_u64;
    let found = search.mended(Vec::new(), &guess, &mut dice);
    let best = found.and_then(|week| search.known[&week].value.map(|value| (week, value)));
    let nearest = if best.is_none() { search.nearest() } else { Vec::new() };
    Found { best, nearest, ..Found::default() }
}

/// The best week where one wish is lifted: first one that breaks it least. So many wishes share the work.
pub fn best_lifted(table: &Table, options: &[Vec<Option<u32>>], effort: Effort, wishes: usize) -> Found {
    on_ground(table, options, effort, LIFTED * wishes.max(1), None)
}

/// What is known of the options, however much effort is given to a search among them.
struct Ground<'g, 't, 'k> {
    table: &'g Table<'t, 'k>,
    options: &'g [Vec<Option<u32>>],
    bound: Bound,
    floor: Floor<'t, 'g, 'k>,
    guess: Guess,
}

fn on_ground(table: &Table, options: &[Vec<Option<u32>>], effort: Effort, part: usize, known: Option<Chosen>) -> Found {
    if options.iter().any(Vec::is_empty) {
        return Found { complete: table.ways.complete, ..Found::default() };
    }
    let floor = Floor::of(table, options);
    let ground = Ground { table, options, bound: Bound::of(table, options), guess: floor.guess(options), floor };
    best_within(&ground, effort, part, known)
}

fn best_within(ground: &Ground, effort: Effort, part: usize, known: Option<Chosen>) -> Found {
    let Ground { table, options, bound, floor, guess } = ground;
    let limits = limits(effort, part);
    // A higher effort begins with what the lower finds, so that it never finds less.
    let lower = below(effort).filter(|_| options.len() > TINY && known.is_none());
    let known_before = lower.and_then(|lower| best_within(ground, lower, part, None).best).map(|(week, _)| week).or(known);
    let mut search = Search::new(table, options, effort);
    let weeks: f64 = options.iter().map(|options| options.len() as f64).product();
    // Of few meals the proof finds the best.
    search.left = if options.len() <= TINY { limits.tries / 2 } else { limits.tries };
    let first = if weeks > FEW { search.descend(bound, guess, known_before) } else { None };
    search.left = limits.proof;
    search.aim = Composing::Proof;
    let known = first.map(|(_, value)| value);
    let mut proof = Proof { search: &mut search, bound, floor, known, waiting: Vec::new(), nodes: limits.nodes, cut: false };
    // A proof that the effort does not reach is not begun.
    if options.len() <= TINY || proof.is_within_reach() {
        proof.go(&mut Vec::new(), &mut Vec::new());
        proof.look();
    } else {
        proof.cut = true;
    }
    let mut cut = proof.cut;
    // What was found is looked at, however far the proof came.
    search.left += limits.tries;
    let (best, all_confirmed) = search.choose();
    cut |= !all_confirmed;
    let complete = !cut && table.ways.complete;
    let least = best.as_ref().map(|(_, _, least)| *least);
    let proven = complete && best.is_some();
    let ruled_out = || bound.of_all(table, options).max(floor.of_first(&[]).net.unwrap_or(0));
    let bound = match (proven, least) {
        (true, Some(least)) => least,
        (_, Some(least)) => ruled_out().min(least),
        _ => ruled_out(),
    };
    let nearest = if best.is_none() { search.nearest() } else { Vec::new() };
    Found { best: best.map(|(chosen, value, _)| (chosen, value)), bound, proven, complete, nearest }
}

/// Meal by meal, the place of its way among all that it might take; what stays open stands last.
fn file_order(options: &[Vec<Option<u32>>], chosen: &Chosen) -> Vec<usize> {
    let place =
        |(options, way): (&Vec<Option<u32>>, &Option<u32>)| options.iter().position(|option| option == way).unwrap_or(options.len());
    options.iter().zip(chosen).map(place).collect()
}

/// Which of two weeks is nearer to what is wanted: fewer rules broken, and by less, then better.
fn nearer(table: &Table, one: &Judged, other: &Judged, as_good: i64) -> Ordering {
    let broken = far(table, &one.broken).cmp(&far(table, &other.broken));
    broken.then_with(|| match (&one.value, &other.value) {
        (Some(one), Some(other)) => one.compare(other, &table.wishes, as_good).then(one.net.cmp(&other.net)),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    })
}

/// So many weeks are kept of those that break the least; so many of one set of wishes.
const NEAREST: usize = 60;
const ALIKE: usize = 10;

pub struct Search<'s, 't, 'k> {
    table: &'s Table<'t, 'k>,
    options: &'s [Vec<Option<u32>>],
    effort: Effort,
    known: BTreeMap<Chosen, Judged>,
    /// Weeks of which all that they break is known, but for their sessions.
    looked_into: BTreeSet<Chosen>,
    /// Weeks whose sessions were planned, too.
    confirmed: BTreeSet<Chosen>,
    /// Effort that is left.
    left: usize,
    reckoned: usize,
    aim: Composing,
    cooking: Cooking,
}

impl<'s, 't, 'k> Search<'s, 't, 'k> {
    fn new(table: &'s Table<'t, 'k>, options: &'s [Vec<Option<u32>>], effort: Effort) -> Search<'s, 't, 'k> {
        let (known, looked_into, confirmed) = (BTreeMap::new(), BTreeSet::new(), BTreeSet::new());
        Search {
            table,
            options,
            effort,
            known,
            looked_into,
            confirmed,
            left: 0,
            reckoned: 0,
            aim: Composing::Good,
            cooking: Cooking::of(table),
        }
    }

    /// What one week costs: the more there is to plan, to net and to buy, the more.
    fn unit(&self) -> usize {
        let table = self.table;
        A_WEEK + table.trials.whole.meals.len() + table.kitchen().recipes.len() / 2 + table.written_demands
    }

    fn spend(&mut self, weeks: usize) {
        self.reckoned += weeks;
        self.left = self.left.saturating_sub(weeks * self.unit());
        progress::at(At::Composing { meals: self.options.len(), weeks: self.reckoned, aim: self.aim });
    }

    /// Judges several weeks, two at a time; their sessions are not planned yet.
    fn judge(&mut self, weeks: &[Chosen]) {
        let new: Vec<&Chosen> = weeks.iter().filter(|week| !self.known.contains_key(*week)).collect();
        let judged = judge_all(self.table, &new, Look::Shortly, self.effort);
        let reckoned = judged.iter().filter(|judged| judged.value.is_some()).count();
        for (week, judged) in new.into_iter().zip(judged) {
            self.known.insert(week.clone(), judged);
        }
        self.spend(reckoned);
    }

    /// Judges several weeks, with all that they break.
    fn look_into(&mut self, weeks: &[Chosen]) {
        let new: BTreeSet<&Chosen> =
            weeks.iter().filter(|week| !self.looked_into.contains(*week) && !self.confirmed.contains(*week)).collect();
        let new: Vec<&Chosen> = new.into_iter().collect();
        let judged = judge_all(self.table, &new, Look::Thoroughly, self.effort);
        self.spend(new.len());
        for (week, judged) in new.into_iter().zip(judged) {
            self.looked_into.insert(week.clone());
            self.known.insert(week.clone(), judged);
        }
    }

    /// Is a week allowed, its sessions too? `None` where no effort is left to know.
    fn confirm(&mut self, week: &Chosen) -> Option<bool> {
        let judged = self.known.get(week)?;
        if !judged.is_allowed() || self.confirmed.contains(week) {
            return Some(judged.is_allowed());
        }
        if self.left == 0 {
            return None;
        }
        let (broken, work) = self.table.broken_sessions(week, self.effort);
        self.left = self.left.saturating_sub(work);
        let allowed = broken.is_empty();
        if let Some(judged) = self.known.get_mut(week) {
            judged.broken.extend(broken);
        }
        self.confirmed.insert(week.clone());
        Some(allowed)
    }

    /// Is every meal of it filled, but for those that may stay open?
    fn is_whole(&self, week: &Chosen) -> bool {
        week.iter().zip(self.options).all(|(way, options)| way.is_some() || options.last() == Some(&None))
    }

    /// Of the weeks that were reckoned those that break the fewest wishes, and then cost least; a few for each set of wishes.
    fn nearest(&self) -> Vec<Chosen> {
        let reckoned = self.known.iter().filter(|(week, judged)| !judged.broken.is_empty() && self.is_whole(week));
        let reckoned = reckoned.filter_map(|(week, judged)| Some((week, judged, judged.value?)));
        let mut reckoned: Vec<_> = reckoned.map(|(week, judged, value)| (judged.broken.len(), value.net, week, judged)).collect();
        reckoned.sort_by_key(|(broken, net, ..)| (*broken, *net));
        let mut times: BTreeMap<Vec<&super::wish::Wish>, usize> = BTreeMap::new();
        let mut nearest = Vec::new();
        for (_, _, week, judged) in reckoned {
            let taken = times.entry(judged.broken.iter().map(|one| &one.wish).collect()).or_default();
            if *taken < ALIKE && nearest.len() < NEAREST {
                nearest.push(week.clone());
            }
            *taken += 1;
        }
        nearest
    }

    /// The best of the weeks that were reckoned and whose sessions end in time, with the least net cost among them, the first in file order
    /// of equal ones; and whether the effort reached to know it.
    fn choose(&mut self) -> (Option<(Chosen, Value, i64)>, bool) {
        let allowed = self.known.iter().filter(|(week, judged)| judged.is_allowed() && self.is_whole(week));
        let mut weeks: Vec<(Chosen, Value)> = allowed.filter_map(|(week, judged)| Some((week.clone(), judged.value?))).collect();
        let (table, options) = (self.table, self.options);
        let wishes = &table.wishes;
        weeks.sort_by_key(|(_, value)| (value.left_open, value.strain, value.net));
        let mut all_known = true;
        let mut first = |search: &mut Self, weeks: &[(Chosen, Value)]| {
            weeks.iter().position(|(week, _)| {
                let allowed = search.confirm(week);
                all_known &= allowed.is_some();
                allowed == Some(true)
            })
        };
        let Some(cheapest) = first(self, &weeks) else { return (None, all_known) };
        let cheapest = weeks[cheapest].1;
        let as_good = as_good_as(cheapest.net, wishes);
        weeks.retain(|(_, value)| value.left_open >= cheapest.left_open);
        weeks.sort_by(|one, other| {
            one.1.compare(&other.1, wishes, as_good).then_with(|| file_order(options, &one.0).cmp(&file_order(options, &other.0)))
        });
        let best = first(self, &weeks).map(|place| weeks.swap_remove(place));
        (best.map(|(week, value)| (week, value, cheapest.net)), all_known)
    }
}

pub(super) fn with(now: &Chosen, gap: usize, option: Option<u32>) -> Chosen {
    let mut week = now.clone();
    week[gap] = option;
    week
}
