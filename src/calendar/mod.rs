//! The week as calendar events: trips, sessions, what is done ahead, meals; and `week-<from>.ics` (RFC 5545) of them.
//!
//! ```text
//! list, prep, week card ── events ─> planned events ── kept: UID and SEQUENCE of the last print ─> events ── write ─> text
//! ```
//!
//! Works from typed answers. Knows no file, no terminal and no clock: the same week gives the same bytes.

mod events;
mod kept;
mod write;

pub use events::{Kind, Planned, planned};
pub use kept::{Before, Kept, after};
pub use write::calendar;
