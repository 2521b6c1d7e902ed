//! `--at 14:50 --done "1-7,A"`: today's session from that minute on, with what of its guide is done.

use std::collections::BTreeSet;

use clap::Args;
use itertools::Itertools;
use jiff::civil::{Date, DateTime, Time};

use super::outcome::Failure;
use super::setting::Setting;
use crate::Reckoning;
use crate::prep::{Effort, Mark, SetHeat, Told, UnderWay, Unmarked, unknown_marks};
use crate::words::{clock, day_clock, listed};

#[derive(Debug, Clone, Args)]
pub struct Running {
    /// Plan the rest of today's session from this time on, as in 14:50
    #[arg(long, value_name = "TIME", value_parser = read_time)]
    at: Option<Time>,
    /// What is done by then, by the numbers and letters of the printed guide, as in "1-7,A"; what waits or cooks runs on
    #[arg(long, value_name = "MARKS", requires = "at")]
    done: Option<String>,
}

fn read_time(text: &str) -> Result<Time, String> {
    Time::strptime("%H:%M", text.trim()).map_err(|_| "write a time of the day, as in 14:50".to_owned())
}

/// A session that takes longer is none that a guide hangs up for.
const LONGEST: i64 = 12;

impl Running {
    pub fn is_asked(&self) -> bool {
        self.at.is_some()
    }

    /// `None` where nothing is under way.
    ///
    /// # Errors
    /// A wrong command line: no session of today has begun by then, or marks that its guide does not have.
    pub fn under_way(&self, setting: &Setting, week: usize, reckoned: &Reckoning, effort: Effort) -> Result<Option<UnderWay>, Failure> {
        let Some(at) = self.at else { return Ok(None) };
        let starts: Vec<DateTime> = reckoned.week.sessions.iter().map(|session| session.start).collect();
        let all: Vec<DateTime> = setting.weeks().flat_map(|week| &week.sessions).map(|session| session.start).collect();
        let (start, now) = begun((&starts, &all), setting.today, at)?;
        let done = marks(self.done.as_deref().unwrap_or_default())?;
        let (told, heats) = told(setting, week, reckoned, start, effort)?;
        let unknown = unknown_marks(&told, &done);
        if !unknown.is_empty() {
            let (of, has) = (day_clock(start), known(&told));
            let unknown = unknown.iter().join(", ");
            return Err(Failure::Usage(format!("--done: the guide of {of} has no {unknown}. It has {has}.")));
        }
        let under_way = UnderWay { start, now, told, heats, done };
        let unmarked = reckoned.unmarked(&under_way);
        if unmarked.is_empty() { Ok(Some(under_way)) } else { Err(Failure::Usage(mark_too(&unmarked))) }
    }
}

/// "--done: 5 is marked done, but 2 before it is not. Mark it, too."
fn mark_too(unmarked: &[Unmarked]) -> String {
    let marks = |marks: &[Mark]| listed(&marks.iter().map(Mark::to_string).collect::<Vec<_>>());
    let number = |marks: &[Mark], one: &'static str, more: &'static str| if marks.len() == 1 { one } else { more };
    let say = |one: &Unmarked| {
        let Unmarked { done, before } = one;
        format!(
            "{} {} marked done, but {} before {} {} not. Mark {}, too.",
            marks(done),
            number(done, "is", "are"),
            marks(before),
            number(done, "it", "them"),
            number(before, "is", "are"),
            number(before, "it", "them")
        )
    };
    format!("--done: {}", unmarked.iter().map(say).join(" "))
}

/// The last of today's sessions that has begun by then, and the minute of it; past midnight of one of today's evening, too. `all` are those
/// of every week, the past ones as well.
fn begun((starts, all): (&[DateTime], &[DateTime]), today: Date, at: Time) -> Result<(DateTime, i64), Failure> {
    let todays: Vec<DateTime> = starts.iter().copied().filter(|start| start.date() == today).collect();
    let since = |moment: DateTime, start: DateTime| moment.duration_since(start).as_secs().div_euclid(60);
    let runs = |moment: DateTime, start: DateTime| (0..=LONGEST * 60).contains(&since(moment, start));
    let moments = [Some(today.to_datetime(at)), today.tomorrow().ok().map(|day| day.to_datetime(at))];
    for moment in moments.into_iter().flatten() {
        if let Some(start) = todays.iter().rev().find(|start| runs(moment, **start)) {
            return Ok((*start, since(moment, *start)));
        }
    }
    let now = today.to_datetime(at);
    let of_yesterday = all.iter().find(|start| start.date() < today && runs(now, **start));
    let there = match (of_yesterday, todays.first()) {
        (Some(start), _) => {
            let (day, date) = (day_clock(*start), start.date());
            format!("the session that is under way began on {day}. Name that day: --today {date} --at {}", clock(now))
        }
        (None, Some(start)) if *start < now => {
            let began = clock(*todays.last().unwrap_or(start));
            format!("today's session began at {began}, more than {LONGEST} hours before {}. Write a time of it", clock(now))
        }
        (None, Some(start)) => format!("today's session begins at {}", clock(*start)),
        (None, None) => match starts.iter().find(|start| start.date() > today) {
            Some(next) => format!("no session of today is open; the next is on {}", day_clock(*next)),
            None => "no session of today is open".to_owned(),
        },
    };
    Err(Failure::Usage(format!("--at: {there}.")))
}

/// The tasks and settings as the printed guide has them; where nothing was printed, as `prep` tells them.
fn told(
    setting: &Setting,
    week: usize,
    reckoned: &Reckoning,
    start: DateTime,
    effort: Effort,
) -> Result<(Vec<Told>, Vec<SetHeat>), Failure> {
    let print = setting.printed(week)?;
    let begins = start.strftime("%Y-%m-%dT%H:%M").to_string();
    let session = print.iter().flat_map(|print| &print.sessions).find(|session| session.begins() == begins);
    if let Some(session) = session {
        return Ok((session.told(&reckoned.kitchen), session.heats(&reckoned.kitchen)));
    }
    let plan = reckoned.prep(effort);
    Ok(plan.sessions.iter().find(|session| session.start == start).map(|session| (session.told(), session.heats())).unwrap_or_default())
}

/// "1-7, A, C-E": single marks and ranges of them.
fn marks(text: &str) -> Result<BTreeSet<Mark>, Failure> {
    let mut marks = BTreeSet::new();
    let mut wrong = Vec::new();
    for part in text.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()) {
        match range(part) {
            Some(range) => marks.extend(range),
            None => wrong.push(format!("\"{part}\"")),
        }
    }
    if wrong.is_empty() {
        return Ok(marks);
    }
    let wrong = wrong.join(", ");
    Err(Failure::Usage(format!("--done: cannot read {wrong}. Write numbers and letters as the guide has them, as in \"1-7,A\".")))
}

/// More than this is no guide.
const MOST: u32 = 1000;

fn range(text: &str) -> Option<Vec<Mark>> {
    let Some((from, to)) = text.split_once(['-', '\u{2013}']) else { return Some(vec![text.parse().ok()?]) };
    let ends: (Mark, Mark) = (from.trim().parse().ok()?, to.trim().parse().ok()?);
    match ends {
        (Mark::Number(from), Mark::Number(to)) if from <= to && to <= MOST => Some((from..=to).map(Mark::Number).collect()),
        (Mark::Letter(from), Mark::Letter(to)) if from <= to && to <= MOST => Some((from..=to).map(Mark::Letter).collect()),
        _ => None,
    }
}

/// "1 to 18 and A to D".
fn known(told: &[Told]) -> String {
    let of = |lettered: bool| {
        let marks: BTreeSet<Mark> = told.iter().map(|one| one.mark).filter(|mark| matches!(mark, Mark::Letter(_)) == lettered).collect();
        match (marks.first(), marks.last()) {
            (Some(first), Some(last)) if first != last => Some(format!("{first} to {last}")),
            (Some(only), _) => Some(only.to_string()),
            _ => None,
        }
    };
    let said = [of(false), of(true)].into_iter().flatten().join(" and ");
    if said.is_empty() { "nothing".to_owned() } else { said }
}
