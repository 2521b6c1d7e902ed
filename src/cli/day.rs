//! `day`: today's meals with what to take out and where it stands, what to make and when to begin, what to move for tomorrow, and
//! what goes off.

use std::fmt::Write;

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};

use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::{Cli, Format};
use crate::kitchen::{Kitchen, Names};
use crate::pantry::{StockLot, goes_off, stock};
use crate::prep::{CardDay, CardDish, CardMeal, begin_by, week_card};
use crate::words::{clock, day_year, on_shelf, place};

type Days = Vec<(CardDay, Vec<Option<DateTime>>)>;

pub fn run(cli: &Cli, which: Option<&str>) -> Done {
    let setting = Setting::read(cli)?;
    let on = meant(which, setting.today)?;
    let mut warnings = setting.loaded.warnings.clone();
    let mut days: Days = Vec::new();
    let weeks: Vec<usize> = match cli.week.as_deref() {
        Some(file) => vec![setting.week(Some(file))?],
        None => (0..setting.loaded.weeks.len()).collect(),
    };
    let is_in = |week: &usize| {
        let (first, last) = crate::plan::span(&setting.loaded.weeks[*week].1);
        first <= on && on <= last
    };
    // What goes off lies there as all that is past left it, booked or not.
    let mut that_morning: Option<Kitchen> = None;
    for week in weeks.into_iter().filter(is_in) {
        let reckoned = setting.reckon_week(week)?;
        that_morning.get_or_insert_with(|| reckoned.kitchen_on(on));
        warnings.extend(reckoned.warnings.iter().filter(|warning| !warnings.contains(warning)).cloned().collect::<Vec<_>>());
        let card = week_card(&reckoned.kitchen, &reckoned.week, &reckoned.makings);
        let mut meals: Vec<usize> = (0..reckoned.week.meals.len()).filter(|&meal| reckoned.week.meals[meal].at_time.date() == on).collect();
        meals.sort_by_key(|&meal| reckoned.week.meals[meal].at_time);
        let begins: Vec<_> = meals.iter().map(|&meal| begin_by(&reckoned.kitchen, &reckoned.week, &reckoned.makings, meal)).collect();
        days.extend(card.days.into_iter().filter(|day| day.on == on).map(|day| (day, begins.clone())));
    }
    warn(&warnings, cli.strict)?;
    let kitchen = that_morning.as_ref().unwrap_or(&setting.loaded.kitchen);
    let (names, shelf) = (kitchen.names(), stock(kitchen));
    let gone = goes_off(&shelf, on);
    let last: Vec<(&StockLot, &'static str)> =
        gone.iter().filter(|(_, lot)| lot.until == Some(on)).map(|(at, lot)| (*lot, place(*at))).collect();
    match cli.format {
        Format::Json => say(&json(&crate::json::day(on, &days, &last, names, kitchen.print.units))?),
        Format::Text => say(&text(kitchen, on, &days, &last)),
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

fn text(kitchen: &Kitchen, on: Date, days: &Days, last: &[(&StockLot, &'static str)]) -> String {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let mut out = format!("{}: {}\n", names.household, day_year(on));
    let meals: Vec<(&CardMeal, &Option<DateTime>)> = days.iter().flat_map(|(day, begins)| day.meals.iter().zip(begins)).collect();
    if meals.is_empty() {
        out.push_str("\nNo meal is planned or left to eat.\n");
    }
    for (meal, begin) in meals {
        let name = meal.name.as_ref().map(|name| format!(": {name}")).unwrap_or_default();
        let begin = begin.map(|at| format!(" (begin by {})", clock(at))).unwrap_or_default();
        let _ = writeln!(out, "\n{}{name}{begin}", meal.label);
        if let Some(beware) = &meal.beware {
            let _ = writeln!(out, "  {}.", crate::words::sentence(&beware.to_string()));
        }
        out.extend(meal.dishes.iter().map(|dish| format!("  Take out: {}\n", taken_out(dish, names, kitchen))));
        out.extend(meal.text.iter().map(|text| format!("  {text}\n")));
        out.extend(meal.cook.iter().map(|cook| format!("  Cook: {}\n", cook.text())));
        out.extend(meal.fresh.iter().map(|line| format!("  Add: {line}\n")));
        for making in &meal.made {
            let _ = writeln!(out, "  Make: {}", names.recipe(making.recipe));
            for (index, step) in making.steps.iter().enumerate() {
                let _ = writeln!(out, "    {}  {}", index + 1, step.text(names, units));
            }
        }
    }
    let tonight: Vec<String> = days.iter().flat_map(|(day, _)| &day.tonight).map(|errand| errand.text(names, units)).collect();
    out.extend(tonight.iter().map(|errand| format!("\nTonight: {errand}\n")));
    if !last.is_empty() {
        out.push_str("\nGoes off today\n");
        out.extend(last.iter().map(|(lot, at)| {
            let amount = on_shelf(&lot.amount, lot.pack.as_ref(), units);
            format!("  {amount} {}, {at}\n", names.ware(lot.of))
        }));
    }
    out
}

/// "Pearl barley, 2½ portions, flat tub in the fridge: heat to 74 °C".
fn taken_out(dish: &CardDish, names: Names, kitchen: &Kitchen) -> String {
    let units = kitchen.print.units;
    let from = match (dish.place, &dish.boxed) {
        (None, _) => "straight from the pot".to_owned(),
        (Some(at), None) => place(at).to_owned(),
        (Some(at), Some(kind)) => format!("{kind} in the {}", place(at)),
    };
    let then = dish.then.text(names, units).map(|then| format!(": {then}")).unwrap_or_default();
    format!("{}, {}, {from}{then}", names.recipe(dish.recipe), dish.amount_text(units))
}
