//! Who sits at a meal: `for`, `guests`, `instead` and `without` of a meal, `for` and `away` of its week.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use toml::de::DeValue;

use super::eaters::{shunned, ware};
use super::hint;
use super::lines::Speech;
use super::shapes;
use super::source::Findings;
use super::table::{Reading, Table};
use crate::kitchen::{Diner, Household, Ingredient, Spot, Ware, Who};
use crate::measure::Number;

/// What a week says of who eats at its meals.
#[derive(Debug)]
pub(super) struct AtWeek {
    /// A number: nobody is named.
    eaters: Option<f64>,
    /// Places in the household's eaters.
    named: Option<Vec<usize>>,
    away: BTreeMap<usize, BTreeSet<Date>>,
}

/// The lines of a meal.
pub(super) struct Lines<'l> {
    pub each: &'l [Ingredient],
    pub shared: &'l [Ingredient],
}

pub(super) fn read_at_week(top: &Table<'_>, household: &Household) -> AtWeek {
    let eaters = top.optional("eaters", shapes::positive);
    let named = read_for(top, household);
    if top.has("eaters") && top.has("for") {
        top.mistake("eaters", "eaters stands beside for", "Keep one of the two: a number, or names.");
    }
    AtWeek { eaters, named, away: read_away(top, household) }
}

fn read_for(table: &Table<'_>, household: &Household) -> Option<Vec<usize>> {
    let names = table.texts("for")?;
    let mut named = Vec::new();
    for (name, at) in names {
        if let Some(eater) = eater_named(&name, &at, household, table.file.found) {
            if named.contains(&eater) {
                table.file.found.mistake(at, format!("\"{name}\" is named twice"), "Name each eater once.");
            } else {
                named.push(eater);
            }
        }
    }
    named.sort_unstable();
    Some(named)
}

fn eater_named(name: &str, at: &Spot, household: &Household, found: &Findings) -> Option<usize> {
    let place = household.named.iter().position(|eater| eater.name.eq_ignore_ascii_case(name.trim()));
    if place.is_none() {
        let names: Vec<&str> = household.named.iter().map(|eater| eater.name.as_str()).collect();
        let remedy = hint::did_you_mean(name, names.iter().copied(), "Name the eaters in kitchen.toml, as [[eater]].");
        found.mistake(at.clone(), format!("there is no eater \"{}\"", name.trim()), remedy);
    }
    place
}

fn read_away(top: &Table<'_>, household: &Household) -> BTreeMap<usize, BTreeSet<Date>> {
    let mut away: BTreeMap<usize, BTreeSet<Date>> = BTreeMap::new();
    let Some(table) = named_table(top, "away", "{ Emil = [\"2026-12-02/2026-12-04\"] }") else { return away };
    for (name, entry) in table.entries() {
        let at = table.file.source.spot(entry.start);
        let eater = eater_named(name, &at, household, table.file.found);
        let single = std::slice::from_ref(entry.value);
        let items: Vec<(&DeValue<'_>, Spot)> = match entry.value {
            DeValue::Array(items) => items.iter().map(|item| (item.get_ref(), table.file.source.spot(item.span().start))).collect(),
            _ => single.iter().map(|value| (value, at.clone())).collect(),
        };
        for (value, at) in items {
            match days(value) {
                Ok(days) => away.entry(eater.unwrap_or(usize::MAX)).or_default().extend(days),
                Err(error) => table.file.found.wrong(at, error),
            }
        }
    }
    away
}

/// `2026-12-02`, or from the first day to the last: `2026-12-02/2026-12-04`.
fn days(value: &DeValue<'_>) -> shapes::Read<Vec<Date>> {
    let Some((from, to)) = value.as_str().and_then(|text| text.split_once('/')) else { return Ok(vec![shapes::date(value)?]) };
    let date = |text: &str| shapes::date(&DeValue::String(text.trim().to_owned().into()));
    let (from, to) = (date(from)?, date(to)?);
    let days: Vec<Date> = from.series(jiff::ToSpan::day(1)).take_while(|day| *day <= to).take(MOST_DAYS + 1).collect();
    if days.is_empty() || days.len() > MOST_DAYS {
        return Err(crate::measure::ReadError {
            cause: format!("{from} to {to} is no span of days within a year"),
            remedy: "Write the first day, a slash and the last day: \"2026-12-02/2026-12-04\".".to_owned(),
        });
    }
    Ok(days)
}

const MOST_DAYS: usize = 366;

/// The table of `key`, whose own keys are names.
fn named_table<'t>(table: &Table<'t>, key: &str, example: &str) -> Option<Table<'t>> {
    let entry = table.entry(key)?;
    if !matches!(entry.value, DeValue::Table(_)) {
        table.mistake(key, format!("{key}: expected a table of names"), format!("Write it like {example}."));
        return None;
    }
    // Any name may stand in it; a line in it that is a table has the keys of its own heading.
    let file = Reading { also: |heading, _| heading.is_empty(), ..table.file };
    Table::open(entry, "<names>", file)
}

/// How many portions the meal is for, and who eats them; nobody in particular where a number alone is known.
pub(super) fn read_diners(
    table: &Table<'_>,
    on: Option<Date>,
    week: &AtWeek,
    household: &Household,
    lines: &Lines<'_>,
    speech: &mut Speech<'_>,
) -> (f64, Vec<Diner>) {
    let number = table.optional("eaters", shapes::positive);
    let own_for = read_for(table, household);
    for key in ["for", "instead", "without"].into_iter().filter(|key| table.has("eaters") && table.has(key)) {
        table.mistake("eaters", format!("eaters stands beside {key}"), format!("Keep one of the two: a number, or names with {key}."));
    }
    let number = number.or(week.eaters.filter(|_| own_for.is_none() && !table.has("eaters")));
    let mut diners = Vec::new();
    let guests = read_guests(table, household, speech);
    match number {
        Some(number) if guests.is_empty() => return (number, guests),
        Some(number) => diners.push(Diner::new("everybody", Who::Anybody, Number::from(number))),
        None if household.named.is_empty() && guests.is_empty() => {
            refuse_names(table);
            return (household.eaters, guests);
        }
        None if household.named.is_empty() => {
            diners.push(Diner::new("everybody", Who::Anybody, Number::from(household.eaters)));
        }
        None => diners.extend(at_table(table, on, own_for, week, household)),
    }
    diners.extend(guests);
    // Whoever is named in `for` and does not eat is told there.
    let is_told = table.entry("for").is_some_and(|named| !matches!(named.value, DeValue::Array(names) if names.is_empty()));
    if diners.is_empty() && !is_told {
        let remedy = "Name somebody in for, add guests, or take the meal out.";
        table.file.found.mistake(table.spot(), "nobody eats at this meal", remedy);
    }
    for diner in &mut diners {
        take_swaps(diner, household, lines, speech);
    }
    read_instead(table, &mut diners, speech);
    read_without(table, &mut diners, speech);
    let sum: Number = diners.iter().map(|diner| &diner.share).sum();
    (sum.to_f64(), diners)
}

fn refuse_names(table: &Table<'_>) {
    for key in ["instead", "without"].into_iter().filter(|key| table.has(key)) {
        table.mistake(key, format!("{key} needs names, and nobody is named"), "Name the eaters in kitchen.toml, as [[eater]].");
    }
}

fn at_table(table: &Table<'_>, on: Option<Date>, own: Option<Vec<usize>>, week: &AtWeek, household: &Household) -> Vec<Diner> {
    let is_away = |eater: &usize| on.is_some_and(|on| week.away.get(eater).is_some_and(|days| days.contains(&on)));
    if let Some(away) = own.iter().flatten().find(|eater| is_away(eater)) {
        let name = &household.named[*away].name;
        table.mistake("for", format!("{name} is away on this day"), format!("Take {name} out of for, or the day out of away."));
    }
    let all = || (0..household.named.len()).collect();
    let named = own.or_else(|| week.named.clone()).unwrap_or_else(all);
    let there = named.into_iter().filter(|eater| !is_away(eater));
    there.map(|eater| Diner::new(&household.named[eater].name, Who::Eater(eater), household.named[eater].share.clone())).collect()
}

/// `guests = 2`, or `guests = [{ name = "Ana", allergic = ["milk"] }]`: each one portion.
fn read_guests(table: &Table<'_>, household: &Household, speech: &mut Speech<'_>) -> Vec<Diner> {
    if !matches!(table.entry("guests").map(|entry| entry.value), Some(DeValue::Array(_))) {
        let count = table.optional("guests", shapes::whole(0)).filter(|count| *count > 0);
        return count.map(|count| Diner::new("guests", Who::Guest, Number::from(count))).into_iter().collect();
    }
    let mut guests: Vec<Diner> = Vec::new();
    for guest in table.each("guests", "[[meal.guests]]") {
        let name = guest.required("name", "\"Ana\"", shapes::text);
        let (allergic, avoid) = (shunned(&guest, "allergic", speech), shunned(&guest, "avoid", speech));
        let Some(name) = name else { continue };
        let mut names = household.named.iter().map(|eater| &eater.name).chain(guests.iter().map(|guest| &guest.name));
        if names.any(|other| other.eq_ignore_ascii_case(&name)) {
            guest.mistake("name", format!("somebody else is named \"{name}\""), "Give the guest a name of its own.");
        }
        guests.push(Diner { allergic, avoid, ..Diner::new(name, Who::Guest, Number::ONE) });
    }
    guests
}

/// An eater's standing exchanges, as far as this meal serves what they speak of.
fn take_swaps(diner: &mut Diner, household: &Household, lines: &Lines<'_>, speech: &Speech<'_>) {
    let Who::Eater(eater) = diner.who else { return };
    let swaps = &household.named[eater].swap;
    diner.without.extend(swaps.iter().map(|swap| swap.from));
    diner.take_swaps(swaps, (lines.each, lines.shared), |ware| match ware {
        Ware::Food(food) => speech.foods[food].name.clone(),
        Ware::Recipe(recipe) => speech.recipes.name(recipe.0).to_owned(),
    });
}

fn read_instead(table: &Table<'_>, diners: &mut [Diner], speech: &mut Speech<'_>) {
    let Some(names) = named_table(table, "instead", "{ Emil = [\"1 portion recipe:plain-mash\"] }") else { return };
    for (name, entry) in names.entries() {
        let lines = speech.lines(&names, name, "[[meal.each]]");
        if let Some(diner) = diner_named(name, &names.file.source.spot(entry.start), diners, speech.found) {
            // What is written here is wanted, whatever the standing exchanges say.
            diner.without.retain(|ware| lines.iter().all(|line| line.ware() != *ware));
            diner.instead = Some(lines);
            diner.swapped.retain(|swapped| swapped.shared);
        }
    }
}

fn read_without(table: &Table<'_>, diners: &mut [Diner], speech: &mut Speech<'_>) {
    let Some(names) = named_table(table, "without", "{ Emil = [\"tahini\"] }") else { return };
    for (name, entry) in names.entries() {
        let words = names.texts(name).unwrap_or_default();
        let wares: Vec<(Ware, Spot)> = words.iter().filter_map(|(word, at)| Some((ware(word, at, speech)?, at.clone()))).collect();
        let Some(diner) = diner_named(name, &names.file.source.spot(entry.start), diners, speech.found) else { continue };
        for (ware, _) in wares {
            if !diner.without.contains(&ware) {
                diner.without.push(ware);
            }
        }
    }
}

fn diner_named<'d>(name: &str, at: &Spot, diners: &'d mut [Diner], found: &Findings) -> Option<&'d mut Diner> {
    let names: Vec<String> = diners.iter().filter(|diner| diner.who != Who::Anybody).map(|diner| diner.name.clone()).collect();
    let place = diners.iter().position(|diner| diner.who != Who::Anybody && diner.name.eq_ignore_ascii_case(name.trim()));
    if place.is_none() {
        let remedy = hint::did_you_mean(name, names.iter().map(String::as_str), "Name the eaters in kitchen.toml, as [[eater]].");
        found.mistake(at.clone(), format!("\"{name}\" does not eat at this meal"), remedy);
    }
    place.map(|place| &mut diners[place])
}
