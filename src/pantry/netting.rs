//! Demand against the pantry, first expired, first out. What the shelf serves is not bought.
//!
//! Food alone in its unit stays in it. Where a food has no packs and no line of it can be weighed, lines of one unit
//! are added up in that unit and nothing is asked of the household; a kitchen word without a weight still draws a
//! warning.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::staples::{TopUp, top_ups};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, Ware, Warning, Week};
use crate::measure::{Dimension, Number, Quantity, is_nothing_of};
use crate::plan::{Demand, Demanded, Draw, Makings, in_makes};
use crate::shelf::{Shelf, Taken, food_rate};

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
    /// Lots whose earliest date lies before the day of the last meal, with what is left of them, in file order.
    pub expiring: Vec<(usize, Quantity, Date)>,
    /// What is left of each lot, in its own measure.
    pub left: Vec<Quantity>,
    pub warnings: Vec<Warning>,
}

/// Nets the demand in its order; cooked lots have been drawn by the plan already.
pub fn net(kitchen: &Kitchen, week: &Week, makings: &Makings, demanded: &Demanded) -> Netted {
    let mut shelf = Shelf::new(kitchen);
    replay(kitchen, &mut shelf, makings);
    let mut draws = DrawBook::new(&makings.cooked_draws);
    let mut warnings = incomparable_cooked(kitchen, &shelf, makings);
    let (mut unmet, mut untasted) = (Vec::new(), Vec::new());
    for demand in &demanded.demand {
        if demand.to_taste {
            unmet.push(Number::ZERO);
            untasted.push(shelf.drawable(Ware::Food(demand.food), demand.on).is_empty());
            continue;
        }
        let dimension = demand.amount.dimension();
        let wanted = demand.amount.exact();
        warnings.extend(incomparable(kitchen, &shelf, demand, &dimension));
        let taken = shelf.draw(Ware::Food(demand.food), demand.on, wanted, |lot| food_rate(kitchen, lot, demand.food, &dimension));
        let left = wanted - taken.iter().map(|taken| &taken.amount).sum::<Number>();
        unmet.push(if is_nothing_of(&left, wanted) { Number::ZERO } else { left });
        untasted.push(false);
        for taken in taken {
            draws.add(kitchen, demand, &dimension, &taken);
        }
    }
    let last_day = last_day(week);
    let top_ups = top_ups(kitchen, &shelf, &demanded.stated_in, last_day, &mut warnings);
    let expiring = shelf.expiring_before(last_day).into_iter().map(|(lot, until)| (lot, shelf.left(lot), until)).collect();
    let left_of = |lot: usize| if shelf.has_left(lot) { shelf.left(lot) } else { Quantity::of(&kitchen.lots[lot].amount.dimension(), 0) };
    let left = (0..kitchen.lots.len()).map(left_of).collect();
    warnings.sort();
    warnings.dedup();
    Netted { draws: draws.finish(), unmet, untasted, top_ups, expiring, left, warnings }
}

/// The day of the last meal; without meals, of the last session or trip.
pub fn last_day(week: &Week) -> Date {
    let meals = week.meals.iter().map(|meal| meal.at_time.date()).max();
    let sessions = week.sessions.iter().map(|session| session.start.date()).max();
    let trips = week.trips.iter().map(|trip| trip.on).max();
    meals.or(sessions).or(trips).unwrap_or(week.from)
}

fn incomparable(kitchen: &Kitchen, shelf: &Shelf, demand: &Demand, dimension: &Dimension) -> Vec<Warning> {
    let lots = shelf.drawable(Ware::Food(demand.food), demand.on);
    let foreign = lots.into_iter().filter(|&lot| food_rate(kitchen, lot, demand.food, dimension).is_none());
    foreign.map(|lot| not_comparable(kitchen, lot, demand.food, dimension)).collect()
}

/// Cooked lots that would serve what is made, were they in a measure that can be compared with what the recipe makes.
fn incomparable_cooked(kitchen: &Kitchen, shelf: &Shelf, makings: &Makings) -> Vec<Warning> {
    let mut warnings = Vec::new();
    for making in &makings.makings {
        let recipe = &kitchen.recipes[making.recipe];
        for lot in making.uses.iter().flat_map(|use_| shelf.drawable(Ware::Recipe(making.recipe), use_.on)) {
            let lot = &kitchen.lots[lot];
            if in_makes(recipe, &lot.amount).is_none() {
                warnings.push(Warning::LotNotComparable {
                    at: lot.at.clone(),
                    food: recipe.name.clone(),
                    amount: crate::measure::show(&lot.amount, kitchen.print.units),
                    wanted: match recipe.makes.dimension() {
                        Dimension::Portion => "portions".to_owned(),
                        own => own.symbol().to_owned(),
                    },
                });
            }
        }
    }
    warnings
}

pub(super) fn not_comparable(kitchen: &Kitchen, lot: usize, food: FoodId, dimension: &Dimension) -> Warning {
    let lot = &kitchen.lots[lot];
    Warning::LotNotComparable {
        at: lot.at.clone(),
        food: kitchen.foods[food].name.clone(),
        amount: crate::measure::show(&lot.amount, kitchen.print.units),
        wanted: dimension.symbol().to_owned(),
    }
}

/// Takes off the shelf what the plan drew of cooked lots.
fn replay(kitchen: &Kitchen, shelf: &mut Shelf, makings: &Makings) {
    for draw in &makings.cooked_draws {
        let Ware::Recipe(recipe) = draw.of else { continue };
        let recipe = &kitchen.recipes[recipe];
        let own = kitchen.lots[draw.lot].amount.dimension();
        shelf.draw(draw.of, draw.on, draw.amount.exact(), |lot| {
            if lot != draw.lot {
                return None;
            }
            in_makes(recipe, &Quantity::of(&own, 1))
        });
    }
}

/// Draws gathered to one entry a lot and day.
struct DrawBook {
    draws: BTreeMap<(Date, usize), Draw>,
}

impl DrawBook {
    fn new(cooked: &[Draw]) -> Self {
        let mut book = DrawBook { draws: BTreeMap::new() };
        for draw in cooked {
            book.put(draw.clone());
        }
        book
    }

    fn add(&mut self, kitchen: &Kitchen, demand: &Demand, dimension: &Dimension, taken: &Taken) {
        self.put(Draw {
            of: Ware::Food(demand.food),
            lot: taken.lot,
            amount: Quantity::of(dimension, &taken.amount),
            place: kitchen.lots[taken.lot].place,
            on: demand.on,
            what_for: vec![demand.what_for.clone()],
            by: vec![demand.by],
            look_first: taken.look_first,
        });
    }

    fn put(&mut self, draw: Draw) {
        use std::collections::btree_map::Entry;
        match self.draws.entry((draw.on, draw.lot)) {
            Entry::Vacant(free) => {
                free.insert(draw);
            }
            Entry::Occupied(known) => {
                let known = known.into_mut();
                // The dimensions differ only where a food is also demanded in a line's own words; the lot then serves one of them.
                known.amount = known.amount.plus(&draw.amount).unwrap_or_else(|| known.amount.clone());
                known.what_for.extend(draw.what_for.into_iter().filter(|new| !known.what_for.contains(new)).collect::<Vec<_>>());
                known.by.extend(draw.by.into_iter().filter(|new| !known.by.contains(new)).collect::<Vec<_>>());
            }
        }
    }

    fn finish(self) -> Vec<Draw> {
        self.draws.into_values().collect()
    }
}
