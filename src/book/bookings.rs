//! Bookings in full: what is written into the book of a trip, a session, meals, what was thrown away, a count, and what is taken back.

use jiff::civil::Date;

use super::bench::Bench;
use super::booked::{count_key, meal_key, session_key, trip_key};
use super::booking::{Booking, Change, Verb};
use super::chain::Book;
use super::issue::{issue_meal, issue_session};
use super::next::NextTrip;
use super::out::{NotTaken, take_food, take_recipe, worth_taken};
use super::receive::{Goods, put_all};
use super::record::LotRecord;
use super::sum::{last_standing, reversed, standing};
use crate::kitchen::{CountForm, Kitchen, LineError, LineOf, PriceChange, RecipeId, Week, read_line};
use crate::measure::{Quantity, show};
use crate::plan::{Demanded, Makings};
use crate::prep::Turnover;
use crate::shelf::Prices;
use crate::words::{clock, counted, day};

/// A booking, and in words what it should have taken and the shelf does not hold.
#[derive(Debug, Clone)]
pub struct Draft {
    pub booking: Booking,
    pub missing: Vec<String>,
}

/// What a trip brought, with the prices that go into shops.toml. `lines` are those it settles, where others stay open.
pub fn bought(
    kitchen: &Kitchen,
    shelf: &[LotRecord],
    next: &NextTrip,
    (goods, lines): (&[Goods], Option<Vec<String>>),
    prices: Vec<PriceChange>,
    today: Date,
) -> Booking {
    let on = next.trip.on;
    let changes = put_down(kitchen, shelf, goods, next.as_of);
    let later = if next.as_of == on { String::new() } else { format!(" on {}", day(next.as_of)) };
    let part = if lines.is_some() { ", in part" } else { "" };
    let what = format!("bought {}{later}{part}: {} ({})", day(on), counted(changes.len(), "lot"), next.week);
    let covers = lines.unwrap_or_else(|| vec![trip_key(on, next.nth)]);
    Booking { covers, prices, ..Booking::new(today, Verb::Receive, what, changes) }
}

/// What was bought on a day beside the plan.
pub fn bought_beside(kitchen: &Kitchen, shelf: &[LotRecord], goods: &[Goods], on: Date, today: Date) -> Booking {
    let changes = put_down(kitchen, shelf, goods, on);
    let lines: Vec<&str> = goods.iter().filter_map(|bought| bought.also.as_deref()).collect();
    Booking::new(today, Verb::Receive, format!("bought {} beside the plan: {}", day(on), lines.join(", ")), changes)
}

fn put_down(kitchen: &Kitchen, shelf: &[LotRecord], goods: &[Goods], on: Date) -> Vec<Change> {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    put_all(kitchen, &mut bench, goods, on);
    bench.finish()
}

/// What a session of `week` took and left cooked.
pub fn cooked(kitchen: &Kitchen, shelf: &[LotRecord], session: &Turnover, week: &str, today: Date) -> Draft {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    let start = session.start;
    let missing = issue_session(kitchen, &mut bench, session);
    let what = format!("cooked {} at {} ({week})", day(start.date()), clock(start));
    let booking = Booking { covers: vec![session_key(start)], ..Booking::new(today, Verb::Issue, what, bench.finish()) };
    Draft { booking, missing }
}

/// Meals of one week that were eaten, by their places in it.
#[derive(Debug, Clone, Copy)]
pub struct Eaten<'p> {
    pub week: &'p Week,
    pub makings: &'p Makings,
    pub demanded: &'p Demanded,
    pub meals: &'p [usize],
}

/// What some meals ate, and what was eaten beside the plan, as in "3 eggs".
///
/// # Errors
/// The line that is no amount of something on the shelf, and why.
pub fn eaten<'l>(
    kitchen: &Kitchen,
    shelf: &[LotRecord],
    weeks: &[Eaten],
    also: &'l [String],
    today: Date,
) -> Result<Draft, (&'l str, NotWasted)> {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    let (mut missing, mut covers, mut said) = (Vec::new(), Vec::new(), Vec::new());
    for &Eaten { week, makings, demanded, meals } in weeks {
        missing.extend(meals.iter().flat_map(|&meal| issue_meal(kitchen, &mut bench, week, (makings, demanded), meal)));
        covers.extend(meals.iter().map(|&meal| meal_key(&week.meals[meal])));
        let labels: Vec<&str> = meals.iter().map(|&meal| week.meals[meal].label.as_str()).collect();
        said.push(format!("{} ({})", labels.join(", "), week.name));
    }
    for line in also {
        let not_there = take_line(kitchen, &mut bench, line).map_err(|not| (line.as_str(), not))?;
        missing.extend(not_there.map(|amount| format!("{amount} of {}", line.trim())));
    }
    if !also.is_empty() {
        let lines: Vec<&str> = also.iter().map(|line| line.trim()).collect();
        said.push(format!("{} beside the plan", lines.join(", ")));
    }
    let what = format!("eaten: {}", said.join("; "));
    Ok(Draft { booking: Booking { covers, ..Booking::new(today, Verb::Issue, what, bench.finish()) }, missing })
}

/// Why nothing was thrown away.
#[derive(Debug, Clone, PartialEq)]
pub enum NotWasted {
    Unread(LineError),
    NoAmount,
    NoLot,
    NotComparable,
}

/// What is thrown away, as in "200 g feta".
///
/// # Errors
/// A line that is no amount of something on the shelf.
pub fn thrown_away(kitchen: &Kitchen, shelf: &[LotRecord], what: &str, why: &str, today: Date) -> Result<Draft, NotWasted> {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    let missing = take_line(kitchen, &mut bench, what)?.map(|amount| format!("{amount} of it"));
    let prices = Prices::new(kitchen);
    let mut changes = bench.finish();
    for change in &mut changes {
        change.worth = worth_taken(kitchen, &prices, change);
    }
    let booking = Booking::new(today, Verb::Waste, format!("thrown away: {}", what.trim()), changes);
    Ok(Draft { booking: Booking { why: Some(why.trim().to_owned()), ..booking }, missing: missing.into_iter().collect() })
}

/// Takes what a line names, past its dates or not, first expired first. Gives what the shelf did not hold of it, in words.
fn take_line(kitchen: &Kitchen, bench: &mut Bench, what: &str) -> Result<Option<String>, NotWasted> {
    let line = read_line(what, &kitchen.foods, kitchen.rules.spoons).map_err(NotWasted::Unread)?;
    let taken = match &line.of {
        LineOf::Food { food, item: Some(item) } => match kitchen.foods.find(food) {
            Some(id) => take_food(kitchen, bench, id, item),
            None => Err(NotTaken::NoLot),
        },
        LineOf::Food { item: None, .. } => return Err(NotWasted::NoAmount),
        LineOf::Recipe { id, amount } => match kitchen.recipes.iter().position(|recipe| recipe.id == *id) {
            Some(index) => take_recipe(kitchen, bench, RecipeId(index), &amount.most(kitchen.rules.spoons), None),
            None => Err(NotTaken::NoLot),
        },
    };
    let (missing, dimension) = taken.map_err(|not| match not {
        NotTaken::NoLot => NotWasted::NoLot,
        NotTaken::NotComparable => NotWasted::NotComparable,
    })?;
    Ok((missing.0 > 0).then(|| show(&Quantity::of(&dimension, missing.0), kitchen.print.units)))
}

/// What a count found otherwise than booked, of so many lots.
pub fn found(form: &CountForm, lots: usize, changes: Vec<Change>, today: Date) -> Booking {
    let differ = match changes.len() {
        0 => "all as booked".to_owned(),
        1 => "1 differs".to_owned(),
        many => format!("{many} differ"),
    };
    let what = format!("counted {}, {differ}", counted(lots, "lot"));
    Booking { covers: vec![count_key(form)], ..Booking::new(today, Verb::Count, what, changes) }
}

/// The bookings that stand, the last first.
pub fn shown(book: &Book) -> Vec<&Booking> {
    let mut standing = standing(&book.bookings);
    standing.sort_by_key(|booking| std::cmp::Reverse(booking.number));
    standing
}

/// What takes back the last booking that stands; `None` at the opening of the book.
pub fn taken_back(book: &Book, today: Date) -> Option<Booking> {
    last_standing(&book.bookings).map(|last| taking_back(last, today))
}

/// What takes back every booking after number `last`, the latest first.
pub fn taken_back_to(book: &Book, last: u64, today: Date) -> Vec<Booking> {
    let after = shown(book).into_iter().filter(|booking| booking.number > last && booking.verb != Verb::Opening);
    after.map(|booking| taking_back(booking, today)).collect()
}

fn taking_back(last: &Booking, today: Date) -> Booking {
    let what = format!("taken back, number {}: {}", last.number, last.what);
    let prices = last.prices.iter().rev().map(PriceChange::reversed).collect();
    Booking { takes_back: Some(last.number), prices, ..Booking::new(today, Verb::Undo, what, reversed(last)) }
}
