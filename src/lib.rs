//! **spence** plans a household's week of batch cooking: what to buy, and what to do in which order.
//!
//! Each stage is a pure function from plain data to plain data; files are read before the first and written after the last. A week goes from
//! [`kitchen`], which reads it, through [`plan`], [`pantry`], [`purchase`] and [`prep`] to [`sheets`] and [`json`], which show it; [`reckon()`]
//! runs these stages for every verb. What each room must not know stands at its head and in DEVELOPERS.md.
//!
//! The sample kitchen's week, reckoned:
//!
//! ```
//! use std::path::Path;
//! use jiff::civil::date;
//! use spence::{Shown, book::Booked, kitchen, prep::Effort, reckon};
//!
//! let read = kitchen::load(Path::new("sample-data")).expect("the sample kitchen has no mistakes");
//! let (booked, today) = (Booked::default(), date(2026, 11, 27));
//! let reckoning = reckon(&read, &booked, &[], 0, today).expect("every meal is within reach of a session");
//!
//! let list = reckoning.list(Shown::default());
//! assert_eq!(list.trips.len(), 2);
//! let prep = reckoning.prep(Effort::Low);
//! assert!(prep.sessions.iter().all(|session| session.bound_minutes <= session.minutes));
//! ```

pub mod adopt;
pub mod book;
pub mod calendar;
pub mod cli;
pub mod compose;
pub mod foods;
pub mod handout;
pub mod json;
pub mod kitchen;
pub mod measure;
pub mod pantry;
pub mod phone;
pub mod plan;
pub mod prep;
pub mod progress;
pub mod purchase;
mod reckon;
pub mod sheets;
pub mod shelf;
pub mod store;
mod telling;
mod words;

pub use reckon::{
    AsPrinted, DayLot, DayPlan, DaySession, PastSession, PastTrips, Priced, Reckoning, Shown, Trials, Tried, Walk, has_begun, open_meals,
    reckon, reckon_beside, shelf_as_taken, trials, waits_to_be_booked,
};
