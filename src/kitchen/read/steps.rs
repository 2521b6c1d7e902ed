//! `[[step]]`: what is done, on what, and after what.

use std::collections::BTreeMap;

use toml::de::DeValue;

use super::hint;
use super::names::Names;
use super::shapes;
use super::table::{Entry, Table};
use super::text::Mentions;
use crate::kitchen::{After, Appliance, ApplianceId, ApplianceKind, Elsewhere, Estimates, Piece, RecipeId, Spot, Step};
use crate::measure::Minutes;

/// What steps may refer to.
pub(super) struct Workshop<'k> {
    pub appliances: &'k [Appliance],
    pub appliance_names: &'k Names,
    pub recipes: &'k Names,
    /// The index of the recipe whose steps are read.
    pub own: RecipeId,
}

/// All steps of one recipe, in file order.
pub(super) fn read_steps(top: &Table<'_>, workshop: &Workshop<'_>, mentions: &mut Mentions<'_>) -> Vec<Step> {
    let tables = top.each("step", "[[step]]");
    let mut ids = BTreeMap::new();
    let mut taken = false;
    for (index, table) in tables.iter().enumerate() {
        if let Some(id) = table.entry("id").and_then(|entry| entry.value.as_str()) {
            let id = id.trim();
            if ids.contains_key(id) {
                taken = true;
                table.mistake("id", format!("two steps have the id \"{id}\""), "Give each step an id of its own.");
            } else {
                ids.insert(id.to_owned(), index);
            }
        }
    }
    let steps: Vec<Step> = tables.iter().map(|table| read_step(table, workshop, &ids, tables.len(), mentions)).collect();
    // Which of two steps of one id is meant nobody can tell.
    if !taken {
        check_circle(&steps, top);
        check_ahead(&steps, &tables);
    }
    steps
}

fn read_step(table: &Table<'_>, workshop: &Workshop<'_>, ids: &BTreeMap<String, usize>, count: usize, mentions: &mut Mentions<'_>) -> Step {
    let on = read_on(table, workshop);
    let step = Step {
        id: table.optional("id", shapes::text_or_digits),
        text: read_text(table, mentions),
        hands: table.optional("hands", shapes::minutes).unwrap_or_default(),
        wait: table.optional("wait", shapes::minutes).unwrap_or_default(),
        scales: table.optional("scales", shapes::yes_no).unwrap_or(!table.has("on") || on.is_empty()),
        on,
        takes: table.optional("takes", shapes::positive).unwrap_or(1.0),
        temperature: table.optional("temperature", shapes::celsius),
        elsewhere: read_elsewhere(table, workshop),
        inside: table.optional("inside", shapes::celsius),
        who: table.optional("who", shapes::text),
        skill: table.optional("skill", shapes::text),
        after: read_after(table, workshop, ids, count),
        gap: table.optional("gap", shapes::minutes),
        within: table.optional("within", shapes::minutes),
        ahead: table.optional("ahead", shapes::minutes).filter(|ahead| ahead.0 > 0),
        estimated: Estimates::default(),
        at: table.spot(),
        who_at: table.spot_of("who"),
        skill_at: table.spot_of("skill"),
    };
    check_step(&step, table, workshop);
    check_elsewhere(&step, table, workshop);
    step
}

fn read_text(table: &Table<'_>, mentions: &mut Mentions<'_>) -> Vec<Piece> {
    let text = table.required("text", "\"Peel {onion} and dice it.\"", shapes::text);
    text.map(|text| mentions.pieces(&text, &table.spot_of("text"))).unwrap_or_default()
}

fn read_on(table: &Table<'_>, workshop: &Workshop<'_>) -> Vec<ApplianceId> {
    let mut on = Vec::new();
    for (name, at) in table.texts("on").unwrap_or_default() {
        let Some(index) = workshop.appliance_names.find(&name, &at, table.file.found) else { continue };
        if on.contains(&ApplianceId(index)) {
            table.file.found.mistake(
                at,
                format!("\"{name}\" stands twice in this step"),
                "Name each appliance once; takes says how much room.",
            );
        } else {
            on.push(ApplianceId(index));
        }
    }
    on
}

/// Where the step goes whose appliance is out of order.
fn read_elsewhere(table: &Table<'_>, workshop: &Workshop<'_>) -> Option<Elsewhere> {
    let wait = table.optional("or_wait", shapes::minutes);
    let temperature = table.optional("or_temperature", shapes::celsius);
    let takes = table.optional("or_takes", shapes::positive);
    if !table.has("or_on") {
        for key in ["or_wait", "or_temperature", "or_takes"].into_iter().filter(|key| table.has(key)) {
            table.mistake(key, format!("{key} is for another appliance, but this step names none"), "Add or_on = \"...\", or take it out.");
        }
        return None;
    }
    let name = table.optional("or_on", shapes::text)?;
    let on = ApplianceId(workshop.appliance_names.find(&name, &table.spot_of("or_on"), table.file.found)?);
    Some(Elsewhere { on, wait, temperature, takes })
}

fn check_elsewhere(step: &Step, table: &Table<'_>, workshop: &Workshop<'_>) {
    let Some(elsewhere) = &step.elsewhere else { return };
    let Some(other) = workshop.appliances.get(elsewhere.on.0) else { return };
    if !table.has("on") {
        table.mistake("or_on", "or_on is in the place of an appliance, but this step has none", "Add on = \"...\", or take it out.");
    } else if step.on.contains(&elsewhere.on) {
        table.mistake("or_on", format!("this step stands on \"{}\" already", other.name), "Name another appliance, or take it out.");
    }
    let sets = other.heat || other.kind == Some(ApplianceKind::Oven);
    if table.has("or_temperature") && !sets {
        let cause = format!("\"{}\" has no temperature to set: it is not marked heat = true", other.name);
        table.mistake("or_temperature", cause, "Name an appliance with heat = true in or_on, or take the temperature out.");
    }
    if other.heat && !table.has("or_temperature") && !table.has("temperature") {
        let text = format!("this step may use the {} without a temperature. Add or_temperature = \"180 °C\".", other.name);
        table.file.found.note(table.spot_of("or_on"), text);
    }
}

fn read_after(table: &Table<'_>, workshop: &Workshop<'_>, ids: &BTreeMap<String, usize>, count: usize) -> Option<Vec<After>> {
    let entry = table.entry("after")?;
    let items: Vec<Entry<'_>> = match entry.value {
        DeValue::Array(items) => items.iter().map(Entry::of).collect(),
        _ => vec![entry],
    };
    let mut after = Vec::new();
    for item in items {
        let at = table.file.source.spot(item.start);
        match shapes::text_or_digits(item.value) {
            Ok(name) => after.extend(one_after(&name, &at, table, workshop, ids, count)),
            Err(error) => table.file.found.mistake(at, format!("after: {}", error.cause), error.remedy),
        }
    }
    Some(after)
}

fn one_after(
    name: &str,
    at: &Spot,
    table: &Table<'_>,
    workshop: &Workshop<'_>,
    ids: &BTreeMap<String, usize>,
    count: usize,
) -> Option<After> {
    if let Some(recipe) = name.strip_prefix("recipe:") {
        let index = workshop.recipes.find(recipe, at, table.file.found)?;
        if RecipeId(index) == workshop.own {
            table.file.found.mistake(
                at.clone(),
                "a step cannot come after its own recipe as a whole",
                "Name a step of this recipe by its id.",
            );
            return None;
        }
        return Some(After::Recipe(RecipeId(index)));
    }
    if let Some(index) = ids.get(name) {
        return Some(After::Step(*index));
    }
    // Steps are numbered from 1 anyway.
    if let Some(number) = name.parse::<usize>().ok().filter(|number| (1..=count).contains(number)) {
        return Some(After::Step(number - 1));
    }
    let remedy = if workshop.recipes.get(name).is_some() {
        format!("Write \"recipe:{name}\" for all of that recipe.")
    } else {
        hint::did_you_mean(name, ids.keys().map(String::as_str), "Give that step an id, or write \"recipe:...\" for another recipe.")
    };
    table.file.found.mistake(at.clone(), format!("no step of this recipe has the id \"{name}\""), remedy);
    None
}

fn check_step(step: &Step, table: &Table<'_>, workshop: &Workshop<'_>) {
    let appliances: Vec<&Appliance> = step.on.iter().filter_map(|id| workshop.appliances.get(id.0)).collect();
    let named_on = appliances.len() == table.count("on");
    if table.has("temperature")
        && named_on
        && !appliances.iter().any(|appliance| appliance.heat || appliance.kind == Some(ApplianceKind::Oven))
    {
        let remedy = "Name an appliance with heat = true in on, or take the temperature out.";
        match appliances.first() {
            Some(first) => {
                table.mistake("temperature", format!("\"{}\" has no temperature to set: it is not marked heat = true", first.name), remedy)
            }
            None => table.mistake("temperature", "a temperature without an appliance", remedy),
        }
    }
    if let (None, Some(hot)) = (step.temperature, appliances.iter().find(|appliance| appliance.heat))
        && !table.has("temperature")
    {
        table
            .file
            .found
            .note(table.spot(), format!("this step uses the {} without a temperature. Add temperature = \"180 °C\".", hot.name));
    }
    if let (Some(Minutes(gap)), Some(Minutes(within))) = (step.gap, step.within)
        && gap > within
    {
        let cause = format!("the gap of {gap} min is longer than within, {within} min");
        table.mistake("within", cause, "Make within at least as long as gap.");
    }
    if table.has("takes") && !table.has("on") {
        table.mistake(
            "takes",
            "takes says how much room of an appliance a batch needs, but this step has none",
            "Add on = \"...\", or take it out.",
        );
    }
}

/// The steps that each step comes directly after: those named, else the step before.
fn befores(steps: &[Step], index: usize) -> Vec<usize> {
    match &steps[index].after {
        None => index.checked_sub(1).into_iter().collect(),
        Some(after) => {
            let own = after.iter().filter_map(|after| if let After::Step(step) = after { Some(*step) } else { None });
            own.collect()
        }
    }
}

fn check_circle(steps: &[Step], top: &Table<'_>) {
    let edges: Vec<Vec<usize>> = (0..steps.len()).map(|index| befores(steps, index)).collect();
    for circle in super::circles::circles(&edges) {
        let names: Vec<String> = circle.iter().map(|index| step_name(&steps[*index], *index)).collect();
        let cause = format!("steps wait for each other in a circle: {} comes after {}", names[0], chain(&names));
        top.file.found.mistake(steps[circle[0]].at.clone(), cause, "Take one of them out of an after list.");
    }
}

/// What is done ahead waits for nothing that is done in the session.
fn check_ahead(steps: &[Step], tables: &[Table<'_>]) {
    for (index, table) in tables.iter().enumerate().filter(|(index, _)| steps[*index].ahead.is_some()) {
        for before in befores(steps, index).into_iter().filter(|before| steps[*before].ahead.is_none()) {
            let (step, before) = (step_name(&steps[index], index), step_name(&steps[before], before));
            let cause = format!("{step} is done ahead, but comes after {before}, which is not");
            table.mistake("ahead", cause, format!("Give {before} its own ahead, or say with after = [] that {step} waits for nothing."));
        }
    }
}

fn chain(names: &[String]) -> String {
    let rest = names[1..].iter().chain(&names[..1]);
    rest.cloned().collect::<Vec<_>>().join(", which comes after ")
}

fn step_name(step: &Step, index: usize) -> String {
    match &step.id {
        Some(id) => format!("step \"{id}\""),
        None => format!("step {}", index + 1),
    }
}
