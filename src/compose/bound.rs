//! The net cost that no week can undercut: what its meals use, at the least price that any pack asks for it.
//!
//! What is used of a food costs at least its least unit price, however packs are chosen; what lies on the shelf may serve for nothing. A batch is never smaller than what is eaten of it. Said per food these are straight lines, so
//! that each meal can be taken by itself: the sum of its cheapest ways is a bound.
//!
//! Which of a food's lines is taken changes how near the bound comes, never whether it holds.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::alike::{alike, shared};
use super::scarce;
use super::table::Table;
use super::ways::Gap;
use crate::foods::{Food, FoodId, Item, State, as_purchased, convert};
use crate::kitchen::{Ingredient, Kitchen, Meal, PackKind, Plate, Wanted, Ware};
use crate::measure::{Dimension, Quantity};
use crate::plan::{in_makes, servings};

/// Ten-thousandths of a minor unit in which a loose price is kept.
const E4: f64 = 10_000.0;

/// Money used, by food: minor units at the least unit price.
type Uses = BTreeMap<FoodId, f64>;

/// A bound, and what each way adds to it.
pub struct Bound {
    /// Of what hangs on no choice.
    base: f64,
    /// By gap, what each of its options adds, in the options' order.
    pub adds: Vec<Arc<Vec<f64>>>,
    /// By gap, the least of them.
    least: Vec<f64>,
    /// By gap, the least of every filling, of those too that are not held among the ways; `None` where all are held.
    least_of_any: Vec<Option<f64>>,
}

impl Bound {
    /// `options` are the ways that each gap may take.
    pub fn of(table: &Table, options: &[Vec<Option<u32>>]) -> Bound {
        let kitchen = table.kitchen();
        let reckoner = Reckoner { kitchen };
        let alike = alike(table, options);
        let uses: Vec<Arc<Vec<Uses>>> = shared(&alike, |gap| reckoner.of_gap(table, table.gaps[gap].meal, &options[gap]));
        let mut written = Uses::new();
        for (meal, _) in table.written.iter().filter(|(meal, _)| table.trials.is_to_come(*meal)) {
            add_all(&mut written, &reckoner.of_meal(&table.trials.whole.meals[*meal]), 1.0);
        }
        let shelf = shelf(table, &reckoner);
        let shares = Shares { written: &written, uses: &uses, shelf: &shelf };
        let lines = shares.lines();
        let base = shares.base(&lines, kitchen.rules.short_by) - noise(table);
        let slope = |food: &FoodId| lines.get(food).map_or(1.0, |line| line.slope()) * (1.0 - kitchen.rules.short_by);
        let add = |uses: &Uses| uses.iter().map(|(food, minor)| minor * slope(food)).sum::<f64>();
        let adds: Vec<Arc<Vec<f64>>> = shared(&alike, |gap| uses[gap].iter().map(add).collect());
        let least: Vec<f64> = adds.iter().map(|adds| lowest(adds.iter().copied()).unwrap_or(0.0)).collect();
        let of_any = |((gap, options), least): ((&Gap, &Vec<Option<u32>>), &f64)| {
            // A meal that is held takes what it has.
            let is_held = options.len() == 1 && gap.ways.len() > 1;
            let cut = gap.forms.iter().filter(|form| !is_held && table.ways.cut[**form]);
            let of_cut = lowest(cut.map(|form| reckoner.of_any_filling(table, gap.meal, *form, &add)));
            of_cut.map(|of_cut| of_cut.min(*least))
        };
        let least_of_any = table.gaps.iter().zip(options).zip(&least).map(of_any).collect();
        Bound { base, adds, least, least_of_any }
    }

    /// The bound of all weeks, in minor units.
    pub fn of_all(&self, table: &Table, options: &[Vec<Option<u32>>]) -> i64 {
        up(self.base + scarce::least(table, options, &self.adds, &self.least_of_any))
    }

    /// The bound of the weeks whose first meals take these options.
    pub fn of_first(&self, taken: &[usize]) -> i64 {
        let fixed: f64 = taken.iter().zip(&self.adds).map(|(option, adds)| adds[*option]).sum();
        up(self.base + fixed + self.least[taken.len()..].iter().sum::<f64>())
    }
}

fn lowest(figures: impl Iterator<Item = f64>) -> Option<f64> {
    figures.min_by(f64::total_cmp)
}

/// Money is whole minor units; what sums lose to rounding is forgiven.
pub(super) fn up(minor: f64) -> i64 {
    ((minor - 1e-6).ceil() as i64).max(0)
}

/// By how much rounding may put a list below its exact cost: half a minor unit a loose line, half for what keeps, half a lot that goes off.
pub(super) fn noise(table: &Table) -> f64 {
    let kitchen = table.kitchen();
    let loose = kitchen.packs.iter().filter(|pack| matches!(pack.kind, PackKind::Loose { .. })).map(|pack| pack.food);
    let loose: BTreeSet<FoodId> = loose.collect();
    0.5 * (loose.len() * table.trials.whole.trips.len().max(1) + kitchen.lots.len() + 1) as f64
}

/// A straight line below what a food costs, by how much of it is used.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Line {
    /// The shelf serves it for nothing.
    Free,
    /// It is bought.
    Bought,
}

impl Line {
    fn slope(self) -> f64 {
        f64::from(self == Line::Bought)
    }

    /// What the line says where nothing is used, of a food of which the shelf holds so much.
    fn start(self, on_shelf: f64) -> f64 {
        if self == Line::Bought { -on_shelf } else { 0.0 }
    }
}

struct Shares<'s> {
    written: &'s Uses,
    uses: &'s [Arc<Vec<Uses>>],
    shelf: &'s BTreeMap<FoodId, f64>,
}

impl Shares<'_> {
    /// The line of each food that is on the shelf: the one that is highest where the cheapest meals use about as much as they do.
    fn lines(&self) -> BTreeMap<FoodId, Line> {
        let about = |food: &FoodId| {
            let of_gap = |options: &Arc<Vec<Uses>>| {
                let each = options.iter().map(|uses| uses.get(food).copied().unwrap_or(0.0));
                each.min_by(f64::total_cmp).unwrap_or(0.0)
            };
            self.written.get(food).copied().unwrap_or(0.0) + self.uses.iter().map(of_gap).sum::<f64>()
        };
        let best = |(food, shelf): (&FoodId, &f64)| {
            let used = about(food);
            let height = |line: &Line| line.start(*shelf) + line.slope() * used;
            let lines = [Line::Free, Line::Bought];
            (*food, lines.into_iter().max_by(|one, other| height(one).total_cmp(&height(other))).unwrap_or(Line::Free))
        };
        self.shelf.iter().map(best).collect()
    }

    fn base(&self, lines: &BTreeMap<FoodId, Line>, short_by: f64) -> f64 {
        let starts: f64 = self.shelf.iter().map(|(food, shelf)| lines[food].start(*shelf)).sum();
        let written = |(food, minor): (&FoodId, &f64)| minor * lines.get(food).map_or(1.0, |line| line.slope());
        starts + self.written.iter().map(written).sum::<f64>() * (1.0 - short_by)
    }
}

fn add_all(sum: &mut Uses, more: &Uses, times: f64) {
    more.iter().for_each(|(food, minor)| *sum.entry(*food).or_default() += minor * times);
}

/// What the shelf holds of each food, at the least unit price; of what is cooked, what went into it.
fn shelf(table: &Table, reckoner: &Reckoner) -> BTreeMap<FoodId, f64> {
    let kitchen = table.kitchen();
    let mut shelf: BTreeMap<FoodId, f64> = BTreeMap::new();
    for lot in &kitchen.lots {
        match lot.of {
            Ware::Food(food) => *shelf.entry(food).or_default() += reckoner.least_price_of(food, &lot.amount),
            Ware::Recipe(recipe) => {
                let Some(amount) = in_makes(&kitchen.recipes[recipe], &lot.amount) else { continue };
                let mut uses = Uses::new();
                reckoner.add_recipe(recipe, amount.to_f64(), &[], &mut uses);
                uses.into_iter().for_each(|(food, minor)| *shelf.entry(food).or_default() += minor);
            }
        }
    }
    shelf
}

/// Foods of which some line states the size of its tins, or a drained weight.
pub(super) fn sized_lines(table: &Table) -> BTreeSet<FoodId> {
    let kitchen = table.kitchen();
    let of_recipes = kitchen.recipes.iter().flat_map(|recipe| &recipe.ingredients);
    let of_forms = table.ways.forms.iter().flat_map(|form| form.fixed().chain(form.places().flat_map(|place| &place.fillings)));
    let of_meals = table.trials.whole.meals.iter().flat_map(|meal| {
        let own = meal.diners.iter().flat_map(|diner| {
            let swapped = diner.swapped.iter().map(|swapped| &swapped.line);
            diner.instead.iter().flatten().chain(swapped)
        });
        meal.each.iter().chain(&meal.shared).chain(own)
    });
    let is_sized = |item: &Item| item.size.is_some() || item.state == State::Drained;
    let sized = of_recipes.chain(of_forms).chain(of_meals).filter_map(|line| match &line.wanted {
        Wanted::Food { food, item: Some(item) } if is_sized(item) => Some(*food),
        _ => None,
    });
    sized.collect()
}

pub(super) struct Reckoner<'k> {
    pub kitchen: &'k Kitchen,
}

impl Reckoner<'_> {
    fn of_gap(&self, table: &Table, meal: usize, options: &[Option<u32>]) -> Vec<Uses> {
        let whole = &table.trials.whole.meals[meal];
        let mut by_line: BTreeMap<(bool, String, Ware), Uses> = BTreeMap::new();
        let mut of_way = |way: u32| {
            let (each, shared) = table.ways.lines(way);
            let mut uses = Uses::new();
            for (is_shared, line) in each.iter().map(|line| (false, line)).chain(shared.iter().map(|line| (true, line))) {
                let key = (is_shared, line.text.clone(), line.ware());
                let of_line = by_line.entry(key).or_insert_with(|| {
                    let (each, shared) = if is_shared { (vec![], vec![line.clone()]) } else { (vec![line.clone()], vec![]) };
                    self.of_meal(&whole.holding(self.kitchen, each, shared))
                });
                add_all(&mut uses, of_line, 1.0);
            }
            uses
        };
        options.iter().map(|way| way.map(&mut of_way).unwrap_or_default()).collect()
    }

    /// The least that any filling of a form adds: each place takes what adds least, whatever takes the others.
    fn of_any_filling(&self, table: &Table, meal: usize, form: usize, add: &impl Fn(&Uses) -> f64) -> f64 {
        let whole = &table.trials.whole.meals[meal];
        let form = &table.ways.forms[form];
        let plates = form.each.iter().map(|plate| (false, plate)).chain(form.shared.iter().map(|plate| (true, plate)));
        let of_line = |is_shared: bool, line: &Ingredient| {
            let (each, shared) = if is_shared { (vec![], vec![line.clone()]) } else { (vec![line.clone()], vec![]) };
            add(&self.of_meal(&whole.holding(self.kitchen, each, shared)))
        };
        let of_plate = |(is_shared, plate): (bool, &Plate)| match plate {
            Plate::As(line) => of_line(is_shared, line),
            Plate::Any(place) => lowest(place.fillings.iter().map(|line| of_line(is_shared, line))).unwrap_or(0.0),
        };
        plates.map(of_plate).sum()
    }

    fn of_meal(&self, meal: &Meal) -> Uses {
        let mut uses = Uses::new();
        let without: Vec<Ware> = meal.diners.iter().flat_map(|diner| diner.without.iter().copied()).collect();
        for serving in servings(meal) {
            self.add_line(serving.line, serving.times.to_f64(), &without, &mut uses);
        }
        uses
    }

    /// What somebody gets without counts nothing: not everybody does.
    pub fn add_line(&self, line: &Ingredient, times: f64, without: &[Ware], uses: &mut Uses) {
        if without.contains(&line.ware()) {
            return;
        }
        match &line.wanted {
            Wanted::Food { food, item: Some(item) } => {
                if let Some(minor) = self.least_price(*food, item) {
                    *uses.entry(*food).or_default() += minor * times;
                }
            }
            Wanted::Food { item: None, .. } => {}
            Wanted::Recipe { recipe, most, .. } => {
                if let Some(amount) = in_makes(&self.kitchen.recipes[*recipe], most) {
                    self.add_recipe(*recipe, amount.to_f64() * times, without, uses);
                }
            }
        }
    }

    /// One unit of what a recipe makes, without the recipes that go into it.
    pub fn of_one(&self, recipe: crate::kitchen::RecipeId) -> Uses {
        let recipe = &self.kitchen.recipes[recipe];
        let mut uses = Uses::new();
        for line in recipe.ingredients.iter().filter(|line| matches!(line.wanted, Wanted::Food { .. })) {
            self.add_line(line, 1.0 / recipe.makes.base(), &[], &mut uses);
        }
        uses
    }

    /// So much of what a recipe makes.
    fn add_recipe(&self, recipe: crate::kitchen::RecipeId, amount: f64, without: &[Ware], uses: &mut Uses) {
        let recipe = &self.kitchen.recipes[recipe];
        for line in &recipe.ingredients {
            self.add_line(line, amount / recipe.makes.base(), without, uses);
        }
    }

    /// Minor units for one line at the least unit price of any pack; `None` of what is never bought or has no price.
    pub fn least_price(&self, food: FoodId, item: &Item) -> Option<f64> {
        let rules = &self.kitchen.rules;
        if rules.always.contains(&food) || rules.ask.contains(&food) {
            return None;
        }
        let known = &self.kitchen.foods[food];
        // A pack may count as the size that a line states, a tenth larger than it is.
        let sized = if item.size.is_some() || item.state == State::Drained { 0.9 } else { 1.0 };
        self.least(food, sized, |dimension| as_purchased(known, item, dimension, rules.spoons).ok().map(|amount| amount.base()))
    }

    pub fn least_price_of(&self, food: FoodId, amount: &Quantity) -> f64 {
        let known = &self.kitchen.foods[food];
        let in_dimension = |dimension: &Dimension| {
            if amount.dimension() == *dimension {
                Some(amount.base())
            } else {
                convert(known, amount, dimension).ok().map(|same| same.base())
            }
        };
        self.least(food, 1.0, in_dimension).unwrap_or(0.0)
    }

    fn least(&self, food: FoodId, sized: f64, amount: impl Fn(&Dimension) -> Option<f64>) -> Option<f64> {
        let known = &self.kitchen.foods[food];
        let packs = self.kitchen.packs.iter().filter(|pack| pack.food == food);
        let mut least: Option<f64> = None;
        let mut comparable = true;
        for pack in packs {
            let (minor, size, dimension) = match &pack.kind {
                PackKind::Sized { size, price, offer, drained, .. } => {
                    let each = [price.map(|price| price.0 as f64), offer.map(|offer| offer.pay.0 as f64 / f64::from(offer.buy))];
                    let Some(minor) = each.into_iter().flatten().min_by(f64::total_cmp) else { continue };
                    (minor * sized, size.base().max(as_if_whole(known, *drained)), size.dimension())
                }
                PackKind::Loose { price: Some(price), .. } => (price.minor_e4 as f64 / E4, price.per.base(), price.per.dimension()),
                PackKind::Loose { price: None, .. } => continue,
            };
            match amount(&dimension).filter(|_| size > 0.0) {
                Some(amount) => least = Some(least.map_or(amount * minor / size, |least: f64| least.min(amount * minor / size))),
                None => comparable = false,
            }
        }
        least.filter(|_| comparable)
    }
}

/// The purchased weight for which a pack's drained weight would stand.
fn as_if_whole(food: &Food, drained: Option<f64>) -> f64 {
    let share = food.drained.as_ref().map(|fact| fact.value).filter(|share| *share > 0.0);
    drained.zip(share).map_or(0.0, |(drained, share)| drained / share)
}
