//! `stock`: what is on the shelf, what goes off next, and what it is all worth.

use std::fmt::Write;

use jiff::civil::Date;

use super::outcome::{Done, json, say, warn};
use super::setting::Setting;
use super::wrap::columns;
use super::{Cli, Format};
use crate::book::{Verb, WasteRow, Wasted, read_entries, wasted};
use crate::foods::Place;
use crate::kitchen::Kitchen;
use crate::kitchen::much::{called, for_whom, lies, no_more_than};
use crate::measure::{Quantity, show};
use crate::pantry::{LiesOtherwise, Stock, StockLot, goes_off, lies_otherwise, stock};
use crate::telling::list::PAST_ITS_DATE;
use crate::words::{day, day_near, day_year, place};

pub fn run(cli: &Cli, waste: bool) -> Done {
    let (mut setting, thrown_away) = Setting::read_with_entries(cli, |verb| waste && verb == Verb::Waste)?;
    let waiting = if waste { Vec::new() } else { setting.waiting(cli.week.as_deref()) };
    warn(&[setting.loaded.warnings.clone(), waiting].concat(), cli.strict)?;
    if waste {
        let kitchen = &setting.loaded.kitchen;
        let thrown_away = match thrown_away {
            Some(thrown_away) => thrown_away,
            // Says why the book cannot be read.
            None => read_entries(&setting.folder, |_| false)?.1,
        };
        return say_waste(cli, &wasted(&thrown_away), kitchen);
    }
    setting.tell_week_prices(cli);
    let kitchen = &setting.loaded.kitchen;
    let stock = stock(kitchen);
    let otherwise = setting.shelf_as_taken(cli.week.as_deref()).map(|taken| lies_otherwise(kitchen, &taken)).unwrap_or_default();
    match cli.format {
        Format::Json => say(&json(&crate::json::stock(&stock, &otherwise, kitchen.names()))?),
        Format::Text => say(&text(&stock, &otherwise, kitchen, setting.today)),
    }
}

/// "2 portions  Moon mash  fridge  until Thu 3 Dec  booked none".
fn taken_as_done(row: &LiesOtherwise, kitchen: &Kitchen, today: Date) -> Vec<String> {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let much = |amount: &Quantity| if amount.is_zero() { "none".to_owned() } else { no_more_than(names, row.of, amount, units) };
    let most = if row.taken.base() < row.booked.base() { &row.booked } else { &row.taken };
    let name = called(names, row.of, most) + &for_whom(names, row.whose.as_ref());
    let until = row.until.map(|until| format!("until {}", day_near(until, today))).unwrap_or_default();
    vec![much(&row.taken), name, place(row.place).into(), until, format!("booked {}", much(&row.booked))]
}

fn say_waste(cli: &Cli, waste: &Wasted, kitchen: &Kitchen) -> Done {
    let names = kitchen.names();
    if cli.format == Format::Json {
        return say(&json(&crate::json::wasted(waste, names))?);
    }
    let row = |row: &WasteRow| {
        let value = row.value.map_or_else(|| "no price known".to_owned(), |value| names.money(value));
        let amount = show(&row.amount, kitchen.print.units);
        vec![row.month.strftime("%Y-%m").to_string(), row.of.called(kitchen).to_owned(), amount, value]
    };
    let rows = columns(&waste.rows.iter().map(row).collect::<Vec<_>>(), 2);
    let nothing_known = !waste.rows.is_empty() && waste.rows.iter().all(|row| row.value.is_none());
    let worth = if nothing_known { String::new() } else { format!("\nWorth {} {}\n", names.money(waste.value), names.currency) };
    say(&format!("{}: thrown away\n\n{rows}{worth}", names.household))
}

fn text(stock: &Stock, otherwise: &[LiesOtherwise], kitchen: &Kitchen, today: Date) -> String {
    let names = kitchen.names();
    let row = |lot: &StockLot| {
        let about = if lot.estimate { "about " } else { "" };
        let until = lot.until.map(|until| format!("{about}{}", day_year(until))).unwrap_or_default();
        let value = lot.value.map(|value| names.money(value)).unwrap_or_default();
        vec![
            lies(names, lot.of, &lot.amount, lot.pack.as_ref(), kitchen.print.units),
            called(names, lot.of, &lot.amount) + &for_whom(names, lot.whose.as_ref()),
            until,
            value,
        ]
    };
    let as_booked = if otherwise.is_empty() { "" } else { ", as booked" };
    let mut out = format!("{}: on the shelf on {}{as_booked}\n", kitchen.household.name, day_year(today));
    for shelf in stock.places.iter().filter(|shelf| !shelf.lots.is_empty()) {
        let rows: Vec<_> = shelf.lots.iter().map(row).collect();
        let _ = write!(out, "\n{}\n{}", place(shelf.place), columns(&rows, 2));
    }
    let (past, soon): (Vec<_>, Vec<_>) =
        goes_off(stock, today).into_iter().partition(|(_, lot)| lot.until.is_some_and(|until| until < today));
    let said = |lot: &StockLot| match lot.until {
        Some(until) if until < today && lot.is_past(today) => "past",
        Some(until) if until < today => "look at it first",
        Some(until) if until == today => "today",
        _ => "",
    };
    let dated = |(where_, lot): &(Place, &StockLot)| {
        let until = lot.until.map(day).unwrap_or_default();
        let amount = lies(names, lot.of, &lot.amount, lot.pack.as_ref(), kitchen.print.units);
        vec![
            amount,
            called(names, lot.of, &lot.amount) + &for_whom(names, lot.whose.as_ref()),
            place(*where_).into(),
            until,
            said(lot).into(),
        ]
    };
    for (title, lots) in [(PAST_ITS_DATE, past), ("Goes off within seven days", soon)] {
        if !lots.is_empty() {
            let _ = write!(out, "\n{title}\n{}", columns(&lots.iter().map(dated).collect::<Vec<_>>(), 2));
        }
    }
    if !otherwise.is_empty() {
        let rows: Vec<_> = otherwise.iter().map(|row| taken_as_done(row, kitchen, today)).collect();
        let _ = write!(out, "\nOtherwise, with what is not booked and taken as done\n{}", columns(&rows, 2));
    }
    let mut lots = stock.places.iter().flat_map(|shelf| &shelf.lots).peekable();
    let none_known = lots.peek().is_some() && lots.all(|lot| lot.value.is_none());
    if none_known {
        out.push_str("\nNo price known\n");
    } else {
        let _ = writeln!(out, "\nWorth {} {}", names.money(stock.value), names.currency);
    }
    out
}
