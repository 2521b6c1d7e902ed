//! `skip` and `exchange`: a meal falls out, or two meals change places, written into the week's file.

use super::issue::no_such_meal;
use super::outcome::{Done, Failure, json, say};
use super::printed::text_of;
use super::setting::Setting;
use super::{Cli, Format};
use crate::book::meal_to_come;
use crate::kitchen::{Meal, Mistake, Spot, exchange_meals, exchange_meals_between, load_with, skip_meal};
use crate::store::{Disk, Files, LOCK};
use crate::words::{day, sentence};

pub fn skip(cli: &Cli, name: &str) -> Done {
    let setting = Setting::read(cli)?;
    let meal = meant(cli, &setting, name)?;
    let change = Change::begin(&setting)?;
    let text = skip_meal(&change.text(&meal.at.file)?, &meal.at).map_err(|why| not_edited(&meal.at, &why))?;
    change.write(&[(meal.at.file.as_str(), text)])?;
    tell(cli, &[meal], &format!("{} falls out", called(meal)))
}

pub fn exchange(cli: &Cli, one: &str, other: &str) -> Done {
    let setting = Setting::read(cli)?;
    let (first, second) = (meant(cli, &setting, one)?, meant(cli, &setting, other)?);
    if first.at == second.at {
        return Err(Failure::Usage(format!("\"{}\" and \"{}\" are one meal.", one.trim(), other.trim())));
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
    change.write(&texts)?;
    tell(cli, &[first, second], &format!("{} and {} exchange what they hold", called(first), called(second)))
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
    let (week, at) = found.map_err(|known| Failure::Usage(no_such_meal(name, "to come", &known)))?;
    let meal = setting.loaded.weeks[week].1.meals.iter().find(|meal| meal.at == at);
    meal.ok_or_else(|| Failure::Usage(no_such_meal(name, "to come", &[])))
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

    /// Writes all, once the household's reader has read them back; else nothing.
    pub fn write(&self, texts: &[(&str, String)]) -> Done {
        let plain: Vec<(&str, &str)> = texts.iter().map(|(file, text)| (*file, text.as_str())).collect();
        load_with(&self.setting.folder, &plain)?;
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
        Ok(())
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
