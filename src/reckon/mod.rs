//! The one door: what was read, what is booked and today go in; the whole reckoning of a week comes out. Every verb goes through it.
//!
//! ```text
//! Kitchen, Week, Booked ── lived: what is done or taken as done ── carry: what other weeks take first ─> the stages in a row: plan, demand, netting, needs, packs ─> Reckoning
//! ```
//!
//! Files are read before it and written after it; what takes long (the schedule, the budget's advice, other rounds of the shops) is
//! reckoned when it is asked for. Knows no file and no terminal.

mod another;
mod brought;
mod budget;
mod carry;
mod day;
mod lived;
mod past;
mod rehearsal;
mod trial;
mod walk;

pub use day::{DayLot, DayPlan, DaySession};
pub use lived::{AsPrinted, has_begun};
pub use trial::{Priced, Trials, Tried, open_meals, trials};
pub use walk::Walk;

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::rc::Rc;

use jiff::civil::{Date, DateTime};

use crate::book::Booked;
use crate::foods::FoodId;
use crate::kitchen::much::{for_whom, made};
use crate::kitchen::{Kitchen, Loaded, Mistake, PackKind, Session, Spot, Trip, Ware, Warning, Week, WeekPrice};
use crate::measure::Money;
use crate::pantry::{self, Netted};
use crate::plan::{self, Begins, Demand, Demanded, Makings, ShortMeal, State};
use crate::prep::{self, Effort, PrepPlan, Turnover, UnderWay};
use crate::purchase::{self, Awaiting, Basket, Needs, Reserved, ShoppingList, TripList};
use crate::shelf::counts_packs;
use crate::telling;
use crate::words;
use another::Another;
use lived::{AsPlanned, Lived};

/// What every stage answered for one week.
#[derive(Debug, Clone)]
pub struct Reckoning<'k> {
    /// Its shelf is as the other weeks and what is taken as done leave it: lots are not those of pantry.toml, one by one.
    pub kitchen: Cow<'k, Kitchen>,
    /// With what is open alone, and trips of its own: the places of trips, sessions and meals are those in here.
    pub week: Cow<'k, Week>,
    pub makings: Makings,
    pub demanded: Demanded,
    pub netted: Netted,
    pub needs: Needs,
    pub basket: Basket,
    /// What other weeks take off the shelf first.
    pub reserved: Vec<Reserved>,
    /// Of reading and of all stages, in order and each once.
    pub warnings: Vec<Warning>,
    today: Date,
    /// Once something of the week is past or booked.
    begun: Option<Begun>,
    /// What booked purchases of the week were paid.
    paid: Money,
    /// With all that is not booked, where something of it is taken as done.
    as_planned: Option<AsPlanned>,
    /// Trips that are done or taken as done.
    past_trips: Vec<TripList>,
    past_sessions: Vec<PastSession>,
    /// Meals that are done or taken as done, each with its name.
    past_meals: Vec<(DateTime, String)>,
}

/// A session that is done or taken as done.
#[derive(Debug, Clone, PartialEq)]
pub struct PastSession {
    pub start: DateTime,
    pub state: State,
    /// As it was printed, else as planned; `None` where nobody knows.
    pub turnover: Option<Turnover>,
}

/// What a list is to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shown {
    /// Every trip, those that are done or taken as done too.
    pub all: bool,
    /// What each shop alone and the best pair of shops would cost.
    pub compared: bool,
}

/// Reckons one of the household's weeks, by its place in `loaded`: what is open of it, from the shelf as all that is taken as done left it
/// and after what the other weeks have yet to take. `prints` are the weeks' last prints, by their places; where there is none, what is
/// past was done as planned.
///
/// # Errors
/// Steps in more rounds than a person would cook; meals that no session can serve, before anything of the week is past or booked; and what an eater is allergic to in anything they would
/// be served.
pub fn reckon<'k>(
    loaded: &'k Loaded,
    booked: &Booked,
    prints: &[Option<AsPrinted>],
    week: usize,
    today: Date,
) -> Result<Reckoning<'k>, Vec<Mistake>> {
    reckon_beside(&Walk::default(), loaded, booked, prints, week, today)
}

/// As [`reckon`], for whoever reckons several weeks: `walk` is that of the same household, book and day.
///
/// # Errors
/// As there.
pub fn reckon_beside<'k>(
    walk: &Walk,
    loaded: &'k Loaded,
    booked: &Booked,
    prints: &[Option<AsPrinted>],
    week: usize,
    today: Date,
) -> Result<Reckoning<'k>, Vec<Mistake>> {
    let print = |place: usize| prints.get(place).copied().flatten();
    let lived_of = |place: usize| Lived::of(&loaded.kitchen, &loaded.weeks[place].1, booked, print(place), today);
    let others = (0..loaded.weeks.len()).filter(|&place| place != week && touches(&loaded.weeks[place].1, &loaded.weeks[week].1, today));
    let another = |place: usize| {
        let read = || Another::of(place, &Lived::of(&loaded.kitchen, &loaded.weeks[place].1, booked, None, today));
        walk.week(place, read)
    };
    let others: Vec<Rc<Another>> = others.map(another).collect();
    let open = trial::left_out(&loaded.weeks[week].1, today);
    let (place, lived) = (week, lived_of(week));
    let beside: Vec<Lived> = others.iter().filter(|other| other.overlaps(&lived)).map(|other| lived_of(other.place)).collect();
    let mut together: Vec<Lived> = std::iter::once(lived).chain(beside).collect();
    let (shelf, week_prices) = past::live_through(&loaded.kitchen, &mut together);
    let lived = together.swap_remove(0);
    let carried = carry::carry(walk, shelf, &others, &lived, today);
    let mut kitchen = carried.kitchen;
    if kitchen.week_prices != week_prices {
        kitchen.to_mut().week_prices = week_prices;
    }
    let begun = lived.standing.has_begun().then(|| Begun { today, done: lived.demand_of_what_is_done(&loaded.kitchen) });
    let guarded = plan::guard(&kitchen, &lived.open());
    let staged = open_stages(&kitchen, lived.open(), begun.as_ref().map(|begun| (begun, booked)));
    if !guarded.mistakes.is_empty() {
        let mut mistakes = guarded.mistakes;
        mistakes.extend(staged.err().into_iter().flatten());
        return Err(mistakes);
    }
    let (week, Stages { mut makings, demanded, netted, needs }) = staged?;
    makings.move_no_earlier_than(today);
    let rounds = prep::too_many_rounds(&kitchen, &week, &makings);
    if !rounds.is_empty() {
        return Err(rounds);
    }
    let basket = purchase::choose(&kitchen, &week, &needs.needs);
    basket.is_counted(&kitchen, &week)?;

    let named = named_in_commands(loaded, booked, place, today);
    let mut warnings = loaded.warnings.clone();
    warnings.extend(open);
    warnings.extend(week_before(loaded, booked, place, today));
    warnings.extend(lived.not_booked(named));
    warnings.extend(makings.short.iter().map(|short| short_of(&kitchen, short)));
    warnings.extend(carried.warnings);
    warnings.extend(purchase::old_prices(&kitchen, &needs.needs, today));
    warnings.extend(guarded.warnings);
    warnings.extend(plan::avoided_at_meals(&kitchen, &week));
    warnings.extend(avoided_on_list(&kitchen, &demanded, &needs));
    warnings.extend(unskilled(&kitchen, &week, &makings, &warnings));
    warnings.extend(prep::warned_of_bought_later(&kitchen, &prep::bought_later(&kitchen, &week, &makings, &needs.needs)));
    let counted = counted_in_packs(&kitchen, &demanded, &netted);
    warnings.extend(demanded.warnings.iter().filter(|warning| warning.at().is_none_or(|at| !counted.contains(at))).cloned());
    warnings.extend(netted.warnings.iter().chain(&basket.warnings).cloned());
    let mut said = BTreeSet::new();
    warnings.retain(|warning| said.insert(warning.clone()));
    let (first, last) = plan::span(&lived.week);
    Ok(Reckoning {
        week,
        makings,
        demanded,
        netted,
        needs,
        basket,
        reserved: carried.reserved,
        warnings,
        today,
        begun,
        paid: booked.paid_between(first, last),
        past_trips: past_trips(&kitchen, &lived),
        past_sessions: past_sessions(&lived),
        past_meals: lived.past_meals(),
        as_planned: lived.as_planned,
        kitchen,
    })
}

/// Lines of a number of tins whose weight nobody asks for: all lines of the food count them, and closed packs of the shelf serve the line, or
/// a shop sells them by that word.
fn counted_in_packs<'d>(kitchen: &Kitchen, demanded: &'d Demanded, netted: &Netted) -> BTreeSet<&'d Spot> {
    let counts = |demand: &Demand| counts_packs(&demand.amount.dimension());
    let are_alike = |food: FoodId| demanded.demand.iter().filter(|demand| demand.food == food).all(counts);
    let is_sold = |demand: &Demand| {
        let is_one = |kind: &PackKind| matches!(kind, PackKind::Sized { size, .. } if size.dimension() == demand.amount.dimension());
        kitchen.packs.iter().any(|pack| pack.food == demand.food && is_one(&pack.kind))
    };
    let served = demanded.demand.iter().zip(&netted.unmet).filter(|(demand, _)| counts(demand) && are_alike(demand.food));
    served.filter(|(demand, unmet)| unmet.is_zero() || is_sold(demand)).map(|(demand, _)| &demand.at).collect()
}

/// What was not booked of the last week before this one that the household booked something of, once that week is over.
fn week_before(loaded: &Loaded, booked: &Booked, week: usize, today: Date) -> Option<Warning> {
    let from = loaded.weeks[week].1.from;
    let earlier = loaded.weeks.iter().filter(|(_, other)| other.from < from && plan::span(other).1 < today);
    let lived = earlier.map(|(file, other)| (file, Lived::of(&loaded.kitchen, other, booked, None, today)));
    let (file, last) = lived.filter(|(_, other)| other.standing.has_done()).max_by_key(|(_, other)| other.week.from)?;
    last.not_booked_to_its_end(file)
}

/// What of a week is past and waits to be booked, without planning it.
pub fn waits_to_be_booked(loaded: &Loaded, booked: &Booked, print: Option<AsPrinted<'_>>, week: usize, today: Date) -> Option<Warning> {
    let lived = Lived::of(&loaded.kitchen, &loaded.weeks[week].1, booked, print, today);
    lived.not_booked(named_in_commands(loaded, booked, week, today))
}

/// The week's file, where a booking would mean another week.
fn named_in_commands<'l>(loaded: &'l Loaded, booked: &Booked, place: usize, today: Date) -> Option<&'l str> {
    let is_meant_anyway = plan::week_of(loaded.weeks.iter().map(|(_, week)| week), today) == Some(place);
    Some(loaded.weeks[place].0.as_str()).filter(|_| !is_meant_anyway || has_meals_before(loaded, booked, place))
}

/// Has an earlier week meals that nobody booked? `issue --until` would book them, too.
fn has_meals_before(loaded: &Loaded, booked: &Booked, week: usize) -> bool {
    let from = loaded.weeks[week].1.from;
    let earlier = loaded.weeks.iter().filter(|(_, other)| other.from < from);
    earlier.flat_map(|(_, other)| &other.meals).any(|meal| !meal.skip && meal.open.is_none() && !booked.has_meal(meal))
}

/// May another week bear on this one: does it overlap it, or has it, from an earlier day on, something yet to come?
fn touches(other: &Week, week: &Week, today: Date) -> bool {
    let ((first, last), (from, until)) = (plan::span(week), plan::span(other));
    (first <= until && from <= last) || (from <= first && today <= until)
}

/// Skills that nobody in a session has, each once, but for those that nobody has in any: the reader has told them.
fn unskilled(kitchen: &Kitchen, week: &Week, makings: &Makings, told: &[Warning]) -> Vec<Warning> {
    let mut lacking = prep::unskilled(kitchen, week, makings);
    lacking.retain(|one| told.iter().all(|known| known.at() != one.at()));
    told_once(lacking)
}

/// Of warnings in the same words the first, with the other places behind it.
fn told_once(warnings: Vec<Warning>) -> Vec<Warning> {
    let mut by_words: Vec<(String, Vec<Option<Spot>>)> = Vec::new();
    for warning in warnings {
        let (words, at) = (warning.words(), warning.at().cloned());
        match by_words.iter_mut().find(|(known, _)| *known == words) {
            Some((_, places)) => places.push(at),
            None => by_words.push((words, vec![at])),
        }
    }
    let once = |(text, places): (String, Vec<Option<Spot>>)| {
        let others: Vec<String> = places[1..].iter().flatten().map(Spot::to_string).collect();
        let likewise = if others.is_empty() { String::new() } else { format!(" Likewise {}.", words::listed(&others)) };
        Warning::Note { at: places.into_iter().next().flatten(), text: text + &likewise }
    };
    by_words.into_iter().map(once).collect()
}

fn past_trips(kitchen: &Kitchen, lived: &Lived) -> Vec<TripList> {
    let past = lived.week.trips.iter().zip(&lived.standing.trips).filter(|(_, state)| **state != State::Open);
    let told = |(trip, state): (&Trip, &State)| {
        let is_it = |on: Date, nth: usize| (on, nth) == (trip.on, trip.nth);
        let printed = lived.print.and_then(|print| print.buys.trips.iter().find(|told| is_it(told.on, told.nth)));
        let planned = lived.as_planned.as_ref().and_then(|planned| planned.basket.trips.iter().find(|told| is_it(told.on, told.nth)));
        match (printed, planned) {
            (Some(printed), _) => TripList::told(kitchen, printed, *state),
            (None, Some(planned)) => TripList { state: Some(*state), ..planned.clone() },
            (None, None) => lived.as_booked(kitchen, trip, *state).unwrap_or_else(|| TripList::untold(trip, *state)),
        }
    };
    let own = lived.own_trips().map(|trip| TripList::told(kitchen, trip, State::TakenAsDone));
    let own_done = lived.own_trips_done().into_iter().map(|trip| told((&trip, &State::Done)));
    past.map(told).chain(own).chain(own_done).collect()
}

fn past_sessions(lived: &Lived) -> Vec<PastSession> {
    let past = lived.week.sessions.iter().zip(&lived.standing.sessions).filter(|(_, state)| **state != State::Open);
    let told = |(session, state): (&Session, &State)| {
        let turnover = lived.turnover(session.start);
        PastSession { start: session.start, state: *state, turnover }
    };
    past.map(told).collect()
}

fn short_of(kitchen: &Kitchen, short: &ShortMeal) -> Warning {
    let meal = if short.meal == short.label { short.label.clone() } else { format!("{} ({})", short.label, short.meal) };
    let names = kitchen.names();
    let lacks = made(names, short.recipe, &short.amount, kitchen.print.units) + &for_whom(names, short.whose.as_ref());
    Warning::Short { meal, lacks, remedies: telling::short::remedies(short) }
}

/// A week of which something is past or booked.
#[derive(Debug, Clone)]
struct Begun {
    today: Date,
    /// What the sessions and meals that are done or taken as done needed.
    done: Vec<Demand>,
}

/// Everything before the choice of packs.
#[derive(Debug, Clone)]
struct Stages {
    makings: Makings,
    demanded: Demanded,
    netted: Netted,
    needs: Needs,
}

fn stages(kitchen: &Kitchen, week: &Week, makings: Makings) -> Stages {
    let makings = prep::settled(kitchen, week, makings);
    let demanded = plan::demand(kitchen, week, &makings);
    let netted = pantry::net(kitchen, week, &makings, &demanded);
    let needs = purchase::needs(kitchen, week, &demanded, &netted);
    Stages { makings, demanded, netted, needs }
}

/// The stages of what is open. A week that has begun gets trips of its own, and meals that nothing can serve are short.
fn open_stages<'w>(
    kitchen: &Kitchen,
    week: Cow<'w, Week>,
    begun: Option<(&Begun, &Booked)>,
) -> Result<(Cow<'w, Week>, Stages), Vec<Mistake>> {
    let Some((Begun { today, done }, booked)) = begun else {
        let stages = stages(kitchen, &week, plan::plan(kitchen, &week)?);
        return Ok((week, stages));
    };
    let mut week = week;
    let mut stages = stages(kitchen, &week, plan::plan_begun(kitchen, &week));
    stages.makings.short.iter_mut().for_each(|short| short.begins = begins_by(kitchen, short, *today));
    let own = purchase::trips_of_their_own(kitchen, &week, &stages.demanded, &stages.netted, *today);
    if !own.is_empty() {
        let trips = &mut week.to_mut().trips;
        trips.extend(own.into_iter().map(|trip| Trip { nth: booked.next_own_trip(trip.on), ..trip }));
        trips.sort_by_key(|trip| trip.on);
        stages.needs = purchase::needs(kitchen, &week, &stages.demanded, &stages.netted);
        purchase::leave_out_the_unmet(kitchen, week.to_mut(), &stages.demanded, done, &mut stages.needs);
    }
    Ok((week, stages))
}

/// Nobody reads a list before this hour: what begins earlier on the day itself is over. Common practice, no source.
const PEOPLE_ARE_UP: i8 = 7;

/// When what is done ahead of a meal that runs short had to begin.
fn begins_by(kitchen: &Kitchen, short: &ShortMeal, today: Date) -> Option<Begins> {
    let at = prep::begins_ahead(kitchen, short.recipe, &short.amount, short.at)?;
    Some(Begins { at, is_past: at < today.at(PEOPLE_ARE_UP, 0, 0, 0) })
}

impl Reckoning<'_> {
    /// The shopping list, of the trips still to be made or of all.
    pub fn list(&self, shown: Shown) -> ShoppingList {
        let parts = purchase::Parts {
            makings: &self.makings,
            netted: &self.netted,
            basket: &self.basket,
            flags: &self.needs.flags,
            ask: &self.demanded.ask,
            reserved: &self.reserved,
            warnings: &self.warnings,
            today: self.today,
            meal_prices: &rehearsal::meal_prices(self),
            budget: budget::budget(self),
            compare: shown.compared.then(|| purchase::compare(&self.kitchen, &self.week, &self.needs.needs)),
        };
        let mut list = purchase::shopping_list(&self.kitchen, &self.week, parts, self.begun.as_ref().map(|begun| begun.today));
        self.name_own_trips(&mut list);
        if shown.all {
            list.trips.iter_mut().for_each(|trip| trip.state = Some(State::Open));
            list.trips.extend(self.past_trips.iter().cloned());
            list.trips.sort_by_key(|trip| (trip.on, trip.nth));
        }
        list
    }

    /// Says of trips of their own what they come before: the first session or meal that waits for them.
    fn name_own_trips(&self, list: &mut ShoppingList) {
        for trip in list.trips.iter_mut().filter(|trip| !trip.planned) {
            let foods: BTreeSet<_> = trip.lines().map(|line| line.food).collect();
            let waits = |demand: &&plan::Demand| demand.on >= trip.on && foods.contains(&demand.food);
            trip.before = self.demanded.demand.iter().filter(waits).map(|demand| self.awaiting(demand.by)).min();
        }
    }

    fn awaiting(&self, by: plan::MadeAt) -> Awaiting {
        match by {
            plan::MadeAt::Session(session) => Awaiting { at: self.week.sessions[session].start, meal: None },
            plan::MadeAt::Meal(meal) => Awaiting { at: self.week.meals[meal].at_time, meal: Some(self.week.meals[meal].word.clone()) },
        }
    }

    /// The plan of the week's open sessions.
    pub fn prep(&self, effort: Effort) -> PrepPlan {
        let (demand, draws) = (&self.demanded.demand, &self.netted.draws);
        self.marked(prep::prep(&self.kitchen, &self.week, &self.makings, demand, draws, effort))
    }

    /// With what is to be done ahead of its trip marked.
    fn marked(&self, mut plan: PrepPlan) -> PrepPlan {
        plan.mark_bought_later(&prep::bought_later(&self.kitchen, &self.week, &self.makings, &self.needs.needs));
        plan
    }

    /// The plan of the sessions that are taken as done, as they were planned; `None` where none is.
    pub fn prep_as_planned(&self, effort: Effort) -> Option<PrepPlan> {
        let AsPlanned { kitchen, week, stages: Stages { makings, demanded, netted, .. }, .. } = self.as_planned.as_ref()?;
        Some(prep::prep(kitchen, week, makings, &demanded.demand, &netted.draws, effort))
    }

    /// The same with one session under way.
    pub fn prep_under_way(&self, effort: Effort, under_way: &UnderWay) -> PrepPlan {
        let (demand, draws) = (&self.demanded.demand, &self.netted.draws);
        self.marked(prep::prep_under_way(&self.kitchen, &self.week, &self.makings, demand, draws, (effort, Some(under_way))))
    }

    /// What is said to be done of a session although something before it is not.
    pub fn unmarked(&self, under_way: &UnderWay) -> Vec<prep::Unmarked> {
        prep::unmarked(&self.kitchen, &self.week, &self.makings, under_way)
    }

    /// Steps that need an appliance which is out of order in their session: mistakes for whoever plans the session, warnings for whoever
    /// shops.
    pub fn out_of_order(&self) -> Vec<Mistake> {
        prep::out_of_order(&self.kitchen, &self.week, &self.makings)
    }

    /// The same of one session that is not booked, be it past.
    pub fn out_of_order_at(&self, start: DateTime) -> Vec<Mistake> {
        let (week, makings, _) = self.not_booked();
        let mut mistakes = prep::out_of_order(&self.kitchen, week, makings);
        mistakes.retain(|mistake| week.sessions.iter().any(|session| session.start == start && session.at == mistake.at));
        mistakes
    }

    /// Where the lots stand in pantry.toml that the open meals and sessions rely on: those they draw on, those of what is only to taste,
    /// and those of foods that are looked at before the shopping.
    pub fn relied_on(&self) -> BTreeSet<&Spot> {
        let lots = &self.netted.lots;
        let drawn = self.netted.draws.iter().map(|draw| &lots[draw.lot]);
        let to_taste = self.demanded.demand.iter().filter(|demand| demand.to_taste).map(|demand| demand.food);
        let foods: BTreeSet<_> = to_taste.chain(self.demanded.ask.iter().copied()).collect();
        let looked_at = lots.iter().filter(|lot| matches!(lot.of, Ware::Food(food) if foods.contains(&food)));
        drawn.chain(looked_at).map(|lot| &lot.at).collect()
    }

    /// The kitchen with its shelf as it lies on the morning of a day: after all that is taken as done, and all that is planned before.
    pub fn kitchen_on(&self, day: Date) -> Kitchen {
        let (mut makings, mut demanded) = (self.makings.clone(), self.demanded.clone());
        makings.cooked_draws.retain(|draw| draw.on < day);
        demanded.demand.retain(|demand| demand.on < day);
        let mut kitchen = self.kitchen.clone().into_owned();
        kitchen.lots = pantry::net(&self.kitchen, &self.week, &makings, &demanded).lots;
        kitchen.lots.retain(|lot| !lot.amount.is_zero());
        kitchen
    }

    /// What the week pays for foods: what was paid or is taken as paid, then what its open trips ask.
    pub fn week_prices(&self) -> Vec<WeekPrice> {
        let listed = purchase::listed(&self.basket).map(|(food, buys, cost)| WeekPrice { food, buys, cost });
        self.kitchen.week_prices.iter().cloned().chain(listed).collect()
    }

    /// Is anything of the week past or booked?
    pub fn has_begun(&self) -> bool {
        self.begun.is_some()
    }

    /// The sessions that are done or taken as done, in order of time.
    pub fn past_sessions(&self) -> &[PastSession] {
        &self.past_sessions
    }

    /// The meals that are done or taken as done, each with its name or its label.
    pub fn past_meals(&self) -> &[(DateTime, String)] {
        &self.past_meals
    }

    /// What each session takes and gives that is not booked, in order of time.
    pub fn turnovers(&self) -> Vec<Turnover> {
        let past = self.past_sessions.iter().filter(|session| session.state == State::TakenAsDone);
        let mut all: Vec<Turnover> = past.filter_map(|session| session.turnover.clone()).collect();
        let (week, demand, draws) = (&self.week, &self.demanded.demand, &self.netted.draws);
        all.extend((0..week.sessions.len()).map(|index| prep::turnover(&self.kitchen, week, &self.makings, demand, draws, index)));
        all.sort_by_key(|session| session.start);
        all
    }

    /// The week with all that is not booked, the past too, and what it makes and needs: what a booking of meals reads.
    pub fn not_booked(&self) -> (&Week, &Makings, &Demanded) {
        match &self.as_planned {
            Some(planned) => (&planned.week, &planned.stages.makings, &planned.stages.demanded),
            None => (&self.week, &self.makings, &self.demanded),
        }
    }
}

/// Foods on the list that contain, or may contain, what the household avoids.
fn avoided_on_list(kitchen: &Kitchen, demanded: &Demanded, needs: &Needs) -> Vec<Warning> {
    if !kitchen.household.avoids_something() {
        return Vec::new();
    }
    let warn = |need: &plan::Need| {
        let name = &kitchen.foods[need.food].name;
        let demand = demanded.demand.iter().find(|demand| demand.food == need.food);
        let staple = kitchen.staples.iter().find(|staple| staple.food == need.food);
        let at = demand.map(|demand| &demand.at).or(staple.map(|staple| &staple.at)).cloned().unwrap_or_else(Spot::default);
        plan::avoided(&kitchen.household, &plan::food_contains(&kitchen.foods, &kitchen.household, need.food), name, &at)
    };
    needs.needs.iter().flat_map(warn).collect()
}
