//! `skip` and `exchange`: a meal falls out, or two meals change places, written into the week's file.

use itertools::Itertools;

use super::issue::no_such_meal;
use super::outcome::{Done, Failure, json, remark, say};
use super::printed::text_of;
use super::setting::Setting;
use super::{Cli, Format};
use crate::Shown;
use crate::book::{is_called, meal_to_come};
use crate::kitchen::{Loaded, Meal, Mistake, Spot, exchange_meals, exchange_meals_between, load_with, skip_meal};
use crate::purchase::Flag;
use crate::store::{Disk, Files, LOCK};
use crate::telling::list::untimely;
use crate::words::{day, ended, sentence};

pub fn skip(cli: &Cli, name: &str) -> Done {
    let setting = Setting::read(cli)?;
    let meal = meant(cli, &setting, name)?;
    let change = Change::begin(&setting)?;
    let text = skip_meal(&change.text(&meal.at.file)?, &meal.at).map_err(|why| not_edited(&meal.at, &why))?;
    let after = change.write(&[(meal.at.file.as_str(), text)])?;
    tell(cli, &[meal], &format!("{} falls out", called(meal)))?;
    let skipped_before = |other: &&Meal| other.skip && is_called(other, name) && other.at_time.date() >= setting.today;
    for other in setting.weeks().flat_map(|week| &week.meals).filter(skipped_before).filter(|other| other.at_time < meal.at_time) {
        remark(&format!("{} was skipped before; this is the next of that name.", called(other)));
    }
    tell_what_follows(&setting, after, &[&meal.at.file]);
    Ok(())
}

pub fn exchange(cli: &Cli, one: &str, other: &str) -> Done {
    let setting = Setting::read(cli)?;
    let (first, second) = (meant(cli, &setting, one)?, meant(cli, &setting, other)?);
    if first.at == second.at {
        return Err(Failure::Usage(format!("\"{}\" and \"{}\" are one meal.", one.trim(), other.trim())));
    }
    if let Some(meal) = [first, second].into_iter().find(|meal| meal.open.is_some()) {
        let text = "the next of that name from today on, is open: it holds nothing yet that could be exchanged";
        let file = &meal.at.file;
        return Err(Failure::Usage(format!("{}, {text}. Fill it first in {file}, by hand or with spence compose --write.", called(meal))));
    }
    let change = Change::begin(&setting)?;
    let text = change.text(&first.at.file)?;
    let texts = if first.at.file == second.at.file {
        let text = exchange_meals(&text, &first.at, &second.at).map_err(|why| not_edited(&first.at, &why))?;
        vec![(first.at.file.as_str(), text)]
    } else {
        let other = change.text(&second.at.file)?;
        let (here, there) = exchange_meals_between((&text, &first.at), (&other, &second.at)).map_err(|why| not_edited(&first.at, &why))?;
        vec![(first.at.file.as_str(), here), (second.at.file.as_str(), there)]
    };
    let files: Vec<&str> = texts.iter().map(|(file, _)| *file).collect();
    refuse_new_mistakes(&setting, change.tried(&texts), &files)?;
    let after = change.write(&texts)?;
    tell(cli, &[first, second], &format!("{} and {} exchange what they hold", called(first), called(second)))?;
    if files.len() > 1 {
        remark(
            "the two are of different weeks: each name means the next meal of that name from today on. Exchange them again to take it back.",
        );
    }
    tell_what_follows(&setting, after, &files);
    Ok(())
}

/// An exchange that makes a mistake of its weeks is not written.
fn refuse_new_mistakes(setting: &Setting, after: Result<Loaded, Failure>, files: &[&str]) -> Done {
    let after = after.map_err(|failure| brought_about(failure, files))?;
    let after = Setting::of(setting.folder.clone(), after, setting.booked.clone(), setting.today);
    let weeks = (0..after.loaded.weeks.len()).filter(|week| files.contains(&after.loaded.weeks[*week].0.as_str()));
    for week in weeks {
        // What cannot be planned as it stands is no fault of the exchange.
        if let (Ok(_), Err(failure)) = (setting.reckon_week(week), after.reckon_week(week)) {
            return Err(brought_about(failure, files));
        }
    }
    Ok(())
}

/// Lines of a text that nobody has are not named.
fn brought_about(failure: Failure, files: &[&str]) -> Failure {
    let Failure::Mistakes(mistakes) = failure else { return failure };
    let told = |mistake: Mistake| {
        let is_changed = files.contains(&mistake.at.file.as_str());
        let at = if is_changed { Spot { line: 0, column: 0, ..mistake.at } } else { mistake.at };
        let remedy = format!("{} Change the meals before they are exchanged, or exchange them by hand.", ended(&mistake.remedy));
        Mistake { at, cause: format!("the exchange would bring about that {}", mistake.cause), remedy }
    };
    Failure::Mistakes(mistakes.into_iter().map(told).collect())
}

/// What the change brings about in its weeks: short falls, flags, and what cannot be planned any more.
fn tell_what_follows(setting: &Setting, after: Loaded, files: &[&str]) {
    let before = said_of(setting, files);
    let now = said_of(&Setting::of(setting.folder.clone(), after, setting.booked.clone(), setting.today), files);
    now.iter().filter(|(words, _)| !before.iter().any(|(known, _)| known == words)).for_each(|(_, text)| remark(text));
}

/// All that is said of some weeks: by its words, for lines move, with its place.
fn said_of(setting: &Setting, files: &[&str]) -> Vec<(String, String)> {
    let weeks = (0..setting.loaded.weeks.len()).filter(|week| files.contains(&setting.loaded.weeks[*week].0.as_str()));
    let of_week = |week: usize| match setting.reckon_week(week) {
        Ok(reckoned) => {
            let names = reckoned.kitchen.names();
            let list = reckoned.list(Shown { all: false, compared: false });
            let flag = |flag: &Flag| format!("{}: {}", names.food(flag.food), untimely(&flag.why));
            let flags = list.flags.iter().map(flag).map(|text| (text.clone(), text));
            reckoned.warnings.iter().map(|warning| (warning.words(), warning.to_string())).chain(flags).collect::<Vec<_>>()
        }
        Err(Failure::Mistakes(mistakes)) => mistakes.iter().map(|mistake| (mistake.cause.clone(), mistake.to_string())).collect(),
        // What else fails is told by the verb that plans next.
        Err(_) => Vec::new(),
    };
    weeks.flat_map(of_week).unique().collect()
}

/// "Thu supper on Thu 3 Dec" is said once: "Thu 3 Dec supper".
fn called(meal: &Meal) -> String {
    format!("{} {}", day(meal.at_time.date()), meal.word)
}

/// The next meal of that name from today on.
pub(super) fn meant<'s>(cli: &Cli, setting: &'s Setting, name: &str) -> Result<&'s Meal, Failure> {
    let weeks: Vec<usize> = match cli.week.as_deref() {
        Some(file) => vec![setting.week(Some(file))?],
        None => (0..setting.loaded.weeks.len()).collect(),
    };
    let weeks: Vec<_> = weeks.into_iter().map(|week| (week, &setting.loaded.weeks[week].1)).collect();
    let found = meal_to_come(&weeks, &setting.booked, setting.today, name);
    let (week, at) = found.map_err(|known| no_such_meal(setting, name, "to come", &known))?;
    let meal = setting.loaded.weeks[week].1.meals.iter().find(|meal| meal.at == at);
    meal.ok_or_else(|| no_such_meal(setting, name, "to come", &[]))
}

pub(super) fn not_edited(at: &Spot, why: &str) -> Failure {
    let remedy = "Change the file by hand.".to_owned();
    Failure::Mistakes(vec![Mistake { at: at.clone(), cause: format!("this cannot be edited: {why}"), remedy }])
}

/// Week files while they are changed: nobody books meanwhile.
pub(super) struct Change<'s> {
    setting: &'s Setting,
    files: Disk,
    _lock: crate::store::Locked,
}

impl Change<'_> {
    pub fn begin(setting: &Setting) -> Result<Change<'_>, Failure> {
        let files = Disk::new(&setting.folder);
        let lock = files.lock(LOCK).map_err(|error| Failure::writing(&setting.folder.join(LOCK), &error))?;
        Ok(Change { setting, files, _lock: lock })
    }

    pub fn text(&self, file: &str) -> Result<String, Failure> {
        let path = self.setting.folder.join(file);
        text_of(&path).map_err(|error| Failure::Machine(format!("cannot read {}: {error}.", path.display())))
    }

    /// The household as it would be read with these texts.
    pub fn tried(&self, texts: &[(&str, String)]) -> Result<Loaded, Failure> {
        let plain: Vec<(&str, &str)> = texts.iter().map(|(file, text)| (*file, text.as_str())).collect();
        Ok(load_with(&self.setting.folder, &plain)?)
    }

    /// Writes all, once the household's reader has read them back; else nothing. Gives what was read.
    pub fn write(&self, texts: &[(&str, String)]) -> Result<Loaded, Failure> {
        let loaded = self.tried(texts)?;
        let failed = |file: &str, error| Failure::writing(&self.setting.folder.join(file), &error);
        for (file, text) in texts {
            let new = format!("{file}.new");
            let written = self.files.write(&new, text.as_bytes()).and_then(|()| self.files.sync(&new));
            if let Err(error) = written {
                // What was never written cannot be removed, and need not be.
                texts.iter().for_each(|(file, _)| drop(self.files.remove(&format!("{file}.new"))));
                return Err(failed(file, error));
            }
        }
        for (file, _) in texts {
            self.files.rename(&format!("{file}.new"), file).map_err(|error| failed(file, error))?;
        }
        Ok(loaded)
    }
}

fn tell(cli: &Cli, meals: &[&Meal], what: &str) -> Done {
    match cli.format {
        Format::Json => say(&json(&crate::json::changed_meals(meals))?),
        Format::Text => {
            let mut files: Vec<&str> = meals.iter().map(|meal| meal.at.file.as_str()).collect();
            files.dedup();
            say(&format!("{}: {}\n", sentence(what), files.join(", ")))
        }
    }
}
