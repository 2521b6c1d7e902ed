//! Dishes of one meal that are served hot end together, as far as each may be held: what a first plan has ready before the last of them is
//! asked for once more with less time to stand.

use std::collections::BTreeMap;

use super::tasks::Work;
use super::{Effort, Job, Schedule, schedule};

/// The plan, or one in which the dishes of each meal end together, where that breaks nothing and ends no later.
pub(super) fn ending_together(work: &Work, planned: Schedule, effort: Effort) -> Schedule {
    let mut asked = work.asked();
    let end = |job: usize| planned.placed[job].start + work.problem.jobs[job].minutes();
    let mut by_meal: BTreeMap<i64, Vec<usize>> = BTreeMap::new();
    for served in work.served.iter().filter(|served| work.problem.jobs[served.last].fixed.is_none()) {
        by_meal.entry(work.problem.jobs[served.last].serve.map_or(0, |serve| serve.at)).or_default().push(served.last);
    }
    let mut is_apart = false;
    for (at, dishes) in by_meal {
        // One pair of hands takes them off the heat one after the other.
        let hands = dishes.iter().map(|dish| last_hands(&work.problem.jobs[*dish]));
        let apart = hands.clone().sum::<i64>() - hands.min().unwrap_or(0);
        let Some(last) = dishes.iter().map(|dish| end(*dish)).max().filter(|last| *last <= at) else { continue };
        for dish in dishes.into_iter().filter(|dish| end(*dish) < last - apart) {
            if let Some(serve) = &mut asked.jobs[dish].serve {
                (serve.hold, is_apart) = (serve.hold.min(at - last + apart), true);
            }
        }
    }
    if !is_apart || !keeps_all(&planned) {
        return planned;
    }
    let together = schedule(&asked, effort);
    if keeps_all(&together) && together.finish == planned.finish {
        Schedule { bound: planned.bound, proven: planned.proven, ..together }
    } else {
        planned
    }
}

/// The minutes of hands with which a dish is ready.
fn last_hands(job: &Job) -> i64 {
    if job.out > 0 || job.wait > 0 { job.out } else { job.hands }
}

fn keeps_all(plan: &Schedule) -> bool {
    let Schedule { overrun, hurried, stays, unheld, impossible, .. } = plan;
    overrun.is_empty() && hurried.is_empty() && stays.is_empty() && unheld.is_empty() && impossible.is_empty()
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::super::tasks::ServedHot;
    use super::*;
    use crate::prep::{Machine, Problem, Serve, Worker};

    #[test]
    fn what_may_be_held_ends_with_what_must_be_served_at_once() {
        // A meal at minute 100: one dish of 42 minutes and one to take it off may stand half an hour, one of 12 and one may not at all.
        // One pair of hands takes both off: at 99 and 100.
        let job = |making, wait, hold| Job {
            making,
            hands: 2,
            wait,
            out: 1,
            people: vec![0],
            machines: vec![(0, 1)],
            serve: Some(Serve { at: 100, hold }),
            uncounted: true,
            ..Job::default()
        };
        let machines = vec![Machine { room: 2, ..Machine::default() }];
        let problem =
            Problem { people: vec![Worker::default()], machines, jobs: vec![job(0, 40, 30), job(1, 10, 0)], ..Problem::default() };
        let served = |last, hold| ServedHot { last, others: vec![], meals: vec![], hold };
        let origins = Vec::new();
        let work = Work {
            problem,
            origins,
            chosen: vec![0, 1],
            people: vec![],
            unfit: vec![],
            brings: vec![],
            served: vec![served(0, 30), served(1, 0)],
            ready: vec![],
        };
        let first = schedule(&work.asked(), Effort::Low);
        let ends = |plan: &Schedule| (0..2).map(|job| plan.placed[job].start + work.problem.jobs[job].minutes()).collect::<Vec<_>>();
        assert!(ends(&first)[0] < 99, "{:?}", ends(&first));
        assert_eq!(ends(&ending_together(&work, first, Effort::Low)), [99, 100]);
    }
}
