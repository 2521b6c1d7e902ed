//! What went into each making of a session, in money: what its foods and dishes cost, shared out by what each recipe takes.

use std::collections::BTreeMap;

use crate::foods::{FoodId, as_purchased};
use crate::kitchen::{Kitchen, Recipe, RecipeId, Wanted};
use crate::measure::{Dimension, Number, Quantity};
use crate::prep::{Batch, Turnover};

/// Minor units of money; `None` where no price of some of it is known.
type Cost = Option<f64>;

/// What a session took off the shelf.
#[derive(Debug, Default)]
pub(super) struct WentIn {
    foods: BTreeMap<FoodId, (Dimension, Cost)>,
    /// In the unit of `makes`.
    recipes: BTreeMap<RecipeId, (Number, Cost)>,
}

impl WentIn {
    pub fn add_food(&mut self, food: FoodId, amount: &Quantity, cost: Cost) {
        let sum = self.foods.entry(food).or_insert_with(|| (amount.dimension(), Some(0.0)));
        sum.1 = sum.1.zip(cost).map(|(sum, cost)| sum + cost);
    }

    pub fn add_recipe(&mut self, kitchen: &Kitchen, recipe: RecipeId, amount: &Quantity, cost: Cost) {
        let sum = self.recipes.entry(recipe).or_insert((Number::ZERO, Some(0.0)));
        sum.0 += kitchen.recipes[recipe].in_makes(amount).unwrap_or_default();
        sum.1 = sum.1.zip(cost).map(|(sum, cost)| sum + cost);
    }

    /// What each of the session's batches cost, in their order: components stand before the dishes that they go into.
    pub fn into_makings(self, kitchen: &Kitchen, session: &Turnover) -> Vec<Cost> {
        let mut costs: Vec<Cost> = Vec::new();
        for batch in &session.batches {
            let mut cost = Some(0.0);
            for (food, (dimension, whole)) in &self.foods {
                if let Some(share) = food_share(kitchen, session, batch, *food, dimension) {
                    cost = cost.zip(*whole).map(|(sum, whole)| sum + whole * share);
                }
            }
            for (part, used) in used(&kitchen.recipes, batch) {
                let of_one = self.of_one(&kitchen.recipes, session, &costs, part);
                cost = cost.zip(of_one).map(|(sum, one)| sum + one * used.to_f64());
            }
            costs.push(cost);
        }
        costs
    }

    /// What one of a dish's parts cost: fetched from the shelf, or made in this session before.
    fn of_one(&self, recipes: &[Recipe], session: &Turnover, costs: &[Cost], part: RecipeId) -> Cost {
        let (fetched, fetched_cost) = self.recipes.get(&part).cloned().unwrap_or((Number::ZERO, Some(0.0)));
        let all: Number = session.batches.iter().flat_map(|batch| used(recipes, batch)).filter(|one| one.0 == part).map(|one| one.1).sum();
        let made_here = (&all - &fetched).max(Number::ZERO);
        let made = session.batches.iter().zip(costs).find(|(batch, _)| batch.recipe == part);
        let made_cost = match made {
            _ if made_here.is_zero() => Some(0.0),
            Some((batch, cost)) => cost.map(|cost| cost * (made_here / batch.makes.exact()).to_f64()),
            // Neither fetched nor made: nobody knows what it cost.
            None => None,
        };
        let whole = all.max(fetched);
        whole.is_positive().then(|| Some((fetched_cost? + made_cost?) / whole.to_f64()))?
    }
}

/// The dishes that go into a batch, in the unit of their `makes`.
fn used(recipes: &[Recipe], batch: &Batch) -> Vec<(RecipeId, Number)> {
    let times = Number::from_ten_digits(batch.batches);
    let lines = recipes[batch.recipe].ingredients.iter();
    let part = |wanted: &Wanted| match wanted {
        Wanted::Recipe { recipe, most, .. } => Some((*recipe, recipes[*recipe].in_makes(most)? * &times)),
        Wanted::Food { .. } => None,
    };
    lines.filter_map(|line| part(&line.wanted)).collect()
}

/// A batch's share of what a session takes of a food, by weight; where that is not known, by its lines. `None` where it takes none.
fn food_share(kitchen: &Kitchen, session: &Turnover, batch: &Batch, food: FoodId, dimension: &Dimension) -> Option<f64> {
    let amounts = |batch: &Batch| -> Vec<Option<f64>> {
        let lines = kitchen.recipes[batch.recipe].ingredients.iter();
        let items = lines.filter_map(|line| match &line.wanted {
            Wanted::Food { food: named, item: Some(item) } if *named == food => Some(item),
            _ => None,
        });
        let amount = |item| as_purchased(&kitchen.foods[food], item, dimension, kitchen.rules.spoons).ok();
        items.map(|item| amount(item).map(|amount| amount.base() * batch.batches)).collect()
    };
    let all: Vec<Option<f64>> = session.batches.iter().flat_map(amounts).collect();
    let is_known = all.iter().all(Option::is_some);
    let sum = |parts: &[Option<f64>]| parts.iter().map(|part| if is_known { part.unwrap_or_default() } else { 1.0 }).sum::<f64>();
    let (mine, whole) = (sum(&amounts(batch)), sum(&all));
    (mine > 0.0 && whole > 0.0).then(|| mine / whole)
}
