//! `recipe NAME`: the card of one recipe, with every estimate marked.

use std::fmt::Write;

use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::{Cli, Format, FormatWord};
use crate::adopt::id_of;
use crate::json::scaled_line;
use crate::kitchen::{After, Ingredient, Kitchen, Recipe, RecipeId, Step, Warning, did_you_mean, likely};
use crate::measure::{Dimension, Number, Quantity, Spoons, Units, read_quantity, show};
use crate::plan::hands_for;
use crate::plan::{in_makes, recipe_contains, told_of_words};
use crate::prep::{step_text, times_for};
use crate::purchase::{per_batch, per_portion};
use crate::telling;
use crate::telling::list::OPTIONAL;
use crate::words;

/// What of a recipe is asked for.
pub struct Asked<'a> {
    pub name: &'a str,
    /// "12 portions".
    pub amount: Option<&'a str>,
    pub steps: bool,
}

pub fn run(cli: &Cli, asked: &Asked<'_>) -> Done {
    let setting = Setting::read(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let id = find(kitchen, asked.name)?;
    let recipe = &kitchen.recipes[id];
    let batches = match asked.amount {
        Some(amount) => batches(kitchen.print.units, &kitchen.recipes, id, amount)?,
        None => Number::ONE,
    };
    let batches = &batches;
    let warnings: Vec<Warning> =
        setting.loaded.warnings.iter().filter(|warning| warning.at().is_some_and(|at| at.file == recipe.at.file)).cloned().collect();
    let warnings: Vec<Warning> = warnings.into_iter().chain(told_of_words(kitchen, id)).collect();
    if asked.steps {
        return super::recipe_steps::run(cli, &setting.folder, kitchen, id);
    }
    warn(&warnings, cli.strict)?;
    match (cli.typed_format, cli.format) {
        (FormatWord::Jsonld, _) => super::recipe_page::run(kitchen, id, batches),
        (_, Format::Json) => say(&json(&crate::json::recipe(kitchen, id, batches, &warnings))?),
        (_, Format::Text) => say(&card(kitchen, id, batches)),
    }
}

/// By its id, or by its name in any letter case.
pub fn find(kitchen: &Kitchen, name: &str) -> Result<RecipeId, Failure> {
    let name = name.trim();
    let recipes = &kitchen.recipes;
    let by_id = recipes.iter().position(|recipe| recipe.id.eq_ignore_ascii_case(name));
    let by_name = || recipes.iter().position(|recipe| recipe.name.to_lowercase() == name.to_lowercase());
    let folded = || recipes.iter().position(|recipe| id_of(&recipe.name) == id_of(name));
    by_id.or_else(by_name).or_else(folded).map(RecipeId).ok_or_else(|| {
        let known: Vec<&str> = recipes.iter().map(|recipe| recipe.id.as_str()).collect();
        let near = if likely(&id_of(name), known.clone()).is_empty() {
            String::new()
        } else {
            did_you_mean(&id_of(name), known.clone(), "") + " "
        };
        Failure::NotKnown(format!("there is no recipe \"{name}\". {near}Known: {}.", known.join(", ")))
    })
}

/// How many batches an amount is.
fn batches(units: Units, recipes: &[Recipe], id: RecipeId, typed: &str) -> Result<Number, Failure> {
    let recipe = &recipes[id];
    let example = match recipe.makes.dimension() {
        Dimension::Portion => "12 portions".to_owned(),
        _ => makes(units, &recipe.makes.scaled(2.0)),
    };
    let remedy = format!("Write it in what the recipe makes: --for \"{example}\"");
    let amount = read_quantity(typed, Spoons::Us).map_err(|error| Failure::Usage(format!("--for: {}. {remedy}.", error.cause)))?;
    // A bare number is portions of a recipe that makes portions.
    let amount = match (&recipe.makes, &amount) {
        (Quantity::Portions(_), Quantity::Count(count)) => Quantity::portions(count),
        _ => amount,
    };
    match in_makes(recipe, &amount) {
        Some(base) if base.is_positive() => Ok(base / recipe.makes.exact()),
        _ => Err(Failure::Usage(format!(
            "--for: \"{typed}\" cannot be compared with what one batch makes, {}. {remedy}.",
            makes(units, &recipe.makes)
        ))),
    }
}

fn makes(units: Units, amount: &Quantity) -> String {
    match amount.dimension() {
        Dimension::Count => words::counted(amount.base().round() as usize, "piece"),
        _ => show(amount, units),
    }
}

/// The card as text. What nobody wrote stands behind "about", and the last line says so.
fn card(kitchen: &Kitchen, id: RecipeId, batches: &Number) -> String {
    let recipe = &kitchen.recipes[id];
    let mut out = format!("{}\n  makes {}\n", recipe.name, makes(kitchen.print.units, &recipe.makes.scaled(batches)));
    let from: Vec<&str> =
        [&recipe.source.author, &recipe.source.title, &recipe.source.address].into_iter().flatten().map(String::as_str).collect();
    if !from.is_empty() {
        let _ = writeln!(out, "  from {}", from.join(", "));
    }
    out.push_str("\nIngredients\n");
    for (one, times) in recipe.ingredients.iter().zip(times_for(kitchen, id, batches)) {
        let _ = writeln!(out, "  {}", ingredient(kitchen, one, &times));
    }
    out.push_str("\nSteps\n");
    for (index, step) in recipe.steps.iter().enumerate() {
        let _ = writeln!(out, "  {}. {}", index + 1, step_text(kitchen, id, index, batches));
        let _ = writeln!(out, "     {}", figures(kitchen, id, index, step, batches));
    }
    for line in &recipe.at_table {
        let _ = writeln!(out, "  At the table: {line}");
    }
    for note in &recipe.notes {
        let _ = writeln!(out, "  {note}");
    }
    out.push('\n');
    out.push_str(&keeping(kitchen, id));
    if recipe.steps.iter().any(|step| step.estimated != Default::default()) {
        out.push_str("\nWhat stands behind \"about\" was estimated: nobody wrote it. spence recipe NAME --steps writes the steps down for correcting.\n");
    }
    out
}

fn ingredient(kitchen: &Kitchen, one: &Ingredient, batches: &Number) -> String {
    use crate::kitchen::Wanted;
    let meant = match &one.wanted {
        Wanted::Recipe { recipe, most, .. } => {
            format!("{} of {}", show(&most.scaled(batches), kitchen.print.units), kitchen.recipes[*recipe].name)
        }
        Wanted::Food { food, item } => {
            let facts = &kitchen.foods[*food];
            let spoons = kitchen.rules.spoons;
            let bought = item.as_ref().and_then(|item| {
                let item = item.scaled(batches);
                let own = crate::foods::own_dimension(facts, &item, spoons);
                let poured = own.clone().filter(|own| matches!(own.dimension(), Dimension::Mass | Dimension::Volume));
                let grams = || crate::foods::as_purchased(facts, &item, &Dimension::Mass, spoons).ok();
                poured.or_else(grams).or(own)
            });
            match bought {
                Some(bought) => format!("{} {} as purchased", show(&bought, kitchen.print.units), facts.name),
                None => facts.name.clone(),
            }
        }
    };
    // Of more or fewer batches the line has its amount reckoned; what it typed beside that would contradict it.
    if *batches != Number::ONE {
        return format!("{}: {meant}", scaled_line(kitchen, one, batches));
    }
    let instead = one.instead.as_ref().map(|instead| format!("or {instead}"));
    let mut said: Vec<&str> = [one.prep.as_deref(), instead.as_deref(), one.remark.as_deref()].into_iter().flatten().collect();
    if one.optional && !said.iter().any(|said| said.contains(OPTIONAL)) {
        said.push(OPTIONAL);
    }
    let said = if said.is_empty() { String::new() } else { format!("; {}", said.join(", ")) };
    format!("{}: {meant}{said}", one.text)
}

/// "About 12 min of hands, 50 min wait, oven at 190 °C, after step 1".
fn figures(kitchen: &Kitchen, id: RecipeId, index: usize, step: &Step, batches: &Number) -> String {
    let units = kitchen.print.units;
    let about = |guessed: bool| if guessed { "about " } else { "" };
    let guessed = step.estimated;
    let batches = batches.to_f64();
    let hands = hands_for(step, batches, 1.0);
    let mut parts = Vec::new();
    if hands > 0 {
        parts.push(format!("{}{} of hands", about(guessed.hands), words::duration(hands)));
    }
    if step.wait.0 > 0 {
        parts.push(format!("{}{} unattended", about(guessed.wait), words::duration(step.wait.0)));
    }
    let on: Vec<&str> = step.on.iter().map(|on| kitchen.appliances[*on].name.as_str()).collect();
    if !on.is_empty() {
        let heat = step.temperature.map(|celsius| format!(" at {}{}", about(guessed.temperature), words::temperature(celsius, units)));
        let takes = if step.takes * batches != 1.0 {
            format!(", takes {}{}", about(guessed.takes), round(step.takes * batches))
        } else {
            String::new()
        };
        parts.push(format!("{}{}{takes}", on.join(" and "), heat.unwrap_or_default()));
    }
    if let Some(inside) = step.inside {
        parts.push(format!("until the inside reaches {}{}", about(guessed.inside), words::degrees(inside, units)));
    }
    if let Some(skill) = &step.skill {
        parts.push(format!("needs {skill}"));
    }
    if let Some(who) = &step.who {
        parts.push(format!("by the {who}"));
    }
    if let Some(ahead) = step.ahead {
        parts.push(format!("{} ahead of the session", words::duration(ahead.0)));
    }
    if let Some(after) = &step.after {
        let named = after.iter().map(|one| match one {
            After::Step(step) => format!("step {}", step + 1),
            After::Recipe(recipe) => kitchen.recipes[*recipe].name.clone(),
        });
        let named: Vec<String> = named.collect();
        parts.push(if named.is_empty() { "at any time".to_owned() } else { format!("after {}", words::listed(&named)) });
    } else if index > 0 {
        parts.push(format!("after step {index}"));
    }
    let _ = id;
    words::sentence(&parts.join(", "))
}

fn round(number: f64) -> String {
    let tenths = (number * 10.0).round() / 10.0;
    tenths.to_string()
}

fn keeping(kitchen: &Kitchen, id: RecipeId) -> String {
    let recipe = &kitchen.recipes[id];
    let days = |days: Option<crate::measure::Days>, place: &str| {
        days.map(|days| format!("{} in the {place}", words::counted(days.0.max(0) as usize, "day")))
    };
    let keeps: Vec<String> =
        [days(recipe.cupboard, "cupboard"), days(recipe.fridge, "fridge"), days(recipe.freezer, "freezer")].into_iter().flatten().collect();
    let keeps = if keeps.is_empty() { "on the day it is made only".to_owned() } else { keeps.join(", ") };
    let contains = recipe_contains(kitchen, id).words().unwrap_or_else(|| "none of EU 1169/2011 Annex II".to_owned());
    let (one, note) = per_portion(kitchen, id).map_or_else(|| ("batch", per_batch(kitchen, id)), |note| ("portion", note));
    let figures = telling::list::in_figures(&note.per, &note.missing, kitchen.names()).join(", ");
    let mut out = format!("Keeps {keeps}\nAllergens: {contains}\nOne {one}: {figures}\n");
    for lacking in &note.missing {
        let _ = writeln!(out, "  not known: {}", telling::list::lacking(lacking, kitchen.names()));
    }
    out
}
