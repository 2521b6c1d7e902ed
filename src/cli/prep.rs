//! `prep`: the plan of the sessions, as text or JSON.

mod chart;
mod text;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

use super::outcome::{Done, json, say};
use super::setting::Setting;
use super::wrap::terminal_width;
use super::{Cli, Format};
use crate::prep::Effort;
use crate::words::day;

/// Columns where the output is not a terminal, or does not say how wide it is.
const WIDTH: usize = 80;
const NARROWEST: usize = 40;

pub fn run(cli: &Cli, effort: Effort) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    reckoned.warn(cli)?;
    let plan = reckoned.reckoning.prep(&reckoned.kitchen, reckoned.week, effort);
    match cli.format {
        Format::Json => say(&json(&plan)?),
        Format::Text => say(&text::text(&plan, &reckoned.kitchen.household.name, reckoned.kitchen.print.units, width())),
    }
}

fn width() -> usize {
    terminal_width().unwrap_or(WIDTH).max(NARROWEST)
}

/// The time of day `minutes` after `start`.
fn clock(start: &str, minutes: i64) -> String {
    let start: Result<DateTime, _> = start.parse();
    start.map_or_else(|_| format!("+{minutes} min"), |start| start.saturating_add(minutes.minutes()).strftime("%H:%M").to_string())
}

/// `2026-11-29T14:00` as "Sun 29 Nov 14:00", `2026-11-29` as "Sun 29 Nov".
fn moment(text: &str) -> String {
    match (text.contains('T').then(|| text.parse::<DateTime>()), text.parse::<Date>()) {
        (Some(Ok(at)), _) => format!("{} {}", day(at.date()), at.strftime("%H:%M")),
        (_, Ok(date)) => day(date),
        _ => text.to_owned(),
    }
}
