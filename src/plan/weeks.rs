//! Which week is meant.

use jiff::civil::Date;

use crate::kitchen::Week;

/// From its first trip or session to its last meal.
pub fn span(week: &Week) -> (Date, Date) {
    let trips = week.trips.iter().map(|trip| trip.on);
    let sessions = week.sessions.iter().map(|session| session.start.date());
    let meals = week.meals.iter().map(|meal| meal.at_time.date());
    let first = trips.clone().chain(sessions.clone()).min().or_else(|| meals.clone().min());
    let last = meals.max().or_else(|| trips.chain(sessions).max());
    (first.unwrap_or(week.from), last.unwrap_or(week.from))
}

/// The week that contains `today` (of several, the one whose next trip or session comes soonest), else the next, else the latest.
pub fn week_of<'w>(weeks: impl IntoIterator<Item = &'w Week>, today: Date) -> Option<usize> {
    let spans: Vec<(Date, Date, Option<Date>)> = weeks
        .into_iter()
        .map(|week| {
            let (first, last) = span(week);
            (first, last, next_event(week, today))
        })
        .collect();
    let indices = 0..spans.len();
    let current = indices.clone().filter(|&week| spans[week].0 <= today && today <= spans[week].1);
    let next = indices.clone().filter(|&week| today < spans[week].0);
    current
        .min_by_key(|&week| (spans[week].2.is_none(), spans[week].2, spans[week].0))
        .or_else(|| next.min_by_key(|&week| spans[week].0))
        .or_else(|| indices.max_by_key(|&week| spans[week].1))
}

/// The weeks that contain `today`: the last suppers of one are eaten when the next has begun.
pub fn running<'w>(weeks: impl IntoIterator<Item = &'w Week>, today: Date) -> Vec<usize> {
    let contains_today = |week: &Week| {
        let (first, last) = span(week);
        first <= today && today <= last
    };
    weeks.into_iter().enumerate().filter(|(_, week)| contains_today(week)).map(|(index, _)| index).collect()
}

fn next_event(week: &Week, today: Date) -> Option<Date> {
    let trips = week.trips.iter().map(|trip| trip.on);
    let sessions = week.sessions.iter().map(|session| session.start.date());
    trips.chain(sessions).filter(|day| *day >= today).min()
}
