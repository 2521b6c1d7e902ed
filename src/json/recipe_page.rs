//! A recipe as schema.org/Recipe in JSON-LD. The names of its properties are from schema.org, from memory.

use crate::foods::Foods;
use serde_json::{Value, json};

use crate::kitchen::{Ingredient, Kitchen, Line, LineOf, Piece, Recipe, RecipeId, Wanted};
use crate::measure::{Dimension, Quantity, Unit, exact_number};
use crate::prep::step_text;
use crate::words::plural;

/// The page's block: name, yield, ingredients, method and source, for so many batches. Of one batch lines and method are as written; of more
/// or less the amounts are reckoned, in the lines and in the steps.
pub fn recipe_page(kitchen: &Kitchen, id: RecipeId, batches: f64) -> Value {
    let recipe = &kitchen.recipes[id];
    let as_written = batches == 1.0;
    let mut page = serde_json::Map::new();
    page.insert("@context".to_owned(), json!("https://schema.org"));
    page.insert("@type".to_owned(), json!("Recipe"));
    page.insert("name".to_owned(), json!(recipe.name));
    page.insert("recipeYield".to_owned(), json!(makes(&recipe.makes.scaled(batches))));
    page.insert(
        "recipeIngredient".to_owned(),
        json!(lines(recipe, |one| if as_written { one.text.clone() } else { line(kitchen, one, batches) })),
    );
    let said = match as_written {
        true => method(&kitchen.foods, &kitchen.recipes, recipe),
        false => (0..recipe.steps.len()).map(|step| step_text(kitchen, id, step, batches)).collect(),
    };
    // A method as written says them itself.
    let beside: Vec<String> = match as_written && !recipe.method.is_empty() {
        true => Vec::new(),
        false => recipe.at_table.iter().chain(&recipe.notes).cloned().collect(),
    };
    let steps: Vec<Value> = said.into_iter().chain(beside).map(|text| json!({ "@type": "HowToStep", "text": text })).collect();
    page.insert("recipeInstructions".to_owned(), json!(steps));
    if let Some(author) = &recipe.source.author {
        page.insert("author".to_owned(), json!({ "@type": "Person", "name": author }));
    }
    if let Some(title) = &recipe.source.title {
        page.insert("headline".to_owned(), json!(title));
    }
    if let Some(address) = &recipe.source.address {
        page.insert("url".to_owned(), json!(address));
    }
    Value::Object(page)
}

/// A line with its amount reckoned. What it says beside that in other figures is left out.
fn line(kitchen: &Kitchen, one: &Ingredient, batches: f64) -> String {
    let of = match &one.wanted {
        Wanted::Food { food, item } => {
            LineOf::Food { food: kitchen.foods[*food].name.clone(), item: item.as_ref().map(|item| item.scaled(batches)) }
        }
        Wanted::Recipe { recipe, amount, .. } => {
            let amount = amount.scaled(batches);
            return format!("{} recipe:{}", makes(&amount), kitchen.recipes[*recipe].id);
        }
    };
    let plain = |text: &Option<String>| text.clone().filter(|text| !text.contains(|c: char| c.is_numeric()));
    let (prep, remark, instead) = (one.prep.clone(), plain(&one.remark), plain(&one.instead));
    Line { of, prep, remark, instead, optional: one.optional, doubts: Vec::new() }.to_string()
}

/// The lines, with the headings between them; one that names several foods stands once as it is typed.
fn lines(recipe: &Recipe, said: impl Fn(&Ingredient) -> String) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let heading = |place: usize| recipe.headings.iter().filter(move |(at, _)| *at == place).map(|(_, heading)| format!("{heading}:"));
    for (place, one) in recipe.ingredients.iter().enumerate() {
        let again = place > 0 && recipe.ingredients[place - 1].at == one.at;
        lines.extend(heading(place));
        lines.extend(Some(said(one)).filter(|text| !again || *text != one.text));
    }
    lines.extend(heading(recipe.ingredients.len()));
    lines
}

fn makes(makes: &Quantity) -> String {
    let number = exact_number(makes.exact());
    let base = makes.base();
    let in_thousands = (base >= 1000.0 && base.fract() == 0.0).then_some(base / 1000.0);
    let one = base == 1.0;
    match makes.dimension() {
        Dimension::Portion => format!("{number} portion{}", if one { "" } else { "s" }),
        Dimension::Count => format!("{number} piece{}", if one { "" } else { "s" }),
        Dimension::Mass if in_thousands.is_some() => format!("{} kg", in_thousands.unwrap_or_default()),
        Dimension::Volume if in_thousands.is_some() => format!("{} l", in_thousands.unwrap_or_default()),
        other => format!("{number} {other}"),
    }
}

/// The method as it was written; steps are their texts with the foods by name, and shares as a method says them: "2 tbsp of the olive oil".
fn method(foods: &Foods, recipes: &[Recipe], recipe: &Recipe) -> Vec<String> {
    if !recipe.method.is_empty() {
        return recipe.method.clone();
    }
    let piece = |piece: &Piece| match piece {
        Piece::Words(words) => words.clone(),
        Piece::Ingredient { index, share } => {
            let name = match &recipe.ingredients[*index].wanted {
                Wanted::Food { food, .. } => &foods[*food].name,
                Wanted::Recipe { recipe, .. } => &recipes[*recipe].name,
            };
            match share {
                Some(share) if share.unit == Unit::Piece => format!("{share} of the {}", plural(name)),
                Some(share) => format!("{share} of the {name}"),
                None => format!("the {name}"),
            }
        }
    };
    recipe.steps.iter().map(|step| step.text.iter().map(piece).collect::<String>().trim().to_owned()).collect()
}

/// What of a recipe the format cannot hold, in words.
pub fn not_in_a_page(recipe: &Recipe) -> Vec<&'static str> {
    let keeps = recipe.fridge.is_some() || recipe.freezer.is_some() || recipe.cupboard.is_some();
    let typed_steps = recipe.method.is_empty() && !recipe.steps.is_empty();
    let rows = [
        (keeps, "how long it keeps (keeps)"),
        (recipe.portion.is_some(), "the weight of a portion (portion)"),
        (recipe.batches != crate::kitchen::BatchCut::Halves, "how a batch may be cut (batches)"),
        (recipe.serve.is_some(), "whether it is reheated (serve)"),
        (recipe.boxed.is_some(), "its box (box)"),
        (recipe.made != crate::kitchen::Made::InASession, "that it is made at the meal (made)"),
        (typed_steps, "the times, appliances and temperatures of its steps (step)"),
    ];
    rows.into_iter().filter(|(is, _)| *is).map(|(_, what)| what).collect()
}
