//! `recipe NAME --steps`: the reading of a method as `[[step]]` tables in its place, for whoever wants to correct one.

use crate::foods::Foods;
use std::path::Path;

use toml_edit::{ArrayOfTables, DocumentMut, Item, Table, value};

use super::Cli;
use super::outcome::{Done, Failure, say};
use super::printed::text_of;
use crate::kitchen::{After, Kitchen, Piece, Recipe, RecipeId, Step, Wanted};
use crate::store::{Disk, Files};
use crate::words;

pub fn run(_cli: &Cli, folder: &Path, kitchen: &Kitchen, id: RecipeId) -> Done {
    let recipe = &kitchen.recipes[id];
    if recipe.method.is_empty() {
        return Err(Failure::NotKnown(format!("{} has no method: its steps are written already.", recipe.at.file)));
    }
    let path = folder.join(&recipe.at.file);
    let machine = |error: std::io::Error| Failure::Machine(format!("cannot read {}: {error}.", path.display()));
    let text = text_of(&path).map_err(machine)?;
    let written = with_steps(&text, kitchen, recipe).map_err(|cause| Failure::Machine(format!("{}: {cause}.", recipe.at.file)))?;
    replace(&path, &written).map_err(|error| Failure::writing(&path, &error))?;
    say(&format!("{}: the method is {} now.\n", recipe.at.file, words::counted(recipe.steps.len(), "step")))
}

/// A new file beside it, which then takes its name: nothing of the old one is lost on the way.
fn replace(path: &Path, text: &str) -> std::io::Result<()> {
    let (Some(folder), Some(name)) = (path.parent(), path.file_name().and_then(|name| name.to_str())) else { return Ok(()) };
    let (disk, new) = (Disk::new(folder), format!("{name}.new"));
    disk.write(&new, text.as_bytes())?;
    disk.sync(&new)?;
    disk.rename(&new, name)?;
    disk.sync_folder()
}

/// The file with its steps in place of `method`; every other line as it was.
fn with_steps(text: &str, kitchen: &Kitchen, recipe: &Recipe) -> Result<String, String> {
    let mut file: DocumentMut = text.parse().map_err(|error: toml_edit::TomlError| error.message().to_owned())?;
    let comments: Vec<String> = ["method", "trays"].iter().flat_map(|key| taken_out(&mut file, key)).collect();
    // What is done at the table is no step, and no more are notes. Both may stand in the file already.
    for (key, texts) in [("at_table", &recipe.at_table), ("notes", &recipe.notes)] {
        if !texts.is_empty() {
            file.insert(key, value(texts.iter().map(|text| text.replace(['\n', '\r'], " ")).collect::<toml_edit::Array>()));
        }
    }
    let mut steps = ArrayOfTables::new();
    for (index, step) in recipe.steps.iter().enumerate() {
        let mut table = table(kitchen, recipe, step);
        if index == 0 && !comments.is_empty() {
            table.decor_mut().set_prefix(format!("\n{}\n", comments.join("\n")));
        }
        steps.push(table);
    }
    file.insert("step", Item::ArrayOfTables(steps));
    Ok(with_ends_of(text, file.to_string()))
}

/// Takes a key out of the file, and says what comments stood above it, in its list or behind it.
fn taken_out(file: &mut DocumentMut, key: &str) -> Vec<String> {
    let Some((name, item)) = file.remove_entry(key) else { return Vec::new() };
    let said = |raw: Option<&toml_edit::RawString>| raw.and_then(|raw| raw.as_str()).unwrap_or_default().to_owned();
    let around = |decor: &toml_edit::Decor| [said(decor.prefix()), said(decor.suffix())];
    let mut texts = vec![said(name.leaf_decor().prefix())];
    if let Some(value) = item.as_value() {
        let list = value.as_array();
        texts.extend(list.into_iter().flatten().flat_map(|one| around(one.decor())));
        texts.extend(list.map(|list| said(Some(list.trailing()))));
        texts.extend(around(value.decor()));
    }
    let comment = |line: &str| line.trim_start().starts_with('#').then(|| line.trim().to_owned());
    texts.iter().flat_map(|text| text.lines().filter_map(comment).collect::<Vec<String>>()).collect()
}

/// A file whose lines all end as Windows ends them keeps them so.
fn with_ends_of(text: &str, written: String) -> String {
    let windows = text.matches("\r\n").count();
    let all = windows > 0 && windows == text.matches('\n').count();
    if all { written.replace("\r\n", "\n").replace('\n', "\r\n") } else { written }
}

fn table(kitchen: &Kitchen, recipe: &Recipe, step: &Step) -> Table {
    let mut table = Table::new();
    let guessed = step.estimated;
    let mut put = |key: &str, item: Item, estimated: bool| {
        table.insert(key, item);
        if estimated && let Some(value) = table.get_mut(key).and_then(Item::as_value_mut) {
            value.decor_mut().set_suffix("   # estimated");
        }
    };
    let minutes = |minutes: i64| value(format!("{minutes} min"));
    put("text", value(text(&kitchen.foods, &kitchen.recipes, recipe, step)), false);
    if step.hands.0 > 0 {
        put("hands", minutes(step.hands.0), guessed.hands);
    }
    if step.wait.0 > 0 {
        put("wait", minutes(step.wait.0), guessed.wait);
    }
    if let Some(on) = step.on.first() {
        put("on", value(kitchen.appliances[*on].name.as_str()), false);
        if step.takes != 1.0 {
            put("takes", value(step.takes), guessed.takes);
        }
    }
    if let Some(celsius) = step.temperature {
        put("temperature", value(format!("{} °C", celsius.0)), guessed.temperature);
    }
    if let Some(celsius) = step.inside {
        put("inside", value(format!("{} °C", celsius.0)), guessed.inside);
    }
    if let Some(skill) = &step.skill {
        put("skill", value(skill.as_str()), false);
    }
    if let Some(after) = &step.after {
        let mut list = toml_edit::Array::new();
        for one in after {
            if let After::Step(step) = one {
                list.push((step + 1).to_string());
            }
        }
        put("after", value(list), false);
    }
    if let Some(within) = step.within {
        put("within", minutes(within.0), guessed.within);
    }
    if step.scales != step.on.is_empty() {
        put("scales", value(step.scales), guessed.hands);
    }
    if let Some(ahead) = step.ahead {
        put("ahead", minutes(ahead.0), false);
    }
    table.decor_mut().set_prefix("\n");
    table
}

/// The text with its foods in braces, as a step names them.
fn text(foods: &Foods, recipes: &[Recipe], recipe: &Recipe, step: &Step) -> String {
    let piece = |piece: &Piece| match piece {
        Piece::Words(words) => words.clone(),
        Piece::Ingredient { index, share } => {
            let line = &recipe.ingredients[*index];
            let several = recipe.ingredients.iter().filter(|other| other.ware() == line.ware()).count() > 1;
            let name = match &line.wanted {
                // Of several lines of one food the line's own words say which.
                _ if several && !line.text.contains([':', '{', '}']) => line.text.clone(),
                Wanted::Food { food, .. } => foods[*food].name.clone(),
                Wanted::Recipe { recipe, .. } => format!("recipe:{}", recipes[*recipe].id),
            };
            match share {
                Some(share) => format!("{{{name}: {share}}}"),
                None => format!("{{{name}}}"),
            }
        }
    };
    step.text.iter().map(piece).collect::<String>().trim().to_owned()
}
