//! `print`: the sheets as PDF, and beside them what was printed.

use std::path::{Path, PathBuf};
use std::{fs, io};

use serde::Serialize;

use super::outcome::{Done, Failure, json, say};
use super::setting::Setting;
use super::{Cli, Format};
use crate::prep::{Effort, PrepPlan};
use crate::purchase::ShoppingList;
use crate::sheets::{Settings, Sheet, prep_guide, shopping_list, to_pdf};

/// What plan-<from>.json holds.
#[derive(Serialize)]
struct Printed<'p> {
    list: &'p ShoppingList,
    prep: &'p PrepPlan,
}

/// What `print --format json` says.
#[derive(Serialize)]
struct Written<'p> {
    week: &'p str,
    from: String,
    files: Vec<String>,
}

pub fn run(cli: &Cli, into: Option<&Path>, all: bool, effort: Effort) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    reckoned.warn(cli)?;
    let shown_from = reckoned.shown_from.filter(|_| !all);
    let list = reckoned.reckoning.list(reckoned.kitchen, reckoned.week, shown_from, &reckoned.warnings);
    let prep = reckoned.reckoning.prep(reckoned.kitchen, reckoned.week, effort);

    let household = &reckoned.kitchen.household.name;
    let print = reckoned.kitchen.print;
    let settings = Settings { paper: print.paper, units: print.units };
    let mut sheets = vec![shopping_list(&list, &prep.before, household, settings)];
    sheets.extend(prep.sessions.iter().map(|session| prep_guide(&prep.week, session, &prep.before, household, settings)));

    let folder = into.map_or_else(|| setting.folder.join("sheets"), Path::to_path_buf);
    let mut files: Vec<(PathBuf, Vec<u8>)> =
        sheets.iter().map(|sheet| (folder.join(format!("{}.pdf", sheet.file_stem)), to_pdf(sheet))).collect();
    let printed = json(&Printed { list: &list, prep: &prep })?;
    files.push((folder.join(format!("plan-{}.json", list.from)), printed.into_bytes()));
    write_all(&folder, &files)?;
    for warning in sheets.iter().flat_map(|sheet: &Sheet| &sheet.warnings) {
        eprintln!("warning: {warning}");
    }
    let names: Vec<String> = files.iter().map(|(path, _)| path.display().to_string()).collect();
    match cli.format {
        Format::Json => say(&json(&Written { week: &list.week, from: list.from.to_string(), files: names })?),
        Format::Text => say(&format!("{household}: {}\n{}\n", list.week, names.join("\n"))),
    }
}

/// Writes every file beside its place first, so that a full disk leaves the old sheets whole.
fn write_all(folder: &Path, files: &[(PathBuf, Vec<u8>)]) -> Done {
    fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
    nothing_in_the_way(files)?;
    let beside = |path: &Path| path.with_extension("new");
    for (path, bytes) in files {
        let new = beside(path);
        if let Err(error) = fs::write(&new, bytes) {
            for (path, _) in files {
                // What was never written cannot be removed, and need not be.
                let _ = fs::remove_file(beside(path));
            }
            return Err(Failure::writing(path, &error));
        }
    }
    files.iter().try_for_each(|(path, _)| fs::rename(beside(path), path).map_err(|error| Failure::writing(path, &error)))
}

/// A folder of the name of a sheet would stop the writing halfway.
fn nothing_in_the_way(files: &[(PathBuf, Vec<u8>)]) -> Done {
    let in_the_way = files.iter().find(|(path, _)| path.is_dir());
    in_the_way.map_or(Ok(()), |(path, _)| Err(Failure::writing(path, &io::ErrorKind::IsADirectory.into())))
}
