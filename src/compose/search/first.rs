//! Whole weeks to begin with: laid meal by meal from a few recipes, going back where a meal finds nothing, so that what is scarce, dishes
//! that may be cooked and times that one may come again, is not used up before the last meal. Nothing is priced here.

use std::collections::BTreeSet;

use super::super::at_once::in_two;
use super::super::guess::Guess;
use super::super::rules;
use super::super::table::Table;
use super::super::wish::Wish;
use super::shake::throw;
use super::{Chosen, Search};
use crate::kitchen::{Kitchen, Made, RecipeId, Ware};

/// So many weeks are laid.
const WEEKS: usize = 24;

/// So many fillings are tried for a week before it is given up.
const STEPS: usize = 3_000;

/// To rank so many fillings takes about as long as to try one.
const RANKED_A_STEP: usize = 500;

/// So many fillings of one meal are followed before the meal before it is given another.
const PATIENCE: usize = 3;

/// Of each recipe, what sessions cook for it: itself and what goes into it, but for what lies on the shelf or is made at the meal.
pub(super) struct Cooking {
    of: Vec<BTreeSet<RecipeId>>,
    /// For the written meals.
    written: BTreeSet<RecipeId>,
}

impl Cooking {
    pub(super) fn of(table: &Table) -> Cooking {
        let kitchen = table.kitchen();
        let day = table.trials.first_day();
        let on_shelf = |recipe: RecipeId| table.trials.is_on_the_shelf(Ware::Recipe(recipe), day);
        let of = |recipe| {
            let mut cooked = BTreeSet::new();
            add_cooked(kitchen, RecipeId(recipe), &on_shelf, &mut cooked);
            cooked
        };
        let written = table.trials.run(&[]).map(|tried| rules::cooked(&tried)).unwrap_or_default();
        Cooking { of: (0..kitchen.recipes.len()).map(of).collect(), written }
    }

    pub(super) fn all(&self, eaten: impl IntoIterator<Item = RecipeId>) -> BTreeSet<RecipeId> {
        let mut all = self.written.clone();
        eaten.into_iter().for_each(|recipe| all.extend(&self.of[recipe.0]));
        all
    }

    /// Would more than these have to be cooked for it?
    pub(super) fn is_new(&self, recipe: RecipeId, cooked: &BTreeSet<RecipeId>) -> bool {
        !self.of[recipe.0].is_subset(cooked)
    }
}

fn add_cooked(kitchen: &Kitchen, recipe: RecipeId, on_shelf: &impl Fn(RecipeId) -> bool, cooked: &mut BTreeSet<RecipeId>) {
    if on_shelf(recipe) || cooked.contains(&recipe) {
        return;
    }
    let known = &kitchen.recipes[recipe];
    if known.made != Made::AtTheMeal {
        cooked.insert(recipe);
    }
    for line in &known.ingredients {
        if let Ware::Recipe(part) = line.ware() {
            add_cooked(kitchen, part, on_shelf, cooked);
        }
    }
}

impl Search<'_, '_, '_> {
    /// Weeks that the guess holds for cheap, each from other recipes, bettered a meal at a time.
    pub(super) fn laid(&mut self, guess: &Guess, dice: &mut u64) -> Vec<Chosen> {
        // With little effort, half of it.
        let weeks = (self.left / (2 * self.guessed())).clamp(1, WEEKS);
        let banned: Vec<BTreeSet<RecipeId>> =
            (0..weeks).map(|number| if number == 0 { BTreeSet::new() } else { self.drawn(dice) }).collect();
        let laid = in_two(&banned, |banned| {
            let mut week: Chosen = vec![None; self.options.len()];
            let mut steps = STEPS;
            self.lay(&mut week, 0, guess, banned, &mut steps).then(|| {
                // What it may not hold is drawn, not wished: better is what the guess holds for cheaper.
                let week = self.refilled(week, guess, banned);
                (guess.cost(&week), week)
            })
        });
        self.left = self.left.saturating_sub(weeks * self.guessed());
        let mut found: Vec<(f64, Chosen)> = laid.into_iter().flatten().collect();
        found.sort_by(|one, other| one.0.total_cmp(&other.0).then_with(|| one.1.cmp(&other.1)));
        found.dedup_by(|one, other| one.1 == other.1);
        found.into_iter().map(|(_, week)| week).collect()
    }

    /// The recipes that a week does without: half of them, and at least so many that no more are left than may be cooked.
    fn drawn(&self, dice: &mut u64) -> BTreeSet<RecipeId> {
        let mut left: Vec<RecipeId> = (0..self.table.kitchen().recipes.len()).map(RecipeId).collect();
        let keep = (left.len() / 2).min(self.most_cooked().max(1));
        let mut banned = BTreeSet::new();
        while left.len() > keep {
            banned.insert(left.swap_remove(throw(dice, left.len())));
        }
        banned
    }

    /// Fills the meals from `gap` on, the cheapest by the guess first; false where that cannot be, or takes too long to know.
    fn lay(&self, week: &mut Chosen, gap: usize, guess: &Guess, banned: &BTreeSet<RecipeId>, steps: &mut usize) -> bool {
        if gap == week.len() {
            return true;
        }
        let mut tried = 0;
        *steps = steps.saturating_sub(self.options[gap].len() / RANKED_A_STEP);
        for option in guess.ranked(&self.options[gap], week, gap, banned) {
            if *steps == 0 || tried == PATIENCE {
                return false;
            }
            *steps -= 1;
            week[gap] = option;
            if self.fits(week, guess) {
                tried += 1;
                if self.lay(week, gap + 1, guess, banned, steps) {
                    return true;
                }
            }
            week[gap] = None;
        }
        false
    }

    /// Do the meals go together, with no more to cook than may be?
    pub(super) fn fits(&self, week: &Chosen, guess: &Guess) -> bool {
        self.cooking.all(guess.recipes(week)).len() <= self.most_cooked() && self.table.go_together(week)
    }

    pub(super) fn most_cooked(&self) -> usize {
        if self.table.is_loose(&Wish::RecipesAtMost) { usize::MAX } else { self.table.wishes.recipes_at_most as usize }
    }
}
