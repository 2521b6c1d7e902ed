//! `receive`: the next trip that is not booked yet, as last printed, with what was otherwise: said on the command line, or written
//! into a small file.

use std::path::{Path, PathBuf};

use clap::Args;
use jiff::civil::Date;

use super::keeping::{book, open, report, strictly, tell_of_a_day_to_come};
use super::outcome::{Done, Failure, json, remark, say, warn};
use super::printed::{printed, tell_strange_paper};
use super::setting::Setting;
use super::sheet_files::write_all;
use super::{Cli, Format};
use crate::book::{
    As, Booking, Exceptions, FilledIn, Goods, InWeek, Keeping, NextTrip, NoTrip, at_their_new_days, beside_the_plan, bought, bought_beside,
    except, filled_in, goods_form, next_trip, open_goods, printed_trips_moved, read_ledger, seen_prices, week_of_sheet,
};
use crate::json::Printed;
use crate::kitchen::{GoodsForm, Kitchen, Names, Warning, read_goods};
use crate::plan::span;
use crate::purchase::{TripBuys, WeekBuys};
use crate::words::{day, day_near, day_year};
use crate::{PastTrips, Shown};

/// A trip is booked whenever it was.
const EVERY_TRIP: Shown = Shown { past: PastTrips::AsPrinted, compared: false };

#[derive(Debug, Args)]
pub struct Otherwise {
    /// The goods-in sheet, filled in; - for standard input
    #[arg(value_name = "FILE", conflicts_with_all = ["sheet", "without", "instead", "also", "paid", "until", "on", "anyway", "replan"])]
    file: Option<PathBuf>,
    /// Book nothing yet: write what would be booked into a file to be filled in
    #[arg(long, value_name = "FILE", conflicts_with = "on")]
    sheet: Option<PathBuf>,
    /// A food of the list that was not bought
    #[arg(long, value_name = "FOOD")]
    without: Vec<String>,
    /// Another amount than on the list, as in "feta=2 x 150 g"
    #[arg(long, value_name = "FOOD=AMOUNT", value_parser = pair)]
    instead: Vec<(String, String)>,
    /// Something that is not on the list, as in "1 kg onions at 1.20"
    #[arg(long, value_name = "LINE", allow_hyphen_values = true, value_parser = super::a_line)]
    also: Vec<String>,
    /// The day it was bought: with --also that purchase alone, else the next trip as of that day
    #[arg(long, value_name = "DATE", value_parser = super::a_day)]
    on: Option<Date>,
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

fn as_listed(cli: &Cli, otherwise: &Otherwise) -> Done {
    let (setting, keeping) = open(cli)?;
    let beside = !otherwise.also.is_empty();
    if let Some(on) = otherwise.on.filter(|_| beside) {
        return bought_beside_the_plan(cli, &setting, keeping, otherwise, on);
    }
    if beside && (setting.loaded.weeks.is_empty() || (otherwise.is_beside_alone() && is_over(cli, &setting)?)) {
        return bought_beside_the_plan(cli, &setting, keeping, otherwise, setting.today);
    }
    let next = match next(cli, &setting, otherwise)? {
        Ok(next) => NextTrip { as_of: otherwise.on.unwrap_or(next.as_of), ..next },
        Err(NoTrip::AllBooked { .. }) if beside => return bought_beside_the_plan(cli, &setting, keeping, otherwise, setting.today),
        Err(none) => return Err(Failure::Usage(no_trip(&none, setting.loaded.kitchen.names()))),
    };
    let kitchen = &setting.loaded.kitchen;
    let (mut goods, not_booked) = open_goods(&kitchen.foods, &kitchen.rules, &next.trip, &setting.booked);
    except(kitchen, &mut goods, &next.trip.shops, &otherwise.exceptions()).map_err(Failure::Usage)?;
    // Nothing is told of a booking that is refused.
    match otherwise.on {
        Some(on) => {
            tell_of_a_trip_to_come(cli, on, setting.today)?;
            tell_of_a_day_long_before(cli, on, next.trip.on)?;
        }
        None => tell_of_a_trip_ahead(cli, next.trip.on, setting.today)?,
    }
    if beside && next.as_of < setting.today {
        remark(&format!("what stands in --also is booked with the trip, as bought on {}. For another day: --on DATE.", day(next.as_of)));
    }
    put_down(cli, &setting, keeping, &next, (&goods, None), &not_booked)
}

/// Is the week that is meant wholly past? Nothing of it is open any more.
fn is_over(cli: &Cli, setting: &Setting) -> Result<bool, Failure> {
    let week = setting.week(cli.week.as_deref())?;
    Ok(span(&setting.loaded.weeks[week].1).1 < setting.today)
}

fn tell_of_a_trip_to_come(cli: &Cli, on: Date, today: Date) -> Done {
    tell_of_a_day_to_come(cli, on, today, "what is booked as of it counts as on the shelf from now on")
}

/// The next trip, where nobody said a day: shopping is often done the evening before.
fn tell_of_a_trip_ahead(cli: &Cli, on: Date, today: Date) -> Done {
    let is_tomorrow = today.tomorrow().is_ok_and(|tomorrow| on <= tomorrow);
    if is_tomorrow { Ok(()) } else { tell_of_a_trip_to_come(cli, on, today) }
}

/// Nobody shops for a trip earlier than a week before it: a slip of month or year.
const LONG_BEFORE_DAYS: i64 = 7;

fn tell_of_a_day_long_before(cli: &Cli, on: Date, trip: Date) -> Done {
    if trip.duration_since(on).as_hours() <= LONG_BEFORE_DAYS * 24 {
        return Ok(());
    }
    let text = format!(
        "{} is long before the trip, {}: what is booked as of it counts its keeping from then. Where that is not meant: spence undo.",
        day_year(on),
        day_year(trip)
    );
    warn(&[Warning::Note { at: None, text }], cli.strict)
}

/// Dates on packs that are past on the day of buying.
fn tell_of_past_dates(cli: &Cli, kitchen: &Kitchen, goods: &[Goods], on: Date) -> Done {
    let past = goods.iter().filter_map(|bought| Some((bought, bought.until.filter(|until| *until < on)?)));
    let told = |(bought, until): (&Goods, Date)| {
        let (food, until) = (kitchen.names().food(bought.food), day_near(until, on));
        let text = format!(
            "{food}: the date on the pack, {until}, is past on the day of buying, {}. Where that is not meant: spence undo.",
            day(on)
        );
        Warning::Note { at: None, text }
    };
    warn(&past.map(told).collect::<Vec<_>>(), cli.strict)
}

/// Packs that were named by a word alone, each with what it was taken to hold.
fn tell_of_sizes(goods: &[Goods]) {
    let told = |said: &String| remark(&format!("{said}. Where that is not meant: spence undo."));
    goods.iter().filter_map(|bought| bought.guessed.as_ref()).for_each(told);
}

/// A purchase that belongs to no trip.
fn bought_beside_the_plan(cli: &Cli, setting: &Setting, mut keeping: Keeping, otherwise: &Otherwise, on: Date) -> Done {
    let kitchen = &setting.loaded.kitchen;
    let goods = beside_the_plan(kitchen, &otherwise.exceptions()).map_err(Failure::Usage)?;
    tell_of_a_trip_to_come(cli, on, setting.today)?;
    tell_of_past_dates(cli, kitchen, &goods, on)?;
    tell_of_sizes(&goods);
    let booking = bought_beside(kitchen, &keeping.shelf, &goods, on, setting.today);
    book(&mut keeping, booking)?;
    report(cli, keeping.new_bookings(), &[])
}

fn next(cli: &Cli, setting: &Setting, otherwise: &Otherwise) -> Result<Result<NextTrip, NoTrip>, Failure> {
    let place = setting.week(cli.week.as_deref())?;
    let reckoned = setting.reckon_week(place)?;
    strictly(cli, &reckoned)?;
    let plan = WeekBuys::from(&reckoned.list(EVERY_TRIP));
    let printed = setting.printed(place)?;
    printed.iter().for_each(|printed| tell_strange_list(&setting.folder, printed));
    let printed = printed.map(|printed| printed.buys);
    Ok(next_trip(&setting.loaded.kitchen, &plan, printed.as_ref(), &setting.booked, otherwise.taken()))
}

fn tell_strange_list(folder: &Path, printed: &Printed) {
    tell_strange_paper(folder, &format!("shopping-list-{}.pdf", printed.buys.from), printed);
}

fn no_trip(none: &NoTrip, names: Names) -> String {
    match none {
        NoTrip::AllBooked { week } => format!("every trip of {week} is booked."),
        NoTrip::PlanChanged { on, foods } => {
            // By name, as a person looks for them.
            let mut lines: Vec<String> = foods.iter().map(|other| format!("  {}\n", other.text(names))).collect();
            lines.sort();
            format!(
                "the plan has changed since the trip of {} was printed:\n{}Add --anyway to book it as printed, or --replan to book it as the plan stands.",
                day(*on),
                lines.concat()
            )
        }
    }
}

impl Otherwise {
    /// Is nothing said of a trip?
    fn is_beside_alone(&self) -> bool {
        self.without.is_empty() && self.instead.is_empty() && !self.anyway && !self.replan
    }

    fn taken(&self) -> As {
        match (self.anyway, self.replan) {
            (_, true) => As::Planned,
            (true, false) => As::PrintedAnyway,
            (false, false) => As::Printed,
        }
    }

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
fn put_down(
    cli: &Cli,
    setting: &Setting,
    mut keeping: Keeping,
    next: &NextTrip,
    (goods, lines): (&[Goods], Option<Vec<String>>),
    not_booked: &[String],
) -> Done {
    let kitchen = &setting.loaded.kitchen;
    tell_of_past_dates(cli, kitchen, goods, next.as_of)?;
    tell_of_sizes(goods);
    let (seen, unclear) = seen_prices(kitchen, &TripBuys { on: next.as_of, ..next.trip.clone() }, goods);
    let prices = keeping.price_changes(&seen)?;
    not_booked.iter().for_each(|line| remark(&format!("not booked: {line}.")));
    unclear.iter().for_each(|line| remark(&format!("no price goes into shops.toml of {line}.")));
    let booking = bought(kitchen, (&setting.booked, &keeping.shelf), next, (goods, lines), prices, setting.today);
    let file = setting.weeks().find(|week| week.from == next.from);
    let booking = Booking { in_week: file.map(InWeek::of), ..booking };
    book(&mut keeping, booking)?;
    report(cli, keeping.new_bookings(), &[])
}

/// Writes what would be booked into a file that is not there yet.
fn write_sheet(cli: &Cli, otherwise: &Otherwise, sheet: &Path) -> Done {
    if sheet.exists() {
        return Err(Failure::Usage(format!("{} is there already. Name another file, or take it away.", sheet.display())));
    }
    let setting = Setting::read(cli)?;
    // What is booked must be known here.
    read_ledger(&setting.folder)?;
    let kitchen = &setting.loaded.kitchen;
    let next = next(cli, &setting, otherwise)?.map_err(|none| Failure::Usage(no_trip(&none, kitchen.names())))?;
    let (mut goods, not_booked) = open_goods(&kitchen.foods, &kitchen.rules, &next.trip, &setting.booked);
    except(kitchen, &mut goods, &next.trip.shops, &otherwise.exceptions()).map_err(Failure::Usage)?;
    let text = goods_form(kitchen, (&next.week, next.from), next.trip.on, &goods, &not_booked);
    let folder = sheet.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    write_all(folder, &[(sheet.to_path_buf(), text.into_bytes())])?;
    match cli.format {
        Format::Json => say(&json(&crate::json::files(std::iter::once(sheet)))?),
        Format::Text => say(&format!(
            "{}: what the trip of {} is about to bring\n{}\nChange what was otherwise, then: spence receive {}\n",
            next.week,
            day(next.trip.on),
            sheet.display(),
            sheet.display()
        )),
    }
}

/// Which trips of its day a sheet was copied from, by its hash; `None` where it has none. Where the list was printed anew since, it is
/// no trip's.
fn copied_from(form: &GoodsForm, printed: Option<&Printed>, names: Names) -> Option<Vec<usize>> {
    let (then, printed) = form.hash.as_ref().zip(printed)?;
    let now = printed.hashes_of(form.trip, names);
    (!now.is_empty()).then(|| now.into_iter().filter(|(_, hash)| hash == then).map(|(nth, _)| nth).collect())
}

fn said_file(file: &Path) -> String {
    if file == Path::new("-") { "this".to_owned() } else { file.display().to_string() }
}

fn from_sheet(cli: &Cli, file: &Path) -> Done {
    let (setting, keeping) = open(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let mut form = read_goods(kitchen, file)?;
    let week = week_of_sheet(setting.weeks(), &form).map_err(|mistake| Failure::Mistakes(vec![mistake]))?;
    let reckoned = setting.reckon_week(week)?;
    strictly(cli, &reckoned)?;
    let plan = WeekBuys::from(&reckoned.list(EVERY_TRIP));
    let printed = printed(&setting.folder, kitchen, &reckoned.week)?;
    printed.iter().for_each(|printed| tell_strange_list(&setting.folder, printed));
    let copied = copied_from(&form, printed.as_ref(), kitchen.names());
    // The trip that it names stands on another day by now.
    let moved = printed.as_ref().map(|printed| printed_trips_moved(&printed.buys, &setting.loaded.weeks[week].1)).unwrap_or_default();
    let new = |nth: usize| moved.get(&(form.trip, nth)).copied();
    let copied = copied.map(|all| all.into_iter().map(|nth| new(nth).map_or(nth, |(_, nth)| nth)).collect::<Vec<_>>());
    let now = new(0).map_or(form.trip, |(on, _)| on);
    form.trip = now;
    let printed = printed.map(|printed| at_their_new_days(&printed.buys, &moved));
    let lists: Vec<_> = printed.iter().chain([&plan]).collect();
    if copied.as_ref().is_some_and(Vec::is_empty) {
        remark(&format!("the plan has been printed anew since {} was copied from its list.", said_file(file)));
    }
    let FilledIn { trip, goods, lines, not_booked, already } =
        filled_in(kitchen, &reckoned.week, &lists, &setting.booked, (&form, &copied.unwrap_or_default())).map_err(Failure::Mistakes)?;
    already.iter().for_each(|food| remark(&format!("{food} is booked already, and is left out.")));
    tell_of_a_trip_ahead(cli, trip.on, setting.today)?;
    let next = NextTrip { as_of: trip.on, trip, week: reckoned.week.name.clone(), from: reckoned.week.from };
    put_down(cli, &setting, keeping, &next, (&goods, lines), &not_booked)
}
