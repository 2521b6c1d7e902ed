//! `issue`: the earliest session not yet booked, meals that were eaten, and what was eaten beside the plan.

use clap::Args;
use jiff::civil::{Date, DateTime};

use super::Cli;
use super::booked_before::{tell_of_session, tell_of_trip};
use super::keeping::{book, open_with_prices, report, strictly, tell_of_a_day_to_come};
use super::outcome::{Done, Failure, remark, warn};
use super::printed::tell_strange_paper;
use super::setting::Setting;
use super::waste::not_wasted;
use crate::Reckoning;
use crate::book::{Draft, Eaten, Keeping, cooked, eaten, is_called, meal_eaten, meals_until, next_session, otherwise_than_printed};
use crate::kitchen::{Mistake, Spot, Warning};
use crate::plan::span;
use crate::prep::Turnover;
use crate::sheets::guide_stem;
use crate::words::{clock, day};

#[derive(Debug, Args)]
pub struct Eating {
    /// Instead: this meal, as in "mon supper": the nearest on or before today, else the next; may be given again
    #[arg(long, value_name = "MEAL", conflicts_with_all = ["until", "anyway", "replan"])]
    meal: Vec<String>,
    /// Instead: every meal up to that day
    #[arg(long, value_name = "DATE", value_parser = super::a_day, conflicts_with_all = ["anyway", "replan"])]
    until: Option<Date>,
    /// What was eaten beside the plan, as in "3 eggs" or "2 portions recipe:leek-soup"
    #[arg(long, value_name = "LINE", allow_hyphen_values = true, value_parser = super::a_line, conflicts_with_all = ["anyway", "replan"])]
    also: Vec<String>,
    /// The session as printed, although the plan has changed since
    #[arg(long, conflicts_with = "replan")]
    anyway: bool,
    /// The session as the plan stands now, although another was printed
    #[arg(long)]
    replan: bool,
}

pub fn run(cli: &Cli, eating: &Eating) -> Done {
    let (setting, mut keeping) = open_with_prices(cli)?;
    let meals = match (eating.until, eating.meal.is_empty()) {
        (Some(until), _) => Some(up_to(cli, &setting, until)?),
        (None, false) => Some(named(cli, &setting, &eating.meal)?),
        (None, true) if !eating.also.is_empty() => Some(Vec::new()),
        (None, true) => None,
    };
    let draft = match meals {
        Some(meals) => {
            let draft = at_table(cli, &setting, &keeping, &meals, &eating.also)?;
            // Nothing is told of a booking that is refused.
            match eating.until {
                Some(until) => tell_of_a_day_to_come(cli, until, setting.today, "its meals are booked as eaten")?,
                None => tell_of_meals_to_come(cli, &setting, &meals)?,
            }
            draft
        }
        None => session(cli, &setting, &keeping, eating)?,
    };
    let missing = draft.missing_words();
    book(&mut keeping, draft.booking)?;
    report(cli, keeping.new_bookings(), &missing)
}

fn session(cli: &Cli, setting: &Setting, keeping: &Keeping, eating: &Eating) -> Result<Draft, Failure> {
    let place = setting.week(cli.week.as_deref())?;
    let reckoned = setting.reckon_week(place)?;
    strictly(cli, &reckoned)?;
    let kitchen = &setting.loaded.kitchen;
    let planned: Vec<Turnover> = reckoned.turnovers();
    let printed = if eating.replan { None } else { setting.printed(place)? };
    let (week, sessions) = match &printed {
        Some(printed) => {
            // One that was written since it was printed is booked as it is planned.
            let is_printed = |start: DateTime| printed.turnovers.iter().any(|printed| printed.start == start);
            let since = planned.iter().filter(|session| !is_printed(session.start));
            (printed.buys.week.clone(), printed.turnovers.iter().chain(since).cloned().collect())
        }
        None => (reckoned.week.name.clone(), planned.clone()),
    };
    let next = next_session(&sessions, &setting.booked);
    let none = || match setting.loaded.weeks[place].1.sessions.is_empty() {
        true => format!("{week} has no session. To book what was eaten: spence issue --until DATE."),
        false => format!("every session of {week} is booked."),
    };
    let session = next.ok_or_else(|| Failure::Usage(none()))?;
    if let Some(printed) = &printed {
        tell_strange_paper(&setting.folder, &format!("{}.pdf", guide_stem(session.start, None)), printed);
    }
    // Who booked a meal of it as eaten has cooked it as it was printed.
    let is_eaten_of = || {
        let later = setting.booked.lacks().into_iter().filter(|lack| lack.at > session.start);
        let recipes: Vec<_> = later.filter_map(|lack| lack.recipe).collect();
        session.batches.iter().any(|batch| recipes.contains(&kitchen.recipes[batch.recipe].id))
    };
    if printed.is_some() && !eating.anyway && !is_eaten_of() {
        let now = planned.iter().find(|now| now.start == session.start);
        // One that is past is planned no more, and was done as it was printed.
        let differing =
            if now.is_none() && session.start.date() < setting.today { Vec::new() } else { otherwise_than_printed(kitchen, session, now) };
        if !differing.is_empty() {
            return Err(changed(session.start, &differing));
        }
    }
    tell_of_a_day_to_come(cli, session.start.date(), setting.today, "the session is booked as cooked")?;
    tell_what_is_out_of_order(cli, &reckoned, session.start)?;
    let last_day = span(&reckoned.week).1;
    let file = &setting.loaded.weeks[place].1;
    let draft = cooked(kitchen, (&setting.booked, &keeping.shelf), session, (&week, last_day, file), setting.today);
    tell_of_trip(setting, &reckoned, &draft.missing, session.start, "the session");
    Ok(draft)
}

/// A session that cannot have been cooked as planned; with --strict it is not booked.
fn tell_what_is_out_of_order(cli: &Cli, reckoned: &Reckoning, start: DateTime) -> Done {
    let told = |mistake: Mistake| {
        let text = format!("{}. The session is booked as cooked all the same. Where that is not meant: spence undo.", mistake.cause);
        Warning::Note { at: Some(mistake.at), text }
    };
    warn(&reckoned.out_of_order_at(start).into_iter().map(told).collect::<Vec<_>>(), cli.strict)
}

fn changed(start: DateTime, differing: &[String]) -> Failure {
    let lines: String = differing.iter().map(|line| format!("  {line}\n")).collect();
    Failure::Usage(format!(
        "the plan has changed since the session of {} at {} was printed:\n{lines}Add --anyway to book it as printed, or --replan to book it as the plan stands.",
        day(start.date()),
        clock(start)
    ))
}

/// A week's place among those read, and where its meals stand in its file.
type Meals = Vec<(usize, Vec<Spot>)>;

/// All weeks, or the one that is named.
fn weeks(cli: &Cli, setting: &Setting) -> Result<Vec<usize>, Failure> {
    match cli.week.as_deref() {
        Some(file) => Ok(vec![setting.week(Some(file))?]),
        None => Ok((0..setting.loaded.weeks.len()).collect()),
    }
}

fn named(cli: &Cli, setting: &Setting, names: &[String]) -> Result<Meals, Failure> {
    let weeks = weeks(cli, setting)?;
    let weeks: Vec<_> = weeks.iter().map(|&week| (week, &setting.loaded.weeks[week].1)).collect();
    let mut meals: Meals = Vec::new();
    for name in names {
        let found = meal_eaten(&weeks, &setting.booked, setting.today, name);
        let (week, at) = found.map_err(|known| no_such_meal(setting, name, "left to book", &known))?;
        match meals.iter_mut().find(|(known, _)| *known == week) {
            Some((_, spots)) if spots.contains(&at) => remark(&format!("\"{}\" is named twice, and booked once.", name.trim())),
            Some((_, spots)) => spots.push(at),
            None => meals.push((week, vec![at])),
        }
    }
    Ok(meals)
}

fn tell_of_meals_to_come(cli: &Cli, setting: &Setting, meals: &Meals) -> Done {
    for (week, spots) in meals {
        for meal in setting.loaded.weeks[*week].1.meals.iter().filter(|meal| spots.contains(&meal.at)) {
            let what = format!("{} is booked as eaten", meal.label);
            tell_of_a_day_to_come(cli, meal.at_time.date(), setting.today, &what)?;
        }
    }
    Ok(())
}

/// "there is no meal "fri tea" left to book. There are: mon supper, tue lunch. That of Fri 4 Dec is skipped."
pub fn no_such_meal(setting: &Setting, name: &str, which: &str, known: &[String]) -> Failure {
    let mut text = format!("there is no meal \"{}\" {which}.", name.trim());
    if !known.is_empty() {
        text.push_str(&format!(" There are: {}.", known.join(", ")));
    }
    let mut called: Vec<_> = setting.weeks().flat_map(|week| &week.meals).filter(|meal| is_called(meal, name)).collect();
    called.sort_by_key(|meal| meal.at_time);
    for meal in called {
        let why = match () {
            () if meal.skip => "is skipped",
            () if setting.booked.has_meal(meal) => "is booked",
            () if meal.at_time.date() < setting.today => "is past",
            () if meal.open.is_some() => "is open: nothing is written for it yet",
            () => continue,
        };
        text.push_str(&format!(" That of {} {why}.", day(meal.at_time.date())));
    }
    Failure::Usage(text)
}

fn up_to(cli: &Cli, setting: &Setting, until: Date) -> Result<Meals, Failure> {
    let weeks = weeks(cli, setting)?;
    let of_week = |&week: &usize| (week, meals_until(&setting.loaded.weeks[week].1, &setting.booked, until));
    let meals: Meals = weeks.iter().map(of_week).filter(|(_, spots)| !spots.is_empty()).collect();
    if meals.is_empty() {
        let of = match weeks.as_slice() {
            [week] => format!(" in {}", setting.loaded.weeks[*week].1.name),
            _ => String::new(),
        };
        return Err(Failure::Usage(format!("there is no meal up to {} left to book{of}.", day(until))));
    }
    Ok(meals)
}

fn at_table(cli: &Cli, setting: &Setting, keeping: &Keeping, meals: &Meals, also: &[String]) -> Result<Draft, Failure> {
    let mut reckoned: Vec<(Reckoning, Vec<usize>)> = Vec::new();
    for (week, spots) in meals {
        let reckoning = setting.reckon_week(*week)?;
        strictly(cli, &reckoning)?;
        let (not_booked, ..) = reckoning.not_booked();
        let mut places: Vec<usize> = (0..not_booked.meals.len()).filter(|&meal| spots.contains(&not_booked.meals[meal].at)).collect();
        places.sort_by_key(|&meal| not_booked.meals[meal].at_time);
        reckoned.push((reckoning, places));
    }
    let weeks: Vec<Eaten> = reckoned
        .iter()
        .map(|(reckoning, meals)| {
            let (week, makings, demanded) = reckoning.not_booked();
            Eaten { week, makings, demanded, meals }
        })
        .collect();
    let draft = eaten(&setting.loaded.kitchen, &keeping.shelf, &weeks, (also, setting.last_day(cli)), setting.today)
        .map_err(|(line, not)| not_wasted(cli, setting, line, &not))?;
    for ((place, _), (reckoned, meals)) in meals.iter().zip(&reckoned) {
        let week = reckoned.not_booked().0;
        let printed = setting.printed(*place)?;
        if let Some(last) = meals.iter().map(|&meal| week.meals[meal].at_time).max() {
            tell_of_trip(setting, reckoned, &draft.missing, last, "the meals");
            tell_of_session(setting.today, printed.as_ref(), reckoned, &draft.missing, last);
        }
    }
    Ok(draft)
}
