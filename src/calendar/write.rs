//! iCalendar as RFC 5545 has it: content lines of at most 75 octets (3.1), escaped text (3.3.11), a time zone with its changes (3.6.5).

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use jiff::civil::{Date, DateTime};
use jiff::tz::{Offset, TimeZone, TimeZoneDatabase};
use jiff::{Timestamp, ToSpan};

use super::kept::Kept;
use crate::words::plan_mark;

/// The text of `week-<from>.ics`, of a name and the mark of its print. An event without a zone floats: its times are those of whoever
/// reads them. What is past keeps the zone that it was printed with.
///
/// `DTSTAMP` follows the content: midnight of `from`, and a minute more with each change of the event.
pub fn calendar((name, mark): (&str, &str), from: Date, events: &[Kept]) -> String {
    let mut lines = Lines::default();
    for line in ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//spence//week//EN", "CALSCALE:GREGORIAN"] {
        lines.add(line);
    }
    lines.add(&format!("X-WR-CALNAME:{}", escaped(name)));
    // RFC 7986, 5.2: which print it belongs to.
    lines.add(&format!("DESCRIPTION:{}", escaped(&plan_mark(mark))));
    let named: BTreeSet<&str> = events.iter().filter_map(|kept| kept.event.zone.as_deref()).collect();
    let zones: BTreeMap<&str, TimeZone> =
        named.into_iter().filter_map(|name| Some((name, TimeZoneDatabase::bundled().get(name).ok()?))).collect();
    for (name, zone) in &zones {
        add_zone(&mut lines, zone, name, events);
    }
    for kept in events {
        add_event(&mut lines, from, kept.event.zone.as_deref().filter(|name| zones.contains_key(name)), kept);
    }
    lines.add("END:VCALENDAR");
    lines.text
}

fn add_event(lines: &mut Lines, from: Date, zone: Option<&str>, kept: &Kept) {
    let event = &kept.event;
    let moment = |key: &str, at: DateTime| match zone {
        Some(zone) => format!("{key};TZID={zone}:{}", basic(at)),
        None => format!("{key}:{}", basic(at)),
    };
    lines.add("BEGIN:VEVENT");
    lines.add(&format!("UID:{}", kept.uid));
    let midnight = from.at(0, 0, 0, 0);
    let stamp = midnight.checked_add(i64::from(kept.sequence).minutes()).unwrap_or(midnight);
    lines.add(&format!("DTSTAMP:{}Z", basic(stamp)));
    lines.add(&format!("SEQUENCE:{}", kept.sequence));
    match event.at {
        Some(_) => {
            lines.add(&moment("DTSTART", event.start()));
            if let Some(until) = event.until {
                lines.add(&moment("DTEND", until));
            }
        }
        None => {
            lines.add(&format!("DTSTART;VALUE=DATE:{}", event.on.strftime("%Y%m%d")));
            if let Ok(next) = event.on.tomorrow() {
                lines.add(&format!("DTEND;VALUE=DATE:{}", next.strftime("%Y%m%d")));
            }
        }
    }
    lines.add(&format!("SUMMARY:{}", escaped(&event.summary)));
    if !event.description.is_empty() {
        lines.add(&format!("DESCRIPTION:{}", escaped(&event.description)));
    }
    lines.add(if kept.cancelled { "STATUS:CANCELLED" } else { "STATUS:CONFIRMED" });
    // A day of shopping does not fill the day, and food to soak does not fill the evening.
    lines.add(if event.until.is_some() { "TRANSP:OPAQUE" } else { "TRANSP:TRANSPARENT" });
    lines.add("END:VEVENT");
}

/// The zone from the change before the first event to the last change within the events, each change written out.
fn add_zone(lines: &mut Lines, zone: &TimeZone, name: &str, events: &[Kept]) {
    let timed = || events.iter().filter(|kept| kept.event.zone.as_deref() == Some(name)).map(|kept| &kept.event);
    let stamp = |at: DateTime| zone.to_ambiguous_timestamp(at).compatible().ok();
    let Some(first) = timed().filter_map(|event| stamp(event.start())).min() else { return };
    let last = timed().filter_map(|event| stamp(event.until.unwrap_or(event.start()))).max().unwrap_or(first);
    lines.add("BEGIN:VTIMEZONE");
    lines.add(&format!("TZID:{name}"));
    // A change in the very moment of the first event counts from it on.
    let after_first = first.checked_add(1.second()).unwrap_or(first);
    match zone.preceding(after_first).next() {
        Some(change) => add_change(lines, zone, change.timestamp()),
        None => add_offset(lines, false, zone.to_fixed_offset().unwrap_or(zone.to_offset(first)), None, "19700101T000000", ""),
    }
    for change in zone.following(after_first).take_while(|change| change.timestamp() <= last) {
        add_change(lines, zone, change.timestamp());
    }
    lines.add("END:VTIMEZONE");
}

fn add_change(lines: &mut Lines, zone: &TimeZone, at: Timestamp) {
    let info = zone.to_offset_info(at);
    let (to, is_dst, name) = (info.offset(), info.dst().is_dst(), info.abbreviation().to_owned());
    let from = at.checked_sub(1.second()).map_or(to, |before| zone.to_offset(before));
    // The clock as it stood before the change.
    add_offset(lines, is_dst, to, Some(from), &basic(from.to_datetime(at)), &name);
}

fn add_offset(lines: &mut Lines, is_dst: bool, to: Offset, from: Option<Offset>, start: &str, name: &str) {
    let part = if is_dst { "DAYLIGHT" } else { "STANDARD" };
    lines.add(&format!("BEGIN:{part}"));
    lines.add(&format!("DTSTART:{start}"));
    lines.add(&format!("TZOFFSETFROM:{}", offset(from.unwrap_or(to))));
    lines.add(&format!("TZOFFSETTO:{}", offset(to)));
    if !name.is_empty() {
        lines.add(&format!("TZNAME:{}", escaped(name)));
    }
    lines.add(&format!("END:{part}"));
}

/// "+0100", with seconds only where there are any.
fn offset(offset: Offset) -> String {
    let seconds = offset.seconds();
    let (sign, all) = (if seconds < 0 { '-' } else { '+' }, seconds.unsigned_abs());
    let mut text = format!("{sign}{:02}{:02}", all / 3600, all / 60 % 60);
    if !all.is_multiple_of(60) {
        let _ = write!(text, "{:02}", all % 60);
    }
    text
}

/// "20261129T140000".
fn basic(at: DateTime) -> String {
    at.strftime("%Y%m%dT%H%M%S").to_string()
}

/// Text with its marks escaped; control characters, which RFC 5545 does not allow, are blanks.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.replace("\r\n", "\n").chars() {
        match letter {
            '\\' | ';' | ',' => out.extend(['\\', letter]),
            '\n' | '\r' => out.push_str("\\n"),
            letter if letter.is_control() => out.push(' '),
            letter => out.push(letter),
        }
    }
    out
}

/// Content lines, each folded and ended by CR and LF.
#[derive(Default)]
struct Lines {
    text: String,
}

/// Octets of a line, its end left out.
const LONGEST: usize = 75;

impl Lines {
    fn add(&mut self, line: &str) {
        let mut octets = 0;
        for letter in line.chars() {
            if octets + letter.len_utf8() > LONGEST {
                self.text.push_str("\r\n ");
                octets = 1;
            }
            self.text.push(letter);
            octets += letter.len_utf8();
        }
        self.text.push_str("\r\n");
    }
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::calendar::{Kind, Planned};
    use crate::kitchen::fixture::{at, date};

    fn kept(start: &str, summary: &str) -> Kept {
        let start = at(start);
        let event = Planned {
            kind: Kind::Meal,
            about: String::new(),
            on: start.date(),
            at: Some(start.time()),
            until: None,
            zone: None,
            summary: summary.to_owned(),
            description: String::new(),
        };
        Kept { uid: "1@spence".to_owned(), sequence: 3, cancelled: false, event }
    }

    fn of(zone: &str, kept: Kept) -> Kept {
        let event = Planned { zone: Some(zone.to_owned()), ..kept.event };
        Kept { event, ..kept }
    }

    #[test]
    fn what_is_past_keeps_the_zone_it_was_printed_with() {
        let events = [kept("2026-11-30T18:30", "floats"), of("Europe/Lisbon", kept("2026-12-01T18:30", "stands"))];
        let text = calendar(("Week", "0f3a55c1"), date("2026-11-30"), &events);
        assert!(text.contains("DTSTART:20261130T183000\r\n") && text.contains("DTSTART;TZID=Europe/Lisbon:20261201T183000\r\n"), "{text}");
        assert_eq!(text.matches("BEGIN:VTIMEZONE").count(), 1);
    }

    #[test]
    fn no_line_is_longer_than_75_octets_and_unfolding_gives_the_text_back() {
        let long = "Weiße Bohnen – Püree, mit Rosmarin; und \\ Öl. ".repeat(9);
        let text = calendar(("Week", "0f3a55c1"), date("2026-11-30"), &[kept("2026-11-30T18:30", &long)]);
        assert!(text.split("\r\n").all(|line| line.len() <= 75), "{text}");
        assert!(text.replace("\r\n", "").find('\n').is_none());
        let whole = text.replace("\r\n ", "");
        let summary = whole.split("\r\n").find_map(|line| line.strip_prefix("SUMMARY:")).expect("a summary");
        assert_eq!(summary.replace("\\,", ",").replace("\\;", ";").replace("\\\\", "\\"), long);
    }

    #[test]
    fn the_stamp_follows_the_content() {
        let text = calendar(("Week", "0f3a55c1"), date("2026-11-30"), &[kept("2026-11-30T18:30", "soup")]);
        assert!(text.contains("DTSTAMP:20261130T000300Z\r\nSEQUENCE:3\r\nDTSTART:20261130T183000\r\n"), "{text}");
    }

    #[test]
    fn the_zone_has_every_change_that_the_events_need() {
        // Lisbon goes back on 25 October 2026 at 01:00 UTC, 02:00 summer time (IANA tz database).
        let events = [kept("2026-10-24T18:30", "before"), kept("2026-10-26T18:30", "after")].map(|one| of("Europe/Lisbon", one));
        let text = calendar(("Week", "0f3a55c1"), date("2026-10-24"), &events);
        for said in [
            "BEGIN:DAYLIGHT\r\nDTSTART:20260329T010000\r\nTZOFFSETFROM:+0000\r\nTZOFFSETTO:+0100\r\nTZNAME:WEST\r\n",
            "BEGIN:STANDARD\r\nDTSTART:20261025T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0000\r\nTZNAME:WET\r\n",
            "DTSTART;TZID=Europe/Lisbon:20261026T183000",
        ] {
            assert!(text.contains(said), "{said} is missing in {text}");
        }
        assert_eq!(text.matches("TZOFFSETTO").count(), 2);
    }

    #[test]
    fn a_zone_without_changes_says_its_offset() {
        let text = calendar(("Week", "0f3a55c1"), date("2026-11-30"), &[of("UTC", kept("2026-11-30T18:30", "soup"))]);
        assert!(text.contains("TZOFFSETFROM:+0000\r\nTZOFFSETTO:+0000\r\n"), "{text}");
    }
}
