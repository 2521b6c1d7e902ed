//! Finding a food by any of its names, and laying a household's knowledge over the reference.

use super::{Food, FoodId, Foods};

impl Foods {
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    pub fn len(&self) -> usize {
        self.all.len()
    }

    pub fn iter(&self) -> impl Iterator<Item = (FoodId, &Food)> {
        self.all.iter().enumerate().map(|(index, food)| (FoodId(index as u32), food))
    }

    /// By name or `also`, singular or plural, in any letter case.
    pub fn find(&self, name: &str) -> Option<FoodId> {
        let _ = name;
        todo!()
    }

    /// The nearest known names, the nearest first, at most three; for "did you mean".
    pub fn nearest(&self, name: &str) -> Vec<String> {
        let _ = name;
        todo!()
    }

    /// A food nobody knows keeps its own name. Finds it again when asked twice.
    pub fn intern_unknown(&mut self, name: &str) -> FoodId {
        let _ = name;
        todo!()
    }

    /// Lays a household's entry over the entry of the same name, key by key; a new name is a new food.
    pub fn lay_over(&mut self, entry: Food) -> FoodId {
        let _ = entry;
        todo!()
    }
}
