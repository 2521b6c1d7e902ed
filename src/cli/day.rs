//! `day`: today's trip and session, the meals with what to take out and where it stands, what to make and when to begin, what to move
//! for tomorrow, what goes off and what is past its date.

use crate::measure::Units;
use std::fmt::Write;

use jiff::ToSpan;
use jiff::civil::Date;

use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::{Cli, Format};
use crate::kitchen::much::{called, for_whom, lies};
use crate::kitchen::{Kitchen, Names};
use crate::prep::{AT_THE_MEAL, CardDish, Moment, presence};
use crate::purchase::TripList;
use crate::telling::list::trip_cost;
use crate::telling::short::awaiting;
use crate::words::{clock, counted, day_near, day_year, in_a_sentence, listed, place};
use crate::{DayLot, DayPlan, DaySession};

pub fn run(cli: &Cli, which: Option<&str>) -> Done {
    let setting = Setting::read(cli)?;
    let on = meant(which, setting.today)?;
    let mut warnings = setting.loaded.warnings.clone();
    let weeks: Vec<usize> = match cli.week.as_deref() {
        Some(file) => vec![setting.week(Some(file))?],
        None => (0..setting.loaded.weeks.len()).collect(),
    };
    let is_in = |week: &usize| {
        let (first, last) = crate::plan::span(&setting.loaded.weeks[*week].1);
        first <= on && on <= last
    };
    let mut reckoned = Vec::new();
    for week in weeks.into_iter().filter(is_in) {
        let week = setting.reckon_week(week)?;
        warnings.extend(week.warnings.iter().filter(|warning| !warnings.contains(warning)).cloned().collect::<Vec<_>>());
        reckoned.push(week);
    }
    warn(&warnings, cli.strict)?;
    let kitchen = &setting.loaded.kitchen;
    let day = DayPlan::of(on, setting.today, kitchen, &reckoned);
    match cli.format {
        Format::Json => say(&json(&crate::json::day(&day, kitchen))?),
        Format::Text => say(&text(kitchen, &day)),
    }
}

/// Today, a date, or the next day of that name from today on: "thu", "thursday".
fn meant(which: Option<&str>, today: Date) -> Result<Date, Failure> {
    let Some(which) = which.map(str::trim) else { return Ok(today) };
    if let Ok(date) = which.parse() {
        return Ok(date);
    }
    let wanted = which.to_lowercase();
    let is_it = |day: &Date| [day.strftime("%a"), day.strftime("%A")].iter().any(|name| name.to_string().to_lowercase() == wanted);
    let mut next = (0..7_i64).filter_map(|ahead| today.checked_add(ahead.days()).ok());
    next.find(is_it).ok_or_else(|| Failure::Usage(format!("\"{which}\" is no day. Write it like \"thu\" or 2026-12-03.")))
}

fn text(kitchen: &Kitchen, day: &DayPlan) -> String {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let mut out = format!("{}: {}\n", names.household, day_year(day.on));
    super::list::short(&day.short, names, units, &mut out);
    out.extend(day.trips.iter().map(|trip| format!("\nShopping: {}\n", shopping(trip, names))));
    out.extend(day.before.iter().map(|before| format!("\n{}: {}\n", when(before.at), before.errand.text(names, units))));
    out.extend(day.sessions.iter().map(|session| cooking(session, names)));
    if day.meals.is_empty() {
        out.push_str("\nNo meal is planned or left to eat.\n");
    }
    for (meal, begin) in &day.meals {
        let name = meal.name.as_ref().map(|name| format!(": {name}")).unwrap_or_default();
        let begin = begin.map(|at| format!(" (begin by {})", clock(at))).unwrap_or_default();
        let _ = writeln!(out, "\n{}{name}{begin}", meal.label);
        if let Some(beware) = &meal.beware {
            let _ = writeln!(out, "  {}.", crate::words::sentence(&beware.to_string()));
        }
        let told = meal.not_known.iter().cloned().chain(meal.otherwise.iter().chain(&meal.choking).map(|told| format!("{told}.")));
        out.extend(told.map(|told| format!("  {told}\n")));
        out.extend(meal.dishes.iter().map(|dish| format!("  Take out: {}\n", taken_out(dish, names, kitchen.print.units))));
        out.extend(meal.text.iter().map(|text| format!("  {text}\n")));
        out.extend(meal.cook.iter().map(|cook| format!("  Cook: {}\n", cook.text())));
        out.extend(meal.added().iter().map(|line| format!("  Add: {line}\n")));
        for making in &meal.made {
            let _ = writeln!(out, "  Make: {}", names.recipe(making.recipe));
            for (index, step) in making.steps.iter().enumerate() {
                let _ = writeln!(out, "    {}  {}", index + 1, step.text(names, units));
            }
        }
    }
    if !day.cautions.is_empty() {
        let _ = writeln!(out, "\n{AT_THE_MEAL}");
        out.extend(day.cautions.iter().map(|care| format!("  - {}\n", care.with_source(names))));
    }
    out.extend(day.tonight.iter().map(|errand| format!("\n{}: {}\n", errand.when(), errand.text(names, units))));
    let lot = |lot: &DayLot| {
        let name = called(names, lot.of, &lot.amount) + &for_whom(names, lot.whose.as_ref());
        format!("  {} {name}, {}", lies(names, lot.of, &lot.amount, lot.pack.as_ref(), units), place(lot.place))
    };
    if !day.goes_off.is_empty() {
        out.push_str("\nGoes off today\n");
        out.extend(day.goes_off.iter().map(|one| lot(one) + "\n"));
    }
    if !day.past.is_empty() {
        out.push_str("\nPast its date: look, then throw away or book it\n");
        let until = |one: &DayLot| one.until.map(|until| format!(", until {}", day_near(until, day.on))).unwrap_or_default();
        out.extend(day.past.iter().map(|one| format!("{}{}\n", lot(one), until(one))));
    }
    out
}

/// "Quay market and Mill stores, 34 lines, 45.60 EUR. See spence list."
fn shopping(trip: &TripList, names: Names) -> String {
    let shops: Vec<&str> = trip.shops.iter().filter_map(|visit| visit.at).map(|stop| names.shop(stop.shop)).collect();
    let shops = if shops.is_empty() { String::new() } else { format!("{}, ", listed(&shops)) };
    let before = trip.before.as_ref().map(|before| format!("still to get before {}, ", awaiting(before))).unwrap_or_default();
    format!("{before}{shops}{}, {}. See spence list.", counted(trip.lines().count(), "line"), trip_cost(trip, names))
}

/// "14:00, to finish by 17:30: pearl barley and white-bean mash, by cook and Jo (helper). See spence prep."
fn cooking(session: &DaySession, names: Names) -> String {
    let by = session.finish_by.map(|by| format!(", to finish by {}", clock(by))).unwrap_or_default();
    let makes: Vec<String> = session.makes.iter().map(|recipe| in_a_sentence(names.recipe(*recipe))).collect();
    let people = session.people.iter().map(presence).collect::<Vec<_>>().join("; ");
    format!("\nCooking, {}{by}: {}\n  {people}. See spence prep.\n", clock(session.start), listed(&makes))
}

fn when(at: Moment) -> String {
    match at {
        Moment::On(_) => "In the evening".to_owned(),
        Moment::At(at) => clock(at),
    }
}

/// "Pearl barley, 2½ portions, flat tub in the fridge: heat to 74 °C".
fn taken_out(dish: &CardDish, names: Names, units: Units) -> String {
    let from = match (dish.place, &dish.boxed) {
        (None, _) => "straight from the pot".to_owned(),
        (Some(at), None) => place(at).to_owned(),
        (Some(at), Some(kind)) => format!("{kind} in the {}", place(at)),
    };
    let then = dish.then.text(names, units).map(|then| format!(": {then}")).unwrap_or_default();
    let whose = for_whom(names, dish.whose.as_ref());
    format!("{}{whose}, {}, {from}{then}", names.recipe(dish.recipe), dish.amount_text(units))
}
