//! `print`: the sheets as PDF, and beside them what was printed.

use std::fs;
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::Cli;
use super::outcome::{Done, Failure, json, say};
use super::setting::Setting;
use crate::prep::{Effort, PrepPlan};
use crate::purchase::ShoppingList;
use crate::sheets::{Settings, Sheet, prep_guide, shopping_list, to_pdf};

/// What plan-<from>.json holds.
#[derive(Serialize)]
struct Printed<'p> {
    list: &'p ShoppingList,
    prep: &'p PrepPlan,
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
    let names = files.iter().map(|(path, _)| format!("{}\n", path.display())).collect::<String>();
    say(&format!("{household}: {}\n{names}", list.week))
}

/// Writes every file beside its place first, so that a full disk leaves the old sheets whole.
fn write_all(folder: &Path, files: &[(PathBuf, Vec<u8>)]) -> Done {
    fs::create_dir_all(folder).map_err(|error| Failure::writing(folder, &error))?;
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
