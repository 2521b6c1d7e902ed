//! What a session would take without one of its dishes.

use super::Effort;
use super::schedule::least_finish;
use super::tasks::session_work;
use crate::kitchen::{Kitchen, Week};
use crate::plan::{Kept, MadeAt, Makings, Use, User};

/// No session of any week: what is made there is not made.
const NOWHERE: MadeAt = MadeAt::Session(usize::MAX);

/// The makings without one of those chosen, and without what then goes into nothing any more.
pub(super) fn makings_without(makings: &Makings, chosen: &[usize], making: usize) -> Makings {
    let mut rest = makings.clone();
    rest.makings[making].at = NOWHERE;
    // A component of a component falls out a round later.
    for _ in chosen {
        for part in chosen.iter().copied() {
            let gone = |one: &Use| matches!(one.by, User::Making(dish) if rest.makings[dish].at == NOWHERE && one.kept == Kept::Straight);
            let uses = &rest.makings[part].uses;
            if !uses.is_empty() && rest.makings[part].spare.is_none() && uses.iter().all(gone) {
                rest.makings[part].at = NOWHERE;
            }
        }
    }
    rest
}

/// Each making of a session that nothing else there is made of, by its place, with the minutes that the session takes without it and
/// without what goes only into it.
pub fn spared_without(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize) -> Vec<(usize, i64)> {
    let here = |making: usize| makings.makings[making].at == MadeAt::Session(index);
    let goes_into_others =
        |making: usize| makings.makings[making].uses.iter().any(|one| matches!(one.by, User::Making(dish) if here(dish)));
    let chosen: Vec<usize> = (0..makings.makings.len()).filter(|making| here(*making)).collect();
    if chosen.len() < 2 {
        return Vec::new();
    }
    let without = |making: usize| {
        let rest = makings_without(makings, &chosen, making);
        let work = session_work(kitchen, week, index, &rest);
        (making, least_finish(&work.asked(), Effort::Low).0)
    };
    chosen.iter().copied().filter(|making| !goes_into_others(*making)).map(without).collect()
}
