//! Who cannot, or would rather not, be served what a meal holds: as plain data, for whoever chooses what to serve.

use super::children::never_for;
use super::food_contains;
use super::meets::{Meets, bears, meets};
use super::plate::{EVERYBODY, plates};
use super::servings::lines_within;
use crate::foods::{FoodId, Foods};
use crate::kitchen::{Household, Kitchen, Meal, RecipeId, Shunned, Ware};

/// Why somebody is not served a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unfit {
    /// An allergy of this eater, of a guest or of the household.
    Allergic,
    /// `avoid` of an eater, a guest or the household.
    Avoided,
    /// `eats`.
    NotEaten,
    /// Never for so small a child.
    ForAChild,
}

/// Who is not served a meal, and for what in it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct NotFor {
    pub why: Unfit,
    /// The eater's name, or "everybody".
    pub who: String,
    /// As the household wrote it.
    pub word: String,
    pub food: FoodId,
}

/// Everything that speaks against serving the meal to those who sit at it, each once. `but` is never counted as avoided.
pub fn unfit(kitchen: &Kitchen, meal: &Meal, but: &[Ware]) -> Vec<NotFor> {
    let mut all = Vec::new();
    for plate in plates(kitchen, meal) {
        for found in plate.foods(kitchen) {
            let food = &kitchen.foods[found.food];
            let wanted = but.contains(&Ware::Food(found.food)) || found.dishes.iter().any(|dish| but.contains(&Ware::Recipe(*dish)));
            let not_for = |why, who: &str, word| NotFor { why, who: who.to_owned(), word, food: found.food };
            let name = plate.name;
            all.extend(plate.allergic_to(&kitchen.foods, found.food).map(|word| not_for(Unfit::Allergic, name, word)));
            if !wanted {
                all.extend(plate.avoids(&kitchen.foods, found.food).map(|word| not_for(Unfit::Avoided, name, word)));
                let by_all = avoided_by_all(&kitchen.foods, &kitchen.household, found.food);
                all.extend(by_all.map(|word| not_for(Unfit::Avoided, EVERYBODY, word)));
            }
            if let Some(eater) = plate.eater.filter(|_| plate.does_not_eat(food)) {
                all.push(not_for(Unfit::NotEaten, name, eater.not_eaten.word.clone()));
            }
        }
        if let Some(born) = plate.eater.and_then(|eater| eater.born) {
            let never = never_for(kitchen, &plate).into_iter();
            all.extend(never.map(|food| NotFor { why: Unfit::ForAChild, who: plate.name.to_owned(), word: born.to_string(), food }));
        }
    }
    all.sort();
    all.dedup();
    all
}

/// What `use` may name, so that it may be served although it is shunned by that word: what of the food and dishes that fit somewhere is or
/// holds what is avoided. The food itself, where the word is its name.
pub fn avoided_ware(kitchen: &Kitchen, word: &str) -> Option<Ware> {
    let eaters = kitchen.household.named.iter().flat_map(|eater| &eater.avoid);
    let shunned = eaters.chain(&kitchen.household.avoid_foods).find(|shunned| shunned.word == word);
    if let Some(Shunned { allergen: None, kind: None, food: Some(food), .. }) = shunned {
        return Some(Ware::Food(*food));
    }
    let allergen = kitchen.household.avoid.iter().find(|allergen| allergen.name() == word);
    let is_it = |food: FoodId| {
        shunned.is_some_and(|shunned| matches!(meets(&kitchen.foods, shunned, food), Meets::Is(_)))
            || allergen.is_some_and(|allergen| bears(&kitchen.foods[food], *allergen))
    };
    let of_line = |ware: Ware| matches!(ware, Ware::Food(food) if is_it(food));
    let foods = kitchen.together.foods.iter().filter(|food| !food.fits.is_empty()).map(|fitting| fitting.food);
    let recipes = (0..kitchen.recipes.len()).map(RecipeId).filter(|recipe| !kitchen.recipes[*recipe].fits.is_empty());
    let mut recipes = recipes.filter(|recipe| lines_within(&kitchen.recipes, *recipe).any(|line| of_line(line.ware())));
    foods.filter(|food| is_it(*food)).map(Ware::Food).next().or_else(|| recipes.next().map(Ware::Recipe))
}

fn avoided_by_all(foods: &Foods, household: &Household, food: crate::foods::FoodId) -> impl Iterator<Item = String> {
    let contains = food_contains(foods, household, food);
    let allergens = contains.allergens;
    let of_allergens = household.avoid.iter().filter(move |one| allergens.contains(one)).map(|one| one.name().to_owned());
    of_allergens.chain(contains.avoided)
}
