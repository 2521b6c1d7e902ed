//! What is told of a week that was reckoned: the warnings of its reading and of all its stages, in order and each once.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use itertools::Itertools;
use jiff::civil::Date;

use super::Open;
use super::before::{Before, Household};
use super::lived::{AsPrinted, Lived};
use super::stages::Stages;
use super::trial::left_out;
use crate::book::Booked;
use crate::foods::FoodId;
use crate::kitchen::much::{for_whom, made};
use crate::kitchen::{Kitchen, Loaded, Spot, Warning, Week};
use crate::pantry::Netted;
use crate::plan::{self, Demand, Demanded, Makings, ShortMeal};
use crate::prep;
use crate::purchase::{self, Needs};
use crate::shelf::counts_packs;
use crate::telling;
use crate::words;

/// What is told of the week at a place, whose open part is planned.
pub(super) fn warnings(household: &Household, place: usize, before: &Before, open: &Open) -> Vec<Warning> {
    let Household { loaded, booked, today, .. } = *household;
    let (kitchen, week, Stages { makings, demanded, netted, needs }) = (&*before.kitchen, &open.week, &open.stages);
    let mut warnings = loaded.warnings.clone();
    warnings.extend(left_out(&loaded.weeks[place].1, today));
    let earlier = week_before(household, place);
    let told_already = earlier.as_ref().map(|(other, _)| *other);
    warnings.extend(earlier.map(|(_, warning)| warning));
    warnings.extend(before.lived.not_booked(|| named_in_commands(loaded, booked, place, today)));
    let beside = before.overlapping.iter().filter(|other| Some(**other) != told_already);
    warnings.extend(beside.filter_map(|other| household.lived(*other).not_booked(|| named_in_commands(loaded, booked, *other, today))));
    warnings.extend(makings.short.iter().map(|short| short_of(kitchen, short)));
    warnings.extend(before.warnings.iter().cloned());
    warnings.extend(purchase::old_prices(kitchen, &needs.needs, today));
    warnings.extend(open.guarded.iter().cloned());
    warnings.extend(plan::avoided_at_meals(kitchen, week));
    warnings.extend(avoided_on_list(kitchen, demanded, needs));
    warnings.extend(unskilled(kitchen, week, makings, &warnings));
    warnings.extend(prep::warned_of_bought_later(kitchen, &prep::bought_later(kitchen, week, makings, &needs.needs)));
    let counted = counted_in_packs(demanded, netted);
    warnings.extend(demanded.warnings.iter().filter(|warning| warning.at().is_none_or(|at| !counted.contains(at))).cloned());
    warnings.extend(netted.warnings.iter().chain(&open.basket.warnings).cloned());
    let mut said = BTreeSet::new();
    warnings.retain(|warning| said.insert(warning.clone()));
    warnings
}

/// What was not booked of the last week before this one that the household booked something of, once that week is over.
fn week_before(household: &Household, week: usize) -> Option<(usize, Warning)> {
    let weeks = &household.loaded.weeks;
    let is_over = |other: &usize| weeks[*other].1.from < weeks[week].1.from && household.span(*other).1 < household.today;
    // Of weeks that begin on one day the last of the files.
    let latest_first = (0..weeks.len()).filter(is_over).sorted_by_key(|other| Reverse((weeks[*other].1.from, *other)));
    let mut lived = latest_first.map(|other| (other, household.lived(other)));
    let (other, last) = lived.find(|(_, other)| other.standing.has_done())?;
    Some((other, last.not_booked_to_its_end(&weeks[other].0)?))
}

/// What of a week is past and waits to be booked, without planning it.
pub fn waits_to_be_booked(loaded: &Loaded, booked: &Booked, print: Option<AsPrinted<'_>>, week: usize, today: Date) -> Option<Warning> {
    let lived = Lived::of(&loaded.kitchen, &loaded.weeks[week].1, booked, print, today);
    lived.not_booked(|| named_in_commands(loaded, booked, week, today))
}

/// The week's file, where a booking would mean another week.
fn named_in_commands<'l>(loaded: &'l Loaded, booked: &Booked, place: usize, today: Date) -> Option<&'l str> {
    let is_meant_anyway = plan::week_of(loaded.weeks.iter().map(|(_, week)| week), today) == Some(place);
    Some(loaded.weeks[place].0.as_str()).filter(|_| !is_meant_anyway || has_meals_before(loaded, booked, place))
}

/// Has an earlier week meals that nobody booked? `issue --until` would book them, too.
fn has_meals_before(loaded: &Loaded, booked: &Booked, week: usize) -> bool {
    let from = loaded.weeks[week].1.from;
    let earlier = loaded.weeks.iter().filter(|(_, other)| other.from < from);
    earlier.flat_map(|(_, other)| &other.meals).any(|meal| !meal.skip && meal.open.is_none() && !booked.has_meal(meal))
}

fn short_of(kitchen: &Kitchen, short: &ShortMeal) -> Warning {
    let meal = if short.meal == short.label { short.label.clone() } else { format!("{} ({})", short.label, short.meal) };
    let names = kitchen.names();
    let lacks = made(names, short.recipe, &short.amount, kitchen.print.units) + &for_whom(names, short.whose.as_ref());
    Warning::Short { meal, lacks, remedies: telling::short::remedies(short) }
}

/// Foods on the list that contain, or may contain, what the household avoids.
fn avoided_on_list(kitchen: &Kitchen, demanded: &Demanded, needs: &Needs) -> Vec<Warning> {
    if !kitchen.household.avoids_something() {
        return Vec::new();
    }
    let warn = |need: &plan::Need| {
        let name = &kitchen.foods[need.food].name;
        let demand = demanded.demand.iter().find(|demand| demand.food == need.food);
        let staple = kitchen.staples.iter().find(|staple| staple.food == need.food);
        let at = demand.map(|demand| &demand.at).or(staple.map(|staple| &staple.at)).cloned().unwrap_or_else(Spot::default);
        plan::avoided(&kitchen.household, &plan::food_contains(&kitchen.foods, &kitchen.household, need.food), name, &at)
    };
    needs.needs.iter().flat_map(warn).collect()
}

/// Lines of a number of tins whose weight nobody asks for: all lines of the food count them, and closed packs of the shelf serve the line.
fn counted_in_packs<'d>(demanded: &'d Demanded, netted: &Netted) -> BTreeSet<&'d Spot> {
    let counts = |demand: &Demand| counts_packs(&demand.amount.dimension());
    let are_alike = |food: FoodId| demanded.demand.iter().filter(|demand| demand.food == food).all(counts);
    let served =
        demanded.demand.iter().zip(&netted.unmet).filter(|(demand, unmet)| counts(demand) && are_alike(demand.food) && unmet.is_zero());
    served.map(|(demand, _)| &demand.at).collect()
}

/// Skills that nobody in a session has, each once, but for those that nobody has in any: the reader has told them.
fn unskilled(kitchen: &Kitchen, week: &Week, makings: &Makings, told: &[Warning]) -> Vec<Warning> {
    let mut lacking = prep::unskilled(kitchen, week, makings);
    lacking.retain(|one| told.iter().all(|known| known.at() != one.at()));
    told_once(lacking)
}

/// Of warnings in the same words the first, with the other places behind it.
fn told_once(warnings: Vec<Warning>) -> Vec<Warning> {
    let mut by_words: Vec<(String, Vec<Option<Spot>>)> = Vec::new();
    for warning in warnings {
        let (words, at) = (warning.words(), warning.at().cloned());
        match by_words.iter_mut().find(|(known, _)| *known == words) {
            Some((_, places)) => places.push(at),
            None => by_words.push((words, vec![at])),
        }
    }
    let once = |(text, places): (String, Vec<Option<Spot>>)| {
        let others: Vec<String> = places[1..].iter().flatten().map(Spot::to_string).collect();
        let likewise = if others.is_empty() { String::new() } else { format!(" Likewise {}.", words::listed(&others)) };
        Warning::Note { at: places.into_iter().next().flatten(), text: text + &likewise }
    };
    by_words.into_iter().map(once).collect()
}
