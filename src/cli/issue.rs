//! `issue`: the earliest session not yet booked, or meals that were eaten.

use jiff::civil::Date;

use super::Cli;
use super::keeping::Keeping;
use super::outcome::{Done, Failure};
use super::printed::printed;
use crate::kitchen::Week;
use crate::pantry::book::{Bench, Booking, Verb, issue_meal, issue_session, meal_key, session_key};
use crate::prep::{Effort, Turnover};
use crate::words::{clock, day};

pub fn run(cli: &Cli, meal: Option<&str>, until: Option<Date>) -> Done {
    let mut keeping = Keeping::open(cli)?;
    match (meal, until) {
        (None, None) => session(cli, &mut keeping),
        (Some(label), _) => {
            let wanted = label.trim().to_lowercase();
            let named = |week: &Week, index: usize| {
                let meal = &week.meals[index];
                meal.label.to_lowercase() == wanted || meal.name.as_deref().is_some_and(|name| name.to_lowercase() == wanted)
            };
            meals(cli, &mut keeping, named, &format!("there is no meal \"{}\" left to book", label.trim()))
        }
        (None, Some(until)) => {
            let eaten = |week: &Week, index: usize| week.meals[index].at_time.date() <= until;
            meals(cli, &mut keeping, eaten, &format!("there is no meal up to {} left to book", day(until)))
        }
    }
}

fn session(cli: &Cli, keeping: &mut Keeping) -> Done {
    let reckoned = keeping.setting.reckon(cli)?;
    let booked = keeping.covered();
    let kitchen = &keeping.setting.loaded.kitchen;
    let (week, sessions): (String, Vec<Turnover>) = match printed(&keeping.setting.folder, reckoned.week)? {
        Some(printed) => (printed.prep.week.clone(), printed.prep.turnovers(kitchen).map_err(no_start)?),
        None => {
            let plan = reckoned.reckoning.prep(&reckoned.kitchen, reckoned.week, Effort::Low);
            (plan.week, plan.sessions.iter().map(Turnover::from).collect())
        }
    };
    let next = sessions.iter().filter(|session| !booked.contains(&session_key(session.start))).min_by_key(|session| session.start);
    let Some(session) = next else {
        return Err(Failure::Usage(format!("every session of {week} is booked.")));
    };
    let mut bench = Bench::new(kitchen, keeping.shelf.clone());
    let missing = issue_session(kitchen, &mut bench, session);
    let what = format!("cooked {} at {} ({week})", day(session.start.date()), clock(session.start));
    let covers = vec![session_key(session.start)];
    let booking = Booking { covers, ..Booking::new(keeping.setting.today, Verb::Issue, what, bench.finish()) };
    keeping.book(booking)?;
    keeping.report(cli, &missing)
}

fn no_start(start: String) -> Failure {
    Failure::Machine(format!("the printed plan has a session that starts at \"{start}\"."))
}

fn meals(cli: &Cli, keeping: &mut Keeping, chosen: impl Fn(&Week, usize) -> bool, none: &str) -> Done {
    let booked = keeping.covered();
    let weeks = keeping.setting.weeks_at_hand(cli.week.as_deref())?;
    let has_one = |week: &&Week| (0..week.meals.len()).any(|index| !booked.contains(&meal_key(&week.meals[index])) && chosen(week, index));
    let Some(week) = weeks.iter().copied().find(has_one) else {
        return Err(Failure::Usage(format!("{none} in {}.", weeks.iter().map(|week| week.name.as_str()).collect::<Vec<_>>().join(" or "))));
    };
    let reckoned = keeping.setting.reckon_week(week)?;
    let plan = (&reckoned.reckoning.makings, &reckoned.reckoning.demanded);
    let mut bench = Bench::new(&keeping.setting.loaded.kitchen, keeping.shelf.clone());
    let (mut covers, mut labels, mut missing) = (Vec::new(), Vec::new(), Vec::new());
    let mut order: Vec<usize> = (0..week.meals.len()).collect();
    order.sort_by_key(|&index| week.meals[index].at_time);
    for index in order {
        let key = meal_key(&week.meals[index]);
        if booked.contains(&key) || !chosen(week, index) {
            continue;
        }
        missing.extend(issue_meal(&keeping.setting.loaded.kitchen, &mut bench, week, plan, index));
        labels.push(week.meals[index].label.clone());
        covers.push(key);
    }
    let what = format!("eaten: {} ({})", labels.join(", "), week.name);
    let booking = Booking { covers, ..Booking::new(keeping.setting.today, Verb::Issue, what, bench.finish()) };
    keeping.book(booking)?;
    keeping.report(cli, &missing)
}
