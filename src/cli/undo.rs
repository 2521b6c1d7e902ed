//! `undo`: takes back the last booking, again and again, to the opening of the book; or everything after one that is named.

use super::book_told::say_notes;
use super::keeping::{book_all, open_to_mend, report, sentence_of};
use super::outcome::{Done, Failure, say, warn};
use super::{Cli, Format};
use crate::book::{Booking, Keeping, Verb, taking_back};
use crate::words::{counted, day_year};

pub fn run(cli: &Cli, back_to: Option<u64>) -> Done {
    let (setting, mut keeping) = open_to_mend(cli)?;
    if keeping.lost().is_some() {
        return undo_lost(cli, &mut keeping, back_to);
    }
    if cli.strict {
        warn(&setting.loaded.warnings, true)?;
    }
    let these: Vec<Booking> = match back_to {
        None => keeping.standing().next().map(|last| keeping.booking(last)).transpose()?.into_iter().collect(),
        Some(last) if last == 0 || last > keeping.bookings() => {
            return Err(Failure::Usage(format!("there is no booking {last}. List them with: spence book.")));
        }
        Some(last) => {
            keeping.standing().take_while(|number| *number > last).map(|number| keeping.booking(number)).collect::<Result<_, _>>()?
        }
    };
    let these: Vec<Booking> = these.into_iter().filter(|booking| booking.verb != Verb::Opening).collect();
    if these.is_empty() {
        let none = back_to.map(|last| format!("nothing was booked after number {last}."));
        return Err(Failure::Usage(none.unwrap_or_else(|| "there is no booking to take back.".to_owned())));
    }
    if back_to.is_some() && cli.format == Format::Text {
        let line = |booking: &Booking| {
            format!("  {}  {}  {}\n", booking.number, day_year(booking.on), sentence_of(&booking.what, booking.why.as_deref()))
        };
        let lines: String = these.iter().map(line).collect();
        say(&format!("Taking back {}:\n{lines}", counted(these.len(), "booking")))?;
    }
    book_all(&mut keeping, these.iter().map(|booking| taking_back(booking, setting.today)).collect())?;
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
