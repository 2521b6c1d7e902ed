//! `issue`: the earliest session not yet booked, or meals that were eaten.

use jiff::civil::Date;

use super::Cli;
use super::keeping::{book, open, report};
use super::outcome::{Done, Failure};
use super::printed::printed;
use super::setting::Setting;
use crate::book::{Draft, Keeping, MealChoice, cooked, eaten, meals_left, next_session};
use crate::prep::Turnover;
use crate::words::day;

pub fn run(cli: &Cli, meal: Option<&str>, until: Option<Date>) -> Done {
    let (setting, mut keeping) = open(cli)?;
    let draft = match (meal, until) {
        (None, None) => session(cli, &setting, &keeping)?,
        (Some(name), _) => meals(cli, &setting, &keeping, &MealChoice::Named(name.to_owned()))?,
        (None, Some(until)) => meals(cli, &setting, &keeping, &MealChoice::Until(until))?,
    };
    book(&mut keeping, draft.booking)?;
    report(cli, keeping.new_bookings(), &draft.missing)
}

fn session(cli: &Cli, setting: &Setting, keeping: &Keeping) -> Result<Draft, Failure> {
    let reckoned = setting.reckon(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let (week, sessions): (String, Vec<Turnover>) = match printed(&setting.folder, kitchen, &reckoned.week)? {
        Some(printed) => (printed.buys.week, printed.turnovers),
        None => (reckoned.week.name.clone(), reckoned.turnovers()),
    };
    let next = next_session(&sessions, &setting.booked);
    let session = next.ok_or_else(|| Failure::Usage(format!("every session of {week} is booked.")))?;
    Ok(cooked(kitchen, &keeping.shelf, session, &week, setting.today))
}

fn meals(cli: &Cli, setting: &Setting, keeping: &Keeping, chosen: &MealChoice) -> Result<Draft, Failure> {
    let weeks = setting.weeks_at_hand(cli.week.as_deref())?;
    let has_one = |&week: &usize| !meals_left(&setting.loaded.weeks[week].1, &setting.booked, chosen).is_empty();
    let week = weeks.iter().copied().find(has_one).ok_or_else(|| none_left(setting, &weeks, chosen))?;
    let reckoned = setting.reckon_week(week)?;
    let (week, makings, demanded) = reckoned.not_booked();
    let meals = meals_left(week, &setting.booked, chosen);
    let plan = (makings, demanded);
    Ok(eaten(&setting.loaded.kitchen, &keeping.shelf, week, plan, &meals, setting.today))
}

fn none_left(setting: &Setting, weeks: &[usize], chosen: &MealChoice) -> Failure {
    let none = match chosen {
        MealChoice::Named(name) => format!("there is no meal \"{}\" left to book", name.trim()),
        MealChoice::Until(until) => format!("there is no meal up to {} left to book", day(*until)),
    };
    let weeks: Vec<&str> = weeks.iter().map(|&week| setting.loaded.weeks[week].1.name.as_str()).collect();
    Failure::Usage(format!("{none} in {}.", weeks.join(" or ")))
}
