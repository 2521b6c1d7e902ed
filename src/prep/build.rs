//! From makings to tasks, and from a schedule to what the guide says.

use super::{Effort, PrepPlan};
use crate::kitchen::{Kitchen, Week};
use crate::plan::{Demand, Draw, Makings};

/// The plan of every session of the week.
pub fn prep(kitchen: &Kitchen, week: &Week, makings: &Makings, demand: &[Demand], draws: &[Draw], effort: Effort) -> PrepPlan {
    let _ = (kitchen, week, makings, demand, draws, effort);
    todo!()
}
