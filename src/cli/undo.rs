//! `undo`: takes back the last booking, again and again, to the opening of the book.

use super::Cli;
use super::keeping::{book, open, report};
use super::outcome::{Done, Failure};
use crate::book::taken_back;

pub fn run(cli: &Cli) -> Done {
    let (setting, mut keeping) = open(cli)?;
    let back = taken_back(&keeping.book, setting.today);
    let back = back.ok_or_else(|| Failure::Usage("there is no booking to take back.".to_owned()))?;
    book(&mut keeping, back)?;
    report(cli, keeping.new_bookings(), &[])
}
