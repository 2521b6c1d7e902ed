//! `print`: the sheets as PDF, and beside them what was printed.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use itertools::Itertools;

use super::outcome::{Done, Failure, json, say, warn};
use super::printed::printed;
use super::setting::Setting;
use super::sheet_files::write_all;
use super::{Cli, Format};
use crate::Shown;
use crate::json::PastSessions;
use crate::kitchen::{Names, Paper, Print, Warning};
use crate::prep::{Effort, PrepPlan, labels, week_card};
use crate::sheets::{LabelGrid, Settings, Sheet, Size, label_sheet, person_guide, prep_guide, shopping_list, to_pdf, week_card_sheet};

/// Which sheets, and on what paper.
#[derive(Debug, Clone, Args)]
pub struct Choice {
    /// Only these sheets
    #[arg(long, value_enum, value_delimiter = ',', value_name = "SHEETS")]
    only: Vec<SheetWord>,
    /// The paper, whatever kitchen.toml says
    #[arg(long, value_enum, value_name = "PAPER")]
    paper: Option<PaperWord>,
    /// How many labels stand on a page, columns by rows: 3x8 unless the print is large
    #[arg(long, value_name = "COLUMNSxROWS")]
    labels: Option<LabelGrid>,
    /// Large print: nothing under 14 pt, on as many pages as it takes
    #[arg(long, value_enum, default_value_t = SizeWord::Normal)]
    size: SizeWord,
    /// A fold line down the middle of the shopping list
    #[arg(long)]
    fold: bool,
    /// The guides of one person alone, with what to wait for and whom to tell
    #[arg(long, value_name = "NAME")]
    person: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SheetWord {
    List,
    Guide,
    Week,
    Labels,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SizeWord {
    Normal,
    Large,
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
        let size = match self.size {
            SizeWord::Normal => Size::Normal,
            SizeWord::Large => Size::Large,
        };
        Settings { paper, units: print.units, size, fold: self.fold }
    }

    /// Flags that would do nothing, and labels too small to be read, are mistakes of the command line.
    fn grid(&self, settings: Settings) -> Result<LabelGrid, Failure> {
        let idle = |flag: &str, sheet: &str| Failure::Usage(format!("{flag} is for the {sheet}, which --only or --person leaves out."));
        if self.fold && !self.wants(SheetWord::List) {
            return Err(idle("--fold", "shopping list"));
        }
        if self.labels.is_some() && !self.wants(SheetWord::Labels) {
            return Err(idle("--labels", "box labels"));
        }
        let grid = self.labels.unwrap_or(LabelGrid::usual(settings.size));
        grid.check(settings).map_err(|words| Failure::Usage(format!("--labels: {words}.")))?;
        Ok(grid)
    }
}

pub fn run(cli: &Cli, into: Option<&Path>, all: bool, effort: Effort, choice: &Choice) -> Done {
    let setting = Setting::read(cli)?;
    let settings = choice.settings(setting.loaded.kitchen.print);
    let grid = choice.grid(settings)?;
    let week = setting.week(cli.week.as_deref())?;
    let reckoned = setting.reckon_week(week)?;
    warn(&reckoned.warnings, cli.strict)?;
    let list = reckoned.list(Shown { all, compared: false });
    let prep = reckoned.prep(effort);

    let names = reckoned.kitchen.names();
    let household = names.household;
    let mut sheets = Vec::new();
    if choice.wants(SheetWord::List) {
        sheets.push(shopping_list(&list, &prep.before, reckoned.kitchen.names(), settings));
    }
    if choice.wants(SheetWord::Guide) {
        sheets.extend(guides(&prep, names, settings, choice.person.as_deref())?);
    }
    if choice.wants(SheetWord::Week) {
        let card = week_card(&reckoned.kitchen, &reckoned.week, &reckoned.makings);
        sheets.push(week_card_sheet(&card, names, settings));
    }
    if choice.wants(SheetWord::Labels) {
        let labels = labels(&reckoned.kitchen, &reckoned.week, &reckoned.makings);
        // Nobody asked for a sheet that says that there are none.
        if !labels.is_empty() || !choice.only.is_empty() {
            sheets.push(label_sheet(&labels, (&list.week, list.from), names, grid, settings));
        }
    }
    say_what_did_not_fit(&sheets, cli.strict)?;

    let folder = into.map_or_else(|| setting.folder.join("sheets"), Path::to_path_buf);
    let mut files: Vec<(PathBuf, Vec<u8>)> =
        sheets.iter().map(|sheet| (folder.join(format!("{}.pdf", sheet.file_stem)), to_pdf(sheet))).collect();
    let before =
        if reckoned.has_begun() { printed(&setting.folder, &setting.loaded.kitchen, &setting.loaded.weeks[week].1)? } else { None };
    let past = PastSessions { sessions: reckoned.past_sessions(), printed: before.as_ref() };
    let every_trip = if reckoned.has_begun() { &reckoned.list(Shown { all: true, compared: false }) } else { &list };
    let printed = json(&crate::json::printed(every_trip, &prep, past, &reckoned.kitchen))?;
    files.push((folder.join(format!("plan-{}.json", list.from)), printed.into_bytes()));
    write_all(&folder, &files)?;
    let paths = files.iter().map(|(path, _)| path.as_path());
    match cli.format {
        Format::Json => say(&json(&crate::json::week_files(&list.week, list.from, paths))?),
        Format::Text => say(&format!("{household}: {}\n{}\n", list.week, paths.map(Path::display).join("\n"))),
    }
}

/// The warnings of the sheets, each once; with `--strict` they end the run before anything is written.
fn say_what_did_not_fit(sheets: &[Sheet], strict: bool) -> Done {
    let texts = sheets.iter().flat_map(|sheet| &sheet.warnings).unique();
    let warnings: Vec<Warning> = texts.map(|text| Warning::Note { at: None, text: text.clone() }).collect();
    warn(&warnings, strict)
}

/// A guide a session, of everybody or of one person.
fn guides(prep: &PrepPlan, names: Names, settings: Settings, person: Option<&str>) -> Result<Vec<Sheet>, Failure> {
    let all = prep.sessions.iter().enumerate().map(|(index, session)| (session, prep.before_session(index)));
    let Some(person) = person else {
        return Ok(all.map(|(session, before)| prep_guide(&prep.week, session, &before, names, settings)).collect());
    };
    let theirs: Vec<Sheet> =
        all.filter_map(|(session, before)| person_guide(&prep.week, session, &before, names, settings, person)).collect();
    if theirs.is_empty() {
        return Err(Failure::Usage(format!("nobody called {person} has anything to do in {}", prep.week)));
    }
    Ok(theirs)
}
