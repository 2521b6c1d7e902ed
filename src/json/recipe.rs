//! One recipe, with its steps as they were read and which of their figures nobody wrote.

use schemars::JsonSchema;
use serde::Serialize;

use crate::foods::{Allergen, Foods, State};
use crate::kitchen::{After, Estimates, Ingredient, Kitchen, Piece, Recipe, RecipeId, Source, Step, Wanted, Warning};
use crate::measure::{Dimension, Money, Number, Quantity};
use crate::plan::hands_for;
use crate::plan::recipe_contains;
use crate::prep::{step_text, times_for};
use crate::purchase::{PerEater, per_batch, per_portion};
use crate::telling;

#[derive(JsonSchema, Serialize)]
pub(super) struct Card<'a> {
    recipe: &'a str,
    name: &'a str,
    makes: Quantity,
    source: Option<Origin<'a>>,
    ingredients: Vec<Line<'a>>,
    steps: Vec<Done<'a>>,
    /// What the method says is done at the table.
    serve: &'a [String],
    /// Tips, what keeps how long, other ways to make it: as the method says them.
    notes: &'a [String],
    keeps: Keeps,
    allergens: Vec<Allergen>,
    per_portion: Portion,
    missing: Vec<String>,
    warnings: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct Origin<'a> {
    author: Option<&'a str>,
    title: Option<&'a str>,
    address: Option<&'a str>,
}

#[derive(JsonSchema, Serialize)]
struct Line<'a> {
    line: &'a str,
    food: Option<&'a str>,
    recipe: Option<&'a str>,
    amount: Option<Quantity>,
    form: Option<&'a str>,
    remark: Option<&'a str>,
    /// Where the line names another food that would do.
    #[serde(skip_serializing_if = "Option::is_none")]
    instead: Option<&'a str>,
    optional: bool,
}

#[derive(JsonSchema, Serialize)]
struct Done<'a> {
    step: usize,
    id: Option<&'a str>,
    text: String,
    hands_minutes: i64,
    wait_minutes: i64,
    appliance: Option<&'a str>,
    at_celsius: Option<f64>,
    inside_celsius: Option<f64>,
    skill: Option<&'a str>,
    after: Vec<String>,
    ahead_minutes: i64,
    foods: Vec<&'a str>,
    takes: Option<f64>,
    estimated: Vec<&'static str>,
}

#[derive(JsonSchema, Serialize)]
struct Keeps {
    cupboard: Option<i64>,
    fridge: Option<i64>,
    freezer: Option<i64>,
}

#[derive(JsonSchema, Serialize)]
struct Portion {
    kcal: f64,
    protein_g: f64,
    fibre_g: f64,
    cost: String,
    at_least: bool,
}

/// `batches` times one batch.
pub fn recipe<'a>(kitchen: &'a Kitchen, id: RecipeId, batches: &Number, warnings: &[Warning]) -> impl Serialize + 'a {
    let recipe = &kitchen.recipes[id];
    let note = per_portion(kitchen, id).unwrap_or_else(|| per_batch(kitchen, id));
    let PerEater { kcal, protein_g, fibre_g, cost } = note.per;
    let days = |days: Option<crate::measure::Days>| days.map(|days| days.0);
    Card {
        recipe: &recipe.id,
        name: &recipe.name,
        makes: recipe.makes.scaled(batches),
        source: origin(&recipe.source),
        ingredients: recipe
            .ingredients
            .iter()
            .zip(times_for(kitchen, id, batches))
            .map(|(one, times)| line(kitchen, one, &times))
            .collect(),
        steps: (0..recipe.steps.len()).map(|index| step(kitchen, id, index, batches)).collect(),
        serve: &recipe.at_table,
        notes: &recipe.notes,
        keeps: Keeps { cupboard: days(recipe.cupboard), fridge: days(recipe.fridge), freezer: days(recipe.freezer) },
        allergens: recipe_contains(kitchen, id).allergens.into_iter().collect(),
        per_portion: Portion {
            kcal: tenth(kcal),
            protein_g: tenth(protein_g),
            fibre_g: tenth(fibre_g),
            cost: cost.unwrap_or(Money::ZERO).decimal(&kitchen.household.currency),
            at_least: !note.missing.is_empty(),
        },
        missing: note.missing.iter().map(|lacking| telling::list::lacking(lacking, kitchen.names())).collect(),
        warnings: warnings.iter().map(ToString::to_string).collect(),
    }
}

fn tenth(figure: Option<f64>) -> f64 {
    (figure.unwrap_or_default() * 10.0).round() / 10.0
}

fn origin(source: &Source) -> Option<Origin<'_>> {
    let Source { author, title, address } = source;
    let known = author.is_some() || title.is_some() || address.is_some();
    known.then_some(Origin { author: author.as_deref(), title: title.as_deref(), address: address.as_deref() })
}

fn line<'a>(kitchen: &'a Kitchen, one: &'a Ingredient, times: &Number) -> Line<'a> {
    let blank = Line {
        line: &one.text,
        food: None,
        recipe: None,
        amount: None,
        form: one.prep.as_deref(),
        remark: one.remark.as_deref(),
        instead: one.instead.as_deref(),
        optional: one.optional,
    };
    match &one.wanted {
        Wanted::Recipe { recipe, most, .. } => {
            Line { recipe: Some(&kitchen.recipes[*recipe].id), amount: Some(most.scaled(times)), ..blank }
        }
        Wanted::Food { food, item } => {
            let facts = &kitchen.foods[*food];
            let amount = item.as_ref().and_then(|item| {
                let spoons = kitchen.rules.spoons;
                let scaled = item.scaled(times);
                let grams = || crate::foods::as_purchased(facts, &scaled, &Dimension::Mass, spoons).ok();
                crate::foods::own_dimension(facts, &scaled, spoons).or_else(grams)
            });
            let form = item.as_ref().and_then(|item| match &item.state {
                State::Prepared(form) => Some(form.as_str()),
                State::Cooked => Some("cooked"),
                State::Drained => Some("drained"),
                State::AsPurchased => None,
            });
            Line { food: Some(&facts.name), amount, form: form.or(blank.form), ..blank }
        }
    }
}

fn step<'k>(kitchen: &'k Kitchen, id: RecipeId, index: usize, batches: &Number) -> Done<'k> {
    let recipe = &kitchen.recipes[id];
    let step = &recipe.steps[index];
    let times = batches.to_f64();
    let hands = hands_for(step, times, 1.0);
    Done {
        step: index + 1,
        id: step.id.as_deref(),
        text: step_text(kitchen, id, index, batches),
        hands_minutes: hands,
        wait_minutes: step.wait.0,
        appliance: step.on.first().map(|on| kitchen.appliances[*on].name.as_str()),
        at_celsius: step.temperature.map(|celsius| celsius.0),
        inside_celsius: step.inside.map(|celsius| celsius.0),
        skill: step.skill.as_deref(),
        after: after(&kitchen.recipes, &recipe.steps, index),
        ahead_minutes: step.ahead.map_or(0, |ahead| ahead.0),
        foods: foods(&kitchen.foods, &kitchen.recipes, &recipe.ingredients, step),
        takes: (!step.on.is_empty()).then_some(step.takes * times),
        estimated: estimated(step.estimated),
    }
}

/// The keys whose figures nobody wrote.
fn estimated(of: Estimates) -> Vec<&'static str> {
    let all = [
        (of.hands, "hands_minutes"),
        (of.wait, "wait_minutes"),
        (of.temperature, "at_celsius"),
        (of.inside, "inside_celsius"),
        (of.takes, "takes"),
    ];
    all.into_iter().filter(|(is, _)| *is).map(|(_, key)| key).collect()
}

fn after(recipes: &[Recipe], steps: &[Step], index: usize) -> Vec<String> {
    let name = |step: usize| steps[step].id.clone().unwrap_or_else(|| (step + 1).to_string());
    match &steps[index].after {
        None => index.checked_sub(1).map(name).into_iter().collect(),
        Some(after) => {
            let one = |one: &After| match one {
                After::Step(step) => name(*step),
                After::Recipe(recipe) => format!("recipe:{}", recipes[*recipe].id),
            };
            after.iter().map(one).collect()
        }
    }
}

fn foods<'a>(foods: &'a Foods, recipes: &'a [Recipe], ingredients: &[Ingredient], step: &Step) -> Vec<&'a str> {
    let named =
        step.text.iter().filter_map(|piece| if let Piece::Ingredient { index, .. } = piece { ingredients.get(*index) } else { None });
    let mut names: Vec<&str> = Vec::new();
    for one in named {
        let name = match &one.wanted {
            Wanted::Food { food, .. } => foods[*food].name.as_str(),
            Wanted::Recipe { recipe, .. } => recipes[*recipe].id.as_str(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}
