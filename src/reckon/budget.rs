//! The week beside the household's budget, and what would bring it nearer.
//!
//! Every single change is tried by running the stages again on a kitchen and week with that change. A change counts only where it
//! saves, leaves nothing without a price that had one, and flags no food that was not flagged: a shop left out whose goods nobody
//! else sells would look like the greatest saving of all.
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
use crate::kitchen::{BatchCut, Choose, Ingredient, Kitchen, Recipe, RecipeId, Shop, ShopId, Wanted, Week};
use crate::measure::Money;
use crate::purchase::{Basket, Budget, Flag, SaveBy, Saving, TripList, choose_thrifty};

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
    cost: Money,
    unpriced: BTreeSet<FoodId>,
    flags: Vec<Flag>,
}

/// The week's cost beside its budget. `None` where the household names none.
pub(super) fn budget(reckoning: &Reckoning) -> Option<Budget> {
    let (kitchen, week): (&Kitchen, &Week) = (&reckoning.kitchen, &reckoning.week);
    let limit = kitchen.household.budget?;
    let now = Trial::of(&reckoning.basket, &reckoning.needs.flags).beside(reckoning.paid);
    let mut savings: Vec<(Money, Change)> = Vec::new();
    let mut untried = 0;
    if now.cost > limit {
        let all = changes(reckoning);
        let count = all.len();
        let dearest = dearest(reckoning, all);
        untried = count - dearest.len();
        for change in dearest {
            let then = tried(reckoning, std::slice::from_ref(&change)).filter(|then| then.is_as_good_as(&now));
            savings.extend(then.filter(|then| then.cost < now.cost).map(|then| (then.cost, change)));
        }
    }
    savings.sort_by_key(|(cost, _)| *cost);
    savings.truncate(MOST_CHANGES);
    let best: Vec<Change> = savings.iter().map(|(_, change)| change.clone()).collect();
    let together = if best.is_empty() { None } else { tried(reckoning, &best) };
    let saving =
        |(cost, change): &(Money, Change)| Saving { by: told(&kitchen.recipes, week, change), saves: now.cost - *cost, cost: *cost };
    Some(Budget {
        limit,
        cost: now.cost,
        changes: savings.iter().map(saving).collect(),
        untried,
        together: together.map(|together| together.cost),
    })
}

impl Trial {
    fn of(basket: &Basket, flags: &[Flag]) -> Trial {
        let lines = basket.trips.iter().flat_map(TripList::lines).filter(|line| line.cost.is_none());
        Trial { cost: basket.cost, unpriced: lines.map(|line| line.food).collect(), flags: flags.to_vec() }
    }

    /// With what booked purchases were paid.
    fn beside(mut self, paid: Money) -> Trial {
        self.cost += paid;
        self
    }

    fn is_as_good_as(&self, other: &Trial) -> bool {
        self.unpriced.is_subset(&other.unpriced) && self.flags.iter().all(|flag| other.flags.contains(flag))
    }
}

/// Runs the stages with these changes; `None` where a meal can then no longer be made.
fn tried(reckoning: &Reckoning, changes: &[Change]) -> Option<Trial> {
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
    Some(Trial::of(&choose_thrifty(&kitchen, &week, &needs.needs, &thrifty), &needs.flags).beside(reckoning.paid))
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

/// In a week too large to try every change: those of shops, packs and batches, then the lines of foods that the most is paid for. In the
/// order in which they came.
fn dearest(reckoning: &Reckoning, changes: Vec<Change>) -> Vec<Change> {
    let most = (MOST_DEMANDS / reckoning.demanded.demand.len().max(1)).max(ALWAYS_TRIED);
    if changes.len() <= most {
        return changes;
    }
    let mut paid: BTreeMap<FoodId, Money> = BTreeMap::new();
    for one in &reckoning.basket.paid {
        *paid.entry(one.food).or_insert(Money::ZERO) += one.cost;
    }
    let worth = |change: &Change| match change {
        Change::DropLine(extra) => match extra.of(&reckoning.week).wanted {
            Wanted::Food { food, .. } => paid.get(&food).copied().unwrap_or(Money::ZERO),
            Wanted::Recipe { .. } => Money::ZERO,
        },
        _ => Money(i64::MAX),
    };
    let mut places: Vec<usize> = (0..changes.len()).collect();
    places.sort_by_key(|place| std::cmp::Reverse(worth(&changes[*place])));
    places.truncate(most);
    places.sort_unstable();
    places.into_iter().map(|place| changes[place].clone()).collect()
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
