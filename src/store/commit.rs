//! One booking onto the disk, and what a booking that was cut short leaves behind.

use std::collections::BTreeMap;
use std::io;

use super::files::Files;
use super::mark::{FileChange, sha256};

pub const BOOK: &str = "pantry.book.jsonl";
pub const PANTRY: &str = "pantry.toml";
pub const SHOPS: &str = "shops.toml";
pub const LOCK: &str = ".pantry.lock";

/// What may be written together with the book.
const WRITTEN: [&str; 2] = [PANTRY, SHOPS];

fn new(name: &str) -> String {
    format!("{name}.new")
}

/// What a booking writes behind what the book keeps of itself.
#[derive(Debug, Clone, Copy)]
pub struct Added<'b> {
    /// Bytes of the book.
    pub keep: u64,
    pub lines: &'b str,
}

/// Writes the book and then the other files. Until the book is renamed nothing has happened, and what was begun is cleared away.
///
/// `Some`: the booking stands, but a file after it could not be written; it is completed at the next start.
///
/// # Errors
/// The machine's. Nothing has happened.
pub fn commit(files: &dyn Files, book: Added, others: &[(&str, String)]) -> io::Result<Option<io::Error>> {
    let prepared = prepare(files, book, others).and_then(|()| files.rename(&new(BOOK), BOOK));
    if let Err(error) = prepared {
        for name in others.iter().map(|(name, _)| *name).chain([BOOK]) {
            // What was never written cannot be removed; the next start removes what is left.
            let _ = files.remove(&new(name));
        }
        return Err(error);
    }
    let follow = || {
        files.sync_folder()?;
        others.iter().try_for_each(|(name, _)| files.rename(&new(name), name))?;
        files.sync_folder()
    };
    Ok(follow().err())
}

fn prepare(files: &dyn Files, book: Added, others: &[(&str, String)]) -> io::Result<()> {
    for (name, text) in others {
        files.write(&new(name), text.as_bytes())?;
        files.sync(&new(name))?;
    }
    files.write_behind(&new(BOOK), BOOK, book.keep, book.lines.as_bytes())?;
    files.sync(&new(BOOK))?;
    files.sync_folder()
}

/// Is there anything that a booking left behind when it was cut short?
pub fn left_over(files: &dyn Files) -> bool {
    WRITTEN.iter().chain([&BOOK]).any(|name| !matches!(files.read(&new(name)), Ok(None)))
}

/// What became of a booking that was cut short.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Recovered {
    Nothing,
    /// The book had it; the files follow now.
    Completed,
    /// The book did not have it yet.
    Withdrawn,
    /// The book has it, but pantry.toml has been edited since: the booking is to be taken back.
    Overtaken,
    /// The book has it, but shops.toml has been edited since: it stays as it was edited.
    PricesLeft,
}

/// Completes or withdraws what was cut short; `last` are the files of the book's last booking. The lock must be held.
///
/// # Errors
/// The machine's.
pub fn recover(files: &dyn Files, last: &BTreeMap<String, FileChange>) -> io::Result<Recovered> {
    let mut recovered = Recovered::Nothing;
    for name in WRITTEN {
        let Some(bytes) = files.read(&new(name))? else { continue };
        let booked = last.get(name).filter(|change| change.after == sha256(&bytes));
        let now = sha256(&files.read(name)?.unwrap_or_default());
        match booked {
            // A booking that is to be taken back takes nothing else along.
            Some(_) if recovered == Recovered::Overtaken => files.remove(&new(name))?,
            Some(change) if change.before == now => {
                files.rename(&new(name), name)?;
                recovered = Recovered::Completed;
            }
            Some(change) => {
                files.remove(&new(name))?;
                if change.after != now {
                    recovered = if name == PANTRY { Recovered::Overtaken } else { Recovered::PricesLeft };
                }
            }
            None => {
                files.remove(&new(name))?;
                recovered = Recovered::Withdrawn;
            }
        }
    }
    if files.read(&new(BOOK))?.is_some() {
        files.remove(&new(BOOK))?;
        recovered = Recovered::Withdrawn;
    }
    if recovered != Recovered::Nothing {
        files.sync_folder()?;
    }
    Ok(recovered)
}
