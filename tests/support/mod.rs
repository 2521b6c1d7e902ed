//! Streets of invented shops, made up from a seed: the same seed, the same street.

pub mod solver;

use jiff::civil::date;
use spence::foods::{Fact, Food, FoodId, Foods, Keeping};
use spence::kitchen::{Household, Kitchen, Offer, Pack, PackKind, Paper, Print, Rules, Sheets, Shop, ShopId, Spot, Trip, Week};
use spence::measure::{Currency, Days, Dimension, Money, Quantity, UnitPrice, Units};
use spence::plan::{Need, NeedUse, Stated};

use crate::dice::Dice;

impl Dice {
    pub fn one_in(&mut self, times: i64) -> bool {
        self.between(1, times) == 1
    }
}

pub struct Street {
    pub kitchen: Kitchen,
    pub week: Week,
    pub needs: Vec<Need>,
}

/// `foods` numbered foods and shops with these fares; nothing is sold and nothing needed yet.
pub fn street(foods: usize, fares: &[i64]) -> Street {
    let food = |index: usize| Food { name: format!("food {index:04}"), ..Food::default() };
    let shop =
        |(index, fare): (usize, &i64)| Shop { name: format!("Stall {index}"), sections: vec![], trip: Money(*fare), at: Spot::default() };
    let kitchen = Kitchen {
        household: Household {
            name: "Boatyard Row".into(),
            eaters: 3.0,
            named: vec![],
            currency: Currency { code: "EUR".into(), digits: 2 },
            avoid: vec![],
            avoid_foods: vec![],
            allergic: vec![],
            budget: None,
            mealtimes: Default::default(),
            zone: None,
        },
        print: Print { paper: Paper::A4, units: Units::Metric, sheets: Sheets::USUAL, under: spence::kitchen::Under::ALL },
        rules: Rules::default(),
        appliances: vec![],
        staples: vec![],
        recipes: vec![],
        foods: (0..foods).map(food).collect::<Foods>(),
        shops: fares.iter().enumerate().map(shop).collect(),
        packs: vec![],
        lots: vec![],
        week_prices: Vec::new(),
        together: Default::default(),
    };
    let from = date(2026, 11, 30);
    let trip = Trip { on: date(2026, 11, 28), shops: None, planned: true, nth: 0, settled: Vec::new(), at: Spot::default() };
    let week = Week {
        name: "A week".into(),
        from,
        trips: vec![trip],
        sessions: vec![],
        meals: vec![],
        left_out: Default::default(),
        wishes: Default::default(),
        at: Spot::default(),
    };
    Street { kitchen, week, needs: vec![] }
}

/// A copy of a street whose foods numbered in `opened` keep two days once opened.
pub fn with_opened(mut street: Street, opened: &[usize]) -> Street {
    let foods: Vec<Food> = street.kitchen.foods.iter().map(|(_, food)| food.clone()).collect();
    let keeping = Keeping { opened: Some(Fact { value: Days(2), source: "made up".into() }), ..Keeping::default() };
    let with =
        |(index, food): (usize, Food)| Food { keeps: if opened.contains(&index) { keeping.clone() } else { food.keeps.clone() }, ..food };
    street.kitchen.foods = foods.into_iter().enumerate().map(with).collect();
    street
}

impl Street {
    pub fn sell(&mut self, shop: usize, food: usize, grams: i64, minor: i64, offer: Option<(i64, i64)>) {
        let kind = PackKind::Sized {
            size: Quantity::grams(grams as f64),
            single: Quantity::grams(grams as f64),
            label: format!("{grams} g"),
            drained: None,
            price: Some(Money(minor)),
            offer: offer.map(|(buy, pay)| Offer { buy: buy as u32, pay: Money(pay) }),
        };
        self.put(shop, food, kind);
    }

    /// In steps of 100 g, each for a whole number of minor units.
    pub fn sell_loose(&mut self, shop: usize, food: usize, minor_a_step: i64) {
        let price = UnitPrice { minor_e4: minor_a_step * 10_000, per: Quantity::grams(100.0) };
        self.put(shop, food, PackKind::Loose { price: Some(price), step: Quantity::grams(100.0) });
    }

    fn put(&mut self, shop: usize, food: usize, kind: PackKind) {
        let food = FoodId(food as u32);
        self.kitchen.packs.push(Pack { shop: ShopId(shop), food, kind, section: None, seen: None, at: Spot::default() });
    }

    /// Uses on the n-th of December.
    pub fn need(&mut self, food: usize, uses: &[(i8, i64)]) {
        let part = |&(day, grams): &(i8, i64)| NeedUse {
            on: date(2026, 12, day),
            amount: grams.into(),
            what_for: "Pearl barley".into(),
            stated: Stated::Plain,
            asked: None,
            to_taste: false,
            top_up: false,
            line: format!("{grams} g"),
            optional: false,
            instead: None,
        };
        let uses: Vec<NeedUse> = uses.iter().map(part).collect();
        let demand = uses.iter().map(|part| &part.amount).sum();
        self.needs.push(Need { food: FoodId(food as u32), trip: 0, dimension: Dimension::Mass, uses, demand, own_words: false });
    }
}
