//! A proposal for a week, a clash of wishes, and how many meals the components at hand allow.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::shape::{AtTime, OnDate, minute};
use crate::compose::say as words;
use crate::compose::{Clash, Count, FilledMeal, Proposal};
use crate::kitchen::{Ingredient, Kitchen, Week};
use crate::words::clock;

#[derive(JsonSchema, Serialize)]
pub struct Proposed<'a> {
    week: &'a str,
    meals: Vec<Meal<'a>>,
    net_cost: String,
    cost: String,
    /// The net cost is the cost, less what keeps, with what goes off and what is lost.
    keeps: String,
    goes_off: String,
    lost: String,
    spoils: String,
    recipes: Vec<&'a str>,
    sessions: Vec<Session>,
    proven: bool,
    bound: String,
    open: Vec<Open<'a>>,
    days: Vec<Day>,
    left: Vec<Left<'a>>,
    /// Foods of which a figure that a floor asks for is not known: it counts nothing.
    not_known: Vec<&'a str>,
    /// Foods to buy that nobody is known to sell at a price: they are in no sum.
    no_price: Vec<&'a str>,
}

#[derive(JsonSchema, Serialize)]
struct Meal<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    /// `18:30`.
    at: String,
    meal: &'a str,
    pattern: Option<&'a str>,
    name: &'a str,
    each: Vec<&'a str>,
    shared: Vec<&'a str>,
    why: Vec<String>,
}

#[derive(JsonSchema, Serialize)]
struct Session {
    #[schemars(with = "AtTime")]
    start: String,
    /// To its finish, as the guide plans it: without what is served straight from the pot.
    minutes: i64,
    #[serde(skip_serializing_if = "Option::is_none")]
    served: Option<Served>,
}

/// What is served straight from the pot.
#[derive(JsonSchema, Serialize)]
struct Served {
    #[schemars(with = "Vec<AtTime>")]
    at: Vec<String>,
    hands_minutes: i64,
    /// When it begins, in a session that makes nothing else.
    #[schemars(with = "Option<AtTime>")]
    from: Option<String>,
}

#[derive(JsonSchema, Serialize)]
struct Open<'a> {
    #[schemars(with = "OnDate")]
    on: Date,
    at: String,
    meal: &'a str,
    why: String,
}

#[derive(JsonSchema, Serialize)]
struct Day {
    #[schemars(with = "OnDate")]
    on: Date,
    #[serde(flatten)]
    figures: std::collections::BTreeMap<&'static str, Floor>,
}

#[derive(JsonSchema, Serialize)]
struct Floor {
    got: f64,
    wanted: f64,
}

#[derive(JsonSchema, Serialize)]
struct Left<'a> {
    food: &'a str,
    amount: &'a crate::measure::Quantity,
    value: String,
    #[schemars(with = "Option<OnDate>")]
    until: Option<Date>,
}

pub fn compose<'a>(proposal: &'a Proposal, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    let names = kitchen.names();
    let texts = |lines: &'a [Ingredient]| lines.iter().map(|line| line.text.as_str()).collect();
    let meal = |meal: &'a FilledMeal| Meal {
        on: meal.at.date(),
        at: clock(meal.at),
        meal: &meal.label,
        pattern: meal.pattern.map(|pattern| kitchen.together.patterns[pattern].name.as_str()),
        name: &meal.name,
        each: texts(&meal.each),
        shared: texts(&meal.shared),
        why: meal.why.iter().map(|why| words::why(why, kitchen, kitchen.print.units)).collect(),
    };
    let day = |day: &crate::compose::DaySum| Day {
        on: day.on,
        figures: day
            .figures
            .iter()
            .map(|(nutrient, got, wanted)| (words::nutrient_word(*nutrient), Floor { got: crate::measure::tidy(*got), wanted: *wanted }))
            .collect(),
    };
    Proposed {
        week: &proposal.week,
        meals: proposal.meals.iter().map(meal).collect(),
        net_cost: names.money(proposal.net_cost),
        cost: names.money(proposal.cost),
        keeps: names.money(proposal.keeps),
        goes_off: names.money(proposal.goes_off),
        lost: names.money(proposal.lost),
        spoils: names.money(proposal.spoils),
        recipes: proposal.recipes.iter().map(|recipe| names.recipe_file(*recipe)).collect(),
        sessions: proposal.sessions.iter().map(session).collect(),
        proven: proposal.proven,
        bound: names.money(proposal.bound),
        open: proposal
            .open
            .iter()
            .map(|open| Open { on: open.at.date(), at: clock(open.at), meal: &open.label, why: words::stays(&open.why, kitchen) })
            .collect(),
        days: proposal.days.iter().map(day).collect(),
        left: proposal
            .left
            .iter()
            .map(|left| Left { food: names.food(left.food), amount: &left.amount, value: names.money(left.value), until: left.until })
            .collect(),
        not_known: names.foods(&proposal.not_known),
        no_price: names.foods(&proposal.no_price),
    }
}

fn session(hours: &crate::prep::Hours) -> Session {
    let served = |served: &crate::prep::ServedWork| Served {
        at: served.at.iter().map(|at| minute(*at)).collect(),
        hands_minutes: served.hands,
        from: served.from.map(minute),
    };
    Session { start: minute(hours.start), minutes: hours.minutes, served: hours.served.as_ref().map(served) }
}

#[derive(JsonSchema, Serialize)]
pub struct Clashed<'a> {
    week: &'a str,
    clash: Vec<OneWish>,
    proven: bool,
}

#[derive(JsonSchema, Serialize)]
struct OneWish {
    key: String,
    /// Whose it is, where several may have such a key: a pattern, a meal, an eater, a place, a nutrient.
    #[serde(skip_serializing_if = "Option::is_none")]
    of: Option<String>,
    now: String,
    would_do: String,
    /// What would have to be loosened, too: its key, and whose it is.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    besides: Vec<String>,
    /// What would be served to whom it must not be: its food, its dish, the meals and their patterns.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    served: Vec<String>,
}

pub fn clash<'a>(clash: &'a Clash, kitchen: &Kitchen) -> impl Serialize + 'a {
    let row = |said: words::Said| {
        let words::Said { key, of, now, would_do, besides, served } = said;
        OneWish { key, of, now, would_do, besides, served }
    };
    let wishes = clash.wishes.iter().map(|one| row(words::clashing(one, kitchen, &clash.week)));
    Clashed { week: &clash.week.name, clash: wishes.collect(), proven: clash.proven }
}

#[derive(JsonSchema, Serialize)]
pub struct Nothing<'a> {
    week: &'a str,
    meals: Vec<Meal<'a>>,
    open: Vec<Open<'a>>,
    clash: Vec<OneWish>,
    proven: bool,
}

/// Nothing else can be proposed: what was asked for clashes with the rest.
pub fn nothing_composed<'a>(week: &'a Week, refilled: Option<&str>, proven: bool) -> impl Serialize + 'a {
    let (key, now, would_do) = match refilled {
        Some(_) => ("--refill", "another filling", "something else that fits, or other meals beside it"),
        None => words::TWO_MEALS_OTHERWISE,
    };
    let of = refilled.map(str::to_owned);
    let (key, now, would_do) = (key.to_owned(), now.to_owned(), would_do.to_owned());
    let clash = vec![OneWish { key, of, now, would_do, besides: Vec::new(), served: Vec::new() }];
    Nothing { week: &week.name, meals: Vec::new(), open: Vec::new(), clash, proven }
}

#[derive(JsonSchema, Serialize)]
pub struct Counted<'a> {
    week: &'a str,
    count: usize,
    patterns: Vec<OfPattern<'a>>,
    at_hand: Vec<&'a str>,
    complete: bool,
}

#[derive(JsonSchema, Serialize)]
struct OfPattern<'a> {
    pattern: &'a str,
    count: usize,
}

pub fn compose_count<'a>(count: &'a Count, kitchen: &'a Kitchen) -> impl Serialize + 'a {
    let names = kitchen.names();
    let of_pattern = |(pattern, count): &(crate::kitchen::PatternId, usize)| OfPattern {
        pattern: &kitchen.together.patterns[*pattern].name,
        count: *count,
    };
    let named = |ware: &crate::kitchen::Ware| match ware {
        crate::kitchen::Ware::Food(food) => names.food(*food),
        crate::kitchen::Ware::Recipe(recipe) => names.recipe_file(*recipe),
    };
    Counted {
        week: &count.week,
        count: count.meals,
        patterns: count.patterns.iter().map(of_pattern).collect(),
        at_hand: count.at_hand.iter().map(named).collect(),
        complete: count.complete,
    }
}
