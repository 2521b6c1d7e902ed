//! Nothing is allowed: which wishes clash, and what would loosen each.
//!
//! A set of wishes clashes where every week breaks one of it. Of the weeks that were looked at, each with all that it breaks, the smallest
//! set that meets them all is taken, the first in the order of [`Wish`] of equal ones. A week that keeps all of it shows that it is no
//! clash, and is looked at with the others; once there is none, no smaller set clashes (a smallest hitting set; Reiter 1987, from memory).

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::DateTime;

use super::search::{Chosen, Found, any, best_lifted};
use super::stands::stands;
use super::table::{Look, Table};
use super::ways::Gap;
use super::wish::{Broken, Wish};
use crate::foods::FoodId;
use crate::kitchen::{AnyLine, PatternId, Spot, Ware, Week};
use crate::measure::Minutes;
use crate::prep::Effort;

mod looked;

use self::looked::looked_at;

/// The smallest set of wishes that no week grants together.
#[derive(Debug, Clone)]
pub struct Clash {
    pub week: Week,
    pub wishes: Vec<Clashing>,
    /// No week is allowed; else none that is allowed was found.
    pub proven: bool,
    /// No week keeps all of these wishes; else each week that was looked at breaks one.
    pub exact: bool,
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
    /// Where somebody must not be served something: what of the meals that is.
    pub served: Vec<Served>,
}

/// What would be served at open meals, and holds what somebody must not have.
#[derive(Debug, Clone)]
pub struct Served {
    pub ware: Ware,
    /// In it, or it itself.
    pub foods: BTreeSet<FoodId>,
    pub patterns: BTreeSet<PatternId>,
    /// By their places in the week.
    pub meals: BTreeSet<usize>,
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

/// So many weeks are looked at.
fn most(effort: Effort) -> usize {
    match effort {
        Effort::Low => 60,
        Effort::Normal => 250,
        Effort::High => 5_000,
    }
}

/// What becomes of a week for which the search found nothing.
pub enum Ruled {
    Clash(Box<Clash>),
    /// Something is allowed after all.
    Allowed(Found),
}

/// `options` are the ways that were searched.
pub fn clash(table: &mut Table, options: &[Vec<Option<u32>>], found: &Found, effort: Effort) -> Ruled {
    let week = table.trials.whole.clone();
    // A meal that nothing could fill, whatever is loosened, is the clash by itself.
    if let Some(gap) = table.gaps.iter().zip(&table.barred).find(|(gap, barred)| gap.ways.is_empty() && barred.is_empty()) {
        return Ruled::Clash(Box::new(Clash { week, wishes: vec![no_pattern(table, gap.0)], proven: table.ways.complete, exact: true }));
    }
    let is_empty = |place: &usize| table.gaps[*place].ways.is_empty();
    let empty: Vec<usize> = (0..table.gaps.len()).filter(is_empty).collect();
    // What keeps everything off one meal clashes, whatever the others hold.
    let of_meal = empty.iter().map(|place| told(table, &barred(table, *place, most(effort), effort))).min_by_key(Vec::len);
    let (mut broken, all) = looked_at(table, &found.nearest, most(effort), effort);
    let mut wishes = told(table, &broken);
    let mut exact = all;
    for number in 0..if all { 0 } else { WIDER } {
        if let Some(of_meal) = of_meal.as_ref().filter(|of_meal| of_meal.len() <= wishes.len()) {
            (wishes, exact) = (of_meal.clone(), table.ways.complete);
            break;
        }
        let kept = kept_by_some_week(table, options, &wishes, Sought::Quickly);
        let kept =
            kept.or_else(|sure| if number < THOROUGH { kept_by_some_week(table, options, &wishes, Sought::Thoroughly) } else { Err(sure) });
        match kept {
            Ok(Kept::Allowed(found)) => return Ruled::Allowed(found),
            Ok(Kept::Breaks(more)) => broken.push(more),
            Err(sure) => {
                exact = sure;
                break;
            }
        }
        wishes = told(table, &broken);
    }
    let proven = empty.is_empty() && found.complete || !empty.is_empty() && table.ways.complete;
    let mut clash = Clash { week, wishes, proven, exact };
    if !all {
        let wishes = clash.wishes.len();
        for one in &mut clash.wishes {
            match loosened(table, options, one, effort, wishes) {
                Some(Loosened::ToDo(would_do, besides)) => (one.would_do, one.besides) = (would_do, besides),
                Some(Loosened::Kept(found)) => return Ruled::Allowed(found),
                None => {}
            }
        }
    }
    Ruled::Clash(Box::new(clash))
}

/// So often is it asked whether some week keeps all the wishes that are told; so often with more than the least effort.
const WIDER: usize = 40;
const THOROUGH: usize = 12;

/// So many fillings of one meal are weighed where any week will do.
const ENOUGH: usize = 1_500;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sought {
    /// Any week, among some of the fillings.
    Quickly,
    Thoroughly,
}

/// A week that keeps the wishes that were told.
enum Kept {
    Allowed(Found),
    /// What it breaks instead.
    Breaks(Vec<Broken>),
}

/// Looks for a week that keeps these wishes, whatever else it breaks: then they are not the clash. The error says whether there is none.
fn kept_by_some_week(table: &mut Table, options: &[Vec<Option<u32>>], told: &[Clashing], sought: Sought) -> Result<Kept, bool> {
    let held: BTreeSet<Wish> = told.iter().map(|one| one.wish.clone()).collect();
    let keeps = |broken: &[Broken]| !broken.iter().any(|one| held.contains(&one.wish));
    let freed = freed(table, options, keeps, sought);
    table.held = Some(held);
    let found = match sought {
        Sought::Quickly => any(table, &freed),
        Sought::Thoroughly => best_lifted(table, &freed, Effort::Low, 1),
    };
    table.held = None;
    let Some((week, value)) = found.best.as_ref() else { return Err(sought == Sought::Thoroughly && found.complete) };
    let broken = all_broken(table, week, Effort::Low);
    Ok(match broken.is_empty() {
        true => Kept::Allowed(Found { proven: false, complete: false, bound: found.bound.min(value.net), ..found }),
        false => Kept::Breaks(broken),
    })
}

fn all_broken(table: &Table, week: &Chosen, effort: Effort) -> Vec<Broken> {
    let mut broken = table.judge(week, Look::Thoroughly, effort).broken;
    broken.extend(table.broken_sessions(week, effort).0);
    broken
}

/// The fillings that are free, and those that are barred for nothing that is kept; of very many, some.
fn freed(table: &Table, options: &[Vec<Option<u32>>], keeps: impl Fn(&[Broken]) -> bool, sought: Sought) -> Vec<Vec<Option<u32>>> {
    let of_gap = |(options, barred): (&Vec<Option<u32>>, &BTreeMap<u32, Vec<Broken>>)| {
        let freed = barred.iter().filter(|(_, broken)| keeps(broken)).map(|(way, _)| Some(*way));
        let all: Vec<Option<u32>> = options.iter().copied().chain(freed).collect();
        let few = if sought == Sought::Quickly { all.len().div_ceil(ENOUGH).max(1) } else { 1 };
        all.into_iter().step_by(few).collect()
    };
    options.iter().zip(&table.barred).map(of_gap).collect()
}

/// What a search found that leaves out one wish.
enum Loosened {
    /// At this figure a week is allowed that breaks nothing but this besides.
    ToDo(HowMuch, Vec<Wish>),
    /// A week that keeps even this wish.
    Kept(Found),
}

/// Looks for the week that breaks one wish alone, and that the least; else for one that breaks as little as may be besides. The search knows
/// nothing of the wish's figure: written into the files, the figure that it finds is found again.
fn loosened(table: &mut Table, options: &[Vec<Option<u32>>], one: &Clashing, effort: Effort, wishes: usize) -> Option<Loosened> {
    let for_this = |broken: &[Broken]| broken.iter().all(|broken| broken.wish == one.wish);
    let alone = freed(table, options, for_this, Sought::Thoroughly);
    table.lifted = Some(one.wish.clone());
    let found = best_lifted(table, &alone, effort, wishes);
    table.lifted = None;
    if let Some((week, value)) = found.best.as_ref() {
        return match all_broken(table, week, effort).as_slice() {
            [] => Some(Loosened::Kept(Found { proven: false, complete: false, bound: found.bound.min(value.net), ..found })),
            [alone] if alone.wish == one.wish => Some(Loosened::ToDo(said(table, &one.wish, Some(alone.would_do)).1, Vec::new())),
            _ => None,
        };
    }
    let all = freed(table, options, |_| true, Sought::Quickly);
    table.lifted = Some(one.wish.clone());
    let nearest = any(table, &all).nearest;
    table.lifted = None;
    let broken = nearest.iter().map(|week| all_broken(table, week, Effort::Low));
    let breaks_it = broken.filter(|broken| broken.len() > 1 && broken.iter().any(|broken| broken.wish == one.wish));
    let least = breaks_it.min_by_key(Vec::len).filter(|broken| one.besides.is_empty() || broken.len() <= one.besides.len())?;
    let clashing = clashing(table, one.wish.clone(), &[least]);
    Some(Loosened::ToDo(clashing.would_do, clashing.besides))
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
    Clashing { at: stands(table, &wish), wish, now: HowMuch::Whole, would_do, besides: Vec::new(), served: Vec::new() }
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
    Clash { week: table.trials.whole.clone(), wishes, proven: true, exact: true }
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
    let would_do = if best.is_some() { would_do } else { HowMuch::Whole };
    Clashing { would_do, besides, now, at: stands(table, &wish), served: served(table, &wish), wish }
}

/// What the wish keeps off the open meals, where it is somebody's who must not be served it.
fn served(table: &Table, wish: &Wish) -> Vec<Served> {
    if !matches!(wish, Wish::Unfit(..)) {
        return Vec::new();
    }
    let mut all: BTreeMap<Ware, Served> = BTreeMap::new();
    for (gap, barred) in table.gaps.iter().zip(&table.barred) {
        for (way, _) in barred.iter().filter(|(_, broken)| broken.iter().any(|one| one.wish == *wish)) {
            let way = &table.ways.all[*way as usize];
            for ware in &way.wares {
                for one in table.unfit(gap.meal, *ware).iter().filter(|one| Wish::of(one) == *wish) {
                    let blank = || Served { ware: *ware, foods: BTreeSet::new(), patterns: BTreeSet::new(), meals: BTreeSet::new() };
                    let served = all.entry(*ware).or_insert_with(blank);
                    served.foods.insert(one.food);
                    served.patterns.extend(table.ways.forms[way.form].pattern);
                    served.meals.insert(gap.meal);
                }
            }
        }
    }
    all.into_values().collect()
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
