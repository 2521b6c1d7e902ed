//! What one day asks for: its trip and its session, its meals, what is done ahead or moved, what goes off and what is past its date.

use jiff::civil::{Date, DateTime};

use super::{Reckoning, Shown};
use crate::foods::Place;
use crate::kitchen::{Kitchen, Person, RecipeId, Ware, Whose};
use crate::measure::Quantity;
use crate::pantry::{StockLot, goes_off, stock};
use crate::plan::{MadeAt, ShortMeal};
use crate::prep::{Before, CardMeal, Care, Effort, Errand, begin_by, meal_cautions, week_card};
use crate::purchase::TripList;

/// One day of a household, of all its weeks.
#[derive(Debug, Clone, PartialEq)]
pub struct DayPlan {
    pub on: Date,
    /// Those that are still to be made.
    pub trips: Vec<TripList>,
    pub sessions: Vec<DaySession>,
    /// With when to begin at the stove, where something is made or cooked at the meal.
    pub meals: Vec<(CardMeal, Option<DateTime>)>,
    /// What its meals lack.
    pub short: Vec<ShortMeal>,
    /// What is soaked, marinated, thawed on that day.
    pub before: Vec<Before>,
    pub tonight: Vec<Errand>,
    /// What is good until that day and no longer.
    pub goes_off: Vec<DayLot>,
    /// What may not be eaten any more, and lies there still.
    pub past: Vec<DayLot>,
    /// What to take care of with what is made or added at its meals.
    pub cautions: Vec<Care>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct DaySession {
    pub start: DateTime,
    pub finish_by: Option<DateTime>,
    pub people: Vec<Person>,
    pub makes: Vec<RecipeId>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct DayLot {
    pub of: Ware,
    /// Of what was cooked, whose it is alone.
    pub whose: Option<Whose>,
    pub amount: Quantity,
    /// What one of its closed packs holds.
    pub pack: Option<Quantity>,
    pub place: Place,
    pub until: Option<Date>,
}

impl DayLot {
    fn of((place, lot): (Place, &StockLot)) -> DayLot {
        DayLot { of: lot.of, whose: lot.whose.clone(), amount: lot.amount.clone(), pack: lot.pack.clone(), place, until: lot.until }
    }
}

impl DayPlan {
    /// The day as the weeks that contain it see it. `kitchen` has the shelf as it stands; what goes off lies there as all that is past
    /// left it, booked or not.
    pub fn of(on: Date, today: Date, kitchen: &Kitchen, weeks: &[Reckoning<'_>]) -> DayPlan {
        let that_morning = weeks.first().map(|week| stock(&week.kitchen_on(on)));
        let shelf = that_morning.unwrap_or_else(|| stock(kitchen));
        let goes_off = goes_off(&shelf, on).into_iter().filter(|(_, lot)| lot.until == Some(on)).map(DayLot::of);
        let mut day = DayPlan {
            on,
            trips: Vec::new(),
            sessions: Vec::new(),
            meals: Vec::new(),
            short: Vec::new(),
            before: Vec::new(),
            tonight: Vec::new(),
            goes_off: goes_off.collect(),
            past: past(today, kitchen, weeks),
            cautions: Vec::new(),
        };
        weeks.iter().for_each(|week| day.take_in(week));
        day
    }

    fn take_in(&mut self, week: &Reckoning<'_>) {
        let on = self.on;
        let list = week.list(Shown::default());
        self.trips.extend(list.trips.into_iter().filter(|trip| trip.on == on && trip.lines().next().is_some()));
        self.sessions.extend(sessions(week, on));
        let card = week_card(&week.kitchen, &week.week, &week.makings);
        let mut meals: Vec<usize> = (0..week.week.meals.len()).filter(|&meal| week.week.meals[meal].at_time.date() == on).collect();
        meals.sort_by_key(|&meal| week.week.meals[meal].at_time);
        for day in card.days.into_iter().filter(|day| day.on == on) {
            let begins = meals.iter().map(|&meal| begin_by(&week.kitchen, &week.week, &week.makings, meal));
            self.meals.extend(day.meals.into_iter().zip(begins));
            self.tonight.extend(day.tonight);
        }
        for care in meal_cautions(&week.kitchen, &week.week, &week.makings, &meals) {
            // Of two weeks that share the day, whose rules come first stands once, last of all.
            self.cautions.retain(|known| *known != Care::LocalRules || care != Care::LocalRules);
            if !self.cautions.contains(&care) {
                self.cautions.push(care);
            }
        }
        self.short.extend(week.makings.short.iter().filter(|short| short.at.date() == on).cloned());
        // What is done ahead hangs on the plan of a session; any plan will do.
        self.before.extend(week.prep(Effort::Low).before.into_iter().filter(|one| one.at.date() == on));
    }
}

/// The sessions of that day in which something is made.
fn sessions(week: &Reckoning<'_>, on: Date) -> Vec<DaySession> {
    let mut sessions = Vec::new();
    for (index, session) in week.week.sessions.iter().enumerate().filter(|(_, session)| session.start.date() == on) {
        let mut makes: Vec<RecipeId> = Vec::new();
        for making in week.makings.makings.iter().filter(|making| making.at == MadeAt::Session(index)) {
            if !makes.contains(&making.recipe) {
                makes.push(making.recipe);
            }
        }
        if !makes.is_empty() {
            sessions.push(DaySession { start: session.start, finish_by: session.finish_by, people: session.people.clone(), makes });
        }
    }
    sessions
}

/// As the list of a week tells it, which knows what was used since; without a week as the shelf says.
fn past(today: Date, kitchen: &Kitchen, weeks: &[Reckoning<'_>]) -> Vec<DayLot> {
    match weeks.first() {
        Some(week) => {
            let list = week.list(Shown::default());
            let past = list.expiring.into_iter().filter(|lot| lot.past);
            past.map(|lot| DayLot { of: lot.of, whose: lot.whose, amount: lot.amount, pack: None, place: lot.place, until: lot.until })
                .collect()
        }
        None => {
            let shelf = stock(kitchen);
            let lots = shelf.places.iter().flat_map(|here| here.lots.iter().map(|lot| (here.place, lot)));
            lots.filter(|(_, lot)| lot.is_past(today)).map(DayLot::of).collect()
        }
    }
}
