//! `method`: the paragraphs of a recipe's method, read to steps; `at_table` and `notes`, which stand beside either.

use toml::de::DeValue;

use super::lines::Speech;
use super::table::Table;
use crate::kitchen::method::{MethodRead, Paragraph, Setting, named_in, read_method};
use crate::kitchen::{Appliance, Ingredient, Piece, Recipe};

/// Reads the method, where the recipe has one, into steps; beside `[[step]]` it is a mistake.
pub(super) fn read(
    top: &Table<'_>,
    recipe: &mut Recipe,
    ingredients: &[Ingredient],
    appliances: &[Appliance],
    speech: &Speech<'_>,
    names: &[String],
) {
    if top.has("step") {
        let remedy = "Keep one of the two: spence recipe NAME --steps writes the method as steps.";
        return top.mistake("method", "a recipe has either method or [[step]]", remedy);
    }
    // Read first: a mistake in the method hides no other.
    let trays = top.optional("trays", super::shapes::positive);
    let paragraphs = paragraphs(top, speech);
    if paragraphs.is_empty() {
        return;
    }
    let setting = Setting {
        kept: top.has("keeps").then_some(recipe.name.as_str()),
        ingredients,
        headings: &recipe.headings,
        foods: &speech.foods,
        spoons: speech.spoons,
        appliances,
        recipe_name: &|index| names.get(index).cloned().unwrap_or_default(),
        trays,
    };
    let MethodRead { steps, serve, notes, doubts } = read_method(&paragraphs, &setting);
    for (at, text) in doubts {
        top.file.found.note(at, format!("{text}."));
    }
    recipe.steps = steps;
    recipe.at_table = serve;
    recipe.notes = notes;
    recipe.method = paragraphs.into_iter().map(|paragraph| paragraph.text).collect();
}

/// What is done at the table and notes, which are written beside `[[step]]` and inside a method. Says which ingredients the table names.
pub(super) fn read_beside(
    top: &Table<'_>,
    recipe: &mut Recipe,
    ingredients: &[Ingredient],
    speech: &Speech<'_>,
    names: &[String],
) -> Vec<usize> {
    let texts = |key: &str| speech.paragraphs(top, key).into_iter().map(|paragraph| paragraph.text);
    for (key, kept) in [("at_table", &mut recipe.at_table), ("notes", &mut recipe.notes)] {
        if top.has("method") && top.has(key) {
            top.mistake(
                key,
                format!("{key} stands beside [[step]], and this recipe has a method"),
                "Write it as a sentence of the method.",
            );
        } else if top.has(key) {
            kept.extend(texts(key));
        }
    }
    if recipe.at_table.is_empty() {
        return Vec::new();
    }
    let name = |index: usize| names.get(index).cloned().unwrap_or_default();
    let pieces = recipe.steps.iter().flat_map(|step| &step.text);
    let in_steps: Vec<usize> =
        pieces.filter_map(|piece| if let Piece::Ingredient { index, .. } = piece { Some(*index) } else { None }).collect();
    let named = named_in(&recipe.at_table, &in_steps, ingredients, &recipe.headings, (&speech.foods, speech.spoons), &name);
    recipe.served = named.iter().copied().filter(|food| !in_steps.contains(food)).collect();
    named
}

/// A text of one paragraph a line, or a list of texts.
fn paragraphs(top: &Table<'_>, speech: &Speech<'_>) -> Vec<Paragraph> {
    let right = match top.entry("method").map(|entry| entry.value) {
        Some(DeValue::String(_)) => true,
        Some(DeValue::Array(items)) => items.iter().all(|item| item.get_ref().is_str()),
        _ => false,
    };
    if !right {
        top.mistake(
            "method",
            "method: expected text, or a list of texts",
            "Write one paragraph a line between \"\"\" and \"\"\", or a list of texts.",
        );
        return Vec::new();
    }
    let found = speech.paragraphs(top, "method");
    if found.is_empty() {
        top.mistake("method", "the method is empty", "Write what is done, one paragraph a line, or leave the key out.");
    }
    found
}
