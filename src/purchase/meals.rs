//! Energy, protein, fibre and cost of each meal for one eater, from the lines of its recipes.
//!
//! Nutrients are per 100 g edible portion: what is eaten of a line is its weight as purchased × `edible`. A price is that of the lots which
//! the meal takes from (`MealPrices`), else the one unit price of the food. What is rounded up to whole batches or packs is nobody's helping
//! and does not count. Where a food lacks a figure, the sum is of the others ("at least").
//!
//! A meal's cost is its share of what its lots cost, offers and all, before they are bought and cooked as after. Fares, left-overs and batches rounded up are left out. Foods in `always` and `ask` cost
//! nothing; their nutrients count where a line states an amount. `meals[].missing` names each food with the figures it
//! lacks.

use std::collections::{BTreeMap, BTreeSet};

use jiff::ToSpan;
use jiff::civil::Date;

use super::Paid;
use super::per_eater::{DayNote, Figure, Lacking, MealNote, PerEater, Portion};
use crate::foods::{FoodId, Foods, Item, Kind, as_purchased};
use crate::kitchen::{Diner, Ingredient, Kitchen, Made, RecipeId, Wanted, Ware, Week, Who};
use crate::measure::{Dimension, Quantity, tidy};
use crate::plan::{goes_into, in_makes, meal_name, servings};
use crate::shelf::{Prices, rounded};

/// What a unit of each thing costs that one meal takes, in minor units of money.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct MealPrices {
    /// For one base unit as purchased.
    pub foods: BTreeMap<FoodId, (Dimension, f64)>,
    /// For one of what it makes.
    pub recipes: BTreeMap<RecipeId, f64>,
}

/// Every meal of the week, in order of time; `paid` is of its open trips, `prices` what each meal pays, by its place in the week.
pub fn meals(kitchen: &Kitchen, week: &Week, paid: &[Paid], prices: &[MealPrices]) -> Vec<MealNote> {
    let listed = paid.iter().map(|paid| (paid.food, Quantity::of(&paid.dimension, paid.bought), paid.cost));
    let mut costing = Costing::at(kitchen, Prices::new(kitchen).with_list(listed));
    let mut order: Vec<_> = week.meals.iter().enumerate().collect();
    order.sort_by_key(|(_, meal)| meal.at_time);
    let note = |(place, meal): (usize, &crate::kitchen::Meal)| {
        costing.sit_down(prices.get(place));
        let mut sum = Figures::default();
        let mut plates = vec![Figures::default(); meal.diners.len()];
        for serving in servings(meal) {
            if serving.to.is_empty() {
                sum.add(&costing.line(serving.line), serving.times.to_f64() / meal.eaters);
            }
            for (place, times) in &serving.to {
                let figures = costing.line_without(serving.line, &meal.diners[*place].without);
                sum.add(&figures, times.to_f64() / meal.eaters);
                plates[*place].add(&figures, times.to_f64());
            }
        }
        let named = meal.diners.iter().zip(&plates).filter(|(diner, _)| diner.who != Who::Anybody);
        let eaters = named.map(|(diner, plate)| plate.portion(diner)).collect();
        MealNote {
            at: meal.at_time,
            word: meal.word.clone(),
            text: meal.text.clone(),
            name: meal_name(meal),
            per_eater: sum.per_eater(),
            eaters,
            missing: sum.missing(&kitchen.foods),
        }
    };
    order.into_iter().map(note).collect()
}

/// A portion of a recipe in figures: what is known of it, and what is not.
#[derive(Debug, Clone, PartialEq)]
pub struct PortionNote {
    pub per: PerEater,
    /// What keeps a figure from being known, in order of the foods' names.
    pub missing: Vec<Lacking>,
}

/// Energy, protein, fibre and the cheapest known cost of one portion of a recipe; `None` where it does not say what a portion weighs.
pub fn per_portion(kitchen: &Kitchen, id: RecipeId) -> Option<PortionNote> {
    let portion = in_makes(&kitchen.recipes[id], &Quantity::portions(1))?;
    Some(in_figures(kitchen, id, portion.to_f64()))
}

/// Of how much of a recipe its figures are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    Portion,
    Piece,
    /// 100 g or 100 ml.
    Hundred,
    Batch,
}

/// As [`per_portion`]; where a recipe does not say what a portion is, of a piece, of 100 g or 100 ml, by what it makes.
pub fn per_one(kitchen: &Kitchen, id: RecipeId) -> (Of, PortionNote) {
    match (per_portion(kitchen, id), &kitchen.recipes[id].makes) {
        (Some(note), _) => (Of::Portion, note),
        (None, Quantity::Count(_)) => (Of::Piece, in_figures(kitchen, id, 1.0)),
        (None, Quantity::Mass(_) | Quantity::Volume(_)) => (Of::Hundred, in_figures(kitchen, id, 100.0)),
        (None, _) => (Of::Batch, per_batch(kitchen, id)),
    }
}

/// The same of one batch.
pub fn per_batch(kitchen: &Kitchen, id: RecipeId) -> PortionNote {
    in_figures(kitchen, id, kitchen.recipes[id].makes.base())
}

/// So much of a recipe, in the unit of its `makes`, at the cheapest known prices.
fn in_figures(kitchen: &Kitchen, id: RecipeId, much: f64) -> PortionNote {
    let mut costing = Costing::at(kitchen, Prices::of_shops(kitchen));
    let mut sum = Figures::default();
    sum.add(&costing.recipe(id), much);
    PortionNote { per: sum.per_eater(), missing: sum.missing(&kitchen.foods) }
}

/// What the meals of each day give those who say what they need. For adults: who is under 18 on the day has no row.
pub fn days(kitchen: &Kitchen, meals: &[MealNote]) -> Vec<DayNote> {
    let mut dates: Vec<Date> = meals.iter().map(|meal| meal.at.date()).collect();
    dates.sort_unstable();
    dates.dedup();
    let mut days = Vec::new();
    for on in dates {
        for eater in &kitchen.household.named {
            let grown = eater.born.is_none_or(|born| born.checked_add(18.years()).is_ok_and(|of_age| of_age <= on));
            let Some(of) = eater.needs.filter(|_| grown) else { continue };
            let mut got =
                Portion { name: eater.name.clone(), share: eater.share.to_f64(), kcal: 0.0, protein_g: 0.0, fibre_g: 0.0, at_least: false };
            let here = || meals.iter().filter(|meal| meal.at.date() == on);
            // Of a meal that names nobody it is not known what of it is theirs.
            got.at_least = here().any(|meal| meal.eaters.is_empty());
            for portion in here().flat_map(|meal| &meal.eaters).filter(|portion| portion.name == eater.name) {
                got.kcal += portion.kcal;
                got.protein_g += portion.protein_g;
                got.fibre_g += portion.fibre_g;
                got.at_least |= portion.at_least;
            }
            days.push(DayNote { on, got, of });
        }
    }
    days
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
    /// Figures of which some food's is in the sum.
    known: BTreeSet<Figure>,
}

impl Figures {
    fn add(&mut self, other: &Figures, times: f64) {
        self.kcal += other.kcal * times;
        self.protein_g += other.protein_g * times;
        self.fibre_g += other.fibre_g * times;
        self.minor += other.minor * times;
        self.lacking.extend(&other.lacking);
        self.known.extend(&other.known);
    }

    fn per_eater(&self) -> PerEater {
        let known = |figure: Figure, value: f64| (self.known.contains(&figure) || !self.lacks(figure)).then(|| tidy(value));
        PerEater {
            kcal: known(Figure::Energy, self.kcal),
            protein_g: known(Figure::Protein, self.protein_g),
            fibre_g: known(Figure::Fibre, self.fibre_g),
            cost: known(Figure::Price, self.minor).map(rounded),
        }
    }

    fn portion(&self, diner: &Diner) -> Portion {
        let at_least = [Figure::Energy, Figure::Protein, Figure::Fibre].into_iter().any(|figure| self.lacks(figure));
        let (kcal, protein_g, fibre_g) = (tidy(self.kcal), tidy(self.protein_g), tidy(self.fibre_g));
        Portion { name: diner.name.clone(), share: diner.share.to_f64(), kcal, protein_g, fibre_g, at_least }
    }

    fn lacks(&self, figure: Figure) -> bool {
        self.lacking.iter().any(|(_, lacking)| *lacking == figure || (*lacking == Figure::Weight && figure != Figure::Price))
    }

    /// One entry a food, by name.
    fn missing(&self, foods: &Foods) -> Vec<Lacking> {
        let mut by_food: BTreeMap<FoodId, Vec<Figure>> = BTreeMap::new();
        for (food, figure) in &self.lacking {
            by_food.entry(*food).or_default().push(*figure);
        }
        let mut missing: Vec<Lacking> = by_food.into_iter().map(|(food, figures)| Lacking { food, figures }).collect();
        missing.sort_by_key(|lacking| &foods[lacking.food].name);
        missing
    }
}

struct Costing<'k> {
    kitchen: &'k Kitchen,
    prices: Prices<'k>,
    /// What the meal at hand pays.
    here: Option<&'k MealPrices>,
    /// Of one unit of `makes`.
    recipes: BTreeMap<RecipeId, Figures>,
    /// The same of what is made at the meal at hand.
    made_here: BTreeMap<RecipeId, Figures>,
}

impl<'k> Costing<'k> {
    fn at(kitchen: &'k Kitchen, prices: Prices<'k>) -> Self {
        Costing { kitchen, prices, here: None, recipes: BTreeMap::new(), made_here: BTreeMap::new() }
    }

    fn sit_down(&mut self, here: Option<&'k MealPrices>) {
        self.here = here;
        self.made_here.clear();
    }

    /// So much of a dish that the meal at hand takes from its lots costs what these cost.
    fn pay(&self, dish: RecipeId, amount: f64, figures: &mut Figures) {
        if let Some(one) = self.here.and_then(|here| here.recipes.get(&dish)) {
            figures.minor = one * amount;
            figures.lacking.retain(|(_, figure)| *figure != Figure::Price);
            figures.known.insert(Figure::Price);
        }
    }

    fn line(&mut self, line: &Ingredient) -> Figures {
        match &line.wanted {
            Wanted::Food { food, item: Some(item) } => self.food(*food, item),
            // "To taste" is no amount.
            Wanted::Food { item: None, .. } => Figures::default(),
            Wanted::Recipe { recipe, most, .. } => {
                let mut figures = Figures::default();
                if let Some(amount) = in_makes(&self.kitchen.recipes[*recipe], most) {
                    figures.add(&self.recipe(*recipe), amount.to_f64());
                    self.pay(*recipe, amount.to_f64(), &mut figures);
                }
                figures
            }
        }
    }

    /// As [`Costing::line`], for one who gets it without some of what goes into it.
    fn line_without(&mut self, line: &Ingredient, without: &[Ware]) -> Figures {
        self.line_lacking(line, without, &mut BTreeMap::new())
    }

    /// `known` are the dishes without it that were reckoned before, for one unit of `makes`.
    fn line_lacking(&mut self, line: &Ingredient, without: &[Ware], known: &mut BTreeMap<RecipeId, Figures>) -> Figures {
        let Wanted::Recipe { recipe: dish, most, .. } = &line.wanted else { return self.line(line) };
        if !without.iter().any(|ware| goes_into(&self.kitchen.recipes, *dish, *ware)) {
            return self.line(line);
        }
        let mut figures = Figures::default();
        let recipe = &self.kitchen.recipes[*dish];
        let Some(amount) = in_makes(recipe, most) else { return figures };
        if !known.contains_key(dish) {
            let mut one = Figures::default();
            for part in recipe.ingredients.iter().filter(|part| !without.contains(&part.ware())) {
                one.add(&self.line_lacking(part, without, known), 1.0 / recipe.makes.base());
            }
            known.insert(*dish, one);
        }
        if let Some(one) = known.get(dish) {
            figures.add(one, amount.to_f64());
        }
        self.pay(*dish, amount.to_f64(), &mut figures);
        figures
    }

    fn recipe(&mut self, id: RecipeId) -> Figures {
        let recipe = &self.kitchen.recipes[id];
        let is_made_here = self.here.is_some() && recipe.made == Made::AtTheMeal;
        let known = if is_made_here { &self.made_here } else { &self.recipes };
        if let Some(known) = known.get(&id) {
            return known.clone();
        }
        // What is cooked in a session is the same at every meal, but for the lots that it is paid by.
        let here = if is_made_here { None } else { self.here.take() };
        let mut one = Figures::default();
        for line in &recipe.ingredients {
            one.add(&self.line(line), 1.0 / recipe.makes.base());
        }
        if is_made_here {
            self.made_here.insert(id, one.clone());
        } else {
            self.here = here;
            self.recipes.insert(id, one.clone());
        }
        one
    }

    fn food(&self, id: FoodId, item: &Item) -> Figures {
        let (kitchen, food) = (self.kitchen, &self.kitchen.foods[id]);
        let mut figures = Figures::default();
        match as_purchased(food, item, &Dimension::Mass, kitchen.rules.spoons) {
            // Nobody eats it.
            _ if food.kind == Some(Kind::Household) => {}
            Ok(bought) => {
                let hundreds = bought.base() * food.eaten_share(item) / 100.0;
                let known = food.nutrients.as_ref().map(|fact| fact.value).unwrap_or_default();
                for (figure, per_hundred, sum) in [
                    (Figure::Energy, known.kcal, &mut figures.kcal),
                    (Figure::Protein, known.protein_g, &mut figures.protein_g),
                    (Figure::Fibre, known.fibre_g, &mut figures.fibre_g),
                ] {
                    match per_hundred {
                        Some(per_hundred) => {
                            *sum += per_hundred * hundreds;
                            figures.known.insert(figure);
                        }
                        None => _ = figures.lacking.insert((id, figure)),
                    }
                }
            }
            Err(_) => _ = figures.lacking.insert((id, Figure::Weight)),
        }
        if !kitchen.rules.always.contains(&id) && !kitchen.rules.ask.contains(&id) {
            match self.price(id, item) {
                Some(minor) => {
                    figures.minor = minor;
                    figures.known.insert(Figure::Price);
                }
                None => _ = figures.lacking.insert((id, Figure::Price)),
            }
        }
        figures
    }

    /// Minor units, not rounded.
    fn price(&self, id: FoodId, item: &Item) -> Option<f64> {
        let (food, spoons) = (&self.kitchen.foods[id], self.kitchen.rules.spoons);
        let amount = |dimension: &Dimension| as_purchased(food, item, dimension, spoons).ok().map(|amount| amount.base());
        let here = self.here.and_then(|here| here.foods.get(&id));
        let paid = here.and_then(|(dimension, one)| Some(amount(dimension)? * one));
        paid.or_else(|| self.prices.of_item(id, item))
    }
}
