//! What several rooms say of a list, and of a meal that runs short, in the same words.
//!
//! Stands above `purchase`, which it reads, and below whoever shows an answer. Knows no rule.

pub mod list;
pub mod short;
