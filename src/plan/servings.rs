//! What each eater is served of each line of a meal. A meal is the sum of its eaters' shares.

use std::collections::BTreeSet;

use super::making::Apart;
use super::pieces::times_taken;
use crate::foods::Foods;
use crate::kitchen::{Diner, Ingredient, Kitchen, Meal, Recipe, RecipeId, Ware};
use crate::measure::Number;

/// One line of a meal, and who is served how much of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Serving<'m> {
    pub line: &'m Ingredient,
    /// How many times the line is served, all together.
    pub times: Number,
    /// Places in [`Meal::diners`], each with how many times; empty where the meal is for a number alone.
    pub to: Vec<(usize, Number)>,
    /// Is it what a single eater gets in place of what the others do?
    pub own: bool,
}

/// Every line that somebody is served, in the order of the meal: `each`, what single eaters get in its place, then `shared`.
pub fn servings(meal: &Meal) -> Vec<Serving<'_>> {
    if meal.diners.is_empty() {
        let eaters = Number::from(meal.eaters);
        let each = meal.each.iter().map(|line| Serving { line, times: eaters.clone(), to: Vec::new(), own: false });
        return each.chain(meal.shared.iter().map(|line| Serving { line, times: Number::ONE, to: Vec::new(), own: false })).collect();
    }
    let total: Number = meal.diners.iter().map(|diner| &diner.share).sum();
    let whole = |diner: &Diner| diner.share.clone();
    let part = |diner: &Diner| &diner.share / &total;
    let mut all = Vec::new();
    for line in &meal.each {
        all.extend(serving(meal, line, |diner| (diner.instead.is_none() && !leaves(diner, line)).then(|| whole(diner))));
    }
    for (place, diner) in meal.diners.iter().enumerate() {
        let own = |line| Serving { line, times: whole(diner), to: vec![(place, whole(diner))], own: true };
        all.extend(diner.instead.iter().flatten().filter(|line| !leaves(diner, line)).map(own));
        all.extend(diner.swapped.iter().filter(|swapped| !swapped.shared).map(|swapped| own(&swapped.line)));
    }
    for line in &meal.shared {
        all.extend(serving(meal, line, |diner| (!leaves(diner, line)).then(|| part(diner))));
    }
    for (place, diner) in meal.diners.iter().enumerate() {
        let shared = diner.swapped.iter().filter(|swapped| swapped.shared);
        all.extend(shared.map(|swapped| Serving { line: &swapped.line, times: part(diner), to: vec![(place, part(diner))], own: true }));
    }
    all
}

fn leaves(diner: &Diner, line: &Ingredient) -> bool {
    diner.without.contains(&line.ware())
}

fn serving<'m>(meal: &'m Meal, line: &'m Ingredient, times: impl Fn(&Diner) -> Option<Number>) -> Option<Serving<'m>> {
    let to: Vec<(usize, Number)> = meal.diners.iter().enumerate().filter_map(|(place, diner)| Some((place, times(diner)?))).collect();
    let times = to.iter().map(|(_, times)| times).sum();
    (!to.is_empty()).then_some(Serving { line, times, to, own: false })
}

/// The lines of a meal with how many times each is served: once a share, or once for the table.
pub fn served_lines(meal: &Meal) -> impl Iterator<Item = (&Ingredient, Number)> {
    servings(meal).into_iter().map(|serving| (serving.line, serving.times))
}

/// The lines of a meal with how many times each is taken, whole ones of what is never cut.
pub fn taken_lines<'m>(foods: &Foods, meal: &'m Meal) -> Vec<(&'m Ingredient, Number)> {
    let served: Vec<(&Ingredient, Number)> = served_lines(meal).collect();
    let taken = times_taken(foods, served.iter().map(|(line, times)| (*line, times.clone())));
    served.into_iter().map(|(line, _)| line).zip(taken).collect()
}

/// Does the food or dish go into this recipe, at any depth?
pub fn goes_into(recipes: &[Recipe], recipe: RecipeId, ware: Ware) -> bool {
    lines_within(recipes, recipe).any(|line| line.ware() == ware)
}

/// Every line of a recipe and of its components at any depth. A component is looked into once, however many ways lead to it.
pub(super) fn lines_within(recipes: &[Recipe], recipe: RecipeId) -> impl Iterator<Item = &Ingredient> {
    let mut dishes = vec![recipe];
    let mut seen = BTreeSet::from([recipe]);
    let mut next = 0;
    while let Some(&dish) = dishes.get(next) {
        next += 1;
        for line in &recipes[dish].ingredients {
            if let Ware::Recipe(part) = line.ware()
                && seen.insert(part)
            {
                dishes.push(part);
            }
        }
    }
    dishes.into_iter().flat_map(|dish| &recipes[dish].ingredients)
}

/// Of a serving of a dish, what is eaten without something that goes into it. `one` is the amount of the line, in the unit of `makes`.
pub(super) fn apart(kitchen: &Kitchen, meal: &Meal, serving: &Serving<'_>, recipe: RecipeId, one: &Number) -> Vec<Apart> {
    let of_diner = |(place, times): &(usize, Number)| {
        let diner = &meal.diners[*place];
        let without: Vec<Ware> = diner.without.iter().copied().filter(|ware| goes_into(&kitchen.recipes, recipe, *ware)).collect();
        (!without.is_empty()).then(|| Apart { who: diner.name.clone(), without, amount: one * times })
    };
    serving.to.iter().filter_map(of_diner).collect()
}
