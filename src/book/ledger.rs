//! What all bookings come to, read once, forwards, without keeping them: for whoever only asks what is booked.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::{self, BufRead};

use jiff::civil::Date;
use serde::Deserialize;
use serde_json::value::RawValue;

use super::bag::{AsWritten, Sum};
use super::booking::{Booking, Change, Cooked, InWeek, Verb};
use super::chain::{Broken, Marks, is_cut_short, not_as_booked, not_following, sealed, unreadable};
use super::keys::LINE;
use super::lacks::Lack;
use super::lately::{LastBookings, Lately, Moved, Window};
use super::purchases::{Purchase, is_bought, purchase, purchase_of};
use super::record::LotRecord;
use super::sum::reversed;
use crate::store::sha256;

/// The book's last booking, what it all comes to, and what is done; and where each booking stands, so that one can be read again.
#[derive(Debug, Clone, Default)]
pub struct Ledger {
    /// How many bookings there are.
    pub bookings: u64,
    pub last: Option<Booking>,
    /// A last line that was cut short.
    pub fragment: Option<String>,
    shelf: Sum,
    done: Done,
    lately: LastBookings,
    /// The byte at which each line begins.
    begins: Vec<u64>,
    whole: Whole,
    /// SHA-256 of the last line.
    mark: String,
}

/// What of the book's file is whole lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Whole {
    pub bytes: u64,
    /// Does the last of them lack its end?
    pub lacks_end: bool,
}

/// Why the book could not be read.
#[derive(Debug)]
pub enum NotRead {
    Broken(Broken),
    Machine(io::Error),
}

/// What is needed of a line; its SHA-256 vouch for the rest.
#[derive(Deserialize)]
struct Line<'l> {
    number: u64,
    on: Date,
    verb: Verb,
    #[serde(borrow)]
    what: Cow<'l, str>,
    #[serde(borrow, default)]
    why: Option<Cow<'l, str>>,
    #[serde(default)]
    takes_back: Option<u64>,
    #[serde(default)]
    covers: Vec<String>,
    #[serde(default)]
    in_week: Option<Box<InWeek>>,
    #[serde(default)]
    cooked: Vec<Cooked>,
    #[serde(default)]
    lacked: Vec<Lack>,
    #[serde(default)]
    made_good: Vec<Lack>,
    #[serde(borrow)]
    changes: Vec<Move<'l>>,
    #[serde(default)]
    fares: BTreeMap<String, i64>,
    #[serde(borrow)]
    previous: Cow<'l, str>,
    #[serde(borrow)]
    own: Cow<'l, str>,
}

/// A change of a lot, its lots as they are written: most are gone again some lines further on.
#[derive(Deserialize)]
struct Move<'l> {
    #[serde(borrow)]
    from: Option<&'l RawValue>,
    #[serde(borrow)]
    to: Option<&'l RawValue>,
    #[serde(default)]
    worth: Option<i64>,
    #[serde(borrow, default)]
    shop: Option<Cow<'l, str>>,
}

/// One booking, as the book is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    pub number: u64,
    pub on: Date,
    pub verb: Verb,
    pub what: String,
    pub why: Option<String>,
    /// Of something thrown away.
    pub changes: Vec<Change>,
}

impl Line<'_> {
    fn entry(&self) -> serde_json::Result<Entry> {
        let Line { number, on, verb, .. } = *self;
        let change = |change: &Move| Ok(Change { worth: change.worth, ..Change::new(lot(change.from)?, lot(change.to)?) });
        let changes = if verb == Verb::Waste { self.changes.iter().map(change).collect::<serde_json::Result<_>>()? } else { Vec::new() };
        Ok(Entry { number, on, verb, what: self.what.to_string(), why: self.why.as_deref().map(str::to_owned), changes })
    }

    fn lately(&self) -> serde_json::Result<Lately> {
        let Line { number, on, verb, takes_back, .. } = *self;
        let shop = |change: &Move| change.shop.as_deref().map(str::to_owned);
        let change = |change: &Move| Ok(Moved { from: lot(change.from)?, to: lot(change.to)?, shop: shop(change) });
        let changes = self.changes.iter().map(change).collect::<serde_json::Result<_>>()?;
        let (covers, fares, cooked) = (self.covers.clone(), self.fares.clone(), self.cooked.clone());
        let (lacked, made_good) = (self.lacked.clone(), self.made_good.clone());
        Ok(Lately { number, on, verb, takes_back, covers, changes, fares, cooked, lacked, made_good })
    }

    /// What it bought, where it did.
    fn purchase(&self) -> serde_json::Result<Option<Purchase>> {
        if self.verb != Verb::Receive {
            return Ok(None);
        }
        let gained = self.changes.iter().filter(|change| change.from.is_none()).filter_map(|change| lot(change.to).transpose());
        let gained: Vec<LotRecord> = gained.collect::<serde_json::Result<_>>()?;
        let gained: Vec<&LotRecord> = gained.iter().filter(|lot| is_bought(lot)).collect();
        Ok(Some(purchase_of(self.on, &self.covers, &self.fares, &gained)))
    }
}

fn lot(written: Option<&RawValue>) -> serde_json::Result<Option<LotRecord>> {
    written.map(|written| serde_json::from_str(written.get())).transpose()
}

impl Ledger {
    /// Reads and checks every line, as [`Book::read`](super::Book::read) does.
    ///
    /// # Errors
    /// The first line that is not as it was booked; the machine's.
    pub fn read(book: impl BufRead) -> Result<Ledger, NotRead> {
        Ledger::read_for(book, None)
    }

    /// The same, and gives of every booking that stands what a list of them tells, the last first, if it is one that is `wanted`.
    ///
    /// # Errors
    /// As [`Ledger::read`].
    pub fn read_with_entries(book: impl BufRead, wanted: impl Fn(Verb) -> bool) -> Result<(Ledger, Vec<Entry>), NotRead> {
        let mut entries = Vec::new();
        let mut keep = |line: &Line| {
            entries.extend(wanted(line.verb).then(|| line.entry()).transpose()?);
            Ok(())
        };
        let ledger = Ledger::read_for(book, Some(&mut keep))?;
        entries.retain(|entry| ledger.done.standing.contains_key(&entry.number));
        entries.reverse();
        Ok((ledger, entries))
    }

    fn read_for(mut book: impl BufRead, mut keep: Option<Keep>) -> Result<Ledger, NotRead> {
        let (mut ledger, mut shelf) = (Ledger::default(), AsWritten::default());
        let (mut line, mut last, mut lately) = (Vec::new(), Vec::new(), Window::default());
        loop {
            line.clear();
            if book.read_until(b'\n', &mut line).map_err(NotRead::Machine)? == 0 {
                break;
            }
            let is_whole = line.ends_with(b"\n");
            let plain = line.strip_suffix(b"\n").unwrap_or(&line);
            let number = ledger.bookings + 1;
            let broken = |error: &serde_json::Error| NotRead::Broken(unreadable(number as usize, error));
            let read: Line = match serde_json::from_slice(plain) {
                Ok(read) => read,
                Err(error) if !is_whole && is_cut_short(plain, &error) => {
                    ledger.fragment = Some(String::from_utf8_lossy(plain).into_owned());
                    break;
                }
                Err(error) => return Err(broken(&error)),
            };
            let marks = Marks::of(plain);
            if read.previous != ledger.mark {
                return Err(NotRead::Broken(not_following(number as usize)));
            }
            if read.number != number || Some(&*read.own) != marks.own.as_deref() {
                return Err(NotRead::Broken(not_as_booked(number as usize)));
            }
            ledger.begins.push(ledger.whole.bytes);
            ledger.whole = Whole { bytes: ledger.whole.bytes + line.len() as u64, lacks_end: !is_whole };
            ledger.mark = marks.line;
            if let Some(keep) = &mut keep {
                keep(&read).map_err(|error| broken(&error))?;
            }
            read.changes.iter().for_each(|change| shelf.change(change.from, change.to, number));
            let purchase = read.purchase().map_err(|error| broken(&error))?;
            lately.push(read.on, plain);
            ledger.enter(number, read.takes_back, Standing::of(read.covers, read.in_week, purchase, read.fares));
            std::mem::swap(&mut line, &mut last);
        }
        for plain in lately.lines() {
            let told = serde_json::from_slice(plain).and_then(|read: Line| read.lately());
            ledger.lately.push(told.map_err(|error| NotRead::Broken(unreadable(ledger.bookings as usize, &error)))?);
        }
        ledger.shelf = shelf.read().map_err(NotRead::Broken)?;
        if ledger.bookings > 0 {
            let whole = serde_json::from_slice(last.strip_suffix(b"\n").unwrap_or(&last));
            ledger.last = Some(whole.map_err(|error| NotRead::Broken(unreadable(ledger.bookings as usize, &error)))?);
        }
        Ok(ledger)
    }

    fn enter(&mut self, number: u64, takes_back: Option<u64>, standing: Standing) {
        self.bookings = number;
        self.done.add(number, takes_back, standing);
    }

    /// Puts a booking at the end, with its number and both of its SHA-256. Gives its line.
    pub fn append(&mut self, mut booking: Booking) -> String {
        booking.number = self.bookings + 1;
        booking.previous = self.mark.clone();
        booking.fragment = booking.fragment.or(self.fragment.take());
        let line = sealed(&mut booking);
        self.mark = sha256(line.as_bytes());
        for Change { from, to, .. } in &booking.changes {
            self.shelf.change(from.clone(), to.clone());
        }
        self.lately.push(Lately::of(&booking));
        let purchase = (booking.verb == Verb::Receive).then(|| purchase(&booking));
        let (covers, in_week, fares) = (booking.covers.clone(), booking.in_week.clone().map(Box::new), booking.fares.clone());
        self.enter(booking.number, booking.takes_back, Standing::of(covers, in_week, purchase, fares));
        self.last = Some(booking);
        line
    }

    /// The lots that all bookings leave, in the order of their booking.
    pub fn lots(&self) -> Vec<LotRecord> {
        self.shelf.lots()
    }

    /// The lots that all bookings but the last leave.
    pub fn lots_before_last(&self) -> Vec<LotRecord> {
        let mut shelf = self.shelf.clone();
        for Change { from, to, .. } in self.last.iter().flat_map(reversed) {
            shelf.change(from, to);
        }
        shelf.lots()
    }

    /// Trips, sessions and meals that are booked, as the book names them.
    pub fn covers(&self) -> impl Iterator<Item = &String> {
        self.done.standing.values().flat_map(|standing| standing.covers.iter())
    }

    /// The weeks of the sessions that are booked, each with what its booking is of.
    pub fn in_weeks(&self) -> impl Iterator<Item = (&[String], &InWeek)> {
        self.done.standing.values().filter_map(|standing| Some((&*standing.covers, standing.in_week.as_deref()?)))
    }

    /// Every purchase that stands.
    pub fn purchases(&self) -> impl Iterator<Item = Purchase> {
        self.done.standing.values().filter_map(|standing| standing.purchase.clone())
    }

    /// Of each booking of some lines of a trip, what it is of and the shops to which the way was paid.
    pub fn fares_in_part(&self) -> impl Iterator<Item = (&[String], &[String])> {
        let in_part = self.done.standing.values().filter(|standing| !standing.fares.is_empty());
        in_part.map(|standing| (&*standing.covers, &*standing.fares))
    }

    /// The numbers of the bookings that have not been taken back, those that take back left out, the last first.
    pub fn standing(&self) -> impl Iterator<Item = u64> {
        self.done.standing.keys().rev().copied()
    }

    pub(super) fn lately(&self) -> &LastBookings {
        &self.lately
    }

    pub fn whole(&self) -> Whole {
        self.whole
    }

    /// The byte of the file at which a booking's line begins; `None` of one that is not written yet.
    pub fn begins(&self, number: u64) -> Option<u64> {
        self.begins.get(number.checked_sub(1)? as usize).copied()
    }
}

/// What is to be done with each line as it is read.
type Keep<'k> = &'k mut dyn FnMut(&Line) -> serde_json::Result<()>;

/// What the bookings that stand are of.
#[derive(Debug, Clone, Default)]
struct Done {
    standing: BTreeMap<u64, Standing>,
    gone: BTreeMap<u64, Standing>,
    takes_back: BTreeMap<u64, u64>,
}

/// What one booking is of, and what it paid.
#[derive(Debug, Clone)]
struct Standing {
    covers: Box<[String]>,
    in_week: Option<Box<InWeek>>,
    purchase: Option<Purchase>,
    /// The shops to which the way was paid, where it books some lines of a trip.
    fares: Box<[String]>,
}

impl Standing {
    fn of(covers: Vec<String>, in_week: Option<Box<InWeek>>, purchase: Option<Purchase>, fares: BTreeMap<String, i64>) -> Standing {
        let in_part = covers.iter().any(|key| key.starts_with(LINE));
        let fares = if in_part { fares.into_keys().collect() } else { Box::default() };
        Standing { covers: covers.into_boxed_slice(), in_week, purchase, fares }
    }
}

impl Done {
    fn add(&mut self, number: u64, takes_back: Option<u64>, standing: Standing) {
        let Some(taken) = takes_back else {
            self.standing.insert(number, standing);
            return;
        };
        match self.takes_back.get(&taken) {
            // What took another back is taken back itself: the other stands again.
            Some(again) => self.standing.extend(self.gone.remove_entry(again)),
            None => self.gone.extend(self.standing.remove_entry(&taken)),
        }
        self.takes_back.insert(number, taken);
    }
}
