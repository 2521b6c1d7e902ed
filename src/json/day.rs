//! What a day asks for.

use jiff::civil::{Date, DateTime};
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::{AtTime, OnDate, minute};
use super::short::{Short, short};
use super::{Of, Theirs};
use crate::kitchen::{Kitchen, Names};
use crate::measure::{Quantity, Units};
use crate::prep::{CardCook, CardMeal, Moment};
use crate::purchase::TripList;
use crate::words;
use crate::{DayLot, DayPlan, DaySession};

#[derive(JsonSchema, Serialize)]
pub(super) struct Day<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    trips: Vec<Trip<'a>>,
    sessions: Vec<Session<'a>>,
    meals: Vec<Meal<'a>>,
    short: Vec<Short>,
    /// What is soaked, marinated or thawed on that day.
    before: Vec<Errand>,
    tonight: Vec<String>,
    goes_off: Vec<GoesOff<'a>>,
    /// What may not be eaten any more, and lies there still.
    past: Vec<Past<'a>>,
    /// What to take care of with what is made or added at its meals, each with its source.
    cautions: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct Trip<'a> {
    shops: Vec<&'a str>,
    lines: usize,
    cost: String,
    planned: bool,
}

#[derive(JsonSchema, Serialize)]
struct Session<'a> {
    start: String,
    finish_by: Option<String>,
    people: Vec<&'a str>,
    makes: Vec<&'a str>,
}

#[derive(JsonSchema, Serialize)]
struct Errand {
    at: String,
    text: String,
}

#[derive(JsonSchema, Serialize)]
struct Past<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: &'a Quantity,
    place: &'static str,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
}

#[derive(JsonSchema, Serialize)]
struct Meal<'a> {
    meal: &'a str,
    name: Option<&'a str>,
    #[schemars(with = "Option<AtTime>")]
    begin_by: Option<String>,
    take_out: Vec<TakeOut<'a>>,
    text: Option<&'a str>,
    /// Who eats otherwise, and what.
    otherwise: &'a [String],
    /// What the packets must tell for who is allergic.
    not_known: &'a [String],
    /// What a small child may choke on.
    choking: &'a [String],
    add: &'a [String],
    /// What of it is cooked by itself: raw amount, minutes, and when to start.
    cook: Vec<String>,
    make: Vec<Make<'a>>,
}

#[derive(JsonSchema, Serialize)]
struct TakeOut<'a> {
    recipe: &'a str,
    #[serde(flatten)]
    whose: Theirs,
    amounts: &'a [Quantity],
    place: Option<&'static str>,
    r#box: Option<&'a str>,
    then: Option<String>,
}

#[derive(JsonSchema, Serialize)]
struct Make<'a> {
    recipe: &'a str,
    steps: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct GoesOff<'a> {
    #[serde(flatten)]
    of: Of<'a>,
    #[serde(flatten)]
    whose: Theirs,
    amount: &'a Quantity,
    place: &'static str,
}

pub fn day<'a>(day: &'a DayPlan, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    Day {
        on: day.on,
        trips: day.trips.iter().map(|trip| of_trip(trip, names)).collect(),
        sessions: day.sessions.iter().map(|session| of_session(session, names)).collect(),
        meals: day.meals.iter().map(|(meal, begin)| of_meal(meal, *begin, names, units)).collect(),
        short: short(&day.short, kitchen),
        before: day.before.iter().map(|one| Errand { at: moment(one.at), text: one.errand.text(names, units) }).collect(),
        tonight: day.tonight.iter().map(|errand| errand.text(names, units)).collect(),
        goes_off: day.goes_off.iter().map(|lot| of_lot(lot, names)).collect(),
        past: day.past.iter().map(|lot| of_past(lot, names)).collect(),
        cautions: day.cautions.iter().map(|care| care.with_source(names)).collect(),
    }
}

fn of_trip<'a>(trip: &'a TripList, names: Names<'a>) -> Trip<'a> {
    let shops = trip.shops.iter().filter_map(|visit| visit.at).map(|stop| names.shop(stop.shop)).collect();
    Trip { shops, lines: trip.lines().count(), cost: names.money(trip.cost), planned: trip.planned }
}

fn of_session<'a>(session: &'a DaySession, names: Names<'a>) -> Session<'a> {
    Session {
        start: minute(session.start),
        finish_by: session.finish_by.map(minute),
        people: session.people.iter().map(|person| person.name.as_str()).collect(),
        makes: session.makes.iter().map(|recipe| names.recipe_file(*recipe)).collect(),
    }
}

fn moment(at: Moment) -> String {
    match at {
        Moment::On(date) => date.to_string(),
        Moment::At(at) => minute(at),
    }
}

fn of_lot<'a>(lot: &'a DayLot, names: Names<'a>) -> GoesOff<'a> {
    GoesOff {
        of: Of::ware(lot.of, names),
        whose: Theirs::of(lot.whose.as_ref(), names),
        amount: &lot.amount,
        place: words::place(lot.place),
    }
}

fn of_past<'a>(lot: &'a DayLot, names: Names<'a>) -> Past<'a> {
    Past {
        of: Of::ware(lot.of, names),
        whose: Theirs::of(lot.whose.as_ref(), names),
        amount: &lot.amount,
        place: words::place(lot.place),
        until: lot.until,
    }
}

fn of_meal<'a>(meal: &'a CardMeal, begin_by: Option<DateTime>, names: Names<'a>, units: Units) -> Meal<'a> {
    let take_out = meal.dishes.iter().map(|dish| TakeOut {
        recipe: names.recipe_file(dish.recipe),
        whose: Theirs::of(dish.whose.as_ref(), names),
        amounts: &dish.amounts,
        place: dish.place.map(words::place),
        r#box: dish.boxed.as_deref(),
        then: dish.then.text(names, units),
    });
    let make = meal.made.iter().map(|making| Make {
        recipe: names.recipe_file(making.recipe),
        steps: making.steps.iter().map(|step| step.text(names, units)).collect(),
    });
    Meal {
        meal: &meal.label,
        name: meal.name.as_deref(),
        begin_by: begin_by.map(minute),
        take_out: take_out.collect(),
        text: meal.text.as_deref(),
        otherwise: &meal.otherwise,
        not_known: &meal.not_known,
        choking: &meal.choking,
        add: &meal.fresh,
        cook: meal.cook.iter().map(CardCook::text).collect(),
        make: make.collect(),
    }
}
