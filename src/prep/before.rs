//! What is done before a session or a meal: soaking, marinating, taking out of the freezer.

use jiff::Span;
use jiff::civil::{Date, DateTime};

use super::Before;
use super::boxes::move_text;
use super::text::step_text;
use crate::foods::Place;
use crate::kitchen::{Kitchen, Ware, Week};
use crate::measure::{Quantity, show};
use crate::plan::{Draw, MadeAt, Makings};
use crate::words::plural;

/// Steps done ahead and food to be thawed, by the clock; what has only a day comes first on it.
pub(super) fn before(kitchen: &Kitchen, week: &Week, makings: &Makings, draws: &[Draw]) -> Vec<Before> {
    let mut dated: Vec<(Date, Option<DateTime>, String)> = thawed(kitchen, draws);
    dated.extend(done_ahead(kitchen, week, makings));
    dated.sort_by_key(|(day, at, _)| (*day, *at));
    dated.into_iter().map(|(day, at, text)| Before { at: at.map_or_else(|| day.to_string(), clock), text }).collect()
}

/// Portions to be moved from the freezer to the fridge.
pub(super) fn moves(kitchen: &Kitchen, makings: &Makings) -> Vec<Before> {
    makings.moves.iter().map(|one| Before { at: one.on.to_string(), text: move_text(kitchen, one) }).collect()
}

/// `2026-11-29T14:00`.
pub(super) fn clock(at: DateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M").to_string()
}

fn done_ahead(kitchen: &Kitchen, week: &Week, makings: &Makings) -> Vec<(Date, Option<DateTime>, String)> {
    let mut dated = Vec::new();
    for making in &makings.makings {
        let start = match making.at {
            MadeAt::Session(index) => week.sessions.get(index).map(|session| session.start),
            MadeAt::Meal(index) => week.meals.get(index).map(|meal| meal.at_time),
        };
        for (step, ahead) in kitchen.recipes[making.recipe].steps.iter().enumerate().filter_map(|(s, step)| step.ahead.map(|a| (s, a))) {
            let Some(at) = start.and_then(|start| start.checked_sub(Span::new().try_minutes(ahead.0).ok()?).ok()) else { continue };
            dated.push((at.date(), Some(at), step_text(kitchen, making.recipe, step, making.batches)));
        }
    }
    dated
}

/// One line per food and day, however many lots it comes from.
fn thawed(kitchen: &Kitchen, draws: &[Draw]) -> Vec<(Date, Option<DateTime>, String)> {
    let mut takings: Vec<(Date, crate::foods::FoodId, Quantity)> = Vec::new();
    for draw in draws.iter().filter(|draw| draw.place == Place::Freezer) {
        let Ware::Food(food) = draw.of else { continue };
        let Some(days) = kitchen.foods[food].thaw.as_ref().map(|fact| fact.value.0) else { continue };
        let Some(day) = Span::new().try_days(days).ok().and_then(|days| draw.on.checked_sub(days).ok()) else { continue };
        let same = takings.iter_mut().find(|(on, of, amount)| *on == day && *of == food && amount.dimension() == draw.amount.dimension());
        match same.and_then(|(_, _, amount)| amount.plus(&draw.amount).map(|sum| (amount, sum))) {
            Some((amount, sum)) => *amount = sum,
            None => takings.push((day, food, draw.amount.clone())),
        }
    }
    let text = |food, amount: &Quantity| {
        format!(
            "Take {} {} out of the freezer and let it thaw in the fridge",
            show(amount, kitchen.print.units),
            name(kitchen, food, amount)
        )
    };
    takings.iter().map(|(day, food, amount)| (*day, None, text(*food, amount))).collect()
}

fn name(kitchen: &Kitchen, food: crate::foods::FoodId, amount: &Quantity) -> String {
    let name = &kitchen.foods[food].name;
    if matches!(amount, Quantity::Count(n) if *n > 1.0) { plural(name) } else { name.clone() }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::Fact;
    use crate::kitchen::Step;
    use crate::measure::{Days, Minutes, Unit};
    use crate::prep::testing::*;

    #[test]
    fn soaking_is_dated_from_the_session_s_start() {
        // 14:00 less 12 h is 02:00; 200 g x 1.5.
        let mut kitchen = kitchen();
        let beans = food(&mut kitchen, "dried white beans", "pulse");
        let soak = Step { text: vec![words("Soak "), named(0), words(" in cold water")], ahead: Some(Minutes(720)), ..step("") };
        let mut mash = recipe("mash", "White-bean mash", 6.0, vec![soak, step("Mash.")]);
        mash.ingredients = vec![ingredient("200 g dried white beans", beans, Some(item(200.0, Unit::Gram)), None)];
        kitchen.recipes = vec![mash];
        let makings = makings(vec![making(&kitchen, 0, 1.5)]);
        let notes = before(&kitchen, &week(), &makings, &[]);
        assert_eq!(notes, [Before { at: "2026-11-29T02:00".into(), text: "Soak 300 g dried white beans in cold water".into() }]);
    }

    #[test]
    fn frozen_food_is_taken_out_its_thawing_days_before() {
        // Two lots of 250 g, two days: 500 g on Friday for Sunday.
        let mut kitchen = kitchen();
        let beef = food(&mut kitchen, "minced beef", "raw minced meat");
        kitchen.foods.all[0].thaw = Some(Fact { value: Days(2), source: "FSIS 1".into() });
        let one = |lot| Draw {
            of: Ware::Food(beef),
            lot,
            amount: Quantity::grams(250.0),
            place: Place::Freezer,
            on: date(2026, 11, 29),
            what_for: vec![],
            by: vec![MadeAt::Session(0)],
            look_first: false,
        };
        let notes = before(&kitchen, &week(), &Makings::default(), &[one(0), one(1)]);
        let text = "Take 500 g minced beef out of the freezer and let it thaw in the fridge";
        assert_eq!(notes, [Before { at: "2026-11-27".into(), text: text.into() }]);
    }
}
