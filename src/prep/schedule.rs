//! The plan of least finish.

use super::{Problem, Schedule};

/// How long the search for the proof may go on, counted in solver decisions, never by the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Effort {
    Low,
    #[default]
    Normal,
    High,
}

/// The plan of least finish, and of the least idle minutes within makings among those.
pub fn schedule(problem: &Problem, effort: Effort) -> Schedule {
    let _ = (problem, effort);
    todo!()
}
