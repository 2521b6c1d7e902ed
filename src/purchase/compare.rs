//! What a trip would cost in each shop alone, in the best pair, and as chosen. It must not know how it is told.

use super::choose::{AtShop, Counter, Outcome};
use super::list::{Round, TripComparison};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, ShopId, Week};
use crate::measure::Money;
use crate::plan::Need;
use jiff::civil::Date;

/// Compares the chosen round of every trip with simpler ones. Foods that nobody sells for a price are left out of all of them.
pub fn compare(kitchen: &Kitchen, week: &Week, needs: &[Need]) -> Vec<TripComparison> {
    let counter = Counter::new(kitchen);
    let compared = week.trips.iter().enumerate().map(|(index, trip)| {
        let shops = counter.shops_of(trip.shops.as_deref());
        let here: Vec<&Need> = needs.iter().filter(|need| need.trip == index).collect();
        let outcomes = counter.plan(&shops, &here).outcomes;
        Rounds { kitchen, shops: &shops, outcomes: &outcomes }.compared(trip.on)
    });
    compared.collect()
}

struct Rounds<'a> {
    kitchen: &'a Kitchen,
    shops: &'a [ShopId],
    outcomes: &'a [Outcome<'a>],
}

impl Rounds<'_> {
    fn compared(&self, on: Date) -> TripComparison {
        let selling: Vec<usize> = (0..self.shops.len()).filter(|shop| self.bought().any(|(_, at, _)| is_among(at, &[*shop]))).collect();
        let mut chosen: Vec<usize> = self.bought().map(|(_, at, chosen)| at[chosen].shop).collect();
        chosen.sort();
        chosen.dedup();
        let pairs = selling.iter().enumerate().flat_map(|(index, first)| selling[index + 1..].iter().map(move |second| [*first, *second]));
        let pair = pairs.min_by_key(|pair| {
            let round = self.round(pair);
            (round.lacks.len(), round.cost)
        });
        TripComparison {
            on,
            chosen: self.round(&chosen),
            single: selling.iter().map(|shop| self.round(&[*shop])).collect(),
            pair: pair.map(|pair| self.round(&pair)),
        }
    }

    /// The foods that are bought: what each shop asks, and the choice made.
    fn bought(&self) -> impl Iterator<Item = (FoodId, &[AtShop<'_>], usize)> {
        self.outcomes.iter().filter_map(|outcome| match outcome {
            Outcome::Bought { ask, at, chosen } => Some((ask.need.food, at.as_slice(), *chosen)),
            _ => None,
        })
    }

    fn round(&self, shops: &[usize]) -> Round {
        let mut cost = shops.iter().map(|shop| self.kitchen.shops[self.shops[*shop]].trip).sum();
        let mut lacks = Vec::new();
        for (food, at, _) in self.bought() {
            match at.iter().filter(|there| shops.contains(&there.shop)).map(|there| there.bought.whole.price).min() {
                Some(price) => cost += Money(price),
                None => lacks.push(food),
            }
        }
        lacks.sort_by_key(|food| &self.kitchen.foods[*food].name);
        Round { shops: shops.iter().map(|shop| self.shops[*shop]).collect(), cost, lacks }
    }
}

fn is_among(at: &[AtShop], shops: &[usize]) -> bool {
    at.iter().any(|there| shops.contains(&there.shop))
}
