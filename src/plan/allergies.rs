//! What an eater must not, or would rather not, be served: looked for in everything on their plate, through components to any depth.
//!
//! Allergic and contained is a mistake that stops the run. What is not known is a warning, never silence.

use std::collections::{BTreeMap, BTreeSet};

use super::aside::{exchanges_inside_dishes, guard_portions};
use super::children::{guard_children, needs_of_the_young};
use super::guarded::Guarded;
use super::making::Making;
use super::meets::{Meets, may_hold, meets};
use super::only_named::{Wary, WordsOf};
use super::plate::{Found, Plate, plates};
use super::servings::{goes_into, lines_within};
use super::uses::meal_name;
use crate::foods::animals::{may_hold_animals, may_hold_flesh};
use crate::foods::{Food, FoodId, Foods, Kind};
use crate::kitchen::{Kitchen, Mistake, Recipe, RecipeId, Shunned, Ware, Warning, Week, Who};

/// A dish of a session holds what somebody is allergic to, while that eater's own food is made beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CrossContact {
    pub eater: String,
    /// The words of `allergic` that are met.
    pub words: Vec<String>,
    /// What the eater is served.
    pub theirs: Vec<RecipeId>,
    /// What holds it.
    pub others: Vec<RecipeId>,
    /// The foods that bear it, in these.
    pub foods: Vec<FoodId>,
    /// Can what the eater is served be made before it? Whoever has planned the session knows better.
    pub first: bool,
}

/// Whose food could be touched by what they are allergic to, where these dishes are made in one session.
pub fn cross_contacts(kitchen: &Kitchen, week: &Week, makings: &[&Making]) -> Vec<CrossContact> {
    let mut made: Vec<RecipeId> = Vec::new();
    makings.iter().for_each(|making| {
        if !made.contains(&making.recipe) {
            made.push(making.recipe)
        }
    });
    let mut all = cross_contacts_of(kitchen, week, &made);
    // What everybody gets without it brings none of it into the kitchen.
    for contact in &mut all {
        let foods = &contact.foods;
        let goes_in = |making: &&&Making| {
            let within = |food: &&FoodId| goes_into(&kitchen.recipes, making.recipe, Ware::Food(**food));
            foods.iter().filter(within).any(|food| !making.is_without(Ware::Food(*food)))
        };
        let bring: Vec<RecipeId> = makings.iter().filter(goes_in).map(|making| making.recipe).collect();
        contact.others.retain(|dish| bring.contains(dish));
    }
    all.retain(|contact| !contact.others.is_empty());
    all
}

fn cross_contacts_of(kitchen: &Kitchen, week: &Week, made: &[RecipeId]) -> Vec<CrossContact> {
    let mut all: Vec<CrossContact> = Vec::new();
    for plate in week.meals.iter().flat_map(|meal| plates(kitchen, meal)).filter(|plate| !plate.allergic.is_empty()) {
        let eaten: BTreeSet<RecipeId> = plate.foods(kitchen).into_iter().flat_map(|found| found.dishes).collect();
        let theirs: Vec<RecipeId> = made.iter().copied().filter(|dish| eaten.contains(dish)).collect();
        if theirs.is_empty() {
            continue;
        }
        let met = |shunned: &Shunned, dish: &RecipeId| holds(&kitchen.foods, &kitchen.recipes, *dish, shunned);
        let words: Vec<&&Shunned> = plate.allergic.iter().filter(|shunned| made.iter().any(|dish| met(shunned, dish))).collect();
        let others: Vec<RecipeId> = made.iter().copied().filter(|dish| words.iter().any(|shunned| met(shunned, dish))).collect();
        if others.is_empty() {
            continue;
        }
        let mut foods: Vec<FoodId> = Vec::new();
        others.iter().for_each(|dish| add_bearers(kitchen, *dish, &words, &mut foods));
        let words = words.into_iter().map(|shunned| shunned.word.clone()).collect();
        match all.iter_mut().find(|known| known.eater == plate.name) {
            Some(known) => known.theirs.extend(theirs.into_iter().filter(|dish| !known.theirs.contains(dish)).collect::<Vec<_>>()),
            None => all.push(CrossContact { eater: plate.name.to_owned(), words, theirs, others, foods, first: true }),
        }
    }
    all
}

/// Adds the foods of a dish, at any depth, that for certain bear one of these.
fn add_bearers(kitchen: &Kitchen, dish: RecipeId, shunned: &[&&Shunned], foods: &mut Vec<FoodId>) {
    for line in &kitchen.recipes[dish].ingredients {
        match line.ware() {
            Ware::Recipe(part) => add_bearers(kitchen, part, shunned, foods),
            Ware::Food(food) => {
                let bears = shunned.iter().any(|one| matches!(meets(&kitchen.foods, one, food), Meets::Is(_)));
                if bears && !foods.contains(&food) {
                    foods.push(food);
                }
            }
        }
    }
}

/// Is it, for certain, in the dish, at any depth?
fn holds(foods: &Foods, recipes: &[Recipe], dish: RecipeId, shunned: &Shunned) -> bool {
    lines_within(recipes, dish).any(|line| match line.ware() {
        Ware::Food(food) => matches!(meets(foods, shunned, food), Meets::Is(_)),
        Ware::Recipe(_) => false,
    })
}

/// Asks every meal of the week for every one of its eaters.
pub fn guard(kitchen: &Kitchen, week: &Week) -> Guarded {
    let mut guarded = Guarded::default();
    let mut words = BTreeMap::new();
    for meal in &week.meals {
        for plate in plates(kitchen, meal) {
            plate.guard(kitchen, &mut guarded);
            plate.guard_words(kitchen, &mut words, &mut guarded);
        }
    }
    guard_children(kitchen, week, &mut guarded);
    guard_portions(kitchen, week, &mut guarded);
    guarded.warnings.extend(exchanges_inside_dishes(kitchen, week));
    guarded.warnings.extend(needs_of_the_young(&kitchen.household, week));
    guarded.mistakes.sort();
    guarded.mistakes.dedup();
    let mut said = BTreeSet::new();
    guarded.warnings.retain(|warning| said.insert(warning.clone()));
    guarded
}

impl<'k> Plate<'k> {
    fn guard(&self, kitchen: &'k Kitchen, guarded: &mut Guarded) {
        for found in self.foods(kitchen) {
            let food = &kitchen.foods[found.food];
            let chain = self.chain(kitchen, &found);
            let warn = |text: String| Warning::Note { at: Some(found.at.clone()), text };
            let name = self.name;
            let mut unknown: Vec<&str> = Vec::new();
            for shunned in &self.allergic {
                let word = &shunned.word;
                let doubt = match meets(&kitchen.foods, shunned, found.food) {
                    Meets::Is(what) => {
                        guarded.mistakes.push(self.refused(&kitchen.foods, &found, format!("{chain}: {what}")));
                        continue;
                    }
                    Meets::MayBe(group) => format!("{chain}: {group}, which may be {word}. {name} is allergic to it: read the packet."),
                    Meets::MayHold | Meets::MadeOfKind => {
                        format!("{chain}: may contain {word}. {name} is allergic to it: read the packet.")
                    }
                    Meets::Near(both) => {
                        format!("{chain}: akin to {word}, for both are of {both}. {name} is allergic to {word}: ask before it is served.")
                    }
                    Meets::NotKnown => {
                        unknown.extend(Some(word.as_str()).filter(|word| !unknown.contains(word)));
                        continue;
                    }
                    Meets::Nothing => continue,
                };
                guarded.doubt(&kitchen.foods, &kitchen.recipes, self, &found, &[word], doubt);
            }
            if !unknown.is_empty() {
                let words = unknown.join(", ");
                guarded.doubt(
                    &kitchen.foods,
                    &kitchen.recipes,
                    self,
                    &found,
                    &unknown,
                    format!("{chain}: not known for {} whether it has {words}: read the packet.", self.name),
                );
            }
            for shunned in &self.avoid {
                let word = &shunned.word;
                match meets(&kitchen.foods, shunned, found.food) {
                    Meets::Is(what) => guarded.warnings.push(warn(format!("{chain}: {what}, which {name} avoids."))),
                    Meets::MayBe(group) => {
                        guarded.warnings.push(warn(format!("{chain}: {group}, which may be {word}; {name} avoids it.")));
                    }
                    Meets::NotKnown if shunned.allergen.is_some() => {
                        guarded.warnings.push(warn(format!("{chain}: not known whether it has {word}, which {name} avoids.")));
                    }
                    Meets::MayHold | Meets::NotKnown if may_hold(&kitchen.foods, shunned, found.food) => {
                        guarded.warnings.push(warn(format!("{chain}: may contain {word}, which {name} avoids: read the packet.")));
                    }
                    Meets::MayHold | Meets::MadeOfKind | Meets::Near(_) | Meets::NotKnown | Meets::Nothing => {}
                }
            }
            guarded.warnings.extend(self.not_eaten(food).map(|why| warn(format!("{chain}: {why}."))));
        }
    }

    /// What stands only in the words of the dishes that are served, and beside the lines of the meal.
    fn guard_words(&self, kitchen: &'k Kitchen, words: &mut BTreeMap<RecipeId, WordsOf>, guarded: &mut Guarded) {
        let household = &kitchen.household;
        let eats_all = self.eater.is_none_or(|eater| eater.not_eaten.word.is_empty());
        if self.allergic.is_empty() && self.avoid.is_empty() && eats_all && !household.avoids_something() {
            return;
        }
        let not_eaten = self.eater.map(|eater| &eater.not_eaten).filter(|not| !not.word.is_empty());
        let wary = Wary { name: self.name, allergic: &self.allergic, avoid: &self.avoid, not_eaten };
        let on_plate = self.foods(kitchen);
        let mut seen = BTreeSet::new();
        for found in &on_plate {
            for (place, dish) in found.dishes.iter().enumerate().filter(|(_, dish)| seen.insert(**dish)) {
                let of_dish = words.entry(*dish).or_insert_with(|| WordsOf::recipe(kitchen, *dish));
                guarded.told_of_words(&found.dishes[..=place], of_dish.told(&kitchen.foods, household, &wary));
            }
        }
        let holds: Vec<FoodId> = on_plate.iter().map(|found| found.food).collect();
        for line in &self.lines {
            let of_line = WordsOf::line(&kitchen.foods, line, &holds, meal_name(self.meal));
            guarded.told_of_words(&[], of_line.told(&kitchen.foods, household, &wary));
        }
        let of_meal = WordsOf::meal(kitchen, self.meal);
        guarded.told_of_words(&[], of_meal.told(&kitchen.foods, household, &wary));
    }

    /// What an eater's `eats` says of a food.
    fn not_eaten(&self, food: &Food) -> Option<String> {
        let eater = self.eater?;
        let not = &eater.not_eaten;
        if not.word.is_empty() {
            return None;
        }
        if not.has(food) {
            return Some(match not.word.as_str() {
                "animal" => format!("{} eats nothing of animals", eater.name),
                word => format!("{} eats no {word}", eater.name),
            });
        }
        let (what, may_hold) = match not.word.as_str() {
            "animal" => ("anything of animals", may_hold_animals(food)),
            "meat" => ("meat or fish", may_hold_flesh(food)),
            // Of mixed food nobody sees what is in it.
            word => (word, food.unknown || food.kind.is_none() || matches!(food.kind, Some(Kind::ReadyToEat | Kind::Stock))),
        };
        may_hold.then(|| format!("not known whether there is {what} in it, which {} does not eat", eater.name))
    }

    fn refused(&self, foods: &Foods, found: &Found<'_>, cause: String) -> Mistake {
        let name = self.name;
        let named = self.diner.is_some_and(|diner| diner.who != Who::Anybody && diner.name != "guests");
        let remedy = if named {
            let key = toml_key(name);
            let ware = &foods[found.food].name;
            format!(
                "{name} is allergic to it. Give {name} something else, with instead = {{ {key} = [\"…\"] }} in the meal, \
                 or leave it out, with without = {{ {key} = [\"{ware}\"] }}."
            )
        } else {
            match self.diner {
                Some(_) => {
                    "It is not to be served here. Take it out of the meal, or name the guests, guests = [{ name = \"…\" }], and give \
                            them something else with instead."
                        .to_owned()
                }
                None => {
                    "It is not to be served to anybody here. Take it out of the meal, or name who eats with for and instead; who is named \
                         has an [[eater]] in kitchen.toml."
                        .to_owned()
                }
            }
        };
        Mistake { at: found.at.clone(), cause, remedy }
    }
}

/// A name as a key of TOML: in quotes where it has a letter that a bare key may not have.
fn toml_key(name: &str) -> String {
    let bare = !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || "-_".contains(c));
    if bare { name.to_owned() } else { format!("\"{name}\"") }
}
