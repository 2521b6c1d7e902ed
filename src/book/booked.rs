//! What the book says is done: trips, sessions, meals, count sheets.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, DateTime};

use super::booking::InWeek;
use super::chain::Book;
use super::keys::{
    LINE, MEAL, SESSION, TRIP, count_key, food_of_line, is_of_trip, line_key, meal_key, own_trip, session_key, trip_key, trip_of,
};
use super::lacks::Lack;
use super::lately::{Brought, CookedThen, LastBookings};
use super::ledger::Ledger;
use super::purchases::{Purchase, purchases};
use super::record::{LotRecord, Paid, records};
use super::sum::{covered, standing, sum, with_paid};
use crate::foods::Foods;
use crate::kitchen::{CountForm, Kitchen, Lot, Meal, Trip, WeekPrice};
use crate::measure::Money;

/// What has been booked and not taken back.
#[derive(Debug, Clone, Default)]
pub struct Booked {
    covers: BTreeSet<String>,
    /// By the key that the book has, what is done because of it under another: a trip or a session that was moved, a meal that is called
    /// otherwise.
    followed: BTreeMap<String, String>,
    /// The weeks of booked trips and sessions as they stood when these were booked, by their keys.
    in_weeks: BTreeMap<String, InWeek>,
    /// The lots that the book adds up to.
    lots: Vec<LotRecord>,
    purchases: Vec<Purchase>,
    /// Of each booking of some lines of a trip, what it is of and the shops to which the way was paid.
    fares: Vec<(Vec<String>, Vec<String>)>,
    lately: LastBookings,
    /// There is a book, and nobody can read it.
    not_read: bool,
}

impl Booked {
    /// Of a book that cannot be read: what is past may stand in pantry.toml already, and is laid on top of it by nobody.
    pub fn not_read() -> Booked {
        Booked { not_read: true, ..Booked::default() }
    }

    pub fn is_not_read(&self) -> bool {
        self.not_read
    }

    pub fn by(book: &Book) -> Booked {
        let in_part = standing(&book.bookings).into_iter().filter(|booking| booking.covers.iter().any(|key| key.starts_with(LINE)));
        let fares = in_part.map(|booking| (booking.covers.clone(), booking.fares.keys().cloned().collect())).collect();
        let (covers, lots, purchases) = (covered(&book.bookings), sum(&book.bookings), purchases(&book.bookings));
        let in_weeks = standing(&book.bookings).into_iter().filter_map(|booking| Some((&*booking.covers, booking.in_week.as_ref()?)));
        Booked {
            covers,
            lots,
            purchases,
            fares,
            followed: BTreeMap::new(),
            in_weeks: by_key(in_weeks),
            lately: LastBookings::of(&book.bookings),
            not_read: false,
        }
    }

    /// As [`Booked::by`], of a book that was not kept.
    pub fn told_by(ledger: &Ledger) -> Booked {
        let fares = ledger.fares_in_part().map(|(covers, shops)| (covers.to_vec(), shops.to_vec())).collect();
        let (covers, purchases) = (ledger.covers().cloned().collect(), ledger.purchases().collect());
        Booked {
            covers,
            lots: ledger.lots(),
            purchases,
            fares,
            followed: BTreeMap::new(),
            in_weeks: by_key(ledger.in_weeks()),
            lately: ledger.lately().clone(),
            not_read: false,
        }
    }

    /// `nth` counts the trips of one day from 0, in file order.
    pub fn has_trip(&self, on: Date, nth: usize) -> bool {
        self.has_key(&trip_key(on, nth))
    }

    /// Did a booking put this lot on the shelf with these dates, and not a person by hand?
    pub fn has_put(&self, lot: &LotRecord) -> bool {
        self.lately.have_put(lot)
    }

    /// What the book has of a trip that is booked, be it line by line.
    pub fn brought(&self, on: Date, nth: usize) -> Brought<'_> {
        self.lately.brought(|key| is_of_trip(self.key_now(key), (on, nth)))
    }

    /// What booked sessions and meals should have taken, and no shelf has given yet.
    pub fn lacks(&self) -> Vec<Lack> {
        self.lately.lacks()
    }

    /// What the book has of a session that is booked; `None` where that was long ago.
    pub fn cooked(&self, start: DateTime) -> Option<CookedThen<'_>> {
        let wanted = session_key(start);
        self.lately.cooked(|key| self.key_now(key) == wanted)
    }

    /// Is this line of an open trip booked, or said to be not got? `nth` counts the lines of one food from 0.
    pub fn has_line(&self, trip: (Date, usize), food: &str, nth: usize) -> bool {
        self.has_key(&line_key(trip, food, nth))
    }

    /// The foods of which a line of that trip is booked, or said to be not got.
    pub fn settled_foods(&self, on: Date, nth: usize) -> impl Iterator<Item = &str> {
        let start = line_key((on, nth), "", 0);
        let moved = self.followed.values().filter({
            let start = start.clone();
            move |key| key.starts_with(&start)
        });
        let of_day = self.covers.range(start.clone()..).take_while(move |key| key.starts_with(&start)).chain(moved);
        // Not a second line of the same food.
        of_day.filter_map(move |key| food_of_line(key, (on, nth))).filter(|food| !food.contains(" #"))
    }

    /// The shops to which the way was paid already, where some lines of that trip are booked.
    pub fn fares_paid(&self, on: Date, nth: usize) -> BTreeSet<&str> {
        let of_trip = self.fares.iter().filter(|(covers, _)| covers.iter().any(|key| food_of_line(self.key_now(key), (on, nth)).is_some()));
        of_trip.flat_map(|(_, shops)| shops.iter().map(String::as_str)).collect()
    }

    /// Which number the next trip of its own of that day gets.
    pub fn next_own_trip(&self, on: Date) -> usize {
        (Trip::OWN..).find(|nth| !self.has_trip(on, *nth)).unwrap_or(Trip::OWN)
    }

    /// The trips of their own that are booked, from one day to another, each with its number.
    pub fn own_trips_between(&self, first: Date, last: Date) -> Vec<(Date, usize)> {
        let days = || self.covers.range(format!("trip {first}")..).map_while(|key| key.strip_prefix("trip "));
        days().filter_map(own_trip).take_while(|(on, _)| *on <= last).collect()
    }

    pub fn has_session(&self, start: DateTime) -> bool {
        self.has_key(&session_key(start))
    }

    /// The sessions that are booked, by the starts they were booked with.
    pub(super) fn sessions(&self) -> impl Iterator<Item = DateTime> {
        self.covers.range(SESSION.to_owned()..).map_while(|key| key.strip_prefix(SESSION)).filter_map(|start| start.parse().ok())
    }

    /// The week of what is booked under a key, as it stood then; old books do not say it.
    pub(super) fn in_week(&self, key: &str) -> Option<&InWeek> {
        self.in_weeks.get(key)
    }

    /// The trips of weeks' files that are booked, whole or in part, by the days they were booked with, each with the keys of it.
    pub(super) fn trips(&self) -> BTreeMap<(Date, usize), Vec<&str>> {
        let mut trips: BTreeMap<(Date, usize), Vec<&str>> = BTreeMap::new();
        let begin = |start: &'static str| self.covers.range(start.to_owned()..).take_while(move |key| key.starts_with(start));
        for key in begin(LINE).chain(begin(TRIP)) {
            if let Some(trip) = trip_of(key) {
                trips.entry(trip).or_default().push(key);
            }
        }
        trips
    }

    /// The meals that are booked: the key of each, when it was to be eaten, and what it was called.
    pub(super) fn meals(&self) -> impl Iterator<Item = (&str, DateTime, &str)> {
        let meals = self.covers.range(MEAL.to_owned()..).map_while(|key| key.starts_with(MEAL).then_some(key.as_str()));
        meals.filter_map(move |key| {
            let (at, name) = key.strip_prefix(MEAL)?.split_once(' ')?;
            Some((key, at.parse().ok()?, name))
        })
    }

    /// What the book has under `booked` is done under `now`.
    pub(super) fn follow(&mut self, booked: String, now: String) {
        self.followed.insert(booked, now);
    }

    fn has_key(&self, key: &str) -> bool {
        self.covers.contains(key) || self.followed.values().any(|now| now == key)
    }

    /// The key that something has by now which the book has under this one.
    pub fn key_now<'k>(&'k self, booked: &'k str) -> &'k str {
        self.followed.get(booked).map_or(booked, String::as_str)
    }

    pub fn has_meal(&self, meal: &Meal) -> bool {
        self.has_key(&meal_key(meal))
    }

    /// What was paid for what was bought for the week of that `from`, whose days are those of `span`.
    pub fn paid_in(&self, from: Date, span: (Date, Date)) -> Money {
        self.purchases_of(from, span).map(|purchase| purchase.paid).sum()
    }

    /// The purchases of a week: its trips, where the book says whose they are; else what was bought on its days.
    fn purchases_of(&self, from: Date, (first, last): (Date, Date)) -> impl Iterator<Item = &Purchase> {
        self.purchases.iter().filter(move |purchase| match purchase.trip.as_ref().and_then(|key| self.in_weeks.get(key)) {
            Some(week) => week.from == from,
            None => first <= purchase.on && purchase.on <= last,
        })
    }

    /// What booked trips of a week, as for [`Booked::paid_in`], paid for the kitchen's foods, the earliest first.
    pub fn week_prices(&self, foods: &Foods, from: Date, span: (Date, Date)) -> Vec<WeekPrice> {
        let mut trips: Vec<&Purchase> = self.purchases_of(from, span).collect();
        trips.sort_by_key(|purchase| purchase.on);
        let price = |(food, paid): &(String, Paid)| {
            Some(WeekPrice { food: foods.find(food)?, buys: paid.amount.quantity(), cost: Money(paid.minor) })
        };
        trips.into_iter().flat_map(|purchase| &purchase.prices).filter_map(price).collect()
    }

    pub fn has_count(&self, form: &CountForm) -> bool {
        self.covers.contains(&count_key(form))
    }

    /// The kitchen's lots as they lay on a day, without what was booked since; bookings of something that `is_kept`, by its key, stay.
    pub fn lots_on(&self, day: Date, kitchen: &Kitchen, is_kept: impl Fn(&str) -> bool) -> Vec<Lot> {
        self.lately.lots_on(day, kitchen, is_kept)
    }

    /// Says of the kitchen's lots what was paid for them, where the book knows it.
    pub fn tell_prices(&self, kitchen: &mut Kitchen) {
        let known = with_paid(records(kitchen), &self.lots);
        for (lot, known) in kitchen.lots.iter_mut().zip(known) {
            lot.paid = known.unit_price();
        }
    }
}

fn by_key<'l>(in_weeks: impl Iterator<Item = (&'l [String], &'l InWeek)>) -> BTreeMap<String, InWeek> {
    in_weeks.flat_map(|(covers, week)| covers.iter().map(|key| (key.clone(), week.clone()))).collect()
}
