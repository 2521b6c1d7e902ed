//! The shopping list of an empty shelf: by section, plain needs, and on which day what does not keep.

use std::collections::BTreeMap;

use itertools::Itertools;
use jiff::civil::Date;

use super::DayNumber;
use crate::foods::{FoodId, Foods};
use crate::kitchen::asked::Asked;
use crate::kitchen::much::called;
use crate::kitchen::{Kitchen, Spot, Trip, Ware, Warning, Week};
use crate::measure::{Dimension, Number, Quantity, steps_up, word_named};
use crate::pantry;
use crate::plan::{Demand, Makings, Need, NeedUse, Stated, demand_by_lines};
use crate::prep::is_loose;
use crate::purchase::{self, pieces_about};
use crate::shelf::after_days;
use crate::words::plural;

/// What is bought on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Buying {
    /// `None`: before cooking begins.
    pub on: Option<DayNumber>,
    pub sections: Vec<BuyingSection>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct BuyingSection {
    pub section: String,
    pub lines: Vec<BuyingLine>,
}

/// All that is bought of one food on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct BuyingLine {
    pub food: FoodId,
    /// Its name, in the plural where there are several or where a line says so.
    pub name: String,
    /// What could be added up, then what stands in a line's own words; empty for what is only "to taste".
    pub amounts: Vec<Quantity>,
    /// The pieces in a weight, where one piece's weight is known.
    pub about: Option<u32>,
    /// As all its lines count it: "7 cloves", "½ bunch".
    pub counted: Option<Quantity>,
    /// So many tins, jars or packets of that size, where all lines count them.
    pub tins: Option<(Number, Quantity)>,
    pub what_for: Vec<String>,
    pub optional: bool,
}

/// The list, and the demand that it covers.
pub(super) struct Bought {
    pub trips: Vec<Buying>,
    pub demand: Vec<Demand>,
    pub warnings: Vec<Warning>,
}

/// The section of what has none.
const OTHER: &str = "Other";

/// Of a kitchen without shelf and shops.
pub(super) fn buying(kitchen: &Kitchen, week: &Week, makings: &Makings, first: Date) -> Bought {
    let demanded = demand_by_lines(kitchen, week, makings);
    let mut week = week.clone();
    add_days(&kitchen.foods, &mut week, &demanded.demand);
    let netted = pantry::net(kitchen, &week, makings, &demanded);
    let needs = purchase::needs(kitchen, &week, &demanded, &netted).needs;
    let (begins, buys) = (begins(&week), |index: &usize| needs.iter().any(|need| need.trip == *index));
    let start = (0..week.trips.len()).find(buys).filter(|index| week.trips[*index].on <= begins);
    let counted = counted(&needs);
    let trip = |(index, trip): (usize, &Trip)| {
        let theirs: Vec<&Need> = needs.iter().filter(|need| need.trip == index).collect();
        let on = (Some(index) != start).then(|| DayNumber::since(first, trip.on));
        (!theirs.is_empty()).then(|| Buying { on, sections: sections(kitchen, &theirs, &counted) })
    };
    let trips = week.trips.iter().enumerate().filter_map(trip).collect();
    Bought { trips, demand: demanded.demand, warnings: demanded.warnings }
}

/// The day of the first session or meal.
fn begins(week: &Week) -> Date {
    let sessions = week.sessions.iter().map(|session| session.start.date());
    sessions.chain(week.meals.iter().map(|meal| meal.at_time.date())).min().unwrap_or(week.from)
}

/// A day to buy on for what no trip of the week brings fresh: that of its first use.
fn add_days(foods: &Foods, week: &mut Week, demand: &[Demand]) {
    let keeps = |food: FoodId| {
        let keeps = &foods[food].keeps;
        [&keeps.cupboard, &keeps.fridge].into_iter().flatten().map(|fact| fact.value).max()
    };
    for one in demand.iter().sorted_by_key(|one| one.on) {
        let fresh = |trip: &Trip| trip.on <= one.on && keeps(one.food).is_none_or(|days| one.on <= after_days(trip.on, days));
        if !week.trips.iter().any(fresh) {
            week.trips.push(Trip { on: one.on, shops: None, planned: true, nth: 0, settled: Vec::new(), at: Spot::default() });
            week.trips.sort_by_key(|trip| trip.on);
        }
    }
}

fn sections(kitchen: &Kitchen, needs: &[&Need], counted: &BTreeMap<FoodId, Quantity>) -> Vec<BuyingSection> {
    let mut by_food: BTreeMap<FoodId, Vec<&Need>> = BTreeMap::new();
    for need in needs {
        by_food.entry(need.food).or_default().push(need);
    }
    let mut sections: BTreeMap<&str, Vec<BuyingLine>> = BTreeMap::new();
    for (food, needs) in by_food {
        let section = kitchen.foods[food].section.as_deref().unwrap_or(OTHER);
        sections.entry(section).or_default().push(line(kitchen, food, &needs, counted.get(&food)));
    }
    let sorted = |(section, mut lines): (&str, Vec<BuyingLine>)| {
        lines.sort_by_key(|line| kitchen.foods[line.food].name.to_lowercase());
        BuyingSection { section: section.to_owned(), lines }
    };
    sections.into_iter().map(sorted).collect()
}

fn line(kitchen: &Kitchen, food: FoodId, needs: &[&Need], counted: Option<&Quantity>) -> BuyingLine {
    let plain_first = needs.iter().sorted_by_key(|need| need.own_words);
    let amounts: Vec<Quantity> = plain_first.map(|need| amount(need)).filter(|amount| !amount.is_zero()).collect();
    let uses: Vec<&NeedUse> = needs.iter().flat_map(|need| &need.uses).collect();
    let about = amounts.first().and_then(|amount| pieces_about(&kitchen.foods[food], amount));
    BuyingLine {
        food,
        name: name(kitchen, food, &amounts, &uses),
        about,
        counted: counted.cloned(),
        tins: if let [need] = needs { tins(need) } else { None },
        what_for: uses.iter().map(|one| one.what_for.clone()).unique().collect(),
        optional: uses.iter().all(|one| one.optional),
        amounts,
    }
}

/// Foods of which all lines, of dishes and of meals, count by one word, with the number; bought on one day.
fn counted(needs: &[Need]) -> BTreeMap<FoodId, Quantity> {
    let mut by_food: BTreeMap<FoodId, Vec<&Need>> = BTreeMap::new();
    for need in needs {
        by_food.entry(need.food).or_default().push(need);
    }
    let told = |(food, needs): (FoodId, Vec<&Need>)| {
        let uses = || needs.iter().flat_map(|need| &need.uses).filter(|one| !one.to_taste);
        let asked = uses().map(|one| one.asked.as_ref()).collect::<Option<Vec<_>>>()?;
        let asked = Asked::sum(asked.into_iter()).filter(|_| needs.iter().map(|need| need.trip).all_equal())?;
        let Quantity::Words(_, word) = &asked.much else { return None };
        let is_loose = word_named(word).is_some_and(is_loose);
        Some((food, if is_loose { asked.loosely() } else { asked.whole() }.much))
    };
    by_food.into_iter().filter_map(told).collect()
}

/// As a kitchen says it beside its amount: "1.7 kg potatoes", "1 red pepper"; and in the plural where a line does.
fn name(kitchen: &Kitchen, food: FoodId, amounts: &[Quantity], uses: &[&NeedUse]) -> String {
    let one = &kitchen.foods[food].name;
    let many = plural(one);
    let is_typed = uses.iter().any(|part| part.line.to_lowercase().contains(&many.to_lowercase()));
    let is_one = matches!(amounts.first(), Some(Quantity::Count(count)) if *count <= 1);
    match amounts.first() {
        _ if is_typed && !is_one => many,
        Some(amount) => called(kitchen.names(), Ware::Food(food), amount),
        None => one.clone(),
    }
}

/// Pieces are whole ones.
fn amount(need: &Need) -> Quantity {
    let sum: Number = need.uses.iter().map(|one| &one.amount).sum();
    let sum = if need.dimension == Dimension::Count { steps_up(&sum, &Number::ONE) } else { sum };
    Quantity::of(&need.dimension, sum)
}

/// Where every use counts containers of one size.
fn tins(need: &Need) -> Option<(Number, Quantity)> {
    let size = |one: &NeedUse| if let Stated::Tin { size } = &one.stated { Some(size.clone()) } else { None };
    let sizes: Vec<Quantity> = need.uses.iter().map(size).collect::<Option<_>>()?;
    let first = sizes.first().filter(|first| first.dimension() == need.dimension && sizes.iter().all(|size| size == *first))?;
    let sum: Number = need.uses.iter().map(|one| &one.amount).sum();
    let count = sum.checked_div(first.exact())?;
    let is_whole = steps_up(&count, &Number::ONE) == count;
    (is_whole && count > 0).then(|| (count, first.clone()))
}
