//! `undo`: takes back the last booking, again and again, to the opening of the book; or everything after one that is named.

use super::keeping::{book_all, open_to_mend, report, say_notes, sentence_of};
use super::outcome::{Done, Failure, say};
use super::{Cli, Format};
use crate::book::{Keeping, taken_back, taken_back_to};
use crate::words::{counted, day_year};

pub fn run(cli: &Cli, back_to: Option<u64>) -> Done {
    let (setting, mut keeping) = open_to_mend(cli)?;
    if keeping.lost().is_some() {
        return undo_lost(cli, &mut keeping, back_to);
    }
    let back = match back_to {
        None => taken_back(&keeping.book, setting.today).into_iter().collect(),
        Some(last) => {
            let number = keeping.book.bookings.len();
            if last == 0 || last > number as u64 {
                return Err(Failure::Usage(format!("there is no booking {last}. List them with: spence book.")));
            }
            taken_back_to(&keeping.book, last, setting.today)
        }
    };
    if back.is_empty() {
        let none = back_to.map(|last| format!("nothing was booked after number {last}."));
        return Err(Failure::Usage(none.unwrap_or_else(|| "there is no booking to take back.".to_owned())));
    }
    if back_to.is_some() && cli.format == Format::Text {
        let these: Vec<u64> = back.iter().filter_map(|back| back.takes_back).collect();
        let line = |number: &u64| {
            let booking = keeping.book.bookings.iter().find(|booking| booking.number == *number);
            booking.map(|booking| format!("  {}  {}  {}\n", booking.number, day_year(booking.on), sentence_of(booking))).unwrap_or_default()
        };
        let lines: String = these.iter().map(line).collect();
        say(&format!("Taking back {}:\n{lines}", counted(these.len(), "booking")))?;
    }
    book_all(&mut keeping, back)?;
    report(cli, keeping.new_bookings(), &[])
}

/// The lost booking goes first, alone: pantry.toml is as it was before it.
fn undo_lost(cli: &Cli, keeping: &mut Keeping, back_to: Option<u64>) -> Done {
    let number = keeping.lost().map(|last| last.number).unwrap_or_default();
    if back_to.is_some_and(|last| last + 1 != number) {
        return Err(Failure::NotKnown(format!("booking {number} was cut short. Take it back first, with: spence undo.")));
    }
    keeping.take_back_lost()?;
    say_notes(keeping);
    report(cli, keeping.new_bookings(), &[])
}
