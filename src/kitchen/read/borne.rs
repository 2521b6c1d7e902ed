//! Words of wishes that somebody has to bear: what a household wants beside what, how often in which place, and what somebody is sure of.
//!
//! A word that nobody bears is a slip of the hand where a near one is borne, and where it would forbid dishes without a word. Else the wish
//! is ahead of the recipes, and holds nothing yet.

use std::collections::BTreeSet;

use super::hint;
use super::source::Findings;
use crate::foods::Foods;
use crate::kitchen::{Kitchen, Spot, Week, WishTable};

/// What recipes and foods say of themselves.
struct Borne<'k> {
    is: BTreeSet<&'k str>,
    fits: BTreeSet<&'k str>,
    found: &'k Findings,
}

/// Checks the wishes of the household and of its weeks.
pub(super) fn check(kitchen: &Kitchen, weeks: &[(String, Week)], found: &Findings) {
    let (recipes, foods) = (&kitchen.recipes, &kitchen.together.foods);
    let is = recipes.iter().flat_map(|recipe| &recipe.is).chain(foods.iter().flat_map(|food| &food.is));
    let fits = recipes.iter().flat_map(|recipe| &recipe.fits).chain(foods.iter().flat_map(|food| &food.fits));
    let borne = Borne { is: is.map(String::as_str).collect(), fits: fits.map(String::as_str).collect(), found };
    borne.check(&kitchen.together.wishes);
    weeks.iter().for_each(|(_, week)| borne.check(&week.wishes));
    borne.check_sure(kitchen);
}

impl Borne<'_> {
    fn check(&self, wishes: &WishTable) {
        for pair in wishes.beside.iter().flatten() {
            let [is_at, wants_at] = &pair.at;
            let (is, wants) = (self.is.contains(pair.is.as_str()), self.is.contains(pair.wants.as_str()));
            if !is {
                self.nobody("beside", "is", &pair.is, is_at, false);
            }
            // Beside what nobody is, nothing is wanted.
            if !wants && (is || self.near("is", &pair.wants).is_some()) {
                self.nobody("beside", "is", &pair.wants, wants_at, is);
            }
        }
        let places = wishes.one_at_most.iter().flat_map(|limits| &limits.places_at);
        for (place, at) in places.filter(|(place, _)| !self.fits.contains(place.as_str())) {
            self.nobody("one_at_most", "fits", place, at, false);
        }
    }

    fn check_sure(&self, kitchen: &Kitchen) {
        for eater in &kitchen.household.named {
            let is_borne = |word: &str| self.is.contains(word) || self.fits.contains(word) || names_something(kitchen, word);
            let none = !eater.sure.iter().any(|word| is_borne(word));
            for (word, at) in eater.sure.iter().zip(&eater.sure_at).filter(|(word, _)| !is_borne(word)) {
                let names = kitchen.recipes.iter().flat_map(|recipe| [recipe.id.as_str(), recipe.name.as_str()]);
                let known: Vec<&str> = self.is.iter().chain(&self.fits).copied().chain(names).collect();
                let near = hint::nearest(word, known).map(str::to_owned).or_else(|| kitchen.foods.nearest(word).into_iter().next());
                let cause = format!("sure: \"{word}\" is no food and no recipe, and nothing is or fits that");
                self.say(cause, near, "Name a food or a recipe, or a word of their is or fits.".to_owned(), at, none);
            }
        }
    }

    fn near(&self, key: &str, word: &str) -> Option<&str> {
        hint::nearest(word, if key == "is" { &self.is } else { &self.fits }.iter().copied())
    }

    /// `key` is where the word would stand if somebody bore it; `forbids`: as it is, the wish forbids dishes.
    fn nobody(&self, wish: &str, key: &str, word: &str, at: &Spot, forbids: bool) {
        let cause = format!("{wish}: no recipe and no food {} \"{word}\"", if key == "is" { "is" } else { "fits" });
        let remedy = format!("Add {key} = [\"{word}\"] to a recipe, or to a food of foods.toml.");
        self.say(cause, self.near(key, word).map(str::to_owned), remedy, at, forbids);
    }

    fn say(&self, cause: String, near: Option<String>, remedy: String, at: &Spot, forbids: bool) {
        match near {
            Some(near) => self.found.mistake(at.clone(), cause, format!("Did you mean \"{near}\"? {remedy}")),
            None if forbids => self.found.mistake(at.clone(), cause, remedy),
            None => self.found.note(at.clone(), format!("{cause}: this holds nothing yet. {remedy}")),
        }
    }
}

/// Is it the name of a food or a recipe, or a word of such a name?
fn names_something(kitchen: &Kitchen, word: &str) -> bool {
    let has = |name: &str| {
        let name = name.to_lowercase();
        name == word || name.split(|letter: char| !letter.is_alphanumeric()).any(|part| part == word) || name.ends_with(&format!(" {word}"))
    };
    is_a_food(&kitchen.foods, word, has) || kitchen.recipes.iter().any(|recipe| has(&recipe.id) || has(&recipe.name))
}

fn is_a_food(foods: &Foods, word: &str, has: impl Fn(&str) -> bool) -> bool {
    foods.find(word).is_some() || foods.iter().any(|(_, food)| has(&food.name))
}
