//! `adopt FILE...`: recipes from saved pages, JSON-LD and plain text, as files in recipes/. Never over a file that is there; all or none.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use super::outcome::{Done, Failure, json, say};
use super::printed::text_of;
use super::{Cli, Format, setting};
use crate::adopt::{Adopted, INGREDIENTS, MOST_BYTES, NotAdopted, Reads, adopt, id_of, recipe_file};
use crate::foods::{Foods, Place};
use crate::kitchen::{LineOf, LineRead, Mistake, RecipeId, Words, load, load_foods, read_ingredients, recipe_mistakes};
use crate::measure::{Days, Dimension, Spoons, read_days, read_quantity};
use crate::plan::told_of_words;
use crate::store::begin_writing;
use crate::words::{self, counted};

/// The name of a recipe whose page has none.
const NAMELESS: &str = "Recipe";

/// The recipes that are there: name in lower case, by id.
pub type There = BTreeMap<String, String>;

/// A recipe that is to be written.
#[derive(Debug)]
pub struct Taken {
    pub id: String,
    pub name: String,
    pub text: String,
    /// What the page does not say, each a whole sentence with the key that would say it.
    pub missing: Vec<String>,
    /// What was taken from words of the page that could mean something else, a whole sentence.
    pub read: Option<String>,
}

pub fn run(cli: &Cli, files: &[PathBuf], id: Option<&str>) -> Done {
    let folder = setting::folder(cli)?;
    let (foods, spoons) = load_foods(&folder)?;
    let mut taken = take(files, id, (&foods, spoons), &there(&folder)?, "another id with --as ID")?;
    write(&folder, &taken)?;
    tell_of_words(&folder, &mut taken);
    if cli.format == Format::Json {
        let recipes = taken.iter().map(|one| (one.id.as_str(), one.name.as_str(), one.missing.as_slice()));
        return say(&json(&crate::json::adopted(recipes))?);
    }
    say(&told(&taken))
}

/// What was taken and what its page did not say.
pub fn told(taken: &[Taken]) -> String {
    let mut text = format!("{} taken in.\n", counted(taken.len(), "recipe"));
    for one in taken {
        text.push_str(&format!("\n{}: {}\n", file_of(&one.id), one.name));
        for missing in &one.missing {
            text.push_str(&format!("  {missing}\n"));
        }
        if let Some(read) = &one.read {
            text.push_str(&format!("  {read}\n"));
        }
        text.push_str(&format!("  Look it over: spence recipe {}\n", one.id));
    }
    text
}

/// Adds what only the words of a recipe name, for whoever of the household may not eat it. A kitchen with mistakes is told of by `check`.
pub fn tell_of_words(folder: &Path, taken: &mut [Taken]) {
    let Ok(loaded) = load(folder) else { return };
    for one in taken {
        if let Some(id) = loaded.kitchen.recipes.iter().position(|recipe| recipe.id == one.id) {
            one.missing.extend(told_of_words(&loaded.kitchen, RecipeId(id)).iter().map(|warning| words::sentence(&warning.words())));
        }
    }
}

fn file_of(id: &str) -> String {
    format!("recipes/{id}.toml")
}

/// The recipes of a kitchen folder by id. A file that cannot be read keeps its id.
fn there(folder: &Path) -> Result<There, Failure> {
    let mut there = There::new();
    let recipes = folder.join("recipes");
    let Ok(entries) = fs::read_dir(&recipes) else { return Ok(there) };
    for entry in entries {
        let entry = entry.map_err(|error| Failure::Machine(format!("cannot read {}: {error}.", recipes.display())))?;
        let path = entry.path();
        let Some(stem) = path.file_stem().and_then(|stem| stem.to_str()) else { continue };
        let text = text_of(&path).unwrap_or_default();
        let name = text.parse::<toml_edit::DocumentMut>().ok().and_then(|file| Some(file.get("name")?.as_str()?.to_lowercase()));
        there.insert(stem.to_lowercase(), name.unwrap_or_default());
    }
    Ok(there)
}

/// Every recipe of every file, or why not one is taken.
///
/// `otherwise` is what a person can do where a name or an id is taken.
pub fn take(files: &[PathBuf], id: Option<&str>, known: (&Foods, Spoons), there: &There, otherwise: &str) -> Result<Vec<Taken>, Failure> {
    let foods = known.0;
    let mut found: Vec<((usize, &Path), Adopted)> = Vec::new();
    let mut wrong: Vec<String> = Vec::new();
    for (number, file) in files.iter().enumerate() {
        match read(file)? {
            Ok(bytes) => match adopt(&bytes, &|line| reads(line, foods)) {
                Ok(recipes) => found.extend(recipes.into_iter().map(|recipe| ((number, file.as_path()), recipe))),
                Err(error) => wrong.push(not_adopted(file, error)),
            },
            Err(cause) => wrong.push(cause),
        }
    }
    if !wrong.is_empty() {
        let rest = if files.len() > 1 { " Nothing was written." } else { "" };
        return Err(Failure::NotKnown(format!("{}.{rest}", wrong.join(".\nerror: "))));
    }
    if let Some(id) = id {
        check_id(id, found.len())?;
    }
    let mut there = there.clone();
    let mut taken = Vec::new();
    let mut refused = Vec::new();
    let mut from: BTreeMap<String, (usize, &Path)> = BTreeMap::new();
    for (page, mut recipe) in found {
        let file = page.1;
        let mut own = id.map_or_else(|| id_of(&recipe.name), str::to_owned);
        if recipe.name.is_empty() {
            recipe.name = NAMELESS.to_owned();
        }
        // Two of one name on one page are both taken in.
        if id.is_none() && from.get(&own).is_some_and(|other| *other == page) {
            let number = (2..).find(|number| !from.contains_key(&format!("{own}-{number}"))).unwrap_or(2);
            recipe.lost.push(format!("The page has another recipe \"{}\": this one is named \"{0} ({number})\".", recipe.name));
            recipe.name = format!("{} ({number})", recipe.name);
            own = format!("{own}-{number}");
        }
        let name = recipe.name.to_lowercase();
        if let Some((_, other)) = from.get(&own) {
            refused.push(format!(
                "{}: two recipes would be recipes/{own}.toml; adopt each alone, one of them with --as ID",
                both(other, file)
            ));
            continue;
        }
        if there.contains_key(&own.to_lowercase()) {
            refused.push(format!("recipes/{own}.toml is there already; give \"{}\" {otherwise}", recipe.name));
            continue;
        }
        if there.values().any(|known| *known == name) {
            match id {
                Some(id) => recipe.name = format!("{} ({id})", recipe.name),
                None => {
                    refused.push(format!("a recipe is named \"{}\" already; give this one {otherwise}", recipe.name));
                    continue;
                }
            }
        }
        let others: Vec<&str> = there.keys().map(String::as_str).collect();
        of_recipes(&mut recipe, &there, foods);
        match read_back(&mut recipe, &own, known, &others) {
            Ok(unread) => {
                let missing = missing(&recipe).into_iter().chain(unread).collect();
                there.insert(own.to_lowercase(), recipe.name.to_lowercase());
                from.insert(own.clone(), page);
                beside_the_method(&mut recipe, foods);
                let (read, text) = (read_of(&recipe), recipe_file(&recipe));
                taken.push(Taken { missing, read, name: recipe.name, text, id: own });
            }
            Err(cause) => refused.push(format!("\"{}\" cannot be taken in: {cause}", recipe.name)),
        }
    }
    if refused.is_empty() { Ok(taken) } else { Err(Failure::NotKnown(format!("{}. Nothing was written.", refused.join(".\nerror: ")))) }
}

/// "a.html and b.html", or the one file that has both.
fn both(one: &Path, other: &Path) -> String {
    if one == other { one.display().to_string() } else { format!("{} and {}", one.display(), other.display()) }
}

/// "300 g Roast roots" is of the recipe of that name where there is one, unless the name is a food's, too: portions are a recipe's anyway.
fn of_recipes(recipe: &mut Adopted, there: &There, foods: &Foods) {
    for line in &mut recipe.ingredients {
        let low = line.to_lowercase();
        let meant = there.iter().filter(|(_, name)| !name.is_empty()).find_map(|(id, name)| {
            let amount = low.strip_suffix(name.as_str())?.strip_suffix(' ')?;
            let quantity = read_quantity(amount, Spoons::Us).ok()?;
            (foods.find(name).is_none() || quantity.dimension() == Dimension::Portion).then(|| format!("{amount} recipe:{id}"))
        });
        if let Some(meant) = meant {
            recipe.lost.push(format!("\"{line}\" is read as the recipe of that name: {meant}."));
            *line = meant;
        }
    }
}

/// What could not be read and names an allergen stands in the method as a note, too: so whoever cooks sees it, and it is looked through for
/// what an eater must not have.
fn beside_the_method(recipe: &mut Adopted, foods: &Foods) {
    let has_allergen = |line: &&String| {
        let words = Words::of(line);
        (0..words.len()).any(|at| {
            words.food(at, foods).is_some_and(|(food, _)| foods[food].allergens.as_ref().is_none_or(|known| !known.value.is_empty()))
        })
    };
    if recipe.method.is_empty() {
        return;
    }
    let notes: Vec<String> = recipe.unread.iter().filter(has_allergen).map(|line| format!("Note: of the list, not read: {line}")).collect();
    recipe.method.extend(notes);
}

fn check_id(id: &str, recipes: usize) -> Done {
    if id != id_of(id) {
        return Err(Failure::Usage(format!("--as: \"{id}\" is no id. Write small letters, digits and hyphens, as in \"{}\".", id_of(id))));
    }
    if recipes > 1 {
        return Err(Failure::Usage(format!(
            "--as names one recipe, but there are {recipes}. Adopt them without it, or one file at a time."
        )));
    }
    Ok(())
}

/// The bytes of a file or of standard input; the inner error is the file's, the outer one the machine's.
fn read(file: &Path) -> Result<Result<Vec<u8>, String>, Failure> {
    let mut bytes = Vec::new();
    let most = MOST_BYTES as u64 + 1;
    if file == Path::new("-") {
        let read = std::io::stdin().lock().take(most).read_to_end(&mut bytes);
        return read.map(|_| Ok(bytes)).map_err(|error| Failure::Machine(format!("cannot read standard input: {error}.")));
    }
    if file.is_dir() {
        return Ok(Err(format!("{} is a folder, not a file", file.display())));
    }
    match fs::File::open(file).and_then(|open| open.take(most).read_to_end(&mut bytes)) {
        Ok(_) => Ok(Ok(bytes)),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(Err(format!("there is no file {}", file.display()))),
        Err(error) => Err(Failure::Machine(format!("cannot read {}: {error}.", file.display()))),
    }
}

fn not_adopted(file: &Path, error: NotAdopted) -> String {
    let name = if file == Path::new("-") { "standard input".to_owned() } else { file.display().to_string() };
    match error {
        NotAdopted::NoRecipe => format!("no recipe in {name}: neither schema.org/Recipe nor a list that reads as ingredients"),
        NotAdopted::Garbled => {
            format!(
                "{name} names an encoding that it is not in, so that letters of its recipe are lost; save it anew as UTF-8, and adopt that"
            )
        }
        NotAdopted::Several => {
            format!("{name} holds several recipes, and nothing says where one ends; save each in a file of its own, and adopt those")
        }
        NotAdopted::TooLong => format!("{name} has more lines than any recipe; save the recipe alone, and adopt that"),
        NotAdopted::TooLarge => format!("{name} is larger than {} MB, which no page of a recipe is", MOST_BYTES / 1_000_000),
    }
}

/// Does a line read as an ingredient with an amount, and is its food known?
fn reads(line: &str, foods: &Foods) -> Reads {
    let one = |line: &crate::kitchen::Line| match &line.of {
        LineOf::Food { food, item } => Reads { amount: item.is_some(), food: foods.find(food).is_some() },
        LineOf::Recipe { .. } => Reads { amount: true, food: true },
    };
    let Ok(LineRead::Ingredients(lines)) = read_ingredients(line, foods, Spoons::Us) else { return Reads::default() };
    let read: Vec<Reads> = lines.iter().map(one).collect();
    Reads { amount: read.iter().any(|one| one.amount), food: read.iter().any(|one| one.food) }
}

/// Reads the file as the kitchen will. A line that it would refuse becomes a comment beside the others and is told; any other mistake
/// is why the recipe is not taken in.
fn read_back(recipe: &mut Adopted, id: &str, known: (&Foods, Spoons), others: &[&str]) -> Result<Vec<String>, String> {
    let mut told = Vec::new();
    loop {
        let text = recipe_file(recipe);
        let mistakes = recipe_mistakes(id, &text, known, others);
        if mistakes.is_empty() {
            let none_read = recipe.ingredients.is_empty() && !recipe.unread.is_empty();
            return if none_read { Err("no line of its list reads as an ingredient".to_owned()) } else { Ok(told) };
        }
        let first = text.lines().position(|line| line == INGREDIENTS).map_or(0, |at| at + 2);
        let place = |mistake: &Mistake| (mistake.at.line as usize).checked_sub(first).filter(|at| *at < recipe.ingredients.len());
        let wrong: BTreeMap<usize, &Mistake> = mistakes.iter().filter_map(|mistake| Some((place(mistake)?, mistake))).collect();
        if wrong.is_empty() {
            let said: Vec<String> = mistakes.iter().map(|mistake| format!("{}. {}", mistake.cause, mistake.remedy)).collect();
            return Err(said.join(" ").trim_end_matches('.').to_owned());
        }
        for (at, mistake) in &wrong {
            let line = &recipe.ingredients[*at];
            told.push(format!(
                "\"{line}\" does not read as an ingredient: {}. It stands below the others as a comment. {}",
                mistake.cause, mistake.remedy
            ));
            recipe.unread.push(line.clone());
        }
        let mut at = 0;
        recipe.ingredients.retain(|_| {
            at += 1;
            !wrong.contains_key(&(at - 1))
        });
    }
}

/// USDA FSIS: cooked dishes 3 to 4 days in the fridge.
const COOKED_DISHES: Days = Days(4);

/// No more lines than this are told one by one.
const MOST_UNPLACED: usize = 3;

/// What the page does not say, and the key that would; what it says that has no key.
fn missing(recipe: &Adopted) -> Vec<String> {
    let mut missing = Vec::new();
    if recipe.name == NAMELESS {
        missing.push(format!("`name` is missing on the page: \"{NAMELESS}\" is written down."));
    }
    let eaten_soon = recipe.keeps.places.iter().all(|(place, _)| *place == Place::Freezer);
    if eaten_soon {
        let what = if recipe.keeps.places.is_empty() { "`keeps`" } else { "`keeps.fridge`" };
        missing.push(format!(
            "{what} is missing: it will be eaten on the day it is made. USDA: cooked dishes 3 to 4 days in the fridge. Local rules come first."
        ));
    }
    if recipe.makes.is_none() {
        missing.push(match &recipe.yields {
            Some(said) => format!("`makes`: the page says \"{said}\", which is no number: 4 portions are written down."),
            None => "`makes` is missing on the page: 4 portions are written down.".to_owned(),
        });
    }
    if recipe.ingredients.is_empty() {
        missing.push("`ingredients` is missing: nothing of it will be bought.".to_owned());
    }
    if recipe.method.is_empty() {
        missing.push("`method` is missing: it takes no time in the session.".to_owned());
    }
    missing.extend(recipe.lost.iter().cloned());
    missing.extend(
        recipe.unplaced.iter().take(MOST_UNPLACED).map(|line| format!("\"{line}\" has no key; it stands in the file as a comment.")),
    );
    if recipe.unplaced.len() > MOST_UNPLACED {
        let more = counted(recipe.unplaced.len() - MOST_UNPLACED, "more line");
        missing.push(format!("{more} above the ingredients likewise."));
    }
    let lost = recipe.ingredients.iter().chain(&recipe.method).filter(|line| line.contains(char::REPLACEMENT_CHARACTER));
    missing.extend(lost.map(|line| format!("\"{line}\" has lost letters, before it came here: write them in.")));
    missing
}

/// "`keeps` is as the page says: 3 days in the fridge".
fn read_of(recipe: &Adopted) -> Option<String> {
    let places: Vec<String> = recipe.keeps.places.iter().map(|(place, time)| format!("{time} in the {}", words::place(*place))).collect();
    let beyond =
        recipe.keeps.places.iter().any(|(place, time)| *place == Place::Fridge && read_days(time).is_ok_and(|days| days > COOKED_DISHES));
    let beyond = if beyond { " That is longer than USDA has for cooked dishes: 3 to 4 days in the fridge." } else { "" };
    (!places.is_empty())
        .then(|| format!("`keeps` is read from {}: {}.{beyond} Local rules come first.", recipe.keeps.said(), words::listed(&places)))
}

/// Writes all of them, new, or none.
pub fn write(folder: &Path, taken: &[Taken]) -> Done {
    begin_writing();
    let recipes = folder.join("recipes");
    fs::create_dir_all(&recipes).map_err(|error| Failure::writing(&recipes, &error))?;
    let mut made: Vec<PathBuf> = Vec::new();
    for one in taken {
        let path = folder.join(file_of(&one.id));
        let written = fs::OpenOptions::new().write(true).create_new(true).open(&path).and_then(|mut file| {
            made.push(path.clone());
            file.write_all(one.text.as_bytes())?;
            file.sync_all()
        });
        if let Err(error) = written {
            // Half of them would be worse than none.
            made.iter().for_each(|path| drop(fs::remove_file(path)));
            return Err(Failure::writing(&path, &error));
        }
    }
    Ok(())
}
