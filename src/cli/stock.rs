//! `stock`: what is on the shelf, what goes off next, and what it is all worth.

use std::fmt::Write;

use jiff::civil::Date;

use super::keeping::read_book;
use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::wrap::columns;
use super::{Cli, Format};
use crate::kitchen::Kitchen;
use crate::measure::show;
use crate::pantry::book::{Book, LotRecord, WasteRow, Wasted, records, sum, wasted, with_paid};
use crate::pantry::{Stock, StockLot, goes_off, stock};
use crate::store::Disk;
use crate::words::{day, day_year, place};

pub fn run(cli: &Cli, waste: bool) -> Done {
    let setting = Setting::read(cli)?;
    warn(&setting.loaded.warnings, cli.strict)?;
    let kitchen = &setting.loaded.kitchen;
    let book = read_book(&Disk::new(&setting.folder), &setting.folder);
    let book = match book {
        // The shelf can be told without it; only what was paid is not known then.
        Err(Failure::Mistakes(mistakes)) if !waste => {
            mistakes.iter().for_each(|mistake| eprintln!("warning: {mistake}"));
            Book::default()
        }
        book => book?,
    };
    if waste {
        return say_waste(cli, &wasted(&book.bookings, &kitchen.household.currency), kitchen);
    }
    let shelf = with_paid(records(kitchen), &sum(&book.bookings));
    let stock = stock(kitchen, &shelf.iter().map(LotRecord::rate_paid).collect::<Vec<_>>());
    match cli.format {
        Format::Json => say(&json(&stock)?),
        Format::Text => say(&text(&stock, kitchen, setting.today)),
    }
}

fn say_waste(cli: &Cli, waste: &Wasted, kitchen: &Kitchen) -> Done {
    if cli.format == Format::Json {
        return say(&json(waste)?);
    }
    let name = |row: &WasteRow| row.food.clone().or_else(|| row.recipe.clone()).unwrap_or_default();
    let row = |row: &WasteRow| vec![row.month.clone(), name(row), row.value.clone().unwrap_or_else(|| "no price known".to_owned())];
    let rows = columns(&waste.waste.iter().map(row).collect::<Vec<_>>(), 2);
    let currency = &kitchen.household.currency;
    say(&format!("{}: thrown away\n\n{rows}\nWorth {} {currency}\n", kitchen.household.name, waste.value))
}

fn text(stock: &Stock, kitchen: &Kitchen, today: Date) -> String {
    let row = |lot: &StockLot, last: &str| {
        let about = if lot.estimate { "about " } else { "" };
        let until = lot.until.map(|until| format!("{about}{}", day_year(until))).unwrap_or_default();
        vec![show(&lot.amount, kitchen.print.units), lot.name().to_owned(), until, last.to_owned()]
    };
    let mut out = format!("{}: on the shelf on {}\n", kitchen.household.name, day_year(today));
    for shelf in stock.places.iter().filter(|shelf| !shelf.lots.is_empty()) {
        let rows: Vec<_> = shelf.lots.iter().map(|lot| row(lot, lot.value.as_deref().unwrap_or_default())).collect();
        let _ = write!(out, "\n{}\n{}", place(shelf.place), columns(&rows, 2));
    }
    let soon = goes_off(stock, today);
    if !soon.is_empty() {
        let said = |lot: &StockLot| match lot.until {
            Some(until) if until < today => "past",
            Some(until) if until == today => "today",
            _ => "",
        };
        let rows: Vec<_> = soon
            .iter()
            .map(|(where_, lot)| {
                let until = lot.until.map(day).unwrap_or_default();
                vec![show(&lot.amount, kitchen.print.units), lot.name().to_owned(), place(*where_).into(), until, said(lot).into()]
            })
            .collect();
        let _ = write!(out, "\nGoes off within seven days\n{}", columns(&rows, 2));
    }
    let _ = writeln!(out, "\nWorth {} {}", stock.value, kitchen.household.currency);
    out
}
