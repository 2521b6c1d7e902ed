//! From the kitchen folder to a [`Kitchen`] and its weeks, or to every mistake at once.
//!
//! Files become texts ([`files`]), texts become trees of values with their places ([`source`]), and each kind of file has a reader that
//! walks its tree ([`table`], [`shapes`]) and gathers what is wrong instead of stopping. What only shows across files comes last ([`checks`]).

mod allergens;
mod any;
mod borne;
mod checks;
mod circles;
mod diners;
mod eaters;
mod files;
mod forms;
mod hint;
mod household;
mod known;
mod lines;
mod method;
mod names;
mod nutrients;
mod pantry;
mod patterns;
mod plates;
mod range;
mod recipe;
mod safety;
mod session;
mod shapes;
mod shops;
mod source;
mod steps;
mod syntax;
mod table;
#[cfg(test)]
mod tests;
mod text;
mod week;
mod wishes;

use std::path::{Path, PathBuf};

use toml::de::DeTable;

pub use self::files::strays;
pub use self::forms::{read_count, read_goods};
pub use self::hint::{as_of_a_recipe, did_you_mean, likely};

use self::files::{Files, Text, read_files};
use self::lines::Speech;
use self::names::Names;
use self::source::{Findings, Source};
use self::steps::Workshop;
use self::table::{Reading, Table};
use self::text::Mentions;
use super::keys::{self, File};
use super::method::name_fellows;
use super::{Appliance, Kitchen, Mistake, NotLoaded, Pack, PackKind, Recipe, RecipeId, Together, Warning, Week};
use crate::foods::Foods;
use crate::measure::{Dimension, Quantity, Spoons};

/// A kitchen folder without mistakes.
#[derive(Debug, Clone)]
pub struct Loaded {
    pub kitchen: Kitchen,
    /// In order of file name, with the file's path relative to the folder.
    pub weeks: Vec<(String, Week)>,
    pub warnings: Vec<Warning>,
}

/// The nearest folder from `from` upwards that holds kitchen.toml.
pub fn find_kitchen(from: &Path) -> Option<PathBuf> {
    let from = std::path::absolute(from).unwrap_or_else(|_| from.to_owned());
    from.ancestors().find(|folder| folder.join("kitchen.toml").is_file()).map(Path::to_owned)
}

/// Reads and checks every file of the folder.
///
/// # Errors
///
/// All mistakes of all files at once, in order of file, line and column. A file that is not valid TOML is reported with its syntax errors
/// alone, and nothing is said of what other files expect of it.
pub fn load(folder: &Path) -> Result<Loaded, NotLoaded> {
    load_with(folder, &[])
}

/// Reads the folder as it would be with these texts in place of pantry.toml, shops.toml or weeks of it, by the files' names: what is
/// about to be written is read back before it stands.
///
/// # Errors
/// As [`load`].
pub fn load_with(folder: &Path, texts: &[(&str, &str)]) -> Result<Loaded, NotLoaded> {
    let found = Findings::default();
    let files = read_files(folder, &found).map(|mut files| {
        texts.iter().for_each(|(file, text)| files.read_instead(file, text, &found));
        files
    });
    let read = files.map(|files| read_all(&files, &found));
    for stray in read.iter().flat_map(|_| strays(folder)) {
        // Beside other mistakes it may be what they miss.
        match found.count() {
            0 => found.warn(stray.into()),
            _ => found.mistake(stray.at, stray.cause, stray.remedy),
        }
    }
    match (read, found.finish()) {
        (Some((kitchen, weeks)), Ok(warnings)) => Ok(Loaded { kitchen, weeks, warnings }),
        (_, Err(not)) => Err(not),
        (None, Ok(_)) => Err(NotLoaded::default()),
    }
}

/// Every food that the folder's household can speak of, and its spoons: mistakes in its recipes, weeks and shops do not matter here.
///
/// # Errors
///
/// All mistakes of foods.toml, or that kitchen.toml cannot be read.
pub fn load_foods(folder: &Path) -> Result<(Foods, Spoons), NotLoaded> {
    let found = Findings::default();
    let mut foods = Foods::reference();
    let mut spoons = Spoons::default();
    if let Some((kitchen_text, foods_text)) = files::read_known(folder, &found) {
        let [kitchen_file, foods_file] = [&kitchen_text, &foods_text].map(|text| Parsed::new(text, &found));
        if let Some(top) = foods_file.top(&keys::FOODS, &found) {
            _ = known::read_foods(&top, &mut foods);
        }
        if let Some(top) = kitchen_file.top(&keys::KITCHEN, &found) {
            spoons = household::read_spoons(&top).spoons;
        }
    }
    found.finish().map(|_| (foods, spoons))
}

/// The mistakes that a recipe's text would have as a file of that id, beside the recipes that are there: what is about to be written is
/// read first.
pub fn recipe_mistakes(id: &str, text: &str, (foods, spoons): (&Foods, Spoons), others: &[&str]) -> Vec<Mistake> {
    let found = Findings::default();
    let text = files::text_of(text.as_bytes().to_vec(), &format!("recipes/{id}.toml"), &found);
    {
        let parsed = [(id, Parsed::new(&text, &found))];
        let mut names = Names::new("recipe", "recipes/ as a file of that name", true);
        for (index, id) in std::iter::once(&id).chain(others).enumerate() {
            names.add(id, index);
        }
        let mut speech = Speech::new(foods.clone(), &names, spoons, &found);
        read_recipes(&parsed, &mut speech, (&[], &Names::new("appliance", "kitchen.toml, as [[appliance]]", false)), &found);
    }
    found.into_parts().0
}

/// A file's source, and its tree unless it is broken.
struct Parsed<'a> {
    source: Option<&'a Source>,
    table: Option<DeTable<'a>>,
    absent: bool,
}

impl<'a> Parsed<'a> {
    fn new(text: &'a Text, found: &Findings) -> Self {
        let source = text.source();
        Parsed { source, table: source.and_then(|source| syntax::parse(source, found)), absent: matches!(text, Text::Absent) }
    }

    /// Is nothing of it lost? An absent file says all it has to say.
    fn is_whole(&self) -> bool {
        self.absent || self.table.is_some()
    }

    fn top<'b>(&'b self, schema: &'static File, found: &'b Findings) -> Option<Table<'b>> {
        let also: fn(&str, &str) -> bool = if std::ptr::eq(schema, &keys::FOODS) { known::is_kitchen_word } else { |_, _| false };
        let file = Reading { source: self.source?, schema, found, also };
        Some(Table::top(self.table.as_ref()?, file))
    }
}

fn read_all(files: &Files, found: &Findings) -> (Kitchen, Vec<(String, Week)>) {
    let [kitchen_file, foods_file, meals_file, shops_file, pantry_file] =
        [&files.kitchen, &files.foods, &files.meals, &files.shops, &files.pantry].map(|text| Parsed::new(text, found));
    let parsed_recipes: Vec<(&str, Parsed<'_>)> = files.recipes.iter().map(|(id, text)| (id.as_str(), Parsed::new(text, found))).collect();
    let parsed_weeks: Vec<(&str, Parsed<'_>)> = files.weeks.iter().map(|(stem, text)| (stem.as_str(), Parsed::new(text, found))).collect();

    let mut foods = Foods::reference();
    let fitting = foods_file.top(&keys::FOODS, found).map(|top| known::read_foods(&top, &mut foods)).unwrap_or_default();
    let kitchen_top = kitchen_file.top(&keys::KITCHEN, found);
    let kitchen_top = kitchen_top.as_ref();
    let spoken = kitchen_top.map(household::read_spoons).unwrap_or_default();
    let recipe_names = name_recipes(&parsed_recipes, files.recipes_listed, found);
    let mut speech = Speech::new(foods, &recipe_names, spoken.spoons, found);
    speech.pints_written = spoken.pints_written;

    let mut household = kitchen_top.map_or_else(household::fallback, household::read_household);
    if let Some(top) = kitchen_top {
        eaters::read_eaters(top, &mut household, &mut speech);
    }
    let rules = household::read_rules(kitchen_top, &mut speech);
    let mut appliance_names = Names::new("appliance", "kitchen.toml, as [[appliance]]", kitchen_file.table.is_some());
    let appliances = kitchen_top.map(|top| household::read_appliances(top, &mut appliance_names)).unwrap_or_default();
    let staples = kitchen_top.map(|top| household::read_staples(top, &mut speech)).unwrap_or_default();
    let print = kitchen_top.map_or(
        super::Print { paper: super::Paper::A4, units: Default::default(), sheets: super::Sheets::USUAL, under: super::Under::ALL },
        household::read_print,
    );

    let (recipes, sound) = read_recipes(&parsed_recipes, &mut speech, (&appliances, &appliance_names), found);

    let mut shop_names = Names::new("shop", "shops.toml, as [[shop]]", shops_file.is_whole());
    let shops_top = shops_file.top(&keys::SHOPS, found);
    let shops = shops_top.as_ref().map(|top| shops::read_shops(top, &household.currency, &mut shop_names)).unwrap_or_default();
    let packs = shops_top.map(|top| shops::read_packs(&top, &household.currency, &shop_names, &mut speech)).unwrap_or_default();
    drained_as_packs_say(&packs, &mut speech.foods);
    let lots = pantry_file.top(&keys::PANTRY, found).map(|top| pantry::read_lots(&top, &mut speech)).unwrap_or_default();

    let known = kitchen_top.is_some_and(|top| top.has("household"));
    let wishes = kitchen_top.map(|top| wishes::read_wishes(top, &household.currency, &mut speech)).unwrap_or_default();
    let complete = foods_file.is_whole() && files.recipes_listed && parsed_recipes.iter().all(|(_, parsed)| parsed.is_whole());
    let places = plates::Places { recipes: &recipes, sound: &sound, foods: &fitting, packs: &packs, complete };
    let mut pattern_names = Names::new("pattern", "meals.toml, as [[pattern]]", meals_file.is_whole());
    let meals_top = meals_file.top(&keys::MEALS, found);
    let patterns = meals_top
        .map(|top| patterns::read_patterns(&top, (&household, known), &places, &mut pattern_names, &mut speech))
        .unwrap_or_default();

    let customs = week::Customs { household: &household, appliances: &appliance_names, known, places: &places, patterns: &pattern_names };
    let mut weeks = Vec::new();
    for (stem, parsed) in &parsed_weeks {
        let week = parsed.top(&keys::WEEK, found).and_then(|top| week::read_week(&top, &customs, &shop_names, &mut speech));
        weeks.extend(week.map(|week| (format!("weeks/{stem}.toml"), week)));
    }
    let all_weeks = files.weeks_listed && weeks.len() == parsed_weeks.len();
    let together = Together { patterns, foods: fitting, wishes };
    let kitchen = Kitchen {
        household,
        print,
        rules,
        appliances,
        staples,
        recipes,
        foods: speech.foods,
        shops,
        packs,
        lots,
        week_prices: Vec::new(),
        together,
    };
    checks::check_all(&kitchen, &sound, &weeks, all_weeks, found);
    if complete {
        borne::check(&kitchen, &weeks, found);
    }
    for recipe in &kitchen.recipes {
        safety::warn(recipe, &kitchen.foods, found);
    }
    (kitchen, weeks)
}

/// "400 g, drained 240 g" tells what drains off where foods.toml does not.
fn drained_as_packs_say(packs: &[Pack], foods: &mut Foods) {
    for pack in packs {
        if let PackKind::Sized { size: Quantity::Mass(size), label, drained: Some(drained), .. } = &pack.kind {
            foods.learn_drained(pack.food, drained / size.value.to_f64(), format!("shops.toml, the pack of {label}"));
        }
    }
}

/// Every recipe is known by the stem of its file, whether the file can be read or not.
fn name_recipes(parsed: &[(&str, Parsed<'_>)], listed: bool, found: &Findings) -> Names {
    let mut names = Names::new("recipe", "recipes/ as a file of that name", listed);
    for (index, (id, parsed)) in parsed.iter().enumerate() {
        if let (false, Some(source)) = (names.add(id, index), parsed.source) {
            let cause = format!("the file name \"{id}\" differs from another only in capital letters");
            found.mistake(source.whole(), cause, "Rename one of the two files.");
        }
    }
    names
}

/// All recipes in order of their ids, and which of them could be read.
fn read_recipes(
    parsed: &[(&str, Parsed<'_>)],
    speech: &mut Speech<'_>,
    (appliances, appliance_names): (&[Appliance], &Names),
    found: &Findings,
) -> (Vec<Recipe>, Vec<bool>) {
    let tops: Vec<Option<Table<'_>>> = parsed.iter().map(|(_, parsed)| parsed.top(&keys::RECIPE, found)).collect();
    let mut recipes = Vec::new();
    let mut sound = Vec::new();
    let mut complete = Vec::new();
    for ((id, _), top) in parsed.iter().zip(&tops) {
        let before = found.count();
        let mut recipe = top.as_ref().map_or_else(|| recipe::unread(id), |top| recipe::read_head(id, top, speech.spoons));
        sound.push(top.is_some() && found.count() == before);
        let before = found.count();
        speech.portions = (recipe.makes.dimension() == Dimension::Portion).then(|| recipe.makes.exact().clone());
        recipe.ingredients = top.as_ref().map(|top| recipe::read_ingredients(top, speech)).unwrap_or_default();
        speech.portions = None;
        complete.push(found.count() == before);
        recipe.headings = speech.headings_of(&recipe);
        recipes.push(recipe);
    }
    let names: Vec<String> = recipes.iter().map(|recipe| recipe.name.clone()).collect();
    for (index, top) in tops.iter().enumerate() {
        let Some(top) = top else { continue };
        let ingredients = std::mem::take(&mut recipes[index].ingredients);
        let mut mentions = Mentions::new(&ingredients, complete[index], &speech.foods, (speech.recipes, &names), speech.spoons, found);
        let workshop = Workshop { appliances, appliance_names, recipes: speech.recipes, own: RecipeId(index) };
        recipes[index].steps = steps::read_steps(top, &workshop, &mut mentions);
        if top.has("method") {
            method::read(top, &mut recipes[index], &ingredients, appliances, speech, &names);
        }
        let at_table = method::read_beside(top, &mut recipes[index], &ingredients, speech, &names);
        mentions.check_shares(&at_table);
        let Recipe { steps, served, .. } = &mut recipes[index];
        name_fellows(steps.iter_mut(), &ingredients, served);
        recipes[index].ingredients = ingredients;
    }
    (recipes, sound)
}

/// Is a value, as typed, no figure, or one within the range of its key?
#[cfg(test)]
pub(super) fn within_range(key: &keys::Key, typed: &str) -> bool {
    toml::de::DeValue::parse(typed).map_or(true, |value| range::within(key, value.get_ref()).is_ok())
}
