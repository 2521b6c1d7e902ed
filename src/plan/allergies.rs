//! What an eater must not, or would rather not, be served: looked for in everything on their plate, through components to any depth.
//!
//! Allergic and contained is a mistake that stops the run. What is not known is a warning, never silence.

use std::collections::{BTreeMap, BTreeSet};

use super::aside::{exchanges_inside_dishes, guard_portions};
use super::children::{guard_children, needs_of_the_young};
use super::only_named::{EVERYBODY, Wary, WordsOf};
use super::servings::{lines_within, servings};
use super::uses::meal_name;
use crate::foods::animals::{may_hold_animals, may_hold_flesh};
use crate::foods::{Allergen, Fact, Food, FoodId, Foods, Kind, Kinship};
use crate::kitchen::{Diner, Eater, Ingredient, Kitchen, Meal, Mistake, Recipe, RecipeId, Shunned, Spot, Ware, Warning, Week, Who};

/// What a week's meals run into, each once.
#[derive(Debug, Clone, Default)]
pub struct Guarded {
    pub mistakes: Vec<Mistake>,
    pub warnings: Vec<Warning>,
    /// Of the warnings, those for small children, with the dish they are about.
    pub cautions: Vec<(Option<RecipeId>, String)>,
    /// Of those, what a small child may choke on: who, the food, and what is to be done.
    pub choking: Vec<(String, FoodId, &'static str)>,
    /// Of the warnings, what is not known for an allergic eater, with the dishes it lies in.
    pub unknown: Vec<(Vec<RecipeId>, Warning)>,
}

impl Guarded {
    /// Takes in what only words name, of a dish that lies in these.
    fn told_of_words(&mut self, dishes: &[RecipeId], told: Vec<Warning>) {
        let doubts = told.iter().filter(|warning| matches!(warning, Warning::OnlyNamed { .. }));
        self.unknown.extend(doubts.map(|doubt| (dishes.to_vec(), doubt.clone())));
        self.warnings.extend(told);
    }

    fn doubt(&mut self, foods: &Foods, recipes: &[Recipe], plate: &Plate<'_>, found: &Found<'_>, words: &[&str], text: String) {
        let dish = found.dishes.first().map_or_else(|| meal_name(plate.meal), |dish| recipes[*dish].name.clone());
        let words = words.iter().map(|word| (*word).to_owned()).collect();
        let food = foods[found.food].name.clone();
        let warning = Warning::NotKnown { at: found.at.clone(), text, eater: plate.name.to_owned(), words, food, dish };
        self.unknown.push((found.dishes.clone(), warning.clone()));
        self.warnings.push(warning);
    }
}

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
}

/// Whose food could be touched by what they are allergic to, where these dishes are made in one session.
pub fn cross_contacts(kitchen: &Kitchen, week: &Week, made: &[RecipeId]) -> Vec<CrossContact> {
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
            None => all.push(CrossContact { eater: plate.name.to_owned(), words, theirs, others, foods }),
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

/// What one eater is served at one meal.
pub(super) struct Plate<'k> {
    pub meal: &'k Meal,
    /// "Emil", or "everybody".
    pub name: &'k str,
    pub eater: Option<&'k Eater>,
    pub diner: Option<&'k Diner>,
    allergic: Vec<&'k Shunned>,
    avoid: Vec<&'k Shunned>,
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
                 or leave it away, with without = {{ {key} = [\"{ware}\"] }}."
            )
        } else {
            format!("It is not to be served to {name}. Name who eats with for and instead, or take it out of the meal.")
        };
        Mistake { at: found.at.clone(), cause, remedy }
    }
}

fn certain(foods: &Foods, words: &[&Shunned], food: FoodId) -> impl Iterator<Item = String> {
    words.iter().filter(move |word| matches!(meets(foods, word, food), Meets::Is(_))).map(|word| word.word.clone())
}

/// A name as a key of TOML: in quotes where it has a letter that a bare key may not have.
fn toml_key(name: &str) -> String {
    let bare = !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || "-_".contains(c));
    if bare { name.to_owned() } else { format!("\"{name}\"") }
}

/// How a food meets a word.
pub(super) enum Meets {
    /// It is what the word names, a form of it, or bears it: "sesame".
    Is(String),
    /// It bears the group that the word's food belongs to, without saying of what: "nuts".
    MayBe(String),
    /// It usually, or with some makers, has what the word names in it.
    MayHold,
    /// Both are forms of the food of that name.
    Near(String),
    /// It is made of food of that kind, or may hold it.
    MadeOfKind,
    NotKnown,
    Nothing,
}

/// Has it this allergen for certain?
pub(super) fn bears(food: &Food, allergen: Allergen) -> bool {
    let of = |fact: &Option<Fact<Vec<Allergen>>>| fact.as_ref().is_some_and(|fact| fact.value.contains(&allergen));
    of(&food.allergens) || of(&food.contains)
}

/// The one place where a food is held against a word of `allergic` or `avoid`.
pub(super) fn meets(foods: &Foods, shunned: &Shunned, id: FoodId) -> Meets {
    let food = &foods[id];
    if let Some(allergen) = shunned.allergen.filter(|one| bears(food, *one)) {
        return Meets::Is(allergen.name().to_owned());
    }
    let kinship = kinship(foods, shunned, id);
    if shunned.food == Some(id) || (shunned.kind.is_some() && shunned.kind == food.kind) || kinship == Kinship::Form {
        return Meets::Is(shunned.word.clone());
    }
    if let Some(group) = shunned.group.iter().find(|one| shunned.food.is_some() && bears(food, **one)) {
        return Meets::MayBe(group.name().to_owned());
    }
    if food.unknown || (food.allergens.is_none() && (shunned.allergen.is_some() || !shunned.group.is_empty())) {
        return Meets::NotKnown;
    }
    match kinship {
        Kinship::MayHold => Meets::MayHold,
        Kinship::Near(both) => Meets::Near(foods[both].name.clone()),
        Kinship::Form | Kinship::None => {
            let kind = shunned.kind.filter(|_| shunned.allergen.is_none());
            if kind.is_some_and(|kind| foods.is_made_of_kind(id, kind)) { Meets::MadeOfKind } else { Meets::Nothing }
        }
    }
}

/// What is said of its allergens is said of a food; a name tells no more of it.
fn kinship(foods: &Foods, shunned: &Shunned, id: FoodId) -> Kinship {
    let asked = shunned.food.filter(|_| shunned.allergen.is_none() && foods[id].kind != Some(Kind::Household));
    asked.map_or(Kinship::None, |asked| foods.kinship(id, asked, shunned.by_own_name))
}

/// Has it usually, or with some makers, what the word names in it, whatever else is not known of it?
pub(super) fn may_hold(foods: &Foods, shunned: &Shunned, id: FoodId) -> bool {
    kinship(foods, shunned, id) == Kinship::MayHold
}
