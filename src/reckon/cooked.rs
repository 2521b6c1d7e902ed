//! A session that was booked, as the book has it: what was made, what was taken off the shelf and where it lay, the boxes by place and
//! date. The order of its steps, and for whom a box is, the book does not know: that stays as it was printed.

use std::collections::BTreeSet;

use jiff::civil::DateTime;

use crate::book::{Booked, Cooked, CookedThen, Exact, LotRecord, as_lot, made_in};
use crate::foods::{Place, convert};
use crate::kitchen::{Kitchen, RecipeId, Ware};
use crate::measure::{Dimension, Number, Quantity};
use crate::prep::{Batch, Put, Taken, Turnover};

/// What it took and gave; what agrees with its print, as that has it. `None` where the book does not say it any more.
pub(super) fn as_cooked(kitchen: &Kitchen, start: DateTime, booked: &Booked, printed: Option<&Turnover>) -> Option<Turnover> {
    let then = booked.cooked(start)?;
    // Older books do not say what was made.
    let made = if then.cooked.is_empty() {
        printed.map(|printed| made_in(&kitchen.recipes, printed)).unwrap_or_default()
    } else {
        then.cooked.to_vec()
    };
    let boxes = boxes(kitchen, &then, &made, printed);
    let batches = match made.is_empty() {
        true => boxed_alone(kitchen, &boxes),
        false => made.iter().filter_map(|cooked| batch(kitchen, cooked, printed)).collect(),
    };
    Some(Turnover { start, batches, fetch: fetched(kitchen, &then, printed), boxes })
}

fn recipe_called(kitchen: &Kitchen, id: &str) -> Option<RecipeId> {
    kitchen.recipes.iter().position(|recipe| recipe.id == id).map(RecipeId)
}

fn batch(kitchen: &Kitchen, cooked: &Cooked, printed: Option<&Turnover>) -> Option<Batch> {
    let (recipe, makes) = (recipe_called(kitchen, &cooked.recipe)?, cooked.makes.quantity());
    let same = printed.into_iter().flat_map(|printed| &printed.batches).find(|batch| batch.recipe == recipe);
    if let Some(same) = same.filter(|batch| are_alike(&batch.makes, &makes)) {
        return Some(same.clone());
    }
    let batches = makes.ratio(&kitchen.recipes[recipe].makes).map(|ratio| ratio.to_f64()).unwrap_or_default();
    Some(Batch { recipe, batches, makes })
}

/// Where nobody says what was made, it was what is in the boxes.
fn boxed_alone(kitchen: &Kitchen, boxes: &[Put]) -> Vec<Batch> {
    let recipes: BTreeSet<RecipeId> = boxes.iter().map(|put| put.recipe).collect();
    let batch = |id: RecipeId| {
        let recipe = &kitchen.recipes[id];
        let of_it = boxes.iter().filter(|put| put.recipe == id);
        let makes: Number = of_it.map(|put| recipe.in_makes(&put.amount)).sum::<Option<Number>>()?;
        let makes = Quantity::of(&recipe.makes.dimension(), makes);
        Some(Batch { recipe: id, batches: makes.ratio(&recipe.makes)?.to_f64(), makes })
    };
    recipes.into_iter().filter_map(batch).collect()
}

/// The boxes that the book has, without what was served straight from the pot.
fn boxes(kitchen: &Kitchen, then: &CookedThen, made: &[Cooked], printed: Option<&Turnover>) -> Vec<Put> {
    let mut put: Vec<&LotRecord> = then.put.clone();
    for cooked in made {
        let Some(straight) = &cooked.straight else { continue };
        let is_it =
            |lot: &&LotRecord| lot.recipe.as_ref() == Some(&cooked.recipe) && lot.place == Place::Fridge && near(&lot.amount, straight);
        if let Some(place) = put.iter().rposition(is_it) {
            put.remove(place);
        }
    }
    let mut told: Vec<&Put> = printed.iter().flat_map(|printed| &printed.boxes).collect();
    let as_told = |put: Put| match told.iter().position(|told| is_one_box(told, &put)) {
        Some(place) => told.remove(place).clone(),
        None => put,
    };
    put.into_iter().filter_map(|lot| as_put(kitchen, lot)).map(as_told).collect()
}

fn near(a: &Exact, b: &Exact) -> bool {
    are_alike(&a.quantity(), &b.quantity())
}

fn as_put(kitchen: &Kitchen, record: &LotRecord) -> Option<Put> {
    let lot = as_lot(kitchen, record)?;
    let Ware::Recipe(recipe) = lot.of else { return None };
    let (eater, without) = lot.whose.map(|whose| (Some(whose.eater), whose.without)).unwrap_or_default();
    Some(Put { recipe, eater, without, amount: lot.amount, place: lot.place, use_by: lot.use_by? })
}

/// What lacks nothing is booked as everybody's, whoever's box it was.
fn is_one_box(told: &Put, put: &Put) -> bool {
    let same = (told.recipe, told.place, told.use_by, &told.without) == (put.recipe, put.place, put.use_by, &put.without);
    same && (told.eater == put.eater || put.eater.is_none()) && are_alike(&told.amount, &put.amount)
}

/// What was taken of one food or dish, from one place.
struct Took {
    of: Result<Ware, String>,
    amount: Quantity,
    place: Place,
}

/// What left the shelf, in the order in which it was printed; what agrees with the print is as there.
fn fetched(kitchen: &Kitchen, then: &CookedThen, printed: Option<&Turnover>) -> Vec<Taken> {
    let mut took = took(kitchen, then);
    let mut fetch = Vec::new();
    let listed: &[Taken] = printed.map_or(&[], |printed| &printed.fetch);
    for (place, told) in listed.iter().enumerate() {
        if listed[..place].iter().any(|before| before.of == told.of) {
            continue;
        }
        let all = || listed.iter().filter(|other| other.of == told.of);
        // To taste: the book has no amount of it.
        if all().all(|told| told.amount.is_zero()) {
            fetch.extend(all().cloned());
            continue;
        }
        let (of_it, rest): (Vec<Took>, Vec<Took>) = took.into_iter().partition(|took| took.of == told.of);
        took = rest;
        let own = told.amount.dimension();
        let listed: Option<Number> = all().map(|told| stated(kitchen, told.of.as_ref().ok().copied(), &told.amount, &own)).sum();
        let taken: Option<Number> = of_it.iter().map(|took| stated(kitchen, took.of.as_ref().ok().copied(), &took.amount, &own)).sum();
        match listed.zip(taken) {
            Some((listed, taken)) if (&listed - &taken).abs() < own.rest() => fetch.extend(all().cloned()),
            _ => fetch.extend(of_it.into_iter().map(|took| as_taken(kitchen, took, &own))),
        }
    }
    fetch.extend(took.into_iter().map(|took| Taken { of: took.of, amount: took.amount, place: Some(took.place) }));
    fetch
}

/// In the measure of the print, where it can be stated so.
fn as_taken(kitchen: &Kitchen, took: Took, own: &Dimension) -> Taken {
    let amount = stated(kitchen, took.of.as_ref().ok().copied(), &took.amount, own).map(|amount| Quantity::of(own, amount));
    Taken { of: took.of, amount: amount.unwrap_or(took.amount), place: Some(took.place) }
}

/// One entry a food or dish, place and measure, in the order of the book.
fn took(kitchen: &Kitchen, then: &CookedThen) -> Vec<Took> {
    let mut all: Vec<Took> = Vec::new();
    for (lot, amount) in then.took.iter().filter(|(_, amount)| amount.is_positive()) {
        let of = as_lot(kitchen, lot).map_or_else(|| Err(lot.name().to_owned()), |lot| Ok(lot.of));
        let amount = Exact { number: amount.clone(), dimension: lot.amount.dimension.clone() }.quantity();
        let same = |took: &&mut Took| took.of == of && took.place == lot.place;
        match all.iter_mut().filter(same).find_map(|took| took.amount.plus(&amount).map(|sum| (took, sum))) {
            Some((took, sum)) => took.amount = sum,
            None => all.push(Took { of, amount, place: lot.place }),
        }
    }
    all
}

fn stated(kitchen: &Kitchen, of: Option<Ware>, amount: &Quantity, own: &Dimension) -> Option<Number> {
    if amount.dimension() == *own {
        return Some(amount.exact().clone());
    }
    match of? {
        Ware::Food(food) => convert(&kitchen.foods[food], amount, own).ok().map(|amount| amount.exact().clone()),
        Ware::Recipe(recipe) => {
            let recipe = &kitchen.recipes[recipe];
            let one = recipe.in_makes(&Quantity::of(own, 1)).filter(Number::is_positive)?;
            Some(recipe.in_makes(amount)? / one)
        }
    }
}

/// A print has ten digits of what is no decimal.
fn are_alike(a: &Quantity, b: &Quantity) -> bool {
    a.dimension() == b.dimension() && (a.base() - b.base()).abs() <= 1e-6 * a.base().max(b.base())
}
