//! What a calendar knows an event by, from one print to the next: its UID stays, its SEQUENCE grows with each change.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::events::{Kind, Planned};
use crate::kitchen::Week;

/// An event as it was last written.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    pub uid: String,
    pub sequence: u32,
    /// It fell out of the week, and that has been written.
    pub cancelled: bool,
    #[serde(flatten)]
    pub event: Planned,
}

/// What there was before: the events of the last print, the week as its file has it (what is booked with it), and today.
#[derive(Debug, Clone, Copy)]
pub struct Before<'a> {
    pub kept: &'a [Kept],
    pub whole: &'a Week,
    pub today: Date,
}

/// The events of this print; and among them, once, as cancelled, those that fell out. What fell out in an earlier print is last in
/// the answer's second part, which is only remembered.
///
/// What is past, or is booked and so no longer planned, stays as it was.
pub fn after(household: &str, before: Before, planned: Vec<Planned>) -> (Vec<Kept>, Vec<Kept>) {
    let pairs = paired(before.kept, &planned);
    let taken: Vec<&str> = before.kept.iter().map(|kept| kept.uid.as_str()).collect();
    let mut events: Vec<Kept> = Vec::new();
    let mut fresh: Vec<String> = Vec::new();
    for (event, old) in planned.into_iter().zip(&pairs) {
        events.push(match old.map(|old| &before.kept[old]) {
            Some(old) if old.event == event && !old.cancelled => old.clone(),
            Some(old) => Kept { uid: old.uid.clone(), sequence: old.sequence.saturating_add(1), cancelled: false, event },
            None => {
                let uid = new_uid(household, before.whole.from, &event, |uid| taken.contains(&uid) || fresh.iter().any(|one| one == uid));
                fresh.push(uid.clone());
                Kept { uid, sequence: 0, cancelled: false, event }
            }
        });
    }
    let mut remembered = Vec::new();
    for (_, old) in before.kept.iter().enumerate().filter(|(index, _)| !pairs.contains(&Some(*index))) {
        if old.cancelled {
            remembered.push(old.clone());
        } else if old.event.on < before.today || is_in(before.whole, &old.event) {
            events.push(old.clone());
        } else {
            events.push(Kept { sequence: old.sequence.saturating_add(1), cancelled: true, ..old.clone() });
        }
    }
    events.sort_by(|one, other| (one.event.start(), &one.uid).cmp(&(other.event.start(), &other.uid)));
    (events, remembered)
}

/// The file of the week still has it, and does not skip it: it is booked, not dropped.
fn is_in(week: &Week, event: &Planned) -> bool {
    match event.kind {
        Kind::Trip => week.trips.iter().any(|trip| trip.on == event.on),
        Kind::Session => week.sessions.iter().any(|session| session.start == event.start()),
        Kind::Meal => week.meals.iter().any(|meal| !meal.skip && meal.at_time == event.start()),
        Kind::Ahead => false,
    }
}

/// For each planned event the old one that it is: the same at the same time; else what was at that time; else the same at another time.
fn paired(old: &[Kept], planned: &[Planned]) -> Vec<Option<usize>> {
    let mut pairs: Vec<Option<usize>> = vec![None; planned.len()];
    let same: fn(&Planned, &Planned) -> bool = |one, other| one.about == other.about && one.start() == other.start();
    let same_time: fn(&Planned, &Planned) -> bool = |one, other| one.kind != Kind::Ahead && one.start() == other.start();
    let same_thing: fn(&Planned, &Planned) -> bool = |one, other| one.about == other.about;
    // What was cancelled comes back only in its own place.
    for (alike, cancelled) in [(same, false), (same_time, false), (same_thing, false), (same, true)] {
        for (index, event) in planned.iter().enumerate() {
            if pairs[index].is_none() {
                let fits = |(place, kept): &(usize, &Kept)| {
                    kept.cancelled == cancelled
                        && kept.event.kind == event.kind
                        && alike(&kept.event, event)
                        && !pairs.contains(&Some(*place))
                };
                pairs[index] = old.iter().enumerate().find(fits).map(|(place, _)| place);
            }
        }
    }
    pairs
}

/// Of the household, the week and the event as it first was; counted on where it is taken.
fn new_uid(household: &str, from: Date, event: &Planned, is_taken: impl Fn(&str) -> bool) -> String {
    let mut number = 0_u32;
    loop {
        let said = format!("{household}\n{from}\n{:?}\n{}\n{}\n{number}", event.kind, event.about, event.start());
        let hash = Sha256::digest(said.as_bytes());
        let digits: String = hash.iter().take(16).map(|byte| format!("{byte:02x}")).collect();
        let uid = format!("{digits}@spence");
        if !is_taken(&uid) {
            return uid;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::kitchen::fixture::{at, date, meal, session, week};

    fn supper(on: &str, name: &str) -> Planned {
        let start = at(on);
        Planned {
            kind: Kind::Meal,
            about: name.to_owned(),
            on: start.date(),
            at: Some(start.time()),
            until: None,
            zone: None,
            summary: name.to_owned(),
            description: String::new(),
        }
    }

    fn week_with(meals: &[&str]) -> Week {
        week(vec![session("2026-11-29T14:00")], meals.iter().map(|on| meal(on, "supper", vec![])).collect())
    }

    /// Prints `planned` after `kept`, and gives what is remembered of it.
    fn print(kept: &[Kept], whole: &Week, planned: Vec<Planned>) -> Vec<Kept> {
        let (mut events, remembered) = after("Row", Before { kept, whole, today: date("2026-11-27") }, planned);
        events.extend(remembered);
        events
    }

    #[test]
    fn what_has_not_changed_keeps_uid_and_sequence() {
        let whole = week_with(&["2026-11-30T18:30"]);
        let first = print(&[], &whole, vec![supper("2026-11-30T18:30", "soup")]);
        assert_eq!(print(&first, &whole, vec![supper("2026-11-30T18:30", "soup")]), first);
        assert_eq!(first[0].sequence, 0);
    }

    #[test]
    fn a_change_of_time_or_of_content_keeps_the_uid_and_raises_the_sequence_by_one() {
        let whole = week_with(&[]);
        let first = print(&[], &whole, vec![supper("2026-11-30T18:30", "soup")]);
        let later = print(&first, &whole, vec![supper("2026-12-01T19:00", "soup")]);
        assert_eq!((&later[0].uid, later[0].sequence, later.len()), (&first[0].uid, 1, 1));
        let other = print(&later, &whole, vec![supper("2026-12-01T19:00", "frittata")]);
        assert_eq!((&other[0].uid, other[0].sequence, other.len()), (&first[0].uid, 2, 1));
    }

    #[test]
    fn a_zone_that_is_written_down_is_a_change_of_every_time() {
        let whole = week_with(&[]);
        let first = print(&[], &whole, vec![supper("2026-11-30T18:30", "soup")]);
        let zoned = || vec![Planned { zone: Some("Europe/Lisbon".to_owned()), ..supper("2026-11-30T18:30", "soup") }];
        let then = print(&first, &whole, zoned());
        assert_eq!((&then[0].uid, then[0].sequence, then.len()), (&first[0].uid, 1, 1));
        assert_eq!(print(&then, &whole, zoned()), then);
    }

    #[test]
    fn what_falls_out_is_cancelled_once_and_may_come_back() {
        let whole = week_with(&[]);
        let first = print(&[], &whole, vec![supper("2026-11-30T18:30", "soup")]);
        let (gone, remembered) = after("Row", Before { kept: &first, whole: &whole, today: date("2026-11-27") }, vec![]);
        assert_eq!((gone[0].cancelled, gone[0].sequence, remembered.len()), (true, 1, 0));
        let (again, remembered) = after("Row", Before { kept: &gone, whole: &whole, today: date("2026-11-27") }, vec![]);
        assert_eq!((again.len(), remembered.len()), (0, 1));
        let back = print(&remembered, &whole, vec![supper("2026-11-30T18:30", "soup")]);
        assert_eq!((back[0].cancelled, back[0].sequence, &back[0].uid), (false, 2, &first[0].uid));
    }

    #[test]
    fn what_is_past_or_booked_stays_as_it_was() {
        let planned = || vec![supper("2026-11-30T18:30", "soup")];
        let whole = week_with(&["2026-11-30T18:30"]);
        let first = print(&[], &whole, planned());
        assert_eq!(print(&first, &whole, vec![]), first);
        let dropped = week_with(&[]);
        let (past, _) = after("Row", Before { kept: &first, whole: &dropped, today: date("2026-12-01") }, vec![]);
        assert_eq!(past, first);
    }

    #[test]
    fn a_new_event_where_a_moved_one_was_gets_a_uid_of_its_own() {
        let whole = week_with(&[]);
        let first = print(&[], &whole, vec![supper("2026-11-30T18:30", "soup")]);
        let moved = print(&first, &whole, vec![supper("2026-12-01T18:30", "soup")]);
        let two = print(&moved, &whole, vec![supper("2026-11-30T18:30", "soup"), supper("2026-12-01T18:30", "soup")]);
        assert_eq!(two.len(), 2);
        assert_ne!(two[0].uid, two[1].uid);
    }
}
