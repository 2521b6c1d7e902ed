//! Energy, protein, fibre and cost of each meal for one eater, from the lines of its recipes.
//!
//! Nutrients are per 100 g edible portion: what is eaten of a line is its weight as purchased × `edible`. A price is what the food costs on
//! this week's list, by the share of the packs that goes in; of what the list does not buy, the cheapest unit price of its packs. What is
//! rounded up to whole batches or packs is nobody's helping and does not count. Where one food lacks a figure, the sum is not known.

use std::collections::{BTreeMap, BTreeSet};

use super::Paid;
use super::list::{MealNote, PerEater};
use crate::foods::{FoodId, Item, as_purchased};
use crate::kitchen::{Ingredient, Kitchen, Pack, PackKind, RecipeId, Wanted, Week};
use crate::measure::{Dimension, Money, Quantity, tidy};
use crate::plan::{in_makes, meal_name, served_lines};

/// Every meal of the week, in order of time; `paid` is of all its trips, the past ones too.
pub fn meals(kitchen: &Kitchen, week: &Week, paid: &[Paid]) -> Vec<MealNote> {
    let mut costing = Costing { kitchen, bought: bought(paid), packs: packs_by_food(kitchen), recipes: BTreeMap::new() };
    let mut order: Vec<_> = week.meals.iter().collect();
    order.sort_by_key(|meal| meal.at_time);
    let note = |meal: &crate::kitchen::Meal| {
        let mut sum = Figures::default();
        for (line, times) in served_lines(meal) {
            sum.add(&costing.line(line), times / meal.eaters);
        }
        let known = |figure: Figure, value: f64| (!sum.lacks(figure)).then(|| tidy(value));
        let cost = known(Figure::Price, sum.minor).map(|minor| Money((minor + 0.5).floor() as i64).decimal(&kitchen.household.currency));
        MealNote {
            on: meal.at_time.date(),
            at: meal.at_time.strftime("%H:%M").to_string(),
            name: meal_name(meal),
            per_eater: PerEater {
                kcal: known(Figure::Energy, sum.kcal),
                protein_g: known(Figure::Protein, sum.protein_g),
                fibre_g: known(Figure::Fibre, sum.fibre_g),
                cost,
            },
            missing: sum.missing(kitchen),
        }
    };
    order.into_iter().map(note).collect()
}

/// What can be missing of a food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Figure {
    /// The weight of what a line says: without it nothing else can be reckoned but perhaps the price.
    Weight,
    Energy,
    Protein,
    Fibre,
    Price,
}

impl Figure {
    fn word(self) -> &'static str {
        match self {
            Figure::Weight => "weight",
            Figure::Energy => "energy",
            Figure::Protein => "protein",
            Figure::Fibre => "fibre",
            Figure::Price => "price",
        }
    }
}

/// A sum, and what is not in it.
#[derive(Debug, Clone, Default)]
struct Figures {
    kcal: f64,
    protein_g: f64,
    fibre_g: f64,
    /// Minor units of money.
    minor: f64,
    lacking: BTreeSet<(FoodId, Figure)>,
}

impl Figures {
    fn add(&mut self, other: &Figures, times: f64) {
        self.kcal += other.kcal * times;
        self.protein_g += other.protein_g * times;
        self.fibre_g += other.fibre_g * times;
        self.minor += other.minor * times;
        self.lacking.extend(&other.lacking);
    }

    fn lacks(&self, figure: Figure) -> bool {
        self.lacking.iter().any(|(_, lacking)| *lacking == figure || (*lacking == Figure::Weight && figure != Figure::Price))
    }

    /// "vegetable stock: energy, protein, fibre", by name.
    fn missing(&self, kitchen: &Kitchen) -> Vec<String> {
        let mut by_food: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (food, figure) in &self.lacking {
            by_food.entry(&kitchen.foods[*food].name).or_default().push(figure.word());
        }
        by_food.into_iter().map(|(food, figures)| format!("{food}: {}", figures.join(", "))).collect()
    }
}

/// What all of a food cost this week, in minor units, and how much that bought, in base units.
struct Bought<'k> {
    dimension: &'k Dimension,
    minor: f64,
    amount: f64,
}

struct Costing<'k> {
    kitchen: &'k Kitchen,
    bought: BTreeMap<FoodId, Bought<'k>>,
    packs: BTreeMap<FoodId, Vec<&'k Pack>>,
    /// Of one unit of `makes`.
    recipes: BTreeMap<RecipeId, Figures>,
}

impl Costing<'_> {
    fn line(&mut self, line: &Ingredient) -> Figures {
        match &line.wanted {
            Wanted::Food { food, item: Some(item) } => self.food(*food, item),
            // "To taste" is no amount.
            Wanted::Food { item: None, .. } => Figures::default(),
            Wanted::Recipe { recipe, most, .. } => {
                let mut figures = Figures::default();
                if let Some(amount) = in_makes(&self.kitchen.recipes[*recipe], most) {
                    figures.add(&self.recipe(*recipe), amount);
                }
                figures
            }
        }
    }

    fn recipe(&mut self, id: RecipeId) -> Figures {
        if let Some(known) = self.recipes.get(&id) {
            return known.clone();
        }
        let recipe = &self.kitchen.recipes[id];
        let mut one = Figures::default();
        for line in &recipe.ingredients {
            one.add(&self.line(line), 1.0 / recipe.makes.base());
        }
        self.recipes.insert(id, one.clone());
        one
    }

    fn food(&self, id: FoodId, item: &Item) -> Figures {
        let (kitchen, food) = (self.kitchen, &self.kitchen.foods[id]);
        let mut figures = Figures::default();
        match as_purchased(food, item, &Dimension::Mass, kitchen.rules.spoons) {
            Ok(bought) => {
                let hundreds = bought.base() * food.edible.as_ref().map_or(1.0, |edible| edible.value) / 100.0;
                let known = food.nutrients.as_ref().map(|fact| fact.value).unwrap_or_default();
                for (figure, per_hundred, sum) in [
                    (Figure::Energy, known.kcal, &mut figures.kcal),
                    (Figure::Protein, known.protein_g, &mut figures.protein_g),
                    (Figure::Fibre, known.fibre_g, &mut figures.fibre_g),
                ] {
                    match per_hundred {
                        Some(per_hundred) => *sum += per_hundred * hundreds,
                        None => _ = figures.lacking.insert((id, figure)),
                    }
                }
            }
            Err(_) => _ = figures.lacking.insert((id, Figure::Weight)),
        }
        if !kitchen.rules.always.contains(&id) && !kitchen.rules.ask.contains(&id) {
            match self.price(id, item) {
                Some(minor) => figures.minor = minor,
                None => _ = figures.lacking.insert((id, Figure::Price)),
            }
        }
        figures
    }

    /// Minor units, not rounded.
    fn price(&self, id: FoodId, item: &Item) -> Option<f64> {
        let (food, spoons) = (&self.kitchen.foods[id], self.kitchen.rules.spoons);
        let amount = |dimension: &Dimension| as_purchased(food, item, dimension, spoons).ok().map(|amount| amount.base());
        if let Some(bought) = self.bought.get(&id)
            && let Some(amount) = amount(bought.dimension)
        {
            return Some(amount * bought.minor / bought.amount);
        }
        let prices = self.packs.get(&id).into_iter().flatten().filter_map(|pack| {
            let (minor, of) = unit_price(pack)?;
            Some(amount(&of.dimension())? * minor / of.base())
        });
        prices.min_by(f64::total_cmp)
    }
}

/// All trips together, each food in the dimension of its first trip.
fn bought(paid: &[Paid]) -> BTreeMap<FoodId, Bought<'_>> {
    let mut all: BTreeMap<FoodId, Bought> = BTreeMap::new();
    for one in paid.iter().filter(|one| one.bought > 0.0) {
        let there = all.entry(one.food).or_insert(Bought { dimension: &one.dimension, minor: 0.0, amount: 0.0 });
        if *there.dimension == one.dimension {
            there.minor += one.cost.0 as f64;
            there.amount += one.bought;
        }
    }
    all
}

fn packs_by_food(kitchen: &Kitchen) -> BTreeMap<FoodId, Vec<&Pack>> {
    let mut packs: BTreeMap<FoodId, Vec<&Pack>> = BTreeMap::new();
    for pack in &kitchen.packs {
        packs.entry(pack.food).or_default().push(pack);
    }
    packs
}

/// Minor units, and what they buy. An offer is a matter of how many are bought, and is left aside.
fn unit_price(pack: &Pack) -> Option<(f64, Quantity)> {
    match &pack.kind {
        PackKind::Sized { size, price, .. } => price.map(|price| (price.0 as f64, size.clone())),
        PackKind::Loose { price, .. } => price.as_ref().map(|price| (price.minor_e4 as f64 / 1e4, price.per.clone())),
    }
}
