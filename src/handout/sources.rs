//! Where the figures on foods come from.

use std::collections::BTreeSet;

use itertools::Itertools;

use crate::foods::{Food, FoodId};
use crate::kitchen::{Kitchen, Wanted, Week};
use crate::plan::{Makings, served_lines};

/// Who published figures that the handout rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    StandardReference,
    StorageData,
    AnnexII,
    CommonPractice,
    FromMemory,
    /// Whoever made the plan says so.
    TheirOwn,
}

/// How the sources of facts begin.
const BEGINNINGS: [(&str, Origin); 5] = [
    ("USDA SR", Origin::StandardReference),
    ("FSIS", Origin::StorageData),
    ("EU 1169/2011", Origin::AnnexII),
    ("common practice", Origin::CommonPractice),
    ("from memory", Origin::FromMemory),
];

impl Origin {
    fn of(source: &str) -> Origin {
        BEGINNINGS.iter().find(|(word, _)| source.starts_with(word)).map_or(Origin::TheirOwn, |(_, origin)| *origin)
    }

    pub fn words(self) -> &'static str {
        match self {
            Origin::StandardReference => {
                "Weights of cups and pieces, what trimming leaves, energy and nutrients: USDA National Nutrient Database for Standard Reference."
            }
            Origin::StorageData => "How long foods keep: USDA FSIS food storage data, version 128 (2018).",
            Origin::AnnexII => "Allergens: the fourteen substances of Regulation (EU) No 1169/2011, Annex II.",
            Origin::CommonPractice => "Some figures are common practice of kitchens; nobody published them.",
            Origin::FromMemory => "Some figures are from memory and were not looked up.",
            Origin::TheirOwn => "Some figures on foods are the author's own.",
        }
    }
}

/// Of all foods that are cooked or eaten.
pub(super) fn origins(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<Origin> {
    let recipes = makings.makings.iter().flat_map(|making| &kitchen.recipes[making.recipe].ingredients);
    let meals = week.meals.iter().flat_map(served_lines).map(|(line, _)| line);
    let food = |wanted: &Wanted| if let Wanted::Food { food, .. } = wanted { Some(*food) } else { None };
    let foods: BTreeSet<FoodId> = recipes.chain(meals).filter_map(|line| food(&line.wanted)).collect();
    let all: BTreeSet<Origin> = foods.into_iter().flat_map(|id| sources(&kitchen.foods[id])).map(|source| Origin::of(&source)).collect();
    all.into_iter().collect()
}

fn sources(food: &Food) -> Vec<String> {
    let keeps = [&food.keeps.cupboard, &food.keeps.fridge, &food.keeps.freezer, &food.keeps.opened];
    let weights = [&food.cup, &food.each].into_iter().flatten().map(|fact| &fact.source);
    let shares = [&food.edible, &food.cooked, &food.drained].into_iter().flatten().map(|fact| &fact.source);
    let words = food.words.values().map(|fact| &fact.source);
    let keeps = keeps.into_iter().flatten().map(|fact| &fact.source);
    let rest = food.allergens.iter().map(|fact| &fact.source).chain(food.nutrients.iter().map(|fact| &fact.source));
    weights.chain(shares).chain(words).chain(keeps).chain(rest).chain(food.told.values()).unique().cloned().collect()
}
