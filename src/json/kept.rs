//! What a print told of trips and meals. Once they are no longer open, a later print keeps it word for word; `list --all` keeps so what is
//! taken as done, and of what is done each line that was booked as it was printed.

use std::borrow::Cow;
use std::collections::BTreeMap;

use jiff::civil::{Date, DateTime};
use serde::Deserialize;

use super::list::meals::{Day, Meal};
use super::list::trips::Trip;
use crate::kitchen::{self, Names};
use crate::plan::State;
use crate::purchase::TripList;
use crate::words::clock;

#[derive(Debug, Clone, Default, Deserialize)]
pub struct KeptList {
    trips: Vec<Trip<'static>>,
    meals: Vec<Meal<'static>>,
    days: Vec<Day<'static>>,
}

#[derive(Deserialize)]
struct Whole {
    list: KeptList,
}

impl KeptList {
    /// Of the text of a print. An earlier version told less: then nothing is kept.
    pub fn of(text: &str) -> KeptList {
        serde_json::from_str(text).map(|whole: Whole| whole.list).unwrap_or_default()
    }

    /// A trip that is no longer open, as it was printed.
    pub(super) fn past_trip(&self, trip: &TripList) -> Option<Trip<'static>> {
        let state = trip.closed()?;
        let mut planned: BTreeMap<Date, usize> = BTreeMap::new();
        let mut nth = |told: &Trip| match told.planned {
            true => {
                let next = planned.entry(told.on).or_default();
                std::mem::replace(next, *next + 1)
            }
            false => kitchen::Trip::OWN + told.number.unwrap_or(1) - 1,
        };
        let told = self.trips.iter().map(|told| (nth(told), told)).find(|(nth, told)| (told.on, *nth) == (trip.on, trip.nth))?.1;
        Some(Trip { state: Some(Cow::Borrowed(state.words())), ..told.clone() })
    }

    /// A trip that is no longer open, as a person is shown it: what is done, as it was booked.
    pub(super) fn shown_trip<'a>(&self, trip: &'a TripList, names: Names<'a>) -> Option<Trip<'a>> {
        let told = self.past_trip(trip)?;
        Some(if trip.closed() == Some(State::Done) { Trip::of(trip, names).in_the_words_of(told) } else { told })
    }

    /// Its meals that are no longer open.
    pub(super) fn past_meals(&self, past: &[(DateTime, String)]) -> Vec<Meal<'static>> {
        let is_past =
            |meal: &&Meal| past.iter().any(|(at, name)| (at.date(), &clock(*at), name.as_str()) == (meal.on, &meal.at, &meal.name));
        self.meals.iter().filter(is_past).cloned().collect()
    }

    /// Its days on which a meal was that is no longer open.
    pub(super) fn past_days(&self, past: &[(DateTime, String)]) -> Vec<Day<'static>> {
        let has_past = |day: &&Day| past.iter().any(|(at, _)| at.date() == day.on);
        self.days.iter().filter(has_past).cloned().collect()
    }
}
