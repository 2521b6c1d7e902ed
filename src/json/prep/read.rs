//! What a booking, and a session under way, read back from the plan in JSON: names become ids again, once. What is gone by now is left out.

use super::{Batch, Boxed, Fetch, Kind, Prep, Session, Task};
use crate::foods::Foods;
use crate::kitchen::{ApplianceId, Kitchen, Recipe, RecipeId, Ware};
use crate::measure::{Celsius, Number, Quantity};
use crate::prep::{self, Deed, Mark, Put, SetHeat, Taken, Told, Turnover};

impl Prep {
    /// What each session takes and leaves, for the book. What is boxed or made of a recipe that is gone is left out.
    ///
    /// # Errors
    /// A session whose start is no date and time: the start as it stands.
    pub fn turnovers(&self, kitchen: &Kitchen) -> Result<Vec<Turnover>, String> {
        self.sessions.iter().map(|session| session.turnover(&kitchen.foods, &kitchen.recipes)).collect()
    }
}

impl Task {
    fn deed(&self, recipes: &[Recipe]) -> Option<Deed> {
        let of = || recipe(recipes, self.recipe.as_deref()?);
        match self.kind {
            Kind::Set => None,
            Kind::Step => Some(Deed::Step { recipe: of()?, step: self.step?.checked_sub(1)?, round: self.round?.checked_sub(1)? }),
            Kind::Box => Some(Deed::Box(of()?)),
            Kind::Aside => Some(Deed::Aside { recipe: of()?, eater: self.eater.clone()? }),
            Kind::WashUp => Some(Deed::WashUp),
        }
    }
}

impl Session {
    /// When it begins, as it stands in the print.
    pub fn begins(&self) -> &str {
        &self.start
    }

    /// Its tasks as its guide tells them, but for settings and for recipes that are gone.
    pub fn told(&self, kitchen: &Kitchen) -> Vec<Told> {
        let (mut numbers, mut letters) = (0, 0);
        let mut told = Vec::new();
        for (task, done) in self.tasks.iter().map(|task| (task, task.under_way)).chain(self.done.iter().map(|task| (task, true))) {
            let counted = match task.kind {
                Kind::Set => continue,
                Kind::Step => {
                    numbers += 1;
                    Mark::Number(numbers)
                }
                Kind::Box | Kind::Aside | Kind::WashUp => {
                    letters += 1;
                    Mark::Letter(letters)
                }
            };
            let mark = task.mark.as_ref().and_then(|mark| mark.parse().ok()).unwrap_or(counted);
            let Some(deed) = task.deed(&kitchen.recipes) else { continue };
            let (person, at) = (task.person.clone(), task.at_celsius.map(Celsius));
            told.push(Told { mark, deed, start: task.start_minute, person, at, done });
        }
        told
    }

    /// What its guide has set, by the names of the appliances; those that are gone are left out.
    pub fn heats(&self, kitchen: &Kitchen) -> Vec<SetHeat> {
        let set = |task: &Task| {
            let name = task.appliance.as_ref()?;
            let on = ApplianceId(kitchen.appliances.iter().position(|one| one.name == *name)?);
            Some(SetHeat { on, at: Celsius(task.at_celsius?), start: task.start_minute, ready: task.end_minute })
        };
        self.tasks.iter().filter(|task| matches!(task.kind, Kind::Set)).filter_map(set).collect()
    }

    pub(super) fn turnover(&self, foods: &Foods, recipes: &[Recipe]) -> Result<Turnover, String> {
        let start = self.start.parse().map_err(|_| self.start.clone())?;
        let batch = |one: &Batch| {
            let recipe = recipe(recipes, &one.recipe)?;
            Some(prep::Batch { recipe, batches: one.batches, makes: one.makes.clone() })
        };
        let batches = self.batches.iter().filter_map(batch).collect();
        let fetch = self.fetched.iter().chain(&self.fetch).filter_map(|one| one.taken(foods, recipes)).collect();
        let boxes = self.boxed.iter().chain(&self.boxes).chain(&self.set_aside).filter_map(|one| one.put(foods, recipes)).collect();
        Ok(Turnover { start, batches, fetch, boxes })
    }
}

fn recipe(recipes: &[Recipe], id: &str) -> Option<RecipeId> {
    recipes.iter().position(|recipe| recipe.id == id).map(RecipeId)
}

impl Fetch {
    pub(super) fn taken(&self, foods: &Foods, recipes: &[Recipe]) -> Option<Taken> {
        let of = match (&self.food, &self.recipe) {
            (Some(name), _) => foods.find(name).map(Ware::Food).ok_or_else(|| name.clone()),
            (None, Some(id)) => recipe(recipes, id).map(Ware::Recipe).ok_or_else(|| id.clone()),
            (None, None) => return None,
        };
        Some(Taken { of, amount: self.amount.clone(), place: None })
    }
}

impl Boxed {
    /// Portions, or what the recipe makes where it does not say what a portion of it is.
    pub(super) fn put(&self, foods: &Foods, recipes: &[Recipe]) -> Option<Put> {
        let id = recipe(recipes, &self.recipe)?;
        let recipe = &recipes[id];
        let portions = Number::from_ten_digits(self.portions);
        let amount = match (&recipe.makes, &recipe.portion) {
            (Quantity::Mass(_), Some(_)) => Quantity::portions(portions),
            (makes, _) => Quantity::of(&makes.dimension(), portions),
        };
        let ware = |name: &String| match name.strip_prefix("recipe:") {
            Some(id) => self::recipe(recipes, id).map(Ware::Recipe),
            None => foods.find(name).map(Ware::Food),
        };
        let without = self.without.iter().filter_map(ware).collect();
        Some(Put { recipe: id, eater: self.eater.clone(), without, amount, place: self.place, use_by: self.use_by })
    }
}
