//! `list`: the shopping list, as text or JSON.

use std::fmt::Write;

use jiff::civil::Date;

use super::after;
use super::outcome::{Done, json, say, warn};
use super::printed::printed;
use super::setting::Setting;
use super::wrap::{columns, titled};
use super::{Cli, Format};
use crate::kitchen::much::{called, drawn, for_whom, no_more_than};
use crate::kitchen::not_known;
use crate::kitchen::{Kitchen, Names, Ware, Warning};
use crate::measure::{Money, Quantity, Units, show};
use crate::plan::{ShortMeal, State};
use crate::purchase::{DayNote, Expiring, ListLine, MealNote, Reserved, ShoppingList};
use crate::telling::list::{self as words, OPTIONAL, PAST_ITS_DATE};
use crate::telling::short::{lacks, remedies, still_to_get};
use crate::words::{clock, day, day_near, day_year, place};
use crate::{PastTrips, Shown};

pub fn run(cli: &Cli, all: bool, compared: bool) -> Done {
    let setting = Setting::read(cli)?;
    let week = setting.week(cli.week.as_deref())?;
    let mut reckoned = setting.reckon_week(week)?;
    let out_of_order = reckoned.out_of_order().into_iter().map(Warning::from);
    reckoned.warnings.extend(out_of_order);
    warn(&reckoned.warnings, cli.strict)?;
    let list = reckoned.list(Shown { past: PastTrips::shown(all), compared });
    match cli.format {
        Format::Json => {
            // What is past stands in it as it was printed.
            let week = &setting.loaded.weeks[week].1;
            let printed = if all && reckoned.has_begun() { printed(&setting.folder, &setting.loaded.kitchen, week)? } else { None };
            say(&json(&crate::json::list_with(&list, printed.as_ref().map(|printed| &printed.kept), &reckoned.kitchen))?)
        }
        Format::Text => say(&text(&list, &reckoned.kitchen)),
    }
}

/// The list for a terminal: a trip after the other, then what is at home, what runs out and what to remember.
fn text(list: &ShoppingList, kitchen: &Kitchen) -> String {
    let units = kitchen.print.units;
    let names = kitchen.names();
    let mut out = format!("{}: {}\n", names.household, list.week);
    titled(&mut out, "Not known", not_known(&list.warnings).into_iter().map(|line| vec![line]).collect());
    short(&list.short, names, units, &mut out);
    for trip in &list.trips {
        let when = if trip.planned { day_year(trip.on) } else { still_to_get(trip.before.as_ref()) };
        let state = trip.closed().map(|state| format!("  {}", state.words())).unwrap_or_default();
        let _ = writeln!(out, "\n{when}  {}{state}", words::trip_cost(trip, names));
        if trip.shops.is_empty() {
            out.push_str("  nothing to buy\n");
        }
        for visit in &trip.shops {
            let nowhere = if trip.closed() == Some(State::Done) { "wherever it was bought" } else { "wherever it is sold" };
            let name = visit.at.map_or(nowhere, |stop| names.shop(stop.shop));
            let cost = visit.at.map(|stop| format!("  {}", names.money(stop.cost))).unwrap_or_default();
            let fare = visit.at.map(|stop| stop.fare).filter(|fare| *fare > Money::ZERO);
            let fare = fare.map(|fare| format!(" (of which {} to get there)", names.money(fare))).unwrap_or_default();
            let _ = writeln!(out, "\n  {name}{cost}{fare}");
            for section in &visit.sections {
                let _ = writeln!(out, "    {}", section.section);
                let tick = if trip.closed() == Some(State::Done) { "[x]" } else { "[ ]" };
                let rows = section.lines.iter().map(|line| row(line, tick, list.from, names, units));
                out.push_str(&columns(&rows.collect::<Vec<_>>(), 6));
            }
        }
        if let Some(not_booked) = words::not_booked(trip, names) {
            let _ = writeln!(out, "\n  {not_booked}");
        }
    }
    notes(list, names, units, &mut out);
    out
}

/// Meals that nothing can serve any more, with what could be done.
pub(super) fn short(short: &[ShortMeal], names: Names, units: Units, out: &mut String) {
    if !short.is_empty() {
        out.push_str("\nRuns short\n");
    }
    for meal in short {
        let _ = writeln!(out, "  {}", lacks(meal, names, units));
        remedies(meal).iter().for_each(|remedy| out.push_str(&format!("    - {remedy}\n")));
    }
}

fn row(line: &ListLine, tick: &str, from: Date, names: Names, units: Units) -> Vec<String> {
    let need = words::need(line, names, units).unwrap_or_default();
    let typed = line.own_words.join("; ");
    let (need, mut remarks) = match (line.need.is_zero(), typed.is_empty()) {
        (true, false) => (typed, Vec::new()),
        (_, true) => (need, Vec::new()),
        (false, false) => (need, vec![format!("as written: {typed}")]),
    };
    remarks.extend(words::reasons(line));
    remarks.extend(line.packs.iter().filter_map(|pack| pack.offer.as_ref()).map(|taken| words::offer(taken, names.currency)));
    remarks.extend(line.windows.as_ref().map(words::windows));
    remarks.extend(line.optional.then(|| OPTIONAL.to_owned()));
    remarks.extend(words::instead(line));
    remarks.extend(line.without.as_ref().map(|without| words::without(without, names, units)));
    if line.short.base() > 0.0 {
        remarks.push(format!("{} short", show(&line.short, units)));
    }
    if let Some(last) = line.last_used.filter(|_| line.fresh) {
        remarks.push(format!("must last to {}", day(last)));
    }
    if line.left.base() > 0.0 {
        let until = line.left_until.map(|until| format!(", good until {}", day_near(until, from))).unwrap_or_default();
        remarks.push(format!("{} over{until}", show(&line.left, units)));
    }
    let cost = line.cost.map(|cost| names.money(cost)).unwrap_or_default();
    let name = words::named(line, names, units);
    vec![format!("{tick} {}", words::bought(line, units)), name, need, cost, remarks.join("; ")]
}

fn notes(list: &ShoppingList, names: Names, units: Units, out: &mut String) {
    let alone = |names: Vec<&str>| names.into_iter().map(|name| vec![name.to_owned()]).collect::<Vec<_>>();
    let at_home = list.from_pantry.iter().map(|entry| {
        let look = if entry.look_first { "look at it first" } else { "" };
        let name = called(names, entry.of, &entry.lies);
        let much = drawn(names, entry.of, (&entry.lies, entry.is_all), units);
        vec![name + &for_whom(names, entry.whose.as_ref()), much, place(entry.place).into(), day(entry.on), look.into()]
    });
    titled(out, "Already at home", at_home.collect());
    titled(out, "Kept for other weeks", reserved_rows(list, names, units));
    titled(out, "Look before you go", alone(names.foods(&list.ask)));
    let lot_row = |lot: &Expiring| {
        let until = lot.until.map(|until| format!("until {}", day_near(until, list.from))).unwrap_or_default();
        // What is shown can be thrown away.
        let name = called(names, lot.of, &lot.amount) + &for_whom(names, lot.whose.as_ref());
        let look = if lot.lies_past && !lot.past { "look at it first" } else { "" };
        vec![name, no_more_than(names, lot.of, &lot.amount, units), place(lot.place).into(), until, look.into()]
    };
    titled(out, PAST_ITS_DATE, list.expiring.iter().filter(|lot| lot.lies_past).map(lot_row).collect());
    titled(out, "Use up", list.expiring.iter().filter(|lot| !lot.lies_past).map(lot_row).collect());
    let spare = list.spare.iter().map(|spare| {
        vec![
            names.recipe(spare.recipe).to_owned(),
            show(&spare.amount, units),
            format!("made {}", day(spare.made_on)),
            format!("eat by {}", day_near(spare.eat_by, list.from)),
        ]
    });
    titled(out, "Spare", spare.collect());
    titled(out, "Remember", list.moves.iter().map(|moved| vec![day(moved.on), words::moved(moved, names, units)]).collect());
    titled(out, "Mind", list.flags.iter().map(|flag| vec![names.food(flag.food).to_owned(), words::untimely(&flag.why)]).collect());
    titled(out, "Meals, for each eater", list.meals.iter().map(|meal| meal_row(meal, names)).collect());
    titled(out, "Days, for each who says what they need", list.days.iter().map(day_row).collect());
    titled(out, "No price known", alone(names.foods(&list.no_price)));
    out.push_str(&after::left_over(list, names, units));
    let _ = writeln!(out, "\nTotal {} {}", names.money(list.cost), names.currency);
    out.push_str(&after::money(list, names));
}

/// What lies on the shelf: "carrots" and "400 g", "garlic" and "7 cloves".
fn called_and_counted(names: Names, of: Ware, amount: &Quantity, units: Units) -> [String; 2] {
    [called(names, of, amount), no_more_than(names, of, amount, units)]
}

/// What other weeks take first: one row a week and food.
fn reserved_rows(list: &ShoppingList, names: Names, units: Units) -> Vec<Vec<String>> {
    let said = |row: &Reserved| {
        let until = format!("until {}", day(row.last_used));
        let [name, much] = called_and_counted(names, row.of, &row.amount, units);
        vec![name, much, place(row.place).into(), until, row.week.clone()]
    };
    Reserved::added_up(&list.reserved).iter().map(said).collect()
}

/// Day, meal, what an eater gets of it: "at least 520 kcal, …, without rosemary (energy)".
fn meal_row(meal: &MealNote, names: Names) -> Vec<String> {
    let clock = clock(meal.at);
    let word = if meal.word == clock { String::new() } else { format!("{} ", meal.word) };
    let at = format!("{} {word}{clock}", day(meal.at.date()));
    let figures = words::in_figures(&meal.per_eater, &meal.missing, names);
    [at, meal.name.clone()].into_iter().chain(figures).chain([words::not_in_the_sum(&meal.missing, names)]).collect()
}

/// Day, name, and what the planned meals give of what is wanted.
fn day_row(note: &DayNote) -> Vec<String> {
    [day(note.on), note.got.name.clone()].into_iter().chain(words::of_a_day(note)).collect()
}
