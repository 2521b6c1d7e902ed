//! `[[session]]`: a stretch of cooking time and its people.

use jiff::ToSpan;
use jiff::civil::{DateTime, Time};
use toml::de::DeValue;

use super::names::Names;
use super::shapes;
use super::table::{Entry, Table};
use crate::kitchen::{Aim, ApplianceId, Person, Session};

pub(super) fn read_session(table: &Table<'_>, appliances: &Names) -> Option<Session> {
    let start = table.required("start", "2026-11-29T14:00", shapes::moment);
    let finish_by = read_finish(table, start);
    let people = read_people(table, start);
    let aim = table.optional("aim", shapes::one_of(&AIMS)).unwrap_or_default();
    if aim == Aim::Calm && !table.has("finish_by") {
        table.mistake("aim", "a calm session has no finish_by to keep within", "Add finish_by = \"17:30\", or leave aim out.");
    }
    let without = read_without(table, appliances);
    Some(Session { start: start?, finish_by, people, aim, without, at: table.spot() })
}

fn read_without(table: &Table<'_>, appliances: &Names) -> Vec<ApplianceId> {
    let named = table.texts("without").unwrap_or_default();
    let mut without: Vec<ApplianceId> =
        named.iter().filter_map(|(name, at)| appliances.find(name, at, table.file.found)).map(ApplianceId).collect();
    without.sort_unstable();
    without.dedup();
    without
}

static AIMS: [(&str, Aim); 2] = [("soonest", Aim::Soonest), ("calm", Aim::Calm)];

/// A clock time on the day of the start, or on the next where it is earlier; a day and time in full does as well.
fn read_finish(table: &Table<'_>, start: Option<DateTime>) -> Option<DateTime> {
    let full = table.entry("finish_by").is_some_and(|entry| match entry.value {
        DeValue::String(text) => text.contains('-'),
        DeValue::Datetime(moment) => moment.date.is_some(),
        _ => false,
    });
    let finish = if full {
        table.optional("finish_by", shapes::moment)?
    } else {
        let time = table.optional("finish_by", shapes::time)?;
        let start = start?;
        let day = if time < start.time() { start.date().tomorrow().ok()? } else { start.date() };
        day.to_datetime(time)
    };
    if start.is_some_and(|start| finish <= start) {
        table.mistake("finish_by", "finish_by is not after the start", "Make it later than the start.");
    }
    Some(finish)
}

fn read_people(table: &Table<'_>, start: Option<DateTime>) -> Vec<Person> {
    let mut people: Vec<Person> = Vec::new();
    let Some(entry) = table.entry("people") else {
        table.missing("people", "[\"cook\"]");
        return people;
    };
    let items: Vec<Entry<'_>> = match entry.value {
        DeValue::Array(items) => items.iter().map(Entry::of).collect(),
        _ => vec![entry],
    };
    if items.is_empty() {
        table.mistake(
            "people",
            "a session without people",
            "Name at least one: people = [\"cook\"]. Where nobody cooks, take the [[session]] out.",
        );
    }
    for item in items {
        let Some(person) = read_person(table, item, start) else { continue };
        if people.iter().any(|other| other.name == person.name) {
            let at = table.file.source.spot(item.start);
            table.file.found.mistake(at, format!("two people are named \"{}\"", person.name), "Give each a name of their own.");
        }
        people.push(person);
    }
    people
}

fn read_person(table: &Table<'_>, item: Entry<'_>, start: Option<DateTime>) -> Option<Person> {
    match item.value {
        DeValue::String(_) => match shapes::text(item.value) {
            Ok(name) => {
                table.file.check_name("people", item);
                Some(Person { role: name.clone(), name, from: None, until: None, may: None })
            }
            Err(error) => {
                table.file.found.wrong(table.file.source.spot(item.start), error);
                None
            }
        },
        DeValue::Table(_) => read_person_table(&Table::open(item, "[[session.people]]", table.file)?, start),
        other => {
            let cause = format!("expected a name or a table of a person, found {}", shapes::kind_of(other));
            table.file.found.mistake(table.file.source.spot(item.start), cause, "Write \"cook\" or { name = \"Jo\", as = \"helper\" }.");
            None
        }
    }
}

fn read_person_table(table: &Table<'_>, start: Option<DateTime>) -> Option<Person> {
    let name = table.required("name", "\"Jo\"", shapes::text);
    let role = table.optional("as", shapes::text);
    let from = table.optional("from", shapes::time).zip(start).and_then(|(time, start)| on_the_clock(time, start));
    let until = table.optional("until", shapes::time).zip(start).and_then(|(time, start)| on_the_clock(time, start));
    if let (Some(from), Some(until)) = (from, until)
        && from >= until
    {
        let cause = format!("until {} is not after from {}", until.strftime("%H:%M"), from.strftime("%H:%M"));
        table.mistake("until", cause, "Make until later than from.");
    } else if let (Some(start), Some(until)) = (start, until)
        && until <= start
    {
        table.mistake(
            "until",
            format!("this person leaves at {}, before the session starts", until.strftime("%H:%M")),
            "Make until later than the start.",
        );
    }
    let may = table.texts("may").map(|skills| skills.into_iter().map(|(skill, _)| skill).collect());
    let name = name?;
    Some(Person { role: role.unwrap_or_else(|| name.clone()), name, from, until, may })
}

/// A clock time near a session: on its day, or after midnight where it follows the start within half a day.
fn on_the_clock(time: Time, start: DateTime) -> Option<DateTime> {
    let same_day = start.date().to_datetime(time);
    if same_day >= start {
        return Some(same_day);
    }
    let next_day = start.date().tomorrow().ok()?.to_datetime(time);
    Some(if next_day <= start.checked_add(12.hours()).ok()? { next_day } else { same_day })
}
