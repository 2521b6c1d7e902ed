//! Meals and listed foods that contain, or may contain, what the household avoids.

use std::collections::BTreeSet;
use std::fmt;

use itertools::Itertools;

use super::meets::{Meets, may_hold, meets};
use super::servings::{lines_within, served_lines};
use super::uses::meal_name;
use crate::foods::{Allergen, FoodId, Foods};
use crate::kitchen::{Household, Ingredient, Kitchen, Meal, RecipeId, Shunned, Wanted, Ware, Warning, Week};

/// What a dish is known to contain, and whether any of its foods' allergens are not known.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Contains {
    pub allergens: BTreeSet<Allergen>,
    /// Foods whose allergens are not known, by name.
    pub unknown: BTreeSet<String>,
    /// Foods and kinds of food that the household avoids, in its own words.
    pub avoided: BTreeSet<String>,
    /// Of these, what some of its foods usually or with some makers hold, each with the food.
    pub may_hold: BTreeSet<(String, String)>,
}

impl Contains {
    fn take_in(&mut self, part: Contains) {
        self.allergens.extend(part.allergens);
        self.unknown.extend(part.unknown);
        self.avoided.extend(part.avoided);
        self.may_hold.extend(part.may_hold);
    }

    /// "milk, egg; not known: vegetable stock"; nothing where it is known to contain none of the substances of Annex II.
    pub fn words(&self) -> Option<String> {
        let known = self.allergens.iter().map(|one| one.name()).collect::<Vec<_>>().join(", ");
        let unknown = self.unknown.iter().map(String::as_str).collect::<Vec<_>>().join(", ");
        match (known.is_empty(), unknown.is_empty()) {
            (true, true) => None,
            (false, true) => Some(known),
            (true, false) => Some(format!("not known: {unknown}")),
            (false, false) => Some(format!("{known}; not known: {unknown}")),
        }
    }

    /// What it holds, or may hold, of what a household avoids.
    pub fn beware(&self, avoid: &[Allergen]) -> Option<Beware> {
        let met: Vec<Allergen> = avoid.iter().filter(|one| self.allergens.contains(one)).copied().collect();
        if !self.avoided.is_empty() {
            let names = met.iter().map(|one| one.name().to_owned());
            return Some(Beware::Holds(names.chain(self.avoided.iter().cloned()).collect()));
        }
        if !met.is_empty() {
            return Some(Beware::Contains(met));
        }
        let doubtful = !avoid.is_empty() && !self.unknown.is_empty();
        doubtful.then(|| Beware::MayContain { avoided: avoid.to_vec(), unknown: self.unknown.clone() })
    }
}

/// What of a food, a dish or a meal the household avoids.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Beware {
    Contains(Vec<Allergen>),
    /// Allergens, foods and kinds of food, in the household's words.
    Holds(Vec<String>),
    /// The foods of which nobody knows are named.
    MayContain {
        avoided: Vec<Allergen>,
        unknown: BTreeSet<String>,
    },
}

/// As a sentence goes on: "contains sesame", "may contain sesame: the allergens of oatcake are not known".
impl fmt::Display for Beware {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let names = |list: &[Allergen]| list.iter().map(|one| one.name()).join(", ");
        match self {
            Beware::Contains(met) => write!(f, "contains {}", names(met)),
            Beware::Holds(met) => write!(f, "contains {}", met.join(", ")),
            Beware::MayContain { avoided, unknown } => {
                write!(f, "may contain {}: the allergens of {} are not known", names(avoided), unknown.iter().join(", "))
            }
        }
    }
}

/// The union over all foods of a recipe and of its components.
pub fn recipe_contains(kitchen: &Kitchen, recipe: RecipeId) -> Contains {
    let mut contains = Contains::default();
    for line in lines_within(&kitchen.recipes, recipe) {
        if let Wanted::Food { food, .. } = line.wanted {
            add_food(&kitchen.foods, &kitchen.household, food, &mut contains);
        }
    }
    contains
}

/// As [`recipe_contains`], of a portion that lacks some of what goes into the rest.
pub fn recipe_contains_without(kitchen: &Kitchen, recipe: RecipeId, without: &[Ware]) -> Contains {
    let mut contains = Contains::default();
    for line in kitchen.recipes[recipe].ingredients.iter().filter(|line| !without.contains(&line.ware())) {
        match line.ware() {
            Ware::Recipe(part) => contains.take_in(recipe_contains_without(kitchen, part, without)),
            Ware::Food(food) => add_food(&kitchen.foods, &kitchen.household, food, &mut contains),
        }
    }
    contains
}

/// The union over all that is served at a meal.
pub fn meal_contains(kitchen: &Kitchen, meal: &Meal) -> Contains {
    let mut contains = Contains::default();
    served_lines(meal).for_each(|(line, _)| add_line(kitchen, line, &mut contains));
    contains
}

/// What one food contains.
pub fn food_contains(foods: &Foods, household: &Household, food: FoodId) -> Contains {
    let mut contains = Contains::default();
    add_food(foods, household, food, &mut contains);
    contains
}

fn add_line(kitchen: &Kitchen, line: &Ingredient, contains: &mut Contains) {
    match &line.wanted {
        Wanted::Food { food, .. } => add_food(&kitchen.foods, &kitchen.household, *food, contains),
        Wanted::Recipe { recipe, .. } => {
            contains.take_in(recipe_contains(kitchen, *recipe));
        }
    }
}

fn add_food(foods: &Foods, household: &Household, food: FoodId, contains: &mut Contains) {
    let is = |one: &&Shunned| matches!(meets(foods, one, food), Meets::Is(_));
    contains.avoided.extend(household.avoid_foods.iter().filter(is).map(|one| one.word.clone()));
    // "Mixed nuts" may be walnuts.
    let may_hold = |one: &&Shunned| may_hold(foods, one, food) || matches!(meets(foods, one, food), Meets::MayBe(_));
    contains.may_hold.extend(household.avoid_foods.iter().filter(may_hold).map(|one| (one.word.clone(), foods[food].name.clone())));
    match &foods[food].allergens {
        Some(known) => contains.allergens.extend(known.value.iter().copied()),
        None => {
            contains.unknown.insert(foods[food].name.clone());
            contains.allergens.extend(foods[food].contains.iter().flat_map(|certain| certain.value.iter().copied()));
        }
    }
}

/// A warning a meal.
pub fn avoided_at_meals(kitchen: &Kitchen, week: &Week) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if !kitchen.household.avoids_something() {
        return warnings;
    }
    for meal in &week.meals {
        let contains = meal_contains(kitchen, meal);
        let what = match &meal.name {
            Some(_) => format!("{} ({})", meal_name(meal), meal.label),
            None => meal.label.clone(),
        };
        warnings.extend(avoided(&kitchen.household, &contains, &what, &meal.at));
    }
    warnings
}

/// Warnings where `contains` meets what the household avoids: what it has, what it may hold, and what nobody knows of it.
pub fn avoided(household: &Household, contains: &Contains, what: &str, at: &crate::kitchen::Spot) -> Vec<Warning> {
    let avoid = &household.avoid;
    let allergens = avoid.iter().filter(|one| contains.allergens.contains(one)).map(|one| one.name().to_owned());
    let met: Vec<String> = allergens.chain(contains.avoided.iter().cloned()).collect();
    let doubtful = contains.unknown.iter().map(String::as_str).collect::<Vec<_>>().join(", ");
    let mut warnings = Vec::new();
    let may_hold: Vec<&(String, String)> = contains.may_hold.iter().filter(|(word, _)| !met.contains(word)).collect();
    let has_met = !met.is_empty();
    if has_met {
        warnings.push(Warning::Avoided { at: at.clone(), food: what.to_owned(), allergens: met, unknown: None });
    }
    if !may_hold.is_empty() {
        let words = may_hold.iter().map(|(word, _)| word).unique().join(", ");
        let foods = may_hold.iter().map(|(_, food)| food).unique().join(", ");
        let text = if what == foods {
            format!("{what} may contain {words}, which this household avoids: read the packet.")
        } else {
            format!("{what} may contain {words}, which this household avoids: read the packet of {foods}.")
        };
        warnings.push(Warning::Note { at: Some(at.clone()), text });
    }
    let open = avoid.iter().filter(|one| !contains.allergens.contains(one)).map(|one| one.name().to_owned()).collect::<Vec<_>>();
    // What is known to be in it is enough to leave it, or to exchange it.
    if !open.is_empty() && !doubtful.is_empty() && !has_met {
        warnings.push(Warning::Avoided { at: at.clone(), food: what.to_owned(), allergens: open, unknown: Some(doubtful) });
    }
    warnings
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn what_is_avoided_is_told_as_contained_or_as_possible() {
        let avoid = [Allergen::Sesame, Allergen::Nuts];
        let holds = |allergens: &[Allergen], unknown: &[&str]| {
            let unknown = unknown.iter().map(|name| (*name).to_owned()).collect();
            Contains { allergens: allergens.iter().copied().collect(), unknown, ..Contains::default() }
        };
        let milk = holds(&[Allergen::Milk], &[]);
        assert_eq!(milk.beware(&avoid), None);
        assert_eq!(
            holds(&[Allergen::Milk, Allergen::Nuts], &["oatcake"]).beware(&avoid).map(|one| one.to_string()).as_deref(),
            Some("contains nuts")
        );
        let doubtful = holds(&[], &["oatcake", "pesto"]);
        let told = doubtful.beware(&avoid).map(|one| one.to_string());
        assert_eq!(told.as_deref(), Some("may contain sesame, nuts: the allergens of oatcake, pesto are not known"));
        assert_eq!(doubtful.beware(&[]), None);
    }
}
