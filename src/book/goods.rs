//! What was bought, food by food, as the list of a trip says it. A line that nobody is known to sell counts as needed.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::booked::Booked;
use super::record::{amount_text, exactly};
use crate::foods::{FoodId, Foods};
use crate::kitchen::Rules;
use crate::measure::{Dimension, InPacks, Money, Quantity, read_in_packs};
use crate::purchase::{Buy, Packed, Seller, TripBuys};

/// What was bought of one food.
#[derive(Debug, Clone, PartialEq)]
pub struct Goods {
    pub food: FoodId,
    /// One a size; closed packs are told apart from what lies loose.
    pub amounts: Vec<InPacks>,
    /// The same in the order in which the week opens them, where several sizes are opened more than once: packs of one date go off in the order
    /// in which they lie. Else empty.
    pub opened: Vec<InPacks>,
    pub cost: Option<Money>,
    /// Was the cost said by whoever paid it, and not by the list?
    pub paid: bool,
    pub until: Option<Date>,
    pub from: Seller,
    /// The packs of the list, where they are what was bought.
    pub packs: Vec<Packed>,
    /// The line of an exception that is not on the list.
    pub also: Option<String>,
    /// What nobody wrote of that line and was taken: "1 bottle of olive oil is taken as 500 ml, as Mill stores sells it", and how another size is written.
    pub guessed: Option<String>,
    /// Which line of this food it is, counted from 0 in the whole trip.
    pub nth: usize,
}

impl Goods {
    pub fn paid(&mut self, cost: Money) {
        (self.cost, self.paid) = (Some(cost), true);
    }
}

/// What the list of a trip says was bought, and what cannot be booked: its amount stands in words alone, or nobody knows the food any more.
pub fn goods_of(foods: &Foods, rules: &Rules, trip: &TripBuys) -> (Vec<Goods>, Vec<String>) {
    let mut not_booked = Vec::new();
    let mut goods = Vec::new();
    let mut lines: BTreeMap<FoodId, usize> = BTreeMap::new();
    for line in &trip.lines {
        let next = lines.entry(line.food).or_default();
        let nth = std::mem::replace(next, *next + 1);
        match from_line(rules, line) {
            Some(bought) if !bought.amounts.is_empty() => goods.push(Goods { nth, ..bought }),
            Some(_) => (),
            None if is_in_figures(line) => {
                not_booked.push(format!("{}: its amount is larger than anything that lies on a shelf", foods[line.food].name));
            }
            None => not_booked.push(format!("{}: its amount stands in words alone", foods[line.food].name)),
        }
    }
    not_booked.extend(trip.unknown.iter().map(|food| format!("{food}: it was printed, and no food of that name is known any more")));
    (goods, not_booked)
}

/// The goods of a trip whose lines are not booked yet.
pub fn open_goods(foods: &Foods, rules: &Rules, trip: &TripBuys, booked: &Booked) -> (Vec<Goods>, Vec<String>) {
    let (mut goods, not_booked) = goods_of(foods, rules, trip);
    goods.retain(|bought| !booked.has_line((trip.on, trip.nth), &foods[bought.food].name, bought.nth));
    (goods, not_booked)
}

/// Nothing where all of the need may stay unmet; `None` where the amount is no measure.
fn from_line(rules: &Rules, line: &Buy) -> Option<Goods> {
    let closed = |packed: &Packed| match packed {
        Packed::Packs { single, .. } => Some(single.clone()),
        Packed::Loose(_) => None,
    };
    let mut amounts: Vec<InPacks> = line.packs.iter().map(|packed| InPacks { amount: packed.amount(), pack: closed(packed) }).collect();
    if line.packs.is_empty() && line.cost.is_none() && !line.need.is_zero() {
        // Nobody is known to sell it, so it was bought somewhere, as needed.
        amounts.push(InPacks { amount: to_a_thousandth(&line.need), pack: None });
    }
    let legible = |lies: &InPacks| read_in_packs(&text_of(lies), rules.spoons).is_ok();
    let Buy { food, from, cost, .. } = *line;
    let packs = line.packs.clone();
    let opened = line.opened.iter().map(|packed| InPacks { amount: packed.amount(), pack: closed(packed) }).collect();
    amounts.iter().all(legible).then_some(Goods {
        food,
        amounts,
        opened,
        cost,
        paid: false,
        until: None,
        from,
        packs,
        also: None,
        guessed: None,
        nth: 0,
    })
}

/// As a list and its print both have it, the next thousandth above: nobody weighs a finer one.
fn to_a_thousandth(need: &Quantity) -> Quantity {
    match need.dimension() {
        Dimension::Mass | Dimension::Volume => Quantity::of(&need.dimension(), (need.exact() * 1000).ceil() / 1000),
        _ => need.clone(),
    }
}

/// Are they numbers of something that can be measured?
fn is_in_figures(line: &Buy) -> bool {
    let is_measured = |amount: &Quantity| !matches!(amount, Quantity::Words(..));
    if line.packs.is_empty() { is_measured(&line.need) } else { line.packs.iter().all(|packed| is_measured(&packed.amount())) }
}

/// As pantry.toml says it: "3 x 400 g".
pub(super) fn text_of(lies: &InPacks) -> String {
    let (amount, pack) = exactly(&lies.amount, lies.pack.as_ref());
    amount_text(&amount, pack.as_ref())
}
