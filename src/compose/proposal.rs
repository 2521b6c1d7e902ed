//! A proposal: the meals that were chosen, what the week then costs, takes and gives, and why.

use jiff::civil::{Date, DateTime};

use super::at_once::judge_all;
use super::clash::{self, Clash};
use super::rules;
use super::search::{Chosen, Found, with};
use super::table::{Look, Table};
use super::why::{Why, why};
use super::wish::{Broken, Nutrient, Wish};
use crate::foods::FoodId;
use crate::kitchen::{Ingredient, Kitchen, Lot, Meal, PatternId, RecipeId, Spot, Ware, Warning, Week};
use crate::measure::{Money, Quantity};
use crate::plan::{self, Guarded};
use crate::prep::{Effort, Hours};
use crate::purchase::Leftover;
use crate::shelf::lot_dates;

/// One proposal for a week.
#[derive(Debug, Clone)]
pub struct Proposal {
    pub week: String,
    /// In order of time.
    pub meals: Vec<FilledMeal>,
    pub net_cost: Money,
    pub cost: Money,
    /// Of what is bought, what is left and good for another week.
    pub keeps: Money,
    /// Of the shelf, what goes off unused. The net cost is the cost, less what keeps, with what goes off and what is lost.
    pub goes_off: Money,
    /// Of the shelf, what is past its date before the week can use anything.
    pub lost: Money,
    /// Of what is bought and of the shelf together.
    pub spoils: Money,
    /// What sessions cook, by id.
    pub recipes: Vec<RecipeId>,
    /// The sessions to come, as the guide plans them.
    pub sessions: Vec<Hours>,
    /// Nothing better exists.
    pub proven: bool,
    /// No week has a lesser net cost.
    pub bound: Money,
    pub open: Vec<StaysOpen>,
    /// What is bought and left over.
    pub left: Vec<Leftover>,
    /// What lies on the shelf and goes off unused.
    pub off: Vec<GoesOff>,
    /// What each day with an open meal gives a whole share, where floors are wanted.
    pub days: Vec<DaySum>,
    /// Foods of which a figure that a floor asks for is not known.
    pub not_known: Vec<FoodId>,
    /// Foods to buy that nobody is known to sell at a price: they are in no sum.
    pub no_price: Vec<FoodId>,
    pub warnings: Vec<Warning>,
}

/// Something on the shelf that nobody uses in time.
#[derive(Debug, Clone)]
pub struct GoesOff {
    pub of: Ware,
    pub amount: Quantity,
    /// The last day it is good.
    pub until: Option<Date>,
    /// It is past its date before the week can use anything.
    pub lost: bool,
}

#[derive(Debug, Clone)]
pub struct FilledMeal {
    pub at: DateTime,
    pub label: String,
    /// Where the meal stands in its file.
    pub spot: Spot,
    pub pattern: Option<PatternId>,
    pub name: String,
    pub each: Vec<Ingredient>,
    pub shared: Vec<Ingredient>,
    pub why: Vec<Why>,
}

#[derive(Debug, Clone)]
pub struct StaysOpen {
    pub at: DateTime,
    pub label: String,
    pub why: Stays,
}

/// Why a meal stays open.
#[derive(Debug, Clone)]
pub enum Stays {
    /// Nothing may be bought, and what lies there does not do.
    NotOnTheShelf,
    /// What lies there is enough, and past its date by then.
    GoesOff,
    /// What lies there is enough, and wishes keep it out: those of the filling that breaks the fewest.
    KeptOut(Box<Clash>),
    Past,
    /// Another meal was to be filled anew.
    NotAsked,
}

/// The open meals of a week that this run does not fill: those that are past, and those that were not asked for.
pub fn stay_open(week: &Week, asked: &[usize], today: Date) -> Vec<StaysOpen> {
    let not_filled = (0..week.meals.len()).filter(|place| !asked.contains(place)).map(|place| &week.meals[place]);
    let open = not_filled.filter(|meal| meal.open.is_some() && !meal.skip);
    let stays = |meal: &Meal| StaysOpen {
        at: meal.at_time,
        label: meal.label.clone(),
        why: if meal.at_time.date() < today { Stays::Past } else { Stays::NotAsked },
    };
    open.map(stays).collect()
}

#[derive(Debug, Clone)]
pub struct DaySum {
    pub on: Date,
    /// What is got and what is wanted.
    pub figures: Vec<(Nutrient, f64, f64)>,
}

/// `open` are meals that stay so whatever is chosen.
pub fn proposal(table: &Table, (chosen, found): (&Chosen, &Found), open: &[StaysOpen], effort: Effort) -> Proposal {
    let kitchen = table.kitchen();
    let whole = &table.trials.whole;
    let filled = table.filled(chosen);
    let written: Vec<&Meal> = filled.iter().map(|(_, meal)| meal).collect();
    let mut told = Proposal {
        week: whole.name.clone(),
        meals: Vec::new(),
        net_cost: Money::ZERO,
        cost: Money::ZERO,
        keeps: Money::ZERO,
        goes_off: Money::ZERO,
        lost: Money::ZERO,
        spoils: Money::ZERO,
        recipes: Vec::new(),
        sessions: Vec::new(),
        proven: found.proven,
        bound: Money(found.bound),
        open: open.to_vec(),
        left: Vec::new(),
        off: Vec::new(),
        days: days(table, chosen),
        not_known: not_known(table, &filled),
        no_price: Vec::new(),
        warnings: warnings(kitchen, table, &written),
    };
    for gap in (0..chosen.len()).filter(|gap| chosen[*gap].is_none()) {
        let meal = &whole.meals[table.gaps[gap].meal];
        told.open.push(StaysOpen { at: meal.at_time, label: meal.label.clone(), why: shelf_reason(table, chosen, gap, effort) });
    }
    told.open.sort_by_key(|open| open.at);
    // It was reckoned before, so it can be again.
    let Ok(tried) = table.trials.run_leaving_open(&filled) else { return told };
    let priced = table.trials.price(&tried);
    told.net_cost = priced.net;
    told.cost = priced.cost;
    told.keeps = priced.keeps;
    told.goes_off = priced.off;
    told.lost = priced.lost;
    told.spoils = priced.spoils;
    told.recipes = rules::cooked(&tried).into_iter().collect();
    told.sessions = (0..tried.week.sessions.len()).map(|index| table.hours(&tried, index, effort)).collect();
    told.left = crate::purchase::leftovers(&tried.basket);
    let first_use = table.trials.first_use();
    let off = |lot: &Lot| GoesOff {
        of: lot.of,
        amount: lot.amount.clone(),
        until: lot_dates(&kitchen.foods, &kitchen.recipes, lot).earliest,
        lost: table.trials.is_lost(lot, first_use),
    };
    told.off = table.trials.goes_off(&tried).map(off).collect();
    told.no_price.clone_from(&tried.basket.no_price);
    for (place, meal) in &filled {
        told.meals.push(FilledMeal {
            at: meal.at_time,
            label: meal.label.clone(),
            spot: meal.at.clone(),
            pattern: meal.pattern,
            name: plan::meal_name(meal),
            each: meal.each.clone(),
            shared: meal.shared.clone(),
            why: why(table, &tried, chosen, *place),
        });
    }
    told
}

/// So many fillings of a meal that stays open are looked at, those of which the shelf holds most.
const LOOKED_AT: usize = 200;

/// Why nothing fills a meal from the shelf beside the others: the wishes that keep out what lies there, or that nothing does.
fn shelf_reason(table: &Table, chosen: &Chosen, gap: usize, effort: Effort) -> Stays {
    let (meal, trials) = (table.gaps[gap].meal, table.trials);
    let whole = &trials.whole.meals[meal];
    let mut ways: Vec<u32> = table.gaps[gap].ways.iter().chain(table.barred[gap].keys()).copied().collect();
    let lacks = |way: &u32| {
        let (each, shared) = table.ways.lines(*way);
        each.iter().chain(&shared).filter(|line| !trials.shelf_holds_ever(line)).count()
    };
    ways.sort_by_cached_key(|way| (lacks(way), *way));
    ways.truncate(LOOKED_AT);
    let weeks: Vec<Chosen> = ways.iter().map(|way| with(chosen, gap, Some(*way))).collect();
    let judged = judge_all(table, &weeks.iter().collect::<Vec<_>>(), Look::Thoroughly, effort);
    let needs_more = |broken: &[Broken]| broken.iter().any(|one| matches!(one.wish, Wish::FromShelf | Wish::Reach(_)));
    let kept_out = judged.iter().map(|judged| &judged.broken).filter(|broken| !broken.is_empty() && !needs_more(broken));
    if let Some(fewest) = kept_out.min_by_key(|broken| broken.len()) {
        return Stays::KeptOut(Box::new(clash::of_one(table, fewest)));
    }
    let (each, shared) = ways.first().map(|way| table.ways.lines(*way)).unwrap_or_default();
    let mut lines = each.iter().chain(&shared).peekable();
    let is_there = lines.peek().is_some() && lines.all(|line| trials.shelf_holds_ever(line));
    let is_good = each.iter().chain(&shared).all(|line| trials.shelf_holds(line, whole.at_time.date()));
    if is_there && !is_good { Stays::GoesOff } else { Stays::NotOnTheShelf }
}

fn days(table: &Table, chosen: &Chosen) -> Vec<DaySum> {
    if table.wanted_nutrients().next().is_none() {
        return Vec::new();
    }
    let figures = |got: [f64; 3]| table.wanted_nutrients().map(|(nutrient, least)| (nutrient, got[nutrient as usize], least)).collect();
    table.day_sums(chosen).into_iter().map(|(on, got)| DaySum { on, figures: figures(got) }).collect()
}

fn not_known(table: &Table, filled: &[(usize, Meal)]) -> Vec<FoodId> {
    let wanted: Vec<crate::purchase::Figure> = table
        .wanted_nutrients()
        .map(|(nutrient, _)| match nutrient {
            Nutrient::Energy => crate::purchase::Figure::Energy,
            Nutrient::Protein => crate::purchase::Figure::Protein,
            Nutrient::Fibre => crate::purchase::Figure::Fibre,
        })
        .collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let mut foods = Vec::new();
    for (_, meal) in filled {
        let Some(note) = rules::figures_of(table.kitchen(), &table.trials.whole, meal.clone()) else { continue };
        let lacks = |figure: &crate::purchase::Figure| wanted.contains(figure) || *figure == crate::purchase::Figure::Weight;
        let missing = note.missing.iter().filter(|lacking| lacking.figures.iter().any(lacks));
        foods.extend(missing.map(|lacking| lacking.food));
    }
    foods.sort_by_key(|food| &table.kitchen().foods[*food].name);
    foods.dedup();
    foods
}

/// What the eaters of these meals should know, as every verb that plans them says it.
fn warnings(kitchen: &Kitchen, table: &Table, meals: &[&Meal]) -> Vec<Warning> {
    let mut week = table.trials.whole.clone();
    week.meals = meals.iter().map(|meal| (*meal).clone()).collect();
    let Guarded { warnings, .. } = plan::guard(kitchen, &week);
    let mut all = table.trials.warnings.clone();
    all.extend(warnings);
    all
}
