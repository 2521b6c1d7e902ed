//! The book read from its folder, line by line. It must not know a lock, and changes nothing.

use std::io::{self, BufRead, BufReader};
use std::path::Path;

use super::not_booked::NotBooked;
use crate::book::booking::Verb;
use crate::book::ledger::{Entry, Ledger, NotRead};
use crate::store::{BOOK, open_ordinary};

/// What the book of a folder comes to, without keeping it; an absent one is empty.
///
/// # Errors
/// A line that is not as it was booked; the machine's.
pub fn read_ledger(folder: &Path) -> Result<Ledger, NotBooked> {
    let Some(file) = opened(folder)? else { return Ok(Ledger::default()) };
    Ledger::read(file).map_err(|not| not_read(folder, not))
}

/// The same, with the bookings that stand, the last first, of the verbs that are wanted.
///
/// # Errors
/// As [`read_ledger`].
pub fn read_entries(folder: &Path, wanted: impl Fn(Verb) -> bool) -> Result<(Ledger, Vec<Entry>), NotBooked> {
    let Some(file) = opened(folder)? else { return Ok(Default::default()) };
    Ledger::read_with_entries(file, wanted).map_err(|not| not_read(folder, not))
}

fn opened(folder: &Path) -> Result<Option<impl BufRead + use<>>, NotBooked> {
    match open_ordinary(&folder.join(BOOK)) {
        Ok(file) => Ok(Some(BufReader::with_capacity(1 << 16, file))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(NotBooked::NotRead { file: folder.join(BOOK), error }),
    }
}

fn not_read(folder: &Path, not: NotRead) -> NotBooked {
    match not {
        NotRead::Broken(broken) => NotBooked::Broken(broken),
        NotRead::Machine(error) => NotBooked::NotRead { file: folder.join(BOOK), error },
    }
}
