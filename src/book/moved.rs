//! Sessions whose start was changed in their week's file. What is booked is done, whatever the file calls it now; what was printed under the
//! old start is booked under the new one.

use std::collections::BTreeSet;

use jiff::civil::DateTime;

use super::booked::Booked;
use crate::kitchen::{Session, Warning, Week};
use crate::prep::Turnover;
use crate::words::day_clock;

impl Booked {
    /// A session that is booked and stands in no week any more is the one of that day that is not booked: it was moved. Another a day
    /// before or after may be a new one, which is left open. Both are told.
    pub fn follow_moved(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let all: Vec<(&str, &Session)> =
            weeks.iter().flat_map(|(file, week)| week.sessions.iter().map(move |session| (file.as_str(), session))).collect();
        let starts: BTreeSet<DateTime> = all.iter().map(|(_, session)| session.start).collect();
        let mut warnings = Vec::new();
        for booked in self.sessions().filter(|start| !starts.contains(start)).collect::<Vec<_>>() {
            let open = all.iter().filter(|(_, session)| !self.has_session(session.start));
            let Some((file, session)) = open.min_by_key(|(_, session)| (apart(session.start, booked), session.start)) else { continue };
            let is_same_day = session.start.date() == booked.date();
            if !is_same_day && apart(session.start, booked) > A_DAY {
                continue;
            }
            let (then, now) = (day_clock(booked), day_clock(session.start));
            let text = if is_same_day {
                self.move_to(session.start);
                format!("the session of {then} is booked and was moved to {now}, which is done with it.")
            } else {
                format!(
                    "the session of {then} is booked and stands in no week any more. Where it was moved to {now}, write its old start into \
                     {file} again: what is booked is done. Else that one is planned as another."
                )
            };
            warnings.push(Warning::Note { at: Some(session.at.clone()), text });
        }
        warnings
    }
}

/// How far from its old start a session may stand and be asked about, in minutes.
const A_DAY: i64 = 36 * 60;

fn apart(a: DateTime, b: DateTime) -> i64 {
    a.duration_since(b).as_mins().abs()
}

/// What was printed of the sessions of a week, each at the start that its file has now: a printed one that stands there no more is the
/// nearest that was not printed, and its boxes keep as long from there.
pub fn at_their_new_starts(printed: &[Turnover], week: &Week) -> Vec<Turnover> {
    let mut new: Vec<DateTime> = week.sessions.iter().map(|session| session.start).collect();
    new.retain(|start| printed.iter().all(|session| session.start != *start));
    let stands = |session: &Turnover| week.sessions.iter().any(|other| other.start == session.start);
    let moved = |session: &Turnover| {
        let nearest = (0..new.len()).filter(|_| !stands(session)).min_by_key(|place| apart(new[*place], session.start));
        let start = nearest.map_or(session.start, |place| new.remove(place));
        let later = start.date() - session.start.date();
        let mut boxes = session.boxes.clone();
        boxes.iter_mut().for_each(|put| put.use_by = put.use_by.saturating_add(later));
        Turnover { start, boxes, ..session.clone() }
    };
    printed.iter().map(moved).collect()
}
