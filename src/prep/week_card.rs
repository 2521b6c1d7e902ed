//! The meals of a week by day: what comes out of which place, what is added fresh, whether it is heated, what is made at the meal, what is
//! moved from the freezer in the evening.

use jiff::civil::Date;

use super::boxes::{counted, move_text};
use super::text::{amount_and_food, step_text};
use crate::foods::Place;
use crate::foods::safety::REHEATED;
use crate::kitchen::{Ingredient, Kitchen, RecipeId, Serve, Wanted, Ware, Week};
use crate::measure::{Quantity, Units};
use crate::plan::{Kept, MadeAt, Makings, User, meal_contains, served_lines};
use crate::words::{degrees, listed, sentence};

/// The meals of one week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekCard {
    pub week: String,
    pub from: Date,
    pub days: Vec<CardDay>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardDay {
    pub on: Date,
    pub meals: Vec<CardMeal>,
    /// "Move 3 portions of pearl barley from the freezer to the fridge".
    pub tonight: Vec<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMeal {
    /// "Mon supper".
    pub label: String,
    pub name: Option<String>,
    pub dishes: Vec<CardDish>,
    /// "75 g feta", in the order of the meal's lines.
    pub fresh: Vec<String>,
    /// What is made at the meal, with its steps.
    pub made: Vec<CardMaking>,
    /// What of it the household avoids: "contains sesame".
    pub beware: Option<String>,
}

/// A cooked dish that is taken out of one place, whatever it was made in.
#[derive(Debug, Clone, PartialEq)]
pub struct CardDish {
    pub dish: String,
    /// "2½ portions"; "1 portion and 200 g" where the two cannot be added up.
    pub amount: String,
    /// `None`: straight from the pot.
    pub place: Option<Place>,
    /// "flat tub": what it is kept in, where the recipe says.
    pub boxed: Option<String>,
    /// "heat to 74 °C (165 °F)", "cold", "for Frittata"; nothing straight from the pot.
    pub heating: String,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMaking {
    pub dish: String,
    pub steps: Vec<String>,
}

/// The card of a week: every day that has a meal or a move, in order.
pub fn week_card(kitchen: &Kitchen, week: &Week, makings: &Makings) -> WeekCard {
    let mut dates: Vec<Date> = week.meals.iter().map(|meal| meal.at_time.date()).chain(makings.moves.iter().map(|one| one.on)).collect();
    dates.sort();
    dates.dedup();
    let day = |on: Date| {
        let mut meals: Vec<usize> = (0..week.meals.len()).filter(|index| week.meals[*index].at_time.date() == on).collect();
        meals.sort_by_key(|index| week.meals[*index].at_time);
        let tonight = makings.moves.iter().filter(|one| one.on == on).map(|one| move_text(kitchen, one)).collect();
        CardDay { on, meals: meals.into_iter().map(|meal| card_meal(kitchen, week, makings, meal)).collect(), tonight }
    };
    WeekCard { week: week.name.clone(), from: week.from, days: dates.into_iter().map(day).collect() }
}

fn card_meal(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize) -> CardMeal {
    let meal = &week.meals[index];
    let food = |line: &&(&Ingredient, f64)| recipe_of(line.0).is_none();
    let lines: Vec<_> = served_lines(meal).collect();
    let fresh = lines.iter().filter(food).map(|(line, times)| {
        let prep = line.prep.as_ref().map_or_else(String::new, |prep| format!(", {prep}"));
        format!("{}{prep}", amount_and_food(kitchen, line, None, *times))
    });
    CardMeal {
        label: meal.label.clone(),
        name: meal.name.clone(),
        dishes: dishes(kitchen, week, makings, index),
        fresh: fresh.collect(),
        made: makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index)).map(|making| made(kitchen, making)).collect(),
        beware: meal_contains(kitchen, meal).beware(&kitchen.household.avoid),
    }
}

/// Every dish once a place, in the order of the meal's lines; last what goes into a dish made at the meal.
fn dishes(kitchen: &Kitchen, week: &Week, makings: &Makings, meal: usize) -> Vec<CardDish> {
    let mut parts: Vec<(RecipeId, Option<Place>, Vec<Quantity>)> = Vec::new();
    for (recipe, place, amount) in from_lots(makings, meal).chain(from_sessions(makings, meal)) {
        match parts.iter_mut().find(|part| (part.0, part.1) == (recipe, place)) {
            Some((_, _, amounts)) => add(amounts, amount),
            None => parts.push((recipe, place, vec![amount])),
        }
    }
    let served: Vec<RecipeId> = served_lines(&week.meals[meal]).filter_map(|(line, _)| recipe_of(line)).collect();
    let place_in_line = |recipe: &RecipeId| served.iter().position(|one| one == recipe).unwrap_or(served.len());
    parts.sort_by_key(|(recipe, _, _)| place_in_line(recipe));
    let goes_into = |recipe: RecipeId| {
        let made = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(meal)).map(|making| &kitchen.recipes[making.recipe]);
        let into = made.filter(|dish| dish.ingredients.iter().any(|line| recipe_of(line) == Some(recipe))).map(|dish| dish.name.as_str());
        (!served.contains(&recipe)).then(|| into.collect::<Vec<_>>()).filter(|into| !into.is_empty())
    };
    parts.iter().map(|(recipe, place, amounts)| dish(kitchen, *recipe, amounts, *place, goes_into(*recipe))).collect()
}

fn recipe_of(line: &Ingredient) -> Option<RecipeId> {
    match line.wanted {
        Wanted::Recipe { recipe, .. } => Some(recipe),
        Wanted::Food { .. } => None,
    }
}

/// Adds an amount to the first that is of its kind, or sets it beside them.
fn add(amounts: &mut Vec<Quantity>, amount: Quantity) {
    match amounts.iter_mut().find_map(|one| one.plus(&amount).map(|sum| (one, sum))) {
        Some((one, sum)) => *one = sum,
        None => amounts.push(amount),
    }
}

/// Cooked lots; what was frozen has been moved to the fridge the day before.
fn from_lots(makings: &Makings, meal: usize) -> impl Iterator<Item = (RecipeId, Option<Place>, Quantity)> {
    let draws = makings.cooked_draws.iter().filter(move |draw| draw.by.contains(&MadeAt::Meal(meal)));
    draws.filter_map(|draw| match draw.of {
        Ware::Recipe(recipe) => {
            let place = if draw.place == Place::Freezer { Place::Fridge } else { draw.place };
            Some((recipe, Some(place), draw.amount.clone()))
        }
        Ware::Food(_) => None,
    })
}

/// What the week's sessions made, out of the fridge or straight from the pot.
fn from_sessions(makings: &Makings, meal: usize) -> impl Iterator<Item = (RecipeId, Option<Place>, Quantity)> {
    let sessions = makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
    let uses = sessions.flat_map(|making| making.uses.iter().map(move |one| (making.recipe, one)));
    let eaten = uses.filter(move |(_, one)| match one.by {
        User::Meal(by) => by == meal,
        User::Making(dish) => makings.makings.get(dish).is_some_and(|dish| dish.at == MadeAt::Meal(meal)),
    });
    eaten.map(|(recipe, one)| (recipe, (one.kept != Kept::Straight).then_some(Place::Fridge), one.amount.clone()))
}

fn dish(kitchen: &Kitchen, recipe: RecipeId, amounts: &[Quantity], place: Option<Place>, into: Option<Vec<&str>>) -> CardDish {
    let recipe = &kitchen.recipes[recipe];
    let units = kitchen.print.units;
    let amounts: Vec<String> = amounts.iter().map(|amount| counted(amount, units)).collect();
    let heating = match (into, place) {
        (Some(into), _) => format!("for {}", listed(&into)),
        (None, Some(_)) => heating(recipe.serve, units),
        (None, None) => String::new(),
    };
    let boxed = recipe.boxed.as_ref().filter(|_| place.is_some()).map(|kind| kind.name.clone());
    CardDish { dish: recipe.name.clone(), amount: listed(&amounts), place, boxed, heating }
}

/// "heat to 74 °C (165 °F)", "cold", or either where the recipe does not say.
pub(super) fn heating(serve: Option<Serve>, units: Units) -> String {
    let heat = degrees(REHEATED.value, units);
    match serve {
        Some(Serve::Cold) => "cold".to_owned(),
        Some(Serve::Hot) => format!("heat to {heat}"),
        None => format!("cold, or heated to {heat}"),
    }
}

fn made(kitchen: &Kitchen, making: &crate::plan::Making) -> CardMaking {
    let recipe = &kitchen.recipes[making.recipe];
    let units = kitchen.print.units;
    let step = |number: usize| {
        let asked = &recipe.steps[number];
        let mut text = step_text(kitchen, making.recipe, number, making.batches);
        let mut add = |more: String| {
            let stop = if text.is_empty() || text.ends_with(['.', '!', '?', ':']) { "" } else { "." };
            text.push_str(&format!("{stop} {more}"));
        };
        let place = asked.on.first().map(|id| sentence(&kitchen.appliances[*id].name));
        let warm = asked.temperature.map(|celsius| degrees(celsius, units));
        let wait = (asked.wait.0 > 0).then(|| format!("{} min", asked.wait.0));
        let facts: Vec<String> = place.into_iter().chain(warm).chain(wait).collect();
        if !facts.is_empty() {
            add(format!("{}.", facts.join(", ")));
        }
        if let Some(inside) = asked.inside {
            add(format!("Until the inside reaches {}.", degrees(inside, units)));
        }
        text
    };
    CardMaking { dish: recipe.name.clone(), steps: (0..recipe.steps.len()).map(step).collect() }
}

#[cfg(test)]
mod tests;
