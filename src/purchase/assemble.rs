//! Everything the shopping list says, gathered from the stages before it.

use jiff::civil::Date;

use super::leaves::leaves;
use super::{Basket, Expiring, Flag, FromPantry, MoveNote, ShoppingList, SpareNote, TripList, meals};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Ware, Warning, Week};
use crate::measure::{Money, read_money};
use crate::pantry::Netted;
use crate::plan::{Makings, food_contains, span};

/// The stages the list is gathered from.
pub struct Parts<'r> {
    pub makings: &'r Makings,
    pub netted: &'r Netted,
    pub basket: &'r Basket,
    pub flags: &'r [Flag],
    pub moves: Vec<MoveNote>,
    pub ask: &'r [String],
    pub warnings: &'r [Warning],
}

/// The list of the trips and meals from `shown_from` on, or of all.
pub fn shopping_list(kitchen: &Kitchen, week: &Week, parts: Parts, shown_from: Option<Date>) -> ShoppingList {
    let currency = &kitchen.household.currency;
    let mut trips: Vec<_> = parts.basket.trips.iter().filter(|trip| shown_from.is_none_or(|day| trip.on >= day)).cloned().collect();
    point_out_avoided(kitchen, &mut trips);
    let shown = |trip: usize| shown_from.is_none_or(|day| week.trips[trip].on >= day);
    let first_day = shown_from.unwrap_or_else(|| span(week).0);
    let cost: Money = trips.iter().filter_map(|trip| read_money(&trip.cost, currency).ok()).sum();
    let listed = |food: &String| {
        let lines = trips.iter().flat_map(|trip| &trip.shops).flat_map(|shop| &shop.sections).flat_map(|section| &section.lines);
        lines.into_iter().any(|line| line.food == *food)
    };
    let mut meals = meals(kitchen, week, &parts.basket.paid);
    meals.retain(|meal| shown_from.is_none_or(|day| meal.on >= day));
    ShoppingList {
        week: week.name.clone(),
        from: week.from,
        currency: currency.code.clone(),
        cost: cost.decimal(currency),
        no_price: parts.basket.no_price.iter().filter(|food| listed(food)).cloned().collect(),
        from_pantry: from_pantry(kitchen, parts.netted),
        reserved: Vec::new(),
        expiring: expiring(kitchen, parts.netted),
        spare: spare(kitchen, parts.makings),
        ask: parts.ask.to_vec(),
        moves: parts.moves,
        flags: parts.flags.to_vec(),
        meals,
        warnings: parts.warnings.iter().map(Warning::to_string).collect(),
        leaves: leaves(kitchen, week, parts.netted, parts.basket, &shown, cost, first_day),
        budget: None,
        compare: None,
        trips,
    }
}

/// On every line whose food holds, or may hold, what the household avoids.
fn point_out_avoided(kitchen: &Kitchen, trips: &mut [TripList]) {
    let avoid = &kitchen.household.avoid;
    if avoid.is_empty() {
        return;
    }
    let shops = trips.iter_mut().flat_map(|trip| &mut trip.shops);
    for line in shops.flat_map(|shop| &mut shop.sections).flat_map(|section| &mut section.lines) {
        let food = kitchen.foods.all.iter().position(|food| food.name == line.food).map(|index| FoodId(index as u32));
        line.beware = food.and_then(|food| food_contains(kitchen, food).beware(avoid)).map(|beware| brief(&beware.to_string(), &line.food));
    }
}

/// Beside its own name a food need not be named again.
fn brief(words: &str, food: &str) -> String {
    words.replace(&format!("the allergens of {food} are not known"), "allergens not known")
}

fn from_pantry(kitchen: &Kitchen, netted: &Netted) -> Vec<FromPantry> {
    let entry = |draw: &crate::plan::Draw| {
        let (food, recipe) = match draw.of {
            Ware::Food(food) => (Some(kitchen.foods[food].name.clone()), None),
            Ware::Recipe(recipe) => (None, Some(kitchen.recipes[recipe].id.clone())),
        };
        FromPantry {
            food,
            recipe,
            amount: draw.amount.clone(),
            place: draw.place,
            on: draw.on,
            what_for: draw.what_for.clone(),
            look_first: draw.look_first,
        }
    };
    netted.draws.iter().map(entry).collect()
}

fn expiring(kitchen: &Kitchen, netted: &Netted) -> Vec<Expiring> {
    let entry = |(lot, amount, until): &(usize, crate::measure::Quantity, Date)| {
        let lot = &kitchen.lots[*lot];
        let (food, recipe) = match lot.of {
            Ware::Food(food) => (Some(kitchen.foods[food].name.clone()), None),
            Ware::Recipe(recipe) => (None, Some(kitchen.recipes[recipe].id.clone())),
        };
        Expiring { food, recipe, amount: amount.clone(), place: lot.place, until: *until }
    };
    netted.expiring.iter().map(entry).collect()
}

fn spare(kitchen: &Kitchen, makings: &Makings) -> Vec<SpareNote> {
    let spare = makings.makings.iter().filter_map(|making| making.spare.as_ref());
    let note = |spare: &crate::plan::Spare| SpareNote {
        recipe: kitchen.recipes[spare.recipe].id.clone(),
        amount: spare.amount.clone(),
        made_on: spare.made_on,
        eat_by: spare.eat_by,
    };
    spare.map(note).collect()
}
