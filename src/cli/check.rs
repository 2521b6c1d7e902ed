//! `check`: every mistake of every file at once, and what the plan of each week runs into.

use std::collections::BTreeSet;

use super::keeping::lots;
use super::outcome::{Done, Failure, say, warn};
use super::setting::Setting;
use super::{Cli, Format};
use crate::book::{LotRecord, beside_the_book, read_ledger};
use crate::kitchen::{Mistake, RecipeId, Warning, Week, load};
use crate::plan::told_of_words;
use crate::store::{BOOK, Disk, LOCK};
use crate::words::counted;

pub fn run(cli: &Cli, book: bool) -> Done {
    let checked = Setting::read(cli).and_then(|setting| {
        if cli.week.is_some() {
            setting.week(cli.week.as_deref())?;
        }
        let mut warnings = reckon_all(&setting)?;
        let mut adds_up = String::new();
        if book {
            let (notes, bookings) = against_book(&setting)?;
            if notes.is_empty() {
                adds_up = format!("The book adds up to pantry.toml: {}.\n", counted(bookings, "booking"));
            }
            warnings.extend(notes);
        }
        Ok((warnings, setting, adds_up))
    });
    match checked {
        Ok((warnings, setting, adds_up)) => {
            let warned = warn(&warnings, cli.strict);
            if cli.format == Format::Json {
                say_json(&[], &warnings)?;
            }
            warned?;
            let loaded = &setting.loaded;
            match cli.format {
                Format::Json => Ok(()),
                Format::Text => say(&format!(
                    "{}: {}, {}{}; no mistakes.\n{adds_up}",
                    loaded.kitchen.household.name,
                    counted(loaded.kitchen.recipes.len(), "recipe"),
                    counted(loaded.weeks.len(), "week"),
                    weeks_by_name(&loaded.weeks),
                )),
            }
        }
        Err(Failure::Mistakes(mistakes)) => {
            if cli.format == Format::Json {
                say_json(&mistakes, &[])?;
            }
            Err(Failure::Mistakes(mistakes))
        }
        Err(Failure::Unreadable(mistakes)) => {
            if cli.format == Format::Json {
                say_json(&mistakes, &[])?;
            }
            Err(Failure::Unreadable(mistakes))
        }
        Err(failure) => Err(failure),
    }
}

/// What pantry.toml says otherwise than the book adds up to, and how many bookings there are.
fn against_book(setting: &Setting) -> Result<(Vec<Warning>, usize), Failure> {
    let note = |text: String| Warning::Note { at: None, text };
    let folder = &setting.folder;
    // A booking beside this one would be seen by half.
    let _lock = Disk::new(folder).lock_to_read(LOCK).map_err(|error| Failure::reading(&folder.join(LOCK), &error))?;
    let book = read_ledger(folder)?;
    let loaded = load(folder)?;
    if book.bookings == 0 && book.fragment.is_some() {
        return Ok((vec![note("the book has no booking against which pantry.toml could be held.".to_owned())], 0));
    }
    if book.bookings == 0 {
        return Ok((vec![note(format!("there is no {BOOK} yet; the first booking begins it."))], 0));
    }
    let changes = beside_the_book(&loaded.kitchen, &book);
    let amount = |lot: &Option<LotRecord>| lot.as_ref().map_or("nothing".to_owned(), |lot| lot.amount_text());
    let mut notes: Vec<Warning> = Vec::new();
    for change in &changes {
        let Some(lot) = change.to.as_ref().or(change.from.as_ref()) else { continue };
        let (here, booked) = (amount(&change.to), amount(&change.from));
        notes.push(note(format!("pantry.toml has {here} of {} where the book adds up to {booked}.", lot.name())));
    }
    if !notes.is_empty() {
        notes.push(note(format!("{} differ; the next booking notes it as edited by hand.", lots(changes.len()))));
    }
    if book.fragment.is_some() {
        notes.push(note(format!("{BOOK}: its last line was cut short; the next booking keeps what is left of it.")));
    }
    Ok((notes, book.bookings as usize))
}

/// The warnings of reading and of every week, or the mistakes of every week's plan.
fn reckon_all(setting: &Setting) -> Result<Vec<Warning>, Failure> {
    let mut warnings = setting.loaded.warnings.clone();
    let kitchen = &setting.loaded.kitchen;
    warnings.extend((0..kitchen.recipes.len()).flat_map(|recipe| told_of_words(kitchen, RecipeId(recipe))));
    let mut said: BTreeSet<Warning> = warnings.iter().cloned().collect();
    let mut mistakes = Vec::new();
    for week in 0..setting.loaded.weeks.len() {
        match setting.reckon_sessions(week) {
            Ok(reckoning) => {
                // Each week tells of itself what was not booked.
                let own = reckoning.warnings.into_iter().filter(|warning| !matches!(warning, Warning::NotBookedToItsEnd { .. }));
                warnings.extend(own.filter(|warning| said.insert(warning.clone())));
            }
            Err(Failure::Mistakes(found)) => mistakes.extend(found),
            Err(failure) => return Err(failure),
        }
    }
    if mistakes.is_empty() { Ok(warnings) } else { Err(Failure::Mistakes(mistakes)) }
}

fn say_json(mistakes: &[Mistake], warnings: &[Warning]) -> Done {
    say(&super::outcome::json(&crate::json::check(mistakes, warnings))?)
}

fn weeks_by_name(weeks: &[(String, Week)]) -> String {
    let names = weeks.iter().map(|(_, week)| week.name.as_str()).collect::<Vec<_>>().join("; ");
    if names.is_empty() { names } else { format!(" ({names})") }
}
