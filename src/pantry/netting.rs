//! Demand against the pantry, first expired, first out. What the shelf serves is not bought.
//!
//! Food alone in its unit stays in it. Where a food has no packs and no line of it can be weighed, lines of one unit
//! are added up in that unit and nothing is asked of the household; a kitchen word without a weight still draws a
//! warning.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::incomparable::{incomparable, incomparable_cooked};
use super::staples::{TopUp, top_ups};
use crate::kitchen::{Kitchen, Lot, Recipe, Ware, Warning, Week};
use crate::measure::{Dimension, Number, Quantity, is_nothing_of};
use crate::plan::{Demand, Demanded, Draw, Makings, in_makes};
use crate::shelf::{First, Shelf, Taken, counts_packs, food_rate};

/// What the pantry served, and what it did not.
#[derive(Debug, Clone)]
pub struct Netted {
    /// One entry a lot and day, in the unit of the need (a cooked lot: of the recipe's `makes`).
    pub draws: Vec<Draw>,
    /// For each demand, what is still to be bought of it, in base units.
    pub unmet: Vec<Number>,
    /// For each demand, whether it is "to taste" and nothing of the food is at home.
    pub untasted: Vec<bool>,
    pub top_ups: Vec<TopUp>,
    /// Of what is left, the lots whose earliest date lies before the day of the last meal, and what was cooked and nobody will eat; in
    /// file order.
    pub expiring: Vec<(usize, Option<Date>)>,
    /// All lots as they lie afterwards: those of the kitchen in their order, then what is left of packs opened meanwhile.
    pub lots: Vec<Lot>,
    /// Of what is left of a pack, the lot the pack was one of.
    pub pack_of: BTreeMap<usize, usize>,
    pub warnings: Vec<Warning>,
}

/// Nets the demand in its order; cooked lots have been drawn by the plan already.
pub fn net(kitchen: &Kitchen, week: &Week, makings: &Makings, demanded: &Demanded) -> Netted {
    let last_day = last_day(week);
    let mut shelf = Shelf::new(kitchen).until(last_day);
    replay(&kitchen.lots, &kitchen.recipes, &mut shelf, makings);
    let mut draws = DrawBook::new(&makings.cooked_draws);
    let mut warnings = incomparable_cooked(kitchen, &shelf, makings);
    let (mut unmet, mut untasted) = (Vec::new(), Vec::new());
    for demand in &demanded.demand {
        if demand.to_taste {
            unmet.push(Number::ZERO);
            untasted.push(shelf.drawable(Ware::Food(demand.food), demand.on, First::Opened).is_empty());
            continue;
        }
        let dimension = demand.amount.dimension();
        let wanted = demand.amount.exact();
        let foreign = incomparable(&kitchen.foods, kitchen.print.units, &shelf, demand, &dimension);
        let rate = |lot: &Lot| food_rate(&kitchen.foods, lot, demand.food, &dimension, demand.tin.as_ref());
        let taken = shelf.draw(Ware::Food(demand.food), demand.on, goes_first(demand), wanted, rate);
        let left = wanted - taken.iter().map(|taken| &taken.amount).sum::<Number>();
        let is_served = is_nothing_of(&left, wanted);
        // What is left of a pack is no lot of the household's own: where another pack serves, nothing was to be drawn of it.
        let own = |lot: usize| lot < kitchen.lots.len();
        warnings.extend(foreign.into_iter().filter(|(lot, _)| !is_served || own(*lot)).map(|(_, warning)| warning));
        unmet.push(if is_served { Number::ZERO } else { left });
        untasted.push(false);
        for taken in taken {
            draws.add(&shelf, demand, &dimension, &taken);
        }
    }
    let top_ups = top_ups(kitchen, &shelf, &demanded.stated_in, last_day, &mut warnings);
    let expiring = expiring(&shelf, last_day);
    let (lots, pack_of) = as_they_lie(kitchen, &shelf);
    warnings.sort();
    warnings.dedup();
    Netted { draws: draws.finish(), unmet, untasted, top_ups, expiring, lots, pack_of, warnings }
}

/// The day of the last meal that is not open; without meals, of the last session or trip.
pub fn last_day(week: &Week) -> Date {
    let meals = week.meals.iter().filter(|meal| meal.open.is_none()).map(|meal| meal.at_time.date()).max();
    let sessions = week.sessions.iter().map(|session| session.start.date()).max();
    let trips = week.trips.iter().map(|trip| trip.on).max();
    week.left_out.last_meal.max(meals).or(sessions).or(trips).unwrap_or(week.from)
}

/// What speaks of tins takes closed packs first.
pub(crate) fn goes_first(demand: &Demand) -> First {
    if demand.tin.is_some() || counts_packs(&demand.amount.dimension()) { First::Closed } else { First::Opened }
}

fn expiring(shelf: &Shelf, last_day: Date) -> Vec<(usize, Option<Date>)> {
    let lots = shelf.lots().iter().enumerate().filter(|(index, _)| shelf.has_left(*index));
    let until = |index: usize| shelf.dates(index).earliest;
    let counts = |(index, lot): &(usize, &Lot)| matches!(lot.of, Ware::Recipe(_)) || until(*index).is_some_and(|until| until < last_day);
    lots.filter(counts).map(|(index, _)| (index, until(index))).collect()
}

fn as_they_lie(kitchen: &Kitchen, shelf: &Shelf) -> (Vec<Lot>, BTreeMap<usize, usize>) {
    let nothing = |lot: &Lot| Quantity::of(&lot.amount.dimension(), 0);
    let left =
        |(index, lot): (usize, &Lot)| Lot { amount: if shelf.has_left(index) { lot.amount.clone() } else { nothing(lot) }, ..lot.clone() };
    let lots = shelf.lots().iter().enumerate().map(left).collect();
    let opened_of = |lot: usize| shelf.opened_of(lot).map(move |opened| (opened, lot));
    (lots, (0..kitchen.lots.len()).flat_map(opened_of).collect())
}

/// Takes off the shelf what the plan drew of cooked lots.
fn replay(lots: &[Lot], recipes: &[Recipe], shelf: &mut Shelf, makings: &Makings) {
    for draw in &makings.cooked_draws {
        let Ware::Recipe(recipe) = draw.of else { continue };
        let recipe = &recipes[recipe];
        let own = lots[draw.lot].amount.dimension();
        if let Some(rate) = in_makes(recipe, &Quantity::of(&own, 1)).filter(Number::is_positive) {
            shelf.draw_from(draw.lot, &(draw.amount.exact() / rate), draw.on);
        }
    }
}

/// Draws gathered to one entry a lot and day.
struct DrawBook {
    /// Each with as much in the lot's own measure.
    draws: BTreeMap<(Date, usize), (Draw, Quantity)>,
}

impl DrawBook {
    fn new(cooked: &[Draw]) -> Self {
        let mut book = DrawBook { draws: BTreeMap::new() };
        for draw in cooked {
            book.put(draw.amount.clone(), draw.clone());
        }
        book
    }

    fn add(&mut self, shelf: &Shelf, demand: &Demand, dimension: &Dimension, taken: &Taken) {
        let own = Quantity::of(&shelf.lots()[taken.lot].amount.dimension(), &taken.own);
        self.put(
            own,
            Draw {
                of: Ware::Food(demand.food),
                lot: taken.lot,
                amount: Quantity::of(dimension, &taken.amount),
                place: shelf.lots()[taken.lot].place,
                on: demand.on,
                what_for: vec![demand.what_for.clone()],
                by: vec![demand.by],
                look_first: taken.look_first,
                whose: None,
            },
        );
    }

    fn put(&mut self, own: Quantity, draw: Draw) {
        use std::collections::btree_map::Entry;
        match self.draws.entry((draw.on, draw.lot)) {
            Entry::Vacant(free) => {
                free.insert((draw, own));
            }
            Entry::Occupied(known) => {
                let (known, known_own) = known.into_mut();
                *known_own = known_own.plus(&own).unwrap_or_else(|| known_own.clone());
                // What lines ask for in several words is told in the lot's own measure.
                known.amount = known.amount.plus(&draw.amount).unwrap_or_else(|| known_own.clone());
                known.what_for.extend(draw.what_for.into_iter().filter(|new| !known.what_for.contains(new)).collect::<Vec<_>>());
                known.by.extend(draw.by.into_iter().filter(|new| !known.by.contains(new)).collect::<Vec<_>>());
            }
        }
    }

    fn finish(self) -> Vec<Draw> {
        self.draws.into_values().map(|(draw, _)| draw).collect()
    }
}
