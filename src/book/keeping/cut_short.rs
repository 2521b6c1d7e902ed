//! A booking that was cut short: what is left of it, what mends it, what cannot be mended. It must not know what is booked next.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

use super::note::Note;
use super::read::read_ledger;
use crate::book::booking::Booking;
use crate::book::chain::Broken;
use crate::book::ledger::Ledger;
use crate::store::{Disk, Files, LOCK, PANTRY, Recovered, left_over, recover, sha256};

pub(super) fn mend(files: &Disk, last: Option<&Booking>) -> io::Result<Recovered> {
    let none = BTreeMap::new();
    recover(files, last.map_or(&none, |last| &last.files))
}

/// The last booking changed pantry.toml, and pantry.toml is as it was before: what was to be written is gone.
pub(super) fn is_lost(last: Option<&Booking>, pantry: &str) -> bool {
    let last = last.and_then(|last| last.files.get(PANTRY));
    last.is_some_and(|change| change.before != change.after && change.before == sha256(pantry.as_bytes()))
}

/// For those that only read: the note that the last booking never came into pantry.toml.
pub fn lost_booking(folder: &Path, last: Option<&Booking>) -> Option<Note> {
    let last = last?;
    is_lost(Some(last), &pantry_of(folder)?).then(|| Note::Lost { what: last.what.clone() })
}

/// The book's last line was cut short, and pantry.toml has what it booked: the two do not add up. A booking that was cut short itself
/// leaves pantry.toml as it was.
pub(super) fn cut_off_what_pantry_has(ledger: &Ledger, pantry: &str) -> Option<Broken> {
    let fragment = ledger.fragment.as_ref()?;
    let before = &ledger.last.as_ref()?.files.get(PANTRY)?.after;
    let now = sha256(pantry.as_bytes());
    let is_told = fragment.contains("\"files\":") && fragment.contains(&format!("\"before\":\"{before}\""));
    // What a person typed is found again by itself.
    let by_hand = fragment.contains("\"verb\":\"hand-edit\"");
    let has_it = now != *before && !by_hand && (!is_told || fragment.contains(&now));
    let cause = "this line of the book was cut short, and pantry.toml has what it booked".to_owned();
    has_it.then(|| Broken { line: ledger.bookings as usize + 1, cause })
}

/// For those that only read: that the book's last line was cut short, and pantry.toml has what it booked.
pub fn cut_short_behind_pantry(folder: &Path, ledger: &Ledger) -> Option<Broken> {
    cut_off_what_pantry_has(ledger, &pantry_of(folder)?)
}

fn pantry_of(folder: &Path) -> Option<String> {
    let bytes = Disk::new(folder).read(PANTRY).ok()?.unwrap_or_default();
    String::from_utf8(bytes).ok()
}

/// For those that only read: the note that nothing of the book can be read.
pub fn cut_within_its_first_line(bookings: usize, cut_short: bool) -> Option<Note> {
    (bookings == 0 && cut_short).then_some(Note::OnlyLineCutShort)
}

pub(super) fn prices_left(recovered: Recovered) -> Option<Note> {
    (recovered == Recovered::PricesLeft).then_some(Note::PricesLeft)
}

/// For those that only read: completes or withdraws what was cut short, where that can be done; else the files are read as they are.
pub fn mend_if_cut_short(folder: &Path) -> Option<Note> {
    let files = Disk::new(folder);
    if !left_over(&files) {
        return None;
    }
    let _lock = files.lock(LOCK).ok()?;
    let ledger = read_ledger(folder).ok()?;
    // An edit by hand since then is left for the next booking, which says so.
    let pantry = files.read(PANTRY).ok().flatten().unwrap_or_default();
    let overtaken = ledger.last.as_ref().and_then(|last| last.files.get(PANTRY)).is_some_and(|change| {
        let now = sha256(&pantry);
        now != change.before && now != change.after
    });
    // What cannot be mended now is mended by the next booking.
    if overtaken { None } else { mend(&files, ledger.last.as_ref()).ok().and_then(prices_left) }
}
