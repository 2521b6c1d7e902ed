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
    /// "second half of the mash", "the rest of the mash cooked on Sun".
    PartOf { recipe: RecipeId, nth: usize, of: usize, made_on: Date },
    /// "straight from the pot".
    FromThePot { recipe: RecipeId },
    /// A pack that another meal opens, too.
    SharesPack { food: FoodId, with: String },
    /// Nothing of the meal before comes again.
    NothingOf { before: String },
    /// Of what may fill it, it adds least to the cost.
    Cheapest,
}

/// So many reasons tell enough.
const MOST: usize = 3;

/// The reasons for a meal, by its place in the whole week; the weightiest first.
pub fn why(table: &Table, tried: &Tried, meal: usize) -> Vec<Why> {
    let Some(place) = table.trials.place(meal) else { return Vec::new() };
    let mut reasons = used_up(table, tried, place);
    reasons.extend(parts(tried, place));
    reasons.extend(shared_packs(table, tried, place));
    reasons.truncate(MOST);
    if reasons.is_empty() {
        reasons.extend(nothing_of_before(tried, place));
        reasons.push(Why::Cheapest);
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
        let until = lot_dates(kitchen, lot).earliest.filter(|until| *until <= soon);
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
            let until = lot_dates(kitchen, &kitchen.lots[draw.lot]).earliest.filter(|until| *until <= soon);
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
        let meals: Vec<User> = making.uses.iter().map(|one| one.by).filter(|by| matches!(by, User::Meal(_))).collect();
        let straight = making.uses.iter().any(|one| one.by == User::Meal(place) && one.kept == Kept::Straight);
        if let Some(nth) = meals.iter().position(|by| *by == User::Meal(place)).filter(|_| meals.len() > 1) {
            reasons.push(Why::PartOf { recipe: making.recipe, nth, of: meals.len(), made_on: making.on });
        } else if straight {
            reasons.push(Why::FromThePot { recipe: making.recipe });
        }
    }
    reasons
}

/// Foods of the meal's own lines that are bought once for it and another meal.
fn shared_packs(table: &Table, tried: &Tried, place: usize) -> Vec<Why> {
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
        if let Some((_, other)) = elsewhere.filter(|_| bought) {
            reasons.push(Why::SharesPack { food, with: other.label.clone() });
        }
    }
    let _ = table;
    reasons
}

fn nothing_of_before(tried: &Tried, place: usize) -> Option<Why> {
    let before = &tried.week.meals[place.checked_sub(1)?];
    let wares = |meal: &crate::kitchen::Meal| meal.each.iter().chain(&meal.shared).map(Ingredient::ware).collect::<Vec<_>>();
    let (here, there) = (wares(&tried.week.meals[place]), wares(before));
    let shares = recipes(&here).any(|recipe| recipes(&there).any(|other| other == recipe));
    (!shares).then(|| Why::NothingOf { before: before.label.clone() })
}
