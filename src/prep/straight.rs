//! What is served straight from the pot in a session without a `finish_by`: only a plan of the rest tells when that is done.

use jiff::ToSpan;

use super::schedule::{Effort, least_finish};
use super::tasks::session_work;
use crate::kitchen::{Kitchen, Week};
use crate::plan::{MadeAt, Makings, served_after, straight_meals};

/// The makings with a box for each dish whose meal begins too long after the earliest finish of its session without the dish. A session
/// that makes nothing else says nothing of that: there `ready_after` has spoken.
pub fn settled(kitchen: &Kitchen, week: &Week, mut makings: Makings) -> Makings {
    for (index, session) in week.sessions.iter().enumerate().filter(|(_, session)| session.finish_by.is_none()) {
        let here = |makings: &Makings, place: usize| makings.makings[place].at == MadeAt::Session(index);
        let straight = |place: &usize| here(&makings, *place) && !straight_meals(week, &makings, &makings.makings[*place]).is_empty();
        let hot: Vec<usize> = (0..makings.makings.len()).filter(straight).collect();
        let mut rest = makings.clone();
        // Made in no session of the week.
        hot.iter().for_each(|place| rest.makings[*place].at = MadeAt::Session(usize::MAX));
        if hot.is_empty() || (0..rest.makings.len()).all(|place| !here(&rest, place)) {
            continue;
        }
        let (finish, _) = least_finish(&session_work(kitchen, week, index, &rest).asked(), Effort::Low);
        let done = session.start.saturating_add(finish.minutes());
        hot.into_iter().for_each(|place| served_after(&kitchen.recipes, week, &mut makings, place, done));
    }
    makings
}
