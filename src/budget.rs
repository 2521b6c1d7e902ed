//! The week beside the household's budget, and what would bring it nearer.
//!
//! Every single change is tried by running the stages again on a kitchen and week with that change. A change counts only where it
//! saves, leaves nothing without a price that had one, and flags no food that was not flagged: a shop left out whose goods nobody
//! else sells would look like the greatest saving of all.
//!
//! Knows the stages in a row; no file, no terminal.

use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::Reckoning;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, Choose, Ingredient, Kitchen, RecipeId, ShopId, Wanted, Week};
use crate::measure::Money;
use crate::purchase::{Basket, Budget, Flag, Saving, choose_thrifty};
use crate::reckon::{Stages, stages};

/// So many changes are named.
const MOST_CHANGES: usize = 3;

/// One thing that could be done otherwise.
#[derive(Debug, Clone, PartialEq)]
enum Change {
    /// Another pack set: the cheapest, where the rule is another. Under `cheapest` no other set costs less.
    CheapestPacks(FoodId),
    LeaveOutShop(ShopId),
    /// `batches` one step down, where something of the recipe is spare.
    FinerBatches(RecipeId),
    DropLine(Extra),
}

/// A food line of a meal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Extra {
    meal: usize,
    each: bool,
    line: usize,
}

/// What a change comes to.
struct Trial {
    cost: Money,
    unpriced: BTreeSet<String>,
    flags: Vec<Flag>,
}

/// The week's cost beside its budget. `None` where the household names none.
pub fn budget(kitchen: &Kitchen, week: &Week, reckoning: &Reckoning) -> Option<Budget> {
    let limit = kitchen.household.budget?;
    let now = Trial::of(&reckoning.basket, &reckoning.needs.flags);
    let mut savings: Vec<(Money, Change)> = Vec::new();
    if now.cost > limit {
        for change in changes(kitchen, week, reckoning) {
            let then = tried(kitchen, week, std::slice::from_ref(&change)).filter(|then| then.is_as_good_as(&now));
            savings.extend(then.filter(|then| then.cost < now.cost).map(|then| (then.cost, change)));
        }
    }
    savings.sort_by_key(|(cost, _)| *cost);
    savings.truncate(MOST_CHANGES);
    let best: Vec<Change> = savings.iter().map(|(_, change)| change.clone()).collect();
    let together = if best.is_empty() { None } else { tried(kitchen, week, &best) };
    let currency = &kitchen.household.currency;
    let saving = |(cost, change): &(Money, Change)| Saving {
        change: said(kitchen, week, change),
        saves: (now.cost - *cost).decimal(currency),
        cost: cost.decimal(currency),
    };
    Some(Budget {
        limit: limit.decimal(currency),
        cost: now.cost.decimal(currency),
        over: (now.cost - limit).max(Money::ZERO).decimal(currency),
        changes: savings.iter().map(saving).collect(),
        together: together.map(|together| together.cost.decimal(currency)),
    })
}

impl Trial {
    fn of(basket: &Basket, flags: &[Flag]) -> Trial {
        let visits = basket.trips.iter().flat_map(|trip| &trip.shops).filter(|visit| visit.shop.is_none());
        let lines = visits.flat_map(|visit| &visit.sections).flat_map(|section| &section.lines).filter(|line| line.cost.is_none());
        Trial { cost: basket.cost, unpriced: lines.map(|line| line.food.clone()).collect(), flags: flags.to_vec() }
    }

    fn is_as_good_as(&self, other: &Trial) -> bool {
        self.unpriced.is_subset(&other.unpriced) && self.flags.iter().all(|flag| other.flags.contains(flag))
    }
}

/// Runs the stages with these changes; `None` where a meal can then no longer be made.
fn tried(kitchen: &Kitchen, week: &Week, changes: &[Change]) -> Option<Trial> {
    let (mut kitchen, mut week) = (Cow::Borrowed(kitchen), week.clone());
    let mut thrifty = Vec::new();
    let mut dropped = Vec::new();
    for change in changes {
        match change {
            Change::CheapestPacks(food) => thrifty.push(*food),
            Change::LeaveOutShop(shop) => leave_out(&kitchen, &mut week, *shop),
            Change::FinerBatches(recipe) => {
                let recipe = &mut kitchen.to_mut().recipes[*recipe];
                recipe.batches = finer(recipe.batches)?;
            }
            Change::DropLine(extra) => dropped.push(*extra),
        }
    }
    drop_lines(&mut week, &dropped);
    let Stages { needs, .. } = stages(&kitchen, &week).ok()?;
    Some(Trial::of(&choose_thrifty(&kitchen, &week, &needs.needs, &thrifty), &needs.flags))
}

fn finer(cut: BatchCut) -> Option<BatchCut> {
    match cut {
        BatchCut::Whole => Some(BatchCut::Halves),
        BatchCut::Halves => Some(BatchCut::Any),
        BatchCut::Any => None,
    }
}

fn leave_out(kitchen: &Kitchen, week: &mut Week, shop: ShopId) {
    for trip in &mut week.trips {
        let all = || (0..kitchen.shops.len()).map(ShopId).collect();
        trip.shops.get_or_insert_with(all).retain(|other| *other != shop);
    }
}

fn drop_lines(week: &mut Week, dropped: &[Extra]) {
    for (index, meal) in week.meals.iter_mut().enumerate() {
        for (each, lines) in [(true, &mut meal.each), (false, &mut meal.shared)] {
            let mut line = 0..lines.len();
            lines.retain(|_| line.next().is_none_or(|line| !dropped.contains(&Extra { meal: index, each, line })));
        }
    }
}

/// Every change there is, in the order in which equal savings are named.
fn changes(kitchen: &Kitchen, week: &Week, reckoning: &Reckoning) -> Vec<Change> {
    let mut changes = Vec::new();
    if kitchen.rules.choose != Choose::Cheapest {
        let bought: BTreeSet<FoodId> = reckoning.basket.paid.iter().map(|paid| paid.food).collect();
        changes.extend(bought.into_iter().map(Change::CheapestPacks));
    }
    changes.extend((0..kitchen.shops.len()).map(ShopId).filter(|shop| is_visited(kitchen, reckoning, *shop)).map(Change::LeaveOutShop));
    let makings = &reckoning.makings.makings;
    let spare: BTreeSet<RecipeId> = makings.iter().filter(|making| making.spare.is_some()).map(|making| making.recipe).collect();
    changes.extend(spare.into_iter().filter(|recipe| finer(kitchen.recipes[*recipe].batches).is_some()).map(Change::FinerBatches));
    for (meal, of) in week.meals.iter().enumerate() {
        for (each, lines) in [(true, &of.each), (false, &of.shared)] {
            let extras = lines.iter().enumerate().filter(|(_, line)| matches!(line.wanted, Wanted::Food { .. }));
            changes.extend(extras.map(|(line, _)| Change::DropLine(Extra { meal, each, line })));
        }
    }
    changes
}

fn is_visited(kitchen: &Kitchen, reckoning: &Reckoning, shop: ShopId) -> bool {
    let name = &kitchen.shops[shop].name;
    reckoning.basket.trips.iter().flat_map(|trip| &trip.shops).any(|visit| visit.shop.as_ref() == Some(name))
}

fn said(kitchen: &Kitchen, week: &Week, change: &Change) -> String {
    match change {
        Change::CheapestPacks(food) => format!("buy the cheapest packs of {}", kitchen.foods[*food].name),
        Change::LeaveOutShop(shop) => format!("leave out {}", kitchen.shops[*shop].name),
        Change::FinerBatches(recipe) => {
            let recipe = &kitchen.recipes[*recipe];
            let cut = if recipe.batches == BatchCut::Whole { "half batches" } else { "batches of any size" };
            format!("make {} in {cut}", recipe.name)
        }
        Change::DropLine(extra) => {
            let meal = &week.meals[extra.meal];
            let lines: &[Ingredient] = if extra.each { &meal.each } else { &meal.shared };
            let each = if extra.each { " for each" } else { "" };
            format!("leave out \"{}\"{each} at {}", lines[extra.line].text, meal.label)
        }
    }
}
