//! Why a meal was chosen, as plain data: what it uses up, what it shares with other meals, where it comes from.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::table::Table;
use super::ways::recipes;
use crate::foods::{FoodId, Place};
use crate::kitchen::{Ingredient, RecipeId, Ware};
use crate::measure::Quantity;
use crate::plan::{Kept, MadeAt, Making, User};
use crate::reckon::Tried;
use crate::shelf::lot_dates;

/// One reason.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// "uses 75 g feta, good until Tue".
    UsesUp { of: Ware, amount: Quantity, until: Date },
    /// "uses 1 portion of pearl barley from the freezer".
    FromPlace { of: Ware, amount: Quantity, place: Place },
    /// "second half of Sunday's mash", "the rest of Sunday's mash".
    PartOf { recipe: RecipeId, nth: usize, of: usize, share: Share, made_on: Date },
    /// "straight from the pot".
    FromThePot { recipe: RecipeId },
    /// What is bought serves another meal, too; `first` where that one comes later.
    SharesPack { food: FoodId, with: String, first: bool },
    /// Nothing of the meal before comes again.
    NothingOf { before: String },
    /// It is no better by itself, but the week is.
    OfTheBest,
}

/// How meals share what was cooked once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Share {
    /// In equal parts, and less than one of them stays.
    Even,
    /// In unequal ones, the last taking what is left.
    All,
    /// Something goes elsewhere, or stays.
    Part,
}

/// So many reasons tell enough.
const MOST: usize = 3;

/// The reasons for a meal, by its place in the whole week; the weightiest first.
pub fn why(table: &Table, tried: &Tried, meal: usize) -> Vec<Why> {
    let Some(place) = table.trials.place(meal) else { return Vec::new() };
    let mut reasons = used_up(table, tried, place);
    reasons.extend(parts(tried, place));
    reasons.extend(shared_packs(tried, place));
    reasons.truncate(MOST);
    if reasons.is_empty() {
        reasons.extend(nothing_of_before(tried, place));
        if reasons.is_empty() {
            reasons.push(Why::OfTheBest);
        }
    }
    reasons
}

/// What is drawn for the meal off the shelf, what goes off first standing first.
fn used_up(table: &Table, tried: &Tried, place: usize) -> Vec<Why> {
    let kitchen = table.kitchen();
    let meal = &tried.week.meals[place];
    let soon = crate::pantry::last_day(&tried.week);
    let mut dated: Vec<(Option<Date>, Why)> = Vec::new();
    for draw in tried.netted.draws.iter().filter(|draw| draw.by == [MadeAt::Meal(place)] && draw.on == meal.at_time.date()) {
        let lot = &kitchen.lots[draw.lot];
        let until = lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest.filter(|until| *until <= soon);
        match until {
            Some(until) => dated.push((Some(until), Why::UsesUp { of: draw.of, amount: draw.amount.clone(), until })),
            None if matches!(draw.of, Ware::Recipe(_)) => {
                dated.push((None, Why::FromPlace { of: draw.of, amount: draw.amount.clone(), place: lot.place }));
            }
            None => {}
        }
    }
    dated.sort_by_key(|(until, _)| (until.is_none(), *until));
    let mut reasons: Vec<Why> = dated.into_iter().map(|(_, why)| why).collect();
    reasons.extend(used_in_dishes(table, tried, place));
    reasons
}

/// What goes off and went into a dish that this meal is the first to eat.
fn used_in_dishes(table: &Table, tried: &Tried, place: usize) -> Vec<Why> {
    let kitchen = table.kitchen();
    let soon = crate::pantry::last_day(&tried.week);
    let mut reasons = Vec::new();
    for making in eaten_of(tried, place) {
        let first = making.uses.iter().find(|one| matches!(one.by, User::Meal(_)));
        if first.is_none_or(|first| first.by != User::Meal(place)) {
            continue;
        }
        let named: BTreeSet<FoodId> = kitchen.recipes[making.recipe].ingredients.iter().filter_map(food_of).collect();
        let draws = tried.netted.draws.iter().filter(|draw| draw.by.contains(&making.at) && draw.by.len() == 1);
        for draw in draws {
            let Ware::Food(food) = draw.of else { continue };
            let until = lot_dates(&kitchen.foods, &kitchen.recipes, &kitchen.lots[draw.lot]).earliest.filter(|until| *until <= soon);
            if let Some(until) = until.filter(|_| named.contains(&food)) {
                reasons.push(Why::UsesUp { of: draw.of, amount: draw.amount.clone(), until });
            }
        }
    }
    reasons
}

fn food_of(line: &Ingredient) -> Option<FoodId> {
    match line.ware() {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    }
}

/// Makings of sessions that the meal eats of.
fn eaten_of(tried: &Tried, place: usize) -> impl Iterator<Item = &Making> {
    let eats = move |making: &&Making| making.uses.iter().any(|one| one.by == User::Meal(place));
    tried.makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_))).filter(eats)
}

/// Which share of what was cooked once the meal eats.
fn parts(tried: &Tried, place: usize) -> Vec<Why> {
    let mut reasons = Vec::new();
    for making in eaten_of(tried, place) {
        let meals = meals_of(making);
        let straight = making.uses.iter().any(|one| one.by == User::Meal(place) && one.kept == Kept::Straight);
        if let Some(nth) = meals.iter().position(|by| *by == User::Meal(place)).filter(|_| meals.len() > 1) {
            reasons.push(Why::PartOf { recipe: making.recipe, nth, of: meals.len(), share: share(making), made_on: making.on });
        } else if straight {
            reasons.push(Why::FromThePot { recipe: making.recipe });
        }
    }
    reasons
}

/// The meals that eat of a making, each once, in order of time.
fn meals_of(making: &Making) -> Vec<User> {
    let mut meals: Vec<User> = making.uses.iter().map(|one| one.by).filter(|by| matches!(by, User::Meal(_))).collect();
    meals.dedup();
    meals
}

fn share(making: &Making) -> Share {
    let meals = meals_of(making);
    let eaten = |by: &User| making.uses.iter().filter(|one| one.by == *by).map(|one| one.amount.base()).sum::<f64>();
    let amounts: Vec<f64> = meals.iter().map(eaten).collect();
    let meals_alone = making.uses.iter().all(|one| matches!(one.by, User::Meal(_)));
    let spare = making.spare.as_ref().map_or(0.0, |spare| spare.amount.base());
    let even = amounts.iter().all(|amount| (amount - amounts[0]).abs() <= 1e-6 * amounts[0] && spare < *amount);
    match (meals_alone, even) {
        (true, true) => Share::Even,
        (true, false) if making.spare.is_none() => Share::All,
        _ => Share::Part,
    }
}

/// Foods of the meal's own lines that are bought once for it and another meal.
fn shared_packs(tried: &Tried, place: usize) -> Vec<Why> {
    let meal = &tried.week.meals[place];
    let mut reasons = Vec::new();
    for food in meal.each.iter().chain(&meal.shared).filter_map(food_of) {
        let bought = tried.needs.needs.iter().any(|need| need.food == food && need.uses.iter().any(|one| one.amount > 0));
        let elsewhere = tried
            .week
            .meals
            .iter()
            .enumerate()
            .find(|(other, meal)| *other != place && meal.each.iter().chain(&meal.shared).any(|line| line.ware() == Ware::Food(food)));
        if let Some((at, other)) = elsewhere.filter(|_| bought) {
            reasons.push(Why::SharesPack { food, with: other.label.clone(), first: at > place });
        }
    }
    reasons
}

fn nothing_of_before(tried: &Tried, place: usize) -> Option<Why> {
    let before = &tried.week.meals[place.checked_sub(1)?];
    let wares = |meal: &crate::kitchen::Meal| meal.each.iter().chain(&meal.shared).map(Ingredient::ware).collect::<Vec<_>>();
    let (here, there) = (wares(&tried.week.meals[place]), wares(before));
    let shares = recipes(&here).any(|recipe| recipes(&there).any(|other| other == recipe));
    (!shares).then(|| Why::NothingOf { before: before.label.clone() })
}
