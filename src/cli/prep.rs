//! `prep`: the plan of the sessions, as text or JSON.
//!
//! `prep` in a terminal bears the numbers of the printed guide. It is as wide as COLUMNS says on a terminal, and 80
//! columns elsewhere, so that a pipe gets the same bytes everywhere.

mod chart;
mod text;

use super::outcome::{Done, json, say, warn};
use super::printed::printed;
use super::setting::Setting;
use super::under_way::Running;
use super::wrap::terminal_width;
use super::{Cli, Format};
use crate::json::{Past, Printed};
use crate::prep::{Effort, Moment, PrepPlan, UnderWay};

/// Columns where the output is not a terminal, or does not say how wide it is.
const WIDTH: usize = 80;
const NARROWEST: usize = 40;

pub fn run(cli: &Cli, all: bool, effort: Effort, running: &Running) -> Done {
    let setting = Setting::read(cli)?;
    let week = setting.week(cli.week.as_deref())?;
    let reckoned = setting.reckon_sessions(week)?;
    warn(&reckoned.warnings, cli.strict)?;
    let plan = match running.under_way(&setting, week, &reckoned, effort)? {
        Some(under_way) => only(reckoned.prep_under_way(effort, &under_way), &under_way),
        None => reckoned.prep(effort),
    };
    let (names, units) = (reckoned.kitchen.names(), reckoned.kitchen.print.units);
    match cli.format {
        Format::Json => {
            let week = &setting.loaded.weeks[week].1;
            let printed = if all { printed(&setting.folder, &setting.loaded.kitchen, week)? } else { None };
            let past = Past { sessions: reckoned.past_sessions(), printed: Printed::sessions_of(printed.as_ref()), as_booked: true };
            say(&json(&crate::json::prep(&plan, all.then_some(past), &reckoned.kitchen))?)
        }
        Format::Text => {
            let past = if all { reckoned.past_sessions() } else { &[] };
            say(&text::text(&plan, past, names, units, width()))
        }
    }
}

/// The rest of one session alone: what is still to be done before it, too, is for another day.
fn only(mut plan: PrepPlan, under_way: &UnderWay) -> PrepPlan {
    plan.sessions.retain(|session| session.start == under_way.start);
    plan.before.retain(|note| note.at > Moment::At(under_way.start));
    if plan.before.is_empty() {
        plan.cautions.clear();
    }
    plan
}

fn width() -> usize {
    terminal_width().unwrap_or(WIDTH).max(NARROWEST)
}
