//! **spence** plans a household's week of batch cooking: what to buy, and what to do in which order.
//!
//! Each stage is a pure function from plain data to plain data; files are read before it and written after it.
//!
//! ```text
//! files ──read──> Kitchen ─┐
//!                          ├─ plan ─> Makings ─┬─ demand ─> Demand ── net ──> Need ── choose packs ──> ShoppingList ─┐
//! week ──read───> Week ────┘                   │                (pantry)           (shops)                           ├─> sheets ─> PDF
//!                                              └─ problem ─> Problem ── schedule ──> Schedule ──> PrepGuide ──────────┘
//! ```
//!
//! | room | what lives there | what it must not know |
//! | --- | --- | --- |
//! | [`measure`] | mass, volume, count; units and their names; reading and printing amounts; money | a food |
//! | [`foods`] | what is known of a food; the built-in reference; conversion of an amount | a recipe |
//! | [`kitchen`] | the household's files: reading, checking, pointing at mistakes | any computation |
//! | [`shelf`] | lots, their dates, drawing first expired first out, one unit price | the plan, the book |
//! | [`plan`] | week -> makings in cooking sessions -> dated demand | files, terminal, PDF |
//! | [`pantry`] | netting demand against the shelf, staples, stock | the book, files, terminal |
//! | [`purchase`] | packs, offers, shops, trips; the exact choice | files, terminal, PDF |
//! | [`prep`] | tasks, appliances, people; the schedule; what the guide says | files, terminal, PDF |
//! | [`book`] | what went in and out: receive, issue, count, waste, undo; what is done | terminal |
//! | [`reckon`] | the one door: what was read, what is booked and today -> the whole reckoning of a week | files, terminal |
//! | [`compose`] | what fills the open meals of a week: patterns, rules, the search, its reasons | files, terminal, JSON |
//! | [`calendar`] | the week as calendar events; iCalendar | files, terminal, clock |
//! | [`handout`] | the week for people with other kitchens, as typed data | files, terminal, PDF, the household's shelf and shops |
//! | [`phone`] | the week as one HTML page | files, terminal, any rule |
//! | [`sheets`] | type, layout, the shopping list, the prep guide, PDF | any rule of the computation |
//! | [`progress`] | what a long reckoning is at, for whoever watches | terminal, clock, any rule |
//! | [`store`] | files that must never be lost | what stands in them |
//! | [`cli`] | one file a verb, thin | any rule of the computation |
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
mod words;

pub use reckon::{
    AsPrinted, DayLot, DayPlan, DaySession, PastSession, Priced, Reckoning, Shown, Trials, Tried, Walk, has_begun, open_meals, reckon,
    reckon_beside, trials,
};
