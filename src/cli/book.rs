//! `book`: the bookings that stand, the last first; or the end of one that was cut short.

use super::book_told::{say_note, say_notes};
use super::keeping::{open_to_mend, sentence_of};
use super::outcome::{Done, Failure, json, say};
use super::setting::folder;
use super::{Cli, Format};
use crate::book::{cut_within_its_first_line, lost_booking, mend_if_cut_short, read_entries};
use crate::words::day_year;

pub fn run(cli: &Cli) -> Done {
    let folder = folder(cli)?;
    mend_if_cut_short(&folder).iter().for_each(say_note);
    let (book, bookings) = read_entries(&folder, |_| true)?;
    lost_booking(&folder, book.last.as_ref()).iter().for_each(say_note);
    let cut = cut_within_its_first_line(book.bookings as usize, book.fragment.is_some());
    cut.iter().for_each(say_note);
    if cli.format == Format::Json {
        return say(&json(&crate::json::book(&bookings))?);
    }
    if cut.is_some() {
        return say("No booking can be read.\n");
    }
    if bookings.is_empty() {
        return say("Nothing is booked yet.\n");
    }
    let width = bookings.first().map_or(1, |last| last.number.to_string().len());
    let lines = bookings.iter().map(|booking| {
        format!("{:>width$}  {}  {}\n", booking.number, day_year(booking.on), sentence_of(&booking.what, booking.why.as_deref()))
    });
    say(&lines.collect::<String>())
}

/// Writes what a booking that was cut short was to write.
pub fn finish(cli: &Cli) -> Done {
    let (setting, mut keeping) = open_to_mend(cli)?;
    let Some(what) = keeping.lost().map(|last| last.what.clone()) else {
        return Err(Failure::Usage("no booking was cut short.".to_owned()));
    };
    keeping.finish_lost()?;
    say_notes(&mut keeping);
    match cli.format {
        Format::Json => say(&json(&crate::json::book(&read_entries(&setting.folder, |_| true)?.1))?),
        Format::Text => say(&format!("Finished: {what}\n")),
    }
}
