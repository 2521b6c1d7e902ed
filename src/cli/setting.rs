//! What every verb needs first: the kitchen, the week that is meant, and today.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::Cli;
use super::outcome::{Done, Failure, warn};
use crate::book::{covered, meal_key};
use crate::kitchen::{Kitchen, Loaded, Mistake, Spot, Warning, Week, find_kitchen, load};
use crate::plan::{past, span, still_to_do_from, week_of};
use crate::purchase::old_prices;
use crate::store::Disk;
use crate::{Reckoning, carry, reckon};

/// A kitchen that has been read.
pub struct Setting {
    pub folder: PathBuf,
    pub loaded: Loaded,
    pub today: Date,
    /// The weeks as they are written; in `loaded` the meals that are booked are left out.
    pub written: Vec<Week>,
    /// The trips, sessions and meals that the book has.
    booked: BTreeSet<String>,
}

/// One week of it, reckoned, with all its warnings.
pub struct Reckoned<'s> {
    /// Its shelf is as the other weeks leave it: lots are not those of pantry.toml, one by one.
    pub kitchen: Cow<'s, Kitchen>,
    pub week: &'s Week,
    pub reckoning: Reckoning,
    pub warnings: Vec<Warning>,
    /// The first day whose trips are still to be made, where some of the week is past.
    pub shown_from: Option<Date>,
}

pub fn today(cli: &Cli) -> Date {
    cli.today.unwrap_or_else(|| ZonedDateTime::now().date())
}

/// The kitchen folder that is meant.
pub fn folder(cli: &Cli) -> Result<PathBuf, Failure> {
    match &cli.kitchen {
        Some(folder) => Ok(folder.clone()),
        None => nearest_kitchen(),
    }
}

impl Setting {
    pub fn read(cli: &Cli) -> Result<Setting, Failure> {
        let folder = folder(cli)?;
        super::keeping::mend_if_cut_short(&folder);
        let mut loaded = load(&folder).map_err(Failure::Mistakes)?;
        let written = loaded.weeks.iter().map(|(_, week)| week.clone()).collect();
        let mut booked = BTreeSet::new();
        // Without a sound book nothing is known to be booked; the verbs that need the book say what is wrong with it.
        if let Ok(book) = super::keeping::read_book(&Disk::new(&folder), &folder) {
            booked = covered(&book.bookings);
            loaded.weeks.iter_mut().for_each(|(_, week)| week.meals.retain(|meal| !booked.contains(&meal_key(meal))));
        }
        Ok(Setting { folder, loaded, today: today(cli), written, booked })
    }

    /// Reckons the week that is meant.
    pub fn reckon(&self, cli: &Cli) -> Result<Reckoned<'_>, Failure> {
        let week = self.week(cli.week.as_deref())?;
        self.reckon_week(week)
    }

    /// Reckons a week, after what the other weeks have yet to take off the shelf.
    pub fn reckon_week<'s>(&'s self, week: &'s Week) -> Result<Reckoned<'s>, Failure> {
        let others: Vec<&Week> = self.loaded.weeks.iter().map(|(_, other)| other).filter(|other| !std::ptr::eq(*other, week)).collect();
        let carried = carry(&self.loaded.kitchen, &others, &self.booked, week, self.today);
        let kitchen = carried.kitchen;
        let mut reckoning = reckon(&kitchen, week).map_err(Failure::Mistakes)?;
        reckoning.reserved = carried.reserved;
        let mut warnings = self.loaded.warnings.clone();
        warnings.extend(past(week, self.today));
        warnings.extend(carried.warnings);
        warnings.extend(old_prices(&kitchen, &reckoning.needs.needs, self.today));
        warnings.extend(reckoning.warnings.iter().filter(|warning| !self.loaded.warnings.contains(warning)).cloned());
        Ok(Reckoned { kitchen, week, reckoning, warnings, shown_from: still_to_do_from(week, self.today) })
    }

    /// The week that is meant; where none was named, then those that contain today, too: the last suppers of one week are eaten when
    /// the next has begun.
    pub fn weeks_at_hand(&self, file: Option<&Path>) -> Result<Vec<&Week>, Failure> {
        let meant = self.week(file)?;
        let mut weeks = vec![meant];
        if file.is_none() {
            let contains_today = |week: &Week| {
                let (first, last) = span(week);
                first <= self.today && self.today <= last
            };
            let running = self.written.iter().zip(&self.loaded.weeks).filter(|(written, _)| contains_today(written));
            weeks.extend(running.map(|(_, (_, week))| week).filter(|week| !std::ptr::eq(*week, meant)));
        }
        Ok(weeks)
    }

    pub fn week(&self, file: Option<&Path>) -> Result<&Week, Failure> {
        let weeks = &self.loaded.weeks;
        let Some(file) = file else {
            let index = week_of(&self.written, self.today);
            return index.map(|index| &weeks[index].1).ok_or_else(no_week);
        };
        let named = |known: &str| {
            let known = Path::new(known);
            file == known
                || Some(file.as_os_str()) == known.file_name()
                || Some(file.as_os_str()) == known.file_stem()
                || same_file(file, &self.folder.join(known))
        };
        weeks.iter().find(|(known, _)| named(known)).map(|(_, week)| week).ok_or_else(|| {
            let known = weeks.iter().map(|(known, _)| known.as_str()).collect::<Vec<_>>().join(", ");
            Failure::Usage(format!("{} is no week of {}. There are: {known}.", file.display(), self.folder.display()))
        })
    }
}

impl Reckoned<'_> {
    /// Says the warnings; with `--strict` they end the run.
    pub fn warn(&self, cli: &Cli) -> Done {
        warn(&self.warnings, cli.strict)
    }
}

fn same_file(a: &Path, b: &Path) -> bool {
    matches!((a.canonicalize(), b.canonicalize()), (Ok(a), Ok(b)) if a == b)
}

/// The nearest folder upwards that holds kitchen.toml, where there is one.
pub fn nearest_folder() -> Result<Option<PathBuf>, Failure> {
    Ok(find_kitchen(&here()?))
}

fn here() -> Result<PathBuf, Failure> {
    std::env::current_dir().map_err(|error| Failure::Machine(format!("cannot tell the current folder: {error}.")))
}

fn nearest_kitchen() -> Result<PathBuf, Failure> {
    let here = here()?;
    find_kitchen(&here).ok_or_else(|| {
        Failure::Mistakes(vec![Mistake {
            at: Spot { file: here.display().to_string(), ..Spot::default() },
            cause: "there is no kitchen.toml here or in any folder above".to_owned(),
            remedy: "Name the folder with --kitchen DIR, or make one with: spence start DIR".to_owned(),
        }])
    })
}

fn no_week() -> Failure {
    Failure::Mistakes(vec![Mistake {
        at: Spot { file: "weeks".to_owned(), ..Spot::default() },
        cause: "no week is planned".to_owned(),
        remedy: "Add a file with a from date, sessions and meals.".to_owned(),
    }])
}
