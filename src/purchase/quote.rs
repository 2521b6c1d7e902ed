//! What the needs of a week cost, without the lines of a list: for whoever asks it of many weeks that differ in a few needs.
//!
//! A need that was asked for before is not weighed again: what each shop asks for it is remembered. Which shops are visited is chosen anew
//! each time, as [`choose`](super::choose()) does.

use std::collections::{BTreeMap, BTreeSet};

use super::choose::{AtShop, Counter, Outcome};
use super::shops::{Choice, visit};
use crate::foods::FoodId;
use crate::kitchen::{Kitchen, ShopId, Week};
use crate::measure::Money;
use crate::plan::Need;

/// What a week costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quote {
    /// With fares.
    pub cost: Money,
    /// Foods that are bought and have no price.
    pub unpriced: BTreeSet<FoodId>,
}

/// What was asked for before, by food. It holds for kitchens with the same shops, packs and rules.
#[derive(Debug, Default)]
pub struct Quotes(BTreeMap<FoodId, Vec<Known>>);

#[derive(Debug)]
struct Known {
    need: Need,
    shops: Vec<ShopId>,
    thrifty: bool,
    comes_to: ComesTo,
}

/// What one need comes to on one trip.
#[derive(Debug, Clone)]
enum ComesTo {
    /// No line at all, or one that may stay unmet.
    Nothing,
    /// No shop of the trip sells it for a price.
    NoPrice,
    /// What each shop that sells it asks.
    Choices(Vec<Choice>),
}

impl Quotes {
    /// What `needs` cost, with the cheapest packs for the foods of `thrifty` whatever the household's rule.
    pub fn quote(&mut self, kitchen: &Kitchen, week: &Week, needs: &[Need], thrifty: &[FoodId]) -> Quote {
        let counter = Counter::thrifty(kitchen, thrifty);
        let mut quote = Quote { cost: Money::ZERO, unpriced: BTreeSet::new() };
        for (index, trip) in week.trips.iter().enumerate() {
            let shops = counter.shops_of(trip.shops.as_deref());
            let mut choices: Vec<Vec<Choice>> = Vec::new();
            for need in needs.iter().filter(|need| need.trip == index) {
                match self.comes_to(&counter, &shops, need) {
                    ComesTo::Nothing => {}
                    ComesTo::NoPrice => drop(quote.unpriced.insert(need.food)),
                    ComesTo::Choices(at) => choices.push(at.clone()),
                }
            }
            let fares = counter.fares(&shops);
            let chosen = visit(&fares, &choices).chosen;
            let taken: Vec<&Choice> = choices.iter().zip(chosen).filter_map(|(at, chosen)| at.get(chosen)).collect();
            let visited: BTreeSet<usize> = taken.iter().map(|choice| choice.shop).collect();
            quote.cost += taken.iter().map(|choice| Money(choice.price)).sum();
            quote.cost += visited.into_iter().map(|shop| Money(fares[shop])).sum();
        }
        quote
    }

    fn comes_to<'q>(&'q mut self, counter: &Counter, shops: &[ShopId], need: &Need) -> &'q ComesTo {
        let thrifty = counter.thrifty.contains(&need.food);
        let known = self.0.entry(need.food).or_default();
        let is_it = |known: &Known| known.thrifty == thrifty && known.shops == shops && same(&known.need, need);
        let place = known.iter().position(is_it).unwrap_or_else(|| {
            let comes_to = match counter.outcome(shops, need, &mut Vec::new()) {
                None | Some(Outcome::Unmet(_)) => ComesTo::Nothing,
                Some(Outcome::Plain { .. }) => ComesTo::NoPrice,
                Some(Outcome::Bought { at, .. }) => ComesTo::Choices(at.iter().map(AtShop::choice).collect()),
            };
            known.push(Known { need: need.clone(), shops: shops.to_vec(), thrifty, comes_to });
            known.len() - 1
        });
        &known[place].comes_to
    }
}

/// The same need, on whichever trip.
fn same(a: &Need, b: &Need) -> bool {
    let Need { food, trip: _, dimension, uses, demand, own_words } = a;
    (food, dimension, uses, demand, own_words) == (&b.food, &b.dimension, &b.uses, &b.demand, &b.own_words)
}
