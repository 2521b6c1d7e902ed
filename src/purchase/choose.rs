//! From needs to trips, shops, sections and lines.
//!
//! A food whose lines stand in their own words has a price where a pack of it has one in the shops of the trip: it is
//! not in `no_price`.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::ask::{Ask, Window};
use super::line;
use super::list::{Section, ShopVisit, Stop, TripList};
use super::list_line::{ListLine, Without};
use super::paid::{Came, Paid, stays};
use super::shelf::{Stocked, is_priced, stock, stock_by_the_pack};
use super::shops::{Choice, visit};
use super::trips::{Needs, WithoutATrip};
use super::windows::{Bought, buy};
use crate::foods::{Food, FoodId, Place};
use crate::kitchen::{Choose, Kitchen, Mistake, Pack, ShopId, Trip, Warning, Week};
use crate::measure::{Dimension, Money, Number, Quantity, tidy};
use crate::plan::{Demand, Demanded, Need};
use crate::shelf::home;

/// The section of what has none.
const OTHER: &str = "Other";

/// The most that a line offers to do without, of the demand before the pantry.
const LAST: f64 = 0.1;

/// What is done where no pack can be compared with a need.
const BY_THE_PACK: &str = "so one is bought for each container that is asked for, else one";

fn exact_total(need: &Need) -> Number {
    need.uses.iter().filter(|part| !part.to_taste).map(|part| &part.amount).sum()
}

/// What is bought where.
#[derive(Debug, Clone, PartialEq)]
pub struct Basket {
    /// One a trip of the week, in date order, also where there is nothing to buy.
    pub trips: Vec<TripList>,
    pub cost: Money,
    /// Foods that must be bought and of which no shop of the trip has a pack with a price, in order of their names.
    pub no_price: Vec<FoodId>,
    pub warnings: Vec<Warning>,
    /// What was paid for each food on each trip, and how much of it stays.
    pub paid: Vec<Paid>,
}

impl Basket {
    /// Where a trip comes to more money than can be counted: a slip in a price, or in who eats.
    ///
    /// # Errors
    /// The dearest line of each such trip.
    pub fn is_counted(&self, kitchen: &Kitchen, week: &Week) -> Result<(), Vec<Mistake>> {
        let beyond = |(list, trip): (&TripList, &Trip)| {
            let dearest = list.lines().filter(|line| line.cost.is_some()).max_by_key(|line| line.cost)?;
            list.cost.is_beyond_counting().then(|| Mistake {
                at: trip.at.clone(),
                cause: format!("this trip comes to more money than can be counted, {} most of all", kitchen.foods[dearest.food].name),
                remedy: "Look at its price in shops.toml, and at how many eat.".to_owned(),
            })
        };
        let mistakes: Vec<Mistake> = self.trips.iter().zip(&week.trips).filter_map(beyond).collect();
        if mistakes.is_empty() { Ok(()) } else { Err(mistakes) }
    }
}

/// The exact choice of packs and shops for every trip.
///
/// A need that no shop of its trip sells for a price is listed plainly and never stands in the way of the rest.
pub fn choose(kitchen: &Kitchen, week: &Week, needs: &[Need]) -> Basket {
    let counter = Counter::new(kitchen);
    let mut basket = Basket { trips: Vec::new(), cost: Money::ZERO, no_price: Vec::new(), warnings: Vec::new(), paid: Vec::new() };
    for (index, trip) in week.trips.iter().enumerate() {
        let shops = counter.shops_of(trip.shops.as_deref());
        let here: Vec<&Need> = needs.iter().filter(|need| need.trip == index).collect();
        let plan = counter.plan(&shops, &here);
        basket.warnings.extend(plan.warnings.iter().cloned());
        basket.no_price.extend(counter.without_price(&shops, &plan));
        basket.paid.extend(counter.paid(index, trip.on, &plan));
        let (visits, cost) = counter.visits(&shops, plan, trip.on);
        basket.cost += cost;
        basket.trips.push(TripList {
            on: trip.on,
            cost,
            planned: trip.planned,
            nth: trip.nth,
            before: None,
            state: None,
            shops: visits,
            not_booked: Vec::new(),
        });
    }
    basket.no_price.sort_by_key(|food| &kitchen.foods[*food].name);
    basket.no_price.dedup();
    let mut seen = Vec::new();
    basket.warnings.retain(|warning| {
        let new = !seen.contains(warning);
        seen.push(warning.clone());
        new
    });
    basket
}

/// Takes off trips of their own what may all stay unmet, and then the trips that buy nothing: nobody goes shopping for what `short_by` left
/// out.
///
/// What was bought for several sessions is short in the last of them: the share is that of all demand which waits for no planned trip, with
/// that of what is `done`.
pub fn leave_out_the_unmet(kitchen: &Kitchen, week: &mut Week, demanded: &Demanded, done: &[Demand], needs: &mut Needs) {
    let counter = Counter::new(kitchen);
    let without_a_trip = WithoutATrip::new(kitchen, week, demanded, done);
    let may_stay_unmet = |need: &Need| {
        let trip = &week.trips[need.trip];
        let shops = counter.shops_of(trip.shops.as_deref());
        let wider = || Need { demand: without_a_trip.demand(need), ..need.clone() };
        !trip.planned && matches!(counter.outcome(&shops, &wider(), &mut Vec::new()), Some(Outcome::Unmet(_)))
    };
    needs.needs.retain(|need| !may_stay_unmet(need));
    let buys: Vec<bool> = (0..week.trips.len()).map(|trip| needs.needs.iter().any(|need| need.trip == trip)).collect();
    let stays: Vec<bool> = week.trips.iter().zip(&buys).map(|(trip, buys)| trip.planned || *buys).collect();
    needs.needs.iter_mut().for_each(|need| need.trip = stays[..need.trip].iter().filter(|stays| **stays).count());
    let mut stays = stays.into_iter();
    week.trips.retain(|_| stays.next().unwrap_or(true));
}

/// What one need comes to on one trip.
pub(super) enum Outcome<'a> {
    /// No shop of the trip sells it for a price.
    Plain { need: &'a Need, total: Number },
    /// All of it may stay unmet.
    Unmet(Ask<'a>),
    /// The offers of the shops that sell it, and which of them was taken.
    Bought { ask: Ask<'a>, at: Vec<AtShop<'a>>, chosen: usize },
}

/// The best one shop can do for one need.
pub(super) struct AtShop<'a> {
    /// Index among the trip's shops.
    pub shop: usize,
    pub stocked: Stocked<'a>,
    pub windows: Vec<Window>,
    pub bought: Bought,
    /// What the line leaves over, in the units of its [`Ask`].
    pub left: i64,
}

impl AtShop<'_> {
    pub fn choice(&self) -> Choice {
        Choice { shop: self.shop, price: self.bought.whole.price, left: self.left, packs: self.bought.whole.packs }
    }
}

pub(super) struct TripPlan<'a> {
    pub outcomes: Vec<Outcome<'a>>,
    pub warnings: Vec<Warning>,
}

/// The kitchen with its packs sorted by food and shop.
pub(super) struct Counter<'a> {
    pub kitchen: &'a Kitchen,
    packs: BTreeMap<(FoodId, ShopId), Vec<&'a Pack>>,
    /// Foods of which the cheapest packs are bought in any case.
    pub thrifty: &'a [FoodId],
}

impl<'a> Counter<'a> {
    pub fn new(kitchen: &'a Kitchen) -> Self {
        let mut packs: BTreeMap<(FoodId, ShopId), Vec<&Pack>> = BTreeMap::new();
        for pack in &kitchen.packs {
            packs.entry((pack.food, pack.shop)).or_default().push(pack);
        }
        Counter { kitchen, packs, thrifty: &[] }
    }

    /// With the cheapest packs of some foods, whatever the household's rule.
    pub fn thrifty(kitchen: &'a Kitchen, thrifty: &'a [FoodId]) -> Self {
        Counter { thrifty, ..Counter::new(kitchen) }
    }

    /// In file order, each once.
    pub fn shops_of(&self, named: Option<&[ShopId]>) -> Vec<ShopId> {
        let mut shops: Vec<ShopId> = named.map_or_else(|| (0..self.kitchen.shops.len()).map(ShopId).collect(), <[ShopId]>::to_vec);
        shops.sort();
        shops.dedup();
        shops
    }

    fn packs_at(&self, food: FoodId, shop: ShopId) -> impl Iterator<Item = &'a Pack> {
        self.packs.get(&(food, shop)).into_iter().flatten().copied()
    }

    pub fn fares(&self, shops: &[ShopId]) -> Vec<i64> {
        shops.iter().map(|shop| self.kitchen.shops[*shop].trip.0).collect()
    }

    /// What each need of one trip comes to.
    pub fn plan(&self, shops: &[ShopId], needs: &[&'a Need]) -> TripPlan<'a> {
        let mut warnings = Vec::new();
        let mut outcomes: Vec<Outcome> = needs.iter().filter_map(|need| self.outcome(shops, need, &mut warnings)).collect();
        let choices: Vec<Vec<Choice>> = outcomes
            .iter()
            .filter_map(|outcome| match outcome {
                Outcome::Bought { at, .. } => Some(at.iter().map(AtShop::choice).collect()),
                _ => None,
            })
            .collect();
        let visits = visit(&self.fares(shops), &choices);
        if visits.gap > 0 {
            let currency = &self.kitchen.household.currency;
            let gap = Money(visits.gap).decimal(currency);
            let text = format!(
                "so many shops could not be searched to the end: the round listed costs at most {gap} {currency} more than the cheapest"
            );
            warnings.push(note(&text));
        }
        let mut taken = visits.chosen.iter();
        for outcome in &mut outcomes {
            if let Outcome::Bought { chosen, .. } = outcome {
                *chosen = taken.next().copied().unwrap_or(0);
            }
        }
        TripPlan { outcomes, warnings }
    }

    fn rule(&self, food: FoodId) -> Choose {
        if self.thrifty.contains(&food) { Choose::Cheapest } else { self.kitchen.rules.choose }
    }

    /// What the line would save without the last tenth of its demand, at the shop where it is bought. Nothing of counted or loose
    /// goods, and of none that are opened more than once.
    fn without(&self, ask: &Ask, there: &AtShop, shop: ShopId) -> Option<Without> {
        let shelves = stock(ask, self.packs_at(ask.need.food, shop), &mut Vec::new());
        let is_loose = shelves.iter().any(|stocked| stocked.loose.is_some());
        if shelves.is_empty() || is_loose || there.windows.len() != 1 || ask.need.dimension == Dimension::Count {
            return None;
        }
        let rule = self.rule(ask.need.food);
        let (price, short) = match ask.targets(&there.windows, false, LAST) {
            None => (0, ask.units(&ask.total)),
            Some(targets) => {
                let plans = shelves.iter().filter_map(|stocked| buy(&stocked.shelf, &targets, rule));
                let best = plans.min_by(|a, b| a.whole.compare(&b.whole, rule))?;
                (best.whole.price, best.whole.short)
            }
        };
        let saves = there.bought.whole.price - price;
        let base = tidy(ask.base(short));
        let share = base / ask.need.demand.to_f64();
        (saves > 0 && short > there.bought.whole.short).then(|| Without {
            short: Quantity::of(&ask.need.dimension, base),
            share: (100.0 * share).round() / 100.0,
            saves: Money(saves),
        })
    }

    pub fn outcome(&self, shops: &[ShopId], need: &'a Need, warnings: &mut Vec<Warning>) -> Option<Outcome<'a>> {
        let food = &self.kitchen.foods[need.food];
        let sold = shops.iter().flat_map(|shop| self.packs_at(need.food, *shop));
        let ask = Ask::of(need, food, sold)?;
        let (rules, rule) = (&self.kitchen.rules, self.rule(need.food));
        let (mut at, mut unlike) = (Vec::new(), Vec::new());
        for (index, &shop) in shops.iter().enumerate() {
            let shelves = stock(&ask, self.packs_at(need.food, shop), &mut unlike);
            let Some(loose) = shelves.first().map(|stocked| stocked.loose.is_some()) else { continue };
            let windows = ask.windows(loose);
            let Some(targets) = ask.targets(&windows, loose, rules.short_by) else {
                return Some(Outcome::Unmet(ask));
            };
            let plans = shelves.into_iter().filter_map(|stocked| Some((buy(&stocked.shelf, &targets, rule)?, stocked)));
            let best = plans.min_by(|(a, _), (b, _)| a.whole.compare(&b.whole, rule));
            let Some((bought, stocked)) = best else { continue };
            if !bought.whole.proven {
                warnings.push(note(&format!("the packs of {} could not be searched to the end; the best found are listed", food.name)));
            }
            let left = line::left_units(&ask, &windows, &bought);
            at.push(AtShop { shop: index, stocked, windows, bought, left });
        }
        let in_its_measure = !at.is_empty();
        if !in_its_measure {
            at = self.by_the_pack(shops, &ask);
        }
        let then = if in_its_measure || at.is_empty() { "so it is not bought" } else { BY_THE_PACK };
        // What stands in its own words was warned of where its line was read.
        warnings.extend(unlike.iter().filter(|_| !need.own_words).map(|unlike| unlike.warning(&ask, then)));
        if at.is_empty() {
            let total = if need.own_words { exact_total(need) } else { ask.total };
            return Some(Outcome::Plain { need, total });
        }
        Some(Outcome::Bought { ask, at, chosen: 0 })
    }

    /// A food with packs is bought somewhere although none can be compared with the need.
    fn by_the_pack(&self, shops: &[ShopId], ask: &Ask<'a>) -> Vec<AtShop<'a>> {
        let window = ask.one_window();
        let Some(targets) = ask.targets(std::slice::from_ref(&window), true, 0.0) else { return Vec::new() };
        let at_shop = |(index, shop): (usize, &ShopId)| {
            let stocked = stock_by_the_pack(ask, self.packs_at(ask.need.food, *shop), ask.containers())?;
            let bought = buy(&stocked.shelf, &targets, self.rule(ask.need.food))?;
            Some(AtShop { shop: index, stocked, windows: vec![window.clone()], bought, left: 0 })
        };
        shops.iter().enumerate().filter_map(at_shop).collect()
    }

    /// The shops of one trip with what is bought in each, shop null last; and what the trip costs.
    fn visits(&self, shops: &[ShopId], plan: TripPlan, on: Date) -> (Vec<ShopVisit>, Money) {
        let mut goods: Vec<Vec<(String, ListLine)>> = vec![Vec::new(); shops.len()];
        let mut costs: Vec<Money> = vec![Money::ZERO; shops.len()];
        let mut nowhere = Vec::new();
        for outcome in &plan.outcomes {
            match outcome {
                Outcome::Plain { need, total } => {
                    let food = &self.kitchen.foods[need.food];
                    nowhere.push((self.section_anywhere(need.food, shops), line::plain(need, food, self.home(need.food), total)));
                }
                Outcome::Unmet(ask) => {
                    nowhere.push((self.section_anywhere(ask.need.food, shops), line::unmet(ask, self.home(ask.need.food))));
                }
                Outcome::Bought { ask, at, chosen } => {
                    let there = &at[*chosen];
                    costs[there.shop] += Money(there.bought.whole.price);
                    let came = self.came(ask.need.food, on);
                    let mut line = line::bought(ask, there, came.to, &stays(ask, there, came));
                    line.without = self.without(ask, there, shops[there.shop]);
                    goods[there.shop].push((section_of(ask.food, &there.stocked, &there.bought), line));
                }
            }
        }
        let mut visits = Vec::new();
        let mut total = Money::ZERO;
        for ((&id, lines), cost) in shops.iter().zip(goods).zip(costs).filter(|((_, lines), _)| !lines.is_empty()) {
            let shop = &self.kitchen.shops[id];
            let stop = Stop { shop: id, fare: shop.trip, cost: cost + shop.trip };
            total += stop.cost;
            visits.push(ShopVisit { at: Some(stop), sections: self.sections(&shop.sections, lines) });
        }
        if !nowhere.is_empty() {
            visits.push(ShopVisit { at: None, sections: self.sections(&[], nowhere) });
        }
        (visits, total)
    }

    fn without_price(&self, shops: &[ShopId], plan: &TripPlan) -> Vec<FoodId> {
        let plain = plan.outcomes.iter().filter_map(|outcome| match outcome {
            Outcome::Plain { need, .. } => Some(need.food),
            _ => None,
        });
        let priced = |food: FoodId| shops.iter().any(|shop| self.packs_at(food, *shop).any(is_priced));
        plain.filter(|food| !priced(*food)).collect()
    }

    fn paid(&self, trip: usize, on: Date, plan: &TripPlan) -> Vec<Paid> {
        let paid = plan.outcomes.iter().filter_map(|outcome| match outcome {
            Outcome::Bought { ask, at, chosen } => Some(Paid::of(trip, ask, &at[*chosen], self.came(ask.need.food, on))),
            _ => None,
        });
        paid.collect()
    }

    fn came(&self, food: FoodId, on: Date) -> Came {
        Came { on, to: self.home(food) }
    }

    fn home(&self, food: FoodId) -> Place {
        home(&self.kitchen.foods, &self.kitchen.lots, food)
    }

    /// The section a pack of this trip names, priced or not, else the food's own.
    fn section_anywhere(&self, food: FoodId, shops: &[ShopId]) -> String {
        let named = shops.iter().flat_map(|shop| self.packs_at(food, *shop)).find_map(|pack| pack.section.clone());
        named.or_else(|| self.kitchen.foods[food].section.clone()).unwrap_or_else(|| OTHER.to_owned())
    }

    /// Sections in walking order, those the shop does not list after them in alphabetical order; lines alphabetical by food.
    fn sections(&self, walk: &[String], lines: Vec<(String, ListLine)>) -> Vec<Section> {
        let mut by_section: BTreeMap<(usize, String), Vec<ListLine>> = BTreeMap::new();
        for (section, line) in lines {
            let place = walk.iter().position(|name| *name == section).unwrap_or(walk.len());
            by_section.entry((place, section)).or_default().push(line);
        }
        let sorted = by_section.into_iter().map(|((_, section), mut lines)| {
            lines.sort_by_cached_key(|line| {
                let name = &self.kitchen.foods[line.food].name;
                (name.to_lowercase(), name.clone(), line.packs.is_empty())
            });
            Section { section, lines }
        });
        sorted.collect()
    }
}

fn note(text: &str) -> Warning {
    Warning::Note { at: None, text: text.to_owned() }
}

/// The section of the largest pack bought, else the food's own.
fn section_of(food: &Food, stocked: &Stocked, bought: &Bought) -> String {
    let packs = stocked.sized.iter().zip(&bought.whole.counts).filter(|(_, count)| **count > 0).map(|(pack, _)| *pack);
    let named = packs.chain(stocked.loose).find_map(|pack| pack.section.clone());
    named.or_else(|| food.section.clone()).unwrap_or_else(|| OTHER.to_owned())
}
