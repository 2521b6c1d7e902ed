//! Why nothing was booked, as plain data. It must not know how a person is told of it.

use std::io;
use std::path::PathBuf;

use crate::book::chain::Broken;
use crate::kitchen::{Mistake, NotLoaded};

/// Why nothing was booked.
#[derive(Debug)]
pub enum NotBooked {
    /// The household's files have mistakes, or cannot be read.
    NotLoaded(NotLoaded),
    /// A line of the book is not as it was booked.
    Broken(Broken),
    NotRead {
        file: PathBuf,
        error: io::Error,
    },
    NotWritten {
        file: PathBuf,
        error: io::Error,
    },
    /// Somebody wrote it while it was read.
    Changed {
        file: &'static str,
    },
    /// A text into which the booking cannot be written; the end of a sentence.
    NotEdited {
        why: String,
    },
    /// What it would write could not be read again.
    NotReadBack(Vec<Mistake>),
    /// The last booking stands in the book, pantry.toml is as it was before it, and what was to be written is lost.
    Lost {
        number: u64,
        what: String,
    },
    /// It stands in the book, and this file is completed at the next start.
    Unfinished {
        file: PathBuf,
        error: io::Error,
    },
}
