//! Bookings in full: what is written into the book of a trip, a session, meals, what was thrown away, a count, and what is taken back.

use std::collections::BTreeMap;

use jiff::civil::{Date, Time};

use super::bench::Bench;
use super::booked::Booked;
use super::booking::{Booking, Change, InWeek, Verb};
use super::chain::Book;
use super::goods::Goods;
use super::issue::{Missing, issue_meal, issue_session, made_in};
use super::keys::{count_key, meal_key, session_key, trip_key};
use super::lacks::Lack;
use super::made_good::make_good;
use super::next::NextTrip;
use super::out::{NotTaken, TookOf, take_food, take_recipe, worth_taken};
use super::receive::put_all;
use super::record::LotRecord;
use super::sum::{last_standing, reversed};
use crate::kitchen::much::much_of;
use crate::kitchen::{CountForm, Kitchen, LineError, LineOf, PriceChange, Recipe, RecipeId, Ware, Week, read_line};
use crate::measure::{Money, Quantity, show};
use crate::plan::{Demanded, Makings, span};
use crate::prep::Turnover;
use crate::purchase::Seller;
use crate::shelf::{Prices, When};
use crate::words::{clock, counted, day_near, in_a_sentence, listed};

/// A booking, and what it should have taken and the shelf does not hold.
#[derive(Debug, Clone)]
pub struct Draft {
    pub booking: Booking,
    pub missing: Vec<Missing>,
}

impl Draft {
    /// What is missing, a line each: "200 g feta".
    pub fn missing_words(&self) -> Vec<String> {
        self.missing.iter().filter_map(|missing| missing.words.clone()).collect()
    }
}

/// What a trip brought, with the prices that go into shops.toml. `lines` are those it settles, where others stay open.
pub fn bought(
    kitchen: &Kitchen,
    (booked, shelf): (&Booked, &[LotRecord]),
    next: &NextTrip,
    (goods, lines): (&[Goods], Option<Vec<String>>),
    prices: Vec<PriceChange>,
    today: Date,
) -> Booking {
    let on = next.trip.on;
    let mut lacks = booked.lacks();
    let (changes, made_good) = put_down(kitchen, shelf, goods, next.as_of, &mut lacks);
    let later = if next.as_of == on { String::new() } else { format!(" on {}", day_near(next.as_of, today)) };
    let part = if lines.is_some() { ", in part" } else { "" };
    let what = format!(
        "bought {}{later}{part}: {} ({})",
        day_near(on, today),
        counted(changes.iter().filter(|change| change.is_bought()).count(), "lot"),
        next.week
    );
    let what = what + &at_once(kitchen, &made_good);
    let covers = lines.unwrap_or_else(|| vec![trip_key(on, next.trip.nth)]);
    let mut fares = fares(kitchen, goods);
    // The way to a shop is paid once a trip, however often its lines are booked.
    let paid = booked.fares_paid(on, next.trip.nth);
    fares.retain(|shop, _| !paid.contains(shop.as_str()));
    Booking { covers, fares, prices, made_good, ..Booking::new(today, Verb::Receive, what, changes) }
}

/// What it costs to get to the shops of these goods.
fn fares(kitchen: &Kitchen, goods: &[Goods]) -> BTreeMap<String, i64> {
    let shops = goods.iter().filter_map(|bought| if let Seller::Shop(shop) = bought.from { Some(&kitchen.shops[shop]) } else { None });
    shops.filter(|shop| shop.trip > Money::ZERO).map(|shop| (shop.name.clone(), shop.trip.0)).collect()
}

/// What was bought on a day beside the plan.
pub fn bought_beside(kitchen: &Kitchen, shelf: &[LotRecord], goods: &[Goods], on: Date, today: Date) -> Booking {
    let (changes, _) = put_down(kitchen, shelf, goods, on, &mut Vec::new());
    let lines: Vec<&str> = goods.iter().filter_map(|bought| bought.also.as_deref()).collect();
    Booking::new(today, Verb::Receive, format!("bought {} beside the plan: {}", day_near(on, today), lines.join(", ")), changes)
}

/// With what is taken off it at once, because sessions and meals that are booked already lacked it.
fn put_down(kitchen: &Kitchen, shelf: &[LotRecord], goods: &[Goods], on: Date, lacks: &mut Vec<Lack>) -> (Vec<Change>, Vec<Lack>) {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    put_all(&kitchen.foods, &kitchen.lots, &mut bench, goods, on);
    let made_good = make_good(kitchen, &mut bench, on.to_datetime(Time::midnight()), lacks);
    let mut changes = bench.finish();
    let shop = |bought: &Goods| if let Seller::Shop(shop) = bought.from { Some(kitchen.shops[shop].name.clone()) } else { None };
    let shops = goods.iter().flat_map(|bought| std::iter::repeat_n(shop(bought), bought.lots().len()));
    changes.iter_mut().zip(shops).for_each(|(change, shop)| change.shop = shop);
    (changes, made_good)
}

/// What a session of `week` took and left cooked; `file` is the week as its file has it.
pub fn cooked(
    kitchen: &Kitchen,
    (booked, shelf): (&Booked, &[LotRecord]),
    session: &Turnover,
    (week, last_day, file): (&str, Date, &Week),
    today: Date,
) -> Draft {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    bench.rank_undated(last_day);
    let start = session.start;
    let missing = issue_session(kitchen, &mut bench, session);
    let made_good = make_good(kitchen, &mut bench, start, &mut booked.lacks());
    let lacked = missing.iter().filter_map(|missing| missing.lack(kitchen, start)).collect();
    let what = format!("cooked {} at {} ({week})", day_near(start.date(), today), clock(start));
    let what = what + &at_once(kitchen, &made_good);
    let (covers, in_week) = (vec![session_key(start)], Some(InWeek::of(file)));
    let cooked = made_in(&kitchen.recipes, session);
    let booking = Booking { covers, in_week, cooked, lacked, made_good, ..Booking::new(today, Verb::Issue, what, bench.finish()) };
    Draft { booking, missing }
}

/// "; taken off at once, for what was booked before: 1 portion of moon mash".
fn at_once(kitchen: &Kitchen, made_good: &[Lack]) -> String {
    let mut sums: Vec<(Ware, Quantity)> = Vec::new();
    for lack in made_good {
        let (Some((of, _)), amount) = (lack.ware(kitchen), lack.amount.quantity()) else { continue };
        match sums.iter_mut().filter(|(other, _)| *other == of).find_map(|(_, sum)| sum.plus(&amount).map(|more| (sum, more))) {
            Some((sum, more)) => *sum = more,
            None => sums.push((of, amount)),
        }
    }
    let said = match sums.len() {
        0 => return String::new(),
        1..=MOST_NAMED => listed(&sums.iter().map(|(of, sum)| much_of(kitchen.names(), *of, sum, kitchen.print.units)).collect::<Vec<_>>()),
        more => counted(more, "food"),
    };
    format!("; taken off at once, for what was booked before: {said}")
}

/// More foods than these are counted.
const MOST_NAMED: usize = 4;

/// Meals of one week that were eaten, by their places in it.
#[derive(Debug, Clone, Copy)]
pub struct Eaten<'p> {
    pub week: &'p Week,
    pub makings: &'p Makings,
    pub demanded: &'p Demanded,
    pub meals: &'p [usize],
}

/// What some meals ate, and what was eaten beside the plan, as in "3 eggs": first what is not past its dates, lots without a date as of the
/// last day of the week at hand.
///
/// # Errors
/// The line that is no amount of something on the shelf, and why.
pub fn eaten<'l>(
    kitchen: &Kitchen,
    shelf: &[LotRecord],
    weeks: &[Eaten],
    (also, last_day): (&'l [String], Option<Date>),
    today: Date,
) -> Result<Draft, (&'l str, NotWasted)> {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    last_day.into_iter().for_each(|day| bench.rank_undated(day));
    let (mut missing, mut lacked, mut covers, mut said) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for &Eaten { week, makings, demanded, meals } in weeks {
        bench.rank_undated(span(week).1);
        for &meal in meals {
            let lacks = issue_meal(kitchen, &mut bench, week, (makings, demanded), meal);
            lacked.extend(lacks.iter().filter_map(|missing| missing.lack(kitchen, week.meals[meal].at_time)));
            missing.extend(lacks);
        }
        covers.extend(meals.iter().map(|&meal| meal_key(&week.meals[meal])));
        let labels: Vec<&str> = meals.iter().map(|&meal| week.meals[meal].label.as_str()).collect();
        let days = meals.iter().map(|&meal| week.meals[meal].at_time.date());
        let days = days.clone().min().zip(days.max()).map(|days| format!(", {}", of_days(days, today))).unwrap_or_default();
        said.push(format!("{} ({}){days}", labels.join(", "), week.name));
    }
    let mut lines = Vec::new();
    for line in also {
        let lacks = take_line(kitchen, &mut bench, line, &[When::On(today), When::Anyway(today)]).map_err(|not| (line.as_str(), not))?;
        let beside = |lacks: &Lacks| Missing::said(format!("{} of {}", lacks.missing, spoken(&kitchen.recipes, line)));
        missing.extend(lacks.iter().map(beside));
        lines.push(lacks.map_or_else(|| spoken(&kitchen.recipes, line), |lacks| lacks.there));
    }
    if !also.is_empty() {
        said.push(format!("{} beside the plan", lines.join(", ")));
    }
    let what = format!("eaten: {}", said.join("; "));
    Ok(Draft { booking: Booking { covers, lacked, ..Booking::new(today, Verb::Issue, what, bench.finish()) }, missing })
}

/// "on Mon 30 Nov", "from Mon 30 Nov to Wed 2 Dec".
fn of_days((first, last): (Date, Date), today: Date) -> String {
    if first == last {
        format!("on {}", day_near(first, today))
    } else {
        format!("from {} to {}", day_near(first, today), day_near(last, today))
    }
}

/// A line as it was typed, with a recipe's name in place of its id.
fn spoken(recipes: &[Recipe], line: &str) -> String {
    let Some((amount, rest)) = line.trim().split_once("recipe:") else { return line.trim().to_owned() };
    let id = rest.split(|letter: char| letter.is_whitespace() || letter == ',').next().unwrap_or_default();
    let recipe = recipes.iter().find(|recipe| recipe.id == id);
    recipe.map_or_else(|| line.trim().to_owned(), |recipe| format!("{amount}{}{}", in_a_sentence(&recipe.name), &rest[id.len()..]))
}

/// Why nothing was thrown away.
#[derive(Debug, Clone, PartialEq)]
pub enum NotWasted {
    Unread(LineError),
    NoAmount,
    /// Of something that is known, or of nothing.
    NoLot(Option<Ware>),
    NotComparable,
}

/// What is thrown away, as in "200 g feta"; lots without a date rank as of the last day of the week at hand.
///
/// # Errors
/// A line that is no amount of something on the shelf.
pub fn thrown_away(
    kitchen: &Kitchen,
    shelf: &[LotRecord],
    what: &str,
    why: &str,
    (last_day, today): (Option<Date>, Date),
) -> Result<Draft, NotWasted> {
    let mut bench = Bench::new(kitchen, shelf.to_vec());
    last_day.into_iter().for_each(|day| bench.rank_undated(day));
    let lacks = take_line(kitchen, &mut bench, what, &[When::Anyway(today)])?;
    let mut changes = bench.finish();
    worth_taken(kitchen, &Prices::new(kitchen), &mut changes);
    let missing = lacks.iter().map(|lacks| Missing::said(format!("{} of it", lacks.missing))).collect();
    let thrown = lacks.map_or_else(|| spoken(&kitchen.recipes, what), |lacks| lacks.there);
    let booking = Booking::new(today, Verb::Waste, format!("thrown away: {thrown}"), changes);
    Ok(Draft { booking: Booking { why: Some(why.trim().to_owned()), ..booking }, missing })
}

/// The shelf held less than a line names.
struct Lacks {
    /// What it held, with its name: "350 g feta".
    there: String,
    missing: String,
}

/// Takes what a line names from the lots that may be drawn, one [`When`] after the other; each first expired first.
fn take_line(kitchen: &Kitchen, bench: &mut Bench, what: &str, whens: &[When]) -> Result<Option<Lacks>, NotWasted> {
    let line = read_line(what, &kitchen.foods, kitchen.rules.spoons).map_err(NotWasted::Unread)?;
    let mut ware = None;
    let taken = match &line.of {
        LineOf::Food { food, item: Some(item) } => match kitchen.foods.find(food) {
            Some(id) => {
                ware = Some(Ware::Food(id));
                take_food(&kitchen.foods, &kitchen.rules, bench, id, item, whens)
            }
            None => Err(NotTaken::NoLot),
        },
        LineOf::Food { item: None, .. } => return Err(NotWasted::NoAmount),
        LineOf::Recipe { id, amount } => match kitchen.recipes.iter().position(|recipe| recipe.id == *id) {
            Some(index) => {
                ware = Some(Ware::Recipe(RecipeId(index)));
                take_recipe(&kitchen.recipes, bench, RecipeId(index), &amount.most(kitchen.rules.spoons), whens)
            }
            None => Err(NotTaken::NoLot),
        },
    };
    let TookOf { taken, missing, .. } = taken.map_err(|not| match not {
        NotTaken::NoLot => NotWasted::NoLot(ware),
        NotTaken::NotComparable => NotWasted::NotComparable,
    })?;
    let there = |ware| much_of(kitchen.names(), ware, &taken, kitchen.print.units);
    let lacks = |ware| Lacks { there: there(ware), missing: show(&missing, kitchen.print.units) };
    Ok(ware.filter(|_| !missing.is_zero()).map(lacks))
}

/// What a count found otherwise than booked, of so many lots.
pub fn found(form: &CountForm, lots: usize, changes: Vec<Change>, today: Date) -> Booking {
    let what = format!("counted {}, {}", counted(lots, "lot"), said_differ(&changes));
    Booking { covers: vec![count_key(form)], ..Booking::new(today, Verb::Count, what, changes) }
}

/// What a round of looking found otherwise than booked, of so many lots.
pub fn looked(lots: usize, changes: Vec<Change>, today: Date) -> Booking {
    Booking::new(today, Verb::Count, format!("looked at {}, {}", counted(lots, "lot"), said_differ(&changes)), changes)
}

fn said_differ(changes: &[Change]) -> String {
    // What is left of an opened pack follows the lot that the pack was one of, and differs with it.
    let is_of_the_one_before = |index: usize| {
        let closed = index.checked_sub(1).and_then(|before| changes[before].from.as_ref()).filter(|lot| lot.pack.is_some());
        let opened = changes[index].to.as_ref().filter(|_| changes[index].from.is_none());
        closed.zip(opened).is_some_and(|(closed, opened)| closed.named() == opened.named() && opened.opened.is_some())
    };
    match (0..changes.len()).filter(|&index| !is_of_the_one_before(index) && !changes[index].is_packed_otherwise()).count() {
        0 => "all as booked".to_owned(),
        1 => "1 differs".to_owned(),
        many => format!("{many} differ"),
    }
}

/// What takes back the last booking that stands; `None` at the opening of the book.
pub fn taken_back(book: &Book, today: Date) -> Option<Booking> {
    last_standing(&book.bookings).map(|last| taking_back(last, today))
}

/// What takes a booking back.
pub fn taking_back(last: &Booking, today: Date) -> Booking {
    let what = format!("taken back, number {}: {}", last.number, last.what);
    let prices = last.prices.iter().rev().map(PriceChange::reversed).collect();
    Booking { takes_back: Some(last.number), prices, ..Booking::new(today, Verb::Undo, what, reversed(last)) }
}
