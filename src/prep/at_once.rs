//! Sessions that lie over one another: who, and which appliance, would be wanted in both at the same time.

use super::{SessionPlan, Task};
use crate::kitchen::Kitchen;
use crate::words::{listed, sentence};
use jiff::civil::DateTime;

/// Tells the later of two sessions which people and appliances the earlier one needs at the same time.
pub(super) fn tell(kitchen: &Kitchen, sessions: &mut [SessionPlan]) {
    for later in 1..sessions.len() {
        let (before, rest) = sessions.split_at_mut(later);
        let said = before.iter().filter_map(|earlier| shared(kitchen, earlier, &rest[0])).collect::<Vec<_>>();
        rest[0].advice.extend(said);
    }
}

fn shared(kitchen: &Kitchen, one: &SessionPlan, other: &SessionPlan) -> Option<String> {
    let mut wanted = both(&at_work(one)?, &at_work(other)?);
    for appliance in &kitchen.appliances {
        let room = i64::from(appliance.room);
        let full = |(a, b): (&Load, &Load)| a.takes + b.takes > room || (appliance.heat && a.celsius != b.celsius);
        let (ours, theirs) = (loads(one, &appliance.name)?, loads(other, &appliance.name)?);
        let mut pairs = ours.iter().flat_map(|a| theirs.iter().map(move |b| (a, b)));
        if pairs.any(|pair| overlap(pair.0.during, pair.1.during) && full(pair)) {
            wanted.push(format!("the {}", appliance.name));
        }
    }
    let verb = if wanted.len() == 1 { "is" } else { "are" };
    let start: DateTime = one.start.parse().ok()?;
    let day = start.strftime("%a %-d %b %H:%M");
    (!wanted.is_empty())
        .then(|| format!("{} {verb} wanted by the session of {day} at the same time. Move one of the two.", sentence(&listed(&wanted))))
}

type Stretch = (DateTime, DateTime);

struct Load {
    takes: i64,
    celsius: Option<f64>,
    during: Stretch,
}

fn overlap(one: Stretch, other: Stretch) -> bool {
    one.0 < other.1 && other.0 < one.1
}

fn at(session: &SessionPlan, from: i64, until: i64) -> Option<Stretch> {
    let start: DateTime = session.start.parse().ok()?;
    let minute = |minute: i64| start.checked_add(jiff::Span::new().try_minutes(minute).ok()?).ok();
    Some((minute(from)?, minute(until)?))
}

fn loads(session: &SessionPlan, appliance: &str) -> Option<Vec<Load>> {
    let holds = |task: &&Task| task.appliance.iter().chain(&task.also).any(|name| name == appliance);
    let load = |task: &Task| {
        let during = at(session, task.start_minute, task.end_minute)?;
        Some(Load { takes: i64::from(task.takes.unwrap_or(0)), celsius: task.at_celsius, during })
    };
    session.tasks.iter().filter(holds).map(load).collect()
}

/// (who, when) of everything hands-on.
fn at_work(session: &SessionPlan) -> Option<Vec<(String, Stretch)>> {
    let mut stretches = Vec::new();
    for task in &session.tasks {
        let hands = (&task.person, task.start_minute, task.start_minute + task.hands_minutes);
        let out = (&task.out_person, task.end_minute - task.out_minutes, task.end_minute);
        for (person, from, until) in [hands, out] {
            if let Some(person) = person {
                stretches.push((person.clone(), at(session, from, until)?));
            }
        }
    }
    Some(stretches)
}

/// The people at work in both at one time, each once.
fn both(one: &[(String, Stretch)], other: &[(String, Stretch)]) -> Vec<String> {
    let mut people: Vec<String> = Vec::new();
    for (name, during) in one {
        let there = other.iter().any(|(theirs, when)| theirs == name && overlap(*during, *when));
        if there && !people.contains(name) {
            people.push(name.clone());
        }
    }
    people
}
