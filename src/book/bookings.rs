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
use super::sum::{last_standing, reversed};
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

/// What a trip brought, with the prices that go into shops.toml.
pub fn bought(kitchen: &Kitchen, shelf: &[LotRecord], next: &NextTrip, goods: &[Goods], prices: Vec<PriceChange>, today: Date) -> Booking {
    let on = next.trip.on;
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    put_all(kitchen, &mut bench, goods, on);
    let changes = bench.finish();
    let what = format!("bought {}: {} ({})", day(on), counted(changes.len(), "lot"), next.week);
    Booking { covers: vec![trip_key(on)], prices, ..Booking::new(today, Verb::Receive, what, changes) }
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

/// What some meals of a week ate; `meals` are their places in it.
pub fn eaten(kitchen: &Kitchen, shelf: &[LotRecord], week: &Week, plan: (&Makings, &Demanded), meals: &[usize], today: Date) -> Draft {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    let missing = meals.iter().flat_map(|&meal| issue_meal(kitchen, &mut bench, week, plan, meal)).collect();
    let labels: Vec<&str> = meals.iter().map(|&meal| week.meals[meal].label.as_str()).collect();
    let what = format!("eaten: {} ({})", labels.join(", "), week.name);
    let covers = meals.iter().map(|&meal| meal_key(&week.meals[meal])).collect();
    Draft { booking: Booking { covers, ..Booking::new(today, Verb::Issue, what, bench.finish()) }, missing }
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
    let line = read_line(what, &kitchen.foods).map_err(NotWasted::Unread)?;
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    let taken = match &line.of {
        LineOf::Food { food, item: Some(item) } => match kitchen.foods.find(food) {
            Some(id) => take_food(kitchen, &mut bench, id, item),
            None => Err(NotTaken::NoLot),
        },
        LineOf::Food { item: None, .. } => return Err(NotWasted::NoAmount),
        LineOf::Recipe { id, amount } => match kitchen.recipes.iter().position(|recipe| recipe.id == *id) {
            Some(index) => take_recipe(kitchen, &mut bench, RecipeId(index), &amount.most(kitchen.rules.spoons), None),
            None => Err(NotTaken::NoLot),
        },
    };
    let (missing, dimension) = taken.map_err(|not| match not {
        NotTaken::NoLot => NotWasted::NoLot,
        NotTaken::NotComparable => NotWasted::NotComparable,
    })?;
    let prices = Prices::new(kitchen);
    let mut changes = bench.finish();
    for change in &mut changes {
        change.worth = worth_taken(kitchen, &prices, change);
    }
    let missing = (missing.0 > 0).then(|| format!("{} of it", show(&Quantity::of(&dimension, missing.0), kitchen.print.units)));
    let booking = Booking::new(today, Verb::Waste, format!("thrown away: {}", what.trim()), changes);
    Ok(Draft { booking: Booking { why: Some(why.trim().to_owned()), ..booking }, missing: missing.into_iter().collect() })
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

/// What takes back the last booking that stands; `None` at the opening of the book.
pub fn taken_back(book: &Book, today: Date) -> Option<Booking> {
    let last = last_standing(&book.bookings)?;
    let what = format!("taken back, number {}: {}", last.number, last.what);
    let prices = last.prices.iter().rev().map(PriceChange::reversed).collect();
    Some(Booking { takes_back: Some(last.number), prices, ..Booking::new(today, Verb::Undo, what, reversed(last)) })
}
