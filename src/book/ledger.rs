//! What all bookings come to, read once, forwards, without keeping them: for whoever only asks what is booked.

use std::collections::{BTreeMap, VecDeque};
use std::io::{self, BufRead};

use jiff::civil::Date;
use serde::Deserialize;

use super::booking::{Booking, Verb};
use super::chain::{Broken, Marks, not_as_booked, not_following, unreadable};
use super::purchases::{Purchase, purchase_of};
use super::record::LotRecord;

/// The book's last booking, what it all comes to, and what is done.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Ledger {
    /// How many bookings there are.
    pub bookings: u64,
    pub last: Option<Booking>,
    /// The lots that all bookings leave, in the order of their booking.
    pub lots: Vec<LotRecord>,
    /// Trips, sessions and meals that are booked, as the book names them.
    pub covers: Vec<String>,
    /// Every purchase that stands.
    pub purchases: Vec<Purchase>,
    /// Was the last line cut short?
    pub cut_short: bool,
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
    #[serde(default)]
    takes_back: Option<u64>,
    #[serde(default)]
    covers: Vec<String>,
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
}

impl Ledger {
    /// Reads and checks every line, as [`Book::read`](super::Book::read) does.
    ///
    /// # Errors
    /// The first line that is not as it was booked; the machine's.
    pub fn read(mut book: impl BufRead) -> Result<Ledger, NotRead> {
        let (mut ledger, mut shelf, mut done) = (Ledger::default(), Sum::default(), Done::default());
        let (mut line, mut last, mut previous) = (Vec::new(), Vec::new(), String::new());
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
                Err(_) if !is_whole => {
                    ledger.cut_short = true;
                    break;
                }
                Err(error) => return Err(NotRead::Broken(unreadable(number as usize, &error))),
            };
            let marks = Marks::of(plain);
            if read.previous != previous {
                return Err(NotRead::Broken(not_following(number as usize)));
            }
            if read.number != number || Some(&read.own) != marks.own.as_ref() {
                return Err(NotRead::Broken(not_as_booked(number as usize)));
            }
            previous = marks.line;
            ledger.bookings = number;
            let purchase = (read.verb == Verb::Receive).then(|| {
                let gained = read.changes.iter().filter(|change| change.from.is_none()).filter_map(|change| change.to.as_ref());
                purchase_of(read.on, &read.covers, &read.fares, &gained.collect::<Vec<_>>())
            });
            for Move { from, to } in read.changes {
                shelf.change(from, to);
            }
            done.add(number, read.takes_back, Standing { covers: read.covers, purchase });
            std::mem::swap(&mut line, &mut last);
        }
        if ledger.bookings > 0 {
            let whole = serde_json::from_slice(last.strip_suffix(b"\n").unwrap_or(&last));
            ledger.last = Some(whole.map_err(|error| NotRead::Broken(unreadable(ledger.bookings as usize, &error)))?);
        }
        ledger.lots = shelf.lots();
        for standing in done.standing.into_values() {
            ledger.covers.extend(standing.covers);
            ledger.purchases.extend(standing.purchase);
        }
        Ok(ledger)
    }
}

/// A bag of lots that remembers the order in which they came.
#[derive(Debug, Default)]
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

    pub fn lots(self) -> Vec<LotRecord> {
        let of_lot = |(lot, turns): (LotRecord, VecDeque<u64>)| turns.into_iter().map(move |turn| (turn, lot.clone()));
        let mut lots: Vec<(u64, LotRecord)> = self.lots.into_iter().flat_map(of_lot).collect();
        lots.sort_by_key(|(turn, _)| *turn);
        lots.into_iter().map(|(_, lot)| lot).collect()
    }
}

/// What the bookings that stand are of.
#[derive(Debug, Default)]
struct Done {
    standing: BTreeMap<u64, Standing>,
    gone: BTreeMap<u64, Standing>,
    takes_back: BTreeMap<u64, u64>,
}

/// What one booking is of, and what it paid.
#[derive(Debug)]
struct Standing {
    covers: Vec<String>,
    purchase: Option<Purchase>,
}

impl Done {
    fn add(&mut self, number: u64, takes_back: Option<u64>, standing: Standing) {
        let Some(taken) = takes_back else {
            if !standing.covers.is_empty() || standing.purchase.is_some() {
                self.standing.insert(number, standing);
            }
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
