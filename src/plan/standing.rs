//! How each trip, session and meal of a week stands: still open, done, or past and taken as done. What is open alone is planned.
//!
//! Knows no book: whoever asks says what is booked.

use crate::kitchen::{LeftOut, Meal, Session, Trip, Week};

/// How one trip, session or meal stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    Open,
    /// It is past, and nobody booked it.
    TakenAsDone,
    /// It is booked.
    Done,
}

impl State {
    /// `past` counts only for what is not booked.
    pub fn of(booked: bool, past: bool) -> State {
        match (booked, past) {
            (true, _) => State::Done,
            (false, true) => State::TakenAsDone,
            (false, false) => State::Open,
        }
    }

    /// As JSON and paper say it.
    pub fn words(self) -> &'static str {
        match self {
            State::Open => "open",
            State::TakenAsDone => "taken as done",
            State::Done => "done",
        }
    }
}

/// How everything of a week stands, in the week's order.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    pub trips: Vec<State>,
    pub sessions: Vec<State>,
    pub meals: Vec<State>,
}

impl Standing {
    fn all(&self) -> impl Iterator<Item = State> {
        self.trips.iter().chain(&self.sessions).chain(&self.meals).copied()
    }

    /// Is anything of it past or booked?
    pub fn has_begun(&self) -> bool {
        self.all().any(|state| state != State::Open)
    }

    pub fn has_taken_as_done(&self) -> bool {
        self.all().any(|state| state == State::TakenAsDone)
    }

    /// The week with what stands so alone.
    pub fn keep(&self, week: &Week, wanted: impl Fn(State) -> bool) -> Week {
        let mut kept = week.clone();
        kept.trips = self.trips(week, &wanted).cloned().collect();
        kept.sessions = self.sessions(week, &wanted).cloned().collect();
        kept.left_out = LeftOut {
            cooked: self.sessions(week, |state| !wanted(state)).map(|session| session.start.date()).collect(),
            last_meal: week.meals.iter().map(|meal| meal.at_time.date()).max(),
        };
        kept.meals = self.meals(week, &wanted).cloned().collect();
        kept
    }

    pub fn trips<'w>(&'w self, week: &'w Week, wanted: impl Fn(State) -> bool) -> impl Iterator<Item = &'w Trip> {
        week.trips.iter().zip(&self.trips).filter(move |(_, state)| wanted(**state)).map(|(trip, _)| trip)
    }

    pub fn sessions<'w>(&'w self, week: &'w Week, wanted: impl Fn(State) -> bool) -> impl Iterator<Item = &'w Session> {
        week.sessions.iter().zip(&self.sessions).filter(move |(_, state)| wanted(**state)).map(|(session, _)| session)
    }

    pub fn meals<'w>(&'w self, week: &'w Week, wanted: impl Fn(State) -> bool) -> impl Iterator<Item = &'w Meal> {
        week.meals.iter().zip(&self.meals).filter(move |(_, state)| wanted(**state)).map(|(meal, _)| meal)
    }
}
