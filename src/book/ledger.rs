//! What all bookings come to, read once, forwards, without keeping them: for whoever only asks what is booked.

use std::collections::{BTreeMap, VecDeque};
use std::io::{self, BufRead};

use jiff::civil::Date;
use serde::Deserialize;

use super::booked::LINE;
use super::booking::{Booking, Change, InWeek, Verb};
use super::chain::{Broken, Marks, is_cut_short, not_as_booked, not_following, sealed, unreadable};
use super::purchases::{Purchase, purchase_of};
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
struct Line {
    number: u64,
    on: Date,
    verb: Verb,
    what: String,
    #[serde(default)]
    why: Option<String>,
    #[serde(default)]
    takes_back: Option<u64>,
    #[serde(default)]
    covers: Vec<String>,
    #[serde(default)]
    in_week: Option<InWeek>,
    changes: Vec<Move>,
    #[serde(default)]
    fares: BTreeMap<String, i64>,
    previous: String,
    own: String,
}

#[derive(Deserialize)]
struct Move {
    from: Option<LotRecord>,
    to: Option<LotRecord>,
    #[serde(default)]
    worth: Option<i64>,
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

impl Line {
    fn entry(&self) -> Entry {
        let Line { number, on, verb, .. } = *self;
        let change = |change: &Move| Change { worth: change.worth, ..Change::new(change.from.clone(), change.to.clone()) };
        let changes = if verb == Verb::Waste { self.changes.iter().map(change).collect() } else { Vec::new() };
        Entry { number, on, verb, what: self.what.clone(), why: self.why.clone(), changes }
    }
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
        let mut keep = |line: &Line| entries.extend(wanted(line.verb).then(|| line.entry()));
        let ledger = Ledger::read_for(book, Some(&mut keep))?;
        entries.retain(|entry| ledger.done.standing.contains_key(&entry.number));
        entries.reverse();
        Ok((ledger, entries))
    }

    fn read_for(mut book: impl BufRead, mut keep: Option<&mut dyn FnMut(&Line)>) -> Result<Ledger, NotRead> {
        let mut ledger = Ledger::default();
        let (mut line, mut last) = (Vec::new(), Vec::new());
        loop {
            line.clear();
            if book.read_until(b'\n', &mut line).map_err(NotRead::Machine)? == 0 {
                break;
            }
            let is_whole = line.ends_with(b"\n");
            let plain = line.strip_suffix(b"\n").unwrap_or(&line);
            let number = ledger.bookings + 1;
            let read: Line = match serde_json::from_slice(plain) {
                Ok(read) => read,
                Err(error) if !is_whole && is_cut_short(plain, &error) => {
                    ledger.fragment = Some(String::from_utf8_lossy(plain).into_owned());
                    break;
                }
                Err(error) => return Err(NotRead::Broken(unreadable(number as usize, &error))),
            };
            let marks = Marks::of(plain);
            if read.previous != ledger.mark {
                return Err(NotRead::Broken(not_following(number as usize)));
            }
            if read.number != number || Some(&read.own) != marks.own.as_ref() {
                return Err(NotRead::Broken(not_as_booked(number as usize)));
            }
            ledger.begins.push(ledger.whole.bytes);
            ledger.whole = Whole { bytes: ledger.whole.bytes + line.len() as u64, lacks_end: !is_whole };
            ledger.mark = marks.line;
            if let Some(keep) = &mut keep {
                keep(&read);
            }
            ledger.enter(read);
            std::mem::swap(&mut line, &mut last);
        }
        if ledger.bookings > 0 {
            let whole = serde_json::from_slice(last.strip_suffix(b"\n").unwrap_or(&last));
            ledger.last = Some(whole.map_err(|error| NotRead::Broken(unreadable(ledger.bookings as usize, &error)))?);
        }
        Ok(ledger)
    }

    fn enter(&mut self, read: Line) {
        self.bookings = read.number;
        let purchase = (read.verb == Verb::Receive).then(|| {
            let gained = read.changes.iter().filter(|change| change.from.is_none()).filter_map(|change| change.to.as_ref());
            purchase_of(read.on, &read.covers, &read.fares, &gained.collect::<Vec<_>>())
        });
        for Move { from, to, .. } in read.changes {
            self.shelf.change(from, to);
        }
        let in_part = read.covers.iter().any(|key| key.starts_with(LINE));
        let fares = if in_part { read.fares.into_keys().collect() } else { Vec::new() };
        self.done.add(read.number, read.takes_back, Standing { covers: read.covers, in_week: read.in_week, purchase, fares });
    }

    /// Puts a booking at the end, with its number and both of its SHA-256. Gives its line.
    pub fn append(&mut self, mut booking: Booking) -> String {
        booking.number = self.bookings + 1;
        booking.previous = self.mark.clone();
        booking.fragment = booking.fragment.or(self.fragment.take());
        let line = sealed(&mut booking);
        self.mark = sha256(line.as_bytes());
        let Booking { number, on, verb, takes_back, .. } = booking;
        let changes = booking.changes.iter().map(|change| Move { from: change.from.clone(), to: change.to.clone(), worth: None }).collect();
        let (covers, in_week, fares) = (booking.covers.clone(), booking.in_week.clone(), booking.fares.clone());
        let (what, why, previous, own) = Default::default();
        self.enter(Line { number, on, verb, what, why, takes_back, covers, in_week, changes, fares, previous, own });
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
        self.done.standing.values().flat_map(|standing| &standing.covers)
    }

    /// The weeks of the sessions that are booked, each with what its booking is of.
    pub fn in_weeks(&self) -> impl Iterator<Item = (&[String], &InWeek)> {
        self.done.standing.values().filter_map(|standing| Some((standing.covers.as_slice(), standing.in_week.as_ref()?)))
    }

    /// Every purchase that stands.
    pub fn purchases(&self) -> impl Iterator<Item = Purchase> {
        self.done.standing.values().filter_map(|standing| standing.purchase)
    }

    /// Of each booking of some lines of a trip, what it is of and the shops to which the way was paid.
    pub fn fares_in_part(&self) -> impl Iterator<Item = (&[String], &[String])> {
        let in_part = self.done.standing.values().filter(|standing| !standing.fares.is_empty());
        in_part.map(|standing| (standing.covers.as_slice(), standing.fares.as_slice()))
    }

    /// The numbers of the bookings that have not been taken back, those that take back left out, the last first.
    pub fn standing(&self) -> impl Iterator<Item = u64> {
        self.done.standing.keys().rev().copied()
    }

    pub fn whole(&self) -> Whole {
        self.whole
    }

    /// The byte of the file at which a booking's line begins; `None` of one that is not written yet.
    pub fn begins(&self, number: u64) -> Option<u64> {
        self.begins.get(number.checked_sub(1)? as usize).copied()
    }
}

/// A bag of lots that remembers the order in which they came.
#[derive(Debug, Clone, Default)]
pub(super) struct Sum {
    /// The numbers of equal lots, the earliest first.
    lots: BTreeMap<LotRecord, VecDeque<u64>>,
    next: u64,
}

impl Sum {
    /// What takes the place of another lot takes its turn, too.
    pub fn change(&mut self, from: Option<LotRecord>, to: Option<LotRecord>) {
        let turn = from.and_then(|from| self.take(&from));
        let Some(to) = to else { return };
        let turn = turn.unwrap_or_else(|| {
            self.next += 1;
            self.next
        });
        let turns = self.lots.entry(to).or_default();
        let at = turns.partition_point(|earlier| *earlier < turn);
        turns.insert(at, turn);
    }

    fn take(&mut self, lot: &LotRecord) -> Option<u64> {
        let turns = self.lots.get_mut(lot)?;
        let first = turns.pop_front();
        if turns.is_empty() {
            self.lots.remove(lot);
        }
        first
    }

    pub fn lots(&self) -> Vec<LotRecord> {
        let mut lots: Vec<(u64, &LotRecord)> =
            self.lots.iter().flat_map(|(lot, turns)| turns.iter().map(move |turn| (*turn, lot))).collect();
        lots.sort_by_key(|(turn, _)| *turn);
        lots.into_iter().map(|(_, lot)| lot.clone()).collect()
    }
}

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
    covers: Vec<String>,
    in_week: Option<InWeek>,
    purchase: Option<Purchase>,
    /// The shops to which the way was paid, where it books some lines of a trip.
    fares: Vec<String>,
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
