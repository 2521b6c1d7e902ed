//! What the open meals cost: the week is rehearsed on a bench of its own, by the rules of its bookings, so that a meal costs before it is
//! booked what it costs after.
//!
//! Knows the book's rules of taking and putting down; nothing of it is written.

use std::collections::BTreeMap;

use jiff::civil::{DateTime, Time};

use super::Reckoning;
use crate::book::{Bench, eat, goods_of, issue_session, put_all};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, RecipeId, Ware};
use crate::measure::{Dimension, Quantity};
use crate::plan::{in_makes, span};
use crate::prep::turnover;
use crate::purchase::{MealPrices, TripBuys, listed};

/// In the order in which they fall on one moment.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Happens {
    Trip(usize),
    Session(usize),
    Meal(usize),
}

/// What each meal of the week pays for what it takes, by its place.
pub(super) fn meal_prices(reckoning: &Reckoning) -> Vec<MealPrices> {
    let Reckoning { week, makings, demanded, netted, basket, .. } = reckoning;
    let kitchen: &Kitchen = &reckoning.kitchen;
    let mut bench = Bench::new(kitchen, Vec::new());
    bench.pay_as_listed(listed(basket));
    bench.rank_undated(span(week).1);
    let mut all: Vec<MealPrices> = week.meals.iter().map(|_| MealPrices::default()).collect();
    for (_, happens) in in_order(reckoning) {
        match happens {
            Happens::Trip(trip) => {
                let buys = TripBuys::from(&basket.trips[trip]);
                put_all(&kitchen.foods, &kitchen.lots, &mut bench, &goods_of(&kitchen.foods, &kitchen.rules, &buys).0, buys.on);
            }
            Happens::Session(session) => {
                let session = turnover(kitchen, week, makings, &demanded.demand, &netted.draws, session);
                drop(issue_session(kitchen, &mut bench, &session));
            }
            Happens::Meal(meal) => {
                let taken = eat(kitchen, &mut bench, week, (makings, demanded), meal).costs;
                all[meal] = per_unit(kitchen, taken);
            }
        }
        bench.lay_down();
    }
    all
}

fn in_order(reckoning: &Reckoning) -> Vec<(DateTime, Happens)> {
    let Reckoning { week, basket, .. } = reckoning;
    let trips = basket.trips.iter().enumerate().map(|(place, trip)| (trip.on.to_datetime(Time::midnight()), Happens::Trip(place)));
    let sessions = week.sessions.iter().enumerate().map(|(place, session)| (session.start, Happens::Session(place)));
    let meals = week.meals.iter().enumerate().map(|(place, meal)| (meal.at_time, Happens::Meal(place)));
    let mut all: Vec<(DateTime, Happens)> = trips.chain(sessions).chain(meals).collect();
    all.sort();
    all
}

/// What one unit of each thing cost that a meal took: of a food in the measure in which it is first taken, of a dish in that of its `makes`.
fn per_unit(kitchen: &Kitchen, taken: Vec<(Ware, Quantity, f64)>) -> MealPrices {
    let mut foods: BTreeMap<FoodId, (Dimension, f64, f64)> = BTreeMap::new();
    let mut recipes: BTreeMap<RecipeId, (f64, f64)> = BTreeMap::new();
    for (of, amount, cost) in taken {
        match of {
            Ware::Food(food) => {
                let sum = foods.entry(food).or_insert_with(|| (amount.dimension(), 0.0, 0.0));
                if sum.0 == amount.dimension() {
                    (sum.1, sum.2) = (sum.1 + cost, sum.2 + amount.base());
                }
            }
            Ware::Recipe(recipe) => {
                if let Some(makes) = in_makes(&kitchen.recipes[recipe], &amount) {
                    let sum = recipes.entry(recipe).or_default();
                    *sum = (sum.0 + cost, sum.1 + makes.to_f64());
                }
            }
        }
    }
    let foods = foods.into_iter().filter(|(_, (_, _, amount))| *amount > 0.0);
    let recipes = recipes.into_iter().filter(|(_, (_, amount))| *amount > 0.0);
    MealPrices {
        foods: foods.map(|(food, (dimension, cost, amount))| (food, (dimension, cost / amount))).collect(),
        recipes: recipes.map(|(recipe, (cost, amount))| (recipe, cost / amount)).collect(),
    }
}
