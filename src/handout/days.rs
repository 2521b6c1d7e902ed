//! The week as it is eaten: every meal by its parts, and which component goes into which meal.

use itertools::Itertools;
use jiff::civil::Date;

use super::sessions::{Ahead, ahead};
use super::{AHEAD_OF_METHOD, DayNumber, step_of_method};
use crate::foods::as_purchased;
use crate::kitchen::much::called;
use crate::kitchen::{Ingredient, Kitchen, Meal, Recipe, RecipeId, Wanted, Ware, Week};
use crate::measure::{Dimension, Minutes, Number, Quantity, Unit};
use crate::plan::{Contains, MadeAt, Making, Makings, User, meal_contains, served_lines};
use crate::prep::{CardCook, CardMeal, Errand, line_text, meal_minutes, week_card};
use crate::words::{in_a_sentence, plural};

/// A meal by its day and its word: "day 1", "supper".
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Slot {
    pub day: DayNumber,
    pub word: String,
}

#[derive(Debug, Clone, PartialEq)]
pub struct HandoutDay {
    pub day: DayNumber,
    pub meals: Vec<HandoutMeal>,
    /// What is moved from the freezer in the evening.
    pub tonight: Vec<Errand>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct HandoutMeal {
    pub slot: Slot,
    /// What the household calls it.
    pub name: Option<String>,
    /// Dishes and foods, by their names.
    pub parts: Vec<String>,
    /// What is taken out, heated, added and made fresh.
    pub card: CardMeal,
    /// What stands on each plate, for a whole share: "1 portion pearl barley".
    pub each: Vec<String>,
    /// For the whole table.
    pub shared: Vec<String>,
    /// Foods that are cooked by themselves, as "boil 105 g brown rice, 30 min".
    pub cooked: Vec<String>,
    /// Dishes that could be left out of it, with the minutes that are then saved at the meal.
    pub spared: Vec<(RecipeId, Minutes)>,
    /// What is done so long before it.
    pub ahead: Vec<Ahead>,
    pub contains: Contains,
}

/// What a session makes, and where it goes.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    pub recipe: RecipeId,
    /// Of all sessions.
    pub makes: Vec<Quantity>,
    pub goes: Vec<Goes>,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Goes {
    To(Slot),
    Into(RecipeId),
}

impl Slot {
    pub(super) fn of(meal: &Meal, first: Date) -> Slot {
        Slot { day: DayNumber::since(first, meal.at_time.date()), word: meal.word.clone() }
    }

    /// "day 1 supper".
    pub fn words(&self) -> String {
        format!("{} {}", self.day.words(), self.word)
    }
}

impl HandoutMeal {
    pub(super) fn withhold(&mut self, withheld: &[RecipeId]) {
        for made in self.card.made.iter_mut().filter(|made| withheld.contains(&made.recipe)) {
            for (number, step) in made.steps.iter_mut().enumerate() {
                step.text = step_of_method(number);
            }
        }
        for one in self.ahead.iter_mut().filter(|one| withheld.contains(&one.recipe)) {
            one.text = AHEAD_OF_METHOD.to_owned();
        }
    }
}

/// Every day with a meal or a move, in order.
pub(super) fn days(kitchen: &Kitchen, week: &Week, makings: &Makings, first: Date) -> Vec<HandoutDay> {
    let card = week_card(kitchen, week, makings);
    let day = |told: crate::prep::CardDay| {
        // In the order in which the card has them.
        let of_day = (0..week.meals.len()).filter(|index| week.meals[*index].at_time.date() == told.on);
        let indices = of_day.sorted_by_key(|index| week.meals[*index].at_time);
        let meals = indices.zip(told.meals).map(|(index, card)| meal(kitchen, week, makings, (index, card), first)).collect();
        HandoutDay { day: DayNumber::since(first, told.on), meals, tonight: told.tonight }
    };
    card.days.into_iter().map(day).collect()
}

fn meal(kitchen: &Kitchen, week: &Week, makings: &Makings, (index, card): (usize, CardMeal), first: Date) -> HandoutMeal {
    let meal = &week.meals[index];
    let parts = served_lines(meal).map(|(line, times)| part(kitchen, line, &times)).unique().collect();
    let made = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index));
    let ahead = made.flat_map(|making| ahead(kitchen, making, None)).collect();
    let contains = meal_contains(kitchen, meal);
    let lines = |lines: &[Ingredient]| lines.iter().map(|line| line_text(kitchen, line, 1.0)).collect();
    HandoutMeal {
        slot: Slot::of(meal, first),
        name: meal.name.clone(),
        parts,
        each: lines(&meal.each),
        shared: lines(&meal.shared),
        cooked: card.cook.iter().map(CardCook::how_long).collect(),
        spared: spared(kitchen, meal, makings, index),
        card,
        ahead,
        contains,
    }
}

/// A dish made at the meal that is not what the meal begins with, and so is named for.
fn spared(kitchen: &Kitchen, meal: &Meal, makings: &Makings, index: usize) -> Vec<(RecipeId, Minutes)> {
    let beside = |recipe: RecipeId| served_lines(meal).skip(1).any(|(line, _)| line.ware() == Ware::Recipe(recipe));
    let made = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index) && beside(making.recipe));
    made.map(|making| (making.recipe, Minutes(meal_minutes(kitchen, making)))).filter(|(_, minutes)| minutes.0 > 0).collect()
}

/// "white-bean mash", "red peppers".
fn part(kitchen: &Kitchen, line: &Ingredient, times: &Number) -> String {
    match &line.wanted {
        Wanted::Recipe { recipe, .. } => in_a_sentence(&kitchen.recipes[*recipe].name),
        Wanted::Food { food, item } => {
            let (id, facts) = (*food, &kitchen.foods[*food]);
            let counted = item.as_ref().filter(|item| item.amount.unit == Unit::Piece).map(|item| &item.amount.high * times);
            let weighed = || as_purchased(facts, &item.as_ref()?.scaled(times), &Dimension::Mass, kitchen.rules.spoons).ok();
            match counted {
                Some(count) if count > 1 => plural(&facts.name),
                Some(_) => facts.name.clone(),
                None => weighed().map_or_else(|| facts.name.clone(), |amount| called(kitchen.names(), Ware::Food(id), &amount)),
            }
        }
    }
}

/// Every recipe that a session makes, in the order in which the sessions make them.
pub(super) fn components(recipes: &[Recipe], week: &Week, makings: &Makings, first: Date) -> Vec<Component> {
    let in_sessions = || makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
    let component = |recipe: RecipeId| {
        let (mut makes, mut goes): (Vec<Quantity>, Vec<Goes>) = (Vec::new(), Vec::new());
        for making in in_sessions().filter(|making| making.recipe == recipe) {
            match makes.iter_mut().find_map(|one| one.plus(&making.makes).map(|sum| (one, sum))) {
                Some((one, sum)) => *one = sum,
                None => makes.push(making.makes.clone()),
            }
            goes.extend(making.uses.iter().map(|one| match one.by {
                User::Meal(meal) => Goes::To(Slot::of(&week.meals[meal], first)),
                User::Making(dish) => goes_by_way_of(week, &makings.makings[dish], first),
            }));
        }
        // A dish that is made at the meal is in that meal.
        let at_meals = goes.iter().unique_by(|one| format!("{one:?}")).cloned().collect();
        Component { recipe, makes, goes: at_meals }
    };
    let mut made: Vec<RecipeId> = in_sessions().map(|making| making.recipe).unique().collect();
    made.sort_by_key(|id| recipes[*id].name.to_lowercase());
    made.into_iter().map(component).collect()
}

fn goes_by_way_of(week: &Week, dish: &Making, first: Date) -> Goes {
    match dish.at {
        MadeAt::Meal(meal) => Goes::To(Slot::of(&week.meals[meal], first)),
        MadeAt::Session(_) => Goes::Into(dish.recipe),
    }
}

/// What most meals are reckoned for, then the others with their meals.
pub(super) fn eaters(week: &Week, first: Date) -> Vec<(Number, Vec<Slot>)> {
    let mut all: Vec<(Number, Vec<Slot>)> = Vec::new();
    for meal in &week.meals {
        let eaters = if meal.diners.is_empty() { Number::from(meal.eaters) } else { meal.diners.iter().map(|diner| &diner.share).sum() };
        let slot = Slot::of(meal, first);
        match all.iter_mut().find(|(known, _)| *known == eaters) {
            Some((_, slots)) => slots.push(slot),
            None => all.push((eaters, vec![slot])),
        }
    }
    all.sort_by_key(|(_, slots)| std::cmp::Reverse(slots.len()));
    all
}
