//! Goods out to the kitchen: what a session takes and what it leaves cooked, and what a meal eats.

use jiff::civil::Date;

use super::bench::{Bench, Missing};
use super::out::{NotTaken, take_amount, take_recipe};
use super::record::{Exact, LotRecord};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Made, Meal, Recipe, RecipeId, Wanted, Ware, Week};
use crate::measure::{Dimension, Quantity, show};
use crate::pantry::after_days;
use crate::plan::{Demanded, MadeAt, Makings, in_makes, served_lines};
use crate::prep::SessionPlan;

/// How the book names a session.
pub fn session_key(start: &str) -> String {
    format!("session {start}")
}

/// How the book names a meal.
pub fn meal_key(meal: &Meal) -> String {
    format!("meal {} {}", meal.at_time, meal.name.as_deref().unwrap_or(&meal.label))
}

/// Takes what the session fetches and puts down what it boxes and what is eaten of it straight from the pot. Returns what the
/// shelf does not hold, in words.
pub fn issue_session(kitchen: &Kitchen, bench: &mut Bench, session: &SessionPlan, on: Date) -> Vec<String> {
    let mut missing = Vec::new();
    for fetch in session.fetch.iter().filter(|fetch| !fetch.amount.is_zero()) {
        if let Some(name) = &fetch.food {
            take_of_food(kitchen, bench, name, &fetch.amount, on, &mut missing);
        } else if let Some(recipe) = fetch.recipe.as_deref().and_then(|id| find(kitchen, id)) {
            take_of_recipe(kitchen, bench, recipe, &fetch.amount, on, &mut missing);
        }
    }
    for boxed in &session.boxes {
        let Some(recipe) = find(kitchen, &boxed.recipe).map(|id| &kitchen.recipes[id]) else { continue };
        bench.put(cooked(recipe, &boxed_amount(recipe, boxed.portions), boxed.place, on, boxed.use_by));
    }
    for batch in &session.batches {
        let Some(recipe) = find(kitchen, &batch.recipe).map(|id| &kitchen.recipes[id]) else { continue };
        let straight = eaten_straight(kitchen, session, recipe, batch.makes.base());
        if straight > 1e-6 * batch.makes.base() {
            let amount = Quantity::of(&recipe.makes.dimension(), straight);
            bench.put(cooked(recipe, &amount, Place::Fridge, on, after_days(on, recipe.fridge.unwrap_or_default())));
        }
    }
    missing
}

fn find(kitchen: &Kitchen, id: &str) -> Option<RecipeId> {
    kitchen.recipes.iter().position(|recipe| recipe.id == id).map(RecipeId)
}

/// Boxes count portions, or what the recipe makes where it does not say what a portion of it is.
fn boxed_amount(recipe: &Recipe, portions: f64) -> Quantity {
    match (&recipe.makes, recipe.portion) {
        (Quantity::Mass(_), Some(_)) => Quantity::portions(portions),
        (makes, _) => Quantity::of(&makes.dimension(), portions),
    }
}

/// What is made less what is boxed and what the session's own dishes take, in the unit of `makes`.
fn eaten_straight(kitchen: &Kitchen, session: &SessionPlan, recipe: &Recipe, made: f64) -> f64 {
    let in_unit = |amount: &Quantity| in_makes(recipe, amount).unwrap_or_default();
    let boxed = session.boxes.iter().filter(|boxed| boxed.recipe == recipe.id);
    let boxed: f64 = boxed.map(|boxed| in_unit(&boxed_amount(recipe, boxed.portions))).sum();
    let fetched = session.fetch.iter().filter(|fetch| fetch.recipe.as_deref() == Some(&recipe.id));
    let fetched: f64 = fetched.map(|fetch| in_unit(&fetch.amount)).sum();
    let mut used = 0.0;
    for dish in &session.batches {
        let Some(dish_recipe) = find(kitchen, &dish.recipe).map(|id| &kitchen.recipes[id]) else { continue };
        for line in &dish_recipe.ingredients {
            if let Wanted::Recipe { recipe: part, most, .. } = &line.wanted
                && kitchen.recipes[*part].id == recipe.id
            {
                used += in_unit(most) * dish.batches;
            }
        }
    }
    made - boxed - (used - fetched).max(0.0)
}

fn cooked(recipe: &Recipe, amount: &Quantity, place: Place, made: Date, use_by: Date) -> LotRecord {
    LotRecord {
        food: None,
        recipe: Some(recipe.id.clone()),
        amount: Exact::of(amount),
        place,
        best_before: None,
        use_by: Some(use_by),
        opened: None,
        since: None,
        made: Some(made),
        paid: None,
    }
}

/// Takes what is eaten at a meal: its foods, and its share of what was cooked.
pub fn issue_meal(kitchen: &Kitchen, bench: &mut Bench, week: &Week, plan: (&Makings, &Demanded), index: usize) -> Vec<String> {
    let (makings, demanded) = plan;
    let here = MadeAt::Meal(index);
    let meal = &week.meals[index];
    let on = meal.at_time.date();
    let mut missing = Vec::new();
    for demand in demanded.demand.iter().filter(|demand| demand.by == here && !demand.to_taste) {
        take_of_food(kitchen, bench, &kitchen.foods[demand.food].name, &demand.amount, on, &mut missing);
    }
    let mut eaten: Vec<(RecipeId, Quantity)> = Vec::new();
    let in_a_session = |id: RecipeId| kitchen.recipes[id].made == Made::InASession;
    for (line, times) in served_lines(meal) {
        if let Wanted::Recipe { recipe, most, .. } = &line.wanted
            && in_a_session(*recipe)
        {
            eaten.push((*recipe, most.scaled(times)));
        }
    }
    for making in makings.makings.iter().filter(|making| making.at == here) {
        for line in &kitchen.recipes[making.recipe].ingredients {
            if let Wanted::Recipe { recipe, most, .. } = &line.wanted
                && in_a_session(*recipe)
            {
                eaten.push((*recipe, most.scaled(making.batches)));
            }
        }
    }
    for draw in makings.cooked_draws.iter().filter(|draw| draw.by == [here]) {
        if let Ware::Recipe(id) = draw.of
            && !in_a_session(id)
        {
            eaten.push((id, draw.amount.clone()));
        }
    }
    for (recipe, amount) in eaten {
        take_of_recipe(kitchen, bench, recipe, &amount, on, &mut missing);
    }
    missing
}

fn take_of_food(kitchen: &Kitchen, bench: &mut Bench, name: &str, amount: &Quantity, on: Date, missing: &mut Vec<String>) {
    let taken = match kitchen.foods.find(name) {
        Some(food) => take_amount(kitchen, bench, food, amount, on),
        None => Err(NotTaken::NoLot),
    };
    note_missing(kitchen, taken, name, amount, missing);
}

fn take_of_recipe(kitchen: &Kitchen, bench: &mut Bench, recipe: RecipeId, amount: &Quantity, on: Date, missing: &mut Vec<String>) {
    let taken = take_recipe(kitchen, bench, recipe, amount, Some(on));
    note_missing(kitchen, taken, &kitchen.recipes[recipe].name, amount, missing);
}

fn note_missing(kitchen: &Kitchen, taken: Result<(Missing, Dimension), NotTaken>, name: &str, asked: &Quantity, missing: &mut Vec<String>) {
    let units = kitchen.print.units;
    match taken {
        Ok((Missing(left), _)) if left <= 0.0 => (),
        Ok((Missing(left), dimension)) => missing.push(format!("{} {name}", show(&Quantity::of(&dimension, left), units))),
        Err(NotTaken::NoLot) => missing.push(format!("{} {name}", show(asked, units))),
        Err(NotTaken::NotComparable) => missing.push(format!("{} {name}: its lots are in another measure", show(asked, units))),
    }
}
