//! `receive`: the next trip that is not booked yet, as last printed, with what was otherwise.

use clap::Args;
use jiff::civil::Date;

use super::Cli;
use super::keeping::Keeping;
use super::outcome::{Done, Failure};
use super::printed::printed;
use super::words::day;
use crate::pantry::book::{Bench, Booking, Exceptions, Verb, receive, trip_key};
use crate::purchase::{ShoppingList, TripList};

#[derive(Debug, Args)]
pub struct Otherwise {
    /// A food of the list that was not bought
    #[arg(long, value_name = "FOOD")]
    without: Vec<String>,
    /// Another amount than on the list, as in "feta=2 x 150 g"
    #[arg(long, value_name = "FOOD=AMOUNT", value_parser = pair)]
    instead: Vec<(String, String)>,
    /// Something that is not on the list, as in "1 kg onions at 1.20"
    #[arg(long, value_name = "LINE")]
    also: Vec<String>,
    /// What a food of the list cost, as in "olive oil=5.49"
    #[arg(long, value_name = "FOOD=PRICE", value_parser = pair)]
    paid: Vec<(String, String)>,
    /// The date on the pack, as in "feta=2026-12-04"
    #[arg(long, value_name = "FOOD=DATE", value_parser = dated)]
    until: Vec<(String, Date)>,
    /// As printed, although the plan has changed since
    #[arg(long, conflicts_with = "replan")]
    anyway: bool,
    /// As the plan stands now, although another was printed
    #[arg(long)]
    replan: bool,
}

fn pair(text: &str) -> Result<(String, String), String> {
    let (food, value) = text.split_once('=').ok_or("write a food, an equals sign and a value: feta=2 x 150 g")?;
    Ok((food.trim().to_owned(), value.trim().to_owned()))
}

fn dated(text: &str) -> Result<(String, Date), String> {
    let (food, value) = pair(text)?;
    let date = value.parse().map_err(|_| format!("\"{value}\" is not a date like 2026-12-04"))?;
    Ok((food, date))
}

pub fn run(cli: &Cli, otherwise: &Otherwise) -> Done {
    let mut keeping = Keeping::open(cli)?;
    let booked = keeping.covered();
    let reckoned = keeping.setting.reckon(cli)?;
    let plan = reckoned.reckoning.list(reckoned.kitchen, reckoned.week, None, &[]);
    let printed = printed(&keeping.setting.folder, reckoned.week)?.map(|printed| printed.list);
    let chosen = if otherwise.replan { &plan } else { printed.as_ref().unwrap_or(&plan) };
    let open =
        |list: &ShoppingList| list.trips.iter().filter(|trip| !booked.contains(&trip_key(trip.on))).min_by_key(|trip| trip.on).cloned();
    let Some(trip) = open(chosen) else {
        return Err(Failure::Usage(format!("every trip of {} is booked.", chosen.week)));
    };
    if printed.is_some() && !otherwise.anyway && !otherwise.replan {
        let now = plan.trips.iter().find(|now| now.on == trip.on);
        let differences = differences(&trip, now);
        if !differences.is_empty() {
            return Err(Failure::Usage(format!(
                "the plan has changed since the trip of {} was printed:\n{}Add --anyway to book it as printed, or --replan to book it as the plan stands.",
                day(trip.on),
                differences.iter().map(|line| format!("  {line}\n")).collect::<String>()
            )));
        }
    }
    let exceptions = Exceptions {
        without: otherwise.without.clone(),
        instead: otherwise.instead.clone(),
        also: otherwise.also.clone(),
        paid: otherwise.paid.clone(),
        until: otherwise.until.clone(),
    };
    let mut bench = Bench::new(reckoned.kitchen, keeping.shelf.clone());
    let not_booked = receive(reckoned.kitchen, &mut bench, &trip, &exceptions).map_err(Failure::Usage)?;
    not_booked.iter().for_each(|line| eprintln!("warning: not booked: {line}."));
    let changes = bench.finish();
    let what = format!("bought {}: {} ({})", day(trip.on), super::keeping::lots(changes.len()), chosen.week);
    let booking = Booking { covers: vec![trip_key(trip.on)], ..Booking::new(keeping.setting.today, Verb::Receive, what, changes) };
    keeping.book(booking)?;
    keeping.report(cli, &[])
}

/// What is bought of each food, where the two say otherwise.
fn differences(printed: &TripList, now: Option<&TripList>) -> Vec<String> {
    let bought = |trip: &TripList| {
        let lines = trip.shops.iter().flat_map(|shop| &shop.sections).flat_map(|section| section.lines.clone());
        lines
            .map(|line| {
                let packs = line.packs.iter().map(|pack| match &pack.amount {
                    Some(amount) => format!("{} {} loose", amount.base(), amount.dimension()),
                    None => format!("{} × {}", pack.count, pack.size),
                });
                let packs: Vec<String> = packs.collect();
                (line.food, if packs.is_empty() { "as needed".to_owned() } else { packs.join(" + ") })
            })
            .collect::<std::collections::BTreeMap<String, String>>()
    };
    let (printed, now) = (bought(printed), now.map(bought).unwrap_or_default());
    let foods: std::collections::BTreeSet<&String> = printed.keys().chain(now.keys()).collect();
    let said = |of: Option<&String>| of.map_or("none", String::as_str).to_owned();
    let differs = |food: &&String| printed.get(*food) != now.get(*food);
    foods
        .into_iter()
        .filter(differs)
        .map(|food| format!("{food}: printed {}, now {}", said(printed.get(food)), said(now.get(food))))
        .collect()
}
