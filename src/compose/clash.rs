//! Nothing is allowed: which wishes clash, and what would loosen each.
//!
//! A set of wishes clashes where every week breaks one of it. Of the weeks that were looked at, each with all that it breaks, the smallest
//! such set is told, the first in the order of [`Wish`] of equal ones.

use std::collections::BTreeSet;

use jiff::civil::DateTime;

use super::at_once::{in_two, judge_all};
use super::search::{Chosen, Found};
use super::table::{Judged, Look, Table};
use super::ways::Gap;
use super::wish::{Broken, Wish};
use crate::kitchen::{PatternId, Week};
use crate::measure::Minutes;
use crate::prep::Effort;
use crate::progress::{self, At, Composing};

/// The smallest set of wishes that no week grants together.
#[derive(Debug, Clone)]
pub struct Clash {
    pub week: Week,
    pub wishes: Vec<Clashing>,
    /// Every week was looked at; else none that is allowed was found.
    pub proven: bool,
}

#[derive(Debug, Clone)]
pub struct Clashing {
    pub wish: Wish,
    /// As it is.
    pub now: HowMuch,
    /// At which a week would be allowed, everything else held.
    pub would_do: HowMuch,
}

/// A figure of a wish.
#[derive(Debug, Clone, PartialEq)]
pub enum HowMuch {
    /// It has no figure: it holds, or it does not.
    Whole,
    /// Minor units of money.
    Minor(i64),
    Times(u32),
    Days(i64),
    Minutes(i64),
    /// A time of day, of a session that starts then.
    At(DateTime, DateTime),
    Grams(f64),
    Kcal(f64),
}

const FEW_MEALS: usize = 5;

/// So many weeks are looked at.
fn most(effort: Effort) -> usize {
    match effort {
        Effort::Low => 60,
        Effort::Normal => 250,
        Effort::High => 5_000,
    }
}

/// So much work goes into the plans of their sessions.
const WORK: usize = 60_000;

pub fn clash(table: &Table, found: &Found, effort: Effort) -> Clash {
    let week = table.trials.whole.clone();
    // A meal that nothing may fill is the clash by itself.
    for (gap, barred) in table.gaps.iter().zip(&table.barred) {
        if gap.ways.is_empty() {
            let broken: Vec<Vec<Broken>> = barred.iter().map(|(_, broken)| broken.clone()).collect();
            let wishes = if broken.is_empty() { vec![whole(Wish::Pattern(gap.meal))] } else { told(table, &broken) };
            return Clash { week, wishes, proven: table.ways.complete };
        }
    }
    let (broken, all) = looked_at(table, &found.nearest, most(effort), effort);
    Clash { week, wishes: told(table, &broken), proven: all && found.complete }
}

fn whole(wish: Wish) -> Clashing {
    Clashing { wish, now: HowMuch::Whole, would_do: HowMuch::Whole }
}

/// What weeks break, and whether those are all weeks: first of the ways that are free, then with those that are barred.
fn looked_at(table: &Table, nearest: &[Chosen], most: usize, effort: Effort) -> (Vec<Vec<Broken>>, bool) {
    let free: Vec<Vec<u32>> = table.gaps.iter().map(|gap| gap.ways.clone()).collect();
    let with_barred = |(gap, barred): (&Gap, &Vec<(u32, Vec<Broken>)>)| {
        let mut ways: Vec<u32> = gap.ways.iter().copied().chain(barred.iter().map(|(way, _)| *way)).collect();
        ways.sort_unstable();
        ways
    };
    let every: Vec<Vec<u32>> = table.gaps.iter().zip(&table.barred).map(with_barred).collect();
    let count = |ways: &[Vec<u32>]| ways.iter().map(|ways| ways.len() as f64).product::<f64>();
    // Weeks of few open meals are reckoned quickly.
    let enough = if table.gaps.len() <= FEW_MEALS { 12 * most } else { most } as f64;
    let (ways, all) = if count(&every) <= enough { (&every, true) } else { (&free, count(&free) <= enough) };
    let weeks: Vec<Chosen> = match all {
        true => all_weeks(ways),
        // Weeks that were looked for tell more than weeks at random.
        false if !nearest.is_empty() => nearest.to_vec(),
        false => some_weeks(ways, most),
    };
    progress::at(At::Composing { meals: table.gaps.len(), weeks: weeks.len(), aim: Composing::Clash });
    let judged = judge_all(table, &weeks.iter().collect::<Vec<_>>(), Look::Thoroughly, effort);
    let (late, all_planned) = late(table, &weeks, &judged, effort);
    let broken = judged.into_iter().zip(late).zip(&weeks).map(|((judged, late), week)| {
        let mut broken = judged.broken;
        late.into_iter().for_each(|one| super::wish::add(&mut broken, one.wish, one.would_do));
        for ((barred, gap), way) in table.barred.iter().zip(&table.gaps).zip(week) {
            let own = way.filter(|way| !gap.ways.contains(way));
            let own = own.and_then(|way| barred.iter().find(|(known, _)| *known == way));
            own.into_iter().flat_map(|(_, own)| own).for_each(|one| super::wish::add(&mut broken, one.wish.clone(), one.would_do));
        }
        broken
    });
    (broken.filter(|broken| !broken.is_empty()).collect(), all && all_planned)
}

/// What sessions of the weeks end too late; of those that break little else first, as far as the work goes; and
/// whether it went to the end.
fn late(table: &Table, weeks: &[Chosen], judged: &[Judged], effort: Effort) -> (Vec<Vec<Broken>>, bool) {
    let mut late = vec![Vec::new(); weeks.len()];
    if table.trials.sessions().iter().all(|session| session.finish_by.is_none()) {
        return (late, true);
    }
    let mut places: Vec<usize> = (0..weeks.len()).filter(|place| judged[*place].value.is_some()).collect();
    places.sort_by_key(|place| judged[*place].broken.len());
    let mut left = WORK;
    for few in places.chunks(8) {
        let found = in_two(few, |place| table.broken_sessions(&weeks[*place], effort));
        for (place, (broken, work)) in few.iter().zip(found) {
            late[*place] = broken;
            left = left.saturating_sub(work);
        }
        if left == 0 {
            return (late, false);
        }
    }
    (late, true)
}

fn all_weeks(ways: &[Vec<u32>]) -> Vec<Chosen> {
    let mut weeks: Vec<Chosen> = vec![Vec::new()];
    for ways in ways {
        weeks = weeks.iter().flat_map(|week| ways.iter().map(move |way| week.iter().copied().chain([Some(*way)]).collect())).collect();
    }
    weeks
}

/// Weeks spread over the ways: each meal walks through its own in steps of its own.
fn some_weeks(ways: &[Vec<u32>], most: usize) -> Vec<Chosen> {
    let weeks = (0..most).map(|number| {
        let way = |(gap, ways): (usize, &Vec<u32>)| {
            let mixed = (number as u64).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(7 * gap as u32 + 11).wrapping_add(gap as u64);
            Some(ways[(mixed % ways.len() as u64) as usize])
        };
        ways.iter().enumerate().map(way).collect::<Chosen>()
    });
    weeks.collect::<BTreeSet<_>>().into_iter().collect()
}

/// The smallest set of wishes of which every week breaks one, with what would loosen each.
fn told(table: &Table, weeks: &[Vec<Broken>]) -> Vec<Clashing> {
    let sets: Vec<BTreeSet<&Wish>> = weeks.iter().map(|broken| broken.iter().map(|one| &one.wish).collect()).collect();
    let smallest: Vec<&BTreeSet<&Wish>> =
        sets.iter().filter(|set| !sets.iter().any(|other| other.len() < set.len() && other.is_subset(set))).collect();
    let wishes: Vec<&Wish> = smallest.iter().flat_map(|set| set.iter().copied()).collect::<BTreeSet<_>>().into_iter().collect();
    let clash = (1..=wishes.len()).find_map(|size| hitting(&wishes, &smallest, size, 0, &mut Vec::new()));
    clash.unwrap_or_default().into_iter().map(|wish| clashing(table, wish.clone(), weeks)).collect()
}

/// The first set of `size` wishes that meets every week.
fn hitting<'w>(
    wishes: &[&'w Wish],
    weeks: &[&BTreeSet<&'w Wish>],
    size: usize,
    from: usize,
    taken: &mut Vec<&'w Wish>,
) -> Option<Vec<&'w Wish>> {
    let missed = weeks.iter().find(|week| !taken.iter().any(|wish| week.contains(wish)));
    if missed.is_none() && taken.len() == size {
        return Some(taken.clone());
    }
    if taken.len() == size {
        return None;
    }
    for at in from..wishes.len() {
        taken.push(wishes[at]);
        let found = hitting(wishes, weeks, size, at + 1, taken);
        if found.is_some() {
            return found;
        }
        taken.pop();
    }
    None
}

fn clashing(table: &Table, wish: Wish, weeks: &[Vec<Broken>]) -> Clashing {
    let own = |broken: &Vec<Broken>| broken.iter().find(|one| one.wish == wish).map(|one| one.would_do);
    let fewest = weeks.iter().filter(|broken| own(broken).is_some()).map(Vec::len).min().unwrap_or(0);
    // Where no week breaks this wish alone, the weeks that break least besides.
    let figures = weeks.iter().filter(|broken| broken.len() == fewest).filter_map(own);
    let best = if wish.is_floor() { figures.max_by(f64::total_cmp) } else { figures.min_by(f64::total_cmp) };
    let (now, would_do) = said(table, &wish, best);
    Clashing { would_do: if best.is_some() { would_do } else { HowMuch::Whole }, now, wish }
}

/// What a wish says now, and what it would have to say for `figure`.
fn said(table: &Table, wish: &Wish, figure: Option<f64>) -> (HowMuch, HowMuch) {
    let wishes = &table.wishes;
    let figure = figure.unwrap_or(0.0);
    let rounded = figure.round() as i64;
    let times = |now: u32| (HowMuch::Times(now), HowMuch::Times(figure.round() as u32));
    let days = |now: i64| (HowMuch::Days(now), HowMuch::Days(rounded));
    let minutes = |now: Option<Minutes>| (HowMuch::Minutes(now.map_or(0, |most| most.0)), HowMuch::Minutes(rounded));
    let whole = (HowMuch::Whole, HowMuch::Whole);
    let pattern = |id: &PatternId| &table.kitchen().together.patterns[*id];
    match wish {
        Wish::Spend => (wishes.spend_at_most.map_or(HowMuch::Whole, |most| HowMuch::Minor(most.0)), HowMuch::Minor(rounded)),
        Wish::RecipesAtMost => times(wishes.recipes_at_most),
        Wish::SameAgainAfter => days(wishes.same_again_after),
        Wish::NotAgain => days(wishes.not_again.unwrap_or(0)),
        Wish::OneAtMost(place) => times(wishes.times(place.as_deref().unwrap_or_default())),
        Wish::AtMost(id) => times(pattern(id).at_most.unwrap_or(0)),
        Wish::EachDay(nutrient) => {
            let least = table.wanted_nutrients().find(|(wanted, _)| wanted == nutrient).map_or(0.0, |(_, least)| least);
            match nutrient {
                super::Nutrient::Energy => (HowMuch::Kcal(least), HowMuch::Kcal(figure)),
                _ => (HowMuch::Grams(least), HowMuch::Grams(figure)),
            }
        }
        Wish::FinishBy(start) => {
            let session = table.trials.sessions().iter().find(|session| session.start == *start);
            let Some((session, now)) = session.and_then(|session| Some((session, session.finish_by?))) else { return whole };
            (HowMuch::At(now, *start), HowMuch::At(super::table::finish_by_for(session, rounded), *start))
        }
        Wish::Minutes(id) => minutes(id.as_ref().and_then(|id| pattern(id).minutes)),
        Wish::ReadyIn(meal) => minutes(table.trials.whole.meals[*meal].asked.ready_in),
        _ => whole,
    }
}
