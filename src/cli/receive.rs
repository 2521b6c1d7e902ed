//! `receive`: the next trip that is not booked yet, as last printed, with what was otherwise: said on the command line, or written
//! into a small file.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use clap::Args;
use jiff::civil::Date;
use serde::Serialize;

use super::keeping::{Keeping, lots, read_book};
use super::outcome::{Done, Failure, json, say};
use super::printed::printed;
use super::setting::Setting;
use super::sheet_files::write_all;
use super::{Cli, Format};
use crate::kitchen::{GoodsForm, Kitchen, Mistake, Spot, Week, price_changes, read_goods};
use crate::pantry::book::{
    Bench, Booking, Exceptions, Goods, Verb, covered, except, fill, goods_form, goods_of, put_all, seen_prices, trip_key,
};
use crate::purchase::{ShoppingList, TripList};
use crate::store::Disk;
use crate::words::day;

#[derive(Debug, Args)]
pub struct Otherwise {
    /// The goods-in sheet, filled in
    #[arg(value_name = "FILE", conflicts_with_all = ["sheet", "without", "instead", "also", "paid", "until", "anyway", "replan"])]
    file: Option<PathBuf>,
    /// Book nothing yet: write what would be booked into a file to be filled in
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
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
    match (&otherwise.file, &otherwise.sheet) {
        (Some(file), _) => from_sheet(cli, file),
        (None, Some(sheet)) => write_sheet(cli, otherwise, sheet),
        (None, None) => as_listed(cli, otherwise),
    }
}

/// The trip that comes next, and the week it is of.
struct Next {
    trip: TripList,
    week: String,
    from: Date,
}

fn as_listed(cli: &Cli, otherwise: &Otherwise) -> Done {
    let mut keeping = Keeping::open(cli)?;
    let next = next(cli, &keeping.setting, &keeping.covered(), otherwise)?;
    let kitchen = &keeping.setting.loaded.kitchen;
    let (mut goods, not_booked) = goods_of(kitchen, &next.trip);
    except(kitchen, &mut goods, &otherwise.exceptions()).map_err(Failure::Usage)?;
    book(cli, &mut keeping, &next, &goods, &not_booked)
}

/// The earliest trip that is not booked yet, as printed or as the plan stands.
fn next(cli: &Cli, setting: &Setting, booked: &BTreeSet<String>, otherwise: &Otherwise) -> Result<Next, Failure> {
    let reckoned = setting.reckon(cli)?;
    let plan = reckoned.reckoning.list(&reckoned.kitchen, reckoned.week, None, &[]);
    let printed = printed(&setting.folder, reckoned.week)?.map(|printed| printed.list);
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
    Ok(Next { trip, week: chosen.week.clone(), from: chosen.from })
}

impl Otherwise {
    fn exceptions(&self) -> Exceptions {
        Exceptions {
            without: self.without.clone(),
            instead: self.instead.clone(),
            also: self.also.clone(),
            paid: self.paid.clone(),
            until: self.until.clone(),
        }
    }
}

/// Books the goods, and the prices that were paid.
fn book(cli: &Cli, keeping: &mut Keeping, next: &Next, goods: &[Goods], not_booked: &[String]) -> Done {
    let kitchen = &keeping.setting.loaded.kitchen;
    let Next { trip, week, .. } = next;
    let mut bench = Bench::new(kitchen, keeping.shelf.clone());
    put_all(kitchen, &mut bench, goods, trip.on);
    let (seen, unclear) = seen_prices(kitchen, trip, goods);
    let prices = price_changes(&keeping.shops()?, &seen).map_err(|why| Failure::Machine(format!("{why}. Nothing was written.")))?;
    not_booked.iter().for_each(|line| eprintln!("warning: not booked: {line}."));
    unclear.iter().for_each(|line| eprintln!("warning: no price goes into shops.toml of {line}."));
    let changes = bench.finish();
    let what = format!("bought {}: {} ({week})", day(trip.on), lots(changes.len()));
    let booking = Booking { covers: vec![trip_key(trip.on)], prices, ..Booking::new(keeping.setting.today, Verb::Receive, what, changes) };
    keeping.book(booking)?;
    keeping.report(cli, &[])
}

/// Writes what would be booked into a file that is not there yet.
fn write_sheet(cli: &Cli, otherwise: &Otherwise, sheet: &Path) -> Done {
    if sheet.exists() {
        return Err(Failure::Usage(format!("{} is there already. Name another file, or take it away.", sheet.display())));
    }
    let setting = Setting::read(cli)?;
    let booked = covered(&read_book(&Disk::new(&setting.folder), &setting.folder)?.bookings);
    let next = next(cli, &setting, &booked, otherwise)?;
    let kitchen = &setting.loaded.kitchen;
    let (mut goods, not_booked) = goods_of(kitchen, &next.trip);
    except(kitchen, &mut goods, &otherwise.exceptions()).map_err(Failure::Usage)?;
    let text = goods_form(kitchen, (&next.week, next.from), next.trip.on, &goods, &not_booked);
    let folder = sheet.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    write_all(folder, &[(sheet.to_path_buf(), text.into_bytes())])?;
    match cli.format {
        Format::Json => {
            #[derive(Serialize)]
            struct Written {
                files: Vec<String>,
            }
            say(&json(&Written { files: vec![sheet.display().to_string()] })?)
        }
        Format::Text => say(&format!(
            "{}: what the trip of {} is about to bring\n{}\nChange what was otherwise, then: spence receive {}\n",
            next.week,
            day(next.trip.on),
            sheet.display(),
            sheet.display()
        )),
    }
}

fn from_sheet(cli: &Cli, file: &Path) -> Done {
    let mut keeping = Keeping::open(cli)?;
    let form = read_goods(&keeping.setting.loaded.kitchen, file).map_err(Failure::Mistakes)?;
    let (next, goods, not_booked) = filled_in(&keeping, &form)?;
    book(cli, &mut keeping, &next, &goods, &not_booked)
}

fn filled_in(keeping: &Keeping, form: &GoodsForm) -> Result<(Next, Vec<Goods>, Vec<String>), Failure> {
    let setting = &keeping.setting;
    let wrong =
        |at: &Spot, cause: String, remedy: &str| Failure::Mistakes(vec![Mistake { at: at.clone(), cause, remedy: remedy.to_owned() }]);
    let of_the_day = |week: &&Week| week.from == form.from;
    let Some(week) = setting.loaded.weeks.iter().map(|(_, week)| week).find(of_the_day) else {
        return Err(wrong(&form.from_at, format!("no week has from = {}", form.from), "Write the from of the week that the trip is of."));
    };
    if keeping.covered().contains(&trip_key(form.trip)) {
        return Err(wrong(
            &form.trip_at,
            format!("the trip of {} is booked already", day(form.trip)),
            "Take it back first, with: spence undo.",
        ));
    }
    let reckoned = setting.reckon_week(week)?;
    let plan = reckoned.reckoning.list(&reckoned.kitchen, week, None, &[]);
    let printed = printed(&setting.folder, week)?.map(|printed| printed.list);
    let trips: Vec<&TripList> = printed.iter().chain([&plan]).flat_map(|list| &list.trips).filter(|trip| trip.on == form.trip).collect();
    let best = best_fit(&setting.loaded.kitchen, &trips, form);
    match best {
        None => Err(wrong(&form.trip_at, format!("{} has no trip on {}", week.name, form.trip), "Write the day of one of its trips.")),
        Some(Err(mistakes)) => Err(Failure::Mistakes(mistakes)),
        Some(Ok((trip, goods, not_booked))) => Ok((Next { trip, week: week.name.clone(), from: week.from }, goods, not_booked)),
    }
}

type Fitted = Result<(TripList, Vec<Goods>, Vec<String>), Vec<Mistake>>;

/// The sheet may have been written from the print or from the plan: the trip of which most lines stand unchanged is meant.
fn best_fit(kitchen: &Kitchen, trips: &[&TripList], form: &GoodsForm) -> Option<Fitted> {
    let mut best: Option<(usize, Fitted)> = None;
    for trip in trips {
        let (mut goods, not_booked) = goods_of(kitchen, trip);
        let filled = fill(kitchen, &mut goods, form);
        let as_listed = || goods.iter().filter(|bought| !bought.packs.is_empty()).count();
        let unchanged = if filled.is_ok() { as_listed() + 1 } else { 0 };
        let fitted = filled.map(|()| ((*trip).clone(), goods, not_booked));
        if best.as_ref().is_none_or(|(most, _)| unchanged > *most) {
            best = Some((unchanged, fitted));
        }
    }
    best.map(|(_, fitted)| fitted)
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
