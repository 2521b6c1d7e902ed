//! Trips and sessions whose day or start was changed in their week's file, and meals that are called otherwise by now, or eaten at another
//! hour. What is booked is done, whatever the file calls it now; what was printed under the old day is booked under the new one.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, DateTime};

use super::booked::Booked;
use super::keys::{meal_key, session_key, trip_key, with_trip};
use crate::kitchen::{Meal, Trip, Warning, Week};
use crate::prep::Turnover;
use crate::purchase::{TripBuys, WeekBuys};
use crate::words::{day, day_clock};

impl Booked {
    /// A trip that is booked, whole or in part, and stands in no week any more is one that its week has got since then: its day was changed, or
    /// that of the session that it comes before. It is done all the same, and told.
    pub fn follow_moved_trips(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let stand: BTreeSet<(Date, usize)> = weeks.iter().flat_map(|(_, week)| &week.trips).map(|trip| (trip.on, trip.nth)).collect();
        let gone = self.trips().into_iter().filter(|(trip, _)| !stand.contains(trip));
        let gone: Vec<_> = gone.map(|(trip, keys)| (trip, keys.into_iter().map(str::to_owned).collect::<Vec<_>>())).collect();
        let mut warnings = Vec::new();
        for (then, keys) in gone {
            let in_week = keys.iter().find_map(|key| self.in_week(key)).filter(|week| !week.trips.is_empty());
            let may_be = |week: &Week, trip: &Trip| match in_week {
                Some(known) => known.from == week.from && is_moved(&known.trips, &days(week), then.0, trip.on),
                None => days_apart(then.0, trip.on) <= 1,
            };
            let all = weeks.iter().flat_map(|(file, week)| week.trips.iter().map(move |trip| (file, week, trip)));
            let open = all.filter(|(_, week, trip)| !self.has_any_of((trip.on, trip.nth)) && may_be(week, trip));
            let Some((file, _, trip)) = open.min_by_key(|(_, _, trip)| (days_apart(trip.on, then.0), trip.on, trip.nth)) else { continue };
            let whole = keys.contains(&trip_key(then.0, then.1));
            let (part, so) = if whole { ("", "which is done with it") } else { (" in part", "where the other lines are still to get") };
            let text = format!(
                "the trip of {} is booked{part} and was moved to {}, {so}. If that is another, write a [[trip]] with on = {} into {file} \
                 beside it.",
                day(then.0),
                day(trip.on),
                then.0
            );
            warnings.push(Warning::Note { at: Some(trip.at.clone()), text });
            let now = (trip.on, trip.nth);
            keys.into_iter().for_each(|key| {
                let new = with_trip(&key, then, now);
                self.follow(key, new);
            });
        }
        warnings
    }

    fn has_any_of(&self, trip: (Date, usize)) -> bool {
        self.has_trip(trip.0, trip.1) || self.settled_foods(trip.0, trip.1).next().is_some()
    }

    /// A session that is booked and stands in no week any more is one that its week has got since then: it was moved, and is done all the
    /// same. Told, since nobody but the household can know that it is not another.
    pub fn follow_moved(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let starts: BTreeSet<DateTime> = weeks.iter().flat_map(|(_, week)| &week.sessions).map(|session| session.start).collect();
        let mut warnings = Vec::new();
        for booked in self.sessions().filter(|start| !starts.contains(start)).collect::<Vec<_>>() {
            let all = weeks.iter().flat_map(|(file, week)| week.sessions.iter().map(move |session| (file, week, session)));
            let open = all.filter(|(_, week, session)| !self.has_session(session.start) && self.may_be(booked, session.start, week));
            let Some((file, _, session)) = open.min_by_key(|(_, _, session)| (apart(session.start, booked), session.start)) else {
                continue;
            };
            let (then, now) = (day_clock(booked), day_clock(session.start));
            let old = booked.strftime("%Y-%m-%dT%H:%M");
            let text = format!(
                "the session of {then} is booked and was moved to {now}, which is done with it. If that is another, write start = {old} \
                 into {file} again, as a session of its own."
            );
            let at = Some(session.at.clone());
            self.follow(session_key(booked), session_key(session.start));
            warnings.push(Warning::Note { at, text });
        }
        warnings
    }

    /// A meal that is booked and stands in no week any more is the one of its day that is eaten when it was, else that is called as it was,
    /// else that is eaten at about that time: its name was changed, or the household's mealtimes were, or both.
    pub fn follow_renamed(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let all: Vec<&Meal> = weeks.iter().flat_map(|(_, week)| &week.meals).collect();
        let keys: BTreeSet<String> = all.iter().map(|meal| meal_key(meal)).collect();
        let gone = self.meals().filter(|(key, ..)| !keys.contains(*key));
        let gone: Vec<(String, DateTime, String)> = gone.map(|(key, at, name)| (key.to_owned(), at, name.to_owned())).collect();
        let mut warnings = Vec::new();
        for (key, at, name) in gone {
            let of_day = || all.iter().filter(|meal| meal.at_time.date() == at.date() && !self.has_meal(meal));
            let near =
                || of_day().filter(|meal| apart(meal.at_time, at) <= NEAR).min_by_key(|meal| (apart(meal.at_time, at), meal.at_time));
            let found = of_day().find(|meal| meal.at_time == at).or_else(|| of_day().find(|meal| is_called(meal, &name))).or_else(near);
            let Some(meal) = found else { continue };
            if !is_called(meal, &name) {
                let (then, now) = (day_clock(at), meal.name.as_deref().unwrap_or(&meal.label));
                let text = format!("{name}, {then}, is booked. The file has {now} there now, and that counts as eaten.");
                warnings.push(Warning::Note { at: Some(meal.at.clone()), text });
            }
            self.follow(key, meal_key(meal));
        }
        warnings
    }

    /// May the booked session be the one that stands at `start` in `week` now? One that stood there then, too, is another; and one that is
    /// nearer to a third which is gone as well was that.
    fn may_be(&self, booked: DateTime, start: DateTime, week: &Week) -> bool {
        let Some(then) = self.in_week(&session_key(booked)) else { return apart(start, booked) <= A_DAY };
        let gone = || then.sessions.iter().filter(|then| week.sessions.iter().all(|session| session.start != **then));
        let nearest = gone().all(|other| apart(start, booked) <= apart(start, *other));
        then.from == week.from && !then.sessions.contains(&start) && nearest
    }
}

fn is_called(meal: &Meal, name: &str) -> bool {
    meal.name.as_deref().unwrap_or(&meal.label) == name
}

/// How far apart two meals are that are told as one, in minutes: nobody sits down twice within so short a time.
const NEAR: i64 = 90;

/// How far from its old start a session is looked for where the book does not say how its week stood, in minutes.
const A_DAY: i64 = 36 * 60;

fn apart(a: DateTime, b: DateTime) -> i64 {
    a.duration_since(b).as_mins().abs()
}

/// May a trip of one day be by now that of another? One that stood there then, too, is another; and one that is nearer to a third which is
/// gone as well was that.
fn is_moved(before: &[Date], now: &[Date], then: Date, on: Date) -> bool {
    let mut gone = before.iter().filter(|day| !now.contains(day));
    !before.contains(&on) && gone.all(|other| days_apart(on, then) <= days_apart(on, *other))
}

fn days(week: &Week) -> Vec<Date> {
    week.trips.iter().map(|trip| trip.on).collect()
}

fn days_apart(a: Date, b: Date) -> i32 {
    (a - b).get_days().abs()
}

/// Of the trips of a week that were printed and stand there no more, the day and the number that each has now: those of the nearest that
/// was not printed.
pub fn printed_trips_moved(printed: &WeekBuys, week: &Week) -> BTreeMap<(Date, usize), (Date, usize)> {
    let stands = |trip: &(Date, usize)| week.trips.iter().any(|other| (other.on, other.nth) == *trip);
    let planned = printed.trips.iter().filter(|trip| trip.is_planned()).map(|trip| (trip.on, trip.nth));
    let (same, gone): (Vec<_>, Vec<_>) = planned.partition(stands);
    let mut new: Vec<(Date, usize)> = week.trips.iter().map(|trip| (trip.on, trip.nth)).filter(|trip| !same.contains(trip)).collect();
    let mut moved = BTreeMap::new();
    for trip in gone {
        let Some(nearest) = (0..new.len()).min_by_key(|place| days_apart(new[*place].0, trip.0)) else { break };
        moved.insert(trip, new.remove(nearest));
    }
    moved
}

/// The list with those trips at their new days.
pub fn at_their_new_days(printed: &WeekBuys, moved: &BTreeMap<(Date, usize), (Date, usize)>) -> WeekBuys {
    let at_new = |trip: &TripBuys| match moved.get(&(trip.on, trip.nth)) {
        Some(&(on, nth)) => TripBuys { on, nth, ..trip.clone() },
        None => trip.clone(),
    };
    let mut trips: Vec<TripBuys> = printed.trips.iter().map(at_new).collect();
    trips.sort_by_key(|trip| (trip.on, trip.nth));
    WeekBuys { trips, ..printed.clone() }
}

/// What was printed of the sessions of a week, each at the start that its file has now: a printed one that stands there no more is the
/// nearest that was not printed, and its boxes keep as long from there.
pub fn at_their_new_starts(printed: &[Turnover], week: &Week) -> Vec<Turnover> {
    let mut new: Vec<DateTime> = week.sessions.iter().map(|session| session.start).collect();
    new.retain(|start| printed.iter().all(|session| session.start != *start));
    let stands = |session: &Turnover| week.sessions.iter().any(|other| other.start == session.start);
    let moved = |session: &Turnover| {
        let nearest = (0..new.len()).filter(|_| !stands(session)).min_by_key(|place| apart(new[*place], session.start));
        let start = nearest.map_or(session.start, |place| new.remove(place));
        let later = start.date() - session.start.date();
        let mut boxes = session.boxes.clone();
        boxes.iter_mut().for_each(|put| put.use_by = put.use_by.saturating_add(later));
        Turnover { start, boxes, ..session.clone() }
    };
    printed.iter().map(moved).collect()
}
