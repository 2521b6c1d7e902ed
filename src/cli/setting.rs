//! What every verb needs first: the kitchen, the week that is meant, and today.

use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;
use jiff::civil::Date;

use super::Cli;
use super::book_told::{mistake_of, say_note};
use super::outcome::Failure;
use super::printed::printed;
use crate::book::{
    Booked, Entry, NotBooked, Verb, at_their_new_days, at_their_new_starts, cut_short_behind_pantry, cut_within_its_first_line,
    lost_booking, mend_if_cut_short, printed_trips_moved, read_entries, records,
};
use crate::json::Printed;
use crate::kitchen::{Kitchen, Loaded, Lot, Mistake, Spot, Warning, Week, find_kitchen, load, strays};
use crate::plan::{running, span, week_of};
use crate::store::BOOK;
use crate::words::{in_a_sentence, listed};
use crate::{Reckoning, Walk, has_begun, reckon_beside, shelf_as_taken, waits_to_be_booked};

/// A kitchen that has been read, and what is booked of it.
pub struct Setting {
    pub folder: PathBuf,
    pub loaded: Loaded,
    pub booked: Booked,
    pub today: Date,
    /// What was reckoned of the other weeks.
    walk: Walk,
    /// The week whose print cannot be read and is about to be written anew.
    replaced: Option<usize>,
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
        Setting::read_with_entries(cli, |_| false).map(|(setting, _)| setting)
    }

    /// The same, with the bookings that stand of the verbs that are wanted, the last first; `None` where the book is not sound.
    pub fn read_with_entries(cli: &Cli, wanted: impl Fn(Verb) -> bool) -> Result<(Setting, Option<Vec<Entry>>), Failure> {
        let folder = folder(cli)?;
        mend_if_cut_short(&folder).iter().for_each(say_note);
        let mut loaded = load(&folder)?;
        // Without a sound book nothing is known to be booked: that is told first of all, and what can be told from pantry.toml follows.
        let (booked, entries) = match read_entries(&folder, wanted) {
            Ok((ledger, entries)) => {
                let lost = lost_booking(&folder, ledger.last.as_ref()).map(|note| Warning::Note { at: None, text: note.to_string() });
                let cut = cut_within_its_first_line(ledger.bookings as usize, ledger.fragment.is_some());
                let cut = cut.map(|note| Warning::Note { at: None, text: note.to_string() });
                let behind = cut_short_behind_pantry(&folder, &ledger).map(|broken| {
                    let text = format!("{} What that line booked counts as not booked here.", mistake_of(broken));
                    Warning::Note { at: None, text }
                });
                lost.into_iter().chain(cut).chain(behind).for_each(|warning| loaded.warnings.insert(0, warning));
                (Booked::told_by(&ledger), Some(entries))
            }
            Err(not) => {
                loaded.warnings.insert(0, Warning::Note { at: None, text: without_the_book(not) });
                (Booked::not_read(), None)
            }
        };
        Ok((Setting::of(folder, loaded, booked, today(cli)), entries))
    }

    pub fn of(folder: PathBuf, mut loaded: Loaded, mut booked: Booked, today: Date) -> Setting {
        booked.tell_prices(&mut loaded.kitchen);
        let trips = booked.follow_moved_trips(&loaded.weeks);
        let moved = booked.follow_moved(&loaded.weeks);
        let renamed = booked.follow_renamed(&loaded.weeks);
        loaded.warnings.extend(trips.into_iter().chain(moved).chain(renamed));
        loaded.warnings.extend(days_to_come(&loaded.kitchen, &booked, today));
        Setting { folder, loaded, booked, today, walk: Walk::default(), replaced: None }
    }

    /// The same household, once its files read otherwise.
    pub fn with(&self, loaded: Loaded) -> Setting {
        Setting::of(self.folder.clone(), loaded, self.booked.clone(), self.today)
    }

    /// Tells the kitchen what the week that is meant pays for foods, where it can be reckoned: what money is told of lots goes by it.
    pub fn tell_week_prices(&mut self, cli: &Cli) {
        let week = self.week(cli.week.as_deref()).ok();
        let prices = week.and_then(|week| Some(self.reckon_week(week).ok()?.week_prices()));
        if let Some(prices) = prices {
            self.loaded.kitchen.week_prices = prices;
        }
    }

    /// Reckons a week, by its place among those read.
    pub fn reckon_week(&self, week: usize) -> Result<Reckoning<'_>, Failure> {
        self.with_prints(week, |prints| reckon_beside(&self.walk, &self.loaded, &self.booked, prints, week, self.today))
    }

    /// What is reckoned with the last prints of a week and of those beside it.
    pub fn with_prints<T>(
        &self,
        week: usize,
        reckoned: impl FnOnce(&[Option<crate::AsPrinted<'_>>]) -> Result<T, Vec<Mistake>>,
    ) -> Result<T, Failure> {
        let prints = self.prints(week)?;
        let prints: Vec<_> = prints.iter().map(|printed| printed.as_ref().map(Printed::print)).collect();
        reckoned(&prints).map_err(Failure::Mistakes)
    }

    /// The last day of the week that is meant, where there is one.
    pub fn last_day(&self, cli: &Cli) -> Option<Date> {
        self.week(cli.week.as_deref()).ok().map(|week| span(&self.loaded.weeks[week].1).1)
    }

    /// What of the weeks at hand is past and waits to be booked. What cannot be read of them is told by whoever plans.
    pub fn waiting(&self, file: Option<&Path>) -> Vec<Warning> {
        let weeks = self.weeks_at_hand(file).unwrap_or_default();
        let of_week = |week: usize| {
            let printed = self.printed(week).ok()?;
            waits_to_be_booked(&self.loaded, &self.booked, printed.as_ref().map(Printed::print), week, self.today)
        };
        weeks.into_iter().filter_map(of_week).collect()
    }

    /// The shelf as what is taken as done left it; `None` where nothing is, or where what is cannot be read: that is told by whoever plans.
    pub fn shelf_as_taken(&self, file: Option<&Path>) -> Option<Vec<Lot>> {
        if self.waiting(file).is_empty() {
            return None;
        }
        let week = self.week(file).ok()?;
        self.with_prints(week, |prints| Ok(shelf_as_taken(&self.loaded, &self.booked, prints, week, self.today))).ok()
    }

    /// As [`Self::reckon_week`], for what plans its sessions: a step whose appliance is out of order is a mistake.
    pub fn reckon_sessions(&self, week: usize) -> Result<Reckoning<'_>, Failure> {
        let reckoned = self.reckon_week(week)?;
        let mistakes = reckoned.out_of_order();
        if mistakes.is_empty() { Ok(reckoned) } else { Err(Failure::Mistakes(mistakes)) }
    }

    /// The last prints of a week and of those beside it, as far as they have begun: what is past of them was done as printed.
    fn prints(&self, week: usize) -> Result<Vec<Option<Printed>>, Failure> {
        let (first, last) = span(&self.loaded.weeks[week].1);
        let counts = |other: &Week| {
            let (from, until) = span(other);
            first <= until && from <= last && has_begun(other, &self.booked, self.today)
        };
        let read = |(place, other): (usize, &Week)| if counts(other) { self.printed(place) } else { Ok(None) };
        self.weeks().enumerate().map(read).collect()
    }

    /// The last print of a week, its trips and sessions at the days and starts that they have now; `None` where it has none, or one that is about to be written anew.
    pub fn printed(&self, week: usize) -> Result<Option<Printed>, Failure> {
        if self.replaced == Some(week) {
            return Ok(None);
        }
        let file = &self.loaded.weeks[week].1;
        let mut printed = printed(&self.folder, &self.loaded.kitchen, file)?;
        if let Some(printed) = &mut printed {
            printed.turnovers = at_their_new_starts(&printed.turnovers, file);
            let moved = printed_trips_moved(&printed.buys, file);
            printed.buys = at_their_new_days(&printed.buys, &moved);
            printed.hashes =
                std::mem::take(&mut printed.hashes).into_iter().map(|(trip, hash)| (*moved.get(&trip).unwrap_or(&trip), hash)).collect();
        }
        Ok(printed)
    }

    /// Whoever prints a week writes its print anew: one that cannot be read is then in nobody's way, unless something was booked by it.
    ///
    /// # Errors
    /// A print that cannot be read, of a week of which something is booked.
    pub fn print_anew(&mut self, week: usize) -> Result<Option<Warning>, Failure> {
        let Err(Failure::Mistakes(mut mistakes)) = self.printed(week) else { return Ok(None) };
        if self.has_booked_of(&self.loaded.weeks[week].1) {
            let remedy = "What is booked was booked by it. Put a copy of it back; or take it away and print again: what is past and not \
                          booked is then taken as planned.";
            mistakes.iter_mut().for_each(|mistake| remedy.clone_into(&mut mistake.remedy));
            return Err(Failure::Mistakes(mistakes));
        }
        self.replaced = Some(week);
        let said: Vec<String> = mistakes.iter().map(|mistake| format!("{}: {}", mistake.at.file, mistake.cause)).collect();
        let text = format!(
            "{}. It is written anew: what is past is taken as planned, not as printed, and a calendar that has read an earlier print may then hold events twice.",
            said.join("; ")
        );
        Ok(Some(Warning::Note { at: None, text }))
    }

    fn has_booked_of(&self, week: &Week) -> bool {
        let trip = |(nth, trip): (usize, &crate::kitchen::Trip)| (0..=nth).any(|nth| self.booked.has_trip(trip.on, nth));
        week.trips.iter().enumerate().any(trip)
            || week.sessions.iter().any(|session| self.booked.has_session(session.start))
            || week.meals.iter().any(|meal| self.booked.has_meal(meal))
    }

    /// The week that is meant; where none was named, then those that contain today, too.
    pub fn weeks_at_hand(&self, file: Option<&Path>) -> Result<Vec<usize>, Failure> {
        let meant = self.week(file)?;
        let mut weeks = vec![meant];
        if file.is_none() {
            weeks.extend(running(self.weeks(), self.today).into_iter().filter(|week| *week != meant));
        }
        Ok(weeks)
    }

    /// The first week that begins after today.
    pub fn next_week(&self) -> Option<usize> {
        let first = |week: &Week| span(week).0;
        let to_come = self.weeks().enumerate().filter(|(_, week)| first(week) > self.today);
        to_come.min_by_key(|(_, week)| first(week)).map(|(place, _)| place)
    }

    pub fn weeks(&self) -> impl Iterator<Item = &Week> {
        self.loaded.weeks.iter().map(|(_, week)| week)
    }

    /// The place of the week that is meant among those read.
    pub fn week(&self, file: Option<&Path>) -> Result<usize, Failure> {
        let weeks = &self.loaded.weeks;
        let Some(file) = file else {
            return week_of(self.weeks(), self.today).ok_or_else(|| no_week(&self.folder));
        };
        let named = |known: &str| {
            let known = Path::new(known);
            file == known
                || Some(file.as_os_str()) == known.file_name()
                || Some(file.as_os_str()) == known.file_stem()
                || same_file(file, &self.folder.join(known))
        };
        weeks.iter().position(|(known, _)| named(known)).ok_or_else(|| {
            let known = weeks.iter().map(|(known, _)| known.as_str()).collect::<Vec<_>>().join(", ");
            Failure::Usage(format!("{} is no week of {}. There are: {known}.", file.display(), self.folder.display()))
        })
    }
}

/// Lots that say a day after today of what must have been: their keeping would be reckoned from there. One warning for those of one day.
/// What a booking put there was told when it was booked.
fn days_to_come(kitchen: &Kitchen, booked: &Booked, today: Date) -> Vec<Warning> {
    let mut of_days: Vec<(String, Vec<&Lot>)> = Vec::new();
    for (lot, record) in kitchen.lots.iter().zip(records(kitchen)) {
        let days = [("since", lot.since), ("opened", lot.opened), ("made", lot.made)];
        let later = days.into_iter().filter_map(|(key, day)| Some((key, day.filter(|day| *day > today)?)));
        let said = listed(&later.map(|(key, day)| format!("{key} = {day}")).collect::<Vec<_>>());
        match of_days.iter_mut().find(|(known, _)| *known == said) {
            _ if said.is_empty() || booked.has_put(&record) => (),
            Some((_, lots)) => lots.push(lot),
            None => of_days.push((said, vec![lot])),
        }
    }
    let told = |(said, lots): (String, Vec<&Lot>)| {
        let names: Vec<String> = lots.iter().map(|lot| in_a_sentence(kitchen.names().ware(lot.of))).collect();
        let others: Vec<String> = lots.iter().skip(1).map(|lot| lot.at.to_string()).collect();
        let likewise = if others.is_empty() { String::new() } else { format!(" Likewise {}.", listed(&others)) };
        let text = format!(
            "{said} of {} is after today, {today}: it counts as there, and its keeping from that day on. Write the day on which it was, or \
             leave it out.{likewise}",
            listed(&names)
        );
        Warning::Note { at: lots.first().map(|lot| lot.at.clone()), text }
    };
    of_days.into_iter().map(told).collect()
}

fn without_the_book(not: NotBooked) -> String {
    let why = match not {
        NotBooked::Broken(broken) => mistake_of(broken).to_string(),
        not => match Failure::from(not) {
            Failure::Machine(why) => why,
            _ => format!("{BOOK} cannot be read."),
        },
    };
    format!("{why} What is past is taken to stand in pantry.toml already: this is from pantry.toml alone, as if nothing were booked.")
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

fn no_week(folder: &Path) -> Failure {
    let missing = Mistake {
        at: Spot { file: "weeks".to_owned(), ..Spot::default() },
        cause: "no week is planned".to_owned(),
        remedy: "Add a file with a from date, sessions and meals.".to_owned(),
    };
    Failure::Mistakes(std::iter::once(missing).chain(strays(folder)).collect())
}
