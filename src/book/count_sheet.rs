//! The count sheet: every lot in the order in which it stands on the shelf, with a blank for what is found.

use std::fmt::Write;

use jiff::civil::Date;

use super::record::{Exact, LotRecord};
use crate::foods::Place;
use crate::kitchen::much::{for_whom, lies};
use crate::kitchen::{Kitchen, RecipeId, Ware};
use crate::measure::Dimension;
use crate::shelf::lot_dates;
use crate::words;
use crate::words::sentence;

/// One lot to be counted.
#[derive(Debug, Clone, PartialEq)]
pub struct CountLine {
    /// The food, or the recipe's name.
    pub name: String,
    pub lot: LotRecord,
    /// How much of it lies there, in the words in which a lot is told everywhere: "425 g", "3 cloves", "2 × 400 g".
    pub said: String,
    /// Is that no more than about what is booked?
    pub is_about: bool,
    /// Its place among the kitchen's lots.
    pub index: usize,
    /// The earliest of its dates.
    pub until: Option<Date>,
    /// Does `until` come from what is known of its keeping?
    pub estimate: bool,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CountPlace {
    pub place: Place,
    pub lines: Vec<CountLine>,
}

/// Cupboard, fridge, freezer; in each the order of pantry.toml, the lots of one food together and the oldest first. Empty places are
/// left out. `shelf` is that of the kitchen's lots, in their order.
pub fn count_lines(kitchen: &Kitchen, shelf: &[LotRecord]) -> Vec<CountPlace> {
    let places = [Place::Cupboard, Place::Fridge, Place::Freezer].map(|place| {
        let here: Vec<usize> = (0..shelf.len()).filter(|&lot| shelf[lot].place == place).collect();
        let first = |lot: usize| here.iter().position(|&other| shelf[other].name() == shelf[lot].name());
        let mut lines: Vec<(usize, CountLine)> = here.iter().map(|&lot| (lot, line(kitchen, lot, &shelf[lot]))).collect();
        lines.sort_by_key(|(lot, line)| (first(*lot), line.until.is_none(), line.until, *lot));
        CountPlace { place, lines: lines.into_iter().map(|(_, line)| line).collect() }
    });
    places.into_iter().filter(|place| !place.lines.is_empty()).collect()
}

fn line(kitchen: &Kitchen, lot: usize, record: &LotRecord) -> CountLine {
    let until = kitchen.lots.get(lot).and_then(|lot| lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest);
    let on_the_pack = [record.use_by, record.best_before].into_iter().flatten().min();
    let recipe = record.recipe.as_ref().and_then(|id| kitchen.recipes.iter().find(|recipe| recipe.id == *id));
    let name = recipe.map_or_else(|| record.name().to_owned(), |recipe| recipe.name.clone());
    let name = name + &for_whom(kitchen.names(), kitchen.lots.get(lot).and_then(|lot| lot.whose.as_ref()));
    let said = said(kitchen, record);
    CountLine {
        name,
        said,
        is_about: record.pack.is_none() && record.amount_text().contains('/'),
        lot: record.clone(),
        index: lot,
        until,
        estimate: until.is_some() && until != on_the_pack,
    }
}

/// Of something that nobody knows any more, as pantry.toml has it.
fn said(kitchen: &Kitchen, record: &LotRecord) -> String {
    let food = record.food.as_ref().and_then(|name| kitchen.foods.find(name)).map(Ware::Food);
    let recipe = || record.recipe.as_ref().and_then(|id| kitchen.recipes.iter().position(|recipe| recipe.id == *id));
    let (amount, pack) = (record.amount.quantity(), record.pack.as_ref().map(Exact::quantity));
    let ware = food.or_else(|| recipe().map(|at| Ware::Recipe(RecipeId(at))));
    ware.map_or_else(|| record.amount_text(), |ware| lies(kitchen.names(), ware, &amount, pack.as_ref(), kitchen.print.units))
}

/// The sheet as the TOML that `count` reads back, with nothing counted yet.
pub fn count_form(places: &[CountPlace], household: &str, on: Date) -> String {
    let mut text = format!(
        "# {}: count sheet of {on}.\n\
         #\n\
         # counted = \"150 g\"   what you found; of closed packs \"1 tin\"\n\
         # counted = \"0\"       all of it is gone\n\
         # counted = \"\"        not looked at: it stays as it is booked\n\
         #\n\
         # What is not on the sheet goes below as in pantry.toml: [[lot]], food, amount, place, and its date.\n\
         # Then: spence count FILE\n",
        household.replace(['\n', '\r'], " ")
    );
    for place in places {
        let _ = write!(text, "\n# {}\n", sentence(words::place(place.place)));
        for line in &place.lines {
            text.push_str(&lot_form(line));
        }
    }
    text
}

fn lot_form(line: &CountLine) -> String {
    let lot = &line.lot;
    let quoted = |text: &str| toml_edit::Value::from(text).to_string();
    let mut text = "\n[[lot]]\n".to_owned();
    let name = lot.food.as_ref().map(|food| ("food", food)).or(lot.recipe.as_ref().map(|recipe| ("recipe", recipe)));
    if let Some((key, name)) = name {
        let _ = writeln!(text, "{key} = {}", quoted(name));
    }
    if let Some(eater) = &lot.eater {
        let _ = writeln!(text, "eater = {}", quoted(eater));
    }
    if !lot.without.is_empty() {
        let _ = writeln!(text, "without = {}", lot.without.iter().map(String::as_str).collect::<toml_edit::Array>());
    }
    let _ = writeln!(text, "place = \"{}\"", words::place(lot.place));
    for (key, day) in lot.dates() {
        if let Some(day) = day {
            let _ = writeln!(text, "{key} = {day}");
        }
    }
    // The exact amount, by which it is booked; a person reads the words behind it.
    let exact = lot.amount_text();
    // Seven cloves stand there as a part of a bulb.
    let is_counted = lot.pack.is_none() && lot.amount.dimension == Dimension::Count && line.said != exact;
    let said = match line.is_about {
        true => format!("   # about {}", line.said),
        false if is_counted => format!("   # {}", line.said),
        false => String::new(),
    };
    let _ = writeln!(text, "booked = {}{said}\ncounted = \"\"", quoted(&exact));
    text
}
