//! What is booked next: the trip, the session, the meals; and which list a goods-in sheet was written from.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::booked::Booked;
use super::goods::{Goods, open_goods};
use super::goods_form::{Settled, fill};
use crate::foods::{FoodId, Foods};
use crate::kitchen::{GoodsForm, Kitchen, Meal, Mistake, Names, RecipeId, Spot, Ware, Week};
use crate::measure::{Quantity, Units, show};
use crate::prep::{Taken, Turnover};
use crate::purchase::{Packed, TripBuys, WeekBuys};
use crate::telling::list::packs as told_packs;
use crate::words::day;

/// A trip that comes next, and the week it is of.
#[derive(Debug, Clone)]
pub struct NextTrip {
    pub trip: TripBuys,
    pub week: String,
    pub from: Date,
    /// The day of which it is booked.
    pub as_of: Date,
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
    if packs.is_empty() { "wherever it is sold, as needed".to_owned() } else { told_packs(packs, Units::Metric).join(" + ") }
}

/// The earliest trip that is not booked yet.
///
/// # Errors
/// Where every trip is booked, and where the plan has changed since it was printed.
pub fn next_trip(kitchen: &Kitchen, plan: &WeekBuys, printed: Option<&WeekBuys>, booked: &Booked, taken: As) -> Result<NextTrip, NoTrip> {
    let printed = printed.filter(|_| taken != As::Planned);
    let chosen = printed.unwrap_or(plan);
    let is_open = |trip: &&TripBuys| !booked.has_trip(trip.on, trip.nth);
    let same = |list: &'_ WeekBuys, trip: &TripBuys| list.trips.iter().any(|other| (other.on, other.nth) == (trip.on, trip.nth));
    // A trip of its own may have arisen after the print.
    let arisen = plan.trips.iter().filter(|trip| printed.is_some_and(|printed| !trip.is_planned() && !same(printed, trip)));
    let open = chosen.trips.iter().map(|trip| (trip, true)).chain(arisen.map(|trip| (trip, false))).filter(|(trip, _)| is_open(trip));
    let Some((trip, is_printed)) = open.min_by_key(|(trip, _)| (trip.on, trip.nth)) else {
        return Err(NoTrip::AllBooked { week: chosen.week.clone() });
    };
    if printed.is_some() && is_printed && taken == As::Printed {
        let now = plan.trips.iter().find(|now| (now.on, now.nth) == (trip.on, trip.nth)).map(|now| open_lines(&kitchen.foods, now, booked));
        let foods = other_packs(&open_lines(&kitchen.foods, trip, booked), now.as_ref());
        if !foods.is_empty() {
            return Err(NoTrip::PlanChanged { on: trip.on, foods });
        }
    }
    Ok(NextTrip { trip: trip.clone(), week: chosen.week.clone(), from: chosen.from, as_of: trip.on })
}

/// The trip with the lines that are not booked yet.
pub fn open_lines(foods: &Foods, trip: &TripBuys, booked: &Booked) -> TripBuys {
    let mut seen: BTreeMap<FoodId, usize> = BTreeMap::new();
    let mut trip = trip.clone();
    trip.lines.retain(|line| {
        let next = seen.entry(line.food).or_default();
        let nth = std::mem::replace(next, *next + 1);
        !booked.has_line((trip.on, trip.nth), &foods[line.food].name, nth)
    });
    trip
}

/// By which two packs are compared: words would hide a gram.
fn bought(pack: &Packed) -> String {
    match pack {
        Packed::Loose(amount) => format!("{} {}", amount.base(), amount.dimension()),
        Packed::Packs { count, label, .. } => format!("{count} × {label}"),
    }
}

/// What is bought of each food, where the two say otherwise, by the foods' places in the kitchen.
fn other_packs(printed: &TripBuys, now: Option<&TripBuys>) -> Vec<OtherPacks> {
    let packs_of =
        |trip: &TripBuys| -> BTreeMap<FoodId, Vec<Packed>> { trip.lines.iter().map(|line| (line.food, line.packs.clone())).collect() };
    let (before, now) = (packs_of(printed), now.map(packs_of).unwrap_or_default());
    let foods: BTreeSet<FoodId> = before.keys().chain(now.keys()).copied().collect();
    let exactly = |packs: &Vec<Packed>| packs.iter().map(bought).collect::<Vec<_>>();
    let differing = foods.into_iter().filter(|food| before.get(food).map(exactly) != now.get(food).map(exactly));
    let differ = |food: FoodId| OtherPacks::Differ { food, printed: before.get(&food).cloned(), now: now.get(&food).cloned() };
    let unknown = printed.unknown.iter().map(|food| OtherPacks::NotKnown { food: food.clone() });
    differing.map(differ).chain(unknown).collect()
}

/// The week that a goods-in sheet is of: its place among `weeks`.
///
/// # Errors
/// Where there is none.
pub fn week_of_sheet<'w>(weeks: impl IntoIterator<Item = &'w Week>, form: &GoodsForm) -> Result<usize, Mistake> {
    weeks.into_iter().position(|week| week.from == form.from).ok_or_else(|| Mistake {
        at: form.from_at.clone(),
        cause: format!("no week has from = {}", form.from),
        remedy: "Write the from of the week that the trip is of.".to_owned(),
    })
}

/// What a goods-in sheet says was bought.
#[derive(Debug, Clone)]
pub struct FilledIn {
    pub trip: TripBuys,
    pub goods: Vec<Goods>,
    /// The lines of the trip that are booked with it or said to be not got, as the book names them; `None` where that is all there was.
    pub lines: Option<Vec<String>>,
    /// What cannot be booked because its amount stands in words alone.
    pub not_booked: Vec<String>,
    /// Foods of the sheet that were booked before, and are left out.
    pub already: Vec<String>,
}

/// Lays the sheet over the list it was written from: of the `lists` of its week, the print and the plan, the one of which most lines
/// stand unchanged. `copied` are the trips of its day that it says it was copied from, where it does.
///
/// # Errors
/// What cannot be read, and lines that are on no list, at their places in the sheet: all of it at once.
pub fn filled_in(
    kitchen: &Kitchen,
    week: &Week,
    lists: &[&WeekBuys],
    booked: &Booked,
    (form, copied): (&GoodsForm, &[usize]),
) -> Result<FilledIn, Vec<Mistake>> {
    // Of several trips of that day it is the one that the sheet is of, else the first that is not booked.
    let is_meant = |trip: &&TripBuys| trip.on == form.trip && (copied.is_empty() || copied.contains(&trip.nth));
    let of_day = || lists.iter().flat_map(|list| &list.trips).filter(is_meant);
    let first_open = of_day().filter(|trip| !booked.has_trip(trip.on, trip.nth)).map(|trip| trip.nth).min();
    let mut best: Option<(usize, Result<FilledIn, Vec<Mistake>>)> = None;
    for trip in of_day().filter(|trip| Some(trip.nth) == first_open) {
        let (mut goods, not_booked) = open_goods(&kitchen.foods, &kitchen.rules, trip, booked);
        let filled = fill(kitchen, &mut goods, form, trip, booked);
        let as_listed = || goods.iter().filter(|bought| !bought.packs.is_empty()).count();
        let unchanged = if filled.is_ok() { as_listed() + 1 } else { 0 };
        if best.as_ref().is_none_or(|(most, _)| unchanged > *most) {
            let told = |Settled { lines, already }| FilledIn { trip: trip.clone(), goods, lines, not_booked, already };
            best = Some((unchanged, filled.map(told)));
        }
    }
    best.map(|(_, filled)| filled).unwrap_or_else(|| {
        if of_day().next().is_some() || week.trips.iter().any(|trip| trip.on == form.trip && booked.has_trip(trip.on, trip.nth)) {
            let cause = format!("the trip of {} is booked already", day(form.trip));
            return Err(vec![Mistake { at: form.trip_at.clone(), cause, remedy: "Take it back first, with: spence undo.".to_owned() }]);
        }
        let cause = format!("{} has no trip on {}", week.name, form.trip);
        Err(vec![Mistake { at: form.trip_at.clone(), cause, remedy: "Write the day of one of its trips.".to_owned() }])
    })
}

/// The earliest session that is not booked yet.
pub fn next_session<'p>(sessions: &'p [Turnover], booked: &Booked) -> Option<&'p Turnover> {
    sessions.iter().filter(|session| !booked.has_session(session.start)).min_by_key(|session| session.start)
}

/// How a plan that has changed differs from what was printed of a session: the dishes made otherwise, and the food taken otherwise.
/// A food is compared where both speak of it in one measure; what is fetched may be stated by the lot it comes from.
pub fn otherwise_than_printed(kitchen: &Kitchen, printed: &Turnover, now: Option<&Turnover>) -> Vec<String> {
    let Some(now) = now else { return vec!["the session is no longer planned".to_owned()] };
    let units = kitchen.print.units;
    let made = |session: &Turnover| -> BTreeMap<RecipeId, Quantity> {
        session.batches.iter().map(|batch| (batch.recipe, batch.makes.clone())).collect()
    };
    let taken = |session: &Turnover| -> BTreeMap<FoodId, Quantity> {
        // A print adds up what lies in several places, the plan has an entry for each.
        let mut sums: BTreeMap<FoodId, Quantity> = BTreeMap::new();
        for Taken { of, amount, .. } in &session.fetch {
            let Ok(Ware::Food(food)) = of else { continue };
            let sum = sums.get(food).and_then(|sum| sum.plus(amount)).unwrap_or_else(|| amount.clone());
            sums.insert(*food, sum);
        }
        sums
    };
    let said = |amount: Option<&Quantity>| amount.map_or("none".to_owned(), |amount| show(amount, units));
    let mut differing = Vec::new();
    let (before, after) = (made(printed), made(now));
    for &recipe in before.keys().chain(after.keys()).collect::<BTreeSet<_>>() {
        let (before, after) = (before.get(&recipe), after.get(&recipe));
        if before.zip(after).is_none_or(|(before, after)| !are_alike(before, after)) {
            differing.push(format!("{}: printed {}, now {}", kitchen.recipes[recipe].name, said(before), said(after)));
        }
    }
    let (before, after) = (taken(printed), taken(now));
    for (food, before) in &before {
        let after = after.get(food).filter(|after| after.dimension() == before.dimension());
        if after.is_some_and(|after| !are_alike(before, after)) {
            differing.push(format!("{}: printed {}, now {}", kitchen.foods[*food].name, said(Some(before)), said(after)));
        }
    }
    differing
}

/// To a hundredth, or a rest: a print has ten digits, and who draws on a lot may take its rest along.
fn are_alike(a: &Quantity, b: &Quantity) -> bool {
    let (first, second) = (a.exact(), b.exact());
    let apart = (first - second).abs();
    a.dimension() == b.dimension() && (&apart * 100 <= first.clone().max(second.clone()) || apart < a.dimension().rest())
}

/// Is a meal neither booked nor left out?
fn is_open(meal: &Meal, booked: &Booked) -> bool {
    !meal.skip && !booked.has_meal(meal)
}

/// Is it its label, "mon supper", or its own name?
pub fn is_called(meal: &Meal, name: &str) -> bool {
    let wanted = name.trim().to_lowercase();
    meal.label.to_lowercase() == wanted || meal.name.as_deref().is_some_and(|name| name.to_lowercase() == wanted)
}

/// The meal that is meant by its label, "mon supper", or its own name: of the open ones the nearest on or before today, else the next.
/// Gives the number of its week and where it stands in the week's file.
///
/// # Errors
/// The names that would do, each once, in order of time.
pub fn meal_eaten(weeks: &[(usize, &Week)], booked: &Booked, today: Date, name: &str) -> Result<(usize, Spot), Vec<String>> {
    let open = written_meals(weeks, booked);
    let called = || open.iter().filter(|(_, meal)| is_called(meal, name));
    let on_or_before = called().filter(|(_, meal)| meal.at_time.date() <= today).max_by_key(|(_, meal)| meal.at_time);
    let found = on_or_before.or_else(|| called().min_by_key(|(_, meal)| meal.at_time));
    found.map(|(week, meal)| (*week, meal.at.clone())).ok_or_else(|| names_of(&open))
}

/// The next meal of that name from today on.
///
/// # Errors
/// The names that would do, each once, in order of time.
pub fn meal_to_come(weeks: &[(usize, &Week)], booked: &Booked, today: Date, name: &str) -> Result<(usize, Spot), Vec<String>> {
    let mut open = open_meals(weeks, booked);
    open.retain(|(_, meal)| meal.at_time.date() >= today);
    let called = open.iter().filter(|(_, meal)| is_called(meal, name)).min_by_key(|(_, meal)| meal.at_time);
    called.map(|(week, meal)| (*week, meal.at.clone())).ok_or_else(|| names_of(&open))
}

fn open_meals<'w>(weeks: &[(usize, &'w Week)], booked: &Booked) -> Vec<(usize, &'w Meal)> {
    let of_week = |&(index, week): &(usize, &'w Week)| week.meals.iter().map(move |meal| (index, meal));
    let mut open: Vec<(usize, &Meal)> = weeks.iter().flat_map(of_week).filter(|(_, meal)| is_open(meal, booked)).collect();
    open.sort_by_key(|(_, meal)| meal.at_time);
    open
}

/// What nobody has filled yet was not eaten as planned.
fn written_meals<'w>(weeks: &[(usize, &'w Week)], booked: &Booked) -> Vec<(usize, &'w Meal)> {
    open_meals(weeks, booked).into_iter().filter(|(_, meal)| meal.open.is_none()).collect()
}

/// As they are typed: "mon supper", whatever else they are called.
fn names_of(open: &[(usize, &Meal)]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (_, meal) in open {
        let name = meal.label.to_lowercase();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// The open meals of a week up to a day, in order of time.
pub fn meals_until(week: &Week, booked: &Booked, last: Date) -> Vec<Spot> {
    let open = written_meals(&[(0, week)], booked);
    open.into_iter().filter(|(_, meal)| meal.at_time.date() <= last).map(|(_, meal)| meal.at.clone()).collect()
}
