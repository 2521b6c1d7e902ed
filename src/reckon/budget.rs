//! The week beside the household's budget, and what would bring it nearer.
//!
//! A change is tried by running the stages again on a kitchen and week with it. It counts only where it saves, leaves nothing without a
//! price that had one, and flags no food that was not flagged: a shop left out whose goods nobody else sells would look like the greatest
//! saving of all.
//!
//! Changes are tried in the order of what they can save at most, until what is left cannot save more than those that will be named. A line
//! left out saves at most what is paid for its food and the way to the shop: whoever goes there all the same has everything else as before.
//!
//! Knows the stages in a row; no file, no terminal.
//!
//! The budget's advice leaves out a shop only where everything is still bought and no food is newly flagged; otherwise
//! the shop with the most goods would always save the most. `batches` one step down is "whole" to "halves" to "any".
//! Another pack set is tried only where `choose` is not "cheapest", because then no other set is cheaper. The budget is
//! held against what booked purchases of the week were paid (fares are in no booking) and what its open trips cost.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use super::Reckoning;
use super::stages::{Stages, open_stages};
use crate::book::Booked;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, Choose, Ingredient, Kitchen, Recipe, RecipeId, Shop, ShopId, Wanted, Ware, Week};
use crate::measure::Money;
use crate::purchase::{Budget, Flag, Quote, Quotes, SaveBy, Saving, TripList};

/// So many changes are named.
const MOST_CHANGES: usize = 3;

/// Every change plans the week again, which takes about as long as it has demands: so many are gone through in all.
const MOST_DEMANDS: usize = 40_000;

/// So many changes are tried whatever the size of the week.
const ALWAYS_TRIED: usize = 20;

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

impl Extra {
    fn of(self, week: &Week) -> &Ingredient {
        let meal = &week.meals[self.meal];
        let lines: &[Ingredient] = if self.each { &meal.each } else { &meal.shared };
        &lines[self.line]
    }
}

/// What a change comes to.
struct Trial {
    quote: Quote,
    flags: Vec<Flag>,
}

/// A change that was tried and counts.
struct Found {
    cost: Money,
    /// Its place among all changes: of equal savings the first is named first.
    place: usize,
    change: Change,
}

/// The week's cost beside its budget. `None` where the household names none.
pub(super) fn budget(reckoning: &Reckoning) -> Option<Budget> {
    let (kitchen, week): (&Kitchen, &Week) = (&reckoning.kitchen, &reckoning.week);
    let limit = kitchen.household.budget?;
    let now = Trial::now(reckoning);
    let mut quotes = Quotes::default();
    let (found, untried) = if now.quote.cost > limit { best_changes(reckoning, &now, &mut quotes) } else { (Vec::new(), 0) };
    let best: Vec<Change> = found.iter().map(|found| found.change.clone()).collect();
    let together = if best.is_empty() { None } else { tried(reckoning, &best, &mut quotes) };
    let saving =
        |found: &Found| Saving { by: told(&kitchen.recipes, week, &found.change), saves: now.quote.cost - found.cost, cost: found.cost };
    Some(Budget {
        limit,
        cost: now.quote.cost,
        changes: found.iter().map(saving).collect(),
        untried,
        together: together.map(|together| together.quote.cost),
    })
}

/// The changes that save the most, the greatest saving first; and how many were not tried, in a week too large to try them all.
fn best_changes(reckoning: &Reckoning, now: &Trial, quotes: &mut Quotes) -> (Vec<Found>, usize) {
    let limit = (MOST_DEMANDS / reckoning.demanded.demand.len().max(1)).max(ALWAYS_TRIED);
    let of_food = most_saved(reckoning);
    let at_most = |change: &Change| match change {
        Change::DropLine(extra) => of_food.get(&extra.of(&reckoning.week).ware()).copied().unwrap_or(Money::ZERO),
        _ => Money(i64::MAX),
    };
    let all = changes(reckoning).into_iter().enumerate().map(|(place, change)| (at_most(&change), place, change));
    let mut open: Vec<(Money, usize, Change)> = all.filter(|(saves, ..)| *saves > Money::ZERO).collect();
    open.sort_by_key(|(saves, place, _)| (std::cmp::Reverse(*saves), *place));
    let mut found: Vec<Found> = Vec::new();
    let mut open = open.into_iter();
    for (most, place, change) in open.by_ref().take(limit) {
        let beaten = |last: &Found| now.quote.cost - last.cost > most;
        if found.len() == MOST_CHANGES && found.last().is_some_and(beaten) {
            return (found, 0);
        }
        let then = tried(reckoning, std::slice::from_ref(&change), quotes);
        if let Some(then) = then.filter(|then| then.is_as_good_as(now) && then.quote.cost < now.quote.cost) {
            found.push(Found { cost: then.quote.cost, place, change });
            found.sort_by_key(|found| (found.cost, found.place));
            found.truncate(MOST_CHANGES);
        }
    }
    let untried = open.len();
    (found, untried)
}

/// By food, the most that could be saved were nothing of it bought.
fn most_saved(reckoning: &Reckoning) -> BTreeMap<Ware, Money> {
    let mut most: BTreeMap<Ware, Money> = BTreeMap::new();
    for visit in reckoning.basket.trips.iter().flat_map(|trip| &trip.shops) {
        let fare = visit.at.map_or(Money::ZERO, |stop| stop.fare);
        for line in visit.sections.iter().flat_map(|section| &section.lines) {
            *most.entry(Ware::Food(line.food)).or_insert(Money::ZERO) += line.cost.unwrap_or(Money::ZERO) + fare;
        }
    }
    most
}

impl Trial {
    /// The week as it is planned.
    fn now(reckoning: &Reckoning) -> Trial {
        let lines = reckoning.basket.trips.iter().flat_map(TripList::lines).filter(|line| line.cost.is_none());
        let quote = Quote { cost: reckoning.basket.cost + reckoning.paid, unpriced: lines.map(|line| line.food).collect() };
        Trial { quote, flags: reckoning.needs.flags.clone() }
    }

    fn is_as_good_as(&self, other: &Trial) -> bool {
        self.quote.unpriced.is_subset(&other.quote.unpriced) && self.flags.iter().all(|flag| other.flags.contains(flag))
    }
}

/// Runs the stages with these changes; `None` where a meal can then no longer be made.
fn tried(reckoning: &Reckoning, changes: &[Change], quotes: &mut Quotes) -> Option<Trial> {
    let (mut kitchen, mut week): (Cow<Kitchen>, Week) = (Cow::Borrowed(&*reckoning.kitchen), (*reckoning.week).clone());
    week.trips.retain(|trip| trip.planned);
    let mut thrifty = Vec::new();
    let mut dropped = Vec::new();
    for change in changes {
        match change {
            Change::CheapestPacks(food) => thrifty.push(*food),
            Change::LeaveOutShop(shop) => leave_out(&kitchen.shops, &mut week, *shop),
            Change::FinerBatches(recipe) => {
                let recipe = &mut kitchen.to_mut().recipes[*recipe];
                recipe.batches = finer(recipe.batches)?;
            }
            Change::DropLine(extra) => dropped.push(*extra),
        }
    }
    drop_lines(&mut week, &dropped);
    // How trips of their own are numbered costs nothing.
    let nothing = Booked::default();
    let (week, Stages { needs, .. }) =
        open_stages(&kitchen, Cow::Owned(week), reckoning.begun.as_ref().map(|begun| (begun, &nothing))).ok()?;
    let quote = quotes.quote(&kitchen, &week, &needs.needs, &thrifty);
    Some(Trial { quote: Quote { cost: quote.cost + reckoning.paid, ..quote }, flags: needs.flags })
}

fn finer(cut: BatchCut) -> Option<BatchCut> {
    match cut {
        BatchCut::Whole => Some(BatchCut::Halves),
        BatchCut::Halves => Some(BatchCut::Any),
        BatchCut::Any => None,
    }
}

fn leave_out(shops: &[Shop], week: &mut Week, shop: ShopId) {
    for trip in &mut week.trips {
        let all = || (0..shops.len()).map(ShopId).collect();
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
fn changes(reckoning: &Reckoning) -> Vec<Change> {
    let (kitchen, week): (&Kitchen, &Week) = (&reckoning.kitchen, &reckoning.week);
    let mut changes = Vec::new();
    if kitchen.rules.choose != Choose::Cheapest {
        let bought: BTreeSet<FoodId> = reckoning.basket.paid.iter().map(|paid| paid.food).collect();
        changes.extend(bought.into_iter().map(Change::CheapestPacks));
    }
    changes.extend((0..kitchen.shops.len()).map(ShopId).filter(|shop| is_visited(reckoning, *shop)).map(Change::LeaveOutShop));
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

fn is_visited(reckoning: &Reckoning, shop: ShopId) -> bool {
    reckoning.basket.trips.iter().flat_map(|trip| &trip.shops).filter_map(|visit| visit.at).any(|stop| stop.shop == shop)
}

fn told(recipes: &[Recipe], week: &Week, change: &Change) -> SaveBy {
    match change {
        Change::CheapestPacks(food) => SaveBy::CheapestPacks(*food),
        Change::LeaveOutShop(shop) => SaveBy::LeavingOutShop(*shop),
        Change::FinerBatches(recipe) => {
            SaveBy::FinerBatches { recipe: *recipe, to: finer(recipes[*recipe].batches).unwrap_or(BatchCut::Any) }
        }
        Change::DropLine(extra) => {
            let meal = &week.meals[extra.meal];
            SaveBy::LeavingOutLine { line: extra.of(week).text.clone(), for_each: extra.each, meal: meal.label.clone() }
        }
    }
}
