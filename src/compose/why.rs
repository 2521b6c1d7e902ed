//! Why a meal was chosen, as plain data: what it uses up, what it shares with other meals, where it comes from.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::at_once::judge_all;
use super::search::{Chosen, with};
use super::table::{Look, Table};
use super::value::as_good_as;
use super::ways::recipes;
use crate::foods::{FoodId, Place};
use crate::kitchen::{Ingredient, Kitchen, RecipeId, Ware};
use crate::measure::{Money, Number, Quantity};
use crate::plan::{Demand, Draw, Kept, MadeAt, Making, User};
use crate::prep::Effort;
use crate::reckon::Tried;
use crate::shelf::lot_dates;

/// One reason.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// "uses 75 g feta, good until Tue"; where it is cooked before and is past at the meal, "uses 75 g feta on Mon, good until Tue".
    UsesUp { of: Ware, amount: Quantity, until: Date, cooked: Option<Date> },
    /// "uses 1 portion of pearl barley from the freezer".
    FromPlace { of: Ware, amount: Quantity, place: Place },
    /// "second half of Sunday's mash", "the rest of Sunday's mash".
    PartOf { recipe: RecipeId, nth: usize, of: usize, share: Share, made_on: Date },
    /// A second batch in another session.
    CookedAnew { recipe: RecipeId, made_on: Date },
    /// "straight from the pot".
    FromThePot { recipe: RecipeId },
    /// What is bought serves another meal, too; `first` where that one comes later.
    SharesPack { food: FoodId, with: String, first: bool },
    /// Nothing of the meal before comes again.
    NothingOf { before: String },
    /// The week costs so much more where something else takes a place, or where the meal holds these.
    CostsLess { by: Money, with: Vec<Ware> },
    /// For some of its foods, or of what could stand there, no price is known, so that nobody knows which costs less.
    NoPrice { foods: Vec<FoodId>, with: Vec<Ware> },
    /// It keeps a pattern or a dish from following itself.
    Varied { with: Vec<Ware> },
    /// Fewer batches.
    LessToCook { with: Vec<Ware> },
    /// By nothing but the order of the files.
    AsGood { with: Vec<Ware> },
    /// Within what variety may cost.
    AlsoCheap { with: Vec<Ware> },
    /// Every other filling breaks a wish.
    NothingElse,
}

/// How meals share what was cooked once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Share {
    /// In equal parts, and less than one of them stays.
    Even,
    /// In unequal ones, the last taking what is left.
    All,
    /// Something goes elsewhere, or stays.
    Part,
}

/// So many reasons tell enough.
const MOST: usize = 3;

/// So many other fillings of a meal are weighed against the one that was chosen.
const OTHERS: usize = 16;

/// The reasons for a meal, by its place in the whole week; the weightiest first.
pub fn why(table: &Table, tried: &Tried, chosen: &Chosen, meal: usize) -> Vec<Why> {
    let Some(place) = table.trials.place(meal) else { return Vec::new() };
    let mut reasons = used_up(table, tried, place);
    reasons.extend(parts(tried, place));
    reasons.extend(shared_packs(tried, place));
    reasons.truncate(MOST);
    if reasons.is_empty() {
        reasons.extend(against_others(table, tried, chosen, meal));
        reasons.extend(nothing_of_before(tried, place));
    }
    reasons
}

/// What speaks for a filling against the best of those that could take its place, everything else held.
fn against_others(table: &Table, tried: &Tried, chosen: &Chosen, meal: usize) -> Option<Why> {
    let gap = table.gaps.iter().position(|gap| gap.meal == meal)?;
    let now = chosen[gap]?;
    let others = others(table, gap, now);
    let weeks: Vec<Chosen> = others.iter().map(|way| with(chosen, gap, Some(*way))).collect();
    let all = std::iter::once(chosen).chain(&weeks).collect::<Vec<_>>();
    let judged = judge_all(table, &all, Look::Shortly, Effort::Low);
    let own = judged[0].value?;
    let allowed = others.iter().zip(&judged[1..]).filter(|(_, judged)| judged.is_allowed());
    let allowed = allowed.filter_map(|(way, judged)| Some((*way, judged.value?)));
    let as_good = as_good_as(own.net, &table.wishes);
    let best = allowed.min_by(|one, other| one.1.compare(&other.1, &table.wishes, as_good).then(one.1.net.cmp(&other.1.net)));
    let Some((other, value)) = best else {
        return (others.len() + 1 == table.gaps[gap].ways.len()).then_some(Why::NothingElse);
    };
    let with = instead(table, now, other);
    let foods = without_price(table, tried, &super::search::with(chosen, gap, Some(other)));
    if !foods.is_empty() && value.net != own.net {
        return Some(Why::NoPrice { foods, with });
    }
    Some(if value.net > own.net {
        Why::CostsLess { by: Money(value.net - own.net), with }
    } else if value.variety > own.variety {
        Why::Varied { with }
    } else if value.net < own.net {
        Why::AlsoCheap { with }
    } else if value.batches > own.batches {
        Why::LessToCook { with }
    } else {
        Why::AsGood { with }
    })
}

/// Foods without a price that only one of two weeks buys.
fn without_price(table: &Table, tried: &Tried, other: &Chosen) -> Vec<FoodId> {
    let own = &tried.basket.no_price;
    let others = table.trials.run_leaving_open(&table.filled(other)).map(|other| other.basket.no_price).unwrap_or_default();
    let only = |one: &[FoodId], other: &[FoodId]| one.iter().copied().filter(|food| !other.contains(food)).collect::<Vec<_>>();
    [only(own, &others), only(&others, own)].concat()
}

/// Other ways of a meal: first those of the same form that differ in one place, then one of each other form, then the rest.
fn others(table: &Table, gap: usize, now: u32) -> Vec<u32> {
    let ways = &table.ways.all;
    let own = &ways[now as usize];
    let mut others: Vec<u32> = table.gaps[gap].ways.iter().copied().filter(|way| *way != now).collect();
    let mut forms: BTreeSet<usize> = BTreeSet::new();
    others.sort_by_cached_key(|way| {
        let other = &ways[*way as usize];
        let differ = other.choice.iter().zip(&own.choice).filter(|(one, other)| one != other).count();
        match (other.form == own.form, differ) {
            (true, 1) => 0,
            (false, _) if forms.insert(other.form) => 1,
            _ => 2,
        }
    });
    others.truncate(OTHERS);
    others
}

/// What the other way holds that this one does not; all of it where that is nothing.
fn instead(table: &Table, now: u32, other: u32) -> Vec<Ware> {
    let (own, other) = (&table.ways.all[now as usize], &table.ways.all[other as usize]);
    let differing: Vec<Ware> = other.fillings.iter().copied().filter(|ware| !own.wares.contains(ware)).collect();
    if differing.is_empty() { other.wares.clone() } else { differing }
}

/// What is drawn for the meal off the shelf, what goes off first standing first.
fn used_up(table: &Table, tried: &Tried, place: usize) -> Vec<Why> {
    let kitchen = table.kitchen();
    let meal = &tried.week.meals[place];
    let soon = crate::pantry::last_day(&tried.week);
    let takes = takes(kitchen, tried, place);
    let mut dated: Vec<(Option<Date>, Why)> = Vec::new();
    for draw in &tried.netted.draws {
        // What is left of a pack that is opened meanwhile is a lot of its own.
        let lot = &tried.netted.lots[draw.lot];
        let until = lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest.filter(|until| *until <= soon);
        // What is past its date already when it is taken is looked at: nobody says of it until when it is good.
        if until.is_some_and(|until| until < draw.on) {
            continue;
        }
        let cooked = until.filter(|until| *until < meal.at_time.date()).map(|_| draw.on);
        match (draw.of, until) {
            (Ware::Food(food), Some(until)) => {
                let amount = takes.of_draw(tried, draw, food);
                dated.extend(amount.map(|amount| (Some(until), Why::UsesUp { of: draw.of, amount, until, cooked })));
            }
            (Ware::Recipe(_), until) if draw.by == [MadeAt::Meal(place)] && draw.on == meal.at_time.date() => {
                let amount = draw.amount.clone();
                dated.push(match until {
                    Some(until) => (Some(until), Why::UsesUp { of: draw.of, amount, until, cooked }),
                    None => (None, Why::FromPlace { of: draw.of, amount, place: lot.place }),
                });
            }
            _ => {}
        }
    }
    dated.sort_by_key(|(until, _)| (until.is_none(), *until));
    dated.into_iter().map(|(_, why)| why).collect()
}

/// Which share of each demand a meal eats: all of its own lines, and its part of what is cooked for it.
struct Takes(Vec<Number>);

fn takes(kitchen: &Kitchen, tried: &Tried, place: usize) -> Takes {
    let cooked: Vec<(&Making, Number)> = eaten_of(tried, place).map(|making| (making, eaten_share(making, place))).collect();
    let share = |demand: &Demand| {
        if demand.by == MadeAt::Meal(place) {
            return Number::ONE;
        }
        let is_of =
            |making: &Making| making.at == demand.by && kitchen.recipes[making.recipe].ingredients.iter().any(|line| line.at == demand.at);
        cooked.iter().find(|(making, _)| is_of(making)).map_or(Number::ZERO, |(_, share)| share.clone())
    };
    Takes(tried.demanded.demand.iter().map(share).collect())
}

impl Takes {
    /// What the meal gets of a draw that may serve others, too: so much of it as it has in what the draw is taken for.
    fn of_draw(&self, tried: &Tried, draw: &Draw, food: FoodId) -> Option<Quantity> {
        let demands = tried.demanded.demand.iter().zip(&self.0);
        let served = demands.filter(|(demand, _)| demand.food == food && demand.on == draw.on && draw.by.contains(&demand.by));
        let (mut own, mut all) = (Number::ZERO, Number::ZERO);
        for (demand, share) in served.filter(|(demand, _)| !demand.own_words) {
            own += demand.amount.exact() * share;
            all += demand.amount.exact();
        }
        let amount = own.is_positive().then(|| draw.amount.exact() * &(own / all))?;
        Some(Quantity::of(&draw.amount.dimension(), amount))
    }
}

/// The meal's part of all that a making makes.
fn eaten_share(making: &Making, place: usize) -> Number {
    let own = making.uses.iter().filter(|one| one.by == User::Meal(place));
    own.map(|one| one.amount.exact()).sum::<Number>() / making.makes.exact()
}

fn food_of(line: &Ingredient) -> Option<FoodId> {
    match line.ware() {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    }
}

/// Makings of sessions that the meal eats of.
fn eaten_of(tried: &Tried, place: usize) -> impl Iterator<Item = &Making> {
    let eats = move |making: &&Making| making.uses.iter().any(|one| one.by == User::Meal(place));
    tried.makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_))).filter(eats)
}

/// Which share of what was cooked once the meal eats.
fn parts(tried: &Tried, place: usize) -> Vec<Why> {
    let mut reasons = Vec::new();
    for making in eaten_of(tried, place) {
        let meals = meals_of(making);
        let straight = making.uses.iter().any(|one| one.by == User::Meal(place) && one.kept == Kept::Straight);
        if let Some(nth) = meals.iter().position(|by| *by == User::Meal(place)).filter(|_| meals.len() > 1) {
            reasons.push(Why::PartOf { recipe: making.recipe, nth, of: meals.len(), share: share(making), made_on: making.on });
        } else if tried.makings.makings.iter().any(|other| other.recipe == making.recipe && other.on < making.on) {
            reasons.push(Why::CookedAnew { recipe: making.recipe, made_on: making.on });
        } else if straight {
            reasons.push(Why::FromThePot { recipe: making.recipe });
        }
    }
    reasons
}

/// The meals that eat of a making, each once, in order of time.
fn meals_of(making: &Making) -> Vec<User> {
    let mut meals: Vec<User> = making.uses.iter().map(|one| one.by).filter(|by| matches!(by, User::Meal(_))).collect();
    meals.dedup();
    meals
}

fn share(making: &Making) -> Share {
    let meals = meals_of(making);
    let eaten = |by: &User| making.uses.iter().filter(|one| one.by == *by).map(|one| one.amount.base()).sum::<f64>();
    let amounts: Vec<f64> = meals.iter().map(eaten).collect();
    let meals_alone = making.uses.iter().all(|one| matches!(one.by, User::Meal(_)));
    let spare = making.spare.as_ref().map_or(0.0, |spare| spare.amount.base());
    let even = amounts.iter().all(|amount| (amount - amounts[0]).abs() <= 1e-6 * amounts[0] && spare < *amount);
    match (meals_alone, even) {
        (true, true) => Share::Even,
        (true, false) if making.spare.is_none() => Share::All,
        _ => Share::Part,
    }
}

/// Foods of the meal's own lines that are bought once for it and another meal.
fn shared_packs(tried: &Tried, place: usize) -> Vec<Why> {
    let meal = &tried.week.meals[place];
    let mut reasons = Vec::new();
    for food in meal.each.iter().chain(&meal.shared).filter_map(food_of) {
        let bought = tried.needs.needs.iter().any(|need| need.food == food && need.uses.iter().any(|one| one.amount > 0));
        let elsewhere = tried
            .week
            .meals
            .iter()
            .enumerate()
            .find(|(other, meal)| *other != place && meal.each.iter().chain(&meal.shared).any(|line| line.ware() == Ware::Food(food)));
        if let Some((at, other)) = elsewhere.filter(|_| bought) {
            reasons.push(Why::SharesPack { food, with: other.label.clone(), first: at > place });
        }
    }
    reasons
}

fn nothing_of_before(tried: &Tried, place: usize) -> Option<Why> {
    let before = &tried.week.meals[place.checked_sub(1)?];
    let wares = |meal: &crate::kitchen::Meal| meal.each.iter().chain(&meal.shared).map(Ingredient::ware).collect::<Vec<_>>();
    let (here, there) = (wares(&tried.week.meals[place]), wares(before));
    let shares = recipes(&here).any(|recipe| recipes(&there).any(|other| other == recipe));
    (!shares).then(|| Why::NothingOf { before: before.label.clone() })
}
