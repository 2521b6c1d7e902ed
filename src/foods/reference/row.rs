//! One row of the built-in reference, read to a food.

use std::collections::BTreeMap;

use crate::foods::{Allergen, Fact, Food, Keeping, Kind, Measured, Nutrients, read_cooks};
use crate::measure::Days;

/// The table's header, which its comment block explains.
pub(super) const COLUMNS: [&str; 26] = [
    "name",
    "also",
    "kind",
    "section",
    "usda",
    "fsis",
    "cup",
    "each",
    "words",
    "edible",
    "cooked",
    "drained",
    "cut",
    "cooks",
    "cupboard",
    "fridge",
    "freezer",
    "opened",
    "thaw",
    "allergens",
    "kcal",
    "protein",
    "carbohydrate",
    "fat",
    "fibre",
    "sodium",
];

/// Where allergens come from, unless the cell says otherwise.
pub(super) const ANNEX_II: &str = "EU 1169/2011 Annex II";

/// Where `cut` and `cooks` come from, unless the cell says otherwise.
pub(super) const COMMON: &str = "common practice";

/// A cell of the table that cannot be read.
#[derive(Debug, PartialEq)]
pub(super) struct Fault {
    pub line: usize,
    pub what: String,
}

/// One row of the built-in reference, which its tests have read before.
pub(in crate::foods) fn read_known_row(line: usize, row: &str) -> Food {
    read_row(row).unwrap_or_else(|what| Fault { line, what }.end())
}

impl Fault {
    pub fn end(self) -> ! {
        panic!("src/foods/reference.tsv:{}: {}", self.line, self.what)
    }
}

pub(super) fn read_row(row: &str) -> Result<Food, String> {
    let mut cells = [""; COLUMNS.len()];
    let mut count = 0;
    for cell in row.split('\t') {
        *cells.get_mut(count).ok_or("more cells than columns")? = cell;
        count += 1;
    }
    if count < COLUMNS.len() {
        return Err(format!("{count} cells, not {}", COLUMNS.len()));
    }
    let [name, also, kind, section, usda, fsis, cup, each, words, edible, cooked, drained, cut, cooks, rest @ ..] = cells;
    let [cupboard, fridge, freezer, opened, thaw, allergens, nutrients @ ..] = rest;
    let usda = source("USDA SR ", usda);
    let fsis = source("FSIS ", fsis);
    let some = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let mut told = BTreeMap::new();
    let nutrients = read_nutrients(nutrients, &usda, &mut told)?;
    let whole = !allergens.ends_with('+');
    let certain = fact(allergens.trim_end_matches('+').trim_end(), ANNEX_II, read_allergens)?;
    let (allergens, contains) = if whole { (certain, None) } else { (None, certain.or_else(nothing_certain)) };
    Ok(Food {
        name: name.to_owned(),
        also: parts(also, ';').map(str::to_owned).collect(),
        kind: read_kind(kind)?,
        section: some(section),
        cup: read_cup(cup, &usda, &mut told)?,
        each: fact(each, &usda, measured)?,
        words: read_words(words, &usda)?,
        volumes: BTreeMap::new(),
        edible: fact(edible, &usda, number)?,
        cooked: fact(cooked, &usda, number)?,
        drained: fact(drained, &usda, number)?,
        cut: fact(cut, COMMON, yes_no)?,
        cooks: fact(cooks, COMMON, |text| read_cooks(text).map_err(|error| error.cause))?,
        keeps: Keeping {
            cupboard: fact(cupboard, &fsis, days)?,
            fridge: fact(fridge, &fsis, days)?,
            freezer: fact(freezer, &fsis, days)?,
            opened: fact(opened, &fsis, days)?,
        },
        thaw: fact(thaw, &fsis, days)?,
        allergens,
        contains,
        nutrients,
        told,
        unknown: false,
    })
}

fn read_kind(cell: &str) -> Result<Option<Kind>, String> {
    if cell.is_empty() {
        return Ok(None);
    }
    Kind::named(cell).map(Some).ok_or_else(|| format!("{cell:?} is no kind of food"))
}

/// What stands between separators, but for the space around it.
pub(super) fn parts(cell: &str, separator: char) -> impl Iterator<Item = &str> {
    cell.split(separator).map(str::trim).filter(|part| !part.is_empty())
}

/// `USDA SR 11282`; nothing where the row names no number.
fn source(of: &str, number: &str) -> String {
    if number.is_empty() { String::new() } else { [of, number].concat() }
}

/// A cell `value` or `value @ source`; nothing in an empty cell.
fn fact<T>(cell: &str, default: &str, read: impl Fn(&str) -> Result<T, String>) -> Result<Option<Fact<T>>, String> {
    if cell.is_empty() {
        return Ok(None);
    }
    let (value, source) = cell.split_once('@').map_or((cell, default), |(value, source)| (value.trim_end(), source.trim_start()));
    if source.is_empty() {
        return Err(format!("{cell:?} has no source"));
    }
    Ok(Some(Fact { value: read(value)?, source: source.to_owned() }))
}

fn number(text: &str) -> Result<f64, String> {
    text.parse().ok().filter(|number: &f64| number.is_finite()).ok_or_else(|| format!("{text:?} is no number"))
}

fn yes_no(text: &str) -> Result<bool, String> {
    match text {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err(format!("{text:?} is neither yes nor no")),
    }
}

fn days(text: &str) -> Result<Days, String> {
    text.parse().map(Days).map_err(|_| format!("{text:?} is no number of days"))
}

/// `125`, or `chopped=160 sliced=115`.
fn measured(text: &str) -> Result<Measured, String> {
    if !text.contains('=') {
        return number(text).map(Measured::Single);
    }
    parts(text, ' ').map(pair).collect::<Result<_, _>>().map(Measured::Table)
}

fn pair(text: &str) -> Result<(String, f64), String> {
    let (word, grams) = text.split_once('=').ok_or_else(|| format!("{text:?} is not word=grams"))?;
    Ok((word.to_owned(), number(grams)?))
}

/// `chopped=125 sliced=109; grated=110 @ from memory`: what stands after a ";" has a source of its own.
fn read_cup(cell: &str, default: &str, told: &mut BTreeMap<String, String>) -> Result<Option<Fact<Measured>>, String> {
    let (first, others) = cell.split_once(';').unwrap_or((cell, ""));
    let mut cup = fact(first.trim_end(), default, measured)?;
    for entry in parts(others, ';') {
        let Some(Fact { value: (form, grams), source }) = fact(entry, default, pair)? else { continue };
        let Some(Fact { value: Measured::Table(forms), .. }) = &mut cup else { return Err(format!("{cell:?} is no table of forms")) };
        told.insert(format!("cup, {form}"), source);
        forms.insert(form, grams);
    }
    Ok(cup)
}

/// `bunch=30 @ common practice; sprig=1.05`: each weight may have a source of its own.
fn read_words(cell: &str, default: &str) -> Result<BTreeMap<String, Fact<f64>>, String> {
    let mut words = BTreeMap::new();
    for entry in parts(cell, ';') {
        if let Some(Fact { value: (word, value), source }) = fact(entry, default, pair)? {
            words.insert(word, Fact { value, source });
        }
    }
    Ok(words)
}

/// A `+` alone: what is in it depends on the maker altogether.
fn nothing_certain() -> Option<Fact<Vec<Allergen>>> {
    Some(Fact { value: Vec::new(), source: COMMON.to_owned() })
}

/// `none`, or names of Annex II.
fn read_allergens(text: &str) -> Result<Vec<Allergen>, String> {
    if text == "none" {
        return Ok(Vec::new());
    }
    parts(text, ',').map(allergen).collect()
}

fn allergen(name: &str) -> Result<Allergen, String> {
    let row = Allergen::ALL.iter().find(|row| row.1 == name);
    row.map(|row| row.0).ok_or_else(|| format!("{name:?} is no allergen"))
}

/// Six figures of the row's source, or of the source in the cell of the energy; another cell may name one of its own.
fn read_nutrients(cells: [&str; 6], row: &str, told: &mut BTreeMap<String, String>) -> Result<Option<Fact<Nutrients>>, String> {
    if cells.iter().all(|cell| cell.is_empty()) {
        return Ok(None);
    }
    let mut rest = row;
    let mut figures = [None; 6];
    for ((cell, figure), (name, ..)) in cells.into_iter().zip(&mut figures).zip(Nutrients::default().rows()) {
        let Some((value, source)) = cell.split_once('@').map(|(value, source)| (value.trim_end(), source.trim_start())) else {
            *figure = if cell.is_empty() { None } else { Some(number(cell)?) };
            continue;
        };
        *figure = Some(number(value)?);
        match name {
            "energy" => rest = source,
            _ => drop(told.insert(name.to_owned(), source.to_owned())),
        }
    }
    if rest.is_empty() {
        return Err("nutrients have no source".to_owned());
    }
    let [kcal, protein_g, carbohydrate_g, fat_g, fibre_g, sodium_mg] = figures;
    let value = Nutrients { kcal, protein_g, carbohydrate_g, fat_g, fibre_g, sodium_mg };
    Ok(Some(Fact { value, source: rest.to_owned() }))
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;

    #[test]
    fn a_figure_without_a_source_is_refused() {
        assert_eq!(fact("160", "", number), Err("\"160\" has no source".into()));
        assert_eq!(fact("160 @ from memory", "", number), Ok(Some(Fact { value: 160.0, source: "from memory".into() })));
    }
}
