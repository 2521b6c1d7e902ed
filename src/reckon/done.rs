//! What of a week is done or taken as done, as it is shown beside what is open.

use jiff::civil::{Date, DateTime};

use super::lived::Lived;
use crate::kitchen::{Kitchen, Session, Trip};
use crate::plan::State;
use crate::prep::Turnover;
use crate::purchase::TripList;

/// A session that is done or taken as done.
#[derive(Debug, Clone, PartialEq)]
pub struct PastSession {
    pub start: DateTime,
    pub state: State,
    /// What is done, as the book has it; else as it was printed, else as planned; `None` where nobody knows.
    pub turnover: Option<Turnover>,
    /// Was other made or boxed than its print says?
    pub is_otherwise: bool,
}

/// As they were printed, else as planned; booked ones that were never printed as the book has them.
pub(super) fn past_trips(kitchen: &Kitchen, lived: &Lived) -> Vec<TripList> {
    let past = lived.week.trips.iter().zip(&lived.standing.trips).filter(|(_, state)| **state != State::Open);
    let told = |(trip, state): (&Trip, &State)| {
        let is_it = |on: Date, nth: usize| (on, nth) == (trip.on, trip.nth);
        let printed = lived.print.and_then(|print| print.buys.trips.iter().find(|told| is_it(told.on, told.nth)));
        let planned = lived.as_planned.as_ref().and_then(|planned| planned.basket.trips.iter().find(|told| is_it(told.on, told.nth)));
        match (printed, planned) {
            (Some(printed), _) => TripList::told(kitchen, printed, *state),
            (None, Some(planned)) => TripList { state: Some(*state), ..planned.clone() },
            (None, None) => lived.as_booked(kitchen, trip).unwrap_or_else(|| TripList::untold(trip, *state)),
        }
    };
    let own = lived.own_trips().map(|trip| TripList::told(kitchen, trip, State::TakenAsDone));
    let own_done = lived.own_trips_done().into_iter().map(|trip| told((&trip, &State::Done)));
    past.map(told).chain(own).chain(own_done).collect()
}

/// The booked ones as the book has them, as far as it says them.
pub(super) fn booked_trips(kitchen: &Kitchen, lived: &Lived) -> Vec<TripList> {
    let done = lived.standing.trips(&lived.week, |state| state == State::Done).cloned();
    done.chain(lived.own_trips_done()).filter_map(|trip| lived.as_booked(kitchen, &trip)).collect()
}

pub(super) fn past_sessions(kitchen: &Kitchen, lived: &Lived) -> Vec<PastSession> {
    let past = lived.week.sessions.iter().zip(&lived.standing.sessions).filter(|(_, state)| **state != State::Open);
    let told = |(session, state): (&Session, &State)| {
        let turnover = if *state == State::Done { lived.as_cooked(kitchen, session.start) } else { lived.turnover(session.start) };
        let otherwise =
            |printed: &Turnover| turnover.as_ref().is_some_and(|made| made.batches != printed.batches || made.boxes != printed.boxes);
        let is_otherwise = *state == State::Done && lived.printed_session(session.start).is_some_and(otherwise);
        PastSession { start: session.start, state: *state, turnover, is_otherwise }
    };
    past.map(told).collect()
}
