//! A street of shops built by hand, small enough to check every sum on paper.

mod compare;
mod covers;
mod list;
mod meals;
mod paid;
mod properties;
mod streets;
mod tins;
mod windows;
mod without;

use jiff::civil::{Date, date};

use super::{Basket, ListLine, Packed, Quote, Quotes, TripList, choose};
use crate::foods::{Fact, Food, FoodId};
use crate::kitchen::fixture::empty_kitchen;
use crate::kitchen::{Choose, Kitchen, Offer, Pack, PackKind, Shop, ShopId, Spot, Trip, Week};
use crate::measure::{Days, Dimension, Money, Quantity, UnitPrice};
use crate::plan::{Need, NeedUse, Stated};

/// The Saturday of the trip; uses fall on later days of December.
pub const SATURDAY: Date = date(2026, 11, 28);

pub fn on(day: i8) -> Date {
    date(2026, 12, day)
}

/// Two shops, Quay market and Mill stores, no fares; one trip to all of them; nothing sold yet.
pub struct Street {
    pub kitchen: Kitchen,
    pub week: Week,
    pub needs: Vec<Need>,
}

pub const QUAY: usize = 0;
pub const MILL: usize = 1;

impl Street {
    pub fn new() -> Street {
        let shop = |name: &str| Shop {
            name: name.into(),
            sections: vec!["Vegetables".into(), "Dairy".into(), "Tins".into()],
            trip: Money(0),
            at: Spot::default(),
        };
        let mut kitchen = empty_kitchen();
        kitchen.household.eaters = 3.0;
        kitchen.shops = vec![shop("Quay market"), shop("Mill stores")];
        let trip = Trip { on: SATURDAY, shops: None, planned: true, nth: 0, settled: Vec::new(), at: Spot::default() };
        let week = Week {
            name: "First week of advent".into(),
            from: date(2026, 11, 30),
            trips: vec![trip],
            sessions: vec![],
            meals: vec![],
            left_out: Default::default(),
            wishes: Default::default(),
            at: Spot::default(),
        };
        Street { kitchen, week, needs: vec![] }
    }

    /// The food of this name, made up at its first mention.
    pub fn food(&mut self, name: &str) -> FoodId {
        let all = &mut self.kitchen.foods.all;
        let known = all.iter().position(|food| food.name == name);
        let index = known.unwrap_or(all.len());
        if known.is_none() {
            all.push(Food { name: name.into(), section: Some("Tins".into()), ..Food::default() });
        }
        FoodId(index as u32)
    }

    pub fn about(&mut self, name: &str) -> &mut Food {
        let id = self.food(name);
        &mut self.kitchen.foods.all[id.0 as usize]
    }

    pub fn opened(&mut self, name: &str, days: i64) {
        self.about(name).keeps.opened = Some(fact(Days(days)));
    }

    /// `grams` for `minor` cents.
    pub fn pack(&mut self, shop: usize, food: &str, grams: f64, minor: i64) {
        self.sell(shop, food, Quantity::grams(grams), Some(minor), None, None);
    }

    pub fn offer(&mut self, shop: usize, food: &str, grams: f64, minor: i64, buy: u32, pay: i64) {
        self.sell(shop, food, Quantity::grams(grams), Some(minor), Some(Offer { buy, pay: Money(pay) }), None);
    }

    pub fn sell(&mut self, shop: usize, food: &str, size: Quantity, minor: Option<i64>, offer: Option<Offer>, drained: Option<f64>) {
        let food = self.food(food);
        let label = format!("{} {}", size.base(), size.dimension());
        let kind = PackKind::Sized { single: size.clone(), size, label, drained, price: minor.map(Money), offer };
        self.kitchen.packs.push(Pack { shop: ShopId(shop), food, kind, section: None, seen: None, at: Spot::default() });
    }

    /// Several packs of `grams` in one, for `minor` cents.
    pub fn multipack(&mut self, shop: usize, food: &str, singles: u32, grams: f64, minor: i64) {
        let (size, single) = (Quantity::grams(f64::from(singles) * grams), Quantity::grams(grams));
        let label = format!("{singles} x {grams} g");
        let kind = PackKind::Sized { size, single, label, drained: None, price: Some(Money(minor)), offer: None };
        let food = self.food(food);
        self.kitchen.packs.push(Pack { shop: ShopId(shop), food, kind, section: None, seen: None, at: Spot::default() });
    }

    /// Sold loose at `minor` cents a kilogram, in steps of `step` grams.
    pub fn loose(&mut self, shop: usize, food: &str, minor: i64, step: f64) {
        let price = UnitPrice { minor_e4: minor * 10_000, per: Quantity::grams(1000.0) };
        let kind = PackKind::Loose { price: Some(price), step: Quantity::grams(step) };
        let food = self.food(food);
        self.kitchen.packs.push(Pack { shop: ShopId(shop), food, kind, section: None, seen: None, at: Spot::default() });
    }

    /// Needs `grams` of a food on a day of December, with a demand of as much.
    pub fn needs(&mut self, food: &str, uses: &[(i8, f64)]) {
        let uses = uses.iter().map(|&(day, amount)| a_use(day, amount)).collect();
        self.needs_uses(food, Dimension::Mass, uses);
    }

    pub fn needs_uses(&mut self, food: &str, dimension: Dimension, uses: Vec<NeedUse>) {
        let food = self.food(food);
        let demand = uses.iter().map(|part| &part.amount).sum();
        self.needs.push(Need { food, trip: 0, dimension, uses, demand, own_words: false });
    }

    /// What is bought; a quote of the same needs is the same money, also when it is asked for again.
    pub fn basket(&self) -> Basket {
        let basket = choose(&self.kitchen, &self.week, &self.needs);
        let lines = basket.trips.iter().flat_map(TripList::lines).filter(|line| line.cost.is_none());
        let quote = Quote { cost: basket.cost, unpriced: lines.map(|line| line.food).collect() };
        let mut quotes = Quotes::default();
        for _ in 0..2 {
            assert_eq!(quotes.quote(&self.kitchen, &self.week, &self.needs, &[]), quote);
        }
        basket
    }

    /// The one line of a street with one need.
    pub fn line(&self) -> ListLine {
        let basket = self.basket();
        let mut lines = basket.trips[0].shops.iter().flat_map(|shop| &shop.sections).flat_map(|section| &section.lines);
        let line = lines.next().expect("one line").clone();
        assert!(lines.next().is_none(), "one line only");
        line
    }

    /// What one line of a basket is of.
    pub fn name(&self, line: &ListLine) -> &str {
        &self.kitchen.foods[line.food].name
    }

    /// The one line's packs: "2 x 400 g, loose 300 g = 2.10, left 20, short 0".
    pub fn said(&self) -> String {
        said(&self.line())
    }
}

pub fn said(line: &ListLine) -> String {
    let pack = |pack: &super::PackLine| match &pack.what {
        Packed::Loose(amount) => format!("loose {} {}", amount.base(), amount.dimension()),
        Packed::Packs { count, label, .. } => {
            format!("{count} x {label}{}", pack.offer.map_or(String::new(), |taken| format!(" ({} offer)", taken.times)))
        }
    };
    let packs: Vec<String> = line.packs.iter().map(pack).collect();
    let cost = line.cost.map_or("null".into(), |cost| cost.decimal(&empty_kitchen().household.currency));
    format!("{} = {cost}, left {}, short {}", packs.join(", "), line.left.base(), line.short.base())
}

pub fn a_use(day: i8, amount: f64) -> NeedUse {
    NeedUse {
        on: on(day),
        amount: amount.into(),
        what_for: "White-bean mash".into(),
        stated: Stated::Plain,
        asked: None,
        to_taste: false,
        top_up: false,
        line: format!("{amount} g"),
        optional: false,
        instead: None,
    }
}

pub fn to_taste(day: i8) -> NeedUse {
    NeedUse { to_taste: true, line: "to taste".into(), ..a_use(day, 0.0) }
}

pub fn top_up(amount: f64) -> NeedUse {
    NeedUse { top_up: true, what_for: "staple".into(), line: String::new(), on: SATURDAY, ..a_use(1, amount) }
}

pub fn fact<T>(value: T) -> Fact<T> {
    Fact { value, source: "made up for this test".into() }
}
