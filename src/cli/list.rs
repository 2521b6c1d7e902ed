//! `list`: the shopping list, as text or JSON.

use std::fmt::Write;

use jiff::civil::Date;

use super::after;
use super::outcome::{Done, json, say};
use super::setting::Setting;
use super::wrap::columns;
use super::{Cli, Format};
use crate::kitchen::Kitchen;
use crate::measure::{Units, show};
use crate::purchase::{ListLine, MealNote, PerEater, Reserved, ShoppingList};
use crate::words::{day, day_near, day_year, place};

pub fn run(cli: &Cli, all: bool, compared: bool) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    reckoned.warn(cli)?;
    let shown_from = reckoned.shown_from.filter(|_| !all);
    let mut list = reckoned.reckoning.list(&reckoned.kitchen, reckoned.week, shown_from, &reckoned.warnings);
    if compared {
        list.compare = Some(reckoned.reckoning.compare(&reckoned.kitchen, reckoned.week, shown_from));
    }
    match cli.format {
        Format::Json => say(&json(&list)?),
        Format::Text => say(&text(&list, &reckoned.kitchen)),
    }
}

/// The list for a terminal: a trip after the other, then what is at home, what runs out and what to remember.
fn text(list: &ShoppingList, kitchen: &Kitchen) -> String {
    let units = kitchen.print.units;
    let mut out = format!("{}: {}\n", kitchen.household.name, list.week);
    for trip in &list.trips {
        let _ = writeln!(out, "\n{}  {} {}", day_year(trip.on), trip.cost, list.currency);
        if trip.shops.is_empty() {
            out.push_str("  nothing to buy\n");
        }
        for visit in &trip.shops {
            let name = visit.shop.as_deref().unwrap_or("wherever it is sold");
            let cost = visit.cost.as_deref().map(|cost| format!("  {cost}")).unwrap_or_default();
            let fare = visit.trip_cost.as_deref().filter(|fare| fare.bytes().any(|digit| (b'1'..=b'9').contains(&digit)));
            let fare = fare.map(|fare| format!(" (of which {fare} to get there)")).unwrap_or_default();
            let _ = writeln!(out, "\n  {name}{cost}{fare}");
            for section in &visit.sections {
                let _ = writeln!(out, "    {}", section.section);
                out.push_str(&columns(&section.lines.iter().map(|line| row(line, list.from, units)).collect::<Vec<_>>(), 6));
            }
        }
    }
    notes(list, kitchen, &mut out);
    out
}

fn row(line: &ListLine, from: Date, units: Units) -> Vec<String> {
    let packs: Vec<String> = line
        .packs
        .iter()
        .map(|pack| match &pack.amount {
            Some(amount) => format!("{} loose", show(amount, units)),
            None => format!("{} × {}", pack.count, pack.size),
        })
        .collect();
    let about = line.about.as_deref().map(|about| format!(", {about}")).unwrap_or_default();
    let words = line.own_words.join("; ");
    let (need, mut remarks) = match (line.need.is_zero(), words.is_empty()) {
        (true, false) => (words, Vec::new()),
        (_, true) => (format!("{}{about}", show(&line.need, units)), Vec::new()),
        (false, false) => (format!("{}{about}", show(&line.need, units)), vec![format!("as written: {words}")]),
    };
    remarks.push(format!("for {}", line.what_for.join(", ")));
    remarks.extend(line.packs.iter().filter(|pack| pack.offer.is_some()).filter_map(|pack| pack.offer_text.clone()));
    remarks.extend(line.windows.clone());
    if line.short.base() > 0.0 {
        remarks.push(format!("{} short", show(&line.short, units)));
    }
    if let Some(last) = line.last_used.filter(|_| line.fresh) {
        remarks.push(format!("until at least {}", day(last)));
    }
    if line.left.base() > 0.0 {
        let until = line.left_until.map(|until| format!(", good until {}", day_near(until, from))).unwrap_or_default();
        remarks.push(format!("{} over{until}", show(&line.left, units)));
    }
    vec![format!("[ ] {}", packs.join(" + ")), line.food.clone(), need, line.cost.clone().unwrap_or_default(), remarks.join("; ")]
}

fn notes(list: &ShoppingList, kitchen: &Kitchen, out: &mut String) {
    let units = kitchen.print.units;
    let named = |id: &str| kitchen.recipes.iter().find(|recipe| recipe.id == id).map_or(id, |recipe| &recipe.name).to_owned();
    let what = |food: &Option<String>, recipe: &Option<String>| food.clone().or_else(|| recipe.as_deref().map(named)).unwrap_or_default();
    let at_home = list.from_pantry.iter().map(|entry| {
        let look = if entry.look_first { "look at it first" } else { "" };
        let name = what(&entry.food, &entry.recipe);
        vec![name, show(&entry.amount, units), place(entry.place).into(), day(entry.on), look.into()]
    });
    titled(out, "Already at home", at_home.collect());
    titled(out, "Kept for other weeks", reserved_rows(list, units));
    titled(out, "Look before you go", list.ask.iter().map(|food| vec![food.clone()]).collect());
    let expiring = list.expiring.iter().map(|lot| {
        vec![what(&lot.food, &lot.recipe), show(&lot.amount, units), place(lot.place).into(), format!("until {}", day(lot.until))]
    });
    titled(out, "Use up", expiring.collect());
    let spare = list.spare.iter().map(|spare| {
        vec![
            named(&spare.recipe),
            show(&spare.amount, units),
            format!("made {}", day(spare.made_on)),
            format!("eat by {}", day_near(spare.eat_by, list.from)),
        ]
    });
    titled(out, "Spare", spare.collect());
    titled(out, "Remember", list.moves.iter().map(|note| vec![day(note.at), note.text.clone()]).collect());
    titled(out, "Mind", list.flags.iter().map(|flag| vec![flag.food.clone(), flag.text.clone()]).collect());
    titled(out, "Meals, for each eater", list.meals.iter().map(|meal| meal_row(meal, &list.currency)).collect());
    titled(out, "No price known", list.no_price.iter().map(|food| vec![food.clone()]).collect());
    out.push_str(&after::left_over(list, units));
    let _ = writeln!(out, "\nTotal {} {}", list.cost, list.currency);
    out.push_str(&after::money(list));
}

/// What other weeks take first: one row a week and food.
fn reserved_rows(list: &ShoppingList, units: Units) -> Vec<Vec<String>> {
    let said = |row: &Reserved| {
        let name = row.food.clone().or_else(|| row.recipe.clone()).unwrap_or_default();
        vec![name, show(&row.amount, units), place(row.place).into(), format!("until {}", day(row.last_used)), row.week.clone()]
    };
    Reserved::added_up(&list.reserved).iter().map(said).collect()
}

/// Day, meal, what an eater gets of it, and what keeps a figure from being known.
fn meal_row(meal: &MealNote, currency: &str) -> Vec<String> {
    let whole = |value: Option<f64>, unit: &str| value.map_or_else(|| "?".to_owned(), |value| format!("{value:.0} {unit}"));
    let PerEater { kcal, protein_g, fibre_g, cost } = &meal.per_eater;
    let cost = cost.as_ref().map_or_else(|| "?".to_owned(), |cost| format!("{cost} {currency}"));
    let missing = if meal.missing.is_empty() { String::new() } else { format!("not known: {}", meal.missing.join("; ")) };
    let name = format!("{} {}", day(meal.on), meal.at);
    vec![name, meal.name.clone(), whole(*kcal, "kcal"), whole(*protein_g, "g protein"), whole(*fibre_g, "g fibre"), cost, missing]
}

pub(super) fn titled(out: &mut String, title: &str, rows: Vec<Vec<String>>) {
    if !rows.is_empty() {
        let _ = write!(out, "\n{title}\n{}", columns(&rows, 2));
    }
}
