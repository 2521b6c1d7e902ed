//! `print`: the sheets as PDF, and beside them what was printed.

use std::fs;
use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use serde::Serialize;

use super::Cli;
use super::outcome::{Done, Failure, json, say};
use super::setting::Setting;
use crate::kitchen::{Paper, Print};
use crate::prep::{Effort, PrepPlan};
use crate::purchase::ShoppingList;
use crate::sheets::{Settings, Sheet, person_guide, prep_guide, shopping_list, to_pdf};

/// Which sheets, and on what paper.
#[derive(Debug, Clone, Args)]
pub struct Choice {
    /// Only these sheets
    #[arg(long, value_enum, value_delimiter = ',', value_name = "SHEETS")]
    only: Vec<SheetWord>,
    /// The paper, whatever kitchen.toml says
    #[arg(long, value_enum, value_name = "PAPER")]
    paper: Option<PaperWord>,
    /// The guides of one person alone, with what to wait for and whom to tell
    #[arg(long, value_name = "NAME")]
    person: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SheetWord {
    List,
    Guide,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperWord {
    #[value(name = "A4", alias = "a4")]
    A4,
    Letter,
}

impl Choice {
    fn wants(&self, sheet: SheetWord) -> bool {
        if self.only.is_empty() { self.person.is_none() || sheet == SheetWord::Guide } else { self.only.contains(&sheet) }
    }

    fn settings(&self, print: Print) -> Settings {
        let paper = match self.paper {
            Some(PaperWord::A4) => Paper::A4,
            Some(PaperWord::Letter) => Paper::Letter,
            None => print.paper,
        };
        Settings { paper, units: print.units }
    }
}

/// What plan-<from>.json holds.
#[derive(Serialize)]
struct Printed<'p> {
    list: &'p ShoppingList,
    prep: &'p PrepPlan,
}

pub fn run(cli: &Cli, into: Option<&Path>, all: bool, effort: Effort, choice: &Choice) -> Done {
    let setting = Setting::read(cli)?;
    let reckoned = setting.reckon(cli)?;
    reckoned.warn(cli)?;
    let shown_from = reckoned.shown_from.filter(|_| !all);
    let list = reckoned.reckoning.list(reckoned.kitchen, reckoned.week, shown_from, &reckoned.warnings);
    let prep = reckoned.reckoning.prep(reckoned.kitchen, reckoned.week, effort);

    let household = &reckoned.kitchen.household.name;
    let settings = choice.settings(reckoned.kitchen.print);
    let mut sheets = Vec::new();
    if choice.wants(SheetWord::List) {
        sheets.push(shopping_list(&list, &prep.before, household, settings));
    }
    if choice.wants(SheetWord::Guide) {
        sheets.extend(guides(&prep, household, settings, choice.person.as_deref())?);
    }

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

/// A guide a session, of everybody or of one person.
fn guides(prep: &PrepPlan, household: &str, settings: Settings, person: Option<&str>) -> Result<Vec<Sheet>, Failure> {
    let all = prep.sessions.iter().enumerate().map(|(index, session)| (session, prep.before_session(index)));
    let Some(person) = person else {
        return Ok(all.map(|(session, before)| prep_guide(&prep.week, session, &before, household, settings)).collect());
    };
    let theirs: Vec<Sheet> =
        all.filter_map(|(session, before)| person_guide(&prep.week, session, &before, household, settings, person)).collect();
    if theirs.is_empty() {
        return Err(Failure::Usage(format!("nobody called {person} has anything to do in {}", prep.week)));
    }
    Ok(theirs)
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
