//! What one eater is served at one meal, food by food, through components to any depth.

use std::collections::BTreeMap;

use super::meets::{Meets, meets};
use super::servings::servings;
use super::uses::meal_name;
use crate::foods::{Food, FoodId, Foods};
use crate::kitchen::{Diner, Eater, Ingredient, Kitchen, Meal, Recipe, RecipeId, Shunned, Spot, Ware, Who};

/// As the plates of a household without named eaters are called.
pub(super) const EVERYBODY: &str = "everybody";

/// What one eater is served at one meal.
pub(super) struct Plate<'k> {
    pub meal: &'k Meal,
    /// "Emil", or "everybody".
    pub name: &'k str,
    pub eater: Option<&'k Eater>,
    pub diner: Option<&'k Diner>,
    pub allergic: Vec<&'k Shunned>,
    pub avoid: Vec<&'k Shunned>,
    pub lines: Vec<&'k Ingredient>,
    without: &'k [Ware],
}

/// Every plate of a meal. Where nobody is named everybody is asked for, each with all that is served.
pub(super) fn plates<'k>(kitchen: &'k Kitchen, meal: &'k Meal) -> Vec<Plate<'k>> {
    let household = &kitchen.household;
    let served = servings(meal);
    let everything: Vec<&Ingredient> = served.iter().map(|serving| serving.line).collect();
    let plate = |name, eater: Option<&'k Eater>, diner: Option<&'k Diner>, lines| {
        let guest = diner.filter(|diner| diner.who == Who::Guest);
        let own = |of_eater: fn(&'k Eater) -> &'k Vec<Shunned>, of_guest: fn(&'k Diner) -> &'k Vec<Shunned>| {
            eater.map(of_eater).into_iter().chain(guest.map(of_guest)).flatten().collect::<Vec<_>>()
        };
        let mut allergic = own(|eater| &eater.allergic, |guest| &guest.allergic);
        allergic.extend(&household.allergic);
        let avoid = own(|eater| &eater.avoid, |guest| &guest.avoid);
        Plate { meal, name, eater, diner, allergic, avoid, lines, without: diner.map_or(&[], |diner| diner.without.as_slice()) }
    };
    let everybody = |lines: &Vec<&'k Ingredient>| {
        let mut all: Vec<Plate<'k>> =
            household.named.iter().map(|eater| plate(eater.name.as_str(), Some(eater), None, lines.clone())).collect();
        if all.is_empty() {
            all.push(plate(EVERYBODY, None, None, lines.clone()));
        }
        all
    };
    if meal.diners.is_empty() {
        return everybody(&everything);
    }
    let mut all = Vec::new();
    for (place, diner) in meal.diners.iter().enumerate() {
        let own = served.iter().filter(|serving| serving.to.iter().any(|(to, _)| *to == place));
        let lines: Vec<&Ingredient> = own.map(|serving| serving.line).collect();
        match diner.who {
            Who::Anybody => all.extend(everybody(&lines)),
            Who::Guest => all.push(plate(&diner.name, None, Some(diner), lines)),
            Who::Eater(eater) => all.push(plate(&diner.name, Some(&household.named[eater]), Some(diner), lines)),
        }
    }
    all
}

/// A food somewhere in what is served, and the way to it.
pub(super) struct Found<'k> {
    pub food: FoodId,
    pub line: &'k Ingredient,
    /// The dishes it lies in, the outermost first.
    pub dishes: Vec<RecipeId>,
    /// Where the line of the meal stands.
    pub at: &'k Spot,
}

/// Dishes can be told to go into one another in more ways than anybody reads.
const MOST_WAYS: usize = 8;

/// The way from a line of the meal down to a food.
struct Way<'k> {
    at: &'k Spot,
    dishes: Vec<RecipeId>,
    /// How many ways have led to a dish so far; those that heat it are counted apart, for what is raw must not be missed.
    ways: BTreeMap<(RecipeId, bool), usize>,
}

/// Does it stand on or in an appliance, or say a temperature?
fn is_heated(recipe: &Recipe) -> bool {
    recipe.steps.iter().any(|step| !step.on.is_empty() || step.temperature.is_some() || step.inside.is_some())
}

impl<'k> Plate<'k> {
    /// Every food on the plate, at any depth, less what this eater gets without. Of the ways to one component, [`MOST_WAYS`] are
    /// followed, and as many that heat it.
    pub fn foods(&self, kitchen: &'k Kitchen) -> Vec<Found<'k>> {
        let mut found = Vec::new();
        for line in &self.lines {
            let mut way = Way { at: &line.at, dishes: Vec::new(), ways: BTreeMap::new() };
            // What the meal serves this eater is served, whatever stands in for it elsewhere: only inside dishes something is left away.
            self.add(kitchen, line, false, &mut way, &mut found);
        }
        found
    }

    fn add(&self, kitchen: &'k Kitchen, line: &'k Ingredient, heated: bool, way: &mut Way<'k>, found: &mut Vec<Found<'k>>) {
        match line.ware() {
            Ware::Food(food) => found.push(Found { food, line, dishes: way.dishes.clone(), at: way.at }),
            Ware::Recipe(dish) => {
                let heated = heated || is_heated(&kitchen.recipes[dish]);
                let ways = way.ways.entry((dish, heated)).or_insert(0);
                *ways += 1;
                if *ways > MOST_WAYS {
                    return;
                }
                way.dishes.push(dish);
                for line in kitchen.recipes[dish].ingredients.iter().filter(|line| !self.without.contains(&line.ware())) {
                    self.add(kitchen, line, heated, way, found);
                }
                way.dishes.pop();
            }
        }
    }

    /// "Tue supper, Emil: Roots, mash and feta > White-bean mash > tahini".
    pub fn chain(&self, kitchen: &Kitchen, found: &Found<'_>) -> String {
        let mut parts: Vec<String> = self.meal.name.iter().map(|_| meal_name(self.meal)).collect();
        parts.extend(found.dishes.iter().map(|dish| kitchen.recipes[*dish].name.clone()));
        parts.push(kitchen.foods[found.food].name.clone());
        format!("{}, {}: {}", self.meal.label, self.name, parts.join(" > "))
    }

    /// The words of allergies that the food meets for certain.
    pub fn allergic_to(&self, foods: &Foods, food: FoodId) -> impl Iterator<Item = String> {
        certain(foods, &self.allergic, food)
    }

    /// The words of `avoid` that the food meets for certain.
    pub fn avoids(&self, foods: &Foods, food: FoodId) -> impl Iterator<Item = String> {
        certain(foods, &self.avoid, food)
    }

    pub fn does_not_eat(&self, food: &Food) -> bool {
        self.eater.is_some_and(|eater| !eater.not_eaten.word.is_empty() && eater.not_eaten.has(food))
    }
}

fn certain(foods: &Foods, words: &[&Shunned], food: FoodId) -> impl Iterator<Item = String> {
    words.iter().filter(move |word| matches!(meets(foods, word, food), Meets::Is(_))).map(|word| word.word.clone())
}
