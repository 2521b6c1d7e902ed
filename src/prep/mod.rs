//! Tasks, appliances, people; the schedule; what the guide says.

mod build;
mod guide;
mod problem;
mod schedule;

pub use build::prep;
pub use guide::{Batch, Before, BoxNote, Cut, Fetch, PrepPlan, SessionPlan, Task, TaskKind};
pub use problem::{Heat, Impossible, Job, JobKind, Link, LinkWhy, Machine, Placed, Problem, Schedule, Setting, Worker};
pub use schedule::{Effort, schedule};
