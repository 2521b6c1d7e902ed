//! What one session takes out of cupboard, fridge and freezer, and out of the shopping bags.

use std::collections::BTreeMap;

use super::uses::poured_out;
use super::{Begun, Fetch, Said, SessionPlan, Shares};
use crate::foods::{FoodId, Foods, Place, convert};
use crate::kitchen::Names;
use crate::kitchen::{Kitchen, Lot, Ware};
use crate::measure::{Dimension, Quantity, TOLERANCE, Units, show};
use crate::plan::{Demand, Draw, Kept, MadeAt, Makings, User};
use crate::words::{day_clock, in_a_sentence, place};

/// `may_be_bought` where a trip is still to come before the session. In order of place, what was bought last; within a place the oldest
/// first. One entry per food and place.
pub(super) fn fetch(
    kitchen: &Kitchen,
    makings: &Makings,
    demand: &[Demand],
    draws: &[Draw],
    (session, may_be_bought): (usize, bool),
) -> Vec<Fetch> {
    let here = MadeAt::Session(session);
    let mut wanted = Wanted::of(demand, here);
    let mut fetched = drawn(&kitchen.foods, makings, draws, here, &mut wanted);
    fetched.extend(from_other_sessions(makings, here));
    let shelf = fetched.len();
    fetched.extend(bought(&kitchen.lots, demand, here, &wanted));
    if !may_be_bought {
        tell_what_is_short(kitchen, &mut fetched, shelf);
    }
    let mut merged = merge(fetched);
    merged.sort_by_key(|fetch| fetch.place.map_or(3, |place| place as u8));
    merged
}

/// One food or dish that is fetched: the whole amount, and where it lies.
#[derive(Debug, Clone, PartialEq)]
pub struct Fetched<'a> {
    pub of: Ware,
    pub amount: Quantity,
    /// Their amounts add up.
    pub from: Vec<&'a Fetch>,
}

/// One entry a food, in the order of their first places; a second only where its amounts cannot be added up.
pub fn by_food(all: &[Fetch]) -> Vec<Fetched<'_>> {
    let mut foods: Vec<Fetched> = Vec::new();
    for one in all {
        let same = |food: &&mut Fetched| food.of == one.of && food.amount.dimension() == one.amount.dimension();
        match foods.iter_mut().find(same).and_then(|food| food.amount.plus(&one.amount).map(|sum| (food, sum))) {
            Some((food, sum)) => {
                food.amount = sum;
                food.from.push(one);
            }
            None => foods.push(Fetched { of: one.of, amount: one.amount.clone(), from: vec![one] }),
        }
    }
    foods
}

impl Fetched<'_> {
    /// "5 cloves of garlic", "220 g onions", "black pepper": what is fetched in a cook's words. What is counted is whole; `shares` are of the
    /// people who handle it.
    pub fn words(&self, said: &[Said], shares: &Shares, names: Names, units: Units) -> String {
        let name = match (self.said(said), self.of) {
            (Some(said), _) => said.name.clone(),
            (None, Ware::Recipe(recipe)) => in_a_sentence(names.recipe(recipe)),
            (None, Ware::Food(food)) => names.food(food).to_owned(),
        };
        if self.amount.is_zero() {
            return name;
        }
        let said = self.said(said);
        if let Some(words) = said.and_then(|said| said.words.clone()).filter(|_| shares.is_whole()) {
            return words;
        }
        if let Some(count) = said.and_then(|said| said.counted.as_ref()) {
            let part = shares.of(count);
            let one = matches!(self.of, Ware::Food(_)) && matches!(&part, Quantity::Count(number) if *number <= 1);
            let of = if matches!(part, Quantity::Words(..)) { "of " } else { "" };
            return format!("{} {of}{}", show(&part, units), if one { names.ware(self.of) } else { &name });
        }
        match said.and_then(|said| said.poured.as_ref()) {
            Some((poured, spoons)) => format!("{} {name}", poured_out(&poured.scaled(shares.mine()), *spoons, units)),
            None => format!("{} {name}", show(&whole(self.amount.scaled(shares.mine())), units)),
        }
    }

    /// "500 g fridge, the rest from the shopping", "250 g cupboard, 5 g short"; of one place that place alone.
    pub fn places(&self, said: &[Said], units: Units) -> String {
        let told = |one: &Fetch| {
            let at = one.place.map_or("from the shopping", place);
            if one.look_first { format!("{at} (look at it first)") } else { at.to_owned() }
        };
        let [parts @ .., last] = self.from.as_slice() else { return String::new() };
        if parts.is_empty() {
            return told(last);
        }
        let counted = self.said(said).and_then(|said| said.counted.as_ref());
        let all = self.amount.base();
        // A lot that is weighed and comes near to so many pieces is told as those; "500 g" of three apples is no number of them.
        let part = |one: &Fetch| match counted {
            Some(count) if all > 0.0 => {
                let part = count.scaled(one.amount.base() / all);
                let off = (part.base() - part.base().round()).abs();
                match &part {
                    part if off <= NEARLY_WHOLE && part.base().round() < count.base() => part.clone(),
                    // Of a bulb or a bunch the whole cloves and sprigs: what is short of one comes with the rest.
                    Quantity::Words(number, word) if *number >= 1 => Quantity::Words(number.floor(), word.clone()),
                    _ => one.amount.clone(),
                }
            }
            _ => one.amount.clone(),
        };
        let parts = parts.iter().map(|one| format!("{} {}, ", show(&part(one), units), told(one)));
        let rest = if last.is_short { format!("{} short", show(&last.amount, units)) } else { format!("the rest {}", told(last)) };
        parts.collect::<String>() + &rest
    }

    /// What a step done ahead has taken of it.
    pub fn begun<'s>(&self, begun: &'s [Begun]) -> Option<&'s Begun> {
        begun.iter().find(|one| one.of == self.of)
    }

    /// "begun Sat 28 Nov 20:00" of what nobody fetches any more; of a part of it, "450 g of it begun Sat 28 Nov 20:00".
    pub fn since(&self, begun: &[Begun], units: Units) -> Option<String> {
        let one = self.begun(begun)?;
        let since = format!("begun {}", day_clock(one.since));
        Some(if one.is_all() { since } else { format!("{} of it {since}", show(&self.amount.scaled(one.share), units)) })
    }

    /// Its places, and what of it has been taken already.
    pub fn where_from(&self, session: &SessionPlan, units: Units) -> String {
        let places = self.places(&session.said, units);
        match self.since(&session.begun, units) {
            Some(since) if self.begun(&session.begun).is_some_and(Begun::is_all) => since,
            Some(since) => format!("{places}; {since}"),
            None => places,
        }
    }

    fn said<'s>(&self, said: &'s [Said]) -> Option<&'s Said> {
        said.iter().find(|said| said.of == self.of)
    }
}

impl Begun {
    /// Nothing of it is left to be fetched.
    pub fn is_all(&self) -> bool {
        self.share > 0.999
    }
}

/// How far from a whole number a part may be that is told as pieces.
const NEARLY_WHOLE: f64 = 0.05;

/// Nobody fetches three eighths of a garlic.
fn whole(amount: Quantity) -> Quantity {
    match amount {
        Quantity::Count(number) => Quantity::Count(number.ceil()),
        // A part of a handful is told as it is.
        Quantity::Words(number, word) if word == "clove" => Quantity::Words(number.ceil(), word),
        amount => amount,
    }
}

/// What the session needs of each food and has not yet been fetched for, in base units of each dimension.
struct Wanted(BTreeMap<(FoodId, Dimension), f64>);

impl Wanted {
    fn of(demand: &[Demand], here: MadeAt) -> Self {
        let mut wanted = BTreeMap::new();
        for one in demand.iter().filter(|one| one.by == here && !one.to_taste) {
            *wanted.entry((one.food, one.amount.dimension())).or_insert(0.0) += one.amount.base();
        }
        Wanted(wanted)
    }

    /// Takes at most `amount` off what is wanted, and says how much of it the session takes. Where the two cannot be compared it
    /// takes all.
    fn take(&mut self, foods: &Foods, food: FoodId, amount: &Quantity) -> Quantity {
        for ((_, dimension), left) in self.0.iter_mut().filter(|((of, _), left)| *of == food && **left > 0.0) {
            let Ok(have) = convert(&foods[food], amount, dimension) else { continue };
            let have = have.base();
            let taken = have.min(*left);
            *left = if *left - taken <= TOLERANCE * *left { 0.0 } else { *left - taken };
            return if taken < have { amount.scaled(taken / have) } else { amount.clone() };
        }
        amount.clone()
    }
}

/// Of what lies on the shelf but for as little as the list may leave unbought, that little comes from nowhere once the shopping is done.
/// The first `shelf` entries are what the shelf serves.
fn tell_what_is_short(kitchen: &Kitchen, fetched: &mut [Fetch], shelf: usize) {
    let (at_home, rests) = fetched.split_at_mut(shelf);
    for rest in rests {
        let same = at_home.iter().filter(|one| one.of == rest.of && one.amount.dimension() == rest.amount.dimension());
        let drawn: f64 = same.map(|one| one.amount.base()).sum();
        rest.is_short = drawn > 0.0 && rest.amount.base() <= (drawn + rest.amount.base()) * kitchen.rules.short_by * (1.0 + TOLERANCE);
    }
}

/// The session's share of the draws. A draw that also serves a meal of the same day is counted after those for the session alone. Cooked
/// lots are told by the plan, use by use.
fn drawn(foods: &Foods, makings: &Makings, draws: &[Draw], here: MadeAt, wanted: &mut Wanted) -> Vec<Fetch> {
    let foods_drawn = draws.iter().filter(|draw| matches!(draw.of, Ware::Food(_)));
    let mine: Vec<&Draw> = foods_drawn.chain(&makings.cooked_draws).filter(|draw| draw.by.contains(&here)).collect();
    let alone = |draw: &Draw| draw.by.iter().all(|by| *by == here);
    let mut taken: Vec<(usize, Fetch)> = Vec::new();
    for turn in [true, false] {
        for (order, draw) in mine.iter().enumerate().filter(|(_, draw)| alone(draw) == turn) {
            let amount = match draw.of {
                Ware::Food(food) => wanted.take(foods, food, &draw.amount),
                Ware::Recipe(_) => draw.amount.clone(),
            };
            taken.push((order, taken_from(foods, draw, amount)));
        }
    }
    taken.sort_by_key(|(order, _)| *order);
    taken.into_iter().map(|(_, fetch)| fetch).filter(|fetch| !fetch.amount.is_zero()).collect()
}

/// What is taken out of the freezer to thaw lies in the fridge by then.
fn taken_from(foods: &Foods, draw: &Draw, amount: Quantity) -> Fetch {
    let thaws = |food: FoodId| foods[food].thaw.as_ref().is_some_and(|days| days.value.0 > 0);
    let thawed = draw.place == Place::Freezer && matches!(draw.of, Ware::Food(food) if thaws(food));
    let place = if thawed { Place::Fridge } else { draw.place };
    Fetch { of: draw.of, amount, place: Some(place), look_first: draw.look_first, is_short: false }
}

/// Components that an earlier session made for a dish of this one. Frozen ones are in the fridge by then.
fn from_other_sessions(makings: &Makings, here: MadeAt) -> Vec<Fetch> {
    let mut fetched = Vec::new();
    for making in makings.makings.iter().filter(|making| making.at != here) {
        for one in making.uses.iter().filter(|one| one.kept != Kept::Straight) {
            let User::Making(dish) = one.by else { continue };
            if makings.makings.get(dish).is_some_and(|dish| dish.at == here) {
                let of = Ware::Recipe(making.recipe);
                fetched.push(Fetch { of, amount: one.amount.clone(), place: one.kept.place(), look_first: false, is_short: false });
            }
        }
    }
    fetched
}

/// What the pantry does not serve comes with the shopping, in the order of the recipes' lines. "To taste" has an amount of 0.
fn bought(lots: &[Lot], demand: &[Demand], here: MadeAt, wanted: &Wanted) -> Vec<Fetch> {
    let mut fetched: Vec<Fetch> = Vec::new();
    let mut seen: Vec<(FoodId, Dimension)> = Vec::new();
    for one in demand.iter().filter(|one| one.by == here) {
        let key = (one.food, one.amount.dimension());
        if seen.contains(&key) {
            continue;
        }
        let left = wanted.0.get(&key).copied().unwrap_or(0.0);
        let of = Ware::Food(one.food);
        if left > 0.0 {
            seen.push(key.clone());
            fetched.push(Fetch { of, amount: Quantity::of(&key.1, left), place: None, look_first: false, is_short: false });
        } else if one.to_taste && !demand.iter().any(|other| other.by == here && other.food == one.food && !other.to_taste) {
            seen.push(key.clone());
            let at_home = lots.iter().find(|lot| lot.of == of).map(|lot| lot.place);
            fetched.push(Fetch { of, amount: one.amount.clone(), place: at_home, look_first: false, is_short: false });
        }
    }
    fetched
}

fn merge(fetched: Vec<Fetch>) -> Vec<Fetch> {
    let mut merged: Vec<Fetch> = Vec::new();
    for next in fetched {
        let same = |f: &&mut Fetch| f.of == next.of && f.place == next.place;
        let sum = merged.iter_mut().find(|f| same(f) && f.amount.dimension() == next.amount.dimension());
        match sum.and_then(|f| f.amount.plus(&next.amount).map(|sum| (f, sum))) {
            Some((entry, sum)) => {
                entry.amount = sum;
                entry.look_first |= next.look_first;
            }
            None => merged.push(next),
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::Fact;
    use crate::kitchen::Spot;
    use crate::plan::Stated;
    use crate::prep::testing::*;

    fn need(food: FoodId, grams: f64, by: MadeAt) -> Demand {
        Demand {
            food,
            on: sunday().date(),
            amount: Quantity::grams(grams),
            to_taste: false,
            stated: Stated::Plain,
            asked: None,
            tin: None,
            what_for: "Dish".into(),
            dish: None,
            line: String::new(),
            at: Spot::default(),
            by,
            own_words: false,
            optional: false,
            instead: None,
        }
    }

    fn draw(food: FoodId, grams: f64, place: Place, by: Vec<MadeAt>) -> Draw {
        let amount = Quantity::grams(grams);
        Draw { of: Ware::Food(food), lot: 0, amount, place, on: sunday().date(), what_for: vec![], by, look_first: false, whose: None }
    }

    const HERE: MadeAt = MadeAt::Session(0);

    fn said<'k>(kitchen: &'k Kitchen, fetched: &[Fetch]) -> Vec<(&'k str, f64, Option<Place>)> {
        fetched.iter().map(|f| (kitchen.names().ware(f.of), f.amount.base(), f.place)).collect()
    }

    #[test]
    fn what_the_pantry_lacks_comes_from_the_shopping() {
        // 500 g wanted, 350 g in the cupboard in two lots: 150 g bought.
        let mut kitchen = kitchen();
        let barley = food(&mut kitchen, "pearl barley", "grain");
        let draws = [draw(barley, 300.0, Place::Cupboard, vec![HERE]), draw(barley, 50.0, Place::Cupboard, vec![HERE])];
        let fetched = fetch(&kitchen, &Makings::default(), &[need(barley, 500.0, HERE)], &draws, (0, true));
        assert_eq!(said(&kitchen, &fetched), [("pearl barley", 350.0, Some(Place::Cupboard)), ("pearl barley", 150.0, None)]);
    }

    #[test]
    fn places_go_in_order_and_the_shopping_last() {
        let mut kitchen = kitchen();
        let (beef, leek, rice) = (food(&mut kitchen, "beef", ""), food(&mut kitchen, "leek", ""), food(&mut kitchen, "rice", ""));
        let demand = [need(leek, 200.0, HERE), need(beef, 300.0, HERE), need(rice, 100.0, HERE)];
        let draws = [draw(beef, 300.0, Place::Freezer, vec![HERE]), draw(rice, 100.0, Place::Cupboard, vec![HERE])];
        let fetched = fetch(&kitchen, &Makings::default(), &demand, &draws, (0, true));
        assert_eq!(
            said(&kitchen, &fetched),
            [("rice", 100.0, Some(Place::Cupboard)), ("beef", 300.0, Some(Place::Freezer)), ("leek", 200.0, None)]
        );
    }

    #[test]
    fn what_was_taken_out_to_thaw_lies_in_the_fridge() {
        let mut kitchen = kitchen();
        let (beef, peas) = (food(&mut kitchen, "beef", ""), food(&mut kitchen, "peas", ""));
        kitchen.foods.all[0].thaw = Some(Fact { value: crate::measure::Days(1), source: "from memory".into() });
        let demand = [need(beef, 300.0, HERE), need(peas, 100.0, HERE)];
        let draws = [draw(beef, 300.0, Place::Freezer, vec![HERE]), draw(peas, 100.0, Place::Freezer, vec![HERE])];
        let fetched = fetch(&kitchen, &Makings::default(), &demand, &draws, (0, true));
        assert_eq!(said(&kitchen, &fetched), [("beef", 300.0, Some(Place::Fridge)), ("peas", 100.0, Some(Place::Freezer))]);
    }

    #[test]
    fn a_lot_shared_with_the_evening_s_meal_gives_the_session_only_its_need() {
        let mut kitchen = kitchen();
        let feta = food(&mut kitchen, "feta", "");
        let demand = [need(feta, 60.0, HERE), need(feta, 90.0, MadeAt::Meal(0))];
        let draws = [draw(feta, 150.0, Place::Fridge, vec![HERE, MadeAt::Meal(0)])];
        assert_eq!(
            said(&kitchen, &fetch(&kitchen, &Makings::default(), &demand, &draws, (0, true))),
            [("feta", 60.0, Some(Place::Fridge))]
        );
    }

    #[test]
    fn other_sessions_and_meals_fetch_for_themselves() {
        let mut kitchen = kitchen();
        let feta = food(&mut kitchen, "feta", "");
        let demand = [need(feta, 90.0, MadeAt::Meal(0)), need(feta, 10.0, MadeAt::Session(1))];
        assert_eq!(fetch(&kitchen, &Makings::default(), &demand, &[], (0, true)), []);
    }

    #[test]
    fn what_the_list_left_short_comes_from_nowhere_once_the_shopping_is_done() {
        // 250 of 255 g lie there; 5 g are within 2 %.
        let mut kitchen = kitchen();
        let barley = food(&mut kitchen, "pearl barley", "grain");
        let told = |grams: f64, may_be_bought: bool| {
            let draws = [draw(barley, grams, Place::Cupboard, vec![HERE])];
            let fetched = fetch(&kitchen, &Makings::default(), &[need(barley, 255.0, HERE)], &draws, (0, may_be_bought));
            by_food(&fetched)[0].places(&[], Units::Metric)
        };
        assert_eq!(told(250.0, true), "250 g cupboard, the rest from the shopping");
        assert_eq!(told(250.0, false), "250 g cupboard, 5 g short");
        // More is missing than any list leaves: it is not told away.
        assert_eq!(told(200.0, false), "200 g cupboard, the rest from the shopping");
    }
}
