//! What the week's meals ask of each recipe.

use jiff::civil::DateTime;

use super::making::{Apart, MadeAt, User};
use super::servings::{Serving, apart, servings};
use super::yields::in_makes;
use crate::kitchen::{Kitchen, Meal, Spot, Wanted, Week, Whose};
use crate::measure::{Number, is_nothing_of};

/// A use of a recipe that is still to be served.
#[derive(Debug, Clone, PartialEq)]
pub struct Pending {
    /// The meal's time, or the start of the session that makes the dish.
    pub at: DateTime,
    /// The session it is used in; `None` for a meal.
    pub session: Option<usize>,
    pub by: User,
    /// The meal or session it is for.
    pub made_at: MadeAt,
    /// In the unit of `makes`.
    pub amount: Number,
    pub left: Number,
    /// "Mon supper", or the dish.
    pub label: String,
    /// The meal's own name where it has one, or the dish.
    pub what_for: String,
    /// Of `amount`, what is eaten without something that goes into the dish.
    pub apart: Vec<Apart>,
    /// Of `amount`, what is a single eater's: in place of what the others get, or without something.
    pub own: Vec<Apart>,
    pub spot: Spot,
}

impl Pending {
    /// Takes off what was served; what arithmetic leaves behind is nothing.
    pub(super) fn serve(&mut self, amount: &Number) {
        self.left -= amount;
        if is_nothing_of(&self.left, &self.amount) {
            self.left = Number::ZERO;
        }
    }

    /// Takes off what a single eater was served of their own.
    pub(super) fn lessen_own(&mut self, own: &Apart, served: &Number) {
        for parts in [&mut self.own, &mut self.apart] {
            if let Some(part) = parts.iter_mut().find(|part| *part == own) {
                part.amount -= served;
            }
            parts.retain(|part| part.amount.is_positive() && !is_nothing_of(&part.amount, &own.amount));
        }
    }

    /// Whose the whole of what is left is, where it is what one eater gets without something.
    pub(super) fn only_apart(&self) -> Option<Whose> {
        let [apart] = self.apart.as_slice() else { return None };
        let whose = Whose { eater: apart.who.clone(), without: apart.without.clone() };
        self.left_as_it_is().is_zero().then_some(whose)
    }

    /// What is left for those who eat the dish as it is.
    pub fn left_as_it_is(&self) -> Number {
        let apart: Number = self.apart.iter().map(|apart| &apart.amount).sum();
        if apart < self.left { &self.left - &apart } else { Number::ZERO }
    }
}

/// The uses of every recipe by meals: for each recipe, one a meal.
pub fn direct_uses(kitchen: &Kitchen, week: &Week) -> Vec<Vec<Pending>> {
    let mut uses: Vec<Vec<Pending>> = vec![Vec::new(); kitchen.recipes.len()];
    for (index, meal) in week.meals.iter().enumerate() {
        for serving in servings(meal) {
            let line = serving.line;
            let Wanted::Recipe { recipe, most, .. } = &line.wanted else { continue };
            let Some(one) = in_makes(&kitchen.recipes[*recipe], most) else { continue };
            let apart = apart(kitchen, meal, &serving, *recipe, &one);
            let amount = one * &serving.times;
            let own = own(meal, &serving, &apart, &amount);
            let of_recipe = &mut uses[recipe.0];
            match of_recipe.last_mut().filter(|last| last.by == User::Meal(index)) {
                Some(last) => {
                    last.amount += &amount;
                    last.left += amount;
                    last.apart.extend(apart);
                    last.own.extend(own);
                }
                None => of_recipe.push(Pending {
                    at: meal.at_time,
                    session: None,
                    by: User::Meal(index),
                    made_at: MadeAt::Meal(index),
                    amount: amount.clone(),
                    left: amount,
                    label: meal.label.clone(),
                    what_for: meal_name(meal),
                    apart,
                    own,
                    spot: line.at.clone(),
                }),
            }
        }
    }
    uses
}

/// What of a serving is a single eater's.
fn own(meal: &Meal, serving: &Serving<'_>, apart: &[Apart], amount: &Number) -> Vec<Apart> {
    match serving.to.as_slice() {
        [(place, _)] if serving.own => {
            let without = apart.first().map(|apart| apart.without.clone()).unwrap_or_default();
            vec![Apart { who: meal.diners[*place].name.clone(), without, amount: amount.clone() }]
        }
        _ => apart.to_vec(),
    }
}

/// "Barley plates", or "Mon supper" where the meal has no name.
pub fn meal_name(meal: &Meal) -> String {
    meal.name.clone().unwrap_or_else(|| meal.label.clone())
}
