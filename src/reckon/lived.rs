//! The week from what is: what is booked is done, what is past and not booked is taken to have happened, and the shelf is as that left it.
//!
//! What is past is reckoned as its booking would be, by the same rules: a trip brings what was printed, a session takes and leaves what
//! was printed, a meal eats what the file says; where nothing was printed, as planned from what is not booked. The shelf that this
//! leaves is never written. What is open alone is then planned from it.

use std::borrow::Cow;

use jiff::civil::{Date, DateTime, Time};

use super::brought::as_booked;
use super::cooked::as_cooked;
use super::stages::{Stages, stages};
use crate::book::{
    Bench, Booked, Goods, Lack, goods_of, is_of_trip, issue_meal, issue_session, make_good, meal_key, open_lines, put_all, records,
    session_key,
};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Meal, Session, Trip, Ware, Warning, Week, WeekPrice};
use crate::plan::{Demand, MadeAt, Standing, State, demand, plan_begun, span};
use crate::prep::{Turnover, turnover};
use crate::purchase::{Basket, TripBuys, TripList, WeekBuys, choose};
use crate::words::{day, day_clock, listed};

/// What a week's last print told.
#[derive(Debug, Clone, Copy)]
pub struct AsPrinted<'p> {
    pub buys: &'p WeekBuys,
    /// What each session takes and gives.
    pub turnovers: &'p [Turnover],
}

/// A week with all that is not booked, planned as if it still lay ahead.
#[derive(Debug, Clone)]
pub(super) struct AsPlanned {
    /// Its lots are those that the stages draw on.
    pub kitchen: Kitchen,
    pub week: Week,
    pub stages: Stages,
    pub basket: Basket,
}

/// One of the household's weeks, with how everything in it stands.
pub(super) struct Lived<'w, 'p> {
    /// Without the meals that fall out, and without those that nobody has filled yet.
    pub week: Cow<'w, Week>,
    pub standing: Standing,
    pub print: Option<AsPrinted<'p>>,
    booked: &'p Booked,
    today: Date,
    /// Where something of it is taken as done, and its past counts.
    pub as_planned: Option<AsPlanned>,
}

/// Something that is taken to have happened.
enum Happened {
    Trip(TripBuys),
    Session(Turnover),
    /// Its place in the week as planned.
    Meal(usize),
}

impl<'w, 'p> Lived<'w, 'p> {
    pub fn of(kitchen: &Kitchen, week: &'w Week, booked: &'p Booked, print: Option<AsPrinted<'p>>, today: Date) -> Lived<'w, 'p> {
        let mut week = without_skipped(week);
        settle(kitchen, &mut week, booked);
        let standing = standing(&week, booked, today);
        Lived { week, standing, print, booked, today, as_planned: None }
    }

    /// Plans what is taken as done, in a week of all that is not booked: only the weeks whose past counts need it.
    pub fn plan_past(&mut self, then: Kitchen, week: Week) {
        self.as_planned = Some(AsPlanned::of(then, week));
    }

    /// The kitchen as its shelf lay when the first of what is now taken as done, and stands on no print, was to happen. What was thrown
    /// away or bought beside the plan since was not known then; what of this week is booked stays booked.
    pub fn shelf_then<'k>(&self, kitchen: &'k Kitchen) -> Cow<'k, Kitchen> {
        let is_past = |state| state == State::TakenAsDone;
        let trips = self.standing.trips(&self.week, is_past).filter(|trip| self.printed_trip(trip).is_none()).map(|trip| trip.on);
        let sessions = self.standing.sessions(&self.week, is_past).map(|session| session.start);
        let sessions = sessions.filter(|start| self.printed_session(*start).is_none()).map(DateTime::date);
        let Some(first) = trips.chain(sessions).min() else { return Cow::Borrowed(kitchen) };
        let lots = self.booked.lots_on(first, kitchen, |key| self.is_keyed(key));
        if lots == kitchen.lots { Cow::Borrowed(kitchen) } else { Cow::Owned(Kitchen { lots, ..kitchen.clone() }) }
    }

    /// Does the book name something of this week so?
    fn is_keyed(&self, key: &str) -> bool {
        let Week { trips, sessions, meals, .. } = &*self.week;
        let key = self.booked.key_now(key);
        let of_trip = |trip: &Trip| is_of_trip(key, (trip.on, trip.nth));
        trips.iter().chain(&self.own_trips_done()).any(of_trip)
            || sessions.iter().any(|session| key == session_key(session.start))
            || meals.iter().any(|meal| key == meal_key(meal))
    }

    fn printed_trip(&self, trip: &Trip) -> Option<&'p TripBuys> {
        self.print?.buys.trips.iter().find(|told| (told.on, told.nth) == (trip.on, trip.nth))
    }

    pub fn printed_session(&self, start: DateTime) -> Option<&'p Turnover> {
        self.print?.turnovers.iter().find(|session| session.start == start)
    }

    /// The week with all that is not booked, be it past.
    pub fn not_booked_yet(&self) -> Week {
        self.standing.keep(&self.week, |state| state != State::Done)
    }

    /// What booked sessions and meals should have taken, and no shelf has given yet.
    pub fn lacks(&self) -> Vec<Lack> {
        self.booked.lacks()
    }

    /// Is a trip or a session before it taken as done, and stands on no print, so that it may have been planned to bring this?
    pub fn was_planned_for(&self, kitchen: &Kitchen, lack: &Lack) -> bool {
        let is_past = |state| state == State::TakenAsDone;
        let mut trips = self.standing.trips(&self.week, is_past).filter(|trip| trip.on <= lack.at.date());
        let mut sessions = self.standing.sessions(&self.week, is_past).filter(|session| session.start < lack.at);
        match lack.ware(kitchen) {
            Some((Ware::Food(_), _)) => trips.any(|trip| self.printed_trip(trip).is_none()),
            Some((Ware::Recipe(_), _)) => sessions.any(|session| self.printed_session(session.start).is_none()),
            None => false,
        }
    }

    /// The week with what is still to come alone.
    pub fn open(&self) -> Cow<'w, Week> {
        if self.standing.has_begun() { Cow::Owned(self.standing.keep(&self.week, |state| state == State::Open)) } else { self.week.clone() }
    }

    /// What its booked trips paid for foods.
    fn booked_prices(&self, kitchen: &Kitchen) -> Vec<WeekPrice> {
        self.booked.week_prices(&kitchen.foods, self.week.from, span(&self.week))
    }

    /// What a trip that is taken as done bought: its lines that are not booked.
    fn bought(&self, kitchen: &Kitchen, trip: &Trip) -> Option<TripBuys> {
        let is_it = |told: &&TripList| (told.on, told.nth) == (trip.on, trip.nth);
        let planned = || self.as_planned.as_ref()?.basket.trips.iter().find(is_it).map(TripBuys::from);
        self.printed_trip(trip).cloned().or_else(planned).map(|bought| open_lines(&kitchen.foods, &bought, self.booked))
    }

    /// What the sessions and meals that are done or taken as done needed, as they are planned before anything of the week was cooked.
    pub fn demand_of_what_is_done(&self, kitchen: &Kitchen) -> Vec<Demand> {
        let first = span(&self.week).0;
        let mut kitchen = kitchen.clone();
        kitchen.lots.retain(|lot| lot.made.is_none_or(|made| made < first));
        let makings = plan_begun(&kitchen, &self.week);
        let mut all = demand(&kitchen, &self.week, &makings).demand;
        all.retain(|demand| match demand.by {
            MadeAt::Session(session) => self.standing.sessions[session] != State::Open,
            MadeAt::Meal(meal) => self.standing.meals[meal] != State::Open,
        });
        all
    }

    /// Trips of their own that were printed, are past and not booked.
    pub fn own_trips(&self) -> impl Iterator<Item = &'p TripBuys> {
        let printed = self.print.map(|print| print.buys.trips.as_slice()).unwrap_or_default();
        printed.iter().filter(|trip| !trip.is_planned() && trip.on < self.today && !self.booked.has_trip(trip.on, trip.nth))
    }

    /// Trips of their own that are booked and lie within the week.
    pub fn own_trips_done(&self) -> Vec<Trip> {
        let (first, last) = span(&self.week);
        let trip = |(on, nth)| Trip { on, nth, planned: false, shops: None, settled: Vec::new(), at: self.week.at.clone() };
        self.booked.own_trips_between(first, last).into_iter().map(trip).collect()
    }

    /// A trip that is booked.
    pub fn as_booked(&self, kitchen: &Kitchen, trip: &Trip) -> Option<TripList> {
        as_booked(kitchen, trip, self.booked, self.printed_trip(trip))
    }

    /// What a session that is booked took and gave.
    pub fn as_cooked(&self, kitchen: &Kitchen, start: DateTime) -> Option<Turnover> {
        let printed = self.printed_session(start);
        as_cooked(kitchen, start, self.booked, printed).or_else(|| printed.cloned())
    }

    /// What a session that is taken as done took and gave.
    pub fn turnover(&self, start: DateTime) -> Option<Turnover> {
        self.printed_session(start).cloned().or_else(|| self.as_planned.as_ref()?.turnover(start))
    }

    /// The meals that are done or taken as done.
    pub fn past_meals(&self) -> Vec<(DateTime, String)> {
        let past = self.standing.meals(&self.week, |state| state != State::Open);
        past.map(|meal| (meal.at_time, meal.name.clone().unwrap_or_else(|| meal.label.clone()))).collect()
    }

    fn happened(&self, kitchen: &Kitchen) -> Vec<(DateTime, Happened)> {
        let is_past = |state| state == State::TakenAsDone;
        let mut happened = Vec::new();
        // What a book that nobody can read may have laid on the shelf is not laid there once more.
        if self.booked.is_not_read() {
            return happened;
        }
        for trip in self.standing.trips(&self.week, is_past) {
            let at = trip.on.to_datetime(Time::midnight());
            happened.extend(self.bought(kitchen, trip).map(|buys| (at, Happened::Trip(buys))));
        }
        for trip in self.own_trips() {
            happened.push((trip.on.to_datetime(Time::midnight()), Happened::Trip(open_lines(&kitchen.foods, trip, self.booked))));
        }
        for session in self.standing.sessions(&self.week, is_past) {
            happened.extend(self.turnover(session.start).map(|session| (session.start, Happened::Session(session))));
        }
        for meal in self.standing.meals(&self.week, is_past) {
            let place = self.as_planned.as_ref().and_then(|planned| planned.week.meals.iter().position(|other| other == meal));
            happened.extend(place.map(|place| (meal.at_time, Happened::Meal(place))));
        }
        happened
    }

    /// What was not booked, and how it would be. `named` is the week's file, where a booking would mean another week.
    pub fn not_booked<'f>(&self, named: impl FnOnce() -> Option<&'f str>) -> Option<Warning> {
        let (what, mut commands) = self.taken_as_done();
        if what.is_empty() {
            return None;
        }
        if let Some(file) = named() {
            commands.iter_mut().for_each(|command| command.push_str(&format!(" --week {file}")));
        }
        let unprinted = self.taken_as_planned();
        Some(Warning::NotBooked { week: self.week.name.clone(), what, unprinted, commands })
    }

    /// What is taken as done and stands on no print: as the week is planned now, not as it was planned when it happened.
    fn taken_as_planned(&self) -> Vec<String> {
        let is_past = |state| state == State::TakenAsDone;
        let trips = self.standing.trips(&self.week, is_past).filter(|trip| self.printed_trip(trip).is_none());
        let sessions = self.standing.sessions(&self.week, is_past).filter(|session| self.printed_session(session.start).is_none());
        trips.map(the_trip).chain(sessions.map(the_session)).collect()
    }

    /// The same of a week that is over, for whoever plans a later one: that one sees the shelf as it was booked.
    pub fn not_booked_to_its_end(&self, file: &str) -> Option<Warning> {
        let (what, commands) = self.taken_as_done();
        let commands = commands.iter().map(|command| command.replacen("spence", &format!("spence --week {file}"), 1)).collect();
        (!what.is_empty()).then(|| Warning::NotBookedToItsEnd { week: self.week.name.clone(), what, commands })
    }

    /// A trip that is past, and of which nobody can say what it was to buy: what is written into the week later is planned with it.
    pub fn neither_booked_nor_printed(&self) -> Option<Warning> {
        let told = |trip: &&Trip| self.printed_trip(trip).is_some();
        let trips: Vec<String> = self
            .standing
            .trips(&self.week, |state| state == State::TakenAsDone)
            .filter(|trip| !told(trip))
            .map(|trip| day(trip.on))
            .collect();
        let text = format!(
            "the trip of {} is past, and was neither booked nor printed: once these meals are written, the list takes it to have bought for \
             them, too. First book what it bought: spence receive.",
            listed(&trips)
        );
        (!trips.is_empty()).then_some(Warning::Note { at: None, text })
    }

    /// What is past and not booked, and the commands that would book it.
    fn taken_as_done(&self) -> (Vec<String>, Vec<String>) {
        // Beside a book that nobody can read nothing can be booked: that is told first of all.
        if self.booked.is_not_read() {
            return (Vec::new(), Vec::new());
        }
        let is_past = |state| state == State::TakenAsDone;
        let own = self.own_trips().map(|trip| the_trip_of(trip.on));
        let trips: Vec<String> = self.standing.trips(&self.week, is_past).map(the_trip).chain(own).collect();
        let sessions: Vec<String> = self.standing.sessions(&self.week, is_past).map(the_session).collect();
        let meals: Vec<_> = self.standing.meals(&self.week, is_past).collect();
        let mut commands = Vec::new();
        if !trips.is_empty() {
            commands.push("spence receive".to_owned());
        }
        if !sessions.is_empty() {
            commands.push("spence issue".to_owned());
        }
        let last = meals.iter().map(|meal| meal.at_time.date()).max();
        commands.extend(last.map(|last| format!("spence issue --until {last}")));
        (trips.into_iter().chain(sessions).chain(meals.iter().map(|meal| meal.label.clone())).collect(), commands)
    }
}

fn the_trip(trip: &Trip) -> String {
    the_trip_of(trip.on)
}

fn the_trip_of(on: Date) -> String {
    format!("the trip of {}", day(on))
}

fn the_session(session: &Session) -> String {
    format!("the session of {}", day_clock(session.start))
}

impl AsPlanned {
    fn of(kitchen: Kitchen, week: Week) -> AsPlanned {
        let stages = stages_as_planned(&kitchen, &week);
        let basket = choose(&kitchen, &week, &stages.needs.needs);
        AsPlanned { kitchen, week, stages, basket }
    }

    fn turnover(&self, start: DateTime) -> Option<Turnover> {
        let index = self.week.sessions.iter().position(|session| session.start == start)?;
        let Stages { makings, demanded, netted, .. } = &self.stages;
        Some(turnover(&self.kitchen, &self.week, makings, &demanded.demand, &netted.draws, index))
    }
}

/// What is past has no trip of its own: it was eaten, whatever the trips brought.
fn stages_as_planned(kitchen: &Kitchen, week: &Week) -> Stages {
    let makings = plan_begun(kitchen, week);
    stages(kitchen, week, makings)
}

fn without_skipped(week: &Week) -> Cow<'_, Week> {
    let mut week = Cow::Borrowed(week);
    let falls_out = |meal: &Meal| meal.skip || meal.open.is_some();
    if week.meals.iter().any(falls_out) {
        week.to_mut().meals.retain(|meal| !falls_out(meal));
    }
    week
}

/// What of an open trip is booked, or was not to be had, is not bought on it any more.
fn settle(kitchen: &Kitchen, week: &mut Cow<Week>, booked: &Booked) {
    let settled = |trip: &Trip| booked.settled_foods(trip.on, trip.nth).filter_map(|food| kitchen.foods.find(food)).collect::<Vec<_>>();
    let all: Vec<Vec<FoodId>> = week.trips.iter().map(settled).collect();
    if all.iter().any(|foods| !foods.is_empty()) {
        week.to_mut().trips.iter_mut().zip(all).for_each(|(trip, foods)| trip.settled = foods);
    }
}

fn standing(week: &Week, booked: &Booked, today: Date) -> Standing {
    Standing {
        trips: week.trips.iter().map(|trip| State::of(booked.has_trip(trip.on, trip.nth), trip.on < today)).collect(),
        sessions: week.sessions.iter().map(|session| State::of(booked.has_session(session.start), session.start.date() < today)).collect(),
        meals: week.meals.iter().map(|meal| State::of(booked.has_meal(meal), meal.at_time.date() < today)).collect(),
    }
}

/// The kitchen with its shelf as all that is taken as done left it, in the order of time; and what the first of the weeks has paid for foods,
/// by the book and by what is taken as done.
pub(super) fn as_it_happened<'k>(kitchen: &'k Kitchen, weeks: &[Lived]) -> (Cow<'k, Kitchen>, Vec<WeekPrice>) {
    let mut prices = weeks.first().map(|week| week.booked_prices(kitchen)).unwrap_or_default();
    let of_week = |week: &usize| weeks[*week].happened(kitchen).into_iter().map(|(at, what)| (at, *week, what)).collect::<Vec<_>>();
    let mut all: Vec<(DateTime, usize, Happened)> = (0..weeks.len()).flat_map(|week| of_week(&week)).collect();
    all.sort_by_key(|(at, week, _)| (*at, *week));
    let mut shelf = Cow::Borrowed(kitchen);
    // What is booked as eaten already is not eaten once more, and does not lie there.
    let mut lacks = weeks.first().map(|week| week.booked.lacks()).unwrap_or_default();
    for (at, week, what) in all {
        if shelf.week_prices != prices {
            shelf.to_mut().week_prices.clone_from(&prices);
        }
        let lots = {
            let mut bench = Bench::new(&shelf, records(&shelf));
            bench.rank_undated(span(&weeks[week].week).1);
            match (&what, &weeks[week].as_planned) {
                (Happened::Trip(buys), _) => {
                    let goods = goods_of(&shelf.foods, &shelf.rules, buys).0;
                    prices.extend(goods.iter().filter(|_| week == 0).filter_map(Goods::price));
                    put_all(&shelf.foods, &shelf.lots, &mut bench, &goods, buys.on);
                }
                (Happened::Session(session), _) => drop(issue_session(&shelf, &mut bench, session)),
                (Happened::Meal(meal), Some(planned)) => {
                    let Stages { makings, demanded, .. } = &planned.stages;
                    drop(issue_meal(&shelf, &mut bench, &planned.week, (makings, demanded), *meal));
                }
                (Happened::Meal(_), None) => (),
            }
            make_good(&shelf, &mut bench, at, &mut lacks);
            bench.into_lots()
        };
        shelf.to_mut().lots = lots;
    }
    (shelf, prices)
}

/// Is anything of the week past or booked?
pub fn has_begun(week: &Week, booked: &Booked, today: Date) -> bool {
    standing(&without_skipped(week), booked, today).has_begun()
}
