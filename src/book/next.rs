//! What is booked next: the trip, the session, the meals; and which list a goods-in sheet was written from.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::booked::Booked;
use super::goods_form::fill;
use super::receive::{Goods, goods_of};
use crate::foods::FoodId;
use crate::kitchen::{GoodsForm, Kitchen, Mistake, Names, Week};
use crate::prep::Turnover;
use crate::purchase::{Packed, TripBuys, WeekBuys};
use crate::words::day;

/// A trip that comes next, and the week it is of.
#[derive(Debug, Clone)]
pub struct NextTrip {
    pub trip: TripBuys,
    pub week: String,
    pub from: Date,
}

/// Which list counts where the plan has changed since one was printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum As {
    /// The print, as long as the plan still says the same.
    Printed,
    /// The print, whatever the plan says.
    PrintedAnyway,
    /// The plan.
    Planned,
}

/// Why there is no trip to book.
#[derive(Debug, Clone, PartialEq)]
pub enum NoTrip {
    AllBooked { week: String },
    PlanChanged { on: Date, foods: Vec<OtherPacks> },
}

/// A food of which the print and the plan buy otherwise.
#[derive(Debug, Clone, PartialEq)]
pub enum OtherPacks {
    /// `None` where one of them buys none.
    Differ { food: FoodId, printed: Option<Vec<Packed>>, now: Option<Vec<Packed>> },
    /// It was printed, and is not known any more.
    NotKnown { food: String },
}

impl OtherPacks {
    /// "feta: printed 1 × 200 g, now none".
    pub fn text(&self, names: Names) -> String {
        let said = |packs: &Option<Vec<Packed>>| packs.as_deref().map_or("none".to_owned(), in_words);
        match self {
            OtherPacks::Differ { food, printed, now } => format!("{}: printed {}, now {}", names.food(*food), said(printed), said(now)),
            OtherPacks::NotKnown { food } => format!("{food}: printed, and not known any more"),
        }
    }
}

fn in_words(packs: &[Packed]) -> String {
    let pack = |pack: &Packed| match pack {
        Packed::Loose(amount) => format!("{} {} loose", amount.base(), amount.dimension()),
        Packed::Packs { count, label, .. } => format!("{count} × {label}"),
    };
    if packs.is_empty() { "as needed".to_owned() } else { packs.iter().map(pack).collect::<Vec<_>>().join(" + ") }
}

/// The earliest trip that is not booked yet.
///
/// # Errors
/// Where every trip is booked, and where the plan has changed since it was printed.
pub fn next_trip(plan: &WeekBuys, printed: Option<&WeekBuys>, booked: &Booked, taken: As) -> Result<NextTrip, NoTrip> {
    let printed = printed.filter(|_| taken != As::Planned);
    let chosen = printed.unwrap_or(plan);
    let open = chosen.trips.iter().filter(|trip| !booked.has_trip(trip.on));
    let Some(trip) = open.min_by_key(|trip| trip.on) else {
        return Err(NoTrip::AllBooked { week: chosen.week.clone() });
    };
    if printed.is_some() && taken == As::Printed {
        let foods = other_packs(trip, plan.trips.iter().find(|now| now.on == trip.on));
        if !foods.is_empty() {
            return Err(NoTrip::PlanChanged { on: trip.on, foods });
        }
    }
    Ok(NextTrip { trip: trip.clone(), week: chosen.week.clone(), from: chosen.from })
}

/// What is bought of each food, where the two say otherwise, by the foods' places in the kitchen.
fn other_packs(printed: &TripBuys, now: Option<&TripBuys>) -> Vec<OtherPacks> {
    let packs_of =
        |trip: &TripBuys| -> BTreeMap<FoodId, Vec<Packed>> { trip.lines.iter().map(|line| (line.food, line.packs.clone())).collect() };
    let (before, now) = (packs_of(printed), now.map(packs_of).unwrap_or_default());
    let foods: BTreeSet<FoodId> = before.keys().chain(now.keys()).copied().collect();
    let differing =
        foods.into_iter().filter(|food| before.get(food).map(|packs| in_words(packs)) != now.get(food).map(|packs| in_words(packs)));
    let differ = |food: FoodId| OtherPacks::Differ { food, printed: before.get(&food).cloned(), now: now.get(&food).cloned() };
    let unknown = printed.unknown.iter().map(|food| OtherPacks::NotKnown { food: food.clone() });
    differing.map(differ).chain(unknown).collect()
}

/// The week that a goods-in sheet is of: its place among `weeks`.
///
/// # Errors
/// Where there is none, or its trip is booked already.
pub fn week_of_sheet<'w>(weeks: impl IntoIterator<Item = &'w Week>, booked: &Booked, form: &GoodsForm) -> Result<usize, Mistake> {
    let Some(week) = weeks.into_iter().position(|week| week.from == form.from) else {
        return Err(Mistake {
            at: form.from_at.clone(),
            cause: format!("no week has from = {}", form.from),
            remedy: "Write the from of the week that the trip is of.".to_owned(),
        });
    };
    if booked.has_trip(form.trip) {
        return Err(Mistake {
            at: form.trip_at.clone(),
            cause: format!("the trip of {} is booked already", day(form.trip)),
            remedy: "Take it back first, with: spence undo.".to_owned(),
        });
    }
    Ok(week)
}

/// What a goods-in sheet says was bought.
#[derive(Debug, Clone)]
pub struct FilledIn {
    pub trip: TripBuys,
    pub goods: Vec<Goods>,
    /// What cannot be booked because its amount stands in words alone.
    pub not_booked: Vec<String>,
}

/// Lays the sheet over the list it was written from: of the `lists` of its week, the print and the plan, the one of which most lines
/// stand unchanged.
///
/// # Errors
/// What cannot be read, and lines that are on no list, at their places in the sheet: all of it at once.
pub fn filled_in(kitchen: &Kitchen, week: &Week, lists: &[&WeekBuys], form: &GoodsForm) -> Result<FilledIn, Vec<Mistake>> {
    let trips = lists.iter().flat_map(|list| &list.trips).filter(|trip| trip.on == form.trip);
    let mut best: Option<(usize, Result<FilledIn, Vec<Mistake>>)> = None;
    for trip in trips {
        let (mut goods, not_booked) = goods_of(kitchen, trip);
        let filled = fill(kitchen, &mut goods, form);
        let as_listed = || goods.iter().filter(|bought| !bought.packs.is_empty()).count();
        let unchanged = if filled.is_ok() { as_listed() + 1 } else { 0 };
        if best.as_ref().is_none_or(|(most, _)| unchanged > *most) {
            best = Some((unchanged, filled.map(|()| FilledIn { trip: trip.clone(), goods, not_booked })));
        }
    }
    best.map(|(_, filled)| filled).unwrap_or_else(|| {
        let cause = format!("{} has no trip on {}", week.name, form.trip);
        Err(vec![Mistake { at: form.trip_at.clone(), cause, remedy: "Write the day of one of its trips.".to_owned() }])
    })
}

/// The earliest session that is not booked yet.
pub fn next_session<'p>(sessions: &'p [Turnover], booked: &Booked) -> Option<&'p Turnover> {
    sessions.iter().filter(|session| !booked.has_session(session.start)).min_by_key(|session| session.start)
}

/// The meals of a week that are `chosen` and not booked yet, in order of time.
pub fn meals_left(week: &Week, booked: &Booked, chosen: &MealChoice) -> Vec<usize> {
    let mut left: Vec<usize> = (0..week.meals.len()).collect();
    left.retain(|&index| !booked.has_meal(&week.meals[index]) && chosen.is_of(week, index));
    left.sort_by_key(|&index| week.meals[index].at_time);
    left
}

/// Meals as they are named to be booked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MealChoice {
    /// By their label, "mon supper", or their own name.
    Named(String),
    /// All up to that day.
    Until(Date),
}

impl MealChoice {
    fn is_of(&self, week: &Week, index: usize) -> bool {
        let meal = &week.meals[index];
        match self {
            MealChoice::Named(name) => {
                let wanted = name.trim().to_lowercase();
                meal.label.to_lowercase() == wanted || meal.name.as_deref().is_some_and(|name| name.to_lowercase() == wanted)
            }
            MealChoice::Until(last) => meal.at_time.date() <= *last,
        }
    }
}
