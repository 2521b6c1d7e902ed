//! Changing one's mind in a week's file: a meal falls out, or two meals exchange what they hold. Everything else stays as a person
//! typed it.
//!
//! Knows the texts of week files alone; no folder, no plan.

use toml_edit::{Document, DocumentMut, Item, Table, TableLike, Value};

use super::Spot;

/// What of a meal belongs to its hour and not to its food: when it is, who comes, and that it falls out.
const STAYS: [&str; 10] = ["on", "day", "at", "eaters", "for", "guests", "skip", "away", "ready_in", "packed"];

/// Writes `skip = true` into the meal that stands at `meal`.
///
/// # Errors
/// A sentence's end that says why the text cannot be edited.
///
/// ```
/// use spence::kitchen::{Spot, skip_meal};
///
/// let week = "# Ours\n[[meal]]   # late\nday = \"thu\"\nat = \"supper\"\n";
/// let at = Spot { file: "weeks/week.toml".to_owned(), line: 2, column: 1 };
/// let new = "# Ours\n[[meal]]   # late\nday = \"thu\"\nat = \"supper\"\nskip = true\n";
/// assert_eq!(skip_meal(week, &at).as_deref(), Ok(new));
/// ```
pub fn skip_meal(text: &str, meal: &Spot) -> Result<String, String> {
    let (mut document, place) = (parse(text)?, place_of(text, meal)?);
    let meal = meal_mut(&mut document, place)?;
    match meal.get_mut("skip").and_then(Item::as_value_mut) {
        Some(old) => {
            let decor = old.decor().clone();
            *old = Value::from(true);
            *old.decor_mut() = decor;
        }
        None => drop(meal.insert("skip", Item::Value(Value::from(true)))),
    }
    Ok(with_line_ends_of(text, document.to_string()))
}

/// Exchanges what two meals of one file hold: their dishes, with their names and all that is said of the dishes. Day and hour stay, and
/// so does who comes.
///
/// # Errors
/// As [`skip_meal`].
pub fn exchange_meals(text: &str, one: &Spot, other: &Spot) -> Result<String, String> {
    let (mut document, first, second) = (parse(text)?, place_of(text, one)?, place_of(text, other)?);
    let of_first = take_out(meal_mut(&mut document, first)?);
    let of_second = take_out(meal_mut(&mut document, second)?);
    put_in(meal_mut(&mut document, first)?, of_second);
    put_in(meal_mut(&mut document, second)?, of_first);
    Ok(with_line_ends_of(text, document.to_string()))
}

/// The same for two meals of different files: both of their new texts.
///
/// # Errors
/// As [`skip_meal`].
pub fn exchange_meals_between((text, one): (&str, &Spot), (other_text, other): (&str, &Spot)) -> Result<(String, String), String> {
    let (mut here, mut there) = (parse(text)?, parse(other_text)?);
    let (first, second) = (place_of(text, one)?, place_of(other_text, other)?);
    let of_first = take_out(meal_mut(&mut here, first)?);
    let of_second = take_out(meal_mut(&mut there, second)?);
    put_in(meal_mut(&mut here, first)?, of_second);
    put_in(meal_mut(&mut there, second)?, of_first);
    Ok((with_line_ends_of(text, here.to_string()), with_line_ends_of(other_text, there.to_string())))
}

pub(super) fn parse(text: &str) -> Result<DocumentMut, String> {
    text.parse().map_err(|error: toml_edit::TomlError| format!("it is not TOML: {}", error.message()))
}

/// New lines come with plain ends.
pub(super) fn with_line_ends_of(text: &str, new: String) -> String {
    if text.contains("\r\n") { new.replace("\r\n", "\n").replace('\n', "\r\n") } else { new }
}

/// Which meal of the file stands there, counted from 0.
pub(super) fn place_of(text: &str, meal: &Spot) -> Result<usize, String> {
    let document = Document::parse(text).map_err(|error| format!("it is not TOML: {}", error.message()))?;
    let starts: Vec<Option<usize>> = match document.as_table().get("meal") {
        Some(Item::ArrayOfTables(meals)) => meals.iter().map(|meal| meal.span().map(|span| span.start)).collect(),
        Some(Item::Value(Value::Array(meals))) => meals.iter().map(|meal| meal.span().map(|span| span.start)).collect(),
        _ => Vec::new(),
    };
    let place = |start: &usize| {
        let before = text.get(..*start).unwrap_or_default();
        let line = before.matches('\n').count() as u32 + 1;
        (line, before.rsplit('\n').next().unwrap_or_default().chars().count() as u32 + 1)
    };
    let is_it = |start: &Option<usize>| start.as_ref().map(place) == Some((meal.line, meal.column));
    let on_its_line = |start: &Option<usize>| start.as_ref().is_some_and(|start| place(start).0 == meal.line);
    let found = starts.iter().position(is_it).or_else(|| starts.iter().position(on_its_line));
    found.ok_or_else(|| format!("there is no meal at line {}", meal.line))
}

fn meal_mut(document: &mut DocumentMut, place: usize) -> Result<&mut dyn TableLike, String> {
    let gone = || "the meal is not there any more".to_owned();
    match document.get_mut("meal") {
        Some(Item::ArrayOfTables(meals)) => meals.get_mut(place).map(|meal| meal as &mut dyn TableLike).ok_or_else(gone),
        Some(Item::Value(Value::Array(meals))) => {
            meals.get_mut(place).and_then(Value::as_inline_table_mut).map(|meal| meal as &mut dyn TableLike).ok_or_else(gone)
        }
        _ => Err(gone()),
    }
}

/// A key as it was typed, with the remarks above it, and what it holds.
struct Held {
    key: String,
    remarks: Option<String>,
    item: Item,
}

fn take_out(meal: &mut dyn TableLike) -> Vec<Held> {
    let keys: Vec<String> = meal.iter().map(|(key, _)| key.to_owned()).filter(|key| !STAYS.contains(&key.as_str())).collect();
    let take = |key: String| {
        let remarks = meal.key(&key).and_then(|key| key.leaf_decor().prefix()).and_then(|prefix| prefix.as_str()).map(str::to_owned);
        meal.remove(&key).map(|item| Held { key, remarks, item })
    };
    keys.into_iter().filter_map(take).collect()
}

fn put_in(meal: &mut dyn TableLike, held: Vec<Held>) {
    for Held { key, remarks, mut item } in held {
        settle(&mut item);
        meal.insert(&key, item);
        if let (Some(remarks), Some(mut key)) = (remarks, meal.key_mut(&key)) {
            key.leaf_decor_mut().set_prefix(remarks);
        }
    }
}

/// Tables of the dish follow their new meal, wherever they stood before.
fn settle(item: &mut Item) {
    let unplace = |table: &mut Table| {
        table.set_position(None);
        table.iter_mut().for_each(|(_, item)| settle(item));
    };
    match item {
        Item::Table(table) => unplace(table),
        Item::ArrayOfTables(tables) => tables.iter_mut().for_each(unplace),
        _ => (),
    }
}
