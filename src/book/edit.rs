//! Changes of lots written into the text of pantry.toml, the household's remarks and layout kept.

use jiff::civil::Date;
use toml_edit::{ArrayOfTables, Datetime, DocumentMut, Item, Table, Value};

use super::booking::Change;
use super::record::LotRecord;
use crate::words;

/// The text with `changes` made. `shelf` are the lots of the text, in its order; what is taken away leaves its lines in the change, its
/// place and the remarks above it, by which it is put back.
///
/// # Errors
/// A sentence's end that says why the text cannot be edited.
pub fn edit_lots(text: &str, shelf: &[LotRecord], changes: &mut [Change]) -> Result<String, String> {
    let mut document: DocumentMut = text.parse().map_err(|error: toml_edit::TomlError| format!("it is not TOML: {}", error.message()))?;
    let mut trailing = document.trailing().as_str().unwrap_or_default().to_owned();
    let array = lots_of(&mut document)?;
    let mut lots: Vec<Table> = std::mem::take(array).into_iter().collect();
    let mut shelf: Vec<LotRecord> = shelf.iter().map(LotRecord::on_paper).collect();
    for change in changes {
        let from = change.from.as_ref().map(LotRecord::on_paper);
        let at = from.as_ref().and_then(|from| shelf.iter().position(|lot| lot == from));
        match (at, from.is_some(), &change.to) {
            (None, true, _) => return Err(format!("it has no lot of {}", from.map(|lot| lot.name().to_owned()).unwrap_or_default())),
            (Some(at), _, Some(to)) => {
                if let Some(table) = lots.get_mut(at) {
                    set_amount(table, &to.amount_text());
                }
                shelf[at] = to.on_paper();
            }
            (Some(at), _, None) => {
                change.lines = lots.get(at).map(|table| table.to_string());
                (change.nth, change.above) = (Some(at + 1), lots.get(at).map(|table| above(table).to_owned()));
                change.heading = lots.get(at).map(|table| behind_heading(table).to_owned()).filter(|text| !text.is_empty());
                trailing.insert_str(0, &take_out(&mut lots, at));
                shelf.remove(at);
            }
            (None, false, Some(to)) => {
                let at = change.nth.map_or_else(|| beside_its_like(&shelf, to), |nth| (nth - 1).min(shelf.len()));
                let mut table = table_of(to, change.lines.as_deref());
                if let Some(text) = change.heading.take() {
                    table.decor_mut().set_suffix(text);
                }
                if let Some(own) = change.above.take().filter(|own| take_back(lots.get_mut(at), &mut trailing, own)) {
                    table.decor_mut().set_prefix(own);
                }
                lots.insert(at.min(lots.len()), table);
                shelf.insert(at, to.on_paper());
                change.nth = None;
            }
            (None, false, None) => (),
        }
    }
    array.extend(lots);
    document.set_trailing(trailing);
    let written = document.to_string();
    // New lines come with plain ends.
    Ok(if text.contains("\r\n") { written.replace("\r\n", "\n").replace('\n', "\r\n") } else { written })
}

/// The `[[lot]]` tables; a list in one line is opened up first.
fn lots_of(document: &mut DocumentMut) -> Result<&mut ArrayOfTables, String> {
    let item = document.entry("lot").or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
    if item.as_array_of_tables().is_none() {
        let opened = match std::mem::take(item) {
            // An emptied list: "lot = []".
            Item::Value(Value::Array(none)) if none.is_empty() => Ok(ArrayOfTables::new()),
            list => list.into_array_of_tables(),
        };
        *item = Item::ArrayOfTables(opened.map_err(|_| "its lots are no list of tables".to_owned())?);
    }
    item.as_array_of_tables_mut().ok_or_else(|| "its lots are no list of tables".to_owned())
}

/// Behind the last lot of the same food in the same place, else behind the last of that place, else at the end: a household that sorts
/// its file under remarks finds new lots where it looks for them.
fn beside_its_like(shelf: &[LotRecord], new: &LotRecord) -> usize {
    let there = |lot: &&LotRecord| lot.place == new.place;
    let last = |alike: &dyn Fn(&&LotRecord) -> bool| shelf.iter().rposition(|lot| alike(&lot)).map(|at| at + 1);
    last(&|lot| there(lot) && lot.name() == new.name()).or_else(|| last(&there)).unwrap_or(shelf.len())
}

/// Keeps the remark at the end of the line.
fn set_amount(table: &mut Table, text: &str) {
    let decor = table.get("amount").and_then(Item::as_value).map(|value| value.decor().clone());
    let mut value = Value::from(text);
    if let Some(decor) = decor {
        *value.decor_mut() = decor;
    }
    table["amount"] = Item::Value(value);
}

/// Takes remarks back from the lot below, or from the end of the file; empty lines are nobody's. Says whether they were there.
fn take_back(below: Option<&mut Table>, trailing: &mut String, own: &str) -> bool {
    if !own.contains('#') {
        return true;
    }
    let Some(below) = below else {
        let rest = trailing.strip_prefix(own).map(str::to_owned);
        return rest.map(|rest| *trailing = rest).is_some();
    };
    let rest = above(below).strip_prefix(own).map(str::to_owned);
    rest.map(|rest| below.decor_mut().set_prefix(rest)).is_some()
}

/// What stands above a lot: remarks and empty lines.
fn above(table: &Table) -> &str {
    table.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default()
}

/// What stands behind `[[lot]]` in its line.
fn behind_heading(table: &Table) -> &str {
    table.decor().suffix().and_then(|suffix| suffix.as_str()).unwrap_or_default()
}

/// Remarks above the lot pass to the one below it, or, at the end, are given back.
fn take_out(lots: &mut Vec<Table>, at: usize) -> String {
    let gone = lots.remove(at);
    let prefix = above(&gone).to_owned();
    if !prefix.contains('#') {
        return String::new();
    }
    let Some(next) = lots.get_mut(at) else { return prefix };
    let own = above(next).to_owned();
    next.decor_mut().set_prefix(prefix + &own);
    String::new()
}

fn table_of(lot: &LotRecord, lines: Option<&str>) -> Table {
    let known = lines.and_then(|lines| lines.parse::<DocumentMut>().ok()).map(|document| document.as_table().clone());
    let mut table = known.unwrap_or_else(|| fresh_table(lot));
    table.set_position(None);
    table.decor_mut().set_prefix("\n");
    table
}

fn fresh_table(lot: &LotRecord) -> Table {
    let mut table = Table::new();
    let mut text = |key: &str, value: &str| {
        table.insert(key, toml_edit::value(value));
    };
    if let Some(food) = &lot.food {
        text("food", food);
    }
    if let Some(recipe) = &lot.recipe {
        text("recipe", recipe);
    }
    if let Some(eater) = &lot.eater {
        text("eater", eater);
    }
    if !lot.without.is_empty() {
        table.insert("without", toml_edit::value(lot.without.iter().map(String::as_str).collect::<toml_edit::Array>()));
    }
    let mut text = |key: &str, value: &str| {
        table.insert(key, toml_edit::value(value));
    };
    text("amount", &lot.amount_text());
    text("place", words::place(lot.place));
    for (key, day) in lot.dates() {
        if let Some(day) = day.and_then(toml_date) {
            table.insert(key, toml_edit::value(day));
        }
    }
    table
}

fn toml_date(day: Date) -> Option<Datetime> {
    day.to_string().parse().ok()
}
