//! Sessions whose start was changed in their week's file, and meals that are called otherwise by now, or eaten at another hour. What is booked is done, whatever the file calls it now; what was printed under the
//! old start is booked under the new one.

use std::collections::BTreeSet;

use jiff::civil::DateTime;

use super::booked::Booked;
use super::keys::{meal_key, session_key};
use crate::kitchen::{Meal, Warning, Week};
use crate::prep::Turnover;
use crate::words::day_clock;

impl Booked {
    /// A session that is booked and stands in no week any more is one that its week has got since then: it was moved, and is done all the
    /// same. Told, since nobody but the household can know that it is not another.
    pub fn follow_moved(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let starts: BTreeSet<DateTime> = weeks.iter().flat_map(|(_, week)| &week.sessions).map(|session| session.start).collect();
        let mut warnings = Vec::new();
        for booked in self.sessions().filter(|start| !starts.contains(start)).collect::<Vec<_>>() {
            let all = weeks.iter().flat_map(|(file, week)| week.sessions.iter().map(move |session| (file, week, session)));
            let open = all.filter(|(_, week, session)| !self.has_session(session.start) && self.may_be(booked, session.start, week));
            let Some((file, _, session)) = open.min_by_key(|(_, _, session)| (apart(session.start, booked), session.start)) else {
                continue;
            };
            let (then, now) = (day_clock(booked), day_clock(session.start));
            let old = booked.strftime("%Y-%m-%dT%H:%M");
            let text = format!(
                "the session of {then} is booked and was moved to {now}, which is done with it. If that is another, write start = {old} \
                 into {file} again, as a session of its own."
            );
            let at = Some(session.at.clone());
            self.follow(session_key(booked), session_key(session.start));
            warnings.push(Warning::Note { at, text });
        }
        warnings
    }

    /// A meal that is booked and stands in no week any more is the one of its day that is eaten when it was, else that is called as it was,
    /// else that is eaten at about that time: its name was changed, or the household's mealtimes were, or both.
    pub fn follow_renamed(&mut self, weeks: &[(String, Week)]) -> Vec<Warning> {
        let all: Vec<&Meal> = weeks.iter().flat_map(|(_, week)| &week.meals).collect();
        let keys: BTreeSet<String> = all.iter().map(|meal| meal_key(meal)).collect();
        let gone = self.meals().filter(|(key, ..)| !keys.contains(*key));
        let gone: Vec<(String, DateTime, String)> = gone.map(|(key, at, name)| (key.to_owned(), at, name.to_owned())).collect();
        let mut warnings = Vec::new();
        for (key, at, name) in gone {
            let of_day = || all.iter().filter(|meal| meal.at_time.date() == at.date() && !self.has_meal(meal));
            let near =
                || of_day().filter(|meal| apart(meal.at_time, at) <= NEAR).min_by_key(|meal| (apart(meal.at_time, at), meal.at_time));
            let found = of_day().find(|meal| meal.at_time == at).or_else(|| of_day().find(|meal| is_called(meal, &name))).or_else(near);
            let Some(meal) = found else { continue };
            if !is_called(meal, &name) {
                let (then, now) = (day_clock(at), meal.name.as_deref().unwrap_or(&meal.label));
                let text = format!("{name}, {then}, is booked. The file has {now} there now, and that counts as eaten.");
                warnings.push(Warning::Note { at: Some(meal.at.clone()), text });
            }
            self.follow(key, meal_key(meal));
        }
        warnings
    }

    /// May the booked session be the one that stands at `start` in `week` now? One that stood there then, too, is another; and one that is
    /// nearer to a third which is gone as well was that.
    fn may_be(&self, booked: DateTime, start: DateTime, week: &Week) -> bool {
        let Some(then) = self.in_week(booked) else { return apart(start, booked) <= A_DAY };
        let gone = || then.sessions.iter().filter(|then| week.sessions.iter().all(|session| session.start != **then));
        let nearest = gone().all(|other| apart(start, booked) <= apart(start, *other));
        then.from == week.from && !then.sessions.contains(&start) && nearest
    }
}

fn is_called(meal: &Meal, name: &str) -> bool {
    meal.name.as_deref().unwrap_or(&meal.label) == name
}

/// How far apart two meals are that are told as one, in minutes: nobody sits down twice within so short a time.
const NEAR: i64 = 90;

/// How far from its old start a session is looked for where the book does not say how its week stood, in minutes.
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
