//! The search for the best week: a first one built meal by meal, bettered by changing a meal at a time; then, as far as the effort
//! reaches, every week that could still be as good, for the proof.
//!
//! Effort is counted in weeks reckoned, never in seconds: the same files have the same answer on every machine. Two threads look at the
//! weeks of one round; what they find is taken in the round's order.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::thread;

use super::bound::Bound;
use super::rules;
use super::table::{Judged, Look, Table};
use super::value::{Value, as_good_as};
use crate::prep::Effort;

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
}

/// How many weeks may be reckoned.
struct Limits {
    /// In the search for a good one.
    tries: usize,
    /// In the proof, weeks and parts of weeks.
    proof: usize,
    nodes: usize,
}

fn limits(effort: Effort) -> Limits {
    match effort {
        Effort::Low => Limits { tries: 250, proof: 500, nodes: 50_000 },
        Effort::Normal => Limits { tries: 450, proof: 4_000, nodes: 1_000_000 },
        Effort::High => Limits { tries: 20_000, proof: 60_000, nodes: 20_000_000 },
    }
}

/// So many weeks are looked at one by one, without a first search.
const FEW: f64 = 300.0;

/// The best week whose meals take these options.
pub fn best(table: &Table, options: &[Vec<Option<u32>>], effort: Effort) -> Found {
    let mut search = Search { table, options, effort, known: BTreeMap::new(), reckoned: 0 };
    if options.iter().any(Vec::is_empty) {
        return Found { complete: table.ways.complete, ..Found::default() };
    }
    let limits = limits(effort);
    let bound = Bound::of(table, options);
    let weeks: f64 = options.iter().map(|options| options.len() as f64).product();
    let first = if weeks > FEW { search.descend(&bound, limits.tries) } else { None };
    let known = first.clone().map(|(_, value)| value);
    let mut proof = Proof {
        search: &mut search,
        bound: &bound,
        known,
        allowed: Vec::new(),
        waiting: Vec::new(),
        left: limits.proof,
        nodes: limits.nodes,
        cut: false,
    };
    // A proof that the effort does not reach is not begun.
    if proof.is_within_reach() {
        proof.go(&mut Vec::new(), &mut Vec::new());
        proof.look();
    } else {
        proof.cut = true;
    }
    let (allowed, cut) = (proof.allowed, proof.cut);
    let complete = !cut && table.ways.complete;
    let all = first.into_iter().chain(allowed);
    let best = choose(table, options, all.collect());
    let least = best.as_ref().map(|(_, _, least)| *least);
    let proven = complete && best.is_some();
    let bound = match (proven, least) {
        (true, Some(least)) => least,
        (_, Some(least)) => bound.of_all().min(least),
        _ => bound.of_all(),
    };
    Found { best: best.map(|(chosen, value, _)| (chosen, value)), bound, proven, complete }
}

/// The best of allowed weeks, with the least net cost among them; the first in file order of equal ones.
fn choose(table: &Table, options: &[Vec<Option<u32>>], allowed: Vec<(Chosen, Value)>) -> Option<(Chosen, Value, i64)> {
    let wishes = &table.wishes;
    let fewest = allowed.iter().map(|(_, value)| value.left_open).min()?;
    let least = allowed.iter().filter(|(_, value)| value.left_open == fewest).map(|(_, value)| value.net).min()?;
    let as_good = as_good_as(least, wishes);
    let in_order = |one: &(Chosen, Value), other: &(Chosen, Value)| {
        one.1.compare(&other.1, wishes, as_good).then_with(|| file_order(options, &one.0).cmp(&file_order(options, &other.0)))
    };
    let (chosen, value) = allowed.into_iter().min_by(in_order)?;
    Some((chosen, value, least))
}

/// Meal by meal, the place of its way among all that it might take; what stays open stands last.
fn file_order(options: &[Vec<Option<u32>>], chosen: &Chosen) -> Vec<usize> {
    let place = |(options, way): (&Vec<Option<u32>>, &Option<u32>)| options.iter().position(|option| option == way).unwrap_or(options.len());
    options.iter().zip(chosen).map(place).collect()
}

/// Which of two weeks is nearer to what is wanted: fewer rules broken, then better.
fn nearer(table: &Table, one: &Judged, other: &Judged, as_good: i64) -> Ordering {
    let broken = one.broken.len().cmp(&other.broken.len());
    broken.then_with(|| match (&one.value, &other.value) {
        (Some(one), Some(other)) => one.compare(other, &table.wishes, as_good).then(one.net.cmp(&other.net)),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    })
}

/// Weeks that are tried in one round of the first search.
const FEW_AT_ONCE: usize = 8;

pub struct Search<'s, 't, 'k> {
    table: &'s Table<'t, 'k>,
    options: &'s [Vec<Option<u32>>],
    effort: Effort,
    known: BTreeMap<Chosen, Judged>,
    reckoned: usize,
}

impl Search<'_, '_, '_> {
    /// Judges several weeks, two at a time.
    fn judge(&mut self, weeks: &[Chosen], look: Look) {
        let new: Vec<&Chosen> = weeks.iter().filter(|week| !self.known.contains_key(*week)).collect();
        let judged = judge_all(self.table, &new, look, self.effort);
        self.reckoned += judged.iter().filter(|judged| judged.value.is_some()).count();
        for (week, judged) in new.into_iter().zip(judged) {
            self.known.insert(week.clone(), judged);
        }
    }

    /// A good week; `None` where none that is allowed was found.
    fn descend(&mut self, bound: &Bound, tries: usize) -> Option<(Chosen, Value)> {
        let mut now = self.first(bound);
        self.judge(std::slice::from_ref(&now), Look::Shortly);
        let mut best: Option<(Chosen, Value)> = None;
        let mut least = i64::MAX;
        let mut dice = 0x5EED_u64;
        while self.reckoned < tries {
            now = self.settle(now, bound, tries, least);
            let judged = &self.known[&now];
            if let Some(value) = judged.value.filter(|_| judged.is_allowed()) {
                least = least.min(value.net);
                let as_good = as_good_as(least, &self.table.wishes);
                let better = best.as_ref().is_none_or(|(_, known)| value.compare(known, &self.table.wishes, as_good).is_lt());
                if better {
                    best = Some((now.clone(), value));
                }
            }
            if let Some((week, _)) = &best {
                now = week.clone();
            }
            let before = self.reckoned;
            self.shake(&mut now, &mut dice);
            self.judge(std::slice::from_ref(&now), Look::Shortly);
            // A week that was seen before costs nothing, and must not keep the search from ending.
            self.reckoned += usize::from(self.reckoned == before);
        }
        best
    }

    /// Meal by meal, the option of each pattern that seems cheapest, tried in turn.
    fn first(&mut self, bound: &Bound) -> Chosen {
        let mut now: Chosen = vec![None; self.options.len()];
        for gap in 0..self.options.len() {
            let tries: Vec<Chosen> = self.seeming(bound, gap).into_iter().map(|option| with(&now, gap, option)).collect();
            self.judge(&tries, Look::Shortly);
            let nearest = tries.iter().min_by(|one, other| nearer(self.table, &self.known[*one], &self.known[*other], 0));
            now = nearest.cloned().unwrap_or(now);
        }
        now
    }

    /// Of each form, the option that adds least to the bound.
    fn seeming(&self, bound: &Bound, gap: usize) -> Vec<Option<u32>> {
        let mut best: BTreeMap<Option<usize>, (f64, Option<u32>)> = BTreeMap::new();
        for (option, add) in self.options[gap].iter().zip(&bound.adds[gap]) {
            let form = option.map(|way| self.table.ways.all[way as usize].form);
            let entry = best.entry(form).or_insert((*add, *option));
            if *add < entry.0 {
                *entry = (*add, *option);
            }
        }
        best.into_values().map(|(_, option)| option).collect()
    }

    /// Changes one meal at a time, and exchanges two, for as long as it gets better.
    fn settle(&mut self, mut now: Chosen, bound: &Bound, tries: usize, least: i64) -> Chosen {
        let as_good = if least == i64::MAX { 0 } else { as_good_as(least, &self.table.wishes) };
        let mut unchanged = 0;
        let mut gap = 0;
        while unchanged < self.options.len() && self.reckoned < tries {
            match self.better(&now, bound, gap, as_good) {
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
    fn better(&mut self, now: &Chosen, bound: &Bound, gap: usize, as_good: i64) -> Option<Chosen> {
        let adds = |option: &Option<u32>| {
            let place = self.options[gap].iter().position(|known| known == option);
            place.map_or(f64::MAX, |place| bound.adds[gap][place])
        };
        let mut near: Vec<(f64, Option<u32>)> = self.near(now, bound, gap).into_iter().map(|option| (adds(&option), option)).collect();
        near.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        let mut weeks: Vec<Chosen> = near.into_iter().map(|(_, option)| with(now, gap, option)).collect();
        weeks.extend(self.exchanges(now, gap));
        for few in weeks.chunks(FEW_AT_ONCE) {
            self.judge(few, Look::Shortly);
            let best = few.iter().min_by(|one, other| nearer(self.table, &self.known[*one], &self.known[*other], as_good))?;
            if nearer(self.table, &self.known[best], &self.known[now], as_good).is_lt() {
                return Some(best.clone());
            }
        }
        None
    }

    /// Options that differ from the present one in one place, and the seemingly cheapest of every other form.
    fn near(&self, now: &Chosen, bound: &Bound, gap: usize) -> Vec<Option<u32>> {
        let Some(present) = now[gap] else { return self.seeming(bound, gap) };
        let ways = &self.table.ways.all;
        let own = &ways[present as usize];
        let one_off = |way: &u32| {
            let other = &ways[*way as usize];
            other.form == own.form && other.fillings.iter().filter(|ware| !own.fillings.contains(ware)).count() == 1
        };
        let mut near: Vec<Option<u32>> =
            self.options[gap].iter().copied().filter(|option| option.is_some_and(|way| one_off(&way))).collect();
        near.extend(self.seeming(bound, gap).into_iter().filter(|option| *option != Some(present)));
        // What other meals of the week eat is cooked already.
        near.extend(now.iter().filter(|other| other.is_some() && **other != Some(present) && self.options[gap].contains(other)));
        near.sort();
        near.dedup();
        near
    }

    fn exchanges(&self, now: &Chosen, gap: usize) -> Vec<Chosen> {
        let mut weeks = Vec::new();
        for other in (gap + 1)..now.len() {
            if now[gap] != now[other] && self.options[gap].contains(&now[other]) && self.options[other].contains(&now[gap]) {
                let mut week = now.clone();
                week.swap(gap, other);
                weeks.push(week);
            }
        }
        weeks
    }

    /// Gives three meals something else.
    fn shake(&self, now: &mut Chosen, dice: &mut u64) {
        for _ in 0..now.len().min(3) {
            let gap = throw(dice, now.len());
            now[gap] = self.options[gap][throw(dice, self.options[gap].len())];
        }
    }
}

/// The next of a fixed sequence of numbers below `sides` (splitmix64, Steele, Lea and Flood 2014).
fn throw(dice: &mut u64, sides: usize) -> usize {
    *dice = dice.wrapping_add(0x9E37_79B9_7F4A_7C15);
    let mut mixed = *dice;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    ((mixed ^ (mixed >> 31)) % sides.max(1) as u64) as usize
}

fn with(now: &Chosen, gap: usize, option: Option<u32>) -> Chosen {
    let mut week = now.clone();
    week[gap] = option;
    week
}

/// Judges weeks in the order given, on two threads where that pays.
pub fn judge_all(table: &Table, weeks: &[&Chosen], look: Look, effort: Effort) -> Vec<Judged> {
    let judge = |weeks: &[&Chosen]| weeks.iter().map(|week| table.judge(week, look, effort)).collect::<Vec<_>>();
    if weeks.len() < 4 {
        return judge(weeks);
    }
    let (first, second) = weeks.split_at(weeks.len() / 2);
    thread::scope(|scope| {
        let other = scope.spawn(|| judge(second));
        let mut all = judge(first);
        match other.join() {
            Ok(more) => all.extend(more),
            Err(panic) => std::panic::resume_unwind(panic),
        }
        all
    })
}

/// Looks at every week that could be as good as the best known one.
struct Proof<'p, 's, 't, 'k> {
    search: &'p mut Search<'s, 't, 'k>,
    bound: &'p Bound,
    known: Option<Value>,
    allowed: Vec<(Chosen, Value)>,
    /// Weeks that are to be judged in one round.
    waiting: Vec<Chosen>,
    left: usize,
    nodes: usize,
    /// The effort did not reach.
    cut: bool,
}

/// Weeks of one round.
const ROUND: usize = 32;

impl Proof<'_, '_, '_, '_> {
    fn go(&mut self, taken: &mut Vec<usize>, chosen: &mut Chosen) {
        if self.cut {
            return;
        }
        let (options, table) = (self.search.options, self.search.table);
        if taken.len() == options.len() {
            self.waiting.push(chosen.clone());
            if self.waiting.len() >= ROUND {
                self.look();
            }
            return;
        }
        let gap = taken.len();
        for (place, option) in options[gap].iter().enumerate() {
            if self.nodes == 0 {
                self.cut = true;
                return;
            }
            self.nodes -= 1;
            taken.push(place);
            chosen.push(*option);
            let mut week = chosen.clone();
            week.resize(options.len(), None);
            if !self.is_dearer(taken) && (option.is_none() || rules::of_meals(table, &week).is_empty()) {
                self.go(taken, chosen);
            }
            taken.pop();
            chosen.pop();
        }
    }

    /// Are there few enough weeks that could be as good as the best known one, by the bound alone?
    fn is_within_reach(&self) -> bool {
        let (mut left, mut nodes) = (self.left * 4, self.nodes);
        self.counts_down(&mut Vec::new(), &mut left, &mut nodes)
    }

    fn counts_down(&self, taken: &mut Vec<usize>, left: &mut usize, nodes: &mut usize) -> bool {
        let options = self.search.options;
        if taken.len() == options.len() {
            *left = left.saturating_sub(1);
            return *left > 0;
        }
        for place in 0..options[taken.len()].len() {
            *nodes = nodes.saturating_sub(1);
            taken.push(place);
            let within = *nodes > 0 && (self.is_dearer(taken) || self.counts_down(taken, left, nodes));
            taken.pop();
            if !within {
                return false;
            }
        }
        true
    }

    /// Can no week that begins so be as good as the best known?
    fn is_dearer(&self, taken: &[usize]) -> bool {
        let wishes = &self.search.table.wishes;
        let by_cost = wishes.prefer[0] == crate::kitchen::Prefer::Cost && !self.search.table.from_shelf;
        by_cost && self.known.is_some_and(|known| self.bound.of_first(taken) > as_good_as(known.net, wishes))
    }

    fn look(&mut self) {
        let weeks = std::mem::take(&mut self.waiting);
        if weeks.len() > self.left {
            self.cut = true;
            return;
        }
        self.left -= weeks.len();
        self.search.judge(&weeks, Look::Shortly);
        for week in weeks {
            let judged = &self.search.known[&week];
            if let Some(value) = judged.value.filter(|_| judged.is_allowed()) {
                let cheaper = self.known.is_none_or(|known| value.net < known.net);
                if cheaper {
                    self.known = Some(value);
                }
                self.allowed.push((week, value));
            }
        }
    }
}
