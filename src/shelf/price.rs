//! One unit price for all that tells money of a lot: what was paid for it; else what this week pays for the food, booked or on its list;
//! else the cheapest that is known. Of what was cooked: what went into it.

use std::collections::BTreeMap;

use crate::foods::{FoodId, Item, as_purchased, convert};
use crate::kitchen::{Ingredient, Kitchen, Lot, PackKind, RecipeId, Wanted, Ware};
use crate::measure::{Dimension, Money, Quantity, tidy};

/// Ten-thousandths of a minor unit in which a loose price is kept.
const E4: f64 = 10_000.0;

/// Minor units of money, and how much they buy.
#[derive(Debug, Clone)]
struct Price {
    minor: f64,
    buys: Quantity,
}

/// What the shops ask for each food, and what this week's list pays where it is reckoned beside a list.
#[derive(Debug, Clone)]
pub struct Prices<'k> {
    kitchen: &'k Kitchen,
    known: BTreeMap<FoodId, Vec<Price>>,
    listed: BTreeMap<FoodId, Price>,
}

impl<'k> Prices<'k> {
    /// What the shops ask, and what the week is known to pay.
    pub fn new(kitchen: &'k Kitchen) -> Prices<'k> {
        let paid = kitchen.week_prices.iter().map(|price| (price.food, price.buys.clone(), price.cost));
        Prices::of_shops(kitchen).with_list(paid)
    }

    /// Every pack, loose price and offer of one's own pack ("3 for 2.00" of one size).
    pub fn of_shops(kitchen: &'k Kitchen) -> Prices<'k> {
        let mut known: BTreeMap<FoodId, Vec<Price>> = BTreeMap::new();
        for pack in &kitchen.packs {
            let prices = known.entry(pack.food).or_default();
            match &pack.kind {
                PackKind::Sized { size, price, offer, .. } => {
                    let minor = [price.map(|price| price.0 as f64), offer.map(|offer| offer.pay.0 as f64 / f64::from(offer.buy))];
                    prices.extend(minor.into_iter().flatten().map(|minor| Price { minor, buys: size.clone() }));
                }
                PackKind::Loose { price, .. } => {
                    prices.extend(price.as_ref().map(|price| Price { minor: price.minor_e4 as f64 / E4, buys: price.per.clone() }));
                }
            }
        }
        Prices { kitchen, known, listed: BTreeMap::new() }
    }

    /// With what a list pays: of each food how much it buys, and for how much. The first line of a food counts, that of the earliest trip.
    pub fn with_list(mut self, lines: impl IntoIterator<Item = (FoodId, Quantity, Money)>) -> Prices<'k> {
        for (food, buys, cost) in lines {
            if buys.base() > 0.0 {
                self.listed.entry(food).or_insert(Price { minor: cost.0 as f64, buys });
            }
        }
        self
    }

    /// Minor units of money for one base unit of `dimension`; `paid` is what one cost, where that is known. `None` where no price is.
    pub fn of_one(&self, food: FoodId, dimension: &Dimension, paid: Option<f64>) -> Option<f64> {
        let each = |price: &Price| {
            let buys = self.in_dimension(food, &price.buys, dimension)?;
            (buys > 0.0).then(|| price.minor / buys)
        };
        let cheapest = || self.known.get(&food)?.iter().filter_map(each).min_by(f64::total_cmp);
        paid.or_else(|| self.listed.get(&food).and_then(each)).or_else(cheapest)
    }

    /// Minor units of money for one base unit of a lot: of what was cooked, what went into it, shared over what that made. `None` where
    /// no price of some of it is known.
    pub fn of_lot(&self, lot: &Lot) -> Option<f64> {
        let own = lot.amount.dimension();
        let paid = lot.paid.as_ref().filter(|paid| paid.per.dimension() == own && paid.per.base() > 0.0);
        let paid = paid.map(|paid| paid.minor_e4 as f64 / E4 / paid.per.base());
        match lot.of {
            Ware::Food(food) => self.of_one(food, &own, paid),
            Ware::Recipe(recipe) => paid.or_else(|| {
                let one = self.kitchen.recipes[recipe].in_makes(&Quantity::of(&own, 1))?;
                Some(self.of_recipe(recipe)? * one.to_f64())
            }),
        }
    }

    /// Minor units of money for one of what a recipe makes, by its lines. Foods that are always there, or only looked at, cost nothing,
    /// and neither does what is to taste.
    fn of_recipe(&self, id: RecipeId) -> Option<f64> {
        let recipe = &self.kitchen.recipes[id];
        let line = |line: &Ingredient| match &line.wanted {
            Wanted::Food { food, .. } if self.kitchen.rules.always.contains(food) || self.kitchen.rules.ask.contains(food) => Some(0.0),
            Wanted::Food { item: None, .. } => Some(0.0),
            Wanted::Food { food, item: Some(item) } => self.of_item(*food, item),
            Wanted::Recipe { recipe: part, most, .. } => {
                Some(self.of_recipe(*part)? * self.kitchen.recipes[*part].in_makes(most)?.to_f64())
            }
        };
        let whole: f64 = recipe.ingredients.iter().map(line).sum::<Option<f64>>()?;
        Some(whole / recipe.makes.base())
    }

    /// Minor units of money, not rounded, that what a line asks for costs where nobody knows from which lot it comes.
    pub fn of_item(&self, id: FoodId, item: &Item) -> Option<f64> {
        let (food, spoons) = (&self.kitchen.foods[id], self.kitchen.rules.spoons);
        let amount = |dimension: &Dimension| as_purchased(food, item, dimension, spoons).ok().map(|amount| amount.base());
        let listed = self.listed.get(&id).map(|price| price.buys.dimension());
        let measures = listed.into_iter().chain([Dimension::Mass, Dimension::Volume, Dimension::Count]);
        let priced = |dimension: Dimension| Some(self.of_one(id, &dimension, None)? * amount(&dimension)?);
        measures.into_iter().find_map(priced).or_else(|| self.cheapest(id, amount))
    }

    /// Minor units of money, not rounded, that an amount costs at the cheapest known price; `amount` tells it in the dimension of a
    /// pack, where it can.
    pub fn cheapest(&self, food: FoodId, amount: impl Fn(&Dimension) -> Option<f64>) -> Option<f64> {
        let cost = |price: &Price| Some(amount(&price.buys.dimension())? * price.minor / price.buys.base());
        self.known.get(&food)?.iter().filter_map(cost).min_by(f64::total_cmp)
    }

    fn in_dimension(&self, food: FoodId, amount: &Quantity, dimension: &Dimension) -> Option<f64> {
        if amount.dimension() == *dimension {
            return Some(amount.base());
        }
        convert(&self.kitchen.foods[food], amount, dimension).ok().map(|same| same.base())
    }
}

/// `amount` at so many minor units for one base unit.
pub fn worth(amount: &Quantity, rate: f64) -> Money {
    rounded(amount.base() * rate)
}

/// Half a minor unit and more rounded up. Twelve digits are finer than any price and take the noise off a half.
pub fn rounded(minor: f64) -> Money {
    Money((tidy(minor) + 0.5).floor() as i64)
}
