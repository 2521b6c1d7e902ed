//! Where in the household's files a wish stands.

use super::table::Table;
use super::wish::Wish;
use crate::kitchen::{PatternId, Spot, Ware};

/// The file and line that say it; `None` where nothing is written and a default holds, or where it is told on the command line.
pub fn stands(table: &Table, wish: &Wish) -> Option<Spot> {
    let kitchen = table.kitchen();
    let whole = &table.trials.whole;
    let (own, all) = (&whole.wishes, &kitchen.together.wishes);
    let key = |key: &str| own.keys_at.get(key).or_else(|| all.keys_at.get(key)).cloned();
    let of_pattern = |id: PatternId, key: &str| {
        let pattern = &kitchen.together.patterns[id];
        Some(pattern.keys_at.get(key).unwrap_or(&pattern.at).clone())
    };
    let meal = |meal: usize| Some(whole.meals[meal].at.clone());
    let named = |wares: [&Option<Vec<(Ware, Spot)>>; 2], ware: Ware| {
        let written = wares.into_iter().flatten().next()?;
        written.iter().find(|(other, _)| *other == ware).map(|(_, at)| at.clone())
    };
    match wish {
        Wish::Spend => key("spend_at_most"),
        Wish::RecipesAtMost => key("recipes_at_most"),
        Wish::SameAgainAfter => key("same_again_after"),
        Wish::NotAgain => key("not_again"),
        Wish::OneAtMost(_) => key("one_at_most"),
        Wish::EachDay(_) => key("each_day"),
        Wish::Beside(_) => key("beside"),
        Wish::Use(ware) => named([&own.wanted, &all.wanted], *ware),
        Wish::Not(ware) => named([&own.unwanted, &all.unwanted], *ware),
        Wish::AtMost(id) => of_pattern(*id, "at_most"),
        Wish::Minutes(id) => id.and_then(|id| of_pattern(id, "minutes")),
        Wish::Sure(eater) => Some(kitchen.household.named[*eater].at.clone()),
        Wish::Unfit(_, who, _) => kitchen.household.named.iter().find(|eater| eater.name == *who).map(|eater| eater.at.clone()),
        Wish::FinishBy(start) => table.trials.sessions().iter().find(|session| session.start == *start).map(|session| session.at.clone()),
        Wish::ReadyIn(place) | Wish::Packed(place) | Wish::Reach(place) | Wish::Pattern(place) => meal(*place),
        Wish::Ahead(recipe) => Some(kitchen.recipes[*recipe].at.clone()),
        Wish::Style | Wish::Flag | Wish::FromShelf | Wish::Another => None,
    }
}
