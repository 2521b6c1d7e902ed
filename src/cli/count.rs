//! `count`: a stocktake. It writes the sheet, and books what was found otherwise than booked.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use jiff::civil::Date;

use super::keeping::{book, booked_all_the_same, open_with_prices, report, tell_what_counts_twice};
use super::outcome::{Done, Failure, json, remark, say, warn};
use super::setting::Setting;
use super::sheet_files::write_all;
use super::wrap::columns;
use super::{Cli, Format};
use crate::book::{Difference, Differences, count, count_form, count_lines, differences, found, may_be_written_over, records};
use crate::kitchen::much::{for_whom, how_much, no_more_than};
use crate::kitchen::{CountForm, Kitchen, Mistake, Spot, Ware, read_count};
use crate::measure::{Money, Quantity, show};
use crate::sheets::{Settings, Size, count_sheet, to_pdf};
use crate::words::{day_near, day_year, place};

/// Writes the sheet of what is booked now, as PDF and as TOML, into DIR/sheets or the folder named.
pub fn write_sheet(cli: &Cli, into: Option<&Path>) -> Done {
    let setting = Setting::read(cli)?;
    warn(&setting.loaded.warnings, cli.strict)?;
    tell_what_counts_twice(cli, &setting.waiting(cli.week.as_deref()))?;
    let kitchen = &setting.loaded.kitchen;
    let places = count_lines(kitchen, &records(kitchen));
    if places.is_empty() {
        return Err(Failure::NotKnown("there is nothing on the shelf to count. Put what is there into pantry.toml.".to_owned()));
    }
    let household = &kitchen.household.name;
    let sheet = count_sheet(
        &places,
        household,
        setting.today,
        Settings { paper: kitchen.print.paper, units: kitchen.print.units, size: Size::Normal, fold: false, under: kitchen.print.under },
    );
    let folder = into.map_or_else(|| setting.folder.join("sheets"), Path::to_path_buf);
    let form = folder.join(format!("{}.toml", sheet.file_stem));
    leave_what_is_filled_in(&setting, &form)?;
    let files: Vec<(PathBuf, Vec<u8>)> = vec![
        (folder.join(format!("{}.pdf", sheet.file_stem)), to_pdf(&sheet)),
        (form, count_form(&places, household, setting.today).into_bytes()),
    ];
    write_all(&folder, &files)?;
    sheet.warnings.iter().for_each(|warning| remark(warning));
    match cli.format {
        Format::Json => say(&json(&crate::json::files(files.iter().map(|(path, _)| path.as_path())))?),
        Format::Text => {
            let files: Vec<String> = files.iter().map(|(path, _)| path.display().to_string()).collect();
            say(&format!("{household}: count sheet of {}\n{}\n", day_year(setting.today), files.join("\n")))
        }
    }
}

/// Counts that somebody wrote down and that are not booked yet are not written over.
fn leave_what_is_filled_in(setting: &Setting, form: &Path) -> Done {
    if !form.exists() {
        return Ok(());
    }
    let known = read_count(&setting.loaded.kitchen, form, &|_| Vec::new());
    if known.is_ok_and(|known| may_be_written_over(&known, &setting.booked)) {
        return Ok(());
    }
    let shown = form.display();
    Err(Failure::Usage(format!("{shown} is filled in and not booked yet. Book it with spence count {shown}, or take it away.")))
}

/// Books what was found, and says what differed.
pub fn run(cli: &Cli, file: &Path) -> Done {
    let (setting, mut keeping) = open_with_prices(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let wrong = |form: &CountForm| match setting.booked.has_count(form) {
        true => Vec::new(),
        false => count(kitchen, &keeping.shelf, form, setting.today).err().unwrap_or_default(),
    };
    let form = read_count(kitchen, file, &wrong)?;
    warn(&form.warnings, cli.strict)?;
    tell_what_counts_twice(cli, &setting.waiting(cli.week.as_deref()))?;
    if setting.booked.has_count(&form) {
        return Err(Failure::Usage(format!("{} is booked already.", file.display())));
    }
    let (counted, changes) = count(kitchen, &keeping.shelf, &form, setting.today).map_err(Failure::Mistakes)?;
    if counted == 0 {
        return Err(Failure::Mistakes(vec![Mistake {
            at: Spot { file: file.display().to_string(), line: 1, column: 1 },
            cause: "nothing is counted in it yet".to_owned(),
            remedy: "Write what you found as counted = \"150 g\", and 0 where all of it is gone.".to_owned(),
        }]));
    }
    let differing = differences(kitchen, &changes);
    let text = text(&differing, kitchen, counted, setting.today);
    book(&mut keeping, found(&form, counted, changes, setting.today))?;
    match cli.format {
        Format::Json => {
            let answer = crate::json::count(counted, &differing, keeping.new_bookings(), kitchen.names());
            booked_all_the_same(say(&json(&answer)?))
        }
        Format::Text => {
            report(cli, keeping.new_bookings(), &[])?;
            booked_all_the_same(say(&text))
        }
    }
}

pub(super) fn text(found: &Differences, kitchen: &Kitchen, counted: usize, today: Date) -> String {
    if found.rows.is_empty() {
        return format!("{} as booked.\n", if counted == 1 { "It is" } else { "All are" });
    }
    let names = kitchen.names();
    let row = |row: &Difference| {
        let ware = row.of.ware(kitchen);
        let (booked, counted) = (amount(kitchen, ware, &row.booked), amount(kitchen, ware, &row.counted));
        let until = row.until.map(|until| format!("until {}", day_near(until, today))).unwrap_or_default();
        let value = row.value.map_or_else(|| "no price known".to_owned(), |value| names.money(value));
        vec![
            row.of.called(kitchen).to_owned() + &for_whom(names, row.whose.as_ref()),
            place(row.place).to_owned(),
            until,
            format!("booked {booked}"),
            format!("counted {counted}"),
            signed(row, kitchen, ware),
            value,
        ]
    };
    let mut out = format!("\n{}", columns(&found.rows.iter().map(row).collect::<Vec<_>>(), 2));
    if found.rows.iter().all(|row| row.value.is_none()) {
        return out;
    }
    let (much, word) = if found.value < Money::ZERO { (Money(-found.value.0), "less") } else { (found.value, "more") };
    let _ = writeln!(out, "\nThe shelf is worth {} {} {word} than was booked.", names.money(much), names.currency);
    out
}

/// As a lot is told everywhere.
fn amount(kitchen: &Kitchen, ware: Option<Ware>, quantity: &Quantity) -> String {
    match ware {
        _ if quantity.is_zero() => "none".to_owned(),
        Some(ware) => no_more_than(kitchen.names(), ware, quantity, kitchen.print.units),
        None => show(quantity, kitchen.print.units),
    }
}

/// "-30 g", "+1".
fn signed(row: &Difference, kitchen: &Kitchen, ware: Option<Ware>) -> String {
    let sign = if row.difference.base() < 0.0 { "-" } else { "+" };
    let (much, units) = (row.difference.scaled(row.difference.base().signum()), kitchen.print.units);
    format!("{sign}{}", ware.map_or_else(|| show(&much, units), |ware| how_much(kitchen.names(), ware, &much, units)))
}
