//! From makings and meals to dated demand: what is needed of each food on which day, as purchased.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::making::{Demand, MadeAt, Makings, Stated};
use super::pieces::take_whole;
use super::servings::served_lines;
use super::stating::Stating;
use super::uses::meal_name;
use crate::foods::{Food, FoodId, Foods, Item, State, as_purchased, own_dimension};
use crate::kitchen::asked::Asked;
use crate::kitchen::{Ingredient, Kitchen, Recipe, RecipeId, Rules, Wanted, Warning, Week};
use crate::measure::{Dimension, Number, Quantity, Unit};

/// The demand of a week.
#[derive(Debug, Clone, Default)]
pub struct Demanded {
    /// In date order, then in the order of files and lines.
    pub demand: Vec<Demand>,
    /// The dimension of each food that is demanded or is a staple.
    pub stated_in: BTreeMap<FoodId, Dimension>,
    /// Foods of `rules.ask` that the week uses, in order of their names.
    pub ask: Vec<FoodId>,
    pub warnings: Vec<Warning>,
}

/// A line of a food, scaled, on its day.
struct Scaled<'k> {
    /// What it is used in: counts makings, then meals.
    used_in: usize,
    food: FoodId,
    item: Option<Item>,
    line: &'k Ingredient,
    on: Date,
    by: MadeAt,
    dish: Option<RecipeId>,
    what_for: String,
}

/// What the makings and the meals need. Nothing is guessed and nothing is dropped: a line whose amount lacks a fact stands in
/// its own words, with a warning that names the key that would mend it.
pub fn demand(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Demanded {
    demand_in(kitchen, week, makings, stated_in)
}

/// As [`demand`], for people with other shops: pieces where all lines of a food count them, millilitres of what is poured, else as
/// `demand` states it without any pack.
pub fn demand_by_lines(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Demanded {
    demand_in(kitchen, week, makings, |kitchen, lines| {
        let mut stated = stated_in(kitchen, lines);
        for (food, dimension) in &mut stated {
            let items: Vec<&Item> = lines.iter().filter(|line| line.food == *food).filter_map(|line| line.item.as_ref()).collect();
            if let Some(own) = by_lines(&kitchen.foods, &kitchen.rules, *food, &items) {
                *dimension = own;
            }
        }
        stated
    })
}

fn demand_in(
    kitchen: &Kitchen,
    week: &Week,
    makings: &Makings,
    stated_in: impl Fn(&Kitchen, &[Scaled]) -> BTreeMap<FoodId, Dimension>,
) -> Demanded {
    let mut lines = scaled_lines(&kitchen.foods, &kitchen.recipes, week, makings);
    let mut ask: Vec<FoodId> = Vec::new();
    lines.retain(|line| {
        let asked = kitchen.rules.ask.contains(&line.food);
        if asked {
            ask.push(line.food);
        }
        !asked && !kitchen.rules.always.contains(&line.food)
    });
    ask.sort_by_key(|food| &kitchen.foods[*food].name);
    ask.dedup();
    lines.sort_by(|a, b| (a.on, &a.line.at).cmp(&(b.on, &b.line.at)));

    let stated_in = stated_in(kitchen, &lines);
    let mut demanded = Demanded { stated_in, ask, ..Demanded::default() };
    for line in lines {
        let (demand, warning) = state(&kitchen.foods, &kitchen.rules, &demanded.stated_in[&line.food], line);
        demanded.demand.push(demand);
        demanded.warnings.extend(warning);
    }
    demanded.warnings.sort();
    demanded.warnings.dedup();
    demanded
}

fn scaled_lines<'k>(foods: &'k Foods, recipes: &'k [Recipe], week: &'k Week, makings: &Makings) -> Vec<Scaled<'k>> {
    let mut lines: Vec<Scaled> = Vec::new();
    for (used_in, making) in makings.makings.iter().enumerate() {
        let recipe = &recipes[making.recipe];
        for line in &recipe.ingredients {
            let used = (used_in, making.on, making.at);
            let scaled = scaled(line, &making.times(line.ware()), used, &recipe.name);
            lines.extend(scaled.map(|line| Scaled { dish: Some(making.recipe), ..line }));
        }
    }
    for (index, meal) in week.meals.iter().enumerate() {
        for (line, times) in served_lines(meal) {
            let used = (makings.makings.len() + index, meal.at_time.date(), MadeAt::Meal(index));
            lines.extend(scaled(line, &times, used, &meal_name(meal)));
        }
    }
    for one in lines.chunk_by_mut(|a, b| a.used_in == b.used_in) {
        take_whole(foods, one.iter_mut().filter_map(|line| Some((line.food, line.item.as_mut()?))));
    }
    lines
}

fn scaled<'k>(line: &'k Ingredient, times: &Number, used: (usize, Date, MadeAt), what_for: &str) -> Option<Scaled<'k>> {
    let Wanted::Food { food, item } = &line.wanted else { return None };
    if times.is_zero() {
        return None;
    }
    let item = item.as_ref().map(|item| item.scaled(times));
    let (used_in, on, by) = used;
    Some(Scaled { used_in, food: *food, item, line, on, by, dish: None, what_for: what_for.to_owned() })
}

fn stated_in(kitchen: &Kitchen, lines: &[Scaled]) -> BTreeMap<FoodId, Dimension> {
    let stating = Stating::new(kitchen);
    let mut items: BTreeMap<FoodId, (Vec<&Item>, Vec<&Quantity>)> = BTreeMap::new();
    for line in lines {
        items.entry(line.food).or_default().0.extend(&line.item);
    }
    for staple in &kitchen.staples {
        items.entry(staple.food).or_default().1.push(&staple.par);
    }
    items.into_iter().map(|(food, (items, pars))| (food, stating.of(kitchen, food, &items, &pars))).collect()
}

/// What the lines of a food say of its measure, where it can be told so of all of them.
fn by_lines(foods: &Foods, rules: &Rules, food: FoodId, items: &[&Item]) -> Option<Dimension> {
    let (facts, spoons) = (&foods[food], rules.spoons);
    let told = |to: &Dimension| !items.is_empty() && items.iter().all(|item| as_purchased(facts, item, to, spoons).is_ok());
    let are_counted = items.iter().all(|item| item.amount.unit == Unit::Piece && item.plus.is_empty());
    if are_counted && told(&Dimension::Count) {
        return Some(Dimension::Count);
    }
    (facts.is_liquid() && told(&Dimension::Volume)).then_some(Dimension::Volume)
}

fn state(foods: &Foods, rules: &Rules, dimension: &Dimension, line: Scaled) -> (Demand, Option<Warning>) {
    let facts = &foods[line.food];
    let spoons = rules.spoons;
    let mut demand = Demand {
        food: line.food,
        on: line.on,
        amount: Quantity::of(dimension, 0),
        to_taste: line.item.is_none(),
        stated: Stated::Plain,
        asked: line.item.as_ref().and_then(|item| Asked::of(item, spoons)),
        tin: line.item.as_ref().and_then(|item| tin_of(facts, item)),
        what_for: line.what_for,
        dish: line.dish,
        line: line.line.text.clone(),
        at: line.line.at.clone(),
        by: line.by,
        own_words: false,
        optional: line.line.optional,
        instead: line.line.instead.clone(),
    };
    let Some(item) = line.item else { return (demand, None) };
    demand.stated = how_stated(&item);
    let target = match dimension {
        Dimension::Portion | Dimension::Word(_) => &Dimension::Mass,
        plain => plain,
    };
    let missing = match as_purchased(facts, &item, target, spoons) {
        Ok(amount) => {
            demand.amount = amount;
            return (demand, None);
        }
        Err(missing) => missing,
    };
    let own = own_dimension(facts, &item, spoons);
    let alone = own.as_ref().is_some_and(|own| own.dimension() == *dimension);
    demand.amount = own.unwrap_or_else(|| in_own_word(&item, line.line));
    demand.own_words = !alone;
    let warning = Warning::MissingFact {
        at: demand.at.clone(),
        line: demand.line.clone(),
        food: facts.name.clone(),
        what: missing.what,
        key: missing.key,
    };
    (demand, Some(warning))
}

/// `1 cup diced onion` is a number of "cup diced", which adds up with its like alone. A line with a "plus" has no one word: it is
/// a number of itself.
fn in_own_word(item: &Item, line: &Ingredient) -> Quantity {
    let unit = item.amount.unit.singular();
    let word = match &item.state {
        _ if item.amount.unit == Unit::Piece && item.plus.is_empty() => return Quantity::pieces(&item.amount.high),
        _ if !item.plus.is_empty() => {
            let Wanted::Food { item: Some(once), .. } = &line.wanted else { return Quantity::words(1, line.text.clone()) };
            return Quantity::words(&item.amount.high / &once.amount.high, line.text.clone());
        }
        State::AsPurchased => unit.to_owned(),
        State::Prepared(form) => format!("{unit} {form}"),
        State::Cooked => format!("{unit} cooked"),
        State::Drained => format!("{unit} drained"),
    };
    Quantity::words(&item.amount.high, word.trim())
}

/// The size of one of the tins that are counted: the line's own, else the food's.
pub fn tin_of(food: &Food, item: &Item) -> Option<Quantity> {
    match item.amount.unit {
        Unit::Word(word) if word.is_container() && item.state == State::AsPurchased => {
            let weighs = || food.weight_of(word.singular()).map(|fact| Quantity::grams(fact.value));
            let holds = || food.volumes.get(word.singular()).map(|fact| Quantity::millilitres(fact.value));
            item.size.clone().or_else(weighs).or_else(holds)
        }
        _ => None,
    }
}

fn how_stated(item: &Item) -> Stated {
    match (&item.state, &item.size) {
        (State::Drained, _) => Stated::Drained,
        (_, Some(size)) => Stated::Tin { size: size.clone() },
        _ => Stated::Plain,
    }
}
