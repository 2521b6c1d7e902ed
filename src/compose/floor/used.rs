//! What each option uses: foods of its own lines, recipes in their own unit, and the most of each food that the meals from one on can ask for.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::super::alike::shared;
use super::super::bound::Reckoner;
use super::super::table::Table;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, Ingredient, Kitchen, RecipeId, Wanted, Ware};
use crate::plan::{in_makes, servings};

/// What one option uses: foods of its own lines in minor units at the least unit price, and recipes in their own unit.
#[derive(Debug, Clone, Default)]
pub struct Used {
    pub direct: BTreeMap<FoodId, f64>,
    pub recipes: BTreeMap<RecipeId, f64>,
    /// Of the recipes, those that a line of the meal itself names.
    named: BTreeMap<RecipeId, f64>,
    /// Foods of which more may be used than is told here.
    untold: BTreeSet<FoodId>,
}

impl Used {
    /// The most that it can ask for of each food: whole batches.
    fn most(&self, kitchen: &Kitchen, reckoner: &Reckoner) -> BTreeMap<FoodId, f64> {
        let mut most = self.direct.clone();
        for (recipe, amount) in &self.recipes {
            let whole = kitchen.recipes[*recipe].makes.base();
            let batches = (amount / whole).ceil() + 1.0;
            for (food, minor) in reckoner.of_one(*recipe) {
                *most.entry(food).or_default() += minor * batches * whole;
            }
        }
        most
    }
}

/// Every food that lies on the shelf or is sold.
fn any_food(kitchen: &Kitchen) -> impl Iterator<Item = FoodId> + '_ {
    let on_shelf = kitchen.lots.iter().filter_map(|lot| match lot.of {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    });
    on_shelf.chain(kitchen.packs.iter().map(|pack| pack.food))
}

/// By gap, the most that it and later ones can use of each food; of what cannot be told in money, without end.
pub fn later(
    kitchen: &Kitchen,
    reckoner: &Reckoner,
    (uses, alike): (&[Arc<Vec<Used>>], &[usize]),
    cut: &[bool],
) -> Vec<BTreeMap<FoodId, f64>> {
    let of_gap = |gap: usize| {
        // A way that is not held may use anything.
        let any = any_food(kitchen).filter(|_| cut[gap]).map(|food| (food, f64::INFINITY));
        let mut most: BTreeMap<FoodId, f64> = any.collect();
        for used in uses[gap].iter() {
            let untold = used.untold.iter().map(|food| (*food, f64::INFINITY));
            for (food, minor) in used.most(kitchen, reckoner).into_iter().chain(untold) {
                let there = most.entry(food).or_default();
                *there = there.max(minor);
            }
        }
        most
    };
    let most = shared(alike, of_gap);
    let mut later: Vec<BTreeMap<FoodId, f64>> = vec![BTreeMap::new(); uses.len() + 1];
    for gap in (0..uses.len()).rev() {
        later[gap] = later[gap + 1].clone();
        most[gap].iter().for_each(|(food, minor)| *later[gap].entry(*food).or_default() += minor);
    }
    later
}

pub fn scaled(minor: &BTreeMap<FoodId, f64>, times: f64) -> BTreeMap<FoodId, f64> {
    minor.iter().map(|(food, minor)| (*food, minor * times)).collect()
}

pub fn used(table: &Table, reckoner: &Reckoner, meal: usize, way: Option<u32>) -> Used {
    let mut used = Used::default();
    let Some(way) = way else { return used };
    let kitchen = table.kitchen();
    let (each, shared) = table.ways.lines(way);
    let meal = table.trials.whole.meals[meal].holding(kitchen, each, shared);
    let without: Vec<Ware> = meal.diners.iter().flat_map(|diner| diner.without.iter().copied()).collect();
    // Where somebody gets something else, or without something, what the others get is all that is told.
    let is_whole = meal.diners.iter().all(|diner| diner.without.is_empty() && diner.swapped.is_empty());
    if !is_whole {
        used.untold.extend(any_food(kitchen));
    }
    // What an eater has instead is eaten however the meal is filled, and is counted with what is written.
    for serving in servings(&meal).into_iter().filter(|serving| !serving.own && !without.contains(&serving.line.ware())) {
        let times = serving.times.to_f64();
        match &serving.line.wanted {
            Wanted::Food { food, .. } => {
                reckoner.add_line(serving.line, times, &without, &mut used.direct);
                used.untold.extend((!is_told(reckoner, serving.line)).then_some(*food));
            }
            Wanted::Recipe { recipe, most, .. } => {
                let Some(amount) = in_makes(&kitchen.recipes[*recipe], most) else { continue };
                let amount = amount.to_f64() * times;
                *used.named.entry(*recipe).or_default() += amount;
                add_recipe(kitchen, *recipe, if is_whole { amount } else { 0.0 }, &mut used.recipes);
            }
        }
    }
    let lines = used.recipes.keys().flat_map(|recipe| &kitchen.recipes[*recipe].ingredients);
    used.untold.extend(lines.filter(|line| !is_told(reckoner, line)).filter_map(|line| match line.ware() {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    }));
    used
}

/// Is as much of a food taken as its line says? Not of what is only taken whole, or to taste, or has no price that compares.
fn is_told(reckoner: &Reckoner, line: &Ingredient) -> bool {
    match &line.wanted {
        Wanted::Food { food, item: Some(item) } => {
            let whole = reckoner.kitchen.foods[*food].cut.as_ref().is_some_and(|cut| !cut.value);
            !whole && reckoner.least_price(*food, item).is_some()
        }
        Wanted::Food { item: None, .. } => false,
        Wanted::Recipe { .. } => true,
    }
}

fn add_recipe(kitchen: &Kitchen, recipe: RecipeId, amount: f64, recipes: &mut BTreeMap<RecipeId, f64>) {
    *recipes.entry(recipe).or_default() += amount;
    let whole = &kitchen.recipes[recipe];
    for line in &whole.ingredients {
        if let Wanted::Recipe { recipe, most, .. } = &line.wanted
            && let Some(part) = in_makes(&kitchen.recipes[*recipe], most)
        {
            add_recipe(kitchen, *recipe, part.to_f64() * amount / whole.makes.base(), recipes);
        }
    }
}

/// Recipes that nothing else takes and that meals ask for in one amount: the least that is made for one that is eaten.
pub fn made(table: &Table, uses: &[Arc<Vec<Used>>]) -> BTreeMap<RecipeId, f64> {
    let kitchen = table.kitchen();
    let parts: BTreeSet<RecipeId> = kitchen
        .recipes
        .iter()
        .flat_map(|recipe| &recipe.ingredients)
        .filter_map(|line| match line.ware() {
            Ware::Recipe(recipe) => Some(recipe),
            Ware::Food(_) => None,
        })
        .collect();
    let mut amounts: BTreeMap<RecipeId, (BTreeSet<u64>, usize)> = BTreeMap::new();
    for options in uses {
        let mut here: BTreeMap<RecipeId, BTreeSet<u64>> = BTreeMap::new();
        for (recipe, amount) in options.iter().flat_map(|used| &used.named) {
            here.entry(*recipe).or_default().insert(amount.to_bits());
        }
        for (recipe, seen) in here {
            let (all, meals) = amounts.entry(recipe).or_default();
            all.extend(seen);
            *meals += 1;
        }
    }
    let least = |(recipe, (seen, meals)): (RecipeId, (BTreeSet<u64>, usize))| {
        let known = &kitchen.recipes[recipe];
        let step = match known.batches {
            BatchCut::Whole => known.makes.base(),
            BatchCut::Halves => known.makes.base() / 2.0,
            BatchCut::Any => return None,
        };
        let amount = f64::from_bits(*seen.first().filter(|_| seen.len() == 1 && !parts.contains(&recipe))?);
        let made = |times: usize| {
            let eaten = amount * times as f64;
            step * (eaten / step - 1e-6).ceil() / eaten
        };
        let least = (1..=meals).map(made).min_by(f64::total_cmp)?;
        (least.is_finite() && least > 1.0).then_some((recipe, least))
    };
    amounts.into_iter().filter_map(least).collect()
}
