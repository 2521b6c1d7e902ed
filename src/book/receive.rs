//! Goods in: what a trip brings, with what was otherwise than on the list.
//!
//! What a trip brings goes where the household keeps the food, and counts its keeping from the trip (`since`: an estimate). A date given
//! for a pack is a `use_by` in the fridge and a `best_before` elsewhere. A line that nobody is known to sell is booked as needed.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::bench::Bench;
use super::container::{InContainers, in_containers};
use super::goods::{Goods, goods_of, text_of};
use super::record::{Exact, LotRecord, Paid, exactly};
use super::seen::known_price;
use super::typed::NotTaken;
use crate::foods::{FoodId, Foods, Item, Place, State, as_purchased, convert, own_dimension};
use crate::kitchen::{Household, Kitchen, LineOf, Lot, ShopId, WeekPrice, read_line};
use crate::measure::{Dimension, InPacks, Money, Number, Quantity, Unit, read_in_packs, read_money};
use crate::purchase::{Seller, TripBuys};
use crate::shelf::{counts_packs, home};

/// What was otherwise than on the list. Foods are named as the household names them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Exceptions {
    pub without: Vec<String>,
    /// The amount that was bought in place of what the list said: `2 x 150 g`.
    pub instead: Vec<(String, String)>,
    /// A line, and " at " its price where that is known: `1 kg onions at 1.20`.
    pub also: Vec<String>,
    pub paid: Vec<(String, String)>,
    /// The date on the pack.
    pub until: Vec<(String, Date)>,
}

/// Puts the trip's goods on the shelf. Returns what could not be booked, and why.
///
/// # Errors
/// An exception that names nothing on the list, or that cannot be read: a whole sentence.
pub fn receive(kitchen: &Kitchen, bench: &mut Bench, trip: &TripBuys, exceptions: &Exceptions) -> Result<Vec<String>, String> {
    let (mut goods, not_booked) = goods_of(&kitchen.foods, &kitchen.rules, trip);
    except(kitchen, &mut goods, &trip.shops, exceptions)?;
    put_all(&kitchen.foods, &kitchen.lots, bench, &goods, trip.on);
    Ok(not_booked)
}

/// Puts goods on the shelf, one lot a size.
pub fn put_all(foods: &Foods, lots: &[Lot], bench: &mut Bench, goods: &[Goods], on: Date) {
    goods.iter().for_each(|bought| put(foods, lots, bench, bought, on));
}

impl Goods {
    /// One a lot of it on the shelf: a size, or what the week opens one after the other.
    pub(super) fn lots(&self) -> &[InPacks] {
        if self.opened.is_empty() { &self.amounts } else { &self.opened }
    }

    /// What was paid for all of it, where that is known.
    pub fn price(&self) -> Option<WeekPrice> {
        let mut amounts = self.amounts.iter().map(|lies| &lies.amount);
        let first = amounts.next()?.clone();
        let buys = amounts.try_fold(first, |sum, next| sum.plus(next))?;
        Some(WeekPrice { food: self.food, buys, cost: self.cost? })
    }

    /// Other packs than on the list, at the price that a shop of the trip is known to have for them.
    pub fn replaced_by(&mut self, kitchen: &Kitchen, shops: &[ShopId], amounts: Vec<InPacks>) {
        *self = Goods { amounts, opened: Vec::new(), cost: None, paid: false, packs: Vec::new(), ..self.clone() };
        self.cost = known_price(&kitchen.foods, &kitchen.packs, shops, self);
    }
}

/// Lays the exceptions over the goods of a list. `shops` are those that were visited.
///
/// # Errors
/// An exception that names nothing on the list, or that cannot be read: a whole sentence.
pub fn except(kitchen: &Kitchen, goods: &mut Vec<Goods>, shops: &[ShopId], exceptions: &Exceptions) -> Result<(), String> {
    said_once(&kitchen.foods, "--instead", exceptions.instead.iter().map(|(name, _)| name))?;
    said_once(&kitchen.foods, "--paid", exceptions.paid.iter().map(|(name, _)| name))?;
    said_once(&kitchen.foods, "--until", exceptions.until.iter().map(|(name, _)| name))?;
    let mut without = BTreeSet::new();
    for name in &exceptions.without {
        let at = place_in(&kitchen.foods, goods, name, &without)?;
        without.insert(goods.remove(at).food);
    }
    for (name, amount) in &exceptions.instead {
        let at = place_in(&kitchen.foods, goods, name, &without)?;
        let amount = bought_instead(kitchen, &goods[at], name, amount)?;
        goods[at].replaced_by(kitchen, shops, vec![amount]);
    }
    for text in &exceptions.also {
        goods.push(also(kitchen, text)?);
    }
    for (name, price) in &exceptions.paid {
        let at = place_in(&kitchen.foods, goods, name, &without)?;
        let cost = money(&kitchen.household, price)?;
        goods[at].paid(cost);
    }
    for (name, until) in &exceptions.until {
        let at = place_in(&kitchen.foods, goods, name, &without)?;
        goods[at].until = Some(*until);
    }
    Ok(())
}

/// Of one food each is said once, by whichever of its names.
fn said_once<'n>(foods: &Foods, flag: &str, names: impl Iterator<Item = &'n String>) -> Result<(), String> {
    let mut said: BTreeSet<String> = BTreeSet::new();
    for name in names {
        let food = foods.find(name.trim()).map_or_else(|| name.trim().to_lowercase(), |food| foods[food].name.clone());
        if !said.insert(food) {
            return Err(format!("{flag} says two things of {}. Keep one.", name.trim()));
        }
    }
    Ok(())
}

/// What was bought in place of what the list says of a food, as it was typed.
fn bought_instead(kitchen: &Kitchen, bought: &Goods, name: &str, text: &str) -> Result<InPacks, String> {
    let read = read_in_packs(text, kitchen.rules.spoons).map_err(|error| format!("{}: {}: {}.", name.trim(), error.cause, error.remedy))?;
    // "2 tins (100 g)" are closed packs as in a line.
    let line = read_line(&format!("{} {}", text.trim(), kitchen.foods[bought.food].name), &kitchen.foods, kitchen.rules.spoons).ok();
    let size = line.and_then(|line| match line.of {
        LineOf::Food { item: Some(item), .. } => pack_bought(&item, &read.amount),
        _ => None,
    });
    let read = InPacks { pack: read.pack.or(size), ..read };
    as_listed(kitchen, bought, read).map_err(String::from)
}

/// What was bought otherwise in a measure that the list can reckon with: a pack that it speaks of by a word is one of the line's own, else
/// as much as one is known to hold.
///
/// # Errors
/// A number without its unit, and packs that nobody knows the size of, where the line is in grams or millilitres.
pub(super) fn as_listed(kitchen: &Kitchen, bought: &Goods, lies: InPacks) -> Result<InPacks, NotTaken> {
    let food = &kitchen.foods[bought.food];
    let Some(own) = bought.amounts.first().map(|lies| lies.amount.dimension()) else { return Ok(lies) };
    let theirs = lies.amount.dimension();
    if theirs == own || !matches!(own, Dimension::Mass | Dimension::Volume) {
        return Ok(lies);
    }
    if counts_packs(&theirs) {
        let mut sizes = bought.amounts.iter().map(|lies| lies.pack.as_ref());
        let one = sizes.next().flatten().filter(|first| sizes.all(|other| other == Some(*first))).cloned();
        let known = || convert(food, &Quantity::of(&theirs, 1), &own).ok();
        if let Some(size) = one.or_else(known) {
            let count = lies.amount.exact();
            let pack = count.is_whole().then(|| size.clone());
            return Ok(InPacks { amount: size.scaled(count), pack });
        }
    }
    if convert(food, &lies.amount, &own).is_ok() {
        return Ok(lies);
    }
    let example = text_of(&bought.amounts[0]);
    let said = text_of(&lies);
    Err(match theirs {
        Dimension::Count => NotTaken::new(
            format!("{}: \"{said}\" has no unit, and nobody knows what one weighs", food.name),
            &format!("write it with its unit, like \"{example}\""),
        ),
        _ => NotTaken::new(
            format!("{}: {said} cannot be compared with the {example} of the list", food.name),
            &format!("write it like \"{example}\""),
        ),
    })
}

/// `without` are the foods of which a line was taken out before.
fn place_in(foods: &Foods, goods: &[Goods], name: &str, without: &BTreeSet<FoodId>) -> Result<usize, String> {
    let food = foods.find(name.trim());
    let at = goods.iter().position(|bought| Some(bought.food) == food);
    at.ok_or_else(|| match food.is_some_and(|food| without.contains(&food)) {
        true => format!("--without says that {0} was not bought, and {0} is named once more. Keep one.", name.trim()),
        false => format!("{} is not among what this trip buys.", name.trim()),
    })
}

fn money(household: &Household, text: &str) -> Result<Money, NotTaken> {
    let money = read_money(text.trim(), &household.currency).map_err(|error| NotTaken::new(error.cause, &error.remedy))?;
    let is_less = || NotTaken::new(format!("{} is less than nothing", text.trim()), "write what was paid");
    if money < Money::ZERO { Err(is_less()) } else { Ok(money) }
}

/// A line that is not on the list: `1 kg onions at 1.20`.
pub(super) fn also(kitchen: &Kitchen, text: &str) -> Result<Goods, NotTaken> {
    let (line, cost) = match text.rsplit_once(" at ") {
        Some((line, price)) => (line, Some(money(&kitchen.household, price)?)),
        None => (text, None),
    };
    let read = read_line(line, &kitchen.foods, kitchen.rules.spoons)
        .map_err(|error| NotTaken::new(format!("cannot read \"{line}\": {}", error.cause), &error.remedy))?;
    let LineOf::Food { food, item: Some(item) } = read.of else {
        return Err(NotTaken::new(format!("\"{line}\" is no amount of a food"), "write it like \"1 kg onions at 1.20\""));
    };
    let food = kitchen.foods.find(&food).ok_or_else(|| NotTaken::new(format!("{food} is not a known food"), "add it to foods.toml"))?;
    let facts = &kitchen.foods[food];
    let spoons = kitchen.rules.spoons;
    let (lies, guessed) = match in_containers(kitchen, food, &item, cost)? {
        Some(InContainers { lies, said }) => (lies, Some(said)),
        None => {
            let amount = own_dimension(facts, &item, spoons).or_else(|| as_purchased(facts, &item, &Dimension::Mass, spoons).ok());
            let amount = amount.ok_or_else(|| NotTaken::new(format!("\"{line}\" cannot be weighed"), "write it in grams"))?;
            (InPacks { pack: pack_bought(&item, &amount), amount }, None)
        }
    };
    let (paid, also) = (cost.is_some(), Some(text.trim().to_owned()));
    let (amounts, from) = (vec![lies], Seller::Anywhere);
    Ok(Goods { food, amounts, opened: Vec::new(), cost, paid, until: None, from, packs: Vec::new(), also, guessed, nth: 0 })
}

/// "2 x 400 g", "3 tins (400 g)": closed packs of that size; "2 tins", where a tin is known to hold so much, of that.
fn pack_bought(item: &Item, amount: &Quantity) -> Option<Quantity> {
    let by_word = matches!(item.amount.unit, Unit::Word(word) if word.is_container());
    let count = &item.amount.high;
    if !(count.is_whole() && count.is_positive() && item.plus.is_empty()) {
        return None;
    }
    if let Some(size) = item.size.clone().filter(|_| by_word || item.amount.unit == Unit::Piece) {
        return (size.scaled(count) == *amount).then_some(size);
    }
    let is_weighed = by_word && item.state == State::AsPurchased && matches!(amount.dimension(), Dimension::Mass | Dimension::Volume);
    is_weighed.then(|| amount.scaled(Number::ONE / count))
}

/// What was bought beside the plan, with what is said of it.
///
/// # Errors
/// As [`except`].
pub fn beside_the_plan(kitchen: &Kitchen, exceptions: &Exceptions) -> Result<Vec<Goods>, String> {
    let mut goods = Vec::new();
    except(kitchen, &mut goods, &[], exceptions)?;
    Ok(goods)
}

/// One lot a size, or the lots as they are opened; what was paid is shared out by amount.
fn put(foods: &Foods, lots: &[Lot], bench: &mut Bench, bought: &Goods, on: Date) {
    let food = &foods[bought.food];
    let place = home(foods, lots, bought.food);
    let paid = bought.price().map(|price| Paid { minor: price.cost.0, amount: Exact::of(&price.buys) });
    for lies in bought.lots() {
        let (amount, pack) = exactly(&lies.amount, lies.pack.as_ref());
        let chilled = place == Place::Fridge;
        bench.put(LotRecord {
            food: Some(food.name.clone()),
            recipe: None,
            eater: None,
            without: Vec::new(),
            amount,
            pack,
            place,
            // In the fridge a pack's date is taken for one of safety, which is the careful reading.
            best_before: bought.until.filter(|_| !chilled),
            use_by: bought.until.filter(|_| chilled),
            opened: None,
            since: bought.until.is_none().then_some(on),
            made: None,
            paid: paid.clone(),
        });
    }
}
