//! A recipe as schema.org/Recipe in JSON-LD. The names of its properties are from schema.org, from memory.

use crate::adopt::{as_markup, makes as yield_of};
use crate::foods::Foods;
use serde_json::{Value, json};

use crate::foods::Item;
use crate::kitchen::{Ingredient, Kitchen, Line, LineOf, Piece, Recipe, RecipeId, Wanted};
use crate::measure::{Amount, Dimension, Number, Quantity, Spoons, Unit, exact_number, read_quantity};
use crate::prep::step_text;
use crate::words::plural;

/// The page's block: name, yield, ingredients, method and source, for so many batches. Of one batch lines and method are as written; of more
/// or less the amounts are reckoned, in the lines and in the steps.
pub fn recipe_page(kitchen: &Kitchen, id: RecipeId, batches: &Number) -> Value {
    let recipe = &kitchen.recipes[id];
    let as_written = *batches == Number::ONE;
    let mut page = serde_json::Map::new();
    page.insert("@context".to_owned(), json!("https://schema.org"));
    page.insert("@type".to_owned(), json!("Recipe"));
    page.insert("name".to_owned(), json!(as_markup(&recipe.name)));
    let yields = as_typed(recipe).filter(|_| as_written).unwrap_or_else(|| makes(&recipe.makes.scaled(batches)));
    page.insert("recipeYield".to_owned(), json!(yields));
    page.insert(
        "recipeIngredient".to_owned(),
        json!(lines(recipe, |one| if as_written { with_its_name(kitchen, one) } else { scaled_line(kitchen, one, batches) })),
    );
    if let Some(lines) = page.get_mut("recipeIngredient").and_then(Value::as_array_mut) {
        lines.iter_mut().for_each(|line| *line = json!(as_markup(line.as_str().unwrap_or_default())));
    }
    let said = match as_written {
        true => method(&kitchen.foods, &kitchen.recipes, recipe),
        false => (0..recipe.steps.len()).map(|step| step_text(kitchen, id, step, batches)).collect(),
    };
    // A method as written says them itself.
    let beside: Vec<String> = match as_written && !recipe.method.is_empty() {
        true => Vec::new(),
        false => recipe.at_table.iter().chain(&recipe.notes).cloned().collect(),
    };
    let steps: Vec<Value> = said.into_iter().chain(beside).map(|text| json!({ "@type": "HowToStep", "text": as_markup(&text) })).collect();
    page.insert("recipeInstructions".to_owned(), json!(steps));
    if let Some(author) = &recipe.source.author {
        page.insert("author".to_owned(), json!({ "@type": "Person", "name": as_markup(author) }));
    }
    if let Some(title) = &recipe.source.title {
        page.insert("headline".to_owned(), json!(as_markup(title)));
    }
    if let Some(address) = &recipe.source.address {
        page.insert("url".to_owned(), json!(as_markup(address)));
    }
    Value::Object(page)
}

/// What it makes as it was typed, where whoever reads the page takes that for the same amount.
fn as_typed(recipe: &Recipe) -> Option<String> {
    let read = yield_of(&recipe.makes_typed)?;
    let same = read_quantity(&read, Spoons::Us).is_ok_and(|read| read == recipe.makes);
    same.then(|| recipe.makes_typed.clone()).filter(|_| matches!(recipe.makes.dimension(), Dimension::Mass | Dimension::Volume))
}

/// A line as it is typed; a recipe in it by its name, which others can read.
fn with_its_name(kitchen: &Kitchen, one: &Ingredient) -> String {
    match &one.wanted {
        Wanted::Recipe { recipe, .. } => {
            let Recipe { id, name, .. } = &kitchen.recipes[*recipe];
            one.text.replace(&format!("recipe:{id}"), name)
        }
        Wanted::Food { .. } => one.text.clone(),
    }
}

/// A line with its amount reckoned, its food in the right number: "6 leeks", "2 bay leaves", "2 tins (400 g) chopped tomatoes". What it says
/// beside that in other figures is left out.
pub fn scaled_line(kitchen: &Kitchen, one: &Ingredient, batches: &Number) -> String {
    let of = match &one.wanted {
        Wanted::Food { food, item } => {
            let (name, item) = in_its_number(&kitchen.foods[*food].name, one, item.as_ref().map(|item| as_measured(item.scaled(batches))));
            LineOf::Food { food: name, item }
        }
        Wanted::Recipe { recipe, amount, .. } => {
            let amount = amount.scaled(batches);
            return format!("{} {}", makes(&amount), kitchen.recipes[*recipe].name);
        }
    };
    let plain = |text: &Option<String>| text.clone().filter(|text| !text.contains(|c: char| c.is_numeric()));
    let (prep, remark, instead) = (one.prep.clone(), plain(&one.remark), plain(&one.instead));
    Line { of, prep, remark, instead, optional: one.optional, for_one: None, doubts: Vec::new() }.to_string()
}

fn as_measured(item: Item) -> Item {
    Item { amount: item.amount.as_measured(), plus: item.plus.iter().map(Amount::as_measured).collect(), ..item }
}

/// The food's name beside its amount. "2 leaves bay leaf" are two bay leaves, and what is in tins need not say so.
fn in_its_number(name: &str, one: &Ingredient, item: Option<Item>) -> (String, Option<Item>) {
    let Some(item) = item else { return (name.to_owned(), None) };
    match item.amount.unit {
        Unit::Word(word) if name.rsplit(' ').next() == Some(word.singular()) && item.size.is_none() => {
            let amount = Amount { unit: Unit::Piece, ..item.amount.clone() };
            let name = if amount.high > 1 { plural(name) } else { name.to_owned() };
            (name, Some(Item { amount, ..item }))
        }
        Unit::Word(word) if word.singular() == "tin" => (name.strip_prefix("tinned ").unwrap_or(name).to_owned(), Some(item)),
        _ => (name_in(name, one, Some(&item)), Some(item)),
    }
}

/// The food's name, of several where the line says so: "600 g leeks", "2 eggs".
fn name_in(name: &str, one: &Ingredient, item: Option<&Item>) -> String {
    let several = plural(name);
    let counts = item.is_some_and(|item| item.amount.unit == Unit::Piece && item.amount.high > 1);
    if counts || one.text.to_lowercase().contains(&several.to_lowercase()) { several } else { name.to_owned() }
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
    let piece = |said: &str, piece: &Piece| match piece {
        Piece::Words(words) => words.clone(),
        Piece::Ingredient { index, share } => {
            let one = &recipe.ingredients[*index];
            let name = match &one.wanted {
                Wanted::Food { food, item } => name_in(&foods[*food].name, one, item.as_ref()),
                Wanted::Recipe { recipe, .. } => recipes[*recipe].name.clone(),
            };
            match share {
                Some(share) if share.unit == Unit::Piece => format!("{share} of the {}", plural(&name)),
                Some(share) => format!("{share} of the {name}"),
                None if says_how_much(said) => name,
                None => format!("the {name}"),
            }
        }
    };
    let step =
        |step: &crate::kitchen::Step| step.text.iter().fold(String::new(), |said, one| said.clone() + &piece(&said, one)).trim().to_owned();
    recipe.steps.iter().map(step).collect()
}

/// "A little", "some": no article follows.
fn says_how_much(said: &str) -> bool {
    const WORDS: [&str; 9] = ["the", "little", "some", "more", "any", "few", "your", "each", "all"];
    said.trim_end().rsplit(' ').next().is_some_and(|word| WORDS.contains(&word.to_lowercase().as_str()))
}

/// What of a recipe the format cannot hold, in words.
pub fn not_in_a_page(recipe: &Recipe) -> Vec<&'static str> {
    let keeps = recipe.fridge.is_some() || recipe.freezer.is_some() || recipe.cupboard.is_some();
    let of_recipes = recipe.ingredients.iter().any(|one| matches!(one.wanted, Wanted::Recipe { .. }));
    let typed_steps = recipe.method.is_empty() && !recipe.steps.is_empty();
    let rows = [
        (keeps, "how long it keeps (keeps)"),
        (recipe.portion.is_some(), "the weight of a portion (portion)"),
        (recipe.batches != crate::kitchen::BatchCut::Halves, "how a batch may be cut (batches)"),
        (recipe.serve.is_some(), "whether it is reheated (serve)"),
        (recipe.boxed.is_some(), "its box (box)"),
        (recipe.made != crate::kitchen::Made::InASession, "that it is made at the meal (made)"),
        (!recipe.fits.is_empty(), "the places in a meal that it can take (fits)"),
        (!recipe.is.is_empty(), "what it is like at table (is)"),
        (recipe.style.is_some(), "its style (style)"),
        (recipe.hold != crate::kitchen::HOLD || recipe.hold_hot.is_some(), "how long it may stand (hold, hold_hot)"),
        (of_recipes, "that an ingredient is a recipe of its own, which is named: its page is another (recipe:)"),
        (typed_steps, "the times, appliances and temperatures of its steps (step)"),
    ];
    rows.into_iter().filter(|(is, _)| *is).map(|(_, what)| what).collect()
}
