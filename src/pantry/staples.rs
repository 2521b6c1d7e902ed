//! Staples: filled up to par once what is left after the week is below a mark.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::incomparable::not_comparable;
use crate::foods::{FoodId, Foods, convert};
use crate::kitchen::{Kitchen, Staple, Ware, Warning};
use crate::measure::{Dimension, Quantity, Units, is_nothing_of};
use crate::shelf::{First, Shelf, food_rate};

/// What the first trip buys of a staple beyond the week's demand.
#[derive(Debug, Clone, PartialEq)]
pub struct TopUp {
    pub food: FoodId,
    /// In the dimension in which the food's needs are stated, where the facts allow.
    pub amount: Quantity,
}

/// Par less what could still be drawn on the week's last day, for every staple that is then below its mark.
pub(super) fn top_ups(
    kitchen: &Kitchen,
    shelf: &Shelf,
    stated_in: &BTreeMap<FoodId, Dimension>,
    last_day: Date,
    warnings: &mut Vec<Warning>,
) -> Vec<TopUp> {
    let mut top_ups = Vec::new();
    for staple in &kitchen.staples {
        let name = &kitchen.foods[staple.food].name;
        let ignored = [("always", &kitchen.rules.always), ("ask", &kitchen.rules.ask)];
        if let Some((list, _)) = ignored.into_iter().find(|(_, foods)| foods.contains(&staple.food)) {
            warnings.push(Warning::StapleIgnored { at: staple.at.clone(), food: name.clone(), list });
            continue;
        }
        let dimension = stated_in.get(&staple.food).cloned().unwrap_or(staple.par.dimension());
        top_ups.extend(top_up(&kitchen.foods, kitchen.print.units, shelf, staple, dimension, last_day, warnings));
    }
    top_ups
}

fn top_up(
    foods: &Foods,
    units: Units,
    shelf: &Shelf,
    staple: &Staple,
    dimension: Dimension,
    last_day: Date,
    warnings: &mut Vec<Warning>,
) -> Option<TopUp> {
    let facts = &foods[staple.food];
    let (par, when_below, dimension) = match (convert(facts, &staple.par, &dimension), convert(facts, &staple.when_below, &dimension)) {
        (Ok(par), Ok(when_below)) => (par, when_below, dimension),
        (Err(missing), _) | (_, Err(missing)) => {
            warnings.push(Warning::MissingFact {
                at: staple.at.clone(),
                line: crate::measure::show(&staple.par, units),
                food: facts.name.clone(),
                what: missing.what,
                key: missing.key,
            });
            let own = staple.par.dimension();
            let when_below = convert(facts, &staple.when_below, &own).ok()?;
            (staple.par.clone(), when_below, own)
        }
    };
    let mut left = Quantity::of(&dimension, 0);
    for lot in shelf.drawable(Ware::Food(staple.food), last_day, First::Opened).into_iter().map(|lot| &shelf.lots()[lot]) {
        match food_rate(foods, lot, staple.food, &dimension, None) {
            Some(rate) => left = left.plus(&Quantity::of(&dimension, lot.amount.exact() * rate)).unwrap_or(left),
            None => warnings.push(not_comparable(foods, units, lot, staple.food, &dimension)),
        }
    }
    let lacks = when_below.minus(&left).is_some_and(|below| !is_nothing_of(below.exact(), when_below.exact()));
    par.minus(&left).filter(|_| lacks).map(|amount| TopUp { food: staple.food, amount })
}
