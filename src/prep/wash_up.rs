//! Washing up: by whoever is free soonest once all else is done.

use super::Schedule;
use super::tasks::{Part, Work};

/// The plan with its washing up at once after the last work, by whoever has been free for longest by then and is still there.
pub(super) fn washed_up_soonest(work: &Work, mut planned: Schedule) -> Schedule {
    let jobs = &work.problem.jobs;
    let open = |job: &usize| work.origins[*job].part == Part::WashUp && jobs[*job].fixed.is_none() && jobs[*job].hands > 0;
    let Some(job) = (0..work.origins.len()).find(open) else { return planned };
    let others = || jobs.iter().zip(&planned.placed).enumerate().filter(|(other, _)| *other != job).map(|(_, pair)| pair);
    let done = others().map(|(facts, placed)| placed.start + facts.minutes()).max().unwrap_or(0).max(work.problem.now);
    // What counts stands where the finish has it.
    let start = if jobs[job].uncounted { done.min(planned.placed[job].start) } else { planned.placed[job].start };
    let free_since = |person: usize| {
        let stints = others().flat_map(|(facts, placed)| {
            let hands = (placed.person == Some(person)).then_some(placed.start + facts.hands);
            let out = (placed.out_person == Some(person)).then_some(placed.start + facts.minutes());
            [hands, out].into_iter().flatten()
        });
        stints.max().unwrap_or(0).max(work.problem.people[person].from)
    };
    let there = |person: &usize| {
        let until = work.problem.people[*person].until;
        free_since(*person) <= start && until.is_none_or(|until| start + jobs[job].hands <= until)
    };
    let soonest = jobs[job].people.iter().copied().filter(there).min_by_key(|person| (free_since(*person), *person));
    if let Some(person) = soonest {
        (planned.placed[job].start, planned.placed[job].person) = (start, Some(person));
    }
    planned
}

#[cfg(test)]
mod tests;
