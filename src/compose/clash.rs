//! Nothing is allowed: which wishes clash, and what would loosen each.
//!
//! A set of wishes clashes where every week breaks one of it. Of the weeks that were looked at, each with all that it breaks, the smallest
//! such set is told, the first in the order of [`Wish`] of equal ones.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::DateTime;

use super::at_once::{in_two, judge_all};
use super::search::{Chosen, Found, best_lifted};
use super::stands::stands;
use super::table::{Judged, Look, Table};
use super::ways::Gap;
use super::wish::{Broken, Wish};
use crate::kitchen::{AnyLine, PatternId, Spot, Week};
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
    /// Where it stands in the household's files.
    pub at: Option<Spot>,
    /// As it is.
    pub now: HowMuch,
    /// At which a week would be allowed, everything else held but `besides`.
    pub would_do: HowMuch,
    /// What that week breaks besides: empty where to loosen this wish alone is enough.
    pub besides: Vec<Wish>,
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
    /// Something that fits these places, in the amount that they ask for.
    SuchAmounts(Vec<AnyLine>),
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

/// What becomes of a week for which the search found nothing.
pub enum Ruled {
    Clash(Box<Clash>),
    /// Something is allowed after all.
    Allowed(Found),
}

/// `options` are the ways that were searched.
pub fn clash(table: &mut Table, options: &[Vec<Option<u32>>], found: &Found, effort: Effort) -> Ruled {
    let week = table.trials.whole.clone();
    // A meal that nothing may fill is the clash by itself.
    if let Some(place) = table.gaps.iter().position(|gap| gap.ways.is_empty()) {
        let broken = barred(table, place, most(effort), effort);
        let wishes = if broken.is_empty() { vec![no_pattern(table, &table.gaps[place])] } else { told(table, &broken) };
        return Ruled::Clash(Box::new(Clash { week, wishes, proven: table.ways.complete }));
    }
    let (mut broken, all) = looked_at(table, &found.nearest, most(effort), effort);
    let mut wishes = told(table, &broken);
    let is_exact = all && found.complete;
    for _ in 0..if is_exact { 0 } else { WIDER } {
        match kept_by_some_week(table, options, &wishes) {
            Some(Kept::Allowed(found)) => return Ruled::Allowed(found),
            Some(Kept::Breaks(more)) => broken.push(more),
            None => break,
        }
        wishes = told(table, &broken);
    }
    let mut clash = Clash { week, wishes, proven: found.complete };
    if !is_exact {
        let wishes = clash.wishes.len();
        for one in &mut clash.wishes {
            match loosened(table, options, one, effort, wishes) {
                Some(Loosened::ToDo(would_do)) => (one.would_do, one.besides) = (would_do, Vec::new()),
                Some(Loosened::Kept(found)) => return Ruled::Allowed(found),
                None => {}
            }
        }
    }
    Ruled::Clash(Box::new(clash))
}

/// So often is it asked whether some week keeps all the wishes that are told.
const WIDER: usize = 8;

/// A week that keeps the wishes that were told.
enum Kept {
    Allowed(Found),
    /// What it breaks instead.
    Breaks(Vec<Broken>),
}

/// Looks with little effort for a week that keeps these wishes, whatever else it breaks: then they are not the clash.
fn kept_by_some_week(table: &mut Table, options: &[Vec<Option<u32>>], told: &[Clashing]) -> Option<Kept> {
    let held: BTreeSet<Wish> = told.iter().map(|one| one.wish.clone()).collect();
    let all = |(options, barred): (&Vec<Option<u32>>, &BTreeMap<u32, Vec<Broken>>)| {
        let keeps = |broken: &Vec<Broken>| !broken.iter().any(|one| held.contains(&one.wish));
        let freed = barred.iter().filter(|(_, broken)| keeps(broken)).map(|(way, _)| Some(*way));
        options.iter().copied().chain(freed).collect()
    };
    let options: Vec<Vec<Option<u32>>> = options.iter().zip(&table.barred).map(all).collect();
    table.held = Some(held);
    let found = best_lifted(table, &options, Effort::Low, 1);
    table.held = None;
    let (week, value) = found.best.as_ref()?;
    let mut broken = table.judge(week, Look::Thoroughly, Effort::Low).broken;
    broken.extend(table.broken_sessions(week, Effort::Low).0);
    Some(match broken.is_empty() {
        true => Kept::Allowed(Found { proven: false, complete: false, bound: found.bound.min(value.net), ..found }),
        false => Kept::Breaks(broken),
    })
}

/// What a search found that leaves out one wish.
enum Loosened {
    /// At this figure a week is allowed.
    ToDo(HowMuch),
    /// A week that keeps even this wish.
    Kept(Found),
}

/// Looks for the week that breaks one wish alone, and that the least. The search knows nothing of the wish's figure: written into the
/// files, the figure that it finds is found again.
fn loosened(table: &mut Table, options: &[Vec<Option<u32>>], one: &Clashing, effort: Effort, wishes: usize) -> Option<Loosened> {
    if one.would_do == HowMuch::Whole {
        return None;
    }
    let freed = |(options, barred): (&Vec<Option<u32>>, &BTreeMap<u32, Vec<Broken>>)| {
        let for_this = barred.iter().filter(|(_, broken)| broken.iter().all(|broken| broken.wish == one.wish));
        options.iter().copied().chain(for_this.map(|(way, _)| Some(*way))).collect()
    };
    let options: Vec<Vec<Option<u32>>> = options.iter().zip(&table.barred).map(freed).collect();
    table.lifted = Some(one.wish.clone());
    let found = best_lifted(table, &options, effort, wishes);
    table.lifted = None;
    let (week, value) = found.best.as_ref()?;
    let mut broken = table.judge(week, Look::Thoroughly, effort).broken;
    broken.extend(table.broken_sessions(week, effort).0);
    match broken.as_slice() {
        [] => Some(Loosened::Kept(Found { proven: false, complete: false, bound: found.bound.min(value.net), ..found })),
        [alone] if alone.wish == one.wish => Some(Loosened::ToDo(said(table, &one.wish, Some(alone.would_do)).1)),
        _ => None,
    }
}

/// What each way of a meal that nothing may fill breaks; how long a dish takes at the meal shows only in a week.
fn barred(table: &Table, place: usize, most: usize, effort: Effort) -> Vec<Vec<Broken>> {
    let timed = |(number, (way, broken)): (usize, (&u32, &Vec<Broken>))| {
        let mut broken = broken.clone();
        if let Some(own) = broken.iter_mut().find(|own| number < most && matches!(own.wish, Wish::Minutes(_))) {
            let mut alone: Chosen = vec![None; table.gaps.len()];
            alone[place] = Some(*way);
            let judged = table.judge(&alone, Look::Thoroughly, effort);
            own.would_do = judged.broken.iter().find(|known| known.wish == own.wish).map_or(own.would_do, |known| known.would_do);
        }
        broken
    };
    table.barred[place].iter().enumerate().map(timed).collect()
}

/// A meal that no pattern fills, and the places that nothing fits in the amount that they ask for.
fn no_pattern(table: &Table, gap: &Gap) -> Clashing {
    let places = gap.forms.iter().flat_map(|form| table.ways.forms[*form].places());
    let unfilled: BTreeMap<&str, &AnyLine> =
        places.filter(|place| place.fillings.is_empty()).map(|place| (place.text.as_str(), place)).collect();
    let unfilled: Vec<AnyLine> = unfilled.into_values().cloned().collect();
    let would_do = if unfilled.is_empty() { HowMuch::Whole } else { HowMuch::SuchAmounts(unfilled) };
    let wish = Wish::Pattern(gap.meal);
    Clashing { at: stands(table, &wish), wish, now: HowMuch::Whole, would_do, besides: Vec::new() }
}

/// What weeks break, and whether those are all weeks: first of the ways that are free, then with those that are barred.
fn looked_at(table: &Table, nearest: &[Chosen], most: usize, effort: Effort) -> (Vec<Vec<Broken>>, bool) {
    let free: Vec<Vec<u32>> = table.gaps.iter().map(|gap| gap.ways.clone()).collect();
    let with_barred = |(gap, barred): (&Gap, &BTreeMap<u32, Vec<Broken>>)| {
        let mut ways: Vec<u32> = gap.ways.iter().chain(barred.keys()).copied().collect();
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
    let broken = judged.into_iter().zip(late).map(|(judged, late)| {
        let mut broken = judged.broken;
        late.into_iter().for_each(|one| super::wish::add(&mut broken, one.wish, one.would_do));
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

/// What one week breaks, told like a clash.
pub fn of_one(table: &Table, broken: &[Broken]) -> Clash {
    let all = [broken.to_vec()];
    let wishes = broken.iter().map(|one| clashing(table, one.wish.clone(), &all)).collect();
    Clash { week: table.trials.whole.clone(), wishes, proven: true }
}

fn clashing(table: &Table, wish: Wish, weeks: &[Vec<Broken>]) -> Clashing {
    let own = |broken: &Vec<Broken>| broken.iter().find(|one| one.wish == wish).map(|one| one.would_do);
    // Where no week breaks this wish alone, one of those that break least besides.
    let near = |broken: &&Vec<Broken>| {
        let figure = own(broken)?;
        Some((broken.len(), if wish.is_floor() { -figure } else { figure }))
    };
    let weeks = weeks.iter().filter_map(|broken| Some((near(&broken)?, broken)));
    let best = weeks.min_by(|(one, _), (other, _)| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))).map(|(_, broken)| broken);
    let (now, would_do) = said(table, &wish, best.and_then(own));
    let besides = best.into_iter().flatten().filter(|one| one.wish != wish).map(|one| one.wish.clone()).collect();
    Clashing { would_do: if best.is_some() { would_do } else { HowMuch::Whole }, besides, now, at: stands(table, &wish), wish }
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
            (HowMuch::At(now, *start), HowMuch::At(super::minutes::finish_by_for(session, rounded), *start))
        }
        Wish::Minutes(id) => minutes(id.as_ref().and_then(|id| pattern(id).minutes)),
        Wish::ReadyIn(meal) => minutes(table.trials.whole.meals[*meal].asked.ready_in),
        _ => whole,
    }
}
