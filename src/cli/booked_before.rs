//! What ought to have been booked before a session or a meal: the trip that brings what is missing, the session that cooks it.

use jiff::civil::{Date, DateTime};

use super::outcome::remark;
use super::setting::Setting;
use crate::book::Missing;
use crate::json::Printed;
use crate::kitchen::Ware;
use crate::plan::{MadeAt, Makings};
use crate::words::{day, day_clock};
use crate::{PastTrips, Reckoning, Shown};

/// A trip counts whether it is still to come or not.
const EVERY_TRIP: Shown = Shown { past: PastTrips::AsPrinted, compared: false };

/// Tells of the first trip on or before `until` that is not booked and brings something that is missing. `then` is what was booked before it.
pub fn tell_of_trip(setting: &Setting, reckoned: &Reckoning, missing: &[Missing], until: DateTime, then: &str) {
    let foods: Vec<_> =
        missing.iter().filter_map(|missing| if let Some(Ware::Food(food)) = missing.of { Some(food) } else { None }).collect();
    if foods.is_empty() {
        return;
    }
    let list = reckoned.list(EVERY_TRIP);
    let unbooked = list.trips.iter().filter(|trip| trip.on <= until.date() && !setting.booked.has_trip(trip.on, trip.nth));
    let brings = unbooked.filter(|trip| trip.lines().any(|line| foods.contains(&line.food)));
    if let Some(trip) = brings.min_by_key(|trip| trip.on) {
        remark(&format!(
            "the trip of {} is not booked yet. Book it with spence receive: what {then} took of it comes off then.",
            day(trip.on)
        ));
    }
}

/// Tells of the first session before `until` that is not booked and makes something that is missing. What an open one that was never printed
/// makes is planned without the meals that are booked.
pub fn tell_of_session(today: Date, printed: Option<&Printed>, reckoned: &Reckoning, missing: &[Missing], until: DateTime) {
    let (week, makings, _) = reckoned.not_booked();
    let makes = |session: usize, makings: &Makings| {
        let here = makings.makings.iter().filter(|making| making.at == MadeAt::Session(session));
        here.map(|making| Some(Ware::Recipe(making.recipe))).any(|made| missing.iter().any(|missing| missing.of == made))
    };
    let before = (0..week.sessions.len()).filter(|&session| week.sessions[session].start < until && makes(session, makings));
    if let Some(start) = before.map(|session| week.sessions[session].start).min() {
        let is_printed = printed.is_some_and(|printed| printed.turnovers.iter().any(|session| session.start == start));
        if start.date() < today || is_printed {
            remark(&format!(
                "the session of {} is not booked yet. Book it with spence issue: what the meals ate of it comes off its boxes then.",
                day_clock(start)
            ));
            return;
        }
        remark(&format!(
            "the session of {} is not booked, and what it cooked is not on the shelf. Take this booking back with spence undo, book the \
             session with spence issue, then the meals.",
            day_clock(start)
        ));
    }
}
