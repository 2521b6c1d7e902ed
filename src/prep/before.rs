//! What is done before a session or a meal: soaking, marinating, taking out of the freezer.

use jiff::Span;
use jiff::civil::{Date, DateTime};

use super::advised::{Advice, Job as Told};
use super::ahead::{minutes, starts};
use super::boxes::errand;
use super::links::{holds_grain, is_hot};
use super::text::making_text;
use super::uses::first_uses;
use super::{Before, Begun, Errand, Moment, SessionPlan, Task};
use crate::foods::safety::{CHILLED_WITHIN, GRAINS_CHILLED_WITHIN};
use crate::foods::{FoodId, Foods, Place};
use crate::kitchen::{Kitchen, RecipeId, Ware, Week};
use crate::measure::{Minutes, Number, Quantity};
use crate::plan::{Batches, Draw, MadeAt, Making, Makings, hands_for};
use crate::words::{degrees, duration, listed};

/// Steps done ahead and food to be thawed, by the clock; what has only a day comes first on it.
pub(super) fn before(kitchen: &Kitchen, week: &Week, makings: &Makings, draws: &[Draw], sessions: &[SessionPlan]) -> Vec<Before> {
    let mut dated = thawed(&kitchen.foods, draws);
    dated.extend(done_ahead(kitchen, week, makings, sessions));
    dated.sort_by_key(|note| note.at);
    dated
}

/// Portions to be moved from the freezer to the fridge.
pub(super) fn moves(makings: &Makings) -> Vec<Before> {
    makings.moves.iter().map(|one| Before { at: Moment::On(one.on), errand: errand(one) }).collect()
}

/// `sessions` as they are planned, one a session of the week.
fn done_ahead(kitchen: &Kitchen, week: &Week, makings: &Makings, sessions: &[SessionPlan]) -> Vec<Before> {
    let mut dated = Vec::new();
    for making in &makings.makings {
        let (start, plan) = match making.at {
            MadeAt::Session(index) => (week.sessions.get(index).map(|session| session.start), sessions.get(index)),
            MadeAt::Meal(index) => (week.meals.get(index).map(|meal| meal.at_time), None),
        };
        let Some(start) = start else { continue };
        let recipe = making.recipe;
        // What is made at a meal is not planned by the minute: there all follows at the meal.
        let planned = |step: usize| plan.map_or(vec![0], |plan| starts_of(plan, recipe, step));
        for (step, at) in starts(kitchen, making, start, &planned) {
            let text = ahead_text(kitchen, making, step);
            dated.push(Before { at: Moment::At(at), errand: Errand::Step { recipe, step, text, bought: Vec::new() } });
        }
    }
    dated
}

/// What is done ahead in the recipe's words with the amounts of the making; of what is heated also how long, on what and how hot.
pub fn ahead_text(kitchen: &Kitchen, making: &Making, step: usize) -> String {
    let text = making_text(kitchen, making, step, &Number::ONE);
    let asked = &kitchen.recipes[making.recipe].steps[step];
    if !is_hot(&kitchen.appliances, asked) {
        return text;
    }
    let (hands, wait) = (hands_for(asked, making.batches.to_f64(), kitchen.rules.pace), asked.waits(&kitchen.appliances));
    let alone = if hands > 0 { "then " } else { "" };
    let times = [(hands > 0).then(|| duration(hands)), (wait > 0).then(|| format!("{alone}{} on its own", duration(wait)))];
    let units = kitchen.print.units;
    let on: Vec<String> = asked.on.iter().map(|id| kitchen.appliances[*id].name.clone()).collect();
    let heat = asked.temperature.map(|heat| degrees(heat, units));
    let inside = asked.inside.map(|heat| format!("until the inside reaches {}", degrees(heat, units)));
    let place = (!on.is_empty()).then(|| listed(&on)).into_iter().chain(heat).collect::<Vec<_>>().join(", ");
    let times = times.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let facts: Vec<String> = [times, place, inside.unwrap_or_default()].into_iter().filter(|fact| !fact.is_empty()).collect();
    if facts.is_empty() { text } else { format!("{} ({})", text.trim_end_matches('.'), facts.join("; ")) }
}

/// What leaves the heat ahead of a session and then stands for longer than is safe, until it is boxed or heated again. What a later step
/// done ahead handles is that step's.
pub(super) fn stands_too_long(kitchen: &Kitchen, makings: &Makings, session: usize, plan: &SessionPlan) -> Vec<Advice> {
    let mut said = Vec::new();
    for making in makings.makings.iter().filter(|making| making.at == MadeAt::Session(session)) {
        let (recipe, steps) = (making.recipe, &kitchen.recipes[making.recipe].steps);
        let ends = minutes(kitchen, making, Some(plan.start), &|step| starts_of(plan, recipe, step)).into_iter().map(|(step, at)| {
            let asked = &steps[step];
            (at + hands_for(asked, making.batches.to_f64(), kitchen.rules.pace) + asked.waits(&kitchen.appliances), step)
        });
        let Some((off, step)) = ends.max().filter(|(_, step)| is_hot(&kitchen.appliances, &steps[*step])) else { continue };
        let chilled = |task: &Task| task.boxing().is_some_and(|boxing| boxing.into.iter().any(|kept| kept.place != Place::Cupboard));
        let heated = |task: &Task| task.step().is_some_and(|one| is_hot(&kitchen.appliances, &steps[one.step]));
        let next = plan.tasks.iter().filter(|task| task.recipe() == Some(recipe) && (chilled(task) || heated(task)));
        let Some(next) = next.min_by_key(|task| task.start_minute) else { continue };
        let (job, is_grain) = match next.step() {
            Some(one) => (Told::Step { recipe, step: one.step, round: None }, false),
            None => (Told::Boxing(recipe), holds_grain(kitchen, &kitchen.recipes[recipe])),
        };
        let limit = if is_grain { GRAINS_CHILLED_WITHIN } else { CHILLED_WITHIN }.value.0;
        let stands = next.start_minute - off;
        if stands > limit {
            said.push(Advice::NotSafe { job, before: Told::Step { recipe, step, round: None }, minutes: stands, limit });
        }
    }
    said
}

/// What the steps done ahead of a session have taken of its foods, and since when.
pub(super) fn begun(kitchen: &Kitchen, makings: &Makings, session: usize, plan: &SessionPlan) -> Vec<Begun> {
    let mut all: Vec<(Ware, f64)> = Vec::new();
    let mut taken: Vec<(Ware, f64, DateTime)> = Vec::new();
    for making in makings.makings.iter().filter(|making| making.at == MadeAt::Session(session)) {
        let recipe = making.recipe;
        let ahead = starts(kitchen, making, plan.start, &|step| starts_of(plan, recipe, step));
        for step in 0..kitchen.recipes[recipe].steps.len() {
            let uses = first_uses(kitchen, making, step, &Number::ONE);
            if let Some((_, at)) = ahead.iter().find(|(one, _)| *one == step) {
                taken.extend(uses.iter().map(|(of, amount)| (*of, *amount, *at)));
            }
            all.extend(uses);
        }
    }
    let sum = |of: Ware| all.iter().filter(|(one, _)| *one == of).map(|(_, amount)| amount).sum::<f64>();
    let mut begun: Vec<Begun> = Vec::new();
    for (of, amount, at) in taken.into_iter().filter(|(_, amount, _)| *amount > 0.0) {
        let share = amount / sum(of);
        match begun.iter_mut().find(|one| one.of == of) {
            Some(one) => (one.share, one.since) = (one.share + share, one.since.min(at)),
            None => begun.push(Begun { of, share, since: at }),
        }
    }
    begun
}

/// When the first of what is done ahead of a dish begins that would be made at a meal; `None` where nothing is done ahead.
pub fn begins_ahead(kitchen: &Kitchen, recipe: RecipeId, amount: &Quantity, meal: DateTime) -> Option<DateTime> {
    let batches = Batches::to_yield(&kitchen.recipes[recipe], &kitchen.foods, amount.exact());
    let makes = batches.make(&kitchen.recipes[recipe]);
    let at = MadeAt::Meal(0);
    let making = Making { recipe, at, on: meal.date(), batches, makes, uses: vec![], spare: None, boxes: vec![], apart: vec![] };
    starts(kitchen, &making, meal, &|_| vec![0]).into_iter().map(|(_, at)| at).min()
}

/// Each step of a making that is done ahead, with how long before minute 0 it begins, by a clock that knows no night: before its session,
/// where there is a `plan`, else before its meal.
pub fn leads(kitchen: &Kitchen, making: &Making, plan: Option<&SessionPlan>) -> Vec<(usize, Minutes)> {
    let planned = |step: usize| plan.map_or(vec![0], |plan| starts_of(plan, making.recipe, step));
    minutes(kitchen, making, None, &planned).into_iter().map(|(step, at)| (step, Minutes(-at))).collect()
}

fn starts_of(plan: &SessionPlan, recipe: RecipeId, step: usize) -> Vec<i64> {
    let rounds = plan.tasks.iter().filter(|task| task.step().is_some_and(|one| one.recipe == recipe && one.step == step));
    rounds.map(|task| task.start_minute).collect()
}

/// Food of one day's thawing.
struct Thawing {
    on: Date,
    food: FoodId,
    amount: Quantity,
}

/// One errand per food and day, however many lots it comes from.
fn thawed(foods: &Foods, draws: &[Draw]) -> Vec<Before> {
    let mut takings: Vec<Thawing> = Vec::new();
    for draw in draws.iter().filter(|draw| draw.place == Place::Freezer) {
        let Ware::Food(food) = draw.of else { continue };
        let Some(days) = foods[food].thaw.as_ref().map(|fact| fact.value.0) else { continue };
        let Some(on) = Span::new().try_days(days).ok().and_then(|days| draw.on.checked_sub(days).ok()) else { continue };
        let same = |one: &&mut Thawing| one.on == on && one.food == food && one.amount.dimension() == draw.amount.dimension();
        match takings.iter_mut().find(same).and_then(|one| one.amount.plus(&draw.amount).map(|sum| (one, sum))) {
            Some((one, sum)) => one.amount = sum,
            None => takings.push(Thawing { on, food, amount: draw.amount.clone() }),
        }
    }
    let errand = |one: Thawing| Before { at: Moment::On(one.on), errand: Errand::Thaw { food: one.food, amount: one.amount } };
    takings.into_iter().map(errand).collect()
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use pretty_assertions::assert_eq;

    use super::*;
    use crate::foods::Fact;
    use crate::kitchen::Step;
    use crate::measure::{Days, Unit};
    use crate::prep::testing::*;

    #[test]
    fn soaking_is_dated_from_the_session_s_start() {
        // 14:00 less 12 h is 02:00, with nobody's hands; 200 g x 1.5.
        let mut kitchen = kitchen();
        let beans = food(&mut kitchen, "dried white beans", "pulse");
        let soak = Step { text: vec![words("Soak "), named(0), words(" in cold water")], ahead: Some(Minutes(720)), ..step("") };
        let mut mash = recipe("mash", "White-bean mash", 6.0, vec![soak, step("Mash.")]);
        mash.ingredients = vec![ingredient("200 g dried white beans", beans, Some(item(200.0, Unit::Gram)), None)];
        kitchen.recipes = vec![mash];
        let makings = makings(vec![making(&kitchen, 0, 1.5)]);
        let notes = before(&kitchen, &week(), &makings, &[], &[]);
        let at = Moment::At(date(2026, 11, 29).at(2, 0, 0, 0));
        let text = "Soak 300 g dried white beans in cold water".into();
        assert_eq!(notes, [Before { at, errand: Errand::Step { recipe: crate::kitchen::RecipeId(0), step: 0, text, bought: vec![] } }]);
    }

    #[test]
    fn a_dish_made_at_a_meal_is_in_water_long_before_it() {
        // Supper at 18:30 less 16 h is 02:30: nobody's hands, so that is when. With hands, 20:00 of the evening before.
        let mut kitchen = kitchen();
        let soak = Step { ahead: Some(Minutes(16 * 60)), ..step("Soak.") };
        kitchen.recipes = vec![recipe("mash", "White-bean mash", 6.0, vec![soak, step("Mash.")])];
        let supper = date(2026, 12, 2).at(18, 30, 0, 0);
        let begins = |kitchen: &Kitchen| begins_ahead(kitchen, RecipeId(0), &Quantity::portions(2.5), supper);
        assert_eq!(begins(&kitchen), Some(date(2026, 12, 2).at(2, 30, 0, 0)));
        kitchen.recipes[0].steps[0].hands = Minutes(2);
        assert_eq!(begins(&kitchen), Some(date(2026, 12, 1).at(20, 0, 0, 0)));
        kitchen.recipes[0].steps[0].ahead = None;
        assert_eq!(begins(&kitchen), None);
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
            whose: None,
        };
        let notes = before(&kitchen, &week(), &Makings::default(), &[one(0), one(1)], &[]);
        let text = "Take 500 g minced beef out of the freezer and let it thaw in the fridge";
        let errand = Errand::Thaw { food: beef, amount: Quantity::grams(500.0) };
        assert_eq!(errand.text(kitchen.names(), kitchen.print.units), text);
        assert_eq!(notes, [Before { at: Moment::On(date(2026, 11, 27)), errand }]);
    }

    #[test]
    fn what_is_heated_ahead_tells_how_and_may_not_stand_about() {
        // 14:00 less 3 h is 11:00; 5 min by hand and 20 in the oven end at 11:25, minute -155.
        let mut kitchen = kitchen();
        kitchen.appliances = vec![appliance("oven", 2, true)];
        let roast = Step {
            ahead: Some(Minutes(180)),
            hands: Minutes(5),
            wait: Minutes(20),
            on: vec![crate::kitchen::ApplianceId(0)],
            temperature: Some(crate::measure::Celsius(180.0)),
            scales: false,
            ..step("Roast the roots.")
        };
        let mash = Step { hands: Minutes(5), ..step("Mash.") };
        kitchen.recipes = vec![recipe("mash", "Mash", 4.0, vec![roast.clone(), mash.clone()])];
        let makings = makings(vec![Making { boxes: two_in_the_fridge(), ..making(&kitchen, 0, 1.0) }]);
        let notes = before(&kitchen, &week(), &makings, &[], &[]);
        let told = notes[0].errand.text(kitchen.names(), kitchen.print.units);
        assert_eq!(told, "Roast the roots (5 min, then 20 min on its own; oven, 180 °C (355 °F))");
        // Boxed at 14:05, 2 h 40 min later; where it is chilled ahead, nothing is said.
        let said = |kitchen: &Kitchen| -> Vec<String> {
            let plan = crate::prep::prep(kitchen, &week(), &makings, &[], &[], crate::prep::Effort::Low);
            plan.sessions[0].advice.iter().map(|one| one.text(kitchen.names())).collect()
        };
        let told = "Not safe as planned: boxing of mash starts 2 h 40 min after the end of Mash, step 1, and 2 h is the most. Chill each \
                    load by itself as it leaves the heat, or do not keep it.";
        assert_eq!(said(&kitchen), [told]);
        let chill = Step { ahead: Some(Minutes(120)), hands: Minutes(1), ..step("Chill.") };
        kitchen.recipes[0].steps = vec![roast, chill, mash];
        assert_eq!(said(&kitchen), Vec::<String>::new());
    }
}
