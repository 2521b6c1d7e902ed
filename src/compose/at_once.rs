//! Weeks looked at on two threads; what comes out stands in the order in which it was asked.

use std::thread;

use super::search::Chosen;
use super::table::{Judged, Look, Table};
use crate::prep::Effort;

/// Judges weeks in the order given, but for their sessions; on two threads where that pays.
pub fn judge_all(table: &Table, weeks: &[&Chosen], look: Look, effort: Effort) -> Vec<Judged> {
    in_two(weeks, |week| table.judge(week, look, effort))
}

/// What becomes of each, in the order given.
pub fn in_two<T: Sync, R: Send>(all: &[T], what: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let each = |all: &[T]| all.iter().map(&what).collect::<Vec<R>>();
    if all.len() < 4 {
        return each(all);
    }
    let (first, second) = all.split_at(all.len() / 2);
    thread::scope(|scope| {
        let other = scope.spawn(|| each(second));
        let mut done = each(first);
        match other.join() {
            Ok(more) => done.extend(more),
            Err(panic) => std::panic::resume_unwind(panic),
        }
        done
    })
}
