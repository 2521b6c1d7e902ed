//! The meals of a week by day: what comes out of which place, what is added fresh, whether it is heated, what is made at the meal, what is
//! moved from the freezer in the evening.
//!
//! A dish stands once a place on the week card, whatever it was made in; what comes straight from the pot apart,
//! because it is not heated again.

use jiff::civil::Date;

use super::Errand;
use super::boxes::{aside_task, chilled_alone, counted, errand};
use super::care::Care;
use super::cooked::{CardCook, cooked};
use super::heating::heatings;
use super::line_words::added_text;
use super::meal_cautions::meal_cautions;
use super::say::{kept_hot, reheated};
use super::text::making_text;
use crate::foods::{FoodId, Place};
use crate::kitchen::much::for_whom;
use crate::kitchen::not_known;
use crate::kitchen::{
    ApplianceId, Diner, Ingredient, Kitchen, Meal, Names, Recipe, RecipeId, Serve, Spot, Step, Wanted, Ware, Week, Whose,
};
use crate::measure::{Celsius, Minutes, Number, Quantity, Units, show};
use crate::plan::{
    Beware, Boxed, MadeAt, Making, Makings, ShortMeal, User, goes_into, guard, meal_contains, one_after_another, served_lines,
    set_aside_before, taken_lines,
};
use crate::words::{degrees, ended, in_a_sentence, listed, sentence};

/// The meals of one week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekCard {
    pub week: String,
    pub from: Date,
    /// Meals that nothing can serve any more: first on the card.
    pub short: Vec<ShortMeal>,
    /// What is not known for allergic eaters, a line each: at the head of the card.
    pub not_known: Vec<String>,
    pub days: Vec<CardDay>,
    /// What to take care of where something is made or added at a meal, once for all meals.
    pub cautions: Vec<Care>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardDay {
    pub on: Date,
    pub meals: Vec<CardMeal>,
    /// What is moved from the freezer in the evening.
    pub tonight: Vec<Errand>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMeal {
    /// "Mon supper".
    pub label: String,
    pub name: Option<String>,
    /// Its name where its dishes stand below: of a composed meal, whose name tells them, the pattern's name alone.
    pub called: Option<String>,
    /// What of it nothing can serve any more.
    pub short: Vec<ShortMeal>,
    /// What of it is not known for an allergic eater, a line each.
    pub not_known: Vec<String>,
    pub dishes: Vec<CardDish>,
    /// In the household's own words.
    pub text: Option<String>,
    /// "75 g feta", in the order of the meal's lines.
    pub fresh: Vec<String>,
    /// What of it is cooked by itself, with how much of it raw, and from when.
    pub cook: Vec<CardCook>,
    /// What is made at the meal, with its steps.
    pub made: Vec<CardMaking>,
    /// Who eats otherwise: "Emil: plain mash", "Emil: without tahini".
    pub otherwise: Vec<String>,
    /// What a small child may choke on: "Pim: carrot is a choking hazard under 4 years where raw and in pieces: grate it or cook it soft".
    pub choking: Vec<String>,
    /// What of it the household avoids.
    pub beware: Option<Beware>,
}

/// A cooked dish that is taken out of one place, whatever it was made in.
#[derive(Debug, Clone, PartialEq)]
pub struct CardDish {
    pub recipe: RecipeId,
    /// What is set aside for one eater stands by itself.
    pub whose: Option<Whose>,
    /// One, or several that cannot be added up.
    pub amounts: Vec<Quantity>,
    /// `None`: straight from the pot.
    pub place: Option<Place>,
    /// "flat tub": what it is kept in, where the recipe says.
    pub boxed: Option<String>,
    pub then: Then,
}

/// What is done with a dish that has been taken out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Then {
    /// It is eaten as the recipe says, where it does.
    Eaten(Option<Serve>),
    /// It is eaten straight from the pot.
    FromThePot,
    /// The same, and it may have to wait: it is kept hot until then.
    KeptHot,
    /// It goes into dishes that are made at the meal.
    Into(Vec<RecipeId>),
}

impl WeekCard {
    /// To what everything that is heated is heated, once for all of it; nothing where nothing is.
    pub fn heating_text(&self, units: Units) -> Option<String> {
        let mut dishes = self.days.iter().flat_map(|day| &day.meals).flat_map(|meal| &meal.dishes);
        let heated = dishes.any(|dish| matches!(dish.then, Then::Eaten(None | Some(Serve::Hot))));
        heated.then(|| format!("What is heated: to {}, right through.", reheated(units)))
    }
}

impl CardMeal {
    /// What is added as it is: without what is cooked by itself, which is told with its raw amount.
    pub fn added(&self) -> Vec<&str> {
        let raw = |index: &usize| !self.cook.iter().any(|cook| cook.fresh == *index);
        (0..self.fresh.len()).filter(raw).map(|index| self.fresh[index].as_str()).collect()
    }
}

impl CardDish {
    /// "2½ portions"; "1 portion and 200 g" where the two cannot be added up.
    pub fn amount_text(&self, units: Units) -> String {
        listed(&self.amounts.iter().map(|amount| counted(amount, units)).collect::<Vec<_>>())
    }
}

impl CardDish {
    /// "2½ portions of pearl barley", "7 flatbreads"; `of` stands between the amount and the name where it is no number of pieces.
    pub fn words(&self, names: Names, units: Units, of: &str) -> String {
        let (name, whose) = (in_a_sentence(names.recipe(self.recipe)), for_whom(names, self.whose.as_ref()));
        match self.amounts.as_slice() {
            // What is made by the piece is named in the plural.
            [amount @ Quantity::Count(number)] if *number > 1 && name.ends_with('s') => format!("{} {name}{whose}", show(amount, units)),
            _ => format!("{}{of}{name}{whose}", self.amount_text(units)),
        }
    }
}

impl Then {
    /// As [`Then::text`], where the temperature stands elsewhere: "heat", "cold, or heated".
    pub fn brief(&self, names: Names, units: Units) -> Option<String> {
        match self {
            Then::Eaten(Some(Serve::Hot)) => Some("heat".to_owned()),
            Then::Eaten(None) => Some("cold, or heated".to_owned()),
            _ => self.text(names, units),
        }
    }

    /// "heat to 74 °C (165 °F)", "cold", either where the recipe does not say, "for Frittata"; nothing straight from the pot.
    pub fn text(&self, names: Names, units: Units) -> Option<String> {
        Some(match self {
            Then::FromThePot => return None,
            Then::KeptHot => format!("keep at {} or above until it is served", kept_hot(units)),
            Then::Into(dishes) => format!("for {}", listed(&dishes.iter().map(|id| names.recipe(*id)).collect::<Vec<_>>())),
            Then::Eaten(Some(Serve::Cold)) => "cold".to_owned(),
            Then::Eaten(Some(Serve::Hot)) => format!("heat to {}", reheated(units)),
            Then::Eaten(None) => format!("cold, or heated to {}", reheated(units)),
        })
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMaking {
    pub recipe: RecipeId,
    pub steps: Vec<CardStep>,
}

/// A step of a dish that is made at the meal.
#[derive(Debug, Clone, PartialEq)]
pub struct CardStep {
    /// The recipe's own words with the amounts of this making.
    pub text: String,
    pub on: Option<ApplianceId>,
    pub at: Option<Celsius>,
    pub wait: Minutes,
    pub inside: Option<Celsius>,
}

impl CardStep {
    /// "Bake until it flakes. Oven, 190 °C (375 °F), 18 min. Until the inside reaches 63 °C (145 °F)."
    pub fn text(&self, names: Names, units: Units) -> String {
        let mut text = self.text.clone();
        let place = self.on.map(|id| sentence(names.appliance(id)));
        let wait = (self.wait.0 > 0).then(|| format!("{} min", self.wait.0));
        let facts: Vec<String> = place.into_iter().chain(self.at.map(|heat| degrees(heat, units))).chain(wait).collect();
        let facts = (!facts.is_empty()).then(|| format!("{}.", facts.join(", ")));
        let inside = self.inside.map(|heat| format!("Until the inside reaches {}.", degrees(heat, units)));
        for more in facts.into_iter().chain(inside) {
            text = format!("{} {more}", ended(&text));
        }
        text
    }
}

/// The card of a week: every day that has a meal or a move, in order.
pub fn week_card(kitchen: &Kitchen, week: &Week, makings: &Makings) -> WeekCard {
    let mut dates: Vec<Date> = week.meals.iter().map(|meal| meal.at_time.date()).chain(makings.moves.iter().map(|one| one.on)).collect();
    dates.sort();
    dates.dedup();
    let day = |on: Date| {
        let mut meals: Vec<usize> = (0..week.meals.len()).filter(|index| week.meals[*index].at_time.date() == on).collect();
        meals.sort_by_key(|index| week.meals[*index].at_time);
        let tonight = makings.moves.iter().filter(|one| one.on == on).map(errand).collect();
        CardDay { on, meals: meals.into_iter().map(|meal| card_meal(kitchen, week, makings, meal)).collect(), tonight }
    };
    WeekCard {
        week: week.name.clone(),
        from: week.from,
        short: makings.short.clone(),
        not_known: not_known(guard(kitchen, week).unknown.iter().map(|(_, warning)| warning)),
        days: dates.into_iter().map(day).collect(),
        cautions: meal_cautions(kitchen, week, makings, &(0..week.meals.len()).collect::<Vec<_>>()),
    }
}

fn card_meal(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize) -> CardMeal {
    let meal = &week.meals[index];
    let food = |line: &&(&Ingredient, Number)| recipe_of(line.0).is_none();
    let lines = taken_lines(&kitchen.foods, meal);
    // One eater's own line of the same food adds up with the rest.
    let mut added: Vec<(&Ingredient, Number)> = Vec::new();
    for (line, times) in lines.iter().filter(food) {
        match added.iter_mut().find(|(one, _)| one.wanted == line.wanted && one.prep == line.prep) {
            Some((_, sum)) => *sum = &*sum + times,
            None => added.push((line, times.clone())),
        }
    }
    let fresh = added.iter().map(|(line, times)| added_text(kitchen, line, times.to_f64()));
    let guarded = guard(kitchen, &Week { meals: vec![meal.clone()], ..week.clone() });
    let choking = |(who, food, why): &(String, FoodId, &str)| format!("{who}: {} {why}", kitchen.names().food(*food));
    CardMeal {
        label: meal.label.clone(),
        name: meal.name.clone(),
        called: called(kitchen, meal),
        short: makings.short.iter().filter(|short| (short.at, &short.label) == (meal.at_time, &meal.label)).cloned().collect(),
        not_known: not_known(guarded.unknown.iter().map(|(_, warning)| warning)),
        choking: guarded.choking.iter().map(choking).collect(),
        dishes: dishes(kitchen, week, makings, index),
        text: meal.text.clone(),
        fresh: fresh.collect(),
        cook: cooked(kitchen, meal),
        made: makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index)).map(|making| made(kitchen, making)).collect(),
        otherwise: meal.diners.iter().filter_map(|diner| otherwise(kitchen, meal, makings, diner)).collect(),
        beware: meal_contains(kitchen, meal).beware(&kitchen.household.avoid),
    }
}

/// "Soup and salad" of "Soup and salad: leek soup, red cabbage slaw".
fn called(kitchen: &Kitchen, meal: &Meal) -> Option<String> {
    let name = meal.name.as_ref()?;
    let pattern = meal.pattern.map(|pattern| &kitchen.together.patterns[pattern].name);
    let composed = pattern.filter(|pattern| name.strip_prefix(pattern.as_str()).is_some_and(|rest| rest.starts_with(": ")));
    Some(composed.unwrap_or(name).clone())
}

/// What one eater gets in place of the rest, and without what.
fn otherwise(kitchen: &Kitchen, meal: &Meal, makings: &Makings, diner: &Diner) -> Option<String> {
    let names = kitchen.names();
    let own = diner.instead.iter().flatten().chain(diner.swapped.iter().map(|swapped| &swapped.line));
    let mut said: Vec<String> = own.map(|line| in_a_sentence(names.ware(line.ware()))).collect();
    let served: Vec<&Ingredient> = meal.each.iter().filter(|_| diner.instead.is_none()).chain(&meal.shared).collect();
    let here = |ware: &Ware| {
        served.iter().any(|line| line.ware() == *ware || recipe_of(line).is_some_and(|dish| goes_into(&kitchen.recipes, dish, *ware)))
    };
    let replaced = |ware: &Ware| diner.swapped.iter().any(|swapped| swapped.line.at == served_spot(&served, *ware));
    let without = diner.without.iter().filter(|ware| here(ware) && !replaced(ware));
    said.extend(without.map(|ware| format!("without {}", in_a_sentence(names.ware(*ware)))));
    let is_own = |boxed: &Boxed| boxed.eater.as_ref() == Some(&diner.name) && boxed.what_for.contains(&meal.label);
    let boxed = makings.makings.iter().flat_map(|making| &making.boxes).any(is_own);
    let from = if boxed { "; the box has the name on it" } else { "" };
    (!said.is_empty()).then(|| format!("{}: {}{from}", diner.name, said.join(", ")))
}

/// Where the line of that food or dish stands.
fn served_spot(served: &[&Ingredient], ware: Ware) -> Spot {
    served.iter().find(|line| line.ware() == ware).map(|line| line.at.clone()).unwrap_or_default()
}

/// Every dish once a place, in the order of the meal's lines; last what goes into a dish made at the meal.
fn dishes(kitchen: &Kitchen, week: &Week, makings: &Makings, meal: usize) -> Vec<CardDish> {
    let recipes = &kitchen.recipes;
    let mut dishes: Vec<CardDish> = Vec::new();
    for (recipe, whose, place, amount) in from_lots(makings, meal).chain(from_sessions(kitchen, makings, meal)) {
        match dishes.iter_mut().find(|dish| (dish.recipe, dish.place) == (recipe, place) && dish.whose == whose) {
            Some(dish) => add(&mut dish.amounts, amount),
            None => dishes.push(CardDish { whose, ..taken_out(recipes, recipe, place, amount) }),
        }
    }
    let served: Vec<RecipeId> = served_lines(&week.meals[meal]).filter_map(|(line, _)| recipe_of(line)).collect();
    dishes.sort_by_key(|dish| served.iter().position(|one| *one == dish.recipe).unwrap_or(served.len()));
    let made: Vec<RecipeId> = makings.makings.iter().filter(|making| making.at == MadeAt::Meal(meal)).map(|making| making.recipe).collect();
    for dish in dishes.iter_mut().filter(|dish| !served.contains(&dish.recipe)) {
        let holds = |into: &RecipeId| recipes[*into].ingredients.iter().any(|line| recipe_of(line) == Some(dish.recipe));
        let into: Vec<RecipeId> = made.iter().copied().filter(holds).collect();
        if !into.is_empty() {
            dish.then = Then::Into(into);
        }
    }
    dishes
}

fn taken_out(recipes: &[Recipe], recipe: RecipeId, place: Option<Place>, amount: Quantity) -> CardDish {
    let asked = &recipes[recipe];
    let boxed = asked.boxed.as_ref().filter(|_| place.is_some()).map(|kind| kind.name.clone());
    let then = match (place, asked.hold_hot) {
        (Some(_), _) => Then::Eaten(asked.serve),
        (None, Some(_)) => Then::KeptHot,
        (None, None) => Then::FromThePot,
    };
    CardDish { recipe, whose: None, amounts: vec![amount], place, boxed, then }
}

fn recipe_of(line: &Ingredient) -> Option<RecipeId> {
    match line.wanted {
        Wanted::Recipe { recipe, .. } => Some(recipe),
        Wanted::Food { .. } => None,
    }
}

/// Adds an amount to the first that is of its kind, or sets it beside them.
fn add(amounts: &mut Vec<Quantity>, amount: Quantity) {
    match amounts.iter_mut().find_map(|one| one.plus(&amount).map(|sum| (one, sum))) {
        Some((one, sum)) => *one = sum,
        None => amounts.push(amount),
    }
}

/// A dish, whose it is alone, where it stands and how much of it is taken.
type TakenOut = (RecipeId, Option<Whose>, Option<Place>, Quantity);

/// Cooked lots; what was frozen was to be moved to the fridge the day before, and is taken as moved.
fn from_lots(makings: &Makings, meal: usize) -> impl Iterator<Item = TakenOut> {
    let draws = makings.cooked_draws.iter().filter(move |draw| draw.by.contains(&MadeAt::Meal(meal)));
    draws.filter_map(|draw| match draw.of {
        Ware::Recipe(recipe) => {
            let place = if draw.place == Place::Freezer { Place::Fridge } else { draw.place };
            Some((recipe, draw.whose.clone(), Some(place), draw.amount.clone()))
        }
        Ware::Food(_) => None,
    })
}

/// What the week's sessions made, out of the fridge or straight from the pot; what was set aside and chilled by itself is in no pot any more.
fn from_sessions(kitchen: &Kitchen, makings: &Makings, meal: usize) -> impl Iterator<Item = TakenOut> {
    let sessions = makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
    let uses = sessions.flat_map(|making| making.uses.iter().map(move |one| (making, one)));
    let eaten = uses.filter(move |(_, one)| match one.by {
        User::Meal(by) => by == meal,
        User::Making(dish) => makings.makings.get(dish).is_some_and(|dish| dish.at == MadeAt::Meal(meal)),
    });
    let is_chilled = move |making: &Making, whose: &Whose| {
        let is_it = |of: &usize| making.apart[*of].who == whose.eater && making.apart[*of].without == whose.without;
        (0..making.apart.len()).find(is_it).is_some_and(|of| chilled_alone(kitchen, making, of))
    };
    eaten.flat_map(move |(making, one)| {
        let told = move |(whose, amount): (Option<Whose>, Quantity)| {
            let chilled = || whose.as_ref().filter(|whose| is_chilled(making, whose)).map(|_| Place::Fridge);
            let place = one.kept.place().or_else(chilled);
            (making.recipe, whose, place, amount)
        };
        one.by_whom().into_iter().map(told)
    })
}

/// Minutes of a dish that is made at the meal: its steps one after another.
pub fn meal_minutes(kitchen: &Kitchen, making: &Making) -> i64 {
    one_after_another(&kitchen.recipes[making.recipe], &kitchen.appliances, making.batches.to_f64(), kitchen.rules.pace).0
}

fn made(kitchen: &Kitchen, making: &Making) -> CardMaking {
    let step = |(number, asked): (usize, &Step)| CardStep {
        text: making_text(kitchen, making, number, &Number::ONE),
        on: asked.on.first().copied(),
        at: asked.temperature,
        wait: asked.wait,
        inside: asked.inside,
    };
    let recipe = &kitchen.recipes[making.recipe];
    let told = |text: String| CardStep { text, on: None, at: None, wait: Minutes(0), inside: None };
    let with_the_dish = kitchen.names().with_the_dish(making.recipe).map(|text| told(text.clone()));
    let aside = |number: usize| {
        let before = move |of: &usize| set_aside_before(kitchen, making, &making.apart[*of]) == Some(number);
        let text = |of: usize| aside_task(kitchen, making, of).text(kitchen.names(), kitchen.print.units);
        (0..making.apart.len()).filter(before).map(move |of| told(text(of))).collect::<Vec<_>>()
    };
    let (names, units) = (kitchen.names(), kitchen.print.units);
    let heatings = heatings(kitchen, making);
    let heat = |number: usize| {
        let here = heatings.iter().filter(move |one| one.before == number);
        here.map(|one| told(format!("Heat the {} to {}.", names.appliance(one.appliance), degrees(one.to, units)))).collect::<Vec<_>>()
    };
    let of_step = |(number, asked)| heat(number).into_iter().chain(aside(number)).chain([step((number, asked))]);
    let steps = recipe.steps.iter().enumerate().flat_map(of_step);
    CardMaking { recipe: making.recipe, steps: steps.chain(with_the_dish).collect() }
}

#[cfg(test)]
mod tests;
