//! What a print told of trips and meals. Once they are no longer open, a later print and `list --all` keep it word for word.

use std::borrow::Cow;
use std::collections::BTreeMap;

use jiff::civil::{Date, DateTime};
use serde::Deserialize;

use super::list::{Day, List, Meal, Trip};
use crate::kitchen;
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
        let state = trip.state.filter(|state| *state != State::Open)?;
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

    /// Puts the meals that are no longer open beside those that are, and the days of which none is.
    pub(super) fn add_past_meals(&self, past: &[(DateTime, String)], list: &mut List) {
        let is_past =
            |meal: &&Meal| past.iter().any(|(at, name)| (at.date(), &clock(*at), name.as_str()) == (meal.on, &meal.at, &meal.name));
        list.meals.extend(self.meals.iter().filter(is_past).cloned());
        list.meals.sort_by(|a, b| (a.on, &a.at).cmp(&(b.on, &b.at)));
        let has_past = |on: Date| past.iter().any(|(at, _)| at.date() == on);
        let is_told = |day: &Day| list.days.iter().any(|told| told.on == day.on && told.name == day.name);
        let days: Vec<_> = self.days.iter().filter(|day| has_past(day.on) && !is_told(day)).cloned().collect();
        list.days.extend(days);
        list.days.sort_by_key(|day| day.on);
    }
}
