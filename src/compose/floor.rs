//! What a week costs at least, whatever is put into the meals that nobody has filled yet: the real stages, run for the meals that are
//! filled, and below what the others can change.
//!
//! More meals ask for no less of any food, so what must be bought for some meals must be bought for more of them. Of each food one of two
//! floors is taken. *Bought*: the packs for what is needed now, at their price where no left-over keeps, else at the least unit price.
//! *By use*: everything that is asked for at the least unit price, less all that the shelf holds; then each further meal adds what it
//! uses. Of a recipe that leaves something over, further meals may eat that first; of one that is cooked anew, no less than whole batches
//! are made. What of the shelf goes off counts where no further meal can use it.

use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;

use super::bound::{Reckoner, noise, sized_lines, up};
use super::guess::Guess;
use super::rules::cooked;
use super::table::Table;
use crate::foods::FoodId;
use crate::kitchen::{BatchCut, Ingredient, Kitchen, PackKind, RecipeId, ShopId, Wanted, Ware};
use crate::measure::{Dimension, Number, Quantity};
use crate::pantry::last_day;
use crate::plan::{in_makes, servings};
use crate::reckon::Tried;
use crate::shelf::{after_days, worth};

/// What is left counts as kept where it is good for so many days after the week's last.
const A_WEEK: i64 = 7;

/// So many packs are weighed against each other; of more, the least unit price counts.
const MOST_PACKS: f64 = 24.0;

/// So many sums of packs are held of one food.
const MOST_SUMS: usize = 200;

/// Which foods are counted by use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// All that the shelf holds nothing of.
    Most,
    /// Of those, what keeps.
    Keeping,
}

const SIDES: [Side; 2] = [Side::Most, Side::Keeping];

#[derive(Debug, Clone, Default)]
pub(super) struct FoodFacts {
    pub(super) on_shelf: f64,
    /// What is left of it after the week is worth something.
    pub(super) keeps: bool,
    /// A pack may count as the size that a line states, a tenth larger than it is.
    sized: f64,
    /// The most that open meals can ask for, at the least unit price.
    most: f64,
    sold: Option<Sold>,
}

/// How a food is sold that is sold in packs of one dimension alone.
#[derive(Debug, Clone)]
struct Sold {
    dimension: Dimension,
    /// Sizes at the least unit price, and prices.
    packs: Vec<(f64, f64)>,
    /// Who sells each of them.
    shops: Vec<ShopId>,
    /// The least unit price: minor units for one unit of the dimension.
    unit: f64,
}

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
    asks: Vec<Vec<Asks>>,
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
    uses: Vec<Vec<Used>>,
    noise: f64,
}

/// The floor of the weeks that begin with some meals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Least {
    /// Minor units; `None` where none of those weeks is allowed.
    pub net: Option<i64>,
}

impl<'t, 's, 'k> Floor<'t, 's, 'k> {
    pub fn of(table: &'s Table<'t, 'k>, options: &[Vec<Option<u32>>]) -> Floor<'t, 's, 'k> {
        let kitchen = table.kitchen();
        let reckoner = Reckoner { kitchen };
        let uses: Vec<Vec<Used>> = table
            .gaps
            .iter()
            .zip(options)
            .map(|(gap, options)| options.iter().map(|way| used(table, &reckoner, gap.meal, *way)).collect())
            .collect();
        let mut foods = facts(table, &reckoner);
        let cut: Vec<bool> = table.gaps.iter().map(|gap| gap.forms.iter().any(|form| table.ways.cut[*form])).collect();
        let later = later(kitchen, &reckoner, &uses, &cut);
        later[0].iter().for_each(|(food, minor)| foods.entry(*food).or_default().most = *minor);
        let slack = 1.0 - kitchen.rules.short_by;
        let weigh = |minor: &BTreeMap<FoodId, f64>| {
            SIDES.map(|side| {
                let counts = |(food, minor): (&FoodId, &f64)| {
                    foods.get(food).map_or(0.0, |facts| minor * facts.sized * f64::from(facts.by_use(side)))
                };
                minor.iter().map(counts).sum::<f64>() * slack
            })
        };
        let asks = |used: &Used| Asks {
            direct: weigh(&used.direct),
            of_recipes: used.recipes.iter().map(|(recipe, amount)| (*recipe, weigh(&scaled(&reckoner.of_one(*recipe), *amount)))).collect(),
        };
        let asks = uses.iter().map(|options| options.iter().map(asks).collect()).collect();
        let mut amounts: BTreeMap<RecipeId, f64> = BTreeMap::new();
        for (recipe, amount) in uses.iter().flatten().flat_map(|used| &used.recipes) {
            let least = amounts.entry(*recipe).or_insert(f64::MAX);
            *least = least.min(*amount);
        }
        let of_one = amounts.keys().map(|recipe| (*recipe, weigh(&reckoner.of_one(*recipe)))).collect();
        let (made, noise) = (made(table, &uses), noise(table));
        Floor { table, foods, asks, later, cut, made, of_one, amounts, uses, noise }
    }

    /// What the meals cost about, thousands of times quicker.
    pub fn guess(&self, options: &[Vec<Option<u32>>]) -> Guess {
        let spare = self.table.trials.run(&[]).map(|tried| self.spare(&tried)).unwrap_or_default();
        Guess::of(self.table, options, &self.uses, &self.foods, &spare)
    }

    /// Of all weeks whose first meals take these options.
    pub fn of_first(&self, chosen: &[Option<u32>]) -> Least {
        let mut week = chosen.to_vec();
        week.resize(self.table.gaps.len(), None);
        let Ok(tried) = self.table.trials.run(&self.table.filled(&week)) else { return Least { net: None } };
        if cooked(&tried).len() > self.table.wishes.recipes_at_most as usize {
            return Least { net: None };
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
        let net = (0..SIDES.len()).map(at_side).fold(f64::NEG_INFINITY, f64::max) + self.goes_off(&tried, chosen.len()) - self.noise;
        Least { net: Some(up(net)) }
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

impl FoodFacts {
    fn by_use(&self, side: Side) -> bool {
        self.on_shelf <= 0.0 && (side == Side::Most || self.keeps)
    }

    /// How much packs hold and what they cost: of any number of packs up to [`MOST_PACKS`], those that nothing as cheap holds more than.
    /// Empty where packs cannot be compared.
    pub(super) fn packs_by_size(&self, of: Option<ShopId>) -> Vec<(f64, f64)> {
        let Some(Sold { packs: all, shops, .. }) = &self.sold else { return Vec::new() };
        let here = all.iter().zip(shops).filter(|(_, shop)| of.is_none_or(|of| of == **shop));
        let mut packs: Vec<(f64, f64)> = here.map(|(pack, _)| *pack).collect();
        // What a shop does not sell is bought all the same, elsewhere.
        if packs.is_empty() {
            packs.extend(all);
        }
        let mut front = vec![(0.0, 0.0)];
        for _ in 0..MOST_PACKS as usize {
            let more: Vec<(f64, f64)> =
                front.iter().flat_map(|(held, price)| packs.iter().map(move |(size, more)| (held + size, price + more))).collect();
            front.extend(more);
            front.sort_by(|one: &(f64, f64), other| other.0.total_cmp(&one.0).then(one.1.total_cmp(&other.1)));
            let mut least = f64::MAX;
            front.retain(|(_, price)| {
                let is_cheaper = *price < least - 1e-9;
                least = least.min(*price);
                is_cheaper
            });
            front.reverse();
            front.truncate(MOST_SUMS);
        }
        front
    }

    /// The least price of packs that hold so much, all in minor units at the least unit price.
    fn covered(&self, must: f64) -> f64 {
        let Some(Sold { packs, .. }) = self.sold.as_ref().filter(|_| !self.keeps && must > 1e-6) else { return must };
        let smallest = packs.iter().map(|(size, _)| *size).fold(f64::MAX, f64::min);
        if packs.is_empty() || must / smallest > MOST_PACKS {
            return must;
        }
        cover(packs, must)
    }
}

/// Packs that may be taken any number of times, until they hold what must be held.
fn cover(packs: &[(f64, f64)], must: f64) -> f64 {
    let mut known: Vec<(f64, f64)> = vec![(0.0, 0.0)];
    let mut best = f64::MAX;
    // Every sum of packs that is still too small, each at its least price: few, because the packs are.
    while let Some((held, price)) = known.pop() {
        for (size, more) in packs {
            let (held, price) = (held + size, price + more);
            if price >= best {
                continue;
            }
            if held >= must - 1e-6 {
                best = price;
            } else if known.len() < 4_000 {
                known.push((held, price));
            } else {
                return must;
            }
        }
    }
    best.min(f64::MAX)
}

/// What one option uses: foods of its own lines in minor units at the least unit price, and recipes in their own unit.
#[derive(Debug, Clone, Default)]
pub(super) struct Used {
    pub(super) direct: BTreeMap<FoodId, f64>,
    pub(super) recipes: BTreeMap<RecipeId, f64>,
    /// Of the recipes, those that a line of the meal itself names.
    named: BTreeMap<RecipeId, f64>,
    /// Foods of which more may be used than is told here.
    untold: BTreeSet<FoodId>,
}

impl Used {
    /// The most that it can ask for of each food: whole batches.
    fn most(&self, kitchen: &Kitchen, reckoner: &Reckoner) -> BTreeMap<FoodId, f64> {
        let mut most = self.direct.clone();
        for (recipe, amount) in &self.recipes {
            let whole = kitchen.recipes[*recipe].makes.base();
            let batches = (amount / whole).ceil() + 1.0;
            for (food, minor) in reckoner.of_one(*recipe) {
                *most.entry(food).or_default() += minor * batches * whole;
            }
        }
        most
    }
}

/// Every food that lies on the shelf or is sold.
fn any_food(kitchen: &Kitchen) -> impl Iterator<Item = FoodId> + '_ {
    let on_shelf = kitchen.lots.iter().filter_map(|lot| match lot.of {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    });
    on_shelf.chain(kitchen.packs.iter().map(|pack| pack.food))
}

/// By gap, the most that it and later ones can use of each food; of what cannot be told in money, without end.
fn later(kitchen: &Kitchen, reckoner: &Reckoner, uses: &[Vec<Used>], cut: &[bool]) -> Vec<BTreeMap<FoodId, f64>> {
    let mut later: Vec<BTreeMap<FoodId, f64>> = vec![BTreeMap::new(); uses.len() + 1];
    for (gap, options) in uses.iter().enumerate().rev() {
        // A way that is not held may use anything.
        let any = any_food(kitchen).filter(|_| cut[gap]).map(|food| (food, f64::INFINITY));
        let mut most: BTreeMap<FoodId, f64> = any.collect();
        for used in options {
            let untold = used.untold.iter().map(|food| (*food, f64::INFINITY));
            for (food, minor) in used.most(kitchen, reckoner).into_iter().chain(untold) {
                let there = most.entry(food).or_default();
                *there = there.max(minor);
            }
        }
        later[gap] = later[gap + 1].clone();
        most.into_iter().for_each(|(food, minor)| *later[gap].entry(food).or_default() += minor);
    }
    later
}

fn scaled(minor: &BTreeMap<FoodId, f64>, times: f64) -> BTreeMap<FoodId, f64> {
    minor.iter().map(|(food, minor)| (*food, minor * times)).collect()
}

fn used(table: &Table, reckoner: &Reckoner, meal: usize, way: Option<u32>) -> Used {
    let mut used = Used::default();
    let Some(way) = way else { return used };
    let kitchen = table.kitchen();
    let (each, shared) = table.ways.lines(way);
    let meal = table.trials.whole.meals[meal].holding(kitchen, each, shared);
    let without: Vec<Ware> = meal.diners.iter().flat_map(|diner| diner.without.iter().copied()).collect();
    // Where somebody gets something else, or without something, what the others get is all that is told.
    let is_whole = meal.diners.iter().all(|diner| diner.without.is_empty() && diner.swapped.is_empty());
    if !is_whole {
        used.untold.extend(any_food(kitchen));
    }
    // What an eater has instead is eaten however the meal is filled, and is counted with what is written.
    for serving in servings(&meal).into_iter().filter(|serving| !serving.own && !without.contains(&serving.line.ware())) {
        let times = serving.times.to_f64();
        match &serving.line.wanted {
            Wanted::Food { food, .. } => {
                reckoner.add_line(serving.line, times, &without, &mut used.direct);
                used.untold.extend((!is_told(reckoner, serving.line)).then_some(*food));
            }
            Wanted::Recipe { recipe, most, .. } => {
                let Some(amount) = in_makes(&kitchen.recipes[*recipe], most) else { continue };
                let amount = amount.to_f64() * times;
                *used.named.entry(*recipe).or_default() += amount;
                add_recipe(kitchen, *recipe, if is_whole { amount } else { 0.0 }, &mut used.recipes);
            }
        }
    }
    let lines = used.recipes.keys().flat_map(|recipe| &kitchen.recipes[*recipe].ingredients);
    used.untold.extend(lines.filter(|line| !is_told(reckoner, line)).filter_map(|line| match line.ware() {
        Ware::Food(food) => Some(food),
        Ware::Recipe(_) => None,
    }));
    used
}

/// Is as much of a food taken as its line says? Not of what is only taken whole, or to taste, or has no price that compares.
fn is_told(reckoner: &Reckoner, line: &Ingredient) -> bool {
    match &line.wanted {
        Wanted::Food { food, item: Some(item) } => {
            let whole = reckoner.kitchen.foods[*food].cut.as_ref().is_some_and(|cut| !cut.value);
            !whole && reckoner.least_price(*food, item).is_some()
        }
        Wanted::Food { item: None, .. } => false,
        Wanted::Recipe { .. } => true,
    }
}

fn add_recipe(kitchen: &Kitchen, recipe: RecipeId, amount: f64, recipes: &mut BTreeMap<RecipeId, f64>) {
    *recipes.entry(recipe).or_default() += amount;
    let whole = &kitchen.recipes[recipe];
    for line in &whole.ingredients {
        if let Wanted::Recipe { recipe, most, .. } = &line.wanted
            && let Some(part) = in_makes(&kitchen.recipes[*recipe], most)
        {
            add_recipe(kitchen, *recipe, part.to_f64() * amount / whole.makes.base(), recipes);
        }
    }
}

fn facts(table: &Table, reckoner: &Reckoner) -> BTreeMap<FoodId, FoodFacts> {
    let kitchen = table.kitchen();
    let tins = sized_lines(table);
    let whole = &table.trials.whole;
    let last = last_day(whole);
    let last_trip = whole.trips.iter().map(|trip| trip.on).max().unwrap_or(last);
    // A week that has begun may get a trip of its own on any day.
    let from = if table.trials.has_begun() { last } else { last_trip };
    let keeps_until = last.saturating_add(A_WEEK.days());
    let mut foods: BTreeMap<FoodId, FoodFacts> = BTreeMap::new();
    let sold: BTreeSet<FoodId> = kitchen.packs.iter().map(|pack| pack.food).collect();
    for food in sold {
        let known = &kitchen.foods[food];
        let keeps = [&known.keeps.cupboard, &known.keeps.fridge].into_iter().flatten().map(|fact| fact.value).max();
        let is_staple = kitchen.staples.iter().any(|staple| staple.food == food);
        let keeps = is_staple || keeps.is_none_or(|days| after_days(from, days) >= keeps_until);
        let sized = if tins.contains(&food) { 0.9 } else { 1.0 };
        foods.insert(food, FoodFacts { keeps, sized, sold: sold_in_packs(kitchen, food), ..FoodFacts::default() });
    }
    for lot in &kitchen.lots {
        if let Ware::Food(food) = lot.of {
            foods.entry(food).or_default().on_shelf += reckoner.least_price_of(food, &lot.amount).max(f64::MIN_POSITIVE);
        }
    }
    foods
}

/// `None` where it is sold in other ways as well.
fn sold_in_packs(kitchen: &Kitchen, food: FoodId) -> Option<Sold> {
    let (mut packs, mut shops) = (Vec::new(), Vec::new());
    let mut dimension = None;
    for pack in kitchen.packs.iter().filter(|pack| pack.food == food) {
        let PackKind::Sized { size, price, offer, drained: None, .. } = &pack.kind else { return None };
        if *dimension.get_or_insert_with(|| size.dimension()) != size.dimension() {
            return None;
        }
        packs.extend(price.map(|price| (size.base(), price.0 as f64)));
        packs.extend(offer.map(|offer| (size.base() * f64::from(offer.buy), offer.pay.0 as f64)));
        shops.resize(packs.len(), pack.shop);
    }
    let unit = packs.iter().filter(|(size, _)| *size > 0.0).map(|(size, price)| price / size).min_by(f64::total_cmp)?;
    packs.iter_mut().for_each(|(size, _)| *size *= unit);
    (unit > 0.0).then_some(Sold { dimension: dimension?, packs, shops, unit })
}

/// Recipes that nothing else takes and that meals ask for in one amount: the least that is made for one that is eaten.
fn made(table: &Table, uses: &[Vec<Used>]) -> BTreeMap<RecipeId, f64> {
    let kitchen = table.kitchen();
    let parts: BTreeSet<RecipeId> = kitchen
        .recipes
        .iter()
        .flat_map(|recipe| &recipe.ingredients)
        .filter_map(|line| match line.ware() {
            Ware::Recipe(recipe) => Some(recipe),
            Ware::Food(_) => None,
        })
        .collect();
    let mut amounts: BTreeMap<RecipeId, (BTreeSet<u64>, usize)> = BTreeMap::new();
    for options in uses {
        let mut here: BTreeMap<RecipeId, BTreeSet<u64>> = BTreeMap::new();
        for (recipe, amount) in options.iter().flat_map(|used| &used.named) {
            here.entry(*recipe).or_default().insert(amount.to_bits());
        }
        for (recipe, seen) in here {
            let (all, meals) = amounts.entry(recipe).or_default();
            all.extend(seen);
            *meals += 1;
        }
    }
    let least = |(recipe, (seen, meals)): (RecipeId, (BTreeSet<u64>, usize))| {
        let known = &kitchen.recipes[recipe];
        let step = match known.batches {
            BatchCut::Whole => known.makes.base(),
            BatchCut::Halves => known.makes.base() / 2.0,
            BatchCut::Any => return None,
        };
        let amount = f64::from_bits(*seen.first().filter(|_| seen.len() == 1 && !parts.contains(&recipe))?);
        let made = |times: usize| {
            let eaten = amount * times as f64;
            step * (eaten / step - 1e-6).ceil() / eaten
        };
        let least = (1..=meals).map(made).min_by(f64::total_cmp)?;
        (least.is_finite() && least > 1.0).then_some((recipe, least))
    };
    amounts.into_iter().filter_map(least).collect()
}
