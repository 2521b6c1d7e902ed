//! The book, open for one booking: locked, whole again after whatever cut the last one short, and level with pantry.toml. It must not know
//! what a booking is of.

mod cut_short;
mod not_booked;
mod note;
mod read;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Seek, SeekFrom};
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::booked::Booked;
use super::booking::{Booking, Change, Verb};
use super::bookings::taking_back;
use super::chain::unreadable;
use super::edit::edit_lots;
use super::ledger::Ledger;
use super::read_back::{as_it_would_stand, read_back};
use super::record::{LotRecord, records};
use super::sum::{difference, reversed, with_paid};
use crate::kitchen::{Kitchen, Loaded, PriceChange, SeenPrice, change_prices, load, price_changes};
use crate::store::{Added, BOOK, Disk, FileChange, Files, LOCK, Locked, PANTRY, Recovered, SHOPS, commit, open_ordinary};
use crate::words::counted;

use cut_short::{cut_off_what_pantry_has, is_lost, mend, prices_left};
pub use cut_short::{cut_short_behind_pantry, cut_within_its_first_line, lost_booking, mend_if_cut_short};
pub use not_booked::NotBooked;
pub use note::Note;
pub use read::{read_entries, read_ledger};

pub struct Keeping {
    /// With what was booked since it was opened.
    ledger: Ledger,
    /// The lots of the kitchen, in their order, with what was paid for them.
    pub shelf: Vec<LotRecord>,
    pub notes: Vec<Note>,
    today: Date,
    folder: PathBuf,
    pantry: String,
    files: Disk,
    /// What was booked since it was opened, and its lines.
    new: Vec<Booking>,
    lines: String,
    /// The last booking never came into pantry.toml.
    lost: bool,
    _lock: Locked,
}

impl Keeping {
    /// Waits for any other writer, mends, reads, and notes what was changed by hand. Gives the household beside it, as it was read under the lock.
    ///
    /// # Errors
    /// Mistakes of the files, a broken book, the machine's.
    pub fn open(folder: &Path, today: Date) -> Result<(Loaded, Keeping), NotBooked> {
        let (loaded, keeping) = Keeping::open_to_mend(folder, today)?;
        match keeping.lost() {
            Some(last) => Err(NotBooked::Lost { number: last.number, what: last.what.clone() }),
            None => Ok((loaded, keeping)),
        }
    }

    /// As [`Keeping::open`], and also where the last booking never came into pantry.toml: nothing else is to be booked then.
    ///
    /// # Errors
    /// Mistakes of the files, a broken book, the machine's.
    pub fn open_to_mend(folder: &Path, today: Date) -> Result<(Loaded, Keeping), NotBooked> {
        if !folder.join("kitchen.toml").is_file() || !folder.join(LOCK).exists() {
            // Says what is wrong with the folder, before a lock is put into it for the first time.
            load(folder).map_err(NotBooked::NotLoaded)?;
        }
        let files = Disk::new(folder);
        let not_written = |name: &str| {
            let file = folder.join(name);
            move |error| NotBooked::NotWritten { file, error }
        };
        let lock = files.lock(LOCK).map_err(not_written(LOCK))?;
        let ledger = read_ledger(folder)?;
        let recovered = mend(&files, ledger.last.as_ref()).map_err(not_written(PANTRY))?;
        let loaded = load(folder).map_err(NotBooked::NotLoaded)?;
        let bytes = files.read(PANTRY).map_err(not_written(PANTRY))?.unwrap_or_default();
        let pantry = String::from_utf8(bytes).map_err(|_| NotBooked::Changed { file: PANTRY })?;
        if let Some(broken) = cut_off_what_pantry_has(&ledger, &pantry) {
            return Err(NotBooked::Broken(broken));
        }
        let lost = is_lost(ledger.last.as_ref(), &pantry);
        let booked = if lost { ledger.lots_before_last() } else { ledger.lots() };
        let shelf = with_paid(records(&loaded.kitchen), &booked);
        let (notes, new, lines, folder) = (Vec::new(), Vec::new(), String::new(), folder.to_owned());
        let mut keeping = Keeping { ledger, shelf, notes, today, folder, pantry, files, new, lines, lost, _lock: lock };
        if !lost {
            keeping.level(recovered);
            // What was changed by hand keeps what was paid for it.
            keeping.shelf = with_paid(keeping.shelf.iter().map(LotRecord::on_paper).collect(), &keeping.ledger.lots());
        }
        Ok((loaded, keeping))
    }

    /// The last booking, where it never came into pantry.toml.
    pub fn lost(&self) -> Option<&Booking> {
        self.ledger.last.as_ref().filter(|_| self.lost)
    }

    /// Writes what the lost booking was to write.
    ///
    /// # Errors
    /// As [`Keeping::book`].
    pub fn finish_lost(&mut self) -> Result<(), NotBooked> {
        let Some(last) = self.lost().cloned() else { return Ok(()) };
        let others = self.texts_of(&mut [last])?;
        self.write(&others)?;
        self.lost = false;
        Ok(())
    }

    /// Takes the lost booking back: pantry.toml is already as it was before it.
    ///
    /// # Errors
    /// The machine's.
    pub fn take_back_lost(&mut self) -> Result<(), NotBooked> {
        let Some(last) = self.lost() else { return Ok(()) };
        // shops.toml is left as it is.
        let back = Booking { prices: Vec::new(), ..taking_back(last, self.today) };
        self.append(back);
        self.write(&[])?;
        self.lost = false;
        Ok(())
    }

    /// Books in memory whatever lies between the book and pantry.toml.
    fn level(&mut self, recovered: Recovered) {
        if self.ledger.bookings == 0 {
            if self.ledger.fragment.is_some() {
                self.notes.push(Note::OnlyLineCutShort);
            }
            let changes = difference(&[], &self.shelf);
            self.append(Booking::new(self.today, Verb::Opening, "what lay on the shelf when the book was begun", changes));
            return;
        }
        if let (Recovered::Overtaken, Some(last)) = (recovered, self.ledger.last.as_ref()) {
            let what = format!("booking {} was cut short and pantry.toml edited since", last.number);
            let back = Booking { takes_back: Some(last.number), ..Booking::new(self.today, Verb::Withdrawal, what, reversed(last)) };
            self.notes.push(Note::TakenBack { what: last.what.clone() });
            self.append(back);
        }
        self.notes.extend(prices_left(recovered));
        let changes = difference(&self.ledger.lots(), &self.shelf);
        if self.ledger.fragment.is_some() {
            self.notes.push(Note::FragmentKept);
        }
        if !changes.is_empty() || self.ledger.fragment.is_some() {
            let what = format!("pantry.toml edited by hand: {}", counted(changes.len(), "lot"));
            self.append(Booking::new(self.today, Verb::HandEdit, what, changes));
        }
    }

    pub fn booked(&self) -> Booked {
        Booked::told_by(&self.ledger)
    }

    fn append(&mut self, mut booking: Booking) {
        if booking.files.is_empty() {
            booking.files.insert(PANTRY.to_owned(), FileChange::of(&self.pantry, &self.pantry));
        }
        self.lines.push_str(&self.ledger.append(booking));
        self.lines.push('\n');
        self.new.extend(self.ledger.last.clone());
    }

    /// How many bookings the book has, those not written yet among them.
    pub fn bookings(&self) -> u64 {
        self.ledger.bookings
    }

    /// The numbers of the bookings that stand, the last first.
    pub fn standing(&self) -> impl Iterator<Item = u64> {
        self.ledger.standing()
    }

    /// A booking by its number, read again from the book.
    ///
    /// # Errors
    /// The machine's; a line that is not as it was booked.
    pub fn booking(&self, number: u64) -> Result<Booking, NotBooked> {
        let Some(begins) = self.ledger.begins(number) else {
            let new = self.new.iter().find(|booking| booking.number == number).cloned();
            return new.ok_or(NotBooked::Changed { file: BOOK });
        };
        let line = || {
            let mut file = open_ordinary(&self.folder.join(BOOK))?;
            file.seek(SeekFrom::Start(begins))?;
            let mut line = String::new();
            BufReader::new(file).read_line(&mut line).map(|_| line)
        };
        let line = line().map_err(|error| NotBooked::NotRead { file: self.folder.join(BOOK), error })?;
        serde_json::from_str(line.trim_end()).map_err(|error| NotBooked::Broken(unreadable(number as usize, &error)))
    }

    /// Writes the booking, with all that was noted before it.
    ///
    /// # Errors
    /// Where the files cannot be edited or written. Nothing is changed then, unless it is [`NotBooked::Unfinished`].
    pub fn book(&mut self, booking: Booking) -> Result<(), NotBooked> {
        self.book_all(vec![booking])
    }

    /// Writes several bookings, one after the other, in one step: all of them stand, or none.
    ///
    /// # Errors
    /// As [`Keeping::book`].
    pub fn book_all(&mut self, mut bookings: Vec<Booking>) -> Result<(), NotBooked> {
        let others = self.texts_of(&mut bookings)?;
        bookings.into_iter().for_each(|booking| self.append(booking));
        self.write(&others)
    }

    /// The files that the bookings change, as they will be: read back by the reader that reads them at the next start.
    fn texts_of(&mut self, bookings: &mut [Booking]) -> Result<Vec<(&'static str, String)>, NotBooked> {
        let mut changes: Vec<Change> = bookings.iter().flat_map(|booking| booking.changes.clone()).collect();
        let text = edit_lots(&self.pantry, &self.shelf, &mut changes)
            .map_err(|why| NotBooked::NotEdited { why: format!("cannot edit pantry.toml: {why}") })?;
        let expected = as_it_would_stand(&self.shelf, &changes);
        let mut files = BTreeMap::from([(PANTRY.to_owned(), FileChange::of(&self.pantry, &text))]);
        let mut others = if text == self.pantry { Vec::new() } else { vec![(PANTRY, text)] };
        if let Some((before, after)) = self.with_prices(bookings)? {
            files.insert(SHOPS.to_owned(), FileChange::of(&before, &after));
            others.push((SHOPS, after));
        }
        read_back(&self.folder, &others, &expected).map_err(NotBooked::NotReadBack)?;
        let mut changes = changes.into_iter();
        for booking in bookings {
            booking.changes = changes.by_ref().take(booking.changes.len()).collect();
            booking.files = files.clone();
        }
        Ok(others)
    }

    fn write(&self, others: &[(&str, String)]) -> Result<(), NotBooked> {
        let whole = self.ledger.whole();
        let lines = if whole.lacks_end { Cow::Owned(format!("\n{}", self.lines)) } else { Cow::Borrowed(self.lines.as_str()) };
        match commit(&self.files, Added { keep: whole.bytes, lines: &lines }, others) {
            Ok(None) => Ok(()),
            Ok(Some(error)) => Err(NotBooked::Unfinished { file: self.folder.join(PANTRY), error }),
            Err(error) => Err(NotBooked::NotWritten { file: self.folder.join(BOOK), error }),
        }
    }

    /// shops.toml before and after the bookings' prices; each booking keeps those that could be written.
    fn with_prices(&mut self, bookings: &mut [Booking]) -> Result<Option<(String, String)>, NotBooked> {
        if bookings.iter().all(|booking| booking.prices.is_empty()) {
            return Ok(None);
        }
        let before = self.shops()?;
        let mut text = before.clone();
        for booking in bookings.iter_mut().filter(|booking| !booking.prices.is_empty()) {
            let (after, made) = change_prices(&text, &booking.prices).map_err(|why| NotBooked::NotEdited { why: why.to_string() })?;
            let is_made = |price: &PriceChange| {
                made.iter().any(|made| (&made.shop, &made.food, &made.size) == (&price.shop, &price.food, &price.size))
            };
            for price in booking.prices.iter().filter(|price| !is_made(price)) {
                self.notes.push(Note::PriceChanged { food: price.food.clone(), size: price.size.clone() });
            }
            booking.prices = made;
            text = after;
        }
        Ok((text != before).then_some((before, text)))
    }

    /// The changes of shops.toml that write prices into it.
    ///
    /// # Errors
    /// The machine's, and where shops.toml cannot be edited.
    pub fn price_changes(&self, seen: &[SeenPrice]) -> Result<Vec<PriceChange>, NotBooked> {
        price_changes(&self.shops()?, seen).map_err(|why| NotBooked::NotEdited { why: why.to_string() })
    }

    fn shops(&self) -> Result<String, NotBooked> {
        let not_read = |error| NotBooked::NotRead { file: self.folder.join(SHOPS), error };
        let bytes = self.files.read(SHOPS).map_err(not_read)?;
        String::from_utf8(bytes.unwrap_or_default()).map_err(|_| NotBooked::Changed { file: SHOPS })
    }

    /// What was booked since it was opened.
    pub fn new_bookings(&self) -> &[Booking] {
        &self.new
    }
}

/// What pantry.toml has otherwise than the book adds up to: from what is booked to what is there.
pub fn beside_the_book(kitchen: &Kitchen, ledger: &Ledger) -> Vec<Change> {
    let booked = ledger.lots();
    difference(&booked, &with_paid(records(kitchen), &booked))
}
