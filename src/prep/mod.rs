//! Tasks, appliances, people; the schedule; what the guide says.

mod build;
mod guide;
mod links;
mod names;
mod problem;
mod rounds;
mod schedule;
mod tasks;
#[cfg(test)]
mod testing;

pub use build::prep;
pub use guide::{Batch, Before, BoxNote, Cut, Fetch, PrepPlan, SessionPlan, Task, TaskKind};
pub use problem::{Heat, Job, JobKind, Link, LinkWhy, Machine, Placed, Problem, Schedule, Setting, Worker};
pub use schedule::{Effort, schedule};
