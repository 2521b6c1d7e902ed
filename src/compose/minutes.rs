//! How long the sessions of a week take, which composing asks again and again: what was planned once is remembered by what it makes.

use std::collections::BTreeMap;
use std::sync::Mutex;

use jiff::ToSpan;
use jiff::civil::DateTime;

use crate::kitchen::{Aim, Session};
use crate::plan::MadeAt;
use crate::prep::Effort;
use crate::reckon::{Trials, Tried};

/// The sessions planned so far, by their places and what they make.
#[derive(Default)]
pub struct Finishes(Mutex<BTreeMap<(usize, String), Finish>>);

/// The least finish of a session that was found, its bound, and whether no more effort is given to it.
type Finish = (i64, i64, bool);

impl Finishes {
    /// The least finish of a session and its bound, at little effort where that is `enough`.
    pub fn of(&self, trials: &Trials, tried: &Tried, index: usize, effort: Effort, enough: impl Fn(i64, i64) -> bool) -> (i64, i64) {
        let key = (index, made_in(tried, index));
        let known = self.0.lock().ok().and_then(|known| known.get(&key).copied());
        if let Some((finish, bound, final_)) = known
            && (final_ || finish == bound || enough(finish, bound))
        {
            return (finish, bound);
        }
        let first = known.map_or_else(|| trials.session_minutes(tried, index, Effort::Low), |(finish, bound, _)| (finish, bound));
        let (found, final_) = if first.0 == first.1 || enough(first.0, first.1) || effort == Effort::Low {
            (first, effort == Effort::Low)
        } else {
            (trials.session_minutes(tried, index, effort), true)
        };
        if let Ok(mut known) = self.0.lock() {
            known.insert(key, (found.0, found.1, final_));
        }
        found
    }
}

/// What a session makes, told so that equal work reads equal.
fn made_in(tried: &Tried, index: usize) -> String {
    let here = tried.makings.makings.iter().filter(|making| making.at == MadeAt::Session(index));
    let told = here.map(|making| {
        let uses: Vec<String> = making.uses.iter().map(|one| format!("{:?}{}{:?}", one.kept, one.on, one.by)).collect();
        format!("{}:{}:{:?}:{:?}:{}", making.recipe.0, making.batches.number(), uses, making.apart, making.boxes.len())
    });
    told.collect::<Vec<_>>().join(";")
}

/// What it may cost to plan a session, where a week costs one for each of its meals. What was planned before costs less; how much less
/// hangs on what else is reckoned at the same time, and must not be counted.
pub fn work(tried: &Tried, index: usize) -> usize {
    let makings = tried.makings.makings.iter().filter(|making| making.at == MadeAt::Session(index)).count();
    10 * makings * makings
}

/// The time by which a session would have to be finished so that it may take so many minutes.
pub fn finish_by_for(session: &Session, minutes: i64) -> DateTime {
    // The least span of which a tenth may stay free.
    let span = if session.aim == Aim::Calm { (minutes..).find(|span| span - span / 10 >= minutes).unwrap_or(minutes) } else { minutes };
    session.start.saturating_add(span.minutes())
}

/// The minutes that a session may take by its `finish_by`; a calm one keeps a tenth of them free.
pub fn minutes_allowed(session: &Session) -> Option<i64> {
    let until = session.finish_by?;
    let span = session.start.until((jiff::Unit::Minute, until)).ok()?.get_minutes();
    Some(if session.aim == Aim::Calm { span - span / 10 } else { span })
}
