//! `handout`: one PDF of a week for people with other kitchens. No plan-<from>.json is written, and nothing booked is asked.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use clap::Args;

use super::outcome::{Done, Failure, json, say, warn};
use super::print::{PaperWord, SizeWord};
use super::setting::Setting;
use super::sheet_files::write_all;
use super::{Cli, Format};
use crate::handout::{Wishes, handout};
use crate::kitchen::Warning;
use crate::measure::{Number, Quantity, Spoons, read_quantity};
use crate::prep::Effort;
use crate::sheets::{Author, Settings, handout_sheet, to_pdf};

/// What the author says, and for whom it is.
#[derive(Debug, Args)]
pub struct Asked {
    /// The title; by default the week's name
    #[arg(long, value_name = "TITLE")]
    title: Option<String>,
    /// Who made it
    #[arg(long, value_name = "NAME")]
    by: Option<String>,
    /// A plain text for the first page, its paragraphs an empty line apart
    #[arg(long, value_name = "FILE")]
    note: Option<PathBuf>,
    /// For how many every meal is reckoned, as in 2; by default for the household
    #[arg(long, value_name = "NUMBER", value_parser = eaters)]
    eaters: Option<Number>,
    /// The folder for the file; by default sheets in the kitchen folder
    #[arg(long, value_name = "DIR")]
    into: Option<PathBuf>,
    /// Print the methods of recipes that name a source, too
    #[arg(long)]
    methods: bool,
    /// The paper, whatever kitchen.toml says
    #[arg(long, value_enum, value_name = "PAPER")]
    paper: Option<PaperWord>,
    /// Large print: nothing under 14 pt, on as many pages as it takes
    #[arg(long, value_enum, default_value_t = SizeWord::Normal)]
    size: SizeWord,
}

/// So many at a meal at most.
const MOST_EATERS: i64 = 1000;

/// "2", "2.5", "2 1/2".
fn eaters(text: &str) -> Result<Number, String> {
    match read_quantity(&format!("{} portions", text.trim()), Spoons::Us) {
        Ok(Quantity::Portions(number)) if number > 0 && number <= MOST_EATERS => Ok(number),
        _ => Err(format!("\"{text}\" is no number of eaters above 0 and up to {MOST_EATERS}; write 2, or 2.5 where a child eats half")),
    }
}

pub fn run(cli: &Cli, effort: Effort, asked: &Asked) -> Done {
    let note = asked.note.as_deref().map(note).transpose()?.unwrap_or_default();
    let setting = Setting::read(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let (_, week) = &setting.loaded.weeks[setting.week(cli.week.as_deref())?];
    let wishes = Wishes { eaters: asked.eaters.clone(), methods: asked.methods, effort };
    let told = handout(kitchen, week, &wishes).map_err(Failure::Mistakes)?;
    warn(&told.warnings, cli.strict)?;
    let paper = asked.paper.map_or(kitchen.print.paper, PaperWord::paper);
    let settings = Settings { paper, units: kitchen.print.units, size: asked.size.size(), fold: false, under: kitchen.print.under };
    let author = Author { title: written(asked.title.as_deref()), by: written(asked.by.as_deref()), note: &note };
    let sheet = handout_sheet(&told, &author, settings);
    let texts: Vec<Warning> = sheet.warnings.iter().map(|text| Warning::Note { at: None, text: text.clone() }).collect();
    warn(&texts, cli.strict)?;
    let folder = asked.into.clone().unwrap_or_else(|| setting.folder.join("sheets"));
    let path = folder.join(format!("{}.pdf", sheet.file_stem));
    write_all(&folder, &[(path.clone(), to_pdf(&sheet))])?;
    match cli.format {
        Format::Json => say(&json(&crate::json::week_files(&week.name, week.from, std::iter::once(path.as_path())))?),
        Format::Text => {
            let by = sheet.author.as_ref().map(|by| format!(", by {by}")).unwrap_or_default();
            say(&format!("{}{by}\n{}\n", sheet.title, path.display()))
        }
    }
}

fn written(text: Option<&str>) -> Option<&str> {
    text.map(str::trim).filter(|text| !text.is_empty())
}

/// The text of a note, its line ends as one kind.
fn note(path: &Path) -> Result<String, Failure> {
    let bytes = fs::read(path).map_err(|error| match error.kind() {
        ErrorKind::NotFound => Failure::Usage(format!("--note: there is no file {}.", path.display())),
        _ => Failure::Machine(format!("cannot read {}: {error}.", path.display())),
    })?;
    let text = String::from_utf8(bytes)
        .map_err(|_| Failure::NotKnown(format!("{} is not plain text in UTF-8. Save it as UTF-8 in your editor.", path.display())))?;
    Ok(text.trim_start_matches('\u{feff}').replace("\r\n", "\n"))
}
