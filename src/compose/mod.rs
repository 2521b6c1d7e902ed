//! Composing the week: which meals fill what a week leaves open, so that nothing spoils, nobody is bored, and afternoon and budget hold.
//!
//! ```text
//! Trials (the week without its open meals) ─┐
//! Wishes ([compose], rules.prefer) ─────────┼─> Table: gaps, ways, what each way breaks ── search: rules, true stages, bound ─> Proposal or Clash
//! meals.toml, fits ── Ways ─────────────────┘
//! ```
//!
//! A proposal is priced by the stages of the list itself, and its sessions are planned as the guide plans them. Every hard rule stands once,
//! in [`rules`]; what is best among the allowed is [`value`]. Knows no terminal, no file, no JSON.

mod alike;
mod at_once;
mod bound;
mod clash;
mod count;
mod eaten;
mod far;
mod floor;
mod guess;
mod minutes;
mod proposal;
mod rules;
pub mod say;
mod scarce;
mod search;
mod stands;
mod table;
#[cfg(test)]
mod tests;
mod value;
mod ways;
mod why;
mod wish;
mod wishes;

use jiff::civil::Date;

use crate::book::Booked;
use crate::kitchen::{Loaded, Meal, Mistake, Open, Week};
use crate::prep::Effort;
use crate::reckon::{AsPrinted, open_meals, trials};
use clash::Ruled;
pub use clash::{Clash, Clashing, HowMuch, Served};
pub use count::{Count, count};
pub use proposal::{DaySum, FilledMeal, GoesOff, Proposal, Stays, StaysOpen};
use proposal::{proposal, stay_open};
use search::{Chosen, Found, best, best_from};
use table::{Look, Table};
pub use why::{Share, Why};
pub use wish::{Nutrient, Wish};
use wishes::Wishes;

/// What is asked for.
#[derive(Debug, Clone, Default)]
pub struct Asking {
    pub effort: Effort,
    /// One meal, by its place in the week: the best other filling of it, everything else held.
    pub refill: Option<usize>,
    /// So many proposals further.
    pub another: usize,
    /// Nothing is bought.
    pub from_shelf: bool,
}

/// What composing came to.
#[derive(Debug, Clone)]
pub enum Composed {
    Proposal(Box<Proposal>),
    /// Nothing is allowed.
    Clash(Box<Clash>),
    /// Every week that differs was proposed before, or the meal has no other filling.
    NothingElse {
        proven: bool,
    },
    /// The week as it is written.
    NothingOpen(Box<Proposal>),
}

/// Composes a week, by its place in `loaded`.
///
/// # Errors
/// What keeps the written meals alone from being reckoned.
pub fn compose(
    loaded: &Loaded,
    booked: &Booked,
    prints: &[Option<AsPrinted>],
    (index, today): (usize, Date),
    asking: &Asking,
) -> Result<Composed, Vec<Mistake>> {
    let week = &loaded.weeks[index].1;
    let mut open = open_meals(week, today);
    let refilled = asking.refill.filter(|meal| !open.contains(meal));
    // A written meal is filled anew beside the others as they are written; open ones stay open.
    if let Some(meal) = refilled {
        open = vec![meal];
    }
    let stay = stay_open(week, &open, today);
    let trials = trials(loaded, booked, prints, (index, &open), today)?;
    let others: Vec<&Week> = loaded.weeks.iter().enumerate().filter(|(other, _)| *other != index).map(|(_, (_, week))| week).collect();
    let wishes = Wishes::of(&trials.kitchen, week);
    let lines: Vec<Open> = open.iter().map(|place| lines(&week.meals[*place])).collect();
    let mut table = Table::lay(&trials, wishes, &lines, &others, asking.from_shelf);
    if open.is_empty() {
        return Ok(Composed::NothingOpen(Box::new(as_written(&table, &stay, asking.effort))));
    }
    if let Some(meal) = refilled {
        return Ok(refill_written(&mut table, &week.meals[meal], &stay, asking));
    }
    let options = options(&table);
    let first = match first_proposal(&mut table, &options, asking.effort) {
        Ok(found) => found,
        Err(clash) => return Ok(Composed::Clash(clash)),
    };
    Ok(match chosen_of(&mut table, &options, week, first, asking) {
        Ok((chosen, found)) => Composed::Proposal(Box::new(proposal(&table, (&chosen, &found), &stay, asking.effort))),
        Err(found) => Composed::NothingElse { proven: found.complete },
    })
}

/// The best week there is, or what clashes.
fn first_proposal(table: &mut Table, options: &[Vec<Option<u32>>], effort: Effort) -> Result<Found, Box<Clash>> {
    let mut found = best(table, options, effort);
    if found.best.is_none() && !table.written_flags.is_empty() {
        // What is written is bought too early, whatever is composed beside it.
        table.excused = table.written_flags.clone();
        found = best(table, options, effort);
    }
    if found.best.is_some() {
        return Ok(found);
    }
    match clash::clash(table, options, &found, effort) {
        Ruled::Clash(clash) => Err(clash),
        Ruled::Allowed(allowed) => Ok(best_from(table, options, allowed, effort)),
    }
}

/// From the first proposal to the one that is asked for: so many others further, then one meal of it filled anew. The error is the search
/// that found nothing.
fn chosen_of(
    table: &mut Table,
    options: &[Vec<Option<u32>>],
    week: &Week,
    first: Found,
    asking: &Asking,
) -> Result<(Chosen, Found), Found> {
    let mut found = first;
    let mut chosen = found.best.as_ref().map(|(first, _)| first.clone()).unwrap_or_default();
    let next = |found: Found| match &found.best {
        Some((next, _)) => Ok((next.clone(), found)),
        None => Err(found),
    };
    for _ in 0..asking.another {
        table.before.push(chosen);
        (chosen, found) = next(best(table, options, asking.effort))?;
    }
    if let Some(meal) = asking.refill {
        let spot = &week.meals[meal].at;
        let gap = table.gaps.iter().position(|gap| table.trials.whole.meals[gap.meal].at == *spot);
        let gap = gap.ok_or_else(|| Found { complete: true, ..Found::default() })?;
        table.before.clear();
        (chosen, found) = next(best(table, &all_but(options, &chosen, gap), asking.effort))?;
    }
    Ok((chosen, found))
}

/// One meal may take whatever it does not have, the others what they have.
fn all_but(options: &[Vec<Option<u32>>], chosen: &Chosen, gap: usize) -> Vec<Vec<Option<u32>>> {
    let held = |(place, way): (usize, &Option<u32>)| match place == gap {
        true => options[gap].iter().copied().filter(|option| option != way).collect(),
        false => vec![*way],
    };
    chosen.iter().enumerate().map(held).collect()
}

/// What the week is where nothing of it is to be filled.
fn as_written(table: &Table, stay: &[StaysOpen], effort: Effort) -> Proposal {
    let net = table.judge(&[], Look::Thoroughly, effort).value.map_or(0, |value| value.net);
    let found = Found { bound: net, proven: true, complete: true, ..Found::default() };
    proposal(table, (&Vec::new(), &found), stay, effort)
}

/// What a meal holds besides the places to be filled; a written one is filled anew from nothing.
fn lines(meal: &Meal) -> Open {
    meal.open.clone().unwrap_or_default()
}

fn options(table: &Table) -> Vec<Vec<Option<u32>>> {
    let of_gap = |gap: &ways::Gap| {
        let ways = gap.ways.iter().map(|way| Some(*way));
        ways.chain(table.from_shelf.then_some(None)).collect()
    };
    table.gaps.iter().map(of_gap).collect()
}

/// The best filling of a written meal that is another than the one it has.
fn refill_written(table: &mut Table, meal: &Meal, stay: &[StaysOpen], asking: &Asking) -> Composed {
    let now = eaten::eaten(table.kitchen(), meal);
    let other = |way: &Option<u32>| way.is_none_or(|way| !table.is_like(way, &now));
    let options: Vec<Vec<Option<u32>>> = options(table).into_iter().map(|options| options.into_iter().filter(other).collect()).collect();
    let found = best(table, &options, asking.effort);
    if options.iter().all(Vec::is_empty) && table.gaps.iter().all(|gap| !gap.ways.is_empty()) {
        return Composed::NothingElse { proven: true };
    }
    // What the meal holds now is no way to fill it anew, whatever is loosened.
    let same: Vec<u32> = table.barred.iter().flatten().map(|(way, _)| *way).filter(|way| table.is_like(*way, &now)).collect();
    table.barred.iter_mut().for_each(|barred| barred.retain(|way, _| !same.contains(way)));
    let found = match found.best {
        Some(_) => found,
        None => match clash::clash(table, &options, &found, asking.effort) {
            Ruled::Clash(clash) => return Composed::Clash(clash),
            Ruled::Allowed(allowed) => best_from(table, &options, allowed, asking.effort),
        },
    };
    let chosen = found.best.as_ref().map(|(chosen, _)| chosen.clone()).unwrap_or_default();
    Composed::Proposal(Box::new(proposal(table, (&chosen, &found), stay, asking.effort)))
}
