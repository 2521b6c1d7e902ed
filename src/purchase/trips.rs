//! Which trip buys what: every demand to a trip, what the pantry did not serve to that trip's needs.
//!
//! A trip of its own (`Trip::planned` is false) buys only what no trip of the file brings in time; staples wait for a
//! planned trip.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::{Flag, Untimely};
use crate::foods::{FoodId, Foods};
use crate::kitchen::asked::Asked;
use crate::kitchen::{Kitchen, ShopId, Trip, Week};
use crate::measure::{Days, Dimension, Number};
use crate::pantry::Netted;
use crate::plan::{Demand, Demanded, Need, NeedUse, Stated};
use crate::shelf::after_days;

/// What every trip must buy, and what it must buy too early or too late.
#[derive(Debug, Clone, Default)]
pub struct Needs {
    /// By trip, then food; one food's amounts in its own words stand beside what could be added up.
    pub needs: Vec<Need>,
    pub flags: Vec<Flag>,
}

/// The trip a demand belongs to, and why not a better one.
#[derive(Debug, Clone, PartialEq)]
struct Assigned {
    trip: usize,
    flag: Option<Untimely>,
}

/// Assigns the demand to trips and gathers what must be bought.
pub fn needs(kitchen: &Kitchen, week: &Week, demanded: &Demanded, netted: &Netted) -> Needs {
    let sold = Sold::new(kitchen, week);
    let mut gathered = Gathered::default();
    let mut flags: Vec<Flag> = Vec::new();
    for (index, demand) in demanded.demand.iter().enumerate() {
        let Some(assigned) = assign(&kitchen.foods, week, &sold, demand) else { continue };
        let need = gathered.of(demand.food, assigned.trip, demand.amount.dimension(), demand.own_words);
        need.demand += demand.amount.exact();
        let unmet = &netted.unmet[index];
        if *unmet <= 0 && !netted.untasted[index] {
            continue;
        }
        need.uses.push(NeedUse {
            on: demand.on,
            amount: unmet.clone(),
            what_for: demand.what_for.clone(),
            stated: demand.stated.clone(),
            asked: part_of(demand, unmet),
            to_taste: demand.to_taste,
            top_up: false,
            line: demand.line.clone(),
            optional: demand.optional,
            instead: demand.instead.clone(),
        });
        if let Some(why) = assigned.flag {
            let flag = Flag { food: demand.food, why };
            if !flags.contains(&flag) {
                flags.push(flag);
            }
        }
    }
    add_top_ups(week, demanded, netted, &mut gathered);
    gathered.lay_tastes_beside();
    let needs = gathered.by_trip_and_food.into_values().filter(|need| !need.uses.is_empty()).collect();
    Needs { needs, flags }
}

#[derive(Default)]
struct Gathered {
    by_trip_and_food: BTreeMap<(usize, FoodId, bool, Dimension), Need>,
}

impl Gathered {
    fn of(&mut self, food: FoodId, trip: usize, dimension: Dimension, own_words: bool) -> &mut Need {
        let fresh = || Need { food, trip, dimension: dimension.clone(), uses: Vec::new(), demand: Number::ZERO, own_words };
        self.by_trip_and_food.entry((trip, food, own_words, dimension.clone())).or_insert_with(fresh)
    }

    /// What is to taste is covered by whatever is bought of that food on the trip, in whichever measure: it is no need of its own there.
    fn lay_tastes_beside(&mut self) {
        let keys = |these: fn(&Need) -> bool| {
            let all = self.by_trip_and_food.iter().filter(|(_, need)| these(need));
            all.map(|(key, _)| key.clone()).collect::<Vec<_>>()
        };
        let (alone, bought) = (keys(Need::is_to_taste), keys(|need| !need.is_to_taste()));
        for key in alone {
            let Some(beside) = bought.iter().find(|other| (other.0, other.1) == (key.0, key.1)) else { continue };
            let tastes = self.by_trip_and_food.remove(&key).map(|need| need.uses).unwrap_or_default();
            if let Some(need) = self.by_trip_and_food.get_mut(beside) {
                need.uses.extend(tastes);
                need.uses.sort_by_key(|part| (part.top_up, part.on));
            }
        }
    }
}

/// What the pantry leaves of it, in the line's own measure.
fn part_of(demand: &Demand, unmet: &Number) -> Option<Asked> {
    let (asked, all) = (demand.asked.as_ref()?, demand.amount.exact());
    Some(if all.is_positive() { asked.scaled(unmet / all) } else { asked.clone() })
}

/// On the first trip, even if nobody sells it there.
fn add_top_ups(week: &Week, demanded: &Demanded, netted: &Netted, gathered: &mut Gathered) {
    for top_up in &netted.top_ups {
        let first = week.trips.iter().enumerate().find(|(_, trip)| trip.planned && !trip.settled.contains(&top_up.food));
        let Some((trip, first)) = first else { continue };
        let dimension = top_up.amount.dimension();
        let own_words = demanded.stated_in.get(&top_up.food).is_some_and(|stated| *stated != dimension);
        let need = gathered.of(top_up.food, trip, dimension, own_words);
        need.demand += top_up.amount.exact();
        need.uses.push(NeedUse {
            on: first.on,
            amount: top_up.amount.exact().clone(),
            what_for: "staple".to_owned(),
            stated: Stated::Plain,
            asked: None,
            to_taste: false,
            top_up: true,
            line: String::new(),
            optional: false,
            instead: None,
        });
    }
}

/// Which trips' shops sell a food, priced or not.
struct Sold {
    by_trip: Vec<BTreeSet<FoodId>>,
}

impl Sold {
    fn new(kitchen: &Kitchen, week: &Week) -> Self {
        let sold_on = |trip: &crate::kitchen::Trip| {
            let named: Option<BTreeSet<ShopId>> = trip.shops.as_ref().map(|shops| shops.iter().copied().collect());
            let visited = |shop| named.as_ref().is_none_or(|shops| shops.contains(&shop));
            kitchen.packs.iter().filter(|pack| visited(pack.shop)).map(|pack| pack.food).collect()
        };
        Sold { by_trip: week.trips.iter().map(sold_on).collect() }
    }

    /// Those of `trips` that count for a food: those that sell it, or all where none does; never one on which it is settled.
    fn among(&self, week: &Week, mut trips: Vec<usize>, food: FoodId) -> Vec<usize> {
        trips.retain(|&trip| !week.trips[trip].settled.contains(&food));
        let selling: Vec<usize> = trips.iter().copied().filter(|&trip| self.by_trip[trip].contains(&food)).collect();
        if selling.is_empty() { trips } else { selling }
    }
}

/// A trip of the week's own file where one comes in time, else one of its own.
fn assign(foods: &Foods, week: &Week, sold: &Sold, demand: &Demand) -> Option<Assigned> {
    let (planned, own): (Vec<usize>, Vec<usize>) = (0..week.trips.len()).partition(|&trip| week.trips[trip].planned);
    let planned = assign_among(foods, week, sold.among(week, planned, demand.food), demand);
    if planned.as_ref().is_some_and(Assigned::is_in_time) {
        return planned;
    }
    let own = assign_among(foods, week, own, demand);
    own.filter(Assigned::is_in_time).or(planned)
}

impl Assigned {
    fn is_in_time(&self) -> bool {
        !matches!(self.flag, Some(Untimely::TooLate { .. }))
    }
}

/// The demand that no planned trip serves in time: it came off the shelf, comes off it, or waits for a trip of its own.
pub(super) struct WithoutATrip<'d>(Vec<&'d Demand>);

impl<'d> WithoutATrip<'d> {
    pub fn new(kitchen: &Kitchen, week: &Week, demanded: &'d Demanded, done: &'d [Demand]) -> Self {
        let sold = Sold::new(kitchen, week);
        let is_planned =
            |demand: &Demand| assign(&kitchen.foods, week, &sold, demand).is_some_and(|assigned| week.trips[assigned.trip].planned);
        WithoutATrip(demanded.demand.iter().filter(|demand| !is_planned(demand)).chain(done).collect())
    }

    /// Of one food, in one measure.
    pub fn demand(&self, need: &Need) -> Number {
        let is_it = |demand: &&&Demand| {
            (demand.food, demand.own_words) == (need.food, need.own_words) && demand.amount.dimension() == need.dimension
        };
        self.0.iter().filter(is_it).map(|demand| demand.amount.exact()).sum()
    }
}

/// Trips of their own for what is neither on the shelf nor on a trip on or before its day: one on the day of its first use, and another
/// for each food that does not keep until its own.
pub fn trips_of_their_own(kitchen: &Kitchen, week: &Week, demanded: &Demanded, netted: &Netted, today: Date) -> Vec<Trip> {
    let sold = Sold::new(kitchen, week);
    let mut days: Vec<Date> = Vec::new();
    for (index, demand) in demanded.demand.iter().enumerate() {
        let is_missing = netted.unmet[index] > 0 || netted.untasted[index];
        if !is_missing || assign(&kitchen.foods, week, &sold, demand).is_some_and(|assigned| assigned.is_in_time()) {
            continue;
        }
        let on = demand.on.max(today);
        let keeps = keeps(&kitchen.foods, demand.food);
        // Demand is in date order, so no day here lies after this one.
        if !days.iter().any(|day| keeps.is_none_or(|keeps| on <= after_days(*day, keeps))) {
            days.push(on);
        }
    }
    days.into_iter().map(|on| Trip { on, shops: None, planned: false, nth: Trip::OWN, settled: Vec::new(), at: week.at.clone() }).collect()
}

fn assign_among(foods: &Foods, week: &Week, trips: Vec<usize>, demand: &Demand) -> Option<Assigned> {
    let keeps = keeps(foods, demand.food);
    let on = |trip: usize| week.trips[trip].on;
    let in_time = |trip: &usize| on(*trip) <= demand.on;
    let fresh = |trip: &usize| keeps.is_none_or(|days| demand.on <= after_days(on(*trip), days));
    if let Some(trip) = trips.iter().copied().find(|trip| in_time(trip) && fresh(trip)) {
        return Some(Assigned { trip, flag: None });
    }
    if let Some(trip) = trips.iter().copied().rev().find(in_time) {
        let flag = keeps.map(|keeps| {
            let before = on(trip).until(demand.on).map_or(0, |span| i64::from(span.get_days()));
            Untimely::TooEarly { before: Days(before), keeps }
        });
        return Some(Assigned { trip, flag });
    }
    let trip = *trips.first()?;
    let flag = Untimely::TooLate { needed: demand.on, bought: on(trip) };
    Some(Assigned { trip, flag: Some(flag) })
}

/// The longer of cupboard and fridge; not known: for ever.
fn keeps(foods: &Foods, food: FoodId) -> Option<Days> {
    let keeps = &foods[food].keeps;
    [&keeps.cupboard, &keeps.fridge].into_iter().flatten().map(|fact| fact.value).max()
}

#[cfg(test)]
mod tests;
