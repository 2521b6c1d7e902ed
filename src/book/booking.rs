//! One line of the book.

use std::collections::BTreeMap;

use jiff::civil::{Date, DateTime};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::lacks::Lack;
use super::record::{Exact, LotRecord};
use crate::kitchen::{PriceChange, Week};
use crate::store::FileChange;

#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verb {
    /// What lay on the shelf when the book was begun.
    Opening,
    /// What a person changed in pantry.toml.
    HandEdit,
    Waste,
    Issue,
    Receive,
    Count,
    Undo,
    /// A booking that was cut short before pantry.toml was written, and taken back.
    Withdrawal,
}

/// A lot before and after: `None` where it was not there, or is gone.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct Change {
    pub from: Option<LotRecord>,
    pub to: Option<LotRecord>,
    /// What it was worth when it was thrown away, in minor units of money; of a count, what was found less what was booked.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub worth: Option<i64>,
    /// Of what was bought: the shop, where the list named one.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub shop: Option<String>,
    /// The lot's own lines in pantry.toml, remarks and all, where it is gone.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub lines: Option<String>,
    /// Which of the lots of pantry.toml it was, counted from 1, where it is gone.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub nth: Option<usize>,
    /// The remarks above it, where it is gone: they passed to the lot below.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub above: Option<String>,
    /// What stood behind its heading, where it is gone.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub heading: Option<String>,
}

impl Change {
    pub fn new(from: Option<LotRecord>, to: Option<LotRecord>) -> Change {
        Change { from, to, worth: None, shop: None, lines: None, nth: None, above: None, heading: None }
    }

    /// Did it come from outside?
    pub fn is_bought(&self) -> bool {
        self.from.is_none() && self.to.as_ref().is_some_and(|to| to.opened.is_none())
    }

    /// As much as before, in closed packs or out of them.
    pub fn is_packed_otherwise(&self) -> bool {
        self.from.as_ref().zip(self.to.as_ref()).is_some_and(|(from, to)| from.pack != to.pack && from.amount == to.amount)
    }
}

/// What a session made of one recipe.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct Cooked {
    /// Its id.
    pub recipe: String,
    pub makes: Exact,
    /// What of it was served straight from the pot: it stands in the fridge, in no box, until its meal is booked.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub straight: Option<Exact>,
}

/// The week of a trip or a session when it was booked, by which it is known again where its day is changed afterwards.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct InWeek {
    #[schemars(with = "String")]
    pub from: Date,
    /// The starts of all its sessions.
    #[schemars(with = "Vec<String>")]
    pub sessions: Vec<DateTime>,
    /// The days of all its trips.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    #[schemars(with = "Vec<String>")]
    pub trips: Vec<Date>,
}

impl InWeek {
    pub fn of(week: &Week) -> InWeek {
        let (sessions, trips) = (week.sessions.iter().map(|session| session.start), week.trips.iter().map(|trip| trip.on));
        InWeek { from: week.from, sessions: sessions.collect(), trips: trips.collect() }
    }
}

#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize, Deserialize)]
pub struct Booking {
    /// Counted from 1.
    pub number: u64,
    #[schemars(with = "String")]
    pub on: Date,
    pub verb: Verb,
    /// In a few words.
    pub what: String,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub why: Option<String>,
    /// The number of the booking that it takes back.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub takes_back: Option<u64>,
    /// Trips, sessions and meals that are booked with it: `session 2026-11-29T14:00`.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub covers: Vec<String>,
    /// Of a trip or a session: its week, as it stood then.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub in_week: Option<InWeek>,
    /// Of a session: what it made. Books from before do not say it.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub cooked: Vec<Cooked>,
    /// What it should have taken, and the shelf did not hold.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub lacked: Vec<Lack>,
    /// What earlier bookings lacked and this one takes off what it puts down.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub made_good: Vec<Lack>,
    pub changes: Vec<Change>,
    /// What it cost to get to the shops, in minor units of money.
    #[serde(skip_serializing_if = "BTreeMap::is_empty", default)]
    pub fares: BTreeMap<String, i64>,
    /// Prices that went into shops.toml with it.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    pub prices: Vec<PriceChange>,
    /// The rest of a last line of the book that was cut short, kept as it was found.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub fragment: Option<String>,
    /// The files that were written with it.
    pub files: BTreeMap<String, FileChange>,
    /// SHA-256 of the line before; empty on the first.
    pub previous: String,
    /// SHA-256 of this line with `own` empty.
    pub own: String,
}

impl Booking {
    pub fn new(on: Date, verb: Verb, what: impl Into<String>, changes: Vec<Change>) -> Booking {
        Booking {
            number: 0,
            on,
            verb,
            what: what.into(),
            why: None,
            takes_back: None,
            covers: Vec::new(),
            in_week: None,
            cooked: Vec::new(),
            lacked: Vec::new(),
            made_good: Vec::new(),
            changes,
            fares: BTreeMap::new(),
            prices: Vec::new(),
            fragment: None,
            files: BTreeMap::new(),
            previous: String::new(),
            own: String::new(),
        }
    }
}
