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
    /// As it was printed, else as planned; `None` where nobody knows.
    pub turnover: Option<Turnover>,
}

pub(super) fn past_trips(kitchen: &Kitchen, lived: &Lived) -> Vec<TripList> {
    let past = lived.week.trips.iter().zip(&lived.standing.trips).filter(|(_, state)| **state != State::Open);
    let told = |(trip, state): (&Trip, &State)| {
        let is_it = |on: Date, nth: usize| (on, nth) == (trip.on, trip.nth);
        let printed = lived.print.and_then(|print| print.buys.trips.iter().find(|told| is_it(told.on, told.nth)));
        let planned = lived.as_planned.as_ref().and_then(|planned| planned.basket.trips.iter().find(|told| is_it(told.on, told.nth)));
        match (printed, planned) {
            (Some(printed), _) => TripList::told(kitchen, printed, *state),
            (None, Some(planned)) => TripList { state: Some(*state), ..planned.clone() },
            (None, None) => lived.as_booked(kitchen, trip, *state).unwrap_or_else(|| TripList::untold(trip, *state)),
        }
    };
    let own = lived.own_trips().map(|trip| TripList::told(kitchen, trip, State::TakenAsDone));
    let own_done = lived.own_trips_done().into_iter().map(|trip| told((&trip, &State::Done)));
    past.map(told).chain(own).chain(own_done).collect()
}

pub(super) fn past_sessions(lived: &Lived) -> Vec<PastSession> {
    let past = lived.week.sessions.iter().zip(&lived.standing.sessions).filter(|(_, state)| **state != State::Open);
    let told = |(session, state): (&Session, &State)| {
        let turnover = lived.turnover(session.start);
        PastSession { start: session.start, state: *state, turnover }
    };
    past.map(told).collect()
}
