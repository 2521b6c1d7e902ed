//! What a week puts into a calendar, from its typed answers.

use jiff::Span;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::{TimeZone, TimeZoneDatabase};
use serde::{Deserialize, Serialize};

use crate::kitchen::{Kitchen, Names, Week};
use crate::measure::Units;
use crate::plan::{MadeAt, Makings};
use crate::prep::{CardCook, CardDish, CardMeal, Errand, Moment, PrepPlan, SessionPlan, begin_by, meal_minutes, week_card};
use crate::purchase::{ShoppingList, TripList};
use crate::telling;
use crate::telling::short::at_the_meal;
use crate::words::{self, duration, in_a_sentence, listed};

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    Trip,
    Session,
    /// Soaking, thawing, moving: what is done before a session or a meal.
    Ahead,
    Meal,
}

/// An event as the plan stands, without what a calendar knows it by.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Planned {
    pub kind: Kind,
    /// What it is about, whenever it is: the name of a meal, the step of a recipe that is done ahead.
    pub about: String,
    pub on: Date,
    /// `None`: all day.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub at: Option<Time>,
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub until: Option<DateTime>,
    /// The zone that its times are of, by its IANA name; `None` where they float, and where it is all day.
    #[serde(skip_serializing_if = "Option::is_none", default)]
    pub zone: Option<String>,
    pub summary: String,
    pub description: String,
}

impl Planned {
    /// The moment it begins; midnight where it is all day.
    pub fn start(&self) -> DateTime {
        self.on.to_datetime(self.at.unwrap_or(Time::midnight()))
    }
}

/// What has only a day is to be done in its evening.
const EVENING: Time = Time::constant(20, 0, 0, 0);

/// Every event of a week, by time. `list` has every trip, the past ones too.
pub fn planned(kitchen: &Kitchen, week: &Week, makings: &Makings, list: &ShoppingList, prep: &PrepPlan) -> Vec<Planned> {
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let zone = kitchen.household.zone.as_deref().and_then(|zone| TimeZoneDatabase::bundled().get(zone).ok());
    let card = week_card(kitchen, week, makings);
    let mut events: Vec<Planned> = list.trips.iter().map(|trip| of_trip(trip, names, units)).collect();
    events
        .extend(prep.sessions.iter().filter(|session| !session.tasks.is_empty()).map(|session| of_session(session, names, zone.as_ref())));
    events.extend(prep.before.iter().chain(&prep.moves).map(|one| ahead(one.at, &one.errand, names, units)));
    let mut meals: Vec<usize> = (0..week.meals.len()).collect();
    meals.sort_by_key(|index| week.meals[*index].at_time);
    for (index, meal) in meals.into_iter().zip(card.days.iter().flat_map(|day| &day.meals)) {
        let making = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index));
        let minutes = making.map(|making| meal_minutes(kitchen, making)).sum();
        let at = week.meals[index].at_time;
        let until = (minutes > 0).then(|| after_minutes(at, minutes, zone.as_ref())).flatten();
        let mut event = of_meal((at, until), meal, minutes, names, units);
        // It stands at its mealtime; whoever is reminded of it must know that it begins before.
        if let Some(begin) = begin_by(kitchen, week, makings, index).filter(|begin| *begin < at) {
            event.summary.push_str(&format!(", begin by {}", words::clock(begin)));
        }
        events.push(event);
    }
    let zone = zone.as_ref().and_then(|zone| zone.iana_name());
    for event in events.iter_mut().filter(|event| event.at.is_some()) {
        event.zone = zone.map(str::to_owned);
    }
    events.sort_by_key(Planned::start);
    events
}

/// So many minutes later by the clocks of that zone, over a change to or from summer time too.
fn after_minutes(at: DateTime, minutes: i64, zone: Option<&TimeZone>) -> Option<DateTime> {
    let span = Span::new().try_minutes(minutes).ok()?;
    let by_the_clock = at.checked_add(span).ok()?;
    let Some(zone) = zone else { return Some(by_the_clock) };
    let end = zone.to_ambiguous_timestamp(at).compatible().ok()?.checked_add(span).ok()?;
    let told = zone.to_datetime(end);
    // An hour that comes twice is read as its first time: in the second it cannot be told by the clock.
    let is_told = zone.to_ambiguous_timestamp(told).compatible().is_ok_and(|read| read == end);
    Some(if is_told { told } else { by_the_clock })
}

fn of_trip(trip: &TripList, names: Names, units: Units) -> Planned {
    let shops: Vec<&str> = trip.shops.iter().filter_map(|visit| visit.at).map(|stop| names.shop(stop.shop)).collect();
    let said = |line: &crate::purchase::ListLine| {
        let packs = telling::list::bought(line, units);
        let much = if packs.is_empty() { telling::list::need(line, names, units).unwrap_or_default() } else { packs };
        let name = telling::list::named(line, names, units);
        if much.is_empty() { name } else { format!("{name}: {much}") }
    };
    let mut lines: Vec<String> = Vec::new();
    for visit in &trip.shops {
        lines.extend(visit.at.filter(|_| shops.len() > 1).map(|stop| format!("{}:", names.shop(stop.shop))));
        lines.extend(visit.lines().map(said));
    }
    if lines.is_empty() {
        lines.push("Nothing to buy.".to_owned());
    } else if trip.lines().any(|line| line.cost.is_some()) {
        let partly = if trip.lines().all(|line| line.cost.is_some()) { "" } else { ", without what has no price" };
        lines.push(format!("In all {} {}{partly}", names.money(trip.cost), names.currency));
    }
    let state = trip.closed().map(|state| format!(" ({})", state.words())).unwrap_or_default();
    let summary = if shops.is_empty() { format!("Shopping{state}") } else { format!("Shopping: {}{state}", listed(&shops)) };
    Planned {
        kind: Kind::Trip,
        about: String::new(),
        on: trip.on,
        at: None,
        until: None,
        zone: None,
        summary,
        description: lines.join("\n"),
    }
}

fn of_session(session: &SessionPlan, names: Names, zone: Option<&TimeZone>) -> Planned {
    let finish = after_minutes(session.start, session.minutes, zone).unwrap_or(session.finish);
    let makes: Vec<&str> = session.batches.iter().map(|batch| names.recipe(batch.recipe)).collect();
    let mut lines = vec![format!("Makes {}.", listed(&makes.iter().map(|name| in_a_sentence(name)).collect::<Vec<_>>()))];
    let least = if session.proven { "" } else { "; a shorter plan may exist" };
    lines.push(format!("Done by {} at the earliest ({}{least}).", words::clock(finish), duration(session.minutes)));
    lines.extend(session.finish_by.map(|by| format!("Wanted by {}.", words::clock(by))));
    lines.extend(session.ends_with_a_meal().then(|| format!("Served at {}.", words::clock(session.ends()))));
    lines.push(format!("There: {}.", session.people.iter().map(crate::prep::presence).collect::<Vec<_>>().join("; ")));
    Planned {
        kind: Kind::Session,
        about: String::new(),
        on: session.start.date(),
        at: Some(session.start.time()),
        until: Some(if session.ends_with_a_meal() { session.ends() } else { finish }).filter(|end| *end > session.start),
        zone: None,
        summary: "Batch cooking".to_owned(),
        description: lines.join("\n"),
    }
}

fn ahead(moment: Moment, errand: &Errand, names: Names, units: Units) -> Planned {
    let about = match errand {
        Errand::Step { recipe, step, .. } => format!("step {} of {}", step + 1, names.recipe_file(*recipe)),
        Errand::Thaw { food, .. } => format!("thaw {}", names.food(*food)),
        Errand::Move { recipe, late: false, .. } => format!("move {}", names.recipe_file(*recipe)),
        Errand::Move { recipe, late: true, .. } => format!("move now {}", names.recipe_file(*recipe)),
    };
    let description = match errand {
        Errand::Step { recipe, .. } => format!("For {}", in_a_sentence(names.recipe(*recipe))),
        Errand::Thaw { .. } | Errand::Move { .. } => String::new(),
    };
    let (on, at) = match moment {
        // What is late does not wait for the evening: it may be eaten by then.
        Moment::On(date) if errand.is_late() => (date, None),
        Moment::On(date) => (date, Some(EVENING)),
        Moment::At(at) => (at.date(), Some(at.time())),
    };
    let summary = errand.text(names, units);
    Planned { kind: Kind::Ahead, about, on, at, until: None, zone: None, summary, description }
}

fn of_meal((at, until): (DateTime, Option<DateTime>), meal: &CardMeal, minutes: i64, names: Names, units: Units) -> Planned {
    // First what must not be overlooked.
    let mut lines: Vec<String> = meal.short.iter().map(|short| at_the_meal(short, names, units)).collect();
    lines.extend(meal.not_known.iter().cloned());
    lines.extend(meal.otherwise.iter().chain(&meal.choking).map(|told| format!("{told}.")));
    lines.extend(meal.dishes.iter().map(|dish| taken_out(dish, names, units)));
    let added = meal.added();
    if !added.is_empty() {
        lines.push(format!("Add: {}", added.join("; ")));
    }
    if !meal.cook.is_empty() {
        let cook: Vec<String> = meal.cook.iter().map(CardCook::text).collect();
        lines.push(format!("Cook: {}", cook.join("; ")));
    }
    if let Some(text) = &meal.text {
        lines.push(text.clone());
    }
    let made: Vec<String> = meal.made.iter().map(|making| in_a_sentence(names.recipe(making.recipe))).collect();
    if !made.is_empty() {
        lines.push(format!("Make {}: takes {}", listed(&made), duration(minutes)));
    }
    lines.extend(meal.beware.iter().map(|beware| words::sentence(&beware.to_string())));
    let about = meal.name.clone().unwrap_or_else(|| lines.join("\n"));
    Planned {
        kind: Kind::Meal,
        about,
        on: at.date(),
        at: Some(at.time()),
        until,
        zone: None,
        summary: meal.name.as_ref().map_or_else(|| meal.label.clone(), |name| format!("{}: {name}", meal.label)),
        description: lines.join("\n"),
    }
}

/// "Take 3 portions of white-bean mash out of the fridge: heat to 74 °C (165 °F)".
fn taken_out(dish: &CardDish, names: Names, units: Units) -> String {
    let much = dish.words(names, units, " of ");
    let then = dish.then.text(names, units).map(|then| format!(": {then}")).unwrap_or_default();
    let comma = if dish.whose.is_some() { "," } else { "" };
    match dish.place {
        Some(place) => format!("Take {much}{comma} out of the {}{then}", words::place(place)),
        None => format!("Straight from the pot: {much}{then}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kitchen::fixture::at;

    #[test]
    fn what_lasts_over_a_change_of_the_clocks_ends_by_them() {
        // Lisbon: 29 March 2026, 01:00 becomes 02:00; 25 October, 02:00 becomes 01:00 (IANA tz database).
        let zone = TimeZoneDatabase::bundled().get("Europe/Lisbon").expect("a zone");
        let end = |from: &str, minutes: i64| after_minutes(at(from), minutes, Some(&zone)).expect("a time");
        assert_eq!(end("2026-03-29T00:30", 120), at("2026-03-29T03:30"));
        assert_eq!(end("2026-10-25T00:30", 120), at("2026-10-25T02:30"));
        assert_eq!(end("2026-10-25T00:30", 180), at("2026-10-25T02:30"));
        assert_eq!(after_minutes(at("2026-03-29T00:30"), 120, None), Some(at("2026-03-29T02:30")));
    }
}
