//! What the book tells of itself: what was mended when it was opened, and why something could not be booked.

use super::outcome::{Failure, remark};
use crate::book::{Broken, Keeping, NotBooked, Note};
use crate::kitchen::{Mistake, Spot};
use crate::store::BOOK;

pub fn say_notes(keeping: &mut Keeping) {
    keeping.notes.drain(..).for_each(|note| say_note(&note));
}

pub fn say_note(note: &Note) {
    remark(&note.to_string());
}

impl From<NotBooked> for Failure {
    fn from(not: NotBooked) -> Failure {
        match not {
            NotBooked::NotLoaded(not) => not.into(),
            NotBooked::Broken(broken) => Failure::Mistakes(vec![mistake_of(broken)]),
            NotBooked::NotRead { file, error } => Failure::reading(&file, &error),
            NotBooked::NotWritten { file, error } => Failure::writing(&file, &error),
            NotBooked::Changed { file } => Failure::Machine(format!("{file} changed while it was read.")),
            NotBooked::NotEdited { why } => Failure::Machine(format!("{why}. Nothing was written.")),
            NotBooked::NotReadBack(mistakes) => Failure::Mistakes(mistakes),
            NotBooked::Lost { number, what } => Failure::NotKnown(format!(
                "booking {number} (\"{what}\") was cut short: it stands in the book, pantry.toml is as it was before it, and what was to \
                 be written is lost. Nothing was written. Two ways out: spence book --finish writes it into pantry.toml; spence undo \
                 takes it back."
            )),
            NotBooked::Unfinished { file, error } => match Failure::writing(&file, &error) {
                Failure::Machine(because) => {
                    Failure::Machine(format!("{because} The booking stands in the book, and is completed at the next start."))
                }
                failure => failure,
            },
        }
    }
}

/// A line of the book that is not as it was booked.
pub fn mistake_of(broken: Broken) -> Mistake {
    Mistake {
        at: Spot { file: BOOK.to_owned(), line: broken.line as u32, column: 0 },
        cause: broken.cause,
        remedy: format!(
            "Put the line back as it was. Or keep the book under another name: the next booking then begins a new one with what \
             pantry.toml says. Until then {BOOK} is left as it is."
        ),
    }
}
