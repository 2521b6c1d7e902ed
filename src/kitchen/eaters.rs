//! Who eats: the household's own eaters, and who sits at a meal. Plain data; what follows from it is reckoned in `plan`.

use jiff::civil::Date;

use super::{Ingredient, Kitchen, Meal, Spot, Wanted, Ware};
use crate::foods::{Allergen, Food, FoodId, Kind};
use crate::measure::Number;

/// One `[[eater]]` of the household.
#[derive(Debug, Clone, PartialEq)]
pub struct Eater {
    pub name: String,
    /// Of a portion; above zero.
    pub share: Number,
    /// Never.
    pub allergic: Vec<Shunned>,
    /// Rather not.
    pub avoid: Vec<Shunned>,
    /// What this eater does not eat.
    pub not_eaten: NotEaten,
    pub born: Option<Date>,
    pub needs: Option<Needs>,
    /// What this eater leaves away in every meal, and what comes in its place.
    pub swap: Vec<Swap>,
    /// Of these one at least at every supper, in lower case: foods, recipes, or what they are.
    pub sure: Vec<String>,
    /// Where each of the words stands.
    pub sure_at: Vec<Spot>,
    pub at: Spot,
}

/// A word of `allergic` or `avoid`. "milk" is an allergen, a kind of food and a food, and is taken as all three.
#[derive(Debug, Clone, PartialEq)]
pub struct Shunned {
    /// As typed.
    pub word: String,
    pub allergen: Option<Allergen>,
    pub kind: Option<Kind>,
    pub food: Option<FoodId>,
    /// The word is the food's own name, not a wider one: "dried chickpeas", not "chickpeas".
    pub by_own_name: bool,
    /// The allergens of the food: another food that bears one of them without saying of what may hold it.
    pub group: Vec<Allergen>,
}

/// What an eater does not eat, by `eats`.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct NotEaten {
    /// "meat" of "no meat": what messages say is not eaten; empty where `eats` is not written.
    pub word: String,
    pub kinds: Vec<Kind>,
    /// By which mixed food gives itself away.
    pub allergens: Vec<Allergen>,
    /// Single foods, in lower case: honey.
    pub foods: Vec<&'static str>,
}

impl NotEaten {
    /// Is the food of a kind, or does it bear an allergen, that is not eaten?
    pub fn has(&self, food: &Food) -> bool {
        let bears = |one: &Allergen| {
            let of = |fact: &Option<crate::foods::Fact<Vec<Allergen>>>| fact.as_ref().is_some_and(|fact| fact.value.contains(one));
            of(&food.allergens) || of(&food.contains)
        };
        food.kind.is_some_and(|kind| self.kinds.contains(&kind))
            || self.allergens.iter().any(bears)
            || self.foods.iter().any(|name| food.name.eq_ignore_ascii_case(name))
    }
}

/// What an eater wants of a day. Theirs to set: nothing is prescribed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Needs {
    pub kcal: Option<f64>,
    pub protein_g: Option<f64>,
    pub fibre_g: Option<f64>,
}

/// A standing exchange.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Swap {
    pub from: Ware,
    /// `None`: nothing comes in its place.
    pub to: Option<Ware>,
}

/// Who somebody at a meal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// An index into [`Household::named`](super::Household::named).
    Eater(usize),
    Guest,
    /// A number of eaters whom nobody names: everybody's allergies hold.
    Anybody,
}

/// Somebody at a meal.
#[derive(Debug, Clone, PartialEq)]
pub struct Diner {
    /// Of the eater or guest; "guests" or "everybody" where they are only counted.
    pub name: String,
    pub who: Who,
    /// In portions.
    pub share: Number,
    /// Of a named guest; an eater's own stand with the eater.
    pub allergic: Vec<Shunned>,
    pub avoid: Vec<Shunned>,
    /// For a whole share, in place of all of `each`.
    pub instead: Option<Vec<Ingredient>>,
    /// Left away from `each` and `shared`, also inside dishes.
    pub without: Vec<Ware>,
    /// What an exchange of `swap` puts in place of a line.
    pub swapped: Vec<Swapped>,
}

/// A line in place of another, for a whole share, or in place of a part of what the table shares.
#[derive(Debug, Clone, PartialEq)]
pub struct Swapped {
    pub line: Ingredient,
    pub shared: bool,
}

impl Diner {
    pub fn new(name: impl Into<String>, who: Who, share: Number) -> Self {
        let (allergic, avoid) = (Vec::new(), Vec::new());
        Diner { name: name.into(), who, share, allergic, avoid, instead: None, without: Vec::new(), swapped: Vec::new() }
    }

    /// What standing exchanges put in place of the lines `each` and `shared`; `name` is what a food or a dish is called.
    pub(super) fn take_swaps(&mut self, swaps: &[Swap], (each, shared): (&[Ingredient], &[Ingredient]), name: impl Fn(Ware) -> String) {
        for swap in swaps {
            let Some(to) = swap.to else { continue };
            for (shared, lines) in [(false, each), (true, shared)] {
                let met = lines.iter().filter(|line| line.ware() == swap.from);
                self.swapped.extend(met.filter_map(|line| Some(Swapped { line: exchanged(line, to, name(to))?, shared })));
            }
        }
    }
}

/// The same amount of another dish or food.
fn exchanged(line: &Ingredient, to: Ware, name: String) -> Option<Ingredient> {
    let wanted = match (&line.wanted, to) {
        (Wanted::Food { item, .. }, Ware::Food(food)) => Wanted::Food { food, item: item.clone() },
        (Wanted::Recipe { amount, most, .. }, Ware::Recipe(recipe)) => {
            Wanted::Recipe { recipe, amount: amount.clone(), most: most.clone() }
        }
        _ => return None,
    };
    Some(Ingredient { text: format!("{name}, in place of {}", line.text), wanted, ..line.clone() })
}

impl Meal {
    /// The meal as it stands once these lines are written into it: standing exchanges speak of them anew.
    pub fn holding(&self, kitchen: &Kitchen, each: Vec<Ingredient>, shared: Vec<Ingredient>) -> Meal {
        let mut meal = Meal { open: None, each, shared, ..self.clone() };
        let names = kitchen.names();
        for diner in &mut meal.diners {
            diner.swapped.clear();
            let Who::Eater(eater) = diner.who else { continue };
            diner.take_swaps(&kitchen.household.named[eater].swap, (&meal.each, &meal.shared), |ware| names.ware(ware).to_owned());
            if diner.instead.is_some() {
                diner.swapped.retain(|swapped| swapped.shared);
            }
        }
        meal
    }
}
