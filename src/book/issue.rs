//! Goods out to the kitchen: what a session takes and what it leaves cooked, and what a meal eats.

use jiff::civil::Date;

use super::bench::{Bench, Missing};
use super::out::{NotTaken, take_amount, take_recipe};
use super::record::{Exact, LotRecord};
use crate::foods::{FoodId, Place};
use crate::kitchen::{Kitchen, Made, Recipe, RecipeId, Wanted, Ware, Week};
use crate::measure::{Dimension, Number, Quantity, show};
use crate::plan::{Demanded, MadeAt, Makings, in_makes, served_lines};
use crate::prep::{Batch, Turnover};
use crate::shelf::after_days;

/// Takes what the session fetches and puts down what it boxes and what is eaten of it straight from the pot. Returns what the
/// shelf does not hold, in words.
pub fn issue_session(kitchen: &Kitchen, bench: &mut Bench, session: &Turnover) -> Vec<String> {
    let on = session.start.date();
    let mut missing = Vec::new();
    for fetch in session.fetch.iter().filter(|fetch| !fetch.amount.is_zero()) {
        match &fetch.of {
            Ok(Ware::Food(food)) => take_of_food(kitchen, bench, *food, &fetch.amount, on, &mut missing),
            Ok(Ware::Recipe(recipe)) => take_of_recipe(kitchen, bench, *recipe, &fetch.amount, on, &mut missing),
            Err(name) => note_missing(kitchen, Err(NotTaken::NoLot), name, &fetch.amount, &mut missing),
        }
    }
    for boxed in &session.boxes {
        bench.put(cooked(&kitchen.recipes[boxed.recipe], &boxed.amount, boxed.place, on, boxed.use_by));
    }
    for batch in &session.batches {
        let recipe = &kitchen.recipes[batch.recipe];
        let straight = eaten_straight(kitchen, session, batch);
        // A plan as it was printed has ten digits of what is no decimal.
        if &straight * 1_000_000 > *batch.makes.exact() {
            let amount = Quantity::of(&recipe.makes.dimension(), &straight);
            bench.put(cooked(recipe, &amount, Place::Fridge, on, after_days(on, recipe.fridge.unwrap_or_default())));
        }
    }
    missing
}

/// What is made less what is boxed and what the session's own dishes take, in the unit of `makes`.
fn eaten_straight(kitchen: &Kitchen, session: &Turnover, made: &Batch) -> Number {
    let recipe = &kitchen.recipes[made.recipe];
    let in_unit = |amount: &Quantity| in_makes(recipe, amount).unwrap_or_default();
    let boxed: Number = session.boxes.iter().filter(|boxed| boxed.recipe == made.recipe).map(|boxed| in_unit(&boxed.amount)).sum();
    let fetched = session.fetch.iter().filter(|fetch| fetch.of == Ok(Ware::Recipe(made.recipe)));
    let fetched: Number = fetched.map(|fetch| in_unit(&fetch.amount)).sum();
    let mut used = Number::ZERO;
    for dish in &session.batches {
        for line in &kitchen.recipes[dish.recipe].ingredients {
            if let Wanted::Recipe { recipe: part, most, .. } = &line.wanted
                && *part == made.recipe
            {
                used += in_unit(most) * Number::from_ten_digits(dish.batches);
            }
        }
    }
    made.makes.exact() - boxed - (used - fetched).max(Number::ZERO)
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
        take_of_food(kitchen, bench, demand.food, &demand.amount, on, &mut missing);
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
                eaten.push((*recipe, most.scaled(making.times(line.ware()))));
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

fn take_of_food(kitchen: &Kitchen, bench: &mut Bench, food: FoodId, amount: &Quantity, on: Date, missing: &mut Vec<String>) {
    let taken = take_amount(kitchen, bench, food, amount, on);
    note_missing(kitchen, taken, &kitchen.foods[food].name, amount, missing);
}

fn take_of_recipe(kitchen: &Kitchen, bench: &mut Bench, recipe: RecipeId, amount: &Quantity, on: Date, missing: &mut Vec<String>) {
    let taken = take_recipe(kitchen, bench, recipe, amount, Some(on));
    note_missing(kitchen, taken, &kitchen.recipes[recipe].name, amount, missing);
}

fn note_missing(kitchen: &Kitchen, taken: Result<(Missing, Dimension), NotTaken>, name: &str, asked: &Quantity, missing: &mut Vec<String>) {
    let units = kitchen.print.units;
    match taken {
        Ok((Missing(left), _)) if left <= 0 => (),
        Ok((Missing(left), dimension)) => missing.push(format!("{} {name}", show(&Quantity::of(&dimension, left), units))),
        Err(NotTaken::NoLot) => missing.push(format!("{} {name}", show(asked, units))),
        Err(NotTaken::NotComparable) => missing.push(format!("{} {name}: its lots are in another measure", show(asked, units))),
    }
}
