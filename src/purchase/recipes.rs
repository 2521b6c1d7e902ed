//! Which recipes would use up what is left.
//!
//! Knows recipes and amounts in hand; not where these come from.
//!
//! A lot that may no longer be drawn is no reason to cook: no recipe is named for it.

use jiff::civil::Date;

use super::left_over::{FoodAmount, RecipeUse};
use crate::foods::{FoodId, Item, as_purchased, own_dimension};
use crate::kitchen::{Kitchen, Recipe, RecipeId, Wanted};
use crate::measure::{Dimension, Number, Quantity, TOLERANCE, tidy};
use crate::plan::{Batches, Stating, in_makes};
use crate::shelf::rounded;

/// So many recipes are named.
const MOST_RECIPES: usize = 5;

/// A dish that takes more makings of components is no way to use something up: it is not named.
const MOST_MAKINGS: usize = 200;

/// An amount of one food that should be used, in base units of `dimension`.
#[derive(Debug, Clone)]
pub(super) struct InHand {
    pub food: FoodId,
    pub dimension: Dimension,
    pub left: f64,
    /// Minor units for one base unit.
    pub rate: f64,
    pub until: Option<Date>,
}

/// The recipes of which one batch would use the highest value of what is in hand, the first in hand first; of equal values the
/// first recipe. A component is made in as many batches as the dish asks.
pub(super) fn recipe_uses(kitchen: &Kitchen, in_hand: Vec<InHand>) -> Vec<RecipeUse> {
    let stating = Stating::new(kitchen);
    let tried = kitchen.recipes.iter().enumerate().map(|(id, recipe)| {
        let mut trial =
            Trial { kitchen, stating: &stating, in_hand: in_hand.clone(), value: 0.0, uses: Vec::new(), needs: Vec::new(), makings: 0 };
        trial.make(recipe, &Number::ONE);
        (RecipeId(id), trial)
    });
    let makes_sense = |trial: &Trial| trial.makings <= MOST_MAKINGS && rounded(trial.value).0 > 0;
    let mut worth_while: Vec<(RecipeId, Trial)> = tried.filter(|(_, trial)| makes_sense(trial)).collect();
    worth_while.sort_by(|(_, a), (_, b)| tidy(b.value).total_cmp(&tidy(a.value)));
    worth_while.truncate(MOST_RECIPES);
    let tidied = |parts: Vec<FoodAmount>| parts.into_iter().map(tidied).collect();
    let uses = worth_while.into_iter().map(|(recipe, trial)| RecipeUse {
        recipe,
        value: rounded(trial.value),
        uses: tidied(trial.uses),
        needs: tidied(trial.needs),
    });
    uses.collect()
}

struct Trial<'k> {
    kitchen: &'k Kitchen,
    stating: &'k Stating,
    in_hand: Vec<InHand>,
    value: f64,
    uses: Vec<FoodAmount>,
    needs: Vec<FoodAmount>,
    /// Of the recipe and its components so far.
    makings: usize,
}

fn tidied(part: FoodAmount) -> FoodAmount {
    FoodAmount { amount: part.amount.map(|amount| Quantity::of(&amount.dimension(), tidy(amount.base()))), ..part }
}

impl Trial<'_> {
    fn make(&mut self, recipe: &Recipe, batches: &Number) {
        let kitchen = self.kitchen;
        self.makings += 1;
        if self.makings > MOST_MAKINGS {
            return;
        }
        for line in &recipe.ingredients {
            match &line.wanted {
                Wanted::Food { food, .. } if kitchen.rules.always.contains(food) || kitchen.rules.ask.contains(food) => {}
                Wanted::Food { food, item: Some(item) } => self.take(*food, &item.scaled(batches)),
                Wanted::Food { food, item: None } => add(&mut self.needs, *food, None),
                Wanted::Recipe { recipe, most, .. } => {
                    let part = &kitchen.recipes[*recipe];
                    if let Some(amount) = in_makes(part, most) {
                        self.make(part, Batches::to_yield(part, &kitchen.foods, &(amount * batches)).number());
                    }
                }
            }
        }
    }

    /// Takes what is in hand for one line; the rest is needed.
    fn take(&mut self, food: FoodId, item: &Item) {
        let facts = &self.kitchen.foods[food];
        let spoons = self.kitchen.rules.spoons;
        let mut missing = 1.0;
        for lot in self.in_hand.iter_mut().filter(|lot| lot.food == food && lot.left > 0.0) {
            let Ok(whole) = as_purchased(facts, item, &lot.dimension, spoons) else { continue };
            let taken = (whole.base() * missing).min(lot.left);
            if taken <= 0.0 {
                continue;
            }
            lot.left -= taken;
            missing -= taken / whole.base();
            self.value += taken * lot.rate;
            add(&mut self.uses, food, Some(Quantity::of(&lot.dimension, taken)));
            if missing <= TOLERANCE {
                return;
            }
        }
        let rest = item.scaled(missing);
        let stated = as_purchased(facts, &rest, &self.stating.of(self.kitchen, food, &[&rest], &[]), spoons);
        add(&mut self.needs, food, stated.ok().or_else(|| own_dimension(facts, &rest, spoons)));
    }
}

/// Adds up what is of one food and dimension.
fn add(parts: &mut Vec<FoodAmount>, food: FoodId, amount: Option<Quantity>) {
    let dimension = |amount: &Option<Quantity>| amount.as_ref().map(Quantity::dimension);
    match parts.iter_mut().find(|part| part.food == food && dimension(&part.amount) == dimension(&amount)) {
        Some(there) => there.amount = there.amount.as_ref().zip(amount.as_ref()).and_then(|(a, b)| a.plus(b)),
        None => parts.push(FoodAmount { food, amount }),
    }
}
