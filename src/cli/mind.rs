//! `skip` and `exchange`: a meal falls out, or two meals change places, written into the week's file.

use itertools::Itertools;
use jiff::ToSpan;

use super::issue::no_such_meal;
use super::outcome::{Done, Failure, json, remark, say};
use super::printed::text_of;
use super::setting::Setting;
use super::{Cli, Format};
use crate::book::{is_called, meal_to_come};
use crate::kitchen::much::{for_whom, much_of};
use crate::kitchen::{Loaded, Meal, Mistake, Spot, Ware, exchange_meals, exchange_meals_between, load_with, skip_meal};
use crate::plan::Move;
use crate::purchase::Flag;
use crate::shelf::after_days;
use crate::store::{Disk, Files, LOCK};
use crate::telling::list::untimely;
use crate::words::{day, ended, sentence};
use crate::{Reckoning, Shown};

pub fn skip(cli: &Cli, name: &str) -> Done {
    let setting = Setting::read(cli)?;
    let meal = meant(cli, &setting, name)?;
    let change = Change::begin(&setting)?;
    let text = skip_meal(&change.text(&meal.at.file)?, &meal.at).map_err(|why| not_edited(&meal.at, &why))?;
    let texts = [(meal.at.file.as_str(), text)];
    let after = setting.with(change.tried(&texts)?);
    change.write(&texts)?;
    tell(cli, &[meal], &format!("{} falls out", called(meal)))?;
    let skipped_before = |other: &&Meal| other.skip && is_called(other, name) && other.at_time.date() >= setting.today;
    for other in setting.weeks().flat_map(|week| &week.meals).filter(skipped_before).filter(|other| other.at_time < meal.at_time) {
        remark(&format!("{} was skipped before; this is the next of that name.", called(other)));
    }
    let files = [meal.at.file.as_str()];
    tell_what_follows(&reckoned(&setting, &files), &reckoned(&after, &files));
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
    let after = setting.with(change.tried(&texts).map_err(|failure| brought_about(failure, &files))?);
    let (before, now) = (reckoned(&setting, &files), reckoned(&after, &files));
    let now = without_new_mistakes(&before, now, &files)?;
    change.write(&texts)?;
    tell(cli, &[first, second], &format!("{} and {} exchange what they hold", called(first), called(second)))?;
    if files.len() > 1 {
        remark(
            "the two are of different weeks: each name means the next meal of that name from today on. Exchange them again to take it back.",
        );
    }
    tell_what_follows(&before, &now);
    Ok(())
}

/// Some weeks, each reckoned or refused.
type Reckoned<'s> = Vec<Result<Reckoning<'s>, Failure>>;

fn reckoned<'s>(setting: &'s Setting, files: &[&str]) -> Reckoned<'s> {
    let weeks = (0..setting.loaded.weeks.len()).filter(|week| files.contains(&setting.loaded.weeks[*week].0.as_str()));
    weeks.map(|week| setting.reckon_week(week)).collect()
}

/// An exchange that makes a mistake of its weeks is not written. What could not be planned before is no fault of the exchange.
fn without_new_mistakes<'s>(before: &Reckoned, now: Reckoned<'s>, files: &[&str]) -> Result<Reckoned<'s>, Failure> {
    let each = before.iter().zip(now).map(|(before, now)| match (before, now) {
        (Ok(_), Err(failure)) => Err(brought_about(failure, files)),
        (_, now) => Ok(now),
    });
    each.collect()
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
fn tell_what_follows(before: &Reckoned, now: &Reckoned) {
    before.iter().zip(now).for_each(|pair| thawed(pair).iter().for_each(|text| remark(text)));
    let (before, now) = (said_of(before), said_of(now));
    now.iter().filter(|(words, _)| !before.iter().any(|(known, _)| known == words)).for_each(|(_, text)| remark(text));
}

/// What was to be moved from the freezer the evening before, for a meal that does not take it any more: nobody books that it was moved.
fn thawed((before, now): (&Result<Reckoning, Failure>, &Result<Reckoning, Failure>)) -> Vec<String> {
    let (Ok(before), Ok(now)) = (before, now) else { return Vec::new() };
    let is_there = |moved: &&Move| now.makings.moves.iter().any(|other| other == *moved);
    let gone = before.makings.moves.iter().filter(|moved| moved.late && !is_there(moved));
    let told = |moved: &Move| {
        let (names, then) = (before.kitchen.names(), moved.on.saturating_sub(1.day()));
        let much =
            much_of(names, Ware::Recipe(moved.recipe), &moved.amount, before.kitchen.print.units) + &for_whom(names, moved.whose.as_ref());
        let until = after_days(then, before.kitchen.recipes[moved.recipe].fridge.unwrap_or_default());
        format!(
            "{much}: to be moved from the freezer to the fridge on {}. If it was, it keeps until {}: write place = \"fridge\" and use_by = \
             {until} for its lot into pantry.toml.",
            day(then),
            day(until)
        )
    };
    gone.map(told).collect()
}

/// All that is said of some weeks: by its words, for lines move, with its place.
fn said_of(weeks: &Reckoned) -> Vec<(String, String)> {
    let of_week = |week: &Result<Reckoning, Failure>| match week {
        Ok(reckoned) => {
            let names = reckoned.kitchen.names();
            let list = reckoned.list(Shown::default());
            let flag = |flag: &Flag| format!("{}: {}", names.food(flag.food), untimely(&flag.why));
            let flags = list.flags.iter().map(flag).map(|text| (text.clone(), text));
            reckoned.warnings.iter().map(|warning| (warning.words(), warning.to_string())).chain(flags).collect::<Vec<_>>()
        }
        Err(Failure::Mistakes(mistakes)) => mistakes.iter().map(|mistake| (mistake.cause.clone(), mistake.to_string())).collect(),
        // What else fails is told by the verb that plans next.
        Err(_) => Vec::new(),
    };
    weeks.iter().flat_map(of_week).unique().collect()
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

    /// Writes all, or nothing. The household's reader has read them back: [`Change::tried`].
    pub fn write(&self, texts: &[(&str, String)]) -> Done {
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
