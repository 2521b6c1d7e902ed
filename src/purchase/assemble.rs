//! Everything the shopping list says, gathered from the stages before it.

use jiff::civil::Date;

use super::leaves::leaves;
use super::{
    Basket, Beware, Budget, Expiring, Flag, FromPantry, MealPrices, Reserved, ShoppingList, TripComparison, TripList, days, meals,
};
use crate::foods::{FoodId, Foods, convert};
use crate::kitchen::{Household, Kitchen, Lot, Recipe, Ware, Warning, Week};
use crate::measure::{Dimension, Number, Quantity};
use crate::pantry::Netted;
use crate::plan::{Draw, Makings, food_contains, span};
use crate::shelf::lot_dates;

/// The stages the list is gathered from.
pub struct Parts<'r> {
    pub makings: &'r Makings,
    pub netted: &'r Netted,
    pub basket: &'r Basket,
    pub flags: &'r [Flag],
    pub ask: &'r [FoodId],
    /// What other weeks take off the shelf first.
    pub reserved: &'r [Reserved],
    pub warnings: &'r [Warning],
    pub today: Date,
    /// What each meal pays for what it takes, by its place in the week.
    pub meal_prices: &'r [MealPrices],
    pub budget: Option<Budget>,
    /// Where it was asked for.
    pub compare: Option<Vec<TripComparison>>,
}

/// The list of a week's open trips and meals. `today` is given once the week has begun.
pub fn shopping_list(kitchen: &Kitchen, week: &Week, parts: Parts, today: Option<Date>) -> ShoppingList {
    let mut trips: Vec<TripList> = parts.basket.trips.clone();
    point_out_avoided(&kitchen.foods, &kitchen.household, &mut trips);
    let first_day = today.unwrap_or_else(|| span(week).0);
    let cost = trips.iter().map(|trip| trip.cost).sum();
    let listed = |food: FoodId| trips.iter().flat_map(TripList::lines).any(|line| line.food == food);
    let meals = meals(kitchen, week, &parts.basket.paid, parts.meal_prices);
    let days = days(kitchen, &meals);
    ShoppingList {
        week: week.name.clone(),
        from: week.from,
        cost,
        no_price: parts.basket.no_price.iter().copied().filter(|food| listed(*food)).collect(),
        from_pantry: parts.netted.draws.iter().map(|draw| from_pantry(kitchen, draw, parts.netted.lots.get(draw.lot))).collect(),
        reserved: parts.reserved.to_vec(),
        expiring: parts
            .netted
            .expiring
            .iter()
            .map(|(lot, until)| expiring(&kitchen.foods, &kitchen.recipes, &parts.netted.lots[*lot], *until, parts.today))
            .collect(),
        spare: parts.makings.makings.iter().filter_map(|making| making.spare.clone()).collect(),
        ask: parts.ask.to_vec(),
        moves: parts.makings.moves.clone(),
        flags: parts.flags.to_vec(),
        short: parts.makings.short.clone(),
        meals,
        days,
        warnings: parts.warnings.to_vec(),
        leaves: leaves(kitchen, week, parts.netted, parts.basket, cost, first_day),
        budget: parts.budget,
        compare: parts.compare,
        trips,
    }
}

/// On every line whose food holds, or may hold, what the household avoids.
fn point_out_avoided(foods: &Foods, household: &Household, trips: &mut [TripList]) {
    let lines =
        trips.iter_mut().flat_map(|trip| &mut trip.shops).flat_map(|shop| &mut shop.sections).flat_map(|section| &mut section.lines);
    lines.for_each(|line| line.beware = beware(foods, household, line.food));
}

fn beware(foods: &Foods, household: &Household, food: FoodId) -> Option<Beware> {
    let avoid = &household.avoid;
    let contains = food_contains(foods, household, food);
    let met: Vec<_> = avoid.iter().copied().filter(|one| contains.allergens.contains(one)).collect();
    if !contains.avoided.is_empty() {
        let names = met.iter().map(|one| one.name().to_owned());
        return Some(Beware::Holds(names.chain(contains.avoided.iter().cloned()).collect()));
    }
    if !met.is_empty() {
        return Some(Beware::Contains(met));
    }
    let doubtful = !avoid.is_empty() && !contains.unknown.is_empty();
    doubtful.then(|| Beware::MayContain(avoid.clone()))
}

fn from_pantry(kitchen: &Kitchen, draw: &Draw, lot: Option<&Lot>) -> FromPantry {
    let Draw { of, place, on, look_first, .. } = *draw;
    let amount = draw.amount.clone();
    let lies = lot.and_then(|lot| in_measure(kitchen, of, &amount, &lot.amount.dimension())).unwrap_or_else(|| amount.clone());
    let is_all = lot_before(kitchen, draw).is_some_and(|lot| lot.amount == lies);
    FromPantry { of, amount, lies, is_all, place, on, what_for: draw.what_for.clone(), look_first, whose: draw.whose.clone() }
}

/// As it lay before anything was drawn; packs that the plan opened lay in none.
fn lot_before<'k>(kitchen: &'k Kitchen, draw: &Draw) -> Option<&'k Lot> {
    kitchen.lots.get(draw.lot).filter(|lot| lot.of == draw.of)
}

fn in_measure(kitchen: &Kitchen, of: Ware, amount: &Quantity, measure: &Dimension) -> Option<Quantity> {
    match of {
        _ if amount.dimension() == *measure => None,
        Ware::Food(food) => convert(&kitchen.foods[food], amount, measure).ok(),
        Ware::Recipe(recipe) => {
            let recipe = &kitchen.recipes[recipe];
            let one = recipe.in_makes(&Quantity::of(measure, 1)).filter(Number::is_positive)?;
            Some(Quantity::of(measure, recipe.in_makes(amount)? / one))
        }
    }
}

fn expiring(foods: &Foods, recipes: &[Recipe], lot: &Lot, until: Option<Date>, today: Date) -> Expiring {
    let past = !lot_dates(foods, recipes, lot).may_be_drawn_on(today);
    let lies_past = past || until.is_some_and(|until| until < today);
    Expiring { of: lot.of, whose: lot.whose.clone(), amount: lot.amount.clone(), place: lot.place, until, past, lies_past }
}
