//! Meals that are written: what each holds, and which place of its pattern each dish takes.

use super::ways::as_set;
use crate::kitchen::{Ingredient, Kitchen, Meal, PatternId, Plate, RecipeId, Ware};

/// A meal that is written, here or in another week.
#[derive(Debug, Clone, PartialEq)]
pub struct Eaten {
    pub pattern: Option<PatternId>,
    /// What its pattern does not name by itself.
    pub filled: Vec<Ware>,
    pub wares: Vec<Ware>,
    /// The places that its recipes take, by their words; empty where its lines do not fill its pattern.
    pub taken: Vec<(String, RecipeId)>,
}

pub fn eaten(kitchen: &Kitchen, meal: &Meal) -> Eaten {
    let wares = as_set(meal.each.iter().chain(&meal.shared).map(Ingredient::ware));
    let pattern = meal.pattern.map(|pattern| &kitchen.together.patterns[pattern]);
    let by_itself = |ware: &Ware| {
        let mut plates = pattern.iter().flat_map(|pattern| pattern.each.iter().chain(&pattern.shared));
        plates.any(|plate| matches!(plate, Plate::As(line) if line.ware() == *ware))
    };
    let filled = wares.iter().copied().filter(|ware| !by_itself(ware)).collect();
    let taken = pattern.and_then(|pattern| {
        let each = filling(&pattern.each, &wares_of(&meal.each))?;
        Some(each.into_iter().chain(filling(&pattern.shared, &wares_of(&meal.shared))?).collect())
    });
    Eaten { pattern: meal.pattern, filled, wares, taken: taken.unwrap_or_default() }
}

fn wares_of(lines: &[Ingredient]) -> Vec<Ware> {
    lines.iter().map(Ingredient::ware).collect()
}

/// Which recipe takes which place, where every plate of a pattern is found among a meal's lines: the first way in the order of both.
fn filling(plates: &[Plate], lines: &[Ware]) -> Option<Vec<(String, RecipeId)>> {
    let Some((plate, others)) = plates.split_first() else { return Some(Vec::new()) };
    lines.iter().enumerate().find_map(|(index, ware)| {
        let word = match plate {
            Plate::As(line) => (line.ware() == *ware).then_some(None),
            Plate::Any(place) => place.fillings.iter().any(|line| line.ware() == *ware).then_some(Some(&place.word)),
        }?;
        let left: Vec<Ware> = lines[..index].iter().chain(&lines[index + 1..]).copied().collect();
        let mut taken = filling(others, &left)?;
        if let (Some(word), Ware::Recipe(recipe)) = (word, *ware) {
            taken.insert(0, (word.clone(), recipe));
        }
        Some(taken)
    })
}
