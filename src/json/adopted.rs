//! Which recipes were taken in, and what their pages did not say.

use schemars::JsonSchema;
use serde::Serialize;

#[derive(JsonSchema, Serialize)]
pub(super) struct Adopted<'a> {
    recipes: Vec<Recipe<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct Recipe<'a> {
    recipe: &'a str,
    name: &'a str,
    file: String,
    missing: &'a [String],
}

/// Id, name and what is missing of each.
pub fn adopted<'a>(recipes: impl Iterator<Item = (&'a str, &'a str, &'a [String])>) -> impl Serialize + 'a {
    let recipe =
        |(id, name, missing): (&'a str, &'a str, &'a [String])| Recipe { recipe: id, name, file: format!("recipes/{id}.toml"), missing };
    Adopted { recipes: recipes.map(recipe).collect() }
}
