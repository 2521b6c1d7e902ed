//! The book, open for one booking: locked, whole again after whatever cut the last one short, and level with pantry.toml.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::Cli;
use super::Format;
use super::outcome::{Done, Failure, json, say};
use super::setting::Setting;
use crate::kitchen::{Mistake, PriceChange, Spot, change_prices};
use crate::pantry::book::{
    Book, Booking, FileChange, LotRecord, Verb, covered, difference, edit_lots, records, reversed, sha256, sum, with_paid,
};
use crate::store::{BOOK, Disk, Files, LOCK, Locked, PANTRY, Recovered, SHOPS, commit, left_over, recover};
use crate::words::{counted, sentence};

pub struct Keeping {
    pub setting: Setting,
    pub book: Book,
    /// The lots of the kitchen, in their order, with what was paid for them.
    pub shelf: Vec<LotRecord>,
    pantry: String,
    files: Disk,
    /// How many bookings the book had when it was opened.
    known: usize,
    _lock: Locked,
}

impl Keeping {
    /// Waits for any other writer, mends, reads, and notes what was changed by hand.
    pub fn open(cli: &Cli) -> Result<Keeping, Failure> {
        let folder = super::setting::folder(cli)?;
        if !folder.join("kitchen.toml").is_file() {
            // Says what is wrong with the folder, before a lock is put into it.
            Setting::read(cli)?;
        }
        let files = Disk::new(&folder);
        let lock = files.lock(LOCK).map_err(|error| Failure::writing(&folder.join(LOCK), &error))?;
        let book = read_book(&files, &folder)?;
        let recovered = mend(&files, &book).map_err(|error| Failure::writing(&folder.join(PANTRY), &error))?;
        let setting = Setting::read(cli)?;
        let bytes = files.read(PANTRY).map_err(|error| Failure::writing(&folder.join(PANTRY), &error))?.unwrap_or_default();
        let pantry = String::from_utf8(bytes).map_err(|_| Failure::Machine("pantry.toml changed while it was read.".to_owned()))?;
        let shelf = with_paid(records(&setting.loaded.kitchen), &sum(&book.bookings));
        let known = book.bookings.len();
        let mut keeping = Keeping { setting, book, shelf, pantry, files, known, _lock: lock };
        keeping.level(recovered);
        Ok(keeping)
    }

    /// Books in memory whatever lies between the book and pantry.toml.
    fn level(&mut self, recovered: Recovered) {
        let today = self.setting.today;
        if self.book.bookings.is_empty() {
            let changes = difference(&[], &self.shelf);
            self.append(Booking::new(today, Verb::Opening, "what lay on the shelf when the book was begun", changes));
            return;
        }
        if let (Recovered::Overtaken, Some(last)) = (recovered, self.book.bookings.last()) {
            let what = format!("booking {} was cut short and pantry.toml edited since", last.number);
            let back = Booking { takes_back: Some(last.number), ..Booking::new(today, Verb::Withdrawal, what, reversed(last)) };
            eprintln!(
                "warning: the booking \"{}\" was cut short, and pantry.toml has been edited since: it is taken back. Book it again.",
                last.what
            );
            self.append(back);
        }
        say_prices_left(recovered);
        let changes = difference(&sum(&self.book.bookings), &self.shelf);
        if self.book.fragment.is_some() {
            eprintln!("warning: {BOOK}: its last line was cut short; what is left of it is kept in the next booking.");
        }
        if !changes.is_empty() || self.book.fragment.is_some() {
            let what = format!("pantry.toml edited by hand: {}", lots(changes.len()));
            self.append(Booking::new(today, Verb::HandEdit, what, changes));
        }
    }

    /// The trips, sessions and meals that are booked.
    pub fn covered(&self) -> BTreeSet<String> {
        covered(&self.book.bookings)
    }

    fn append(&mut self, mut booking: Booking) {
        if booking.files.is_empty() {
            let now = sha256(self.pantry.as_bytes());
            booking.files.insert(PANTRY.to_owned(), FileChange { before: now.clone(), after: now });
        }
        self.book.append(booking);
    }

    /// Writes the booking, with all that was noted before it.
    pub fn book(&mut self, mut booking: Booking) -> Done {
        let text = edit_lots(&self.pantry, &self.shelf, &mut booking.changes)
            .map_err(|why| Failure::Machine(format!("cannot edit pantry.toml: {why}. Nothing was written.")))?;
        let changed = text != self.pantry;
        booking.files = BTreeMap::from([(PANTRY.to_owned(), file_change(&self.pantry, &text))]);
        let mut others = if changed { vec![(PANTRY, text)] } else { Vec::new() };
        if let Some((before, after)) = self.with_prices(&mut booking)? {
            booking.files.insert(SHOPS.to_owned(), file_change(&before, &after));
            others.push((SHOPS, after));
        }
        self.append(booking);
        self.write(others)
    }

    /// shops.toml before and after the booking's prices; the booking keeps those that could be written.
    fn with_prices(&self, booking: &mut Booking) -> Result<Option<(String, String)>, Failure> {
        if booking.prices.is_empty() {
            return Ok(None);
        }
        let before = self.shops()?;
        let (after, made) =
            change_prices(&before, &booking.prices).map_err(|why| Failure::Machine(format!("{why}. Nothing was written.")))?;
        let is_made =
            |price: &PriceChange| made.iter().any(|made| (&made.shop, &made.food, &made.size) == (&price.shop, &price.food, &price.size));
        for price in booking.prices.iter().filter(|price| !is_made(price)) {
            eprintln!("warning: shops.toml: the price of {} ({}) has been changed since and is left as it stands.", price.food, price.size);
        }
        booking.prices = made;
        Ok((after != before).then_some((before, after)))
    }

    /// The text of shops.toml.
    pub fn shops(&self) -> Result<String, Failure> {
        let path = self.setting.folder.join(SHOPS);
        let bytes = self.files.read(SHOPS).map_err(|error| Failure::Machine(format!("cannot read {}: {error}.", path.display())))?;
        String::from_utf8(bytes.unwrap_or_default()).map_err(|_| Failure::Machine("shops.toml changed while it was read.".to_owned()))
    }

    fn write(&self, others: Vec<(&str, String)>) -> Done {
        let path = self.setting.folder.join(BOOK);
        match commit(&self.files, self.book.text(), &others) {
            Ok(None) => Ok(()),
            Ok(Some(error)) => {
                let because = Failure::writing(&self.setting.folder.join(PANTRY), &error);
                let Failure::Machine(because) = because else { return Err(because) };
                Err(Failure::Machine(format!("{because} The booking stands in the book, and is completed at the next start.")))
            }
            Err(error) => Err(Failure::writing(&path, &error)),
        }
    }

    /// What was booked since it was opened.
    pub fn new_bookings(&self) -> &[Booking] {
        &self.book.bookings[self.known..]
    }

    /// Says what was booked: a sentence a booking, or the bookings as JSON.
    pub fn report(&self, cli: &Cli, missing: &[String]) -> Done {
        #[derive(serde::Serialize)]
        struct Written<'b> {
            booked: &'b [Booking],
            missing: &'b [String],
        }
        let booked = self.new_bookings();
        if cli.format == Format::Json {
            return booked_all_the_same(say(&json(&Written { booked, missing })?));
        }
        let lines = booked.iter().filter(|booking| booking.verb != Verb::Opening).map(|booking| {
            let why = booking.why.as_deref().map(|why| format!(" ({why})")).unwrap_or_default();
            let prices = booking.prices.iter().map(price_said).collect::<String>();
            match booking.verb {
                Verb::Undo => format!("{}\n{prices}", sentence(&booking.what)),
                _ => format!("Booked: {}{why}\n{prices}", booking.what),
            }
        });
        let missing = missing.iter().map(|line| format!("Not on the shelf: {line}\n"));
        booked_all_the_same(say(&lines.chain(missing).collect::<String>()))
    }
}

/// What cannot be said has been booked, and must not be booked again.
pub fn booked_all_the_same(said: Done) -> Done {
    said.map_err(|failure| match failure {
        Failure::Machine(why) => {
            Failure::Machine(format!("{} The booking stands: do not book it again.", why.replace("; make room and run it again", "")))
        }
        failure => failure,
    })
}

/// "Price: feta, 200 g at Quay market: 2.49, was 2.39".
fn price_said(price: &PriceChange) -> String {
    let plain = |literal: &Option<String>| literal.as_deref().map(|literal| literal.trim_matches('"').to_owned());
    let (to, from) = (plain(&price.to.price), plain(&price.from.price));
    let was = match &from {
        Some(from) if Some(from) == to.as_ref() => ", as before".to_owned(),
        Some(from) => format!(", was {from}"),
        None => String::new(),
    };
    format!("Price: {}, {} at {}: {}{was}\n", price.food, price.size, price.shop, to.unwrap_or_else(|| "none".to_owned()))
}

fn file_change(before: &str, after: &str) -> FileChange {
    FileChange { before: sha256(before.as_bytes()), after: sha256(after.as_bytes()) }
}

/// "1 lot", "3 lots".
pub fn lots(count: usize) -> String {
    counted(count, "lot")
}

/// The book of a folder; an absent one is empty.
///
/// # Errors
/// A line that is not as it was booked.
pub fn read_book(files: &Disk, folder: &Path) -> Result<Book, Failure> {
    let bytes = files.read(BOOK).map_err(|error| Failure::Machine(format!("cannot read {}: {error}.", folder.join(BOOK).display())))?;
    let text = String::from_utf8_lossy(&bytes.unwrap_or_default()).into_owned();
    Book::read(&text).map_err(|broken| {
        Failure::Mistakes(vec![Mistake {
            at: Spot { file: BOOK.to_owned(), line: broken.line as u32, column: 0 },
            cause: broken.cause,
            remedy: format!(
                "Put the line back as it was. Or keep the book under another name: the next booking then begins a new one with what \
                 pantry.toml says. Until then {BOOK} is left as it is."
            ),
        }])
    })
}

fn mend(files: &Disk, book: &Book) -> std::io::Result<Recovered> {
    let none = BTreeMap::new();
    recover(files, book.bookings.last().map_or(&none, |last| &last.files))
}

fn say_prices_left(recovered: Recovered) {
    if recovered == Recovered::PricesLeft {
        eprintln!(
            "warning: the last booking was cut short, and shops.toml has been edited since: the prices paid were not written into it."
        );
    }
}

/// For verbs that only read: completes or withdraws what was cut short, where that can be done; else the files are read as they are.
pub fn mend_if_cut_short(folder: &Path) {
    let files = Disk::new(folder);
    if left_over(&files)
        && let Ok(_lock) = files.lock(LOCK)
        && let Ok(book) = read_book(&files, folder)
    {
        // An edit by hand since then is left for the next booking, which says so.
        let pantry = files.read(PANTRY).ok().flatten().unwrap_or_default();
        let overtaken = book.bookings.last().and_then(|last| last.files.get(PANTRY)).is_some_and(|change| {
            let now = sha256(&pantry);
            now != change.before && now != change.after
        });
        if !overtaken && let Ok(recovered) = mend(&files, &book) {
            // What cannot be mended now is mended by the next booking.
            say_prices_left(recovered);
        }
    }
}
