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
//! | [`plan`] | week -> makings in cooking sessions -> dated demand | files, terminal, PDF |
//! | [`pantry`] | lots; netting first expired, first out; the book | files, terminal, PDF |
//! | [`purchase`] | packs, offers, shops, trips; the exact choice | files, terminal, PDF |
//! | [`prep`] | tasks, appliances, people; the schedule; what the guide says | files, terminal, PDF |
//! | [`sheets`] | type, layout, the shopping list, the prep guide, PDF | any rule of the computation |
//! | [`store`] | files that must never be lost | what stands in them |
//! | [`cli`] | one file a verb, thin | any rule of the computation |
//!
//! The stages in a row, on the sample kitchen:
//!
//! ```
//! use std::path::Path;
//! use spence::{kitchen, prep::Effort, reckon};
//!
//! let read = kitchen::load(Path::new("sample-data")).expect("the sample kitchen has no mistakes");
//! let (_, week) = &read.weeks[0];
//! let reckoning = reckon(&read.kitchen, week).expect("every meal is within reach of a session");
//!
//! let list = reckoning.list(&read.kitchen, week, None, &reckoning.warnings);
//! assert_eq!(list.trips.len(), 2);
//! let prep = reckoning.prep(&read.kitchen, week, Effort::Low);
//! assert!(prep.sessions.iter().all(|session| session.bound_minutes <= session.minutes));
//! ```

pub mod adopt;
mod budget;
mod carry;
pub mod cli;
pub mod foods;
pub mod json;
pub mod kitchen;
pub mod measure;
pub mod pantry;
pub mod plan;
pub mod prep;
pub mod purchase;
mod reckon;
pub mod sheets;
pub mod store;
mod words;

pub use carry::{Carried, carry};
pub use reckon::{Reckoning, reckon};
