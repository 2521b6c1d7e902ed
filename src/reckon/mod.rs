//! The one door: what was read, what is booked and today go in; the whole reckoning of a week comes out. Every verb goes through it.
//!
//! ```text
//! Kitchen, Week, Booked ── lived: what is done or taken as done ── carry: what other weeks take first ─> the stages in a row: plan, demand, netting, needs, packs ─> Reckoning
//! ```
//!
//! Files are read before it and written after it; what takes long (the schedule, the budget's advice, other rounds of the shops) is
//! reckoned when it is asked for. Knows no file and no terminal.

mod another;
mod before;
mod brought;
mod budget;
mod carry;
mod cooked;
mod day;
mod done;
mod lacking;
mod lived;
mod past;
mod rehearsal;
mod stages;
mod told;
mod trial;
mod walk;

pub use day::{DayLot, DayPlan, DaySession};
pub use done::PastSession;
pub use lived::{AsPrinted, has_begun};
pub use told::waits_to_be_booked;
pub use trial::{Priced, Trials, Tried, open_meals, trials};
pub use walk::Walk;

use std::borrow::Cow;
use std::collections::BTreeSet;

use jiff::civil::{Date, DateTime};

use crate::book::Booked;
use crate::kitchen::{Kitchen, Loaded, Lot, Mistake, Spot, Ware, Warning, Week, WeekPrice};
use crate::measure::Money;
use crate::pantry::{self, Netted};
use crate::plan::{self, Demanded, Makings, State};
use crate::prep::{self, Effort, PrepPlan, Turnover, UnderWay};
use crate::purchase::{self, Awaiting, Basket, Needs, Reserved, ShoppingList, TripList};
use before::{Before, Household};
use lived::AsPlanned;
use stages::{Begun, Stages, open_stages};

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
    /// Those that are done, as the book has them.
    booked_trips: Vec<TripList>,
    past_sessions: Vec<PastSession>,
    /// Meals that are done or taken as done, each with its name.
    past_meals: Vec<(DateTime, String)>,
}

/// How trips that are no longer open stand on a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PastTrips {
    #[default]
    LeftOut,
    /// What bookings go by, and a later print keeps.
    AsPrinted,
    /// What is done, as the book has it; what is taken as done, as it was printed.
    AsBooked,
}

impl PastTrips {
    /// What a person is shown who asks for `all`.
    pub fn shown(all: bool) -> PastTrips {
        if all { PastTrips::AsBooked } else { PastTrips::LeftOut }
    }
}

/// What a list is to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shown {
    /// Of the trips that are done or taken as done.
    pub past: PastTrips,
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
    let household = Household { walk, loaded, booked, prints, today };
    let before = household.before(week, &loaded.weeks[week].1);
    let open = Open::of(&before, booked, today)?;
    let warnings = told::warnings(&household, week, &before, &open);
    let Before { lived, kitchen, reserved, begun, .. } = before;
    let Open { week, stages: Stages { makings, demanded, netted, needs }, basket, .. } = open;
    Ok(Reckoning {
        week,
        makings,
        demanded,
        netted,
        needs,
        basket,
        reserved,
        warnings,
        today,
        begun,
        paid: booked.paid_in(lived.week.from, plan::span(&lived.week)),
        past_trips: done::past_trips(&kitchen, &lived),
        booked_trips: done::booked_trips(&kitchen, &lived),
        past_sessions: done::past_sessions(&kitchen, &lived),
        past_meals: lived.past_meals(),
        as_planned: lived.as_planned,
        kitchen,
    })
}

/// The shelf as all that is taken as done left it, of one of the household's weeks and of those that overlap it.
pub fn shelf_as_taken(loaded: &Loaded, booked: &Booked, prints: &[Option<AsPrinted>], week: usize, today: Date) -> Vec<Lot> {
    Household { walk: &Walk::default(), loaded, booked, prints, today }.shelf_as_taken(week)
}

/// What is open of a week, planned and with its packs.
struct Open<'w> {
    week: Cow<'w, Week>,
    stages: Stages,
    basket: Basket,
    /// What those who eat are to know.
    guarded: Vec<Warning>,
}

impl<'w> Open<'w> {
    fn of(before: &Before<'_, 'w, '_>, booked: &Booked, today: Date) -> Result<Open<'w>, Vec<Mistake>> {
        let (kitchen, open) = (&before.kitchen, before.lived.open());
        let guarded = plan::guard(kitchen, &open);
        let staged = open_stages(kitchen, open, before.begun.as_ref().map(|begun| (begun, booked)));
        if !guarded.mistakes.is_empty() {
            return Err(guarded.mistakes.into_iter().chain(staged.err().into_iter().flatten()).collect());
        }
        let (week, mut stages) = staged?;
        stages.makings.move_no_earlier_than(today);
        let rounds = prep::too_many_rounds(kitchen, &week, &stages.makings);
        if !rounds.is_empty() {
            return Err(rounds);
        }
        let basket = purchase::choose(kitchen, &week, &stages.needs.needs);
        basket.is_counted(kitchen, &week)?;
        Ok(Open { week, stages, basket, guarded: guarded.warnings })
    }
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
        if shown.past != PastTrips::LeftOut {
            list.trips.iter_mut().for_each(|trip| trip.state = Some(State::Open));
            let is_it = |trip: &&TripList, other: &TripList| (trip.on, trip.nth) == (other.on, other.nth);
            let booked = |trip: &TripList| self.booked_trips.iter().find(|booked| is_it(booked, trip));
            let as_booked = shown.past == PastTrips::AsBooked;
            list.trips.extend(self.past_trips.iter().map(|trip| booked(trip).filter(|_| as_booked).unwrap_or(trip).clone()));
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
