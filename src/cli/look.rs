//! `look`: a round of the shelf before the shopping. Each lot that the open meals and the next week rely on is asked for; what is
//! answered is booked as a count.

use std::collections::BTreeSet;
use std::io::{self, BufRead, IsTerminal};

use super::keeping::{book, booked_all_the_same, open_with_prices, report, tell_what_counts_twice};
use super::outcome::{Done, Failure, json, say, warn};
use super::setting::Setting;
use super::{Cli, Format, count};
use crate::book::{CountLine, CountPlace, count as counted_otherwise, count_lines, differences, looked, records};
use crate::foods::Place;
use crate::kitchen::{CountForm, Counted, CountedLot, Spot, Warning};
use crate::measure::{InPacks, read_in_packs};
use crate::words::{day_year, place, sentence};

pub fn run(cli: &Cli) -> Done {
    let setting = Setting::read(cli)?;
    let asked = asked(cli, &setting)?;
    let is_json = cli.format == Format::Json;
    if asked.is_empty() && !is_json {
        return say("Nothing on the shelf is needed: there is nothing to look at.\n");
    }
    // Who asks for JSON from a keyboard wants to know what would be asked.
    let answers = if is_json && io::stdin().is_terminal() { Vec::new() } else { answers(&setting, &asked, is_json)? };
    let lots = answers.len();
    let form = CountForm { lots: answers, text: String::new(), warnings: Vec::new() };
    if lots == 0 {
        let nothing = differences(&setting.loaded.kitchen, &[]);
        let asked: Vec<&CountLine> = asked.iter().flat_map(|place| &place.lines).collect();
        return match cli.format {
            Format::Json => say(&json(&crate::json::look(&asked, 0, &nothing, &[], setting.loaded.kitchen.names()))?),
            Format::Text => say("\nNothing was looked at, and nothing is booked.\n"),
        };
    }
    let (setting, mut keeping) = open_with_prices(cli)?;
    let kitchen = &setting.loaded.kitchen;
    let (_, changes) = counted_otherwise(kitchen, &keeping.shelf, &form, setting.today).map_err(Failure::Mistakes)?;
    let differing = differences(kitchen, &changes);
    book(&mut keeping, looked(lots, changes, setting.today))?;
    match cli.format {
        Format::Json => {
            let asked: Vec<&CountLine> = asked.iter().flat_map(|place| &place.lines).collect();
            let answer = crate::json::look(&asked, lots, &differing, keeping.new_bookings(), kitchen.names());
            booked_all_the_same(say(&json(&answer)?))
        }
        Format::Text => {
            say("\n")?;
            report(cli, keeping.new_bookings(), &[])?;
            booked_all_the_same(say(&count::text(&differing, kitchen, lots, setting.today)))
        }
    }
}

/// The lots that the weeks at hand and the next one rely on, in the order of the shelf.
fn asked(cli: &Cli, setting: &Setting) -> Result<Vec<CountPlace>, Failure> {
    let mut weeks = setting.weeks_at_hand(cli.week.as_deref())?;
    if cli.week.is_none() {
        weeks.extend(setting.next_week());
    }
    weeks.dedup();
    let mut relied_on: BTreeSet<Spot> = BTreeSet::new();
    let mut warnings = setting.loaded.warnings.clone();
    for week in weeks {
        let reckoned = setting.reckon_week(week)?;
        warnings.extend(reckoned.warnings.iter().filter(|warning| !warnings.contains(warning)).cloned().collect::<Vec<_>>());
        relied_on.extend(reckoned.relied_on().into_iter().cloned());
    }
    let (waiting, others): (Vec<_>, Vec<_>) = warnings.into_iter().partition(|warning| matches!(warning, Warning::NotBooked { .. }));
    warn(&others, cli.strict)?;
    tell_what_counts_twice(cli, &waiting)?;
    let kitchen = &setting.loaded.kitchen;
    let mut places = count_lines(kitchen, &records(kitchen));
    let is_asked = |line: &CountLine| kitchen.lots.get(line.index).is_some_and(|lot| relied_on.contains(&lot.at));
    places.iter_mut().for_each(|place| place.lines.retain(is_asked));
    places.retain(|place| !place.lines.is_empty());
    Ok(places)
}

/// Asks for each lot; an empty answer leaves it as it is booked, and the end of the answers leaves the rest.
fn answers(setting: &Setting, asked: &[CountPlace], in_silence: bool) -> Result<Vec<CountedLot>, Failure> {
    let kitchen = &setting.loaded.kitchen;
    let (mut lines, mut counted) = (io::stdin().lock(), Vec::new());
    let is_terminal = io::stdin().is_terminal();
    let ask = |text: &str| if in_silence { Ok(()) } else { say(text) };
    ask(&format!("{}: a look at the shelf on {}\n", kitchen.household.name, day_year(setting.today)))?;
    ask("Is it there? yes, no, or how much; nothing where you did not look.\n")?;
    for shelf in asked {
        ask(&format!("\n{}\n", sentence(place(shelf.place))))?;
        for line in &shelf.lines {
            loop {
                ask(&format!("  {}? ", question(line)))?;
                let mut typed = String::new();
                let read = lines.read_line(&mut typed).map_err(|error| Failure::Machine(format!("cannot read the answers: {error}.")))?;
                if read == 0 {
                    return Ok(counted);
                }
                if !is_terminal {
                    // What was typed stands in no terminal then.
                    ask("\n")?;
                }
                match answer(setting, line, shelf.place, typed.trim()) {
                    Ok(found) => counted.extend(found),
                    Err(why) if is_terminal => {
                        ask(&format!("  {why}\n"))?;
                        continue;
                    }
                    Err(why) => return Err(Failure::Usage(format!("\"{}\" for {}: {why} Nothing was booked.", typed.trim(), line.name))),
                }
                break;
            }
        }
    }
    Ok(counted)
}

fn question(line: &CountLine) -> String {
    let about = if line.estimate { "about " } else { "" };
    let until = line.until.map(|until| format!(", until {about}{}", day_year(until))).unwrap_or_default();
    format!("{}, {}{until}", line.name, line.said)
}

/// `None` where nobody looked.
fn answer(setting: &Setting, line: &CountLine, place: Place, typed: &str) -> Result<Option<CountedLot>, String> {
    let kitchen = &setting.loaded.kitchen;
    let booked = || InPacks { amount: line.lot.amount.quantity(), pack: line.lot.pack.as_ref().map(|pack| pack.quantity()) };
    let counted = match typed.to_lowercase().as_str() {
        "" => return Ok(None),
        "y" | "yes" => Counted::Left { amount: booked(), bare: false },
        "n" | "no" | "none" | "0" => Counted::Gone,
        _ => {
            let amount = read_in_packs(typed, kitchen.rules.spoons).map_err(|error| format!("{}: {}.", error.cause, error.remedy))?;
            if !amount.amount.exact().is_positive() {
                return Err("write no where all of it is gone.".to_owned());
            }
            Counted::Left { amount, bare: typed.replace(',', ".").parse::<f64>().is_ok() }
        }
    };
    let lot = &line.lot;
    let counted = CountedLot {
        food: lot.food.clone(),
        recipe: lot.recipe.clone(),
        eater: lot.eater.clone(),
        without: lot.without.clone(),
        place,
        best_before: lot.best_before,
        use_by: lot.use_by,
        opened: lot.opened,
        since: lot.since,
        made: lot.made,
        booked: Some(booked()),
        counted: Some(counted),
        at: Spot::default(),
        counted_at: Spot::default(),
    };
    let alone = CountForm { lots: vec![counted.clone()], text: String::new(), warnings: Vec::new() };
    let tried = counted_otherwise(kitchen, std::slice::from_ref(lot), &alone, setting.today);
    tried.map(|_| Some(counted)).map_err(|mistakes| mistakes.iter().map(|one| format!("{}. {}", one.cause, one.remedy)).collect::<String>())
}
