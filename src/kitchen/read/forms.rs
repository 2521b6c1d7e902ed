//! Forms filled in by hand: a count sheet, a goods-in sheet. They are read beside a kitchen that is whole.

use std::path::Path;

use toml::de::DeValue;

use super::files::{Text, read_form};
use super::lines::Speech;
use super::names::Names;
use super::pantry::{PLACES, check_dates_of, read_of, read_whose};
use super::shapes::{self, Read};
use super::source::Findings;
use super::syntax::is_prose;
use super::table::Table;
use super::{Parsed, source::Source};
use crate::kitchen::keys::{self, File};
use crate::kitchen::{CountForm, Counted, CountedLot, GoodsForm, GoodsLine, Kitchen, Lot, Mistake, NotLoaded, Ware};
use crate::measure::{InPacks, Quantity, Spoons, read_in_packs};

/// A count sheet. `more` finds what is wrong with what could be read of it: it is told together with the rest.
///
/// # Errors
/// Every mistake of the file, or that there is none.
pub fn read_count(kitchen: &Kitchen, path: &Path, more: &dyn Fn(&CountForm) -> Vec<Mistake>) -> Result<CountForm, NotLoaded> {
    let found = Findings::default();
    let form = with_form(kitchen, path, &keys::COUNT, &found, |top, source, speech| CountForm {
        lots: top.each("lot", "[[lot]]").iter().filter_map(|table| read_counted_lot(table, speech)).collect(),
        text: source.text.clone(),
        warnings: Vec::new(),
    });
    let more = form.as_ref().map(more).unwrap_or_default();
    more.into_iter().for_each(|mistake| found.mistake(mistake.at, mistake.cause, mistake.remedy));
    let warnings = found.finish()?;
    form.map(|form| CountForm { warnings, ..form }).ok_or_else(NotLoaded::default)
}

/// A goods-in sheet.
///
/// # Errors
/// Every mistake of the file, or that there is none.
pub fn read_goods(kitchen: &Kitchen, path: &Path) -> Result<GoodsForm, NotLoaded> {
    let found = Findings::default();
    let form = with_form(kitchen, path, &keys::GOODS, &found, |top, _, _| read_goods_form(kitchen, top, &found));
    found.finish()?;
    form.flatten().ok_or_else(NotLoaded::default)
}

fn with_form<T>(
    kitchen: &Kitchen,
    path: &Path,
    schema: &'static File,
    found: &Findings,
    read: impl FnOnce(&Table<'_>, &Source, &mut Speech<'_>) -> T,
) -> Option<T> {
    let text: Text = read_form(path, found);
    if let Some(source) = text.source().filter(|source| is_prose(source)) {
        let (what, remedy) = match std::ptr::eq(schema, &keys::GOODS) {
            true => (
                "goods-in file",
                "On the phone press \"Copy for receive\" and paste all of it, or write a file with: spence receive --sheet FILE.",
            ),
            false => ("count sheet", "Write one with: spence count --sheet."),
        };
        found.mistake(source.whole(), format!("this is no {what}"), remedy);
        return None;
    }
    let mut names = Names::new("recipe", "recipes/ as a file of that name", true);
    for (index, recipe) in kitchen.recipes.iter().enumerate() {
        names.add(&recipe.id, index);
    }
    let mut speech = Speech::new(kitchen.foods.clone(), &names, kitchen.rules.spoons, found);
    let parsed = Parsed::new(&text, found);
    let top = parsed.top(schema, found)?;
    Some(read(&top, text.source()?, &mut speech))
}

fn read_counted_lot(table: &Table<'_>, speech: &mut Speech<'_>) -> Option<CountedLot> {
    let of = read_of(table, speech);
    let place = table.required("place", "\"cupboard\"", shapes::one_of(&PLACES));
    let booked = table.optional("booked", shapes::in_packs(speech.spoons));
    let key = if table.has("counted") || table.has("booked") { "counted" } else { "amount" };
    if key == "counted" && table.has("amount") {
        table.mistake("amount", "amount beside counted or booked", "Write what you found as counted, and leave booked as it is.");
    }
    let counted = table.optional(key, counted(speech.spoons)).flatten();
    if !table.has("booked") && counted.is_none() && !table.has(key) {
        table.missing("counted", "\"350 g\"");
    }
    let date = |key: &str| table.optional(key, shapes::date);
    let lot = CountedLot {
        best_before: date("best_before"),
        use_by: date("use_by"),
        opened: date("opened"),
        since: date("since"),
        made: date("made"),
        food: None,
        recipe: None,
        eater: None,
        without: Vec::new(),
        place: place?,
        booked,
        counted,
        at: table.spot(),
        counted_at: table.spot_of(key),
    };
    let of = of?;
    let whose = read_whose(table, speech);
    let written = |ware: &Ware| ware.as_written(&speech.foods, |recipe| speech.recipes.name(recipe.0));
    let lot = CountedLot {
        without: whose.iter().flat_map(|whose| &whose.without).map(written).collect(),
        eater: whose.map(|whose| whose.eater),
        ..lot
    };
    check_dates_of(&as_lot(&lot, of), table);
    Some(match of {
        Ware::Food(food) => CountedLot { food: Some(speech.foods[food].name.clone()), ..lot },
        Ware::Recipe(recipe) => CountedLot { recipe: Some(speech.recipes.name(recipe.0).to_owned()), ..lot },
    })
}

fn as_lot(lot: &CountedLot, of: Ware) -> Lot {
    let amount = match &lot.counted {
        Some(Counted::Left { amount, .. }) => Some(amount),
        _ => lot.booked.as_ref(),
    };
    let InPacks { amount, pack } = amount.cloned().unwrap_or(InPacks { amount: Quantity::pieces(0), pack: None });
    let CountedLot { place, best_before, use_by, opened, since, made, at, .. } = lot.clone();
    Lot { of, whose: None, amount, pack, place, best_before, use_by, opened, since, made, paid: None, at }
}

/// Nothing where it is blank, "0" in any unit where all is gone, else an amount.
fn counted(spoons: Spoons) -> impl FnOnce(&DeValue<'_>) -> Read<Option<Counted>> {
    move |value| {
        if is_blank(value) {
            return Ok(None);
        }
        let typed = shapes::text_or_digits(value)?;
        let number = typed.split_whitespace().next().unwrap_or_default().replace(',', ".").parse::<f64>();
        if number == Ok(0.0) {
            return Ok(Some(Counted::Gone));
        }
        let bare = typed.parse::<f64>().is_ok();
        let amount = shapes::in_packs(spoons)(value)?;
        Ok(Some(Counted::Left { amount, bare }))
    }
}

fn is_blank(value: &DeValue<'_>) -> bool {
    matches!(value, DeValue::String(text) if text.trim().is_empty())
}

/// `None` where it is blank.
fn unless_blank<T>(shape: impl FnOnce(&DeValue<'_>) -> Read<T>) -> impl FnOnce(&DeValue<'_>) -> Read<Option<T>> {
    move |value| if is_blank(value) { Ok(None) } else { shape(value).map(Some) }
}

fn read_goods_form(kitchen: &Kitchen, top: &Table<'_>, found: &Findings) -> Option<GoodsForm> {
    let from = top.required("from", "2026-11-30", shapes::date);
    let trip = top.required("trip", "2026-11-28", shapes::date);
    let hash = top.optional("hash", shapes::text);
    let also = if top.has("also") { top.texts("also").unwrap_or_default() } else { Vec::new() };
    let tables = top.each("line", "[[line]]");
    let lines = tables.iter().filter_map(|table| read_goods_line(kitchen, table, found)).collect();
    Some(GoodsForm { from: from?, from_at: top.spot_of("from"), trip: trip?, trip_at: top.spot_of("trip"), hash, lines, also })
}

fn read_goods_line(kitchen: &Kitchen, table: &Table<'_>, found: &Findings) -> Option<GoodsLine> {
    let spoons = kitchen.rules.spoons;
    let food = table.required("food", "\"feta\"", shapes::text);
    let mut packs = Vec::new();
    for (text, at) in table.texts("packs").unwrap_or_default() {
        match read_in_packs(&text, spoons) {
            Ok(amount) => packs.push(amount),
            Err(error) => found.wrong(at, error),
        }
    }
    let line = GoodsLine {
        food: String::new(),
        packs,
        instead: table.optional("instead", unless_blank(shapes::in_packs(spoons))).flatten(),
        without: table.optional("without", shapes::yes_no).unwrap_or(false),
        paid: table.optional("paid", unless_blank(shapes::money(&kitchen.household.currency))).flatten(),
        until: table.optional("until", unless_blank(shapes::date)).flatten(),
        at: table.spot_of("food"),
    };
    if !table.has("packs") && line.instead.is_none() && !line.without {
        table.missing("packs", "\"2 x 150 g\"");
    }
    let typed = food?;
    let Some(food) = kitchen.foods.find(&typed) else {
        let nearest = kitchen.foods.nearest(&typed).join(", ");
        let remedy = if nearest.is_empty() { "Add it to foods.toml.".to_owned() } else { format!("Did you mean {nearest}?") };
        table.mistake("food", format!("\"{typed}\" is not a known food"), remedy);
        return None;
    };
    Some(GoodsLine { food: kitchen.foods[food].name.clone(), ..line })
}
