//! What a week costs about: each dish in whole batches of the sessions that would cook it, each food in the packs that would hold it. No
//! bound, and no price that anybody pays: a guide to where it pays to look, thousands of times quicker than the stages of the list.
//!
//! Not seen here: trips apart from each other, what opened packs and several shops change, who gets something else.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use jiff::civil::Date;

use super::alike::shared;
use super::bound::Reckoner;
use super::floor::{FoodFacts, Used};
use super::table::Table;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, RecipeId, ShopId};
use crate::plan::ready_at;
use crate::shelf::{after_days, worth};

/// Amounts of foods, in minor units at the least unit price.
type Amounts = Vec<(usize, f64)>;

/// What one option asks for.
#[derive(Debug, Clone, Default)]
struct Asks {
    foods: Amounts,
    /// In the recipe's own unit.
    recipes: Vec<(usize, f64)>,
}

/// How a recipe is cooked.
#[derive(Debug, Clone, Default)]
struct Cooked {
    /// What one more step of its batches makes; 0 where any amount does.
    step: f64,
    of_one: Amounts,
    /// Left over, or on the shelf.
    had: f64,
    /// By session, the last day that its box reaches; spare that freezes serves later meals.
    reaches: Vec<Date>,
    freezes: bool,
}

/// How a food is bought.
#[derive(Debug, Clone, Default)]
struct Bought {
    facts: FoodFacts,
    /// What written meals ask for.
    base: f64,
    /// By way to go shopping: how much packs hold and what they cost, in the order of both, each dearer one holding more.
    packs: Vec<Vec<(f64, f64)>>,
    /// What of the shelf goes off unless it is used, in the food's amounts and in minor units.
    off: (f64, f64),
}

pub struct Guess {
    /// By gap and option.
    asks: Vec<Arc<Vec<Asks>>>,
    places: Vec<Arc<BTreeMap<Option<u32>, usize>>>,
    recipes: Vec<Cooked>,
    foods: Vec<Bought>,
    /// By gap, its day and the latest session that can serve it.
    gaps: Vec<(Date, Option<usize>)>,
    /// Ways to go shopping, everywhere or in one shop alone: what it costs to get there.
    fares: Vec<f64>,
}

/// A week as far as it is filled: what is needed of each food, and what is eaten of each recipe by gap.
struct Filled {
    foods: Vec<f64>,
    eaten: Vec<Vec<(usize, f64)>>,
}

impl Guess {
    pub fn of(
        table: &Table,
        options: &[Vec<Option<u32>>],
        (uses, alike): (&[Arc<Vec<Used>>], &[usize]),
        facts: &BTreeMap<FoodId, FoodFacts>,
        spare: &BTreeMap<RecipeId, f64>,
    ) -> Guess {
        let kitchen = table.kitchen();
        let reckoner = Reckoner { kitchen };
        let ids: Vec<FoodId> = facts.keys().copied().collect();
        let place = |food: &FoodId| ids.binary_search(food).ok();
        let amounts = |uses: &BTreeMap<FoodId, f64>| uses.iter().filter_map(|(food, minor)| Some((place(food)?, *minor))).collect();
        let asks = |used: &Used| Asks {
            foods: amounts(&used.direct),
            recipes: used.recipes.iter().map(|(recipe, amount)| (recipe.0, *amount)).collect(),
        };
        let sessions = table.trials.sessions();
        let cooked = |(index, recipe): (usize, &crate::kitchen::Recipe)| Cooked {
            step: match recipe.batches {
                BatchCut::Whole => recipe.makes.base(),
                BatchCut::Halves => recipe.makes.base() / 2.0,
                BatchCut::Any => 0.0,
            },
            of_one: amounts(&reckoner.of_one(RecipeId(index))),
            had: spare.get(&RecipeId(index)).map_or(0.0, |had| had.min(1e9)),
            reaches: sessions.iter().map(|session| after_days(session.start.date(), recipe.reach().0)).collect(),
            freezes: recipe.freezer.is_some(),
        };
        let gap = |gap: &super::ways::Gap| {
            let at = table.trials.whole.meals[gap.meal].at_time;
            let ready = |session: &usize| ready_at(&sessions[*session], kitchen.rules.ready_after) <= at;
            (at.date(), (0..sessions.len()).rev().find(ready))
        };
        let shops: Vec<Option<ShopId>> = std::iter::once(None).chain((0..kitchen.shops.len()).map(|shop| Some(ShopId(shop)))).collect();
        let trips = table.trials.whole.trips.len().max(1) as f64;
        let fare = |shop: &Option<ShopId>| match shop {
            Some(shop) => kitchen.shops[*shop].trip.0 as f64 * trips,
            None => kitchen.shops.iter().map(|shop| shop.trip.0 as f64 * trips).sum(),
        };
        let bought = |facts: &FoodFacts| Bought {
            facts: facts.clone(),
            packs: shops.iter().map(|shop| facts.packs_by_size(*shop)).collect(),
            ..Bought::default()
        };
        let mut foods: Vec<Bought> = facts.values().map(bought).collect();
        add_what_is_there(table, &reckoner, &place, &mut foods);
        Guess {
            asks: shared(alike, |gap| uses[gap].iter().map(asks).collect()),
            places: shared(alike, |gap| options[gap].iter().copied().zip(0..).collect()),
            recipes: kitchen.recipes.iter().enumerate().map(cooked).collect(),
            foods,
            gaps: table.gaps.iter().map(gap).collect(),
            fares: shops.iter().map(fare).collect(),
        }
    }

    /// What the meals cost about, in minor units.
    pub fn cost(&self, chosen: &[Option<u32>]) -> f64 {
        self.best_way(&self.filled(chosen, None)).1
    }

    /// The cheapest way to go shopping for it, and what that costs.
    fn best_way(&self, filled: &Filled) -> (usize, f64) {
        let cost = |way: usize| {
            let foods = (0..self.foods.len()).map(|food| self.food_cost(food, filled.foods[food], way));
            (way, self.fares[way] + foods.sum::<f64>())
        };
        (0..self.fares.len()).map(cost).min_by(|one, other| one.1.total_cmp(&other.1)).unwrap_or_default()
    }

    /// The options of one meal beside what the others eat, those that add least first; none with what is banned.
    pub fn ranked(&self, options: &[Option<u32>], chosen: &[Option<u32>], gap: usize, banned: &BTreeSet<RecipeId>) -> Vec<Option<u32>> {
        let filled = self.filled(chosen, Some(gap));
        let (way, _) = self.best_way(&filled);
        let before: Vec<f64> = (0..self.foods.len()).map(|food| self.food_cost(food, filled.foods[food], way)).collect();
        let mut of_recipes: BTreeMap<(usize, u64), Amounts> = BTreeMap::new();
        let mut ranked: Vec<(f64, usize)> = Vec::new();
        let mut more = vec![0.0; self.foods.len()];
        for place in 0..options.len() {
            if self.asks[gap][place].recipes.iter().any(|(recipe, _)| banned.contains(&RecipeId(*recipe))) {
                continue;
            }
            let asks = &self.asks[gap][place];
            let mut touched: Vec<usize> = Vec::new();
            let mut add = |amounts: &Amounts| {
                for (food, amount) in amounts {
                    more[*food] += amount;
                    touched.push(*food);
                }
            };
            add(&asks.foods);
            for (recipe, amount) in &asks.recipes {
                let known =
                    of_recipes.entry((*recipe, amount.to_bits())).or_insert_with(|| self.more_cooked(&filled, *recipe, gap, *amount));
                add(known);
            }
            touched.sort_unstable();
            touched.dedup();
            let mut adds = 0.0;
            for food in touched {
                adds += self.food_cost(food, filled.foods[food] + more[food], way) - before[food];
                more[food] = 0.0;
            }
            ranked.push((adds, place));
        }
        ranked.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        ranked.into_iter().map(|(_, place)| options[place]).collect()
    }

    /// The recipes that a week's open meals eat of.
    pub fn recipes(&self, chosen: &[Option<u32>]) -> Vec<RecipeId> {
        let asked = chosen.iter().enumerate().filter_map(|(gap, way)| Some((gap, self.places[gap].get(way)?)));
        let recipes = asked.flat_map(|(gap, place)| self.asks[gap][*place].recipes.iter().map(|(recipe, _)| RecipeId(*recipe)));
        recipes.collect::<BTreeSet<_>>().into_iter().collect()
    }

    fn filled(&self, chosen: &[Option<u32>], but: Option<usize>) -> Filled {
        let mut filled = Filled { foods: self.foods.iter().map(|food| food.base).collect(), eaten: vec![Vec::new(); self.recipes.len()] };
        for (gap, way) in chosen.iter().enumerate().filter(|(gap, way)| Some(*gap) != but && way.is_some()) {
            let Some(asks) = self.places[gap].get(way).map(|place| &self.asks[gap][*place]) else { continue };
            asks.foods.iter().for_each(|(food, amount)| filled.foods[*food] += amount);
            asks.recipes.iter().for_each(|(recipe, amount)| filled.eaten[*recipe].push((gap, *amount)));
        }
        for (recipe, eaten) in filled.eaten.iter().enumerate().filter(|(_, eaten)| !eaten.is_empty()) {
            let made = self.made(recipe, eaten);
            self.recipes[recipe].of_one.iter().for_each(|(food, one)| filled.foods[*food] += one * made);
        }
        filled
    }

    /// What a meal that eats of a recipe, too, makes necessary of each food.
    fn more_cooked(&self, filled: &Filled, recipe: usize, gap: usize, amount: f64) -> Amounts {
        let before = &filled.eaten[recipe];
        let mut eaten = before.clone();
        eaten.insert(before.partition_point(|(other, _)| *other < gap), (gap, amount));
        let more = self.made(recipe, &eaten) - self.made(recipe, before);
        self.recipes[recipe].of_one.iter().map(|(food, one)| (*food, one * more)).collect()
    }

    /// How much is cooked of a recipe for what these meals eat, in order of time: as the plan does, the latest session before the first of
    /// them, for all that its box reaches; then the next.
    fn made(&self, recipe: usize, eaten: &[(usize, f64)]) -> f64 {
        let recipe = &self.recipes[recipe];
        let whole = |amount: f64| if recipe.step > 0.0 { recipe.step * (amount / recipe.step - 1e-6).ceil().max(0.0) } else { amount };
        let all: f64 = eaten.iter().map(|(_, amount)| amount).sum();
        let mut had = recipe.had;
        if recipe.freezes || recipe.step == 0.0 || recipe.reaches.len() < 2 {
            return whole((all - had).max(0.0));
        }
        let mut made = 0.0;
        let mut reach: Option<Date> = None;
        let mut here = 0.0;
        for (gap, amount) in eaten {
            let left = (amount - had).max(0.0);
            had = (had - amount).max(0.0);
            let (day, session) = self.gaps[*gap];
            if reach.is_none_or(|reach| day > reach) {
                made += whole(here);
                here = 0.0;
                reach = session.map(|session| recipe.reaches[session]);
            }
            here += left;
        }
        made + whole(here)
    }

    fn food_cost(&self, food: usize, needed: f64, way: usize) -> f64 {
        let bought = &self.foods[food];
        let must = (needed - bought.facts.on_shelf).max(0.0);
        let (off, lost) = bought.off;
        let unused = if off > 0.0 { lost * (1.0 - needed / off).max(0.0) } else { 0.0 };
        bought.price(must, way) + unused
    }
}

impl Bought {
    /// What so much costs about, less what is left of the packs and keeps.
    fn price(&self, must: f64, way: usize) -> f64 {
        let packs = &self.packs[way];
        match packs.get(packs.partition_point(|(held, _)| *held < must - 1e-6)) {
            Some((held, price)) if self.facts.keeps && *held > 0.0 => must * price / held,
            Some((_, price)) => *price,
            None => must,
        }
    }
}

/// What written meals use, and what of the shelf goes off where nobody else uses it.
fn add_what_is_there(table: &Table, reckoner: &Reckoner, place: &impl Fn(&FoodId) -> Option<usize>, foods: &mut [Bought]) {
    let Ok(tried) = table.trials.run(&[]) else { return };
    for demand in tried.demanded.demand.iter().filter(|demand| !demand.own_words) {
        if let Some(place) = place(&demand.food) {
            foods[place].base += reckoner.least_price_of(demand.food, &demand.amount);
        }
    }
    for lot in table.trials.goes_off(&tried) {
        let crate::kitchen::Ware::Food(food) = lot.of else { continue };
        if let (Some(place), Some(rate)) = (place(&food), table.trials.least_price(lot)) {
            foods[place].off.0 += reckoner.least_price_of(food, &lot.amount);
            foods[place].off.1 += worth(&lot.amount, rate).0 as f64;
        }
    }
    // What written meals use of the shelf does not go off; what is told here is beside them.
    foods.iter_mut().filter(|food| food.off.0 > 0.0).for_each(|food| food.off.0 += food.base);
}
