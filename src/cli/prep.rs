//! `prep`: the plan of the sessions, as text or JSON.

mod chart;
mod text;

use super::outcome::{Done, json, say, warn};
use super::setting::Setting;
use super::wrap::terminal_width;
use super::{Cli, Format};
use crate::prep::Effort;

/// Columns where the output is not a terminal, or does not say how wide it is.
const WIDTH: usize = 80;
const NARROWEST: usize = 40;

pub fn run(cli: &Cli, effort: Effort) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    warn(&reckoned.warnings, cli.strict)?;
    let plan = reckoned.prep(effort);
    let (names, units) = (reckoned.kitchen.names(), reckoned.kitchen.print.units);
    match cli.format {
        Format::Json => say(&json(&crate::json::prep(&plan, &reckoned.kitchen))?),
        Format::Text => say(&text::text(&plan, names, units, width())),
    }
}

fn width() -> usize {
    terminal_width().unwrap_or(WIDTH).max(NARROWEST)
}
