//! Writing meals into a week's file in place of what left them open. What is replaced stays above as remarks, once; everything else stays
//! as a person typed it.
//!
//! Knows the texts of week files alone; no folder, no plan.

use toml_edit::{Array, DocumentMut, Item, Table, Value};

use super::Spot;
use super::change_week::{parse, place_of, with_line_ends_of};

/// What is written into one meal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenMeal {
    /// Where the meal stands.
    pub at: Spot,
    pub pattern: Option<String>,
    pub name: String,
    pub each: Vec<String>,
    pub shared: Vec<String>,
}

/// The keys that say what a meal is, in the order in which they are written.
const KEYS: [&str; 5] = ["open", "pattern", "name", "each", "shared"];

/// Writes all the meals.
///
/// # Errors
/// A sentence's end that says why the text cannot be edited.
///
/// ```
/// use spence::kitchen::{Spot, WrittenMeal, write_meals};
///
/// let week = "[[meal]]   # late\nday = \"thu\"\nat = \"supper\"\nopen = true\nready_in = \"15 min\"\n";
/// let meal = WrittenMeal {
///     at: Spot { file: "weeks/week.toml".to_owned(), line: 1, column: 1 },
///     pattern: Some("Soup".to_owned()),
///     name: "Soup: leek soup".to_owned(),
///     each: vec!["1 portion recipe:leek-soup".to_owned()],
///     shared: vec![],
/// };
/// let new = "[[meal]]   # late\nday = \"thu\"\nat = \"supper\"\n# open = true\npattern = \"Soup\"\nname = \"Soup: leek soup\"\n\
///            each = [\"1 portion recipe:leek-soup\"]\nready_in = \"15 min\"\n";
/// assert_eq!(write_meals(week, &[meal]).as_deref(), Ok(new));
/// ```
pub fn write_meals(text: &str, meals: &[WrittenMeal]) -> Result<String, String> {
    let mut document = parse(text)?;
    for meal in meals {
        let place = place_of(text, &meal.at)?;
        write_one(table_of(&mut document, place)?, meal);
    }
    Ok(with_line_ends_of(text, document.to_string()))
}

fn table_of(document: &mut DocumentMut, place: usize) -> Result<&mut Table, String> {
    let meals = document.get_mut("meal").and_then(Item::as_array_of_tables_mut);
    let table = meals.and_then(|meals| meals.get_mut(place));
    table.ok_or_else(|| "its meals stand in one line; write each as [[meal]] with its keys below".to_owned())
}

/// The new keys take the place of the first that goes; without any, they follow the last. A line that says already what is to be written
/// stays where it is, with its remarks.
fn write_one(table: &mut Table, meal: &WrittenMeal) {
    let goes = |key: &str| KEYS.contains(&key) && !stays(table, meal, key);
    let old: Vec<String> = table.iter().map(|(key, _)| key.to_owned()).filter(|key| goes(key)).collect();
    let new: Vec<(&str, Item)> = new_keys(meal).into_iter().filter(|(key, _)| !stays(table, meal, key)).collect();
    let remarks = remarks_of(table, &old);
    let names: Vec<String> = table.iter().map(|(key, _)| key.to_owned()).collect();
    let entries: Vec<(toml_edit::Key, Item)> = names.iter().filter_map(|name| table.remove_entry(name)).collect();
    let is_old = |key: &toml_edit::Key| old.iter().any(|old| old == key.get());
    let at = entries.iter().position(|(key, _)| is_old(key)).unwrap_or(entries.len());
    let kept = |table: &mut Table, entries: &[(toml_edit::Key, Item)]| {
        for (key, item) in entries.iter().filter(|(key, _)| !is_old(key)) {
            table.insert_formatted(key, item.clone());
        }
    };
    kept(table, &entries[..at]);
    let all_stay = new.is_empty();
    insert_new(table, new, &remarks);
    kept(table, &entries[at..]);
    let next = entries[at..].iter().find(|(key, _)| all_stay && !is_old(key));
    if let Some(mut key) = next.and_then(|(key, _)| table.key_mut(key.get())) {
        let above = key.leaf_decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default().to_owned();
        key.leaf_decor_mut().set_prefix(remarks + &above);
    }
}

/// What is written, in the order of the keys.
fn new_keys(meal: &WrittenMeal) -> Vec<(&'static str, Item)> {
    let lines = |lines: &[String]| Item::Value(Value::Array(lines.iter().map(String::as_str).collect::<Array>()));
    let text = |text: &str| Item::Value(Value::from(text));
    let new = [
        ("pattern", meal.pattern.as_deref().map(text)),
        ("name", Some(text(&meal.name))),
        ("each", (!meal.each.is_empty()).then(|| lines(&meal.each))),
        ("shared", (!meal.shared.is_empty()).then(|| lines(&meal.shared))),
    ];
    new.into_iter().filter_map(|(key, item)| Some((key, item?))).collect()
}

/// Does a line say already what is to be written? A pattern that stands alone is what leaves the meal open: it goes, as a remark.
fn stays(table: &Table, meal: &WrittenMeal, key: &str) -> bool {
    let text = || table.get(key).and_then(Item::as_str);
    let says = |lines: &[String]| {
        let known = table.get(key).and_then(Item::as_array).map(|known| known.iter().map(Value::as_str).collect::<Option<Vec<_>>>());
        known.flatten().is_some_and(|known| known == lines)
    };
    let is_alone = || ["open", "each", "shared"].iter().all(|other| !table.contains_key(other));
    match key {
        "pattern" => text().is_some() && text() == meal.pattern.as_deref() && !is_alone(),
        "name" => text() == Some(&meal.name),
        "each" => says(&meal.each),
        "shared" => says(&meal.shared),
        _ => false,
    }
}

/// The keys that go, as remarks, with those above them. What a proposal wrote goes without a trace, but for a person's remark behind it.
fn remarks_of(table: &Table, old: &[String]) -> String {
    let above: Vec<String> = KEYS.iter().filter(|key| table.contains_key(key)).map(|key| remarks_above(table, key)).collect();
    let written_before = above.iter().any(|above| is_written_below(table, above));
    let mut remarks = String::new();
    for key in old {
        let Some(item) = table.get(key) else { continue };
        remarks.push_str(&remarks_above(table, key));
        let typed = typed(table, key, item);
        let remark: String = typed.lines().map(|line| format!("# {line}\n")).collect();
        let is_said = above.iter().any(|above| above.contains(&remark));
        if !is_said && (!written_before || has_a_remark(item)) {
            remarks.push_str(&remark);
        }
    }
    remarks
}

/// Did a person write a remark behind the value, or between its lines?
fn has_a_remark(item: &Item) -> bool {
    let said = |raw: Option<&toml_edit::RawString>| raw.and_then(|raw| raw.as_str()).is_some_and(|text| text.contains('#'));
    let around = |value: &Value| said(value.decor().prefix()) || said(value.decor().suffix());
    let within = |list: &Array| said(Some(list.trailing())) || list.iter().any(around);
    item.as_value().is_some_and(|value| around(value) || value.as_array().is_some_and(within))
}

fn insert_new(table: &mut Table, new: Vec<(&str, Item)>, remarks: &str) {
    let mut remarks = Some(remarks);
    for (key, item) in new {
        table.insert(key, item);
        if let (Some(remarks), Some(mut key)) = (remarks.take(), table.key_mut(key)) {
            key.leaf_decor_mut().set_prefix(remarks);
        }
    }
}

/// A key with its value and the remark behind it, as typed.
fn typed(table: &Table, key: &str, item: &Item) -> String {
    let written = table.key(key).map_or_else(|| key.to_owned(), |key| key.display_repr().into_owned());
    let blank = table.key(key).and_then(|key| key.leaf_decor().suffix()).and_then(|suffix| suffix.as_str()).unwrap_or(" ");
    let value = item.as_value().map(|value| value.to_string()).unwrap_or_default();
    format!("{written}{blank}={}", value.trim_end())
}

fn remarks_above(table: &Table, key: &str) -> String {
    let prefix = table.key(key).and_then(|key| key.leaf_decor().prefix()).and_then(|prefix| prefix.as_str());
    prefix.unwrap_or_default().to_owned()
}

/// Was the meal below these remarks written by a proposal? Then it is not open, and above it stands what it was before: an open meal, or,
/// where its name begins with its pattern as proposals name it, another one. A person's own `# each = …` is none of the two.
fn is_written_below(table: &Table, above: &str) -> bool {
    let said = |key: &str| table.get(key).and_then(Item::as_str);
    let proposed = said("pattern").zip(said("name")).is_some_and(|(pattern, name)| name.starts_with(pattern));
    let was = remarked(above);
    !is_open(table) && (is_open(&was) || proposed && !was.is_empty())
}

/// What remarks say that would be keys of a meal.
fn remarked(above: &str) -> Table {
    let lines: Vec<&str> =
        above.lines().map(|line| line.trim().strip_prefix('#').map_or("", |line| line.strip_prefix(' ').unwrap_or(line))).collect();
    let mut was = Table::new();
    for from in 0..lines.len() {
        let begins = |key: &&&str| lines[from].strip_prefix(**key).is_some_and(|rest| rest.trim_start().starts_with('='));
        let Some(key) = KEYS.iter().find(begins) else { continue };
        // A list may go on over several lines.
        let read = |to: usize| lines[from..to].join("\n").parse::<DocumentMut>().ok()?.remove(key);
        if let Some(item) = (from + 1..=lines.len()).find_map(read) {
            was.insert(key, item);
        }
    }
    was
}

/// As the reader takes it: said to be open, a pattern alone, or with a place to be filled.
fn is_open(meal: &Table) -> bool {
    let places = |key: &str| meal.get(key).is_some_and(|lines| lines.to_string().to_lowercase().contains("any:"));
    let alone = meal.contains_key("pattern") && !meal.contains_key("each") && !meal.contains_key("shared");
    meal.get("open").and_then(Item::as_bool).unwrap_or(alone || places("each") || places("shared"))
}
