//! `undo`: takes back the last booking, again and again, to the opening of the book.

use super::Cli;
use super::keeping::Keeping;
use super::outcome::{Done, Failure};
use crate::book::{Booking, Verb, last_standing, reversed};
use crate::kitchen::PriceChange;

pub fn run(cli: &Cli) -> Done {
    let mut keeping = Keeping::open(cli)?;
    let Some(last) = last_standing(&keeping.book.bookings) else {
        return Err(Failure::Usage("there is no booking to take back.".to_owned()));
    };
    let what = format!("taken back, number {}: {}", last.number, last.what);
    let prices = last.prices.iter().rev().map(PriceChange::reversed).collect();
    let back = Booking { takes_back: Some(last.number), prices, ..Booking::new(keeping.setting.today, Verb::Undo, what, reversed(last)) };
    keeping.book(back)?;
    keeping.report(cli, &[])
}
