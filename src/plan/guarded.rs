//! What a week's meals run into, as plain data: what is refused, what is warned of, and what is not known.

use super::plate::{Found, Plate};
use super::uses::meal_name;
use crate::foods::{FoodId, Foods};
use crate::kitchen::{Mistake, Recipe, RecipeId, Warning};

/// What a week's meals run into, each once.
#[derive(Debug, Clone, Default)]
pub struct Guarded {
    pub mistakes: Vec<Mistake>,
    pub warnings: Vec<Warning>,
    /// Of the warnings, those for small children.
    pub cautions: Vec<ForAChild>,
    /// Of those, what a small child may choke on: who, the food, and what is to be done.
    pub choking: Vec<(String, FoodId, &'static str)>,
    /// Of the warnings, what is not known for an allergic eater, with the dishes it lies in.
    pub unknown: Vec<(Vec<RecipeId>, Warning)>,
}

/// What a small child should not have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ForAChild {
    /// The dish it is about, if any.
    pub dish: Option<RecipeId>,
    /// As the warning says it.
    pub text: String,
    /// Told in brief as well, among what a child may choke on.
    pub choking: bool,
}

impl Guarded {
    /// Takes in what only words name, of a dish that lies in these.
    pub(super) fn told_of_words(&mut self, dishes: &[RecipeId], told: Vec<Warning>) {
        let doubts = told.iter().filter(|warning| matches!(warning, Warning::OnlyNamed { .. }));
        self.unknown.extend(doubts.map(|doubt| (dishes.to_vec(), doubt.clone())));
        self.warnings.extend(told);
    }

    pub(super) fn doubt(&mut self, foods: &Foods, recipes: &[Recipe], plate: &Plate<'_>, found: &Found<'_>, words: &[&str], text: String) {
        let dish = found.dishes.first().map_or_else(|| meal_name(plate.meal), |dish| recipes[*dish].name.clone());
        let words = words.iter().map(|word| (*word).to_owned()).collect();
        let food = foods[found.food].name.clone();
        let warning = Warning::NotKnown { at: found.at.clone(), text, eater: plate.name.to_owned(), words, food, dish };
        self.unknown.push((found.dishes.clone(), warning.clone()));
        self.warnings.push(warning);
    }
}
