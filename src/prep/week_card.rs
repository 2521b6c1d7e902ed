//! The meals of a week by day: what comes out of which place, what is added fresh, whether it is heated, what is made at the meal, what is
//! moved from the freezer in the evening.

use jiff::civil::Date;

use super::boxes::{counted, move_text};
use super::text::{amount_and_food, degrees, sentence, step_text};
use crate::foods::Place;
use crate::kitchen::{Kitchen, RecipeId, Serve, Wanted, Week};
use crate::measure::{Celsius, Quantity};
use crate::plan::{DrawOf, Kept, MadeAt, Makings, User, served_lines};

/// USDA FSIS, Leftovers and Food Safety: left-overs are reheated to 165 °F.
const REHEATED: Celsius = Celsius(74.0);

/// The meals of one week.
#[derive(Debug, Clone, PartialEq)]
pub struct WeekCard {
    pub week: String,
    pub from: Date,
    pub days: Vec<CardDay>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardDay {
    pub on: Date,
    pub meals: Vec<CardMeal>,
    /// "Move 3 portions of pearl barley from the freezer to the fridge".
    pub tonight: Vec<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMeal {
    /// "Mon supper".
    pub label: String,
    pub name: Option<String>,
    pub dishes: Vec<CardDish>,
    /// "75 g feta", in the order of the meal's lines.
    pub fresh: Vec<String>,
    /// What is made at the meal, with its steps.
    pub made: Vec<CardMaking>,
}

/// A cooked dish that is taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct CardDish {
    pub dish: String,
    /// "2½ portions".
    pub amount: String,
    /// `None`: straight from the pot.
    pub place: Option<Place>,
    /// "heat to 74 °C (165 °F)", "cold".
    pub heating: String,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CardMaking {
    pub dish: String,
    pub steps: Vec<String>,
}

/// The card of a week: every day that has a meal or a move, in order.
pub fn week_card(kitchen: &Kitchen, week: &Week, makings: &Makings) -> WeekCard {
    let mut dates: Vec<Date> = week.meals.iter().map(|meal| meal.at_time.date()).chain(makings.moves.iter().map(|one| one.on)).collect();
    dates.sort();
    dates.dedup();
    let day = |on: Date| {
        let mut meals: Vec<usize> = (0..week.meals.len()).filter(|index| week.meals[*index].at_time.date() == on).collect();
        meals.sort_by_key(|index| week.meals[*index].at_time);
        let tonight = makings.moves.iter().filter(|one| one.on == on).map(|one| move_text(kitchen, one)).collect();
        CardDay { on, meals: meals.into_iter().map(|meal| card_meal(kitchen, week, makings, meal)).collect(), tonight }
    };
    WeekCard { week: week.name.clone(), from: week.from, days: dates.into_iter().map(day).collect() }
}

fn card_meal(kitchen: &Kitchen, week: &Week, makings: &Makings, index: usize) -> CardMeal {
    let meal = &week.meals[index];
    let food = |line: &&(&crate::kitchen::Ingredient, f64)| matches!(line.0.wanted, Wanted::Food { .. });
    let lines: Vec<_> = served_lines(meal).collect();
    let fresh = lines.iter().filter(food).map(|(line, times)| {
        let prep = line.prep.as_ref().map_or_else(String::new, |prep| format!(", {prep}"));
        format!("{}{prep}", amount_and_food(kitchen, line, None, *times))
    });
    CardMeal {
        label: meal.label.clone(),
        name: meal.name.clone(),
        dishes: dishes(kitchen, makings, index),
        fresh: fresh.collect(),
        made: makings.makings.iter().filter(|making| making.at == MadeAt::Meal(index)).map(|making| made(kitchen, making)).collect(),
    }
}

fn dishes(kitchen: &Kitchen, makings: &Makings, meal: usize) -> Vec<CardDish> {
    let lots = makings.cooked_draws.iter().filter(|draw| draw.by.contains(&MadeAt::Meal(meal))).filter_map(|draw| match draw.of {
        DrawOf::Recipe(recipe) => {
            let place = if draw.place == Place::Freezer { Place::Fridge } else { draw.place };
            Some(dish(kitchen, recipe, &draw.amount, Some(place)))
        }
        DrawOf::Food(_) => None,
    });
    let sessions = makings.makings.iter().filter(|making| matches!(making.at, MadeAt::Session(_)));
    let uses = sessions.flat_map(|making| making.uses.iter().map(move |one| (making.recipe, one)));
    // What was frozen has been moved to the fridge the day before.
    let eaten = uses.filter(|(_, one)| one.by == User::Meal(meal)).map(|(recipe, one)| {
        let place = (one.kept != Kept::Straight).then_some(Place::Fridge);
        dish(kitchen, recipe, &one.amount, place)
    });
    lots.chain(eaten).collect()
}

fn dish(kitchen: &Kitchen, recipe: RecipeId, amount: &Quantity, place: Option<Place>) -> CardDish {
    let recipe = &kitchen.recipes[recipe.0];
    let heat = degrees(REHEATED, kitchen.print.units);
    let heating = match (place, recipe.serve) {
        (None, _) => String::new(),
        (_, Some(Serve::Cold)) => "cold".to_owned(),
        (_, Some(Serve::Hot)) => format!("heat to {heat}"),
        (_, None) => format!("cold, or heated to {heat}"),
    };
    CardDish { dish: recipe.name.clone(), amount: counted(amount, kitchen.print.units), place, heating }
}

fn made(kitchen: &Kitchen, making: &crate::plan::Making) -> CardMaking {
    let recipe = &kitchen.recipes[making.recipe.0];
    let units = kitchen.print.units;
    let step = |number: usize| {
        let asked = &recipe.steps[number];
        let mut text = step_text(kitchen, making.recipe, number, making.batches);
        let mut add = |more: String| {
            let stop = if text.is_empty() || text.ends_with(['.', '!', '?', ':']) { "" } else { "." };
            text.push_str(&format!("{stop} {more}"));
        };
        let place = asked.on.first().map(|id| sentence(&kitchen.appliances[id.0].name));
        let warm = asked.temperature.map(|celsius| degrees(celsius, units));
        let wait = (asked.wait.0 > 0).then(|| format!("{} min", asked.wait.0));
        let facts: Vec<String> = place.into_iter().chain(warm).chain(wait).collect();
        if !facts.is_empty() {
            add(format!("{}.", facts.join(", ")));
        }
        if let Some(inside) = asked.inside {
            add(format!("Until the inside reaches {}.", degrees(inside, units)));
        }
        text
    };
    CardMaking { dish: recipe.name.clone(), steps: (0..recipe.steps.len()).map(step).collect() }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use crate::kitchen::load;

    /// The sample week's card, and the meal of one label.
    fn card() -> WeekCard {
        let loaded = load(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-data"))).expect("a kitchen without mistakes");
        let week = &loaded.weeks[0].1;
        week_card(&loaded.kitchen, week, &crate::plan::plan(&loaded.kitchen, week).expect("a plan"))
    }

    fn meal<'c>(card: &'c WeekCard, label: &str) -> &'c CardMeal {
        card.days.iter().flat_map(|day| &day.meals).find(|meal| meal.label == label).expect("the meal")
    }

    #[test]
    fn a_meal_says_what_comes_out_and_whether_it_is_heated() {
        let card = card();
        let monday = meal(&card, "Mon supper");
        let chicken = monday.dishes.iter().find(|dish| dish.dish.starts_with("Chicken thighs")).expect("the chicken");
        // 2.5 eaters, a portion each.
        assert_eq!((chicken.amount.as_str(), chicken.place), ("2½ portions", Some(Place::Fridge)));
        assert!(chicken.heating.contains("74 °C (165 °F)"));
        let yoghurt = monday.dishes.iter().find(|dish| dish.dish == "Herb yoghurt").expect("the yoghurt");
        assert_eq!(yoghurt.heating, "cold");
    }

    #[test]
    fn what_is_added_fresh_is_for_the_whole_table() {
        // 2.5 × 30 g of feta, and one lemon for all, with what is left of it after trimming.
        assert_eq!(meal(&card(), "Tue supper").fresh, ["75 g feta", "1 lemon (60 g)"]);
    }

    #[test]
    fn a_dish_made_at_the_meal_has_its_steps_with_heat_and_time() {
        let card = card();
        let made = &meal(&card, "Thu supper").made;
        assert_eq!(made.len(), 1);
        assert!(
            made[0].steps[1].contains("Oven, 190 °C (375 °F), 18 min. Until the inside reaches 63 °C (145 °F)."),
            "{:?}",
            made[0].steps
        );
    }

    #[test]
    fn a_move_stands_on_the_evening_it_is_done() {
        let card = card();
        let sunday = card.days.first().expect("a day");
        assert_eq!(sunday.on, jiff::civil::date(2026, 11, 29));
        assert_eq!(sunday.tonight, ["Move 1 portion of pearl barley from the freezer to the fridge"]);
    }
}
