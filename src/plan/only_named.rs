//! Foods that stand only in words: of a step, of a note, of the preparation or the remark of a line, of a name, and not among the ingredients.
//!
//! Nobody can say whether they are used. So nothing is said to contain them; whoever may not eat them is warned. This is the one place of
//! that rule: every verb and every sheet that warns of allergens asks here.

use std::collections::BTreeSet;
use std::fmt;

use super::meets::{Meets, bears, meets};
use super::plate::EVERYBODY;
use super::servings::{lines_within, served_lines};
use super::uses::meal_name;
use super::words_beside::foods_in;
use crate::foods::{Allergen, FoodId, Foods, Kind, key_of};
use crate::kitchen::{Eater, Household, Ingredient, Kitchen, Meal, NotEaten, Piece, RecipeId, Shunned, Spot, Ware, Warning};

/// A food that only words name.
struct OnlyNamed {
    food: FoodId,
    /// "chopped walnuts" is named by "walnuts".
    words: String,
    by: NamedBy,
    at: Spot,
}

/// Whose words they are.
enum NamedBy {
    /// By its number, from 1.
    Step(usize),
    /// What is said at the table.
    Table,
    /// The name of the dish.
    Name,
    /// "text" or "name".
    Meal(&'static str),
    Notes,
    /// "preparation" or "remark", and the line as typed.
    Line(&'static str, String),
}

/// "the words of step 4 name", `the remark of "10 g walnuts" names`.
impl fmt::Display for NamedBy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NamedBy::Step(number) => write!(f, "the words of step {number} name"),
            NamedBy::Table => write!(f, "the words for the table name"),
            NamedBy::Name => write!(f, "its name names"),
            NamedBy::Meal(what) => write!(f, "the {what} of the meal names"),
            NamedBy::Notes => write!(f, "the notes name"),
            NamedBy::Line(what, line) => write!(f, "the {what} of \"{line}\" names"),
        }
    }
}

impl OnlyNamed {
    /// "the words of step 4 name walnuts (nuts), which is not among the ingredients: if it is used, Emil may not eat it."
    fn told(&self, foods: &Foods, then: &str) -> String {
        let food = &foods[self.food];
        let facts = [&food.allergens, &food.contains];
        let known = facts.iter().find_map(|fact| fact.as_ref()).map(|fact| fact.value.as_slice()).unwrap_or_default();
        let allergens: Vec<&str> = known.iter().map(|one| one.name()).collect();
        let says_it = allergens.as_slice() == [key_of(&self.words)];
        let bears = if allergens.is_empty() || says_it { String::new() } else { format!(" ({})", allergens.join(", ")) };
        format!("{} {}{bears}, which is not among the ingredients: if it is used, {then}.", self.by, self.words)
    }

    fn note(&self, foods: &Foods, then: &str) -> Warning {
        Warning::Note { at: Some(self.at.clone()), text: self.told(foods, then) }
    }

    /// Does the food bear, or may it be, what the word says?
    fn meets(&self, foods: &Foods, shunned: &Shunned) -> bool {
        matches!(meets(foods, shunned, self.food), Meets::Is(_) | Meets::MayBe(_) | Meets::MayHold)
    }

    /// As [`Self::meets`], or is it akin to it, or made of food of that kind? Whoever is allergic asks before eating these.
    fn meets_or_is_near(&self, foods: &Foods, shunned: &Shunned) -> bool {
        self.meets(foods, shunned) || matches!(meets(foods, shunned, self.food), Meets::MadeOfKind | Meets::Near(_))
    }
}

/// Somebody who must not, or would rather not, have something.
pub(super) struct Wary<'k> {
    pub name: &'k str,
    pub allergic: &'k [&'k Shunned],
    pub avoid: &'k [&'k Shunned],
    /// What they do not eat by `eats`.
    pub not_eaten: Option<&'k NotEaten>,
}

/// What only the words of a dish, or those beside a line of a meal, name.
pub(super) struct WordsOf {
    named: Vec<OnlyNamed>,
    /// What it holds by its ingredients: of what that meets for certain the words say nothing new.
    holds: Vec<FoodId>,
    /// The dish or the meal, by its name.
    dish: String,
}

impl WordsOf {
    pub fn recipe(kitchen: &Kitchen, id: RecipeId) -> WordsOf {
        WordsOf { named: only_named_in(kitchen, id), holds: foods_of(kitchen, id), dish: kitchen.recipes[id].name.clone() }
    }

    /// Of a meal's own name and text: what it serves to anybody is not named alone.
    pub fn meal(kitchen: &Kitchen, meal: &Meal) -> WordsOf {
        let mut listed = Listed { foods: Vec::new(), dishes: Vec::new() };
        served_lines(meal).for_each(|(line, _)| listed.take_in(kitchen, line));
        let texts = [("name", meal.name.as_deref()), ("text", meal.text.as_deref())];
        let mut named: Vec<OnlyNamed> = Vec::new();
        for (what, text) in texts.into_iter().filter_map(|(what, text)| Some((what, text?))) {
            for (food, words) in foods_in(text, &kitchen.foods) {
                if !listed.has(&kitchen.foods, food, &words) && named.iter().all(|known| known.food != food) {
                    named.push(OnlyNamed { food, words, by: NamedBy::Meal(what), at: meal.at.clone() });
                }
            }
        }
        WordsOf { named, holds: listed.foods, dish: meal_name(meal) }
    }

    pub fn line(foods: &Foods, line: &Ingredient, holds: &[FoodId], meal: String) -> WordsOf {
        WordsOf { named: only_named_beside(foods, line), holds: holds.to_vec(), dish: meal }
    }

    /// What somebody, and the whole household, is told of it.
    pub fn told(&self, foods: &Foods, household: &Household, wary: &Wary<'_>) -> Vec<Warning> {
        let mut told = Vec::new();
        for one in &self.named {
            let new = |shunned: &&&Shunned| self.is_new(foods, shunned, one);
            let near = |shunned: &&&Shunned| one.meets_or_is_near(foods, shunned) && !self.holds_for_certain(foods, shunned);
            let words: Vec<String> = wary.allergic.iter().filter(near).map(|word| word.word.clone()).collect();
            if !words.is_empty() {
                let then =
                    if wary.name == EVERYBODY { "nobody here may eat it".to_owned() } else { format!("{} may not eat it", wary.name) };
                let (eater, named) = (wary.name.to_owned(), one.words.clone());
                let text = one.told(foods, &then);
                told.push(Warning::OnlyNamed { at: one.at.clone(), text, eater, words, named, dish: self.dish.clone() });
            } else if wary.avoid.iter().any(|word| new(&word)) {
                told.push(one.note(foods, &format!("{} avoids it", wary.name)));
            } else if let Some(not) = wary.not_eaten.filter(|not| self.is_not_eaten(foods, not, one)) {
                let what = if not.word == "animal" { "nothing of animals".to_owned() } else { format!("no {}", not.word) };
                told.push(one.note(foods, &format!("{} eats {what}", wary.name)));
            }
            let avoided = household.avoid.iter().any(|avoided| self.is_new_allergen(foods, *avoided, one));
            if avoided || household.avoid_foods.iter().any(|word| new(&&word)) {
                told.push(one.note(foods, "this household avoids it"));
            }
        }
        told
    }

    /// What an infant must not have, or is better without, of what the words name: `why` tells it of a food. `who` is "Pim (9 months) ".
    pub fn told_of_infant(&self, foods: &Foods, why: impl Fn(FoodId) -> Option<String>, who: &str) -> Vec<Warning> {
        let told = |one: &OnlyNamed| {
            let why = why(one.food).filter(|_| !self.holds.contains(&one.food))?;
            Some(one.note(foods, &format!("{who}should go without: {} {why}", one.words)))
        };
        self.named.iter().filter_map(told).collect()
    }

    fn is_new(&self, foods: &Foods, shunned: &Shunned, one: &OnlyNamed) -> bool {
        one.meets(foods, shunned) && !self.holds_for_certain(foods, shunned)
    }

    fn holds_for_certain(&self, foods: &Foods, shunned: &Shunned) -> bool {
        self.holds.iter().any(|food| matches!(meets(foods, shunned, *food), Meets::Is(_)))
    }

    fn is_not_eaten(&self, foods: &Foods, not: &NotEaten, one: &OnlyNamed) -> bool {
        !not.word.is_empty() && not.has(&foods[one.food]) && !self.holds.iter().any(|food| not.has(&foods[*food]))
    }

    fn is_new_allergen(&self, foods: &Foods, allergen: Allergen, one: &OnlyNamed) -> bool {
        bears(&foods[one.food], allergen) && !self.holds.iter().any(|food| bears(&foods[*food], allergen))
    }
}

/// The foods that only the words of a recipe name.
fn only_named_in(kitchen: &Kitchen, id: RecipeId) -> Vec<OnlyNamed> {
    let recipe = &kitchen.recipes[id];
    let foods = &kitchen.foods;
    let listed = Listed::of(kitchen, id);
    let mut all: Vec<OnlyNamed> = Vec::new();
    let mut add = |text: &str, at: &Spot, by: fn(usize) -> NamedBy, number: usize| {
        for (food, words) in foods_in(text, foods) {
            if !listed.has(foods, food, &words) && all.iter().all(|known| known.food != food) {
                all.push(OnlyNamed { food, words, by: by(number), at: at.clone() });
            }
        }
    };
    for (index, step) in recipe.steps.iter().enumerate() {
        add(&words_of(&step.text), &step.at, NamedBy::Step, index + 1);
    }
    add(&recipe.name, &recipe.at, |_| NamedBy::Name, 0);
    recipe.at_table.iter().for_each(|text| add(text, &recipe.at, |_| NamedBy::Table, 0));
    recipe.notes.iter().for_each(|text| add(text, &recipe.at, |_| NamedBy::Notes, 0));
    for line in &recipe.ingredients {
        let own = only_named_beside(foods, line).into_iter();
        all.extend(own.filter(|one| !listed.has(foods, one.food, &one.words)));
    }
    all
}

/// The foods that only the words beside a line name: "with chopped almonds", "(or 10 g walnuts)".
fn only_named_beside(foods: &Foods, line: &Ingredient) -> Vec<OnlyNamed> {
    let beside = [(&line.prep, "preparation"), (&line.remark, "remark"), (&line.instead, "remark")];
    let texts = beside.into_iter().filter_map(|(text, what)| Some((text.as_deref()?, what)));
    let named = |(text, what): (&str, &'static str)| {
        let others = foods_in(text, foods).into_iter().filter(|(food, _)| Ware::Food(*food) != line.ware());
        let by = || NamedBy::Line(what, line.text.clone());
        others.map(|(food, words)| OnlyNamed { food, words, by: by(), at: line.at.clone() }).collect::<Vec<_>>()
    };
    texts.flat_map(named).collect()
}

/// The words of a step, with a sign in place of each ingredient.
fn words_of(pieces: &[Piece]) -> String {
    let word = |piece: &Piece| match piece {
        Piece::Words(words) => words.clone(),
        Piece::Ingredient { .. } => " · ".to_owned(),
    };
    pieces.iter().map(word).collect()
}

/// What a recipe is made of, as its words may call it.
struct Listed<'k> {
    foods: Vec<FoodId>,
    /// Its own name, and those of the recipes that go into it.
    dishes: Vec<&'k str>,
}

impl<'k> Listed<'k> {
    fn take_in(&mut self, kitchen: &'k Kitchen, line: &Ingredient) {
        match line.ware() {
            Ware::Food(food) => self.foods.push(food),
            Ware::Recipe(dish) => {
                let of_dish = Listed::of(kitchen, dish);
                self.foods.extend(of_dish.foods);
                self.dishes.extend(of_dish.dishes);
            }
        }
    }

    fn of(kitchen: &'k Kitchen, id: RecipeId) -> Listed<'k> {
        let mut listed = Listed { foods: Vec::new(), dishes: vec![&kitchen.recipes[id].name] };
        for line in lines_within(&kitchen.recipes, id) {
            match line.ware() {
                Ware::Food(food) => listed.foods.push(food),
                Ware::Recipe(part) => listed.dishes.push(&kitchen.recipes[part].name),
            }
        }
        listed
    }

    /// By its name, by the noun at its end ("the milk" of coconut milk), or as what is being made ("the bread").
    fn has(&self, foods: &Foods, food: FoodId, words: &str) -> bool {
        let said = key_of(words);
        let names = [said.clone(), key_of(&foods[food].name)];
        let ends_so =
            |name: &str| names.iter().any(|end| name.strip_suffix(end.as_str()).is_some_and(|rest| rest.is_empty() || rest.ends_with(' ')));
        let is_listed = self.foods.iter().any(|one| *one == food || ends_so(&key_of(&foods[*one].name)));
        let is_a_dish = matches!(foods[food].kind, Some(Kind::Bread | Kind::Sauce | Kind::ReadyToEat | Kind::Grain | Kind::Baking));
        let is_made = |dish: &&str| format!(" {} ", key_of(dish)).contains(&format!(" {said} "));
        is_listed || is_a_dish && self.dishes.iter().any(is_made)
    }
}

/// What every eater of the household is told of the words of a recipe, whether or not it is planned.
pub fn told_of_words(kitchen: &Kitchen, id: RecipeId) -> Vec<Warning> {
    let of_recipe = WordsOf::recipe(kitchen, id);
    let household = &kitchen.household;
    let told = |name: &str, eater: Option<&Eater>| {
        let allergic: Vec<&Shunned> = eater.iter().flat_map(|eater| &eater.allergic).chain(&household.allergic).collect();
        let avoid: Vec<&Shunned> = eater.iter().flat_map(|eater| &eater.avoid).collect();
        of_recipe.told(
            &kitchen.foods,
            household,
            &Wary { name, allergic: &allergic, avoid: &avoid, not_eaten: eater.map(|eater| &eater.not_eaten) },
        )
    };
    let mut all: Vec<Warning> = household.named.iter().flat_map(|eater| told(&eater.name, Some(eater))).collect();
    if household.named.is_empty() {
        all = told(EVERYBODY, None);
    }
    let mut said = BTreeSet::new();
    all.retain(|warning| said.insert(warning.clone()));
    all
}

/// The foods of a recipe, at any depth.
fn foods_of(kitchen: &Kitchen, id: RecipeId) -> Vec<FoodId> {
    let food = |line: &Ingredient| match line.ware() {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    };
    lines_within(&kitchen.recipes, id).filter_map(food).collect()
}
