//! Sessions that lie over one another: who, and which appliance, would be wanted in both at the same time.

use super::{Advice, PersonId, SessionPlan, Task};
use crate::kitchen::{ApplianceId, ApplianceKind, Kitchen};
use crate::measure::Celsius;
use jiff::Span;
use jiff::civil::DateTime;

/// Tells where an oven that is not said to share one temperature holds two loads at once that want it differently.
pub(super) fn tell_two_heats(kitchen: &Kitchen, session: &mut SessionPlan) {
    let ovens = kitchen.appliances.iter().enumerate().filter(|(_, one)| !one.heat && one.kind == Some(ApplianceKind::Oven));
    for (appliance, near) in ovens.map(|(index, one)| (ApplianceId(index), one.near)) {
        let loads = loads(session, appliance).unwrap_or_default();
        let apart = |a: &Load, b: &Load| a.at.zip(b.at).is_some_and(|(one, other)| (one.0 - other.0).abs() > near);
        let pairs = loads.iter().enumerate().flat_map(|(at, a)| loads[at + 1..].iter().map(move |b| (a, b)));
        let found = pairs.filter(|(a, b)| overlap(a.during, b.during) && apart(a, b)).min_by_key(|(a, b)| a.during.0.max(b.during.0));
        if let Some((a, b)) = found
            && let (Some(one), Some(other)) = (a.at, b.at)
        {
            session.advice.push(Advice::TwoHeats { appliance, one, other, from: a.during.0.max(b.during.0) });
        }
    }
}

/// Tells the later of two sessions which people and appliances the earlier one needs at the same time.
pub(super) fn tell(kitchen: &Kitchen, sessions: &mut [SessionPlan]) {
    for later in 1..sessions.len() {
        let (before, rest) = sessions.split_at_mut(later);
        let said = before.iter().filter_map(|earlier| shared(kitchen, earlier, &rest[0])).collect::<Vec<_>>();
        rest[0].advice.extend(said);
    }
}

fn shared(kitchen: &Kitchen, one: &SessionPlan, other: &SessionPlan) -> Option<Advice> {
    let people = both(&at_work(one)?, &at_work(other)?);
    let mut appliances = Vec::new();
    for (index, appliance) in kitchen.appliances.iter().enumerate() {
        let (id, room) = (ApplianceId(index), i64::from(appliance.room));
        let full = |(a, b): (&Load, &Load)| a.takes + b.takes > room || (appliance.heat && a.at != b.at);
        let (ours, theirs) = (loads(one, id)?, loads(other, id)?);
        let mut pairs = ours.iter().flat_map(|a| theirs.iter().map(move |b| (a, b)));
        if pairs.any(|pair| overlap(pair.0.during, pair.1.during) && full(pair)) {
            appliances.push(id);
        }
    }
    let wanted = !people.is_empty() || !appliances.is_empty();
    wanted.then_some(Advice::AtOnce { people, appliances, session: one.start })
}

type Stretch = (DateTime, DateTime);

struct Load {
    takes: i64,
    at: Option<Celsius>,
    during: Stretch,
}

fn overlap(one: Stretch, other: Stretch) -> bool {
    one.0 < other.1 && other.0 < one.1
}

/// Nothing where the clock runs out of years.
fn at(session: &SessionPlan, from: i64, until: i64) -> Option<Stretch> {
    let minute = |minute: i64| session.start.checked_add(Span::new().try_minutes(minute).ok()?).ok();
    Some((minute(from)?, minute(until)?))
}

fn loads(session: &SessionPlan, appliance: ApplianceId) -> Option<Vec<Load>> {
    let load = |task: &Task| {
        let during = at(session, task.start_minute, task.end_minute)?;
        Some(Load { takes: i64::from(task.takes.unwrap_or(0)), at: task.at, during })
    };
    session.tasks.iter().filter(|task| task.on.contains(&appliance)).map(load).collect()
}

/// Somebody at work, by the name that they bear in every session.
struct AtWork<'s> {
    name: &'s str,
    during: Stretch,
}

/// Everything hands-on.
fn at_work(session: &SessionPlan) -> Option<Vec<AtWork<'_>>> {
    let mut stretches = Vec::new();
    let mut add = |person: Option<PersonId>, from, until| {
        let Some(person) = person else { return Some(()) };
        stretches.push(AtWork { name: &session.person(person).name, during: at(session, from, until)? });
        Some(())
    };
    for task in &session.tasks {
        add(task.person, task.start_minute, task.start_minute + task.hands_minutes)?;
        add(task.out_person, task.out_minute(), task.end_minute)?;
    }
    Some(stretches)
}

/// The people at work in both at one time, each once.
fn both(one: &[AtWork], other: &[AtWork]) -> Vec<String> {
    let mut people: Vec<String> = Vec::new();
    for ours in one {
        let there = other.iter().any(|theirs| theirs.name == ours.name && overlap(ours.during, theirs.during));
        if there && !people.iter().any(|name| name == ours.name) {
            people.push(ours.name.to_owned());
        }
    }
    people
}
