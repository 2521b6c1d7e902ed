//! What a week costs at least, whatever is put into the meals that nobody has filled yet: the real stages, run for the meals that are
//! filled, and below what the others can change.
//!
//! More meals ask for no less of any food, so what must be bought for some meals must be bought for more of them. Of each food one of two
//! floors is taken. *Bought*: the packs for what is needed now, at their price where no left-over keeps, else at the least unit price.
//! *By use*: everything that is asked for at the least unit price, less all that the shelf holds; then each further meal adds what it
//! uses. Of a recipe that leaves something over, further meals may eat that first; of one that is cooked anew, no less than whole batches
//! are made. What of the shelf goes off counts where no further meal can use it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::alike::{alike, shared};
use super::bound::{Reckoner, noise, up};
use super::guess::Guess;
use super::rules::cooked;
use super::table::Table;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, RecipeId, Ware};
use crate::measure::{Number, Quantity};
use crate::plan::in_makes;
use crate::reckon::Tried;
use crate::shelf::worth;

mod facts;
mod used;

pub use self::facts::FoodFacts;
use self::facts::{SIDES, facts};
pub use self::used::Used;
use self::used::{later, made, scaled, used};

/// What one option asks for, by side: foods of its own lines, and recipes, each without those that go into it.
#[derive(Debug, Clone, Default)]
struct Asks {
    direct: [f64; 2],
    of_recipes: Vec<(RecipeId, [f64; 2])>,
}

pub struct Floor<'t, 's, 'k> {
    table: &'s Table<'t, 'k>,
    foods: BTreeMap<FoodId, FoodFacts>,
    /// By gap and option.
    asks: Vec<Arc<Vec<Asks>>>,
    /// By gap, the most that it and later ones can use of each food.
    later: Vec<BTreeMap<FoodId, f64>>,
    /// By gap, whether ways of it are not held.
    cut: Vec<bool>,
    /// How much more than eaten is made, at least, of a recipe that is cooked for open meals alone.
    made: BTreeMap<RecipeId, f64>,
    /// What one unit of a recipe asks for, by side, and the least amount that a meal takes.
    of_one: BTreeMap<RecipeId, [f64; 2]>,
    amounts: BTreeMap<RecipeId, f64>,
    /// By gap and option.
    uses: Vec<Arc<Vec<Used>>>,
    alike: Vec<usize>,
    noise: f64,
}

/// The floor of the weeks that begin with some meals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Least {
    /// Minor units; `None` where none of those weeks is allowed.
    pub net: Option<i64>,
    /// What the list costs at least, in minor units.
    pub cost: i64,
}

/// Nothing that begins so is allowed.
const NONE: Least = Least { net: None, cost: i64::MAX };

impl<'t, 's, 'k> Floor<'t, 's, 'k> {
    pub fn of(table: &'s Table<'t, 'k>, options: &[Vec<Option<u32>>]) -> Floor<'t, 's, 'k> {
        let kitchen = table.kitchen();
        let reckoner = Reckoner { kitchen };
        let alike = alike(table, options);
        let of_gap = |gap: usize| options[gap].iter().map(|way| used(table, &reckoner, table.gaps[gap].meal, *way)).collect();
        let uses: Vec<Arc<Vec<Used>>> = shared(&alike, of_gap);
        let mut foods = facts(table, &reckoner);
        let cut: Vec<bool> = table.gaps.iter().map(|gap| gap.forms.iter().any(|form| table.ways.cut[*form])).collect();
        let later = later(kitchen, &reckoner, (&uses, &alike), &cut);
        later[0].iter().for_each(|(food, minor)| foods.entry(*food).or_default().most = *minor);
        let slack = 1.0 - kitchen.rules.short_by;
        let weigh = |minor: &BTreeMap<FoodId, f64>| weighed(&foods, minor, slack);
        let asks = |used: &Used| Asks {
            direct: weigh(&used.direct),
            of_recipes: used.recipes.iter().map(|(recipe, amount)| (*recipe, weigh(&scaled(&reckoner.of_one(*recipe), *amount)))).collect(),
        };
        let asks = shared(&alike, |gap| uses[gap].iter().map(asks).collect());
        let amounts = least_amounts(&uses);
        let of_one = amounts.keys().map(|recipe| (*recipe, weigh(&reckoner.of_one(*recipe)))).collect();
        let (made, noise) = (made(table, &uses), noise(table));
        Floor { table, foods, asks, later, cut, made, of_one, amounts, uses, alike, noise }
    }

    /// What the meals cost about, thousands of times quicker.
    pub fn guess(&self, options: &[Vec<Option<u32>>]) -> Guess {
        let spare = self.table.trials.run(&[]).map(|tried| self.spare(&tried)).unwrap_or_default();
        Guess::of(self.table, options, (&self.uses, &self.alike), &self.foods, &spare)
    }

    /// Of all weeks whose first meals take these options.
    pub fn of_first(&self, chosen: &[Option<u32>]) -> Least {
        let mut week = chosen.to_vec();
        week.resize(self.table.gaps.len(), None);
        let Ok(tried) = self.table.trials.run(&self.table.filled(&week)) else { return NONE };
        if cooked(&tried).len() > self.table.wishes.recipes_at_most as usize {
            return NONE;
        }
        let spare = self.spare(&tried);
        let bought = self.bought(&tried);
        // What is left over serves for nothing: either every meal, or so much of it as there is.
        let little = |recipe: &RecipeId, amount: f64| self.amounts.get(recipe).is_some_and(|one| amount < *one);
        let free = |keep: &dyn Fn(&RecipeId, f64) -> bool| {
            spare.iter().filter(|(recipe, amount)| keep(recipe, **amount)).map(|(recipe, _)| *recipe).collect::<BTreeSet<RecipeId>>()
        };
        let frees = [free(&|_, _| true), free(&|_, _| false), free(&|recipe, amount| !little(recipe, amount))];
        let at_side = |side: usize| {
            let foods: f64 = bought.iter().map(|food| food[side]).sum();
            let rest = |free: &BTreeSet<RecipeId>| {
                let adds = (chosen.len()..self.table.gaps.len()).map(|gap| self.adds(gap, side, &spare, free)).sum::<f64>();
                let had = |(recipe, amount): (&RecipeId, &f64)| self.of_one.get(recipe).map_or(0.0, |one| one[side] * amount);
                adds - spare.iter().filter(|(recipe, _)| !free.contains(recipe)).map(had).sum::<f64>()
            };
            foods + frees.iter().map(rest).fold(f64::NEG_INFINITY, f64::max)
        };
        // What is left and keeps is paid, too.
        let cost = (0..SIDES.len()).map(at_side).fold(f64::NEG_INFINITY, f64::max) - self.noise;
        let net = cost + self.goes_off(&tried, chosen.len());
        Least { net: Some(up(net)), cost: up(cost) }
    }

    /// What a meal that is still open adds at least.
    fn adds(&self, gap: usize, side: usize, spare: &BTreeMap<RecipeId, f64>, free: &BTreeSet<RecipeId>) -> f64 {
        if self.cut[gap] {
            return 0.0;
        }
        let of_recipe = |(recipe, asks): &(RecipeId, [f64; 2])| match (free.contains(recipe), spare.contains_key(recipe)) {
            (true, _) => 0.0,
            (false, true) => asks[side],
            (false, false) => asks[side] * self.made.get(recipe).copied().unwrap_or(1.0),
        };
        let add = |asks: &Asks| asks.direct[side] + asks.of_recipes.iter().map(of_recipe).sum::<f64>();
        self.asks[gap].iter().map(add).min_by(f64::total_cmp).unwrap_or(0.0)
    }

    /// By food, what it costs at least, on either side.
    fn bought(&self, tried: &Tried) -> Vec<[f64; 2]> {
        let reckoner = Reckoner { kitchen: self.table.kitchen() };
        let mut demand: BTreeMap<FoodId, f64> = BTreeMap::new();
        let mut need: BTreeMap<FoodId, f64> = BTreeMap::new();
        for (one, unmet) in tried.demanded.demand.iter().zip(&tried.netted.unmet).filter(|(one, _)| !one.own_words) {
            let amount = |exact: &Number| self.minor(&reckoner, one.food, &Quantity::of(&one.amount.dimension(), exact.clone()));
            *demand.entry(one.food).or_default() += amount(one.amount.exact());
            if *unmet > 0 {
                *need.entry(one.food).or_default() += amount(unmet);
            }
        }
        let rules = &self.table.kitchen().rules;
        let short_by = rules.short_by;
        demand.retain(|food, _| !(rules.always.contains(food) || rules.ask.contains(food)));
        let of_food = |(food, demand): (&FoodId, &f64)| {
            let none = FoodFacts::default();
            let facts = self.foods.get(food).unwrap_or(&none);
            let short = if short_by > 0.0 { short_by * (demand + facts.most) } else { 0.0 };
            let must = need.get(food).map_or(0.0, |need| need * facts.sized) - short;
            let bought = facts.covered(must.max(0.0));
            let by_use = demand * (1.0 - short_by) * facts.sized - facts.on_shelf;
            SIDES.map(|side| if facts.by_use(side) { by_use } else { bought })
        };
        demand.iter().map(of_food).collect()
    }

    fn minor(&self, reckoner: &Reckoner, food: FoodId, amount: &Quantity) -> f64 {
        match self.foods.get(&food).and_then(|facts| facts.sold.as_ref()) {
            Some(sold) if sold.dimension == amount.dimension() => amount.base() * sold.unit,
            _ => reckoner.least_price_of(food, amount),
        }
    }

    /// How much further meals may find of recipes, at most: left over of batches, or cooked on the shelf.
    fn spare(&self, tried: &Tried) -> BTreeMap<RecipeId, f64> {
        let kitchen = self.table.kitchen();
        let mut spare: BTreeMap<RecipeId, f64> = BTreeMap::new();
        for making in &tried.makings.makings {
            let recipe = &kitchen.recipes[making.recipe];
            // Less than half a portion is given to those who eat of it, until somebody else wants it.
            let half = in_makes(recipe, &Quantity::portions(1)).map_or(0.0, |portion| portion.to_f64() / 2.0);
            let left = making.spare.as_ref().and_then(|spare| in_makes(recipe, &spare.amount)).map_or(half, |left| left.to_f64());
            if making.spare.is_some() || recipe.batches != BatchCut::Any {
                *spare.entry(making.recipe).or_default() += left;
            }
        }
        for lot in &kitchen.lots {
            if let Ware::Recipe(recipe) = lot.of {
                let amount = in_makes(&kitchen.recipes[recipe], &lot.amount).map_or(f64::INFINITY, |amount| amount.to_f64());
                *spare.entry(recipe).or_default() += amount;
            }
        }
        spare
    }

    /// What goes off, less all that further meals could use of it.
    fn goes_off(&self, tried: &Tried, filled: usize) -> f64 {
        let trials = self.table.trials;
        let reckoner = Reckoner { kitchen: self.table.kitchen() };
        // By food: what is lost, and how much of it is saved at most by what is used, for one at the least unit price.
        let mut lost: BTreeMap<FoodId, (f64, f64)> = BTreeMap::new();
        for lot in trials.goes_off(tried) {
            let (Ware::Food(food), Some(rate)) = (lot.of, trials.least_price(lot)) else { continue };
            let (all, most) = lost.entry(food).or_default();
            *all += worth(&lot.amount, rate).0 as f64;
            let at_least = reckoner.least_price_of(food, &lot.amount);
            *most = most.max(if at_least > 0.0 { rate * lot.amount.base() / at_least } else { f64::INFINITY });
        }
        let left = |(food, (all, most)): (&FoodId, &(f64, f64))| match self.later[filled].get(food) {
            Some(used) => (all - used / self.foods.get(food).map_or(1.0, |facts| facts.sized) * most).max(0.0),
            None => *all,
        };
        lost.iter().map(left).sum()
    }
}

/// What so much of each food costs at least by use, on either side.
fn weighed(foods: &BTreeMap<FoodId, FoodFacts>, minor: &BTreeMap<FoodId, f64>, slack: f64) -> [f64; 2] {
    SIDES.map(|side| {
        let counts =
            |(food, minor): (&FoodId, &f64)| foods.get(food).map_or(0.0, |facts| minor * facts.sized * f64::from(facts.by_use(side)));
        minor.iter().map(counts).sum::<f64>() * slack
    })
}

/// Of each recipe the least amount that a meal takes.
fn least_amounts(uses: &[Arc<Vec<Used>>]) -> BTreeMap<RecipeId, f64> {
    let mut amounts: BTreeMap<RecipeId, f64> = BTreeMap::new();
    for (recipe, amount) in uses.iter().flat_map(|uses| uses.iter()).flat_map(|used| &used.recipes) {
        let least = amounts.entry(*recipe).or_insert(f64::MAX);
        *least = least.min(*amount);
    }
    amounts
}
